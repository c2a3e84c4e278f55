//! Layers that add up to the height of a knockout.

use super::{KnockoutInputs, StackInputs};
use crate::job::{FieldPath, LayerField, LayerOf, PieceField};
use crate::knockout::limits;
use crate::label;
use crate::measure::{Length, geometry_tolerance};
use crate::working::{Figure, Known, Label, Name, Named, Source, Term, Waiting, about, all};
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
    pub(super) fn of(height: &Figure<Length>, inputs: &KnockoutInputs) -> Known<Self> {
        let stock = stock(&inputs.stack)?;
        let waits = |says: Label| Err(Waiting::at(FieldPath::Layer(0, LayerField::Thickness), says));
        if stock.is_empty() {
            return waits("Knockouts: name a thickness of foam or board to stack them from.".into());
        }
        if height.value > crate::top::limits::thickness_stop() + crate::form::limits::grinding_most() {
            let place = FieldPath::Piece(inputs.piece, PieceField::Thickness);
            return Err(Waiting::named(place, "too much to stack a knockout for."));
        }
        let mut layers = search(&stock, height.value);
        if layers.is_empty() {
            let of = Name::PieceInFront(inputs.piece);
            return waits(label!("{}Every layer for knockouts is thicker than the cast, {}.", of, about(height.value)));
        }
        layers.sort_by(|one, other| {
            let foam = |layer: &StackLayer| layer.of == LayerOf::Foam;
            foam(one).cmp(&foam(other)).then(other.thickness.value.total_cmp(&one.thickness.value))
        });
        Ok(Self { shim: shim(height, &layers), layers })
    }

    /// It has a layer of board, which can wedge.
    pub fn has_board(&self) -> bool {
        self.layers.iter().any(|layer| layer.of == LayerOf::Board)
    }
}

/// The layers of the job that can be stacked; one that is blank is not there yet, and one that is too thin is
/// told by a finding.
///
/// # Errors
/// Layers that cannot be read.
fn stock(inputs: &StackInputs) -> Known<Vec<StackLayer>> {
    let layers = inputs.layers.iter().enumerate().map(|(stock, layer)| {
        let thickness = layer.thickness.clone()?;
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
pub(super) fn all_too_thick(height: Length, inputs: &StackInputs) -> bool {
    let fits = |layer: &StackLayer| layer.thickness <= height + limits::stack_slack();
    stock(inputs).is_ok_and(|stock| !stock.is_empty() && !stock.iter().any(fits))
}

/// What the layers leave of the height.
fn shim(height: &Figure<Length>, layers: &[StackLayer]) -> Figure<Length> {
    let name = |of| match of {
        LayerOf::Foam => "foam",
        LayerOf::Board => "board or ply",
    };
    let stacked = Term::sum(layers.iter().map(|layer| layer.thickness.named(name(layer.of))));
    let left = if layers.is_empty() {
        height.term()
    } else {
        height.term() - stacked.step("layers, from the foot up", Source::Arithmetic)
    };
    let rest = |x: &[f64]| {
        let least = limits::stack_slack() + geometry_tolerance();
        if x[0] > least.value { x[0] } else { 0.0 }
    };
    let shim = if left.value > limits::stack_slack() + geometry_tolerance() { left.value } else { Length::default() };
    left.by_rule("{}; what a trowel takes up counts as none", rest, shim)
        .titled("Shim on the knockout", Source::Practice)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::knockout::LayerInputs;
    use crate::measure::Units;
    use crate::measure::exact::inches;
    use crate::working::WrittenLine;

    fn stacked(layers: &[(LayerOf, f64)], height: f64) -> Known<Stack> {
        let layer = |(of, thickness): &(LayerOf, f64)| LayerInputs { of: *of, thickness: Ok(Some(inches(*thickness))) };
        let stack = StackInputs { layers: layers.iter().map(layer).collect(), draft: Ok(Length::default()) };
        let inputs = KnockoutInputs { piece: 0, stack, units: Units::Inch };
        let height = inches(height).named("finished thickness").titled("Cast thickness", Source::Arithmetic);
        Stack::of(&height, &inputs)
    }

    /// By hand: 1 1/2 in are two boards of 3/4 in, or foam of 1 in and of 1/2 in, which is as few and no board.
    #[test]
    fn as_few_layers_with_more_foam() {
        let layers = [(LayerOf::Board, 0.75), (LayerOf::Foam, 0.5), (LayerOf::Foam, 1.0)];
        let stack = stacked(&layers, 1.5).expect("it is stacked");
        assert_eq!(stack.layers.iter().map(|layer| layer.stock).collect::<Vec<_>>(), [2, 1]);
        assert_eq!(stack.shim.value, Length::default());
        let stack = stacked(&layers[..1], 1.5).expect("it is stacked");
        assert_eq!(stack.layers.len(), 2);
    }

    /// By hand: one layer of 1 in leaves 1/2 in of 1 1/2 in.
    #[test]
    fn what_layers_leave_is_shimmed() {
        let stack = stacked(&[(LayerOf::Foam, 1.0)], 1.5).expect("it is stacked");
        let lines: Vec<WrittenLine> = stack.shim.working.lines(Units::Inch);
        let last = lines.last().expect("it has a line");
        assert_eq!(last.result, "1/2 in");
        assert_eq!(last.numbers, "1 1/2 in − 1 in; what a trowel takes up counts as none");
        assert!(stacked(&[(LayerOf::Foam, 2.0)], 1.5).is_err(), "it is thicker than the cast");
        assert!(stacked(&[], 1.5).is_err(), "there is nothing to stack");
    }
}
