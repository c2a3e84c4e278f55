//! The cutouts and faucet holes of a piece: read from what was typed, and placed.

use super::Top;
use super::inputs::{
    AcrossInputs, AlongInputs, CutoutInputs, CutoutSize, HolesInputs, HolesPlace, RevealInputs, TemplateInputs,
    TopInputs, doors,
};
use crate::finding::{Finding, Severity, Stage};
use crate::job::{
    AcrossFrom, AlongFrom, Cutout, CutoutField, Entry, FieldPath, Hand, Holes, HolesField, HolesFrom, Job, Piece,
    TemplateField,
};
use crate::label;
use crate::measure::Length;
use crate::plane::{CornerError, OffsetError, Opening};
use crate::top::limits;
use crate::working::{Known, Name, Source, Waiting, Word, about, all, known_ref, together};
use kurbo::{Point, Rect};
use uom::si::length::meter;

fn metres(length: Length) -> f64 {
    length.get::<meter>()
}

/// The length in metres, or what it waits for.
fn in_metres(length: &Known<Length>) -> Known<f64> {
    known_ref(length).map(|length| metres(*length))
}

/// Where ends and edges are measured from. The left end and the front edge are taken at nothing while the
/// outline is not known, so that a shape is known before its place means anything.
fn origin(bounds: &Known<Rect>) -> Point {
    bounds.as_ref().map_or(Point::ORIGIN, |bounds| bounds.origin())
}

/// The bowl of a cutout: the shape as typed, in its place, without the reveal.
pub(super) fn bowl(inputs: &TopInputs, index: usize, cutout: &CutoutInputs, bounds: &Known<Rect>) -> Known<Opening> {
    let place = |field| FieldPath::Cutout(inputs.piece, index, field);
    let center = center(inputs, index, cutout, bounds);
    match &cutout.size {
        CutoutSize::Circle { diameter } => {
            let (diameter, center) = together((in_metres(diameter), center))?;
            Opening::circle(center, diameter).map_err(|_| no_shape(place(CutoutField::Width)))
        }
        CutoutSize::Ellipse { width, depth } => {
            let (width, depth, center) = together((in_metres(width), in_metres(depth), center))?;
            Opening::ellipse(center, width, depth, 0.0).map_err(|_| no_shape(place(CutoutField::Width)))
        }
        CutoutSize::Rectangle { width, depth, radius } | CutoutSize::D { width, depth, radius } => {
            let (width, depth, radius, center) =
                together((in_metres(width), in_metres(depth), radius.clone(), center))?;
            let made = if matches!(cutout.size, CutoutSize::D { .. }) {
                Opening::d_shape(center, width, depth, metres(radius))
            } else {
                Opening::rounded_rectangle(center, width, depth, metres(radius))
            };
            made.map_err(|error| match error {
                CornerError::TooLarge { most, .. } => {
                    let most = Word::AtMost(Length::new::<meter>(most));
                    let says = label!("{} is too large for this cutout; {} is the most.", about(radius), most);
                    Waiting::named(place(CutoutField::CornerRadius), says)
                }
                _ => no_shape(place(CutoutField::Width)),
            })
        }
        CutoutSize::Template(corners) => {
            let (shape, center) = together((template(inputs, index, cutout, corners), center))?;
            Ok(shape.translated(center - shape.bounds().center()))
        }
    }
}

/// Findings about the ledges of drop-in bowls.
pub(super) fn advise_ledges(top: &Top, inputs: &TopInputs) -> Vec<Finding> {
    let one = |((index, cutout), rim): ((usize, &CutoutInputs), &Known<Opening>)| {
        let RevealInputs::DropIn(Ok(ledge)) = cutout.reveal else { return None };
        let bounds = rim.as_ref().ok()?.bounds();
        let name = label!("{}Cutout {}", Name::PieceInFront(inputs.piece), index + 1);
        let [width, depth] = [bounds.width(), bounds.height()].map(Length::new::<meter>);
        let (severity, says, remedy) = if 2.0 * ledge + crate::measure::geometry_tolerance() >= width.min(depth) {
            let says = label!(
                "{}: a ledge of {} on both sides leaves no hole of a rim of {} × {}.",
                name,
                about(ledge),
                about(width),
                about(depth)
            );
            (Severity::Stop, says, "Type the size of the whole rim, and what of it lies on the top.")
        } else if ledge < limits::ledge_watch() - crate::measure::geometry_tolerance() {
            let says = label!(
                "{}: the rim lies on {} all round; under {} the bowl may fall through.",
                name,
                about(ledge),
                about(limits::ledge_watch())
            );
            (Severity::Watch, says, "Cut by the template of the bowl, or leave a wider ledge.")
        } else {
            return None;
        };
        Some(Finding {
            severity,
            stage: Stage::Measure,
            place: FieldPath::Cutout(inputs.piece, index, CutoutField::RevealWidth),
            says,
            remedy: remedy.into(),
            source: if severity == Severity::Stop { Source::Arithmetic } else { Source::Practice },
        })
    };
    inputs.cutouts.iter().enumerate().zip(&top.bowls).filter_map(one).collect()
}

