//! Which file of the page names which: arrows point one way, and the state of the page knows no view.
#![cfg(not(target_arch = "wasm32"))]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

/// The folders and files of `src/page` that hold its state, and what they stand on. Everything else there is a view.
const STATE: [&str; 3] = ["desk", "dom", "front"];

/// The files of a tree by their module, as `pour::clock`; the root is an empty text.
type Files = BTreeMap<String, String>;

/// Which file names which others.
type Arrows = BTreeMap<String, BTreeSet<String>>;

/// Everything in `src/page`.
fn files_of_the_page() -> Files {
    fn read(folder: &Path, module: &str, files: &mut Files) {
        for entry in fs::read_dir(folder).expect("a folder of the page") {
            let path = entry.expect("an entry of it").path();
            let name = path.file_stem().and_then(|name| name.to_str()).expect("a name in plain letters");
            let inner = if module.is_empty() { name.to_owned() } else { format!("{module}::{name}") };
            if path.is_dir() {
                read(&path, &inner, files);
            } else if path.extension().is_some_and(|kind| kind == "rs") {
                let text = fs::read_to_string(&path).expect("a file of the page");
                files.insert(if name == "mod" { module.to_owned() } else { inner }, text);
            }
        }
    }
    let mut files = Files::new();
    read(Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/src/page")), "", &mut files);
    files
}

/// The words of a source without its comments, each path separator, brace, comma and semicolon a word.
fn words(text: &str) -> Vec<&str> {
    let mut words = Vec::new();
    for line in text.lines() {
        let mut rest = line.split("//").next().unwrap_or_default();
        while let Some(first) = rest.chars().next() {
            let is_word = |letter: char| letter.is_alphanumeric() || letter == '_';
            let length = match rest.find(|letter| !is_word(letter)) {
                Some(0) if rest.starts_with("::") => 2,
                Some(0) => first.len_utf8(),
                Some(end) => end,
                None => rest.len(),
            };
            let (word, after) = rest.split_at(length);
            if !word.trim().is_empty() {
                words.push(word);
            }
            rest = after;
        }
    }
    words
}

/// Every path that a source names, written out in full, with the depth of the inline modules that it stands in.
fn paths(text: &str) -> Vec<(usize, Vec<&str>)> {
    let words = words(text);
    let mut found = Vec::new();
    // The depth of braces at which each inline module opened.
    let mut modules: Vec<i32> = Vec::new();
    // What stands before each open brace of a `use`; beside it, the braces of everything else.
    let (mut before, mut braces) = (Vec::<Vec<&str>>::new(), 0);
    let (mut path, mut in_use) = (Vec::new(), false);
    let mut at = 0;
    while at < words.len() {
        let word = words[at];
        let is_name = word.starts_with(|letter: char| letter.is_alphabetic() || letter == '_');
        match word {
            "use" => in_use = true,
            "mod" if words.get(at + 2) == Some(&"{") => {
                modules.push(braces);
                (at, braces) = (at + 2, braces + 1);
            }
            "::" => {}
            "{" if in_use => before.push(std::mem::take(&mut path)),
            _ if in_use && matches!(word, "," | "}" | ";") => {
                if !path.is_empty() {
                    let whole = before.iter().flatten().copied().chain(path.drain(..)).collect();
                    found.push((modules.len(), whole));
                }
                if word == "}" {
                    before.pop();
                }
                in_use = word != ";";
            }
            // What it is called here is nothing to the path.
            "as" if in_use => at += 1,
            _ if is_name => {
                path.push(word);
                if !in_use && words.get(at + 1) != Some(&"::") {
                    found.push((modules.len(), std::mem::take(&mut path)));
                }
            }
            "{" => braces += 1,
            "}" => {
                braces -= 1;
                modules.pop_if(|opened| *opened == braces);
            }
            _ => path.clear(),
        }
        at += 1;
    }
    found
}

/// Which file names which: what a path of it begins with, as far as that is a file.
fn arrows(files: &Files) -> Arrows {
    let of = |(module, text): (&String, &String)| {
        let named = paths(text).into_iter().filter_map(|(depth, path)| named(files, module, depth, &path));
        (module.clone(), named.filter(|other| other != module).collect())
    };
    files.iter().map(of).collect()
}

/// The file that a path leads to, where it leads to one.
fn named(files: &Files, module: &str, depth: usize, path: &[&str]) -> Option<String> {
    let mut base: Vec<&str> = module.split("::").filter(|part| !part.is_empty()).collect();
    let ups = path.iter().take_while(|part| **part == "super").count();
    let rest = match path {
        // Who may see something, and no way to it.
        ["super"] => return None,
        ["crate", "page", rest @ ..] => {
            base.clear();
            rest
        }
        ["self", rest @ ..] => rest,
        _ if ups > 0 => {
            base.truncate((base.len() + depth).checked_sub(ups)?.min(base.len()));
            &path[ups..]
        }
        // A module that is declared here is named without more.
        [first, _, ..] if files.contains_key(&joined(&base, first)) => path,
        _ => return None,
    };
    let mut file = base.join("::");
    for part in rest {
        let inner = joined(&base, part);
        if !files.contains_key(&inner) {
            break;
        }
        base.push(part);
        file = inner;
    }
    Some(file)
}

fn joined(base: &[&str], part: &str) -> String {
    base.iter().copied().chain([part]).collect::<Vec<_>>().join("::")
}

/// Every file that can be reached from one by its arrows.
fn reached<'a>(arrows: &'a Arrows, from: &str) -> BTreeSet<&'a str> {
    let mut reached = BTreeSet::new();
    let mut open: Vec<&str> = arrows[from].iter().map(String::as_str).collect();
    while let Some(file) = open.pop() {
        if reached.insert(file) {
            open.extend(arrows[file].iter().map(String::as_str));
        }
    }
    reached
}

