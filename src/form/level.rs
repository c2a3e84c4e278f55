//! What a form that is out of level does to the piece.
//!
//! A mix that flows finds its own level and runs over the lowest rim first: there the piece is as thick as
//! the sides are high, and everywhere else thinner by what the form lies higher. That is what is worked out.
//! A stiff mix that is struck off along the sides stays as thick as they are high, tilted as the form is, and
//! takes the full volume.

use super::{Form, TiltInputs};
use crate::job::{Hand, LowSide};
use crate::measure::{Length, Volume};
use crate::plane::Outline;
use crate::top::Top;
use crate::working::{Figure, Known, Named, Source, known_ref, together};
use kurbo::{Point, Rect};
use uom::si::length::meter;

/// A piece cast of a flowing mix in a form that is out of level.
#[derive(Clone, Debug, PartialEq)]
pub struct Level {
    /// Thickness as cast at every corner of the finished outline, in the order of its edges.
    pub corners: Vec<Length>,
    /// From the thickest place of the piece to its thinnest.
    pub difference: Figure<Length>,
    /// What the form takes less than a level one.
    pub less: Figure<Volume>,
}

/// How the form is tilted.
struct Tilt {
    bounds: Rect,
    end_fall: f64,
    side_fall: f64,
    low_end: Hand,
    low_side: LowSide,
}

impl Tilt {
    /// How much higher the form lies there than where it would lie lowest; metres.
    fn rise(&self, point: Point) -> f64 {
        let across = (point.x - self.bounds.x0) / self.bounds.width();
        let back = (point.y - self.bounds.y0) / self.bounds.height();
        let from_end = if self.low_end == Hand::Left { across } else { 1.0 - across };
        let from_side = if self.low_side == LowSide::Front { back } else { 1.0 - back };
        self.end_fall * from_end + self.side_fall * from_side
    }

    /// The least and the largest rise along an outline.
    fn rises(&self, outline: &Outline) -> [f64; 2] {
        /// Points along an arc: what lies between them is out by less than a thousandth of the fall.
        const PARTS: u32 = 64;
        let shares = |straight| if straight { 0..=1 } else { 0..=PARTS };
        let points = outline.edges().iter().flat_map(|edge| {
            let range = shares(edge.is_straight());
            let last = f64::from(*range.end());
            range.map(move |part| edge.point_at(f64::from(part) / last))
        });
        points
            .map(|point| self.rise(point))
            .fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], rise| [low.min(rise), high.max(rise)])
    }
}

impl Level {
    /// What the tilt of the form does to the piece; nothing where the form lies level.
    ///
    /// # Errors
    /// What the falls or the piece's net area wait for.
    pub(super) fn of(top: &Top, form: &Known<Form>, inputs: &TiltInputs) -> Known<Option<Self>> {
        let (end, side) = together((inputs.end_fall.clone(), inputs.side_fall.clone()))?;
        let [end_fall, side_fall] = [end, side].map(|fall| fall.get::<meter>().max(0.0));
        if end_fall == 0.0 && side_fall == 0.0 {
            return Ok(None);
        }
        let (form, outline, area) = together((known_ref(form), known_ref(&top.outline), known_ref(&top.area)))?;
        let (low_end, low_side) = (inputs.low_end, inputs.low_side);
        let tilt = Tilt { bounds: form.clear.bounds(), end_fall, side_fall, low_end, low_side };
        let rim = tilt.rises(&form.clear)[0];
        let [low, high] = tilt.rises(outline);
        let metres = Length::new::<meter>;
        let cast = form.cast_thickness.value;
        let corners = outline.edges().iter().map(|edge| cast - metres(tilt.rise(edge.start()) - rim)).collect();
        let mean = metres(tilt.rise(centroid(top, outline)) - rim);
        let [high, low] = [high, low].map(metres);
        let difference = high.named("how high its highest corner lies over the low corner of the form")
            - low.named("its lowest corner");
        let less = area.called("net area") * mean.named("how much higher its middle lies than the lowest rim");
        Ok(Some(Self {
            corners,
            difference: difference.titled("Thickness, from corner to corner", Source::Arithmetic),
            less: less.titled("Concrete that an unlevel form takes less", Source::Arithmetic),
        }))
    }
}

/// The centre of the area that is left of the outline.
fn centroid(top: &Top, outline: &Outline) -> Point {
    let cutouts = top.cutouts.iter().filter_map(|cutout| cutout.as_ref().ok());
    let holes = top.holes.iter().filter_map(|set| set.as_ref().ok()).flatten();
    let (mut area, mut moment) = (outline.area(), outline.area() * outline.centroid().to_vec2());
    for opening in cutouts.chain(holes) {
        area -= opening.area();
        moment -= opening.area() * opening.centroid().to_vec2();
    }
    if area > 0.0 { (moment / area).to_point() } else { outline.centroid() }
}
