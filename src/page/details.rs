//! The job's own words: name, client, notes, units.

use super::desk::Desk;
use super::field::{choice, field};
use crate::job::{Entry, FieldPath, JobField, SeamField};
use crate::measure::Units;
use leptos::prelude::*;

/// The card.
pub fn details(desk: Desk) -> AnyView {
    let units = Signal::derive(move || desk.units());
    let choices = vec![(Units::Inch, "Inches, pounds"), (Units::Metric, "Millimetres, kilograms")];
    let notes = move || desk.job.with(|job| job.notes.text().to_owned());
    let key = FieldPath::Job(JobField::Notes).key();
    view! {
        <section class="card" aria-label="The job">
            <h2>"The job"</h2>
            <div class="fields">
                {field(desk, FieldPath::Job(JobField::Name))}
                {field(desk, FieldPath::Job(JobField::Client))}
            </div>
            <div class="fields">
                {field(desk, FieldPath::Seam(SeamField::Longest))}
                {field(desk, FieldPath::Seam(SeamField::Heaviest))}
            </div>
            <div class="field">
                <label for=key.clone()>"Notes"</label>
                <textarea
                    id=key
                    prop:value=notes
                    on:input=move |event| desk.job.update(|job| job.notes = Entry(event_target_value(&event)))
                />
            </div>
            {choice("A bare number is read in", choices, units, Callback::new(move |units| desk.job.change_units(units)))}
            <p class="quiet-text">"Cabinet box, door swing, faucet on deck or wall, sink type, doors and stairs on the way in: note them here."</p>
        </section>
    }
    .into_any()
}
