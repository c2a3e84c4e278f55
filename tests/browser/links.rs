//! A job that travels in an address, from one phone to another with nothing in its storage.

use crate::first_day::{job_of, tape_a_top};
use crate::maker::{Maker, PHONE, Phone};
use crate::pictures::take;
use crate::site::Site;
use base64::prelude::*;
use pourwright::job::{Entry, file};
use pourwright::mix::demo;
use pourwright::store::{read_link, share_link};
use serde_json::{Value, json};

/// A clipboard that can be looked into, and one that refuses.
const CLIPBOARD: &str = "window.copied = []; Object.defineProperty(navigator, 'clipboard', { value: { writeText: async text => { window.copied.push(text); } } });";
const NO_CLIPBOARD: &str = "Object.defineProperty(navigator, 'clipboard', { value: { writeText: async () => { throw new DOMException('no', 'NotAllowedError'); } } });";

async fn phone(site: &Site) -> Maker {
    Maker::open(&site.address(), Phone { before: Some(CLIPBOARD), ..Phone::default() }).await
}

/// Opens an address as a tap in a messenger does: in a page of its own.
async fn follow(maker: &Maker, address: &str) {
    maker.driver.goto("about:blank").await.expect("another page");
    maker.driver.goto(address).await.expect("the address opens");
    maker.wait_for("main[data-screen='Arrival']").await;
}

async fn copied(maker: &Maker) -> String {
    let begun = std::time::Instant::now();
    loop {
        let text = maker.ask("return window.copied.pop() ?? null").await;
        match text {
            Value::String(text) => return text,
            _ => assert!(begun.elapsed().as_secs() < 20, "nothing was copied"),
        }
    }
}

async fn jobs_kept(maker: &Maker) -> usize {
    maker.records().await.keys().filter(|key| key.starts_with("pourwright/job/")).count()
}

#[tokio::test]
async fn a_link_opens_on_a_second_phone_and_asks_first() {
    let site = Site::publish(&Site::dist()).await;
    let first = phone(&site).await;
    tape_a_top(&first).await;
    first.write("job-client", "Osier House").await;
    first.is_kept().await;
    let sent = job_of(&first).await;
    first.press("Share this estimate").await;
    first.press("Copy the link").await;
    first.see("[aria-label='Link'] [role='status']", "Copied").await;
    let link = copied(&first).await;
    first.done().await;

    let second = phone(&site).await;
    follow(&second, &link).await;
    for words in ["Guest bath", "Osier House", "Top", "67 × 19 1/4 × 2"] {
        second.see("[aria-label='The job in this link']", words).await;
    }
    assert_eq!(jobs_kept(&second).await, 0, "nothing is kept before it is agreed to");
    second.press("Bring it in").await;
    second.wait_for("main[data-screen='Measure']").await;
    assert_eq!(job_of(&second).await, sent, "nothing is lost on the way");
    assert_eq!(second.number("bags").await, "2");
    let address = second.ask("return location.href").await;
    assert!(!address.as_str().expect("an address").contains("/link/"), "the link is out of the address: {address}");

    // The same link again, then with another state of the job on the shelf.
    follow(&second, &link).await;
    second.see("[aria-label='The job in this link']", "on your shelf already").await;
    second.press("Open it").await;
    second.wait_for("main[data-screen='Measure']").await;
    second.write("piece-0-thickness", "1 1/2").await;
    second.is_kept().await;
    follow(&second, &link).await;
    second.see("[aria-label='The job in this link']", "comes in as a copy").await;
    second.press("Bring it in as a copy").await;
    second.wait_for("main[data-screen='Measure']").await;
    assert_eq!(second.written("piece-0-thickness").await, "2");
    assert_eq!(jobs_kept(&second).await, 2, "nothing was overwritten");

    // The page's own addresses go on as before.
    second.press("All jobs").await;
    second.press("Guest bath").await;
    assert_eq!(second.written("piece-0-thickness").await, "1 1/2");
    second.done().await;
}

#[tokio::test]
async fn a_link_can_be_left_and_pasted() {
    let site = Site::publish(&Site::dist()).await;
    let maker = phone(&site).await;
    let link = share_link(&demo("8f3a7c20d1e94b65a0b7c4d2e6f81930"), &site.address()).expect("it fits");
    follow(&maker, &link).await;
    maker.press("Leave it").await;
    maker.wait_for("main[data-screen='Shelf']").await;
    assert_eq!(maker.ask("return location.hash").await, "#/");
    assert_eq!(jobs_kept(&maker).await, 0);
    // On the open page an address changes without a reload.
    let change = format!("location.hash = {}", json!(link.split_once('#').expect("a link").1));
    maker.ask(&change).await;
    maker.see("[aria-label='The job in this link']", "Coffee counter").await;
    maker.press("Leave it").await;
    maker.press("Import").await;
    let paste = "document.querySelector('#import-text').value = arguments[0];";
    maker.driver.execute(paste, vec![json!(format!("Look at this: {link}."))]).await.expect("it is pasted");
    maker.press("Import the pasted text").await;
    maker.see("#imported", "Coffee counter is on your shelf").await;
    maker.done().await;
}

