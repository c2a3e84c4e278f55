//! What must hold for every pour day, however it was filled in.

use pourwright::measure::exact::{cubic_feet, fahrenheit, pounds, psi};
use pourwright::measure::{Temperature, Time, Units, Volume};
use pourwright::mix::proportion::{
    Air, Concrete, Materials, Moisture, Recipe, Weighed, concrete, scale_step, share_out,
};
use pourwright::pour::maturity::{History, Law, Stretch};
use pourwright::pour::strength::{Point, Points, Strengthening};
use pourwright::pour::strip::Stripping;
use pourwright::pour::temperature::Charge;
use pourwright::pour::timeline::{
    FaceCoat, Holds, PourDay, Retarder, Steel, Stiffening, Timeline, Times, Warmth, remedies,
};
use pourwright::pour::weather::{Weather, temperature_advice};
use proptest::prelude::*;
use proptest::sample::select;
use uom::si::f64::Velocity;
use uom::si::thermodynamic_temperature::{degree_celsius, degree_fahrenheit, kelvin};
use uom::si::time::{hour, minute, second};
use uom::si::velocity::meter_per_second;
use uom::si::volume::cubic_meter;

/// Numbers for any quantity: plausible, at the edge, hostile.
fn number() -> impl Strategy<Value = f64> {
    let hostile = select(vec![
        0.0,
        -0.0,
        1.0,
        -1.0,
        1e-300,
        1e300,
        f64::MAX,
        f64::MIN_POSITIVE,
        f64::NAN,
        f64::INFINITY,
        f64::NEG_INFINITY,
    ]);
    prop_oneof![3 => 0.0..400.0_f64, 1 => hostile, 1 => any::<f64>()]
}

fn minutes(count: f64) -> Time {
    Time::new::<minute>(count)
}

fn holds() -> impl Strategy<Value = Holds> {
    prop_oneof![(1..4_u32).prop_map(Holds::Bags), (0.5..2.0_f64).prop_map(|feet| Holds::Volume(cubic_feet(feet)))]
}

/// Days that can be laid out.
fn day() -> impl Strategy<Value = PourDay> {
    let times = (0.5..5.0_f64, 0.0..2.0_f64, 0.0..3.0_f64, 0.0..6.0_f64);
    let steel = prop::option::of((0.05..=1.0_f64, 0.0..10.0_f64));
    let hands = (1..5_u32, prop::collection::vec(holds(), 1..4));
    let mix = (5.0..90.0_f64, 45.0..95.0_f64, any::<bool>(), prop::option::of((1.0..3.0_f64, 0.0..0.5_f64)));
    (0.1..20.0_f64, hands, times, steel, mix).prop_map(
        |(volume, (people, mixers), (mix, dump, place, screed), steel, (workable, degrees, halving, retarder))| {
            PourDay {
                volume: cubic_feet(volume),
                bag: Some(cubic_feet(0.5)),
                people,
                mixers,
                times: Times { mix: minutes(mix), dump: minutes(dump), place: minutes(place) },
                face: None,
                steel: steel.map(|(at, takes)| Steel { at, takes: minutes(takes) }),
                screed: minutes(screed),
                pieces: 1,
                workable: minutes(workable),
                stiffening: if halving {
                    Stiffening::Halving
                } else {
                    Stiffening::EquivalentAge { activation: pourwright::pour::limits::activation() }
                },
                warmth: Warmth::Typed(fahrenheit(degrees)),
                retarder: retarder.map(|(at_most, used)| Retarder { at_most, used }),
            }
        },
    )
}

fn laid_out(day: &PourDay) -> Timeline {
    day.lay_out().expect("a layout")
}

/// Spans of time in which somebody or something is taken overlap nowhere.
fn overlap_nowhere(mut spans: Vec<(Time, Time)>) -> bool {
    spans.sort_by(|one, other| (one.0, one.1).partial_cmp(&(other.0, other.1)).expect("numbers"));
    let dust = Time::new::<second>(1e-6);
    std::iter::zip(&spans, spans.iter().skip(1)).all(|(one, next)| one.1 <= next.0 + dust)
}

