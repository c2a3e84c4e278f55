//! The map of a top: tension over what is allowed, in bands that can be told apart without colour.

use super::canvas::{Canvas, path_text};
use crate::strength::ask::MeshOutline;
use crate::strength::cases::{Slab, Support};
use kurbo::{Affine, Circle, Point, Rect, Shape as _};
use std::fmt::Write;

/// Where one band ends and the next begins, as shares of what is allowed: from 1 on it is too much, from 1.5 on it
/// cracks.
pub const BANDS: [f64; 5] = [0.25, 0.5, 0.75, 1.0, 1.5];

/// The words for a band.
pub fn band_words(band: usize) -> &'static str {
    ["under ¼", "to ½", "to ¾", "to the limit", "over it", "cracks"].get(band).copied().unwrap_or("")
}

/// Width of the drawing in its own units, and the space around the top.
const WIDTH: f64 = 360.0;
const ASIDE: f64 = 10.0;
/// Height of the legend.
const LEGEND: f64 = 46.0;
/// A drawing is not higher than this, however deep the top is.
const HIGHEST: f64 = 420.0;

/// A map ready to be drawn.
pub struct Stress<'a> {
    /// The top.
    pub slab: &'a Slab,
    /// What the values stand on.
    pub net: &'a MeshOutline,
    /// Tension over what is allowed, node by node; none where the case has no map.
    pub values: &'a [f32],
    /// What bears it.
    pub supports: &'a [Support],
    /// The worst place, where it lies on this face.
    pub worst: Option<Point>,
}

/// The drawing as SVG text, seen from above as installed.
pub fn stress_map(map: &Stress) -> String {
    let bounds = map.slab.outline.bounds();
    let scale = ((WIDTH - 2.0 * ASIDE) / bounds.width()).min(HIGHEST / bounds.height());
    let place = Affine::new([scale, 0.0, 0.0, -scale, ASIDE - scale * bounds.x0, ASIDE + scale * bounds.y1]);
    let mut canvas = Canvas::default();
    canvas.raw(&hatches());
    for band in 0..=BANDS.len() {
        let mut path = String::new();
        for triangle in &map.net.triangles {
            add_band(&mut path, triangle, map, place, band);
        }
        if !path.is_empty() {
            canvas.raw(&format!("<path class=\"band-{band}\" d=\"{path}\"/>"));
            if band > 0 {
                canvas.raw(&format!("<path fill=\"url(#hatch-{band})\" d=\"{path}\"/>"));
            }
        }
    }
    for support in map.supports {
        canvas.line("bears", place * support.line[0], place * support.line[1]);
    }
    let outlines = map.slab.openings.iter().map(crate::plane::Opening::path);
    for mut path in std::iter::once(map.slab.outline.path()).chain(outlines) {
        path.apply_affine(place);
        canvas.path("rim", &path);
    }
    if let Some(worst) = map.worst {
        canvas.path("worst", &Circle::new(place * worst, 8.0).to_path(0.1));
    }
    let bottom = ASIDE + scale * bounds.height();
    canvas.words("front", Point::new(ASIDE + scale * bounds.width() / 2.0, bottom + 11.0), 0.0, "FRONT");
    legend(&mut canvas, bottom + 18.0);
    canvas.finish_as("drawing stress", WIDTH, bottom + 18.0 + LEGEND, "Pull in the concrete, as a map of the top")
}

/// Six boxes in a row, each with its band and its words.
fn legend(canvas: &mut Canvas, top: f64) {
    let width = (WIDTH - 2.0 * ASIDE) / (BANDS.len() + 1) as f64;
    for band in 0..=BANDS.len() {
        let left = ASIDE + width * band as f64;
        let area = Rect::new(left, top, left + width, top + 16.0);
        let path = path_text(&area.to_path(0.1), 1);
        canvas.raw(&format!("<path class=\"band-{band} boxed\" d=\"{path}\"/>"));
        if band > 0 {
            canvas.raw(&format!("<path fill=\"url(#hatch-{band})\" d=\"{path}\"/>"));
        }
        canvas.words("legend", Point::new(area.center().x, top + 27.0), 0.0, band_words(band));
    }
    canvas.words("legend", Point::new(WIDTH / 2.0, top + 41.0), 0.0, "of the pull that is allowed");
}

/// Hatching of every band but the first: the higher the denser, and crossed where it is too much.
fn hatches() -> String {
    let mut text = String::from("<defs>");
    for (band, step, crossed) in [(1, 9, false), (2, 6, false), (3, 4, false), (4, 6, true), (5, 3, true)] {
        let cross = if crossed { format!("M0 0H{step}") } else { String::new() };
        let _ = write!(
            text,
            "<pattern id=\"hatch-{band}\" width=\"{step}\" height=\"{step}\" patternUnits=\"userSpaceOnUse\" \
             patternTransform=\"rotate(45)\"><path class=\"hatch\" d=\"M0 0V{step}{cross}\"/></pattern>"
        );
    }
    text + "</defs>"
}

