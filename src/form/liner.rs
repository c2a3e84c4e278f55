//! The liner: how long it is on every edge, what whole lengths it is cut from, and where its joints lie.

use super::packing::pack;
use super::part::edge_name;
use super::{Built, Form, LinerInputs};
use crate::form::limits;
use crate::job::{EdgeKind, FieldPath, FormField, Piece};
use crate::measure::{Length, Quantity};
use crate::plane::{Edge, EdgeTag, Outline};
use crate::working::{Figure, Known, Named, Part, Source, Term, Waiting, all, known_ref, together};
use std::f64::consts::PI;
use uom::si::length::meter;

/// A liner follows a bend in its run that turns by less than this, radians: 1°.
const SMOOTH: f64 = PI / 180.0;

/// More lengths than this along one run is a typing error.
const MOST_LENGTHS: f64 = 50.0;

/// Neighbouring lined edges that one liner covers without a cut at a corner.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// The piece, by its index.
    pub piece: usize,
    /// The edges of the clear outline that it covers, in order.
    pub edges: Vec<usize>,
    /// Length along the form sides.
    pub along: Length,
    /// How far it runs past at either end; nothing where it comes back to its start.
    pub past: Length,
    /// It comes back to its start.
    pub closed: bool,
    /// Where two lengths of it meet: from the start of its first edge, along the sides.
    pub joints: Vec<Length>,
    /// Every joint lies off the corners.
    pub joints_clear: bool,
    /// The lengths that it is made of, in order.
    pub pieces: Vec<Length>,
}

/// A corner or bow that the liner does not bend around.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TightBend {
    /// The piece, by its index.
    pub piece: usize,
    /// The edge of the clear outline, by its index.
    pub edge: usize,
    /// Its radius.
    pub radius: Length,
}

/// One piece to cut from a whole length: which run, and which of its pieces.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LinerCut {
    /// The run, by its index.
    pub run: usize,
    /// The piece of the run, by its index.
    pub piece: usize,
}

/// The liner of the whole job.
#[derive(Clone, Debug, PartialEq)]
pub struct Liner {
    /// Every run.
    pub runs: Vec<Run>,
    /// Bends that it does not take.
    pub tight: Vec<TightBend>,
    /// What each whole length is cut into. All pieces are taken to be poured on one day: no length serves
    /// twice.
    pub cuts: Vec<Vec<LinerCut>>,
    /// Whole lengths that are needed.
    pub lengths: Figure<u32>,
    /// Of these, how many to buy.
    pub to_buy: Figure<u32>,
    /// Ends under which a gap has to be plugged.
    pub ends_to_plug: u32,
    /// Double-sided tape that holds it.
    pub tape: Figure<Length>,
}

/// Lengths of the liner as typed.
struct Typed {
    stock: Length,
    past: Length,
    bend: Length,
    owned: u32,
}

impl Typed {
    fn of(inputs: &LinerInputs) -> Known<Self> {
        let LinerInputs { stock, past, bend, owned, .. } = inputs;
        let (stock, past, bend, owned) = together((stock.clone(), past.clone(), bend.clone(), owned.clone()))?;
        Ok(Self { stock, past, bend, owned })
    }
}

impl Run {
    /// Length with what runs past at its ends.
    pub fn length(&self) -> Length {
        self.along + 2.0 * self.past
    }

    /// What to call it: "Front", "Front to Left".
    pub fn name(&self, clear: &Outline, typed: &Piece) -> String {
        let name = |edge: Option<&usize>| edge.map_or_else(String::new, |edge| edge_name(clear, *edge, typed));
        let (first, last) = (name(self.edges.first()), name(self.edges.last()));
        if self.edges.len() > 1 { format!("{first} to {}", last.to_lowercase()) } else { first }
    }
}

impl Liner {
    /// The liner of all pieces; nothing where no edge is lined.
    pub(super) fn of(pieces: &[Built], inputs: &LinerInputs) -> Option<Known<Self>> {
        let lined =
            |piece: &Built| piece.top.edges.iter().any(|edge| matches!(edge, Ok(edge) if edge.kind == EdgeKind::Lined));
        let lined: Vec<_> = pieces.iter().enumerate().filter(|(_, piece)| lined(piece)).collect();
        (!lined.is_empty()).then(|| Self::of_lined(&lined, inputs))
    }

