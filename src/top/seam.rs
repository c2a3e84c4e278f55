//! Seams: where a piece that is too long or too heavy for one is better split.
//!
//! A seam runs straight across, either from front to back or from end to end, and parts a piece in two. The
//! fewest parts are sought, as even in length as they go, with every seam clear of every cutout and hole.

use super::Top;
use crate::finding::{Finding, Severity, Stage, say};
use crate::job::read::{self, piece_prefix};
use crate::job::{FieldPath, Job, PieceField, SeamField};
use crate::measure::{Length, Mass, write_count, write_length, write_mass};
use crate::plane::{Opening, Outline, Slice};
use crate::top::limits;
use crate::working::{Known, Source, Working, all, both};
use kurbo::Point;
use std::f64::consts::FRAC_PI_2;
use uom::si::length::meter;

/// Which way the seams of a piece run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SeamRun {
    /// From front to back: placed from the left end.
    FrontToBack,
    /// From end to end: placed from the front.
    EndToEnd,
}

/// Where a piece is better split.
#[derive(Clone, Debug, PartialEq)]
pub struct SeamPlan {
    /// Which way the seams run.
    pub run: SeamRun,
    /// Where they are, from the left end of the piece or from its front, ascending.
    pub seams: Vec<Length>,
    /// The seams on the plan, from edge to edge of the bounds; metres.
    pub lines: Vec<(Point, Point)>,
    /// Length of every part across the seams, from the left end or from the front.
    pub parts: Vec<Length>,
    /// What every part weighs out of the form, by its share of the face; nothing while that is not known.
    pub weights: Option<Vec<Mass>>,
    /// How they were obtained.
    pub working: Working,
}

/// Whether a piece is better split.
#[derive(Clone, Debug, PartialEq)]
pub enum Seaming {
    /// It is within the maker's limits.
    Whole,
    /// It is not, and can be split so.
    Split(SeamPlan),
    /// It is not, and no seam helps; why, as one sentence.
    Nowhere(String),
}

/// A piece on its side or not, so that seams are upright lines.
struct Cutting {
    outline: Outline,
    /// What a seam keeps away from: left and right, the distance included, and what it is.
    kept: Vec<(f64, f64)>,
    openings: Vec<Opening>,
    left: f64,
    right: f64,
    longest: f64,
    /// The largest net area of a part.
    largest: f64,
}

impl Seaming {
    /// Whether the piece with that index is better split, and where; `as_cast` is what it weighs out of the
    /// form.
    ///
    /// # Errors
    /// What it waits for: the outline, cutouts and holes, the limits, and the weight where that is limited.
    pub(crate) fn of(top: &Top, as_cast: Known<Mass>, job: &Job, piece: usize) -> Known<Self> {
        let limit = both(
            read::optional(job, FieldPath::Seam(SeamField::Longest), read::positive_length),
            read::optional(job, FieldPath::Seam(SeamField::Heaviest), read::positive_mass),
        );
        let shapes = both(all(top.cutouts.iter().cloned()), all(top.holes.iter().cloned()));
        let ((outline, (cutouts, holes)), (longest, heaviest)) = both(both(top.outline.clone(), shapes), limit)?;
        let longest = longest.unwrap_or_else(limits::piece_longest).max(limits::piece_least());
        let openings: Vec<Opening> = cutouts.into_iter().chain(holes.into_iter().flatten()).collect();
        let weight = match heaviest {
            None => as_cast.ok(),
            Some(_) => Some(as_cast?),
        };
        let bounds = outline.bounds();
        let over = |metres: f64| metres > (longest + crate::measure::geometry_tolerance()).get::<meter>();
        let too_heavy =
            heaviest.zip(weight).is_some_and(|(most, weight)| weight > most * (1.0 + crate::measure::COUNT_TOLERANCE));
        let (wide, deep) = (over(bounds.width()), over(bounds.height()));
        if !(wide || deep || too_heavy) {
            return Ok(Self::Whole);
        }
        let run =
            if wide || (!deep && bounds.width() >= bounds.height()) { SeamRun::FrontToBack } else { SeamRun::EndToEnd };
        let net = outline.area() - openings.iter().map(Opening::area).sum::<f64>();
        let largest = heaviest.zip(weight).map_or(f64::INFINITY, |(most, weight)| net * (most / weight).value);
        let cutting = Cutting::new(&outline, openings, run, longest, largest);
        let Some(seams) = cutting.seams() else { return Ok(Self::Nowhere(cutting.trouble(run, job))) };
        Ok(Self::Split(cutting.plan(&seams, run, (net, weight, longest, heaviest), (job, piece))))
    }

