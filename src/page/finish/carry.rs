//! Weights, the lift, the way in, and setting.

use super::super::desk::Desk;
use super::super::figures::{crew_text, plain_row, row, show};
use super::super::pick::{Pick, pick, pick_list, place_of};
use super::fields::{fields, step_cautions};
use crate::carry::lift::NOT_COVERED;
use crate::carry::set::Cartridges;
use crate::carry::{Carrying, Crew, Passage};
use crate::finish::Step;
use crate::job::{FinishField, Grip, LiftLevel, Reach, Turn};
use crate::measure::{Units, write_length, write_mass, write_number};
use crate::working::{Figure, Known};
use leptos::prelude::*;

/// What the chosen piece weighs at each date, and who lifts it.
pub fn weights(desk: Desk) -> AnyView {
    let rows = move || {
        desk.cast.with(|all| {
            let piece = all.pieces.get(desk.piece.get())?;
            let units = desk.units();
            let weights = piece.weights.as_ref();
            let as_cast = weights.map(|weights| weights.as_cast.clone()).map_err(Clone::clone);
            let installed = weights.map(|weights| weights.installed.clone()).map_err(Clone::clone);
            let dried = weights.ok().and_then(|weights| weights.dried.clone());
            let mass = |label, figure: &Known<Figure<crate::measure::Mass>>| {
                row(desk, label, show(figure, |mass| write_mass(*mass, units).to_string()))
            };
            Some(
                [
                    mass("Fresh, and out of the form", &as_cast),
                    dried.map_or_else(|| ().into_any(), |dried| mass("Dry, not ground yet", &Ok(dried))),
                    mass("Ground, as installed", &installed),
                    row(desk, "People to carry it, ideal lift", show(&piece.crew, |crew| crew_text(*crew))),
                ]
                .collect_view(),
            )
        })
    };
    view! {
        <section class="card" aria-label="Weight">
            <h2>"Weight and people"</h2>
            <div class="figures">{rows}</div>
        </section>
    }
    .into_any()
}

/// The lift in plain choices.
pub fn lift(desk: Desk) -> AnyView {
    let from = Pick {
        legend: "Picked up from",
        read: |job| place_of(&LiftLevel::ALL, &job.finish.lift_from),
        write: |job, place| job.finish.lift_from = LiftLevel::ALL.get(place).copied().unwrap_or_default(),
    };
    let to = Pick {
        legend: "Put down on",
        read: |job| place_of(&LiftLevel::ALL, &job.finish.lift_to),
        write: |job, place| job.finish.lift_to = LiftLevel::ALL.get(place).copied().unwrap_or_default(),
    };
    let reach = Pick {
        legend: "Held",
        read: |job| place_of(&Reach::ALL, &job.finish.reach),
        write: |job, place| job.finish.reach = Reach::ALL.get(place).copied().unwrap_or_default(),
    };
    let turn = Pick {
        legend: "Turning",
        read: |job| place_of(&Turn::ALL, &job.finish.turn),
        write: |job, place| job.finish.turn = Turn::ALL.get(place).copied().unwrap_or_default(),
    };
    let grip = Pick {
        legend: "Hands hold on by",
        read: |job| place_of(&Grip::ALL, &job.finish.grip),
        write: |job, place| job.finish.grip = Grip::ALL.get(place).copied().unwrap_or_default(),
    };
    let measured = move |level: fn(&crate::job::FinishChoices) -> LiftLevel| {
        Memo::new(move |_| desk.job.with(|job| level(&job.finish) == LiftLevel::Measured))
    };
    let (from_measured, to_measured) = (measured(|finish| finish.lift_from), measured(|finish| finish.lift_to));
    let rows = move || {
        desk.cast.with(|all| {
            let carrying = &all.pieces.get(desk.piece.get())?.carrying;
            Some(handling_rows(desk, carrying))
        })
    };
    let levels = LiftLevel::ALL.map(LiftLevel::label);
    view! {
        <section class="card" aria-label="Lift">
            <h2>"The lift"</h2>
            {pick(desk, &levels, from)}
            {move || from_measured.get().then(|| fields(desk, &[FinishField::FromHeight]))}
            {pick(desk, &levels, to)}
            {move || to_measured.get().then(|| fields(desk, &[FinishField::ToHeight]))}
            {pick(desk, &Reach::ALL.map(Reach::label), reach)}
            {pick(desk, &Turn::ALL.map(Turn::label), turn)}
            <div class="fields">{pick_list(desk, "grip", &Grip::ALL.map(Grip::label), grip)}</div>
            {fields(desk, &[FinishField::LiftsAnHour])}
            <div class="figures">{rows}</div>
            <p>{NOT_COVERED}</p>
        </section>
    }
    .into_any()
}

