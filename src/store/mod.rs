//! What is kept and exchanged.
//!
//! [`Records`] keeps jobs, the shelf of bags and the prices in a [`Backend`], which is a plain store
//! of texts by key: the browser's in the page, [`Memory`] in tests and where the browser has none.
//! [`share_page`] and [`read_shared`] are the way of a job from one browser to another as a file,
//! [`share_link`] and [`read_link`] as an address; [`share_text`] is for reading only.
//!
//! What the house promises about a job that was saved once:
//!
//! * A save is one write of one key: it is complete, or the earlier record stands.
//! * A record that cannot be read is shown and set aside, never overwritten and never dropped; one of
//!   a newer version is not touched at all.
//! * A record carries a sum over its text. One whose text was changed by anything but a save cannot be read: a
//!   size must not change in a drawer.
//! * Whoever saves says which [`Stamp`] they started from. If the record has moved on since, nothing
//!   is written and they are told. Two tabs that save in the very same moment slip past this, as local storage has no
//!   locks; there the [`Journal`] decides which was first, and the other gives way and is told.
//! * What is said to be saved is on disk: a browser writes local storage there seconds later, the journal at once.
//! * Deleting moves a job out of sight for thirty days, by a clock that was seen to say so on two days.
//!
//! This half knows no clock and no chance: times (milliseconds since 1970) and new ids are handed in.
//! Only `browser` and `database` touch the browser, and they exist only there.

mod arriving;
mod backend;
#[cfg(all(target_arch = "wasm32", feature = "page"))]
pub mod browser;
#[cfg(all(target_arch = "wasm32", feature = "page"))]
pub mod database;
mod exchange;
mod gist;
mod index;
mod journal;
mod link;
mod record;
mod records;
mod share;
mod sum;
mod text;

pub use arriving::{Arriving, Progress};
pub use backend::{Backend, Memory, Trouble};
pub use exchange::{BackupImport, CopyError, Imported, PricesImported};
pub use gist::Gist;
pub use journal::{CaughtUp, Entry, Journal, Journalled};
pub use link::{LinkError, MOST_LINK_CHARACTERS, find_link, read_link, share_link};
pub use record::{Loaded, Raw, Stamp};
pub use records::{About, Deleted, Listed, LoadError, Records, SaveError};
pub use share::{
    Backup, MOST_SHARED_BYTES, Opened, Shared, Sheet, SheetDrawing, SheetFinding, SheetRow, SheetSection, Unpacked,
    backup_file_name, backup_page, file_name, open_shared, read_shared, share_page,
};
pub use text::share_text;
