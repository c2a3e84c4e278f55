//! The single door: [`estimate`] makes everything that follows from a job.
//!
//! Where a job changes key by key, [`Estimator`] answers the same and works out anew only what a change touches.

mod again;
mod mapped;

pub use again::Estimator;

use crate::carry::{self, CarryInputs, Carrying, Crew, Setting, SettingInputs, Weights};
use crate::cutting::{self, Cutting, CuttingInputs, QUICK, Task};
use crate::finding::Finding;
use crate::finish::{Curl, FinishInputs, Finishing};
use crate::form::{self, Build, BuildInputs, Built, Form, FormInputs};
use crate::job::read;
use crate::job::{FieldPath, Job, JobField};
use crate::knockout::{self, KnockoutInputs, Knockouts, StackInputs};
use crate::label;
use crate::measure::{Length, Mass, Pressure, Quantity, Time, Volume};
use crate::mix::{self, Filling, Order, OrderInputs, Pour};
use crate::pour::clock::Course;
use crate::pour::strip::StripTime;
use crate::pour::weather::Evaporation;
use crate::pour::{self, DayInputs, Plan, PourInputs, Pouring, PouringInputs};
use crate::price::pricing::Found;
use crate::price::{MaterialCost, PriceBook, PriceInputs, Pricing};
use crate::sheet::Layout;
use crate::steel::{self, Steel, SteelInputs};
use crate::strength::StrengthInputs;
use crate::strength::cases::LoadCase;
use crate::strength::check::{self, Cracking, MixInForm};
use crate::strength::concrete::Concrete;
use crate::top::{self, SeamInputs, Seaming, Top, TopInputs};
use crate::working::{Figure, Known, Name, Part, Source, Term, all, known_ref, together};
use std::collections::HashSet;
use std::sync::Arc;

/// The four numbers a maker asks for first.
#[derive(Clone, Debug, PartialEq)]
pub struct Headline {
    /// Bags to order, all mixes together; of a mix made from scratch, bags of cement.
    pub bags: Known<Figure<u32>>,
    /// Mixing water for all of them.
    pub water: Known<Figure<Volume>>,
    /// The heaviest lift by hand: the heaviest piece as it comes out of the form.
    pub weight: Known<Figure<Mass>>,
    /// The people that lift takes.
    pub people: Known<Figure<Crew>>,
}

/// What follows for one piece.
#[derive(Clone, Debug, PartialEq)]
pub struct PieceEstimate {
    /// Its geometry; parts that can be read stand even where others cannot.
    pub top: Top,
    /// The form it is cast in.
    pub form: Known<Form>,
    /// What keeps its cutouts and holes open.
    pub knockouts: Knockouts,
    /// The lath and the bars in it.
    pub steel: Known<Steel>,
    /// What has to be poured into the form.
    pub pour: Known<Pour>,
    /// The pour on its time line, against the workable time.
    pub plan: Known<Plan>,
    /// How fast its open back dries while it is poured.
    pub drying: Known<Evaporation>,
    /// When it may leave its form, since first water.
    pub strip: Known<StripTime>,
    /// As cast and as installed.
    pub weights: Known<Weights>,
    /// People to carry it.
    pub crew: Known<Figure<Crew>>,
    /// The lift as chosen, the way in, the load on its cabinet.
    pub carrying: Carrying,
    /// Whether it cracks, by hand, and what is to be asked for the map.
    pub cracking: Known<Cracking>,
    /// How far it curls as it dries; nothing where its sealer lets both faces dry, or a size is not known.
    pub curl: Option<Curl>,
    /// Whether it is better split, and where.
    pub seams: Known<Seaming>,
    /// What the maker should know about it, beside what follows from all pieces together.
    pub findings: Vec<Finding>,
}

