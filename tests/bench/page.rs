//! The page in a real Chromium at fourfold slow-down, and one table of everything that is measured.
//!
//! `make bench` runs the calculating rooms' own benchmarks first; this reads their figures, measures the page in
//! `dist`, and prints all of it with the budget beside each. Nothing is asserted: a time says as much about the
//! machine as about the page.

#[allow(dead_code)]
#[path = "../browser/engine.rs"]
mod engine;
#[allow(dead_code)]
#[path = "../browser/maker.rs"]
mod maker;
#[allow(dead_code)]
#[path = "../browser/site.rs"]
mod site;
#[path = "../browser/sizes.rs"]
mod sizes;

mod jobs;

use maker::{Maker, Phone};
use pourwright::job::file::write;
use serde_json::{Value, json};
use site::Site;
use std::path::Path;
use std::time::Duration;

/// Keys typed for one measurement.
const KEYS: usize = 500;

/// Jobs on a full shelf.
const JOBS: usize = 500;

/// Runs before the page: notes when a screen stands, what each key costs, and what each save costs.
const WATCH: &str = r"
    new MutationObserver((_, observer) => {
        const value = document.querySelector('#headline-weight .value');
        if (value && /[0-9]/.test(value.textContent)) { window.stood = performance.now(); observer.disconnect(); }
    }).observe(document, { childList: true, subtree: true, characterData: true });
    window.keys = []; window.events = []; window.saves = [];
    const ends = new MessageChannel(); let begun;
    ends.port1.onmessage = () => window.keys.push(performance.now() - begun);
    addEventListener('input', () => { begun = performance.now(); ends.port2.postMessage(0); }, true);
    new PerformanceObserver(list => {
        // Only what takes 16 ms until it is shown is told: at a slowed processor, every key.
        for (const entry of list.getEntries()) if (entry.name === 'input')
            window.events.push({ name: entry.name, duration: entry.duration, script: entry.processingEnd - entry.processingStart });
    }).observe({ type: 'event', durationThreshold: 16, buffered: true });
    let wrote = false;
    const set = Storage.prototype.setItem, later = window.setTimeout;
    Storage.prototype.setItem = function (key, text) { wrote ||= key.startsWith('pourwright/job/'); set.call(this, key, text); };
    window.setTimeout = (then, ...rest) => later(() => {
        wrote = false;
        const start = performance.now();
        then();
        if (wrote) window.saves.push(performance.now() - start);
    }, ...rest);
";

/// One line of the table.
struct Line {
    what: String,
    found: String,
    budget: &'static str,
}

fn line(what: impl Into<String>, found: impl Into<String>, budget: &'static str) -> Line {
    Line { what: what.into(), found: found.into(), budget }
}

fn main() {
    // `cargo bench` and `cargo test` hand over words that only the other benchmarks understand.
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().expect("a runtime");
    let mut lines = weights();
    lines.extend(runtime.block_on(times()));
    lines.extend(runtime.block_on(lighthouse()));
    lines.extend(rooms());
    print(&lines);
    println!("\nWhere a budget of time is missed, this stands in the way:");
    for (what, way) in IN_THE_WAY {
        println!("- {what}: {way}");
    }
}

/// What is known to cost the most, by the budget.
const IN_THE_WAY: [(&str, &str); 3] = [
    ("a key", "the piece that it changes is worked out whole, at first in code that is not yet compiled in full"),
    (
        "the second visit",
        "code that runs for the first time is compiled as it is called, most of it to read and show the job",
    ),
    ("blocking time", "the same first-time compiling, when the workshop is mounted behind the shelf"),
];

fn print(lines: &[Line]) {
    let width = lines.iter().map(|line| line.what.chars().count()).max().unwrap_or_default();
    let found = lines.iter().map(|line| line.found.chars().count()).max().unwrap_or_default();
    println!("| {:width$} | {:found$} | budget |", "what", "measured");
    println!("| {:-<width$} | {:-<found$} | --- |", "", "");
    for line in lines {
        println!("| {:width$} | {:found$} | {} |", line.what, line.found, line.budget);
    }
}

/// What travels, compressed as a static host does it.
fn weights() -> Vec<Line> {
    let sizes = sizes::of(&Site::dist());
    let kilobytes = |bytes: usize| format!("{:.1} KB", bytes as f64 / 1000.0);
    vec![
        line("first visit, all of the first screen", kilobytes(sizes.first_screen), "250 KB"),
        line("everything a job needs besides", kilobytes(sizes.workshop), ""),
        line("the plate's own program", kilobytes(sizes.plates), "120 KB"),
    ]
}

