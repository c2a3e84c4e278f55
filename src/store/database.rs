//! The browser's database: a journal that says when an entry is on disk.
//!
//! IndexedDB, with strict durability: a transaction is over once the browser has had it written to disk. All engines
//! have it, it works for any number of tabs, and one transaction reads what stands there and takes the place of it.
//! Without it, as in some private windows, everything is kept in local storage alone, and the page says so.

use super::journal::{Entry, Journal};
use indexed_db_futures::database::Database;
use indexed_db_futures::error::Error;
use indexed_db_futures::prelude::*;
use indexed_db_futures::transaction::{TransactionDurability, TransactionMode, TransactionOptions};
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;
use wasm_bindgen_futures::spawn_local;

const NAME: &str = "pourwright";
const STORE: &str = "journal";

/// How far the journal is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OnDisk {
    /// There is none: only local storage has what is kept.
    Never,
    /// Not yet the last change.
    Soon,
    /// All of it.
    All,
}

/// What the journal tells.
#[derive(Clone, Debug)]
pub enum Heard {
    /// It is that far now.
    Is(OnDisk),
    /// Another tab had saved over the same state before: its entry, and the text that this tab had written.
    Lost {
        /// What stands.
        first: Entry,
        /// What this tab had written.
        ours: String,
    },
}

type Hear = Rc<dyn Fn(Heard)>;

/// One journal a page: what nobody but this file sees.
#[derive(Default)]
struct State {
    database: Option<Rc<Database>>,
    hear: Option<Hear>,
    /// The last change of each key that is not on disk.
    waiting: BTreeMap<String, Entry>,
    /// A transaction is running.
    busy: bool,
    /// Opening the database has failed.
    failed: bool,
}

thread_local! {
    static STATE: RefCell<State> = RefCell::default();
}

/// The journal of this page.
#[derive(Clone, Copy, Debug, Default)]
pub struct DatabaseJournal;

impl Journal for DatabaseJournal {
    fn note(&self, entry: Entry) {
        with(|state| state.waiting.insert(entry.key.clone(), entry));
        tell_how_far();
        put_away();
    }
}

fn with<T>(act: impl FnOnce(&mut State) -> T) -> T {
    STATE.with_borrow_mut(act)
}

fn tell(heard: Heard) {
    if let Some(hear) = with(|state| state.hear.clone()) {
        hear(heard);
    }
}

fn tell_how_far() {
    let far = with(|state| match state {
        State { failed: true, .. } => OnDisk::Never,
        State { database: None, .. } | State { busy: true, .. } => OnDisk::Soon,
        State { waiting, .. } if !waiting.is_empty() => OnDisk::Soon,
        _ => OnDisk::All,
    });
    tell(Heard::Is(far));
}

/// Opens the journal and gives every entry of it; from then on what is noted is put away, and `hear` is told. What is
/// noted before that waits until [`begin`].
///
/// # Errors
/// Why there is none, in the browser's words.
pub async fn open(hear: impl Fn(Heard) + 'static) -> Result<Vec<Entry>, String> {
    with(|state| state.hear = Some(Rc::new(hear)));
    let opened = async {
        let database = connect().await.map_err(|why| why.to_string())?;
        let entries = read_all(&database).await.map_err(|why| why.to_string())?;
        Ok((database, entries))
    };
    match opened.await {
        Ok((database, entries)) => {
            with(|state| {
                state.database = Some(Rc::new(database));
                // Until the records have caught up.
                state.busy = true;
            });
            Ok(entries)
        }
        Err(why) => {
            with(|state| state.failed = true);
            tell_how_far();
            Err(why)
        }
    }
}

/// The records have caught up with what [`open`] gave.
pub fn begin() {
    with(|state| state.busy = false);
    tell_how_far();
    put_away();
}

async fn connect() -> Result<Database, indexed_db_futures::error::OpenDbError> {
    Database::open(NAME)
        .with_version(1_u8)
        .with_on_upgrade_needed(|_, database| {
            database.create_object_store(STORE).build()?;
            Ok(())
        })
        .await
}

async fn read_all(database: &Database) -> Result<Vec<Entry>, Error> {
    let transaction = database.transaction(STORE).build()?;
    let all = transaction.object_store(STORE)?.get_all::<String>().primitive()?.await?;
    // What is no entry was made by something else.
    Ok(all.filter_map(|text| Entry::unpacked(&text.ok()?)).collect())
}

/// Puts away what waits, if nothing is being put away.
fn put_away() {
    let next = with(|state| {
        let database = state.database.clone().filter(|_| !state.busy && !state.waiting.is_empty())?;
        state.busy = true;
        Some((database, std::mem::take(&mut state.waiting)))
    });
    let Some((database, batch)) = next else { return };
    spawn_local(async move {
        let lost = match write(&database, &batch).await {
            Ok(lost) => lost,
            Err(_) => return start_anew(batch).await,
        };
        with(|state| {
            state.busy = false;
            for (first, _) in &lost {
                // What was typed on top of it is not saved over the other tab's either.
                state.waiting.remove(&first.key);
            }
        });
        for (first, ours) in lost {
            tell(Heard::Lost { first, ours });
        }
        tell_how_far();
        put_away();
    });
}

/// Browsers close the database of a page that slept: it is opened once more before it is given up.
async fn start_anew(batch: BTreeMap<String, Entry>) {
    let database = connect().await.ok().map(Rc::new);
    let again = match &database {
        Some(database) => write(database, &batch).await.ok(),
        None => None,
    };
    with(|state| {
        state.busy = false;
        state.failed = again.is_none();
        state.database = database;
        if again.is_none() {
            for (key, entry) in batch {
                state.waiting.entry(key).or_insert(entry);
            }
        }
    });
    for (first, ours) in again.into_iter().flatten() {
        with(|state| state.waiting.remove(&first.key));
        tell(Heard::Lost { first, ours });
    }
    tell_how_far();
}

/// Writes a batch, and gives the entries that stand in the way of one of it, with its text.
async fn write(database: &Database, batch: &BTreeMap<String, Entry>) -> Result<Vec<(Entry, String)>, Error> {
    let mut options = TransactionOptions::new();
    options.set_durability(TransactionDurability::Strict);
    let transaction =
        database.transaction(STORE).with_mode(TransactionMode::Readwrite).with_options(options).build()?;
    let store = transaction.object_store(STORE)?;
    let mut lost = Vec::new();
    for (key, entry) in batch {
        let there: Option<String> = store.get(key.as_str()).primitive()?.await?;
        match there.as_deref().and_then(Entry::unpacked) {
            Some(there) if !entry.follows(&there) => lost.push((there, entry.text.clone())),
            _ => drop(store.put(entry.packed()).with_key(key.as_str()).primitive()?.await?),
        }
    }
    transaction.commit().await?;
    Ok(lost)
}
