//! What fingers, a wheel and keys ask of a drawing: a part of it chosen or moved, and how large it is seen.
//!
//! It knows no browser. Whoever shows the drawing says what happened and carries out the [`Act`]s that follow.
//! Coordinates on the screen are CSS pixels, to the right and down; those of a part are metres, to the right and up.

use super::{Selection, Window};
use kurbo::{Point, Size, Vec2};

/// One press of a key or a button makes the drawing so much larger.
pub const ZOOM_STEP: f64 = 1.5;

/// So far the wheel turns for the drawing to be e times as large, in CSS pixels.
const WHEEL: f64 = 300.0;

/// What is to be done.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Act {
    /// That part is chosen.
    Select(Selection),
    /// The centre of that part goes there, in metres.
    Move(Selection, Point),
    /// The drawing is seen through that window.
    See(Window),
    /// That pointer stays with the drawing, even when what it touched is drawn anew.
    Hold(i32),
    /// The browser is not to do what it would do by itself, as scrolling.
    Keep,
    /// The focus goes back to that part once it is drawn anew.
    Focus(Selection),
}

/// How the whole drawing stands on the screen, however much of it is in sight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stand {
    /// CSS pixels a unit of the drawing; more than 0.
    pub pixels: f64,
    /// The pixel of its upper left corner.
    pub corner: Point,
    /// Its size, in its units.
    pub size: Size,
    /// Units of the drawing a metre; more than 0.
    pub scale: f64,
}

/// A part that was touched, or has the focus.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// Which.
    pub which: Selection,
    /// It can be chosen here.
    pub can_be_chosen: bool,
    /// Its centre in metres, where it can be moved here.
    pub centre: Option<Point>,
}

/// What is being moved.
#[derive(Clone, Copy, Debug)]
struct Drag {
    part: Selection,
    /// Where the finger went down.
    from: Point,
    /// Where the centre was then, in metres.
    centre: Point,
}

/// What is going on: which fingers are down, what they move, how large the drawing is seen. At most one part is moved at
/// a time, and none while several fingers are down.
#[derive(Clone, Debug)]
pub struct Gestures {
    fingers: Vec<(i32, Point)>,
    drag: Option<Drag>,
    window: Window,
}

impl Default for Gestures {
    fn default() -> Self {
        Self { fingers: Vec::new(), drag: None, window: Window::WHOLE }
    }
}

impl Gestures {
    /// A pointer goes down at `at` on `part`; `is_finger` where it is one, and no mouse.
    pub fn down(&mut self, pointer: i32, at: Point, is_finger: bool, part: Option<Part>) -> Vec<Act> {
        self.fingers.retain(|(id, _)| *id != pointer);
        self.fingers.push((pointer, at));
        let several = self.fingers.len() > 1;
        let zooms = several || self.window.is_zoomed();
        let mut acts = Vec::new();
        if zooms {
            acts.push(Act::Keep);
        }
        if zooms || is_finger {
            acts.push(Act::Hold(pointer));
        }
        if several {
            self.drag = None;
            return acts;
        }
        if let Some(part) = part.filter(|part| part.can_be_chosen) {
            acts.push(Act::Select(part.which));
            if let Some(centre) = part.centre {
                self.drag = Some(Drag { part: part.which, from: at, centre });
                acts.extend([Act::Keep, Act::Hold(pointer)]);
            }
        }
        acts
    }

    /// No pointer is down.
    pub fn is_idle(&self) -> bool {
        self.fingers.is_empty()
    }

    /// A pointer moves to `at`. A part follows it once it is half a `step` of the tape from where it went down, in
    /// metres: a finger trembles, and a touch is not a move.
    pub fn moved(&mut self, pointer: i32, at: Point, stand: Option<Stand>, step: f64) -> Vec<Act> {
        let before = self.fingers.clone();
        if let Some(finger) = self.fingers.iter_mut().find(|(id, _)| *id == pointer) {
            finger.1 = at;
        }
        match (before.as_slice(), self.fingers.as_slice()) {
            ([(_, a), (_, b)], [(_, c), (_, d)]) => {
                let apart = (*b - *a).hypot();
                let (factor, from, to) = ((*d - *c).hypot() / apart, a.midpoint(*b), c.midpoint(*d));
                if apart > 0.0 { self.take(factor, from, to, stand) } else { Vec::new() }
            }
            ([(_, a)], [(_, b)]) if self.drag.is_none() => {
                let (from, to) = (*a, *b);
                if self.window.is_zoomed() { self.take(1.0, from, to, stand) } else { Vec::new() }
            }
            _ => self.dragged(at, stand, step).into_iter().collect(),
        }
    }

