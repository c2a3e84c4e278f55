//! What hands do: chips, drags, keys, small screens, and what the page says back.

use crate::first_day::tape_a_top;
use crate::maker::{Maker, Phone};
use crate::site::Site;
use thirtyfour::prelude::*;

#[tokio::test]
async fn the_demo_is_one_tap_from_the_empty_shelf() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    maker.press("See a worked job").await;
    maker.wait_for("svg.drawing").await;
    for key in ["bags", "water", "weight", "people"] {
        assert_ne!(maker.number(key).await, "—", "{key} is worked out");
    }
    maker.done().await;
}

#[tokio::test]
async fn a_fraction_is_typed_with_one_thumb() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    maker.press("New job").await;
    maker.write("piece-0-width", "67").await;
    maker.press("1/4").await;
    assert_eq!(maker.written("piece-0-width").await, "67 1/4");
    maker.press("3/16").await;
    assert_eq!(maker.written("piece-0-width").await, "67 3/16", "a chip replaces the fraction");
    let focused = maker.ask("return document.activeElement.id").await;
    assert_eq!(focused, "piece-0-width", "the field keeps the focus, so the keyboard stays");
    maker.done().await;
}

#[tokio::test]
async fn what_cannot_be_read_is_kept_and_waited_for() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    tape_a_top(&maker).await;
    maker.press("Size").await;
    maker.write("piece-0-depth", "19 5/4").await;
    maker.see("#piece-0-depth-says", "19 5/4").await;
    assert_eq!(maker.number("bags").await, "—", "the last good value is not used behind the maker's back");
    let bags = maker.wait_for("#headline-bags").await;
    maker.tap(&bags).await;
    maker.see("dialog", "Depth").await;
    maker.press("Go there").await;
    maker.is_kept().await;
    maker.reload().await;
    assert_eq!(maker.written("piece-0-depth").await, "19 5/4", "it is kept as typed");
    maker.done().await;
}

#[tokio::test]
async fn a_cutout_is_touched_dragged_and_nudged() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone { size: Some((1280, 800)), ..Phone::default() }).await;
    tape_a_top(&maker).await;
    maker.press("Size").await;
    let cutout = maker.wait_for("[data-part='cutout-0'] .cut").await;
    let drag =
        maker.driver.action_chain().move_to_element_center(&cutout).click_and_hold().move_by_offset(37, 0).release();
    drag.perform().await.expect("a drag");
    maker.wait_for("#cutout-0-0-from-left").await;
    let moved = maker.written("cutout-0-0-from-left").await;
    let inches =
        pourwright::measure::read_length(&moved, pourwright::measure::Units::Inch).expect("a length").value / 0.0254;
    assert!(inches > 18.0, "it moved to the right: {moved}");
    assert!((inches * 8.0 - (inches * 8.0).round()).abs() < 1e-9, "it landed on an eighth: {moved}");
    let group = maker.driver.find(By::Css("[data-part='cutout-0']")).await.expect("the cutout");
    maker.ask("document.querySelector(\"[data-part='cutout-0']\").focus()").await;
    group.send_keys(Key::Right.value().to_string()).await.expect("an arrow key");
    let begun = std::time::Instant::now();
    let nudged = loop {
        let text = maker.written("cutout-0-0-from-left").await;
        if text != moved || begun.elapsed().as_secs() > 10 {
            break text;
        }
    };
    let after =
        pourwright::measure::read_length(&nudged, pourwright::measure::Units::Inch).expect("a length").value / 0.0254;
    assert!((after - inches - 0.125).abs() < 1e-9, "an arrow nudges by an eighth: {moved} to {nudged}");
    // A touch on an edge selects its fields.
    let edge = maker.wait_for("[data-part='edge-2'] .outline").await;
    maker.driver.action_chain().move_to_element_center(&edge).click().perform().await.expect("a touch");
    maker.see("[aria-label='Edges']", "What it is").await;
    let pressed = maker.wait_for("[aria-label='Edges'] fieldset:first-of-type [aria-pressed='true']").await;
    assert_eq!(pressed.text().await.expect("a word"), "Back");
    maker.done().await;
}

