//! The opening by weighted least squares.
//!
//! Five numbers are solved for: the width of the back wall, and where the two front corners are, seen
//! from the back left corner along the back wall; fewer where a side is square because there is no
//! wall. Each reading is an equation weighted by its uncertainty. The lengths and angles that come out
//! do not depend on the frame, so their uncertainties do not either.

use super::chance::{chance_of_more, critical_chi_square};
use super::diagnosis::{self, Verdict};
use super::reading::{Corner, Problem, Reading, Span, Taken, Walls, Wanted};
use super::{Angle, limits};
use crate::measure::geometry_tolerance;
use crate::measure::{Area, Length};
use kurbo::{Point, Vec2};
use nalgebra::{SMatrix, SVector};
use uom::si::angle::radian;
use uom::si::area::square_meter;
use uom::si::length::meter;

/// Steps after which a fit is taken as it is; it usually needs five.
const MOST_STEPS: usize = 200;

/// How far the sides of some starts lean, as a share of the width.
const LEAN: f64 = 0.3;

/// A reading of less redundancy than this is checked by no other: float noise is under it, and the
/// least that a useful check has is far over it.
const LEAST_REDUNDANCY: f64 = 1e-6;

/// A length or an angle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Amount {
    /// Of a length from corner to corner.
    Length(Length),
    /// Of a corner by three marks.
    Angle(Angle),
}

/// The inside angle of a corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CornerAngle {
    /// The angle, over 0° and under 180°.
    pub angle: Angle,
    /// Its standard uncertainty, from that of the readings; zero where it is square by choice.
    pub uncertainty: Angle,
}

/// How one reading fits the solved opening.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fit {
    /// What was read; of three marks, their angle.
    pub measured: Amount,
    /// What the solved opening has.
    pub fitted: Amount,
    /// Fitted less measured.
    pub residual: Amount,
    /// The share of an error in this reading that shows in its own residual, 0 to 1: 0 where no other
    /// reading checks it. Over all readings they add up to the degrees of freedom.
    pub redundancy: f64,
    /// The residual over its own standard deviation, which is the reading's uncertainty times the root
    /// of its redundancy. None where no other reading checks it.
    pub standardised: Option<f64>,
    /// The largest slip in this length that would not show among readings that are good otherwise. None where no other
    /// reading checks it, and for a corner by three marks.
    pub unseen: Option<Length>,
}

/// How far the readings agree as a whole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Agreement {
    /// The sum of squares of the residuals, each over the uncertainty of its reading.
    pub chi_square: f64,
    /// Readings more than the shape needs.
    pub degrees_of_freedom: u32,
    /// What good readings exceed in 5 cases of 100; 0 for no degrees of freedom.
    pub critical: f64,
    /// The chance that good readings disagree as much, 0 to 1.
    pub probability: f64,
}

impl Agreement {
    fn new(chi_square: f64, degrees_of_freedom: u32) -> Self {
        Self {
            chi_square,
            degrees_of_freedom,
            critical: critical_chi_square(limits::CHANCE_OF_FALSE_ALARM, degrees_of_freedom),
            probability: chance_of_more(chi_square, degrees_of_freedom),
        }
    }

    /// Whether chance alone explains the disagreement, at 5 %.
    pub fn holds(&self) -> bool {
        self.degrees_of_freedom == 0 || self.chi_square <= self.critical
    }
}

/// A solved opening.
#[derive(Clone, Debug, PartialEq)]
pub struct Survey {
    /// The walls it stands between.
    pub walls: Walls,
    /// Its corners, in the order of [`Corner::ALL`].
    pub corners: [Point; 4],
    /// The angles of its corners, in the same order.
    pub angles: [CornerAngle; 4],
    /// Its area.
    pub area: Area,
    /// How each reading fits, in the order of the readings.
    pub fits: Vec<Fit>,
    /// How far the readings agree.
    pub agreement: Agreement,
    /// The root of the mean of the squared residuals of all lengths from corner to corner.
    pub root_mean_square: Length,
    /// The most that a length from corner to corner differs from what all other readings together
    /// make it (its residual over its redundancy); zero where none is checked.
    pub misclosure: Length,
    /// Whether a reading is wrong, and which it could be.
    pub verdict: Verdict,
}

