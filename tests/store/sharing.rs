//! What travels: it comes back as it was, and nothing in it can run.

use crate::jobs::{HOSTILE, any_bag, any_job, any_prices, any_text, plain};
use pourwright::finding::Severity;
use pourwright::job::file::{FileError, MOST_BYTES, read, read_kept, write};
use pourwright::job::{Entry, Job};
use pourwright::store::{
    Backup, Raw, Shared, Sheet, SheetDrawing, SheetFinding, SheetRow, SheetSection, backup_file_name, backup_page,
    file_name, read_shared, share_page,
};
use proptest::collection::vec;
use proptest::prelude::*;

const DRAWING: &str = r#"<svg viewBox="0 0 10 5"><path d="M0 0H10V5Z" fill="none" stroke="currentColor"/></svg>"#;

/// A sheet that holds `text` wherever a text can stand.
fn sheet(text: &str) -> Sheet {
    let row = || SheetRow { label: text.to_owned(), value: text.to_owned() };
    let finding = |severity| SheetFinding { severity, says: text.to_owned(), remedy: text.to_owned() };
    Sheet {
        title: text.to_owned(),
        client: text.to_owned(),
        date: text.to_owned(),
        headline: vec![row()],
        drawings: vec![SheetDrawing { caption: text.to_owned(), svg: DRAWING.to_owned() }],
        sections: vec![SheetSection { heading: text.to_owned(), rows: vec![row()] }],
        findings: [Severity::Stop, Severity::Watch, Severity::Note].map(finding).to_vec(),
        notes: text.to_owned(),
        footer: text.to_owned(),
    }
}

fn job_full_of(text: &str) -> Job {
    let mut job = plain(text, text);
    job.client = text.into();
    job.notes = text.into();
    job.pieces[0].name = text.into();
    job.bags[0].name = text.into();
    job
}

/// The page's tags, from `<` to `>`. Every `<` opens one, as texts are escaped; but for the data,
/// where none may stand at all.
fn tags(page: &str) -> Vec<&str> {
    page.split('<').skip(1).map(|rest| rest.split('>').next().unwrap_or(rest)).collect()
}

/// Nothing on the page runs, loads, links, or stands outside the few elements that a sheet is made of.
fn assert_still(page: &str) {
    let mut scripts = 0;
    for tag in tags(page) {
        let name = tag.split_whitespace().next().unwrap_or("");
        let known = [
            "!doctype",
            "html",
            "head",
            "meta",
            "title",
            "style",
            "body",
            "main",
            "h1",
            "h2",
            "p",
            "dl",
            "div",
            "dt",
            "dd",
            "figure",
            "figcaption",
            "svg",
            "path",
            "ul",
            "li",
            "strong",
            "footer",
            "script",
        ];
        assert!(known.contains(&name.trim_start_matches('/').trim_end_matches('/')), "<{tag}>");
        if name == "script" {
            scripts += 1;
            assert!(tag.starts_with("script type=\"application/json\" id=\"pourwright-"), "<{tag}>");
        }
        // Quotes come in pairs, so no text has got out of an attribute or into one.
        assert_eq!(tag.matches('"').count() % 2, 0, "<{tag}>");
        let outside: Vec<&str> = tag.split('"').step_by(2).collect();
        for attribute in outside.iter().flat_map(|part| part.split_whitespace()).skip(1) {
            let expected = [
                "lang=",
                "charset=",
                "http-equiv=",
                "content=",
                "name=",
                "type=",
                "id=",
                "class=",
                "dir=",
                "viewBox=",
                "d=",
                "fill=",
                "stroke=",
                "html",
                "/",
            ];
            assert!(expected.contains(&attribute), "{attribute} in <{tag}>");
        }
    }
    assert_eq!(scripts, 1);
    assert_eq!(page.matches("</script").count(), 1);
    assert!(page.contains("content=\"default-src 'none'; style-src 'unsafe-inline'\""));
    let css = page.split("<style>").nth(1).and_then(|rest| rest.split("</style>").next()).expect("a style");
    assert!(!css.contains("url(") && !css.contains("@import"));
}

#[test]
fn hostile_texts_stay_texts() {
    for text in HOSTILE {
        let job = job_full_of(text);
        let page = share_page(&job, &sheet(text));
        assert_still(&page);
        assert_eq!(read_shared(&page), Ok(Shared::Job(Box::new(job.clone()))), "{text}");
        let raw = Raw { key: (*text).to_owned(), text: (*text).to_owned() };
        let backup = Backup { jobs: vec![job], unreadable: vec![raw], ..Backup::default() };
        let page = backup_page(&backup, text);
        assert_still(&page);
        assert_eq!(read_shared(&page), Ok(Shared::Backup(Box::new(backup))), "{text}");
    }
}

