//! The fixed corpus of the fuzzer's targets, natively: see `tests/fuzz`.

#[path = "../fuzz/laws.rs"]
mod laws;

/// Keeps every law on every file of its corpus.
fn replay(target: &str, law: fn(&[u8])) {
    let folder = format!("tests/fuzz/corpus/{target}");
    let mut files: Vec<_> =
        std::fs::read_dir(&folder).expect("a corpus").map(|entry| entry.expect("a file").path()).collect();
    files.sort();
    assert!(!files.is_empty(), "{folder} is empty");
    for file in files {
        // Shown only if it fails.
        println!("{}", file.display());
        law(&std::fs::read(file).expect("a file"));
    }
}

#[test]
fn the_corpus_of_tapes() {
    replay("tape", laws::tape);
}

#[test]
fn the_corpus_of_job_files() {
    replay("job", laws::job);
}

#[test]
fn the_corpus_of_shared_texts() {
    replay("shared", laws::shared);
}

#[test]
fn the_corpus_of_links() {
    replay("link", laws::link);
}

#[test]
fn the_corpus_of_price_books() {
    replay("prices", laws::prices);
}

#[test]
fn the_corpus_of_records() {
    replay("record", laws::record);
}
