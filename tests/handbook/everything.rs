//! A job that uses everything: pieces of every kind, steel, weather, finish, carrying, price.

use pourwright::job::{
    Additive, Bag, BarSize, Corner, CornerKind, Cutout, CutoutShape, DefectEntry, DefectKind, Edge, EdgeKind, Entry,
    Exposure, HolePattern, Holes, Job, Lath, LiftLevel, Measured, OutlineShape, Piece, PieceKind, RecipeKind, SealKind,
    Sheen, Spell, StrengthPoint, Units,
};
use pourwright::mix::catalogue;
use pourwright::price::{OwnedPad, PriceBook};

/// The same, with its last piece of concrete made from scratch.
pub fn from_scratch(units: Units) -> Job {
    let mut job = everything(units);
    let concrete = |bag: &&Bag| bag.recipe.as_ref().is_some_and(|mix| mix.kind == RecipeKind::Concrete);
    let scratch = job.bags.iter().find(concrete).expect("the catalogue has it").id.clone();
    job.pieces.last_mut().expect("a piece").bag = scratch;
    job
}

/// Every length carries its unit, so that the same words make a job in either system.
pub fn everything(units: Units) -> Job {
    let mut job = Job::new("everything", units);
    job.bags = catalogue(units);
    for bag in &mut job.bags {
        bag.hardened_density = "140 lb/ft³".into();
        let point = |age: &str, strength: &str| StrengthPoint { age: age.into(), strength: strength.into() };
        bag.strengths = vec![point("1 h", "2000 psi"), point("3 h", "3500 psi"), point("1 day", "6000 psi")];
        bag.additives = vec![additive("Flow aid", "4 oz", "", "40 %"), additive("Retarder", "2 oz", "2", "")];
    }
    job.pieces = vec![counter(), corner(), niche(), splash()];
    for piece in &mut job.pieces {
        piece.bag = job.bags[0].id.clone();
        piece.spare = "10 %".into();
        piece.handling.stripped_at = "2 h".into();
        piece.handling.carried_at = "1 day".into();
    }
    if let Some(other) = job.bags.get(1) {
        job.pieces[1].bag = other.id.clone();
    }
    weather(&mut job);
    job.form.supports = "16 in".into();
    job.form.end_fall = "1/16 in".into();
    job.form.draft = "1/16 in".into();
    job.form.liner_owned = "1".into();
    // The base of the corner top is larger than the usual sheet.
    (job.form.sheets[0].width, job.form.sheets[0].length) = ("73 in".into(), "121 in".into());
    job.seams.longest = "60 in".into();
    finish(&mut job);
    job
}

fn additive(name: &str, dose: &str, longer: &str, water: &str) -> Additive {
    let [dose_least, dose_most] = ["1 oz", "6 oz"].map(Entry::new);
    let (name, dose, longer, water) = (name.into(), dose.into(), longer.into(), water.into());
    Additive { name, dose, dose_least, dose_most, longer, water, ..Additive::default() }
}

fn edge(kind: EdgeKind, liner: &str, radius: &str) -> Edge {
    Edge { kind, liner: liner.into(), radius: radius.into() }
}

/// A rectangle with a rounded corner, two bowls, a faucet's holes, lath and bars.
fn counter() -> Piece {
    let mut piece = Job::new("piece", Units::Inch).pieces.remove(0);
    piece.name = "Counter".into();
    (piece.width, piece.depth, piece.thickness) = ("74 in".into(), "25 in".into(), "2 in".into());
    piece.grinding = "1/16 in".into();
    piece.edges = vec![
        edge(EdgeKind::Lined, "3/4 in", ""),
        edge(EdgeKind::Eased, "", "1/4 in"),
        edge(EdgeKind::Wall, "", ""),
        edge(EdgeKind::Wall, "", ""),
    ];
    let rounded = Corner { kind: CornerKind::Rounded, radius: "4 in".into(), ..Corner::default() };
    piece.corners = vec![Corner::default(), rounded];
    let bowl = |from_left: &str| Cutout {
        shape: CutoutShape::Rectangle,
        width: "16 in".into(),
        depth: "13 in".into(),
        corner_radius: "2 in".into(),
        from_left: from_left.into(),
        from_front: "12 in".into(),
        ..Cutout::default()
    };
    piece.cutouts = vec![bowl("19 in"), bowl("53 in")];
    piece.holes = vec![Holes {
        pattern: HolePattern::Three,
        diameter: "1 3/8 in".into(),
        spread: "8 in".into(),
        from_left: "19 in".into(),
        from_front: "21 in".into(),
        ..Holes::default()
    }];
    piece.reinforcement.lath = Lath::Light;
    (piece.reinforcement.lath_width, piece.reinforcement.lath_length) = ("27 in".into(), "96 in".into());
    (piece.reinforcement.lap, piece.reinforcement.off_edges) = ("2 in".into(), "1 in".into());
    piece.reinforcement.bars = BarSize::Three;
    piece
}

