//! What the built page weighs when it travels.

use std::path::Path;

/// Bytes, compressed as a static host does it (deflate at its best level, eighteen bytes of gzip around it).
pub struct Sizes {
    /// Everything that the first screen needs, on a first visit.
    pub first_screen: usize,
    /// What is fetched behind it, before a job can be opened.
    pub workshop: usize,
    /// The program that judges plates, fetched when it is first asked.
    pub plates: usize,
}

/// The sizes of the page in `folder`. Every file must be of a known sort, so that none is forgotten.
pub fn of(folder: &Path) -> Sizes {
    let mut sizes = Sizes { first_screen: 0, workshop: 0, plates: 0 };
    for entry in std::fs::read_dir(folder).expect("the built page").flatten() {
        let name = entry.file_name().to_string_lossy().into_owned();
        // Where Trunk builds what is to take the place of this.
        if name == ".stage" {
            continue;
        }
        if name.starts_with("plate-") {
            let files = std::fs::read_dir(entry.path()).expect("the worker's folder").flatten();
            sizes.plates += files.map(|file| compressed(&file.path())).sum::<usize>();
            continue;
        }
        if entry.path().is_dir() {
            assert_eq!(name, "icons", "an unknown folder");
            // The one that a tab shows; the others are for a home screen.
            sizes.first_screen += compressed(&entry.path().join("icon.svg"));
            continue;
        }
        let size = compressed(&entry.path());
        let known = |start: &str, end: &str| name.starts_with(start) && name.ends_with(end);
        if known("split_", ".wasm") || known("chunk_", ".wasm") {
            sizes.workshop += size;
        } else if name == "offline.js" || name == "evidence.html" {
            // Fetched by the browser on its own behind the page; read when it is asked for.
        } else if known("", ".css")
            || known("", ".js")
            || known("pourwright-", ".wasm")
            || name == "index.html"
            || name == "app.webmanifest"
        {
            sizes.first_screen += size;
        } else {
            panic!("{name}: what is it for?");
        }
    }
    sizes
}

fn compressed(file: &Path) -> usize {
    let bytes = std::fs::read(file).expect("a file of the page");
    miniz_oxide::deflate::compress_to_vec(&bytes, 9).len() + 18
}
