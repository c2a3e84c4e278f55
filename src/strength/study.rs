//! All cases of one top worked out on one mesh.

use super::bearing::{Bearing, BearingError, Contact, ContactSolution};
use super::cases::{Case, Load, Slab, long_way, metres};
use super::cut::{Along, Beam, Span};
use super::mesh::{Mesh, MeshError, MeshSize};
use super::outcome::{Hand, Outcome, Reaction, UtilizationField, Worst, WorstLocation};
use super::plate::{Moments, Plate};
use super::reading::{Face, Place, Reading};
use super::seats::{Seat, Spot};
use super::solver::SolveError;
use super::sorted::order_of;
use super::{limits, outcome};
use crate::measure::{Pressure, Units};
use kurbo::{Point, Vec2};
use serde::{Deserialize, Serialize};
use uom::si::f64::Force;
use uom::si::force::newton;
use uom::si::pressure::pascal;

/// Why nothing is worked out.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum StudyError {
    /// The thickness, a strength, a density, a multiplier or a force is nothing, negative or not finite.
    NoSize,
    /// There is no mesh.
    Mesh(MeshError),
    /// The system is not solved.
    Solve(SolveError),
    /// The supports do not hold it.
    Bearing(BearingError),
    /// A load lies outside the top.
    LoadOutside,
    /// There is no such case.
    NoCase,
}

impl From<BearingError> for StudyError {
    fn from(error: BearingError) -> Self {
        match error {
            BearingError::Solve(error) => Self::Solve(error),
            other => Self::Bearing(other),
        }
    }
}

/// The length of support at a node alone, 1 in in metres.
const ALONE: f64 = 0.0254;

/// A top on its mesh, ready for its cases.
#[derive(Debug)]
pub struct Study {
    slab: Slab,
    cases: Vec<Case>,
    /// The first guide of each case.
    first_line: Vec<usize>,
    bearing: Bearing,
    loops: Vec<Vec<Point>>,
}

impl Study {
    /// The top on a mesh that has nodes along every support of every case.
    ///
    /// # Errors
    /// Why there is no mesh.
    pub fn new(slab: &Slab, cases: &[Case], grain: &MeshSize) -> Result<Self, StudyError> {
        if !(slab.thickness.value > 0.0 && slab.thickness.value.is_finite()) {
            return Err(StudyError::NoSize);
        }
        let mut guides = Vec::new();
        let mut first_line = Vec::new();
        let mut fine_at = Vec::new();
        for case in cases {
            first_line.push(guides.len());
            // What stands on edge is worked out without the mesh.
            if !case.kind.is_on_edge() {
                guides.extend(case.supports.iter().map(|support| support.line));
            }
            // Beside a cutout the mesh is fine as it is; more of it there would make it coarser elsewhere.
            let seats = case.seats.iter().filter(|seat| seat.spot.is_at_an_edge());
            for load in case.loads.iter().chain(seats.map(|seat| &seat.load)) {
                if let Load::Patch { area, .. } = load {
                    fine_at.push((area.center(), area.width().max(area.height())));
                }
            }
        }
        let mesh = Mesh::of(&slab.outline, &slab.openings, &guides, &fine_at, grain).map_err(StudyError::Mesh)?;
        let at = |nodes: &Vec<usize>| nodes.iter().filter_map(|node| mesh.nodes.get(*node).copied()).collect();
        let loops = mesh.loops.iter().map(at).collect();
        let plate = Plate::new(mesh, limits::POISSON).map_err(StudyError::Solve)?;
        Ok(Self { slab: slab.clone(), cases: cases.to_vec(), first_line, bearing: Bearing::new(plate), loops })
    }

    /// The mesh, to draw on.
    pub fn mesh(&self) -> &Mesh {
        self.bearing.plate().mesh()
    }

    /// The cases.
    pub fn cases(&self) -> &[Case] {
        &self.cases
    }

