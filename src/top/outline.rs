//! The outline of a piece: from its sizes, from the walls of its opening, or walked corner by corner.

use super::Surveyed;
use crate::job::read::{self, both};
use crate::job::{
    CornerField, CornerKind, EdgeKind, FieldPath, Hand, Job, LegField, Measured, OpeningField, OpeningWalls,
    OutlineShape, Piece, PieceField, PieceKind, ReadingField, StationField,
};
use crate::measure::Length;
use crate::plane::{CornerError, EdgeTag, Outline, OutlineError};
use crate::room::{self, Around, Corner, Hiding, Reading, ScribeLine, Span, Station, Walk, Walls, words};
use crate::top::limits;
use crate::working::{Known, Needs, Waiting, all};
use kurbo::{Affine, Point};
use uom::si::length::meter;

/// The finished outline of a piece.
pub(super) fn of(
    job: &Job,
    piece: usize,
    typed: &Piece,
    surveyed: Option<&Known<(Surveyed, [Point; 4])>>,
    walked: Option<&Known<Walk>>,
) -> Known<Outline> {
    let size = |field| read::positive_length(job, FieldPath::Piece(piece, field)).map(|length| length.get::<meter>());
    let bad = |field: PieceField| {
        move |error: OutlineError| Waiting::at(FieldPath::Piece(piece, field), outline_words(job, typed, error))
    };
    let base = match typed.shape {
        OutlineShape::Rectangle => {
            let (width, depth) = both(size(PieceField::Width), size(PieceField::Depth))?;
            Outline::rectangle(width, depth).map_err(bad(PieceField::Width))?
        }
        OutlineShape::L => {
            let whole = both(size(PieceField::Width), size(PieceField::Depth));
            let ((width, depth), (leg, front)) =
                both(whole, both(size(PieceField::Leg), size(PieceField::FrontDepth)))?;
            Outline::l_shape(width, depth, leg, front).map_err(bad(PieceField::Leg))?
        }
        OutlineShape::U => {
            let whole = both(size(PieceField::Width), size(PieceField::Depth));
            let legs = both(size(PieceField::Leg), size(PieceField::RightLeg));
            let depths = both(size(PieceField::RightDepth), size(PieceField::FrontDepth));
            let ((width, depth), ((left, right), (right_depth, front))) = both(whole, both(legs, depths))?;
            Outline::u_shape(width, depth, right_depth, left, right, front).map_err(bad(PieceField::Leg))?
        }
        OutlineShape::Walked => {
            let walk = walked.cloned().unwrap_or_else(|| Err(nothing_walked(piece)))?;
            let straight = Outline::polygon(&front_level(&walk.corners)).map_err(bad(PieceField::Width))?;
            bowed_sides(job, piece, typed, straight)?
        }
        OutlineShape::Opening => {
            let (_, corners) = surveyed.cloned().unwrap_or_else(|| Err(nothing_walked(piece)))?;
            Outline::polygon(&corners).map_err(bad(PieceField::Width))?
        }
    };
    let bowed = bowed(job, FieldPath::Piece(piece, PieceField::Bow), 0, base)?;
    let shaped = corners(job, piece, typed, bowed)?;
    // The leg of an L is drawn at the left end first; corners and sides keep their numbers.
    if typed.shape == OutlineShape::L && typed.hand == Hand::Right {
        Ok(shaped.mirrored(shaped.bounds().center().x))
    } else {
        Ok(shaped)
    }
}

fn nothing_walked(piece: usize) -> Waiting {
    Waiting::at(FieldPath::Piece(piece, PieceField::Name), "Nothing is measured yet.")
}

/// The corners turned about the first so that the front runs from left to right: spreading the closure of a
/// walk turns it a little.
fn front_level(corners: &[Point]) -> Vec<Point> {
    let &[first, second, ..] = corners else { return corners.to_vec() };
    let back = Affine::rotate_about(-(second - first).atan2(), first);
    corners.iter().map(|corner| back * *corner).collect()
}

/// The sides of a walk that bow out, as arcs over their chords.
fn bowed_sides(job: &Job, piece: usize, typed: &Piece, mut outline: Outline) -> Known<Outline> {
    for side in 0..typed.walk.len() {
        outline = bowed(job, FieldPath::Leg(piece, side, LegField::Bow), side, outline)?;
    }
    Ok(outline)
}

