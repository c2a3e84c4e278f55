//! Reading the entries of a job: from a [`FieldPath`] to a typed quantity, or to the [`Waiting`] that says
//! what is missing there.

use super::{Amount, FieldPath, Job, Kind};
use crate::measure::{
    self, Angle, Area, Date, Dose, Length, Mass, MassDensity, Pressure, ReadError, Speed, Temperature, Time, Volume,
};
use crate::names::in_sentence;
use crate::working::{Asked, Known, Name, Names, Waiting};

pub use crate::working::{all, both};

/// What is wrong with the entry at that place, read as its kind; `None` if it reads well, if it is
/// free text, or if it is blank (a blank field is waited for, not scolded).
pub fn error_at(job: &Job, place: FieldPath) -> Option<ReadError> {
    wrong(job.entry_at(place)?.text(), place.kind(), job.units)
}

/// What is wrong with a text, read as a thing of that kind; `None` if it reads well, is free text or is blank.
pub fn wrong(text: &str, kind: Kind, units: measure::Units) -> Option<ReadError> {
    if text.trim().is_empty() { None } else { check(text, kind, units).err() }
}

/// Reads a text as a thing of that kind and forgets the value.
///
/// # Errors
/// The reader's own, see [`measure`].
pub fn check(text: &str, kind: Kind, units: measure::Units) -> Result<(), ReadError> {
    match kind {
        Kind::Text => Ok(()),
        Kind::Dose => measure::read_dose(text, units).map(drop),
        Kind::Money => measure::read_money(text).map(drop),
        Kind::Date => measure::read_date(text).map(drop),
        _ => number(text, kind, units).map(drop),
    }
}

/// Reads a text as a thing of that kind, in the kind's SI unit; what is no number reads as not a number.
///
/// # Errors
/// The reader's own, see [`measure`].
pub(super) fn number(text: &str, kind: Kind, units: measure::Units) -> Result<f64, ReadError> {
    match kind {
        Kind::Length => measure::read_length(text, units).map(|length| length.value),
        Kind::Area => measure::read_area(text, units).map(|area| area.value),
        Kind::Volume | Kind::Water | Kind::Pail | Kind::Cartridge => {
            volume_of(kind)(text, units).map(|volume| volume.value)
        }
        Kind::Mass => measure::read_mass(text, units).map(|mass| mass.value),
        Kind::Angle => measure::read_angle(text).map(|angle| angle.value),
        Kind::Temperature => measure::read_temperature(text, units).map(|temperature| temperature.value),
        Kind::Duration | Kind::Hours => span_of(kind)(text, units).map(|time| time.value),
        Kind::Clock => measure::read_clock(text).map(|time| time.value),
        Kind::SurfaceSpeed => measure::read_surface_speed(text, units).map(|speed| speed.value),
        Kind::Pressure => measure::read_pressure(text, units).map(|pressure| pressure.value),
        Kind::Density => measure::read_density(text, units).map(|density| density.value),
        Kind::Speed => measure::read_speed(text, units).map(|speed| speed.value),
        Kind::Count => measure::read_count(text).map(f64::from),
        Kind::Percent => measure::read_percent(text),
        Kind::Ratio => measure::read_ratio(text),
        Kind::Text | Kind::Dose | Kind::Money | Kind::Date => Ok(f64::NAN),
    }
}

/// What was typed as a thing of that kind, so that it says its unit by itself: a bare number is given the unit that it
/// is read in; what has a unit, and what cannot be read, stays to the letter but for space around it.
pub fn with_unit(text: &str, kind: Kind, units: measure::Units) -> String {
    let text = text.trim();
    let said = format!("{text} {}", kind.unit(units));
    let same = number(text, kind, units).is_ok_and(|meant| number(&said, kind, units) == Ok(meant));
    if same && !kind.unit(units).is_empty() { said } else { text.to_owned() }
}

/// How volumes of that kind are read: kinds differ in what a bare number is.
fn volume_of(kind: Kind) -> fn(&str, measure::Units) -> Result<Volume, ReadError> {
    match kind {
        Kind::Water => measure::read_water,
        Kind::Pail => measure::read_pail,
        Kind::Cartridge => measure::read_cartridge,
        _ => measure::read_volume,
    }
}

/// How time spans of that kind are read: kinds differ in what a bare number is.
fn span_of(kind: Kind) -> fn(&str, measure::Units) -> Result<Time, ReadError> {
    if kind == Kind::Hours { measure::read_hours } else { measure::read_duration }
}