    fn dragged(&self, at: Point, stand: Option<Stand>, step: f64) -> Option<Act> {
        let (drag, stand) = (self.drag?, stand?);
        let moved = (at - drag.from) / (stand.scale * stand.pixels * self.window.zoom);
        (moved.hypot() > step / 2.0).then(|| Act::Move(drag.part, drag.centre + Vec2::new(moved.x, -moved.y)))
    }

    /// A pointer goes up: what it moved stays where it is.
    pub fn up(&mut self, pointer: i32) {
        self.drag = None;
        self.fingers.retain(|(id, _)| *id != pointer);
    }

    /// The browser takes a pointer away, as for a gesture of its own: what it moved stays where it is by then.
    pub fn cancel(&mut self, pointer: i32) {
        self.up(pointer);
    }

    /// The wheel turns by `turn` CSS pixels down over `at`. With the control key, as when two fingers pinch on a pad, the
    /// drawing grows and shrinks about that place; without, the page scrolls.
    pub fn wheel(&mut self, turn: f64, at: Point, with_control: bool, stand: Option<Stand>) -> Vec<Act> {
        if !with_control {
            return Vec::new();
        }
        let mut acts = vec![Act::Keep];
        acts.extend(self.take((-turn / WHEEL).exp(), at, at, stand));
        acts
    }

    /// A key is pressed, named as browsers do, while `part` has the focus: arrows move it by a `step` of the tape in
    /// metres. `with_others` where a key for shortcuts is held: then it is none of ours to zoom by.
    pub fn key(
        &mut self,
        key: &str,
        with_others: bool,
        part: Option<Part>,
        stand: Option<Stand>,
        step: f64,
    ) -> Vec<Act> {
        match key {
            _ if with_others => {}
            "+" | "=" => return self.zoom(ZOOM_STEP, stand),
            "-" | "−" => return self.zoom(1.0 / ZOOM_STEP, stand),
            "0" => return vec![self.whole()],
            _ => {}
        }
        let by = match key {
            "Enter" | " " => None,
            "ArrowLeft" => Some(Vec2::new(-step, 0.0)),
            "ArrowRight" => Some(Vec2::new(step, 0.0)),
            "ArrowUp" => Some(Vec2::new(0.0, step)),
            "ArrowDown" => Some(Vec2::new(0.0, -step)),
            _ => return Vec::new(),
        };
        let Some(part) = part else { return Vec::new() };
        let mut acts = vec![Act::Keep];
        if part.can_be_chosen {
            acts.push(Act::Select(part.which));
        }
        acts.extend(part.centre.zip(by).map(|(centre, by)| Act::Move(part.which, centre + by)));
        acts.push(Act::Focus(part.which));
        acts
    }

    /// The drawing is seen so many times as large, about its middle; smaller below 1.
    pub fn zoom(&mut self, factor: f64, stand: Option<Stand>) -> Vec<Act> {
        let Some(stand) = stand else { return Vec::new() };
        let middle = stand.corner + stand.size.to_vec2() / 2.0 * stand.pixels;
        self.take(factor, middle, middle, Some(stand))
    }

    /// All of the drawing is seen.
    pub fn whole(&mut self) -> Act {
        self.window = Window::WHOLE;
        Act::See(self.window)
    }

