//! Mortars and glass-fibre mixes by ratios of mass.

use super::{Input, Moisture, Part, ProportionProblem, Proportions, Role};
use crate::measure::{Area, Length, Mass, Quantity, Volume};
use crate::mix::limits;
use crate::working::{Named, Source, Term};
use uom::si::mass::kilogram;
use uom::si::volume::cubic_meter;

/// Something that comes with water in it, or dry.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Liquid {
    /// How much, as a share of the cement's mass: of a polymer its solids, of a flow aid as it comes.
    pub share: f64,
    /// Solids in it, as a share of its mass: 1 for a powder.
    pub solids: f64,
}

/// Specific gravities of what a recipe is made of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gravities {
    /// Cement.
    pub cement: f64,
    /// Sand.
    pub sand: f64,
    /// Solids of the polymer.
    pub polymer: f64,
    /// Solids of the flow aid.
    pub flow_aid: f64,
    /// Pigment.
    pub pigment: f64,
    /// Fibre.
    pub fibre: f64,
}

impl Default for Gravities {
    /// Cement 3.15 and sand 2.65 as ACI 211.1 has them; acrylic solids 1.1, flow aid solids 1.2, iron oxide 4.9,
    /// alkali-resistant glass 2.7 from memory.
    fn default() -> Self {
        Self { cement: 3.15, sand: 2.65, polymer: 1.1, flow_aid: 1.2, pigment: 4.9, fibre: 2.7 }
    }
}

/// A mix by ratios of mass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Recipe {
    /// Dry sand to cement.
    pub sand: f64,
    /// Water on the sand.
    pub sand_moisture: Moisture,
    /// All free water to cement, what sand, polymer and flow aid bring included.
    pub water: f64,
    /// Polymer, where there is any.
    pub polymer: Option<Liquid>,
    /// Superplasticiser, where there is any.
    pub flow_aid: Option<Liquid>,
    /// Pigment to cement, 10 % at most.
    pub pigment: f64,
    /// Fibre, as a share of everything that is weighed in.
    pub fibre: f64,
    /// Air, as a share of the volume.
    pub air: f64,
    /// Specific gravities.
    pub gravities: Gravities,
}

impl Recipe {
    /// Sand 2.75, water 0.485: the mortar by which cements are tested (ASTM C109, from memory), with 3 % of air.
    pub fn mortar() -> Self {
        Self {
            sand: 2.75,
            sand_moisture: Moisture::default(),
            water: 0.485,
            polymer: None,
            flow_aid: None,
            pigment: 0.0,
            fibre: 0.0,
            air: 0.03,
            gravities: Gravities::default(),
        }
    }

    /// The thin coat that is seen: sand 1, water 0.32, polymer solids 5 % in an emulsion of one half, no fibre.
    /// Common practice.
    pub fn face_coat() -> Self {
        let polymer = Some(Liquid { share: 0.05, solids: 0.5 });
        Self { sand: 1.0, water: 0.32, polymer, ..Self::mortar() }
    }

    /// What backs it: the same with 3 % of glass fibre. Common practice.
    pub fn backer() -> Self {
        Self { fibre: 0.03, ..Self::face_coat() }
    }

    fn check(&self) -> Result<(), ProportionProblem> {
        let gravities = self.gravities;
        let of = |liquid: Option<Liquid>, share: Input, solids: Input| {
            liquid.into_iter().flat_map(move |one| [(share, one.share), (solids, one.solids)])
        };
        let liquids = of(self.polymer, Input::Polymer, Input::PolymerSolids).chain(of(
            self.flow_aid,
            Input::FlowAid,
            Input::FlowAidSolids,
        ));
        // What sand takes in comes before its water: it counts as that where that is blank.
        let plain = [
            (Input::CementGravity, gravities.cement),
            (Input::SandGravity, gravities.sand),
            (Input::OtherGravity, gravities.polymer),
            (Input::OtherGravity, gravities.flow_aid),
            (Input::OtherGravity, gravities.pigment),
            (Input::OtherGravity, gravities.fibre),
            (Input::Sand, self.sand),
            (Input::Water, self.water),
            (Input::Pigment, self.pigment),
            (Input::SandAbsorbs, self.sand_moisture.absorbed),
            (Input::SandMoisture, self.sand_moisture.total),
            (Input::Fibre, self.fibre),
            (Input::Air, self.air),
        ];
        for (input, value) in plain.into_iter().chain(liquids) {
            input.check(value)?;
        }
        if self.pigment > limits::PIGMENT_MOST * (1.0 + crate::measure::COUNT_TOLERANCE) {
            return Err(ProportionProblem::TooMuchPigment);
        }
        Ok(())
    }

