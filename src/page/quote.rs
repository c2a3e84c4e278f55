//! Quote: what the material costs, and the estimate as a paper to give away.

use super::desk::Desk;
use super::field::{Field, text_field};
use super::figures::{row, show};
use super::findings::findings;
use crate::finding::Stage;
use crate::job::{Entry, Kind};
use crate::measure::{read_money, write_money};
use crate::price::BagPrice;
use leptos::prelude::*;

/// The screen.
pub fn quote(desk: Desk) -> AnyView {
    let bags = Memo::new(move |_| {
        desk.job.with(|job| {
            job.bags
                .iter()
                .filter(|bag| job.pieces.iter().any(|piece| piece.bag == bag.id))
                .map(|bag| (bag.id.clone(), bag.name.text().to_owned()))
                .collect::<Vec<_>>()
        })
    });
    let prices = move || bags.get().into_iter().map(|(id, name)| price_field(desk, id, name)).collect_view();
    let cost = move || {
        desk.estimate.with(|all| {
            let figure = all.cost.as_ref().map(|cost| cost.bags.clone()).map_err(Clone::clone);
            let currency = desk.prices.with(|prices| prices.currency.clone());
            row(desk, "Bags", show(&figure, |money| write_money(*money, &currency)))
        })
    };
    view! {
        <div class="side">
            <section class="card" aria-label="Prices">
                <h2>"Your prices"</h2>
                <p class="quiet-text">"Kept in this browser for every job; never part of a shared file."</p>
                <div class="fields">
                    {currency_field(desk)}
                    {prices}
                </div>
            </section>
            {findings(desk, Stage::Quote)}
        </div>
        <div class="rest">
            <section class="card" aria-label="Material">
                <h2>"Material"</h2>
                <div class="figures">{cost}</div>
                <p class="quiet-text">"Whole bags only. Form boards, liner, pads, sealer and hours are yours to add."</p>
            </section>
            <section class="card" aria-label="Share">
                <h2>"Hand it over"</h2>
                <p>"One file that anybody can open and read as a tidy estimate, and that this page can open again."</p>
                <div class="row">
                    <button type="button" class="main" on:click=move |_| desk.open_share()>"Share this estimate"</button>
                </div>
            </section>
        </div>
    }
    .into_any()
}

fn price_field(desk: Desk, id: String, name: String) -> AnyView {
    let find = id.clone();
    let text = Memo::new(move |_| {
        desk.prices.with(|prices| {
            prices.bags.iter().find(|one| one.bag == find).map_or_else(String::new, |one| one.price.text().to_owned())
        })
    });
    let wrong = Memo::new(move |_| {
        let text = text.get();
        if text.trim().is_empty() { None } else { read_money(&text).err().map(|error| error.to_string()) }
    });
    let key = format!("price-{id}");
    let typed = Callback::new(move |typed: String| {
        desk.edit_prices(|prices| match prices.bags.iter_mut().find(|one| one.bag == id) {
            Some(one) => one.price = Entry(typed),
            None => prices.bags.push(BagPrice { bag: id.clone(), price: Entry(typed) }),
        });
    });
    let label = format!("A bag of {name}");
    text_field(desk, Field { key, label, kind: Kind::Money, hint: "", text: text.into(), wrong: wrong.into(), typed })
}

fn currency_field(desk: Desk) -> AnyView {
    let text = Memo::new(move |_| desk.prices.with(|prices| prices.currency.clone()));
    let wrong = Memo::new(move |_| {
        let fine = text.with(|text| text.len() == 3 && text.chars().all(|letter| letter.is_ascii_uppercase()));
        (!fine).then(|| "Three capital letters, as in USD or EUR.".to_owned())
    });
    let typed =
        Callback::new(move |typed: String| desk.edit_prices(|prices| prices.currency = typed.trim().to_uppercase()));
    text_field(
        desk,
        Field {
            key: "price-currency".to_owned(),
            label: "Currency".to_owned(),
            kind: Kind::Text,
            hint: "",
            text: text.into(),
            wrong: wrong.into(),
            typed,
        },
    )
}
