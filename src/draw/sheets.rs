//! A sheet with the parts that are cut from it, its length from left to right.

use super::canvas::Canvas;
use crate::measure::{Length, Units, write_cut};
use crate::sheet::{Becomes, Place, Sheet};
use kurbo::{Point, Rect, Shape};
use uom::si::length::meter;

/// Width of the drawing, in drawing units.
const WIDTH: f64 = 360.0;
/// Room around the sheet.
const MARGIN: f64 = 6.0;
/// A part that is drawn higher than this has its size under its mark.
const HIGH: f64 = 26.0;

/// Draws a sheet; `mark` gives the mark of a part by its index.
pub fn sheet_drawing(sheet: &Sheet, mark: &dyn Fn(usize) -> String, units: Units) -> String {
    let Some(whole) = sheet.pieces.first() else { return String::new() };
    let scale = (WIDTH - 2.0 * MARGIN) / whole.place.length.get::<meter>();
    if !(scale.is_finite() && scale > 0.0) {
        return String::new();
    }
    let on_paper = |place: &Place| {
        let [x, y, width, length] =
            [place.x, place.y, place.width, place.length].map(|size| size.get::<meter>() * scale);
        Rect::new(MARGIN + y, MARGIN + x, MARGIN + y + length, MARGIN + x + width)
    };
    let mut canvas = Canvas::default();
    canvas.path("sheet", &on_paper(&whole.place).to_path(0.1));
    for piece in &sheet.pieces {
        let at = on_paper(&piece.place);
        match piece.becomes {
            Becomes::Part { part, .. } => {
                canvas.path("sheet-part", &at.to_path(0.1));
                label(&mut canvas, at, &mark(part), &size(&piece.place, units));
            }
            Becomes::OffCut => {
                canvas.path("sheet-kept", &at.to_path(0.1));
                label(&mut canvas, at, "keep", &size(&piece.place, units));
            }
            Becomes::Pieces | Becomes::Scrap => {}
        }
    }
    let height = on_paper(&whole.place).y1 + MARGIN;
    canvas.finish(WIDTH, height, &format!("Sheet, {} {}", size(&whole.place, units), unit(units)))
}

fn unit(units: Units) -> &'static str {
    crate::job::Kind::Length.unit(units)
}

/// Both sides, the longer first, without their unit.
fn size(place: &Place, units: Units) -> String {
    let write = |length: Length| write_cut(length, units).bare().to_owned();
    format!("{} × {}", write(place.length.max(place.width)), write(place.length.min(place.width)))
}

/// The mark in the middle of what it names, turned where that stands upright, and the size where there is room.
fn label(canvas: &mut Canvas, at: Rect, mark: &str, size: &str) {
    let upright = at.height() > at.width();
    let (along, high) = if upright { (at.height(), at.width()) } else { (at.width(), at.height()) };
    let turned = if upright { -90.0 } else { 0.0 };
    let middle = at.center();
    let letters = |text: &str| 5.6 * text.chars().count() as f64;
    if high > HIGH && along > letters(size) {
        let apart = if upright { kurbo::Vec2::new(6.0, 0.0) } else { kurbo::Vec2::new(0.0, 6.0) };
        canvas.words("sheet-mark", middle - apart, turned, mark);
        canvas.words("sheet-size", middle + apart, turned, size);
    } else if high > 8.0 {
        let both = format!("{mark}  {size}");
        let text = if along > letters(&both) { both.as_str() } else { mark };
        canvas.words("sheet-mark", Point::new(middle.x, middle.y), turned, text);
    } else if along > letters(mark) {
        canvas.words("sheet-mark small", middle, turned, mark);
    }
}