/// What is cast: the part of an estimate that needs neither prices nor the pieces side by side.
#[derive(Clone, Debug, PartialEq)]
pub struct Cast {
    /// Bags, water, weight, people.
    pub headline: Headline,
    /// One for every piece of the job, in its order. Shared: an estimate after a change has the same ones where
    /// the change touched nothing.
    pub pieces: Vec<Arc<PieceEstimate>>,
    /// One for every bag that a piece refers to, in the order of the job's bags.
    pub orders: Vec<Known<Order>>,
    /// One for every mix that several pieces are cast from, in the order of the job's bags.
    pub pourings: Vec<Known<Pouring>>,
    /// What is read of pour day for all pieces.
    day: Arc<DayInputs>,
    /// What is read of every mix that a piece is cast from.
    ordered: Arc<[OrderInputs]>,
}

/// Everything that follows from a job. It is never saved: making it again is cheap.
#[derive(Clone, Debug, PartialEq)]
pub struct Estimate {
    /// Bags, water, weight, people.
    pub headline: Headline,
    /// One for every piece of the job, in its order.
    pub pieces: Vec<Arc<PieceEstimate>>,
    /// What the forms of all pieces take together.
    pub build: Build,
    /// The sheets that their parts are cut from.
    pub cutting: Known<Cutting>,
    /// One for every bag that a piece refers to, in the order of the job's bags.
    pub orders: Vec<Known<Order>>,
    /// One for every mix that several pieces are cast from, in the order of the job's bags.
    pub pourings: Vec<Known<Pouring>>,
    /// What the bags cost.
    pub cost: Known<MaterialCost>,
    /// Grinding, filling, sealing.
    pub finishing: Finishing,
    /// Adhesive, caulk, shims.
    pub setting: Setting,
    /// What it takes, how long, and what that costs.
    pub pricing: Pricing,
    /// Stops first, then watches, then notes; in the order of the job within each.
    pub findings: Vec<Finding>,
}

/// Works out everything that follows from `job`, at the prices of `prices`.
///
/// It never fails as a whole and never panics, whatever the job holds: a part that cannot be worked
/// out says what it is missing, and the other parts stand.
///
/// ```
/// use pourwright::estimate::estimate;
/// use pourwright::job::Job;
/// use pourwright::measure::Units;
/// use pourwright::price::PriceBook;
///
/// let mut job = Job::new("a", Units::Inch);
/// let waiting = estimate(&job, &PriceBook::default()).headline.bags.unwrap_err();
/// assert_eq!(waiting.needs()[0].write(&job), "Width: nothing is written here yet; write it like 67 1/4.");
///
/// let piece = &mut job.pieces[0];
/// (piece.width, piece.depth, piece.thickness) = ("48".into(), "24".into(), "1 1/2".into());
/// let bags = estimate(&job, &PriceBook::default()).headline.bags.unwrap();
/// // 48 × 24 × 1 1/2 in are one cubic foot, 1.1 with the spare: three bags that yield half a cubic foot.
/// assert_eq!(bags.value, 3);
/// assert_eq!(bags.working.title(&job), "Bags to order");
/// ```
pub fn estimate(job: &Job, prices: &PriceBook) -> Estimate {
    whole(&Cast::of(job), job, prices, |task| task.lay_out(QUICK))
}

impl Cast {
    /// What is cast of `job`.
    pub fn of(job: &Job) -> Self {
        let day = Arc::new(DayInputs::read(job));
        let pieces = (0..job.pieces.len()).map(|piece| Arc::new(piece_estimate(job, piece, &day)));
        Self::from_pieces(pieces.collect(), job, &day)
    }

    fn from_pieces(pieces: Vec<Arc<PieceEstimate>>, job: &Job, day: &Arc<DayInputs>) -> Self {
        let pours: Vec<_> = pieces.iter().map(|piece| &piece.pour).collect();
        let ordered: Arc<[OrderInputs]> = OrderInputs::read(job).into();
        let orders = mix::orders(&ordered, &pours);
        // One for every mix that several pieces are poured from at one go.
        let pourings = std::iter::zip(&*ordered, &orders)
            .filter_map(|(ordered, order)| Some(Pouring::of(&PouringInputs::read(job, ordered, day)?, &pours, order)))
            .collect();
        Self { headline: headline(job, &pieces, &orders), pieces, orders, pourings, day: day.clone(), ordered }
    }

    /// The pouring that the piece with that index is a part of; nothing where it is poured by itself.
    pub fn pouring_of(&self, piece: usize) -> Option<&Pouring> {
        self.pourings.iter().flatten().find(|pouring| pouring.pieces.contains(&piece))
    }
}

