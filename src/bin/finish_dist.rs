//! Finishes the built page: puts the parts beside it that are fetched later, draws the worked job for its welcome,
//! gives it and the page of evidence their content security policy, puts the worker into a folder of its version, and
//! gives the service worker the list of files to keep.
//!
//! Trunk runs this natively after every build, on the folder named by `TRUNK_STAGING_DIR`, before that
//! folder takes the place of `dist`. Nothing outside that folder is touched.

#[cfg(not(target_arch = "wasm32"))]
mod finish {
    use pourwright::draw::picture;
    use pourwright::mix::demo;
    use serde_json::{Value, json};
    use sha2::{Digest, Sha256};
    use std::collections::BTreeMap;
    use std::error::Error;
    use std::fs;
    use std::path::Path;

    /// The page's own address, as `src/store/offline.js` asks for it.
    const PAGE: &str = "./";
    const PAGE_FILE: &str = "index.html";
    const EVIDENCE_FILE: &str = "evidence.html";
    const PICTURE: &str = "<div class=\"picture\" aria-hidden=\"true\"></div>";
    /// What no job needs before its other screens are turned to.
    const SCREENS: &str = "split_screens";
    const SERVICE_WORKER: &str = "offline.js";
    /// The worker that judges plates: what starts it, first, and what that fetches.
    const PLATE: [&str; 3] = ["plate.js", "plate-worker.js", "plate-worker_bg.wasm"];
    /// What the page is kept as: its service worker's version.
    const BUILT: &str = " data-built=\"";
    /// What the kind of a file is called in an answer.
    const TYPES: [(&str, &str); 7] = [
        ("html", "text/html; charset=utf-8"),
        ("css", "text/css; charset=utf-8"),
        ("js", "text/javascript; charset=utf-8"),
        ("wasm", "application/wasm"),
        ("webmanifest", "application/manifest+json"),
        ("svg", "image/svg+xml"),
        ("png", "image/png"),
    ];
    /// What compiles a part that the host calls something else.
    const INSTANTIATE: &str = include_str!("../page/parts.js");

    /// Everything comes from the page's own folder and nothing goes anywhere. `wasm-unsafe-eval` permits
    /// compiling WebAssembly and nothing else; `data:` and `blob:` pictures are drawings made in the page.
    const POLICY: &str = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; \
        img-src 'self' data: blob:; connect-src 'self'; worker-src 'self'; manifest-src 'self'; \
        form-action 'none'; base-uri 'none'";

    /// Only `trunk serve` with live reload writes this, in an inline script that the policy would stop.
    const LIVE_RELOAD: &str = ".well-known/trunk/ws";

    /// Every file by its address relative to the page, with `/` between folders.
    type Files = BTreeMap<String, Vec<u8>>;

    /// Finishes the page in `folder`, with the parts that its program was split into; there are none where
    /// Trunk was run without `make`.
    pub fn finish(folder: &Path, parts: &Path) -> Result<(), Box<dyn Error>> {
        for name in [PAGE_FILE, EVIDENCE_FILE] {
            let path = folder.join(name);
            let page = with_policy(&fs::read_to_string(&path)?)?;
            fs::write(path, page)?;
        }
        let page_path = folder.join(PAGE_FILE);
        let page = add_parts(folder, parts, fs::read_to_string(&page_path)?)?;
        let page = add_plate(folder, page)?;
        let page = with_picture(&page)?;

        let mut files = Files::new();
        read_folder(folder, "", &mut files)?;
        files.insert(PAGE_FILE.to_owned(), page.into_bytes());
        let version = with_version(&mut files)?;
        fs::write(page_path, &files[PAGE_FILE])?;

        let worker_path = folder.join(SERVICE_WORKER);
        let worker = with_files(&fs::read_to_string(&worker_path)?, &version, &files)?;
        fs::write(worker_path, worker)?;
        Ok(())
    }

    fn read_folder(folder: &Path, prefix: &str, files: &mut Files) -> Result<(), Box<dyn Error>> {
        for entry in fs::read_dir(folder)? {
            let entry = entry?;
            let name = entry.file_name().into_string().map_err(|name| format!("{name:?} is not a web address"))?;
            let address = format!("{prefix}{name}");
            if entry.file_type()?.is_dir() {
                read_folder(&entry.path(), &format!("{address}/"), files)?;
            } else {
                files.insert(address, fs::read(entry.path())?);
            }
        }
        Ok(())
    }

