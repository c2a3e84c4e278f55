//! Supports: stiff springs under the nodes of lines, that may only push if so wished.
//!
//! A support that would pull lets go, and one that the top comes down on bears again, until nothing changes. A
//! top that its supports cannot hold is told by statics before anything is solved: a soft system would return
//! an answer all the same.

use super::plate::Plate;
use super::solver::{Factor, SolveError};
use kurbo::{Point, Vec2};

/// Rounds of letting go and bearing again at most.
const MOST_ROUNDS: usize = 40;
/// How much stiffer a support is than the plate around it. The loads that it takes do not depend on it.
const STIFFER: f64 = 1e4;
/// Forces and moments may be out of balance by that share.
const BALANCE: f64 = 1e-8;
/// Supports whose shape is thinner than this share of its length hold nothing across it.
const LEAST_SPREAD: f64 = 1e-3;
/// Factors kept for other loads on the same supports.
const MOST_KEPT: usize = 8;

/// One unknown of one node that is held.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contact {
    /// The node.
    pub node: usize,
    /// What is held: 0 the deflection, 1 the slope along x, 2 the slope along y.
    pub unknown: usize,
    /// The line of supports that it belongs to.
    pub line: usize,
    /// How far the plate comes down before it bears, metres times bending stiffness.
    pub gap: f64,
    /// It can only push.
    pub only_pushes: bool,
}

/// Why a plate on supports is not solved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BearingError {
    /// Nothing bears.
    NoSupport,
    /// Everything that bears lies in one line, or lets go until it does.
    OneLine,
    /// It tips over: the middle of its load lies so far outside what bears; metres.
    Tips {
        /// How far.
        by: f64,
    },
    /// The load is nothing, pulls upward altogether, or is not finite.
    NoLoad,
    /// The supports do not settle.
    NotSettled,
    /// Forces do not balance to 1e-8.
    OutOfBalance,
    /// The system is not solved.
    Solve(SolveError),
}

impl From<SolveError> for BearingError {
    fn from(error: SolveError) -> Self {
        Self::Solve(error)
    }
}

/// A solved plate.
#[derive(Clone, Debug, PartialEq)]
pub struct Settled {
    /// Deflection and slopes of every node, times bending stiffness.
    pub deflection: Vec<f64>,
    /// What each contact bears, newtons or newton metres.
    pub reactions: Vec<f64>,
    /// How far forces and moments are out of balance, as a share.
    pub imbalance: f64,
    /// Rounds that it took.
    pub rounds: usize,
}

/// A plate with the factors of the supports that have been asked for.
#[derive(Debug)]
pub struct Bearing {
    plate: Plate,
    stiffness: f64,
    kept: Vec<(Vec<usize>, Factor)>,
}

/// The whole of a load, and where its middle is; nothing if there is none downward.
fn middle_of(plate: &Plate, load: &[f64]) -> Option<(f64, Point)> {
    let mut total = 0.0;
    let mut moment = Vec2::ZERO;
    for (node, force) in plate.mesh().nodes.iter().zip(load.iter().step_by(3)) {
        total += force;
        moment += *force * node.to_vec2();
    }
    let middle = (moment / total).to_point();
    (total > 0.0 && total.is_finite() && middle.is_finite()).then_some((total, middle))
}

impl Bearing {
    /// The plate, not yet borne.
    pub fn new(plate: Plate) -> Self {
        let (area, nodes) = (plate.mesh().area(), plate.mesh().nodes.len().max(1) as f64);
        Self { plate, stiffness: STIFFER * nodes / area, kept: Vec::new() }
    }

    /// The plate.
    pub fn plate(&self) -> &Plate {
        &self.plate
    }

    /// Lets the plate settle on those contacts under that load.
    ///
    /// # Errors
    /// Why it does not.
    pub fn settle(&mut self, contacts: &[Contact], load: &[f64]) -> Result<Settled, BearingError> {
        self.check(contacts, load)?;
        let mut bears: Vec<bool> = vec![true; contacts.len()];
        for round in 1..=MOST_ROUNDS {
            let deflection = self.solve(contacts, &bears, load)?;
            let mut changed = false;
            for (contact, bears) in contacts.iter().zip(&mut bears) {
                let pressed = deflection[3 * contact.node + contact.unknown] > contact.gap;
                if contact.only_pushes && pressed != *bears {
                    *bears = pressed;
                    changed = true;
                }
            }
            if !changed {
                return self.settled(contacts, &bears, load, deflection, round);
            }
            if spread(&self.plate, contacts.iter().zip(&bears).filter(|(_, bears)| **bears).map(|pair| pair.0))
                .is_none()
            {
                return Err(BearingError::OneLine);
            }
        }
        Err(BearingError::NotSettled)
    }

    /// By statics alone: whether supports that only push can hold that load at all.
    fn check(&self, contacts: &[Contact], load: &[f64]) -> Result<(), BearingError> {
        let nodes = &self.plate.mesh().nodes;
        let good = |contact: &Contact| contact.node < nodes.len() && contact.unknown < 3 && contact.gap.is_finite();
        if contacts.is_empty() || !contacts.iter().all(good) {
            return Err(BearingError::NoSupport);
        }
        if load.len() != 3 * nodes.len() || !load.iter().all(|force| force.is_finite()) {
            return Err(BearingError::NoLoad);
        }
        if !contacts.iter().all(|contact| contact.only_pushes) {
            return Ok(());
        }
        let (_, middle) = middle_of(&self.plate, load).ok_or(BearingError::NoLoad)?;
        let hull = spread(&self.plate, contacts.iter()).ok_or(BearingError::OneLine)?;
        let by = outside(&hull, middle);
        if by >= 0.0 { Err(BearingError::Tips { by }) } else { Ok(()) }
    }

