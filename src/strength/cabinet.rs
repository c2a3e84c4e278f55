//! What of a cabinet bears a top.

use super::cases::{Slab, Support, SupportKind, knockouts, metres};
use super::inputs::CabinetInputs;
use super::seats::Reach;
use super::sorted::{ascend, order_of};
use crate::job::{FieldPath, HandlingField, SinkBay, usual};
use crate::measure::exact::inches;
use crate::measure::{Length, geometry_tolerance};
use crate::working::{Known, Label, Waiting, Word, about, together};
use kurbo::{Point, Rect};

/// The cabinet under a top, in the plane of the top.
#[derive(Clone, Debug, PartialEq)]
pub struct Cabinet {
    /// Its outside; metres.
    pub outside: Rect,
    /// Where partitions stand, from the left; metres in the plane of the top.
    pub partitions: Vec<f64>,
    /// Bays whose front and back do not bear: a sink bay, a gap for an appliance; from and to.
    pub open: Vec<(f64, f64)>,
    /// The top is fastened down along its back.
    pub fastened: bool,
    /// How far its left half lies lower than the rest: shims that miss.
    pub low_left: Length,
}

impl Cabinet {
    /// A box under the whole top, 1 in behind its front edge, with partitions beside every cutout whose bay is
    /// open. Common practice.
    pub fn under(slab: &Slab) -> Self {
        let bounds = slab.outline.bounds();
        let inch = inches(1.0).value;
        let (rail, over) = (usual::cabinet_rail().value, usual::overhang().value);
        let outside = Rect::new(bounds.x0 + rail / 2.0, bounds.y0 + over, bounds.x1 - rail / 2.0, bounds.y1);
        let bays = knockouts(slab).map(|(_, opening)| {
            let bounds = opening.bounds();
            ((bounds.x0 - 1.5 * inch).max(outside.x0), (bounds.x1 + 1.5 * inch).min(outside.x1))
        });
        let open: Vec<(f64, f64)> = bays.collect();
        let mut partitions: Vec<f64> = open.iter().flat_map(|bay| [bay.0, bay.1]).collect();
        ascend(&mut partitions);
        partitions.retain(|at| *at > outside.x0 + inch && *at < outside.x1 - inch);
        Self { outside, partitions, open, fastened: false, low_left: Length::default() }
    }

    /// Where its sides and partitions stand, from the left.
    pub(super) fn sides(&self) -> impl Iterator<Item = f64> {
        let (left, right) = (self.outside.x0, self.outside.x1);
        std::iter::once(left).chain(self.partitions.iter().copied()).chain([right])
    }

    /// What of it bears.
    pub(super) fn supports(&self) -> Vec<Support> {
        let Rect { x0, y0, x1, y1 } = self.outside;
        let mut found = Vec::new();
        let back = if self.fastened { SupportKind::FastenedBack } else { SupportKind::CabinetBack };
        for (bears, y) in [(SupportKind::CabinetFront, y0), (back, y1)] {
            for (from, to) in closed_bays(x0, x1, &self.open) {
                found.push(Support::new(bears, [Point::new(from, y), Point::new(to, y)]));
            }
        }
        for (number, x) in self.sides().enumerate() {
            found.push(Support::new(SupportKind::CabinetSide(number), [Point::new(x, y0), Point::new(x, y1)]));
        }
        let middle = f64::midpoint(x0, x1);
        for support in &mut found {
            let [from, to] = support.line;
            if from.midpoint(to).x < middle {
                support.gap = self.low_left;
            }
        }
        found
    }
}

/// What of a stretch is not taken by open bays.
fn closed_bays(from: f64, to: f64, open: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let mut found = Vec::new();
    let mut at = from;
    for (start, end) in order_of(open.iter().map(|bay| bay.0)).into_iter().filter_map(|bay| open.get(bay).copied()) {
        if start > at {
            found.push((at, start.min(to)));
        }
        at = at.max(end);
    }
    if at < to {
        found.push((at, to));
    }
    found
}

