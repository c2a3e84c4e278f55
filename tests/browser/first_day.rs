//! The main job, end to end.

use crate::maker::{Maker, Phone};
use crate::site::Site;

/// A top of 67 in by 19 1/4 in by 2 in, lined in front, with two 20 x 13 in cutouts, as a maker types it.
pub async fn tape_a_top(maker: &Maker) {
    maker.press("New job").await;
    maker.write("job-name", "Guest bath").await;
    maker.write("piece-0-width", "67").await;
    maker.write("piece-0-depth", "19 1/4").await;
    maker.write("piece-0-thickness", "2").await;
    maker.press("Edges").await;
    maker.press("Lined").await;
    maker.write("edge-0-0-liner", "3/4").await;
    for (cutout, from_left) in [(0, "17 1/2"), (1, "49 1/2")] {
        maker.press("+ Cutout").await;
        maker.write(&format!("cutout-0-{cutout}-width"), "20").await;
        maker.write(&format!("cutout-0-{cutout}-depth"), "13").await;
        maker.write(&format!("cutout-0-{cutout}-from-left"), from_left).await;
        maker.write(&format!("cutout-0-{cutout}-from-front"), "9 5/8").await;
    }
}

/// What the page must say about it, on every way back to it.
async fn the_numbers_stand(maker: &Maker) {
    // 67 x 19.25 x 2 in less two cutouts is 0.90 ft³ with its round corners: two bags of 0.50 ft³ with a tenth spare.
    assert_eq!(maker.number("bags").await, "2");
    assert_eq!(maker.number("water").await, "2 gal 2 qt");
    assert_eq!(maker.number("people").await, "3 + cart");
    // About 120 lb: common practice, no source.
    let weight = maker.number("weight").await;
    let pounds: f64 = weight.trim_end_matches(" lb").parse().unwrap_or_else(|_| panic!("a weight in pounds: {weight}"));
    assert!((112.0..=125.0).contains(&pounds), "near 120 lb, not {weight}");
    maker.turn_to("Build").await;
    let sizes = maker.text("[aria-label='Form sizes']").await;
    let base = sizes.split("Base, front to back").nth(1).expect("the base is listed");
    assert!(base.trim_start().starts_with("20 in"), "19 1/4 in lined with 3/4 in takes a 20 in base: {sizes}");
    assert!(sizes.contains("2 3/4 in"), "2 in on a 3/4 in base takes 2 3/4 in sides: {sizes}");
    maker.turn_to("Measure").await;
}

#[tokio::test]
async fn first_day() {
    let mut site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    a_first_day(&mut site, maker).await;
}

/// In any engine.
pub async fn a_first_day(site: &mut Site, mut maker: Maker) {
    tape_a_top(&maker).await;
    the_numbers_stand(&maker).await;

    // A number tapped shows its hand calculation and where it comes from.
    let bags = maker.wait_for("#headline-bags").await;
    maker.tap(&bags).await;
    maker.see("dialog", "÷ 0.5 ft³").await;
    maker.see("dialog", "= 2 bags").await;
    maker.press("Close").await;

    // A reload finds it as it was typed.
    maker.is_kept().await;
    maker.reload().await;
    assert_eq!(maker.written("piece-0-depth").await, "19 1/4");
    the_numbers_stand(&maker).await;

    // The garage: the host is gone, the browser is started anew.
    maker.press("All jobs").await;
    maker.see("#offline-words", "Ready for the garage").await;
    maker.no_complaints().await;
    site.stop().await;
    maker.come_back().await;
    maker.press("Guest bath").await;
    the_numbers_stand(&maker).await;
    maker.write("piece-0-thickness", "1 1/2").await;
    maker.see("#headline-bags .value", "2").await;
    maker.write("piece-0-thickness", "2").await;
    the_numbers_stand(&maker).await;
    maker.is_kept().await;

    // Shared to a file; everything cleared; imported in again: the same job.
    let before = job_of(&maker).await;
    maker.press("Share this estimate").await;
    maker.press("Save the file").await;
    let (file, text) = maker.downloaded().await;
    assert!(text.contains("Guest bath") && text.contains("19 1/4"), "the file reads as an estimate");
    maker.press("Close").await;
    maker.press("All jobs").await;
    maker.forget_everything().await;
    maker.reload().await;
    maker.see("main", "See a worked job").await;
    maker.press("Import").await;
    let picker = maker.wait_for("#import-file").await;
    picker.send_keys(file.display().to_string()).await.expect("the picker takes the file");
    maker.see("#imported", "Guest bath").await;
    maker.press("Close").await;
    maker.press("Guest bath").await;
    the_numbers_stand(&maker).await;
    assert_eq!(job_of(&maker).await, before, "nothing is lost on the way");
    maker.done().await;
}

/// The one job that is kept, without what its record says about keeping it.
pub async fn job_of(maker: &Maker) -> serde_json::Value {
    let records = maker.records().await;
    let mut jobs = records.iter().filter(|(key, _)| key.starts_with("pourwright/job/"));
    let (_, text) = jobs.next().expect("a job is kept");
    assert!(jobs.next().is_none(), "only one job is kept");
    let record: serde_json::Value = serde_json::from_str(text.as_str().expect("a text")).expect("a record is JSON");
    record["job"].clone()
}
