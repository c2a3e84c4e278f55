//! Hosts that lie, deploys that take files away, browsers that drop what they kept, and several tabs: the page opens,
//! goes on whole or says why not, and what was typed stays.

use crate::crack_day::a_narrow_top;
use crate::keeping::clients;
use crate::maker::{Folder, Maker, Phone};
use crate::offline::{copy, finish, opens, publish_next, version};
use crate::site::{Lie, Site};
use serde_json::{Value, json};
use std::path::Path;
use std::time::{Duration, Instant};
use thirtyfour::WindowHandle;

const NO_SERVICE_WORKER: &str = "delete Navigator.prototype.serviceWorker;";

/// What is kept of the page under an address: for every cache, its files with status and type.
const KEPT: &str = "const all = {}; const keys = (await caches.keys()).filter(name => name.startsWith('pourwright ')); \
    for (const key of keys) { const cache = await caches.open(key); all[key] = {}; \
    for (const request of await cache.keys()) { const kept = await cache.match(request); \
    all[key][request.url] = [kept.status, kept.headers.get('content-type')]; } }";

/// What an asynchronous script gives.
async fn ask(maker: &Maker, script: &str) -> Value {
    maker.ask(&format!("return (async () => {{ {script} }})()")).await
}

async fn kept(maker: &Maker) -> serde_json::Map<String, Value> {
    ask(maker, &format!("{KEPT} return all")).await.as_object().cloned().expect("caches")
}

/// Changes what is kept, by a script that is given a `cache` and the address of its file that holds `name`.
async fn spoil(maker: &Maker, name: &str, script: &str) {
    let whole = format!(
        "const cache = await caches.open((await caches.keys()).find(name => name.startsWith('pourwright '))); \
         const {{ url }} = (await cache.keys()).find(request => request.url.includes('{name}')); {script}; return url"
    );
    assert!(ask(maker, &whole).await.is_string());
}

/// How an attempt to fetch a newer version ends.
async fn attempt(maker: &Maker) -> Value {
    let script = "const registration = await navigator.serviceWorker.getRegistration(); \
        await registration.update().catch(() => {}); \
        const next = registration.installing ?? registration.waiting; if (!next) return 'none'; \
        while (next.state === 'installing') await new Promise(then => next.addEventListener('statechange', then, { once: true })); \
        return next.state";
    ask(maker, script).await
}

