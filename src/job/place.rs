//! Where in a job a thing stands.

use super::{
    AdditiveField, BagField, BookField, CornerField, CutoutField, DefectField, DoorField, EdgeField, Entry,
    FinishField, FormField, HandlingField, HolesField, HoursField, Job, JobField, Kind, LayerField, LegField,
    OpeningField, PieceField, PourField, QuoteField, ReadingField, RecipeField, SeamField, SheetField, SpellField,
    StationField, SteelField, StrengthField, TemplateField,
};
use crate::job::read::number;
use crate::measure::Units;

/// One field of a job. Fields, findings and drawings find each other by it.
///
/// Indices count from zero and point into the job's lists; a place of a shorter list leads nowhere.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum FieldPath {
    /// The job's own words.
    Job(JobField),
    /// Form choices.
    Form(FormField),
    /// A thickness that knockouts are stacked from: layer, field.
    Layer(usize, LayerField),
    /// A size of sheet that parts are cut from: sheet, field.
    Sheet(usize, SheetField),
    /// Pour day.
    Pour(PourField),
    /// A spell of temperature around the form: spell, field.
    Spell(usize, SpellField),
    /// When a piece is better split.
    Seam(SeamField),
    /// A piece's own fields.
    Piece(usize, PieceField),
    /// The steel of a piece.
    Steel(usize, SteelField),
    /// What a piece lives through.
    Handling(usize, HandlingField),
    /// An edge of a piece: piece, side, field.
    Edge(usize, usize, EdgeField),
    /// A corner of a piece, by the side that begins there: piece, side, field.
    Corner(usize, usize, CornerField),
    /// A side walked corner by corner: piece, side, field.
    Leg(usize, usize, LegField),
    /// The opening of a piece.
    Opening(usize, OpeningField),
    /// A reading of an opening: piece, reading, field.
    Reading(usize, usize, ReadingField),
    /// A station along the back wall: piece, station, field.
    Station(usize, usize, StationField),
    /// A cabinet door: piece, door, field.
    Door(usize, usize, DoorField),
    /// A cutout: piece, cutout, field.
    Cutout(usize, usize, CutoutField),
    /// A corner of a cutout's template: piece, cutout, corner, field.
    Template(usize, usize, usize, TemplateField),
    /// A set of faucet holes: piece, set, field.
    Holes(usize, usize, HolesField),
    /// A bag of the job.
    Bag(usize, BagField),
    /// How a mix is made from scratch: bag, field.
    Recipe(usize, RecipeField),
    /// A strength of a bag: bag, point, field.
    Strength(usize, usize, StrengthField),
    /// An additive of a bag: bag, additive, field.
    Additive(usize, usize, AdditiveField),
    /// Grinding, sealing, carrying, setting.
    Finish(FinishField),
    /// Something to be filled: defect, field.
    Defect(usize, DefectField),
    /// The offer.
    Quote(QuoteField),
    /// The hours of a task: row, field.
    Hours(usize, HoursField),
    /// A part of the maker's own book, which no job holds.
    Book(BookField),
}

