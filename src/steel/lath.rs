//! Sheets of lath laid over a piece, with laps.

use super::inset::inset;
use super::region::{self, Region};
use super::{Chosen, SteelInputs};
use crate::job::{FieldPath, Lath, SteelField};
use crate::label;
use crate::measure::exact::{in_pounds, inches};
use crate::measure::{Area, Length, Mass, Quantity, write_number};
use crate::plane::{OffsetError, Opening, Outline};
use crate::steel::limits;
use crate::top::RailEnd;
use crate::working::{Figure, Known, Label, Named, Part, Source, Term, Waiting, Word, together};
use kurbo::{Affine, Rect};
use uom::si::area::square_meter;
use uom::si::length::meter;

/// Part of a panel that is cut away around a cutout or a hole.
#[derive(Clone, Debug, PartialEq)]
pub struct PanelCut {
    /// The cutout or hole.
    pub of: RailEnd,
    /// What is cut away: the cutout moved out by what lath stays off it; metres.
    pub outline: Opening,
    /// The rectangle around what of it lies in the panel, from the panel's left end.
    pub from_left: Length,
    /// The same from the panel's front edge.
    pub from_front: Length,
    /// Size of that rectangle, left to right.
    pub width: Length,
    /// Size of that rectangle, front to back.
    pub depth: Length,
}

/// A panel of lath to cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Panel {
    /// What is written on it: "L1".
    pub mark: String,
    /// Where it lies, seen from above as installed; metres.
    pub at: Rect,
    /// Size across the sheet.
    pub width: Length,
    /// Size along the sheet.
    pub length: Length,
    /// It is trimmed to the outline: there is less of that inside the panel than the panel is large.
    pub trimmed: bool,
    /// What is cut away inside it.
    pub cuts: Vec<PanelCut>,
}

/// The lath of a piece.
#[derive(Clone, Debug, PartialEq)]
pub struct LathPlan {
    /// Its weight class.
    pub class: Lath,
    /// Layers that lie on each other, all cut alike.
    pub layers: u32,
    /// The piece moved in by what lath stays off its edges: what is covered, less the cuts; metres.
    pub outline: Outline,
    /// The panels of one layer.
    pub panels: Vec<Panel>,
    /// Sheets to buy for all layers.
    pub sheets: Figure<u32>,
    /// Lath in one layer once cut, laps counted twice.
    pub area: Figure<Area>,
    /// Mass of all layers.
    pub mass: Figure<Mass>,
}

/// A sheet of lath and how far it laps; metres.
#[derive(Clone, Copy)]
struct Sheet {
    width: f64,
    length: f64,
    lap: f64,
}

impl LathPlan {
    /// # Errors
    /// The sizes of the sheets, their lap or the layers, where they cannot be read or cannot be right; what steel
    /// stays off the edges, where that leaves nothing inside.
    pub(super) fn of(chosen: &Chosen, inputs: &SteelInputs) -> Known<Self> {
        let SteelInputs { layers, lath_width, lath_length, lap, .. } = inputs;
        let (layers, width, length, lap) =
            together((layers.clone(), lath_width.clone(), lath_length.clone(), lap.clone()))?;
        if layers > limits::MOST_LATH_LAYERS {
            return Err(waits(SteelField::Layers, "more than can lie in a top.", inputs));
        }
        let sheet = Sheet { width: width.get::<meter>(), length: length.get::<meter>(), lap: lap.get::<meter>() };
        if sheet.lap >= sheet.width.min(sheet.length) {
            let says = "as much as a sheet is wide; nothing is left to cover.";
            return Err(waits(SteelField::Lap, says, inputs));
        }
        let off = chosen.off.get::<meter>();
        let outline = inset(&chosen.outline, off).map_err(|error| no_room(&error, inputs))?;
        let openings: Vec<_> = chosen.openings.iter().map(|(end, opening)| (*end, moved_out(opening, off))).collect();
        let shapes: Vec<_> = openings.iter().map(|(_, opening)| opening.clone()).collect();
        let region = Region::of(&outline, &shapes);
        let too_many = || waits(SteelField::LathWidth, "more panels than can be right; check the sheet.", inputs);
        let panels = panels(&region, sheet).ok_or_else(too_many)?;
        // What lies in a cutout altogether is not cut.
        let cut = panels.into_iter().map(|(at, turned)| (at, turned, region.area_in(at)));
        let cut: Vec<_> = cut.filter(|(_, _, area)| *area > 0.0).collect();
        let area = Area::new::<square_meter>(cut.iter().map(|(_, _, area)| area).sum());
        let panels: Vec<_> = cut.into_iter().map(|(at, turned, _)| (at, turned)).collect();
        let sheets = count_sheets(&panels, sheet, layers);
        let whole = Region { openings: Vec::new(), ..region };
        let listed = (1..).zip(panels).map(|(number, (at, turned))| panel(number, at, turned, &whole, &openings));
        let panels: Vec<_> = listed.collect();
        let sheets = count_figure(sheets, &panels, layers, [width, length]);
        let area = area_figure(area, &panels);
        let mass = mass_figure(chosen.lath, &area, layers);
        Ok(Self { class: chosen.lath, layers, outline, panels, sheets, area, mass })
    }
}

