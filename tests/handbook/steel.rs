//! Lath, bars, their mass and their cover.

use crate::evidence::{Check, Evidence, Mark, checks};
use crate::{EXACT, assert_close, assert_within, cutout, job_of, two_sinks, worked_out};
use kurbo::Point;
use pourwright::finding::Severity;
use pourwright::job::{
    BarSize, Corner, CornerKind, CutoutShape, FieldPath, Holes, Job, Lath, OutlineShape, PieceField, SteelField, Units,
};
use pourwright::measure::exact::{in_inches, in_pounds, inches, pounds};
use pourwright::measure::{Area, Length, Mass, write_area, write_count, write_length, write_mass};
use pourwright::steel::limits::bar_diameter;
use pourwright::steel::limits::bar_mass;
use pourwright::steel::limits::lath_mass;
use pourwright::steel::{Lies, Order, Steel};
use pourwright::working::Working;
use std::f64::consts::PI;
use uom::si::area::square_meter;
use uom::si::length::{meter, millimeter};
use uom::si::mass::kilogram;

checks![bars_as_tabulated, the_mass_of_a_bar_is_no_rounded_area, lath_as_classed];

fn steel(job: &Job) -> Steel {
    worked_out(job).pieces[0].steel.clone().expect("the steel is known")
}

fn with_bars(mut job: Job, bars: BarSize) -> Job {
    job.pieces[0].reinforcement.bars = bars;
    job
}

fn with_lath(mut job: Job, lath: Lath) -> Job {
    job.pieces[0].reinforcement.lath = lath;
    job
}

fn in_plane(at: Point) -> (f64, f64) {
    (at.x / 0.0254, at.y / 0.0254)
}

fn told(job: &Job, field: SteelField) -> Option<Severity> {
    let place = FieldPath::Steel(0, field);
    worked_out(job).findings.iter().find(|finding| finding.place == place).map(|finding| finding.severity)
}

/// R1, R2, R3: ASTM A615 Table 1. R4, from memory of ASTM A615M.
fn bars_as_tabulated(evidence: &mut Evidence) {
    use BarSize::{Five, Four, Three};
    let (foot, metre) = (inches(12.0), Length::new::<meter>(1.0));
    let table = evidence.check(Check {
        label: "R1 to R3",
        title: "Bars",
        source: "ASTM A615, Table 1; read in a trade magazine",
        marks: &[Mark::Published],
        problem: "#3, #4 and #5: diameter, mass a foot",
        modelled: "steel::limits::bar_diameter and bar_mass, of a job in inches",
        ..Check::default()
    });
    for (bar, name, diameter, mass) in
        [(Three, "#3", 0.375, 0.376), (Four, "#4", 0.5, 0.668), (Five, "#5", 0.625, 1.043)]
    {
        table.close(format!("{name}: diameter, in"), in_inches(bar_diameter(bar, Units::Inch)), diameter, EXACT);
        table.close(format!("{name}: mass, lb/ft"), in_pounds(bar_mass(bar, foot, Units::Inch)), mass, EXACT);
    }
    let table = evidence.check(Check {
        label: "R4",
        title: "Soft-metric bars",
        source: "ASTM A615M",
        marks: &[Mark::Memory],
        problem: "10, 13 and 16: diameter, mass a metre",
        modelled: "steel::limits::bar_diameter and bar_mass, of a metric job",
        ..Check::default()
    });
    for (bar, name, diameter, mass) in [(Three, "10", 9.5, 0.560), (Four, "13", 12.7, 0.994), (Five, "16", 15.9, 1.552)]
    {
        let found = bar_diameter(bar, Units::Metric).get::<millimeter>();
        table.close(format!("{name}: diameter, mm"), found, diameter, EXACT);
        let found = bar_mass(bar, metre, Units::Metric).get::<kilogram>();
        table.close(format!("{name}: mass, kg/m"), found, mass, EXACT);
    }
    assert_eq!(bar_mass(BarSize::None, metre, Units::Inch), Mass::default());
}

