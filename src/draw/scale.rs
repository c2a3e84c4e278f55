//! The outline true to scale, for a cutter or a printer: SVG in real units, one millimetre a millimetre.

use super::canvas::path_text;
use crate::estimate::PieceEstimate;
use crate::plane::Opening;
use kurbo::{Affine, BezPath, Vec2};
use std::fmt::Write;

/// Room around the outline, in millimetres.
const MARGIN: f64 = 10.0;

/// The paths of a piece as installed, seen from above: millimetres, y down, the back left of the outline's
/// bounds at the origin.
pub(super) struct TrueScale {
    pub width: f64,
    pub height: f64,
    /// Each with its name.
    pub paths: Vec<(String, BezPath)>,
    /// What every sheet of it says it is; may be empty.
    pub title: String,
}

impl TrueScale {
    /// The finished outline with its cutouts and holes; nothing while the outline is not known. Parts that
    /// cannot be read yet are left out.
    pub fn of(piece: &PieceEstimate) -> Option<Self> {
        let outline = piece.top.outline.as_ref().ok()?;
        let bounds = outline.bounds();
        let mut paths = vec![("outline".to_owned(), outline.path())];
        for (index, cutout) in piece.top.cutouts.iter().enumerate() {
            if let Ok(cutout) = cutout {
                paths.push((format!("cutout-{}", index + 1), cutout.path()));
            }
        }
        for (index, hole) in piece.top.holes.iter().flatten().flatten().map(Opening::path).enumerate() {
            paths.push((format!("hole-{}", index + 1), hole));
        }
        let onto_paper = Affine::FLIP_Y.then_translate(Vec2::new(-bounds.x0, bounds.y1)).then_scale(1e3);
        for (_, path) in &mut paths {
            path.apply_affine(onto_paper);
        }
        Some(Self { width: bounds.width() * 1e3, height: bounds.height() * 1e3, paths, title: String::new() })
    }
}

/// The finished outline with its cutouts and holes as installed, seen from above; nothing while the outline
/// is not known. Parts that cannot be read yet are left out.
pub fn true_scale(piece: &PieceEstimate) -> Option<String> {
    let drawing = TrueScale::of(piece)?;
    let (width, height) = (drawing.width + 2.0 * MARGIN, drawing.height + 2.0 * MARGIN);
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width:.3}mm\" height=\"{height:.3}mm\" \
         viewBox=\"0 0 {width:.3} {height:.3}\"><title>As installed, seen from above, in millimetres</title>\
         <g fill=\"none\" stroke=\"#000\" stroke-width=\"0.25\">"
    );
    for (name, mut path) in drawing.paths {
        path.apply_affine(Affine::translate((MARGIN, MARGIN)));
        let _ = write!(svg, "<path id=\"{name}\" d=\"{}\"/>", path_text(&path, 3));
    }
    svg.push_str("</g></svg>");
    Some(svg)
}

#[cfg(test)]
mod tests {
    use crate::estimate::estimate;
    use crate::job::{Cutout, CutoutShape, Job, Units};
    use crate::price::PriceBook;
    use kurbo::{BezPath, Shape};

    /// The path with that id.
    fn path(svg: &str, id: &str) -> BezPath {
        let element = svg.split(&format!("id=\"{id}\"")).nth(1).expect("it is drawn");
        let d = element.split("d=\"").nth(1).and_then(|rest| rest.split('"').next()).expect("it has a path");
        BezPath::from_svg(d).expect("the path is well formed")
    }

    /// One inch is 25.4 mm (NIST SP 811 B.8); the rest is subtraction.
    #[test]
    fn a_millimetre_on_paper_is_a_millimetre() {
        let mut job = Job::new("test", Units::Inch);
        job.pieces[0].width = "40".into();
        job.pieces[0].depth = "20".into();
        job.pieces[0].cutouts.push(Cutout {
            shape: CutoutShape::Circle,
            width: "10".into(),
            from_left: "10".into(),
            from_front: "8".into(),
            ..Cutout::default()
        });
        let piece = estimate(&job, &PriceBook::default()).pieces.remove(0);
        let svg = super::true_scale(&piece).expect("the outline is known");
        assert!(svg.contains("width=\"1036.000mm\" height=\"528.000mm\" viewBox=\"0 0 1036.000 528.000\""), "{svg}");
        let outline = path(&svg, "outline").bounding_box();
        assert!((outline.width() - 1016.0).abs() < 0.002 && (outline.height() - 508.0).abs() < 0.002);
        let cutout = path(&svg, "cutout-1").bounding_box();
        assert!((cutout.width() - 254.0).abs() < 0.01, "10 in across: {cutout:?}");
        assert!((cutout.center().x - 10.0 - 254.0).abs() < 0.01, "10 in from the left end");
        assert!((cutout.center().y - 10.0 - (508.0 - 203.2)).abs() < 0.01, "8 in from the front");
    }
}
