//! What is asked about a top and what is answered, in a form that goes to a worker and back.

use super::cases::{Case, Kind, Slab};
use super::mesh::Grain;
use super::outcome::{Beside, Outcome, Reaction};
use super::reading::Face;
use super::remedy::{Remedy, remedies};
use super::study::{Refusal, Study};
use super::{limits, said};
use crate::measure::{Length, Pressure, Units};
use crate::working::{Line, Source, Working};
use kurbo::Point;
use serde::{Deserialize, Serialize};

/// Everything a study needs.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Question {
    /// The top.
    pub slab: Slab,
    /// What to call each of its openings: "the left sink".
    pub names: Vec<String>,
    /// What it lives through.
    pub cases: Vec<Case>,
    /// The units that answers are written in.
    pub units: Units,
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
pub struct Net {
    /// Where its nodes are; metres.
    pub nodes: Vec<Point>,
    /// Three nodes each, counter-clockwise.
    pub triangles: Vec<[u32; 3]>,
}

/// Tension over what is allowed at every node, capped at what the worst place comes to: no peak is ever drawn.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Map {
    /// On the underside.
    pub underside: Vec<f32>,
    /// On the top face.
    pub top: Vec<f32>,
}

impl Map {
    /// That face of it.
    pub fn face(&self, face: Face) -> &[f32] {
        match face {
            Face::Underside => &self.underside,
            Face::Top => &self.top,
        }
    }
}

/// One line of a working, with its source by its number in [`limits::SOURCES`].
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
struct Step {
    formula: String,
    numbers: String,
    result: String,
    source: usize,
}

/// A working on its way.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
struct Told {
    title: String,
    steps: Vec<Step>,
}

impl From<&Working> for Told {
    fn from(working: &Working) -> Self {
        let source = |wanted: Source| limits::SOURCES.iter().position(|source| *source == wanted).unwrap_or(0);
        let step = |line: &Line| Step {
            formula: line.formula.clone(),
            numbers: line.numbers.clone(),
            result: line.result.clone(),
            source: source(line.source),
        };
        Self { title: working.title.clone(), steps: working.lines.iter().map(step).collect() }
    }
}

/// The worst place of a case.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Place {
    /// In the maker's words: "the rail in front of the left sink".
    pub words: String,
    /// What it lies beside.
    pub beside: Beside,
    /// Where; metres.
    pub at: Point,
    /// On which face, as the top lies in that case.
    pub face: Face,
    /// A sharp inside corner is next to it.
    pub sharp: bool,
    /// The largest tension, the mean over one thickness.
    pub stress: Pressure,
    /// The mean over the strip there, from the same solution.
    pub strip: Pressure,
    /// The strip by hand; nothing on edge, where the stress itself is by hand.
    pub hand: Option<Pressure>,
}

/// What a case comes to.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Verdict {
    /// Tension over what is allowed: 1 is the limit.
    pub use_of: f64,
    /// What is allowed.
    pub allowable: Pressure,
    /// The worst place; nothing where nothing is pulled.
    pub worst: Option<Place>,
    /// How far it sags; nothing on edge.
    pub sag: Option<Length>,
    /// Who bears how much.
    pub reactions: Vec<Reaction>,
    /// For the drawing; empty on edge.
    pub map: Map,
    told: Told,
}

impl Verdict {
    fn of(outcome: Outcome, names: &[String]) -> Self {
        let name = |opening: usize| names.get(opening).cloned().unwrap_or_else(|| format!("opening {}", opening + 1));
        let use_of = outcome.use_of.value;
        let capped = |shares: Vec<f64>| shares.into_iter().map(|share| share.min(use_of) as f32).collect();
        let worst = outcome.worst.map(|worst| Place {
            words: worst.beside.words(&name),
            beside: worst.beside,
            at: worst.at,
            face: worst.face,
            sharp: worst.sharp,
            stress: worst.stress,
            strip: worst.strip,
            hand: worst.hand.map(|hand| hand.value),
        });
        Self {
            use_of,
            allowable: outcome.allowable,
            worst,
            sag: outcome.deflection.map(|(sag, _)| sag),
            reactions: outcome.reactions,
            map: Map { underside: capped(outcome.drawn.underside), top: capped(outcome.drawn.top) },
            told: Told::from(&outcome.use_of.working),
        }
    }

    /// Tension is over what cracks it, not only over what is allowed.
    pub fn cracks(&self) -> bool {
        self.use_of > limits::CRACKING_MARGIN
    }

    /// It stays under what is allowed.
    pub fn holds(&self) -> bool {
        self.use_of <= 1.0
    }

    /// What cracks it over the tension: 1 cracks; 1.5 is what is asked for. Infinite where nothing is pulled.
    pub fn margin(&self) -> f64 {
        limits::CRACKING_MARGIN / self.use_of
    }

    /// The hand calculation behind [`Self::use_of`].
    pub fn working(&self) -> Working {
        let mut working = Working::new(self.told.title.clone());
        for step in &self.told.steps {
            let source = limits::SOURCES.get(step.source).copied().unwrap_or(Source::Arithmetic);
            working = working.line(step.formula.clone(), step.numbers.clone(), step.result.clone(), source);
        }
        working
    }
}

/// What one case comes to, or why that cannot be said.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Answered {
    /// What happens.
    pub kind: Kind,
    /// What it comes to.
    pub verdict: Result<Verdict, String>,
}

/// What is answered.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Answer {
    /// Every case, in the order of the question.
    Cases {
        /// What maps are drawn on.
        net: Net,
        /// The cases.
        cases: Vec<Answered>,
    },
    /// What would help in one case, the best first.
    Remedies(Vec<Remedy>),
    /// Nothing can be worked out, and why.
    Refused(String),
}

/// Works out what is asked.
pub fn answer(question: &Question, effort: Effort) -> Answer {
    let grain = Grain::default();
    match effort {
        Effort::Cases => all_cases(question, &grain),
        Effort::Remedies(index) => {
            let Some(case) = question.cases.get(index) else { return refused(Refusal::NoCase, question) };
            match remedies(&question.slab, case, &grain, question.units) {
                Ok(found) => Answer::Remedies(found),
                Err(refusal) => refused(refusal, question),
            }
        }
    }
}

fn refused(refusal: Refusal, question: &Question) -> Answer {
    Answer::Refused(said::refusal(refusal, &question.names, question.units))
}

fn all_cases(question: &Question, grain: &Grain) -> Answer {
    let Question { slab, names, cases, units } = question;
    let mut study = match Study::new(slab, cases, grain) {
        Ok(study) => study,
        Err(refusal) => return refused(refusal, question),
    };
    let one = |(index, case): (usize, &Case)| Answered {
        kind: case.kind,
        verdict: study
            .work_out(index, *units)
            .map(|outcome| Verdict::of(outcome, names))
            .map_err(|refusal| said::refusal(refusal, names, *units)),
    };
    let cases = cases.iter().enumerate().map(one).collect();
    let mesh = study.mesh();
    let triangles = mesh.triangles.iter().map(|corners| corners.map(|node| node as u32)).collect();
    Answer::Cases { net: Net { nodes: mesh.nodes.clone(), triangles }, cases }
}
