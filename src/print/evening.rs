//! The evening before the pour: what is laid out, measured, cut and opened, made from the job.

use super::steps::bag_words;
use crate::estimate::{Estimate, PieceEstimate};
use crate::finding::{Severity, say};
use crate::job::read;
use crate::job::{BarSize, Job, Lath};
use crate::knockout::Knockouts;
use crate::measure::{Units, write_count, write_dose, write_length, write_mass, write_water, write_weighed};
use crate::mix::proportion::Role;
use crate::mix::{Bagged, Coats, Order, Scratch, Supply, part_name};
use crate::pour::clock::last_batch;
use crate::pour::timeline::Warmth;
use crate::steel::{LathPlan, Panel};
use crate::strength::verdict::piece_of;
use std::sync::Arc;

/// Lines under a heading, each to be ticked off.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ToDo {
    /// What they are about.
    pub heading: &'static str,
    /// One thing each; no two of a list are the same.
    pub lines: Vec<String>,
}

/// The list of a job. What cannot be worked out yet is not on it.
pub fn evening_list(job: &Job, all: &Estimate) -> Vec<ToDo> {
    let lists = [
        ("Will it crack?", cracks(job, all)),
        ("Mix", mix(job, all)),
        ("Form", form(job, all)),
        ("Steel", steel(job, all)),
        ("Hands and tools", tools(job, all)),
    ];
    let mut seen: Vec<String> = Vec::new();
    let mut list = Vec::new();
    for (heading, lines) in lists {
        let mut fresh: Vec<String> = Vec::new();
        for line in lines {
            if !seen.contains(&line) {
                seen.push(line.clone());
                fresh.push(line);
            }
        }
        if !fresh.is_empty() {
            list.push(ToDo { heading, lines: fresh });
        }
    }
    list
}

/// What would crack a piece, by hand or by the map: to be settled while its form is still empty.
fn cracks(job: &Job, all: &Estimate) -> Vec<String> {
    let found = all.findings.iter().filter(|finding| piece_of(finding).is_some());
    let word = |strength| if strength == Severity::Stop { "Stop" } else { "Watch" };
    found.map(|finding| format!("{}: {}", word(finding.severity), finding.says.write(job))).collect()
}

fn mix(job: &Job, all: &Estimate) -> Vec<String> {
    let units = job.units;
    let mut lines = Vec::new();
    for order in all.orders.iter().flatten() {
        match &order.supply {
            Supply::Bags(bagged) => lines.extend(bags(job, all, order, bagged)),
            Supply::Scratch(scratch) => lines.extend(materials(job, all, order, scratch)),
        }
    }
    for plan in all.pieces.iter().flat_map(|piece| &piece.plan) {
        if let Warmth::Of(charge) = plan.day.warmth {
            if charge.ice.value > 0.0 {
                lines.push(format!("Ice for every batch: {}", write_mass(charge.ice, units).text));
            }
            lines.push(format!("Water at {}", say::temperature(charge.water_temperature, units)));
        }
    }
    lines
}

fn bags(job: &Job, all: &Estimate, order: &Order, bagged: &Bagged) -> Vec<String> {
    let units = job.units;
    let name = read::bag_name(job, order.bag);
    let bags = write_count(order.bags.value, "bag", "bags");
    let mut lines = vec![
        format!("{bags} of {name}, in the room overnight"),
        format!(
            "Water measured: {} a bag, {} in all",
            write_water(bagged.water_a_bag, units).text,
            write_water(order.water.value, units).text
        ),
    ];
    let together = all.pourings.iter().flatten().map(|pouring| &pouring.plan);
    let mut plans = together.chain(all.pieces.iter().flat_map(|piece| &piece.plan));
    let plan = plans.find(|plan| plan.bag == order.bag);
    if let Some(last) = plan.and_then(|plan| last_batch(plan, units)) {
        lines.push(format!(
            "A scale for the last batch: {}, stirred dry first, with {} water",
            bag_words(&last, units),
            write_water(last.water, units).text
        ));
    }
    for additive in &bagged.additives {
        lines.push(format!(
            "{} measured: {} a bag, {} in all",
            additive.name,
            write_dose(additive.a_bag, units).text,
            write_dose(additive.in_all, units).text
        ));
    }
    for (index, additive) in job.bags.get(order.bag).iter().flat_map(|bag| &bag.additives).enumerate() {
        if additive.dose.is_blank() {
            lines.push(format!("{} measured, by its own label", part_name(job, order.bag, Role::Additive(index))));
        }
    }
    lines
}

