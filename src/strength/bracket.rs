//! A top that hangs on a wall: brackets, with a ledger or without one. Where they bear, for the map; and by hand what
//! the worst of them takes, how hard its topmost screw is pulled, and whether the top tips over them.
//!
//! The wall is the back edge. Shear of the screws and the steel of a bracket are not worked out.

use super::cases::{LoadAssumptions, Slab, Support, SupportKind, metres, near_edge};
use super::concrete::Concrete;
use super::cut::Along;
use super::seats::{Person, Seat, Spot};
use super::{limits, written};
use crate::finding::{Finding, Severity, Stage, say};
use crate::job::read::{self, both};
use crate::job::{Back, FieldPath, HandlingField, Job, Rest};
use crate::measure::exact::{in_inches, inches};
use crate::measure::geometry_tolerance;
use crate::measure::{Length, Units, write_area, write_density, write_length, write_number};
use crate::working::{Figure, Known, Source, Waiting, Working};
use kurbo::{Point, Vec2};
use uom::si::area::square_meter;
use uom::si::f64::{Area, Force, Torque};
use uom::si::force::newton;
use uom::si::torque::newton_meter;

/// Specific gravity of the wood of a stud: spruce-pine-fir, the lightest of the usual ones (Douglas fir has 0.50).
pub const STUD_GRAVITY: f64 = 0.42;

/// Screws from this diameter on are lag screws (National Design Specification for Wood Construction, from memory).
pub fn lag_least() -> Length {
    inches(0.25)
}

/// The thinnest and the thickest screw that the rule tells of: No. 6, and 1 1/4 in (the same, from memory).
pub fn screws() -> [Length; 2] {
    [inches(0.138), inches(1.25)]
}

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

/// Source of what a lag screw or a wood screw holds.
pub const WITHDRAWAL: Source = Source::Standard(
    "National Design Specification for Wood Construction 12.2: lag screw 1800 G^(3/2) D^(3/4), wood screw 2850 G² D, lb \
     an inch of thread (read where it is quoted); not raised for a short load",
);

/// Source of [`STUD_GRAVITY`].
pub const GRAVITY_OF_STUDS: Source =
    Source::Standard("National Design Specification for Wood Construction 12.3.3: spruce-pine-fir 0.42 (from memory)");

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
    /// The ones that are typed for a top; nothing where a cabinet bears it.
    ///
    /// # Errors
    /// What is not typed yet, or does not fit the top.
    pub fn of(slab: &Slab, job: &Job, piece: usize) -> Known<Option<Self>> {
        let Some(own) = job.pieces.get(piece).map(|piece| &piece.handling) else { return Ok(None) };
        let ledger = match own.rest {
            Rest::Cabinet => return Ok(None),
            Rest::Brackets => false,
            Rest::LedgerAndBrackets => true,
        };
        let asks = Asks { job, piece };
        let bounds = slab.outline.bounds();
        let (width, depth) = (metres(bounds.width()), metres(bounds.height()));
        let (count, length) = both(count(&asks, ledger), length(&asks, depth))?;
        let alone = [bounds.center().x];
        let at = match count {
            0 | 1 => alone.into(),
            _ => spread(&asks, count, width)?.into_iter().map(|at| bounds.x0 + at.value).collect(),
        };
        let fastened = own.back == Back::Fastened;
        let ledger = ledger.then_some((bounds.x0, bounds.x1));
        Ok(Some(Self { at, wall: bounds.y1, length, ledger, fastened }))
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

/// The fields of a piece, asked for by name with what works there.
struct Asks<'a> {
    job: &'a Job,
    piece: usize,
}

