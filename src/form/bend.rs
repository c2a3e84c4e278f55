//! The side along an arc: a strip that is bent, or layers of board that are cut to it.
//!
//! # Kerfs
//! A saw cut of width k, so deep that a web is left of the strip, closes when the strip turns there by
//! 2 · atan(k ÷ 2d), d being its depth. To turn through the arc's whole sweep takes the sweep divided by
//! that; over the arc's length, radius × sweep, they then lie nearly radius × k ÷ d apart. Where the back of
//! the strip is on the outside of the bend the same cuts open instead of closing, by as much.
//!
//! Between two kerfs the face stays flat and stands off the arc by spacing² ÷ 8 × radius; kerfs are never
//! further apart than that leaves the arc true.

use super::ends::Face;
use crate::form::limits;
use crate::measure::{Angle, Length};
use crate::plane::Edge;
use uom::si::angle::radian;
use uom::si::length::meter;
use uom::si::ratio::ratio;

/// Saw cuts in the back of a strip.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kerfs {
    /// How many.
    pub count: u32,
    /// From one to the next, along the face.
    pub spacing: Length,
    /// How deep.
    pub depth: Length,
    /// What is left of the strip behind them.
    pub web: Length,
}

/// What a strip needs to go round an arc.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Bending {
    /// Nothing.
    Freely,
    /// Saw cuts.
    Kerfed(Kerfs),
    /// It is no thicker than the web that kerfs leave: a thinner one is needed.
    TooStiff,
}

/// The arc that a strip or a stack of layers follows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Arc {
    /// Radius of the face that the concrete is cast against.
    pub radius: Length,
    /// The angle that it turns through.
    pub sweep: Angle,
    /// The side of the strip that is on the inside of the bend.
    pub hollow: Face,
}

impl Arc {
    /// Of an edge of the clear outline; nothing if it is straight.
    pub(super) fn of(edge: &Edge) -> Option<Self> {
        edge.radius().map(|radius| Self {
            radius: Length::new::<meter>(radius),
            sweep: Angle::new::<radian>(edge.sweep().abs()),
            hollow: if edge.is_inward() { Face::Outside } else { Face::Inside },
        })
    }

    /// Length of the face.
    pub fn length(&self) -> Length {
        self.radius * self.sweep.get::<radian>()
    }

    /// Length at that distance behind the face.
    fn length_behind(&self, behind: Length) -> Length {
        let radius = if self.hollow == Face::Inside { self.radius + behind } else { self.radius - behind };
        radius.max(Length::default()) * self.sweep.get::<radian>()
    }
}

/// What a strip of that thickness, which bends to the radius `freely` by itself, needs for the arc.
pub(super) fn bending(arc: &Arc, strip: Length, freely: Length, kerf: Length) -> Bending {
    let nothing = Length::default();
    if arc.radius >= freely - crate::measure::geometry_tolerance() {
        return Bending::Freely;
    }
    let web = limits::kerf_web();
    let depth = strip - web;
    if depth <= crate::measure::geometry_tolerance() || kerf <= nothing {
        return Bending::TooStiff;
    }
    let closes = 2.0 * (kerf / (2.0 * depth)).get::<ratio>().atan();
    let flat = (8.0 * arc.radius * limits::kerf_flat()).sqrt();
    let sweep = arc.sweep.get::<radian>();
    let count = (sweep / closes).max((arc.length() / flat).get::<ratio>());
    let count = (count - crate::measure::COUNT_TOLERANCE).ceil().clamp(1.0, MOST_KERFS);
    Bending::Kerfed(Kerfs { count: count as u32, spacing: arc.length() / count, depth, web })
}

/// More kerfs than this is a typing error.
const MOST_KERFS: f64 = 10_000.0;

/// Length to cut a strip to, that it ends with its arc: along its middle, or of what kerfs leave.
pub(super) fn developed(arc: &Arc, strip: Length, bending: &Bending) -> Length {
    let neutral = if let Bending::Kerfed(kerfs) = bending { kerfs.web } else { strip };
    arc.length_behind(neutral / 2.0)
}

/// The smallest rectangle that a ring piece of that width behind the face is cut from: along its chord, and
/// across it.
pub(super) fn blank(arc: &Arc, width: Length) -> [Length; 2] {
    let half = arc.sweep.get::<radian>() / 2.0;
    let (large, small) = match arc.hollow {
        Face::Inside => (arc.radius + width, arc.radius),
        Face::Outside => (arc.radius, (arc.radius - width).max(Length::default())),
    };
    let across = half.min(std::f64::consts::FRAC_PI_2).sin();
    let back = if half.cos() >= 0.0 { small } else { large };
    [2.0 * large * across, large - back * half.cos()]
}

/// Layers of board for that height, and what has to be shimmed on top of them. A height under one board takes
/// one board, planed down.
pub(super) fn layers(height: Length, board: Length) -> (u32, Length) {
    let whole = ((height + crate::measure::geometry_tolerance()) / board).get::<ratio>().floor();
    let whole = whole.clamp(1.0, MOST_LAYERS);
    let short = height - whole * board;
    (whole as u32, if short > crate::measure::geometry_tolerance() { short } else { Length::default() })
}

/// More layers than this is a typing error.
const MOST_LAYERS: f64 = 1000.0;
