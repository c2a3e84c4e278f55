//! In the client's room: an opening that is not square, a reading that is wrong, shapes that are no rectangle.

use crate::maker::{Maker, Phone};
use crate::pictures::take;
use crate::site::Site;
use kurbo::{BezPath, Shape};
use std::time::{Duration, Instant};
use thirtyfour::prelude::*;

/// The readings that a new opening asks for, in the order in which they stand on the page.
const BACK: &str = "reading-0-0-length";
const FRONT: &str = "reading-0-1-length";
const LEFT: &str = "reading-0-2-length";
const RIGHT: &str = "reading-0-3-length";
const FROM_FRONT_LEFT: &str = "reading-0-4-length";
const FROM_FRONT_RIGHT: &str = "reading-0-5-length";

/// Adds a reading by its name.
async fn add_reading(maker: &Maker, name: &str) {
    choose(maker, "#add-reading", name).await;
}

/// Chooses from a list.
pub async fn choose(maker: &Maker, list: &str, name: &str) {
    let list = maker.wait_for(list).await;
    maker
        .driver
        .execute(
            "arguments[0].value = arguments[1]; arguments[0].dispatchEvent(new Event('change', { bubbles: true }));",
            vec![list.to_json().expect("an element"), serde_json::json!(name)],
        )
        .await
        .expect("the list takes a choice");
}

/// The stop that speaks of the readings.
async fn stop(maker: &Maker, words: &str) -> String {
    maker.see(".finding.stop", words).await;
    maker.text(".finding.stop").await
}

/// An opening of 61 in front, 22 in deep, with corners of 92° and 87° in front (97 degrees of freedom for the
/// rest follow: back left 87.97°, back right 93.01°), read to 1/16 in. The true diagonal from the front left is
/// 63 3/4 in. Values from trigonometry and from scipy's least squares.
#[tokio::test]
async fn measure_day() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    maker.press("New job").await;
    maker.write("piece-0-thickness", "2").await;
    choose(&maker, "#shape", "From its opening").await;
    for (field, text) in [
        (FRONT, "61"),
        (RIGHT, "22"),
        (BACK, "60 5/8"),
        (LEFT, "22"),
        (FROM_FRONT_LEFT, "64 3/4"),
        (FROM_FRONT_RIGHT, "65 9/16"),
    ] {
        maker.write(field, text).await;
    }
    // Sides and diagonals alone: something is wrong, and nothing says what.
    let says = stop(&maker, "One reading is wrong").await;
    assert!(says.contains("cannot be known which"), "{says}");
    assert!(says.contains("by three marks"), "it asks for the reading that would tell: {says}");

    // Both back corners by marks of 24 in; the distances between them by the law of cosines.
    for (reading, name, between) in
        [(6, "Back left corner by three marks", "33 5/16"), (7, "Back right corner by three marks", "34 13/16")]
    {
        add_reading(&maker, name).await;
        maker.write(&format!("reading-0-{reading}-one-leg"), "24").await;
        maker.write(&format!("reading-0-{reading}-other-leg"), "24").await;
        maker.write(&format!("reading-0-{reading}-between"), between).await;
    }
    let says = stop(&maker, "One of these is wrong").await;
    assert!(says.contains("diagonal") && says.to_lowercase().contains("left depth"), "two suspects: {says}");
    assert!(!says.contains("back width") && !says.contains("front width"), "and no more: {says}");

    // The depth taped again parts them.
    add_reading(&maker, "Left depth").await;
    maker.write("reading-0-8-length", "22").await;
    let says = stop(&maker, "looks wrong").await;
    assert!(says.contains("diagonal") && says.contains("64 3/4 in"), "the diagonal is named: {says}");
    assert!(says.contains("63 3/4"), "with what it would have to be: {says}");

    // Corrected, the opening stands with its true angles, and the top in it.
    maker.write(FROM_FRONT_LEFT, "63 3/4").await;
    maker.see("[aria-label='What the tape says']", "agree").await;
    let begun = Instant::now();
    while !maker.driver.find_all(By::Css(".finding.stop")).await.expect("findings").is_empty() {
        assert!(begun.elapsed() < Duration::from_secs(20), "no stop is left");
    }
    let says = maker.text("[aria-label='What the tape says']").await;
    for angle in ["92", "87", "88", "93"] {
        assert!(says.contains(angle), "a corner of about {angle}°: {says}");
    }
    for way in ["Lowered from above", "Slid in from the front", "Tilted in"] {
        assert!(says.contains(way), "{way}: {says}");
    }
    assert!(says.contains("to spare"), "one way works, and by how much: {says}");
    maker.wait_for("svg.drawing .body").await;
    assert_ne!(maker.number("bags").await, "—");

    // The drawing itself: three walls at their gap, the corners that are not square, and the way in.
    let drawn = |class: &str| {
        let all = By::Css(format!("svg.drawing .{class}"));
        let driver = maker.driver.clone();
        async move {
            let mut texts = Vec::new();
            for element in driver.find_all(all).await.expect("a drawing") {
                texts.push(element.text().await.expect("its words"));
            }
            texts
        }
    };
    assert_eq!(drawn("wall").await.len(), 3);
    assert_eq!(drawn("gap-figure").await, ["gap 1/8"; 3], "the usual clearance at every wall");
    let angles = drawn("angle-figure").await;
    for true_angle in [92.0, 87.0, 88.0, 93.0_f64] {
        let is_it = |figure: &String| {
            figure.trim_end_matches('°').parse::<f64>().is_ok_and(|angle| (angle - true_angle).abs() < 0.15)
        };
        assert!(angles.iter().any(is_it), "{true_angle}° among {angles:?}");
    }
    let way = drawn("way-word").await;
    assert!(way.len() == 1 && way[0].contains("Goes in") && way[0].contains("to spare"), "{way:?}");
    maker.ask("scrollTo(0, 0)").await;
    take(&maker, "phone-light-opening", true).await;
    maker.done().await;
}

