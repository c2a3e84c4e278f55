//! Jobs to try things with, plain and hostile.

use crate::schema;
use pourwright::job::{
    AcrossFrom, Additive, AdditiveField, AirFor, AlongFrom, Back, Bag, BagField, Carried, Corner, CornerKind, Cutout,
    CutoutShape, DefectEntry, DefectField, DefectKind, Door, Edge, EdgeKind, Entry, Exposure, Family, FinishChoices,
    FinishField, FormChoices, FrozenQuote, GrindingWay, Grip, Hand, Handling, HandlingField, HolePattern, Holes,
    HolesFrom, HoursField, Job, LabelClass, Leg, LiftLevel, Logged, Measured, Opening, OpeningReading, OpeningWalls,
    OutlineShape, Piece, PieceKind, PourDay, PourField, PourStep, QuoteChoices, QuoteField, QuoteLine, QuoteOption,
    Reach, Recipe, RecipeField, RecipeKind, Reinforcement, Rest, Reveal, SealKind, Seams, Sheen, SinkBay, Spell,
    Station, StrengthPoint, Stripped, Task, TaskHours, TemplateCorner, Travels, Turn, Units,
};
use pourwright::measure::Date;
use pourwright::price::{BagPrice, ChargeBy, Good, LoggedHours, MarginOn, OwnedPad, Pace, PriceBook};
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use proptest::sample::select;

/// Texts that try to leave the place they are put in.
pub const HOSTILE: &[&str] = &[
    "</script><script>alert(1)</script>",
    "</SCRIPT ><script type=module>",
    "<img src=x onerror=alert(1)>",
    "\" onmouseover=\"alert(1)",
    "' onfocus='alert(1)' autofocus='",
    "<!--",
    "-->",
    "<!--<script>",
    "]]>",
    "\u{2028}\u{2029}",
    "\u{202e}gnp.exe",
    "\0\u{1}\u{7f}\u{feff}",
    "&lt;&amp;\\u003c",
    "\\\"\\",
    "{{constructor}}",
    "<script type=\"application/json\" id=\"pourwright-job\">{}</script>",
    "javascript:alert(1)",
    "67 1/",
    "5' 7 1/4\"",
    "Käse 北京 🧱",
    "\r\n\t ",
];

/// A job with a little in it.
pub fn plain(id: &str, name: &str) -> Job {
    Job {
        seams: Seams::new(Units::Inch),
        finish: FinishChoices::default(),
        quote: QuoteChoices::default(),
        id: id.to_owned(),
        name: name.into(),
        client: "Osier House".into(),
        notes: "Stairs turn twice".into(),
        units: Units::Inch,
        pieces: vec![piece()],
        bags: vec![bag("white")],
        form: FormChoices::new(Units::Inch),
        pour: PourDay::new(Units::Inch),
    }
}

fn piece() -> Piece {
    Piece {
        width: "31 1/2".into(),
        depth: "22".into(),
        edges: vec![Edge::default(); 4],
        cutouts: vec![Cutout::default()],
        holes: vec![Holes::default()],
        ..Piece::new("Top", "white", Units::Inch)
    }
}

/// A bag with nothing on its label.
pub fn bag(id: &str) -> Bag {
    Bag { id: id.to_owned(), name: Entry::new(id), family: Family::RapidMortar, mass: "50 lb".into(), ..Bag::default() }
}

/// Prices of the bags with those ids.
pub fn prices(bags: &[(&str, &str)]) -> PriceBook {
    let bags = bags.iter().map(|(bag, price)| BagPrice {
        bag: (*bag).to_owned(),
        price: Entry::new(price),
        ..BagPrice::default()
    });
    PriceBook { bags: bags.collect(), ..PriceBook::default() }
}

/// Any text, often a hostile one.
pub fn any_text() -> impl Strategy<Value = String> {
    prop_oneof![
        3 => select(HOSTILE).prop_map(str::to_owned),
        1 => vec(any::<char>(), 0..12).prop_map(String::from_iter),
        1 => "[0-9 /'\"½.,]{0,10}",
    ]
}

fn entry() -> impl Strategy<Value = Entry> {
    any_text().prop_map(Entry)
}

fn entries<const N: usize>() -> impl Strategy<Value = [Entry; N]> {
    vec(entry(), N).prop_map(|entries| entries.try_into().expect("just as many as asked for"))
}

fn any_edge() -> impl Strategy<Value = Edge> {
    (select(&EdgeKind::ALL[..]), entries()).prop_map(|(kind, [liner, radius])| Edge { kind, liner, radius })
}

