//! What to order of each mix.

use super::proportion::Role;
use super::scratch::{self, Material};
use super::{Coats, Pour, additive_name, bag_of, bags_for, water_to_dry, water_to_pour};
use crate::job::read::{self, all, both};
use crate::job::{AdditiveField, Bag, BagField, FieldPath, Job, Recipe};
use crate::measure::{Dose, Volume, write_density, write_mass, write_volume, write_water};
use crate::mix::limits;
use crate::working::{Figure, Known, Source, Waiting, Working};

/// One additive of an order.
#[derive(Clone, Debug, PartialEq)]
pub struct AdditiveOrder {
    /// What the maker calls it.
    pub name: String,
    /// Into every bag.
    pub a_bag: Dose,
    /// For all bags of the order.
    pub in_all: Dose,
}

/// What to order of one mix, for all pieces that are cast from it.
#[derive(Clone, Debug, PartialEq)]
pub struct Order {
    /// Index of the bag among the job's.
    pub bag: usize,
    /// Volume of all its pieces, spare included.
    pub volume: Figure<Volume>,
    /// Whole bags: of the mix, or of the cement that it is made with.
    pub bags: Figure<u32>,
    /// All water that is poured in.
    pub water: Figure<Volume>,
    /// What else is known of it.
    pub supply: Supply,
}

/// How a mix comes.
#[derive(Clone, Debug, PartialEq)]
pub enum Supply {
    /// In bags.
    Bags(Bagged),
    /// As cement, sand and what else is weighed out.
    Scratch(Scratch),
}

/// What is known of an order of bags.
#[derive(Clone, Debug, PartialEq)]
pub struct Bagged {
    /// What the last bag leaves over, when mixed.
    pub left_over: Figure<Volume>,
    /// Water into every bag.
    pub water_a_bag: Volume,
    /// All water that is in the mix, to its dry mass; of a bag the cement is not known.
    pub water_to_dry: Figure<f64>,
    /// Additives, in the order of the bag; unreadable doses wait in the field itself.
    pub additives: Vec<AdditiveOrder>,
}

/// What is known of a mix made from scratch.
#[derive(Clone, Debug, PartialEq)]
pub struct Scratch {
    /// The batches of all pieces together, where it is cast into several: they are mixed at one go.
    pub pooled: Option<Coats>,
    /// Everything that is weighed in; water among it.
    pub materials: Vec<Material>,
    /// All free water to cement, by mass.
    pub water_to_cement: Figure<f64>,
    /// Paste, as a share of the volume.
    pub paste: Figure<f64>,
}

impl Order {
    /// What is known of it where it comes in bags.
    pub fn bagged(&self) -> Option<&Bagged> {
        match &self.supply {
            Supply::Bags(bagged) => Some(bagged),
            Supply::Scratch(_) => None,
        }
    }

    /// What is known of it where it is made from scratch.
    pub fn scratch(&self) -> Option<&Scratch> {
        match &self.supply {
            Supply::Bags(_) => None,
            Supply::Scratch(scratch) => Some(scratch),
        }
    }
}

/// What to order of each bag that a piece refers to, in the order of the job's bags.
///
/// The pieces of one bag share it, and the sum is rounded up once.
pub(crate) fn orders(job: &Job, pours: &[&Known<Pour>]) -> Vec<Known<Order>> {
    let used: Vec<_> = (0..job.pieces.len()).map(|piece| bag_of(job, piece).ok().map(|(index, _)| index)).collect();
    job.bags
        .iter()
        .enumerate()
        .filter(|(index, _)| used.contains(&Some(*index)))
        .map(|(index, bag)| {
            let pieces = pours.iter().enumerate().filter(|(piece, _)| used.get(*piece) == Some(&Some(index)));
            order(
                job,
                index,
                bag,
                all(pieces.map(|(piece, pour)| pour.as_ref().map(|pour| (piece, pour)).map_err(Waiting::clone))),
            )
        })
        .collect()
}

fn order(job: &Job, index: usize, bag: &Bag, pours: Known<Vec<(usize, &Pour)>>) -> Known<Order> {
    match &bag.recipe {
        Some(recipe) => order_of_scratch(job, index, recipe, &pours?),
        None => order_of_bags(job, index, bag, pours),
    }
}

/// Volume of all pieces of a mix, spare included.
fn volume_of(job: &Job, index: usize, pours: &[(usize, &Pour)]) -> Figure<Volume> {
    let units = job.units;
    let volume: Volume = pours.iter().map(|(_, pour)| pour.with_spare.value).sum();
    let mut working = Working::new(format!("Volume of {}", read::bag_name(job, index)));
    if let [(_, only)] = pours {
        return working.after(&only.with_spare.working).of(volume);
    }
    for (piece, pour) in pours {
        let formula = format!("{}, spare included", read::piece_name(job, *piece));
        working = working.line(formula, "", write_volume(pour.with_spare.value, units), Source::Arithmetic);
    }
    let parts: Vec<_> = pours.iter().map(|(_, pour)| write_volume(pour.with_spare.value, units).to_string()).collect();
    let sum = write_volume(volume, units);
    working.line("all pieces of this mix", parts.join(" + "), sum, Source::Arithmetic).of(volume)
}

