//! The panel that the face is cast on.

use crate::job::SideStand;
use crate::measure::Length;
use crate::plane::Outline;
use kurbo::{Point, Rect, Vec2};
use uom::si::length::meter;

/// A corner of the panel, to be marked out on its blank.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PanelCorner {
    /// From the left end of the blank. As the form is seen, face down: what is left here is right in the top.
    pub from_left: Length,
    /// From the front of the blank.
    pub from_front: Length,
    /// Radius of the arc from here to the next corner; nothing where the cut is straight.
    pub radius: Option<Length>,
}

/// From one corner of the panel straight to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Diagonal {
    /// The corners, by their index.
    pub between: [usize; 2],
    /// How far they are apart.
    pub length: Length,
}

/// The base panel.
#[derive(Clone, Debug, PartialEq)]
pub struct BasePanel {
    /// Its outline, in the frame of the clear outline: not mirrored.
    pub outline: Outline,
    /// The rectangle to cut first: left to right, and front to back.
    pub blank: [Length; 2],
    /// From corner to corner of the blank: both ways alike if it is square.
    pub blank_diagonal: Length,
    /// It is cut to shape out of its blank: it is no rectangle.
    pub shaped: bool,
    /// Its corners, in the order of its outline's edges.
    pub corners: Vec<PanelCorner>,
    /// Distances that its corners must have. They fix its shape.
    pub diagonals: Vec<Diagonal>,
}

impl BasePanel {
    /// The panel under that clear outline.
    ///
    /// Sides on its edge leave it as large as the clear outline. Sides that stand on it take their outside
    /// faces with them; where these leave no outline, it stays the rectangle that holds them all.
    pub(super) fn of(clear: &Outline, board: Length, stand: SideStand) -> Self {
        let outline = match stand {
            SideStand::OnEdge => clear.clone(),
            SideStand::OnBase => under_the_sides(clear, board.get::<meter>()),
        };
        let bounds = outline.bounds();
        let metres = Length::new::<meter>;
        let edges = outline.edges();
        let corner = |edge: &crate::plane::Edge| {
            let at = in_the_form(bounds, edge.start());
            PanelCorner { from_left: metres(at.x), from_front: metres(at.y), radius: edge.radius().map(metres) }
        };
        let shaped = outline.area() < bounds.area() * (1.0 - 1e-9);
        Self {
            blank: [metres(bounds.width()), metres(bounds.height())],
            blank_diagonal: metres(Vec2::new(bounds.width(), bounds.height()).hypot()),
            shaped,
            corners: edges.iter().map(corner).collect(),
            diagonals: diagonals(&outline),
            outline,
        }
    }
}

fn under_the_sides(clear: &Outline, board: f64) -> Outline {
    clear.offset_all(board).unwrap_or_else(|_| {
        let bounds = clear.bounds().inflate(board, board);
        rectangle(bounds).unwrap_or_else(|| clear.clone())
    })
}

fn rectangle(bounds: Rect) -> Option<Outline> {
    let outline = Outline::rectangle(bounds.width(), bounds.height()).ok()?;
    Some(outline.translated(bounds.origin().to_vec2()))
}

/// Of four corners both diagonals; of more, all that start at the first, and the one across the second, to
/// check by.
fn diagonals(outline: &Outline) -> Vec<Diagonal> {
    let corners: Vec<_> = outline.edges().iter().map(|edge| edge.start()).collect();
    let last = corners.len().saturating_sub(1);
    let fan = (2..last).map(|other| [0, other]);
    let across = (corners.len() > 3).then_some([1, 3]);
    fan.chain(across)
        .filter_map(|between| {
            let (one, other) = (corners.get(between[0])?, corners.get(between[1])?);
            Some(Diagonal { between, length: Length::new::<meter>((*other - *one).hypot()) })
        })
        .collect()
}

/// How far a point lies from the left front corner of a panel, as the form is seen: face down, left and right
/// changed over.
fn in_the_form(bounds: Rect, point: Point) -> Vec2 {
    Vec2::new(bounds.x1 - point.x, point.y - bounds.y0)
}
