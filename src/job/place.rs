//! Where in a job a thing stands: the one table of all that has fields, and of the lists it stands in.
//!
//! # To add a list
//! Give it a line in the block of what it belongs to: the job, a piece or a bag. `Station [piece, station]` are the
//! indices that lead to one of its members, `(StationField)` the fields of such a member, `(.opening.stations[station])`
//! the way to it from the owner of the block, `"station"` its word in keys, `Measure` its screen. Then what it is called in
//! a sentence (see [`Named`]), and, as it is a list, what a message calls it that there are too many of, and among which
//! of the [`Together`] its members count. The fields themselves are told in `schema.rs`.

use super::read::{self, number};
use super::{
    AdditiveField, BagField, BookField, CornerField, CutoutField, DefectField, DoorField, EdgeField, Entry, FieldSpec,
    FinishField, FormField, HandlingField, HolesField, HoursField, Job, JobField, LayerField, LegField, Measured,
    OpeningField, PieceField, PourField, QuoteField, ReadingField, RecipeField, SeamField, SheetField, SpellField,
    Stage, StationField, SteelField, StrengthField, TemplateField, Usual,
};
use crate::job::Kind;
use crate::measure::Units;
use std::fmt::Write as _;

/// How the owner of a field is called in a sentence, after the name of its piece or its bag.
#[derive(Clone, Copy, Debug)]
enum Named {
    /// Not at all: the label of the field says enough.
    Plain,
    /// By that word and its number: "Cutout 2, Width".
    Number(&'static str),
    /// In words of its own, by the indices that lead to it and the label of the field.
    Words(fn(&Job, &[usize], &'static str) -> String),
}

/// What a thing with fields belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Of {
    /// The job.
    Job,
    /// A piece: the first index.
    Piece,
    /// A bag: the first index.
    Bag,
}

/// A thing with fields, as the table has it.
#[derive(Clone, Copy, Debug)]
struct Owner {
    key: &'static str,
    stage: Stage,
    named: Named,
    of: Of,
}

/// The indices that lead to a field.
#[derive(Clone, Copy, Debug)]
struct Indices {
    at: [usize; 3],
    count: usize,
}

impl Indices {
    fn of(given: &[usize]) -> Self {
        let mut at = [0; 3];
        at.iter_mut().zip(given).for_each(|(at, given)| *at = *given);
        Self { at, count: given.len() }
    }

    fn all(&self) -> &[usize] {
        &self.at[..self.count]
    }
}

/// Lists whose members are limited together, in all that have such a list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Together {
    /// None: each list by itself.
    Alone,
    /// Cutouts and sets of holes.
    Openings,
    /// Corners, sides, edges, doors, readings, stations.
    Points,
    /// Strengths and additives.
    OfBags,
}

/// Walks from an owner along a way such as `.cutouts[cutout].template[corner]`; see [`paths`].
macro_rules! walk {
    // To the entry of one owner, for reading. What leads nowhere gives nothing.
    (read $field:ident, $at:expr; ($($within:tt)*) ($($way:tt)*)) => { walk!(read $field, $at; $($within)* $($way)*) };
    (read $field:ident, $at:expr; nowhere) => {{
        let _ = $field;
        None
    }};
    (read $field:ident, $at:expr; . $list:ident [$index:ident] $($way:tt)*) => {
        walk!(read $field, $at.$list.get($index)?; $($way)*)
    };
    (read $field:ident, $at:expr; . $part:ident ? $($way:tt)*) => {
        walk!(read $field, $at.$part.as_ref()?; $($way)*)
    };
    (read $field:ident, $at:expr; . $part:ident $($way:tt)*) => { walk!(read $field, $at.$part; $($way)*) };
    (read $field:ident, $at:expr;) => { Some($at.entry($field)) };
    // The same, to be typed into. An outline has edges and corners that nothing was typed of yet.
    (write $field:ident, $at:expr; ($($within:tt)*) ($($way:tt)*)) => { walk!(write $field, $at; $($within)* $($way)*) };
    (write $field:ident, $at:expr; nowhere) => {{
        let _ = $field;
        None
    }};
    (write $field:ident, $at:expr; . edges [$index:ident]) => { Some($at.edge_at($index)?.entry_mut($field)) };
    (write $field:ident, $at:expr; . corners [$index:ident]) => { Some($at.corner_at($index)?.entry_mut($field)) };
    (write $field:ident, $at:expr; . $list:ident [$index:ident] $($way:tt)*) => {
        walk!(write $field, $at.$list.get_mut($index)?; $($way)*)
    };
    (write $field:ident, $at:expr; . $part:ident ? $($way:tt)*) => {
        walk!(write $field, $at.$part.as_mut()?; $($way)*)
    };
    (write $field:ident, $at:expr; . $part:ident $($way:tt)*) => { walk!(write $field, $at.$part; $($way)*) };
    (write $field:ident, $at:expr;) => { Some($at.entry_mut($field)) };
    // To every owner there is.
    (each $at:expr; (nowhere) $body:block) => {};
    (each $at:expr; (. $list:ident [$index:ident] $($way:tt)*) $body:block) => {
        for $index in 0..$at.$list.len() {
            walk!(each $at.$list[$index]; ($($way)*) $body)
        }
    };
    (each $at:expr; (. $part:ident ?) $body:block) => { if $at.$part.is_some() $body };
    (each $at:expr; (. $part:ident $($way:tt)*) $body:block) => { walk!(each $at.$part; ($($way)*) $body) };
    (each $at:expr; () $body:block) => { $body };
    // How many there are in every list at the end of the way.
    (count $at:expr; (. $list:ident [$index:ident]) $tell:expr) => { $tell($at.$list.len()) };
    (count $at:expr; (. $list:ident [$index:ident] $($way:tt)*) $tell:expr) => {
        for $index in 0..$at.$list.len() {
            walk!(count $at.$list[$index]; ($($way)*) $tell)
        }
    };
    (count $at:expr; (. $part:ident $($way:tt)*) $tell:expr) => { walk!(count $at.$part; ($($way)*) $tell) };
    // The owner of a block.
    (own $at:expr; ()) => { $at };
    (own $at:expr; (. $list:ident [$index:ident])) => { $at.$list[$index] };
    (of ()) => { Of::Job };
    (of (.pieces [$piece:ident])) => { Of::Piece };
    (of (.bags [$bag:ident])) => { Of::Bag };
    (index $index:ident) => { usize };
}

/// Makes of the table below the paths of fields and all that leads along them.
macro_rules! paths {
    (
        $(
            each $within:tt $(, list $block:literal)? {
                $(
                    $(#[$doc:meta])*
                    $variant:ident [$($at:ident),*] ($field:ident) $way:tt, $key:literal, $stage:ident, $named:expr
                    $(, list $list:literal $together:ident)?;
                )*
            }
        )*
    ) => {
        /// One field of a job. Fields, findings and drawings find each other by it.
        ///
        /// Indices count from zero and point into the job's lists; a place of a shorter list leads nowhere.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        pub enum FieldPath {
            $($(
                $(#[$doc])*
                $variant($(walk!(index $at),)* $field),
            )*)*
        }

        impl FieldPath {
            /// What it belongs to, the indices that lead there, and what is known of the field.
            fn told(self) -> (&'static Owner, Indices, &'static FieldSpec) {
                match self {
                    $($(
                        Self::$variant($($at,)* field) => {
                            static OWNER: Owner =
                                Owner { key: $key, stage: Stage::$stage, named: $named, of: walk!(of $within) };
                            (&OWNER, Indices::of(&[$($at),*]), field.spec())
                        }
                    )*)*
                }
            }
        }

        impl Job {
            /// Every field that the job has, in its order.
            pub fn places(&self) -> Vec<FieldPath> {
                let mut places: Vec<FieldPath> = Vec::new();
                $(
                    walk!(each self; $within {
                        $(
                            walk!(each walk!(own self; $within); $way {
                                places.extend($field::ALL.iter().map(|field| FieldPath::$variant($($at,)* *field)));
                            });
                        )*
                    });
                )*
                places
            }

            /// The entry at that place, if the job reaches so far.
            pub fn entry_at(&self, place: FieldPath) -> Option<&Entry> {
                match place {
                    $($( FieldPath::$variant($($at,)* field) => walk!(read field, self; $within $way), )*)*
                }
            }

            /// The entry at that place, to be typed into, if the job reaches so far.
            pub fn entry_at_mut(&mut self, place: FieldPath) -> Option<&mut Entry> {
                match place {
                    $($( FieldPath::$variant($($at,)* field) => walk!(write field, self; $within $way), )*)*
                }
            }

            /// Tells every list of things with fields: what its members are called, with what they are limited together,
            /// and how many it has.
            pub(super) fn lists(&self, tell: &mut dyn FnMut(&'static str, Together, usize)) {
                $(
                    $( walk!(count self; $within |count| tell($block, Together::Alone, count)); )?
                    walk!(each self; $within {
                        $($(
                            walk!(count walk!(own self; $within); $way |count| tell($list, Together::$together, count));
                        )?)*
                    });
                )*
            }
        }
    };
}

paths! {
    each () {
        /// The job's own words.
        Job[](JobField) (), "job", Measure, Named::Plain;
        /// Form choices.
        Form[](FormField) (.form), "form", Build, Named::Plain;
        /// A thickness that knockouts are stacked from: layer, field.
        Layer[layer](LayerField) (.form.layers[layer]), "layer", Build, Named::Number("Layer"),
            list "layers for knockouts" Alone;
        /// A size of sheet that parts are cut from: sheet, field.
        Sheet[sheet](SheetField) (.form.sheets[sheet]), "sheet", Build, Named::Number("Sheet"), list "sheets" Alone;
        /// Pour day.
        Pour[](PourField) (.pour), "pour", Pour, Named::Plain;
        /// A spell of temperature around the form: spell, field.
        Spell[spell](SpellField) (.pour.garage[spell]), "spell", Pour, Named::Number("Temperature"),
            list "temperatures of the garage" Alone;
        /// When a piece is better split.
        Seam[](SeamField) (.seams), "seam", Measure, Named::Plain;
    }
    each (.pieces[piece]), list "pieces" {
        /// A piece's own fields.
        Piece[piece](PieceField) (), "piece", Measure, Named::Plain;
        /// The steel of a piece.
        Steel[piece](SteelField) (.reinforcement), "steel", Build, Named::Plain;
        /// What a piece lives through.
        Handling[piece](HandlingField) (.handling), "handling", Build, Named::Plain;
        /// An edge of a piece: piece, side, field.
        Edge[piece, side](EdgeField) (.edges[side]), "edge", Measure, Named::Words(of_edge), list "edges" Points;
        /// A corner of a piece, by the side that begins there: piece, side, field.
        Corner[piece, side](CornerField) (.corners[side]), "corner", Measure, Named::Words(of_corner),
            list "corners" Points;
        /// A side walked corner by corner: piece, side, field.
        Leg[piece, side](LegField) (.walk[side]), "leg", Measure, Named::Number("Side"), list "sides" Points;
        /// The opening of a piece.
        Opening[piece](OpeningField) (.opening), "opening", Measure, Named::Plain;
        /// A reading of an opening: piece, reading, field.
        Reading[piece, reading](ReadingField) (.opening.readings[reading]), "reading", Measure,
            Named::Words(of_reading), list "readings" Points;
        /// A station along the back wall: piece, station, field.
        Station[piece, station](StationField) (.opening.stations[station]), "station", Measure,
            Named::Number("Wall station"), list "stations" Points;
        /// A cabinet door: piece, door, field.
        Door[piece, door](DoorField) (.doors[door]), "door", Measure, Named::Number("Cabinet door"), list "doors" Points;
        /// A cutout: piece, cutout, field.
        Cutout[piece, cutout](CutoutField) (.cutouts[cutout]), "cutout", Measure, Named::Number("Cutout"),
            list "cutouts" Openings;
        /// A corner of a cutout's template: piece, cutout, corner, field.
        Template[piece, cutout, corner](TemplateField) (.cutouts[cutout].template[corner]), "template", Measure,
            Named::Words(of_template), list "corners of a cutout" Points;
        /// A set of faucet holes: piece, set, field.
        Holes[piece, set](HolesField) (.holes[set]), "holes", Measure, Named::Number("Holes"),
            list "sets of holes" Openings;
    }
    each (.bags[bag]), list "bags" {
        /// A bag of the job.
        Bag[bag](BagField) (), "bag", Pour, Named::Plain;
        /// How a mix is made from scratch: bag, field.
        Recipe[bag](RecipeField) (.recipe?), "recipe", Pour, Named::Plain;
        /// A strength of a bag: bag, point, field.
        Strength[bag, point](StrengthField) (.strengths[point]), "strength", Pour, Named::Plain,
            list "strengths of a bag" OfBags;
        /// An additive of a bag: bag, additive, field.
        Additive[bag, additive](AdditiveField) (.additives[additive]), "additive", Pour, Named::Plain,
            list "additives of a bag" OfBags;
    }
    each () {
        /// Grinding, sealing, carrying, setting.
        Finish[](FinishField) (.finish), "finish", Finish, Named::Plain;
        /// Something to be filled: defect, field.
        Defect[defect](DefectField) (.finish.defects[defect]), "defect", Finish, Named::Number("Defect"),
            list "cracks and pinholes" Alone;
        /// The offer.
        Quote[](QuoteField) (.quote), "quote", Quote, Named::Plain;
        /// The hours of a task: row, field.
        Hours[row](HoursField) (.quote.hours[row]), "hours", Quote, Named::Words(of_task), list "hours of tasks" Alone;
        /// A part of the maker's own book, which no job holds.
        Book[](BookField) (nowhere), "book", Quote, Named::Plain;
    }
}

fn of_edge(job: &Job, at: &[usize], label: &'static str) -> String {
    let side =
        side_of(at).map(|(piece, side)| job.pieces.get(piece).map_or_else(String::new, |one| one.side_name(side)));
    format!("{} edge, {label}", side.unwrap_or_default())
}

fn of_corner(job: &Job, at: &[usize], label: &'static str) -> String {
    let corner = side_of(at).and_then(|(piece, side)| Some(job.pieces.get(piece)?.corner_name(side)));
    format!("{}, {label}", corner.unwrap_or_default())
}

fn of_reading(job: &Job, at: &[usize], label: &'static str) -> String {
    let reading = side_of(at).and_then(|(piece, reading)| job.pieces.get(piece)?.opening.readings.get(reading));
    let of = reading.map_or("", |reading| Measured::label(reading.of));
    if label == ReadingField::Length.label() { of.to_owned() } else { format!("{of}, {label}") }
}

fn of_template(_: &Job, at: &[usize], label: &'static str) -> String {
    let number = |place: usize| at.get(place).map_or(0, |index| index + 1);
    format!("Cutout {}, Corner {}, {label}", number(1), number(2))
}

fn of_task(job: &Job, at: &[usize], label: &'static str) -> String {
    let row = at.first().and_then(|row| job.quote.hours.get(*row));
    format!("{}, {label}", row.map_or("", |row| row.task.label()))
}

/// The piece, and the index into one of its lists.
fn side_of(at: &[usize]) -> Option<(usize, usize)> {
    Some((*at.first()?, *at.get(1)?))
}

impl FieldPath {
    /// All that is known of the field.
    pub fn spec(self) -> &'static FieldSpec {
        self.told().2
    }

    /// The word for the field.
    pub fn label(self) -> &'static str {
        self.spec().label
    }

    /// What the field is read as.
    pub fn kind(self) -> Kind {
        self.spec().kind
    }

    /// The screen on which it is shown.
    pub fn stage(self) -> Stage {
        let (owner, _, spec) = self.told();
        spec.stage.unwrap_or(owner.stage)
    }

    /// What counts in a job of those units while nothing is typed there; nothing where it is waited for, and where blank
    /// means something else than an amount.
    pub fn usual(self, units: Units) -> Option<Usual> {
        self.spec().usual.map(|usual| usual(units))
    }

    /// Index of the piece that it is a field of; nothing if it is none of a piece.
    pub fn piece(self) -> Option<usize> {
        let (owner, indices, _) = self.told();
        if owner.of == Of::Piece { indices.all().first().copied() } else { None }
    }

    /// A name that no other place has, fit for an element of a page: `cutout-0-1-corner-radius`.
    pub fn key(self) -> String {
        let (owner, indices, spec) = self.told();
        let mut key = owner.key.to_owned();
        for index in indices.all() {
            // Writing to a text cannot fail.
            let _ = write!(key, "-{index}");
        }
        key.push('-');
        key + spec.key
    }

    /// The words for the field in a sentence: "Cutout 2, Width"; with several pieces, the piece's name comes first.
    pub(super) fn words(self, job: &Job) -> String {
        let (owner, indices, spec) = self.told();
        let at = indices.all();
        let first = at.first().copied().unwrap_or_default();
        let before = match owner.of {
            Of::Job => String::new(),
            Of::Piece => read::piece_prefix(job, first),
            Of::Bag => read::bag_name(job, first) + ", ",
        };
        before
            + &match owner.named {
                Named::Plain => spec.label.to_owned(),
                Named::Number(word) => {
                    format!("{word} {}, {}", at.last().map_or(0, |index| index + 1), spec.label)
                }
                Named::Words(words) => words(job, at, spec.label),
            }
    }
}

impl Job {
    /// Changes the unit that a bare number takes. A number that was typed bare gets its unit written
    /// behind it, so that it goes on meaning what it meant.
    pub fn change_units(&mut self, units: Units) {
        let before = self.units;
        if before == units {
            return;
        }
        for place in self.places() {
            let kind = place.kind();
            let Some(entry) = self.entry_at_mut(place) else { continue };
            let text = entry.text().trim();
            let Ok(meant) = number(text, kind, before) else { continue };
            let with_unit = format!("{text} {}", kind.unit(before));
            if number(text, kind, units) != Ok(meant) && number(&with_unit, kind, units) == Ok(meant) {
                *entry = Entry(with_unit);
            }
        }
        self.units = units;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::TemplateCorner;
    use crate::measure::read_length;
    use crate::mix::demo;
    use std::collections::HashSet;

    #[test]
    fn every_place_of_a_job_leads_to_an_entry_and_has_a_key_of_its_own() {
        let mut job = demo("test");
        let places = job.places();
        assert!(places.iter().all(|place| job.entry_at(*place).is_some()));
        let keys: HashSet<_> = places.iter().map(|place| place.key()).collect();
        assert_eq!(keys.len(), places.len());
        for place in places {
            let entry = job.entry_at_mut(place).expect("it was there for reading");
            *entry = Entry::new("typed");
            assert_eq!(job.entry_at(place), Some(&Entry::new("typed")));
        }
    }

    #[test]
    fn every_field_is_told_in_the_table() {
        let job = demo("test");
        for place in job.places() {
            let spec = place.spec();
            let plain = |letter: char| letter.is_ascii_lowercase() || letter == '-';
            assert!(!spec.key.is_empty() && spec.key.chars().all(plain), "{place:?}: {}", spec.key);
            assert!(spec.label.starts_with(char::is_uppercase), "{place:?}: {}", spec.label);
            for units in [Units::Inch, Units::Metric] {
                if let Some(usual) = place.usual(units) {
                    assert!(usual.amount.is_of(place.kind()), "{place:?}: {usual:?} cannot be typed there");
                }
            }
        }
    }

    /// The words before the label, by what a job calls its parts.
    #[test]
    fn a_field_is_called_by_what_it_belongs_to() {
        let mut job = demo("test");
        let mut again = job.pieces[0].clone();
        again.name = "Shelf".into();
        again.cutouts[0].template = vec![TemplateCorner::default()];
        job.pieces.push(again);
        job.bags[0].name = "Grey".into();
        let cases = [
            (FieldPath::Job(JobField::Client), "Client"),
            (FieldPath::Layer(1, LayerField::Thickness), "Layer 2, Thickness"),
            (FieldPath::Piece(1, PieceField::Width), "Shelf: Width"),
            (FieldPath::Edge(1, 0, EdgeField::Liner), "Shelf: Front edge, Liner, mean thickness"),
            (FieldPath::Corner(1, 0, CornerField::Radius), "Shelf: Left / front corner, Corner radius"),
            (FieldPath::Reading(1, 0, ReadingField::Length), "Shelf: Back width"),
            (FieldPath::Reading(1, 0, ReadingField::Between), "Shelf: Back width, Between the marks"),
            (FieldPath::Cutout(1, 0, CutoutField::Width), "Shelf: Cutout 1, Width"),
            (FieldPath::Template(1, 0, 0, TemplateField::Radius), "Shelf: Cutout 1, Corner 1, Radius there"),
            (FieldPath::Bag(0, BagField::Yield), "Grey, Yield"),
            (FieldPath::Strength(0, 1, StrengthField::Age), "Grey, Age"),
            (FieldPath::Hours(1, HoursField::Took), "Build the form, Took"),
            (FieldPath::Book(BookField::Wage), "Wage"),
        ];
        for (place, called) in cases {
            assert_eq!(read::name_of(&job, place), called);
        }
        assert_eq!(FieldPath::Piece(1, PieceField::Width).stage(), Stage::Measure);
        assert_eq!(FieldPath::Piece(1, PieceField::Grinding).stage(), Stage::Build, "a field may have its own screen");
        assert_eq!(FieldPath::Template(1, 0, 0, TemplateField::Radius).piece(), Some(1));
        assert_eq!(FieldPath::Bag(1, BagField::Name).piece(), None);
    }

    /// Each line: what stands in a field of an inch job, and what stands there after a change to millimetres.
    #[test]
    fn changing_the_units_keeps_what_was_meant() {
        let cases = [
            ("67", "67 in"),
            ("67 1/4", "67 1/4 in"),
            ("19¼", "19¼ in"),
            ("5' 7", "5' 7"),
            ("170 cm", "170 cm"),
            ("67 1/", "67 1/"),
            ("", ""),
        ];
        for (before, after) in cases {
            let mut job = Job::new("test", Units::Inch);
            let width = FieldPath::Piece(0, PieceField::Width);
            *job.entry_at_mut(width).expect("a piece") = Entry::new(before);
            job.change_units(Units::Metric);
            let text = job.entry_at(width).expect("a piece").text().to_owned();
            assert_eq!(text, after);
            assert_eq!(read_length(&text, Units::Metric).ok(), read_length(before, Units::Inch).ok(), "{before}");
            job.change_units(Units::Inch);
            assert_eq!(job.entry_at(width).expect("a piece").text(), after, "and back: nothing is left to do");
        }
    }
}