/// Solves an opening by weighted least squares over all readings.
///
/// # Errors
/// Every reading that cannot be right by itself or beside the others; or what to measure so that the
/// shape is fixed; or the corner at which the solved opening bends inwards. Readings that disagree are
/// no error: see [`Survey::verdict`].
pub fn survey(walls: Walls, readings: &[Reading]) -> Result<Survey, Vec<Problem>> {
    let observed = observe(walls, readings)?;
    let problems = longer_than_the_way_round(&observed);
    if !problems.is_empty() {
        return Err(problems);
    }
    let solution = solve(walls, &observed);
    let Some(covariance) = solution.covariance().filter(|_| observed.len() >= unknowns(walls)) else {
        return Err(vec![Problem::TooFew { take: missing(&solution) }]);
    };
    if let Some(&corner) = solution.bends().first() {
        return Err(vec![Problem::BendsInwards { corner }]);
    }
    Ok(finish(&solution, &covariance))
}

/// A reading as a number: metres or radians.
#[derive(Clone, Copy, Debug)]
pub(super) struct Observed {
    pub(super) taken: Taken,
    pub(super) subject: Wanted,
    pub(super) value: f64,
    pub(super) deviation: f64,
}

pub(super) type Unknowns = SVector<f64, 5>;
pub(super) type Square = SMatrix<f64, 5, 5>;

/// The number of unknowns that are free.
pub(super) fn unknowns(walls: Walls) -> usize {
    match walls {
        Walls::Three => 5,
        Walls::BackAndLeft | Walls::BackAndRight => 3,
        Walls::Back => 2,
    }
}

/// Readings as numbers, or what is wrong with each by itself.
fn observe(walls: Walls, readings: &[Reading]) -> Result<Vec<Observed>, Vec<Problem>> {
    if readings.len() > limits::MOST_READINGS {
        return Err(vec![Problem::TooManyReadings]);
    }
    let (mut observed, mut problems) = (Vec::new(), Vec::new());
    for (reading, read) in readings.iter().enumerate() {
        match observe_one(walls, reading, read) {
            Ok(one) => observed.push(one),
            Err(problem) => problems.push(problem),
        }
    }
    if problems.is_empty() { Ok(observed) } else { Err(problems) }
}

fn observe_one(walls: Walls, reading: usize, read: &Reading) -> Result<Observed, Problem> {
    let check = |length: Length| {
        let usable = length.get::<meter>().is_finite() && length > geometry_tolerance();
        match usable {
            false => Err(Problem::NoLength { reading }),
            true if length > limits::longest_reading() => Err(Problem::TooLong { reading }),
            true => Ok(()),
        }
    };
    let sure = |deviation: Length| deviation >= geometry_tolerance() && deviation <= Length::new::<meter>(1.0);
    if read.uncertainty.is_some_and(|deviation| !sure(deviation)) {
        return Err(Problem::BadUncertainty { reading });
    }
    let subject = read.taken.subject();
    let (value, deviation) = match read.taken {
        Taken::Span(_, length) => {
            check(length)?;
            let deviation = read.uncertainty.unwrap_or_else(|| limits::tape_uncertainty(length));
            (length.get::<meter>(), deviation.get::<meter>())
        }
        Taken::Marks(corner, marks) => {
            marks.lengths().into_iter().try_for_each(check)?;
            if !walls.can_be_marked(corner) {
                return Err(Problem::NoCornerThere { reading });
            }
            let angle = marks.angle().ok_or(Problem::MarksDoNotClose { reading })?;
            let deviation = marks.angle_uncertainty(read.uncertainty);
            (angle.get::<radian>(), deviation.map_or(f64::NAN, |deviation| deviation.get::<radian>()))
        }
    };
    if !(deviation.is_finite() && deviation > 0.0) {
        return Err(Problem::BadUncertainty { reading });
    }
    Ok(Observed { taken: read.taken, subject, value, deviation })
}