impl Asks<'_> {
    fn place(&self, field: HandlingField) -> FieldPath {
        FieldPath::Handling(self.piece, field)
    }

    fn wait<T>(&self, field: HandlingField, says: &str) -> Known<T> {
        let place = self.place(field);
        Err(Waiting::at(place, format!("{}: {says}", read::name_of(self.job, place))))
    }

    /// What is typed there; what works where nothing is.
    fn read<T>(&self, field: HandlingField, reader: fn(&Job, FieldPath) -> Known<T>, works: &str) -> Known<T> {
        match read::optional(self.job, self.place(field), reader)? {
            Some(value) => Ok(value),
            None => self.wait(field, &format!("nothing is written here yet; {works}.")),
        }
    }

    fn length(&self, field: HandlingField, works: &str) -> Known<Length> {
        self.read(field, read::positive_length, works)
    }

    fn by_units(&self, inch: &'static str, metric: &'static str) -> &'static str {
        match self.job.units {
            Units::Inch => inch,
            Units::Metric => metric,
        }
    }
}

fn count(asks: &Asks<'_>, ledger: bool) -> Known<u32> {
    let usual = asks.by_units("one at every stud, 16 in apart, is usual", "one at every stud, 400 mm apart, is usual");
    let count = asks.read(HandlingField::Brackets, read::count, usual)?;
    if count < 2 && !ledger {
        let says = "on one alone the top tips to a side; take two or more, or a ledger as well.";
        return asks.wait(HandlingField::Brackets, says);
    }
    Ok(count)
}

fn length(asks: &Asks<'_>, depth: Length) -> Known<Length> {
    let units = asks.job.units;
    let usual = format!("two thirds of the depth, {}, or more is usual", say::length(depth * LEAST_REACH, units));
    let length = asks.length(HandlingField::BracketLength, &usual)?;
    if length > depth + geometry_tolerance() {
        let most = say::at_most(depth, units);
        return asks.wait(HandlingField::BracketLength, &format!("that is past the front edge; {most} is the most."));
    }
    Ok(length)
}

/// Where two or more stand, from the left end.
fn spread(asks: &Asks<'_>, count: u32, width: Length) -> Known<Vec<Length>> {
    let (field, units) = (HandlingField::BracketFrom, asks.job.units);
    let usual = asks.by_units("6 in is usual", "150 mm is usual");
    let from = match read::optional(asks.job, asks.place(field), read::length)? {
        Some(from) => from,
        None => return asks.wait(field, &format!("nothing is written here yet; {usual}.")),
    };
    let gaps = f64::from(count.saturating_sub(1));
    let apart = (width - 2.0 * from) / gaps;
    if from < Length::default() || width - 2.0 * from < bracket_least() {
        let most = say::at_most((width - bracket_least()) / 2.0, units);
        return asks.wait(field, &format!("the brackets would not stand beside each other; {most} is the most."));
    }
    if apart + geometry_tolerance() < bracket_least() {
        let says = format!("so many stand nearer to each other than {}.", say::length(bracket_least(), units));
        return asks.wait(HandlingField::Brackets, &says);
    }
    Ok((0..count).map(|number| from + f64::from(number) * apart).collect())
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
    fn of(slab: &Slab, concrete: &Concrete, units: Units) -> Self {
        let cut: f64 = slab.openings.iter().map(|opening| opening.area()).sum();
        let area = slab.outline.area() - cut;
        let moment =
            slab.openings.iter().fold(slab.outline.area() * slab.outline.centroid().to_vec2(), |sum, opening| {
                sum - opening.area() * opening.centroid().to_vec2()
            });
        let force = area * slab.thickness.value * concrete.density.value * limits::GRAVITY;
        let force = Force::new::<newton>(force);
        let numbers = format!(
            "{} × {} × {}",
            write_area(Area::new::<square_meter>(area), units),
            write_length(slab.thickness, units),
            write_density(concrete.density, units)
        );
        let working = Working::new("Weight of the top").line(
            "area × thickness × density",
            numbers,
            written::force(force, units),
            Source::Arithmetic,
        );
        Self { force: working.of(force), middle: (moment / area).to_point() }
    }

    /// The same with the bowls that hang in it, full of water.
    fn with_bowls(self, slab: &Slab, bowls: &[(usize, Force)], units: Units) -> Self {
        let all: f64 = bowls.iter().map(|(_, force)| force.value).sum();
        if all <= 0.0 {
            return self;
        }
        let bare = self.force.value.value;
        let at = |opening: &usize| slab.openings.get(*opening).map_or(self.middle, |shape| shape.centroid()).to_vec2();
        let moment: Vec2 =
            bowls.iter().fold(bare * self.middle.to_vec2(), |sum, (opening, force)| sum + force.value * at(opening));
        let whole = Force::new::<newton>(bare + all);
        let numbers = format!(
            "{} + {}",
            written::force(self.force.value, units),
            written::force(Force::new::<newton>(all), units)
        );
        let working = self.force.working.line(
            "with its bowls full of water",
            numbers,
            written::force(whole, units),
            Source::Arithmetic,
        );
        Self { force: working.of(whole), middle: (moment / (bare + all)).to_point() }
    }
}

