//! Pour: which bag, how many, how much water, and whether the batches beat the clock.

use super::desk::Desk;
use super::field::{field, hinted};
use super::figures::{plain_row, row, show};
use super::findings::{caution, findings};
use super::measure::pieces_bar;
use crate::finding::Stage;
use crate::job::{Additive, AdditiveField, BagField, PieceField, Place, PourField, StrengthField, StrengthPoint};
use crate::measure::{Volume, write_density, write_dose, write_duration, write_temperature, write_volume, write_water};
use crate::mix::{Order, Pour, catalogue};
use crate::pour::{Plan, Remedy};
use crate::working::{Figure, Known};
use leptos::prelude::*;

/// The screen.
pub fn pour(desk: Desk) -> AnyView {
    let piece = move || desk.piece.get();
    // Its fields are made anew when another bag is chosen, not with every key.
    let bag = Memo::new(move |_| bag_index(desk));
    view! {
        <div class="side">
            {pieces_bar(desk)}
            <section class="card" aria-label="Mix">
                <h2>"Mix"</h2>
                {bag_choice(desk)}
                <div class="fields">
                    {move || hinted(desk, Place::Piece(piece(), PieceField::Waste), "10 % is usual.")}
                </div>
                {move || bag.get().map(|bag| bag_fields(desk, bag))}
            </section>
            <section class="card" aria-label="Order">
                <h2>"To order"</h2>
                <div class="figures">{move || order_rows(desk)}</div>
            </section>
        </div>
        <div class="rest">
            <section class="card" aria-label="Pour day">
                <h2>"Against the clock"</h2>
                <div class="fields">
                    {field(desk, Place::Pour(PourField::Air))}
                    {field(desk, Place::Pour(PourField::People))}
                    {field(desk, Place::Pour(PourField::BagsABatch))}
                    {field(desk, Place::Pour(PourField::MinutesABatch))}
                </div>
                <div class="figures">{move || plan_rows(desk)}</div>
            </section>
            {findings(desk, Stage::Pour)}
            <section class="card" aria-label="Order of the pour">
                <h2>"Order of the pour"</h2>
                <ol class="steps">
                    <li>"Lay everything out: cut, opened, measured. The form level and released."</li>
                    <li>"Mix and fill to about half or three quarters. Lay the lath, and the bars along the rails."</li>
                    <li>"Fill. Tap the bubbles out. Screed."</li>
                    <li>"Wait about 5 minutes, then trowel the back flat: high points rock on the cabinet."</li>
                    <li>"A rapid mix sets from about 15 minutes on: light patches are hard patches. Keep it wet for an hour from then."</li>
                </ol>
                <p class="quiet-text">"Common practice, no published source."</p>
                {caution("Wet cement burns", "Gloves, long sleeves, eye protection. Wash it off skin at once; in an eye, rinse for 15 minutes and see a doctor.")}
                {caution("Dry mix is dust", "Open and pour bags with a respirator on and a door open.")}
            </section>
        </div>
    }
    .into_any()
}

/// Index of the chosen piece's bag among the job's.
fn bag_index(desk: Desk) -> Option<usize> {
    desk.job.with(|job| job.bag(&job.pieces.get(desk.piece.get())?.bag).map(|(index, _)| index))
}

/// Every bag there is to choose: the job's own copies, the maker's shelf, the catalogue.
fn bag_choice(desk: Desk) -> AnyView {
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
fn bag_fields(desk: Desk, bag: usize) -> AnyView {
    let place = |name| field(desk, Place::Bag(bag, name));
    let lists =
        move || desk.job.with(|job| job.bags.get(bag).map_or((0, 0), |bag| (bag.additives.len(), bag.strengths.len())));
    let lists = Memo::new(move |_| lists());
    let additives = move || {
        (0..lists.get().0)
            .map(|index| {
                view! {
                    <div class="fields">
                        {field(desk, Place::Additive(bag, index, AdditiveField::Name))}
                        {field(desk, Place::Additive(bag, index, AdditiveField::Dose))}
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

fn order_rows(desk: Desk) -> AnyView {
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
                    {row(desk, "Water in all", show(&pick(|order| &order.water), |water| write_water(*water, units).to_string()))}
                    {additives}
                }
            })
            .collect_view();
        view! { {of_piece} {orders} }.into_any()
    })
}

fn plan_rows(desk: Desk) -> AnyView {
    let units = desk.units();
    desk.estimate.with(|all| {
        let plan = all.pieces.get(desk.piece.get()).map(|piece| piece.plan.clone())?;
        let pick = |pick: fn(&Plan) -> &Figure<crate::measure::Time>| plan.as_ref().map(|plan| pick(plan).clone()).map_err(Clone::clone);
        let batches = plan.as_ref().map(|plan| plan.batches.clone()).map_err(Clone::clone);
        let verdict = plan.as_ref().ok().map(|plan| {
            let verdict = if plan.fits { "It fits." } else { "It does not fit." };
            let remedies = plan.remedies.iter().map(|remedy| remedy_button(desk, *remedy, units)).collect_view();
            view! { <div class="plain"><strong>{verdict}</strong></div><div class="row">{remedies}</div> }
        });
        Some(
            view! {
                {row(desk, "Batches", show(&batches, |batches| batches.to_string()))}
                {row(desk, "First water to last placement", show(&pick(|plan| &plan.takes), |time| write_duration(*time).to_string()))}
                {row(desk, "Stays workable", show(&pick(|plan| &plan.workable), |time| write_duration(*time).to_string()))}
                {verdict}
            }
            .into_any(),
        )
    })
    .into_any()
}

/// One tap that makes the pour fit.
fn remedy_button(desk: Desk, remedy: Remedy, units: crate::measure::Units) -> AnyView {
    let (label, place, text) = match remedy {
        Remedy::People(people) => (format!("{people} people mixing"), PourField::People, people.to_string()),
        Remedy::BagsABatch(bags) => (format!("{bags} bags a batch"), PourField::BagsABatch, bags.to_string()),
        Remedy::CoolTo(temperature) => {
            let text = write_temperature(temperature, units).text;
            (format!("Work at {text} or cooler"), PourField::Air, text)
        }
    };
    view! {
        <button type="button" on:click=move |_| desk.set_pour(place, text.clone())>{label}</button>
    }
    .into_any()
}
