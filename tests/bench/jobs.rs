//! Jobs to measure with.

use pourwright::job::{Cutout, CutoutShape, Job, Piece};
use pourwright::mix::demo;

/// A job of that many counters; every third has one cutout, the others have two.
pub fn counters(pieces: usize) -> Job {
    let mut job = demo("bench");
    let first = job.pieces[0].clone();
    job.pieces = (0..pieces).map(|index| counter(&first, index)).collect();
    job
}

fn counter(first: &Piece, index: usize) -> Piece {
    let mut piece = first.clone();
    piece.name = format!("Counter {}", index + 1).as_str().into();
    piece.width = format!("{} 1/2", 64 + index % 7).as_str().into();
    if index % 3 < 2 {
        piece.cutouts.push(Cutout {
            shape: CutoutShape::Rectangle,
            width: "9".into(),
            depth: "11".into(),
            corner_radius: "1".into(),
            from_left: "12".into(),
            from_front: "11".into(),
            ..Cutout::default()
        });
    }
    piece
}
