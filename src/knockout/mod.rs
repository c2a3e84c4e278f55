//! What keeps cutouts and faucet holes open while a piece is cast: knockouts and cores.
//!
//! A knockout stands on the base of the form, where the face is cast: its foot is the hole in the face, its top
//! the hole at the back. Outlines are in the plane of the piece, as it is seen from above when installed; seen
//! in the form they are mirrored, and so is everything cut by them with its foot down.

mod advice;
mod hold;
mod inputs;
pub mod limits;
mod stack;

pub(crate) use advice::{advise, advise_job};
pub use hold::HoldDown;
pub use inputs::{KnockoutInputs, LayerInputs, StackInputs};
pub use stack::{FOAM_FIRST, Stack, StackLayer};

use crate::job::{FieldPath, FormField, LayerOf};
use crate::label;
use crate::measure::{Area, Length, MassDensity};
use crate::plane::Opening;
use crate::top::Top;
use crate::working::{Figure, Known, Name, Waiting, Word, together};
use uom::si::area::square_meter;
use uom::si::length::meter;

/// The knockout of one cutout.
#[derive(Clone, Debug, PartialEq)]
pub struct Knockout {
    /// The cutout, by its index.
    pub cutout: usize,
    /// Its outline on the base: the hole in the face, reveal included.
    pub foot: Opening,
    /// Its outline at the top: the foot, narrower on every side by the draft.
    pub head: Opening,
    /// How much narrower it is at its top, on every side.
    pub draft: Length,
    /// Its height: the cast thickness.
    pub height: Figure<Length>,
    /// The layers that it is stacked from.
    pub stack: Known<Stack>,
    /// One blank for every layer, from the foot up; none while the stack waits.
    pub blanks: Vec<Blank>,
    /// What keeps it from floating.
    pub hold: HoldDown,
}

/// What one layer of a knockout is cut from.
#[derive(Clone, Debug, PartialEq)]
pub struct Blank {
    /// What is written on it: "K1.2" is the second layer of the knockout of cutout 1.
    pub mark: String,
    /// The cutout, by its index.
    pub cutout: usize,
    /// Which of the job's layers it is cut from, by its index.
    pub stock: usize,
    /// What it is made of.
    pub of: LayerOf,
    /// Its thickness.
    pub thickness: Length,
    /// The outline of its lower face, the larger one.
    pub outline: Opening,
    /// Size of the rectangle around it, left to right.
    pub width: Length,
    /// Size of the rectangle around it, front to back.
    pub length: Length,
}

/// What the core of a faucet hole is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CoreOf {
    /// A plug of rigid foam.
    Foam,
    /// A dowel in a sleeve of foam or tape, which lets go of the concrete.
    Dowel,
}

impl CoreOf {
    /// The words for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Foam => "Foam plug",
            Self::Dowel => "Dowel in a sleeve",
        }
    }
}

/// The cores of one set of faucet holes.
#[derive(Clone, Debug, PartialEq)]
pub struct Core {
    /// What is written on them: "H1" is the first set.
    pub mark: String,
    /// The set, by its index.
    pub set: usize,
    /// How many.
    pub count: u32,
    /// Diameter over the sleeve.
    pub diameter: Length,
    /// The cast thickness.
    pub length: Length,
    /// What they are made of.
    pub of: CoreOf,
}

/// Everything that keeps a piece open where it is not to be cast; each part stands on its own.
#[derive(Clone, Debug, PartialEq)]
pub struct Knockouts {
    /// One for each cutout, in the order of the job.
    pub cutouts: Vec<Known<Knockout>>,
    /// One for each set of faucet holes, in the order of the job.
    pub cores: Vec<Known<Core>>,
}

