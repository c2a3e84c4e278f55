//! How fast the open back of a fresh top dries, and what cold and heat do to it.

use super::advice::Advice;
use super::maturity;
use super::write::{write_drying, write_strength, write_wind};
use crate::finding::{Severity, say};
use crate::measure::{Temperature, Units, write_number, write_percent, write_temperature};
use crate::pour::limits;
use crate::working::{Figure, Source, Working};
use uom::si::f64::{MassFlux, Velocity};
use uom::si::mass_flux::kilogram_per_square_meter_second;
use uom::si::thermodynamic_temperature::{degree_celsius, kelvin};
use uom::si::velocity::kilometer_per_hour;

/// The air over a fresh top, and the mix in the form.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weather {
    /// Of the air, in the shade.
    pub air: Temperature,
    /// Of the mix at its face.
    pub mix: Temperature,
    /// Relative humidity of the air, 0 to 1.
    pub humidity: f64,
    /// Wind or draught 20 in (0.5 m) above the face; zero is still air.
    pub wind: Velocity,
}

/// What of the weather cannot be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WeatherProblem {
    /// The air is colder or hotter than anybody pours in.
    Air,
    /// The mix is frozen or boiling.
    Mix,
    /// Not a share of 0 to 100 %.
    Humidity,
    /// Negative, or a storm.
    Wind,
}

/// What the drying of the face comes to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Drying {
    /// The air gives water to the mix: dew.
    None,
    /// Even the fast end of the band stays under the limit.
    Slow,
    /// The estimate stays under the limit, the fast end of its band does not.
    Perhaps,
    /// The estimate reaches the limit.
    Fast,
}

/// Water that leaves the face, as a band, against what the mix stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Evaporation {
    /// The estimate; zero, never less, where there is dew.
    pub estimate: Figure<MassFlux>,
    /// The slow end of the band.
    pub least: MassFlux,
    /// The fast end of the band.
    pub most: MassFlux,
    /// What the mix stands: less if it bleeds little.
    pub limit: MassFlux,
    /// What it comes to.
    pub drying: Drying,
    /// The estimate with the wind kept off.
    pub in_still_air: MassFlux,
    /// The estimate with the mix as cool as the air; the same as the estimate where it is no warmer.
    pub as_cool_as_air: MassFlux,
}

/// Uno's form of the chart, in kg/m²/h: negative where the face takes on dew.
fn uno(weather: Weather) -> f64 {
    let raised = |temperature: Temperature| (temperature.get::<degree_celsius>() + 18.0).max(0.0).powf(2.5);
    let wind = weather.wind.get::<kilometer_per_hour>();
    5.0 * (raised(weather.mix) - weather.humidity * raised(weather.air)) * (wind + 4.0) * 1e-6
}

fn flux(an_hour: f64) -> MassFlux {
    MassFlux::new::<kilogram_per_square_meter_second>(an_hour.max(0.0) / 3600.0)
}

impl Weather {
    fn check(self) -> Result<(), WeatherProblem> {
        // NaN is in no range.
        let sane = |temperature: Temperature| {
            let range = limits::drying_coldest().get::<kelvin>()..=limits::drying_hottest().get::<kelvin>();
            range.contains(&temperature.get::<kelvin>())
        };
        if !sane(self.air) {
            Err(WeatherProblem::Air)
        } else if !sane(self.mix) {
            Err(WeatherProblem::Mix)
        } else if !(0.0..=1.0).contains(&self.humidity) {
            Err(WeatherProblem::Humidity)
        } else if !(0.0..=limits::strongest_wind().value).contains(&self.wind.value) {
            Err(WeatherProblem::Wind)
        } else {
            Ok(())
        }
    }

    /// How fast the face dries, against what a mix stands that bleeds as usual, or little.
    ///
    /// # Errors
    /// What of the weather cannot be.
    pub fn evaporation(self, bleeds_little: bool, units: Units) -> Result<Evaporation, WeatherProblem> {
        self.check()?;
        let an_hour = uno(self);
        let estimate = flux(an_hour);
        let [least, most] = [1.0 - limits::DRYING_SPREAD, 1.0 + limits::DRYING_SPREAD].map(|share| estimate * share);
        let limit = if bleeds_little { limits::drying_most_little_bleed() } else { limits::drying_most() };
        let drying = if an_hour <= 0.0 {
            Drying::None
        } else if estimate >= limit {
            Drying::Fast
        } else if most >= limit {
            Drying::Perhaps
        } else {
            Drying::Slow
        };
        let cooled = if self.mix > self.air { Self { mix: self.air, ..self } } else { self };
        Ok(Evaporation {
            estimate: self.working(an_hour, units).of(estimate),
            least,
            most,
            limit,
            drying,
            in_still_air: flux(uno(Self { wind: Velocity::default(), ..self })),
            as_cool_as_air: flux(uno(cooled)),
        })
    }

