//! The tables of ACI 211.1 as far as a top needs them: stone of 3/8 to 1 1/2 in. Straight lines between
//! entries; nothing outside of them, but for stone of 5/16 in (8 mm), half a step under the smallest.

/// Nominal largest size of the stone, in inches.
const SIZES: [f64; 5] = [0.375, 0.5, 0.75, 1.0, 1.5];

/// The smallest stone that is worked out, in inches: on along the line of the first two entries, which is no longer the
/// table's own word.
const SMALLEST: f64 = 0.3125;

/// Slumps, in inches: both ends of each band of the table.
const SLUMPS: [f64; 6] = [1.0, 2.0, 3.0, 4.0, 6.0, 7.0];

/// Mixing water in lb/yd³, by band of slump and size of stone, without and with entrained air (Table 6.3.3).
const WATER: [[[f64; 5]; 3]; 2] = [
    [[350.0, 335.0, 315.0, 300.0, 275.0], [385.0, 365.0, 340.0, 325.0, 300.0], [410.0, 385.0, 360.0, 340.0, 315.0]],
    [[305.0, 295.0, 280.0, 270.0, 250.0], [340.0, 325.0, 305.0, 295.0, 275.0], [365.0, 345.0, 325.0, 310.0, 290.0]],
];

/// Air in percent, by size of stone: entrapped; entrained for mild, moderate and severe exposure (Table 6.3.3).
const AIR: [[f64; 5]; 4] =
    [[3.0, 2.5, 2.0, 1.5, 1.0], [4.5, 4.0, 3.5, 3.0, 2.5], [6.0, 5.5, 5.0, 4.5, 4.5], [7.5, 7.0, 6.0, 6.0, 5.5]];

/// Average strength at 28 days in psi, without and with entrained air, and the water-cement ratios for it
/// (Table 6.3.4(a)).
const STRENGTHS: [f64; 5] = [2000.0, 3000.0, 4000.0, 5000.0, 6000.0];
const RATIOS: [f64; 5] = [0.82, 0.68, 0.57, 0.48, 0.41];
const RATIOS_WITH_AIR: [f64; 4] = [0.74, 0.59, 0.48, 0.40];

/// Fineness moduli of the sand.
const FINENESS: [f64; 4] = [2.4, 2.6, 2.8, 3.0];

/// Dry-rodded volume of stone in a volume of concrete, by size and fineness modulus (Table 6.3.6).
const STONE: [[f64; 4]; 5] = [
    [0.50, 0.48, 0.46, 0.44],
    [0.59, 0.57, 0.55, 0.53],
    [0.66, 0.64, 0.62, 0.60],
    [0.71, 0.69, 0.67, 0.65],
    [0.75, 0.73, 0.71, 0.69],
];

/// From where to where the tables go.
pub mod ranges {
    use super::{FINENESS, SIZES, SLUMPS, SMALLEST, STRENGTHS};
    use crate::measure::exact::{inches, psi};
    use crate::measure::{Length, Pressure};

    /// The stiffest and the wettest slump.
    pub fn slumps() -> [Length; 2] {
        [SLUMPS[0], SLUMPS[SLUMPS.len() - 1]].map(inches)
    }

    /// The smallest and the largest stone that is worked out.
    pub fn stones() -> [Length; 2] {
        [SMALLEST, SIZES[SIZES.len() - 1]].map(inches)
    }

    /// The weakest and the strongest concrete, without entrained air.
    pub fn strengths() -> [Pressure; 2] {
        [STRENGTHS[0], STRENGTHS[STRENGTHS.len() - 1]].map(psi)
    }

    /// The finest and the coarsest sand, by fineness modulus.
    pub fn fineness() -> [f64; 2] {
        [FINENESS[0], FINENESS[FINENESS.len() - 1]]
    }
}

/// Air in a mix.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Air {
    /// Only what mixing traps.
    Entrapped,
    /// Entrained, for a top that never freezes.
    Mild,
    /// Entrained, for frost without salt.
    Moderate,
    /// Entrained, for frost and salt.
    Severe,
}

