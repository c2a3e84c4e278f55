//! What a top lives through: how it is borne and what bears down on it, each with its usual numbers, all of which
//! may be changed.

use super::bracket::Brackets;
pub use super::cabinet::Cabinet;
use super::concrete::Concrete;
use super::cut::Along;
use super::limits;
use super::seats::{Person, Reach, Seat, over, seats};
use crate::job::usual;
use crate::measure::exact::inches;
use crate::measure::{Length, Pressure, Quantity, weight_of};
use crate::plane::{Edge, Opening, Outline};
use crate::working::{Figure, Label, Source, Term};
use kurbo::{Point, Rect};
use serde::{Deserialize, Serialize};
use uom::si::f64::Force;
use uom::si::length::meter;

/// The top as a plate of even thickness.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Slab {
    /// Its outline.
    pub outline: Outline,
    /// Its cutouts, then its holes.
    pub openings: Vec<Opening>,
    /// So many of them are cutouts, each cast round a knockout; the holes behind them are drilled.
    pub cutouts: usize,
    /// Its thickness.
    pub thickness: Length,
}

/// When in the life of a top a case happens: it decides which strength counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Age {
    /// Out of the form.
    Stripping,
    /// Ground, carried, set.
    Handling,
    /// In use.
    InUse,
}

/// The concrete at each age.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Ages {
    /// When the top is stripped.
    pub stripping: Concrete,
    /// When it is carried.
    pub handling: Concrete,
    /// When it is in use.
    pub in_use: Concrete,
}

impl Ages {
    /// The concrete at that age.
    pub fn at(&self, age: Age) -> Concrete {
        match age {
            Age::Stripping => self.stripping,
            Age::Handling => self.handling,
            Age::InUse => self.in_use,
        }
    }
}

/// A thing that happens to a top.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum LoadCase {
    /// Lifted out of the form flat, at both ends.
    LiftedAtEnds,
    /// Turned out of the form over its long edge by two people.
    TurnedOnEdge,
    /// The knockout of that opening driven out evenly.
    KnockoutEvenly(usize),
    /// The knockout of that opening driven out from one end.
    KnockoutAtOneEnd(usize),
    /// Carried flat, one person at each end.
    CarriedByTwo,
    /// Carried flat, two people at each long edge.
    CarriedByFour,
    /// Carried upright on its long edge.
    CarriedOnEdge,
    /// On a rack of two battens.
    OnRack,
    /// On its way in the van, upright on its long edge, on two battens.
    VanOnEdge,
    /// On its way in the van, flat on foam.
    VanOnFoam,
    /// Set on the cabinet.
    OnCabinet,
    /// On the cabinet, and a person sits on it, wherever that is worst.
    PersonSits,
    /// Set on its brackets.
    OnBrackets,
    /// On its brackets, and a person sits on its front edge, wherever that is worst.
    SitsOnBrackets,
    /// Reaching over what bears it, and a person sits out there.
    Overhang(Reach),
}

impl LoadCase {
    /// It stands upright, so that it bends in its own plane.
    pub fn is_on_edge(self) -> bool {
        matches!(self, Self::CarriedOnEdge | Self::VanOnEdge)
    }
}

/// Who or what bears along a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum SupportKind {
    /// A person's hands; counted from the left, then from the front.
    Carrier(usize),
    /// A batten or a beam, counted likewise.
    Batten(usize),
    /// A batten next to the cutout that is pushed out, counted likewise.
    WorstLocation(usize),
    /// Foam that it lies on.
    Foam,
    /// The edge that stays on the bench.
    Bench,
    /// The front of the cabinet.
    CabinetFront,
    /// The back of the cabinet.
    CabinetBack,
    /// The back of the cabinet, to which it is fastened: it pulls as well.
    FastenedBack,
    /// A side or a partition of the cabinet, counted from the left.
    CabinetSide(usize),
    /// A bracket on the wall, counted from the left.
    Bracket(usize),
    /// That bracket next to the wall, where the top is fastened to it: it pulls as well.
    FastenedBracket(usize),
    /// A ledger along the wall.
    Ledger,
    /// A ledger to which the top is fastened: it pulls as well.
    FastenedLedger,
    /// A support added under a place.
    Prop,
}