    /// Puts the parts into `folder`; gives the page with a word about the script that fetches them.
    fn add_parts(folder: &Path, parts: &Path, mut page: String) -> Result<String, Box<dyn Error>> {
        let mut files = Files::new();
        if parts.is_dir() {
            read_folder(parts, "", &mut files)?;
        }
        let job: Vec<_> = files.keys().filter(|name| name.ends_with(".wasm") && !name.contains(SCREENS)).collect();
        if !job.is_empty() {
            page = with_parts(&page, &job)?;
        }
        for (name, bytes) in files {
            if name.ends_with(".js") {
                fs::write(folder.join(&name), with_program(&String::from_utf8(bytes)?, &page)?)?;
                page = with_preload(&page, &name)?;
            } else {
                fs::write(folder.join(&name), bytes)?;
            }
        }
        Ok(page)
    }

    /// Puts the worker into a folder with a name of its own, and gives the page with a word about it: a page of one
    /// version must not start another version's worker, whose questions and answers may be others.
    fn add_plate(folder: &Path, page: String) -> Result<String, Box<dyn Error>> {
        if page.contains(" data-plate=") {
            return Ok(page);
        }
        let mut all = Vec::new();
        for name in PLATE {
            all.extend(fs::read(folder.join(name))?);
        }
        let place = format!("plate-{}", &sha256(&all)[..16]);
        fs::create_dir_all(folder.join(&place))?;
        for name in PLATE {
            fs::rename(folder.join(name), folder.join(&place).join(name))?;
        }
        Ok(replace_once(&page, " data-js=", &format!(" data-plate=\"./{place}/{}\" data-js=", PLATE[0]))?)
    }

    /// The page with the plan of the worked job for who has none yet, so that no program has to run to draw it.
    /// A page that has it is left as it is.
    fn with_picture(page: &str) -> Result<String, String> {
        if page.contains(&PICTURE.replace("></div>", "><svg")) {
            return Ok(page.to_owned());
        }
        let picture = picture(&demo("")).ok_or("the worked job cannot be drawn")?;
        replace_once(page, PICTURE, &PICTURE.replace("></", &format!(">{picture}</")))
    }

    /// The script that fetches the parts, with the page's name for its program in the place of the plain one, and a way
    /// to compile them that asks nothing of the host.
    fn with_program(script: &str, page: &str) -> Result<String, String> {
        let streams = "WebAssembly.instantiateStreaming(";
        if !script.contains(streams) {
            return Err(format!("the script that fetches the parts has no `{streams}`"));
        }
        let script = script.replace(streams, "instantiate(") + INSTANTIATE;
        let (_, rest) = page.split_once("data-js=\"").ok_or("the page does not name its program")?;
        let (program, _) = rest.split_once('"').ok_or("the name of the program does not end")?;
        replace_once(&script, "\"./pourwright.js\"", &format!("\"{program}\""))
    }

    /// The page with the names of what a job takes, for `src/page/boot.js` to fetch early.
    fn with_parts(page: &str, parts: &[&String]) -> Result<String, String> {
        if page.contains(" data-parts=") {
            return Ok(page.to_owned());
        }
        let parts: Vec<_> = parts.iter().map(|part| format!("./{part}")).collect();
        replace_once(page, " data-js=", &format!(" data-parts=\"{}\" data-js=", parts.join(" ")))
    }

    /// The page with a word that its program will want that script.
    fn with_preload(page: &str, script: &str) -> Result<String, String> {
        replace_once(page, "</head>", &format!("<link rel=\"modulepreload\" href=\"./{script}\"></head>"))
    }

    /// The page with the policy as the first thing in its head, where it governs all that follows.
    fn with_policy(page: &str) -> Result<String, String> {
        if page.contains(LIVE_RELOAD) {
            return Ok(page.to_owned());
        }
        let policy = format!("<head>\n    <meta http-equiv=\"Content-Security-Policy\" content=\"{POLICY}\">");
        replace_once(page, "<head>", &policy)
    }

    /// Writes the version into the page; it is made from the list of all files but the service worker, with the page
    /// as it is without.
    fn with_version(files: &mut Files) -> Result<String, Box<dyn Error>> {
        let bytes = files.remove(PAGE_FILE).ok_or("there is no index.html")?;
        let mut page = String::from_utf8(bytes)?;
        if let Some((before, rest)) = page.split_once(BUILT) {
            let (_, after) = rest.split_once('"').ok_or("the version in the page does not end")?;
            page = format!("{before}{after}");
        }
        files.insert(PAGE_FILE.to_owned(), page.clone().into_bytes());
        let version = sha256(list(files)?.as_bytes());
        let page = replace_once(&page, " data-js=", &format!("{BUILT}{version}\" data-js="))?;
        files.insert(PAGE_FILE.to_owned(), page.into_bytes());
        Ok(version)
    }

