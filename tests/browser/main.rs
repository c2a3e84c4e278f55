//! The built page in real browsers, in what people do and read.
//!
//! `make test` builds the page first; `POURWRIGHT_DIST` names another folder to test.
#![cfg(not(target_arch = "wasm32"))]

mod access;
mod budget;
mod build_day;
mod crack_day;
mod cutouts;
mod engine;
mod engines;
mod faults;
mod first_day;
mod front;
mod hands;
mod help;
mod hostile;
mod keeping;
mod links;
mod maker;
mod measure_day;
mod monkey;
mod no_rushed_pour;
mod no_silent_crack;
mod offline;
mod pictures;
mod pour_day;
mod printing;
mod quote_day;
mod sharing;
mod site;
mod sizes;
mod updates;
