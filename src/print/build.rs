//! The lists of the Build screen and of the shop sheet.

use super::cuts::cut_rows;
use super::list::{List, Row};
use crate::draw::Selection;
use crate::estimate::Estimate;
use crate::form::{Level, Liner, Run, Screws, write_bow, write_form_pressure};
use crate::job::read::all;
use crate::job::{Job, Piece};
use crate::knockout::{Core, FOAM_FIRST, Knockout, Knockouts};
use crate::measure::{
    Length, Units, write_area, write_count, write_cut, write_length, write_mass, write_volume, write_water,
};
use crate::steel::{Bar, Panel, Steel};
use crate::working::{Known, Waiting};

/// What is cut and laid for one piece: its form, its knockouts, its steel, and how level it lies.
pub fn piece_lists(job: &Job, all: &Estimate, piece: usize) -> Vec<List> {
    let (Some(typed), Some(of)) = (job.pieces.get(piece), all.pieces.get(piece)) else { return Vec::new() };
    let units = job.units;
    let mut lists = Vec::new();
    let cuts = of.form.as_ref().map_err(Waiting::clone).and_then(|form| cut_rows(form, typed, units));
    lists.push(List { heading: "Cut list", lead: String::new(), rows: cuts, ticked: true });
    if !(of.knockouts.cutouts.is_empty() && of.knockouts.cores.is_empty()) {
        let rows = knockout_rows(&of.knockouts, units);
        lists.push(List { heading: "Knockouts", lead: FOAM_FIRST.to_owned(), rows, ticked: true });
    }
    let steel = of.steel.as_ref().map_err(Waiting::clone);
    let lead = steel.as_ref().map_or_else(|_| String::new(), |steel| steel.order.words().to_owned());
    let rows = steel.map(|steel| steel_rows(steel, units));
    lists.push(List { heading: "Steel", lead, rows, ticked: true });
    if let Some(level) = all.build.levels.get(piece) {
        let rows = match level {
            Ok(None) => Ok(Vec::new()),
            Ok(Some(level)) => Ok(level_rows(level, typed, units)),
            Err(waiting) => Err(waiting.clone()),
        };
        lists.push(List { heading: "Out of level", lead: String::new(), rows, ticked: false });
    }
    lists.retain(|list| list.rows.as_ref().is_ok_and(|rows| !rows.is_empty()) || list.rows.is_err());
    lists
}

/// What the forms of all pieces take together: liner, and what is used up.
pub fn job_lists(job: &Job, all: &Estimate) -> Vec<List> {
    let mut lists = Vec::new();
    if let Some(liner) = &all.build.liner {
        let rows = liner.as_ref().map(|liner| liner_rows(liner, job, all)).map_err(Waiting::clone);
        lists.push(List { heading: "Liner", lead: String::new(), rows, ticked: true });
    }
    let rows = consumable_rows(job, all);
    lists.push(List { heading: "Used up on the form", lead: String::new(), rows, ticked: true });
    lists
}

fn cut(length: Length, units: Units) -> String {
    write_cut(length, units).text
}

/// "18 × 12 in".
fn by(one: Length, other: Length, units: Units) -> String {
    format!("{} × {}", write_cut(one, units).bare(), cut(other, units))
}

fn knockout_rows(knockouts: &Knockouts, units: Units) -> Known<Vec<Row>> {
    let of_cutouts = knockouts.cutouts.iter().enumerate();
    let cutouts = all(of_cutouts.map(|(index, knockout)| {
        knockout.as_ref().map_err(Waiting::clone).and_then(|knockout| knockout_row(index, knockout, units))
    }))?;
    let cores = all(knockouts.cores.iter().cloned())?;
    Ok(cutouts.into_iter().chain(cores.iter().map(|core| core_row(core, units))).collect())
}

