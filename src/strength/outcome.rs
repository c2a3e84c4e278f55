//! What one case comes to.

use super::cases::{Case, LoadCase, SupportKind};
use super::cut::{Along, Beam, Span};
use super::limits;
use super::reading::Face;
use super::seats::Spot;
use super::section::face_stress;
use crate::measure::{Length, Pressure, Quantity, Units, write_force};
use crate::top::Facing;
use crate::working::{Figure, Named, Source, Working};
use kurbo::{Point, Vec2};
use serde::{Deserialize, Serialize};
use uom::si::f64::{Force, Torque};
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::torque::newton_meter;

/// What one support bears.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Reaction {
    /// Who or what bears.
    pub bears: SupportKind,
    /// The force that it bears; negative where it holds down.
    pub force: Force,
    /// Its share of all that is borne.
    pub share: f64,
}

impl Reaction {
    /// The force in words: "85 lb".
    pub fn words(&self, units: Units) -> String {
        write_force(self.force, units).text
    }
}

/// Where a place of the top is, in words.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum WorstLocation {
    /// Beside no opening.
    Middle,
    /// On the strip beside an opening.
    Rail {
        /// The opening, by its index.
        opening: usize,
        /// The opening on the strip's other side, where it is none of the edges.
        other: Option<usize>,
        /// Towards which side of the opening it lies.
        look: Facing,
    },
}

impl WorstLocation {
    /// "the rail in front of the left sink", where `name` says "the left sink" of an opening.
    pub fn words(self, name: &dyn Fn(usize) -> String) -> String {
        match self {
            Self::Middle => "the middle, away from any cutout".to_owned(),
            Self::Rail { opening, other: Some(other), .. } => {
                format!("the strip between {} and {}", name(opening), name(other))
            }
            Self::Rail { opening, other: None, look } => {
                let side = match look {
                    Facing::Front => "in front of",
                    Facing::Right => "right of",
                    Facing::Back => "behind",
                    Facing::Left => "left of",
                };
                format!("the rail {side} {}", name(opening))
            }
        }
    }
}

/// Towards which side a place lies from an opening, seen by a cut across a beam.
pub(super) fn look(along: Along, from: Vec2) -> Facing {
    match (along, from.x > 0.0, from.y > 0.0) {
        (Along::X, _, true) => Facing::Back,
        (Along::X, _, false) => Facing::Front,
        (Along::Y, true, _) => Facing::Right,
        (Along::Y, false, _) => Facing::Left,
    }
}

/// The hand check of a strip: what statics gives for the cut through it, spread evenly over all that it cuts.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Hand {
    /// The bending moment at the cut.
    pub moment: Torque,
    /// Width of all that it cuts.
    pub width: Length,
    /// The stress at the faces of the cut.
    pub stress: Pressure,
}

/// The worst place of a case.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Worst {
    /// Where; metres.
    pub at: Point,
    /// On which face. On edge both are pulled alike.
    pub face: Face,
    /// What it lies beside.
    pub beside: WorstLocation,
    /// The largest tension, the mean over one thickness: what is held against what is allowed.
    pub stress: Pressure,
    /// The mean over the strip there, from the same solution; on edge, the bending of the whole alone.
    pub strip: Pressure,
    /// Width of that strip.
    pub width: Length,
    /// The strip by hand; nothing on edge, where the stress itself is by hand.
    pub hand: Option<Hand>,
    /// A sharp inside corner is next to it: round it.
    pub sharp: bool,
}

/// The largest tension at every node over what is allowed: what a map is coloured by. Peaks at corners and points
/// belong to the mesh; a map is capped at what [`Worst::stress`] comes to.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct UtilizationField {
    /// On the underside.
    pub underside: Vec<f64>,
    /// On the top face.
    pub top: Vec<f64>,
}