/// What is weighed out the evening before; water is what it is on the day.
fn materials(job: &Job, all: &Estimate, order: &Order, scratch: &Scratch) -> Vec<String> {
    let units = job.units;
    let mut lines = vec![format!(
        "{} of cement for {}, dry",
        write_count(order.bags.value, "bag", "bags"),
        read::bag_name(job, order.bag)
    )];
    for material in &scratch.materials {
        lines.push(format!("{}: {} in all", material.name, write_weighed(material.mass.value, units)));
    }
    let of_piece = |(piece, of): (usize, &Arc<PieceEstimate>)| {
        let pour = of.pour.as_ref().ok().filter(|pour| pour.bag == order.bag)?;
        Some((read::piece_prefix(job, piece), pour.coats.clone()?))
    };
    let weighed: Vec<(String, Coats)> = match &scratch.pooled {
        Some(pooled) => vec![(String::new(), pooled.clone())],
        None => all.pieces.iter().enumerate().filter_map(of_piece).collect(),
    };
    for (prefix, coats) in &weighed {
        for coat in &coats.coats {
            let dry = coat.weighed.parts.iter().filter(|(role, _)| *role != Role::Water);
            let dry: Vec<_> = dry
                .map(|(role, mass)| {
                    format!("{} {}", write_weighed(*mass, units), part_name(job, order.bag, *role).to_lowercase())
                })
                .collect();
            let batches = write_count(coats.in_all(coat), "batch", "batches");
            let name = if coat.name.is_empty() { String::new() } else { format!("{}: ", coat.name) };
            lines.push(format!("{prefix}{name}{batches} weighed out, each {}", dry.join(", ")));
        }
    }
    let stone = scratch.materials.iter().any(|material| material.role == Role::Stone);
    let recipe = job.bags.get(order.bag).and_then(|bag| bag.recipe.as_ref());
    let wet = match recipe.is_none_or(|recipe| recipe.sand_moisture.is_blank()) {
        _ if stone => "Sand and stone covered: as wet as they were weighed",
        true => "Sand dry and covered",
        false => "Sand covered: as wet as it was weighed",
    };
    lines.push(wet.to_owned());
    lines
}

fn form(job: &Job, all: &Estimate) -> Vec<String> {
    let mut lines = Vec::new();
    for (index, piece) in all.pieces.iter().enumerate() {
        let prefix = read::piece_prefix(job, index);
        lines.push(format!("{prefix}Form level both ways, screwed down, clean"));
        lines.push(format!("{prefix}Corners sealed and dry, face waxed or oiled, no puddles"));
        lines.extend(held(&prefix, &piece.knockouts));
    }
    if let Ok(screws) = &all.build.screws {
        lines.push(format!(
            "All {} of the sides in, heads taped over",
            write_count(screws.count.value, "screw", "screws")
        ));
    }
    lines
}

fn held(prefix: &str, knockouts: &Knockouts) -> Vec<String> {
    let count = |count: usize, one, many| write_count(count as u32, one, many);
    let mut lines = Vec::new();
    let (knocks, cores) = (knockouts.cutouts.len(), knockouts.cores.len());
    if knocks > 0 {
        lines.push(format!("{prefix}{} in place and held down, or it floats", count(knocks, "knockout", "knockouts")));
    }
    if cores > 0 {
        lines.push(format!("{prefix}{} for the faucet in place", count(cores, "core", "cores")));
    }
    lines
}

fn steel(job: &Job, all: &Estimate) -> Vec<String> {
    let mut lines = Vec::new();
    for (index, piece) in job.pieces.iter().enumerate() {
        let prefix = read::piece_prefix(job, index);
        let steel = &piece.reinforcement;
        let plan = all.pieces.get(index).and_then(|piece| piece.steel.as_ref().ok());
        let laths = plan.and_then(|plan| plan.lath.as_ref()).map(|lath| lath_words(lath, job.units));
        if steel.lath != Lath::None {
            let cut = laths.unwrap_or_else(|| "cut".to_owned());
            lines.push(format!("{prefix}Lath, {}, {cut}, flat, tried in the form", steel.lath.label()));
        }
        let bars = plan.and_then(|plan| plan.bars.as_ref()).map(|bars| bars.bars.as_slice());
        match bars {
            _ if steel.bars == BarSize::None => {}
            None => lines.push(format!("{prefix}Bars, {}, cut, tried in the form", steel.bars.label())),
            Some(bars) => lines.extend(bars.iter().map(|bar| {
                let length = write_length(bar.length, job.units);
                format!("{prefix}Bar {}, {}, cut to {length}, tried in the form", bar.mark, steel.bars.label())
            })),
        }
    }
    lines
}

/// "2 layers of 3 panels cut".
fn lath_words(lath: &LathPlan, units: Units) -> String {
    let size = |panel: &Panel| format!("{} × {}", write_length(panel.length, units), write_length(panel.width, units));
    let panels: Vec<_> = lath.panels.iter().map(size).collect();
    let layers = if lath.layers > 1 { format!("{} layers of ", lath.layers) } else { String::new() };
    format!("{layers}{} cut: {}", write_count(panels.len() as u32, "panel", "panels"), panels.join(", "))
}

