//! Sealer: how much, and when the next coat goes on.

use super::{not_negative, positive};
use crate::finish::limits;
pub use crate::job::SealKind;
use crate::measure::exact::quarts;
use crate::measure::{Area, COUNT_TOLERANCE, Dose, Length, Moment, Quantity, Time, Volume};
use crate::working::{Figure, Label, Named, Source, Term};

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
        let dust = 1.0 + COUNT_TOLERANCE;
        let film = self.volume / self.area;
        film * dust >= thin && film <= thick * dust
    }
}

/// The area that takes sealer: the face, the edges, and what rough edges take more.
/// `None` where a size is no number or under zero, or nothing is left to seal.
pub fn seal_area(surfaces: &Surfaces) -> Option<Figure<Area>> {
    let sound = |edge: &EdgeRun| not_negative(&[edge.length.value, edge.height.value]);
    if !not_negative(&[surfaces.face.value, surfaces.rough_extra]) || !surfaces.edges.iter().all(sound) {
        return None;
    }
    let edges = surfaces.edges.iter().zip(1u32..).map(|(edge, number)| {
        let number = f64::from(number);
        let (numbered, number) = match edge.cutout {
            Some(cutout) => ("sides of cutout {}", cutout as f64 + 1.0),
            None if edge.rough => ("rough edge {}", number),
            None => ("edge {}", number),
        };
        let along = if edge.cutout.is_some() { "all round" } else { "length" };
        let own = edge.length.named(along) * edge.height.named("height");
        let (own, source) = if edge.rough {
            let extra = Quantity::Percent(surfaces.rough_extra);
            (own * (1.0 + Term::named_as(surfaces.rough_extra, "extra", extra)), Source::Typed)
        } else {
            (own, Source::Arithmetic)
        };
        own.step(Label::with(numbered, [Quantity::Number(number, 0)]), source)
    });
    let face = surfaces.face.stated("face", Source::Arithmetic);
    let area = Term::sum(std::iter::once(face).chain(edges));
    positive(&[area.value.value]).then(|| area.titled("Area to seal", Source::Arithmetic))
}

/// The sealer for all coats. `None` unless the coverage is over zero and there are from one to
/// [`limits::MOST_COATS`] coats.
pub fn seal_amount(area: &Figure<Area>, coverage: Coverage, coats: u32) -> Option<Figure<Volume>> {
    let Coverage { area: covered, volume } = coverage;
    let written = |volume| Quantity::Dose(Dose::Volume(volume));
    let share = (area.term() / covered.named("area that a coat of it covers")).number();
    let amount = Term::named_as(volume, "sealer", written(volume)) * share * f64::from(coats).named("coats");
    let sound = positive(&[covered.value, volume.value, amount.value.value]);
    if !sound || coats > limits::MOST_COATS {
        return None;
    }
    let whole = written(amount.value);
    Some(amount.titled_as("Sealer", whole, Source::Typed))
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
