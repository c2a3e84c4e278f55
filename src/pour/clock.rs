//! The pour clock: which step is next, when it is due, and what threatens.
//!
//! Given a plan, the log and the present it says all of that, and keeps nothing itself: whoever asks again after a
//! reload gets the same answer. Moments are milliseconds since 1970 by the phone's clock.

use super::inputs::{CureInputs, PourInputs, PouredPiece, PouringInputs};
use super::plan::{PartOfBag, Plan};
use super::pouring::{Pouring, poured_together};
use super::timeline::{Batch, GoesOn, Holds, SoFar, Warmth};
use crate::finding::Severity;
use crate::job::{Job, Logged, PourStep};
use crate::measure::exact::quarts;
use crate::measure::{Mass, Time, Units, Volume};
use crate::mix::proportion::{Role, share_out};
use crate::mix::{self, AdditiveOrder, Coat, Coats, Order};
use crate::pour::limits;
use crate::working::{Known, known_ref};
use uom::si::time::millisecond;
use uom::si::volume::liter;

/// What goes into one batch.
#[derive(Clone, Debug, PartialEq)]
pub struct Ingredients {
    /// The coat that it is for: "Face coat"; empty where a piece is of one mix.
    pub coat: &'static str,
    /// Whole bags; none of a mix made from scratch.
    pub bags: u32,
    /// What is weighed out of the bag after those, where a batch is no whole number of bags.
    pub of_next: Option<PartOfBag>,
    /// What is weighed in of a mix made from scratch, by name, but for the water; nothing of bags.
    pub weighed: Vec<(String, Mass)>,
    /// Water to pour in, in whole cups, or to 0.05 L, of a mix made from scratch as it is weighed; the ice is not in
    /// it.
    pub water: Volume,
    /// Ice in place of water.
    pub ice: Mass,
    /// The pieces that it goes into, by name and in their order; none where a piece is poured by itself.
    pub fills: Vec<String>,
}

/// Everything that the clock needs to know of a piece, or of pieces that are poured at one go.
#[derive(Clone, Debug, PartialEq)]
pub struct Course {
    plan: Plan,
    /// What goes into the batches of each part.
    parts: Vec<Vec<Ingredients>>,
    /// The pieces that are poured at one go, by name; none where it is one by itself.
    pieces: Vec<String>,
    /// Into every bag besides water.
    additives: Vec<AdditiveOrder>,
    lath: bool,
    bars: bool,
    /// It sets fast and is kept wet from then on.
    rapid: bool,
    /// From first water to stripping; nothing where that is not known, or where it never may be.
    strip: Option<Time>,
}

/// Something that threatens while there is still time.
#[derive(Clone, Debug, PartialEq)]
pub enum Threat {
    /// That batch would be laid on one that knits no more, so long after it stopped; or, before it happens, with
    /// so little time left.
    ColdJoint {
        /// Which batch, from zero.
        batch: u32,
        /// What is left; negative where it is too late.
        left: Time,
    },
    /// It would be screeded when the first batch is stiff, or with so little time left.
    Late {
        /// What is left; negative where it is too late.
        left: Time,
    },
}

/// What the clock shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// The part of the piece that is poured, from zero.
    pub part: u32,
    /// The step to be done next; nothing when all is done.
    pub step: Option<PourStep>,
    /// When it is due; nothing where it is due whenever one is ready.
    pub due: Option<f64>,
    /// When the first batch of this part stops being workable, of what backs a face coat the first of that; once there
    /// is water in the part.
    pub stiff: Option<f64>,
    /// When this part will be screeded, as things stand.
    pub ends: Option<f64>,
    /// What threatens, the worst first.
    pub threats: Vec<(Severity, Threat)>,
    /// The steps of this part after the next one, and when each will be due.
    pub after: Vec<(PourStep, f64)>,
}

fn milliseconds(time: Time) -> f64 {
    time.get::<millisecond>()
}

