//! The finished thing, as installed, seen from above.
//!
//! Plane coordinates are `f64` metres: x to the right from the left end, y to the back from the front
//! edge, so the front left corner of a rectangle is the origin.

mod advice;
mod clearance;
mod shape;

pub(crate) use advice::advise;
pub use clearance::{Rail, RailEnd};
pub use shape::{Shape, ShapeError};

use crate::finding::say;
use crate::job::read::{self, both};
use crate::job::{
    Cutout, CutoutField, CutoutShape, EdgeField, EdgeKind, HolePattern, Holes, HolesField, Job, Piece, PieceField,
    Place, Side,
};
use crate::limits;
use crate::measure::{Area, Length, Units, write_area, write_length};
use crate::working::{Figure, Known, Source, Waiting, Working};
use kurbo::Point;
use uom::si::length::meter;

/// One edge of the finished outline, with what its kind asks of the form.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EdgeProfile {
    /// Which edge.
    pub side: Side,
    /// What it is.
    pub kind: EdgeKind,
    /// Mean thickness of its liner; zero when it has none.
    pub liner: Length,
    /// Radius of its easing; zero when it is not eased.
    pub radius: Length,
}

/// The finished outline: a rectangle with its four edges.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline {
    /// Left to right.
    pub width: Length,
    /// Front to back.
    pub depth: Length,
}

/// The geometry of one piece; each part stands on its own.
#[derive(Clone, Debug, PartialEq)]
pub struct Top {
    /// The outline.
    pub outline: Known<Outline>,
    /// Finished thickness.
    pub thickness: Known<Length>,
    /// The edges, in the order of [`Side::ALL`].
    pub edges: [Known<EdgeProfile>; 4],
    /// The cutouts, in the order of the job.
    pub cutouts: Vec<Known<Shape>>,
    /// The sets of faucet holes, in the order of the job; every hole of a set is a circle.
    pub holes: Vec<Known<Vec<Shape>>>,
    /// Area of the finished face less cutouts and holes. Waits while a cutout or hole runs past the
    /// outline or into another one.
    pub area: Known<Figure<Area>>,
    /// The strips that are left between cutouts and edges and between cutouts, thinnest first.
    pub rails: Vec<Rail>,
}

impl Top {
    /// The geometry of the piece with that index; every part waits if the job has no such piece.
    pub fn of(job: &Job, piece: usize) -> Self {
        let empty = Piece::new("", "", job.units);
        let typed = job.pieces.get(piece).unwrap_or(&empty);
        let size = |field| read::positive_length(job, Place::Piece(piece, field));
        let outline =
            both(size(PieceField::Width), size(PieceField::Depth)).map(|(width, depth)| Outline { width, depth });
        let cutouts: Vec<_> =
            typed.cutouts.iter().enumerate().map(|(index, cutout)| cutout_shape(job, piece, index, cutout)).collect();
        let holes: Vec<_> =
            typed.holes.iter().enumerate().map(|(index, set)| hole_shapes(job, piece, index, set)).collect();
        let rails = rails(outline.as_ref().ok(), &cutouts, &holes);
        let mut top = Self {
            thickness: size(PieceField::Thickness),
            edges: Side::ALL.map(|side| edge_profile(job, piece, side)),
            outline,
            cutouts,
            holes,
            area: Err(Waiting { needs: Vec::new() }),
            rails,
        };
        top.area = top.area_left(job, piece);
        top
    }