/// Lengths that are no shorter than some way round between their ends.
fn longer_than_the_way_round(observed: &[Observed]) -> Vec<Problem> {
    let longest = Span::ALL.map(|span| {
        let of_span = observed.iter().enumerate().filter(|(_, one)| one.subject == Wanted::Span(span));
        of_span.max_by(|(_, one), (_, other)| one.value.total_cmp(&other.value))
    });
    // The most generous way: each part by its longest reading.
    let way = |parts: &[Span]| -> Option<(Vec<usize>, f64)> {
        let parts: Option<Vec<_>> = parts.iter().map(|&part| longest[part as usize]).collect();
        let parts = parts?;
        Some((parts.iter().map(|(index, _)| *index).collect(), parts.iter().map(|(_, one)| one.value).sum()))
    };
    let mut problems = Vec::new();
    for (reading, one) in observed.iter().enumerate() {
        let Wanted::Span(span) = one.subject else { continue };
        let ends = span.ends();
        let between = |a: Corner, b: Corner| Span::ALL.into_iter().find(|other| is_between(*other, a, b));
        let by_one_corner = Corner::ALL.into_iter().filter(|via| !ends.contains(via)).filter_map(|via| {
            let parts = [between(ends[0], via)?, between(via, ends[1])?];
            way(&parts)
        });
        let by_the_sides = Span::ALL.into_iter().filter(|other| !other.is_diagonal() && *other != span);
        let by_the_sides: Vec<_> = by_the_sides.filter(|_| !span.is_diagonal()).collect();
        let all_round = if by_the_sides.is_empty() { None } else { way(&by_the_sides) };
        let shorter = by_one_corner.chain(all_round).find(|(_, round)| one.value >= *round);
        problems.extend(shorter.map(|(others, _)| Problem::LongerThanTheWayRound { reading, others }));
    }
    problems
}

fn is_between(span: Span, a: Corner, b: Corner) -> bool {
    span.ends() == [a, b] || span.ends() == [b, a]
}

/// The corners that the unknowns give, seen from the back left one: width of the back, then x and y of
/// the front left and front right corners.
fn corners_of(walls: Walls, at: &Unknowns) -> [Vec2; 4] {
    let back_right = Vec2::new(at[0], 0.0);
    let (mut front_left, mut front_right) = (Vec2::new(at[1], at[2]), Vec2::new(at[3], at[4]));
    if matches!(walls, Walls::BackAndRight) {
        front_left = Vec2::new(0.0, front_right.y);
    }
    if matches!(walls, Walls::Back) {
        front_left.x = 0.0;
    }
    if matches!(walls, Walls::BackAndLeft | Walls::Back) {
        front_right = Vec2::new(back_right.x, front_left.y);
    }
    [front_left, front_right, back_right, Vec2::ZERO]
}

/// The slope of a quantity by the unknowns, from its slopes by the corners.
fn by_unknowns(walls: Walls, by: &[Vec2; 4]) -> Unknowns {
    let [a, b, c, _] = *by;
    match walls {
        Walls::Three => Unknowns::from([c.x, a.x, a.y, b.x, b.y]),
        Walls::BackAndLeft => Unknowns::from([c.x + b.x, a.x, a.y + b.y, 0.0, 0.0]),
        Walls::BackAndRight => Unknowns::from([c.x, 0.0, 0.0, b.x, a.y + b.y]),
        Walls::Back => Unknowns::from([c.x + b.x, 0.0, a.y + b.y, 0.0, 0.0]),
    }
}

fn is_free(walls: Walls) -> [bool; 5] {
    match walls {
        Walls::Three => [true; 5],
        Walls::BackAndLeft => [true, true, true, false, false],
        Walls::BackAndRight => [true, false, false, true, true],
        Walls::Back => [true, false, true, false, false],
    }
}

/// A length or an angle of the corners, and its slope by each corner.
fn quantity(subject: Wanted, corners: &[Vec2; 4]) -> (f64, [Vec2; 4]) {
    let mut by = [Vec2::ZERO; 4];
    match subject {
        Wanted::Span(span) => {
            let [from, to] = span.ends().map(Corner::index);
            let apart = corners[to] - corners[from];
            let length = apart.hypot();
            let direction = if length > 0.0 { apart / length } else { Vec2::new(1.0, 0.0) };
            (by[from], by[to]) = (-direction, direction);
            (length, by)
        }
        Wanted::Marks(corner) => {
            let (here, next, before) = (corner.index(), (corner.index() + 1) % 4, (corner.index() + 3) % 4);
            let (to_next, to_before) = (corners[next] - corners[here], corners[before] - corners[here]);
            let turn = |arm: Vec2| Vec2::new(-arm.y, arm.x) / arm.hypot2().max(f64::MIN_POSITIVE);
            by[next] = -turn(to_next);
            by[before] = turn(to_before);
            by[here] = -by[next] - by[before];
            (to_next.cross(to_before).atan2(to_next.dot(to_before)), by)
        }
    }
}

