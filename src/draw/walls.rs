//! The walls of a surveyed opening around the piece, and the way the piece goes in.

use super::canvas::Canvas;
use super::plan::{Paper, bare};
use crate::measure::Units;
use crate::plane::{EdgeTag, Outline};
use crate::room::{Corner, Span, Way, WaysIn, words};
use crate::top::Surveyed;
use kurbo::{BezPath, Circle, Line, Point, Shape, Vec2};

/// A wall is drawn at least so far off, in drawing units: the usual gap would be thinner than a stroke. Its
/// figure tells the true one.
const LEAST_GAP: f64 = 5.0;

/// Every wall of the opening, hatched, at its distance from the piece, with that distance beside it.
pub(super) fn draw_walls(canvas: &mut Canvas, paper: &Paper, outline: &Outline, surveyed: &Surveyed, units: Units) {
    for (span, side, from, to) in [
        (Span::Back, 2, Corner::BackRight, Corner::BackLeft),
        (Span::Left, 3, Corner::BackLeft, Corner::FrontLeft),
        (Span::Right, 1, Corner::FrontRight, Corner::BackRight),
    ] {
        let edge = outline.edge_tagged(EdgeTag::Side(side)).and_then(|edge| outline.edges().get(edge));
        let (true, Some(edge)) = (surveyed.survey.walls.has(span), edge) else { continue };
        let corner = |corner: Corner| surveyed.survey.corners[corner as usize] - surveyed.front_left.to_vec2();
        let wall = Line::new(corner(from), corner(to));
        let gap = distance(wall, edge.point_at(0.5));
        let out = paper.towards(edge.normal_at(0.5));
        let aside = out * (LEAST_GAP - gap * paper.scale).max(0.0);
        let (a, b) = (paper.at(wall.p0) + aside, paper.at(wall.p1) + aside);
        canvas.line("wall", a, b);
        canvas.path("hatch", &hatch((b - a).hypot(), |share| (a.lerp(b, share), out)));
        // Beside the end of the wall, where no other word stands.
        let upright = (b - a).x.abs() < (b - a).y.abs();
        let at = a.lerp(b, 0.2) + out * 17.0;
        canvas.words("gap-figure", at, if upright { -90.0 } else { 0.0 }, &format!("gap {}", bare(gap, units)));
    }
}

/// Distance of a point from the line that a wall runs along.
fn distance(wall: Line, point: Point) -> f64 {
    let along = (wall.p1 - wall.p0).normalize();
    along.cross(point - wall.p0).abs()
}

/// Short strokes that lean on an edge: this side of it is a wall. `at` gives the point at a share of its length,
/// and the way out of the piece there.
pub(super) fn hatch(length: f64, at: impl Fn(f64) -> (Point, Vec2)) -> BezPath {
    let mut strokes = BezPath::new();
    let count = (length / 8.0).floor().max(0.0) as usize;
    for stroke in 0..count {
        let (foot, out) = at((stroke as f64 + 0.5) / count as f64);
        strokes.move_to(foot);
        strokes.line_to(foot + out * 9.0 + Vec2::new(-out.y, out.x) * 6.0);
    }
    strokes
}

/// The easiest way in that works: slid, else tilted, else lowered. Its sign stands at the front of the piece; the
/// words for it are given back.
pub(super) fn draw_way(canvas: &mut Canvas, paper: &Paper, outline: &Outline, ways: &WaysIn, units: Units) -> String {
    let bounds = outline.bounds();
    let front = paper.at(Point::new(bounds.x0 + bounds.width() / 4.0, bounds.y0));
    let says = |how: &str, way: Way| format!("Goes in {how}: {}", words::margin(way.margin, units));
    let arrow = |canvas: &mut Canvas| {
        let (foot, tip) = (front + Vec2::new(0.0, 26.0), front + Vec2::new(0.0, 4.0));
        canvas.line("way", foot, tip);
        canvas.line("way", tip, tip + Vec2::new(-4.0, 6.0));
        canvas.line("way", tip, tip + Vec2::new(4.0, 6.0));
    };
    if ways.slid.works() {
        arrow(canvas);
        says("from the front, level", ways.slid)
    } else if ways.tilted.works() {
        arrow(canvas);
        // One end higher than the other.
        canvas.line("way", front + Vec2::new(-10.0, 22.0), front + Vec2::new(10.0, 14.0));
        says("tilted, one end first", ways.tilted)
    } else if ways.lowered.works() {
        // Seen from above, what comes down is a point in a circle.
        let middle = front + Vec2::new(0.0, 14.0);
        canvas.path("way", &Circle::new(middle, 7.0).to_path(0.1));
        canvas.path("way", &Circle::new(middle, 1.0).to_path(0.1));
        says("from above only", ways.lowered)
    } else {
        format!("It does not go in: {}", words::margin(ways.lowered.margin, units))
    }
}
