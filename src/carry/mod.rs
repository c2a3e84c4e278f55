//! Weight, and the people it takes; the lift, the way in, and what holds it in its place.

mod inputs;
pub mod lift;
pub mod limits;
mod plan;
pub mod set;
pub mod way;

pub use inputs::{CarryInputs, SetPiece, SettingInputs};
pub use plan::{Carrying, Passage, Setting};

use crate::finding::{Finding, Severity, Stage};
use crate::job::read;
use crate::job::{FieldPath, Job, JobField, PieceField};
use crate::label;
use crate::measure::{COUNT_TOLERANCE, Mass, MassDensity, Quantity, Units, write_count};
use crate::mix::Filling;
use crate::top::Top;
use crate::working::{Figure, Known, Label, Name, Named, Source, Term, about, all, known_ref, together};
use std::borrow::Cow;

/// Who carries a piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Crew {
    /// So many people, one to three.
    Hands(u32),
    /// More than three people should lift by hand: it rides on a cart, three steady it.
    Aid,
}

/// What a piece weighs, at two dates.
#[derive(Clone, Debug, PartialEq)]
pub struct Weights {
    /// As it comes out of the form: cast thickness, fresh density, steel included.
    pub as_cast: Figure<Mass>,
    /// Dry and not ground yet, in the shop: cast thickness, density when dry; nothing where the bag does not tell it.
    pub dried: Option<Figure<Mass>>,
    /// As installed: finished thickness, steel included; at the density when dry where the bag tells
    /// it, else at the fresh density, which errs on the heavy side.
    pub installed: Figure<Mass>,
}

impl Weights {
    /// What a piece weighs, with its steel and the density of its concrete when dry, where the bag tells that. Spare
    /// mix does not matter to it.
    ///
    /// # Errors
    /// What it waits for: geometry, steel, or the bag's mass, water, yield or dry density.
    pub fn of(
        top: &Top,
        filling: &Filling,
        steel: &Known<Figure<Mass>>,
        dry_density: &Known<Option<MassDensity>>,
    ) -> Known<Self> {
        let (net, steel, fresh, dry, area, thickness) = together((
            known_ref(&filling.net),
            known_ref(steel),
            known_ref(&filling.fresh),
            dry_density.clone(),
            known_ref(&top.area),
            top.thickness.clone(),
        ))?;
        let fresh = fresh.called("fresh density");
        let dry = dry.map(|dry| dry.stated("density when dry", Source::Typed));
        let steel = steel.called("steel");
        let as_cast = (net.term() * fresh.clone() + steel.clone())
            .titled("Weight as it comes out of the form", Source::Arithmetic);
        let dried = dry.clone().map(|dry| {
            (net.term() * dry + steel.clone()).titled("Weight once dry, not ground yet", Source::Arithmetic)
        });
        let volume = (area.called("finished area") * thickness.named("finished thickness"))
            .step("finished volume", Source::Arithmetic);
        // Fresh it weighs a little more than dry, so that nobody lifts more than they were told.
        let density = dry.unwrap_or(fresh);
        let installed = (volume * density + steel).titled("Weight as installed", Source::Arithmetic);
        Ok(Self { as_cast, dried, installed })
    }
}

/// What a team of so many may lift: the sum of its members' load constants, times what is left of
/// it when people lift together. `None` for a team that is not advised: none, or more than three.
pub fn team_capacity(people: u32, units: Units) -> Option<Mass> {
    let (_, share) = limits::TEAM_SHARES.iter().find(|(size, _)| *size == people)?;
    Some(limits::load_constant(units) * f64::from(people) * *share)
}