/// The unknowns that fit some readings best.
#[derive(Clone, Debug)]
pub(super) struct Solution<'a> {
    pub(super) walls: Walls,
    pub(super) observed: &'a [Observed],
    pub(super) unknowns: Unknowns,
    pub(super) chi_square: f64,
}

impl<'a> Solution<'a> {
    pub(super) fn corners(&self) -> [Vec2; 4] {
        corners_of(self.walls, &self.unknowns)
    }

    /// What the solution makes of a length or an angle.
    pub(super) fn value(&self, subject: Wanted) -> f64 {
        quantity(subject, &self.corners()).0
    }

    /// The slope of a length or an angle by the unknowns.
    pub(super) fn slope(&self, subject: Wanted) -> Unknowns {
        by_unknowns(self.walls, &quantity(subject, &self.corners()).1)
    }

    /// The equation of each reading, over its uncertainty.
    pub(super) fn rows(&self) -> Vec<Unknowns> {
        self.observed.iter().map(|one| self.slope(one.subject) / one.deviation).collect()
    }

    /// The normal equations' matrix; unknowns that are not free stand apart with a one.
    pub(super) fn normal(&self) -> Square {
        let fixed = is_free(self.walls).map(|free| if free { 0.0 } else { 1.0 });
        let mut normal = Square::from_diagonal(&Unknowns::from(fixed));
        for row in self.rows() {
            normal += row * row.transpose();
        }
        normal
    }

    /// The covariance of the unknowns; None where the readings do not fix the shape.
    fn covariance(&self) -> Option<Square> {
        fixing(self.walls, &self.normal())
    }

    /// The corners that are not convex.
    fn bends(&self) -> Vec<Corner> {
        let flat = geometry_tolerance().get::<meter>();
        let corners = self.corners();
        let bends = |corner: &Corner| {
            let (angle, _) = quantity(Wanted::Marks(*corner), &corners);
            // Not written as a comparison with π alone: NaN is no corner either.
            !(angle > flat && angle < std::f64::consts::PI - flat)
        };
        Corner::ALL.into_iter().filter(bends).collect()
    }
}

/// The inverse of the normal equations, if it leaves no free unknown looser than a fixed shape is.
fn fixing(walls: Walls, normal: &Square) -> Option<Square> {
    let covariance = normal.cholesky()?.inverse();
    let loosest = limits::loosest_corner().get::<meter>();
    let fixed = is_free(walls).iter().enumerate().all(|(index, free)| {
        let variance = covariance[(index, index)];
        !free || (variance >= 0.0 && variance <= loosest * loosest)
    });
    fixed.then_some(covariance)
}

fn chi_square(walls: Walls, observed: &[Observed], at: &Unknowns) -> f64 {
    let corners = corners_of(walls, at);
    let parts = observed.iter().map(|one| (quantity(one.subject, &corners).0 - one.value) / one.deviation);
    parts.map(|part| part * part).sum()
}

/// Levenberg and Marquardt's way downhill from there.
pub(super) fn descend<'a>(walls: Walls, observed: &'a [Observed], start: Unknowns) -> Solution<'a> {
    let chi = chi_square(walls, observed, &start);
    let mut best = Solution { walls, observed, unknowns: start, chi_square: chi };
    let mut damping = 1e-3;
    for _ in 0..MOST_STEPS {
        let normal = best.normal();
        let downhill: Unknowns = std::iter::zip(best.rows(), observed)
            .map(|(row, one)| row * ((one.value - best.value(one.subject)) / one.deviation))
            .sum();
        // Directions that no reading tells of are held where they are.
        let held = normal.diagonal().add_scalar(1.0) * damping;
        let step = (normal + Square::from_diagonal(&held)).cholesky().map(|solver| solver.solve(&downhill));
        let tried = step.map(|step| best.unknowns + step);
        let tried_chi = tried.map_or(f64::NAN, |at| chi_square(walls, observed, &at));
        match (step, tried) {
            (Some(step), Some(at)) if tried_chi <= best.chi_square => {
                best.unknowns = at;
                best.chi_square = tried_chi;
                damping = (damping / 10.0).max(1e-12);
                if step.norm() <= 1e-14 * at.norm() {
                    break;
                }
            }
            _ if damping > 1e12 => break,
            _ => damping *= 10.0,
        }
    }
    best
}

