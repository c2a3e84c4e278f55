//! From the finished top to the saw: an out-of-square piece whose cut list is put together again by hand.

use crate::maker::{Folder, Maker, Phone};
use crate::measure_day::choose;
use crate::pictures::take;
use crate::printing::{COUNT_PRINTS, pages_of, print, words_of};
use crate::site::Site;
use serde_json::Value;

/// A point or a way in the plane, in inches.
type Point = (f64, f64);

/// "62 5/16" as a number.
fn inches(text: &str) -> f64 {
    let part = |word: &str| match word.split_once('/') {
        Some((upper, lower)) => upper.parse::<f64>().expect("a fraction") / lower.parse::<f64>().expect("a fraction"),
        None => word.parse().unwrap_or_else(|_| panic!("a number in {text:?}")),
    };
    text.trim().trim_end_matches("in").split_whitespace().map(part).sum()
}

/// The number behind `before` in a line.
fn behind(line: &str, before: &str) -> f64 {
    let rest = line.split(before).nth(1).unwrap_or_else(|| panic!("{before:?} in {line:?}"));
    let words = rest.split([',', ';', '°']).next().expect("a number");
    inches(words.split(" from").next().expect("a number"))
}

/// Where the line through two points, moved out by a distance, meets the next one, moved by its own.
fn met(a: (Point, Point, f64), b: (Point, Point, f64)) -> Point {
    let moved = |(from, to, out): (Point, Point, f64)| {
        let (dx, dy) = (to.0 - from.0, to.1 - from.1);
        let length = f64::hypot(dx, dy);
        ((from.0 + dy / length * out, from.1 - dx / length * out), (dx, dy))
    };
    let ((p, u), (q, v)) = (moved(a), moved(b));
    let along = ((q.0 - p.0) * v.1 - (q.1 - p.1) * v.0) / (u.0 * v.1 - u.1 * v.0);
    (p.0 + along * u.0, p.1 + along * u.1)
}

/// A quadrilateral, counter-clockwise from the front left, with its sides (front, right, back, left) moved out.
fn offset(corners: [Point; 4], out: [f64; 4]) -> [Point; 4] {
    let side = |side: usize| (corners[side % 4], corners[(side + 1) % 4], out[side % 4]);
    std::array::from_fn(|corner| met(side(corner + 3), side(corner)))
}

fn distance(a: Point, b: Point) -> f64 {
    f64::hypot(a.0 - b.0, a.1 - b.1)
}

/// The inside angle at `at`, in degrees.
fn angle(before: Point, at: Point, after: Point) -> f64 {
    let way = |to: Point| (to.1 - at.1).atan2(to.0 - at.0);
    (way(before) - way(after)).to_degrees().rem_euclid(360.0)
}

/// What stands in the rows of a list of the Build screen: mark, name, size, and the lines under it.
async fn rows(maker: &Maker, list: &str) -> Vec<(String, String, String, Vec<String>)> {
    let script = format!(
        "return [...document.querySelectorAll(\"[aria-label='{list}'] li\")].map(row => ({{ \
         mark: row.querySelector('.mark').textContent, name: row.querySelector('.name').textContent, \
         value: row.querySelector('.value').textContent, \
         how: [...row.querySelectorAll('.how')].map(line => line.textContent) }}))"
    );
    let text = |value: &Value| value.as_str().expect("a text").to_owned();
    let row = |row: &Value| {
        let how = row["how"].as_array().expect("lines").iter().map(text).collect();
        (text(&row["mark"]), text(&row["name"]), text(&row["value"]), how)
    };
    maker.ask(&script).await.as_array().expect("a list").iter().map(row).collect()
}

/// How far what is sawn to a listed length may be out: half of 1/32 in.
const SAWN: f64 = 1.0 / 64.0 + 1e-9;

