//! Portland concrete by the absolute volume method of ACI 211.1.

use super::tables::{self, Air};
use super::{Part, ProportionProblem, Proportions, Role, sane};
use crate::measure::exact::{cubic_feet, in_inches, pounds, psi};
use crate::measure::{
    Length, Mass, MassDensity, Pressure, Units, Volume, write_density, write_length, write_mass, write_number,
    write_percent, write_volume,
};
use crate::mix::limits;
use crate::working::{Source, Working};
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
        Some(most) if !(most > 0.0 && sane(most)) => return Err(ProportionProblem::NoNumber),
        Some(most) => ratio.min(most),
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
    let gravities = [materials.cement_gravity, materials.stone_gravity, materials.sand_gravity];
    let shares = [materials.stone_moisture, materials.sand_moisture].map(|one| [one.total, one.absorbed]);
    let bulk = materials.stone_bulk;
    let good = gravities.iter().all(|gravity| *gravity > 0.0 && sane(*gravity))
        && shares.iter().flatten().all(|share| (0.0..1.0).contains(share))
        && bulk.value > 0.0
        && bulk <= limits::water_density() * limits::LARGEST_RATIO;
    if good { Ok(()) } else { Err(ProportionProblem::NoNumber) }
}

/// The mix for a cubic yard, or a cubic metre in a metric job; scale it from there.
///
/// # Errors
/// What is outside of the tables, or does not go together.
pub fn concrete(wanted: &Concrete, materials: &Materials, units: Units) -> Result<Proportions, ProportionProblem> {
    check(materials)?;
    let Read { volume, table_water, water, under_the_table, air, ratio, stone_share } =
        read(wanted, materials.fineness, units)?;
    let density = |gravity: f64| limits::water_density() * gravity;
    let cement = water / ratio;
    let stone = stone_share * volume * materials.stone_bulk;
    let water_volume = water / limits::water_density();
    let cement_volume = cement / density(materials.cement_gravity);
    let stone_volume = stone / density(materials.stone_gravity);
    let sand_volume = volume * (1.0 - air) - water_volume - cement_volume - stone_volume;
    if sand_volume <= Volume::default() {
        return Err(ProportionProblem::NoRoomForSand);
    }
    let sand = sand_volume * density(materials.sand_gravity);
    let free = |dry: Mass, moisture: Moisture| dry * (moisture.total - moisture.absorbed);
    let (on_stone, on_sand) = (free(stone, materials.stone_moisture), free(sand, materials.sand_moisture));
    let poured = water - on_stone - on_sand;
    if poured < Mass::default() {
        return Err(ProportionProblem::TooWet);
    }

    let volumes = [volume, water_volume, cement_volume, stone_volume, sand_volume].map(|one| write_volume(one, units));
    let [all, of_water, of_cement, of_stone, of_sand] = &volumes;
    let write = |mass: Mass| write_mass(mass, units);
    let under = if under_the_table {
        ", on along the table from its smallest, 3/8 in (9.5 mm) and 1/2 in (12.5 mm)"
    } else {
        ""
    };
    let water_working = Working::new("Water").line(
        format!(
            "for a slump of {} with stone of {}{under}",
            write_length(wanted.slump, units),
            write_length(wanted.stone_size, units)
        ),
        "",
        format!("{} for {all}", write(table_water)),
        limits::PROPORTIONS,
    );
    let water_working = if wanted.less_water > 0.0 {
        let share = write_percent(wanted.less_water);
        let numbers = format!("{} × (1 − {share})", write(table_water));
        water_working.line("× (1 − what its plasticiser saves)", numbers, write(water), Source::Typed)
    } else {
        water_working
    };
    let cement_working = Working::new("Cement")
        .after(&water_working)
        .line(
            format!(
                "water to cement for {} psi at 28 days, or what exposure allows",
                write_number((wanted.strength / psi(1.0)).value, 0)
            ),
            "",
            write_number(ratio, 3),
            limits::PROPORTIONS,
        )
        .line(
            "water ÷ ratio",
            format!("{} ÷ {}", write(water), write_number(ratio, 3)),
            write(cement),
            limits::PROPORTIONS,
        );
    let stone_working = Working::new("Stone")
        .line(
            format!(
                "dry-rodded share for this stone and a fineness modulus of {}{under}",
                write_number(materials.fineness, 2)
            ),
            "",
            write_number(stone_share, 3),
            limits::PROPORTIONS,
        )
        .line(
            "share × volume × dry-rodded density",
            format!("{} × {all} × {}", write_number(stone_share, 3), write_density(materials.stone_bulk, units)),
            write(stone),
            limits::PROPORTIONS,
        );
    let sand_working = Working::new("Sand")
        .line(
            "volume − air − water − cement − stone, all absolute",
            format!("{all} − {} of it − {of_water} − {of_cement} − {of_stone}", write_percent(air)),
            of_sand,
            limits::PROPORTIONS,
        )
        .line(
            "× its specific gravity × water",
            format!(
                "{of_sand} × {} × {}",
                write_number(materials.sand_gravity, 2),
                write_density(limits::water_density(), units)
            ),
            write(sand),
            limits::PROPORTIONS,
        );
    let wet = |working: Working, dry: Mass, moisture: Moisture| {
        let mass = dry * (1.0 + moisture.total);
        if moisture.total == 0.0 {
            return working.of(mass);
        }
        let numbers = format!("{} × (1 + {})", write(dry), write_percent(moisture.total));
        working.line("as it lies there, with its water", numbers, write(mass), limits::PROPORTIONS).of(mass)
    };
    let poured_working = if on_stone == Mass::default() && on_sand == Mass::default() {
        water_working
    } else {
        let numbers = format!("{} − {} − {}", write(water), write(on_stone), write(on_sand));
        water_working.line("− free water on stone and sand", numbers, write(poured), limits::PROPORTIONS)
    };
    let wet_volume = |dry: Volume, free: Mass| dry + free / limits::water_density();
    let parts = vec![
        Part { role: Role::Cement, mass: cement_working.of(cement), volume: cement_volume },
        Part {
            role: Role::Stone,
            mass: wet(stone_working, stone, materials.stone_moisture),
            volume: wet_volume(stone_volume, on_stone),
        },
        Part {
            role: Role::Sand,
            mass: wet(sand_working, sand, materials.sand_moisture),
            volume: wet_volume(sand_volume, on_sand),
        },
        Part { role: Role::Water, mass: poured_working.of(poured), volume: poured / limits::water_density() },
    ];
    Ok(Proportions { volume, parts, air, cement, water, on_aggregates: on_stone + on_sand })
}
