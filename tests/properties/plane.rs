//! What must hold for every outline, offset and opening.

use kurbo::{Point, Shape, Vec2};
use pourwright::plane::{Edge, EdgeTag, Gap, Opening, Outline, between_openings, rails, to_edges};
use proptest::prelude::*;
use std::f64::consts::{PI, TAU};

/// Metres, square metres.
const EXACT: f64 = 1e-9;

/// An outline around a point, corner by corner at rising angles, some corners rounded and some edges
/// bowed; not convex in general.
fn star() -> impl Strategy<Value = Outline> {
    let corner = (0.4..1.6_f64, 0.0..0.6_f64, -0.25..0.25_f64, 0.0..0.2_f64, 0..4_u8);
    prop::collection::vec(corner, 3..9).prop_filter_map("crosses itself", |corners| {
        let part = TAU / corners.len() as f64;
        let points: Vec<_> = corners
            .iter()
            .enumerate()
            .map(|(index, (reach, shift, bulge, _, kind))| {
                let towards = Vec2::from_angle((index as f64 + shift) * part);
                ((*reach * towards).to_point(), if *kind == 1 { *bulge } else { 0.0 })
            })
            .collect();
        let mut outline = Outline::with_arcs(&points).ok()?;
        for (index, (_, _, _, radius, kind)) in corners.iter().enumerate().rev() {
            if *kind >= 2 {
                outline = outline.rounded(index, *radius).unwrap_or(outline);
            }
        }
        Some(outline)
    })
}

/// A convex polygon: points of an ellipse at rising angles.
fn convex() -> impl Strategy<Value = Outline> {
    (prop::collection::vec(0.05..0.95_f64, 3..9), 0.3..1.5_f64, 0.3..1.5_f64).prop_filter_map(
        "too thin",
        |(shares, a, b)| {
            let part = TAU / shares.len() as f64;
            let at = |(index, share): (usize, &f64)| Vec2::from_angle((index as f64 + share) * part);
            let points: Vec<_> =
                shares.iter().enumerate().map(at).map(|point| Point::new(a * point.x, b * point.y)).collect();
            Outline::polygon(&points).ok()
        },
    )
}

fn opening() -> impl Strategy<Value = Opening> {
    let placed = (-1.0..1.0_f64, -1.0..1.0_f64, 0.0..TAU, -0.01..0.02_f64);
    (0..4_u8, 0.05..0.6_f64, 0.05..0.6_f64, 0.0..0.5_f64, placed).prop_map(
        |(kind, width, depth, round, (x, y, turn, reveal))| {
            let center = Point::new(x, y);
            let made = match kind {
                0 => Opening::rounded_rectangle(center, width, depth, round * width.min(depth)).ok(),
                1 => Opening::ellipse(center, width, depth, 0.0).ok(),
                2 => Opening::circle(center, width).ok(),
                _ => Opening::d_shape(center, width, depth, round * 0.1 * width.min(depth)).ok(),
            };
            let made = made.unwrap_or_else(|| Opening::circle(center, width).expect("a circle")).rotated(turn, center);
            made.offset(reveal).unwrap_or(made)
        },
    )
}

/// Points close together all along a boundary, 0.2 mm off it at most, with nothing of the closed forms.
fn walked(path: &kurbo::BezPath) -> Vec<Point> {
    use kurbo::{ParamCurve, ParamCurveArclen};
    path.segments()
        .filter(|segment| segment.arclen(1e-6) > 1e-9)
        .flat_map(|segment| {
            let parts = (segment.arclen(1e-6) / 0.002).ceil();
            (0..parts as u32).map(move |part| segment.eval(f64::from(part) / parts)).collect::<Vec<_>>()
        })
        .collect()
}