impl FieldPath {
    /// The word for the field.
    pub fn label(self) -> &'static str {
        match self {
            Self::Job(field) => field.label(),
            Self::Form(field) => field.label(),
            Self::Layer(_, field) => field.label(),
            Self::Sheet(_, field) => field.label(),
            Self::Pour(field) => field.label(),
            Self::Spell(_, field) => field.label(),
            Self::Seam(field) => field.label(),
            Self::Piece(_, field) => field.label(),
            Self::Steel(_, field) => field.label(),
            Self::Handling(_, field) => field.label(),
            Self::Edge(_, _, field) => field.label(),
            Self::Corner(_, _, field) => field.label(),
            Self::Leg(_, _, field) => field.label(),
            Self::Opening(_, field) => field.label(),
            Self::Reading(_, _, field) => field.label(),
            Self::Station(_, _, field) => field.label(),
            Self::Door(_, _, field) => field.label(),
            Self::Cutout(_, _, field) => field.label(),
            Self::Template(_, _, _, field) => field.label(),
            Self::Holes(_, _, field) => field.label(),
            Self::Bag(_, field) => field.label(),
            Self::Recipe(_, field) => field.label(),
            Self::Strength(_, _, field) => field.label(),
            Self::Additive(_, _, field) => field.label(),
            Self::Finish(field) => field.label(),
            Self::Defect(_, field) => field.label(),
            Self::Quote(field) => field.label(),
            Self::Hours(_, field) => field.label(),
            Self::Book(field) => field.label(),
        }
    }

    /// What the field is read as.
    pub fn kind(self) -> Kind {
        match self {
            Self::Job(field) => field.kind(),
            Self::Form(field) => field.kind(),
            Self::Layer(_, field) => field.kind(),
            Self::Sheet(_, field) => field.kind(),
            Self::Pour(field) => field.kind(),
            Self::Spell(_, field) => field.kind(),
            Self::Seam(field) => field.kind(),
            Self::Piece(_, field) => field.kind(),
            Self::Steel(_, field) => field.kind(),
            Self::Handling(_, field) => field.kind(),
            Self::Edge(_, _, field) => field.kind(),
            Self::Corner(_, _, field) => field.kind(),
            Self::Leg(_, _, field) => field.kind(),
            Self::Opening(_, field) => field.kind(),
            Self::Reading(_, _, field) => field.kind(),
            Self::Station(_, _, field) => field.kind(),
            Self::Door(_, _, field) => field.kind(),
            Self::Cutout(_, _, field) => field.kind(),
            Self::Template(_, _, _, field) => field.kind(),
            Self::Holes(_, _, field) => field.kind(),
            Self::Bag(_, field) => field.kind(),
            Self::Recipe(_, field) => field.kind(),
            Self::Strength(_, _, field) => field.kind(),
            Self::Additive(_, _, field) => field.kind(),
            Self::Finish(field) => field.kind(),
            Self::Defect(_, field) => field.kind(),
            Self::Quote(field) => field.kind(),
            Self::Hours(_, field) => field.kind(),
            Self::Book(field) => field.kind(),
        }
    }

    /// A name that no other place has, fit for an element of a page: `cutout-0-1-width`.
    pub fn key(self) -> String {
        fn word(field: impl std::fmt::Debug) -> String {
            format!("{field:?}").to_lowercase()
        }
        match self {
            Self::Job(field) => format!("job-{}", word(field)),
            Self::Form(field) => format!("form-{}", word(field)),
            Self::Layer(layer, field) => format!("layer-{layer}-{}", word(field)),
            Self::Sheet(sheet, field) => format!("sheet-{sheet}-{}", word(field)),
            Self::Pour(field) => format!("pour-{}", word(field)),
            Self::Spell(spell, field) => format!("spell-{spell}-{}", word(field)),
            Self::Seam(field) => format!("seam-{}", word(field)),
            Self::Piece(piece, field) => format!("piece-{piece}-{}", word(field)),
            Self::Steel(piece, field) => format!("steel-{piece}-{}", word(field)),
            Self::Handling(piece, field) => format!("handling-{piece}-{}", word(field)),
            Self::Edge(piece, side, field) => format!("edge-{piece}-{side}-{}", word(field)),
            Self::Corner(piece, side, field) => format!("corner-{piece}-{side}-{}", word(field)),
            Self::Leg(piece, side, field) => format!("leg-{piece}-{side}-{}", word(field)),
            Self::Opening(piece, field) => format!("opening-{piece}-{}", word(field)),
            Self::Reading(piece, reading, field) => format!("reading-{piece}-{reading}-{}", word(field)),
            Self::Station(piece, station, field) => format!("station-{piece}-{station}-{}", word(field)),
            Self::Door(piece, door, field) => format!("door-{piece}-{door}-{}", word(field)),
            Self::Cutout(piece, cutout, field) => format!("cutout-{piece}-{cutout}-{}", word(field)),
            Self::Template(piece, cutout, corner, field) => {
                format!("template-{piece}-{cutout}-{corner}-{}", word(field))
            }
            Self::Holes(piece, set, field) => format!("holes-{piece}-{set}-{}", word(field)),
            Self::Bag(bag, field) => format!("bag-{bag}-{}", word(field)),
            Self::Recipe(bag, field) => format!("recipe-{bag}-{}", word(field)),
            Self::Strength(bag, point, field) => format!("strength-{bag}-{point}-{}", word(field)),
            Self::Additive(bag, additive, field) => format!("additive-{bag}-{additive}-{}", word(field)),
            Self::Finish(field) => format!("finish-{}", word(field)),
            Self::Defect(index, field) => format!("defect-{index}-{}", word(field)),
            Self::Quote(field) => format!("quote-{}", word(field)),
            Self::Hours(row, field) => format!("hours-{row}-{}", word(field)),
            Self::Book(field) => format!("book-{}", word(field)),
        }
    }
}

