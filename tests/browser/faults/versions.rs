//! A newer version of the page arrives in the middle of typing.

use crate::first_day::job_of;
use crate::keeping::FULL;
use crate::maker::{Folder, Maker, Phone};
use crate::offline::{opens, publish_next, version};
use crate::site::Site;
use serde_json::Value;

async fn look_for_a_newer_one(maker: &Maker) {
    maker.ask("return navigator.serviceWorker.getRegistration().then(r => r.update()).then(() => true)").await;
    maker.see("#newer", "A newer version is ready.").await;
}

#[tokio::test]
async fn a_newer_version_does_not_open_over_what_cannot_be_kept() {
    let mut site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone { before: Some(FULL), ..Phone::default() }).await;
    maker.see("#offline-words", "Ready for the garage").await;
    maker.press("New job").await;
    maker.write("job-name", "Before").await;
    maker.is_kept().await;
    let next = Folder::new("next");
    publish_next(&mut site, &next).await;
    maker.ask("window.isFull = true").await;
    maker.write("job-client", "typed as it came").await;
    maker.see("[role='alert']", "not being kept").await;
    look_for_a_newer_one(&maker).await;
    maker.press("Open it").await;
    maker.see(".notice", "not kept yet").await;
    tokio::time::sleep(std::time::Duration::from_millis(500)).await;
    assert_eq!(version(&maker).await, Value::Null, "this page stays");
    assert_eq!(maker.written("job-client").await, "typed as it came");
    // There is room again: it is kept by itself, and then the newer one opens with it.
    maker.ask("window.isFull = false").await;
    maker.is_kept().await;
    maker.press("Open it").await;
    opens(&maker, "next").await;
    assert_eq!(job_of(&maker).await["client"], "typed as it came");
    maker.close().await;
}

/// One tab opens the newer version while another is typed in: that one stays as it is, and keeps.
#[tokio::test]
async fn a_newer_version_in_another_tab_disturbs_no_typing() {
    let mut site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    maker.see("#offline-words", "Ready for the garage").await;
    maker.press("New job").await;
    maker.write("job-name", "Here").await;
    maker.is_kept().await;
    let typing = maker.driver.window().await.expect("a tab");
    let other = maker.driver.new_tab().await.expect("another tab");
    maker.driver.switch_to_window(other).await.expect("the other tab");
    maker.go_home().await;
    let next = Folder::new("next");
    publish_next(&mut site, &next).await;
    look_for_a_newer_one(&maker).await;
    maker.driver.switch_to_window(typing.clone()).await.expect("the first tab");
    let field = maker.wait_for("#job-client").await;
    field.send_keys("half a wo").await.expect("letters");
    let here = maker.driver.windows().await.expect("tabs").into_iter().find(|tab| *tab != typing).expect("two tabs");
    maker.driver.switch_to_window(here).await.expect("the other tab");
    maker.press("Open it").await;
    opens(&maker, "next").await;
    maker.driver.switch_to_window(typing).await.expect("the first tab");
    assert_eq!(version(&maker).await, Value::Null, "nothing is opened over half a word");
    field.send_keys("rd").await.expect("letters");
    maker.is_kept().await;
    assert_eq!(job_of(&maker).await["client"], "half a word");
    maker.close().await;
}
