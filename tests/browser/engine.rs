//! The engines of browsers, and the programs that drive them.

use crate::maker::{Folder, Phone};
use serde_json::json;
use std::io::{BufRead, BufReader};
use std::net::Ipv4Addr;
use std::os::unix::process::CommandExt;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};
use thirtyfour::{BrowserCapabilitiesHelper, Capabilities, ChromeCapabilities, ChromiumLikeCapabilities};
use thirtyfour::{FirefoxCapabilities, LoggingPrefsLogLevel};

/// How long a program may take to say that it is there.
const PATIENCE: Duration = Duration::from_secs(60);

/// What reads a page and draws it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Engine {
    #[default]
    Chromium,
    Firefox,
    WebKit,
}

impl Engine {
    /// Does its memory outlive the browser? WebKit's keeps nothing on disk while it is driven.
    pub fn remembers(self) -> bool {
        self != Self::WebKit
    }

    /// Chromium's driver runs scripts before those of a page, sets what a page asks of the phone, and gives the console.
    pub fn is_chromium(self) -> bool {
        self == Self::Chromium
    }

    /// What its driver is told before the browser starts.
    pub fn capabilities(self, phone: &Phone, memory: &Path, downloads: &Path) -> Capabilities {
        match self {
            Self::Chromium => chromium(phone, memory, downloads),
            Self::Firefox => firefox(memory, downloads),
            Self::WebKit => webkit(),
        }
    }

    fn program(self) -> PathBuf {
        match self {
            Self::Chromium => std::env::var_os("CHROMEDRIVER").unwrap_or_else(|| "chromedriver".into()).into(),
            Self::Firefox => "geckodriver".into(),
            Self::WebKit => "WebKitWebDriver".into(),
        }
    }
}

fn chromium(phone: &Phone, memory: &Path, downloads: &Path) -> Capabilities {
    let mut capabilities = ChromeCapabilities::new();
    for argument in [
        "--headless=new",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-quic",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
        "--disable-dev-shm-usage",
        "--force-color-profile=srgb",
        "--lang=en-US",
    ] {
        capabilities.add_arg(argument).expect("a plain argument");
    }
    capabilities.add_arg(&format!("--user-data-dir={}", memory.display())).expect("a plain argument");
    let (width, height) = phone.size();
    if phone.is_wide() {
        capabilities.add_arg(&format!("--window-size={width},{height}")).expect("a plain argument");
    } else {
        let metrics = json!({ "width": width, "height": height, "pixelRatio": 2.0, "touch": true });
        capabilities
            .add_experimental_option("mobileEmulation", json!({ "deviceMetrics": metrics }))
            .expect("a plain option");
    }
    capabilities
        .add_experimental_option("prefs", json!({ "download.default_directory": downloads.display().to_string() }))
        .expect("a plain option");
    capabilities.set_browser_log_level(LoggingPrefsLogLevel::All).expect("a plain option");
    capabilities.into()
}

fn firefox(memory: &Path, downloads: &Path) -> Capabilities {
    let mut capabilities = FirefoxCapabilities::new();
    // Without a frame the page has the whole window.
    for argument in ["-headless", "-kiosk", "-profile", &memory.display().to_string()] {
        capabilities.add_arg(argument).expect("a plain argument");
    }
    let folder = downloads.display().to_string();
    // Downloads go to a folder of one's own, which is number 2.
    let choices = json!({ "browser.download.folderList": 2, "browser.download.dir": folder });
    capabilities.set_browser_option("prefs", choices).expect("a plain option");
    capabilities.into()
}

fn webkit() -> Capabilities {
    let mut capabilities = Capabilities::new();
    // Without a frame the page has the whole window.
    let options = json!({ "args": ["--automation", "--full-screen"] });
    capabilities.set("webkitgtk:browserOptions", options).expect("a plain option");
    capabilities
}

/// A screen that nobody sees, for a browser that cannot do without one.
struct Screen {
    process: Child,
    name: String,
}

impl Screen {
    fn start() -> Self {
        let mut process = Command::new("Xvfb")
            .args(["-displayfd", "1", "-screen", "0", "1280x1024x24", "-nolisten", "tcp"])
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .process_group(0)
            .spawn()
            .expect("Xvfb starts: `make test` says how to install it");
        let mut number = String::new();
        let mut output = BufReader::new(process.stdout.take().expect("its output is piped"));
        output.read_line(&mut number).expect("Xvfb says its number");
        Self { process, name: format!(":{}", number.trim()) }
    }
}

