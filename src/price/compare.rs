//! Versions of one job, side by side.

use rust_decimal::Decimal;

/// One version of a job, as it is compared.
#[derive(Clone, Debug, PartialEq)]
pub struct Version {
    /// What it is called: "2 in, rapid mortar".
    pub name: String,
    /// What the client pays for it, where that is known.
    pub price: Option<Decimal>,
    /// What is looked at: a label and its text, in the order of the table.
    pub facts: Vec<(String, String)>,
}

/// One cell of the table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cell {
    /// None where that version does not say.
    pub text: Option<String>,
    /// It is not what the first version says.
    pub differs: bool,
}

/// One row of the table: a fact, in every version.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// What is compared.
    pub label: String,
    /// One for each version, in their order.
    pub cells: Vec<Cell>,
}

/// The table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Comparison {
    /// Every fact that any version has, in the order in which they first come up.
    pub rows: Vec<Row>,
    /// What each version costs more than the first, or less if under zero; None where either is not known.
    pub dearer: Vec<Option<Decimal>>,
}

impl Row {
    /// Any version differs from the first.
    pub fn differs(&self) -> bool {
        self.cells.iter().any(|cell| cell.differs)
    }
}

/// Sets versions side by side; the first is what the others are measured against.
pub fn compare(versions: &[Version]) -> Comparison {
    let mut labels: Vec<&str> = Vec::new();
    for (label, _) in versions.iter().flat_map(|version| &version.facts) {
        if !labels.contains(&label.as_str()) {
            labels.push(label);
        }
    }
    let text_of = |version: &Version, label: &str| {
        version.facts.iter().find(|(own, _)| own == label).map(|(_, text)| text.clone())
    };
    let row = |label: &str| {
        let texts = versions.iter().map(|version| text_of(version, label));
        let first = versions.first().and_then(|version| text_of(version, label));
        let cells = texts.map(|text| Cell { differs: text != first, text }).collect();
        Row { label: label.to_owned(), cells }
    };
    let first = versions.first().and_then(|version| version.price);
    let dearer = versions.iter().map(|version| version.price?.checked_sub(first?)).collect();
    Comparison { rows: labels.into_iter().map(row).collect(), dearer }
}