/// What a case comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// What happens.
    pub kind: LoadCase,
    /// Where the person sits, where several places were tried.
    pub spot: Option<Spot>,
    /// For the map; empty on edge.
    pub drawn: UtilizationField,
    /// The worst place; nothing where nothing is pulled.
    pub worst: Option<Worst>,
    /// The bending stress that is allowed.
    pub allowable: Pressure,
    /// Stress over what is allowed: 1 is the limit; 1.5 is where it cracks.
    pub utilization: f64,
    /// How far it sags, and where; nothing on edge.
    pub deflection: Option<(Length, Point)>,
    /// Who bears how much.
    pub reactions: Vec<Reaction>,
    /// How far forces are out of balance, as a share.
    pub imbalance: f64,
}

impl Outcome {
    /// It is expected to crack: tension is over the modulus of rupture, not only over what is allowed.
    pub fn cracks(&self) -> bool {
        self.utilization > limits::CRACKING_MARGIN
    }

    /// It stays under what is allowed.
    pub fn holds(&self) -> bool {
        self.utilization <= 1.0
    }
}

/// The hand calculation behind what a case comes to.
pub(super) fn working(
    (case, spot): (&Case, Option<Spot>),
    names: &[String],
    thickness: Length,
    worst: Option<&Worst>,
    utilization: f64,
    units: Units,
) -> Working {
    let allowable = case.concrete.allowable(units);
    let stress = worst.map_or_else(Pressure::default, |worst| worst.stress);
    let told = match worst {
        Some(_) => stress.stated(mean_of(case.kind), Source::Arithmetic).called("tension"),
        None => stress.named("tension"),
    };
    let hand = worst.and_then(|worst| worst.hand.as_ref());
    let told = match hand {
        Some(hand) => told.after_first(&hand.figure(thickness).working),
        None => told,
    };
    let counts = (case.multiplier != 1.0).then(|| case.counts.times(case.multiplier));
    let told = match &counts {
        Some(counts) => told.after_first(&counts.working),
        None => told,
    };
    let share = (told / allowable.called("what is allowed")).number().after_first(&allowable.working);
    // Some are worked out away from here, and come back with the map.
    let share = share.valued(utilization);
    let title = super::said::label(case, spot, names);
    share.titled_as(title, Quantity::Number(utilization, 2), Source::Arithmetic).working
}

fn mean_of(kind: LoadCase) -> &'static str {
    if kind.is_on_edge() {
        "largest tension on edge: bending of the whole, and of the strips beside an opening"
    } else {
        "largest tension by the plate, the mean over one thickness"
    }
}

impl Hand {
    /// The stress at a cut by statics: its moment over the section of all that it cuts. `load` is the weight a
    /// square metre, `forces` are those on the beam, downward positive, each at its place along it.
    pub(super) fn of(beam: &Beam, at: f64, load: f64, forces: &[(f64, f64)], thickness: Length) -> Option<Self> {
        // Just to either side of the place, where the cut leaves less.
        let little = thickness.value / 100.0;
        let width_at = |at: f64| beam.spans(at).iter().map(Span::width).sum::<f64>();
        let candidates = [at - little, at + little].into_iter().map(|at| (at, width_at(at)));
        let (at, width) =
            candidates.filter(|(_, width)| *width > 0.0).min_by(|one, other| one.1.total_cmp(&other.1))?;
        let moment = Torque::new::<newton_meter>(beam.moment(at, load, forces).abs());
        let stress = Pressure::new::<pascal>(6.0 * moment.value / (width * thickness.value * thickness.value));
        Some(Self { moment, width: Length::new::<meter>(width), stress })
    }

    /// Its stress with the working.
    fn figure(&self, thickness: Length) -> Figure<Pressure> {
        let moment = self.moment.stated("moment at the cut, by statics", Source::Arithmetic).called("moment");
        face_stress(moment, self.width.named("width of all strips"), thickness.named("thickness"))
            .valued(self.stress)
            .titled("The cut by hand", Source::Arithmetic)
    }
}
