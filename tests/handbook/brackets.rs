//! A top on brackets on the wall: what the worst bracket takes, how hard its topmost screw is pulled and what that screw
//! is allowed, whether a loose top tips, and what the map makes of it.

use crate::evidence::{Check, Evidence, Mark, checks};
use crate::{assert_close, job_of};
use pourwright::estimate::{Estimate, estimate};
use pourwright::finding::{Finding, Severity};
use pourwright::job::{Back, FieldPath, HandlingField, Job, Rest, StrengthPoint, Units};
use pourwright::measure::exact::{in_inches, psi};
use pourwright::price::PriceBook;
use pourwright::strength::ask::{Answer, Effort, Verdict, answer};
use pourwright::strength::bracket::{Hung, STUD_GRAVITY};
use pourwright::strength::cases::{LoadCase, SupportKind};
use pourwright::strength::check::Cracking;
use pourwright::strength::limits::GRAVITY;
use pourwright::strength::said;
use pourwright::strength::seats::Spot;
use pourwright::working::{Known, Waiting};
use uom::si::f64::{Force, Torque};

checks![the_worst_bracket_by_hand, what_screws_hold_in_a_stud];

/// A floating wash top of 48 × 20 × 2 in on three brackets of 16 in, 10 in high, 6 in from the ends, each held by a lag
/// screw of 5/16 in with 1 3/4 in of thread in the stud.
fn floating() -> Job {
    let mut job = job_of("48", "20", "2");
    let point = |age: &str, strength: &str| StrengthPoint { age: age.into(), strength: strength.into() };
    job.bags[0].strengths = vec![point("1 h", "2000"), point("1 day", "5000"), point("28 days", "7000")];
    let own = &mut job.pieces[0].handling;
    (own.rest, own.brackets, own.bracket_from) = (Rest::Brackets, "3".into(), "6".into());
    (own.bracket_length, own.bracket_height) = ("16".into(), "10".into());
    (own.screw, own.screw_bite) = ("5/16".into(), "1 3/4".into());
    job
}

fn worked(job: &Job) -> Estimate {
    estimate(job, &PriceBook::default())
}

fn cracking(job: &Job) -> Cracking {
    worked(job).pieces[0].cracking.clone().expect("everything else is known")
}

fn hung(job: &Job) -> Hung {
    cracking(job).hung.expect("brackets bear it")
}

fn pounds(force: Force) -> f64 {
    force.value / (0.453_592_37 * GRAVITY)
}

fn inch_pounds(moment: Torque) -> f64 {
    moment.value / (0.453_592_37 * GRAVITY * 0.0254)
}

/// Pounds a cubic inch: 55 lb and 5 qt of water in 0.5 ft³, as the bag of a new job has it.
fn density() -> f64 {
    (55.0 + 5.0 * 0.25 * 231.0 / 1728.0 * 62.4) / 0.5 / 1728.0
}

fn utilization(job: &Job) -> f64 {
    hung(job).utilization.expect("all is typed").value
}

/// What is found of the brackets, by the field that it names.
fn found(job: &Job, field: HandlingField) -> Option<Finding> {
    worked(job).findings.into_iter().find(|one| one.place == FieldPath::Handling(0, field))
}

