//! Every number of an estimate says how it was come by: a job that uses everything, in both systems of units.
//!
//! Figures are found in the debug form of the estimate, which holds every field of it: one that is added later is
//! walked too, and nobody has to remember.

use crate::everything::{book, everything, from_scratch};
use pourwright::estimate::{Estimate, estimate};
use pourwright::job::{Back, GrindingWay, Job, Layer, LayerOf, Rest, Units};
use std::collections::BTreeSet;

/// Hangs the niche's top on brackets.
fn hang(job: &mut Job, back: Back) {
    let own = &mut job.pieces[2].handling;
    (own.rest, own.back) = (Rest::Brackets, back);
    (own.brackets, own.bracket_from, own.bracket_length) = ("3".into(), "6 in".into(), "12 in".into());
    (own.bracket_height, own.screw, own.screw_bite) = ("10 in".into(), "5/16 in".into(), "1 3/4 in".into());
}

/// The job in both systems: ground wet with foam for its knockouts, and dry with boards; on brackets loose, and fastened.
fn estimates() -> [(Units, Estimate); 2] {
    [Units::Inch, Units::Metric].map(|units| {
        let mut job = everything(units);
        hang(&mut job, if units == Units::Metric { Back::Fastened } else { Back::Loose });
        if units == Units::Metric {
            job.finish.way = GrindingWay::DryIndoors;
            let board = |thickness: &str| Layer { of: LayerOf::Board, thickness: thickness.into() };
            job.form.layers = ["3/4 in", "1/2 in"].map(board).to_vec();
        }
        (units, estimate(&job, &book(&job)))
    })
}

/// What only a mix made from scratch has: figures of its materials and of its paste, in both systems.
fn scratches() -> Vec<(Units, String)> {
    let of = |units| {
        let job = from_scratch(units);
        let all = estimate(&job, &book(&job));
        let scratch = all.orders.iter().flatten().find_map(|order| order.scratch().cloned());
        (units, format!("{:#?}", scratch.expect("a mix made from scratch")))
    };
    [Units::Inch, Units::Metric].map(of).to_vec()
}

/// Every estimate and every such mix in its debug form.
fn forms() -> Vec<(Units, String)> {
    let estimates = estimates().into_iter().map(|(units, all)| (units, format!("{all:#?}")));
    // Too much for three, and with places to hold for more.
    let strip = format!("{:#?}", crate::worked_out(&crate::job_of("72", "14", "2")).pieces[0].carrying);
    estimates.chain(scratches()).chain([(Units::Inch, strip)]).collect()
}

/// A line of a working, as it stands in the debug form.
#[derive(Debug, Default)]
struct Line {
    formula: String,
    numbers: String,
    result: String,
    source: String,
}

/// A figure, as it stands in the debug form.
#[derive(Debug)]
struct Seen {
    /// The struct that holds it, and its field: "Order.water".
    place: String,
    value: String,
    title: String,
    lines: Vec<Line>,
}

/// Every figure in the debug form of something.
fn figures(debug: &str) -> Vec<Seen> {
    let mut found = Vec::new();
    // The field and the type of everything that is open where the reading stands.
    let mut open: Vec<(&str, &str)> = Vec::new();
    let mut lines = debug.lines().map(str::trim).peekable();
    while let Some(line) = lines.next() {
        if let Some(head) = line.strip_suffix(['{', '(', '[']) {
            let (field, kind) = head.split_once(": ").unwrap_or(("", head));
            open.push((field, kind.trim()));
            if kind.trim() == "Figure" {
                found.push(figure(place(&open), &mut lines));
                open.pop();
            }
        } else if line.starts_with(['}', ')', ']']) {
            open.pop();
        }
    }
    found
}

/// The nearest field that is open, and the struct that it is of.
fn place(open: &[(&str, &str)]) -> String {
    let at = open.iter().rposition(|(field, _)| !field.is_empty()).unwrap_or(0);
    let wraps = |kind: &str| ["", "Ok", "Some"].contains(&kind);
    let of = open[..at].iter().rev().map(|(_, kind)| *kind).find(|kind| !wraps(kind)).unwrap_or("");
    format!("{of}.{}", open[at].0)
}

fn figure<'a>(place: String, lines: &mut std::iter::Peekable<impl Iterator<Item = &'a str>>) -> Seen {
    let mut seen = Seen { place, value: String::new(), title: String::new(), lines: Vec::new() };
    for line in lines.by_ref().take_while(|line| !line.starts_with("working: ")) {
        seen.value += line.strip_prefix("value: ").unwrap_or(line);
    }
    // The figure ends with its own brace, after those of the lines, their list, and the working.
    let mut depth = 2;
    while depth > 0 {
        let line = lines.next().expect("the debug form is whole");
        let text = |name: &str| Some(line.strip_prefix(name)?.strip_suffix("\",")?.replace("\\\"", "\""));
        if let Some(title) = text("title: \"") {
            seen.title = title;
        } else if line == "Line {" {
            seen.lines.push(Line::default());
        } else if let Some(last) = seen.lines.last_mut() {
            if let Some(formula) = text("formula: \"") {
                last.formula = formula;
            } else if let Some(numbers) = text("numbers: \"") {
                last.numbers = numbers;
            } else if let Some(result) = text("result: \"") {
                last.result = result;
            } else if let Some(source) = line.strip_prefix("source: ") {
                last.source = source.to_owned();
            } else if let Some(named) = text("\"") {
                last.source += &named;
            }
        }
        if line.ends_with(['{', '(', '[']) {
            depth += 1;
        } else if line.starts_with(['}', ')', ']']) {
            depth -= 1;
        }
    }
    seen
}