    fn of_lined(lined: &[(usize, &Built)], inputs: &LinerInputs) -> Known<Self> {
        let forms = all(lined.iter().map(|(index, piece)| known_ref(piece.form).map(|form| (*index, *piece, form))));
        let (forms, typed) = together((forms, Typed::of(inputs)))?;
        let mut tight = Vec::new();
        let mut runs = Vec::new();
        for (piece, built, form) in forms {
            runs.extend(runs_of(piece, built, form, &typed, &mut tight)?);
        }
        let cuts: Vec<(LinerCut, Length)> = runs
            .iter()
            .enumerate()
            .flat_map(|(run, found)| {
                let pieces = found.pieces.iter().enumerate();
                pieces.map(move |(piece, length)| (LinerCut { run, piece }, *length))
            })
            .collect();
        let lengths: Vec<Length> = cuts.iter().map(|(_, length)| *length).collect();
        let packed = pack(&lengths, typed.stock);
        let cuts: Vec<Vec<LinerCut>> = packed
            .iter()
            .map(|length| length.iter().filter_map(|cut| cuts.get(*cut)).map(|(cut, _)| *cut).collect())
            .collect();
        let (lengths, to_buy) = whole_lengths(&lengths, cuts.len(), &typed);
        let tape = tape(&runs);
        let ends_to_plug = runs.iter().filter(|run| !run.closed).count() as u32 * 2;
        Ok(Self { runs, tight, cuts, lengths, to_buy, ends_to_plug, tape })
    }
}

/// The runs of one piece.
fn runs_of(piece: usize, built: &Built, form: &Form, typed: &Typed, tight: &mut Vec<TightBend>) -> Known<Vec<Run>> {
    let clear = &form.clear;
    let edges = clear.edges();
    let mut covered: Vec<bool> = edges.iter().map(|edge| is_lined(built, edge)).collect();
    for (index, edge) in edges.iter().enumerate().filter(|(index, _)| is_lined(built, &edges[*index])) {
        let radius = edge.radius().map(Length::new::<meter>);
        if let Some(radius) = radius.filter(|radius| *radius < typed.bend - crate::measure::geometry_tolerance()) {
            tight.push(TightBend { piece, edge: index, radius });
            // Two lengths meet at a corner that is too tight, each running past; a bow is covered all the same.
            covered[index] = !matches!(edge.tag(), EdgeTag::Corner(..));
        }
    }
    let goes_on = |vertex: usize| {
        let smooth = (clear.interior_angle(vertex) - PI).abs() < SMOOTH;
        smooth && covered[clear.before(vertex)] && covered[vertex]
    };
    let starts: Vec<usize> = (0..edges.len()).filter(|edge| covered[*edge] && !goes_on(*edge)).collect();
    if starts.is_empty() && covered.iter().any(|covered| *covered) {
        return Ok(vec![run(piece, clear, all_round(edges), true, typed)?]);
    }
    starts
        .into_iter()
        .map(|start| {
            let mut edges = vec![start];
            let mut next = clear.after(start);
            while goes_on(next) && next != start {
                edges.push(next);
                next = clear.after(next);
            }
            run(piece, clear, edges, false, typed)
        })
        .collect()
}

/// A liner stands on the edge: it is a lined side, or lies between two.
fn is_lined(built: &Built, edge: &Edge) -> bool {
    let side = |side: u16| {
        let edge = built.top.edges.get(usize::from(side));
        matches!(edge, Some(Ok(edge)) if edge.kind == EdgeKind::Lined)
    };
    match edge.tag() {
        EdgeTag::Side(number) => side(number),
        EdgeTag::Corner(one, other) | EdgeTag::Clip(one, other) => side(one) && side(other),
        EdgeTag::Step(..) => false,
    }
}

/// All edges in order, from the longest on: the joint of a closed run lies there.
fn all_round(edges: &[Edge]) -> Vec<usize> {
    let longest = (0..edges.len()).max_by(|one, other| edges[*one].length().total_cmp(&edges[*other].length()));
    let first = longest.unwrap_or_default();
    (0..edges.len()).map(|edge| (first + edge) % edges.len()).collect()
}

