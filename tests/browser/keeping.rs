//! What is kept, and what is said when it cannot be.

use crate::first_day::{job_of, tape_a_top};
use crate::maker::{Maker, Phone};
use crate::site::Site;
use thirtyfour::WindowHandle;

#[tokio::test]
async fn a_deleted_job_can_be_had_back() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    tape_a_top(&maker).await;
    maker.is_kept().await;
    let before = job_of(&maker).await;
    maker.press("All jobs").await;
    maker.press("Delete Guest bath").await;
    maker.see("main", "Start your own").await;
    maker.press("Undo").await;
    maker.see(".jobs", "Guest bath").await;
    assert_eq!(job_of(&maker).await, before);
    // Once the line is gone, the shelf still has it.
    maker.press("Delete Guest bath").await;
    maker.reload().await;
    maker.press("Deleted in the last 30 days").await;
    maker.press("Put back").await;
    maker.see(".jobs", "Guest bath").await;
    assert_eq!(job_of(&maker).await, before);
    maker.done().await;
}

#[tokio::test]
async fn the_shelf_duplicates_sorts_and_searches() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    for name in ["Bar for the Olds", "Laundry", "Porch bench", "Second bath"] {
        maker.press("New job").await;
        maker.write("job-name", name).await;
        maker.is_kept().await;
        maker.press("All jobs").await;
    }
    maker.see(".jobs li:first-child .name", "Second bath").await;
    maker.press("Laundry").await;
    maker.write("job-client", "Under the stairs").await;
    maker.is_kept().await;
    maker.press("All jobs").await;
    maker.see(".jobs li:first-child .name", "Laundry").await;
    maker.press("Copy Porch bench").await;
    maker.see(".jobs", "Porch bench copy").await;
    let search = maker.wait_for(".search").await;
    search.send_keys("stairs").await.expect("the search takes text");
    maker.see(".jobs", "Laundry").await;
    let found = maker.ask("return document.querySelectorAll('.jobs li').length").await;
    assert_eq!(found, 1, "the client is searched too");
    maker.done().await;
}

/// As a browser does it with site data blocked: merely reading the property throws.
const BLOCKED: &str = "Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('The operation is insecure.', 'SecurityError'); } });";

#[tokio::test]
async fn blocked_storage_is_said_and_the_page_works() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone { before: Some(BLOCKED), ..Phone::default() }).await;
    maker.see("[role='alert']", "keeps nothing").await;
    tape_a_top(&maker).await;
    assert_eq!(maker.number("bags").await, "2");
    maker.see("[role='alert']", "keeps nothing").await;
    maker.press("Share this estimate").await;
    maker.press("Save the file").await;
    let (_, text) = maker.downloaded().await;
    assert!(text.contains("Guest bath"), "the file is the way out");
    maker.done().await;
}

/// Storage that is full from the moment the test says so.
pub const FULL: &str = "const set = Storage.prototype.setItem; Storage.prototype.setItem = function (key, value) { if (window.isFull) { throw new DOMException('The quota has been exceeded.', 'QuotaExceededError'); } return set.call(this, key, value); };";

#[tokio::test]
async fn full_storage_is_said_and_nothing_is_lost() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone { before: Some(FULL), ..Phone::default() }).await;
    tape_a_top(&maker).await;
    maker.is_kept().await;
    let kept = job_of(&maker).await;
    maker.ask("window.isFull = true").await;
    maker.press("Size").await;
    maker.write("piece-0-thickness", "1 1/2").await;
    maker.see("[role='alert']", "not being kept").await;
    maker.see("[role='alert']", "No room").await;
    assert_eq!(job_of(&maker).await, kept, "what was kept before stands");
    assert_eq!(maker.written("piece-0-thickness").await, "1 1/2", "what was typed stands");
    // In one step: the page tries again by itself, too.
    let again = "window.isFull = false; [...document.querySelectorAll('button')].find(b => b.innerText === 'Try again').click()";
    maker.ask(again).await;
    maker.is_kept().await;
    assert_eq!(job_of(&maker).await["pieces"][0]["thickness"], "1 1/2");
    maker.done().await;
}

/// A tab that hears nothing of the others, as when a phone has frozen it.
const DEAF: &str = "if (new URLSearchParams(location.search).has('deaf')) { window.addEventListener('storage', event => event.stopImmediatePropagation()); }";

