//! Pour day: hands, vessels, weather and steel; how warm the garage was; what was laid out, and what happened.

use super::Entry;
use super::entry::entries;
use crate::measure::Units;
use serde::{Deserialize, Serialize};

/// The hands, the vessels and the weather of pour day. What is blank is as usual, or not known.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PourDay {
    /// Air temperature where it is mixed and poured.
    pub air: Entry,
    /// Relative humidity of the air.
    pub humidity: Entry,
    /// Wind or draught over the form; blank counts as still air.
    pub wind: Entry,
    /// Temperature of the mix as measured; blank where it follows from what goes in.
    pub mix: Entry,
    /// Temperature of the bags; blank counts as that of the air.
    pub bag_temperature: Entry,
    /// Temperature of the mixing water; blank counts as that of the air.
    pub water_temperature: Entry,
    /// Ice in place of water, in one batch; blank counts as none.
    pub ice: Entry,
    /// People who mix and place.
    pub people: Entry,
    /// Mixers, all of one size; blank counts as one a person.
    pub mixers: Entry,
    /// Bags that go into one batch.
    pub bags_a_batch: Entry,
    /// From first water of a batch to its being mixed.
    pub minutes_a_batch: Entry,
    /// From mixed to an empty mixer; blank counts as usual, a typed 0 as nothing.
    pub carry: Entry,
    /// From dumped to placed; blank counts as usual, a typed 0 as nothing.
    pub place: Entry,
    /// Share of the fill at which the steel goes in; blank counts as the usual one where there is steel.
    pub steel_at: Entry,
    /// How long laying the steel takes; blank counts as usual, a typed 0 as nothing.
    pub steel_takes: Entry,
    /// How long striking off the back takes; blank counts as usual, a typed 0 as nothing.
    pub screed: Entry,
    /// Parts that a piece is poured in, each by itself, with planned joints; blank counts as one.
    pub parts: Entry,
    /// Strength wanted when it leaves its form; blank where the label's time decides alone.
    pub strip_strength: Entry,
    /// How warm it is around the form, from first water on; without a spell as warm as on the day.
    pub garage: Vec<Spell>,
    /// Lines of the evening-before list that are done, word for word: a line that changes is to be done again.
    pub ticks: Vec<String>,
}

entries! {
    /// The entries of [`PourDay`].
    PourField of PourDay {
        /// Air temperature where it is mixed and poured.
        Air => air, Temperature, "Temperature on the day";
        /// Relative humidity of the air.
        Humidity => humidity, Percent, "Humidity";
        /// Wind or draught over the form.
        Wind => wind, Speed, "Wind or draught";
        /// Temperature of the mix as measured.
        Mix => mix, Temperature, "Mix, as measured";
        /// Temperature of the bags.
        BagTemperature => bag_temperature, Temperature, "Bags, temperature";
        /// Temperature of the mixing water.
        WaterTemperature => water_temperature, Temperature, "Water, temperature";
        /// Ice in place of water, in one batch.
        Ice => ice, Mass, "Ice in a batch";
        /// People who mix and place.
        People => people, Count, "People mixing";
        /// Mixers, all of one size.
        Mixers => mixers, Count, "Mixers or buckets";
        /// Bags that go into one batch.
        BagsABatch => bags_a_batch, Count, "Bags a batch";
        /// From first water of a batch to its being mixed.
        MinutesABatch => minutes_a_batch, Duration, "Mixing a batch";
        /// From mixed to an empty mixer.
        Carry => carry, Duration, "Carrying and dumping it";
        /// From dumped to placed.
        Place => place, Duration, "Placing it";
        /// Share of the fill at which the steel goes in.
        SteelAt => steel_at, Percent, "Steel goes in at";
        /// How long laying the steel takes.
        SteelTakes => steel_takes, Duration, "Laying it takes";
        /// How long striking off the back takes.
        Screed => screed, Duration, "Screeding takes";
        /// Parts that a piece is poured in.
        Parts => parts, Count, "Poured in parts";
        /// Strength wanted when it leaves its form.
        StripStrength => strip_strength, Pressure, "Strength wanted to strip";
    }
}

impl PourDay {
    /// One person, a bag at a time, on a mild day: common practice, no source.
    pub fn new(units: Units) -> Self {
        let none = Entry::default;
        Self {
            air: Entry::new(if units == Units::Metric { "21" } else { "70" }),
            humidity: none(),
            wind: none(),
            mix: none(),
            bag_temperature: none(),
            water_temperature: none(),
            ice: none(),
            people: "1".into(),
            mixers: none(),
            bags_a_batch: "1".into(),
            minutes_a_batch: "4".into(),
            carry: none(),
            place: none(),
            steel_at: none(),
            steel_takes: none(),
            screed: none(),
            parts: none(),
            strip_strength: none(),
            garage: Vec::new(),
            ticks: Vec::new(),
        }
    }
}

/// A time at one temperature, as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Spell {
    /// How long.
    pub lasts: Entry,
    /// How warm it was around the form.
    pub temperature: Entry,
}

entries! {
    /// The entries of [`Spell`].
    SpellField of Spell {
        /// How long.
        Lasts => lasts, Duration, "For";
        /// How warm it was around the form.
        Temperature => temperature, Temperature, "It is";
    }
}

/// A step of a pour that can be ticked off on the clock. Batches count from zero.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PourStep {
    /// Water has gone into that batch.
    Water(u32),
    /// That batch is in its place.
    Placed(u32),
    /// The lath is in.
    Lath,
    /// The bars are in.
    Bars,
    /// It is screeded.
    Screed,
    /// The back is trowelled flat.
    Trowel,
    /// It sets: light patches are hard patches, and from here it is kept wet.
    Patches,
    /// It has been kept wet long enough.
    Wet,
    /// It is out of its form.
    Strip,
}

/// One line of the log of a pour.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Logged {
    /// The part of the piece that it was done to, from zero.
    pub part: u32,
    /// What was done.
    pub step: PourStep,
    /// When, in milliseconds since 1970 by the clock of the phone.
    pub at: u64,
}
