//! A top that hangs on a wall: brackets, with a ledger or without one. Where they bear, for the map; and by hand what
//! the worst of them takes, how hard its topmost screw is pulled, and whether the top tips over them.
//!
//! The wall is the back edge. Shear of the screws and the steel of a bracket are not worked out.

use super::cases::{LoadAssumptions, Slab, Support, SupportKind, metres, near_edge};
use super::concrete::Concrete;
use super::cut::Along;
use super::inputs::BracketInputs;
use super::limits;
pub use super::screw::{STUD_GRAVITY, lag_least};
use super::screw::{WITHDRAWAL, holds};
use super::seats::{Person, Seat, Spot};
use crate::finding::{Finding, Severity, Stage};
use crate::job::{FieldPath, HandlingField};
use crate::label;
use crate::measure::exact::inches;
use crate::measure::{Length, Quantity, Units, geometry_tolerance, weight_of};
use crate::working::{Figure, Known, Label, Name, Named, Source, Term, Word, about, known_ref, together};
use kurbo::{Point, Vec2};
use uom::si::area::square_meter;
use uom::si::f64::{Area, Force, Torque};
use uom::si::force::newton;
use uom::si::torque::newton_meter;

/// More than this share of what a screw holds is told. Judgement, no source.
pub const CLOSE: f64 = 2.0 / 3.0;

/// So much of the depth brackets reach at least where nothing holds the back down: common practice, no source.
pub const LEAST_REACH: f64 = 2.0 / 3.0;

/// Brackets nearer to each other than this are none that a wall has studs for. Judgement.
pub fn bracket_least() -> Length {
    inches(1.0)
}

/// Length over which a bracket holds a top that is fastened to it, next to the wall. Judgement.
pub fn fastening() -> Length {
    inches(2.0)
}

/// What bears a top on a wall, in the plane of the top.
#[derive(Clone, Debug, PartialEq)]
pub struct Brackets {
    /// Where each stands, from the left; metres.
    pub at: Vec<f64>,
    /// Where the wall is: the back edge; metres.
    pub wall: f64,
    /// How far they reach from the wall.
    pub length: Length,
    /// A ledger along the wall, from end to end; metres.
    pub ledger: Option<(f64, f64)>,
    /// The back is fastened down, to the ledger or to every bracket next to the wall.
    pub fastened: bool,
}

impl Brackets {
    /// The ones that are typed for a top.
    ///
    /// # Errors
    /// What is not typed yet, or does not fit the top.
    pub(super) fn of(slab: &Slab, typed: &BracketInputs) -> Known<Self> {
        let bounds = slab.outline.bounds();
        let (width, depth) = (metres(bounds.width()), metres(bounds.height()));
        let (count, length) = together((typed.enough(), typed.reach(depth)))?;
        let at = match count {
            0 | 1 => vec![bounds.center().x],
            _ => typed.spread(count, width)?.into_iter().map(|at| bounds.x0 + at.value).collect(),
        };
        let ledger = typed.ledger.then_some((bounds.x0, bounds.x1));
        Ok(Self { at, wall: bounds.y1, length, ledger, fastened: typed.fastened })
    }

    /// What of them bears.
    pub(super) fn supports(&self) -> Vec<Support> {
        let mut found = Vec::new();
        if let Some((from, to)) = self.ledger {
            let bears = if self.fastened { SupportKind::FastenedLedger } else { SupportKind::Ledger };
            found.push(Support::new(bears, [Point::new(from, self.wall), Point::new(to, self.wall)]));
        }
        let held =
            if self.fastened && self.ledger.is_none() { fastening().min(self.length / 2.0) } else { metres(0.0) };
        let front = self.wall - self.length.value;
        for (number, x) in self.at.iter().copied().enumerate() {
            let from = self.wall - held.value;
            if held > Length::default() {
                let line = [Point::new(x, self.wall), Point::new(x, from)];
                found.push(Support::new(SupportKind::FastenedBracket(number), line));
            }
            found.push(Support::new(SupportKind::Bracket(number), [Point::new(x, from), Point::new(x, front)]));
        }
        found
    }