impl Job {
    /// Every field that the job has, in its order.
    pub fn places(&self) -> Vec<FieldPath> {
        let mut places: Vec<FieldPath> = Vec::new();
        places.extend(JobField::ALL.iter().map(|field| FieldPath::Job(*field)));
        places.extend(FormField::ALL.iter().map(|field| FieldPath::Form(*field)));
        for layer in 0..self.form.layers.len() {
            places.extend(LayerField::ALL.iter().map(|field| FieldPath::Layer(layer, *field)));
        }
        for sheet in 0..self.form.sheets.len() {
            places.extend(SheetField::ALL.iter().map(|field| FieldPath::Sheet(sheet, *field)));
        }
        places.extend(PourField::ALL.iter().map(|field| FieldPath::Pour(*field)));
        for spell in 0..self.pour.garage.len() {
            places.extend(SpellField::ALL.iter().map(|field| FieldPath::Spell(spell, *field)));
        }
        places.extend(SeamField::ALL.iter().map(|field| FieldPath::Seam(*field)));
        for (index, piece) in self.pieces.iter().enumerate() {
            places.extend(PieceField::ALL.iter().map(|field| FieldPath::Piece(index, *field)));
            places.extend(SteelField::ALL.iter().map(|field| FieldPath::Steel(index, *field)));
            places.extend(HandlingField::ALL.iter().map(|field| FieldPath::Handling(index, *field)));
            for side in 0..piece.edges.len() {
                places.extend(EdgeField::ALL.iter().map(|field| FieldPath::Edge(index, side, *field)));
            }
            for side in 0..piece.corners.len() {
                places.extend(CornerField::ALL.iter().map(|field| FieldPath::Corner(index, side, *field)));
            }
            for side in 0..piece.walk.len() {
                places.extend(LegField::ALL.iter().map(|field| FieldPath::Leg(index, side, *field)));
            }
            places.extend(OpeningField::ALL.iter().map(|field| FieldPath::Opening(index, *field)));
            for reading in 0..piece.opening.readings.len() {
                places.extend(ReadingField::ALL.iter().map(|field| FieldPath::Reading(index, reading, *field)));
            }
            for station in 0..piece.opening.stations.len() {
                places.extend(StationField::ALL.iter().map(|field| FieldPath::Station(index, station, *field)));
            }
            for door in 0..piece.doors.len() {
                places.extend(DoorField::ALL.iter().map(|field| FieldPath::Door(index, door, *field)));
            }
            for (cutout, typed) in piece.cutouts.iter().enumerate() {
                places.extend(CutoutField::ALL.iter().map(|field| FieldPath::Cutout(index, cutout, *field)));
                for corner in 0..typed.template.len() {
                    places.extend(
                        TemplateField::ALL.iter().map(|field| FieldPath::Template(index, cutout, corner, *field)),
                    );
                }
            }
            for set in 0..piece.holes.len() {
                places.extend(HolesField::ALL.iter().map(|field| FieldPath::Holes(index, set, *field)));
            }
        }
        for (index, bag) in self.bags.iter().enumerate() {
            places.extend(BagField::ALL.iter().map(|field| FieldPath::Bag(index, *field)));
            if bag.recipe.is_some() {
                places.extend(RecipeField::ALL.iter().map(|field| FieldPath::Recipe(index, *field)));
            }
            for point in 0..bag.strengths.len() {
                places.extend(StrengthField::ALL.iter().map(|field| FieldPath::Strength(index, point, *field)));
            }
            for additive in 0..bag.additives.len() {
                places.extend(AdditiveField::ALL.iter().map(|field| FieldPath::Additive(index, additive, *field)));
            }
        }
        places.extend(FinishField::ALL.iter().map(|field| FieldPath::Finish(*field)));
        for defect in 0..self.finish.defects.len() {
            places.extend(DefectField::ALL.iter().map(|field| FieldPath::Defect(defect, *field)));
        }
        places.extend(QuoteField::ALL.iter().map(|field| FieldPath::Quote(*field)));
        for row in 0..self.quote.hours.len() {
            places.extend(HoursField::ALL.iter().map(|field| FieldPath::Hours(row, *field)));
        }
        places
    }

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

