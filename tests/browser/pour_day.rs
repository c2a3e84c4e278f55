//! Pour day: a plan that is made to fit, and a whole pour beside the clock, on a day whose time the test tells.

use crate::first_day::job_of;
use crate::maker::{Maker, Phone};
use crate::pictures::take;
use crate::site::Site;
use serde_json::Value;

/// The page's clock stands still but for what the test adds; it outlives reloads and closed tabs with the storage
/// of the browser. Times that the browser itself measures are left alone.
pub const CLOCK: &str = "
    (() => {
        const read = () => { try { return Number(localStorage.getItem('test/clock')) || 0; } catch { return 0; } };
        const begun = 1790000000000;
        Date.now = () => begun + read();
    })();
";

pub async fn wait(maker: &Maker, seconds: f64) {
    let step = format!(
        "localStorage.setItem('test/clock', String((Number(localStorage.getItem('test/clock')) || 0) + {}))",
        seconds * 1000.0
    );
    maker.ask(&step).await;
}

/// A top of 70 x 25 x 2 1/2 in, six bags of 0.50 ft³ with a tenth spare: 2.78 ft³ with it, by hand.
pub async fn six_bags(maker: &Maker) {
    maker.press("New job").await;
    maker.write("job-name", "Bar by the window").await;
    maker.write("piece-0-width", "70").await;
    maker.write("piece-0-depth", "25").await;
    maker.write("piece-0-thickness", "2 1/2").await;
    maker.turn_to("Pour").await;
    assert_eq!(maker.number("bags").await, "6");
}

/// Batches of two minutes, placed as they are mixed.
pub async fn placed_as_they_are_mixed(maker: &Maker) {
    maker.write("pour-minutes-a-batch", "2").await;
    maker.press("Mixers, placing, parts").await;
    maker.write("pour-carry", "0").await;
    maker.write("pour-place", "0").await;
}

/// What the one kept job has logged: the step, and the second after first water.
async fn log(maker: &Maker) -> Vec<(String, i64)> {
    let records = maker.records().await;
    let (_, text) = records.iter().find(|(key, _)| key.starts_with("pourwright/job/")).expect("a job is kept");
    let record: Value = serde_json::from_str(text.as_str().expect("a text")).expect("a record is JSON");
    let lines = record["job"]["pieces"][0]["log"].as_array().cloned().expect("a log");
    let first = lines.first().map_or(0, |line| line["at"].as_i64().expect("a moment"));
    let step = |step: &Value| match step {
        Value::String(name) => name.clone(),
        other => {
            let (name, batch) = other.as_object().and_then(|step| step.iter().next()).expect("a step");
            format!("{name} {}", batch.as_i64().expect("a batch") + 1)
        }
    };
    lines.iter().map(|line| (step(&line["step"]), (line["at"].as_i64().expect("a moment") - first) / 1000)).collect()
}

/// Reads the clock: its step and its countdown.
pub async fn shows(maker: &Maker, title: &str, count: &str) {
    maker.see(".clock h2", title).await;
    maker.see(".clock .count", count).await;
}

/// Presses the big button, as a finger does that does not bounce.
pub async fn tick(maker: &Maker, words: &str) {
    tokio::time::sleep(std::time::Duration::from_millis(450)).await;
    maker.press(words).await;
}

