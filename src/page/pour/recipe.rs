//! A mix made from scratch: what it is made for and of.

use super::super::desk::Desk;
use super::super::field::{field, list};
use crate::job::{AirFor, FieldPath, Job, RecipeField, RecipeKind};
use leptos::prelude::*;

/// What decides about a concrete.
const CONCRETE: &[RecipeField] = &[
    RecipeField::Slump,
    RecipeField::StoneSize,
    RecipeField::Strength,
    RecipeField::SandMoisture,
    RecipeField::StoneMoisture,
    RecipeField::Pigment,
];

/// What it is made of; it comes from the supplier.
const OF_CONCRETE: &[RecipeField] = &[
    RecipeField::SandAbsorbs,
    RecipeField::StoneAbsorbs,
    RecipeField::StoneBulk,
    RecipeField::StoneGravity,
    RecipeField::Fineness,
    RecipeField::SandGravity,
    RecipeField::CementGravity,
    RecipeField::MostWater,
];

/// What decides about a mortar.
const MORTAR: &[RecipeField] = &[RecipeField::Sand, RecipeField::Water, RecipeField::FlowAid, RecipeField::Pigment];

/// What a face coat and its backer have besides.
const GLASS_FIBRE: &[RecipeField] =
    &[RecipeField::FaceCoat, RecipeField::Polymer, RecipeField::PolymerSolids, RecipeField::Fibre];

/// What a mortar is made of.
const OF_MORTAR: &[RecipeField] = &[
    RecipeField::FlowAidSolids,
    RecipeField::Air,
    RecipeField::SandMoisture,
    RecipeField::SandAbsorbs,
    RecipeField::SandGravity,
    RecipeField::CementGravity,
];

/// How it is bought and weighed.
const BOUGHT: &[RecipeField] = &[RecipeField::CementBag, RecipeField::Scale];

fn fields(desk: Desk, bag: usize, lists: &[&[RecipeField]]) -> AnyView {
    let all = lists.iter().copied().flatten();
    let all = all.map(|name| field(desk, FieldPath::Recipe(bag, *name))).collect_view();
    view! { <div class="fields">{all}</div> }.into_any()
}

fn air(desk: Desk, bag: usize) -> AnyView {
    let read = move |job: &Job| {
        let recipe = job.bags.get(bag).and_then(|bag| bag.recipe.as_ref());
        recipe.map_or_else(AirFor::default, |recipe| recipe.air_for)
    };
    let chosen = Memo::new(move |_| desk.job.with(read));
    let choose = Callback::new(move |air_for| {
        desk.job.edit_bag(bag, |bag| {
            if let Some(recipe) = &mut bag.recipe {
                recipe.air_for = air_for;
            }
        });
    });
    let options = AirFor::ALL.map(|air| (air, air.label())).to_vec();
    list("recipe-air", "Where it lives", options, chosen.into(), choose)
}

/// The fields of a recipe of that kind.
pub fn recipe_fields(desk: Desk, bag: usize, kind: RecipeKind) -> AnyView {
    let (first, then): (&[&[RecipeField]], &[&[RecipeField]]) = match kind {
        RecipeKind::Concrete => (&[CONCRETE], &[OF_CONCRETE, BOUGHT]),
        RecipeKind::Mortar => (&[MORTAR], &[OF_MORTAR, BOUGHT]),
        RecipeKind::GlassFibre => (&[GLASS_FIBRE, MORTAR], &[OF_MORTAR, BOUGHT]),
    };
    view! {
        {fields(desk, bag, first)}
        {(kind == RecipeKind::Concrete).then(|| air(desk, bag))}
        <details>
            <summary>"What it is made of"</summary>
            <p class="quiet-text">"Usual figures, from memory: your supplier's outrank them."</p>
            {fields(desk, bag, then)}
        </details>
    }
    .into_any()
}
