//! The part of a drawing that is in sight: all of it, or larger around two fingers.

use kurbo::{Point, Rect, Size, Vec2};

/// So much larger than the whole at most.
const LARGEST_ZOOM: f64 = 6.0;

/// What of a drawing is in sight, in drawing units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Window {
    /// How much larger than the whole, 1 to 6.
    pub zoom: f64,
    /// What is in its upper left corner.
    pub corner: Point,
}

impl Window {
    /// All of it.
    pub const WHOLE: Self = Self { zoom: 1.0, corner: Point::ORIGIN };

    /// It shows less than all.
    pub fn is_zoomed(&self) -> bool {
        self.zoom > 1.0
    }

    /// Larger by a factor, with what was seen in one place now in another. Places are those of the whole
    /// drawing, as it would stand in the same frame.
    #[must_use]
    pub fn taken(&self, factor: f64, from: Point, to: Point, size: Size) -> Self {
        let held = self.corner + from.to_vec2() / self.zoom;
        let wanted = self.zoom * factor;
        let zoom = if wanted.is_finite() { wanted.clamp(1.0, LARGEST_ZOOM) } else { self.zoom };
        let corner = held - to.to_vec2() / zoom;
        let hidden: Vec2 = size.to_vec2() * (1.0 - 1.0 / zoom);
        let within = |at: f64, most: f64| if at.is_finite() { at.clamp(0.0, most.max(0.0)) } else { 0.0 };
        Self { zoom, corner: Point::new(within(corner.x, hidden.x), within(corner.y, hidden.y)) }
    }

    /// What is in sight of a drawing of that size.
    pub fn seen(&self, size: Size) -> Rect {
        Rect::from_origin_size(self.corner, size / self.zoom)
    }

    /// The same, as the `viewBox` of the drawing.
    pub fn view_box(&self, size: Size) -> String {
        let Rect { x0, y0, .. } = self.seen(size);
        let Size { width, height } = size / self.zoom;
        format!("{x0:.2} {y0:.2} {width:.2} {height:.2}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SIZE: Size = Size::new(360.0, 240.0);

    /// What lies under the fingers stays under them: by hand, at twice the size around the middle a quarter
    /// of either side is out of sight.
    #[test]
    fn what_is_held_stays_under_the_fingers() {
        let middle = Point::new(180.0, 120.0);
        let twice = Window::WHOLE.taken(2.0, middle, middle, SIZE);
        assert_eq!(twice.seen(SIZE), Rect::new(90.0, 60.0, 270.0, 180.0));
        let moved = twice.taken(1.0, middle, middle + Vec2::new(20.0, -10.0), SIZE);
        assert_eq!(moved.corner, Point::new(80.0, 65.0), "20 to the right on the screen is 10 of the drawing");
        assert_eq!(twice.view_box(SIZE), "90.00 60.00 180.00 120.00");
    }

    #[test]
    fn it_stays_within_the_drawing_and_its_limits() {
        let corner = Point::new(360.0, 240.0);
        let most = Window::WHOLE.taken(50.0, corner, Point::ORIGIN, SIZE);
        assert_eq!(most.zoom, LARGEST_ZOOM);
        assert!(most.seen(SIZE).x1 <= 360.0 + 1e-9 && most.seen(SIZE).y1 <= 240.0 + 1e-9);
        assert_eq!(most.taken(0.001, corner, corner, SIZE), Window::WHOLE);
        assert_eq!(Window::WHOLE.taken(f64::NAN, corner, corner, SIZE), Window::WHOLE);
    }
}