/// Batch after batch, 2 min each, placed as they are mixed, within the 25 min of a rapid mix; the tab is lost while the
/// fourth is mixed: with 4 min of lath after it and 4 of screeding all is done at 22.
#[tokio::test]
async fn pour_day() {
    let site = Site::publish(&Site::dist()).await;
    let mut maker = Maker::open(&site.address(), Phone { before: Some(CLOCK), ..Phone::default() }).await;
    six_bags(&maker).await;
    placed_as_they_are_mixed(&maker).await;
    maker.press("What its label says").await;
    maker.write("bag-0-workable", "25 min").await;
    maker.see("[aria-label='Pour day']", "It fits.").await;
    maker.write("additive-0-0-dose", "4 fl oz").await;
    maker.turn_to("Build").await;
    maker.press("2.5 lb/yd²").await;
    maker.turn_to("Pour").await;

    // The evening before: what is ticked is kept.
    maker.see("[aria-label='The evening before']", "6 bags of Rapid mortar, 55 lb").await;
    maker.see("[aria-label='The evening before']", "Lath, 2.5 lb/yd², 1 panel cut: 68 in × 23 in").await;
    let bags = maker.driver.find(thirtyfour::By::XPath("//label[contains(., '6 bags of Rapid')]//input")).await;
    maker.tap(&bags.expect("a line to tick")).await;
    maker.is_kept().await;
    maker.reload().await;
    let ticked = maker.ask("return document.querySelectorAll('.ticks input:checked').length").await;
    assert_eq!(ticked, 1);

    maker.press("Start the pour").await;
    shows(&maker, "Batch 1 of 6", "When all is ready").await;
    let into = maker.text(".clock .into").await;
    for part in ["1 bag", "5 qt water", "4 fl oz Flow aid"] {
        assert!(into.contains(part), "{part} goes into a batch: {into}");
    }
    take(&maker, "pour-clock-1-start", false).await;
    tick(&maker, "Water is in: start").await;
    shows(&maker, "Batch 1 of 6", "2:00").await;
    take(&maker, "pour-clock-2-mixing", false).await;
    wait(&maker, 75.0).await;
    shows(&maker, "Batch 1 of 6", "0:45").await;
    wait(&maker, 45.0).await;
    shows(&maker, "Batch 1 of 6", "Now").await;
    tick(&maker, "It is placed").await;
    shows(&maker, "Batch 2 of 6", "Now").await;
    for batch in 2..4 {
        tick(&maker, "Water is in: start").await;
        maker.see(".clock .done", "It is placed").await;
        wait(&maker, 120.0).await;
        tick(&maker, "It is placed").await;
        maker.see(".clock h2", &format!("Batch {} of 6", batch + 1)).await;
    }

    // Two minutes late with the tick: the batch was started in time. Then the tab is gone, and the phone with it.
    wait(&maker, 120.0).await;
    tick(&maker, "Water is in: start").await;
    shows(&maker, "Batch 4 of 6", "2:00").await;
    maker.is_kept().await;
    maker.no_complaints().await;
    maker.restart_the_browser().await;
    maker.go_home().await;
    maker.press("Bar by the window").await;
    maker.turn_to("Pour").await;
    shows(&maker, "Batch 4 of 6", "2:00").await;
    maker.see(".clock", "Only 3 min to spare").await;
    take(&maker, "pour-clock-3-back", false).await;
    maker.press("What happened").await;
    take(&maker, "pour-clock-4-log", true).await;
    maker.press("− 1 min: Batch 4: water in").await;
    maker.press("− 1 min: Batch 4: water in").await;
    shows(&maker, "Batch 4 of 6", "Now").await;

    // From here on by the clock: lath at 60 %, two more batches, and the back.
    tick(&maker, "It is placed").await;
    maker.see(".clock h2", "Lay the lath").await;
    tick(&maker, "Lath is in").await;
    for batch in 5..7 {
        maker.see(".clock h2", &format!("Batch {batch} of 6")).await;
        tick(&maker, "Water is in: start").await;
        maker.see(".clock .done", "It is placed").await;
        wait(&maker, 120.0).await;
        tick(&maker, "It is placed").await;
    }
    maker.see(".clock h2", "Screed").await;
    tick(&maker, "It is screeded").await;
    shows(&maker, "Trowel the back", "5:00").await;
    // Pressed too soon, and taken back.
    tick(&maker, "It is trowelled").await;
    maker.see(".clock h2", "Watch for light patches").await;
    maker.press("Take the last step back").await;
    maker.see(".clock h2", "Trowel the back").await;
    wait(&maker, 300.0).await;
    tick(&maker, "It is trowelled").await;
    tick(&maker, "It sets: I wet it").await;
    shows(&maker, "Keep it wet", "1 h 00").await;
    wait(&maker, 3600.0).await;
    tick(&maker, "The hour is over").await;
    maker.see(".clock h2", "Strip").await;
    let sideways = maker.ask("const c = document.querySelector('.clock'); return c.scrollWidth - c.clientWidth").await;
    assert_eq!(sideways, 0, "nothing of the clock stands out of the phone");
    take(&maker, "pour-clock-5-strip", false).await;
    tick(&maker, "It is out").await;
    maker.see(".clock", "All steps are done").await;
    maker.press("Leave").await;
    maker.is_kept().await;

    let expected = [
        ("water 1", 0),
        ("placed 1", 120),
        ("water 2", 120),
        ("placed 2", 240),
        ("water 3", 240),
        ("placed 3", 360),
        // Ticked at 480, started at 360.
        ("water 4", 360),
        ("placed 4", 480),
        ("lath", 480),
        ("water 5", 480),
        ("placed 5", 600),
        ("water 6", 600),
        ("placed 6", 720),
        ("screed", 720),
        ("trowel", 1020),
        ("patches", 1020),
        ("wet", 4620),
        ("strip", 4620),
    ];
    let found = log(&maker).await;
    let found: Vec<_> = found.iter().map(|(step, at)| (step.as_str(), *at)).collect();
    assert_eq!(found, expected);

    // The log goes with the job onto paper.
    assert_eq!(job_of(&maker).await["pieces"][0]["log"].as_array().map(Vec::len), Some(18));
    maker.press("Share this estimate").await;
    maker.press("Save the file").await;
    let (_, text) = maker.downloaded().await;
    assert!(text.contains("as it went") && text.contains("Batch 4: water in"), "the log is on the paper");
    maker.done().await;
}

