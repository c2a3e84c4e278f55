//! From the tape to a quote that is sent, and to the shop.

use crate::maker::{Folder, Maker, Phone};
use crate::printing::{print, words_of};
use crate::site::Site;
use serde_json::json;

/// No dialog, which nobody would close; what is shared as text is kept to be looked at.
const NO_DIALOGS: &str = "window.prints = 0; window.print = () => { window.prints += 1; }; \
    navigator.share = data => { window.sent = data.text; return Promise.resolve(); };";

fn phone() -> Phone {
    Phone { before: Some(NO_DIALOGS), ..Phone::default() }
}

/// What a person reads on the pages that the printer gets.
async fn printed(maker: &Maker) -> String {
    let folder = Folder::new("print");
    words_of(&print(maker).await, &folder.0)
}

/// The same without the breaks and spaces that a layout makes.
fn words(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

async fn tape(maker: &Maker, name: &str, width: &str) {
    maker.press("New job").await;
    maker.write("job-name", name).await;
    maker.write("piece-0-width", width).await;
    maker.write("piece-0-depth", "24").await;
    maker.write("piece-0-thickness", "2").await;
}

async fn price_the_bag(maker: &Maker) {
    maker.turn_to("Quote").await;
    let price = maker.wait_for("input[id^='price-']:not(#price-currency)").await;
    let id = price.attr("id").await.expect("an id").expect("an id");
    maker.write(&id, "20").await;
    maker.write("book-wage", "40").await;
}

#[tokio::test]
async fn quote_day() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), phone()).await;
    tape(&maker, "Bar in the hall", "48").await;
    maker.write("job-client", "Reed & Daughter").await;
    assert_eq!(maker.number("bags").await, "3");

    // Finish: the exposure alone changes nothing; a tap does.
    maker.turn_to("Finish").await;
    let weight = maker.number("weight").await;
    maker.press("Full").await;
    maker.press("Satin").await;
    assert_eq!(maker.number("weight").await, weight);
    maker.press("Grind 1/8 in off every piece").await;
    maker.see("[aria-label='Grind']", "50 pad").await;
    assert_ne!(maker.number("weight").await, weight);
    maker.turn_to("Pour").await;
    maker.turn_to("Finish").await;
    maker.write("finish-sealer", "Two-part, matt").await;
    maker.write("finish-recoat", "4").await;
    maker.write("finish-cure", "2 d").await;
    maker.press("First coat today").await;
    maker.see("[aria-label='Seal']", "Coat 2").await;
    maker.see("[aria-label='Seal']", "Cured, ready for use").await;
    maker.write("finish-door-width", "30").await;
    maker.write("finish-door-height", "80").await;
    maker.see("[aria-label='Way in']", "Doorway, on edge").await;
    maker.see("[aria-label='Way in']", "to spare").await;

    // Quote: waits for what is not known, then stands.
    maker.turn_to("Quote").await;
    maker.see("[aria-label='Price']", "waits for").await;
    price_the_bag(&maker).await;
    maker.see("[aria-label='Price']", "Price per square foot").await;
    maker.press("What it costs you, line by line").await;
    maker.see("[aria-label='Cost']", "4 packs × $20.00").await;
    maker.see("[aria-label='Cost']", "Margin").await;
    let price = price_of(&maker).await;

    maker.press("Freeze the quote").await;
    maker.see("[aria-label='Quote as sent']", &price).await;
    maker.see("[aria-label='Quote as sent']", "Nothing has changed since.").await;
    maker.press("Print the quote").await;
    assert_eq!(maker.ask("return window.prints").await, 1, "the browser is asked to print");
    let sent = words(&printed(&maker).await);
    for there in [
        "Quote: Bar in the hall",
        "For Reed & Daughter",
        "Valid until",
        &price,
        "48 in × 24 in",
        "Full aggregate",
        "Two-part, matt",
        "Plumbing",
        "Deposit",
    ] {
        assert!(sent.contains(there), "{there} in {sent}");
    }
    for hidden in ["Margin", "Overhead", "Wage", "4 packs"] {
        assert!(!sent.contains(hidden), "no client reads {hidden}: {sent}");
    }

    // The job goes on; the quote does not, and says so.
    maker.turn_to("Measure").await;
    maker.write("piece-0-width", "60").await;
    maker.is_kept().await;
    maker.reload().await;
    maker.turn_to("Quote").await;
    maker.see("#changed-since", "Width: 48 then, 60 now.").await;
    assert_ne!(price_of(&maker).await, price);
    maker.see("[aria-label='Quote as sent']", &price).await;
    maker.press("Print the quote").await;
    assert_eq!(words(&printed(&maker).await), sent, "word for word as it was sent");

    // The maker's own page has what the client's has not.
    maker.press("What it costs you, line by line").await;
    maker.press("Print it for yourself").await;
    let own = words(&printed(&maker).await);
    for there in ["Margin", "Overhead", "Hours until it loses money", "Price per square foot"] {
        assert!(own.contains(there), "{there} in {own}");
    }
    maker.done().await;
}

/// What the price card says now.
async fn price_of(maker: &Maker) -> String {
    let card = maker.text("[aria-label='Price'] .figures").await;
    let price = card.lines().find(|line| line.starts_with('$')).unwrap_or_else(|| panic!("a price in {card}"));
    price.to_owned()
}

