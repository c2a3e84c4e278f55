//! Drawings, as SVG text: the plan of a piece as installed, the form it is cast in, and a link as a code.
//!
//! A drawing is made of numbers and fixed words only, so that it can be set into the page and into
//! shared files as it is. It carries classes, no colours: the sheet of the page or of the file dresses it.
//! What can be touched carries `data-part`, see [`Selection::key`].

mod boards;
mod canvas;
mod dxf;
mod gestures;
mod plan;
mod qr;
mod scale;
mod sheets;
mod steel;
mod stress;
mod template;
mod tiles;
mod timeline;
mod walls;
mod window;

pub use dxf::dxf;
pub use gestures::{Act, Gestures, Part, Stand, ZOOM_STEP};
pub use plan::{Drawing, Face, Selection, picture, plan};
pub use qr::{MOST_QR_BYTES, TooManyBytes, qr_code};
pub use scale::true_scale;
pub use sheets::sheet_drawing;
pub use stress::{BANDS, Stress, band_words, stress_map};
pub use tiles::{Paper, Tile, template_tiles, tiles};
pub use timeline::timeline_drawing;
pub use window::Window;
