//! The two ways a workshop measures.

use serde::{Deserialize, Serialize};

/// Which unit a bare number takes, and which units results are written in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Units {
    /// Inches, pounds, US quarts, degrees Fahrenheit.
    #[default]
    Inch,
    /// Millimetres, kilograms, litres, degrees Celsius.
    Metric,
}
