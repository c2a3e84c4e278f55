//! The offer: as it is frozen, as the client gets it on paper, and as the maker keeps it to himself.

use crate::draw::{Face, plan};
use crate::estimate::{Estimate, PieceEstimate, estimate};
use crate::finish::{WATERMARK_TEST, care_sheet};
use crate::job::read::piece_name;
use crate::job::{CutoutShape, EdgeKind, FrozenQuote, HolePattern, Job, QuoteLine, QuoteOption};
use crate::markup::escape;
use crate::measure::{Date, Length, write_area, write_duration, write_length, write_mass, write_money, write_percent};
use crate::price::compare::{Comparison, Version, compare};
use crate::price::cost::{CostSheet, Kind};
use crate::price::{PriceBook, Pricing};
use crate::working::Known;
use std::fmt::Write;
use uom::si::length::meter;

/// Said where a fact is not known yet.
const UNKNOWN: &str = "—";

fn line(label: &str, text: impl Into<String>) -> QuoteLine {
    QuoteLine { label: label.to_owned(), text: text.into() }
}

/// What the job is called.
pub fn job_name(job: &Job) -> String {
    if job.name.is_blank() { "A concrete top".to_owned() } else { job.name.text().trim().to_owned() }
}

/// The size of a piece as installed.
fn size(job: &Job, piece: &PieceEstimate) -> String {
    let (Ok(outline), Ok(thickness)) = (&piece.top.outline, &piece.top.thickness) else { return UNKNOWN.to_owned() };
    let bounds = outline.bounds();
    let write = |metres| write_length(Length::new::<meter>(metres), job.units).text;
    let thick = write_length(*thickness, job.units).text;
    format!("{} × {}, {thick} thick", write(bounds.width()), write(bounds.height()))
}

/// The word of a client's page for a kind of edge.
fn edge_word(kind: EdgeKind) -> &'static str {
    match kind {
        EdgeKind::Wall => "against the wall",
        EdgeKind::Backsplash => "under a backsplash",
        EdgeKind::Plain => "plain",
        EdgeKind::Lined => "rough face",
        EdgeKind::Eased => "eased",
    }
}

/// Every side of a piece, those with the same kind of edge together.
fn edges(job: &Job, piece: usize) -> String {
    let Some(typed) = job.pieces.get(piece) else { return UNKNOWN.to_owned() };
    let sides: Vec<_> = (0..typed.sides())
        .map(|side| (edge_word(typed.edge(side).kind), typed.side_name(side).to_lowercase()))
        .collect();
    if sides.is_empty() {
        return UNKNOWN.to_owned();
    }
    together(sides, |word, names| format!("{}: {word}", names.join(", ")), "; ")
}

/// Things of the same word side by side, in the order in which the words come up.
fn together<T>(things: Vec<(&'static str, T)>, say: impl Fn(&str, Vec<T>) -> String, between: &str) -> String {
    let mut groups: Vec<(&str, Vec<T>)> = Vec::new();
    for (word, thing) in things {
        match groups.iter_mut().find(|(other, _)| *other == word) {
            Some((_, members)) => members.push(thing),
            None => groups.push((word, vec![thing])),
        }
    }
    let words: Vec<_> = groups.into_iter().map(|(word, members)| say(word, members)).collect();
    words.join(between)
}

fn cutout_word(shape: CutoutShape) -> &'static str {
    match shape {
        CutoutShape::Rectangle => "rectangular cutout",
        CutoutShape::Ellipse => "oval cutout",
        CutoutShape::Circle => "round cutout",
        CutoutShape::D => "D-shaped cutout",
        CutoutShape::Polygon => "cutout by a template",
    }
}

fn holes_word(pattern: HolePattern) -> &'static str {
    match pattern {
        HolePattern::Single => "single hole",
        HolePattern::Three => "row of three holes",
    }
}

/// Every cutout and every set of holes of a piece, those of one kind counted; nothing where it has none.
fn openings(job: &Job, piece: usize) -> Option<String> {
    let typed = job.pieces.get(piece)?;
    let cutouts = typed.cutouts.iter().map(|cutout| (cutout_word(cutout.shape), ()));
    let all: Vec<_> = cutouts.chain(typed.holes.iter().map(|set| (holes_word(set.pattern), ()))).collect();
    let words = together(all, |word, members| format!("{} × {word}", members.len()), ", ");
    (!words.is_empty()).then_some(words)
}

