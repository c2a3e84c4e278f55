//! What is a tap away: a term's meaning, what an empty screen is for, and why the numbers can be believed.

use crate::maker::{Maker, Phone};
use crate::pictures::take;
use crate::site::Site;
use serde_json::json;

/// Shown or not, of the only meaning that may be.
const OPEN: &str = "return [...document.querySelectorAll(':popover-open')].map(one => one.textContent.trim())";

#[tokio::test]
async fn a_term_is_explained_by_a_tap() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    maker.press("See a worked job").await;
    maker.turn_to("Pour").await;
    let what = maker.wait_for("button[aria-label='Spare mix: what is it?']").await;
    let size = maker.ask("const box = document.querySelector('.what button').getBoundingClientRect(); return [box.width, box.height]").await;
    for side in size.as_array().expect("two sides") {
        assert!(side.as_f64() >= Some(44.0), "{size}");
    }
    assert_eq!(maker.ask(OPEN).await, json!([]));
    maker.tap(&what).await;
    let shown = maker.ask(OPEN).await;
    assert!(shown[0].as_str().is_some_and(|text| text.starts_with("Spare mix Mixed beyond")), "{shown}");
    let inside = maker.ask("const box = document.querySelector(':popover-open').getBoundingClientRect(); return box.left >= 0 && box.right <= innerWidth && box.bottom <= innerHeight").await;
    assert_eq!(inside, true);
    take(&maker, "phone-light-term", false).await;
    // And by keyboard: away with Escape, back with Enter.
    maker.driver.action_chain().send_keys(thirtyfour::Key::Escape).perform().await.expect("a key");
    assert_eq!(maker.ask(OPEN).await, json!([]));
    what.send_keys(thirtyfour::Key::Enter).await.expect("a key");
    assert_eq!(maker.ask(OPEN).await, shown);
    // In a sentence too.
    maker.driver.action_chain().send_keys(thirtyfour::Key::Escape).perform().await.expect("a key");
    maker.turn_to("Finish").await;
    let rail = maker.wait_for("button[aria-label='knockouts: what is it?']").await;
    maker.tap(&rail).await;
    let shown = maker.ask(OPEN).await;
    assert!(shown[0].as_str().is_some_and(|text| text.starts_with("Knockout ")), "{shown}");
    maker.done().await;
}

#[tokio::test]
async fn an_empty_screen_says_what_it_is_for() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    maker.press("Start your own").await;
    for verb in ["Measure", "Build", "Pour", "Finish", "Quote"] {
        maker.turn_to(verb).await;
        maker.wait_for(&format!("main[data-screen='{verb}'] .lead")).await;
    }
    maker.turn_to("Measure").await;
    maker.write("piece-0-width", "60").await;
    maker.write("piece-0-depth", "22").await;
    assert_eq!(maker.ask("return document.querySelectorAll('.lead').length").await, 0);
    maker.done().await;
}

#[tokio::test]
async fn the_evidence_is_read_in_the_garage() {
    for (size, dark, label) in [((360, 740), false, "phone-light"), ((1280, 800), true, "desk-dark")] {
        let mut site = Site::publish(&Site::dist()).await;
        let maker = Maker::open(&site.address(), Phone { size: Some(size), dark, ..Phone::default() }).await;
        maker.see("#offline-words", "Ready for the garage").await;
        maker.press("See a worked job").await;
        site.stop().await;
        let weight = maker.wait_for("#headline-weight").await;
        maker.tap(&weight).await;
        maker.press("How such numbers are checked").await;
        maker.see("h1", "Evidence").await;
        maker.see("main", "What is not validated").await;
        let policy = maker.ask("return document.querySelector('meta[http-equiv]').content").await;
        assert!(policy.as_str().is_some_and(|policy| policy.contains("default-src 'none'")), "{policy}");
        let wider = maker.ask("return document.documentElement.scrollWidth - innerWidth").await;
        assert!(wider.as_f64() <= Some(0.0), "it is {wider} wider than the screen");
        take(&maker, &format!("{label}-evidence"), false).await;
        maker.ask("document.querySelector('#room-8').scrollIntoView()").await;
        take(&maker, &format!("{label}-evidence-strength"), false).await;
        maker.ask("history.back()").await;
        maker.wait_for("main[data-screen]").await;
        maker.done().await;
    }
}
