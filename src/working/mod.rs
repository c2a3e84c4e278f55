//! Working: how a number was obtained, or what it still waits for.
//!
//! A calculating room writes one expression, and value, formula and numbers all follow from it:
//!
//! ```
//! use pourwright::measure::{Units, exact::inches};
//! use pourwright::working::{Named, Source};
//!
//! let (thickness, grinding) = (inches(1.5), inches(0.0625));
//! let cast = (thickness.named("finished thickness") + grinding.named("ground off the face"))
//!     .titled("Cast thickness", Source::Arithmetic);
//!
//! assert_eq!(cast.value, thickness + grinding);
//! let lines = cast.working.lines(Units::Inch);
//! assert_eq!(lines[0].formula, "finished thickness + ground off the face");
//! assert_eq!(lines[0].numbers, "1 1/2 in + 1/16 in");
//! assert_eq!(lines[0].result, "1 9/16 in");
//! ```
//!
//! A figure goes into the next calculation by its name, and brings its lines with it; each is told once.
//!
//! ```
//! # use pourwright::measure::{Area, Units, exact::inches};
//! # use pourwright::working::{Named, Source};
//! # let cast = (inches(1.5).named("finished thickness") + inches(0.0625).named("ground off the face"))
//! #     .titled("Cast thickness", Source::Arithmetic);
//! let area: Area = inches(60.0) * inches(24.0);
//! let volume = (area.named("clear area") * cast.term()).titled("Concrete in the form", Source::Arithmetic);
//!
//! let lines = volume.working.lines(Units::Inch);
//! assert_eq!(lines[0].formula, "Cast thickness = finished thickness + ground off the face");
//! assert_eq!(lines[1].formula, "clear area × cast thickness");
//! ```
//!
//! What is typed and cannot be read is not a number yet: [`Known`] says so, and [`together`] collects all that several
//! numbers wait for.

mod figure;
mod label;
mod needs;
mod term;

pub use figure::{Figure, Line, Source, Working, WrittenLine};
pub use label::{Label, Name, Names, Word, about, debug_for, places};
pub(crate) use needs::Needs;
pub use needs::{Asked, Known, Need, Together, Waiting, all, both, known_ref, together};
pub use term::{Named, Part, Term, pi, quarter_pi};
