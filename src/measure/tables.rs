//! The units of every quantity, one table each: the only place where a unit has a size.
//!
//! Every size is chained from an exact definition: the inch is 25.4 mm, the pound 0.45359237 kg, the
//! US gallon 231 in³, standard gravity 9.80665 m/s² (NIST SP 811 App. B, NIST HB 44 App. C).

use super::*;

/// Units whose sizes are whole multiples of one another, and so may be written side by side.
#[derive(Debug, PartialEq)]
pub(super) struct Family {
    /// SI value of the smallest unit, as a ratio so that no conversion rounds twice.
    numerator: f64,
    denominator: f64,
    /// Added to a count before it is scaled: the zero of a temperature scale.
    zero: f64,
}

impl Family {
    const fn new(numerator: f64, denominator: f64) -> Self {
        Self { numerator, denominator, zero: 0.0 }
    }

    /// SI value of so many of the smallest unit.
    pub(super) const fn si(&self, count: f64) -> f64 {
        (count + self.zero) * self.numerator / self.denominator
    }

    /// How many of the smallest unit make that SI value.
    pub(super) const fn count(&self, si: f64) -> f64 {
        si * self.denominator / self.numerator - self.zero
    }
}

/// The inch, 25.4 mm exactly (NIST SP 811 B.8).
pub(super) const INCHES: Family = Family::new(127.0, 5000.0);
pub(super) const MILLIMETRES: Family = Family::new(1.0, 1e3);
pub(super) const SQUARE_INCHES: Family = Family::new(16_129.0, 25e6);
pub(super) const SQUARE_METRES: Family = Family::new(1.0, 1.0);
/// The cube of the inch.
pub(super) const CUBIC_INCHES: Family = Family::new(2_048_383.0, 1.25e11);
/// The US teaspoon, 1/768 of a gallon of 231 in³ (NIST HB 44 App. C).
pub(super) const TEASPOONS: Family = Family::new(231.0 * 2_048_383.0, 768.0 * 1.25e11);
pub(super) const MILLILITRES: Family = Family::new(1.0, 1e6);
/// The ounce, 1/16 of a pound of 0.45359237 kg (NIST SP 811 B.8).
pub(super) const OUNCES: Family = Family::new(45_359_237.0, 16e8);
pub(super) const GRAMS: Family = Family::new(1.0, 1e3);
pub(super) const SECONDS: Family = Family::new(1.0, 1.0);
pub(super) const FEET_A_MINUTE: Family = Family::new(12.0 * 127.0, 60.0 * 5000.0);
pub(super) const METRES_A_SECOND: Family = Family::new(1.0, 1.0);
pub(super) const FAHRENHEIT: Family = Family { numerator: 5.0, denominator: 9.0, zero: 459.67 };
pub(super) const CELSIUS: Family = Family { numerator: 1.0, denominator: 1.0, zero: 273.15 };
/// One pound-force, a pound under standard gravity, on one square inch.
pub(super) const POUNDS_A_SQUARE_INCH: Family = Family::new(45_359_237.0 * 980_665.0, 4e5 * 16_129.0);
pub(super) const MEGAPASCALS: Family = Family::new(1e6, 1.0);
/// One pound in 1728 in³.
pub(super) const POUNDS_A_CUBIC_FOOT: Family = Family::new(45_359_237.0 * 1250.0, 1728.0 * 2_048_383.0);
pub(super) const KILOGRAMS_A_CUBIC_METRE: Family = Family::new(1.0, 1.0);
/// The mile an hour, 0.44704 m/s exactly (NIST SP 811 B.8).
const MILES_AN_HOUR: Family = Family::new(44_704.0, 1e5);
const KILOMETRES_AN_HOUR: Family = Family::new(1000.0, 3600.0);
/// The degree, π/180 of a radian.
pub(super) const DEGREES: Family = Family::new(std::f64::consts::PI, 180.0);
const HUNDREDTHS: Family = Family::new(1.0, 100.0);
const ONES: Family = Family::new(1.0, 1.0);