/// Six bags, 5 1/2 min each with placing, one person, 4 min of screeding: 37 min of 15. The page says so, and one tap
/// makes it fit; the next takes it back.
#[tokio::test]
async fn pour_does_not_fit() {
    let site = Site::publish(&Site::dist()).await;
    for (label, phone) in [
        ("phone-light", Phone::default()),
        ("phone-dark", Phone { dark: true, ..Phone::default() }),
        ("desk-light", Phone { size: Some((1280, 800)), ..Phone::default() }),
        ("desk-dark", Phone { size: Some((1280, 800)), dark: true, ..Phone::default() }),
    ] {
        let maker = Maker::open(&site.address(), phone).await;
        six_bags(&maker).await;
        maker.write("pour-humidity", "20").await;
        maker.write("pour-wind", "8").await;
        maker.see("[aria-label='Pour day']", "It does not fit.").await;
        maker.see(".findings", "takes 37 min, but the mix stays workable 15 min").await;
        maker.see("[aria-label='Weather']", "Really").await;
        maker.ask("scrollTo(0, 0)").await;
        take(&maker, &format!("{label}-pour-over"), true).await;
        // Changes closer together are taken back as one.
        tokio::time::sleep(std::time::Duration::from_millis(800)).await;
        maker.press("2 more people, each with a mixer").await;
        // Two rounds of 5 1/2 min and 4 of screeding are all of the 15.
        maker.see("[aria-label='Pour day']", "It only just fits: 0 min to spare.").await;
        assert_eq!(maker.written("pour-people").await, "3");
        take(&maker, &format!("{label}-pour-fits"), true).await;
        maker.press("Undo").await;
        maker.see("[aria-label='Pour day']", "It does not fit.").await;
        assert_eq!(maker.written("pour-people").await, "1");
        maker.press("Start the pour").await;
        take(&maker, &format!("{label}-pour-clock"), false).await;
        tick(&maker, "Water is in: start").await;
        maker.see(".clock .finding.stop", "after the first batch is stiff").await;
        take(&maker, &format!("{label}-pour-clock-threat"), false).await;
        maker.press("Leave").await;
        maker.done().await;
    }
}

/// Two pieces of 30 x 12 x 1 1/4 in, 0.57 ft³ with a tenth spare, are two bags at one go: the clock of either runs both,
/// says what each batch fills and how much of the second bag is mixed, and keeps its log in the first.
#[tokio::test]
async fn two_pieces_one_clock() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone { before: Some(CLOCK), ..Phone::default() }).await;
    maker.press("New job").await;
    maker.write("job-name", "Bar and shelf").await;
    maker.write("piece-0-width", "30").await;
    maker.write("piece-0-depth", "12").await;
    maker.write("piece-0-thickness", "1 1/4").await;
    maker.press("+ Piece").await;
    maker.write("piece-1-width", "30").await;
    maker.write("piece-1-depth", "12").await;
    maker.turn_to("Pour").await;
    assert_eq!(maker.number("bags").await, "2");
    maker.see("[aria-label='Pour day']", "2 pieces of Rapid mortar, 55 lb at one go").await;
    maker.see("[aria-label='Pour day']", "9 lb of a bag").await;
    maker.press("Start the pour").await;
    shows(&maker, "Batch 1 of 2", "When all is ready").await;
    let into = maker.text(".clock .into").await;
    for part in ["1 bag", "5 qt water", "It goes into Top, then Piece 2"] {
        assert!(into.contains(part), "{part} goes into a batch: {into}");
    }
    tick(&maker, "Water is in: start").await;
    maker.see(".clock .done", "It is placed").await;
    maker.press("Leave").await;
    maker.is_kept().await;
    assert_eq!(log(&maker).await, [("water 1".to_owned(), 0)]);
    maker.done().await;
}

