//! Words of the trade, each with its meaning in one line, for whoever meets them for the first time.

/// One term.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Term {
    /// As it is asked for: "Knockout".
    pub name: &'static str,
    /// What it means, in one sentence.
    pub meaning: &'static str,
    /// How sentences of the page have it, in small letters.
    words: &'static [&'static str],
    /// The labels beside which it is explained, to the letter.
    labels: &'static [&'static str],
}

const fn term(
    name: &'static str,
    words: &'static [&'static str],
    labels: &'static [&'static str],
    meaning: &'static str,
) -> Term {
    Term { name, meaning, words, labels }
}

/// All of them, by name.
pub const TERMS: [Term; 31] = [
    term(
        "Bars",
        &["#3", "#4", "#5"],
        &["Bars along the rails"],
        "Ribbed steel rods; their number is the diameter in eighths of an inch.",
    ),
    term("Batch", &[], &["Bags a batch"], "What goes into one mixer or bucket at one time."),
    term(
        "Bead",
        &[],
        &["Silicone bead, radius"],
        "Silicone smoothed into an inside corner of the form: the edge comes out rounded by it.",
    ),
    term(
        "Cold joint",
        &["cold joint"],
        &[],
        "Where fresh mix met mix that had already stiffened: the two do not knit, so it shows and may crack.",
    ),
    term(
        "Cover",
        &[],
        &["Bar centre above the face"],
        "Concrete between steel and a face; too little of it lets rust show.",
    ),
    term("Dab", &["dabs"], &["A dab every"], "A lump of adhesive, of which several bear a top while it is levelled."),
    term(
        "Draft",
        &["draft"],
        &["Draft of a knockout, each side"],
        "A slight taper of what stays in a hole while the concrete hardens, so that it slides out.",
    ),
    term("Eased edge", &["eased"], &["Eased radius"], "An edge with its sharp line taken off, rounded by so much."),
    term(
        "Edge liner",
        &["liner", "liners"],
        &["Liner, mean thickness", "Liner, sold in lengths of"],
        "A moulded strip inside the form that gives a visible edge its texture.",
    ),
    term(
        "Exposure",
        &[],
        &["How much aggregate shows"],
        "How deep the face is ground: cream leaves the skin, then sand shows, then stones.",
    ),
    term(
        "Flexural strength",
        &[],
        &["Flexural strength then, tested"],
        "The pull in bending at which a plain bar first cracks. Of glass fibre type the limit of proportionality, not the ultimate.",
    ),
    term("Flow aid", &["flow aid"], &[], "An additive with which the same water makes a thinner mix."),
    term("Kerf", &["kerf", "kerfs"], &["Saw kerf"], "The slot that a saw makes, or its width, which is lost."),
    term(
        "Knockout",
        &["knockout", "knockouts"],
        &[],
        "What stands in the form where a cutout shall be, and is pushed out when the concrete is hard.",
    ),
    term("Lap", &[], &["Sheets lap by"], "How far one sheet of mesh lies over the next, so that pull goes across."),
    term(
        "Lath",
        &["lath"],
        &["Lath"],
        "Slit and stretched sheet steel: it holds cracks closed and hardly delays the first one.",
    ),
    term(
        "Overhang",
        &[],
        &["Overhang in front", "Overhang at an open end"],
        "How far the top reaches past what it lies on.",
    ),
    term("Pinholes", &["pinholes"], &[], "Small holes that air leaves in the face."),
    term(
        "Rail",
        &["rail", "rails"],
        &["Only along rails up to"],
        "The strip of concrete left between a cutout and an edge, or between two cutouts: where a top cracks first.",
    ),
    term(
        "Release agent",
        &["release agent"],
        &[],
        "Oil or wax wiped thinly over the form, so that concrete lets go of it.",
    ),
    term("Retarder", &["retarder"], &[], "An additive that keeps the mix workable for longer."),
    term(
        "Reveal",
        &[],
        &["Reveal"],
        "How the cutout stands to the rim of a bowl under it: level with it, showing it, or covering it.",
    ),
    term("Screed", &["screed", "screeded"], &[], "A straight board drawn over the form's sides to level the mix."),
    term("Scribe", &["scribe"], &[], "To shape an edge to the line of a wall that is not straight."),
    term("Seam", &["seam", "seams"], &[], "Where two pieces that were cast apart meet."),
    term("Shim", &["shim", "shims"], &["Shims"], "Something thin put under, to make up the height that is missing."),
    term("Slurry", &["slurry"], &[], "Paste of fine dust or cement and water."),
    term(
        "Spare mix",
        &[],
        &["Spare mix"],
        "Mixed beyond what the form holds: some sticks to buckets and tools, and no form is exact.",
    ),
    term(
        "Strip",
        &[],
        &["Strip after", "Strength wanted to strip", "Strength when stripped"],
        "To take the form off the concrete.",
    ),
    term(
        "Suction",
        &[],
        &["Suction in the form adds"],
        "How hard a tight form holds on to the top that is lifted out of it.",
    ),
    term(
        "Workable time",
        &["workable time"],
        &["Workable time at 70 °F (21 °C)"],
        "How long after its water a batch still flows and knits with what is poured on it.",
    ),
];

