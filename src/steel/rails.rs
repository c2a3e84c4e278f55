//! The rails beside cutouts that a bar may run along.

use super::Chosen;
use crate::measure::Length;
use crate::plane::{Edge, EdgeTag};
use crate::top::{Facing, Rail, RailEnd, Top};
use kurbo::{Point, Vec2};
use uom::si::length::meter;

/// Where a rail lies beside its cutout. Bars are laid in this order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Lies {
    /// In front of it.
    Front,
    /// Behind it.
    Behind,
    /// Between it and that other cutout, by its index.
    Between(usize),
    /// Left of it, towards an end of the piece.
    Left,
    /// Right of it, towards an end of the piece.
    Right,
}

/// A rail that a bar runs along.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BarRail {
    /// The cutout that it lies beside, by its index.
    pub cutout: usize,
    /// Where it lies.
    pub lies: Lies,
    /// Its least width.
    pub width: Length,
    /// Where that is measured, from the cutout across; metres.
    pub at: (Point, Point),
}

impl BarRail {
    /// "the rail in front of cutout 1".
    pub fn words(&self) -> String {
        let number = self.cutout + 1;
        match self.lies {
            Lies::Front => format!("the rail in front of cutout {number}"),
            Lies::Behind => format!("the rail behind cutout {number}"),
            Lies::Between(other) => format!("the rail between cutouts {number} and {}", other + 1),
            Lies::Left => format!("the rail left of cutout {number}"),
            Lies::Right => format!("the rail right of cutout {number}"),
        }
    }
}

/// A rail and an edge that differ in direction by more than this, as a sine, do not run along each other: 3°.
const ALONG: f64 = 0.05;

/// The rails that get a bar, in the order in which bars are laid: front and back, thinnest first, then between
/// cutouts, then towards the ends. Without a limit, what is wider than it is long is no rail; towards an end, where
/// a strip is short and mostly wide, only narrow ones count.
pub(super) fn wanted(top: &Top, chosen: &Chosen) -> Vec<BarRail> {
    let mut found: Vec<BarRail> = Vec::new();
    // Thinnest first: of several edges on one side of a cutout, the nearest makes the rail.
    for rail in &top.rails {
        let Some(found_rail) = beside(rail, chosen) else { continue };
        let same = |other: &BarRail| other.cutout == found_rail.cutout && other.lies == found_rail.lies;
        let limit = chosen.rails_to.unwrap_or_else(|| match found_rail.lies {
            Lies::Left | Lies::Right => crate::top::limits::rail_watch(),
            _ => long(&found_rail, chosen),
        });
        let within = found_rail.width <= limit + crate::measure::geometry_tolerance();
        if !found.iter().any(same) && within {
            found.push(found_rail);
        }
    }
    let rank = |rail: &BarRail| match rail.lies {
        Lies::Front | Lies::Behind => 0,
        Lies::Between(_) => 1,
        Lies::Left | Lies::Right => 2,
    };
    // Stable: the thinnest stays first.
    found.sort_by_key(rank);
    found
}

/// How long a rail is: as far as its cutout reaches along it.
fn long(rail: &BarRail, chosen: &Chosen) -> Length {
    let across = rail.at.1 - rail.at.0;
    let own = chosen.openings.iter().find(|(end, _)| *end == RailEnd::Cutout(rail.cutout));
    let bounds = own.map(|(_, opening)| opening.bounds()).unwrap_or_default();
    Length::new::<meter>(if across.x.abs() > across.y.abs() { bounds.height() } else { bounds.width() })
}

/// The rail, if it is a strip that runs along what it lies between.
fn beside(rail: &Rail, chosen: &Chosen) -> Option<BarRail> {
    let RailEnd::Cutout(cutout) = rail.from else { return None };
    let across = rail.at.1 - rail.at.0;
    if rail.width <= crate::measure::geometry_tolerance()
        || across.hypot() <= crate::measure::geometry_tolerance().get::<meter>()
    {
        return None;
    }
    let lies = match rail.to {
        RailEnd::Edge(edge) => {
            let edge = chosen.outline.edges().get(edge)?;
            runs_along(edge, rail.at.1, across).then(|| towards(across))?
        }
        RailEnd::Cutout(other) => {
            // Two that stand aslant of each other leave no strip.
            let aslant = across.x.abs().min(across.y.abs()) / across.hypot();
            (aslant <= ALONG).then_some(Lies::Between(other))?
        }
        RailEnd::Hole(..) => return None,
    };
    let between = |(end, opening): &(RailEnd, crate::plane::Opening)| {
        let ends = *end == rail.from || *end == rail.to || matches!(end, RailEnd::Hole(..));
        !ends && (1..8).any(|part| opening.contains(rail.at.0 + f64::from(part) / 8.0 * across))
    };
    let clear = !chosen.openings.iter().any(between);
    clear.then_some(BarRail { cutout, lies, width: rail.width, at: rail.at })
}

/// The edge is a side, and runs across the line from the cutout to it.
fn runs_along(edge: &Edge, at: Point, across: Vec2) -> bool {
    let is_side = matches!(edge.tag(), EdgeTag::Side(_));
    let away = |end: Point| (end - at).hypot() > crate::measure::geometry_tolerance().get::<meter>();
    if edge.is_straight() {
        is_side && (edge.chord().dot(across) / (edge.chord().hypot() * across.hypot())).abs() <= ALONG
    } else {
        is_side && away(edge.start()) && away(edge.end())
    }
}

fn towards(across: Vec2) -> Lies {
    match Facing::towards(across) {
        Facing::Right => Lies::Right,
        Facing::Left => Lies::Left,
        Facing::Back => Lies::Behind,
        Facing::Front => Lies::Front,
    }
}