#[tokio::test]
async fn changing_the_units_changes_no_meaning() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    tape_a_top(&maker).await;
    maker.press("Size").await;
    maker.write("piece-0-thickness", "1 in").await;
    maker.see("[aria-label='What to know']", "1 in").await;
    let before = maker.number("bags").await;
    let before = (before, maker.number("bags").await).1;
    maker.press("Millimetres, kilograms").await;
    maker.see("#headline-weight .value", "kg").await;
    // What was found is the same, and told in the other units.
    maker.see("[aria-label='What to know']", "25 mm").await;
    assert_eq!(maker.number("bags").await, before);
    assert_eq!(maker.written("piece-0-width").await, "67 in");
    maker.done().await;
}

/// A piece that is called something else is called that where something is found of it, too.
#[tokio::test]
async fn what_is_found_follows_the_name_of_its_piece() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    tape_a_top(&maker).await;
    maker.press("+ Piece").await;
    maker.write("piece-1-name", "Shelf").await;
    for (field, text) in [("width", "40"), ("depth", "20"), ("thickness", "1")] {
        maker.write(&format!("piece-1-{field}"), text).await;
    }
    maker.see("[aria-label='What to know']", "Shelf: ").await;
    maker.write("piece-1-name", "Window seat").await;
    maker.see("[aria-label='What to know']", "Window seat: ").await;
    maker.done().await;
}

/// Every screen fits 320 CSS pixels: nothing has to be scrolled sideways but the bars made for it.
#[tokio::test]
async fn every_screen_fits_320_pixels() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone { size: Some((320, 640)), ..Phone::default() }).await;
    let wide = "return document.documentElement.scrollWidth";
    assert_eq!(maker.ask(wide).await, 320, "the empty shelf");
    tape_a_top(&maker).await;
    for verb in ["Measure", "Build", "Pour", "Finish", "Quote"] {
        maker.turn_to(verb).await;
        maker.wait_for(&format!("main[data-screen='{verb}']")).await;
        assert_eq!(maker.ask(wide).await, 320, "{verb}");
        let cut_off = maker
            .ask("return [...document.querySelectorAll('button, a, input, label, .value')].filter(e => e.offsetParent && !e.closest('.parts, .bar h1') && e.getBoundingClientRect().right > 321).map(e => e.outerHTML.slice(0, 80))")
            .await;
        assert_eq!(cut_off, serde_json::json!([]), "{verb}: cut off at the right");
    }
    maker.press("All jobs").await;
    maker.see("main", "Guest bath").await;
    assert_eq!(maker.ask(wide).await, 320, "the shelf");
    maker.done().await;
}

/// With a keyboard alone: from the shelf to a number's working and back.
#[tokio::test]
async fn a_keyboard_alone_is_enough() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone { size: Some((1280, 800)), ..Phone::default() }).await;
    let keys = async |keys: &str| {
        maker.driver.action_chain().send_keys(keys).perform().await.expect("keys");
    };
    let tab = Key::Tab.value().to_string();
    let enter = Key::Enter.value().to_string();
    let reach = async |what: &str| {
        for _ in 0..40 {
            let at = maker
                .ask("const e = document.activeElement; return (e.id || '') + '|' + (e.innerText || '').trim()")
                .await;
            if at.as_str().unwrap_or_default().split('|').any(|part| part == what) {
                return;
            }
            keys(&tab).await;
        }
        panic!("Tab never reaches {what}");
    };
    reach("Start your own").await;
    keys(&enter).await;
    maker.wait_for("#piece-0-width").await;
    reach("piece-0-width").await;
    keys("48").await;
    keys(&enter).await;
    keys("24").await;
    maker.see("#headline-weight .value", "lb").await;
    assert_eq!(maker.written("piece-0-depth").await, "24", "Enter goes to the next field");
    maker.ask("document.querySelector('.skip').focus()").await;
    reach("headline-weight").await;
    keys(&enter).await;
    maker.see("dialog", "Close").await;
    keys(&Key::Escape.value().to_string()).await;
    let begun = std::time::Instant::now();
    while maker.ask("return document.querySelector('dialog').open").await == true {
        assert!(begun.elapsed().as_secs() < 10, "Escape closes the sheet");
    }
    maker.done().await;
}

/// Every control has a name for a screen reader, and every field its label.
#[tokio::test]
async fn everything_has_a_name() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    tape_a_top(&maker).await;
    for verb in ["Measure", "Build", "Pour", "Finish", "Quote"] {
        maker.turn_to(verb).await;
        maker.wait_for(&format!("main[data-screen='{verb}']")).await;
        let nameless = maker
            .ask("return [...document.querySelectorAll('button, a, input, select, textarea')].filter(e => !(e.textContent || '').trim() && !e.getAttribute('aria-label') && !(e.labels && e.labels.length)).map(e => e.outerHTML.slice(0, 120))")
            .await;
        assert_eq!(nameless, serde_json::json!([]), "{verb}");
    }
    maker.done().await;
}

