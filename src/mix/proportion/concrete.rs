//! Portland concrete by the absolute volume method of ACI 211.1.

use super::tables::{self, Air};
use super::{Input, Part, ProportionProblem, Proportions, Role};
use crate::measure::exact::{cubic_feet, in_inches, pounds, psi};
use crate::measure::{Length, Mass, MassDensity, Measured, Pressure, Quantity, Units, Volume};
use crate::mix::limits;
use crate::working::{Label, Named, Source, Term};
use uom::si::volume::cubic_meter;

/// What is wanted of the concrete.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Concrete {
    /// How wet it is: 1 to 7 in.
    pub slump: Length,
    /// Nominal largest size of the stone: 5/16 to 1 1/2 in; at most a third of the top's thickness.
    pub stone_size: Length,
    /// Average compressive strength at 28 days: 2000 to 6000 psi, with entrained air to 5000 psi.
    pub strength: Pressure,
    /// Air.
    pub air: Air,
    /// The most water to cement that exposure allows, where it does.
    pub most_water_to_cement: Option<f64>,
    /// What a plasticiser saves of the mixing water, as a share: 0 without one.
    pub less_water: f64,
}

/// Water on an aggregate, as shares of its dry mass.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Moisture {
    /// All water on and in it.
    pub total: f64,
    /// What it takes in and keeps from the cement.
    pub absorbed: f64,
}

/// What the concrete is made of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Materials {
    /// Specific gravity of the cement: 3.15 as a rule.
    pub cement_gravity: f64,
    /// Bulk specific gravity of the stone.
    pub stone_gravity: f64,
    /// Dry-rodded bulk density of the stone (ASTM C29).
    pub stone_bulk: MassDensity,
    /// Water on the stone.
    pub stone_moisture: Moisture,
    /// Bulk specific gravity of the sand.
    pub sand_gravity: f64,
    /// Fineness modulus of the sand: 2.4 to 3.0.
    pub fineness: f64,
    /// Water on the sand.
    pub sand_moisture: Moisture,
}

/// What the tables say of a concrete.
struct Read {
    volume: Volume,
    /// By the table.
    table_water: Mass,
    /// Less what a plasticiser saves.
    water: Mass,
    /// The stone is smaller than the table's smallest.
    under_the_table: bool,
    air: f64,
    ratio: f64,
    stone_share: f64,
}

/// The table's least entry where it is meant: 25 mm is its inch, 9.5 mm its 3/8 in (ACI 211.1M).
fn nominal(value: f64, least: f64) -> f64 {
    if value < least && value >= 0.98 * least { least } else { value }
}

fn read(wanted: &Concrete, fineness: f64, units: Units) -> Result<Read, ProportionProblem> {
    let slump = nominal(in_inches(wanted.slump), 1.0);
    let size = nominal(in_inches(wanted.stone_size), 0.375);
    // The table is for a cubic yard; a metric job sees a cubic metre.
    let yard = cubic_feet(27.0);
    let volume = if units == Units::Inch { yard } else { Volume::new::<cubic_meter>(1.0) };
    let air = tables::air(size, wanted.air).ok_or(ProportionProblem::StoneSize)?;
    let water = tables::water(slump, size, wanted.air).ok_or(ProportionProblem::Slump)?;
    let strength = (wanted.strength / psi(1.0)).value;
    let ratio = tables::water_to_cement(strength, wanted.air).ok_or(ProportionProblem::Strength)?;
    let ratio = match wanted.most_water_to_cement {
        Some(most) => {
            Input::MostWater.check(most)?;
            ratio.min(most)
        }
        None => ratio,
    };
    let stone_share = tables::stone(size, fineness).ok_or(ProportionProblem::Fineness)?;
    if !(0.0..=limits::LESS_WATER_MOST * (1.0 + crate::measure::COUNT_TOLERANCE)).contains(&wanted.less_water) {
        return Err(ProportionProblem::LessWater);
    }
    let table_water = pounds(water) * (volume / yard).value;
    let water = table_water * (1.0 - wanted.less_water);
    Ok(Read { volume, table_water, water, under_the_table: tables::is_under_the_table(size), air, ratio, stone_share })
}

fn check(materials: &Materials) -> Result<(), ProportionProblem> {
    // What is taken in comes first: it counts as the water where that is blank.
    for (input, value) in [
        (Input::CementGravity, materials.cement_gravity),
        (Input::StoneGravity, materials.stone_gravity),
        (Input::StoneBulk, (materials.stone_bulk / limits::water_density()).value),
        (Input::StoneAbsorbs, materials.stone_moisture.absorbed),
        (Input::StoneMoisture, materials.stone_moisture.total),
        (Input::SandGravity, materials.sand_gravity),
        (Input::SandAbsorbs, materials.sand_moisture.absorbed),
        (Input::SandMoisture, materials.sand_moisture.total),
    ] {
        input.check(value)?;
    }
    Ok(())
}

