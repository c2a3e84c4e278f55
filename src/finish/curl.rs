//! What a top curls as it dries from one side alone.
//!
//! Concrete shrinks as it dries. Where one face is closed the other shrinks alone, and the top bends towards the face
//! that dries: ACI 209R-92 says how much concrete shrinks in the end, geometry how much a slab bends by that. It is the
//! most that it can come to: the closed face dries too, more slowly, and concrete gives way in time.

use super::positive;
use crate::finding::{Finding, Severity, Stage};
use crate::finish::limits;
use crate::job::{FieldPath, FinishField, Job, SealKind};
use crate::label;
use crate::measure::exact::in_inches;
use crate::measure::{Length, Pressure, Quantity, Units, write_number};
use crate::strength::concrete::Concrete;
use crate::top::Top;
use crate::working::{Figure, Name, Named, Source, Term, about};
use uom::si::length::meter;

/// A top that dries from one face alone.
#[derive(Clone, Debug, PartialEq)]
pub struct Curl {
    /// Over this length.
    pub length: Length,
    /// How far its middle lies out of the line between its ends.
    pub rise: Figure<Length>,
    /// What pulls at the face that dries where the top is held flat.
    pub held_flat: Option<Figure<Pressure>>,
}

/// Shrinkage in the end of concrete that dries at that relative humidity (a share), with so much volume to a surface that
/// dries: ACI 209R-92, 780 millionths times its factors. `None` unless both are within what it has factors for.
pub fn shrinkage(humidity: f64, volume_to_surface: Length) -> Option<f64> {
    if !positive(&[volume_to_surface.value]) || !(0.0..=1.0).contains(&humidity) {
        return None;
    }
    let percent = 100.0 * humidity;
    let of_humidity = if percent <= 80.0 { 1.40 - 0.0102 * percent } else { 3.00 - 0.030 * percent };
    let of_size = 1.2 * (-0.12 * in_inches(volume_to_surface)).exp();
    Some(limits::ULTIMATE_SHRINKAGE * of_humidity * of_size)
}

/// How far the middle of a slab lies out of the line between its ends, one of whose faces is shorter than the other by
/// that share of its length: its curvature is that share ÷ its thickness, the rise curvature × length² ÷ 8. `None` unless
/// all are over zero.
pub fn rise(shorter: f64, thickness: Length, length: Length) -> Option<Figure<Length>> {
    rise_by(Term::named_as(shorter, "shrinkage", millionths(shorter)), thickness, length)
}

fn rise_by(shorter: Term<f64>, thickness: Length, length: Length) -> Option<Figure<Length>> {
    if !positive(&[shorter.value, thickness.value, length.value]) {
        return None;
    }
    let slender = length.named("length") / thickness.named("thickness");
    let rise = shorter * length.named("length") * slender.number() / 8.0;
    let written = Quantity::SmallLength(rise.value);
    Some(rise.titled_as("Curl, where one face alone dries", written, Source::Arithmetic))
}

/// A share, written in millionths.
fn millionths(share: f64) -> Quantity {
    Quantity::other(share, |share, _| format!("{} millionths", write_number(share * 1e6, 0)))
}

/// Shrinkage in a heated room of a top of that thickness, one face of which dries; nothing unless the thickness is over
/// zero.
fn in_a_heated_room(thickness: Length) -> Option<Term<f64>> {
    // One face alone dries, so that there is a thickness of volume to its surface.
    let shorter = shrinkage(limits::ROOM_HUMIDITY, thickness)?;
    let (humidity, room) = (limits::ROOM_HUMIDITY, "humidity of a heated room");
    let stated = Term::stated_as(humidity, room, Quantity::Percent(humidity), Source::Practice);
    let percent = Quantity::other(humidity, |share, _| write_number(100.0 * share, 0));
    let inches = Quantity::other(thickness.value, |si, _| write_number(in_inches(Length::new::<meter>(si)), 2));
    let shrinks = Term::named_as(humidity, "humidity in percent", percent).with_lines_of(&stated).with_rule(
        Term::named_as(thickness, "volume to surface in inches, which is the thickness", inches),
        "780 millionths × (1.40 − 0.0102 × {}) × 1.2 e^(−0.12 × {})",
        |parts| shrinkage(parts[0], Length::new::<meter>(parts[1])).unwrap_or(f64::NAN),
        shorter,
    );
    Some(shrinks.step_as("shrinkage", millionths(shorter), limits::SHRINKAGE))
}

impl Curl {
    /// A top of that thickness and length in a heated room, with its concrete where that is known. `None` unless both
    /// are over zero.
    ///
    /// ```
    /// use pourwright::finish::Curl;
    /// use pourwright::measure::{Units, exact::inches};
    ///
    /// let long = Curl::of(inches(1.5), inches(96.0), None, Units::Inch).map(|curl| curl.rise.value);
    /// let half = Curl::of(inches(1.5), inches(48.0), None, Units::Inch).map(|curl| curl.rise.value);
    /// assert!(long.zip(half).is_some_and(|(long, half)| ((long / half).value - 4.0).abs() < 1e-9));
    /// ```
    pub fn of(thickness: Length, length: Length, concrete: Option<&Concrete>, units: Units) -> Option<Self> {
        let shorter = in_a_heated_room(thickness)?;
        let held_flat = concrete.map(|concrete| {
            let shrinks = Term::named_as(shorter.value, "shrinkage", millionths(shorter.value));
            let pull = concrete.modulus(units).named("stiffness") * shrinks / 2.0;
            pull.titled("Pull where it is held flat", Source::Arithmetic)
        });
        Some(Self { length, rise: rise_by(shorter, thickness, length)?, held_flat })
    }

    /// That of a piece whose face is closed by a film; nothing where its sealer lets it dry, or a size is not known.
    pub(crate) fn of_piece(top: &Top, concrete: Option<&Concrete>, seal: SealKind, units: Units) -> Option<Self> {
        if seal != SealKind::Film {
            return None;
        }
        let (outline, thickness) = (top.outline.as_ref().ok()?, top.thickness.as_ref().ok()?);
        let bounds = outline.bounds();
        let length = Length::new::<meter>(bounds.width().max(bounds.height()));
        Self::of(*thickness, length, concrete, units)
    }

    /// That it curls, where that shows.
    pub(crate) fn advise(&self, concrete: Option<&Concrete>, job: &Job, piece: usize) -> Option<Finding> {
        if self.rise.value <= limits::curl_that_shows() {
            return None;
        }
        let units = job.units;
        let pull = self.held_flat.as_ref().zip(concrete).map(|(pull, concrete)| {
            let (pull, cracks_at) = (pull.value, concrete.rupture_stress(units));
            let verdict = if pull > cracks_at { "more than the" } else { "against the" };
            label!(" Held flat its back would be pulled by {}, {} {} that crack it.", pull, verdict, cracks_at)
        });
        Some(Finding {
            severity: Severity::Watch,
            stage: Stage::Finish,
            place: FieldPath::Finish(FinishField::Sealer),
            says: label!(
                "{}A film on its face alone leaves its back to dry: its middle may rise by up to {} over {}.{}",
                Name::PieceInFront(piece),
                Quantity::SmallLength(self.rise.value),
                about(self.length),
                pull.unwrap_or_else(|| "".into())
            ),
            remedy:
                "Seal both faces, do not glue it down before it is dry, and support it on battens so that both faces \
                     dry."
                    .into(),
            source: limits::SHRINKAGE,
        })
    }
}
