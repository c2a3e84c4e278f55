//! A mix made from scratch, as the job has it: from what was typed to what is weighed into one batch.

use super::proportion::{
    self, Added, AdditiveProblem, Air, Gravities, Liquid, Materials, Moisture, ProportionProblem, Proportions, Role,
    Weighed,
};
use super::{additive_name, whole_bags};
use crate::job::read::{self, both, optional};
use crate::job::{AdditiveField, AirFor, BagField, FieldPath, Job, PourField, Recipe, RecipeField, RecipeKind};
use crate::measure::exact::cubic_feet;
use crate::measure::{Length, Mass, Units, Volume, write_count, write_mass, write_number, write_volume, write_weighed};
use crate::mix::limits;
use crate::working::{Figure, Known, Source, Waiting, Working};
use uom::si::volume::cubic_meter;

/// One coat of a piece, in batches that are all alike.
#[derive(Clone, Debug, PartialEq)]
pub struct Coat {
    /// "Face coat" or "Backer"; empty where a piece is of one mix.
    pub name: &'static str,
    /// Batches of it in each part that is poured by itself.
    pub batches: u32,
    /// What goes into one batch, to the last crumb.
    pub batch: Proportions,
    /// The same in steps of the scale.
    pub weighed: Weighed,
}

impl Coat {
    /// Water into one batch, as it is weighed.
    pub fn water(&self) -> Mass {
        self.weighed.part(Role::Water)
    }
}

/// A piece of a mix made from scratch.
#[derive(Clone, Debug, PartialEq)]
pub struct Coats {
    /// Parts that are poured each by itself, all alike.
    pub parts: u32,
    /// What the mixer takes at a time.
    pub holds: Volume,
    /// The coats of each, in the order in which they go in.
    pub coats: Vec<Coat>,
}

impl Coats {
    /// Batches in each part.
    pub fn batches(&self) -> u32 {
        self.coats.iter().fold(0, |sum, coat| sum.saturating_add(coat.batches))
    }

    /// Batches of the face coat in each part; nothing where a piece is of one mix.
    pub fn face(&self) -> Option<u32> {
        self.coats.first().filter(|_| self.coats.len() > 1).map(|coat| coat.batches)
    }

    /// Batches of the face coat, where there is one, and of all coats in each part if the piece were poured in so many,
    /// since every coat begins with a batch of its own; nothing where they are more than can be.
    pub fn batches_in(&self, parts: u32) -> Option<(Option<u32>, u32)> {
        let of_coat = |coat: &Coat| {
            let all = coat.batch.volume * f64::from(self.in_all(coat));
            whole_bags((all / f64::from(parts) / self.holds).value).map(|batches| batches.max(1))
        };
        let of_coats = self.coats.iter().map(of_coat).collect::<Option<Vec<u32>>>()?;
        let face = of_coats.first().copied().filter(|_| of_coats.len() > 1);
        let batches: u32 = of_coats.iter().sum();
        let most = parts.saturating_mul(batches) as usize;
        (most <= limits::MOST_BATCHES).then_some((face, batches))
    }

    /// Batches of that coat in all parts together.
    pub fn in_all(&self, coat: &Coat) -> u32 {
        self.parts.saturating_mul(coat.batches)
    }
}

/// What a part is called in that mix.
pub fn part_name(job: &Job, bag: usize, role: Role) -> String {
    match (role, job.bags.get(bag)) {
        (Role::Additive(index), Some(bag)) => additive_name(bag, index),
        _ => role.name().to_owned(),
    }
}

/// What densities and shares are reckoned for: a cubic yard, or a cubic metre in a metric job.
fn basis(units: Units) -> Volume {
    if units == Units::Inch { cubic_feet(27.0) } else { Volume::new::<cubic_meter>(1.0) }
}

/// The mix for that volume. With `backs` it is what backs a face coat, where there is one.
fn made(job: &Job, bag: usize, recipe: &Recipe, backs: bool, volume: Volume) -> Known<Proportions> {
    let at = |problem| waits(job, bag, recipe, problem);
    let plain = match recipe.kind {
        RecipeKind::Concrete => concrete(job, bag, recipe)?,
        RecipeKind::Mortar | RecipeKind::GlassFibre => {
            let mut mix = by_ratio(job, bag, recipe, backs)?.proportions(volume, job.units).map_err(at)?;
            say_sources(&mut mix, recipe, job.units);
            mix
        }
    };
    let beside = beside(job, bag, recipe, plain.cement)?;
    if beside.is_empty() && plain.volume == volume {
        return Ok(plain);
    }
    plain.with(beside, job.units).and_then(|mix| mix.scaled_to(volume, job.units)).map_err(at)
}

