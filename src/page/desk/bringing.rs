//! Bringing in files, texts and links: a backup job by job, so that the page draws meanwhile, tells how far it is, and
//! can be stopped.

use super::super::dom;
use super::super::front::name_or;
use super::bags::Bags;
use super::jobs::Jobs;
use super::notices::Notices;
use super::own::Own;
use super::stored::Stored;
use crate::job::Job;
use crate::job::file::FileError;
use crate::price::PriceBook;
use crate::store::browser;
use crate::store::{self, Arriving, BackupImport, Imported, LoadError, Opened, Progress, SaveError, Unpacked};
use leptos::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::File;

/// Milliseconds that are worked before the page may draw.
const SLICE: f64 = 30.0;

/// Jobs that are named one by one when they are in; of more, they are counted.
const MOST_NAMED: usize = 12;

/// Owns what comes in. One backup comes in at a time, and nothing that is here is replaced by it; what is in when it is
/// stopped stays.
#[derive(Clone, Copy)]
pub struct Bringing {
    /// How far it is; nothing while none is on its way.
    pub progress: RwSignal<Option<Progress>>,
    /// What became of what was brought in, newest first.
    pub said: RwSignal<Vec<String>>,
    /// The maker wants no more of it.
    stopped: RwSignal<bool>,
    stored: Stored,
    jobs: Jobs,
    bags: Bags,
    prices: Own<PriceBook>,
    notices: Notices,
}

impl Bringing {
    /// Nothing on its way.
    pub fn new(stored: Stored, jobs: Jobs, bags: Bags, prices: Own<PriceBook>, notices: Notices) -> Self {
        Self {
            progress: RwSignal::new(None),
            said: RwSignal::new(Vec::new()),
            stopped: RwSignal::new(false),
            stored,
            jobs,
            bags,
            prices,
            notices,
        }
    }

    /// No more of it is brought in.
    pub fn stop(self) {
        self.stopped.set(true);
    }

    /// Brings in a file that was chosen or dropped.
    pub fn bring_file(self, file: File) {
        let from = format!("{}: ", file.name());
        if file.size() > store::MOST_SHARED_BYTES as f64 {
            return self.say(format!("{from}larger than anything this page writes, so it was not read."));
        }
        spawn_local(async move {
            match JsFuture::from(file.text()).await.ok().and_then(|text| text.as_string()) {
                Some(text) => self.bring(from, &text),
                None => self.say(format!("{from}the browser could not read it.")),
            }
        });
    }

    /// Brings in a text that was pasted.
    pub fn bring_text(self, text: &str) {
        self.said.set(Vec::new());
        self.bring(String::new(), text);
    }

    /// Brings in what is in a text. `from` is set before each line that is said of it.
    fn bring(self, from: String, text: &str) {
        match open(text) {
            Ok(Opened::Job(job)) => {
                self.say(format!("{from}{}", became_words(job.name.text(), &self.import(&job))));
                self.jobs.refresh();
            }
            Ok(Opened::Backup(backup)) => spawn_local(self.take_in(from, backup)),
            Err(why) => self.say(format!("{from}{why}")),
        }
    }

    /// Takes in a backup in slices.
    async fn take_in(self, from: String, backup: Box<Unpacked>) {
        // One at a time: its progress is shown.
        while self.progress.with_untracked(Option::is_some) {
            dom::next_task().await;
        }
        self.stopped.set(false);
        let mut arriving = self.stored.records().take_in(*backup);
        self.take_slices(&mut arriving).await;
        self.progress.set(None);
        let found = arriving.finish(&mut browser::random_id, browser::now());
        self.bags.catch_up();
        self.prices.catch_up();
        self.jobs.refresh();
        let lines = said_of(&found).into_iter().map(|line| format!("{from}{line}"));
        self.said.update(|said| said.splice(0..0, lines).for_each(drop));
    }

    /// Goes on until everything is in or the maker stops it, and lets the page draw between two slices.
    async fn take_slices(self, arriving: &mut Arriving) {
        let mut going = true;
        while going && !self.stopped.get_untracked() {
            self.progress.set(Some(arriving.progress()));
            dom::next_task().await;
            let begun = js_sys::Date::now();
            // A clock that was set back ends the slice as well.
            while going && (0.0..SLICE).contains(&(js_sys::Date::now() - begun)) {
                going = arriving.step(&mut browser::random_id, browser::now());
            }
        }
    }