/// The straight line between the entries around `at`; `None` outside of them.
fn between(knots: &[f64], values: &[f64], at: f64) -> Option<f64> {
    // A reading that is an entry but for float noise is that entry.
    let dust = 1e-9 * knots.last()?;
    let mut entries = std::iter::zip(knots, values);
    let (mut knot, mut value) = entries.next().filter(|(knot, _)| at >= **knot - dust)?;
    if at <= *knot {
        return Some(*value);
    }
    for (next, reached) in entries {
        if at <= *next + dust {
            return Some(value + (reached - value) * ((at - knot) / (next - knot)).min(1.0));
        }
        (knot, value) = (next, reached);
    }
    None
}

/// The straight line between the entries for a size of stone, or on along the first one; `None` outside of that.
fn by_size(values: &[f64; 5], size: f64) -> Option<f64> {
    if (SMALLEST..SIZES[0]).contains(&size) {
        let a_step = (values[1] - values[0]) / (SIZES[1] - SIZES[0]);
        return Some(values[0] + a_step * (size - SIZES[0]));
    }
    between(&SIZES, values, size)
}

/// A stone smaller than the table's smallest.
pub(super) fn is_under_the_table(size: f64) -> bool {
    size < SIZES[0]
}

/// Mixing water in lb/yd³; slump and size in inches.
pub(super) fn water(slump: f64, size: f64, air: Air) -> Option<f64> {
    let table = if air == Air::Entrapped { &WATER[0] } else { &WATER[1] };
    let [low, middle, high] = [&table[0], &table[1], &table[2]].map(|band| by_size(band, size));
    let (low, middle, high) = (low?, middle?, high?);
    between(&SLUMPS, &[low, low, middle, middle, high, high], slump)
}

/// Air as a share of the volume; size in inches.
pub(super) fn air(size: f64, air: Air) -> Option<f64> {
    let [entrapped, mild, moderate, severe] = &AIR;
    let row = match air {
        Air::Entrapped => entrapped,
        Air::Mild => mild,
        Air::Moderate => moderate,
        Air::Severe => severe,
    };
    by_size(row, size).map(|percent| percent / 100.0)
}

/// Water-cement ratio by mass for an average strength at 28 days in psi.
pub(super) fn water_to_cement(strength: f64, air: Air) -> Option<f64> {
    let ratios: &[f64] = if air == Air::Entrapped { &RATIOS } else { &RATIOS_WITH_AIR };
    between(&STRENGTHS, ratios, strength)
}

/// Dry-rodded volume of stone in a volume of concrete; size in inches.
pub(super) fn stone(size: f64, fineness: f64) -> Option<f64> {
    let [a, b, c, d, e] = STONE.each_ref().map(|row| between(&FINENESS, row, fineness));
    by_size(&[a?, b?, c?, d?, e?], size)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_entry_is_found_and_nothing_outside() {
        for (row, size) in std::iter::zip(&STONE, SIZES) {
            for (entry, fineness) in std::iter::zip(row, FINENESS) {
                assert!(stone(size, fineness).is_some_and(|found| (found - entry).abs() < 1e-12), "{size} {fineness}");
            }
        }
        for (outside, inside) in [(0.312, 0.3125), (1.51, 1.5)] {
            assert_eq!(stone(outside, 2.7), None);
            assert!(stone(inside, 2.7).is_some());
            assert_eq!(water(3.0, outside, Air::Entrapped), None);
        }
        for slump in [0.9, 7.1, f64::NAN, f64::INFINITY] {
            assert_eq!(water(slump, 0.5, Air::Mild), None);
        }
        assert_eq!(water_to_cement(5001.0, Air::Mild), None);
        assert_eq!(water_to_cement(1999.0, Air::Entrapped), None);
    }

    /// 385 and 365 lb for 3/8 and 1/2 in: half a step under the first it is 395; 3 and 2 1/2 % of air are 3 1/4; 0.50 and
    /// 0.59 of stone 0.455.
    #[test]
    fn half_a_step_under_the_smallest_stone() {
        assert_eq!(water(3.0, 0.3125, Air::Entrapped), Some(395.0));
        assert_eq!(air(0.3125, Air::Entrapped), Some(0.0325));
        assert!(stone(0.3125, 2.4).is_some_and(|found| (found - 0.455).abs() < 1e-12));
        assert!(is_under_the_table(0.3125) && !is_under_the_table(0.375));
    }

    #[test]
    fn between_the_bands_of_slump() {
        assert_eq!(water(5.0, 0.5, Air::Entrapped), Some(375.0));
        assert_eq!(water(2.5, 0.375, Air::Entrapped), Some(367.5));
    }
}
