//! How warm a mix comes out of the mixer, and how warm or cold its water has to be.
//!
//! The temperature of a mix is the mean of what goes in, each counted by the heat that it takes: water by its mass, solids
//! by 0.22 of theirs. Ice takes 80 °C (144 °F) of as much water before it is water of 0 °C (32 °F): it counts as water that
//! is so much colder than that. A mean of temperatures is the same in every scale, so a working is written in the units of
//! whoever reads it.

use crate::measure::{Mass, Measured, Temperature};
use crate::pour::limits;
use crate::working::{Figure, Label, Source, Term};
use uom::si::mass::kilogram;
use uom::si::thermodynamic_temperature::{degree_celsius, kelvin};

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

/// The temperature that ice counts with, as if it were water.
fn ice_counts_as() -> Temperature {
    Temperature::new::<degree_celsius>(-limits::HEAT_OF_MELTING)
}

/// A mass in a formula, in its SI unit: degrees are not multiplied as quantities.
fn mass(name: &'static str, value: Mass) -> Term<f64> {
    Term::stated_as(value.value, name, value.quantity(), Source::Typed)
}

/// A temperature in a formula, in kelvin.
fn degrees(name: &'static str, at: Temperature, source: Source) -> Term<f64> {
    Term::stated_as(at.get::<kelvin>(), name, at.quantity(), source)
}

/// The temperature that ice counts with, in a formula.
fn ice_at() -> Term<f64> {
    degrees("temperature of the ice, counted as water", ice_counts_as(), limits::MIXED_TEMPERATURE)
}

/// What takes heat, and the heat that it brings, in formulas.
#[derive(Default)]
struct Heat {
    takes: Vec<Term<f64>>,
    brings: Vec<Term<f64>>,
}

impl Heat {
    /// All that takes heat.
    fn all(&self) -> Term<f64> {
        Term::sum(self.takes.iter().cloned())
    }

    /// All heat that is brought in.
    fn brought(&self) -> Term<f64> {
        Term::sum(self.brings.iter().cloned())
    }

    /// With mixing water, where there is any.
    fn add_water(&mut self, water: Mass, at: Temperature) {
        if water.value > 0.0 {
            self.add(None, mass("mixing water", water), degrees("temperature of the water", at, Source::Typed));
        }
    }

    /// With ice, where there is any.
    fn add_ice(&mut self, ice: Mass) {
        if ice.value > 0.0 {
            self.add(None, mass("ice", ice), ice_at());
        }
    }

