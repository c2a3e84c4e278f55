//! How warm a mix comes out of the mixer, and how warm or cold its water has to be.
//!
//! Heat is counted in masses of water times degrees: solids take 0.22 of what water takes, and ice takes 80 °C
//! (144 °F) of as much water before it is water. A working shows it in the job's units, as the standard has it
//! in either.

use crate::measure::exact::in_pounds;
use crate::measure::{Mass, Temperature, Units, write_mass, write_number, write_temperature};
use crate::pour::limits;
use crate::working::{Figure, Source, Working};
use uom::si::mass::kilogram;
use uom::si::thermodynamic_temperature::{degree_celsius, degree_fahrenheit};

/// What goes into a mixer, and how warm it is. What is not in the mix has no mass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Charge {
    /// Cement, or a whole bagged mix.
    pub dry: Mass,
    /// Its temperature.
    pub dry_temperature: Temperature,
    /// Sand and stone that are weighed in apart, dry.
    pub aggregate: Mass,
    /// Their temperature.
    pub aggregate_temperature: Temperature,
    /// Free water that they carry, as warm as they are.
    pub moisture: Mass,
    /// Mixing water, without the ice.
    pub water: Mass,
    /// Its temperature, not under freezing.
    pub water_temperature: Temperature,
    /// Ice at 0 °C that melts in the mix.
    pub ice: Mass,
}

/// Why a mix has no temperature, or cannot be given one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ChargeProblem {
    /// A mass or a temperature is no number that can be, or nothing is in the mix.
    NoNumber,
    /// The mixing water would be ice or steam.
    Water,
    /// With this ice, or at this cold, not all the ice would melt.
    IceLeft,
    /// There is no mixing water whose temperature could be chosen.
    NoWater,
    /// The water would have to be colder than freezing, or, with ice, more ice than there is water. This is the
    /// coldest the mix can be.
    NotSoCold(Temperature),
    /// The water would have to be hotter than cement stands, or no ice is needed. This is the warmest the mix can
    /// be.
    NotSoWarm(Temperature),
}

/// The units in which heat is counted.
struct Scale {
    mass: fn(Mass) -> f64,
    degrees: fn(Temperature) -> f64,
    /// What ice takes until it is water at zero degrees of this scale.
    melting: f64,
    name: &'static str,
}

const METRIC: Scale = Scale {
    mass: |mass| mass.get::<kilogram>(),
    degrees: |at| at.get::<degree_celsius>(),
    melting: limits::HEAT_OF_MELTING,
    name: "kg and °C",
};

/// 144 °F of melting less the 32 °F that ice is over the zero of the scale.
const INCH: Scale = Scale {
    mass: in_pounds,
    degrees: |at| at.get::<degree_fahrenheit>(),
    melting: limits::HEAT_OF_MELTING * 1.8 - 32.0,
    name: "lb and °F",
};

fn scale_of(units: Units) -> Scale {
    match units {
        Units::Inch => INCH,
        Units::Metric => METRIC,
    }
}

impl Charge {
    /// A bagged mix with its water, no ice.
    pub fn bagged(dry: Mass, dry_temperature: Temperature, water: Mass, water_temperature: Temperature) -> Self {
        let none = Mass::default();
        Self {
            dry,
            dry_temperature,
            aggregate: none,
            aggregate_temperature: dry_temperature,
            moisture: none,
            water,
            water_temperature,
            ice: none,
        }
    }

    /// What the solids and their moisture take by the degree, and their heat over the scale's zero.
    fn solids(&self, scale: &Scale) -> (f64, f64) {
        let [dry, aggregate, moisture] = [self.dry, self.aggregate, self.moisture].map(scale.mass);
        let [dry_at, aggregate_at] = [self.dry_temperature, self.aggregate_temperature].map(scale.degrees);
        let solid = limits::HEAT_OF_SOLIDS;
        let heat = solid * (dry * dry_at + aggregate * aggregate_at) + moisture * aggregate_at;
        (solid * (dry + aggregate) + moisture, heat)
    }

    /// The temperature of the mix in °C, whatever the charge.
    fn mixed(&self) -> f64 {
        let (takes, heat) = self.solids(&METRIC);
        let [water, ice] = [self.water, self.ice].map(|mass| mass.get::<kilogram>());
        let heat = heat + water * self.water_temperature.get::<degree_celsius>() - limits::HEAT_OF_MELTING * ice;
        heat / (takes + water + ice)
    }

