//! What is typed of the geometry of a piece, read once: the only file of the room that reads a job.

use super::{EdgeProfile, limits};
use crate::job::read::{self, optional, positive_length};
use crate::job::{
    AcrossFrom, AlongFrom, CornerField, CornerKind, Cutout, CutoutField, CutoutShape, DoorField, EdgeField, EdgeKind,
    FieldPath, Hand, HolePattern, Holes, HolesField, HolesFrom, Job, LegField, Measured, OpeningField, OpeningWalls,
    OutlineShape, Piece, PieceField, PieceKind, ReadingField, RecipeKind, Reveal, SeamField, StationField,
    TemplateField,
};
use crate::measure::{Length, Mass, Units};
use crate::room::{Corner, Reading, Span, Station, WalkSide, Walls};
use crate::working::{Known, all, together};

/// What the maker calls a piece and its sides.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PieceNames {
    /// The piece's name and a colon where the job has several pieces, else nothing.
    pub prefix: String,
    /// The words for its sides, in order: "Front".
    pub sides: Vec<String>,
}

impl PieceNames {
    /// The names of the piece with that index.
    pub fn read(job: &Job, piece: usize) -> Self {
        let sides = |typed: &Piece| (0..typed.sides()).map(|side| typed.side_name(side)).collect();
        Self { prefix: read::piece_prefix(job, piece), sides: job.pieces.get(piece).map_or_else(Vec::new, sides) }
    }

    /// The word for a side: "Front".
    pub fn side(&self, side: usize) -> String {
        self.sides.get(side).cloned().unwrap_or_else(|| format!("Side {}", side + 1))
    }

    /// The word for the corner where a side begins: "Left / front corner".
    pub fn corner(&self, side: usize) -> String {
        let sides = self.sides.len().max(1);
        let before = self.side((side + sides - 1) % sides);
        format!("{before} / {} corner", self.side(side).to_lowercase())
    }
}

/// What the geometry of one piece follows from. A length that is typed for a choice that is not made is not read.
///
/// ```
/// use pourwright::job::Job;
/// use pourwright::measure::Units;
/// use pourwright::measure::exact::inches;
/// use pourwright::top::{ShapeInputs, Top, TopInputs};
///
/// let mut job = Job::new("a", Units::Inch);
/// (job.pieces[0].width, job.pieces[0].depth) = ("60".into(), "24".into());
/// let mut inputs = TopInputs::read(&job, 0);
/// assert_eq!(Top::of(&inputs).area.expect("both sizes are typed").value, inches(60.0) * inches(24.0));
///
/// // A room calculates with quantities, whoever typed them.
/// inputs.shape = ShapeInputs::Rectangle { width: Ok(inches(48.0)), depth: Ok(inches(20.0)) };
/// assert_eq!(Top::of(&inputs).area.expect("both sizes are known").value, inches(48.0) * inches(20.0));
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct TopInputs {
    /// The piece, by its index.
    pub piece: usize,
    /// What it and its sides are called.
    pub names: PieceNames,
    /// In which is told what the readings of its opening say of each other.
    pub units: Units,
    /// What it is.
    pub kind: PieceKind,
    /// It is cast from a mix from scratch with glass fibre, which is made for thin sections.
    pub glass_fibre: bool,
    /// Its shape before corners are rounded or clipped.
    pub shape: ShapeInputs,
    /// How far its front bows out; a blank counts as nothing.
    pub bow: Known<Length>,
    /// Finished thickness, more than nothing; waited for.
    pub thickness: Known<Length>,
    /// Its edges, by the number of their side. Liner and radius are waited for where the kind of the edge has them.
    pub edges: Vec<Known<EdgeProfile>>,
    /// Its corners, by the number of the side that begins there.
    pub corners: Vec<CornerInputs>,
    /// The centres of the cabinet doors below it, from its left end; each is waited for by what is centred on it.
    pub doors: Vec<Known<Length>>,
    /// Its cutouts, in the order of the job.
    pub cutouts: Vec<CutoutInputs>,
    /// Its sets of holes, in the order of the job.
    pub holes: Vec<HolesInputs>,
}

