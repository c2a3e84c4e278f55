//! Silicone, tape and release agent.

use super::{Built, EndCut, Form, Part};
use crate::form::limits;
use crate::job::read::{self, all, both};
use crate::job::{EdgeKind, FieldPath, FormField, Job};
use crate::measure::Dose;
use crate::measure::{Area, Length, Units, Volume, write_area, write_count, write_dose, write_length, write_number};
use crate::plane::{Edge, EdgeTag};
use crate::top::Top;
use crate::working::{Figure, Known, Source, Waiting, Working};
use std::f64::consts::{FRAC_PI_2, PI};
use uom::si::length::meter;
use uom::si::ratio::ratio;

/// Corners that turn by less than this, radians, need no fillet: 1°.
const SMOOTH: f64 = PI / 180.0;

/// Section of the fillet of that radius in a corner of that angle, radians: what lies between its two faces
/// and the arc that touches both, r² (1 ÷ tan(angle ÷ 2) − (π − angle) ÷ 2). In a square corner that is
/// (1 − π ÷ 4) r².
pub fn fillet(radius: Length, angle: f64) -> Area {
    radius * radius * (1.0 / (angle / 2.0).tan() - (PI - angle) / 2.0)
}

/// The silicone of the whole job.
#[derive(Clone, Debug, PartialEq)]
pub struct Silicone {
    /// Joint between base and sides, where no liner hides it.
    pub at_base: Length,
    /// Upright corners between sides.
    pub upright: Length,
    /// Around the feet of knockouts.
    pub at_knockouts: Length,
    /// All fillets together.
    pub volume: Figure<Volume>,
    /// Whole cartridges.
    pub cartridges: Figure<u32>,
}

/// Release agent for the whole job.
#[derive(Clone, Debug, PartialEq)]
pub struct Release {
    /// What the concrete touches: base, sides, knockouts.
    pub area: Figure<Area>,
    /// How much it takes.
    pub volume: Figure<Volume>,
}

/// A liner stands on the edge, or on one of the two sides that it lies between.
fn hidden(top: &Top, edge: &Edge) -> bool {
    let lined = |side: u16| matches!(top.edges.get(usize::from(side)), Some(Ok(edge)) if edge.kind == EdgeKind::Lined);
    match edge.tag() {
        EdgeTag::Side(side) => lined(side),
        EdgeTag::Corner(one, other) | EdgeTag::Clip(one, other) => lined(one) && lined(other),
        EdgeTag::Step(..) => true,
    }
}

/// Lengths of fillet and their volume, of one kind.
#[derive(Clone, Copy, Default)]
struct Fillets {
    length: Length,
    volume: Volume,
}

impl Fillets {
    fn add(&mut self, length: Length, section: Area) {
        self.length += length;
        self.volume += length * section;
    }
}

impl Silicone {
    /// The silicone of all pieces.
    ///
    /// # Errors
    /// What a form, a cutout, a hole, the bead or the cartridge waits for.
    pub(super) fn of(pieces: &[Built], job: &Job) -> Known<Self> {
        let bead = read::length(job, FieldPath::Form(FormField::Bead));
        let cartridge = read::positive_volume(job, FieldPath::Form(FormField::Cartridge));
        let known = all(pieces.iter().map(known));
        let ((bead, cartridge), known) = both(both(bead, cartridge), known)?;
        let [mut base, mut upright, mut feet] = [Fillets::default(); 3];
        for (top, form, around) in known {
            base_joint(top, form, bead, &mut base);
            corners(top, form, bead, &mut upright);
            feet.add(around, fillet(bead, FRAC_PI_2));
        }
        let volume = volume([base, upright, feet], job.units);
        let cartridges = cartridges(&volume, cartridge, job.units);
        Ok(Self { at_base: base.length, upright: upright.length, at_knockouts: feet.length, volume, cartridges })
    }
}

/// The top and form of a piece, and the length around its cutouts and holes.
fn known<'a>(piece: &Built<'a>) -> Known<(&'a Top, &'a Form, Length)> {
    let cutouts = all(piece.top.cutouts.iter().map(|cutout| cutout.as_ref().map_err(Waiting::clone)));
    let holes = all(piece.top.holes.iter().map(|set| set.as_ref().map_err(Waiting::clone)));
    let edges = all(piece.top.edges.iter().map(|edge| edge.as_ref().map_err(Waiting::clone)));
    let form = piece.form.as_ref().map_err(Waiting::clone);
    let ((cutouts, holes), (form, _)) = both(both(cutouts, holes), both(form, edges))?;
    let around: f64 = cutouts.into_iter().chain(holes.into_iter().flatten()).map(|opening| opening.perimeter()).sum();
    Ok((piece.top, form, Length::new::<meter>(around)))
}

fn base_joint(top: &Top, form: &Form, bead: Length, fillets: &mut Fillets) {
    for edge in form.clear.edges().iter().filter(|edge| !hidden(top, edge)) {
        // An easing is this fillet, with a radius of its own.
        let eased = match edge.tag() {
            EdgeTag::Side(side) => top.edges.get(usize::from(side)).and_then(|edge| edge.as_ref().ok()),
            _ => None,
        };
        let radius = eased.filter(|edge| edge.kind == EdgeKind::Eased).map_or(bead, |edge| edge.radius);
        fillets.add(Length::new::<meter>(edge.length()), fillet(radius, FRAC_PI_2));
    }
}

