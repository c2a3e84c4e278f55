//! The limits and habits of measuring and fitting, each with its source beside it.

use crate::measure::Length;
use crate::measure::exact::inches;

/// Standard uncertainty of one tape reading: 1/16 in up to 10 ft, and in proportion to the length
/// beyond, where the tape sags and its end is harder to hold. Common practice, no source.
pub fn tape_uncertainty(length: Length) -> Length {
    let (finest, steady) = (inches(1.0 / 16.0), inches(120.0));
    if length > steady { finest * (length / steady).value } else { finest }
}

/// What is left free between a top and each wall to get it in. Common practice, no source.
pub fn wall_clearance() -> Length {
    inches(1.0 / 8.0)
}

/// Readings that differ by more than this are no longer called as good as a tape can be read, nor is a slip of this much left
/// unsaid: the clearance at a wall and what caulk hides take up no more. Common practice, no source.
pub fn fine_disagreement() -> Length {
    inches(3.0 / 8.0)
}

/// The widest gap that a bead of caulk hides. Common practice, no source.
pub fn caulk_widest() -> Length {
    inches(1.0 / 4.0)
}

/// How far from a corner its marks are usually set. Common practice, no source.
pub fn usual_leg() -> Length {
    inches(24.0)
}

/// A corner that the readings leave free by more than this, as a standard uncertainty, is not fixed
/// by them. Readings that do fix a shape leave it free by a few times what the tape is read to; those
/// that do not, by as much as the room is wide. So much lies between the two that the exact figure
/// does not matter.
pub fn loosest_corner() -> Length {
    inches(4.0)
}

/// A longer reading is a typing error, not a room.
pub fn longest_reading() -> Length {
    inches(12.0 * 1000.0)
}

/// More readings of one opening than this are not taken; more would only cost time.
pub const MOST_READINGS: usize = 100;

/// More corners than this are not walked, nor stations set along a wall.
pub const MOST_CORNERS: usize = 1000;

/// How rarely readings that are all good are called in question: 5 %, as usual in surveying.
pub const CHANCE_OF_FALSE_ALARM: f64 = 0.05;