    /// Works out one case.
    ///
    /// # Errors
    /// Why it cannot be.
    pub fn work_out(&mut self, index: usize, units: Units) -> Result<Outcome, StudyError> {
        let case = self.cases.get(index).cloned().ok_or(StudyError::NoCase)?;
        let numbers = [case.multiplier, case.concrete.strength.value, case.concrete.density.value];
        let flexural = case.concrete.flexural.map_or(1.0, |flexural| flexural.value);
        if !numbers.into_iter().chain([flexural]).all(|number| number > 0.0 && number.is_finite()) {
            return Err(StudyError::NoSize);
        }
        if case.kind.is_on_edge() { self.on_edge(&case, units) } else { self.flat(index, &case, units) }
    }

    /// Weight a square metre, times the multiplier; pascals.
    fn weight(&self, case: &Case) -> f64 {
        self.slab.thickness.value * case.concrete.density.value * limits::GRAVITY * case.multiplier
    }

    fn flat(&mut self, index: usize, case: &Case, units: Units) -> Result<Outcome, StudyError> {
        let thickness = self.slab.thickness.value;
        let stiffness = case.concrete.modulus(units).value;
        let bending = stiffness * thickness.powi(3) / (12.0 * (1.0 - limits::POISSON * limits::POISSON));
        let contacts = self.contacts(index, case, bending);
        let bare = self.load(case)?;
        let allowable = case.concrete.allowable_stress(units);
        let mut worst: Option<Tried> = None;
        for seat in seats_of(case) {
            let mut load = bare.clone();
            if let Some(seat) = seat
                && !self.add_load(&mut load, &seat.load)
            {
                continue;
            }
            let settled = self.bearing.solve_contacts(&contacts, &load)?;
            let plate = self.bearing.plate();
            let moments = plate.moments(&settled.deflection);
            let place = Reading::new(plate, &moments, thickness).worst(&self.loops);
            let mean = |place: &Option<Place>| place.as_ref().map_or(0.0, |place| place.mean);
            // Of two that are alike the first is told, whatever the mesh makes of their last digits.
            if worst.as_ref().is_none_or(|worst| mean(&place) > 1.002 * mean(&worst.place)) {
                worst = Some(Tried { spot: seat.map(|seat| seat.spot), load, settled, moments, place });
            }
        }
        let Tried { spot, load, settled, moments, place } = worst.ok_or(StudyError::LoadOutside)?;
        let plate = self.bearing.plate();
        let reading = Reading::new(plate, &moments, thickness);
        let share = |face| reading.tensions(face).iter().map(|tension| tension / allowable.value).collect();
        let drawn = UtilizationField { underside: share(Face::Underside), top: share(Face::Top) };
        let reactions = reactions(case, &contacts, &settled.reactions);
        let worst = place.map(|place| {
            let hand = self.hand(case, &place, &contacts, &settled.reactions, &load);
            self.worst(&place, hand)
        });
        let lowest = settled.deflection.iter().step_by(3).enumerate().max_by(|one, other| one.1.total_cmp(other.1));
        let deflection = lowest.map(|(node, lowest)| (metres(lowest / bending), plate.mesh().nodes[node]));
        let utilization = share_of(worst.as_ref(), allowable);
        let imbalance = settled.imbalance;
        Ok(Outcome { kind: case.kind, spot, drawn, worst, allowable, utilization, deflection, reactions, imbalance })
    }

    /// What bears, node by node: each as stiff as the length of support that falls to it.
    fn contacts(&self, index: usize, case: &Case, bending: f64) -> Vec<Contact> {
        let first = self.first_line.get(index).copied().unwrap_or(0);
        let mut contacts: Vec<Contact> = Vec::new();
        for (line, support) in case.supports.iter().enumerate() {
            let Some(nodes) = self.mesh().lines.get(first + line) else { continue };
            let gap = support.gap.value * bending;
            for (node, length) in shares(&self.mesh().nodes, nodes, support.line) {
                let stiffness = Some(support.bears.stiffness().value * length / bending);
                let contact = Contact { node, unknown: 0, line, gap, stiffness, only_pushes: !support.bears.pulls() };
                // Where two supports meet, the higher one bears.
                match contacts.iter_mut().find(|contact| contact.node == node) {
                    Some(known) if known.gap <= gap => {}
                    Some(known) => *known = contact,
                    None => contacts.push(contact),
                }
            }
        }
        contacts
    }