/// R5, R6, computed: the mass of a #4 bar is 490 lb/ft³ times π ÷ 4 × (1/2 in)², 0.6681 lb/ft, and not times the
/// rounded 0.20 in² that strength is worked out with, 0.6806.
fn the_mass_of_a_bar_is_no_rounded_area(evidence: &mut Evidence) {
    let mass = in_pounds(bar_mass(BarSize::Four, inches(12.0), Units::Inch));
    let table = evidence.check(Check {
        label: "R5, R6",
        title: "Mass of a bar from its circle",
        source: "Steel at 490 lb/ft³",
        marks: &[Mark::ByHand],
        problem: "#4: 490 ÷ 144 × π ÷ 4 × 0.5² = 0.6681 lb/ft",
        conventions: "Not times the rounded area of 0.20 in², which would be 0.6806 lb/ft.",
        modelled: "steel::limits::bar_mass of 12 in",
        gap: "The standard's 0.668 lb/ft has three digits.",
        ..Check::default()
    });
    table.close("mass, lb/ft", mass, 0.6681, 1e-3);
    assert_close(PI / 4.0 * 0.25, 0.1963, 1e-3);
    assert_close(mass, 490.0 / 144.0 * PI / 4.0 * 0.25, 1e-3);
    assert!((mass - 490.0 / 144.0 * 0.20).abs() > 0.01);
}

/// R7, ASTM C847 from memory: 2.5 lb/yd² is 1.3562 kg/m². R8, computed: two layers of 3.4 lb/yd² at 490 lb/ft³
/// are as much as two sheets of 0.00925 in, 0.01234 of a slab of 1 1/2 in.
fn lath_as_classed(evidence: &mut Evidence) {
    let square_metre = Area::new::<square_meter>(1.0);
    let square_foot = inches(12.0) * inches(12.0);
    let sheet = in_pounds(lath_mass(Lath::Heavy, square_foot)) / 490.0 * 12.0;
    let table = evidence.check(Check {
        label: "R7, R8",
        title: "Lath",
        source: "ASTM C847: classes of 2.5 and 3.4 lb/yd²",
        marks: &[Mark::Memory, Mark::ByHand],
        problem: "2.5 lb/yd²; two layers of 3.4 lb/yd² in 1.5 in, steel at 490 lb/ft³",
        modelled: "steel::limits::lath_mass of a square metre and of a square foot",
        gap: "Three to five digits are told.",
        ..Check::default()
    });
    table.close("2.5 lb/yd², kg/m²", lath_mass(Lath::Light, square_metre).get::<kilogram>(), 1.3562, 1e-3);
    table.close("a layer as a sheet, in", sheet, 0.00925, 1e-3);
    table.close("two layers, of the volume", 2.0 * sheet / 1.5, 0.01234, 1e-3);
    assert_eq!(lath_mass(Lath::None, square_metre), Mass::default());
}

