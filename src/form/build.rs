//! What the forms of the whole job take together.

use super::{BuildInputs, Form, Level, Liner, Made, Part, Release, Screws, Silicone, advice, sag, seal};
use crate::finding::Finding;
use crate::job::Job;
use crate::measure::{Length, MassDensity};
use crate::top::Top;
use crate::working::{Figure, Known, all, known_ref};

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
    pub fn of(pieces: &[Built], inputs: &BuildInputs) -> Self {
        Self {
            liner: Liner::of(pieces, &inputs.liner),
            screws: Screws::of(pieces, inputs),
            supports: sag::supports(pieces),
            bow: sag::bow(pieces, inputs),
            silicone: Silicone::of(pieces, inputs),
            tape: seal::tape(pieces),
            release: Release::of(pieces),
            levels: pieces.iter().map(|piece| Level::of(piece.top, piece.form, &inputs.tilt)).collect(),
            stock: stock(pieces, inputs),
        }
    }

    /// What to know about it. `pieces` and `inputs` are those that it was made of.
    pub fn findings(&self, pieces: &[Built], inputs: &BuildInputs, job: &Job) -> Vec<Finding> {
        advice::advise_build(self, pieces, inputs, job)
    }
}

fn stock(pieces: &[Built], inputs: &BuildInputs) -> Known<Vec<StockRow>> {
    let rows = all(pieces.iter().enumerate().map(|(piece, built)| {
        let form = known_ref(built.form)?;
        let parts = known_ref(&form.parts)?;
        let names = inputs.names.get(piece);
        let name = |part: &Part| {
            names.map_or_else(String::new, |names| {
                format!("{}{}", names.prefix, part.named(&form.clear, &|side| names.side(side)))
            })
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