fn finish(job: &Job) -> String {
    let chosen = &job.finish;
    let mut words = Vec::new();
    if let Some(exposure) = chosen.exposure {
        words.push(exposure.label().to_owned());
    }
    if let Some(sheen) = chosen.sheen {
        words.push(sheen.label().to_lowercase());
    }
    let kind = chosen.seal.label().to_lowercase();
    words.push(match chosen.sealer.text().trim() {
        "" => format!("{kind} sealer"),
        name => format!("sealed with {name} ({kind})"),
    });
    words.join(", ")
}

/// What is offered, in the words of the client's page.
fn offered(job: &Job, all: &Estimate) -> Vec<QuoteLine> {
    let mut lines = Vec::new();
    for (index, piece) in all.pieces.iter().enumerate() {
        let name = piece_name(job, index);
        lines.push(line(&name, size(job, piece)));
        lines.extend(openings(job, index).map(|words| line(&format!("{name}, openings"), words)));
        lines.push(line(&format!("{name}, edges"), edges(job, index)));
        if let Ok(weights) = &piece.weights {
            let weight = crate::finding::say::mass(weights.installed.value, job.units);
            lines.push(line(&format!("{name}, weight installed"), weight));
        }
    }
    lines.push(line("Finish", finish(job)));
    lines
}

/// What versions of a job are compared by.
pub fn version(job: &Job, all: &Estimate) -> Version {
    let units = job.units;
    let mut facts = Vec::new();
    let mut fact = |label: &str, text: Option<String>| {
        if let Some(text) = text {
            facts.push((label.to_owned(), text));
        }
    };
    for (index, piece) in all.pieces.iter().enumerate() {
        let name = piece_name(job, index);
        let label = |what: &str| if all.pieces.len() > 1 { format!("{name}, {what}") } else { capital(what) };
        fact(&label("size"), Some(size(job, piece)));
        fact(&label("edges"), Some(edges(job, index)));
        fact(&label("openings"), Some(openings(job, index).unwrap_or_else(|| "none".to_owned())));
    }
    let orders = all.orders.iter().flatten();
    let mixes: Vec<_> = orders.map(|order| crate::job::read::bag_name(job, order.bag)).collect();
    fact("Mix", (!mixes.is_empty()).then(|| mixes.join(", ")));
    fact("Finish", Some(finish(job)));
    fact("Bags", all.headline.bags.as_ref().ok().map(|bags| bags.value.to_string()));
    fact("Heaviest lift", all.headline.weight.as_ref().ok().map(|mass| write_mass(mass.value, units).to_string()));
    fact("People", all.headline.people.as_ref().ok().map(|crew| crew.value.words()));
    let pricing = &all.pricing;
    let sheet = pricing.sheet.as_ref().ok();
    fact("Hours", sheet.map(|sheet| format!("{} h", sheet.hours.normalize())));
    fact("Cost", sheet.map(|sheet| write_money(sheet.cost, &sheet.currency)));
    fact("Margin", sheet.map(|sheet| write_money(sheet.margin, &sheet.currency)));
    fact("Price", sheet.map(|sheet| write_money(sheet.price.value, &sheet.currency)));
    Version { name: job_name(job), price: sheet.map(|sheet| sheet.price.value), facts }
}

fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// These versions side by side, the first of them being what the others are measured against.
pub fn side_by_side(versions: &[(Job, Estimate)]) -> (Vec<String>, Comparison) {
    let versions: Vec<_> = versions.iter().map(|(job, all)| version(job, all)).collect();
    (versions.iter().map(|version| version.name.clone()).collect(), compare(&versions))
}

/// What a client sees to differ: no cost, no margin, no hours of the maker.
const OF_THE_CLIENT: [&str; 5] = ["size", "edges", "openings", "mix", "finish"];

fn option(base: &Version, other: &Version, currency: &str) -> QuoteOption {
    let table = compare(&[base.clone(), other.clone()]);
    let seen = |label: &str| OF_THE_CLIENT.iter().any(|word| label.to_lowercase().ends_with(word));
    let differs = table.rows.iter().filter(|row| row.differs() && seen(&row.label));
    let text = |row: &crate::price::compare::Row| row.cells.get(1).and_then(|cell| cell.text.clone());
    QuoteOption {
        name: other.name.clone(),
        differs: differs.filter_map(|row| Some(line(&row.label, text(row)?))).collect(),
        price: other.price.map_or_else(|| "on request".to_owned(), |price| write_money(price, currency)),
    }
}