    /// What goes in for a volume of it, air included.
    ///
    /// # Errors
    /// What of the recipe or the volume cannot be, or does not go together.
    pub fn proportions(&self, volume: Volume) -> Result<Proportions, ProportionProblem> {
        self.check()?;
        if !(volume.value > 0.0 && volume <= Volume::new::<cubic_meter>(limits::LARGEST_RATIO)) {
            return Err(ProportionProblem::NoNumber(Input::Volume));
        }
        let lines = self.a_cement()?;
        let density = |gravity: f64| limits::water_density() * gravity;
        // The volume that one unit of mass of cement and all that goes with it takes.
        let takes = |line: &Line| {
            let unit = Mass::new::<kilogram>(1.0);
            unit * line.solids / density(line.gravity) + unit * line.water / limits::water_density()
        };
        let a_kilogram: Volume = lines.iter().map(takes).sum();
        let air = Term::named_as(self.air, "air", Quantity::Percent(self.air));
        let solid = (volume.named("volume") * (1.0 - air)).step("volume without air", Source::Arithmetic);
        let from_one = a_kilogram
            .stated("what 1 kg of cement gives with all that goes with it, by absolute volume", limits::PROPORTIONS)
            .called("what 1 kg of cement gives");
        let kilograms = (solid / from_one).number();
        let cement = Mass::new::<kilogram>(kilograms.value);
        let basis = kilograms.by_rule("{} × 1 kg", |parts| parts.iter().product(), cement);
        let part = |line: &Line| {
            let ratio = line.mass();
            let mass = if line.role == Role::Cement {
                basis.clone().titled(line.role.name(), limits::PROPORTIONS)
            } else {
                let name = if line.role == Role::Sand && self.sand_moisture.total > 0.0 {
                    "sand to cement, with the water on it"
                } else {
                    line.name
                };
                let ratio = Term::named_as(ratio, name, Quantity::Number(ratio, 4));
                (cement.named("cement") * ratio).titled(line.role.name(), Source::Typed)
            };
            Part { role: line.role, mass, volume: takes(line) * cement.get::<kilogram>() }
        };
        let parts = lines.iter().filter(|line| line.mass() > 0.0).map(part).collect();
        let water = cement * self.water;
        let on_aggregates = cement * self.on_sand();
        Ok(Proportions { volume, parts, air: self.air, cement, water, on_aggregates })
    }

    /// Free water on the sand, to one unit of mass of cement; negative where it is drier than it takes in.
    fn on_sand(&self) -> f64 {
        self.sand * (self.sand_moisture.total - self.sand_moisture.absorbed)
    }

    /// Everything that goes with one unit of mass of cement.
    fn a_cement(&self) -> Result<Vec<Line>, ProportionProblem> {
        let gravities = self.gravities;
        let dry = |role, solids, gravity, name| Line { role, solids, water: 0.0, kept: 0.0, gravity, name };
        let none = Liquid { share: 0.0, solids: 1.0 };
        let (polymer, flow_aid) = (self.polymer.unwrap_or(none), self.flow_aid.unwrap_or(none));
        let polymer_water = polymer.share / polymer.solids - polymer.share;
        let flow_aid_water = flow_aid.share * (1.0 - flow_aid.solids);
        let poured = self.water - polymer_water - flow_aid_water - self.on_sand();
        if poured < 0.0 {
            return Err(ProportionProblem::TooWet);
        }
        let mut lines = vec![
            dry(Role::Cement, 1.0, gravities.cement, ""),
            Line {
                water: self.on_sand(),
                kept: self.sand * self.sand_moisture.absorbed,
                ..dry(Role::Sand, self.sand, gravities.sand, "sand to cement")
            },
            Line {
                role: Role::Water,
                solids: 0.0,
                water: poured,
                gravity: 1.0,
                kept: 0.0,
                name: "water to cement, less what polymer, flow aid and sand bring",
            },
            Line {
                role: Role::Polymer,
                solids: polymer.share,
                water: polymer_water,
                kept: 0.0,
                gravity: gravities.polymer,
                name: "polymer as it comes, to cement",
            },
            Line {
                role: Role::FlowAid,
                solids: flow_aid.share * flow_aid.solids,
                water: flow_aid_water,
                kept: 0.0,
                gravity: gravities.flow_aid,
                name: "flow aid to cement",
            },
            dry(Role::Pigment, self.pigment, gravities.pigment, "pigment to cement"),
        ];
        let rest: f64 = lines.iter().map(Line::mass).sum();
        let fibre = rest * self.fibre / (1.0 - self.fibre);
        lines.push(dry(Role::Fibre, fibre, gravities.fibre, "fibre to cement, which is its share of everything"));
        Ok(lines)
    }
}

/// One part, to one unit of mass of cement.
struct Line {
    role: Role,
    solids: f64,
    water: f64,
    /// Water that it has taken in, which fills nothing.
    kept: f64,
    gravity: f64,
    /// What its mass is to the cement's.
    name: &'static str,
}

impl Line {
    fn mass(&self) -> f64 {
        self.solids + self.water + self.kept
    }
}

/// Volumes of the face coat and of what backs it, over an area.
///
/// # Errors
/// When a size is no number above zero, or the face coat is thicker than the whole.
pub fn layers(area: Area, face_coat: Length, whole: Length) -> Result<[Volume; 2], ProportionProblem> {
    let good = area.value > 0.0 && face_coat.value > 0.0 && face_coat < whole;
    let volumes = [area * face_coat, area * (whole - face_coat)];
    if good && volumes.iter().all(|volume| volume.value.is_finite()) {
        Ok(volumes)
    } else {
        Err(ProportionProblem::NoNumber(if area.value > 0.0 { Input::FaceCoat } else { Input::Volume }))
    }
}
