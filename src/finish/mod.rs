//! Finish: what is ground off, filled, and put on, and how long it takes.
//!
//! * [`Exposure`] is how much of the aggregate shall show; [`removed`] what grinding it takes off, as dust or
//!   [`slurry`].
//! * [`sequence`] picks the pads up to the wanted [`Sheen`] from what the maker owns, and names what is missing.
//! * [`grinding_time`], [`pad_share`] and [`speed_limit`] come from the maker's own pads.
//! * [`fill_slurry`] is what pinholes and cracks take, of the pour's own cement, pigment and water.
//! * [`seal_area`], [`seal_amount`] and [`schedule`] are the sealer and its dates; [`care_sheet`] goes to the client.
//! * [`least_age`] is how old a top is when it takes a sealer.
//! * [`cautions`] stand at the step where the hands are.
//! * [`Curl`] is how far a top bends as it dries from one face alone.
//!
//! Only [`FinishInputs`] reads a job: every function takes quantities. What cannot be worked out because a number is none, or
//! not over zero, is `None`.

mod care;
mod caution;
mod curl;
mod drying;
mod exposure;
mod grit;
mod inputs;
pub mod limits;
mod plan;
mod repair;
mod seal;
mod work;

pub use care::{CareLine, WATERMARK_TEST, care_sheet};
pub use caution::{Caution, DustControls, SilicaVerdict, Step, cautions, dust_controls, eight_hour_average};
pub use curl::{Curl, rise, shrinkage};
pub use drying::{Drying, EDGES_AS_CAST, least_age};
pub use exposure::{Exposure, Removed, removed, slurry};
pub use grit::{GritStep, Sequence, Sheen, Tool, sequence};
pub use inputs::{FinishInputs, FinishPiece};
pub use plan::{Finishing, Sealing};
pub use repair::{Defect, FillMix, Filling, fill_slurry};
pub use seal::{Coverage, EdgeRun, Schedule, SealKind, Sealer, Surfaces, schedule, seal_amount, seal_area};
pub use work::{Pad, Rate, grinding_time, pad_share, speed_limit, write_speed};

/// Every one is a number over zero.
fn positive(values: &[f64]) -> bool {
    values.iter().all(|value| value.is_finite() && *value > 0.0)
}

/// Every one is a number, and none is under zero.
fn not_negative(values: &[f64]) -> bool {
    values.iter().all(|value| value.is_finite() && *value >= 0.0)
}