/// What is missing of a working.
fn gaps(seen: &Seen) -> Vec<String> {
    let mut gaps = Vec::new();
    let mut gap = |says: &str| gaps.push(format!("{} ({}): {says}", seen.place, seen.title));
    if seen.title.is_empty() {
        gap("it has no title");
    }
    let Some(last) = seen.lines.last() else {
        gap("it has no line");
        return gaps;
    };
    for line in &seen.lines {
        if line.formula.is_empty() || line.result.is_empty() {
            gap(&format!("a line without formula or result: {line:?}"));
        }
        if line.source.is_empty() || line.source == "Standard(" {
            gap(&format!("a line without source: {line:?}"));
        }
        if line.formula.contains('≈') || line.numbers.contains('≈') {
            gap(&format!("a number that goes in says that it is rounded: {line:?}"));
        }
    }
    let stated = seen.lines.len() == 1 && last.source == "Typed,";
    if last.numbers.is_empty() && !stated {
        gap(&format!("nothing is put into its last formula: {last:?}"));
    }
    gaps
}

/// What a unit is in that of the debug form (NIST SP 811 B.8, HB 44), where temperature has no zero of its own.
fn unit(name: &str, dimension: &str) -> Option<f64> {
    const INCH: f64 = 0.0254;
    const FOOT: f64 = 0.3048;
    const POUND: f64 = 0.453_592_37;
    const GALLON: f64 = 231.0 * INCH * INCH * INCH;
    const POUND_FORCE: f64 = POUND * 9.806_65;
    let pressed = dimension == "m^-1 kg^1 s^-2";
    let pulled = dimension == "m^1 kg^1 s^-2";
    Some(match name {
        "in" => INCH,
        "ft" => FOOT,
        "mm" => 1e-3,
        "ft²" => FOOT * FOOT,
        "in²" => INCH * INCH,
        "ft³" => FOOT * FOOT * FOOT,
        "in³" => INCH * INCH * INCH,
        "gal" => GALLON,
        "qt" => GALLON / 4.0,
        "cup" | "cups" => GALLON / 16.0,
        "fl oz" => GALLON / 128.0,
        "tsp" => GALLON / 768.0,
        "L" => 1e-3,
        "mL" => 1e-6,
        "lb" if pulled => POUND_FORCE,
        "lb" => POUND,
        "oz" => POUND / 16.0,
        "g" => 1e-3,
        "lb/ft³" => POUND / (FOOT * FOOT * FOOT),
        "lb/ft²" if pressed => POUND_FORCE / (FOOT * FOOT),
        "lb/ft²" => POUND / (FOOT * FOOT),
        "lb/ft" => POUND / FOOT,
        "lb/ft²/h" => POUND / (FOOT * FOOT) / 3600.0,
        "kg/m²/h" => 1.0 / 3600.0,
        "psi" => POUND_FORCE / (INCH * INCH),
        "lb·in" => POUND_FORCE * INCH,
        "kPa" => 1e3,
        "MPa" => 1e6,
        "min" => 60.0,
        // Money is earned in hours that are no quantity.
        "h" if dimension.is_empty() => 1.0,
        "h" => 3600.0,
        "day" | "days" => 86_400.0,
        "ft³/min" => FOOT * FOOT * FOOT / 60.0,
        "m³/h" => 1.0 / 3600.0,
        "rpm" => 1.0 / 60.0,
        "°F" => 5.0 / 9.0,
        "%" => 0.01,
        "m" | "m²" | "kg" | "kg/m³" | "kg/m²" | "kg/m" | "N" | "N·m" | "°C" | "" => 1.0,
        _ => return None,
    })
}

/// A result in the unit of the debug form, and what its last place is there: "3 1/2 qt", "1 h 53 min", "$4.10".
fn amount(result: &str, dimension: &str) -> Option<(f64, f64)> {
    let text = result.trim_start_matches(['≈', ' ', '$']).replace(',', "").replace("fl oz", "fl\u{a0}oz");
    let (mut sum, mut step, mut number) = (0.0, 0.0, None);
    let mut words = text.split(' ').peekable();
    while let Some(word) = words.next() {
        let negative = word.starts_with(['-', '−']);
        let digits = word.trim_start_matches(['-', '−']);
        if let Some((above, below)) = digits.split_once('/').filter(|(above, _)| above.parse::<f64>().is_ok()) {
            let below: f64 = below.parse().ok()?;
            number = Some(number.unwrap_or(0.0) + above.parse::<f64>().ok()? / below);
            step = 1.0 / below;
        } else if let Ok(value) = digits.parse::<f64>() {
            number = Some(if negative { -value } else { value });
            step = 10f64.powi(-(digits.split_once('.').map_or(0, |(_, places)| places.len()) as i32));
        } else {
            let unit = unit(&word.replace('\u{a0}', " "), dimension)?;
            sum += number.take()? * unit;
            step *= unit;
        }
        if words.peek().is_none() && number.is_some() {
            sum += number.take()?;
        }
    }
    Some(match (dimension, text.rsplit_once(' ').map(|(_, unit)| unit)) {
        ("K^1", Some("°F")) => (sum - 32.0 * 5.0 / 9.0 + 273.15, step),
        ("K^1", _) => (sum + 273.15, step),
        _ => (sum, step),
    })
}

