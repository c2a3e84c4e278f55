//! The outline at full size on sheets of paper that overlap, to be taped together into a template.
//!
//! The drawing is seen through windows, one a sheet, rows lettered from the back and columns numbered from the
//! left. Neighbouring windows share a strip; crosses stand at the corners of that strip on both sheets.

use super::canvas::path_text;
use super::scale::TrueScale;
use super::template::templates;
use crate::estimate::PieceEstimate;
use crate::job::Piece;
use crate::markup::escape;
use crate::measure::Units;
use kurbo::{BezPath, ParamCurve, PathSeg, Point, Rect, Shape};
use std::fmt::Write;

/// Paper around the window, in millimetres: most printers leave less than that white.
const MARGIN: f64 = 10.0;
/// What two neighbouring windows share, in millimetres.
const OVERLAP: f64 = 10.0;
/// Room around the outline, in millimetres, so that no line runs along the rim of a window.
const ROOM: f64 = 1.0;
/// A sheet is drawn that much shorter than the paper, in millimetres: a browser that rounds the paper's height
/// down would put an empty sheet after each.
const SHORTER: f64 = 1.0;
/// Half an arm's length of a cross, in millimetres.
const ARM: f64 = 4.0;

/// A size of paper, upright.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paper {
    /// 8 1/2 by 11 in (ANSI/ASME Y14.1, size A).
    Letter,
    /// 210 by 297 mm (ISO 216).
    A4,
}

impl Paper {
    /// The paper that is sold where tapes are in those units.
    pub fn of(units: Units) -> Self {
        match units {
            Units::Inch => Self::Letter,
            Units::Metric => Self::A4,
        }
    }

    /// Its name in a style sheet.
    pub fn key(self) -> &'static str {
        match self {
            Self::Letter => "letter",
            Self::A4 => "a4",
        }
    }

    /// Width and height, millimetres.
    fn size(self) -> (f64, f64) {
        match self {
            Self::Letter => (215.9, 279.4),
            Self::A4 => (210.0, 297.0),
        }
    }
}

/// One sheet of a drawing at full size.
#[derive(Clone, Debug, PartialEq)]
pub struct Tile {
    /// Its row and column, such as B2.
    pub name: String,
    /// What is printed on it, in real units.
    pub svg: String,
    /// What it shows of the drawing; millimetres, y down, the back left of the outline's bounds at the origin.
    pub window: Rect,
}

/// The sheets that hold a line of the finished outline, its cutouts and holes, as installed, seen from above,
/// row by row from the back; none while the outline is not known. The first has a ruler to check the printer.
pub fn tiles(piece: &PieceEstimate, paper: Paper) -> Vec<Tile> {
    TrueScale::of(piece).map_or_else(Vec::new, |drawing| sheets(&drawing, paper))
}

/// How many windows of that size, each sharing [`OVERLAP`] with the next, cover a length.
fn count(length: f64, window: f64) -> usize {
    ((length + 2.0 * ROOM - OVERLAP) / (window - OVERLAP)).ceil().max(1.0) as usize
}

/// The sheets of everything that is marked out with a template: knockouts, and corners that are not simply square.
/// As the form is seen, face down.
pub fn template_tiles(piece: &PieceEstimate, typed: &Piece, paper: Paper) -> Vec<Tile> {
    templates(piece, typed).iter().flat_map(|drawing| sheets(drawing, paper)).collect()
}

fn sheets(drawing: &TrueScale, paper: Paper) -> Vec<Tile> {
    let (width, height) = paper.size();
    let (width, height) = (width - 2.0 * MARGIN, height - 2.0 * MARGIN);
    let columns = count(drawing.width, width);
    let window = |row: usize, column: usize| {
        let left = column as f64 * (width - OVERLAP) - ROOM;
        let back = row as f64 * (height - OVERLAP) - ROOM;
        Rect::new(left, back, left + width, back + height)
    };
    let mut held = Vec::new();
    for row in 0..count(drawing.height, height) {
        for column in 0..columns {
            let window = window(row, column);
            let paths: Vec<_> = drawing.paths.iter().map(|(_, path)| path).filter(|path| meets(path, window)).collect();
            if !paths.is_empty() {
                held.push((row, column, window, paths));
            }
        }
    }
    let is_held = |row: usize, column: usize| held.iter().any(|(other, at, ..)| (*other, *at) == (row, column));
    let sheet = |(index, (row, column, window, paths)): (usize, &(usize, usize, Rect, Vec<&BezPath>))| {
        let (row, column) = (*row, *column);
        let neighbour = |down: isize, right: isize| {
            let (row, column) = (row.checked_add_signed(down)?, column.checked_add_signed(right)?);
            is_held(row, column).then(|| name(row, column))
        };
        let neighbours = [neighbour(-1, 0), neighbour(0, 1), neighbour(1, 0), neighbour(0, -1)];
        let name = name(row, column);
        let svg = draw(paper, (&drawing.title, &name), *window, paths, &neighbours, index == 0);
        Tile { name, svg, window: *window }
    };
    held.iter().enumerate().map(sheet).collect()
}