/// The best of several ways downhill: a start may lie on the wrong side of a ridge.
fn solve<'a>(walls: Walls, observed: &'a [Observed]) -> Solution<'a> {
    let spare = observed.len().saturating_sub(unknowns(walls));
    let enough = critical_chi_square(limits::CHANCE_OF_FALSE_ALARM, spare as u32).max(1e-9);
    let mut best: Option<Solution<'a>> = None;
    for start in starts(walls, observed) {
        let found = descend(walls, observed, start);
        let convex = found.bends().is_empty();
        if convex && found.chi_square <= enough {
            return found;
        }
        // Two ways down to one bottom: it is the bottom, and the readings disagree.
        let again = |best: &Solution<'_>| (found.chi_square - best.chi_square).abs() <= 1e-6 * best.chi_square;
        if convex && best.as_ref().is_some_and(|best| best.bends().is_empty() && again(best)) {
            break;
        }
        let rank = |solution: &Solution<'_>| (solution.bends().len(), solution.chi_square);
        if best.as_ref().is_none_or(|best| rank(&found).partial_cmp(&rank(best)).is_some_and(|by| by.is_lt())) {
            best = Some(found);
        }
    }
    best.unwrap_or_else(|| descend(walls, observed, Unknowns::from([1.0, 0.0, -1.0, 1.0, -1.0])))
}

/// Guesses at the unknowns, the likeliest first: built up from each side, from each corner, and
/// rectangles, upright and with their sides leaning.
fn starts(walls: Walls, observed: &[Observed]) -> Vec<Unknowns> {
    let mean = |subject: Wanted| {
        let values: Vec<f64> = observed.iter().filter(|one| one.subject == subject).map(|one| one.value).collect();
        (!values.is_empty()).then(|| values.iter().sum::<f64>() / values.len() as f64)
    };
    let span = |span| mean(Wanted::Span(span));
    let diagonals = [span(Span::DiagonalFromFrontLeft), span(Span::DiagonalFromFrontRight)];
    let diagonal = diagonals[0].or(diagonals[1]);
    let leg = |long: Option<f64>, other: Option<f64>| {
        let square = long? * long? - other? * other?;
        (square > 0.0).then(|| square.sqrt())
    };
    let depth = span(Span::Left).or(span(Span::Right));
    let width = span(Span::Back).or(span(Span::Front)).or(leg(diagonal, depth)).unwrap_or(1.0);
    let depth = depth.or(leg(diagonal, Some(width))).unwrap_or(0.5);
    let side: [f64; 4] = std::array::from_fn(|at| span(Span::ALL[at]).unwrap_or([width, depth][at % 2]));
    let angle: [Option<f64>; 4] = std::array::from_fn(|at| {
        let by_diagonal = || {
            let (one, other, far) = (side[at], side[(at + 3) % 4], diagonals[(at + 1) % 2]?);
            let cosine = (one * one + other * other - far * far) / (2.0 * one * other);
            (cosine.abs() < 1.0).then(|| cosine.acos())
        };
        mean(Wanted::Marks(Corner::ALL[at])).or_else(by_diagonal)
    });

    let from_side = |at: usize| {
        let [here, next] = [at, (at + 1) % 4].map(|corner| angle[corner].unwrap_or(std::f64::consts::FRAC_PI_2));
        let end = Vec2::new(side[at], 0.0);
        let over_end = end + Vec2::new(-next.cos(), next.sin()) * side[(at + 1) % 4];
        let mut corners = [Vec2::ZERO, end, over_end, Vec2::from_angle(here) * side[(at + 3) % 4]];
        corners.rotate_right(at);
        corners
    };
    let from_corner = |at: usize| {
        let end = Vec2::new(side[at], 0.0);
        let before = Vec2::from_angle(angle[at]?) * side[(at + 3) % 4];
        let mut corners = [Vec2::ZERO, end, far_corner(end, side[(at + 1) % 4], before, side[(at + 2) % 4])?, before];
        corners.rotate_right(at);
        Some(corners)
    };
    let leaning = |at_left: f64, at_right: f64| {
        let upright = [Vec2::new(0.0, -side[3]), Vec2::new(width, -side[1]), Vec2::new(width, 0.0), Vec2::ZERO];
        let [a, b, c, d] = upright;
        [a + Vec2::new(at_left * width, 0.0), b + Vec2::new(at_right * width, 0.0), c, d]
    };
    let mut starts: Vec<[Vec2; 4]> = [2, 0, 1, 3].map(from_side).to_vec();
    starts.extend((0..4).filter_map(from_corner));
    for at_left in [0.0, -LEAN, LEAN] {
        starts.extend([0.0, LEAN, -LEAN].map(|at_right| leaning(at_left, at_right)));
    }
    starts.into_iter().map(|corners| seen_from_back_left(walls, corners)).collect()
}

