//! The parts of a form: what is cut for it, under the mark that stands on the drawing.

use super::bend::{self, Arc, Bending};
use super::ends::{self, End, EndCut};
use super::{BasePanel, BoardInputs, Face, FormInputs};
use crate::job::{Bend, Piece};
use crate::measure::{Angle, Length, Units, write_angle, write_length};
use crate::plane::{Edge, EdgeTag, Opening, Outline, between_openings};
use crate::working::{Known, together};
use kurbo::Point;
use uom::si::length::meter;

/// A straight side.
#[derive(Clone, Debug, PartialEq)]
pub struct Straight {
    /// Its ends: where its edge starts, and where it ends.
    pub ends: [End; 2],
    /// Length of the face towards the concrete, with what runs past.
    pub inside: Length,
    /// Length of the other face.
    pub outside: Length,
}

/// A strip bent along an arc.
#[derive(Clone, Debug, PartialEq)]
pub struct Strip {
    /// The arc of its face.
    pub arc: Arc,
    /// What it takes to bend it.
    pub bending: Bending,
    /// Its ends, as of a straight side.
    pub ends: [End; 2],
}

/// Layers of board cut to an arc and stacked.
#[derive(Clone, Debug, PartialEq)]
pub struct Layers {
    /// The arc of their face.
    pub arc: Arc,
    /// What has to be shimmed to reach the height of the side; nothing where the layers reach it.
    pub shim: Length,
    /// Their ends, as of a straight side.
    pub ends: [End; 2],
}

/// How a part is made.
#[derive(Clone, Debug, PartialEq)]
pub enum Made {
    /// The panel that the face is cast on.
    Base(BasePanel),
    /// A straight side.
    Straight(Straight),
    /// A bent strip.
    Strip(Strip),
    /// Stacked layers.
    Layers(Layers),
}

/// One part to cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// Its mark, the same in the list and on the drawing: "S1"; with several pieces, "2-S1".
    pub mark: String,
    /// How it is made.
    pub made: Made,
    /// The edge of the clear outline that is cast against it, by its index; the base has none.
    pub edge: Option<usize>,
    /// How many of it.
    pub count: u32,
    /// The longer side of the rectangle that it is cut from; of a side, along its edge.
    pub length: Length,
    /// The other side of that rectangle; of a side, its height.
    pub width: Length,
    /// Thickness of what it is cut from.
    pub thickness: Length,
    /// It seen from above where it stands, in the frame of the clear outline, metres. Nothing where its
    /// neighbours leave no room for it.
    pub solid: Option<Outline>,
}

/// What the parts of a form are made for.
pub(super) struct Plan<'a> {
    pub inputs: &'a FormInputs,
    pub clear: &'a Outline,
    pub board: Length,
    pub side_height: Length,
}

impl Part {
    /// What to call it in a list: "Front side".
    pub fn name(&self, clear: &Outline, typed: &Piece) -> String {
        self.named(clear, &|side| typed.side_name(side))
    }

    /// The same, with the words for a side.
    pub(super) fn named(&self, clear: &Outline, side: &dyn Fn(usize) -> String) -> String {
        let Some(edge) = self.edge else { return "Base".to_owned() };
        let what = match self.made {
            Made::Strip(_) => "strip",
            Made::Layers(_) => "layer",
            Made::Base(_) | Made::Straight(_) => "side",
        };
        format!("{} {what}", edge_words(clear, edge, side))
    }

    /// The ends of a side; the base has none.
    pub fn ends(&self) -> Option<&[End; 2]> {
        match &self.made {
            Made::Base(_) => None,
            Made::Straight(side) => Some(&side.ends),
            Made::Strip(strip) => Some(&strip.ends),
            Made::Layers(layers) => Some(&layers.ends),
        }
    }

