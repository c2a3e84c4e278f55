//! The line of help below a field, as the page shows it: the table's own (see [`crate::job::FieldSpec`]), with the limits
//! and usual amounts that are the business of other rooms, in the units of the job.

use crate::finding::say;
use crate::job::{FieldPath, Units};
use crate::measure::{Length, write_number, write_percent, write_small_length};
use crate::mix::proportion::ranges;
use crate::pour::write_strength;
use crate::strength::{self, bracket};
use crate::{finish, mix, pour, top};

/// The line of help below that field in a job of those units; empty where there is nothing to say.
pub fn hint(place: FieldPath, units: Units) -> String {
    let mut says = String::new();
    let hint = place.spec().hint(units);
    let mut rest = hint.as_str();
    while let Some((before, marked)) = rest.split_once('{') {
        let (mark, after) = marked.split_once('}').unwrap_or((marked, ""));
        says.push_str(before);
        says.push_str(&amount(mark, units));
        rest = after;
    }
    says + rest
}

/// What rims of drop-in bowls lie on where nothing is typed.
pub fn ledge(units: Units) -> String {
    format!("Blank: {}, usual.", say::length(top::limits::ledge_usual(), units))
}

/// What a mark of the table stands for.
fn amount(mark: &str, units: Units) -> String {
    let adds = |times: f64| write_percent(times - 1.0);
    let between = |[from, to]: [Length; 2]| format!("{} to {}", say::length(from, units), say::length(to, units));
    match mark {
        "smooth" => adds(strength::limits::STRIPPING),
        "knockouts" => adds(strength::limits::STRIPPING_KNOCKOUTS),
        "rough" => adds(strength::limits::STRIPPING_ROUGH),
        "carried" => adds(strength::limits::HANDLING),
        "van" => adds(strength::limits::TRAVEL),
        "drain" => say::length(strength::limits::bowl_least(), units),
        "lag" => write_small_length(bracket::lag_least(), units).text,
        "laboratory" => say::temperature(pour::limits::strength_reference(units), units),
        "slumps" => between(ranges::slumps()),
        "stones" => between(ranges::stones()),
        "strengths" => {
            let [from, to] = ranges::strengths().map(|strength| write_strength(strength, units));
            format!("{from} to {to}")
        }
        "fineness" => {
            let [from, to] = ranges::fineness().map(|modulus| write_number(modulus, 1));
            format!("{from} to {to}")
        }
        "cement" => write_number(finish::limits::CEMENT_GRAVITY, 2),
        "pigment" => write_percent(mix::limits::PIGMENT_MOST),
        _ => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{Additive, Cutout, DefectEntry, Door, Holes, Job, Kind, Leg, Recipe, RecipeKind, Spell, Station};
    use crate::job::{BookField, CutoutField, FinishField, HandlingField, TemplateCorner};

    /// A job in which every field of the table stands.
    fn whole(units: Units) -> Job {
        let mut job = Job::new("whole", units);
        let piece = &mut job.pieces[0];
        piece.corner_mut(0);
        piece.walk.push(Leg::default());
        piece.doors.push(Door::default());
        piece.cutouts.push(Cutout { template: vec![TemplateCorner::default()], ..Cutout::default() });
        piece.holes.push(Holes::default());
        piece.opening.stations.push(Station::default());
        job.bags[0].recipe = Some(Recipe::new(RecipeKind::GlassFibre, units));
        job.bags[0].additives.push(Additive::default());
        job.pour.garage.push(Spell::default());
        job.finish.defects.push(DefectEntry::default());
        job
    }

    fn places(units: Units) -> Vec<FieldPath> {
        let mut places = whole(units).places();
        places.extend(BookField::ALL.iter().map(|field| FieldPath::Book(*field)));
        places
    }

    #[test]
    fn every_mark_of_the_table_stands_for_something() {
        for units in [Units::Inch, Units::Metric] {
            for place in places(units) {
                let table = place.spec().hint(units);
                for mark in table.split('{').skip(1) {
                    let mark = mark.split('}').next().unwrap_or_default();
                    assert!(!amount(mark, units).is_empty(), "{place:?}: {mark} stands for nothing");
                }
                assert!(!hint(place, units).contains(['{', '}']), "{place:?}: {}", hint(place, units));
            }
        }
    }

    #[test]
    fn the_words_of_the_table_name_no_amount() {
        for place in places(Units::Inch) {
            let words = place.spec().hint;
            // A typed 0 is a word of the rule.
            let bare = words.replace("0: nothing", "");
            assert!(!bare.contains(|letter: char| letter.is_ascii_digit()), "{place:?}: {words}");
        }
    }

    #[test]
    fn a_hint_is_in_the_units_of_its_job() {
        let named = |says: &str, units: &[&str]| {
            let words: Vec<_> = says.split(|letter: char| letter == ' ' || ".,;:".contains(letter)).collect();
            words
                .windows(2)
                .any(|pair| pair[0].ends_with(|last: char| last.is_ascii_digit()) && units.contains(&pair[1]))
        };
        for (units, others) in [
            (Units::Inch, &["mm", "m", "m²", "L", "mL", "kg", "g", "°C", "MPa"][..]),
            (Units::Metric, &["in", "ft", "ft²", "ft³", "gal", "qt", "lb", "oz", "°F", "psi"][..]),
        ] {
            for place in places(units) {
                let says = hint(place, units);
                assert!(!named(&says, others), "{place:?} of a job in {units:?}: {says}");
                // The unit that stands beside the label is written behind a number once.
                let unit = place.kind().unit(units);
                assert!(unit.is_empty() || !says.contains(&format!("{unit} {unit}")), "{place:?}: {says}");
                assert!(place.kind() != Kind::Text || !says.contains("Blank: about"), "{place:?}: {says}");
            }
        }
    }

    #[test]
    fn hints_say_what_the_rooms_reckon_with() {
        let of = |field, units| hint(FieldPath::Finish(field), units);
        assert_eq!(of(FinishField::DabSpacing, Units::Inch), "Blank: 12 in.");
        assert_eq!(of(FinishField::DabSpacing, Units::Metric), "Blank: about 305 mm.");
        assert_eq!(of(FinishField::Covers, Units::Inch), "Blank: 300 ft².");
        assert_eq!(of(FinishField::Covers, Units::Metric), "Blank: about 27.9 m².");
        assert_eq!(of(FinishField::CoversWith, Units::Inch), "Blank: 1 gal.");
        let of = |field, units| hint(FieldPath::Handling(0, field), units);
        assert_eq!(of(HandlingField::CabinetRail, Units::Inch), "Blank: 1 in.");
        assert_eq!(of(HandlingField::Person, Units::Metric), "Blank: about 136 kg.");
        let suction = "Blank: 30 %; 40 % with a knockout in the form, 60 % off a rough liner.";
        assert_eq!(of(HandlingField::Suction, Units::Inch), suction);
        assert_eq!(of(HandlingField::Jolt, Units::Metric), "Blank: 20 %.");
        let bowl = hint(FieldPath::Cutout(0, 0, CutoutField::BowlDepth), Units::Inch);
        assert_eq!(bowl, "Blank: 8 in, none under 10 in of hole. 0: nothing hangs there.");
    }
}