proptest! {
    /// More hands never end later, nor does one more mixer of the smallest kind.
    #[test]
    fn more_hands_never_end_later(day in day()) {
        let now = laid_out(&day).takes.value;
        let more = PourDay { people: day.people + 1, ..day.clone() };
        prop_assert!(laid_out(&more).takes.value <= now);
        let mut more = day.clone();
        let filled = |holds: &Holds| match *holds {
            Holds::Bags(bags) => f64::from(bags),
            Holds::Volume(volume) => (volume / cubic_feet(0.5)).value.floor(),
        };
        let smallest = day.mixers.iter().copied().min_by(|one, other| filled(one).total_cmp(&filled(other)));
        more.mixers.extend(smallest);
        prop_assert!(laid_out(&more).takes.value <= now);
    }

    /// Nobody does two things at a time, no mixer holds two batches, the batches are all of the mix, and every one
    /// is placed after it is mixed; while steel is laid nothing is poured, and it is laid at its fill.
    #[test]
    fn a_time_line_can_be_done(day in day()) {
        let found = laid_out(&day);
        let mut hands = vec![Vec::new(); found.people];
        let mut mixers = vec![Vec::new(); day.mixers.len()];
        let mut pours = Vec::new();
        for batch in &found.batches {
            prop_assert!(batch.water <= batch.mixed && batch.mixed <= batch.dumped && batch.dumped <= batch.placed);
            hands[batch.mixed_by].push((batch.water, batch.mixed));
            hands[batch.placed_by].push((batch.dumped - day.times.dump, batch.placed));
            mixers[batch.mixer].push((batch.water, batch.dumped));
            pours.push((batch.dumped - day.times.dump, batch.placed));
        }
        if let Some(laid) = found.steel {
            hands[laid.by].push((laid.from, laid.until));
            let dust = Time::new::<second>(1e-6);
            prop_assert!(pours.iter().all(|(from, until)| *until <= laid.from + dust || laid.until <= *from + dust));
            let all: Volume = found.batches.iter().map(|batch| batch.volume).sum();
            let under = found.batches.iter().filter(|batch| batch.placed <= laid.from + dust);
            let under: Volume = under.map(|batch| batch.volume).sum();
            prop_assert!(under >= all * (day.steel.expect("steel").at - 1e-6));
        }
        prop_assert!(hands.into_iter().all(overlap_nowhere));
        prop_assert!(mixers.into_iter().all(overlap_nowhere));
        let bags = found.batches.iter().map(|batch| (batch.volume / cubic_feet(0.5)).value);
        let expected = ((day.volume / cubic_feet(0.5)).value - 1e-9).ceil();
        prop_assert!((bags.sum::<f64>() - expected).abs() < 1e-6);
        prop_assert!(found.joint_margin.is_none_or(|joint| joint >= found.last_margin.value - minutes(1e-6)));
    }

    /// Every remedy does make it fit, they come in the order of their sizes, and none is offered to what fits.
    #[test]
    fn remedies_do_help(day in day()) {
        let fits = laid_out(&day).fits;
        let found = remedies(&day, Units::Inch);
        prop_assert!(!fits || found.is_empty());
        for remedy in &found {
            let after = laid_out(&day.with(remedy.change));
            prop_assert!(after.fits, "{remedy:?}");
            prop_assert_eq!(after.takes.value, remedy.takes);
            prop_assert!(remedy.size > 0.0);
        }
        prop_assert!(std::iter::zip(&found, found.iter().skip(1)).all(|(one, next)| one.size <= next.size));
    }

    /// Hotter never lengthens the workable time, by either law.
    #[test]
    fn hotter_is_never_longer(degrees in -20.0..60.0_f64, more in 0.0..40.0_f64, at_reference in 1.0..200.0_f64) {
        let at = Temperature::new::<degree_celsius>;
        for stiffening in [Stiffening::Halving, Stiffening::EquivalentAge { activation: pourwright::pour::limits::activation() }] {
            let cool = stiffening.workable(minutes(at_reference), at(degrees));
            prop_assert!(stiffening.workable(minutes(at_reference), at(degrees + more)) <= cool);
        }
    }

    /// Shared out to the last step, each within one step of its share.
    #[test]
    fn shares_sum_up(steps in 0..1_000_000_u64, sizes in prop::collection::vec(0.01..10.0_f64, 1..40)) {
        let shares = share_out(steps, &sizes);
        prop_assert_eq!(shares.iter().sum::<u64>(), steps);
        let all: f64 = sizes.iter().sum();
        for (share, size) in std::iter::zip(shares, sizes) {
            prop_assert!((share as f64 - steps as f64 * size / all).abs() <= 1.0 + 1e-6);
        }
    }

    /// The absolute volumes of every mix sum to what it fills, before and after scaling; in steps of the scale they
    /// miss it by what rounding moves at most.
    #[test]
    fn absolute_volumes_sum_up(
        slump in 1.0..7.0_f64, size in 0.375..1.5_f64, strength in 2000.0..5000.0_f64, fineness in 2.4..3.0_f64,
        moisture in (0.0..0.05_f64, 0.0..0.02_f64), air in select(vec![Air::Entrapped, Air::Mild, Air::Severe]),
        liters in 5.0..500.0_f64, recipe in (0.5..3.0_f64, 0.25..0.6_f64, 0.0..0.1_f64, 0.0..0.05_f64, 0.0..0.08_f64),
    ) {
        let wanted = Concrete {
            slump: pourwright::measure::exact::inches(slump),
            stone_size: pourwright::measure::exact::inches(size),
            strength: psi(strength),
            air,
            most_water_to_cement: None,
            less_water: 0.0,
        };
        let moisture = Moisture { total: moisture.0, absorbed: moisture.1 };
        let materials = Materials {
            cement_gravity: 3.15,
            stone_gravity: 2.65,
            stone_bulk: pourwright::mix::limits::water_density() * 1.6,
            stone_moisture: moisture,
            sand_gravity: 2.65,
            fineness,
            sand_moisture: moisture,
        };
        let volume = Volume::new::<cubic_meter>(liters / 1000.0);
        let (sand, water, pigment, fibre, entrained) = recipe;
        let recipe = Recipe { sand, water, pigment, fibre, air: entrained, ..Recipe::backer() };
        let concrete = concrete(&wanted, &materials, Units::Inch).and_then(|mix| mix.scaled_to(volume));
        for mix in concrete.into_iter().chain(recipe.proportions(volume)) {
            prop_assert!((mix.absolute_volume() / volume - 1.0.into()).value.abs() < 1e-9);
            prop_assert!((0.0..1.0).contains(&mix.paste_share().value));
            let step = scale_step(Units::Metric);
            let weighed = Weighed::of(&mix, step).expect("weighed");
            // Half a step of each part, of the lightest as light as the liquid of a polymer.
            let most = step * 0.5 * mix.parts.len() as f64 / pourwright::mix::limits::water_density() / (1.0 - mix.air);
            prop_assert!((weighed.volume - volume).abs() <= most * 1.01);
        }
    }

    /// An age by the clock is that clock by the age; older by the clock is never younger in truth.
    #[test]
    fn clock_and_age_are_inverse(
        parts in prop::collection::vec((0.5..50.0_f64, 1.0..45.0_f64), 1..8), clock in 0.1..500.0_f64,
    ) {
        let stretch = |(hours, degrees)| Stretch {
            lasts: Time::new::<hour>(hours),
            temperature: Temperature::new::<degree_celsius>(degrees),
        };
        let history = History::new(parts.into_iter().map(stretch).collect()).expect("a history");
        let (clock, reference) = (Time::new::<hour>(clock), pourwright::pour::limits::strength_reference(Units::Metric));
        for law in Law::all() {
            let age = history.age_after(clock, law, reference);
            let back = history.clock_at(age, law, reference).expect("a time");
            prop_assert!((back / clock - 1.0.into()).value.abs() < 1e-9);
            prop_assert!(history.age_after(clock * 1.1, law, reference) >= age);
        }
    }

    /// Between points strength never falls, and keeps between the points around it; the age of a strength is never
    /// before it is there.
    #[test]
    fn strength_never_overshoots(gaps in prop::collection::vec((0.1..100.0_f64, 0.0..2000.0_f64), 2..6), at in 0.0..1.0_f64) {
        let (mut age, mut strength) = (0.0, 500.0);
        let mut points = Vec::new();
        for (more_age, more_strength) in gaps {
            age += more_age;
            strength += more_strength;
            points.push(Point { age: Time::new::<hour>(age), strength: psi(strength) });
        }
        let curve = Points::new(&points).expect("a curve");
        for (younger, older) in std::iter::zip(&points, points.iter().skip(1)) {
            let age = younger.age + (older.age - younger.age) * at;
            let found = curve.strength_at(age).expect("known");
            prop_assert!(found >= younger.strength * (1.0 - 1e-12) && found <= older.strength * (1.0 + 1e-12));
            let reached = curve.age_of(found).expect("reached");
            prop_assert!(reached <= age * (1.0 + 1e-9));
            prop_assert!(curve.strength_at(reached).expect("known") >= found * (1.0 - 1e-9));
        }
    }

    /// A top is never stripped before the label's time, nor later in a warmer garage; the default law lies between
    /// the others.
    #[test]
    fn stripping_in_order(label in 1.0..100.0_f64, wanted in 500.0..5000.0_f64, degrees in 1.0..40.0_f64, warmer in 0.0..10.0_f64) {
        let points = [(1.0, 500.0), (24.0, 3000.0), (672.0, 5000.0)];
        let points = points.map(|(age, strength)| Point { age: Time::new::<hour>(age), strength: psi(strength) });
        let curve = Strengthening::Points(Points::new(&points).expect("a curve"));
        let label = Time::new::<hour>(label);
        let stripping = Stripping { label, needs: Some((curve, psi(wanted))), reference: pourwright::pour::limits::strength_reference(Units::Metric) };
        let in_garage = |degrees: f64| {
            let history = History::steady(Temperature::new::<degree_celsius>(degrees)).expect("a history");
            stripping.time(&history).expect("a time")
        };
        let (cool, warm) = (in_garage(degrees), in_garage(degrees + warmer));
        prop_assert!(cool.earliest >= label && cool.earliest <= cool.at.value);
        prop_assert!(cool.latest.is_some_and(|latest| latest >= cool.at.value));
        prop_assert!(warm.at.value <= cool.at.value);
    }

    /// Water chosen for a temperature gives it; ice never more than the water.
    #[test]
    fn water_and_ice_give_what_was_wanted(
        dry in 1.0..200.0_f64, at in 20.0..130.0_f64, water in 1.0..40.0_f64, tap in 33.0..90.0_f64, wanted in 35.0..110.0_f64,
    ) {
        let charge = Charge::bagged(pounds(dry), fahrenheit(at), pounds(water), fahrenheit(tap));
        let of = |charge: Charge| charge.temperature().expect("a mix").value.get::<degree_fahrenheit>();
        if let Ok(found) = charge.water_for(fahrenheit(wanted)) {
            let water_temperature = fahrenheit(found.value.get::<degree_fahrenheit>().max(32.0));
            let mixed = of(Charge { water_temperature, ..charge });
            prop_assert!((mixed - wanted).abs() < 1e-6);
        }
        if let Ok(found) = charge.ice_for(fahrenheit(wanted)) {
            let ice = found.value;
            prop_assert!(ice.value >= 0.0 && ice <= charge.water);
            let mixed = of(Charge { water: charge.water - ice, ice, ..charge });
            prop_assert!((mixed - wanted).abs() < 1e-6);
        }
    }

    /// Damper air never dries faster; the band holds the estimate.
    #[test]
    fn damp_air_dries_less(air in -15.0..55.0_f64, mix in -15.0..55.0_f64, humidity in 0.0..0.9_f64, wind in 0.0..25.0_f64) {
        let celsius = Temperature::new::<degree_celsius>;
        let weather = Weather {
            air: celsius(air),
            mix: celsius(mix),
            humidity,
            wind: Velocity::new::<meter_per_second>(wind),
        };
        let dry = |weather: Weather| weather.evaporation(true).expect("weather");
        let (found, damper) = (dry(weather), dry(Weather { humidity: humidity + 0.1, ..weather }));
        prop_assert!(damper.estimate.value <= found.estimate.value);
        prop_assert!(found.least <= found.estimate.value && found.estimate.value <= found.most);
        prop_assert!(found.in_still_air <= found.estimate.value);
    }

    /// Nothing panics, and nothing runs on, whatever is typed.
    #[test]
    fn any_numbers_are_survived(numbers in prop::collection::vec(number(), 24), count in any::<u32>(), bags in any::<u32>()) {
        let n = |index: usize| numbers[index];
        let at = |index: usize| Temperature::new::<kelvin>(n(index));
        let time = |index: usize| Time::new::<minute>(n(index));
        let charge = Charge {
            dry: pounds(n(0)),
            dry_temperature: at(1),
            aggregate: pounds(n(2)),
            aggregate_temperature: at(3),
            moisture: pounds(n(4)),
            water: pounds(n(5)),
            water_temperature: at(6),
            ice: pounds(n(7)),
        };
        let day = PourDay {
            volume: Volume::new::<cubic_meter>(n(8)),
            bag: (count % 3 == 0).then(|| Volume::new::<cubic_meter>(n(9))),
            people: if count % 2 == 0 { count } else { count % 16 },
            mixers: vec![Holds::Bags(bags), Holds::Volume(Volume::new::<cubic_meter>(n(10)))],
            times: Times { mix: time(11), dump: time(12), place: time(13) },
            face: (count % 7 == 0).then(|| FaceCoat { batches: bags, stiffens: time(16) }),
            steel: Some(Steel { at: n(14), takes: time(15) }),
            workable: time(16),
            screed: minutes(4.0),
            pieces: 1,
            stiffening: Stiffening::EquivalentAge { activation: pourwright::pour::limits::activation() },
            warmth: if count % 5 == 0 { Warmth::Typed(at(17)) } else { Warmth::Of(charge) },
            retarder: Some(Retarder { at_most: n(18), used: n(19) }),
        };
        for units in [Units::Inch, Units::Metric] {
            let _ = day.lay_out().map_err(|problem| problem.says().write(units));
            let _ = remedies(&day, units);
            let _ = charge.water_for(at(20)).map_err(|problem| problem.says().write(units));
            let _ = charge.ice_for(at(20)).map_err(|problem| problem.says().write(units));
            let weather = Weather { air: at(0), mix: at(1), humidity: n(2), wind: Velocity::new::<meter_per_second>(n(3)) };
            let _ = weather.evaporation(count % 2 == 0).map(|found| found.advice(units));
            let _ = temperature_advice(at(4), at(5), units);
            if let Ok(history) = History::new(vec![Stretch { lasts: time(6), temperature: at(7) }]) {
                let stripping = Stripping { label: time(8), needs: None, reference: at(9) };
                let _ = stripping.time(&history).map(|found| found.range());
                let _ = history.age(Law::NurseSaul { datum: at(10) }, at(11)).working.lines(units);
            }
            let recipe = Recipe { sand: n(12), water: n(13), fibre: n(14), air: n(15), ..Recipe::backer() };
            let _ = recipe.proportions(day.volume).map(|mix| Weighed::of(&mix, pounds(n(16))));
        }
    }
}
