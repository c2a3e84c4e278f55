//! A mix made from scratch, as the job has it: from what was typed to what is weighed into one batch.

use super::inputs::{MixInputs, RecipeInputs};
use super::proportion::{
    self, Added, AdditiveProblem, Air, Gravities, Input, Materials, ProportionProblem, Proportions, Role, Weighed,
};
use super::{too_many_bags, whole, whole_bags};
use crate::job::{AdditiveField, AirFor, FieldPath, PourField, RecipeField, RecipeKind};
use crate::measure::exact::cubic_feet;
use crate::measure::{Length, Mass, Quantity, Units, Volume};
use crate::mix::limits;
use crate::working::{Figure, Known, Label, Named, Source, Term, Waiting, all, together};
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

/// The volume that densities and shares are worked out for: a cubic yard, or a cubic metre in a metric job.
fn basis(units: Units) -> Volume {
    if units == Units::Inch { cubic_feet(27.0) } else { Volume::new::<cubic_meter>(1.0) }
}

/// The mix for that volume. With `backs` it is what backs a face coat, where there is one.
fn made(mix: &MixInputs, recipe: &RecipeInputs, backs: bool, volume: Volume) -> Known<Proportions> {
    let at = |problem| waits(mix, recipe, problem);
    let plain = match recipe.kind {
        RecipeKind::Concrete => concrete(mix, recipe)?,
        RecipeKind::Mortar | RecipeKind::GlassFibre => {
            let mut made = by_ratio(recipe, backs)?.proportions(volume).map_err(at)?;
            say_sources(&mut made, recipe);
            made
        }
    };
    let beside = beside(mix, recipe, plain.cement)?;
    if beside.is_empty() && plain.volume == volume {
        return Ok(plain);
    }
    plain.with(beside).and_then(|mix| mix.scaled_to(volume)).map_err(at)
}

/// Says of every ratio that stands as the usual mix of its kind has it that it is from memory.
fn say_sources(mix: &mut Proportions, recipe: &RecipeInputs) {
    for part in &mut mix.parts {
        let field = match part.role {
            Role::Sand => RecipeField::Sand,
            Role::Water => RecipeField::Water,
            Role::Polymer => RecipeField::Polymer,
            Role::Fibre => RecipeField::Fibre,
            _ => continue,
        };
        if recipe.usual.contains(&field) {
            part.mass = part.mass.clone().from(Source::Memory);
        }
    }
}

/// Portland concrete for a cubic yard or metre, without what goes in beside it.
fn concrete(mix: &MixInputs, recipe: &RecipeInputs) -> Known<Proportions> {
    let of = recipe.clone();
    let wanted = together((of.slump, of.stone_size, of.strength.wanted(), of.most_water));
    let solids = together((of.stone_bulk, of.stone_gravity, of.fineness, of.sand_gravity));
    let wet = together((recipe.stone_moisture.known(), recipe.sand_moisture.known(), of.cement_gravity));
    let (wanted, solids, wet) = together((wanted, solids, wet))?;
    let (slump, stone_size, strength, most_water_to_cement) = wanted;
    let (stone_bulk, stone_gravity, fineness, sand_gravity) = solids;
    let (stone_moisture, sand_moisture, cement_gravity) = wet;
    let air = match recipe.air_for {
        AirFor::Indoors => Air::Entrapped,
        AirFor::Outdoors => Air::Mild,
        AirFor::Frost => Air::Moderate,
        AirFor::FrostAndSalt => Air::Severe,
    };
    let less_water = less_water(mix)?;
    let wanted = proportion::Concrete { slump, stone_size, strength, air, most_water_to_cement, less_water };
    let materials =
        Materials { cement_gravity, stone_gravity, stone_bulk, stone_moisture, sand_gravity, fineness, sand_moisture };
    proportion::concrete(&wanted, &materials, mix.units).map_err(|problem| waits(mix, recipe, problem))
}

/// What the additives that go in save of the mixing water, as a share: one after the other.
fn less_water(mix: &MixInputs) -> Known<f64> {
    let mut left = 1.0;
    for (index, additive) in mix.additives.iter().enumerate() {
        let (dose, saves) = together((additive.of_cement.clone(), additive.less_water.clone()))?;
        if dose <= 0.0 {
            continue;
        }
        left *= 1.0 - saves;
        let most = limits::LESS_WATER_MOST * (1.0 + crate::measure::COUNT_TOLERANCE);
        if saves < 0.0 || 1.0 - left > most {
            let place = FieldPath::Additive(mix.index, index, AdditiveField::LessWater);
            return Err(Waiting::at(place, ProportionProblem::LessWater.says()));
        }
    }
    Ok(1.0 - left)
}