#[tokio::test]
async fn quote_shopping_day() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), phone()).await;
    tape(&maker, "Vanity", "30").await;
    maker.is_kept().await;
    maker.press("All jobs").await;
    tape(&maker, "Counter", "48").await;
    price_the_bag(&maker).await;
    // 48 × 24 × 2 in with a tenth spare is three bags of 0.50 ft³.
    maker.see("[aria-label='Shopping list']", "3 × ").await;
    maker.press("Buy for other jobs as well").await;
    let other = maker.wait_for("[aria-label='Shopping list'] details .ticks input").await;
    maker.tap(&other).await;
    // And 30 × 24 × 2 in are two more.
    maker.see("[aria-label='Shopping list']", "5 × ").await;
    maker.see("[aria-label='Shopping list']", "Counter 3, Vanity 2").await;

    // Ticked in the shop, and still so after the phone has slept.
    let rows = maker.driver.find_all(thirtyfour::By::Css("[aria-label='Shopping list'] > .ticks input")).await;
    let rows = rows.expect("a list");
    assert!(rows.len() > 5, "bags, board, screws, tape …: {}", rows.len());
    maker.tap(&rows[0]).await;
    maker.press("Send the list").await;
    let sent = maker.ask("return window.sent").await;
    let sent = sent.as_str().expect("a text is shared").to_owned();
    assert!(sent.contains("[ ] ") && sent.contains("Vanity") && !sent.contains("5 × "), "{sent}");
    maker.is_kept().await;
    maker.reload().await;
    maker.turn_to("Quote").await;
    let ticked = "return document.querySelector(\"[aria-label='Shopping list'] > .ticks input\").checked";
    maker.wait_for("[aria-label='Shopping list'] > .ticks input").await;
    assert_eq!(maker.ask(ticked).await, true);

    // Two versions side by side.
    maker.press("What if: versions side by side").await;
    let other = maker.wait_for("[aria-label='Versions'] .ticks input").await;
    maker.tap(&other).await;
    maker.see("[aria-label='Versions'] table", "30 in × 24 in").await;
    let marked = maker.ask("return document.querySelectorAll(\"[aria-label='Versions'] td.differs\").length").await;
    assert!(marked.as_u64().is_some_and(|marked| marked >= 3), "{marked}");
    maker.done().await;
}

/// Every card holds what is in it.
async fn nothing_runs_out(maker: &Maker) {
    let out = "return [...document.querySelectorAll('main .card')] \
        .filter(card => card.scrollWidth > card.clientWidth + 1).map(card => card.ariaLabel)";
    assert_eq!(maker.ask(out).await, json!([]), "nothing runs out of its card");
}

/// The screens and papers of finish and quote, filled in, for a person to look at.
#[tokio::test]
async fn quote_pictures() {
    for (label, size, dark) in [
        ("phone-light", (360, 740), false),
        ("desk-dark", (1280, 800), true),
        ("phone-dark", (360, 740), true),
        ("desk-light", (1280, 800), false),
    ] {
        let site = Site::publish(&Site::dist()).await;
        let maker = Maker::open(
            &site.address(),
            Phone { size: Some(size), dark, before: Some(NO_DIALOGS), ..Phone::default() },
        )
        .await;
        maker.press("See a worked job").await;
        maker.is_kept().await;
        maker.press("All jobs").await;
        tape(&maker, "Vanity", "30").await;
        maker.is_kept().await;
        maker.press("All jobs").await;
        maker.press("Coffee counter").await;
        maker.turn_to("Finish").await;
        maker.press("Sand").await;
        maker.press("Honed").await;
        maker.write("finish-door-width", "30").await;
        maker.write("finish-door-height", "80").await;
        maker.write("finish-recoat", "4").await;
        maker.write("finish-cure", "2 d").await;
        maker.press("First coat today").await;
        maker.press("+ Pinholes").await;
        maker.press("Care sheet for the client").await;
        crate::pictures::take(&maker, &format!("{label}-finish"), true).await;
        nothing_runs_out(&maker).await;
        price_the_bag(&maker).await;
        maker.press("Everything else it takes").await;
        maker.press("What it costs you, line by line").await;
        maker.press("Buy for other jobs as well").await;
        maker.press("What if: versions side by side").await;
        let other = maker.wait_for("[aria-label='Versions'] .ticks input").await;
        maker.tap(&other).await;
        maker.see("[aria-label='Versions'] table", "30 in × 24 in").await;
        maker.press("Freeze the quote").await;
        maker.see("[aria-label='Quote as sent']", "Nothing has changed since.").await;
        crate::pictures::take(&maker, &format!("{label}-quote"), true).await;
        nothing_runs_out(&maker).await;
        // The sheet of paper as it is printed, on the screen for once.
        maker.press("Print the quote").await;
        let features = json!({ "media": "print" });
        maker.driver.cdp().send_raw("Emulation.setEmulatedMedia", features).await.expect("the look of paper");
        crate::pictures::take(&maker, &format!("{label}-paper"), true).await;
        let wide = maker.ask("return document.documentElement.scrollWidth <= innerWidth").await;
        assert_eq!(wide, true, "nothing runs out of the side");
        maker.done().await;
    }
}