/// An opening of 61 in front and 22 in deep with corners of 92° and 87° in front: by trigonometry its back is
/// 60.61640 in and its diagonals 63.75367 and 65.56425 in. The top keeps 1/8 in off its walls and stands over
/// the cabinet by 1 1/4 in; its front is lined with 3/4 in. All that is put together here is plain geometry.
#[tokio::test]
async fn build_day() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone { before: Some(COUNT_PRINTS), ..Phone::default() }).await;
    maker.press("New job").await;
    maker.write("job-name", "Landing shelf").await;
    maker.write("piece-0-thickness", "1 3/4").await;
    choose(&maker, "#shape", "From its opening").await;
    for (reading, text) in ["60.6164", "61", "22", "22", "63.75367", "65.56425"].into_iter().enumerate() {
        maker.write(&format!("reading-0-{reading}-length"), text).await;
    }
    maker.press("Edges").await;
    maker.press("Front").await;
    maker.press("Lined").await;
    maker.write("edge-0-0-liner", "3/4").await;
    for (cutout, sizes) in [["16", "13", "2", "15", "12"], ["14", "11", "2", "46", "11"]].into_iter().enumerate() {
        maker.press("+ Cutout").await;
        for (field, text) in ["width", "depth", "corner-radius", "from-left", "from-front"].into_iter().zip(sizes) {
            maker.write(&format!("cutout-0-{cutout}-{field}"), text).await;
        }
    }
    maker.turn_to("Build").await;
    maker.see("[aria-label='Cut list']", "S4").await;
    choose(&maker, "#bars", "#3 (3/8 in)").await;
    maker.press("2.5 lb/yd²").await;
    maker.see("[aria-label='Steel']", "R1").await;

    // The cast outline by hand: the opening, in by the gap at each wall, out by the overhang and the liner.
    let turn = |degrees: f64| (degrees.to_radians().cos(), degrees.to_radians().sin());
    let (left, right) = (turn(92.0), turn(87.0));
    let opening = [(0.0, 0.0), (61.0, 0.0), (61.0 - 22.0 * right.0, 22.0 * right.1), (22.0 * left.0, 22.0 * left.1)];
    let cast = offset(opening, [1.25 + 0.75, -0.125, -0.125, -0.125]);

    let parts = rows(&maker, "Cut list").await;
    let marks: Vec<_> = parts.iter().map(|(mark, ..)| mark.as_str()).collect();
    assert_eq!(marks, ["B1", "S1", "S2", "S3", "S4"]);
    // The base is marked out as the form is seen: from its left, which is the right end of the top.
    let base = &parts[0].3;
    let marked: Vec<Point> = base
        .iter()
        .filter(|line| line.starts_with("corner"))
        .map(|line| {
            (
                behind(line, ": "),
                inches(line.split("left, ").nth(1).expect("a distance").split(" from").next().expect("a distance")),
            )
        })
        .collect();
    assert_eq!(marked.len(), 4, "{base:?}");
    let right_end = cast.iter().map(|corner| corner.0).fold(f64::MIN, f64::max);
    let front = cast.iter().map(|corner| corner.1).fold(f64::MAX, f64::min);
    for (corner, (from_left, from_front)) in cast.iter().zip(&marked) {
        assert!((right_end - corner.0 - from_left).abs() <= SAWN, "mirrored, once: {corner:?} at {from_left}");
        assert!((corner.1 - front - from_front).abs() <= SAWN, "and the front stays in front: {corner:?}");
    }

    // Every side lies along its edge of the base with its inside face, as long as that; its outside face is longer
    // by what the mitres take at either end; cut so, they close around the cast outline.
    let board = 0.75;
    for (side, (mark, name, size, how)) in parts.iter().skip(1).enumerate() {
        let at = |corner: usize| cast[corner % 4];
        let inner = distance(at(side), at(side + 1));
        let sizes: Vec<_> = size.split('×').map(inches).collect();
        let faces =
            how.iter().find(|line| line.starts_with("inside face")).unwrap_or_else(|| panic!("{mark}: {how:?}"));
        assert!((behind(faces, "inside face ") - inner).abs() <= SAWN, "{mark} {name}: {faces}, not {inner}");
        let angles = [angle(at(side + 3), at(side), at(side + 1)), angle(at(side), at(side + 1), at(side + 2))];
        let past: f64 = angles.iter().map(|angle| board / (angle / 2.0).to_radians().tan()).sum();
        assert!((behind(faces, "outside face ") - inner - past).abs() <= SAWN, "{mark}: {faces}");
        assert!((sizes[0] - inner - past).abs() <= SAWN, "it is sawn from its longer face: {size}");
        assert!(
            (sizes[1] - 2.5).abs() <= SAWN && (sizes[2] - board).abs() <= SAWN,
            "1 3/4 in on a 3/4 in base: {size}"
        );
        let ends = how.iter().find(|line| line.contains("mitred")).expect("its ends");
        for (end, angle) in ends.split(';').zip(angles) {
            let saw = behind(end, "saw at ");
            assert!((saw - (90.0 - angle / 2.0)).abs() <= 0.05 + 1e-9, "{mark}: {end}, at a corner of {angle}°");
        }
    }

    // A part that is touched lights up in the drawing.
    maker.press("S2").await;
    maker.wait_for("svg.drawing .board-part.chosen .board").await;
    assert_eq!(
        maker.ask("return document.querySelector('.board-part.chosen').getAttribute('data-part')").await,
        "board-2",
        "the right side"
    );
    // The first cutout lies left of the middle as installed, and right of it in the form.
    let middle = "const at = part => { const b = document.querySelector(part).getBBox(); return b.x + b.width / 2 }; \
                  return at('[data-part=cutout-0]') - at('.body')";
    assert!(maker.ask(middle).await.as_f64().expect("a distance") > 0.0);
    maker.press("Plan").await;
    maker.see(".plan", "as installed").await;
    assert!(maker.ask(middle).await.as_f64().expect("a distance") < 0.0);
    maker.press("Form").await;
    maker.see(".plan", "mirror of the plan").await;
    maker.ask("scrollTo(0, 0)").await;
    take(&maker, "phone-light-build-day", true).await;

    // The shop sheet: black on white, one or two sheets of paper, with every part to be ticked.
    maker.press("Print the shop sheet").await;
    assert_eq!(maker.ask("return window.prints").await, 1, "the browser is asked to print");
    let pdf = print(&maker).await;
    let folder = Folder::new("shop-sheet");
    if let Some(pictures) = std::env::var_os("POURWRIGHT_PICTURES").map(std::path::PathBuf::from) {
        std::fs::write(pictures.join("shop-sheet.pdf"), &pdf).expect("a file");
    }
    let (pages, words) = (pages_of(&pdf), words_of(&pdf, &folder.0));
    assert!((1..=2).contains(&pages.len()), "{} pages", pages.len());
    for wanted in [
        "Landing shelf",
        "mirror of the plan",
        "FRONT",
        "S1",
        "S4",
        "K1.1",
        "K2.1",
        "R1",
        "L1",
        "Sheet 1",
        "☐",
        "Order of assembly",
    ] {
        assert!(words.contains(wanted), "{wanted:?} is on paper: {words}");
    }
    maker.done().await;
}
