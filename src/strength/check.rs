//! Will this piece of the job crack: the rails by hand, at once, and the question for the map.

pub use super::ages::StrengthHistory;
use super::ask::Question;
use super::bracket::{self, Brackets, Hung};
use super::cabinet::Cabinet;
use super::cases::{
    Age, Case, Counts, LoadAssumptions, LoadCase, Multiplier, Slab, SupportKind, cases, knockouts, metres,
};
use super::net::{self, NetCut};
use super::rail::{RailCheck, rails};
use super::remedy::{dig_out, middle_support, props};
use super::seats::Reach;
use super::section::{Capacity, Section};
use super::steel::bar;
use super::written::weight;
use super::{limits, said, written};
use crate::finding::{Finding, Severity, Stage, say};
use crate::job::read::{self, both};
use crate::job::usual;
use crate::job::{
    Back, Carried, CutoutField, FieldPath, FormFace, Handling, HandlingField, Job, LayerOf, PieceKind, SinkBay,
    Stripped, Travels,
};
use crate::knockout::Knockouts;
use crate::measure::geometry_tolerance;
use crate::measure::{Length, Pressure, Time, Units, write_number};
use crate::steel::{Lies, Steel};
use crate::top::{Facing, Top};
use crate::working::{Figure, Known, Source, Waiting, Working};
use uom::si::f64::Force;

/// What one rail comes to as the top is lifted flat, by hand.
#[derive(Clone, Debug, PartialEq)]
pub struct RailVerdict {
    /// The rail.
    pub rail: RailCheck,
    /// "the rail in front of the left sink".
    pub words: String,
    /// Tension over what is allowed, with the working.
    pub utilization: Figure<f64>,
    /// What it bears before and after it cracks, where a bar lies along it.
    pub with_bar: Option<Figure<Capacity>>,
}

/// What the worst net cut of a piece comes to in a case in which it is borne flat, by hand.
#[derive(Clone, Debug, PartialEq)]
pub struct NetVerdict {
    /// What happens.
    pub kind: LoadCase,
    /// The index of its case in the question.
    pub case: usize,
    /// "the rail in front of the left sink", "the middle, away from any cutout".
    pub words: String,
    /// The largest tension there.
    pub tension: Pressure,
    /// Tension over what is allowed, with the working.
    pub utilization: Figure<f64>,
}

/// Whether a piece cracks, as far as it is known without solving anything.
#[derive(Clone, Debug, PartialEq)]
pub struct Cracking {
    /// How old and how strong it is.
    pub grown: StrengthHistory,
    /// Every rail by hand as the top is lifted flat, the worst first.
    pub rails: Vec<RailVerdict>,
    /// The worst net cut of the whole piece, with cutouts or without, as it is lifted and as it is carried flat between
    /// two lines that bear; nothing for what is borne otherwise, which the map alone can tell.
    pub net: Vec<NetVerdict>,
    /// All that it lives through, to be worked out.
    pub question: Question,
    /// Why nobody sits on it and no cabinet bears it, where that is so.
    pub stands: Option<String>,
    /// The brackets that bear it by hand; nothing where a cabinet does.
    pub hung: Option<Hung>,
    /// It comes out of its form flat, borne at both ends alone: what [`Self::rails`] are about.
    pub lifted_flat: bool,
}

