//! Several tabs, one job.

use super::{Bench, cases};
use serde_json::json;

const SCRIPT: &str = include_str!("tabs.js");

async fn tabs(count: usize) {
    let bench = Bench::set_up().await;
    let report = bench.run(SCRIPT, &format!("many_times({count}, {})", cases(10, 60))).await;
    assert_eq!(report["broken"], json!([]));
    assert_ne!(report["told"], 0, "now and then a tab is told of another");
    bench.maker.close().await;
}

#[tokio::test]
async fn two_tabs_lose_nothing_of_one_job() {
    tabs(2).await;
}

#[tokio::test]
async fn three_tabs_lose_nothing_of_one_job() {
    tabs(3).await;
}
