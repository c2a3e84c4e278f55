//! The link that carries a job: it comes back as it was or not at all, and nothing in it can do harm.

use crate::jobs::{HOSTILE, any_job, plain};
use pourwright::draw::{MOST_QR_BYTES, TooManyBytes, qr_code};
use pourwright::finding::Severity;
use pourwright::job::file::{self, FileError};
use pourwright::job::{Entry, Job};
use pourwright::mix::demo;
use pourwright::store::{
    LinkError, MOST_LINK_CHARACTERS, Sheet, SheetFinding, SheetRow, SheetSection, find_link, read_link, share_link,
    share_text,
};
use proptest::prelude::*;

const PAGE: &str = "https://tops.example/shop/";

/// The file that a link is read from, if it can be.
fn opened(link: &str) -> Result<String, LinkError> {
    read_link(find_link(link).expect("a link of ours")).map(|job| file::write(&job))
}

fn link_of(job: &Job) -> String {
    share_link(job, PAGE).expect("it fits in a link")
}

proptest! {
    /// Every job comes back byte for byte, or is refused before it is sent.
    #[test]
    fn every_job_comes_back_as_it_was(job in any_job()) {
        match share_link(&job, PAGE) {
            Ok(link) => {
                prop_assert!(link.len() <= MOST_LINK_CHARACTERS);
                prop_assert_eq!(opened(&link), Ok(file::write(&job)));
            }
            Err(LinkError::TooMuch { characters }) => prop_assert!(characters > MOST_LINK_CHARACTERS),
            Err(other) => prop_assert!(false, "{}", other),
        }
    }

    /// Whatever is changed on the way, no other job comes out of it.
    #[test]
    fn a_changed_link_never_opens_as_another_job(job in any_job(), place in any::<prop::sample::Index>(), letter in "[A-Za-z0-9_.=%-]") {
        let Ok(link) = share_link(&job, PAGE) else { return Ok(()) };
        let start = link.find("#/link/").expect("a link") + "#/link/".len();
        let at = start + place.index(link.len() - start);
        let mut changed = link.clone();
        changed.replace_range(at..=at, &letter);
        // The bits that fill up the last byte may be anything.
        let same = |text: String| text == file::write(&job);
        prop_assert!(opened(&changed).map_or(true, same), "{}", changed);
        let mut cut = link;
        cut.truncate(at);
        prop_assert!(opened(&cut).is_err(), "{}", cut);
    }

    /// Reading ends, and ends well, on anything.
    #[test]
    fn nothing_makes_reading_fail_badly(text in "(/link/)?[0-9]{0,3}\\.?.{0,200}", letters in "/link/1\\.[A-Za-z0-9_-]{0,400}") {
        prop_assert!(read_link(&text).is_err());
        prop_assert!(read_link(&letters).is_err());
        let _ = find_link(&text);
    }

    /// A QR code is read by somebody else's reader as the very text it was made of.
    #[test]
    fn a_code_reads_back(text in "[ -~]{1,600}") {
        prop_assert_eq!(scan(&qr_code(&text).expect("it fits")), text);
    }
}

/// The sample of the present version has something in every field, and the quote that was sent besides: it goes by
/// link, and is too much for a code.
#[test]
fn the_worked_job_and_every_sample_fit_in_a_link() {
    let samples = ["job-v1.json", "job-v2.json", "job-v3.json", "job-v4.json", "job-v5.json"].map(|name| {
        let text = std::fs::read_to_string(format!("tests/samples/{name}")).expect("a sample");
        file::read(&text).expect("a sample can be read")
    });
    for job in samples.into_iter().chain([demo("8f3a7c20d1e94b65a0b7c4d2e6f81930")]) {
        let link = link_of(&job);
        assert_eq!(opened(&link), Ok(file::write(&job)));
        match qr_code(&link) {
            Ok(code) => assert_eq!(scan(&code), link),
            Err(TooManyBytes { bytes }) => assert!(bytes > MOST_QR_BYTES && job.quote.frozen.is_some()),
        }
    }
}

