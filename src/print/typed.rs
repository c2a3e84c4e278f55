//! What was typed of a piece, as typed: each number with the unit that it is read in, whatever the job's units are.

use super::Row;
use crate::job::read::with_unit;
use crate::job::{CutoutShape, Edge, EdgeKind, Entry, HolePattern, Job, Kind, Piece};
use crate::measure::Units;

/// Sizes, edges, cutouts and holes of a piece as they were typed; nothing if there is no such piece.
pub fn typed_rows(job: &Job, piece: usize) -> Vec<Row> {
    job.pieces.get(piece).map_or_else(Vec::new, |typed| rows(typed, job.units))
}

/// A length as typed with its unit, and a dash where nothing is typed.
fn size(entry: &Entry, units: Units) -> String {
    if entry.is_blank() { "—".to_owned() } else { with_unit(entry.text(), Kind::Length, units) }
}

fn rows(typed: &Piece, units: Units) -> Vec<Row> {
    let row = |name: String, value: String| Row::new(name, value);
    let sizes = [&typed.width, &typed.depth, &typed.thickness].map(|entry| size(entry, units));
    let mut rows = vec![row("Width × depth × thickness, as typed".to_owned(), sizes.join(" × "))];
    for side in 0..typed.sides() {
        rows.push(row(format!("{} edge", typed.side_name(side)), edge_words(&typed.edge(side), units)));
    }
    for (index, cutout) in typed.cutouts.iter().enumerate() {
        let [width, depth] = [&cutout.width, &cutout.depth].map(|entry| size(entry, units));
        let sizes = match cutout.shape {
            CutoutShape::Circle => format!(", {width} across"),
            CutoutShape::Polygon => String::new(),
            CutoutShape::Rectangle | CutoutShape::Ellipse | CutoutShape::D => format!(", {width} × {depth}"),
        };
        rows.push(row(format!("Cutout {}", index + 1), format!("{}{sizes}", cutout.shape.label())));
    }
    for set in &typed.holes {
        let holes = match set.pattern {
            HolePattern::Single => "Hole",
            HolePattern::Three => "Three holes",
        };
        rows.push(row(holes.to_owned(), format!("{} across", size(&set.diameter, units))));
    }
    rows
}

fn edge_words(edge: &Edge, units: Units) -> String {
    let more = match edge.kind {
        EdgeKind::Lined => format!(", liner {}", size(&edge.liner, units)),
        EdgeKind::Eased => format!(", radius {}", size(&edge.radius, units)),
        EdgeKind::Wall | EdgeKind::Plain | EdgeKind::Backsplash => String::new(),
    };
    format!("{}{more}", edge.kind.label())
}

#[cfg(test)]
mod tests {
    use super::typed_rows;
    use crate::job::{Cutout, CutoutShape, Edge, EdgeKind, HolePattern, Holes, Job};
    use crate::measure::Units;

    fn said(job: &Job) -> Vec<String> {
        typed_rows(job, 0).into_iter().map(|row| format!("{}: {}", row.name, row.value)).collect()
    }

    /// The same texts in both units: what has a unit keeps it, what has none takes the one it is read in.
    #[test]
    fn what_was_typed_is_said_with_its_own_unit() {
        // Eight behind feet can only be inches, which are this job's own in one of the two.
        for (units, unit, feet) in [(Units::Inch, "in", "1' 8 in"), (Units::Metric, "mm", "1' 8")] {
            let mut job = Job::new("a", units);
            let piece = &mut job.pieces[0];
            (piece.width, piece.depth, piece.thickness) = ("67 in".into(), "650".into(), " 2\" ".into());
            piece.edges[0] = Edge { kind: EdgeKind::Lined, liner: "3/4".into(), ..Edge::default() };
            piece.edges[1] = Edge { kind: EdgeKind::Eased, radius: "3 mm".into(), ..Edge::default() };
            let cutout = |shape, width: &str, depth: &str| Cutout {
                shape,
                width: width.into(),
                depth: depth.into(),
                ..Cutout::default()
            };
            piece.cutouts = vec![
                cutout(CutoutShape::Rectangle, "1' 8", "67 1/"),
                cutout(CutoutShape::Circle, "60", ""),
                cutout(CutoutShape::D, "", "16 1/2 in"),
                cutout(CutoutShape::Polygon, "7", "7"),
            ];
            piece.holes = vec![Holes { pattern: HolePattern::Three, diameter: "1 3/8 in".into(), ..Holes::default() }];
            assert_eq!(
                said(&job),
                [
                    format!("Width × depth × thickness, as typed: 67 in × 650 {unit} × 2\""),
                    format!("Front edge: Lined, liner 3/4 {unit}"),
                    "Right edge: Eased, radius 3 mm".to_owned(),
                    "Back edge: Wall".to_owned(),
                    "Left edge: Plain".to_owned(),
                    // What cannot be read is given to the letter.
                    format!("Cutout 1: Rectangle, {feet} × 67 1/"),
                    format!("Cutout 2: Circle, 60 {unit} across"),
                    "Cutout 3: D, — × 16 1/2 in".to_owned(),
                    "Cutout 4: From a template".to_owned(),
                    "Three holes: 1 3/8 in across".to_owned(),
                ]
            );
        }
    }

    #[test]
    fn there_is_nothing_to_say_of_a_piece_that_is_not_there() {
        assert!(typed_rows(&Job::new("a", Units::Inch), 1).is_empty());
    }
}
