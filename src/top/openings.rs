//! The cutouts and faucet holes of a piece: read from what was typed, and placed.

use super::Top;
use crate::finding::{Finding, Severity, Stage, say};
use crate::job::read::{self, both};
use crate::job::{
    AcrossFrom, AlongFrom, Cutout, CutoutField, CutoutShape, DoorField, Entry, FieldPath, Hand, HolePattern, Holes,
    HolesField, HolesFrom, Job, Piece, Reveal, TemplateField,
};
use crate::measure::Length;
use crate::plane::{CornerError, OffsetError, Opening};
use crate::top::limits;
use crate::working::{Known, Source, Waiting, all};
use kurbo::{Point, Rect};
use uom::si::length::meter;

fn metres(length: Length) -> f64 {
    length.get::<meter>()
}

/// Where ends and edges are measured from. The left end and the front edge are taken at nothing while the
/// outline is not known, so that a shape is known before its place means anything.
fn origin(bounds: &Known<Rect>) -> Point {
    bounds.as_ref().map_or(Point::ORIGIN, |bounds| bounds.origin())
}

/// The bowl of a cutout: the shape as typed, in its place, without the reveal.
pub(super) fn bowl(job: &Job, piece: usize, index: usize, cutout: &Cutout, bounds: &Known<Rect>) -> Known<Opening> {
    let place = |field| FieldPath::Cutout(piece, index, field);
    let size = |field| read::positive_length(job, place(field)).map(metres);
    let center = center(job, piece, index, cutout, bounds);
    match cutout.shape {
        CutoutShape::Circle => {
            let (diameter, center) = both(size(CutoutField::Width), center)?;
            Opening::circle(center, diameter).map_err(|_| no_shape(job, place(CutoutField::Width)))
        }
        CutoutShape::Ellipse => {
            let ((width, depth), center) = both(both(size(CutoutField::Width), size(CutoutField::Depth)), center)?;
            Opening::ellipse(center, width, depth, 0.0).map_err(|_| no_shape(job, place(CutoutField::Width)))
        }
        CutoutShape::Rectangle | CutoutShape::D => {
            let sizes = both(size(CutoutField::Width), size(CutoutField::Depth));
            let radius = read::optional(job, place(CutoutField::CornerRadius), read::length);
            let (((width, depth), radius), center) = both(both(sizes, radius), center)?;
            let radius = radius.unwrap_or_default();
            let made = if cutout.shape == CutoutShape::D {
                Opening::d_shape(center, width, depth, metres(radius))
            } else {
                Opening::rounded_rectangle(center, width, depth, metres(radius))
            };
            made.map_err(|error| match error {
                CornerError::TooLarge { most, .. } => {
                    let place = place(CutoutField::CornerRadius);
                    let says = format!(
                        "{}: {} is too large for this cutout; {} is the most.",
                        read::name_of(job, place),
                        say::length(radius, job.units),
                        say::at_most(Length::new::<meter>(most), job.units),
                    );
                    Waiting::at(place, says)
                }
                _ => no_shape(job, place(CutoutField::Width)),
            })
        }
        CutoutShape::Polygon => {
            let (shape, center) = both(template(job, piece, index, cutout), center)?;
            Ok(shape.translated(center - shape.bounds().center()))
        }
    }
}

/// What the rim of a drop-in bowl lies on all round: as typed, or the usual one; nothing for other bowls.
fn ledge(job: &Job, piece: usize, index: usize, cutout: &Cutout) -> Option<Known<Length>> {
    let place = FieldPath::Cutout(piece, index, CutoutField::RevealWidth);
    let typed = || read::optional(job, place, read::positive_length);
    (cutout.reveal == Reveal::DropIn).then(|| typed().map(|typed| typed.unwrap_or_else(limits::ledge_usual)))
}