impl Cracking {
    /// The piece with that index; `wet` is the age until which it is kept wet in its form, where it is.
    ///
    /// # Errors
    /// What it waits for: its shape, its thickness, its strength, and what of its handling cannot be read.
    pub fn of(
        top: &Top,
        knockouts: &Knockouts,
        steel: &Known<Steel>,
        wet: Option<Time>,
        job: &Job,
        piece: usize,
    ) -> Known<Self> {
        let slab = slab(top);
        let grown = StrengthHistory::of(job, piece, wet);
        let typed = job.pieces.get(piece).map(|piece| piece.handling.clone()).unwrap_or_default();
        let (slab, grown) = both(slab, grown)?;
        let habits = habits(&slab, job, piece)?;
        let names = names(&slab);
        let all = cases(&slab, &grown.ages, &habits);
        let foam =
            |opening: usize| knockouts.cutouts.get(opening).is_some_and(|known| known.as_ref().is_ok_and(is_foam));
        let kind = job.pieces.get(piece).map(|piece| piece.kind).unwrap_or_default();
        let stands = (kind != PieceKind::Top).then(|| {
            let name = kind.label().to_lowercase();
            format!(
                "A {name} lies on no cabinet and nobody sits on it: it is worked out until it is set, and no further."
            )
        });
        let hung = match &stands {
            None => Hung::of(&slab, &grown.ages.in_use, &habits, job, piece),
            Some(_) => None,
        };
        let all = all.into_iter().filter(|case| stands.is_none() || case.age != Age::InUse);
        let chosen = all.filter_map(|case| chosen(case, &slab, &typed, &foam));
        let dug_out = (0..slab.openings.len()).filter(|opening| foam(*opening)).collect();
        let question =
            Question { cases: chosen.collect(), names, units: job.units, later: grown.later(), dug_out, slab };
        let lifted_flat = typed.stripped == Stripped::Flat;
        let rails = verdicts(&question, &grown, &habits, steel.as_ref().ok());
        let net = net_verdicts(&question, &grown);
        Ok(Self { grown, rails, net, question, stands, hung, lifted_flat })
    }
}

/// The finished top as a plate.
fn slab(top: &Top) -> Known<Slab> {
    let cutouts = read::all(top.cutouts.iter().cloned());
    let holes = read::all(top.holes.iter().cloned());
    // Openings that run into each other leave no strips to judge.
    let area = top.area.as_ref().map(drop).map_err(Waiting::clone);
    let ((outline, thickness), ((cutouts, holes), ())) =
        both(both(top.outline.clone(), top.thickness.clone()), both(both(cutouts, holes), area))?;
    let openings = cutouts.into_iter().chain(holes.into_iter().flatten()).collect();
    Ok(Slab { outline, openings, cutouts: top.cutouts.len(), thickness })
}

/// What to call each opening: sinks from the left, then holes.
fn names(slab: &Slab) -> Vec<String> {
    let sinks = slab.cutouts;
    let at = |opening: usize| slab.openings.get(opening).map_or(0.0, |shape| shape.centroid().x);
    let rank = |opening: usize| (0..sinks).filter(|other| (at(*other), *other) < (at(opening), opening)).count();
    let name = |opening: usize| match (opening < sinks, sinks, rank(opening)) {
        (false, ..) => "a hole".to_owned(),
        (true, 1, _) => "the sink".to_owned(),
        (true, 2, 0) => "the left sink".to_owned(),
        (true, 2, _) => "the right sink".to_owned(),
        (true, _, rank) => format!("sink {} from the left", rank + 1),
    };
    (0..slab.openings.len()).map(name).collect()
}

/// Its knockout is foam from foot to head.
fn is_foam(knockout: &crate::knockout::Knockout) -> bool {
    knockout.stack.as_ref().is_ok_and(|stack| stack.layers.iter().all(|layer| layer.of == LayerOf::Foam))
}

