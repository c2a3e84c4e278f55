//! The maker's own book: prices, terms, pads, pace. It is no part of any job.

use super::super::desk::Desk;
use super::super::field::{Field, choice, folded, text_field};
use super::super::pick::place_of;
use crate::job::{BookField, Entry, FieldPath, Kind, Task, read};
use crate::measure::Units;
use crate::price::goods::{self, Measure};
use crate::price::{ChargeBy, Good, MarginOn, OwnedPad, PriceBook};
use leptos::prelude::*;
use std::sync::Arc;

/// The way to one text of the book.
type Way = Arc<dyn Fn(&mut PriceBook) -> Option<&mut Entry> + Send + Sync>;

/// A field of the book; `read` looks without making anything, `write` may make the entry first.
fn book_field(
    desk: Desk,
    (key, label, kind, hint): (String, String, Kind, &str),
    read_text: Arc<dyn Fn(&PriceBook) -> String + Send + Sync>,
    write: Way,
) -> AnyView {
    let units = Memo::new(move |_| desk.prices.with(|prices| prices.units));
    let text = Memo::new(move |_| desk.prices.with(|prices| read_text(prices)));
    let wrong = Memo::new(move |_| {
        let text = text.get();
        if text.trim().is_empty() {
            None
        } else {
            read::check(&text, kind, units.get()).err().map(|error| error.to_string())
        }
    });
    let typed = Callback::new(move |typed: String| {
        desk.prices.edit(|prices| {
            if let Some(entry) = write(prices) {
                *entry = Entry(typed);
            }
        });
    });
    text_field(
        desk,
        Field {
            key,
            label,
            kind,
            units: units.into(),
            hint: Signal::stored(hint.to_owned()),
            text: text.into(),
            wrong: wrong.into(),
            typed,
        },
    )
}

/// A field of the book that is always there.
fn fixed(
    desk: Desk,
    name: BookField,
    look: fn(&PriceBook) -> &Entry,
    write: fn(&mut PriceBook) -> &mut Entry,
) -> AnyView {
    let parts = (FieldPath::Book(name).key(), name.label().to_owned(), name.kind(), name.spec().hint);
    book_field(
        desk,
        parts,
        Arc::new(move |prices| look(prices).text().to_owned()),
        Arc::new(move |prices| Some(write(prices))),
    )
}

fn kind_of(measure: Measure) -> Kind {
    match measure {
        Measure::Count => Kind::Count,
        Measure::Length => Kind::Length,
        Measure::Area => Kind::Area,
        Measure::Volume => Kind::Volume,
        Measure::Mass => Kind::Mass,
        Measure::Dose => Kind::Dose,
    }
}

/// What is typed of something that is bought: which text, and the way to it.
#[derive(Clone, Copy)]
struct Part {
    word: &'static str,
    key: &'static str,
    look: fn(&Good) -> &Entry,
    write: fn(&mut Good) -> &mut Entry,
}

const PRICE: Part = Part { word: "Price", key: "price", look: |good| &good.price, write: |good| &mut good.price };
const PACK: Part = Part { word: "A pack holds", key: "pack", look: |good| &good.pack, write: |good| &mut good.pack };
const STOCK: Part = Part { word: "At hand", key: "stock", look: |good| &good.stock, write: |good| &mut good.stock };
const USES: Part = Part { word: "Uses", key: "uses", look: |good| &good.uses, write: |good| &mut good.uses };
const DATE: Part =
    Part { word: "Price of", key: "date", look: |good| &good.priced_on, write: |good| &mut good.priced_on };

fn good_field(desk: Desk, id: &str, label: String, kind: Kind, part: Part, hint: &str) -> AnyView {
    let (reading, writing) = (id.to_owned(), id.to_owned());
    let Part { look, write, key, .. } = part;
    book_field(
        desk,
        (format!("{key}-{}", id.replace([':', ' '], "-")), label, kind, hint),
        Arc::new(move |prices| look(&prices.good(&reading)).text().to_owned()),
        Arc::new(move |prices| Some(write(prices.good_mut(&writing)))),
    )
}