impl Drop for Screen {
    fn drop(&mut self) {
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}

/// The program that drives a browser.
pub struct Driver {
    process: Child,
    port: u16,
    /// Goes after the browser that is on it.
    _screen: Option<Screen>,
    /// What the browser takes for the home of its user.
    _home: Folder,
}

impl Driver {
    /// A port that is free for one family of addresses may be taken for the other; then the driver gives up.
    pub fn start(engine: Engine, phone: &Phone, downloads: &Path) -> Self {
        let tries = std::iter::repeat_with(|| Self::try_to_start(engine, phone, downloads)).take(5);
        tries.flatten().next().unwrap_or_else(|| panic!("the driver of {engine:?} does not say its port"))
    }

    fn try_to_start(engine: Engine, phone: &Phone, downloads: &Path) -> Option<Self> {
        let mut command = Command::new(engine.program());
        command.arg("--port=0").stdout(Stdio::piped()).stderr(Stdio::null()).process_group(0);
        let home = Folder::new("home");
        let mut screen = None;
        match engine {
            Engine::Chromium => {}
            Engine::Firefox => {
                let (width, height) = phone.size();
                command.env("HOME", &home.0);
                command.env("MOZ_HEADLESS_WIDTH", width.to_string()).env("MOZ_HEADLESS_HEIGHT", height.to_string());
            }
            Engine::WebKit => {
                let begun = screen.insert(Screen::start());
                let folders = format!("XDG_DOWNLOAD_DIR=\"{}\"\n", downloads.display());
                std::fs::write(home.0.join("user-dirs.dirs"), folders).expect("a file");
                for variable in ["HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME"] {
                    command.env(variable, &home.0);
                }
                command.env("DISPLAY", &begun.name).env("GDK_BACKEND", "x11").env_remove("WAYLAND_DISPLAY");
            }
        }
        let mut process = command
            .spawn()
            .unwrap_or_else(|why| panic!("the driver of {engine:?} does not start ({why}): `make test` installs it"));
        let output = BufReader::new(process.stdout.take().expect("its output is piped"));
        let port = match engine {
            Engine::WebKit => listens_on(&mut process),
            _ => said_in(output),
        };
        if port.is_none() {
            let _ = process.kill();
            let _ = process.wait();
        }
        Some(Self { process, port: port?, _screen: screen, _home: home })
    }

    /// Where it takes its orders.
    pub fn address(&self) -> String {
        format!("http://{}:{}", Ipv4Addr::LOCALHOST, self.port)
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        // The whole group: a test that fails leaves its browser running.
        let _ = Command::new("kill").arg("-KILL").arg("--").arg(format!("-{}", self.process.id())).status();
        let _ = self.process.wait();
    }
}

/// The port that a driver says; what it says later is read and dropped, so that it never waits for a reader.
fn said_in(mut output: BufReader<std::process::ChildStdout>) -> Option<u16> {
    let mut line = String::new();
    let port = loop {
        line.clear();
        if output.read_line(&mut line).ok()? == 0 {
            return None;
        }
        let said = ["started successfully on port ", "Listening on 127.0.0.1:"];
        let rest = said.iter().find_map(|words| line.split(words).nth(1));
        if let Some(port) = rest.and_then(|rest| rest.trim().trim_end_matches('.').parse().ok()) {
            break port;
        }
    };
    std::thread::spawn(move || std::io::copy(&mut output, &mut std::io::sink()));
    Some(port)
}

/// The port of this machine's own address at which a process waits for somebody; for one that does not say it.
fn listens_on(process: &mut Child) -> Option<u16> {
    let open = PathBuf::from(format!("/proc/{}", process.id()));
    let begun = Instant::now();
    while begun.elapsed() < PATIENCE && process.try_wait().is_ok_and(|ended| ended.is_none()) {
        let files = std::fs::read_dir(open.join("fd")).into_iter().flatten().flatten();
        let links = files.filter_map(|file| std::fs::read_link(file.path()).ok());
        let sockets: Vec<_> = links.map(|link| link.display().to_string()).collect();
        let table = std::fs::read_to_string(open.join("net/tcp")).unwrap_or_default();
        for line in table.lines().skip(1) {
            // Its number, its own address, the other's, its state (0A is listening), five more, and its inode.
            let parts: Vec<_> = line.split_whitespace().collect();
            let [_, own, _, "0A", _, _, _, _, _, inode, ..] = parts[..] else { continue };
            if sockets.contains(&format!("socket:[{inode}]")) {
                return u16::from_str_radix(own.split(':').nth(1)?, 16).ok();
            }
        }
        std::thread::sleep(Duration::from_millis(20));
    }
    None
}
