//! The limits and constants of the form, each with its source beside it.
//! A rule, its message and its test all read the limit here.

use crate::measure::exact::{inches, pounds_a_cubic_foot};
use crate::measure::{Angle, Length, MassDensity, Pressure};
use crate::working::Source;
use uom::si::angle::degree;
use uom::si::f64::Force;
use uom::si::force::newton;
use uom::si::pressure::megapascal;

/// Full aggregate shows at about 1/8 in; grinding off more than this is more likely a typing error.
/// Common practice.
pub fn grinding_most() -> Length {
    inches(0.25)
}

/// Boards for forms are thinner than this; more is more likely a typing error.
pub fn board_most() -> Length {
    inches(2.0)
}

/// What a kerf leaves of a strip, so that it bends and does not break. Common practice.
pub fn kerf_web() -> Length {
    inches(1.0 / 16.0)
}

/// How far the flat between two kerfs may stand off the arc. Common practice: what sanding takes out.
pub fn kerf_flat() -> Length {
    inches(1.0 / 64.0)
}

/// Table saws tilt to 45° and a little over. From memory of their data sheets.
pub fn saw_tilt_most() -> Angle {
    Angle::new::<degree>(47.0)
}

/// A joint between two lengths of liner nearer than this to a corner shows and comes loose. Common practice.
pub fn liner_joint_clear() -> Length {
    inches(6.0)
}

/// Rows of double-sided tape behind a liner, one low and one high. Common practice.
pub const LINER_TAPE_ROWS: f64 = 2.0;

/// A screw nearer than this to the end of a board splits it. Common practice.
pub fn screw_from_end() -> Length {
    inches(1.0)
}

/// Screws through a side into the end of its neighbour. Common practice.
pub const SCREWS_A_CORNER: u32 = 2;

/// Fresh density where that of the mix is not known. Common practice: 130 to 145 lb/ft³, and a little over.
pub fn fresh_density_assumed() -> MassDensity {
    pounds_a_cubic_foot(150.0)
}

/// Source of the pressure of fresh concrete on a form.
pub const FORM_PRESSURE: Source = Source::Standard("ACI 347: full fluid head for mixes that flow");

/// Bending stiffness of particle board of grade M-2, 2250 MPa: from memory of ANSI A208.1.
pub fn board_stiffness() -> Pressure {
    Pressure::new::<megapascal>(2250.0)
}

/// What a screw in the edge of a particle board may be asked to hold: a quarter of the 800 N at which it draws
/// out of grade M-2, from memory of ANSI A208.1.
pub fn screw_hold() -> Force {
    Force::new::<newton>(200.0)
}

/// Source of [`board_stiffness`] and [`screw_hold`].
pub const BOARD: Source = Source::Memory;

/// How far a side may bow out between two screws. Common practice: what nobody sees.
pub fn side_bow_most() -> Length {
    inches(1.0 / 64.0)
}

/// How far the base may bow down between its supports. Common practice: what a top's face does not show.
pub fn base_sag_most() -> Length {
    inches(1.0 / 32.0)
}

/// What release agent leaves where it is wiped thin: a US gallon over 400 ft². From memory of data sheets.
pub fn release_film() -> Length {
    inches(231.0 / (400.0 * 144.0))
}

/// A form further out of level than this casts a piece whose thickness shows it. Common practice.
pub fn level_most() -> Length {
    inches(1.0 / 16.0)
}
