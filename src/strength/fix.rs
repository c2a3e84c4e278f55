//! A remedy put into the job.

use super::cases::{Case, LoadCase};
use super::check::Cracking;
use super::outcome::WorstLocation;
use super::remedy::{Change, away};
use crate::job::{
    AcrossFrom, AlongFrom, Carried, CutoutField, CutoutShape, Entry, FieldPath, Hand, HandlingField, Job, LayerOf,
    PieceField, SinkBay, Stripped,
};
use crate::measure::{Length, Time, write_duration, write_length, write_number};
use crate::top::{self, Top};
use uom::si::time::minute;

/// The job with that change made to a piece, against a case whose worst place lies beside `beside`; nothing where
/// the job has no field for it.
pub fn fixed(
    job: &Job,
    piece: usize,
    (top, cracking): (&Top, &Cracking),
    (case, beside): (&Case, WorstLocation),
    change: Change,
) -> Option<Job> {
    let mut fixed = job.clone();
    match change {
        Change::WaitFor(strength) => {
            let field = match case.age {
                super::cases::Age::Stripping => HandlingField::StrippedAt,
                // It is in use from when it is set.
                super::cases::Age::Handling | super::cases::Age::InUse => HandlingField::CarriedAt,
            };
            // What is typed for a younger age says nothing of a later one.
            if field == HandlingField::StrippedAt {
                fixed.pieces.get_mut(piece)?.handling.strength = Entry::default();
            }
            let age = whole_minutes(cracking.grown.age_of(strength)?)?;
            *fixed.entry_at_mut(FieldPath::Handling(piece, field))? = age;
        }
        Change::Thickness(thickness) => {
            *fixed.entry_at_mut(FieldPath::Piece(piece, PieceField::Thickness))? = typed(thickness, job);
        }
        Change::WiderRail { opening, by } => move_away(&mut fixed, piece, top, (opening, beside), by)?,
        Change::CornerRadius { opening, radius } => {
            let cutout = fixed.pieces.get(piece)?.cutouts.get(opening)?;
            if !matches!(cutout.shape, CutoutShape::Rectangle | CutoutShape::D) {
                return None;
            }
            *fixed.entry_at_mut(FieldPath::Cutout(piece, opening, CutoutField::CornerRadius))? = typed(radius, job);
        }
        Change::OnEdge => {
            let handling = &mut fixed.pieces.get_mut(piece)?.handling;
            match case.kind {
                LoadCase::LiftedAtEnds => handling.stripped = Stripped::OnEdge,
                LoadCase::CarriedByTwo | LoadCase::CarriedByFour => handling.carried = Carried::OnEdge,
                _ => return None,
            }
        }
        Change::ThirdHand => {
            let handling = &mut fixed.pieces.get_mut(piece)?.handling;
            match case.kind {
                LoadCase::LiftedAtEnds => handling.stripped = Stripped::FlatByThree,
                LoadCase::CarriedByTwo => handling.carried = Carried::ByThree,
                _ => return None,
            }
        }
        Change::Prop(_) => fixed.pieces.get_mut(piece)?.handling.bay = SinkBay::Propped,
        Change::Foam => {
            fixed.form.layers.retain(|layer| layer.of == LayerOf::Foam);
            if fixed.form.layers.is_empty() {
                return None;
            }
        }
        // It would not change the map, which is of the concrete alone.
        Change::Bar(_) => return None,
    }
    (fixed != *job).then_some(fixed)
}

/// What a change is, as a button says it: a strength to wait for by its age, where the bag tells it.
pub fn words(change: Change, cracking: &Cracking) -> String {
    let question = &cracking.question;
    let said = super::said::change(change, &question.names, question.units);
    match change {
        Change::WaitFor(strength) => cracking
            .grown
            .age_of(strength)
            .and_then(whole_minutes)
            .and_then(|age| crate::measure::read_duration(age.text(), question.units).ok())
            .map_or(said, |age| format!("Wait until {}", write_duration(age).text)),
        _ => said,
    }
}

fn typed(length: Length, job: &Job) -> Entry {
    Entry::new(write_length(length, job.units).bare())
}

/// An age as it is typed, up to the next whole minute, and to the next whole five from an hour on.
fn whole_minutes(age: Time) -> Option<Entry> {
    let minutes = age.get::<minute>();
    let step = if minutes < 60.0 { 1.0 } else { 5.0 };
    let whole = (minutes / step - 1e-6).ceil() * step;
    whole.is_finite().then(|| Entry::new(&format!("{} min", write_number(whole, 0))))
}

/// Moves a cutout away from the strip beside it, by the reference it is measured from.
fn move_away(
    job: &mut Job,
    piece: usize,
    top: &Top,
    (opening, beside): (usize, WorstLocation),
    by: Length,
) -> Option<()> {
    let away = away(beside)?;
    let at = top.cutout_center(opening)? + by.value * away;
    let cutout = job.pieces.get(piece)?.cutouts.get(opening)?.clone();
    let (field, length) = if away.x == 0.0 {
        let field = match cutout.along {
            AlongFrom::Front => CutoutField::FromFront,
            AlongFrom::Back => CutoutField::FromBack,
        };
        (field, top.along_at(&cutout, at.y)?)
    } else {
        let field = match cutout.across {
            AcrossFrom::Left => CutoutField::FromLeft,
            AcrossFrom::Right => CutoutField::FromRight,
            AcrossFrom::Door => CutoutField::FromDoor,
        };
        (field, top.across_at(&top::doors(job, piece), &cutout, at.x)?)
    };
    if field == CutoutField::FromDoor {
        let side = if length < Length::default() { Hand::Left } else { Hand::Right };
        job.pieces.get_mut(piece)?.cutouts.get_mut(opening)?.door_side = side;
    }
    let text = typed(if length < Length::default() { -length } else { length }, job);
    *job.entry_at_mut(FieldPath::Cutout(piece, opening, field))? = text;
    Some(())
}
