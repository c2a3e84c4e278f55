//! A mix made from scratch: what it is made for and of.

use super::super::desk::Desk;
use super::super::field::{hinted, list};
use crate::job::{AirFor, FieldPath, Job, RecipeField, RecipeKind};
use leptos::prelude::*;

type Hinted = (RecipeField, &'static str);

/// What decides about a concrete.
const CONCRETE: &[Hinted] = &[
    (RecipeField::Slump, "How wet: 1 to 7 in (25 to 175 mm)."),
    (RecipeField::StoneSize, "5/16 to 1 1/2 in (8 to 38 mm), a third of the thickness at most."),
    (RecipeField::Strength, "On average, without additives: 2000 to 6000 psi (14 to 41 MPa)."),
    (RecipeField::SandMoisture, "As it lies there. Blank: neither gives nor takes water."),
    (RecipeField::StoneMoisture, "As it lies there. Blank: neither gives nor takes water."),
    (RecipeField::Pigment, "10 % at most. Blank: none."),
];

/// What it is made of; it comes from the supplier.
const OF_CONCRETE: &[Hinted] = &[
    (RecipeField::SandAbsorbs, "Blank: nothing."),
    (RecipeField::StoneAbsorbs, "Blank: nothing."),
    (RecipeField::StoneBulk, "A full bucket, rodded dry: mass by volume."),
    (RecipeField::StoneGravity, "Usually 2.5 to 2.8."),
    (RecipeField::Fineness, "From the supplier: 2.4 to 3.0."),
    (RecipeField::SandGravity, "Usually 2.6 to 2.7."),
    (RecipeField::CementGravity, "Usually 3.15."),
    (RecipeField::MostWater, "By mass, what exposure allows. Blank: no limit."),
];

/// What decides about a mortar.
const MORTAR: &[Hinted] = &[
    (RecipeField::Sand, "By mass, dry sand."),
    (RecipeField::Water, "By mass, with what flow aid and polymer bring."),
    (RecipeField::FlowAid, "As it comes, by its label. Blank: none."),
    (RecipeField::Pigment, "10 % at most. Blank: none."),
];

/// What a face coat and its backer have besides.
const GLASS_FIBRE: &[Hinted] = &[
    (RecipeField::FaceCoat, "The rest of the thickness is backer."),
    (RecipeField::Polymer, "Usually 4 to 6 %. Its water is poured less."),
    (RecipeField::PolymerSolids, "Of the emulsion. Blank: a powder."),
    (RecipeField::Fibre, "Alkali-resistant glass; usually 2 to 4 %. None in the face coat."),
];

/// What a mortar is made of.
const OF_MORTAR: &[Hinted] = &[
    (RecipeField::FlowAidSolids, "Blank: a powder."),
    (RecipeField::Air, "Trapped by mixing; usually 2 to 4 %."),
    (RecipeField::SandMoisture, "As it lies there; its free water is poured less. Blank: none."),
    (RecipeField::SandAbsorbs, "Blank: nothing."),
    (RecipeField::SandGravity, "Usually 2.6 to 2.7."),
    (RecipeField::CementGravity, "Usually 3.15."),
];

/// How it is bought and weighed.
const BOUGHT: &[Hinted] =
    &[(RecipeField::CementBag, "What is printed on it."), (RecipeField::Scale, "Blank: 1 oz (5 g).")];

fn fields(desk: Desk, bag: usize, lists: &[&[Hinted]]) -> AnyView {
    let all = lists.iter().copied().flatten();
    let all = all.map(|(field, hint)| hinted(desk, FieldPath::Recipe(bag, *field), hint)).collect_view();
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
    let (first, then): (&[&[Hinted]], &[&[Hinted]]) = match kind {
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
