//! The plan drawing: touched to select, dragged or nudged to move a cutout, pinched to see it larger.

use super::desk::Desk;
use super::dom;
use super::openings::{center, move_to};
use crate::draw::{Act, Drawing, Face, Gestures, Part, Selection, Stand, Window, ZOOM_STEP, plan};
use crate::top::moving::tape_step;
use kurbo::{Point, Size};
use leptos::ev;
use leptos::html;
use leptos::prelude::*;
use uom::si::length::meter;
use wasm_bindgen::JsCast;
use web_sys::Element;

/// Where on the screen something happens, in CSS pixels. (A pointer and a wheel are mice to a browser.)
fn at(event: &web_sys::MouseEvent) -> Point {
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
    let known = desk.worked.chosen()?;
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
            desk.worked.chosen();
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

/// What a view of the plan is made of. Copied freely: it is a handful of handles.
#[derive(Clone, Copy)]
struct View {
    desk: Desk,
    face: Face,
    drawing: RwSignal<Option<Drawing>>,
    /// What of it is in sight.
    window: RwSignal<Window>,
    gestures: StoredValue<Gestures>,
    holder: NodeRef<html::Div>,
}

impl View {
    fn svg(self) -> Option<Element> {
        self.holder.get_untracked()?.query_selector("svg").ok()?
    }

    fn size(self) -> Size {
        let size = |drawing: &Drawing| Size::new(drawing.width, drawing.height);
        self.drawing.with(|drawing| drawing.as_ref().map_or(Size::ZERO, size))
    }

    /// How the drawing stands on the screen now.
    fn stand(self) -> Option<Stand> {
        let shown = self.svg()?.get_bounding_client_rect();
        let size = untrack(|| self.size());
        let pixels = (shown.width() / size.width).min(shown.height() / size.height);
        let aside = |room: f64, used: f64| (room - used * pixels) / 2.0;
        let corner = Point::new(
            shown.left() + aside(shown.width(), size.width),
            shown.top() + aside(shown.height(), size.height),
        );
        let scale = self.drawing.with_untracked(|drawing| drawing.as_ref().map(|drawing| drawing.scale))?;
        (pixels.is_finite() && pixels > 0.0).then_some(Stand { pixels, corner, size, scale })
    }

    /// The part that was touched, or has the focus. Only the plan as installed can be dragged: in a mirrored drawing a
    /// finger goes the wrong way.
    fn part_under(self, event: &web_sys::Event) -> Option<Part> {
        let which = part_under(event)?;
        Some(Part {
            which,
            can_be_chosen: can_be_touched(self.face, which),
            centre: center(self.desk, which).filter(|_| self.face == Face::Installed),
        })
    }

    /// The step of the tape, in metres.
    fn step(self) -> f64 {
        tape_step(self.desk.units()).get::<meter>()
    }

    /// Tells the gestures what happened, and does what follows.
    fn hear(self, event: &web_sys::Event, tell: impl FnOnce(&mut Gestures) -> Vec<Act>) {
        for act in self.gestures.try_update_value(tell).unwrap_or_default() {
            if act == Act::Keep {
                event.prevent_default();
            }
            self.act(act);
        }
    }

    fn act(self, act: Act) {
        match act {
            Act::Select(part) => self.desk.part.set(part),
            Act::Move(part, at) => move_to(self.desk, part, at),
            Act::See(window) => self.window.set(window),
            Act::Hold(pointer) => {
                if let Some(holder) = self.holder.get_untracked() {
                    let _ = holder.set_pointer_capture(pointer);
                }
            }
            Act::Keep => {}
            Act::Focus(part) => self.focus(part),
        }
    }

    /// The drawing is made anew with every change: the focus goes back to the part it was on.
    fn focus(self, part: Selection) {
        let holder = self.holder.get_untracked();
        dom::after_drawing_unless_typing(move || {
            let again =
                holder.and_then(|holder| holder.query_selector(&format!("[data-part={}]", part.key())).ok().flatten());
            if let Some(Ok(element)) = again.map(|element| element.dyn_into::<web_sys::SvgElement>()) {
                let _ = element.focus();
            }
        });
    }

    fn down(self, event: &ev::PointerEvent) {
        let (part, is_finger) = (self.part_under(event), event.pointer_type() == "touch");
        self.hear(event, |gestures| gestures.down(event.pointer_id(), at(event), is_finger, part));
    }

    fn moved(self, event: &ev::PointerEvent) {
        // A mouse that only passes by costs nothing.
        if self.gestures.with_value(Gestures::is_idle) {
            return;
        }
        let (stand, step) = (self.stand(), self.step());
        self.hear(event, |gestures| gestures.moved(event.pointer_id(), at(event), stand, step));
    }

    fn wheel(self, event: &ev::WheelEvent) {
        let stand = if event.ctrl_key() { self.stand() } else { None };
        self.hear(event, |gestures| gestures.wheel(event.delta_y(), at(event), event.ctrl_key(), stand));
    }

    fn key(self, event: &ev::KeyboardEvent) {
        let with_others = event.ctrl_key() || event.meta_key() || event.alt_key();
        let (part, stand, step) = (self.part_under(event), self.stand(), self.step());
        self.hear(event, |gestures| gestures.key(&event.key(), with_others, part, stand, step));
    }

    fn zoom(self, factor: f64) {
        let stand = self.stand();
        let acts = self.gestures.try_update_value(|gestures| gestures.zoom(factor, stand));
        acts.unwrap_or_default().into_iter().for_each(|act| self.act(act));
    }

    fn whole(self) {
        if let Some(act) = self.gestures.try_update_value(Gestures::whole) {
            self.act(act);
        }
    }

    /// The drawing, seen through the window that it was seen through before it was made anew.
    fn text(self) -> String {
        let view_box = self.window.get_untracked().view_box(self.size());
        self.drawing.with(|drawing| {
            let Some(drawing) = drawing else { return String::new() };
            let whole = format!("viewBox=\"0 0 {:.0} {:.0}\"", drawing.width, drawing.height);
            drawing.svg.replacen(&whole, &format!("viewBox=\"{view_box}\""), 1)
        })
    }
}

/// The plan of the chosen piece; `face` says which way it is seen.
pub fn plan_view(desk: Desk, face: Face) -> AnyView {
    let view = View {
        desk,
        face,
        drawing: drawing_of(desk, face),
        window: RwSignal::new(Window::WHOLE),
        gestures: StoredValue::new(Gestures::default()),
        holder: NodeRef::new(),
    };
    // The drawing itself need not be made anew for another window.
    Effect::new(move |_| {
        let view_box = view.window.get().view_box(view.size());
        if let Some(svg) = view.svg() {
            let _ = svg.set_attribute("viewBox", &view_box);
        }
    });
    Effect::new(move |_| {
        desk.piece.track();
        view.whole();
    });
    let up = move |event: ev::PointerEvent| view.gestures.update_value(|gestures| gestures.up(event.pointer_id()));
    let cancel =
        move |event: ev::PointerEvent| view.gestures.update_value(|gestures| gestures.cancel(event.pointer_id()));
    let nothing = "Type what the tape says, and the plan appears here.";
    view! {
        <figure class="plan" class:zoomed=move || view.window.get().is_zoomed()>
            <div
                node_ref=view.holder
                on:pointerdown=move |event| view.down(&event)
                on:pointermove=move |event| view.moved(&event)
                on:pointerup=up
                on:pointercancel=cancel
                on:lostpointercapture=cancel
                on:wheel=move |event| view.wheel(&event)
                on:dblclick=move |_| view.whole()
                on:keydown=move |event| view.key(&event)
                inner_html=move || view.text()
            />
            <div class="zoom row" role="group" aria-label="Size of the drawing">
                <button type="button" aria-label="Larger" on:click=move |_| view.zoom(ZOOM_STEP)>"+"</button>
                <button type="button" aria-label="Smaller" on:click=move |_| view.zoom(1.0 / ZOOM_STEP)>"−"</button>
                <button type="button" on:click=move |_| view.whole()>"whole"</button>
            </div>
            {move || view.drawing.with(Option::is_none).then(|| view! { <p class="nothing">{nothing}</p> })}
        </figure>
    }
    .into_any()
}
