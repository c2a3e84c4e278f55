//! Drawings, as SVG text: the plan of a piece as installed, and the form it is cast in.
//!
//! A drawing is made of numbers and fixed words only, so that it can be set into the page and into
//! shared files as it is. It carries classes, no colours: the sheet of the page or of the file dresses it.
//! What can be touched carries `data-part`, see [`Part::key`].

mod boards;
mod canvas;
mod dxf;
mod plan;
mod scale;
mod sheets;
mod tiles;
mod timeline;
mod walls;
mod window;

pub use dxf::dxf;
pub use plan::{Drawing, Face, Part, plan};
pub use scale::true_scale;
pub use sheets::sheet_drawing;
pub use tiles::{Paper, Tile, tiles};
pub use timeline::timeline_drawing;
pub use window::Window;
