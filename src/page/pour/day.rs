//! Pour day: hands and batches on their time line, what would make them fit, the weather, and when it is stripped.

use super::super::desk::Desk;
use super::super::field::field;
use super::super::figures::{plain_row, row, show};
use super::mix::{bag_index, kind_of};
use crate::draw::timeline_drawing;
use crate::estimate::PieceEstimate;
use crate::job::{BarSize, Entry, FieldPath, Lath, PourField, RecipeField, Spell, SpellField};
use crate::measure::{Time, write_duration, write_temperature, write_water};
use crate::pour::clock::{last_batch, placing_took, screeding_took};
use crate::pour::timeline::Remedy;
use crate::pour::{Fit, Plan, write_drying, write_strength};
use crate::print::bag_words;
use crate::working::{Figure, Known};
use leptos::prelude::*;

fn fields(desk: Desk, names: &[PourField]) -> AnyView {
    let all = names.iter().map(|name| field(desk, FieldPath::Pour(*name))).collect_view();
    view! { <div class="fields">{all}</div> }.into_any()
}

/// A card whose rows are made of the chosen piece.
fn card(
    desk: Desk,
    name: &'static str,
    title: &'static str,
    content: AnyView,
    rows: fn(Desk, &PieceEstimate) -> AnyView,
) -> AnyView {
    let rows = move || desk.worked.chosen().map(|piece| rows(desk, &piece));
    view! {
        <section class="card" aria-label=name>
            <h2>{title}</h2>
            {content}
            {rows}
        </section>
    }
    .into_any()
}

/// The card of hands, batches and their time line.
pub fn against_the_clock(desk: Desk) -> AnyView {
    let has_steel = Memo::new(move |_| {
        desk.job.with(|job| {
            let typed = [PourField::SteelAt, PourField::SteelTakes].map(|field| !job.pour.entry(field).is_blank());
            let chosen = job.pieces.get(desk.piece.get()).map(|piece| &piece.reinforcement);
            typed.contains(&true) || chosen.is_some_and(|steel| steel.lath != Lath::None || steel.bars != BarSize::None)
        })
    });
    let steel = move || has_steel.get().then(|| fields(desk, &[PourField::SteelAt, PourField::SteelTakes]));
    let scratch = Memo::new(move |_| bag_index(desk).filter(|bag| kind_of(desk, *bag).is_some()));
    let hands = move || match scratch.get() {
        None => fields(desk, &[PourField::People, PourField::BagsABatch, PourField::MinutesABatch]),
        Some(bag) => view! {
            {fields(desk, &[PourField::People, PourField::MinutesABatch])}
            <div class="fields">{field(desk, FieldPath::Recipe(bag, RecipeField::Batch))}</div>
        }
        .into_any(),
    };
    let content = view! {
        {hands}
        <details>
            <summary>"Mixers, placing, parts"</summary>
            {fields(desk, &[
                PourField::Mixers,
                PourField::Carry,
                PourField::Place,
                PourField::Screed,
                PourField::Parts,
            ])}
            {last_time(desk)}
        </details>
        {steel}
    };
    card(desk, "Pour day", "Against the clock", content.into_any(), plan_rows)
}

/// How long placing and screeding took in the job's own log, each with a tap that plans with it.
fn last_time(desk: Desk) -> AnyView {
    let screeding = Memo::new(move |_| desk.job.with(screeding_took));
    let placing = Memo::new(move |_| {
        desk.cast.with(|all| {
            let plan = all.pieces.get(desk.piece.get())?.plan.as_ref().ok()?;
            desk.job.with(|job| placing_took(plan, job))
        })
    });
    let said = move || {
        let took = |words: &str, took: Option<Time>, field: PourField| {
            took.map(|took| {
                let time = write_duration(took).to_string();
                let typed = time.clone();
                let plan_with = move |_| desk.job.update(|job| *job.pour.entry_mut(field) = Entry::new(&typed));
                view! {
                    <p class="quiet-text">{format!("{words} took {time} last time.")}</p>
                    <div class="row"><button type="button" on:click=plan_with>{format!("Plan with {time}")}</button></div>
                }
            })
        };
        (
            took("Placing a batch", placing.get(), PourField::Place),
            took("Screeding", screeding.get(), PourField::Screed),
        )
    };
    said.into_any()
}

