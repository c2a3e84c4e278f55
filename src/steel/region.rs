//! What of a piece steel may lie in, cut by level lines.
//!
//! Steel is cut with snips and laid by hand: here curves may be chords, 0.05 mm off.

use crate::plane::{Opening, Outline};
use kurbo::{Affine, BezPath, PathEl, Point, Rect};

/// How far chords may lie off the curves of a piece up to [`LARGE`], and in proportion of larger ones; metres.
const CHORD: f64 = 5e-5;
/// A large piece; metres.
const LARGE: f64 = 3.0;
/// Strips that an area is summed in beside those between corners.
const STRIPS: u32 = 128;
/// Where a strip is looked at, as a share of its height from its ends: beside the corners that bound it.
const BESIDE: f64 = 1e-9;

/// A stretch of a level line: from, to; metres.
pub(super) type Span = (f64, f64);

/// Closed chains of chords: an outline, and openings that are taken out of it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Region {
    pub(super) outer: Vec<Point>,
    pub(super) openings: Vec<Vec<Point>>,
}

/// The corners of a closed path.
pub(super) fn chords(path: &BezPath) -> Vec<Point> {
    let mut points = Vec::new();
    let size = path.control_box().size().max_side();
    kurbo::flatten(path, CHORD * (size / LARGE).max(1.0), |element| match element {
        PathEl::MoveTo(point) | PathEl::LineTo(point) => points.push(point),
        _ => {}
    });
    points
}

/// The sides of a closed chain.
pub(super) fn sides(chain: &[Point]) -> impl Iterator<Item = (Point, Point)> {
    chain.iter().zip(chain.iter().cycle().skip(1)).map(|(from, to)| (*from, *to))
}

/// The upright rectangle around a chain.
pub(super) fn bounds(chain: &[Point]) -> Rect {
    let start = chain.first().map_or(Rect::ZERO, |first| Rect::from_points(*first, *first));
    chain.iter().fold(start, |all, point| all.union_pt(*point))
}

/// Where a level line runs inside a closed chain.
fn spans_of(chain: &[Point], y: f64) -> Vec<Span> {
    let crossing = |(from, to): (Point, Point)| {
        let crosses = (from.y <= y) != (to.y <= y);
        crosses.then(|| from.x + (y - from.y) / (to.y - from.y) * (to.x - from.x))
    };
    let mut at: Vec<f64> = sides(chain).filter_map(crossing).collect();
    at.sort_by(f64::total_cmp);
    at.chunks_exact(2).map(|pair| (pair[0], pair[1])).collect()
}

/// Where a level line runs inside a chain and outside of others.
fn spans_between<'a>(outer: &[Point], openings: impl Iterator<Item = &'a Vec<Point>>, y: f64) -> Vec<Span> {
    openings.flat_map(|opening| spans_of(opening, y)).fold(spans_of(outer, y), without)
}

/// What is left of spans without a stretch.
pub(super) fn without(spans: Vec<Span>, taken: Span) -> Vec<Span> {
    let parts = |(from, to): Span| [(from, to.min(taken.0)), (from.max(taken.1), to)];
    spans.into_iter().flat_map(parts).filter(|(from, to)| to > from).collect()
}

/// What spans have in common.
pub(super) fn common(one: &[Span], other: &[Span]) -> Vec<Span> {
    let pairs = one.iter().flat_map(|one| other.iter().map(move |other| (one.0.max(other.0), one.1.min(other.1))));
    pairs.filter(|(from, to)| to > from).collect()
}

impl Region {
    pub(super) fn of(outline: &Outline, openings: &[Opening]) -> Self {
        Self {
            outer: chords(&outline.path()),
            openings: openings.iter().map(|opening| chords(&opening.path())).collect(),
        }
    }

    pub(super) fn moved(&self, by: Affine) -> Self {
        let moved = |chain: &Vec<Point>| chain.iter().map(|point| by * *point).collect();
        Self { outer: moved(&self.outer), openings: self.openings.iter().map(moved).collect() }
    }

    /// Where a level line runs inside, from left to right.
    pub(super) fn spans(&self, y: f64) -> Vec<Span> {
        spans_between(&self.outer, self.openings.iter(), y)
    }

