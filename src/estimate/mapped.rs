//! The findings of a job, once the maps of its pieces are known.

use super::Estimate;
use crate::finding::Finding;
use crate::strength::verdict::{Solved, tell};
use std::sync::Arc;

impl Estimate {
    /// The findings with what the maps find of the pieces whose question is among `solved`: one of each piece at most.
    /// Of a piece whose map is not known the hand check stands.
    pub fn findings_by(&self, solved: &[Arc<Solved>]) -> Vec<Finding> {
        let mut findings = self.findings.clone();
        for (piece, known) in self.pieces.iter().enumerate() {
            let Ok(cracking) = &known.cracking else { continue };
            if let Some(solved) = solved.iter().find(|one| one.question == cracking.question) {
                tell(&mut findings, cracking, solved, piece);
            }
        }
        findings
    }
}