/// Mortar, face coat or backer by the ratios that were typed.
fn by_ratio(recipe: &RecipeInputs, backs: bool) -> Known<proportion::Recipe> {
    let of = recipe.clone();
    let with_polymer = recipe.kind == RecipeKind::GlassFibre;
    let polymer = if with_polymer { recipe.polymer.known() } else { Ok(None) };
    let fibre = if with_polymer && backs { of.fibre } else { Ok(0.0) };
    let (sand, water, cement, fine, polymer, flow_aid, pigment, fibre, air, sand_moisture) = together((
        of.sand,
        of.water,
        of.cement_gravity,
        of.sand_gravity,
        polymer,
        recipe.flow_aid.known(),
        of.pigment,
        fibre,
        of.air,
        recipe.sand_moisture.known(),
    ))?;
    let gravities = Gravities { cement, sand: fine, ..Gravities::default() };
    Ok(proportion::Recipe { sand, sand_moisture, water, polymer, flow_aid, pigment, fibre, air, gravities })
}

/// What goes in beside a mix with so much cement: additives, and the pigment of a concrete.
fn beside(mix: &MixInputs, recipe: &RecipeInputs, cement: Mass) -> Known<Vec<(Role, Added)>> {
    let plain = proportion::Additive {
        name: String::new(),
        dose: 0.0,
        density: limits::water_density(),
        water: 0.0,
        pigment: false,
    };
    let mut found = Vec::new();
    if recipe.kind == RecipeKind::Concrete {
        let pigment = proportion::Additive {
            name: Role::Pigment.name().to_owned(),
            dose: recipe.pigment.clone()?,
            density: limits::water_density() * Gravities::default().pigment,
            pigment: true,
            ..plain.clone()
        };
        let place = FieldPath::Recipe(mix.index, RecipeField::Pigment);
        let added = pigment.added(cement).map_err(|problem| Waiting::at(place, problem.says()))?;
        found.push((Role::Pigment, added));
    }
    for (index, additive) in mix.additives.iter().enumerate() {
        let (dose, water) = together((additive.of_cement.clone(), additive.water.clone()))?;
        let place = FieldPath::Additive(mix.index, index, AdditiveField::OfCement);
        let additive = proportion::Additive { name: additive.name.clone(), dose, water, ..plain.clone() };
        let at = |problem: AdditiveProblem| Waiting::at(place, problem.says());
        found.push((Role::Additive(index), additive.added(cement).map_err(at)?));
    }
    found.retain(|(_, added)| added.mass.value > Mass::default());
    Ok(found)
}

/// A problem of the proportions, at the field that it comes from.
fn waits(mix: &MixInputs, recipe: &RecipeInputs, problem: ProportionProblem) -> Waiting {
    let wet_sand = matches!(recipe.sand_moisture.total, Ok(Some(share)) if share > 0.0);
    let field = match problem {
        ProportionProblem::NoNumber(input) => field_of(input),
        ProportionProblem::Slump => RecipeField::Slump,
        ProportionProblem::StoneSize => RecipeField::StoneSize,
        // Met where it is read, at the additive's own field.
        ProportionProblem::LessWater => RecipeField::Slump,
        ProportionProblem::Strength => RecipeField::Strength,
        ProportionProblem::Fineness => RecipeField::Fineness,
        ProportionProblem::NoRoomForSand => RecipeField::StoneBulk,
        ProportionProblem::TooMuchPigment => RecipeField::Pigment,
        ProportionProblem::TooWet if wet_sand || recipe.kind == RecipeKind::Concrete => RecipeField::SandMoisture,
        ProportionProblem::TooWet => RecipeField::Water,
    };
    let place = FieldPath::Recipe(mix.index, field);
    match problem {
        ProportionProblem::NoNumber(_) => Waiting::named(place, problem.says()),
        _ => Waiting::at(place, problem.says()),
    }
}