/// The numbers of every case, as typed, else as usual.
fn habits(slab: &Slab, job: &Job, piece: usize) -> Known<LoadAssumptions> {
    let place = |field| FieldPath::Handling(piece, field);
    let share = |field| read::optional(job, place(field), read::percent);
    let mass = |field| read::optional(job, place(field), read::positive_mass);
    // What is still asked for of brackets leaves out what happens in use, and nothing else.
    let brackets = Brackets::of(slab, job, piece);
    let hangs = !matches!(brackets, Ok(None));
    let length = |field| match hangs && bracket::of_cabinet(field) == Some(true) {
        // What is typed of a cabinet that is not there says nothing.
        true => Ok(None),
        false => read::optional(job, place(field), read::positive_length),
    };
    let jolts = both(share(HandlingField::Jolt), share(HandlingField::Van));
    let shares = both(share(HandlingField::Suction), jolts);
    let forces = both(mass(HandlingField::Push), mass(HandlingField::Person));
    let bearing = both(length(HandlingField::CabinetRail), length(HandlingField::SinkBay));
    let gap = both(length(HandlingField::GapFrom), length(HandlingField::GapWidth));
    let ends = both(length(HandlingField::OverhangLeft), length(HandlingField::OverhangRight));
    let overhangs = both(length(HandlingField::Overhang), ends);
    let rest = both(overhangs, length(HandlingField::LowLeft));
    let (((suction, (jolt, van)), (push, person)), ((bearing, gap), ((front, (left, right)), low))) =
        both(both(shares, forces), both(both(bearing, gap), rest))?;
    let (rail, bay) = bearing;
    let (gap_from, gap_width) = gap;
    let own = job.pieces.get(piece).map(|piece| &piece.handling);
    let fastened = own.is_some_and(|own| own.back == Back::Fastened);
    let railed = own.is_some_and(|own| own.bay == SinkBay::Railed);
    let under = Under { rail, bay, gap_from, gap_width, over: [front, left, right], fastened, railed, low };
    let reaches = [Reach::Front, Reach::Left, Reach::Right].into_iter().zip(under.over);
    let fits = if hangs { Ok(()) } else { fits(slab, job, piece, &under) };
    let (bowls, ()) = both(bowls(slab, job, piece), fits)?;
    let usual = LoadAssumptions::usual(slab);
    let clings = match job.form.face {
        FormFace::Smooth => usual.stripping,
        FormFace::Rough => Multiplier::usual(Counts::Rough),
    };
    Ok(LoadAssumptions {
        stripping: suction.map_or(clings, Multiplier::typed),
        handling: jolt.map_or(usual.handling, Multiplier::typed),
        van: van.map_or(usual.van, Multiplier::typed),
        push: push.map_or(usual.push, weight),
        person: person.map_or(usual.person, weight),
        cabinet: (!hangs).then(|| cabinet(slab, &under)),
        brackets: brackets.ok().flatten(),
        bowls,
        overhangs: reaches.filter_map(|(reach, length)| length.map(|_| reach)).collect(),
        ..usual
    })
}

/// What hangs in the cutouts: every bowl full of water, a box as wide and deep as its hole. A cutout too small for a bowl
/// has none, unless its depth is typed.
fn bowls(slab: &Slab, job: &Job, piece: usize) -> Known<Vec<(usize, Force)>> {
    let known = knockouts(slab).map(|(opening, shape)| {
        let place = |field| FieldPath::Cutout(piece, opening, field);
        let depth = read::optional(job, place(CutoutField::BowlDepth), read::length);
        let (depth, bowl) = both(depth, read::or_usual(job, place(CutoutField::BowlWeight), read::mass))?;
        let bounds = shape.bounds();
        let has_one = bounds.width().min(bounds.height()) >= (limits::bowl_least() - geometry_tolerance()).value;
        let depth = match depth {
            Some(depth) => depth,
            None if has_one => read::usual(job, place(CutoutField::BowlDepth))?,
            None => Length::default(),
        };
        let water = metres(bounds.width()) * metres(bounds.height()) * depth * limits::water();
        let all = weight(water + bowl);
        Ok((depth > Length::default()).then_some((opening, all)))
    });
    Ok(read::all(known)?.into_iter().flatten().collect())
}

