//! What lies in a piece: panels of lath, bars along the rails beside cutouts, and their mass.
//!
//! Plane coordinates are `f64` metres, the piece seen from above as installed; seen in the form they are
//! mirrored. Heights are over the face as cast, which lies on the base of the form.

mod advice;
mod bars;
mod inset;
mod lath;
pub mod limits;
mod rails;
mod region;

pub(crate) use advice::advise;
pub use bars::{Bar, Bars, NoRoom};
pub use lath::{LathPlan, Panel, PanelCut};
pub use rails::{BarRail, Lies};

use crate::form;
use crate::job::read::{self, all, both};
use crate::job::{BarSize, FieldPath, Job, Lath, PieceField, SteelField};
use crate::measure::{Length, Mass, write_length, write_mass};
use crate::plane::{Opening, Outline};
use crate::top::{RailEnd, Top};
use crate::working::{Figure, Known, Source, Working};

/// In which order steel is laid into the form, which decides what lies nearer to the face.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Order {
    /// There is none.
    Nothing,
    /// Lath alone.
    Lath,
    /// Bars alone.
    Bars,
    /// The bars, then the lath on their back.
    BarsThenLath,
    /// The lath, then the bars on its back.
    LathThenBars,
}

impl Order {
    /// What to do, in a sentence.
    pub fn words(self) -> &'static str {
        match self {
            Self::Nothing => "No steel.",
            Self::Lath => "Fill to half depth, lay the lath, fill up.",
            Self::Bars => "Fill to just under the bars, lay them, fill up.",
            Self::BarsThenLath => "Fill to just under the bars, lay them, tie the lath on top of them, fill up.",
            Self::LathThenBars => "Fill to half depth, lay the lath, tie the bars on top of it, fill up.",
        }
    }
}

/// How much concrete lies before and behind steel.
#[derive(Clone, Debug, PartialEq)]
pub struct Layer {
    /// Its centre over the face as cast.
    pub height: Figure<Length>,
    /// Concrete between it and the finished face, once that is ground.
    pub face_cover: Length,
    /// Concrete behind it.
    pub back_cover: Length,
}

/// The steel in one piece.
#[derive(Clone, Debug, PartialEq)]
pub struct Steel {
    /// The lath; nothing where none is chosen.
    pub lath: Option<LathPlan>,
    /// Where the lath lies; its own thickness is left out.
    pub lath_layer: Option<Layer>,
    /// The bars; nothing where none are chosen.
    pub bars: Option<Bars>,
    /// Where the bars lie.
    pub bar_layer: Option<Layer>,
    /// In which order they are laid.
    pub order: Order,
    /// Mass of lath and bars together, as worked out.
    pub mass: Figure<Mass>,
}

/// What was chosen, read, with the geometry that steel lies in.
struct Chosen {
    lath: Lath,
    bar: BarSize,
    off: Length,
    rails_to: Option<Length>,
    outline: Outline,
    openings: Vec<(RailEnd, Opening)>,
}

/// What decides the heights.
struct Depth {
    cast: Figure<Length>,
    grinding: Length,
    /// Half the bars' diameter; nothing without bars.
    radius: Length,
    /// As typed.
    bar_height: Option<Length>,
}

impl Steel {
    /// The steel of the piece with that index.
    ///
    /// # Errors
    /// What it waits for, where lath or bars are chosen: outline, cutouts, holes, thickness, grinding, and the
    /// sizes of the steel; edges that leave nothing inside.
    pub fn of(top: &Top, job: &Job, piece: usize) -> Known<Self> {
        let typed = job.pieces.get(piece).map(|piece| &piece.reinforcement);
        let (lath, bar) = typed.map_or((Lath::None, BarSize::None), |steel| (steel.lath, steel.bars));
        if lath == Lath::None && bar == BarSize::None {
            return Ok(Self::nothing(job));
        }
        let chosen = Chosen::of(top, lath, bar, job, piece);
        let depth = Depth::of(top, bar, job, piece);
        let (chosen, depth) = both(chosen, depth)?;
        let plan = (lath != Lath::None).then(|| LathPlan::of(&chosen, job, piece)).transpose()?;
        let bars = (bar != BarSize::None).then(|| Bars::of(top, &chosen, job));
        // Where no rail asks for a bar there is none to lie in the lath's way.
        let laid = bars.as_ref().is_some_and(|bars| !bars.bars.is_empty());
        let order = depth.order(plan.is_some(), laid);
        let lath_layer = plan.is_some().then(|| depth.lath_layer(order, job));
        let bar_layer = laid.then(|| depth.bar_layer(job));
        let mass = mass(plan.as_ref(), bars.as_ref(), job);
        Ok(Self { lath: plan, lath_layer, bars, bar_layer, order, mass })
    }

    fn nothing(job: &Job) -> Self {
        let mass = mass(None, None, job);
        Self { lath: None, lath_layer: None, bars: None, bar_layer: None, order: Order::Nothing, mass }
    }
}

/// The mass of the steel in the piece with that index: as weighed where that is typed, else of its lath and bars.
///
/// # Errors
/// What it waits for: a mass that cannot be read, or what [`Steel::of`] waits for.
pub fn mass_of(top: &Top, job: &Job, piece: usize) -> Known<Figure<Mass>> {
    match read::optional(job, FieldPath::Piece(piece, PieceField::Steel), read::mass)? {
        Some(mass) => Ok(Working::new("Steel in it")
            .line("steel, as weighed", "", write_mass(mass, job.units), Source::Typed)
            .of(mass)),
        None => Steel::of(top, job, piece).map(|steel| steel.mass),
    }
}