    /// The entry at that place, if the job reaches so far.
    pub fn entry_at(&self, place: FieldPath) -> Option<&Entry> {
        Some(match place {
            FieldPath::Job(field) => self.entry(field),
            FieldPath::Form(field) => self.form.entry(field),
            FieldPath::Layer(layer, field) => self.form.layers.get(layer)?.entry(field),
            FieldPath::Sheet(sheet, field) => self.form.sheets.get(sheet)?.entry(field),
            FieldPath::Pour(field) => self.pour.entry(field),
            FieldPath::Spell(spell, field) => self.pour.garage.get(spell)?.entry(field),
            FieldPath::Seam(field) => self.seams.entry(field),
            FieldPath::Piece(piece, field) => self.pieces.get(piece)?.entry(field),
            FieldPath::Steel(piece, field) => self.pieces.get(piece)?.reinforcement.entry(field),
            FieldPath::Handling(piece, field) => self.pieces.get(piece)?.handling.entry(field),
            FieldPath::Edge(piece, side, field) => self.pieces.get(piece)?.edges.get(side)?.entry(field),
            FieldPath::Corner(piece, side, field) => self.pieces.get(piece)?.corners.get(side)?.entry(field),
            FieldPath::Leg(piece, side, field) => self.pieces.get(piece)?.walk.get(side)?.entry(field),
            FieldPath::Opening(piece, field) => self.pieces.get(piece)?.opening.entry(field),
            FieldPath::Reading(piece, index, field) => {
                self.pieces.get(piece)?.opening.readings.get(index)?.entry(field)
            }
            FieldPath::Station(piece, index, field) => {
                self.pieces.get(piece)?.opening.stations.get(index)?.entry(field)
            }
            FieldPath::Door(piece, door, field) => self.pieces.get(piece)?.doors.get(door)?.entry(field),
            FieldPath::Cutout(piece, cutout, field) => self.pieces.get(piece)?.cutouts.get(cutout)?.entry(field),
            FieldPath::Template(piece, cutout, corner, field) => {
                self.pieces.get(piece)?.cutouts.get(cutout)?.template.get(corner)?.entry(field)
            }
            FieldPath::Holes(piece, set, field) => self.pieces.get(piece)?.holes.get(set)?.entry(field),
            FieldPath::Bag(bag, field) => self.bags.get(bag)?.entry(field),
            FieldPath::Recipe(bag, field) => self.bags.get(bag)?.recipe.as_ref()?.entry(field),
            FieldPath::Strength(bag, point, field) => self.bags.get(bag)?.strengths.get(point)?.entry(field),
            FieldPath::Additive(bag, additive, field) => self.bags.get(bag)?.additives.get(additive)?.entry(field),
            FieldPath::Finish(field) => self.finish.entry(field),
            FieldPath::Defect(index, field) => self.finish.defects.get(index)?.entry(field),
            FieldPath::Quote(field) => self.quote.entry(field),
            FieldPath::Hours(row, field) => self.quote.hours.get(row)?.entry(field),
            FieldPath::Book(_) => return None,
        })
    }

