//! The plan of a piece: as installed, or as the form that it is cast in.

use super::canvas::Canvas;
use crate::estimate::PieceEstimate;
use crate::job::{EdgeKind, Side};
use crate::measure::{Length, Units, write_length};
use crate::top::{Outline, Shape};
use kurbo::{Affine, BezPath, Point, Rect, Vec2};
use uom::si::length::meter;

/// Width of every drawing, in drawing units: about a phone's width in CSS pixels.
const WIDTH: f64 = 360.0;
/// Room for words and dimensions around the piece.
const MARGIN: Rect = Rect { x0: 34.0, y0: 28.0, x1: 46.0, y1: 62.0 };
/// A piece deeper than this is drawn smaller, so that the fields below stay in reach.
const DEEPEST: f64 = 250.0;

/// Which way a drawing faces.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Face {
    /// The top as installed, seen from above.
    Installed,
    /// The form seen from above: the face of the top is down, so left and right change places.
    Form,
}

/// A part of a piece that can be touched and has fields of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Part {
    /// Width, depth, thickness.
    Size,
    /// One edge.
    Edge(Side),
    /// One cutout, by its index.
    Cutout(usize),
    /// One set of faucet holes, by its index.
    Holes(usize),
}

impl Part {
    /// A name for it in the drawing: `cutout-0`.
    pub fn key(self) -> String {
        match self {
            Self::Size => "size".to_owned(),
            Self::Edge(side) => format!("edge-{}", side.label().to_lowercase()),
            Self::Cutout(index) => format!("cutout-{index}"),
            Self::Holes(index) => format!("holes-{index}"),
        }
    }

    /// The part with that name.
    pub fn from_key(key: &str) -> Option<Self> {
        let (word, rest) = key.split_once('-').unwrap_or((key, ""));
        match word {
            "size" => Some(Self::Size),
            "edge" => Side::ALL.into_iter().find(|side| side.label().to_lowercase() == rest).map(Self::Edge),
            "cutout" => rest.parse().ok().map(Self::Cutout),
            "holes" => rest.parse().ok().map(Self::Holes),
            _ => None,
        }
    }

    /// The word for it: "Cutout 1".
    pub fn label(self) -> String {
        match self {
            Self::Size => "Size".to_owned(),
            Self::Edge(side) => format!("{} edge", side.label()),
            Self::Cutout(index) => format!("Cutout {}", index + 1),
            Self::Holes(index) => format!("Holes {}", index + 1),
        }
    }
}

/// A finished drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// The SVG element, as text.
    pub svg: String,
    /// Drawing units a metre.
    pub scale: f64,
    /// Width of the drawing in its own units.
    pub width: f64,
    /// Height of the drawing in its own units.
    pub height: f64,
}

/// Where a point of the piece lands on the paper.
struct Paper {
    scale: f64,
    width: f64,
    depth: f64,
    left: f64,
    face: Face,
}

impl Paper {
    fn affine(&self) -> Affine {
        let turned = match self.face {
            Face::Installed => Affine::FLIP_Y.then_translate(Vec2::new(0.0, self.depth)),
            Face::Form => Affine::scale(-1.0).then_translate(Vec2::new(self.width, self.depth)),
        };
        turned.then_scale(self.scale).then_translate(Vec2::new(self.left, MARGIN.y0))
    }

    fn at(&self, x: f64, y: f64) -> Point {
        self.affine() * Point::new(x, y)
    }

    /// The ends of an edge and the way out of the piece across it.
    fn edge(&self, side: Side) -> (Point, Point, Vec2) {
        let (w, d) = (self.width, self.depth);
        let (from, to) = match side {
            Side::Front => ((0.0, 0.0), (w, 0.0)),
            Side::Right => ((w, 0.0), (w, d)),
            Side::Back => ((w, d), (0.0, d)),
            Side::Left => ((0.0, d), (0.0, 0.0)),
        };
        let (from, to) = (self.at(from.0, from.1), self.at(to.0, to.1));
        let middle = self.at(w / 2.0, d / 2.0);
        let across = (to - from).turn_90().normalize();
        let out = if across.dot(from - middle) < 0.0 { -across } else { across };
        (from, to, out)
    }
}