#[test]
fn a_page_refers_to_nothing() {
    let page = share_page(&plain("a", "Island"), &sheet("Island"));
    for word in ["http:", "https:", "src=", "href=", "url(", "//"] {
        assert!(!page.contains(word), "{word}");
    }
}

#[test]
fn the_estimate_can_be_read_without_the_data() {
    let page = share_page(&plain("a", "Island"), &sheet("3 bags & 1 spare"));
    let (shown, _) = page.split_once("<script").expect("the data comes last");
    // Title twice, client, date, caption, notes, footer; label and value of two rows; one heading;
    // two texts of three findings.
    assert_eq!(shown.matches("3 bags &amp; 1 spare").count(), 7 + 4 + 1 + 6);
    for words in ["Stop.", "Watch.", "Note.", "choose Import", DRAWING] {
        assert!(shown.contains(words), "{words}");
    }
}

#[test]
fn a_drawing_that_could_do_anything_is_left_out() {
    for svg in [
        "<svg><script>alert(1)</script></svg>",
        "<svg onload=alert(1)></svg>",
        "<svg\nonload = \"alert(1)\"></svg>",
        "<svg/onload=alert(1)></svg>",
        "<svg><a href=\"javascript:alert(1)\"></a></svg>",
        "<svg><image/></svg>",
        "<svg><foreignObject></foreignObject></svg>",
        "<svg></svg><img src=x></svg>",
        "<img src=x>",
        "<svg>",
    ] {
        let drawings = vec![SheetDrawing { caption: "Plan".to_owned(), svg: svg.to_owned() }];
        let page = share_page(&plain("a", "A"), &Sheet { drawings, ..Sheet::default() });
        assert!(!page.contains("<svg") && !page.contains("<img") && !page.contains("Plan"), "{svg}");
    }
}

#[test]
fn a_namespace_does_not_cost_the_drawing() {
    let svg = DRAWING.replace("<svg", "<svg xmlns=\"http://www.w3.org/2000/svg\"");
    let drawings = vec![SheetDrawing { caption: "Plan".to_owned(), svg }];
    assert!(share_page(&plain("a", "A"), &Sheet { drawings, ..Sheet::default() }).contains(DRAWING));
}

#[test]
fn the_data_is_found_however_the_page_was_handled() {
    let job = job_full_of("</script>");
    let page = share_page(&job, &Sheet::default());
    let block = page.split("pourwright-job\">").nth(1).and_then(|rest| rest.split("</script").next()).expect("data");
    let expected = Ok(Shared::Job(Box::new(job.clone())));
    for text in [
        format!("\u{feff}{page}"),
        format!("\r\n  {block}\n"),
        write(&job),
        page.replace('\n', "\r\n"),
        page.replace(
            "<script type=\"application/json\" id=\"pourwright-job\">",
            "<SCRIPT ID='pourwright-job' TYPE=x >",
        )
        .replace("</script>", "</SCRIPT>"),
        page.replace("<head>", "<head><script>var stranger = '<script';</script>"),
    ] {
        assert_eq!(read_shared(&text), expected);
    }
}

#[test]
fn what_cannot_be_read_says_why() {
    let page = share_page(&plain("a", "A"), &Sheet::default());
    let data = page.find("<script").expect("data");
    assert_eq!(read_shared(&page[..data + 5]), Err(FileError::NotOurs));
    for end in [data + 20, data + 80, page.find("</script").expect("its end")] {
        assert_eq!(read_shared(&page[..end]), Err(FileError::CutShort), "cut at {end}");
    }
    assert_eq!(read_shared("<html><script>alert(1)</script></html>"), Err(FileError::NotOurs));
    assert_eq!(read_shared("a word"), Err(FileError::NotOurs));
    let mut large = plain("a", "A");
    large.notes = Entry("x".repeat(MOST_BYTES));
    assert!(matches!(read_shared(&share_page(&large, &Sheet::default())), Err(FileError::TooLarge { .. })));
    let huge = " ".repeat((32 << 20) + 1);
    assert!(matches!(read_shared(&huge), Err(FileError::TooLarge { .. })));
}

