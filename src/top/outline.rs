//! The outline of a piece: from its sizes, from the walls of its opening, or walked corner by corner.

use super::Surveyed;
use super::inputs::{CornerInputs, LegInputs, OpeningInputs, ShapeInputs, TopInputs};
use crate::job::{CornerField, FieldPath, Hand, LegField, OpeningField, PieceField, StationField};
use crate::label;
use crate::measure::Length;
use crate::plane::{CornerError, EdgeTag, Outline, OutlineError};
use crate::room::{self, Around, Hiding, Reading, ScribeLine, Span, Station, Walk, words};
use crate::working::{Known, Label, Needs, Waiting, Word, about, all, known_ref, together};
use kurbo::{Affine, Point};
use uom::si::length::meter;

fn metres(length: Length) -> f64 {
    length.get::<meter>()
}

/// The finished outline of a piece.
pub(super) fn of(
    inputs: &TopInputs,
    surveyed: Option<&Known<(Surveyed, [Point; 4])>>,
    walked: Option<&Known<Walk>>,
) -> Known<Outline> {
    let piece = inputs.piece;
    let size = |length: &Known<Length>| known_ref(length).map(|length| metres(*length));
    let bad = |field: PieceField| {
        move |error: OutlineError| Waiting::at(FieldPath::Piece(piece, field), outline_words(inputs, error))
    };
    let base = match &inputs.shape {
        ShapeInputs::Rectangle { width, depth } => {
            let (width, depth) = together((size(width), size(depth)))?;
            Outline::rectangle(width, depth).map_err(bad(PieceField::Width))?
        }
        ShapeInputs::L { width, depth, leg, front_depth, hand: _ } => {
            let (width, depth, leg, front) = together((size(width), size(depth), size(leg), size(front_depth)))?;
            Outline::l_shape(width, depth, leg, front).map_err(bad(PieceField::Leg))?
        }
        ShapeInputs::U { width, depth, left_leg, right_leg, right_depth, front_depth } => {
            let (width, depth, left, right, right_depth, front) = together((
                size(width),
                size(depth),
                size(left_leg),
                size(right_leg),
                size(right_depth),
                size(front_depth),
            ))?;
            Outline::u_shape(width, depth, right_depth, left, right, front).map_err(bad(PieceField::Leg))?
        }
        ShapeInputs::Walked(legs) => {
            let walk = walked.cloned().unwrap_or_else(|| Err(nothing_walked(piece)))?;
            let straight = Outline::polygon(&front_level(&walk.corners)).map_err(bad(PieceField::Width))?;
            bowed_sides(inputs, legs, straight)?
        }
        ShapeInputs::Opening(_) => {
            let (_, corners) = surveyed.cloned().unwrap_or_else(|| Err(nothing_walked(piece)))?;
            Outline::polygon(&corners).map_err(bad(PieceField::Width))?
        }
    };
    let bowed = bowed(&inputs.bow, FieldPath::Piece(piece, PieceField::Bow), 0, base)?;
    let shaped = corners(inputs, bowed)?;
    // The leg of an L is drawn at the left end first; corners and sides keep their numbers.
    if matches!(inputs.shape, ShapeInputs::L { hand: Hand::Right, .. }) {
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
fn bowed_sides(inputs: &TopInputs, legs: &[LegInputs], mut outline: Outline) -> Known<Outline> {
    for (side, leg) in legs.iter().enumerate() {
        let place = FieldPath::Leg(inputs.piece, side, LegField::Bow);
        outline = bowed(&leg.bow, place, side, outline)?;
    }
    Ok(outline)
}

/// An outline of which one side bows out by that, which is typed at that place.
fn bowed(rise: &Known<Length>, place: FieldPath, side: usize, outline: Outline) -> Known<Outline> {
    let rise = *known_ref(rise)?;
    if rise <= Length::default() {
        return Ok(outline);
    }
    let edge = vertex(&outline, side).unwrap_or(0);
    outline.bowed(edge, metres(rise)).map_err(|error| bad_corner(place, error))
}

/// The edge of a side in an outline, which is also the vertex where it begins; nothing where no such side is left.
fn vertex(outline: &Outline, side: usize) -> Option<usize> {
    u16::try_from(side).ok().and_then(|side| outline.edge_tagged(EdgeTag::Side(side)))
}

fn corners(inputs: &TopInputs, mut outline: Outline) -> Known<Outline> {
    let mut waiting = Needs::default();
    let sides = inputs.edges.len();
    let round = full_round_ends(inputs, &outline);
    for (side, corner) in inputs.corners.iter().enumerate() {
        let place = |field| FieldPath::Corner(inputs.piece, side, field);
        if round.iter().any(|end| *end == side || (*end + 1) % sides == side) {
            continue;
        }
        let Some(vertex) = vertex(&outline, side) else { continue };
        let made = match corner {
            CornerInputs::Square => continue,
            CornerInputs::Rounded(radius) => {
                known_ref(radius).map(|radius| (place(CornerField::Radius), outline.rounded(vertex, metres(*radius))))
            }
            CornerInputs::Clipped(before, after) => {
                together((known_ref(before), known_ref(after))).map(|(before, after)| {
                    (place(CornerField::Before), outline.clipped(vertex, metres(*before), metres(*after)))
                })
            }
        };
        match made {
            Ok((_, Ok(shaped))) => outline = shaped,
            Ok((at, Err(error))) => waiting.add(bad_corner(at, error)),
            Err(other) => waiting.add(other),
        }
    }
    for side in round {
        let at = FieldPath::Corner(inputs.piece, side, CornerField::Radius);
        match vertex(&outline, side).map(|edge| outline.half_round(edge)) {
            Some(Ok(shaped)) => outline = shaped,
            Some(Err(error)) => waiting.add(bad_corner(at, error)),
            None => {}
        }
    }
    waiting.unless(outline)
}

/// The sides whose two corners are rounded with half their length: they become full rounds.
fn full_round_ends(inputs: &TopInputs, outline: &Outline) -> Vec<usize> {
    let sides = inputs.edges.len();
    let radius = |side: usize| match inputs.corners.get(side) {
        Some(CornerInputs::Rounded(Ok(radius))) => Some(metres(*radius)),
        _ => None,
    };
    let is_full = |side: &usize| {
        let edge = vertex(outline, *side);
        let Some(length) = edge.and_then(|edge| outline.edges().get(edge)).map(crate::plane::Edge::length) else {
            return false;
        };
        let half = |radius: f64| (2.0 * radius - length).abs() < 1e-6;
        radius(*side).is_some_and(half) && radius((*side + 1) % sides.max(1)).is_some_and(half)
    };
    (0..sides).filter(is_full).collect()
}

/// Why the sizes give no outline, in words.
fn outline_words(inputs: &TopInputs, error: OutlineError) -> Label {
    let side = |edge: usize| inputs.names.side(edge).to_lowercase();
    match error {
        OutlineError::TooWide { edge, most } => {
            let most = Length::new::<meter>(most);
            label!("The {} side must stay under {} for the rest to fit.", side(edge), about(most))
        }
        OutlineError::Crosses { edge, other } => {
            label!("The {} and the {} side run across each other.", side(edge), side(other))
        }
        OutlineError::TooShort { edge } => label!("The {} side has no length.", side(edge)),
        OutlineError::TooSharp { edge, next } => {
            label!("The {} and the {} side double back on each other.", side(edge), side(next))
        }
        OutlineError::Clockwise => "The corners run clockwise; walk round it with the piece on your left.".into(),
        OutlineError::TooFew => "An outline needs three sides at least.".into(),
        _ => "These sizes give no outline.".into(),
    }
}

/// Waiting for a corner or a bow that cannot be made so.
fn bad_corner(place: FieldPath, error: CornerError) -> Waiting {
    match error {
        CornerError::TooLarge { most, .. } => {
            let most = Word::AtMost(Length::new::<meter>(most));
            Waiting::named(place, label!("the sides have no room for that; {} is the most.", most))
        }
        CornerError::NotStraight { .. } => Waiting::named(place, "only between straight sides."),
        _ => Waiting::named(place, "this gives no outline."),
    }
}

/// What the readings of the opening say, and the corners of the piece that fits it, the front left one at
/// the origin.
pub(super) fn surveyed(inputs: &TopInputs, opening: &OpeningInputs) -> Known<(Surveyed, [Point; 4])> {
    let piece = inputs.piece;
    let walls = opening.walls;
    let (taken, clearance, overhang, end) = together((
        known_ref(&opening.readings),
        opening.clearance.clone(),
        opening.overhang.clone(),
        opening.end_overhang.clone(),
    ))?;
    let readings: Vec<Reading> = taken.iter().map(|(_, reading)| *reading).collect();
    let survey = room::survey(walls, &readings).map_err(|problems| {
        let mut waiting = Needs::default();
        for problem in &problems {
            let at = problem.reading().and_then(|index| Some(taken.get(index)?.0)).unwrap_or(opening.first_blank);
            waiting.add(Waiting::at(at, words::problem(problem, &readings, inputs.units)));
        }
        waiting.or_at(opening.first_blank, "The readings do not make an opening.")
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
    let ways = known_ref(&inputs.thickness).and_then(|thickness| {
        room::ways_in(&survey.corners, walls, &corners, *thickness)
            .map_err(|problem| Waiting::at(FieldPath::Piece(piece, PieceField::Thickness), words::way_problem(problem)))
    });
    // Cutouts are measured from the piece, not from the opening.
    let corners = corners.map(|corner| corner - front_left.to_vec2());
    let hiding = opening.stations.as_ref().map(|stations| hiding(piece, stations, &opening.backsplash, clearance));
    Ok((Surveyed { survey, readings, front_left, ways, hiding }, corners))
}

/// What hides the gap along the back wall.
fn hiding(
    piece: usize,
    stations: &Known<Vec<Station>>,
    backsplash: &Known<Option<Length>>,
    clearance: Length,
) -> Known<Hiding> {
    let (stations, backsplash) = together((known_ref(stations), known_ref(backsplash)))?;
    let line = ScribeLine::of(stations).map_err(|problem| {
        Waiting::at(FieldPath::Station(piece, 0, StationField::Along), words::scribe_problem(problem))
    })?;
    Ok(line.hiding(clearance, *backsplash))
}

/// The walk around a piece that is measured corner by corner.
pub(super) fn walked(inputs: &TopInputs, legs: &[LegInputs]) -> Known<Walk> {
    if legs.is_empty() {
        return Err(nothing_walked(inputs.piece));
    }
    let sides: Vec<_> = all(legs.iter().map(|leg| leg.side.clone()))?;
    room::walk_outline(&sides).map_err(|problem| {
        Waiting::at(FieldPath::Leg(inputs.piece, 0, LegField::Length), words::walk_problem(problem, inputs.units))
    })
}
