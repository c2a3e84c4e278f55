//! The paper: a job as a tidy estimate that anybody can read.

use super::dom::moment_of;
use super::figures::crew_text;
use crate::draw::{Face, plan};
use crate::estimate::{Estimate, PieceEstimate};
use crate::job::{Job, Logged};
use crate::measure::{
    Length, Units, write_area, write_dose, write_duration, write_length, write_mass, write_number, write_volume,
    write_water, write_weighed,
};
use crate::mix::{Order, Supply};
use crate::pour::Pouring;
use crate::print::{List, Row, cut_rows, log_words, mix_lists, typed_rows};
use crate::store::{self, Sheet, SheetDrawing, SheetFinding, SheetRow, SheetSection};
use crate::working::{Figure, Known};

/// The shared file of a job: its name, and its whole text.
pub fn page(job: &Job, all: &Estimate, date: &str) -> (String, String) {
    (store::file_name(job), store::share_page(job, &sheet(job, all, date)))
}

/// The same as plain text.
pub fn words(job: &Job, all: &Estimate, date: &str) -> String {
    store::share_text(&sheet(job, all, date))
}

fn row(label: impl Into<String>, value: impl Into<String>) -> SheetRow {
    SheetRow { label: label.into(), value: value.into() }
}

/// A number that is not there is written as a dash: paper waits for nothing.
fn figure<T>(label: &str, known: &Known<Figure<T>>, write: impl Fn(&T) -> String) -> SheetRow {
    row(label, known.as_ref().map_or_else(|_| "—".to_owned(), |figure| write(&figure.value)))
}

fn sheet(job: &Job, all: &Estimate, date: &str) -> Sheet {
    let units = job.units;
    let headline = vec![
        figure("Bags", &all.headline.bags, |bags| bags.to_string()),
        figure("Water", &all.headline.water, |water| write_water(*water, units).text),
        figure("Weight", &all.headline.weight, |mass| write_mass(*mass, units).text),
        figure("People", &all.headline.people, |crew| crew_text(*crew)),
    ];
    let mut drawings = Vec::new();
    let mut sections = Vec::new();
    for (index, piece) in all.pieces.iter().enumerate() {
        let name = job.pieces.get(index).map_or_else(String::new, |piece| piece.name.text().to_owned());
        let name = if name.trim().is_empty() { format!("Piece {}", index + 1) } else { name };
        let drawing = job.pieces.get(index).and_then(|typed| plan(piece, typed, units, Face::Installed, None));
        if let Some(drawing) = drawing {
            drawings.push(SheetDrawing { caption: name.clone(), svg: drawing.svg });
        }
        sections.push(piece_section(job, index, &name, piece));
        sections.push(form_section(job, index, &name, (piece, all.pouring_of(index))));
        sections.extend(mix_lists(job, all, index).into_iter().map(|list| mix_section(&name, list)));
        // What was poured at one go has its log in its first piece.
        let together = all.pouring_of(index).filter(|pouring| pouring.log_in(job) == Some(index));
        let poured = together.map_or_else(|| name.clone(), |pouring| pouring.words(job));
        sections.extend(log_section(job, index, &poured));
    }
    sections.extend(all.orders.iter().flatten().map(|order| {
        let name = job.bags.get(order.bag).map_or("", |bag| bag.name.text());
        SheetSection { heading: format!("To order: {name}"), rows: order_rows(order, units) }
    }));
    let findings = all
        .findings
        .iter()
        .map(|one| SheetFinding { severity: one.severity, says: one.says.write(job), remedy: one.remedy.write(job) })
        .collect();
    Sheet {
        title: if job.name.is_blank() { "A concrete top".to_owned() } else { job.name.text().to_owned() },
        client: job.client.text().to_owned(),
        date: date.to_owned(),
        drawings,
        headline,
        sections,
        findings,
        notes: job.notes.text().to_owned(),
        footer: "Estimates for planning, not engineering. Local codes and a licensed engineer decide anything that \
                 carries people or spans a gap."
            .to_owned(),
    }
}