fn run(piece: usize, clear: &Outline, edges: Vec<usize>, closed: bool, typed: &Typed) -> Known<Run> {
    let metres = Length::new::<meter>;
    let lengths: Vec<f64> = edges.iter().filter_map(|edge| clear.edges().get(*edge)).map(Edge::length).collect();
    let along: f64 = lengths.iter().sum();
    let past = if closed { 0.0 } else { typed.past.get::<meter>().max(0.0) };
    let stock = typed.stock.get::<meter>();
    if (along + 2.0 * past) / stock > MOST_LENGTHS {
        let place = FieldPath::Form(FormField::LinerLength);
        return Err(Waiting::at(place, "The lengths that the liner is sold in are far shorter than its edges."));
    }
    // A closed run starts in the middle of its first edge; everything is told from there.
    let shift = if closed { lengths.first().map_or(0.0, |first| first / 2.0) } else { 0.0 };
    let corners = corners(clear, &edges, &lengths, closed, shift, along);
    let (found, joints_clear) = joints([-past, along + past], stock, &corners);
    let mut stops = vec![-past];
    stops.extend(&found);
    stops.push(along + past);
    let pieces = stops.iter().zip(stops.iter().skip(1)).map(|(from, to)| metres(to - from)).collect();
    let joints = closed.then_some(0.0).into_iter().chain(found).map(|joint| metres(joint + shift)).collect();
    Ok(Run { piece, edges, along: metres(along), past: metres(past), closed, joints, joints_clear, pieces })
}

/// Where no joint may lie: near the ends of a run, and near rounded corners in it.
fn corners(clear: &Outline, edges: &[usize], lengths: &[f64], closed: bool, shift: f64, along: f64) -> Vec<[f64; 2]> {
    let off = limits::liner_joint_clear().get::<meter>();
    let mut zones = if closed { Vec::new() } else { vec![[f64::NEG_INFINITY, off], [along - off, f64::INFINITY]] };
    let mut at = -shift;
    for (edge, length) in edges.iter().zip(lengths) {
        let tag = clear.edges().get(*edge).map(Edge::tag);
        if matches!(tag, Some(EdgeTag::Corner(..))) {
            zones.push([at - off, at + length + off]);
        }
        at += length;
    }
    zones
}

/// The fewest joints that leave no length longer than the stock, each as late as it may be; and whether all
/// lie outside the zones.
fn joints([start, end]: [f64; 2], stock: f64, zones: &[[f64; 2]]) -> (Vec<f64>, bool) {
    let mut found = Vec::new();
    let (mut at, mut all_clear) = (start, true);
    while end - at > stock * (1.0 + 1e-9) && found.len() < 2 * MOST_LENGTHS as usize {
        let mut joint = at + stock;
        for _ in 0..=zones.len() {
            if let Some(zone) = zones.iter().find(|zone| zone[0] < joint && joint < zone[1]) {
                joint = zone[0];
            }
        }
        if !(joint.is_finite() && joint > at + stock / 8.0) {
            all_clear = false;
            joint = at + stock;
        }
        found.push(joint);
        at = joint;
    }
    (found, all_clear)
}

fn whole_lengths(pieces: &[Length], needed: usize, typed: &Typed) -> (Figure<u32>, Figure<u32>) {
    let counted = |count| Quantity::Count(count, "length", "lengths");
    let needed = u32::try_from(needed).unwrap_or(u32::MAX);
    let sum: Length = pieces.iter().copied().sum();
    let least =
        sum.stated("every edge and what runs past its ends", Source::Practice) / typed.stock.named("one length");
    let share = Quantity::Number(least.value.value, 2);
    let least = least.step_as("at the least", share, Source::Arithmetic);
    let parts = [Part::list(pieces.iter().map(|piece| piece.named("piece"))), least.into()];
    let lengths = Term::found("{}, cut so that the fewest lengths are needed; {}", parts, needed).titled_as(
        "Whole lengths of liner",
        counted(needed),
        Source::Arithmetic,
    );
    let buy = needed.saturating_sub(typed.owned);
    let owned = Term::named_as(typed.owned, "already there", counted(typed.owned));
    let to_buy = lengths
        .term_as(counted(needed))
        .with_rule(owned, "{} − {}", |x| (x[0] - x[1]).max(0.0), buy)
        .titled_as("Lengths of liner to buy", counted(buy), Source::Arithmetic);
    (lengths, to_buy)
}

fn tape(runs: &[Run]) -> Figure<Length> {
    let sum: Length = runs.iter().map(Run::length).sum();
    (limits::LINER_TAPE_ROWS * sum.named("liner, for every row of double-sided tape"))
        .titled("Tape behind the liner", Source::Practice)
}
