//! Screws, and the pressure that they hold against.
//!
//! Fresh concrete that flows presses on a side like a fluid: by density × depth at the foot, by nothing at
//! the top, in all half of that over the depth, a third of the depth above the foot. Every piece lies flat in
//! its form, so the depth is the cast thickness: also of a leg that will stand upright later.

use super::{Built, EndCut, Form, Made, Part};
use crate::form::limits;
use crate::job::read::{self, all, both};
use crate::job::{FieldPath, FormField, Job, SideStand};
use crate::measure::exact::in_inches;
use crate::measure::{Length, MassDensity, Pressure, Units, write_count, write_density, write_length, write_number};
use crate::working::{Figure, Known, Source, Waiting, Working};
use uom::si::f64::Force;
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::pressure::{kilopascal, pascal};
use uom::si::ratio::ratio;

/// Standard gravity, m/s² (NIST SP 811 B.8).
const GRAVITY: f64 = 9.806_65;

/// Pressure of a fluid of that density, under so much of it.
pub fn pressure(density: MassDensity, depth: Length) -> Pressure {
    Pressure::new::<pascal>(density.value * GRAVITY * depth.value)
}

/// All that a fluid of that density and depth presses against so much length of an upright side: it acts a
/// third of the depth above the foot.
pub fn push(density: MassDensity, depth: Length, along: Length) -> Force {
    Force::new::<newton>(pressure(density, depth).value * depth.value / 2.0 * along.value)
}

/// What keeps screws from being further apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SpacingLimit {
    /// The side bows out between two screws.
    Bowing,
    /// A screw is drawn out of the board's edge.
    Withdrawal,
}

/// The screws of one side.
#[derive(Clone, Debug, PartialEq)]
pub struct SideScrews {
    /// The piece, by its index.
    pub piece: usize,
    /// The mark of its part.
    pub mark: String,
    /// Into the base.
    pub along: u32,
    /// From one to the next; nothing where there is only one.
    pub spacing: Option<Length>,
    /// Into its neighbours, at its two ends.
    pub at_ends: u32,
}

/// The screws of the whole job.
#[derive(Clone, Debug, PartialEq)]
pub struct Screws {
    /// Side by side.
    pub sides: Vec<SideScrews>,
    /// All of them.
    pub count: Figure<u32>,
    /// The distance typed.
    pub typed: Length,
    /// Pressure at the foot of the sides, in the deepest form.
    pub pressure: Figure<Pressure>,
    /// The largest distance that this pressure allows.
    pub most: Figure<Length>,
    /// What sets it.
    pub limit: SpacingLimit,
}

impl Screws {
    /// The screws of all pieces.
    ///
    /// # Errors
    /// What a form, its parts or the distance waits for; a job without pieces.
    pub(super) fn of(pieces: &[Built], job: &Job) -> Known<Self> {
        let typed = read::positive_length(job, FieldPath::Form(FormField::Screws));
        let forms = all(pieces.iter().map(|piece| {
            let form = piece.form.as_ref().map_err(Waiting::clone)?;
            form.parts.as_ref().map(|parts| (form, parts)).map_err(Waiting::clone)
        }));
        let (typed, forms) = both(typed, forms)?;
        let deepest = forms.iter().zip(pieces).map(|((form, _), piece)| {
            let density = piece.fresh.unwrap_or_else(limits::fresh_density_assumed);
            (pressure(density, form.cast_thickness.value), *form, density, piece.fresh.is_some())
        });
        let Some((_, form, density, known)) = deepest.reduce(|one, other| if other.0 > one.0 { other } else { one })
        else {
            return Err(read::no_piece(FieldPath::Form(FormField::Screws)));
        };
        let sides: Vec<SideScrews> = forms
            .iter()
            .enumerate()
            .flat_map(|(piece, (form, parts))| {
                parts.iter().filter_map(move |part| side_screws(piece, form, part, typed))
            })
            .collect();
        let pressure = foot_pressure(form, density, known, job.units);
        let (most, limit) = most_spacing(form, density, &pressure, job);
        Ok(Self { count: count(&sides, typed, job.units), sides, typed, pressure, most, limit })
    }
}

/// The screws of a side; nothing for the base.
fn side_screws(piece: usize, form: &Form, part: &Part, typed: Length) -> Option<SideScrews> {
    let edge = form.clear.edges().get(part.edge?)?;
    let length = match &part.made {
        // The base ends at the corners.
        Made::Straight(side) => side.inside.min(Length::new::<meter>(edge.length())),
        Made::Strip(strip) => strip.arc.length(),
        Made::Layers(layers) => layers.arc.length(),
        Made::Base(_) => return None,
    };
    let (along, spacing) = along(length, typed);
    let at_end = |cut: &EndCut| match cut {
        EndCut::RunsPast | EndCut::Shows => limits::SCREWS_A_CORNER,
        // One from either side.
        EndCut::Mitred { .. } => limits::SCREWS_A_CORNER / 2,
        EndCut::Butts | EndCut::ButtsBehind | EndCut::Meets | EndCut::Fitted { .. } => 0,
    };
    let at_ends = part.ends().into_iter().flatten().map(|end| at_end(&end.cut)).sum();
    Some(SideScrews { piece, mark: part.mark.clone(), along, spacing, at_ends })
}

