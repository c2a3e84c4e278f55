//! The price, the offer, the offer as it was sent, and versions side by side.

use super::super::desk::{Action, Desk};
use super::super::dom;
use super::super::field::field;
use super::super::figures::{Shown, plain_row, row, show};
use super::super::paper_print::print_page;
use super::others::{others, worked_out};
use super::ticks::{ticks, toggle};
use crate::estimate::estimate;
use crate::job::{Entry, FieldPath, FrozenQuote, QuoteField};
use crate::measure::{Date, Units, write_money};
use crate::print;
use crate::working::{Figure, Known};
use leptos::prelude::*;
use rust_decimal::Decimal;
use std::sync::Arc;

/// More versions than this find no room side by side.
const MOST_VERSIONS: usize = 3;

/// Price, cost, margin, by the area, break-even.
pub fn price(desk: Desk) -> AnyView {
    let rows = move || {
        desk.estimate.with(|all| {
            let pricing = &all.pricing;
            let currency = desk.prices.with(|prices| prices.currency.clone());
            let money = |figure: &Known<Figure<Decimal>>| show(figure, |money| write_money(*money, &currency));
            let sheet = pricing.sheet.as_ref();
            let price = sheet.map(|sheet| sheet.price.clone()).map_err(Clone::clone);
            let even = pricing.break_even.as_ref();
            let even_price = even.map(|even| even.price.clone()).map_err(Clone::clone);
            let hours = even.ok().and_then(|even| even.hours.clone());
            let more = sheet.is_ok().then(|| {
                [
                    row(desk, title(&pricing.by_area, "Price by area", desk.units()), money(&pricing.by_area)),
                    row(desk, "Nothing is earned at", money(&even_price)),
                    hours.map_or_else(
                        || ().into_any(),
                        |hours| {
                            let text = format!("{} h", hours.value.normalize());
                            row(desk, "Hours until it loses money", Ok(Shown { text, working: hours.working }))
                        },
                    ),
                ]
                .collect_view()
            });
            let bags = all.cost.as_ref().map(|cost| cost.bags.clone()).map_err(Clone::clone);
            view! { {row(desk, "Price", money(&price))} {row(desk, "Bags alone", money(&bags))} {more} }
        })
    };
    view! {
        <section class="card" aria-label="Price">
            <h2>"The price"</h2>
            <div class="figures">{rows}</div>
        </section>
    }
    .into_any()
}

fn title(figure: &Known<Figure<Decimal>>, or: &str, units: Units) -> String {
    figure.as_ref().map_or_else(|_| or.to_owned(), |figure| figure.working.title(units))
}

fn today() -> Option<Date> {
    Date::read(&dom::iso_date())
}

/// The offer as it would go out today.
fn draft(desk: Desk) -> Result<FrozenQuote, String> {
    let day = today().ok_or("This browser does not know the day.")?;
    let ids = desk.job.with_untracked(|job| job.quote.options.clone());
    let options = untrack(|| worked_out(desk, &ids));
    desk.job.with_untracked(|job| {
        let frozen = desk
            .estimate
            .with_untracked(|all| desk.prices.with_untracked(|prices| print::freeze(job, all, prices, &options, day)));
        frozen.map_err(|waiting| waiting.needs().first().map_or_else(String::new, |need| need.write(job)))
    })
}

/// What is decided about the offer, and the ways to send it.
pub fn offer(desk: Desk) -> AnyView {
    let excluded = move || desk.job.with(|job| job.quote.excluded.text().to_owned());
    let key = FieldPath::Quote(QuoteField::Excluded).key();
    let chosen = Memo::new(move |_| desk.job.with(|job| job.quote.options.clone()));
    let tick = Callback::new(move |id: String| desk.job.update(|job| toggle(&mut job.quote.options, &id)));
    let options = move || {
        let rows: Vec<_> = others(desk).into_iter().map(|(id, name)| (id, name, String::new())).collect();
        (!rows.is_empty()).then(|| {
            view! {
                <details>
                    <summary>"Offer other versions with it"</summary>
                    <p class="quiet-text">"Jobs of your shelf: copy this one, change the copy, tick it here."</p>
                    {ticks(rows, chosen.into(), tick)}
                </details>
            }
        })
    };
    let print_draft = move |_| match draft(desk) {
        Ok(draft) => print_page(desk, &print::client_page(&draft)),
        Err(why) => desk.tell(&why, None),
    };
    let freeze = move |_| match draft(desk) {
        Ok(frozen) => {
            let before = desk.job.with_untracked(|job| job.quote.frozen.clone());
            desk.job.update(|job| job.quote.frozen = Some(frozen));
            let undo: Action = Arc::new(move || desk.job.update(|job| job.quote.frozen.clone_from(&before)));
            desk.tell("The quote is frozen.", Some(("Undo", undo)));
        }
        Err(why) => desk.tell(&why, None),
    };
    view! {
        <section class="card" aria-label="Offer">
            <h2>"The offer"</h2>
            <div class="fields">
                {field(desk, FieldPath::Quote(QuoteField::Deposit))}
                {field(desk, FieldPath::Quote(QuoteField::ValidDays))}
            </div>
            <div class="field">
                <label for=key.clone()>"Not included, a line each"</label>
                <textarea id=key prop:value=excluded
                    on:input=move |event| desk.job.update(|job| job.quote.excluded = Entry(event_target_value(&event)))/>
            </div>
            {options}
            <div class="row">
                <button type="button" class="main" on:click=freeze>"Freeze the quote"</button>
                <button type="button" on:click=print_draft>"Print a draft"</button>
            </div>
            <p class="quiet-text">"Freeze it as you send it: its words and numbers stay with the job, whatever changes later."</p>
        </section>
    }
    .into_any()
}

