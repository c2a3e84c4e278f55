//! Reading the entries of a job: from a [`Place`] to a typed quantity, or to the [`Need`] that says
//! what is missing there.

use super::{Job, Kind, Place};
use crate::measure::{self, Dose, Length, Mass, MassDensity, ReadError, Temperature, Time, Volume};
use crate::working::{Known, Need, Waiting};

/// What is wrong with the entry at that place, read as its kind; `None` if it reads well, if it is
/// free text, or if it is blank (a blank field is waited for, not scolded).
pub fn error_at(job: &Job, place: Place) -> Option<ReadError> {
    let entry = job.entry_at(place)?;
    if entry.is_blank() { None } else { check(entry.text(), place.kind(), job.units).err() }
}

/// Reads a text as a thing of that kind and forgets the value.
///
/// # Errors
/// The reader's own, see [`measure`].
pub fn check(text: &str, kind: Kind, units: measure::Units) -> Result<(), ReadError> {
    match kind {
        Kind::Text => Ok(()),
        Kind::Length => measure::read_length(text, units).map(drop),
        Kind::Volume => measure::read_volume(text, units).map(drop),
        Kind::Mass => measure::read_mass(text, units).map(drop),
        Kind::Dose => measure::read_dose(text, units).map(drop),
        Kind::Temperature => measure::read_temperature(text, units).map(drop),
        Kind::Duration => measure::read_duration(text, units).map(drop),
        Kind::Pressure => measure::read_pressure(text, units).map(drop),
        Kind::Density => measure::read_density(text, units).map(drop),
        Kind::Count => measure::read_count(text).map(drop),
        Kind::Percent => measure::read_percent(text).map(drop),
        Kind::Money => measure::read_money(text).map(drop),
    }
}

fn read<T>(job: &Job, place: Place, reader: impl Fn(&str) -> Result<T, ReadError>) -> Known<T> {
    let text = job.entry_at(place).map_or("", |entry| entry.text());
    reader(text).map_err(|error| Waiting { needs: vec![Need { place, says: format!("{}: {error}", place.label()) }] })
}

/// The length typed at that place.
pub fn length(job: &Job, place: Place) -> Known<Length> {
    read(job, place, |text| measure::read_length(text, job.units))
}

/// The volume typed at that place.
pub fn volume(job: &Job, place: Place) -> Known<Volume> {
    read(job, place, |text| measure::read_volume(text, job.units))
}

/// The mass typed at that place.
pub fn mass(job: &Job, place: Place) -> Known<Mass> {
    read(job, place, |text| measure::read_mass(text, job.units))
}

/// The dose typed at that place.
pub fn dose(job: &Job, place: Place) -> Known<Dose> {
    read(job, place, |text| measure::read_dose(text, job.units))
}

/// The temperature typed at that place.
pub fn temperature(job: &Job, place: Place) -> Known<Temperature> {
    read(job, place, |text| measure::read_temperature(text, job.units))
}

/// The time span typed at that place.
pub fn duration(job: &Job, place: Place) -> Known<Time> {
    read(job, place, |text| measure::read_duration(text, job.units))
}

/// The density typed at that place.
pub fn density(job: &Job, place: Place) -> Known<MassDensity> {
    read(job, place, |text| measure::read_density(text, job.units))
}

/// The whole number typed at that place.
pub fn count(job: &Job, place: Place) -> Known<u32> {
    read(job, place, measure::read_count)
}

/// The share typed at that place; 0.10 for "10 %".
pub fn percent(job: &Job, place: Place) -> Known<f64> {
    read(job, place, measure::read_percent)
}

/// As the reader given, but a blank entry counts as nothing at all.
///
/// # Errors
/// The reader's own, when something is typed that cannot be read.
pub fn optional<T>(job: &Job, place: Place, reader: fn(&Job, Place) -> Known<T>) -> Known<Option<T>> {
    if job.entry_at(place).is_none_or(|entry| entry.is_blank()) { Ok(None) } else { reader(job, place).map(Some) }
}

/// Both, or everything that either is waiting for.
///
/// # Errors
/// The needs of both, in order.
pub fn both<A, B>(a: Known<A>, b: Known<B>) -> Known<(A, B)> {
    match (a, b) {
        (Ok(a), Ok(b)) => Ok((a, b)),
        (Err(mut a), Err(b)) => {
            a.needs.extend(b.needs);
            Err(a)
        }
        (Err(waiting), _) | (_, Err(waiting)) => Err(waiting),
    }
}
