//! The mix: which bag, what its label says, or how it is made; what to order of it.

use super::super::build::lists;
use super::super::desk::Desk;
use super::super::field::{choice, field};
use super::super::figures::{plain_row, row, show};
use super::recipe::recipe_fields;
use crate::job::{Additive, AdditiveField, BagField, FieldPath, LabelClass, RecipeKind, StrengthField, StrengthPoint};
use crate::measure::{
    Volume, write_density, write_dose, write_number, write_percent, write_volume, write_water, write_weighed,
};
use crate::mix::proportion::Role;
use crate::mix::{Bagged, Order, Pour, Scratch, Supply, catalogue};
use crate::print::mix_lists;
use crate::working::{Figure, Known};
use leptos::prelude::*;

/// Index of the chosen piece's bag among the job's.
pub fn bag_index(desk: Desk) -> Option<usize> {
    desk.job.with(|job| job.bag(&job.pieces.get(desk.piece.get())?.bag).map(|(index, _)| index))
}

/// Every bag there is to choose: the job's own copies, the maker's shelf, the catalogue.
pub fn bag_choice(desk: Desk) -> AnyView {
    let options = Memo::new(move |_| {
        let mut bags: Vec<(String, String)> = Vec::new();
        let mut add = |bag: &crate::job::Bag| {
            if !bags.iter().any(|(id, _)| *id == bag.id) {
                bags.push((bag.id.clone(), bag.name.text().to_owned()));
            }
        };
        desk.job.with(|job| job.bags.iter().for_each(&mut add));
        desk.bags.with(|bags| bags.iter().for_each(&mut add));
        catalogue(desk.units()).iter().for_each(&mut add);
        bags
    });
    let chosen = Memo::new(move |_| {
        desk.job.with(|job| job.pieces.get(desk.piece.get()).map_or_else(String::new, |piece| piece.bag.clone()))
    });
    let list = move || {
        let chosen = chosen.get();
        options
            .get()
            .into_iter()
            .map(|(id, name)| {
                let selected = id == chosen;
                view! { <option value=id prop:selected=selected>{name}</option> }
            })
            .collect_view()
    };
    view! {
        <div class="field">
            <label for="bag-choice">"Cast from"</label>
            <select id="bag-choice" on:change=move |event| desk.bags.choose(&event_target_value(&event))>{list}</select>
        </div>
    }
    .into_any()
}

/// The class that the label of a bag names, for where no strength is typed.
fn class_choice(desk: Desk, bag: usize) -> AnyView {
    let read = move || desk.job.with(|job| job.bags.get(bag).map(|bag| (bag.family, bag.class)));
    let family = untrack(read).map(|(family, _)| family).unwrap_or_default();
    let chosen = Memo::new(move |_| read().map(|(_, class)| class).unwrap_or_default());
    let options = LabelClass::of(family).iter().map(|class| (*class, class.label())).collect();
    let choose = Callback::new(move |class| desk.job.edit_bag(bag, |bag| bag.class = class));
    view! {
        {choice("Strength class on the label", options, chosen.into(), choose)}
        <p class="quiet-text">"The least strength of the class counts wherever none is typed below."</p>
    }
    .into_any()
}

/// What is told of a mix made from scratch; the rest of a bag's label follows from the recipe.
const OF_SCRATCH: &[BagField] = &[BagField::Name, BagField::Workable, BagField::StripAfter, BagField::HardenedDensity];

/// An additive of a bag, and of a mix made from scratch.
const ADDITIVE: &[AdditiveField] = &[
    AdditiveField::Name,
    AdditiveField::Dose,
    AdditiveField::DoseLeast,
    AdditiveField::DoseMost,
    AdditiveField::Water,
    AdditiveField::Longer,
    AdditiveField::Flow,
];
const ADDITIVE_OF_CONCRETE: &[AdditiveField] = &[
    AdditiveField::Name,
    AdditiveField::OfCement,
    AdditiveField::LessWater,
    AdditiveField::Water,
    AdditiveField::Longer,
    AdditiveField::Strength,
    AdditiveField::Flow,
];
/// The water of a mortar is typed by itself.
const ADDITIVE_OF_SCRATCH: &[AdditiveField] = &[
    AdditiveField::Name,
    AdditiveField::OfCement,
    AdditiveField::Water,
    AdditiveField::Longer,
    AdditiveField::Strength,
    AdditiveField::Flow,
];

