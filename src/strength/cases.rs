//! What a top lives through: how it is borne and what bears down on it, each with its usual numbers, all of which
//! may be changed.

use super::bracket::Brackets;
pub use super::cabinet::Cabinet;
use super::concrete::Concrete;
use super::cut::Along;
use super::inputs::{StrengthInputs, WhatBears};
use super::limits;
use super::loads::dig_out;
pub use super::loads::{Counts, Load, LoadAssumptions, Multiplier};
use super::seats::{Person, Reach, Seat, over, seats};
pub use super::supports::{Support, SupportKind};
use super::supports::{middle_support, props};
use crate::job::{Carried, HandlingField, SinkBay, Stripped, Travels};
use crate::measure::Length;
use crate::plane::{Edge, Opening, Outline};
use kurbo::{Point, Rect};
use serde::{Deserialize, Serialize};
use uom::si::f64::Force;
use uom::si::length::meter;

/// The top as a plate of even thickness.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Slab {
    /// Its outline.
    pub outline: Outline,
    /// The cutouts, then the holes.
    pub openings: Vec<Opening>,
    /// How many of them are cutouts, each cast round a knockout; the holes behind them are drilled.
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

/// All that tells one kind of case from another, but for how it is borne: a new kind is a row here, a function of
/// `Maker` and a line of [`Case::chosen`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Facts {
    /// When it happens: it decides which strength counts.
    pub age: Age,
    /// The head of its numbers; `{}` stands for what it is about.
    pub label: &'static str,
    /// What happens, as the end of a sentence; `{}` as above.
    pub when: &'static str,
    /// Both where one more holds it in the middle; nothing where nobody can be chosen to.
    pub held: Option<[&'static str; 2]>,
    /// What it is about.
    pub about: About,
    /// How many people hold it.
    pub people: usize,
    /// What else may hold it in the middle.
    pub middle: Middle,
    /// The same done upright on the long edge, where that is another way to do it.
    pub on_edge: Option<LoadCase>,
    /// It stands upright, so that it bends in its own plane.
    pub upright: bool,
    /// How the check by hand takes it; nothing where statics alone cannot tell it.
    pub by_hand: Option<ByHand>,
    /// The field that decides it; nothing where the age at which it happens does.
    pub decided_by: Option<HandlingField>,
    /// The field by which the top reaches over too far where the map finds that it tips; nothing where it is not on a
    /// cabinet, whose brackets are judged by hand.
    pub tips_by: Option<HandlingField>,
}

/// What a case is about, in its words.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum About {
    /// The top alone.
    Top,
    /// The knockout of that opening.
    Opening(usize),
    /// The bowls that hang in it.
    Bowls,
    /// A person, and where he sits.
    Person,
    /// A person who sits where it reaches over.
    Reach(Reach),
}

/// What may hold a top in the middle besides what bears it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Middle {
    /// Nothing.
    Nothing,
    /// A batten.
    Batten,
    /// One more person.
    Person,
}

/// How the check by hand takes a case that is borne flat and bears nothing but its weight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct ByHand {
    /// What the mean over a cut counts times.
    pub factor: f64,
    /// The same in a squat top: [`limits::SQUAT`].
    pub squat: f64,
    /// Hands bear in single places, each under a strip that it bends by itself.
    pub single_hands: bool,
}

impl ByHand {
    /// Borne evenly, so that the mean counts as at any free edge.
    pub const EVEN: Self = Self { factor: limits::EDGE_FACTOR, squat: limits::EDGE_FACTOR, single_hands: false };
}