/// The offer as it is sent on that day, to be kept with the job. `options` are other versions that are offered
/// with it.
///
/// # Errors
/// What the price waits for.
pub fn freeze(
    job: &Job,
    all: &Estimate,
    prices: &PriceBook,
    options: &[(Job, Estimate)],
    sent: Date,
) -> Known<FrozenQuote> {
    let quote = all.pricing.offer(job, sent)?;
    let write = |amount| write_money(amount, &quote.currency);
    let mut amounts = Vec::new();
    if !quote.tax.is_zero() {
        amounts.push(line("Before tax", write(quote.net)));
        amounts.push(line("Tax", write(quote.tax)));
    }
    amounts.push(line("Price", write(quote.price)));
    if !quote.deposit.is_zero() {
        amounts.push(line("Deposit, due with the order", write(quote.deposit)));
        amounts.push(line("Balance, due when it is set", write(quote.balance)));
    }
    let base = version(job, all);
    let mut then = job.clone();
    then.quote.frozen = None;
    Ok(FrozenQuote {
        sent: quote.sent,
        valid_until: quote.valid_until,
        maker: prices.maker.text().trim().to_owned(),
        lines: offered(job, all),
        amounts,
        price: quote.price.to_string(),
        currency: quote.currency.clone(),
        options: options.iter().map(|(job, all)| option(&base, &version(job, all), &quote.currency)).collect(),
        excluded: quote.excluded,
        job: Box::new(then),
    })
}

fn rows(text: &mut String, lines: &[QuoteLine]) {
    text.push_str("<dl>");
    for QuoteLine { label, text: says } in lines {
        let _ = write!(text, "<div><dt>{}</dt><dd>{}</dd></div>", escape(label), escape(says));
    }
    text.push_str("</dl>");
}

fn heading(text: &mut String, words: &str) {
    let _ = write!(text, "<h2>{}</h2>", escape(words));
}

fn drawings(text: &mut String, job: &Job) {
    // Drawn from the job alone: no price takes part.
    let all = estimate(job, &PriceBook::default());
    for (piece, typed) in all.pieces.iter().zip(&job.pieces) {
        if let Some(drawing) = plan(piece, typed, job.units, Face::Installed, None) {
            let _ = write!(
                text,
                "<figure>{}<figcaption><bdi>{}</bdi></figcaption></figure>",
                drawing.svg,
                escape(typed.name.text())
            );
        }
    }
}

/// The client's page as HTML, from what is frozen alone: the same today as on the day it was sent.
pub fn client_page(frozen: &FrozenQuote) -> String {
    let job = &frozen.job;
    let mut text = String::new();
    if !frozen.maker.is_empty() {
        let _ = write!(text, "<address>{}</address>", escape(&frozen.maker).replace('\n', "<br>"));
    }
    let _ = write!(text, "<h1>Quote: <bdi>{}</bdi></h1>", escape(&job_name(job)));
    if !job.client.is_blank() {
        let _ = write!(text, "<p>For <bdi>{}</bdi></p>", escape(job.client.text().trim()));
    }
    let _ = write!(text, "<p>Sent {}. Valid until <strong>{}</strong>.</p>", frozen.sent, frozen.valid_until);
    drawings(&mut text, job);
    heading(&mut text, "What is offered");
    rows(&mut text, &frozen.lines);
    heading(&mut text, "Price");
    rows(&mut text, &frozen.amounts);
    if !frozen.options.is_empty() {
        heading(&mut text, "Or instead");
        for option in &frozen.options {
            let _ = write!(text, "<h3>{}: {}</h3>", escape(&option.name), escape(&option.price));
            rows(&mut text, &option.differs);
        }
    }
    if !frozen.excluded.is_empty() {
        heading(&mut text, "Not included");
        let items: String = frozen.excluded.iter().map(|item| format!("<li>{}</li>", escape(item))).collect();
        let _ = write!(text, "<ul>{items}</ul>");
    }
    text
}

/// One line of the maker's own page: what it is, how it comes about, what it costs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CostRow {
    /// What it is.
    pub label: String,
    /// The numbers behind it; empty where there are none.
    pub numbers: String,
    /// The amount, or the hours.
    pub amount: String,
    /// It is a sum of those above.
    pub is_sum: bool,
}