/// Statics by hand: brackets at 6, 24 and 42 in, so that the outer ones have 15 in of the top each, and a person past one
/// of them weighs 1 + 6/18 times on it.
///
/// 1920 in³ at 0.0757 lb/in³ are 145 lb; 15/48 of that is 45.4 lb. The person weighs 300 × 1.333 = 400 lb on it: 445 lb.
/// About the wall 45.4 × 10 + 400 × 20 = 8454 lb·in; over 10 in that pulls by 845 lb.
fn the_worst_bracket_by_hand(evidence: &mut Evidence) {
    let found = hung(&floating());
    let worst = found.worst.expect("the brackets are typed");
    assert_eq!(worst.bracket, 0);
    let weight = 48.0 * 20.0 * 2.0 * density();
    let share = weight * 15.0 / 48.0;
    let person = 300.0 * (1.0 + 6.0 / 18.0);
    let to_places = |value: f64, places: i32| (value * 10f64.powi(places)).round() / 10f64.powi(places);
    assert_close(share + person, 445.0, 1e-3);
    assert_close(share * 10.0 + person * 20.0, 8454.0, 1e-3);
    let table = evidence.check(Check {
        label: "B1",
        title: "The worst of three brackets under a floating top",
        source: "Statics by hand beside the test",
        marks: &[Mark::ByHand],
        problem: "48 × 20 × 2 in on brackets 6 in from its ends and one between, the topmost screw 10 in above the foot; a \
            person of 300 lb on the front corner, as a beam over the outer bracket and the next",
        modelled: "estimate::estimate of that job: strength::bracket",
        gap: "The density of water that the bag is mixed with.",
        ..Check::default()
    });
    table.close("load, lb", pounds(worst.load.value), to_places(share + person, 1), 1e-3);
    let moment = share * 10.0 + person * 20.0;
    table.close("moment about the wall, lb·in", inch_pounds(worst.moment.value), to_places(moment, 0), 1e-3);
    table.close(
        "pull on the topmost screw, lb",
        pounds(found.pull.expect("typed").value),
        to_places(moment / 10.0, 1),
        1e-3,
    );
}

/// 1800 × 0.42^(3/2) × 0.3125^(3/4) = 1800 × 0.2722 × 0.4180 = 205 lb an inch; × 1.75 in = 358 lb.
/// 1800 × 0.2722 × 0.3536 (of 1/4 in) = 173 lb an inch. A No. 10 wood screw: 2850 × 0.1764 × 0.19 = 95.5 lb an inch.
fn what_screws_hold_in_a_stud(evidence: &mut Evidence) {
    let holds = |screw: &str, bite: &str| {
        let mut job = floating();
        let own = &mut job.pieces[0].handling;
        (own.screw, own.screw_bite) = (screw.into(), bite.into());
        pounds(hung(&job).holds.expect("typed").value)
    };
    assert_eq!(STUD_GRAVITY, 0.42);
    let table = evidence.check(Check {
        label: "B2",
        title: "What screws hold in the side of a stud",
        source: "National Design Specification for Wood Construction 12.2: 1800 G^(3/2) D^(3/4) and 2850 G² D, lb an inch of \
            thread, read in two pages that quote it; its table has 205 and 173 lb for lag screws of 5/16 and 1/4 in in \
            spruce-pine-fir (from memory)",
        marks: &[Mark::Published, Mark::ByHand],
        problem: "Lag screws of 5/16 and 1/4 in, and a No. 10 wood screw, in wood of 0.42",
        conventions: "For loads of usual length: not raised by 1.6 for a short one.",
        modelled: "estimate::estimate of a top on brackets: strength::bracket",
        ..Check::default()
    });
    table.close("lag screw 5/16 in, one inch, lb", holds("5/16", "1"), 204.8, 1e-3);
    table.close("lag screw 5/16 in, 1 3/4 in, lb", holds("5/16", "1 3/4"), 358.4, 1e-3);
    table.close("lag screw 1/4 in, one inch, lb", holds("1/4", "1"), 173.2, 1e-3);
    table.close("No. 10 wood screw, one inch, lb", holds("0.19", "1"), 95.5, 1e-3);
}

