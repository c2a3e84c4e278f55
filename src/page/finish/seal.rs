//! The sealer: how much, when, and what the client is told.

use super::super::desk::Desk;
use super::super::dom;
use super::super::figures::{plain_row, row, show};
use super::super::paper_print::print_page;
use super::super::pick::{Pick, pick, place_of};
use super::fields::fields;
use crate::finish::{WATERMARK_TEST, care_sheet};
use crate::job::{Entry, FinishField, SealKind, read};
use crate::measure::{Dose, write_area, write_dose, write_small_length};
use crate::print;
use leptos::prelude::*;

/// The card.
pub fn seal(desk: Desk) -> AnyView {
    let kind = Pick {
        legend: "Kind",
        read: |job| place_of(&SealKind::ALL, &job.finish.seal),
        write: |job, place| job.finish.seal = SealKind::ALL.get(place).copied().unwrap_or_default(),
    };
    let today = move |_| {
        desk.job.update(|job| {
            job.finish.seal_date = Entry(dom::iso_date());
            if job.finish.seal_time.is_blank() {
                job.finish.seal_time = Entry::new("09:00");
            }
        });
    };
    view! {
        <section class="card" aria-label="Seal">
            <h2>"Seal"</h2>
            {pick(desk, &SealKind::ALL.map(SealKind::label), kind)}
            {fields(desk, &[FinishField::Sealer, FinishField::Coats, FinishField::Recoat, FinishField::Cure])}
            <details>
                <summary>"Coverage and edges"</summary>
                {fields(desk, &[FinishField::Covers, FinishField::CoversWith, FinishField::RoughExtra])}
            </details>
            <div class="figures">{move || amounts(desk)}</div>
            {fields(desk, &[FinishField::SealDate, FinishField::SealTime])}
            <div class="row"><button type="button" on:click=today>"First coat today"</button></div>
            <div class="figures">{move || not_before(desk)}{move || dates(desk)}</div>
            <p>"The sides of a sink hole stand wettest: seal them like the face, with as many coats. (Common practice.)"</p>
            <p>{WATERMARK_TEST}</p>
            {move || care(desk)}
        </section>
    }
    .into_any()
}

fn amounts(desk: Desk) -> AnyView {
    let units = desk.units();
    desk.estimate.with(|all| {
        let sealing = all.finishing.sealing.as_ref();
        let area = sealing.map(|sealing| sealing.area.clone()).map_err(Clone::clone);
        let amount = sealing.map(|sealing| sealing.amount.clone()).map_err(Clone::clone);
        let curls = all.pieces.iter().enumerate().filter_map(|(index, piece)| {
            let curl = piece.curl.as_ref()?;
            let name = desk.job.with_untracked(|job| read::piece_name(job, index));
            let label = format!("{name}, sealed on its face alone: its middle may rise by");
            Some(row(desk, label, show(&Ok(curl.rise.clone()), |rise| write_small_length(*rise, units).text)))
        });
        let mut rows = vec![
            row(desk, "Area to seal", show(&area, |area| write_area(*area, units).to_string())),
            row(
                desk,
                "Sealer, all coats",
                show(&amount, |volume| write_dose(Dose::Volume(*volume), units).to_string()),
            ),
        ];
        rows.extend(curls);
        rows.collect_view().into_any()
    })
}

/// From when on the first coat may go on.
fn not_before(desk: Desk) -> AnyView {
    desk.estimate.with(|all| {
        let drying = all.finishing.drying.as_ref();
        let age = drying.map(|drying| drying.age.clone()).map_err(Clone::clone);
        let words = drying.map_or_else(|_| String::new(), |drying| drying.words());
        row(desk, "First coat", show(&age, |_| words.clone()))
    })
}

fn dates(desk: Desk) -> AnyView {
    desk.estimate.with(|all| match &all.finishing.schedule {
        Ok(schedule) => {
            let coats = schedule.coats.iter().enumerate();
            let mut rows: Vec<_> =
                coats.map(|(coat, at)| plain_row(format!("Coat {}", coat + 1), at.to_string())).collect();
            rows.push(plain_row("Cured, ready for use", schedule.cured.to_string()));
            rows.collect_view().into_any()
        }
        Err(waiting) => row(desk, "Dates", Err(waiting.clone())),
    })
}

/// What the client is told, once it is known from when on.
fn care(desk: Desk) -> Option<AnyView> {
    let cured = desk.estimate.with(|all| all.finishing.schedule.as_ref().ok().map(|schedule| schedule.cured.date))?;
    let kind = desk.job.with(|job| job.finish.seal);
    let lines = care_sheet(kind, cured).into_iter().map(|line| view! { <li>{line.says}</li> }).collect_view();
    let print_care = move |_| {
        let page = desk.job.with_untracked(|job| desk.estimate.with_untracked(|all| print::care_page(job, all)));
        if let Some(page) = page {
            print_page(desk, &page);
        }
    };
    Some(
        view! {
            <details>
                <summary>"Care sheet for the client"</summary>
                <ul class="plain-list">{lines}</ul>
                <div class="row"><button type="button" on:click=print_care>"Print the care sheet"</button></div>
            </details>
        }
        .into_any(),
    )
}