    /// The seams, where it is better split.
    pub fn plan(&self) -> Option<&SeamPlan> {
        match self {
            Self::Split(plan) => Some(plan),
            Self::Whole | Self::Nowhere(_) => None,
        }
    }
}

impl Cutting {
    fn new(outline: &Outline, openings: Vec<Opening>, run: SeamRun, longest: Length, largest: f64) -> Self {
        // A quarter turn clockwise brings what lies behind to the right.
        let (outline, openings) = match run {
            SeamRun::FrontToBack => (outline.clone(), openings),
            SeamRun::EndToEnd => {
                let turn = |opening: &Opening| opening.rotated(-FRAC_PI_2, Point::ORIGIN);
                (outline.rotated(-FRAC_PI_2, Point::ORIGIN), openings.iter().map(turn).collect())
            }
        };
        let clear = limits::seam_clear().get::<meter>();
        let mut kept: Vec<_> =
            openings.iter().map(|opening| (opening.bounds().x0 - clear, opening.bounds().x1 + clear)).collect();
        kept.sort_by(|one, other| one.0.total_cmp(&other.0));
        let bounds = outline.bounds();
        let (left, right) = (bounds.x0, bounds.x1);
        Self { outline, kept, openings, left, right, longest: longest.get::<meter>(), largest }
    }

    /// A seam may run there: clear of everything, and straight across one part of the piece.
    fn allows(&self, x: f64) -> bool {
        let tolerance = crate::measure::geometry_tolerance().get::<meter>();
        let clear = self.kept.iter().all(|(from, to)| x <= from + tolerance || x >= to - tolerance);
        clear && [x - tolerance, x + tolerance].iter().all(|beside| self.outline.crossings(*beside) == 2)
    }

    /// Area of a part less what is cut out of it, and its size.
    fn part(&self, from: f64, to: f64) -> Slice {
        let mut slice = self.outline.slice(from, to);
        let inside = |opening: &&Opening| (from..to).contains(&opening.bounds().center().x);
        slice.area -= self.openings.iter().filter(inside).map(Opening::area).sum::<f64>();
        slice
    }

    /// A part with that net area is neither a sliver nor over the limits.
    fn fits(&self, (from, to): (f64, f64), area: f64) -> bool {
        let tolerance = crate::measure::geometry_tolerance().get::<meter>();
        to - from >= limits::piece_least().get::<meter>() - tolerance
            && to - from <= self.longest + tolerance
            && area <= self.largest * (1.0 + crate::measure::COUNT_TOLERANCE)
            && (self.outline.bounds().height() <= self.longest + tolerance
                || self.outline.slice(from, to).bounds.height() <= self.longest + tolerance)
    }

    /// Places at which the best seams are: ends of what they keep away from, corners, what lies evenly
    /// between two of these, and as far as a part within the limits reaches from them.
    fn candidates(&self, parts: usize) -> Vec<f64> {
        let mut anchors = vec![self.left, self.right];
        anchors.extend(self.kept.iter().flat_map(|(from, to)| [*from, *to]));
        anchors.extend(self.outline.vertices().iter().map(|vertex| vertex.at.x));
        anchors.retain(|x| (self.left..=self.right).contains(x));
        anchors.sort_by(f64::total_cmp);
        anchors.dedup_by(|one, other| (*one - *other).abs() < 1e-9);
        let mut places = anchors.clone();
        for (index, from) in anchors.iter().enumerate() {
            for to in &anchors[index + 1..] {
                for of in 2..=parts {
                    places.extend((1..of).map(|step| from + (to - from) * step as f64 / of as f64));
                }
            }
        }
        places.extend(self.furthest(1.0));
        places.extend(self.furthest(-1.0));
        if self.largest.is_finite() {
            let net = self.part(self.left, self.right).area;
            let share = |step: usize| self.reach(self.left, 1.0, net * step as f64 / parts as f64, f64::INFINITY);
            places.extend((1..parts).map(share));
        }
        places.retain(|x| self.allows(*x));
        places.sort_by(f64::total_cmp);
        places.dedup_by(|one, other| (*one - *other).abs() < 1e-9);
        places
    }

