//! The worker dies in a solve.

use super::{Bench, no_complaints};

#[tokio::test]
async fn a_worker_that_dies_is_said_and_the_next_one_answers() {
    let bench = Bench::set_up().await;
    let seen = bench.run(include_str!("worker.js"), "deaths()").await;
    let deaths = seen["report"].as_array().expect("deaths");
    assert_eq!(deaths.len(), 4);
    for death in deaths {
        let how = death["how"].as_str().expect("a way to die");
        assert_eq!(death["kept"], "1600", "{how}: what is typed meanwhile is kept");
        assert!(death["said"].as_str().expect("words").contains("There is no map."), "{how}: {death}");
        assert!(death["said"].as_str().expect("words").contains("by hand"), "{how}: {death}");
        assert_eq!(death["answered"], true, "{how}: the next one answers");
    }
    no_complaints(&seen);
    bench.maker.close().await;
}