/// Chooses in a list, as a finger does in the phone's own picker.
async fn choose(maker: &Maker, id: &str, value: &str) {
    maker.wait_for(&format!("#{id} option[value='{value}']")).await;
    maker
        .ask(&format!(
            "const list = document.getElementById('{id}'); list.value = '{value}'; \
             list.dispatchEvent(new Event('change', {{ bubbles: true }}))"
        ))
        .await;
}

/// Concrete made from scratch gives an answer as soon as it is chosen; then the worked example of a US Navy training
/// manual (610 lb of cement, 305 of water, 1735 of stone and 1152 of sand in 27 ft³) in a form of 1.5 ft³, in three
/// batches to the ounce. What cannot be is said; the clock names what is weighed.
#[tokio::test]
async fn pour_from_scratch() {
    let site = Site::publish(&Site::dist()).await;
    for (label, phone) in [
        ("phone-light", Phone { before: Some(CLOCK), ..Phone::default() }),
        ("phone-dark", Phone { before: Some(CLOCK), dark: true, ..Phone::default() }),
        ("desk-light", Phone { before: Some(CLOCK), size: Some((1280, 800)), ..Phone::default() }),
        ("desk-dark", Phone { before: Some(CLOCK), size: Some((1280, 800)), dark: true, ..Phone::default() }),
    ] {
        let maker = Maker::open(&site.address(), phone).await;
        maker.press("New job").await;
        maker.write("job-name", "Bench by the stove").await;
        maker.write("piece-0-width", "48").await;
        maker.write("piece-0-depth", "27").await;
        maker.write("piece-0-thickness", "2").await;
        maker.turn_to("Pour").await;
        choose(&maker, "bag-choice", "scratch-concrete").await;
        maker.see("[aria-label='Into each batch']", "Cement").await;
        maker.see("[aria-label='Order']", "Water to cement").await;
        assert_eq!(maker.number("bags").await, "1", "of cement");
        maker.ask("scrollTo(0, 0)").await;
        take(&maker, &format!("{label}-scratch-1"), true).await;

        maker.write("piece-0-spare", "0 %").await;
        maker.write("recipe-1-stone-size", "3/4").await;
        maker.write("recipe-1-strength", "3000").await;
        maker.press("What it is made of").await;
        maker.write("recipe-1-most-water", "0.5").await;
        maker.write("recipe-1-stone-bulk", "102").await;
        maker.write("recipe-1-stone-gravity", "2.60").await;
        choose(&maker, "recipe-air", "Frost").await;
        for amount in ["11 lb 5 oz", "33 lb 15 oz in all", "5 lb 10 oz", "3 batches of"] {
            maker.see("[aria-label='Into each batch']", amount).await;
        }
        maker.see("[aria-label='Order']", "0.5").await;
        maker.see("[aria-label='The evening before']", "3 batches weighed out, each 11 lb 5 oz cement").await;
        take(&maker, &format!("{label}-scratch-2"), true).await;

        maker.write("recipe-1-slump", "9").await;
        maker.see("[aria-label='Into each batch']", "the table goes from 1 in").await;
        maker.write("recipe-1-slump", "3").await;
        maker.see("[aria-label='Into each batch']", "11 lb 5 oz").await;

        maker.press("Start the pour").await;
        shows(&maker, "Batch 1 of 3", "When all is ready").await;
        let into = maker.text(".clock .into").await;
        for part in ["11 lb 5 oz cement", "stone", "sand", "5 lb 10 oz water"] {
            assert!(into.contains(part), "{part} goes into a batch: {into}");
        }
        take(&maker, &format!("{label}-scratch-clock"), false).await;
        tick(&maker, "Water is in: start").await;
        // Four minutes in the mixer, half a minute to carry it and one to place it.
        shows(&maker, "Batch 1 of 3", "5:30").await;
        maker.press("Leave").await;

        choose(&maker, "bag-choice", "scratch-glass-fibre").await;
        maker.see("[aria-label='Into each batch: face coat']", "Polymer").await;
        maker.see("[aria-label='Into each batch: backer']", "Fibre").await;
        take(&maker, &format!("{label}-scratch-3"), true).await;
        maker.done().await;
    }
}

