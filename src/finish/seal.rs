//! Sealer: how much, and when the next coat goes on.

use super::{not_negative, positive};
use crate::finish::limits;
pub use crate::job::SealKind;
use crate::measure::exact::quarts;
use crate::measure::{
    Area, Dose, Length, Moment, Time, Units, Volume, write_area, write_dose, write_length, write_number, write_percent,
};
use crate::working::{Figure, Source, Working};

/// So much area from so much sealer, one coat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coverage {
    /// The area that is covered.
    pub area: Area,
    /// By that much.
    pub volume: Volume,
}

/// A sealer, by its label.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sealer {
    /// What it is.
    pub kind: SealKind,
    /// Coats, at least one.
    pub coats: u32,
    /// Of one coat.
    pub coverage: Coverage,
    /// From one coat to the next.
    pub recoat: Time,
    /// From the last coat until the top may be used.
    pub cure: Time,
}

/// An edge that is sealed with the face.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EdgeRun {
    /// Along it.
    pub length: Length,
    /// As high as it is.
    pub height: Length,
    /// Rough as a liner leaves it: it takes more than its area says.
    pub rough: bool,
    /// The cutout whose side it is, from zero; these stand wettest.
    pub cutout: Option<usize>,
}

/// What is sealed.
#[derive(Clone, Debug, PartialEq)]
pub struct Surfaces {
    /// The face, less its cutouts.
    pub face: Area,
    /// Edges, and the sides of cutouts where they are sealed.
    pub edges: Vec<EdgeRun>,
    /// What a rough edge takes more than a smooth one, as a share.
    pub rough_extra: f64,
}

/// When what happens to the seal.
#[derive(Clone, Debug, PartialEq)]
pub struct Schedule {
    /// Each coat, in order.
    pub coats: Vec<Moment>,
    /// Cured: the watermark test, then use.
    pub cured: Moment,
}

impl Coverage {
    /// So many square feet a US gallon, as labels say it.
    pub fn square_feet_a_gallon(count: f64) -> Self {
        let foot = crate::measure::exact::inches(12.0);
        Self { area: count * foot * foot, volume: quarts(4.0) }
    }

    /// It is within what data sheets say, from memory: see [`limits::sealer_film_usual`].
    pub fn is_usual(self) -> bool {
        let [thin, thick] = limits::sealer_film_usual();
        let dust = 1.0 + crate::measure::COUNT_TOLERANCE;
        let film = self.volume / self.area;
        film * dust >= thin && film <= thick * dust
    }
}

/// The area that takes sealer: the face, the edges, and what rough edges take more.
/// `None` where a size is no number or under zero, or nothing is left to seal.
pub fn seal_area(surfaces: &Surfaces, units: Units) -> Option<Figure<Area>> {
    let mut area = surfaces.face;
    let mut working =
        Working::new("Area to seal").line("face", "", write_area(surfaces.face, units), Source::Arithmetic);
    if !not_negative(&[surfaces.face.value, surfaces.rough_extra]) {
        return None;
    }
    for edge in &surfaces.edges {
        if !not_negative(&[edge.length.value, edge.height.value]) {
            return None;
        }
        let more = if edge.rough { surfaces.rough_extra } else { 0.0 };
        let own = edge.length * edge.height * (1.0 + more);
        area += own;
        let numbers = format!("{} × {}", write_length(edge.length, units), write_length(edge.height, units));
        working = if edge.rough {
            let numbers = format!("{numbers} × (1 + {})", write_percent(more));
            working.line("rough edge: length × height × (1 + extra)", numbers, write_area(own, units), Source::Typed)
        } else {
            let formula = match edge.cutout {
                Some(cutout) => format!("sides of cutout {}: all round × height", cutout + 1),
                None => "edge: length × height".to_owned(),
            };
            working.line(formula, numbers, write_area(own, units), Source::Arithmetic)
        };
    }
    if !positive(&[area.value]) {
        return None;
    }
    Some(working.sum(write_area(area, units)).of(area))
}

/// The sealer for all coats. `None` unless the coverage is over zero and there are from one to
/// [`limits::MOST_COATS`] coats.
pub fn seal_amount(area: &Figure<Area>, sealer: &Sealer, units: Units) -> Option<Figure<Volume>> {
    let Coverage { area: covered, volume } = sealer.coverage;
    let amount = volume * (area.value / covered).value * f64::from(sealer.coats);
    let sound = positive(&[covered.value, volume.value, amount.value]);
    if !sound || sealer.coats > limits::MOST_COATS {
        return None;
    }
    let write = |volume| write_dose(Dose::Volume(volume), units);
    Some(
        Working::new("Sealer")
            .after(&area.working)
            .line(
                "area × coats × sealer for an area",
                format!(
                    "{} × {} × {} for {}",
                    write_area(area.value, units),
                    write_number(f64::from(sealer.coats), 0),
                    write(volume),
                    write_area(covered, units)
                ),
                write(amount),
                Source::Typed,
            )
            .of(amount),
    )
}

/// When the coats go on from the first one on, and when it is cured. `None` unless there are from one to
/// [`limits::MOST_COATS`] coats, and every span is a number that is not under zero and stays in the calendar.
pub fn schedule(sealer: &Sealer, first: Moment) -> Option<Schedule> {
    if !(1..=limits::MOST_COATS).contains(&sealer.coats) || !not_negative(&[sealer.recoat.value, sealer.cure.value]) {
        return None;
    }
    let coats: Option<Vec<_>> = (0..sealer.coats).map(|coat| first.after(sealer.recoat * f64::from(coat))).collect();
    let coats = coats?;
    let cured = coats.last()?.after(sealer.cure)?;
    Some(Schedule { coats, cured })
}
