//! The limits and constants of knockouts, each with its source beside it.
//! A rule, its message and its test all read the limit here.

use crate::measure::exact::{inches, pounds};
use crate::measure::{Length, Mass};

/// A stack of layers that misses the cast thickness by less is as high as the cast: a trowel takes it up.
/// Common practice.
pub fn stack_slack() -> Length {
    inches(1.0 / 64.0)
}

/// A thinner layer is no board or foam but a shim. Common practice.
pub fn layer_least() -> Length {
    inches(1.0 / 32.0)
}

/// A thicker shim is better another layer: card and tape give way under the weight of the mix. Common
/// practice.
pub fn shim_most() -> Length {
    inches(1.0 / 8.0)
}

/// More draft on each side makes the hole at the back much narrower than in the face. Common practice: 1/16
/// to 1/8 in.
pub fn draft_most() -> Length {
    inches(1.0 / 4.0)
}

/// A foam core thinner than this bends when the mix is worked around it. Common practice.
pub fn foam_core_least() -> Length {
    inches(1.0)
}

/// What one screw through the base into a board is trusted to hold down; it pulls out at several times as
/// much. Common practice.
pub fn hold_down_screw() -> Mass {
    pounds(25.0)
}

/// Fewer screws than this let a knockout turn. Common practice.
pub const SCREWS_LEAST: u32 = 2;
