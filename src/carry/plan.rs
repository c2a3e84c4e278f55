//! Carrying and setting as the job has it: the lift, the way in, the load, the adhesive and the caulk.

use super::lift::{Choices, Handling, Level, Often, handling, many_hands};
use super::set::{Cartridges, Dabs, Gap, Load, adhesive, caulk, load};
use super::way::{Corner, Doorway, Hold, Pass, Slab, Van, inside, round, through};
use super::{Crew, Weights};
use crate::carry::limits;
use crate::finding::{Finding, Severity, Stage, say};
use crate::job::read::{self, all, both};
use crate::job::{EdgeKind, FieldPath, FinishField, Job, LiftLevel, OpeningField, OutlineShape, PieceKind};
use crate::measure::Length;
use crate::plane::EdgeTag;
use crate::top::Top;
use crate::working::{Figure, Known, Source, Waiting};
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

    /// The ways of a slab through it, once its sizes are known; nothing while none is typed.
    fn ways(self, slab: &Known<Slab>, job: &Job) -> Option<Known<Vec<Pass>>> {
        let blank = |field: &FinishField| job.finish.entry(*field).is_blank();
        if self.fields().iter().all(blank) {
            return None;
        }
        let sizes = all(self.fields().iter().map(|field| read::positive_length(job, FieldPath::Finish(*field))));
        Some(both(sizes, slab.clone()).map(|(sizes, slab)| match (self, sizes.as_slice()) {
            (Self::Doorway, &[width, height]) => through(&Doorway { width, height }, &slab),
            (Self::Turn, &[before, after, height]) => round(&Corner { before, after, height }, &slab),
            (Self::Van, &[length, width, height]) => inside(&Van { length, width, height }, &slab),
            _ => Vec::new(),
        }))
    }
}

/// The lift as it is chosen.
fn choices(job: &Job) -> Known<Choices> {
    let level = |level, field| match level {
        LiftLevel::Floor => Ok(Level::Floor),
        LiftLevel::Stand => Ok(Level::Stand),
        LiftLevel::Bench => Ok(Level::Bench),
        LiftLevel::Measured => read::length(job, FieldPath::Finish(field)).map(Level::Height),
    };
    let chosen = &job.finish;
    let levels = both(level(chosen.lift_from, FinishField::FromHeight), level(chosen.lift_to, FinishField::ToHeight));
    let often = read::optional(job, FieldPath::Finish(FinishField::LiftsAnHour), read::count);
    let ((from, to), often) = both(levels, often)?;
    // Less than once in five minutes counts as that.
    let often = often.map_or(Often::Once, |count| Often::Times(f64::from(count) / 60.0));
    Ok(Choices { from, to, reach: chosen.reach, turn: chosen.turn, often, grip: chosen.grip })
}

/// The upright rectangle around a piece as installed: along the front, and front to back.
fn extent(top: &Top) -> Known<[Length; 2]> {
    let bounds = top.outline.as_ref().map_err(Waiting::clone)?.bounds();
    Ok([bounds.width(), bounds.height()].map(Length::new::<meter>))
}

/// Along the front, the back and both ends: cabinets carry a top there. Common practice.
fn rails([along, across]: [Length; 2]) -> [Length; 4] {
    [along, along, across, across]
}

fn is_top(job: &Job, piece: usize) -> bool {
    job.pieces.get(piece).is_some_and(|typed| typed.kind == PieceKind::Top)
}

impl Carrying {
    /// How the piece with that index is carried.
    pub fn of(top: &Top, weights: &Known<Weights>, job: &Job, piece: usize) -> Self {
        let slab = both(extent(top), top.thickness.clone()).map(|([along, across], thickness)| Slab {
            length: along.max(across),
            width: along.min(across),
            thickness,
        });
        let weight = weights.as_ref().map_err(Waiting::clone);
        let lift = both(weight.map(|weights| weights.as_cast.value), choices(job));
        let load = is_top(job, piece).then(|| {
            let weight = weights.as_ref().map(|weights| weights.installed.value).map_err(Waiting::clone);
            let ((weight, area), extent) = both(both(weight, top.area.clone()), extent(top))?;
            let found = load(weight, area.value, &rails(extent), job.units);
            found.ok_or_else(|| nothing(job, FieldPath::Piece(piece, crate::job::PieceField::Width)))
        });
        let handling = lift.map(|(weight, choices)| (weight, handling(weight, &choices, job.units)));
        let many = match (&handling, &slab) {
            (Ok((weight, lift)), Ok(slab)) if lift.crew.value == Crew::Aid => {
                many_hands(*weight, &lift.limit, slab.length, job.units)
            }
            _ => None,
        };
        Self {
            handling: handling.map(|(_, handling)| handling),
            many,
            ways: Passage::ALL.iter().filter_map(|way| Some((*way, way.ways(&slab, job)?))).collect(),
            load,
        }
    }

