//! The pour of one piece as the job has it: laid out on its time line, with what would make it fit.

use super::inputs::{CureInputs, DayInputs, OrUsual, PourInputs, PouredPiece};
use super::temperature::{Charge, ChargeProblem};
use super::timeline::{
    self, Change, DayProblem, FaceCoat, Holds, PourDay, Remedy, Retarder, Steel, Stiffening, Timeline, Times, Told,
    Warmth,
};
use crate::finding::{Finding, Severity, Stage, say};
use crate::job::{AdditiveField, FieldPath, Job, PourField};
use crate::measure::{Mass, Quantity, Temperature, Time, Units, Volume, write_percent};
use crate::mix::{self, Coats, Pour, Supplied};
use crate::pour::limits;
use crate::working::{Figure, Known, Named, Part, Source, Term, Waiting, all, known_ref, together};

/// The pour of one piece against the clock.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// Index of the bag among the job's.
    pub bag: usize,
    /// Batches to mix, of all parts together.
    pub batches: Figure<u32>,
    /// Bags, or batches of a mix made from scratch, in each part that is poured by itself; one part where it is
    /// poured in one go.
    pub parts: Vec<u32>,
    /// Water to pour into one bag, or into one batch of a mix made from scratch, ice included.
    pub water: Volume,
    /// What is mixed of the last bag, where that is not all of it.
    pub last_bag: Option<PartOfBag>,
    /// What goes into the batches of a mix made from scratch; nothing of bags.
    pub coats: Option<Coats>,
    /// What the largest part was laid out from.
    pub day: PourDay,
    /// The largest part on its time line.
    pub timeline: Timeline,
    /// How warm the mix comes out of the mixer; nothing where that was typed, or is taken from the air.
    pub mixed: Option<Figure<Temperature>>,
    /// What would make it fit; where it only just fits, what would leave room; empty when there is room.
    pub remedies: Vec<Remedy>,
}

/// What is mixed of a bag.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PartOfBag {
    /// Weighed out of it, dry.
    pub mass: Mass,
    /// As a share of the bag.
    pub share: f64,
}

impl PartOfBag {
    /// What is mixed of the last of so many bags, to the next step of [`limits::part_of_bag_step`]; nothing where it is
    /// all of it, or where it is not known what a bag weighs.
    fn of(pour: &Pour, cure: &CureInputs, yields: Volume, units: Units) -> Option<Self> {
        let Supplied::Bags(bag) = &cure.mix.supplied else { return None };
        let bag = *bag.mass.as_ref().ok()?;
        let share = (pour.with_spare.value / yields).value - f64::from(pour.loads.value.checked_sub(1)?);
        let step = limits::part_of_bag_step(units);
        let mass = ((bag * share / step).value * (1.0 - crate::measure::COUNT_TOLERANCE)).ceil() * step;
        (mass > Mass::default() && mass < bag).then(|| Self { mass, share: (mass / bag).value })
    }
}

/// How a pour stands against the workable time.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fit {
    /// It fits, with room.
    Well,
    /// It fits, with less than [`limits::WORKABLE_LEAST_LEFT`] of the workable time to spare.
    Just,
    /// It does not fit.
    Over,
}

const fn at(field: PourField) -> FieldPath {
    FieldPath::Pour(field)
}

/// People, mixers and times.
struct Hands {
    people: u32,
    mixers: u32,
    bags_a_batch: u32,
    mixing: Time,
    carry: OrUsual<Time>,
    place: OrUsual<Time>,
    screed: OrUsual<Time>,
    parts: u32,
}

impl Hands {
    fn of(day: &DayInputs, cure: &CureInputs) -> Known<Self> {
        let (people, bags_a_batch, mixing, carry, place, screed, mixers, parts) = together((
            day.people.clone(),
            day.bags_a_batch.clone(),
            day.mixing.clone(),
            day.carry.clone(),
            day.place.clone(),
            day.screed.clone(),
            day.mixers.clone(),
            cure.mix.parts.clone(),
        ))?;
        let mixers = mixers.unwrap_or(people);
        // Refused here, before there is a list of them.
        for (count, field, problem) in
            [(people, PourField::People, DayProblem::People), (mixers, PourField::Mixers, DayProblem::Mixers)]
        {
            if count as usize > limits::MOST_HANDS {
                return Err(Waiting::at(at(field), problem.says()));
            }
        }
        Ok(Self { people, mixers, bags_a_batch, mixing, carry, place, screed, parts })
    }

