//! The pour of one piece as the job has it: laid out on its time line, with what would make it fit.

use super::temperature::{Charge, ChargeProblem};
use super::timeline::{
    self, Change, DayProblem, FaceCoat, Holds, PourDay, Remedy, Retarder, Steel, Stiffening, Timeline, Times, Warmth,
};
use crate::finding::{Finding, Severity, Stage, say};
use crate::job::read::{self, all, both, optional};
use crate::job::{AdditiveField, BagField, BarSize, FieldPath, Job, Lath, PourField};
use crate::measure::{Mass, Temperature, Time, Units, Volume, write_count, write_duration, write_percent};
use crate::mix::{self, Coats, MixInputs, Pour, Supplied, source_of};
use crate::pour::limits;
use crate::working::{Figure, Known, Source, Waiting, Working};

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
    fn of(pour: &Pour, job: &Job, yields: Volume) -> Option<Self> {
        let bag = read::positive_mass(job, FieldPath::Bag(pour.bag, BagField::Mass)).ok()?;
        let share = (pour.with_spare.value / yields).value - f64::from(pour.loads.value.checked_sub(1)?);
        let step = limits::part_of_bag_step(job.units);
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

/// What is typed of people, mixers and times.
struct Hands {
    people: u32,
    mixers: u32,
    bags_a_batch: u32,
    times: Times,
    screed: Time,
    usual: Usual,
    parts: u32,
}

/// Times that are not typed and count as usual.
#[derive(Clone, Copy)]
struct Usual {
    carry: Option<Time>,
    place: Option<Time>,
    /// Of one piece.
    steel: Option<Time>,
    screed: bool,
}

impl Usual {
    /// Those that count, as the first lines of how long a pour takes.
    fn say(self, timeline: &mut Timeline, pieces: u32) {
        let usual = [
            (self.carry, "carrying and dumping a batch, as usual: common practice"),
            (self.place, "placing a batch, as usual: common practice"),
            (self.steel, "laying the steel of a piece, as usual: common practice"),
        ];
        let said = usual.into_iter().filter_map(|(time, formula)| Some((time?, formula)));
        let mut before = Working::new("");
        for (time, formula) in said {
            before = before.line(formula, "", write_duration(time), Source::Practice);
        }
        for figure in [&mut timeline.takes, &mut timeline.last_margin] {
            figure.working.insert_before(" with ", &before);
            let screeded = figure.working.said_mut().filter(|line| line.formula == timeline::SCREEDED);
            for line in screeded {
                line.formula = timeline::screeded(pieces, self.screed);
                line.source = if self.screed { Source::Practice } else { Source::Typed };
            }
        }
    }
}

const fn at(field: PourField) -> FieldPath {
    FieldPath::Pour(field)
}

impl Hands {
    fn of(job: &Job) -> Known<Self> {
        let count = |field| optional(job, at(field), read::count);
        let duration = |field| optional(job, at(field), read::duration);
        let people = read::count(job, at(PourField::People));
        let bags_a_batch = read::count(job, at(PourField::BagsABatch));
        let mix = read::positive_duration(job, at(PourField::MinutesABatch));
        let beside = both(both(duration(PourField::Carry), duration(PourField::Place)), duration(PourField::Screed));
        let counts = both(count(PourField::Mixers), count(PourField::Parts));
        let (((people, bags_a_batch), mix), (((dump, place), screed), (mixers, parts))) =
            both(both(both(people, bags_a_batch), mix), both(beside, counts))?;
        let mixers = mixers.unwrap_or(people);
        let counts = |typed: Option<Time>, field| typed.map_or_else(|| read::usual(job, at(field)), Ok);
        let usual_screed = screed.is_none();
        let (typed_dump, typed_place) = (dump, place);
        let dump = counts(dump, PourField::Carry)?;
        let place = counts(place, PourField::Place)?;
        let screed = counts(screed, PourField::Screed)?;
        let usual = Usual {
            carry: typed_dump.is_none().then_some(dump),
            place: typed_place.is_none().then_some(place),
            steel: None,
            screed: usual_screed,
        };
        // Refused here, before there is a list of them.
        for (count, field, problem) in
            [(people, PourField::People, DayProblem::People), (mixers, PourField::Mixers, DayProblem::Mixers)]
        {
            if count as usize > limits::MOST_HANDS {
                return Err(Waiting::at(at(field), problem.says(job.units)));
            }
        }
        let times = Times { mix, dump, place };
        Ok(Self { people, mixers, bags_a_batch, times, screed, usual, parts: parts.unwrap_or(1) })
    }
}

/// The steel that goes in during the pour, if there is any.
fn steel(job: &Job, piece: usize) -> Known<Option<Steel>> {
    let share = optional(job, at(PourField::SteelAt), read::percent);
    let takes = optional(job, at(PourField::SteelTakes), read::duration);
    let (share, takes) = both(share, takes)?;
    let chosen = job.pieces.get(piece).map(|piece| &piece.reinforcement);
    let has_steel = chosen.is_some_and(|steel| steel.lath != Lath::None || steel.bars != BarSize::None);
    if !has_steel && share.is_none() && takes.is_none() {
        return Ok(None);
    }
    let at_share = share.map_or_else(|| read::usual(job, at(PourField::SteelAt)), Ok)?;
    let takes = takes.map_or_else(|| read::usual(job, at(PourField::SteelTakes)), Ok)?;
    Ok(Some(Steel { at: at_share, takes }))
}

/// The steel of pieces that are poured at one go: as long for each of them that has some.
pub(super) fn steel_of_pieces(job: &Job, pieces: &[usize]) -> Known<Option<Steel>> {
    let of_all = all(pieces.iter().map(|piece| steel(job, *piece)))?;
    let laid = of_all.into_iter().flatten();
    Ok(laid.reduce(|one, other| Steel { takes: one.takes + other.takes, ..one }))
}

/// What is in a mixer at a time: dry, and water, of bags or of a mix made from scratch.
fn in_a_batch(pour: &Pour, job: &Job, water: Volume, bags_a_batch: u32) -> Known<(Mass, Mass)> {
    if let Some(coat) = pour.coats.as_ref().and_then(|coats| coats.coats.last()) {
        return Ok((coat.batch.mass() - coat.water(), coat.water()));
    }
    let bags = f64::from(bags_a_batch);
    let mass = read::positive_mass(job, FieldPath::Bag(pour.bag, BagField::Mass))?;
    Ok((mass * bags, water * bags * crate::mix::limits::water_density()))
}

/// How warm the mix is: as measured, else by what goes in where something of that is typed, else as the air.
fn warmth(pour: &Pour, job: &Job, water: Volume, bags_a_batch: u32) -> Known<Warmth> {
    let temperature = |field| optional(job, at(field), read::temperature);
    let air = read::temperature(job, at(PourField::Air));
    let parts = both(temperature(PourField::BagTemperature), temperature(PourField::WaterTemperature));
    let ice = optional(job, at(PourField::Ice), read::mass);
    let ((air, mix), ((dry_at, water_at), ice)) = both(both(air, temperature(PourField::Mix)), both(parts, ice))?;
    if let Some(mix) = mix {
        return Ok(Warmth::Typed(mix));
    }
    if dry_at.is_none() && water_at.is_none() && ice.is_none() {
        return Ok(Warmth::Typed(air));
    }
    let (dry, water) = in_a_batch(pour, job, water, bags_a_batch)?;
    let ice = ice.unwrap_or_default();
    let liquid = water - ice;
    if liquid < Mass::default() {
        let place = at(PourField::Ice);
        return Err(Waiting::at(place, format!("{}: more than a batch has of water.", read::name_of(job, place))));
    }
    let charge = Charge::bagged(dry, dry_at.unwrap_or(air), liquid, water_at.unwrap_or(air));
    Ok(Warmth::Of(Charge { ice, ..charge }))
}

/// The first additive of a bag that keeps the mix workable longer, by its index, and what it does.
fn retarder(job: &Job, bag: usize, workable: Time) -> Known<Option<(usize, Retarder)>> {
    let Some(typed) = job.bags.get(bag) else { return Ok(None) };
    for index in 0..typed.additives.len() {
        let place = |field| FieldPath::Additive(bag, index, field);
        if typed.recipe.is_some() {
            // As it is dosed, or not at all: there is no most to go up to.
            let dose = optional(job, place(AdditiveField::OfCement), read::percent)?;
            if dose.is_none_or(|dose| dose <= 0.0) {
                continue;
            }
        }
        let Some(longer) = optional(job, place(AdditiveField::Longer), read::duration)? else { continue };
        let dose = optional(job, place(AdditiveField::Dose), read::dose);
        let most = optional(job, place(AdditiveField::DoseMost), read::dose);
        let (dose, most) = both(dose, most)?;
        let used = match (dose, most) {
            _ if typed.recipe.is_some() => 1.0,
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
    /// # Errors
    /// What it waits for: a figure of pour day or of the mix.
    pub fn of(pour: &Pour, job: &Job, piece: usize) -> Known<Self> {
        Self::of_pieces(pour, job, steel(job, piece), 1)
    }

    /// A pour of so many pieces on its time line, with that steel. Once all is placed they are screeded one after the
    /// other.
    pub(super) fn of_pieces(pour: &Pour, job: &Job, steel: Known<Option<Steel>>, pieces: u32) -> Known<Self> {
        let bag = pour.bag;
        let mix = MixInputs::read(job, bag);
        let load = match (&pour.coats, &mix.supplied) {
            (None, Supplied::Bags(one)) => {
                both(one.yields.clone(), mix::water_to_pour(&mix, one)).map(|(yields, water)| (yields, water.value))
            }
            (Some(coats), _) => Ok(a_batch(pour, coats)),
            (None, Supplied::Scratch(_)) => Err(read::no_piece(mix::batch_at(job, bag))),
        };
        let workable = read::positive_duration(job, FieldPath::Bag(bag, BagField::Workable));
        let hands = Hands::of(job);
        let warm = match (&load, &hands) {
            (Ok((_, water)), Ok(hands)) => warmth(pour, job, *water, hands.bags_a_batch),
            _ => read::temperature(job, at(PourField::Air)).map(Warmth::Typed),
        };
        let retarder = match &workable {
            Ok(workable) => retarder(job, bag, *workable),
            Err(_) => Ok(None),
        };
        let ((hands, warmth), (((holds, water), workable), (steel, retarder))) =
            both(both(hands, warm), both(both(load, workable), both(steel, retarder)))?;
        let (parts, mixer) = match &pour.coats {
            Some(coats) => (vec![coats.batches(); coats.parts as usize], Holds::Volume(holds)),
            None => (shares(pour.loads.value, hands.parts), Holds::Bags(hands.bags_a_batch)),
        };
        let last_bag = if pour.coats.is_some() { None } else { PartOfBag::of(pour, job, holds) };
        let bags_a_batch = if pour.coats.is_some() { 1 } else { hands.bags_a_batch };
        let a_part = pieces.max(1).div_ceil((parts.len() as u32).max(1));
        let day = PourDay {
            volume: holds * f64::from(parts.first().copied().unwrap_or(pour.loads.value)),
            bag: pour.coats.is_none().then_some(holds),
            people: hands.people,
            mixers: vec![mixer; hands.mixers as usize],
            times: hands.times,
            face: pour.coats.as_ref().and_then(|coats| face(coats.face())),
            steel,
            screed: hands.screed * f64::from(a_part),
            pieces: a_part,
            workable,
            stiffening: Stiffening::Halving,
            warmth,
            retarder: retarder.map(|(_, retarder)| retarder),
        };
        let mut timeline = day.lay_out(job.units).map_err(|problem| waits(problem, job, bag, retarder))?;
        let steel = match day.steel.is_some() && job.pour.steel_takes.is_blank() {
            true => Some(read::usual(job, at(PourField::SteelTakes))?),
            false => None,
        };
        Usual { steel, ..hands.usual }.say(&mut timeline, a_part);
        let source = job.bags.get(bag).map_or(Source::Typed, |bag| source_of(bag, BagField::Workable));
        say_source(&mut timeline.workable.working, source);
        say_source(&mut timeline.last_margin.working, source);
        let mixed = match day.warmth {
            Warmth::Of(charge) => charge.temperature(job.units).ok(),
            Warmth::Typed(_) => None,
        };
        // What only just fits is to fit into less.
        let within = match fit(&timeline) {
            Fit::Just => PourDay { workable: day.workable * (1.0 - limits::WORKABLE_LEAST_LEFT), ..day.clone() },
            Fit::Well | Fit::Over => day.clone(),
        };
        let has_room = fit(&timeline) == Fit::Well;
        let mut remedies = if has_room { Vec::new() } else { timeline::remedies(&within, job.units) };
        if let Some(coats) = pour.coats.as_ref().filter(|coats| coats.coats.len() > 1) {
            // Each coat begins with a batch of its own, so that neither a larger mixer nor smaller parts save what
            // they seem to.
            remedies.retain(|remedy| !matches!(remedy.change, Change::Bigger(_) | Change::Parts(_)));
            if !has_room {
                remedies.extend(coats_in_parts(pour, coats, &within, job.units));
                remedies.sort_by(|one, other| one.size.total_cmp(&other.size));
            }
        }
        let batches = batches(pour, &parts, bags_a_batch);
        Ok(Self { bag, batches, parts, water, last_bag, coats: pour.coats.clone(), day, timeline, mixed, remedies })
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

/// The time line takes the workable time as typed; where it is the catalogue's, its source is that.
fn say_source(working: &mut Working, source: Source) {
    for line in working.said_mut().filter(|line| line.formula.starts_with("workable time at")) {
        line.source = source;
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
fn coats_in_parts(pour: &Pour, coats: &Coats, day: &PourDay, units: Units) -> Option<Remedy> {
    (2..=limits::MOST_PARTS_OF_POUR).find_map(|of_one| {
        let parts = coats.parts.saturating_mul(of_one);
        let (face_batches, batches) = coats.batches_in(parts)?;
        let holds = pour.with_spare.value / (f64::from(batches) * f64::from(parts));
        let volume = holds * f64::from(batches);
        let mixers = vec![Holds::Volume(holds); day.mixers.len()];
        let part = PourDay { volume, mixers, face: face(face_batches), ..day.clone() };
        let laid_out = part.lay_out(units).ok().filter(|laid_out| laid_out.fits)?;
        let (takes, margin) = (laid_out.takes.value, laid_out.last_margin.value);
        Some(Remedy { change: Change::Parts(of_one), size: f64::from(of_one) - 1.0, takes, margin })
    })
}

fn batches(pour: &Pour, parts: &[u32], bags_a_batch: u32) -> Figure<u32> {
    if pour.coats.is_some() {
        return pour.loads.clone();
    }
    let of = |bags: &u32| bags.div_ceil(bags_a_batch.max(1));
    let count: u32 = parts.iter().map(of).sum();
    let numbers = parts.iter().map(|bags| format!("{bags} ÷ {bags_a_batch}"));
    Working::new("Batches to mix")
        .after(&pour.loads.working)
        .line(
            if parts.len() > 1 {
                "bags of each part ÷ bags a batch, each rounded up"
            } else {
                "bags ÷ bags a batch, rounded up"
            },
            numbers.collect::<Vec<_>>().join(" + "),
            write_count(count, "batch", "batches"),
            Source::Arithmetic,
        )
        .of(count)
}

/// A problem of the day, at the field that it comes from.
fn waits(problem: DayProblem, job: &Job, bag: usize, retarder: Option<(usize, Retarder)>) -> Waiting {
    let place = match problem {
        DayProblem::Volume | DayProblem::Bag => mix::batch_at(job, bag),
        DayProblem::People => at(PourField::People),
        DayProblem::Mixers => at(PourField::Mixers),
        DayProblem::MixerTooSmall(_) | DayProblem::TooManyBatches => match mix::batch_at(job, bag) {
            place @ FieldPath::Recipe(..) => place,
            _ => at(PourField::BagsABatch),
        },
        DayProblem::Times => at(PourField::MinutesABatch),
        DayProblem::Steel => at(PourField::SteelAt),
        DayProblem::Workable => at(PourField::Air),
        DayProblem::Retarder => {
            retarder.map_or(at(PourField::Air), |(index, _)| FieldPath::Additive(bag, index, AdditiveField::Longer))
        }
        DayProblem::Warmth(ChargeProblem::Water) => at(PourField::WaterTemperature),
        DayProblem::Warmth(ChargeProblem::IceLeft) => at(PourField::Ice),
        DayProblem::Warmth(_) => at(PourField::BagTemperature),
    };
    let says = match problem {
        DayProblem::Workable => {
            format!("{}: no mix can be planned at this temperature.", read::name_of(job, place))
        }
        problem => problem.says(job.units),
    };
    Waiting::at(place, says)
}

/// Findings about the plan of the piece with that index.
pub(crate) fn advise(plan: &Plan, job: &Job, piece: usize) -> Vec<Finding> {
    advise_plan(plan, job, &read::piece_prefix(job, piece))
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