/// An outline of which one side bows out by what is typed at that place.
fn bowed(job: &Job, place: FieldPath, side: usize, outline: Outline) -> Known<Outline> {
    let Some(rise) = read::optional(job, place, read::length)?.filter(|rise| *rise > Length::default()) else {
        return Ok(outline);
    };
    let edge = u16::try_from(side).ok().and_then(|side| outline.edge_tagged(EdgeTag::Side(side))).unwrap_or(0);
    outline.bowed(edge, rise.get::<meter>()).map_err(|error| Waiting::at(place, corner_words(job, place, error)))
}

fn corners(job: &Job, piece: usize, typed: &Piece, mut outline: Outline) -> Known<Outline> {
    let mut waiting = Needs::default();
    let round = full_round_ends(job, piece, typed, &outline);
    for (side, corner) in typed.corners.iter().enumerate().take(typed.sides()) {
        let place = |field| FieldPath::Corner(piece, side, field);
        let size = |field| read::positive_length(job, place(field)).map(|length| length.get::<meter>());
        if round.iter().any(|end| *end == side || (*end + 1) % typed.sides() == side) {
            continue;
        }
        let Some(vertex) = u16::try_from(side).ok().and_then(|side| outline.edge_tagged(EdgeTag::Side(side))) else {
            continue;
        };
        let made = match corner.kind {
            CornerKind::Square => continue,
            CornerKind::Rounded => {
                let at = place(CornerField::Radius);
                size(CornerField::Radius).map(|radius| (at, outline.rounded(vertex, radius)))
            }
            CornerKind::Clipped => {
                let at = place(CornerField::Before);
                both(size(CornerField::Before), size(CornerField::After))
                    .map(|(before, after)| (at, outline.clipped(vertex, before, after)))
            }
        };
        match made {
            Ok((_, Ok(shaped))) => outline = shaped,
            Ok((at, Err(error))) => waiting.add(Waiting::at(at, corner_words(job, at, error))),
            Err(other) => waiting.add(other),
        }
    }
    for side in round {
        let at = FieldPath::Corner(piece, side, CornerField::Radius);
        let edge = u16::try_from(side).ok().and_then(|side| outline.edge_tagged(EdgeTag::Side(side)));
        match edge.map(|edge| outline.half_round(edge)) {
            Some(Ok(shaped)) => outline = shaped,
            Some(Err(error)) => waiting.add(Waiting::at(at, corner_words(job, at, error))),
            None => {}
        }
    }
    waiting.unless(outline)
}

/// The sides whose two corners are rounded with half their length: they become full rounds.
fn full_round_ends(job: &Job, piece: usize, typed: &Piece, outline: &Outline) -> Vec<usize> {
    let sides = typed.sides();
    let radius = |side: usize| {
        let rounded = typed.corner(side).kind == CornerKind::Rounded;
        let read = || read::positive_length(job, FieldPath::Corner(piece, side, CornerField::Radius)).ok();
        if rounded { read().map(|length| length.get::<meter>()) } else { None }
    };
    let is_full = |side: &usize| {
        let edge = u16::try_from(*side).ok().and_then(|side| outline.edge_tagged(EdgeTag::Side(side)));
        let Some(length) = edge.and_then(|edge| outline.edges().get(edge)).map(crate::plane::Edge::length) else {
            return false;
        };
        let half = |radius: f64| (2.0 * radius - length).abs() < 1e-6;
        radius(*side).is_some_and(half) && radius((*side + 1) % sides.max(1)).is_some_and(half)
    };
    (0..sides).filter(is_full).collect()
}

/// Why the sizes give no outline, in words.
fn outline_words(job: &Job, typed: &Piece, error: OutlineError) -> String {
    let side = |edge: usize| typed.side_name(edge).to_lowercase();
    let length = |metres: f64| crate::finding::say::length(Length::new::<meter>(metres), job.units);
    match error {
        OutlineError::TooWide { edge, most } => {
            format!("The {} side must stay under {} for the rest to fit.", side(edge), length(most))
        }
        OutlineError::Crosses { edge, other } => {
            format!("The {} and the {} side run across each other.", side(edge), side(other))
        }
        OutlineError::TooShort { edge } => format!("The {} side has no length.", side(edge)),
        OutlineError::TooSharp { edge, next } => {
            format!("The {} and the {} side double back on each other.", side(edge), side(next))
        }
        OutlineError::Clockwise => "The corners run clockwise; walk round it with the piece on your left.".to_owned(),
        OutlineError::TooFew => "An outline needs three sides at least.".to_owned(),
        _ => "These sizes give no outline.".to_owned(),
    }
}