fn handling_rows(desk: Desk, carrying: &Carrying) -> AnyView {
    let units = desk.units();
    let pick = carrying.handling.as_ref();
    let limit = pick.map(|handling| handling.limit.clone()).map_err(Clone::clone);
    let crew = pick.map(|handling| handling.crew.clone()).map_err(Clone::clone);
    let people = |crew: &Crew| match crew {
        Crew::Aid => "not by hand".to_owned(),
        Crew::Hands(_) => crew.words(),
    };
    let index = pick.ok().and_then(|handling| handling.index.clone());
    let many = carrying.many.clone().map(Ok);
    [
        row(desk, "One person may lift so", show(&limit, |mass| write_mass(*mass, units).to_string())),
        row(desk, "People for this piece", show(&crew, people)),
        many.map_or_else(
            || ().into_any(),
            |many| row(desk, "Without a cart, along its edges", show(&many, |many| format!("{many} people"))),
        ),
        index.map_or_else(
            || ().into_any(),
            |index| row(desk, "Lifting index, up to 1 is good", show(&Ok(index), |index| write_number(*index, 2))),
        ),
    ]
    .collect_view()
    .into_any()
}

/// Doorway, turn and van.
pub fn way_in(desk: Desk) -> AnyView {
    let rows = move || {
        desk.cast.with(|all| {
            let ways = &all.pieces.get(desk.piece.get())?.carrying.ways;
            Some(ways.iter().map(|(passage, ways)| way_rows(desk, *passage, ways)).collect_view())
        })
    };
    view! {
        <section class="card" aria-label="Way in">
            <h2>"The way in"</h2>
            <p class="quiet-text">"Clear sizes at the tightest place; blank is not looked at."</p>
            {fields(desk, &[FinishField::DoorWidth, FinishField::DoorHeight])}
            <details>
                <summary>"A turn, and the van"</summary>
                {fields(desk, &[FinishField::TurnBefore, FinishField::TurnAfter, FinishField::TurnHeight])}
                {fields(desk, &[FinishField::VanLength, FinishField::VanWidth, FinishField::VanHeight])}
            </details>
            <div class="figures">{rows}</div>
            {step_cautions(Step::Carry)}
        </section>
    }
    .into_any()
}

fn way_rows(desk: Desk, passage: Passage, ways: &Known<Vec<crate::carry::way::Pass>>) -> AnyView {
    match ways {
        Ok(ways) => ways
            .iter()
            .map(|pass| {
                let margin = write_length(pass.margin.abs(), desk.units()).text;
                let words = match (pass.works(), pass.margin.is_finite()) {
                    (true, _) => format!("{margin} to spare"),
                    (false, true) => format!("{margin} short"),
                    (false, false) => "does not pass".to_owned(),
                };
                plain_row(format!("{}, {}", passage.label(), pass.hold.label().to_lowercase()), words)
            })
            .collect_view()
            .into_any(),
        Err(waiting) => row(desk, passage.label(), Err(waiting.clone())),
    }
}

/// Adhesive, caulk, shims, and what the cabinet carries.
pub fn set(desk: Desk) -> AnyView {
    let rows = move || {
        desk.estimate.with(|all| {
            let tubes = |label: &'static str, found: &Option<Known<Cartridges>>| match found {
                Some(found) => {
                    let figure = found.as_ref().map(|found| found.share.clone()).map_err(Clone::clone);
                    row(desk, label, show(&figure, |share| format!("{} cartridges", write_number(*share, 2))))
                }
                None => plain_row(label, "none"),
            };
            let load = all.pieces.get(desk.piece.get()).and_then(|piece| piece.carrying.load.clone());
            let loads = load.map(|load| {
                let area = load.as_ref().map(|load| load.area.clone()).map_err(Clone::clone);
                let rail = load.as_ref().map(|load| load.rail.clone()).map_err(Clone::clone);
                [row(desk, "Load on the cabinet", ending(area, desk.units())), row(desk, "Along its rails", ending(rail, desk.units()))].collect_view()
            });
            view! { {tubes("Adhesive", &all.setting.adhesive)} {tubes("Caulk at the walls", &all.setting.caulk)} {loads} }
        })
    };
    view! {
        <section class="card" aria-label="Set">
            <h2>"Set"</h2>
            <p>"Spot dabs on the cabinet rails, not a full bead. Shim, check the level, caulk to the walls, silicone at the sink. (Common practice.)"</p>
            <div class="figures">{rows}</div>
            <details>
                <summary>"Dabs, gaps, shims"</summary>
                {fields(desk, &[FinishField::DabSpacing, FinishField::DabWidth, FinishField::DabHeight])}
                {fields(desk, &[FinishField::GapWidth, FinishField::GapDepth, FinishField::Shims])}
            </details>
        </section>
    }
    .into_any()
}

/// A number in the words in which its own working ends.
fn ending<T>(figure: Known<Figure<T>>, units: Units) -> Known<super::super::figures::Shown> {
    figure.map(|figure| super::super::figures::Shown { text: figure.working.result(units), working: figure.working })
}
