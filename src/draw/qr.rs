//! A text as a QR code, to be read by a second phone off the first one's screen.

use qrcodegen::{DataTooLong, QrCode, QrCodeEcc, QrSegment, Version};
use std::fmt::{self, Write};

/// Bytes that the largest code, version 40 at its lowest correction, holds: ISO/IEC 18004, table 7.
pub const MOST_QR_BYTES: usize = 2953;

/// Empty modules around a code: ISO/IEC 18004 asks for four.
const QUIET: i32 = 4;

/// More than the largest code holds. Its words say what to do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TooManyBytes {
    /// The text's.
    pub bytes: usize,
}

impl fmt::Display for TooManyBytes {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { bytes } = self;
        write!(
            f,
            "This link is too long for a code: it has {bytes} bytes, and the largest code holds {MOST_QR_BYTES}. Send \
             the link or the file instead."
        )
    }
}

impl std::error::Error for TooManyBytes {}

/// The code of `text` as SVG text: a path of class `light` over all of it, and on it one of class `dark`. A
/// module is one drawing unit.
///
/// # Errors
/// [`TooManyBytes`].
pub fn qr_code(text: &str) -> Result<String, TooManyBytes> {
    let too_many = |_: DataTooLong| TooManyBytes { bytes: text.len() };
    // A screen is never torn or dirty: the lowest correction makes the largest modules. Where the size has
    // room for more of it at no cost, it is raised.
    let code = QrCode::encode_segments_advanced(
        &[QrSegment::make_bytes(text.as_bytes())],
        QrCodeEcc::Low,
        Version::MIN,
        Version::MAX,
        None,
        true,
    )
    .map_err(too_many)?;
    let size = code.size();
    let whole = size + 2 * QUIET;
    let mut svg = format!(
        "<svg class=\"qr-code\" viewBox=\"0 0 {whole} {whole}\" role=\"img\" aria-label=\"QR code of the link\" \
         shape-rendering=\"crispEdges\"><path class=\"light\" d=\"M0 0h{whole}v{whole}h-{whole}z\"/>\
         <path class=\"dark\" d=\""
    );
    for y in 0..size {
        let mut x = 0;
        while x < size {
            let length = (x..size).take_while(|x| code.get_module(*x, y)).fold(0, |length, _| length + 1);
            if length > 0 {
                let _ = write!(svg, "M{} {}h{length}v1h-{length}z", x + QUIET, y + QUIET);
            }
            x += length + 1;
        }
    }
    svg.push_str("\"/></svg>");
    Ok(svg)
}