    /// Where a person is tried: at the front edge between two brackets, in front of each, and on both front corners.
    pub(super) fn seats(&self, slab: &Slab, person: Person) -> Vec<Seat> {
        let half = person.seat.value / 2.0;
        let bounds = slab.outline.bounds();
        let at = |spot, x: f64| person.at(spot, Point::new(x, near_edge(slab, Along::X, x) + half));
        let between = self.at.windows(2).enumerate().filter_map(|(number, pair)| match pair {
            [from, to] => Some(at(Spot::BetweenBrackets(number), f64::midpoint(*from, *to))),
            _ => None,
        });
        let before = self.at.iter().enumerate().map(|(number, x)| at(Spot::AtBracket(number), *x));
        let corners = [(true, bounds.x0 + half), (false, bounds.x1 - half)];
        let corners = corners.map(|(left, x)| at(Spot::Corner { front: true, left }, x));
        between.chain(before).chain(corners).collect()
    }

    /// The corners of what bears, counter-clockwise, from the front left.
    fn corners(&self) -> Vec<Point> {
        let front = self.wall - self.length.value;
        let ends: Vec<f64> = self.at.first().into_iter().chain(self.at.last()).copied().collect();
        let mut found: Vec<Point> = ends.iter().map(|x| Point::new(*x, front)).collect();
        found.dedup();
        let (left, right) = self
            .ledger
            .unwrap_or_else(|| (ends.first().copied().unwrap_or_default(), ends.last().copied().unwrap_or_default()));
        found.extend([Point::new(right, self.wall), Point::new(left, self.wall)]);
        found
    }
}

/// A field that is for a cabinet alone, or for brackets alone; nothing for what is asked of both.
pub fn of_cabinet(name: HandlingField) -> Option<bool> {
    use HandlingField as Field;
    match name {
        Field::CabinetRail | Field::SinkBay | Field::GapFrom | Field::GapWidth | Field::LowLeft => Some(true),
        Field::Overhang | Field::OverhangLeft | Field::OverhangRight => Some(true),
        Field::Brackets | Field::BracketFrom | Field::BracketLength => Some(false),
        Field::BracketHeight | Field::Screw | Field::ScrewBite => Some(false),
        _ => None,
    }
}

impl BracketInputs {
    /// How many there are.
    ///
    /// # Errors
    /// The number, where it is blank or one alone would let the top tip.
    fn enough(&self) -> Known<u32> {
        let count = self.count.clone()?;
        if count < 2 && !self.ledger {
            let says = "on one alone the top tips to a side; take two or more, or a ledger as well.";
            return Err(self.waits_at(HandlingField::Brackets, says));
        }
        Ok(count)
    }

    /// How far they reach under a top of that depth.
    ///
    /// # Errors
    /// The length, where it is blank or more than the depth.
    fn reach(&self, depth: Length) -> Known<Length> {
        let field = HandlingField::BracketLength;
        let Some(length) = self.length.clone()? else {
            let usual = about(depth * LEAST_REACH);
            let says = label!("nothing is written here yet; two thirds of the depth, {}, or more is usual.", usual);
            return Err(self.waits_at(field, says));
        };
        if length > depth + geometry_tolerance() {
            let says = label!("that is past the front edge; {} is the most.", Word::AtMost(depth));
            return Err(self.waits_at(field, says));
        }
        Ok(length)
    }

    /// Where two or more stand under a top of that width, from its left end.
    ///
    /// # Errors
    /// A field by which they would not stand beside each other.
    fn spread(&self, count: u32, width: Length) -> Known<Vec<Length>> {
        let from = self.from_end.clone()?;
        let gaps = f64::from(count.saturating_sub(1));
        let apart = (width - 2.0 * from) / gaps;
        if from < Length::default() || width - 2.0 * from < bracket_least() {
            let most = Word::AtMost((width - bracket_least()) / 2.0);
            let says = label!("the brackets would not stand beside each other; {} is the most.", most);
            return Err(self.waits_at(HandlingField::BracketFrom, says));
        }
        if apart + geometry_tolerance() < bracket_least() {
            let says = label!("so many stand nearer to each other than {}.", about(bracket_least()));
            return Err(self.waits_at(HandlingField::Brackets, says));
        }
        Ok((0..count).map(|number| from + f64::from(number) * apart).collect())
    }
}

/// What the worst bracket comes to by hand.
#[derive(Clone, Debug, PartialEq)]
pub struct Worst {
    /// Which one, from the left.
    pub bracket: usize,
    /// What it bears: its share of the weight, and a person at the front edge.
    pub load: Figure<Force>,
    /// The moment of that about the wall.
    pub moment: Figure<Torque>,
}

/// How a top that lies loose tips over what bears it.
#[derive(Clone, Debug, PartialEq)]
pub struct Tipping {
    /// Over the front; else over an end.
    pub front: bool,
    /// What turns it over ÷ what holds it: over 1 it tips. Infinite where it tips by its weight alone.
    pub share: Figure<f64>,
    /// Brackets that reach so far from the wall hold it in front.
    pub enough: Length,
}