fn read<T>(job: &Job, place: FieldPath, reader: impl Fn(&str) -> Result<T, ReadError>) -> Known<T> {
    let text = job.entry_at(place).map_or("", |entry| entry.text());
    reader(text).map_err(|error| Waiting::named(place, error.to_string()))
}

impl Names for Job {
    fn units(&self) -> measure::Units {
        self.units
    }

    fn name(&self, of: Name) -> String {
        match of {
            Name::Field(place) => place.words(self),
            Name::Piece(piece) => piece_name(self, piece),
            Name::PieceInFront(piece) => piece_prefix(self, piece),
            Name::Bag(bag) => bag_name(self, bag),
        }
    }
}

/// The words for a place in a sentence: "Cutout 2, Width"; with several pieces, the piece's name
/// comes first.
pub fn name_of(job: &Job, place: FieldPath) -> String {
    place.words(job)
}

/// What to call a piece: its name, or its number where it has none.
pub fn piece_name(job: &Job, piece: usize) -> String {
    match job.pieces.get(piece) {
        Some(named) if !named.name.is_blank() => in_sentence(named.name.text()).into_owned(),
        _ => format!("Piece {}", piece + 1),
    }
}

/// What to call a bag: its name, or its number where it has none.
pub fn bag_name(job: &Job, bag: usize) -> String {
    match job.bags.get(bag) {
        Some(named) if !named.name.is_blank() => in_sentence(named.name.text()).into_owned(),
        _ => format!("Bag {}", bag + 1),
    }
}

/// What there is to wait for where a job has no piece, at that place.
pub(crate) fn no_piece(place: FieldPath) -> Waiting {
    Waiting::at(place, "There is no piece yet: add one.")
}

/// The piece's name and a colon where the job has several pieces, else nothing.
pub(crate) fn piece_prefix(job: &Job, piece: usize) -> String {
    if job.pieces.len() > 1 { format!("{}: ", piece_name(job, piece)) } else { String::new() }
}

/// The length typed at that place, which has to be more than nothing.
pub fn positive_length(job: &Job, place: FieldPath) -> Known<Length> {
    positive(place, length(job, place)?, Length::default())
}

/// The volume typed at that place, which has to be more than nothing.
pub fn positive_volume(job: &Job, place: FieldPath) -> Known<Volume> {
    positive(place, volume(job, place)?, Volume::default())
}

/// The mass typed at that place, which has to be more than nothing.
pub fn positive_mass(job: &Job, place: FieldPath) -> Known<Mass> {
    positive(place, mass(job, place)?, Mass::default())
}

/// The time span typed at that place, which has to be more than nothing.
pub fn positive_duration(job: &Job, place: FieldPath) -> Known<Time> {
    positive(place, duration(job, place)?, Time::default())
}

/// The density typed at that place, which has to be more than nothing.
pub fn positive_density(job: &Job, place: FieldPath) -> Known<MassDensity> {
    positive(place, density(job, place)?, MassDensity::default())
}

/// The strength typed at that place, which has to be more than nothing.
pub fn positive_pressure(job: &Job, place: FieldPath) -> Known<Pressure> {
    positive(place, pressure(job, place)?, Pressure::default())
}

fn positive<T: PartialOrd>(place: FieldPath, value: T, nothing: T) -> Known<T> {
    if value > nothing { Ok(value) } else { Err(Waiting::named(place, "this has to be more than nothing.")) }
}

/// The length typed at that place.
pub fn length(job: &Job, place: FieldPath) -> Known<Length> {
    read(job, place, |text| measure::read_length(text, job.units))
}

/// The area typed at that place, which has to be more than nothing.
pub fn positive_area(job: &Job, place: FieldPath) -> Known<Area> {
    let area = read(job, place, |text| measure::read_area(text, job.units))?;
    positive(place, area, Area::default())
}

/// The volume typed at that place; a bare number is in the unit that its field shows.
pub fn volume(job: &Job, place: FieldPath) -> Known<Volume> {
    read(job, place, |text| volume_of(place.kind())(text, job.units))
}

/// The mass typed at that place.
pub fn mass(job: &Job, place: FieldPath) -> Known<Mass> {
    read(job, place, |text| measure::read_mass(text, job.units))
}

/// The dose typed at that place.
pub fn dose(job: &Job, place: FieldPath) -> Known<Dose> {
    read(job, place, |text| measure::read_dose(text, job.units))
}