/// What does not fit the top is waited for: every one of its fields at once.
fn fits(slab: &Slab, job: &Job, piece: usize, typed: &Under) -> Known<()> {
    let bounds = slab.outline.bounds();
    let (width, depth) = (metres(bounds.width()), metres(bounds.height()));
    let units = job.units;
    let wrong = |field, says: String| {
        let place = FieldPath::Handling(piece, field);
        Err(Waiting::at(place, format!("{}: {says}", read::name_of(job, place))))
    };
    let more = |value: Length, most: Length| value > most + geometry_tolerance();
    let third = width.min(depth) / 3.0;
    let rail = match typed.rail.filter(|rail| more(*rail, third)) {
        Some(rail) => wrong(
            HandlingField::CabinetRail,
            format!(
                "{} is wider than a third of this top's shorter side; {} is the most.",
                say::length(rail, units),
                say::at_most(third, units)
            ),
        ),
        None => Ok(()),
    };
    let [front, left, right] = typed.over.map(Option::unwrap_or_default);
    let end = width - right;
    let stands = end - left;
    let bay = match typed.bay.filter(|bay| stands > Length::default() && more(*bay, stands)) {
        Some(_) if left + right > Length::default() => wrong(
            HandlingField::SinkBay,
            format!("the bay is wider than the cabinet; {} is the most.", say::at_most(stands, units)),
        ),
        Some(_) => wrong(
            HandlingField::SinkBay,
            format!("the bay is wider than the top; {} is the most.", say::at_most(width, units)),
        ),
        None => Ok(()),
    };
    // A side bears in its middle, and so does the back once its width is typed. One that is refused moves nothing.
    let own = typed.rail.filter(|rail| !more(*rail, third));
    let half = own.unwrap_or_else(usual::cabinet_rail) / 2.0;
    let back = depth - own.map_or_else(Length::default, |rail| rail / 2.0);
    let over = match Some(front).filter(|front| *front >= back) {
        Some(_) if own.is_none() => wrong(
            HandlingField::Overhang,
            format!("nothing would bear it: it has to be less than its depth, {}.", say::length(depth, units)),
        ),
        Some(_) => wrong(
            HandlingField::Overhang,
            format!(
                "nothing would bear it: it has to be less than {}, where the back of the cabinet bears.",
                say::length(back, units)
            ),
        ),
        None => Ok(()),
    };
    let field = if left > right { HandlingField::OverhangLeft } else { HandlingField::OverhangRight };
    let [_, bears_left, bears_right] = typed.over.map(|over| over.unwrap_or(half));
    let most =
        width - [typed.over[1], typed.over[2]].iter().filter(|over| over.is_none()).map(|_| half).sum::<Length>();
    let ends = match Some(left + right).filter(|over| *over > Length::default() && bears_left >= width - bears_right) {
        Some(_) => wrong(
            field,
            format!("nothing would bear it: both ends together have to be less than {}.", say::length(most, units)),
        ),
        None => Ok(()),
    };
    let from = typed.gap_from.unwrap_or_default();
    let gap = match typed.gap_width {
        Some(_) if from >= end || more(left, from) => wrong(
            HandlingField::GapFrom,
            format!(
                "the gap lies outside the cabinet, which stands from {} to {}.",
                say::length(left, units),
                say::length(end, units)
            ),
        ),
        Some(gap) if more(from + gap, end) => wrong(
            HandlingField::GapWidth,
            format!(
                "from {} on the gap runs past the end of the cabinet; {} is the most there.",
                say::length(from, units),
                say::at_most(end - from, units)
            ),
        ),
        // The side of the cabinet would bear beside it as if there were none.
        Some(gap) if from + gap <= bears_left || from >= width - bears_right => wrong(
            HandlingField::GapWidth,
            format!(
                "the gap lies within a side of the cabinet, which bears from {} to {}.",
                say::length(bears_left, units),
                say::length(width - bears_right, units)
            ),
        ),
        _ => Ok(()),
    };
    both(both(rail, bay), both(both(over, ends), gap)).map(|_| ())
}

/// What is typed of what stands under the top.
struct Under {
    rail: Option<Length>,
    bay: Option<Length>,
    gap_from: Option<Length>,
    gap_width: Option<Length>,
    /// What reaches over in front, at the left and at the right.
    over: [Option<Length>; 3],
    fastened: bool,
    /// The cabinet has rails in front of and behind its sinks.
    railed: bool,
    low: Option<Length>,
}

