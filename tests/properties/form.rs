//! What must hold for the form of every outline: its sides touch, overlap nowhere, and enclose it.

use kurbo::{Point, Vec2};
use pourwright::estimate::estimate;
use pourwright::form::{Build, BuildInputs, Built, EndCut, Form, FormInputs, Made, Part};
use pourwright::job::{Bend, Edge, EdgeKind, FieldPath, Job, SideStand, Units};
use pourwright::plane::{EdgeTag, Outline};
use pourwright::price::PriceBook;
use pourwright::top::{EdgeProfile, Top};
use proptest::prelude::*;
use proptest::sample::select;
use std::collections::HashSet;
use std::f64::consts::{FRAC_PI_2, PI, TAU};
use uom::si::angle::radian;
use uom::si::length::meter;

/// Thickness of the boards, metres.
const BOARD: f64 = 0.019;
/// What cut lengths may miss by: 1/64 in, in metres.
const SIXTY_FOURTH: f64 = 0.0254 / 64.0;

/// The form around an outline, with a liner for each of its sides.
fn form_of(outline: &Outline, liners: &[f64], bend: Bend, stand: SideStand) -> Option<Form> {
    let mut job = Job::new("form", Units::Metric);
    job.form.board = "19".into();
    job.form.bend = bend;
    job.form.sides = stand;
    let piece = &mut job.pieces[0];
    piece.width = "1000".into();
    piece.depth = "500".into();
    let mut top = Top::of(&job, 0);
    top.outline = Ok(outline.clone());
    let profile = |(side, liner): (usize, &f64)| {
        let liner = uom::si::f64::Length::new::<meter>(*liner);
        Ok(EdgeProfile { side, kind: EdgeKind::Lined, liner, radius: Default::default() })
    };
    top.edges = liners.iter().enumerate().map(profile).collect();
    Form::of(&top, &FormInputs::read(&job, 0)).ok()
}

fn sides(form: &Form) -> Vec<&Part> {
    form.parts.as_ref().expect("the usual strip").iter().filter(|part| part.edge.is_some()).collect()
}

/// The boundary as points; arcs as chords between points of it.
fn points(outline: &Outline) -> Vec<Point> {
    let parts = |bulge: f64| if bulge == 0.0 { 1 } else { 24 };
    outline
        .edges()
        .iter()
        .flat_map(|edge| {
            let parts = parts(edge.bulge());
            (0..parts).map(move |part| edge.point_at(f64::from(part) / f64::from(parts)))
        })
        .collect()
}

/// What is left of a convex polygon left of the line from one point to another.
fn left_of(polygon: &[Point], from: Point, to: Point) -> Vec<Point> {
    let side = |point: Point| (to - from).cross(point - from);
    let mut kept = Vec::new();
    for (one, other) in polygon.iter().zip(polygon.iter().cycle().skip(1)) {
        let (a, b) = (side(*one), side(*other));
        if a >= 0.0 {
            kept.push(*one);
        }
        if a * b < 0.0 {
            kept.push(one.lerp(*other, a / (a - b)));
        }
    }
    kept
}

fn area(polygon: &[Point]) -> f64 {
    let next = polygon.iter().cycle().skip(1);
    polygon.iter().zip(next).map(|(one, other)| one.to_vec2().cross(other.to_vec2())).sum::<f64>() / 2.0
}