/// A top on a wall by hand.
#[derive(Clone, Debug, PartialEq)]
pub struct Hung {
    /// What bears it.
    pub brackets: Known<Brackets>,
    /// The bracket that is worst off.
    pub worst: Known<Worst>,
    /// The pull on its topmost screw.
    pub pull: Known<Figure<Force>>,
    /// What that screw holds in the stud.
    pub holds: Known<Figure<Force>>,
    /// The pull ÷ what the screw holds.
    pub utilization: Known<Figure<f64>>,
    /// How near a loose top is to tipping, over that side which is worst; nothing where its back is fastened.
    pub tipping: Option<Tipping>,
    /// What a fastening along the back has to hold down; nothing where it holds nothing, or there is none.
    pub hold_down: Option<Figure<Force>>,
    /// How far the brackets ought to reach.
    pub least_reach: Length,
    /// The person at the front edge.
    pub person: Force,
}

/// The weight of a top, and how far from the wall its middle is.
struct Weight {
    force: Figure<Force>,
    middle: Point,
}

impl Weight {
    fn of(slab: &Slab, concrete: &Concrete) -> Self {
        let cut: f64 = slab.openings.iter().map(|opening| opening.area()).sum();
        let area = slab.outline.area() - cut;
        let moment =
            slab.openings.iter().fold(slab.outline.area() * slab.outline.centroid().to_vec2(), |sum, opening| {
                sum - opening.area() * opening.centroid().to_vec2()
            });
        let mass = Area::new::<square_meter>(area).named("area")
            * slab.thickness.named("thickness")
            * concrete.density.named("density");
        let weight = weight_of(mass.value);
        let force = mass.by_rule("weight of {}", |parts| parts[0] * limits::GRAVITY, weight);
        Self { force: force.titled("Weight of the top", Source::Arithmetic), middle: (moment / area).to_point() }
    }

    /// The same with the bowls that hang in it, full of water.
    fn with_bowls(self, slab: &Slab, bowls: &[(usize, Force)]) -> Self {
        let all: f64 = bowls.iter().map(|(_, force)| force.value).sum();
        if all <= 0.0 {
            return self;
        }
        let bare = self.force.value.value;
        let at = |opening: &usize| slab.openings.get(*opening).map_or(self.middle, |shape| shape.centroid()).to_vec2();
        let moment: Vec2 =
            bowls.iter().fold(bare * self.middle.to_vec2(), |sum, (opening, force)| sum + force.value * at(opening));
        let whole = self.force.term() + Force::new::<newton>(all).named("its bowls full of water");
        Self {
            force: whole.titled("Weight of the top with its bowls", Source::Arithmetic),
            middle: (moment / (bare + all)).to_point(),
        }
    }
}

/// What one bracket takes.
struct Taken {
    bracket: usize,
    /// Its share of the weight.
    weight: Term<Force>,
    /// What a person at the front edge weighs on it.
    person: Term<Force>,
    /// The moment of both about the wall.
    moment: Torque,
}

impl Hung {
    /// A piece on its brackets by hand.
    pub(super) fn of(
        slab: &Slab,
        concrete: &Concrete,
        habits: &LoadAssumptions,
        typed: &BracketInputs,
        brackets: Known<Brackets>,
    ) -> Self {
        let empty = Weight::of(slab, concrete);
        let bare = (empty.force.value, empty.middle);
        let alone = brackets.as_ref().ok();
        let loose = alone.filter(|brackets| !brackets.fastened);
        let tipping = loose.and_then(|brackets| tipping(slab, brackets, bare, habits.person));
        let held = alone.filter(|brackets| brackets.fastened);
        let hold_down = held.and_then(|brackets| hold_down(slab, brackets, bare, habits.person));
        let weight = empty.with_bowls(slab, &habits.bowls);
        let worst = known_ref(&brackets).and_then(|brackets| worst(slab, brackets, &weight, habits.person, typed));
        let pull = together((known_ref(&worst), typed.height.clone())).map(|(worst, height)| pull(worst, height));
        let holds = holds(typed);
        let utilization = together((known_ref(&pull), known_ref(&holds))).map(|(pull, holds)| utilization(pull, holds));
        let least_reach = metres(slab.outline.bounds().height()) * LEAST_REACH;
        let person = habits.person;
        Self { brackets, worst, pull, holds, utilization, tipping, hold_down, least_reach, person }
    }
}

