//! Files, records and shared pages: nothing that was saved once is lost, and nothing that comes in
//! can do harm.

mod corpus;
mod files;
mod growth;
mod jobs;
mod journal;
mod large;
mod links;
mod records;
#[path = "../schema/mod.rs"]
mod schema;
mod sharing;