    /// With something that takes heat by a share of it, or by all of it.
    fn add(&mut self, share: Option<f64>, what: Term<f64>, at: Term<f64>) {
        let takes = match share {
            Some(share) => share * what,
            None => what,
        };
        self.brings.push(takes.clone() * at);
        self.takes.push(takes);
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

    /// What the solids and their moisture take by the degree Celsius, and their heat over 0 °C; in kilograms.
    fn solids(&self) -> (f64, f64) {
        let [dry, aggregate, moisture] = [self.dry, self.aggregate, self.moisture].map(|mass| mass.get::<kilogram>());
        let [dry_at, aggregate_at] =
            [self.dry_temperature, self.aggregate_temperature].map(|at| at.get::<degree_celsius>());
        let solid = limits::HEAT_OF_SOLIDS;
        let heat = solid * (dry * dry_at + aggregate * aggregate_at) + moisture * aggregate_at;
        (solid * (dry + aggregate) + moisture, heat)
    }

    /// The temperature of the mix in °C, whatever the charge.
    fn mixed(&self) -> f64 {
        let (takes, heat) = self.solids();
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
    /// ```
    /// use pourwright::measure::Units;
    /// use pourwright::measure::exact::{fahrenheit, pounds};
    /// use pourwright::pour::temperature::Charge;
    ///
    /// // 55 lb of dry mix count as much as 12.1 lb of water: half the way between them.
    /// let charge = Charge::bagged(pounds(55.0), fahrenheit(80.0), pounds(12.1), fahrenheit(60.0));
    /// let mixed = charge.temperature().expect("a temperature");
    /// assert_eq!(mixed.working.result(Units::Inch), "70 °F");
    /// ```
    ///
    /// # Errors
    /// What of the charge cannot be.
    pub fn temperature(&self) -> Result<Figure<Temperature>, ChargeProblem> {
        let mixed = self.mixed_temperature()?;
        let mut heat = self.heat_of_solids();
        heat.add_water(self.water, self.water_temperature);
        heat.add_ice(self.ice);
        let title = "Temperature of the mix";
        Ok((heat.brought() / heat.all()).concluded(mixed, title, mixed.quantity(), limits::MIXED_TEMPERATURE))
    }

    /// The solids, and the water on them, in formulas.
    fn heat_of_solids(&self) -> Heat {
        let mut heat = Heat::default();
        let share = Some(limits::HEAT_OF_SOLIDS);
        let [dry_at, aggregate_at] = [
            ("temperature of the dry mix", self.dry_temperature),
            ("temperature of sand and stone", self.aggregate_temperature),
        ]
        .map(|(name, at)| degrees(name, at, Source::Typed));
        for (share, name, value, at) in [
            (share, "dry mix or cement", self.dry, dry_at),
            (share, "sand and stone", self.aggregate, aggregate_at.clone()),
            (None, "free water on them", self.moisture, aggregate_at),
        ] {
            if value.value > 0.0 {
                heat.add(share, mass(name, value), at);
            }
        }
        heat
    }

    /// How warm the mixing water has to be for a mix of that temperature.
    ///
    /// # Errors
    /// What of the charge cannot be; and how near it can come, where freezing or hot water is not enough.
    pub fn water_for(&self, wanted: Temperature) -> Result<Figure<Temperature>, ChargeProblem> {
        self.check_wanted(wanted)?;
        let (takes, heat) = self.solids();
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
        let mut rest = self.heat_of_solids();
        rest.add_ice(self.ice);
        let water = mass("mixing water", self.water);
        let all = Term::sum(rest.takes.iter().cloned().chain([water.clone()]));
        let wanted = degrees("wanted temperature of the mix", wanted, Source::Typed);
        let found = (wanted * all - rest.brought()) / water;
        Ok(found.concluded(at, "Temperature of the water", at.quantity(), limits::MIXED_TEMPERATURE))
    }

    /// How much of the mixing water has to be ice for a mix of that temperature; the rest is as warm as it is,
    /// and water and ice together stay what they are. Zero where it comes out so without ice.
    ///
    /// # Errors
    /// What of the charge cannot be; and how near it can come, where all the water as ice is not enough, or no
    /// ice too cold.
    pub fn ice_for(&self, wanted: Temperature) -> Result<Figure<Mass>, ChargeProblem> {
        self.check_wanted(wanted)?;
        let (takes, heat) = self.solids();
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
        let mut heat = self.heat_of_solids();
        let water_at = degrees("temperature of the water", self.water_temperature, Source::Typed);
        heat.add(None, mass("mixing water, with what is ice", self.water + self.ice), water_at.clone());
        let wanted = degrees("wanted temperature of the mix", wanted, Source::Typed);
        let found = (heat.brought() - wanted * heat.all()) / (water_at - ice_at());
        let within = Mass::new::<kilogram>(ice.clamp(0.0, all));
        let found = if within.get::<kilogram>() == ice {
            found.by_rule("{}", |x| x[0], within)
        } else {
            Term::found("{}, no less than nothing and no more than the water", [found.into()], within)
        };
        Ok(found.titled("Ice in place of water", limits::MIXED_TEMPERATURE))
    }

    fn check_wanted(&self, wanted: Temperature) -> Result<(), ChargeProblem> {
        self.check()?;
        let sane = wanted >= limits::freezing() && wanted <= limits::water_hottest();
        if sane { Ok(()) } else { Err(ChargeProblem::NoNumber) }
    }
}

impl ChargeProblem {
    /// What is wrong, in a maker's words.
    pub fn says(self) -> Label {
        match self {
            Self::NoNumber => "Temperature of the mix: a mass or a temperature cannot be.".into(),
            Self::Water => "Water: give a temperature from freezing to boiling.".into(),
            Self::IceLeft => "Ice: not all of it would melt; use less.".into(),
            Self::NoWater => "Water: there is none to warm or to cool.".into(),
            Self::NotSoCold(nearest) => {
                Label::with("The mix cannot be made so cold; {} is the coldest.", [nearest.quantity()])
            }
            Self::NotSoWarm(nearest) => {
                Label::with("The mix cannot be made so warm; {} is the warmest.", [nearest.quantity()])
            }
        }
    }
}
