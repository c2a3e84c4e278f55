//! The limits and constants of a finished top, each with its source beside it.
//! A rule, its message and its test all read the limit here.

use crate::measure::Length;
use crate::measure::exact::inches;

/// What the rim of a drop-in bowl lies on all round, where nothing is typed. Common practice, no source.
pub fn ledge_usual() -> Length {
    inches(0.5)
}

/// A drop-in bowl on a ledge narrower than this may fall through its hole. Common practice, no source.
pub fn ledge_watch() -> Length {
    inches(0.25)
}

/// A rail narrower than this is at the edge. Common practice.
pub fn rail_watch() -> Length {
    inches(2.5)
}

/// A rail narrower than this breaks. Common practice.
pub fn rail_stop() -> Length {
    inches(1.5)
}

/// A rail of a splash or an apron narrower than this is at the edge: such a strip is short of height by
/// nature, hangs or stands against what carries it, and is cut for outlets. Common practice.
pub fn strip_rail_watch() -> Length {
    inches(1.0)
}

/// A rail of a splash or an apron narrower than this breaks. Common practice.
pub fn strip_rail_stop() -> Length {
    inches(0.5)
}

/// A faucet hole nearer than this to an edge or a cutout chips out when it is drilled or its
/// knockout is pushed. Common practice.
pub fn hole_watch() -> Length {
    inches(0.5)
}

/// Inside corners with a smaller radius start cracks. Common practice.
pub fn corner_radius_watch() -> Length {
    inches(0.5)
}

/// A thinner top is out of the usual. Common practice: 1 1/2 to 2 in, with a margin.
pub fn thickness_least() -> Length {
    inches(1.25)
}

/// A thinner top of a mix with glass fibre is out of the usual. Common practice: 3/4 to 1 in, no source.
pub fn glass_fibre_thickness_least() -> Length {
    inches(0.75)
}

/// A thinner splash or apron is out of the usual: it spans nothing, so that it may be thinner than a top.
/// Common practice: 3/4 to 1 in, with a margin.
pub fn strip_thickness_least() -> Length {
    inches(0.5)
}

/// The usual thickness of a backsplash, where none is typed. Common practice.
pub fn backsplash_usual() -> Length {
    inches(0.75)
}

/// A thicker top is out of the usual. Common practice: 1 1/2 to 2 in, with a margin.
pub fn thickness_most() -> Length {
    inches(3.0)
}

/// A thicker top is a typing error.
pub fn thickness_stop() -> Length {
    inches(12.0)
}

/// Liners are rubber strips; a thicker one is more likely a typing error. Common practice.
pub fn liner_most() -> Length {
    inches(2.0)
}

/// A longer piece is better split. Common practice.
pub fn piece_longest() -> Length {
    inches(96.0)
}

/// A seam nearer than this to a cutout or a hole leaves a weak end on either side of it. Common practice.
pub fn seam_clear() -> Length {
    inches(4.0)
}

/// Parts that one piece is split into at most.
pub const MOST_PARTS: usize = 8;

/// A splash or an apron smaller than this in any direction is more likely a typing error. Common practice:
/// 3 to 6 in.
pub fn strip_least() -> Length {
    inches(2.0)
}

/// A smaller piece than this in any direction is more likely a typing error.
pub fn piece_least() -> Length {
    inches(4.0)
}