/// Fetches the newer version; an attempt that the browser has made by itself may still fail meanwhile.
async fn fetch_the_newer_one(maker: &Maker) {
    let begun = Instant::now();
    while attempt(maker).await != "installed" {
        assert!(begun.elapsed().as_secs() < 60, "there is no newer version");
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
}

/// Waits until only that many caches of the page are left.
async fn caches_are_left(maker: &Maker, count: usize) {
    let begun = Instant::now();
    while kept(maker).await.len() != count {
        assert!(begun.elapsed().as_secs() < 60, "{:?}", kept(maker).await.keys());
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
}

/// The page as another build leaves it: every name that is made from what a file holds is another.
fn build_anew(folder: &Path, mark: &str) {
    copy(&Site::dist(), folder);
    let entries: Vec<_> = std::fs::read_dir(folder).expect("the page").flatten().collect();
    let names: Vec<_> = entries.iter().map(|entry| entry.file_name().to_string_lossy().into_owned()).collect();
    let parts = names.iter().flat_map(|name| name.split(['-', '_', '.']));
    let hashes: Vec<_> =
        parts.filter(|part| part.len() > 11 && part.chars().all(|digit| digit.is_ascii_hexdigit())).collect();
    let anew = |text: &str| {
        hashes.iter().fold(text.to_owned(), |text, hash| text.replace(hash, &hash.chars().rev().collect::<String>()))
    };
    for name in names.iter().filter(|name| name.ends_with(".js") || name.ends_with(".html")) {
        let text = std::fs::read_to_string(folder.join(name)).expect("a text");
        // The sums in the page are those of the files before.
        let mut pieces = anew(&text).split(" integrity=\"").map(str::to_owned).collect::<Vec<_>>().into_iter();
        let first = pieces.next().expect("a text has a beginning");
        let text = pieces.fold(first, |text, piece| text + piece.split_once('"').expect("the sum ends").1);
        std::fs::write(folder.join(name), text).expect("a text");
    }
    for name in names.iter().filter(|name| anew(name) != **name) {
        std::fs::rename(folder.join(name), folder.join(anew(name))).expect("another name");
    }
    finish(folder, mark);
}

async fn publish_anew(site: &mut Site, mark: &str) -> Folder {
    let folder = Folder::new(mark);
    build_anew(&folder.0, mark);
    site.change_to(&folder.0).await;
    folder
}

async fn is_ready(maker: &Maker) {
    maker.see("#offline-words", "Ready for the garage").await;
}

/// The host is gone and the browser was closed: the page opens all the same.
async fn opens_in_the_garage(maker: &mut Maker, site: &mut Site, mark: &str) {
    site.stop().await;
    maker.restart_the_browser().await;
    maker.go_home().await;
    opens(maker, mark).await;
    site.start().await;
}

async fn every_type_is_right(maker: &Maker) {
    let kept = kept(maker).await;
    assert!(!kept.is_empty());
    for (file, about) in kept.values().flat_map(|cache| cache.as_object().expect("a cache")) {
        let kind = match file.rsplit('.').next() {
            Some("wasm") => "application/wasm",
            Some("js") => "text/javascript; charset=utf-8",
            _ => continue,
        };
        assert_eq!(*about, json!([200, kind]), "{file}");
    }
}

#[tokio::test]
async fn programs_that_a_host_calls_text_are_compiled_all_the_same() {
    for kind in ["text/plain", "application/octet-stream"] {
        let site = Site::publish(&Site::dist()).await;
        site.lie(".wasm", Lie::Type(kind));
        let phone = Phone { before: Some(NO_SERVICE_WORKER), ..Phone::default() };
        let maker = Maker::open(&site.address(), phone).await;
        a_narrow_top(&maker).await;
        maker.wait_for("#crack-says").await;
        maker.close().await;
    }
}

#[tokio::test]
async fn what_a_host_calls_a_file_is_not_kept() {
    let mut site = Site::publish(&Site::dist()).await;
    site.lie(".wasm", Lie::Type("text/plain"));
    let mut maker = Maker::open(&site.address(), Phone::default()).await;
    is_ready(&maker).await;
    every_type_is_right(&maker).await;
    opens_in_the_garage(&mut maker, &mut site, "first").await;
    site.lie(".wasm", Lie::Type("application/octet-stream"));
    let _next = publish_anew(&mut site, "next").await;
    fetch_the_newer_one(&maker).await;
    maker.press("Open it").await;
    opens(&maker, "next").await;
    is_ready(&maker).await;
    every_type_is_right(&maker).await;
    site.be_honest();
    opens_in_the_garage(&mut maker, &mut site, "next").await;
    a_narrow_top(&maker).await;
    maker.wait_for("#crack-says").await;
    maker.close().await;
}

/// As an earlier service worker left it, which took the host's word.
#[tokio::test]
async fn a_program_that_was_kept_as_text_opens_and_is_mended_by_the_next_version() {
    let mut site = Site::publish(&Site::dist()).await;
    let mut maker = Maker::open(&site.address(), Phone::default()).await;
    is_ready(&maker).await;
    for name in ["_bg.wasm", "split_workshop"] {
        let spoiled = "const bytes = await (await cache.match(url)).arrayBuffer(); \
             await cache.put(url, new Response(bytes, { headers: { 'content-type': 'text/plain' } }))";
        spoil(&maker, name, spoiled).await;
    }
    opens_in_the_garage(&mut maker, &mut site, "first").await;
    let next = Folder::new("next");
    publish_next(&mut site, &next).await;
    fetch_the_newer_one(&maker).await;
    maker.press("Open it").await;
    opens(&maker, "next").await;
    caches_are_left(&maker, 1).await;
    every_type_is_right(&maker).await;
    maker.close().await;
}

const LIES: [Lie; 6] =
    [Lie::Status(203), Lie::Status(206), Lie::Altered, Lie::Short, Lie::Elsewhere, Lie::Type("text/plain")];

#[tokio::test]
async fn a_file_that_is_not_the_one_of_the_list_is_not_kept() {
    let mut site = Site::publish(&Site::dist()).await;
    // Of the worker, which the page does not need to open.
    let about = "plate-worker_bg";
    site.lie(about, Lie::Missing);
    let mut maker = Maker::open(&site.address(), Phone::default()).await;
    for lie in LIES {
        maker.see("#offline-words", "Not ready for the garage").await;
        assert!(kept(&maker).await.is_empty(), "before {lie:?}");
        site.lie(about, lie);
        maker.reload().await;
    }
    // The last one is none about what is in the file.
    is_ready(&maker).await;
    every_type_is_right(&maker).await;
    // The same while a newer version is fetched: the one that is there goes on.
    let _next = publish_anew(&mut site, "next").await;
    for lie in LIES.into_iter().filter(|lie| !matches!(lie, Lie::Type(_))) {
        site.lie(about, lie);
        assert_ne!(attempt(&maker).await, "installed", "{lie:?}");
        caches_are_left(&maker, 1).await;
        maker.reload().await;
        is_ready(&maker).await;
        assert_eq!(version(&maker).await, Value::Null);
    }
    opens_in_the_garage(&mut maker, &mut site, "first").await;
    site.be_honest();
    fetch_the_newer_one(&maker).await;
    maker.press("Open it").await;
    opens(&maker, "next").await;
    maker.close().await;
}

#[tokio::test]
async fn parts_that_a_deploy_took_away_are_told_from_a_lost_connection() {
    let mut site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone { before: Some(NO_SERVICE_WORKER), ..Phone::default() }).await;
    maker.driver.cdp().send_raw("Network.enable", json!({ "maxTotalBufferSize": 0 })).await.expect("the network");
    maker.driver.cdp().send_raw("Network.setCacheDisabled", json!({ "cacheDisabled": true })).await.expect("no cache");
    // The workshop is still missing when the host gets a newer version.
    site.lie("split_workshop", Lie::Missing);
    maker.driver.goto(format!("{}?again", site.address())).await.expect("the address opens");
    maker.see("[role=alert]", "Check the connection").await;
    site.be_honest();
    let next = publish_anew(&mut site, "next").await;
    maker.press("Try again").await;
    maker.see("[role=alert]", "The host has a newer version").await;
    maker.press("Open the newer version").await;
    opens(&maker, "next").await;
    // The screens are, while a job is open: it is kept.
    site.change_to(&Site::dist()).await;
    site.lie("split_screens", Lie::Missing);
    maker.go_home().await;
    maker.press("New job").await;
    maker.write("job-client", "typed into the old one").await;
    maker.turn_to("Pour").await;
    maker.see("main", "Check the connection").await;
    site.be_honest();
    site.change_to(&next.0).await;
    maker.press("Try again").await;
    maker.see("main", "The host has a newer version").await;
    maker.press("Open the newer version").await;
    opens(&maker, "next").await;
    assert_eq!(clients(&maker).await, ["typed into the old one"]);
    // The worker is, when it is first asked.
    site.change_to(&Site::dist()).await;
    maker.go_home().await;
    opens(&maker, "first").await;
    site.change_to(&next.0).await;
    a_narrow_top(&maker).await;
    maker.see("#no-map", "There is no map.").await;
    maker.see("#newer", "A newer version is ready.").await;
    maker.press("Open it").await;
    opens(&maker, "next").await;
    maker.wait_for("#crack-says").await;
    maker.close().await;
}

/// The host got a newer version before this one was kept: the newer one is kept in its place, and offered.
#[tokio::test]
async fn a_page_that_was_opened_before_a_deploy_is_offered_what_came_after() {
    let mut site = Site::publish(&Site::dist()).await;
    site.lie("evidence.html", Lie::Missing);
    let mut maker = Maker::open(&site.address(), Phone::default()).await;
    maker.see("#offline-words", "Not ready for the garage").await;
    site.be_honest();
    let _next = publish_anew(&mut site, "next").await;
    maker.ask("dispatchEvent(new Event('online'))").await;
    is_ready(&maker).await;
    maker.see("#newer", "A newer version is ready.").await;
    maker.press("New job").await;
    maker.write("job-client", "typed into the old one").await;
    assert_eq!(version(&maker).await, Value::Null);
    maker.press("Open it").await;
    opens(&maker, "next").await;
    assert_eq!(maker.written("job-client").await, "typed into the old one");
    opens_in_the_garage(&mut maker, &mut site, "next").await;
    maker.close().await;
}

#[tokio::test]
async fn a_page_whose_program_a_deploy_took_away_says_so() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    // As when a host between has kept the page alone.
    let folder = Folder::new("between");
    build_anew(&folder.0, "next");
    std::fs::copy(Site::dist().join("index.html"), folder.0.join("index.html")).expect("the page of before");
    let between = Site::publish(&folder.0).await;
    maker.driver.goto(between.address()).await.expect("the address opens");
    maker.see("#boot-message", "The host has a newer version of this page.").await;
    maker.close().await;
}

