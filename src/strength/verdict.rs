//! What the map of a piece finds, among the findings of its job.
//!
//! The map is worked out elsewhere, and later than everything else. Until it is known the hand check of [`check`]
//! stands, which is the sterner of the two by its factors; then the worst case of the map takes its place. What the
//! hand check finds of a case that the map cannot work out stays.

use super::ask::{Answered, MeshOutline, Question, Verdict};
use super::bearing::BearingError;
use super::cases::{Age, Case, metres};
use super::check::{self, Cracking};
use super::remedy::{Change, Remedy};
use super::study::StudyError;
use super::{fix, limits, said};
use crate::finding::{Finding, Severity, Stage};
use crate::job::{FieldPath, HandlingField};
use crate::label;
use crate::measure::{write_count, write_duration};
use crate::working::{Name, Source, about};

/// A question, and what is known of its answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Solved {
    /// What was asked.
    pub question: Question,
    /// What maps are drawn on.
    pub net: MeshOutline,
    /// The cases in the order of the question: all of them, or so far the first ones.
    pub cases: Vec<Answered>,
    /// What would help in the case of that index, the best first; of the cases for which it was asked.
    pub helps: Vec<(usize, Vec<Remedy>)>,
}

impl Solved {
    /// Every case of the question is answered.
    pub fn is_whole(&self) -> bool {
        self.cases.len() == self.question.cases.len()
    }

    /// What the case of that index comes to; nothing if it cannot be worked out.
    pub fn verdict(&self, index: usize) -> Option<&Verdict> {
        self.cases.get(index)?.verdict.as_ref().ok()
    }

    /// The cases by how near they are to cracking, the worst first; those that cannot be worked out come last.
    pub fn order(&self) -> Vec<usize> {
        let utilization = |index: &usize| self.verdict(*index).map_or(-1.0, |verdict| verdict.utilization);
        let mut order: Vec<usize> = (0..self.cases.len()).collect();
        order.sort_by(|one, other| utilization(other).total_cmp(&utilization(one)));
        order
    }

    /// What would help in the case of that index, once that is known.
    pub fn helps_in(&self, index: usize) -> Option<&[Remedy]> {
        self.helps.iter().find(|(case, _)| *case == index).map(|(_, found)| found.as_slice())
    }

    /// That what would help in the case of that index is still to be asked: it does not hold.
    pub fn wants_help(&self, index: usize) -> bool {
        self.is_whole() && self.helps_in(index).is_none() && self.verdict(index).is_some_and(|one| !one.holds())
    }

    /// The worst case, with what it comes to: of all, once they are all known.
    pub fn worst(&self) -> Option<(usize, &Case, &Verdict)> {
        let index = *self.order().first().filter(|_| self.is_whole())?;
        Some((index, self.question.cases.get(index)?, self.verdict(index)?))
    }
}

/// What the map finds of a piece: its worst case where that is over what is allowed, a stop where it cracks. Nothing
/// while the map is not known, or is the answer to another question than the piece asks now.
pub fn finding(cracking: &Cracking, solved: &Solved, piece: usize) -> Option<Finding> {
    if solved.question != cracking.question {
        return None;
    }
    if let Some(tips) = tipping(solved, piece) {
        return Some(tips);
    }
    let (index, case, verdict) = solved.worst().filter(|(.., verdict)| !verdict.holds())?;
    let worst = verdict.worst.as_ref()?;
    let (question, grown) = (&cracking.question, &cracking.grown);
    let age = grown.at(case.age);
    let sentence =
        said::sentence(&question.place(worst), verdict.utilization, (case, verdict.spot), age, &question.names);
    // What happens in use has no age in its sentence.
    let at = if case.age == Age::InUse { format!(" at {}", write_duration(age).text) } else { String::new() };
    let unknown = if grown.is_known(case.age) { "" } else { " No later strength is known: that of stripping counts." };
    let over = solved.cases.iter().flat_map(|case| &case.verdict).filter(|verdict| !verdict.holds()).count();
    let others = match u32::try_from(over.saturating_sub(1)) {
        Ok(0) | Err(_) => String::new(),
        Ok(others) => format!(" {} over what is allowed too.", write_count(others, "other case is", "other cases are")),
    };
    let remedy = solved
        .helps_in(index)
        .and_then(|found| first_of(found, cracking))
        .unwrap_or_else(|| "See “Will it crack?” on the Build screen: it shows where, and what would help.".to_owned());
    Some(Finding {
        severity: if verdict.cracks() { Severity::Stop } else { Severity::Watch },
        stage: Stage::Build,
        place: FieldPath::Handling(piece, decided_by(case, grown.decided_by)),
        says: label!(
            "{}{} By the map the pull there{} is {}; {} is allowed, and it cracks at {}.{}{}",
            Name::PieceInFront(piece),
            sentence,
            at,
            worst.stress,
            verdict.allowable,
            limits::CRACKING_MARGIN * verdict.allowable,
            unknown,
            others,
        ),
        remedy: grown.also_typed(remedy, case.age).into(),
        source: limits::ALLOWABLE,
    })
}

