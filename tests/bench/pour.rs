//! What it costs to plan a pour anew, as happens at every key: batches on their time line, what would make them fit,
//! curing through a history of temperatures, and a mix made from scratch. Each must stay under a millisecond, also in a
//! browser, where it takes two to three times as long.

use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use pourwright::form::{Form, FormInputs};
use pourwright::job::{Entry, Job, PourField, Spell, StrengthPoint};
use pourwright::measure::{Length, Units};
use pourwright::mix::demo;
use pourwright::mix::{Filling, PieceInputs, Pour, catalogue};
use pourwright::pour::{Plan, PourInputs, strip_time};
use pourwright::top::Top;
use pourwright::working::{Figure, Known};
use std::hint::black_box;

/// A top of so many bags, mixed by two, three spells of temperature a day for a month, four strengths.
fn job(width: &str, minutes: &str) -> Job {
    let mut job = demo("bench");
    job.pieces[0].width = Entry::new(width);
    *job.pour.entry_mut(PourField::People) = "2".into();
    *job.pour.entry_mut(PourField::MinutesABatch) = Entry::new(minutes);
    let spell = |index: usize| Spell { lasts: "8 h".into(), temperature: Entry::new(["55", "70", "62"][index % 3]) };
    job.pour.garage = (0..90).map(spell).collect();
    let point = |age: &str, strength: &str| StrengthPoint { age: age.into(), strength: strength.into() };
    job.bags[0].strengths =
        vec![point("1 h", "400"), point("3 h", "1500"), point("1 d", "3000"), point("28 d", "6000")];
    job.pour.strip_strength = "5500 psi".into();
    job
}

/// What fills the form of the first piece, how thick that is cast, and what is read for it.
fn filled(job: &Job, top: &Top) -> (Filling, Known<Figure<Length>>, PieceInputs) {
    let form = Form::of(top, &FormInputs::read(job, 0));
    let cast = form.as_ref().map(|form| form.cast_thickness.clone()).map_err(Clone::clone);
    let inputs = PieceInputs::read(job, 0);
    (Filling::of(top, &form, &cast, &inputs.mix), cast, inputs)
}

fn plans(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("plan");
    for (name, job) in [("6 bags, it fits", job("96", "1")), ("12 bags, with what makes them fit", job("190", "5"))] {
        let top = Top::of(&job, 0);
        let (filling, cast, inputs) = filled(&job, &top);
        let pour = Pour::of(&filling, &cast, &inputs).expect("it can be poured");
        let day = PourInputs::read(&job, 0);
        group.bench_with_input(BenchmarkId::from_parameter(name), &pour, |bencher, pour| {
            bencher.iter(|| Plan::of(black_box(pour), &day).expect("a plan"));
        });
    }
    group.finish();
}

fn curing(criterion: &mut Criterion) {
    let job = job("52", "4");
    criterion.bench_function("curing through 90 spells", |bencher| {
        bencher.iter(|| strip_time(&PourInputs::read(black_box(&job), 0), None, None).expect("a time"));
    });
}

fn scratch(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("from scratch");
    for mix in catalogue(Units::Inch).into_iter().filter(|mix| mix.recipe.is_some()) {
        let mut job = job("96", "4");
        let name = mix.name.text().to_owned();
        job.pieces[0].bag = mix.id.clone();
        job.bags = vec![mix];
        let top = Top::of(&job, 0);
        let (filling, cast, _) = filled(&job, &top);
        group.bench_function(name, |bencher| {
            bencher.iter(|| Pour::of(&filling, &cast, &PieceInputs::read(black_box(&job), 0)).expect("a pour"))
        });
    }
    group.finish();
}

criterion_group!(pour, plans, curing, scratch);
criterion_main!(pour);