/// What is drawn has the measures that are told, and is closed.
fn assert_sane(outline: &Outline) {
    assert!(outline.area() > 0.0 && outline.perimeter() > 0.0);
    assert!(outline.area().is_finite() && outline.perimeter().is_finite() && outline.centroid().is_finite());
    for (edge, next) in outline.edges().iter().zip(outline.edges().iter().cycle().skip(1)) {
        assert_eq!(edge.end(), next.start());
    }
    // kurbo measures what is drawn.
    let drawn = outline.path();
    assert!((drawn.area() - outline.area()).abs() < 2e-5, "{} {}", drawn.area(), outline.area());
    assert!((drawn.perimeter(1e-9) - outline.perimeter()).abs() < 2e-5);
    let (drawn, bounds) = (drawn.bounding_box(), outline.bounds());
    assert!((drawn.x0 - bounds.x0).abs() < 1e-5 && (drawn.y1 - bounds.y1).abs() < 1e-5);
}

fn assert_same(one: &Outline, other: &Outline) {
    assert_eq!(one.edges().len(), other.edges().len());
    for (one, other) in one.edges().iter().zip(other.edges()) {
        assert_eq!(one.tag(), other.tag());
        let apart = (one.start() - other.start()).hypot();
        assert!(apart < EXACT, "{apart}: {one:?} {other:?}");
        assert!((one.point_at(0.5) - other.point_at(0.5)).hypot() < EXACT);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(512))]

    #[test]
    fn outlines_are_drawn_as_they_measure(outline in star()) {
        assert_sane(&outline);
    }

    /// A point counts as inside just as it does of the drawn path.
    #[test]
    fn inside_is_inside(outline in star(), points in prop::collection::vec((-2.0..2.0_f64, -2.0..2.0_f64), 16)) {
        for point in points.into_iter().map(Point::from) {
            let (_, near) = outline.nearest(point);
            if (near - point).hypot() > 1e-5 {
                prop_assert_eq!(outline.contains(point), outline.path().contains(point), "{:?}", point);
            }
        }
    }

    /// Turned or mirrored, the same numbers.
    #[test]
    fn hands_and_turns_do_not_matter(
        outline in star(), openings in prop::collection::vec(opening(), 0..4), turn in 0.0..TAU, x in -3.0..3.0_f64,
    ) {
        let about = Point::new(x, 1.0);
        let place = |shape: &Opening| shape.mirrored(x).rotated(turn, about);
        let moved = outline.mirrored(x).rotated(turn, about);
        assert_sane(&moved);
        prop_assert!((outline.area() - moved.area()).abs() < EXACT);
        prop_assert!((outline.perimeter() - moved.perimeter()).abs() < EXACT);
        let moved_openings: Vec<_> = openings.iter().map(place).collect();
        for (one, other) in openings.iter().zip(&moved_openings) {
            prop_assert!((one.area() - other.area()).abs() < EXACT);
            prop_assert!((one.perimeter() - other.perimeter()).abs() < EXACT);
            // What runs past the outline is only told about how deep.
            let (gaps, moved) = (to_edges(one, &outline), to_edges(other, &moved));
            for (edge, gap) in gaps.iter().enumerate() {
                let twin = moved[(moved.len() - edge) % moved.len()];
                if gap.distance > 1e-6 || twin.distance > 1e-6 {
                    prop_assert!((gap.distance - twin.distance).abs() < EXACT, "{gap:?} {twin:?}");
                }
            }
        }
        if let ([one, other, ..], [moved_one, moved_other, ..]) = (&openings[..], &moved_openings[..]) {
            let (gap, moved) = (between_openings(one, other), between_openings(moved_one, moved_other));
            if gap.distance > 1e-6 || moved.distance > 1e-6 {
                prop_assert!((gap.distance - moved.distance).abs() < EXACT, "{gap:?} {moved:?}");
            }
        }
    }

    /// Whatever is asked for: an outline or the reason, and a reason's share does work.
    #[test]
    fn offsets_hold_or_say_why(outline in star(), seed in prop::collection::vec(-0.4..0.4_f64, 24)) {
        let distances: Vec<f64> = seed.iter().copied().cycle().take(outline.edges().len()).collect();
        match outline.offset(&distances) {
            Ok(made) => assert_sane(&made),
            Err(error) => {
                prop_assert!((0.0..1.0).contains(&error.share), "{error:?}");
                prop_assert!(error.largest.is_finite() && error.edge < distances.len());
                let within: Vec<_> = distances.iter().map(|distance| distance * error.share).collect();
                let made = outline.offset(&within);
                prop_assert!(made.is_ok(), "{error:?} {made:?}");
                prop_assert!((distances[error.moved] * error.share - error.largest).abs() < EXACT);
            }
        }
    }

    /// Out and in again is the same outline, where no steps come, nothing is swallowed, and no rounded corner
    /// turns over or goes all but flat between neighbours that move apart.
    #[test]
    fn offset_then_inset(outline in star(), seed in prop::collection::vec(-0.05..0.05_f64, 24)) {
        let distances: Vec<f64> = seed.iter().copied().cycle().take(outline.edges().len()).collect();
        let Ok(made) = outline.offset(&distances) else { return Ok(()) };
        // Circles that only just cut, at under 2° either way, say where to no better than a few nanometres.
        let clear_cut = |outline: &Outline| {
            let (little, much) = (2.0_f64.to_radians(), 178.0_f64.to_radians());
            let bends = |edge: &Edge| edge.is_straight() || edge.sweep().abs() > little;
            let turns = |vertex: usize| (PI - outline.interior_angle(vertex)).abs();
            let cut = |turn: f64| turn < 1e-6 || (little..much).contains(&turn);
            outline.edges().iter().all(bends) && (0..outline.edges().len()).map(turns).all(cut)
        };
        let keeps_its_hand = |(made, edge): (&Edge, &Edge)| {
            let corner = matches!(edge.tag(), EdgeTag::Corner(..));
            !corner || made.bulge() * edge.bulge() > 0.0 && made.sweep().abs().min(edge.sweep().abs()) > 0.1
        };
        let as_many = made.edges().len() == outline.edges().len();
        if as_many && made.edges().iter().zip(outline.edges()).all(keeps_its_hand) && clear_cut(&outline) && clear_cut(&made) {
            let back: Vec<_> = distances.iter().map(|distance| -distance).collect();
            match made.offset(&back) {
                Ok(back) => assert_same(&back, &outline),
                Err(error) => prop_assert!(false, "{error:?}"),
            }
        }
    }

    /// Closed form for convex polygons: A + P d + d² Σ tan(turn ÷ 2).
    #[test]
    fn a_uniform_offset_adds_strips_and_mitres(outline in convex(), distance in 0.0..0.5_f64) {
        let made = outline.offset_all(distance).expect("outward, nothing is swallowed");
        let turns: f64 = (0..outline.edges().len()).map(|v| ((PI - outline.interior_angle(v)) / 2.0).tan()).sum();
        let expected = outline.area() + outline.perimeter() * distance + distance * distance * turns;
        prop_assert!((made.area() - expected).abs() < EXACT * expected);
    }

    /// The same by rounding every corner: A + P d + π d² (Steiner).
    #[test]
    fn a_rounded_offset_adds_a_circle(outline in convex(), distance in 0.001..0.5_f64, share in 0.05..0.95_f64) {
        // Rounded as far as every edge allows.
        let radius = (0..outline.edges().len())
            .map(|v| {
                let half = ((PI - outline.interior_angle(v)) / 2.0).tan();
                let shorter = outline.edges()[v].length().min(outline.edges()[outline.before(v)].length());
                shorter / 2.0 / half
            })
            .fold(f64::INFINITY, f64::min);
        let corners: Vec<_> = outline.edges().iter().map(|edge| (edge.start(), radius * share)).collect();
        prop_assume!(radius * share > 1e-4);
        let rounded = Outline::rounded_polygon(&corners).expect("fits");
        let made = rounded.offset_all(distance).expect("outward, nothing is swallowed");
        let expected = rounded.area() + rounded.perimeter() * distance + PI * distance * distance;
        prop_assert!((made.area() - expected).abs() < EXACT * expected);
        prop_assert!((made.perimeter() - rounded.perimeter() - TAU * distance).abs() < EXACT);
    }

    /// Area is additive: cutting a convex top in two along any line loses nothing.
    #[test]
    fn area_is_additive(width in 0.5..2.0_f64, depth in 0.5..2.0_f64, left in 0.1..0.4_f64, right in 0.1..0.4_f64,
        rise in 0.01..0.05_f64) {
        let whole = Outline::rectangle(width, depth).unwrap();
        let (a, b) = (Point::new(0.0, left * depth), Point::new(width, right * depth));
        let bulge = 2.0 * rise / (b - a).hypot();
        let front = Outline::with_arcs(
            &[(Point::ORIGIN, 0.0), (Point::new(width, 0.0), 0.0), (b, bulge), (a, 0.0)]).unwrap();
        let back = Outline::with_arcs(
            &[(a, -bulge), (b, 0.0), (Point::new(width, depth), 0.0), (Point::new(0.0, depth), 0.0)]).unwrap();
        prop_assert!((front.area() + back.area() - whole.area()).abs() < EXACT);
        let moment = front.area() * front.centroid().to_vec2() + back.area() * back.centroid().to_vec2();
        prop_assert!((moment / whole.area() - whole.centroid().to_vec2()).hypot() < EXACT);
    }

    /// Distances to the edges against a walk along both boundaries, and their signs.
    #[test]
    fn rails_are_those_of_a_walk(outline in star(), opening in opening()) {
        let around = walked(&opening.path());
        let out = around.iter().map(|point| outline.nearest(*point).1.distance(*point))
            .zip(&around).filter(|(_, point)| !outline.contains(**point)).map(|(depth, _)| depth)
            .fold(0.0, f64::max);
        let swallowed = outline.edges().iter().any(|edge| opening.signed_distance(edge.start()).0 < -1e-4);
        let gaps = to_edges(&opening, &outline);
        for (gap, edge) in gaps.iter().zip(outline.edges()) {
            prop_assert!(gap.distance.is_finite() && gap.at.0.is_finite() && gap.at.1.is_finite());
            if gap.distance > 0.0 {
                prop_assert!(((gap.at.1 - gap.at.0).hypot() - gap.distance).abs() < EXACT);
                let walk = around.iter().map(|point| (edge.nearest(*point) - *point).hypot());
                let least = walk.fold(f64::INFINITY, f64::min);
                // A step of 2 mm misses the nearest point by 1 mm at most, and is never nearer.
                prop_assert!(gap.distance < least + 1e-5 && least < gap.distance + 1.1e-3, "{gap:?} {least}");
            }
        }
        let least = gaps.iter().map(|gap| gap.distance).fold(f64::INFINITY, f64::min);
        if out > 1e-5 || swallowed {
            // How deep is only told about.
            prop_assert!(least < 0.0 && least <= -0.85 * out + 1e-3, "{least} {out}");
        } else if out == 0.0 && least < -1e-3 {
            prop_assert!(swallowed || outline.edges().iter().any(|edge| {
                walked_edge(edge).any(|point| opening.contains(point))
            }), "{least}");
        }
    }

    /// Distances of openings against a walk, in both orders, and their signs.
    #[test]
    fn gaps_are_those_of_a_walk(one in opening(), other in opening()) {
        let (there, back) = (between_openings(&one, &other), between_openings(&other, &one));
        prop_assert!(there.distance.is_finite() && back.distance.is_finite());
        let walk = walked(&one.path());
        let least = walk.iter().map(|point| other.signed_distance(*point).0).fold(f64::INFINITY, f64::min);
        if there.distance > 0.0 {
            prop_assert!((there.distance - back.distance).abs() < EXACT, "{there:?} {back:?}");
            prop_assert!(there.distance < least + 1e-5 && least < there.distance + 1.1e-3, "{there:?} {least}");
            let Gap { distance, at } = there;
            prop_assert!(((at.1 - at.0).hypot() - distance).abs() < 1e-7);
            prop_assert!(one.signed_distance(at.0).0.abs() < 1e-7 && other.signed_distance(at.1).0.abs() < 1e-7);
        } else {
            prop_assert!(back.distance <= EXACT);
        }
        if least < -1e-5 {
            prop_assert!(there.distance < 0.0 && back.distance < 0.0, "{there:?} {back:?} {least}");
        }
    }

    /// Closed form: a circle set off from an ellipse along its normal is that far away.
    #[test]
    fn a_circle_along_the_normal_of_an_ellipse(
        a in 0.05..0.5_f64, b in 0.05..0.5_f64, turn in 0.0..TAU, apart in 0.001..0.5_f64, radius in 0.01..0.3_f64,
    ) {
        let ellipse = Opening::ellipse(Point::ORIGIN, 2.0 * a, 2.0 * b, 0.0).unwrap();
        let boundary = Point::new(a * turn.cos(), b * turn.sin());
        let normal = Vec2::new(turn.cos() / a, turn.sin() / b).normalize();
        let circle = Opening::circle(boundary + (apart + radius) * normal, 2.0 * radius).unwrap();
        let gap = between_openings(&ellipse, &circle);
        prop_assert!((gap.distance - apart).abs() < EXACT, "{gap:?}");
        prop_assert!((gap.at.0 - boundary).hypot() < 1e-6, "{gap:?}");
        let (distance, near) = ellipse.signed_distance(boundary + apart * normal);
        prop_assert!((distance - apart).abs() < 1e-12 && (near - boundary).hypot() < EXACT);
        // The same of two ellipses, the circle as one of them.
        let round = Opening::ellipse(boundary + (apart + radius) * normal, 2.0 * radius, 2.0 * radius, 0.0).unwrap();
        prop_assert!((between_openings(&ellipse, &round).distance - apart).abs() < EXACT);
    }

    /// Numbers that no tape gives are refused, not drawn.
    #[test]
    fn any_numbers_are_taken(numbers in prop::collection::vec(prop::num::f64::ANY, 12), place in any::<usize>()) {
        let points: Vec<_> = numbers.chunks(3).map(|part| (Point::new(part[0], part[1]), part[2])).collect();
        let made = [
            Outline::with_arcs(&points).ok(),
            Outline::rounded_polygon(&points).ok(),
            Outline::rectangle(numbers[0], numbers[1]).ok(),
            Outline::rounded_rectangle(numbers[0], numbers[1], numbers[2]).ok(),
            Outline::l_shape(numbers[0], numbers[1], numbers[2], numbers[3]).ok(),
            Outline::d_shape(numbers[0], numbers[1], numbers[2]).ok(),
            Outline::circle(Point::new(numbers[0], numbers[1]), numbers[2]).ok(),
        ];
        for outline in made.into_iter().flatten() {
            prop_assert!(outline.area() > 0.0 && outline.area().is_finite());
        }
        let top = Outline::rectangle(2.0, 1.0).unwrap();
        let _ = (top.rounded(place % 6, numbers[0]), top.clipped(place % 6, numbers[1], numbers[2]));
        let _ = (top.bowed(place % 6, numbers[3]), top.half_round(place % 6), top.offset(&numbers[..4]));
        prop_assert!(top.interior_angle(place).is_finite());
        let openings: Vec<_> = [
            Opening::ellipse(Point::new(numbers[0], numbers[1]), numbers[2], numbers[3], numbers[4]).ok(),
            Opening::rounded_rectangle(Point::new(0.5, numbers[5]), numbers[6], 0.2, numbers[7]).ok(),
            Opening::circle(Point::new(numbers[8], 0.5), numbers[9]).ok(),
        ]
        .into_iter()
        .flatten()
        .collect();
        for rail in rails(&top, &openings) {
            prop_assert!(rail.gap.distance.is_finite());
        }
    }
}

fn walked_edge(edge: &Edge) -> impl Iterator<Item = Point> {
    (0..=400).map(|part| edge.point_at(f64::from(part) / 400.0))
}
