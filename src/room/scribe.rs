//! A bowed wall by its gaps from a straightedge.

use super::limits;
use crate::measure::Length;
use crate::measure::geometry_tolerance;
use kurbo::Point;
use uom::si::length::meter;

/// One gap between a straightedge and a wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Station {
    /// How far along the straightedge, from its left end.
    pub along: Length,
    /// From the straightedge to the wall; zero where it touches.
    pub gap: Length,
}

/// Why stations give no line. Stations are counted from zero.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ScribeProblem {
    /// Fewer than two.
    TooFew,
    /// More than [`limits::MOST_CORNERS`].
    TooMany,
    /// A station that is no number, or whose gap is negative.
    NoNumber {
        /// Which station.
        station: usize,
    },
    /// A station that does not lie behind the one before it.
    NotInOrder {
        /// Which station.
        station: usize,
    },
}

/// A bowed wall: the gap at every point along a straightedge, running smoothly through the stations
/// without rising or falling past any of them (monotone cubics after Fritsch and Carlson).
#[derive(Clone, Debug, PartialEq)]
pub struct ScribeLine {
    stations: Vec<Station>,
    /// Slope of the gap at each station.
    slopes: Vec<f64>,
}

/// What hides the gap behind a straight edge that is not scribed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hiding {
    /// The widest gap: the clearance and the bow.
    pub gap: Length,
    /// How much wider a gap caulk hides; negative where the gap is too wide for it.
    pub caulk_to_spare: Length,
    /// How much wider a gap the backsplash covers; negative where it is too thin. None where there is
    /// no backsplash.
    pub backsplash_to_spare: Option<Length>,
}

impl Hiding {
    /// Whether caulk alone hides the gap.
    pub fn by_caulk(&self) -> bool {
        self.caulk_to_spare >= -geometry_tolerance()
    }

    /// Whether the backsplash covers the gap.
    pub fn by_backsplash(&self) -> bool {
        self.backsplash_to_spare.is_some_and(|spare| spare >= -geometry_tolerance())
    }

    /// Whether the edge must be scribed to the wall.
    pub fn must_be_scribed(&self) -> bool {
        !self.by_caulk() && !self.by_backsplash()
    }
}

impl ScribeLine {
    /// The line through these stations, in order from the left.
    ///
    /// # Errors
    /// The first station that gives no line; see [`ScribeProblem`].
    pub fn of(stations: &[Station]) -> Result<Self, ScribeProblem> {
        if stations.len() < 2 {
            return Err(ScribeProblem::TooFew);
        }
        if stations.len() > limits::MOST_CORNERS {
            return Err(ScribeProblem::TooMany);
        }
        let reach = limits::longest_reading();
        let good = |length: Length| length >= Length::default() && length <= reach;
        if let Some(station) = stations.iter().position(|station| !(good(station.along) && good(station.gap))) {
            return Err(ScribeProblem::NoNumber { station });
        }
        let in_order = |pair: &[Station]| pair[1].along - pair[0].along > geometry_tolerance();
        if let Some(before) = stations.windows(2).position(|pair| !in_order(pair)) {
            return Err(ScribeProblem::NotInOrder { station: before + 1 });
        }
        Ok(Self { slopes: slopes(stations), stations: stations.to_vec() })
    }

    /// The gap at a place along the straightedge; None past its stations.
    pub fn at(&self, along: Length) -> Option<Length> {
        let last = self.stations.last()?.along;
        let inside = along >= self.stations.first()?.along && along <= last;
        let before = self.stations.partition_point(|station| station.along <= along).min(self.stations.len() - 1);
        let (from, to) = (before.checked_sub(1).filter(|_| inside)?, before);
        let (a, b) = (&self.stations[from], &self.stations[to]);
        let wide = (b.along - a.along).get::<meter>();
        let t = (along - a.along).get::<meter>() / wide;
        let (rest, gap_a, gap_b) = (1.0 - t, a.gap.get::<meter>(), b.gap.get::<meter>());
        let gap = gap_a * rest * rest * (1.0 + 2.0 * t)
            + gap_b * t * t * (3.0 - 2.0 * t)
            + wide * t * rest * (self.slopes[from] * rest - self.slopes[to] * t);
        Some(Length::new::<meter>(gap))
    }

    /// The line as points, so many pieces from station to station (at least 1, at most 100): x along
    /// the straightedge and y the gap, in metres.
    pub fn polyline(&self, pieces: usize) -> Vec<Point> {
        let pieces = pieces.clamp(1, 100);
        let mut points = Vec::with_capacity(self.stations.len() * pieces);
        let place = |station: &Station| Point::new(station.along.get::<meter>(), station.gap.get::<meter>());
        for pair in self.stations.windows(2) {
            points.push(place(&pair[0]));
            for piece in 1..pieces {
                let along = pair[0].along + (pair[1].along - pair[0].along) * (piece as f64 / pieces as f64);
                points.extend(self.at(along).map(|gap| place(&Station { along, gap })));
            }
        }
        points.extend(self.stations.last().map(place));
        points
    }

    /// The widest gap behind a straight edge that is set along the straightedge's line and moved back
    /// until it touches the wall, and where that is.
    pub fn widest(&self) -> Station {
        let by_gap = |one: &&Station, other: &&Station| one.gap.value.total_cmp(&other.gap.value);
        let touching = self.stations.iter().min_by(by_gap).map_or(Length::default(), |station| station.gap);
        let widest = self.stations.iter().max_by(by_gap).copied();
        let widest = widest.unwrap_or(Station { along: Length::default(), gap: touching });
        Station { gap: widest.gap - touching, ..widest }
    }

    /// What hides the gap behind a straight edge that keeps this clearance from the wall where it is
    /// nearest.
    pub fn hiding(&self, clearance: Length, backsplash: Option<Length>) -> Hiding {
        let gap = self.widest().gap + clearance;
        Hiding {
            gap,
            caulk_to_spare: limits::caulk_widest() - gap,
            backsplash_to_spare: backsplash.map(|thickness| thickness - gap),
        }
    }
}

/// Slopes at the stations: the mean of the neighbours', none at a peak or hollow, and drawn back to the
/// circle of radius 3 within which a cubic stays monotone (Fritsch and Carlson 1980, from memory).
fn slopes(stations: &[Station]) -> Vec<f64> {
    let rises: Vec<f64> =
        stations.windows(2).map(|pair| ((pair[1].gap - pair[0].gap) / (pair[1].along - pair[0].along)).value).collect();
    let last = rises.len();
    let mut slopes: Vec<f64> = (0..=last)
        .map(|at| match (at.checked_sub(1).map(|before| rises[before]), rises.get(at)) {
            (Some(before), Some(&after)) if before * after > 0.0 => (before + after) / 2.0,
            (Some(_), Some(_)) => 0.0,
            (Some(only), None) => only,
            (None, only) => only.copied().unwrap_or_default(),
        })
        .collect();
    for (at, &rise) in rises.iter().enumerate() {
        if rise == 0.0 {
            (slopes[at], slopes[at + 1]) = (0.0, 0.0);
            continue;
        }
        let size = f64::hypot(slopes[at] / rise, slopes[at + 1] / rise);
        if size > 3.0 {
            slopes[at] *= 3.0 / size;
            slopes[at + 1] *= 3.0 / size;
        }
    }
    slopes
}
