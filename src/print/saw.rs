//! The cuts of a sheet in words, in the order of the work.

use crate::measure::{Units, write_cut};
use crate::sheet::{Becomes, Sheet, Travel};

/// One line a cut: "Sheet: along it, 24 1/2 in from the edge: strip a, rest b".
///
/// `mark` gives the mark of a part by its index. What is cut further has a small letter.
pub fn saw_words(sheet: &Sheet, mark: &dyn Fn(usize) -> String, units: Units) -> Vec<String> {
    let name = |piece: usize| match sheet.pieces.get(piece).map(|piece| piece.becomes) {
        Some(Becomes::Part { part, .. }) => mark(part),
        Some(Becomes::OffCut) => "an off-cut to keep".to_owned(),
        Some(Becomes::Pieces) if piece == 0 => "Sheet".to_owned(),
        Some(Becomes::Pieces) => format!("strip {}", letters(sheet, piece)),
        Some(Becomes::Scrap) | None => "scrap".to_owned(),
    };
    let words = |cut: &crate::sheet::Cut| {
        let travel = match cut.travel {
            Travel::Length => "along",
            Travel::Width => "across",
        };
        let (first, rest) = cut.leaves;
        let rest = rest.map_or_else(String::new, |rest| format!(", rest: {}", name(rest)));
        let at = write_cut(cut.at, units);
        format!("{}, {travel} at {}: {}{rest}", name(cut.piece), at.text, name(first))
    };
    sheet.cuts.iter().map(words).collect()
}

/// The letters of a piece that is cut further: a, b, … z, aa, ab, …
fn letters(sheet: &Sheet, piece: usize) -> String {
    let cut_further = |piece: &&crate::sheet::Piece| piece.becomes == Becomes::Pieces;
    let mut number = sheet.pieces.iter().take(piece).skip(1).filter(cut_further).count();
    let mut text = String::new();
    loop {
        text.insert(0, char::from(b'a' + (number % 26) as u8));
        if number < 26 {
            return text;
        }
        number = number / 26 - 1;
    }
}
