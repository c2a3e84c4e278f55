//! The plan of a piece: as installed, or as the form that it is cast in.

use super::boards::{draw_boards, draw_marks};
use super::canvas::Canvas;
use super::steel::draw_steel;
use super::walls::{draw_walls, draw_way, hatch};
use crate::estimate::{Cast, PieceEstimate};
use crate::job::{EdgeKind, Job, OutlineShape, Piece};
use crate::measure::{Length, Units, write_length};
use crate::plane::{Edge, EdgeTag, Opening, Outline};
use crate::top::{Seaming, Surveyed};
use kurbo::{Affine, BezPath, Point, Rect, Vec2};
use uom::si::length::meter;

/// Width of every drawing, in drawing units: about a phone's width in CSS pixels.
const WIDTH: f64 = 360.0;
/// Room for words and dimensions around the piece.
const MARGIN: Rect = Rect { x0: 34.0, y0: 28.0, x1: 56.0, y1: 62.0 };
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
pub enum Selection {
    /// Width, depth, thickness.
    Size,
    /// The edge on one side, by its number.
    Edge(usize),
    /// The corner where a side begins, by its number.
    Corner(usize),
    /// One cutout, by its index.
    Cutout(usize),
    /// One set of faucet holes, by its index.
    Holes(usize),
    /// One part of the form, by its index among them.
    Board(usize),
}

impl Selection {
    /// A name for it in the drawing: `cutout-0`.
    pub fn key(self) -> String {
        match self {
            Self::Size => "size".to_owned(),
            Self::Edge(side) => format!("edge-{side}"),
            Self::Corner(side) => format!("corner-{side}"),
            Self::Cutout(index) => format!("cutout-{index}"),
            Self::Holes(index) => format!("holes-{index}"),
            Self::Board(index) => format!("board-{index}"),
        }
    }

    /// The part with that name.
    pub fn from_key(key: &str) -> Option<Self> {
        let (word, rest) = key.split_once('-').unwrap_or((key, ""));
        match word {
            "size" => Some(Self::Size),
            "edge" => rest.parse().ok().map(Self::Edge),
            "corner" => rest.parse().ok().map(Self::Corner),
            "cutout" => rest.parse().ok().map(Self::Cutout),
            "holes" => rest.parse().ok().map(Self::Holes),
            "board" => rest.parse().ok().map(Self::Board),
            _ => None,
        }
    }

