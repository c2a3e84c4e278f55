//! Thin tops of a mix that is made for them, and pieces that stand.

use pourwright::estimate::estimate;
use pourwright::finding::Finding;
use pourwright::job::{FieldPath, Job, PieceField, PieceKind, Recipe, RecipeKind, StrengthPoint, Units};
use pourwright::price::PriceBook;
use pourwright::strength::cases::Age;

fn thin(thickness: &str, recipe: Option<RecipeKind>) -> Option<Finding> {
    let mut job = Job::new("thin", Units::Inch);
    let piece = &mut job.pieces[0];
    (piece.width, piece.depth, piece.thickness) = ("48".into(), "22".into(), thickness.into());
    job.bags[0].recipe = recipe.map(|kind| Recipe { kind, ..Recipe::default() });
    let found = estimate(&job, &PriceBook::default()).findings;
    found.into_iter().find(|one| {
        one.place == FieldPath::Piece(0, PieceField::Thickness) && one.says.write(&job).contains("Thickness")
    })
}

/// 3/4 in is usual with glass fibre, 1 1/4 in without. Common practice, no source.
#[test]
fn glass_fibre_is_the_mix_for_thin_sections() {
    let advice = |thickness, recipe| thin(thickness, recipe).map(|one| one.remedy.write(Units::Inch));
    let other = Some("Cast it thicker, or use a mix made for thin sections.".to_owned());
    assert_eq!(advice("1", None), other);
    assert_eq!(advice("1", Some(RecipeKind::Mortar)), other);
    assert_eq!(advice("1", Some(RecipeKind::GlassFibre)), None);
    assert_eq!(advice("3/4", Some(RecipeKind::GlassFibre)), None);
    assert_eq!(advice("5/8", Some(RecipeKind::GlassFibre)), Some("Cast it thicker.".to_owned()));
    assert_eq!(advice("1 1/4", None), None);
}

/// A top is set and sat on; what stands is lifted and carried, and that is all.
#[test]
fn nobody_sits_on_a_splash() {
    let known = |kind: PieceKind| {
        let mut job = Job::new("pieces", Units::Inch);
        let piece = &mut job.pieces[0];
        (piece.width, piece.depth, piece.thickness) = ("60".into(), "6".into(), "1".into());
        (piece.kind, piece.handling.overhang) = (kind, "1".into());
        job.bags[0].strengths = vec![StrengthPoint { age: "1 h".into(), strength: "4000".into() }];
        estimate(&job, &PriceBook::default()).pieces[0].cracking.clone().expect("known")
    };
    let in_use = |kind| known(kind).question.cases.iter().filter(|case| case.age == Age::InUse).count();
    assert!(in_use(PieceKind::Top) >= 2, "it is set and sat on");
    assert_eq!(known(PieceKind::Top).stands, None);
    for kind in [PieceKind::Backsplash, PieceKind::SideSplash, PieceKind::Apron, PieceKind::WaterfallLeg] {
        assert_eq!(in_use(kind), 0, "{kind:?}");
        assert!(known(kind).question.cases.iter().any(|case| case.age == Age::Handling), "it is carried");
    }
    let words = known(PieceKind::Backsplash).stands.expect("said");
    assert!(words.starts_with("A backsplash lies on no cabinet and nobody sits on it"), "{words}");
}
