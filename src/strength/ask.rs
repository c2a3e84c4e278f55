//! What is asked about a top and what is answered, in a form that goes to a worker and back.

use super::cases::{Age, Case, LoadCase, Slab};
use super::mesh::MeshSize;
use super::outcome::{self, Outcome, Reaction, Worst, WorstLocation};
use super::reading::Face;
use super::remedy::{Remedy, remedies};
use super::seats::Spot;
use super::study::{Study, StudyError};
use super::{limits, said};
use crate::measure::{Length, Pressure, Units};
use crate::working::Working;
use kurbo::Point;
use serde::{Deserialize, Serialize};

/// Everything a study needs.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Question {
    /// The top.
    pub slab: Slab,
    /// What to call each of its openings: "the left sink". Words are made where they are read, not in the worker.
    #[serde(skip)]
    pub names: Vec<String>,
    /// What it lives through.
    pub cases: Vec<Case>,
    /// The units that answers are written in.
    pub units: Units,
    /// How strong it is known to get.
    pub later: Later,
    /// The openings whose knockouts are foam already, and dug out.
    pub dug_out: Vec<usize>,
}

/// How strong the concrete is known to get where it is left alone; nothing where no later strength is known.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Later {
    /// A day after it comes out of the form as planned.
    pub after_stripping: Pressure,
    /// A day after it is carried and set as planned.
    pub after_setting: Pressure,
    /// After the longest wait that is worth while, [`limits::longest_wait`].
    pub most: Pressure,
}

impl Later {
    /// A day after something of that age happens as planned.
    pub fn soon(&self, age: Age) -> Pressure {
        match age {
            Age::Stripping => self.after_stripping,
            Age::Handling | Age::InUse => self.after_setting,
        }
    }
}

/// How much is wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Effort {
    /// Every case.
    Cases,
    /// What would help in the case of that index.
    Remedies(usize),
}

/// The mesh that maps are drawn on.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct MeshOutline {
    /// Where its nodes are; metres.
    pub nodes: Vec<Point>,
    /// Three nodes each, counter-clockwise.
    pub triangles: Vec<[u32; 3]>,
}

/// Tension over what is allowed at every node, capped at what the worst place comes to: no peak is ever drawn.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct UtilizationMap {
    /// On the underside.
    pub underside: Vec<f32>,
    /// On the top face.
    pub top: Vec<f32>,
}

impl UtilizationMap {
    /// That face of it.
    pub fn face(&self, face: Face) -> &[f32] {
        match face {
            Face::Underside => &self.underside,
            Face::Top => &self.top,
        }
    }
}

/// What a case comes to.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Verdict {
    /// Tension over what is allowed: 1 is the limit.
    pub utilization: f64,
    /// Where the person sits, of all places that were tried.
    pub spot: Option<Spot>,
    /// What is allowed.
    pub allowable: Pressure,
    /// The worst place; nothing where nothing is pulled.
    pub worst: Option<Worst>,
    /// How far it sags; nothing on edge.
    pub sag: Option<Length>,
    /// Who bears how much.
    pub reactions: Vec<Reaction>,
    /// For the drawing; empty on edge.
    pub map: UtilizationMap,
}

impl Verdict {
    fn of(outcome: Outcome) -> Self {
        let Outcome { utilization, spot, allowable, worst, deflection, reactions, drawn, .. } = outcome;
        let capped = |shares: Vec<f64>| shares.into_iter().map(|share| share.min(utilization) as f32).collect();
        let map = UtilizationMap { underside: capped(drawn.underside), top: capped(drawn.top) };
        Self { utilization, spot, allowable, worst, sag: deflection.map(|(sag, _)| sag), reactions, map }
    }

    /// Tension is over what cracks it, not only over what is allowed.
    pub fn cracks(&self) -> bool {
        self.utilization > limits::CRACKING_MARGIN
    }

    /// It stays under what is allowed.
    pub fn holds(&self) -> bool {
        self.utilization <= 1.0
    }

    /// What cracks it over the tension: 1 cracks; 1.5 is what is asked for. Infinite where nothing is pulled.
    pub fn margin(&self) -> f64 {
        limits::CRACKING_MARGIN / self.utilization
    }
}

impl Question {
    /// What to call that opening.
    pub fn name(&self, opening: usize) -> String {
        self.names.get(opening).cloned().unwrap_or_else(|| format!("opening {}", opening + 1))
    }

    /// Where a place lies, in the maker's words: "the rail in front of the left sink".
    pub fn place(&self, worst: &Worst) -> String {
        if worst.beside == WorstLocation::Middle && self.slab.openings.is_empty() {
            return "the middle".to_owned();
        }
        worst.beside.words(&|opening| self.name(opening))
    }

    /// The hand calculation behind [`Verdict::utilization`] of the case of that index.
    pub fn working(&self, index: usize, verdict: &Verdict) -> Option<Working> {
        let (case, worst) = (self.cases.get(index)?, verdict.worst.as_ref());
        Some(outcome::working(
            (case, verdict.spot),
            &self.names,
            self.slab.thickness,
            worst,
            verdict.utilization,
            self.units,
        ))
    }

    /// Why something cannot be worked out, in words.
    pub fn refusal(&self, refusal: StudyError) -> String {
        said::refusal(refusal, &self.names, self.units)
    }
}

/// What one case comes to, or why that cannot be said.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Answered {
    /// What happens.
    pub kind: LoadCase,
    /// What it comes to.
    pub verdict: Result<Verdict, StudyError>,
}

/// What is answered.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Answer {
    /// The cases that are worked out, in the order of the question: all of them, or so far the first ones.
    Cases {
        /// What maps are drawn on.
        net: MeshOutline,
        /// The cases.
        cases: Vec<Answered>,
    },
    /// What would help in one case, the best first.
    Remedies(Vec<Remedy>),
    /// Nothing can be worked out, and why.
    Refused(StudyError),
}

/// Works out what is asked. `begun` hears the first case as soon as it is worked out, before all others.
pub fn answer(question: &Question, effort: Effort, begun: &mut dyn FnMut(Answer)) -> Answer {
    let grain = MeshSize::default();
    let found = match effort {
        Effort::Cases => all_cases(question, &grain, begun),
        Effort::Remedies(index) => remedies(question, index, &grain).map(Answer::Remedies),
    };
    found.unwrap_or_else(Answer::Refused)
}

fn all_cases(question: &Question, grain: &MeshSize, begun: &mut dyn FnMut(Answer)) -> Result<Answer, StudyError> {
    let mut study = Study::new(&question.slab, &question.cases, grain)?;
    let mesh = study.mesh();
    let triangles = mesh.triangles.iter().map(|corners| corners.map(|node| node as u32)).collect();
    let net = MeshOutline { nodes: mesh.nodes.clone(), triangles };
    let mut cases = Vec::with_capacity(question.cases.len());
    for (index, case) in question.cases.iter().enumerate() {
        let verdict = study.work_out(index, question.units).map(Verdict::of);
        cases.push(Answered { kind: case.kind, verdict });
        if index == 0 && question.cases.len() > 1 {
            begun(Answer::Cases { net: net.clone(), cases: cases.clone() });
        }
    }
    Ok(Answer::Cases { net, cases })
}
