//! What a job takes besides bags: what it is called, by which measure it is sold, how it is usually bought.

use super::maker::{ChargeBy, Good};
use crate::job::Entry;
use crate::measure::Units;
use crate::mix::Material;
use crate::mix::proportion::Role;

/// By which measure something is sold.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Measure {
    /// Pieces.
    Count,
    /// By length.
    Length,
    /// By area.
    Area,
    /// By volume.
    Volume,
    /// By mass.
    Mass,
    /// By volume or by mass, as it is typed.
    Dose,
}

/// One thing that is bought for jobs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Known {
    /// What it is found by.
    pub id: &'static str,
    /// What it is called.
    pub label: &'static str,
    /// By which measure it is sold.
    pub measure: Measure,
    /// The usual pack, in an inch book and in a metric one. Common practice, no source.
    pub pack: [&'static str; 2],
    /// How a job is usually charged for it.
    pub charge: ChargeBy,
    /// How often it is usually used, if it is charged by uses.
    pub uses: u32,
}

const fn known(
    id: &'static str,
    label: &'static str,
    measure: Measure,
    pack: [&'static str; 2],
    charge: ChargeBy,
) -> Known {
    Known { id, label, measure, pack, charge, uses: 1 }
}

/// All of them, in the order of the work.
pub static GOODS: [Known; 22] = [
    known("board", "Sheet of board", Measure::Count, ["1"; 2], ChargeBy::Whole),
    known("strip", "Strip to bend", Measure::Area, ["32 ft²", "3 m²"], ChargeBy::Share),
    known("foam", "Foam for knockouts", Measure::Area, ["32 ft²", "3 m²"], ChargeBy::Share),
    Known { uses: 20, ..known("liner", "Edge liner, length", Measure::Count, ["1"; 2], ChargeBy::Uses) },
    known("screws", "Screws", Measure::Count, ["100"; 2], ChargeBy::Share),
    known("silicone", "Silicone for the form", Measure::Volume, ["10.1 fl oz", "300 mL"], ChargeBy::Share),
    known("tape", "Tape", Measure::Length, ["100 ft", "30 m"], ChargeBy::Share),
    known("liner-tape", "Double-sided tape", Measure::Length, ["75 ft", "25 m"], ChargeBy::Share),
    known("release", "Release agent", Measure::Volume, ["1 qt", "1 L"], ChargeBy::Share),
    known("lath", "Sheet of lath", Measure::Count, ["1"; 2], ChargeBy::Whole),
    known("bars", "Reinforcing bar", Measure::Length, ["20 ft", "6 m"], ChargeBy::Share),
    known("cement", "Cement", Measure::Mass, ["94 lb", "25 kg"], ChargeBy::Whole),
    known("stone", "Stone", Measure::Mass, ["50 lb", "25 kg"], ChargeBy::Share),
    known("sand", "Sand", Measure::Mass, ["50 lb", "25 kg"], ChargeBy::Share),
    known("polymer", "Polymer", Measure::Mass, ["40 lb", "20 kg"], ChargeBy::Share),
    known("flow-aid", "Flow aid", Measure::Mass, ["5 lb", "2 kg"], ChargeBy::Share),
    known("pigment", "Pigment", Measure::Mass, ["1 lb", "1 kg"], ChargeBy::Share),
    known("fibre", "Fibre", Measure::Mass, ["20 lb", "10 kg"], ChargeBy::Share),
    known("sealer", "Sealer", Measure::Volume, ["1 qt", "1 L"], ChargeBy::Share),
    known("adhesive", "Adhesive", Measure::Volume, ["10.1 fl oz", "300 mL"], ChargeBy::Share),
    known("caulk", "Caulk", Measure::Volume, ["10.1 fl oz", "300 mL"], ChargeBy::Share),
    known("shims", "Shims", Measure::Count, ["12"; 2], ChargeBy::Share),
];

/// What a material of a mix is found by; nothing for water, which costs nothing.
pub fn id_of(material: &Material) -> Option<String> {
    Some(match material.role {
        Role::Water => return None,
        Role::Cement => "cement".to_owned(),
        Role::Stone => "stone".to_owned(),
        Role::Sand => "sand".to_owned(),
        Role::Polymer => "polymer".to_owned(),
        Role::FlowAid => "flow-aid".to_owned(),
        Role::Pigment => "pigment".to_owned(),
        Role::Fibre => "fibre".to_owned(),
        Role::Additive(_) => additive_id(&material.name),
    })
}

/// What an additive is found by.
pub fn additive_id(name: &str) -> String {
    format!("additive:{}", name.trim().to_lowercase())
}

/// The thing of that id; an additive has none, as jobs name them.
pub fn find(id: &str) -> Option<&'static Known> {
    GOODS.iter().find(|good| good.id == id)
}

/// By which measure it is sold.
pub fn measure(id: &str) -> Measure {
    find(id).map_or(Measure::Dose, |good| good.measure)
}

/// The usual pack; nothing for an additive.
pub fn usual_pack(id: &str, units: Units) -> &'static str {
    find(id).map_or("", |good| good.pack[usize::from(units == Units::Metric)])
}

/// The line of help below what a pack holds: it names its unit itself, so that the label names none.
pub fn pack_hint(id: &str, units: Units) -> String {
    match usual_pack(id, units) {
        "" => String::new(),
        usual => format!("Blank: {usual}."),
    }
}

/// How often it is usually used.
pub fn usual_uses(id: &str) -> u32 {
    find(id).map_or(1, |good| good.uses)
}

/// How it is bought where nothing is typed: everything blank, the price not known.
pub fn usual(id: &str) -> Good {
    Good {
        id: id.to_owned(),
        charge: find(id).map_or(ChargeBy::Share, |good| good.charge),
        uses: Entry::default(),
        ..Good::default()
    }
}
