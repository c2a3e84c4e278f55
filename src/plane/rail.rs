//! Rails: the strips left between an opening and the edges, and between two openings.

use super::distance::{Gap, box_distance, facing};
use super::opening::deepest;
use super::{Opening, Outline, TOUCH};
use kurbo::Point;

/// An opening that runs into so many others is known to be in the wrong place. Between two such there is no rail, and
/// how deep they overlap is not worked out: of a hundred in one place that would be five thousand times.
const MOST_ENTANGLED: usize = 3;

/// What lies on the far side of a rail.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum RailTo {
    /// An edge of the outline, by its index.
    Edge(usize),
    /// Another opening, by its index.
    Opening(usize),
}

/// The strip beside an opening, by its thinnest place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rail {
    /// The opening that it lies beside, by its index.
    pub opening: usize,
    /// What is on its far side; of two openings, the one that comes later.
    pub to: RailTo,
    /// Its least width, and where: the point on the opening first.
    pub gap: Gap,
}

/// Every rail of a piece: each opening to each edge and to each later opening, thinnest first. Openings that run into
/// several others are not all held against each other.
pub fn rails(outline: &Outline, openings: &[Opening]) -> Vec<Rail> {
    rails_where(outline, openings, |_, _| true)
}

/// The same with only those rails between openings that are `wanted`, by the indices of the two.
pub fn rails_where(outline: &Outline, openings: &[Opening], wanted: impl Fn(usize, usize) -> bool) -> Vec<Rail> {
    let mut rails = Vec::with_capacity(openings.len() * outline.edges().len());
    let mut entangled = vec![0; openings.len()];
    for (index, opening) in openings.iter().enumerate() {
        let edges = to_edges(opening, outline).into_iter().enumerate();
        rails.extend(edges.map(|(edge, gap)| Rail { opening: index, to: RailTo::Edge(edge), gap }));
        for (other, other_opening) in openings.iter().enumerate().skip(index + 1) {
            if !wanted(index, other) || entangled[index].min(entangled[other]) >= MOST_ENTANGLED {
                continue;
            }
            let gap = between_openings(opening, other_opening);
            if gap.distance < 0.0 {
                entangled[index] += 1;
                entangled[other] += 1;
            }
            rails.push(Rail { opening: index, to: RailTo::Opening(other), gap });
        }
    }
    rails.sort_by(|one, other| one.gap.distance.total_cmp(&other.gap.distance));
    rails
}

/// Least distance of an opening from each edge of an outline, in the order of the edges. Negative for
/// every edge that the opening runs past, or into where the edge belongs to an inside corner: then it
/// tells how deep, and the points are those of the deepest place found.
pub fn to_edges(opening: &Opening, outline: &Outline) -> Vec<Gap> {
    let mut gaps: Vec<Gap> =
        outline.edges().iter().zip(outline.boxes()).map(|(edge, edge_box)| opening.to_edge(edge, edge_box)).collect();
    let clear = gaps.iter().all(|gap| gap.distance > TOUCH);
    let inside = gaps.first().is_some_and(|gap| outline.contains(gap.at.0));
    if clear && inside {
        return gaps;
    }
    // It touches, crosses or lies outside: what is beyond the outline counts for the edge next to it.
    let mut depths = vec![0.0_f64; gaps.len()];
    let mut points = opening.samples();
    for edge in outline.edges() {
        points.extend(opening.furthest(edge));
    }
    for point in points.into_iter().filter(|point| !outline.contains(*point)) {
        let (_, nearest) = outline.nearest(point);
        let depth = (nearest - point).hypot();
        for (index, edge) in outline.edges().iter().enumerate() {
            // Beyond a corner, a point is beyond both of its edges.
            let near = edge.nearest(point);
            if depth > depths[index].max(TOUCH) && (near - point).hypot() <= depth + TOUCH {
                depths[index] = depth;
                gaps[index] = Gap { distance: -depth, at: (point, near) };
            }
        }
    }
    // And so does what of an edge lies inside the opening.
    for (index, edge) in outline.edges().iter().enumerate() {
        if depths[index] > 0.0 {
            continue;
        }
        let mut points = vec![edge.start(), edge.end(), edge.point_at(0.5)];
        if let Opening::Outline(other) = opening {
            for own in other.edges() {
                facing(own, edge, &mut |(_, point)| points.push(point));
            }
        }
        if let Some(deepest) = deepest(opening, points)
            && deepest.distance < gaps[index].distance
        {
            gaps[index] = deepest.swapped();
        }
    }
    gaps
}

/// Least distance between two openings, and the points. Negative where they overlap or one holds the
/// other: then it tells about how deep.
pub fn between_openings(one: &Opening, other: &Opening) -> Gap {
    match (one, other) {
        (Opening::Ellipse(first), Opening::Ellipse(second)) => {
            let (distance, at) = first.apart(second);
            Gap { distance, at }
        }
        (Opening::Ellipse(_), Opening::Outline(outline)) => outline_to(outline, other, one).swapped(),
        (Opening::Outline(outline), _) => outline_to(outline, one, other),
    }
}

fn outline_to(outline: &Outline, one: &Opening, other: &Opening) -> Gap {
    let mut least = Gap::NONE;
    let other_box = other.bounds();
    for (edge, edge_box) in outline.edges().iter().zip(outline.boxes()) {
        if box_distance(edge_box, &other_box) < least.distance {
            least = least.nearer(other.to_edge(edge, edge_box).swapped());
        }
    }
    let apart = least.distance > TOUCH && !other.contains(least.at.0) && !outline.contains(least.at.1);
    if apart {
        return least;
    }
    // How deep each reaches into the other; the deeper counts.
    let facing_points = |mine: &Opening, theirs: &Opening| -> Vec<Point> {
        let mut points = mine.samples();
        if let Opening::Outline(theirs) = theirs {
            for edge in theirs.edges() {
                points.extend(mine.furthest(edge));
            }
        }
        points
    };
    let into_other = deepest(other, facing_points(one, other));
    let into_one = deepest(one, facing_points(other, one)).map(Gap::swapped);
    let deeper = [into_other, into_one].into_iter().flatten().fold(least, Gap::nearer);
    if deeper.distance < 0.0 {
        return deeper;
    }
    // Two that only touch have nothing inside each other; two that are alike have their centres.
    deepest(other, [one.centroid()]).unwrap_or(deeper)
}
