//! What a room has to say, in a maker's English.

use super::reading::{Corner, Problem, Reading, Span, Taken, Walls, Wanted};
use super::{
    Amount, Angle, Fit, Hiding, OffsetProblem, ScribeProblem, Survey, Suspect, Verdict, Walk, WalkProblem, WayProblem,
    limits,
};
use crate::finding::say;
use crate::measure::exact::inches;
use crate::measure::{Length, Units, write_number};
use uom::si::angle::degree;
use uom::si::length::millimeter;

/// "92.1°", to a tenth of a degree: finer than three marks tell.
pub fn angle(value: Angle) -> String {
    format!("{}°", write_number(value.get::<degree>(), 1))
}

/// "front left corner".
pub fn corner(corner: Corner) -> &'static str {
    match corner {
        Corner::FrontLeft => "front left corner",
        Corner::FrontRight => "front right corner",
        Corner::BackRight => "back right corner",
        Corner::BackLeft => "back left corner",
    }
}

/// "left depth".
pub fn span(span: Span) -> &'static str {
    match span {
        Span::Front => "front width",
        Span::Right => "right depth",
        Span::Back => "back width",
        Span::Left => "left depth",
        Span::DiagonalFromFrontLeft => "diagonal from front left to back right",
        Span::DiagonalFromFrontRight => "diagonal from front right to back left",
    }
}

/// What an opening between these walls takes for granted; empty between three walls.
pub fn taken_square(walls: Walls) -> &'static str {
    match walls {
        Walls::Three => "",
        Walls::BackAndLeft => "The right end is taken square to the back wall, the front parallel to it.",
        Walls::BackAndRight => "The left end is taken square to the back wall, the front parallel to it.",
        Walls::Back => "Both ends are taken square to the back wall, the front parallel to it.",
    }
}

/// "left depth", "back left corner by three marks".
pub fn wanted(wanted: Wanted) -> String {
    match wanted {
        Wanted::Span(of) => span(of).to_owned(),
        Wanted::Marks(at) => format!("{} by three marks", corner(at)),
    }
}

/// What the reading of that place among the readings is called: "left depth", and where it was
/// measured more than once "left depth, reading 2".
pub fn reading(readings: &[Reading], index: usize) -> String {
    let Some(one) = readings.get(index) else { return format!("reading {}", index + 1) };
    let subject = one.taken.subject();
    let same = |other: &&Reading| other.taken.subject() == subject;
    let name = match one.taken {
        Taken::Span(of, _) => span(of).to_owned(),
        Taken::Marks(at, _) => format!("marks at the {}", corner(at)),
    };
    if readings.iter().filter(same).count() < 2 {
        return name;
    }
    format!("{name}, reading {}", readings[..=index].iter().filter(same).count())
}

/// "a, b and c", "a, b or c".
fn list(parts: &[String], last: &str) -> String {
    match parts {
        [] => String::new(),
        [only] => only.clone(),
        [all @ .., end] => format!("{} {last} {end}", all.join(", ")),
    }
}

fn opened(sentence: String) -> String {
    let mut letters = sentence.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}

/// What is wrong with the readings of an opening, and what to do.
pub fn problem(problem: &Problem, readings: &[Reading], units: Units) -> String {
    let name = |index: &usize| reading(readings, *index);
    let says = match problem {
        Problem::NoLength { reading } => format!("{}: every length must be over zero.", name(reading)),
        Problem::TooLong { reading } => {
            format!(
                "{}: longer than {}, so it is no room.",
                name(reading),
                say::length(limits::longest_reading(), units)
            )
        }
        Problem::BadUncertainty { reading } => {
            format!("{}: nothing can be worked out from a reading so sure or so unsure.", name(reading))
        }
        Problem::TooManyReadings => format!("More than {} readings of one opening.", limits::MOST_READINGS),
        Problem::NoCornerThere { reading } => format!("{}: no two walls meet there.", name(reading)),
        Problem::MarksDoNotClose { reading } => format!(
            "{}: the three lengths make no triangle. The distance between the marks must be less than both legs together, and more than one is longer than the other.",
            name(reading),
        ),
        Problem::LongerThanTheWayRound { reading, others } => {
            let others: Vec<String> = others.iter().map(|index| format!("the {}", name(index))).collect();
            format!("{}: not shorter than {} together. One of them is wrong.", name(reading), list(&others, "and"))
        }
        Problem::TooFew { take } => {
            let take: Vec<String> = take.iter().map(|&one| format!("the {}", wanted(one))).collect();
            format!("The readings do not fix the shape yet. Measure {}.", list(&take, "and"))
        }
        Problem::BendsInwards { corner: at } => {
            format!("With these readings the opening bends inwards at the {}. One of them is wrong.", corner(*at))
        }
    };
    opened(says)
}

