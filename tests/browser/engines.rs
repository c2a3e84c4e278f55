//! The main ways of a maker in the engines beside Chromium: the first day, keeping, a backup pasted in, the pour clock
//! and the card that tells what cracks.
//!
//! What an engine cannot do here:
//! - Firefox and WebKit run no script before those of a page, and give no console. So the page is published with one
//!   script more, which comes first and writes down what is complained of. What the browser itself says, and what is
//!   said in a worker, is not heard.
//! - The scripts that stand in for a phone's share sheet or its clipboard are not tried: files are saved and pasted.
//! - Neither is told to be dark, or to have a finger: they are mice in the light.
//! - WebKit's driver misjudges whether an element is shown; the page is asked instead.
//! - Firefox's window is no narrower than 500 px.
//! - WebKit (its GTK port) keeps nothing on disk while it is driven: the tab is closed instead of the browser, and no
//!   restart and no kill of it is tried.

use crate::crack_day::a_crack_day;
use crate::engine::Engine;
use crate::first_day::{a_first_day, job_of, tape_a_top};
use crate::maker::{Folder, Maker, Phone};
use crate::offline::{copy, finish};
use crate::pour_day::{CLOCK, placed_as_they_are_mixed, shows, six_bags, tick, wait};
use crate::sharing::a_backup_is_pasted_in;
use crate::site::Site;
use serde_json::json;

/// The page with scripts that run before its own.
fn with_scripts(scripts: &[&str]) -> Folder {
    let folder = Folder::new("watched");
    copy(&Site::dist(), &folder.0);
    // The page's first script.
    let first = folder.0.join("known.js");
    let own = std::fs::read_to_string(&first).expect("a script");
    std::fs::write(&first, format!("{}\n{own}", scripts.join("\n"))).expect("a script");
    finish(&folder.0, "watched");
    folder
}

/// A phone with that engine before a page with that script and one that hears complaints.
async fn open(engine: Engine, script: &str) -> (Folder, Site, Maker) {
    let page = with_scripts(&[include_str!("watch.js"), script]);
    let site = Site::publish(&page.0).await;
    let maker = Maker::open(&site.address(), Phone { engine, ..Phone::default() }).await;
    (page, site, maker)
}

async fn first_day(engine: Engine) {
    let (_page, mut site, maker) = open(engine, "").await;
    a_first_day(&mut site, maker).await;
}

async fn crack_day(engine: Engine) {
    let (_page, mut site, maker) = open(engine, "").await;
    a_crack_day(&mut site, maker).await;
}

async fn backup(engine: Engine) {
    let (_page, _site, maker) = open(engine, "").await;
    a_backup_is_pasted_in(maker).await;
}

/// What the database has is brought back when the records are gone, by a page that was opened after that.
async fn journal(engine: Engine) {
    let (_page, site, maker) = open(engine, "").await;
    tape_a_top(&maker).await;
    maker.is_kept().await;
    let before = job_of(&maker).await;
    for verb in ["Build", "Pour", "Finish", "Quote", "Measure"] {
        maker.turn_to(verb).await;
        maker.wait_for(&format!("main[data-screen='{verb}']")).await;
    }
    maker.is_kept().await;
    maker.no_complaints().await;
    // The page is gone, so that nothing but the database can know the job.
    maker.driver.goto(format!("{}evidence.html", site.address())).await.expect("another page opens");
    let left = maker.ask("localStorage.clear(); return localStorage.length").await;
    assert_eq!(left, 0);
    maker.go_home().await;
    maker.press("Guest bath").await;
    assert_eq!(maker.written("piece-0-depth").await, "19 1/4");
    assert_eq!(job_of(&maker).await, before, "the journal brings it back");
    maker.done().await;
}

/// A pour begins, its countdown goes down, and both outlive a reload and the loss of the tab or the browser.
async fn pour_clock(engine: Engine) {
    let (_page, _site, mut maker) = open(engine, CLOCK).await;
    six_bags(&maker).await;
    placed_as_they_are_mixed(&maker).await;
    maker.press("Start the pour").await;
    shows(&maker, "Batch 1 of 6", "When all is ready").await;
    tick(&maker, "Water is in: start").await;
    shows(&maker, "Batch 1 of 6", "2:00").await;
    wait(&maker, 75.0).await;
    shows(&maker, "Batch 1 of 6", "0:45").await;
    maker.is_kept().await;
    maker.reload().await;
    shows(&maker, "Batch 1 of 6", "0:45").await;
    wait(&maker, 45.0).await;
    shows(&maker, "Batch 1 of 6", "Now").await;
    tick(&maker, "It is placed").await;
    maker.see(".clock h2", "Batch 2 of 6").await;
    maker.is_kept().await;
    maker.no_complaints().await;
    maker.come_back().await;
    maker.press("Bar by the window").await;
    maker.turn_to("Pour").await;
    shows(&maker, "Batch 2 of 6", "Now").await;
    assert_eq!(job_of(&maker).await["pieces"][0]["log"].as_array().map(Vec::len), Some(2));
    maker.press("Leave").await;
    maker.done().await;
}

/// Complains in every way.
const COMPLAINING: &str = "addEventListener('complain', () => {
    console.warn('careful');
    setTimeout(() => { throw new Error('thrown'); });
    Promise.reject('left alone');
    new Image().src = 'https://elsewhere.example/';
});";

/// Who listens hears: otherwise no test of an engine says anything about complaints.
async fn complaints_are_heard(engine: Engine) {
    let (_page, _site, maker) = open(engine, COMPLAINING).await;
    maker.no_complaints().await;
    maker.ask("dispatchEvent(new Event('complain'))").await;
    for words in ["careful", "thrown", "left alone", "img-src"] {
        let heard = format!("return window.complaints().some(said => said.includes({}))", json!(words));
        let begun = std::time::Instant::now();
        while maker.ask(&heard).await != true {
            assert!(begun.elapsed().as_secs() < 60, "{words} is not heard");
            tokio::time::sleep(std::time::Duration::from_millis(50)).await;
        }
    }
    maker.reload().await;
    assert_ne!(maker.ask("return window.complaints()").await, json!([]), "they outlive a reload");
    maker.close().await;
}

macro_rules! in_engine {
    ($module:ident, $engine:expr, $($way:ident),*) => {
        mod $module {
            use crate::engine::Engine;
            $(
                #[tokio::test]
                async fn $way() {
                    super::$way($engine).await;
                }
            )*
        }
    };
}

in_engine!(firefox, Engine::Firefox, first_day, crack_day, backup, journal, pour_clock, complaints_are_heard);
in_engine!(webkit, Engine::WebKit, first_day, crack_day, backup, journal, pour_clock, complaints_are_heard);
// These have a test of their own in Chromium.
in_engine!(chromium, Engine::Chromium, journal, pour_clock);
