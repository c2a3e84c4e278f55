//! An estimate as plain text, for a message.

use super::share::{Sheet, SheetFinding, SheetRow};
use crate::finding::Severity;

/// The sheet without its drawings and last words: a line a row, an empty line between parts.
pub fn share_text(sheet: &Sheet) -> String {
    let Sheet { title, client, date, .. } = sheet;
    let mut parts: Vec<String> = vec![
        [title, client, date]
            .into_iter()
            .filter(|line| !line.trim().is_empty())
            .cloned()
            .collect::<Vec<_>>()
            .join("\n"),
    ];
    parts.push(sheet.headline.iter().map(row).collect());
    parts.push(headed("Look out for", sheet.findings.iter().map(finding)));
    parts.extend(sheet.sections.iter().map(|section| headed(&section.heading, section.rows.iter().map(row))));
    parts.push(headed("Notes", std::iter::once(sheet.notes.trim().to_owned())));
    let filled = parts.iter().map(|part| part.trim()).filter(|part| !part.is_empty());
    filled.collect::<Vec<_>>().join("\n\n") + "\n"
}

fn row(SheetRow { label, value }: &SheetRow) -> String {
    format!("{label}: {value}\n")
}

fn finding(SheetFinding { severity, says, remedy }: &SheetFinding) -> String {
    let word = match severity {
        Severity::Stop => "Stop",
        Severity::Watch => "Watch",
        Severity::Note => "Note",
    };
    format!("{word}. {says} {remedy}\n")
}

/// The lines under their heading; nothing at all if there are none.
fn headed(heading: &str, lines: impl Iterator<Item = String>) -> String {
    let lines: String = lines.collect();
    if lines.is_empty() { lines } else { format!("{heading}\n{lines}") }
}