fn since(from: f64, moment: f64) -> Time {
    Time::new::<millisecond>(moment - from)
}

impl Ingredients {
    /// Bags in it, with the part of one.
    pub fn bags_in_all(&self) -> f64 {
        f64::from(self.bags) + self.of_next.map_or(0.0, |part| part.share)
    }
}

/// The last batch of a pour where it is no whole number of bags.
pub fn last_batch(plan: &Plan, units: Units) -> Option<Ingredients> {
    let parts = if plan.coats.is_some() { Vec::new() } else { ingredients(plan, units) };
    parts.into_iter().flatten().next_back().filter(|batch| batch.of_next.is_some())
}

impl Course {
    /// The course of a pour. `order` is that of its mix, for what goes into every bag.
    ///
    /// # Errors
    /// That the piece has no mix.
    pub fn of(plan: &Plan, order: Option<&Order>, strip: Option<Time>, inputs: &PourInputs) -> Known<Self> {
        let units = inputs.day.units;
        Ok(Self::of_pieces(plan, order, strip, known_ref(&inputs.cure)?, std::slice::from_ref(&inputs.piece), units))
    }

    fn of_pieces(
        plan: &Plan,
        order: Option<&Order>,
        strip: Option<Time>,
        cure: &CureInputs,
        pieces: &[PouredPiece],
        units: Units,
    ) -> Self {
        let lath = pieces.iter().any(|piece| piece.lath);
        let bars = pieces.iter().any(|piece| piece.bars);
        Self {
            parts: match &plan.coats {
                Some(coats) => weighed(plan, coats, cure),
                None => ingredients(plan, units),
            },
            additives: order.and_then(Order::bagged).map_or_else(Vec::new, |order| order.additives.clone()),
            // Steel that only the pour day knows of is laid as lath is.
            lath: lath || (!bars && plan.day.steel.is_some()),
            bars,
            rapid: cure.is_kept_wet(),
            strip,
            pieces: Vec::new(),
            plan: plan.clone(),
        }
    }

    /// The course of pieces that are poured at one go: one list of batches, what each of them fills, one end. `strip` is
    /// that of the piece that is stripped last.
    pub fn of_pouring(pouring: &Pouring, order: Option<&Order>, strip: Option<Time>, inputs: &PouringInputs) -> Self {
        let PouringInputs { pieces, cure, day } = inputs;
        let mut course = Self::of_pieces(&pouring.plan, order, strip, cure, pieces, day.units);
        course.pieces = pieces.iter().map(|piece| piece.name.clone()).collect();
        let name = |index: &usize| {
            let piece = pieces.iter().find(|piece| piece.index == *index);
            piece.map_or_else(String::new, |piece| piece.name.clone())
        };
        // Batches of bags by their bags, those of a mix made from scratch by their number in their coat.
        let all_bags = pouring.plan.parts.iter().sum::<u32>();
        let parts = course.parts.len() as f64;
        let mut bags = 0.0;
        for (part, batches) in course.parts.iter_mut().enumerate() {
            let coats: Vec<_> = batches.iter().map(|batch| batch.coat).collect();
            for (index, batch) in batches.iter_mut().enumerate() {
                let of_coat = coats.iter().filter(|coat| **coat == batch.coat).count() as f64;
                let before = coats.iter().take(index).filter(|coat| **coat == batch.coat).count() as f64;
                let filled = if batch.bags_in_all() <= 0.0 {
                    let share = |batches: f64| (part as f64 + batches / of_coat) / parts;
                    let own = pouring.plan.coats.iter().flat_map(|coats| &coats.coats);
                    let coat = own.take_while(|coat| coat.name != batch.coat).count();
                    pouring.fills(coat, share(before), share(before + 1.0))
                } else {
                    let from = bags;
                    bags += batch.bags_in_all();
                    let share = |bags: f64| (bags * pouring.a_bag(all_bags)).min(1.0);
                    pouring.fills(0, share(from), share(bags))
                };
                batch.fills = filled.iter().map(name).collect();
            }
        }
        course
    }

