//! What can be told of a job that cannot be read: its name and its values, from whatever JSON there is.
//!
//! Nothing is worked out of it and nothing written back, so that it may be of any version, size or kind.

use serde_json::Value;

/// Values that are told at most; the rest is counted.
const MOST_VALUES: usize = 300;

/// Characters of one value at most.
const MOST_CHARACTERS: usize = 200;

/// What can be told of a text.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Gist {
    /// The job's name; blank where none is found.
    pub name: String,
    /// Its client; blank where none is found.
    pub client: String,
    /// What was typed, with where it stands: "pieces 1, width" and "67 1/4".
    pub values: Vec<(String, String)>,
    /// How many values there are besides.
    pub more: usize,
}

impl Gist {
    /// What can be told of the text of a record or a file; nothing where it is no JSON.
    pub fn of(text: &str) -> Self {
        let Ok(value) = serde_json::from_str::<Value>(text.trim_start_matches('\u{feff}')) else {
            return Self::default();
        };
        let job = value.get("job").unwrap_or(&value);
        let word = |field: &str| shorten(job.get(field).and_then(Value::as_str).unwrap_or_default());
        let mut gist = Self { name: word("name"), client: word("client"), ..Self::default() };
        gist.tell("", job);
        gist
    }

    fn tell(&mut self, path: &str, value: &Value) {
        let join = |step: String| if path.is_empty() { step } else { format!("{path}, {step}") };
        match value {
            Value::Object(members) => {
                members.iter().for_each(|(name, member)| self.tell(&join(shorten(&name.replace('_', " "))), member));
            }
            Value::Array(members) => {
                let numbered = members.iter().enumerate();
                numbered.for_each(|(index, member)| self.tell(&format!("{path} {}", index + 1), member));
            }
            Value::String(text) if !text.trim().is_empty() => self.put(path, text),
            Value::Number(number) => self.put(path, &number.to_string()),
            Value::String(_) | Value::Bool(_) | Value::Null => {}
        }
    }

    fn put(&mut self, path: &str, text: &str) {
        if self.values.len() < MOST_VALUES {
            self.values.push((path.to_owned(), shorten(text)));
        } else {
            self.more += 1;
        }
    }
}

fn shorten(text: &str) -> String {
    match text.char_indices().nth(MOST_CHARACTERS) {
        Some((end, _)) => format!("{}…", &text[..end]),
        None => text.to_owned(),
    }
}