/// 845 lb against 358 lb. With a lag screw of 3/8 in that bites 3 in (704 lb) and taller brackets the pull falls: at
/// 12 in it is 704.5 lb, at 13 in 650 lb, at 19 in 445 lb.
#[test]
fn a_screw_pulled_over_what_is_allowed_is_a_stop_and_near_it_a_watch() {
    let says = found(&floating(), HandlingField::ScrewBite).expect("it is over");
    assert_eq!(says.severity, Severity::Stop);
    assert_eq!(
        says.says.write(floating()),
        "The topmost screw of bracket 1 from the left is over what is allowed with a person of 300 lb at the front edge: \
         it is pulled by 845 lb; 358 lb is allowed in the stud."
    );
    assert!(
        says.remedy.write(Units::Inch).starts_with("A longer thread, a taller bracket, or more brackets."),
        "{}",
        says.remedy.write(Units::Inch)
    );
    assert!(
        says.remedy.write(Units::Inch).contains("somebody licensed to judge where the code asks for it"),
        "{}",
        says.remedy.write(Units::Inch)
    );
    assert_close(utilization(&floating()), 8454.3 / 10.0 / 358.4, 1e-3);
    for (height, share, strength) in [
        ("11 7/8", 1.0107, Some(Severity::Stop)),
        ("12 1/8", 0.9899, Some(Severity::Watch)),
        ("17 3/4", 0.6762, Some(Severity::Watch)),
        ("18 1/4", 0.6577, None),
    ] {
        let mut job = floating();
        let own = &mut job.pieces[0].handling;
        (own.screw, own.screw_bite, own.bracket_height) = ("3/8".into(), "3".into(), height.into());
        assert_close(utilization(&job), share, 1e-3);
        assert_eq!(found(&job, HandlingField::ScrewBite).map(|one| one.severity), strength, "{height}");
    }
}

/// With the outer brackets at the very ends the middle one has the most of the top, 24 of 48 in: 72.7 + 300 lb.
#[test]
fn the_bracket_that_has_the_most_of_the_top_is_the_worst_where_nothing_reaches_past_the_ends() {
    let mut job = floating();
    job.pieces[0].handling.bracket_from = "0".into();
    let worst = hung(&job).worst.expect("typed");
    assert_eq!(worst.bracket, 1);
    assert_close(pounds(worst.load.value), 72.7 + 300.0, 1e-3);
    assert_close(inch_pounds(worst.moment.value), 72.7 * 10.0 + 300.0 * 20.0, 1e-3);
}

/// A bowl full of water weighs on the wall as well: 145 + 30 lb and 18 × 12 × 8 in of it (62.3 lb), in the middle.
#[test]
fn bowls_weigh_on_brackets_too() {
    let mut job = floating();
    let bare = pounds(hung(&job).worst.expect("typed").load.value);
    job.pieces[0].cutouts =
        vec![crate::cutout(pourwright::job::CutoutShape::Rectangle, ["18", "12", "0"], ["24", "10"])];
    let cut = 18.0 * 12.0 * 2.0 * density();
    let bowl = 30.0 + 18.0 * 12.0 * 8.0 / 1728.0 * 62.4;
    let with = pounds(hung(&job).worst.expect("typed").load.value);
    assert_close(with - bare, (bowl - cut) * 15.0 / 48.0, 5e-3);
}

/// 300 lb 4 in past the fronts against 145 lb 6 in behind them: 1200 against 872. With 17 in: 900 against 1018.
#[test]
fn a_loose_top_tips_over_short_brackets_and_not_over_longer_ones() {
    let tipping = |job: &Job| hung(job).tipping.expect("it lies loose");
    let mut job = floating();
    let weight = 1920.0 * density();
    let tips = tipping(&job);
    assert!(tips.front);
    assert_close(tips.share.value, 300.0 * 4.0 / (weight * 6.0), 1e-3);
    let says = found(&job, HandlingField::BracketLength).expect("it tips");
    assert_eq!(says.severity, Severity::Stop);
    assert_eq!(
        says.says.write(&job),
        "The top tips over its brackets when a person of 300 lb sits at the front edge: what turns it is 1.38 times what \
         holds it."
    );
    // (300 × 20 + 145 × 10) ÷ 445 = 16.74 in.
    assert_eq!(says.remedy.write(&job), "Fasten its back down, or take brackets that reach 16 3/4 in from the wall.");
    assert_close(in_inches(tips.enough), (300.0 * 20.0 + weight * 10.0) / (300.0 + weight), 1e-3);
    job.pieces[0].handling.bracket_length = "17".into();
    assert_close(tipping(&job).share.value, 300.0 * 3.0 / (weight * 7.0), 1e-3);
    assert_eq!(found(&job, HandlingField::BracketLength), None);
}