#[tokio::test]
async fn a_hostile_link_is_shown_as_it_is_and_fits_the_screen() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone { size: Some((320, 640)), ..Phone::default() }).await;
    let hostile = "\"'></h2><script>window.harmed=1</script><img src=x onerror=window.harmed=1>";
    let mut job = demo("../hostile");
    (job.name, job.client) = (Entry::new(hostile), Entry::new(&"W".repeat(200)));
    job.pieces[0].name = Entry::new(hostile);
    job.pieces[0].depth = Entry::new(&"9".repeat(120));
    job.pieces = vec![job.pieces[0].clone(); 20];
    follow(&maker, &share_link(&job, &site.address()).expect("it fits")).await;
    maker.see("[aria-label='The job in this link']", "<script>window.harmed=1</script>").await;
    maker.see("[aria-label='The job in this link']", "And more pieces").await;
    let wide = maker.ask("return document.documentElement.scrollWidth").await;
    assert!(wide.as_u64().is_some_and(|wide| wide <= 320), "{wide} px in 320");
    maker.press("Bring it in").await;
    maker.wait_for("main[data-screen='Measure']").await;
    assert_eq!(maker.ask("return window.harmed ?? null").await, Value::Null, "nothing hostile ran");
    assert_eq!(jobs_kept(&maker).await, 1);
    maker.done().await;
}

#[tokio::test]
async fn broken_long_and_swelling_links_are_refused() {
    let site = Site::publish(&Site::dist()).await;
    let maker = phone(&site).await;
    let link = share_link(&demo("8f3a7c20d1e94b65a0b7c4d2e6f81930"), &site.address()).expect("it fits");
    let home = site.address();
    let bad_letter = format!("{}!{}", &link[..link.len() - 9], &link[link.len() - 8..]);
    // 40 MiB of blanks in some 40 KB as raw deflate, and the part of it that fits in a link.
    let blanks = miniz_oxide::deflate::compress_to_vec(&vec![b' '; 40 << 20], 9);
    let bomb = BASE64_URL_SAFE_NO_PAD.encode([&[0; 4], &blanks[..5000]].concat());
    let cases = [
        (link[..link.len() - 20].to_owned(), "cut short"),
        (bad_letter, "changed on its way"),
        (link.replace("/link/1.", "/link/7."), "newer Pourwright"),
        (format!("{home}#/link/1.{}", "A".repeat(9000)), "longer than any"),
        (format!("{home}#/link/1.{bomb}"), "unpacks to more than"),
        (format!("{home}#/link/1.%3Cscript%3E"), "changed on its way"),
    ];
    for (address, words) in cases {
        follow(&maker, &address).await;
        maker.see("[role='alert']", words).await;
        assert_eq!(jobs_kept(&maker).await, 0, "{words}");
    }
    maker.press("All jobs").await;
    maker.wait_for("main[data-screen='Shelf']").await;
    maker.done().await;
}

#[tokio::test]
async fn a_job_too_long_for_a_link_or_a_code_says_what_to_do() {
    let site = Site::publish(&Site::dist()).await;
    let maker = phone(&site).await;
    // Letters of a generator: packing finds little in them.
    let mut state = 7_u64;
    let mut letter = || {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        char::from(b'a' + u8::try_from((state >> 33) % 26).expect("a letter"))
    };
    for (name, letters, refused) in [("Long notes", 4000, "#qr-refused"), ("Longer notes", 20_000, "#link-refused")] {
        let mut job = demo(&name.replace(' ', "-"));
        job.name = Entry::new(name);
        job.notes = Entry((0..letters).map(|_| letter()).collect());
        maker.go_home().await;
        maker.press("Import").await;
        let paste = "document.querySelector('#import-text').value = arguments[0];";
        maker.driver.execute(paste, vec![json!(file::write(&job))]).await.expect("it is pasted");
        maker.press("Import the pasted text").await;
        maker.see("#imported", name).await;
        maker.press("Close").await;
        maker.press(name).await;
        maker.press("Share this estimate").await;
        if refused == "#qr-refused" {
            maker.press("Show it to a second phone").await;
        }
        maker.see(refused, "file instead").await;
        // What it says to do can be done there.
        maker.wait_for("#share-save").await;
        maker.press("Close").await;
    }
    maker.done().await;
}

