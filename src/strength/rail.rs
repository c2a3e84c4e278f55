//! The strips beside cutouts by hand, to stand beside the map: each takes its share, by width, of the bending of the
//! whole top where it is thinnest.

use super::cases::{Slab, knockouts, long_way, metres};
use super::concrete::Concrete;
use super::cut::{Along, Beam, Span};
use super::limits;
use super::mesh::polygons;
use super::section::face_stress;
use crate::measure::{Length, MassDensity, Pressure, Quantity};
use crate::top::Facing;
use crate::working::{Figure, Named, Source, Term};
use uom::si::f64::Torque;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::torque::newton_meter;

/// One strip, as the top is lifted flat at both ends.
#[derive(Clone, Debug, PartialEq)]
pub struct RailCheck {
    /// The opening that it lies beside, by its index.
    pub opening: usize,
    /// On which side of the opening.
    pub look: Facing,
    /// Its width where the cut through the middle of the opening runs.
    pub width: Length,
    /// Its length: that of the opening along the top.
    pub span: Length,
    /// Of the bending of the whole top, by width.
    pub share: f64,
    /// Tension at its face, with the working.
    pub stress: Figure<Pressure>,
}

/// The top as a beam along its long side, borne at both ends.
struct Lifted<'a> {
    slab: &'a Slab,
    beam: Beam,
    /// Weight a square metre.
    load: f64,
    /// What the ends push, downward positive.
    forces: [(f64, f64); 2],
}

/// Every strip along the long side of a top beside its cutouts, as the top is lifted flat, borne that far from both
/// ends, its weight multiplied by that.
pub fn rails(slab: &Slab, concrete: &Concrete, grip: Length, multiplier: f64) -> Vec<RailCheck> {
    let beam = Beam::new(polygons(&slab.outline, &slab.openings), long_way(slab));
    let (start, end) = beam.ends();
    let (first, second) = (start + grip.value, end - grip.value);
    let (area, moment) = beam.before(end);
    let load = slab.thickness.value * concrete.density.value * limits::GRAVITY * multiplier;
    let far = load * (moment - area * first) / (second - first);
    let forces = [(first, far - load * area), (second, -far)];
    let lifted = Lifted { slab, beam, load, forces };
    let found = knockouts(slab).flat_map(|(opening, _)| lifted.beside(opening)).filter(|_| second > first);
    found.filter(|check| check.stress.value.value.is_finite()).collect()
}

impl Lifted<'_> {
    /// The strips that a cut through the middle of an opening leaves beside it.
    fn beside(&self, opening: usize) -> Vec<RailCheck> {
        let (from, to) = self.beam.reach(opening + 1);
        let at = f64::midpoint(from, to);
        let spans = self.beam.spans(at);
        let whole: f64 = spans.iter().map(Span::width).sum();
        let moment = Torque::new::<newton_meter>(self.beam.moment(at, self.load, &self.forces));
        let sides = spans.iter().filter_map(|span| {
            let looks = match self.beam.along() {
                Along::X => (Facing::Front, Facing::Back),
                Along::Y => (Facing::Left, Facing::Right),
            };
            let look = match (span.to_loop == opening + 1, span.from_loop == opening + 1) {
                (true, _) => looks.0,
                (_, true) => looks.1,
                _ => return None,
            };
            Some((look, metres(span.width())))
        });
        sides.map(|(look, width)| self.check(opening, look, width, (to - from, whole), moment)).collect()
    }

    fn check(
        &self,
        opening: usize,
        look: Facing,
        width: Length,
        (span, whole): (f64, f64),
        moment: Torque,
    ) -> RailCheck {
        let thickness = self.slab.thickness;
        let share = width.value / whole;
        let density = self.load / thickness.value / limits::GRAVITY;
        let density = MassDensity::new::<kilogram_per_cubic_meter>(density);
        let moment = Term::found(
            "statics: the whole top, borne at both ends, of concrete of {}, multiplier included",
            [density.named("its density").into()],
            moment,
        )
        .step("moment of the whole top", Source::Arithmetic);
        let share_of = (width.named("width of this strip") / metres(whole).named("width of all strips")).number();
        let share_of = share_of.step_as("share of this strip", Quantity::Percent(share), Source::Arithmetic);
        let own = moment * share_of;
        let stress = face_stress(own, width.named("width"), thickness.named("thickness"))
            .titled("The strip by hand", Source::Arithmetic);
        RailCheck { opening, look, width, span: metres(span), share, stress }
    }
}