impl SupportKind {
    /// Force a length of it for each length that it gives.
    pub fn stiffness(self) -> Pressure {
        match self {
            Self::Carrier(_) => limits::hand_stiffness(),
            Self::Foam => limits::foam_stiffness(),
            _ => limits::batten_stiffness(),
        }
    }

    /// It holds down as well as up.
    pub fn pulls(self) -> bool {
        matches!(self, Self::FastenedBack | Self::FastenedBracket(_) | Self::FastenedLedger)
    }
}

/// A line along which the top is borne. It can only push, unless the top is fastened to it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Support {
    /// Who or what it is.
    pub bears: SupportKind,
    /// From where to where; metres. What of it does not lie under the top does not bear.
    pub line: [Point; 2],
    /// How far the top comes down before it bears there: a shim that misses.
    pub gap: Length,
}

impl Support {
    pub(super) fn new(bears: SupportKind, line: [Point; 2]) -> Self {
        Self { bears, line, gap: Length::default() }
    }
}

/// What bears down besides the weight of the top.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Load {
    /// Spread over a rectangle.
    Patch {
        /// The rectangle; metres.
        area: Rect,
        /// The whole of it.
        force: Force,
    },
    /// Spread along the part of an opening's edge that lies in a rectangle.
    Rim {
        /// Which opening.
        opening: usize,
        /// The rectangle; metres.
        within: Rect,
        /// The whole of it.
        force: Force,
    },
}

/// Why the weight of a top counts as often as it does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Counts {
    /// It rests: once.
    AtRest,
    /// It leaves a smooth form.
    Smooth,
    /// It leaves a smooth form in which it clings to knockouts.
    Knockouts,
    /// It leaves a rough or sculptured liner.
    Rough,
    /// It is carried.
    Carried,
    /// It travels.
    Van,
    /// The maker says so.
    Typed,
}

impl Counts {
    /// The words for it, in a working.
    pub fn words(self) -> &'static str {
        match self {
            Self::AtRest => "at rest",
            Self::Smooth => "out of a smooth form",
            Self::Knockouts => "out of a smooth form with knockouts in it",
            Self::Rough => "off a rough or sculptured liner",
            Self::Carried => "a jolt as it is carried",
            Self::Van => "a jolt in the van",
            Self::Typed => "as typed",
        }
    }

    /// How often the weight counts, as the line of a working.
    pub(super) fn times(self, times: f64) -> Figure<f64> {
        let label = Label::with("weight counts times, {}", [Quantity::Words(self.words().into())]);
        Term::stated_as(times, label, Quantity::Number(times, 2), self.source()).ended("Weight counts times")
    }

    /// Where the number comes from.
    pub fn source(self) -> Source {
        match self {
            Self::Typed => Source::Typed,
            Self::AtRest | Self::Smooth | Self::Knockouts | Self::Rough | Self::Carried | Self::Van => {
                limits::MULTIPLIERS
            }
        }
    }
}

/// What weight is multiplied by, and why.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Multiplier {
    /// So many times.
    pub times: f64,
    /// Why.
    pub counts: Counts,
}

impl Multiplier {
    /// What the table has for it.
    pub fn usual(counts: Counts) -> Self {
        let times = match counts {
            Counts::AtRest | Counts::Typed => 1.0,
            Counts::Smooth => limits::STRIPPING,
            Counts::Knockouts => limits::STRIPPING_KNOCKOUTS,
            Counts::Rough => limits::STRIPPING_ROUGH,
            Counts::Carried => limits::HANDLING,
            Counts::Van => limits::TRAVEL,
        };
        Self { times, counts }
    }

    /// What is typed adds so much, as a share.
    pub fn typed(more: f64) -> Self {
        Self { times: 1.0 + more, counts: Counts::Typed }
    }
}

