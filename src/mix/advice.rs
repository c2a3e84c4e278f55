//! What is worth knowing about the spare mix, the figures of a bag, and the doses of its additives.

use super::inputs::{BagInputs, MixInputs, PieceInputs, RecipeInputs, Supplied};
use super::proportion::Proportions;
use super::scratch::{by_volume, density_at};
use super::{Coats, Pour, bag_of, fresh_density, part_name, share_of};
use crate::finding::{Finding, Severity, Stage};
use crate::job::{AdditiveField, BagField, FieldPath, Job, PieceField, RecipeField, RecipeKind};
use crate::label;
use crate::measure::{Dose, Length, Quantity};
use crate::mix::limits;
use crate::working::{Figure, Known, Label, Name, Source, Word, about};

/// Findings about the spare mix of a piece.
pub(crate) fn advise_piece(inputs: &PieceInputs) -> Vec<Finding> {
    let place = FieldPath::Piece(inputs.index, PieceField::Spare);
    let Ok(spare) = inputs.spare else { return Vec::new() };
    let (severity, limit, remedy) = if spare < limits::SPARE_LEAST - crate::measure::COUNT_TOLERANCE {
        let remedy = "Order about 10 %: a bag too few with the mix going off costs the whole top.";
        (
            Severity::Watch,
            label!("under {} a slip leaves the form short", Quantity::Percent(limits::SPARE_LEAST)),
            remedy,
        )
    } else if spare > limits::SPARE_MOST + crate::measure::COUNT_TOLERANCE {
        let remedy = "About 10 % is usual.";
        (Severity::Note, label!("over {} most of it is thrown away", Quantity::Percent(limits::SPARE_MOST)), remedy)
    } else {
        return Vec::new();
    };
    vec![Finding {
        severity,
        stage: Stage::Pour,
        place,
        says: label!("{}Spare mix is {}; {}.", Name::PieceInFront(inputs.index), Quantity::Percent(spare), limit),
        remedy: remedy.into(),
        source: Source::Practice,
    }]
}

/// Findings about the figures of a mix.
pub(crate) fn advise_mix(mix: &MixInputs) -> Vec<Finding> {
    let mut findings = Vec::from_iter(density_finding(mix));
    match &mix.supplied {
        Supplied::Bags(bag) => {
            findings.extend(advise_water(mix, bag));
            findings.extend(advise_additives(mix));
        }
        Supplied::Scratch(recipe) if recipe.kind == RecipeKind::Concrete => {
            if let Ok(made) = by_volume(mix, recipe) {
                findings.extend(cement_finding(mix, &made));
                findings.extend(paste_finding(mix, &made));
            }
        }
        Supplied::Scratch(_) => {}
    }
    findings
}

/// A mix that is lighter or heavier than a fresh one can be.
fn density_finding(mix: &MixInputs) -> Option<Finding> {
    let density = fresh_density(mix).ok()?.value;
    let (least, most) = (limits::fresh_density_least(), limits::fresh_density_most());
    if !(density < least || density > most) {
        return None;
    }
    let (place, made_of, remedy) = match mix.recipe() {
        Some(recipe) => (
            density_at(mix.index, recipe.kind),
            "its parts",
            "One of the figures is a typing error: check the specific gravities and the stone.",
        ),
        None => (
            FieldPath::Bag(mix.index, BagField::Yield),
            "bag, water and yield",
            "One of the three is a typing error: check them against the label.",
        ),
    };
    Some(Finding {
        severity: Severity::Stop,
        stage: Stage::Pour,
        place,
        says: label!(
            "{}: {} together make {}; fresh mixes lie between {} and {}.",
            Name::Bag(mix.index),
            made_of,
            about(density),
            about(least),
            about(most)
        ),
        remedy: remedy.into(),
        source: Source::Practice,
    })
}

