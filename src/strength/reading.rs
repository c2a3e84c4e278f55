//! What is read from a solved plate, by a rule that does not depend on the mesh.
//!
//! At a sharp corner, a point load or a point support the stress of a thin plate grows without end as the mesh
//! gets finer, so that no bare peak is ever told. What is told is the mean over one thickness along the way that
//! a crack would take from there; it stands still under refinement, also at sharp corners. Beside it stands the
//! mean over the whole strip that a straight cut runs through. That a mean over some length decides and not the
//! peak is Taylor's theory of critical distances; that one thickness is that length is judgement.

use super::cut::{Along, Beam, Span};
use super::plate::{Moments, Plate};
use super::sorted::order_of;
use kurbo::{Point, Vec2};
use serde::{Deserialize, Serialize};

/// A face of a top.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Face {
    /// The one that is seen.
    Top,
    /// The one below.
    Underside,
}

/// Where the largest tension is, and how large.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// Where; metres.
    pub at: Point,
    /// On which face.
    pub face: Face,
    /// The way the concrete is pulled, of length one.
    pub pull: Vec2,
    /// The mean over one thickness; pascals.
    pub mean: f64,
    /// The mean over the strip that a straight cut runs through there; pascals.
    pub strip: f64,
    /// That strip, across the beam that runs along `along`.
    pub span: Span,
    /// Which way the strip runs.
    pub along: Along,
}

/// Places at which the mean over one thickness is looked at, at most: those of the largest stress first.
const MOST_PLACES: usize = 400;
/// Steps along one thickness.
const STEPS: u32 = 8;
/// Steps along a strip.
const STRIP_STEPS: u32 = 48;

/// The larger and the smaller principal moment, and the direction of the larger.
fn principal([x, y, xy]: Moments) -> (f64, f64, Vec2) {
    let (middle, half) = (f64::midpoint(x, y), (x - y) / 2.0);
    let radius = half.hypot(xy);
    (middle + radius, middle - radius, Vec2::from_angle(xy.atan2(half) / 2.0))
}

/// A solved plate, ready to be read.
pub struct Reading<'a> {
    plate: &'a Plate,
    moments: &'a [Moments],
    thickness: f64,
}

impl<'a> Reading<'a> {
    /// The reading of these moments at the nodes of a plate of that thickness, metres.
    pub fn new(plate: &'a Plate, moments: &'a [Moments], thickness: f64) -> Self {
        Self { plate, moments, thickness }
    }

    /// Tension at a face, largest first over all directions, and its direction; negative in compression.
    fn tension(&self, moments: Moments, face: Face) -> (f64, Vec2) {
        let (larger, smaller, direction) = principal(moments);
        let factor = 6.0 / (self.thickness * self.thickness);
        match face {
            Face::Underside => (factor * larger, direction),
            Face::Top => (-factor * smaller, Vec2::new(-direction.y, direction.x)),
        }
    }

    /// The largest tension at every node of a face, pascals; nothing where it is pressed.
    pub fn tensions(&self, face: Face) -> Vec<f64> {
        self.moments.iter().map(|moments| self.tension(*moments, face).0.max(0.0)).collect()
    }

    /// The place that is worst by the mean over one thickness; nothing if nothing is pulled anywhere.
    pub fn worst(&self, loops: &[Vec<Point>]) -> Option<Place> {
        let count = self.moments.len();
        let tensions = [self.tensions(Face::Underside), self.tensions(Face::Top)].concat();
        let order = order_of(tensions.iter().map(|tension| -tension));
        let mut best: Option<(f64, Point, Face, Vec2)> = None;
        for index in order.into_iter().take(MOST_PLACES) {
            let (tension, node) = (tensions[index], index % count);
            let face = if index < count { Face::Underside } else { Face::Top };
            // A mean is hardly ever more than the peak it starts from.
            if tension <= 0.0 || best.is_some_and(|best| tension <= best.0) {
                break;
            }
            let (Some(at), Some(moments)) = (self.plate.mesh().nodes.get(node), self.moments.get(node)) else {
                continue;
            };
            let pull = self.tension(*moments, face).1;
            let mean = self.mean(*at, pull, face);
            if best.is_none_or(|best| mean > best.0) {
                best = Some((mean, *at, face, pull));
            }
        }
        let (mean, at, face, pull) = best?;
        let (along, span, strip) = self.strip(loops, at, pull, face)?;
        Some(Place { at, face, pull, mean, strip, span, along })
    }

    /// The mean of the largest tension over one thickness across the pull: half of it to either side, or, where a
    /// boundary is nearer than that, from the boundary into the solid. Taken amid each step, so that a peak at the
    /// very end does not count.
    fn mean(&self, at: Point, pull: Vec2, face: Face) -> f64 {
        let step = self.thickness / f64::from(STEPS) * Vec2::new(-pull.y, pull.x);
        let walk = |way: f64| -> Vec<f64> {
            let places = (0..STEPS).map(|k| at + way * (f64::from(k) + 0.5) * step);
            let moments = places.map_while(|place| self.plate.moments_at(self.moments, place));
            moments.map(|moments| self.tension(moments, face).0).collect()
        };
        let (back, ahead) = (walk(-1.0), walk(1.0));
        let (half, whole) = (STEPS as usize / 2, STEPS as usize);
        let taken = back.len().min(half.max(whole.saturating_sub(ahead.len())));
        let tensions = back.iter().take(taken).chain(ahead.iter().take(whole - taken));
        let (sum, count) = tensions.fold((0.0, 0.0), |(sum, count), tension| (sum + tension, count + 1.0));
        if count > 0.0 { sum / count } else { 0.0 }
    }

    /// The strip across the pull that a straight cut runs through at a place, and the mean tension over it.
    fn strip(&self, loops: &[Vec<Point>], at: Point, pull: Vec2, face: Face) -> Option<(Along, Span, f64)> {
        let along = if pull.x.abs() >= pull.y.abs() { Along::X } else { Along::Y };
        let beam = Beam::new(loops.to_vec(), along);
        let (place, across) = along.split(at);
        // A cut along the side of an opening would run neither in it nor beside it: one just to either side, and
        // the narrower strip counts.
        let little = self.thickness / 100.0;
        let mut best: Option<(f64, Span)> = None;
        for place in [place - little, place + little] {
            for span in beam.spans(place) {
                let reaches = (span.from - 4.0 * little..=span.to + 4.0 * little).contains(&across);
                if reaches && best.is_none_or(|best| span.width() < best.1.width()) {
                    best = Some((place, span));
                }
            }
        }
        let (place, span) = best?;
        let sign = if face == Face::Underside { 1.0 } else { -1.0 };
        let own = usize::from(along == Along::Y);
        let points = (0..STRIP_STEPS).map(|k| {
            let share = (f64::from(k) + 0.5) / f64::from(STRIP_STEPS);
            along.join(place, span.from + share * span.width())
        });
        let moments: Vec<f64> =
            points.filter_map(|point| self.plate.moments_at(self.moments, point)).map(|moments| moments[own]).collect();
        let mean = moments.iter().sum::<f64>() / moments.len().max(1) as f64;
        Some((along, span, sign * 6.0 * mean / (self.thickness * self.thickness)))
    }
}
