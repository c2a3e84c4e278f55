//! What is poured: the catalogue of mixes, volumes, bags, water, additives; and mixes made from scratch.

mod advice;
mod catalogue;
mod demo;
pub mod limits;
mod order;
pub mod proportion;
mod scratch;

pub(crate) use advice::{advise_bag, advise_coats, advise_piece, advise_scale};
pub use catalogue::{catalogue, source_of};
pub use demo::demo;
pub(crate) use order::orders;
pub use order::{AdditiveOrder, Bagged, Order, Scratch, Supply};
pub use scratch::{Coat, Coats, Material, part_name};
pub(crate) use scratch::{batch_at, batches as batches_of};

use crate::form::{self, Form};
use crate::job::read::{self, both};
use crate::job::{AdditiveField, Bag, BagField, FieldPath, Job, PieceField};
use crate::measure::{
    Area, Dose, Mass, MassDensity, Volume, write_area, write_count, write_density, write_dose, write_length,
    write_mass, write_number, write_percent, write_volume, write_water,
};
use crate::top::Top;
use crate::working::{Figure, Known, Label, Source, Waiting, Working};
use uom::si::area::square_meter;

/// What has to be poured into one form.
#[derive(Clone, Debug, PartialEq)]
pub struct Pour {
    /// Index of the bag among the job's.
    pub bag: usize,
    /// The form's clear space less knockouts and less what the liner takes.
    pub net: Figure<Volume>,
    /// The same with the spare that is ordered beyond it.
    pub with_spare: Figure<Volume>,
    /// What is mixed for this piece alone: whole bags, or whole batches of a mix made from scratch.
    pub loads: Figure<u32>,
    /// What goes into the batches of a mix made from scratch; nothing of bags.
    pub coats: Option<Coats>,
    /// Density of the fresh mix, by mass and yield.
    pub fresh_density: Figure<MassDensity>,
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

/// What fills the form of a piece, spare mix aside.
#[derive(Clone, Debug, PartialEq)]
pub struct Filling {
    /// The concrete in the form.
    pub(crate) net: Known<Figure<Volume>>,
    /// The density of the fresh mix of the bag that it is cast from.
    pub(crate) fresh: Known<Figure<MassDensity>>,
}

impl Filling {
    /// What fills the form of the piece with that index.
    pub fn of(top: &Top, form: &Known<Form>, job: &Job, piece: usize) -> Self {
        let fresh = bag_of(job, piece).and_then(|(index, bag)| fresh_density(job, index, bag));
        Self { net: net_volume(top, form, job, piece), fresh }
    }
}

/// The form's clear space less knockouts and less what the liner takes.
///
/// A liner is taken to stand as high as the cast; the little that eased edges take is left in.
///
/// # Errors
/// What it waits for: the area that is left, the thickness or the grinding.
fn net_volume(top: &Top, form: &Known<Form>, job: &Job, piece: usize) -> Known<Figure<Volume>> {
    let (area, cast) = both(top.area.clone(), form::cast_thickness(top, job, piece))?;
    let net = area.value * cast.value;
    let units = job.units;
    let working = Working::new("Concrete in the form").after(&cast.working);
    let (Ok(outline), Ok(form)) = (&top.outline, form) else {
        return Ok(working
            .after(&area.working)
            .line(
                "finished area × cast thickness",
                format!("{} × {}", write_area(area.value, units), write_length(cast.value, units)),
                write_volume(net, units),
                Source::Arithmetic,
            )
            .of(net));
    };
    let (inside, finished) = (form.clear.area(), outline.area());
    let [inside, finished] = [inside, finished].map(Area::new::<square_meter>);
    let clear = inside * cast.value;
    let taken_by_liner = (inside - finished) * cast.value;
    let taken_by_knockouts = (finished - area.value) * cast.value;
    let write = |volume| write_volume(volume, units);
    Ok(working
        .line(
            "clear area inside the form × cast thickness",
            format!("{} × {}", write_area(inside, units), write_length(cast.value, units)),
            write(clear),
            Source::Arithmetic,
        )
        .line(
            "what the liners take: clear space less finished outline, over the cast thickness",
            format!(
                "({} − {}) × {}",
                write_area(inside, units),
                write_area(finished, units),
                write_length(cast.value, units)
            ),
            write(taken_by_liner),
            Source::Arithmetic,
        )
        .line(
            "what the knockouts take: cutouts and holes × cast thickness",
            format!("{} × {}", write_area(finished - area.value, units), write_length(cast.value, units)),
            write(taken_by_knockouts),
            Source::Arithmetic,
        )
        .line(
            "clear space − liners − knockouts",
            format!("{} − {} − {}", write(clear), write(taken_by_liner), write(taken_by_knockouts)),
            write(net),
            Source::Arithmetic,
        )
        .of(net))
}

/// What the additives of one bag weigh that are dosed by mass, and the water that all of them bring. One that is
/// dosed by volume is taken to be as dense as water.
fn brought(job: &Job, index: usize, bag: &Bag) -> Known<(Mass, Mass)> {
    let (mut masses, mut water) = (Mass::default(), Mass::default());
    for additive in 0..bag.additives.len() {
        let place = |field| FieldPath::Additive(index, additive, field);
        let share = read::optional(job, place(AdditiveField::Water), read::percent)?.unwrap_or(0.0);
        match read::dose(job, place(AdditiveField::Dose)) {
            Ok(Dose::Mass(mass)) => {
                masses += mass;
                water += mass * share;
            }
            Ok(Dose::Volume(volume)) => water += volume * limits::water_density() * share,
            Err(_) => {}
        }
    }
    Ok((masses, water))
}

/// The water to pour into one bag: what the bag wants, less what its additives bring.
///
/// # Errors
/// What it waits for: the bag's water, or the water in an additive.
pub(crate) fn water_to_pour(job: &Job, index: usize) -> Known<Figure<Volume>> {
    let place = FieldPath::Bag(index, BagField::Water);
    let wanted = read::positive_volume(job, place);
    let bag = job.bags.get(index);
    let (wanted, (_, water)) =
        both(wanted, bag.map_or(Ok((Mass::default(), Mass::default())), |bag| brought(job, index, bag)))?;
    let units = job.units;
    let source = bag.map_or(Source::Typed, |bag| source_of(bag, BagField::Water));
    let working = Working::new("Water into one bag").line("water into one bag", "", write_water(wanted, units), source);
    if water <= Mass::default() {
        return Ok(working.of(wanted));
    }
    let poured = wanted - water / limits::water_density();
    if poured <= Volume::default() {
        return Err(Waiting::at(place, proportion::AdditiveProblem::TooWet.says()));
    }
    Ok(working
        .line(
            "water of the bag − water in its additives",
            format!(
                "{} − {}",
                write_water(wanted, units),
                write_dose(Dose::Volume(water / limits::water_density()), units)
            ),
            write_water(poured, units),
            Source::Practice,
        )
        .of(poured))
}

/// All water in a mix to its dry mass, additives left out.
fn water_to_dry(job: &Job, index: usize) -> Known<Figure<f64>> {
    let place = |field| FieldPath::Bag(index, field);
    let mass = read::positive_mass(job, place(BagField::Mass));
    let (mass, water) = both(mass, read::positive_volume(job, place(BagField::Water)))?;
    let water = water * limits::water_density();
    let ratio = (water / mass).value;
    let write = |mass| write_mass(mass, job.units);
    Ok(Working::new("Water to dry mix")
        .line(
            "water into one bag ÷ dry mass of one bag",
            format!("{} ÷ {}", write(water), write(mass)),
            write_percent(ratio),
            Source::Arithmetic,
        )
        .of(ratio))
}

/// Density of the fresh mix of a bag: everything that goes in, over what comes out.
///
/// Additives count where their dose is a mass; a dose by volume is small beside the water.
///
/// # Errors
/// What it waits for: mass, water or yield of the bag, or a field of the recipe.
pub(crate) fn fresh_density(job: &Job, index: usize, bag: &Bag) -> Known<Figure<MassDensity>> {
    if let Some(recipe) = &bag.recipe {
        return scratch::by_volume(job, index, recipe).map(|mix| mix.density(job.units));
    }
    let place = |field| FieldPath::Bag(index, field);
    let ((mass, water), yields) = both(
        both(read::positive_mass(job, place(BagField::Mass)), read::positive_volume(job, place(BagField::Water))),
        read::positive_volume(job, place(BagField::Yield)),
    )?;
    // Water in them is poured less.
    let additives = brought(job, index, bag).map_or_else(|_| Mass::default(), |(masses, water)| masses - water);
    let additives = if additives > Mass::default() { additives } else { Mass::default() };
    let water_mass = water * limits::water_density();
    let in_all = mass + water_mass + additives;
    let density: MassDensity = in_all / yields;
    if !density.value.is_finite() {
        let place = place(BagField::Yield);
        return Err(Waiting::at(place, format!("{}: too little for its mass.", read::name_of(job, place))));
    }
    let units = job.units;
    let write = |mass| write_mass(mass, units);
    Ok(Working::new("Density of the fresh mix")
        .line("dry mass of one bag", "", write(mass), source_of(bag, BagField::Mass))
        .line("water into one bag", "", write_water(water, units), source_of(bag, BagField::Water))
        .line(
            "its mass: water × density of water",
            format!("{} × {}", write_water(water, units), write_density(limits::water_density(), units)),
            write(water_mass),
            limits::WATER,
        )
        .line("volume that one bag gives", "", write_volume(yields, units), source_of(bag, BagField::Yield))
        .line(
            "(bag + water + additives by mass) ÷ yield",
            format!(
                "({} + {} + {}) ÷ {}",
                write(mass),
                write(water_mass),
                write(additives),
                write_volume(yields, units)
            ),
            write_density(density, units),
            limits::YIELD,
        )
        .of(density))
}

/// Whole bags for a share of bags: float noise above a whole number is not a bag more.
///
/// `None` above [`limits::MOST_BAGS`] and for what is not a number.
pub fn whole_bags(share: f64) -> Option<u32> {
    // NaN fails this too.
    if !(0.0..=limits::MOST_BAGS).contains(&share) {
        return None;
    }
    // In range by the line above.
    Some((share * (1.0 - crate::measure::COUNT_TOLERANCE)).ceil() as u32)
}

fn bags_for(
    job: &Job,
    index: usize,
    bag: &Bag,
    title: impl Into<Label>,
    volume: &Figure<Volume>,
    yields: Volume,
) -> Known<Figure<u32>> {
    let share: f64 = (volume.value / yields).into();
    let Some(bags) = whole_bags(share) else {
        let place = FieldPath::Bag(index, BagField::Yield);
        let says = format!("{}: this would take more bags than can be right.", read::name_of(job, place));
        return Err(Waiting::at(place, says));
    };
    let units = job.units;
    Ok(Working::new(title)
        .after(&volume.working)
        .line("volume that one bag gives", "", write_volume(yields, units), source_of(bag, BagField::Yield))
        .line(
            "volume ÷ yield, rounded up to whole bags",
            format!(
                "{} ÷ {} = {}",
                write_volume(volume.value, units),
                write_volume(yields, units),
                write_number(share, 3)
            ),
            write_count(bags, "bag", "bags"),
            Source::Arithmetic,
        )
        .of(bags))
}

impl Pour {
    /// What has to be poured for the piece with that index.
    ///
    /// # Errors
    /// What it waits for: geometry, spare, the bag's mass, water or yield, or a field of the recipe.
    pub fn of(top: &Top, filling: &Filling, job: &Job, piece: usize) -> Known<Self> {
        let net = filling.net.clone();
        let spare = read::percent(job, FieldPath::Piece(piece, PieceField::Spare));
        let bag = bag_of(job, piece).and_then(|(index, bag)| {
            let yields = match bag.recipe {
                Some(_) => Ok(Volume::default()),
                None => read::positive_volume(job, FieldPath::Bag(index, BagField::Yield)),
            };
            both(yields, filling.fresh.clone()).map(|parts| (index, bag, parts))
        });
        let ((net, spare), (index, bag, (yields, fresh_density))) = both(both(net, spare), bag)?;
        let with_spare = net.value * (1.0 + spare);
        let units = job.units;
        let with_spare = Working::new("Concrete to mix, spare included")
            .after(&net.working)
            .line(
                "concrete in the form × (1 + spare)",
                format!("{} × (1 + {})", write_volume(net.value, units), write_percent(spare)),
                write_volume(with_spare, units),
                Source::Practice,
            )
            .of(with_spare);
        let (loads, coats) = match &bag.recipe {
            Some(recipe) => {
                let cast = form::cast_thickness(top, job, piece)?.value;
                let coats = scratch::coats(job, index, recipe, with_spare.value, cast)?;
                (scratch::batches(job, index, &with_spare, &coats), Some(coats))
            }
            None => (bags_for(job, index, bag, "Bags for this piece", &with_spare, yields)?, None),
        };
        Ok(Self { bag: index, net, with_spare, loads, coats, fresh_density })
    }
}

/// One dose as a share of another that is measured the same way.
pub(crate) fn share_of(dose: Dose, of: Dose) -> Option<f64> {
    let share = match (dose, of) {
        (Dose::Mass(dose), Dose::Mass(of)) => (dose / of).value,
        (Dose::Volume(dose), Dose::Volume(of)) => (dose / of).value,
        _ => return None,
    };
    share.is_finite().then_some(share)
}

/// What the maker calls an additive, or its number.
fn additive_name(bag: &Bag, additive: usize) -> String {
    match bag.additives.get(additive) {
        Some(typed) if !typed.name.is_blank() => typed.name.text().trim().to_owned(),
        _ => format!("Additive {}", additive + 1),
    }
}
