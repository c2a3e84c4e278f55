//! Where a field is shown: on which screen, of which piece, beside which part of it.

use crate::draw::Selection;
use crate::finding::Stage;
use crate::job::{FieldPath, PieceField};

/// The piece that has the field.
pub fn piece_of(place: FieldPath) -> Option<usize> {
    match place {
        FieldPath::Piece(piece, _)
        | FieldPath::Edge(piece, ..)
        | FieldPath::Corner(piece, ..)
        | FieldPath::Leg(piece, ..)
        | FieldPath::Opening(piece, _)
        | FieldPath::Reading(piece, ..)
        | FieldPath::Station(piece, ..)
        | FieldPath::Door(piece, ..)
        | FieldPath::Cutout(piece, ..)
        | FieldPath::Template(piece, ..)
        | FieldPath::Holes(piece, ..)
        | FieldPath::Steel(piece, _)
        | FieldPath::Handling(piece, _) => Some(piece),
        _ => None,
    }
}

/// The screen that shows the field.
pub fn stage_of(place: FieldPath) -> Stage {
    match place {
        FieldPath::Job(_)
        | FieldPath::Seam(_)
        | FieldPath::Edge(..)
        | FieldPath::Corner(..)
        | FieldPath::Leg(..)
        | FieldPath::Opening(..)
        | FieldPath::Reading(..)
        | FieldPath::Station(..)
        | FieldPath::Door(..)
        | FieldPath::Cutout(..)
        | FieldPath::Template(..)
        | FieldPath::Holes(..) => Stage::Measure,
        FieldPath::Form(_)
        | FieldPath::Layer(..)
        | FieldPath::Sheet(..)
        | FieldPath::Steel(..)
        | FieldPath::Handling(..) => Stage::Build,
        FieldPath::Finish(_) | FieldPath::Defect(..) => Stage::Finish,
        FieldPath::Quote(_) | FieldPath::Hours(..) | FieldPath::Book(_) => Stage::Quote,
        FieldPath::Pour(_)
        | FieldPath::Spell(..)
        | FieldPath::Bag(..)
        | FieldPath::Recipe(..)
        | FieldPath::Strength(..)
        | FieldPath::Additive(..) => Stage::Pour,
        FieldPath::Piece(_, field) => stage_of_piece(field),
    }
}

/// The screen that shows a field of a piece.
fn stage_of_piece(field: PieceField) -> Stage {
    match field {
        PieceField::Name
        | PieceField::Width
        | PieceField::Depth
        | PieceField::Leg
        | PieceField::RightLeg
        | PieceField::RightDepth
        | PieceField::FrontDepth
        | PieceField::Bow
        | PieceField::Thickness => Stage::Measure,
        PieceField::Grinding | PieceField::Steel => Stage::Build,
        PieceField::Spare => Stage::Pour,
    }
}

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
