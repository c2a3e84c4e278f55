//! How far a top bends that dries from one face alone.

use crate::assert_close;
use crate::evidence::{Check, Evidence, Mark, checks};
use pourwright::estimate::{Estimate, estimate};
use pourwright::finding::{Finding, Severity, Stage};
use pourwright::finish::{rise, shrinkage};
use pourwright::job::{Entry, Job, SealKind, StrengthPoint, Units};
use pourwright::measure::exact::{inches, psi};
use pourwright::price::PriceBook;

checks![a_slab_dry_on_one_side_t11];

/// Curvature is the difference in strain over the thickness, the rise of a flat arc curvature × length² ÷ 8.
fn a_slab_dry_on_one_side_t11(evidence: &mut Evidence) {
    let found = rise(200e-6, inches(1.5), inches(96.0)).expect("sizes");
    let table = evidence.check(Check {
        label: "T11",
        title: "A slab that dries from one side",
        source: "Geometry of a flat arc: curvature = difference in strain ÷ thickness, rise = curvature × length² ÷ 8",
        marks: &[Mark::ByHand],
        problem: "200 millionths between the faces of a slab of 1.5 in, 96 in long",
        modelled: "finish::rise",
        ..Check::default()
    });
    table.close("rise, in", (found.value / inches(1.0)).value, 0.1536, 1e-6);
    assert_eq!(found.working.lines(Units::Inch).last().map(|line| line.result.as_str()), Some("0.154 in"));
}

/// ACI 209R-92 2.5 (from memory): 1.40 − 0.0102 H to 80 %, 3.00 − 0.030 H above; 1.2 e^(−0.12 V/S), in inches.
#[test]
fn shrinkage_by_humidity_and_size() {
    let of = |humidity, size| shrinkage(humidity, inches(size)).expect("sizes") * 1e6;
    // The factors are one at 40 % (0.992) and near 1.5 in (1.002).
    assert_close(of(0.4, 1.5), 780.0 * 0.992 * 1.002_324, 1e-5);
    assert_close(of(0.5, 1.5), 780.0 * 0.89 * 1.002_324, 1e-5);
    // Both branches nearly meet at 80 %, and nothing shrinks at 100 %.
    assert_close(of(0.8, 1.5), 780.0 * 0.584 * 1.002_324, 1e-5);
    assert_close(of(0.9, 1.5), 780.0 * 0.3 * 1.002_324, 1e-5);
    assert!(of(1.0, 1.5).abs() < 1e-9);
    assert_close(of(0.5, 3.0), 780.0 * 0.89 * 1.2 * (-0.36_f64).exp(), 1e-9);
    assert_eq!(shrinkage(1.1, inches(1.5)), None);
    assert_eq!(rise(200e-6, inches(0.0), inches(96.0)), None);
}

fn top(width: &str, seal: SealKind) -> Job {
    let mut job = Job::new("shelf", Units::Inch);
    job.pour.air = Entry::default();
    let piece = &mut job.pieces[0];
    (piece.width, piece.depth, piece.thickness) = (width.into(), "10".into(), "1 1/2".into());
    job.bags[0].strengths = vec![StrengthPoint { age: "1 h".into(), strength: "4000".into() }];
    job.finish.seal = seal;
    job
}

fn worked(job: &Job) -> Estimate {
    estimate(job, &PriceBook::default())
}

fn told(job: &Job) -> Option<Finding> {
    worked(job).findings.into_iter().find(|one| one.says.write(job).contains("A film on its face alone"))
}

/// 695.8 millionths over 1 1/2 in: 1/32 in is reached at 23.2 in of length.
#[test]
fn a_film_on_the_face_alone_is_told_where_the_curl_shows() {
    let just = (8.0 * 1.5 / 32.0 / (780e-6 * 0.89 * 1.2 * (-0.18_f64).exp())).sqrt();
    assert_close(just, 23.22, 1e-3);
    assert_eq!(told(&top("23 3/16", SealKind::Film)), None);
    assert!(told(&top("23 1/4", SealKind::Film)).is_some());
    let long = told(&top("96", SealKind::Film)).expect("it shows");
    assert_eq!((long.severity, long.stage), (Severity::Watch, Stage::Finish));
    assert!(
        long.says.write(Units::Inch).contains("its middle may rise by up to 0.534 in over 96 in."),
        "{}",
        long.says.write(Units::Inch)
    );
    assert!(
        long.remedy.write(Units::Inch).contains("Seal both faces")
            && long.remedy.write(Units::Inch).contains("on battens"),
        "{}",
        long.remedy.write(Units::Inch)
    );
    assert_eq!(told(&top("96", SealKind::Penetrating)), None, "it dries through what soaks in");
}

/// Held flat it is pulled by E × shrinkage ÷ 2, and cracks at 7.5 √4000 psi = 474 psi (ACI 318-19 19.2.3.1).
#[test]
fn held_flat_it_is_pulled_by_half_of_what_it_would_shrink() {
    let job = top("96", SealKind::Film);
    let piece = worked(&job).pieces[0].clone();
    let concrete = piece.cracking.as_ref().expect("known").grown.ages.in_use;
    let curl = piece.curl.as_ref().expect("sealed");
    let pull = (curl.held_flat.as_ref().expect("its strength is known").value / psi(1.0)).value;
    let stiffness = (concrete.modulus(Units::Inch) / psi(1.0)).value;
    assert_close(pull, stiffness * 780e-6 * 0.89 * 1.2 * (-0.18_f64).exp() / 2.0, 1e-9);
    let says = told(&job).expect("it shows").says.write(&job);
    assert!(says.contains("Held flat its back would be pulled by") && says.contains("474 psi that crack it"), "{says}");
    let mut unknown = job;
    unknown.bags[0].strengths = Vec::new();
    unknown.bags[0].strip_after = Entry::default();
    if worked(&unknown).pieces[0].cracking.is_err() {
        assert!(!told(&unknown).expect("it shows").says.write(&unknown).contains("Held flat"));
    }
}