/// Whether the last result says the value: what the debug form has, in words for a crew.
fn says(seen: &Seen, result: &str) -> bool {
    if let Some(hands) = seen.value.strip_prefix("Hands(") {
        let hands = hands.trim_end_matches([',', ')', ' ']);
        return result.starts_with(hands);
    }
    if seen.value.starts_with("Aid") {
        return result.contains("cart") || result == "not by hand";
    }
    let value = seen.value.trim_end_matches(',');
    let (number, dimension) = value.split_once(' ').unwrap_or((value, ""));
    // Of a section, the moment that it bears: the last of its fields that is a moment is for another test.
    let Ok(number) = number.parse::<f64>() else { return seen.place == "RailVerdict.with_bar" };
    let counted = result.split(' ').next().and_then(|first| first.parse::<f64>().ok());
    match amount(result, dimension) {
        // A litre of water is measured to a twentieth.
        Some((said, _)) if result.ends_with(" L") && seen.place.ends_with(".water") => (said - number).abs() <= 2.5e-5,
        Some((said, step)) => (said - number).abs() <= 0.500_001 * step + 1e-9 * number.abs(),
        None => counted == Some(number),
    }
}

/// Formula, numbers, result and source of every figure, and a result that is the figure.
#[test]
fn every_working_is_complete() {
    let mut wrong = Vec::new();
    for (units, form) in forms() {
        for seen in figures(&form) {
            wrong.extend(gaps(&seen));
            let result = seen.lines.last().map_or("", |line| line.result.as_str());
            if !says(&seen, result) {
                wrong.push(format!("{} ({}), {units:?}: {result} is said of {}", seen.place, seen.title, seen.value));
            }
        }
    }
    wrong.sort();
    wrong.dedup();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Figures that no estimate holds: they come of a question that is asked apart.
const ASKED_APART: [&str; 2] = ["Added.mass", "Part.mass"];

/// The job reaches every figure that there is, by the source of the rooms.
#[test]
fn the_job_uses_everything() {
    let reached: BTreeSet<_> = forms().iter().flat_map(|(_, form)| figures(form)).map(|seen| seen.place).collect();
    let mut there = BTreeSet::new();
    for file in sources(&std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src")) {
        let mut of = String::new();
        for line in file.lines() {
            if let Some(name) = line.strip_prefix("pub struct ") {
                of = name.chars().take_while(|one| one.is_alphanumeric()).collect();
            } else if let Some((field, _)) = line.strip_prefix("    pub ").and_then(|rest| rest.split_once(": "))
                && line.contains("Figure<")
                && !field.contains('(')
            {
                there.insert(format!("{of}.{field}"));
            }
        }
    }
    let missed: Vec<_> = there.difference(&reached).map(String::as_str).collect();
    assert_eq!(missed, ASKED_APART);
}

/// The text of every file of Rust in a folder and those in it.
fn sources(folder: &std::path::Path) -> Vec<String> {
    let entries =
        std::fs::read_dir(folder).expect("the folder is there").map(|entry| entry.expect("it is read").path());
    entries
        .flat_map(|path| match path.extension() {
            _ if path.is_dir() => sources(&path),
            Some(kind) if kind == "rs" => vec![std::fs::read_to_string(&path).expect("it is read")],
            _ => Vec::new(),
        })
        .collect()
}

#[test]
fn results_are_read_as_they_are_written() {
    let close = |text: &str, dimension: &str, expected: (f64, f64)| {
        let (value, step) = amount(text, dimension).expect(text);
        assert!((value - expected.0).abs() < 1e-12 && (step - expected.1).abs() < 1e-12, "{text}: {value} {step}");
    };
    close("≈ 3 1/2 qt", "m^3", (3.5 * 0.000_946_352_946, 0.5 * 0.000_946_352_946));
    close("1 h 53 min", "s^1", (6780.0, 60.0));
    close("$4,058.94", "", (4058.94, 0.01));
    close("≈ 60.4 °F", "K^1", (288.927_777_777_777_8, 0.1 * 5.0 / 9.0));
    close("3.9 %", "", (0.039, 0.001));
    close("12 fl oz", "m^3", (12.0 * 0.000_029_573_529_562_5, 0.000_029_573_529_562_5));
    assert_eq!(amount("14 bags", ""), None);
}
