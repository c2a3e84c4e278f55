//! Evidence: a check against a value that did not come from this program states that value and asserts it in one
//! call. The page of evidence is written from the same statements, so that page and tests cannot part.
//!
//! A check is a function `fn name(evidence: &mut Evidence)`, named in its file's [`checks!`], which makes the test of
//! it; one that is not named is dead code, and the lints say so.

mod document;
mod html;
mod markdown;
mod number;
mod words;

use std::fmt::Display;
use std::sync::OnceLock;

/// How an expected value was come by.
#[derive(Clone, Copy, PartialEq)]
pub enum Mark {
    /// It, or the equation that gives it, was read in the source named.
    Published,
    /// Made by a general-purpose library, which is named here.
    Computed(&'static str),
    /// A closed form, statics or arithmetic, followed by hand beside the check.
    ByHand,
    /// Known from the standard, and not looked up.
    Memory,
    /// A habit of the trade without a published source.
    Practice,
}

/// What a check is about. Whatever is empty has nothing to say.
#[derive(Clone, Copy, Default)]
pub struct Check {
    /// Short name, by which other checks refer to it: "P1 to P4".
    pub label: &'static str,
    /// The quantity: "Simply supported plate under an even load".
    pub title: &'static str,
    /// Full reference, with edition, page or table; and whether it was read there or where it is quoted.
    pub source: &'static str,
    /// How the expected values were come by; the first mark is that of the equation or table.
    pub marks: &'static [Mark],
    /// What is given, in the units of the source.
    pub problem: &'static str,
    /// Where the source counts, signs or rounds otherwise than this program.
    pub conventions: &'static str,
    /// What of this program is asked, and with which settings.
    pub modelled: &'static str,
    /// Why the numbers are not the same to the last digit.
    pub gap: &'static str,
    /// What the source is known to print wrong or to print twice.
    pub misprints: &'static str,
}

/// One value compared, as it is written.
pub struct Row {
    what: String,
    expected: String,
    found: String,
    difference: String,
    tolerance: String,
    /// The difference as a share of the tolerance: 0 is no difference, 1 is all that is allowed.
    share: f64,
}

/// A check and what it compared.
pub struct Table {
    check: Check,
    test: &'static str,
    rows: Vec<Row>,
}

/// What the checks of one test state.
pub struct Evidence {
    test: &'static str,
    tables: Vec<Table>,
}

/// A check as the list of its file has it.
pub struct Listed {
    /// File and function: "plates::twist_p18".
    pub test: &'static str,
    /// States and asserts it.
    pub run: fn(&mut Evidence),
    /// What it stated: its own test and the page of evidence run it once between them.
    pub stated: &'static OnceLock<Vec<Table>>,
}

impl Listed {
    /// What the check states, if all of it holds.
    pub fn stated(&self) -> &'static [Table] {
        self.stated.get_or_init(|| {
            let mut evidence = Evidence { test: self.test, tables: Vec::new() };
            (self.run)(&mut evidence);
            assert!(!evidence.tables.is_empty(), "{} states nothing", self.test);
            for Table { check, rows, .. } in &evidence.tables {
                assert!(!rows.is_empty(), "{} of {} compares nothing", check.label, self.test);
            }
            evidence.tables
        })
    }
}

impl Evidence {
    /// Begins a check.
    #[track_caller]
    pub fn check(&mut self, check: Check) -> &mut Table {
        for required in [check.label, check.title, check.source, check.problem, check.modelled] {
            assert!(!required.is_empty(), "{}: {} says too little", self.test, check.label);
        }
        assert!(!check.marks.is_empty(), "{}: {} has no mark", self.test, check.label);
        self.tables.push(Table { check, test: self.test, rows: Vec::new() });
        self.tables.last_mut().expect("just pushed")
    }
}

impl Table {
    /// `found` is `expected`, to so great a share of it. `what` ends in the unit of both: "area, in²".
    #[track_caller]
    pub fn close(&mut self, what: impl Display, found: f64, expected: f64, tolerance: f64) {
        let relative = (found - expected) / expected.abs();
        self.compare(what, [found, expected], tolerance * expected.abs(), |off| {
            if off == 0.0 { number::NONE.to_owned() } else { number::percent(relative) }
        });
        let row = self.rows.last_mut().expect("just compared");
        row.tolerance =
            if tolerance <= crate::EXACT { "exact".to_owned() } else { number::percent(tolerance)[1..].to_owned() };
    }

    /// `found` is `expected`, to so many of their unit.
    #[track_caller]
    pub fn within(&mut self, what: impl Display, found: f64, expected: f64, tolerance: f64) {
        self.compare(what, [found, expected], tolerance, |off| {
            if off == 0.0 { number::NONE.to_owned() } else { number::signed(off) }
        });
    }

    #[track_caller]
    fn compare(
        &mut self,
        what: impl Display,
        [found, expected]: [f64; 2],
        tolerance: f64,
        difference: impl Fn(f64) -> String,
    ) {
        let what = what.to_string();
        let off = found - expected;
        assert!(off.abs() <= tolerance, "{}: {what}: {found} is not {expected} within {tolerance}", self.check.label);
        let off = if number::is_noise(off, expected, tolerance) { 0.0 } else { off };
        self.rows.push(Row {
            what,
            expected: number::exact(expected),
            found: number::like(found, expected),
            difference: difference(off),
            tolerance: format!("± {}", number::exact(tolerance)),
            share: if tolerance > 0.0 { off.abs() / tolerance } else { 0.0 },
        });
    }

    /// Counts and words, which are the same or not.
    #[track_caller]
    pub fn same(&mut self, what: impl Display, found: impl Display, expected: impl Display) {
        let (what, found, expected) = (what.to_string(), found.to_string(), expected.to_string());
        assert_eq!(found, expected, "{}: {what}", self.check.label);
        self.rows.push(Row {
            what,
            expected,
            found,
            difference: number::NONE.to_owned(),
            tolerance: "the same".to_owned(),
            share: 0.0,
        });
    }
}

/// Lists the checks of a file for the page of evidence, and makes a test of each.
macro_rules! checks {
    ($($name:ident),+ $(,)?) => {
        pub static CHECKS: &[crate::evidence::Listed] = &[$(crate::evidence::Listed {
            test: concat!(module_path!(), "::", stringify!($name)),
            run: $name,
            stated: {
                static STATED: std::sync::OnceLock<Vec<crate::evidence::Table>> = std::sync::OnceLock::new();
                &STATED
            },
        }),+];

        mod check {
            $(#[test]
            fn $name() {
                let named = concat!("::", stringify!($name));
                super::CHECKS.iter().find(|listed| listed.test.ends_with(named)).expect("it is listed").stated();
            })+
        }
    };
}
pub(crate) use checks;