/// The row as a letter (after Z comes AA), the column as a number from 1.
fn name(row: usize, column: usize) -> String {
    let mut letters = String::new();
    let mut left = row + 1;
    while left > 0 {
        letters.insert(0, char::from(b'A' + ((left - 1) % 26) as u8));
        left = (left - 1) / 26;
    }
    format!("{letters}{}", column + 1)
}

/// Some of the path lies in the window.
fn meets(path: &BezPath, window: Rect) -> bool {
    let crosses_a_side = |part: &PathSeg| {
        window.path_segments(0.1).any(|side| match side {
            PathSeg::Line(side) => !part.intersect_line(side).is_empty(),
            _ => false,
        })
    };
    path.segments().any(|part| window.contains(part.start()) || crosses_a_side(&part))
}

/// One sheet. Neighbours: behind, right, in front, left.
fn draw(
    paper: Paper,
    (title, name): (&str, &str),
    window: Rect,
    paths: &[&BezPath],
    neighbours: &[Option<String>; 4],
    with_ruler: bool,
) -> String {
    let (width, height) = paper.size();
    let height = height - SHORTER;
    let (across, down) = (window.width(), window.height());
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width:.1}mm\" height=\"{height:.1}mm\" \
         viewBox=\"0 0 {width:.1} {height:.1}\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.25\" \
         font-family=\"sans-serif\" font-size=\"4\"><title>{name}</title>\
         <svg x=\"{MARGIN}\" y=\"{MARGIN}\" width=\"{across:.1}\" height=\"{down:.1}\" \
         viewBox=\"{:.3} {:.3} {across:.3} {down:.3}\">",
        window.x0, window.y0
    );
    for path in paths {
        let _ = write!(svg, "<path d=\"{}\"/>", path_text(path, 3));
    }
    let _ = write!(svg, "</svg><g transform=\"translate({MARGIN} {MARGIN})\" stroke-width=\"0.15\">");
    // The corners of each shared strip, which has this sheet's own rim on one side.
    let strips = [
        (0.0, 0.0, across, OVERLAP),
        (across - OVERLAP, 0.0, across, down),
        (0.0, down - OVERLAP, across, down),
        (0.0, 0.0, OVERLAP, down),
    ];
    let words = [
        (across / 2.0, OVERLAP - 2.0, "↑"),
        (across - OVERLAP / 2.0, down / 2.0, "→"),
        (across / 2.0, down - 2.0, "↓"),
        (OVERLAP / 2.0, down / 2.0, "←"),
    ];
    for ((neighbour, (left, back, right, front)), (x, y, arrow)) in neighbours.iter().zip(strips).zip(words) {
        let Some(neighbour) = neighbour else { continue };
        for at in [(left, back), (right, back), (left, front), (right, front)] {
            cross(&mut svg, at.into());
        }
        write_words(&mut svg, x, y, &format!("{arrow} {neighbour}"));
    }
    write_words(&mut svg, across / 2.0, 2.0 * OVERLAP, name);
    write_words(&mut svg, across / 2.0, 2.0 * OVERLAP + 6.0, title);
    if with_ruler {
        ruler(&mut svg, Point::new((across - 4.0 * 25.4) / 2.0, down / 2.0));
    }
    svg.push_str("</g></svg>");
    svg
}