/// Says of every ratio that stands as the usual mix of its kind has it that it is from memory.
fn say_sources(mix: &mut Proportions, recipe: &Recipe, units: Units) {
    for part in &mut mix.parts {
        let field = match part.role {
            Role::Sand => RecipeField::Sand,
            Role::Water => RecipeField::Water,
            Role::Polymer => RecipeField::Polymer,
            Role::Fibre => RecipeField::Fibre,
            _ => continue,
        };
        if let Some(line) = part.mass.working.said_mut().last().filter(|_| recipe.is_usual(field, units)) {
            line.source = Source::Memory;
        }
    }
}

/// Portland concrete for a cubic yard or metre, without what goes in beside it.
fn concrete(job: &Job, bag: usize, recipe: &Recipe) -> Known<Proportions> {
    let at = |field| FieldPath::Recipe(bag, field);
    let ratio = |field| read::positive_ratio(job, at(field));
    let moisture = |total, absorbs| moisture(job, bag, total, absorbs);
    let sizes = both(
        read::positive_length(job, at(RecipeField::Slump)),
        read::positive_length(job, at(RecipeField::StoneSize)),
    );
    let strength = read::positive_pressure(job, at(RecipeField::Strength));
    let most = optional(job, at(RecipeField::MostWater), read::positive_ratio);
    let stone = both(read::positive_density(job, at(RecipeField::StoneBulk)), ratio(RecipeField::StoneGravity));
    let sand = both(ratio(RecipeField::Fineness), ratio(RecipeField::SandGravity));
    let moistures = both(
        moisture(RecipeField::StoneMoisture, RecipeField::StoneAbsorbs),
        moisture(RecipeField::SandMoisture, RecipeField::SandAbsorbs),
    );
    let wanted = both(sizes, both(strength, most));
    let solids = both(both(stone, sand), both(moistures, ratio(RecipeField::CementGravity)));
    let (((slump, stone_size), (strength, most_water_to_cement)), (solids, (moistures, cement_gravity))) =
        both(wanted, solids)?;
    let ((stone_bulk, stone_gravity), (fineness, sand_gravity)) = solids;
    let (stone_moisture, sand_moisture) = moistures;
    let air = match recipe.air_for {
        AirFor::Indoors => Air::Entrapped,
        AirFor::Outdoors => Air::Mild,
        AirFor::Frost => Air::Moderate,
        AirFor::FrostAndSalt => Air::Severe,
    };
    let less_water = less_water(job, bag)?;
    let wanted = proportion::Concrete { slump, stone_size, strength, air, most_water_to_cement, less_water };
    let materials =
        Materials { cement_gravity, stone_gravity, stone_bulk, stone_moisture, sand_gravity, fineness, sand_moisture };
    proportion::concrete(&wanted, &materials, job.units).map_err(|problem| waits(job, bag, recipe, problem))
}

/// What the additives that go in save of the mixing water, as a share: one after the other.
fn less_water(job: &Job, bag: usize) -> Known<f64> {
    let additives = job.bags.get(bag).map_or(0, |bag| bag.additives.len());
    let mut left = 1.0;
    for index in 0..additives {
        let place = |field| FieldPath::Additive(bag, index, field);
        let share = |field| optional(job, place(field), read::percent).map(Option::unwrap_or_default);
        let (dose, saves) = both(share(AdditiveField::OfCement), share(AdditiveField::LessWater))?;
        if dose <= 0.0 {
            continue;
        }
        left *= 1.0 - saves;
        let most = limits::LESS_WATER_MOST * (1.0 + crate::measure::COUNT_TOLERANCE);
        if saves < 0.0 || 1.0 - left > most {
            return Err(Waiting::at(place(AdditiveField::LessWater), ProportionProblem::LessWater.says()));
        }
    }
    Ok(1.0 - left)
}