    /// How far a part reaches from a place, to the right if `way` is positive, that has no more than so much
    /// area and length; by halving, to a tenth of a micrometre.
    fn reach(&self, from: f64, way: f64, area: f64, length: f64) -> f64 {
        let (mut near, mut far) = (from, if way > 0.0 { self.right } else { self.left });
        if (far - near).abs() > length {
            far = near + length * way;
        }
        let over = |to: f64| self.part(from.min(to), from.max(to)).area > area;
        if area.is_infinite() || !over(far) {
            return far;
        }
        while (far - near).abs() > 1e-7 {
            let middle = f64::midpoint(near, far);
            if over(middle) { far = middle } else { near = middle }
        }
        near
    }

    /// Seams as far from each other as they may be, from one end: no other way takes fewer.
    fn furthest(&self, way: f64) -> Vec<f64> {
        let (mut from, end) = if way > 0.0 { (self.left, self.right) } else { (self.right, self.left) };
        let mut seams = Vec::new();
        for _ in 1..limits::MOST_PARTS {
            let mut at = self.reach(from, way, self.largest, self.longest);
            // Back to the near end of whatever stands there.
            while let Some((near, far)) = self.kept.iter().find(|(near, far)| *near < at && at < *far) {
                at = if way > 0.0 { *near } else { *far };
            }
            if (at - from) * way <= 0.0 || (end - at) * way <= 0.0 {
                break;
            }
            seams.push(at);
            from = at;
        }
        seams
    }

    /// The fewest seams, as even as they go: of as many parts as few, those with the least sum of squared
    /// lengths.
    fn seams(&self) -> Option<Vec<f64>> {
        let furthest = self.furthest(1.0);
        let last = furthest.last().copied().unwrap_or(self.left);
        if self.reach(last, 1.0, self.largest, self.longest) < self.right - 1e-6 {
            return None;
        }
        // What a seam may cross and how deep a part may be can ask for a part or two more.
        let fewest = (furthest.len() + 1).max(2);
        (fewest..=(fewest + 2).min(limits::MOST_PARTS)).find_map(|parts| self.seams_of(parts))
    }

    fn seams_of(&self, parts: usize) -> Option<Vec<f64>> {
        if (self.right - self.left) > self.longest * parts as f64 + 1e-9 {
            return None;
        }
        let mut places = vec![self.left];
        places.extend(self.candidates(parts));
        places.push(self.right);
        let count = places.len();
        let areas: Vec<f64> = places.iter().map(|x| self.part(self.left, *x).area).collect();
        // The best way to every place with so many parts behind it: sum of squares, and the place before.
        let mut ways: Vec<Vec<(f64, usize)>> = vec![vec![(f64::INFINITY, 0); count]; parts + 1];
        ways[0][0].0 = 0.0;
        for to in 1..count {
            for from in 0..to {
                if !self.fits((places[from], places[to]), areas[to] - areas[from]) {
                    continue;
                }
                let square = (places[to] - places[from]).powi(2);
                for done in 0..parts {
                    let sum = ways[done][from].0 + square;
                    // The further left of two equal ones, whatever the last bit says.
                    if sum < ways[done + 1][to].0 - 1e-12 {
                        ways[done + 1][to] = (sum, from);
                    }
                }
            }
        }
        if ways[parts][count - 1].0.is_infinite() {
            return None;
        }
        let mut seams = Vec::with_capacity(parts - 1);
        let mut at = count - 1;
        for done in (1..=parts).rev() {
            at = ways[done][at].1;
            if done > 1 {
                seams.push(places[at]);
            }
        }
        seams.reverse();
        Some(seams)
    }