fn knockout_row(index: usize, knockout: &Knockout, units: Units) -> Known<Row> {
    let stack = knockout.stack.as_ref().map_err(Waiting::clone)?;
    let foot = knockout.foot.bounds();
    let metres = Length::new::<uom::si::length::meter>;
    let size = by(metres(foot.width()), metres(foot.height()), units);
    let mut row =
        Row::new(format!("Cutout {}", index + 1), format!("{size}, {} high", cut(knockout.height.value, units)))
            .marked(format!("K{}", index + 1))
            .lighting(Selection::Cutout(index));
    for blank in &knockout.blanks {
        let of = blank.of.label().to_lowercase();
        row = row.and(format!(
            "{}: {of} {}, {}",
            blank.mark,
            cut(blank.thickness, units),
            by(blank.width, blank.length, units)
        ));
    }
    if stack.shim.value > Length::default() {
        row = row.and(format!("shim on top: {}", write_length(stack.shim.value, units)));
    }
    if knockout.draft > Length::default() {
        row = row.and(format!("narrower by {} on every side at its top", cut(knockout.draft, units)));
    }
    let hold = knockout.hold.words(units);
    row.working = Some(knockout.hold.lift.working.clone());
    Ok(row.and(hold))
}

fn core_row(core: &Core, units: Units) -> Row {
    let size =
        format!("{} of ⌀ {}, {} long", core.count, write_cut(core.diameter, units).bare(), cut(core.length, units));
    Row::new("Faucet hole cores", size).marked(&core.mark).and(core.of.label()).lighting(Selection::Holes(core.set))
}

fn steel_rows(steel: &Steel, units: Units) -> Vec<Row> {
    let mut rows = Vec::new();
    if let Some(lath) = &steel.lath {
        let each = if lath.layers > 1 { format!(", {} layers alike", lath.layers) } else { String::new() };
        rows.extend(lath.panels.iter().map(|panel| panel_row(panel, &each, units)));
        rows.push(Row::figure("Lath to buy", &lath.sheets, |sheets| write_count(*sheets, "sheet", "sheets")));
    }
    if let Some(bars) = &steel.bars {
        rows.extend(bars.bars.iter().map(|bar| bar_row(bar, bars.size.label(), units)));
        let missing = bars.no_room.iter().map(|none| Row::new(none.rail.words(), "no room for a bar"));
        rows.extend(missing);
    }
    if let Some(layer) = &steel.bar_layer {
        let height =
            Row::figure("Bar centre above the face", &layer.height, |height| write_length(*height, units).to_string());
        let face = write_length(layer.face_cover, units);
        rows.push(
            height.and(format!("cover: {face} to the face, {} to the back", write_length(layer.back_cover, units))),
        );
    }
    if !rows.is_empty() {
        rows.push(Row::figure("Steel, all together", &steel.mass, |mass| write_mass(*mass, units).to_string()));
    }
    rows
}

fn panel_row(panel: &Panel, each: &str, units: Units) -> Row {
    let mut row = Row::new(format!("Lath panel{each}"), by(panel.length, panel.width, units)).marked(&panel.mark);
    if panel.trimmed {
        row = row.and("trimmed to the outline of the piece");
    }
    for hole in &panel.cuts {
        row = row.and(format!(
            "cut out {}, {} from its left end and {} from its front",
            by(hole.width, hole.depth, units),
            cut(hole.from_left, units),
            cut(hole.from_front, units)
        ));
    }
    row
}

fn bar_row(bar: &Bar, size: &str, units: Units) -> Row {
    let rails: Vec<_> = bar.rails.iter().map(|rail| rail.words()).collect();
    Row::new(format!("Bar {size}"), cut(bar.length, units)).marked(&bar.mark).and(rails.join(", ")).and(format!(
        "{} of concrete beside it, to {}",
        write_length(bar.side_cover, units),
        bar.nearest
    ))
}

fn level_rows(level: &Level, typed: &Piece, units: Units) -> Vec<Row> {
    let corner = |(index, thickness): (usize, &Length)| {
        let name = if level.corners.len() == typed.sides() {
            typed.corner_name(index)
        } else {
            format!("Corner {}", index + 1)
        };
        Row::new(format!("Thickness, {}", name.to_lowercase()), write_length(*thickness, units))
    };
    let mut rows: Vec<_> = level.corners.iter().enumerate().map(corner).collect();
    rows.push(Row::figure("Thickest to thinnest", &level.difference, |length| {
        write_length(*length, units).to_string()
    }));
    rows.push(Row::figure("Less in the form", &level.less, |volume| write_volume(*volume, units).to_string()));
    rows
}