impl Estimate {
    /// The pouring that the piece with that index is a part of; nothing where it is poured by itself.
    pub fn pouring_of(&self, piece: usize) -> Option<&Pouring> {
        self.pourings.iter().flatten().find(|pouring| pouring.pieces.contains(&piece))
    }
}

impl Cast {
    /// What the clock beside the pour of that piece runs: that of all that are poured with it, unless they were poured
    /// one by one.
    pub fn course_of(&self, piece: usize, job: &Job) -> Option<Course> {
        let strip = |piece: usize| self.pieces.get(piece)?.strip.as_ref().ok().map(|strip| strip.at.value);
        let order = |bag: usize| self.orders.iter().flatten().find(|order| order.bag == bag);
        if let Some(pouring) = self.pouring_of(piece).filter(|pouring| pouring.log_in(job).is_some()) {
            // The one that takes longest decides.
            let strips = pouring.pieces.iter().map(|piece| strip(*piece)).collect::<Option<Vec<_>>>();
            let strip = strips.and_then(|strips| strips.into_iter().reduce(|one, other| one.max(other)));
            let ordered = self.ordered.iter().find(|ordered| ordered.mix.index == pouring.bag)?;
            let inputs = PouringInputs::read(job, ordered, &self.day)?;
            return Some(Course::of_pouring(pouring, order(pouring.bag), strip, &inputs));
        }
        let plan = self.pieces.get(piece)?.plan.as_ref().ok()?;
        Course::of(plan, order(plan.bag), strip(piece), &PourInputs::read_on(job, piece, &self.day)).ok()
    }
}

/// Everything that follows from what is cast; `lay_out` cuts its sheets.
fn whole(cast: &Cast, job: &Job, prices: &PriceBook, lay_out: impl FnOnce(&Task) -> Layout) -> Estimate {
    let Cast { headline, pieces, orders, pourings, day: _, ordered: _ } = cast.clone();
    let price = PriceInputs::read(job);
    let cost = job_has_pieces(job).and_then(|()| {
        // A piece without a bag has no order that could wait for it.
        let chosen = all((0..job.pieces.len()).map(|piece| mix::bag_of(job, piece).map(drop)));
        together((chosen, MaterialCost::of(&orders, &price, prices))).map(|(_, cost)| cost)
    });
    let built: Vec<_> = pieces.iter().map(|piece| piece.built()).collect();
    let inputs = BuildInputs::read(job);
    let build = Build::of(&built, &inputs);
    let knockouts: Vec<_> = pieces.iter().map(|piece| &piece.knockouts).collect();
    let cutting = job_has_pieces(job).and_then(|()| {
        let task = Task::of(&build, &knockouts, &inputs.boards, &CuttingInputs::read(job))?;
        let layout = lay_out(&task);
        Ok(Cutting::new(task, layout))
    });
    let tops: Vec<_> = pieces.iter().map(|piece| &piece.top).collect();
    let finish = FinishInputs::read(job);
    let pads = prices.tools();
    let finishing = Finishing::of(&tops, &pads, &finish);
    let setting = Setting::of(&tops, &SettingInputs::read(job));
    let found = Found {
        orders: &orders,
        build: &build,
        cutting: &cutting,
        knockouts: &knockouts,
        steel: &pieces.iter().map(|piece| &piece.steel).collect::<Vec<_>>(),
        finishing: &finishing,
        setting: &setting,
        people: &carry::people_to_set(&pieces.iter().map(|piece| (&piece.crew, &piece.carrying)).collect::<Vec<_>>()),
        pads: &pads,
    };
    let pricing = Pricing::of(&found, prices, &price);
    let mut findings = findings(job, cast, &inputs);
    findings.extend(finishing.advise(&finish));
    findings.extend(pricing.advise());
    findings.extend(build.findings(&built, &inputs, job));
    if let Ok(cutting) = &cutting {
        findings.extend(cutting::advise(cutting));
    }
    // Stable: the order of the job stays within each severity.
    findings.sort_by_key(|finding| finding.severity);
    Estimate { headline, pieces, build, cutting, orders, pourings, cost, finishing, setting, pricing, findings }
}

