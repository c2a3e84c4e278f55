//! Newer versions, and what the page may do.

use crate::first_day::{job_of, tape_a_top};
use crate::maker::{Folder, Maker, Phone};
use crate::site::Site;
use std::path::Path;

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

/// The next version at the same address: another page, with its own list, made in that folder.
pub async fn publish_next(site: &mut Site, next: &Folder) {
    copy(&Site::dist(), &next.0);
    let page = std::fs::read_to_string(next.0.join("index.html")).expect("the page");
    std::fs::write(next.0.join("index.html"), page.replace("<html", "<html data-version=\"next\"")).expect("the page");
    std::fs::copy("src/store/offline.js", next.0.join("offline.js")).expect("the service worker before it is finished");
    let finished = std::process::Command::new(env!("CARGO_BIN_EXE_finish-dist"))
        .env("TRUNK_STAGING_DIR", &next.0)
        .status()
        .expect("finish-dist runs");
    assert!(finished.success());
    site.change_to(&next.0).await;
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
    assert_eq!(maker.ask("return document.documentElement.dataset.version ?? null").await, serde_json::Value::Null);
    maker.press("Size").await;
    maker.write("piece-0-thickness", "1 3/4").await;
    maker.press("Open it").await;
    let begun = std::time::Instant::now();
    loop {
        let version = maker.driver.execute("return document.documentElement.dataset.version ?? null", Vec::new()).await;
        if version.is_ok_and(|version| version.json() == "next") {
            break;
        }
        assert!(begun.elapsed().as_secs() < 20, "the newer version never opens");
        tokio::time::sleep(std::time::Duration::from_millis(50)).await;
    }
    maker.stands().await;
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
    assert_eq!(elsewhere, serde_json::json!([]));
    maker.close().await;
}
