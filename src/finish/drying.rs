//! How long a top dries before it takes a sealer.

use super::{FinishInputs, positive};
use crate::finding::{Finding, Severity, Stage};
use crate::finish::limits;
use crate::job::read;
use crate::job::{FieldPath, FinishField, JobField};
use crate::label;
use crate::measure::{COUNT_TOLERANCE, Date, Length, Quantity, Time, Units, write_count, write_number};
use crate::top::Top;
use crate::working::{Figure, Known, Label, Name, Named, Source, Term, together};
use std::borrow::Cow;
use uom::si::time::{day as days, second};

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
    let name = Label::with("usual drying of {} at {}", [Quantity::Words(Cow::Borrowed(kind)), Quantity::Length(of)]);
    let ratio = || (thickness.named("thickness") / of.named("that thickness")).number();
    let dries = Term::named_as(usual, name, tenths_of_days(usual)) * ratio() * ratio();
    let written = tenths_of_days(dries.value);
    let dries = dries.step_as("it dries in", written, Source::Practice);
    let age = whole_days_of_longer(dries.value, least);
    let age = dries.with_rule(
        Term::named_as(least, "the least age", tenths_of_days(least)),
        "the longer of {} and {}, in whole days",
        |parts| {
            let [one, other] = [parts[0], parts[1]].map(Time::new::<second>);
            whole_days_of_longer(one, other).value
        },
        age,
    );
    let written = Quantity::other(age.value.value, |si, _| in_days(Time::new::<second>(si)));
    Some(age.titled_as("Sealed not before", written, Source::Practice))
}

fn whole_days_of_longer(dries: Time, least: Time) -> Time {
    let wanted = if dries > least { dries } else { least };
    // Whole days are not passed by a last bit.
    Time::new::<days>((wanted.get::<days>() * (1.0 - COUNT_TOLERANCE)).ceil())
}

/// A time span in days, to a tenth.
fn tenths_of_days(time: Time) -> Quantity {
    Quantity::other(time.value, |si, _| write_number(Time::new::<second>(si).get::<days>(), 1) + " days")
}

/// Whole days: "28 days".
fn in_days(age: Time) -> String {
    write_count(age.get::<days>().round() as u32, "day", "days")
}

impl Drying {
    /// The drying of these pieces, which are those of the job in its order.
    ///
    /// # Errors
    /// What it waits for: a mix, a thickness, a piece.
    pub(super) fn of(tops: &[&Top], inputs: &FinishInputs) -> Known<Self> {
        let mut slowest: Option<Self> = None;
        let (mut first_day, mut all_logged): (Option<Date>, bool) = (None, true);
        for (piece, (top, own)) in tops.iter().zip(&inputs.pieces).enumerate() {
            let (rapid, thickness) = together((own.rapid.clone(), top.thickness.clone()))?;
            let age = least_age(rapid, thickness, inputs.units).ok_or_else(|| own.no_thickness.clone())?;
            let wait = age.value.get::<days>().round() as i32;
            let dry = own.poured.and_then(|date| date.plus_days(wait));
            first_day = first_day.max(dry);
            all_logged &= dry.is_some();
            if slowest.as_ref().is_none_or(|slowest| age.value > slowest.age.value) {
                slowest = Some(Self { piece, age, first_day: None, all_logged });
            }
        }
        let slowest = slowest.ok_or_else(|| read::no_piece(FieldPath::Job(JobField::Name)))?;
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
    pub(super) fn advise(&self, first_coat: Date) -> Option<Finding> {
        let age = in_days(self.age.value);
        let finding = |severity, says, remedy: &'static str| Finding {
            severity,
            stage: Stage::Finish,
            place: FieldPath::Finish(FinishField::SealDate),
            says,
            remedy: remedy.into(),
            source: Source::Practice,
        };
        match self.first_day {
            Some(day) if first_coat < day => Some(finding(
                Severity::Stop,
                label!(
                    "A first coat on {} is too early: the top is dry and old enough for it from {} on.",
                    first_coat,
                    day
                ),
                "Wait until that day: a sealer on damp concrete turns milky or peels. Where the sealer's label asks for more \
                 days, wait for those.",
            )),
            Some(_) if self.all_logged => None,
            _ => Some(finding(
                Severity::Note,
                label!(
                    "{}A first coat goes on not before {} after the pour, and the pour is not in the log.",
                    Name::PieceInFront(self.piece),
                    age
                ),
                "Count the days from first water; where the sealer's label asks for more, wait for those.",
            )),
        }
    }
}

/// What is not ground: cutting the form leaves an edge its size.
pub const EDGES_AS_CAST: &str = "Shown edges stay as cast: the form allows nothing for grinding them.";