    /// How its ends are cut, with the sides that they meet: "square, runs past Right; mitred to Back, saw at
    /// 22.5°, outside face long".
    pub fn ends_words(&self, clear: &Outline, typed: &Piece, units: Units) -> String {
        let words = |end: &End| {
            let other = edge_name(clear, end.toward, typed);
            let rounded = end.rounded.map(|radius| format!(", rounded over to {}", write_length(radius, units)));
            format!("{}{}", end.cut.words(&other), rounded.unwrap_or_default())
        };
        self.ends().map_or_else(String::new, |[start, end]| format!("{}; {}", words(start), words(end)))
    }
}

impl EndCut {
    /// What is done to the end, and against which side: "square, runs past Right".
    pub fn words(&self, other: &str) -> String {
        let slanted = |saw: &Angle, long: &Face| {
            let face = if *long == Face::Inside { "inside" } else { "outside" };
            format!("saw at {}, {face} face long", write_angle(*saw).text)
        };
        match self {
            Self::RunsPast => format!("square, runs past {other}"),
            Self::Butts => format!("square, butts against {other}"),
            Self::Shows => format!("square, its end shows at {other}"),
            Self::ButtsBehind => format!("square, butts against the back of {other}"),
            Self::Meets => format!("square, meets the end of {other}"),
            Self::Mitred { saw, long } => format!("mitred to {other}, {}", slanted(saw, long)),
            Self::Fitted { saw, long } => format!("fitted to {other}, {}", slanted(saw, long)),
        }
    }

    /// The tilt that the saw is set to; nothing for a square cut.
    pub fn saw(&self) -> Option<Angle> {
        match self {
            Self::Mitred { saw, .. } | Self::Fitted { saw, .. } => Some(*saw),
            _ => None,
        }
    }
}

/// The words for an edge of the clear outline: "Front", "Left / front corner".
pub(super) fn edge_name(clear: &Outline, edge: usize, typed: &Piece) -> String {
    edge_words(clear, edge, &|side| typed.side_name(side))
}

/// The same, with the words for a side.
fn edge_words(clear: &Outline, edge: usize, side: &dyn Fn(usize) -> String) -> String {
    let name = |number: u16| side(usize::from(number));
    match clear.edges().get(edge).map(Edge::tag) {
        Some(EdgeTag::Side(side)) => name(side),
        Some(EdgeTag::Corner(one, other) | EdgeTag::Clip(one, other) | EdgeTag::Step(one, other)) => {
            format!("{} / {} corner", name(one), name(other).to_lowercase())
        }
        None => String::new(),
    }
}

/// The parts of a form: its base, then its sides in the order of the edges of the clear outline.
///
/// # Errors
/// What an arc waits for: the strip, the radius that it bends to, or the kerf.
pub(super) fn parts(plan: &Plan) -> Known<Vec<Part>> {
    let boards = &plan.inputs.boards;
    let bent = boards.bend == Bend::Strip && plan.clear.edges().iter().any(|edge| !edge.is_straight());
    let strip = if bent { Some(strip_stock(boards)?) } else { None };
    let stock = strip.as_ref().map_or(plan.board, |strip| strip.thickness);
    let depth = |edge: &Edge| if edge.is_straight() { plan.board } else { stock }.get::<meter>();
    let depths: Vec<f64> = plan.clear.edges().iter().map(depth).collect();
    let mark = |letter: char, number: usize| format!("{}{letter}{number}", plan.inputs.mark);
    let base = BasePanel::of(plan.clear, plan.board, boards.sides);
    let [width, length] = base.blank;
    let mut parts = vec![Part {
        mark: mark('B', 1),
        solid: Some(base.outline.clone()),
        made: Made::Base(base),
        edge: None,
        count: 1,
        length: length.max(width),
        width: length.min(width),
        thickness: plan.board,
    }];
    let edges = plan.clear.edges().iter().zip(&depths).zip(ends::stops(plan.clear, &depths));
    let sides = edges.enumerate().filter_map(|(index, ((edge, depth), stops))| Some((index, edge, *depth, stops?)));
    for (number, (index, edge, depth, stops)) in sides.enumerate() {
        let (made, count, length, width, thickness) = side(plan, edge, &stops, strip.as_ref());
        parts.push(Part {
            mark: mark('S', number + 1),
            solid: ends::solid(edge, depth, &stops),
            made,
            edge: Some(index),
            count,
            length,
            width,
            thickness,
        });
    }
    Ok(parts)
}