/// Water on an aggregate; where it is not typed, as much as it takes in.
fn moisture(job: &Job, bag: usize, total: RecipeField, absorbs: RecipeField) -> Known<Moisture> {
    let share = |field| optional(job, FieldPath::Recipe(bag, field), read::percent);
    both(share(total), share(absorbs)).map(|(total, absorbs)| {
        let absorbed = absorbs.unwrap_or_default();
        Moisture { total: total.unwrap_or(absorbed), absorbed }
    })
}

/// Mortar, face coat or backer by the ratios that were typed.
fn by_ratio(job: &Job, bag: usize, recipe: &Recipe, backs: bool) -> Known<proportion::Recipe> {
    let at = |field| FieldPath::Recipe(bag, field);
    let ratio = |field| read::positive_ratio(job, at(field));
    let share = |field| optional(job, at(field), read::percent).map(Option::unwrap_or_default);
    let liquid = |share_at, solids_at| {
        both(share(share_at), optional(job, at(solids_at), read::percent))
            .map(|(share, solids)| (share > 0.0).then_some(Liquid { share, solids: solids.unwrap_or(1.0) }))
    };
    let with_polymer = recipe.kind == RecipeKind::GlassFibre;
    let polymer = if with_polymer { liquid(RecipeField::Polymer, RecipeField::PolymerSolids) } else { Ok(None) };
    let fibre = if with_polymer && backs { share(RecipeField::Fibre) } else { Ok(0.0) };
    let liquids = both(polymer, liquid(RecipeField::FlowAid, RecipeField::FlowAidSolids));
    let shares = both(both(share(RecipeField::Pigment), fibre), share(RecipeField::Air));
    let gravities = both(ratio(RecipeField::CementGravity), ratio(RecipeField::SandGravity));
    let ratios = both(ratio(RecipeField::Sand), ratio(RecipeField::Water));
    let sand_moisture = moisture(job, bag, RecipeField::SandMoisture, RecipeField::SandAbsorbs);
    let ((((sand, water), gravities), ((polymer, flow_aid), ((pigment, fibre), air))), sand_moisture) =
        both(both(both(ratios, gravities), both(liquids, shares)), sand_moisture)?;
    let gravities = Gravities { cement: gravities.0, sand: gravities.1, ..Gravities::default() };
    Ok(proportion::Recipe { sand, sand_moisture, water, polymer, flow_aid, pigment, fibre, air, gravities })
}

/// What goes in beside a mix with so much cement: additives, and the pigment of a concrete.
fn beside(job: &Job, bag: usize, recipe: &Recipe, cement: Mass) -> Known<Vec<(Role, Added)>> {
    let plain = proportion::Additive {
        name: String::new(),
        dose: 0.0,
        density: limits::water_density(),
        water: 0.0,
        pigment: false,
    };
    let mut found = Vec::new();
    if recipe.kind == RecipeKind::Concrete {
        let place = FieldPath::Recipe(bag, RecipeField::Pigment);
        let share = optional(job, place, read::percent)?.unwrap_or_default();
        let pigment = proportion::Additive {
            name: Role::Pigment.name().to_owned(),
            dose: share,
            density: limits::water_density() * Gravities::default().pigment,
            pigment: true,
            ..plain.clone()
        };
        let added = pigment.added(cement, job.units).map_err(|problem| Waiting::at(place, problem.says()))?;
        found.push((Role::Pigment, added));
    }
    let additives = job.bags.get(bag).map_or(&[][..], |bag| &bag.additives);
    for index in 0..additives.len() {
        let place = |field| FieldPath::Additive(bag, index, field);
        let share = |field| optional(job, place(field), read::percent).map(Option::unwrap_or_default);
        let (dose, water) = both(share(AdditiveField::OfCement), share(AdditiveField::Water))?;
        let additive =
            proportion::Additive { name: part_name(job, bag, Role::Additive(index)), dose, water, ..plain.clone() };
        let at = |problem: AdditiveProblem| Waiting::at(place(AdditiveField::OfCement), problem.says());
        found.push((Role::Additive(index), additive.added(cement, job.units).map_err(at)?));
    }
    found.retain(|(_, added)| added.mass.value > Mass::default());
    Ok(found)
}

