//! What is poured: the catalogue of mixes, volumes, bags, water, additives; and mixes made from scratch.

mod advice;
mod catalogue;
mod demo;
mod inputs;
pub mod limits;
mod order;
pub mod proportion;
mod scratch;
#[cfg(test)]
mod tests;

pub(crate) use advice::{advise_coats, advise_mix, advise_piece, advise_scale};
pub use catalogue::{catalogue, source_of};
pub use demo::demo;
pub(crate) use inputs::bag_of;
pub use inputs::{
    AdditiveInputs, BagInputs, LiquidInputs, MixInputs, MoistureInputs, NamedPiece, OrderInputs, PieceInputs,
    RecipeInputs, Supplied, part_name,
};
pub(crate) use order::orders;
pub use order::{AdditiveOrder, Bagged, Order, Scratch, Supply};
pub(crate) use scratch::batches as batches_of;
pub use scratch::{Coat, Coats, Material};

use crate::form::Form;
use crate::job::{BagField, FieldPath};
use crate::measure::{Area, Dose, Length, Mass, MassDensity, Quantity, Volume};
use crate::top::Top;
use crate::working::{Figure, Known, Label, Named, Source, Term, Waiting, known_ref, together};
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

/// What fills the form of a piece, spare mix aside.
#[derive(Clone, Debug, PartialEq)]
pub struct Filling {
    /// The concrete in the form.
    pub(crate) net: Known<Figure<Volume>>,
    /// The density of the fresh mix of the bag that it is cast from.
    pub(crate) fresh: Known<Figure<MassDensity>>,
}

impl Filling {
    /// What fills a form; `cast` is the thickness that the piece is cast in, and `mix` what it is cast from.
    pub fn of(top: &Top, form: &Known<Form>, cast: &Known<Figure<Length>>, mix: &Known<MixInputs>) -> Self {
        let fresh = match mix {
            Ok(mix) => fresh_density(mix),
            Err(waiting) => Err(waiting.clone()),
        };
        Self { net: net_volume(top, form, cast), fresh }
    }
}

/// The form's clear space less knockouts and less what the liner takes.
///
/// A liner is taken to stand as high as the cast; the little that eased edges take is left in.
///
/// # Errors
/// What it waits for: the area that is left, the thickness or the grinding.
fn net_volume(top: &Top, form: &Known<Form>, cast: &Known<Figure<Length>>) -> Known<Figure<Volume>> {
    let (area, cast) = together((top.area.clone(), cast.clone()))?;
    let (Ok(outline), Ok(form)) = (&top.outline, form) else {
        let net = area.term() * cast.term();
        return Ok(net.titled("Concrete in the form", Source::Arithmetic));
    };
    // Its own lines stand once, before the first line that it goes into.
    let thick = || cast.value.named("cast thickness");
    let [inside, finished] = [form.clear.area(), outline.area()].map(Area::new::<square_meter>);
    let [clear, outline] = [inside.named("clear area inside the form"), finished.named("area of the outline")];
    let left = area.value.named("area less cutouts and holes");
    let space = (clear.clone() * cast.term()).step("clear space", Source::Arithmetic);
    let liners = ((clear - outline.clone()) * thick()).step("what the liners take", Source::Arithmetic);
    let knockouts = ((outline - left) * thick()).step("what the knockouts take", Source::Arithmetic);
    // The area that is left has been worked out already, and without what cancels out here.
    let net = area.value * cast.value;
    Ok((space - liners - knockouts)
        .by_rule("{}", |parts| parts[0], net)
        .titled("Concrete in the form", Source::Arithmetic))
}

/// What the additives of one bag weigh that are dosed by mass, and the water that all of them bring. One that is
/// dosed by volume is taken to be as dense as water.
fn brought(additives: &[AdditiveInputs]) -> Known<(Mass, Mass)> {
    let (mut masses, mut water) = (Mass::default(), Mass::default());
    for additive in additives {
        let share = additive.water.clone()?;
        match additive.dose.readable() {
            Some(Dose::Mass(mass)) => {
                masses += mass;
                water += mass * share;
            }
            Some(Dose::Volume(volume)) => water += volume * limits::water_density() * share,
            None => {}
        }
    }
    Ok((masses, water))
}

/// The water to pour into one bag of that mix: what the bag wants, less what its additives bring.
///
/// # Errors
/// What it waits for: the bag's water, or the water in an additive.
pub(crate) fn water_to_pour(mix: &MixInputs, bag: &BagInputs) -> Known<Figure<Volume>> {
    let (wanted, (_, water)) = together((bag.water.clone(), brought(&mix.additives)))?;
    let title = "Water into one bag";
    if water <= Mass::default() {
        return Ok(Figure::stated_as(wanted, title, Quantity::Water(wanted), bag.water_source));
    }
    let in_them = water / limits::water_density();
    let wanted = Term::stated_as(wanted, "water that one bag wants", Quantity::Water(wanted), bag.water_source);
    let poured = wanted - Term::named_as(in_them, "water in its additives", Quantity::Dose(Dose::Volume(in_them)));
    if poured.value <= Volume::default() {
        let place = FieldPath::Bag(mix.index, BagField::Water);
        return Err(Waiting::at(place, proportion::AdditiveProblem::TooWet.says()));
    }
    let quantity = Quantity::Water(poured.value);
    Ok(poured.titled_as(title, quantity, Source::Practice))
}