/// An opening moved out. A shape that cannot be, as one with a hollow too tight for it, is taken as the
/// rectangle around it.
fn moved_out(opening: &Opening, by: f64) -> Opening {
    opening.offset(by).unwrap_or_else(|_| {
        let around = opening.bounds().inflate(by, by);
        let rectangle = Opening::rounded_rectangle(around.center(), around.width(), around.height(), 0.0);
        rectangle.unwrap_or_else(|_| opening.clone())
    })
}

fn no_room(error: &OffsetError, inputs: &SteelInputs) -> Waiting {
    let most = Word::AtMost(Length::new::<meter>(error.largest.abs()));
    waits(SteelField::OffEdges, label!("nothing is left inside; {} is the most.", most), inputs)
}

/// What is wrong with a size of the steel.
fn waits(field: SteelField, says: impl Into<Label>, inputs: &SteelInputs) -> Waiting {
    Waiting::named(FieldPath::Steel(inputs.piece, field), says)
}

/// Panels, each with whether it lies with its length front to back. The length of a sheet, in which expanded
/// metal is strong, lies along the longer side of the piece. Nothing if it takes too many.
fn panels(region: &Region, sheet: Sheet) -> Option<Vec<(Rect, bool)>> {
    let around = region::bounds(&region.outer);
    if around.height() <= around.width() {
        return Some(lay(region, sheet)?.into_iter().map(|at| (at, false)).collect());
    }
    let swap = Affine::new([0.0, 1.0, 1.0, 0.0, 0.0, 0.0]);
    let back = |at: Rect| (Rect::new(at.y0, at.x0, at.y1, at.x1), true);
    Some(lay(&region.moved(swap), sheet)?.into_iter().map(back).collect())
}

/// Rows of sheets from the front to the back, in each row from left to right. Nothing if there are too many.
fn lay(region: &Region, sheet: Sheet) -> Option<Vec<Rect>> {
    let around = region::bounds(&region.outer);
    let mut panels = Vec::new();
    for (front, back) in steps((around.y0, around.y1), sheet.width, sheet.lap)? {
        for reach in region.reaches(front, back) {
            for (left, right) in steps(reach, sheet.length, sheet.lap)? {
                panels.push(Rect::new(left, front, right, back));
            }
            if panels.len() > limits::MOST_PANELS {
                return None;
            }
        }
    }
    Some(panels)
}

/// A stretch covered by others no longer than `most`, each lapping over the one before. Nothing if it takes too
/// many.
fn steps((from, to): region::Span, most: f64, lap: f64) -> Option<Vec<region::Span>> {
    let slack = crate::measure::geometry_tolerance().get::<meter>();
    let count = ((to - from - lap - slack) / (most - lap)).ceil().max(1.0);
    // What is not a number is out of range as well.
    if !(1.0..=limits::MOST_PANELS as f64).contains(&count) {
        return None;
    }
    let step = |index: u32| {
        let start = from + f64::from(index) * (most - lap);
        (start, (start + most).min(to))
    };
    Some((0..count as u32).map(step).collect())
}

