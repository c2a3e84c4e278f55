//! The sheets of the job: where every part lies, and in which order the saw goes.

use super::super::desk::Desk;
use super::super::figures::{plain_row, row, show, waits};
use crate::cutting::Cutting;
use crate::draw::sheet_drawing;
use crate::measure::{Units, write_area, write_percent};
use crate::print::saw_words;
use leptos::prelude::*;

/// The card.
pub fn sheets(desk: Desk) -> AnyView {
    let cutting = Memo::new(move |_| desk.estimate.with(|all| all.cutting.clone()));
    let content = move || match cutting.get() {
        Ok(cutting) => layout(desk, &cutting, desk.units()),
        Err(waiting) => waits(desk, &waiting),
    };
    view! {
        <section class="card" aria-label="Sheets to cut">
            <h2>"Sheets to cut"</h2>
            {content}
        </section>
    }
    .into_any()
}

fn layout(desk: Desk, cutting: &Cutting, units: Units) -> AnyView {
    let mark = |blank: usize| cutting.task.mark(blank);
    let sheet = |(index, sheet): (usize, &crate::sheet::Sheet)| {
        let cuts = saw_words(sheet, &mark, units).into_iter().map(|words| view! { <li>{words}</li> }).collect_view();
        view! {
            <figure class="sheet-drawing" inner_html=sheet_drawing(sheet, &mark, units) />
            <details>
                <summary>{format!("Cuts of sheet {}", index + 1)}</summary>
                <ol class="saw">{cuts}</ol>
            </details>
        }
    };
    let drawings = cutting.layout.sheets.iter().enumerate().map(sheet).collect_view();
    view! {
        <div class="figures">
            {row(desk, "Sheets to buy", show(&cutting.for_all(), ToString::to_string))}
            {row(desk, "Waste", show(&Ok(cutting.waste.clone()), |share| write_percent(*share)))}
            {plain_row("Off-cuts worth keeping", write_area(cutting.layout.kept_area(), units).to_string())}
        </div>
        {drawings}
    }
    .into_any()
}