/// The bracket that the wall has to hold hardest.
fn worst(slab: &Slab, brackets: &Brackets, weight: &Weight, person: Force, typed: &BracketInputs) -> Known<Worst> {
    let arms = [brackets.wall - weight.middle.y, slab.outline.bounds().height()].map(metres);
    let taken = (0..brackets.at.len()).filter_map(|bracket| taken(slab, brackets, bracket, weight, person, arms));
    // Of two that are alike the first is told.
    let worst = taken.reduce(|worst, one| if one.moment > worst.moment * (1.0 + 1e-9) { one } else { worst });
    let Some(Taken { bracket, weight, person, moment }) = worst else {
        return Err(typed.waits_at(HandlingField::Brackets, "none of them bears anything."));
    };
    let load = (weight.clone().called("its share of the weight") + person.clone().called("the person"))
        .titled(label!("What bracket {} from the left bears", bracket + 1), Source::Arithmetic);
    let [middle, front] = arms;
    let moment = (weight.called("weight") * middle.named("from the wall to its middle")
        + person.called("person") * front.named("from the wall to the front edge"))
    .valued(moment)
    .after_first(&load.working)
    .titled("Its moment about the wall", Source::Arithmetic);
    Ok(Worst { bracket, load, moment })
}

fn taken(
    slab: &Slab,
    brackets: &Brackets,
    bracket: usize,
    weight: &Weight,
    person: Force,
    [middle, front]: [Length; 2],
) -> Option<Taken> {
    let bounds = slab.outline.bounds();
    let own = *brackets.at.get(bracket)?;
    let before = bracket.checked_sub(1).and_then(|before| brackets.at.get(before)).copied();
    let after = brackets.at.get(bracket + 1).copied();
    let from = before.map_or(bounds.x0, |before| f64::midpoint(before, own));
    let to = after.map_or(bounds.x1, |after| f64::midpoint(own, after));
    // Past the first or the last one a person weighs on it more than by his weight: the next one is the far end of the
    // lever.
    let past = match (before, after) {
        (None, Some(after)) => Some((own - bounds.x0, after - own)),
        (Some(before), None) => Some((bounds.x1 - own, own - before)),
        _ => None,
    };
    let length = metres(to - from).named("length of the top nearer to it than to any other");
    let weight = (weight.force.term() * length / metres(bounds.width()).named("its whole length"))
        .step("its share of the weight", Source::Arithmetic);
    let person = match past.filter(|(past, _)| *past > 0.0) {
        Some((past, apart)) => {
            let lever = metres(past).named("past it") / metres(apart).named("from one to the next");
            (person.named("person") * (1.0 + lever.number()))
                .step("a person on the front corner past it, as a beam over it and the next one", Source::Practice)
        }
        None => person.stated("a person at the front edge in front of it", Source::Practice),
    };
    let moment = weight.value.value * middle.value + person.value.value * front.value;
    Some(Taken { bracket, weight, person, moment: Torque::new::<newton_meter>(moment) })
}

fn pull(worst: &Worst, height: Length) -> Figure<Force> {
    (worst.moment.called("moment") / height.named("from the topmost screw to the foot"))
        .titled(label!("Pull on the topmost screw of bracket {} from the left", worst.bracket + 1), Source::Arithmetic)
}

fn utilization(pull: &Figure<Force>, holds: &Figure<Force>) -> Figure<f64> {
    let share = (pull.called("pull") / holds.called("what the screw holds")).number();
    let written = Quantity::Number(share.value, 2);
    share.titled_as("Pull on the topmost screw ÷ what it holds", written, Source::Arithmetic)
}

