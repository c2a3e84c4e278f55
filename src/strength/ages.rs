//! How old and how strong a piece is when it is stripped, carried and used.

use super::ask::Later;
use super::cases::{Age, Ages};
use super::concrete::{Concrete, modulus_of_rupture};
use super::inputs::StrengthInputs;
use super::limits;
use crate::job::{HandlingField, LabelClass};
use crate::label;
use crate::measure::{MassDensity, Pressure, Quantity, Time, Units};
use crate::pour;
use crate::pour::hardening::{Guarantee, Hardening};
use crate::pour::strength::Strengthening;
use crate::working::{Figure, Known, Named, Source, Term, Working, known_ref, together};
use uom::si::time::day;

/// How the mix of a piece hardens in its form, as the pour has it.
#[derive(Clone, Debug, PartialEq)]
pub struct MixInForm {
    /// How it gains strength by the clock.
    pub(crate) hardening: Known<Hardening>,
    /// The age at which it comes out of the form.
    pub(crate) stripped_at: Known<Figure<Time>>,
    /// Compressive strength when it comes out of the form, as typed; what is known of the mix counts where that is blank.
    pub(crate) strength: Known<Option<Pressure>>,
}

/// A piece as it hardens.
#[derive(Clone, Debug, PartialEq)]
pub struct StrengthHistory {
    /// Its concrete at each age.
    pub ages: Ages,
    /// When it comes out of the form.
    pub stripped_at: Time,
    /// When it is carried and set.
    pub carried_at: Time,
    /// How its mix hardens in the form, by the clock.
    pub hardening: Hardening,
    /// The field that decides the strength when it is stripped: the strength where it is typed, else the age.
    pub decided_by: HandlingField,
    /// How its strength was obtained.
    pub working: Working,
}

impl StrengthHistory {
    /// How old it is then.
    pub fn at(&self, age: Age) -> Time {
        match age {
            Age::Stripping => self.stripped_at,
            Age::Handling => self.carried_at,
            // It may be used from the hour it is set.
            Age::InUse => self.carried_at,
        }
    }

    /// Its strength at that age is known, and not only that it is no less than when it was stripped.
    pub fn is_known(&self, age: Age) -> bool {
        // Carried in the hour in which it is stripped, it is as strong as then.
        self.at(age) <= self.stripped_at || self.ages.at(age).strength > self.ages.stripping.strength
    }

    /// How old it is once it has that strength, as far as the mix is known to reach it.
    pub fn age_of(&self, strength: Pressure) -> Option<Time> {
        self.hardening.clock_when(strength)
    }

    /// How strong it is known to get where it is left alone.
    pub(super) fn later(&self) -> Later {
        let at = |clock: Time| self.hardening.strength_at(clock).unwrap_or_default();
        let one_day = Time::new::<day>(1.0);
        Later {
            after_stripping: at(self.stripped_at + one_day),
            after_setting: at(self.carried_at + one_day),
            most: at(limits::longest_wait()),
        }
    }

