//! Plates for other programs, and for many of them at once.
//!
//! - `question`: what the page asks its worker about a top of 67 by 20 in with two sinks, as JSON, for `time_worker.mjs`.
//! - `cases`: what all cases of that question cost, natively.
//! - `systems FOLDER`: the systems of a top with two sinks and six holes at six sizes of mesh, for `compare_solvers.py`:
//!   each as files of little-endian numbers, with what they cost here on a line of JSON.
//! - `convergence`: what finer meshes change, as the table of the README.
//! - `tops COUNT [FROM]`: so many random tops on the mesh that the page uses, from that one on, and what became of them.

#[path = "../properties/strength/tops.rs"]
mod tops;

use kurbo::Point;
use pourwright::estimate::estimate;
use pourwright::job::{Cutout, Job, StrengthPoint};
use pourwright::measure::Units;
use pourwright::plane::{Opening, Outline};
use pourwright::price::PriceBook;
use pourwright::strength::ask::{Answer, Effort, Question, answer};
use pourwright::strength::bearing::{Bearing, Contact};
use pourwright::strength::mesh::{Mesh, MeshSize};
use pourwright::strength::plate::{Moments, Plate};
use pourwright::strength::study::StudyError;
use proptest::strategy::{Strategy as _, ValueTree as _};
use proptest::test_runner::TestRunner;
use std::collections::BTreeMap;
use std::error::Error;
use std::fs;
use std::path::Path;
use std::time::{Duration, Instant};

/// 67 × 20 × 1 1/2 in with two sinks, of a mix that has 1500 psi after an hour.
fn job() -> Job {
    let mut job = Job::new("plates", Units::Inch);
    let Some(piece) = job.pieces.first_mut() else { return job };
    piece.width = "67".into();
    piece.depth = "20".into();
    piece.thickness = "1 1/2".into();
    let sink = |from_left: &str| Cutout {
        width: "17".into(),
        depth: "13".into(),
        corner_radius: "2".into(),
        from_left: from_left.into(),
        from_front: "9 1/2".into(),
        ..Cutout::default()
    };
    piece.cutouts = vec![sink("17"), sink("50")];
    let point = |age: &str, strength: &str| StrengthPoint { age: age.into(), strength: strength.into() };
    job.bags[0].strengths = vec![point("1 h", "1500"), point("3 h", "4000"), point("1 day", "6000")];
    job
}

fn asked() -> Result<Question, Box<dyn Error>> {
    let worked = estimate(&job(), &PriceBook::default());
    let piece = worked.pieces.into_iter().next().ok_or("no piece")?;
    Ok(piece.cracking.clone().map_err(|_| "something is missing")?.question)
}

fn question() -> Result<(), Box<dyn Error>> {
    Ok(serde_json::to_writer(std::io::stdout(), &asked()?)?)
}

fn cases() -> Result<(), Box<dyn Error>> {
    let question = asked()?;
    let (count, taken) = timed(|| match answer(&question, Effort::Cases, &mut |_| ()) {
        Answer::Cases { cases, .. } => Ok(cases.len()),
        _ => Err("refused".into()),
    })?;
    println!("{count} cases in {taken:.1} ms");
    Ok(())
}

/// 72 × 22 in, two sinks with rounded corners, three faucet holes behind each.
fn top() -> Option<(Outline, Vec<Opening>)> {
    let inch = 0.0254;
    let mut openings = Vec::new();
    for x in [19.0, 53.0] {
        let center = Point::new(x * inch, 10.5 * inch);
        openings.push(Opening::rounded_rectangle(center, 18.0 * inch, 13.0 * inch, 2.0 * inch).ok()?);
        for shift in [-4.0, 0.0, 4.0] {
            openings.push(Opening::circle(Point::new((x + shift) * inch, 19.25 * inch), 1.375 * inch).ok()?);
        }
    }
    Some((Outline::rectangle(72.0 * inch, 22.0 * inch).ok()?, openings))
}

/// Time of the processor that this thread has had, which other work on the machine does not count in; where the system
/// does not tell it, that of the clock. Milliseconds.
fn processor(begun: Instant) -> f64 {
    let told = fs::read_to_string("/proc/thread-self/schedstat").ok();
    let nanoseconds = told.and_then(|text| text.split(' ').next()?.parse::<f64>().ok());
    nanoseconds.map_or_else(|| begun.elapsed().as_secs_f64() * 1e3, |nanoseconds| nanoseconds / 1e6)
}

/// The least time that counts: the system tells it in steps of some milliseconds.
const LEAST_TIME: f64 = 200.0;

/// What comes of some work, and the mean time of as many as take long enough to tell, in milliseconds.
fn timed<T>(mut work: impl FnMut() -> Result<T, Box<dyn Error>>) -> Result<(T, f64), Box<dyn Error>> {
    let start = Instant::now();
    let begun = processor(start);
    for count in 1.. {
        let found = work()?;
        let taken = processor(start) - begun;
        if taken >= LEAST_TIME {
            return Ok((found, taken / f64::from(count)));
        }
    }
    Err("no time passes".into())
}