fn any_corner() -> impl Strategy<Value = Corner> {
    (select(&CornerKind::ALL[..]), entries()).prop_map(|(kind, [radius, before, after])| Corner {
        kind,
        radius,
        before,
        after,
    })
}

fn any_leg() -> impl Strategy<Value = Leg> {
    entries().prop_map(|[length, angle, bow]| Leg { length, angle, bow })
}

fn any_reading() -> impl Strategy<Value = OpeningReading> {
    (select(&Measured::ALL[..]), entries()).prop_map(|(of, [length, one_leg, other_leg, between])| OpeningReading {
        of,
        length,
        one_leg,
        other_leg,
        between,
    })
}

fn any_opening() -> impl Strategy<Value = Opening> {
    let stations = vec(entries().prop_map(|[along, gap]| Station { along, gap }), 0..3);
    (select(&OpeningWalls::ALL[..]), vec(any_reading(), 0..4), entries(), stations).prop_map(
        |(walls, readings, [clearance, overhang, end_overhang, backsplash], stations)| Opening {
            walls,
            readings,
            clearance,
            overhang,
            end_overhang,
            backsplash,
            stations,
        },
    )
}

fn any_cutout() -> impl Strategy<Value = Cutout> {
    let corner = entries().prop_map(|[from_left, from_front, radius]| TemplateCorner { from_left, from_front, radius });
    let choices = (
        select(&CutoutShape::ALL[..]),
        select(&Reveal::ALL[..]),
        select(&AcrossFrom::ALL[..]),
        select(&AlongFrom::ALL[..]),
        select(&[Hand::Left, Hand::Right][..]),
        proptest::option::of(0usize..4),
    );
    (choices, entries(), entries(), vec(corner, 0..4)).prop_map(
        |(
            (shape, reveal, across, along, door_side, door),
            [width, depth, corner_radius, reveal_width, from_left, from_right, from_door, from_front, from_back],
            [bowl_depth, bowl_weight],
            template,
        )| Cutout {
            shape,
            width,
            depth,
            corner_radius,
            template,
            reveal,
            reveal_width,
            bowl_depth,
            bowl_weight,
            across,
            from_left,
            from_right,
            door,
            from_door,
            door_side,
            along,
            from_front,
            from_back,
        },
    )
}

fn any_holes() -> impl Strategy<Value = Holes> {
    let pattern = select(&[HolePattern::Single, HolePattern::Three][..]);
    let placed = (select(&[HolesFrom::Edges, HolesFrom::Bowl][..]), proptest::option::of(0usize..4));
    (pattern, placed, entries()).prop_map(
        |(pattern, (placed, cutout), [diameter, spread, from_left, from_front, behind])| Holes {
            pattern,
            diameter,
            spread,
            placed,
            from_left,
            from_front,
            cutout,
            behind,
        },
    )
}

fn any_handling() -> impl Strategy<Value = Handling> {
    let ways = (select(&Stripped::ALL[..]), select(&Carried::ALL[..]), select(&Travels::ALL[..]));
    let bears = (select(&SinkBay::ALL[..]), select(&Rest::ALL[..]), select(&Back::ALL[..]));
    let typed = vec(entry(), HandlingField::ALL.len());
    (ways, bears, typed).prop_map(|((stripped, carried, travels), (bay, rest, back), typed)| {
        let mut handling = Handling { stripped, carried, travels, bay, rest, back, ..Handling::default() };
        for (field, entry) in HandlingField::ALL.iter().zip(typed) {
            *handling.entry_mut(*field) = entry;
        }
        handling
    })
}

fn any_piece() -> impl Strategy<Value = Piece> {
    let kind = select(&PieceKind::ALL[..]);
    let doors = vec(entries().prop_map(|[from_left]| Door { from_left }), 0..3);
    let shape = (select(&OutlineShape::ALL[..]), select(&[Hand::Left, Hand::Right][..]), kind, doors);
    let sides = (vec(any_edge(), 0..4), vec(any_corner(), 0..4), vec(any_leg(), 0..4));
    let inside = (vec(any_cutout(), 0..3), vec(any_holes(), 0..3), vec(any_logged(), 0..4));
    let inside = (inside, any_handling());
    (shape, entries(), entries(), sides, any_opening(), inside, any_text()).prop_map(
        |(
            (shape, hand, kind, doors),
            [name, width, depth, thickness, grinding, waste, steel],
            [leg, right_leg, right_depth, front_depth, bow],
            (edges, corners, walk),
            opening,
            ((cutouts, holes, log), handling),
            bag,
        )| Piece {
            name,
            kind,
            doors,
            shape,
            width,
            depth,
            hand,
            leg,
            right_leg,
            right_depth,
            front_depth,
            bow,
            corners,
            walk,
            opening,
            thickness,
            grinding,
            edges,
            cutouts,
            holes,
            bag,
            spare: waste,
            reinforcement: Reinforcement::new(Units::Inch),
            steel,
            log,
            handling,
        },
    )
}