/// Where two lengths from two corners meet, to the left of the way from the second to the first, which
/// is the far side for a corner between the two; None where they do not reach.
fn far_corner(from: Vec2, length: f64, other: Vec2, other_length: f64) -> Option<Vec2> {
    let across = other - from;
    let apart = across.hypot();
    let along = (length * length - other_length * other_length + apart * apart) / (2.0 * apart);
    let square = length * length - along * along;
    let direction = across / apart;
    let out = Vec2::new(direction.y, -direction.x);
    (square > 0.0).then(|| from + direction * along + out * square.sqrt())
}

/// The unknowns of some corners: turned so that the back lies on the axis.
fn seen_from_back_left(walls: Walls, [a, b, c, d]: [Vec2; 4]) -> Unknowns {
    let along = c - d;
    let wide = along.hypot().max(f64::MIN_POSITIVE);
    let seen = |point: Vec2| Vec2::new(along.dot(point - d), along.cross(point - d)) / wide;
    let (a, b) = (seen(a), seen(b));
    let all = Unknowns::from([wide, a.x, a.y, b.x, b.y]);
    all.component_mul(&Unknowns::from(is_free(walls).map(|free| if free { 1.0 } else { 0.0 })))
}

/// What to measure so that the shape is fixed, in the order in which makers measure: each is the first
/// that the readings so far leave open.
fn missing(solution: &Solution<'_>) -> Vec<Wanted> {
    let candidates = in_order_of_measuring(solution.walls);
    let loosest = limits::loosest_corner().get::<meter>();
    // An unknown of which nothing is known is somewhere in a large room.
    let mut normal = solution.normal() + Square::identity() / (10.0 * 10.0);
    let mut take = Vec::new();
    while take.len() < unknowns(solution.walls) {
        let Some(covariance) = normal.cholesky().map(|solver| solver.inverse()) else { break };
        // How far it is from being known, in metres; of an angle, at the end of a usual leg.
        let open = |wanted: Wanted| {
            let slope = solution.slope(wanted);
            let arm = match wanted {
                Wanted::Span(_) => 1.0,
                Wanted::Marks(_) => limits::usual_leg().get::<meter>(),
            };
            arm * (slope.transpose() * covariance * slope)[0].max(0.0).sqrt()
        };
        let loose = candidates.iter().copied().find(|&wanted| !take.contains(&wanted) && open(wanted) > loosest / 2.0);
        let loosest_of_all = || candidates.iter().copied().max_by(|&one, &other| open(one).total_cmp(&open(other)));
        let Some(next) = loose.or_else(|| if take.is_empty() { loosest_of_all() } else { None }) else { break };
        let row = solution.slope(next) / expected_deviation(solution, next);
        normal += row * row.transpose();
        take.push(next);
    }
    take
}

/// Everything that can be measured in an opening: walls first, then what is quickest to tape. Where no
/// wall holds a corner, lengths to it come last.
fn in_order_of_measuring(walls: Walls) -> Vec<Wanted> {
    let sides = [Span::Back, Span::Left, Span::Right, Span::Front];
    let diagonals = [Span::DiagonalFromFrontLeft, Span::DiagonalFromFrontRight];
    let marks = Corner::ASKED.into_iter().filter(|&corner| walls.can_be_marked(corner)).map(Wanted::Marks);
    let (held, free): (Vec<Span>, Vec<Span>) =
        sides.into_iter().partition(|&side| walls == Walls::Three || walls.has(side));
    let lengths = |spans: &[Span]| spans.iter().copied().map(Wanted::Span).collect::<Vec<_>>();
    let mut order = lengths(&held);
    if walls == Walls::Three {
        order.extend(lengths(&diagonals));
        order.extend(marks);
    } else {
        order.extend(marks);
        order.extend(lengths(&free));
        order.extend(lengths(&diagonals));
    }
    order
}

