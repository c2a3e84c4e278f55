//! The tab is killed at random moments of typing.

use super::{Bench, cases, no_complaints};
use serde_json::Value;

/// What may be lost at most, in milliseconds.
const MAY_BE_LOST: f64 = 1000.0;

/// Every kill left some state that was typed, not older than a second, and the page opened with just that. Gives how
/// many kills cost a letter.
pub fn assert_nothing_older_is_lost(report: &Value) -> usize {
    no_complaints(report);
    let kills = report["report"].as_array().expect("kills");
    let mut cost = 0;
    for (round, kill) in kills.iter().enumerate() {
        assert_eq!(kill["opened"][0], kill["opened"][1], "round {round}: it opens with what is kept");
        let killed = kill["killed"].as_f64().expect("a moment");
        let log = kill["log"].as_array().expect("states");
        let time = |state: &Value| state[0].as_f64().expect("a moment");
        let oldest = log.iter().rposition(|state| time(state) <= killed - MAY_BE_LOST).unwrap_or(0);
        let found = log[oldest..].iter().rposition(|state| state[1] == kill["stored"]);
        assert!(
            found.is_some(),
            "round {round}: {} was typed over a second before, {} is left",
            log[oldest],
            kill["stored"]
        );
        cost += usize::from(log.last().expect("a state")[1] != kill["stored"]);
    }
    cost
}

#[tokio::test]
async fn a_tab_killed_at_any_moment_loses_a_second_at_most() {
    let bench = Bench::set_up().await;
    let count = cases(200, 200);
    let report = bench.run(include_str!("kills.js"), &format!("kills(20261125, {count}, false)")).await;
    assert_eq!(report["report"].as_array().expect("kills").len(), count);
    let cost = assert_nothing_older_is_lost(&report);
    assert!(cost > count / 10, "only {cost} of {count} kills came between a letter and its being kept");
    bench.maker.close().await;
}