/// Why a corner or a bow cannot be made so, in words.
fn corner_words(job: &Job, place: FieldPath, error: CornerError) -> String {
    let name = read::name_of(job, place);
    match error {
        CornerError::TooLarge { most, .. } => {
            let most = crate::finding::say::at_most(Length::new::<meter>(most), job.units);
            format!("{name}: the sides have no room for that; {most} is the most.")
        }
        CornerError::NotStraight { .. } => format!("{name}: only between straight sides."),
        _ => format!("{name}: this gives no outline."),
    }
}

/// The walls of an opening as the room counts them.
fn walls_of(walls: OpeningWalls) -> Walls {
    match walls {
        OpeningWalls::Three => Walls::Three,
        OpeningWalls::BackAndLeft => Walls::BackAndLeft,
        OpeningWalls::BackAndRight => Walls::BackAndRight,
        OpeningWalls::Back => Walls::Back,
    }
}

/// The readings that were taken, and for each the index it is typed under.
pub(super) fn readings(job: &Job, piece: usize, typed: &Piece) -> Known<Vec<(usize, Reading)>> {
    let taken = typed.opening.readings.iter().enumerate().filter_map(|(index, reading)| {
        let place = |field| FieldPath::Reading(piece, index, field);
        let fields: &[ReadingField] = if reading.of.is_corner() {
            &[ReadingField::OneLeg, ReadingField::OtherLeg, ReadingField::Between]
        } else {
            &[ReadingField::Length]
        };
        // A reading of which nothing is typed was not taken.
        if fields.iter().all(|field| reading.entry(*field).is_blank()) {
            return None;
        }
        let length = |field| read::positive_length(job, place(field));
        let span = |span| length(ReadingField::Length).map(|length| Reading::span(span, length));
        let marks = |corner| {
            both(both(length(ReadingField::OneLeg), length(ReadingField::OtherLeg)), length(ReadingField::Between))
                .map(|((one_leg, other_leg), between)| Reading::marks(corner, one_leg, other_leg, between))
        };
        let read = match reading.of {
            Measured::Front => span(Span::Front),
            Measured::Right => span(Span::Right),
            Measured::Back => span(Span::Back),
            Measured::Left => span(Span::Left),
            Measured::DiagonalFromFrontLeft => span(Span::DiagonalFromFrontLeft),
            Measured::DiagonalFromFrontRight => span(Span::DiagonalFromFrontRight),
            Measured::BackLeftCorner => marks(Corner::BackLeft),
            Measured::BackRightCorner => marks(Corner::BackRight),
        };
        Some(read.map(|reading| (index, reading)))
    });
    all(taken)
}