/// What the readings say of each other, and what to measure next.
pub fn verdict(verdict: &Verdict, readings: &[Reading], units: Units) -> String {
    let subject = |index: usize| readings.get(index).map(|one| one.taken.subject());
    let says = match verdict {
        Verdict::Unchecked => "No reading checks another. One more would.".to_owned(),
        Verdict::Agrees => "The readings agree as well as a tape can be read.".to_owned(),
        Verdict::OneOf { readings: these, ask } => {
            let first = these.first().and_then(|&index| subject(index));
            if these.len() == 2 && these.iter().all(|&index| subject(index) == first) {
                let what = first.map_or(String::new(), wanted);
                format!("The two readings of the {what} do not agree. Measure it once more.")
            } else {
                format!(
                    "One reading is wrong, and it cannot be known which. Measure the {}, or take any one again.",
                    wanted(*ask),
                )
            }
        }
        Verdict::Suspects { suspects, settle, others_agree } => {
            let more = if *others_agree { "" } else { "More than one reading is wrong. " };
            let again = reading(readings, *settle);
            match suspects.as_slice() {
                [only] => {
                    let name = reading(readings, only.reading);
                    format!("{more}The {name} looks wrong: {}. Take it again.", would_be(only, readings, units))
                }
                several => {
                    let of_one = |suspect: &Suspect| {
                        let name = reading(readings, suspect.reading);
                        format!("the {name} ({})", would_be(suspect, readings, units))
                    };
                    let several: Vec<String> = several.iter().map(of_one).collect();
                    format!("{more}One of these is wrong: {}. Take the {again} again to tell.", list(&several, "or"))
                }
            }
        }
    };
    opened(says)
}

/// As [`verdict`]; and where chance explains a disagreement that is no longer fine, what it is of.
pub fn agreement(survey: &Survey, readings: &[Reading], units: Units) -> String {
    match coarse(survey) {
        Some((index, off)) => format!(
            "The readings differ by no more than chance may make them, but the others make the {} {} {}.",
            reading(readings, index),
            say::length(off.abs(), units),
            if off > Length::default() { "longer" } else { "shorter" }
        ),
        None => verdict(&survey.verdict, readings, units),
    }
}

/// Where readings agree by the rules of chance and differ by more than is fine: the one that differs most, and by how much
/// the others make it longer.
pub fn coarse(survey: &Survey) -> Option<(usize, Length)> {
    if survey.verdict != Verdict::Agrees {
        return None;
    }
    let off = |fit: &Fit| match fit.residual {
        Amount::Length(residual) if fit.standardised.is_some() => Some(residual / fit.redundancy),
        _ => None,
    };
    let offs = survey.fits.iter().enumerate().filter_map(|(index, fit)| Some((index, off(fit)?)));
    let most = offs.max_by(|(_, one), (_, other)| one.abs().value.total_cmp(&other.abs().value))?;
    (most.1.abs() > limits::fine_disagreement() + crate::measure::geometry_tolerance()).then_some(most)
}

/// What no spare reading would show, where the readings agree: every length in which a slip of more than is fine could
/// hide, by its place among the readings, and the sentence. Nothing where there is none.
pub fn unseen(survey: &Survey, readings: &[Reading], units: Units) -> Option<(usize, String)> {
    if survey.verdict != Verdict::Agrees {
        return None;
    }
    let step = match units {
        Units::Inch => inches(1.0 / 8.0),
        Units::Metric => Length::new::<millimeter>(5.0),
    };
    let mut hidden: Vec<(usize, Length)> = Vec::new();
    let mut unchecked: Vec<usize> = Vec::new();
    for (index, fit) in survey.fits.iter().enumerate() {
        match (fit.measured, fit.unseen) {
            (Amount::Length(_), None) => unchecked.push(index),
            (_, Some(slip)) if slip > limits::fine_disagreement() => {
                hidden.push((index, ((slip - crate::measure::geometry_tolerance()) / step).value.ceil() * step));
            }
            _ => {}
        }
    }
    hidden.sort_by(|(_, one), (_, other)| other.value.total_cmp(&one.value));
    let name = |index: usize| format!("the {}", reading(readings, index));
    let mut says = Vec::new();
    if !unchecked.is_empty() {
        let names: Vec<String> = unchecked.iter().map(|&index| name(index)).collect();
        says.push(format!("No other reading checks {}: tape it twice.", list(&names, "or")));
    }
    if let Some((_, most)) = hidden.first() {
        let alike = hidden.iter().all(|(_, slip)| (*slip - *most).abs() < crate::measure::geometry_tolerance());
        let said = |slip: Length| say::length(slip, units);
        let each: Vec<String> = if alike {
            hidden.iter().map(|(index, _)| name(*index)).collect()
        } else {
            hidden.iter().map(|(index, slip)| format!("{} ({})", name(*index), said(*slip))).collect()
        };
        let it = if hidden.len() == 1 { "it" } else { "each" };
        says.push(format!(
            "A slip of up to {} in {} would not show here: tape {it} twice.",
            said(*most),
            list(&each, "or")
        ));
    }
    let first = unchecked.first().copied().or_else(|| hidden.first().map(|(index, _)| *index))?;
    Some((first, says.join(" ")))
}

