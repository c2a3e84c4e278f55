//! What strangers send: hostile names, notes, files and links, through every screen, on paper and in the shared file.

use crate::faults::Bench;
use crate::maker::{Folder, Maker, Phone};
use crate::site::Site;
use pourwright::job::file::MOST_MEMBERS;
use pourwright::job::{Job, file};
use pourwright::mix::demo;
use pourwright::store::{Backup, backup_page, share_link};
use serde_json::{Value, json};

const SCRIPT: &str = include_str!("hostile.js");

fn texts() -> Vec<String> {
    serde_json::from_str(include_str!("../samples/hostile.json")).expect("a list of texts")
}

/// Every text of a file, changed by `change`, which is given its field's name and a running number.
fn each_text(value: &mut Value, field: &str, count: &mut usize, change: &mut impl FnMut(&str, usize, &mut String)) {
    match value {
        Value::String(text) => {
            change(field, *count, text);
            *count += 1;
        }
        Value::Array(members) => members.iter_mut().for_each(|member| each_text(member, field, count, change)),
        Value::Object(members) => {
            members.iter_mut().for_each(|(name, member)| each_text(member, name, count, change));
        }
        _ => {}
    }
}

fn sample() -> Value {
    serde_json::from_str(include_str!("../samples/job-v3.json")).expect("a sample is JSON")
}

/// The job that uses everything, with hostile words wherever a maker writes words; its numbers stand.
fn hostile_words(turn: usize) -> String {
    const WORDS: [&str; 9] = ["name", "client", "notes", "sealer", "excluded", "maker", "label", "text", "says"];
    let texts = texts();
    let mut value = sample();
    each_text(&mut value["job"], "", &mut 0, &mut |field, count, text| {
        let words = text.chars().any(char::is_alphabetic) || text.is_empty();
        if WORDS.contains(&field) && words {
            *text = texts[(count + turn) % texts.len()].clone();
        }
    });
    value["job"]["name"] = json!(texts[turn % texts.len()]);
    let text = value.to_string();
    file::read(&text).expect("it is still a job");
    text
}

/// The same with a hostile text in every field there is, numbers too; what only takes known words keeps them.
fn hostile_everywhere() -> String {
    let texts = texts();
    let mut count = 0;
    each_text(&mut sample()["job"], "", &mut count, &mut |_, _, _| {});
    let mut value = sample();
    for place in 0..count {
        let mut tried = value.clone();
        each_text(&mut tried["job"], "", &mut 0, &mut |field, at, text| {
            if at == place && field != "id" && field != "bag" {
                *text = texts[place % texts.len()].clone();
            }
        });
        if file::read(&tried.to_string()).is_ok() {
            value = tried;
        }
    }
    value.to_string()
}

/// The shared file by itself, as a stranger opens it: no script in it but data, and no request.
async fn the_shared_file_is_still(maker: &Maker, shared: &str) {
    let folder = Folder::new("hostile-file");
    let path = folder.0.join("shared.html");
    std::fs::write(&path, shared).expect("a file");
    maker.driver.goto(format!("file://{}", path.display())).await.expect("the file opens");
    let seen = maker
        .ask(
            "return { harmed: 'harmed' in window, scripts: [...document.scripts].map(s => s.type), \
             requests: performance.getEntriesByType('resource').length, \
             handlers: [...document.querySelectorAll('*')].filter(e => [...e.attributes].some(a => /^on/i.test(a.name))).length, \
             links: document.querySelectorAll('a, iframe, object, embed, img, form, base, link').length, \
             policy: document.querySelector('meta[http-equiv]').content }",
        )
        .await;
    let wanted = json!({
        "harmed": false, "scripts": ["application/json"], "requests": 0, "handlers": 0, "links": 0,
        "policy": "default-src 'none'; style-src 'unsafe-inline'",
    });
    assert_eq!(seen, wanted);
}

#[tokio::test]
async fn hostile_words_are_shown_as_words_on_every_screen() {
    let bench = Bench::set_up().await;
    for turn in [0, 13, 26] {
        let file = hostile_words(turn);
        let seen = bench.run(SCRIPT, &format!("through({})", json!(file))).await;
        assert_eq!(seen["broken"], json!([]), "turn {turn}");
        let shown = seen["seen"].as_str().expect("texts");
        let texts = texts();
        let met = texts.iter().filter(|text| shown.contains(text.trim_matches(|c: char| c.is_control()))).count();
        assert!(met >= 10, "only {met} of the texts are seen anywhere");
        let shared = seen["shared"].as_str().expect("a file");
        assert!(shared.contains("</html>"), "turn {turn}: it is shared, not {}: {shared}", seen["sharing"]);
        if turn == 26 {
            the_shared_file_is_still(&bench.maker, shared).await;
        }
    }
    bench.maker.close().await;
}