/// Adds what of a triangle lies in a band: its values run evenly from corner to corner.
fn add_band(path: &mut String, corners: &[u32; 3], map: &Stress, place: Affine, band: usize) {
    let corner = |node: &u32| {
        let at = map.net.nodes.get(*node as usize)?;
        let value = map.values.get(*node as usize)?;
        Some((place * *at, f64::from(*value)))
    };
    let [a, b, c] = corners;
    let (Some(a), Some(b), Some(c)) = (corner(a), corner(b), corner(c)) else { return };
    let least = band.checked_sub(1).and_then(|under| BANDS.get(under)).copied().unwrap_or(f64::NEG_INFINITY);
    let most = BANDS.get(band).copied().unwrap_or(f64::INFINITY);
    let above = clipped(&[a, b, c], |value| value - least);
    let within = clipped(&above, |value| most - value);
    if within.len() < 3 {
        return;
    }
    for (index, (at, _)) in within.iter().enumerate() {
        let _ = write!(path, "{}{:.1} {:.1}", if index == 0 { 'M' } else { 'L' }, at.x, at.y);
    }
    path.push('Z');
}

/// What of a polygon has a measure of nothing or more.
fn clipped(polygon: &[(Point, f64)], measure: impl Fn(f64) -> f64) -> Vec<(Point, f64)> {
    let mut found = Vec::with_capacity(polygon.len() + 1);
    let next = polygon.iter().cycle().skip(1);
    for (from, to) in polygon.iter().zip(next) {
        let (start, end) = (measure(from.1), measure(to.1));
        if start >= 0.0 {
            found.push(*from);
        }
        if (start >= 0.0) != (end >= 0.0) {
            let share = start / (start - end);
            found.push((from.0.lerp(to.0, share), from.1 + share * (to.1 - from.1)));
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::exact::inches;
    use crate::plane::Outline;

    /// A square of two triangles whose value runs from 0 at its left to 2 at its right.
    fn drawn(values: &[f32]) -> String {
        let side = 1.0;
        let slab = Slab {
            outline: Outline::rectangle(side, side).expect("a square"),
            openings: Vec::new(),
            cutouts: 0,
            thickness: inches(2.0),
        };
        let nodes = [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)].map(Point::from).to_vec();
        let net = MeshOutline { nodes, triangles: vec![[0, 1, 2], [0, 2, 3]] };
        stress_map(&Stress { slab: &slab, net: &net, values, supports: &[], worst: None })
    }

    /// Area of the polygons of a band in a drawing, by the shoelace formula.
    fn area(svg: &str, band: usize) -> f64 {
        let class = format!("<path class=\"band-{band}\" d=\"");
        let Some((_, rest)) = svg.split_once(&class) else { return 0.0 };
        let text = rest.split('"').next().unwrap_or_default();
        let shoelace = |polygon: &str| {
            let points: Vec<(f64, f64)> = polygon
                .split(['M', 'L'])
                .filter_map(|point| point.split_once(' '))
                .map(|(x, y)| (x.parse().expect("a number"), y.parse().expect("a number")))
                .collect();
            let next = points.iter().cycle().skip(1);
            points.iter().zip(next).map(|(a, b)| a.0 * b.1 - b.0 * a.1).sum::<f64>() / 2.0
        };
        text.split('Z').map(|polygon| shoelace(polygon).abs()).sum()
    }

    #[test]
    fn bands_take_their_share_of_the_top_and_leave_nothing_out() {
        let svg = drawn(&[0.0, 2.0, 2.0, 0.0]);
        let whole = (WIDTH - 2.0 * ASIDE).powi(2);
        let shares = [0.125, 0.125, 0.125, 0.125, 0.25, 0.25];
        for (band, share) in shares.into_iter().enumerate() {
            assert!((area(&svg, band) / whole - share).abs() < 1e-3, "band {band}");
        }
    }

    #[test]
    fn what_has_no_value_is_not_coloured() {
        let svg = drawn(&[]);
        assert!((0..6).all(|band| area(&svg, band) == 0.0), "on edge there is no map");
        let nan = drawn(&[f32::NAN; 4]);
        assert!(!nan.contains("NaN") && (0..6).all(|band| area(&nan, band) == 0.0));
    }

    #[test]
    fn every_band_has_a_hatching_of_its_own() {
        let svg = drawn(&[0.0, 2.0, 2.0, 0.0]);
        let patterns: Vec<&str> =
            svg.split("<pattern ").skip(1).map(|text| &text[14..text.find("</pattern>").unwrap_or(0)]).collect();
        assert_eq!(patterns.len(), BANDS.len());
        for (index, pattern) in patterns.iter().enumerate() {
            assert!(patterns.iter().skip(index + 1).all(|other| other != pattern), "{pattern}");
        }
    }
}