fn cross(svg: &mut String, at: Point) {
    let _ = write!(
        svg,
        "<path class=\"cross\" d=\"M{:.2} {:.2}h{:.1}M{:.2} {:.2}v{:.1}\"/>",
        at.x - ARM,
        at.y,
        2.0 * ARM,
        at.x,
        at.y - ARM,
        2.0 * ARM
    );
}

fn write_words(svg: &mut String, x: f64, y: f64, words: &str) {
    if words.is_empty() {
        return;
    }
    let words = escape(words);
    let _ = write!(
        svg,
        "<text x=\"{x:.1}\" y=\"{y:.1}\" text-anchor=\"middle\" fill=\"#000\" stroke=\"none\">{words}</text>"
    );
}

/// 100 mm above the line and 4 in below it, from the same end.
fn ruler(svg: &mut String, from: Point) {
    let mut ticks = format!("M{:.2} {:.2}h{:.1}", from.x, from.y, 4.0 * 25.4);
    for step in 0..=10 {
        let _ = write!(ticks, "M{:.2} {:.2}v-5", from.x + f64::from(step) * 10.0, from.y);
    }
    for step in 0..=4 {
        let _ = write!(ticks, "M{:.2} {:.2}v5", from.x + f64::from(step) * 25.4, from.y);
    }
    let _ = write!(svg, "<path class=\"ruler\" d=\"{ticks}\"/>");
    let middle = from.x + 2.0 * 25.4;
    write_words(svg, middle, from.y - 7.0, "100 mm");
    write_words(svg, middle, from.y + 9.0, "4 in");
    write_words(svg, middle, from.y + 16.0, "Print at 100 %; measure this ruler before you cut.");
}

#[cfg(test)]
mod tests {
    use super::{Paper, Tile, tiles};
    use crate::estimate::{PieceEstimate, estimate};
    use crate::job::{Job, OutlineShape, Units};
    use crate::price::PriceBook;
    use kurbo::Point;
    use std::sync::Arc;

    fn rectangle(width: &str, depth: &str) -> Job {
        let mut job = Job::new("test", Units::Metric);
        job.pieces[0].width = width.into();
        job.pieces[0].depth = depth.into();
        job
    }

    fn piece(job: &Job) -> Arc<PieceEstimate> {
        estimate(job, &PriceBook::default()).pieces.remove(0)
    }

    fn names(tiles: &[Tile]) -> Vec<&str> {
        tiles.iter().map(|tile| &*tile.name).collect()
    }

    /// By hand. A4 less 10 mm all round is 190 by 277 mm; each further sheet adds 180 and 267 mm. 1702 + 2 mm take
    /// 1 + ⌈(1704 − 190) ÷ 180⌉ = 10 columns, 489 + 2 mm take 1 + ⌈(491 − 277) ÷ 267⌉ = 2 rows. Letter: 195.9 by
    /// 259.4 mm, steps of 185.9 and 249.4 mm, 1 + ⌈1508.1 ÷ 185.9⌉ = 10 and 1 + ⌈231.6 ÷ 249.4⌉ = 2. The back runs
    /// through the first row and the front through the second, so none is empty.
    #[test]
    fn a_vanity_takes_twenty_sheets() {
        let piece = piece(&rectangle("1702", "489"));
        for paper in [Paper::A4, Paper::Letter] {
            let tiles = tiles(&piece, paper);
            assert_eq!(tiles.len(), 20, "{paper:?}");
            assert_eq!((tiles[0].name.as_str(), tiles[19].name.as_str()), ("A1", "B10"));
        }
    }

    /// A4 windows of 1000 by 1000 mm: columns ⌈(1002 − 10) ÷ 180⌉ = 6, rows ⌈(1002 − 10) ÷ 267⌉ = 4. The rim takes
    /// 2 × 6 + 2 × 2 sheets; the eight within hold no line.
    #[test]
    fn a_sheet_without_a_line_is_left_out() {
        let tiles = tiles(&piece(&rectangle("1000", "1000")), Paper::A4);
        assert_eq!(tiles.len(), 16, "{:?}", names(&tiles));
        assert!(!names(&tiles).contains(&"B2") && names(&tiles).contains(&"B1"));
        // What is not printed is not pointed at.
        assert!(!tiles.iter().any(|tile| tile.svg.contains("→ B2<") || tile.svg.contains("↓ B2<")));
    }

