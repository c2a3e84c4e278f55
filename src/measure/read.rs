//! Reading what was typed.

use super::*;
use rust_decimal::Decimal;

/// An amount of an additive.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Dose {
    /// By volume.
    Volume(Volume),
    /// By mass.
    Mass(Mass),
}

/// Why a text could not be read (variants to be filled in).
#[derive(Clone, Debug, PartialEq)]
pub enum Reason {
    /// Nothing but white space.
    Empty,
}

/// What is wrong with a text, where, and what would have worked.
#[derive(Clone, Debug, PartialEq)]
pub struct ReadError {
    /// Character (not byte) at which reading stopped, counted from zero.
    pub at: usize,
    /// Why.
    pub reason: Reason,
    /// A text that would have worked, in the job's unit.
    pub example: &'static str,
}

macro_rules! stub { ($($name:ident -> $t:ty;)*) => { $( #[doc = "."] pub fn $name(_text: &str, _units: Units) -> Result<$t, ReadError> { todo!() } )* } }
stub! { read_length -> Length; read_volume -> Volume; read_mass -> Mass; read_dose -> Dose; read_temperature -> Temperature; read_duration -> Time; read_pressure -> Pressure; read_density -> MassDensity; }
/// A whole number of at least one.
pub fn read_count(_text: &str) -> Result<u32, ReadError> {
    todo!()
}
/// A share: "10" or "10 %" is 0.10.
pub fn read_percent(_text: &str) -> Result<f64, ReadError> {
    todo!()
}
/// An amount of money, with or without a currency sign.
pub fn read_money(_text: &str) -> Result<Decimal, ReadError> {
    todo!()
}
/// Replaces (or adds) the fraction of a tape reading by `sixteenths`/16, reduced.
pub fn with_fraction(_text: &str, _sixteenths: u8) -> String {
    todo!()
}

impl std::fmt::Display for ReadError {
    fn fmt(&self, _f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        todo!()
    }
}