/// Draws a piece; nothing while its width or depth is not known. `selected` is drawn as chosen.
pub fn plan(piece: &PieceEstimate, units: Units, face: Face, selected: Option<Part>) -> Option<Drawing> {
    let Outline { width, depth } = piece.top.outline.as_ref().ok()?;
    let (width, depth) = (width.get::<meter>(), depth.get::<meter>());
    let room = WIDTH - MARGIN.x0 - MARGIN.x1;
    let scale = (room / width).min(DEEPEST / depth);
    if !scale.is_finite() || scale <= 0.0 {
        return None;
    }
    let paper = Paper { scale, width, depth, left: MARGIN.x0 + (room - width * scale) / 2.0, face };
    let mut canvas = Canvas::default();

    let mut body = BezPath::new();
    body.move_to(paper.at(0.0, 0.0));
    for corner in [(width, 0.0), (width, depth), (0.0, depth)] {
        body.line_to(paper.at(corner.0, corner.1));
    }
    body.close_path();
    canvas.path("body", &body);

    for (side, edge) in Side::ALL.into_iter().zip(&piece.top.edges) {
        let kind = edge.as_ref().map_or(EdgeKind::Plain, |edge| edge.kind);
        draw_edge(&mut canvas, &paper, side, kind, selected == Some(Part::Edge(side)));
    }
    for (index, cutout) in piece.top.cutouts.iter().enumerate() {
        if let Ok(shape) = cutout {
            let part = Part::Cutout(index);
            draw_opening(&mut canvas, &paper, part, std::slice::from_ref(shape), selected == Some(part), units);
        }
    }
    for (index, set) in piece.top.holes.iter().enumerate() {
        if let Ok(holes) = set {
            let part = Part::Holes(index);
            draw_opening(&mut canvas, &paper, part, holes, selected == Some(part), units);
        }
    }
    if face == Face::Installed {
        draw_rails(&mut canvas, &paper, piece, units);
    }
    draw_dimensions(&mut canvas, &paper, piece, units);

    let height = MARGIN.y0 + depth * scale + MARGIN.y1;
    let says = match face {
        Face::Installed => "Plan: as installed, seen from above",
        Face::Form => "Form: seen from above, face down, mirror of the plan",
    };
    canvas.words("facing", Point::new(WIDTH / 2.0, height - 4.0), 0.0, says);
    Some(Drawing { svg: canvas.finish(WIDTH, height, says), scale, width: WIDTH, height })
}

fn class_of(base: &str, chosen: bool) -> String {
    if chosen { format!("{base} chosen") } else { base.to_owned() }
}

fn draw_edge(canvas: &mut Canvas, paper: &Paper, side: Side, kind: EdgeKind, chosen: bool) {
    let (from, to, out) = paper.edge(side);
    let label = format!("{} edge: {}", side.label(), kind.label().to_lowercase());
    canvas.open_part(&class_of("edge", chosen), &Part::Edge(side).key(), &label);
    canvas.line("reach", from, to);
    let along = (to - from).normalize();
    let length = (to - from).hypot();
    match kind {
        EdgeKind::Plain => canvas.line("outline", from, to),
        EdgeKind::Wall => {
            canvas.line("outline", from, to);
            let mut hatch = BezPath::new();
            let strokes = (length / 8.0).floor() as usize;
            for stroke in 0..strokes {
                let foot = from + along * (8.0 * stroke as f64 + 4.0);
                hatch.move_to(foot);
                hatch.line_to(foot + out * 9.0 + along * 6.0);
            }
            canvas.path("hatch", &hatch);
        }
        EdgeKind::Lined => {
            let mut rough = BezPath::new();
            rough.move_to(from);
            let teeth = (length / 5.0).floor().max(2.0);
            for tooth in 1..teeth as usize {
                // An uneven row of bites, as a liner leaves them, but the same every time.
                let bite = [0.0, 3.4, 1.0, 2.6, 0.4, 3.0][tooth % 6];
                rough.line_to(from + along * (length * tooth as f64 / teeth) - out * bite);
            }
            rough.line_to(to);
            canvas.path("outline", &rough);
        }
        EdgeKind::Eased => {
            canvas.line("outline", from, to);
            canvas.line("easing", from - out * 4.0 + along * 4.0, to - out * 4.0 - along * 4.0);
        }
    }
    if side == Side::Front || side == Side::Back {
        let word = if side == Side::Front { "FRONT".to_owned() } else { kind.label().to_uppercase() };
        let aside = if side == Side::Front { 13.0 } else { 14.0 };
        let baseline = if out.y > 0.0 { 0.0 } else { 2.0 };
        canvas.words("edge-word", from.midpoint(to) + out * aside + Vec2::new(0.0, baseline), 0.0, &word);
    }
    canvas.close();
}

fn draw_opening(canvas: &mut Canvas, paper: &Paper, part: Part, shapes: &[Shape], chosen: bool, units: Units) {
    let mut path = BezPath::new();
    for shape in shapes {
        path.extend(shape.path().elements().iter().copied());
    }
    path.apply_affine(paper.affine());
    let size = shapes
        .iter()
        .map(Shape::bounds)
        .reduce(|all, one| all.union(one))
        .map_or(String::new(), |all| format!(", {} by {}", bare(all.width(), units), bare(all.height(), units)));
    canvas.open_part(&class_of("opening", chosen), &part.key(), &format!("{}{size}", part.label()));
    canvas.path("cut", &path);
    if let (Part::Cutout(index), [shape]) = (part, shapes) {
        let bounds = shape.bounds();
        let middle = paper.affine() * bounds.center();
        let cross = 5.0;
        canvas.line("centre", middle - Vec2::new(cross, 0.0), middle + Vec2::new(cross, 0.0));
        canvas.line("centre", middle - Vec2::new(0.0, cross), middle + Vec2::new(0.0, cross));
        if bounds.width().min(bounds.height()) * paper.scale > 34.0 {
            canvas.words("cut-word", middle + Vec2::new(0.0, -9.0), 0.0, &format!("{}", index + 1));
        }
    }
    canvas.close();
}