/// Findings about the ledges of drop-in bowls.
pub(super) fn advise_ledges(top: &Top, job: &Job, piece: usize) -> Vec<Finding> {
    let Some(typed) = job.pieces.get(piece) else { return Vec::new() };
    let one = |((index, cutout), rim): ((usize, &Cutout), &Known<Opening>)| {
        let ledge = ledge(job, piece, index, cutout)?.ok()?;
        let bounds = rim.as_ref().ok()?.bounds();
        let name = format!("{}Cutout {}", read::piece_prefix(job, piece), index + 1);
        let [width, depth] = [bounds.width(), bounds.height()].map(Length::new::<meter>);
        let (severity, says, remedy) = if 2.0 * ledge + crate::measure::geometry_tolerance() >= width.min(depth) {
            let says = format!(
                "{name}: a ledge of {} on both sides leaves no hole of a rim of {} × {}.",
                say::length(ledge, job.units),
                say::length(width, job.units),
                say::length(depth, job.units)
            );
            (Severity::Stop, says, "Type the size of the whole rim, and what of it lies on the top.")
        } else if ledge < limits::ledge_watch() - crate::measure::geometry_tolerance() {
            let says = format!(
                "{name}: the rim lies on {} all round; under {} the bowl may fall through.",
                say::length(ledge, job.units),
                say::length(limits::ledge_watch(), job.units)
            );
            (Severity::Watch, says, "Cut by the template of the bowl, or leave a wider ledge.")
        } else {
            return None;
        };
        Some(Finding {
            severity,
            stage: Stage::Measure,
            place: FieldPath::Cutout(piece, index, CutoutField::RevealWidth),
            says: says.into(),
            remedy: remedy.into(),
            source: if severity == Severity::Stop { Source::Arithmetic } else { Source::Practice },
        })
    };
    typed.cutouts.iter().enumerate().zip(&top.bowls).filter_map(one).collect()
}

/// The hole of a drop-in bowl with a rectangular rim, whose corners are sharp where the ledge takes all of their radius.
fn inside_the_rim(rim: &Opening, radius: f64, ledge: f64) -> Option<Opening> {
    let bounds = rim.bounds();
    let (width, depth) = (bounds.width() - 2.0 * ledge, bounds.height() - 2.0 * ledge);
    Opening::rounded_rectangle(bounds.center(), width, depth, (radius - ledge).max(0.0)).ok()
}

/// The hole of a cutout: its bowl, larger or smaller by the reveal.
pub(super) fn hole(job: &Job, piece: usize, index: usize, cutout: &Cutout, bowl: &Known<Opening>) -> Known<Opening> {
    let place = FieldPath::Cutout(piece, index, CutoutField::RevealWidth);
    let outward = match cutout.reveal {
        Reveal::Flush => return bowl.clone(),
        Reveal::Shows => 1.0,
        Reveal::Covers | Reveal::DropIn => -1.0,
    };
    let width = ledge(job, piece, index, cutout).unwrap_or_else(|| read::positive_length(job, place));
    let (bowl, width) = both(bowl.clone(), width)?;
    if cutout.reveal == Reveal::DropIn && cutout.shape == CutoutShape::Rectangle {
        let radius = read::optional(job, FieldPath::Cutout(piece, index, CutoutField::CornerRadius), read::length)?;
        if let Some(hole) = inside_the_rim(&bowl, metres(radius.unwrap_or_default()), metres(width)) {
            return Ok(hole);
        }
    }
    bowl.offset(outward * metres(width)).map_err(|OffsetError { largest, .. }| {
        let name = read::name_of(job, place);
        let most = Length::new::<meter>(largest.abs());
        let says = if largest.abs() > 0.0 && largest.is_finite() {
            format!("{name}: the bowl has no room for that; {} is the most.", say::length(most, job.units))
        } else {
            format!("{name}: the bowl has no room for that.")
        };
        Waiting::at(place, says)
    })
}