/// Up to version 25 (117 modules) a module is over 2.5 px wide on a screen of 360 px; smaller ones are hard to
/// read: from memory. If this fails, the job's file has outgrown the dictionary: add one.
#[test]
fn the_worked_job_makes_a_code_that_a_phone_can_read() {
    let link = link_of(&demo("8f3a7c20d1e94b65a0b7c4d2e6f81930"));
    let modules = modules(&qr_code(&link).expect("it fits")).len();
    assert!(modules <= 117 + 8, "{modules} modules for {} characters", link.len());
}

#[test]
fn only_the_last_part_of_an_address_is_read() {
    let link = link_of(&demo("a"));
    let found = find_link(&link).expect("a link");
    assert!(found.starts_with("/link/1."));
    for around in ["  {}\n", "Look at this: {}. Fine?", "<{}>", "({}),\nthe bar", "#bar #2 {}"] {
        assert_eq!(find_link(&around.replace("{}", &link)), Some(found), "{around}");
    }
    for other in ["", "#", "#/", "#/job/link/measure", "#/links/1.", "https://tops.example/link/1.AAAA", "<html>"] {
        assert_eq!(find_link(other), None, "{other}");
    }
    let anew = share_link(&demo("a"), "https://tops.example/shop/#/job/a/quote").expect("it fits");
    assert_eq!(anew, link, "what stands behind the page's own # is left out");
}

#[test]
fn a_hostile_job_is_only_letters_digits_and_hyphens() {
    for text in HOSTILE {
        let link = link_of(&plain(text, text));
        let rest = link.strip_prefix(&format!("{PAGE}#/link/1.")).expect("our own beginning");
        assert!(rest.bytes().all(|byte| byte.is_ascii_alphanumeric() || b"-_".contains(&byte)), "{rest}");
    }
}

#[test]
fn a_job_is_refused_from_the_first_character_that_is_too_many() {
    let noise = |length: usize| {
        // Digits of a generator: packing finds nothing in them but that they are digits.
        let mut state = 1_u64;
        let mut digit = || {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            char::from(b'0' + u8::try_from((state >> 33) % 10).expect("a digit"))
        };
        let mut job = demo("a");
        job.notes = Entry((0..length).map(|_| digit()).collect());
        job
    };
    let fits = |length: usize| share_link(&noise(length), PAGE).is_ok();
    let about = (10_000..20_000).step_by(100).find(|length| !fits(*length)).expect("some length");
    let first = (about - 100..=about).find(|length| !fits(*length)).expect("some length");
    assert_eq!(opened(&link_of(&noise(first - 1))), Ok(file::write(&noise(first - 1))));
    let refused = share_link(&noise(first), PAGE).expect_err("too long");
    assert!(matches!(refused, LinkError::TooMuch { characters } if characters > MOST_LINK_CHARACTERS));
    assert!(refused.to_string().contains("Send the file instead"), "{refused}");

    let mut dull = demo("a");
    dull.notes = Entry("grind ".repeat(100_000));
    assert_eq!(share_link(&dull, PAGE), Err(LinkError::Repeats));
}

/// Many copies of a piece pack to next to nothing, and are honest.
#[test]
fn copies_of_a_piece_are_no_bomb() {
    let mut job = demo("a");
    job.pieces = vec![job.pieces[0].clone(); 24];
    assert_eq!(opened(&link_of(&job)), Ok(file::write(&job)));
}

#[test]
fn every_refusal_says_what_to_do() {
    let link = link_of(&demo("a"));
    let found = find_link(&link).expect("a link");
    let packed = found.strip_prefix("/link/1.").expect("its version");
    let cases = [
        (format!("/link/1.{}", "A".repeat(MOST_LINK_CHARACTERS)), "longer than any"),
        (format!("/link/2.{packed}"), "newer"),
        (format!("/link/4294967295.{packed}"), "newer"),
        (format!("/link/0.{packed}"), "changed on its way"),
        (format!("/link/one.{packed}"), "changed on its way"),
        (format!("/link/1.{packed}="), "changed on its way"),
        (format!("/link/1.{packed}AAAA"), "changed on its way"),
        ("/link/1.".to_owned(), "cut short"),
        ("/link/1".to_owned(), "cut short"),
        (format!("/link/1.{}", &packed[..packed.len() / 8 * 4]), "cut short"),
    ];
    for (found, words) in cases {
        let refused = read_link(&found).expect_err(&found);
        assert!(refused.to_string().contains(words), "{refused} should say {words}: {found}");
    }
    let newer = LinkError::File(FileError::Newer { found: 9, highest: 3, unknown: Vec::new() });
    assert!(newer.to_string().contains("newer Pourwright"));
}