/// The cost sheet in rows: material, wages, and the sums.
pub fn cost_rows(sheet: &CostSheet) -> Vec<CostRow> {
    let write = |amount| write_money(amount, &sheet.currency);
    let row = |label: &str, numbers: String, amount, is_sum| CostRow {
        label: label.to_owned(),
        numbers,
        amount: write(amount),
        is_sum,
    };
    let lines = |material: bool| {
        let of = move |kind: Kind| matches!(kind, Kind::Material(_)) == material;
        sheet.lines.iter().filter(move |line| of(line.kind))
    };
    let mut rows: Vec<_> = lines(true).map(|line| row(&line.name, line.numbers.clone(), line.amount, false)).collect();
    rows.push(row("Material", String::new(), sheet.material, true));
    rows.extend(lines(false).map(|line| row(&line.name, line.numbers.clone(), line.amount, false)));
    rows.push(row("Wages", format!("{} h", sheet.hours.normalize()), sheet.wages, true));
    rows.push(row("Overhead", String::new(), sheet.overhead, false));
    rows.push(row("Cost", String::new(), sheet.cost, true));
    rows.push(row("Margin", String::new(), sheet.margin, false));
    rows.push(row("Tax", String::new(), sheet.tax, false));
    rows.push(row("Price", String::new(), sheet.price.value, true));
    rows
}

/// The maker's own page as HTML: cost, hours, margin, price by area, break-even.
pub fn maker_page(job: &Job, pricing: &Pricing, prices: &PriceBook, day: Date) -> String {
    let mut text = String::new();
    let _ = write!(text, "<h1><bdi>{}</bdi>: for you alone</h1><p>{day}</p>", escape(&job_name(job)));
    if let Ok(sheet) = &pricing.sheet {
        text.push_str("<table>");
        for row in cost_rows(sheet) {
            let class = if row.is_sum { " class=\"sum\"" } else { "" };
            let _ = write!(
                text,
                "<tr{class}><th>{}</th><td>{}</td><td>{}</td></tr>",
                escape(&row.label),
                escape(&row.numbers),
                escape(&row.amount)
            );
        }
        text.push_str("</table>");
    }
    let mut more = Vec::new();
    if let Ok(by_area) = &pricing.by_area {
        more.push(line(&by_area.working.title(job), write_money(by_area.value, &prices.currency)));
    }
    if let Ok(even) = &pricing.break_even {
        more.push(line(&even.price.working.title(job), write_money(even.price.value, &prices.currency)));
        if let Some(hours) = &even.hours {
            more.push(line(&hours.working.title(job), format!("{} h", hours.value.normalize())));
        }
    }
    if !pricing.unpriced.is_empty() {
        more.push(line("Not in it, as it has no price", pricing.unpriced.join(", ")));
    }
    rows(&mut text, &more);
    text
}

/// The care sheet as HTML, for the client; nothing while it is not known when the seal is cured.
pub fn care_page(job: &Job, all: &Estimate) -> Option<String> {
    let cured = all.finishing.schedule.as_ref().ok()?.cured.date;
    let mut text = String::new();
    let _ = write!(text, "<h1>Care for your top: <bdi>{}</bdi></h1><ul>", escape(&job_name(job)));
    for care in care_sheet(job.finish.seal, cured) {
        let _ = write!(text, "<li>{}</li>", escape(&care.says));
    }
    text.push_str("</ul>");
    Some(text)
}