/// Screws along so much of a side, and how far they are apart. None is nearer to an end than boards can
/// take; where that leaves no room for two, there is one.
fn along(length: Length, typed: Length) -> (u32, Option<Length>) {
    /// More than this is a typing error.
    const MOST: f64 = 10_000.0;
    let end = limits::screw_from_end();
    let room = length - 2.0 * end;
    if room < end {
        return (1, None);
    }
    let gaps = ((room / typed).get::<ratio>() - crate::measure::COUNT_TOLERANCE).ceil().clamp(1.0, MOST);
    (gaps as u32 + 1, Some(room / gaps))
}

fn count(sides: &[SideScrews], typed: Length, units: Units) -> Figure<u32> {
    let sum = |pick: fn(&SideScrews) -> u32| sides.iter().fold(0_u32, |sum, side| sum.saturating_add(pick(side)));
    let (along, at_ends) = (sum(|side| side.along), sum(|side| side.at_ends));
    let all = along.saturating_add(at_ends);
    let write = |count| write_count(count, "screw", "screws");
    Working::new("Screws")
        .line(
            format!(
                "along {}, no more than {} apart",
                write_count(sides.len() as u32, "side", "sides"),
                write_length(typed, units)
            ),
            "",
            write(along),
            Source::Practice,
        )
        .line("at the corners", "", write(at_ends), Source::Practice)
        .line("all of them", format!("{along} + {at_ends}"), write(all), Source::Arithmetic)
        .of(all)
}

/// "25 lb/ft²" or "1.2 kPa", to 0.1.
pub fn write_form_pressure(value: Pressure, units: Units) -> String {
    match units {
        Units::Inch => {
            let pounds = (value / crate::measure::exact::psi(1.0)).get::<ratio>() * 144.0;
            format!("{} lb/ft²", write_number(pounds, 1))
        }
        Units::Metric => format!("{} kPa", write_number(value.get::<kilopascal>(), 1)),
    }
}

pub(super) fn foot_pressure(form: &Form, density: MassDensity, known: bool, units: Units) -> Figure<Pressure> {
    let depth = form.cast_thickness.value;
    let value = pressure(density, depth);
    let (says, source) = if known {
        ("fresh density of the mix", Source::Arithmetic)
    } else {
        ("fresh density, none being known", Source::Practice)
    };
    Working::new("Pressure at the foot of the sides")
        .after(&form.cast_thickness.working)
        .line(says, "", write_density(density, units), source)
        .line(
            "density × depth: the piece lies flat, so the depth is the cast thickness",
            format!("{} × {}", write_density(density, units), write_length(depth, units)),
            write_form_pressure(value, units),
            limits::FORM_PRESSURE,
        )
        .of(value)
}

/// The largest distance between screws, by two simple rules, and which of them sets it.
///
/// * A side between two screws is a beam on two supports, as high as the side and as thick as the board; it
///   bows out by 5 q s⁴ ÷ 384 E I under the push q of every length.
/// * The push tips the side over its outer lower edge, and a screw half a board away from that edge holds it.
fn most_spacing(
    form: &Form,
    density: MassDensity,
    pressure: &Figure<Pressure>,
    job: &Job,
) -> (Figure<Length>, SpacingLimit) {
    let (depth, board) = (form.cast_thickness.value, form.board);
    let a_metre = push(density, depth, Length::new::<meter>(1.0)).value;
    let stiffness = limits::board_stiffness().value * form.side_height.value.value * board.value.powi(3) / 12.0;
    let bowing = (384.0 * stiffness * limits::side_bow_most().value / (5.0 * a_metre)).sqrt().sqrt();
    let below = if job.form.sides == SideStand::OnEdge { board } else { Length::default() };
    let arm = depth / 3.0 + below;
    let withdrawal = limits::screw_hold().value * (board.value / 2.0) / (a_metre * arm.value);
    let (most, limit) =
        if bowing <= withdrawal { (bowing, SpacingLimit::Bowing) } else { (withdrawal, SpacingLimit::Withdrawal) };
    let write = |metres: f64| write_length(Length::new::<meter>(metres), job.units);
    let says = match limit {
        SpacingLimit::Bowing => "the smaller of the two: the side must not bow",
        SpacingLimit::Withdrawal => "the smaller of the two: the screw must hold",
    };
    // Finer than the tape.
    let bow = match job.units {
        Units::Inch => format!("{} in", write_number(in_inches(limits::side_bow_most()), 3)),
        Units::Metric => format!("{} mm", write_number(limits::side_bow_most().value * 1e3, 1)),
    };
    let figure = Working::new("Screws at the most apart")
        .after(&pressure.working)
        .line(
            format!("until a side bows out by {bow}: (384 × E × I × bow ÷ 5 × push of a length)^¼"),
            format!(
                "E {} MPa, I {} × ({})³ ÷ 12, push {} N/m",
                write_number(limits::board_stiffness().value / 1e6, 0),
                write_length(form.side_height.value, job.units),
                write_length(board, job.units),
                write_number(a_metre, 1)
            ),
            write(bowing),
            limits::BOARD,
        )
        .line(
            "until a screw draws out: hold × half a board ÷ (push of a length × its height over the lower edge)",
            format!(
                "{} N × {} ÷ ({} N/m × {})",
                write_number(limits::screw_hold().value, 0),
                write(board.value / 2.0),
                write_number(a_metre, 1),
                write_length(arm, job.units)
            ),
            write(withdrawal),
            limits::BOARD,
        )
        .line(says, format!("{}, {}", write(bowing), write(withdrawal)), write(most), Source::Arithmetic)
        .of(Length::new::<meter>(most));
    (figure, limit)
}