/// What is typed of a cabinet, all of which can be read.
pub(super) struct TypedCabinet<'a> {
    inputs: &'a CabinetInputs,
    rail: Option<Length>,
    bay: Option<Length>,
    gap_from: Option<Length>,
    gap_width: Option<Length>,
    /// What reaches over in front, at the left and at the right.
    over: [Option<Length>; 3],
    low: Option<Length>,
}

impl CabinetInputs {
    /// What is typed, once all of it can be read.
    ///
    /// # Errors
    /// The fields that cannot be read.
    pub(super) fn known(&self) -> Known<TypedCabinet<'_>> {
        let (rail, bay, gap_from, gap_width, front, left, right, low) = together((
            self.rail.clone(),
            self.sink_bay.clone(),
            self.gap_from.clone(),
            self.gap_width.clone(),
            self.over_front.clone(),
            self.over_left.clone(),
            self.over_right.clone(),
            self.low_left.clone(),
        ))?;
        Ok(TypedCabinet { inputs: self, rail, bay, gap_from, gap_width, over: [front, left, right], low })
    }
}

impl TypedCabinet<'_> {
    /// The cabinet under a top, and where the top reaches over it so far that a person sits out there.
    ///
    /// # Errors
    /// What does not fit the top: every one of its fields at once.
    pub(super) fn under(&self, slab: &Slab) -> Known<(Cabinet, Vec<Reach>)> {
        self.fits(slab)?;
        Ok((self.cabinet(slab), super::loads::reaches(self.over)))
    }

    fn wrong<const COUNT: usize>(&self, field: HandlingField, says: &'static str, words: [Word; COUNT]) -> Known<()> {
        Err(Waiting::named(FieldPath::Handling(self.inputs.piece, field), Label::with(says, words)))
    }

    /// What does not fit the top is waited for: every one of its fields at once.
    fn fits(&self, slab: &Slab) -> Known<()> {
        let bounds = slab.outline.bounds();
        let (width, depth) = (metres(bounds.width()), metres(bounds.height()));
        let third = width.min(depth) / 3.0;
        let rail = match self.rail.filter(|rail| more(*rail, third)) {
            Some(rail) => self.wrong(
                HandlingField::CabinetRail,
                "{} is wider than a third of this top's shorter side; {} is the most.",
                [about(rail), Word::AtMost(third)],
            ),
            None => Ok(()),
        };
        // One that is refused moves nothing.
        let rail_width = self.rail.filter(|rail| !more(*rail, third));
        let half = rail_width.unwrap_or_else(usual::cabinet_rail) / 2.0;
        together((
            rail,
            self.bay_fits(width),
            self.front_fits(depth, rail_width),
            self.ends_fit(width, half),
            self.gap_fits(width, half),
        ))
        .map(drop)
    }

    /// What reaches over at the left and at the right, nothing where that is blank.
    fn ends(&self) -> [Length; 2] {
        let [_, left, right] = self.over.map(Option::unwrap_or_default);
        [left, right]
    }

    fn bay_fits(&self, width: Length) -> Known<()> {
        let [left, right] = self.ends();
        let stands = width - right - left;
        let says = match self.bay.filter(|bay| stands > Length::default() && more(*bay, stands)) {
            Some(_) if left + right > Length::default() => "the bay is wider than the cabinet; {} is the most.",
            Some(_) => "the bay is wider than the top; {} is the most.",
            None => return Ok(()),
        };
        self.wrong(HandlingField::SinkBay, says, [Word::AtMost(stands)])
    }

    /// The back bears in its middle once its width is typed, else at the wall.
    fn front_fits(&self, depth: Length, rail: Option<Length>) -> Known<()> {
        let back = depth - rail.map_or_else(Length::default, |rail| rail / 2.0);
        let says = match self.over[0] {
            Some(front) if front >= back && rail.is_none() => {
                "nothing would bear it: it has to be less than its depth, {}."
            }
            Some(front) if front >= back => {
                "nothing would bear it: it has to be less than {}, where the back of the cabinet bears."
            }
            _ => return Ok(()),
        };
        self.wrong(HandlingField::Overhang, says, [about(back)])
    }

    /// Where the sides bear, from the ends of the top: one that nothing reaches over bears in its middle.
    fn sides_bear(&self, half: Length) -> [Length; 2] {
        let [_, left, right] = self.over.map(|over| over.unwrap_or(half));
        [left, right]
    }

    fn ends_fit(&self, width: Length, half: Length) -> Known<()> {
        let [left, right] = self.ends();
        let [bears_left, bears_right] = self.sides_bear(half);
        if left + right <= Length::default() || bears_left < width - bears_right {
            return Ok(());
        }
        let field = if left > right { HandlingField::OverhangLeft } else { HandlingField::OverhangRight };
        let [_, typed @ ..] = self.over;
        let most = width - typed.iter().filter(|over| over.is_none()).map(|_| half).sum::<Length>();
        self.wrong(field, "nothing would bear it: both ends together have to be less than {}.", [about(most)])
    }

    fn gap_fits(&self, width: Length, half: Length) -> Known<()> {
        let Some(gap) = self.gap_width else { return Ok(()) };
        let from = self.gap_from.unwrap_or_default();
        let [left, right] = self.ends();
        let end = width - right;
        let [bears_left, bears_right] = self.sides_bear(half);
        if from >= end || more(left, from) {
            let says = "the gap lies outside the cabinet, which stands from {} to {}.";
            return self.wrong(HandlingField::GapFrom, says, [about(left), about(end)]);
        }
        if more(from + gap, end) {
            let says = "from {} on the gap runs past the end of the cabinet; {} is the most there.";
            return self.wrong(HandlingField::GapWidth, says, [about(from), Word::AtMost(end - from)]);
        }
        // The side of the cabinet would bear beside it as if there were none.
        if from + gap <= bears_left || from >= width - bears_right {
            let says = "the gap lies within a side of the cabinet, which bears from {} to {}.";
            return self.wrong(HandlingField::GapWidth, says, [about(bears_left), about(width - bears_right)]);
        }
        Ok(())
    }

    /// The cabinet as typed, once it is known that it fits.
    fn cabinet(&self, slab: &Slab) -> Cabinet {
        let mut cabinet = Cabinet::under(slab);
        let bounds = slab.outline.bounds();
        if let Some(rail) = self.rail {
            // It bears in its middle.
            let wider = (rail - usual::cabinet_rail()).value / 2.0;
            cabinet.outside.x0 += wider;
            cabinet.outside.x1 -= wider;
            cabinet.outside.y0 += wider;
            cabinet.outside.y1 -= rail.value / 2.0;
        }
        let [front, over_left, over_right] = self.over;
        if let Some(front) = front {
            cabinet.outside.y0 = bounds.y0 + front.value;
        }
        if let Some(over) = over_left {
            cabinet.outside.x0 = bounds.x0 + over.value;
        }
        if let Some(over) = over_right {
            cabinet.outside.x1 = bounds.x1 - over.value;
        }
        let (left, right) = (cabinet.outside.x0, cabinet.outside.x1);
        cabinet.fastened = self.inputs.fastened;
        if let Some(bay) = self.bay {
            // Centred on its cutout; where it would stick out of the cabinet, it lies against that side and is as wide.
            let end = bounds.x1 - over_right.map_or(0.0, |over| over.value);
            let first = bounds.x0 + over_left.map_or(0.0, |over| over.value);
            let half = bay.value / 2.0;
            let bays = knockouts(slab).map(|(_, opening)| {
                let at = opening.bounds().center().x.min(end - half).max(first + half);
                ((at - half).max(left), (at + half).min(right))
            });
            cabinet.open = bays.collect();
            cabinet.partitions = cabinet.open.iter().flat_map(|bay| [bay.0, bay.1]).collect();
        }
        if self.inputs.bay == SinkBay::Railed {
            cabinet.open.clear();
        }
        if let Some(width) = self.gap_width {
            let from = bounds.x0 + self.gap_from.unwrap_or_default().value;
            let gap = (from.max(left), (from + width.value).min(right));
            if gap.0 < gap.1 {
                cabinet.partitions.retain(|at| !(gap.0 < *at && *at < gap.1));
                cabinet.partitions.extend([gap.0, gap.1]);
                cabinet.open.push(gap);
            }
        }
        cabinet.open = cabinet.open.into_iter().map(|bay| (bay.0.max(left), bay.1.min(right))).collect();
        cabinet.open.retain(|bay| bay.0 < bay.1);
        let inside = |at: &f64| *at > left + 0.02 && *at < right - 0.02;
        cabinet.partitions.retain(inside);
        cabinet.partitions.sort_by(f64::total_cmp);
        cabinet.partitions.dedup_by(|one, other| (*one - *other).abs() < 1e-3);
        cabinet.low_left = self.low.unwrap_or_default();
        cabinet
    }
}