fn liner_rows(liner: &Liner, job: &Job, all: &Estimate) -> Vec<Row> {
    let units = job.units;
    let mut rows: Vec<_> = liner.runs.iter().map(|run| run_row(run, job, all)).collect();
    for (index, cuts) in liner.cuts.iter().enumerate() {
        let piece = |cut: &crate::form::LinerCut| {
            let length = liner.runs.get(cut.run).and_then(|run| run.pieces.get(cut.piece));
            length.map(|length| write_cut(*length, units).text)
        };
        let pieces: Vec<_> = cuts.iter().filter_map(piece).collect();
        rows.push(Row::new(format!("From length {}", index + 1), pieces.join(" + ")));
    }
    let count = |count: &u32| write_count(*count, "length", "lengths");
    rows.push(Row::figure("Liner in all", &liner.lengths, count));
    rows.push(Row::figure("Liner to buy", &liner.to_buy, |lengths| {
        if *lengths == 0 { "none".to_owned() } else { count(lengths) }
    }));
    rows.push(Row::new("Gaps under its ends to plug", liner.ends_to_plug));
    rows.push(Row::figure("Tape behind it", &liner.tape, |length| write_length(*length, units).to_string()));
    rows
}

fn run_row(run: &Run, job: &Job, all: &Estimate) -> Row {
    let units = job.units;
    let form = all.pieces.get(run.piece).and_then(|piece| piece.form.as_ref().ok());
    let name =
        form.zip(job.pieces.get(run.piece)).map_or_else(String::new, |(form, typed)| run.name(&form.clear, typed));
    let prefix = crate::job::read::piece_prefix(job, run.piece);
    let mut row = Row::new(format!("{prefix}{name}"), cut(run.length(), units));
    if run.past > Length::default() {
        row = row.and(format!(
            "{} along the edge, running past each end by {}",
            cut(run.along, units),
            cut(run.past, units)
        ));
    }
    if !run.joints.is_empty() {
        let joints: Vec<_> = run.joints.iter().map(|joint| cut(*joint, units)).collect();
        row = row.and(format!("joints at {} from its start", joints.join(", ")));
    }
    row
}

fn consumable_rows(job: &Job, estimate: &Estimate) -> Known<Vec<Row>> {
    let units = job.units;
    let build = &estimate.build;
    let screws = screw_rows(build.screws.as_ref().map_err(Waiting::clone)?, units);
    let silicone = build.silicone.as_ref().map_err(Waiting::clone)?;
    let tape = build.tape.as_ref().map_err(Waiting::clone)?;
    let release = build.release.as_ref().map_err(Waiting::clone)?;
    let supports = build.supports.as_ref().map_err(Waiting::clone)?;
    let mut rows = screws;
    let apart = Row::figure("Supports under the base", supports, |length| {
        format!("no more than {} apart", write_length(*length, units))
    });
    let bow = build.bow.as_ref().map_err(Waiting::clone)?;
    let lies = if bow.is_some() {
        "both ways, flat in one plane; further apart the base bows and the face with it"
    } else {
        "both ways, flat in one plane; no distance is typed, so it is taken to lie flat on a bench over its whole area"
    };
    rows.push(apart.and(lies));
    rows.extend(bow.as_ref().map(|bow| Row::figure("Base bows between them", bow, |bow| write_bow(*bow, units))));
    rows.push(
        Row::figure("Silicone", &silicone.cartridges, |count| write_count(*count, "cartridge", "cartridges")).and(
            format!(
                "bead: {} along the base, {} upright, {} around knockouts; dark silicone shows what was missed",
                write_length(silicone.at_base, units),
                write_length(silicone.upright, units),
                write_length(silicone.at_knockouts, units)
            ),
        ),
    );
    rows.push(
        Row::figure("Tape", tape, |length| write_length(*length, units).to_string())
            .and("over screw heads, so that they are found, and raw ends"),
    );
    rows.push(
        Row::figure("Release agent", &release.volume, |volume| write_water(*volume, units).to_string())
            .and(format!("wiped thin over {}", write_area(release.area.value, units))),
    );
    Ok(rows)
}

fn screw_rows(screws: &Screws, units: Units) -> Vec<Row> {
    let pressure = write_form_pressure(screws.pressure.value, units);
    let count = Row::figure("Screws", &screws.count, ToString::to_string).and(format!(
        "every {} along the sides, none nearer an end than {}",
        write_length(screws.typed, units),
        write_length(crate::form::limits::screw_from_end(), units)
    ));
    let most =
        Row::figure("Furthest apart that holds", &screws.most, |length| write_length(*length, units).to_string())
            .and(format!("against {pressure} at the foot of the sides"));
    vec![count, most]
}
