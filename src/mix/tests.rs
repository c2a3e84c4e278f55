//! The mix worked out from quantities, and what blank fields mean to it.

use super::proportion::{Air, Concrete, Materials, Moisture, Role, concrete, scale_step};
use super::*;
use crate::job::{Additive, Job, Recipe, RecipeField, RecipeKind};
use crate::measure::exact::{cubic_feet, in_cubic_feet, inches, pounds, pounds_a_cubic_foot, psi, quarts};
use crate::measure::{Pressure, Units};
use uom::si::pressure::megapascal;

/// A bag of 55 lb that gives 0.5 ft³ with 5 qt of water.
fn bag() -> BagInputs {
    BagInputs {
        mass: Ok(pounds(55.0)),
        mass_source: Source::Typed,
        water: Ok(quarts(5.0)),
        water_source: Source::Typed,
        yields: Ok(cubic_feet(0.5)),
        yield_source: Source::Typed,
        water_least: Ok(None),
        water_most: Ok(None),
    }
}

fn mix(bag: BagInputs) -> MixInputs {
    MixInputs {
        index: 0,
        name: "Mortar".to_owned(),
        units: Units::Inch,
        supplied: Supplied::Bags(bag),
        additives: Vec::new(),
        hardened_density: Ok(None),
        parts: Ok(1),
    }
}

fn additive(dose: Dose, water: f64) -> AdditiveInputs {
    AdditiveInputs {
        name: "Flow aid".to_owned(),
        dose: dose.into(),
        dose_least: dose.into(),
        dose_most: dose.into(),
        of_cement: Ok(0.0),
        water: Ok(water),
        less_water: Ok(0.0),
    }
}

/// A piece of so many cubic feet, a tenth of it spare, as `mix` makes it.
fn pour(mix: &MixInputs, net: f64) -> Known<Pour> {
    let net = Figure::stated_as(
        cubic_feet(net),
        "Concrete in the form",
        Quantity::Volume(cubic_feet(net)),
        Source::Arithmetic,
    );
    let filling = Filling { net: Ok(net), fresh: fresh_density(mix) };
    let cast = inches(1.5);
    let cast = Ok(Figure::stated_as(cast, "Cast thickness", Quantity::Length(cast), Source::Arithmetic));
    let inputs = PieceInputs { index: 0, prefix: String::new(), mix: Ok(mix.clone()), spare: Ok(0.1) };
    Pour::of(&filling, &cast, &inputs)
}

fn order_of(mix: MixInputs, pours: &[Known<Pour>]) -> Known<Order> {
    let named = |index| NamedPiece { index, name: format!("Piece {}", index + 1), prefix: String::new() };
    let inputs = OrderInputs { mix, pieces: (0..pours.len()).map(named).collect() };
    orders(&[inputs], &pours.iter().collect::<Vec<_>>()).remove(0)
}

/// 0.89 ft³ and a tenth are 0.979 ft³, which are 1.958 bags; 55 lb and 5 qt of 62.4 lb/ft³ (10.4271 lb) in half a cubic
/// foot are 130.854 lb/ft³. By hand.
#[test]
fn bags_for_a_volume() {
    let pour = pour(&mix(bag()), 0.89).expect("a pour");
    assert_eq!(pour.loads.value, 2);
    let density = pour.fresh_density.value / pounds_a_cubic_foot(1.0);
    assert!((density.value - 130.854).abs() < 1e-3, "{density:?}");
    let lines = pour.loads.working.lines(Units::Inch);
    let [.., share, whole] = &lines[..] else { panic!("{lines:?}") };
    assert_eq!(share.formula, "Volume in bags = volume ÷ volume that one bag gives");
    assert_eq!(share.result, "1.958");
    assert_eq!((whole.formula.as_str(), whole.result.as_str()), ("volume in bags, rounded up to whole bags", "2 bags"));
}

/// Two pieces of 0.7 bags each, spare included, are two bags and not twice one.
#[test]
fn pieces_share_their_bags() {
    let mix = mix(bag());
    let pours = [pour(&mix, 0.35 / 1.1), pour(&mix, 0.35 / 1.1)];
    let order = order_of(mix, &pours).expect("an order");
    assert_eq!(order.bags.value, 2);
    assert_eq!(order.bags.working.title(Units::Inch), "Bags of Mortar");
    let left = order.bagged().expect("bags").left_over.value;
    assert!((in_cubic_feet(left) - 0.3).abs() < 1e-9, "2 × 0.5 ft³ less 0.7 ft³: {left:?}");
}