/// The angle typed at that place.
///
/// # Errors
/// The place, if nothing readable stands there.
pub fn angle(job: &Job, place: FieldPath) -> Known<Angle> {
    read(job, place, measure::read_angle)
}

/// The temperature typed at that place.
pub fn temperature(job: &Job, place: FieldPath) -> Known<Temperature> {
    read(job, place, |text| measure::read_temperature(text, job.units))
}

/// The time span typed at that place; a bare number is in the unit that its field shows.
pub fn duration(job: &Job, place: FieldPath) -> Known<Time> {
    read(job, place, |text| span_of(place.kind())(text, job.units))
}

/// The speed typed at that place.
pub fn speed(job: &Job, place: FieldPath) -> Known<Speed> {
    read(job, place, |text| measure::read_speed(text, job.units))
}

/// The strength typed at that place.
pub fn pressure(job: &Job, place: FieldPath) -> Known<Pressure> {
    read(job, place, |text| measure::read_pressure(text, job.units))
}

/// The time span typed at that place, told in hours.
pub fn hours(job: &Job, place: FieldPath) -> Known<Time> {
    read(job, place, |text| measure::read_hours(text, job.units))
}

/// The time of day typed at that place.
pub fn clock(job: &Job, place: FieldPath) -> Known<Time> {
    read(job, place, measure::read_clock)
}

/// The day typed at that place.
pub fn date(job: &Job, place: FieldPath) -> Known<Date> {
    read(job, place, measure::read_date)
}

/// The density typed at that place.
pub fn density(job: &Job, place: FieldPath) -> Known<MassDensity> {
    read(job, place, |text| measure::read_density(text, job.units))
}

/// The whole number typed at that place.
pub fn count(job: &Job, place: FieldPath) -> Known<u32> {
    read(job, place, measure::read_count)
}

/// The share typed at that place; 0.10 for "10 %".
pub fn percent(job: &Job, place: FieldPath) -> Known<f64> {
    read(job, place, measure::read_percent)
}

/// The ratio typed at that place, which has to be more than nothing.
pub fn positive_ratio(job: &Job, place: FieldPath) -> Known<f64> {
    positive(place, ratio(job, place)?, 0.0)
}

/// The ratio typed at that place.
pub fn ratio(job: &Job, place: FieldPath) -> Known<f64> {
    read(job, place, measure::read_ratio)
}

/// As the reader given, but a blank entry counts as nothing at all.
///
/// # Errors
/// The reader's own, when something is typed that cannot be read.
pub fn optional<T>(job: &Job, place: FieldPath, reader: fn(&Job, FieldPath) -> Known<T>) -> Known<Option<T>> {
    if job.entry_at(place).is_none_or(|entry| entry.is_blank()) { Ok(None) } else { reader(job, place).map(Some) }
}

/// As the reader given, for a field that some numbers wait for and others do without.
pub fn asked<T: Clone>(job: &Job, place: FieldPath, reader: fn(&Job, FieldPath) -> Known<T>) -> Asked<T> {
    Asked::new(reader(job, place), job.entry_at(place).is_none_or(|entry| entry.is_blank()))
}

/// What counts at that place of that job while nothing is typed there.
///
/// # Errors
/// That something has to be typed, where the table has no such amount.
pub fn usual<T: TryFrom<Amount>>(job: &Job, place: FieldPath) -> Known<T> {
    let usual = place.usual(job.units).and_then(|usual| T::try_from(usual.amount).ok());
    usual.ok_or_else(|| Waiting::named(place, "nothing is written here yet."))
}

