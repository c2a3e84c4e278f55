//! How long a mix stays workable at a temperature, and how cold it has to be to stay workable so long.

use crate::measure::{Temperature, Time};
use crate::pour::limits;
use crate::pour::maturity::Law;
use crate::pour::workable_at;
use uom::si::f64::TemperatureInterval;
use uom::si::temperature_interval as interval;
use uom::si::thermodynamic_temperature::kelvin;

/// How stiffening depends on temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Stiffening {
    /// Half as long for each 18 °F hotter: common practice, and close to what rapid mixes do.
    Halving,
    /// By equivalent age: a mix stiffens as it hardens. With the usual activation energy it grows shorter by a
    /// factor of about 1.8 for each 18 °F around 70 °F, so that heat costs less and cold gives less than by halving.
    EquivalentAge {
        /// Activation energy over the gas constant, in kelvin.
        activation: TemperatureInterval,
    },
}

impl Stiffening {
    /// How long a mix stays workable, from what it does at 70 °F; not finite, or zero, where the temperature is
    /// none.
    pub fn workable(self, at_reference: Time, temperature: Temperature) -> Time {
        match self {
            Self::Halving => workable_at(at_reference, temperature),
            Self::EquivalentAge { activation } => {
                at_reference / Law::EquivalentAge { activation }.pace(temperature, limits::workable_reference())
            }
        }
    }

    /// The warmest temperature at which a mix stays workable so long; `None` where there is none.
    pub fn warmest_for(self, at_reference: Time, wanted: Time) -> Option<Temperature> {
        let pace = (at_reference / wanted).value;
        let reference = limits::workable_reference().get::<kelvin>();
        let at = match self {
            Self::Halving => reference + limits::WORKABLE_HALVES_EVERY * pace.log2(),
            Self::EquivalentAge { activation } => {
                1.0 / (1.0 / reference - pace.ln() / activation.get::<interval::kelvin>())
            }
        };
        (at.is_finite() && at > 0.0).then(|| Temperature::new::<kelvin>(at))
    }
}