/// The mix for a cubic yard, or a cubic metre in a metric job; scale it from there.
///
/// ```
/// use pourwright::measure::exact::{inches, pounds, pounds_a_cubic_foot, psi};
/// use pourwright::measure::Units;
/// use pourwright::mix::proportion::{Air, Concrete, Materials, Moisture, Role, concrete};
///
/// let wanted = Concrete {
///     slump: inches(3.0),
///     stone_size: inches(0.75),
///     strength: psi(3000.0),
///     air: Air::Moderate,
///     most_water_to_cement: Some(0.5),
///     less_water: 0.0,
/// };
/// let materials = Materials {
///     cement_gravity: 3.15,
///     stone_gravity: 2.6,
///     stone_bulk: pounds_a_cubic_foot(102.0),
///     stone_moisture: Moisture::default(),
///     sand_gravity: 2.65,
///     fineness: 2.7,
///     sand_moisture: Moisture::default(),
/// };
/// let mix = concrete(&wanted, &materials, Units::Inch).expect("the tables have it");
/// assert_eq!(mix.part(Role::Water).map(|part| part.mass.value), Some(pounds(305.0)));
/// ```
///
/// # Errors
/// What is outside of the tables, or does not go together.
pub fn concrete(wanted: &Concrete, materials: &Materials, units: Units) -> Result<Proportions, ProportionProblem> {
    check(materials)?;
    let tables = read(wanted, materials.fineness, units)?;
    let Read { volume, water, air, .. } = tables;
    let density = |gravity: f64| limits::water_density() * gravity;
    let mixing = mixing_water(wanted, &tables);
    let cement = cement_for(wanted, &tables, mixing.clone());
    let stone = dry_stone(materials, &tables);
    let water_volume = water / limits::water_density();
    let cement_volume = cement.value / density(materials.cement_gravity);
    let stone_volume = stone.value / density(materials.stone_gravity);
    let sand_volume = volume * (1.0 - air) - water_volume - cement_volume - stone_volume;
    if sand_volume <= Volume::default() {
        return Err(ProportionProblem::NoRoomForSand);
    }
    let without_air = volume.named("volume") * (1.0 - Term::named_as(air, "air", Quantity::Percent(air)));
    let others = [(water_volume, "water"), (cement_volume, "cement"), (stone_volume, "stone")];
    let room = others.into_iter().fold(without_air, |left, (taken, name)| left - taken.named(name));
    let sand = room.step("absolute volume of the sand", limits::PROPORTIONS)
        * (limits::water_density().named("density of water") * materials.sand_gravity.named("its specific gravity"));
    let free = |dry: Mass, moisture: Moisture| dry * (moisture.total - moisture.absorbed);
    let (on_stone, on_sand) = (free(stone.value, materials.stone_moisture), free(sand.value, materials.sand_moisture));
    let poured = water - on_stone - on_sand;
    if poured < Mass::default() {
        return Err(ProportionProblem::TooWet);
    }
    let poured = if on_stone == Mass::default() && on_sand == Mass::default() {
        mixing
    } else {
        mixing - on_stone.named("free water on the stone") - on_sand.named("free water on the sand")
    };
    let wet = |dry: Term<Mass>, name: &'static str, moisture: Moisture| {
        if moisture.total == 0.0 {
            return dry;
        }
        let total = Term::named_as(moisture.total, "water on it", Quantity::Percent(moisture.total));
        dry.step(name, limits::PROPORTIONS) * (1.0 + total)
    };
    let wet_volume = |dry: Volume, free: Mass| dry + free / limits::water_density();
    let part = |role: Role, mass: Term<Mass>, volume| Part {
        role,
        mass: mass.titled(role.name(), limits::PROPORTIONS),
        volume,
    };
    let poured_volume = poured.value / limits::water_density();
    let cement_mass = cement.value;
    let parts = vec![
        part(Role::Cement, cement, cement_volume),
        part(Role::Stone, wet(stone, "dry stone", materials.stone_moisture), wet_volume(stone_volume, on_stone)),
        part(Role::Sand, wet(sand, "dry sand", materials.sand_moisture), wet_volume(sand_volume, on_sand)),
        part(Role::Water, poured, poured_volume),
    ];
    Ok(Proportions { volume, parts, air, cement: cement_mass, water, on_aggregates: on_stone + on_sand })
}

/// All free water: what the table has, less what a plasticiser saves.
fn mixing_water(wanted: &Concrete, tables: &Read) -> Term<Mass> {
    let says = if tables.under_the_table {
        "water for {} of concrete with a slump of {} and stone of {}, on along the table from its smallest, 3/8 in \
         (9.5 mm) and 1/2 in (12.5 mm)"
    } else {
        "water for {} of concrete with a slump of {} and stone of {}"
    };
    let label = Label::with(says, [tables.volume.quantity(), wanted.slump.quantity(), wanted.stone_size.quantity()]);
    let by_table = tables.table_water.stated(label, limits::PROPORTIONS);
    if wanted.less_water > 0.0 {
        let saved = Quantity::Percent(wanted.less_water);
        let left = 1.0 - Term::named_as(wanted.less_water, "what its plasticiser saves", saved);
        (by_table.called("water by the table") * left).step("mixing water", Source::Typed)
    } else {
        by_table.called("mixing water")
    }
}

/// Cement for that water, by the strength wanted or by what exposure allows.
fn cement_for(wanted: &Concrete, tables: &Read, water: Term<Mass>) -> Term<Mass> {
    let label = Label::with("water to cement for {} at 28 days, or what exposure allows", [wanted.strength.quantity()]);
    water / tables.ratio.stated(label, limits::PROPORTIONS).called("water to cement")
}

/// Dry stone for the volume.
fn dry_stone(materials: &Materials, tables: &Read) -> Term<Mass> {
    let says = if tables.under_the_table {
        "dry-rodded share of the volume for this stone and a fineness modulus of {}, on along the table from its \
         smallest, 3/8 in (9.5 mm) and 1/2 in (12.5 mm)"
    } else {
        "dry-rodded share of the volume for this stone and a fineness modulus of {}"
    };
    let label = Label::with(says, [Quantity::Number(materials.fineness, 2)]);
    tables.stone_share.stated(label, limits::PROPORTIONS).called("dry-rodded share")
        * tables.volume.named("volume")
        * materials.stone_bulk.named("dry-rodded density")
}