/// Any bag.
pub fn any_bag() -> impl Strategy<Value = Bag> {
    let family = select(&[Family::RapidMortar, Family::PortlandConcrete][..]);
    let strengths = vec(entries().prop_map(|[age, strength]| StrengthPoint { age, strength }), 0..3);
    let additive = vec(entry(), AdditiveField::ALL.len()).prop_map(|typed| {
        let mut additive = Additive::default();
        for (field, entry) in AdditiveField::ALL.iter().zip(typed) {
            *additive.entry_mut(*field) = entry;
        }
        additive
    });
    let additives = vec(additive, 0..3);
    let recipe = option::of(any_recipe());
    let class = select(LabelClass::of(Family::RapidMortar));
    let typed = vec(entry(), BagField::ALL.len());
    (any_text(), family, class, typed, strengths, additives, recipe).prop_map(
        |(id, family, class, typed, strengths, additives, recipe)| {
            let mut bag = Bag { id, family, class, strengths, additives, recipe, ..Bag::default() };
            for (field, entry) in BagField::ALL.iter().zip(typed) {
                *bag.entry_mut(*field) = entry;
            }
            bag
        },
    )
}

fn any_recipe() -> impl Strategy<Value = Recipe> {
    let kind = select(vec![RecipeKind::Concrete, RecipeKind::Mortar, RecipeKind::GlassFibre]);
    let typed = vec(entry(), RecipeField::ALL.len());
    (kind, select(&AirFor::ALL[..]), typed).prop_map(|(kind, air_for, typed)| {
        let mut recipe = Recipe { kind, air_for, ..Recipe::default() };
        for (field, entry) in RecipeField::ALL.iter().zip(typed) {
            *recipe.entry_mut(*field) = entry;
        }
        recipe
    })
}

fn any_logged() -> impl Strategy<Value = Logged> {
    const STEPS: [PourStep; 7] = [
        PourStep::Lath,
        PourStep::Bars,
        PourStep::Screed,
        PourStep::Trowel,
        PourStep::Patches,
        PourStep::Wet,
        PourStep::Strip,
    ];
    let step = prop_oneof![
        any::<u32>().prop_map(PourStep::Water),
        any::<u32>().prop_map(PourStep::Placed),
        select(&STEPS[..]),
    ];
    (any::<u32>(), step, any::<u64>()).prop_map(|(part, step, at)| Logged { part, step, at })
}

fn any_pour() -> impl Strategy<Value = PourDay> {
    let spell = entries().prop_map(|[lasts, temperature]| Spell { lasts, temperature });
    (vec(entry(), PourField::ALL.len()), vec(spell, 0..3), vec(any_text(), 0..3)).prop_map(|(typed, garage, ticks)| {
        let mut pour = PourDay { garage, ticks, ..PourDay::new(Units::Inch) };
        for (field, entry) in PourField::ALL.iter().zip(typed) {
            *pour.entry_mut(*field) = entry;
        }
        pour
    })
}

fn any_finish() -> impl Strategy<Value = FinishChoices> {
    let defect = (select(&DefectKind::ALL[..]), entries::<4>()).prop_map(|(kind, typed)| {
        let mut defect = DefectEntry { kind, ..DefectEntry::default() };
        for (field, entry) in DefectField::ALL.iter().zip(typed) {
            *defect.entry_mut(*field) = entry;
        }
        defect
    });
    let looks = (option::of(select(&Exposure::ALL[..])), option::of(select(&Sheen::ALL[..])));
    let ways = (select(&GrindingWay::ALL[..]), select(&SealKind::ALL[..]));
    let levels = (select(&LiftLevel::ALL[..]), select(&LiftLevel::ALL[..]));
    let lift = (levels, select(&Reach::ALL[..]), select(&Turn::ALL[..]), select(&Grip::ALL[..]));
    let typed = vec(entry(), FinishField::ALL.len());
    (looks, ways, lift, vec(defect, 0..3), typed).prop_map(
        |((exposure, sheen), (way, seal), ((lift_from, lift_to), reach, turn, grip), defects, typed)| {
            let mut finish = FinishChoices {
                exposure,
                sheen,
                way,
                seal,
                lift_from,
                lift_to,
                reach,
                turn,
                grip,
                defects,
                ..FinishChoices::default()
            };
            for (field, entry) in FinishField::ALL.iter().zip(typed) {
                *finish.entry_mut(*field) = entry;
            }
            finish
        },
    )
}

