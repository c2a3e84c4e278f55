//! The room as it really is: an opening solved from tape readings, the walls that bow, the top that
//! fits between them, and the way it goes in.
//!
//! Plane coordinates are `f64` metres: x to the right, y to the back. A solved opening has its front
//! left corner at the origin and its front right corner on the x axis; its corners go round
//! counter-clockwise, in the order of [`Corner::ALL`], and its sides likewise: front, right, back,
//! left.
//!
//! * [`survey`] solves an opening from whatever was read: sides, diagonals, corners by three marks, any
//!   of them more than once. It says how far the readings agree, and which could be the wrong one.
//! * [`ScribeLine`] is a bowed wall by its gaps from a straightedge.
//! * [`top_in_opening`] takes the clearances off and puts the overhangs on.
//! * [`ways_in`] says how the top gets between the walls, and with how much to spare.
//! * [`walk_outline`] is a free outline walked corner by corner, its closure spread.
//!
//! Nothing here knows a job. What is wrong is a value that names the reading; [`words`] says it in a
//! maker's English.
//!
//! ```
//! use pourwright::measure::exact::inches;
//! use pourwright::room::{Reading, Span, Verdict, Walls, survey};
//!
//! let tape = |span, length| Reading::span(span, inches(length));
//! let readings = [
//!     tape(Span::Front, 52.0),
//!     tape(Span::Right, 23.0),
//!     tape(Span::Back, 51.875),
//!     tape(Span::Left, 23.0),
//!     tape(Span::DiagonalFromFrontLeft, 56.75),
//!     tape(Span::DiagonalFromFrontRight, 56.875),
//! ];
//! let opening = survey(Walls::Three, &readings).unwrap();
//! assert_eq!(opening.verdict, Verdict::Agrees);
//! ```

mod chance;
mod diagnosis;
pub mod limits;
mod outline;
mod reading;
mod scribe;
mod survey;
#[cfg(test)]
mod tests;
mod walk;
mod way;
pub mod words;

pub use diagnosis::{Suspect, Verdict};
pub use outline::{Around, OffsetProblem, offset_outline, top_in_opening};
pub use reading::{Corner, Marks, Problem, Reading, Span, Taken, Walls, Wanted};
pub use scribe::{Hiding, ScribeLine, ScribeProblem, Station};
pub use survey::{Agreement, Amount, CornerAngle, Fit, Survey, survey};
pub use uom::si::f64::Angle;
pub use walk::{Walk, WalkProblem, WalkSide, walk_outline};
pub use way::{Way, WayProblem, WaysIn, ways_in};
