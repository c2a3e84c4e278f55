//! The largest things that are read: what a stranger sends must not stop the page.

use crate::jobs::plain;
use pourwright::estimate::estimate;
use pourwright::job::file::{FileError, MOST_BYTES, MOST_LINES, MOST_MEMBERS, MOST_OPENINGS, read, write};
use pourwright::job::{Additive, Cutout, Job, Spell, TemplateCorner};
use pourwright::mix::demo;
use pourwright::price::PriceBook;
use pourwright::store::{LinkError, Memory, Records, SaveError, find_link, read_link, share_link};
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
        let why = FileError::TooMany { list, count: MOST_MEMBERS + 1, most: MOST_MEMBERS };
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

/// What is worked out grows with products, so these are limited too, and not only each list.
#[test]
fn all_lists_together_are_read_up_to_a_length() {
    let refused = |job: &Job, wanted: &str| match read(&write(job)) {
        Err(FileError::TooMany { list, .. }) => assert_eq!(list, wanted),
        other => panic!("{wanted}: {:?}", other.map(|job| job.pieces.len())),
    };
    refused(&with(4, MOST_MEMBERS), "cutouts and sets of holes in all");
    let mut templates = with(1, 3);
    let corners = vec![TemplateCorner::default(); MOST_MEMBERS];
    templates.pieces[0].cutouts.iter_mut().for_each(|cutout| cutout.template.clone_from(&corners));
    refused(&templates, "corners of the cutouts of a piece in all");
    let mut bags = with(1, 1);
    bags.bags[0].additives = vec![Additive::default(); MOST_MEMBERS];
    bags.bags = vec![bags.bags[0].clone(); 11];
    refused(&bags, "strengths and additives in all");
    let mut garage = with(1, 1);
    garage.pour.garage = vec![Spell::default(); MOST_MEMBERS + 1];
    refused(&garage, "temperatures of the garage");
    let mut ticked = with(1, 1);
    ticked.pour.ticks = vec![String::new(); MOST_LINES + 1];
    refused(&ticked, "lines ticked off");
}

/// A few hundred characters of a link can hold four times a hundred cutouts.
#[test]
fn a_link_with_more_than_is_worked_out_is_refused() {
    let link = share_link(&with(4, MOST_MEMBERS), "").expect("it fits");
    let found = read_link(find_link(&link).expect("a link"));
    assert!(matches!(found, Err(LinkError::File(FileError::TooMany { .. }))), "{found:?}");
}

/// As many pieces with as many cutouts as a file holds: what is allowed here is for a slow machine that builds
/// without optimising; the page takes a twentieth of it and less.
#[test]
fn the_largest_job_is_worked_out_all_the_same() {
    let mut job = with(MOST_OPENINGS / MOST_MEMBERS, MOST_MEMBERS);
    job.pieces.iter_mut().for_each(|piece| piece.holes.clear());
    let text = write(&job);
    assert!(text.len() < MOST_BYTES, "{}", text.len());
    let begun = Instant::now();
    let _ = estimate(&read(&text).expect("it is read"), &PriceBook::default());
    assert!(begun.elapsed() < Duration::from_secs(60), "{:?}", begun.elapsed());
}
