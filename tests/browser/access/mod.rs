//! Everybody's page: what a screen reader is told, what a keyboard reaches, large type, large fingers.

mod axe;
mod keyboard;
mod sizes;

use crate::first_day::tape_a_top;
use crate::keeping::FULL;
use crate::maker::{Maker, PHONE, Phone};
use crate::site::Site;
use serde_json::json;

pub const VERBS: [&str; 5] = ["Measure", "Build", "Pour", "Finish", "Quote"];

/// No dialog of the browser's, which nobody would close; and a storage that is full when the test says so.
fn before() -> &'static str {
    FULL
}

pub async fn open(site: &Site, size: (u32, u32)) -> Maker {
    Maker::open(&site.address(), Phone { size: Some(size), before: Some(before()), ..Phone::default() }).await
}

/// Everything that is folded away is opened.
pub async fn unfold(maker: &Maker) {
    maker.ask("document.querySelectorAll('details').forEach(details => { details.open = true; })").await;
}

/// The strength that the map waits for, and the map.
pub async fn the_map_is_there(maker: &Maker) {
    maker.write("handling-0-strength", "1500").await;
    maker.wait_for("#crack-says").await;
    maker.wait_for("#fixes").await;
    the_map_rests(maker).await;
}

/// Waits until nothing is worked out any more: what is asked is asked a second after the last change.
pub async fn the_map_rests(maker: &Maker) {
    let begun = std::time::Instant::now();
    let mut quiet = std::time::Instant::now();
    while quiet.elapsed() < std::time::Duration::from_millis(1500) {
        assert!(begun.elapsed() < std::time::Duration::from_secs(40), "the map does not come to rest");
        if maker.ask("return document.querySelector(\"[aria-busy='true']\") !== null").await == true {
            quiet = std::time::Instant::now();
        }
        tokio::time::sleep(std::time::Duration::from_millis(100)).await;
    }
}

/// Takes in a file as a pasted text, and closes the sheet.
pub async fn take_in(maker: &Maker, text: &str) {
    maker.press("Import").await;
    let paste = "document.querySelector('#import-text').value = arguments[0];";
    maker.driver.execute(paste, vec![json!(text)]).await.expect("the text is pasted");
    maker.press("Import the pasted text").await;
    maker.see("#imported", "on your shelf").await;
    maker.press("Close").await;
}

/// Goes to every screen, sheet and banner there is, and calls `look` with its name at each.
pub async fn everywhere(maker: &Maker, look: &mut impl AsyncFnMut(&Maker, &str)) {
    look(maker, "the empty shelf").await;
    tape_a_top(maker).await;
    for part in ["Size", "Edges", "Corners", "Cutout 1"] {
        maker.press(part).await;
        look(maker, &format!("Measure, {part}")).await;
    }
    for verb in VERBS {
        maker.turn_to(verb).await;
        maker.wait_for(&format!("main[data-screen='{verb}']")).await;
        unfold(maker).await;
        if verb == "Build" {
            the_map_is_there(maker).await;
        }
        look(maker, verb).await;
    }
    sheets(maker, look).await;
    banners(maker, look).await;
    maker.press("All jobs").await;
    take_in(maker, include_str!("../../samples/job-v3.json")).await;
    maker.ask("localStorage.setItem('pourwright/job/torn', '{')").await;
    maker.press("Delete Guest bath").await;
    look(maker, "a notice").await;
    maker.reload().await;
    unfold(maker).await;
    look(maker, "the shelf").await;
    let first = maker.wait_for(".jobs li:first-child a").await;
    maker.tap(&first).await;
    for verb in VERBS {
        maker.turn_to(verb).await;
        maker.wait_for(&format!("main[data-screen='{verb}']")).await;
        unfold(maker).await;
        look(maker, &format!("{verb} of a job with everything")).await;
    }
}

async fn sheets(maker: &Maker, look: &mut impl AsyncFnMut(&Maker, &str)) {
    maker.turn_to("Measure").await;
    let weight = maker.wait_for("#headline-weight").await;
    maker.tap(&weight).await;
    maker.see("dialog", "Close").await;
    look(maker, "a working").await;
    maker.press("Close").await;
    maker.press("Share this estimate").await;
    look(maker, "sharing").await;
    maker.press("Show it to a second phone").await;
    maker.wait_for("#qr-code").await;
    look(maker, "the code").await;
    maker.press("Close").await;
    maker.press("Size").await;
    maker.write("piece-0-depth", "19 5/4").await;
    let bags = maker.wait_for("#headline-bags").await;
    maker.tap(&bags).await;
    maker.see("dialog", "Close").await;
    look(maker, "what a number waits for").await;
    maker.press("Close").await;
    look(maker, "a field that cannot be read").await;
    maker.press("All jobs").await;
    maker.press("Import").await;
    look(maker, "importing").await;
    maker.press("Close").await;
    maker.press("Guest bath").await;
}

async fn banners(maker: &Maker, look: &mut impl AsyncFnMut(&Maker, &str)) {
    maker.press("Size").await;
    maker.ask("window.isFull = true").await;
    maker.write("piece-0-depth", "19 1/4").await;
    maker.see("[role='alert']", "not being kept").await;
    look(maker, "a job that is not kept").await;
    maker.ask("window.isFull = false").await;
    // It is tried again by itself.
    maker.is_kept().await;
    let link = pourwright::store::share_link(&pourwright::mix::demo("8f3a7c20d1e94b65a0b7c4d2e6f81930"), "");
    for (address, name) in [
        (link.expect("it fits"), "a job that arrives"),
        ("#/link/1.AAAA".to_owned(), "a link that is refused"),
        ("#/job/nowhere/measure".to_owned(), "a job that is not there"),
    ] {
        maker.ask(&format!("location.hash = {}", json!(address))).await;
        maker.wait_for("main:not([data-screen='Measure'])").await;
        look(maker, name).await;
    }
    maker.ask("location.hash = '#/'").await;
    maker.press("Guest bath").await;
}

/// What is wrong at any place, for whoever looks, taps or listens.
async fn everywhere_for_everybody(size: (u32, u32)) {
    let site = Site::publish(&Site::dist()).await;
    let maker = open(&site, size).await;
    let mut wrong = Vec::new();
    let mut looked = 0;
    everywhere(&maker, &mut async |maker: &Maker, place: &str| {
        if maker.ask("return document.querySelector('.cracking') !== null").await == true {
            the_map_rests(maker).await;
        }
        // A sheet that still rises has not its own colours yet.
        tokio::time::sleep(std::time::Duration::from_millis(250)).await;
        let mut add = |what: &str, found: Vec<String>| {
            wrong.extend(found.into_iter().map(|line| format!("{place}, {what}: {line}")));
        };
        add("axe-core", axe::in_both_schemes(maker).await);
        add("at twice the type", sizes::lost_at_twice_the_type(maker).await);
        if size == PHONE {
            add("too small", sizes::small(maker).await);
            add("moves", sizes::moving(maker).await);
        }
        looked += 1;
    })
    .await;
    assert!(looked > 25, "only {looked} places");
    assert!(wrong.is_empty(), "{} faults:\n{}", wrong.len(), wrong.join("\n"));
    maker.close().await;
}

#[tokio::test]
async fn a_phone_serves_everybody_everywhere() {
    everywhere_for_everybody(PHONE).await;
}

#[tokio::test]
async fn a_desk_serves_everybody_everywhere() {
    everywhere_for_everybody((1280, 800)).await;
}
