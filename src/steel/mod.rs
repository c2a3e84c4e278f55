//! What lies in a piece: panels of lath, bars along the rails beside cutouts, and their mass.
//!
//! Plane coordinates are `f64` metres, the piece seen from above as installed; seen in the form they are
//! mirrored. Heights are over the face as cast, which lies on the base of the form.

mod advice;
mod bars;
mod inputs;
mod inset;
mod lath;
pub mod limits;
mod rails;
mod region;

pub(crate) use advice::advise;
pub use bars::{Bar, Bars, NoRoom};
pub use inputs::SteelInputs;
pub use lath::{LathPlan, Panel, PanelCut};
pub use rails::{BarRail, Lies};

use crate::job::{BarSize, Lath};
use crate::measure::{Length, Mass};
use crate::plane::{Opening, Outline};
use crate::top::{RailEnd, Top};
use crate::working::{Figure, Known, Named, Source, Term, all, together};

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
    /// The steel of a piece of that cast thickness, of which that much is ground off its face.
    ///
    /// # Errors
    /// What it waits for, where lath or bars are chosen: outline, cutouts, holes, thickness, grinding, and the
    /// sizes of the steel; edges that leave nothing inside.
    pub fn of(top: &Top, cast: &Known<Figure<Length>>, grinding: &Known<Length>, inputs: &SteelInputs) -> Known<Self> {
        let SteelInputs { lath, bars: bar, .. } = *inputs;
        if lath == Lath::None && bar == BarSize::None {
            return Ok(Self::nothing());
        }
        let (chosen, depth) = together((Chosen::of(top, inputs), Depth::of(cast, grinding, inputs)))?;
        let plan = (lath != Lath::None).then(|| LathPlan::of(&chosen, inputs)).transpose()?;
        let bars = (bar != BarSize::None).then(|| Bars::of(top, &chosen, inputs.units));
        // Where no rail asks for a bar there is none to lie in the lath's way.
        let laid = bars.as_ref().is_some_and(|bars| !bars.bars.is_empty());
        let order = depth.order(plan.is_some(), laid);
        let lath_layer = plan.is_some().then(|| depth.lath_layer(order));
        let bar_layer = laid.then(|| depth.bar_layer());
        let mass = mass(plan.as_ref(), bars.as_ref());
        Ok(Self { lath: plan, lath_layer, bars, bar_layer, order, mass })
    }

    fn nothing() -> Self {
        let mass = mass(None, None);
        Self { lath: None, lath_layer: None, bars: None, bar_layer: None, order: Order::Nothing, mass }
    }
}

impl SteelInputs {
    /// The mass of the steel in the piece: as weighed where that is typed, else of its lath and bars.
    ///
    /// # Errors
    /// What it waits for: a mass that cannot be read, or what the steel waits for.
    pub fn mass(&self, steel: impl FnOnce() -> Known<Steel>) -> Known<Figure<Mass>> {
        match self.weighed.clone()? {
            Some(mass) => Ok(mass.stated("steel, as weighed", Source::Typed).ended("Steel in it")),
            None => steel().map(|steel| steel.mass),
        }
    }
}

fn mass(lath: Option<&LathPlan>, bars: Option<&Bars>) -> Figure<Mass> {
    const TITLE: &str = "Steel in it";
    match (lath, bars) {
        (None, None) => {
            let nothing: Mass = std::iter::empty::<Mass>().sum();
            nothing.stated("no lath and no bars", Source::Typed).ended(TITLE)
        }
        (Some(lath), None) => lath.mass.term().ended(TITLE),
        (None, Some(bars)) => bars.mass.term().ended(TITLE),
        (Some(lath), Some(bars)) => {
            (lath.mass.called("lath") + bars.mass.called("bars")).titled(TITLE, Source::Arithmetic)
        }
    }
}

