//! Where in a JSON text a thing stands, as a path: `pieces[0].width`.

use serde_json::Value;

/// A container that is being read: the key under way, or the index.
enum Frame {
    Object(String),
    Array(usize),
}

/// The path of the innermost value around a byte of a compact JSON text, counted from one; empty where that is
/// the whole of it.
pub(super) fn path_at(text: &str, byte: usize) -> String {
    let bytes = text.as_bytes();
    let mut frames: Vec<(usize, Frame)> = Vec::new();
    let mut at = 0;
    let mut key_comes = false;
    while let Some(&letter) = bytes.get(at) {
        let start = at;
        match letter {
            b'{' => {
                frames.push((start, Frame::Object(String::new())));
                key_comes = true;
                at += 1;
                continue;
            }
            b'[' => {
                frames.push((start, Frame::Array(0)));
                key_comes = false;
                at += 1;
                continue;
            }
            b',' => {
                match frames.last_mut() {
                    Some((_, Frame::Array(index))) => *index += 1,
                    Some((_, Frame::Object(_))) => key_comes = true,
                    None => {}
                }
                at += 1;
                continue;
            }
            b':' => {
                at += 1;
                continue;
            }
            b'}' | b']' => {
                let opened = frames.pop().map_or(start, |(opened, _)| opened);
                at += 1;
                if opened < byte && byte <= at {
                    return written(&frames);
                }
                continue;
            }
            b'"' => at = end_of_string(bytes, start),
            _ => at += bytes[start..].iter().take_while(|byte| !b",:]}".contains(byte)).count().max(1),
        }
        match frames.last_mut() {
            Some((_, Frame::Object(key))) if key_comes => {
                *key = text.get(start..at).and_then(|key| serde_json::from_str(key).ok()).unwrap_or_default();
                key_comes = false;
            }
            _ if start < byte && byte <= at => return written(&frames),
            _ => {}
        }
    }
    String::new()
}

/// The byte behind the closing quote of the string that starts there.
fn end_of_string(bytes: &[u8], start: usize) -> usize {
    let mut at = start + 1;
    while let Some(&letter) = bytes.get(at) {
        match letter {
            b'"' => return at + 1,
            b'\\' => at += 2,
            _ => at += 1,
        }
    }
    bytes.len()
}

fn written(frames: &[(usize, Frame)]) -> String {
    let mut path = String::new();
    for (_, frame) in frames {
        match frame {
            Frame::Object(key) => {
                if !path.is_empty() {
                    path.push('.');
                }
                path.push_str(key);
            }
            Frame::Array(index) => path.push_str(&format!("[{index}]")),
        }
    }
    path
}

/// The paths of all members of `found` that `known` does not have.
pub(super) fn unknown_members(root: &str, found: &Value, known: &Value, name: fn(&str) -> String) -> Vec<String> {
    match (found, known) {
        (Value::Object(found), Value::Object(known)) => found
            .iter()
            .flat_map(|(key, value)| {
                let path = format!("{root}.{}", name(key));
                known.get(key).map_or_else(|| vec![path.clone()], |known| unknown_members(&path, value, known, name))
            })
            .collect(),
        (Value::Array(found), Value::Array(known)) => {
            let pairs = found.iter().zip(known).enumerate();
            pairs
                .flat_map(|(index, (one, other))| unknown_members(&format!("{root}[{index}]"), one, other, name))
                .collect()
        }
        _ => Vec::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::path_at;

    /// Bytes counted by hand.
    #[test]
    fn every_byte_has_its_innermost_value() {
        let text = r#"{"a":[1,{"b\"c":"x","d":{}}],"e":22}"#;
        for (wanted, path) in
            [("1,", "a[0]"), ("\"x\"", "a[1].b\"c"), ("{}", "a[1].d"), ("}],", "a[1]"), ("],", "a"), ("22", "e")]
        {
            let byte = text.find(wanted).expect("it is there") + 1;
            assert_eq!(path_at(text, byte), path, "{wanted}");
        }
        assert_eq!(path_at(text, text.len()), "");
        for byte in 0..=text.len() + 3 {
            path_at(&text[..text.len() - byte.min(text.len())], byte);
        }
    }
}
