//! What is read from a tape in an opening, and what can be wrong with it.

use super::Angle;
use super::limits;
use crate::measure::Length;
use uom::si::angle::radian;
use uom::si::length::meter;

/// A corner of an opening, as seen from above with the front at the bottom.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Corner {
    /// A.
    FrontLeft,
    /// B.
    FrontRight,
    /// C.
    BackRight,
    /// D.
    BackLeft,
}

impl Corner {
    /// All four, counter-clockwise: A, B, C, D.
    pub const ALL: [Self; 4] = [Self::FrontLeft, Self::FrontRight, Self::BackRight, Self::BackLeft];

    /// Those that are ever asked for by three marks: two walls meet there. At the front there is only one.
    pub const ASKED: [Self; 2] = [Self::BackLeft, Self::BackRight];

    /// Its place in [`Self::ALL`].
    pub fn index(self) -> usize {
        self as usize
    }
}

/// A length that is taped from corner to corner.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Span {
    /// The width in front, A to B.
    Front,
    /// The depth at the right, B to C.
    Right,
    /// The width at the back, C to D.
    Back,
    /// The depth at the left, D to A.
    Left,
    /// The diagonal from front left to back right, A to C.
    DiagonalFromFrontLeft,
    /// The diagonal from front right to back left, B to D.
    DiagonalFromFrontRight,
}

impl Span {
    /// All six: the sides counter-clockwise from the front, then the diagonals.
    pub const ALL: [Self; 6] =
        [Self::Front, Self::Right, Self::Back, Self::Left, Self::DiagonalFromFrontLeft, Self::DiagonalFromFrontRight];

    /// The corners it runs between.
    pub fn ends(self) -> [Corner; 2] {
        use Corner::{BackLeft, BackRight, FrontLeft, FrontRight};
        match self {
            Self::Front => [FrontLeft, FrontRight],
            Self::Right => [FrontRight, BackRight],
            Self::Back => [BackRight, BackLeft],
            Self::Left => [BackLeft, FrontLeft],
            Self::DiagonalFromFrontLeft => [FrontLeft, BackRight],
            Self::DiagonalFromFrontRight => [FrontRight, BackLeft],
        }
    }

    /// Whether it is one of the two diagonals.
    pub fn is_diagonal(self) -> bool {
        matches!(self, Self::DiagonalFromFrontLeft | Self::DiagonalFromFrontRight)
    }
}

/// The walls that a top stands between.
///
/// Where there is a wall, the tape says how the side runs. Where there is none, the side is the maker's
/// to choose, and is taken square: a free end square to the back wall, and the front parallel to the
/// back wall. Between three walls the front runs straight from the front end of one side wall to that
/// of the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Walls {
    /// Left, back and right.
    Three,
    /// A corner: back and left. The right end is free.
    BackAndLeft,
    /// A corner: back and right. The left end is free.
    BackAndRight,
    /// The back alone: a rectangle.
    Back,
}

impl Walls {
    /// Whether that side of the opening is a wall. Front and diagonals never are.
    pub fn has(self, span: Span) -> bool {
        match span {
            Span::Back => true,
            Span::Left => matches!(self, Self::Three | Self::BackAndLeft),
            Span::Right => matches!(self, Self::Three | Self::BackAndRight),
            _ => false,
        }
    }

    /// Whether a corner can be measured there. Between three walls all four can, the front ones
    /// against a straightedge laid across; else only one where two walls meet.
    pub fn can_be_marked(self, corner: Corner) -> bool {
        match self {
            Self::Three => true,
            Self::BackAndLeft => corner == Corner::BackLeft,
            Self::BackAndRight => corner == Corner::BackRight,
            Self::Back => false,
        }
    }
}

/// A corner by three marks: a mark on either side of it, and the distance between the two.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Marks {
    /// From the corner to the mark on one side.
    pub one_leg: Length,
    /// From the corner to the mark on the other side.
    pub other_leg: Length,
    /// From mark to mark.
    pub between: Length,
}

impl Marks {
    /// The angle of the corner, by the law of cosines: acos((a² + b² − c²) ÷ 2ab). None where the
    /// three do not close to a triangle, or close to a flat one.
    pub fn angle(&self) -> Option<Angle> {
        let [a, b, c] = self.lengths().map(|length| length.get::<meter>());
        let closes = c < a + b && a < b + c && b < a + c;
        let cosine = (a * a + b * b - c * c) / (2.0 * a * b);
        (closes && cosine.abs() < 1.0).then(|| Angle::new::<radian>(cosine.acos()))
    }

