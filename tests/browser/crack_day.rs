//! The hour after the pour: which rail cracks, and what helps.

use crate::maker::{Folder, Maker, Phone};
use crate::offline::{copy, plates_of};
use crate::pictures::take;
use crate::site::Site;
use serde_json::Value;

/// A top of 70 in by 20 in by 1 1/2 in with two sinks whose front rails are 2 in wide, on the Build screen; its
/// mix has 1500 psi an hour after the pour.
pub async fn a_narrow_top(maker: &Maker) {
    maker.press("New job").await;
    maker.write("job-name", "Narrow wash top").await;
    maker.write("piece-0-width", "70").await;
    maker.write("piece-0-depth", "20").await;
    maker.write("piece-0-thickness", "1 1/2").await;
    for (cutout, from_left) in [(0, "19"), (1, "51")] {
        maker.press("+ Cutout").await;
        for (field, text) in [
            ("width", "20"),
            ("depth", "15"),
            ("corner-radius", "2"),
            ("from-left", from_left),
            ("from-front", "9 1/2"),
        ] {
            maker.write(&format!("cutout-0-{cutout}-{field}"), text).await;
        }
    }
    maker.press("Build").await;
    maker.write("handling-0-strength", "1500").await;
}

/// The row of the case that is looked at: its name, and how much of what is allowed it takes.
async fn looked_at(maker: &Maker) -> (String, f64) {
    let script = "const row = document.querySelector(\"[aria-label='Cases'] button[aria-pressed='true']\"); \
                  return [row.querySelector('.name').textContent, row.querySelector('.value').textContent]";
    let found = maker.ask(script).await;
    let text = |value: &Value| value.as_str().expect("a text").to_owned();
    let share = text(&found[1]);
    (text(&found[0]), share.split(' ').next().expect("a number").parse().expect("a number"))
}

/// Looks at the lift out of the form: what happens to a top later may be worse.
async fn look_at_the_lift(maker: &Maker) {
    // In one step: the rows are made anew with every answer of the worker.
    let press = "const row = [...document.querySelectorAll(\"[aria-label='Cases'] button\")]\
                 .find(row => row.textContent.includes('Lifted flat out of the form, at both ends')); \
                 row?.click(); return row !== undefined";
    let begun = std::time::Instant::now();
    while maker.ask(press).await != true {
        assert!(begun.elapsed() < std::time::Duration::from_secs(40), "the lift is among the cases");
        tokio::time::sleep(std::time::Duration::from_millis(100)).await;
    }
}

async fn the_front_rail_cracks(maker: &Maker) {
    look_at_the_lift(maker).await;
    maker.see("#crack-says", "The rail in front of the left sink cracks when lifted flat at 1 h 15 min.").await;
    let (name, share) = looked_at(maker).await;
    assert_eq!(name, "Lifted flat out of the form, at both ends");
    assert!(share > 1.5, "{share}");
}

/// Presses the first fix that is offered, and sees that it is done; gives its words.
async fn first_fix(maker: &Maker) -> String {
    let fix = maker.wait_for("#fixes li:first-child button").await;
    let words = maker.text("#fixes li:first-child .name").await;
    maker.tap(&fix).await;
    maker.see(".notice", &format!("Done: {}.", words.to_lowercase())).await;
    words
}

#[tokio::test]
async fn crack_day() {
    let mut site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    a_crack_day(&mut site, maker).await;
}