fn pick(plan: &Known<Plan>, pick: fn(&Plan) -> &Figure<Time>) -> Known<Figure<Time>> {
    plan.as_ref().map(|plan| pick(plan).clone()).map_err(Clone::clone)
}

fn plan_rows(desk: Desk, piece: &PieceEstimate) -> AnyView {
    // What is poured at one go has one list of batches.
    let pouring = desk.cast.with(|all| all.pouring_of(desk.piece.get()).cloned());
    let plan = &pouring.as_ref().map_or_else(|| piece.plan.clone(), |pouring| Ok(pouring.plan.clone()));
    let together = pouring.as_ref().zip(piece.pour.as_ref().ok()).map(|(pouring, pour)| {
        desk.job.with(|job| {
            view! {
                {plain_row("Poured together", pouring.words(job))}
                {plain_row("Of it for this piece", pouring.part(pour, job.units))}
            }
        })
    });
    let time = |label: &str, figure: fn(&Plan) -> &Figure<Time>| {
        row(desk, label, show(&pick(plan, figure), |time| write_duration(*time).to_string()))
    };
    let stiffens = plan.as_ref().ok().and_then(|plan| plan.timeline.stiffens).map(|stiffens| {
        let [from, until] = [stiffens.from, stiffens.until].map(|time| write_duration(time).to_string());
        let held = plan.as_ref().ok().map(|plan| write_duration(plan.timeline.held).to_string());
        view! {
            {plain_row("Face coat stiffens, no backer is placed (common practice)", format!("from {from} to {until}"))}
            {plain_row("Longer of both coats, each from its own first water", held.unwrap_or_default())}
        }
    });
    let batches = plan.as_ref().map(|plan| plan.batches.clone()).map_err(Clone::clone);
    let known = plan.as_ref().ok();
    let units = desk.units();
    let last = known.and_then(|plan| last_batch(plan, units)).map(|last| {
        let water = write_water(last.water, units).text;
        plain_row("The last of them", format!("{}, {water} water", bag_words(&last, units)))
    });
    let drawing = known.map(|plan| view! { <div class="times" inner_html=timeline_drawing(&plan.timeline)></div> });
    let joint = known
        .and_then(|plan| plan.timeline.joint_margin)
        .map(|left| plain_row("Least left before a layer stops knitting", write_duration(left).to_string()));
    view! {
        {drawing}
        <div class="figures">
            {together}
            {row(desk, "Batches", show(&batches, |batches| batches.to_string()))}
            {last}
            {time("From first water until screeded", |plan| &plan.timeline.takes)}
            {time("Stays workable", |plan| &plan.timeline.workable)}
            {time("To spare", |plan| &plan.timeline.last_margin)}
            {joint}
            {stiffens}
            {known.map(verdict)}
        </div>
        {known.map(|plan| remedies(desk, plan))}
    }
    .into_any()
}

/// Whether the pour fits its time.
fn verdict(plan: &Plan) -> AnyView {
    let (over, just) = (plan.fit() == Fit::Over, plan.fit() == Fit::Just);
    let parts =
        (plan.parts.len() > 1).then(|| view! { <span>{format!("The largest of {} parts", plan.parts.len())}</span> });
    view! { <div class="plain verdict" class:over=over class:just=just><strong>{plan.verdict()}</strong>{parts}</div> }
        .into_any()
}

/// What makes it fit, or leaves room; nothing where there is no need.
fn remedies(desk: Desk, plan: &Plan) -> AnyView {
    if plan.remedies.is_empty() {
        return ().into_any();
    }
    let buttons = plan.remedies.iter().map(|remedy| remedy_button(desk, plan, *remedy)).collect_view();
    let does = match plan.fit() {
        Fit::Over => "Any one of these makes it fit, with one tap:",
        Fit::Well | Fit::Just => "Any one of these leaves room, with one tap:",
    };
    view! { <p class="quiet-text">{does}</p><div class="row">{buttons}</div> }.into_any()
}

/// One tap that makes the pour fit.
fn remedy_button(desk: Desk, plan: &Plan, remedy: Remedy) -> AnyView {
    let (label, typed) =
        desk.job.with_untracked(|job| (plan.words(remedy.change, job.units), plan.typed(remedy.change, job)));
    let mut letters = label.chars();
    let label = letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect());
    view! { <button type="button" on:click=move |_| desk.job.type_all(typed.clone())>{label}</button> }.into_any()
}