/// Whether people write thousandths of a unit: what three digits after a comma or a point can mean.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Thousandths {
    /// Often, as in 1.702 m.
    Usual,
    /// Now and then, as in 67.125 in.
    Possible,
    /// Never: 1.702 mm was meant as 1702 mm.
    Never,
}
use Thousandths::{Never, Possible, Usual};

/// One unit and its spellings.
#[derive(Debug)]
pub(super) struct Unit {
    /// Spellings, lower case; a space also stands for a full stop or for nothing.
    pub(super) names: &'static [&'static str],
    pub(super) family: &'static Family,
    /// In the smallest unit of its family.
    pub(super) size: f64,
    pub(super) thousandths: Thousandths,
    /// Position in the table of the unit that a bare number right after this one takes: 5' 7.
    pub(super) then: Option<usize>,
}

const fn unit(names: &'static [&'static str], family: &'static Family, size: f64, thousandths: Thousandths) -> Unit {
    Unit { names, family, size, thousandths, then: None }
}

const fn unit_then(names: &'static [&'static str], family: &'static Family, size: f64, then: usize) -> Unit {
    Unit { names, family, size, thousandths: Possible, then: Some(then) }
}

/// What may be typed at all: used by the check, by its message and by the tests.
#[derive(Debug)]
pub(super) struct Limit {
    /// What is limited: "a length".
    pub(super) what: &'static str,
    /// Least value, in the SI unit.
    pub(super) least: f64,
    /// Greatest value, in the SI unit.
    pub(super) most: f64,
    /// How a value of this kind is written.
    pub(super) write: fn(f64, Units) -> String,
}

impl Limit {
    /// Whether the SI value lies within, both ends included (and a rounding of the last digit).
    pub(super) fn holds(&self, si: f64) -> bool {
        let slack = 1e-12 * self.most;
        si >= self.least - slack && si <= self.most + slack
    }
}

/// One quantity: its units and its limit.
#[derive(Debug)]
pub(super) struct Table {
    pub(super) units: &'static [Unit],
    pub(super) limit: Limit,
}

/// What one reader reads.
pub(super) struct Reading {
    /// The quantities it takes; more than one where the unit decides.
    pub(super) tables: &'static [&'static Table],
    /// Position in the first table of the unit a bare number takes, in an inch and in a metric job.
    pub(super) bare: Option<[usize; 2]>,
    /// A text that works, in an inch and in a metric job.
    pub(super) example: [&'static str; 2],
    /// May stand under zero.
    pub(super) signed: bool,
    /// Takes whole numbers only.
    pub(super) whole: bool,
}

const fn reading(tables: &'static [&'static Table], bare: Option<[usize; 2]>, example: [&'static str; 2]) -> Reading {
    Reading { tables, bare, example, signed: false, whole: false }
}

pub(super) static LENGTHS: Table = Table {
    units: &[
        unit(&["in", "inch", "inches", "\"", "''"], &INCHES, 1.0, Possible),
        unit_then(&["ft", "foot", "feet", "'"], &INCHES, 12.0, 0),
        unit(&["yd", "yds", "yard", "yards"], &INCHES, 36.0, Possible),
        unit(&["mm", "millimeter", "millimeters", "millimetre", "millimetres"], &MILLIMETRES, 1.0, Never),
        unit(&["cm", "centimeter", "centimeters", "centimetre", "centimetres"], &MILLIMETRES, 10.0, Never),
        unit(&["m", "meter", "meters", "metre", "metres"], &MILLIMETRES, 1000.0, Usual),
    ],
    limit: Limit {
        what: "a length",
        least: 0.0,
        most: INCHES.si(1200.0),
        write: |si, units| write_feet(length(si), units).to_string(),
    },
};
pub(super) static LENGTH: Reading = reading(&[&LENGTHS], Some([0, 3]), ["67 1/4", "1702"]);

