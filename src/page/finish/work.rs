//! Grinding, polishing and filling.

use super::super::desk::Desk;
use super::super::field::{explained, field};
use super::super::figures::{plain_row, row, show};
use super::super::pick::{Pick, pick, place_of};
use super::fields::{fields, step_cautions};
use crate::finish::{EDGES_AS_CAST, Step, write_speed};
use crate::job::{
    DefectEntry, DefectField, DefectKind, Entry, Exposure, FieldPath, FinishField, GrindingWay, Job, Kind, Sheen,
};
use crate::measure::{Dose, write_dose, write_duration, write_mass, write_percent};
use leptos::prelude::*;

const EXPOSURES: [&str; 5] = ["Not decided", "Cream", "Sand", "Medium", "Full"];
const SHEENS: [&str; 4] = ["Not polished", "Honed", "Satin", "Gloss"];

/// The place of an optional choice: first none, then all in order.
fn optional<T: PartialEq>(all: &[T], value: Option<T>) -> usize {
    value.map_or(0, |value| place_of(all, &value) + 1)
}

/// Exposure, pads, hours, dust.
pub fn grind(desk: Desk) -> AnyView {
    let exposure = Pick {
        legend: "How much aggregate shows",
        read: |job| optional(&Exposure::ALL, job.finish.exposure),
        write: |job, place| job.finish.exposure = place.checked_sub(1).and_then(|at| Exposure::ALL.get(at).copied()),
    };
    let sheen = Pick {
        legend: "How much it shines",
        read: |job| optional(&Sheen::ALL, job.finish.sheen),
        write: |job, place| job.finish.sheen = place.checked_sub(1).and_then(|at| Sheen::ALL.get(at).copied()),
    };
    let way = Pick {
        legend: "Ground",
        read: |job| place_of(&GrindingWay::ALL, &job.finish.way),
        write: |job, place| job.finish.way = GrindingWay::ALL.get(place).copied().unwrap_or_default(),
    };
    let is_wet = Memo::new(move |_| desk.job.with(|job| job.finish.way == GrindingWay::Wet));
    view! {
        <section class="card" aria-label="Grind">
            <h2>"Grind and polish"</h2>
            {pick(desk, &EXPOSURES, exposure)}
            {move || take_off(desk)}
            {pick(desk, &SHEENS, sheen)}
            {pick(desk, &GrindingWay::ALL.map(GrindingWay::label), way)}
            {move || is_wet.get().then(|| fields(desk, &[FinishField::GrindingWater]))}
            <div class="figures">{move || grind_rows(desk)}</div>
            <p>{EDGES_AS_CAST}</p>
            {move || step_cautions(if is_wet.get() { Step::GrindWet } else { Step::GrindDry })}
        </section>
    }
    .into_any()
}

/// One tap that has every piece cast thicker by what the exposure takes off; nothing where it is so already.
fn take_off(desk: Desk) -> Option<AnyView> {
    let exposure = desk.job.with(|job| job.finish.exposure)?;
    let units = desk.units();
    let text = exposure.depth_text(units);
    let wanted = text.clone();
    let differs = desk.job.with(|job| {
        let is_nothing = |entry: &Entry| entry.is_blank() && wanted == "0";
        job.pieces.iter().any(|piece| piece.grinding.text().trim() != wanted && !is_nothing(&piece.grinding))
    });
    let label = if exposure == Exposure::Cream {
        "Grind nothing off".to_owned()
    } else {
        format!("Grind {text} {} off every piece", Kind::Length.unit(units))
    };
    differs.then(|| {
        let set = move |_| {
            desk.job.update(|job| job.pieces.iter_mut().for_each(|piece| piece.grinding = Entry::new(&text)));
        };
        view! {
            <div class="row"><button type="button" on:click=set>{label}</button></div>
            <p class="quiet-text">"The piece is cast that much thicker, so its form, bags and weight change."</p>
        }
        .into_any()
    })
}