/// The shape of a piece before its corners are rounded or clipped. Sizes are more than nothing, and waited for.
#[derive(Clone, Debug, PartialEq)]
pub enum ShapeInputs {
    /// Four square corners.
    Rectangle {
        /// Left to right.
        width: Known<Length>,
        /// Front to back.
        depth: Known<Length>,
    },
    /// A front part over the whole width, and one leg that goes back to the whole depth.
    L {
        /// Left to right.
        width: Known<Length>,
        /// Front to back, along the leg.
        depth: Known<Length>,
        /// Width of the leg.
        leg: Known<Length>,
        /// Depth of the front part.
        front_depth: Known<Length>,
        /// The end at which the leg stands.
        hand: Hand,
    },
    /// A front part over the whole width, and a leg at either end.
    U {
        /// Left to right.
        width: Known<Length>,
        /// Front to back, along the left leg.
        depth: Known<Length>,
        /// Width of the left leg.
        left_leg: Known<Length>,
        /// Width of the right leg.
        right_leg: Known<Length>,
        /// Front to back, along the right leg.
        right_depth: Known<Length>,
        /// Depth of the front part.
        front_depth: Known<Length>,
    },
    /// Walked corner by corner, each side in its order.
    Walked(Vec<LegInputs>),
    /// As the walls of its opening leave room for.
    Opening(Box<OpeningInputs>),
}

/// One side of a piece that is walked corner by corner.
#[derive(Clone, Debug, PartialEq)]
pub struct LegInputs {
    /// Its length, more than nothing, and the inside angle where it begins; both waited for.
    pub side: Known<WalkSide>,
    /// How far it bows out; a blank counts as nothing.
    pub bow: Known<Length>,
}

/// The opening that a piece stands in.
#[derive(Clone, Debug, PartialEq)]
pub struct OpeningInputs {
    /// Which sides of it are walls.
    pub walls: Walls,
    /// The readings that were taken, each with the field that shows what is wrong with it. One of which nothing is
    /// typed was not taken; one that is typed in part is waited for.
    pub readings: Known<Vec<(FieldPath, Reading)>>,
    /// The first reading that is still blank.
    pub first_blank: FieldPath,
    /// Room left at each wall; a blank counts as nothing.
    pub clearance: Known<Length>,
    /// How far the piece runs out beyond the front; a blank counts as nothing.
    pub overhang: Known<Length>,
    /// How far it runs out beyond an end without a wall; a blank counts as nothing.
    pub end_overhang: Known<Length>,
    /// How far the back wall stands off a straightedge, in order; nothing where that was not measured.
    pub stations: Option<Known<Vec<Station>>>,
    /// Thickness of the backsplash that hides the gap at the back wall. Where it is blank, that of the one that stands
    /// on the back edge: of the first backsplash of the job, else the usual one. Nothing where none stands there.
    pub backsplash: Known<Option<Length>>,
}

/// What is done to a corner. Sizes are more than nothing, and waited for.
#[derive(Clone, Debug, PartialEq)]
pub enum CornerInputs {
    /// Left as the two sides meet.
    Square,
    /// Rounded with that radius.
    Rounded(Known<Length>),
    /// Cut off straight, so far along the side before it and the side after it.
    Clipped(Known<Length>, Known<Length>),
}

/// What is typed of one cutout.
#[derive(Clone, Debug, PartialEq)]
pub struct CutoutInputs {
    /// Shape and size of the bowl.
    pub size: CutoutSize,
    /// How the edge of the hole stands to the rim of the bowl.
    pub reveal: RevealInputs,
    /// Where its centre lies, left to right.
    pub across: AcrossInputs,
    /// Where its centre lies, front to back.
    pub along: AlongInputs,
}

/// Shape and size of a bowl. Width, depth and diameter are more than nothing, and waited for.
#[derive(Clone, Debug, PartialEq)]
pub enum CutoutSize {
    /// A rectangle.
    Rectangle {
        /// Left to right.
        width: Known<Length>,
        /// Front to back.
        depth: Known<Length>,
        /// Radius of its four corners; a blank counts as nothing.
        radius: Known<Length>,
    },
    /// An ellipse.
    Ellipse {
        /// Left to right.
        width: Known<Length>,
        /// Front to back.
        depth: Known<Length>,
    },
    /// A circle.
    Circle {
        /// Its diameter.
        diameter: Known<Length>,
    },
    /// Straight at the back and round in front.
    D {
        /// Left to right.
        width: Known<Length>,
        /// Front to back.
        depth: Known<Length>,
        /// Radius of its two back corners; a blank counts as nothing.
        radius: Known<Length>,
    },
    /// A paper template, corner by corner, either way round.
    Template(Vec<TemplateInputs>),
}

