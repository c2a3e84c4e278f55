//! Several tabs, one job.

use super::{Bench, PATIENCE, cases, no_complaints};
use crate::hostile::large_backup;
use crate::keeping::clients;
use crate::maker::{Maker, Phone};
use crate::site::Site;
use serde_json::json;
use std::time::{Duration, Instant};
use thirtyfour::WindowHandle;

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

/// Waits for a word to all tabs, and then types and saves within the same moment: as the page is hidden, it saves at
/// once.
const AT_ONCE: &str = "const channel = new BroadcastChannel('at once'); const words = arguments[0]; \
    channel.onmessage = () => { \
        const field = document.querySelector('#job-client'); \
        Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value').set.call(field, words); \
        field.dispatchEvent(new InputEvent('input', { bubbles: true })); \
        dispatchEvent(new Event('pagehide')); \
        channel.close(); \
    };";

/// What the tab shows, and whether it says that it is in another state elsewhere; once that is settled.
async fn settled(maker: &Maker, tab: &WindowHandle) -> (String, bool) {
    maker.driver.switch_to_window(tab.clone()).await.expect("a tab");
    let begun = Instant::now();
    loop {
        let kept = maker.text("#kept").await;
        if kept == "Saved" || kept == "Not kept" {
            return (maker.written("job-client").await, kept == "Not kept");
        }
        assert!(begun.elapsed() < PATIENCE, "{kept}");
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
}

/// Two tabs, each of a process of its own, save over the same state within a millisecond or so: local storage lets both
/// write, and the journal one of them.
#[tokio::test]
async fn two_tabs_that_save_in_the_same_moment_do_not_both_win() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    maker.press("New job").await;
    maker.write("job-name", "Hall table").await;
    maker.is_kept().await;
    let address = maker.driver.current_url().await.expect("an address").to_string();
    let mut tabs = vec![maker.driver.window().await.expect("a tab")];
    tabs.push(maker.driver.new_tab().await.expect("another tab"));
    maker.driver.switch_to_window(tabs[1].clone()).await.expect("the other tab");
    maker.driver.goto(address).await.expect("the same job");
    maker.stands().await;
    let mut gave_way = 0;
    for round in 0..cases(10, 100) {
        for (at, tab) in tabs.iter().enumerate() {
            maker.driver.switch_to_window(tab.clone()).await.expect("a tab");
            maker.see("#kept", "Saved").await;
            let words = json!(format!("tab {at}, round {round}"));
            maker.driver.execute(AT_ONCE, vec![words]).await.expect("it waits");
        }
        // A channel is heard by every other one, that of the same tab included.
        maker.ask("new BroadcastChannel('at once').postMessage(0)").await;
        tokio::time::sleep(Duration::from_millis(300)).await;
        let mut shown = Vec::new();
        for tab in &tabs {
            shown.push(settled(&maker, tab).await);
        }
        let record = clients(&maker).await;
        assert_eq!(record.len(), 1, "round {round}: {record:?}");
        for (client, elsewhere) in &shown {
            assert!(*elsewhere || *client == record[0], "round {round}: {shown:?}, and {record:?} is kept");
        }
        for (at, tab) in tabs.iter().enumerate() {
            if shown[at].1 {
                gave_way += 1;
                maker.driver.switch_to_window(tab.clone()).await.expect("a tab");
                maker.press("Go on with the other").await;
                maker.see("#kept", "Saved").await;
                assert_eq!(maker.written("job-client").await, record[0], "round {round}");
            }
        }
    }
    assert_ne!(gave_way, 0, "now and then both save at once");
    maker.close().await;
}

#[tokio::test]
async fn a_job_that_another_tab_deletes_is_said_to_be_deleted() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    maker.press("New job").await;
    maker.write("job-name", "Hall table").await;
    maker.is_kept().await;
    let first = maker.driver.window().await.expect("a tab");
    let second = maker.driver.new_tab().await.expect("another tab");
    for again in [true, false] {
        maker.driver.switch_to_window(second.clone()).await.expect("the other tab");
        maker.go_home().await;
        maker.press("Delete Hall table").await;
        maker.driver.switch_to_window(first.clone()).await.expect("the first tab");
        maker.see("[role='alert']", "This job was deleted in another tab.").await;
        maker.see("#kept", "Not kept").await;
        if again {
            maker.press("Keep it").await;
            maker.is_kept().await;
            maker.reload().await;
            assert_eq!(maker.written("job-name").await, "Hall table");
        } else {
            maker.press("Let it go").await;
            maker.see("main", "See a worked job").await;
        }
    }
    maker.done().await;
}

/// Listing the shelf takes as long as it is large: where every job of many had it listed, they would take their square.
#[tokio::test]
async fn many_jobs_at_once_list_the_shelf_once_where_they_are_heard_of() {
    const JOBS: usize = 40;
    let bench = Bench::set_up().await;
    let call = format!("many_at_once({}, {JOBS})", json!(large_backup(JOBS)));
    let report = bench.run(SCRIPT, &call).await;
    let once = json!({ "meanwhile": 0, "lists": 1, "shown": JOBS });
    assert_eq!(report["from_a_tab"], once);
    assert_eq!(report["from_the_journal"], once);
    no_complaints(&report);
    bench.maker.close().await;
}
