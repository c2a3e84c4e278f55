//! An outline moved in, as far as steel stays off its edges.

use crate::plane::{Edge, EdgeTag, LEAST_EDGE, OffsetError, Outline};
use kurbo::Point;

/// The outline with every edge moved in by that distance, metres. A rounded or clipped corner that is smaller
/// than that is sharp further in.
pub(super) fn inset(outline: &Outline, by: f64) -> Result<Outline, OffsetError> {
    let mut outline = outline.clone();
    let closes = |edge: &Edge| {
        matches!(edge.tag(), EdgeTag::Corner(..))
            && !edge.is_inward()
            && edge.radius().is_some_and(|r| r < by + LEAST_EDGE)
    };
    let rounded = |outline: &Outline| outline.edges().iter().position(closes);
    while let Some(sharp) = rounded(&outline).and_then(|edge| sharpened(&outline, edge)) {
        outline = sharp;
    }
    // Every round takes an edge away.
    loop {
        match outline.offset_all(-by) {
            Ok(moved) => return Ok(moved),
            Err(error) => outline = sharpened(&outline, error.edge).ok_or(error)?,
        }
    }
}

/// The outline with a corner's own edge left out, its straight neighbours run on until they meet.
fn sharpened(outline: &Outline, edge: usize) -> Option<Outline> {
    let edges = outline.edges();
    let (before, after) = (edges.get(outline.before(edge))?, edges.get(outline.after(edge))?);
    let is_corner = matches!(edges.get(edge)?.tag(), EdgeTag::Corner(..) | EdgeTag::Clip(..));
    if !is_corner || !before.is_straight() || !after.is_straight() || edges.len() < 4 {
        return None;
    }
    let meet = meeting(before, after)?;
    let mut vertices = outline.vertices();
    vertices.get_mut(outline.after(edge))?.at = meet;
    vertices.remove(edge);
    Outline::new(&vertices).ok()
}

/// Where two straight edges meet when they are run on.
fn meeting(one: &Edge, other: &Edge) -> Option<Point> {
    let turn = one.chord().cross(other.chord());
    let along = (other.start() - one.start()).cross(other.chord()) / turn;
    let meet = one.start() + along * one.chord();
    (turn != 0.0 && meet.is_finite()).then_some(meet)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plane::Outline;

    /// Corners rounded by less than it is moved in are sharp inside, those rounded by more are not; a clip
    /// that is swallowed too.
    #[test]
    fn small_corners_become_sharp() {
        let plain = Outline::rectangle(2.0, 1.0).expect("a rectangle");
        let rounded = Outline::rounded_rectangle(2.0, 1.0, 0.02).expect("it has room");
        let clipped = plain.clipped(0, 0.03, 0.03).expect("it has room");
        for outline in [&plain, &rounded, &clipped] {
            let inside = inset(outline, 0.06).expect("it has room");
            assert_eq!(inside.edges().len(), 4);
            assert!((inside.area() - 1.88 * 0.88).abs() < 1e-12, "{}", inside.area());
        }
        let wide = Outline::rounded_rectangle(2.0, 1.0, 0.2).expect("it has room");
        assert_eq!(inset(&wide, 0.06).expect("it has room").edges().len(), 8);
        assert!(inset(&plain, 0.51).is_err());
    }
}