/// One case, ready to be worked out, with all that is known of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Case {
    /// What happens.
    pub kind: LoadCase,
    /// When it happens.
    pub age: Age,
    /// The concrete when it happens.
    pub concrete: Concrete,
    /// What the weight of the top is multiplied by: suction and jolts.
    pub multiplier: f64,
    /// Why.
    pub counts: Counts,
    /// How many people hold it.
    pub carriers: usize,
    /// What bears it.
    pub supports: Vec<Support>,
    /// What bears down on it.
    pub loads: Vec<Load>,
    /// Where a person may be on it besides: each place alone is tried, and the worst is told.
    pub seats: Vec<Seat>,
}

/// The usual numbers of every case, to be changed by the maker.
#[derive(Clone, Debug, PartialEq)]
pub struct LoadAssumptions {
    /// What weight is multiplied by at stripping: suction.
    pub stripping: Multiplier,
    /// What weight is multiplied by when the top is carried.
    pub handling: Multiplier,
    /// What weight is multiplied by in the van.
    pub van: Multiplier,
    /// How far from the edge hands and battens at the ends bear.
    pub grip: Length,
    /// Width over which one person's hands bear.
    pub reach: Length,
    /// Battens of a rack, and hands on the long edges: from each end, as a share of the length.
    pub rack: f64,
    /// The push that drives out a knockout.
    pub push: Force,
    /// The weight of a person.
    pub person: Force,
    /// Width and depth of what that person sits on.
    pub seat: Length,
    /// The cabinet; nothing leaves out its cases.
    pub cabinet: Option<Cabinet>,
    /// The brackets on the wall that bear it in the place of a cabinet.
    pub brackets: Option<Brackets>,
    /// The bowls that hang in its cutouts or on their rims, full of water: each by its cutout, with its weight.
    pub bowls: Vec<(usize, Force)>,
    /// Where the top reaches over the cabinet so far that a person sits out there.
    pub overhangs: Vec<Reach>,
}

impl LoadAssumptions {
    /// The usual ones for a top. A push of 100 lb and a person of 300 lb on 4 in square: common practice, no
    /// source.
    pub fn usual(slab: &Slab) -> Self {
        Self {
            stripping: Multiplier::usual(if slab.cutouts > 0 { Counts::Knockouts } else { Counts::Smooth }),
            handling: Multiplier::usual(Counts::Carried),
            van: Multiplier::usual(Counts::Van),
            grip: limits::grip(),
            reach: inches(16.0),
            rack: limits::LEAST_BENDING,
            push: weight_of(usual::push()),
            person: weight_of(usual::person()),
            seat: inches(4.0),
            cabinet: Some(Cabinet::under(slab)),
            brackets: None,
            bowls: Vec::new(),
            overhangs: Vec::new(),
        }
    }
}

impl Case {
    /// The same with one more who holds it, or a batten, across the middle.
    pub(super) fn held_by_one_more(mut self, support: Support) -> Self {
        self.carriers += 1;
        self.supports.push(support);
        self
    }
}

/// The openings that are cast around a knockout.
pub(super) fn knockouts(slab: &Slab) -> impl Iterator<Item = (usize, &Opening)> {
    slab.openings.iter().take(slab.cutouts).enumerate()
}

/// Along which way a top is long.
pub(super) fn long_way(slab: &Slab) -> Along {
    let bounds = slab.outline.bounds();
    if bounds.width() >= bounds.height() { Along::X } else { Along::Y }
}

/// Where the near edge of a top lies, across it, at a place along it.
pub(super) fn near_edge(slab: &Slab, along: Along, at: f64) -> f64 {
    let crossing = |edge: &Edge| {
        let (from, to) = (along.split(edge.start()), along.split(edge.end()));
        let share = (at - from.0) / (to.0 - from.0);
        (0.0..=1.0).contains(&share).then_some(from.1 + share * (to.1 - from.1))
    };
    let nearest = slab.outline.edges().iter().filter_map(crossing).fold(f64::INFINITY, f64::min);
    if nearest.is_finite() { nearest } else { along.split(slab.outline.bounds().origin()).1 }
}