impl LoadCase {
    /// What tells it from the others.
    pub(super) fn facts(self) -> Facts {
        use HandlingField::{Overhang, OverhangLeft, OverhangRight};
        let plain = |age, label, when| Facts {
            age,
            label,
            when,
            held: None,
            about: About::Top,
            people: 0,
            middle: Middle::Nothing,
            on_edge: None,
            upright: false,
            by_hand: None,
            decided_by: None,
            tips_by: None,
        };
        let stripping = |label, when| plain(Age::Stripping, label, when);
        let handling = |label, when| plain(Age::Handling, label, when);
        let in_use = |label, when| plain(Age::InUse, label, when);
        match self {
            Self::LiftedAtEnds => Facts {
                held: Some([
                    "Lifted flat out of the form, held in the middle as well",
                    "when lifted flat, held in the middle",
                ]),
                people: 2,
                middle: Middle::Batten,
                on_edge: Some(Self::TurnedOnEdge),
                by_hand: Some(ByHand::EVEN),
                ..stripping("Lifted flat out of the form, at both ends", "when lifted flat")
            },
            Self::TurnedOnEdge => Facts {
                people: 2,
                ..stripping("Turned out of the form over its long edge", "when turned over its long edge")
            },
            Self::KnockoutEvenly(opening) => Facts {
                about: About::Opening(opening),
                middle: Middle::Batten,
                ..stripping("Knockout of {} pushed out evenly", "when the knockout of {} is pushed out evenly")
            },
            Self::KnockoutAtOneEnd(opening) => Facts {
                about: About::Opening(opening),
                middle: Middle::Batten,
                ..stripping(
                    "Knockout of {} driven out from one end",
                    "when the knockout of {} is driven out from one end",
                )
            },
            Self::CarriedByTwo => Facts {
                held: Some(["Carried flat by three", "when carried flat by three"]),
                people: 2,
                middle: Middle::Person,
                on_edge: Some(Self::CarriedOnEdge),
                by_hand: Some(ByHand { squat: limits::SQUAT_FACTOR, ..ByHand::EVEN }),
                ..handling("Carried flat by two", "when carried flat")
            },
            Self::CarriedByFour => Facts {
                people: 4,
                middle: Middle::Person,
                on_edge: Some(Self::CarriedOnEdge),
                by_hand: Some(ByHand { factor: limits::HANDS_FACTOR, squat: limits::HANDS_FACTOR, single_hands: true }),
                ..handling("Carried flat by four", "when carried flat by four")
            },
            Self::CarriedOnEdge => {
                Facts { people: 2, upright: true, ..handling("Carried on edge", "when carried on edge") }
            }
            Self::OnRack => {
                Facts { middle: Middle::Batten, ..handling("On a rack of two battens", "on a rack of two battens") }
            }
            Self::VanOnEdge => {
                Facts { upright: true, ..handling("In the van, on its long edge", "when it travels on its long edge") }
            }
            Self::VanOnFoam => handling("In the van, flat on foam", "when it travels flat on foam"),
            Self::OnCabinet => Facts {
                about: About::Bowls,
                tips_by: Some(Overhang),
                ..in_use("Set on the cabinet{}", "when set on the cabinet")
            },
            Self::PersonSits => Facts {
                about: About::Person,
                decided_by: Some(HandlingField::Person),
                tips_by: Some(Overhang),
                ..in_use("A person sits {}", "when a person sits {}")
            },
            Self::OnBrackets => {
                Facts { about: About::Bowls, ..in_use("Set on its brackets{}", "when set on its brackets") }
            }
            Self::SitsOnBrackets => Facts {
                about: About::Person,
                decided_by: Some(HandlingField::Person),
                ..in_use("A person sits {}", "when a person sits {}")
            },
            Self::Overhang(reach) => {
                let field = match reach {
                    Reach::Front => Overhang,
                    Reach::Left => OverhangLeft,
                    Reach::Right => OverhangRight,
                };
                Facts {
                    about: About::Reach(reach),
                    decided_by: Some(field),
                    tips_by: Some(field),
                    ..in_use("A person sits {}", "when a person sits {}")
                }
            }
        }
    }

