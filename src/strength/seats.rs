//! Where a person may sit: along every stretch that nothing bears, and on every strip beside a cutout. Each place is
//! worked out, and the worst of them is told.

use super::cabinet::Cabinet;
use super::cases::{Load, Slab, knockouts, near_edge};
use super::cut::Along;
use crate::measure::Length;
use crate::top::Facing;
use kurbo::{Point, Rect};
use serde::{Deserialize, Serialize};
use uom::si::f64::Force;

/// Where a person sits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Spot {
    /// In the middle of the front edge.
    FrontEdge,
    /// On the strip beside a cutout.
    Strip {
        /// The cutout, by its index.
        opening: usize,
        /// On which side of it.
        look: Facing,
    },
    /// In front of a gap for an appliance, in its middle.
    Gap,
    /// At the front edge, between that bracket, counted from the left, and the next one.
    BetweenBrackets(usize),
    /// At the front edge, in front of that bracket, counted from the left.
    AtBracket(usize),
    /// In the middle of the left end.
    LeftEnd,
    /// In the middle of the right end.
    RightEnd,
    /// On a corner of the top.
    Corner {
        /// It is the front one.
        front: bool,
        /// It is the left one.
        left: bool,
    },
}

/// Where a top reaches over what bears it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Reach {
    /// Over the front.
    Front,
    /// Over the left end.
    Left,
    /// Over the right end.
    Right,
}

impl Spot {
    /// It is next to the front edge or to an end.
    pub(super) fn is_at_an_edge(self) -> bool {
        match self {
            Self::BetweenBrackets(_) | Self::AtBracket(_) => true,
            Self::FrontEdge | Self::Gap | Self::LeftEnd | Self::RightEnd | Self::Corner { .. } => true,
            Self::Strip { look, .. } => look == Facing::Front,
        }
    }
}

/// One place of several that are tried, and what bears down there.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Seat {
    /// Where.
    pub spot: Spot,
    /// What bears down.
    pub load: Load,
}

/// The person who sits: his weight, on a square of that side.
#[derive(Clone, Copy, Debug)]
pub(super) struct Person {
    pub(super) weight: Force,
    pub(super) seat: Length,
}

impl Person {
    /// He sits with the middle of him there.
    pub(super) fn at(&self, spot: Spot, middle: Point) -> Seat {
        let half = self.seat.value / 2.0;
        let area = Rect::new(middle.x - half, middle.y - half, middle.x + half, middle.y + half);
        Seat { spot, load: Load::Patch { area, force: self.weight } }
    }
}

/// All places that are tried on a top over a cabinet: beside every cutout in the middle of the strip, or next to the
/// cutout where that strip is wide, but for one that lies on a side or a partition; in the middle of the front edge over every gap; else in the middle of the front.
pub(super) fn seats(slab: &Slab, cabinet: &Cabinet, person: Person) -> Vec<Seat> {
    let half = person.seat.value / 2.0;
    let outer = slab.outline.bounds();
    let mut found = Vec::new();
    for (opening, _) in knockouts(slab) {
        // Right over a side or a partition of the cabinet the strip is borne.
        let borne = |x: f64| cabinet.sides().any(|side| (side - x).abs() < half);
        for look in [Facing::Front, Facing::Back, Facing::Left, Facing::Right] {
            let is_beside = matches!(look, Facing::Left | Facing::Right);
            let at = on_strip(slab, opening, look, half).filter(|at| !(is_beside && borne(at.x)));
            found.extend(at.map(|at| person.at(Spot::Strip { opening, look }, at)));
        }
    }
    for (from, to) in &cabinet.open {
        let taken = knockouts(slab).any(|(_, shape)| (*from..*to).contains(&shape.bounds().center().x));
        if !taken && from < to {
            let x = f64::midpoint(*from, *to);
            found.push(person.at(Spot::Gap, Point::new(x, near_edge(slab, Along::X, x) + half)));
        }
    }
    if found.is_empty() {
        let x = outer.center().x;
        found.push(person.at(Spot::FrontEdge, Point::new(x, near_edge(slab, Along::X, x) + half)));
    }
    found
}

/// Where a person whose seat is twice `half` wide sits on the strip on that side of a cutout.
pub(super) fn on_strip(slab: &Slab, opening: usize, look: Facing, half: f64) -> Option<Point> {
    let (outer, own) = (slab.outline.bounds(), slab.openings.get(opening)?.bounds());
    let middle = own.center();
    // What lies next to it on each side: another cutout, or the end.
    let beside = |taken: &Rect| taken.y0 < middle.y && middle.y < taken.y1;
    let others = || knockouts(slab).map(|(_, other)| other.bounds()).filter(beside);
    Some(match look {
        Facing::Front => Point::new(middle.x, f64::midpoint(near_edge(slab, Along::X, middle.x), own.y0)),
        Facing::Back => Point::new(middle.x, own.y1 + ((outer.y1 - own.y1) / 2.0).min(half)),
        Facing::Left => {
            let left = others().map(|other| other.x1).filter(|at| *at <= own.x0).fold(outer.x0, f64::max);
            Point::new(own.x0 - ((own.x0 - left) / 2.0).min(half), middle.y)
        }
        Facing::Right => {
            let right = others().map(|other| other.x0).filter(|at| *at >= own.x1).fold(outer.x1, f64::min);
            Point::new(own.x1 + ((right - own.x1) / 2.0).min(half), middle.y)
        }
    })
}

/// The places on an edge that reaches over: its middle and both of its corners.
pub(super) fn over(slab: &Slab, reach: Reach, person: Person) -> Vec<Seat> {
    let half = person.seat.value / 2.0;
    let outer = slab.outline.bounds();
    let corner = |front: bool, left: bool| {
        let x = if left { outer.x0 + half } else { outer.x1 - half };
        let y = if front { near_edge(slab, Along::X, x) + half } else { outer.y1 - half };
        person.at(Spot::Corner { front, left }, Point::new(x, y))
    };
    let middle = outer.center();
    match reach {
        Reach::Front => {
            let at = Point::new(middle.x, near_edge(slab, Along::X, middle.x) + half);
            vec![person.at(Spot::FrontEdge, at), corner(true, true), corner(true, false)]
        }
        Reach::Left => {
            let at = Point::new(near_edge(slab, Along::Y, middle.y) + half, middle.y);
            vec![person.at(Spot::LeftEnd, at), corner(true, true), corner(false, true)]
        }
        Reach::Right => {
            let at = Point::new(outer.x1 - half, middle.y);
            vec![person.at(Spot::RightEnd, at), corner(true, false), corner(false, false)]
        }
    }
}