/// The cabinet as typed, once it is known that it fits.
fn cabinet(slab: &Slab, typed: &Under) -> Cabinet {
    let mut cabinet = Cabinet::under(slab);
    let bounds = slab.outline.bounds();
    if let Some(rail) = typed.rail {
        // It bears in its middle.
        let wider = (rail - usual::cabinet_rail()).value / 2.0;
        cabinet.outside.x0 += wider;
        cabinet.outside.x1 -= wider;
        cabinet.outside.y0 += wider;
        cabinet.outside.y1 -= rail.value / 2.0;
    }
    let [front, over_left, over_right] = typed.over;
    if let Some(front) = front {
        cabinet.outside.y0 = bounds.y0 + front.value;
    }
    if let Some(over) = over_left {
        cabinet.outside.x0 = bounds.x0 + over.value;
    }
    if let Some(over) = over_right {
        cabinet.outside.x1 = bounds.x1 - over.value;
    }
    let (left, right) = (cabinet.outside.x0, cabinet.outside.x1);
    cabinet.fastened = typed.fastened;
    if let Some(bay) = typed.bay {
        // Centred on its cutout; where it would stick out of the cabinet, it lies against that side and is as wide.
        let end = bounds.x1 - over_right.map_or(0.0, |over| over.value);
        let first = bounds.x0 + over_left.map_or(0.0, |over| over.value);
        let half = bay.value / 2.0;
        let bays = knockouts(slab).map(|(_, opening)| {
            let at = opening.bounds().center().x.min(end - half).max(first + half);
            ((at - half).max(left), (at + half).min(right))
        });
        cabinet.open = bays.collect();
        cabinet.partitions = cabinet.open.iter().flat_map(|bay| [bay.0, bay.1]).collect();
    }
    if typed.railed {
        cabinet.open.clear();
    }
    if let Some(width) = typed.gap_width {
        let from = bounds.x0 + typed.gap_from.unwrap_or_default().value;
        let gap = (from.max(left), (from + width.value).min(right));
        if gap.0 < gap.1 {
            cabinet.partitions.retain(|at| !(gap.0 < *at && *at < gap.1));
            cabinet.partitions.extend([gap.0, gap.1]);
            cabinet.open.push(gap);
        }
    }
    cabinet.open = cabinet.open.into_iter().map(|bay| (bay.0.max(left), bay.1.min(right))).collect();
    cabinet.open.retain(|bay| bay.0 < bay.1);
    let inside = |at: &f64| *at > left + 0.02 && *at < right - 0.02;
    cabinet.partitions.retain(inside);
    cabinet.partitions.sort_by(f64::total_cmp);
    cabinet.partitions.dedup_by(|one, other| (*one - *other).abs() < 1e-3);
    cabinet.low_left = typed.low.unwrap_or_default();
    cabinet
}

/// The case as it is chosen; nothing if it does not happen.
fn chosen(mut case: Case, slab: &Slab, typed: &Handling, foam: &dyn Fn(usize) -> bool) -> Option<Case> {
    let third = || super::cases::Support { bears: SupportKind::Carrier(2), ..middle_support(slab) };
    match case.kind {
        LoadCase::LiftedAtEnds => match typed.stripped {
            Stripped::Flat => Some(case),
            Stripped::FlatByThree => Some(case.held_by_one_more(middle_support(slab))),
            Stripped::OnEdge => None,
        },
        LoadCase::TurnedOnEdge => (typed.stripped == Stripped::OnEdge).then_some(case),
        LoadCase::KnockoutEvenly(opening) | LoadCase::KnockoutAtOneEnd(opening) => {
            if foam(opening) {
                dig_out(&mut case);
            }
            Some(case)
        }
        LoadCase::CarriedByTwo => match typed.carried {
            Carried::ByTwo => Some(case),
            Carried::ByThree => Some(case.held_by_one_more(third())),
            Carried::ByFour | Carried::OnEdge => None,
        },
        LoadCase::CarriedByFour => (typed.carried == Carried::ByFour).then_some(case),
        LoadCase::CarriedOnEdge => (typed.carried == Carried::OnEdge).then_some(case),
        LoadCase::OnRack | LoadCase::OnBrackets | LoadCase::SitsOnBrackets => Some(case),
        LoadCase::VanOnEdge => (typed.travels == Travels::OnEdge).then_some(case),
        LoadCase::VanOnFoam => (typed.travels == Travels::OnFoam).then_some(case),
        LoadCase::OnCabinet | LoadCase::PersonSits | LoadCase::Overhang(_) => {
            if typed.bay == SinkBay::Propped {
                let bays = knockouts(slab).filter_map(|(opening, _)| props(slab, opening)).flatten();
                case.supports.extend(bays);
            }
            Some(case)
        }
    }
}

/// A tension over what is allowed, with the whole of its working.
fn of_allowed(
    working: Working,
    grown: &StrengthHistory,
    (times, counts): (f64, Counts),
    tension: &Figure<Pressure>,
    allowable: &Figure<Pressure>,
    units: Units,
) -> Figure<f64> {
    let share = (tension.value / allowable.value).value;
    let pressure = |value| written::pressure(value, units);
    working
        .after(&grown.working)
        .after(&allowable.working)
        .line("weight counts times", counts.words(), write_number(times, 2), counts.source())
        .after(&tension.working)
        .line(
            "tension ÷ what is allowed",
            format!("{} ÷ {}", pressure(tension.value), pressure(allowable.value)),
            write_number(share, 2),
            Source::Arithmetic,
        )
        .of(share)
}