/// The field that it is typed into.
fn field_of(input: Input) -> RecipeField {
    match input {
        Input::Volume => RecipeField::Batch,
        Input::FaceCoat => RecipeField::FaceCoat,
        Input::MostWater => RecipeField::MostWater,
        Input::Sand => RecipeField::Sand,
        Input::Water => RecipeField::Water,
        Input::Pigment => RecipeField::Pigment,
        Input::Polymer => RecipeField::Polymer,
        Input::PolymerSolids => RecipeField::PolymerSolids,
        Input::FlowAid => RecipeField::FlowAid,
        Input::FlowAidSolids => RecipeField::FlowAidSolids,
        Input::Fibre => RecipeField::Fibre,
        Input::Air => RecipeField::Air,
        // Those of what goes in beside them are no fields.
        Input::CementGravity | Input::OtherGravity => RecipeField::CementGravity,
        Input::StoneGravity => RecipeField::StoneGravity,
        Input::SandGravity => RecipeField::SandGravity,
        Input::StoneBulk => RecipeField::StoneBulk,
        Input::StoneMoisture => RecipeField::StoneMoisture,
        Input::StoneAbsorbs => RecipeField::StoneAbsorbs,
        Input::SandMoisture => RecipeField::SandMoisture,
        Input::SandAbsorbs => RecipeField::SandAbsorbs,
    }
}

/// The mix for a cubic yard, or a cubic metre: what densities and shares follow from. Of a piece with a face coat it
/// is what backs it, which is nearly all of it.
pub(super) fn by_volume(mix: &MixInputs, recipe: &RecipeInputs) -> Known<Proportions> {
    made(mix, recipe, true, basis(mix.units))
}

/// The coats of a piece of that much mix, cast so thick.
pub(super) fn coats(mix: &MixInputs, recipe: &RecipeInputs, volume: Volume, cast: Length) -> Known<Coats> {
    let face = match recipe.kind {
        RecipeKind::GlassFibre => recipe.face_coat.clone().map(Some),
        RecipeKind::Concrete | RecipeKind::Mortar => Ok(None),
    };
    let (_, _, parts, face) = together((recipe.batch.clone(), recipe.scale.clone(), mix.parts.clone(), face))?;
    let of_part = volume / f64::from(parts);
    let layers = match face {
        None => vec![("", of_part)],
        Some(face) => {
            let [face, backer] = proportion::layers(of_part / cast, face, cast).map_err(|_| {
                let place = FieldPath::Recipe(mix.index, RecipeField::FaceCoat);
                mix.waits_at(place, "it has to be thinner than the piece.")
            })?;
            vec![("Face coat", face), ("Backer", backer)]
        }
    };
    batched(mix, recipe, parts, &layers)
}

/// The coats of all pieces of a mix in batches of their own, as they are mixed at one go.
pub(super) fn pooled(mix: &MixInputs, recipe: &RecipeInputs, pieces: &[&Coats]) -> Known<Coats> {
    let parts = pieces.first().map_or(1, |coats| coats.parts);
    let of_coat = |index: usize, name: &'static str| {
        let coats = pieces.iter().filter_map(|coats| coats.coats.get(index));
        (name, coats.map(|coat| coat.batch.volume * f64::from(coat.batches)).sum())
    };
    let first = pieces.first().map_or(&[][..], |coats| &coats.coats);
    let layers: Vec<_> = first.iter().enumerate().map(|(index, coat)| of_coat(index, coat.name)).collect();
    batched(mix, recipe, parts, &layers)
}