/// Area that two polygons have in common, whatever their shape: each is the sum of the triangles that its
/// edges make with one point, those that turn the other way counted off.
fn common_area(one: &[Point], other: &[Point]) -> f64 {
    let about = one[0];
    let triangles = |polygon: &[Point]| -> Vec<(f64, [Point; 3])> {
        let next = polygon.iter().cycle().skip(1);
        let pairs = polygon.iter().zip(next);
        let signed = pairs.filter_map(|(a, b)| {
            let twice = (*a - about).cross(*b - about);
            let ordered = if twice > 0.0 { [about, *a, *b] } else { [about, *b, *a] };
            (twice != 0.0).then_some((twice.signum(), ordered))
        });
        signed.collect()
    };
    let others = triangles(other);
    let mut sum = 0.0;
    for (sign, [a, b, c]) in triangles(one) {
        for (other_sign, other) in &others {
            let mut cut = other.to_vec();
            for (from, to) in [(a, b), (b, c), (c, a)] {
                cut = left_of(&cut, from, to);
            }
            sum += sign * other_sign * area(&cut);
        }
    }
    sum
}

/// The sides touch, overlap nowhere, and leave no gap along the clear outline.
fn assert_encloses(form: &Form) -> Result<(), TestCaseError> {
    let clear = points(&form.clear);
    let parts = sides(form);
    let solids: Vec<&Outline> = parts.iter().map(|part| part.solid.as_ref().expect("room for it")).collect();
    let drawn: Vec<Vec<Point>> = solids.iter().map(|solid| points(solid)).collect();
    // A sliver of 1/64 in along a board's thickness is what a saw leaves.
    let sliver = SIXTY_FOURTH * BOARD;
    for (index, one) in drawn.iter().enumerate() {
        prop_assert!(common_area(one, &clear).abs() < sliver, "{} stands in the concrete", parts[index].mark);
        for (other, other_drawn) in drawn.iter().enumerate().skip(index + 1) {
            let boxes = [solids[index], solids[other]].map(Outline::bounds);
            if boxes[0].intersect(boxes[1]).area() == 0.0 {
                continue;
            }
            let common = common_area(one, other_drawn).abs();
            prop_assert!(common < sliver, "{} and {}: {common}", parts[index].mark, parts[other].mark);
        }
    }
    // Just outside the clear outline there is wood everywhere, at the corners too.
    const JUST: f64 = 1e-5;
    let wood = |point: Point| {
        solids.iter().any(|solid| solid.contains(point) || (solid.nearest(point).1 - point).hypot() < JUST / 2.0)
    };
    for (index, edge) in form.clear.edges().iter().enumerate() {
        for step in 0..=200 {
            let share = f64::from(step) / 200.0;
            let point = edge.point_at(share) + JUST * edge.normal_at(share);
            prop_assert!(wood(point), "a gap at edge {index}, {share}");
        }
        let before = &form.clear.edges()[form.clear.before(index)];
        let out = before.normal_at(1.0) + edge.normal_at(0.0);
        if form.clear.interior_angle(index) < PI && out.hypot() > 0.2 {
            prop_assert!(wood(edge.start() + JUST * out.normalize()), "a gap at corner {index}");
        }
    }
    Ok(())
}

/// The boards fill the frame between the clear outline and the same outline moved out by their thickness, and
/// nothing but that.
fn assert_fills_the_frame(form: &Form) -> Result<(), TestCaseError> {
    let outside = form.clear.offset_all(BOARD).expect("room for the boards");
    let solids: f64 = sides(form).iter().filter_map(|part| part.solid.as_ref()).map(Outline::area).sum();
    let frame = outside.area() - form.clear.area();
    prop_assert!((solids - frame).abs() < 1e-4 * frame, "{solids} of {frame}");
    Ok(())
}