fn corners(top: &Top, form: &Form, bead: Length, fillets: &mut Fillets) {
    let clear = &form.clear;
    for (index, edge) in clear.edges().iter().enumerate() {
        let angle = clear.interior_angle(index);
        let before = clear.edges().get(clear.before(index));
        if angle < PI - SMOOTH && !hidden(top, edge) && !before.is_some_and(|before| hidden(top, before)) {
            fillets.add(form.cast_thickness.value, fillet(bead, angle));
        }
    }
}

fn write_silicone(volume: Volume, units: Units) -> String {
    write_dose(Dose::Volume(volume), units).to_string()
}

fn volume(kinds: [Fillets; 3], units: Units) -> Figure<Volume> {
    let all: Volume = kinds.iter().map(|fillets| fillets.volume).sum();
    let mut working = Working::new("Silicone in the inside corners");
    for (fillets, says) in kinds.iter().zip(["along the base", "in upright corners", "around knockouts"]) {
        working = working.line(
            format!("{says}: length of fillet, in section r² × (1 − π ÷ 4) where square"),
            write_length(fillets.length, units).to_string(),
            write_silicone(fillets.volume, units),
            Source::Arithmetic,
        );
    }
    let parts = kinds.map(|fillets| write_silicone(fillets.volume, units)).join(" + ");
    working.line("all of it", parts, write_silicone(all, units), Source::Arithmetic).of(all)
}

fn cartridges(volume: &Figure<Volume>, cartridge: Volume, units: Units) -> Figure<u32> {
    /// More than this is a typing error.
    const MOST: f64 = 10_000.0;
    let share = (volume.value / cartridge).get::<ratio>();
    let count = (share - crate::measure::COUNT_TOLERANCE).ceil().clamp(0.0, MOST) as u32;
    Working::new("Cartridges of silicone")
        .after(&volume.working)
        .line(
            "silicone ÷ what a cartridge holds",
            format!("{} ÷ {}", write_silicone(volume.value, units), write_silicone(cartridge, units)),
            write_number(share, 2),
            Source::Arithmetic,
        )
        .line(
            "rounded up to whole ones",
            write_number(share, 2),
            write_count(count, "cartridge", "cartridges"),
            Source::Arithmetic,
        )
        .of(count)
}

/// Tape over the screw heads, and over raw ends that the concrete would be cast against.
pub(super) fn tape(pieces: &[Built], job: &Job) -> Known<Figure<Length>> {
    let parts = all(pieces.iter().map(|piece| {
        let form = piece.form.as_ref().map_err(Waiting::clone)?;
        form.parts.as_ref().map(|parts| (form, parts)).map_err(Waiting::clone)
    }))?;
    let (mut heads, mut raw) = (Length::default(), Length::default());
    for (form, parts) in parts {
        let sides = parts.iter().filter(|part| part.edge.is_some());
        heads += sides.clone().map(|part| part.length).sum::<Length>();
        let shows = |part: &&Part| part.ends().into_iter().flatten().filter(|end| end.cut == EndCut::Shows).count();
        raw += sides.map(|part| shows(&part) as f64 * form.side_height.value).sum::<Length>();
    }
    let write = |length| write_length(length, job.units);
    let all = heads + raw;
    Ok(Working::new("Tape")
        .line("over the screw heads, one strip along every side", "", write(heads), Source::Practice)
        .line("over raw ends that show in the form", "", write(raw), Source::Practice)
        .line("all of it", format!("{} + {}", write(heads), write(raw)), write(all), Source::Arithmetic)
        .of(all))
}

impl Release {
    /// The release agent of all pieces.
    ///
    /// # Errors
    /// What a form, a cutout or a hole waits for.
    pub(super) fn of(pieces: &[Built], job: &Job) -> Known<Self> {
        let (mut flat, mut upright) = (Area::default(), Area::default());
        for (piece, (top, form, around)) in pieces.iter().zip(all(pieces.iter().map(known))?) {
            let area = top.area.as_ref().map_err(Waiting::clone)?.value;
            let lined = piece.top.outline.as_ref().map_or(0.0, |outline| form.clear.area() - outline.area());
            flat += area + Area::new::<uom::si::area::square_meter>(lined);
            upright += (Length::new::<meter>(form.clear.perimeter()) + around) * form.cast_thickness.value;
        }
        let write = |area| write_area(area, job.units);
        let sum = flat + upright;
        let area = Working::new("Area to wipe with release agent")
            .line("base, less cutouts and holes", "", write(flat), Source::Arithmetic)
            .line("sides and knockouts, over the cast thickness", "", write(upright), Source::Arithmetic)
            .line("all of it", format!("{} + {}", write(flat), write(upright)), write(sum), Source::Arithmetic)
            .of(sum);
        let film = limits::release_film();
        let volume: Volume = sum * film;
        let written = write_silicone(volume, job.units);
        let volume = Working::new("Release agent")
            .after(&area.working)
            .line(
                "area at 400 ft² a US gallon (10 m² a litre), wiped thin",
                write(sum).to_string(),
                written,
                Source::Memory,
            )
            .of(volume);
        Ok(Self { area, volume })
    }
}
