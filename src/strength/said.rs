//! The words for cases, supports, refusals and remedies.

use super::bearing::BearingError;
use super::cases::{About, Age, Case, Load, SupportKind};
use super::limits;
use super::mesh::MeshError;
use super::remedy::{Change, Remedy};
use super::seats::{Reach, Spot};
use super::study::StudyError;
use crate::finding::say;
use crate::measure::{
    Length, Pressure, Time, Units, write_duration, write_force, write_length, write_moment, write_number,
    write_percent, write_pressure, write_small_length,
};
use crate::top::Facing;
use uom::si::f64::{Force, Torque};

/// "in front of the left sink": where a person sits, as far as that is known.
fn seat(spot: Option<Spot>, names: &[String]) -> String {
    let name = |opening: usize| names.get(opening).map_or("a cutout", String::as_str);
    match spot {
        None => "on it".to_owned(),
        Some(Spot::FrontEdge) => "on the front edge".to_owned(),
        Some(Spot::Gap) => "over the gap".to_owned(),
        Some(Spot::BetweenBrackets(number)) => {
            format!("at the front edge between brackets {} and {}", number + 1, number + 2)
        }
        Some(Spot::AtBracket(number)) => format!("at the front edge in front of bracket {} from the left", number + 1),
        Some(Spot::LeftEnd) => "on the left end".to_owned(),
        Some(Spot::RightEnd) => "on the right end".to_owned(),
        Some(Spot::Corner { front, left }) => {
            let (depth, side) = (if front { "front" } else { "back" }, if left { "left" } else { "right" });
            format!("on the {depth} {side} corner")
        }
        Some(Spot::Strip { opening, look }) => {
            let side = match look {
                Facing::Front => "in front of",
                Facing::Back => "behind",
                Facing::Left => "left of",
                Facing::Right => "right of",
            };
            format!("{side} {}", name(opening))
        }
    }
}

/// "on the front edge, which reaches over": where a person sits past what bears.
fn out_there(reach: Reach, spot: Option<Spot>, names: &[String]) -> String {
    let edge = match reach {
        Reach::Front => "the front edge",
        Reach::Left => "the left end",
        Reach::Right => "the right end",
    };
    match spot {
        Some(Spot::Corner { .. }) => format!("{}, where it reaches over", seat(spot, names)),
        _ => format!("on {edge}, which reaches over"),
    }
}

/// "when lifted flat": what happens, as the end of a sentence; `names` says "the left sink" of an opening.
pub fn when(case: &Case, spot: Option<Spot>, names: &[String]) -> String {
    let facts = case.kind.facts();
    let words = facts.held.filter(|_| case.is_held()).map_or(facts.when, |[_, when]| when);
    words.replace("{}", &about(facts.about, case, spot, names))
}

/// What a case is about: "the left sink", "on the front edge".
fn about(what: About, case: &Case, spot: Option<Spot>, names: &[String]) -> String {
    match what {
        About::Top => String::new(),
        About::Opening(opening) => names.get(opening).map_or("a cutout", String::as_str).to_owned(),
        About::Bowls => full(case).to_owned(),
        About::Person => seat(spot, names),
        About::Reach(reach) => out_there(reach, spot, names),
    }
}

/// ", every bowl full of water": what hangs in the cutouts.
fn full(case: &Case) -> &'static str {
    let rims = case.loads.iter().filter(|load| matches!(load, Load::Rim { .. })).count();
    match (case.age, rims) {
        (Age::Stripping | Age::Handling, _) | (Age::InUse, 0) => "",
        (Age::InUse, 1) => ", the bowl full of water",
        (Age::InUse, _) => ", the bowls full of water",
    }
}

/// The words for a case, as the head of its numbers.
pub fn label(case: &Case, spot: Option<Spot>, names: &[String]) -> String {
    let facts = case.kind.facts();
    let words = facts.held.filter(|_| case.is_held()).map_or(facts.label, |[label, _]| label);
    words.replace("{}", &about(facts.about, case, spot, names))
}

/// "The rail in front of the left sink cracks when lifted flat at 1 h 15 min."
pub fn sentence(
    place: &str,
    utilization: f64,
    (case, spot): (&Case, Option<Spot>),
    age: Time,
    names: &[String],
) -> String {
    let verb = if utilization > limits::CRACKING_MARGIN {
        "cracks"
    } else if utilization > 1.0 {
        "is over what is allowed"
    } else {
        "holds"
    };
    let when = when(case, spot, names) + full(case);
    let age = if case.age == Age::InUse { String::new() } else { format!(" at {}", write_duration(age).text) };
    format!("{} {verb} {when}{age}.", capital(place))
}

/// The same with a capital letter.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().collect::<String>() + letters.as_str())
}