    #[test]
    fn every_point_of_the_outline_is_on_a_sheet() {
        let mut job = rectangle("2134", "1524");
        job.pieces[0].shape = OutlineShape::L;
        job.pieces[0].leg = "648".into();
        job.pieces[0].front_depth = "648".into();
        job.pieces[0].bow = "25".into();
        let piece = piece(&job);
        let outline = piece.top.outline.as_ref().expect("an outline");
        let bounds = outline.bounds();
        for paper in [Paper::A4, Paper::Letter] {
            let tiles = tiles(&piece, paper);
            for edge in outline.edges() {
                for step in 0..=500 {
                    let at = edge.point_at(f64::from(step) / 500.0);
                    let at = Point::new((at.x - bounds.x0) * 1e3, (bounds.y1 - at.y) * 1e3);
                    assert!(tiles.iter().any(|tile| tile.window.contains(at)), "{at} mm is on no sheet of {paper:?}");
                }
            }
        }
    }

    #[test]
    fn neighbours_share_ten_millimetres_and_say_so() {
        let tiles = tiles(&piece(&rectangle("1702", "489")), Paper::A4);
        let by_name = |name: &str| tiles.iter().find(|tile| tile.name == name).expect("it is printed");
        let (first, right, front) = (by_name("A1"), by_name("A2"), by_name("B1"));
        let shared = first.window.intersect(right.window);
        assert!((shared.width() - 10.0).abs() < 1e-9 && (shared.height() - 277.0).abs() < 1e-9, "{shared:?}");
        let shared = first.window.intersect(front.window);
        assert!((shared.width() - 190.0).abs() < 1e-9 && (shared.height() - 10.0).abs() < 1e-9, "{shared:?}");
        assert!(first.svg.contains("→ A2<") && first.svg.contains("↓ B1<"));
        assert!(right.svg.contains("← A1<") && front.svg.contains("↑ A1<"));
        assert!(!first.svg.contains("←") && !first.svg.contains("↑"), "nothing lies beyond the first");
        // The same cross on both: 180 mm right of the first window's rim is the rim of the second.
        assert!(first.svg.contains("d=\"M176.00 0.00h8.0M180.00 -4.00v8.0\""), "{}", first.svg);
        assert!(right.svg.contains("d=\"M-4.00 0.00h8.0M0.00 -4.00v8.0\""), "{}", right.svg);
    }

    #[test]
    fn a_millimetre_on_a_sheet_is_a_millimetre() {
        let tiles = tiles(&piece(&rectangle("1702", "489")), Paper::A4);
        let svg = &tiles[11].svg;
        assert!(svg.contains("width=\"210.0mm\" height=\"296.0mm\" viewBox=\"0 0 210.0 296.0\""), "{svg}");
        // B2: one step of 180 mm right, one of 267 mm to the front, less the millimetre of room.
        assert!(svg.contains("width=\"190.0\" height=\"277.0\" viewBox=\"179.000 266.000 190.000 277.000\""), "{svg}");
    }

    /// 4 in is 101.6 mm (NIST SP 811 B.8).
    #[test]
    fn the_first_sheet_alone_has_a_ruler() {
        let tiles = tiles(&piece(&rectangle("1702", "489")), Paper::A4);
        let ruler = tiles[0].svg.split("class=\"ruler\" d=\"").nth(1).and_then(|rest| rest.split('"').next());
        let ruler = ruler.expect("a ruler");
        // Centred on 190 mm, it begins at 44.2 mm.
        assert!(ruler.starts_with("M44.20 138.50h101.6"), "{ruler}");
        assert!(ruler.contains("M144.20 138.50v-5") && ruler.contains("M145.80 138.50v5"), "{ruler}");
        assert!(tiles[0].svg.contains("Print at 100 %; measure this ruler before you cut."));
        assert!(tiles[1..].iter().all(|tile| !tile.svg.contains("class=\"ruler\"")));
    }

    #[test]
    fn an_outline_that_is_not_known_takes_no_paper() {
        assert_eq!(tiles(&piece(&Job::new("test", Units::Metric)), Paper::A4), []);
    }

    #[test]
    fn rows_go_on_after_z() {
        assert_eq!([super::name(25, 0), super::name(26, 9), super::name(701, 0)], ["Z1", "AA10", "ZZ1"]);
    }
}
