//! The page of evidence: the checks of every room in the order of a job, and a test that what is kept of it is
//! what the checks say. `make evidence` writes it anew.

use super::words::Section;
use super::{Mark, Row, Table, html, markdown, number, words};

/// A room's checks and what they stated.
pub struct Chapter {
    /// What is said about the room by hand.
    pub section: &'static Section,
    /// One for every check.
    pub tables: Vec<&'static Table>,
}

/// How many values rest on each kind of mark, by the first mark of their check.
#[derive(Default)]
pub struct Count {
    pub checks: usize,
    pub values: usize,
    pub published: usize,
    pub computed: usize,
    pub by_hand: usize,
    pub memory: usize,
    pub practice: usize,
}

impl Count {
    /// Counts the tables.
    pub fn of<'a>(tables: impl IntoIterator<Item = &'a Table>) -> Self {
        let mut count = Self::default();
        for table in tables {
            count.checks += 1;
            count.values += table.rows.len();
            let kind = match table.check.marks.first() {
                Some(Mark::Published) => &mut count.published,
                Some(Mark::Computed(_)) => &mut count.computed,
                Some(Mark::ByHand) => &mut count.by_hand,
                Some(Mark::Practice) => &mut count.practice,
                Some(Mark::Memory) | None => &mut count.memory,
            };
            *kind += table.rows.len();
        }
        count
    }

    /// "64 values: 50 published, 14 from memory".
    pub fn words(&self) -> String {
        let kinds = [
            (self.published, "published"),
            (self.computed, "computed by a library"),
            (self.by_hand, "followed by hand"),
            (self.memory, "from memory"),
            (self.practice, "common practice"),
        ];
        let kinds = kinds.into_iter().filter(|(count, _)| *count > 0);
        let kinds: Vec<_> = kinds.map(|(count, words)| format!("{count} {words}")).collect();
        format!("{} values in {} checks: {}", self.values, self.checks, kinds.join(", "))
    }
}

impl Mark {
    /// As the page says it.
    pub fn words(self) -> String {
        match self {
            Self::Published => "published".to_owned(),
            Self::Computed(library) => format!("computed by {library}"),
            Self::ByHand => "followed by hand".to_owned(),
            Self::Memory => "from memory".to_owned(),
            Self::Practice => "common practice".to_owned(),
        }
    }
}

impl Table {
    /// File of the test, in `tests/handbook`, and its function.
    pub fn place(&self) -> (String, &'static str) {
        let inside = self.test.strip_prefix("handbook::").unwrap_or(self.test);
        let (module, function) = inside.split_once("::").unwrap_or((inside, inside));
        (format!("{module}.rs"), function)
    }

    /// All marks, in their order.
    pub fn marks(&self) -> String {
        self.check.marks.iter().map(|mark| mark.words()).collect::<Vec<_>>().join("; ")
    }

    /// What is said about the check, by name and in order, without what is not said. `test` is its test's place.
    pub fn parts(&self, test: String) -> Vec<(&'static str, String)> {
        let check = &self.check;
        let parts = [
            ("Source", check.source.to_owned()),
            ("Values", self.marks()),
            ("Problem", check.problem.to_owned()),
            ("Conventions", check.conventions.to_owned()),
            ("Here", check.modelled.to_owned()),
            ("Test", test),
            ("Differences", check.gap.to_owned()),
            ("Misprints", check.misprints.to_owned()),
        ];
        parts.into_iter().filter(|(_, says)| !says.is_empty()).collect()
    }
}

impl Chapter {
    /// The value that uses most of its tolerance, and the check that it is in.
    fn worst(&self) -> Option<(&Table, &Row)> {
        let rows = self.tables.iter().flat_map(|table| table.rows.iter().map(move |row| (*table, row)));
        rows.reduce(|worst, other| if other.1.share > worst.1.share { other } else { worst })
    }

    /// In prose: which value is worst, and why.
    pub fn verdict(&self) -> String {
        let count = Count::of(self.tables.iter().copied()).words();
        match self.worst() {
            Some((table, row)) if row.share > 0.0 => {
                let check = &table.check;
                assert!(!check.gap.is_empty(), "{} of {} is the worst of its room: say why", check.label, table.test);
                format!(
                    "{count}. Nearest to its tolerance is “{}” of {}, {}: {} for {}, {} of what is allowed. {}",
                    row.what,
                    check.label,
                    check.title.to_lowercase(),
                    row.found,
                    row.expected,
                    number::used(row.share),
                    check.gap,
                )
            }
            _ => format!("{count}. All of them agree to the last digit that is told."),
        }
    }
}

/// Every check, run.
fn chapters() -> Vec<Chapter> {
    let of = |section: &'static Section| Chapter {
        section,
        tables: section.lists.iter().copied().flatten().flat_map(super::Listed::stated).collect(),
    };
    words::SECTIONS.iter().map(of).collect()
}

/// Asserts that the file holds `text`, or writes it if that is asked for.
fn keep(path: &str, text: &str) {
    let file = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join(path);
    if std::env::var_os("EVIDENCE").is_some_and(|wish| wish == "write") {
        std::fs::write(&file, text).expect("the file can be written");
    }
    let kept = std::fs::read_to_string(&file).expect("the file is there");
    let line = kept.lines().zip(text.lines()).position(|(one, other)| one != other);
    let line = line.unwrap_or_else(|| kept.lines().count().min(text.lines().count())) + 1;
    assert!(kept == text, "{path} is not what the checks say, from line {line} on: run `make evidence`");
}

#[test]
fn page_is_what_the_checks_say() {
    let chapters = chapters();
    let readme = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join(markdown::FILE);
    let by_hand = std::fs::read_to_string(readme).expect("the part written by hand is there");
    keep(markdown::FILE, &markdown::write(&by_hand, &chapters));
    keep(html::FILE, &html::write(&chapters));
}