/// The cut list says what stands there: lengths over all and of both faces, by the corners of the solid, and
/// the tilt of the saw by the angle between the end and the face.
fn assert_cut_as_it_stands(form: &Form) -> Result<(), TestCaseError> {
    for part in sides(form) {
        let (Made::Straight(side), Some(solid)) = (&part.made, &part.solid) else { continue };
        let edge = &form.clear.edges()[part.edge.expect("a side")];
        let along = |point: Point| (point - edge.start()).dot(edge.direction_at_start());
        let reach = |points: &[Point]| {
            let along = points.iter().map(|point| along(*point));
            along.clone().fold(f64::NEG_INFINITY, f64::max) - along.fold(f64::INFINITY, f64::min)
        };
        let corners = points(solid);
        prop_assert!((part.length.value - reach(&corners)).abs() < SIXTY_FOURTH, "{}", part.mark);
        let face = |behind: f64| {
            let level = |point: &&Point| ((**point - edge.start()).dot(edge.normal_at(0.0)) - behind).abs() < 1e-6;
            corners.iter().filter(level).copied().collect::<Vec<_>>()
        };
        prop_assert!((side.outside.value - reach(&face(BOARD))).abs() < SIXTY_FOURTH, "{}", part.mark);
        let rounded = side.ends.iter().any(|end| end.rounded.is_some());
        if !rounded {
            prop_assert!((side.inside.value - reach(&face(0.0))).abs() < SIXTY_FOURTH, "{}", part.mark);
        }
        let mitred = side.ends.iter().filter_map(|end| match end.cut {
            EndCut::Mitred { saw, .. } => Some(saw.get::<radian>()),
            _ => None,
        });
        for saw in mitred {
            // Half the corner's angle is found at one of the two ends.
            let at = part.edge.expect("a side");
            let angles = [at, form.clear.after(at)].map(|vertex| form.clear.interior_angle(vertex));
            prop_assert!(angles.iter().any(|angle| (saw - (FRAC_PI_2 - angle / 2.0).abs()).abs() < 1e-9));
        }
    }
    Ok(())
}

/// Points of an ellipse at rising angles.
fn convex() -> impl Strategy<Value = Outline> {
    (prop::collection::vec(0.2..0.8_f64, 3..8), 0.4..1.5_f64, 0.4..1.5_f64).prop_filter_map("thin", |(shares, a, b)| {
        let part = TAU / shares.len() as f64;
        let at = |(index, share): (usize, &f64)| Vec2::from_angle((index as f64 + share) * part);
        let points: Vec<_> =
            shares.iter().enumerate().map(at).map(|point| Point::new(a * point.x, b * point.y)).collect();
        Outline::polygon(&points).ok()
    })
}

/// Corner by corner at rising angles: not convex in general.
fn star() -> impl Strategy<Value = Outline> {
    prop::collection::vec((0.5..1.5_f64, 0.0..0.5_f64), 3..9).prop_filter_map("crosses itself", |corners| {
        let part = TAU / corners.len() as f64;
        let at = |(index, (reach, shift)): (usize, &(f64, f64))| {
            (*reach * Vec2::from_angle((index as f64 + shift) * part)).to_point()
        };
        Outline::polygon(&corners.iter().enumerate().map(at).collect::<Vec<_>>()).ok()
    })
}

/// What makers cast: rectangles, Ls and Us, some corners rounded or clipped, the front bowed.
fn shop() -> impl Strategy<Value = Outline> {
    let sizes = (1.2..2.4_f64, 0.9..1.6_f64, 0.25..0.5_f64, 0.3..0.6_f64);
    let corner = (0..3_u8, 0.005..0.09_f64, 0.02..0.09_f64);
    (0..3_u8, sizes, prop::collection::vec(corner, 8), prop::option::of(0.01..0.08_f64), any::<bool>()).prop_filter_map(
        "does not fit",
        |(shape, (width, depth, leg, front), corners, bow, mirrored)| {
            let mut outline = match shape {
                0 => Outline::rectangle(width, front).ok()?,
                1 => Outline::l_shape(width, depth, leg, front).ok()?,
                _ => Outline::u_shape(width, depth, depth, leg, leg, front).ok()?,
            };
            if let Some(rise) = bow {
                outline = outline.bowed(0, rise).ok()?;
            }
            for (side, (kind, one, other)) in (0..outline.edges().len()).zip(corners).rev() {
                let straight = bow.is_none() || side > 1;
                outline = match kind {
                    1 => outline.rounded(side, one).ok()?,
                    2 if straight && side > 0 => outline.clipped(side, one.max(0.03), other.max(0.03)).ok()?,
                    _ => outline,
                };
            }
            Some(if mirrored { outline.mirrored(0.0) } else { outline })
        },
    )
}