/// A problem of the proportions, at the field that it comes from.
fn waits(job: &Job, bag: usize, recipe: &Recipe, problem: ProportionProblem) -> Waiting {
    let at = |field| FieldPath::Recipe(bag, field);
    let share = |field| read::percent(job, at(field)).ok();
    let concrete = recipe.kind == RecipeKind::Concrete;
    let field = match problem {
        ProportionProblem::Slump => RecipeField::Slump,
        ProportionProblem::StoneSize => RecipeField::StoneSize,
        // Met where it is read, at the additive's own field.
        ProportionProblem::LessWater => RecipeField::Slump,
        ProportionProblem::Strength => RecipeField::Strength,
        ProportionProblem::Fineness => RecipeField::Fineness,
        ProportionProblem::NoRoomForSand => RecipeField::StoneBulk,
        ProportionProblem::TooMuchPigment => RecipeField::Pigment,
        ProportionProblem::TooWet if concrete => RecipeField::SandMoisture,
        ProportionProblem::NoNumber if concrete => {
            if share(RecipeField::StoneMoisture).is_some_and(|share| share >= 1.0) {
                RecipeField::StoneMoisture
            } else {
                RecipeField::SandMoisture
            }
        }
        ProportionProblem::TooWet if share(RecipeField::SandMoisture).is_some_and(|share| share > 0.0) => {
            RecipeField::SandMoisture
        }
        ProportionProblem::TooWet => RecipeField::Water,
        ProportionProblem::NoNumber => {
            let half = |field| share(field).is_some_and(|share| share >= 0.5);
            let nothing = |field| share(field).is_some_and(|share| share <= 0.0);
            let all = |field| share(field).is_some_and(|share| share >= 1.0);
            match () {
                () if all(RecipeField::SandMoisture) => RecipeField::SandMoisture,
                () if all(RecipeField::SandAbsorbs) => RecipeField::SandAbsorbs,
                () if half(RecipeField::Fibre) => RecipeField::Fibre,
                () if half(RecipeField::Air) => RecipeField::Air,
                () if nothing(RecipeField::PolymerSolids) => RecipeField::PolymerSolids,
                () if nothing(RecipeField::FlowAidSolids) => RecipeField::FlowAidSolids,
                () => RecipeField::Sand,
            }
        }
    };
    Waiting::at(at(field), problem.says())
}

/// The mix for a cubic yard, or a cubic metre: what densities and shares follow from. Of a piece with a face coat it
/// is what backs it, which is nearly all of it.
pub(super) fn by_volume(job: &Job, bag: usize, recipe: &Recipe) -> Known<Proportions> {
    made(job, bag, recipe, true, basis(job.units))
}

/// The coats of a piece of that much mix, cast so thick.
pub(super) fn coats(job: &Job, bag: usize, recipe: &Recipe, volume: Volume, cast: Length) -> Known<Coats> {
    let at = |field| FieldPath::Recipe(bag, field);
    let holds = read::positive_volume(job, at(RecipeField::Batch));
    let scale = optional(job, at(RecipeField::Scale), read::positive_mass);
    let parts = optional(job, FieldPath::Pour(PourField::Parts), read::count);
    let face = match recipe.kind {
        RecipeKind::GlassFibre => read::positive_length(job, at(RecipeField::FaceCoat)).map(Some),
        RecipeKind::Concrete | RecipeKind::Mortar => Ok(None),
    };
    let (_, (parts, face)) = both(both(holds, scale), both(parts, face))?;
    let parts = parts.unwrap_or(1).max(1);
    let of_part = volume / f64::from(parts);
    let layers = match face {
        None => vec![("", of_part)],
        Some(face) => {
            let [face, backer] = proportion::layers(of_part / cast, face, cast).map_err(|_| {
                let says =
                    format!("{}: it has to be thinner than the piece.", read::name_of(job, at(RecipeField::FaceCoat)));
                Waiting::at(at(RecipeField::FaceCoat), says)
            })?;
            vec![("Face coat", face), ("Backer", backer)]
        }
    };
    batched(job, bag, recipe, parts, &layers)
}

