//! What is built to cast a piece face down.

use crate::finding::{Finding, Stage, Strength, say};
use crate::job::read::{self, all, both};
use crate::job::{FormField, Job, PieceField, Place, Side, SideStand};
use crate::limits;
use crate::measure::{Length, Units, write_length};
use crate::top::Top;
use crate::working::{Figure, Known, Source, Working};

/// One side board of the form.
#[derive(Clone, Debug, PartialEq)]
pub struct SideBoard {
    /// The edge of the top that is cast against it.
    pub side: Side,
    /// It runs past its neighbours at both ends; else it butts between them.
    pub runs_past: bool,
    /// Length to cut.
    pub length: Length,
}

/// The form of one piece.
#[derive(Clone, Debug, PartialEq)]
pub struct Form {
    /// Clear size inside the sides, left to right.
    pub clear_width: Figure<Length>,
    /// Clear size inside the sides, front to back.
    pub clear_depth: Figure<Length>,
    /// Base panel, left to right.
    pub base_width: Figure<Length>,
    /// Base panel, front to back.
    pub base_depth: Figure<Length>,
    /// What is cast: finished thickness and what grinding takes off the face.
    pub cast_thickness: Figure<Length>,
    /// Height of every side board.
    pub side_height: Figure<Length>,
    /// The side boards, in the order of [`Side::ALL`].
    pub sides: Vec<SideBoard>,
}

impl Form {
    /// The form of the piece with that index, as drawn from its finished geometry.
    ///
    /// # Errors
    /// What it waits for: outline, edges, thickness, grinding or the board. Cutouts, mix and weather
    /// do not matter to it.
    pub fn of(top: &Top, job: &Job, piece: usize) -> Known<Self> {
        let edges = all(top.edges.iter().cloned());
        let thickness = cast_thickness(top, job, piece);
        let board = read::positive_length(job, Place::Form(FormField::Board));
        let ((outline, edges), (cast, board)) = both(both(top.outline.clone(), edges), both(thickness, board))?;
        let liner = |side: Side| edges.iter().filter(|edge| edge.side == side).map(|edge| edge.liner).sum::<Length>();

        let units = job.units;
        let clear_width = clear(
            "Clear width of the form",
            "finished width + left liner + right liner",
            [outline.width, liner(Side::Left), liner(Side::Right)],
            units,
        );
        let clear_depth = clear(
            "Clear depth of the form",
            "finished depth + front liner + back liner",
            [outline.depth, liner(Side::Front), liner(Side::Back)],
            units,
        );
        let stand = job.form.sides;
        let side_height = match stand {
            SideStand::OnEdge => {
                let height = cast.value + board;
                Working::new("Height of the sides")
                    .after(&cast.working)
                    .line(
                        "cast thickness + board",
                        format!("{} + {}", write_length(cast.value, units), write_length(board, units)),
                        write_length(height, units),
                        Source::Practice,
                    )
                    .of(height)
            }
            SideStand::OnBase => Working::new("Height of the sides")
                .after(&cast.working)
                .line(
                    "cast thickness, since the sides stand on the base",
                    write_length(cast.value, units).to_string(),
                    write_length(cast.value, units),
                    Source::Practice,
                )
                .of(cast.value),
        };
        let sides = Side::ALL
            .map(|side| {
                let runs_past = matches!(side, Side::Front | Side::Back);
                let length = if runs_past { clear_width.value + 2.0 * board } else { clear_depth.value };
                SideBoard { side, runs_past, length }
            })
            .to_vec();
        Ok(Self {
            base_width: base("Base, left to right", &clear_width, board, stand, units),
            base_depth: base("Base, front to back", &clear_depth, board, stand, units),
            clear_width,
            clear_depth,
            cast_thickness: cast,
            side_height,
            sides,
        })
    }
}

/// What is cast: the finished thickness and what grinding takes off the face.
///
/// # Errors
/// What it waits for: thickness or grinding.
pub(crate) fn cast_thickness(top: &Top, job: &Job, piece: usize) -> Known<Figure<Length>> {
    let grinding = read::optional(job, Place::Piece(piece, PieceField::Grinding), read::length);
    let (thickness, grinding) = both(top.thickness.clone(), grinding)?;
    let grinding = grinding.unwrap_or_default();
    let cast = thickness + grinding;
    let write = |length| write_length(length, job.units);
    Ok(Working::new("Cast thickness")
        .line(
            "finished thickness + ground off the face",
            format!("{} + {}", write(thickness), write(grinding)),
            write(cast),
            Source::Arithmetic,
        )
        .of(cast))
}

fn clear(title: &str, formula: &str, parts: [Length; 3], units: Units) -> Figure<Length> {
    let clear = parts[0] + parts[1] + parts[2];
    let [size, one, other] = parts.map(|length| write_length(length, units));
    Working::new(title)
        .line(formula, format!("{size} + {one} + {other}"), write_length(clear, units), Source::Practice)
        .of(clear)
}

fn base(title: &str, clear: &Figure<Length>, board: Length, stand: SideStand, units: Units) -> Figure<Length> {
    let working = Working::new(title).after(&clear.working);
    let inside = write_length(clear.value, units);
    match stand {
        SideStand::OnEdge => working
            .line("clear size, since the sides are screwed to its edge", inside.to_string(), &inside, Source::Practice)
            .of(clear.value),
        SideStand::OnBase => {
            let base = clear.value + 2.0 * board;
            working
                .line(
                    "clear size + 2 boards, since the sides stand on it",
                    format!("{inside} + 2 × {}", write_length(board, units)),
                    write_length(base, units),
                    Source::Practice,
                )
                .of(base)
        }
    }
}

/// Findings about the form of the piece with that index.
pub(crate) fn advise(job: &Job, piece: usize) -> Vec<Finding> {
    let mut findings = Vec::new();
    let place = Place::Piece(piece, PieceField::Grinding);
    if let Ok(Some(grinding)) = read::optional(job, place, read::length)
        && grinding > limits::grinding_most() + limits::geometry_tolerance()
    {
        findings.push(Finding {
            strength: Strength::Watch,
            stage: Stage::Build,
            place,
            says: format!(
                "{}Grinding off {} is more than full exposure takes; {} is the usual most.",
                read::piece_prefix(job, piece),
                say::length(grinding, job.units),
                say::length(limits::grinding_most(), job.units)
            ),
            remedy: "Check the reading: what is ground off makes the cast thicker and the order larger.".to_owned(),
            source: Source::Practice,
        });
    }
    findings
}

/// Findings about the form choices of the whole job.
pub(crate) fn advise_job(job: &Job) -> Vec<Finding> {
    let place = Place::Form(FormField::Board);
    let Ok(board) = read::positive_length(job, place) else { return Vec::new() };
    if board <= limits::board_most() {
        return Vec::new();
    }
    vec![Finding {
        strength: Strength::Watch,
        stage: Stage::Build,
        place,
        says: format!(
            "A board {} thick is more than forms are made of; {} is the usual most.",
            say::length(board, job.units),
            say::length(limits::board_most(), job.units)
        ),
        remedy: "Measure the board again.".to_owned(),
        source: Source::Practice,
    }]
}