/// The uncertainty that measuring this would have, in metres or radians.
pub(super) fn expected_deviation(solution: &Solution<'_>, wanted: Wanted) -> f64 {
    let value = solution.value(wanted);
    match wanted {
        Wanted::Span(_) => limits::tape_uncertainty(Length::new::<meter>(value)).get::<meter>(),
        Wanted::Marks(corner) => {
            let leg = limits::usual_leg();
            let mut marks = super::Marks { one_leg: leg, other_leg: leg, between: leg };
            marks.between = marks.between_at(Angle::new::<radian>(value));
            let read = Reading::marks(corner, leg, leg, marks.between);
            let deviation = marks.angle_uncertainty(read.uncertainty).map(|deviation| deviation.get::<radian>());
            deviation.filter(|deviation| deviation.is_finite() && *deviation > 0.0).unwrap_or(1.0)
        }
    }
}

fn amount(subject: Wanted, si: f64) -> Amount {
    match subject {
        Wanted::Span(_) => Amount::Length(Length::new::<meter>(si)),
        Wanted::Marks(_) => Amount::Angle(Angle::new::<radian>(si)),
    }
}

/// How every reading fits.
fn fits(solution: &Solution<'_>, covariance: &Square, critical: f64) -> Vec<Fit> {
    let of_one = |(row, one): (Unknowns, &Observed)| {
        let fitted = solution.value(one.subject);
        let residual = fitted - one.value;
        let redundancy = (1.0 - (row.transpose() * covariance * row)[0]).clamp(0.0, 1.0);
        let checked = redundancy > LEAST_REDUNDANCY;
        Fit {
            measured: amount(one.subject, one.value),
            fitted: amount(one.subject, fitted),
            residual: amount(one.subject, residual),
            redundancy,
            standardised: checked.then(|| residual / (one.deviation * redundancy.sqrt())),
            // A slip adds redundancy × (slip ÷ deviation)² to the sum of squares.
            unseen: (checked && matches!(one.subject, Wanted::Span(_)))
                .then(|| Length::new::<meter>(one.deviation * (critical / redundancy).sqrt())),
        }
    };
    std::iter::zip(solution.rows(), solution.observed).map(of_one).collect()
}

fn finish(solution: &Solution<'_>, covariance: &Square) -> Survey {
    let spare = solution.observed.len() - unknowns(solution.walls);
    let agreement = Agreement::new(solution.chi_square, spare as u32);
    let fits = fits(solution, covariance, agreement.critical);
    let verdict = diagnosis::verdict(solution, &fits, &agreement);
    let lengths: Vec<(f64, &Fit)> = fits
        .iter()
        .filter_map(|fit| match fit.residual {
            Amount::Length(residual) => Some((residual.get::<meter>(), fit)),
            Amount::Angle(_) => None,
        })
        .collect();
    let mean_square = lengths.iter().map(|(off, _)| off * off).sum::<f64>() / lengths.len().max(1) as f64;
    let checked = lengths.iter().filter(|(_, fit)| fit.standardised.is_some());
    let misclosure = checked.map(|(off, fit)| off.abs() / fit.redundancy).fold(0.0, f64::max);

    let seen = solution.corners();
    let along = seen[1] - seen[0];
    let wide = along.hypot();
    let corners = seen.map(|corner| {
        let from_front_left = corner - seen[0];
        Point::new(along.dot(from_front_left) / wide, along.cross(from_front_left) / wide)
    });
    let angles = Corner::ALL.map(|corner| {
        let slope = solution.slope(Wanted::Marks(corner));
        let variance = (slope.transpose() * covariance * slope)[0].max(0.0);
        CornerAngle {
            angle: Angle::new::<radian>(solution.value(Wanted::Marks(corner))),
            uncertainty: Angle::new::<radian>(variance.sqrt()),
        }
    });
    let twice: f64 = (0..4).map(|index| seen[index].cross(seen[(index + 1) % 4])).sum();
    Survey {
        walls: solution.walls,
        corners,
        angles,
        area: Area::new::<square_meter>(twice / 2.0),
        fits,
        agreement,
        root_mean_square: Length::new::<meter>(mean_square.sqrt()),
        misclosure: Length::new::<meter>(misclosure),
        verdict,
    }
}

impl Agreement {
    /// The agreement of a fit to one reading fewer.
    pub(super) fn without_one(&self, chi_square: f64) -> Self {
        Self::new(chi_square, self.degrees_of_freedom.saturating_sub(1))
    }
}
