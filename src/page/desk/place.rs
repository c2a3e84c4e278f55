//! Beside which part of a piece a field is shown.

use crate::draw::Selection;
use crate::job::FieldPath;

/// The part beside which the field is shown, where `selected` is not one already; nothing where no part matters.
pub fn part_of(place: FieldPath, selected: Selection) -> Option<Selection> {
    match place {
        FieldPath::Edge(_, side, _) => Some(Selection::Edge(side)),
        FieldPath::Cutout(_, index, _) | FieldPath::Template(_, index, ..) => Some(Selection::Cutout(index)),
        // The doors are shown with every cutout.
        FieldPath::Door(..) if matches!(selected, Selection::Cutout(_)) => None,
        FieldPath::Door(..) => Some(Selection::Cutout(0)),
        FieldPath::Holes(_, index, _) => Some(Selection::Holes(index)),
        FieldPath::Corner(_, side, _) => Some(Selection::Corner(side)),
        FieldPath::Piece(..)
        | FieldPath::Leg(..)
        | FieldPath::Opening(..)
        | FieldPath::Reading(..)
        | FieldPath::Station(..) => Some(Selection::Size),
        _ => None,
    }
}
