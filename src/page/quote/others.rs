//! The other jobs of the shelf.

use super::super::desk::Desk;
use crate::estimate::{Estimate, estimate};
use crate::job::Job;
use leptos::prelude::*;

/// Those jobs of the shelf that can be read, worked out at the maker's prices.
pub fn worked_out(desk: Desk, ids: &[String]) -> Vec<(Job, Estimate)> {
    let work = |id: &String| {
        let job = desk.jobs.read(id)?;
        let all = desk.prices.with(|prices| estimate(&job, prices));
        Some((job, all))
    };
    ids.iter().filter_map(work).collect()
}

/// The other jobs of the shelf: id and name.
pub fn others(desk: Desk) -> Vec<(String, String)> {
    let open = desk.job.with(|job| job.id.clone());
    desk.shelf.with(|shelf| {
        let readable = shelf.iter().filter(|row| row.unreadable.is_none() && row.id != open);
        readable.map(|row| (row.id.clone(), row.name.clone())).collect()
    })
}
