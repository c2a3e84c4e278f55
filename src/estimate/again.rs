//! The same estimate after a change, without the parts that the change left alone.

use super::{Cast, Estimate, piece_estimate, whole};
use crate::cutting::{QUICK, Task};
use crate::job::Job;
use crate::pour::DayInputs;
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
        let (before, cast) = match self.last.take() {
            // Some sentences count the pieces, and all of them are numbered.
            Some((before, cast)) if alike(&before, job) && before.pieces.len() == job.pieces.len() => {
                after(before, cast, job)
            }
            _ => (job.clone(), Arc::new(Cast::of(job))),
        };
        self.last = Some((before, cast.clone()));
        cast
    }

    /// Everything that follows from `job`, at the prices of `prices`.
    pub fn estimate(&mut self, job: &Job, prices: &PriceBook) -> Estimate {
        let cast = self.cast(job);
        let known = take(&mut self.layout);
        let layout = &mut self.layout;
        whole(&cast, job, prices, |task| {
            let known = known.filter(|(before, _)| before == task);
            let (_, laid_out) = layout.insert(known.unwrap_or_else(|| (task.clone(), task.lay_out(QUICK))));
            laid_out.clone()
        })
    }
}

/// What is cast of `job`, which differs from the one before in its pieces at most; and the job to compare the next with.
fn after(mut before: Job, cast: Arc<Cast>, job: &Job) -> (Job, Arc<Cast>) {
    let mut pieces = cast.pieces.clone();
    let mut changed = false;
    let day = Arc::new(DayInputs::read(job));
    for (piece, (was, is)) in before.pieces.iter_mut().zip(&job.pieces).enumerate() {
        if was != is {
            was.clone_from(is);
            pieces[piece] = Arc::new(piece_estimate(job, piece, &day));
            changed = true;
        }
    }
    let cast = if changed { Arc::new(Cast::from_pieces(pieces, job, &day)) } else { cast };
    (before, cast)
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