fn stands() -> impl Strategy<Value = SideStand> {
    select(vec![SideStand::OnEdge, SideStand::OnBase])
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    #[test]
    fn boards_of_a_convex_outline_enclose_it(outline in convex(), stand in stands()) {
        let form = form_of(&outline, &[0.0; 8], Bend::Strip, stand).expect("a form");
        prop_assume!(form.clear.edges().iter().all(|edge| edge.length() > 3.0 * BOARD));
        prop_assert_eq!(form.clashes(), vec![]);
        assert_encloses(&form)?;
        assert_fills_the_frame(&form)?;
        assert_cut_as_it_stands(&form)?;
    }

    /// Inside corners of any angle: where no two boards are said to clash, none do.
    #[test]
    fn boards_of_any_straight_outline_enclose_it(outline in star()) {
        let form = form_of(&outline, &[0.0; 9], Bend::Strip, SideStand::OnEdge).expect("a form");
        if form.clashes().is_empty() && form.clear.offset_all(BOARD).is_ok() {
            assert_encloses(&form)?;
            assert_fills_the_frame(&form)?;
            assert_cut_as_it_stands(&form)?;
        }
    }

    /// What a shop casts never clashes, with arcs bent or cut from layers, and with liners: taken in, the
    /// clear outline is the finished one.
    #[test]
    fn sides_of_what_a_shop_casts_enclose_it(
        outline in shop(),
        bend in select(vec![Bend::Strip, Bend::Layers]),
        liners in prop::option::of(prop::collection::vec(select(vec![0.0, 0.0, 0.01, 0.02]), 8)),
        stand in stands(),
    ) {
        let liners = liners.unwrap_or_else(|| vec![0.0; 8]);
        let Some(form) = form_of(&outline, &liners, bend, stand) else {
            // A liner that closes over a corner is another finding.
            return Ok(());
        };
        prop_assert_eq!(form.clashes(), vec![]);
        assert_encloses(&form)?;
        assert_cut_as_it_stands(&form)?;
        let back = form.clear.offset_sides(&|side| -liners[usize::from(side)]);
        let stepped = form.clear.edges().iter().any(|edge| matches!(edge.tag(), EdgeTag::Step(..)));
        // Layers are as wide as the boards are thick; a bow is run past, and steps are the ends of boards.
        let ring = form.clear.edges().iter().all(|edge| {
            edge.is_straight() || bend == Bend::Layers && matches!(edge.tag(), EdgeTag::Corner(..))
        });
        if ring && !stepped && form.clear.offset_all(BOARD).is_ok() {
            assert_fills_the_frame(&form)?;
        }
        if let Ok(back) = back.as_ref().map_err(|_| ()).and_then(|back| if stepped { Err(()) } else { Ok(back) }) {
            prop_assert!((back.area() - outline.area()).abs() < 1e-9, "{} {}", back.area(), outline.area());
        }
    }
}

fn assert_finite(values: &[f64]) -> Result<(), TestCaseError> {
    prop_assert!(values.iter().all(|value| value.is_finite() && *value >= 0.0), "{values:?}");
    Ok(())
}

