//! What to order of each mix.

use super::inputs::{BagInputs, MixInputs, NamedPiece, OrderInputs, RecipeInputs, Supplied};
use super::proportion::Role;
use super::scratch::{self, Material};
use super::{Coats, Pour, bags_for, water_to_dry, water_to_pour};
use crate::job::{BagField, FieldPath};
use crate::measure::{Dose, Mass, Quantity, Volume};
use crate::mix::limits;
use crate::working::{Figure, Known, Label, Named, Source, Term, Waiting, all, known_ref, together};

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

/// What to order of each mix that a piece is cast from, in the order of the job's bags. `pours` are those of all
/// pieces of the job.
///
/// The pieces of one mix share it, and the sum is rounded up once.
pub(crate) fn orders(inputs: &[OrderInputs], pours: &[&Known<Pour>]) -> Vec<Known<Order>> {
    inputs
        .iter()
        .map(|OrderInputs { mix, pieces }| {
            let of_piece = |piece: &NamedPiece| pours.get(piece.index).map(|pour| (piece.clone(), known_ref(pour)));
            let known = pieces.iter().filter_map(of_piece).map(|(piece, pour)| pour.map(|pour| (piece, pour)));
            let known = all(known);
            match &mix.supplied {
                Supplied::Scratch(recipe) => order_of_scratch(mix, recipe, &known?),
                Supplied::Bags(bag) => order_of_bags(mix, bag, known),
            }
        })
        .collect()
}

/// A title that ends in the name of a mix: "Bags of Rapid mortar, 55 lb".
fn title(words: &'static str, mix: &MixInputs) -> Label {
    Label::with(words, [Quantity::Words(mix.name.clone().into())])
}

/// Volume of all pieces of a mix, spare included.
fn volume_of(mix: &MixInputs, pours: &[(NamedPiece, &Pour)]) -> Figure<Volume> {
    let title = title("Volume of {}", mix);
    if let [(_, only)] = pours {
        return only.with_spare.term().titled(title, Source::Arithmetic);
    }
    let of_piece = |(piece, pour): &(NamedPiece, &Pour)| {
        let name = || [Quantity::Words(piece.name.clone().into())];
        let volume = pour.with_spare.value.stated(Label::with("{}, spare included", name()), Source::Arithmetic);
        volume.called(Label::with("{}", name()))
    };
    Term::sum(pours.iter().map(of_piece)).titled(title, Source::Arithmetic)
}

fn order_of_scratch(mix: &MixInputs, recipe: &RecipeInputs, pours: &[(NamedPiece, &Pour)]) -> Known<Order> {
    let coats: Vec<_> = pours.iter().filter_map(|(piece, pour)| Some((piece, pour.coats.as_ref()?))).collect();
    let of_pieces: Vec<_> = coats.iter().map(|(_, coats)| *coats).collect();
    let pooled = if of_pieces.len() > 1 { Some(scratch::pooled(mix, recipe, &of_pieces)?) } else { None };
    let materials = match (&pooled, coats.first()) {
        (Some(pooled), _) => scratch::materials(mix, "", pooled),
        (None, Some((piece, coats))) => scratch::materials(mix, &piece.prefix, coats),
        (None, None) => Vec::new(),
    };
    let of = |role| materials.iter().find(|material| material.role == role).map(|material| &material.mass);
    // The last coat is the most of it.
    let most = pooled.as_ref().or(of_pieces.first().copied()).and_then(|coats| coats.coats.last());
    let (Some(cement), Some(most)) = (of(Role::Cement), most) else {
        let place = FieldPath::Bag(mix.index, BagField::Name);
        return Err(Waiting::at(place, format!("{}: nothing is cast from it.", mix.name)));
    };
    let bags = scratch::cement_bags(mix, recipe, cement)?;
    let (mass, title) = match of(Role::Water) {
        Some(water) => (water.term(), water.working.title_label().clone()),
        None => (Mass::default().named("water"), "Water".into()),
    };
    let volume = mass / limits::water_density().named("density of water");
    let quantity = Quantity::Water(volume.value);
    let water = volume.titled_as(title, quantity, limits::WATER);
    let (water_to_cement, paste) = (most.batch.water_to_cement(), most.batch.paste_share());
    let supply = Supply::Scratch(Scratch { water_to_cement, paste, pooled, materials });
    Ok(Order { bag: mix.index, volume: volume_of(mix, pours), bags, water, supply })
}

fn order_of_bags(mix: &MixInputs, bag: &BagInputs, pours: Known<Vec<(NamedPiece, &Pour)>>) -> Known<Order> {
    let (pours, yields, water_a_bag, water_to_dry) =
        together((pours, bag.yields.clone(), water_to_pour(mix, bag), water_to_dry(bag)))?;
    let volume = volume_of(mix, &pours);
    let bags = bags_for(mix, bag, title("Bags of {}", mix), &volume, yields)?;
    let count = || bags.called("bags").number();

    let left = count() * yields.named("volume that one bag gives") - volume.value.named("volume");
    // Float noise only: the bags hold the volume.
    let left_over = if left.value > Volume::default() { left.value } else { Volume::default() };
    let left_over = left
        .by_rule("{}", |parts| parts[0].max(0.0), left_over)
        .titled(title("Left over of {}", mix), Source::Arithmetic);
    let water = count() * water_a_bag.term_as(Quantity::Water(water_a_bag.value));
    let quantity = Quantity::Water(water.value);
    let water = water.titled_as(title("Water for {}", mix), quantity, Source::Arithmetic);
    let times = f64::from(bags.value);
    let additives = mix
        .additives
        .iter()
        .filter_map(|additive| {
            let a_bag = additive.dose.readable()?;
            let in_all = match a_bag {
                Dose::Volume(volume) => Dose::Volume(times * volume),
                Dose::Mass(mass) => Dose::Mass(times * mass),
            };
            Some(AdditiveOrder { name: additive.name.clone(), a_bag, in_all })
        })
        .collect();
    let supply = Supply::Bags(Bagged { left_over, water_a_bag: water_a_bag.value, water_to_dry, additives });
    Ok(Order { bag: mix.index, volume, bags, water, supply })
}