/// As the reader given, but where the entry is blank its usual amount counts.
///
/// # Errors
/// The reader's own, when something is typed that cannot be read; that something has to be typed, where the table has no
/// usual amount.
pub fn or_usual<T: TryFrom<Amount>>(job: &Job, place: FieldPath, reader: fn(&Job, FieldPath) -> Known<T>) -> Known<T> {
    optional(job, place, reader)?.map_or_else(|| usual(job, place), Ok)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{BagField, FinishField, FormField, HandlingField};
    use uom::si::{time::hour, volume::liter};

    fn typed(units: measure::Units, place: FieldPath, text: &str) -> Job {
        let mut job = Job::new("a", units);
        *job.entry_at_mut(place).expect("an entry") = text.into();
        job
    }

    /// A US quart is 57.75 in³, a gallon 231 in³, a fluid ounce 231/128 in³ (NIST HB 44 App. C).
    #[test]
    fn a_bare_number_is_read_in_what_its_field_shows() {
        use measure::Units::{Inch, Metric};
        let water = FieldPath::Bag(0, BagField::Water);
        let inches = |place, text: &str| {
            volume(&typed(Inch, place, text), place).map_or(f64::NAN, |read| read.value / 0.0254_f64.powi(3))
        };
        let litres =
            |place, text: &str| volume(&typed(Metric, place, text), place).map_or(f64::NAN, |read| read.get::<liter>());
        assert!((inches(water, "4.75") - 4.75 * 57.75).abs() < 1e-9, "4.75 typed over 5 qt is 4.75 qt");
        assert!((inches(water, "1 gal") - 231.0).abs() < 1e-9);
        assert!((litres(water, "4.5") - 4.5).abs() < 1e-9);
        assert!((inches(FieldPath::Bag(0, BagField::WaterMost), "5 1/4") - 5.25 * 57.75).abs() < 1e-9);
        assert!((inches(FieldPath::Bag(0, BagField::Yield), "0.5") - 864.0).abs() < 1e-9, "a yield stays in ft³");
        assert!((inches(FieldPath::Finish(FinishField::CoversWith), "1") - 231.0).abs() < 1e-9);
        assert!((inches(FieldPath::Form(FormField::Cartridge), "10.1") - 10.1 * 231.0 / 128.0).abs() < 1e-9);
        assert!((litres(FieldPath::Form(FormField::Cartridge), "300") - 0.3).abs() < 1e-9);
        for place in [FieldPath::Bag(0, BagField::StripAfter), FieldPath::Handling(0, HandlingField::CarriedAt)] {
            let hours =
                |text: &str| duration(&typed(Inch, place, text), place).map_or(f64::NAN, |read| read.get::<hour>());
            assert!((hours("2") - 2.0).abs() < 1e-9, "2 typed over 1 h is 2 h");
            assert!((hours("30 min") - 0.5).abs() < 1e-9);
            assert!((hours("3 days") - 72.0).abs() < 1e-9);
        }
        let workable = FieldPath::Bag(0, BagField::Workable);
        let read = duration(&typed(Inch, workable, "15"), workable).map_or(f64::NAN, |read| read.get::<hour>());
        assert!((read - 0.25).abs() < 1e-9, "a workable time stays in minutes");
    }

    #[test]
    fn a_text_says_its_own_unit() {
        use measure::Units::{Inch, Metric};
        for (text, kind, units, said) in [
            ("67", Kind::Length, Inch, "67 in"),
            ("67", Kind::Length, Metric, "67 mm"),
            ("67 in", Kind::Length, Metric, "67 in"),
            (" 3/4 ", Kind::Length, Inch, "3/4 in"),
            ("5' 7\"", Kind::Length, Inch, "5' 7\""),
            ("48.9 cm", Kind::Length, Metric, "48.9 cm"),
            ("67 1/", Kind::Length, Inch, "67 1/"),
            ("", Kind::Length, Inch, ""),
            ("4.75", Kind::Water, Inch, "4.75 qt"),
            ("4.75 L", Kind::Water, Inch, "4.75 L"),
            ("2", Kind::Hours, Inch, "2 h"),
            ("2", Kind::Duration, Metric, "2 min"),
            ("-5", Kind::Temperature, Metric, "-5 °C"),
            ("10", Kind::Percent, Inch, "10 %"),
            ("10 %", Kind::Percent, Inch, "10 %"),
            ("0", Kind::Length, Metric, "0 mm"),
            ("67", Kind::Text, Inch, "67"),
            ("3", Kind::Count, Inch, "3"),
        ] {
            assert_eq!(with_unit(text, kind, units), said, "{text:?} as {kind:?}");
        }
    }

    #[test]
    fn a_field_shows_the_unit_that_it_reads_in() {
        let job = Job::new("a", measure::Units::Inch);
        for units in [measure::Units::Inch, measure::Units::Metric] {
            for place in job.places() {
                let (kind, unit) = (place.kind(), place.kind().unit(units));
                if let (false, Ok(bare)) = (unit.is_empty(), number("2", kind, units)) {
                    assert_eq!(number(&format!("2 {unit}"), kind, units), Ok(bare), "{place:?}");
                }
            }
        }
    }
}
