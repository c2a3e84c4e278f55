//! The largest things that are read: what a stranger sends must not stop the page.

use crate::jobs::plain;
use pourwright::estimate::estimate;
use pourwright::job::file::{FileError, MOST_BYTES, MOST_MEMBERS, read, write};
use pourwright::job::{Cutout, Job, demo};
use pourwright::price::PriceBook;
use pourwright::store::{Memory, Records, SaveError};
use std::sync::Arc;
use std::time::{Duration, Instant};

/// The worked job with so many small cutouts in each of so many pieces.
fn with(pieces: usize, cutouts: usize) -> Job {
    let mut job = demo("large");
    let cutout = |at: usize| Cutout {
        width: "1/4".into(),
        depth: "1/4".into(),
        from_left: format!("{}/4", at + 2).as_str().into(),
        ..job.pieces[0].cutouts[0].clone()
    };
    let cutouts = (0..cutouts).map(cutout).collect();
    job.pieces[0].cutouts = cutouts;
    job.pieces = vec![job.pieces[0].clone(); pieces];
    job
}

#[test]
fn lists_are_read_up_to_a_length_and_saved_no_further() {
    let most = with(1, MOST_MEMBERS);
    assert_eq!(read(&write(&most)), Ok(most.clone()));
    let records = Records::new(Arc::new(Memory::default()), "tab");
    let stamp = records.save(&most, None, 1).expect("saved");
    for (job, list) in [(with(1, MOST_MEMBERS + 1), "cutouts"), (with(MOST_MEMBERS + 1, 0), "pieces")] {
        let why = FileError::TooMany { list, count: MOST_MEMBERS + 1 };
        assert_eq!(read(&write(&job)), Err(why.clone()));
        assert_eq!(records.save(&job, Some(&stamp), 2), Err(SaveError::TooLarge(why.clone())));
        assert!(why.to_string().contains("101") && why.to_string().contains(list), "{why}");
    }
    assert_eq!(records.load("large").expect("what was saved stands").content, most);
    // A job inside a quote that was sent is read by the same rule.
    let mut sent = plain("a", "A");
    sent.quote.frozen = demo_frozen(with(1, MOST_MEMBERS + 1));
    assert!(matches!(read(&write(&sent)), Err(FileError::TooMany { list: "cutouts", .. })));
}

fn demo_frozen(job: Job) -> Option<pourwright::job::FrozenQuote> {
    let sample = read(include_str!("../samples/job-v3.json")).expect("a sample");
    sample.quote.frozen.map(|sent| pourwright::job::FrozenQuote { job: Box::new(job), ..sent })
}

/// As many pieces with as many cutouts as a file holds: what is allowed here is for a slow machine that builds
/// without optimising; the page takes a twentieth of it and less.
#[test]
fn the_largest_job_is_worked_out_all_the_same() {
    let job = with(8, MOST_MEMBERS);
    let text = write(&job);
    assert!(text.len() < MOST_BYTES, "{}", text.len());
    let begun = Instant::now();
    let _ = estimate(&read(&text).expect("it is read"), &PriceBook::default());
    assert!(begun.elapsed() < Duration::from_secs(60), "{:?}", begun.elapsed());
}