    /// Weight and what bears down besides.
    fn load(&self, case: &Case) -> Result<Vec<f64>, StudyError> {
        let mut load = self.bearing.plate().even_load(self.weight(case));
        if case.loads.iter().all(|one| self.add_load(&mut load, one)) { Ok(load) } else { Err(StudyError::LoadOutside) }
    }

    /// Adds what bears down; false if nothing of it lies on the top.
    fn add_load(&self, load: &mut [f64], one: &Load) -> bool {
        match one {
            Load::Patch { area, force } => self.bearing.plate().add_patch_load(load, *area, force.value),
            Load::Rim { opening, within, force } => self.add_rim_load(load, *opening, within, force.value),
        }
    }

    /// Spreads a force along an opening's edge by its length; false if none of it lies within.
    fn add_rim_load(&self, load: &mut [f64], opening: usize, within: &kurbo::Rect, force: f64) -> bool {
        let Some(numbers) = self.mesh().loops.get(opening + 1) else { return false };
        let nodes = &self.mesh().nodes;
        let chords = || {
            let next = numbers.iter().cycle().skip(1);
            numbers.iter().zip(next).filter(|(one, other)| within.contains(nodes[**one].midpoint(nodes[**other])))
        };
        let length = |(one, other): (&usize, &usize)| (nodes[*other] - nodes[*one]).hypot();
        let whole: f64 = chords().map(length).sum();
        for (one, other) in chords() {
            let share = force * length((one, other)) / whole / 2.0;
            load[3 * one] += share;
            load[3 * other] += share;
        }
        whole > 0.0
    }

    /// The strip by hand: what statics gives for the cut through the worst place, over the width of all strips.
    fn hand(&self, case: &Case, place: &Place, contacts: &[Contact], reactions: &[f64], load: &[f64]) -> Option<Hand> {
        let beam = Beam::new(self.loops.clone(), place.along);
        let at = place.along.split(place.at).0;
        let along = |node: usize| place.along.split(self.mesh().nodes[node]).0;
        // Weight comes with the area; what else bears down comes with its nodes.
        let even = self.bearing.plate().even_load(self.weight(case));
        let others = load.iter().zip(&even).step_by(3).enumerate();
        let mut forces: Vec<(f64, f64)> = others
            .filter(|(_, (force, even))| **force != **even)
            .map(|(node, (force, even))| (along(node), force - even))
            .collect();
        forces.extend(contacts.iter().zip(reactions).map(|(contact, reaction)| (along(contact.node), -reaction)));
        Hand::of(&beam, at, self.weight(case), &forces, self.slab.thickness)
    }

    fn worst(&self, place: &Place, hand: Option<Hand>) -> Worst {
        Worst {
            at: place.at,
            face: place.face,
            beside: self.beside_or_near(place.at, &place.span, place.along),
            stress: Pressure::new::<pascal>(place.mean),
            strip: Pressure::new::<pascal>(place.strip),
            width: metres(place.span.width()),
            hand,
            sharp: self.is_sharp(place.at),
        }
    }

    /// What the strip at a place lies beside; where the cut just misses every opening, the one within a thickness of
    /// the place. The strip itself, its width and its pull stay those of the cut: only the name looks further.
    fn beside_or_near(&self, at: Point, span: &Span, along: Along) -> WorstLocation {
        match self.beside(at, span, along) {
            WorstLocation::Middle => self.near(at, along).unwrap_or(WorstLocation::Middle),
            rail => rail,
        }
    }