#[tokio::test]
async fn a_hostile_text_in_every_field_harms_nothing() {
    // Before there is a browser, which would wait for it.
    let file = hostile_everywhere();
    let bench = Bench::set_up().await;
    let seen = bench.run(SCRIPT, &format!("through({})", json!(file))).await;
    assert_eq!(seen["broken"], json!([]));
    the_shared_file_is_still(&bench.maker, seen["shared"].as_str().expect("a file")).await;
    bench.maker.close().await;
}

#[tokio::test]
async fn hostile_links_files_and_records_harm_nothing() {
    let bench = Bench::set_up().await;
    let mut addresses: Vec<String> = Vec::new();
    for text in texts() {
        addresses.extend([format!("#{text}"), format!("#/job/{text}/{text}"), format!("#/link/1.{text}")]);
    }
    for turn in 0..3 {
        let mut job = demo("stranger");
        let texts = texts();
        job.name = texts[turn].as_str().into();
        job.client = texts[turn + 8].as_str().into();
        job.notes = texts.join("\n").as_str().into();
        job.pieces.iter_mut().for_each(|piece| piece.name = texts[turn + 16].as_str().into());
        let link = share_link(&job, "").expect("it fits");
        addresses.push(link);
    }
    let count = addresses.len();
    let seen = bench.run(SCRIPT, &format!("addresses({})", json!(addresses))).await;
    assert_eq!(seen["broken"], json!([]));
    let said = seen["said"].as_array().expect("what stood there");
    assert_eq!(said.len(), count);
    let arrived = said.iter().rev().take(3).all(|text| text.as_str().is_some_and(|text| text.contains("Bring it in")));
    assert!(arrived, "the three jobs arrive: {:?}", &said[count - 3..]);
    let texts = texts();
    let seen = bench.run(SCRIPT, &format!("files({})", json!(texts))).await;
    assert_eq!(seen["broken"], json!([]));
    assert_eq!(seen["unreadable"], texts.len());
    assert!(seen["said"].as_str().expect("words").contains("<img src=x onerror=harmed=1>.html"), "{}", seen["said"]);
    bench.maker.close().await;
}

/// Pastes a text and brings it in; every word of the progress is kept in `window.steps`, and the first one is
/// answered by `then`.
async fn paste_and_watch(maker: &Maker, text: &str, then: &str) {
    maker.press("Import").await;
    let script = "document.querySelector('#import-text').value = arguments[0]; window.steps = []; \
         new MutationObserver(() => { const bar = document.querySelector('#importing'); if (!bar) return; \
         window.steps.push(bar.innerText); THEN }).observe(document.body, { childList: true, subtree: true, characterData: true });";
    let script = script.replace("THEN", then);
    maker.driver.execute(&script, vec![json!(text)]).await.expect("it is pasted");
    maker.press("Import the pasted text").await;
}

/// A backup of so many worked jobs.
pub fn large_backup(jobs: usize) -> String {
    let job = |index: usize| {
        let mut job = demo(&format!("large{index}"));
        job.name = format!("Counter {index}").as_str().into();
        job
    };
    backup_page(&Backup { jobs: (0..jobs).map(job).collect(), ..Backup::default() }, "")
}

async fn jobs_kept(maker: &Maker) -> usize {
    maker.records().await.keys().filter(|key| key.starts_with("pourwright/job/")).count()
}

#[tokio::test]
async fn a_large_backup_comes_in_with_progress() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    paste_and_watch(&maker, &large_backup(160), "").await;
    maker.see("#imported", "160 jobs are on your shelf.").await;
    let steps = maker.ask("return window.steps").await;
    let told = steps.as_array().is_some_and(|steps| steps.iter().any(|step| step.to_string().contains("of 160 jobs")));
    assert!(told, "{steps}");
    assert_eq!(jobs_kept(&maker).await, 160);
    maker.done().await;
}

#[tokio::test]
async fn a_large_backup_can_be_stopped_and_what_is_in_stays() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    let stop = "if (!/(^|\\D)0 of/.test(bar.innerText)) bar.querySelector('button').click();";
    paste_and_watch(&maker, &large_backup(600), stop).await;
    maker.see("#imported", "What was brought in stays.").await;
    let kept = jobs_kept(&maker).await;
    assert!(kept > 0 && kept < 600, "{kept} are in");
    maker.see("#imported", &format!("{} were left out", 600 - kept)).await;
    maker.done().await;
}

/// A record as the page keeps one, without its sum.
fn record(job: &Job) -> String {
    let text = file::write(job);
    let (head, content) = text.split_once("\"job\":").expect("a job's file");
    format!("{head}\"revision\":1,\"touched\":1790000000000,\"writer\":\"test\",\"job\":{content}")
}

