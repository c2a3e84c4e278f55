//! What goes into each batch of a mix made from scratch.

use super::list::{List, Row};
use crate::estimate::Estimate;
use crate::job::Job;
use crate::measure::{Mass, Quantity, Units, Volume, write_count, write_percent, write_volume, write_weighed};
use crate::mix::proportion::Part;
use crate::mix::{Coat, Coats, part_name};
use crate::working::{Source, Term, Waiting};

/// A list for each coat of a piece; none where it is cast from bags.
pub fn mix_lists(job: &Job, all: &Estimate, piece: usize) -> Vec<List> {
    let typed = job.pieces.get(piece).and_then(|piece| job.bag(&piece.bag));
    let (Some((bag, _)), Some(of)) = (typed.filter(|(_, bag)| bag.recipe.is_some()), all.pieces.get(piece)) else {
        return Vec::new();
    };
    match &of.pour {
        Ok(pour) => {
            // Pieces of one mix are mixed at one go.
            let order = all.orders.iter().flatten().find(|order| order.bag == bag);
            let pooled = order.and_then(|order| order.scratch()?.pooled.as_ref());
            let together = all.pouring_of(piece).filter(|_| pooled.is_some());
            let lead = together.map_or_else(String::new, |pouring| format!("For {}: ", pouring.words().write(job)));
            let coats = pooled.or(pour.coats.as_ref());
            let coats = coats.into_iter().flat_map(|coats| coats.coats.iter().map(move |coat| (coats, coat)));
            coats.map(|(coats, coat)| list(job, bag, coats, coat, &lead)).collect()
        }
        Err(waiting) => {
            vec![List { heading: heading(""), lead: String::new(), rows: Err(Waiting::clone(waiting)), ticked: false }]
        }
    }
}

fn heading(coat: &str) -> &'static str {
    match coat {
        "Face coat" => "Into each batch: face coat",
        "Backer" => "Into each batch: backer",
        _ => "Into each batch",
    }
}

fn list(job: &Job, bag: usize, coats: &Coats, coat: &Coat, before: &str) -> List {
    let units = job.units;
    let batches = coats.in_all(coat);
    let rows = std::iter::zip(&coat.batch.parts, &coat.weighed.parts)
        .map(|(part, (role, mass))| row(part_name(job, bag, *role), part, *mass, batches, units))
        .collect();
    List {
        heading: heading(coat.name),
        lead: before.to_owned() + &lead(coat, batches, units),
        rows: Ok(rows),
        ticked: false,
    }
}

/// How many batches, and the check that they fill the form.
fn lead(coat: &Coat, batches: u32, units: Units) -> String {
    let all = |a_batch: Volume| write_volume(a_batch * f64::from(batches), units).text;
    let alike = if batches > 1 { ", all alike" } else { "" };
    format!(
        "{} of {}{alike}. As weighed, by absolute volume, they fill {} of the {} wanted: {} off.",
        write_count(batches, "batch", "batches"),
        write_volume(coat.batch.volume, units).text,
        all(coat.weighed.volume),
        all(coat.batch.volume),
        write_percent(coat.weighed.off.abs())
    )
}

fn row(name: String, part: &Part, mass: Mass, batches: u32, units: Units) -> Row {
    let value = write_weighed(mass, units);
    let title = part.mass.working.title_label().clone();
    let weighed = Term::found("{}, in steps of the scale", [part.mass.term().into()], mass);
    let working = weighed.titled_as(title, Quantity::Weighed(mass), Source::Practice).working;
    let all = write_weighed(mass * f64::from(batches), units);
    let row = Row { working: Some(working), ..Row::new(name, value) };
    if batches > 1 { row.and(format!("{all} in all")) } else { row }
}