/// By hand: 67 × 19 1/4 in less 1 in all round is one panel of 65 × 17 1/4 in; of it two sinks take 22 × 15 in
/// each with corners of 2 + 1 in.
#[test]
fn one_panel_with_two_cuts() {
    let job = with_lath(two_sinks(), Lath::Light);
    let steel = steel(&job);
    let lath = steel.lath.expect("lath is chosen");
    assert_eq!(steel.order, Order::Lath);
    assert_eq!((lath.panels.len(), lath.sheets.value, lath.layers), (1, 1, 1));
    let panel = &lath.panels[0];
    assert_close(in_inches(panel.width), 17.25, EXACT);
    assert_close(in_inches(panel.length), 65.0, EXACT);
    assert!(!panel.trimmed);
    let cuts: Vec<_> =
        panel.cuts.iter().map(|cut| [cut.from_left, cut.from_front, cut.width, cut.depth].map(in_inches)).collect();
    // Sinks from 7 to 27 and 40 to 60 in and from 3 to 16 in; the panel starts at 1 and 1 in.
    for (found, expected) in cuts.iter().zip([[5.0, 1.0, 22.0, 15.0], [38.0, 1.0, 22.0, 15.0]]) {
        for (found, expected) in found.iter().zip(expected) {
            assert_close(*found, expected, EXACT);
        }
    }
    assert_eq!(cuts.len(), 2);
    let area = 65.0 * 17.25 - 2.0 * (22.0 * 15.0 - (4.0 - PI) * 9.0);
    assert_close(lath.area.value.get::<square_meter>() / 0.0254 / 0.0254, area, 1e-4);
    assert_close(in_pounds(lath.mass.value), area / 1296.0 * 2.5, 1e-4);
    let mut double = job.clone();
    double.pieces[0].reinforcement.layers = "2".into();
    let double = self::steel(&double).lath.expect("lath is chosen");
    assert_close(double.mass.value.value, 2.0 * lath.mass.value.value, EXACT);
    // Two of 17 1/4 in do not go side by side into 27, nor two of 65 into 96.
    assert_eq!(double.sheets.value, 2);
}

/// By hand: 30 in less 2 × 1 in are 28 in, which take two rows of a sheet of 27 in with a lap of 2 in: 27 and 3 in.
/// Along, 100 in less 2 × 1 in are 98, which take 96 and 4 in. What laps is counted twice.
#[test]
fn rows_and_lengths_lap() {
    let lath = steel(&with_lath(job_of("100", "30", "2"), Lath::Heavy)).lath.expect("lath is chosen");
    let sizes: Vec<_> = lath.panels.iter().map(|panel| (in_inches(panel.width), in_inches(panel.length))).collect();
    for (found, expected) in sizes.iter().zip([(27.0, 96.0), (27.0, 4.0), (3.0, 96.0), (3.0, 4.0)]) {
        assert_close(found.0, expected.0, EXACT);
        assert_close(found.1, expected.1, EXACT);
    }
    assert_eq!(sizes.len(), 4);
    let area = (27.0 + 3.0) * (96.0 + 4.0);
    assert_close(lath.area.value.get::<square_meter>() / 0.0254 / 0.0254, area, EXACT);
    // 27 × 96 fills a sheet; 3 × 96 and 3 × 4 lie in a second one, in which 27 × 4 has no room.
    assert_eq!(lath.sheets.value, 3);
    // A piece deeper than wide is covered with sheets front to back.
    let upright = steel(&with_lath(job_of("24", "90", "2"), Lath::Heavy)).lath.expect("lath is chosen");
    assert_eq!((upright.panels.len(), upright.sheets.value), (1, 1));
    assert_close(in_inches(upright.panels[0].length), 88.0, EXACT);
    assert_close(in_inches(upright.panels[0].width), 22.0, EXACT);
}

/// Geometry: a corner rounded by 1/2 in is sharp 1 in further in, one rounded by 3 in is rounded by 2 in there.
#[test]
fn corners_of_lath() {
    let mut job = with_lath(job_of("40", "20", "2"), Lath::Light);
    let area = |job: &Job| {
        let lath = steel(job).lath.expect("lath is chosen");
        (lath.area.value.get::<square_meter>() / 0.0254 / 0.0254, lath.panels[0].trimmed)
    };
    for (radius, cut) in [("1/2", 0.0), ("1", 0.0), ("3", (4.0 - PI) / 4.0 * 4.0)] {
        job.pieces[0].corners = vec![Corner { kind: CornerKind::Rounded, radius: radius.into(), ..Corner::default() }];
        let (area, trimmed) = area(&job);
        assert_close(area, 38.0 * 18.0 - cut, 1e-5);
        assert_eq!(trimmed, cut > 0.0, "{radius}");
    }
}

