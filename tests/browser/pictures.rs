//! Every screen, photographed at a phone's and a desk's size, in both schemes, into `target/pictures`.

use crate::maker::{Maker, Phone};
use crate::site::Site;
use base64::prelude::*;
use serde_json::json;
use std::path::PathBuf;

pub async fn take(maker: &Maker, name: &str, whole: bool) {
    let folder = PathBuf::from(std::env::var_os("POURWRIGHT_PICTURES").unwrap_or_else(|| "target/pictures".into()));
    std::fs::create_dir_all(&folder).expect("a folder for pictures");
    // Fonts and drawing settle.
    maker.ask("return document.fonts.ready.then(() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(() => done(true)))))").await;
    let shot = maker
        .driver
        .cdp()
        .send_raw("Page.captureScreenshot", json!({ "format": "png", "captureBeyondViewport": whole }))
        .await
        .expect("a picture");
    let bytes = BASE64_STANDARD.decode(shot["data"].as_str().expect("a picture")).expect("base64");
    std::fs::write(folder.join(format!("{name}.png")), bytes).expect("a file");
}

async fn every_screen(size: (u32, u32), dark: bool, label: &str) {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone { size: Some(size), dark, ..Phone::default() }).await;
    take(&maker, &format!("{label}-0-empty"), false).await;
    maker.press("See a worked job").await;
    for (index, verb) in ["Measure", "Build", "Pour", "Finish", "Quote"].into_iter().enumerate() {
        maker.turn_to(verb).await;
        maker.wait_for(&format!("main[data-screen='{verb}']")).await;
        maker.ask("scrollTo(0, 0)").await;
        take(&maker, &format!("{label}-{}-{}", index + 1, verb.to_lowercase()), false).await;
        take(&maker, &format!("{label}-{}-{}-whole", index + 1, verb.to_lowercase()), true).await;
    }
    maker.turn_to("Measure").await;
    let cutout = maker.wait_for("[data-part='cutout-0'] .cut").await;
    maker.driver.action_chain().move_to_element_center(&cutout).click().perform().await.expect("a touch");
    let field = maker.wait_for("#cutout-0-0-from-left").await;
    maker.tap(&field).await;
    take(&maker, &format!("{label}-6-cutout"), false).await;
    let weight = maker.wait_for("#headline-weight").await;
    maker.tap(&weight).await;
    maker.see("dialog", "Close").await;
    tokio::time::sleep(std::time::Duration::from_millis(300)).await;
    take(&maker, &format!("{label}-7-working"), false).await;
    maker.press("Close").await;
    maker.press("Share this estimate").await;
    tokio::time::sleep(std::time::Duration::from_millis(300)).await;
    take(&maker, &format!("{label}-8-share"), false).await;
    maker.press("Save the file").await;
    let (file, _) = maker.downloaded().await;
    maker.press("Close").await;
    maker.press("All jobs").await;
    maker.press("New job").await;
    maker.write("job-name", "Loft bar").await;
    maker.write("piece-0-width", "5'").await;
    take(&maker, &format!("{label}-9-new"), false).await;
    maker.press("All jobs").await;
    maker.see(".jobs", "Loft bar").await;
    take(&maker, &format!("{label}-shelf"), false).await;
    // A job with a piece of every shape.
    maker.press("Import").await;
    let sample = std::fs::canonicalize("tests/samples/job-v4.json").expect("the sample");
    let picker = maker.wait_for("#import-file").await;
    picker.send_keys(sample.display().to_string()).await.expect("the picker takes the file");
    maker.see("#imported", "on your shelf").await;
    maker.press("Close").await;
    let first = maker.wait_for(".jobs li:first-child a").await;
    maker.tap(&first).await;
    let pieces = maker.ask("return document.querySelectorAll(\"[aria-label='Pieces'] button\").length").await;
    for piece in 0..pieces.as_u64().expect("a number") {
        maker.ask(&format!("document.querySelectorAll(\"[aria-label='Pieces'] button\")[{piece}].click()")).await;
        maker.ask("scrollTo(0, 0)").await;
        take(&maker, &format!("{label}-shape-{piece}"), true).await;
    }
    maker.turn_to("Build").await;
    take(&maker, &format!("{label}-shape-form"), true).await;
    maker.no_complaints().await;
    maker.driver.goto(format!("file://{}", file.display())).await.expect("the file opens");
    take(&maker, &format!("{label}-file"), true).await;
    maker.close().await;
}

#[tokio::test]
async fn every_screen_on_a_phone_in_light() {
    every_screen((360, 740), false, "phone-light").await;
}

#[tokio::test]
async fn every_screen_on_a_phone_in_dark() {
    every_screen((360, 740), true, "phone-dark").await;
}

#[tokio::test]
async fn every_screen_on_a_desk_in_light() {
    every_screen((1280, 800), false, "desk-light").await;
}

#[tokio::test]
async fn every_screen_on_a_desk_in_dark() {
    every_screen((1280, 800), true, "desk-dark").await;
}