/// The centre of a cutout, from the entries that it is placed by.
fn center(job: &Job, piece: usize, index: usize, cutout: &Cutout, bounds: &Known<Rect>) -> Known<Point> {
    let place = |field| FieldPath::Cutout(piece, index, field);
    let length = |field| read::length(job, place(field)).map(metres);
    let start = origin(bounds);
    let across = match cutout.across {
        AcrossFrom::Left => length(CutoutField::FromLeft).map(|from_left| start.x + from_left),
        AcrossFrom::Right => {
            both(length(CutoutField::FromRight), bounds.clone()).map(|(from_right, bounds)| bounds.x1 - from_right)
        }
        AcrossFrom::Door => {
            let off = read::optional(job, place(CutoutField::FromDoor), read::length);
            both(door_center(job, piece, index, cutout), off).map(|(door, off)| {
                let off = metres(off.unwrap_or_default());
                start.x + door + if cutout.door_side == Hand::Left { -off } else { off }
            })
        }
    };
    let along = match cutout.along {
        AlongFrom::Front => length(CutoutField::FromFront).map(|from_front| start.y + from_front),
        AlongFrom::Back => {
            both(length(CutoutField::FromBack), bounds.clone()).map(|(from_back, bounds)| bounds.y1 - from_back)
        }
    };
    both(across, along).map(Point::from)
}

/// The centre of the door that a cutout is centred on, from the left end; metres.
fn door_center(job: &Job, piece: usize, index: usize, cutout: &Cutout) -> Known<f64> {
    let doors = job.pieces.get(piece).map_or(0, |piece| piece.doors.len());
    let Some(door) = cutout.door.filter(|door| *door < doors) else {
        let place = FieldPath::Cutout(piece, index, CutoutField::FromDoor);
        let says = format!(
            "{}Cutout {}: the cabinet door to centre it on is not there; choose one, or measure from an end.",
            read::piece_prefix(job, piece),
            index + 1
        );
        return Err(Waiting::at(place, says));
    };
    read::length(job, FieldPath::Door(piece, door, DoorField::FromLeft)).map(metres)
}

/// The shape of a paper template, where the template's own left and front edges are the axes.
fn template(job: &Job, piece: usize, index: usize, cutout: &Cutout) -> Known<Opening> {
    let place = |corner, field| FieldPath::Template(piece, index, corner, field);
    let corners = (0..cutout.template.len()).map(|corner| {
        let length = |field| read::length(job, place(corner, field)).map(metres);
        let radius = read::optional(job, place(corner, TemplateField::Radius), read::length);
        both(both(length(TemplateField::FromLeft), length(TemplateField::FromFront)), radius)
            .map(|(at, radius)| (corner, (Point::from(at), metres(radius.unwrap_or_default()))))
    });
    let mut corners = all(corners)?;
    let name = || format!("{}Cutout {}", read::piece_prefix(job, piece), index + 1);
    if corners.len() < 3 {
        let shown = match corners.first() {
            Some((corner, _)) => place(*corner, TemplateField::FromLeft),
            None => FieldPath::Cutout(piece, index, cutout.across_field()),
        };
        return Err(Waiting::at(shown, format!("{}: a template needs three corners at least.", name())));
    }
    // A template may be walked either way round.
    let next = corners.iter().cycle().skip(1);
    let doubled: f64 = corners.iter().zip(next).map(|((_, (a, _)), (_, (b, _)))| a.to_vec2().cross(b.to_vec2())).sum();
    if doubled < 0.0 {
        corners.reverse();
    }
    let shape: Vec<_> = corners.iter().map(|(_, corner)| *corner).collect();
    Opening::polygon(&shape).map_err(|error| match error {
        CornerError::TooLarge { most, .. } => {
            let corner = corners.get(first_too_round(&shape)).map_or(0, |(corner, _)| *corner);
            let place = place(corner, TemplateField::Radius);
            let most = say::length(Length::new::<meter>(most), job.units);
            let says = format!("{}: the sides have no room for that; {most} is the most.", read::name_of(job, place));
            Waiting::at(place, says)
        }
        _ => {
            let says = format!("{}: these corners give no shape; its sides must not cross or meet twice.", name());
            Waiting::at(place(0, TemplateField::FromLeft), says)
        }
    })
}