    /// The distance between the marks that an angle would give with the same legs.
    pub fn between_at(&self, angle: Angle) -> Length {
        let [a, b, _] = self.lengths().map(|length| length.get::<meter>());
        Length::new::<meter>((a * a + b * b - 2.0 * a * b * angle.get::<radian>().cos()).max(0.0).sqrt())
    }

    /// The standard uncertainty of [`Self::angle`], by propagating that of each of the three lengths
    /// through the law of cosines.
    pub(super) fn angle_uncertainty(&self, of_each: Option<Length>) -> Option<Angle> {
        let sine = self.angle()?.get::<radian>().sin();
        let cosine = self.angle()?.get::<radian>().cos();
        let [a, b, c] = self.lengths().map(|length| length.get::<meter>());
        let by_length = [a - b * cosine, b - a * cosine, c].map(|part| part / (a * b * sine));
        let variance: f64 = std::iter::zip(by_length, self.lengths())
            .map(|(by, length)| by * of_each.unwrap_or_else(|| limits::tape_uncertainty(length)).get::<meter>())
            .map(|part| part * part)
            .sum();
        Some(Angle::new::<radian>(variance.sqrt()))
    }

    pub(super) fn lengths(&self) -> [Length; 3] {
        [self.one_leg, self.other_leg, self.between]
    }
}

/// What a reading says.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Taken {
    /// A length from corner to corner.
    Span(Span, Length),
    /// A corner by three marks.
    Marks(Corner, Marks),
}

impl Taken {
    /// What was measured.
    pub fn subject(&self) -> Wanted {
        match *self {
            Self::Span(span, _) => Wanted::Span(span),
            Self::Marks(corner, _) => Wanted::Marks(corner),
        }
    }
}

/// One reading. The same thing measured again is a reading of its own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// What it says.
    pub taken: Taken,
    /// Standard uncertainty of every length in it; [`limits::tape_uncertainty`] of each where there is
    /// none.
    pub uncertainty: Option<Length>,
}

impl Reading {
    /// A length from corner to corner, as sure as tapes are.
    pub fn span(span: Span, length: Length) -> Self {
        Self { taken: Taken::Span(span, length), uncertainty: None }
    }

    /// A corner by three marks, as sure as tapes are.
    pub fn marks(corner: Corner, one_leg: Length, other_leg: Length, between: Length) -> Self {
        Self { taken: Taken::Marks(corner, Marks { one_leg, other_leg, between }), uncertainty: None }
    }
}

/// Something to measure.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Wanted {
    /// A length from corner to corner.
    Span(Span),
    /// A corner by three marks.
    Marks(Corner),
}

/// Why an opening cannot be solved. A reading is named by its place among the readings.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Problem {
    /// A length that is zero, negative or no number.
    NoLength {
        /// Which reading.
        reading: usize,
    },
    /// A length over [`limits::longest_reading`].
    TooLong {
        /// Which reading.
        reading: usize,
    },
    /// An uncertainty that is zero, negative or no number, or so small or large beside its reading that
    /// nothing can be worked out with it.
    BadUncertainty {
        /// Which reading.
        reading: usize,
    },
    /// More readings than [`limits::MOST_READINGS`].
    TooManyReadings,
    /// Marks at a corner where no two walls meet: see [`Walls::can_be_marked`].
    NoCornerThere {
        /// Which reading.
        reading: usize,
    },
    /// Three marks that close to no triangle.
    MarksDoNotClose {
        /// Which reading.
        reading: usize,
    },
    /// A length that is as long as the other way round between its ends, or longer: a diagonal longer
    /// than two sides, a side longer than the three others.
    LongerThanTheWayRound {
        /// Which reading.
        reading: usize,
        /// The readings that together are the way round.
        others: Vec<usize>,
    },
    /// The readings do not fix the shape.
    TooFew {
        /// What to measure so that they do, in order; never empty.
        take: Vec<Wanted>,
    },
    /// The solved opening is not one a top fits into: it bends inwards at that corner, or is flat there.
    BendsInwards {
        /// Where.
        corner: Corner,
    },
}

impl Problem {
    /// The reading it is about; none where it is about all of them.
    pub fn reading(&self) -> Option<usize> {
        match self {
            Self::NoLength { reading }
            | Self::TooLong { reading }
            | Self::BadUncertainty { reading }
            | Self::NoCornerThere { reading }
            | Self::MarksDoNotClose { reading }
            | Self::LongerThanTheWayRound { reading, .. } => Some(*reading),
            Self::TooManyReadings | Self::TooFew { .. } | Self::BendsInwards { .. } => None,
        }
    }
}