fn order_rows(order: &Order, units: Units) -> Vec<SheetRow> {
    let bags = order.bags.value.to_string();
    let mut rows = vec![
        row(if order.scratch().is_some() { "Bags of cement" } else { "Bags" }, bags),
        row("Mix, spare included", write_volume(order.volume.value, units).to_string()),
    ];
    let water = row("Water in all", write_water(order.water.value, units).to_string());
    match &order.supply {
        Supply::Bags(bagged) => {
            rows.push(row("Water a bag", write_water(bagged.water_a_bag, units).to_string()));
            rows.push(water);
            rows.extend(bagged.additives.iter().map(|additive| {
                row(
                    format!("{}, {} a bag", additive.name, write_dose(additive.a_bag, units).text),
                    write_dose(additive.in_all, units).to_string(),
                )
            }));
        }
        Supply::Scratch(scratch) => {
            let materials = scratch.materials.iter();
            rows.extend(materials.map(|one| row(one.name.clone(), write_weighed(one.mass.value, units))));
            rows.push(water);
            rows.push(row("Water to cement", write_number(scratch.water_to_cement.value, 2)));
        }
    }
    rows
}

/// What goes into each batch of a mix made from scratch.
fn mix_section(name: &str, list: List) -> SheetSection {
    let mut rows = vec![row("Batches", list.lead)];
    rows.extend(list.rows.into_iter().flatten().map(list_row));
    rows.retain(|row| !row.value.is_empty());
    SheetSection { heading: format!("{name}. {}", list.heading), rows }
}

/// A row of a list: how it is made stands behind what it is.
fn list_row(one: Row) -> SheetRow {
    let name = if one.mark.is_empty() { one.name } else { format!("{}, {}", one.mark, one.name) };
    row(name, [vec![one.value], one.how].concat().join("; ").replace(":; ", ": "))
}

/// What was typed, as typed; and what follows for the finished piece.
fn piece_section(job: &Job, index: usize, name: &str, piece: &PieceEstimate) -> SheetSection {
    let units = job.units;
    let mut rows: Vec<_> = typed_rows(job, index).into_iter().map(list_row).collect();
    rows.push(figure("Face, less cutouts", &piece.top.area, |area| write_area(*area, units).to_string()));
    let weights = piece.weights.as_ref().ok();
    rows.push(row(
        "Weight, out of the form",
        weights.map_or("—".to_owned(), |weights| write_mass(weights.as_cast.value, units).to_string()),
    ));
    rows.push(row(
        "Weight, installed",
        weights.map_or("—".to_owned(), |weights| write_mass(weights.installed.value, units).to_string()),
    ));
    rows.push(figure("People to carry it", &piece.crew, |crew| crew_text(*crew)));
    SheetSection { heading: name.to_owned(), rows }
}

/// What happened at the pour, if it was poured with the clock.
fn log_section(job: &Job, index: usize, name: &str) -> Option<SheetSection> {
    let log = &job.pieces.get(index)?.log;
    let parts = log.iter().map(|line| line.part).max()?.saturating_add(1);
    let line = |line: &Logged| row(log_words(line.part, parts, line.step), moment_of(line.at as f64));
    Some(SheetSection { heading: format!("Pour of {name}, as it went"), rows: log.iter().map(line).collect() })
}

fn form_section(
    job: &Job,
    index: usize,
    name: &str,
    (piece, pouring): (&PieceEstimate, Option<&Pouring>),
) -> SheetSection {
    let units = job.units;
    let write = |length: Length| write_length(length, units).to_string();
    let mut rows = Vec::new();
    if let Ok(form) = &piece.form {
        rows.push(row(
            "Clear inside",
            format!("{} × {}", write(form.clear_width.value), write(form.clear_depth.value)),
        ));
        rows.push(row("Base", format!("{} × {}", write(form.base_width.value), write(form.base_depth.value))));
        rows.push(row("Cast thickness", write(form.cast_thickness.value)));
        rows.push(row("Side height", write(form.side_height.value)));
        let cuts = job.pieces.get(index).and_then(|typed| cut_rows(form, typed, units).ok());
        rows.extend(cuts.into_iter().flatten().map(list_row));
    }
    let alone = || Some((piece.plan.as_ref().ok()?, "Batches".to_owned()));
    let together = pouring.map(|pouring| (&pouring.plan, format!("Batches of {}", pouring.words(job))));
    if let Some((plan, label)) = together.or_else(alone) {
        rows.push(row(
            label,
            format!(
                "{}, {} in all, workable {}",
                plan.batches.value,
                write_duration(plan.timeline.takes.value),
                write_duration(plan.timeline.workable.value)
            ),
        ));
    }
    SheetSection { heading: format!("Form for {name}, mirror image of the plan"), rows }
}
