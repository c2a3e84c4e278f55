//! The evidence as `tests/README.md`, below what is written there by hand.

use super::Table;
use super::document::{Chapter, Count};
use super::words;
use std::fmt::Write;

/// Relative to the package.
pub const FILE: &str = "tests/README.md";

/// What is above it is written by hand, what is below by the checks.
const MARK: &str = "<!-- Written by `make evidence` from here on. -->\n";

/// The whole file, from itself as it was and from the checks.
pub fn write(before: &str, chapters: &[Chapter]) -> String {
    let (by_hand, _) = before.split_once(MARK).expect("the mark is there");
    let mut text = format!("{by_hand}{MARK}\n# Evidence\n\n{}\n\n", words::WHAT_IT_IS);
    let count = Count::of(chapters.iter().flat_map(|chapter| chapter.tables.iter().copied()));
    let _ = writeln!(text, "{}.\n", count.words());
    list(&mut text, "What this does not promise", words::NO_PROMISE);
    list(&mut text, "What is not validated", words::NOT_VALIDATED);
    let _ = writeln!(text, "## How to read it\n\n{}\n", words::HOW_TO_READ);
    for chapter in chapters {
        let _ = writeln!(text, "## {}\n\n{}\n\n{}\n", chapter.section.title, chapter.section.about, chapter.verdict());
        for table in &chapter.tables {
            check(&mut text, table);
        }
    }
    format!("{}\n", text.trim_end())
}

fn list(text: &mut String, title: &str, items: &[&str]) {
    let _ = writeln!(text, "## {title}\n");
    for item in items {
        let _ = writeln!(text, "- {item}");
    }
    text.push('\n');
}

fn check(text: &mut String, table: &Table) {
    let check = &table.check;
    let (file, function) = table.place();
    let _ = writeln!(text, "### {}: {}\n", check.label, check.title);
    for (name, says) in table.parts(format!("[{function}](handbook/{file})")) {
        let _ = writeln!(text, "- **{name}:** {}", escaped(&says));
    }
    let _ =
        writeln!(text, "\n| quantity | expected | here | difference | tolerance |\n| --- | --- | --- | --- | --- |");
    for row in &table.rows {
        let cells = [&row.what, &row.expected, &row.found, &row.difference, &row.tolerance].map(|cell| escaped(cell));
        let _ = writeln!(text, "| {} |", cells.join(" | "));
    }
    text.push('\n');
}

fn escaped(text: &str) -> String {
    text.replace('|', "\\|")
}