#[tokio::test]
async fn an_old_version_goes_on_whole_when_its_parts_are_gone_from_the_host() {
    let mut site = Site::publish(&Site::dist()).await;
    let mut maker = Maker::open(&site.address(), Phone::default()).await;
    is_ready(&maker).await;
    let _next = publish_anew(&mut site, "next").await;
    maker.restart_the_browser().await;
    maker.go_home().await;
    maker.see("#newer", "A newer version is ready.").await;
    let old = maker.driver.window().await.expect("a tab");
    // Another tab opens the newer one before this one has asked for its worker.
    in_a_new_tab(&maker).await;
    maker.see("#newer", "A newer version is ready.").await;
    maker.press("Open it").await;
    opens(&maker, "next").await;
    maker.driver.switch_to_window(old).await.expect("the first tab");
    a_narrow_top(&maker).await;
    maker.wait_for("#crack-says").await;
    assert_eq!(version(&maker).await, Value::Null, "this tab is what it was");
    assert_eq!(kept(&maker).await.len(), 2, "its version is kept as long as it is open");
    maker.press("Open it").await;
    opens(&maker, "next").await;
    maker.wait_for("#crack-says").await;
    caches_are_left(&maker, 1).await;
    maker.close().await;
}

async fn in_a_new_tab(maker: &Maker) -> WindowHandle {
    let tab = maker.driver.new_tab().await.expect("another tab");
    maker.driver.switch_to_window(tab.clone()).await.expect("the other tab");
    maker.go_home().await;
    tab
}