fn mass(lath: Option<&LathPlan>, bars: Option<&Bars>, job: &Job) -> Figure<Mass> {
    let parts: Vec<&Figure<Mass>> =
        lath.map(|lath| &lath.mass).into_iter().chain(bars.map(|bars| &bars.mass)).collect();
    let mass: Mass = parts.iter().map(|part| part.value).sum();
    let write = |mass| write_mass(mass, job.units);
    let working = parts.iter().fold(Working::new("Steel in it"), |working, part| working.after(&part.working));
    let working = match parts.as_slice() {
        [] => working.line("no lath and no bars", "", write(mass), Source::Typed),
        [_] => working,
        parts => {
            let numbers: Vec<_> = parts.iter().map(|part| write(part.value).to_string()).collect();
            working.line("lath + bars", numbers.join(" + "), write(mass), Source::Arithmetic)
        }
    };
    working.of(mass)
}

impl Chosen {
    fn of(top: &Top, lath: Lath, bar: BarSize, job: &Job, piece: usize) -> Known<Self> {
        let off = read::length(job, FieldPath::Steel(piece, SteelField::OffEdges));
        let rails_to = match bar {
            BarSize::None => Ok(None),
            _ => read::optional(job, FieldPath::Steel(piece, SteelField::RailsTo), read::length),
        };
        let openings = both(all(top.cutouts.iter().cloned()), all(top.holes.iter().cloned()));
        let ((off, rails_to), (outline, (cutouts, holes))) =
            both(both(off, rails_to), both(top.outline.clone(), openings))?;
        let cutouts = cutouts.into_iter().enumerate().map(|(index, cutout)| (RailEnd::Cutout(index), cutout));
        let holes = holes.into_iter().enumerate().flat_map(|(set, holes)| {
            holes.into_iter().enumerate().map(move |(index, hole)| (RailEnd::Hole(set, index), hole))
        });
        Ok(Self { lath, bar, off, rails_to, outline, openings: cutouts.chain(holes).collect() })
    }
}

impl Depth {
    fn of(top: &Top, bar: BarSize, job: &Job, piece: usize) -> Known<Self> {
        let grinding = read::optional(job, FieldPath::Piece(piece, PieceField::Grinding), read::length);
        let bar_height = match bar {
            BarSize::None => Ok(None),
            _ => read::optional(job, FieldPath::Steel(piece, SteelField::BarHeight), read::length),
        };
        let (cast, (grinding, bar_height)) = both(form::cast_thickness(top, job, piece), both(grinding, bar_height))?;
        let radius = crate::steel::limits::bar_diameter(bar, job.units) / 2.0;
        Ok(Self { cast, grinding: grinding.unwrap_or_default(), radius, bar_height })
    }

    fn middle(&self) -> Length {
        self.cast.value / 2.0
    }

    fn bar_height(&self) -> Length {
        self.bar_height.unwrap_or_else(|| self.middle())
    }

    /// Lath lies at mid-depth, bars on it where they are that much higher; else it lies on them.
    fn order(&self, lath: bool, bars: bool) -> Order {
        let clear = self.bar_height() - self.radius >= self.middle() - crate::measure::geometry_tolerance();
        match (lath, bars) {
            (false, false) => Order::Nothing,
            (true, false) => Order::Lath,
            (false, true) => Order::Bars,
            (true, true) if clear => Order::LathThenBars,
            (true, true) => Order::BarsThenLath,
        }
    }

    fn bar_layer(&self, job: &Job) -> Layer {
        let height = self.bar_height();
        let working = Working::new("Height of the bars over the face");
        let write = |length| write_length(length, job.units);
        let working = match self.bar_height {
            Some(_) => working.line("centre of the bars", "", write(height), Source::Typed),
            None => self.half(working, job),
        };
        Layer {
            height: working.of(height),
            face_cover: height - self.radius - self.grinding,
            back_cover: self.cast.value - height - self.radius,
        }
    }

    fn lath_layer(&self, order: Order, job: &Job) -> Layer {
        let working = self.half(Working::new("Height of the lath over the face"), job);
        let on_bars = self.bar_height() + self.radius;
        let (height, working) = if order == Order::BarsThenLath && on_bars > self.middle() {
            let write = |length| write_length(length, job.units);
            let numbers = format!("{} + {}", write(self.bar_height()), write(self.radius));
            (
                on_bars,
                working.line(
                    "it lies on the bars: their centre + half a diameter",
                    numbers,
                    write(on_bars),
                    Source::Practice,
                ),
            )
        } else {
            (self.middle(), working)
        };
        Layer { height: working.of(height), face_cover: height - self.grinding, back_cover: self.cast.value - height }
    }

    fn half(&self, working: Working, job: &Job) -> Working {
        let write = |length| write_length(length, job.units);
        working.after(&self.cast.working).line(
            "mid-depth: cast thickness ÷ 2",
            format!("{} ÷ 2", write(self.cast.value)),
            write(self.middle()),
            Source::Practice,
        )
    }
}