/// An L is covered by the front run over its whole width and by the leg alone behind it.
#[test]
fn the_rows_of_an_l() {
    let mut job = with_lath(job_of("90", "60", "2"), Lath::Light);
    let piece = &mut job.pieces[0];
    (piece.shape, piece.leg, piece.front_depth) = (OutlineShape::L, "25".into(), "25".into());
    let lath = steel(&job).lath.expect("lath is chosen");
    let area: f64 = lath.panels.iter().map(|panel| panel.at.area()).sum();
    // 88 × 27, of which 4 in lie behind the run; and twice rows of the leg, 23 in wide.
    assert_eq!(lath.panels.len(), 3);
    assert_close(in_inches(lath.panels[1].length), 23.0, EXACT);
    assert!(area / 0.0254 / 0.0254 < 88.0 * 58.0 * 0.8, "not the whole rectangle around it");
}

/// By hand, 67 × 19 1/4 in with sinks from 7 to 27 and from 40 to 60 in, 3 to 16 in from the front: rails of 3 in
/// in front, 3 1/4 in behind, 13 in between. Both long bars run from end to end, less 1 in at each, and serve both
/// sinks; the short one ends a diameter from them.
#[test]
fn bars_of_a_vanity() {
    let steel = steel(&with_bars(two_sinks(), BarSize::Four));
    let bars = steel.bars.expect("bars are chosen");
    assert!(bars.no_room.is_empty());
    let expected = [
        ((1.0, 1.5), (66.0, 1.5), vec![Lies::Front, Lies::Front]),
        ((1.0, 17.625), (66.0, 17.625), vec![Lies::Behind, Lies::Behind]),
        ((33.5, 2.25), (33.5, 16.875), vec![Lies::Between(1)]),
    ];
    assert_eq!(bars.bars.len(), expected.len());
    for (bar, (from, to, lies)) in bars.bars.iter().zip(expected) {
        for (found, expected) in [(bar.ends.0, from), (bar.ends.1, to)] {
            let found = in_plane(found);
            assert_within(found.0, expected.0, 1e-9);
            assert_within(found.1, expected.1, 1e-9);
        }
        assert_eq!(bar.rails.iter().map(|rail| rail.lies).collect::<Vec<_>>(), lies);
    }
    let length = 65.0 + 65.0 + 14.625;
    assert_close(in_pounds(bars.mass.value), length / 12.0 * 0.668, EXACT);
    // (3 − 1/2) ÷ 2 and (3 1/4 − 1/2) ÷ 2.
    assert_close(in_inches(bars.bars[0].side_cover), 1.25, EXACT);
    assert_close(in_inches(bars.bars[1].side_cover), 1.375, EXACT);
    assert_eq!(bars.bars[0].mark, "R1");
}

/// Only rails up to the limit that is typed; a narrow one towards an end without being asked.
#[test]
fn rails_that_get_a_bar() {
    let lies = |job: &Job| -> Vec<Lies> {
        let bars = steel(job).bars.expect("bars are chosen").bars;
        let mut lies: Vec<_> = bars.iter().map(|bar| bar.rails[0].lies).collect();
        lies.sort();
        lies
    };
    let mut job = with_bars(two_sinks(), BarSize::Three);
    job.pieces[0].reinforcement.rails_to = "3".into();
    assert_eq!(lies(&job), [Lies::Front]);
    job.pieces[0].reinforcement.rails_to = "7".into();
    assert_eq!(lies(&job), [Lies::Front, Lies::Behind, Lies::Left, Lies::Right]);
    job.pieces[0].reinforcement.rails_to = "".into();
    job.pieces[0].cutouts[0].from_left = "12".into();
    assert_eq!(lies(&job), [Lies::Front, Lies::Behind, Lies::Left], "2 in at the left end, 18 in between");
}

