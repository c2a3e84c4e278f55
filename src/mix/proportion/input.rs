//! What proportions are worked out from, and which numbers of each can be.

use super::ProportionProblem;
use crate::measure::write_percent;
use crate::mix::limits;

/// One number that proportions are worked out from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Input {
    /// How much is to be mixed.
    Volume,
    /// Thickness of the face coat, less than that of the piece.
    FaceCoat,
    /// Water to cement that is not gone over, by mass.
    MostWater,
    /// Dry sand to cement, by mass.
    Sand,
    /// Water to cement, by mass.
    Water,
    /// Pigment, as a share of the cement.
    Pigment,
    /// Polymer solids, as a share of the cement.
    Polymer,
    /// Solids in the polymer as it comes, as a share.
    PolymerSolids,
    /// Flow aid, as a share of the cement.
    FlowAid,
    /// Solids in the flow aid as it comes, as a share.
    FlowAidSolids,
    /// Fibre, as a share of everything.
    Fibre,
    /// Air, as a share of the volume.
    Air,
    /// Specific gravity of the cement.
    CementGravity,
    /// Bulk specific gravity of the stone.
    StoneGravity,
    /// Bulk specific gravity of the sand.
    SandGravity,
    /// Specific gravity of what goes in beside them.
    OtherGravity,
    /// Dry-rodded bulk density of the stone, by that of water.
    StoneBulk,
    /// Water on and in the stone, as a share of its dry mass.
    StoneMoisture,
    /// Water that the stone takes in, as a share of its dry mass.
    StoneAbsorbs,
    /// Water on and in the sand, as a share of its dry mass.
    SandMoisture,
    /// Water that the sand takes in, as a share of its dry mass.
    SandAbsorbs,
}

/// Which numbers can be.
enum Range {
    /// Above nothing, and finite.
    Positive,
    /// From nothing up to [`limits::LARGEST_RATIO`].
    Ratio,
    /// Above nothing, up to [`limits::LARGEST_RATIO`].
    PositiveRatio,
    /// From nothing to less than that share.
    Under(f64),
    /// From nothing to all of it.
    Share,
    /// Above nothing, to all of it.
    PositiveShare,
}

impl Input {
    /// Which numbers of it can be.
    fn range(self) -> Range {
        match self {
            Self::Volume | Self::FaceCoat => Range::Positive,
            Self::Sand | Self::Water | Self::Pigment => Range::Ratio,
            Self::MostWater
            | Self::CementGravity
            | Self::StoneGravity
            | Self::SandGravity
            | Self::OtherGravity
            | Self::StoneBulk => Range::PositiveRatio,
            Self::Fibre | Self::Air => Range::Under(0.5),
            Self::StoneMoisture | Self::StoneAbsorbs | Self::SandMoisture | Self::SandAbsorbs => Range::Under(1.0),
            Self::Polymer | Self::FlowAid => Range::Share,
            Self::PolymerSolids | Self::FlowAidSolids => Range::PositiveShare,
        }
    }

    /// Passes where that number of it can be.
    ///
    /// # Errors
    /// [`ProportionProblem::NoNumber`] of it where it cannot.
    pub(super) fn check(self, value: f64) -> Result<(), ProportionProblem> {
        let most = limits::LARGEST_RATIO;
        let good = match self.range() {
            Range::Positive => value > 0.0 && value.is_finite(),
            Range::Ratio => (0.0..=most).contains(&value),
            Range::PositiveRatio => value > 0.0 && value <= most,
            Range::Under(share) => (0.0..share).contains(&value),
            Range::Share => (0.0..=1.0).contains(&value),
            Range::PositiveShare => value > 0.0 && value <= 1.0,
        };
        if good { Ok(()) } else { Err(ProportionProblem::NoNumber(self)) }
    }

    /// Which numbers of it can be, in a maker's words behind the name of its field.
    pub(super) fn can_be(self) -> String {
        let most = limits::LARGEST_RATIO;
        match self.range() {
            Range::Positive => "more than nothing, and no more than a mixer takes.".to_owned(),
            Range::Ratio => format!("a number from 0 to {most}."),
            Range::PositiveRatio => format!("a number over 0, {most} at most."),
            Range::Under(share) => format!("less than {}.", write_percent(share)),
            Range::Share => format!("{} at most.", write_percent(1.0)),
            Range::PositiveShare => format!("more than nothing, {} at most.", write_percent(1.0)),
        }
    }
}