/// One corner of a paper template. Both distances are waited for.
#[derive(Clone, Debug, PartialEq)]
pub struct TemplateInputs {
    /// From the left edge of the template.
    pub from_left: Known<Length>,
    /// From the front edge of the template.
    pub from_front: Known<Length>,
    /// The radius that it is rounded with; a blank counts as nothing.
    pub radius: Known<Length>,
}

/// How the edge of a hole stands to the rim of its bowl. A width is more than nothing.
#[derive(Clone, Debug, PartialEq)]
pub enum RevealInputs {
    /// The hole is as large as the bowl.
    Flush,
    /// The hole is larger by that all round; waited for.
    Shows(Known<Length>),
    /// The hole is smaller by that all round; waited for.
    Covers(Known<Length>),
    /// The rim of a drop-in bowl lies on so much all round; [`limits::ledge_usual`] where it is blank.
    DropIn(Known<Length>),
}

/// Where the centre of a cutout lies, left to right. Distances from ends are waited for.
#[derive(Clone, Debug, PartialEq)]
pub enum AcrossInputs {
    /// So far from the left end.
    Left(Known<Length>),
    /// So far from the right end.
    Right(Known<Length>),
    /// Off the centre of a cabinet door.
    Door {
        /// The door by its index; nothing while none is chosen.
        door: Option<usize>,
        /// How far off it; a blank counts as nothing.
        off: Known<Length>,
        /// On which side of its centre.
        side: Hand,
    },
}

/// Where the centre of a cutout lies, front to back; waited for.
#[derive(Clone, Debug, PartialEq)]
pub enum AlongInputs {
    /// So far from the front edge.
    Front(Known<Length>),
    /// So far from the back edge.
    Back(Known<Length>),
}

/// What is typed of one set of holes.
#[derive(Clone, Debug, PartialEq)]
pub struct HolesInputs {
    /// Diameter of each hole, more than nothing; waited for.
    pub diameter: Known<Length>,
    /// From the first of three holes to the last, more than nothing, waited for; nothing for a single hole.
    pub spread: Option<Known<Length>>,
    /// Where the middle hole lies.
    pub placed: HolesPlace,
}

/// What a set of holes is measured from. Distances are waited for.
#[derive(Clone, Debug, PartialEq)]
pub enum HolesPlace {
    /// From the left end and the front edge.
    Edges {
        /// From the left end to the middle hole.
        from_left: Known<Length>,
        /// From the front edge to the holes.
        from_front: Known<Length>,
    },
    /// Centred on the bowl of a cutout.
    Bowl {
        /// The cutout by its index; nothing while none is chosen.
        cutout: Option<usize>,
        /// From the back edge of the bowl to the holes.
        behind: Known<Length>,
    },
}

/// The maker's limits for one piece.
#[derive(Clone, Debug, PartialEq)]
pub struct SeamInputs {
    /// The piece, by its index.
    pub piece: usize,
    /// The longest part, more than nothing; nothing where it is blank: [`limits::piece_longest`] counts.
    pub longest: Known<Option<Length>>,
    /// The heaviest part, more than nothing; nothing where it is blank: no weight is too much.
    pub heaviest: Known<Option<Mass>>,
}

impl TopInputs {
    /// What is typed of the geometry of the piece with that index; all of it waits if the job has no such piece.
    pub fn read(job: &Job, piece: usize) -> Self {
        let empty = Piece::new("", "", job.units);
        let typed = job.pieces.get(piece).unwrap_or(&empty);
        let sides = typed.sides();
        let corners = typed.corners.iter().enumerate().take(sides);
        Self {
            piece,
            names: PieceNames::read(job, piece),
            units: job.units,
            kind: job.pieces.get(piece).map_or(PieceKind::Top, |piece| piece.kind),
            glass_fibre: is_glass_fibre(job, piece),
            shape: ShapeInputs::read(job, piece, typed),
            bow: or_nothing(job, FieldPath::Piece(piece, PieceField::Bow)),
            thickness: thickness(job, piece),
            edges: (0..sides).map(|side| edge(job, piece, side, typed.edge(side).kind)).collect(),
            corners: corners.map(|(side, corner)| CornerInputs::read(job, piece, side, corner.kind)).collect(),
            doors: doors(job, piece),
            cutouts: listed(&typed.cutouts, |index, cutout| CutoutInputs::read(job, piece, index, cutout)),
            holes: listed(&typed.holes, |index, set| HolesInputs::read(job, piece, index, set)),
        }
    }
}

