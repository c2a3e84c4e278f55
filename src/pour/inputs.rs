//! What was typed and chosen of pour day, of how a mix hardens and of when a piece is stripped, read once: the only file
//! of the room that reads a field of the job.

use crate::job::read::{self, asked, optional};
use crate::job::{
    AdditiveField, Amount, BagField, BarSize, Family, FieldPath, HandlingField, Job, LabelClass, Lath, PourField,
    RecipeKind, SpellField, StrengthField,
};
use crate::measure::{Mass, Pressure, Speed, Temperature, Time, Units};
use crate::mix::{self, MixInputs, OrderInputs, source_of};
use crate::steel::SteelInputs;
use crate::working::{Asked, Known, Source};
use std::sync::Arc;

/// A field that counts as usual while it is blank.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OrUsual<T> {
    /// What counts.
    pub value: T,
    /// Nothing is typed, so that it is the usual one.
    pub is_usual: bool,
}

/// What was typed of pour day and of the days after it; the same for all pieces of a job.
///
/// ```
/// use pourwright::job::Job;
/// use pourwright::measure::Units;
/// use pourwright::pour::DayInputs;
///
/// let mut job = Job::new("a", Units::Inch);
/// (job.pour.people, job.pour.mixers) = ("2".into(), "".into());
/// let day = DayInputs::read(&job);
/// assert_eq!(day.people, Ok(2));
/// assert_eq!(day.mixers, Ok(None), "a blank is one a person");
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct DayInputs {
    /// The system of units: in which steps a bag is weighed out, water is measured and a remedy is told, and at which
    /// temperature laboratory strengths are stated.
    pub units: Units,
    /// People who mix and place; waited for.
    pub people: Known<u32>,
    /// Mixers, all of one size; nothing where it is blank: then as many as people.
    pub mixers: Known<Option<u32>>,
    /// Bags in one batch; waited for.
    pub bags_a_batch: Known<u32>,
    /// From first water of a batch to its being mixed, more than nothing; waited for.
    pub mixing: Known<Time>,
    /// From mixed to an empty mixer.
    pub carry: Known<OrUsual<Time>>,
    /// From dumped to placed.
    pub place: Known<OrUsual<Time>>,
    /// Screeding and the first trowelling of one piece.
    pub screed: Known<OrUsual<Time>>,
    /// The share of the fill at which steel goes in. Typed, there is steel though no lath and no bar is chosen.
    pub steel_at: Known<OrUsual<f64>>,
    /// How long one person lays the steel of one piece. Typed, there is steel though no lath and no bar is chosen.
    pub steel_takes: Known<OrUsual<Time>>,
    /// Temperature of the air. The plan and the drying wait for it; where the form stands counts as warm as the air, and
    /// where that is blank as the reference of the label.
    pub air: Asked<Temperature>,
    /// Temperature of the mix as measured; nothing where it is blank: then it follows from what goes in.
    pub mix: Known<Option<Temperature>>,
    /// Temperature of the bags; nothing where it is blank: then that of the air.
    pub bags_at: Known<Option<Temperature>>,
    /// Temperature of the mixing water; nothing where it is blank: then that of the air.
    pub water_at: Known<Option<Temperature>>,
    /// Ice in place of water in one batch; nothing where it is blank: then none.
    pub ice: Known<Option<Mass>>,
    /// Relative humidity of the air, as a share; the drying waits for it.
    pub humidity: Known<f64>,
    /// Wind over the form; still air where it is blank.
    pub wind: Known<Speed>,
    /// How warm it is around the form, spell after spell from the first water on; with none, as warm as the air.
    pub spells: Vec<SpellInputs>,
    /// The strength that a piece is to have when it leaves its form; nothing where it is blank: then what it takes to lift
    /// it out.
    pub strip_strength: Known<Option<Pressure>>,
}

/// One spell of temperature around the form, as typed.
#[derive(Clone, Debug, PartialEq)]
pub struct SpellInputs {
    /// How long it lasts, more than nothing; waited for.
    pub lasts: Known<Time>,
    /// How warm it is; waited for.
    pub temperature: Known<Temperature>,
}

/// How one mix stays workable, sets and hardens, as typed.
#[derive(Clone, Debug, PartialEq)]
pub struct CureInputs {
    /// What is read of it to mix it.
    pub mix: MixInputs,
    /// Its family; a filler where it is made from scratch, but for whether it is kept wet.
    pub family: Family,
    /// What it is made as from scratch; nothing of a bag.
    pub made_as: Option<RecipeKind>,
    /// The class that its label names.
    pub class: LabelClass,
    /// How long it stays workable at 70 °F, more than nothing; waited for.
    pub workable: Known<Time>,
    /// Where that comes from.
    pub workable_source: Source,
    /// The label's least time in the form, more than nothing; waited for.
    pub strip_after: Known<Time>,
    /// Where that comes from.
    pub strip_source: Source,
    /// The temperature at which label and strengths are stated; nothing where it is blank: then that of the laboratories
    /// of the system of units.
    pub stated_at: Known<Option<Temperature>>,
    /// Its strengths by age, but for rows that are blank.
    pub strengths: Vec<StrengthRow>,
    /// Rows of strengths, blank ones too.
    pub strength_rows: usize,
    /// What its additives do to it, in the order of those of the mix.
    pub additives: Vec<CureAdditive>,
}