/// 16 in from the ends: 300 lb 16 in past the last bracket against 145 lb 8 in before it.
#[test]
fn a_loose_top_tips_over_its_last_bracket() {
    let mut job = floating();
    let own = &mut job.pieces[0].handling;
    (own.bracket_length, own.bracket_from) = ("19".into(), "16".into());
    let tips = hung(&job).tipping.expect("loose");
    assert!(!tips.front);
    assert_close(tips.share.value, 300.0 * 16.0 / (1920.0 * density() * 8.0), 1e-3);
    let says = found(&job, HandlingField::BracketFrom).expect("it tips");
    assert_eq!(says.severity, Severity::Stop);
    assert!(says.says.write(&job).contains("sits on a front corner"), "{}", says.says.write(&job));
    job.pieces[0].handling.bracket_from = "6".into();
    assert_eq!(found(&job, HandlingField::BracketFrom), None);
}

/// A ledger from end to end bears as well: the top tips over the line from its end to the front of the outer bracket.
///
/// Three brackets that reach 18 in: that line runs from (0, 20) to (6, 2). The front corner lies 120 ÷ √(6² + 18²) in
/// past it, the middle of the top 372 ÷ √(6² + 18²) in behind it. One bracket of 16 in in the middle: from (48, 20) to
/// (24, 4), 480 and 144 ÷ √(24² + 16²).
#[test]
fn with_a_ledger_a_top_tips_over_a_slanted_line() {
    let weight = 1920.0 * density();
    let mut job = floating();
    let own = &mut job.pieces[0].handling;
    (own.rest, own.bracket_length) = (Rest::LedgerAndBrackets, "18".into());
    let tips = hung(&job).tipping.expect("loose");
    assert!(!tips.front);
    assert_close(tips.share.value, 300.0 * 120.0 / (weight * 372.0), 1e-3);
    assert_eq!(found(&job, HandlingField::BracketFrom), None);
    let own = &mut job.pieces[0].handling;
    (own.brackets, own.bracket_from, own.bracket_length) = ("1".into(), "".into(), "16".into());
    let tips = hung(&job).tipping.expect("loose");
    assert_close(tips.share.value, 300.0 * 480.0 / (weight * 144.0), 1e-3);
    let says = found(&job, HandlingField::Brackets).expect("it tips");
    assert_eq!(
        (says.severity, says.remedy.write(&job).as_str()),
        (Severity::Stop, "Fasten its back down, or take a second bracket.")
    );
}

/// Under two thirds of 20 in a loose top is left to tip, whatever the person weighs; 13 3/8 in are enough.
#[test]
fn brackets_under_two_thirds_of_the_depth_are_a_watch() {
    let mut job = floating();
    job.pieces[0].handling.person = "10".into();
    for (reach, strength) in [("13 1/4", Some(Severity::Watch)), ("13 3/8", None)] {
        job.pieces[0].handling.bracket_length = reach.into();
        assert_eq!(found(&job, HandlingField::BracketLength).map(|one| one.severity), strength, "{reach}");
    }
    job.pieces[0].handling.bracket_length = "13 1/4".into();
    job.pieces[0].handling.back = Back::Fastened;
    assert_eq!(found(&job, HandlingField::BracketLength), None, "a fastened back holds it");
}