#[test]
fn a_code_is_refused_from_the_first_byte_that_is_too_many() {
    let most = "a".repeat(MOST_QR_BYTES);
    assert_eq!(scan(&qr_code(&most).expect("it just fits")), most);
    let refused = qr_code(&format!("{most}a")).expect_err("one too many");
    assert_eq!(refused, TooManyBytes { bytes: MOST_QR_BYTES + 1 });
    assert!(refused.to_string().contains("Send the link or the file"), "{refused}");
}

#[test]
fn a_code_has_its_quiet_zone_and_its_name() {
    let svg = qr_code("https://tops.example/").expect("it fits");
    assert!(svg.contains("role=\"img\"") && svg.contains("aria-label=\"QR code of the link\""), "{svg}");
    let modules = modules(&svg);
    let size = modules.len();
    for (y, row) in modules.iter().enumerate() {
        for (x, dark) in row.iter().enumerate() {
            let quiet = [x, y].iter().any(|place| *place < 4 || *place >= size - 4);
            assert!(!(quiet && *dark), "a dark module in the quiet zone at {x}, {y}");
        }
    }
    assert!(modules[4][4], "the finder in the corner");
}

/// The modules of a code, from the numbers of its drawing, quiet zone included.
fn modules(svg: &str) -> Vec<Vec<bool>> {
    let between = |text: &str, before: &str, after: &str| {
        let (_, rest) = text.split_once(before).expect("a code's drawing");
        rest.split_once(after).expect("a code's drawing").0.to_owned()
    };
    let size: usize = between(svg, "viewBox=\"0 0 ", " ").parse().expect("a size");
    let mut modules = vec![vec![false; size]; size];
    for run in between(svg, "class=\"dark\" d=\"M", "\"").split('M') {
        let (x, rest) = run.split_once(' ').expect("a place");
        let (y, rest) = rest.split_once('h').expect("a place");
        let (length, _) = rest.split_once('v').expect("a length");
        let [x, y, length] = [x, y, length].map(|number| number.parse::<usize>().expect("a number"));
        modules[y][x..x + length].fill(true);
    }
    modules
}

/// What a reader makes of a code, with modules of four pixels.
fn scan(svg: &str) -> String {
    const PIXELS: usize = 4;
    let modules = modules(svg);
    let size = modules.len() * PIXELS;
    let mut image =
        rqrr::PreparedImage::prepare_from_greyscale(
            size,
            size,
            |x, y| {
                if modules[y / PIXELS][x / PIXELS] { 0 } else { 255 }
            },
        );
    let grids = image.detect_grids();
    let [grid] = &grids[..] else { panic!("one code, not {}", grids.len()) };
    grid.decode().expect("the code can be read").1
}

#[test]
fn the_text_says_what_the_sheet_says() {
    let row = |label: &str, value: &str| SheetRow { label: label.to_owned(), value: value.to_owned() };
    let sheet = Sheet {
        title: "Loft bar".to_owned(),
        date: "2 May".to_owned(),
        headline: vec![row("Bags", "3"), row("Weight", "212 lb")],
        sections: vec![
            SheetSection { heading: "Bar".to_owned(), rows: vec![row("Base", "20 in × 70 in")] },
            SheetSection { heading: "Nothing".to_owned(), rows: Vec::new() },
        ],
        findings: vec![SheetFinding {
            severity: Severity::Watch,
            says: "A thin strip.".to_owned(),
            remedy: "Widen it.".to_owned(),
        }],
        notes: "Stairs.\nTwice.".to_owned(),
        ..Sheet::default()
    };
    let text = "Loft bar\n2 May\n\nBags: 3\nWeight: 212 lb\n\nLook out for\nWatch. A thin strip. Widen it.\n\nBar\n\
                Base: 20 in × 70 in\n\nNotes\nStairs.\nTwice.\n";
    assert_eq!(share_text(&sheet), text);
    assert_eq!(share_text(&Sheet::default()), "\n");
}
