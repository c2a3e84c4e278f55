//! The evidence as a page of the app: plain HTML, no script, styled by the tokens of the page.

use super::Table;
use super::document::{Chapter, Count};
use super::words;
use std::fmt::Write;

/// Relative to the package. The build copies it and puts the policy in its head.
pub const FILE: &str = "style/evidence.html";

/// The whole page.
pub fn write(chapters: &[Chapter]) -> String {
    let count = Count::of(chapters.iter().flat_map(|chapter| chapter.tables.iter().copied()));
    let mut text = String::from(
        "<!DOCTYPE html>\n<!-- Written by `make evidence`. -->\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
        <title>Evidence: Pourwright</title>\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
        <meta name=\"color-scheme\" content=\"light dark\">\n<link rel=\"icon\" href=\"./icons/icon.svg\" \
        type=\"image/svg+xml\">\n<link rel=\"stylesheet\" href=\"./tokens.css\">\n<link rel=\"stylesheet\" \
        href=\"./evidence.css\">\n</head>\n<body>\n<header>\n<a href=\"./\">Back to the jobs</a>\n<h1>Evidence</h1>\n\
        </header>\n<main>\n",
    );
    let _ = writeln!(text, "<p>{}</p>\n<p>{}.</p>", prose(words::WHAT_IT_IS), escaped(&count.words()));
    list(&mut text, "What this does not promise", words::NO_PROMISE);
    list(&mut text, "What is not validated", words::NOT_VALIDATED);
    let _ = writeln!(text, "<h2>How to read it</h2>\n<p>{}</p>", prose(words::HOW_TO_READ));
    text.push_str("<nav aria-label=\"Rooms\">\n<ul>\n");
    for (index, chapter) in chapters.iter().enumerate() {
        let _ = writeln!(text, "<li><a href=\"#room-{index}\">{}</a></li>", escaped(chapter.section.title));
    }
    text.push_str("</ul>\n</nav>\n");
    for (index, chapter) in chapters.iter().enumerate() {
        let (title, about) = (escaped(chapter.section.title), prose(chapter.section.about));
        let verdict = escaped(&chapter.verdict());
        let _ = writeln!(text, "<section>\n<h2 id=\"room-{index}\">{title}</h2>\n<p>{about}</p>\n<p>{verdict}</p>");
        for table in &chapter.tables {
            check(&mut text, table);
        }
        text.push_str("</section>\n");
    }
    text.push_str("</main>\n</body>\n</html>\n");
    text
}

fn list(text: &mut String, title: &str, items: &[&str]) {
    let _ = writeln!(text, "<h2>{title}</h2>\n<ul>");
    for item in items {
        let _ = writeln!(text, "<li>{}</li>", prose(item));
    }
    text.push_str("</ul>\n");
}

fn check(text: &mut String, table: &Table) {
    let check = &table.check;
    let (file, function) = table.place();
    let _ = writeln!(text, "<article>\n<h3>{}: {}</h3>\n<dl>", escaped(check.label), escaped(check.title));
    for (name, says) in table.parts(format!("tests/handbook/{file}, {function}")) {
        let _ = writeln!(text, "<dt>{name}</dt><dd>{}</dd>", escaped(&says));
    }
    text.push_str(
        "</dl>\n<table>\n<thead><tr><th>Quantity</th><th>Expected</th><th>Here</th><th>Difference</th>\
        <th>Tolerance</th></tr></thead>\n<tbody>\n",
    );
    for row in &table.rows {
        let _ = write!(text, "<tr><th scope=\"row\">{}</th>", escaped(&row.what));
        for cell in [&row.expected, &row.found, &row.difference, &row.tolerance] {
            let _ = write!(text, "<td>{}</td>", escaped(cell));
        }
        text.push_str("</tr>\n");
    }
    text.push_str("</tbody>\n</table>\n</article>\n");
}

/// Words that were written for both: code quotes of the markdown are left out.
fn prose(text: &str) -> String {
    escaped(text).replace('`', "")
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}