    /// The word for it, as a part of that piece: "Cutout 1".
    pub fn label(self, piece: &Piece) -> String {
        match self {
            Self::Size => "Size".to_owned(),
            Self::Edge(side) => format!("{} edge", piece.side_name(side)),
            Self::Corner(side) => piece.corner_name(side),
            Self::Cutout(index) => format!("Cutout {}", index + 1),
            Self::Holes(index) => format!("Holes {}", index + 1),
            Self::Board(index) => format!("Selection {}", index + 1),
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
pub(super) struct Paper {
    pub(super) scale: f64,
    /// What is dimensioned: the finished outline, or the clear space inside the form.
    frame: Rect,
    /// Everything drawn to scale: the frame, and the boards around it.
    all: Rect,
    left: f64,
    face: Face,
}

impl Paper {
    fn new(frame: Rect, board: f64, face: Face) -> Option<Self> {
        let all = frame.inflate(board, board);
        let room = WIDTH - MARGIN.x0 - MARGIN.x1;
        let scale = (room / all.width()).min(DEEPEST / all.height());
        let left = MARGIN.x0 + (room - all.width() * scale) / 2.0;
        (scale.is_finite() && scale > 0.0).then_some(Self { scale, frame, all, left, face })
    }

    fn affine(&self) -> Affine {
        let turned = match self.face {
            Face::Installed => Affine::FLIP_Y.then_translate(Vec2::new(-self.all.x0, self.all.y1)),
            Face::Form => Affine::scale(-1.0).then_translate(Vec2::new(self.all.x1, self.all.y1)),
        };
        turned.then_scale(self.scale).then_translate(Vec2::new(self.left, MARGIN.y0))
    }

    pub(super) fn at(&self, point: Point) -> Point {
        self.affine() * point
    }

    /// A direction of the plane on the paper, of length one.
    pub(super) fn towards(&self, direction: Vec2) -> Vec2 {
        (self.at(Point::ORIGIN + direction) - self.at(Point::ORIGIN)).normalize()
    }

    pub(super) fn path(&self, mut path: BezPath) -> BezPath {
        path.apply_affine(self.affine());
        path
    }
}

/// The plan of a job's first piece as it is installed, as a picture: SVG in which nothing can be pressed. Nothing where
/// there is not enough to draw one.
pub fn picture(job: &Job) -> Option<String> {
    let typed = job.pieces.first()?;
    let alone = Job { pieces: vec![typed.clone()], ..job.clone() };
    let drawing = plan(Cast::of(&alone).pieces.first()?, typed, job.units, Face::Installed, None)?;
    Some(drawing.svg.replace("role=\"button\" tabindex=\"0\" ", ""))
}

/// Draws a piece; nothing while its outline is not known. `selected` is drawn as chosen.
pub fn plan(
    piece: &PieceEstimate,
    typed: &Piece,
    units: Units,
    face: Face,
    selected: Option<Selection>,
) -> Option<Drawing> {
    let outline = piece.top.outline.as_ref().ok()?;
    let form = if face == Face::Form { piece.form.as_ref().ok() } else { None };
    let frame = form.map_or_else(|| outline.bounds(), |form| form.clear.bounds());
    let paper = Paper::new(frame, form.map_or(0.0, |form| form.board.get::<meter>()), face)?;
    let mut canvas = Canvas::default();

    if face == Face::Form {
        draw_boards(&mut canvas, &paper, piece, typed, selected);
    }
    canvas.path("body", &paper.path(outline.path()));
    for edge in outline.edges() {
        draw_edge(&mut canvas, &paper, piece, typed, edge, selected);
    }
    for (index, cutout) in piece.top.cutouts.iter().enumerate() {
        if let Ok(shape) = cutout {
            let part = Selection::Cutout(index);
            draw_opening(&mut canvas, &paper, part, typed, std::slice::from_ref(shape), selected == Some(part), units);
        }
    }
    for (index, set) in piece.top.holes.iter().enumerate() {
        if let Ok(holes) = set {
            let part = Selection::Holes(index);
            draw_opening(&mut canvas, &paper, part, typed, holes, selected == Some(part), units);
        }
    }
    if face == Face::Form {
        draw_steel(&mut canvas, &paper, piece);
        draw_marks(&mut canvas, &paper, piece, selected);
    }
    if face == Face::Installed {
        draw_rails(&mut canvas, &paper, piece, typed, units);
        draw_seams(&mut canvas, &paper, piece, units);
    }
    if face == Face::Installed {
        draw_corners(&mut canvas, &paper, typed, outline, selected);
    }
    // In the form the cut list says how long every side is.
    if typed.shape != OutlineShape::Rectangle && face == Face::Installed {
        draw_sides(&mut canvas, &paper, outline, units);
    }
    draw_words(&mut canvas, &paper, piece, outline);
    draw_dimensions(&mut canvas, &paper, piece, units);
    let mut height = MARGIN.y0 + paper.all.height() * paper.scale + MARGIN.y1;
    if let (Face::Installed, Some(surveyed)) = (face, surveyed(piece)) {
        draw_walls(&mut canvas, &paper, outline, surveyed, units);
        if let Ok(ways) = &surveyed.ways {
            let way = draw_way(&mut canvas, &paper, outline, ways, units);
            canvas.words("way-word", Point::new(WIDTH / 2.0, height - 2.0), 0.0, &way);
            height += 14.0;
        }
    }

    let says = match face {
        Face::Installed => "Plan: as installed, seen from above",
        Face::Form => "Form: seen from above, face down, mirror of the plan",
    };
    canvas.words("facing", Point::new(WIDTH / 2.0, height - 4.0), 0.0, says);
    Some(Drawing { svg: canvas.finish(WIDTH, height, says), scale: paper.scale, width: WIDTH, height })
}

/// The opening that the piece was measured into, once it is solved.
fn surveyed(piece: &PieceEstimate) -> Option<&Surveyed> {
    piece.top.surveyed.as_ref()?.as_ref().ok()
}

fn class_of(base: &str, chosen: bool) -> String {
    if chosen { format!("{base} chosen") } else { base.to_owned() }
}

/// What an edge of the outline is: the kind of its side. A rounded corner is plain.
fn kind_of(piece: &PieceEstimate, edge: &Edge) -> EdgeKind {
    let EdgeTag::Side(side) = edge.tag() else { return EdgeKind::Plain };
    match piece.top.edges.get(usize::from(side)) {
        Some(Ok(profile)) => profile.kind,
        _ => EdgeKind::Plain,
    }
}

fn draw_edge(
    canvas: &mut Canvas,
    paper: &Paper,
    piece: &PieceEstimate,
    typed: &Piece,
    edge: &Edge,
    selected: Option<Selection>,
) {
    // In the form a wall is a plain side like any other.
    let kind = match kind_of(piece, edge) {
        EdgeKind::Wall | EdgeKind::Backsplash if paper.face == Face::Form => EdgeKind::Plain,
        kind => kind,
    };
    let part = match edge.tag() {
        EdgeTag::Side(side) => Selection::Edge(usize::from(side)),
        EdgeTag::Corner(_, side) | EdgeTag::Clip(_, side) | EdgeTag::Step(_, side) => {
            Selection::Corner(usize::from(side))
        }
    };
    let label = format!("{}: {}", part.label(typed), kind.label().to_lowercase());
    canvas.open_part(&class_of("edge", selected == Some(part)), &part.key(), &label);
    let length = edge.length() * paper.scale;
    // A point of the edge, so far along it, and the way out of the piece there.
    let at = |share: f64| (paper.at(edge.point_at(share)), paper.towards(edge.normal_at(share)));
    let inside = |share: f64, by: f64| {
        let (point, out) = at(share);
        point - out * by
    };
    let polyline = |offsets: &dyn Fn(usize) -> f64, steps: usize| {
        let mut path = BezPath::new();
        path.move_to(inside(0.0, offsets(0)));
        for step in 1..=steps {
            path.line_to(inside(step as f64 / steps as f64, offsets(step)));
        }
        path
    };
    let smooth = if edge.is_straight() { 1 } else { (length / 4.0).ceil().clamp(4.0, 400.0) as usize };
    let line = polyline(&|_| 0.0, smooth);
    canvas.path("reach", &line);
    match kind {
        EdgeKind::Plain => canvas.path("outline", &line),
        EdgeKind::Wall | EdgeKind::Backsplash => {
            if kind == EdgeKind::Backsplash {
                let thick = (crate::top::limits::backsplash_usual().get::<meter>() * paper.scale).max(3.0);
                let mut band = line.clone();
                for step in (0..=smooth).rev() {
                    band.line_to(inside(step as f64 / smooth as f64, thick));
                }
                band.close_path();
                canvas.path("band", &band);
            }
            canvas.path("outline", &line);
            // The walls of a surveyed opening are drawn where they are.
            if surveyed(piece).is_none() {
                canvas.path("hatch", &hatch(length, at));
            }
        }
        EdgeKind::Lined => {
            let teeth = (length / 5.0).floor().max(2.0) as usize;
            // An uneven row of bites, as a liner leaves them, but the same every time.
            let bite = |tooth: usize| {
                if tooth == 0 || tooth == teeth { 0.0 } else { [0.0, 3.4, 1.0, 2.6, 0.4, 3.0][tooth % 6] }
            };
            canvas.path("outline", &polyline(&bite, teeth));
        }
        EdgeKind::Eased => {
            canvas.path("outline", &line);
            canvas.path("easing", &polyline(&|_| 4.0, smooth));
        }
    }
    canvas.close();
}

/// The corners that can be touched: where two sides meet as they are.
fn draw_corners(canvas: &mut Canvas, paper: &Paper, typed: &Piece, outline: &Outline, selected: Option<Selection>) {
    for (index, edge) in outline.edges().iter().enumerate() {
        let before = outline.edges()[outline.before(index)].tag();
        let (EdgeTag::Side(_), EdgeTag::Side(side)) = (before, edge.tag()) else { continue };
        let part = Selection::Corner(usize::from(side));
        let at = paper.at(edge.start());
        canvas.open_part(&class_of("corner", selected == Some(part)), &part.key(), &part.label(typed));
        canvas.path("grip", &kurbo::Shape::to_path(&kurbo::Circle::new(at, 11.0), 0.1));
        canvas.path("mark", &kurbo::Shape::to_path(&kurbo::Circle::new(at, 3.0), 0.1));
        canvas.close();
    }
}

/// The length of every side where there is room for it, inside the outline, and the angles that are not
/// square.
fn draw_sides(canvas: &mut Canvas, paper: &Paper, outline: &Outline, units: Units) {
    for (index, edge) in outline.edges().iter().enumerate() {
        let figure = bare(edge.length(), units);
        let (middle, out) = (paper.at(edge.point_at(0.5)), paper.towards(edge.normal_at(0.5)));
        let along = paper.at(edge.end()) - paper.at(edge.start());
        // The whole width and depth stand outside already.
        let whole = edge.is_straight()
            && ((edge.chord().x.abs() - paper.frame.width()).abs() < 1e-6
                || (edge.chord().y.abs() - paper.frame.height()).abs() < 1e-6);
        if !whole && edge.length() * paper.scale > 7.0 * figure.chars().count() as f64 {
            // Upright figures are read from the right, as on a carpenter's drawing.
            let mut turned = along.y.atan2(along.x).to_degrees();
            if turned > 90.0 || turned <= -90.0 {
                turned += 180.0;
            }
            canvas.words("side-figure", middle - out * 9.0, turned, &figure);
        }
        let angle = outline.interior_angle(index).to_degrees();
        let before = &outline.edges()[outline.before(index)];
        let skew = (angle - 90.0).abs() > 0.25 && (angle - 270.0).abs() > 0.25;
        let sides = matches!((before.tag(), edge.tag()), (EdgeTag::Side(_), EdgeTag::Side(_)));
        if skew && sides && edge.is_straight() && before.is_straight() {
            let inward = paper.towards(edge.normal_at(0.0)) + paper.towards(before.normal_at(1.0));
            let at = paper.at(edge.start()) - inward.normalize() * 25.0;
            canvas.words("angle-figure", at, 0.0, &format!("{angle:.1}°"));
        }
    }
}

/// The words beside the drawing: where the front is, and in the form also the other sides.
fn draw_words(canvas: &mut Canvas, paper: &Paper, piece: &PieceEstimate, outline: &Outline) {
    let all = paper.all;
    let middle = all.center();
    canvas.words("edge-word", paper.at(Point::new(middle.x, all.y0)) + Vec2::new(0.0, 11.0), 0.0, "FRONT");
    if paper.face == Face::Form {
        canvas.words("edge-word", paper.at(Point::new(middle.x, all.y1)) - Vec2::new(0.0, 9.0), 0.0, "BACK");
        canvas.words("edge-word", paper.at(Point::new(all.x0, middle.y)) + Vec2::new(9.0, 0.0), -90.0, "LEFT");
        canvas.words("edge-word", paper.at(Point::new(all.x1, middle.y)) - Vec2::new(9.0, 0.0), -90.0, "RIGHT");
        return;
    }
    for edge in outline.edges() {
        let out = paper.towards(edge.normal_at(0.5));
        if matches!(kind_of(piece, edge), EdgeKind::Wall | EdgeKind::Backsplash)
            && out.y < -0.9
            && edge.length() * paper.scale > 60.0
        {
            let off = if surveyed(piece).is_some() { 20.0 } else { 16.0 };
            canvas.words("edge-word", paper.at(edge.point_at(0.5)) + out * off, 0.0, "WALL");
        }
    }
}

fn draw_opening(
    canvas: &mut Canvas,
    paper: &Paper,
    part: Selection,
    typed: &Piece,
    shapes: &[Opening],
    chosen: bool,
    units: Units,
) {
    let mut path = BezPath::new();
    for shape in shapes {
        path.extend(shape.path().elements().iter().copied());
    }
    let size = shapes
        .iter()
        .map(Opening::bounds)
        .reduce(|all, one| all.union(one))
        .map_or(String::new(), |all| format!(", {} by {}", bare(all.width(), units), bare(all.height(), units)));
    canvas.open_part(&class_of("opening", chosen), &part.key(), &format!("{}{size}", part.label(typed)));
    canvas.path("cut", &paper.path(path));
    if let (Selection::Cutout(index), [shape]) = (part, shapes) {
        let bounds = shape.bounds();
        let middle = paper.at(bounds.center());
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
fn draw_rails(canvas: &mut Canvas, paper: &Paper, piece: &PieceEstimate, typed: &Piece, units: Units) {
    for rail in piece.top.rails.iter().filter(|rail| rail.is_narrow(typed.kind) && rail.width.get::<meter>() > 0.0) {
        let (a, b) = (paper.at(rail.at.0), paper.at(rail.at.1));
        canvas.line("narrow", a, b);
        let beside = if (b - a).x.abs() > (b - a).y.abs() { Vec2::new(0.0, -5.0) } else { Vec2::new(16.0, 4.0) };
        canvas.words("narrow-figure", a.midpoint(b) + beside, 0.0, &bare(rail.width.get::<meter>(), units));
    }
}

/// The seams that are suggested, each with its distance from the left end or from the front.
fn draw_seams(canvas: &mut Canvas, paper: &Paper, piece: &PieceEstimate, units: Units) {
    let Some(plan) = piece.seams.as_ref().ok().and_then(Seaming::plan) else { return };
    for ((from, to), seam) in plan.lines.iter().zip(&plan.seams) {
        let (a, b) = (paper.at(*from), paper.at(*to));
        canvas.line("seam", a, b);
        let label = format!("seam {}", bare(seam.get::<meter>(), units));
        canvas.words("seam-figure", a.midpoint(b), 0.0, &label);
    }
}

/// One string of centre lines and the whole width below the front; the same for the depth at the side.
fn draw_dimensions(canvas: &mut Canvas, paper: &Paper, piece: &PieceEstimate, units: Units) {
    let Rect { x0, y0, x1, y1 } = paper.frame;
    let mut stations = vec![x0, x1];
    stations.extend(piece.top.bowls.iter().flatten().map(|bowl| bowl.bounds().center().x));
    stations.retain(|x| (x0..=x1).contains(x));
    stations.sort_by(f64::total_cmp);
    stations.dedup_by(|one, other| (*one - *other).abs() < 1e-6);
    // From the outermost line of the drawing, so that boards and dimensions stay apart.
    let edge = (paper.frame.y0 - paper.all.y0) * paper.scale;
    let front = |x: f64| paper.at(Point::new(x, y0));
    if stations.len() > 2 {
        for pair in stations.windows(2) {
            let aside = Vec2::new(0.0, edge + 28.0);
            canvas.dimension(front(pair[0]), front(pair[1]), aside, &bare(pair[1] - pair[0], units));
        }
    }
    let below = edge + if stations.len() > 2 { 43.0 } else { 30.0 };
    canvas.dimension(front(x0), front(x1), Vec2::new(0.0, below), &bare(x1 - x0, units));
    let right = if paper.face == Face::Installed { x1 } else { x0 };
    let side = |y: f64| paper.at(Point::new(right, y));
    let mut rows = vec![y0, y1];
    rows.extend(piece.top.cutouts.iter().flatten().map(|shape| shape.bounds().center().y));
    rows.retain(|y| (y0..=y1).contains(y));
    rows.sort_by(f64::total_cmp);
    // Cutouts in one line are dimensioned once.
    rows.dedup_by(|one, other| (*one - *other).abs() < 1e-6);
    if rows.len() > 2 {
        for pair in rows.windows(2) {
            let aside = Vec2::new(edge + 24.0, 0.0);
            canvas.dimension(side(pair[0]), side(pair[1]), aside, &bare(pair[1] - pair[0], units));
        }
    }
    // Outside a wall and its figure.
    let walled = paper.face == Face::Installed && surveyed(piece).is_some();
    let beside = edge + if rows.len() > 2 || walled { 42.0 } else { 30.0 };
    canvas.dimension(side(y0), side(y1), Vec2::new(beside, 0.0), &bare(y1 - y0, units));
}

/// A length as it stands on a drawing: without its unit.
pub(super) fn bare(metres: f64, units: Units) -> String {
    write_length(Length::new::<meter>(metres), units).bare().to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::estimate::estimate;
    use crate::job::{Cutout, CutoutShape, Entry};
    use crate::price::PriceBook;
    use std::sync::Arc;

    /// 48 by 24 in in a form of 3/4 in board, one cutout 10 in from the left end and 8 in from the front.
    fn off_centre() -> (Arc<PieceEstimate>, Piece) {
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
        (estimate(&job, &PriceBook::default()).pieces.remove(0), job.pieces.remove(0))
    }

    /// Centre of the cutout on the paper, read back from the drawing's own text: the bounds of its path.
    fn cutout_centre(drawing: &Drawing) -> Point {
        let group = drawing.svg.split("data-part=\"cutout-0\"").nth(1).expect("the cutout is drawn");
        let d = group.split("d=\"").nth(1).and_then(|rest| rest.split('"').next()).expect("it has a path");
        kurbo::Shape::bounding_box(&BezPath::from_svg(d).expect("the path is well formed")).center()
    }

    /// A cutout off the middle and a clipped corner at the right of the front: by definition of a mirror image both
    /// change ends, and the front stays in front.
    #[test]
    fn what_is_right_in_the_plan_is_left_in_the_form() {
        let (piece, typed) = {
            let mut job = Job::new("test", Units::Inch);
            let piece = &mut job.pieces[0];
            (piece.width, piece.depth) = ("48".into(), "24".into());
            *piece.corner_mut(1) = crate::job::Corner {
                kind: crate::job::CornerKind::Clipped,
                before: "5".into(),
                after: "4".into(),
                ..crate::job::Corner::default()
            };
            piece.cutouts.push(Cutout {
                shape: CutoutShape::Circle,
                width: "8".into(),
                from_left: "10".into(),
                from_front: "9".into(),
                ..Cutout::default()
            });
            (estimate(&job, &PriceBook::default()).pieces.remove(0), job.pieces.remove(0))
        };
        let body = |face| {
            let drawing = plan(&piece, &typed, Units::Inch, face, None).expect("the outline is known");
            let d = drawing.svg.split("class=\"body\" d=\"").nth(1).and_then(|rest| rest.split('"').next());
            (BezPath::from_svg(d.expect("the piece is drawn")).expect("a path"), cutout_centre(&drawing))
        };
        for (face, clipped_at_right) in [(Face::Installed, true), (Face::Form, false)] {
            let (body, cutout) = body(face);
            let bounds = kurbo::Shape::bounding_box(&body);
            let covers = |x: f64| kurbo::Shape::contains(&body, Point::new(x, bounds.y1 - 2.0));
            assert_eq!(!covers(bounds.x1 - 2.0), clipped_at_right, "{face:?}: the clip is in front, at this end");
            assert_eq!(!covers(bounds.x0 + 2.0), !clipped_at_right, "{face:?}: and not at the other");
            let behind = |x: f64| kurbo::Shape::contains(&body, Point::new(x, bounds.y0 + 2.0));
            assert!(behind(bounds.x0 + 2.0) && behind(bounds.x1 - 2.0), "{face:?}: the back is whole");
            assert_eq!(cutout.x < bounds.center().x, clipped_at_right, "{face:?}: the cutout is at the other end");
        }
    }

    /// A mirror image by definition: distances from the left end become distances from the right end,
    /// distances from the front stay.
    #[test]
    fn the_form_is_the_plan_mirrored_once() {
        let (piece, typed) = off_centre();
        let plan_of = |face| plan(&piece, &typed, Units::Inch, face, None).expect("the outline is known");
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
        for part in [
            Selection::Size,
            Selection::Edge(2),
            Selection::Corner(1),
            Selection::Cutout(3),
            Selection::Holes(0),
            Selection::Board(4),
        ] {
            assert_eq!(Selection::from_key(&part.key()), Some(part));
        }
        assert_eq!(Selection::from_key("cutout-x"), None);
    }
}
