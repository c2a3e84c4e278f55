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
        maker.turn_to(verb).await;
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
            r#"{"format":"pourwright job","version":9,"written_by":"2.0.0","job":{"id":"x","waterfall":1}}"#.to_owned(),
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
    a_backup_is_pasted_in(maker).await;
}

/// In any engine.
pub async fn a_backup_is_pasted_in(maker: Maker) {
    tape_a_top(&maker).await;
    maker.turn_to("Quote").await;
    let price = maker.wait_for("input[id^='price-']:not(#price-currency)").await;
    price.send_keys("31.50").await.expect("a price");
    maker.see("[aria-label='Price']", "63").await;
    maker.press("All jobs").await;
    let before = job_of(&maker).await;
    maker.press("Back up everything").await;
    let (file, text) = maker.downloaded().await;
    assert!(text.contains("31.50"), "prices are in the backup");
    maker.forget_everything().await;
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
    maker.turn_to("Quote").await;
    maker.see("[aria-label='Price']", "63").await;
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

#[tokio::test]
async fn a_file_dropped_on_the_shelf_comes_in() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone { size: Some((1280, 800)), ..Phone::default() }).await;
    let job = pourwright::mix::demo("dropped");
    let drop = "const data = new DataTransfer(); data.items.add(new File([arguments[0]], 'counter.html', { type: 'text/html' })); document.querySelector('main').dispatchEvent(new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true }));";
    let text = serde_json::json!(pourwright::job::file::write(&job));
    maker.driver.execute(drop, vec![text]).await.expect("a drop");
    maker.see("#imported", job.name.text()).await;
    maker.press("Close").await;
    maker.press(job.name.text()).await;
    assert_eq!(maker.number("bags").await, "3");
    maker.done().await;
}

/// A maker's own bag is kept for every job, and each job keeps its copy.
#[tokio::test]
async fn a_bag_of_ones_own_is_on_the_shelf_for_the_next_job() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    tape_a_top(&maker).await;
    maker.turn_to("Pour").await;
    maker.press("What its label says").await;
    maker.write("bag-0-name", "Barn mix").await;
    maker.write("bag-0-yield", "0.45 cu ft").await;
    maker.press("Keep in my bags").await;
    maker.see("#headline-bags .value", "3").await;
    maker.write("bag-0-mass", "20 lb").await;
    maker.see("[aria-label='What to know']", "typing error").await;
    maker.see("main", "other figures").await;
    maker.press("Take the figures of my bags").await;
    assert_eq!(maker.written("bag-0-mass").await, "55 lb");
    maker.press("All jobs").await;
    maker.press("New job").await;
    maker.write("piece-0-width", "30").await;
    maker.write("piece-0-depth", "20").await;
    maker.turn_to("Pour").await;
    let own = maker.wait_for("#bag-choice").await;
    own.send_keys("Barn mix").await.expect("the list takes a name");
    maker.see("[aria-label='To order'], [aria-label='Order']", "Barn mix").await;
    maker.done().await;
}
