//! What the mix reads of a job: every field once, with what it means where nothing is typed.

use super::proportion::{Liquid, Moisture, Role};
use super::source_of;
use crate::job::read::{self, optional};
use crate::job::{
    AdditiveField, AirFor, Bag, BagField, FieldPath, Job, PieceField, PourField, Recipe, RecipeField, RecipeKind,
};
use crate::measure::{Dose, Length, Mass, MassDensity, Pressure, Units, Volume};
use crate::working::{Asked, Known, Source, Waiting, together};
use std::fmt;

/// What is typed of one mix, bought in bags or made from scratch.
///
/// ```
/// use pourwright::mix::demo;
/// use pourwright::measure::exact::pounds;
/// use pourwright::mix::{MixInputs, Supplied};
///
/// let mix = MixInputs::read(&demo("an id"), 0);
/// let Supplied::Bags(bag) = &mix.supplied else { panic!("the demo is cast from bags") };
/// assert_eq!(bag.mass, Ok(pounds(55.0)));
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct MixInputs {
    /// Index of the bag among the job's.
    pub index: usize,
    /// What to call it inside of a sentence: its name, or its number where it has none.
    pub name: String,
    /// The tables of concrete are read for a cubic yard or for a cubic metre, by the units of the job.
    pub units: Units,
    /// How it comes.
    pub supplied: Supplied,
    /// What goes in beside it, in the order of the job.
    pub additives: Vec<AdditiveInputs>,
    /// Density of the hardened concrete; nothing where it is blank.
    pub hardened_density: Known<Option<MassDensity>>,
    /// Parts of a piece that are poured each by itself; 1 where it is blank or 0.
    pub parts: Known<u32>,
}

/// How a mix comes, with the figures of it.
#[derive(Clone, Debug, PartialEq)]
pub enum Supplied {
    /// In bags.
    Bags(BagInputs),
    /// As cement, sand and what else is weighed out.
    Scratch(Box<RecipeInputs>),
}

/// What is typed of one bag. Mass, water and yield are each more than nothing, and are waited for.
#[derive(Clone, Debug, PartialEq)]
pub struct BagInputs {
    /// Dry mass of one bag.
    pub mass: Known<Mass>,
    /// Where that comes from.
    pub mass_source: Source,
    /// Water that one bag wants.
    pub water: Known<Volume>,
    /// Where that comes from.
    pub water_source: Source,
    /// Volume that one bag gives.
    pub yields: Known<Volume>,
    /// Where that comes from.
    pub yield_source: Source,
    /// The least water that the label allows; nothing where it is blank.
    pub water_least: Known<Option<Volume>>,
    /// The most water that the label allows; nothing where it is blank.
    pub water_most: Known<Option<Volume>>,
}

/// What is typed of one additive.
#[derive(Clone, Debug, PartialEq)]
pub struct AdditiveInputs {
    /// What the maker calls it, or its number.
    pub name: String,
    /// Into every bag; nothing goes in where it is blank.
    pub dose: Asked<Dose>,
    /// The least that its label allows; no limit where it is blank.
    pub dose_least: Asked<Dose>,
    /// The most that its label allows; no limit where it is blank.
    pub dose_most: Asked<Dose>,
    /// Into a mix made from scratch, as a share of the cement's mass; 0 where it is blank.
    pub of_cement: Known<f64>,
    /// Water in it, as a share of its mass; 0 where it is blank.
    pub water: Known<f64>,
    /// What it saves of the mixing water, as a share; 0 where it is blank.
    pub less_water: Known<f64>,
}

/// Water that is typed of an aggregate, as shares of its dry mass.
#[derive(Clone, Debug, PartialEq)]
pub struct MoistureInputs {
    /// All water on and in it; where it is blank, as much as the aggregate takes in.
    pub total: Known<Option<f64>>,
    /// What it takes in and keeps from the cement; 0 where it is blank.
    pub absorbed: Known<f64>,
}

/// What is typed of a liquid or a powder that goes in by the cement.
#[derive(Clone, Debug, PartialEq)]
pub struct LiquidInputs {
    /// How much, as a share of the cement's mass; 0 where it is blank.
    pub share: Known<f64>,
    /// Solids in it, as a share of its mass; 1, a powder, where it is blank.
    pub solids: Known<f64>,
}