#[tokio::test]
async fn what_the_browser_has_dropped_is_there_again_before_the_garage_is_promised() {
    let mut site = Site::publish(&Site::dist()).await;
    let mut maker = Maker::open(&site.address(), Phone::default()).await;
    is_ready(&maker).await;
    let all = kept(&maker).await;
    // One that no start needs, and nobody to fetch it from: nothing is promised.
    spoil(&maker, "evidence.html", "await cache.delete(url)").await;
    site.stop().await;
    maker.reload().await;
    maker.see("#offline-words", "Not ready for the garage").await;
    site.start().await;
    // The host is back while the page is open.
    maker.ask("dispatchEvent(new Event('online'))").await;
    is_ready(&maker).await;
    assert_eq!(kept(&maker).await, all);
    // One that every start needs.
    spoil(&maker, "split_workshop", "await cache.delete(url)").await;
    maker.reload().await;
    is_ready(&maker).await;
    assert_eq!(kept(&maker).await, all);
    opens_in_the_garage(&mut maker, &mut site, "first").await;
    // All of it.
    ask(&maker, "for (const name of await caches.keys()) await caches.delete(name)").await;
    maker.reload().await;
    is_ready(&maker).await;
    assert_eq!(kept(&maker).await, all);
    opens_in_the_garage(&mut maker, &mut site, "first").await;
    maker.close().await;
}

#[tokio::test]
async fn what_was_dropped_and_is_gone_from_the_host_leaves_the_newer_version() {
    for gone in ["split_workshop", "pourwright-"] {
        let mut site = Site::publish(&Site::dist()).await;
        let mut maker = Maker::open(&site.address(), Phone::default()).await;
        is_ready(&maker).await;
        maker.press("New job").await;
        maker.write("job-client", "from before").await;
        maker.is_kept().await;
        spoil(&maker, gone, "await cache.delete(url)").await;
        let _next = publish_anew(&mut site, "next").await;
        maker.go_home().await;
        opens(&maker, "next").await;
        is_ready(&maker).await;
        caches_are_left(&maker, 1).await;
        assert_eq!(clients(&maker).await, ["from before"]);
        opens_in_the_garage(&mut maker, &mut site, "next").await;
        maker.close().await;
    }
}

