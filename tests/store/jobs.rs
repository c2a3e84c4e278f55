//! Jobs to try things with, plain and hostile.

use pourwright::job::{
    AcrossFrom, Additive, AlongFrom, Bag, Carried, Corner, CornerKind, Cutout, CutoutShape, Door, Edge, EdgeKind,
    Entry, Family, FormChoices, Hand, Handling, HolePattern, Holes, HolesFrom, Job, Leg, Measured, Opening,
    OpeningReading, OpeningWalls, OutlineShape, Piece, PieceKind, PourDay, Reinforcement, Reveal, Seams, SideStand,
    SinkBay, Station, StrengthPoint, Stripped, TemplateCorner, Units,
};
use pourwright::price::{BagPrice, PriceBook};
use proptest::collection::vec;
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
        id: id.to_owned(),
        name: name.into(),
        client: "Osier House".into(),
        notes: "Stairs turn twice".into(),
        units: Units::Inch,
        pieces: vec![piece()],
        bags: vec![bag("white")],
        form: FormChoices::new(Units::Inch),
        pour: PourDay { air: "70".into(), people: "1".into(), bags_a_batch: "1".into(), minutes_a_batch: "4".into() },
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
    Bag {
        id: id.to_owned(),
        name: Entry::new(id),
        family: Family::RapidMortar,
        mass: "50 lb".into(),
        yields: Entry::default(),
        water: Entry::default(),
        water_least: Entry::default(),
        water_most: Entry::default(),
        workable: Entry::default(),
        strip_after: Entry::default(),
        hardened_density: Entry::default(),
        strengths: Vec::new(),
        additives: Vec::new(),
    }
}

/// Prices of the bags with those ids.
pub fn prices(bags: &[(&str, &str)]) -> PriceBook {
    let bags = bags.iter().map(|(bag, price)| BagPrice { bag: (*bag).to_owned(), price: Entry::new(price) });
    PriceBook { currency: "USD".to_owned(), bags: bags.collect() }
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
    (choices, entries(), vec(corner, 0..4)).prop_map(
        |(
            (shape, reveal, across, along, door_side, door),
            [width, depth, corner_radius, reveal_width, from_left, from_right, from_door, from_front, from_back],
            template,
        )| Cutout {
            shape,
            width,
            depth,
            corner_radius,
            template,
            reveal,
            reveal_width,
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
    let choices = (select(&Stripped::ALL[..]), select(&Carried::ALL[..]), select(&SinkBay::ALL[..]));
    (choices, entries(), entries()).prop_map(
        |(
            (stripped, carried, bay),
            [stripped_at, carried_at, strength, flexural, suction, jolt, push],
            [person, overhang, cabinet_rail, sink_bay, gap_from, gap_width, low_left],
        )| Handling {
            stripped_at,
            carried_at,
            strength,
            flexural,
            stripped,
            carried,
            suction,
            jolt,
            push,
            person,
            overhang,
            cabinet_rail,
            sink_bay,
            bay,
            gap_from,
            gap_width,
            low_left,
        },
    )
}

fn any_piece() -> impl Strategy<Value = Piece> {
    let kind = select(&PieceKind::ALL[..]);
    let doors = vec(entries().prop_map(|[from_left]| Door { from_left }), 0..3);
    let shape = (select(&OutlineShape::ALL[..]), select(&[Hand::Left, Hand::Right][..]), kind, doors);
    let sides = (vec(any_edge(), 0..4), vec(any_corner(), 0..4), vec(any_leg(), 0..4));
    let inside = (vec(any_cutout(), 0..3), vec(any_holes(), 0..3));
    let inside = (inside, any_handling());
    (shape, entries(), entries(), sides, any_opening(), inside, any_text()).prop_map(
        |(
            (shape, hand, kind, doors),
            [name, width, depth, thickness, grinding, waste, steel],
            [leg, right_leg, right_depth, front_depth, bow],
            (edges, corners, walk),
            opening,
            ((cutouts, holes), handling),
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
            waste,
            reinforcement: Reinforcement::new(Units::Inch),
            steel,
            handling,
        },
    )
}

/// Any bag.
pub fn any_bag() -> impl Strategy<Value = Bag> {
    let family = select(&[Family::RapidMortar, Family::PortlandConcrete][..]);
    let strengths = vec(entries().prop_map(|[age, strength]| StrengthPoint { age, strength }), 0..3);
    let additives = vec(entries().prop_map(|[name, dose]| Additive { name, dose }), 0..3);
    (any_text(), family, entries(), strengths, additives).prop_map(
        |(
            id,
            family,
            [name, mass, yields, water, water_least, water_most, workable, strip_after, hardened_density],
            strengths,
            additives,
        )| Bag {
            id,
            name,
            family,
            mass,
            yields,
            water,
            water_least,
            water_most,
            workable,
            strip_after,
            hardened_density,
            strengths,
            additives,
        },
    )
}

/// Any job.
pub fn any_job() -> impl Strategy<Value = Job> {
    let units = select(&[Units::Inch, Units::Metric][..]);
    let sides = select(&[SideStand::OnEdge, SideStand::OnBase][..]);
    (any_text(), entries(), units, vec(any_piece(), 0..3), vec(any_bag(), 0..3), sides).prop_map(
        |(
            id,
            [name, client, notes, board, air, people, bags_a_batch, minutes_a_batch, longest, heaviest],
            units,
            pieces,
            bags,
            sides,
        )| {
            Job {
                seams: Seams { longest, heaviest },
                id,
                name,
                client,
                notes,
                units,
                pieces,
                bags,
                form: FormChoices { board, sides, ..FormChoices::new(units) },
                pour: PourDay { air, people, bags_a_batch, minutes_a_batch },
            }
        },
    )
}

/// Any price book.
pub fn any_prices() -> impl Strategy<Value = PriceBook> {
    let price = (any_text(), entry()).prop_map(|(bag, price)| BagPrice { bag, price });
    (any_text(), vec(price, 0..4)).prop_map(|(currency, bags)| PriceBook { currency, bags })
}