/// What is typed of a mix that is made from scratch. Lengths, masses, densities, strengths and ratios are each more
/// than nothing; where no more is said of a blank, it is waited for.
#[derive(Clone, Debug, PartialEq)]
pub struct RecipeInputs {
    /// What it is.
    pub kind: RecipeKind,
    /// Where it will be: says how much air concrete is to hold.
    pub air_for: AirFor,
    /// The fields that stand as the usual mix of its kind has them: nobody typed them.
    pub usual: Vec<RecipeField>,
    /// How wet concrete is.
    pub slump: Known<Length>,
    /// Nominal largest size of the stone.
    pub stone_size: Known<Length>,
    /// Average compressive strength at 28 days. The mix waits for it; how it hardens does not.
    pub strength: Asked<Pressure>,
    /// The most water to cement that exposure allows; no limit where it is blank.
    pub most_water: Known<Option<f64>>,
    /// Dry-rodded bulk density of the stone.
    pub stone_bulk: Known<MassDensity>,
    /// Bulk specific gravity of the stone.
    pub stone_gravity: Known<f64>,
    /// Water on the stone.
    pub stone_moisture: MoistureInputs,
    /// Fineness modulus of the sand.
    pub fineness: Known<f64>,
    /// Bulk specific gravity of the sand.
    pub sand_gravity: Known<f64>,
    /// Water on the sand.
    pub sand_moisture: MoistureInputs,
    /// Specific gravity of the cement.
    pub cement_gravity: Known<f64>,
    /// Dry sand to cement, by mass.
    pub sand: Known<f64>,
    /// All free water to cement, by mass.
    pub water: Known<f64>,
    /// Polymer, by its solids.
    pub polymer: LiquidInputs,
    /// Flow aid, as it comes.
    pub flow_aid: LiquidInputs,
    /// Pigment, as a share of the cement's mass; 0 where it is blank.
    pub pigment: Known<f64>,
    /// Fibre, as a share of everything that is weighed in; 0 where it is blank.
    pub fibre: Known<f64>,
    /// Air, as a share of the volume; 0 where it is blank.
    pub air: Known<f64>,
    /// Thickness of the face coat.
    pub face_coat: Known<Length>,
    /// Cement in one bag of it.
    pub cement_bag: Known<Mass>,
    /// What the mixer takes at a time.
    pub batch: Known<Volume>,
    /// The finest step of the maker's scale; [`crate::job::usual::scale_step`] where it is blank.
    pub scale: Known<Mass>,
}

/// What the mix reads of one piece.
#[derive(Clone, Debug, PartialEq)]
pub struct PieceInputs {
    /// Index of the piece among the job's.
    pub index: usize,
    /// Its name and a colon where the job has several pieces, else nothing.
    pub prefix: String,
    /// The mix that it is cast from; waited for where none of the job's has its id.
    pub mix: Known<MixInputs>,
    /// What is mixed beyond what fills the form, as a share of that; waited for.
    pub spare: Known<f64>,
}

/// A mix of the job, and the pieces that are cast from it.
#[derive(Clone, Debug, PartialEq)]
pub struct OrderInputs {
    /// The mix.
    pub mix: MixInputs,
    /// Its pieces, in the order of the job; at least one.
    pub pieces: Vec<NamedPiece>,
}

/// A piece as it is named in an order.
#[derive(Clone, Debug, PartialEq)]
pub struct NamedPiece {
    /// Index of the piece among the job's.
    pub index: usize,
    /// What to call it inside of a sentence.
    pub name: String,
    /// Its name and a colon where the job has several pieces, else nothing.
    pub prefix: String,
}

/// The bag that a piece is cast from, and its index among the job's.
///
/// # Errors
/// A need at the piece's name, when no bag of the job carries that id.
pub(crate) fn bag_of(job: &Job, piece: usize) -> Known<(usize, &Bag)> {
    let id = job.pieces.get(piece).map_or("", |piece| piece.bag.as_str());
    job.bag(id).ok_or_else(|| {
        let says = format!("{}: choose the mix it is cast from.", read::piece_name(job, piece));
        Waiting::at(FieldPath::Piece(piece, PieceField::Name), says)
    })
}

/// What a part is called in that mix.
pub fn part_name(job: &Job, bag: usize, role: Role) -> String {
    match (role, job.bags.get(bag)) {
        (Role::Additive(index), Some(bag)) => additive_name(bag, index),
        _ => role.name().to_owned(),
    }
}

