//! Screws, and the pressure that they hold against.
//!
//! Fresh concrete that flows presses on a side like a fluid: by density × depth at the foot, by nothing at
//! the top, in all half of that over the depth, a third of the depth above the foot. Every piece lies flat in
//! its form, so the depth is the cast thickness: also of a leg that will stand upright later.

use super::sag::bow_quantity;
use super::{BuildInputs, Built, EndCut, Form, Made, Part};
use crate::form::limits;
use crate::job::read::no_piece;
use crate::job::{FieldPath, FormField, SideStand};
use crate::measure::{Length, MassDensity, Measured, Pressure, Quantity, Units, write_number};
use crate::working::{Figure, Known, Label, Named, Source, Term, all, known_ref, together};
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
    pub(super) fn of(pieces: &[Built], inputs: &BuildInputs) -> Known<Self> {
        let forms = all(pieces.iter().map(|piece| {
            let form = known_ref(piece.form)?;
            known_ref(&form.parts).map(|parts| (form, parts))
        }));
        let (typed, forms) = together((inputs.screws.clone(), forms))?;
        let deepest = forms.iter().zip(pieces).map(|((form, _), piece)| {
            let density = piece.fresh.unwrap_or_else(limits::fresh_density_assumed);
            (pressure(density, form.cast_thickness.value), *form, density, piece.fresh.is_some())
        });
        let Some((_, form, density, known)) = deepest.reduce(|one, other| if other.0 > one.0 { other } else { one })
        else {
            return Err(no_piece(FieldPath::Form(FormField::Screws)));
        };
        let sides: Vec<SideScrews> = forms
            .iter()
            .enumerate()
            .flat_map(|(piece, (form, parts))| {
                parts.iter().filter_map(move |part| side_screws(piece, form, part, typed))
            })
            .collect();
        let pressure = foot_pressure(form, density, known);
        let (most, limit) = most_spacing(form, density, &pressure, inputs.boards.sides);
        Ok(Self { count: count(&sides, typed), sides, typed, pressure, most, limit })
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

fn count(sides: &[SideScrews], typed: Length) -> Figure<u32> {
    let sum = |pick: fn(&SideScrews) -> u32| sides.iter().fold(0_u32, |sum, side| sum.saturating_add(pick(side)));
    let (along, at_ends) = (sum(|side| side.along), sum(|side| side.at_ends));
    let screws = |count| Quantity::Count(count, "screw", "screws");
    let quantities = [Quantity::Count(sides.len() as u32, "side", "sides"), typed.quantity()];
    let says = Label::with("into the base along {}, no more than {} apart", quantities);
    let along = Term::stated_as(along, says, screws(along), Source::Practice);
    let at_ends = Term::stated_as(at_ends, "at the corners", screws(at_ends), Source::Practice);
    let all = along.value.saturating_add(at_ends.value);
    let most = |x: &[f64]| (x[0] + x[1]).min(f64::from(u32::MAX));
    along.with_rule(at_ends, "{} + {}", most, all).titled_as("Screws", screws(all), Source::Arithmetic)
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

/// The pressure on a form, as [`write_form_pressure`] has it.
fn form_pressure(value: Pressure) -> Quantity {
    Quantity::other(value.value, |si, units| write_form_pressure(Pressure::new::<pascal>(si), units))
}

pub(super) fn foot_pressure(form: &Form, density: MassDensity, known: bool) -> Figure<Pressure> {
    let (says, source) = if known {
        ("fresh density of the mix", Source::Arithmetic)
    } else {
        ("fresh density, none being known", Source::Practice)
    };
    let value = pressure(density, form.cast_thickness.value);
    let fluid = |x: &[f64]| x[0] * GRAVITY * x[1];
    density
        .stated(says, source)
        .with_rule(form.cast_thickness.term(), "{} × gravity × {}: the piece lies flat", fluid, value)
        .titled_as("Pressure at the foot of the sides", form_pressure(value), limits::FORM_PRESSURE)
}

/// The pressure at the foot of the sides in a formula.
pub(super) fn pressure_term(pressure: &Figure<Pressure>) -> Term<Pressure> {
    pressure.term_as(form_pressure(pressure.value))
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
    sides: SideStand,
) -> (Figure<Length>, SpacingLimit) {
    let (depth, board, height) = (form.cast_thickness.value, form.board, form.side_height.value);
    let metres = Length::new::<meter>;
    let newtons = |si: f64, _: Units| write_number(si, 1) + " N/m";
    let a_metre = push(density, depth, metres(1.0)).value;
    let a_metre = pressure_term(pressure)
        .with_rule(form.cast_thickness.term(), "{} × {} ÷ 2", |x| x[0] * x[1] / 2.0, a_metre)
        .step_as("push on so much of a side", Quantity::other(a_metre, newtons), limits::FORM_PRESSURE);

    let (stiffness, bow) = (limits::board_stiffness(), limits::side_bow_most());
    let bends = |x: &[f64]| {
        let stiffness = x[0] * x[1] * x[2].powi(3) / 12.0;
        (384.0 * stiffness * x[3] / (5.0 * x[4])).sqrt().sqrt()
    };
    let bowing = metres(bends(&[stiffness.value, height.value, board.value, bow.value, a_metre.value]));
    let parts = [
        stiffness.named("stiffness of the board").into(),
        form.side_height.term().into(),
        board.named("board").into(),
        Term::named_as(bow, "bow", bow_quantity(bow)).into(),
        a_metre.clone().into(),
    ];
    let bowing = Term::rule("(384 × {} × {} × ({})³ ÷ 12 × {} ÷ (5 × {}))^¼", parts, bends, bowing)
        .step(Label::with("distance until a side bows out by {}", [bow_quantity(bow)]), limits::BOARD);

    let third = form.cast_thickness.term() / 3.0;
    let arm = if sides == SideStand::OnEdge { third + board.named("board") } else { third };
    let arm = arm.step("height of the push over the lower edge", Source::Arithmetic);
    let draws = |x: &[f64]| x[0] * (x[1] / 2.0) / (x[2] * x[3]);
    let hold = limits::screw_hold().value;
    let withdrawal = metres(draws(&[hold, board.value, a_metre.value, arm.value.value]));
    let hold = Quantity::other(hold, |si, _| write_number(si, 0) + " N");
    let parts = [
        Term::named_as(limits::screw_hold(), "hold of a screw", hold).into(),
        board.named("board").into(),
        a_metre.into(),
        arm.into(),
    ];
    let withdrawal = Term::rule("{} × {} ÷ 2 ÷ ({} × {})", parts, draws, withdrawal)
        .step("distance until a screw draws out", limits::BOARD);

    let smaller = |x: &[f64]| x[0].min(x[1]);
    let (most, limit, says) = if bowing.value <= withdrawal.value {
        (bowing.value, SpacingLimit::Bowing, "the smaller of {} and {}: the side must not bow")
    } else {
        (withdrawal.value, SpacingLimit::Withdrawal, "the smaller of {} and {}: the screw must hold")
    };
    let most = bowing.with_rule(withdrawal, says, smaller, most);
    (most.titled("Screws at the most apart", Source::Arithmetic), limit)
}