/// Every number of a build is one, every piece of liner is cut once, and every figure says how it came about.
fn assert_build(job: &Job) -> Result<(), TestCaseError> {
    let estimate = estimate(job, &PriceBook::default());
    let pieces: Vec<_> =
        estimate.pieces.iter().map(|piece| Built { top: &piece.top, form: &piece.form, fresh: None }).collect();
    let build = Build::of(&pieces, &BuildInputs::read(job));
    for finding in build.findings(&pieces, &BuildInputs::read(job), job) {
        prop_assert!(
            !finding.says.write(job).contains("NaN") && !finding.says.write(job).contains("inf "),
            "{}",
            finding.says.write(job)
        );
        prop_assert!(!finding.remedy.write(job).is_empty() && job.entry_at(finding.place).is_some());
    }
    if let Ok(rows) = &build.stock {
        for row in rows {
            assert_finite(&[row.length.value, row.width.value, row.thickness.value])?;
            prop_assert!(row.count > 0 && !row.mark.is_empty());
        }
        let marks: HashSet<_> = rows.iter().map(|row| &row.mark).collect();
        prop_assert_eq!(marks.len(), rows.len());
    }
    if let Some(Ok(liner)) = &build.liner {
        let cuts: HashSet<_> = liner.cuts.iter().flatten().map(|cut| (cut.run, cut.piece)).collect();
        prop_assert_eq!(cuts.len(), liner.runs.iter().map(|run| run.pieces.len()).sum::<usize>());
        prop_assert!(liner.to_buy.value <= liner.lengths.value);
        for run in &liner.runs {
            assert_finite(&[run.along.value, run.past.value])?;
            let sum: f64 = run.pieces.iter().map(|piece| piece.value).sum();
            prop_assert!((sum - run.length().value).abs() <= 1e-9 * sum.max(1.0));
        }
    }
    if let Ok(screws) = &build.screws {
        assert_finite(&[screws.most.value.value, screws.pressure.value.value])?;
        let sum: u64 = screws.sides.iter().map(|side| u64::from(side.along) + u64::from(side.at_ends)).sum();
        prop_assert_eq!(u64::from(screws.count.value), sum);
        prop_assert!(!screws.count.working.lines(pourwright::measure::Units::Inch).is_empty());
        prop_assert!(
            screws.sides.iter().all(|side| side.spacing.is_none_or(|spacing| spacing <= screws.typed * 1.000_001))
        );
    }
    if let Ok(silicone) = &build.silicone {
        assert_finite(&[silicone.volume.value.value, silicone.at_base.value, silicone.upright.value])?;
    }
    if let Ok(release) = &build.release {
        assert_finite(&[release.area.value.value, release.volume.value.value])?;
    }
    for level in build.levels.iter().filter_map(|level| level.as_ref().ok()).flatten() {
        assert_finite(&[level.difference.value.value, level.less.value.value])?;
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    #[test]
    fn any_job_is_built_without_panic(job in super::any_job(), typed in prop::collection::vec(super::entry(), 20), bend in select(Bend::ALL.to_vec())) {
        let mut job = job;
        job.form.bend = bend;
        let places: Vec<_> = job.places().into_iter().filter(|place| matches!(place, FieldPath::Form(_))).collect();
        for (place, typed) in places.into_iter().zip(typed).step_by(2) {
            *job.entry_at_mut(place).expect("a place of the job") = typed;
        }
        assert_build(&job)?;
    }

    /// A job that can be cast can be built: nothing waits.
    #[test]
    fn a_good_job_is_built(job in super::good_l(), lined in any::<bool>()) {
        let mut job = job;
        if lined {
            job.pieces[0].edges = vec![Edge { kind: EdgeKind::Lined, liner: "3/4".into(), ..Edge::default() }; 6];
        }
        assert_build(&job)?;
        let estimate = estimate(&job, &PriceBook::default());
        let pieces: Vec<_> =
            estimate.pieces.iter().map(|piece| Built { top: &piece.top, form: &piece.form, fresh: None }).collect();
        if pieces.iter().all(|piece| piece.form.is_ok()) {
            let build = Build::of(&pieces, &BuildInputs::read(&job));
            prop_assert!(build.screws.is_ok() && build.silicone.is_ok() && build.tape.is_ok());
            prop_assert!(build.release.is_ok() && build.stock.is_ok());
            prop_assert!(build.liner.is_none_or(|liner| liner.is_ok()));
        }
    }
}