/// What the maker calls an additive, or its number.
fn additive_name(bag: &Bag, additive: usize) -> String {
    match bag.additives.get(additive) {
        Some(typed) if !typed.name.is_blank() => typed.name.text().trim().to_owned(),
        _ => format!("Additive {}", additive + 1),
    }
}

/// The share that is typed there, nothing where it is blank.
fn share(job: &Job, place: FieldPath) -> Known<f64> {
    optional(job, place, read::percent).map(Option::unwrap_or_default)
}

impl MixInputs {
    /// What is typed of the bag with that index.
    pub fn read(job: &Job, index: usize) -> Self {
        let bag = job.bags.get(index);
        let supplied = match bag.and_then(|bag| bag.recipe.as_ref()) {
            Some(recipe) => Supplied::Scratch(Box::new(RecipeInputs::read(job, index, recipe))),
            None => Supplied::Bags(BagInputs::read(job, index)),
        };
        let hardened = FieldPath::Bag(index, BagField::HardenedDensity);
        Self {
            index,
            name: read::bag_name(job, index),
            units: job.units,
            supplied,
            additives: bag.map_or_else(Vec::new, |bag| {
                (0..bag.additives.len()).map(|additive| AdditiveInputs::read(job, index, bag, additive)).collect()
            }),
            hardened_density: optional(job, hardened, read::positive_density),
            parts: optional(job, FieldPath::Pour(PourField::Parts), read::count).map(|parts| parts.unwrap_or(1).max(1)),
        }
    }

    /// The figures of the recipe, where it is made from scratch.
    pub fn recipe(&self) -> Option<&RecipeInputs> {
        match &self.supplied {
            Supplied::Bags(_) => None,
            Supplied::Scratch(recipe) => Some(recipe),
        }
    }

    /// The field that says how much is mixed at a time.
    pub(crate) fn batch_at(&self) -> FieldPath {
        match self.supplied {
            Supplied::Scratch(_) => FieldPath::Recipe(self.index, RecipeField::Batch),
            Supplied::Bags(_) => FieldPath::Bag(self.index, BagField::Yield),
        }
    }

    /// What a part of it is called.
    pub(crate) fn part_name(&self, role: Role) -> String {
        let additive = match role {
            Role::Additive(index) => self.additives.get(index),
            _ => None,
        };
        additive.map_or_else(|| role.name().to_owned(), |additive| additive.name.clone())
    }

    /// Waiting for a field of it, by its name and the field's.
    pub(super) fn waits_at(&self, place: FieldPath, says: impl fmt::Display) -> Waiting {
        Waiting::at(place, format!("{}, {}: {says}", self.name, place.label()))
    }
}

impl BagInputs {
    fn read(job: &Job, bag: usize) -> Self {
        let at = |field| FieldPath::Bag(bag, field);
        let source = |field| job.bags.get(bag).map_or(Source::Typed, |bag| source_of(bag, field));
        Self {
            mass: read::positive_mass(job, at(BagField::Mass)),
            mass_source: source(BagField::Mass),
            water: read::positive_volume(job, at(BagField::Water)),
            water_source: source(BagField::Water),
            yields: read::positive_volume(job, at(BagField::Yield)),
            yield_source: source(BagField::Yield),
            water_least: optional(job, at(BagField::WaterLeast), read::volume),
            water_most: optional(job, at(BagField::WaterMost), read::volume),
        }
    }
}

impl AdditiveInputs {
    fn read(job: &Job, index: usize, bag: &Bag, additive: usize) -> Self {
        let at = |field| FieldPath::Additive(index, additive, field);
        Self {
            name: additive_name(bag, additive),
            dose: read::asked(job, at(AdditiveField::Dose), read::dose),
            dose_least: read::asked(job, at(AdditiveField::DoseLeast), read::dose),
            dose_most: read::asked(job, at(AdditiveField::DoseMost), read::dose),
            of_cement: share(job, at(AdditiveField::OfCement)),
            water: share(job, at(AdditiveField::Water)),
            less_water: share(job, at(AdditiveField::LessWater)),
        }
    }
}

impl MoistureInputs {
    /// The water on the aggregate.
    ///
    /// # Errors
    /// The shares that cannot be read.
    pub fn known(&self) -> Known<Moisture> {
        let (total, absorbed) = together((self.total.clone(), self.absorbed.clone()))?;
        Ok(Moisture { total: total.unwrap_or(absorbed), absorbed })
    }
}

