//! What is poured: the bag catalogue, volumes, bags, water, additives.

mod advice;
mod catalogue;
pub mod proportion;

pub(crate) use advice::{advise_bag, advise_piece};
pub use catalogue::{catalogue, source_of};

use crate::form::{self, Form};
use crate::job::read::{self, all, both};
use crate::job::{AdditiveField, Bag, BagField, Job, PieceField, Place};
use crate::limits;
use crate::measure::{
    Area, Dose, Mass, MassDensity, Volume, write_area, write_count, write_density, write_dose, write_length,
    write_mass, write_number, write_percent, write_volume, write_water,
};
use crate::top::Top;
use crate::working::{Figure, Known, Source, Waiting, Working};
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
    /// Bags to mix for this piece alone, rounded up.
    pub bags: Figure<u32>,
    /// Density of the fresh mix, by mass and yield.
    pub fresh_density: Figure<MassDensity>,
}

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

/// What to order of one bag, for all pieces that are cast from it.
#[derive(Clone, Debug, PartialEq)]
pub struct Order {
    /// Index of the bag among the job's.
    pub bag: usize,
    /// Volume of all its pieces, spare included.
    pub volume: Figure<Volume>,
    /// Whole bags.
    pub bags: Figure<u32>,
    /// What the last bag leaves over, when mixed.
    pub left_over: Figure<Volume>,
    /// Water into every bag.
    pub water_a_bag: Volume,
    /// Water for all bags.
    pub water: Figure<Volume>,
    /// All water that is in the mix, to its dry mass; of a bag the cement is not known.
    pub water_to_dry: Figure<f64>,
    /// Additives, in the order of the bag; unreadable doses wait in the field itself.
    pub additives: Vec<AdditiveOrder>,
}

/// The bag that a piece is cast from, and its index among the job's.
///
/// # Errors
/// A need at the piece's name, when no bag of the job carries that id.
pub(crate) fn bag_of(job: &Job, piece: usize) -> Known<(usize, &Bag)> {
    let id = job.pieces.get(piece).map_or("", |piece| piece.bag.as_str());
    job.bag(id).ok_or_else(|| {
        let says = format!("{}: choose the mix it is cast from.", read::piece_name(job, piece));
        Waiting::at(Place::Piece(piece, PieceField::Name), says)
    })
}