/// The corner whose radius is the first that does not fit: corners are rounded from the last to the first.
fn first_too_round(corners: &[(Point, f64)]) -> usize {
    let fits = |first: usize| {
        let sharp = |(index, (at, radius)): (usize, &(Point, f64))| (*at, if index < first { 0.0 } else { *radius });
        Opening::polygon(&corners.iter().enumerate().map(sharp).collect::<Vec<_>>()).is_ok()
    };
    (0..corners.len()).rev().find(|first| !fits(*first)).unwrap_or(0)
}

/// The holes of a set.
pub(super) fn holes(
    job: &Job,
    piece: usize,
    index: usize,
    set: &Holes,
    bowls: &[Known<Opening>],
    bounds: &Known<Rect>,
) -> Known<Vec<Opening>> {
    let place = |field| FieldPath::Holes(piece, index, field);
    let length = |field| read::length(job, place(field)).map(metres);
    let diameter = read::positive_length(job, place(HolesField::Diameter)).map(metres);
    let spread = match set.pattern {
        HolePattern::Single => Ok(None),
        HolePattern::Three => read::positive_length(job, place(HolesField::Spread)).map(|spread| Some(metres(spread))),
    };
    let middle = match set.placed {
        HolesFrom::Edges => both(length(HolesField::FromLeft), length(HolesField::FromFront))
            .map(|(from_left, from_front)| origin(bounds) + kurbo::Vec2::new(from_left, from_front)),
        HolesFrom::Bowl => {
            let bowl = set.cutout.and_then(|cutout| bowls.get(cutout)).cloned().unwrap_or_else(|| {
                let says = format!(
                    "{}Holes {}: the cutout to centre them on is not there; choose one, or measure from the edges.",
                    read::piece_prefix(job, piece),
                    index + 1
                );
                Err(Waiting::at(place(HolesField::Behind), says))
            });
            both(bowl, length(HolesField::Behind)).map(|(bowl, behind)| {
                let bounds = bowl.bounds();
                Point::new(bounds.center().x, bounds.y1 + behind)
            })
        }
    };
    let ((diameter, spread), middle) = both(both(diameter, spread), middle)?;
    let offsets = spread.map_or_else(|| vec![0.0], |spread| vec![-spread / 2.0, 0.0, spread / 2.0]);
    offsets
        .into_iter()
        .map(|offset| Opening::circle(Point::new(middle.x + offset, middle.y), diameter))
        .collect::<Result<_, _>>()
        .map_err(|_| no_shape(job, place(HolesField::Diameter)))
}

fn no_shape(job: &Job, place: FieldPath) -> Waiting {
    Waiting::at(place, format!("{}: these sizes give no shape.", read::name_of(job, place)))
}

impl Top {
    /// The centre of a cutout's bowl; nothing while it is not known.
    pub fn cutout_center(&self, cutout: usize) -> Option<Point> {
        Some(self.bowls.get(cutout)?.as_ref().ok()?.bounds().center())
    }

    /// The centre of the middle hole of a set; nothing while it is not known.
    pub fn holes_center(&self, set: usize) -> Option<Point> {
        let holes = self.holes.get(set)?.as_ref().ok()?;
        Some(holes.get(holes.len() / 2)?.bounds().center())
    }

    /// What has to be typed for a cutout's centre to lie at `x`, metres, by its own reference; negative
    /// where it lies left of a door's centre, or past the end. Nothing while the reference is not known.
    pub fn across_at(&self, job: &Job, piece: usize, cutout: &Cutout, x: f64) -> Option<Length> {
        let bounds = self.outline.as_ref().ok()?.bounds();
        Some(Length::new::<meter>(match cutout.across {
            AcrossFrom::Left => x - bounds.x0,
            AcrossFrom::Right => bounds.x1 - x,
            AcrossFrom::Door => x - bounds.x0 - door_center(job, piece, 0, cutout).ok()?,
        }))
    }