    fn area_left(&self, job: &Job, piece: usize) -> Known<Figure<Area>> {
        let mut waiting = Waiting { needs: Vec::new() };
        let outline = self.outline.clone().map_err(|other| waiting.join(other)).ok();
        let mut openings = Vec::new();
        for (index, cutout) in self.cutouts.iter().enumerate() {
            match cutout {
                Ok(shape) => openings.push((format!("cutout {}", index + 1), 1, *shape)),
                Err(other) => waiting.join(other.clone()),
            }
        }
        for (index, set) in self.holes.iter().enumerate() {
            match set {
                Ok(shapes) => {
                    let first = shapes.first().copied();
                    openings.extend(first.map(|hole| (format!("holes {}", index + 1), shapes.len(), hole)));
                }
                Err(other) => waiting.join(other.clone()),
            }
        }
        for (place, says) in advice::overruns(self, job, piece) {
            waiting.join(Waiting::at(place, says));
        }
        let Some(outline) = outline.filter(|_| waiting.needs.is_empty()) else { return Err(waiting) };

        let full = outline.width * outline.depth;
        let taken: Area = openings.iter().map(|(_, count, shape)| *count as f64 * shape.area()).sum();
        let left = full - taken;
        let units = job.units;
        let mut working = Working::new("Area of the finished face").line(
            "width × depth",
            format!("{} × {}", write_length(outline.width, units), write_length(outline.depth, units)),
            write_area(full, units),
            Source::Arithmetic,
        );
        if !openings.is_empty() {
            for (name, count, shape) in &openings {
                let (formula, numbers) = shape_working(shape, *count, units);
                let area = write_area(*count as f64 * shape.area(), units);
                working = working.line(format!("{name}: {formula}"), numbers, area, Source::Arithmetic);
            }
            working = working.line(
                "outline less cutouts and holes",
                format!("{} − {}", write_area(full, units), write_area(taken, units)),
                write_area(left, units),
                Source::Arithmetic,
            );
        }
        if left > Area::default() {
            Ok(working.of(left))
        } else {
            let place = Place::Piece(piece, PieceField::Width);
            Err(Waiting::at(place, "The cutouts and holes leave nothing of the top."))
        }
    }
}

/// How the area of so many equal shapes is worked out by hand: the formula, and the numbers in it.
fn shape_working(shape: &Shape, count: usize, units: Units) -> (String, String) {
    let write = |metres: f64| write_length(Length::new::<meter>(metres), units);
    let (width, depth) = (write(shape.bounds().width()), write(shape.bounds().height()));
    let (formula, numbers) = match shape {
        Shape::Rectangle(rect) => {
            let radius = rect.radii().top_left;
            if radius > 0.0 {
                let numbers = format!("{width} × {depth} − (4 − π) × ({})²", write(radius));
                ("width × depth − (4 − π) × radius²", numbers)
            } else {
                ("width × depth", format!("{width} × {depth}"))
            }
        }
        Shape::Ellipse(_) => ("π ÷ 4 × width × depth", format!("π ÷ 4 × {width} × {depth}")),
    };
    if count == 1 {
        (formula.to_owned(), numbers)
    } else {
        (format!("{count} × {formula}"), format!("{count} × {numbers}"))
    }
}

fn edge_profile(job: &Job, piece: usize, side: Side) -> Known<EdgeProfile> {
    let kind = job.pieces.get(piece).map_or(EdgeKind::Plain, |piece| piece.edges.at(side).kind);
    let length = |field| read::length(job, Place::Edge(piece, side, field));
    let mut profile = EdgeProfile { side, kind, liner: Length::default(), radius: Length::default() };
    match kind {
        EdgeKind::Lined => profile.liner = length(EdgeField::Liner)?,
        EdgeKind::Eased => profile.radius = length(EdgeField::Radius)?,
        EdgeKind::Wall | EdgeKind::Plain => {}
    }
    Ok(profile)
}

/// A point of the plane of the top.
fn point(from_left: Length, from_front: Length) -> Point {
    Point::new(from_left.get::<meter>(), from_front.get::<meter>())
}

fn cutout_shape(job: &Job, piece: usize, index: usize, cutout: &Cutout) -> Known<Shape> {
    let place = |field| Place::Cutout(piece, index, field);
    let size = |field| read::positive_length(job, place(field));
    let center =
        both(read::length(job, place(CutoutField::FromLeft)), read::length(job, place(CutoutField::FromFront)))
            .map(|(from_left, from_front)| point(from_left, from_front));
    let made = match cutout.shape {
        CutoutShape::Circle => {
            let (diameter, center) = both(size(CutoutField::Width), center)?;
            Shape::circle(center, diameter)
        }
        CutoutShape::Ellipse => {
            let ((width, depth), center) = both(both(size(CutoutField::Width), size(CutoutField::Depth)), center)?;
            Shape::ellipse(center, width, depth)
        }
        CutoutShape::Rectangle => {
            let sizes = both(size(CutoutField::Width), size(CutoutField::Depth));
            let radius = read::optional(job, place(CutoutField::CornerRadius), read::length);
            let (((width, depth), radius), center) = both(both(sizes, radius), center)?;
            let radius = radius.unwrap_or_default();
            let made = Shape::rectangle(center, width, depth, radius);
            if let Err(ShapeError::RadiusTooLarge { most }) = made {
                let place = place(CutoutField::CornerRadius);
                let says = format!(
                    "{}: {} is more than half the smaller size; {} is the most.",
                    read::name_of(job, place),
                    say::length(radius, job.units),
                    say::length(most, job.units),
                );
                return Err(Waiting::at(place, says));
            }
            made
        }
    };
    made.map_err(|_| no_shape(job, place(CutoutField::Width)))
}