/// The card of the weather and the warmth of the mix.
pub fn weather(desk: Desk) -> AnyView {
    let content = view! {
        {fields(desk, &[PourField::Air, PourField::Humidity, PourField::Wind])}
        <details>
            <summary>"Warmth of the mix"</summary>
            {fields(desk, &[
                PourField::BagTemperature,
                PourField::WaterTemperature,
                PourField::Ice,
                PourField::Mix,
            ])}
        </details>
    };
    card(desk, "Weather", "Weather", content.into_any(), weather_rows)
}

fn weather_rows(desk: Desk, piece: &PieceEstimate) -> AnyView {
    let units = desk.units();
    let mixed = piece.plan.as_ref().ok().map(|plan| match &plan.mixed {
        Some(mixed) => row(
            desk,
            "Mix, as it leaves the mixer",
            show(&Ok(mixed.clone()), |at| write_temperature(*at, units).to_string()),
        ),
        None => plain_row("Mix", write_temperature(plan.timeline.temperature, units).to_string()),
    });
    let drying = piece.drying.as_ref().map(|drying| drying.estimate.clone()).map_err(Clone::clone);
    let band = piece.drying.as_ref().ok().map(|drying| {
        let [least, most] = [drying.least, drying.most].map(|rate| write_drying(rate, units));
        // The unit is said once.
        let least = least.split(' ').next().unwrap_or_default();
        view! {
            {plain_row("Really", format!("{least} to {most}"))}
            {plain_row("Cracks while soft from", write_drying(drying.limit, units))}
        }
    });
    view! {
        <div class="figures">
            {mixed}
            {row(desk, "Open back dries at", show(&drying, |rate| write_drying(*rate, units)))}
            {band}
        </div>
    }
    .into_any()
}

/// The card of curing and stripping.
pub fn strip(desk: Desk) -> AnyView {
    let count = Memo::new(move |_| desk.job.with(|job| job.pour.garage.len()));
    let spell = move |index: usize| {
        let fields = SpellField::ALL.iter().map(|name| field(desk, FieldPath::Spell(index, *name))).collect_view();
        view! { <div class="fields">{fields}</div> }
    };
    let add = move |_| {
        desk.job.grow(|job| job.pour.garage.push(Spell::default()));
    };
    let drop = move |_| desk.job.update(|job| drop(job.pour.garage.pop()));
    let content = view! {
        {fields(desk, &[PourField::StripStrength])}
        <details>
            <summary>"How warm it is around the form"</summary>
            <p class="quiet-text">"From first water on, one spell after the other; the last one goes on. None: as warm as on the day."</p>
            {move || (0..count.get()).map(spell).collect_view()}
            <div class="row">
                <button type="button" on:click=add>"+ Spell"</button>
                <button type="button" class="danger" disabled=move || count.get() == 0 on:click=drop>"Remove the last"</button>
            </div>
        </details>
    };
    card(desk, "Strip time", "Cure and strip", content.into_any(), strip_rows)
}

fn strip_rows(desk: Desk, piece: &PieceEstimate) -> AnyView {
    view! {
        {strip_figures(desk, piece)}
        <p class="quiet-text">"A rapid mix sets from about 15 minutes on: light patches are hard patches. Keep it wet for an hour from then. Other mixes: under film until they are stripped. (Common practice.)"</p>
    }
    .into_any()
}

/// When a piece may be stripped, since the last batch's water.
pub fn strip_figures(desk: Desk, piece: &PieceEstimate) -> AnyView {
    let strip = piece.strip.as_ref().map(|strip| strip.at.clone()).map_err(Clone::clone);
    let range = piece.strip.as_ref().ok().map(|strip| plain_row("By all laws of maturity", strip.range()));
    let waited = piece.strip.as_ref().ok().and_then(|strip| strip.strength);
    let waited = waited.map(|strength| plain_row("Once it has", write_strength(strength, desk.units())));
    view! {
        <div class="figures">
            {waited}
            {row(desk, "Strip after", show(&strip, |time| write_duration(*time).to_string()))}
            {range}
        </div>
        <p class="quiet-text">"Counted from the water of the last batch, the youngest of the piece."</p>
    }
    .into_any()
}