/// What is wider than it is long is no rail, unless it is asked for: 13 in between sinks that are 13 in deep are
/// one, 14 in are none.
#[test]
fn a_strip_is_longer_than_wide() {
    let count = |job: &Job| steel(job).bars.expect("bars are chosen").bars.len();
    let mut job = with_bars(two_sinks(), BarSize::Four);
    assert_eq!(count(&job), 3);
    job.pieces[0].cutouts[0].from_left = "16".into();
    assert_eq!(count(&job), 2);
    job.pieces[0].reinforcement.rails_to = "14".into();
    // With the two towards the ends, 6 and 7 in wide.
    assert_eq!(count(&job), 5);
}

/// A hole in the middle of a rail: by hand, in 4 1/4 in behind the sink a hole of 1 3/8 in leaves 1 7/16 in on
/// either side, in the middle of which a bar of 3/8 in has 17/32 in to both.
#[test]
fn a_bar_passes_beside_a_faucet_hole() {
    let mut job = with_bars(job_of("48", "22 1/4", "2"), BarSize::Three);
    let piece = &mut job.pieces[0];
    piece.cutouts.push(cutout(CutoutShape::Rectangle, ["18", "13", "2"], ["24", "11 1/2"]));
    piece.holes.push(Holes {
        diameter: "1 3/8".into(),
        from_left: "24".into(),
        from_front: "20 1/8".into(),
        ..Holes::default()
    });
    let bars = steel(&job).bars.expect("bars are chosen");
    let behind = bars.bars.iter().find(|bar| bar.rails[0].lies == Lies::Behind).expect("there is room");
    assert_close(in_inches(behind.length), 46.0, EXACT);
    assert_within(in_inches(behind.side_cover), 17.0 / 32.0, 1e-3);
    assert_eq!(told(&job, SteelField::RailsTo), Some(Severity::Watch));
    // A #5 bar leaves 13/32 in, a hole of 2 in no room at all.
    job.pieces[0].holes[0].diameter = "2".into();
    job.pieces[0].reinforcement.bars = BarSize::Five;
    let bars = steel(&job).bars.expect("bars are chosen");
    assert_eq!(bars.no_room.len(), 1);
    assert_eq!(bars.no_room[0].rail.lies, Lies::Behind);
    assert_eq!(told(&job, SteelField::RailsTo), Some(Severity::Stop));
}

/// Common practice, no source: a #4 bar at mid-depth of 2 in has exactly 3/4 in to the face, which is enough; what
/// is ground off is missing.
#[test]
fn cover_to_the_face() {
    let mut job = with_bars(two_sinks(), BarSize::Four);
    let layer = steel(&job).bar_layer.expect("bars are chosen");
    assert_close(in_inches(layer.height.value), 1.0, EXACT);
    assert_close(in_inches(layer.face_cover), 0.75, EXACT);
    assert_close(in_inches(layer.back_cover), 0.75, EXACT);
    assert_eq!(told(&job, SteelField::BarHeight), None);
    job.pieces[0].thickness = "1 15/16".into();
    assert_eq!(told(&job, SteelField::BarHeight), Some(Severity::Watch));
    job.pieces[0].thickness = "2".into();
    job.pieces[0].grinding = "1/8".into();
    // Mid-depth of 2 1/8 in, less 1/4 and 1/8 in.
    assert_close(in_inches(steel(&job).bar_layer.expect("bars").face_cover), 0.6875, EXACT);
    assert_eq!(told(&job, SteelField::BarHeight), Some(Severity::Watch));
    job.pieces[0].reinforcement.bar_height = "1 1/8".into();
    assert_eq!(told(&job, SteelField::BarHeight), None);
    // 2 1/8 − 1 3/4 − 1/4 in are 1/8 in; the mix does not close over that, and 2 in sticks out.
    job.pieces[0].reinforcement.bar_height = "1 3/4".into();
    assert_eq!(told(&job, SteelField::BarHeight), Some(Severity::Watch));
    job.pieces[0].reinforcement.bar_height = "2".into();
    assert_eq!(told(&job, SteelField::BarHeight), Some(Severity::Stop));
}