    /// The pieces that are poured at one go, by name; none where it is one by itself.
    pub fn pieces(&self) -> &[String] {
        &self.pieces
    }

    /// Parts that are poured each by itself.
    pub fn parts(&self) -> u32 {
        self.parts.len() as u32
    }

    /// Batches in a part.
    pub fn batches(&self, part: u32) -> u32 {
        self.parts.get(part as usize).map_or(0, |batches| batches.len() as u32)
    }

    /// What goes into a batch of a part.
    pub fn ingredients(&self, part: u32, batch: u32) -> Option<&Ingredients> {
        self.parts.get(part as usize)?.get(batch as usize)
    }

    /// It has a face coat, which stiffens before it is backed.
    pub fn backs_a_face_coat(&self) -> bool {
        self.plan.day.face.is_some()
    }

    /// What goes into every bag besides water.
    pub fn additives(&self) -> &[AdditiveOrder] {
        &self.additives
    }

    /// The steps of a part after its last batch, in their order.
    fn after_batches(&self, part: u32) -> Vec<PourStep> {
        let mut steps = vec![PourStep::Screed, PourStep::Trowel];
        if self.rapid {
            steps.extend([PourStep::Patches, PourStep::Wet]);
        }
        // Where it is not known when it may be stripped, no hour is named.
        if part + 1 == self.parts() && self.strip.is_some() {
            steps.push(PourStep::Strip);
        }
        steps
    }

    /// What the clock shows now.
    pub fn read(&self, log: &[Logged], now: f64) -> Reading {
        let last = self.parts().saturating_sub(1);
        let mut reading = None;
        for part in 0..self.parts() {
            let lines: Vec<Logged> = log.iter().filter(|line| line.part == part).copied().collect();
            let found = self.read_part(part, &lines, now);
            if found.step.is_some() || part == last {
                return found;
            }
            reading = Some(found);
        }
        reading.unwrap_or(Reading {
            part: 0,
            step: None,
            due: None,
            stiff: None,
            ends: None,
            threats: Vec::new(),
            after: Vec::new(),
        })
    }

