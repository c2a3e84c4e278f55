//! What is worth knowing about the spare mix, the figures of a bag, and the doses of its additives.

use super::scratch::{by_volume, density_at};
use super::{Coats, Pour, additive_name, bag_of, fresh_density, part_name, share_of};
use crate::finding::{Finding, Severity, Stage, say};
use crate::form;
use crate::job::read;
use crate::job::{AdditiveField, Bag, BagField, FieldPath, Job, PieceField, Recipe, RecipeField, RecipeKind};
use crate::measure::{Dose, Length, write_dose, write_percent};
use crate::mix::limits;
use crate::top::Top;
use crate::working::Source;

/// Findings about the spare mix of the piece with that index.
pub(crate) fn advise_piece(job: &Job, piece: usize) -> Vec<Finding> {
    let place = FieldPath::Piece(piece, PieceField::Spare);
    let Ok(spare) = read::percent(job, place) else { return Vec::new() };
    let (severity, limit, remedy) = if spare < limits::SPARE_LEAST - crate::measure::COUNT_TOLERANCE {
        let remedy = "Order about 10 %: a bag too few with the mix going off costs the whole top.";
        (Severity::Watch, format!("under {} a slip leaves the form short", write_percent(limits::SPARE_LEAST)), remedy)
    } else if spare > limits::SPARE_MOST + crate::measure::COUNT_TOLERANCE {
        let remedy = "About 10 % is usual.";
        (Severity::Note, format!("over {} most of it is thrown away", write_percent(limits::SPARE_MOST)), remedy)
    } else {
        return Vec::new();
    };
    vec![Finding {
        severity,
        stage: Stage::Pour,
        place,
        says: format!("{}Spare mix is {}; {limit}.", read::piece_prefix(job, piece), write_percent(spare)),
        remedy: remedy.to_owned(),
        source: Source::Practice,
    }]
}

/// Findings about the figures of the bag with that index.
pub(crate) fn advise_bag(job: &Job, index: usize, bag: &Bag) -> Vec<Finding> {
    let mut findings = Vec::new();
    let units = job.units;
    let name = read::bag_name(job, index);
    let mut add = |severity, field, says: String, remedy: String, source| {
        let place = match &bag.recipe {
            Some(recipe) => density_at(index, recipe),
            None => FieldPath::Bag(index, field),
        };
        findings.push(Finding { severity, stage: Stage::Pour, place, says, remedy, source });
    };
    if let Ok(density) = fresh_density(job, index, bag) {
        let (least, most) = (limits::fresh_density_least(), limits::fresh_density_most());
        if density.value < least || density.value > most {
            let made_of = if bag.recipe.is_some() { "its parts" } else { "bag, water and yield" };
            let says = format!(
                "{name}: {made_of} together make {}; fresh mixes lie between {} and {}.",
                say::density(density.value, units),
                say::density(least, units),
                say::density(most, units)
            );
            let remedy = if bag.recipe.is_some() {
                "One of the figures is a typing error: check the specific gravities and the stone.".to_owned()
            } else {
                "One of the three is a typing error: check them against the label.".to_owned()
            };
            add(Severity::Stop, BagField::Yield, says, remedy, Source::Practice);
        }
    }
    if let Some(recipe) = &bag.recipe {
        findings.extend(cement_finding(job, index, recipe));
        findings.extend(paste_finding(job, index, recipe));
        return findings;
    }
    let optional = |field| read::optional(job, FieldPath::Bag(index, field), read::volume).ok().flatten();
    let (least, most) = (optional(BagField::WaterLeast), optional(BagField::WaterMost));
    if let (Some(least), Some(most)) = (least, most)
        && least > most
    {
        let says = format!(
            "{name}: the least water, {}, is more than the most, {}.",
            say::water(least, units),
            say::water(most, units)
        );
        let remedy = "Check both against the label.".to_owned();
        add(Severity::Watch, BagField::WaterLeast, says, remedy, Source::Typed);
    }
    if let Ok(water) = read::positive_volume(job, FieldPath::Bag(index, BagField::Water)) {
        let noise = 1.0 + crate::measure::COUNT_TOLERANCE;
        if let Some(most) = most.filter(|most| water > *most * noise) {
            let says = format!(
                "{name}: {} of water a bag is over the label's {} at most; it costs strength and shrinks.",
                say::water(water, units),
                say::water(most, units)
            );
            let remedy = format!("Use no more than {}; a flow aid makes it run.", say::water(most, units));
            add(Severity::Stop, BagField::Water, says, remedy, Source::Typed);
        }
        if let Some(least) = least.filter(|least| water * noise < *least) {
            let says = format!(
                "{name}: {} of water a bag is under the label's {} at least; it will not flow or cure as it should.",
                say::water(water, units),
                say::water(least, units)
            );
            let remedy = format!("Use at least {}.", say::water(least, units));
            add(Severity::Watch, BagField::Water, says, remedy, Source::Typed);
        }
    }
    findings.extend(advise_additives(job, index, bag));
    findings
}

