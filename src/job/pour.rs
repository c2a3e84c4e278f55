//! Pour day: hands, vessels, weather and steel; how warm the garage was; what was laid out, and what happened.

use super::Entry;
use super::schema::{entries, minutes, practice, share};
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
        Air => air, Temperature, "air", "Temperature on the day";
        /// Relative humidity of the air.
        Humidity => humidity, Percent, "humidity", "Humidity";
        /// Wind or draught over the form.
        Wind => wind, Speed, "wind", "Wind or draught", hint "Blank: still air.";
        /// Temperature of the mix as measured.
        Mix => mix, Temperature, "mix", "Mix, as measured", hint "Outranks what it is made of.";
        /// Temperature of the bags.
        BagTemperature => bag_temperature, Temperature, "bag-temperature", "Bags, temperature",
            hint "Blank: as the air.";
        /// Temperature of the mixing water.
        WaterTemperature => water_temperature, Temperature, "water-temperature", "Water, temperature",
            hint "Blank: as the air.";
        /// Ice in place of water, in one batch.
        Ice => ice, Mass, "ice", "Ice in a batch", hint "Part of its water. Blank: none.";
        /// People who mix and place.
        People => people, Count, "people", "People mixing";
        /// Mixers, all of one size.
        Mixers => mixers, Count, "mixers", "Mixers or buckets", hint "Blank: one a person.";
        /// Bags that go into one batch.
        BagsABatch => bags_a_batch, Count, "bags-a-batch", "Bags a batch";
        /// From first water of a batch to its being mixed.
        MinutesABatch => minutes_a_batch, Duration, "minutes-a-batch", "Mixing a batch";
        /// From mixed to an empty mixer.
        Carry => carry, Duration, "carry", "Carrying and dumping it",
            usual |_| practice(minutes(0.5)), hint "Blank: {usual} (common practice).";
        /// From dumped to placed.
        Place => place, Duration, "place", "Placing it",
            usual |_| practice(minutes(1.0)), hint "Blank: {usual} (common practice).";
        /// Share of the fill at which the steel goes in.
        SteelAt => steel_at, Percent, "steel-at", "Steel goes in at",
            usual |_| practice(share(0.6)), hint "Of the fill. Blank: {usual}.";
        /// How long laying the steel takes.
        SteelTakes => steel_takes, Duration, "steel-takes", "Laying it takes",
            usual |_| practice(minutes(4.0)), hint "Blank: {usual} (common practice).";
        /// How long striking off the back takes.
        Screed => screed, Duration, "screed", "Screeding takes",
            usual |_| practice(minutes(4.0)),
            hint "Each piece, with the first trowelling, at the end. Blank: {usual} (common practice).";
        /// Parts that a piece is poured in.
        Parts => parts, Count, "parts", "Poured in parts", hint "Each by itself, with a planned joint. Blank: one.";
        /// Strength wanted when it leaves its form.
        StripStrength => strip_strength, Pressure, "strip-strength", "Strength wanted to strip",
            hint "Blank: what lifting it flat takes, by Build. Where no strengths are known the least time decides \
                  alone.";
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
        Lasts => lasts, Duration, "lasts", "For";
        /// How warm it was around the form.
        Temperature => temperature, Temperature, "temperature", "It is";
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
