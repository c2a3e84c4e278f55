//! The mixes every shelf starts with: bags by family, with figures as given in the trade, each to be outranked
//! by the maker's own label; and what is made from scratch.

use crate::job::{Additive, Bag, BagField, Entry, Family, Job, Recipe, RecipeKind};
use crate::measure::Units;
use crate::working::Source;

impl Job {
    /// A new job with one empty piece, the first bag of the catalogue and the usual choices, to be told apart by `id`.
    pub fn new(id: &str, units: Units) -> Self {
        Self::cast_from(catalogue(units).remove(0), id, units)
    }
}

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

/// What is made from scratch: id in an inch workshop and in a metric one, name, kind, workable time, least time in
/// the form.
const SCRATCH: [([&str; 2], &str, RecipeKind, &str, &str); 3] = [
    (
        ["scratch-concrete", "scratch-concrete-metric"],
        "Concrete from scratch",
        RecipeKind::Concrete,
        "60 min",
        "3 days",
    ),
    (["scratch-mortar", "scratch-mortar-metric"], "Mortar from scratch", RecipeKind::Mortar, "60 min", "3 days"),
    (
        ["scratch-glass-fibre", "scratch-glass-fibre-metric"],
        "Glass-fibre concrete from scratch",
        RecipeKind::GlassFibre,
        "30 min",
        "1 day",
    ),
];

/// The starting mixes, in the units of the workshop: bags first. Never empty.
///
/// Workable times are the short end of what is usual. The flow aid's dose is blank: it is on the
/// aid's own label.
pub fn catalogue(units: Units) -> Vec<Bag> {
    let (rows, column): (&[Row], _) = match units {
        Units::Inch => (&INCH, 0),
        Units::Metric => (&METRIC, 1),
    };
    let scratch = SCRATCH.iter().map(|(ids, name, kind, workable, strip_after)| Bag {
        id: ids[column].to_owned(),
        name: Entry::new(name),
        family: Family::PortlandConcrete,
        workable: Entry::new(workable),
        strip_after: Entry::new(strip_after),
        recipe: Some(Recipe::new(*kind, units)),
        ..Bag::default()
    });
    rows.iter().map(Row::bag).chain(scratch).collect()
}

impl Row {
    fn bag(&self) -> Bag {
        let flow_aid = Additive { name: "Flow aid".into(), ..Additive::default() };
        Bag {
            id: self.id.to_owned(),
            name: self.name.into(),
            family: self.family,
            mass: self.mass.into(),
            yield_volume: self.yields.into(),
            water: self.water.into(),
            workable: self.workable.into(),
            strip_after: self.strip_after.into(),
            additives: if self.flow_aid { vec![flow_aid] } else { Vec::new() },
            ..Bag::default()
        }
    }
}

/// Where a figure of a bag comes from: typed by the maker, or still as the catalogue has it.
pub fn source_of(bag: &Bag, field: BagField) -> Source {
    let scratch = SCRATCH.iter().find(|(ids, ..)| ids.contains(&bag.id.as_str()));
    if let Some((.., workable, strip_after)) = scratch {
        let listed = match field {
            BagField::Workable => bag.workable.text() == *workable,
            BagField::StripAfter => bag.strip_after.text() == *strip_after,
            _ => false,
        };
        return if listed { Source::Practice } else { Source::Typed };
    }
    let Some(row) = INCH.iter().chain(&METRIC).find(|row| row.id == bag.id) else { return Source::Typed };
    let listed = match field {
        BagField::Mass => row.mass,
        BagField::Yield => row.yields,
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