/// A top that would tip over where it is used is a stop, whatever its concrete bears.
fn tipping(solved: &Solved, piece: usize) -> Option<Finding> {
    let (question, whole) = (&solved.question, solved.is_whole());
    let asked = question.cases.iter().zip(&solved.cases).filter(|_| whole);
    // Brackets are judged by hand, more sternly.
    let told = asked.filter_map(|(case, answered)| Some((case, answered, case.kind.facts().tips_by?)));
    let tips = told.filter_map(|(case, answered, field)| match answered.verdict {
        Err(StudyError::Bearing(BearingError::Tips { by })) => Some((case, field, by)),
        _ => None,
    });
    let (case, field, by) = tips.max_by(|one, other| one.2.total_cmp(&other.2))?;
    Some(Finding {
        severity: Severity::Stop,
        stage: Stage::Build,
        place: FieldPath::Handling(piece, field),
        says: label!(
            "{}The top tips over {}: the middle of all weight lies {} outside what bears it.",
            Name::PieceInFront(piece),
            said::when(case, None, &question.names),
            about(metres(by)),
        ),
        remedy: "Fasten its back down, put brackets under it, or let it reach over less.".into(),
        source: Source::Arithmetic,
    })
}

/// The first remedy in words. A bar hardly delays the first crack, so that it is none.
fn first_of(found: &[Remedy], cracking: &Cracking) -> Option<String> {
    let first = found.iter().find(|remedy| !matches!(remedy.change, Change::Bar(_)))?;
    let words = fix::words(first.change, cracking);
    let then = said::comes_to(first);
    Some(format!("{words}: {then}. “Will it crack?” on the Build screen has more."))
}

/// The field that decides a case.
fn decided_by(case: &Case, stripping: HandlingField) -> HandlingField {
    match (case.kind.facts().decided_by, case.age) {
        (Some(field), _) => field,
        (None, Age::Handling) => HandlingField::CarriedAt,
        (None, Age::Stripping | Age::InUse) => stripping,
    }
}

/// Puts what the map finds of a piece into the findings of its job, which stay in the order of their strengths. What
/// the hand check finds of a case gives way to it once the map has an answer to that case, whichever it is.
pub fn tell(findings: &mut Vec<Finding>, cracking: &Cracking, solved: &Solved, piece: usize) {
    if solved.question != cracking.question || !solved.is_whole() {
        return;
    }
    let answered = |kind| solved.cases.iter().any(|case| case.kind == kind && case.verdict.is_ok());
    let by_hand: Vec<Finding> = cracking
        .net
        .iter()
        .filter(|verdict| answered(verdict.kind))
        .filter_map(|verdict| check::warning(verdict, cracking, piece))
        .chain(
            check::untold(cracking)
                .filter(|case| answered(case.kind))
                .map(|case| check::left_to_the_map(case, cracking, piece)),
        )
        .collect();
    let before = findings.iter().position(|one| by_hand.contains(one));
    findings.retain(|one| !by_hand.contains(one));
    if let Some(found) = finding(cracking, solved, piece) {
        // Among those of its strength, where the hand check stood; a sort of its own would weigh more than it says.
        let from = findings.partition_point(|one| one.severity < found.severity);
        let to = findings.partition_point(|one| one.severity <= found.severity);
        findings.insert(before.unwrap_or(to).clamp(from, to), found);
    }
}