/// The record of a job as the page keeps it.
fn record(id: &str, name: &str, pieces: usize) -> String {
    let mut job = jobs::counters(pieces);
    job.id = id.to_owned();
    job.name = name.into();
    let text = write(&job);
    let (head, content) = text.split_once("\"job\":").expect("a job's file");
    format!("{head}\"revision\":1,\"touched\":1790000000000,\"writer\":\"bench\",\"job\":{content}")
}

async fn put(maker: &Maker, key: &str, text: &str) {
    let script = format!("localStorage.setItem({}, {}); return 1", json!(key), json!(text));
    maker.ask(&script).await;
}

async fn slow_down(maker: &Maker, rate: f64) {
    let rate = json!({ "rate": rate });
    maker.driver.cdp().send_raw("Emulation.setCPUThrottlingRate", rate).await.expect("a slower processor");
}

async fn number(maker: &Maker, script: &str) -> f64 {
    maker.ask(script).await.as_f64().unwrap_or(f64::NAN)
}

/// Smallest value that at least `share` of them do not exceed.
fn quantile(values: &mut [f64], share: f64) -> f64 {
    values.sort_by(f64::total_cmp);
    let index = (values.len() as f64 * share).ceil() as usize;
    values.get(index.saturating_sub(1)).copied().unwrap_or(f64::NAN)
}

fn milliseconds(values: &mut [f64]) -> String {
    format!("{:.1} ms, half within {:.1}", quantile(values, 0.99), quantile(values, 0.5))
}

fn numbers(value: &Value) -> Vec<f64> {
    value.as_array().into_iter().flatten().filter_map(Value::as_f64).collect()
}

async fn times() -> Vec<Line> {
    let mut site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone { before: Some(WATCH), ..Phone::default() }).await;
    maker.see("#offline-words", "Ready").await;
    put(&maker, "pourwright/job/three", &record("three", "Three counters", 3)).await;
    let mut lines = Vec::new();

    // The second visit, with the network gone.
    let address = format!("{}#/job/three/measure", site.address());
    site.stop().await;
    let mut opened = Vec::new();
    for _ in 0..9 {
        maker.driver.goto("about:blank").await.expect("an empty page");
        slow_down(&maker, 4.0).await;
        maker.driver.goto(&address).await.expect("the page from its own store");
        maker.wait_for("#headline-weight").await;
        opened.push(number(&maker, "return window.stood").await);
    }
    lines.push(line(
        "second visit, offline, 4 times slower: the job with its numbers",
        format!("{:.0} ms, best {:.0}", quantile(&mut opened, 0.5), quantile(&mut opened, 0.0)),
        "500 ms",
    ));

    // Keys on a job of three pieces with five cutouts.
    maker.tap(&maker.wait_for("#piece-0-width").await).await;
    maker.ask("window.keys = []; window.events = []; return 1").await;
    for key in 0..KEYS {
        let (text, code) = if key % 2 == 0 { (Some("5"), "5") } else { (None, "Backspace") };
        let mut down = json!({ "type": "keyDown", "key": code, "code": code });
        if let Some(text) = text {
            down["text"] = json!(text);
        } else {
            down["windowsVirtualKeyCode"] = json!(8);
        }
        maker.driver.cdp().send_raw("Input.dispatchKeyEvent", down).await.expect("a key");
        let up = json!({ "type": "keyUp", "key": code, "code": code });
        maker.driver.cdp().send_raw("Input.dispatchKeyEvent", up).await.expect("a key");
    }
    tokio::time::sleep(Duration::from_secs(1)).await;
    let mut script = numbers(&maker.ask("return window.events.map(event => event.script)").await);
    lines.push(line(
        format!("a key until every number is written, 4 times slower: 99 of 100 within ({} keys)", script.len()),
        milliseconds(&mut script),
        "8 ms",
    ));
    let mut keys = numbers(&maker.ask("return window.keys").await);
    lines.push(line("the same with the drawing, laid out and painted", milliseconds(&mut keys), ""));
    let mut frames = numbers(&maker.ask("return window.events.map(event => event.duration)").await);
    lines.push(line("the same until it is shown, to the nearest 8 ms", milliseconds(&mut frames), ""));
    let mut saves = numbers(&maker.ask("return window.saves").await);
    lines.push(line("saving it, 4 times slower", milliseconds(&mut saves), ""));

    // A full shelf.
    slow_down(&maker, 1.0).await;
    for first in (0..JOBS).step_by(50) {
        let records: Vec<_> = (first..first + 50)
            .map(|index| {
                let id = format!("shelf{index}");
                (format!("pourwright/job/{id}"), record(&id, &format!("Counter {index}"), 1))
            })
            .collect();
        let script = format!("for (const [key, text] of {}) localStorage.setItem(key, text); return 1", json!(records));
        maker.ask(&script).await;
    }
    // Listed once, so that the list is known.
    maker.driver.goto("about:blank").await.expect("an empty page");
    maker.go_home().await;
    maker.see(".jobs", "Counter 499").await;
    let mut shelf = Vec::new();
    for _ in 0..9 {
        maker.driver.goto(&address).await.expect("the job");
        maker.wait_for("#headline-weight").await;
        let script = "return new Promise(done => { const start = performance.now(); new MutationObserver((_, observer) => {
                if (document.querySelectorAll('.jobs li').length > 499) { observer.disconnect(); requestAnimationFrame(() => setTimeout(() => done(performance.now() - start))); }
            }).observe(document.body, { childList: true, subtree: true }); location.hash = '#/'; })";
        shelf.push(number(&maker, script).await);
    }
    lines.push(line(
        "the shelf with 500 jobs, from the tap to its rows drawn",
        format!("{:.0} ms, best {:.0}", quantile(&mut shelf, 0.5), quantile(&mut shelf, 0.0)),
        "100 ms",
    ));
    maker.driver.goto(&address).await.expect("the job");
    maker.tap(&maker.wait_for("#piece-0-width").await).await;
    maker.ask("window.saves = []; return 1").await;
    for _ in 0..20 {
        maker.wait_for("#piece-0-width").await.send_keys("5").await.expect("a key");
        tokio::time::sleep(Duration::from_millis(600)).await;
    }
    let mut saves = numbers(&maker.ask("return window.saves").await);
    lines.push(line("saving one job of 500", milliseconds(&mut saves), "5 ms"));
    maker.close().await;
    lines
}