    /// What to know about it.
    ///
    /// `ideal` are the people that an ideal lift takes: where that is none for hands, it has been said.
    pub(crate) fn advise(&self, ideal: Option<Crew>, job: &Job, piece: usize) -> Vec<Finding> {
        let mut found = Vec::new();
        if let Ok(handling) = &self.handling
            && handling.crew.value == Crew::Aid
            && ideal != Some(Crew::Aid)
        {
            found.push(Finding {
                severity: Severity::Watch,
                stage: Stage::Finish,
                place: FieldPath::Finish(FinishField::LiftsAnHour),
                says: format!(
                    "{}The lift as chosen is not one for hands: one person may lift {} this way.",
                    read::piece_prefix(job, piece),
                    say::mass(handling.limit.value, job.units)
                ),
                remedy: format!(
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
                    format!(": {} more are needed", say::length(-best.margin, job.units))
                } else {
                    String::new()
                };
                (
                    Severity::Stop,
                    format!("It does not pass: {}{missing}.", passage.label().to_lowercase()),
                    "Split the piece, or find another way in before it is cast.",
                )
            } else if only_flat {
                (
                    Severity::Watch,
                    format!("It passes only lying flat: {}.", passage.label().to_lowercase()),
                    "Flat, the strips beside a cutout carry the whole top: strap or clamp a strongback to it for the way.",
                )
            } else {
                continue;
            };
            found.push(Finding {
                severity,
                stage: Stage::Finish,
                place,
                says: format!("{}{says}", read::piece_prefix(job, piece)),
                remedy: remedy.to_owned(),
                source: Source::Arithmetic,
            });
        }
        found
    }
}

fn nothing(job: &Job, place: FieldPath) -> Waiting {
    Waiting::at(place, format!("{}: this gives nothing to work with.", read::name_of(job, place)))
}

/// The length typed there, or the usual one.
fn or_usual(job: &Job, field: FinishField) -> Known<Length> {
    read::or_usual(job, FieldPath::Finish(field), read::positive_length)
}

impl Setting {
    /// What setting these pieces takes, which are those of the job in its order.
    pub fn of(tops: &[&Top], job: &Job) -> Self {
        let of_tops: Vec<_> = tops.iter().enumerate().filter(|(piece, _)| is_top(job, *piece)).collect();
        let glue = (!of_tops.is_empty()).then(|| {
            let extents = all(of_tops.iter().map(|(_, top)| extent(top)));
            let width = or_usual(job, FinishField::DabWidth);
            let height = or_usual(job, FinishField::DabHeight);
            let spacing = or_usual(job, FinishField::DabSpacing);
            let ((extents, spacing), (diameter, height)) = both(both(extents, spacing), both(width, height))?;
            let rails: Vec<_> = extents.into_iter().flat_map(rails).collect();
            let found = adhesive(&rails, &Dabs { spacing, diameter, height }, job.units);
            found.ok_or_else(|| nothing(job, FieldPath::Finish(FinishField::DabSpacing)))
        });
        let shims = read::optional(job, FieldPath::Finish(FinishField::Shims), read::count);
        Self { adhesive: glue, caulk: walls(tops, job), shims }
    }
}

/// The caulk at every edge against a wall, a backsplash included; nothing where there is none.
fn walls(tops: &[&Top], job: &Job) -> Option<Known<Cartridges>> {
    let at_wall = |kind| matches!(kind, EdgeKind::Wall | EdgeKind::Backsplash);
    let any = job.pieces.iter().any(|piece| (0..piece.sides()).any(|side| at_wall(piece.edge(side).kind)));
    if !any {
        return None;
    }
    let gaps = all(tops.iter().enumerate().map(|(piece, top)| {
        let outline = top.outline.as_ref().map_err(Waiting::clone);
        let (outline, width) = both(outline, gap_width(job, piece))?;
        let sides = outline.edges().iter().filter(|edge| match edge.tag() {
            EdgeTag::Side(side) => {
                job.pieces.get(piece).is_some_and(|typed| at_wall(typed.edge(usize::from(side)).kind))
            }
            _ => false,
        });
        Ok(sides.map(|edge| (Length::new::<meter>(edge.length()), width)).collect::<Vec<_>>())
    }));
    let depth = or_usual(job, FinishField::GapDepth);
    Some(both(gaps, depth).and_then(|(gaps, depth)| {
        let gaps: Vec<_> = gaps.into_iter().flatten().map(|(length, width)| Gap { length, width, depth }).collect();
        caulk(&gaps, job.units).ok_or_else(|| nothing(job, FieldPath::Finish(FinishField::GapWidth)))
    }))
}

/// The gap as typed; else what was left at the walls when the opening was measured; else the usual one.
fn gap_width(job: &Job, piece: usize) -> Known<Length> {
    let typed = read::optional(job, FieldPath::Finish(FinishField::GapWidth), read::positive_length)?;
    let of_opening = job.pieces.get(piece).is_some_and(|typed| typed.shape == OutlineShape::Opening);
    let clearance = || {
        if !of_opening {
            return Ok(None);
        }
        let place = FieldPath::Opening(piece, OpeningField::Clearance);
        Ok(read::optional(job, place, read::length)?.filter(|length| length.value > 0.0))
    };
    match typed {
        Some(width) => Ok(width),
        None => clearance()?.map_or_else(|| read::usual(job, FieldPath::Finish(FinishField::GapWidth)), Ok),
    }
}