impl Chosen {
    fn of(top: &Top, inputs: &SteelInputs) -> Known<Self> {
        let SteelInputs { lath, bars: bar, .. } = *inputs;
        let rails_to = if bar == BarSize::None { Ok(None) } else { inputs.rails_to.clone() };
        let (cutouts, holes) = (all(top.cutouts.iter().cloned()), all(top.holes.iter().cloned()));
        let (off, rails_to, outline, cutouts, holes) =
            together((inputs.off_edges.clone(), rails_to, top.outline.clone(), cutouts, holes))?;
        let cutouts = cutouts.into_iter().enumerate().map(|(index, cutout)| (RailEnd::Cutout(index), cutout));
        let holes = holes.into_iter().enumerate().flat_map(|(set, holes)| {
            holes.into_iter().enumerate().map(move |(index, hole)| (RailEnd::Hole(set, index), hole))
        });
        Ok(Self { lath, bar, off, rails_to, outline, openings: cutouts.chain(holes).collect() })
    }
}

impl Depth {
    fn of(cast: &Known<Figure<Length>>, grinding: &Known<Length>, inputs: &SteelInputs) -> Known<Self> {
        let bar_height = if inputs.bars == BarSize::None { Ok(None) } else { inputs.bar_height.clone() };
        let (cast, grinding, bar_height) = together((cast.clone(), grinding.clone(), bar_height))?;
        let radius = limits::bar_diameter(inputs.bars, inputs.units) / 2.0;
        Ok(Self { cast, grinding, radius, bar_height })
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

    fn bar_layer(&self) -> Layer {
        const TITLE: &str = "Height of the bars over the face";
        let height = match self.bar_height {
            Some(height) => height.stated("centre of the bars", Source::Typed).ended(TITLE),
            None => self.half().titled(TITLE, Source::Practice),
        };
        Layer {
            face_cover: height.value - self.radius - self.grinding,
            back_cover: self.cast.value - height.value - self.radius,
            height,
        }
    }

    fn lath_layer(&self, order: Order) -> Layer {
        let on_bars = self.bar_height() + self.radius;
        let height = if order == Order::BarsThenLath && on_bars > self.middle() {
            let centre = match self.bar_height {
                Some(height) => height.stated("centre of the bars", Source::Typed),
                None => self.half().step("centre of the bars", Source::Practice),
            };
            let on_them = centre + self.radius.named("half a diameter");
            on_them.by_rule("{}, since it lies on the bars", |x| x[0], on_bars)
        } else {
            self.half()
        };
        let height = height.titled("Height of the lath over the face", Source::Practice);
        Layer { face_cover: height.value - self.grinding, back_cover: self.cast.value - height.value, height }
    }

    /// Mid-depth in a formula.
    fn half(&self) -> Term<Length> {
        (self.cast.term() / 2.0).by_rule("mid-depth: {}", |x| x[0], self.middle())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{FieldPath, Job, SteelField};
    use crate::measure::Units;
    use crate::measure::exact::{inches, pounds};
    use crate::working::Waiting;

    /// Steel that was weighed needs no lath and no bars.
    #[test]
    fn what_was_weighed_stands() {
        let mut inputs = SteelInputs::read(&Job::new("a", Units::Inch), 0);
        let waits = || Err(Waiting::at(FieldPath::Steel(0, SteelField::Lap), "no lap"));
        assert!(inputs.mass(waits).is_err());
        inputs.weighed = Ok(Some(pounds(4.0)));
        let mass = inputs.mass(waits).expect("it was weighed");
        assert_eq!(mass.value, pounds(4.0));
        assert_eq!(mass.working.lines(Units::Inch).len(), 1);
    }

    /// By hand: bars of 1/2 in at mid-depth of 2 in have 3/4 in before them, less 1/16 in ground off, and 3/4 in
    /// behind; lath tied to their back lies at 1 1/4 in.
    #[test]
    fn covers_of_bars_and_lath() {
        let cast = inches(2.0).named("finished thickness").titled("Cast thickness", Source::Arithmetic);
        let depth = Depth { cast, grinding: inches(0.0625), radius: inches(0.25), bar_height: None };
        let bars = depth.bar_layer();
        let close = |one: Length, inch: f64| (one - inches(inch)).abs().value < 1e-12;
        assert!(close(bars.height.value, 1.0) && close(bars.face_cover, 0.6875) && close(bars.back_cover, 0.75));
        let lath = depth.lath_layer(Order::BarsThenLath);
        assert!(close(lath.height.value, 1.25) && close(lath.back_cover, 0.75));
        assert_eq!(lath.height.working.result(Units::Inch), "1 1/4 in");
        assert_eq!(depth.order(true, true), Order::BarsThenLath);
    }
}
