//! What goes wrong in a browser. The law: nothing typed more than one second ago is lost without a word, and nothing
//! saved is ever destroyed.
//!
//! The page runs in frames of a page beside it (`frames.js`), with a clock that only the test moves: a moment is
//! exact however slow the machine is, and a second costs nothing. Every change of the storage passes a guard, which
//! complains when a record is overwritten that was not the one the save was based on, or is gone.

mod battery;
mod clock;
mod full;
mod kills;
mod records;
mod tabs;
mod versions;
mod worker;

use crate::maker::{Maker, Phone};
use crate::site::Site;
use serde_json::Value;
use std::time::{Duration, Instant};

/// Longer than that no set of faults takes.
const PATIENCE: Duration = Duration::from_secs(600);

/// A browser beside the page, ready for acts.
pub struct Bench {
    pub maker: Maker,
    site: Site,
}

impl Bench {
    pub async fn set_up() -> Self {
        let site = Site::publish(&Site::dist()).await;
        let phone = Phone { before: Some(include_str!("frames.js")), ..Phone::default() };
        let maker = Maker::open(&site.address(), phone).await;
        // A picture has no policy of its own that would forbid frames, and is of the same origin.
        maker.driver.goto(format!("{}icons/icon-192.png", site.address())).await.expect("a picture opens");
        Self { maker, site }
    }

    /// What `call` of a script comes to; the storage is empty at its start.
    pub async fn run(&self, script: &str, call: &str) -> Value {
        let home = self.site.address();
        let acts = include_str!("acts.js");
        let whole = format!(
            "window.report = null; (async () => {{ const home = {home:?}; {acts}\n{script}\n\
             await wipe(); return await ({call}); }})().then(all => window.report = {{ all }}, why => window.report = {{ why: String(why?.stack ?? why) }});"
        );
        self.maker.ask(&whole).await;
        let begun = Instant::now();
        loop {
            let report = self.maker.ask("return window.report").await;
            if report.is_object() {
                assert!(report["why"].is_null(), "{}", report["why"]);
                println!("{}: {:.1} s", call.chars().take(60).collect::<String>(), begun.elapsed().as_secs_f64());
                return report["all"].clone();
            }
            assert!(begun.elapsed() < PATIENCE, "{call} does not end");
            tokio::time::sleep(Duration::from_millis(100)).await;
        }
    }
}

/// How many cases to try: all of them where the environment says so.
pub fn cases(usual: usize, all: usize) -> usize {
    match std::env::var("POURWRIGHT_FAULTS").ok().as_deref() {
        Some("all") => all,
        Some(count) => count.parse().expect("POURWRIGHT_FAULTS is a number, or all"),
        None => usual,
    }
}

/// What the guard and the page complained of.
pub fn no_complaints(report: &Value) {
    assert_eq!(report["complaints"], serde_json::json!([]), "complaints");
}
