//! Taps and typing at random on every screen: nothing complains, nothing stands still, nothing is lost.
//!
//! Two minutes in `make test`; `POURWRIGHT_MONKEY` says how many minutes instead, and `POURWRIGHT_SEED` which ones.

use crate::maker::{Maker, Phone};
use crate::site::Site;
use serde_json::{Value, json};
use std::time::Duration;

/// No dialog of the browser's, which nobody would close.
const BEFORE: &str = "window.print = () => {}; window.confirm = () => true; window.alert = () => {};";

/// From one reload of the page to the next.
const ROUND: Duration = Duration::from_secs(12);

fn number(name: &str, usual: u32) -> u32 {
    std::env::var(name).map_or(usual, |text| text.parse().unwrap_or_else(|_| panic!("{name} is a number")))
}

#[tokio::test]
async fn a_monkey_with_a_phone_breaks_nothing() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone { before: Some(BEFORE), ..Phone::default() }).await;
    maker.driver.set_script_timeout(Duration::from_secs(60)).await.expect("a script may take its time");
    maker.press("See a worked job").await;
    let first = number("POURWRIGHT_SEED", 20_261_127);
    let rounds = number("POURWRIGHT_MONKEY", 2) * 60 / ROUND.as_secs() as u32;
    let (mut acts, mut longest) = (0, 0.0_f64);
    for round in 0..rounds {
        let seed = first + round;
        let given = vec![json!(seed), json!(ROUND.as_millis() as u64)];
        let report = maker.driver.execute(include_str!("monkey.js"), given).await.expect("it taps");
        let report: Value = report.json().clone();
        let log = maker.driver.browser_log().await.expect("a console");
        let loud: Vec<_> = log.iter().filter(|entry| entry.level == "SEVERE").map(|entry| &entry.message).collect();
        assert!(loud.is_empty(), "seed {seed}: the console complains: {loud:?}; {}", report["errors"]);
        assert_eq!(report["errors"], json!([]), "seed {seed}");
        assert_eq!(report["long"], json!([]), "seed {seed}: the page stood still");
        acts += report["acts"].as_u64().expect("a number");
        longest = longest.max(report["longest"].as_f64().expect("a time"));
        // Some rounds begin on the shelf, some where the last one ended.
        if round % 2 == 0 {
            maker.go_home().await
        } else {
            maker.reload().await
        }
        assert_eq!(maker.ask("return document.querySelectorAll('.unreadable').length").await, 0, "seed {seed}");
    }
    println!("{acts} acts in {rounds} rounds; the longest task took {longest:.0} ms");
    assert!(acts > u64::from(rounds) * 20, "{acts} acts in {rounds} rounds");
    maker.close().await;
}
