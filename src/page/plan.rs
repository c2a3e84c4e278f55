//! The plan drawing: touched to select, dragged or nudged to move a cutout.

use super::desk::Desk;
use super::dom;
use crate::draw::{Drawing, Face, Part, plan};
use crate::job::{CutoutField, HolesField, Place};
use crate::measure::{Length, Units, read_length, write_length};
use leptos::ev;
use leptos::html;
use leptos::prelude::*;
use uom::si::length::{inch, meter, millimeter};
use wasm_bindgen::JsCast;
use web_sys::Element;

/// What is being dragged: the part, where the finger went down, where the centre was.
#[derive(Clone, Copy)]
struct Drag {
    part: Part,
    pointer: (f64, f64),
    centre: (f64, f64),
}

/// A dragged centre lands on a mark of the tape.
fn snap(metres: f64, units: Units) -> f64 {
    let step = step(units);
    (metres / step).round() * step
}

fn step(units: Units) -> f64 {
    match units {
        Units::Inch => Length::new::<inch>(0.125).get::<meter>(),
        Units::Metric => Length::new::<millimeter>(5.0).get::<meter>(),
    }
}

/// The entries that hold the centre of a part of the piece.
fn centre_places(piece: usize, part: Part) -> Option<(Place, Place)> {
    match part {
        Part::Cutout(index) => Some((
            Place::Cutout(piece, index, CutoutField::FromLeft),
            Place::Cutout(piece, index, CutoutField::FromFront),
        )),
        Part::Holes(index) => {
            Some((Place::Holes(piece, index, HolesField::FromLeft), Place::Holes(piece, index, HolesField::FromFront)))
        }
        Part::Size | Part::Edge(_) | Part::Corner(_) => None,
    }
}

/// Where the centre of a part is, in metres; nothing while it cannot be read.
fn centre(desk: Desk, part: Part) -> Option<(f64, f64)> {
    let (left, front) = centre_places(desk.piece.get_untracked(), part)?;
    desk.job.with_untracked(|job| {
        let read = |place| read_length(job.entry_at(place)?.text(), job.units).ok();
        Some((read(left)?.get::<meter>(), read(front)?.get::<meter>()))
    })
}

/// Moves the centre of a part to the nearest marks of the tape.
fn move_to(desk: Desk, part: Part, x: f64, y: f64) {
    let Some((left, front)) = centre_places(desk.piece.get_untracked(), part) else { return };
    let units = desk.units();
    for (place, metres) in [(left, x), (front, y)] {
        let length = Length::new::<meter>(snap(metres, units).max(0.0));
        let text = write_length(length, units).text;
        desk.type_into(place, text.trim_end_matches([' ', 'i', 'n', 'm']).to_owned());
    }
}

fn part_under(event: &web_sys::Event) -> Option<Part> {
    let element = event.target()?.dyn_into::<Element>().ok()?.closest("[data-part]").ok()??;
    Part::from_key(&element.get_attribute("data-part")?)
}

/// The plan of the chosen piece; `face` says which way it is seen. Only the plan as installed can be
/// dragged: in a mirrored drawing a finger goes the wrong way.
pub fn plan_view(desk: Desk, face: Face) -> AnyView {
    let drawing = Memo::new(move |_| {
        let selected = (face == Face::Installed).then(|| desk.part.get());
        let piece = desk.piece.get();
        desk.estimate.with(|all| {
            desk.job.with(|job| plan(all.pieces.get(piece)?, job.pieces.get(piece)?, job.units, face, selected))
        })
    });
    let holder = NodeRef::<html::Div>::new();
    let drag = StoredValue::new(None::<Drag>);

    // Metres a CSS pixel, as the drawing stands on the screen now.
    let metres_a_pixel = move || -> Option<f64> {
        let shown = holder.get_untracked()?.query_selector("svg").ok()??.get_bounding_client_rect();
        drawing.with_untracked(|drawing| {
            let Drawing { scale, width, height, .. } = drawing.as_ref()?;
            let pixels_a_unit = (shown.width() / width).min(shown.height() / height);
            Some(1.0 / (scale * pixels_a_unit))
        })
    };
    let down = move |event: ev::PointerEvent| {
        if face != Face::Installed {
            return;
        }
        let Some(part) = part_under(&event) else { return };
        desk.part.set(part);
        if let Some(centre) = centre(desk, part) {
            event.prevent_default();
            drag.set_value(Some(Drag {
                part,
                pointer: (f64::from(event.client_x()), f64::from(event.client_y())),
                centre,
            }));
            if let Some(holder) = holder.get_untracked() {
                let _ = holder.set_pointer_capture(event.pointer_id());
            }
        }
    };
    let moved = move |event: ev::PointerEvent| {
        let (Some(drag), Some(metres)) = (drag.get_value(), metres_a_pixel()) else { return };
        let dx = (f64::from(event.client_x()) - drag.pointer.0) * metres;
        let dy = (f64::from(event.client_y()) - drag.pointer.1) * metres;
        // A finger trembles: a touch is not a move before it has gone half a step.
        if dx.hypot(dy) > step(desk.units()) / 2.0 {
            move_to(desk, drag.part, drag.centre.0 + dx, drag.centre.1 - dy);
        }
    };
    let up = move |_: ev::PointerEvent| drag.set_value(None);
    let key = move |event: ev::KeyboardEvent| {
        let Some(part) = part_under(&event) else { return };
        let step = step(desk.units());
        let (dx, dy) = match event.key().as_str() {
            "Enter" | " " => (0.0, 0.0),
            "ArrowLeft" => (-step, 0.0),
            "ArrowRight" => (step, 0.0),
            "ArrowUp" => (0.0, step),
            "ArrowDown" => (0.0, -step),
            _ => return,
        };
        event.prevent_default();
        if face == Face::Installed {
            desk.part.set(part);
            if let (Some((x, y)), true) = (centre(desk, part), dx != 0.0 || dy != 0.0) {
                move_to(desk, part, x + dx, y + dy);
            }
        }
        // The drawing is made anew with every change: the focus goes back to the part it was on.
        dom::after_drawing(move || {
            let again = holder
                .get_untracked()
                .and_then(|holder| holder.query_selector(&format!("[data-part={}]", part.key())).ok().flatten());
            if let Some(Ok(element)) = again.map(|element| element.dyn_into::<web_sys::SvgElement>()) {
                let _ = element.focus();
            }
        });
    };
    let nothing = "Type what the tape says, and the plan appears here.";
    view! {
        <figure class="plan">
            <div
                node_ref=holder
                on:pointerdown=down
                on:pointermove=moved
                on:pointerup=up
                on:pointercancel=up
                on:keydown=key
                inner_html=move || drawing.with(|drawing| drawing.as_ref().map_or_else(String::new, |drawing| drawing.svg.clone()))
            />
            {move || drawing.with(Option::is_none).then(|| view! { <p class="nothing">{nothing}</p> })}
        </figure>
    }
    .into_any()
}