/// The finishing list for the shop wall as HTML: what comes off, the tools in order, the sealer and its dates.
pub fn finish_page(job: &Job, all: &Estimate) -> String {
    let units = job.units;
    let finishing = &all.finishing;
    let mut text = String::new();
    let _ = write!(text, "<h1>Finish: <bdi>{}</bdi></h1>", escape(&job_name(job)));
    let mut lines = vec![line("Wanted", finish(job))];
    if let Ok(face) = &finishing.face {
        lines.push(line("Face", write_area(face.value, units).to_string()));
    }
    if let Ok(Some(removed)) = &finishing.removed {
        lines.push(line("Ground off, as dust", write_mass(removed.mass.value, units).to_string()));
    }
    let tools: Vec<_> = finishing.sequence.steps.iter().map(|step| step.tool.words()).collect();
    if !tools.is_empty() {
        lines.push(line("Tools in order", tools.join(", ")));
    }
    for (tool, speed) in &finishing.speeds {
        lines.push(line(&format!("{}, at most", tool.words()), crate::finish::write_speed(speed.value)));
    }
    if let Ok(time) = &finishing.time {
        lines.push(line("Grinding and polishing", write_duration(time.value).to_string()));
    }
    if let Some(Ok(dust)) = &finishing.dust {
        let air = dust.air.working.result(job.units);
        lines.push(line("Air through the shroud, at least", air));
        lines.push(line("Its filter holds back, at least", write_percent(dust.filter)));
        lines.push(line("Respirator", dust.respirator_words()));
    }
    if let Ok(drying) = &finishing.drying {
        lines.push(line("First coat", drying.words()));
    }
    if let Ok(schedule) = &finishing.schedule {
        for (coat, at) in schedule.coats.iter().enumerate() {
            lines.push(line(&format!("Coat {}", coat + 1), at.to_string()));
        }
        lines.push(line("Cured", schedule.cured.to_string()));
    }
    rows(&mut text, &lines);
    let _ = write!(text, "<p>{} {}</p>", escape(crate::finish::EDGES_AS_CAST), escape(WATERMARK_TEST));
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{Cutout, Edge, Holes, Piece, PieceKind};
    use crate::measure::Units;

    fn lines(job: &Job) -> Vec<(String, String)> {
        let lines = offered(job, &estimate(job, &PriceBook::default()));
        lines.into_iter().map(|line| (line.label, line.text)).collect()
    }

    /// A piece with as many walked sides as there are kinds of edge, one of each.
    fn with_everything(kind: PieceKind) -> Piece {
        let mut piece = Piece::new(kind.label(), "", Units::Inch);
        piece.kind = kind;
        piece.shape = crate::job::OutlineShape::Walked;
        piece.walk = vec![crate::job::Leg::default(); EdgeKind::ALL.len()];
        piece.edges = EdgeKind::ALL.map(|kind| Edge { kind, ..Edge::default() }).to_vec();
        piece.cutouts = CutoutShape::ALL.map(|shape| Cutout { shape, ..Cutout::default() }).to_vec();
        piece.cutouts.push(Cutout::default());
        piece.holes = vec![
            Holes { pattern: HolePattern::Three, ..Holes::default() },
            Holes { pattern: HolePattern::Single, ..Holes::default() },
        ];
        piece
    }

    #[test]
    fn an_offer_names_every_edge_and_every_opening_of_every_piece() {
        let mut job = Job::new("a", Units::Inch);
        job.pieces = PieceKind::ALL.map(with_everything).to_vec();
        let lines = lines(&job);
        for (index, _) in PieceKind::ALL.iter().enumerate() {
            let of = |what: &str| {
                let label = format!("{}, {what}", piece_name(&job, index));
                lines.iter().find(|line| line.0 == label).map(|line| line.1.as_str())
            };
            assert_eq!(
                of("edges"),
                Some(
                    "side 1: against the wall; side 2: under a backsplash; side 3: plain; side 4: rough face; \
                     side 5: eased"
                )
            );
            assert_eq!(
                of("openings"),
                Some(
                    "2 × rectangular cutout, 1 × oval cutout, 1 × round cutout, 1 × D-shaped cutout, \
                     1 × cutout by a template, 1 × row of three holes, 1 × single hole"
                )
            );
        }
    }

    #[test]
    fn an_option_without_a_cutout_says_so() {
        let mut job = Job::new("a", Units::Inch);
        let without = version(&job, &estimate(&job, &PriceBook::default()));
        job.pieces[0].cutouts.push(Cutout::default());
        let with = version(&job, &estimate(&job, &PriceBook::default()));
        let differs = |base, other| option(base, other, "USD").differs;
        assert_eq!(differs(&with, &without), [line("Openings", "none")]);
        assert_eq!(differs(&without, &with), [line("Openings", "1 × rectangular cutout")]);
    }

    #[test]
    fn sides_alike_are_named_together_and_none_is_left_out() {
        let mut job = Job::new("a", Units::Inch);
        job.pieces[0].edges[1].kind = EdgeKind::Lined;
        let edges = |job: &Job| lines(job).into_iter().find(|line| line.0.ends_with("edges")).map(|line| line.1);
        assert_eq!(edges(&job).as_deref(), Some("front, left: plain; right: rough face; back: against the wall"));
        job.pieces[0].edges.truncate(1);
        assert_eq!(edges(&job).as_deref(), Some("front, right, back, left: plain"));
        assert!(!lines(&job).iter().any(|line| line.0.ends_with("openings")));
    }
}