fn any_lines() -> impl Strategy<Value = Vec<QuoteLine>> {
    vec((any_text(), any_text()).prop_map(|(label, text)| QuoteLine { label, text }), 0..3)
}

fn any_frozen() -> impl Strategy<Value = FrozenQuote> {
    let day = || (-700_000..2_900_000).prop_map(|days| Date::from_days(days).expect("a day of the calendar"));
    let option =
        (any_text(), any_lines(), any_text()).prop_map(|(name, differs, price)| QuoteOption { name, differs, price });
    let texts = (any_text(), any_text(), any_text(), any_text());
    (day(), day(), texts, any_lines(), any_lines(), vec(option, 0..2), vec(any_text(), 0..3)).prop_map(
        |(sent, valid_until, (maker, price, currency, name), lines, amounts, options, excluded)| FrozenQuote {
            sent,
            valid_until,
            maker,
            lines,
            amounts,
            price,
            currency,
            options,
            excluded,
            job: Box::new(plain("sent", &name)),
        },
    )
}

fn any_quote() -> impl Strategy<Value = QuoteChoices> {
    let hours = (select(&Task::ALL[..]), entries()).prop_map(|(task, [estimated, took])| {
        let mut hours = TaskHours { task, estimated, took };
        assert_eq!(HoursField::ALL.len(), 2, "every field is typed into");
        *hours.entry_mut(HoursField::Took) = hours.took.clone();
        hours
    });
    let typed = vec(entry(), QuoteField::ALL.len());
    (typed, vec(any_text(), 0..3), vec(hours, 0..8), option::of(any_frozen())).prop_map(
        |(typed, options, hours, frozen)| {
            let mut quote = QuoteChoices { options, hours, frozen, ..QuoteChoices::default() };
            for (field, entry) in QuoteField::ALL.iter().zip(typed) {
                *quote.entry_mut(*field) = entry;
            }
            quote
        },
    )
}

/// Any job: whatever stands in its fields, and every choice.
pub fn any_job() -> impl Strategy<Value = Job> {
    let units = select(&[Units::Inch, Units::Metric][..]);
    let after = (any_pour(), any_finish(), any_quote());
    let typed = (vec((any::<u8>(), entry()), 61), vec(any::<u8>(), 61), 0..3usize, 0..3usize);
    (any_text(), units, vec(any_piece(), 0..3), vec(any_bag(), 0..3), after, typed).prop_map(
        |(id, units, pieces, bags, (pour, finish, quote), (texts, picks, layers, sheets))| {
            let (form, seams) = (FormChoices::new(units), Seams::new(units));
            let name = Entry::default();
            let (client, notes) = (name.clone(), name.clone());
            let mut job = Job { id, name, client, notes, units, pieces, bags, form, pour, seams, finish, quote };
            schema::stock(&mut job, layers, sheets);
            schema::choose(&mut job, &picks);
            schema::fill(&mut job, &texts, |_, _| true);
            job
        },
    )
}

#[test]
fn any_job_has_anything_in_every_field_and_makes_every_choice() {
    schema::assert_all_is_tried(any_job(), 400);
}

/// Any price book.
pub fn any_prices() -> impl Strategy<Value = PriceBook> {
    let bag =
        (any_text(), entries()).prop_map(|(bag, [price, priced_on, stock])| BagPrice { bag, price, priced_on, stock });
    let good = (any_text(), select(&ChargeBy::ALL[..]), entries()).prop_map(
        |(id, charge, [pack, price, priced_on, uses, stock])| Good { id, pack, price, priced_on, charge, uses, stock },
    );
    let pad = entries().prop_map(|[grit, pace, life, price, diameter, rated]| OwnedPad {
        grit,
        pace,
        life,
        price,
        diameter,
        rated,
    });
    let pace = (select(&Task::ALL[..]), entries()).prop_map(|(task, [fixed, face_an_hour])| Pace {
        task,
        fixed,
        face_an_hour,
    });
    let logged = (any_text(), select(&Task::ALL[..]), entries())
        .prop_map(|(job, task, [estimated, took])| LoggedHours { job, task, estimated, took });
    let lists = (vec(bag, 0..4), vec(good, 0..3), vec(pad, 0..3), vec(pace, 0..3), vec(logged, 0..3));
    let units = select(&[Units::Inch, Units::Metric][..]);
    (any_text(), units, select(&MarginOn::ALL[..]), entries(), lists).prop_map(
        |(currency, units, margin_on, [maker, wage, overhead, margin, tax], (bags, goods, pads, pace, log))| {
            PriceBook { currency, units, maker, wage, overhead, margin, margin_on, tax, bags, goods, pads, pace, log }
        },
    )
}