/// What one bracket takes, before it is written down.
struct Taken {
    bracket: usize,
    /// The length of the top that is nearer to it than to any other.
    length: f64,
    weight: f64,
    person: f64,
    /// The person sits past the last bracket: how far from it, and how far that is from the next.
    past: Option<(f64, f64)>,
    moment: f64,
}

impl Hung {
    /// A piece by hand; nothing where a cabinet bears it.
    pub(super) fn of(
        slab: &Slab,
        concrete: &Concrete,
        habits: &LoadAssumptions,
        job: &Job,
        piece: usize,
    ) -> Option<Self> {
        let brackets = Brackets::of(slab, job, piece).transpose()?;
        let units = job.units;
        let asks = Asks { job, piece };
        let empty = Weight::of(slab, concrete, units);
        let middle = empty.middle;
        let bare = empty.force.value;
        let alone = brackets.as_ref().ok();
        let loose = alone.filter(|brackets| !brackets.fastened);
        let tipping = loose.and_then(|brackets| tipping(slab, brackets, (bare, middle), habits.person, units));
        let held = alone.filter(|brackets| brackets.fastened);
        let hold_down = held.and_then(|brackets| hold_down(slab, brackets, (bare, middle), habits.person, units));
        let weight = empty.with_bowls(slab, &habits.bowls, units);
        let worst = match &brackets {
            Ok(brackets) => worst(slab, brackets, &weight, habits.person, units),
            Err(waiting) => Err(waiting.clone()),
        };
        let height = asks.length(HandlingField::BracketHeight, "measure it on the bracket");
        let pull = both(worst.clone(), height).map(|(worst, height)| pull(&worst, height, units));
        let holds = holds(&asks);
        let utilization = both(pull.clone(), holds.clone()).map(|(pull, holds)| utilization(&pull, &holds, units));
        let least_reach = metres(slab.outline.bounds().height()) * LEAST_REACH;
        let person = habits.person;
        Some(Self { brackets, worst, pull, holds, utilization, tipping, hold_down, least_reach, person })
    }
}