    /// Solves with those contacts that bear, once more for what the first answer leaves over.
    fn solve(&mut self, contacts: &[Contact], bears: &[bool], load: &[f64]) -> Result<Vec<f64>, BearingError> {
        let held: Vec<&Contact> = contacts.iter().zip(bears).filter(|(_, bears)| **bears).map(|pair| pair.0).collect();
        let springs: Vec<(usize, f64)> =
            held.iter().map(|contact| (3 * contact.node + contact.unknown, self.stiffness)).collect();
        let mut right = load.to_vec();
        for (contact, (unknown, stiffness)) in held.iter().zip(&springs) {
            right[*unknown] += stiffness * contact.gap;
        }
        let system = self.plate.system();
        let unknowns: Vec<usize> = springs.iter().map(|spring| spring.0).collect();
        let known = self.kept.iter().position(|(own, _)| *own == unknowns);
        let at = match known {
            Some(at) => at,
            None => {
                let factor = system.factor(&springs)?;
                if self.kept.len() >= MOST_KEPT {
                    self.kept.remove(0);
                }
                self.kept.push((unknowns, factor));
                self.kept.len() - 1
            }
        };
        let Some((_, factor)) = self.kept.get(at) else { return Err(BearingError::NoSupport) };
        let mut found = factor.solve(&right);
        let product = system.times(&found, &springs);
        let left: Vec<f64> = right.iter().zip(product).map(|(right, product)| right - product).collect();
        for (found, more) in found.iter_mut().zip(factor.solve(&left)) {
            *found += more;
        }
        Ok(found)
    }

    fn settled(
        &self,
        contacts: &[Contact],
        bears: &[bool],
        load: &[f64],
        deflection: Vec<f64>,
        rounds: usize,
    ) -> Result<Settled, BearingError> {
        let reaction = |(contact, bears): (&Contact, &bool)| {
            let pressed = deflection[3 * contact.node + contact.unknown] - contact.gap;
            if *bears { self.stiffness * pressed } else { 0.0 }
        };
        let reactions: Vec<f64> = contacts.iter().zip(bears).map(reaction).collect();
        let imbalance = imbalance(&self.plate, contacts, &reactions, load);
        if !(imbalance <= BALANCE) {
            return Err(BearingError::OutOfBalance);
        }
        Ok(Settled { deflection, reactions, imbalance, rounds })
    }
}

/// How far the loads and the reactions are out of balance: their sum over that of their sizes, and the same of
/// their moments about the middle of the plate.
fn imbalance(plate: &Plate, contacts: &[Contact], reactions: &[f64], load: &[f64]) -> f64 {
    let nodes = &plate.mesh().nodes;
    let origin = nodes.first().copied().unwrap_or_default();
    let reach = nodes.iter().map(|node| (*node - origin).hypot()).fold(0.0, f64::max);
    let mut sums = [0.0; 3];
    let mut size = 0.0;
    let mut take = |node: usize, unknown: usize, force: f64| {
        let from = nodes[node] - origin;
        // A turn of the whole plate by one moves a node by its distance, and its slopes by one.
        let moved = match unknown {
            0 => [1.0, from.x / reach, from.y / reach],
            1 => [0.0, 1.0 / reach, 0.0],
            _ => [0.0, 0.0, 1.0 / reach],
        };
        for (sum, moved) in sums.iter_mut().zip(moved) {
            *sum += force * moved;
        }
        size += if unknown == 0 { force.abs() } else { (force / reach).abs() };
    };
    for (unknown, force) in load.iter().enumerate() {
        take(unknown / 3, unknown % 3, *force);
    }
    for (contact, reaction) in contacts.iter().zip(reactions) {
        take(contact.node, contact.unknown, -reaction);
    }
    sums.iter().fold(0.0, |most: f64, sum| most.max(sum.abs())) / size
}

/// The corners of what the contacts hold, counter-clockwise; nothing if that is but a line.
fn spread<'a>(plate: &Plate, contacts: impl Iterator<Item = &'a Contact>) -> Option<Vec<Point>> {
    let mut points: Vec<Point> =
        contacts.filter(|contact| contact.unknown == 0).map(|contact| plate.mesh().nodes[contact.node]).collect();
    points.sort_by(|one, other| one.x.total_cmp(&other.x).then(one.y.total_cmp(&other.y)));
    let hull = hull_of(&points);
    let origin = *hull.first()?;
    let length = hull.iter().map(|point| (*point - origin).hypot()).fold(0.0, f64::max);
    let area: f64 = hull.windows(2).map(|pair| (pair[0] - origin).cross(pair[1] - origin) / 2.0).sum();
    (area > LEAST_SPREAD * length * length).then_some(hull)
}

/// The corners of the convex hull of sorted points, counter-clockwise.
fn hull_of(points: &[Point]) -> Vec<Point> {
    let half = |points: &mut dyn Iterator<Item = &Point>| {
        let mut hull: Vec<Point> = Vec::new();
        for point in points {
            while let [.., before, last] = hull.as_slice()
                && (*last - *before).cross(*point - *last) <= 0.0
            {
                hull.pop();
            }
            hull.push(*point);
        }
        hull.pop();
        hull
    };
    let mut hull = half(&mut points.iter());
    hull.extend(half(&mut points.iter().rev()));
    hull
}

/// How far a point lies outside a convex polygon; negative inside.
fn outside(hull: &[Point], point: Point) -> f64 {
    let next = hull.iter().cycle().skip(1);
    let beyond = hull.iter().zip(next).map(|(from, to)| {
        let along = *to - *from;
        -along.cross(point - *from) / along.hypot()
    });
    beyond.fold(f64::NEG_INFINITY, f64::max)
}