    /// It stands upright, so that it bends in its own plane.
    pub fn is_on_edge(self) -> bool {
        self.facts().upright
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
    /// Why it counts so often.
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

impl Case {
    /// The same with one more who holds it, or a batten, across the middle.
    pub(super) fn held_by_one_more(mut self, support: Support) -> Self {
        self.carriers += 1;
        self.supports.push(support);
        self
    }

    /// It is held in the middle already.
    pub(super) fn is_held(&self) -> bool {
        self.carriers > self.kind.facts().people
    }

    /// The case as its maker chose it, `foam` telling of a cutout that its knockout is foam; nothing if it does not happen.
    pub(super) fn chosen(mut self, slab: &Slab, inputs: &StrengthInputs, foam: &dyn Fn(usize) -> bool) -> Option<Self> {
        let third = || Support { bears: SupportKind::Carrier(2), ..middle_support(slab) };
        match self.kind {
            LoadCase::LiftedAtEnds => match inputs.stripped {
                Stripped::Flat => Some(self),
                Stripped::FlatByThree => Some(self.held_by_one_more(middle_support(slab))),
                Stripped::OnEdge => None,
            },
            LoadCase::TurnedOnEdge => (inputs.stripped == Stripped::OnEdge).then_some(self),
            LoadCase::KnockoutEvenly(opening) | LoadCase::KnockoutAtOneEnd(opening) => {
                if foam(opening) {
                    dig_out(&mut self);
                }
                Some(self)
            }
            LoadCase::CarriedByTwo => match inputs.carried {
                Carried::ByTwo => Some(self),
                Carried::ByThree => Some(self.held_by_one_more(third())),
                Carried::ByFour | Carried::OnEdge => None,
            },
            LoadCase::CarriedByFour => (inputs.carried == Carried::ByFour).then_some(self),
            LoadCase::CarriedOnEdge => (inputs.carried == Carried::OnEdge).then_some(self),
            LoadCase::OnRack | LoadCase::OnBrackets | LoadCase::SitsOnBrackets => Some(self),
            LoadCase::VanOnEdge => (inputs.travels == Travels::OnEdge).then_some(self),
            LoadCase::VanOnFoam => (inputs.travels == Travels::OnFoam).then_some(self),
            LoadCase::OnCabinet | LoadCase::PersonSits | LoadCase::Overhang(_) => {
                if matches!(&inputs.bears, WhatBears::Cabinet(cabinet) if cabinet.bay == SinkBay::Propped) {
                    let bays = knockouts(slab).filter_map(|(opening, _)| props(slab, opening)).flatten();
                    self.supports.extend(bays);
                }
                Some(self)
            }
        }
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
    /// Borne before it is in use, its weight counting so often.
    fn borne(&self, kind: LoadCase, own: Multiplier, supports: Vec<Support>) -> Case {
        let (Facts { age, people: carriers, .. }, Multiplier { times, counts }) = (kind.facts(), own);
        let concrete = self.ages.at(age);
        let (loads, seats) = (Vec::new(), Vec::new());
        Case { kind, age, concrete, multiplier: times, counts, carriers, supports, loads, seats }
    }

    fn stripping(&self, kind: LoadCase, supports: Vec<Support>) -> Case {
        self.borne(kind, self.habits.stripping, supports)
    }

    fn carried(&self, kind: LoadCase, supports: Vec<Support>) -> Case {
        self.borne(kind, self.habits.handling, supports)
    }

    fn used(&self, kind: LoadCase, supports: Vec<Support>, seats: Vec<Seat>) -> Case {
        let age = kind.facts().age;
        let concrete = self.ages.at(age);
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
                supports.push(self.across(SupportKind::BesideCutout(number), at));
            }
        }
        supports
    }

    fn lifted(&self) -> Case {
        self.stripping(LoadCase::LiftedAtEnds, self.at_ends())
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
        self.stripping(LoadCase::TurnedOnEdge, supports)
    }

    fn by_two(&self) -> Case {
        let hands = self.grips().into_iter().enumerate().map(|(number, at)| self.hands_at_end(number, at));
        self.carried(LoadCase::CarriedByTwo, hands.collect())
    }

    fn by_four(&self) -> Case {
        let grip = self.habits.grip.value;
        let sides = [self.from.1 + grip, self.to.1 - grip];
        let places = self.quarters().into_iter().flat_map(|at| sides.map(|across| (at, across)));
        let hands = places.enumerate().map(|(number, (at, across))| self.hands_at_side(number, at, across));
        self.carried(LoadCase::CarriedByFour, hands.collect())
    }

    fn on_edge(&self) -> Case {
        let edge = self.grips().into_iter().enumerate();
        let edge = edge.map(|(number, at)| self.across(SupportKind::Carrier(number), at)).collect();
        self.carried(LoadCase::CarriedOnEdge, edge)
    }

    /// It rests there: nobody jolts it.
    fn on_rack(&self) -> Case {
        let battens = self.quarters().into_iter().enumerate();
        let battens = battens.map(|(number, at)| self.across(SupportKind::Batten(number), at)).collect();
        Case { multiplier: 1.0, counts: Counts::AtRest, ..self.carried(LoadCase::OnRack, battens) }
    }

    fn in_van(&self, kind: LoadCase, supports: Vec<Support>) -> Case {
        self.borne(kind, self.habits.van, supports)
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
        Case { multiplier: 1.0, counts: Counts::AtRest, loads, ..self.stripping(kind, self.beside(opening)) }
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

#[cfg(test)]
mod tests {
    use super::*;

    fn every_kind() -> Vec<LoadCase> {
        use LoadCase::*;
        let reaches = [Reach::Front, Reach::Left, Reach::Right].map(Overhang);
        let kinds = [
            LiftedAtEnds,
            TurnedOnEdge,
            KnockoutEvenly(0),
            KnockoutAtOneEnd(0),
            CarriedByTwo,
            CarriedByFour,
            CarriedOnEdge,
            OnRack,
            VanOnEdge,
            VanOnFoam,
            OnCabinet,
            PersonSits,
            OnBrackets,
            SitsOnBrackets,
        ];
        kinds.into_iter().chain(reaches).collect()
    }

    /// What a kind is about stands in its words, and no other kind has its row.
    #[test]
    fn the_facts_of_a_kind_agree_with_each_other() {
        for kind in every_kind() {
            let facts = kind.facts();
            let has_place = facts.label.contains("{}");
            assert_eq!(has_place, facts.about != About::Top, "{kind:?}");
            assert!(facts.by_hand.is_none() || !facts.upright, "{kind:?}: it is not borne flat");
            assert!(facts.held.is_none() || facts.middle != Middle::Nothing, "{kind:?}: nothing can hold it");
            assert_eq!(facts.on_edge.is_some(), facts.by_hand.is_some(), "{kind:?}: what is borne flat can be turned");
            if let Some(on_edge) = facts.on_edge {
                assert_eq!(on_edge.facts().age, facts.age, "{kind:?}: turned it happens at the same age");
            }
            let alike = every_kind().into_iter().filter(|other| other.facts() == facts).count();
            assert_eq!(alike, 1, "{kind:?}");
        }
    }
}