/// Pack, charge, stock and day of the price.
fn good_details(desk: Desk, id: &str, name: &str) -> AnyView {
    let kind = kind_of(goods::measure(id));
    let units = desk.prices.with_untracked(|prices| prices.units);
    let usual = goods::pack_hint(id, units);
    let asked = id.to_owned();
    let charge = Memo::new(move |_| place_of(&ChargeBy::ALL, &desk.prices.with(|prices| prices.good(&asked).charge)));
    let chosen = id.to_owned();
    let choose = Callback::new(move |at: usize| {
        let charge = ChargeBy::ALL.get(at).copied().unwrap_or_default();
        desk.prices.edit(|prices| prices.good_mut(&chosen).charge = charge);
    });
    let options = ChargeBy::ALL.into_iter().map(ChargeBy::label).enumerate().collect();
    let by_uses = {
        let id = id.to_owned();
        move || {
            (ChargeBy::ALL.get(charge.get()) == Some(&ChargeBy::Uses))
                .then(|| good_field(desk, &id, USES.word.to_owned(), Kind::Count, USES, ""))
        }
    };
    view! {
        <div class="good">
            <h3>{name.to_owned()}</h3>
            <div class="fields">
                {good_field(desk, id, PACK.word.to_owned(), kind, PACK, &usual)}
                {good_field(desk, id, STOCK.word.to_owned(), kind, STOCK, "")}
                {good_field(desk, id, DATE.word.to_owned(), Kind::Date, DATE, "")}
                {by_uses}
            </div>
            {choice("A job is charged", options, charge.into(), choose)}
        </div>
    }
    .into_any()
}

fn bag_fields(desk: Desk, id: &str, name: &str) -> AnyView {
    let part = |key: &'static str, label: String, kind: Kind, pick: fn(&mut crate::price::BagPrice) -> &mut Entry| {
        let (reading, writing) = (id.to_owned(), id.to_owned());
        let look = move |prices: &PriceBook| {
            let own = prices.bags.iter().find(|own| own.bag == reading);
            own.cloned().map_or_else(String::new, |mut own| pick(&mut own).text().to_owned())
        };
        book_field(
            desk,
            (format!("{key}-{id}"), label, kind, ""),
            Arc::new(look),
            Arc::new(move |prices| Some(pick(prices.bag_mut(&writing)))),
        )
    };
    view! {
        {part("price", format!("A bag of {name}"), Kind::Money, |bag| &mut bag.price)}
        {part("stock", "Bags at hand".to_owned(), Kind::Count, |bag| &mut bag.stock)}
    }
    .into_any()
}

/// Currency, terms, and the price of everything that this job takes.
pub fn prices(desk: Desk) -> AnyView {
    let needed = Memo::new(move |_| {
        desk.estimate.with(|all| {
            let mut found: Vec<(String, String)> = Vec::new();
            for need in &all.pricing.needs.known {
                if !found.iter().any(|(id, _)| *id == need.id) {
                    found.push((need.id.clone(), need.name.clone()));
                }
            }
            found
        })
    });
    let bags = move || {
        let bags = desk.job.with(|job| {
            let bagged = job.bags.iter().filter(|bag| bag.recipe.is_none());
            let cast = bagged.filter(|bag| job.pieces.iter().any(|piece| piece.bag == bag.id));
            cast.map(|bag| (bag.id.clone(), bag.name.text().to_owned())).collect::<Vec<_>>()
        });
        bags.into_iter().map(|(id, name)| bag_fields(desk, &id, &name)).collect_view()
    };
    let goods_of =
        move || needed.get().into_iter().filter(|(id, _)| !id.starts_with("bag:") && !id.starts_with("pad:"));
    let goods = move || goods_of().map(|(id, name)| good_field(desk, &id, name, Kind::Money, PRICE, "")).collect_view();
    let details = move || goods_of().map(|(id, name)| good_details(desk, &id, &name)).collect_view();
    view! {
        <section class="card" aria-label="Prices" id=FieldPath::Book(BookField::Prices).key()>
            <h2>"Your prices"</h2>
            <p class="quiet-text">"Kept in this browser for every job; never part of a shared file."</p>
            <div class="fields">
                {bags}
                {fixed(desk, BookField::Wage, |book| &book.wage, |book| &mut book.wage)}
            </div>
            <details>
                <summary>"Everything else it takes"</summary>
                <p class="quiet-text">"What a pack costs. Blank leaves it out of the price, and the price says so."</p>
                <div class="fields">{goods}</div>
                <details>
                    <summary>"Packs, stock, how a job is charged"</summary>
                    {details}
                </details>
            </details>
            {terms(desk)}
        </section>
    }
    .into_any()
}

