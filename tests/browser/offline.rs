//! Newer versions, and what the page may do.

use crate::first_day::{job_of, tape_a_top};
use crate::maker::{Folder, Maker, Phone};
use crate::site::Site;
use serde_json::{Value, json};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

pub fn copy(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).expect("a folder");
    for entry in std::fs::read_dir(from).expect("a folder").flatten() {
        let target = to.join(entry.file_name());
        if entry.path().is_dir() {
            copy(&entry.path(), &target);
        } else {
            std::fs::copy(entry.path(), target).expect("a file");
        }
    }
}

/// The folder of the worker that judges plates, in the page's own.
pub fn plates_of(page: &Path) -> PathBuf {
    let folders = std::fs::read_dir(page).expect("the page").flatten();
    let mut plates = folders.filter(|entry| entry.file_name().to_string_lossy().starts_with("plate-"));
    plates.next().expect("a folder").path()
}

/// Gives the page in that folder that mark, and its own list.
pub fn finish(folder: &Path, mark: &str) {
    let page = std::fs::read_to_string(folder.join("index.html")).expect("the page");
    let page = page.replace("<html", &format!("<html data-version=\"{mark}\""));
    std::fs::write(folder.join("index.html"), page).expect("the page");
    std::fs::copy("src/store/offline.js", folder.join("offline.js")).expect("the service worker before it is finished");
    let finished = std::process::Command::new(env!("CARGO_BIN_EXE_finish-dist"))
        .env("TRUNK_STAGING_DIR", folder)
        // The parts are there already.
        .env("TRUNK_PROFILE", "none")
        .status()
        .expect("finish-dist runs");
    assert!(finished.success());
}

/// The next version at the same address: another page, with its own list, made in that folder.
pub async fn publish_next(site: &mut Site, next: &Folder) {
    copy(&Site::dist(), &next.0);
    finish(&next.0, "next");
    site.change_to(&next.0).await;
}

/// The mark of the version that is open.
pub async fn version(maker: &Maker) -> Value {
    maker.ask("return document.documentElement.dataset.version ?? null").await
}

/// Waits until the version with that mark is open, and stands.
pub async fn opens(maker: &Maker, mark: &str) {
    let begun = Instant::now();
    let script = "return document.documentElement.dataset.version ?? 'first'";
    // Between two pages the browser answers with an error.
    while maker.driver.execute(script, Vec::new()).await.map_or(json!(null), |found| found.json().clone()) != mark {
        assert!(begun.elapsed().as_secs() < 60, "the version {mark} never opens");
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
    maker.stands().await;
}

#[tokio::test]
async fn a_newer_version_is_offered_and_never_forced() {
    let mut site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    maker.see("#offline-words", "Ready for the garage").await;
    tape_a_top(&maker).await;
    let next = Folder::new("next");
    publish_next(&mut site, &next).await;
    maker.ask("return navigator.serviceWorker.getRegistration().then(r => r.update()).then(() => true)").await;
    maker.see("#newer", "A newer version is ready.").await;
    assert_eq!(version(&maker).await, Value::Null);
    maker.press("Size").await;
    maker.write("piece-0-thickness", "1 3/4").await;
    maker.press("Open it").await;
    opens(&maker, "next").await;
    assert_eq!(job_of(&maker).await["pieces"][0]["thickness"], "1 3/4", "what was typed a moment ago is kept");
    maker.close().await;
}

#[tokio::test]
async fn nothing_is_sent_anywhere_and_no_inline_script_runs() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    let policy =
        maker.ask("return document.querySelector(\"meta[http-equiv='Content-Security-Policy']\").content").await;
    let policy = policy.as_str().expect("a policy");
    assert!(policy.contains("default-src 'none'"), "{policy}");
    let scripts = policy.split(';').find(|part| part.trim().starts_with("script-src")).expect("a rule for scripts");
    assert!(!scripts.contains("unsafe-inline") && !scripts.contains("'unsafe-eval'"), "{scripts}");
    let ran = maker
        .ask("window.inline = 0; const s = document.createElement('script'); s.textContent = 'window.inline = 1'; document.body.append(s); return window.inline")
        .await;
    assert_eq!(ran, 0, "the browser enforces it");
    let elsewhere = maker
        .ask("return performance.getEntriesByType('resource').map(e => e.name).filter(name => !name.startsWith(location.origin))")
        .await;
    assert_eq!(elsewhere, json!([]));
    maker.close().await;
}