/// 300 lb × 4 in − 145 lb × 6 in = 327 lb·in, held down 16 in behind the fronts: 20.5 lb. The map finds it too.
#[test]
fn a_fastened_back_holds_it_down() {
    let mut job = floating();
    job.pieces[0].handling.back = Back::Fastened;
    let found = hung(&job);
    assert_eq!(found.tipping, None);
    let hold = pounds(found.hold_down.expect("it has to").value);
    assert_close(hold, (300.0 * 4.0 - 1920.0 * density() * 6.0) / 16.0, 5e-3);
    let sits = map(&job, LoadCase::SitsOnBrackets).expect("it is held");
    let pulled: f64 = sits.reactions.iter().map(|one| pounds(one.force).min(0.0)).sum();
    assert!(pulled < -hold / 2.0, "{pulled} of {hold}");
    job.pieces[0].handling.bracket_length = "18".into();
    assert_eq!(hung(&job).hold_down, None, "its own weight does");
}

fn map(job: &Job, kind: LoadCase) -> Option<Verdict> {
    let mut question = cracking(job).question;
    question.cases.retain(|case| case.kind == kind);
    match answer(&question, Effort::Cases, &mut |_| ()) {
        Answer::Cases { cases, .. } => cases.into_iter().next().expect("it happens").verdict.ok(),
        other => panic!("{other:?}"),
    }
}

/// What the brackets bear is the whole of it, and each is named from the left.
#[test]
fn a_top_on_brackets_is_mapped_on_them_and_on_no_cabinet() {
    let mut job = floating();
    job.pieces[0].handling.bracket_length = "18".into();
    let known = cracking(&job);
    let in_use: Vec<LoadCase> = known.question.cases.iter().map(|case| case.kind).collect();
    assert!(in_use.ends_with(&[LoadCase::OnBrackets, LoadCase::SitsOnBrackets]), "{in_use:?}");
    assert!(!in_use.contains(&LoadCase::OnCabinet) && !in_use.contains(&LoadCase::PersonSits), "{in_use:?}");
    let rests = map(&job, LoadCase::OnBrackets).expect("it rests");
    let names: Vec<String> = rests.reactions.iter().map(|one| said::bears(one.bears)).collect();
    assert_eq!(names, ["Bracket 1 from the left", "Bracket 2 from the left", "Bracket 3 from the left"]);
    let all: f64 = rests.reactions.iter().map(|one| pounds(one.force)).sum();
    assert_close(all, 1920.0 * density(), 1e-3);
    let case = known.question.cases.iter().find(|case| case.kind == LoadCase::SitsOnBrackets).expect("it happens");
    let spots: Vec<Spot> = case.seats.iter().map(|seat| seat.spot).collect();
    let corner = |left| Spot::Corner { front: true, left };
    let (between, at) = (Spot::BetweenBrackets, Spot::AtBracket);
    assert_eq!(spots, [between(0), between(1), at(0), at(1), at(2), corner(true), corner(false)]);
    let says = said::when(case, Some(between(1)), &known.question.names);
    assert_eq!(says, "when a person sits at the front edge between brackets 2 and 3");
    job.pieces[0].handling.rest = Rest::LedgerAndBrackets;
    let rests = map(&job, LoadCase::OnBrackets).expect("it rests");
    assert_eq!(rests.reactions[0].bears, SupportKind::Ledger);
    assert_eq!(said::bears(SupportKind::Ledger), "The ledger");
    assert_eq!(rests.reactions.len(), 4);
}