/// The bracket that the wall has to hold hardest.
fn worst(slab: &Slab, brackets: &Brackets, weight: &Weight, person: Force, units: Units) -> Known<Worst> {
    let bounds = slab.outline.bounds();
    let arms = (brackets.wall - weight.middle.y, bounds.height());
    let taken = (0..brackets.at.len()).filter_map(|bracket| taken(slab, brackets, bracket, weight, person, arms));
    // Of two that are alike the first is told.
    let worst = taken.reduce(|worst, one| if one.moment > worst.moment * (1.0 + 1e-9) { one } else { worst });
    let Some(worst) = worst else { return Err(read::no_piece(FieldPath::Job(crate::job::JobField::Name))) };
    let force = |value: f64| written::force(Force::new::<newton>(value), units);
    let length = |value: f64| write_length(metres(value), units).text;
    let number = worst.bracket + 1;
    let load = Force::new::<newton>(worst.weight + worst.person);
    let working = Working::new(format!("What bracket {number} from the left bears")).after(&weight.force.working).line(
        "its share of the weight: the length of the top nearer to it than to any other ÷ its width",
        format!("{} × {} ÷ {}", force(weight.force.value.value), length(worst.length), length(bounds.width())),
        force(worst.weight),
        Source::Arithmetic,
    );
    let working = match worst.past {
        Some((past, apart)) => working.line(
            "a person on the front corner past it, as a beam over it and the next one: × (1 + past it ÷ from one to the \
             next)",
            format!("{} × (1 + {} ÷ {})", force(person.value), length(past), length(apart)),
            force(worst.person),
            Source::Practice,
        ),
        None => working.line("a person at the front edge in front of it", "", force(worst.person), Source::Practice),
    };
    let load = working
        .line(
            "both",
            format!("{} + {}", force(worst.weight), force(worst.person)),
            written::force(load, units),
            Source::Arithmetic,
        )
        .of(load);
    let moment = Torque::new::<newton_meter>(worst.moment);
    let moment = Working::new("Its moment about the wall")
        .after(&load.working)
        .line(
            "weight × from the wall to its middle + person × from the wall to the front edge",
            format!("{} × {} + {} × {}", force(worst.weight), length(arms.0), force(worst.person), length(arms.1)),
            written::moment(moment, units),
            Source::Arithmetic,
        )
        .of(moment);
    Ok(Worst { bracket: worst.bracket, load, moment })
}

fn taken(
    slab: &Slab,
    brackets: &Brackets,
    bracket: usize,
    weight: &Weight,
    person: Force,
    (middle, front): (f64, f64),
) -> Option<Taken> {
    let bounds = slab.outline.bounds();
    let own = *brackets.at.get(bracket)?;
    let before = bracket.checked_sub(1).and_then(|before| brackets.at.get(before)).copied();
    let after = brackets.at.get(bracket + 1).copied();
    let from = before.map_or(bounds.x0, |before| f64::midpoint(before, own));
    let to = after.map_or(bounds.x1, |after| f64::midpoint(own, after));
    let length = to - from;
    // Past the first or the last one a person weighs on it more than by his weight: the next one is the far end of the
    // lever.
    let past = match (before, after) {
        (None, Some(after)) => Some((own - bounds.x0, after - own)),
        (Some(before), None) => Some((bounds.x1 - own, own - before)),
        _ => None,
    };
    let past = past.filter(|(past, _)| *past > 0.0);
    let times = past.map_or(1.0, |(past, apart)| 1.0 + past / apart);
    let weight = weight.force.value.value * length / bounds.width();
    let person = person.value * times;
    Some(Taken { bracket, length, weight, person, past, moment: weight * middle + person * front })
}

fn pull(worst: &Worst, height: Length, units: Units) -> Figure<Force> {
    let pull = Force::new::<newton>(worst.moment.value.value / height.value);
    Working::new(format!("Pull on the topmost screw of bracket {} from the left", worst.bracket + 1))
        .after(&worst.moment.working)
        .line(
            "moment ÷ from the topmost screw to the foot",
            format!("{} ÷ {}", written::moment(worst.moment.value, units), write_length(height, units)),
            written::force(pull, units),
            Source::Arithmetic,
        )
        .of(pull)
}