/// Two things do not lie at one height: lath goes on bars at mid-depth, and under bars that lie clear above it.
#[test]
fn lath_and_bars_in_order() {
    let mut job = with_lath(with_bars(two_sinks(), BarSize::Four), Lath::Light);
    let both = steel(&job);
    assert_eq!(both.order, Order::BarsThenLath);
    assert_close(in_inches(both.lath_layer.expect("lath").height.value), 1.25, EXACT);
    assert_close(in_inches(both.bar_layer.expect("bars").height.value), 1.0, EXACT);
    let parts = both.lath.expect("lath").mass.value + both.bars.expect("bars").mass.value;
    assert_close(both.mass.value.value, parts.value, EXACT);
    job.pieces[0].reinforcement.bar_height = "1 1/4".into();
    let both = steel(&job);
    assert_eq!(both.order, Order::LathThenBars);
    assert_close(in_inches(both.lath_layer.expect("lath").height.value), 1.0, EXACT);
    assert_close(in_inches(both.bar_layer.expect("bars").back_cover), 0.5, EXACT);
}

/// 3/4 in of cover want 1 1/2 in of concrete around lath at mid-depth, 3/8 in want 3/4.
#[test]
fn pieces_too_thin_for_lath() {
    for (thickness, expected) in [
        ("1 1/2", None),
        ("1 7/16", Some(Severity::Watch)),
        ("3/4", Some(Severity::Watch)),
        ("11/16", Some(Severity::Stop)),
    ] {
        let job = with_lath(job_of("48", "20", thickness), Lath::Light);
        assert_eq!(told(&job, SteelField::Layers), expected, "{thickness}");
    }
}

/// The side of a bar: 2 in leave a #4 bar 3/4 in on either side, 1 15/16 less; 1 1/4 in leave 3/8, 1 3/16 no room.
#[test]
fn cover_beside_a_rail() {
    for (width, expected, bars) in [
        ("2", None, 1),
        ("1 15/16", Some(Severity::Watch), 1),
        ("1 1/4", Some(Severity::Watch), 1),
        ("1 3/16", Some(Severity::Stop), 0),
        ("3/8", Some(Severity::Stop), 0),
    ] {
        let mut job = with_bars(job_of("48", "30", "2"), BarSize::Four);
        job.pieces[0].reinforcement.rails_to = "4".into();
        let front = pourwright::measure::read_length(width, Units::Inch).expect("a length");
        let center = format!("{}", in_inches(front) + 8.0);
        job.pieces[0].cutouts.push(cutout(CutoutShape::Rectangle, ["18", "16", "2"], ["24", &center]));
        assert_eq!(told(&job, SteelField::RailsTo), expected, "{width}");
        assert_eq!(steel(&job).bars.expect("bars are chosen").bars.len(), bars, "{width}");
    }
}

/// Steel off the edges by less than its cover can show there; both sides of 3/4 in.
#[test]
fn steel_near_the_edge() {
    let mut job = with_lath(job_of("48", "20", "2"), Lath::Light);
    for (off, expected) in [("3/4", None), ("11/16", Some(Severity::Watch)), ("0", Some(Severity::Watch))] {
        job.pieces[0].reinforcement.off_edges = off.into();
        assert_eq!(told(&job, SteelField::OffEdges), expected, "{off}");
    }
    // 10 in from every edge of 20 in leaves nothing, and is waited for where it is typed.
    job.pieces[0].reinforcement.off_edges = "10".into();
    let waiting = worked_out(&job).pieces[0].steel.clone().expect_err("nothing is left");
    assert_eq!(waiting.needs()[0].place, FieldPath::Steel(0, SteelField::OffEdges));
    job.pieces[0].reinforcement.off_edges = "1".into();
    job.pieces[0].reinforcement.lap = "27".into();
    let waiting = worked_out(&job).pieces[0].steel.clone().expect_err("sheets lap altogether");
    assert_eq!(waiting.needs()[0].place, FieldPath::Steel(0, SteelField::Lap));
    job.pieces[0].reinforcement.lap = "2".into();
    job.pieces[0].reinforcement.lath_width = "2 1/32".into();
    let waiting = worked_out(&job).pieces[0].steel.clone().expect_err("hundreds of panels");
    assert_eq!(waiting.needs()[0].place, FieldPath::Steel(0, SteelField::LathWidth));
}