/// Concrete with more cement in it than is usual.
fn cement_finding(job: &Job, bag: usize, recipe: &Recipe) -> Option<Finding> {
    let mix = by_volume(job, bag, recipe).ok().filter(|_| recipe.kind == RecipeKind::Concrete)?;
    let (cement, most) = (mix.cement / mix.volume, limits::cement_most());
    if cement <= most * (1.0 + crate::measure::COUNT_TOLERANCE) {
        return None;
    }
    Some(Finding {
        severity: Severity::Watch,
        stage: Stage::Pour,
        place: FieldPath::Recipe(bag, RecipeField::Strength),
        says: format!(
            "{}: {} of cement in the concrete; over {} it runs hot, shrinks and cracks.",
            read::bag_name(job, bag),
            say::density(cement, job.units),
            say::density(most, job.units)
        ),
        remedy: "Ask for less strength or slump, or use larger stone: each takes less water, and cement with it."
            .to_owned(),
        source: Source::Practice,
    })
}

/// Concrete with more paste in it than is usual.
fn paste_finding(job: &Job, bag: usize, recipe: &Recipe) -> Option<Finding> {
    let mix = by_volume(job, bag, recipe).ok().filter(|_| recipe.kind == RecipeKind::Concrete)?;
    let paste = mix.paste_share(job.units).value;
    if paste <= limits::PASTE_MOST * (1.0 + crate::measure::COUNT_TOLERANCE) {
        return None;
    }
    Some(Finding {
        severity: Severity::Watch,
        stage: Stage::Pour,
        place: FieldPath::Recipe(bag, RecipeField::Slump),
        says: format!(
            "{}: cement and water are {} of the concrete; over {} it shrinks and curls.",
            read::bag_name(job, bag),
            write_percent(paste),
            write_percent(limits::PASTE_MOST)
        ),
        remedy: "Use larger stone, less slump, or a plasticiser: each takes less water, and cement with it.".to_owned(),
        source: Source::Practice,
    })
}

/// Findings about what is weighed out for the piece with that index.
pub(crate) fn advise_coats(pour: &Pour, top: &Top, job: &Job, piece: usize) -> Vec<Finding> {
    let Some(coats) = &pour.coats else { return Vec::new() };
    let mut findings = Vec::new();
    // Batches of several pieces are mixed and weighed for all of them.
    let of_mix = |piece: &usize| bag_of(job, *piece).is_ok_and(|(bag, _)| bag == pour.bag);
    if (0..job.pieces.len()).filter(of_mix).count() < 2 {
        findings.extend(advise_scale(coats, job, pour.bag, &read::piece_prefix(job, piece)));
    }
    findings.extend(stone_finding(top, job, pour.bag, piece));
    findings
}