/// Coats of so much each, in every part, in batches that are all alike.
fn batched(mix: &MixInputs, recipe: &RecipeInputs, parts: u32, layers: &[(&'static str, Volume)]) -> Known<Coats> {
    let at = |field| FieldPath::Recipe(mix.index, field);
    let (holds, scale) = together((recipe.batch.clone(), recipe.scale.clone()))?;
    let says = "this would take more batches than can be.";
    let coat = |&(name, volume): &(&'static str, Volume)| {
        let batches = whole_bags((volume / holds).value).map(|batches| batches.max(1));
        let batches = batches.ok_or_else(|| mix.waits_at(at(RecipeField::Batch), says))?;
        let batch = made(mix, recipe, name != "Face coat", volume / f64::from(batches))?;
        let weighed =
            Weighed::of(&batch, scale).ok_or_else(|| mix.waits_at(at(RecipeField::Scale), "no scale does that."))?;
        Ok(Coat { name, batches, batch, weighed })
    };
    let coats = Coats { parts, holds, coats: all(layers.iter().map(coat))? };
    if parts.saturating_mul(coats.batches()) as usize <= limits::MOST_BATCHES {
        return Ok(coats);
    }
    Err(if parts > 1 {
        let place = FieldPath::Pour(PourField::Parts);
        Waiting::at(place, format!("{}: {says}", place.label()))
    } else {
        mix.waits_at(at(RecipeField::Batch), says)
    })
}

/// Batches for a piece of that volume, in all parts; `source` is that of what the mixer holds.
pub(crate) fn batches(volume: &Figure<Volume>, coats: &Coats, source: Source) -> Figure<u32> {
    let holds = coats.holds.stated("what the mixer holds", source);
    let of_coat = |coat: &Coat| {
        let all = coat.batch.volume * f64::from(coat.batches);
        let (of, batches, each) = match coat.name {
            "" => ("volume", "batches", "batches of {} each"),
            "Face coat" => ("volume of the face coat", "batches of face coat", "batches of face coat, {} each"),
            _ => ("volume of the backer", "batches of backer", "batches of backer, {} each"),
        };
        let share = (all.named(of) / holds.clone()).number();
        let at_least_one: fn(&[f64]) -> f64 = |parts| whole(parts).max(1.0);
        let counted = share.by_rule("{}, rounded up; the batches are all alike", at_least_one, coat.batches);
        if coats.parts == 1 && coats.coats.len() == 1 {
            return counted;
        }
        let label = Label::with(each, [Quantity::Volume(coat.batch.volume)]);
        let quantity = Quantity::Count(coat.batches, "batch", "batches");
        counted.step_as(label, quantity.clone(), Source::Arithmetic).called_as(batches, quantity)
    };
    let parts = Quantity::Number(f64::from(coats.parts), 0);
    let parts = Term::stated_as(coats.parts, "parts, each poured by itself", parts, Source::Typed).called("parts");
    let all = Term::sum(
        coats.coats.iter().map(|coat| if coats.parts > 1 { of_coat(coat) * parts.clone() } else { of_coat(coat) }),
    );
    let count = Quantity::Count(all.value, "batch", "batches");
    all.after_first(&volume.working).titled_as("Batches to mix", count, Source::Arithmetic)
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
pub(super) fn materials(mix: &MixInputs, prefix: &str, coats: &Coats) -> Vec<Material> {
    let mut found: Vec<(Role, Vec<Term<Mass>>)> = Vec::new();
    for coat in &coats.coats {
        let of = if coat.name.is_empty() { String::new() } else { format!(" of {}", coat.name.to_lowercase()) };
        let batches = f64::from(coats.in_all(coat));
        let batches = Term::named_as(batches, format!("{prefix}batches{of}"), Quantity::Number(batches, 0));
        for (role, a_batch) in &coat.weighed.parts {
            let mass = Term::named_as(*a_batch, "a batch", Quantity::Weighed(*a_batch)) * batches.clone();
            match found.iter_mut().find(|(one, _)| one == role) {
                Some((_, masses)) => masses.push(mass),
                None => found.push((*role, vec![mass])),
            }
        }
    }
    let material = |(role, masses): (Role, Vec<Term<Mass>>)| {
        let name = mix.part_name(role);
        let mass = Term::sum(masses);
        let quantity = Quantity::Weighed(mass.value);
        let title = Label::with("{} in all", [Quantity::Words(name.clone().into())]);
        Material { role, name, mass: mass.titled_as(title, quantity, Source::Arithmetic) }
    };
    found.into_iter().map(material).collect()
}

/// Bags of cement for so much of it.
///
/// # Errors
/// The field of a bag of cement, where it cannot be read or there would be too many of them.
pub(super) fn cement_bags(mix: &MixInputs, recipe: &RecipeInputs, cement: &Figure<Mass>) -> Known<Figure<u32>> {
    let each = recipe.cement_bag.clone()?;
    let Some(bags) = whole_bags((cement.value / each).value) else {
        return Err(too_many_bags(mix, FieldPath::Recipe(mix.index, RecipeField::CementBag)));
    };
    let share = (cement.called("cement") / each.named("cement in one bag")).number();
    let title = Label::with("Bags of cement for {}", [Quantity::Words(mix.name.clone().into())]);
    Ok(share.step("cement in bags", Source::Arithmetic).by_rule("{}, rounded up to whole bags", whole, bags).titled_as(
        title,
        Quantity::Count(bags, "bag", "bags"),
        Source::Arithmetic,
    ))
}

/// The field at which the density of a mix made from scratch is to be looked for.
pub(super) fn density_at(bag: usize, kind: RecipeKind) -> FieldPath {
    match kind {
        RecipeKind::Concrete => FieldPath::Recipe(bag, RecipeField::StoneBulk),
        RecipeKind::Mortar | RecipeKind::GlassFibre => FieldPath::Recipe(bag, RecipeField::Water),
    }
}