/// What comes onto the costs, and in what the book is kept.
fn terms(desk: Desk) -> AnyView {
    let margins = MarginOn::ALL.into_iter().map(MarginOn::label).enumerate().collect();
    let margin_on = Memo::new(move |_| place_of(&MarginOn::ALL, &desk.prices.with(|prices| prices.margin_on)));
    let choose = Callback::new(move |at: usize| {
        let on = MarginOn::ALL.get(at).copied().unwrap_or_default();
        desk.prices.edit(|prices| prices.margin_on = on);
    });
    let units = Memo::new(move |_| desk.prices.with(|prices| prices.units));
    let systems = vec![(0, "ft, lb, gal"), (1, "m, kg, L")];
    let metric = Signal::derive(move || usize::from(units.get() == Units::Metric));
    let change = Callback::new(move |at: usize| {
        desk.prices.edit(|prices| prices.units = if at == 1 { Units::Metric } else { Units::Inch });
    });
    view! {
        <details>
            <summary>"Overhead, margin, tax"</summary>
            <div class="fields">
                {fixed(desk, BookField::Overhead, |book| &book.overhead, |book| &mut book.overhead)}
                {fixed(desk, BookField::Margin, |book| &book.margin, |book| &mut book.margin)}
                {fixed(desk, BookField::Tax, |book| &book.tax, |book| &mut book.tax)}
                {currency_field(desk)}
            </div>
            {choice("The margin is a share", margins, margin_on.into(), choose)}
            {choice("A bare number in this book is", systems, metric, change)}
            {maker_lines(desk)}
        </details>
    }
    .into_any()
}

/// Name and address above a quote.
fn maker_lines(desk: Desk) -> AnyView {
    let text = move || desk.prices.with(|prices| prices.maker.text().to_owned());
    view! {
        <div class="field">
            <label for="book-maker">"Your name and address, above a quote"</label>
            <textarea id="book-maker" prop:value=text
                on:change=move |event| desk.prices.edit(|prices| prices.maker = Entry(event_target_value(&event)))/>
        </div>
    }
    .into_any()
}

fn currency_field(desk: Desk) -> AnyView {
    let text = Memo::new(move |_| desk.prices.with(|prices| prices.currency.clone()));
    let wrong = Memo::new(move |_| {
        let fine = text.with(|text| text.len() == 3 && text.chars().all(|letter| letter.is_ascii_uppercase()));
        (!fine).then(|| "Three capital letters, as in USD or EUR.".to_owned())
    });
    let typed =
        Callback::new(move |typed: String| desk.prices.edit(|prices| prices.currency = typed.trim().to_uppercase()));
    let units = Signal::derive(move || desk.units());
    let (key, label) = ("price-currency".to_owned(), "Currency".to_owned());
    text_field(
        desk,
        Field {
            key,
            label,
            kind: Kind::Text,
            units,
            hint: Signal::default(),
            text: text.into(),
            wrong: wrong.into(),
            typed,
        },
    )
}