    /// What was seen at `from` is seen at `to`, so many times as large.
    fn take(&mut self, factor: f64, from: Point, to: Point, stand: Option<Stand>) -> Vec<Act> {
        let Some(stand) = stand else { return Vec::new() };
        let place = |at: Point| ((at - stand.corner) / stand.pixels).to_point();
        self.window = self.window.taken(factor, place(from), place(to), stand.size);
        vec![Act::See(self.window)]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A drawing of 400 by 200 units, each half a pixel, in the corner of the screen at 10, 20; 100 units are a metre.
    const STAND: Stand =
        Stand { pixels: 0.5, corner: Point::new(10.0, 20.0), size: Size::new(400.0, 200.0), scale: 100.0 };
    /// A step of the tape, in metres.
    const STEP: f64 = 0.02;
    const SINK: Selection = Selection::Cutout(0);
    const CENTRE: Point = Point::new(1.0, 0.5);

    fn sink() -> Option<Part> {
        Some(Part { which: SINK, can_be_chosen: true, centre: Some(CENTRE) })
    }

    /// A side of the outline: chosen, and never moved.
    fn side() -> Option<Part> {
        Some(Part { which: Selection::Edge(1), can_be_chosen: true, centre: None })
    }

    /// What of the drawing is under a place on the screen.
    fn under(window: Window, at: Point) -> Point {
        window.corner + (at - STAND.corner) / STAND.pixels / window.zoom
    }

    fn seen(acts: &[Act]) -> Window {
        match acts {
            [Act::See(window)] => *window,
            other => panic!("one window is shown: {other:?}"),
        }
    }

    fn is_near(a: Point, b: Point) -> bool {
        (a - b).hypot() < 1e-9
    }

    #[test]
    fn a_tap_chooses_and_moves_nothing() {
        let mut gestures = Gestures::default();
        let at = Point::new(60.0, 70.0);
        assert!(gestures.is_idle());
        let acts = gestures.down(1, at, true, side());
        assert_eq!(acts, [Act::Hold(1), Act::Select(Selection::Edge(1))]);
        assert!(!gestures.is_idle());
        assert_eq!(gestures.moved(1, at + Vec2::new(40.0, 0.0), Some(STAND), STEP), [], "a side stays where it is");
        gestures.up(1);
        assert!(gestures.is_idle());
        // A mouse on nothing leaves the browser to itself.
        assert_eq!(gestures.down(1, at, false, None), []);
    }

    #[test]
    fn a_part_that_cannot_be_chosen_here_is_left_alone() {
        let mut gestures = Gestures::default();
        let board = Some(Part { can_be_chosen: false, ..sink().expect("a part") });
        assert_eq!(gestures.down(1, Point::ORIGIN, false, board), []);
        assert_eq!(gestures.moved(1, Point::new(99.0, 0.0), Some(STAND), STEP), []);
    }

    /// 50 pixels are a metre: half a step of 2 cm is half a pixel.
    #[test]
    fn a_part_follows_once_the_finger_is_half_a_step_away() {
        let mut gestures = Gestures::default();
        let from = Point::new(60.0, 70.0);
        let acts = gestures.down(1, from, false, sink());
        assert_eq!(acts, [Act::Select(SINK), Act::Keep, Act::Hold(1)]);
        assert_eq!(gestures.moved(1, from + Vec2::new(0.4, 0.0), Some(STAND), STEP), [], "it trembles");
        let moved = gestures.moved(1, from + Vec2::new(50.0, 25.0), Some(STAND), STEP);
        assert_eq!(moved, [Act::Move(SINK, Point::new(2.0, 0.0))], "down on the screen is to the front");
        // Back to where it went down is no move either; the last place counts until then.
        assert_eq!(gestures.moved(1, from, Some(STAND), STEP), []);
        assert_eq!(gestures.moved(1, from + Vec2::new(50.0, 0.0), None, STEP), [], "nothing is shown to move it on");
        gestures.up(1);
        assert_eq!(gestures.moved(1, from + Vec2::new(50.0, 25.0), Some(STAND), STEP), [], "nothing is held");
    }

    #[test]
    fn a_part_of_a_larger_drawing_moves_by_less() {
        let mut gestures = Gestures::default();
        seen(&gestures.zoom(2.0, Some(STAND)));
        let from = Point::new(60.0, 70.0);
        gestures.down(1, from, true, sink());
        let moved = gestures.moved(1, from + Vec2::new(50.0, 0.0), Some(STAND), STEP);
        assert_eq!(moved, [Act::Move(SINK, Point::new(1.5, 0.5))], "half a metre, and the drawing stays");
    }

    /// Fingers 100 pixels apart go to 200 about another middle.
    #[test]
    fn a_pinch_keeps_what_is_between_the_fingers() {
        let mut gestures = Gestures::default();
        gestures.down(1, Point::new(60.0, 70.0), true, None);
        assert_eq!(gestures.down(2, Point::new(160.0, 70.0), true, None), [Act::Keep, Act::Hold(2)]);
        let held = under(Window::WHOLE, Point::new(110.0, 70.0));
        seen(&gestures.moved(1, Point::new(30.0, 70.0), Some(STAND), STEP));
        let window = seen(&gestures.moved(2, Point::new(230.0, 70.0), Some(STAND), STEP));
        assert!((window.zoom - 2.0).abs() < 1e-9, "{window:?}");
        assert!(is_near(under(window, Point::new(130.0, 70.0)), held), "{window:?}");
        // Fingers on one place say nothing of how large.
        let mut gestures = Gestures::default();
        gestures.down(1, Point::ORIGIN, true, None);
        gestures.down(2, Point::ORIGIN, true, None);
        assert_eq!(gestures.moved(2, Point::new(50.0, 0.0), Some(STAND), STEP), []);
    }

    #[test]
    fn a_second_finger_lets_go_of_the_part_for_good() {
        let mut gestures = Gestures::default();
        let from = Point::new(60.0, 70.0);
        gestures.down(1, from, true, sink());
        gestures.down(2, Point::new(160.0, 70.0), true, sink());
        let window = seen(&gestures.moved(2, Point::new(260.0, 70.0), Some(STAND), STEP));
        assert!((window.zoom - 2.0).abs() < 1e-9, "{window:?}");
        gestures.up(2);
        // The one that is left takes the drawing along.
        let held = under(window, from);
        let to = from + Vec2::new(-20.0, 5.0);
        let panned = seen(&gestures.moved(1, to, Some(STAND), STEP));
        assert_eq!(panned.zoom, window.zoom);
        assert!(is_near(under(panned, to), held), "{panned:?}");
        gestures.up(1);
        assert_eq!(gestures.moved(1, from, Some(STAND), STEP), [], "no finger is down");
    }

    #[test]
    fn a_whole_drawing_is_not_taken_along_by_one_finger() {
        let mut gestures = Gestures::default();
        gestures.down(1, Point::new(60.0, 70.0), true, None);
        assert_eq!(gestures.moved(1, Point::new(90.0, 70.0), Some(STAND), STEP), []);
    }

    #[test]
    fn what_is_cancelled_in_the_middle_stays_where_it_is() {
        let mut gestures = Gestures::default();
        let from = Point::new(60.0, 70.0);
        gestures.down(1, from, true, sink());
        assert_eq!(gestures.moved(1, from + Vec2::new(50.0, 0.0), Some(STAND), STEP).len(), 1);
        gestures.cancel(1);
        assert_eq!(gestures.moved(1, from + Vec2::new(90.0, 0.0), Some(STAND), STEP), []);
        // The next touch begins anew, with one finger.
        assert_eq!(gestures.down(1, from, true, sink()), [Act::Hold(1), Act::Select(SINK), Act::Keep, Act::Hold(1)]);
        // The same pointer may go down again without having gone up where anybody saw it.
        assert_eq!(gestures.down(1, from, true, side()), [Act::Hold(1), Act::Select(Selection::Edge(1))]);
    }

    #[test]
    fn the_wheel_zooms_with_the_control_key_alone() {
        let mut gestures = Gestures::default();
        let at = Point::new(110.0, 70.0);
        assert_eq!(gestures.wheel(-300.0, at, false, Some(STAND)), []);
        let acts = gestures.wheel(-300.0, at, true, Some(STAND));
        let (first, rest) = acts.split_first().expect("acts");
        let window = seen(rest);
        assert_eq!(*first, Act::Keep);
        assert!((window.zoom - std::f64::consts::E).abs() < 1e-9, "{window:?}");
        assert!(is_near(under(window, at), under(Window::WHOLE, at)), "{window:?}");
        assert_eq!(gestures.wheel(1e9, at, true, Some(STAND)), [Act::Keep, Act::See(Window::WHOLE)]);
        assert_eq!(gestures.wheel(1.0, at, true, None), [Act::Keep], "nothing is shown");
    }

    #[test]
    fn arrows_move_the_part_that_has_the_focus_by_a_step() {
        let mut gestures = Gestures::default();
        for (key, x, y) in
            [("ArrowLeft", 0.98, 0.5), ("ArrowRight", 1.02, 0.5), ("ArrowUp", 1.0, 0.52), ("ArrowDown", 1.0, 0.48)]
        {
            let acts = gestures.key(key, false, sink(), Some(STAND), STEP);
            assert_eq!(
                acts,
                [Act::Keep, Act::Select(SINK), Act::Move(SINK, Point::new(x, y)), Act::Focus(SINK)],
                "{key}"
            );
        }
        let chosen = [Act::Keep, Act::Select(Selection::Edge(1)), Act::Focus(Selection::Edge(1))];
        for key in ["Enter", " ", "ArrowUp"] {
            assert_eq!(gestures.key(key, false, side(), Some(STAND), STEP), chosen, "{key}");
        }
        assert_eq!(gestures.key("ArrowUp", false, None, Some(STAND), STEP), [], "the page scrolls");
        assert_eq!(gestures.key("a", false, sink(), Some(STAND), STEP), []);
    }

    #[test]
    fn keys_zoom_about_the_middle() {
        let mut gestures = Gestures::default();
        let window = seen(&gestures.key("+", false, None, Some(STAND), STEP));
        assert_eq!(window.zoom, ZOOM_STEP);
        let middle = Point::new(110.0, 70.0);
        assert!(is_near(under(window, middle), Point::new(200.0, 100.0)), "{window:?}");
        assert_eq!(gestures.key("+", true, None, Some(STAND), STEP), [], "that is the browser's own");
        assert_eq!(gestures.key("-", false, sink(), Some(STAND), STEP), [Act::See(Window::WHOLE)]);
        seen(&gestures.key("=", false, None, Some(STAND), STEP));
        assert_eq!(gestures.key("0", false, None, None, STEP), [Act::See(Window::WHOLE)]);
    }

    #[test]
    fn a_tap_on_the_part_that_is_chosen_already_chooses_it_again() {
        let mut gestures = Gestures::default();
        let at = Point::new(60.0, 70.0);
        for _ in 0..2 {
            let acts = gestures.down(1, at, true, sink());
            assert_eq!(acts, [Act::Hold(1), Act::Select(SINK), Act::Keep, Act::Hold(1)]);
            gestures.up(1);
        }
    }
}