impl LiquidInputs {
    /// What goes in of it; nothing where its share is nothing.
    ///
    /// # Errors
    /// The shares that cannot be read.
    pub fn known(&self) -> Known<Option<Liquid>> {
        let (share, solids) = together((self.share.clone(), self.solids.clone()))?;
        Ok((share > 0.0).then_some(Liquid { share, solids }))
    }
}

impl RecipeInputs {
    /// Where what the mixer holds comes from: the usual one was typed by nobody.
    pub fn batch_source(&self) -> Source {
        if self.usual.contains(&RecipeField::Batch) { Source::Practice } else { Source::Typed }
    }

    fn read(job: &Job, bag: usize, recipe: &Recipe) -> Self {
        let at = |field| FieldPath::Recipe(bag, field);
        let ratio = |field| read::positive_ratio(job, at(field));
        let share = |field| share(job, at(field));
        let moisture = |total, absorbs| MoistureInputs {
            total: optional(job, at(total), read::percent),
            absorbed: share(absorbs),
        };
        let liquid = |amount, solids| LiquidInputs {
            share: share(amount),
            solids: optional(job, at(solids), read::percent).map(|solids| solids.unwrap_or(1.0)),
        };
        Self {
            kind: recipe.kind,
            air_for: recipe.air_for,
            usual: RecipeField::ALL.iter().copied().filter(|field| recipe.is_usual(*field, job.units)).collect(),
            slump: read::positive_length(job, at(RecipeField::Slump)),
            stone_size: read::positive_length(job, at(RecipeField::StoneSize)),
            strength: read::asked(job, at(RecipeField::Strength), read::positive_pressure),
            most_water: optional(job, at(RecipeField::MostWater), read::positive_ratio),
            stone_bulk: read::positive_density(job, at(RecipeField::StoneBulk)),
            stone_gravity: ratio(RecipeField::StoneGravity),
            stone_moisture: moisture(RecipeField::StoneMoisture, RecipeField::StoneAbsorbs),
            fineness: ratio(RecipeField::Fineness),
            sand_gravity: ratio(RecipeField::SandGravity),
            sand_moisture: moisture(RecipeField::SandMoisture, RecipeField::SandAbsorbs),
            cement_gravity: ratio(RecipeField::CementGravity),
            sand: ratio(RecipeField::Sand),
            water: ratio(RecipeField::Water),
            polymer: liquid(RecipeField::Polymer, RecipeField::PolymerSolids),
            flow_aid: liquid(RecipeField::FlowAid, RecipeField::FlowAidSolids),
            pigment: share(RecipeField::Pigment),
            fibre: share(RecipeField::Fibre),
            air: share(RecipeField::Air),
            face_coat: read::positive_length(job, at(RecipeField::FaceCoat)),
            cement_bag: read::positive_mass(job, at(RecipeField::CementBag)),
            batch: read::positive_volume(job, at(RecipeField::Batch)),
            scale: read::or_usual(job, at(RecipeField::Scale), read::positive_mass),
        }
    }
}

impl PieceInputs {
    /// What is typed of the piece with that index, and of the mix that it is cast from.
    pub fn read(job: &Job, piece: usize) -> Self {
        Self {
            index: piece,
            prefix: read::piece_prefix(job, piece),
            mix: bag_of(job, piece).map(|(bag, _)| MixInputs::read(job, bag)),
            spare: read::percent(job, FieldPath::Piece(piece, PieceField::Spare)),
        }
    }
}

impl OrderInputs {
    /// Every mix that a piece is cast from, in the order of the job's bags.
    pub fn read(job: &Job) -> Vec<Self> {
        let mut pieces: Vec<Vec<NamedPiece>> = job.bags.iter().map(|_| Vec::new()).collect();
        for index in 0..job.pieces.len() {
            let of_bag = bag_of(job, index).ok().and_then(|(bag, _)| pieces.get_mut(bag));
            if let Some(of_bag) = of_bag {
                let (name, prefix) = (read::piece_name(job, index), read::piece_prefix(job, index));
                of_bag.push(NamedPiece { index, name, prefix });
            }
        }
        let used = pieces.into_iter().enumerate().filter(|(_, pieces)| !pieces.is_empty());
        used.map(|(bag, pieces)| Self { mix: MixInputs::read(job, bag), pieces }).collect()
    }
}