/// The side over which a loose top comes nearest to tipping, with a person on that front corner which turns it most.
fn tipping(slab: &Slab, brackets: &Brackets, (weight, middle): (Force, Point), person: Force) -> Option<Tipping> {
    let bounds = slab.outline.bounds();
    let people = [bounds.x0, bounds.x1].map(|x| Point::new(x, bounds.y0));
    let corners = brackets.corners();
    let next = corners.iter().cycle().skip(1);
    let sides = corners.iter().zip(next).filter_map(|(from, to)| {
        let along = (*to - *from).normalize();
        // Counter-clockwise the inside lies to the left.
        let outside = |at: Point| (at - *from).cross(along);
        let out = people.iter().map(|at| outside(*at)).fold(f64::NEG_INFINITY, f64::max);
        let inside = -outside(middle);
        // No person is outside the back: that is the wall.
        let is_wall = from.y == brackets.wall && to.y == brackets.wall;
        let share = if inside > 0.0 { person.value * out / (weight.value * inside) } else { f64::INFINITY };
        (!is_wall && out > 0.0 && out.is_finite()).then_some((from.y == to.y, out, inside, share))
    });
    let (front, out, inside, share) = sides.reduce(|worst, one| if one.3 > worst.3 { one } else { worst })?;
    let turns = person.named("person") * metres(out).named("how far past the line that bears");
    let holds = weight.named("weight, bowls empty") * metres(inside).named("how far its middle is behind that line");
    let title = if front { "What turns it over its brackets ÷ what holds it" } else { "The same over an end" };
    let written = if share.is_finite() {
        Quantity::Number(share, 2)
    } else {
        Quantity::Words("more than any weight holds".into())
    };
    let tips = (turns / holds).valued(share).titled_as(title, written, Source::Arithmetic);
    // There what turns it and what holds it are the same.
    let (far, near) = (bounds.height(), brackets.wall - middle.y);
    let enough = metres((person.value * far + weight.value * near) / (person.value + weight.value));
    Some(Tipping { front, share: tips, enough })
}

/// What a fastened back has to hold down as a person is at the front edge.
fn hold_down(
    slab: &Slab,
    brackets: &Brackets,
    (weight, middle): (Force, Point),
    person: Force,
) -> Option<Figure<Force>> {
    let front = brackets.wall - brackets.length.value;
    let (out, inside) = (front - slab.outline.bounds().y0, middle.y - front);
    let hold = person.named("person") * metres(out).named("past the brackets")
        - weight.named("weight") * metres(inside).named("from their front to its middle");
    let hold = hold / brackets.length.named("their reach");
    let holds = hold.value > Force::default();
    holds.then(|| hold.titled("What the fastening along the back holds down", Source::Arithmetic))
}

/// Said with every top on brackets.
pub const NOT_JUDGED: &str = "Neither the shear of its screws nor the bracket itself is worked out, nor the top’s own \
    fastening. A bracket that carries people is for somebody licensed to judge where the code asks for it.";