/// All water in a mix to its dry mass, additives left out.
fn water_to_dry(bag: &BagInputs) -> Known<Figure<f64>> {
    let (mass, water) = together((bag.mass.clone(), bag.water.clone()))?;
    let water = Term::named_as(water, "water into one bag", Quantity::Water(water))
        * limits::water_density().named("density of water");
    let ratio = (water / mass.named("dry mass of one bag")).number();
    let quantity = Quantity::Percent(ratio.value);
    Ok(ratio.titled_as("Water to dry mix", quantity, Source::Arithmetic))
}

/// Density of the fresh mix: everything that goes in, over what comes out.
///
/// Additives count where their dose is a mass; a dose by volume is small beside the water.
///
/// # Errors
/// What it waits for: mass, water or yield of the bag, or a field of the recipe.
pub(crate) fn fresh_density(mix: &MixInputs) -> Known<Figure<MassDensity>> {
    let bag = match &mix.supplied {
        Supplied::Scratch(recipe) => return scratch::by_volume(mix, recipe).map(|mix| mix.density()),
        Supplied::Bags(bag) => bag,
    };
    let (mass, water, yields) = together((bag.mass.clone(), bag.water.clone(), bag.yields.clone()))?;
    // Water in them is poured less.
    let additives = brought(&mix.additives).map_or_else(|_| Mass::default(), |(masses, water)| masses - water);
    let additives = if additives > Mass::default() { additives } else { Mass::default() };
    let mass = mass.stated("dry mass of one bag", bag.mass_source);
    let water = Term::stated_as(water, "water into one bag", Quantity::Water(water), bag.water_source);
    let water = (water * limits::water_density().named("density of water")).step("mass of the water", limits::WATER);
    let in_all =
        if additives > Mass::default() { mass + water + additives.named("additives by mass") } else { mass + water };
    let density = in_all / yields.stated("volume that one bag gives", bag.yield_source);
    if !density.value.value.is_finite() {
        return Err(mix.waits_at(FieldPath::Bag(mix.index, BagField::Yield), "too little for its mass."));
    }
    Ok(density.titled("Density of the fresh mix", limits::YIELD))
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

/// [`whole_bags`] as a rule of a working.
fn whole(parts: &[f64]) -> f64 {
    parts.first().and_then(|share| whole_bags(*share)).map_or(f64::NAN, f64::from)
}

/// Waiting at that field of a mix, of which no number of bags can be right.
fn too_many_bags(mix: &MixInputs, place: FieldPath) -> Waiting {
    mix.waits_at(place, "this would take more bags than can be right.")
}

/// Whole bags for a volume.
fn bags_for(
    mix: &MixInputs,
    bag: &BagInputs,
    title: impl Into<Label>,
    volume: &Figure<Volume>,
    yields: Volume,
) -> Known<Figure<u32>> {
    let share = (volume.called("volume") / yields.stated("volume that one bag gives", bag.yield_source)).number();
    let Some(bags) = whole_bags(share.value) else {
        return Err(too_many_bags(mix, FieldPath::Bag(mix.index, BagField::Yield)));
    };
    Ok(share.step("volume in bags", Source::Arithmetic).by_rule("{}, rounded up to whole bags", whole, bags).titled_as(
        title,
        Quantity::Count(bags, "bag", "bags"),
        Source::Arithmetic,
    ))
}

impl Pour {
    /// What has to be poured for a piece that is cast so thick.
    ///
    /// # Errors
    /// What it waits for: geometry, spare, the bag's mass, water or yield, or a field of the recipe.
    pub fn of(filling: &Filling, cast: &Known<Figure<Length>>, inputs: &PieceInputs) -> Known<Self> {
        let mix = known_ref(&inputs.mix).and_then(|mix| {
            let yields = match &mix.supplied {
                Supplied::Scratch(_) => Ok(Volume::default()),
                Supplied::Bags(bag) => bag.yields.clone(),
            };
            together((yields, filling.fresh.clone())).map(|(yields, fresh)| (mix, yields, fresh))
        });
        let (net, spare, (mix, yields, fresh_density)) = together((filling.net.clone(), inputs.spare.clone(), mix))?;
        let spare = Term::named_as(spare, "spare", Quantity::Percent(spare));
        let with_spare = (net.term() * (1.0 + spare)).titled("Concrete to mix, spare included", Source::Practice);
        let (loads, coats) = match &mix.supplied {
            Supplied::Scratch(recipe) => {
                let cast = known_ref(cast)?.value;
                let coats = scratch::coats(mix, recipe, with_spare.value, cast)?;
                (scratch::batches(&with_spare, &coats, recipe.batch_source()), Some(coats))
            }
            Supplied::Bags(bag) => (bags_for(mix, bag, "Bags for this piece", &with_spare, yields)?, None),
        };
        Ok(Self { bag: mix.index, net, with_spare, loads, coats, fresh_density })
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
