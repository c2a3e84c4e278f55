//! The outline taken to scale: printed at full size, and saved for a cutter.

use crate::maker::{Maker, Phone};
use crate::site::Site;
use base64::Engine;
use serde_json::json;
use std::time::{Duration, Instant};

/// No dialog, which nobody would close; the page is to ask for one all the same.
pub const COUNT_PRINTS: &str = "window.prints = 0; window.print = () => { window.prints += 1; };";

/// What the printer would get, as a PDF file.
pub async fn print(maker: &Maker) -> Vec<u8> {
    let options = json!({ "printBackground": true, "preferCSSPageSize": true });
    let answer = maker.driver.cdp().send_raw("Page.printToPDF", options).await.expect("a print");
    let data = answer["data"].as_str().expect("the file");
    base64::engine::general_purpose::STANDARD.decode(data).expect("the file, encoded")
}

/// The words on a printed page, as pdftotext reads them.
pub fn words_of(pdf: &[u8], folder: &std::path::Path) -> String {
    let file = folder.join("printed.pdf");
    std::fs::write(&file, pdf).expect("a file");
    let read = std::process::Command::new("pdftotext").args(["-layout"]).arg(&file).arg("-").output();
    let read = read.expect("pdftotext runs: `make test` installs it");
    assert!(read.status.success(), "{}", String::from_utf8_lossy(&read.stderr));
    String::from_utf8_lossy(&read.stdout).into_owned()
}

/// The width and height of each page of a PDF file, in points.
pub fn pages_of(bytes: &[u8]) -> Vec<(f64, f64)> {
    let text = String::from_utf8_lossy(bytes);
    let page = |part: &str| {
        let sizes = part.split("/MediaBox").nth(1)?.split('[').nth(1)?.split(']').next()?;
        let sizes: Vec<f64> = sizes.split_whitespace().filter_map(|size| size.parse().ok()).collect();
        Some((*sizes.get(2)?, *sizes.get(3)?))
    };
    // An object each; "/Type /Pages" is their list.
    let objects = text.split("endobj").filter(|object| object.contains("/Type /Page\n"));
    objects.map(|object| page(object).expect("a page has a size")).collect()
}

#[tokio::test]
async fn printing_at_full_size() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone { before: Some(COUNT_PRINTS), ..Phone::default() }).await;
    maker.press("New job").await;
    maker.write("piece-0-width", "40").await;
    maker.write("piece-0-depth", "20").await;
    let before = maker.text("main").await;
    maker.press("Print at full size").await;
    assert_eq!(maker.ask("return window.prints").await, 1, "the browser is asked to print");
    // 1016 by 508 mm. Letter less 10 mm all round is 195.9 by 259.4 mm, each further sheet adds 185.9 and 249.4 mm:
    // 1 + ⌈(1018 − 195.9) ÷ 185.9⌉ = 6 columns, 1 + ⌈(510 − 259.4) ÷ 249.4⌉ = 3 rows. Of the middle row the four
    // sheets between the ends hold no line.
    assert_eq!(maker.ask("return document.querySelectorAll('#full-size > svg').length").await, 14);
    assert_eq!(maker.text("main").await, before, "the screen is as it was");
    assert_eq!(maker.ask("return document.querySelector('#full-size').getClientRects().length").await, 0);

    let pages = pages_of(&print(&maker).await);
    assert_eq!(pages.len(), 14, "a sheet of paper each: {pages:?}");
    // 8 1/2 by 11 in at 72 points an inch.
    assert!(
        pages.iter().all(|(width, height)| (width - 612.0).abs() < 1.0 && (height - 792.0).abs() < 1.0),
        "{pages:?}"
    );

    // Once printed, the sheets are gone, and an ordinary print is the page again.
    assert_eq!(maker.ask("return document.querySelector('#full-size')").await, serde_json::Value::Null);
    assert_ne!(pages_of(&print(&maker).await).len(), 14);
    maker.done().await;
}

/// The outline as a file for a cutter.
#[tokio::test]
async fn saving_the_outline_for_a_cutter() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    maker.press("See a worked job").await;
    maker.press("Save as DXF").await;
    let begun = Instant::now();
    let text = loop {
        match std::fs::read_to_string(maker.downloads.0.join("pourwright-outline.dxf")) {
            Ok(text) if text.ends_with("EOF\r\n") => break text,
            _ => assert!(begun.elapsed() < Duration::from_secs(20), "nothing was saved"),
        }
        tokio::time::sleep(Duration::from_millis(50)).await;
    };
    let lines: Vec<_> = text.lines().map(str::trim).collect();
    let has = |group: [&str; 2]| lines.chunks(2).any(|pair| pair == group);
    // The demo's outline is 52 1/2 by 23 3/4 in, its hole 1 3/8 in across; 25.4 mm an inch (NIST SP 811 B.8).
    assert!(has(["1", "AC1009"]) && has(["10", "1333.500000000"]) && has(["20", "603.250000000"]), "{text}");
    assert!(has(["8", "OUTLINE"]) && has(["8", "CUTOUTS"]) && has(["8", "HOLES"]), "{text}");
    assert!(has(["40", "17.462500000"]), "half of 1 3/8 in: {text}");
    maker.done().await;
}