/// The strip that arcs are bent from.
struct StripStock {
    thickness: Length,
    freely: Length,
    kerf: Length,
}

fn strip_stock(boards: &BoardInputs) -> Known<StripStock> {
    let BoardInputs { strip, strip_bend, kerf, .. } = boards;
    let (thickness, freely, kerf) = together((strip.clone(), strip_bend.clone(), kerf.clone()))?;
    Ok(StripStock { thickness, freely, kerf })
}

/// How a side is made, how many of it, and its length, width and thickness.
fn side(
    plan: &Plan,
    edge: &Edge,
    stops: &[ends::Stop; 2],
    strip: Option<&StripStock>,
) -> (Made, u32, Length, Length, Length) {
    let ends = [stops[0].end, stops[1].end];
    let Some(arc) = Arc::of(edge) else {
        let (side, length) = straight(edge, stops);
        return (Made::Straight(side), 1, length, plan.side_height, plan.board);
    };
    let Some(stock) = strip else {
        let (count, shim) = bend::layers(plan.side_height, plan.board);
        let [length, width] = bend::blank(&arc, plan.board);
        return (Made::Layers(Layers { arc, shim, ends }), count, length, width, plan.board);
    };
    let bending = bend::bending(&arc, stock.thickness, stock.freely, stock.kerf);
    let length = bend::developed(&arc, stock.thickness, &bending);
    (Made::Strip(Strip { arc, bending, ends }), 1, length, plan.side_height, stock.thickness)
}

/// A straight side, and its length over all.
fn straight(edge: &Edge, [start, end]: &[ends::Stop; 2]) -> (Straight, Length) {
    let along = |point: Point| (point - edge.start()).dot(edge.direction_at_start());
    let metres = |length: f64| Length::new::<meter>(length.max(0.0));
    let from = along(start.face).min(along(start.outer));
    let to = along(end.face).max(along(end.outer));
    let side = Straight {
        ends: [start.end, end.end],
        inside: metres(along(end.face) - along(start.face)),
        outside: metres(along(end.outer) - along(start.outer)),
    };
    (side, metres(to - from))
}

/// Sides of a form that stand in each other's way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Clash {
    /// One of them, by its index among the parts.
    pub part: usize,
    /// The other; nothing where its neighbours leave no room for the part itself.
    pub other: Option<usize>,
}

/// Boards that press no deeper into each other than this still go together; metres.
const DEEP: f64 = 0.000_2;

/// Every two sides of a form that stand in each other's way, and those for which there is no room.
pub(super) fn clashes(parts: &[Part]) -> Vec<Clash> {
    let mut found = Vec::new();
    let mut solids = Vec::new();
    for (index, part) in parts.iter().enumerate().filter(|(_, part)| part.edge.is_some()) {
        match &part.solid {
            None => found.push(Clash { part: index, other: None }),
            Some(solid) => solids.push((index, Opening::Outline(solid.clone()))),
        }
    }
    for (position, (part, solid)) in solids.iter().enumerate() {
        for (other, other_solid) in solids.iter().skip(position + 1) {
            let near = solid.bounds().inflate(-DEEP, -DEEP).intersect(other_solid.bounds());
            if near.width() > 0.0 && near.height() > 0.0 && between_openings(solid, other_solid).distance < -DEEP {
                found.push(Clash { part: *part, other: Some(*other) });
            }
        }
    }
    found
}
