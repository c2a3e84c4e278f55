//! A pour on its time line: mixers and the batches in them, the form as it fills, and how long each layer knits.

use super::canvas::Canvas;
use crate::measure::{Time, write_duration, write_number};
use crate::pour::timeline::Timeline;
use kurbo::{Point, Rect, Shape};
use uom::si::time::minute;

/// Width of the drawing, in drawing units.
const WIDTH: f64 = 360.0;
/// Room for the words at the left.
const LEFT: f64 = 46.0;
/// Room at the right.
const RIGHT: f64 = 10.0;
/// Height of a row.
const ROW: f64 = 22.0;
/// Height of a layer that knits.
const LAYER: f64 = 5.0;
/// More layers than this are not drawn apart.
const MOST_LAYERS: usize = 12;
/// Where the rows begin: above them stands what the line of stiffness means.
const TOP: f64 = 18.0;

/// Minutes between the marks of the axis: the first that leaves them apart.
const STEPS: [f64; 9] = [1.0, 2.0, 5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 240.0];

/// Draws a pour; nothing where it takes no time.
pub fn timeline_drawing(pour: &Timeline) -> String {
    let minutes = |time: Time| time.get::<minute>();
    let stiff = minutes(pour.stiff());
    let takes = minutes(pour.takes.value);
    let whole = takes.max(stiff) * 1.04;
    let scale = (WIDTH - LEFT - RIGHT) / whole;
    if !(scale.is_finite() && scale > 0.0) {
        return String::new();
    }
    let x = |at: f64| LEFT + at.min(whole) * scale;
    let mut canvas = Canvas::default();
    let bar = |from: f64, until: f64, row: f64, height: f64| {
        Rect::new(x(from), row, x(until).max(x(from) + 1.0), row + height).to_path(0.1)
    };
    let word = |canvas: &mut Canvas, row: f64, words: &str| {
        canvas.words("time-row", Point::new(LEFT - 4.0, row + ROW / 2.0), 0.0, words);
    };

    // Mixers, in the order of their first batch.
    let mut mixers: Vec<usize> = Vec::new();
    for batch in &pour.batches {
        if !mixers.contains(&batch.mixer) {
            mixers.push(batch.mixer);
        }
    }
    let rows = |mixer: usize| mixers.iter().position(|other| *other == mixer).unwrap_or(0) as f64;
    for (index, _) in mixers.iter().enumerate() {
        let name = if mixers.len() == 1 { "Mixer".to_owned() } else { format!("Mixer {}", index + 1) };
        word(&mut canvas, TOP + index as f64 * ROW, &name);
    }
    let form = TOP + mixers.len() as f64 * ROW;
    word(&mut canvas, form, "Form");
    for (index, batch) in pour.batches.iter().enumerate() {
        let row = TOP + rows(batch.mixer) * ROW;
        let (water, dumped, placed) = (minutes(batch.water), minutes(batch.dumped), minutes(batch.placed));
        canvas.path("time-mix", &bar(water, dumped, row + 2.0, ROW - 4.0));
        // With several people: who mixes it.
        let letter = char::from(b'A' + (batch.mixed_by % 26) as u8);
        let who = if pour.people > 1 { format!("{} {letter}", index + 1) } else { format!("{}", index + 1) };
        if (dumped - water) * scale > 7.0 * who.len() as f64 {
            let middle = Point::new(x(f64::midpoint(water, dumped)), row + ROW / 2.0);
            canvas.words("time-batch", middle, 0.0, &who);
        }
        canvas.path("time-place", &bar(dumped, placed, form + 2.0, ROW - 4.0));
    }
    if let Some(steel) = pour.steel {
        canvas.path("time-steel", &bar(minutes(steel.from), minutes(steel.until), form, ROW));
    }

    if pour.screed.until > pour.screed.from {
        canvas.path("time-screed", &bar(minutes(pour.screed.from), minutes(pour.screed.until), form + 2.0, ROW - 4.0));
    }

    // Layers, from placed to where they stop knitting.
    let mut bottom = form + ROW;
    if pour.batches.len() > 1 && pour.batches.len() <= MOST_LAYERS {
        word(&mut canvas, bottom + (pour.batches.len() as f64 * LAYER - ROW) / 2.0, "Knits");
        for batch in &pour.batches {
            let stops = minutes(batch.stops(pour.workable.value));
            canvas.path("time-knits", &bar(minutes(batch.placed), stops, bottom + 1.0, LAYER - 2.0));
            bottom += LAYER;
        }
    }

    // What is left, or is missing, between the end and the first batch's stiffening.
    let class = if pour.fits { "time-spare" } else { "time-over" };
    canvas.path(class, &bar(takes.min(stiff), takes.max(stiff), TOP, bottom - TOP));
    canvas.line("time-stiff", Point::new(x(stiff), TOP - 3.0), Point::new(x(stiff), bottom + 3.0));
    let says = format!("stiff at {}", write_duration(pour.stiff()).text);
    // Kept inside of the drawing.
    let room = 2.9 * says.chars().count() as f64;
    canvas.words("time-says", Point::new(x(stiff).clamp(LEFT, WIDTH - 2.0 - room), TOP - 8.0), 0.0, &says);

    // The axis.
    let axis = bottom + 4.0;
    canvas.line("time-axis", Point::new(LEFT, axis), Point::new(WIDTH - RIGHT, axis));
    let step = STEPS.into_iter().find(|step| step * scale > 30.0).unwrap_or(whole);
    let marks = (whole / step).floor().clamp(0.0, 40.0) as usize;
    for mark in 0..=marks {
        let at = mark as f64 * step;
        canvas.line("time-axis", Point::new(x(at), axis), Point::new(x(at), axis + 3.0));
        canvas.words("time-mark", Point::new(x(at), axis + 11.0), 0.0, &write_number(at, 1));
    }
    canvas.words("time-row", Point::new(LEFT - 10.0, axis + 8.0), 0.0, "min");
    let label = format!(
        "{} batches, {} in all; the mix is stiff at {}",
        pour.batches.len(),
        write_duration(pour.takes.value).text,
        write_duration(pour.stiff()).text
    );
    canvas.finish(WIDTH, axis + 18.0, &label)
}