fn verdicts(
    question: &Question,
    grown: &StrengthHistory,
    habits: &LoadAssumptions,
    steel: Option<&Steel>,
) -> Vec<RailVerdict> {
    let (concrete, units) = (grown.ages.stripping, question.units);
    let allowable = concrete.allowable(units);
    let Multiplier { times, counts } = habits.stripping;
    let checks = rails(&question.slab, &concrete, habits.grip, habits.stripping.times, units);
    let mut found: Vec<RailVerdict> = checks
        .into_iter()
        .map(|rail| {
            let working = Working::new("Rail lifted flat, by hand");
            let utilization = of_allowed(working, grown, (times, counts), &rail.stress, &allowable, units);
            let words = super::outcome::WorstLocation::Rail { opening: rail.opening, other: None, look: rail.look };
            let name = |opening: usize| question.names.get(opening).cloned().unwrap_or_default();
            let with_bar = steel.and_then(|steel| with_bar(&rail, steel, question, grown));
            RailVerdict { words: words.words(&name), utilization, with_bar, rail }
        })
        .collect();
    // A cut leaves every strip that it runs through with the same pull: of those the narrowest comes first.
    let rank = |one: &RailVerdict| ((one.utilization.value * -1e9).round(), one.rail.width.value);
    found.sort_by(|one, other| {
        let (one, other) = (rank(one), rank(other));
        one.0.total_cmp(&other.0).then(one.1.total_cmp(&other.1))
    });
    found
}

/// Statics alone can tell it: it is borne flat, and nothing but its weight bears down.
fn told_by_hand(kind: LoadCase) -> bool {
    matches!(kind, LoadCase::LiftedAtEnds | LoadCase::CarriedByTwo | LoadCase::CarriedByFour)
}

/// The worst net cuts of the cases that statics alone can tell.
fn net_verdicts(question: &Question, grown: &StrengthHistory) -> Vec<NetVerdict> {
    let units = question.units;
    let verdict = |(index, case): (usize, &Case)| {
        let cut = net::worst(&question.slab, case)?;
        let allowable = case.concrete.allowable(units);
        let tension = cut.figure(&question.slab, units);
        let working = Working::new(format!("{}, by hand", said::label(case, None, &question.names)));
        let utilization = of_allowed(working, grown, (case.multiplier, case.counts), &tension, &allowable, units);
        let words = place_of(&cut, question);
        Some(NetVerdict { kind: case.kind, case: index, words, tension: cut.tension, utilization })
    };
    question.cases.iter().enumerate().filter(|(_, case)| told_by_hand(case.kind)).filter_map(verdict).collect()
}

/// Where a cut is the narrowest, in the maker's words.
fn place_of(cut: &NetCut, question: &Question) -> String {
    let openings = cut.beside.map(|number| number.checked_sub(1));
    let Some(opening) = openings[0].or(openings[1]) else {
        if question.slab.openings.is_empty() {
            return "the middle".to_owned();
        }
        return super::outcome::WorstLocation::Middle.words(&|_| String::new());
    };
    let other = openings.into_iter().flatten().find(|other| *other != opening);
    let from = question.slab.openings.get(opening).map_or(kurbo::Vec2::ZERO, |shape| cut.at - shape.centroid());
    let along = super::cases::long_way(&question.slab);
    let beside = super::outcome::WorstLocation::Rail { opening, other, look: super::outcome::look(along, from) };
    beside.words(&|opening| question.name(opening))
}

/// The rail with the bar along it. Lifted out of the form the face is below, so that a bar lies that much nearer to
/// the side that is pulled.
fn with_bar(rail: &RailCheck, steel: &Steel, question: &Question, grown: &StrengthHistory) -> Option<Figure<Capacity>> {
    let (bars, layer) = (steel.bars.as_ref()?, steel.bar_layer.as_ref()?);
    let look = |lies| match lies {
        Lies::Front => Some(Facing::Front),
        Lies::Behind => Some(Facing::Back),
        Lies::Left => Some(Facing::Left),
        Lies::Right => Some(Facing::Right),
        Lies::Between(_) => None,
    };
    let along = |bar: &&crate::steel::Bar| {
        bar.rails.iter().any(|own| own.cutout == rail.opening && look(own.lies) == Some(rail.look))
    };
    let count = u32::try_from(bars.bars.iter().filter(along).count()).ok().filter(|count| *count > 0)?;
    let height = question.slab.thickness;
    let steel = bar(bars.size)?.layer(count, height - layer.height.value);
    Section { width: rail.width, height, steel }.capacity(&grown.ages.stripping, question.units).ok()
}