    /// What has to be typed for a cutout's centre to lie at `y`, metres, by its own reference; negative
    /// past the edge. Nothing while the outline is not known.
    pub fn along_at(&self, cutout: &Cutout, y: f64) -> Option<Length> {
        let bounds = self.outline.as_ref().ok()?.bounds();
        Some(Length::new::<meter>(match cutout.along {
            AlongFrom::Front => y - bounds.y0,
            AlongFrom::Back => bounds.y1 - y,
        }))
    }

    /// What has to be typed for the middle hole of a set to lie at that point: every entry that places it,
    /// with its length. Nothing while what it is measured from is not known.
    pub fn holes_at(&self, set: &Holes, at: Point) -> Vec<(HolesField, Length)> {
        let length = |metres: f64| Length::new::<meter>(metres);
        match (set.placed, &self.outline) {
            (HolesFrom::Edges, Ok(outline)) => {
                let from = at - outline.bounds().origin();
                vec![(HolesField::FromLeft, length(from.x)), (HolesField::FromFront, length(from.y))]
            }
            (HolesFrom::Edges, Err(_)) => Vec::new(),
            (HolesFrom::Bowl, _) => {
                let bowl = set.cutout.and_then(|cutout| self.bowls.get(cutout)).and_then(|bowl| bowl.as_ref().ok());
                bowl.map(|bowl| (HolesField::Behind, length(at.y - bowl.bounds().y1))).into_iter().collect()
            }
        }
    }
}