/// The coats of all pieces of a mix in batches of their own, as they are mixed at one go.
pub(super) fn pooled(job: &Job, bag: usize, recipe: &Recipe, pieces: &[&Coats]) -> Known<Coats> {
    let parts = pieces.first().map_or(1, |coats| coats.parts);
    let of_coat = |index: usize, name: &'static str| {
        let coats = pieces.iter().filter_map(|coats| coats.coats.get(index));
        (name, coats.map(|coat| coat.batch.volume * f64::from(coat.batches)).sum())
    };
    let first = pieces.first().map_or(&[][..], |coats| &coats.coats);
    let layers: Vec<_> = first.iter().enumerate().map(|(index, coat)| of_coat(index, coat.name)).collect();
    batched(job, bag, recipe, parts, &layers)
}

/// Coats of so much each, in every part, in batches that are all alike.
fn batched(job: &Job, bag: usize, recipe: &Recipe, parts: u32, layers: &[(&'static str, Volume)]) -> Known<Coats> {
    let at = |field| FieldPath::Recipe(bag, field);
    let holds = read::positive_volume(job, at(RecipeField::Batch));
    let (holds, scale) = both(holds, read::or_usual(job, at(RecipeField::Scale), read::positive_mass))?;
    let too_many =
        |place| Waiting::at(place, format!("{}: this would take more batches than can be.", read::name_of(job, place)));
    let coat = |&(name, volume): &(&'static str, Volume)| {
        let batches = whole_bags((volume / holds).value).map(|batches| batches.max(1));
        let batches = batches.ok_or_else(|| too_many(at(RecipeField::Batch)))?;
        let batch = made(job, bag, recipe, name != "Face coat", volume / f64::from(batches))?;
        let weighed = Weighed::of(&batch, scale).ok_or_else(|| {
            Waiting::at(
                at(RecipeField::Scale),
                format!("{}: no scale does that.", read::name_of(job, at(RecipeField::Scale))),
            )
        })?;
        Ok(Coat { name, batches, batch, weighed })
    };
    let coats = Coats { parts, holds, coats: read::all(layers.iter().map(coat))? };
    let most = parts.saturating_mul(coats.batches()) as usize;
    let place = if parts > 1 { FieldPath::Pour(PourField::Parts) } else { at(RecipeField::Batch) };
    if most > limits::MOST_BATCHES { Err(too_many(place)) } else { Ok(coats) }
}

/// Batches for a piece, with how they are come by.
pub(crate) fn batches(job: &Job, bag: usize, volume: &Figure<Volume>, coats: &Coats) -> Figure<u32> {
    let units = job.units;
    let count = coats.coats.iter().fold(0u32, |sum, coat| sum.saturating_add(coats.in_all(coat)));
    let holds = read::volume(job, FieldPath::Recipe(bag, RecipeField::Batch)).unwrap_or_default();
    let usual = job.bags.get(bag).and_then(|bag| bag.recipe.as_ref());
    let usual = usual.is_some_and(|recipe| recipe.is_usual(RecipeField::Batch, units));
    let mut working = Working::new("Batches to mix").after(&volume.working).line(
        "the mixer holds",
        "",
        write_volume(holds, units),
        if usual { Source::Practice } else { Source::Typed },
    );
    if coats.parts > 1 {
        working = working.line("parts, each poured by itself", "", coats.parts.to_string(), Source::Typed);
    }
    for coat in &coats.coats {
        let of = if coat.name.is_empty() { "volume".to_owned() } else { coat.name.to_lowercase() };
        let all = coat.batch.volume * f64::from(coat.batches);
        working = working.line(
            format!("{of} ÷ what the mixer holds, rounded up; the batches are all alike"),
            format!("{} ÷ {}", write_volume(all, units), write_volume(holds, units)),
            format!("{} of {}", write_count(coat.batches, "batch", "batches"), write_volume(coat.batch.volume, units)),
            Source::Arithmetic,
        );
    }
    let numbers: Vec<_> = coats.coats.iter().map(|coat| coats.in_all(coat).to_string()).collect();
    working
        .line("all batches", numbers.join(" + "), write_count(count, "batch", "batches"), Source::Arithmetic)
        .of(count)
}

/// What one material of a mix comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct Material {
    /// What it is.
    pub role: Role,
    /// What it is called.
    pub name: String,
    /// As it is weighed in, over all batches: exactly their sum.
    pub mass: Figure<Mass>,
}

/// Everything that a mix takes, in the order in which it is met, summed over its batches. `prefix` says whose they are.
pub(super) fn materials(job: &Job, bag: usize, prefix: &str, coats: &Coats) -> Vec<Material> {
    let mut found: Vec<Material> = Vec::new();
    for coat in &coats.coats {
        let batches = coats.in_all(coat);
        for (role, a_batch) in &coat.weighed.parts {
            let mass = *a_batch * f64::from(batches);
            let index = found.iter().position(|one| one.role == *role).unwrap_or_else(|| {
                let name = part_name(job, bag, *role);
                let mass = Working::new(format!("{name} in all")).of(Mass::default());
                found.push(Material { role: *role, name, mass });
                found.len() - 1
            });
            let Some(material) = found.get_mut(index) else { continue };
            let sum = material.mass.value + mass;
            let of = [prefix, &coat.name.to_lowercase()].concat();
            let of = if of.is_empty() { "batches × a batch".to_owned() } else { format!("{of} batches × a batch") };
            let write = |mass| write_weighed(mass, job.units);
            let before = material.mass.value;
            let before = if before > Mass::default() { write(before) + " + " } else { String::new() };
            let numbers = format!("{before}{batches} × {}", write(*a_batch));
            let working = std::mem::replace(&mut material.mass.working, Working::new(""));
            material.mass = working.line(of, numbers, write(sum), Source::Arithmetic).of(sum);
        }
    }
    found
}

/// Bags of cement for so much of it.
pub(super) fn cement_bags(job: &Job, bag: usize, cement: &Figure<Mass>) -> Known<Figure<u32>> {
    let place = FieldPath::Recipe(bag, RecipeField::CementBag);
    let each = read::positive_mass(job, place)?;
    let share = (cement.value / each).value;
    let Some(bags) = whole_bags(share) else {
        let says = format!("{}: this would take more bags than can be right.", read::name_of(job, place));
        return Err(Waiting::at(place, says));
    };
    let write = |mass| write_mass(mass, job.units);
    Ok(Working::new(format!("Bags of cement for {}", read::bag_name(job, bag)))
        .after(&cement.working)
        .line(
            "cement ÷ a bag, rounded up to whole bags",
            format!("{} ÷ {} = {}", write(cement.value), write(each), write_number(share, 3)),
            write_count(bags, "bag", "bags"),
            Source::Arithmetic,
        )
        .of(bags))
}

/// Where the density of a mix made from scratch is to be looked for.
pub(super) fn density_at(bag: usize, recipe: &Recipe) -> FieldPath {
    match recipe.kind {
        RecipeKind::Concrete => FieldPath::Recipe(bag, RecipeField::StoneBulk),
        RecipeKind::Mortar | RecipeKind::GlassFibre => FieldPath::Recipe(bag, RecipeField::Water),
    }
}

/// The place that says how much is mixed at a time.
pub(crate) fn batch_at(job: &Job, bag: usize) -> FieldPath {
    match job.bags.get(bag).and_then(|bag| bag.recipe.as_ref()) {
        Some(_) => FieldPath::Recipe(bag, RecipeField::Batch),
        None => FieldPath::Bag(bag, BagField::Yield),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Where the line of that part comes from that multiplies its ratio.
    fn source(job: &Job, role: Role) -> Source {
        let recipe = job.bags[0].recipe.as_ref().expect("a recipe");
        let mix = by_volume(job, 0, recipe).expect("a mix");
        let part = mix.parts.iter().find(|part| part.role == role).expect("such a part");
        part.mass.working.lines(Units::Inch).last().expect("a line").source
    }

    #[test]
    fn the_ratios_of_a_usual_mix_were_typed_by_nobody() {
        let mut job = Job::new("scratch", Units::Inch);
        job.bags[0].recipe = Some(Recipe::new(RecipeKind::Mortar, Units::Inch));
        assert_eq!([source(&job, Role::Sand), source(&job, Role::Water)], [Source::Memory; 2]);
        let recipe = job.bags[0].recipe.as_mut().expect("a recipe");
        assert!(recipe.is_usual(RecipeField::Batch, Units::Inch), "nobody typed what the mixer holds");
        (recipe.sand, recipe.batch) = ("3".into(), "1 ft³".into());
        assert!(!recipe.is_usual(RecipeField::Batch, Units::Inch));
        assert_eq!([source(&job, Role::Sand), source(&job, Role::Water)], [Source::Typed, Source::Memory]);
    }
}