/// An L whose steel was weighed.
fn corner() -> Piece {
    let mut piece = counter();
    piece.name = "Corner".into();
    piece.shape = OutlineShape::L;
    piece.depth = "50 in".into();
    (piece.leg, piece.front_depth) = ("24 in".into(), "24 in".into());
    piece.edges = vec![edge(EdgeKind::Lined, "3/4 in", "")];
    (piece.cutouts, piece.holes, piece.corners) = (Vec::new(), Vec::new(), Vec::new());
    piece.reinforcement.lath = Lath::None;
    piece.steel = "6 lb".into();
    piece
}

/// A top in a measured opening.
fn niche() -> Piece {
    let mut piece = counter();
    piece.name = "Niche".into();
    piece.shape = OutlineShape::Opening;
    (piece.cutouts, piece.holes, piece.corners) = (Vec::new(), Vec::new(), Vec::new());
    for (of, length) in [
        (Measured::Front, "61 in"),
        (Measured::Right, "22 in"),
        (Measured::Back, "60 5/8 in"),
        (Measured::Left, "22 in"),
        (Measured::DiagonalFromFrontLeft, "63 3/4 in"),
        (Measured::DiagonalFromFrontRight, "65 9/16 in"),
    ] {
        let reading = piece.opening.readings.iter_mut().find(|reading| reading.of == of).expect("it is asked for");
        reading.length = length.into();
    }
    piece
}

/// A strip without steel.
fn splash() -> Piece {
    let mut piece = Job::new("piece", Units::Inch).pieces.remove(0);
    piece.name = "Splash".into();
    piece.kind = PieceKind::Backsplash;
    (piece.width, piece.depth, piece.thickness) = ("60 in".into(), "4 in".into(), "1 in".into());
    piece
}

fn weather(job: &mut Job) {
    let day = &mut job.pour;
    (day.air, day.humidity, day.wind) = ("72 °F".into(), "40 %".into(), "3 mph".into());
    (day.bag_temperature, day.water_temperature, day.ice) = ("75 °F".into(), "60 °F".into(), "1 lb".into());
    day.mix = Entry::default();
    (day.people, day.mixers, day.bags_a_batch) = ("2".into(), "2".into(), "1".into());
    day.strip_strength = "2500 psi".into();
    day.garage = vec![Spell { lasts: "12 h".into(), temperature: "60 °F".into() }];
}

fn finish(job: &mut Job) {
    let finish = &mut job.finish;
    (finish.exposure, finish.sheen) = (Some(Exposure::Medium), Some(Sheen::Honed));
    finish.grinding_water = "2 gal".into();
    (finish.water_ratio, finish.pigment) = ("40 %".into(), "3 %".into());
    let defect = |kind, count: &str| DefectEntry {
        kind,
        count: count.into(),
        length: "10 in".into(),
        width: "1/16 in".into(),
        depth: "1/8 in".into(),
    };
    finish.defects = vec![defect(DefectKind::Crack, "1"), defect(DefectKind::Pinholes, "80")];
    (finish.recoat, finish.cure) = ("4 h".into(), "2 d".into());
    (finish.seal_date, finish.seal_time) = ("2027-02-28".into(), "10:00".into());
    finish.seal = SealKind::Film;
    (finish.lift_from, finish.lift_to) = (LiftLevel::Floor, LiftLevel::Bench);
    (finish.door_width, finish.door_height) = ("30 in".into(), "80 in".into());
    (finish.turn_before, finish.turn_after, finish.turn_height) = ("40 in".into(), "40 in".into(), "90 in".into());
    (finish.van_length, finish.van_width, finish.van_height) = ("96 in".into(), "48 in".into(), "45 in".into());
    (finish.gap_width, finish.gap_depth) = ("1/8 in".into(), "1/4 in".into());
}

/// Prices for it.
pub fn book(job: &Job) -> PriceBook {
    let mut book = PriceBook { wage: "40".into(), tax: "8 %".into(), ..PriceBook::default() };
    for bag in &job.bags {
        book.bag_mut(&bag.id).price = "20".into();
    }
    let pad = |grit: &str| OwnedPad {
        grit: grit.into(),
        pace: "6 ft²".into(),
        life: "80 ft²".into(),
        price: "30".into(),
        diameter: "4 in".into(),
        rated: "4500 ft/min".into(),
    };
    book.pads = ["", "50", "100", "200", "400"].map(pad).to_vec();
    book
}