#[test]
fn a_job_whose_escapes_are_long_still_comes_back() {
    // As data in the page it takes six times the room; as a job it is well within bounds.
    let mut job = plain("a", "A");
    job.notes = Entry("<".repeat(MOST_BYTES / 2));
    assert_eq!(read_shared(&share_page(&job, &Sheet::default())), Ok(Shared::Job(Box::new(job))));
}

#[test]
fn one_broken_job_does_not_cost_the_others() {
    let backup = Backup { jobs: vec![plain("a", "A"), plain("b", "B")], ..Backup::default() };
    let page = backup_page(&backup, "");
    // One job of the file comes from a later version; the backup's own version stands outside both.
    let jobs = page.find("\"jobs\":").expect("jobs");
    let page = format!("{}{}", &page[..jobs], page[jobs..].replacen("\"version\":5", "\"version\":9", 1));
    let Ok(Shared::Backup(read)) = read_shared(&page) else { panic!("a backup") };
    assert_eq!(read.jobs.len(), 1);
    assert_eq!(read.unreadable.len(), 1);
    assert!(read.unreadable[0].text.contains("\"version\":9"));
}

#[test]
fn file_names_are_safe_everywhere() {
    for (name, client, file) in [
        ("Kitchen island", "", "pourwright-kitchen-island.html"),
        ("  ", "Osier House", "pourwright-osier-house.html"),
        ("../../etc/passwd", "", "pourwright-etc-passwd.html"),
        ("北京", "", "pourwright-job.html"),
        ("\u{202e}gnp.exe", "", "pourwright-gnp-exe.html"),
        (".hidden.", "", "pourwright-hidden.html"),
    ] {
        let mut job = plain("a", name);
        job.client = client.into();
        assert_eq!(file_name(&job), file);
    }
    assert_eq!(backup_file_name("2026-11-02"), "pourwright-backup-2026-11-02.html");
    assert_eq!(backup_file_name(""), "pourwright-backup.html");
}

/// A backup holds files of any version: each comes out of it as it does by itself.
#[test]
fn a_shipped_backup_opens_part_by_part() {
    let sample = |name: &str| std::fs::read_to_string(format!("tests/samples/{name}.json")).expect("a sample");
    let Ok(Shared::Backup(backup)) = read_shared(&sample("backup-v1")) else { panic!("a backup") };
    let alone = ["job-v1", "job-v2", "job-v3", "job-v4", "job-v5"].map(|name| read(&sample(name)).expect("a job"));
    assert_eq!(backup.jobs, alone);
    assert_eq!(backup.bags, read_kept(&sample("bags-v3"), &[]).ok().map(|(bags, _)| bags));
    assert_eq!(backup.prices, read_kept(&sample("prices-v1"), &[]).ok().map(|(prices, _)| prices));
    assert!(backup.bags.is_some() && backup.prices.is_some());
    let torn = Raw { key: "pourwright/job/torn".to_owned(), text: r#"{"format":"pourwright job","ver"#.to_owned() };
    assert_eq!(backup.unreadable, [torn]);
}

proptest! {
    #[test]
    fn any_shared_job_comes_back_as_it_was(job in any_job(), text in any_text()) {
        let page = share_page(&job, &sheet(&text));
        assert_still(&page);
        prop_assert_eq!(read_shared(&page), Ok(Shared::Job(Box::new(job.clone()))));
        let name = file_name(&job);
        prop_assert!(name.ends_with(".html") && name.len() <= 80 && name.matches('.').count() == 1);
    }

    #[test]
    fn any_backup_comes_back_as_it_was(
        jobs in vec(any_job(), 0..3),
        bags in proptest::option::of(vec(any_bag(), 0..3)),
        prices in proptest::option::of(any_prices()),
        unreadable in vec((any_text(), any_text()).prop_map(|(key, text)| Raw { key, text }), 0..3),
    ) {
        let backup = Backup { jobs, bags, prices, unreadable };
        let page = backup_page(&backup, "2 November 2026");
        assert_still(&page);
        prop_assert_eq!(read_shared(&page), Ok(Shared::Backup(Box::new(backup))));
    }

    #[test]
    fn no_text_makes_reading_panic(text in ".{0,300}", at in any::<prop::sample::Index>()) {
        drop(read_shared(&text));
        let page = share_page(&plain("a", "A"), &Sheet::default());
        let places: Vec<usize> = page.char_indices().map(|(at, _)| at).collect();
        let at = places[at.index(places.len())];
        drop(read_shared(&format!("{}{text}{}", &page[..at], &page[at..])));
        drop(read_shared(&page[..at]));
    }
}
