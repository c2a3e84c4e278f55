//! How fast the open back of a fresh top dries, and what cold and heat do to it.

use super::advice::Advice;
use super::maturity;
use super::write::{self, write_drying, write_strength};
use crate::finding::{Severity, say};
use crate::measure::{Measured, Quantity, Temperature, Units, write_number};
use crate::pour::limits;
use crate::working::{Figure, Source, Term};
use uom::si::f64::{MassFlux, Velocity};
use uom::si::mass_flux::kilogram_per_square_meter_second;
use uom::si::thermodynamic_temperature::{degree_celsius, kelvin};
use uom::si::velocity::{kilometer_per_hour, meter_per_second};

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
    /// ```
    /// use pourwright::measure::exact::fahrenheit;
    /// use pourwright::measure::{Speed, Units};
    /// use pourwright::pour::weather::{Drying, Weather};
    ///
    /// let mild = Weather { air: fahrenheit(70.0), mix: fahrenheit(70.0), humidity: 0.5, wind: Speed::default() };
    /// let found = mild.evaporation(false).expect("weather that can be");
    /// assert_eq!(found.drying, Drying::Slow);
    /// assert!(found.estimate.working.result(Units::Inch).ends_with(" lb/ft²/h"));
    /// ```
    ///
    /// # Errors
    /// What of the weather cannot be.
    pub fn evaporation(self, bleeds_little: bool) -> Result<Evaporation, WeatherProblem> {
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
            estimate: self.estimate(an_hour),
            least,
            most,
            limit,
            drying,
            in_still_air: flux(uno(Self { wind: Velocity::default(), ..self })),
            as_cool_as_air: flux(uno(cooled)),
        })
    }

    /// The estimate with its working; `an_hour` is Uno's form, which may be negative.
    fn estimate(self, an_hour: f64) -> Figure<MassFlux> {
        let temperature = |name, at: Temperature| Term::stated_as(at, name, at.quantity(), Source::Typed);
        // The numbers of the formula are in its own units, whatever those of the job are.
        let celsius = |name: &'static str, at: Temperature| {
            let write = |si, _| write_number(Temperature::new::<kelvin>(si).get::<degree_celsius>(), 1);
            temperature(name, at).called_as(name, Quantity::other(at.value, write))
        };
        let speed = |si, _| write_number(Velocity::new::<meter_per_second>(si).get::<kilometer_per_hour>(), 1);
        let humidity = Quantity::Percent(self.humidity);
        let parts = [
            celsius("mix at its face", self.mix).into(),
            Term::stated_as(self.humidity, "humidity", humidity, Source::Typed)
                .called_as("humidity", Quantity::Number(self.humidity, 3))
                .into(),
            celsius("air", self.air).into(),
            Term::stated_as(self.wind, "wind", write::wind(self.wind), Source::Typed)
                .called_as("wind", Quantity::other(self.wind.value, speed))
                .into(),
        ];
        let says = "5 × (({} + 18)^2.5 − {} × ({} + 18)^2.5) × ({} + 4) ÷ 10⁶, in °C and km/h";
        let formula = |x: &[f64]| {
            let [mix, air] = [x[0], x[2]].map(Temperature::new::<kelvin>);
            uno(Weather { air, mix, humidity: x[1], wind: Velocity::new::<meter_per_second>(x[3]) })
        };
        let written = Quantity::other(an_hour, |an_hour, _| write_number(an_hour, 3) + " kg/m²/h");
        let found = Term::rule(says, parts, formula, an_hour).step_as("evaporation", written, limits::DRYING);
        let (title, estimate) = ("Drying of the open face", flux(an_hour));
        if an_hour <= 0.0 {
            let nothing = Quantity::Words("no drying".into());
            return found
                .by_rule("{}, under zero: dew settles and nothing dries", |x| x[0].max(0.0), estimate)
                .titled_as(title, nothing, limits::DRYING);
        }
        // The real evaporation may be that much off either way.
        let end = |name, share: f64| Term::named_as(estimate * share, name, write::drying(estimate * share));
        let parts = [
            found.into(),
            end("slow end", 1.0 - limits::DRYING_SPREAD).into(),
            end("fast end", 1.0 + limits::DRYING_SPREAD).into(),
        ];
        Term::rule("{}, of a band from {} to {}", parts, |x| flux(x[0]).value, estimate).titled_as(
            title,
            write::drying(estimate),
            limits::DRYING_BAND,
        )
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
