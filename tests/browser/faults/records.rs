//! Records that were spoiled, and records of a newer program.

use super::{Bench, no_complaints};
use serde_json::json;

const SCRIPT: &str = include_str!("records.js");

#[tokio::test]
async fn a_spoiled_record_is_said_and_harms_no_other() {
    let bench = Bench::set_up().await;
    let report = bench.run(SCRIPT, "every_record(11)").await;
    assert_eq!(report["broken"], json!([]));
    let records = report["records"].as_u64().expect("a number");
    assert!(records >= 7, "three jobs, one deleted, bags, prices, the index: {records}");
    assert_eq!(report["spoiled"], records * 4);
    bench.maker.close().await;
}

#[tokio::test]
async fn a_record_of_a_newer_program_is_left_alone_and_said() {
    let bench = Bench::set_up().await;
    for deaf in [false, true] {
        let seen = bench.run(SCRIPT, &format!("downgrade({deaf})")).await;
        assert_eq!(
            (&seen["kept"], &seen["still"], &seen["offered"]),
            (&json!(true), &json!(true), &json!(true)),
            "{seen}"
        );
        assert_eq!(seen["shown"], "typed in the older one");
        let open = seen["open"].as_str().expect("words");
        assert!(open.contains("not kept yet") && open.contains("newer Pourwright"), "{open}");
        assert!(seen["both"].as_array().expect("clients").contains(&json!("typed in the older one")), "{seen}");
        assert!(seen["again"].as_str().expect("words").contains("newer Pourwright"), "{seen}");
        no_complaints(&seen);
    }
    bench.maker.close().await;
}