    /// Why no seam helps.
    fn trouble(&self, run: SeamRun, job: &Job) -> String {
        let length = |metres: f64| say::length(Length::new::<meter>(metres), job.units);
        let bounds = self.outline.bounds();
        let from = if run == SeamRun::FrontToBack { "left end" } else { "front" };
        if bounds.height() > self.longest && self.slice_too_deep() {
            return format!(
                "No straight seam helps: a part stays {} the other way, over {}.",
                length(bounds.height()),
                length(self.longest)
            );
        }
        // Where the furthest part ends, and nothing beyond it may be cut.
        let reached = self.furthest(1.0).last().copied().unwrap_or(self.left);
        let next = self.reach(reached, 1.0, self.largest, self.longest);
        format!(
            "No seam fits between {} and {} from the {from}: a seam stays {} clear of every cutout and hole and leaves \
             no part under {}.",
            length(reached - self.left),
            length(next - self.left),
            say::length(limits::seam_clear(), job.units),
            say::length(limits::piece_least(), job.units)
        )
    }

    /// Somewhere the piece itself is too deep for a part, however short.
    fn slice_too_deep(&self) -> bool {
        let mut corners: Vec<f64> = self.outline.vertices().iter().map(|vertex| vertex.at.x).collect();
        corners.sort_by(f64::total_cmp);
        corners.windows(2).any(|pair| self.outline.slice(pair[0], pair[1]).bounds.height() > self.longest)
    }

    fn plan(
        &self,
        seams: &[f64],
        run: SeamRun,
        (net, weight, longest, heaviest): (f64, Option<Mass>, Length, Option<Mass>),
        (job, piece): (&Job, usize),
    ) -> SeamPlan {
        let units = job.units;
        let bounds = self.outline.bounds();
        let mut ends = vec![self.left];
        ends.extend(seams);
        ends.push(self.right);
        let pairs = || ends.windows(2).map(|pair| (pair[0], pair[1]));
        let parts: Vec<Length> = pairs().map(|(from, to)| Length::new::<meter>(to - from)).collect();
        let weights: Option<Vec<Mass>> = weight
            .filter(|_| net > 0.0)
            .map(|weight| pairs().map(|(from, to)| weight * (self.part(from, to).area / net)).collect());
        let list = |texts: Vec<String>| texts.join(", ");
        let mut working = Working::new(format!("{}Seams", piece_prefix(job, piece))).line(
            "longest part",
            "",
            write_length(longest, units),
            Source::Typed,
        );
        if let Some(heaviest) = heaviest {
            working = working.line("heaviest part out of the form", "", write_mass(heaviest, units), Source::Typed);
        }
        let whole = write_length(Length::new::<meter>(self.right - self.left), units);
        let count = u32::try_from(parts.len()).unwrap_or(u32::MAX);
        working = working
            .line(
                "the fewest parts within that, as even as they go, every seam clear of every cutout and hole",
                format!("{whole}, {} clear", write_length(limits::seam_clear(), units)),
                write_count(count, "part", "parts"),
                Source::Practice,
            )
            .line(
                "length of the parts",
                "",
                list(parts.iter().map(|part| write_length(*part, units).to_string()).collect()),
                Source::Arithmetic,
            );
        if let (Some(weights), Some(weight)) = (&weights, weight) {
            working = working.line(
                "weight out of the form × share of the face, cutouts and holes left out",
                write_mass(weight, units).to_string(),
                list(weights.iter().map(|weight| write_mass(*weight, units).to_string()).collect()),
                Source::Arithmetic,
            );
        }
        let placed: Vec<Length> = seams.iter().map(|x| Length::new::<meter>(x - self.left)).collect();
        let from = if run == SeamRun::FrontToBack { "from the left end" } else { "from the front" };
        let at = list(placed.iter().map(|seam| write_length(*seam, units).to_string()).collect());
        working = working.line(format!("seams, {from}"), "", at, Source::Arithmetic);
        let line = |x: &f64| match run {
            SeamRun::FrontToBack => (Point::new(*x, bounds.y0), Point::new(*x, bounds.y1)),
            // Turned back: what was right is behind, what was up is left.
            SeamRun::EndToEnd => (Point::new(-bounds.y1, *x), Point::new(-bounds.y0, *x)),
        };
        SeamPlan { run, seams: placed, lines: seams.iter().map(line).collect(), parts, weights, working }
    }
}