/// In any engine.
pub async fn a_crack_day(site: &mut Site, mut maker: Maker) {
    let fetched = "return performance.getEntriesByType('resource').filter(one => one.name.includes('plate')).length";
    maker.see("#offline-words", "Ready for the garage").await;
    assert_eq!(maker.ask(fetched).await, 0, "nothing of the worker before it is needed");
    a_narrow_top(&maker).await;
    the_front_rail_cracks(&maker).await;
    assert_ne!(maker.ask(fetched).await, 0, "and then it is fetched");
    // By hand the same rail stands there at once; what is told of the job is the worst of the map.
    maker.see("#by-hand", "Lifted flat out of the form, at both ends: the rail in front of the left sink").await;
    maker.see("[aria-label='What to know']", "cracks when a person sits in front of the left sink").await;
    maker.see(".verbs li:nth-child(2) .flag.stop", "1").await;
    // The map: bands over the limit, what bears it, the worst place; no number of a single point.
    for wanted in [".stress .band-5:not(.boxed)", ".stress .bears", ".stress .worst"] {
        maker.wait_for(wanted).await;
    }
    let hatched = "return document.querySelectorAll('.stress pattern .hatch').length";
    assert_ne!(maker.ask(hatched).await, 0, "the bands can be told apart without their colours");
    maker.see("#crack-numbers", "mean over one thickness").await;
    maker.see("#crack-numbers", "by hand").await;
    maker.see("#crack-numbers", "It sags by").await;
    maker.see("#crack-numbers", "Left support bears").await;

    let before = maker.text("#crack-says").await;
    // The map does not ask for it, and the fix leaves it as it is.
    maker.write("form-board", "5/8").await;
    let fix = first_fix(&maker).await;
    maker.see("#crack-says", "holds when").await;
    assert_eq!(maker.written("form-board").await, "5/8", "{fix} changes nothing else");
    let (_, share) = looked_at(&maker).await;
    assert!(share <= 1.0, "{fix}: {share}");
    maker.press("Undo").await;
    the_front_rail_cracks(&maker).await;
    assert_eq!(maker.text("#crack-says").await, before, "taken back");
    maker.is_kept().await;
    maker.no_complaints().await;

    // The garage: the host is gone, the browser is started anew.
    site.stop().await;
    maker.come_back().await;
    maker.press("Narrow wash top").await;
    maker.press("Build").await;
    the_front_rail_cracks(&maker).await;
    maker.wait_for(".stress .band-5:not(.boxed)").await;
    first_fix(&maker).await;
    maker.see("#crack-says", "holds when").await;
    maker.close().await;
}

/// What is typed while the worker works takes the place of what it works on.
#[tokio::test]
async fn crack_answers_are_to_the_last_question() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    a_narrow_top(&maker).await;
    for text in ["600", "900", "1200", "20000"] {
        maker.write("handling-0-strength", text).await;
        tokio::time::sleep(std::time::Duration::from_millis(300)).await;
    }
    look_at_the_lift(&maker).await;
    maker.see("#crack-says", "holds when").await;
    maker.write("handling-0-strength", "1500").await;
    the_front_rail_cracks(&maker).await;
    maker.done().await;
}

/// The program of the worker cannot be fetched: the check by hand stands, and the page says so.
#[tokio::test]
async fn crack_without_a_worker_leaves_the_hand_check() {
    let folder = Folder::new("no-worker");
    copy(&Site::dist(), &folder.0);
    let plates = plates_of(&folder.0);
    std::fs::remove_file(plates.join("plate-worker_bg.wasm")).expect("the worker's program is there");
    let site = Site::publish(&folder.0).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    a_narrow_top(&maker).await;
    maker.see("#no-map", "There is no map.").await;
    maker.see("#no-map", "The check by hand above stands.").await;
    maker.see("#by-hand", "Lifted flat out of the form, at both ends: the rail in front of the left sink").await;
    maker.see("[aria-label='What to know']", "cracks when lifted flat at 1 h 15 min").await;
    // And when it is carried.
    maker.see(".verbs li:nth-child(2) .flag.stop", "2").await;
    assert_eq!(maker.ask("return document.querySelectorAll('svg.stress').length").await, 0);
    maker.close().await;
}

async fn card(size: (u32, u32), dark: bool, label: &str) {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone { size: Some(size), dark, ..Phone::default() }).await;
    a_narrow_top(&maker).await;
    the_front_rail_cracks(&maker).await;
    maker.wait_for("#fixes").await;
    let top = "const card = document.querySelector('.cracking'); \
               scrollTo(0, card.getBoundingClientRect().top + scrollY - 150); \
               return document.documentElement.scrollWidth <= innerWidth";
    assert_eq!(maker.ask(top).await, true, "nothing runs past the side");
    take(&maker, &format!("{label}-crack"), false).await;
    take(&maker, &format!("{label}-crack-whole"), true).await;
    maker.done().await;
}

#[tokio::test]
async fn crack_card_on_every_screen() {
    card((360, 740), false, "phone-light").await;
    card((360, 740), true, "phone-dark").await;
    card((1280, 800), false, "desk-light").await;
    card((1280, 800), true, "desk-dark").await;
}
