//! The steps of a pour in words: on the clock, in the log, on paper.

use crate::finding::{Severity, say};
use crate::job::PourStep;
use crate::measure::{
    Dose, Time, Units, write_count, write_dose, write_duration, write_mass, write_water, write_weighed,
};
use crate::mix::limits::water_density;
use crate::pour::clock::{Course, Ingredients, Threat};
use crate::pour::limits::face_coat_stiffens;

/// A step as the clock says it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StepWords {
    /// What it is about: "Batch 2 of 6".
    pub title: String,
    /// What to do, a line each.
    pub lines: Vec<String>,
    /// The word on the button that ticks it off.
    pub done: &'static str,
    /// What can hurt at this step.
    pub caution: &'static str,
}

const WET: &str = "Wet cement burns skin and eyes: gloves and glasses stay on. Wash it off at once; an eye is rinsed \
                   for 15 minutes and seen by a doctor.";
const DUST: &str = "Dry mix is dust: respirator on while bags are opened and poured. Wet cement burns skin and eyes.";
const HEAVY: &str = "It is heavy and its edges are sharp: gloves, boots, and enough people.";

/// A step of a part in words, with what goes into it.
pub fn step_words(course: &Course, part: u32, step: PourStep, units: Units) -> StepWords {
    let of_parts = if course.parts() > 1 { format!("Part {}: ", part + 1) } else { String::new() };
    let of_batch = |batch: u32| format!("{of_parts}Batch {} of {}", batch + 1, course.batches(part));
    let fixed = |title: &str, lines: &[&str], done, caution| StepWords {
        title: format!("{of_parts}{title}"),
        lines: lines.iter().map(|line| (*line).to_owned()).collect(),
        done,
        caution,
    };
    match step {
        PourStep::Water(batch) => StepWords {
            title: match course.ingredients(part, batch) {
                Some(into) if !into.coat.is_empty() => format!("{}: {}", of_batch(batch), into.coat.to_lowercase()),
                _ => of_batch(batch),
            },
            lines: batch_lines(course, part, batch, units),
            done: "Water is in: start",
            caution: DUST,
        },
        PourStep::Placed(batch) => StepWords {
            title: of_batch(batch),
            lines: std::iter::once("Mix, carry, place it. Tap the bubbles out.".to_owned())
                .chain(fills(course, part, batch))
                .chain(waits_for_face(course, part, batch))
                .collect(),
            done: "It is placed",
            caution: WET,
        },
        PourStep::Lath => fixed("Lay the lath", &["Flat, off the edges, no end sticking up."], "Lath is in", WET),
        PourStep::Bars => fixed("Bars", &["Along the rails, at their height."], "Bars are in", WET),
        PourStep::Screed => {
            let mut words = fixed("Screed", &["Saw the straight edge over the sides."], "It is screeded", WET);
            words.lines.extend(one_after_the_other(course));
            words
        }
        PourStep::Trowel => {
            let flat = "Wait 5 minutes, then flat: high points rock on the cabinet.";
            let mut words = fixed("Trowel the back", &[flat], "It is trowelled", WET);
            words.lines.extend(one_after_the_other(course));
            words
        }
        PourStep::Patches => fixed(
            "Watch for light patches",
            &["Light patches are hard patches. When the first shows, wet it."],
            "It sets: I wet it",
            WET,
        ),
        PourStep::Wet => fixed("Keep it wet", &["For an hour. It must not go light."], "The hour is over", WET),
        PourStep::Strip => fixed(
            "Strip",
            &["Sides first, then the base. A few more hours of patience cost less than a crack."],
            "It is out",
            HEAVY,
        ),
    }
}

fn batch_lines(course: &Course, part: u32, batch: u32, units: Units) -> Vec<String> {
    let Some(into) = course.ingredients(part, batch) else { return Vec::new() };
    let mut lines: Vec<String> = into
        .weighed
        .iter()
        .map(|(name, mass)| format!("{} {}", write_weighed(*mass, units), name.to_lowercase()))
        .collect();
    if into.weighed.is_empty() {
        lines.push(bag_words(into, units));
        lines.push(format!("{} water", write_water(into.water, units).text));
    } else {
        lines.push(format!("{} water", write_weighed(into.water * water_density(), units)));
    }
    if into.ice.value > 0.0 {
        lines.push(format!("{} ice", write_mass(into.ice, units).text));
    }
    lines.extend(fills(course, part, batch));
    lines.extend(waits_for_face(course, part, batch));
    let bags = into.bags_in_all();
    lines.extend(course.additives().iter().map(|additive| {
        let dose = match additive.a_bag {
            Dose::Volume(volume) => Dose::Volume(volume * bags),
            Dose::Mass(mass) => Dose::Mass(mass * bags),
        };
        format!("{} {}", write_dose(dose, units).text, additive.name)
    }));
    lines
}