fn tools(job: &Job, all: &Estimate) -> Vec<String> {
    let mut lines = Vec::new();
    let plans: Vec<_> = all.pieces.iter().flat_map(|piece| &piece.plan).collect();
    if let Some(people) = plans.iter().map(|plan| plan.day.people).max() {
        lines.push(format!("{} told when, and what each does", write_count(people, "person", "people")));
    }
    if let Some(mixers) = plans.iter().map(|plan| plan.day.mixers.len() as u32).max() {
        lines.push(format!(
            "{}, with drill and paddle tried",
            write_count(mixers, "mixer or bucket", "mixers or buckets")
        ));
    }
    let parts = plans.iter().map(|plan| plan.parts.len()).max().unwrap_or(1);
    if parts > 1 {
        lines.push(format!("Stop boards for {} parts, roughened joint", parts));
    }
    lines.extend(
        [
            "Gloves, glasses, long sleeves, respirator: one set a person",
            "Rinsing water for eyes and skin in reach",
            "Straight edge for the screed, longer than the form is deep",
            "Trowel, margin trowel, hammer or sander to tap with",
            "Spray bottle or hose, film to cover it",
            "Wash-out bucket; no cement down a drain",
            "Phone charged",
        ]
        .map(str::to_owned),
    );
    if job.pieces.len() > 1 {
        lines.push("Pieces in the order in which they are poured".to_owned());
    }
    lines
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;
    use crate::estimate::estimate;
    use crate::job::{StrengthPoint, Units};
    use crate::mix::demo;
    use crate::price::PriceBook;
    use crate::strength::ask::{Answer, Effort, answer};
    use crate::strength::verdict::Solved;
    use std::collections::HashSet;

    /// Two plain tops of 96 by 25 1/2 in, 1 1/2 and 3 in thick, of a mix that has 2000 psi at 1 h; and their maps.
    pub fn plain_tops() -> (Job, Estimate, Vec<Arc<Solved>>) {
        let mut job = Job::new("plain", Units::Inch);
        job.pour.air = "23 °C".into();
        job.bags[0].strengths = vec![StrengthPoint { age: "75 min".into(), strength: "2000".into() }];
        let top = &mut job.pieces[0];
        (top.width, top.depth, top.thickness) = ("96".into(), "25 1/2".into(), "1 1/2".into());
        let mut thick = top.clone();
        (thick.name, thick.thickness) = ("Thick".into(), "3".into());
        job.pieces.push(thick);
        let all = estimate(&job, &PriceBook::default());
        let questions = all.pieces.iter().flat_map(|piece| &piece.cracking).map(|known| &known.question);
        let maps = questions.map(|question| {
            let Answer::Cases { net, cases } = answer(question, Effort::Cases, &mut |_| ()) else {
                panic!("it can be worked out")
            };
            Arc::new(Solved { question: question.clone(), net, cases, helps: Vec::new() })
        });
        let maps = maps.collect();
        (job, all, maps)
    }

    #[test]
    fn a_top_that_cracks_is_on_the_list_by_hand_and_then_by_its_map() {
        let (job, mut all, maps) = plain_tops();
        let first = |all: &Estimate| evening_list(&job, all).swap_remove(0);
        let by_hand = first(&all);
        assert_eq!(by_hand.heading, "Will it crack?");
        assert!(by_hand.lines.iter().all(|line| line.contains("By hand")), "{by_hand:?}");
        all.findings = all.findings_by(&maps);
        let cracks = first(&all);
        assert_eq!((cracks.heading, cracks.lines.len()), ("Will it crack?", 1));
        assert!(
            cracks.lines[0].starts_with("Stop: Top: The middle cracks when lifted flat at 1 h 15 min."),
            "{cracks:?}"
        );
    }

    fn lines(job: &Job) -> Vec<String> {
        let all = estimate(job, &PriceBook::default());
        evening_list(job, &all).into_iter().flat_map(|todo| todo.lines).collect()
    }

    /// The worked job takes 3 bags, has one oval sink and one faucet hole, no lath.
    #[test]
    fn the_list_is_made_from_the_job() {
        let mut job = demo("test");
        let list = lines(&job);
        for line in [
            "3 bags of Rapid mortar, 55 lb",
            "5 qt a bag, 3 gal 3 qt in all",
            "1 knockout in place",
            "1 core for the faucet",
        ] {
            assert!(list.iter().any(|one| one.contains(line)), "{line}: {list:?}");
        }
        assert!(!list.iter().any(|line| line.contains("Lath")), "there is none");
        job.pieces[0].reinforcement.lath = Lath::Heavy;
        job.pour.ice = "2 lb".into();
        let list = lines(&job);
        assert!(
            list.iter().any(|line| line.contains("Lath, 3.4 lb/yd²")) && list.iter().any(|line| line.contains("2 lb"))
        );
    }

    /// A tick is a line word for word, so that no two lines are the same; and a job of which nothing is typed has a
    /// list too.
    #[test]
    fn no_two_lines_are_the_same() {
        let mut job = demo("test");
        let twin = job.pieces[0].clone();
        job.pieces.push(twin);
        let list = lines(&job);
        assert_eq!(list.iter().collect::<HashSet<_>>().len(), list.len(), "{list:?}");
        assert!(!lines(&Job::new("empty", Units::Metric)).is_empty());
    }
}