/// The hole of a drop-in bowl with a rectangular rim, whose corners are sharp where the ledge takes all of their radius.
fn inside_the_rim(rim: &Opening, radius: f64, ledge: f64) -> Option<Opening> {
    let bounds = rim.bounds();
    let (width, depth) = (bounds.width() - 2.0 * ledge, bounds.height() - 2.0 * ledge);
    Opening::rounded_rectangle(bounds.center(), width, depth, (radius - ledge).max(0.0)).ok()
}

/// The hole of a cutout: its bowl, larger or smaller by the reveal.
pub(super) fn hole(inputs: &TopInputs, index: usize, cutout: &CutoutInputs, bowl: &Known<Opening>) -> Known<Opening> {
    let (outward, width) = match &cutout.reveal {
        RevealInputs::Flush => return bowl.clone(),
        RevealInputs::Shows(width) => (1.0, width),
        RevealInputs::Covers(width) | RevealInputs::DropIn(width) => (-1.0, width),
    };
    let (bowl, width) = together((known_ref(bowl), in_metres(width)))?;
    if let (RevealInputs::DropIn(_), CutoutSize::Rectangle { radius, .. }) = (&cutout.reveal, &cutout.size)
        && let Some(hole) = inside_the_rim(bowl, in_metres(radius)?, width)
    {
        return Ok(hole);
    }
    bowl.offset(outward * width).map_err(|OffsetError { largest, .. }| {
        let most = Length::new::<meter>(largest.abs());
        let says = if largest.abs() > 0.0 && largest.is_finite() {
            label!("the bowl has no room for that; {} is the most.", about(most))
        } else {
            "the bowl has no room for that.".into()
        };
        Waiting::named(FieldPath::Cutout(inputs.piece, index, CutoutField::RevealWidth), says)
    })
}

/// The centre of a cutout, from the lengths that it is placed by.
fn center(inputs: &TopInputs, index: usize, cutout: &CutoutInputs, bounds: &Known<Rect>) -> Known<Point> {
    let start = origin(bounds);
    let across = match &cutout.across {
        AcrossInputs::Left(from_left) => in_metres(from_left).map(|from_left| start.x + from_left),
        AcrossInputs::Right(from_right) => {
            together((in_metres(from_right), bounds.clone())).map(|(from_right, bounds)| bounds.x1 - from_right)
        }
        AcrossInputs::Door { door, off, side } => together((door_center(inputs, index, *door), in_metres(off)))
            .map(|(door, off)| start.x + door + if *side == Hand::Left { -off } else { off }),
    };
    let along = match &cutout.along {
        AlongInputs::Front(from_front) => in_metres(from_front).map(|from_front| start.y + from_front),
        AlongInputs::Back(from_back) => {
            together((in_metres(from_back), bounds.clone())).map(|(from_back, bounds)| bounds.y1 - from_back)
        }
    };
    together((across, along)).map(Point::from)
}

/// The centre of the door that a cutout is centred on, from the left end; metres.
fn door_center(inputs: &TopInputs, index: usize, door: Option<usize>) -> Known<f64> {
    let Some(center) = door.and_then(|door| inputs.doors.get(door)) else {
        let place = FieldPath::Cutout(inputs.piece, index, CutoutField::FromDoor);
        let says = label!(
            "{}Cutout {}: the cabinet door to centre it on is not there; choose one, or measure from an end.",
            Name::PieceInFront(inputs.piece),
            index + 1
        );
        return Err(Waiting::at(place, says));
    };
    in_metres(center)
}