fn said<Why: std::fmt::Debug>(what: &'static str) -> impl Fn(Why) -> String {
    move |why| format!("{what}: {why:?}")
}

/// Borne along the whole outline, under its own weight.
fn systems(folder: &Path) -> Result<(), Box<dyn Error>> {
    let (outline, openings) = top().ok_or("no top")?;
    fs::create_dir_all(folder)?;
    let usual = MeshSize::default();
    let sizes = [1.6, 1.05, 0.6, 0.36, 0.24].map(|factor| (factor, usual.growth));
    for (number, (factor, growth)) in sizes.into_iter().chain([(0.16, 0.14)]).enumerate() {
        let [fine, coarse] = [usual.fine, usual.coarse].map(|size| size * factor);
        let grain = MeshSize { fine, coarse, growth, most_nodes: 100_000 };
        let (mesh, meshing) = timed(|| Ok(Mesh::of(&outline, &openings, &[], &[], &grain).map_err(said("no mesh"))?))?;
        let (plate, assembly) = timed(|| Ok(Plate::new(mesh.clone(), 0.2).map_err(said("no system"))?))?;
        let held: Vec<(usize, f64)> = mesh.loops.iter().take(1).flatten().map(|node| (3 * node, 1e7)).collect();
        let load = plate.even_load(1.0);
        let (factor, factoring) = timed(|| Ok(plate.system().factor(&held).map_err(said("no factor"))?))?;
        let (solution, solving) = timed(|| Ok(factor.solve(&load)))?;
        let mut entries = plate.system().entries();
        entries.extend(held.iter().map(|(unknown, stiffness)| (*unknown, *unknown, *stiffness)));
        let whole = |tell: fn(&(usize, usize, f64)) -> usize| -> Vec<u8> {
            entries.iter().flat_map(|entry| (tell(entry) as u32).to_le_bytes()).collect()
        };
        let real = |numbers: &mut dyn Iterator<Item = f64>| numbers.flat_map(f64::to_le_bytes).collect::<Vec<u8>>();
        let write = |what: &str, bytes: Vec<u8>| fs::write(folder.join(format!("{number}-{what}")), bytes);
        write("rows", whole(|entry| entry.0))?;
        write("columns", whole(|entry| entry.1))?;
        write("values", real(&mut entries.iter().map(|entry| entry.2)))?;
        write("load", real(&mut load.iter().copied()))?;
        write("solution", real(&mut solution.iter().copied()))?;
        println!(
            "{{\"nodes\": {}, \"mesh\": {meshing}, \"assembly\": {assembly}, \"factor\": {factoring}, \"solve\": {solving}}}",
            mesh.nodes.len()
        );
    }
    Ok(())
}

/// A mesh under an even load of 1, Poisson's ratio as given, held in deflection wherever `held` says so: deflections and
/// moments at points.
struct Solved {
    plate: Plate,
    deflection: Vec<f64>,
    moments: Vec<Moments>,
}

impl Solved {
    fn new(mesh: Mesh, poisson: f64, held: impl Fn(Point) -> bool) -> Result<Self, Box<dyn Error>> {
        let on = mesh.nodes.iter().enumerate().filter(|(_, at)| held(**at)).map(|(node, _)| node);
        let contact = |node| Contact { node, unknown: 0, line: 0, gap: 0.0, stiffness: None, only_pushes: false };
        let contacts: Vec<Contact> = on.map(contact).collect();
        let plate = Plate::new(mesh, poisson).map_err(said("no system"))?;
        let load = plate.even_load(1.0);
        let mut bearing = Bearing::new(plate);
        let deflection = bearing.solve_contacts(&contacts, &load).map_err(said("not held"))?.deflection;
        let plate = bearing.plate().clone();
        let moments = plate.moments(&deflection);
        Ok(Self { plate, deflection, moments })
    }

    /// The mean, over a straight way from one point to another, of what is told of the moments there.
    fn mean(&self, from: Point, to: Point, tell: impl Fn(Moments) -> f64) -> f64 {
        let at = |k: u32| from.lerp(to, (f64::from(k) + 0.5) / 200.0);
        let found = (0..200).filter_map(|k| self.plate.moments_at(&self.moments, at(k)));
        found.map(tell).sum::<f64>() / 200.0
    }
}