/// 1 lb of an additive that is half water is poured less: 62.4 lb are a cubic foot.
#[test]
fn water_in_an_additive_is_poured_less() {
    let with = MixInputs { additives: vec![additive(Dose::Mass(pounds(1.0)), 0.5)], ..mix(bag()) };
    let poured = water_to_pour(&with, &bag()).expect("water");
    let less = quarts(5.0) - poured.value;
    assert!((in_cubic_feet(less) - 0.5 / 62.4).abs() < 1e-12, "{less:?}");
    let flood = MixInputs { additives: vec![additive(Dose::Mass(pounds(30.0)), 0.5)], ..mix(bag()) };
    let waits = water_to_pour(&flood, &bag()).expect_err("15 lb of water are more than the bag's 10.4 lb");
    assert_eq!(waits.needs()[0].place, FieldPath::Bag(0, BagField::Water));
}

#[test]
fn everything_that_a_bag_waits_for_is_told_at_once() {
    let nothing = |field| Waiting::at(FieldPath::Bag(0, field), "nothing is written here yet.");
    let blank = BagInputs { mass: Err(nothing(BagField::Mass)), yields: Err(nothing(BagField::Yield)), ..bag() };
    let waits = fresh_density(&mix(blank)).expect_err("two fields are blank");
    let places: Vec<_> = waits.needs().iter().map(|need| need.place).collect();
    assert_eq!(places, [FieldPath::Bag(0, BagField::Mass), FieldPath::Bag(0, BagField::Yield)]);
}

/// A strength in the name of a number is written in the units of whoever reads it.
#[test]
fn the_strength_of_a_ratio_is_written_in_the_units_of_the_job() {
    let wanted = Concrete {
        slump: inches(3.0),
        stone_size: inches(0.75),
        strength: Pressure::new::<megapascal>(35.0),
        air: Air::Entrapped,
        most_water_to_cement: None,
        less_water: 0.0,
    };
    let materials = Materials {
        cement_gravity: 3.15,
        stone_gravity: 2.6,
        stone_bulk: pounds_a_cubic_foot(102.0),
        stone_moisture: Moisture::default(),
        sand_gravity: 2.65,
        fineness: 2.7,
        sand_moisture: Moisture::default(),
    };
    let mix = concrete(&wanted, &materials, Units::Metric).expect("the tables have it");
    let cement = &mix.part(Role::Cement).expect("cement").mass.working;
    let said = |units| cement.lines(units).into_iter().find(|line| line.formula.starts_with("water to cement for"));
    let said = |units| said(units).expect("the line of the ratio").formula;
    assert_eq!(said(Units::Metric), "water to cement for 35 MPa at 28 days, or what exposure allows");
    assert_eq!(said(Units::Inch), "water to cement for 5076 psi at 28 days, or what exposure allows");
    let typed =
        concrete(&Concrete { strength: psi(5000.0), ..wanted }, &materials, Units::Inch).expect("in the tables");
    let typed = typed.part(Role::Cement).expect("cement").mass.working.lines(Units::Metric);
    assert!(typed.iter().any(|line| line.formula.contains("34.47 MPa")), "{typed:?}");
}

fn scratch(units: Units) -> Job {
    let mix = catalogue(units).into_iter().find(|mix| mix.recipe.is_some()).expect("a mix from scratch");
    let mut job = demo("an id");
    job.units = units;
    job.pieces[0].bag = mix.id.clone();
    job.bags = vec![mix];
    job
}

/// A blank scale is the usual one, a blank number of parts is one, and sand of which no water is typed holds what it
/// takes in.
#[test]
fn what_blanks_of_a_recipe_mean() {
    for units in [Units::Inch, Units::Metric] {
        let mut job = scratch(units);
        for field in [RecipeField::Scale, RecipeField::SandMoisture, RecipeField::Pigment, RecipeField::MostWater] {
            *job.entry_at_mut(FieldPath::Recipe(0, field)).expect("an entry") = "".into();
        }
        *job.entry_at_mut(FieldPath::Recipe(0, RecipeField::SandAbsorbs)).expect("an entry") = "1 %".into();
        let read = MixInputs::read(&job, 0);
        let recipe = read.recipe().expect("it is made from scratch");
        assert_eq!(recipe.scale, Ok(scale_step(units)));
        assert_eq!(read.parts, Ok(1));
        assert_eq!(recipe.pigment, Ok(0.0));
        assert_eq!(recipe.most_water, Ok(None));
        assert_eq!(recipe.sand_moisture.known(), Ok(Moisture { total: 0.01, absorbed: 0.01 }));
    }
}