pub(super) static AREAS: Table = Table {
    units: &[
        unit(
            &["ft²", "ft2", "ft^2", "sq ft", "square foot", "square feet", "square ft", "sf"],
            &SQUARE_INCHES,
            144.0,
            Possible,
        ),
        unit(&["in²", "in2", "in^2", "sq in", "square inch", "square inches"], &SQUARE_INCHES, 1.0, Possible),
        unit(
            &["m²", "m2", "m^2", "sq m", "square meter", "square meters", "square metre", "square metres"],
            &SQUARE_METRES,
            1.0,
            Usual,
        ),
    ],
    limit: Limit {
        what: "an area",
        least: 0.0,
        most: SQUARE_INCHES.si(144.0 * 10_000.0),
        write: |si, units| write_area(area(si), units).to_string(),
    },
};
pub(super) static AREA: Reading = reading(&[&AREAS], Some([0, 2]), ["300 ft²", "7 m²"]);

pub(super) static VOLUMES: Table = Table {
    units: &[
        unit(
            &["ft³", "ft3", "ft^3", "cu ft", "cubic foot", "cubic feet", "cubic ft", "cf"],
            &CUBIC_INCHES,
            1728.0,
            Possible,
        ),
        unit(&["l", "liter", "liters", "litre", "litres", "dm³", "dm3"], &MILLILITRES, 1e3, Usual),
        unit(&["in³", "in3", "in^3", "cu in", "cubic inch", "cubic inches", "cubic in"], &CUBIC_INCHES, 1.0, Possible),
        unit(
            &["yd³", "yd3", "yd^3", "cu yd", "cubic yard", "cubic yards", "cubic yd"],
            &CUBIC_INCHES,
            46_656.0,
            Possible,
        ),
        unit(&["gal", "gals", "gallon", "gallons", "us gal", "us gallon", "us gallons"], &TEASPOONS, 768.0, Possible),
        unit(&["qt", "qts", "quart", "quarts", "us qt", "us quart", "us quarts"], &TEASPOONS, 192.0, Possible),
        unit(&["pt", "pts", "pint", "pints", "us pt", "us pint", "us pints"], &TEASPOONS, 96.0, Possible),
        unit(&["cup", "cups", "us cup", "us cups"], &TEASPOONS, 48.0, Possible),
        unit(
            &["fl oz", "fluid ounce", "fluid ounces", "fluid oz", "us fl oz", "us fluid ounces"],
            &TEASPOONS,
            6.0,
            Possible,
        ),
        unit(&["tbsp", "tablespoon", "tablespoons"], &TEASPOONS, 3.0, Possible),
        unit(&["tsp", "teaspoon", "teaspoons"], &TEASPOONS, 1.0, Possible),
        unit(&["ml", "milliliter", "milliliters", "millilitre", "millilitres", "cc", "cm³"], &MILLILITRES, 1.0, Never),
        unit(
            &["m³", "m3", "m^3", "cubic meter", "cubic meters", "cubic metre", "cubic metres"],
            &MILLILITRES,
            1e6,
            Usual,
        ),
    ],
    limit: Limit {
        what: "a volume",
        least: 0.0,
        most: CUBIC_INCHES.si(1728.0 * 1000.0),
        write: |si, units| write_volume(volume(si), units).to_string(),
    },
};
pub(super) static VOLUME: Reading = reading(&[&VOLUMES], Some([0, 1]), ["5 qt", "2.5 L"]);
pub(super) static WATER: Reading = reading(&[&VOLUMES], Some([5, 1]), ["4 3/4 qt", "2.5 L"]);
pub(super) static PAIL: Reading = reading(&[&VOLUMES], Some([4, 1]), ["1 gal", "4 L"]);
pub(super) static CARTRIDGE: Reading = reading(&[&VOLUMES], Some([8, 11]), ["10.1 fl oz", "300 mL"]);