/// A strip 12 in wide and 24 in deep on two brackets that reach 12 in, its back fastened: it sticks out 12 in past them,
/// and a person sits 10 in past them. 300 × 10 + 0.0757 × 2 × 12 × 12 × 6 = 3131 lb·in; 6 M ÷ (12 × 2²) = 391 psi.
#[test]
fn the_map_stands_by_the_cantilever_by_hand() {
    let mut job = floating();
    let piece = &mut job.pieces[0];
    (piece.width, piece.depth) = ("12".into(), "24".into());
    let own = &mut piece.handling;
    (own.rest, own.back) = (Rest::LedgerAndBrackets, Back::Fastened);
    (own.brackets, own.bracket_from, own.bracket_length) = ("2".into(), "1".into(), "12".into());
    let mut question = cracking(&job).question;
    question.cases.retain(|case| case.kind == LoadCase::SitsOnBrackets);
    question.cases[0].seats.retain(|seat| seat.spot == Spot::BetweenBrackets(0));
    let Answer::Cases { cases, .. } = answer(&question, Effort::Cases, &mut |_| ()) else { panic!("it is asked") };
    let verdict = cases[0].verdict.clone().expect("it is held");
    let worst = verdict.worst.expect("it is pulled");
    let moment = 300.0 * 10.0 + density() * 2.0 * 12.0 * 12.0 * 6.0;
    let by_hand = 6.0 * moment / (12.0 * 2.0 * 2.0);
    assert_close(by_hand, 391.0, 1e-2);
    assert_close((worst.strip / psi(1.0)).value, by_hand, 0.08);
}

/// Every field that is missing is asked for by its name with what works there, and what is known stands.
#[test]
fn what_is_missing_is_asked_for_and_never_assumed() {
    use HandlingField as Field;
    let says = |known: &dyn Fn(&Hung) -> Option<Waiting>, field: Field| {
        let mut job = floating();
        *job.entry_at_mut(FieldPath::Handling(0, field)).expect("it is there") = "".into();
        let found = hung(&job);
        assert!(cracking(&job).question.cases.iter().any(|case| case.kind == LoadCase::LiftedAtEnds), "{field:?}");
        known(&found).map(|waiting| waiting.needs().iter().map(|need| need.write(&job)).collect::<String>())
    };
    fn need<T>(known: &Known<T>) -> Option<Waiting> {
        known.as_ref().err().cloned()
    }
    assert_eq!(
        says(&|own| need(&own.worst), Field::Brackets).as_deref(),
        Some("Brackets: nothing is written here yet; one at every stud, 16 in apart, is usual.")
    );
    assert_eq!(
        says(&|own| need(&own.worst), Field::BracketFrom).as_deref(),
        Some("First and last bracket, from the ends: nothing is written here yet; 6 in is usual.")
    );
    assert!(says(&|own| need(&own.worst), Field::BracketLength).expect("asked").contains("two thirds of the depth"));
    assert!(says(&|own| need(&own.pull), Field::BracketHeight).expect("asked").contains("measure it on the bracket"));
    assert_eq!(says(&|own| need(&own.worst), Field::BracketHeight), None, "the load is known without it");
    assert_eq!(
        says(&|own| need(&own.utilization), Field::Screw).as_deref(),
        Some("Screw of a bracket, diameter: nothing is written here yet; a lag screw of 5/16 in is usual.")
    );
    assert!(says(&|own| need(&own.holds), Field::ScrewBite).expect("asked").contains("1 3/4 in of thread"));
    let mut job = floating();
    job.pieces[0].handling.brackets = "".into();
    let kinds: Vec<LoadCase> = cracking(&job).question.cases.iter().map(|case| case.kind).collect();
    assert!(!kinds.contains(&LoadCase::OnBrackets) && !kinds.contains(&LoadCase::OnCabinet), "{kinds:?}");
}

/// What is left typed of a cabinet says nothing of brackets, and what is typed of brackets nothing of a cabinet.
#[test]
fn what_is_typed_of_the_other_is_left_alone() {
    let mut job = floating();
    job.pieces[0].handling.cabinet_rail = "much".into();
    assert!(utilization(&job) > 1.0, "it is worked out all the same");
    job.pieces[0].handling.rest = Rest::Cabinet;
    assert!(worked(&job).pieces[0].cracking.is_err(), "of a cabinet it is asked for again");
    let own = &mut job.pieces[0].handling;
    (own.cabinet_rail, own.screw, own.brackets) = ("".into(), "thin".into(), "many".into());
    let on_cabinet = cracking(&job);
    assert_eq!(on_cabinet.hung, None);
    assert!(on_cabinet.question.cases.iter().any(|case| case.kind == LoadCase::OnCabinet));
}