/// The form's clear space less knockouts and less what the liner takes.
///
/// A liner is taken to stand as high as the cast; the little that eased edges take is left in.
///
/// # Errors
/// What it waits for: the area that is left, the thickness or the grinding.
pub(crate) fn net_volume(top: &Top, job: &Job, piece: usize) -> Known<Figure<Volume>> {
    let (area, cast) = both(top.area.clone(), form::cast_thickness(top, job, piece))?;
    let net = area.value * cast.value;
    let units = job.units;
    let working = Working::new("Concrete in the form").after(&cast.working);
    let form = Form::of(top, job, piece);
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
        let place = |field| Place::Additive(index, additive, field);
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
    let place = Place::Bag(index, BagField::Water);
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
    let place = |field| Place::Bag(index, field);
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
/// What it waits for: mass, water or yield of the bag.
pub(crate) fn fresh_density(job: &Job, index: usize, bag: &Bag) -> Known<Figure<MassDensity>> {
    let place = |field| Place::Bag(index, field);
    let ((mass, water), yields) = both(
        both(read::positive_mass(job, place(BagField::Mass)), read::positive_volume(job, place(BagField::Water))),
        read::positive_volume(job, place(BagField::Yields)),
    )?;
    // Water in them is poured less.
    let additives = brought(job, index, bag).map_or_else(|_| Mass::default(), |(masses, water)| masses - water);
    let additives = if additives > Mass::default() { additives } else { Mass::default() };
    let water_mass = water * limits::water_density();
    let in_all = mass + water_mass + additives;
    let density: MassDensity = in_all / yields;
    if !density.value.is_finite() {
        let place = place(BagField::Yields);
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
        .line("volume that one bag gives", "", write_volume(yields, units), source_of(bag, BagField::Yields))
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
    Some((share * (1.0 - limits::COUNT_TOLERANCE)).ceil() as u32)
}

fn bags_for(
    job: &Job,
    index: usize,
    bag: &Bag,
    title: &str,
    volume: &Figure<Volume>,
    yields: Volume,
) -> Known<Figure<u32>> {
    let share: f64 = (volume.value / yields).into();
    let Some(bags) = whole_bags(share) else {
        let place = Place::Bag(index, BagField::Yields);
        let says = format!("{}: this would take more bags than can be right.", read::name_of(job, place));
        return Err(Waiting::at(place, says));
    };
    let units = job.units;
    Ok(Working::new(title)
        .after(&volume.working)
        .line("volume that one bag gives", "", write_volume(yields, units), source_of(bag, BagField::Yields))
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
    /// What it waits for: geometry, spare, or the bag's mass, water or yield.
    pub fn of(top: &Top, job: &Job, piece: usize) -> Known<Self> {
        let net = net_volume(top, job, piece);
        let spare = read::percent(job, Place::Piece(piece, PieceField::Waste));
        let bag = bag_of(job, piece).and_then(|(index, bag)| {
            let yields = read::positive_volume(job, Place::Bag(index, BagField::Yields));
            both(yields, fresh_density(job, index, bag)).map(|parts| (index, bag, parts))
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
        let bags = bags_for(job, index, bag, "Bags for this piece", &with_spare, yields)?;
        Ok(Self { bag: index, net, with_spare, bags, fresh_density })
    }
}

/// What to order of each bag that a piece refers to, in the order of the job's bags.
///
/// The pieces of one bag share it, and the sum is rounded up once.
pub(crate) fn orders(job: &Job, pours: &[Known<Pour>]) -> Vec<Known<Order>> {
    let used: Vec<_> = (0..job.pieces.len()).map(|piece| bag_of(job, piece).ok().map(|(index, _)| index)).collect();
    job.bags
        .iter()
        .enumerate()
        .filter(|(index, _)| used.contains(&Some(*index)))
        .map(|(index, bag)| {
            let pieces = pours.iter().enumerate().filter(|(piece, _)| used.get(*piece) == Some(&Some(index)));
            order(job, index, bag, all(pieces.map(|(piece, pour)| pour.clone().map(|pour| (piece, pour)))))
        })
        .collect()
}

fn order(job: &Job, index: usize, bag: &Bag, pours: Known<Vec<(usize, Pour)>>) -> Known<Order> {
    let yields = read::positive_volume(job, Place::Bag(index, BagField::Yields));
    let water_a_bag = both(water_to_pour(job, index), water_to_dry(job, index));
    let (pours, (yields, water_a_bag)) = both(pours, both(yields, water_a_bag))?;
    let units = job.units;
    let name = read::bag_name(job, index);

    let volume: Volume = pours.iter().map(|(_, pour)| pour.with_spare.value).sum();
    let mut working = Working::new(format!("Volume of {name}"));
    if let [(_, only)] = pours.as_slice() {
        working = working.after(&only.with_spare.working);
    } else {
        for (piece, pour) in &pours {
            let formula = format!("{}, spare included", read::piece_name(job, *piece));
            working = working.line(formula, "", write_volume(pour.with_spare.value, units), Source::Arithmetic);
        }
        let parts: Vec<_> =
            pours.iter().map(|(_, pour)| write_volume(pour.with_spare.value, units).to_string()).collect();
        let sum = write_volume(volume, units);
        working = working.line("all pieces of this mix", parts.join(" + "), sum, Source::Arithmetic);
    }
    let volume = working.of(volume);
    let bags = bags_for(job, index, bag, &format!("Bags of {name}"), &volume, yields)?;

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
            let a_bag = read::dose(job, Place::Additive(index, additive, AdditiveField::Dose)).ok()?;
            let in_all = match a_bag {
                Dose::Volume(volume) => Dose::Volume(count * volume),
                Dose::Mass(mass) => Dose::Mass(count * mass),
            };
            let name = additive_name(bag, additive);
            Some(AdditiveOrder { name, a_bag, in_all })
        })
        .collect();
    Ok(Order { bag: index, volume, bags, left_over, water_a_bag, water, water_to_dry, additives })
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