/// The people it takes to carry so much by hand: the smallest team that may lift it.
///
/// ```
/// use pourwright::carry::{Crew, crew};
/// use pourwright::measure::{Units, exact::pounds};
/// use pourwright::working::{Named, Source};
///
/// // 51 lb for one, two thirds of 102 lb for two, half of 153 lb for three.
/// let people = |weight: f64| crew(&pounds(weight).named("weight").titled("Weight", Source::Typed), Units::Inch).value;
/// assert_eq!(people(51.0), Crew::Hands(1));
/// assert_eq!(people(68.0), Crew::Hands(2));
/// assert_eq!(people(76.5), Crew::Hands(3));
/// assert_eq!(people(77.0), Crew::Aid);
/// ```
pub fn crew(weight: &Figure<Mass>, units: Units) -> Figure<Crew> {
    let lifted = weight.value.stated("weight as it comes out of the form", Source::Arithmetic);
    let load = limits::load_constant(units).stated("load constant of one person in an ideal lift", limits::LIFTING);
    let team = Team::smallest(weight.value, lifted.with_lines_of(&load), |people, share| {
        let members = Quantity::Count(people, "person", "people");
        let capacity = load.clone() * f64::from(people).named("people") * share.named("team share");
        capacity.step(Label::with("most that {} may lift", [members]), limits::LIFTING)
    });
    let words = Quantity::Words(Cow::Owned(team.crew.words()));
    team.figure("People to carry it", words, "not covered by these figures", limits::LIFTING)
}

/// A team, as it was found for a weight.
struct Team {
    /// The team, or that none of three lifts it.
    crew: Crew,
    /// What this team may lift, or the largest of all.
    most: Term<Mass>,
    /// The weight, with the lines of what every team up to this one may lift.
    lifted: Term<Mass>,
}

impl Team {
    /// The smallest team that may lift a weight, by what so many people with that team share may lift.
    fn smallest(weight: Mass, mut lifted: Term<Mass>, capacity: impl Fn(u32, f64) -> Term<Mass>) -> Self {
        let mut most = Mass::default().named("nothing");
        for (people, share) in limits::TEAM_SHARES {
            most = capacity(people, share);
            lifted = lifted.with_lines_of(&most);
            if weight <= most.value * (1.0 + COUNT_TOLERANCE) {
                return Self { crew: Crew::Hands(people), most, lifted };
            }
        }
        Self { crew: Crew::Aid, most, lifted }
    }

    /// The team as a figure, in those words, with a line on what the figures say nothing of.
    fn figure(self, title: &'static str, words: Quantity, walking: &'static str, not_covered: Source) -> Figure<Crew> {
        fn fits(parts: &[f64]) -> bool {
            parts[0] <= parts[1] * (1.0 + COUNT_TOLERANCE)
        }
        let walking = Quantity::Words(Cow::Borrowed(walking));
        let walking = Term::stated_as((), "walking with it and stairs", walking, not_covered);
        let lifted = self.lifted.with_lines_of(&walking);
        let may = match self.crew {
            Crew::Hands(_) => lifted.with_rule(self.most, "{} is no more than {}", |parts| f64::from(fits(parts)), ()),
            Crew::Aid => lifted.with_rule(self.most, "{} is more than {}", |parts| f64::from(!fits(parts)), ()),
        };
        may.concluded(self.crew, title, words, limits::LIFTING)
    }
}

impl Crew {
    /// The crew in words.
    pub fn words(self) -> String {
        match self {
            Self::Hands(people) => write_count(people, "person", "people"),
            Self::Aid => "3 people and a cart".to_owned(),
        }
    }
}

/// The people who carry and set a job, all of whose time is paid: as many as its heaviest piece takes by an ideal lift, or
/// by the lift as chosen where that is one for hands. Beyond three a cart carries it and three steady it.
///
/// # Errors
/// What the weight of a piece waits for, or that there is none.
pub fn people_to_set(pieces: &[(&Known<Figure<Crew>>, &Carrying)]) -> Known<u32> {
    let crews = all(pieces.iter().map(|(crew, _)| known_ref(crew)))?;
    let lifts = pieces.iter().filter_map(|(_, carrying)| carrying.handling.as_ref().ok().map(|lift| &lift.crew));
    let hands = crews.into_iter().chain(lifts).map(|crew| match crew.value {
        Crew::Hands(people) => people,
        Crew::Aid => limits::TEAM_SHARES.len() as u32,
    });
    hands.max().ok_or_else(|| read::no_piece(FieldPath::Job(JobField::Name)))
}

