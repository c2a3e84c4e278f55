//! A plain store of texts by key.

use std::collections::BTreeMap;
use std::fmt;
use std::sync::{Mutex, PoisonError};

/// What records are kept in. A write is complete or has not happened.
pub trait Backend: Send + Sync {
    /// The text under `key`, if there is one.
    ///
    /// # Errors
    /// [`Trouble`] of the store itself.
    fn read(&self, key: &str) -> Result<Option<String>, Trouble>;

    /// Puts `text` under `key`, in place of what was there.
    ///
    /// # Errors
    /// [`Trouble`] of the store itself; what was there still is.
    fn write(&self, key: &str, text: &str) -> Result<(), Trouble>;

    /// Takes away what is under `key`, if anything is.
    ///
    /// # Errors
    /// [`Trouble`] of the store itself; what was there still is.
    fn remove(&self, key: &str) -> Result<(), Trouble>;

    /// All keys, others' included, in any order.
    ///
    /// # Errors
    /// [`Trouble`] of the store itself.
    fn keys(&self) -> Result<Vec<String>, Trouble>;
}

/// Why the store itself does not work. Its words say what to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Trouble {
    /// The browser does not let this page keep anything.
    Blocked,
    /// No room is left.
    Full,
    /// Anything else, in the browser's words.
    Other(String),
}

impl fmt::Display for Trouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Blocked => f.write_str(
                "This browser does not let the page keep anything. Allow site data for this page and reload it; until \
                 then, share each job as a file before closing.",
            ),
            Self::Full => f.write_str(
                "No room is left in this browser, so the last change is not saved; nothing saved earlier is lost. \
                 Share jobs you no longer need as files, then delete them.",
            ),
            Self::Other(says) => write!(
                f,
                "The browser could not keep the last change ({says}). Share the job as a file, then reload the page."
            ),
        }
    }
}

impl std::error::Error for Trouble {}

/// A store in memory, gone when the page is closed.
#[derive(Debug, Default)]
pub struct Memory(Mutex<BTreeMap<String, String>>);

impl Memory {
    // A map stays whole when a thread panics between its calls, so poison is no reason to stop.
    fn with<T>(&self, act: impl FnOnce(&mut BTreeMap<String, String>) -> T) -> T {
        act(&mut self.0.lock().unwrap_or_else(PoisonError::into_inner))
    }
}

impl Backend for Memory {
    fn read(&self, key: &str) -> Result<Option<String>, Trouble> {
        Ok(self.with(|map| map.get(key).cloned()))
    }

    fn write(&self, key: &str, text: &str) -> Result<(), Trouble> {
        self.with(|map| map.insert(key.to_owned(), text.to_owned()));
        Ok(())
    }

    fn remove(&self, key: &str) -> Result<(), Trouble> {
        self.with(|map| map.remove(key));
        Ok(())
    }

    fn keys(&self) -> Result<Vec<String>, Trouble> {
        Ok(self.with(|map| map.keys().cloned().collect()))
    }
}