pub(super) static MASSES: Table = Table {
    units: &[
        unit(&["lb", "lbs", "pound", "pounds", "#"], &OUNCES, 16.0, Possible),
        unit(&["kg", "kgs", "kilogram", "kilograms", "kilo", "kilos"], &GRAMS, 1e3, Usual),
        unit(&["oz", "ounce", "ounces"], &OUNCES, 1.0, Possible),
        unit(&["g", "gram", "grams"], &GRAMS, 1.0, Never),
        unit(&["t", "tonne", "tonnes"], &GRAMS, 1e6, Usual),
    ],
    limit: Limit {
        what: "a mass",
        least: 0.0,
        most: OUNCES.si(16.0 * 20_000.0),
        write: |si, units| write_mass(mass(si), units).to_string(),
    },
};
pub(super) static MASS: Reading = reading(&[&MASSES], Some([0, 1]), ["55 lb", "25 kg"]);

pub(super) static DOSE: Reading = reading(&[&VOLUMES, &MASSES], None, ["2 cups", "150 mL"]);

pub(super) static ANGLES: Table = Table {
    units: &[unit(&["°", "deg", "degree", "degrees"], &DEGREES, 1.0, Possible)],
    limit: Limit {
        what: "an angle",
        least: 0.0,
        most: DEGREES.si(360.0),
        write: |si, _| write_angle(angle(si)).to_string(),
    },
};
pub(super) static ANGLE: Reading = reading(&[&ANGLES], Some([0, 0]), ["92.5°"; 2]);

pub(super) static TEMPERATURES: Table = Table {
    units: &[
        unit(
            &["°f", "f", "℉", "deg f", "degrees f", "fahrenheit", "degrees fahrenheit", "° f"],
            &FAHRENHEIT,
            1.0,
            Possible,
        ),
        unit(&["°c", "c", "℃", "deg c", "degrees c", "celsius", "degrees celsius", "° c"], &CELSIUS, 1.0, Possible),
    ],
    limit: Limit {
        what: "a temperature",
        least: FAHRENHEIT.si(-40.0),
        most: FAHRENHEIT.si(150.0),
        write: |si, units| write_temperature(temperature(si), units).to_string(),
    },
};
pub(super) static TEMPERATURE: Reading =
    Reading { signed: true, ..reading(&[&TEMPERATURES], Some([0, 1]), ["70 °F", "21 °C"]) };

pub(super) static DURATIONS: Table = Table {
    units: &[
        unit(&["min", "mins", "minute", "minutes"], &SECONDS, 60.0, Possible),
        unit_then(&["h", "hr", "hrs", "hour", "hours"], &SECONDS, 3600.0, 0),
        unit(&["d", "day", "days"], &SECONDS, 86_400.0, Possible),
        unit(&["week", "weeks", "wk"], &SECONDS, 604_800.0, Possible),
        unit(&["s", "sec", "secs", "second", "seconds"], &SECONDS, 1.0, Possible),
    ],
    limit: Limit {
        what: "a time span",
        least: 0.0,
        most: 1000.0 * 86_400.0,
        write: |si, _| write_duration(duration(si)).to_string(),
    },
};
pub(super) static DURATION: Reading = reading(&[&DURATIONS], Some([0, 0]), ["1 h 30 min"; 2]);
pub(super) static HOURS: Reading = reading(&[&DURATIONS], Some([1, 1]), ["2 h 30 min"; 2]);

pub(super) static SURFACE_SPEEDS: Table = Table {
    units: &[
        unit(&["ft/min", "fpm", "sfpm"], &FEET_A_MINUTE, 1.0, Never),
        unit(&["m/s"], &METRES_A_SECOND, 1.0, Possible),
    ],
    limit: Limit {
        what: "a surface speed",
        least: 0.0,
        most: METRES_A_SECOND.si(200.0),
        write: |si, _| write_number(si, 0) + " m/s",
    },
};
pub(super) static SURFACE_SPEED: Reading = reading(&[&SURFACE_SPEEDS], Some([0, 1]), ["4500 ft/min", "25 m/s"]);