fn listed<T, I>(typed: &[T], read: impl Fn(usize, &T) -> I) -> Vec<I> {
    typed.iter().enumerate().map(|(index, one)| read(index, one)).collect()
}

/// The length that is typed there; a blank counts as nothing.
fn or_nothing(job: &Job, place: FieldPath) -> Known<Length> {
    optional(job, place, read::length).map(Option::unwrap_or_default)
}

/// It is cast from a mix from scratch with glass fibre.
fn is_glass_fibre(job: &Job, piece: usize) -> bool {
    let bag = job.pieces.get(piece).and_then(|piece| job.bag(&piece.bag));
    let recipe = bag.and_then(|(_, bag)| bag.recipe.as_ref());
    recipe.is_some_and(|recipe| recipe.kind == RecipeKind::GlassFibre)
}

/// The finished thickness of a piece.
fn thickness(job: &Job, piece: usize) -> Known<Length> {
    positive_length(job, FieldPath::Piece(piece, PieceField::Thickness))
}

/// The centres of the cabinet doors below a piece, from its left end.
pub fn doors(job: &Job, piece: usize) -> Vec<Known<Length>> {
    let doors = job.pieces.get(piece).map_or(0, |typed| typed.doors.len());
    (0..doors).map(|door| read::length(job, FieldPath::Door(piece, door, DoorField::FromLeft))).collect()
}

/// The room that is left at each wall of the opening of a piece; nothing where it is blank.
pub(crate) fn clearance(job: &Job, piece: usize) -> Known<Option<Length>> {
    optional(job, FieldPath::Opening(piece, OpeningField::Clearance), read::length)
}

fn edge(job: &Job, piece: usize, side: usize, kind: EdgeKind) -> Known<EdgeProfile> {
    let length = |field| read::length(job, FieldPath::Edge(piece, side, field));
    let mut profile = EdgeProfile { side, kind, liner: Length::default(), radius: Length::default() };
    match kind {
        EdgeKind::Lined => profile.liner = length(EdgeField::Liner)?,
        EdgeKind::Eased => profile.radius = length(EdgeField::Radius)?,
        EdgeKind::Wall | EdgeKind::Plain | EdgeKind::Backsplash => {}
    }
    Ok(profile)
}

impl CornerInputs {
    fn read(job: &Job, piece: usize, side: usize, kind: CornerKind) -> Self {
        let size = |field| positive_length(job, FieldPath::Corner(piece, side, field));
        match kind {
            CornerKind::Square => Self::Square,
            CornerKind::Rounded => Self::Rounded(size(CornerField::Radius)),
            CornerKind::Clipped => Self::Clipped(size(CornerField::Before), size(CornerField::After)),
        }
    }
}

impl ShapeInputs {
    fn read(job: &Job, piece: usize, typed: &Piece) -> Self {
        let size = |field| positive_length(job, FieldPath::Piece(piece, field));
        let (width, depth) = (|| size(PieceField::Width), || size(PieceField::Depth));
        match typed.shape {
            OutlineShape::Rectangle => Self::Rectangle { width: width(), depth: depth() },
            OutlineShape::L => Self::L {
                width: width(),
                depth: depth(),
                leg: size(PieceField::Leg),
                front_depth: size(PieceField::FrontDepth),
                hand: typed.hand,
            },
            OutlineShape::U => Self::U {
                width: width(),
                depth: depth(),
                left_leg: size(PieceField::Leg),
                right_leg: size(PieceField::RightLeg),
                right_depth: size(PieceField::RightDepth),
                front_depth: size(PieceField::FrontDepth),
            },
            OutlineShape::Walked => Self::Walked((0..typed.walk.len()).map(|side| leg(job, piece, side)).collect()),
            OutlineShape::Opening => Self::Opening(Box::new(OpeningInputs::read(job, piece, typed))),
        }
    }
}