/// The offer as it was sent, and what has changed since; nothing before.
pub fn sent(desk: Desk) -> AnyView {
    let frozen = Memo::new(move |_| desk.job.with(|job| job.quote.frozen.clone()));
    let changed = Memo::new(move |_| desk.job.with(|job| job.changed_since_sent().unwrap_or_default()));
    let worth = move |currency: &str| {
        let price = desk.estimate.with(|all| all.pricing.sheet.as_ref().ok().map(|sheet| sheet.price.value));
        price.map(|price| write_money(price, currency))
    };
    // The job as it was sent, at the prices of today.
    let book_differs = Memo::new(move |_| {
        frozen
            .with(|frozen| {
                let frozen = frozen.as_ref()?;
                let was = &frozen.amounts.iter().find(|line| line.label == "Price")?.text;
                let sheet = desk.prices.with(|prices| estimate(&frozen.job, prices)).pricing.sheet.ok()?;
                Some(write_money(sheet.price.value, &frozen.currency) != *was)
            })
            .unwrap_or_default()
    });
    let card = move || {
        let frozen = frozen.get()?;
        let page = frozen.clone();
        let rows = frozen.amounts.iter().map(|line| plain_row(line.label.clone(), line.text.clone())).collect_view();
        let was = frozen.amounts.iter().find(|line| line.label == "Price").map(|line| line.text.clone());
        let currency = frozen.currency.clone();
        let since = move || {
            let lines = changed.get();
            let now = worth(&currency).filter(|now| Some(now) != was.as_ref());
            if lines.is_empty() && now.is_none() {
                return view! { <p class="quiet-text">"Nothing has changed since."</p> }.into_any();
            }
            let now = now.map(|now| view! { <li>{format!("Worked out now, the price is {now}.")}</li> });
            let book =
                book_differs.get().then(|| view! { <li>"Your prices or your pace are not as they were then."</li> });
            let lines = lines.into_iter().map(|line| view! { <li>{line}</li> }).collect_view();
            view! {
                <div class="banner" id="changed-since">
                    <strong>"Changed since it was sent"</strong>
                    <ul class="plain-list">{now}{book}{lines}</ul>
                </div>
            }
            .into_any()
        };
        Some(view! {
            <section class="card" aria-label="Quote as sent">
                <h2>{format!("Sent {}, valid until {}", frozen.sent, frozen.valid_until)}</h2>
                <div class="figures">{rows}</div>
                {since}
                <div class="row">
                    <button type="button" class="main" on:click=move |_| print_page(desk, &print::client_page(&page))>"Print the quote"</button>
                    <button type="button" class="danger" on:click=move |_| take_back(desk)>"Take it back"</button>
                </div>
            </section>
        })
    };
    view! { {card} }.into_any()
}

/// The job is as if no quote had been sent; it can be had back.
fn take_back(desk: Desk) {
    let before = desk.job.with_untracked(|job| job.quote.frozen.clone());
    desk.job.update(|job| job.quote.frozen = None);
    let undo: Action = Arc::new(move || desk.job.update(|job| job.quote.frozen.clone_from(&before)));
    desk.tell("The quote is taken back.", Some(("Undo", undo)));
}

/// Two or three versions side by side, differences marked.
pub fn versions(desk: Desk) -> AnyView {
    let chosen = RwSignal::new(Vec::<String>::new());
    let tick = Callback::new(move |id: String| {
        chosen.update(|chosen| {
            toggle(chosen, &id);
            if chosen.len() >= MOST_VERSIONS {
                chosen.remove(0);
            }
        });
    });
    let rows = move || {
        let rows: Vec<_> = others(desk).into_iter().map(|(id, name)| (id, name, String::new())).collect();
        if rows.is_empty() {
            return view! { <p>"Copy this job on the shelf, change the copy, and see both here."</p> }.into_any();
        }
        ticks(rows, chosen.into(), tick)
    };
    let table = move || {
        let ids = chosen.get();
        (!ids.is_empty()).then(|| {
            let mut versions = vec![(desk.job.get(), desk.estimate.get())];
            versions.extend(worked_out(desk, &ids));
            comparison(&versions)
        })
    };
    view! {
        <section class="card" aria-label="Versions">
            <details>
                <summary>"What if: versions side by side"</summary>
                {rows}
                {table}
            </details>
        </section>
    }
    .into_any()
}

fn comparison(versions: &[(crate::job::Job, crate::estimate::Estimate)]) -> AnyView {
    let (names, table) = print::side_by_side(versions);
    let head = names.into_iter().map(|name| view! { <th scope="col">{name}</th> }).collect_view();
    let rows = table
        .rows
        .into_iter()
        .map(|row| {
            let cells = row
                .cells
                .into_iter()
                .map(|cell| {
                    let mark = cell.differs.then(|| view! { <span class="out-of-sight">" (differs)"</span> });
                    view! { <td class:differs=cell.differs>{cell.text.unwrap_or_else(|| "—".to_owned())}{mark}</td> }
                })
                .collect_view();
            view! { <tr><th scope="row">{row.label}</th>{cells}</tr> }
        })
        .collect_view();
    view! {
        <div class="table-holder">
            <table class="versions"><thead><tr><td></td>{head}</tr></thead><tbody>{rows}</tbody></table>
        </div>
    }
    .into_any()
}
