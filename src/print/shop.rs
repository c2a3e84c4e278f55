//! The shop sheet: what is built for one piece, on paper, to be ticked off beside the saw.
//!
//! HTML text, dressed by the page's own sheet for print. Everything typed is escaped.

use super::{List, Row, job_lists, mix_lists, piece_lists, saw_words};
use crate::draw::{Face, Paper, plan, sheet_drawing};
use crate::estimate::Estimate;
use crate::finding::Severity;
use crate::job::{Job, SideStand, read};
use crate::markup::escape;
use crate::measure::{write_length, write_percent};
use crate::strength::verdict::piece_of;
use std::fmt::Write;

/// The id of the sheet's element.
pub const SHOP_SHEET: &str = "shop-sheet";

/// The shop sheet of a piece; nothing while its outline is not known. `date` is written as it stands.
pub fn shop_sheet(job: &Job, all: &Estimate, piece: usize, date: &str) -> Option<String> {
    let (of, typed) = (all.pieces.get(piece)?, job.pieces.get(piece)?);
    let drawing = plan(of, typed, job.units, Face::Form, None)?;
    let mut html = format!("<div id=\"{SHOP_SHEET}\" class=\"{}\" aria-hidden=\"true\">", Paper::of(job.units).key());
    let title = [job.name.text(), job.client.text(), date].map(str::trim);
    let title: Vec<_> = title.into_iter().filter(|text| !text.is_empty()).collect();
    let _ = write!(
        html,
        "<header><h1>Shop sheet: {}</h1><p>{}</p></header><figure>{}</figure>",
        escape(&read::piece_name(job, piece)),
        escape(&title.join(" · ")),
        drawing.svg
    );
    write_cracks(&mut html, job, all, piece);
    html.push_str("<div class=\"columns\">");
    let lists = [piece_lists(job, all, piece), mix_lists(job, all, piece), job_lists(job, all)];
    for list in lists.iter().flatten() {
        write_list(&mut html, list, job);
    }
    write_sheets(&mut html, job, all);
    write_steps(&mut html, &steps(job, all, piece));
    html.push_str("</div></div>");
    Some(html)
}

/// What cracks this piece, by hand or by the map, as far as that is among the findings.
fn write_cracks(html: &mut String, job: &Job, all: &Estimate, piece: usize) {
    for finding in all.findings.iter().filter(|finding| piece_of(finding) == Some(piece)) {
        let word = if finding.severity == Severity::Stop { "Stop" } else { "Watch" };
        let (says, remedy) = (escape(&finding.says.write(job)), escape(&finding.remedy.write(job)));
        let _ = write!(html, "<p class=\"cracks\"><b>{word}.</b> {says} {remedy}</p>");
    }
}

fn write_list(html: &mut String, list: &List, job: &Job) {
    let _ = write!(html, "<section><h2>{}</h2>", escape(list.heading));
    if !list.lead.is_empty() {
        let _ = write!(html, "<p>{}</p>", escape(&list.lead));
    }
    match &list.rows {
        Ok(rows) => {
            html.push_str("<table>");
            for row in rows {
                write_row(html, row, list.ticked);
            }
            html.push_str("</table>");
        }
        Err(waiting) => {
            for need in waiting.needs() {
                let _ = write!(html, "<p>Waits for: {}</p>", escape(&need.write(job)));
            }
        }
    }
    html.push_str("</section>");
}

fn write_row(html: &mut String, row: &Row, ticked: bool) {
    let tick = if ticked { "<td class=\"tick\">☐</td>" } else { "" };
    let how: String = row.how.iter().map(|words| format!("<br><small>{}</small>", escape(words))).collect();
    let _ = write!(
        html,
        "<tr>{tick}<td class=\"mark\">{}</td><td>{} <b>{}</b>{how}</td></tr>",
        escape(&row.mark),
        escape(&row.name),
        escape(&row.value)
    );
}

fn write_sheets(html: &mut String, job: &Job, all: &Estimate) {
    let Ok(cutting) = &all.cutting else { return };
    let mark = |blank: usize| cutting.task.mark(blank);
    for (index, sheet) in cutting.layout.sheets.iter().enumerate() {
        let drawing = sheet_drawing(sheet, &mark, job.units);
        let _ = write!(html, "<section class=\"sheet\"><h2>Sheet {}</h2>{drawing}<ol>", index + 1);
        for words in saw_words(sheet, &mark, job.units) {
            let _ = write!(html, "<li>{}</li>", escape(&words));
        }
        html.push_str("</ol></section>");
    }
    let _ = write!(html, "<p>Waste {} of the sheets.</p>", write_percent(cutting.waste.value));
}

