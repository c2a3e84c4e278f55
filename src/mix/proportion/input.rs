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
    /// Its name in a sentence, and which numbers of it can be.
    fn facts(self) -> (&'static str, Range) {
        match self {
            Self::Volume => ("Volume of the mix", Range::Positive),
            Self::FaceCoat => ("Face coat", Range::Positive),
            Self::MostWater => ("Water to cement, at most", Range::PositiveRatio),
            Self::Sand => ("Sand to cement", Range::Ratio),
            Self::Water => ("Water to cement", Range::Ratio),
            Self::Pigment => ("Pigment", Range::Ratio),
            Self::Polymer => ("Polymer", Range::Share),
            Self::PolymerSolids => ("Solids in the polymer", Range::PositiveShare),
            Self::FlowAid => ("Flow aid", Range::Share),
            Self::FlowAidSolids => ("Solids in the flow aid", Range::PositiveShare),
            Self::Fibre => ("Fibre", Range::Under(0.5)),
            Self::Air => ("Air", Range::Under(0.5)),
            Self::CementGravity => ("Specific gravity of the cement", Range::PositiveRatio),
            Self::StoneGravity => ("Specific gravity of the stone", Range::PositiveRatio),
            Self::SandGravity => ("Specific gravity of the sand", Range::PositiveRatio),
            Self::OtherGravity => ("Specific gravity", Range::PositiveRatio),
            Self::StoneBulk => ("Weight of dry-rodded stone, by that of water", Range::PositiveRatio),
            Self::StoneMoisture => ("Water on the stone", Range::Under(1.0)),
            Self::StoneAbsorbs => ("What the stone takes in", Range::Under(1.0)),
            Self::SandMoisture => ("Water on the sand", Range::Under(1.0)),
            Self::SandAbsorbs => ("What the sand takes in", Range::Under(1.0)),
        }
    }

    /// Passes where that number of it can be.
    ///
    /// # Errors
    /// [`ProportionProblem::NoNumber`] of it where it cannot.
    pub(super) fn check(self, value: f64) -> Result<(), ProportionProblem> {
        let most = limits::LARGEST_RATIO;
        let good = match self.facts().1 {
            Range::Positive => value > 0.0 && value.is_finite(),
            Range::Ratio => (0.0..=most).contains(&value),
            Range::PositiveRatio => value > 0.0 && value <= most,
            Range::Under(share) => (0.0..share).contains(&value),
            Range::Share => (0.0..=1.0).contains(&value),
            Range::PositiveShare => value > 0.0 && value <= 1.0,
        };
        if good { Ok(()) } else { Err(ProportionProblem::NoNumber(self)) }
    }

    /// Which numbers of it can be, in a maker's words.
    pub(super) fn says(self) -> String {
        let (name, range) = self.facts();
        let most = limits::LARGEST_RATIO;
        let can_be = match range {
            Range::Positive => "more than nothing, and no more than a form holds".to_owned(),
            Range::Ratio => format!("a number from 0 to {most}"),
            Range::PositiveRatio => format!("a number over 0, {most} at most"),
            Range::Under(share) => format!("less than {}", write_percent(share)),
            Range::Share => format!("{} at most", write_percent(1.0)),
            Range::PositiveShare => format!("more than nothing, {} at most", write_percent(1.0)),
        };
        format!("{name}: {can_be}.")
    }
}