#[tokio::test]
async fn open_it_works_in_every_tab() {
    let mut site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    is_ready(&maker).await;
    let first = maker.driver.window().await.expect("a tab");
    let second = in_a_new_tab(&maker).await;
    let third = in_a_new_tab(&maker).await;
    let _next = publish_anew(&mut site, "next").await;
    fetch_the_newer_one(&maker).await;
    // One of them is told not now.
    maker.driver.switch_to_window(second.clone()).await.expect("a tab");
    maker.see("#newer", "A newer version is ready.").await;
    maker.press("Later").await;
    for (tab, client) in [(first, "in the first"), (second, "in the second"), (third, "in the third")] {
        maker.driver.switch_to_window(tab).await.expect("a tab");
        maker.press("New job").await;
        maker.write("job-client", client).await;
        maker.press("Open it").await;
        opens(&maker, "next").await;
        assert_eq!(maker.written("job-client").await, client);
    }
    assert_eq!(clients(&maker).await, ["in the first", "in the second", "in the third"]);
    caches_are_left(&maker, 1).await;
    maker.close().await;
}

#[tokio::test]
async fn two_deployments_in_nested_folders_keep_apart_and_say_what_they_share() {
    let folder = Folder::new("outer");
    copy(&Site::dist(), &folder.0);
    copy(&Site::dist(), &folder.0.join("inner"));
    let mut site = Site::publish(&folder.0).await;
    let outer = site.address();
    let inner = format!("{outer}inner/");
    let mut maker = Maker::open(&outer, Phone::default()).await;
    is_ready(&maker).await;
    assert!(maker.driver.find_all(thirtyfour::By::Id("neighbours")).await.expect("a page").is_empty());
    maker.press("New job").await;
    maker.write("job-client", "of both").await;
    maker.is_kept().await;
    // What the outer one keeps is no promise of the inner one.
    site.lie("inner/evidence.html", Lie::Missing);
    maker.driver.goto(&inner).await.expect("the address opens");
    maker.stands().await;
    maker.see("#offline-words", "Not ready for the garage").await;
    site.be_honest();
    maker.reload().await;
    is_ready(&maker).await;
    maker.see("#neighbours", &format!("shows the same jobs in this browser: {outer}")).await;
    assert_eq!(kept(&maker).await.len(), 2);
    // A newer version of one is none of the other.
    let next = Folder::new("next");
    build_anew(&next.0, "next");
    copy(&next.0, &folder.0);
    maker.driver.goto(&outer).await.expect("the address opens");
    maker.see("#neighbours", &inner).await;
    fetch_the_newer_one(&maker).await;
    maker.press("Open it").await;
    opens(&maker, "next").await;
    is_ready(&maker).await;
    caches_are_left(&maker, 2).await;
    opens_in_the_garage(&mut maker, &mut site, "next").await;
    site.stop().await;
    maker.driver.goto(&inner).await.expect("the address opens");
    opens(&maker, "first").await;
    is_ready(&maker).await;
    assert_eq!(clients(&maker).await, ["of both"]);
    maker.close().await;
}

#[tokio::test]
async fn two_deployments_after_each_other_at_one_address_open_when_asked_and_keep_the_jobs() {
    let mut site = Site::publish(&Site::dist()).await;
    let mut maker = Maker::open(&site.address(), Phone::default()).await;
    is_ready(&maker).await;
    maker.press("New job").await;
    maker.write("job-client", "of every one").await;
    maker.is_kept().await;
    let next = Folder::new("next");
    build_anew(&next.0, "next");
    for (folder, mark) in [(next.0.clone(), "next"), (Site::dist(), "first"), (next.0.clone(), "next")] {
        site.change_to(&folder).await;
        fetch_the_newer_one(&maker).await;
        maker.see("#newer", "A newer version is ready.").await;
        assert_ne!(version(&maker).await, mark, "it opens only when asked");
        maker.press("Open it").await;
        opens(&maker, mark).await;
        caches_are_left(&maker, 1).await;
        opens_in_the_garage(&mut maker, &mut site, mark).await;
        assert_eq!(clients(&maker).await, ["of every one"]);
    }
    maker.close().await;
}
