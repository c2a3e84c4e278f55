//! Files given away and imported in, also by people who mean harm.

use crate::first_day::{job_of, tape_a_top};
use crate::maker::{Folder, Maker, Phone};
use crate::site::Site;

/// Would set a mark on the window if any of it ran.
const HOSTILE: &str =
    "\"'></h1></script><script>window.harmed=1</script><img src=x onerror=window.harmed=1><!-- ${window.harmed=1}";

async fn unharmed(maker: &Maker) {
    assert_eq!(maker.ask("return window.harmed ?? null").await, serde_json::Value::Null, "nothing hostile ran");
}

#[tokio::test]
async fn a_hostile_name_stays_a_name() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    tape_a_top(&maker).await;
    for field in ["job-name", "job-client", "job-notes"] {
        maker.write(field, HOSTILE).await;
    }
    maker.press("Size").await;
    maker.write("piece-0-name", HOSTILE).await;
    for verb in ["Build", "Pour", "Finish", "Quote", "Measure"] {
        maker.press(verb).await;
        maker.wait_for(&format!("main[data-screen='{verb}']")).await;
        unharmed(&maker).await;
    }
    maker.is_kept().await;
    maker.press("Share this estimate").await;
    maker.press("Save the file").await;
    let (file, _) = maker.downloaded().await;
    maker.press("Close").await;
    maker.press("All jobs").await;
    unharmed(&maker).await;
    // The shared file itself, opened in the browser.
    maker.driver.goto(format!("file://{}", file.display())).await.expect("the file opens");
    unharmed(&maker).await;
    let shown = maker.ask("return document.body.innerText").await;
    assert!(shown.as_str().expect("a text").contains("window.harmed=1"), "the name is shown as it was typed");
    let scripts = maker.ask("return [...document.scripts].map(s => s.type)").await;
    assert_eq!(scripts, serde_json::json!(["application/json"]), "only data");
    maker.close().await;
}

#[tokio::test]
async fn a_hostile_file_is_refused_or_harmless() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    let folder = Folder::new("hostile");
    let bombs = [
        ("nonsense.html", HOSTILE.to_owned()),
        ("empty.html", String::new()),
        ("other.json", "{\"format\":\"something else\",\"version\":1}".to_owned()),
        (
            "newer.json",
            r#"{"format":"pourwright job","version":2,"written_by":"2.0.0","job":{"id":"x","waterfall":1}}"#.to_owned(),
        ),
        ("deep.json", "[".repeat(100_000)),
        ("large.html", "x".repeat(9 * 1024 * 1024)),
    ];
    maker.press("Import").await;
    let picker = maker.wait_for("#import-file").await;
    for (name, text) in bombs {
        let file = folder.0.join(name);
        std::fs::write(&file, text).expect("a file");
        picker.send_keys(file.display().to_string()).await.expect("the picker takes the file");
        maker.see("#imported", name).await;
        unharmed(&maker).await;
    }
    maker.see("#imported", "newer").await;
    let kept = maker.records().await.keys().filter(|key| key.starts_with("pourwright/job/")).count();
    assert_eq!(kept, 0, "none of it is kept as a job");
    maker.done().await;
}

#[tokio::test]
async fn everything_is_backed_up_and_imported_back() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    tape_a_top(&maker).await;
    maker.press("Quote").await;
    let price = maker.wait_for("input[id^='price-']:not(#price-currency)").await;
    price.send_keys("31.50").await.expect("a price");
    maker.see("[aria-label='Material']", "63").await;
    maker.press("All jobs").await;
    let before = job_of(&maker).await;
    maker.press("Back up everything").await;
    let (file, text) = maker.downloaded().await;
    assert!(text.contains("31.50"), "prices are in the backup");
    maker.ask("localStorage.clear()").await;
    maker.reload().await;
    // Pasted this time, as from a message.
    maker.press("Import").await;
    maker
        .driver
        .execute(
            "const area = document.querySelector('#import-text'); area.value = arguments[0];",
            vec![serde_json::json!(std::fs::read_to_string(&file).expect("the backup"))],
        )
        .await
        .expect("the text is pasted");
    maker.press("Import the pasted text").await;
    maker.see("#imported", "Guest bath").await;
    maker.press("Close").await;
    assert_eq!(job_of(&maker).await, before);
    maker.press("Guest bath").await;
    maker.press("Quote").await;
    maker.see("[aria-label='Material']", "63").await;
    maker.done().await;
}

/// A phone's share sheet, with the rule of its browser: a known ending and type, or it is refused.
const SHARE_SHEET: &str = "window.shared = []; navigator.canShare = () => true; navigator.share = async data => { const file = data.files[0]; if (file.type !== 'text/html' || !file.name.endsWith('.html') || data.files.length !== 1) { throw new DOMException('Permission denied', 'NotAllowedError'); } window.shared.push({ name: file.name, text: await file.text(), keys: Object.keys(data) }); };";

/// A share sheet that refuses every file.
const REFUSING: &str = "navigator.canShare = () => true; navigator.share = async () => { throw new DOMException('Permission denied', 'NotAllowedError'); };";

#[tokio::test]
async fn the_share_sheet_gets_the_file() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone { before: Some(SHARE_SHEET), ..Phone::default() }).await;
    tape_a_top(&maker).await;
    maker.press("Share this estimate").await;
    maker.press("Send the file").await;
    let begun = std::time::Instant::now();
    let shared = loop {
        let shared = maker.ask("return window.shared").await;
        if shared[0].is_object() || begun.elapsed().as_secs() > 10 {
            break shared;
        }
    };
    assert_eq!(shared[0]["keys"], serde_json::json!(["files"]), "files alone: phones lose one or the other");
    assert!(shared[0]["text"].as_str().expect("a text").contains("Guest bath"));
    maker.done().await;
}

#[tokio::test]
async fn a_refused_share_becomes_a_download() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone { before: Some(REFUSING), ..Phone::default() }).await;
    tape_a_top(&maker).await;
    maker.press("Share this estimate").await;
    maker.press("Send the file").await;
    let (_, text) = maker.downloaded().await;
    assert!(text.contains("Guest bath"));
    maker.done().await;
}
