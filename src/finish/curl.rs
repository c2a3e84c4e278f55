//! What a top curls as it dries from one side alone.
//!
//! Concrete shrinks as it dries. Where one face is closed the other shrinks alone, and the top bends towards the face
//! that dries: ACI 209R-92 says how much concrete shrinks in the end, geometry how much a slab bends by that. It is the
//! most that it can come to: the closed face dries too, more slowly, and concrete gives way in time.

use super::positive;
use crate::finding::{Finding, Severity, Stage, say};
use crate::finish::limits;
use crate::job::read::piece_prefix;
use crate::job::{FieldPath, FinishField, Job, SealKind};
use crate::measure::exact::in_inches;
use crate::measure::{Length, Pressure, Units, write_length, write_number, write_percent};
use crate::strength::concrete::Concrete;
use crate::strength::written;
use crate::top::Top;
use crate::working::{Figure, Source, Working};
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
pub fn rise(shorter: f64, thickness: Length, length: Length, units: Units) -> Option<Figure<Length>> {
    if !positive(&[shorter, thickness.value, length.value]) {
        return None;
    }
    let rise = shorter * length * (length / thickness).value / 8.0;
    let working = Working::new("Curl, where one face alone dries").line(
        "shrinkage ÷ thickness × length² ÷ 8",
        format!(
            "{} ÷ {} × ({})² ÷ 8",
            millionths(shorter),
            write_length(thickness, units),
            write_length(length, units)
        ),
        written::small_length(rise, units),
        Source::Arithmetic,
    );
    Some(working.of(rise))
}

fn millionths(share: f64) -> String {
    format!("{} millionths", write_number(share * 1e6, 0))
}

impl Curl {
    /// A top of that thickness and length in a heated room, with its concrete where that is known.
    pub fn of(thickness: Length, length: Length, concrete: Option<&Concrete>, units: Units) -> Option<Self> {
        // One face alone dries, so that there is a thickness of volume to its surface.
        let shorter = shrinkage(limits::ROOM_HUMIDITY, thickness)?;
        let bare = rise(shorter, thickness, length, units)?;
        let mut working = Working::new(bare.working.title_label().clone())
            .line("humidity of a heated room", "", write_percent(limits::ROOM_HUMIDITY), Source::Practice)
            .line(
                "780 millionths × factors of humidity and of volume to surface, which is the thickness",
                format!(
                    "780 × (1.40 − 0.0102 × {}) × 1.2 e^(−0.12 × {})",
                    write_number(100.0 * limits::ROOM_HUMIDITY, 0),
                    write_number(in_inches(thickness), 2)
                ),
                millionths(shorter),
                limits::SHRINKAGE,
            );
        working = working.after(&bare.working);
        let held_flat = concrete.map(|concrete| {
            let stiffness = concrete.modulus(units);
            let pull = stiffness * shorter / 2.0;
            Working::new("Pull where it is held flat")
                .line(
                    "stiffness × shrinkage ÷ 2",
                    format!("{} × {} ÷ 2", written::pressure(stiffness, units), millionths(shorter)),
                    written::pressure(pull, units),
                    Source::Arithmetic,
                )
                .of(pull)
        });
        Some(Self { length, rise: working.of(bare.value), held_flat })
    }

    /// That of a piece whose face is closed by a film; nothing where its sealer lets it dry, or a size is not known.
    pub(crate) fn of_piece(top: &Top, concrete: Option<&Concrete>, job: &Job) -> Option<Self> {
        if job.finish.seal != SealKind::Film {
            return None;
        }
        let (outline, thickness) = (top.outline.as_ref().ok()?, top.thickness.as_ref().ok()?);
        let bounds = outline.bounds();
        let length = Length::new::<meter>(bounds.width().max(bounds.height()));
        Self::of(*thickness, length, concrete, job.units)
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
            format!(
                " Held flat its back would be pulled by {}, {verdict} {} that crack it.",
                written::pressure(pull, units),
                written::pressure(cracks_at, units)
            )
        });
        Some(Finding {
            severity: Severity::Watch,
            stage: Stage::Finish,
            place: FieldPath::Finish(FinishField::Sealer),
            says: format!(
                "{}A film on its face alone leaves its back to dry: its middle may rise by up to {} over {}.{}",
                piece_prefix(job, piece),
                written::small_length(self.rise.value, units),
                say::length(self.length, units),
                pull.unwrap_or_default()
            ),
            remedy:
                "Seal both faces, do not glue it down before it is dry, and support it on battens so that both faces \
                     dry."
                    .to_owned(),
            source: limits::SHRINKAGE,
        })
    }
}
