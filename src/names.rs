//! Names in sentences. A name comes from anywhere, as long as it likes and in letters of any direction: set among
//! words of the page it is cut to a length, and turns around none of them.

use std::borrow::Cow;

/// Characters of a name in a sentence at most. A sentence may be said for every cutout of every piece.
const MOST_CHARACTERS: usize = 80;

/// Unicode Standard Annex #9: what stands between these two has a direction of its own.
const ISOLATE: char = '\u{2068}';
const POP_ISOLATE: char = '\u{2069}';

/// The name as it is set into a sentence: shortened, without marks that turn a text around, and between isolates
/// where its letters run from right to left.
pub fn in_sentence(name: &str) -> Cow<'_, str> {
    let name = name.trim();
    let short = name.char_indices().nth(MOST_CHARACTERS).map(|(end, _)| end);
    if short.is_none() && !name.chars().any(|letter| turns(letter) || runs_left(letter)) {
        return Cow::Borrowed(name);
    }
    let mut plain: String = name.chars().filter(|letter| !turns(*letter)).take(MOST_CHARACTERS).collect();
    if short.is_some() {
        plain.push('…');
    }
    Cow::Owned(if plain.chars().any(runs_left) { format!("{ISOLATE}{plain}{POP_ISOLATE}") } else { plain })
}

/// A mark that sets the direction of what follows, or ends such a one.
fn turns(letter: char) -> bool {
    matches!(letter, '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// A letter of a script that is written from right to left.
fn runs_left(letter: char) -> bool {
    matches!(letter, '\u{590}'..='\u{8ff}' | '\u{fb1d}'..='\u{fdff}' | '\u{fe70}'..='\u{feff}' | '\u{10800}'..='\u{10fff}' | '\u{1e800}'..='\u{1efff}')
}

#[cfg(test)]
mod tests {
    use super::in_sentence;

    #[test]
    fn a_plain_name_stands_as_it_is() {
        for name in ["Coffee counter", "Küche 2", "北京 🧱", ""] {
            assert_eq!(in_sentence(&format!(" {name} ")), name);
        }
    }

    #[test]
    fn a_name_turns_nothing_around() {
        assert_eq!(in_sentence("\u{202e}gnp.exe"), "gnp.exe");
        assert_eq!(in_sentence("a\u{2069}\u{202e}b"), "ab", "nor does it leave its isolate");
        assert_eq!(in_sentence("שיש 2"), "\u{2068}שיש 2\u{2069}");
        assert_eq!(in_sentence("رخام\u{2069}!"), "\u{2068}رخام!\u{2069}");
    }

    #[test]
    fn a_long_name_is_cut() {
        let said = in_sentence(&"N".repeat(100_000)).into_owned();
        assert_eq!(said, format!("{}…", "N".repeat(80)));
    }
}