fn write_steps(html: &mut String, steps: &[String]) {
    html.push_str("<section><h2>Order of assembly</h2><ol class=\"assembly\">");
    for step in steps {
        let _ = write!(html, "<li>☐ {}</li>", escape(step));
    }
    html.push_str("</ol></section>");
}

/// The order of assembly. Common practice, with the numbers of the job.
fn steps(job: &Job, all: &Estimate, piece: usize) -> Vec<String> {
    let units = job.units;
    let Some(of) = all.pieces.get(piece) else { return Vec::new() };
    let mut steps = vec![
        "Cut and mark every part. Check the base: its diagonals as listed.".to_owned(),
        "Lay the base with its good face up. The form is the mirror of the plan: what is right here is left in the \
         top. Mark FRONT on it."
            .to_owned(),
    ];
    let stand = match job.form.sides {
        SideStand::OnEdge => "to the edge of the base",
        SideStand::OnBase => "up through the base",
    };
    let every = all.build.screws.as_ref().map_or_else(
        |_| String::new(),
        |screws| format!(", a screw every {}, drilled first", write_length(screws.typed, units)),
    );
    steps.push(format!("Screw the sides {stand}{every}. Tape over the heads so that they are found."));
    if let Ok(form) = &of.form {
        let cast = write_length(form.cast_thickness.value, units);
        steps.push(format!(
            "Check inside: {} by {}, {cast} deep.",
            write_length(form.clear_width.value, units),
            write_length(form.clear_depth.value, units)
        ));
    }
    if all.build.liner.is_some() {
        steps.push("Tape in the liner, running past the corners; plug the gap under every end.".to_owned());
    }
    if !of.knockouts.cutouts.is_empty() || !of.knockouts.cores.is_empty() {
        steps.push(
            "Set knockouts and cores from the centre lines, in the mirror; hold them down against floating.".to_owned(),
        );
    }
    steps.push("Run silicone into every inside corner, tool it, let it cure. Look for what was missed.".to_owned());
    steps.push("Level the form both ways and brace what it stands on.".to_owned());
    if of.steel.as_ref().is_ok_and(|steel| steel.lath.is_some() || steel.bars.is_some()) {
        steps.push("Try lath and bars in the form, then take them out and lay them ready.".to_owned());
    }
    steps.push("Wipe out the dust. Wipe in release agent, thin; none on the steel.".to_owned());
    steps
}

#[cfg(test)]
mod tests {
    use super::shop_sheet;
    use crate::estimate::{Estimate, estimate};
    use crate::job::Job;
    use crate::mix::demo;
    use crate::price::PriceBook;
    use crate::print::evening::tests::plain_tops;

    #[test]
    fn what_was_typed_is_text_and_never_markup() {
        let mut job: Job = demo("test");
        job.name = "<img src=x onerror=alert(1)>".into();
        job.pieces[0].name = "\"><script>".into();
        let all = estimate(&job, &PriceBook::default());
        let html = shop_sheet(&job, &all, 0, "2026-11-25").expect("its outline is known");
        assert!(!html.contains("<img") && !html.contains("<script"));
        assert!(html.contains("&lt;img src=x onerror=alert(1)&gt;"));
        assert!(html.contains("Order of assembly") && html.contains("mirror of the plan"));
    }

    /// A top of 96 by 25 1/2 by 1 1/2 in is told by hand until its map is known.
    #[test]
    fn what_cracks_a_piece_stands_on_its_sheet() {
        let (job, mut all, maps) = plain_tops();
        let silent = |html: &str| !html.contains("class=\"cracks\"");
        let sheet = |all: &Estimate, piece| shop_sheet(&job, all, piece, "").expect("its outline is known");
        let html = sheet(&all, 0);
        assert!(html.contains("<b>Stop.</b> Top: The middle") && html.contains("By hand"), "{html}");
        all.findings = all.findings_by(&maps);
        let html = sheet(&all, 0);
        assert!(html.contains("<b>Stop.</b> Top: The middle cracks when lifted flat at 1 h 15 min."), "{html}");
        assert!(html.contains("224 psi is allowed, and it cracks at 335 psi"), "{html}");
        assert!(silent(&sheet(&all, 1)), "the other piece is 3 in thick and holds");
    }
}
