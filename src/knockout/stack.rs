//! Layers that add up to the height of a knockout.

use crate::finding::say;
use crate::job::read::{self, all};
use crate::job::{FieldPath, Job, LayerField, LayerOf, PieceField};
use crate::knockout::limits;
use crate::measure::{Length, write_length};
use crate::working::{Figure, Known, Source, Waiting, Working};
use uom::si::length::micrometer;

/// One layer of a stack.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StackLayer {
    /// Which of the job's layers it is cut from, by its index.
    pub stock: usize,
    /// What it is made of.
    pub of: LayerOf,
    /// Its thickness.
    pub thickness: Length,
}

/// Layers from the foot up: boards first, since a screw through the base holds in a board and not in foam.
#[derive(Clone, Debug, PartialEq)]
pub struct Stack {
    /// The layers, from the foot up; never none.
    pub layers: Vec<StackLayer>,
    /// What is left to fill with card or tape on top; nothing where the layers reach.
    pub shim: Figure<Length>,
}

/// Why foam goes before board, where there is a choice.
pub const FOAM_FIRST: &str =
    "Foam before board: it crushes instead of wedging, and a wedged knockout cracks the rails beside it.";

/// Heights are counted in steps of 1/320 mm: 1/64 in is 127 of them and 0.1 mm is 32, so that sums of what a
/// tape or a caliper reads are exact.
const STEP: f64 = 3.125;

fn steps(length: Length) -> u32 {
    // A cast to an integer ends at its bounds, and what is not a number becomes nothing.
    (length.get::<micrometer>() / STEP).round() as u32
}

/// The best way to one height.
#[derive(Clone, Copy)]
struct Way {
    layers: u32,
    foam: u32,
    /// The kind of its topmost layer.
    last: u32,
}

impl Way {
    /// Fewer layers, or as many with more foam.
    fn beats(self, other: Self) -> bool {
        (self.layers, other.foam) < (other.layers, self.foam)
    }
}

impl Stack {
    /// The fewest layers that reach that height, more foam where it is a tie; where none reach it, those that
    /// leave the least to shim.
    ///
    /// # Errors
    /// Layers that cannot be read, none at all, or none thin enough; a height that cannot be right.
    pub(super) fn of(height: &Figure<Length>, job: &Job, piece: usize) -> Known<Self> {
        let stock = stock(job)?;
        let waits = |says: String| Err(Waiting::at(FieldPath::Layer(0, LayerField::Thickness), says));
        if stock.is_empty() {
            return waits("Knockouts: name a thickness of foam or board to stack them from.".to_owned());
        }
        if height.value > crate::top::limits::thickness_stop() + crate::form::limits::grinding_most() {
            let place = FieldPath::Piece(piece, PieceField::Thickness);
            let says = format!("{}: too much to stack a knockout for.", read::name_of(job, place));
            return Err(Waiting::at(place, says));
        }
        let mut layers = search(&stock, height.value);
        if layers.is_empty() {
            let cast = say::length(height.value, job.units);
            let prefix = read::piece_prefix(job, piece);
            return waits(format!("{prefix}Every layer for knockouts is thicker than the cast, {cast}."));
        }
        layers.sort_by(|one, other| {
            let foam = |layer: &StackLayer| layer.of == LayerOf::Foam;
            foam(one).cmp(&foam(other)).then(other.thickness.value.total_cmp(&one.thickness.value))
        });
        Ok(Self { shim: shim(height, &layers, job), layers })
    }

    /// It has a layer of board, which can wedge.
    pub fn has_board(&self) -> bool {
        self.layers.iter().any(|layer| layer.of == LayerOf::Board)
    }
}

/// The layers of the job that can be stacked; one that is blank is not there yet, and one that is too thin is
/// told by a finding.
fn stock(job: &Job) -> Known<Vec<StackLayer>> {
    let layers = job.form.layers.iter().enumerate().map(|(stock, layer)| {
        let place = FieldPath::Layer(stock, LayerField::Thickness);
        let thickness = read::optional(job, place, read::positive_length)?;
        Ok(thickness.map(|thickness| StackLayer { stock, of: layer.of, thickness }))
    });
    let least = limits::layer_least() - crate::measure::geometry_tolerance();
    Ok(all(layers)?.into_iter().flatten().filter(|layer| layer.thickness >= least).collect())
}