fn grind_rows(desk: Desk) -> AnyView {
    let units = desk.units();
    desk.estimate.with(|all| {
        let finishing = &all.finishing;
        let mut rows = Vec::new();
        let removed = finishing.removed.as_ref().map_err(Clone::clone);
        match removed {
            Ok(Some(removed)) => {
                let mass = Ok(removed.mass.clone());
                rows.push(row(desk, "Dust, dry", show(&mass, |mass| write_mass(*mass, units).to_string())));
            }
            Ok(None) => rows.push(plain_row("Ground off", "nothing")),
            Err(waiting) => rows.push(row(desk, "Dust, dry", Err(waiting))),
        }
        if let Some(slurry) = &finishing.slurry {
            rows.push(row(desk, "Slurry, wet", show(slurry, |mass| write_mass(*mass, units).to_string())));
        }
        for step in &finishing.sequence.steps {
            let speed = finishing.speeds.iter().find(|(tool, _)| *tool == step.tool);
            let owned = if step.owned { "yours" } else { "to buy" };
            let name = step.tool.words();
            rows.push(match speed {
                Some((_, speed)) => {
                    let speed = Ok(speed.clone());
                    row(
                        desk,
                        format!("{name}, {owned}"),
                        show(&speed, |speed| format!("at most {}", write_speed(*speed))),
                    )
                }
                None => plain_row(name, owned),
            });
        }
        if !finishing.sequence.steps.is_empty() {
            rows.push(row(desk, "Time", show(&finishing.time, |time| write_duration(*time).to_string())));
        }
        if let Some(dust) = &finishing.dust {
            let air = dust.as_ref().map(|dust| dust.air.clone()).map_err(Clone::clone);
            let written = air.as_ref().ok().map(|air| air.working.result(desk.units()));
            rows.push(row(desk, "Air through the shroud", show(&air, |_| written.clone().unwrap_or_default())));
            if let Ok(dust) = dust {
                rows.push(plain_row("Its filter holds back, at least", write_percent(dust.filter)));
                rows.push(plain_row("Respirator", dust.respirator_words()));
            }
        }
        rows.collect_view().into_any()
    })
}

/// Pinholes and cracks.
pub fn fill(desk: Desk) -> AnyView {
    let count = Memo::new(move |_| desk.job.with(|job| job.finish.defects.len()));
    let add = move |kind| {
        desk.job.grow(|job: &mut Job| job.finish.defects.push(DefectEntry { kind, ..DefectEntry::default() }));
    };
    let defect = move |index: usize| {
        let kind =
            desk.job.with_untracked(|job| job.finish.defects.get(index).map_or(DefectKind::Crack, |one| one.kind));
        let names: &[DefectField] = match kind {
            DefectKind::Pinholes => &[DefectField::Count, DefectField::Width, DefectField::Depth],
            DefectKind::Crack => &[DefectField::Length, DefectField::Width, DefectField::Depth],
        };
        view! {
            <h3>{kind.label()}</h3>
            <div class="fields">{names.iter().map(|name| field(desk, FieldPath::Defect(index, *name))).collect_view()}</div>
        }
    };
    let drop_last = move |_| desk.job.update(|job| drop(job.finish.defects.pop()));
    view! {
        <section class="card" aria-label="Fill">
            <h2>"Pinholes and cracks"</h2>
            <p class="quiet-text">{explained("A slurry of the pour's own cement and pigment, worked in, cured, ground flush.")}</p>
            {move || (0..count.get()).map(defect).collect_view()}
            <div class="row">
                <button type="button" on:click=move |_| add(DefectKind::Pinholes)>"+ Pinholes"</button>
                <button type="button" on:click=move |_| add(DefectKind::Crack)>"+ Crack"</button>
                {move || (count.get() > 0).then(|| view! { <button type="button" class="danger" on:click=drop_last>"Remove the last"</button> })}
            </div>
            {move || (count.get() > 0).then(|| view! {
                {fields(desk, &[
                    FinishField::WaterRatio,
                    FinishField::Pigment,
                    FinishField::FillSpare,
                ])}
                <div class="figures">{move || fill_rows(desk)}</div>
                {step_cautions(Step::Fill)}
            })}
        </section>
    }
    .into_any()
}

fn fill_rows(desk: Desk) -> AnyView {
    let units = desk.units();
    desk.estimate.with(|all| {
        let filling = all.finishing.filling.clone();
        filling.map(|filling| {
            let mass = |label: &'static str, pick: fn(&crate::finish::Filling) -> &crate::working::Figure<crate::measure::Mass>| {
                let figure = filling.as_ref().map(|filling| pick(filling).clone()).map_err(Clone::clone);
                row(desk, label, show(&figure, |mass| write_dose(Dose::Mass(*mass), units).to_string()))
            };
            let volume = filling.as_ref().map(|filling| filling.volume.clone()).map_err(Clone::clone);
            [
                row(desk, "The holes take", show(&volume, |volume| write_dose(Dose::Volume(*volume), units).to_string())),
                mass("Cement", |filling| &filling.cement),
                mass("Water", |filling| &filling.water),
                mass("Pigment", |filling| &filling.pigment),
            ]
            .collect_view()
        })
        .into_any()
    })
}
