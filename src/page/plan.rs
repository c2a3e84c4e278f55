//! The plan drawing: touched to select, dragged or nudged to move a cutout, pinched to see it larger.

use super::desk::Desk;
use super::dom;
use super::openings::{center, move_to};
use crate::draw::{Drawing, Face, Selection, Window, plan};
use crate::top::moving::tape_step;
use kurbo::{Point, Size, Vec2};
use leptos::ev;
use leptos::html;
use leptos::prelude::*;
use uom::si::length::meter;
use wasm_bindgen::JsCast;
use web_sys::Element;

/// What is being dragged: the part, where the finger went down, where the centre was.
#[derive(Clone, Copy)]
struct Drag {
    part: Selection,
    pointer: Point,
    centre: Point,
}

/// One press of a key or a button makes the drawing so much larger.
const ZOOM_STEP: f64 = 1.5;

/// Where a finger is, in CSS pixels.
fn at(event: &ev::PointerEvent) -> Point {
    Point::new(f64::from(event.client_x()), f64::from(event.client_y()))
}

fn part_under(event: &web_sys::Event) -> Option<Selection> {
    let element = event.target()?.dyn_into::<Element>().ok()?.closest("[data-part]").ok()??;
    Selection::from_key(&element.get_attribute("data-part")?)
}

/// What a touch chooses: in the plan what has fields, in the form what is built.
fn can_be_touched(face: Face, part: Selection) -> bool {
    let built = matches!(part, Selection::Board(_) | Selection::Cutout(_) | Selection::Holes(_));
    face == Face::Installed && !matches!(part, Selection::Board(_)) || face == Face::Form && built
}

/// The drawing of the chosen piece as it stands.
fn draw(desk: Desk, face: Face) -> Option<Drawing> {
    let selected = Some(desk.part.get()).filter(|part| can_be_touched(face, *part));
    let known = desk.chosen()?;
    // What is typed of a piece changes what is known of it; all else of the job leaves its plan alone.
    let piece = desk.piece.get_untracked();
    desk.job.with_untracked(|job| plan(&known, job.pieces.get(piece)?, job.units, face, selected))
}

/// The drawing, made anew at most once a frame however many keys or moves of a finger fall into it: the numbers
/// do not wait for it.
fn drawing_of(desk: Desk, face: Face) -> RwSignal<Option<Drawing>> {
    let drawing = RwSignal::new(untrack(move || draw(desk, face)));
    let waits = StoredValue::new(false);
    Effect::watch(
        move || {
            desk.part.track();
            desk.chosen();
        },
        move |(), _, _| {
            if waits.get_value() {
                return;
            }
            waits.set_value(true);
            request_animation_frame(move || {
                // The screen may be gone by now.
                let _ = waits.try_set_value(false);
                if let Some(now) = (!drawing.is_disposed()).then(|| untrack(move || draw(desk, face))) {
                    let _ = drawing.try_maybe_update(|shown| (*shown != now, *shown = now));
                }
            });
        },
        false,
    );
    drawing
}

