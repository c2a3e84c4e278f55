//! What the page is made of, and what its makers ask for it: `licences.md` beside this file is written by this test.
#![cfg(not(target_arch = "wasm32"))]

use std::collections::{BTreeMap, BTreeSet};
use std::process::Command;

/// Licences that ask for no more than to be named.
const ALLOWED: [&str; 12] = [
    "0BSD",
    "Apache-2.0",
    "Apache-2.0 WITH LLVM-exception",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "BSL-1.0",
    "CC0-1.0",
    "ISC",
    "MIT",
    "Unicode-3.0",
    "Unlicense",
    "Zlib",
];

/// Crates that would make the page large, or do what its policy forbids. (`regex` comes with leptos_config, and nothing of
/// it is left once the page is linked; `tokio` comes with the wrapper of the browser's database, which takes its channels
/// and nothing that runs.)
const BANNED: [&str; 6] = ["chrono", "hyper", "mio", "openssl", "reqwest", "ring"];

/// Where the list is kept.
const LIST: &str = "tests/licences/licences.md";

/// Name, version and licence of the crates in a part of cargo's tree.
fn crates(part: &[&str]) -> BTreeSet<(String, String, String)> {
    let mut cargo = Command::new(env!("CARGO"));
    cargo.args(["tree", "--locked", "--offline", "--prefix", "none", "--format", "{p}|{l}|"]).args(part);
    let output = cargo.output().expect("cargo runs");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let text = String::from_utf8(output.stdout).expect("a text");
    let one = |line: &str| {
        let (package, rest) = line.split_once('|')?;
        let (name, version) = package.split_once(" v")?;
        let version = version.split_whitespace().next()?;
        Some((name.to_owned(), version.to_owned(), rest.split('|').next()?.to_owned()))
    };
    text.lines().filter_map(one).filter(|(name, ..)| name != "pourwright").collect()
}

/// Everything: page, tests and tools.
fn all() -> BTreeSet<(String, String, String)> {
    crates(&["--edges", "all", "--target", "all"])
}

/// What goes into the page. A macro runs while the page is built, and so does all that it needs.
fn shipped() -> BTreeSet<(String, String, String)> {
    crates(&["--edges", "normal,no-proc-macro", "--target", "wasm32-unknown-unknown"])
}

/// Whether an SPDX expression can be met by licences that are allowed. `/` is the older way to write "or".
fn is_met(expression: &str) -> bool {
    let spaced = expression.replace('(', " ( ").replace(')', " ) ").replace('/', " OR ");
    let words: Vec<&str> = spaced.split_whitespace().collect();
    let mut at = 0;
    let met = any_of(&words, &mut at);
    met && at == words.len()
}

fn any_of(words: &[&str], at: &mut usize) -> bool {
    let mut met = all_of(words, at);
    while words.get(*at) == Some(&"OR") {
        *at += 1;
        met |= all_of(words, at);
    }
    met
}

fn all_of(words: &[&str], at: &mut usize) -> bool {
    let mut met = one(words, at);
    while words.get(*at) == Some(&"AND") {
        *at += 1;
        met &= one(words, at);
    }
    met
}

fn one(words: &[&str], at: &mut usize) -> bool {
    let Some(word) = words.get(*at) else {
        // Past the end: the whole is not an expression.
        *at = words.len() + 1;
        return false;
    };
    *at += 1;
    if *word == "(" {
        let met = any_of(words, at);
        *at = if words.get(*at) == Some(&")") { *at + 1 } else { words.len() + 1 };
        return met;
    }
    if words.get(*at) == Some(&"WITH") {
        let exception = words.get(*at + 1).copied().unwrap_or_default();
        *at += 2;
        return ALLOWED.contains(&format!("{word} WITH {exception}").as_str());
    }
    ALLOWED.contains(word)
}

#[test]
fn expressions_are_read_as_they_are_meant() {
    for met in [
        "MIT",
        "MIT OR GPL-3.0-only",
        "MIT/Apache-2.0",
        "(MIT OR GPL-2.0-only) AND ISC",
        "Apache-2.0 WITH LLVM-exception",
    ] {
        assert!(is_met(met), "{met}");
    }
    for refused in ["", "GPL-3.0-only", "MIT AND GPL-3.0-only", "MIT OR", "Apache-2.0 WITH other", "(MIT", "MIT MIT"] {
        assert!(!is_met(refused), "{refused}");
    }
}

#[test]
fn every_licence_may_be_used_and_every_crate_comes_from_the_registry() {
    let all = all();
    assert!(all.len() > 100, "only {} crates", all.len());
    let bad: Vec<_> = all.iter().filter(|(.., licence)| !is_met(licence)).collect();
    assert!(bad.is_empty(), "{bad:?}");
    let lock = std::fs::read_to_string("Cargo.lock").expect("the lock file");
    let sources: BTreeSet<_> = lock.lines().filter(|line| line.starts_with("source = ")).collect();
    assert_eq!(sources.len(), 1, "{sources:?}");
    assert!(sources.iter().all(|source| source.starts_with("source = \"registry+")), "{sources:?}");
    assert_eq!(lock.matches("\nsource = ").count() + 1, lock.matches("[[package]]").count(), "all but the page itself");
}

/// The page travels over a phone network: nothing in it twice, and nothing heavy.
#[test]
fn nothing_is_shipped_twice() {
    let shipped = shipped();
    let banned: Vec<_> = shipped.iter().filter(|(name, ..)| BANNED.contains(&name.as_str())).collect();
    assert!(banned.is_empty(), "{banned:?} are shipped");
    let mut versions: BTreeMap<&str, usize> = BTreeMap::new();
    for (name, ..) in &shipped {
        *versions.entry(name).or_default() += 1;
    }
    let twice: Vec<_> = versions.into_iter().filter(|(_, count)| *count > 1).map(|(name, _)| name).collect();
    assert_eq!(twice, TWICE, "what is shipped in two versions");
}

/// What cannot be helped: two generations of them are among the crates that leptos needs.
const TWICE: [&str; 2] = ["gloo-utils", "thiserror"];

#[test]
fn the_list_of_licences_is_that_of_the_crates() {
    let page = shipped();
    let line = |one: &(String, String, String)| {
        let (name, version, licence) = one;
        let here = if page.contains(one) { "page" } else { "tests and tools" };
        format!("| {name} | {version} | {licence} | {here} |\n")
    };
    let lines: String = all().union(&page).map(line).collect();
    let list = format!(
        "# Licences\nWritten by `tests/licences`, from what the crates say of themselves. axe-core (MPL-2.0), the tools of \
         the build and the browser are used as they are and are not part of the page.\n\n\
         | crate | version | licence | used in |\n| --- | --- | --- | --- |\n{lines}"
    );
    let kept = std::fs::read_to_string(LIST).unwrap_or_default();
    if kept != list {
        std::fs::create_dir_all("target").expect("a folder");
        std::fs::write("target/licences.md", &list).expect("a file");
        panic!("the crates have changed: look through target/licences.md, then copy it to {LIST}");
    }
}