/// One bracket alone, brackets past each other or past the front, and a nail are told with what works.
#[test]
fn brackets_that_do_not_fit_are_asked_for_again() {
    let says = |change: &dyn Fn(&mut Job)| {
        let mut job = floating();
        change(&mut job);
        let found = hung(&job);
        found.utilization.err().map_or(String::new(), |waiting| waiting.needs()[0].write(&job))
    };
    assert_eq!(says(&|_| ()), "");
    assert!(says(&|job| job.pieces[0].handling.brackets = "1".into()).contains("two or more, or a ledger as well"));
    let ledger = |job: &mut Job| {
        let own = &mut job.pieces[0].handling;
        (own.rest, own.brackets, own.bracket_from) = (Rest::LedgerAndBrackets, "1".into(), "".into());
    };
    assert_eq!(says(&ledger), "", "one in the middle and a ledger will do");
    assert!(says(&|job| job.pieces[0].handling.brackets = "0".into()).starts_with("Brackets: "));
    assert!(says(&|job| job.pieces[0].handling.brackets = "100".into()).contains("nearer to each other than 1 in"));
    assert!(says(&|job| job.pieces[0].handling.bracket_from = "24".into()).contains("23 1/2 in is the most"));
    assert_eq!(
        says(&|job| (job.pieces[0].handling.brackets, job.pieces[0].handling.bracket_from) =
            ("2".into(), "23 1/2".into())),
        ""
    );
    assert!(says(&|job| job.pieces[0].handling.bracket_length = "20 1/4".into()).contains("20 in is the most"));
    assert_eq!(says(&|job| job.pieces[0].handling.bracket_length = "20".into()), "");
    assert!(says(&|job| job.pieces[0].handling.screw = "0.12".into()).contains("0.138 in to 1.25 in"));
}

/// 1200 × 500 × 50 mm on brackets 150 mm from the ends that reach 400 mm and are 250 mm high, a lag screw of 8 mm biting
/// 45 mm. The weight is 0.03 m³; 375/1200 of it is on an outer bracket, and 136.1 kg × (1 + 150/450) in front of it.
/// Pull = (share × 0.25 + person × 0.5) ÷ 0.25; an 8 mm lag screw holds 1800 × 0.2722 × 0.3150^0.75 = 206 lb an inch.
#[test]
fn in_metres_as_well() {
    let mut job = Job::new("metric", Units::Metric);
    job.pieces[0].handling = floating().pieces.remove(0).handling;
    let piece = &mut job.pieces[0];
    (piece.width, piece.depth, piece.thickness) = ("1200".into(), "500".into(), "50".into());
    let own = &mut piece.handling;
    (own.bracket_from, own.bracket_length, own.bracket_height) = ("150".into(), "400".into(), "250".into());
    (own.screw, own.screw_bite) = ("8".into(), "45".into());
    own.strength = "15".into();
    let found = hung(&job);
    let density = cracking(&job).grown.ages.in_use.density.value;
    let share = 0.03 * density * GRAVITY * 375.0 / 1200.0;
    let person = 300.0 * 0.453_592_37 * GRAVITY * (1.0 + 150.0 / 450.0);
    let worst = found.worst.expect("typed");
    assert_close(worst.load.value.value, share + person, 1e-6);
    assert_close(found.pull.expect("typed").value.value, (share * 0.25 + person * 0.5) / 0.25, 1e-6);
    assert_close(pounds(found.holds.expect("typed").value), 206.0 * 45.0 / 25.4, 1e-3);
    assert!(
        worst.load.working.lines(Units::Metric).iter().all(|line| !line.result.ends_with("lb")),
        "{:?}",
        worst.load.working
    );
    let says = self::found(&job, HandlingField::ScrewBite).expect("it is over");
    assert!(says.says.write(&job).contains("with a person of 1334 N at the front edge"), "{}", says.says.write(&job));
}