/// Centres every cutout of a piece on a cabinet door of its own, both counted from the left. False, and
/// nothing done, unless there are as many doors as cutouts and every door's centre can be read.
pub fn center_on_doors(job: &mut Job, piece: usize) -> bool {
    let top = Top::of(job, piece);
    let Some((doors, cutouts)) = job.pieces.get(piece).map(|typed| (typed.doors.len(), typed.cutouts.len())) else {
        return false;
    };
    let centers = all((0..doors).map(|door| read::length(job, FieldPath::Door(piece, door, DoorField::FromLeft))));
    let (Ok(centers), true) = (centers, doors == cutouts && doors > 0) else { return false };
    let mut doors: Vec<_> = centers.iter().map(|center| metres(*center)).enumerate().collect();
    doors.sort_by(|one, other| one.1.total_cmp(&other.1));
    // Cutouts that are not placed yet are taken in the order they are typed.
    let placed: Option<Vec<_>> = (0..cutouts).map(|cutout| Some((cutout, top.cutout_center(cutout)?.x))).collect();
    let mut order = placed.unwrap_or_else(|| (0..cutouts).map(|cutout| (cutout, 0.0)).collect());
    order.sort_by(|one, other| one.1.total_cmp(&other.1));
    let Some(typed): Option<&mut Piece> = job.pieces.get_mut(piece) else { return false };
    for ((cutout, _), (door, _)) in order.into_iter().zip(doors) {
        if let Some(cutout) = typed.cutouts.get_mut(cutout) {
            cutout.across = AcrossFrom::Door;
            cutout.door = Some(door);
            cutout.from_door = Entry::default();
        }
    }
    true
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{Door, OutlineShape, TemplateCorner, Units};
    use proptest::prelude::*;

    /// What may stand in a field: nothing, half a number, and sizes from nothing to far too much.
    fn entry() -> impl Strategy<Value = Entry> {
        let texts = ["", "1/", "0", "0.001", "1/2", "3", "7 1/4", "12", "20", "99999", "30000000"];
        proptest::sample::select(texts.map(Entry::new).to_vec())
    }

    fn index() -> impl Strategy<Value = Option<usize>> {
        proptest::sample::select(vec![None, Some(0), Some(1), Some(usize::MAX)])
    }

    fn cutout() -> impl Strategy<Value = Cutout> {
        let corner = [entry(), entry(), entry()].prop_map(|[from_left, from_front, radius]| TemplateCorner {
            from_left,
            from_front,
            radius,
        });
        let choices = (
            proptest::sample::select(CutoutShape::ALL.to_vec()),
            proptest::sample::select(Reveal::ALL.to_vec()),
            proptest::sample::select(AcrossFrom::ALL.to_vec()),
            proptest::sample::select(AlongFrom::ALL.to_vec()),
        );
        let entries = proptest::collection::vec(entry(), CutoutField::ALL.len());
        (choices, entries, proptest::collection::vec(corner, 0..6), index()).prop_map(
            |((shape, reveal, across, along), entries, template, door)| {
                let mut cutout = Cutout { shape, reveal, across, along, template, door, ..Cutout::default() };
                for (field, entry) in CutoutField::ALL.iter().zip(entries) {
                    *cutout.entry_mut(*field) = entry;
                }
                cutout
            },
        )
    }

    fn set() -> impl Strategy<Value = Holes> {
        let entries = proptest::collection::vec(entry(), HolesField::ALL.len());
        (proptest::bool::ANY, proptest::bool::ANY, index(), entries).prop_map(|(three, bowl, cutout, entries)| {
            let pattern = if three { HolePattern::Three } else { HolePattern::Single };
            let placed = if bowl { HolesFrom::Bowl } else { HolesFrom::Edges };
            let mut set = Holes { pattern, placed, cutout, ..Holes::default() };
            for (field, entry) in HolesField::ALL.iter().zip(entries) {
                *set.entry_mut(*field) = entry;
            }
            set
        })
    }

    proptest! {
        /// Whatever is typed is a shape or is waited for; and where a shape stands, what would have to be
        /// typed for that place is what was typed.
        #[test]
        fn whatever_is_typed_is_a_shape_or_waits(
            size in [entry(), entry(), entry()],
            cutouts in proptest::collection::vec(cutout(), 0..3),
            sets in proptest::collection::vec(set(), 0..3),
            doors in proptest::collection::vec(entry(), 0..3),
            round in proptest::bool::ANY,
        ) {
            let mut job = Job::new("test", Units::Inch);
            let piece = &mut job.pieces[0];
            let [width, depth, bow] = size;
            (piece.width, piece.depth, piece.bow) = (width, depth, bow);
            piece.shape = if round { OutlineShape::L } else { OutlineShape::Rectangle };
            (piece.leg, piece.front_depth) = ("3".into(), "3".into());
            (piece.cutouts, piece.holes) = (cutouts, sets);
            piece.doors = doors.into_iter().map(|from_left| Door { from_left }).collect();
            let top = Top::of(&job, 0);
            for waiting in top.bowls.iter().chain(&top.cutouts).filter_map(|known| known.as_ref().err()) {
                prop_assert!(!waiting.needs().is_empty());
            }
            for waiting in top.holes.iter().filter_map(|known| known.as_ref().err()) {
                prop_assert!(!waiting.needs().is_empty());
            }
            let reads = |place| read::length(&job, place).unwrap_or_default();
            for (index, cutout) in job.pieces[0].cutouts.iter().enumerate() {
                let Some(at) = top.cutout_center(index) else { continue };
                let place = |field| FieldPath::Cutout(0, index, field);
                if let Some(length) = top.across_at(&job, 0, cutout, at.x) {
                    let typed = reads(place(cutout.across_field()));
                    let left = cutout.across == AcrossFrom::Door && cutout.door_side == Hand::Left;
                    let signed = if left { -typed } else { typed };
                    prop_assert!((length - signed).abs() < Length::new::<meter>(1e-6));
                }
                if let Some(length) = top.along_at(cutout, at.y) {
                    prop_assert!((length - reads(place(cutout.along_field()))).abs() < Length::new::<meter>(1e-6));
                }
            }
            for (index, set) in job.pieces[0].holes.iter().enumerate() {
                for (field, length) in top.holes_center(index).map_or_else(Vec::new, |at| top.holes_at(set, at)) {
                    let typed = reads(FieldPath::Holes(0, index, field));
                    prop_assert!((length - typed).abs() < Length::new::<meter>(1e-6));
                }
            }
            let before = job.clone();
            if !center_on_doors(&mut job, 0) {
                prop_assert_eq!(before, job);
            }
        }
    }
}