async fn open_with(maker: &Maker, job: &Job) {
    let script = format!("localStorage.setItem('pourwright/job/{}', {}); return 1", job.id, json!(record(job)));
    maker.ask(&script).await;
    maker.ask(&format!("location.hash = '#/job/{}/measure'; return 1", job.id)).await;
}

#[tokio::test]
async fn a_job_that_is_too_large_tells_its_name_and_can_be_deleted() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    let mut job = demo("large");
    job.pieces = vec![job.pieces[0].clone(); MOST_MEMBERS + 1];
    open_with(&maker, &job).await;
    maker.see("main[data-screen='Lost']", "101 pieces").await;
    for words in [job.name.text(), "pieces 1, width", job.pieces[0].width.text()] {
        maker.see("[aria-label='What is kept of it']", words).await;
    }
    let watch = "const make = URL.createObjectURL; window.saved = null; URL.createObjectURL = blob => { \
         blob.text().then(text => { window.saved = text; }); return make.call(URL, blob); }; return 1";
    maker.ask(watch).await;
    maker.press("Save it as a file").await;
    maker.see(".notice", "Saved as pourwright-job.json").await;
    assert_eq!(maker.ask("return window.saved").await, record(&job), "to the letter");
    maker.press("Delete it").await;
    maker.wait_for("main[data-screen='Shelf']").await;
    assert_eq!(jobs_kept(&maker).await, 0);
    let kept = maker.records().await;
    assert!(kept.keys().any(|key| key.starts_with("pourwright/deleted/")), "it can be had back");
    maker.done().await;
}

#[tokio::test]
async fn no_piece_is_added_that_a_file_could_not_hold() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    let mut job = demo("full");
    job.pieces = vec![job.pieces[0].clone(); MOST_MEMBERS - 1];
    open_with(&maker, &job).await;
    maker.wait_for("#piece-0-width").await;
    maker.press("+ Piece").await;
    maker.wait_for("#piece-99-width").await;
    maker.press("+ Piece").await;
    maker.see(".notice", "at most 100 pieces").await;
    maker.is_kept().await;
    let kept = maker.ask("return JSON.parse(localStorage.getItem('pourwright/job/full')).job.pieces.length").await;
    assert_eq!(kept, 100);
    maker.done().await;
}

/// The policy that the page carries, word by word, before anything that it could govern.
#[tokio::test]
async fn the_policy_stands_first_and_allows_no_more_than_it_must() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    let found = maker
        .ask(
            "const all = [...document.querySelectorAll('meta[http-equiv]')]; const policy = all[0]; \
             const before = [...document.head.children].indexOf(policy); return [all.length, before, policy.content]",
        )
        .await;
    assert_eq!((&found[0], &found[1]), (&json!(1), &json!(0)), "one policy, the first thing in the head");
    let policy = found[2].as_str().expect("a policy");
    let mut rules: Vec<_> = policy.split(';').map(str::trim).collect();
    rules.sort_unstable();
    let wanted = [
        "base-uri 'none'",
        "connect-src 'self'",
        "default-src 'none'",
        "form-action 'none'",
        "img-src 'self' data: blob:",
        "manifest-src 'self'",
        "script-src 'self' 'wasm-unsafe-eval'",
        "style-src 'self'",
        "worker-src 'self'",
    ];
    assert_eq!(rules, wanted);
    // And the browser holds to it.
    let tries = "const stopped = []; document.addEventListener('securitypolicyviolation', event => stopped.push(event.effectiveDirective)); \
         const add = (name, set) => document.body.append(Object.assign(document.createElement(name), set)); \
         add('script', { textContent: 'window.harmed = 1' }); add('script', { src: 'data:text/javascript,harmed=1' }); \
         add('img', { src: 'http://127.0.0.1:9/x.png' }); add('iframe', { src: 'data:text/html,x' }); \
         add('object', { data: 'data:text/html,x' }); add('style', { textContent: 'main { display: none }' }); \
         add('a', { href: 'javascript:window.harmed=1', id: 'trap' }); document.getElementById('trap').click(); \
         setTimeout('window.harmed = 1', 0); return fetch('http://127.0.0.1:9/').catch(() => 0) \
         .then(() => new Promise(done => setTimeout(() => done(['harmed' in window, [...new Set(stopped)].sort()]), 300)))";
    let found = maker.ask(tries).await;
    assert_eq!(found[0], false, "nothing ran");
    for rule in ["connect-src", "frame-src", "img-src", "object-src", "script-src-elem", "style-src-elem"] {
        assert!(found[1].as_array().expect("rules").contains(&json!(rule)), "{rule} is enforced: {}", found[1]);
    }
    maker.close().await;
}
