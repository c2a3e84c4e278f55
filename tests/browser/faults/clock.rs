//! The clock of the wall jumps.

use super::kills::assert_nothing_older_is_lost;
use super::{Bench, cases};

#[tokio::test]
async fn a_clock_that_jumps_loses_nothing() {
    let bench = Bench::set_up().await;
    let count = cases(40, 200);
    let report = bench.run(include_str!("kills.js"), &format!("kills(7, {count}, true)")).await;
    assert_nothing_older_is_lost(&report);
    bench.maker.close().await;
}
