//! Supports: stiff springs under the nodes of lines, that may only push if so wished.
//!
//! A support that would pull lets go, and one that the top comes down on bears again, until nothing changes. A
//! top that its supports cannot hold is told by statics before anything is solved: a soft system would return
//! an answer all the same.

use super::plate::Plate;
use super::release::Held;
use super::solver::SolveError;
use super::statics::{imbalance, middle_of, outside, spread};
use serde::{Deserialize, Serialize};

/// Rounds of letting go and bearing again at most.
const MOST_ROUNDS: usize = 40;
/// How much stiffer than the plate around it a support is that is as good as rigid.
const STIFFER: f64 = 1e4;
/// Forces and moments may be out of balance by that share.
const BALANCE: f64 = 1e-8;
/// Sets of supports kept for other loads on them.
const MOST_KEPT: usize = 4;
/// From this round on only the contacts that are furthest off change: what goes to and fro comes to rest.
const PATIENCE: usize = 8;

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
    /// How stiff it is, newtons a metre over bending stiffness; nothing is as good as rigid.
    pub stiffness: Option<f64>,
    /// It can only push.
    pub only_pushes: bool,
}

/// Why a plate on supports is not solved.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
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
pub struct ContactSolution {
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
    kept: Vec<Held>,
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

    /// How stiff a contact is.
    fn stiffness(&self, contact: &Contact) -> f64 {
        contact.stiffness.unwrap_or(self.stiffness)
    }

    /// Lets the plate settle on those contacts under that load.
    ///
    /// # Errors
    /// Why it does not.
    pub fn solve_contacts(&mut self, contacts: &[Contact], load: &[f64]) -> Result<ContactSolution, BearingError> {
        self.check(contacts, load)?;
        let springs: Vec<(usize, f64)> =
            contacts.iter().map(|contact| (3 * contact.node + contact.unknown, self.stiffness(contact))).collect();
        let gaps: Vec<f64> = contacts.iter().map(|contact| contact.gap).collect();
        let mut held = match self.kept.iter().position(|held| held.springs() == springs) {
            Some(known) => self.kept.remove(known),
            None => Held::new(self.plate.system(), springs)?,
        };
        let settled = self.settle_on(&mut held, contacts, &gaps, load);
        if self.kept.len() >= MOST_KEPT {
            self.kept.remove(0);
        }
        self.kept.push(held);
        settled
    }

    fn settle_on(
        &self,
        held: &mut Held,
        contacts: &[Contact],
        gaps: &[f64],
        load: &[f64],
    ) -> Result<ContactSolution, BearingError> {
        let mut bears: Vec<bool> = vec![true; contacts.len()];
        let all = held.start(load, gaps);
        for round in 1..=MOST_ROUNDS {
            let deflection = held.solve(self.plate.system(), &all, &bears, load, gaps, false)?;
            let off = |(contact, bears): (&Contact, &bool)| {
                let pressed = deflection[3 * contact.node + contact.unknown] - contact.gap;
                let wrong = contact.only_pushes && (pressed > 0.0) != *bears;
                if wrong { pressed.abs() } else { 0.0 }
            };
            let off: Vec<f64> = contacts.iter().zip(&bears).map(off).collect();
            let most = off.iter().copied().fold(0.0, f64::max);
            if most == 0.0 {
                let deflection = held.solve(self.plate.system(), &all, &bears, load, gaps, true)?;
                return self.settled(contacts, &bears, load, deflection, round);
            }
            let least = if round < PATIENCE { 0.0 } else { 0.3 * most };
            for (bears, off) in bears.iter_mut().zip(off) {
                *bears ^= off > least;
            }
            let bearing = contacts.iter().zip(&bears).filter(|(_, bears)| **bears).map(|pair| pair.0);
            if spread(&self.plate, bearing).is_none() {
                return Err(BearingError::OneLine);
            }
        }
        Err(BearingError::NotSettled)
    }

    /// By statics alone: whether supports that only push can hold that load at all.
    fn check(&self, contacts: &[Contact], load: &[f64]) -> Result<(), BearingError> {
        let nodes = &self.plate.mesh().nodes;
        let good = |contact: &Contact| {
            contact.node < nodes.len()
                && contact.unknown < 3
                && contact.gap.is_finite()
                && self.stiffness(contact) > 0.0
        };
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

    fn settled(
        &self,
        contacts: &[Contact],
        bears: &[bool],
        load: &[f64],
        deflection: Vec<f64>,
        rounds: usize,
    ) -> Result<ContactSolution, BearingError> {
        let reaction = |(contact, bears): (&Contact, &bool)| {
            let pressed = deflection[3 * contact.node + contact.unknown] - contact.gap;
            if *bears { self.stiffness(contact) * pressed } else { 0.0 }
        };
        let reactions: Vec<f64> = contacts.iter().zip(bears).map(reaction).collect();
        let imbalance = imbalance(&self.plate, contacts, &reactions, load);
        // What is not finite does not balance.
        if imbalance.is_nan() || imbalance > BALANCE {
            return Err(BearingError::OutOfBalance);
        }
        Ok(ContactSolution { deflection, reactions, imbalance, rounds })
    }
}