/// An L with a round corner and a D-shaped cutout, saved true to scale.
#[tokio::test]
async fn an_l_with_a_round_corner_is_saved_true_to_scale() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone { size: Some((1280, 800)), ..Phone::default() }).await;
    maker.press("New job").await;
    choose(&maker, "#shape", "L").await;
    for (field, text) in
        [("piece-0-width", "84"), ("piece-0-depth", "60"), ("piece-0-leg", "25 1/2"), ("piece-0-front-depth", "25 1/2")]
    {
        maker.write(field, text).await;
    }
    maker.press("Corners").await;
    maker.press("Front / right corner").await;
    maker.press("Rounded").await;
    maker.write("corner-0-1-radius", "4").await;
    maker.press("+ Cutout").await;
    maker.press("D").await;
    for (field, text) in [
        ("cutout-0-0-width", "16"),
        ("cutout-0-0-depth", "14"),
        ("cutout-0-0-corner-radius", "1"),
        ("cutout-0-0-from-left", "56"),
        ("cutout-0-0-from-front", "12"),
    ] {
        maker.write(field, text).await;
    }
    maker.see("#headline-weight .value", "lb").await;
    // 12 in to its centre, less half of 14 in.
    let rails = maker.text("[aria-label='Cutout'] .figures").await;
    let front = rails.split("The rail in front of cutout 1").nth(1).expect("the rail in front is listed");
    assert!(front.trim_start().starts_with("5 in"), "{rails}");
    maker.press("Size").await;
    maker.press("Save as SVG").await;
    let begun = Instant::now();
    let svg = loop {
        let file = maker.downloads.0.join("pourwright-outline.svg");
        match std::fs::read_to_string(&file) {
            Ok(text) if text.ends_with("</svg>") => break text,
            _ => assert!(begun.elapsed() < Duration::from_secs(20), "nothing was saved"),
        }
    };
    // 84 in and 60 in are 2133.6 mm and 1524 mm (1 in = 25.4 mm, NIST SP 811 B.8), 10 mm of paper around them.
    assert!(svg.contains("width=\"2153.600mm\" height=\"1544.000mm\" viewBox=\"0 0 2153.600 1544.000\""), "{svg}");
    let path = |id: &str| {
        let element = svg.split(&format!("id=\"{id}\"")).nth(1).expect("it is drawn");
        let d = element.split("d=\"").nth(1).and_then(|rest| rest.split('"').next()).expect("a path");
        BezPath::from_svg(d).expect("a path")
    };
    let square_inches = |path: BezPath| path.area().abs() / (25.4 * 25.4);
    // The area of the L is 3021.75 in² (shapely 2.2.0); a corner of radius r takes (1 − π/4) r² of it.
    let expected = 3021.75 - (1.0 - std::f64::consts::FRAC_PI_4) * 16.0;
    assert!((square_inches(path("outline")) - expected).abs() < 0.01, "{}", square_inches(path("outline")));
    let cutout = path("cutout-1").bounding_box();
    assert!((cutout.width() - 16.0 * 25.4).abs() < 0.02 && (cutout.height() - 14.0 * 25.4).abs() < 0.02, "{cutout:?}");
    maker.done().await;
}

/// Everything can be taken back and made again.
#[tokio::test]
async fn a_change_is_taken_back_and_made_again() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    maker.press("See a worked job").await;
    maker.press("Cutout 1").await;
    maker.press("Remove this cutout").await;
    let cutouts = async || maker.driver.find_all(By::Css("[data-part='cutout-0']")).await.expect("a drawing").len();
    let wait_for = async |count: usize| {
        let begun = Instant::now();
        while cutouts().await != count {
            assert!(begun.elapsed() < Duration::from_secs(20), "{count} cutouts");
        }
    };
    wait_for(0).await;
    maker.press("Undo").await;
    wait_for(1).await;
    maker.press("Redo").await;
    wait_for(0).await;
    maker
        .driver
        .action_chain()
        .key_down(Key::Control)
        .send_keys("z")
        .key_up(Key::Control)
        .perform()
        .await
        .expect("keys");
    wait_for(1).await;
    maker.done().await;
}