    /// The service worker with its version and the list of all other files.
    fn with_files(worker: &str, version: &str, files: &Files) -> Result<String, Box<dyn Error>> {
        let worker = replace_once(worker, "const VERSION = \"\";", &format!("const VERSION = \"{version}\";"))?;
        Ok(replace_once(&worker, "const FILES = {};", &format!("const FILES = {};", list(files)?))?)
    }

    /// What an answer must be for the service worker to keep it: length and sum of every file by its address, and the
    /// type that it is then given.
    fn list(files: &Files) -> Result<String, Box<dyn Error>> {
        let mut all = BTreeMap::new();
        for (name, bytes) in files.iter().filter(|(name, _)| *name != SERVICE_WORKER) {
            all.insert(if name == PAGE_FILE { PAGE } else { name }, entry(name, bytes)?);
        }
        Ok(serde_json::to_string_pretty(&all)?)
    }

    fn entry(name: &str, bytes: &[u8]) -> Result<Value, String> {
        let end = name.rsplit('.').next();
        let (_, kind) =
            TYPES.iter().find(|(known, _)| Some(*known) == end).ok_or(format!("{name}: of what kind is it?"))?;
        Ok(json!({ "length": bytes.len(), "sum": sha256(bytes), "type": kind }))
    }

    /// Replaces the only occurrence of `from`. A second one, or none, means the file is not the one expected.
    fn replace_once(text: &str, from: &str, to: &str) -> Result<String, String> {
        match text.matches(from).count() {
            1 => Ok(text.replacen(from, to, 1)),
            count => Err(format!("expected `{from}` once and found it {count} times")),
        }
    }

    /// The hash as `src/store/offline.js` writes it: 64 small hexadecimal digits.
    fn sha256(bytes: &[u8]) -> String {
        Sha256::digest(bytes).iter().map(|byte| format!("{byte:02x}")).collect()
    }

    #[cfg(test)]
    mod tests {
        use super::*;

        const PAGE_SOURCE: &str = include_str!("../../index.html");
        const EVIDENCE_SOURCE: &str = include_str!("../../style/evidence.html");
        const WORKER_SOURCE: &str = include_str!("../store/offline.js");

        fn files(entries: &[(&str, &str)]) -> Files {
            let page = [(PAGE_FILE, "<script data-js=\"a.js\">"), (SERVICE_WORKER, WORKER_SOURCE)];
            let all = page.iter().chain(entries);
            all.map(|(address, text)| (address.to_string(), text.as_bytes().to_vec())).collect()
        }

        fn finished(entries: &[(&str, &str)]) -> String {
            let mut files = files(entries);
            let version = with_version(&mut files).expect("a page that names its program");
            with_files(WORKER_SOURCE, &version, &files).expect("the project's own service worker can be finished")
        }

        /// What a finished service worker holds for a constant.
        fn constant(worker: &str, name: &str) -> serde_json::Value {
            let (_, rest) = worker.split_once(&format!("const {name} = ")).expect("the constant is there");
            let (value, _) = rest.split_once(";\n").expect("the constant ends");
            serde_json::from_str(value).expect("the constant is JSON")
        }

