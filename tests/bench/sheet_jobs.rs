//! Lays out the jobs that come in as JSON, for `compare_sheets.py`, and says how many sheets each takes.
//!
//! In: `{"kerf": 0.125, "sheet": [49, 97], "jobs": [[[60, 20], …], …]}`, inches. Out: a list of
//! `{"sheets", "least", "unplaced", "seconds"}`, one a job.

use pourwright::measure::{Length, exact::inches};
use pourwright::sheet::{Effort, Part, Stock, Supply, lay_out};
use serde::{Deserialize, Serialize};
use std::io::{stdin, stdout};
use std::time::Instant;

#[derive(Deserialize)]
struct Jobs {
    kerf: f64,
    sheet: [f64; 2],
    jobs: Vec<Vec<[f64; 2]>>,
}

#[derive(Serialize)]
struct Found {
    sheets: u32,
    least: u32,
    unplaced: usize,
    seconds: f64,
}

fn main() -> serde_json::Result<()> {
    let Jobs { kerf, sheet: [width, length], jobs } = serde_json::from_reader(stdin())?;
    let stock = [Stock { width: inches(width), length: inches(length), supply: Supply::ToBuy }];
    // The effort may be given, to see what more of it finds.
    let effort = std::env::args().nth(1).and_then(|steps| steps.parse().ok());
    let effort = effort.map_or_else(Effort::default, |steps| Effort { steps });
    let found = jobs.iter().map(|job| {
        let part = |&[width, length]: &[f64; 2]| Part { width: inches(width), length: inches(length), may_turn: true };
        let parts: Vec<Part> = job.iter().map(part).collect();
        let start = Instant::now();
        let layout = lay_out(&parts, &stock, inches(kerf), Length::default(), effort);
        Found {
            sheets: layout.to_buy(),
            least: layout.least_sheets,
            unplaced: layout.unplaced.len(),
            seconds: start.elapsed().as_secs_f64(),
        }
    });
    serde_json::to_writer(stdout(), &found.collect::<Vec<_>>())
}