    fn check(&self) -> Result<(), ChargeProblem> {
        let masses = [self.dry, self.aggregate, self.moisture, self.water, self.ice];
        let [coldest, hottest] = limits::history_range();
        let sane = |one: Temperature| one >= coldest && one <= hottest;
        let most = limits::heaviest_charge();
        let sane_masses = masses.iter().all(|mass| mass.value >= 0.0 && *mass <= most);
        if !(sane_masses && sane(self.dry_temperature) && sane(self.aggregate_temperature)) || self.mixed().is_nan() {
            return Err(ChargeProblem::NoNumber);
        }
        let freezing = limits::freezing();
        if !(self.water_temperature >= freezing && self.water_temperature <= hottest) {
            return Err(ChargeProblem::Water);
        }
        Ok(())
    }

    /// The temperature of the mix, without its working.
    pub(super) fn mixed_temperature(&self) -> Result<Temperature, ChargeProblem> {
        self.check()?;
        let celsius = self.mixed();
        // Where the sum is under freezing, ice is left: the formula says nothing.
        if celsius < 0.0 && self.ice.value > 0.0 {
            return Err(ChargeProblem::IceLeft);
        }
        Ok(Temperature::new::<degree_celsius>(celsius))
    }

    /// How warm it comes out of the mixer: without the heat of mixing and of setting, and what the mixer itself
    /// takes.
    ///
    /// # Errors
    /// What of the charge cannot be.
    pub fn temperature(&self, units: Units) -> Result<Figure<Temperature>, ChargeProblem> {
        let mixed = self.mixed_temperature()?;
        Ok(self
            .working(units)
            .line(
                "heat ÷ (0.22 × solids + water + ice): the temperature of the mix",
                self.sum(units),
                write_temperature(mixed, units),
                limits::MIXED_TEMPERATURE,
            )
            .of(mixed))
    }

    fn working(&self, units: Units) -> Working {
        let mut working = Working::new("Temperature of the mix");
        let parts = [
            ("dry mix or cement", self.dry, Some(self.dry_temperature)),
            ("sand and stone", self.aggregate, Some(self.aggregate_temperature)),
            ("free water on them", self.moisture, Some(self.aggregate_temperature)),
            ("mixing water", self.water, Some(self.water_temperature)),
            ("ice", self.ice, None),
        ];
        for (name, mass, temperature) in parts.into_iter().filter(|(_, mass, _)| mass.value > 0.0) {
            let mass = write_mass(mass, units);
            let at = temperature.map_or_else(String::new, |at| format!(" at {}", write_temperature(at, units)));
            working = working.line(name, "", format!("{mass}{at}"), Source::Typed);
        }
        working
    }

    /// The sum with its numbers.
    fn sum(&self, units: Units) -> String {
        let scale = scale_of(units);
        let number = |value: f64| write_number(value, 1);
        let (takes, heat) = self.solids(&scale);
        let [water, ice] = [self.water, self.ice].map(scale.mass);
        let melting =
            if ice > 0.0 { format!(" − {} × {}", number(scale.melting), number(ice)) } else { String::new() };
        format!(
            "({} + {} × {}{melting}) ÷ ({} + {}), in {}",
            number(heat),
            number(water),
            number((scale.degrees)(self.water_temperature)),
            number(takes),
            number(water + ice),
            scale.name
        )
    }

    /// How warm the mixing water has to be for a mix of that temperature.
    ///
    /// # Errors
    /// What of the charge cannot be; and how near it can come, where freezing or hot water is not enough.
    pub fn water_for(&self, wanted: Temperature, units: Units) -> Result<Figure<Temperature>, ChargeProblem> {
        self.check_wanted(wanted)?;
        let (takes, heat) = self.solids(&METRIC);
        let [water, ice] = [self.water, self.ice].map(|mass| mass.get::<kilogram>());
        if water <= 0.0 {
            return Err(ChargeProblem::NoWater);
        }
        let target = wanted.get::<degree_celsius>();
        let celsius = (target * (takes + water + ice) + limits::HEAT_OF_MELTING * ice - heat) / water;
        let at = Temperature::new::<degree_celsius>(celsius);
        let with = |water_temperature| Temperature::new::<degree_celsius>(Self { water_temperature, ..*self }.mixed());
        if celsius < -crate::measure::TEMPERATURE_TOLERANCE {
            return Err(ChargeProblem::NotSoCold(with(limits::freezing())));
        }
        if celsius > limits::water_hottest().get::<degree_celsius>() + crate::measure::TEMPERATURE_TOLERANCE {
            return Err(ChargeProblem::NotSoWarm(with(limits::water_hottest())));
        }
        let scale = scale_of(units);
        let (takes, heat) = self.solids(&scale);
        let [water, ice] = [self.water, self.ice].map(scale.mass);
        Ok(Working::new("Temperature of the water")
            .after(&Self { water: Mass::default(), ..*self }.working(units))
            .line("mixing water", "", write_mass(self.water, units), Source::Typed)
            .line("the mix is to be", "", write_temperature(wanted, units), Source::Typed)
            .line(
                "(mix × all that takes heat − heat of the rest) ÷ water",
                format!(
                    "({} × {} − {}) ÷ {}, in {}",
                    write_number((scale.degrees)(wanted), 1),
                    write_number(takes + water + ice, 1),
                    write_number(heat - scale.melting * ice, 1),
                    write_number(water, 1),
                    scale.name
                ),
                write_temperature(at, units),
                limits::MIXED_TEMPERATURE,
            )
            .of(at))
    }