/// What the readings of the opening say, and the corners of the piece that fits it, the front left one at
/// the origin.
pub(super) fn surveyed(job: &Job, piece: usize, typed: &Piece) -> Known<(Surveyed, [Point; 4])> {
    let optional =
        |field| read::optional(job, FieldPath::Opening(piece, field), read::length).map(Option::unwrap_or_default);
    let walls = walls_of(typed.opening.walls);
    let (taken, (clearance, (overhang, end))) = both(
        readings(job, piece, typed),
        both(
            optional(OpeningField::Clearance),
            both(optional(OpeningField::Overhang), optional(OpeningField::EndOverhang)),
        ),
    )?;
    let place = |index: usize| {
        let index = taken.get(index).map_or(0, |(index, _)| *index);
        let corner = typed.opening.readings.get(index).is_some_and(|reading| reading.of.is_corner());
        FieldPath::Reading(piece, index, if corner { ReadingField::Between } else { ReadingField::Length })
    };
    let readings: Vec<Reading> = taken.iter().map(|(_, reading)| *reading).collect();
    let survey = room::survey(walls, &readings).map_err(|problems| {
        let mut waiting = Needs::default();
        for problem in &problems {
            let at = problem.reading().map_or_else(|| first_blank(piece, typed), &place);
            waiting.add(Waiting::at(at, words::problem(problem, &readings, job.units)));
        }
        waiting.or_at(first_blank(piece, typed), "The readings do not make an opening.")
    })?;
    let side = |is_wall: bool, overhang: Length| if is_wall { clearance } else { overhang };
    let around = Around {
        front: overhang,
        back: clearance,
        left: side(walls.has(Span::Left), end),
        right: side(walls.has(Span::Right), end),
    };
    let corners = room::top_in_opening(&survey.corners, walls, &around).map_err(|problem| {
        Waiting::at(FieldPath::Opening(piece, OpeningField::Clearance), words::offset_problem(problem))
    })?;
    let front_left = corners[0];
    let thickness = read::positive_length(job, FieldPath::Piece(piece, PieceField::Thickness));
    let ways = thickness.and_then(|thickness| {
        room::ways_in(&survey.corners, walls, &corners, thickness)
            .map_err(|problem| Waiting::at(FieldPath::Piece(piece, PieceField::Thickness), words::way_problem(problem)))
    });
    // Cutouts are measured from the piece, not from the opening.
    let corners = corners.map(|corner| corner - front_left.to_vec2());
    let hiding = (!typed.opening.stations.is_empty()).then(|| hiding(job, piece, typed, clearance));
    Ok((Surveyed { survey, readings, front_left, ways, hiding }, corners))
}

/// What hides the gap along the back wall.
fn hiding(job: &Job, piece: usize, typed: &Piece, clearance: Length) -> Known<Hiding> {
    let stations = (0..typed.opening.stations.len()).map(|index| {
        let length = |field| read::length(job, FieldPath::Station(piece, index, field));
        both(length(StationField::Along), length(StationField::Gap)).map(|(along, gap)| Station { along, gap })
    });
    let backsplash = read::optional(job, FieldPath::Opening(piece, OpeningField::Backsplash), read::length);
    let (stations, backsplash) = both(all(stations), backsplash)?;
    let backsplash = backsplash.or_else(|| standing_backsplash(job, typed));
    let line = ScribeLine::of(&stations).map_err(|problem| {
        Waiting::at(FieldPath::Station(piece, 0, StationField::Along), words::scribe_problem(problem))
    })?;
    Ok(line.hiding(clearance, backsplash))
}

/// Thickness of the backsplash that stands on the back edge: of the first one of the job, else the usual.
fn standing_backsplash(job: &Job, typed: &Piece) -> Option<Length> {
    /// Number of the back of a piece that takes its shape from an opening.
    const BACK: usize = 2;
    (typed.edge(BACK).kind == EdgeKind::Backsplash).then(|| {
        let cast = job.pieces.iter().position(|piece| piece.kind == PieceKind::Backsplash);
        let place = cast.map(|piece| FieldPath::Piece(piece, PieceField::Thickness));
        let thickness = place.and_then(|place| read::positive_length(job, place).ok());
        thickness.unwrap_or_else(limits::backsplash_usual)
    })
}

/// The first reading that is still blank.
fn first_blank(piece: usize, typed: &Piece) -> FieldPath {
    let blank = typed.opening.readings.iter().position(|reading| reading.length.is_blank() && !reading.of.is_corner());
    FieldPath::Reading(piece, blank.unwrap_or(0), ReadingField::Length)
}

/// The walk around a piece that is measured corner by corner.
pub(super) fn walked(job: &Job, piece: usize, typed: &Piece) -> Known<Walk> {
    if typed.walk.is_empty() {
        return Err(nothing_walked(piece));
    }
    let legs = (0..typed.walk.len()).map(|side| {
        let place = |field| FieldPath::Leg(piece, side, field);
        both(read::positive_length(job, place(LegField::Length)), read::angle(job, place(LegField::Angle)))
            .map(|(length, angle)| room::WalkSide { length, angle })
    });
    let legs = all(legs)?;
    room::walk_outline(&legs).map_err(|problem| {
        Waiting::at(FieldPath::Leg(piece, 0, LegField::Length), words::walk_problem(problem, job.units))
    })
}