/// A pour that does not fit the clock says so, and one tap makes it fit.
#[tokio::test]
async fn a_pour_that_does_not_fit_is_made_to_fit() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    maker.press("New job").await;
    maker.write("piece-0-width", "90").await;
    maker.write("piece-0-depth", "25 1/2").await;
    maker.turn_to("Pour").await;
    maker.see("[aria-label='Pour day']", "It does not fit.").await;
    maker.see(".verbs .flag.stop", "1").await;
    let remedy = maker.wait_for("[aria-label='Pour day'] .row button").await;
    maker.tap(&remedy).await;
    maker.see("[aria-label='Pour day']", "It only just fits").await;
    maker.done().await;
}

/// Enter goes to the next field and selects what stands there, so that typing replaces it and is not put behind it.
#[tokio::test]
async fn enter_selects_what_the_next_field_holds() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    maker.press("New job").await;
    assert_eq!(maker.written("piece-0-thickness").await, "2");
    maker.write("piece-0-depth", "24").await;
    let depth = maker.wait_for("#piece-0-depth").await;
    depth.send_keys(Key::Enter.value().to_string()).await.expect("a key");
    assert_eq!(maker.ask("return document.activeElement.id").await, "piece-0-thickness");
    let next = maker.driver.active_element().await.expect("a field has the focus");
    next.send_keys("1 3/4").await.expect("it takes what is typed");
    assert_eq!(maker.written("piece-0-thickness").await, "1 3/4");
    maker.done().await;
}

/// The corner of a rectangle is dragged to another size, on the marks of the tape.
#[tokio::test]
async fn a_corner_is_dragged() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone { size: Some((1280, 800)), ..Phone::default() }).await;
    maker.press("New job").await;
    maker.write("piece-0-width", "48").await;
    maker.write("piece-0-depth", "24").await;
    let corner = maker.wait_for("[data-part='corner-2'] .grip").await;
    let drag = maker.driver.action_chain().move_to_element_center(&corner).click_and_hold().move_by_offset(-40, 30);
    drag.release().perform().await.expect("a drag");
    maker.press("Size").await;
    for (field, before) in [("piece-0-width", 48.0), ("piece-0-depth", 24.0)] {
        let text = maker.written(field).await;
        let length = pourwright::measure::read_length(&text, pourwright::measure::Units::Inch).expect("a length");
        let inches = length.value / 0.0254;
        assert!(inches < before - 0.5, "{field} has become smaller: {text}");
        assert!((inches * 8.0 - (inches * 8.0).round()).abs() < 1e-9, "it landed on an eighth: {text}");
    }
    maker.done().await;
}

/// A page that draws when the test says so, as one does late on a slow phone.
const LATE: &str = "
    const draw = window.requestAnimationFrame.bind(window);
    let held = [];
    window.late = false;
    window.requestAnimationFrame = then => window.late ? held.push(then) : draw(then);
    window.inTime = async () => {
        window.late = false;
        held.splice(0).forEach(draw);
        for (let frame = 0; frame < 4; frame++) await new Promise(draw);
        return document.activeElement.id;
    };
";

/// A new job begins in its first size, once it is drawn; who types elsewhere by then goes on typing there.
#[tokio::test]
async fn a_late_drawing_takes_nobody_out_of_a_field() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone { before: Some(LATE), ..Phone::default() }).await;
    maker.ask("window.late = true").await;
    maker.press("New job").await;
    maker.wait_for("#piece-0-width").await;
    assert_eq!(maker.ask("return window.inTime()").await, "piece-0-width");
    maker.press("All jobs").await;
    maker.ask("window.late = true").await;
    maker.press("New job").await;
    maker.write("job-name", "Guest").await;
    assert_eq!(maker.ask("return window.inTime()").await, "job-name");
    maker.wait_for("#job-name").await.send_keys(" bath").await.expect("the field takes text");
    assert_eq!(maker.written("job-name").await, "Guest bath");
    assert_eq!(maker.written("piece-0-width").await, "");
    maker.done().await;
}