/// What is found of brackets by hand.
pub(super) fn advise(hung: &Hung, units: Units, piece: usize) -> Vec<Finding> {
    let told = |severity, field, says: Label, remedy: Label, source| Finding {
        severity,
        stage: Stage::Build,
        place: FieldPath::Handling(piece, field),
        says: label!("{}{}", Name::PieceInFront(piece), says),
        remedy,
        source,
    };
    let mut found = Vec::new();
    let tips = hung.tipping.as_ref().filter(|tipping| tipping.share.value > 1.0);
    if let Some(tipping) = tips {
        let share = tipping.share.value;
        let times = if share.is_finite() {
            label!("what turns it is {} times what holds it", Quantity::Number(share, 2))
        } else {
            "its own weight does not hold it".into()
        };
        let (field, over, remedy) = if tipping.front {
            // Up to the next mark of the tape.
            let mark = if units == Units::Inch { inches(1.0 / 16.0) } else { metres(1e-3) };
            let enough = Word::AtMost(tipping.enough + mark);
            let remedy = label!("Fasten its back down, or take brackets that reach {} from the wall.", enough);
            (HandlingField::BracketLength, "at the front edge", remedy)
        } else if hung.brackets.as_ref().is_ok_and(|own| own.at.len() == 1) {
            let remedy = "Fasten its back down, or take a second bracket.".into();
            (HandlingField::Brackets, "on a front corner", remedy)
        } else {
            let remedy = "Fasten its back down, or let brackets stand nearer to its ends.".into();
            (HandlingField::BracketFrom, "on a front corner", remedy)
        };
        let person = hung.person;
        let says = label!("The top tips over its brackets when a person of {} sits {}: {}.", person, over, times);
        found.push(told(Severity::Stop, field, says, remedy, Source::Arithmetic));
    }
    let brackets = hung.brackets.as_ref().ok();
    let short = brackets.filter(|own| !own.fastened && own.length < hung.least_reach - geometry_tolerance());
    if let Some(brackets) = short.filter(|_| tips.is_none_or(|tipping| !tipping.front)) {
        let says = label!(
            "The brackets reach {} from the wall; under two thirds of the depth, {}, a loose top is left to tip in \
             front.",
            about(brackets.length),
            about(hung.least_reach),
        );
        let remedy = label!("Take brackets of {} or longer, or fasten its back down.", about(hung.least_reach));
        found.push(told(Severity::Watch, HandlingField::BracketLength, says, remedy, Source::Practice));
    }
    if let (Ok(worst), Ok(pull), Ok(holds), Ok(utilization)) = (&hung.worst, &hung.pull, &hung.holds, &hung.utilization)
    {
        let share = utilization.value;
        let strength = if share > 1.0 { Some(Severity::Stop) } else { (share > CLOSE).then_some(Severity::Watch) };
        if let Some(strength) = strength {
            let verb = if share > 1.0 { "is over what is allowed" } else { "is near to what is allowed" };
            let says = label!(
                "The topmost screw of bracket {} from the left {} with a person of {} at the front edge: it is \
                 pulled by {}; {} is allowed in the stud.",
                worst.bracket + 1,
                verb,
                hung.person,
                pull.value,
                holds.value,
            );
            let remedy = label!("A longer thread, a taller bracket, or more brackets. {}", NOT_JUDGED);
            found.push(told(strength, HandlingField::ScrewBite, says, remedy, WITHDRAWAL));
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::exact::{pounds, pounds_a_cubic_foot, psi};
    use crate::plane::Outline;
    use crate::working::Waiting;

    /// A top of 48 by 20 by 2 in that weighs 150 lb/ft³: 166.7 lb.
    fn slab() -> Slab {
        let corners = [(0.0, 0.0), (48.0, 0.0), (48.0, 20.0), (0.0, 20.0)];
        let corners = corners.map(|(x, y)| (Point::new(inches(x).value, inches(y).value), 0.0));
        let outline = Outline::rounded_polygon(&corners).expect("a rectangle");
        Slab { outline, openings: Vec::new(), cutouts: 0, thickness: inches(2.0) }
    }

    fn typed() -> BracketInputs {
        BracketInputs {
            piece: 0,
            ledger: false,
            fastened: false,
            count: Ok(3),
            from_end: Ok(inches(6.0)),
            length: Ok(Some(inches(16.0))),
            height: Ok(inches(10.0)),
            screw: Ok(inches(0.3125)),
            bite: Ok(inches(1.75)),
        }
    }

    fn hung(typed: &BracketInputs) -> Hung {
        let concrete = Concrete { strength: psi(3000.0), flexural: None, density: pounds_a_cubic_foot(150.0) };
        let brackets = Brackets::of(&slab(), typed);
        Hung::of(&slab(), &concrete, &LoadAssumptions::usual(&slab()), typed, brackets)
    }

    /// 15 of 48 in are 52.1 lb; 300 lb × (1 + 6 ÷ 18) are 400 lb. About the wall 52.1 × 10 + 400 × 20 = 8521 lb·in.
    #[test]
    fn the_working_of_the_worst_bracket_is_told_step_by_step() {
        let worst = hung(&typed()).worst.expect("all is there");
        let lines = worst.moment.working.lines(Units::Inch);
        let told: Vec<_> = lines.iter().map(|line| (line.numbers.as_str(), line.result.as_str())).collect();
        assert_eq!(
            told,
            [
                ("weight of 6.67 ft² × 2 in × 150 lb/ft³", "167 lb"),
                ("167 lb × 15 in ÷ 48 in", "52 lb"),
                ("300 lb × (1 + 6 in ÷ 18 in)", "400 lb"),
                ("52 lb + 400 lb", "452 lb"),
                ("52 lb × 10 in + 400 lb × 20 in", "8521 lb·in"),
            ]
        );
    }

    /// The weight of 166.7 lb lies 6 in behind the fronts of the brackets, the person 4 in before them.
    #[test]
    fn what_is_blank_is_waited_for_and_the_rest_stands() {
        let waiting = Waiting::named(FieldPath::Handling(0, HandlingField::BracketHeight), "measure it");
        let found = hung(&BracketInputs { height: Err(waiting.clone()), ..typed() });
        assert_eq!((found.pull, found.utilization), (Err(waiting.clone()), Err(waiting)));
        assert!(found.worst.is_ok() && found.holds.is_ok());
        let tips = found.tipping.expect("it lies loose");
        let weight = weight_of(pounds(48.0 * 20.0 * 2.0 * 150.0 / 1728.0));
        let share = weight_of(pounds(300.0)).value * 4.0 / (weight.value * 6.0);
        assert!((tips.share.value / share - 1.0).abs() < 1e-9 && tips.front, "{} of {share}", tips.share.value);
    }
}