/// What Lighthouse says of the first visit, by its mobile preset.
async fn lighthouse() -> Vec<Line> {
    let Some(program) = std::env::var_os("LIGHTHOUSE") else {
        return vec![line("Lighthouse", "not there: `make bench` gets it", "")];
    };
    let site = Site::publish(&Site::dist()).await;
    let report = std::env::temp_dir().join(format!("pourwright-lighthouse-{}.json", std::process::id()));
    let flags = "--headless=new --no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking --disable-component-update --disable-sync";
    let mut command = std::process::Command::new(program);
    command
        .args([
            &site.address(),
            "--quiet",
            "--output=json",
            "--only-categories=performance,accessibility,best-practices",
        ])
        .arg(format!("--output-path={}", report.display()))
        .arg(format!("--chrome-flags={flags}"));
    // The site answers from this thread.
    let ran = tokio::task::spawn_blocking(move || command.status()).await;
    let text = if ran.is_ok_and(|ran| ran.is_ok()) { std::fs::read(&report).ok() } else { None };
    let read = text.and_then(|text| serde_json::from_slice::<Value>(&text).ok());
    let _ = std::fs::remove_file(&report);
    let Some(read) = read else { return vec![line("Lighthouse", "it did not run", "")] };
    let score = |category: &str| {
        let score = read.pointer(&format!("/categories/{category}/score")).and_then(Value::as_f64);
        score.map_or_else(|| "none".to_owned(), |score| format!("{:.0}", score * 100.0))
    };
    let audit = |name: &str| {
        let shown = read.pointer(&format!("/audits/{name}/displayValue")).and_then(Value::as_str);
        shown.unwrap_or("none").replace('\u{a0}', " ")
    };
    vec![
        line("Lighthouse, mobile: performance", score("performance"), "98"),
        line("Lighthouse: accessibility", score("accessibility"), "100"),
        line("Lighthouse: best practices", score("best-practices"), "100"),
        line("Lighthouse: largest paint", audit("largest-contentful-paint"), "1.5 s"),
        line("Lighthouse: blocking time", audit("total-blocking-time"), "50 ms"),
    ]
}

/// The figures that criterion left of the calculating rooms' benchmarks, natively.
fn rooms() -> Vec<Line> {
    let mut found = Vec::new();
    collect(Path::new("target/criterion"), &mut Vec::new(), &mut found);
    found.sort_by(|a, b| a.0.cmp(&b.0));
    found.into_iter().map(|(name, time)| line(format!("natively: {name}"), time, "")).collect()
}

fn collect(folder: &Path, names: &mut Vec<String>, found: &mut Vec<(String, String)>) {
    for entry in std::fs::read_dir(folder).into_iter().flatten().flatten() {
        let name = entry.file_name().to_string_lossy().into_owned();
        if name == "new" {
            let text = std::fs::read(entry.path().join("estimates.json")).ok();
            let read = text.and_then(|text| serde_json::from_slice::<Value>(&text).ok());
            let median = read.and_then(|read| read.pointer("/median/point_estimate").and_then(Value::as_f64));
            if let Some(nanoseconds) = median {
                found.push((names.join(", "), format!("{:.3} ms", nanoseconds / 1e6)));
            }
        } else if entry.path().is_dir() && name != "report" && name != "base" && name != "change" {
            names.push(name);
            collect(&entry.path(), names, found);
            names.pop();
        }
    }
}
