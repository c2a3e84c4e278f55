//! The mix: which bag, what its label says, what to order of it.

use super::super::desk::Desk;
use super::super::field::{field, hinted};
use super::super::figures::{plain_row, row, show};
use crate::job::{Additive, AdditiveField, BagField, Place, StrengthField, StrengthPoint};
use crate::measure::{Volume, write_density, write_dose, write_percent, write_volume, write_water};
use crate::mix::{Order, Pour, catalogue};
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
            <select id="bag-choice" on:change=move |event| desk.choose_bag(&event_target_value(&event))>{list}</select>
        </div>
    }
    .into_any()
}

/// The label of the chosen bag, to be corrected by what the maker's own bag says.
pub fn bag_fields(desk: Desk, bag: usize) -> AnyView {
    let place = |name| field(desk, Place::Bag(bag, name));
    let lists =
        move || desk.job.with(|job| job.bags.get(bag).map_or((0, 0), |bag| (bag.additives.len(), bag.strengths.len())));
    let lists = Memo::new(move |_| lists());
    let additives = move || {
        (0..lists.get().0)
            .map(|index| {
                view! {
                    <div class="fields">
                        {AdditiveField::ALL.iter().map(|name| additive_field(desk, bag, index, *name)).collect_view()}
                        <button type="button" class="danger" on:click=move |_| desk.edit_bag(bag, |bag| { bag.additives.remove(index); })>"Remove"</button>
                    </div>
                }
            })
            .collect_view()
    };
    let strengths = move || {
        (0..lists.get().1)
            .map(|index| {
                view! {
                    <div class="fields">
                        {field(desk, Place::Strength(bag, index, StrengthField::Age))}
                        {field(desk, Place::Strength(bag, index, StrengthField::Strength))}
                        <button type="button" class="danger" on:click=move |_| desk.edit_bag(bag, |bag| { bag.strengths.remove(index); })>"Remove"</button>
                    </div>
                }
            })
            .collect_view()
    };
    let apart = move || desk.shelf_differs(bag);
    view! {
        <details>
            <summary>"What its label says"</summary>
            <p class="quiet-text">"Typical figures, from memory: what your own bag says outranks them."</p>
            <div class="fields">
                {BagField::ALL.iter().map(|name| place(*name)).collect_view()}
            </div>
            {additives}
            {strengths}
            <div class="row">
                <button type="button" on:click=move |_| desk.edit_bag(bag, |bag| bag.additives.push(Additive::default()))>"+ Additive"</button>
                <button type="button" on:click=move |_| desk.edit_bag(bag, |bag| bag.strengths.push(StrengthPoint::default()))>"+ Strength"</button>
                <button type="button" on:click=move |_| desk.keep_bag(bag)>"Keep in my bags"</button>
                {move || desk.is_own_bag(bag).then(|| view! {
                    <button type="button" class="danger" on:click=move |_| desk.drop_own_bag(bag)>"Take out of my bags"</button>
                })}
            </div>
        </details>
        {move || apart().then(|| view! {
            <div class="banner">
                <p>"Your bags hold other figures under this name. This job keeps its own copy."</p>
                <div class="row">
                    <button type="button" on:click=move |_| desk.take_shelf_bag(bag)>"Take the figures of my bags"</button>
                    <button type="button" on:click=move |_| desk.keep_bag(bag)>"Keep the figures of this job"</button>
                </div>
            </div>
        })}
    }
    .into_any()
}

fn additive_field(desk: Desk, bag: usize, index: usize, name: AdditiveField) -> AnyView {
    let place = Place::Additive(bag, index, name);
    match name {
        AdditiveField::Longer => hinted(desk, place, "Of a retarder; blank: it changes nothing."),
        AdditiveField::Water => hinted(desk, place, "Blank: none. It is poured less."),
        _ => field(desk, place),
    }
}

pub fn order_rows(desk: Desk) -> AnyView {
    let units = desk.units();
    desk.estimate.with(|all| {
        let volume = |label: &str, figure: Known<Figure<Volume>>| {
            row(desk, label, show(&figure, |volume| write_volume(*volume, units).to_string()))
        };
        let pour = all.pieces.get(desk.piece.get()).map(|piece| piece.pour.clone());
        let of_piece = pour.map(|pour| {
            let pick = |pick: fn(&Pour) -> &Figure<Volume>| pour.as_ref().map(|pour| pick(pour).clone()).map_err(Clone::clone);
            let density = pour.as_ref().map(|pour| pour.fresh_density.clone()).map_err(Clone::clone);
            (
                volume("This piece, net", pick(|pour| &pour.net)),
                volume("This piece, with spare", pick(|pour| &pour.with_spare)),
                row(desk, "Fresh density", show(&density, |density| write_density(*density, units).to_string())),
            )
        });
        let orders = all
            .orders
            .iter()
            .map(|order| {
                let name = order.as_ref().ok().and_then(|order| {
                    desk.job.with(|job| job.bags.get(order.bag).map(|bag| bag.name.text().to_owned()))
                });
                let pick = |pick: fn(&Order) -> &Figure<Volume>| order.as_ref().map(|order| pick(order).clone()).map_err(Clone::clone);
                let bags = order.as_ref().map(|order| order.bags.clone()).map_err(Clone::clone);
                let to_dry = order.as_ref().map(|order| order.water_to_dry.clone()).map_err(Clone::clone);
                let additives = order
                    .iter()
                    .flat_map(|order| &order.additives)
                    .map(|additive| {
                        plain_row(
                            format!("{}, {} a bag", additive.name, write_dose(additive.a_bag, units).text),
                            write_dose(additive.in_all, units).to_string(),
                        )
                    })
                    .collect_view();
                let a_bag = order.as_ref().ok().map(|order| plain_row("Water a bag", write_water(order.water_a_bag, units).to_string()));
                view! {
                    {name.map(|name| view! { <h3>{name}</h3> })}
                    {row(desk, "Bags", show(&bags, |bags| bags.to_string()))}
                    {volume("Left over from the last bag", pick(|order| &order.left_over))}
                    {a_bag}
                    {row(desk, "Water to dry mix", show(&to_dry, |ratio| write_percent(*ratio)))}
                    {row(desk, "Water in all", show(&pick(|order| &order.water), |water| write_water(*water, units).to_string()))}
                    {additives}
                }
            })
            .collect_view();
        let unknown = "A label does not say how much of a bag is cement: its water-cement ratio and its paste are not known.";
        view! { {of_piece} {orders} <p class="quiet-text">{unknown}</p> }.into_any()
    })
}