/// The bags of a batch: "2 bags", "1 bag and 22 lb of the next", "22 lb of a bag".
pub fn bag_words(batch: &Ingredients, units: Units) -> String {
    let bags = write_count(batch.bags, "bag", "bags");
    match batch.of_next.map(|part| write_mass(part.mass, units).text) {
        None => bags,
        Some(mass) if batch.bags == 0 => format!("{mass} of a bag"),
        Some(mass) => format!("{bags} and {mass} of the next"),
    }
}

/// The pieces that a batch goes into.
fn fills(course: &Course, part: u32, batch: u32) -> Option<String> {
    let pieces = &course.ingredients(part, batch)?.fills;
    (!pieces.is_empty()).then(|| format!("It goes into {}", pieces.join(", then ")))
}

/// How pieces are screeded that are poured at one go.
fn one_after_the_other(course: &Course) -> Option<String> {
    let pieces = course.pieces();
    (pieces.len() > 1).then(|| format!("One after the other: {}", pieces.join(", ")))
}

/// What the first batch on a face coat waits for: common practice.
fn waits_for_face(course: &Course, part: u32, batch: u32) -> Option<String> {
    let before = batch.checked_sub(1).and_then(|before| course.ingredients(part, before));
    let into = course.ingredients(part, batch);
    before.zip(into).filter(|(before, into)| before.coat != into.coat).map(|_| {
        format!(
            "Not before the face coat stays off a finger: about {} after it was sprayed",
            write_duration(face_coat_stiffens()).text
        )
    })
}

/// A step in the log: "Batch 2: water in".
pub fn log_words(part: u32, parts: u32, step: PourStep) -> String {
    let of_parts = if parts > 1 { format!("Part {}: ", part.saturating_add(1)) } else { String::new() };
    let words = match step {
        PourStep::Water(batch) => format!("Batch {}: water in", batch.saturating_add(1)),
        PourStep::Placed(batch) => format!("Batch {}: placed", batch.saturating_add(1)),
        PourStep::Lath => "Lath laid".to_owned(),
        PourStep::Bars => "Bars laid".to_owned(),
        PourStep::Screed => "Screeded".to_owned(),
        PourStep::Trowel => "Trowelled".to_owned(),
        PourStep::Patches => "First light patches: wet from here".to_owned(),
        PourStep::Wet => "Kept wet for its hour".to_owned(),
        PourStep::Strip => "Stripped".to_owned(),
    };
    of_parts + &words
}

/// What threatens, in a sentence or two.
pub fn threat_words(severity: Severity, threat: &Threat) -> String {
    let over = |left: &Time| say::duration(-*left);
    match (threat, severity) {
        (Threat::ColdJoint { batch, left }, Severity::Stop) => format!(
            "Cold joint: batch {} would go on {} after batch {batch} stopped knitting. Hurry it, or roughen and push into \
             what lies there.",
            batch + 1,
            over(left)
        ),
        (Threat::ColdJoint { batch, left }, _) => {
            format!("Batch {} goes on {} before batch {batch} stops knitting.", batch + 1, say::duration(*left))
        }
        (Threat::Late { left }, Severity::Stop) => format!(
            "It would be screeded {} after the first batch is stiff: tap and level what is in before that.",
            over(left)
        ),
        (Threat::Late { left }, _) => format!("Only {} to spare until the first batch is stiff.", say::duration(*left)),
    }
}

/// Minutes and seconds on a clock: "3:05", from an hour on "1 h 02".
pub fn clock_words(milliseconds: f64) -> String {
    // A cast saturates, and what is no number is zero.
    let seconds = ((milliseconds.abs() / 1000.0) as u64).min(9999 * 3600);
    if seconds < 3600 {
        format!("{}:{:02}", seconds / 60, seconds % 60)
    } else {
        format!("{} h {:02}", seconds / 3600, seconds / 60 % 60)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_countdown_reads_like_a_clock() {
        for (milliseconds, words) in
            [(0.0, "0:00"), (999.0, "0:00"), (185_000.0, "3:05"), (-40_000.0, "0:40"), (3_720_000.0, "1 h 02")]
        {
            assert_eq!(clock_words(milliseconds), words);
        }
        assert_eq!(clock_words(f64::NAN), "0:00");
        assert!(clock_words(f64::INFINITY).contains('h'));
    }
}