/// The layers that make up that height best; none if every one is too thick.
fn search(stock: &[StackLayer], height: Length) -> Vec<StackLayer> {
    let slack = steps(limits::stack_slack());
    let wanted = steps(height);
    let ways = Ways::of(stock, wanted + slack);
    let way = |sum: u32| ways.to(sum);
    // As high as the cast: of those, the fewest layers, and of equals the nearest.
    let mut near: Vec<(u32, Way)> =
        (wanted.saturating_sub(slack).max(1)..=wanted + slack).filter_map(|sum| Some((sum, way(sum)?))).collect();
    near.sort_by_key(|(sum, _)| sum.abs_diff(wanted));
    let exact = near.into_iter().reduce(|best, other| if other.1.beats(best.1) { other } else { best });
    let below = || (1..wanted).rev().find(|sum| way(*sum).is_some());
    let mut sum = exact.map(|(sum, _)| sum).or_else(below).unwrap_or_default();
    let mut layers = Vec::new();
    while let Some(layer) = way(sum).filter(|_| sum > 0).and_then(|way| stock.get(way.last as usize)) {
        layers.push(*layer);
        sum -= steps(layer.thickness);
    }
    layers
}

/// The best way to every height that layers add up to: what is best for a height is best for the heights below
/// it on the way.
struct Ways {
    /// Every sum of layers is a whole number of these.
    part: u32,
    /// One for every whole number of parts; nothing where no layers add up to it.
    best: Vec<Option<Way>>,
}

impl Ways {
    /// Up to that height.
    fn of(stock: &[StackLayer], most: u32) -> Self {
        let kinds = stock.iter().map(|layer| (steps(layer.thickness), layer.of == LayerOf::Foam));
        let kinds: Vec<(u32, bool)> = kinds.collect();
        let part = kinds.iter().fold(0, |part, (thick, _)| common_divisor(part, *thick)).max(1);
        let mut best: Vec<Option<Way>> = vec![Some(Way { layers: 0, foam: 0, last: 0 })];
        for parts in 1..=most / part {
            let mut found: Option<Way> = None;
            for (last, (thick, is_foam)) in (0..).zip(&kinds) {
                let below = parts.checked_sub(thick / part);
                let Some(below) = below.and_then(|below| best.get(below as usize).copied().flatten()) else { continue };
                let foam = below.foam + if *is_foam { *thick } else { 0 };
                let way = Way { layers: below.layers + 1, foam, last };
                if found.is_none_or(|found| way.beats(found)) {
                    found = Some(way);
                }
            }
            best.push(found);
        }
        Self { part, best }
    }

    /// To that height exactly.
    fn to(&self, sum: u32) -> Option<Way> {
        let whole = sum.is_multiple_of(self.part);
        whole.then(|| self.best.get((sum / self.part) as usize).copied().flatten()).flatten()
    }
}

/// Euclid's.
fn common_divisor(one: u32, other: u32) -> u32 {
    if other == 0 { one } else { common_divisor(other, one % other) }
}

/// Every layer that can be stacked is too thick for that height.
pub(super) fn all_too_thick(height: Length, job: &Job) -> bool {
    let fits = |layer: &StackLayer| layer.thickness <= height + limits::stack_slack();
    stock(job).is_ok_and(|stock| !stock.is_empty() && !stock.iter().any(fits))
}

/// What the layers leave of the height.
fn shim(height: &Figure<Length>, layers: &[StackLayer], job: &Job) -> Figure<Length> {
    let write = |length| write_length(length, job.units);
    let sum: Length = layers.iter().map(|layer| layer.thickness).sum();
    let left = height.value - sum;
    let shim =
        if left > limits::stack_slack() + crate::measure::geometry_tolerance() { left } else { Length::default() };
    let part = |layer: &StackLayer| {
        format!("{} {}", write(layer.thickness), layer.of.label().to_lowercase()).replace("≈ ", "")
    };
    Working::new("Shim on the knockout")
        .after(&height.working)
        .line(
            "layers, from the foot up",
            layers.iter().map(part).collect::<Vec<_>>().join(" + "),
            write(sum),
            Source::Arithmetic,
        )
        .line(
            "cast thickness − layers; what a trowel takes up counts as none",
            format!("{} − {}", write(height.value), write(sum)),
            write(shim),
            Source::Practice,
        )
        .of(shim)
}