fn leg(job: &Job, piece: usize, side: usize) -> LegInputs {
    let place = |field| FieldPath::Leg(piece, side, field);
    let measured = (positive_length(job, place(LegField::Length)), read::angle(job, place(LegField::Angle)));
    LegInputs {
        side: together(measured).map(|(length, angle)| WalkSide { length, angle }),
        bow: or_nothing(job, place(LegField::Bow)),
    }
}

impl OpeningInputs {
    fn read(job: &Job, piece: usize, typed: &Piece) -> Self {
        let place = |field| FieldPath::Opening(piece, field);
        let count = typed.opening.stations.len();
        let blank =
            typed.opening.readings.iter().position(|reading| reading.length.is_blank() && !reading.of.is_corner());
        Self {
            walls: match typed.opening.walls {
                OpeningWalls::Three => Walls::Three,
                OpeningWalls::BackAndLeft => Walls::BackAndLeft,
                OpeningWalls::BackAndRight => Walls::BackAndRight,
                OpeningWalls::Back => Walls::Back,
            },
            readings: readings(job, piece, typed),
            first_blank: FieldPath::Reading(piece, blank.unwrap_or(0), ReadingField::Length),
            clearance: clearance(job, piece).map(Option::unwrap_or_default),
            overhang: or_nothing(job, place(OpeningField::Overhang)),
            end_overhang: or_nothing(job, place(OpeningField::EndOverhang)),
            stations: (count > 0).then(|| all((0..count).map(|index| station(job, piece, index)))),
            backsplash: optional(job, place(OpeningField::Backsplash), read::length)
                .map(|own| own.or_else(|| standing_backsplash(job, typed))),
        }
    }
}

fn station(job: &Job, piece: usize, index: usize) -> Known<Station> {
    let length = |field| read::length(job, FieldPath::Station(piece, index, field));
    let (along, gap) = together((length(StationField::Along), length(StationField::Gap)))?;
    Ok(Station { along, gap })
}

/// The readings that were taken, each with the field that shows what is wrong with it.
fn readings(job: &Job, piece: usize, typed: &Piece) -> Known<Vec<(FieldPath, Reading)>> {
    let taken = typed.opening.readings.iter().enumerate().filter_map(|(index, reading)| {
        let place = |field| FieldPath::Reading(piece, index, field);
        let (fields, shown): (&[ReadingField], _) = if reading.of.is_corner() {
            (&[ReadingField::OneLeg, ReadingField::OtherLeg, ReadingField::Between], ReadingField::Between)
        } else {
            (&[ReadingField::Length], ReadingField::Length)
        };
        // A reading of which nothing is typed was not taken.
        if fields.iter().all(|field| reading.entry(*field).is_blank()) {
            return None;
        }
        let length = |field| positive_length(job, place(field));
        let span = |span| length(ReadingField::Length).map(|length| Reading::span(span, length));
        let marks = |corner| {
            let lengths = (length(ReadingField::OneLeg), length(ReadingField::OtherLeg), length(ReadingField::Between));
            together(lengths).map(|(one_leg, other_leg, between)| Reading::marks(corner, one_leg, other_leg, between))
        };
        let read = match reading.of {
            Measured::Front => span(Span::Front),
            Measured::Right => span(Span::Right),
            Measured::Back => span(Span::Back),
            Measured::Left => span(Span::Left),
            Measured::DiagonalFromFrontLeft => span(Span::DiagonalFromFrontLeft),
            Measured::DiagonalFromFrontRight => span(Span::DiagonalFromFrontRight),
            Measured::BackLeftCorner => marks(Corner::BackLeft),
            Measured::BackRightCorner => marks(Corner::BackRight),
        };
        Some(read.map(|reading| (place(shown), reading)))
    });
    all(taken)
}

/// Thickness of the backsplash that stands on the back edge: of the first one of the job, else the usual.
fn standing_backsplash(job: &Job, typed: &Piece) -> Option<Length> {
    /// Number of the back of a piece that takes its shape from an opening.
    const BACK: usize = 2;
    (typed.edge(BACK).kind == EdgeKind::Backsplash).then(|| {
        let cast = job.pieces.iter().position(|piece| piece.kind == PieceKind::Backsplash);
        cast.and_then(|piece| thickness(job, piece).ok()).unwrap_or_else(limits::backsplash_usual)
    })
}

