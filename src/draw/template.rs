//! What is marked out at full size: knockouts, and corners that are not simply square. All are seen as the form
//! is, face down: the mirror of the plan.

use super::scale::TrueScale;
use crate::estimate::PieceEstimate;
use crate::form::Form;
use crate::job::Piece;
use crate::plane::{Edge, EdgeTag, Outline};
use kurbo::{Affine, BezPath, Line, Point, Rect, Shape, Vec2};
use std::f64::consts::FRAC_PI_2;

/// How far the sides run on from a corner, in metres.
const ARM: f64 = 0.15;
/// Chords of an arc: off by under 0.2 mm where it turns through a right angle at 1 m.
const CHORDS: u32 = 64;
/// Corners that differ less from square need no template.
const SQUARE: f64 = 0.000_9;

/// The templates of a piece, each a drawing of its own.
pub(super) fn templates(piece: &PieceEstimate, typed: &Piece) -> Vec<TrueScale> {
    let knockouts = piece.knockouts.cutouts.iter().flatten().map(|knockout| {
        let mut paths = vec![("foot".to_owned(), knockout.foot.path())];
        if knockout.head != knockout.foot {
            paths.push(("head".to_owned(), knockout.head.path()));
        }
        let bounds = knockout.foot.bounds();
        paths.push(("centre".to_owned(), cross(bounds)));
        face_down(format!("Knockout K{}, as the form is seen, face down", knockout.cutout + 1), paths)
    });
    let corners = piece.form.iter().flat_map(|form| corners(form, typed));
    knockouts.chain(corners).collect()
}

/// The centre lines of a rectangle.
fn cross(bounds: Rect) -> BezPath {
    let middle = bounds.center();
    let mut path = Line::new((bounds.x0, middle.y), (bounds.x1, middle.y)).to_path(0.1);
    path.extend(Line::new((middle.x, bounds.y0), (middle.x, bounds.y1)).to_path(0.1).elements().iter().copied());
    path
}

/// Paths of the plan as they lie in the form, in millimetres from the back left of what they cover.
fn face_down(title: String, mut paths: Vec<(String, BezPath)>) -> TrueScale {
    let bounds = paths.iter().map(|(_, path)| path.bounding_box()).reduce(|all, one| all.union(one));
    let bounds = bounds.unwrap_or(Rect::ZERO);
    let onto_paper = Affine::scale(-1.0).then_translate(Vec2::new(bounds.x1, bounds.y1)).then_scale(1e3);
    for (_, path) in &mut paths {
        path.apply_affine(onto_paper);
    }
    TrueScale { width: bounds.width() * 1e3, height: bounds.height() * 1e3, paths, title }
}

/// Every corner of the clear outline that is rounded, clipped or out of square.
fn corners(form: &Form, typed: &Piece) -> Vec<TrueScale> {
    let clear = &form.clear;
    let edges = clear.edges();
    let mut found = Vec::new();
    for (index, edge) in edges.iter().enumerate() {
        let name = |side: u16| typed.corner_name(usize::from(side)).to_lowercase();
        let before = &edges[clear.before(index)];
        let (path, side) = match edge.tag() {
            EdgeTag::Corner(_, side) | EdgeTag::Clip(_, side) => {
                let after = &edges[clear.after(index)];
                (around(before, Some(edge), after), side)
            }
            EdgeTag::Side(side) if matches!(before.tag(), EdgeTag::Side(_)) && is_skew(clear, index) => {
                (around(before, None, edge), side)
            }
            _ => continue,
        };
        let title = format!("The {} inside the form, as the form is seen, face down", name(side));
        found.push(face_down(title, vec![("corner".to_owned(), path)]));
    }
    found
}

fn is_skew(clear: &Outline, vertex: usize) -> bool {
    let angle = clear.interior_angle(vertex);
    (angle - FRAC_PI_2).abs() > SQUARE && (angle - 3.0 * FRAC_PI_2).abs() > SQUARE
}

/// The end of one side, what is done to the corner, and the start of the next side.
fn around(before: &Edge, corner: Option<&Edge>, after: &Edge) -> BezPath {
    let share = |edge: &Edge| (ARM / edge.length()).min(1.0);
    let mut points: Vec<Point> = along(before, 1.0 - share(before), 1.0);
    points.extend(corner.iter().flat_map(|corner| along(corner, 0.0, 1.0)));
    points.extend(along(after, 0.0, share(after)));
    let mut path = BezPath::new();
    for (index, point) in points.into_iter().enumerate() {
        if index == 0 { path.move_to(point) } else { path.line_to(point) }
    }
    path
}

fn along(edge: &Edge, from: f64, to: f64) -> Vec<Point> {
    let chords = if edge.is_straight() { 1 } else { CHORDS };
    (0..=chords).map(|chord| edge.point_at(from + (to - from) * f64::from(chord) / f64::from(chords))).collect()
}

#[cfg(test)]
mod tests {
    use super::templates;
    use crate::estimate::estimate;
    use crate::job::{Corner, CornerKind, Cutout, CutoutShape, Edge, EdgeKind, Job, TemplateCorner, Units};
    use crate::price::PriceBook;
    use kurbo::{ParamCurve, Shape};

    /// A clipped corner at the right, and a triangle with its square corner at the left in front: in the form they
    /// change sides, and the front stays in front. By definition of a mirror image.
    #[test]
    fn templates_are_seen_face_down() {
        let mut job = Job::new("test", Units::Inch);
        let piece = &mut job.pieces[0];
        piece.width = "48".into();
        piece.depth = "24".into();
        *piece.edge_mut(0) = Edge { kind: EdgeKind::Lined, liner: "3/4".into(), ..Edge::default() };
        *piece.corner_mut(1) =
            Corner { kind: CornerKind::Clipped, before: "4".into(), after: "3".into(), ..Corner::default() };
        let corner = |from_left: &str, from_front: &str| TemplateCorner {
            from_left: from_left.into(),
            from_front: from_front.into(),
            radius: "".into(),
        };
        piece.cutouts.push(Cutout {
            shape: CutoutShape::Polygon,
            template: vec![corner("0", "0"), corner("10", "0"), corner("0", "8")],
            from_left: "20".into(),
            from_front: "12".into(),
            ..Cutout::default()
        });
        let made = estimate(&job, &PriceBook::default());
        let drawings = templates(&made.pieces[0], &job.pieces[0]);
        assert_eq!(drawings.len(), 2, "one knockout, one corner");
        let knockout = &drawings[0];
        assert!((knockout.width - 254.0).abs() < 1e-6 && (knockout.height - 203.2).abs() < 1e-6);
        // Its square corner is at the left and in front in the plan: at the right in the form.
        let foot = &knockout.paths[0].1;
        assert!(foot.contains((250.0, 190.0).into()) && !foot.contains((4.0, 20.0).into()));
        let corner = &drawings[1].paths[0].1;
        let start = corner.segments().next().expect("a line").start();
        let end = corner.segments().last().expect("a line").end();
        assert!(start.x > end.x, "counter-clockwise in the plan, the other way in the form");
        assert!((start.y - drawings[1].height).abs() < 1e-6, "the front lies in front");
        assert!(drawings[1].title.contains("front / right corner"), "{}", drawings[1].title);
    }
}