/// Batches that the scale does not weigh finely enough, whose sentence begins with what is mixed.
pub(crate) fn advise_scale(coats: &Coats, job: &Job, bag: usize, prefix: &str) -> Option<Finding> {
    let off = coats.coats.iter().find(|coat| !coat.weighed.fills);
    let coarse = coats.coats.iter().find_map(|coat| coat.weighed.too_coarse.first());
    let says = match (off, coarse) {
        (Some(coat), _) => format!(
            "{prefix}Weighed in steps of this scale, a batch is off by {}; over {} the form is left short or running over.",
            write_percent(coat.weighed.off.abs()),
            write_percent(limits::WEIGHING_VOLUME)
        ),
        (None, Some(role)) => format!(
            "{prefix}{}: rounded to a step of this scale, a batch is off by more than {} of it.",
            part_name(job, bag, *role),
            write_percent(limits::WEIGHING_PART)
        ),
        (None, None) => return None,
    };
    Some(Finding {
        severity: Severity::Watch,
        stage: Stage::Pour,
        place: FieldPath::Recipe(bag, RecipeField::Scale),
        says,
        remedy: "Weigh it on a finer scale, or mix larger batches.".to_owned(),
        source: Source::Practice,
    })
}

/// Stone that is too large for the thickness, or for a maker's form.
fn stone_finding(top: &Top, job: &Job, bag: usize, piece: usize) -> Option<Finding> {
    let recipe = job.bags.get(bag)?.recipe.as_ref()?;
    let place = FieldPath::Recipe(bag, RecipeField::StoneSize);
    let stone = read::length(job, place).ok().filter(|_| recipe.kind == RecipeKind::Concrete)?;
    let cast: Length = form::cast_thickness(top, job, piece).ok()?.value;
    if stone <= cast * limits::STONE_TO_THICKNESS * (1.0 + crate::measure::COUNT_TOLERANCE) {
        return None;
    }
    Some(Finding {
        severity: Severity::Watch,
        stage: Stage::Pour,
        place,
        says: format!(
            "{}Stone of {} in a top of {}; over a third of the thickness it bridges and leaves voids.",
            read::piece_prefix(job, piece),
            say::length(stone, job.units),
            say::length(cast, job.units)
        ),
        remedy: "Use smaller stone.".to_owned(),
        source: limits::STONE,
    })
}

/// Findings about doses that the labels of additives do not allow.
fn advise_additives(job: &Job, index: usize, bag: &Bag) -> Vec<Finding> {
    let mut findings = Vec::new();
    for additive in 0..bag.additives.len() {
        let place = |field| FieldPath::Additive(index, additive, field);
        let dose = |field| read::dose(job, place(field)).ok();
        let Some(given) = dose(AdditiveField::Dose) else { continue };
        let (least, most) = (dose(AdditiveField::DoseLeast), dose(AdditiveField::DoseMost));
        let share = |of: Option<Dose>| of.and_then(|of| share_of(given, of));
        let noise = crate::measure::COUNT_TOLERANCE;
        let over = share(most).filter(|share| *share > 1.0 + noise).and(most);
        let under = share(least).filter(|share| *share < 1.0 - noise).and(least);
        let Some((limit, is_over)) = over.map(|most| (most, true)).or(under.map(|least| (least, false))) else {
            continue;
        };
        let write = |dose| write_dose(dose, job.units).text;
        let (severity, words) = if is_over {
            (Severity::Stop, "over the label's most")
        } else {
            (Severity::Watch, "under the label's least")
        };
        findings.push(Finding {
            severity,
            stage: Stage::Pour,
            place: place(AdditiveField::Dose),
            says: format!("{}: {} a bag is {words}, {}.", additive_name(bag, additive), write(given), write(limit)),
            remedy: "Keep to what its label allows; no plan here counts on more.".to_owned(),
            source: Source::Typed,
        });
    }
    findings
}