    fn times(&self) -> Times {
        Times { mix: self.mixing, dump: self.carry.value, place: self.place.value }
    }
}

/// Steel that goes in during the pour, and the time of one piece where that is the usual one.
#[derive(Clone, Copy)]
pub(super) struct Laying {
    steel: Steel,
    usual: Option<Time>,
}

/// The steel that goes into a piece during the pour, if there is any.
fn steel(day: &DayInputs, piece: &PouredPiece) -> Known<Option<Laying>> {
    let (share, takes) = together((day.steel_at.clone(), day.steel_takes.clone()))?;
    if !piece.has_steel() && share.is_usual && takes.is_usual {
        return Ok(None);
    }
    let steel = Steel { at: share.value, takes: takes.value };
    Ok(Some(Laying { steel, usual: takes.is_usual.then_some(takes.value) }))
}

/// The steel of pieces that are poured at one go: as long for each of them that has some.
pub(super) fn steel_of_pieces(day: &DayInputs, pieces: &[PouredPiece]) -> Known<Option<Laying>> {
    let of_all = all(pieces.iter().map(|piece| steel(day, piece)))?;
    let laid = of_all.into_iter().flatten();
    Ok(laid.reduce(|one, other| {
        let steel = Steel { takes: one.steel.takes + other.steel.takes, ..one.steel };
        Laying { steel, ..one }
    }))
}

/// What is in a mixer at a time: dry, and water, of bags or of a mix made from scratch.
fn in_a_batch(pour: &Pour, cure: &CureInputs, water: Volume, bags_a_batch: u32) -> Known<(Mass, Mass)> {
    if let Some(coat) = pour.coats.as_ref().and_then(|coats| coats.coats.last()) {
        return Ok((coat.batch.mass() - coat.water(), coat.water()));
    }
    let bags = f64::from(bags_a_batch);
    let mass = match &cure.mix.supplied {
        Supplied::Bags(bag) => bag.mass.clone()?,
        // It is poured in coats.
        Supplied::Scratch(_) => Mass::default(),
    };
    Ok((mass * bags, water * bags * crate::mix::limits::water_density()))
}

/// How warm the mix is: as measured, else by what goes in where something of that is typed, else as the air. `batch` is
/// what one batch holds, dry and water.
fn warmth(day: &DayInputs, batch: impl FnOnce() -> Known<(Mass, Mass)>) -> Known<Warmth> {
    let (air, mix, dry_at, water_at, ice) =
        together((day.air.wanted(), day.mix.clone(), day.bags_at.clone(), day.water_at.clone(), day.ice.clone()))?;
    if let Some(mix) = mix {
        return Ok(Warmth::Typed(mix));
    }
    if dry_at.is_none() && water_at.is_none() && ice.is_none() {
        return Ok(Warmth::Typed(air));
    }
    let (dry, water) = batch()?;
    let ice = ice.unwrap_or_default();
    let liquid = water - ice;
    if liquid < Mass::default() {
        return Err(Waiting::named(at(PourField::Ice), "more than a batch has of water."));
    }
    let charge = Charge::bagged(dry, dry_at.unwrap_or(air), liquid, water_at.unwrap_or(air));
    Ok(Warmth::Of(Charge { ice, ..charge }))
}

/// The first additive of a mix that keeps it workable longer, by its index, and what it does.
fn retarder(cure: &CureInputs, workable: Time) -> Known<Option<(usize, Retarder)>> {
    let scratch = cure.made_as.is_some();
    for (index, (dosed, additive)) in std::iter::zip(&cure.mix.additives, &cure.additives).enumerate() {
        // As it is dosed, or not at all: there is no most to go up to.
        if scratch && dosed.of_cement.clone()? <= 0.0 {
            continue;
        }
        let Some(longer) = additive.longer.clone()? else { continue };
        let used = match together((dosed.dose.if_typed(), dosed.dose_most.if_typed()))? {
            _ if scratch => 1.0,
            (None, _) => 0.0,
            (Some(_), None) => 1.0,
            // What is over the label is a finding; it is not counted on.
            (Some(dose), Some(most)) => mix::share_of(dose, most).unwrap_or(0.0).min(1.0),
        };
        return Ok(Some((index, Retarder { at_most: 1.0 + (longer / workable).value, used })));
    }
    Ok(None)
}