/// The files from which a way leads back to themselves.
fn in_circles(arrows: &Arrows) -> Vec<&str> {
    arrows.keys().map(String::as_str).filter(|file| reached(arrows, file).contains(file)).collect()
}

/// Whether a file is one of the page's state.
fn is_state(file: &str) -> bool {
    STATE.iter().any(|part| file.split("::").next() == Some(part))
}

#[test]
fn no_file_of_the_page_names_one_that_names_it() {
    let files = files_of_the_page();
    let arrows = arrows(&files);
    assert_eq!(in_circles(&arrows), Vec::<&str>::new(), "a way leads from each of these back to itself");
    // All of the page hangs together: what no arrow reaches is not read rightly here.
    let lone: Vec<_> =
        files.keys().filter(|file| !file.is_empty() && !reached(&arrows, "").contains(file.as_str())).collect();
    assert_eq!(lone, Vec::<&String>::new(), "nothing shows these");
}

#[test]
fn the_state_of_the_page_knows_no_view() {
    let arrows = arrows(&files_of_the_page());
    let (state, views): (Vec<_>, Vec<_>) = arrows.keys().partition(|file| is_state(file));
    assert!(state.len() > 10 && views.len() > 10, "both are there: {state:?}, {views:?}");
    for file in state {
        let seen: Vec<_> = arrows[file].iter().filter(|other| !is_state(other)).collect();
        assert_eq!(seen, Vec::<&String>::new(), "{file} names a view");
    }
}

/// It is fetched before anything that reads a job.
#[test]
fn the_front_of_the_page_knows_no_job() {
    let files = files_of_the_page();
    let arrows = arrows(&files);
    for (file, text) in files.iter().filter(|(file, _)| file.split("::").next() == Some("front")) {
        let jobs: Vec<_> = reached(&arrows, file).into_iter().filter(|other| other.starts_with("desk")).collect();
        assert_eq!(jobs, Vec::<&str>::new(), "{file} reaches the desk");
        let named =
            paths(text).into_iter().any(|(_, path)| matches!(path.as_slice(), ["crate", "job" | "estimate", ..]));
        assert!(!named, "{file} names a job");
    }
}

#[test]
fn arrows_are_read_from_every_way_of_naming_a_file() {
    let text = |source: &str| source.to_owned();
    let files = Files::from([
        (text(""), text("mod a; mod b; mod c; use a::Thing; fn main() { c::go() }")),
        (text("a"), text("use super::b::{self, x::Deep, y}; // use super::c;\n")),
        (text("b"), text("mod x; pub(super) fn f() { super::c::go(); x::go() }")),
        (text("b::x"), text("mod inner { use super::Here; fn f() { super::super::y(); } }")),
        (text("c"), text("use crate::page::a as first; use crate::measure::a::Length; fn a() {} fn f() { if a { } }")),
        (text("d"), text("mod inner { fn f() {} } use super::a; fn f() { super::c::x() }")),
    ]);
    let arrows = arrows(&files);
    let of = |file: &str| arrows[file].iter().map(String::as_str).collect::<Vec<_>>();
    assert_eq!(of(""), ["a", "c"]);
    assert_eq!(of("a"), ["b", "b::x"]);
    assert_eq!(of("b"), ["b::x", "c"]);
    assert_eq!(of("b::x"), ["b"]);
    assert_eq!(of("c"), ["a"]);
    assert_eq!(of("d"), ["a", "c"]);
    assert_eq!(in_circles(&arrows), ["a", "b", "b::x", "c"]);
}
