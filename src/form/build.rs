//! What the forms of the whole job take together.

use super::{Form, Level, Liner, Made, Part, Release, Screws, Silicone, advice, sag, seal};
use crate::finding::Finding;
use crate::job::Job;
use crate::job::read::{self, all};
use crate::measure::{Length, MassDensity};
use crate::top::Top;
use crate::working::{Figure, Known, Waiting};

/// One piece, as far as building needs it.
#[derive(Clone, Copy, Debug)]
pub struct Built<'a> {
    /// Its geometry.
    pub top: &'a Top,
    /// Its form.
    pub form: &'a Known<Form>,
    /// Density of its fresh mix, where that is known.
    pub fresh: Option<MassDensity>,
}

/// What a blank is cut from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stock {
    /// Sheets of the board that the form is built of.
    Board,
    /// What is bent along arcs.
    Strip,
}

/// A rectangle to cut, the same a number of times; its grain runs as it likes.
#[derive(Clone, Debug, PartialEq)]
pub struct StockRow {
    /// The mark of the part.
    pub mark: String,
    /// The piece that it is for, by its index.
    pub piece: usize,
    /// What it is: "Front side".
    pub name: String,
    /// What it is cut from.
    pub stock: Stock,
    /// Thickness of that.
    pub thickness: Length,
    /// One side.
    pub length: Length,
    /// The other side.
    pub width: Length,
    /// How many.
    pub count: u32,
}

/// Everything that follows for building the forms of a job; each part stands on its own.
#[derive(Clone, Debug, PartialEq)]
pub struct Build {
    /// The liner; nothing where no edge is lined.
    pub liner: Option<Known<Liner>>,
    /// Screws, and the pressure that they hold against.
    pub screws: Known<Screws>,
    /// How far apart supports under the base may be.
    pub supports: Known<Figure<Length>>,
    /// How far the base bows between supports as far apart as was typed; nothing where it is taken to lie flat on a
    /// bench.
    pub bow: Known<Option<Figure<Length>>>,
    /// Silicone in the inside corners.
    pub silicone: Known<Silicone>,
    /// Tape over screw heads and raw ends.
    pub tape: Known<Figure<Length>>,
    /// Release agent.
    pub release: Known<Release>,
    /// What an unlevel form does, piece by piece; nothing where it lies level.
    pub levels: Vec<Known<Option<Level>>>,
    /// Every rectangle to cut.
    pub stock: Known<Vec<StockRow>>,
}

impl Build {
    /// What the forms of these pieces take, which are those of the job in its order.
    pub fn of(pieces: &[Built], job: &Job) -> Self {
        Self {
            liner: Liner::of(pieces, job),
            screws: Screws::of(pieces, job),
            supports: sag::supports(pieces, job),
            bow: sag::bow(pieces, job),
            silicone: Silicone::of(pieces, job),
            tape: seal::tape(pieces, job),
            release: Release::of(pieces, job),
            levels: pieces.iter().map(|piece| Level::of(piece.top, piece.form, job)).collect(),
            stock: stock(pieces, job),
        }
    }

    /// What to know about it. `pieces` are those that it was made of.
    pub fn findings(&self, pieces: &[Built], job: &Job) -> Vec<Finding> {
        advice::advise_build(self, pieces, job)
    }
}

fn stock(pieces: &[Built], job: &Job) -> Known<Vec<StockRow>> {
    let rows = all(pieces.iter().enumerate().map(|(piece, built)| {
        let form = built.form.as_ref().map_err(Waiting::clone)?;
        let parts = form.parts.as_ref().map_err(Waiting::clone)?;
        let name = |part: &Part| {
            let own = job.pieces.get(piece).map_or_else(String::new, |typed| part.name(&form.clear, typed));
            format!("{}{own}", read::piece_prefix(job, piece))
        };
        let row = |part: &Part| StockRow {
            mark: part.mark.clone(),
            piece,
            name: name(part),
            stock: if matches!(part.made, Made::Strip(_)) { Stock::Strip } else { Stock::Board },
            thickness: part.thickness,
            length: part.length,
            width: part.width,
            count: part.count,
        };
        Ok(parts.iter().map(row).collect::<Vec<_>>())
    }))?;
    Ok(rows.into_iter().flatten().collect())
}