    /// The levels at which a corner lies, with the two given ones.
    fn levels<'a>(chains: impl Iterator<Item = &'a Vec<Point>>, from: f64, to: f64) -> Vec<f64> {
        let corners = chains.flatten().map(|point| point.y).filter(|y| *y > from && *y < to);
        let mut levels: Vec<f64> = corners.chain([from, to]).collect();
        levels.sort_by(f64::total_cmp);
        levels.dedup();
        levels
    }

    /// The area inside a rectangle, square metres; exact where all sides are straight and no two cross.
    pub(super) fn area_in(&self, rect: Rect) -> f64 {
        let meets = |opening: &&Vec<Point>| {
            let common = bounds(opening).intersect(rect);
            common.width() > 0.0 && common.height() > 0.0
        };
        let openings: Vec<&Vec<Point>> = self.openings.iter().filter(meets).collect();
        let chains = std::iter::once(&self.outer).chain(openings.iter().copied());
        let mut levels = Self::levels(chains, rect.y0, rect.y1);
        // Where sides cross, strips have a kink: narrow ones do not miss much.
        levels.extend((1..STRIPS).map(|part| rect.y0 + rect.height() * f64::from(part) / f64::from(STRIPS)));
        levels.sort_by(f64::total_cmp);
        let strips = levels.iter().zip(levels.iter().skip(1));
        strips
            .map(|(below, above)| {
                let middle = f64::midpoint(*below, *above);
                let spans = spans_between(&self.outer, openings.iter().copied(), middle);
                let spans = common(&spans, &[(rect.x0, rect.x1)]);
                (above - below) * spans.iter().map(|(from, to)| to - from).sum::<f64>()
            })
            .sum()
    }

    /// How far the outline, openings left aside, reaches from left to right between two levels: a stretch for
    /// each part that hangs together there.
    pub(super) fn reaches(&self, from: f64, to: f64) -> Vec<Span> {
        let levels = Self::levels(std::iter::once(&self.outer), from, to);
        let mut found: Vec<Span> = Vec::new();
        for (below, above) in levels.iter().zip(levels.iter().skip(1)) {
            let beside = (above - below) * BESIDE;
            // Between two levels all sides are straight: they reach furthest at one of them.
            let (low, high) = (spans_of(&self.outer, below + beside), spans_of(&self.outer, above - beside));
            found.extend(low.iter().zip(&high).map(|(low, high)| (low.0.min(high.0), low.1.max(high.1))));
        }
        joined(found)
    }
}

/// Stretches that overlap or touch, made one.
fn joined(mut spans: Vec<Span>) -> Vec<Span> {
    spans.sort_by(|one, other| one.0.total_cmp(&other.0));
    let mut joined: Vec<Span> = Vec::new();
    for span in spans {
        match joined.last_mut() {
            Some(last) if span.0 <= last.1 + CHORD => last.1 = last.1.max(span.1),
            _ => joined.push(span),
        }
    }
    joined
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    /// Worked by hand: a U of 3 by 2 with legs of 0.5 and a front of 0.6, and a circle that reaches over its edge.
    #[test]
    fn spans_reaches_and_areas() {
        let u = Outline::u_shape(3.0, 2.0, 2.0, 0.5, 0.5, 0.6).expect("a U");
        let hole = Opening::circle(Point::new(1.5, 0.0), 0.4).expect("a circle");
        let region = Region::of(&u, &[hole]);
        assert_eq!(region.spans(1.0), [(0.0, 0.5), (2.5, 3.0)]);
        assert_eq!(region.spans(0.3), [(0.0, 3.0)]);
        assert_eq!(region.reaches(0.0, 0.5), [(0.0, 3.0)]);
        assert_eq!(region.reaches(1.0, 2.0), [(0.0, 0.5), (2.5, 3.0)]);
        assert_eq!(region.reaches(0.5, 0.7), [(0.0, 3.0)]);
        let all = region.area_in(Rect::new(-1.0, -1.0, 4.0, 3.0));
        let expected = 3.0 * 0.6 + 2.0 * 0.5 * 1.4 - PI * 0.04 / 2.0;
        assert!((all - expected).abs() < 1e-4, "{all} is not {expected}");
        let leg = region.area_in(Rect::new(0.0, 0.6, 1.0, 1.6));
        assert!((leg - 0.5).abs() < 1e-12, "{leg}");
    }
}
