//! The outline for a cutting machine: DXF of release 12 (AC1009), text, millimetres, y up, the front left of
//! the outline's bounds at the origin.
//!
//! It is the oldest that is still in use, and the most widely read. It has no place for units: `$INSUNITS` came later, so a comment
//! names them. Lines and arcs are exact, as polylines whose corners carry the bulge of the edge that starts
//! there; a round opening is a circle. The release has no ellipse: one is drawn as straight chords.

use crate::estimate::PieceEstimate;
use crate::plane::{Opening, Outline};
use kurbo::{PathEl, Point, Vec2};
use std::fmt::{Display, Write};

/// How far the chords of an ellipse may lie from it, in metres; with the 0.001 mm of the path itself that
/// makes 0.01 mm.
const CHORDS_WITHIN: f64 = 9e-6;

/// Two edges of a circle agree on its centre and radius this closely, in metres.
const SAME: f64 = 1e-9;

const LAYERS: [&str; 3] = ["OUTLINE", "CUTOUTS", "HOLES"];

/// The finished outline with its cutouts and holes as installed, seen from above, on the layers `OUTLINE`,
/// `CUTOUTS` and `HOLES`; nothing while the outline is not known. Parts that cannot be read yet are left out.
pub fn dxf(piece: &PieceEstimate) -> Option<String> {
    let outline = piece.top.outline.as_ref().ok()?;
    let bounds = outline.bounds();
    let mut file = File { text: String::new(), origin: Vec2::new(bounds.x0, bounds.y0) };
    file.group(999, "Millimetres. As installed, seen from above. Front left at 0,0.");
    file.group(0, "SECTION").group(2, "HEADER").group(9, "$ACADVER").group(1, "AC1009");
    file.group(9, "$EXTMIN").place(Point::new(bounds.x0, bounds.y0));
    file.group(9, "$EXTMAX").place(Point::new(bounds.x1, bounds.y1));
    file.group(0, "ENDSEC").group(0, "SECTION").group(2, "TABLES");
    // Layers name their line type, so it has to be there.
    file.group(0, "TABLE").group(2, "LTYPE").group(70, 1);
    file.group(0, "LTYPE").group(2, "CONTINUOUS").group(70, 0).group(3, "Solid line").group(72, 65);
    file.group(73, 0).group(40, "0.0").group(0, "ENDTAB");
    file.group(0, "TABLE").group(2, "LAYER").group(70, LAYERS.len());
    for layer in LAYERS {
        file.group(0, "LAYER").group(2, layer).group(70, 0).group(62, 7).group(6, "CONTINUOUS");
    }
    file.group(0, "ENDTAB").group(0, "ENDSEC").group(0, "SECTION").group(2, "ENTITIES");
    let [outlines, cutouts, holes] = LAYERS;
    file.outline(outlines, outline);
    for cutout in piece.top.cutouts.iter().flatten() {
        file.opening(cutouts, cutout);
    }
    for hole in piece.top.holes.iter().flatten().flatten() {
        file.opening(holes, hole);
    }
    file.group(0, "ENDSEC").group(0, "EOF");
    Some(file.text)
}

struct File {
    text: String,
    /// Where the drawing's origin lies in the plane; metres.
    origin: Vec2,
}

impl File {
    /// A group: a code that says what the value is, and the value, each on its own line.
    fn group(&mut self, code: u16, value: impl Display) -> &mut Self {
        let _ = write!(self.text, "{code:>3}\r\n{value}\r\n");
        self
    }

    /// A length, metres; written to a millionth of a micrometre.
    fn length(&mut self, code: u16, metres: f64) -> &mut Self {
        self.group(code, format_args!("{:.9}", metres * 1e3))
    }

    fn place(&mut self, at: Point) -> &mut Self {
        let at = at - self.origin;
        self.length(10, at.x).length(20, at.y).length(30, 0.0)
    }

    fn opening(&mut self, layer: &str, opening: &Opening) {
        match opening {
            Opening::Outline(outline) => match circle(outline) {
                Some((center, radius)) => {
                    self.group(0, "CIRCLE").group(8, layer).place(center).length(40, radius);
                }
                None => self.outline(layer, outline),
            },
            Opening::Ellipse(ellipse) => {
                let mut corners = Vec::new();
                kurbo::flatten(ellipse.path(), CHORDS_WITHIN, |element| {
                    if let PathEl::MoveTo(at) | PathEl::LineTo(at) = element {
                        corners.push((at, 0.0));
                    }
                });
                // The last point is the first one again; the polyline closes itself.
                corners.pop();
                self.polyline(layer, &corners);
            }
        }
    }