/// Makes the cases of one top.
struct Maker<'a> {
    slab: &'a Slab,
    ages: &'a Ages,
    habits: &'a LoadAssumptions,
    along: Along,
    /// Corners of the upright rectangle around it, along and across.
    from: (f64, f64),
    to: (f64, f64),
}

impl Maker<'_> {
    /// Held by so many before it is in use.
    fn held(&self, kind: LoadCase, age: Age, own: Multiplier, carriers: usize, supports: Vec<Support>) -> Case {
        let (concrete, Multiplier { times, counts }) = (self.ages.at(age), own);
        let (loads, seats) = (Vec::new(), Vec::new());
        Case { kind, age, concrete, multiplier: times, counts, carriers, supports, loads, seats }
    }

    fn stripping(&self, kind: LoadCase, carriers: usize, supports: Vec<Support>) -> Case {
        self.held(kind, Age::Stripping, self.habits.stripping, carriers, supports)
    }

    fn carried(&self, kind: LoadCase, carriers: usize, supports: Vec<Support>) -> Case {
        self.held(kind, Age::Handling, self.habits.handling, carriers, supports)
    }

    fn used(&self, kind: LoadCase, supports: Vec<Support>, seats: Vec<Seat>) -> Case {
        let (age, concrete) = (Age::InUse, self.ages.in_use);
        let bowl = |(opening, force): &(usize, Force)| {
            let within = self.slab.openings.get(*opening)?.bounds().inflate(1e-6, 1e-6);
            Some(Load::Rim { opening: *opening, within, force: *force })
        };
        let loads = self.habits.bowls.iter().filter_map(bowl).collect();
        Case { kind, age, concrete, multiplier: 1.0, counts: Counts::AtRest, carriers: 0, supports, loads, seats }
    }

    /// A line across the top, at that place along it.
    fn across(&self, bears: SupportKind, at: f64) -> Support {
        Support::new(bears, [self.along.join(at, self.from.1), self.along.join(at, self.to.1)])
    }

    /// Hands that reach under an edge across the top.
    fn hands_at_end(&self, number: usize, at: f64) -> Support {
        let middle = f64::midpoint(self.from.1, self.to.1);
        let half = self.habits.reach.value.min(self.to.1 - self.from.1) / 2.0;
        let line = [middle - half, middle + half].map(|across| self.along.join(at, across));
        Support::new(SupportKind::Carrier(number), line)
    }

    /// Hands that reach under an edge along the top.
    fn hands_at_side(&self, number: usize, at: f64, across: f64) -> Support {
        let half = self.habits.reach.value.min(self.to.0 - self.from.0) / 2.0;
        let line = [at - half, at + half].map(|at| self.along.join(at, across));
        Support::new(SupportKind::Carrier(number), line)
    }

    /// Where hands bear near both ends, and where battens do.
    fn grips(&self) -> [f64; 2] {
        let grip = self.habits.grip.value;
        [self.from.0 + grip, self.to.0 - grip]
    }

    fn quarters(&self) -> [f64; 2] {
        let share = self.habits.rack * (self.to.0 - self.from.0);
        [self.from.0 + share, self.to.0 - share]
    }

    fn at_ends(&self) -> Vec<Support> {
        self.grips().into_iter().enumerate().map(|(number, at)| self.across(SupportKind::Batten(number), at)).collect()
    }

    /// The edge on the bench: the longest of those that face the far side, as it runs; nothing if none is straight.
    fn far_edge(&self) -> Option<[Point; 2]> {
        let faces_far = |edge: &&Edge| {
            let out = edge.normal_at(0.5);
            let (along, across) = self.along.split(out.to_point());
            edge.is_straight() && across > along.abs()
        };
        let edges = self.slab.outline.edges().iter().filter(faces_far);
        let longest = edges.max_by(|one, other| one.length().total_cmp(&other.length()))?;
        Some([longest.start(), longest.end()])
    }

    /// On battens at both ends and next to an opening, on either side of it, where there is room for them.
    fn beside(&self, opening: usize) -> Vec<Support> {
        let mut supports = self.at_ends();
        let Some(bounds) = self.slab.openings.get(opening).map(Opening::bounds) else { return supports };
        let (from, to) = (self.along.split(bounds.origin()).0, self.along.split(Point::new(bounds.x1, bounds.y1)).0);
        let grip = self.habits.grip.value;
        let [first, last] = self.grips();
        for (number, at) in [from - grip, to + grip].into_iter().enumerate() {
            if (first + grip..last - grip).contains(&at) {
                supports.push(self.across(SupportKind::WorstLocation(number), at));
            }
        }
        supports
    }

    fn lifted(&self) -> Case {
        self.stripping(LoadCase::LiftedAtEnds, 2, self.at_ends())
    }

    fn turned(&self) -> Case {
        let far = self.to.1;
        let bench = self.far_edge().unwrap_or_else(|| [self.from.0, self.to.0].map(|at| self.along.join(at, far)));
        let half = self.habits.reach.value.min(self.to.0 - self.from.0) / 2.0;
        let grip = self.habits.grip.value;
        let hands = self.quarters().into_iter().enumerate().map(|(number, at)| {
            let line =
                [at - half, at + half].map(|at| self.along.join(at, near_edge(self.slab, self.along, at) + grip));
            Support::new(SupportKind::Carrier(number), line)
        });
        let supports = std::iter::once(Support::new(SupportKind::Bench, bench)).chain(hands).collect();
        self.stripping(LoadCase::TurnedOnEdge, 2, supports)
    }

    fn by_two(&self) -> Case {
        let hands = self.grips().into_iter().enumerate().map(|(number, at)| self.hands_at_end(number, at));
        self.carried(LoadCase::CarriedByTwo, 2, hands.collect())
    }

    fn by_four(&self) -> Case {
        let grip = self.habits.grip.value;
        let sides = [self.from.1 + grip, self.to.1 - grip];
        let places = self.quarters().into_iter().flat_map(|at| sides.map(|across| (at, across)));
        let hands = places.enumerate().map(|(number, (at, across))| self.hands_at_side(number, at, across));
        self.carried(LoadCase::CarriedByFour, 4, hands.collect())
    }

    fn on_edge(&self) -> Case {
        let edge = self.grips().into_iter().enumerate();
        let edge = edge.map(|(number, at)| self.across(SupportKind::Carrier(number), at)).collect();
        self.carried(LoadCase::CarriedOnEdge, 2, edge)
    }

    /// It rests there: nobody jolts it.
    fn on_rack(&self) -> Case {
        let battens = self.quarters().into_iter().enumerate();
        let battens = battens.map(|(number, at)| self.across(SupportKind::Batten(number), at)).collect();
        Case { multiplier: 1.0, counts: Counts::AtRest, ..self.carried(LoadCase::OnRack, 0, battens) }
    }

    fn in_van(&self, kind: LoadCase, supports: Vec<Support>) -> Case {
        self.held(kind, Age::Handling, self.habits.van, 0, supports)
    }

    /// Upright on battens at its quarter points.
    fn in_van_on_edge(&self) -> Case {
        let quarter = (self.to.0 - self.from.0) / 4.0;
        let places = [self.from.0 + quarter, self.to.0 - quarter].into_iter().enumerate();
        let battens = places.map(|(number, at)| self.across(SupportKind::Batten(number), at)).collect();
        self.in_van(LoadCase::VanOnEdge, battens)
    }

    /// Flat on foam, which gives evenly: strips of it next to each other, each borne along its middle.
    fn in_van_on_foam(&self) -> Case {
        let length = self.to.0 - self.from.0;
        let count = (length / limits::foam_strip().value).ceil().clamp(3.0, 40.0);
        let strips = (0..count as u32).map(|number| self.from.0 + (f64::from(number) + 0.5) * length / count);
        let foam = strips.map(|at| self.across(SupportKind::Foam, at)).collect();
        self.in_van(LoadCase::VanOnFoam, foam)
    }

    /// A knockout driven out by a push on those parts of its rim, as the top lies on its battens; weight does not count
    /// more for it.
    fn knockout(&self, kind: LoadCase, opening: usize, within: Rect) -> Case {
        let loads = vec![Load::Rim { opening, within, force: self.habits.push }];
        Case { multiplier: 1.0, counts: Counts::AtRest, loads, ..self.stripping(kind, 0, self.beside(opening)) }
    }

    fn knockouts(&self, cases: &mut Vec<Case>) {
        for (opening, shape) in knockouts(self.slab) {
            let bounds = shape.bounds();
            cases.push(self.knockout(LoadCase::KnockoutEvenly(opening), opening, bounds.inflate(1e-6, 1e-6)));
            // The end nearer to the middle of the top: there it bends most.
            let (left, right) =
                (self.along.split(bounds.origin()).0, self.along.split(Point::new(bounds.x1, bounds.y1)).0);
            let middle = f64::midpoint(self.from.0, self.to.0);
            let at = if (left - middle).abs() < (right - middle).abs() { left } else { right };
            let tenth = (right - left) / 10.0;
            let corners = [self.along.join(at - tenth, self.from.1), self.along.join(at + tenth, self.to.1)];
            let end = Rect::from_points(corners[0], corners[1]);
            cases.push(self.knockout(LoadCase::KnockoutAtOneEnd(opening), opening, end));
        }
    }

    fn person(&self) -> Person {
        Person { weight: self.habits.person, seat: self.habits.seat }
    }

    fn on_brackets(&self, brackets: &Brackets) -> [Case; 2] {
        let seats = brackets.seats(self.slab, self.person());
        [(LoadCase::OnBrackets, Vec::new()), (LoadCase::SitsOnBrackets, seats)]
            .map(|(kind, seats)| self.used(kind, brackets.supports(), seats))
    }

    fn in_use(&self, cases: &mut Vec<Case>) {
        if let Some(brackets) = &self.habits.brackets {
            cases.extend(self.on_brackets(brackets));
            return;
        }
        let Some(cabinet) = &self.habits.cabinet else { return };
        cases.push(self.used(LoadCase::OnCabinet, cabinet.supports(), Vec::new()));
        let seats = seats(self.slab, cabinet, self.person());
        let over: Vec<Case> = self.habits.overhangs.iter().map(|reach| self.over(*reach, cabinet)).collect();
        // Where he would be in the middle of the front edge, that edge is tried below if it reaches over.
        let tried = over.iter().flat_map(|case| &case.seats).any(|seat| seats == [*seat]);
        if !tried {
            cases.push(self.used(LoadCase::PersonSits, cabinet.supports(), seats));
        }
        cases.extend(over);
    }

    fn over(&self, reach: Reach, cabinet: &Cabinet) -> Case {
        self.used(LoadCase::Overhang(reach), cabinet.supports(), over(self.slab, reach, self.person()))
    }
}

/// All that a top lives through, in the order of the days.
pub fn cases(slab: &Slab, ages: &Ages, habits: &LoadAssumptions) -> Vec<Case> {
    let along = long_way(slab);
    let bounds = slab.outline.bounds();
    let (from, to) = (along.split(bounds.origin()), along.split(Point::new(bounds.x1, bounds.y1)));
    let maker = Maker { slab, ages, habits, along, from, to };
    let mut cases = vec![maker.lifted(), maker.turned()];
    maker.knockouts(&mut cases);
    cases.extend([maker.by_two(), maker.by_four(), maker.on_edge(), maker.on_rack()]);
    cases.extend([maker.in_van_on_edge(), maker.in_van_on_foam()]);
    maker.in_use(&mut cases);
    cases
}

/// That length in metres as a quantity.
pub(super) fn metres(value: f64) -> Length {
    Length::new::<meter>(value)
}