/// The term that is explained beside a label, if it has one.
pub fn beside(label: &str) -> Option<&'static Term> {
    TERMS.iter().find(|term| term.labels.contains(&label))
}

/// A stretch of a sentence.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stretch<'a> {
    /// Words that need no explaining.
    Plain(&'a str),
    /// A term as the sentence has it, at its first place there.
    Term(&'a str, &'static Term),
}

/// The sentence in stretches, which make it again when put together.
pub fn stretches(sentence: &str) -> Vec<Stretch<'_>> {
    let mut found: Vec<(usize, usize, &'static Term)> = Vec::new();
    for term in &TERMS {
        let places = term.words.iter().filter_map(|word| Some((place(sentence, word)?, word.len(), term)));
        found.extend(places.min_by_key(|(at, _, _)| *at));
    }
    found.sort_by_key(|(at, _, _)| *at);
    let (mut stretches, mut done) = (Vec::new(), 0);
    for (at, length, term) in found {
        let (Some(before), Some(word)) = (sentence.get(done..at), sentence.get(at..at + length)) else { continue };
        if !before.is_empty() {
            stretches.push(Stretch::Plain(before));
        }
        stretches.push(Stretch::Term(word, term));
        done = at + length;
    }
    if let Some(rest) = sentence.get(done..).filter(|rest| !rest.is_empty()) {
        stretches.push(Stretch::Plain(rest));
    }
    stretches
}

/// Where that word stands by itself, in capitals or not.
fn place(sentence: &str, word: &str) -> Option<usize> {
    let letter = |byte: Option<&u8>| byte.is_some_and(|byte| byte.is_ascii_alphanumeric() || !byte.is_ascii());
    let bytes = sentence.as_bytes();
    let fits = |at: &usize| {
        let end = at + word.len();
        bytes.get(*at..end).is_some_and(|here| here.eq_ignore_ascii_case(word.as_bytes()))
            && !letter(at.checked_sub(1).and_then(|before| bytes.get(before)))
            && !letter(bytes.get(end))
    };
    (0..bytes.len()).find(fits)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The page's own source, which has the sentences and labels.
    fn source() -> String {
        fn read(folder: &std::path::Path, text: &mut String) {
            for entry in std::fs::read_dir(folder).expect("a folder") {
                let path = entry.expect("an entry").path();
                if path.is_dir() {
                    read(&path, text);
                } else if path.extension().is_some_and(|kind| kind == "rs") && !path.ends_with("src/terms.rs") {
                    text.push_str(&std::fs::read_to_string(path).expect("a file"));
                }
            }
        }
        let mut text = String::new();
        read(&std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut text);
        text
    }

    #[test]
    fn every_term_is_on_the_page_and_said_in_one_line() {
        let source = source();
        let code = source.lines().filter(|line| line.contains('"') && !line.trim_start().starts_with("//"));
        let said: Vec<_> = code.collect();
        for term in &TERMS {
            assert!(term.meaning.ends_with('.') && term.meaning.len() < 140, "{}", term.name);
            assert!(!term.words.is_empty() || !term.labels.is_empty(), "{} is explained nowhere", term.name);
            for label in term.labels {
                assert!(source.contains(&format!("\"{label}\"")), "no label says {label}");
            }
            for word in term.words {
                assert_eq!(*word, word.to_lowercase());
                assert!(said.iter().any(|text| place(text, word).is_some()), "no sentence says {word}");
            }
        }
        assert!(TERMS.is_sorted_by_key(|term| term.name));
    }

    #[test]
    fn a_sentence_keeps_its_words() {
        let says = "Knockouts float: hold each knockout down, or the rail beside it breaks at the cold joint.";
        let found = stretches(says);
        let again: String = found
            .iter()
            .map(|stretch| match stretch {
                Stretch::Plain(text) | Stretch::Term(text, _) => *text,
            })
            .collect();
        assert_eq!(again, says);
        let terms: Vec<_> = found
            .iter()
            .filter_map(|stretch| match stretch {
                Stretch::Term(text, term) => Some((*text, term.name)),
                Stretch::Plain(_) => None,
            })
            .collect();
        assert_eq!(terms, [("Knockouts", "Knockout"), ("rail", "Rail"), ("cold joint", "Cold joint")]);
    }

    #[test]
    fn parts_of_words_are_no_terms() {
        for says in ["", "é", "railing", "a guardrail", "trailer", "unlined", "éeased"] {
            assert!(stretches(says).iter().all(|stretch| matches!(stretch, Stretch::Plain(_))), "{says}");
        }
        assert_eq!(stretches("rail").len(), 1);
        assert_eq!(beside("Saw kerf").map(|term| term.name), Some("Kerf"));
        assert_eq!(beside("Saw"), None);
    }
}