/// Sheets for so many layers of panels: strips across the sheet, longest panel first, each panel in the first
/// strip with room, each strip in the first sheet with room.
fn count_sheets(panels: &[(Rect, bool)], sheet: Sheet, layers: u32) -> u32 {
    let size =
        |(at, turned): &(Rect, bool)| if *turned { (at.width(), at.height()) } else { (at.height(), at.width()) };
    let slack = crate::measure::geometry_tolerance().get::<meter>();
    let mut sizes: Vec<(f64, f64)> = panels.iter().map(size).collect();
    sizes.sort_by(|one, other| other.1.total_cmp(&one.1).then(other.0.total_cmp(&one.0)));
    let mut strips: Vec<(f64, f64)> = Vec::new();
    for (width, length) in sizes.iter().flat_map(|size| (0..layers).map(move |_| *size)) {
        match strips.iter_mut().find(|(used, _)| used + width <= sheet.width + slack) {
            Some(strip) => strip.0 += width,
            None => strips.push((width, length)),
        }
    }
    let mut sheets: Vec<f64> = Vec::new();
    for (_, length) in strips {
        match sheets.iter_mut().find(|used| **used + length <= sheet.length + slack) {
            Some(used) => *used += length,
            None => sheets.push(length),
        }
    }
    u32::try_from(sheets.len()).unwrap_or(u32::MAX)
}

fn panel(number: u32, at: Rect, turned: bool, whole: &Region, openings: &[(RailEnd, Opening)]) -> Panel {
    let length = |metres: f64| Length::new::<meter>(metres);
    let cut = |(of, outline): &(RailEnd, Opening)| {
        let inside = outline.bounds().intersect(at);
        let lies_in = inside.width() > 0.0 && inside.height() > 0.0;
        lies_in.then(|| PanelCut {
            of: *of,
            outline: outline.clone(),
            from_left: length(inside.x0 - at.x0),
            from_front: length(inside.y0 - at.y0),
            width: length(inside.width()),
            depth: length(inside.height()),
        })
    };
    let (across, along) = if turned { (at.width(), at.height()) } else { (at.height(), at.width()) };
    Panel {
        mark: format!("L{number}"),
        at,
        width: length(across),
        length: length(along),
        // A strip of what is trimmed off is told from float noise.
        trimmed: whole.area_in(at) < at.area() * (1.0 - 1e-6),
        cuts: openings.iter().filter_map(cut).collect(),
    }
}

fn count_figure(sheets: u32, panels: &[Panel], layers: u32, [width, length]: [Length; 2]) -> Figure<u32> {
    let panel = |panel: &Panel| {
        let area: Area = panel.width * panel.length;
        panel.width.named("width").with_rule(panel.length.named("length"), "{} by {}", |x| x[0] * x[1], area)
    };
    let parts = [
        Part::list(panels.iter().map(panel)),
        Term::named_as(layers, "layers", Quantity::Count(layers, "layer", "layers")).into(),
        width.named("width of a sheet").into(),
        length.named("its length").into(),
    ];
    let says = "panels {}, in {}, cut in strips from sheets of {} by {}, longest panel first";
    let counted = Quantity::Count(sheets, "sheet", "sheets");
    Term::found(says, parts, sheets).titled_as("Sheets of lath", counted, Source::Arithmetic)
}

fn area_figure(area: Area, panels: &[Panel]) -> Figure<Area> {
    let count = u32::try_from(panels.len()).unwrap_or(u32::MAX);
    let panels = Term::named_as(count, "panels", Quantity::Count(count, "panel", "panels"));
    let says = "{}, less what is cut away at cutouts and trimmed at the outline; laps count twice";
    Term::found(says, [panels.into()], area).titled("Lath in one layer", Source::Arithmetic)
}

fn square_yard() -> Area {
    inches(36.0) * inches(36.0)
}

fn mass_figure(lath: Lath, area: &Figure<Area>, layers: u32) -> Figure<Mass> {
    let mass = limits::lath_mass(lath, area.value) * f64::from(layers);
    let class = limits::lath_mass(lath, square_yard());
    let by_area = |si: f64, _| {
        let pounds = in_pounds(Mass::new::<uom::si::mass::kilogram>(si));
        write_number(pounds, 1) + " lb/yd²"
    };
    let parts = [
        area.called("area").into(),
        layers.named("layers").into(),
        Term::named_as(class, "weight class", Quantity::other(class.value, by_area)).into(),
    ];
    let of_all = |x: &[f64]| x[2] * (x[0] / square_yard().value) * x[1];
    Term::rule("{} × {} × {}", parts, of_all, mass).titled("Mass of the lath", limits::LATH)
}
