//! Hands out what other programs are measured or compared with.
//!
//! `question` writes, as JSON, what the page asks its worker of a top of 67 by 20 in with two sinks: every usual case.

use pourwright::estimate::estimate;
use pourwright::job::{Cutout, Job, StrengthPoint, Units};
use pourwright::price::PriceBook;
use pourwright::strength::ask::Question;

/// 67 × 20 × 1 1/2 in with two sinks, of a mix that has 1500 psi after an hour.
fn job() -> Job {
    let mut job = Job::new("plates", Units::Inch);
    let Some(piece) = job.pieces.first_mut() else { return job };
    piece.width = "67".into();
    piece.depth = "20".into();
    piece.thickness = "1 1/2".into();
    let sink = |from_left: &str| Cutout {
        width: "17".into(),
        depth: "13".into(),
        corner_radius: "2".into(),
        from_left: from_left.into(),
        from_front: "9 1/2".into(),
        ..Cutout::default()
    };
    piece.cutouts = vec![sink("17"), sink("50")];
    let point = |age: &str, strength: &str| StrengthPoint { age: age.into(), strength: strength.into() };
    job.bags[0].strengths = vec![point("1 h", "1500"), point("3 h", "4000"), point("1 day", "6000")];
    job
}

fn question() -> Option<Question> {
    let estimate = estimate(&job(), &PriceBook::default());
    Some(estimate.pieces.first()?.cracking.as_ref().ok()?.question.clone())
}

fn main() -> serde_json::Result<()> {
    let question = question().expect("all that it waits for is typed");
    if std::env::args().nth(1).as_deref() == Some("time") {
        use pourwright::strength::ask::{Effort, answer};
        for _ in 0..40 {
            let begun = std::time::Instant::now();
            std::hint::black_box(answer(&question, Effort::Cases, &mut |_| ()));
            eprintln!("{:?}", begun.elapsed());
        }
        return Ok(());
    }
    serde_json::to_writer(std::io::stdout(), &question)
}