/// The words for what bears.
pub fn bears(who: SupportKind) -> String {
    match who {
        SupportKind::Carrier(number) => format!("Person {}", number + 1),
        SupportKind::Batten(number) => format!("{} support", if number == 0 { "Left" } else { "Right" }),
        SupportKind::BesideCutout(number) => {
            format!("Batten {} of the cutout", if number == 0 { "left" } else { "right" })
        }
        SupportKind::Foam => "The foam".to_owned(),
        SupportKind::Bench => "The bench".to_owned(),
        SupportKind::CabinetFront => "Cabinet, front".to_owned(),
        SupportKind::CabinetBack => "Cabinet, back".to_owned(),
        SupportKind::FastenedBack => "Cabinet, back, fastened".to_owned(),
        SupportKind::CabinetSide(number) => format!("Cabinet, side {} from the left", number + 1),
        SupportKind::Bracket(number) => format!("Bracket {} from the left", number + 1),
        SupportKind::FastenedBracket(number) => format!("Bracket {} from the left, its fastening", number + 1),
        SupportKind::Ledger => "The ledger".to_owned(),
        SupportKind::FastenedLedger => "The ledger, fastened".to_owned(),
        SupportKind::Prop => "Added support".to_owned(),
    }
}

/// A stress: "474 psi".
pub fn stress(value: Pressure, units: Units) -> String {
    write_pressure(value, units).text
}

/// A force: "360 lb".
pub fn force(value: Force, units: Units) -> String {
    write_force(value, units).text
}

/// A moment: "7920 lb·in".
pub fn moment(value: Torque, units: Units) -> String {
    write_moment(value, units).text
}

/// How far it sags: "0.012 in".
pub fn sag(value: Length, units: Units) -> String {
    write_small_length(value, units).text
}

/// What is changed, as a button says it.
pub fn change(change: Change, names: &[String], units: Units) -> String {
    let name = |opening: usize| names.get(opening).map_or("the cutout", String::as_str);
    match change {
        Change::WaitFor(strength) => format!("Wait until it has {}", write_pressure(strength, units)),
        Change::Thickness(thickness) => format!("Cast it {} thick", write_length(thickness, units)),
        Change::WiderRail { opening, by } => {
            format!("Move {} away by {}", name(opening), write_length(by, units))
        }
        Change::CornerRadius { opening, radius } => {
            format!("Round the corners of {} by {}", name(opening), write_length(radius, units))
        }
        Change::OnEdge => "Take it on its long edge".to_owned(),
        Change::ThirdHand => "Hold it in the middle as well".to_owned(),
        Change::Prop(_) => "Prop the rails under the sinks".to_owned(),
        Change::Foam => "Knockouts of foam, dug out".to_owned(),
        Change::Bar(size) => format!("Lay a bar {} along it, at mid-depth", size.label()),
    }
}

/// What a change comes to: whether it holds then, and of a bar what it is for.
pub fn gain(remedy: &Remedy, now: f64) -> String {
    let share = comes_to(remedy);
    match remedy.cracked {
        Some(cracked) => format!(
            "{share}; the first crack comes {} later, and once cracked it bears {} times this pull",
            write_percent(now / remedy.utilization - 1.0),
            write_number(cracked, 1)
        ),
        None => share,
    }
}

/// Whether it holds with a change, or that is only better.
pub fn comes_to(remedy: &Remedy) -> String {
    let share = write_number(remedy.utilization, 2);
    if remedy.holds {
        format!("then it holds, at {share} × the limit")
    } else {
        format!("better, and still over the limit: {share} ×")
    }
}

/// Why nothing is worked out.
pub fn refusal(refusal: StudyError, names: &[String], units: Units) -> String {
    let name = |opening: usize| names.get(opening).map_or("a cutout", String::as_str);
    match refusal {
        StudyError::NoSize => "A size, a strength or a weight is nothing.".to_owned(),
        StudyError::Mesh(MeshError::Touches { opening }) => {
            format!("{} touches an edge or another opening.", capital(name(opening)))
        }
        StudyError::Mesh(MeshError::NoSize) => "It is too small to be worked out.".to_owned(),
        StudyError::Mesh(MeshError::TooClose) => "Two parts of its outline nearly touch.".to_owned(),
        StudyError::Bearing(BearingError::Tips { by }) => {
            format!(
                "It tips over: its weight lies {} outside what bears.",
                say::length(super::cases::metres(by), units)
            )
        }
        StudyError::Bearing(BearingError::NoSupport) => "Nothing bears it.".to_owned(),
        StudyError::Bearing(BearingError::OneLine) => "All that bears it lies in one line.".to_owned(),
        StudyError::Bearing(BearingError::NoLoad) => "Nothing weighs on it.".to_owned(),
        StudyError::Bearing(BearingError::OutOfBalance) => {
            "The forces found do not balance, so none is told.".to_owned()
        }
        StudyError::Bearing(BearingError::NotSettled) => "What bears it keeps changing, so nothing is told.".to_owned(),
        StudyError::Bearing(BearingError::Solve(_)) | StudyError::Solve(_) => {
            "It is too loosely held to be solved.".to_owned()
        }
        StudyError::LoadOutside => "What bears down lies outside the top.".to_owned(),
        StudyError::NoCase => "There is no such case.".to_owned(),
    }
}
