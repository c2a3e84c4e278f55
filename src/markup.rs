//! Texts as they are written in markup. Names, notes and files come from anywhere: whatever stands in them is shown to
//! the letter, and nothing of it is a tag, an attribute or a character by its number.

/// A text as it is written in HTML or SVG, in an element or in a quoted attribute.
pub(crate) fn escape(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => escaped.push_str("&amp;"),
            '<' => escaped.push_str("&lt;"),
            '>' => escaped.push_str("&gt;"),
            '"' => escaped.push_str("&quot;"),
            '\'' => escaped.push_str("&#39;"),
            // Not a character that HTML may hold.
            '\0' => escaped.push('\u{fffd}'),
            letter => escaped.push(letter),
        }
    }
    escaped
}

#[cfg(test)]
mod tests {
    use super::escape;

    /// What a browser shows for an escaped text; nothing if a tag, the end of an attribute or another reference is in
    /// it.
    fn shown(escaped: &str) -> Option<String> {
        let mut parts = escaped.split('&');
        let mut text = parts.next()?.to_owned();
        for part in parts {
            let (name, rest) = part.split_once(';')?;
            text.push(match name {
                "amp" => '&',
                "lt" => '<',
                "gt" => '>',
                "quot" => '"',
                "#39" => '\'',
                _ => return None,
            });
            text.push_str(rest);
        }
        (!escaped.contains(['<', '>', '"', '\'', '\0'])).then_some(text)
    }

    #[test]
    fn every_hostile_text_is_shown_to_the_letter_and_ends_nothing() {
        let hostile = include_str!("../tests/samples/hostile.json");
        let mut texts: Vec<String> = serde_json::from_str(hostile).expect("texts");
        texts.extend(
            ["&lt;script&gt;", "&#60;", "&amp;amp;", "a\0b", "'\"<>&", "]]>", "<!--", "-->", ""].map(str::to_owned),
        );
        for text in texts {
            assert_eq!(shown(&escape(&text)), Some(text.replace('\0', "\u{fffd}")), "{text:?}");
        }
    }

    #[test]
    fn a_plain_text_stays_as_it_is() {
        let plain = "Kitchen, 5/8 × 7 ft²; Küche 北 🧱 \u{2068}\u{5d0}\u{2069}\nnext line";
        assert_eq!(escape(plain), plain);
    }
}
