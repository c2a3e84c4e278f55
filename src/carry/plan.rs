//! Carrying and setting as the job has it: the lift, the way in, the load, the adhesive and the caulk.

use super::lift::{Handling, handling, many_hands};
use super::set::{Cartridges, Dabs, Gap, Load, adhesive, caulk, load};
use super::way::{Corner, Doorway, Hold, Pass, Slab, Van, inside, round, through};
use super::{CarryInputs, Crew, SetPiece, SettingInputs, Weights};
use crate::carry::limits;
use crate::finding::{Finding, Severity, Stage};
use crate::job::{FieldPath, FinishField};
use crate::label;
use crate::measure::Length;
use crate::plane::EdgeTag;
use crate::top::Top;
use crate::working::{Figure, Known, Name, Source, about, all, known_ref, together};
use uom::si::length::meter;

/// A tight place on the way in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Passage {
    /// The tightest doorway.
    Doorway,
    /// A corridor or stair that turns.
    Turn,
    /// The van.
    Van,
}

/// How one piece is carried.
#[derive(Clone, Debug, PartialEq)]
pub struct Carrying {
    /// The lift, as it is chosen.
    pub handling: Known<Handling>,
    /// The people who lift it where three are too few, if they all find a place on its edges.
    pub many: Option<Figure<u32>>,
    /// The ways through every tight place of which anything is typed.
    pub ways: Vec<(Passage, Known<Vec<Pass>>)>,
    /// What it puts on its cabinet; nothing for a piece that is no top.
    pub load: Option<Known<Load>>,
}

/// What setting the whole job takes.
#[derive(Clone, Debug, PartialEq)]
pub struct Setting {
    /// Dabs on the rails; nothing where no piece is a top.
    pub adhesive: Option<Known<Cartridges>>,
    /// Along the walls; nothing where no edge is against one.
    pub caulk: Option<Known<Cartridges>>,
    /// Shims to have at hand.
    pub shims: Known<Option<u32>>,
}

impl Passage {
    /// All of them, in the order of the way.
    pub const ALL: [Self; 3] = [Self::Van, Self::Doorway, Self::Turn];

    /// What it is called.
    pub fn label(self) -> &'static str {
        match self {
            Self::Doorway => "Doorway",
            Self::Turn => "Turn",
            Self::Van => "Van",
        }
    }

    /// Its sizes.
    pub fn fields(self) -> &'static [FinishField] {
        match self {
            Self::Doorway => &[FinishField::DoorWidth, FinishField::DoorHeight],
            Self::Turn => &[FinishField::TurnBefore, FinishField::TurnAfter, FinishField::TurnHeight],
            Self::Van => &[FinishField::VanLength, FinishField::VanWidth, FinishField::VanHeight],
        }
    }

    /// The ways of a slab through a place of those sizes, which are in the order of [`Passage::fields`].
    fn ways(self, sizes: &[Length], slab: &Slab) -> Vec<Pass> {
        match (self, sizes) {
            (Self::Doorway, &[width, height]) => through(&Doorway { width, height }, slab),
            (Self::Turn, &[before, after, height]) => round(&Corner { before, after, height }, slab),
            (Self::Van, &[length, width, height]) => inside(&Van { length, width, height }, slab),
            _ => Vec::new(),
        }
    }
}

/// The upright rectangle around a piece as installed: along the front, and front to back.
fn extent(top: &Top) -> Known<[Length; 2]> {
    let bounds = known_ref(&top.outline)?.bounds();
    Ok([bounds.width(), bounds.height()].map(Length::new::<meter>))
}

/// Along the front, the back and both ends: cabinets carry a top there. Common practice.
fn rails([along, across]: [Length; 2]) -> [Length; 4] {
    [along, along, across, across]
}

impl Carrying {
    /// How a piece of that geometry and those weights is carried.
    pub fn of(top: &Top, weights: &Known<Weights>, inputs: &CarryInputs) -> Self {
        let slab = together((extent(top), top.thickness.clone())).map(|([along, across], thickness)| Slab {
            length: along.max(across),
            width: along.min(across),
            thickness,
        });
        let handling = together((known_ref(weights), inputs.lift.clone())).map(|(weights, choices)| {
            let weight = weights.as_cast.value;
            (weight, handling(weight, &choices, inputs.units))
        });
        let load = inputs.is_top.then(|| {
            let (weights, area, extent) = together((known_ref(weights), known_ref(&top.area), extent(top)))?;
            load(weights.installed.value, area.value, &rails(extent)).ok_or_else(|| inputs.no_load.clone())
        });
        let many = match (&handling, &slab) {
            (Ok((weight, lift)), Ok(slab)) if lift.crew.value == Crew::Aid => {
                many_hands(*weight, &lift.limit, slab.length)
            }
            _ => None,
        };
        let ways = |(passage, sizes): &(Passage, Known<Vec<Length>>)| {
            let ways = together((known_ref(sizes), slab.clone())).map(|(sizes, slab)| passage.ways(sizes, &slab));
            (*passage, ways)
        };
        Self {
            handling: handling.map(|(_, handling)| handling),
            many,
            ways: inputs.passages.iter().map(ways).collect(),
            load,
        }
    }