/// What a screw of that diameter holds in a stud with so much thread in it: pounds and inches are those of the rule.
fn holds(asks: &Asks<'_>) -> Known<Figure<Force>> {
    let units = asks.job.units;
    let usual = asks.by_units("a lag screw of 5/16 in is usual", "a lag screw of 8 mm is usual");
    let thread = asks.by_units("1 3/4 in of thread in the stud is usual", "45 mm of thread in the stud is usual");
    let screw = asks.length(HandlingField::Screw, usual);
    let bite = asks.length(HandlingField::ScrewBite, thread);
    let (screw, bite) = both(screw, bite)?;
    let [least, most] = screws();
    if screw < least - geometry_tolerance() || screw > most + geometry_tolerance() {
        let says = format!(
            "the rule for screws in wood is for {} to {}.",
            written::small_length(least, units),
            written::small_length(most, units)
        );
        return asks.wait(HandlingField::Screw, &says);
    }
    let (wide, deep) = (in_inches(screw), in_inches(bite));
    let lag = screw >= lag_least() - geometry_tolerance();
    let an_inch = if lag {
        1800.0 * STUD_GRAVITY.powf(1.5) * wide.powf(0.75)
    } else {
        2850.0 * STUD_GRAVITY * STUD_GRAVITY * wide
    };
    let (formula, numbers) = if lag {
        ("a lag screw, lb an inch of thread: 1800 × G^(3/2) × D^(3/4)", "1800 × 0.42^(3/2)")
    } else {
        ("a wood screw, lb an inch of thread: 2850 × G² × D", "2850 × 0.42²")
    };
    let power = if lag { "^(3/4)" } else { "" };
    let holds = an_inch * deep * written::pound_force();
    Ok(Working::new("What that screw holds in the stud")
        .line(
            "G, how dense the wood of the stud is: spruce-pine-fir, the lightest of the usual ones",
            "",
            write_number(STUD_GRAVITY, 2),
            GRAVITY_OF_STUDS,
        )
        .line(
            formula,
            format!("{numbers} × {}{power}", write_number(wide, 4)),
            format!("{} lb/in", write_number(an_inch, 1)),
            WITHDRAWAL,
        )
        .line(
            "× thread in the stud",
            format!("{} lb/in × {} in", write_number(an_inch, 1), write_number(deep, 3)),
            written::force(holds, units),
            Source::Arithmetic,
        )
        .of(holds))
}

fn utilization(pull: &Figure<Force>, holds: &Figure<Force>, units: Units) -> Figure<f64> {
    let share = pull.value.value / holds.value.value;
    Working::new("Pull on the topmost screw ÷ what it holds")
        .after(&pull.working)
        .after(&holds.working)
        .line(
            "pull ÷ what the screw holds",
            format!("{} ÷ {}", written::force(pull.value, units), written::force(holds.value, units)),
            write_number(share, 2),
            Source::Arithmetic,
        )
        .of(share)
}

/// The side over which a loose top comes nearest to tipping, with a person on that front corner which turns it most.
fn tipping(
    slab: &Slab,
    brackets: &Brackets,
    (weight, middle): (Force, Point),
    person: Force,
    units: Units,
) -> Option<Tipping> {
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
    let length = |value: f64| write_length(metres(value), units).text;
    let sum = format!(
        "{} × {} ÷ ({} × {})",
        written::force(person, units),
        length(out),
        written::force(weight, units),
        length(inside)
    );
    let result = if share.is_finite() { write_number(share, 2) } else { "more than any weight holds".to_owned() };
    let title = if front { "What turns it over its brackets ÷ what holds it" } else { "The same over an end" };
    let working = Working::new(title).line(
        "person × how far past the line that bears ÷ (weight, bowls empty × how far its middle is behind that line)",
        sum,
        result,
        Source::Arithmetic,
    );
    // There what turns it and what holds it are the same.
    let (far, near) = (bounds.height(), brackets.wall - middle.y);
    let enough = metres((person.value * far + weight.value * near) / (person.value + weight.value));
    Some(Tipping { front, share: working.of(share), enough })
}

/// What a fastened back has to hold down as a person is at the front edge.
fn hold_down(
    slab: &Slab,
    brackets: &Brackets,
    (weight, middle): (Force, Point),
    person: Force,
    units: Units,
) -> Option<Figure<Force>> {
    let reach = brackets.length;
    let front = brackets.wall - reach.value;
    let (out, inside) = (front - slab.outline.bounds().y0, middle.y - front);
    let hold = Force::new::<newton>((person.value * out - weight.value * inside) / reach.value);
    let length = |value: f64| write_length(metres(value), units).text;
    let working = Working::new("What the fastening along the back holds down").line(
        "(person × past the brackets − weight × from their front to its middle) ÷ their reach",
        format!(
            "({} × {} − {} × {}) ÷ {}",
            written::force(person, units),
            length(out),
            written::force(weight, units),
            length(inside),
            length(reach.value)
        ),
        written::force(hold, units),
        Source::Arithmetic,
    );
    (hold.value > 0.0).then(|| working.of(hold))
}