/// Marks the rails that a finding speaks of.
fn draw_rails(canvas: &mut Canvas, paper: &Paper, piece: &PieceEstimate, units: Units) {
    for rail in piece.top.rails.iter().filter(|rail| rail.is_narrow() && rail.width.get::<meter>() > 0.0) {
        let (a, b) = (paper.affine() * rail.at.0, paper.affine() * rail.at.1);
        canvas.line("narrow", a, b);
        let beside = if (b - a).x.abs() > (b - a).y.abs() { Vec2::new(0.0, -5.0) } else { Vec2::new(16.0, 4.0) };
        canvas.words("narrow-figure", a.midpoint(b) + beside, 0.0, &bare(rail.width.get::<meter>(), units));
    }
}

/// One string of centre lines and the whole width below the front; the whole depth at the side.
fn draw_dimensions(canvas: &mut Canvas, paper: &Paper, piece: &PieceEstimate, units: Units) {
    let (w, d) = (paper.width, paper.depth);
    let mut stations = vec![0.0, w];
    stations.extend(piece.top.cutouts.iter().flatten().map(|shape| shape.bounds().center().x));
    stations.retain(|x| (0.0..=w).contains(x));
    stations.sort_by(f64::total_cmp);
    let front = |x: f64| paper.at(x, 0.0);
    if stations.len() > 2 {
        for pair in stations.windows(2) {
            canvas.dimension(front(pair[0]), front(pair[1]), Vec2::new(0.0, 28.0), &bare(pair[1] - pair[0], units));
        }
    }
    let below = if stations.len() > 2 { 43.0 } else { 30.0 };
    canvas.dimension(front(0.0), front(w), Vec2::new(0.0, below), &bare(w, units));
    let right = if paper.face == Face::Installed { w } else { 0.0 };
    canvas.dimension(paper.at(right, 0.0), paper.at(right, d), Vec2::new(30.0, 0.0), &bare(d, units));
}

/// A length as it stands on a drawing: without its unit.
fn bare(metres: f64, units: Units) -> String {
    let written = write_length(Length::new::<meter>(metres), units).text;
    written.trim_end_matches([' ', 'i', 'n', 'm']).to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::estimate::estimate;
    use crate::job::{Cutout, CutoutShape, Entry, Job};
    use crate::price::PriceBook;

    /// 48 by 24 in, one cutout 10 in from the left end.
    fn off_centre() -> PieceEstimate {
        let mut job = Job::new("test", Units::Inch);
        let piece = &mut job.pieces[0];
        piece.width = Entry::new("48");
        piece.depth = Entry::new("24");
        piece.cutouts.push(Cutout {
            shape: CutoutShape::Circle,
            width: Entry::new("12"),
            from_left: Entry::new("10"),
            from_front: Entry::new("12"),
            ..Cutout::default()
        });
        estimate(&job, &PriceBook::default()).pieces.remove(0)
    }

    /// Centre of the cutout on the paper, read back from the drawing's own text: the bounds of its path.
    fn cutout_centre(drawing: &Drawing) -> Point {
        let group = drawing.svg.split("data-part=\"cutout-0\"").nth(1).expect("the cutout is drawn");
        let d = group.split("d=\"").nth(1).and_then(|rest| rest.split('"').next()).expect("it has a path");
        kurbo::Shape::bounding_box(&BezPath::from_svg(d).expect("the path is well formed")).center()
    }

    /// A mirror image by definition: distances from the left end become distances from the right end,
    /// distances from the front stay.
    #[test]
    fn the_form_is_the_plan_mirrored_once() {
        let piece = off_centre();
        let plan_of = |face| plan(&piece, Units::Inch, face, None).expect("the outline is known");
        let (top, form) = (plan_of(Face::Installed), plan_of(Face::Form));
        let (a, b) = (cutout_centre(&top), cutout_centre(&form));
        assert!(a.x < WIDTH / 2.0 && b.x > WIDTH / 2.0, "left of the middle as installed, right of it in the form");
        assert!((a.y - b.y).abs() < 0.05, "the front stays in front");
        let scale_inch = top.scale * 0.0254;
        assert!((b.x - a.x - 28.0 * scale_inch).abs() < 0.05, "48 - 2 x 10 = 28 in apart");
        assert!(form.svg.contains("mirror of the plan") && form.svg.contains("FRONT"), "and it says so");
    }

    #[test]
    fn a_part_is_found_by_its_key() {
        for part in [Part::Size, Part::Edge(Side::Back), Part::Cutout(3), Part::Holes(0)] {
            assert_eq!(Part::from_key(&part.key()), Some(part));
        }
        assert_eq!(Part::from_key("cutout-x"), None);
    }
}
