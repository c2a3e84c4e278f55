//! The worked demo.

use crate::job::{Cutout, CutoutShape, Edge, EdgeKind, Entry, HolePattern, Holes, Job, StrengthPoint, Units};

/// A finished job in a scenario of its own, to be told apart by `id`: a coffee counter with an oval
/// prep sink off its middle, a rough front and one open end. Entries are as a maker types them.
pub fn demo(id: &str) -> Job {
    let mut job = Job::new(id, Units::Inch);
    job.name = "Coffee counter".into();
    job.client = "Harrow Lane, ground floor".into();
    job.notes = Entry::new(
        "Left end dies into the fridge panel, right end is open to the hall. Sink sits over the right-hand door, not \
         in the middle. Back wall bows out about 1/8 near the window: scribe on site. Rough front to match the sill. \
         Grind to fine sand only. Deliver after the floor is in.",
    );
    job.pour.air = "66".into();
    job.pour.people = "2".into();
    if let Some(bag) = job.bags.first_mut() {
        let label = [("1 h", "2200 psi"), ("3 h", "3400 psi"), ("1 day", "5200 psi"), ("28 days", "7400 psi")];
        bag.strengths =
            label.map(|(age, strength)| StrengthPoint { age: age.into(), strength: strength.into() }).to_vec();
    }
    let Some(piece) = job.pieces.first_mut() else { return job };
    piece.name = "Counter".into();
    piece.width = "52 1/2".into();
    piece.depth = "23 3/4".into();
    piece.thickness = "1 3/4".into();
    piece.grinding = "1/16".into();
    let edge = |kind, liner: &str, radius: &str| Edge { kind, liner: liner.into(), radius: radius.into() };
    // Counter-clockwise from the front.
    piece.edges = vec![
        edge(EdgeKind::Lined, "3/4", ""),
        edge(EdgeKind::Eased, "", "1/4"),
        edge(EdgeKind::Wall, "", ""),
        edge(EdgeKind::Wall, "", ""),
    ];
    piece.cutouts = vec![Cutout {
        shape: CutoutShape::Ellipse,
        width: "16 1/4".into(),
        depth: "12 1/2".into(),
        from_left: "35".into(),
        from_front: "10 3/4".into(),
        ..Cutout::default()
    }];
    piece.holes = vec![Holes {
        pattern: HolePattern::Single,
        diameter: "1 3/8".into(),
        from_left: "35".into(),
        from_front: "19 1/4".into(),
        ..Holes::default()
    }];
    piece.steel = "3 1/2 lb".into();
    // Poured in the evening, stripped the next.
    piece.handling.stripped_at = "24 h".into();
    job
}
