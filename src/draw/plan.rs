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

/// Where a point of the piece lands on the paper. Lengths in metres but for `scale` and `left`.
struct Paper {
    scale: f64,
    /// The finished outline.
    piece: Rect,
    /// What is dimensioned: the finished outline, or the clear space inside the form.
    frame: Rect,
    /// Everything drawn to scale: the frame, and the boards around it.
    all: Rect,
    left: f64,
    face: Face,
}

impl Paper {
    fn new(piece: Rect, frame: Rect, board: f64, face: Face) -> Option<Self> {
        let all = frame.inflate(board, board);
        let room = WIDTH - MARGIN.x0 - MARGIN.x1;
        let scale = (room / all.width()).min(DEEPEST / all.height());
        let left = MARGIN.x0 + (room - all.width() * scale) / 2.0;
        (scale.is_finite() && scale > 0.0).then_some(Self { scale, piece, frame, all, left, face })
    }

    fn affine(&self) -> Affine {
        let turned = match self.face {
            Face::Installed => Affine::FLIP_Y.then_translate(Vec2::new(-self.all.x0, self.all.y1)),
            Face::Form => Affine::scale(-1.0).then_translate(Vec2::new(self.all.x1, self.all.y1)),
        };
        turned.then_scale(self.scale).then_translate(Vec2::new(self.left, MARGIN.y0))
    }

    fn at(&self, x: f64, y: f64) -> Point {
        self.affine() * Point::new(x, y)
    }

    /// A rectangle of the plane, as a path on the paper.
    fn rect(&self, rect: Rect) -> BezPath {
        let mut path = BezPath::new();
        path.move_to(self.at(rect.x0, rect.y0));
        for corner in [(rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1)] {
            path.line_to(self.at(corner.0, corner.1));
        }
        path.close_path();
        path
    }

    /// The ends of a side of a rectangle, and the way out of it across that side.
    fn side(&self, of: Rect, side: Side) -> (Point, Point, Vec2) {
        let (from, to) = match side {
            Side::Front => ((of.x0, of.y0), (of.x1, of.y0)),
            Side::Right => ((of.x1, of.y0), (of.x1, of.y1)),
            Side::Back => ((of.x1, of.y1), (of.x0, of.y1)),
            Side::Left => ((of.x0, of.y1), (of.x0, of.y0)),
        };
        let (from, to) = (self.at(from.0, from.1), self.at(to.0, to.1));
        let across = (to - from).turn_90().normalize();
        let out = if across.dot(from - self.affine() * of.center()) < 0.0 { -across } else { across };
        (from, to, out)
    }
}

/// The clear space inside the form, and the thickness of its boards; metres. Nothing while the form is
/// not known.
fn clear_space(piece: &PieceEstimate, finished: Rect) -> Option<(Rect, f64)> {
    let form = piece.form.as_ref().ok()?;
    let [front, right, back, left] =
        [0, 1, 2, 3].map(|edge| piece.top.edges[edge].as_ref().map_or(0.0, |edge| edge.liner.get::<meter>()));
    let clear = Rect::new(finished.x0 - left, finished.y0 - front, finished.x1 + right, finished.y1 + back);
    let past = form.sides.iter().find(|board| board.runs_past)?;
    Some((clear, (past.length.get::<meter>() - clear.width()) / 2.0))
}

/// Draws a piece; nothing while its width or depth is not known. `selected` is drawn as chosen.
pub fn plan(piece: &PieceEstimate, units: Units, face: Face, selected: Option<Part>) -> Option<Drawing> {
    let Outline { width, depth } = piece.top.outline.as_ref().ok()?;
    let finished = Rect::new(0.0, 0.0, width.get::<meter>(), depth.get::<meter>());
    let form = if face == Face::Form { clear_space(piece, finished) } else { None };
    let (frame, board) = form.unwrap_or((finished, 0.0));
    let paper = Paper::new(finished, frame, board, face)?;
    let mut canvas = Canvas::default();

    if form.is_some() {
        draw_boards(&mut canvas, &paper, piece, board);
    }
    canvas.path("body", &paper.rect(finished));
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

    let height = MARGIN.y0 + paper.all.height() * paper.scale + MARGIN.y1;
    let says = match face {
        Face::Installed => "Plan: as installed, seen from above",
        Face::Form => "Form: seen from above, face down, mirror of the plan",
    };
    canvas.words("facing", Point::new(WIDTH / 2.0, height - 4.0), 0.0, says);
    Some(Drawing { svg: canvas.finish(WIDTH, height, says), scale: paper.scale, width: WIDTH, height })
}