fn more(value: Length, most: Length) -> bool {
    value > most + geometry_tolerance()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Units;
    use crate::plane::Outline;
    use crate::working::Need;

    /// A top of 60 by 24 by 1 1/2 in.
    fn slab() -> Slab {
        let (width, depth) = (inches(60.0).value, inches(24.0).value);
        let corners = [(0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth)];
        let corners = corners.map(|corner| (Point::from(corner), 0.0));
        let outline = Outline::rounded_polygon(&corners).expect("a rectangle");
        Slab { outline, openings: Vec::new(), cutouts: 0, thickness: inches(1.5) }
    }

    fn blank() -> CabinetInputs {
        CabinetInputs {
            piece: 0,
            rail: Ok(None),
            sink_bay: Ok(None),
            bay: SinkBay::Open,
            gap_from: Ok(None),
            gap_width: Ok(None),
            over_front: Ok(None),
            over_left: Ok(None),
            over_right: Ok(None),
            low_left: Ok(None),
            fastened: false,
        }
    }

    fn under(inputs: &CabinetInputs) -> Known<(Cabinet, Vec<Reach>)> {
        inputs.known()?.under(&slab())
    }

    #[test]
    fn a_blank_cabinet_is_the_usual_one() {
        assert_eq!(under(&blank()), Ok((Cabinet::under(&slab()), Vec::new())));
    }

    #[test]
    fn what_reaches_over_is_sat_on_where_it_was_typed() {
        let inputs = CabinetInputs { over_left: Ok(Some(inches(10.0))), ..blank() };
        let (cabinet, reaches) = under(&inputs).expect("it fits");
        assert_eq!((cabinet.outside.x0, reaches), (inches(10.0).value, vec![Reach::Left]));
    }

    /// A third of 24 in is 8 in; 40 in and 30 in reach over more than 60 in.
    #[test]
    fn all_that_does_not_fit_is_waited_for_at_once() {
        let inputs = CabinetInputs {
            rail: Ok(Some(inches(9.0))),
            over_left: Ok(Some(inches(40.0))),
            over_right: Ok(Some(inches(30.0))),
            ..blank()
        };
        let waiting = under(&inputs).expect_err("it does not fit");
        let says = |need: &Need| need.says.write(Units::Inch);
        let says: Vec<String> = waiting.needs().iter().map(says).collect();
        assert_eq!(
            says,
            [
                "9 in is wider than a third of this top's shorter side; 8 in is the most.",
                "nothing would bear it: both ends together have to be less than 60 in.",
            ]
        );
    }
}