    fn working(self, an_hour: f64, units: Units) -> Working {
        let celsius = |temperature: Temperature| write_number(temperature.get::<degree_celsius>(), 1);
        let estimate = flux(an_hour);
        let an_hour_written = format!("{} kg/m²/h", write_number(an_hour, 3));
        let working = Working::new("Drying of the open face")
            .line("mix at its face", "", write_temperature(self.mix, units), Source::Typed)
            .line("air", "", write_temperature(self.air, units), Source::Typed)
            .line("humidity", "", write_percent(self.humidity), Source::Typed)
            .line("wind", "", write_wind(self.wind, units), Source::Typed)
            .line(
                "5 × ((mix + 18)^2.5 − humidity × (air + 18)^2.5) × (wind + 4) ÷ 10⁶, in °C and km/h",
                format!(
                    "5 × (({} + 18)^2.5 − {} × ({} + 18)^2.5) × ({} + 4) ÷ 10⁶",
                    celsius(self.mix),
                    write_number(self.humidity, 3),
                    celsius(self.air),
                    write_number(self.wind.get::<kilometer_per_hour>(), 1)
                ),
                &an_hour_written,
                limits::DRYING,
            );
        if an_hour <= 0.0 {
            return working.line(
                "under zero: dew settles, nothing dries",
                an_hour_written,
                "no drying",
                limits::DRYING,
            );
        }
        let share = write_percent(limits::DRYING_SPREAD);
        let band = [1.0 - limits::DRYING_SPREAD, 1.0 + limits::DRYING_SPREAD].map(|share| estimate * share);
        let [least, most] = band.map(|end| write_drying(end, units));
        working
            .line(
                "the band in which it really is",
                format!("± {share}"),
                format!("{least} to {most}"),
                limits::DRYING_BAND,
            )
            .line("the estimate", an_hour_written, write_drying(estimate, units), limits::DRYING)
    }
}

impl Evaporation {
    /// What the maker should know about the drying, and what each measure would make of it; `None` where it
    /// stays slow.
    pub fn advice(&self, units: Units) -> Option<Advice> {
        let write = |rate| write_drying(rate, units);
        let limit = write(self.limit);
        let (strength, says) = match self.drying {
            Drying::Slow => return None,
            Drying::None => {
                return Some(Advice {
                    severity: Severity::Note,
                    says: "No drying: the air is so damp that dew settles on the mix.".to_owned(),
                    remedy: "Do not trowel the dew in: let it go, or blot it.".to_owned(),
                    source: limits::DRYING,
                });
            }
            Drying::Perhaps => (
                Severity::Note,
                format!("The open face may dry at up to {}; from {limit} on it cracks while soft.", write(self.most)),
            ),
            Drying::Fast => (
                Severity::Watch,
                format!(
                    "The open face dries at {} to {}; from {limit} on it cracks while soft.",
                    write(self.least),
                    write(self.most)
                ),
            ),
        };
        let mut measures = vec!["Cover it with film as soon as it is screeded, or mist the air above it".to_owned()];
        if self.in_still_air < self.estimate.value {
            measures.push(format!("keep the wind off ({} in still air)", write(self.in_still_air)));
        }
        if self.as_cool_as_air < self.estimate.value {
            measures.push(format!("pour the mix as cool as the air ({})", write(self.as_cool_as_air)));
        }
        Some(Advice { severity: strength, says, remedy: measures.join("; ") + ".", source: limits::DRYING_LIMIT })
    }
}

/// What cold and heat want, of the air during the pour and the first days, and of the mix as it is placed.
/// Give the coldest air that is expected before it is stripped.
pub fn temperature_advice(coldest_air: Temperature, mix: Temperature, units: Units) -> Vec<Advice> {
    let write = |temperature| say::temperature(temperature, units);
    let over = |one: Temperature, other: Temperature| one.get::<kelvin>() - other.get::<kelvin>();
    let dust = crate::measure::TEMPERATURE_TOLERANCE;
    let mut advice = Vec::new();
    let mut add = |strength, says, remedy: &str, source| {
        advice.push(Advice { severity: strength, says, remedy: remedy.to_owned(), source });
    };
    if over(coldest_air, limits::freezing()) <= dust {
        add(
            Severity::Stop,
            format!(
                "The air goes down to {}: a mix that freezes before it has {} is lost.",
                write(coldest_air),
                write_strength(limits::strength_before_frost(), units)
            ),
            "Heat the room and keep the form under blankets until it has that strength, or wait.",
            limits::FROST,
        );
    }
    if over(coldest_air, limits::cold_over()) < -dust {
        let paces = maturity::spread(coldest_air, limits::strength_reference(units));
        let grows = format!(
            "At {} strength grows {} to {} times as fast as at {}, depending on the law that is believed",
            write(coldest_air),
            write_number(paces.slowest, 2),
            write_number(paces.fastest, 2),
            write(limits::strength_reference(units))
        );
        if over(coldest_air, limits::air_least()) < -dust {
            add(
                Severity::Watch,
                format!("{grows}; cold weather begins under {}.", write(limits::air_least())),
                "Warm the room and the water, and strip by the late end of the range.",
                limits::COLD,
            );
        } else {
            add(
                Severity::Note,
                format!("{grows}; that ends over {} for most of the day.", write(limits::cold_over())),
                "Strip by the late end of the range.",
                limits::COLD_OVER,
            );
        }
    }
    if over(mix, limits::fresh_least()) < -dust {
        add(
            Severity::Watch,
            format!(
                "The mix would be {}; thin work is placed and kept at {} or more.",
                write(mix),
                write(limits::fresh_least())
            ),
            "Use warmer water, and keep bags and form in a warm room the night before.",
            limits::FRESH_COLD,
        );
    }
    if over(mix, limits::fresh_most()) > dust {
        add(
            Severity::Watch,
            format!("The mix would be {}; it is placed at {} or less.", write(mix), write(limits::fresh_most())),
            "Use colder water or ice, and keep bags and form in the shade.",
            limits::FRESH_HOT,
        );
    }
    advice
}

impl WeatherProblem {
    /// What is wrong, in a maker's words.
    pub fn says(self) -> &'static str {
        match self {
            Self::Air => "Air: nobody pours at this temperature.",
            Self::Mix => "Mix: no mix is poured at this temperature.",
            Self::Humidity => "Humidity: give a share from 0 to 100 %.",
            Self::Wind => "Wind: give a speed from still air to a strong wind.",
        }
    }
}