/// Says that a piece is too long or too heavy for one, and where it is better split.
pub(super) fn advise(top: &Top, seaming: &Known<Seaming>, job: &Job, piece: usize, findings: &mut Vec<Finding>) {
    let (units, prefix) = (job.units, piece_prefix(job, piece));
    let limit = |field| FieldPath::Seam(field);
    let longest = read::optional(job, limit(SeamField::Longest), read::positive_length).ok().flatten();
    let longest = longest.unwrap_or_else(limits::piece_longest).max(limits::piece_least());
    let remedy = match seaming {
        Ok(Seaming::Split(plan)) => plan.words(job),
        Ok(Seaming::Nowhere(why)) => why.clone(),
        Ok(Seaming::Whole) | Err(_) => "Split it into pieces with a seam, away from any sink.".to_owned(),
    };
    let mut add = |place, says: String| {
        findings.push(Finding {
            severity: Severity::Watch,
            stage: Stage::Measure,
            place,
            says: format!("{prefix}{says}").into(),
            remedy: remedy.clone().into(),
            source: Source::Practice,
        });
    };
    let mut long = false;
    if let Ok(outline) = &top.outline {
        let bounds = outline.bounds();
        for (field, length) in [(PieceField::Width, bounds.width()), (PieceField::Depth, bounds.height())] {
            let length = Length::new::<meter>(length);
            if length > longest + crate::measure::geometry_tolerance() {
                long = true;
                let says = format!(
                    "{} {} is long for one piece; over {} it is hard to turn and to carry.",
                    field.label(),
                    say::length(length, units),
                    say::length(longest, units)
                );
                add(FieldPath::Piece(piece, field), says);
            }
        }
    }
    if !long && matches!(seaming, Ok(Seaming::Split(_) | Seaming::Nowhere(_))) {
        let most =
            read::mass(job, limit(SeamField::Heaviest)).map_or_else(|_| String::new(), |most| say::mass(most, units));
        add(limit(SeamField::Heaviest), format!("It weighs more than the {most} you set for one piece."));
    }
}