    fn read_part(&self, part: u32, lines: &[Logged], now: f64) -> Reading {
        let at = |step: PourStep| lines.iter().find(|line| line.step == step).map(|line| line.at as f64);
        let count = self.batches(part);
        let in_a_row = |step: fn(u32) -> PourStep| (0..count).map_while(|batch| at(step(batch))).collect::<Vec<f64>>();
        let (water, placed) = (in_a_row(PourStep::Water), in_a_row(PourStep::Placed));
        let begins = water.iter().copied().reduce(f64::min);
        let from = begins.unwrap_or(now);
        let workable = milliseconds(self.plan.timeline.workable.value);
        let so_far = SoFar {
            water: water.iter().map(|moment| since(from, *moment)).collect(),
            placed: placed.iter().take(water.len()).map(|moment| since(from, *moment)).collect(),
            steel: at(PourStep::Lath).or(at(PourStep::Bars)).map(|moment| since(from, moment)),
            now: since(from, now),
        };
        let goes_on = self.go_on(count, &so_far);
        let batches = goes_on.as_ref().map_or(&[][..], |goes_on| goes_on.batches.as_slice());

        // What is still to be done, and when.
        let mut ahead: Vec<(PourStep, f64)> = Vec::new();
        let started = water.len();
        for (index, batch) in batches.iter().enumerate() {
            let name = index as u32;
            if index >= started {
                ahead.push((PourStep::Water(name), from + milliseconds(batch.water)));
            }
            if index >= so_far.placed.len() {
                ahead.push((PourStep::Placed(name), from + milliseconds(batch.placed)));
            }
        }
        let steel_due = goes_on.as_ref().and_then(|goes_on| goes_on.steel);
        let steel_due = steel_due.map_or(now, |laid| from + milliseconds(laid.from));
        for (step, has) in [(PourStep::Lath, self.lath), (PourStep::Bars, self.bars)] {
            if has && at(step).is_none() {
                ahead.push((step, steel_due));
            }
        }
        // Of what is due at once: placing, the steel that is laid on it, then the next water.
        let rank = |step: &PourStep| match step {
            PourStep::Placed(_) => 0,
            PourStep::Lath => 1,
            PourStep::Bars => 2,
            _ => 3,
        };
        ahead.sort_by(|one, other| one.1.total_cmp(&other.1).then(rank(&one.0).cmp(&rank(&other.0))));

        let begun = |moment: Time| Some(from + milliseconds(moment)).filter(|_| begins.is_some());
        let ends = goes_on.as_ref().and_then(|goes_on| begun(goes_on.ends));
        let filled = goes_on.as_ref().and_then(|goes_on| begun(goes_on.filled));
        let poured = placed.len() as u32 == count;
        let mut due = filled.unwrap_or(now);
        // A face coat has the workable time for itself, and so has what backs it.
        let face = self.plan.day.face.map_or(0, |face| face.batches as usize);
        let planned = begins.and(batches.get(face)).map(|first| from + milliseconds(first.water));
        let first_sets = water.get(face).copied().or(planned).map(|first| first + workable);
        let logged = water.iter().copied().fold(from, f64::max);
        let youngest = batches.last().map_or(logged, |batch| from + milliseconds(batch.water)).max(logged);
        for step in self.after_batches(part) {
            let before = due;
            due = match step {
                PourStep::Screed => before,
                PourStep::Trowel => {
                    at(PourStep::Screed).unwrap_or(before.max(now)) + milliseconds(limits::trowel_after())
                }
                PourStep::Patches => first_sets.unwrap_or(before).max(before),
                PourStep::Wet => at(PourStep::Patches).unwrap_or(before.max(now)) + milliseconds(limits::water_cure()),
                // The youngest batch decides, and the hour of water is over first.
                _ => self.strip.map_or(before, |strip| (youngest + milliseconds(strip)).max(before)),
            };
            if at(step).is_none() {
                ahead.push((step, due));
            }
        }
        let threats = if poured { Vec::new() } else { self.threats(batches, &so_far, begins.is_some()) };
        let next = (!ahead.is_empty()).then(|| ahead.remove(0));
        Reading {
            part,
            step: next.map(|(step, _)| step),
            due: next.map(|(_, due)| due).filter(|_| begins.is_some()),
            stiff: first_sets,
            ends: ends.filter(|_| !poured),
            threats,
            after: ahead,
        }
    }

    /// The rest of a part, whose last batch may be smaller than that of the part that was laid out.
    fn go_on(&self, count: u32, so_far: &SoFar) -> Option<GoesOn> {
        let mut day = self.plan.day.clone();
        let mut plan = self.plan.timeline.clone();
        plan.batches.truncate(count as usize);
        day.volume = plan.batches.iter().map(|batch| batch.volume).sum();
        day.go_on(&plan, so_far)
    }

    /// Joints and the end, with what is left at each; only those where it is little, or too late.
    fn threats(&self, batches: &[Batch], so_far: &SoFar, begun: bool) -> Vec<(Severity, Threat)> {
        if !begun {
            return Vec::new();
        }
        let workable = self.plan.timeline.workable.value;
        let little = workable * (1.0 - limits::WORKABLE_SHARE_WATCH);
        let weigh = |left: Time| match left {
            left if left < Time::default() => Some(Severity::Stop),
            left if left < little => Some(Severity::Watch),
            _ => None,
        };
        let mut threats = Vec::new();
        let joints = std::iter::zip(batches, batches.iter().skip(1)).enumerate();
        let face = self.plan.day.face.map_or(0, |face| face.batches as usize);
        // What goes on a face coat is meant to come late.
        let open = |older: usize| older + 1 >= so_far.placed.len() && (face == 0 || older + 1 != face);
        for (older, (below, above)) in joints.filter(|(older, _)| open(*older)) {
            let left = below.stops(workable) - above.placed.max(so_far.now);
            if let Some(severity) = weigh(left) {
                threats.push((severity, Threat::ColdJoint { batch: older as u32 + 1, left }));
            }
        }
        if let (Some(first), Some(last)) = (batches.get(face), batches.last()) {
            let left = first.stops(workable) - last.placed.max(so_far.now) - self.plan.day.screed;
            if let Some(severity) = weigh(left) {
                threats.push((severity, Threat::Late { left }));
            }
        }
        threats.sort_by_key(|(severity, _)| *severity);
        threats
    }
}