    /// What to know about it.
    ///
    /// `ideal` are the people that an ideal lift takes: where that is none for hands, it has been said.
    pub(crate) fn advise(&self, ideal: Option<Crew>, piece: usize) -> Vec<Finding> {
        let mut found = Vec::new();
        if let Ok(handling) = &self.handling
            && handling.crew.value == Crew::Aid
            && ideal != Some(Crew::Aid)
        {
            found.push(Finding {
                severity: Severity::Watch,
                stage: Stage::Finish,
                place: FieldPath::Finish(FinishField::LiftsAnHour),
                says: label!(
                    "{}The lift as chosen is not one for hands: one person may lift {} this way.",
                    Name::PieceInFront(piece),
                    about(handling.limit.value)
                ),
                remedy: label!(
                    "Lift between benches, close to the body, straight ahead; or use a cart and a ramp. {}",
                    super::many_words(self.many.as_ref().map(|many| many.value))
                ),
                source: limits::LIFTING_EQUATION,
            });
        }
        for (passage, ways) in &self.ways {
            let Ok(ways) = ways else { continue };
            let place = passage
                .fields()
                .first()
                .map_or(FieldPath::Finish(FinishField::DoorWidth), |field| FieldPath::Finish(*field));
            let works = |pass: &&Pass| pass.works();
            let best = ways.iter().max_by(|one, other| one.margin.value.total_cmp(&other.margin.value));
            let only_flat = ways.iter().filter(works).all(|pass| pass.hold == Hold::Flat);
            let Some(best) = best else { continue };
            let (severity, says, remedy) = if !best.works() {
                let missing = if best.margin.is_finite() {
                    label!(": {} more are needed", about(-best.margin))
                } else {
                    label!("")
                };
                (
                    Severity::Stop,
                    label!("It does not pass: {}{}.", passage.label().to_lowercase(), missing),
                    "Split the piece, or find another way in before it is cast.",
                )
            } else if only_flat {
                (
                    Severity::Watch,
                    label!("It passes only lying flat: {}.", passage.label().to_lowercase()),
                    "Flat, the strips beside a cutout carry the whole top: strap or clamp a strongback to it for the way.",
                )
            } else {
                continue;
            };
            found.push(Finding {
                severity,
                stage: Stage::Finish,
                place,
                says: label!("{}{}", Name::PieceInFront(piece), says),
                remedy: remedy.into(),
                source: Source::Arithmetic,
            });
        }
        found
    }
}

impl Setting {
    /// What setting these pieces takes, which are those of the job in its order.
    ///
    /// ```
    /// use pourwright::carry::{Setting, SettingInputs};
    /// use pourwright::mix::demo;
    /// use pourwright::top::Top;
    ///
    /// let job = demo("a");
    /// let top = Top::of(&job, 0);
    /// let setting = Setting::of(&[&top], &SettingInputs::read(&job));
    /// assert!(setting.adhesive.is_some_and(|glue| glue.is_ok_and(|glue| glue.whole >= 1)));
    /// ```
    pub fn of(tops: &[&Top], inputs: &SettingInputs) -> Self {
        let pieces = || tops.iter().copied().zip(&inputs.pieces);
        let glued: Vec<_> = pieces().filter(|(_, piece)| piece.is_top).collect();
        let glue = (!glued.is_empty()).then(|| {
            let (extents, spacing, diameter, height) = together((
                all(glued.iter().map(|(top, _)| extent(top))),
                inputs.dab_spacing.clone(),
                inputs.dab_width.clone(),
                inputs.dab_height.clone(),
            ))?;
            let rails: Vec<_> = extents.into_iter().flat_map(rails).collect();
            adhesive(&rails, &Dabs { spacing, diameter, height }).ok_or_else(|| inputs.no_adhesive.clone())
        });
        // Without an edge at a wall there is nothing to caulk.
        let walls = inputs.pieces.iter().any(|piece| piece.at_wall.contains(&true));
        let caulk = walls.then(|| {
            let gaps = all(pieces().map(|(top, piece)| piece.gaps(top)));
            let (gaps, depth) = together((gaps, inputs.gap_depth.clone()))?;
            let gap = |(length, width)| Gap { length, width, depth };
            let gaps: Vec<_> = gaps.into_iter().flatten().map(gap).collect();
            caulk(&gaps).ok_or_else(|| inputs.no_caulk.clone())
        });
        Self { adhesive: glue, caulk, shims: inputs.shims.clone() }
    }
}

impl SetPiece {
    /// Length and width of the gap at every edge of the piece that is against a wall.
    fn gaps(&self, top: &Top) -> Known<Vec<(Length, Length)>> {
        let (outline, width) = together((known_ref(&top.outline), self.gap_width.clone()))?;
        let at_wall = |side: u16| self.at_wall.get(usize::from(side)).is_some_and(|at_wall| *at_wall);
        let sides = outline.edges().iter().filter(|edge| matches!(edge.tag(), EdgeTag::Side(side) if at_wall(side)));
        Ok(sides.map(|edge| (Length::new::<meter>(edge.length()), width)).collect())
    }
}
