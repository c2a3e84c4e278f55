//! The limits and constants of grinding and sealing, each with its source beside it.
//! A rule, its message and its test all read the limit here.

use crate::measure::exact::{inches, quarts};
use crate::measure::{Length, MassDensity, Time, Units};
use crate::working::Source;
use uom::si::f64::VolumeRate;
use uom::si::length::millimeter;
use uom::si::mass_density::microgram_per_cubic_meter;
use uom::si::time::{day, minute};

/// Grinding that opens the skin to its fine sand. Common practice: about 1/32 in.
pub fn sand_depth() -> Length {
    inches(1.0 / 32.0)
}

/// Grinding that cuts the smaller stones. Common practice: about 1/16 in.
pub fn medium_depth() -> Length {
    inches(1.0 / 16.0)
}

/// Grinding that shows the stones in full. Common practice: 1/8 in or more.
pub fn full_depth() -> Length {
    inches(1.0 / 8.0)
}

/// The grits of the pads that follow the coarse wheel. Common practice.
pub const GRITS: [u32; 7] = [50, 100, 200, 400, 800, 1500, 3000];

/// A pad takes out the scratches of one at least half as fine; a wider gap leaves them. Common practice.
pub const GRIT_STEP: u32 = 2;

/// A face that keeps its cream is polished from this grit on: a coarser pad opens the skin. Common practice.
pub const CREAM_FIRST_GRIT: u32 = 400;

/// Portland cement weighs so many times what water does (ASTM C188; ACI 211.1 takes 3.15).
pub const CEMENT_GRAVITY: f64 = 3.15;

/// The thickness whose drying is known: 2 in (50 mm). Source: [`seal_after_portland`].
pub fn seal_after_thickness(units: Units) -> Length {
    if units == Units::Metric { Length::new::<millimeter>(50.0) } else { inches(2.0) }
}

/// A top of portland cement of [`seal_after_thickness`] waits so long for its sealer: 28 days, which is a month for each
/// inch to an open side. Common practice, no source; the sealer's label outranks it.
pub fn seal_after_portland() -> Time {
    Time::new::<day>(28.0)
}

/// A thin top of portland cement is no younger than that when it is sealed: 7 days. Common practice, no source.
pub fn seal_least_portland() -> Time {
    Time::new::<day>(7.0)
}

/// A top of rapid mortar of [`seal_after_thickness`] waits so long for its sealer, as it binds most of its water: a day
/// or more. Common practice, no source; the sealer's label outranks it.
pub fn seal_after_rapid() -> Time {
    Time::new::<day>(1.0)
}

/// A thin top of rapid mortar is no younger than that when it is sealed: a day. Common practice, no source.
pub fn seal_least_rapid() -> Time {
    Time::new::<day>(1.0)
}

/// A coarse wheel, where its size is not typed: 5 in. Common practice.
pub fn wheel_usual() -> Length {
    inches(5.0)
}

/// More coats than this are a typing error.
pub const MOST_COATS: u32 = 20;

/// The wet film of one coat of sealer, from the thinnest to the thickest that is usual: 400 and 200 ft² a US gallon.
/// From memory of data sheets.
pub fn sealer_film_usual() -> [Length; 2] {
    let foot = inches(12.0);
    [400.0, 200.0].map(|count| quarts(4.0) / (count * foot * foot))
}

/// Respirable silica over eight hours from which on it is monitored: 25 µg/m³. Source: [`SILICA_LIMITS`].
pub fn silica_action() -> MassDensity {
    MassDensity::new::<microgram_per_cubic_meter>(25.0)
}

/// Respirable silica over eight hours that must not be passed: 50 µg/m³. Source: [`SILICA_LIMITS`].
pub fn silica_most() -> MassDensity {
    MassDensity::new::<microgram_per_cubic_meter>(50.0)
}

/// Air through the shroud of a hand grinder with a wheel of that size: 25 ft³/min for each inch. Source: [`SILICA`].
pub fn shroud_air(wheel: Length) -> VolumeRate {
    let foot = inches(12.0);
    25.0 * (wheel / inches(1.0)).value * foot * foot * foot / Time::new::<minute>(1.0)
}

/// What the filter of its collector holds back at least. Source: [`SILICA`].
pub const SHROUD_FILTER: f64 = 0.99;

/// The assigned protection factor of a respirator for dry grinding indoors. Source: [`SILICA_SHOP`].
pub const RESPIRATOR_FACTOR: u32 = 10;

/// Source of what grinding dry by hand asks for.
pub const SILICA: Source =
    Source::Standard("OSHA 29 CFR 1926.1153, Table 1: handheld grinders for uses other than mortar removal");

/// Source of what a shop that grinds its own tops falls under: the table of the construction rule, with its hours free of a
/// respirator, is not its own.
pub const SILICA_SHOP: Source = Source::Standard(
    "OSHA 29 CFR 1910.1053(c), (f), (g): general industry, a respirator until the air is measured; from memory",
);

/// Source of the limits of respirable silica.
pub const SILICA_LIMITS: Source = Source::Standard("OSHA 29 CFR 1910.1053(b), (c): action level and limit over 8 h");

/// Shrinkage of concrete in the end, before its factors: 780 millionths (ACI 209R-92).
pub const ULTIMATE_SHRINKAGE: f64 = 780e-6;

/// Source of [`ULTIMATE_SHRINKAGE`] and its factors.
pub const SHRINKAGE: Source =
    Source::Standard("ACI 209R-92 2.3 to 2.5: 780 millionths × factors of humidity and volume to surface; from memory");

/// Relative humidity of a heated room, in which a top dries. Common practice, no source.
pub const ROOM_HUMIDITY: f64 = 0.5;

/// More than this out of flat shows against a straight edge. Common practice: 1/32 in.
pub fn curl_that_shows() -> Length {
    inches(1.0 / 32.0)
}