/// The piece of which a finding says that it is over what is allowed, by hand or by the map; nothing for any other
/// finding.
pub fn piece_of(finding: &Finding) -> Option<usize> {
    match finding.place {
        FieldPath::Handling(piece, _) if finding.stage == Stage::Build && finding.severity != Severity::Note => {
            Some(piece)
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::estimate::estimate;
    use crate::job::{Cutout, Job, StrengthPoint, Units};
    use crate::price::PriceBook;
    use crate::strength::ask::{Answer, Effort, answer};
    use crate::strength::cases::LoadCase;
    use std::sync::Arc;

    /// A plain top of 96 by 25 1/2 in with no sink, lifted flat, of a rapid mortar at 70 °F that has 2000 psi at 1 h 15 min,
    /// when its hour of water is over.
    fn plain(thickness: &str) -> Job {
        let mut job = Job::new("plain", Units::Inch);
        job.pour.air = "23 °C".into();
        let top = &mut job.pieces[0];
        (top.width, top.depth, top.thickness) = ("96".into(), "25 1/2".into(), thickness.into());
        job.bags[0].strengths = [("75 min", "2000"), ("3 h", "3000"), ("1 day", "5000"), ("28 days", "7000")]
            .map(|(age, strength)| StrengthPoint { age: age.into(), strength: strength.into() })
            .into();
        job
    }

    /// A top of 70 by 20 by 1 1/2 in with two sinks, 2 in behind its front edge; 1500 psi when it is stripped.
    fn narrow() -> Job {
        let mut job = Job::new("narrow", Units::Inch);
        job.pour.air = "23 °C".into();
        let top = &mut job.pieces[0];
        (top.width, top.depth, top.thickness) = ("70".into(), "20".into(), "1 1/2".into());
        top.handling.strength = "1500".into();
        top.cutouts = ["19", "51"]
            .map(|from_left| Cutout {
                width: "20".into(),
                depth: "15".into(),
                corner_radius: "2".into(),
                from_left: from_left.into(),
                from_front: "9 1/2".into(),
                ..Cutout::default()
            })
            .into();
        job
    }

    fn cracking(job: &Job) -> Cracking {
        let all = estimate(job, &PriceBook::default());
        all.pieces[0].cracking.clone().expect("its shape and its strength are known")
    }

    fn solved(question: &Question) -> Solved {
        let Answer::Cases { net, cases } = answer(question, Effort::Cases, &mut |_| ()) else {
            panic!("it can be worked out")
        };
        Solved { question: question.clone(), net, cases, helps: Vec::new() }
    }

    fn helped(mut solved: Solved) -> Solved {
        let (index, ..) = solved.worst().expect("all is known");
        let Answer::Remedies(found) = answer(&solved.question, Effort::Remedies(index), &mut |_| ()) else {
            panic!("it can be worked out")
        };
        solved.helps.push((index, found));
        solved
    }

    #[test]
    fn a_plain_top_that_cracks_as_it_is_lifted_is_a_stop() {
        let job = plain("1 1/2");
        let known = cracking(&job);
        let mut solved = solved(&known.question);
        let found = finding(&known, &solved, 0).expect("it cracks");
        assert_eq!((found.severity, found.stage), (Severity::Stop, Stage::Build));
        assert_eq!(found.place, FieldPath::Handling(0, HandlingField::StrippedAt));
        assert_eq!(
            found.says.write(&job),
            "The middle cracks when lifted flat at 1 h 15 min. By the map the pull there is 418 psi; 224 psi is allowed, and \
             it cracks at 335 psi. 1 other case is over what is allowed too."
        );
        assert!(found.remedy.write(&job).starts_with("See “Will it crack?”"), "{}", found.remedy.write(&job));
        solved = helped(solved);
        let found = finding(&known, &solved, 0).expect("it cracks still");
        assert!(
            found.remedy.write(&job).starts_with("Hold it in the middle as well: then it holds, at 0.47 × the limit."),
            "{}",
            found.remedy.write(&job)
        );
    }

    /// 1 1/2 is where it cracks, 1 is what is allowed: 1.60 times it at 1 3/4 in, 1.40 at 2 in, 1.12 at 2 1/2 in and
    /// 0.94 at 3 in.
    #[test]
    fn over_what_cracks_it_is_a_stop_and_over_what_is_allowed_a_watch() {
        for (thickness, share, strength) in [
            ("1 3/4", 1.60, Some(Severity::Stop)),
            ("2", 1.40, Some(Severity::Watch)),
            ("2 1/2", 1.12, Some(Severity::Watch)),
            ("3", 0.93, None),
        ] {
            let job = plain(thickness);
            let known = cracking(&job);
            let solved = solved(&known.question);
            let (_, case, verdict) = solved.worst().expect("all is known");
            assert_eq!(case.kind, LoadCase::LiftedAtEnds);
            assert!((verdict.utilization - share).abs() < 0.005, "{thickness}: {}", verdict.utilization);
            assert_eq!(finding(&known, &solved, 0).map(|found| found.severity), strength, "{thickness}");
        }
    }

    /// By hand the front rail is a stop as it is lifted; by the map a person on it is worse. One of them is told.
    #[test]
    fn the_worst_of_the_map_takes_the_place_of_the_hand_check() {
        let job = narrow();
        let all = estimate(&job, &PriceBook::default());
        let about = |findings: &[Finding]| -> Vec<_> {
            findings
                .iter()
                .filter(|one| piece_of(one) == Some(0))
                .map(|one| (one.severity, one.says.write(&job)))
                .collect()
        };
        let (by_hand, known) = (about(&all.findings), cracking(&job));
        assert!(by_hand.iter().all(|(strength, _)| *strength == Severity::Stop), "{by_hand:?}");
        assert!(by_hand[0].1.contains("cracks when lifted flat at 1 h 13 min. By hand"), "{by_hand:?}");

        assert_eq!(all.findings_by(&[]), all.findings, "until the map is known the hand check stands");
        let mut begun = solved(&known.question);
        begun.cases.truncate(1);
        assert_eq!(all.findings_by(&[Arc::new(begun)]), all.findings, "and while it is known in part");

        let whole = Arc::new(solved(&known.question));
        let found = all.findings_by(std::slice::from_ref(&whole));
        let by_map = about(&found);
        let [(Severity::Stop, says)] = by_map.as_slice() else { panic!("{by_map:?}") };
        assert!(
            says.starts_with("The rail in front of the left sink cracks when a person sits in front of the left sink, the bowls full of water."),
            "{says}"
        );
        assert!(says.contains("By the map the pull there at 24 h is 1306 psi; 224 psi is allowed"), "{says}");
        assert!(says.contains("2 other cases are over"), "{says}");
        assert_eq!(found.len(), all.findings.len() + 1 - by_hand.len());
        assert!(found.is_sorted_by_key(|one| one.severity), "stops stay first");

        let mut other = job.clone();
        other.pieces[0].handling.strength = "1600".into();
        let all = estimate(&other, &PriceBook::default());
        assert_eq!(all.findings_by(&[whole]), all.findings, "an answer to another question is none");
    }

    /// The hand check is the sterner one. What the map answers, milder or not, is what is told; what it cannot answer
    /// is left to the hand check.
    #[test]
    fn an_answer_of_the_map_takes_the_place_of_the_hand_check() {
        let job = narrow();
        let all = estimate(&job, &PriceBook::default());
        let known = cracking(&job);
        for (share, told) in [(1.6, Some(Severity::Stop)), (1.4, Some(Severity::Watch)), (0.9, None)] {
            let mut solved = solved(&known.question);
            for verdict in solved.cases.iter_mut().flat_map(|case| &mut case.verdict) {
                verdict.utilization = share;
            }
            let found = all.findings_by(&[Arc::new(solved)]);
            let about: Vec<_> = found.iter().filter(|one| piece_of(one) == Some(0)).map(|one| one.severity).collect();
            assert_eq!(about, Vec::from_iter(told), "{share}");
        }
        let mut unanswered = solved(&known.question);
        for case in &mut unanswered.cases {
            case.verdict = Err(crate::strength::study::StudyError::NoCase);
        }
        assert_eq!(all.findings_by(&[Arc::new(unanswered)]), all.findings);
    }

    /// Two pieces: each is told by its own map, with its name.
    #[test]
    fn each_piece_has_a_finding_of_its_own() {
        let mut job = plain("1 1/2");
        let mut second = plain("2").pieces.remove(0);
        second.name = "Shelf".into();
        job.pieces.push(second);
        let all = estimate(&job, &PriceBook::default());
        let questions = all.pieces.iter().flat_map(|piece| &piece.cracking).map(|known| &known.question);
        let maps: Vec<_> = questions.map(|question| Arc::new(solved(question))).collect();
        let found = all.findings_by(&maps);
        let of: Vec<_> =
            found.iter().filter_map(|one| Some((piece_of(one)?, one.severity, one.says.write(&job)))).collect();
        let [(0, Severity::Stop, first), (1, Severity::Watch, second)] = of.as_slice() else { panic!("{of:?}") };
        assert!(first.starts_with("Top: The middle cracks when lifted flat at 1 h 15 min."), "{first}");
        assert!(
            second.starts_with("Shelf: The middle is over what is allowed when lifted flat at 1 h 15 min."),
            "{second}"
        );
        let told: Vec<_> =
            all.findings_by(&maps[1..]).into_iter().filter(|one| one.says.write(&job).contains("map")).collect();
        assert_eq!(told.iter().filter_map(piece_of).collect::<Vec<_>>(), [1], "the other piece's is not known");
    }
}