    /// The entry at that place, to be typed into, if the job reaches so far.
    pub fn entry_at_mut(&mut self, place: FieldPath) -> Option<&mut Entry> {
        Some(match place {
            FieldPath::Job(field) => self.entry_mut(field),
            FieldPath::Form(field) => self.form.entry_mut(field),
            FieldPath::Layer(layer, field) => self.form.layers.get_mut(layer)?.entry_mut(field),
            FieldPath::Sheet(sheet, field) => self.form.sheets.get_mut(sheet)?.entry_mut(field),
            FieldPath::Pour(field) => self.pour.entry_mut(field),
            FieldPath::Spell(spell, field) => self.pour.garage.get_mut(spell)?.entry_mut(field),
            FieldPath::Seam(field) => self.seams.entry_mut(field),
            FieldPath::Piece(piece, field) => self.pieces.get_mut(piece)?.entry_mut(field),
            FieldPath::Steel(piece, field) => self.pieces.get_mut(piece)?.reinforcement.entry_mut(field),
            FieldPath::Handling(piece, field) => self.pieces.get_mut(piece)?.handling.entry_mut(field),
            FieldPath::Edge(piece, side, field) => self.pieces.get_mut(piece)?.edge_at(side)?.entry_mut(field),
            FieldPath::Corner(piece, side, field) => self.pieces.get_mut(piece)?.corner_at(side)?.entry_mut(field),
            FieldPath::Leg(piece, side, field) => self.pieces.get_mut(piece)?.walk.get_mut(side)?.entry_mut(field),
            FieldPath::Opening(piece, field) => self.pieces.get_mut(piece)?.opening.entry_mut(field),
            FieldPath::Reading(piece, index, field) => {
                self.pieces.get_mut(piece)?.opening.readings.get_mut(index)?.entry_mut(field)
            }
            FieldPath::Station(piece, index, field) => {
                self.pieces.get_mut(piece)?.opening.stations.get_mut(index)?.entry_mut(field)
            }
            FieldPath::Door(piece, door, field) => self.pieces.get_mut(piece)?.doors.get_mut(door)?.entry_mut(field),
            FieldPath::Cutout(piece, cutout, field) => {
                self.pieces.get_mut(piece)?.cutouts.get_mut(cutout)?.entry_mut(field)
            }
            FieldPath::Template(piece, cutout, corner, field) => {
                self.pieces.get_mut(piece)?.cutouts.get_mut(cutout)?.template.get_mut(corner)?.entry_mut(field)
            }
            FieldPath::Holes(piece, set, field) => self.pieces.get_mut(piece)?.holes.get_mut(set)?.entry_mut(field),
            FieldPath::Bag(bag, field) => self.bags.get_mut(bag)?.entry_mut(field),
            FieldPath::Recipe(bag, field) => self.bags.get_mut(bag)?.recipe.as_mut()?.entry_mut(field),
            FieldPath::Strength(bag, point, field) => {
                self.bags.get_mut(bag)?.strengths.get_mut(point)?.entry_mut(field)
            }
            FieldPath::Additive(bag, additive, field) => {
                self.bags.get_mut(bag)?.additives.get_mut(additive)?.entry_mut(field)
            }
            FieldPath::Finish(field) => self.finish.entry_mut(field),
            FieldPath::Defect(index, field) => self.finish.defects.get_mut(index)?.entry_mut(field),
            FieldPath::Quote(field) => self.quote.entry_mut(field),
            FieldPath::Hours(row, field) => self.quote.hours.get_mut(row)?.entry_mut(field),
            FieldPath::Book(_) => return None,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::demo;
    use crate::measure::read_length;
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