    /// The strip beside the opening that is nearest to a place, if it lies within one thickness of it.
    fn near(&self, at: Point, along: Along) -> Option<WorstLocation> {
        let thickness = self.slab.thickness.value;
        let openings = self.loops.iter().enumerate().skip(1);
        let far = openings.map(|(number, points)| (number, distance(points, at)));
        let (number, _) = far.filter(|(_, far)| *far <= thickness).min_by(|one, other| one.1.total_cmp(&other.1))?;
        // A cut through the opening leaves a strip before it and one behind it. A place at neither of them lies at the
        // end of the opening, and has the strip that a cut the other way leaves.
        let other_way = if along == Along::X { Along::Y } else { Along::X };
        let strip = |along: Along, slack: f64| {
            let beam = Beam::new(self.loops.clone(), along);
            let (place, across) = along.split(at);
            let (from, to) = beam.reach(number);
            let little = (to - from) / 100.0;
            let spans = beam.spans(place.clamp(from + little, to - little));
            let mut own = spans.into_iter().filter(|span| span.from_loop == number || span.to_loop == number);
            own.find(|span| (span.from - slack..=span.to + slack).contains(&across))
        };
        [(along, thickness / 4.0), (other_way, thickness / 4.0), (along, thickness)]
            .into_iter()
            .find_map(|(along, slack)| Some(self.beside(at, &strip(along, slack)?, along)))
    }

    /// What the strip of a cut at a place lies beside.
    fn beside(&self, at: Point, span: &Span, along: Along) -> WorstLocation {
        let openings = [span.from_loop, span.to_loop].map(|number| number.checked_sub(1));
        let (_, across) = along.split(at);
        // Of two openings, the nearer one.
        let nearer = if across - span.from <= span.to - across { 0 } else { 1 };
        let opening = openings[nearer].or(openings[1 - nearer]);
        let Some(opening) = opening else { return WorstLocation::Middle };
        let Some(shape) = self.slab.openings.get(opening) else { return WorstLocation::Middle };
        let other = openings.into_iter().flatten().find(|other| *other != opening);
        let from: Vec2 = at - shape.centroid();
        WorstLocation::Rail { opening, other, look: outcome::look(along, from) }
    }

    /// The nearest boundary there is a sharp inside corner.
    fn is_sharp(&self, at: Point) -> bool {
        let near = |corner: Point| (corner - at).hypot() < self.slab.thickness.value;
        let of_openings = self.slab.openings.iter().filter_map(crate::plane::Opening::least_inside_radius);
        let mut all = of_openings.chain(self.slab.outline.least_inside_radius());
        all.any(|(radius, corner)| radius == 0.0 && near(corner)) || self.sharp_opening(at)
    }

    /// An opening is sharp at the corner next to a place, which need not be the one told as its sharpest.
    fn sharp_opening(&self, at: Point) -> bool {
        self.slab.openings.iter().any(|opening| match opening {
            crate::plane::Opening::Ellipse(_) => false,
            crate::plane::Opening::Outline(outline) => outline.edges().iter().enumerate().any(|(index, edge)| {
                let turns = std::f64::consts::PI - outline.interior_angle(index);
                turns > 0.05 && (edge.start() - at).hypot() < self.slab.thickness.value
            }),
        })
    }

    fn on_edge(&self, case: &Case, units: Units) -> Result<Outcome, StudyError> {
        let along = long_way(&self.slab);
        let beam = Beam::new(self.loops.clone(), along);
        let held = case.supports.iter().map(|support| along.split(support.line[0].midpoint(support.line[1])).0);
        let held: Vec<f64> = held.collect();
        let &[first, second] = held.as_slice() else { return Err(StudyError::Bearing(BearingError::NoSupport)) };
        let thickness = self.slab.thickness.value;
        let found = beam.on_edge(thickness, self.weight(case), (first.min(second), first.max(second)));
        let found = found.ok_or(StudyError::Bearing(BearingError::OneLine))?;
        let allowable = case.concrete.allowable_stress(units);
        let at = along.join(found.at, found.across);
        let span =
            beam.spans(found.at).into_iter().find(|span| (span.from - 1e-9..=span.to + 1e-9).contains(&found.across));
        let worst = Worst {
            at,
            face: Face::Top,
            beside: span.map_or(WorstLocation::Middle, |span| self.beside_or_near(at, &span, along)),
            stress: Pressure::new::<pascal>(found.stress),
            strip: Pressure::new::<pascal>(found.whole),
            width: metres(span.map_or(0.0, |span| span.width())),
            hand: None,
            sharp: self.is_sharp(at),
        };
        let force = |value| Force::new::<newton>(value);
        let total = found.holds.0 + found.holds.1;
        let holds = case.supports.iter().zip([found.holds.0, found.holds.1]);
        let reactions = holds
            .map(|(support, value)| Reaction { bears: support.bears, force: force(value), share: value / total })
            .collect();
        Ok(Outcome {
            kind: case.kind,
            spot: None,
            drawn: UtilizationField::default(),
            utilization: share_of(Some(&worst), allowable),
            worst: Some(worst),
            allowable,
            deflection: None,
            reactions,
            imbalance: 0.0,
        })
    }
}