/// Finer and finer meshes of the plate of `compare_plates.py`, and of a square simply supported all around.
fn convergence() -> Result<(), Box<dyn Error>> {
    let outline = |width, height| Outline::rectangle(width, height).map_err(said("no outline"));
    let largest = |[x, y, xy]: Moments| f64::midpoint(x, y) + ((x - y) / 2.0).hypot(xy);
    println!("| grain | nodes | rail | corner in front | behind | nodes | square: deflection | moment |");
    println!("| --- | --- | --- | --- | --- | --- | --- | --- |");
    for factor in [2.0, 1.4, 1.0, 0.7, 0.5, 0.35] {
        let fine = 0.5 * factor;
        let grain = MeshSize { fine, coarse: 3.0 * fine, growth: 0.4, most_nodes: 40_000 };
        let hole = Opening::rounded_rectangle(Point::new(30.0, 10.0), 17.0, 15.0, 0.0).map_err(said("no hole"))?;
        let mesh = Mesh::of(&outline(60.0, 22.0)?, &[hole], &[], &[], &grain).map_err(said("no mesh"))?;
        let plate = Solved::new(mesh, 0.2, |at| at.x.min(60.0 - at.x) < 1e-9)?;
        let rail = plate.mean(Point::new(30.0, 0.0), Point::new(30.0, 2.5), |[x, ..]| x);
        let corner = |from, to| plate.mean(Point::new(21.5, from), Point::new(21.5, to), largest);
        let edge = factor / 35.0;
        let grain = MeshSize { fine: edge, coarse: edge, growth: 0.4, most_nodes: 40_000 };
        let middle = [[Point::new(0.5, 0.0), Point::new(0.5, 1.0)], [Point::new(0.0, 0.5), Point::new(1.0, 0.5)]];
        let mesh = Mesh::of(&outline(1.0, 1.0)?, &[], &middle, &[], &grain).map_err(said("no mesh"))?;
        let square = Solved::new(mesh, 0.3, |at| at.x.min(at.y).min(1.0 - at.x).min(1.0 - at.y) < 1e-9)?;
        let center = Point::new(0.5, 0.5);
        let deflection = square.deflection.iter().step_by(3).copied().fold(0.0, f64::max);
        let moment = square.plate.moments_at(&square.moments, center).map_or(f64::NAN, |[x, ..]| x);
        println!(
            "| {factor} | {} | {rail:.1} | {:.0} | {:.0} | {} | {:+.2} % | {:+.2} % |",
            plate.plate.mesh().nodes.len(),
            corner(2.5, 1.0),
            corner(17.5, 19.0),
            square.plate.mesh().nodes.len(),
            100.0 * (deflection / 0.004_062_35 - 1.0),
            100.0 * (moment / 0.047_886 - 1.0)
        );
    }
    Ok(())
}

/// A refusal without its numbers.
fn kind_of(refusal: StudyError) -> String {
    format!("{refusal:?}").chars().filter(|letter| !letter.is_ascii_digit()).collect()
}

fn tops(from: usize, count: usize) -> Result<(), Box<dyn Error>> {
    let (mut runner, strategy, grain) = (TestRunner::deterministic(), tops::rough(), MeshSize::default());
    let (mut all, mut solved, mut slowest) = (tops::Count::default(), 0, Duration::ZERO);
    let mut refused: BTreeMap<String, usize> = BTreeMap::new();
    for number in 0..from + count {
        let slab = strategy.new_tree(&mut runner).map_err(|why| why.to_string())?.current();
        if number < from {
            continue;
        }
        let begun = Instant::now();
        match tops::work_out(&slab, &grain) {
            Ok(found) => {
                solved += 1;
                all.worked_out += found.worked_out;
                all.not_borne += found.not_borne;
                all.beside += found.beside;
                all.remedies += found.remedies;
            }
            Err(Ok(refusal)) => *refused.entry(kind_of(refusal)).or_default() += 1,
            Err(Err(wrong)) => {
                println!("top {number}: {wrong}: {}", serde_json::to_string(&slab)?);
                *refused.entry("WRONG".to_owned()).or_default() += 1;
            }
        }
        if begun.elapsed() > slowest {
            slowest = begun.elapsed();
            println!("top {number}: {slowest:.2?}, the slowest so far");
        }
        if number % 500 == 499 {
            println!("up to {number}: {solved} worked out, refused {refused:?}; {all:?}");
        }
    }
    println!("{count} tops: {solved} worked out, refused {refused:?}; {all:?}; the slowest {slowest:.2?}");
    Ok(())
}

fn main() -> Result<(), Box<dyn Error>> {
    let given: Vec<String> = std::env::args().skip(1).collect();
    match given.iter().map(String::as_str).collect::<Vec<_>>().as_slice() {
        ["question"] => question(),
        ["cases"] => cases(),
        ["systems", folder] => systems(Path::new(folder)),
        ["convergence"] => convergence(),
        ["tops", count] => tops(0, count.parse()?),
        ["tops", count, from] => tops(from.parse()?, count.parse()?),
        _ => Err("question, cases, systems FOLDER, convergence or tops COUNT [FROM]".into()),
    }
}
