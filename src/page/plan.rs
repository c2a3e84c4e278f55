//! The plan drawing: touched to select, dragged or nudged to move a cutout.

use super::desk::Desk;
use super::dom;
use super::openings::{center, move_to, tape_step};
use crate::draw::{Drawing, Face, Part, plan};
use kurbo::{Point, Vec2};
use leptos::ev;
use leptos::html;
use leptos::prelude::*;
use uom::si::length::meter;
use wasm_bindgen::JsCast;
use web_sys::Element;

/// What is being dragged: the part, where the finger went down, where the centre was.
#[derive(Clone, Copy)]
struct Drag {
    part: Part,
    pointer: Point,
    centre: Point,
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
        if let Some(centre) = center(desk, part) {
            event.prevent_default();
            drag.set_value(Some(Drag {
                part,
                pointer: Point::new(f64::from(event.client_x()), f64::from(event.client_y())),
                centre,
            }));
            if let Some(holder) = holder.get_untracked() {
                let _ = holder.set_pointer_capture(event.pointer_id());
            }
        }
    };
    let moved = move |event: ev::PointerEvent| {
        let (Some(drag), Some(metres)) = (drag.get_value(), metres_a_pixel()) else { return };
        let dx = (f64::from(event.client_x()) - drag.pointer.x) * metres;
        let dy = (f64::from(event.client_y()) - drag.pointer.y) * metres;
        // A finger trembles: a touch is not a move before it has gone half a step.
        if dx.hypot(dy) > tape_step(desk.units()).get::<meter>() / 2.0 {
            move_to(desk, drag.part, drag.centre + Vec2::new(dx, -dy));
        }
    };
    let up = move |_: ev::PointerEvent| drag.set_value(None);
    let key = move |event: ev::KeyboardEvent| {
        let Some(part) = part_under(&event) else { return };
        let step = tape_step(desk.units()).get::<meter>();
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
            if let (Some(centre), true) = (center(desk, part), dx != 0.0 || dy != 0.0) {
                move_to(desk, part, centre + Vec2::new(dx, dy));
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