/// The plan of the chosen piece; `face` says which way it is seen. Only the plan as installed can be
/// dragged: in a mirrored drawing a finger goes the wrong way.
pub fn plan_view(desk: Desk, face: Face) -> AnyView {
    let drawing = drawing_of(desk, face);
    let holder = NodeRef::<html::Div>::new();
    let drag = StoredValue::new(None::<Drag>);

    let window = RwSignal::new(Window::WHOLE);
    // Fingers that are down: which, and where.
    let fingers = StoredValue::new(Vec::<(i32, Point)>::new());
    let size = move || {
        drawing.with(|drawing| drawing.as_ref().map_or(Size::ZERO, |drawing| Size::new(drawing.width, drawing.height)))
    };
    let svg = move || holder.get_untracked()?.query_selector("svg").ok()?;
    // CSS pixels a unit of the whole drawing, and the pixel of its upper left corner.
    let frame = move || -> Option<(f64, Point)> {
        let shown = svg()?.get_bounding_client_rect();
        let size = untrack(size);
        let pixels = (shown.width() / size.width).min(shown.height() / size.height);
        let aside = |room: f64, used: f64| (room - used * pixels) / 2.0;
        let corner = Point::new(
            shown.left() + aside(shown.width(), size.width),
            shown.top() + aside(shown.height(), size.height),
        );
        (pixels.is_finite() && pixels > 0.0).then_some((pixels, corner))
    };
    // Metres a CSS pixel, as the drawing stands on the screen now.
    let metres_a_pixel = move || -> Option<f64> {
        let (pixels, _) = frame()?;
        let zoom = window.get_untracked().zoom;
        drawing.with_untracked(|drawing| Some(1.0 / (drawing.as_ref()?.scale * pixels * zoom)))
    };
    let take = move |factor: f64, from: Point, to: Point| {
        let Some((pixels, corner)) = frame() else { return };
        let place = |at: Point| ((at - corner) / pixels).to_point();
        window.update(|window| *window = window.taken(factor, place(from), place(to), untrack(size)));
    };
    let zoom_by = move |factor: f64| {
        let Some((pixels, corner)) = frame() else { return };
        let middle = corner + untrack(size).to_vec2() / 2.0 * pixels;
        take(factor, middle, middle);
    };
    // The drawing itself need not be made anew for another window.
    Effect::new(move |_| {
        let view_box = window.get().view_box(size());
        if let Some(svg) = svg() {
            let _ = svg.set_attribute("viewBox", &view_box);
        }
    });
    Effect::new(move |_| {
        desk.piece.track();
        window.set(Window::WHOLE);
    });
    let down = move |event: ev::PointerEvent| {
        fingers.update_value(|fingers| {
            fingers.retain(|(id, _)| *id != event.pointer_id());
            fingers.push((event.pointer_id(), at(&event)));
        });
        let several = fingers.with_value(|fingers| fingers.len() > 1);
        // A finger stays with the drawing when the part it touched is drawn anew.
        let zooms = several || window.get_untracked().is_zoomed();
        if zooms {
            event.prevent_default();
        }
        if (zooms || event.pointer_type() == "touch")
            && let Some(holder) = holder.get_untracked()
        {
            let _ = holder.set_pointer_capture(event.pointer_id());
        }
        if several {
            drag.set_value(None);
            return;
        }
        let Some(part) = part_under(&event).filter(|part| can_be_touched(face, *part)) else { return };
        desk.part.set(part);
        if face != Face::Installed {
            return;
        }
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
        let before = fingers.get_value();
        fingers.update_value(|fingers| {
            if let Some(finger) = fingers.iter_mut().find(|(id, _)| *id == event.pointer_id()) {
                finger.1 = at(&event);
            }
        });
        match (before.as_slice(), fingers.get_value().as_slice()) {
            ([(_, a), (_, b)], [(_, c), (_, d)]) => {
                let apart = (*b - *a).hypot();
                if apart > 0.0 {
                    take((*d - *c).hypot() / apart, a.midpoint(*b), c.midpoint(*d));
                }
                return;
            }
            ([(_, a)], [(_, b)]) if drag.get_value().is_none() => {
                if window.get_untracked().is_zoomed() {
                    take(1.0, *a, *b);
                }
                return;
            }
            _ => {}
        }
        let (Some(drag), Some(metres)) = (drag.get_value(), metres_a_pixel()) else { return };
        let dx = (f64::from(event.client_x()) - drag.pointer.x) * metres;
        let dy = (f64::from(event.client_y()) - drag.pointer.y) * metres;
        // A finger trembles: a touch is not a move before it has gone half a step.
        if dx.hypot(dy) > tape_step(desk.units()).get::<meter>() / 2.0 {
            move_to(desk, drag.part, drag.centre + Vec2::new(dx, -dy));
        }
    };
    let up = move |event: ev::PointerEvent| {
        drag.set_value(None);
        fingers.update_value(|fingers| fingers.retain(|(id, _)| *id != event.pointer_id()));
    };
    let wheel = move |event: ev::WheelEvent| {
        if event.ctrl_key() {
            event.prevent_default();
            let at = Point::new(f64::from(event.client_x()), f64::from(event.client_y()));
            take((-event.delta_y() / 300.0).exp(), at, at);
        }
    };
    let whole = move || window.set(Window::WHOLE);
    let key = move |event: ev::KeyboardEvent| {
        let with_others = event.ctrl_key() || event.meta_key() || event.alt_key();
        match event.key().as_str() {
            _ if with_others => {}
            "+" | "=" => return zoom_by(ZOOM_STEP),
            "-" | "−" => return zoom_by(1.0 / ZOOM_STEP),
            "0" => return whole(),
            _ => {}
        }
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
        if can_be_touched(face, part) {
            desk.part.set(part);
        }
        if let (Face::Installed, Some(centre), true) = (face, center(desk, part), dx != 0.0 || dy != 0.0) {
            move_to(desk, part, centre + Vec2::new(dx, dy));
        }
        // The drawing is made anew with every change: the focus goes back to the part it was on.
        let holder = holder.get_untracked();
        dom::after_drawing_unless_typing(move || {
            let again =
                holder.and_then(|holder| holder.query_selector(&format!("[data-part={}]", part.key())).ok().flatten());
            if let Some(Ok(element)) = again.map(|element| element.dyn_into::<web_sys::SvgElement>()) {
                let _ = element.focus();
            }
        });
    };
    // A drawing made anew keeps the window it was seen through.
    let text = move || {
        let view_box = window.get_untracked().view_box(size());
        drawing.with(|drawing| {
            let Some(drawing) = drawing else { return String::new() };
            let whole = format!("viewBox=\"0 0 {:.0} {:.0}\"", drawing.width, drawing.height);
            drawing.svg.replacen(&whole, &format!("viewBox=\"{view_box}\""), 1)
        })
    };
    let nothing = "Type what the tape says, and the plan appears here.";
    view! {
        <figure class="plan" class:zoomed=move || window.get().is_zoomed()>
            <div
                node_ref=holder
                on:pointerdown=down
                on:pointermove=moved
                on:pointerup=up
                on:pointercancel=up
                on:lostpointercapture=up
                on:wheel=wheel
                on:dblclick=move |_| whole()
                on:keydown=key
                inner_html=text
            />
            <div class="zoom row" role="group" aria-label="Size of the drawing">
                <button type="button" aria-label="Larger" on:click=move |_| zoom_by(ZOOM_STEP)>"+"</button>
                <button type="button" aria-label="Smaller" on:click=move |_| zoom_by(1.0 / ZOOM_STEP)>"−"</button>
                <button type="button" on:click=move |_| whole()>"whole"</button>
            </div>
            {move || drawing.with(Option::is_none).then(|| view! { <p class="nothing">{nothing}</p> })}
        </figure>
    }
    .into_any()
}