fn would_be(suspect: &Suspect, readings: &[Reading], units: Units) -> String {
    let would_be = say::length(suspect.would_be, units);
    match readings.get(suspect.reading).map(|one| one.taken) {
        Some(Taken::Span(_, read)) => format!("{} was read, the others make it {would_be}", say::length(read, units)),
        Some(Taken::Marks(_, marks)) => {
            let read = say::length(marks.between, units);
            format!("{read} was read between the marks, the others make it {would_be}")
        }
        None => format!("the others make it {would_be}"),
    }
}

/// By how much a way in works, or does not.
pub fn margin(margin: Option<Length>, units: Units) -> String {
    match margin {
        None => "nothing is in its way".to_owned(),
        Some(spare) if spare >= -crate::measure::geometry_tolerance() => {
            format!("{} to spare", say::length(spare.max(Length::default()), units))
        }
        Some(short) => format!("{} too tight", say::length(-short, units)),
    }
}

/// What hides the gap along a bowed wall.
pub fn hiding(hiding: &Hiding, units: Units) -> String {
    let gap = say::length(hiding.gap, units);
    let caulk = say::length(limits::caulk_widest(), units);
    if hiding.by_caulk() {
        format!("The widest gap is {gap}; caulk hides up to {caulk}.")
    } else if hiding.by_backsplash() {
        format!("The widest gap is {gap}, too wide for caulk; the backsplash covers it.")
    } else {
        format!("The widest gap is {gap}; caulk hides up to {caulk}. Scribe the edge to the wall.")
    }
}

/// How far a walked outline is from closing.
pub fn closure(walk: &Walk, units: Units) -> String {
    let angles = angle(walk.angle_misclosure);
    match walk.one_in {
        None => format!("The outline closes; its angles are off by {angles} in all."),
        Some(one_in) => format!(
            "The outline fails to close by {}, one part in {}, and its angles by {angles} in all; both are spread over it.",
            say::length(walk.closure, units),
            write_number(one_in, 0),
        ),
    }
}

/// Why a walked outline is none.
pub fn walk_problem(problem: WalkProblem, units: Units) -> String {
    match problem {
        WalkProblem::TooFew => "An outline has at least three edges.".to_owned(),
        WalkProblem::TooMany => format!("An outline has at most {} edges.", limits::MOST_CORNERS),
        WalkProblem::NoLength { leg } => format!(
            "Edge {}: its length must be over zero and at most {}.",
            leg + 1,
            say::length(limits::longest_reading(), units),
        ),
        WalkProblem::NoAngle { leg } => {
            format!("Corner {}: the inside angle must be over 0° and under 360°.", leg + 1)
        }
        WalkProblem::AnglesDoNotClose => {
            "The inside angles do not go once round. One was measured outside, or an edge is missing.".to_owned()
        }
        WalkProblem::DoesNotClose => {
            "The outline ends further from its start than its longest edge. An edge is missing or wrong.".to_owned()
        }
        WalkProblem::Crosses { leg, other } => format!("Edges {} and {} cross.", leg + 1, other + 1),
    }
}

/// Why edges cannot be moved by clearances and overhangs.
pub fn offset_problem(problem: OffsetProblem) -> String {
    match problem {
        OffsetProblem::NoOutline => "An outline has at least three edges, each with its own distance.".to_owned(),
        OffsetProblem::NoNumber => "A corner or a distance is no number.".to_owned(),
        OffsetProblem::NotCounterClockwise => "The corners do not go round counter-clockwise.".to_owned(),
        OffsetProblem::NoEdge { edge } => format!("Edge {} has no length.", edge + 1),
        OffsetProblem::MeetNowhere { corner } => {
            format!("Corner {}: two edges in one line, moved by unequal distances, meet nowhere.", corner + 1)
        }
        OffsetProblem::Swallowed { edge } => {
            format!("Edge {}: its neighbours meet before they reach it; nothing of it is left.", edge + 1)
        }
    }
}

/// Why a wall's stations give no line.
pub fn scribe_problem(problem: ScribeProblem) -> String {
    match problem {
        ScribeProblem::TooFew => "A bowed wall needs at least two stations.".to_owned(),
        ScribeProblem::TooMany => format!("A wall has at most {} stations.", limits::MOST_CORNERS),
        ScribeProblem::NoNumber { station } => {
            format!("Station {}: place and gap must be zero or more.", station + 1)
        }
        ScribeProblem::NotInOrder { station } => format!("Station {} must lie past the one before it.", station + 1),
    }
}

/// Why there is no saying how a top gets in.
pub fn way_problem(problem: WayProblem) -> String {
    match problem {
        WayProblem::NoNumber => "A corner or the thickness is no number.".to_owned(),
        WayProblem::SideAcross => "A side does not run from front to back.".to_owned(),
        WayProblem::IntoTheBackWall => "The top runs into the back wall.".to_owned(),
    }
}