    /// What its strength rests on where none is typed, and what would say more; nothing where it was typed.
    pub fn rests_on(&self, age: Age) -> Option<&'static str> {
        let told = age == Age::Stripping && self.decided_by == HandlingField::Strength;
        let guarantee = self.hardening.guaranteed_at(self.at(age)).filter(|_| !told)?;
        Some(match guarantee.class {
            LabelClass::Unsaid => {
                "No strength is typed, so the least counts that such bags are sold with. Type those of the label, or \
                 choose the class that it names, on the Pour screen."
            }
            _ => {
                "No strength is typed, so the least counts that the class on the label guarantees. Type those of its \
                 data sheet on the Pour screen."
            }
        })
    }

    /// A remedy, and that typed strengths may be one, where none is typed.
    pub(super) fn also_typed(&self, remedy: String, age: Age) -> String {
        match self.rests_on(age) {
            Some(words) => format!("{remedy} {words}"),
            None => remedy,
        }
    }

    /// A piece of that fresh density as its mix hardens.
    ///
    /// # Errors
    /// What it waits for: times, strengths, and what the weight of the mix waits for.
    pub(super) fn of(
        mix: &Known<MixInForm>,
        fresh: &Known<Figure<MassDensity>>,
        inputs: &StrengthInputs,
    ) -> Known<Self> {
        let mix = known_ref(mix)?;
        let fresh = known_ref(fresh).map(|fresh| fresh.value);
        let (carried_at, hardening, density) = together((inputs.carried_at.clone(), mix.hardening.clone(), fresh))?;
        let stripped = known_ref(&mix.stripped_at)?;
        let (typed, flexural) = together((mix.strength.clone(), inputs.flexural.clone()))?;
        let figure = strength_when_stripped(typed, stripped, &hardening, inputs)?;
        let (strength, stripped_at, units) = (figure.value, stripped.value, inputs.units);
        let carried_at = if carried_at > stripped_at { carried_at } else { stripped_at };
        // A test says how this mix bends: by so much better or worse than the rule, at every age.
        let factor = flexural.map(|tested| tested / modulus_of_rupture(strength, units));
        // Where nothing later is known, what is known stays.
        let later = hardening.strength_at(carried_at).filter(|later| *later > strength).unwrap_or(strength);
        let flexural_later = factor.map(|factor| factor * modulus_of_rupture(later, units));
        let grown = Concrete { strength: later, flexural: flexural_later, density };
        let stripping = Concrete { strength, flexural, density };
        Ok(Self {
            ages: Ages { stripping, handling: grown, in_use: grown },
            stripped_at,
            carried_at,
            hardening,
            decided_by: if typed.is_some() { HandlingField::Strength } else { HandlingField::StrippedAt },
            working: figure.working,
        })
    }
}

/// Its strength as it is stripped: as typed, else by what is known of the mix at that age.
fn strength_when_stripped(
    typed: Option<Pressure>,
    stripped: &Figure<Time>,
    hardening: &Hardening,
    inputs: &StrengthInputs,
) -> Known<Figure<Pressure>> {
    let title = "Strength when it is stripped";
    if let Some(typed) = typed {
        let stated = typed.stated("strength when stripped, as typed", Source::Typed);
        return Ok(stated.after_first(&stripped.working).ended(title));
    }
    let equivalent = hardening.equivalent_age(stripped.value);
    let Some(strength) = hardening.strength_at(stripped.value) else {
        let told = match inputs.units {
            Units::Inch => "3000 psi at 3 hours",
            Units::Metric => "20 MPa at 3 hours",
        };
        let says = label!(
            "type it. The bag or its data sheet says it as compressive strength at an age, such as “{}”. With one \
             at {} or sooner among the strengths of the bag, it follows for every age.",
            told,
            equivalent
        );
        return Err(inputs.waits_at(HandlingField::Strength, says));
    };
    let pace = (equivalent / stripped.value).value;
    let pace = Term::named_as(pace, "mean pace of hardening in the form", Quantity::Number(pace, 2));
    let age = (stripped.called("age when stripped") * pace)
        .valued(equivalent)
        .step(label!("age at {}", hardening.reference), pour::limits::MATURITY);
    let (how, source) = match (hardening.guaranteed_at(stripped.value), &hardening.growth) {
        (Some(Guarantee { class: LabelClass::Unsaid, source, .. }), _) => {
            ("strength when stripped, no strength being typed, the least that bags of its kind are sold with", source)
        }
        (Some(Guarantee { source, .. }), _) => (
            "strength when stripped, no strength being typed, the least that the class on its label guarantees",
            source,
        ),
        (None, Some(Strengthening::Portland { .. })) => {
            ("strength when stripped, by its age, from the strength at 28 days", pour::limits::STRENGTH_IN_TIME)
        }
        (None, _) => ("strength when stripped, between the bag's strengths, by the logarithm of age", Source::Typed),
    };
    Ok(strength.stated(how, source).after_first(&age.ended(title).working).ended(title))
}