impl Knockouts {
    /// Those of a piece of that cast thickness, from a mix of that density; nothing while it is not known.
    pub fn of(
        top: &Top,
        height: &Known<Figure<Length>>,
        fresh: Option<&Figure<MassDensity>>,
        inputs: &KnockoutInputs,
    ) -> Self {
        let draft = &inputs.stack.draft;
        let stack = height.clone().and_then(|height| Stack::of(&height, inputs));
        let cutouts = top.cutouts.iter().enumerate().map(|(cutout, hole)| {
            let (foot, height, draft) = together((hole.clone(), height.clone(), draft.clone()))?;
            Knockout::of(cutout, foot, (height, draft), &stack, fresh, inputs)
        });
        let cores = top.holes.iter().enumerate().map(|(set, holes)| {
            let (holes, height) = together((holes.clone(), height.clone()))?;
            Ok(Core::of(set, &holes, height.value))
        });
        Self { cutouts: cutouts.collect(), cores: cores.collect() }
    }

    /// The blanks of all knockouts that are known.
    pub fn blanks(&self) -> impl Iterator<Item = &Blank> {
        self.cutouts.iter().flatten().flat_map(|knockout| &knockout.blanks)
    }
}

impl Knockout {
    fn of(
        cutout: usize,
        foot: Opening,
        (height, draft): (Figure<Length>, Length),
        stack: &Known<Stack>,
        fresh: Option<&Figure<MassDensity>>,
        inputs: &KnockoutInputs,
    ) -> Known<Self> {
        let at = |share: f64| narrowed(&foot, share * draft, cutout, inputs);
        // The narrowest says what has no room, once for all of them.
        let head = at(1.0)?;
        let middle = at(0.5)?;
        let mut blanks = Vec::new();
        if let Ok(stack) = stack {
            let mut below = Length::default();
            for (layer, stacked) in stack.layers.iter().enumerate() {
                let outline = at(f64::from(below / height.value).min(1.0))?;
                let bounds = outline.bounds();
                blanks.push(Blank {
                    mark: format!("K{}.{}", cutout + 1, layer + 1),
                    cutout,
                    stock: stacked.stock,
                    of: stacked.of,
                    thickness: stacked.thickness,
                    outline,
                    width: Length::new::<meter>(bounds.width()),
                    length: Length::new::<meter>(bounds.height()),
                });
                below += stacked.thickness;
            }
        }
        let areas = [&foot, &middle, &head].map(|outline| Area::new::<square_meter>(outline.area()));
        let screwed = blanks.first().is_some_and(|blank| blank.of == LayerOf::Board);
        let hold = HoldDown::of(areas, &height, fresh, screwed, inputs.units);
        Ok(Self { cutout, foot, head, draft, height, stack: stack.clone(), blanks, hold })
    }
}

/// The outline narrower on every side by that much.
///
/// # Errors
/// The draft, where it leaves no outline.
fn narrowed(foot: &Opening, by: Length, cutout: usize, inputs: &KnockoutInputs) -> Known<Opening> {
    if by == Length::default() {
        return Ok(foot.clone());
    }
    foot.offset(-by.get::<meter>()).map_err(|error| {
        let place = FieldPath::Form(FormField::Draft);
        let most = Length::new::<meter>(error.largest.abs());
        let piece = Name::PieceInFront(inputs.piece);
        let says = label!("{}cutout {} has no room for that; {} is the most.", piece, cutout + 1, Word::AtMost(most));
        Waiting::named(place, says)
    })
}

impl Core {
    fn of(set: usize, holes: &[Opening], length: Length) -> Self {
        let diameter = holes.first().map_or(0.0, |hole| hole.bounds().width());
        let diameter = Length::new::<meter>(diameter);
        let thick = diameter >= limits::foam_core_least() - crate::measure::geometry_tolerance();
        Self {
            mark: format!("H{}", set + 1),
            set,
            // A set has three holes at most.
            count: u32::try_from(holes.len()).unwrap_or(u32::MAX),
            diameter,
            length,
            of: if thick { CoreOf::Foam } else { CoreOf::Dowel },
        }
    }
}