/// One place of a person, worked out.
struct Tried {
    spot: Option<Spot>,
    load: Vec<f64>,
    settled: ContactSolution,
    moments: Vec<Moments>,
    place: Option<Place>,
}

/// The places to try: those of the case, or none but what bears down anyway.
fn seats_of(case: &Case) -> impl Iterator<Item = Option<&Seat>> {
    let alone = case.seats.is_empty().then_some(None);
    alone.into_iter().chain(case.seats.iter().map(Some))
}

/// How far a place is from a closed boundary; metres.
fn distance(points: &[Point], at: Point) -> f64 {
    let ends = points.iter().zip(points.iter().cycle().skip(1));
    let far = ends.map(|(from, to)| {
        let chord = *to - *from;
        let share = (at - *from).dot(chord) / chord.hypot2();
        (at - from.lerp(*to, if share.is_finite() { share.clamp(0.0, 1.0) } else { 0.0 })).hypot()
    });
    far.fold(f64::INFINITY, f64::min)
}

/// The tension at the worst place over what is allowed.
fn share_of(worst: Option<&Worst>, allowable: Pressure) -> f64 {
    worst.map_or(0.0, |worst| (worst.stress / allowable).value)
}

/// The length of a line that falls to each node on it: half of the way to the one before and to the one behind. A
/// node alone has an inch.
fn shares(nodes: &[Point], on_line: &[usize], [start, end]: [Point; 2]) -> Vec<(usize, f64)> {
    let along = end - start;
    let at = |node: usize| (node, nodes.get(node).map_or(0.0, |at| (*at - start).dot(along) / along.hypot()));
    let order = order_of(on_line.iter().map(|node| at(*node).1));
    let sorted: Vec<(usize, f64)> = order.into_iter().map(|index| at(on_line[index])).collect();
    let length = |index: usize| {
        let before = index.checked_sub(1).and_then(|before| sorted.get(before)).map_or(0.0, |node| node.1);
        let own = sorted.get(index).map_or(0.0, |node| node.1);
        let after = sorted.get(index + 1).map_or(own, |node| node.1);
        let before = if index == 0 { own } else { before };
        let length = (after - before) / 2.0;
        if length > 0.0 { length } else { ALONE }
    };
    sorted.iter().enumerate().map(|(index, (node, _))| (*node, length(index))).collect()
}

/// What each support bears; lines of the same name are one.
fn reactions(case: &Case, contacts: &[Contact], forces: &[f64]) -> Vec<Reaction> {
    let total: f64 = forces.iter().sum();
    let mut found: Vec<Reaction> = Vec::new();
    for (line, support) in case.supports.iter().enumerate() {
        let on_line = contacts.iter().zip(forces).filter(|(contact, _)| contact.line == line);
        let force: f64 = on_line.map(|(_, force)| force).sum();
        let force = Force::new::<newton>(force);
        let share = force.value / total;
        match found.iter_mut().find(|reaction| reaction.bears == support.bears) {
            Some(reaction) => {
                reaction.force += force;
                reaction.share += share;
            }
            None => found.push(Reaction { bears: support.bears, force, share }),
        }
    }
    found
}