/// What is waited for is named as its field is.
#[test]
fn a_mix_waits_by_its_name() {
    let mut job = scratch(Units::Inch);
    job.bags[0].additives.push(Additive::default());
    *job.entry_at_mut(FieldPath::Recipe(0, RecipeField::Scale)).expect("an entry") = "1000000 lb".into();
    let read = MixInputs::read(&job, 0);
    let place = FieldPath::Recipe(0, RecipeField::Scale);
    let waits = read.waits_at(place, "no scale does that.");
    assert_eq!(
        waits.needs()[0].says.text(),
        format!("{}: no scale does that.", crate::job::read::name_of(&job, place))
    );
    assert_eq!(read.part_name(Role::Additive(0)), part_name(&job, 0, Role::Additive(0)));
    assert_eq!(read.additives[0].name, "Additive 1");
}

/// 0.95 ft³ in a mixer of 0.4 ft³ are 3 batches; in two parts of 0.475 ft³ each they are 2 batches each.
#[test]
fn batches_of_a_volume() {
    let mut job = scratch(Units::Inch);
    *job.entry_at_mut(FieldPath::Recipe(0, RecipeField::Batch)).expect("an entry") = "0.4 ft³".into();
    let mix = MixInputs::read(&job, 0);
    for (parts, count, last) in [(1, 3, "volume ÷ what the mixer holds"), (2, 4, "batches × parts")] {
        let mix = MixInputs { parts: Ok(parts), ..mix.clone() };
        let loads = pour(&mix, 0.95 / 1.1).expect("a pour").loads;
        assert_eq!(loads.value, count);
        let lines = loads.working.lines(Units::Inch);
        assert!(lines.last().is_some_and(|line| line.formula.starts_with(last)), "{lines:?}");
    }
}

/// What goes into two numbers of a working is told once.
#[test]
fn no_line_of_an_order_is_told_twice() {
    let job = demo("an id");
    let all = crate::estimate::estimate(&job, &crate::price::PriceBook::default());
    let order = all.orders[0].as_ref().expect("an order");
    let left_over = &order.bagged().expect("bags").left_over;
    for working in [&order.bags.working, &order.water.working, &left_over.working] {
        let lines: Vec<_> = working.lines(Units::Inch).into_iter().map(|line| line.formula).collect();
        let once: std::collections::HashSet<_> = lines.iter().collect();
        assert_eq!(once.len(), lines.len(), "{lines:?}");
    }
}

/// Where the line of that part comes from that multiplies its ratio.
fn ratio_source(job: &Job, role: Role) -> Source {
    let mix = MixInputs::read(job, 0);
    let made = scratch::by_volume(&mix, mix.recipe().expect("a recipe")).expect("a mix");
    let part = made.parts.iter().find(|part| part.role == role).expect("such a part");
    part.mass.working.lines(Units::Inch).last().expect("a line").source
}

#[test]
fn the_ratios_of_a_usual_mix_were_typed_by_nobody() {
    let mut job = Job::new("scratch", Units::Inch);
    job.bags[0].recipe = Some(Recipe::new(RecipeKind::Mortar, Units::Inch));
    assert_eq!([ratio_source(&job, Role::Sand), ratio_source(&job, Role::Water)], [Source::Memory; 2]);
    let held = |job: &Job| MixInputs::read(job, 0).recipe().expect("a recipe").batch_source();
    assert_eq!(held(&job), Source::Practice, "nobody typed what the mixer holds");
    let recipe = job.bags[0].recipe.as_mut().expect("a recipe");
    (recipe.sand, recipe.batch) = ("3".into(), "1 ft³".into());
    assert_eq!(held(&job), Source::Typed);
    assert_eq!([ratio_source(&job, Role::Sand), ratio_source(&job, Role::Water)], [Source::Typed, Source::Memory]);
}