impl PieceEstimate {
    /// As far as building needs it.
    fn built(&self) -> Built<'_> {
        let fresh = self.pour.as_ref().ok().map(|pour| pour.fresh_density.value);
        Built { top: &self.top, form: &self.form, fresh }
    }
}

/// What is typed for one piece, read once for the rooms that build it.
struct PieceInputs {
    top: TopInputs,
    seams: SeamInputs,
    form: FormInputs,
    mix: mix::PieceInputs,
    knockouts: KnockoutInputs,
    steel: SteelInputs,
    pour: PourInputs,
    carry: CarryInputs,
    strength: StrengthInputs,
}

impl PieceInputs {
    fn read(job: &Job, piece: usize, day: &Arc<DayInputs>) -> Self {
        let (mix, steel) = (mix::PieceInputs::read(job, piece), SteelInputs::read(job, piece));
        Self {
            top: TopInputs::read(job, piece),
            seams: SeamInputs::read(job, piece),
            form: FormInputs::read(job, piece),
            pour: PourInputs::read_with(job, &mix.mix, &steel, day),
            mix,
            knockouts: KnockoutInputs::read(job, piece),
            steel,
            carry: CarryInputs::read(job, piece),
            strength: StrengthInputs::read(job, piece),
        }
    }
}

fn piece_estimate(job: &Job, piece: usize, day: &Arc<DayInputs>) -> PieceEstimate {
    let inputs = PieceInputs::read(job, piece, day);
    let top = Top::of(&inputs.top);
    let form = Form::of(&top, &inputs.form);
    let cast = form::cast(&top.thickness, &inputs.form.grinding);
    let filling = Filling::of(&top, &form, &cast, &inputs.mix.mix);
    let knockouts = Knockouts::of(&top, &cast, filling.fresh.as_ref().ok(), &inputs.knockouts);
    let steel = Steel::of(&top, &cast, &inputs.form.grinding, &inputs.steel);
    let pour = Pour::of(&filling, &cast, &inputs.mix);
    let plan = known_ref(&pour).and_then(|pour| Plan::of(pour, &inputs.pour));
    let drying = known_ref(&plan).and_then(|plan| pour::drying(plan, &inputs.pour));
    let steel_mass = inputs.steel.mass(|| steel.clone());
    let dry_density = known_ref(&inputs.mix.mix).and_then(|mix| mix.hardened_density.clone());
    let weights = Weights::of(&top, &filling, &steel_mass, &dry_density);
    let crew = known_ref(&weights).map(|weights| carry::crew(&weights.as_cast, inputs.carry.units));
    let carrying = Carrying::of(&top, &weights, &inputs.carry);
    let as_cast = known_ref(&weights).map(|weights| weights.as_cast.value);
    let seams = Seaming::of(&top, as_cast, &inputs.seams);
    let wet = inputs.pour.cure.as_ref().ok().and_then(|cure| pour::hour_of_water(plan.as_ref().ok(), cure));
    let in_form = in_form(&inputs.pour, wet);
    let cracking = Cracking::of((&top, &knockouts, &steel), &in_form, &filling.fresh, &inputs.strength);
    let curl = Curl::of_piece(&top, in_use(&cracking), job.finish.seal, job.units);
    let needed = cracking.as_ref().ok().and_then(|cracking| strength_to_lift(cracking, job));
    let strip = pour::strip_time(&inputs.pour, needed, wet);
    let findings = Vec::new();
    let known = PieceEstimate {
        top,
        form,
        knockouts,
        steel,
        pour,
        plan,
        drying,
        strip,
        weights,
        crew,
        carrying,
        cracking,
        curl,
        seams,
        findings,
    };
    PieceEstimate { findings: piece_findings(&known, &inputs, &cast, job, piece), ..known }
}

/// How the mix of a piece hardens in its form, and when the piece leaves it; `wet` is the end of its hour of water. It
/// waits for the mix.
fn in_form(typed: &PourInputs, wet: Option<Time>) -> Known<MixInForm> {
    known_ref(&typed.cure)?;
    let hardening = typed.hardening();
    let earliest = known_ref(&hardening).and_then(|hardening| pour::earliest(typed, hardening, wet));
    let stripped_at = earliest.map(|earliest| earliest.age);
    Ok(MixInForm { hardening, stripped_at, strength: typed.stripped_strength.if_typed() })
}