/// What is typed of a pad: its word, kind and place.
type PadPart = (&'static str, Kind, fn(&mut OwnedPad) -> &mut Entry);

const PAD_PARTS: [PadPart; 6] = [
    ("Grit, blank for the wheel", Kind::Count, |pad| &mut pad.grit),
    ("Face an hour", Kind::Area, |pad| &mut pad.pace),
    ("Lasts for", Kind::Area, |pad| &mut pad.life),
    ("Price", Kind::Money, |pad| &mut pad.price),
    ("Across", Kind::Length, |pad| &mut pad.diameter),
    ("Rated rim speed", Kind::SurfaceSpeed, |pad| &mut pad.rated),
];

/// The maker's wheel and pads.
pub fn pads(desk: Desk) -> AnyView {
    let count = Memo::new(move |_| desk.prices.with(|prices| prices.pads.len()));
    let one = move |index: usize| {
        let part = move |(place, (label, kind, pick)): (usize, PadPart)| {
            let look = move |prices: &PriceBook| {
                prices.pads.get(index).cloned().map_or_else(String::new, |mut pad| pick(&mut pad).text().to_owned())
            };
            book_field(
                desk,
                (format!("pad-{index}-{place}"), label.to_owned(), kind, ""),
                Arc::new(look),
                Arc::new(move |prices| prices.pads.get_mut(index).map(pick)),
            )
        };
        view! {
            <h3>{format!("Tool {}", index + 1)}</h3>
            <div class="fields">{PAD_PARTS.into_iter().enumerate().map(part).collect_view()}</div>
        }
    };
    let add = move |_| desk.prices.edit(|prices| prices.pads.push(OwnedPad::default()));
    let usual = move |_| {
        desk.prices.edit(|prices| {
            prices.pads.push(OwnedPad::default());
            let grits = crate::finish::limits::GRITS.into_iter();
            prices.pads.extend(grits.map(|grit| OwnedPad { grit: Entry(grit.to_string()), ..OwnedPad::default() }));
        });
    };
    let drop_last = move |_| desk.prices.edit(|prices| drop(prices.pads.pop()));
    let content = view! {
        <p class="quiet-text" id=FieldPath::Book(BookField::Pads).key()>"What you own decides the sequence of grits, the hours and the share of each pad."</p>
        {move || (0..count.get()).map(one).collect_view()}
        <div class="row">
            <button type="button" on:click=add>"+ Wheel or pad"</button>
            {move || (count.get() == 0).then(|| view! { <button type="button" on:click=usual>"I own the usual ones"</button> })}
            {move || (count.get() > 0).then(|| view! { <button type="button" class="danger" on:click=drop_last>"Remove the last"</button> })}
        </div>
    };
    folded("Your wheel and pads", content.into_any())
}

/// The maker's pace, task by task.
pub fn pace(desk: Desk) -> AnyView {
    let tasks =
        Memo::new(move |_| desk.prices.with(|prices| prices.pace.iter().map(|pace| pace.task).collect::<Vec<Task>>()));
    let one = move |(index, task): (usize, Task)| {
        let part = move |key: &str, label: &str, kind, pick: fn(&mut crate::price::Pace) -> &mut Entry| {
            let look = move |prices: &PriceBook| {
                prices.pace.get(index).cloned().map_or_else(String::new, |mut pace| pick(&mut pace).text().to_owned())
            };
            book_field(
                desk,
                (format!("pace-{index}-{key}"), label.to_owned(), kind, ""),
                Arc::new(look),
                Arc::new(move |prices| prices.pace.get_mut(index).map(pick)),
            )
        };
        view! {
            <h3>{task.label()}</h3>
            <div class="fields">
                {part("fixed", "Whatever the size", Kind::Hours, |pace| &mut pace.fixed)}
                {part("face", "Face an hour", Kind::Area, |pace| &mut pace.face_an_hour)}
            </div>
        }
    };
    let content = view! {
        <p class="quiet-text" id=FieldPath::Book(BookField::Pace).key()>"Usual figures, common practice without a source: put in your own. Finished jobs correct them."</p>
        {move || tasks.get().into_iter().enumerate().map(one).collect_view()}
    };
    folded("Your pace", content.into_any())
}