/// Opens the same job in another tab, which hears of the others; gives the first one.
async fn in_another_tab(maker: &Maker) -> WindowHandle {
    let address = maker.driver.current_url().await.expect("an address").to_string();
    let first = maker.driver.window().await.expect("a tab");
    let second = maker.driver.new_tab().await.expect("another tab");
    maker.driver.switch_to_window(second).await.expect("the other tab");
    maker.driver.goto(address.replace("?deaf", "")).await.expect("the same job");
    first
}

#[tokio::test]
async fn two_tabs_never_overwrite_each_other_silently() {
    let site = Site::publish(&Site::dist()).await;
    let maker =
        Maker::open(&format!("{}?deaf", site.address()), Phone { before: Some(DEAF), ..Phone::default() }).await;
    tape_a_top(&maker).await;
    maker.is_kept().await;
    let first = in_another_tab(&maker).await;
    maker.write("job-client", "From the second tab").await;
    maker.is_kept().await;
    maker.driver.switch_to_window(first).await.expect("the first tab");
    maker.write("job-client", "From the first tab").await;
    maker.see("[role='alert']", "changed in another tab").await;
    maker.see("#kept", "Not kept").await;
    assert_eq!(clients(&maker).await, ["From the second tab"], "the later one has overwritten nothing");
    maker.press("Keep both").await;
    maker.is_kept().await;
    assert_eq!(clients(&maker).await, ["From the first tab", "From the second tab"]);
    maker.done().await;
}

#[tokio::test]
async fn a_tab_that_has_typed_nothing_shows_what_the_other_typed() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    tape_a_top(&maker).await;
    maker.is_kept().await;
    let first = in_another_tab(&maker).await;
    maker.write("job-client", "From the second tab").await;
    maker.is_kept().await;
    maker.driver.switch_to_window(first).await.expect("the first tab");
    maker.see(".notice", "Changed in another tab").await;
    assert_eq!(maker.written("job-client").await, "From the second tab");
    maker.write("job-client", "From the first tab").await;
    maker.is_kept().await;
    assert_eq!(clients(&maker).await, ["From the first tab"]);
    maker.done().await;
}

/// A browser puts a page away whole, and takes it out again with its back button: it has heard nothing meanwhile.
#[tokio::test]
async fn a_page_that_was_put_away_whole_looks_again() {
    let site = Site::publish(&Site::dist()).await;
    let maker =
        Maker::open(&format!("{}?deaf", site.address()), Phone { before: Some(DEAF), ..Phone::default() }).await;
    tape_a_top(&maker).await;
    maker.is_kept().await;
    let first = in_another_tab(&maker).await;
    maker.write("job-client", "Typed meanwhile").await;
    maker.is_kept().await;
    maker.driver.switch_to_window(first).await.expect("the first tab");
    assert_eq!(maker.written("job-client").await, "");
    maker.ask("dispatchEvent(new PageTransitionEvent('pageshow', { persisted: true })); return true").await;
    maker.see(".notice", "Changed in another tab").await;
    assert_eq!(maker.written("job-client").await, "Typed meanwhile");
    maker.done().await;
}

/// The clients of all jobs that are kept, in the order of the alphabet.
pub async fn clients(maker: &Maker) -> Vec<String> {
    let records = maker.records().await;
    let jobs = records.iter().filter(|(key, _)| key.starts_with("pourwright/job/"));
    let client = |text: &serde_json::Value| {
        let record: serde_json::Value = serde_json::from_str(text.as_str().expect("a text")).expect("JSON");
        record["job"]["client"].as_str().expect("a client").to_owned()
    };
    let mut clients: Vec<_> = jobs.map(|(_, text)| client(text)).collect();
    clients.sort();
    clients
}

#[tokio::test]
async fn an_unreadable_record_is_shown_and_left_alone() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    tape_a_top(&maker).await;
    maker.is_kept().await;
    maker.press("All jobs").await;
    let broken = "{\"format\":\"pourwright job\",\"version\":1,\"job\":{\"id\":\"brok";
    maker.ask(&format!("localStorage.setItem('pourwright/job/broken', {})", serde_json::json!(broken))).await;
    let newer =
        r#"{"format":"pourwright job","version":99,"written_by":"9.9.9","job":{"id":"newer","waterfall":"24"}}"#;
    maker.ask(&format!("localStorage.setItem('pourwright/job/newer', {})", serde_json::json!(newer))).await;
    maker.reload().await;
    maker.see(".jobs", "Guest bath").await;
    maker.see(".jobs", "cannot be read").await;
    maker.see(".jobs", "newer").await;
    let records = maker.records().await;
    assert_eq!(records["pourwright/job/broken"], broken);
    assert_eq!(records["pourwright/job/newer"], newer);
    maker.done().await;
}