impl SeamPlan {
    /// What to do, as one sentence: "One seam, 60 in from the left end: parts of 60 in and 60 in."
    pub fn words(&self, job: &Job) -> String {
        let from = match self.run {
            SeamRun::FrontToBack => "from the left end",
            SeamRun::EndToEnd => "from the front",
        };
        let list = |lengths: &[Length]| {
            let texts: Vec<String> = lengths.iter().map(|length| say::length(*length, job.units)).collect();
            texts.join(", ")
        };
        let count = u32::try_from(self.seams.len()).unwrap_or(u32::MAX);
        format!(
            "Split it with {}, {} {from}, clear of every cutout and hole: parts of {}.",
            write_count(count, "seam", "seams"),
            list(&self.seams),
            list(&self.parts)
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::estimate::{Estimate, estimate};
    use crate::job::{Cutout, CutoutShape, OutlineShape, Units};
    use crate::price::PriceBook;

    fn job_of(width: &str, depth: &str, sinks: &[(&str, &str)]) -> Job {
        let mut job = Job::new("test", Units::Inch);
        let piece = &mut job.pieces[0];
        piece.width = width.into();
        piece.depth = depth.into();
        piece.cutouts = sinks
            .iter()
            .map(|(wide, from_left)| Cutout {
                shape: CutoutShape::Rectangle,
                width: (*wide).into(),
                depth: "14".into(),
                corner_radius: "2".into(),
                from_left: (*from_left).into(),
                from_front: "12".into(),
                ..Cutout::default()
            })
            .collect();
        job
    }

    fn worked_out(job: &Job) -> Estimate {
        estimate(job, &PriceBook::default())
    }

    /// Seams in inches, for the first piece.
    fn seams(job: &Job) -> Vec<f64> {
        let estimate = worked_out(job);
        let seaming = estimate.pieces[0].seams.as_ref().expect("everything is typed");
        let plan = seaming.plan();
        plan.map_or_else(Vec::new, |plan| plan.seams.iter().map(|seam| seam.get::<uom::si::length::inch>()).collect())
    }

    #[track_caller]
    fn assert_seams(job: &Job, expected: &[f64]) {
        let found = seams(job);
        let close =
            found.len() == expected.len() && found.iter().zip(expected).all(|(one, two)| (one - two).abs() < 1e-6);
        assert!(close, "{found:?} is not {expected:?}");
    }

    /// Worked by hand. A bowl 20 in wide about the middle of 120 in keeps seams out of 46 to 74 in: 10 in of
    /// bowl and 4 in clear on either side. One about 66 in keeps them out of 52 to 80 in.
    #[test]
    fn seams_by_hand() {
        assert_seams(&job_of("96", "24", &[]), &[]);
        assert_seams(&job_of("120", "24", &[]), &[60.0]);
        assert_seams(&job_of("200", "24", &[]), &[200.0 / 3.0, 400.0 / 3.0]);
        assert_seams(&job_of("120", "24", &[("20", "60")]), &[46.0]);
        assert_seams(&job_of("120", "24", &[("20", "66")]), &[52.0]);
        assert_seams(&job_of("120", "24", &[("20", "54")]), &[68.0]);
        assert_seams(&job_of("24", "120", &[]), &[60.0]);
    }

    /// A bowl 80 in wide about the middle of 120 in leaves 16 in at either end: the other part is 104 in.
    #[test]
    fn where_no_seam_fits_it_says_why() {
        let job = job_of("120", "24", &[("80", "60")]);
        let estimate = worked_out(&job);
        assert!(matches!(estimate.pieces[0].seams, Ok(Seaming::Split(_))), "16, 88 and 16 in fit: {:?}", seams(&job));
        let job = job_of("130", "24", &[("100", "65")]);
        let estimate = worked_out(&job);
        let Ok(Seaming::Nowhere(why)) = &estimate.pieces[0].seams else { panic!("a 108 in part is over 96 in") };
        assert!(why.contains("clear of every cutout"), "{why}");
        assert!(estimate.findings.iter().any(|finding| finding.remedy.write(&job) == *why), "and the maker is told");
        let both = worked_out(&job_of("120", "110", &[]));
        let Ok(Seaming::Nowhere(why)) = &both.pieces[0].seams else { panic!("110 in deep however it is cut across") };
        assert!(why.contains("the other way"), "{why}");
    }

    /// An L, its leg 30 in wide at the left end: cut at the inner corner it makes 30 and 90 in, evenly it
    /// makes 60 and 60 in; and by hand, at half the weight, two parts of equal area.
    #[test]
    fn an_l_is_split_by_length_and_by_weight() {
        let mut job = job_of("120", "60", &[]);
        let piece = &mut job.pieces[0];
        piece.shape = OutlineShape::L;
        piece.leg = "30".into();
        piece.front_depth = "24".into();
        assert_seams(&job, &[60.0]);
        // Area 120 × 24 + 30 × 36 = 3960 in²; half of it, 1980, lies left of 30 + (1980 − 1800) ÷ 24 in.
        let whole = worked_out(&job).pieces[0].weights.as_ref().expect("all is known").as_cast.value;
        job.seams.longest = "20 ft".into();
        job.seams.heaviest = format!("{} kg", whole.value / 2.0 + 1e-6).as_str().into();
        let found = seams(&job);
        assert!(found.len() == 1 && (found[0] - 37.5).abs() < 1e-3, "{found:?}");
        job.seams.heaviest = "1000 lb".into();
        assert_seams(&job, &[]);
    }

    /// What is as long mirrored has its seams mirrored, and always clear and within the limits.
    #[test]
    fn seams_are_clear_and_mirror_with_the_piece() {
        for width in (97..260).step_by(27) {
            for from_left in (16..width - 16).step_by(11) {
                let make = |at: i32| job_of(&width.to_string(), "24", &[("22", at.to_string().as_str())]);
                let (one, other) = (seams(&make(from_left)), seams(&make(width - from_left)));
                let (wide, at) = (f64::from(width), f64::from(from_left));
                assert!(!one.is_empty(), "{width} with a bowl at {from_left}");
                assert!(one.iter().all(|seam| (seam - at).abs() >= 15.0 - 1e-6), "{one:?} is clear of {at}");
                let mut ends = vec![0.0];
                ends.extend(&one);
                ends.push(wide);
                assert!(ends.windows(2).all(|pair| pair[1] - pair[0] <= 96.0 + 1e-6), "{one:?}");
                let square = |seams: &[f64]| {
                    let mut ends = vec![0.0];
                    ends.extend(seams);
                    ends.push(wide);
                    ends.windows(2).map(|pair| (pair[1] - pair[0]).powi(2)).sum::<f64>()
                };
                assert_eq!(one.len(), other.len());
                assert!((square(&one) - square(&other)).abs() < 1e-3, "{one:?} and {other:?} of {width}, bowl at {at}");
            }
        }
    }
}