/// Ice in one batch.
fn ice(plan: &Plan) -> Mass {
    match plan.day.warmth {
        Warmth::Of(charge) => charge.ice,
        Warmth::Typed(_) => Mass::default(),
    }
}

/// What goes into every batch of every part of a mix made from scratch, coat after coat.
fn weighed(plan: &Plan, coats: &Coats, cure: &CureInputs) -> Vec<Vec<Ingredients>> {
    let of_coat = |coat: &Coat| {
        let parts = coat.weighed.parts.iter().filter(|(role, _)| *role != Role::Water);
        let ice = if coat.water() > ice(plan) { ice(plan) } else { Mass::default() };
        let batch = Ingredients {
            coat: coat.name,
            bags: 0,
            of_next: None,
            weighed: parts.map(|(role, mass)| (cure.mix.part_name(*role), *mass)).collect(),
            water: (coat.water() - ice) / crate::mix::limits::water_density(),
            ice,
            fills: Vec::new(),
        };
        std::iter::repeat_n(batch, coat.batches as usize)
    };
    let of_part: Vec<Ingredients> = coats.coats.iter().flat_map(of_coat).collect();
    vec![of_part; coats.parts as usize]
}

/// What goes into every batch of every part: the water in whole cups (0.05 L), so that the batches of a part sum to
/// its water to the last cup.
fn ingredients(plan: &Plan, units: Units) -> Vec<Vec<Ingredients>> {
    let step = match units {
        Units::Inch => quarts(0.25),
        Units::Metric => Volume::new::<liter>(0.05),
    };
    let bags_a_batch = match plan.day.mixers.first() {
        Some(Holds::Bags(bags)) => (*bags).max(1),
        _ => 1,
    };
    let ice = ice(plan);
    let of_part = |(part, bags): (usize, &u32)| {
        let whole = bags / bags_a_batch;
        let rest = bags % bags_a_batch;
        let mut sizes: Vec<(u32, Option<PartOfBag>)> = std::iter::repeat_n(bags_a_batch, whole as usize)
            .chain((rest > 0).then_some(rest))
            .map(|bags| (bags, None))
            .collect();
        // Of the very last bag only what is wanted.
        if let Some((last, of_next)) =
            sizes.last_mut().filter(|_| part + 1 == plan.parts.len() && plan.last_bag.is_some())
        {
            *last = last.saturating_sub(1);
            *of_next = plan.last_bag;
        }
        let in_all =
            |(bags, of_next): &(u32, Option<PartOfBag>)| f64::from(*bags) + of_next.map_or(0.0, |part| part.share);
        let weights: Vec<f64> = sizes.iter().map(in_all).collect();
        let ice_of = |bags: f64| ice * (bags / f64::from(bags_a_batch));
        let all_bags: f64 = weights.iter().sum();
        let water = plan.water * all_bags - ice_of(all_bags) / crate::mix::limits::water_density();
        // Of a pour that is laid out the steps are few; what is not is nothing.
        let steps = (water / step).value.round().clamp(0.0, 1e9) as u64;
        std::iter::zip(std::iter::zip(sizes, &weights), share_out(steps, &weights))
            .map(|(((bags, of_next), in_all), steps)| Ingredients {
                coat: "",
                bags,
                of_next,
                weighed: Vec::new(),
                water: step * steps as f64,
                ice: ice_of(*in_all),
                fills: Vec::new(),
            })
            .collect()
    };
    plan.parts.iter().enumerate().map(of_part).collect()
}