impl CutoutInputs {
    fn read(job: &Job, piece: usize, index: usize, cutout: &Cutout) -> Self {
        let place = |field| FieldPath::Cutout(piece, index, field);
        let (size, length) = (|field| positive_length(job, place(field)), |field| read::length(job, place(field)));
        let (width, depth) = (|| size(CutoutField::Width), || size(CutoutField::Depth));
        let radius = || or_nothing(job, place(CutoutField::CornerRadius));
        Self {
            size: match cutout.shape {
                CutoutShape::Rectangle => CutoutSize::Rectangle { width: width(), depth: depth(), radius: radius() },
                CutoutShape::Ellipse => CutoutSize::Ellipse { width: width(), depth: depth() },
                CutoutShape::Circle => CutoutSize::Circle { diameter: width() },
                CutoutShape::D => CutoutSize::D { width: width(), depth: depth(), radius: radius() },
                CutoutShape::Polygon => CutoutSize::Template(listed(&cutout.template, |corner, _| {
                    let place = |field| FieldPath::Template(piece, index, corner, field);
                    TemplateInputs {
                        from_left: read::length(job, place(TemplateField::FromLeft)),
                        from_front: read::length(job, place(TemplateField::FromFront)),
                        radius: or_nothing(job, place(TemplateField::Radius)),
                    }
                })),
            },
            reveal: match cutout.reveal {
                Reveal::Flush => RevealInputs::Flush,
                Reveal::Shows => RevealInputs::Shows(size(CutoutField::RevealWidth)),
                Reveal::Covers => RevealInputs::Covers(size(CutoutField::RevealWidth)),
                Reveal::DropIn => {
                    let ledge = optional(job, place(CutoutField::RevealWidth), positive_length);
                    RevealInputs::DropIn(ledge.map(|typed| typed.unwrap_or_else(limits::ledge_usual)))
                }
            },
            across: match cutout.across {
                AcrossFrom::Left => AcrossInputs::Left(length(CutoutField::FromLeft)),
                AcrossFrom::Right => AcrossInputs::Right(length(CutoutField::FromRight)),
                AcrossFrom::Door => AcrossInputs::Door {
                    door: cutout.door,
                    off: or_nothing(job, place(CutoutField::FromDoor)),
                    side: cutout.door_side,
                },
            },
            along: match cutout.along {
                AlongFrom::Front => AlongInputs::Front(length(CutoutField::FromFront)),
                AlongFrom::Back => AlongInputs::Back(length(CutoutField::FromBack)),
            },
        }
    }

    /// The entry that places it left to right.
    pub fn across_field(&self) -> CutoutField {
        match self.across {
            AcrossInputs::Left(_) => CutoutField::FromLeft,
            AcrossInputs::Right(_) => CutoutField::FromRight,
            AcrossInputs::Door { .. } => CutoutField::FromDoor,
        }
    }

    /// The entry that places it front to back.
    pub fn along_field(&self) -> CutoutField {
        match self.along {
            AlongInputs::Front(_) => CutoutField::FromFront,
            AlongInputs::Back(_) => CutoutField::FromBack,
        }
    }
}

impl HolesInputs {
    fn read(job: &Job, piece: usize, index: usize, set: &Holes) -> Self {
        let place = |field| FieldPath::Holes(piece, index, field);
        let (size, length) = (|field| positive_length(job, place(field)), |field| read::length(job, place(field)));
        Self {
            diameter: size(HolesField::Diameter),
            spread: match set.pattern {
                HolePattern::Single => None,
                HolePattern::Three => Some(size(HolesField::Spread)),
            },
            placed: match set.placed {
                HolesFrom::Edges => HolesPlace::Edges {
                    from_left: length(HolesField::FromLeft),
                    from_front: length(HolesField::FromFront),
                },
                HolesFrom::Bowl => HolesPlace::Bowl { cutout: set.cutout, behind: length(HolesField::Behind) },
            },
        }
    }
}

impl SeamInputs {
    /// The maker's limits for the piece with that index.
    pub fn read(job: &Job, piece: usize) -> Self {
        Self {
            piece,
            longest: optional(job, FieldPath::Seam(SeamField::Longest), positive_length),
            heaviest: optional(job, FieldPath::Seam(SeamField::Heaviest), read::positive_mass),
        }
    }
}