    fn outline(&mut self, layer: &str, outline: &Outline) {
        let corners: Vec<_> = outline.vertices().iter().map(|vertex| (vertex.at, vertex.bulge)).collect();
        self.polyline(layer, &corners);
    }

    /// A closed polyline through these corners, each with the bulge of the edge that starts there.
    fn polyline(&mut self, layer: &str, corners: &[(Point, f64)]) {
        let whole = Vec2::ZERO.to_point() + self.origin;
        self.group(0, "POLYLINE").group(8, layer).group(66, 1).place(whole).group(70, 1);
        for (at, bulge) in corners {
            self.group(0, "VERTEX").group(8, layer).place(*at);
            if *bulge != 0.0 {
                self.group(42, format_args!("{bulge:.15}"));
            }
        }
        self.group(0, "SEQEND").group(8, layer);
    }
}

/// Centre and radius of an outline that is one whole circle.
fn circle(outline: &Outline) -> Option<(Point, f64)> {
    let mut parts = outline.edges().iter().map(|edge| edge.center().zip(edge.radius()));
    let (center, radius) = parts.next()??;
    let same = |part: Option<(Point, f64)>| {
        part.is_some_and(|(other, size)| (other - center).hypot() < SAME && (size - radius).abs() < SAME)
    };
    parts.all(same).then_some((center, radius))
}

#[cfg(test)]
mod tests {
    use crate::estimate::{PieceEstimate, estimate};
    use crate::job::{CornerKind, Cutout, CutoutShape, HolePattern, Holes, Job, OutlineShape, Units};
    use crate::plane::Opening;
    use crate::price::PriceBook;
    use std::f64::consts::PI;
    use std::sync::Arc;

    /// An L with a round corner, a D and an ellipse cut out, and a hole.
    fn piece() -> Arc<PieceEstimate> {
        let mut job = Job::new("test", Units::Inch);
        let piece = &mut job.pieces[0];
        piece.shape = OutlineShape::L;
        piece.width = "84".into();
        piece.depth = "60".into();
        piece.leg = "25 1/2".into();
        piece.front_depth = "25 1/2".into();
        piece.corner_mut(1).kind = CornerKind::Rounded;
        piece.corner_mut(1).radius = "4".into();
        let cutout = |shape, from_left: &str, from_front: &str| Cutout {
            shape,
            width: "16".into(),
            depth: "12".into(),
            corner_radius: "1".into(),
            from_left: from_left.into(),
            from_front: from_front.into(),
            ..Cutout::default()
        };
        piece.cutouts = vec![cutout(CutoutShape::D, "60", "48"), cutout(CutoutShape::Ellipse, "12", "20")];
        piece.holes = vec![Holes {
            pattern: HolePattern::Single,
            diameter: "1 3/8".into(),
            from_left: "40".into(),
            from_front: "50".into(),
            ..Holes::default()
        }];
        estimate(&job, &PriceBook::default()).pieces.remove(0)
    }

    /// The entities of a file: kind, and groups of code and value. A reader that knows the layout of groups
    /// and nothing of what wrote them.
    fn entities(text: &str) -> Vec<(String, Vec<(u16, String)>)> {
        let lines: Vec<_> = text.lines().map(str::trim).collect();
        assert_eq!(lines.len() % 2, 0, "a code and a value each");
        let mut all: Vec<(String, Vec<(u16, String)>)> = Vec::new();
        for pair in lines.chunks(2) {
            let code: u16 = pair[0].parse().expect("a code");
            if code == 0 {
                all.push((pair[1].to_owned(), Vec::new()));
            } else if let Some((_, groups)) = all.last_mut() {
                groups.push((code, pair[1].to_owned()));
            }
        }
        let begin = all.iter().position(|(_, groups)| groups.iter().any(|(_, value)| value == "ENTITIES"));
        let all = all.split_off(begin.expect("entities") + 1);
        let end = all.iter().position(|(kind, _)| kind == "ENDSEC").expect("an end");
        all[..end].to_vec()
    }