/// Water of a bag that its label does not allow.
fn advise_water(mix: &MixInputs, bag: &BagInputs) -> Vec<Finding> {
    let name = Name::Bag(mix.index);
    let mut findings = Vec::new();
    let mut add = |severity, field, says: Label, remedy: Label| {
        let place = FieldPath::Bag(mix.index, field);
        findings.push(Finding { severity, stage: Stage::Pour, place, says, remedy, source: Source::Typed });
    };
    let limit = |limit: &Known<_>| limit.as_ref().ok().copied().flatten();
    let (least, most) = (limit(&bag.water_least), limit(&bag.water_most));
    if let (Some(least), Some(most)) = (least, most)
        && least > most
    {
        let says = label!(
            "{}: the least water, {}, is more than the most, {}.",
            name,
            Word::About(Quantity::Water(least)),
            Word::About(Quantity::Water(most))
        );
        let remedy = "Check both against the label.".into();
        add(Severity::Watch, BagField::WaterLeast, says, remedy);
    }
    if let Ok(water) = bag.water {
        let noise = 1.0 + crate::measure::COUNT_TOLERANCE;
        if let Some(most) = most.filter(|most| water > *most * noise) {
            let says = label!(
                "{}: {} of water a bag is over the label's {} at most; it costs strength and shrinks.",
                name,
                Word::About(Quantity::Water(water)),
                Word::About(Quantity::Water(most))
            );
            let remedy = label!("Use no more than {}; a flow aid makes it run.", Word::About(Quantity::Water(most)));
            add(Severity::Stop, BagField::Water, says, remedy);
        }
        if let Some(least) = least.filter(|least| water * noise < *least) {
            let says = label!(
                "{}: {} of water a bag is under the label's {} at least; it will not flow or cure as it should.",
                name,
                Word::About(Quantity::Water(water)),
                Word::About(Quantity::Water(least))
            );
            let remedy = label!("Use at least {}.", Word::About(Quantity::Water(least)));
            add(Severity::Watch, BagField::Water, says, remedy);
        }
    }
    findings
}

/// Concrete with more cement in it than is usual; `made` is a cubic yard or metre of it.
fn cement_finding(mix: &MixInputs, made: &Proportions) -> Option<Finding> {
    let (cement, most) = (made.cement / made.volume, limits::cement_most());
    if cement <= most * (1.0 + crate::measure::COUNT_TOLERANCE) {
        return None;
    }
    Some(Finding {
        severity: Severity::Watch,
        stage: Stage::Pour,
        place: FieldPath::Recipe(mix.index, RecipeField::Strength),
        says: label!(
            "{}: {} of cement in the concrete; over {} it runs hot, shrinks and cracks.",
            Name::Bag(mix.index),
            about(cement),
            about(most)
        ),
        remedy: "Ask for less strength or slump, or use larger stone: each takes less water, and cement with it."
            .into(),
        source: Source::Practice,
    })
}

/// Concrete with more paste in it than is usual; `made` is a cubic yard or metre of it.
fn paste_finding(mix: &MixInputs, made: &Proportions) -> Option<Finding> {
    let paste = made.paste_share().value;
    if paste <= limits::PASTE_MOST * (1.0 + crate::measure::COUNT_TOLERANCE) {
        return None;
    }
    Some(Finding {
        severity: Severity::Watch,
        stage: Stage::Pour,
        place: FieldPath::Recipe(mix.index, RecipeField::Slump),
        says: label!(
            "{}: cement and water are {} of the concrete; over {} it shrinks and curls.",
            Name::Bag(mix.index),
            Quantity::Percent(paste),
            Quantity::Percent(limits::PASTE_MOST)
        ),
        remedy: "Use larger stone, less slump, or a plasticiser: each takes less water, and cement with it.".into(),
        source: Source::Practice,
    })
}

