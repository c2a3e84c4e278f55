//! The days of a job.

/// The five verbs of a job, in the order of the days; each is one screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Stage {
    /// In the client's room: opening, outline, edges, cutouts.
    Measure,
    /// Form and reinforcement.
    Build,
    /// Mix, order, batches.
    Pour,
    /// Strip, grind, seal, carry, set.
    Finish,
    /// Price and papers.
    Quote,
}