fn order_of_scratch(job: &Job, index: usize, recipe: &Recipe, pours: &[(usize, &Pour)]) -> Known<Order> {
    let coats: Vec<_> = pours.iter().filter_map(|(piece, pour)| Some((*piece, pour.coats.as_ref()?))).collect();
    let of_pieces: Vec<_> = coats.iter().map(|(_, coats)| *coats).collect();
    let pooled = if of_pieces.len() > 1 { Some(scratch::pooled(job, index, recipe, &of_pieces)?) } else { None };
    let materials = match (&pooled, coats.first()) {
        (Some(pooled), _) => scratch::materials(job, index, "", pooled),
        (None, Some((piece, coats))) => scratch::materials(job, index, &read::piece_prefix(job, *piece), coats),
        (None, None) => Vec::new(),
    };
    let of = |role| materials.iter().find(|material| material.role == role).map(|material| &material.mass);
    // The last coat is the most of it.
    let most = pooled.as_ref().or(of_pieces.first().copied()).and_then(|coats| coats.coats.last());
    let (Some(cement), Some(most)) = (of(Role::Cement), most) else {
        let place = FieldPath::Bag(index, BagField::Name);
        return Err(Waiting::at(place, format!("{}: nothing is cast from it.", read::bag_name(job, index))));
    };
    let bags = scratch::cement_bags(job, index, cement)?;
    let mass = of(Role::Water).map(|water| water.value).unwrap_or_default();
    let volume = mass / limits::water_density();
    let water = of(Role::Water).map_or_else(|| Working::new("Water"), |water| water.working.clone()).line(
        "÷ density of water",
        format!("{} ÷ {}", write_mass(mass, job.units), write_density(limits::water_density(), job.units)),
        write_water(volume, job.units),
        limits::WATER,
    );
    let water = water.of(volume);
    let (water_to_cement, paste) = (most.batch.water_to_cement(job.units), most.batch.paste_share(job.units));
    let supply = Supply::Scratch(Scratch { water_to_cement, paste, pooled, materials });
    Ok(Order { bag: index, volume: volume_of(job, index, pours), bags, water, supply })
}

fn order_of_bags(job: &Job, index: usize, bag: &Bag, pours: Known<Vec<(usize, &Pour)>>) -> Known<Order> {
    let yields = read::positive_volume(job, FieldPath::Bag(index, BagField::Yield));
    let water_a_bag = both(water_to_pour(job, index), water_to_dry(job, index));
    let (pours, (yields, water_a_bag)) = both(pours, both(yields, water_a_bag))?;
    let units = job.units;
    let name = read::bag_name(job, index);
    let volume = volume_of(job, index, &pours);
    let bags = bags_for(job, index, bag, format!("Bags of {name}"), &volume, yields)?;

    let count = f64::from(bags.value);
    let spare = count * yields - volume.value;
    // Float noise only: the bags hold the volume.
    let spare = if spare > Volume::default() { spare } else { Volume::default() };
    let left_over = Working::new(format!("Left over of {name}"))
        .after(&bags.working)
        .line(
            "bags × yield − volume",
            format!("{} × {} − {}", bags.value, write_volume(yields, units), write_volume(volume.value, units)),
            write_volume(spare, units),
            Source::Arithmetic,
        )
        .of(spare);
    let (Figure { value: water_a_bag, working: poured }, water_to_dry) = water_a_bag;
    let water = count * water_a_bag;
    let water = Working::new(format!("Water for {name}"))
        .after(&bags.working)
        .after(&poured)
        .line(
            "bags × water a bag",
            format!("{} × {}", bags.value, write_water(water_a_bag, units)),
            write_water(water, units),
            Source::Arithmetic,
        )
        .of(water);
    let additives = (0..bag.additives.len())
        .filter_map(|additive| {
            let a_bag = read::dose(job, FieldPath::Additive(index, additive, AdditiveField::Dose)).ok()?;
            let in_all = match a_bag {
                Dose::Volume(volume) => Dose::Volume(count * volume),
                Dose::Mass(mass) => Dose::Mass(count * mass),
            };
            let name = additive_name(bag, additive);
            Some(AdditiveOrder { name, a_bag, in_all })
        })
        .collect();
    let supply = Supply::Bags(Bagged { left_over, water_a_bag, water_to_dry, additives });
    Ok(Order { bag: index, volume, bags, water, supply })
}
