//! Lath and bars, where they lie in the form.

use super::canvas::Canvas;
use super::plan::Paper;
use crate::estimate::PieceEstimate;
use kurbo::{Rect, Shape};

/// The reach of the lath, its panels, and every bar with its mark.
pub(super) fn draw_steel(canvas: &mut Canvas, paper: &Paper, piece: &PieceEstimate) {
    let Ok(steel) = &piece.steel else { return };
    if let Some(lath) = &steel.lath {
        canvas.path("lath", &paper.path(lath.outline.path()));
        for panel in &lath.panels {
            canvas.path("lath-panel", &paper.path(panel.at.to_path(0.001)));
            let [one, other] = [panel.at.origin(), kurbo::Point::new(panel.at.x1, panel.at.y1)].map(|at| paper.at(at));
            let corner = Rect::from_points(one, other);
            canvas.words("steel-mark", kurbo::Point::new(corner.x0 + 16.0, corner.y0 + 14.0), 0.0, &panel.mark);
        }
    }
    for bar in steel.bars.iter().flat_map(|bars| &bars.bars) {
        let (a, b) = (paper.at(bar.ends.0), paper.at(bar.ends.1));
        canvas.line("bar", a, b);
        canvas.words("steel-mark", a.lerp(b, 0.12) + kurbo::Vec2::new(0.0, -7.0), 0.0, &bar.mark);
    }
}
