//! The same estimate after a change, without the parts that the change left alone.

use super::{Cast, Estimate, piece_estimate, whole};
use crate::cutting::{QUICK, Task};
use crate::job::Job;
use crate::price::PriceBook;
use crate::sheet::Layout;
use std::mem::take;
use std::sync::Arc;

/// Works out one job again and again as it is typed.
///
/// What it answers is what [`super::estimate`] answers. It keeps what it worked out last: the pieces, which the next
/// answer shares where a change touched neither them nor what all pieces have in common, and the layout of the
/// sheets, which holds as long as the same blanks are cut from the same sheets.
#[derive(Debug, Default)]
pub struct Estimator {
    /// The job of the last answer, and what is cast of it.
    last: Option<(Job, Arc<Cast>)>,
    /// The sheets that were laid out last.
    layout: Option<(Task, Layout)>,
}

impl Estimator {
    /// What is cast of `job`; the same one as before where nothing in it has changed.
    pub fn cast(&mut self, job: &Job) -> Arc<Cast> {
        let cast = match self.last.take() {
            // Some sentences count the pieces, and all of them are numbered.
            Some((before, cast)) if alike(&before, job) && before.pieces.len() == job.pieces.len() => {
                if before.pieces == job.pieces {
                    cast
                } else {
                    let again = |(piece, known): (usize, &Arc<_>)| {
                        let same = before.pieces[piece] == job.pieces[piece];
                        if same { Arc::clone(known) } else { Arc::new(piece_estimate(job, piece)) }
                    };
                    Arc::new(Cast::from_pieces(cast.pieces.iter().enumerate().map(again).collect(), job))
                }
            }
            _ => Arc::new(Cast::of(job)),
        };
        self.last = Some((job.clone(), cast.clone()));
        cast
    }

    /// Everything that follows from `job`, at the prices of `prices`.
    pub fn estimate(&mut self, job: &Job, prices: &PriceBook) -> Estimate {
        let cast = self.cast(job);
        let known = take(&mut self.layout);
        let layout = &mut self.layout;
        whole(&cast, job, prices, |task| {
            let laid_out = match known {
                Some((before, laid_out)) if before == *task => laid_out,
                _ => task.lay_out(QUICK),
            };
            *layout = Some((task.clone(), laid_out.clone()));
            laid_out
        })
    }
}

/// Two jobs have in common all that what is cast of a piece follows from, besides the piece.
fn alike(one: &Job, other: &Job) -> bool {
    // By name, so that whoever adds to a job decides here.
    let Job { id: _, name: _, client: _, notes: _, units, pieces: _, bags, form, pour, seams, finish, quote: _ } = one;
    *units == other.units
        && *bags == other.bags
        && *form == other.form
        && *pour == other.pour
        && *seams == other.seams
        && *finish == other.finish
}
