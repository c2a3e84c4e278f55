//! A maker with a phone: a real browser, driven by what people do and read.

use crate::engine::{Driver, Engine};
use serde_json::{Value, json};
use std::mem::ManuallyDrop;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::{Duration, Instant};
use thirtyfour::prelude::*;

/// How long a page may take to show what a test waits for. These machines are slow and shared.
const PATIENCE: Duration = Duration::from_secs(60);

/// A phone's width and height in CSS pixels.
pub const PHONE: (u32, u32) = (360, 740);

static NEXT: AtomicU32 = AtomicU32::new(0);

/// A folder that goes away with its owner.
pub struct Folder(pub PathBuf);

impl Folder {
    pub fn new(name: &str) -> Self {
        let number = NEXT.fetch_add(1, Ordering::Relaxed);
        let path = std::env::temp_dir().join(format!("pourwright-{name}-{}-{number}", std::process::id()));
        std::fs::create_dir_all(&path).expect("a temporary folder");
        Self(path)
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

/// How the phone is set up before the page opens.
#[derive(Default)]
pub struct Phone {
    /// CSS pixels; [`PHONE`] when not said. Firefox's window is never narrower than 500.
    pub size: Option<(u32, u32)>,
    /// Runs in every page before anything of the page does; in Chromium alone.
    pub before: Option<&'static str>,
    /// The dark scheme; in Chromium alone.
    pub dark: bool,
    /// Chromium when not said.
    pub engine: Engine,
}

impl Phone {
    /// Its width and height in CSS pixels.
    pub fn size(&self) -> (u32, u32) {
        self.size.unwrap_or(PHONE)
    }

    /// A desk, more like.
    pub fn is_wide(&self) -> bool {
        self.size().0 >= 700
    }
}

/// One browser with a memory of its own that outlives a restart.
pub struct Maker {
    // Never dropped: a test that fails must not wait for a browser to say goodbye.
    pub driver: ManuallyDrop<WebDriver>,
    program: Driver,
    home: String,
    phone: Phone,
    memory: Folder,
    /// Where downloads land.
    pub downloads: Folder,
}

impl Maker {
    /// Opens the page at that address.
    pub async fn open(address: &str, phone: Phone) -> Self {
        let (memory, downloads) = (Folder::new("memory"), Folder::new("downloads"));
        let program = Driver::start(phone.engine, &phone, &downloads.0);
        let driver = Self::browser(&program, &memory.0, &downloads.0, &phone).await;
        let maker = Self { program, driver, home: address.to_owned(), phone, memory, downloads };
        maker.go_home().await;
        maker
    }

    async fn browser(program: &Driver, memory: &Path, downloads: &Path, phone: &Phone) -> ManuallyDrop<WebDriver> {
        let capabilities = phone.engine.capabilities(phone, memory, downloads);
        let driver = WebDriver::new(program.address(), capabilities)
            .await
            .unwrap_or_else(|why| panic!("{:?} does not start ({why}): `make test` installs it", phone.engine));
        let (width, height) = phone.size();
        if !phone.engine.is_chromium() {
            assert!(phone.before.is_none() && !phone.dark, "only Chromium's driver can do that");
            driver.set_window_rect(0, 0, width, height).await.expect("a size");
            return ManuallyDrop::new(driver);
        }
        if let Some(script) = phone.before {
            driver
                .cdp()
                .send_raw("Page.addScriptToEvaluateOnNewDocument", json!({ "source": script }))
                .await
                .expect("a script to run first");
        }
        let scheme = if phone.dark { "dark" } else { "light" };
        let features = json!({ "features": [{ "name": "prefers-color-scheme", "value": scheme }] });
        driver.cdp().send_raw("Emulation.setEmulatedMedia", features).await.expect("a colour scheme");
        if phone.is_wide() {
            // The window's size counts its frame; this is the page's.
            let metrics = json!({ "width": width, "height": height, "deviceScaleFactor": 1, "mobile": false });
            driver.cdp().send_raw("Emulation.setDeviceMetricsOverride", metrics).await.expect("a size");
        }
        ManuallyDrop::new(driver)
    }

    /// What the phone's browser is made of.
    pub fn engine(&self) -> Engine {
        self.phone.engine
    }

    /// The browser is gone, and back with the page: closed and started again where its memory outlives that, and
    /// elsewhere the page's only tab.
    pub async fn come_back(&mut self) {
        if self.engine().remembers() {
            self.restart_the_browser().await;
        } else {
            let old = self.driver.window().await.expect("a tab");
            let new = self.driver.new_tab().await.expect("another tab");
            self.driver.switch_to_window(old).await.expect("the first tab");
            self.driver.close_window().await.expect("it closes");
            self.driver.switch_to_window(new).await.expect("the other tab");
        }
        self.go_home().await;
    }

    /// The browser is closed and started again: nothing of it is left but its memory.
    pub async fn restart_the_browser(&mut self) {
        WebDriver::clone(&self.driver).quit().await.expect("the browser closes");
        self.driver = Self::browser(&self.program, &self.memory.0, &self.downloads.0, &self.phone).await;
    }

    /// Every process of the browser is gone at once; gives the moment.
    pub fn kill_the_browser(&self) -> Instant {
        let folder = format!("--user-data-dir={}", self.memory.0.display());
        let mut all: Vec<(u32, u32, bool)> = Vec::new();
        for entry in std::fs::read_dir("/proc").expect("processes").flatten() {
            let Some(id) = entry.file_name().to_str().and_then(|name| name.parse().ok()) else { continue };
            let read = |name: &str| std::fs::read(entry.path().join(name)).unwrap_or_default();
            let stat = String::from_utf8_lossy(&read("stat")).into_owned();
            // Behind the name, which may hold anything: the state and the parent.
            let parent = stat.rsplit(')').next().and_then(|rest| rest.split_whitespace().nth(1)?.parse().ok());
            let ours = String::from_utf8_lossy(&read("cmdline")).split('\0').any(|argument| argument == folder);
            all.push((id, parent.unwrap_or(0), ours));
        }
        let mut doomed: Vec<u32> = all.iter().filter(|(.., ours)| *ours).map(|(id, ..)| *id).collect();
        let mut next = 0;
        while let Some(parent) = doomed.get(next).copied() {
            doomed.extend(all.iter().filter(|(_, of, _)| *of == parent).map(|(id, ..)| *id));
            next += 1;
        }
        assert!(!doomed.is_empty(), "the browser is not found");
        let killed = Instant::now();
        let _ = Command::new("kill").arg("-KILL").args(doomed.iter().map(u32::to_string)).status();
        killed
    }

    /// The browser is started after it was killed, with what is left of its memory.
    pub async fn start_the_browser(&mut self) {
        // Its driver has lost it.
        self.program = Driver::start(self.phone.engine, &self.phone, &self.downloads.0);
        self.driver = Self::browser(&self.program, &self.memory.0, &self.downloads.0, &self.phone).await;
    }

    /// The address of the page.
    pub fn home(&self) -> &str {
        &self.home
    }

    /// Opens the page as the link does.
    pub async fn go_home(&self) {
        self.driver.goto(&self.home).await.expect("the address opens");
        self.stands().await;
    }

    /// Reloads the page.
    pub async fn reload(&self) {
        if self.engine().is_chromium() {
            self.driver.refresh().await.expect("the page reloads");
        } else {
            // Firefox's driver passes by the service worker.
            self.ask("window.before = true; location.reload()").await;
            let begun = Instant::now();
            let same = "return window.before === true || document.readyState !== 'complete'";
            // Between two pages the browser answers with an error.
            while self.driver.execute(same, Vec::new()).await.map_or(true, |found| *found.json() == true) {
                assert!(begun.elapsed() < PATIENCE, "the page does not reload");
                tokio::time::sleep(Duration::from_millis(20)).await;
            }
        }
        self.stands().await;
    }

    /// Waits until a screen stands that is not about to give way to what is being opened, and what reads a job
    /// is there: the sheet is the last of it.
    pub async fn stands(&self) {
        self.wait_for("main:not([data-screen='Opening'])").await;
        let begun = Instant::now();
        while self.driver.find(By::Css("dialog")).await.is_err() {
            assert!(begun.elapsed() < PATIENCE, "only the front of the page is there");
            tokio::time::sleep(Duration::from_millis(20)).await;
        }
    }

    /// Is it shown? WebKit's driver calls hidden what would only cut off its own text if that were too long, so that
    /// the page is asked there.
    async fn is_shown(&self, element: &WebElement) -> bool {
        if self.engine() != Engine::WebKit {
            return element.is_displayed().await.is_ok_and(|shown| shown);
        }
        // A line of a drawing may have no width or no height.
        let script = "const box = arguments[0].getBoundingClientRect(); \
                      return (box.width * box.height > 0 || arguments[0] instanceof SVGElement) && arguments[0].checkVisibility({ opacityProperty: true, visibilityProperty: true })";
        let Ok(element) = element.to_json() else { return false };
        self.driver.execute(script, vec![element]).await.is_ok_and(|shown| *shown.json() == true)
    }

    /// What can be read of an element.
    async fn words(&self, element: &WebElement) -> WebDriverResult<String> {
        if self.engine() != Engine::WebKit {
            return element.text().await;
        }
        let shown = self.is_shown(element).await;
        Ok(element.prop("innerText").await?.filter(|_| shown).unwrap_or_default().trim().to_owned())
    }

    /// Waits until an element is there and shown. One that is taken away while it is looked at, as when a page
    /// opens anew, is looked for again.
    pub async fn wait_for(&self, css: &str) -> WebElement {
        let begun = Instant::now();
        let mut why = String::from("it is hidden");
        while begun.elapsed() < PATIENCE {
            match self.driver.find(By::Css(css)).await {
                Ok(element) if self.is_shown(&element).await => return element,
                Ok(_) => {}
                Err(error) => why = error.to_string(),
            }
            tokio::time::sleep(Duration::from_millis(50)).await;
        }
        panic!("{css} does not appear: {why}")
    }

    /// Presses what carries these words: a button, a link, a number.
    pub async fn press(&self, words: &str) {
        let within = format!(
            "//*[self::button or self::a or self::summary][normalize-space(.)='{words}' or text()[normalize-space(.)='{words}'] or *[normalize-space(.)='{words}'] or @aria-label='{words}']"
        );
        let element = self
            .driver
            .query(By::XPath(within))
            .wait(PATIENCE, Duration::from_millis(50))
            .and_displayed()
            .first()
            .await
            .unwrap_or_else(|error| panic!("nothing to press says '{words}': {error}"));
        self.tap(&element).await;
    }

    /// Turns to the screen of a verb.
    pub async fn turn_to(&self, verb: &str) {
        let within = format!("//*[contains(@class, 'verbs')]//a[starts-with(normalize-space(.), '{verb}')]");
        let element = self.driver.query(By::XPath(within)).wait(PATIENCE, Duration::from_millis(50)).first().await;
        let element = element.unwrap_or_else(|error| panic!("no way to the screen {verb}: {error}"));
        self.tap(&element).await;
        if verb == "Build" {
            self.the_map_settles().await;
        }
    }

    /// Lets the first map of the Build screen come, which puts what it finds above all that could be tapped. Where it
    /// does not come, the test goes on and tells what it sees.
    async fn the_map_settles(&self) {
        let begun = Instant::now();
        let works = "return document.querySelector(\".cracking [role='status']\") !== null";
        while begun.elapsed() < Duration::from_secs(10) && self.ask(works).await == true {
            tokio::time::sleep(Duration::from_millis(100)).await;
        }
    }

    /// Presses an element, wherever it has to be scrolled to, once it lies still: something that appears above
    /// moves it away from under the finger.
    /// Where the fixed head lies over it by then, it is scrolled to again, as a person would; a tap that was caught has
    /// pressed nothing.
    pub async fn tap(&self, element: &WebElement) {
        let begun = Instant::now();
        loop {
            element.scroll_into_view().await.expect("it can be scrolled to");
            let mut before = None;
            while begun.elapsed() < PATIENCE {
                let place = element.rect().await.ok().map(|rect| (rect.x, rect.y));
                if place.is_some() && place == before {
                    break;
                }
                before = place;
                tokio::time::sleep(Duration::from_millis(20)).await;
            }
            self.watch_where_the_tap_lands(element).await;
            match element.click().await {
                Ok(()) if self.tap_opened_another_sheet().await && begun.elapsed() < PATIENCE => {
                    self.driver
                        .find(By::Css("dialog[open] .sheet > header button"))
                        .await
                        .expect("its way out")
                        .click()
                        .await
                        .expect("the sheet closes");
                }
                Ok(()) => return,
                Err(error) if error.to_string().contains("click intercepted") && begun.elapsed() < PATIENCE => {}
                Err(error) => panic!("it cannot be pressed: {error}"),
            }
        }
    }

    /// Remembers on the page whether the next tap lands on that element.
    async fn watch_where_the_tap_lands(&self, element: &WebElement) {
        let script = "const aimed = arguments[0]; window.tapLandedElsewhere = false; \
                      document.addEventListener('click', \
                      tap => { window.tapLandedElsewhere = !aimed.contains(tap.target) && !tap.target.contains(aimed) }, \
                      { capture: true, once: true });";
        let aimed = element.to_json().expect("an element");
        self.driver.execute(script, vec![aimed]).await.expect("the page runs a script");
    }

    /// Whether the tap came down on something else, which had moved under it, and opened what that opens. A person
    /// closes such a sheet and taps again.
    async fn tap_opened_another_sheet(&self) -> bool {
        let script =
            "return window.tapLandedElsewhere === true && document.querySelector('dialog[open] .sheet') !== null";
        self.driver.execute(script, Vec::new()).await.is_ok_and(|answer| *answer.json() == true)
    }

    /// Types into the field with that id, in place of what stands there.
    pub async fn write(&self, id: &str, text: &str) {
        let field = self.wait_for(&format!("#{id}")).await;
        let begun = Instant::now();
        loop {
            self.tap(&field).await;
            field.send_keys(Key::Control + "a").await.expect("all of it is marked");
            field.send_keys(Key::Backspace.value().to_string()).await.expect("it is emptied");
            // An emulated finger that comes down while the page still scrolls only stops it: it taps again, as
            // a person would.
            if self.written(id).await.is_empty() && self.ask("return document.activeElement.id").await == id {
                break;
            }
            assert!(begun.elapsed() < PATIENCE, "{id} does not take what is typed");
        }
        field.send_keys(text).await.expect("the field takes text");
        // WebKit's driver is back before its keys have come down, and a finger would overtake them.
        while self.engine() == Engine::WebKit && self.written(id).await != text {
            assert!(begun.elapsed() < PATIENCE, "{id} does not take all of {text}");
            tokio::time::sleep(Duration::from_millis(20)).await;
        }
    }

    /// What stands in the field with that id.
    pub async fn written(&self, id: &str) -> String {
        let field = self.wait_for(&format!("#{id}")).await;
        field.prop("value").await.expect("a field").unwrap_or_default()
    }

    /// The text of an element.
    pub async fn text(&self, css: &str) -> String {
        let element = self.wait_for(css).await;
        self.words(&element).await.expect("it has a text")
    }

    /// Waits until an element's text holds these words.
    pub async fn see(&self, css: &str, words: &str) {
        let begun = Instant::now();
        let mut last = String::new();
        while begun.elapsed() < PATIENCE {
            if let Ok(element) = self.driver.find(By::Css(css)).await {
                last = self.words(&element).await.unwrap_or_default();
                if last.contains(words) {
                    return;
                }
            }
            tokio::time::sleep(Duration::from_millis(50)).await;
        }
        panic!("'{words}' does not appear in {css}, which reads: {last}");
    }

    /// One of the four numbers, as it stands at the top of every screen.
    pub async fn number(&self, key: &str) -> String {
        self.text(&format!("#headline-{key} .value")).await
    }

    /// Waits until what was typed is kept.
    pub async fn is_kept(&self) {
        // The first look would find the state of a moment ago.
        tokio::time::sleep(Duration::from_millis(100)).await;
        self.see("#kept", "Saved").await;
    }

    /// Asks the page itself.
    pub async fn ask(&self, script: &str) -> Value {
        self.driver.execute(script, Vec::new()).await.expect("the page answers").json().clone()
    }

    /// Clears all that the browser keeps of jobs, as by hand.
    pub async fn forget_everything(&self) {
        let script = "localStorage.clear(); const opening = indexedDB.open('pourwright'); \
             return new Promise(done => opening.onsuccess = () => { \
                 const emptying = opening.result.transaction('journal', 'readwrite'); \
                 emptying.objectStore('journal').clear(); \
                 emptying.oncomplete = () => { opening.result.close(); done(true); }; })";
        assert_eq!(self.ask(script).await, true, "it is cleared");
    }

    /// Every record kept under the page's own prefix.
    pub async fn records(&self) -> serde_json::Map<String, Value> {
        let all = self.ask("return Object.fromEntries(Object.entries(localStorage))").await;
        all.as_object().cloned().unwrap_or_default()
    }

    /// Waits for a download to be complete, and reads it.
    pub async fn downloaded(&self) -> (PathBuf, String) {
        let begun = Instant::now();
        while begun.elapsed() < PATIENCE {
            let files = std::fs::read_dir(&self.downloads.0).expect("the downloads").flatten();
            let done = files.map(|file| file.path()).find(|path| path.extension().is_some_and(|end| end == "html"));
            if let Some(path) = done {
                let text = std::fs::read_to_string(&path).expect("a text");
                if text.trim_end().ends_with("</html>") {
                    return (path, text);
                }
            }
            tokio::time::sleep(Duration::from_millis(50)).await;
        }
        panic!("nothing was downloaded");
    }

    /// The page may not have complained to the console since it was last asked.
    pub async fn no_complaints(&self) {
        if !self.engine().is_chromium() {
            let heard = self.ask("return window.complaints?.() ?? 'nobody listens'").await;
            assert_eq!(heard, json!([]), "the page complains");
            return;
        }
        let log = self.driver.browser_log().await.expect("a console");
        // Chromium says at every start that it does not check the integrity of a preload (its bug 981419).
        let known = |text: &str| text.contains("integrity") && text.contains("preload");
        let loud = log.iter().filter(|entry| entry.level == "SEVERE" || entry.level == "WARNING");
        let bad: Vec<_> = loud.filter(|entry| !known(&entry.message)).collect();
        assert!(bad.is_empty(), "the console complains: {bad:?}");
    }

    /// Closes the browser; the last thing a test does.
    pub async fn done(self) {
        self.no_complaints().await;
        self.close().await;
    }

    /// Closes the browser without asking the console.
    pub async fn close(self) {
        ManuallyDrop::into_inner(self.driver).quit().await.expect("the browser closes");
    }
}