/// The kind of the mix made from scratch at that index of the job's bags; nothing where it comes in bags.
pub fn kind_of(desk: Desk, bag: usize) -> Option<RecipeKind> {
    desk.job.with(|job| job.bags.get(bag).and_then(|bag| bag.recipe.as_ref()).map(|recipe| recipe.kind))
}

/// The additives of a bag, with these fields of each.
fn additives(desk: Desk, bag: usize, names: &'static [AdditiveField]) -> AnyView {
    let count = Memo::new(move |_| desk.job.with(|job| job.bags.get(bag).map_or(0, |bag| bag.additives.len())));
    let one = move |index: usize| {
        view! {
            <div class="fields">
                {names.iter().map(|name| field(desk, FieldPath::Additive(bag, index, *name))).collect_view()}
                <button type="button" class="danger" on:click=move |_| desk.job.edit_bag(bag, |bag| { bag.additives.remove(index); })>"Remove"</button>
            </div>
        }
    };
    (move || (0..count.get()).map(one).collect_view()).into_any()
}

/// The strengths of a bag, each with its age.
fn strengths(desk: Desk, bag: usize) -> AnyView {
    let count = Memo::new(move |_| desk.job.with(|job| job.bags.get(bag).map_or(0, |bag| bag.strengths.len())));
    let one = move |index: usize| {
        view! {
            <div class="fields">
                {field(desk, FieldPath::Strength(bag, index, StrengthField::Age))}
                {field(desk, FieldPath::Strength(bag, index, StrengthField::Strength))}
                <button type="button" class="danger" on:click=move |_| desk.job.edit_bag(bag, |bag| { bag.strengths.remove(index); })>"Remove"</button>
            </div>
        }
    };
    (move || (0..count.get()).map(one).collect_view()).into_any()
}

/// The label of the chosen bag, to be corrected by what the maker's own bag says; or how it is made.
pub fn bag_fields(desk: Desk, bag: usize) -> AnyView {
    let kind = untrack(|| kind_of(desk, bag));
    let (names, of_additive, title, lead) = match kind {
        Some(kind) => (
            OF_SCRATCH,
            if kind == RecipeKind::Concrete { ADDITIVE_OF_CONCRETE } else { ADDITIVE_OF_SCRATCH },
            "Times, strengths, additives",
            "Usual times of such a mix: what you have seen outranks them.",
        ),
        None => (
            BagField::ALL,
            ADDITIVE,
            "What its label says",
            "Typical figures, from memory: what your own bag says outranks them.",
        ),
    };
    let place = |name: BagField| field(desk, FieldPath::Bag(bag, name));
    let class = kind.is_none().then(|| class_choice(desk, bag));
    let apart = move || desk.bags.differs(bag);
    view! {
        {kind.map(|kind| recipe_fields(desk, bag, kind))}
        <details>
            <summary>{title}</summary>
            <p class="quiet-text">{lead}</p>
            <div class="fields">
                {names.iter().map(|name| place(*name)).collect_view()}
            </div>
            {class}
            {additives(desk, bag, of_additive)}
            {strengths(desk, bag)}
            <div class="row">
                <button type="button" on:click=move |_| desk.job.edit_bag(bag, |bag| bag.additives.push(Additive::default()))>"+ Additive"</button>
                <button type="button" on:click=move |_| desk.job.edit_bag(bag, |bag| bag.strengths.push(StrengthPoint::default()))>"+ Strength"</button>
                <button type="button" on:click=move |_| desk.bags.keep_figures(bag)>"Keep in my bags"</button>
                {move || desk.bags.is_own(bag).then(|| view! {
                    <button type="button" class="danger" on:click=move |_| desk.bags.give_up(bag)>"Take out of my bags"</button>
                })}
            </div>
        </details>
        {move || apart().then(|| view! {
            <div class="banner">
                <p>"Your bags hold other figures under this name. This job keeps its own copy."</p>
                <div class="row">
                    <button type="button" on:click=move |_| desk.bags.take_figures(bag)>"Take the figures of my bags"</button>
                    <button type="button" on:click=move |_| desk.bags.keep_figures(bag)>"Keep the figures of this job"</button>
                </div>
            </div>
        })}
    }
    .into_any()
}