/// Said with every top on brackets.
pub const NOT_JUDGED: &str = "Neither the shear of its screws nor the bracket itself is worked out, nor the top’s own \
    fastening. A bracket that carries people is for somebody licensed to judge where the code asks for it.";

/// What is found of brackets by hand.
pub(super) fn advise(hung: &Hung, job: &Job, piece: usize) -> Vec<Finding> {
    let units = job.units;
    let prefix = read::piece_prefix(job, piece);
    let about = |severity, field, says: String, remedy: String, source| Finding {
        severity,
        stage: Stage::Build,
        place: FieldPath::Handling(piece, field),
        says: format!("{prefix}{says}").into(),
        remedy: remedy.into(),
        source,
    };
    let person = written::force(hung.person, units);
    let mut found = Vec::new();
    let tips = hung.tipping.as_ref().filter(|tipping| tipping.share.value > 1.0);
    if let Some(tipping) = tips {
        let share = tipping.share.value;
        let times = if share.is_finite() {
            format!("what turns it is {} times what holds it", write_number(share, 2))
        } else {
            "its own weight does not hold it".to_owned()
        };
        let (field, over, remedy) = if tipping.front {
            // Up to the next mark of the tape.
            let mark = if units == Units::Inch { inches(1.0 / 16.0) } else { metres(1e-3) };
            let enough = say::at_most(tipping.enough + mark, units);
            let remedy = format!("Fasten its back down, or take brackets that reach {enough} from the wall.");
            (HandlingField::BracketLength, "at the front edge", remedy)
        } else if hung.brackets.as_ref().is_ok_and(|own| own.at.len() == 1) {
            let remedy = "Fasten its back down, or take a second bracket.".to_owned();
            (HandlingField::Brackets, "on a front corner", remedy)
        } else {
            let remedy = "Fasten its back down, or let brackets stand nearer to its ends.".to_owned();
            (HandlingField::BracketFrom, "on a front corner", remedy)
        };
        let says = format!("The top tips over its brackets when a person of {person} sits {over}: {times}.");
        found.push(about(Severity::Stop, field, says, remedy, Source::Arithmetic));
    }
    let brackets = hung.brackets.as_ref().ok();
    let short = brackets.filter(|own| !own.fastened && own.length < hung.least_reach - geometry_tolerance());
    if let Some(brackets) = short.filter(|_| tips.is_none_or(|tipping| !tipping.front)) {
        let least = say::length(hung.least_reach, units);
        let says = format!(
            "The brackets reach {} from the wall; under two thirds of the depth, {least}, a loose top is left to tip in \
             front.",
            say::length(brackets.length, units)
        );
        let remedy = format!("Take brackets of {least} or longer, or fasten its back down.");
        found.push(about(Severity::Watch, HandlingField::BracketLength, says, remedy, Source::Practice));
    }
    if let (Ok(worst), Ok(pull), Ok(holds), Ok(utilization)) = (&hung.worst, &hung.pull, &hung.holds, &hung.utilization)
    {
        let share = utilization.value;
        let strength = if share > 1.0 { Some(Severity::Stop) } else { (share > CLOSE).then_some(Severity::Watch) };
        if let Some(strength) = strength {
            let verb = if share > 1.0 { "is over what is allowed" } else { "is near to what is allowed" };
            let says = format!(
                "The topmost screw of bracket {} from the left {verb} with a person of {person} at the front edge: it is \
                 pulled by {}; {} is allowed in the stud.",
                worst.bracket + 1,
                written::force(pull.value, units),
                written::force(holds.value, units)
            );
            let remedy = format!("A longer thread, a taller bracket, or more brackets. {NOT_JUDGED}");
            found.push(about(strength, HandlingField::ScrewBite, says, remedy, WITHDRAWAL));
        }
    }
    found
}