/// The shape of a paper template, where the template's own left and front edges are the axes.
fn template(inputs: &TopInputs, index: usize, cutout: &CutoutInputs, typed: &[TemplateInputs]) -> Known<Opening> {
    let place = |corner, field| FieldPath::Template(inputs.piece, index, corner, field);
    let corners = typed.iter().enumerate().map(|(corner, typed)| {
        let lengths = (in_metres(&typed.from_left), in_metres(&typed.from_front), in_metres(&typed.radius));
        together(lengths).map(|(from_left, from_front, radius)| (corner, (Point::new(from_left, from_front), radius)))
    });
    let mut corners = all(corners)?;
    let name = || label!("{}Cutout {}", Name::PieceInFront(inputs.piece), index + 1);
    if corners.len() < 3 {
        let shown = match corners.first() {
            Some((corner, _)) => place(*corner, TemplateField::FromLeft),
            None => FieldPath::Cutout(inputs.piece, index, cutout.across_field()),
        };
        return Err(Waiting::at(shown, label!("{}: a template needs three corners at least.", name())));
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
            let most = about(Length::new::<meter>(most));
            let says = label!("the sides have no room for that; {} is the most.", most);
            Waiting::named(place(corner, TemplateField::Radius), says)
        }
        _ => {
            let says = label!("{}: these corners give no shape; its sides must not cross or meet twice.", name());
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
    inputs: &TopInputs,
    index: usize,
    set: &HolesInputs,
    bowls: &[Known<Opening>],
    bounds: &Known<Rect>,
) -> Known<Vec<Opening>> {
    let place = |field| FieldPath::Holes(inputs.piece, index, field);
    let spread = set.spread.as_ref().map(in_metres).transpose();
    let middle = match &set.placed {
        HolesPlace::Edges { from_left, from_front } => together((in_metres(from_left), in_metres(from_front)))
            .map(|(from_left, from_front)| origin(bounds) + kurbo::Vec2::new(from_left, from_front)),
        HolesPlace::Bowl { cutout, behind } => {
            let bowl = cutout.and_then(|cutout| bowls.get(cutout)).map(known_ref).unwrap_or_else(|| {
                let says = label!(
                    "{}Holes {}: the cutout to centre them on is not there; choose one, or measure from the edges.",
                    Name::PieceInFront(inputs.piece),
                    index + 1
                );
                Err(Waiting::at(place(HolesField::Behind), says))
            });
            together((bowl, in_metres(behind))).map(|(bowl, behind)| {
                let bounds = bowl.bounds();
                Point::new(bounds.center().x, bounds.y1 + behind)
            })
        }
    };
    let (diameter, spread, middle) = together((in_metres(&set.diameter), spread, middle))?;
    let offsets = spread.map_or_else(|| vec![0.0], |spread| vec![-spread / 2.0, 0.0, spread / 2.0]);
    offsets
        .into_iter()
        .map(|offset| Opening::circle(Point::new(middle.x + offset, middle.y), diameter))
        .collect::<Result<_, _>>()
        .map_err(|_| no_shape(place(HolesField::Diameter)))
}

fn no_shape(place: FieldPath) -> Waiting {
    Waiting::named(place, "these sizes give no shape.")
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
    /// where it lies left of a door's centre, or past the end. `doors` are the centres of the doors below the piece, as
    /// [`doors`] reads them. Nothing while the reference is not known.
    pub fn across_at(&self, doors: &[Known<Length>], cutout: &Cutout, x: f64) -> Option<Length> {
        let bounds = self.outline.as_ref().ok()?.bounds();
        Some(Length::new::<meter>(match cutout.across {
            AcrossFrom::Left => x - bounds.x0,
            AcrossFrom::Right => bounds.x1 - x,
            AcrossFrom::Door => x - bounds.x0 - in_metres(doors.get(cutout.door?)?).ok()?,
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
    let top = Top::of(&TopInputs::read(job, piece));
    let cutouts = top.bowls.len();
    let Ok(centers) = all(doors(job, piece)) else { return false };
    if centers.len() != cutouts || centers.is_empty() {
        return false;
    }
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
    use crate::job::read;
    use crate::job::{CutoutShape, Door, HolePattern, OutlineShape, Reveal, TemplateCorner, Units};
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
            at_doors in proptest::collection::vec(entry(), 0..3),
            round in proptest::bool::ANY,
        ) {
            let mut job = Job::new("test", Units::Inch);
            let piece = &mut job.pieces[0];
            let [width, depth, bow] = size;
            (piece.width, piece.depth, piece.bow) = (width, depth, bow);
            piece.shape = if round { OutlineShape::L } else { OutlineShape::Rectangle };
            (piece.leg, piece.front_depth) = ("3".into(), "3".into());
            (piece.cutouts, piece.holes) = (cutouts, sets);
            piece.doors = at_doors.into_iter().map(|from_left| Door { from_left }).collect();
            let top = Top::of(&TopInputs::read(&job, 0));
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
                if let Some(length) = top.across_at(&doors(&job, 0), cutout, at.x) {
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