/// The phone takes another zone of time in the middle of a pour, as on a coast or on the last Sunday of October: what is
/// left stays, and only the time of day is another one. A batch that is begun a second early has its whole time.
#[tokio::test]
async fn another_time_zone_leaves_the_pour_alone() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone { before: Some(CLOCK), ..Phone::default() }).await;
    let zone = async |name: &str| {
        let given = serde_json::json!({ "timezoneId": name });
        maker.driver.cdp().send_raw("Emulation.setTimezoneOverride", given).await.expect("a zone");
    };
    // An hour before the clocks of Berlin go back, 2026-10-25 01:00 UTC.
    let until = (1_792_890_000_000_f64 - 3_600_000.0 - 1_790_000_000_000.0) / 1000.0;
    zone("Europe/Berlin").await;
    wait(&maker, until).await;
    six_bags(&maker).await;
    placed_as_they_are_mixed(&maker).await;
    maker.press("Start the pour").await;
    tick(&maker, "Water is in: start").await;
    shows(&maker, "Batch 1 of 6", "2:00").await;
    wait(&maker, 60.0).await;
    shows(&maker, "Batch 1 of 6", "1:00").await;
    let before = maker.text(".clock header span").await;
    zone("America/New_York").await;
    // The page looks at its clock again within a second.
    let begun = std::time::Instant::now();
    while maker.text(".clock header span").await == before {
        assert!(begun.elapsed().as_secs() < 30, "it still shows {before}");
        tokio::time::sleep(std::time::Duration::from_millis(100)).await;
    }
    shows(&maker, "Batch 1 of 6", "1:00").await;
    // Placed a second early, and the next one begun with it.
    wait(&maker, 59.0).await;
    tick(&maker, "It is placed").await;
    tick(&maker, "Water is in: start").await;
    shows(&maker, "Batch 2 of 6", "2:00").await;
    // The clocks of Berlin go back meanwhile.
    zone("Europe/Berlin").await;
    wait(&maker, 3600.0).await;
    maker.see(".clock .count", "58:00").await;
    let lines = log(&maker).await;
    let seconds: Vec<i64> = lines.iter().map(|(_, second)| *second).collect();
    assert_eq!(seconds, [0, 119, 119]);
    maker.done().await;
}

/// A pour that runs in one tab is the same in the other, and either ticks it off.
#[tokio::test]
async fn a_pour_is_the_same_in_two_tabs() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone { before: Some(CLOCK), ..Phone::default() }).await;
    six_bags(&maker).await;
    maker.is_kept().await;
    let address = maker.driver.current_url().await.expect("an address").to_string();
    let first = maker.driver.window().await.expect("a tab");
    let second = maker.driver.new_tab().await.expect("another tab");
    maker.driver.switch_to_window(second.clone()).await.expect("the other tab");
    maker.driver.goto(address).await.expect("the same job");
    maker.see("[aria-label='The pour']", "Start the pour").await;
    maker.driver.switch_to_window(first.clone()).await.expect("the first tab");
    maker.press("Start the pour").await;
    tick(&maker, "Water is in: start").await;
    maker.see(".clock .done", "It is placed").await;
    maker.driver.switch_to_window(second).await.expect("the other tab");
    maker.press("Go on with the pour").await;
    maker.see(".clock h2", "Batch 1 of 6").await;
    tick(&maker, "It is placed").await;
    maker.see(".clock h2", "Batch 2 of 6").await;
    maker.driver.switch_to_window(first).await.expect("the first tab");
    maker.see(".clock h2", "Batch 2 of 6").await;
    maker.press("Leave").await;
    maker.is_kept().await;
    assert_eq!(log(&maker).await.len(), 2);
    maker.done().await;
}