/// The lines of a log of this job with the piece that keeps it.
fn lines(job: &Job) -> impl Iterator<Item = (usize, &Logged)> {
    job.pieces.iter().enumerate().flat_map(|(piece, typed)| typed.log.iter().map(move |line| (piece, line)))
}

/// How long screeding took the last time that it was ticked off in this job: from when the last batch was placed, or
/// the steel was in, until it was screeded; of pieces that were poured at one go for each of them. Nothing where none of
/// that was logged.
pub fn screeding_took(job: &Job) -> Option<Time> {
    let (piece, last) = lines(job).filter(|(_, line)| line.step == PourStep::Screed).max_by_key(|(_, line)| line.at)?;
    let fills = |step| matches!(step, PourStep::Placed(_) | PourStep::Lath | PourStep::Bars);
    let before = lines(job).filter(|(other, line)| *other == piece && line.part == last.part && fills(line.step));
    let filled = before.map(|(_, line)| line.at).max()?;
    // Of pieces that were poured at one go one of them has the log.
    let alone = |other: &usize| *other != piece && job.pieces.get(*other).is_some_and(|typed| !typed.log.is_empty());
    let together = mix::bag_of(job, piece).ok().and_then(|(bag, _)| poured_together(job, bag));
    let pieces = together.filter(|pieces| !pieces.iter().any(alone)).map_or(1, |pieces| pieces.len());
    (last.at > filled).then(|| since(filled as f64, last.at as f64) / pieces as f64)
}

/// How long a batch took from its water until it was placed, on the mean of the part that was placed last in this job.
/// Nothing where none was logged.
pub fn batch_took(job: &Job) -> Option<Time> {
    let placed = |line: &Logged| matches!(line.step, PourStep::Placed(_));
    let (piece, last) = lines(job).filter(|(_, line)| placed(line)).max_by_key(|(_, line)| line.at)?;
    let log = &job.pieces.get(piece)?.log;
    let of_part = || log.iter().filter(|line| line.part == last.part);
    let watered = |batch| of_part().find(|line| line.step == PourStep::Water(batch)).map(|line| line.at);
    let times: Vec<f64> = of_part()
        .filter_map(|line| match line.step {
            PourStep::Placed(batch) => Some(line.at.checked_sub(watered(batch)?)? as f64),
            _ => None,
        })
        .collect();
    let mean = times.iter().sum::<f64>() / times.len() as f64;
    (mean > 0.0).then(|| since(0.0, mean))
}

/// What placing a batch took by [`batch_took`], once mixing and carrying it as planned are taken off. Nothing where that
/// leaves nothing.
pub fn placing_took(plan: &Plan, job: &Job) -> Option<Time> {
    let placing = batch_took(job)? - plan.day.times.mix - plan.day.times.dump;
    (placing > Time::default()).then_some(placing)
}

/// The line that ticks off a step now; nothing where it is in the log already.
pub fn tick(log: &mut Vec<Logged>, part: u32, step: PourStep, now: f64) {
    if !log.iter().any(|line| line.part == part && line.step == step) {
        log.push(Logged { part, step, at: moment(now) });
    }
}

/// A line of the log moved by so many milliseconds, but not into the future.
pub fn correct(log: &mut [Logged], index: usize, by: f64, now: f64) {
    if let Some(line) = log.get_mut(index) {
        line.at = moment((line.at as f64 + by).min(now));
    }
}

/// Milliseconds since 1970; what is no moment is the first of them.
fn moment(at: f64) -> u64 {
    // A cast of a float saturates, and NaN is zero.
    at.round() as u64
}
