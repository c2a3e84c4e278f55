//! SVG text, written stroke by stroke.

use crate::markup::escape;
use kurbo::{BezPath, PathEl, Point, Vec2};
use std::fmt::Write;

/// The text of a drawing under way. Coordinates are drawing units, y down.
#[derive(Default)]
pub(super) struct Canvas {
    svg: String,
}

impl Canvas {
    /// A path with that class.
    pub fn path(&mut self, class: &str, path: &BezPath) {
        let _ = write!(self.svg, "<path class=\"{class}\" d=\"{}\"/>", path_text(path, 2));
    }

    /// Straight strokes, in one path.
    fn strokes(&mut self, class: &str, strokes: &[[Point; 2]]) {
        let mut path = BezPath::new();
        for [from, to] in strokes {
            path.move_to(*from);
            path.line_to(*to);
        }
        self.path(class, &path);
    }

    /// A straight stroke.
    pub fn line(&mut self, class: &str, from: Point, to: Point) {
        self.strokes(class, &[[from, to]]);
    }

    /// Words centred on a point, turned by that many degrees.
    pub fn words(&mut self, class: &str, at: Point, turned: f64, words: &str) {
        let _ = write!(self.svg, "<text class=\"{class}\" x=\"{:.1}\" y=\"{:.1}\"", at.x, at.y);
        if turned != 0.0 {
            let _ = write!(self.svg, " transform=\"rotate({turned:.0} {:.1} {:.1})\"", at.x, at.y);
        }
        let _ = write!(self.svg, ">{}</text>", escape(words));
    }

    /// A dimension between two points, moved sideways by `aside`; its figure stands where there is room.
    pub fn dimension(&mut self, from: Point, to: Point, aside: Vec2, figure: &str) {
        let (a, b) = (from + aside, to + aside);
        let along = b - a;
        if along.hypot() < 1.0 {
            return;
        }
        let tick = (along + aside.normalize() * along.hypot()).normalize() * 4.0;
        let past = aside.normalize() * 3.0;
        self.strokes("extension", &[[from + past, a + past], [to + past, b + past]]);
        self.strokes("dimension", &[[a, b], [a - tick, a + tick], [b - tick, b + tick]]);
        let upright = along.y.abs() > along.x.abs();
        if along.hypot() > 6.5 * figure.chars().count() as f64 {
            let lift = if upright { Vec2::new(-4.0, 0.0) } else { Vec2::new(0.0, -4.0) };
            self.words("figure", a.midpoint(b) + lift, if upright { -90.0 } else { 0.0 }, figure);
        }
    }

    /// SVG text as it is.
    pub fn raw(&mut self, svg: &str) {
        self.svg.push_str(svg);
    }

    /// Opens a group that can be touched.
    pub fn open_part(&mut self, class: &str, key: &str, label: &str) {
        let _ = write!(
            self.svg,
            "<g class=\"{class}\" data-part=\"{key}\" role=\"button\" tabindex=\"0\" aria-label=\"{}\">",
            escape(label)
        );
    }

    /// Closes the group opened last.
    pub fn close(&mut self) {
        self.svg.push_str("</g>");
    }

    /// The whole drawing, `width` by `height` units.
    pub fn finish(self, width: f64, height: f64, label: &str) -> String {
        self.finish_as("drawing", width, height, label)
    }

    /// The same with other classes.
    pub fn finish_as(self, class: &str, width: f64, height: f64, label: &str) -> String {
        format!(
            "<svg class=\"{class}\" xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width:.0} {height:.0}\" role=\"group\" aria-label=\"{}\">{}</svg>",
            escape(label),
            self.svg
        )
    }
}

/// The `d` of a path, with so many decimals.
pub(super) fn path_text(path: &BezPath, decimals: usize) -> String {
    let mut text = String::new();
    for element in path.elements() {
        let (letter, points): (char, &[Point]) = match element {
            PathEl::MoveTo(a) => ('M', &[*a]),
            PathEl::LineTo(a) => ('L', &[*a]),
            PathEl::QuadTo(a, b) => ('Q', &[*a, *b]),
            PathEl::CurveTo(a, b, c) => ('C', &[*a, *b, *c]),
            PathEl::ClosePath => ('Z', &[]),
        };
        text.push(letter);
        for point in points {
            for coordinate in [point.x, point.y] {
                write_rounded(&mut text, coordinate, decimals);
                text.push(' ');
            }
        }
    }
    text
}

/// A coordinate with at most that many decimals: by way of a whole number, which is written much faster, and
/// without the zeros that say nothing.
fn write_rounded(text: &mut String, coordinate: f64, decimals: usize) {
    // A cast to an integer ends at its bounds, far outside of any drawing.
    let scale = 10_i64.pow(decimals as u32);
    let mut whole = (coordinate * scale as f64).round() as i64;
    let mut digits = decimals;
    while digits > 0 && whole % 10 == 0 {
        whole /= 10;
        digits -= 1;
    }
    if digits == 0 {
        let _ = write!(text, "{whole}");
        return;
    }
    let scale = 10_i64.pow(digits as u32);
    let sign = if whole < 0 { "-" } else { "" };
    let _ = write!(text, "{sign}{}.{:0digits$}", (whole / scale).abs(), (whole % scale).abs());
}