/// Bags shared out over parts that are poured each by itself, the larger first.
fn shares(bags: u32, parts: u32) -> Vec<u32> {
    let parts = parts.clamp(1, bags.max(1));
    (0..parts).map(|part| bags / parts + u32::from(part < bags % parts)).collect()
}

impl Plan {
    /// The pour of a piece on its time line.
    ///
    /// ```
    /// use pourwright::estimate::Cast;
    /// use pourwright::mix::demo;
    /// use pourwright::pour::{DayInputs, Plan, PourInputs};
    ///
    /// let job = demo("an id");
    /// let cast = Cast::of(&job);
    /// let pour = cast.pieces[0].pour.as_ref().expect("the demo has its sizes");
    /// let inputs = PourInputs::read(&job, 0);
    /// let plan = Plan::of(pour, &inputs).expect("the demo has its pour day");
    /// assert_eq!((plan.batches.value, plan.timeline.people), (3, 2));
    ///
    /// let alone = DayInputs { people: Ok(1), mixers: Ok(Some(1)), ..(*inputs.day).clone() };
    /// let slower = Plan::of(pour, &PourInputs { day: alone.into(), ..inputs }).expect("one person will do");
    /// assert!(slower.timeline.takes.value > plan.timeline.takes.value);
    /// ```
    ///
    /// # Errors
    /// What it waits for: a figure of pour day or of the mix.
    pub fn of(pour: &Pour, inputs: &PourInputs) -> Known<Self> {
        Self::of_pieces(pour, known_ref(&inputs.cure)?, &inputs.day, steel(&inputs.day, &inputs.piece), 1)
    }

    /// A pour of so many pieces on its time line, with that steel. Once all is placed they are screeded one after the
    /// other.
    pub(super) fn of_pieces(
        pour: &Pour,
        cure: &CureInputs,
        typed: &DayInputs,
        laying: Known<Option<Laying>>,
        pieces: u32,
    ) -> Known<Self> {
        let load = match (&pour.coats, &cure.mix.supplied) {
            (None, Supplied::Bags(bag)) => together((bag.yields.clone(), mix::water_to_pour(&cure.mix, bag)))
                .map(|(yields, water)| (yields, water.value)),
            (Some(coats), _) => Ok(a_batch(pour, coats)),
            (None, Supplied::Scratch(_)) => Err(crate::job::read::no_piece(cure.mix.batch_at())),
        };
        let hands = Hands::of(typed, cure);
        let warm = match (&load, &hands) {
            (Ok((_, water)), Ok(hands)) => warmth(typed, || in_a_batch(pour, cure, *water, hands.bags_a_batch)),
            _ => typed.air.wanted().map(Warmth::Typed),
        };
        let retarder = match &cure.workable {
            Ok(workable) => retarder(cure, *workable),
            Err(_) => Ok(None),
        };
        let (hands, warmth, (holds, water), workable, laying, retarder) =
            together((hands, warm, load, cure.workable.clone(), laying, retarder))?;
        let (parts, mixer) = match &pour.coats {
            Some(coats) => (vec![coats.batches(); coats.parts as usize], Holds::Volume(holds)),
            None => (shares(pour.loads.value, hands.parts), Holds::Bags(hands.bags_a_batch)),
        };
        let last_bag = if pour.coats.is_some() { None } else { PartOfBag::of(pour, cure, holds, typed.units) };
        let bags_a_batch = if pour.coats.is_some() { 1 } else { hands.bags_a_batch };
        let a_part = pieces.max(1).div_ceil((parts.len() as u32).max(1));
        let day = PourDay {
            volume: holds * f64::from(parts.first().copied().unwrap_or(pour.loads.value)),
            bag: pour.coats.is_none().then_some(holds),
            people: hands.people,
            mixers: vec![mixer; hands.mixers as usize],
            times: hands.times(),
            face: pour.coats.as_ref().and_then(|coats| face(coats.face())),
            steel: laying.map(|laying| laying.steel),
            screed: hands.screed.value * f64::from(a_part),
            pieces: a_part,
            workable,
            stiffening: Stiffening::Halving,
            warmth,
            retarder: retarder.map(|(_, retarder)| retarder),
        };
        let usual = |time: OrUsual<Time>| time.is_usual.then_some(time.value);
        let told = Told {
            workable: cure.workable_source,
            usual_carry: usual(hands.carry),
            usual_place: usual(hands.place),
            usual_steel: laying.and_then(|laying| laying.usual),
            screed: if hands.screed.is_usual { Source::Practice } else { Source::Typed },
        };
        let additive = retarder.map(|(index, _)| index);
        let timeline = day.lay_out_told(&told).map_err(|problem| waits(problem, cure, additive))?;
        let mixed = match day.warmth {
            Warmth::Of(charge) => charge.temperature().ok(),
            Warmth::Typed(_) => None,
        };
        // What only just fits is to fit into less.
        let within = match fit(&timeline) {
            Fit::Just => PourDay { workable: day.workable * (1.0 - limits::WORKABLE_LEAST_LEFT), ..day.clone() },
            Fit::Well | Fit::Over => day.clone(),
        };
        let has_room = fit(&timeline) == Fit::Well;
        let mut remedies = if has_room { Vec::new() } else { timeline::remedies(&within, typed.units) };
        if let Some(coats) = pour.coats.as_ref().filter(|coats| coats.coats.len() > 1) {
            // Each coat begins with a batch of its own, so that neither a larger mixer nor smaller parts save what
            // they seem to.
            remedies.retain(|remedy| !matches!(remedy.change, Change::Bigger(_) | Change::Parts(_)));
            if !has_room {
                remedies.extend(coats_in_parts(pour, coats, &within));
                remedies.sort_by(|one, other| one.size.total_cmp(&other.size));
            }
        }
        let batches = batches(pour, &parts, bags_a_batch);
        let coats = pour.coats.clone();
        Ok(Self { bag: pour.bag, batches, parts, water, last_bag, coats, day, timeline, mixed, remedies })
    }

