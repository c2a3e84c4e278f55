//! How long a top dries before it takes a sealer.

use super::positive;
use crate::finding::{Finding, Severity, Stage};
use crate::finish::limits;
use crate::job::read::{self, both};
use crate::job::{Family, FieldPath, FinishField, Job, Logged, PourStep};
use crate::measure::{Date, Length, Time, Units, write_count, write_length, write_number};
use crate::mix;
use crate::top::Top;
use crate::working::{Figure, Known, Source, Waiting, Working};
use uom::si::time::day as days;

/// Milliseconds of a day.
const DAY: u64 = 86_400_000;

/// When the pieces of a job are dry and old enough for a sealer.
#[derive(Clone, Debug, PartialEq)]
pub struct Drying {
    /// The piece that takes longest.
    pub piece: usize,
    /// The least age of it, in whole days.
    pub age: Figure<Time>,
    /// The first day on which every piece with a pour log is old enough; nothing where none was logged.
    pub first_day: Option<Date>,
    /// Every piece has a pour log.
    pub all_logged: bool,
}

/// The least age at which a piece of that thickness is sealed, in whole days; it dries from both sides, so that the
/// time grows with the square of the thickness. `None` unless the thickness is over zero.
pub fn least_age(rapid: bool, thickness: Length, units: Units) -> Option<Figure<Time>> {
    if !positive(&[thickness.value]) {
        return None;
    }
    let (usual, least, kind) = if rapid {
        (limits::seal_after_rapid(), limits::seal_least_rapid(), "rapid mortar")
    } else {
        (limits::seal_after_portland(), limits::seal_least_portland(), "portland cement")
    };
    let of = limits::seal_after_thickness(units);
    let ratio = (thickness / of).value;
    let dries = usual * ratio * ratio;
    let wanted = if dries > least { dries } else { least };
    // Whole days are not passed by a last bit.
    let age = Time::new::<days>((wanted.get::<days>() * (1.0 - crate::measure::COUNT_TOLERANCE)).ceil());
    let written = |time: Time| write_number(time.get::<days>(), 1) + " days";
    Some(
        Working::new("Sealed not before")
            .line(
                format!("{kind}: usual drying at {} × (thickness ÷ that)²", write_length(of, units)),
                format!("{} × ({} ÷ {})²", written(usual), write_length(thickness, units), write_length(of, units)),
                written(dries),
                Source::Practice,
            )
            .line(
                "the longer of that and the least age, in whole days",
                format!("{}, {}", written(dries), written(least)),
                in_days(age),
                Source::Practice,
            )
            .of(age),
    )
}

/// Whole days: "28 days".
fn in_days(age: Time) -> String {
    write_count(age.get::<days>().round() as u32, "day", "days")
}

/// The log that a piece was poured by: its own, or the only one of its mix, since one of the pieces that are poured at one
/// go keeps that of all.
fn log_of(job: &Job, piece: usize) -> Option<&[Logged]> {
    let own = job.pieces.get(piece)?;
    let alike = job.pieces.iter().filter(|other| other.bag == own.bag && !other.log.is_empty());
    match (own.log.as_slice(), alike.collect::<Vec<_>>().as_slice()) {
        ([], [only]) => Some(&only.log),
        (log, _) => Some(log),
    }
}

/// The day of the first water of the part of a piece that was poured last, by the phone's clock in world time.
fn poured(job: &Job, piece: usize) -> Option<Date> {
    let log = log_of(job, piece)?;
    let waters = || log.iter().filter(|line| matches!(line.step, PourStep::Water(_)));
    let first_of = |part| waters().filter(|line| line.part == part).map(|line| line.at).min();
    let at = waters().filter_map(|line| first_of(line.part)).max()?;
    Date::from_days(i32::try_from(at / DAY).ok()?)
}

impl Drying {
    /// The drying of these pieces, which are those of the job in its order.
    ///
    /// # Errors
    /// What it waits for: a mix, a thickness, a piece.
    pub(super) fn of(tops: &[&Top], job: &Job) -> Known<Self> {
        let mut slowest: Option<Self> = None;
        let (mut first_day, mut all_logged): (Option<Date>, bool) = (None, true);
        for (piece, top) in tops.iter().enumerate() {
            let ((_, bag), thickness) = both(mix::bag_of(job, piece), top.thickness.clone())?;
            // Of a mix made from scratch its family is a filler, and its cement portland.
            let rapid = bag.recipe.is_none() && bag.family == Family::RapidMortar;
            let place = FieldPath::Piece(piece, crate::job::PieceField::Thickness);
            let nothing = || Waiting::at(place, format!("{}: this has to be more.", read::name_of(job, place)));
            let age = least_age(rapid, thickness, job.units).ok_or_else(nothing)?;
            let wait = age.value.get::<days>().round() as i32;
            let dry = poured(job, piece).and_then(|date| date.plus_days(wait));
            first_day = first_day.max(dry);
            all_logged &= dry.is_some();
            if slowest.as_ref().is_none_or(|slowest| age.value > slowest.age.value) {
                slowest = Some(Self { piece, age, first_day: None, all_logged });
            }
        }
        let slowest = slowest.ok_or_else(|| read::no_piece(FieldPath::Job(crate::job::JobField::Name)))?;
        Ok(Self { first_day, all_logged, ..slowest })
    }

    /// When the first coat may go on: "from 2027-03-01 on", or "not before 28 days after the pour".
    pub fn words(&self) -> String {
        match self.first_day {
            Some(day) if self.all_logged => format!("from {day} on"),
            _ => format!("not before {} after the pour", in_days(self.age.value)),
        }
    }

    /// The finding about a first coat on that day, if there is anything to say.
    pub(super) fn advise(&self, first_coat: Date, job: &Job) -> Option<Finding> {
        let age = in_days(self.age.value);
        let finding = |severity, says, remedy: &str| Finding {
            severity,
            stage: Stage::Finish,
            place: FieldPath::Finish(FinishField::SealDate),
            says,
            remedy: remedy.to_owned(),
            source: Source::Practice,
        };
        match self.first_day {
            Some(day) if first_coat < day => Some(finding(
                Severity::Stop,
                format!(
                    "A first coat on {first_coat} is too early: the top is dry and old enough for it from {day} on."
                ),
                "Wait until that day: a sealer on damp concrete turns milky or peels. Where the sealer's label asks for more \
                 days, wait for those.",
            )),
            Some(_) if self.all_logged => None,
            _ => Some(finding(
                Severity::Note,
                format!(
                    "{}A first coat goes on not before {age} after the pour, and the pour is not in the log.",
                    read::piece_prefix(job, self.piece)
                ),
                "Count the days from first water; where the sealer's label asks for more, wait for those.",
            )),
        }
    }
}

/// What is not ground: cutting the form leaves an edge its size.
pub const EDGES_AS_CAST: &str = "Shown edges stay as cast: the form allows nothing for grinding them.";