pub fn order_rows(desk: Desk) -> AnyView {
    let units = desk.units();
    desk.cast.with(|all| {
        let volume = |label: &str, figure: Known<Figure<Volume>>| {
            row(desk, label, show(&figure, |volume| write_volume(*volume, units).to_string()))
        };
        let pour = all.pieces.get(desk.piece.get()).map(|piece| piece.pour.clone());
        let of_piece = pour.map(|pour| {
            let pick =
                |pick: fn(&Pour) -> &Figure<Volume>| pour.as_ref().map(|pour| pick(pour).clone()).map_err(Clone::clone);
            let density = pour.as_ref().map(|pour| pour.fresh_density.clone()).map_err(Clone::clone);
            (
                volume("This piece, net", pick(|pour| &pour.net)),
                volume("This piece, with spare", pick(|pour| &pour.with_spare)),
                row(desk, "Fresh density", show(&density, |density| write_density(*density, units).to_string())),
            )
        });
        let orders = all.orders.iter().map(|order| order_view(desk, order)).collect_view();
        view! { {of_piece} {orders} }.into_any()
    })
}

fn order_view(desk: Desk, order: &Known<Order>) -> AnyView {
    let units = desk.units();
    let name = order
        .as_ref()
        .ok()
        .and_then(|order| desk.job.with(|job| job.bags.get(order.bag).map(|bag| bag.name.text().to_owned())));
    let bags = order.as_ref().map(|order| order.bags.clone()).map_err(Clone::clone);
    let water = order.as_ref().map(|order| order.water.clone()).map_err(Clone::clone);
    let label = if order.as_ref().is_ok_and(|order| order.scratch().is_some()) { "Bags of cement" } else { "Bags" };
    let rest = match order.as_ref().map(|order| &order.supply) {
        Ok(Supply::Bags(bagged)) => bagged_rows(desk, bagged),
        Ok(Supply::Scratch(scratch)) => scratch_rows(desk, scratch),
        Err(_) => ().into_any(),
    };
    view! {
        {name.map(|name| view! { <h3>{name}</h3> })}
        {row(desk, label, show(&bags, |bags| bags.to_string()))}
        {row(desk, "Water in all", show(&water, |water| write_water(*water, units).to_string()))}
        {rest}
    }
    .into_any()
}

fn bagged_rows(desk: Desk, bagged: &Bagged) -> AnyView {
    let units = desk.units();
    let additives = bagged
        .additives
        .iter()
        .map(|additive| {
            plain_row(
                format!("{}, {} a bag", additive.name, write_dose(additive.a_bag, units).text),
                write_dose(additive.in_all, units).to_string(),
            )
        })
        .collect_view();
    let left_over = show(&Ok(bagged.left_over.clone()), |volume| write_volume(*volume, units).to_string());
    view! {
        {row(desk, "Left over from the last bag", left_over)}
        {plain_row("Water a bag", write_water(bagged.water_a_bag, units).to_string())}
        {row(desk, "Water to dry mix", show(&Ok(bagged.water_to_dry.clone()), |ratio| write_percent(*ratio)))}
        {additives}
        <p class="quiet-text">"A label does not say how much of a bag is cement: its water-cement ratio and its paste are not known."</p>
    }
    .into_any()
}

fn scratch_rows(desk: Desk, scratch: &Scratch) -> AnyView {
    let units = desk.units();
    let materials = scratch.materials.iter().filter(|material| material.role != Role::Water);
    let materials = materials
        .map(|one| row(desk, &one.name, show(&Ok(one.mass.clone()), |mass| write_weighed(*mass, units))))
        .collect_view();
    view! {
        {materials}
        {row(desk, "Water to cement", show(&Ok(scratch.water_to_cement.clone()), |ratio| write_number(*ratio, 2)))}
        {row(desk, "Paste, of the volume", show(&Ok(scratch.paste.clone()), |share| write_percent(*share)))}
    }
    .into_any()
}

/// What goes into each batch of a mix made from scratch.
pub fn amounts(desk: Desk) -> AnyView {
    lists(desk, move |job, all| mix_lists(job, all, desk.piece.get()))
}