/// Findings about what is weighed out for a piece that is cast so thick.
pub(crate) fn advise_coats(pour: &Pour, cast: &Known<Figure<Length>>, inputs: &PieceInputs, job: &Job) -> Vec<Finding> {
    let (Some(coats), Ok(mix)) = (&pour.coats, &inputs.mix) else { return Vec::new() };
    let mut findings = Vec::new();
    // Batches of several pieces are mixed and weighed for all of them.
    let of_mix = |piece: &usize| bag_of(job, *piece).is_ok_and(|(bag, _)| bag == pour.bag);
    if (0..job.pieces.len()).filter(of_mix).count() < 2 {
        findings.extend(advise_scale(coats, job, pour.bag, Name::PieceInFront(inputs.index)));
    }
    let cast = cast.as_ref().ok().map(|cast| cast.value);
    if let (Some(recipe), Some(cast)) = (mix.recipe(), cast) {
        findings.extend(stone_finding(mix, recipe, cast, Name::PieceInFront(inputs.index)));
    }
    findings
}

/// Batches that the scale does not weigh finely enough, whose sentence begins with what is mixed.
pub(crate) fn advise_scale(coats: &Coats, job: &Job, bag: usize, prefix: impl Into<Word>) -> Option<Finding> {
    let prefix = prefix.into();
    let off = coats.coats.iter().find(|coat| !coat.weighed.fills);
    let coarse = coats.coats.iter().find_map(|coat| coat.weighed.too_coarse.first());
    let says = match (off, coarse) {
        (Some(coat), _) => label!(
            "{}Weighed in steps of this scale, a batch is off by {}; over {} the form is left short or running over.",
            prefix,
            Quantity::Percent(coat.weighed.off.abs()),
            Quantity::Percent(limits::WEIGHING_VOLUME)
        ),
        (None, Some(role)) => label!(
            "{}{}: rounded to a step of this scale, a batch is off by more than {} of it.",
            prefix,
            part_name(job, bag, *role),
            Quantity::Percent(limits::WEIGHING_PART)
        ),
        (None, None) => return None,
    };
    Some(Finding {
        severity: Severity::Watch,
        stage: Stage::Pour,
        place: FieldPath::Recipe(bag, RecipeField::Scale),
        says,
        remedy: "Weigh it on a finer scale, or mix larger batches.".into(),
        source: Source::Practice,
    })
}

/// Stone that is too large for a piece that is cast so thick.
fn stone_finding(mix: &MixInputs, recipe: &RecipeInputs, cast: Length, prefix: Name) -> Option<Finding> {
    let stone = recipe.stone_size.as_ref().ok().copied().filter(|_| recipe.kind == RecipeKind::Concrete)?;
    if stone <= cast * limits::STONE_TO_THICKNESS * (1.0 + crate::measure::COUNT_TOLERANCE) {
        return None;
    }
    Some(Finding {
        severity: Severity::Watch,
        stage: Stage::Pour,
        place: FieldPath::Recipe(mix.index, RecipeField::StoneSize),
        says: label!(
            "{}Stone of {} in a top of {}; over a third of the thickness it bridges and leaves voids.",
            prefix,
            about(stone),
            about(cast)
        ),
        remedy: "Use smaller stone.".into(),
        source: limits::STONE,
    })
}

/// Findings about doses that the labels of additives do not allow.
fn advise_additives(mix: &MixInputs) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (index, additive) in mix.additives.iter().enumerate() {
        let Some(given) = additive.dose.readable() else { continue };
        let (least, most) = (additive.dose_least.readable(), additive.dose_most.readable());
        let share = |of: Option<Dose>| of.and_then(|of| share_of(given, of));
        let noise = crate::measure::COUNT_TOLERANCE;
        let over = share(most).filter(|share| *share > 1.0 + noise).and(most);
        let under = share(least).filter(|share| *share < 1.0 - noise).and(least);
        let Some((limit, is_over)) = over.map(|most| (most, true)).or(under.map(|least| (least, false))) else {
            continue;
        };
        let (severity, words) = if is_over {
            (Severity::Stop, "over the label's most")
        } else {
            (Severity::Watch, "under the label's least")
        };
        findings.push(Finding {
            severity,
            stage: Stage::Pour,
            place: FieldPath::Additive(mix.index, index, AdditiveField::Dose),
            says: label!("{}: {} a bag is {}, {}.", &additive.name, given, words, limit),
            remedy: "Keep to what its label allows; no plan here counts on more.".into(),
            source: Source::Typed,
        });
    }
    findings
}