/// The concrete of a piece in use, where its strength is known.
fn in_use(cracking: &Known<Cracking>) -> Option<&Concrete> {
    cracking.as_ref().ok().map(|cracking| &cracking.grown.ages.in_use)
}

/// The strength at which its worst cut bears being lifted flat out of the form; nothing where the piece comes out
/// another way, or where how it bends was tested and not its strength.
fn strength_to_lift(cracking: &Cracking, job: &Job) -> Option<Pressure> {
    let worst = cracking.net.iter().find(|verdict| verdict.kind == LoadCase::LiftedAtEnds)?;
    let concrete = cracking.grown.ages.stripping;
    concrete.flexural.is_none().then(|| Concrete::strength_to_allow(worst.tension, job.units))
}

fn job_has_pieces(job: &Job) -> Known<()> {
    if job.pieces.is_empty() { Err(read::no_piece(FieldPath::Job(JobField::Name))) } else { Ok(()) }
}

fn headline(job: &Job, pieces: &[Arc<PieceEstimate>], orders: &[Known<Order>]) -> Headline {
    // Every piece has to be poured before the sum over the orders is the whole of it.
    let poured = job_has_pieces(job).and_then(|()| all(pieces.iter().map(|piece| known_ref(&piece.pour).map(drop))));
    let ready = together((poured, all(orders.iter().map(known_ref))));
    let (bags, water) = match &ready {
        Ok((_, orders)) => (Ok(all_bags(orders)), Ok(all_water(orders))),
        Err(waiting) => (Err(waiting.clone()), Err(waiting.clone())),
    };
    let weight = heaviest(pieces);
    let people = known_ref(&weight).map(|weight| carry::crew(weight, job.units));
    Headline { bags, water, weight, people }
}

fn all_bags(orders: &[&Order]) -> Figure<u32> {
    const TITLE: &str = "Bags to order";
    if let [only] = orders {
        return only.bags.retitled(TITLE);
    }
    let counted = |bags| Quantity::Count(bags, "bag", "bags");
    let of_mix = |order: &&Order| {
        let bags = counted(order.bags.value);
        let own =
            order.bags.term_as(bags.clone()).step_as(label!("{}", Name::Bag(order.bag)), bags, Source::Arithmetic);
        own.number()
    };
    let sum = orders.iter().fold(0u32, |sum, order| sum.saturating_add(order.bags.value));
    // A sum past all counting stops at the largest count.
    let largest = |sum: &[f64]| sum.iter().fold(f64::from(u32::MAX), |largest, sum| largest.min(*sum));
    let all = Term::sum(orders.iter().map(of_mix)).by_rule("{}", largest, sum);
    all.titled_as(TITLE, counted(sum), Source::Arithmetic)
}

fn all_water(orders: &[&Order]) -> Figure<Volume> {
    const TITLE: &str = "Mixing water";
    if let [only] = orders {
        return only.water.retitled(TITLE);
    }
    let of_mix = |order: &&Order| {
        let water = Quantity::Water(order.water.value);
        order.water.term_as(water.clone()).step_as(label!("{}", Name::Bag(order.bag)), water, Source::Arithmetic)
    };
    let all = Term::sum(orders.iter().map(of_mix));
    let written = Quantity::Water(all.value);
    all.titled_as(TITLE, written, Source::Arithmetic)
}