/// One strength of a mix, as typed.
#[derive(Clone, Debug, PartialEq)]
pub struct StrengthRow {
    /// Its row among those of the bag, from zero.
    pub row: usize,
    /// Age at the reference temperature, more than nothing; waited for.
    pub age: Known<Time>,
    /// Compressive strength at that age, more than nothing; waited for.
    pub strength: Known<Pressure>,
}

/// What an additive does to the day and to the strength.
#[derive(Clone, Debug, PartialEq)]
pub struct CureAdditive {
    /// How much longer the mix stays workable with the most that its label allows, or as it is dosed where the mix is made
    /// from scratch; nothing where it is blank.
    pub longer: Known<Option<Time>>,
    /// What it makes of the strength at 28 days, as a share; nothing where it is blank.
    pub strength: Known<Option<f64>>,
}

/// A piece as it is named on pour day, and the steel that is laid into it then.
#[derive(Clone, Debug, PartialEq)]
pub struct PouredPiece {
    /// Index of the piece among the job's.
    pub index: usize,
    /// What to call it inside of a sentence.
    pub name: String,
    /// Lath is laid into it.
    pub lath: bool,
    /// Bars are laid into it.
    pub bars: bool,
}

/// What pouring, curing and stripping one piece follows from.
#[derive(Clone, Debug, PartialEq)]
pub struct PourInputs {
    /// The piece.
    pub piece: PouredPiece,
    /// How old it is when it leaves its form, by the clock; nothing where it is blank.
    pub stripped_at: Known<Option<Time>>,
    /// How strong it is then, more than nothing. Where it is blank, that follows from its age.
    pub stripped_strength: Asked<Pressure>,
    /// The mix that it is cast from; waited for where none of the job's has its id.
    pub cure: Known<CureInputs>,
    /// The day.
    pub day: Arc<DayInputs>,
}

/// What pouring several pieces of one mix at one go follows from.
#[derive(Clone, Debug, PartialEq)]
pub struct PouringInputs {
    /// The pieces, in the order of the job; at least two.
    pub pieces: Vec<PouredPiece>,
    /// Their mix.
    pub cure: CureInputs,
    /// The day.
    pub day: Arc<DayInputs>,
}

const fn at(field: PourField) -> FieldPath {
    FieldPath::Pour(field)
}

impl DayInputs {
    /// What is typed of pour day.
    pub fn read(job: &Job) -> Self {
        let usual_time = |field| or_usual(job, field, read::duration);
        let temperature = |field| optional(job, at(field), read::temperature);
        let spell = |index| SpellInputs {
            lasts: read::positive_duration(job, FieldPath::Spell(index, SpellField::Lasts)),
            temperature: read::temperature(job, FieldPath::Spell(index, SpellField::Temperature)),
        };
        Self {
            units: job.units,
            people: read::count(job, at(PourField::People)),
            mixers: optional(job, at(PourField::Mixers), read::count),
            bags_a_batch: read::count(job, at(PourField::BagsABatch)),
            mixing: read::positive_duration(job, at(PourField::MinutesABatch)),
            carry: usual_time(PourField::Carry),
            place: usual_time(PourField::Place),
            screed: usual_time(PourField::Screed),
            steel_at: or_usual(job, PourField::SteelAt, read::percent),
            steel_takes: usual_time(PourField::SteelTakes),
            air: asked(job, at(PourField::Air), read::temperature),
            mix: temperature(PourField::Mix),
            bags_at: temperature(PourField::BagTemperature),
            water_at: temperature(PourField::WaterTemperature),
            ice: optional(job, at(PourField::Ice), read::mass),
            humidity: read::percent(job, at(PourField::Humidity)),
            wind: optional(job, at(PourField::Wind), read::speed).map(Option::unwrap_or_default),
            spells: (0..job.pour.garage.len()).map(spell).collect(),
            strip_strength: optional(job, at(PourField::StripStrength), read::pressure),
        }
    }
}

/// What was typed there, else what is usual.
fn or_usual<T: TryFrom<Amount>>(
    job: &Job,
    field: PourField,
    reader: fn(&Job, FieldPath) -> Known<T>,
) -> Known<OrUsual<T>> {
    match optional(job, at(field), reader)? {
        Some(value) => Ok(OrUsual { value, is_usual: false }),
        None => read::usual(job, at(field)).map(|value| OrUsual { value, is_usual: true }),
    }
}