#[tokio::test]
async fn a_clipboard_that_refuses_leaves_the_text_to_be_copied_by_hand() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone { before: Some(NO_CLIPBOARD), ..Phone::default() }).await;
    maker.press("See a worked job").await;
    maker.press("Share this estimate").await;
    maker.press("Copy the link").await;
    maker.wait_for("textarea[aria-label='The link']").await;
    tokio::time::sleep(std::time::Duration::from_millis(300)).await;
    let marked = maker
        .ask("const area = document.activeElement; return area.value.slice(area.selectionStart, area.selectionEnd)")
        .await;
    assert!(marked.as_str().expect("a text").contains("#/link/1."), "all of it is marked: {marked}");
    maker.done().await;
}

#[tokio::test]
async fn the_estimate_is_copied_as_text() {
    let site = Site::publish(&Site::dist()).await;
    let maker = phone(&site).await;
    tape_a_top(&maker).await;
    maker.press("Share this estimate").await;
    maker.press("Copy as text").await;
    let text = copied(&maker).await;
    for words in ["Guest bath\n", "\nBags: 2\n", "67 in × 19 1/4 in × 2 in", "Base: ", "\nTo order: "] {
        assert!(text.contains(words), "'{words}' is not in: {text}");
    }
    assert!(!text.contains('<') && !text.contains("svg"), "plain text: {text}");
    maker.done().await;
}

/// What a camera sees: the pixels of the screen, in a scheme.
async fn scanned(maker: &Maker) -> String {
    let shot =
        maker.driver.cdp().send_raw("Page.captureScreenshot", json!({ "format": "png" })).await.expect("a picture");
    let bytes = BASE64_STANDARD.decode(shot["data"].as_str().expect("a picture")).expect("base64");
    let mut decoder = png::Decoder::new(std::io::Cursor::new(bytes));
    decoder.set_transformations(png::Transformations::normalize_to_color8());
    let mut reader = decoder.read_info().expect("a picture");
    let mut pixels = vec![0; reader.output_buffer_size().expect("a size")];
    let frame = reader.next_frame(&mut pixels).expect("a picture");
    let (samples, line) = (frame.color_type.samples(), frame.line_size);
    let [width, height] = [frame.width, frame.height].map(|side| usize::try_from(side).expect("a size"));
    let mut image = rqrr::PreparedImage::prepare_from_greyscale(width, height, |x, y| pixels[y * line + x * samples]);
    let grids = image.detect_grids();
    let grid = grids.first().expect("a code on the screen");
    grid.decode().expect("the code can be read").1
}

async fn the_code_is_read(size: (u32, u32), dark: bool, label: &str) {
    let site = Site::publish(&Site::dist()).await;
    let phone = Phone { size: Some(size), dark, before: Some(CLIPBOARD), ..Phone::default() };
    let maker = Maker::open(&site.address(), phone).await;
    let link = share_link(&demo("8f3a7c20d1e94b65a0b7c4d2e6f81930"), &site.address()).expect("it fits");
    follow(&maker, &link).await;
    take(&maker, &format!("{label}-10-arrival"), false).await;
    maker.press("Bring it in").await;
    maker.wait_for("main[data-screen='Measure']").await;
    maker.press("Share this estimate").await;
    tokio::time::sleep(std::time::Duration::from_millis(300)).await;
    take(&maker, &format!("{label}-11-ways"), false).await;
    maker.press("Copy the link").await;
    let shown = copied(&maker).await;
    maker.press("Show it to a second phone").await;
    let code = maker.wait_for("#qr-code").await;
    code.scroll_into_view().await.expect("it can be scrolled to");
    take(&maker, &format!("{label}-12-code"), false).await;
    let read = scanned(&maker).await;
    assert_eq!(read, shown, "the code carries the very link");
    let (_, found) = read.split_once('#').expect("a link");
    assert_eq!(read_link(found), Ok(demo("8f3a7c20d1e94b65a0b7c4d2e6f81930")));
    follow(&maker, &format!("{}#/link/1.AAAA", site.address())).await;
    take(&maker, &format!("{label}-13-refused"), false).await;
    maker.done().await;
}

#[tokio::test]
async fn the_code_on_a_phone_is_read_by_another() {
    the_code_is_read(PHONE, false, "phone-light").await;
}

#[tokio::test]
async fn the_code_on_a_dark_phone_is_read_by_another() {
    the_code_is_read(PHONE, true, "phone-dark").await;
}

#[tokio::test]
async fn the_code_on_a_desk_is_read_by_a_phone() {
    the_code_is_read((1280, 800), false, "desk-light").await;
}

#[tokio::test]
async fn the_code_on_a_dark_desk_is_read_by_a_phone() {
    the_code_is_read((1280, 800), true, "desk-dark").await;
}