    /// How much of the mixing water has to be ice for a mix of that temperature; the rest is as warm as it is,
    /// and water and ice together stay what they are. Zero where it comes out so without ice.
    ///
    /// # Errors
    /// What of the charge cannot be; and how near it can come, where all the water as ice is not enough, or no
    /// ice too cold.
    pub fn ice_for(&self, wanted: Temperature, units: Units) -> Result<Figure<Mass>, ChargeProblem> {
        self.check_wanted(wanted)?;
        let (takes, heat) = self.solids(&METRIC);
        let all = (self.water + self.ice).get::<kilogram>();
        let at = self.water_temperature.get::<degree_celsius>();
        if all <= 0.0 {
            return Err(ChargeProblem::NoWater);
        }
        let target = wanted.get::<degree_celsius>();
        let ice = (heat + at * all - target * (takes + all)) / (at + limits::HEAT_OF_MELTING);
        let with = |ice: f64| {
            let mass = Mass::new::<kilogram>;
            Temperature::new::<degree_celsius>(Self { water: mass(all - ice), ice: mass(ice), ..*self }.mixed())
        };
        let dust = crate::measure::COUNT_TOLERANCE * all;
        if ice > all + dust {
            return Err(ChargeProblem::NotSoCold(with(all)));
        }
        if ice < -dust {
            return Err(ChargeProblem::NotSoWarm(with(0.0)));
        }
        let mass = Mass::new::<kilogram>(ice.clamp(0.0, all));
        let dry = Self { water: self.water + self.ice, ice: Mass::default(), ..*self };
        let scale = scale_of(units);
        let (takes, heat) = dry.solids(&scale);
        let (all, at) = ((scale.mass)(dry.water), (scale.degrees)(self.water_temperature));
        Ok(Working::new("Ice in place of water")
            .after(&dry.working(units))
            .line("the mix is to be", "", write_temperature(wanted, units), Source::Typed)
            .line(
                "(heat without ice − mix × all that takes heat) ÷ (water's temperature + what ice takes)",
                format!(
                    "({} − {} × {}) ÷ ({} + {}), in {}",
                    write_number(heat + at * all, 1),
                    write_number((scale.degrees)(wanted), 1),
                    write_number(takes + all, 1),
                    write_number(at, 1),
                    write_number(scale.melting, 1),
                    scale.name
                ),
                write_mass(mass, units),
                limits::MIXED_TEMPERATURE,
            )
            .of(mass))
    }

    fn check_wanted(&self, wanted: Temperature) -> Result<(), ChargeProblem> {
        self.check()?;
        let sane = wanted >= limits::freezing() && wanted <= limits::water_hottest();
        if sane { Ok(()) } else { Err(ChargeProblem::NoNumber) }
    }
}

impl ChargeProblem {
    /// What is wrong, in a maker's words.
    pub fn says(self, units: Units) -> String {
        match self {
            Self::NoNumber => "Temperature of the mix: a mass or a temperature cannot be.".to_owned(),
            Self::Water => "Water: give a temperature from freezing to boiling.".to_owned(),
            Self::IceLeft => "Ice: not all of it would melt; use less.".to_owned(),
            Self::NoWater => "Water: there is none to warm or to cool.".to_owned(),
            Self::NotSoCold(nearest) => {
                format!("The mix cannot be made so cold; {} is the coldest.", write_temperature(nearest, units))
            }
            Self::NotSoWarm(nearest) => {
                format!("The mix cannot be made so warm; {} is the warmest.", write_temperature(nearest, units))
            }
        }
    }
}
