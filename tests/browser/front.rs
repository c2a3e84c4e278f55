//! The shelf stands by itself; what was asked for there is done when the rest of the page arrives.

use crate::maker::{Maker, Phone};
use crate::site::Site;
use serde_json::json;

async fn cut_off(maker: &Maker, addresses: &[&str]) {
    let addresses = json!({ "urls": addresses });
    maker.driver.cdp().send_raw("Network.setBlockedURLs", addresses).await.expect("a network that refuses");
}

#[tokio::test]
async fn front_without_the_workshop() {
    let site = Site::publish(&Site::dist()).await;
    // No service worker: what the network refuses is missing.
    let none = "delete Navigator.prototype.serviceWorker;";
    let maker = Maker::open(&site.address(), Phone { before: Some(none), ..Phone::default() }).await;
    maker.press("See a worked job").await;
    maker.is_kept().await;
    maker.driver.cdp().send_raw("Network.enable", json!({ "maxTotalBufferSize": 0 })).await.expect("the network");
    maker.driver.cdp().send_raw("Network.setCacheDisabled", json!({ "cacheDisabled": true })).await.expect("no cache");

    // The shelf shows what is on it, says what is missing, and keeps what is asked.
    cut_off(&maker, &["*split_workshop*"]).await;
    maker.driver.goto("about:blank").await.expect("an empty page");
    maker.driver.goto(site.address()).await.expect("the address opens");
    maker.see(".jobs", "Coffee counter").await;
    maker.see("[role=alert]", "could not be fetched").await;
    maker.press("New job").await;
    cut_off(&maker, &[]).await;
    maker.press("Try again").await;
    maker.wait_for("#piece-0-width").await;
    assert_eq!(maker.written("job-name").await, "");

    // The screens behind Measure say so too.
    cut_off(&maker, &["*split_screens*"]).await;
    maker.driver.refresh().await.expect("the page reloads");
    maker.wait_for("#piece-0-width").await;
    maker.turn_to("Build").await;
    maker.see("main", "could not be fetched").await;
    cut_off(&maker, &[]).await;
    maker.press("Try again").await;
    maker.see("main", "Sides").await;
    maker.close().await;
}