/// What carrying it without a cart takes, in a sentence.
fn many_words(many: Option<u32>) -> Label {
    match many {
        Some(people) => label!("Without a cart it takes {} people along its edges for the lift as chosen.", people),
        None => "Along its edges there is no place for as many people as it takes without a cart.".into(),
    }
}

/// The findings about carrying the piece with that index; `many` are the people who lift it where three are too few.
pub(crate) fn advise(
    (weights, crew): (&Weights, &Figure<Crew>),
    many: Option<u32>,
    job: &Job,
    piece: usize,
) -> Vec<Finding> {
    let most = limits::TEAM_SHARES.iter().filter_map(|(people, _)| team_capacity(*people, job.units));
    let most = most.fold(Mass::default(), |most, capacity| if capacity > most { capacity } else { most });
    match crew.value {
        Crew::Hands(_) => Vec::new(),
        Crew::Aid => vec![Finding {
            severity: Severity::Watch,
            stage: Stage::Finish,
            place: FieldPath::Piece(piece, PieceField::Thickness),
            says: label!(
                "{}It weighs {} out of the form; over {} three people should not lift it by hand.",
                Name::PieceInFront(piece),
                about(weights.as_cast.value),
                about(most)
            ),
            remedy: label!(
                "Stand it on its long edge on a cart, never flat, and let people only steady it; or split the piece. {}",
                many_words(many)
            ),
            source: limits::LIFTING,
        }],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::exact::{in_pounds, inches, pounds, pounds_a_cubic_foot};
    use crate::measure::{Area, Length};
    use crate::mix::demo;
    use crate::working::Waiting;

    /// One cubic foot in the form, at 140 lb/ft³ fresh, and half of that as a finished piece.
    fn a_cubic_foot() -> (Top, Filling) {
        let foot: Length = inches(12.0);
        let area: Area = foot * foot;
        let area = area.named("area").titled("Finished area", Source::Typed);
        let net = (area.term() * foot.named("thickness")).titled("Concrete in the form", Source::Typed);
        let fresh = pounds_a_cubic_foot(140.0).named("density").titled("Fresh density", Source::Typed);
        let top = Top { area: Ok(area), thickness: Ok(inches(6.0)), ..Top::of(&demo("a"), 0) };
        (top, Filling { net: Ok(net), fresh: Ok(fresh) })
    }

    fn steel() -> Known<Figure<Mass>> {
        Ok(pounds(2.0).named("bar").titled("Steel", Source::Typed))
    }

    #[test]
    fn a_piece_weighs_its_concrete_and_its_steel() {
        let (top, filling) = a_cubic_foot();
        let close = |weight: &Figure<Mass>, wanted: f64| {
            let found = in_pounds(weight.value);
            assert!((found - wanted).abs() < 1e-9, "{found} lb, not {wanted} lb");
        };
        let fresh = Weights::of(&top, &filling, &steel(), &Ok(None)).expect("all of it is known");
        close(&fresh.as_cast, 142.0);
        close(&fresh.installed, 72.0);
        assert_eq!(fresh.dried, None);
        let dry = Weights::of(&top, &filling, &steel(), &Ok(Some(pounds_a_cubic_foot(130.0)))).expect("known");
        close(&dry.as_cast, 142.0);
        close(dry.dried.as_ref().expect("the bag tells it"), 132.0);
        close(&dry.installed, 67.0);
    }

    #[test]
    fn a_weight_waits_for_all_that_is_missing() {
        let (top, filling) = a_cubic_foot();
        let missing = |says: &'static str| Waiting::at(FieldPath::Job(JobField::Name), says);
        let waiting = Weights::of(&top, &filling, &Err(missing("steel")), &Err(missing("dry density"))).unwrap_err();
        let said: Vec<_> = waiting.needs().iter().map(|need| need.says.text()).collect();
        assert_eq!(said, ["steel", "dry density"]);
    }
}
