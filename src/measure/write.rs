//! Writing quantities for people.

use super::*;
use rust_decimal::Decimal;

/// A written quantity, and whether writing it rounded it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Written {
    /// The text with its unit.
    pub text: String,
    /// The text does not say the whole value.
    pub rounded: bool,
}

impl std::fmt::Display for Written {
    /// The text, with "≈ " before it when rounded.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        if self.rounded { write!(f, "≈ {}", self.text) } else { f.write_str(&self.text) }
    }
}

macro_rules! stub { ($($name:ident($t:ty);)*) => { $( #[doc = "."] pub fn $name(_value: $t, _units: Units) -> Written { todo!() } )* } }
stub! { write_length(Length); write_feet(Length); write_area(Area); write_volume(Volume); write_water(Volume); write_mass(Mass); write_dose(Dose); write_temperature(Temperature); write_density(MassDensity); }
/// "15 min", "1 h", "3 days".
pub fn write_duration(_value: Time) -> Written {
    todo!()
}
/// A bare number with at most so many decimals, trailing zeros dropped.
pub fn write_number(_value: f64, _decimals: usize) -> String {
    todo!()
}
/// "3 bags", "1 bag".
pub fn write_count(_value: u32, _one: &str, _many: &str) -> String {
    todo!()
}
/// "10 %".
pub fn write_percent(_share: f64) -> String {
    todo!()
}
/// An amount in that ISO 4217 currency.
pub fn write_money(_value: Decimal, _currency: &str) -> String {
    todo!()
}