    fn say(self, line: String) {
        self.said.update(|lines| lines.insert(0, line));
    }

    fn import(self, job: &Job) -> Result<Imported, SaveError> {
        self.stored.records().import(job, &browser::random_id(), browser::now())
    }

    /// How the job in a link stands to what is kept here, and the word for taking it in.
    pub fn standing(self, job: &Job) -> (&'static str, &'static str) {
        match self.stored.records().load(&job.id) {
            Ok(there) if there.content == *job => ("This very job is on your shelf already.", "Open it"),
            Err(LoadError::Missing) => ("It is not on your shelf yet.", "Bring it in"),
            _ => (
                "Your shelf has this job in another state. That one stays as it is; this one comes in as a copy.",
                "Bring it in as a copy",
            ),
        }
    }

    /// Keeps the job that came in a link, by the rules of a file, and gives its id here; nothing where it could not be
    /// kept.
    pub fn bring_linked(self, job: &Job) -> Option<String> {
        let became = self.import(job);
        self.notices.tell(&became_words(job.name.text(), &became), None);
        let (Imported::AlreadyHere { id } | Imported::Added { id } | Imported::Copied { id }) = became.ok()?;
        Some(id)
    }
}

/// What is in a text: a shared file, or a link in any words around it.
fn open(text: &str) -> Result<Opened, String> {
    match (store::open_shared(text), store::find_link(text)) {
        (Err(FileError::NotOurs), Some(found)) => {
            store::read_link(found).map(|job| Opened::Job(Box::new(job))).map_err(|why| why.to_string())
        }
        (read, _) => read.map_err(|why| why.to_string()),
    }
}

/// What became of a backup, line by line.
fn said_of(found: &BackupImport) -> Vec<String> {
    let mut lines = Vec::new();
    if found.not_taken > 0 {
        lines.push(format!("Stopped: {} were left out. What was brought in stays.", found.not_taken));
    }
    lines.extend(said_of_jobs(&found.jobs));
    match &found.set_aside {
        Ok(0) => {}
        Ok(count) => lines.push(format!("{count} unreadable records were kept as they are.")),
        Err(why) => lines.push(why.to_string()),
    }
    match &found.prices {
        Ok(prices) if prices.left_out > 0 => {
            lines.push(format!("{} prices differ from yours; yours were kept.", prices.left_out));
        }
        Ok(_) => {}
        Err(why) => lines.push(format!("Prices: {why}")),
    }
    if let Err(why) = &found.bags {
        lines.push(format!("Your bags: {why}"));
    }
    lines
}

/// What became of a job that came in.
fn became_words(name: &str, became: &Result<Imported, SaveError>) -> String {
    let name = name_or(name);
    match became {
        Ok(Imported::AlreadyHere { .. }) => format!("{name} is here already, just the same."),
        Ok(Imported::Added { .. }) => format!("{name} is on your shelf."),
        Ok(Imported::Copied { .. }) => format!("{name} is here in another state: it came in as a copy."),
        Err(why) => format!("{name}: {why}"),
    }
}

/// What became of the jobs, in few lines.
fn said_of_jobs(jobs: &[(String, Result<Imported, SaveError>)]) -> Vec<String> {
    if jobs.len() <= MOST_NAMED {
        return jobs.iter().map(|(name, became)| became_words(name, became)).collect();
    }
    let count = |of: fn(&Imported) -> bool| jobs.iter().filter(|(_, became)| became.as_ref().is_ok_and(of)).count();
    let counted = [
        (count(|became| matches!(became, Imported::Added { .. })), "jobs are on your shelf."),
        (count(|became| matches!(became, Imported::AlreadyHere { .. })), "jobs are here already, just the same."),
        (
            count(|became| matches!(became, Imported::Copied { .. })),
            "jobs are here in another state: they came in as copies.",
        ),
    ];
    let failed = jobs.iter().filter(|(_, became)| became.is_err());
    let mut lines: Vec<String> =
        counted.iter().filter(|(count, _)| *count > 0).map(|(count, words)| format!("{count} {words}")).collect();
    lines.extend(failed.clone().take(MOST_NAMED).map(|(name, became)| became_words(name, became)));
    let more = failed.count().saturating_sub(MOST_NAMED);
    if more > 0 {
        lines.push(format!("{more} more could not be kept."));
    }
    lines
}