/// The side boards around the clear space, and the liners inside them.
fn draw_boards(canvas: &mut Canvas, paper: &Paper, piece: &PieceEstimate, board: f64) {
    canvas.path("liner", &paper.rect(paper.frame));
    for part in piece.form.iter().flat_map(|form| &form.sides) {
        let past = if part.runs_past { board } else { 0.0 };
        let clear = paper.frame;
        let rect = match part.side {
            Side::Front => Rect::new(clear.x0 - past, clear.y0 - board, clear.x1 + past, clear.y0),
            Side::Back => Rect::new(clear.x0 - past, clear.y1, clear.x1 + past, clear.y1 + board),
            Side::Left => Rect::new(clear.x0 - board, clear.y0 - past, clear.x0, clear.y1 + past),
            Side::Right => Rect::new(clear.x1, clear.y0 - past, clear.x1 + board, clear.y1 + past),
        };
        canvas.path("board", &paper.rect(rect));
    }
    for side in [Side::Left, Side::Right] {
        let (from, to, out) = paper.side(paper.all, side);
        canvas.words("edge-word", from.midpoint(to) + out * 9.0, -90.0, &side.label().to_uppercase());
    }
}

fn class_of(base: &str, chosen: bool) -> String {
    if chosen { format!("{base} chosen") } else { base.to_owned() }
}

fn draw_edge(canvas: &mut Canvas, paper: &Paper, side: Side, kind: EdgeKind, chosen: bool) {
    let (from, to, out) = paper.side(paper.piece, side);
    // In the form a wall is a plain side like any other.
    let kind = if paper.face == Face::Form && kind == EdgeKind::Wall { EdgeKind::Plain } else { kind };
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
    let (outer_from, outer_to, _) = paper.side(paper.all, side);
    let beside = outer_from.midpoint(outer_to);
    match (side, paper.face) {
        (Side::Front, _) => canvas.words("edge-word", beside + out * 11.0, 0.0, "FRONT"),
        (Side::Back, Face::Form) => canvas.words("edge-word", beside + out * 9.0, 0.0, "BACK"),
        (Side::Back, Face::Installed) => {
            let clear = if kind == EdgeKind::Wall { 16.0 } else { 9.0 };
            canvas.words("edge-word", beside + out * clear, 0.0, &kind.label().to_uppercase());
        }
        (Side::Left | Side::Right, _) => {}
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
    let Rect { x0, y0, x1, y1 } = paper.frame;
    let mut stations = vec![x0, x1];
    stations.extend(piece.top.cutouts.iter().flatten().map(|shape| shape.bounds().center().x));
    stations.retain(|x| (x0..=x1).contains(x));
    stations.sort_by(f64::total_cmp);
    // From the outermost line of the drawing, so that boards and dimensions stay apart.
    let edge = (paper.frame.y0 - paper.all.y0) * paper.scale;
    let front = |x: f64| paper.at(x, y0);
    if stations.len() > 2 {
        for pair in stations.windows(2) {
            let aside = Vec2::new(0.0, edge + 28.0);
            canvas.dimension(front(pair[0]), front(pair[1]), aside, &bare(pair[1] - pair[0], units));
        }
    }
    let below = edge + if stations.len() > 2 { 43.0 } else { 30.0 };
    canvas.dimension(front(x0), front(x1), Vec2::new(0.0, below), &bare(x1 - x0, units));
    let right = if paper.face == Face::Installed { x1 } else { x0 };
    canvas.dimension(paper.at(right, y0), paper.at(right, y1), Vec2::new(edge + 30.0, 0.0), &bare(y1 - y0, units));
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

    /// 48 by 24 in in a form of 3/4 in board, one cutout 10 in from the left end and 8 in from the front.
    fn off_centre() -> PieceEstimate {
        let mut job = Job::new("test", Units::Inch);
        let piece = &mut job.pieces[0];
        piece.width = Entry::new("48");
        piece.depth = Entry::new("24");
        piece.cutouts.push(Cutout {
            shape: CutoutShape::Circle,
            width: Entry::new("12"),
            from_left: Entry::new("10"),
            from_front: Entry::new("8"),
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
        let height = |face| if face == Face::Installed { top.height } else { form.height };
        let from_front =
            |face, y: f64, board: f64, scale: f64| (height(face) - MARGIN.y1 - y) / (scale * 0.0254) - board;
        assert!((from_front(Face::Installed, a.y, 0.0, top.scale) - 8.0).abs() < 0.01, "8 in behind the front");
        assert!((from_front(Face::Form, b.y, 0.75, form.scale) - 8.0).abs() < 0.01, "and the front stays in front");
        let scale_inch = top.scale * 0.0254;
        let from_right_end = form.scale * 0.0254 * 10.0;
        let right_end_in_form = WIDTH - MARGIN.x1 - form.scale * 0.0254 * 0.75;
        assert!((b.x - (right_end_in_form - from_right_end)).abs() < 0.05, "10 in from the left end, now at the right");
        assert!((a.x - (MARGIN.x0 + 10.0 * scale_inch)).abs() < 0.05, "10 in from the left end as installed");
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