fn hole_shapes(job: &Job, piece: usize, index: usize, set: &Holes) -> Known<Vec<Shape>> {
    let place = |field| Place::Holes(piece, index, field);
    let diameter = read::positive_length(job, place(HolesField::Diameter));
    let spread = match set.pattern {
        HolePattern::Single => Ok(None),
        HolePattern::Three => read::positive_length(job, place(HolesField::Spread)).map(Some),
    };
    let center = both(read::length(job, place(HolesField::FromLeft)), read::length(job, place(HolesField::FromFront)));
    let ((diameter, spread), (from_left, from_front)) = both(both(diameter, spread), center)?;
    let offsets = match spread {
        None => vec![Length::default()],
        Some(spread) => vec![-spread / 2.0, Length::default(), spread / 2.0],
    };
    offsets
        .into_iter()
        .map(|offset| Shape::circle(point(from_left + offset, from_front), diameter))
        .collect::<Result<_, _>>()
        .map_err(|_| no_shape(job, place(HolesField::Diameter)))
}

fn no_shape(job: &Job, place: Place) -> Waiting {
    Waiting::at(place, format!("{}: these sizes give no shape.", read::name_of(job, place)))
}

fn rails(outline: Option<&Outline>, cutouts: &[Known<Shape>], holes: &[Known<Vec<Shape>>]) -> Vec<Rail> {
    let cutouts: Vec<_> = cutouts.iter().enumerate().filter_map(|(i, shape)| Some((i, shape.as_ref().ok()?))).collect();
    let holes = holes.iter().enumerate().filter_map(|(set, shapes)| Some((set, shapes.as_ref().ok()?)));
    let holes: Vec<_> = holes
        .flat_map(|(set, shapes)| shapes.iter().enumerate().map(move |(i, shape)| (RailEnd::Hole(set, i), shape)))
        .collect();

    let mut rails = Vec::new();
    let to_edges = |end: RailEnd, shape: &Shape, rails: &mut Vec<Rail>| {
        if let Some(outline) = outline {
            rails.extend(Side::ALL.map(|side| clearance::to_edge(end, shape, side, outline)));
        }
    };
    for (position, &(index, shape)) in cutouts.iter().enumerate() {
        to_edges(RailEnd::Cutout(index), shape, &mut rails);
        for &(other, other_shape) in &cutouts[position + 1..] {
            rails.push(clearance::between(RailEnd::Cutout(index), shape, RailEnd::Cutout(other), other_shape));
        }
    }
    for &(end, shape) in &holes {
        to_edges(end, shape, &mut rails);
        for &(index, cutout) in &cutouts {
            rails.push(clearance::between(end, shape, RailEnd::Cutout(index), cutout));
        }
    }
    rails.sort_by(|one, other| one.width.value.total_cmp(&other.width.value));
    rails
}

/// Every two holes, of one set or of two, that run into each other.
fn holes_in_holes(holes: &[Known<Vec<Shape>>]) -> Vec<(usize, usize)> {
    let all: Vec<_> = holes
        .iter()
        .enumerate()
        .filter_map(|(set, shapes)| Some((set, shapes.as_ref().ok()?)))
        .flat_map(|(set, shapes)| shapes.iter().map(move |shape| (set, shape)))
        .collect();
    let mut found = Vec::new();
    for (position, &(set, shape)) in all.iter().enumerate() {
        for &(other_set, other) in &all[position + 1..] {
            // Holes are circles: the distance of their centres says it.
            let apart = (shape.center() - other.center()).hypot();
            let reach = (shape.bounds().width() + other.bounds().width()) / 2.0;
            let pair = (set, other_set);
            if apart < reach - limits::geometry_tolerance().get::<meter>() && !found.contains(&pair) {
                found.push(pair);
            }
        }
    }
    found
}
