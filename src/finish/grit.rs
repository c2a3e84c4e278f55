//! The pads, from the coarse wheel to the wanted sheen.

use super::Exposure;
use crate::finish::limits;
pub use crate::job::Sheen;

/// What grinds or polishes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Tool {
    /// The coarse metal wheel that cuts to the wanted depth.
    Wheel,
    /// A pad of that grit.
    Pad(u32),
}

/// One step of the sequence.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct GritStep {
    /// What is used.
    pub tool: Tool,
    /// The maker has it.
    pub owned: bool,
}

/// The steps from the first tool to the last.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Sequence {
    /// In the order of use; each leaves scratches that the next one takes out.
    pub steps: Vec<GritStep>,
}

impl Sheen {
    /// The pad that gives it. Common practice.
    pub fn grit(self) -> u32 {
        match self {
            Self::Honed => 400,
            Self::Satin => 1500,
            Self::Gloss => 3000,
        }
    }
}

impl Tool {
    /// "Coarse wheel", "400 pad".
    pub fn words(self) -> String {
        match self {
            Self::Wheel => "Coarse wheel".to_owned(),
            Self::Pad(grit) => format!("{grit} pad"),
        }
    }
}

impl Sequence {
    /// What the maker has to buy first, in the order of use.
    pub fn missing(&self) -> impl Iterator<Item = Tool> {
        self.steps.iter().filter(|step| !step.owned).map(|step| step.tool)
    }

    /// One sentence: whether the maker's pads get there, or which are missing.
    pub fn words(&self) -> String {
        let missing: Vec<_> = self.missing().map(|tool| tool.words().to_lowercase()).collect();
        match (self.steps.is_empty(), missing.is_empty()) {
            (true, _) => "Nothing is ground or polished.".to_owned(),
            (_, true) => "Your pads get there without a gap.".to_owned(),
            _ => format!("Missing for a sequence without a gap: {}.", missing.join(", ")),
        }
    }
}

/// The next pad after `done`: it may be [`limits::GRIT_STEP`] times as fine at most. One that reaches the
/// wanted grit ends it, else the finest is the shortest way.
fn next(grits: impl Iterator<Item = u32>, done: u32, wanted: u32) -> Option<u32> {
    let reach = done.saturating_mul(limits::GRIT_STEP);
    let within = grits.filter(|&grit| grit > done && grit <= reach);
    let (short, enough): (Vec<_>, Vec<_>) = within.partition(|&grit| grit < wanted);
    enough.into_iter().min().or_else(|| short.into_iter().max())
}

/// The tools from the coarse wheel to the wanted sheen, of what the maker owns, without a gap of more than
/// one doubling. Where none that is owned closes a gap, the usual pad that does is put in and marked.
/// Without a sheen, only the wheel; with cream, no wheel, and polishing starts where it does not cut.
/// Common practice.
pub fn sequence(exposure: Exposure, sheen: Option<Sheen>, owned: &[Tool]) -> Sequence {
    let mut steps = Vec::new();
    let mut done = limits::CREAM_FIRST_GRIT / limits::GRIT_STEP;
    if exposure > Exposure::Cream {
        steps.push(GritStep { tool: Tool::Wheel, owned: owned.contains(&Tool::Wheel) });
        done = limits::GRITS[0] / limits::GRIT_STEP;
    }
    let wanted = sheen.map_or(0, Sheen::grit);
    while done < wanted {
        let pads = owned.iter().filter_map(|tool| match tool {
            Tool::Pad(grit) => Some(*grit),
            Tool::Wheel => None,
        });
        let own = next(pads, done, wanted);
        // Each usual pad is within reach of the one before it, so that one of them always follows.
        let Some(grit) = own.or_else(|| next(limits::GRITS.into_iter(), done, wanted)) else { break };
        steps.push(GritStep { tool: Tool::Pad(grit), owned: own.is_some() });
        done = grit;
    }
    Sequence { steps }
}