    /// How it stands against the workable time.
    pub fn fit(&self) -> Fit {
        fit(&self.timeline)
    }

    /// That in a sentence: "It only just fits: 1 min to spare."
    pub fn verdict(&self) -> String {
        match self.fit() {
            Fit::Well => "It fits.".to_owned(),
            Fit::Just => {
                // Float noise of what ends with the workable time is no time.
                let left = self.timeline.last_margin.value.max(Time::default());
                format!("It only just fits: {} to spare.", say::duration(left))
            }
            Fit::Over => "It does not fit.".to_owned(),
        }
    }
}

fn fit(timeline: &Timeline) -> Fit {
    let share: f64 = (timeline.last_margin.value / timeline.workable.value).into();
    match timeline.fits {
        false => Fit::Over,
        true if share < limits::WORKABLE_LEAST_LEFT - crate::measure::COUNT_TOLERANCE => Fit::Just,
        true => Fit::Well,
    }
}

/// What a batch of a mix made from scratch fills, all coats alike, and the water of the largest kind.
fn a_batch(pour: &Pour, coats: &Coats) -> (Volume, Volume) {
    let in_all = f64::from(coats.batches().max(1)) * f64::from(coats.parts.max(1));
    let water = coats.coats.last().map(|coat| coat.water() / crate::mix::limits::water_density());
    (pour.with_spare.value / in_all, water.unwrap_or_default())
}

/// So many batches of a face coat, which has to stiffen before it is backed.
fn face(batches: Option<u32>) -> Option<FaceCoat> {
    batches.map(|batches| FaceCoat { batches, stiffens: limits::face_coat_stiffens() })
}

/// The fewest parts that make a piece of several coats fit, each part with batches of every coat.
fn coats_in_parts(pour: &Pour, coats: &Coats, day: &PourDay) -> Option<Remedy> {
    (2..=limits::MOST_PARTS_OF_POUR).find_map(|of_one| {
        let parts = coats.parts.saturating_mul(of_one);
        let (face_batches, batches) = coats.batches_in(parts)?;
        let holds = pour.with_spare.value / (f64::from(batches) * f64::from(parts));
        let volume = holds * f64::from(batches);
        let mixers = vec![Holds::Volume(holds); day.mixers.len()];
        let part = PourDay { volume, mixers, face: face(face_batches), ..day.clone() };
        let laid_out = part.lay_out().ok().filter(|laid_out| laid_out.fits)?;
        let (takes, margin) = (laid_out.takes.value, laid_out.last_margin.value);
        Some(Remedy { change: Change::Parts(of_one), size: f64::from(of_one) - 1.0, takes, margin })
    })
}

