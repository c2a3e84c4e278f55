//! What the program said of many jobs before its inside was moved, to the last bit.
//!
//! `jobs.z` holds the jobs and their prices: one sample of every version of the file, the worked demo, and 1000 jobs
//! made at random. `estimates.txt` holds a sum of everything that was worked out for each of them. A job whose sum has
//! changed is found here; what has changed shows where the same is written out before and after:
//!
//! ```sh
//! FROZEN=target/after cargo test --test frozen
//! ```
//!
//! A change that is meant stands in `changes.md` with its reason; `FROZEN=write` then takes the sums anew.

use pourwright::estimate::{Estimate, estimate};
use pourwright::job::{Job, file};
use pourwright::price::PriceBook;
use std::fmt::Write;
use std::path::Path;

const JOBS: &[u8] = include_bytes!("jobs.z");
const SUMS: &str = include_str!("estimates.txt");

/// Every frozen job and its prices.
fn jobs() -> Vec<(Job, PriceBook)> {
    let text = miniz_oxide::inflate::decompress_to_vec(JOBS).expect("it was packed by the same library");
    let text = String::from_utf8(text).expect("a text was packed");
    let lines: Vec<_> = text.lines().collect();
    let pairs = lines.chunks_exact(2).map(|pair| {
        let job = file::read(pair[0]).expect("a job that was saved opens");
        let (prices, _) = file::read_kept(pair[1], &[]).expect("prices that were saved open");
        (job, prices)
    });
    pairs.collect()
}

/// Everything that was worked out, without the names of types and fields, which may change: a line a value. Of a
/// working its title and its last result stay.
fn written_out(estimate: &Estimate) -> String {
    let debug = format!("{estimate:#?}");
    let mut out = String::new();
    let mut result = "";
    // How far in the lines of a working stand, while one is open.
    let mut working: Option<usize> = None;
    for line in debug.lines() {
        let (depth, text) = (line.len() - line.trim_start().len(), line.trim());
        if let Some(open) = working {
            if let Some(title) = text.strip_prefix("title: ") {
                writeln!(out, "titled {title}").expect("a string takes all");
            } else if let Some(said) = text.strip_prefix("result: ") {
                result = said;
            } else if depth == open {
                writeln!(out, "comes to {result}").expect("a string takes all");
                working = None;
            }
            continue;
        }
        if text == "working: Working {" {
            (working, result) = (Some(depth), "");
            continue;
        }
        // A value behind the name of its field; the name of a struct says nothing.
        let named = text
            .split_once(": ")
            .filter(|(name, _)| name.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_'));
        let value = named.map_or(text, |(_, value)| value);
        let opens = value.strip_suffix(['{', '(', '[']);
        match opens {
            Some(head) if ["Ok", "Err", "Some"].contains(&head) => writeln!(out, "{head}").expect("a string takes all"),
            Some(_) => {}
            None if value.starts_with(['}', ')', ']']) => {}
            None => writeln!(out, "{value}").expect("a string takes all"),
        }
    }
    out
}

/// FNV-1a, 64 bits: <https://datatracker.ietf.org/doc/html/draft-eastlake-fnv-17>.
fn sum(text: &str) -> u64 {
    text.bytes().fold(0xcbf2_9ce4_8422_2325, |sum, byte| (sum ^ u64::from(byte)).wrapping_mul(0x100_0000_01b3))
}

#[test]
fn every_estimate_is_what_it_was() {
    let jobs = jobs();
    let into = std::env::var("FROZEN").ok();
    let folder = into.as_deref().filter(|into| *into != "write").map(Path::new);
    if let Some(folder) = folder {
        std::fs::create_dir_all(folder).expect("a folder can be made");
    }
    let half_of_all = jobs.len().div_ceil(2).max(1);
    let halves = jobs.chunks(half_of_all).map(<[_]>::to_vec).enumerate();
    let threads: Vec<_> = halves
        .map(|(half, jobs)| {
            let folder = folder.map(Path::to_owned);
            let before = half * half_of_all;
            std::thread::spawn(move || {
                let sums = jobs.iter().enumerate().map(|(index, (job, prices))| {
                    pourwright::working::debug_for(job.clone());
                    let out = written_out(&estimate(job, prices));
                    if let Some(folder) = &folder {
                        let name = folder.join(format!("{:04}.txt", before + index));
                        std::fs::write(name, &out).expect("a file can be written");
                    }
                    sum(&out)
                });
                sums.collect::<Vec<_>>()
            })
        })
        .collect();
    let sums: Vec<u64> = threads.into_iter().flat_map(|thread| thread.join().expect("no estimate panics")).collect();
    let lines: String = sums.iter().map(|sum| format!("{sum:016x}\n")).collect();
    if into.as_deref() == Some("write") {
        std::fs::write("tests/frozen/estimates.txt", &lines).expect("a file can be written");
        return;
    }
    let before: Vec<_> = SUMS.lines().collect();
    assert_eq!(before.len(), sums.len(), "as many sums as jobs");
    let changed: Vec<_> = lines.lines().zip(&before).enumerate().filter(|(_, (now, was))| now != *was).collect();
    let which: Vec<_> = changed.iter().map(|(index, _)| index).collect();
    assert!(changed.is_empty(), "{} of {} estimates are not what they were: jobs {which:?}", changed.len(), sums.len());
}