pub(super) static PRESSURES: Table = Table {
    units: &[
        unit(&["psi", "lb/in²", "lb/in2"], &POUNDS_A_SQUARE_INCH, 1.0, Possible),
        unit(&["mpa", "n/mm²", "n/mm2"], &MEGAPASCALS, 1.0, Possible),
    ],
    limit: Limit {
        what: "a strength",
        least: 0.0,
        most: POUNDS_A_SQUARE_INCH.si(50_000.0),
        write: |si, units| match units {
            Units::Inch => write_number(POUNDS_A_SQUARE_INCH.count(si), 0) + " psi",
            Units::Metric => write_number(MEGAPASCALS.count(si), 1) + " MPa",
        },
    },
};
pub(super) static PRESSURE: Reading = reading(&[&PRESSURES], Some([0, 1]), ["4000 psi", "30 MPa"]);

pub(super) static DENSITIES: Table = Table {
    units: &[
        unit(&["lb/ft³", "lb/ft3", "lbs/ft³", "lbs/ft3", "lb/cu ft", "pcf"], &POUNDS_A_CUBIC_FOOT, 1.0, Possible),
        unit(&["kg/m³", "kg/m3"], &KILOGRAMS_A_CUBIC_METRE, 1.0, Never),
    ],
    limit: Limit {
        what: "a density",
        least: 0.0,
        most: POUNDS_A_CUBIC_FOOT.si(1000.0),
        write: |si, units| write_density(density(si), units).to_string(),
    },
};
pub(super) static DENSITY: Reading = reading(&[&DENSITIES], Some([0, 1]), ["140 lb/ft³", "2240 kg/m³"]);

pub(super) static SPEEDS: Table = Table {
    units: &[
        unit(&["mph", "mi/h", "miles an hour", "miles per hour"], &MILES_AN_HOUR, 1.0, Possible),
        unit(&["km/h", "kph", "kmh", "kilometers per hour", "kilometres per hour"], &KILOMETRES_AN_HOUR, 1.0, Possible),
        unit(&["m/s", "meters per second", "metres per second"], &METRES_A_SECOND, 1.0, Possible),
    ],
    limit: Limit {
        what: "a speed of wind",
        least: 0.0,
        most: MILES_AN_HOUR.si(100.0),
        write: |si, units| match units {
            Units::Inch => write_number(MILES_AN_HOUR.count(si), 0) + " mph",
            Units::Metric => write_number(KILOMETRES_AN_HOUR.count(si), 0) + " km/h",
        },
    },
};
pub(super) static SPEED: Reading = reading(&[&SPEEDS], Some([0, 1]), ["5 mph", "8 km/h"]);

pub(super) static COUNTS: Table = Table {
    units: &[unit(&[], &ONES, 1.0, Never)],
    limit: Limit { what: "a count", least: 1.0, most: 10_000.0, write: |si, _| write_number(si, 0) },
};
pub(super) static COUNT: Reading = Reading { whole: true, ..reading(&[&COUNTS], Some([0, 0]), ["3"; 2]) };

pub(super) static SHARES: Table = Table {
    units: &[unit(&["%", "percent", "per cent"], &HUNDREDTHS, 1.0, Possible)],
    limit: Limit { what: "a share", least: 0.0, most: 1.0, write: |si, _| write_percent(si) },
};
pub(super) static PERCENT: Reading = reading(&[&SHARES], Some([0, 0]), ["10 %"; 2]);

pub(super) static RATIOS: Table = Table {
    units: &[unit(&[], &ONES, 1.0, Possible)],
    limit: Limit { what: "a ratio", least: 0.0, most: 100.0, write: |si, _| write_number(si, 2) },
};
pub(super) static RATIO: Reading = reading(&[&RATIOS], Some([0, 0]), ["2.65"; 2]);

/// What an amount of money may be; its numbers are in the currency's own unit.
pub(super) static AMOUNTS: Limit =
    Limit { what: "an amount", least: 0.0, most: 1_000_000.0, write: |si, _| write_number(si, 0) };