fn heaviest(pieces: &[Arc<PieceEstimate>]) -> Known<Figure<Mass>> {
    const TITLE: &str = "Heaviest lift";
    let weights = all(pieces.iter().map(|piece| known_ref(&piece.weights)))?;
    let heaviest = weights
        .iter()
        .enumerate()
        .reduce(|one, other| if other.1.as_cast.value > one.1.as_cast.value { other } else { one });
    let Some((piece, heaviest)) = heaviest else {
        return Err(read::no_piece(FieldPath::Job(JobField::Name)));
    };
    let figure = &heaviest.as_cast;
    if pieces.len() == 1 {
        return Ok(figure.retitled(TITLE));
    }
    let name = |piece| label!("{}", Name::Piece(piece));
    let each = |(piece, weights): (usize, &&Weights)| {
        let mass = weights.as_cast.value;
        Term::named_as(mass, name(piece), Quantity::Mass(mass))
    };
    let parts = [figure.called(name(piece)).into(), Part::list(weights.iter().enumerate().map(each))];
    let largest = |masses: &[f64]| masses.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let rule = Term::rule("{}, the heaviest of {}", parts, largest, figure.value);
    Ok(rule.titled(TITLE, Source::Arithmetic))
}

fn findings(job: &Job, cast: &Cast, inputs: &BuildInputs) -> Vec<Finding> {
    let Cast { pieces, pourings, day, ordered, .. } = cast;
    let mut findings = Vec::new();
    let mut said = HashSet::new();
    for finding in pieces.iter().flat_map(|parts| &parts.findings) {
        // Pieces of one mix on one day have the same weather: what is the same word for word is said once. Its numbers
        // may differ by what nobody reads.
        let Finding { severity, stage, place, says, remedy, source } = finding;
        if said.insert((severity, stage, place, says.write(job), remedy.write(job), source)) {
            findings.push(finding.clone());
        }
    }
    // Whether a pour fits is said of all that is poured at one go.
    let alone = |index: usize| {
        let of = ordered.iter().find(|order| order.pieces.iter().any(|piece| piece.index == index));
        of.is_none_or(|order| order.pieces.len() < 2)
    };
    for (index, parts) in pieces.iter().enumerate().filter(|(index, _)| alone(*index)) {
        if let Ok(plan) = &parts.plan {
            findings.extend(pour::advise(plan, index));
        }
    }
    findings.extend(pourings.iter().flatten().flat_map(|pouring| pouring.advise(job)));
    for order in ordered.iter() {
        findings.extend(mix::advise_mix(&order.mix));
    }
    findings.extend(form::advise_job(&inputs.boards));
    findings.extend(knockout::advise_job(&StackInputs::read(job), job));
    findings.extend(pour::advise_job(day));
    findings
}

fn piece_findings(
    parts: &PieceEstimate,
    inputs: &PieceInputs,
    cast: &Known<Figure<Length>>,
    job: &Job,
    piece: usize,
) -> Vec<Finding> {
    let mut findings = top::advise(&parts.top, &parts.seams, &inputs.top, &inputs.seams);
    findings.extend(form::advise(&parts.top, &parts.form, &inputs.form, job));
    findings.extend(knockout::advise(&parts.knockouts, &parts.top, &inputs.knockouts, job));
    findings.extend(steel::advise(&parts.steel, &parts.top, &inputs.steel, job));
    findings.extend(mix::advise_piece(&inputs.mix));
    if let Ok(pour) = &parts.pour {
        findings.extend(mix::advise_coats(pour, cast, &inputs.mix, job));
    }
    if let Ok(plan) = &parts.plan {
        findings.extend(pour::advise_weather(plan, &parts.drying, &inputs.pour));
    }
    if let (Ok(weights), Ok(crew)) = (&parts.weights, &parts.crew) {
        findings.extend(carry::advise(
            (weights, crew),
            parts.carrying.many.as_ref().map(|many| many.value),
            job,
            piece,
        ));
    }
    let ideal = parts.crew.as_ref().ok().map(|crew| crew.value);
    findings.extend(parts.carrying.advise(ideal, piece));
    if let Ok(cracking) = &parts.cracking {
        findings.extend(check::advise(cracking, piece));
    }
    findings.extend(parts.curl.as_ref().and_then(|curl| curl.advise(in_use(&parts.cracking), job, piece)));
    let needed = parts.cracking.as_ref().ok().and_then(|cracking| {
        // A strength that was typed may be more than the bag tells.
        let has = cracking.grown.ages.stripping.strength;
        strength_to_lift(cracking, job).filter(|needed| *needed > has)
    });
    findings.extend(pour::advise_strip(needed, &inputs.pour));
    findings
}
