//! The bags every shelf starts with, by family; figures as given in the trade, each to be outranked
//! by the maker's own label.

use crate::job::{Additive, Bag, BagField, Entry, Family};
use crate::measure::Units;
use crate::working::Source;

/// The figures of one starting bag, as typed.
struct Row {
    id: &'static str,
    name: &'static str,
    family: Family,
    mass: &'static str,
    yields: &'static str,
    water: &'static str,
    workable: &'static str,
    strip_after: &'static str,
    flow_aid: bool,
}

// No label range of water, strength or dry density is listed: they differ from bag to bag, and a
// guess would look like a label.

const INCH: [Row; 3] = [
    Row {
        id: "rapid-mortar-55-lb",
        name: "Rapid mortar, 55 lb",
        family: Family::RapidMortar,
        mass: "55 lb",
        yields: "0.50 ft³",
        water: "5 qt",
        workable: "15 min",
        strip_after: "1 h",
        flow_aid: true,
    },
    Row {
        id: "portland-concrete-80-lb",
        name: "Portland concrete, high early, 80 lb",
        family: Family::PortlandConcrete,
        mass: "80 lb",
        yields: "0.60 ft³",
        water: "3 qt",
        workable: "60 min",
        strip_after: "3 days",
        flow_aid: false,
    },
    Row {
        id: "portland-concrete-60-lb",
        name: "Portland concrete, high early, 60 lb",
        family: Family::PortlandConcrete,
        mass: "60 lb",
        yields: "0.45 ft³",
        water: "2 1/4 qt",
        workable: "60 min",
        strip_after: "3 days",
        flow_aid: false,
    },
];

const METRIC: [Row; 2] = [
    // The 55 lb bag scaled to 25 kg: 0.50 ft³ and 5 US qt times 25 kg ÷ 24.948 kg.
    Row {
        id: "rapid-mortar-25-kg",
        name: "Rapid mortar, 25 kg",
        family: Family::RapidMortar,
        mass: "25 kg",
        yields: "14.2 L",
        water: "4.74 L",
        workable: "15 min",
        strip_after: "1 h",
        flow_aid: true,
    },
    Row {
        id: "portland-concrete-25-kg",
        name: "Portland concrete, 25 kg",
        family: Family::PortlandConcrete,
        mass: "25 kg",
        yields: "12.5 L",
        water: "2.5 L",
        workable: "60 min",
        strip_after: "3 days",
        flow_aid: false,
    },
];

/// The starting bags, in the units of the workshop. Never empty.
///
/// Workable times are the short end of what is usual. The flow aid's dose is blank: it is on the
/// aid's own label.
pub fn catalogue(units: Units) -> Vec<Bag> {
    match units {
        Units::Inch => INCH.iter().map(Row::bag).collect(),
        Units::Metric => METRIC.iter().map(Row::bag).collect(),
    }
}

impl Row {
    fn bag(&self) -> Bag {
        let flow_aid = Additive { name: "Flow aid".into(), ..Additive::default() };
        Bag {
            id: self.id.to_owned(),
            name: self.name.into(),
            family: self.family,
            mass: self.mass.into(),
            yields: self.yields.into(),
            water: self.water.into(),
            water_least: Entry::default(),
            water_most: Entry::default(),
            workable: self.workable.into(),
            strip_after: self.strip_after.into(),
            hardened_density: Entry::default(),
            strengths: Vec::new(),
            additives: if self.flow_aid { vec![flow_aid] } else { Vec::new() },
        }
    }
}

/// Where a figure of a bag comes from: typed by the maker, or still as the catalogue has it.
pub fn source_of(bag: &Bag, field: BagField) -> Source {
    let Some(row) = INCH.iter().chain(&METRIC).find(|row| row.id == bag.id) else { return Source::Typed };
    let listed = match field {
        BagField::Mass => row.mass,
        BagField::Yields => row.yields,
        BagField::Water => row.water,
        BagField::Workable => row.workable,
        BagField::StripAfter => row.strip_after,
        _ => return Source::Typed,
    };
    let practice = match row.family {
        Family::RapidMortar => matches!(field, BagField::Water | BagField::Workable | BagField::StripAfter),
        Family::PortlandConcrete => field == BagField::StripAfter,
    };
    match (bag.entry(field).text() == listed, practice) {
        (false, _) => Source::Typed,
        (true, true) => Source::Practice,
        (true, false) => Source::Memory,
    }
}
