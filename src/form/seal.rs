//! Silicone, tape and release agent.

use super::sag::bow_quantity;
use super::{BuildInputs, Built, EndCut, Form, Part};
use crate::form::limits;
use crate::job::EdgeKind;
use crate::measure::{Area, COUNT_TOLERANCE, Dose, Length, Quantity, Volume};
use crate::plane::{Edge, EdgeTag};
use crate::top::Top;
use crate::working::{Figure, Known, Named, Source, Term, all, known_ref, together};
use std::f64::consts::{FRAC_PI_2, PI};
use uom::si::length::meter;

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
    pub(super) fn of(pieces: &[Built], inputs: &BuildInputs) -> Known<Self> {
        let known = all(pieces.iter().map(known));
        let (bead, cartridge, known) = together((inputs.bead.clone(), inputs.cartridge.clone(), known))?;
        let [mut base, mut upright, mut feet] = [Fillets::default(); 3];
        for (top, form, around) in known {
            base_joint(top, form, bead, &mut base);
            corners(top, form, bead, &mut upright);
            feet.add(around, fillet(bead, FRAC_PI_2));
        }
        let volume = volume([base, upright, feet]);
        let cartridges = cartridges(&volume, cartridge);
        Ok(Self { at_base: base.length, upright: upright.length, at_knockouts: feet.length, volume, cartridges })
    }
}

/// The top and form of a piece, and the length around its cutouts and holes.
fn known<'a>(piece: &Built<'a>) -> Known<(&'a Top, &'a Form, Length)> {
    let cutouts = all(piece.top.cutouts.iter().map(known_ref));
    let holes = all(piece.top.holes.iter().map(known_ref));
    let edges = all(piece.top.edges.iter().map(known_ref));
    let (cutouts, holes, form, _) = together((cutouts, holes, known_ref(piece.form), edges))?;
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

/// A small volume, as a cartridge holds it.
fn dose(volume: Volume) -> Quantity {
    Quantity::Dose(Dose::Volume(volume))
}

fn volume(kinds: [Fillets; 3]) -> Figure<Volume> {
    let [base, upright, feet] =
        [(kinds[0], "along the base"), (kinds[1], "in upright corners"), (kinds[2], "around knockouts")].map(
            |(fillets, name)| {
                let says = "{}, in section r² × (1 − π ÷ 4) where square";
                let length = [fillets.length.named("length of fillet").into()];
                Term::found(says, length, fillets.volume).step_as(name, dose(fillets.volume), Source::Arithmetic)
            },
        );
    let all = base + upright + feet;
    let quantity = dose(all.value);
    all.titled_as("Silicone in the inside corners", quantity, Source::Arithmetic)
}

/// More cartridges than this is a typing error.
const MOST_CARTRIDGES: f64 = 10_000.0;

fn cartridges(volume: &Figure<Volume>, cartridge: Volume) -> Figure<u32> {
    let holds = Term::named_as(cartridge, "what a cartridge holds", dose(cartridge));
    let share = volume.term_as(dose(volume.value)) / holds;
    let written = Quantity::Number(share.value.value, 2);
    let share = share.step_as("cartridges filled", written, Source::Arithmetic);
    let whole = |x: &[f64]| (x[0] - COUNT_TOLERANCE).ceil().clamp(0.0, MOST_CARTRIDGES);
    let count = whole(&[share.value.value]) as u32;
    share.by_rule("{}, rounded up to whole ones", whole, count).titled_as(
        "Cartridges of silicone",
        Quantity::Count(count, "cartridge", "cartridges"),
        Source::Arithmetic,
    )
}

/// Tape over the screw heads, and over raw ends that the concrete would be cast against.
pub(super) fn tape(pieces: &[Built]) -> Known<Figure<Length>> {
    let parts = all(pieces.iter().map(|piece| {
        let form = known_ref(piece.form)?;
        known_ref(&form.parts).map(|parts| (form, parts))
    }))?;
    let (mut heads, mut raw) = (Length::default(), Length::default());
    for (form, parts) in parts {
        let sides = parts.iter().filter(|part| part.edge.is_some());
        heads += sides.clone().map(|part| part.length).sum::<Length>();
        let shows = |part: &&Part| part.ends().into_iter().flatten().filter(|end| end.cut == EndCut::Shows).count();
        raw += sides.map(|part| shows(&part) as f64 * form.side_height.value).sum::<Length>();
    }
    let heads = heads.stated("over the screw heads, one strip along every side", Source::Practice);
    let raw = raw.stated("over raw ends that show in the form", Source::Practice);
    Ok((heads + raw).titled("Tape", Source::Arithmetic))
}

impl Release {
    /// The release agent of all pieces.
    ///
    /// # Errors
    /// What a form, a cutout or a hole waits for.
    pub(super) fn of(pieces: &[Built]) -> Known<Self> {
        let (mut flat, mut upright) = (Area::default(), Area::default());
        for (piece, (top, form, around)) in pieces.iter().zip(all(pieces.iter().map(known))?) {
            let area = known_ref(&top.area)?.value;
            let lined = piece.top.outline.as_ref().map_or(0.0, |outline| form.clear.area() - outline.area());
            flat += area + Area::new::<uom::si::area::square_meter>(lined);
            upright += (Length::new::<meter>(form.clear.perimeter()) + around) * form.cast_thickness.value;
        }
        let flat = flat.stated("base, less cutouts and holes", Source::Arithmetic);
        let upright = upright.stated("sides and knockouts, over the cast thickness", Source::Arithmetic);
        let area = (flat + upright).titled("Area to wipe with release agent", Source::Arithmetic);
        let film = limits::release_film();
        let says = "film that is wiped thin, a US gallon over 400 ft² (10 m² a litre)";
        let volume = area.called("area") * Term::named_as(film, says, bow_quantity(film));
        let quantity = dose(volume.value);
        Ok(Self { area, volume: volume.titled_as("Release agent", quantity, Source::Memory) })
    }
}