impl CureInputs {
    /// What is typed of that mix, which was read to be mixed already. Of a mix that the job has not, nothing is.
    pub fn read(job: &Job, mix: MixInputs) -> Self {
        let index = mix.index;
        let bag = job.bags.get(index);
        let at = |field| FieldPath::Bag(index, field);
        let source = |field| bag.map_or(Source::Typed, |bag| source_of(bag, field));
        let additive = |additive| CureAdditive {
            longer: optional(job, FieldPath::Additive(index, additive, AdditiveField::Longer), read::duration),
            strength: optional(job, FieldPath::Additive(index, additive, AdditiveField::Strength), read::percent),
        };
        let row = |row| {
            let at = |field| FieldPath::Strength(index, row, field);
            StrengthRow {
                row,
                age: read::positive_duration(job, at(StrengthField::Age)),
                strength: read::positive_pressure(job, at(StrengthField::Strength)),
            }
        };
        let rows = bag.map_or(&[][..], |bag| &bag.strengths);
        let typed = rows.iter().enumerate().filter(|(_, row)| !(row.age.is_blank() && row.strength.is_blank()));
        Self {
            family: bag.map_or(Family::PortlandConcrete, |bag| bag.family),
            made_as: bag.and_then(|bag| bag.recipe.as_ref()).map(|recipe| recipe.kind),
            class: bag.map_or(LabelClass::Unsaid, |bag| bag.class),
            workable: read::positive_duration(job, at(BagField::Workable)),
            workable_source: source(BagField::Workable),
            strip_after: read::positive_duration(job, at(BagField::StripAfter)),
            strip_source: source(BagField::StripAfter),
            stated_at: optional(job, at(BagField::StatedAt), read::temperature),
            strengths: typed.map(|(index, _)| row(index)).collect(),
            strength_rows: rows.len(),
            additives: (0..mix.additives.len()).map(additive).collect(),
            mix,
        }
    }

    /// It sets fast and is kept wet from then on.
    pub fn is_kept_wet(&self) -> bool {
        self.family == Family::RapidMortar
    }

    /// It bleeds little, so that its face dries sooner than it is fed.
    pub fn bleeds_little(&self) -> bool {
        match self.made_as {
            Some(RecipeKind::Mortar | RecipeKind::GlassFibre) => true,
            Some(RecipeKind::Concrete) => false,
            None => self.family == Family::RapidMortar,
        }
    }
}

impl PouredPiece {
    fn read(job: &Job, index: usize, steel: (Lath, BarSize)) -> Self {
        let (lath, bars) = steel;
        Self { index, name: read::piece_name(job, index), lath: lath != Lath::None, bars: bars != BarSize::None }
    }

    /// Steel is laid into it.
    pub fn has_steel(&self) -> bool {
        self.lath || self.bars
    }
}

impl PourInputs {
    /// What is typed of the piece with that index, its mix and its day.
    pub fn read(job: &Job, piece: usize) -> Self {
        Self::read_on(job, piece, &Arc::new(DayInputs::read(job)))
    }

    /// The same, where the day was read already.
    pub(crate) fn read_on(job: &Job, piece: usize, day: &Arc<DayInputs>) -> Self {
        let mix = mix::PieceInputs::read(job, piece).mix;
        Self::read_with(job, &mix, &SteelInputs::read(job, piece), day)
    }

    /// The same, where its mix, its steel and the day were read already.
    pub(crate) fn read_with(job: &Job, mix: &Known<MixInputs>, steel: &SteelInputs, day: &Arc<DayInputs>) -> Self {
        let piece = steel.piece;
        let place = |field| FieldPath::Handling(piece, field);
        Self {
            piece: PouredPiece::read(job, piece, (steel.lath, steel.bars)),
            stripped_at: optional(job, place(HandlingField::StrippedAt), read::positive_duration),
            stripped_strength: asked(job, place(HandlingField::Strength), read::positive_pressure),
            cure: mix.clone().map(|mix| CureInputs::read(job, mix)),
            day: day.clone(),
        }
    }
}

impl PouringInputs {
    /// What the pieces of one order are poured from; nothing where it is only one.
    pub(crate) fn read(job: &Job, order: &OrderInputs, day: &Arc<DayInputs>) -> Option<Self> {
        if order.pieces.len() < 2 {
            return None;
        }
        let piece = |index: usize| {
            let steel = job.pieces.get(index).map(|piece| &piece.reinforcement);
            let steel = steel.map_or((Lath::None, BarSize::None), |steel| (steel.lath, steel.bars));
            PouredPiece::read(job, index, steel)
        };
        Some(Self {
            pieces: order.pieces.iter().map(|named| piece(named.index)).collect(),
            cure: CureInputs::read(job, order.mix.clone()),
            day: day.clone(),
        })
    }
}