        #[test]
        fn hashes_as_published() {
            // NIST, "Secure Hash Standard", FIPS 180-2, appendix B.1.
            assert_eq!(sha256(b"abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
        }

        #[test]
        fn policy_stands_before_everything_it_governs() {
            for source in [PAGE_SOURCE, EVIDENCE_SOURCE] {
                let page = with_policy(source).expect("the project's own pages have one head");
                let policy = page.find("Content-Security-Policy").expect("the policy is there");
                for governed in ["<link", "<script", "<title"] {
                    assert!(page.find(governed).is_none_or(|place| policy < place), "{governed} comes first");
                }
                assert!(page[..1024].contains("<meta charset"), "browsers look no further than 1024 bytes");
            }
            assert!(!POLICY.contains("unsafe-inline"));
        }

        #[test]
        fn page_of_evidence_has_nothing_that_the_policy_stops() {
            for stopped in ["<script", "<style", "style=", " on", "http:", "https:"] {
                let tags = EVIDENCE_SOURCE.split('<').filter_map(|part| part.split_once('>')).map(|(tag, _)| tag);
                assert!(tags.map(|tag| format!("<{tag}")).all(|tag| !tag.contains(stopped)), "{stopped}");
            }
        }

        #[test]
        fn live_reload_is_left_to_work() {
            let page = "<head></head><script>'/.well-known/trunk/ws'</script>";
            assert_eq!(with_policy(page).as_deref(), Ok(page));
        }

        #[test]
        fn page_without_one_head_is_refused() {
            assert!(with_policy("<html></html>").is_err());
            assert!(with_policy("<head><head>").is_err());
        }

        #[test]
        fn the_parts_know_the_program_by_its_name_in_the_page() {
            let page = "<head></head><script data-js=\"./pourwright-1.js\" data-wasm=\"./a.wasm\"></script>";
            let fetches = "WebAssembly.instantiateStreaming(src, imports)";
            let script = with_program(&format!("import {{ a }} from \"./pourwright.js\"; {fetches}"), page);
            let script = script.expect("a script as the splitter writes it");
            assert!(
                script.starts_with("import { a } from \"./pourwright-1.js\"; instantiate(src, imports)"),
                "{script}"
            );
            assert!(script.contains("async function instantiate("), "{script}");
            assert!(with_program(fetches, page).is_err());
            assert!(with_program("\"./pourwright.js\"", page).is_err());
            assert!(with_program(&format!("\"./pourwright.js\" {fetches}"), "<head></head>").is_err());
            let page = with_preload(page, "parts-1.js").expect("a page with one head");
            assert!(page.contains("<link rel=\"modulepreload\" href=\"./parts-1.js\"></head>"));
            let page = with_parts("<script data-js=\"a\">", &[&"b.wasm".to_owned(), &"c.wasm".to_owned()]);
            assert_eq!(page.as_deref(), Ok("<script data-parts=\"./b.wasm ./c.wasm\" data-js=\"a\">"));
        }

        #[test]
        fn the_welcome_has_a_plan_in_which_nothing_can_be_pressed() {
            let page = with_picture(PAGE_SOURCE).expect("the project's own page has room for one");
            assert!(page.contains("<svg class=\"drawing\"") && !page.contains("role=\"button\""));
            assert_eq!(with_picture(&page).as_ref(), Ok(&page), "drawn once");
            assert!(with_picture("<div></div>").is_err());
        }

        #[test]
        fn lists_every_file_but_the_service_worker() {
            let worker = finished(&[("a.wasm", "abc"), ("icons/icon.svg", "<svg/>")]);
            let list = constant(&worker, "FILES");
            let addresses: Vec<_> = list.as_object().expect("a list by address").keys().cloned().collect();
            assert_eq!(addresses, ["./", "a.wasm", "icons/icon.svg"]);
            assert_eq!(list["a.wasm"], json!({ "length": 3, "sum": sha256(b"abc"), "type": "application/wasm" }));
            let version = constant(&worker, "VERSION");
            let page = format!("<script data-built={version} data-js=\"a.js\">");
            assert_eq!(list["./"]["sum"], sha256(page.as_bytes()), "the page knows its version");
            assert_eq!(list["./"]["type"], "text/html; charset=utf-8");
        }

        #[test]
        fn a_file_of_an_unknown_kind_is_refused() {
            assert!(list(&files(&[("a.exe", "1")])).is_err());
            assert!(list(&files(&[("a", "1")])).is_err());
        }

        #[test]
        fn version_changes_exactly_with_the_files() {
            let version = |entries: &[_]| constant(&finished(entries), "VERSION");
            let first = version(&[("a.js", "1"), ("b.js", "2")]);
            assert_eq!(first, version(&[("b.js", "2"), ("a.js", "1")]));
            assert_ne!(first, version(&[("a.js", "1"), ("b.js", "3")]));
            assert_ne!(first, version(&[("a.js", "1"), ("c.js", "2")]));
            assert_ne!(first, version(&[("a.js", "1")]));
            // A page that is finished once more.
            let mut files = files(&[("a.js", "1")]);
            let once = with_version(&mut files).expect("a page that names its program");
            assert_eq!(once, with_version(&mut files).expect("and its version"));
        }

        #[test]
        fn service_worker_without_its_marks_is_refused() {
            assert!(with_files("", "1", &files(&[])).is_err());
            assert!(with_files(&finished(&[]), "1", &files(&[])).is_err(), "finished twice");
        }
    }
}

#[cfg(not(target_arch = "wasm32"))]
fn main() -> Result<(), Box<dyn std::error::Error>> {
    let folder = std::env::var_os("TRUNK_STAGING_DIR").ok_or("TRUNK_STAGING_DIR is not set: Trunk runs this")?;
    let profile = std::env::var_os("TRUNK_PROFILE").unwrap_or_else(|| "release".into());
    // This program lies in target/debug, what wasm-bindgen wrote in target/wasm-bindgen.
    let program = std::env::current_exe()?;
    let target = program.ancestors().nth(2).ok_or("this program lies in no target folder")?;
    let parts = target.join("wasm-bindgen").join(profile).join("parts");
    finish::finish(std::path::Path::new(&folder), &parts)
}

// The browser's build compiles every program of the package; this one has nothing to do there.
#[cfg(target_arch = "wasm32")]
fn main() {}