fn batches(pour: &Pour, parts: &[u32], bags_a_batch: u32) -> Figure<u32> {
    if pour.coats.is_some() {
        return pour.loads.clone();
    }
    let bags_a_batch = bags_a_batch.max(1);
    let count: u32 = parts.iter().map(|bags| bags.div_ceil(bags_a_batch)).sum();
    let quantity = Quantity::Count(count, "batch", "batches");
    let a_batch = bags_a_batch.named("bags a batch");
    let found = match parts {
        [only] => {
            let bags = pour.loads.term().called_as("bags", Quantity::Number(f64::from(*only), 0));
            bags.with_rule(a_batch, "{} ÷ {}, rounded up", |x| (x[0] / x[1]).ceil(), count)
        }
        parts => {
            let bags = parts.iter().map(|bags| bags.named("bags of a part"));
            Term::found("{}, each ÷ {} and rounded up", [Part::list(bags), a_batch.into()], count)
                .after_first(&pour.loads.working)
        }
    };
    found.titled_as("Batches to mix", quantity, Source::Arithmetic)
}

/// A problem of the day, at the field that it comes from; `retarder` is the additive that is one.
fn waits(problem: DayProblem, cure: &CureInputs, retarder: Option<usize>) -> Waiting {
    let place = match problem {
        DayProblem::Volume | DayProblem::Bag => cure.mix.batch_at(),
        DayProblem::People => at(PourField::People),
        DayProblem::Mixers => at(PourField::Mixers),
        DayProblem::MixerTooSmall(_) | DayProblem::TooManyBatches => match cure.mix.batch_at() {
            place @ FieldPath::Recipe(..) => place,
            _ => at(PourField::BagsABatch),
        },
        DayProblem::Times => at(PourField::MinutesABatch),
        DayProblem::Steel => at(PourField::SteelAt),
        DayProblem::Workable => {
            return Waiting::named(at(PourField::Air), "no mix can be planned at this temperature.");
        }
        DayProblem::Retarder => retarder
            .map_or(at(PourField::Air), |index| FieldPath::Additive(cure.mix.index, index, AdditiveField::Longer)),
        DayProblem::Warmth(ChargeProblem::Water) => at(PourField::WaterTemperature),
        DayProblem::Warmth(ChargeProblem::IceLeft) => at(PourField::Ice),
        DayProblem::Warmth(_) => at(PourField::BagTemperature),
    };
    Waiting::at(place, problem.says())
}

/// Findings about the plan of the piece with that index.
pub(crate) fn advise(plan: &Plan, job: &Job, piece: usize) -> Vec<Finding> {
    advise_plan(plan, job, &crate::job::read::piece_prefix(job, piece))
}

/// Findings about a plan, whose sentences begin with what is poured.
pub(super) fn advise_plan(plan: &Plan, job: &Job, prefix: &str) -> Vec<Finding> {
    let timeline = &plan.timeline;
    let [takes, stays] = [timeline.held, timeline.workable.value].map(say::duration);
    let what = match timeline.stiffens {
        None => "Mixing, placing and screeding",
        Some(stiffens) if stiffens.from >= timeline.held => "Mixing and spraying the face coat",
        Some(_) => "Mixing, placing and screeding the backer",
    };
    let any_of = |does: &str| {
        let words: Vec<_> = plan.remedies.iter().map(|remedy| plan.words(remedy.change, job.units)).collect();
        (!words.is_empty()).then(|| format!("Any one of these {does}: {}.", words.join("; ")))
    };
    let no_single =
        |does: &str| format!("No single change {does}: split the piece, or use a mix that stays workable longer.");
    let (severity, says, remedy) = match plan.fit() {
        Fit::Over => {
            let says = format!("{prefix}{what} takes {takes}, but the mix stays workable {stays}.");
            (Severity::Stop, says, any_of("makes it fit").unwrap_or_else(|| no_single("makes it fit")))
        }
        Fit::Just => {
            let says = format!(
                "{prefix}{what} takes {takes} of the {stays} that the mix stays workable: it only \
                 just fits, and less than {} of that time to spare leaves no room for a mishap.",
                write_percent(limits::WORKABLE_LEAST_LEFT)
            );
            (Severity::Watch, says, any_of("leaves room").unwrap_or_else(|| no_single("leaves room")))
        }
        Fit::Well => return Vec::new(),
    };
    let place = at(PourField::People);
    vec![Finding {
        severity,
        stage: Stage::Pour,
        place,
        says: says.into(),
        remedy: remedy.into(),
        source: Source::Practice,
    }]
}