/// What the hand check warns of: the worst place as the top is lifted, and as it is carried.
pub fn advise(cracking: &Cracking, job: &Job, piece: usize) -> Vec<Finding> {
    let warnings = cracking.net.iter().filter_map(|verdict| warning(verdict, cracking, job, piece));
    let left = untold(cracking).map(|case| left_to_the_map(case, cracking, job, piece));
    let hung = cracking.hung.iter().flat_map(|hung| bracket::advise(hung, job, piece));
    warnings.chain(left).chain(hung).collect()
}

/// The cases that the hand check should tell and cannot: what bears the top misses its weight, or too much of it.
pub(super) fn untold(cracking: &Cracking) -> impl Iterator<Item = &Case> {
    let told = |kind| cracking.net.iter().any(|verdict| verdict.kind == kind);
    cracking.question.cases.iter().filter(move |case| told_by_hand(case.kind) && !told(case.kind))
}

/// That the hand check says nothing of a case: silence would say that it holds.
pub(super) fn left_to_the_map(case: &Case, cracking: &Cracking, job: &Job, piece: usize) -> Finding {
    let when = said::when(case, None, &cracking.question.names);
    let field = match case.age {
        Age::Stripping => cracking.grown.decided_by,
        _ => HandlingField::CarriedAt,
    };
    Finding {
        severity: Severity::Watch,
        stage: Stage::Build,
        place: FieldPath::Handling(piece, field),
        says: format!(
            "{}By hand nothing can be said of the top {when}: what bears it does not lie on both sides of its weight.",
            read::piece_prefix(job, piece)
        )
        .into(),
        remedy: "Wait for the map, “Will it crack?” on the Build screen, or take it in another way.".into(),
        source: Source::Arithmetic,
    }
}

/// What one case by hand warns of; nothing where it holds.
pub(super) fn warning(verdict: &NetVerdict, cracking: &Cracking, job: &Job, piece: usize) -> Option<Finding> {
    let share = verdict.utilization.value;
    if share <= 1.0 {
        return None;
    }
    let case = cracking.question.cases.get(verdict.case)?;
    let (units, age) = (job.units, case.age);
    let cracks_at = cracking.grown.ages.at(age).rupture(units).value;
    let at = cracking.grown.at(age);
    let sentence = said::sentence(&verdict.words, share, (case, None), at, &cracking.question.names);
    let severity = if share > limits::CRACKING_MARGIN { Severity::Stop } else { Severity::Watch };
    let pressure = |value: Pressure| written::pressure(value, units);
    let by_three = cracking.question.cases.iter().any(|case| case.kind == verdict.kind && case.supports.len() == 3);
    let (field, remedy) = match age {
        Age::Stripping if by_three => {
            (cracking.grown.decided_by, "Wait longer, or turn it out over its long edge: see “Will it crack?”.")
        }
        Age::Stripping => (
            cracking.grown.decided_by,
            "Wait longer, hold it in the middle as well, or turn it out over its long edge: see “Will it crack?”.",
        ),
        _ => (HandlingField::CarriedAt, "Carry it on its long edge, or wait longer: see “Will it crack?”."),
    };
    Some(Finding {
        severity,
        stage: Stage::Build,
        place: FieldPath::Handling(piece, field),
        says: format!(
            "{}{} By hand the pull there is {}; {} is allowed, and it cracks at {}.",
            read::piece_prefix(job, piece),
            sentence,
            pressure(verdict.tension),
            pressure(cracks_at / limits::CRACKING_MARGIN),
            pressure(cracks_at)
        )
        .into(),
        remedy: cracking.grown.also_typed(remedy.to_owned(), age).into(),
        source: limits::ALLOWABLE,
    })
}
