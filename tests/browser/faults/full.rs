//! The storage is full, gone, or comes and goes.

use super::{Bench, cases, no_complaints};
use serde_json::{Value, json};

const SCRIPT: &str = include_str!("full.js");

fn said<'a>(seen: &'a Value, when: &str) -> &'a str {
    seen[when].as_str().expect("words")
}

#[tokio::test]
async fn whichever_write_finds_no_room_nothing_is_lost() {
    let bench = Bench::set_up().await;
    let report = bench.run(SCRIPT, &format!("every_change({})", cases(3, 1))).await;
    assert_eq!(report["broken"], json!([]));
    let (changes, sessions) = (report["changes"].as_u64().expect("a number"), report["sessions"].as_u64());
    assert!(changes > 20, "the session changes the storage {changes} times only");
    println!("{changes} changes, {sessions:?} sessions");
    bench.maker.close().await;
}

#[tokio::test]
async fn storage_that_vanishes_and_comes_back_is_said_and_nothing_is_lost() {
    let bench = Bench::set_up().await;
    let seen = bench.run(SCRIPT, "vanishing()").await;
    assert!(said(&seen, "gone").contains("not being kept"), "{seen}");
    assert_eq!(seen["shown"], "typed while it is gone");
    assert!(said(&seen, "shelf").contains("keeps nothing here"), "{seen}");
    assert!(!said(&seen, "back").contains("keeps nothing here"), "{seen}");
    assert_eq!(seen["kept"], "typed while it is gone");
    no_complaints(&seen);
    let seen = bench.run(SCRIPT, "coming()").await;
    assert!(said(&seen, "gone").contains("keeps nothing here"), "{seen}");
    assert_eq!(seen["before"], 0);
    assert!(!said(&seen, "back").contains("keeps nothing here"), "{seen}");
    assert_eq!(seen["kept"], json!([["From nowhere", "and then typed"]]));
    no_complaints(&seen);
    bench.maker.close().await;
}

#[tokio::test]
async fn a_full_storage_is_read_and_an_unkept_job_is_not_left_without_a_word() {
    let bench = Bench::set_up().await;
    let seen = bench.run(SCRIPT, "full_from_the_start()").await;
    assert!(said(&seen, "shelf").contains("There before"), "{seen}");
    no_complaints(&seen);
    let seen = bench.run(SCRIPT, "leaving()").await;
    assert_eq!(seen["stays"], json!(["Not to be left", "only here"]));
    assert!(said(&seen, "said").contains("Not to be left is not kept yet"), "{seen}");
    assert_eq!((&seen["left"], &seen["kept"]), (&json!("The other one"), &json!("Not to be left")));
    no_complaints(&seen);
    bench.maker.close().await;
}