    fn number(groups: &[(u16, String)], code: u16) -> f64 {
        let found = groups.iter().find(|(other, _)| *other == code);
        found.map_or(0.0, |(_, value)| value.parse().expect("a number"))
    }

    /// Layer and area of each polyline, by the trapezoids under its chords and the segments on them: a bulge
    /// is the tangent of a quarter of the arc's angle (the format's own definition).
    fn polylines(text: &str) -> Vec<(String, f64)> {
        let mut found: Vec<(String, Vec<[f64; 3]>)> = Vec::new();
        for (kind, groups) in entities(text) {
            match kind.as_str() {
                "POLYLINE" => {
                    assert_eq!(number(&groups, 70), 1.0, "it is closed");
                    let layer = groups.iter().find(|(code, _)| *code == 8).expect("a layer");
                    found.push((layer.1.clone(), Vec::new()));
                }
                "VERTEX" => {
                    let (_, corners) = found.last_mut().expect("a polyline before its corners");
                    corners.push([number(&groups, 10), number(&groups, 20), number(&groups, 42)]);
                }
                _ => {}
            }
        }
        let area = |corners: &[[f64; 3]]| -> f64 {
            let next = corners.iter().cycle().skip(1);
            let part = |([x, y, bulge], [to_x, to_y, _]): (&[f64; 3], &[f64; 3])| {
                let chord = (to_x - x).hypot(to_y - y);
                let angle = 4.0 * bulge.atan();
                let radius = if *bulge == 0.0 { 0.0 } else { chord / (2.0 * (angle / 2.0).sin()) };
                (x * to_y - to_x * y) / 2.0 + radius * radius * (angle - angle.sin()) / 2.0
            };
            corners.iter().zip(next).map(part).sum()
        };
        found.into_iter().map(|(layer, corners)| (layer, area(&corners))).collect()
    }

    #[test]
    fn what_is_cut_is_what_was_drawn() {
        let piece = piece();
        let text = super::dxf(&piece).expect("the outline is known");
        let [outline, d, ellipse] = polylines(&text).try_into().expect("three polylines");
        assert_eq!([&*outline.0, &*d.0, &*ellipse.0], ["OUTLINE", "CUTOUTS", "CUTOUTS"]);
        // The area of the L is 3021.75 in² (shapely 2.2.0); a corner of radius r takes (1 − π/4) r² of it; an
        // inch is 25.4 mm (NIST SP 811 B.8).
        let expected = (3021.75 - (1.0 - PI / 4.0) * 16.0) * 25.4 * 25.4;
        assert!((outline.1 / expected - 1.0).abs() < 1e-9, "{} and {expected} mm²", outline.1);
        let own = piece.top.outline.as_ref().expect("an outline").area() * 1e6;
        assert!((outline.1 - own).abs() < 1e-6 * own, "{} and {own} mm²", outline.1);
        let Ok(Opening::Outline(cutout)) = &piece.top.cutouts[0] else { panic!("lines and arcs") };
        assert!((d.1 / (cutout.area() * 1e6) - 1.0).abs() < 1e-9, "{}", d.1);
        // π a b; chords inside by at most 0.01 mm lose at most that much along the whole length.
        let exact = PI * 8.0 * 6.0 * 25.4 * 25.4;
        let lost = exact - ellipse.1;
        assert!(lost.abs() < 0.01 * PI * 16.0 * 25.4, "{} and {exact} mm²", ellipse.1);
    }

    #[test]
    fn a_hole_is_a_circle_of_its_very_size_in_its_place() {
        let text = super::dxf(&piece()).expect("the outline is known");
        let all = entities(&text);
        let circles: Vec<_> = all.iter().filter(|(kind, _)| kind == "CIRCLE").collect();
        let [(_, hole)] = circles[..] else { panic!("one hole: {circles:?}") };
        assert!(hole.contains(&(8, "HOLES".to_owned())));
        // 1 3/8 in across, 40 in from the left and 50 in from the front; 25.4 mm an inch.
        assert_eq!([number(hole, 40) * 2.0, number(hole, 10), number(hole, 20)], [34.925, 1016.0, 1270.0]);
    }

    #[test]
    fn an_outline_that_is_not_known_is_no_file() {
        let job = Job::new("test", Units::Inch);
        assert_eq!(super::dxf(&estimate(&job, &PriceBook::default()).pieces[0]), None);
    }
}
