//! Will it crack: what concrete of an age bears, what steel adds, and what every place of the real top has to
//! bear while it is stripped, carried, set and used.
//!
//! A top is worked out as a thin plate in bending: a mesh of triangles that follows its outline and openings
//! ([`mesh`]), an element and a solver ([`plate`], [`solver`]), supports that may only push ([`bearing`]), and
//! what is read from the solution by a rule that does not depend on the mesh ([`reading`]). [`cases`] are what
//! a top lives through, [`net`], [`rail`] and [`cut`] the hand checks beside them, [`remedy`] what would help.
//!
//! [`check`] asks all that of a job: the hand check at once, and the [`ask::Question`] that a worker answers with the
//! map. [`verdict`] puts what the map finds among the findings, [`fix`] a remedy into the job; [`said`] has the words.
//!
//! At the doors stand quantities; inside, as in [`crate::plane`], numbers are `f64` in metres, newtons and
//! pascals. Loads and deflections are positive downward, moments positive where they pull at the underside.

mod ages;
pub mod ask;
pub mod bearing;
pub mod bracket;
mod cabinet;
pub mod cases;
pub mod check;
pub mod concrete;
pub mod cut;
mod element;
pub mod fix;
mod inputs;
pub mod limits;
mod loads;
pub mod mesh;
pub mod net;
mod order;
pub mod outcome;
pub mod plate;
mod products;
pub mod rail;
pub mod reading;
mod release;
pub mod remedy;
pub mod said;
mod screw;
pub mod seats;
pub mod section;
pub mod solver;
mod sorted;
mod statics;
pub mod steel;
pub mod study;
mod supports;
pub mod verdict;

pub use inputs::{BracketInputs, CabinetInputs, StrengthInputs, WhatBears};
