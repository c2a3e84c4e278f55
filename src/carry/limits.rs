//! The limits and constants of lifting, carrying and setting, each with its source beside it.
//! A rule, its message and its test all read the limit here.

use crate::measure::exact::{inches, pounds, quarts};
use crate::measure::{Angle, Length, Mass, Units, Volume};
use crate::working::Source;
use uom::si::angle::degree;
use uom::si::mass::kilogram;

/// The load constant of the NIOSH lifting equation: what one person may lift at most under ideal
/// conditions. It is published as 51 lb and as 23 kg, which differ by 0.3 lb; a job takes the one of
/// its own units (NIOSH 94-110, rev. 2021, p. 7).
pub fn load_constant(units: Units) -> Mass {
    match units {
        Units::Inch => pounds(51.0),
        Units::Metric => Mass::new::<kilogram>(23.0),
    }
}

/// What a team of one, two and three may lift, as a share of the sum of its members (HSE L23).
pub const TEAM_SHARES: [(u32, f64); 3] = [(1, 1.0), (2, 2.0 / 3.0), (3, 1.0 / 2.0)];

/// What more than three people lift, as a share of the sum of their members: that of three, and no source knows more.
/// Common practice.
pub const LARGE_TEAM_SHARE: f64 = 1.0 / 2.0;

/// People who carry a top hold its long edges every 24 in, one on each side, and one each of its ends. Common practice,
/// no source.
pub fn grip_spacing() -> Length {
    inches(24.0)
}

/// Source of [`load_constant`] and [`TEAM_SHARES`].
pub const LIFTING: Source =
    Source::Standard("NIOSH 94-110 (rev. 2021) p. 7: load constant; HSE L23: teams of two and three");

/// What a cartridge of silicone or caulk holds: 10.1 US fl oz. Common practice.
pub fn cartridge() -> Volume {
    quarts(10.1 / 32.0)
}

/// More pads, packs, dabs or cartridges than this are a typing error.
pub const MOST_COUNTED: f64 = 100_000.0;

/// The numbers of the revised lifting equation, which are published in inches and in centimetres, not
/// quite the same (NIOSH 94-110, rev. 2021, p. 7 to 15).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LiftingEquation {
    /// The load under ideal conditions: see [`load_constant`].
    pub load: Mass,
    /// Hands this far out from between the ankles, or nearer, lift in full.
    pub near: Length,
    /// Hands further out than this should not lift.
    pub far: Length,
    /// The best height of the hands.
    pub best_height: Length,
    /// So far off the best height there would be nothing left: what a length loses is in proportion.
    pub height_span: Length,
    /// Hands higher than this should not lift.
    pub highest: Length,
    /// Shorter travel than this counts as this.
    pub shortest: Length,
    /// Longer travel than this should not be lifted.
    pub longest: Length,
    /// What over the travel is added to [`LiftingEquation::TRAVEL_LEAST`].
    pub travel: Length,
}

impl LiftingEquation {
    /// What is left after long travel.
    pub const TRAVEL_LEAST: f64 = 0.82;

    /// Nobody should turn further than this with a load.
    pub fn most_turn() -> Angle {
        Angle::new::<degree>(135.0)
    }

    /// What turning so far leaves: 0.0032 less for each degree.
    pub fn left_by_turn(turn: Angle) -> f64 {
        1.0 - 0.0032 * turn.get::<degree>()
    }

    /// The numbers of a job's own units.
    pub fn of(units: Units) -> Self {
        let centimetres = |count: f64| Length::new::<uom::si::length::centimeter>(count);
        let load = load_constant(units);
        match units {
            Units::Inch => Self {
                load,
                near: inches(10.0),
                far: inches(25.0),
                best_height: inches(30.0),
                height_span: inches(1.0 / 0.0075),
                highest: inches(70.0),
                shortest: inches(10.0),
                longest: inches(70.0),
                travel: inches(1.8),
            },
            Units::Metric => Self {
                load,
                near: centimetres(25.0),
                far: centimetres(63.0),
                best_height: centimetres(75.0),
                height_span: centimetres(1.0 / 0.003),
                highest: centimetres(175.0),
                shortest: centimetres(25.0),
                longest: centimetres(175.0),
                travel: centimetres(4.5),
            },
        }
    }
}

/// Lifts a minute for at most an hour, and what is left of the load: with the hands lower than the best
/// height, and at it or above. Over the last, nothing. NIOSH 94-110, Table 5; from 11 on from memory.
pub const LIFTING_FREQUENCY: [(f64, [f64; 2]); 17] = [
    (0.2, [1.00, 1.00]),
    (0.5, [0.97, 0.97]),
    (1.0, [0.94, 0.94]),
    (2.0, [0.91, 0.91]),
    (3.0, [0.88, 0.88]),
    (4.0, [0.84, 0.84]),
    (5.0, [0.80, 0.80]),
    (6.0, [0.75, 0.75]),
    (7.0, [0.70, 0.70]),
    (8.0, [0.60, 0.60]),
    (9.0, [0.52, 0.52]),
    (10.0, [0.45, 0.45]),
    (11.0, [0.41, 0.41]),
    (12.0, [0.37, 0.37]),
    (13.0, [0.00, 0.34]),
    (14.0, [0.00, 0.31]),
    (15.0, [0.00, 0.28]),
];

/// Source of [`LiftingEquation`] and what goes with it.
pub const LIFTING_EQUATION: Source = Source::Standard("NIOSH 94-110 (rev. 2021): revised lifting equation");