/// A narrow rail without steel is noted, until there is some or it was weighed.
#[test]
fn a_narrow_rail_without_steel() {
    let noted = |job: &Job| {
        let place = FieldPath::Piece(0, PieceField::Steel);
        worked_out(job).findings.iter().any(|finding| finding.place == place && finding.severity == Severity::Note)
    };
    let mut job = two_sinks();
    assert!(!noted(&job), "rails of 3 in");
    job.pieces[0].cutouts[0].depth = "15".into();
    assert!(noted(&job), "one of 2 in");
    assert!(!noted(&with_bars(job.clone(), BarSize::Three)));
    job.pieces[0].steel = "2 lb".into();
    assert!(!noted(&job));
    // Lath stays out of a rail of 2 in, and that is noted too.
    job.pieces[0].steel = "".into();
    let job = with_lath(job, Lath::Light);
    assert_eq!(told(&job, SteelField::OffEdges), Some(Severity::Note));
    assert_eq!(told(&with_bars(job, BarSize::Three), SteelField::OffEdges), None);
}

/// The weight of a piece takes what was weighed; where nothing was, what is worked out.
#[test]
fn weighed_steel_outranks_worked_out_steel() {
    let as_cast = |job: &Job| worked_out(job).pieces[0].weights.clone().expect("it can be weighed").as_cast.value;
    let bare = as_cast(&two_sinks());
    let mut job = with_bars(two_sinks(), BarSize::Four);
    let added = as_cast(&job) - bare;
    assert_close(in_pounds(added), (65.0 + 65.0 + 14.625) / 12.0 * 0.668, 1e-9);
    job.pieces[0].steel = "5 lb".into();
    assert_close((as_cast(&job) - bare).value, pounds(5.0).value, 1e-9);
    let weights =
        worked_out(&with_lath(two_sinks(), Lath::Light)).pieces[0].weights.clone().expect("it can be weighed");
    assert!(weights.as_cast.working.lines(Units::Inch).iter().any(|line| line.formula.contains("weight class")));
}

/// A working ends in the number that it is the working of.
#[test]
fn workings_of_steel() {
    let steel = steel(&with_lath(with_bars(two_sinks(), BarSize::Four), Lath::Light));
    let ends = |working: &Working, written: String| {
        assert_eq!(
            working.lines(Units::Inch).last().map(|line| line.result.as_str()),
            Some(written.as_str()),
            "{}",
            working.title(Units::Inch)
        );
    };
    let (lath, bars) = (steel.lath.expect("lath"), steel.bars.expect("bars"));
    ends(&steel.mass.working, write_mass(steel.mass.value, Units::Inch).to_string());
    ends(&lath.mass.working, write_mass(lath.mass.value, Units::Inch).to_string());
    ends(&lath.area.working, write_area(lath.area.value, Units::Inch).to_string());
    ends(&lath.sheets.working, write_count(lath.sheets.value, "sheet", "sheets"));
    ends(&bars.mass.working, write_mass(bars.mass.value, Units::Inch).to_string());
    for layer in [steel.lath_layer, steel.bar_layer].into_iter().flatten() {
        ends(&layer.height.working, write_length(layer.height.value, Units::Inch).to_string());
    }
}
