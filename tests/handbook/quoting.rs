//! A whole job, from its fields to finish, carrying, price and paper.

use pourwright::carry::{Crew, Passage};
use pourwright::estimate::{Estimate, estimate};
use pourwright::finding::{Severity, Stage};
use pourwright::job::{
    BagField, Cutout, DefectEntry, DefectKind, Entry, Exposure, Family, Grip, Job, LiftLevel, Logged, PourStep, Reach,
    Sheen, Task, Units,
};
use pourwright::measure::Date;
use pourwright::measure::exact::{in_inches, inches, pounds, quarts};
use pourwright::mix::demo;
use pourwright::price::hours::Logged as LoggedHours;
use pourwright::price::trip::{BuyFor, Trip};
use pourwright::price::{ChargeBy, OwnedPad, PriceBook};
use pourwright::print::{client_page, freeze, maker_page, side_by_side};
use rust_decimal::Decimal;
use uom::si::time::hour;

/// A plain slab of 48 × 24 × 2 in, the back and the left end against walls, of the catalogue's rapid mortar: 55 lb,
/// 0.50 ft³, 5 qt a bag.
fn slab(id: &str) -> Job {
    let mut job = Job::new(id, Units::Inch);
    job.name = Entry::new(id);
    let piece = &mut job.pieces[0];
    piece.width = "48".into();
    piece.depth = "24".into();
    piece.thickness = "2".into();
    use pourwright::job::EdgeKind::{Lined, Plain, Wall};
    for (side, kind) in [Lined, Plain, Wall, Wall].into_iter().enumerate() {
        piece.edge_mut(side).kind = kind;
    }
    piece.edge_mut(0).liner = "3/4".into();
    job
}

/// Prices that are easy to add up.
fn book(job: &Job) -> PriceBook {
    let mut book = PriceBook { wage: "40".into(), tax: "8 %".into(), ..PriceBook::default() };
    book.bag_mut(&job.bags[0].id).price = "20".into();
    for (id, price) in [("board", "50"), ("liner", "200"), ("sealer", "60")] {
        book.good_mut(id).price = price.into();
    }
    book
}

fn money(text: &str) -> Decimal {
    text.parse().expect("a decimal")
}

fn says(all: &Estimate, strength: Severity, words: &str) -> bool {
    all.findings.iter().any(|one| one.severity == strength && one.says.write(Units::Inch).contains(words))
}

/// Sizes by hand: 8 ft² of face; two open edges, 4 ft and 2 ft, 2 in high, the lined one half as much again.
#[test]
fn sealer_by_hand() {
    let mut job = slab("sealer");
    job.finish.recoat = "4".into();
    job.finish.cure = "2 d".into();
    job.finish.seal_date = "2027-02-28".into();
    job.finish.seal_time = "22:00".into();
    let all = estimate(&job, &PriceBook::default());
    let sealing = all.finishing.sealing.expect("everything is known");
    // 8 + 4 × 1/6 × 1.5 + 2 × 1/6 ft².
    let area = (8.0 + 1.0 + 2.0 / 6.0) * inches(12.0) * inches(12.0);
    assert!(((sealing.area.value / area).value - 1.0).abs() < 1e-9, "{:?}", sealing.area.value);
    // Two coats at 300 ft² a gallon: from memory of data sheets, 200 to 400.
    let gallons = (sealing.amount.value / quarts(4.0)).value;
    assert!((gallons - 2.0 * (9.0 + 1.0 / 3.0) / 300.0).abs() < 1e-9, "{gallons}");
    let schedule = all.finishing.schedule.expect("dates are typed");
    let coats: Vec<_> = schedule.coats.iter().map(ToString::to_string).collect();
    assert_eq!(coats, ["2027-02-28 22:00", "2027-03-01 02:00"], "2027 is no leap year");
    assert_eq!(schedule.cured.to_string(), "2027-03-03 02:00");
}

/// The sides of a sink hole of 20 x 15 in without corners are 70 in long: at 2 in, 140 in² are sealed with the face.
#[test]
fn the_sides_of_a_cutout_are_sealed() {
    let mut job = slab("sides");
    let before = estimate(&job, &PriceBook::default()).finishing.sealing.expect("known").area.value;
    let (width, depth) = ("20".into(), "15".into());
    let (from_left, from_front) = ("24".into(), "12".into());
    job.pieces[0].cutouts.push(Cutout { width, depth, from_left, from_front, ..Cutout::default() });
    job.pieces[0].cutouts[0].corner_radius = "0".into();
    let area = estimate(&job, &PriceBook::default()).finishing.sealing.expect("known").area;
    let square_inches = ((area.value - before) / (inches(1.0) * inches(1.0))).value;
    assert!((square_inches - (140.0 - 300.0)).abs() < 1e-6, "{square_inches}");
    assert!(area.working.lines(Units::Inch).iter().any(|line| line.formula.contains("sides of cutout 1")));
}

/// Common practice, no source: a month for portland of 2 in, which dries from both sides; a day for rapid mortar.
#[test]
fn a_sealer_waits_for_the_pour_to_dry() {
    // 2027-03-01 is 20 878 days after 1 January 1970.
    let poured = Logged { part: 0, step: PourStep::Water(0), at: 20_878 * 86_400_000 + 36_000_000 };
    let late = Logged { part: 0, step: PourStep::Water(1), at: poured.at + 600_000 };
    let mut job = slab("drying");
    let found = |job: &Job, strength| {
        let found = estimate(job, &PriceBook::default()).findings;
        found.into_iter().find(|one| one.severity == strength && one.says.write(job).contains("first coat"))
    };
    job.finish.seal_date = "2027-03-01".into();
    let note = found(&job, Severity::Note).expect("the pour is not known");
    assert!(note.says.write(&job).contains("not before 1 day after the pour"), "{}", note.says.write(&job));
    job.pieces[0].log = vec![poured, late];
    assert!(
        found(&job, Severity::Stop).expect("on the day of the pour").says.write(&job).contains("from 2027-03-02 on")
    );
    job.finish.seal_date = "2027-03-02".into();
    assert_eq!((found(&job, Severity::Stop), found(&job, Severity::Note)), (None, None));
    // A second piece of the same mix was poured with it; one of another mix leaves its age to be counted.
    let mut two = job.clone();
    two.pieces.push(two.pieces[0].clone());
    two.pieces[1].log.clear();
    assert_eq!((found(&two, Severity::Stop), found(&two, Severity::Note)), (None, None));
    let other = pourwright::job::Bag { id: "other".to_owned(), ..two.bags[0].clone() };
    two.pieces[1].bag.clone_from(&other.id);
    two.bags.push(other);
    assert!(found(&two, Severity::Note).expect("its pour is not known").says.write(&job).contains("not before 1 day"));
    job.bags[0].family = Family::PortlandConcrete;
    assert!(found(&job, Severity::Stop).expect("too young").says.write(&job).contains("from 2027-03-29 on"));
    for (thickness, days) in [("1 1/2", 16.0), ("3", 63.0), ("3/4", 7.0)] {
        job.pieces[0].thickness = thickness.into();
        let drying = estimate(&job, &PriceBook::default()).finishing.drying.expect("known");
        assert!((drying.age.value.get::<hour>() - 24.0 * days).abs() < 1e-6, "{thickness}: {:?}", drying.age.value);
    }
}

/// A slab of 1.33 ft³ at some 130 lb/ft³ is more than the 76 lb of three people: a cart, steadied by three, all of them
/// paid. A slab of a quarter of it takes one.
#[test]
fn everybody_who_sets_a_top_is_paid() {
    let mut job = slab("hands");
    let mut book = book(&job);
    book.margin = "0 %".into();
    let hours = |job: &Job, book: &PriceBook| {
        let work = estimate(job, book).pricing.work;
        let set = work.into_iter().find(|one| one.task == Task::Set).expect("a task");
        (set.by_pace.expect("usual").get::<hour>(), set.time.expect("known"))
    };
    let (pace, paid) = hours(&job, &book);
    assert!((pace - 3.0).abs() < 1e-9 && (paid.value.get::<hour>() - 9.0).abs() < 1e-9, "{pace}: {:?}", paid.value);
    let lines = paid.working.lines(Units::Inch);
    let line = lines.last().expect("a line");
    assert_eq!((line.numbers.as_str(), line.result.as_str()), ("3 h × 3 people", "9 h"));
    job.pieces[0].width = "12".into();
    assert!((hours(&job, &book).1.value.get::<hour>() - 3.0).abs() < 1e-9);
    // What is typed is by the clock as well.
    job.pieces[0].width = "48".into();
    let row = job.quote.hours.iter().position(|hours| hours.task == Task::Set).expect("a row");
    job.quote.hours[row].estimated = "2".into();
    assert!((hours(&job, &book).1.value.get::<hour>() - 6.0).abs() < 1e-9);
    // A reach as bad as this leaves nobody to lift the small one alone.
    job.pieces[0].width = "12".into();
    job.finish.reach = Reach::Stretched;
    assert!((hours(&job, &book).1.value.get::<hour>() - 6.0).abs() < 1e-9, "two people");
}

/// Caulk by hand: 48 + 24 in of wall, 1/8 in wide, 1/4 in deep. Dabs every 12 in, one at each end: 5 on each long
/// rail and 3 on each short one.
#[test]
fn setting_by_hand() {
    let all = estimate(&slab("set"), &PriceBook::default());
    let caulk = all.setting.caulk.expect("there are walls").expect("known");
    let volume = inches(72.0) * inches(1.0 / 8.0) * inches(1.0 / 4.0);
    assert!(((caulk.volume.value / volume).value - 1.0).abs() < 1e-9);
    let adhesive = all.setting.adhesive.expect("it is a top").expect("known");
    let dab = std::f64::consts::FRAC_PI_4 * inches(1.0) * inches(1.0) * inches(1.0 / 8.0);
    assert!(((adhesive.volume.value / dab).value - 16.0).abs() < 1e-9);
}

/// What was left at the walls of a measured opening is the gap that is caulked.
#[test]
fn the_gap_of_the_opening_is_caulked() {
    let mut job = slab("gap");
    let plain = estimate(&job, &PriceBook::default());
    job.finish.gap_width = "1/4".into();
    let wide = estimate(&job, &PriceBook::default());
    let volume = |all: &Estimate| all.setting.caulk.as_ref().unwrap().as_ref().unwrap().volume.value;
    assert!(((volume(&wide) / volume(&plain)).value - 2.0).abs() < 1e-9);
}

/// 8 ft² ground 1/16 in deep is 8 ÷ 192 ft³; the exposure alone grinds nothing.
#[test]
fn exposure_grinds_nothing_by_itself() {
    let mut job = slab("grind");
    job.finish.exposure = Some(Exposure::Medium);
    job.finish.sheen = Some(Sheen::Honed);
    let all = estimate(&job, &PriceBook::default());
    assert_eq!(all.finishing.removed, Ok(None));
    assert!(says(&all, Severity::Watch, "Medium aggregate is wanted"));
    let before = all.pieces[0].pour.as_ref().unwrap().net.value;

    job.pieces[0].grinding = "1/16".into();
    let all = estimate(&job, &PriceBook::default());
    let removed = all.finishing.removed.as_ref().unwrap().as_ref().expect("something is ground off");
    let foot = inches(12.0);
    assert!(((removed.volume.value / (foot * foot * foot)).value - 8.0 / 192.0).abs() < 1e-9);
    assert!(!says(&all, Severity::Watch, "Medium aggregate is wanted"));
    assert!(all.pieces[0].pour.as_ref().unwrap().net.value > before, "it is cast that much thicker");
    // Wheel, 50, 100, 200, 400: none is owned.
    assert_eq!(all.finishing.sequence.steps.len(), 5);
    assert!(says(&all, Severity::Watch, "Missing for a sequence without a gap: coarse wheel, 50 pad"));
}

/// Hours by tool: 8 ft² at 4 ft² an hour and at 8 ft² an hour are three hours. A 4 in pad rated 4500 ft/min may turn
/// 4500 ÷ (π ÷ 3) = 4297 rpm.
#[test]
fn pads_of_the_maker() {
    let mut job = slab("pads");
    job.finish.sheen = Some(Sheen::Satin);
    job.finish.exposure = Some(Exposure::Cream);
    let mut prices = book(&job);
    let pad = |grit: &str, pace: &str| OwnedPad {
        grit: grit.into(),
        pace: pace.into(),
        life: "80".into(),
        price: "30".into(),
        diameter: "4".into(),
        rated: "4500".into(),
    };
    prices.pads = vec![pad("400", "4"), pad("800", "8")];
    let all = estimate(&job, &prices);
    let needs = all.finishing.time.as_ref().expect_err("the 1500 pad has no pace").needs();
    assert!(crate::words(&needs[0]).contains("1500 pad"), "{needs:?}");

    prices.pads.push(pad("1500", "8 ft²"));
    let all = estimate(&job, &prices);
    let time = all.finishing.time.as_ref().expect("all have a pace");
    assert!((time.value.get::<hour>() - 4.0).abs() < 1e-9);
    let grind = all.pricing.work.iter().find(|one| one.task == Task::Grind).unwrap();
    assert_eq!(grind.time.as_ref().unwrap().value, time.value);
    let (_, speed) = &all.finishing.speeds[0];
    let turns = speed.value.get::<uom::si::frequency::cycle_per_minute>();
    assert!((turns - 4500.0 * 12.0 / (std::f64::consts::PI * 4.0)).abs() < 1e-6, "{turns}");
    // A tenth of each of three pads: 3 × $3.00.
    let sheet = all.pricing.sheet.as_ref().unwrap();
    let pads: Vec<_> = sheet.lines.iter().filter(|line| line.name.ends_with(" pad")).collect();
    assert_eq!(pads.len(), 3);
    assert!(pads.iter().all(|line| line.amount == money("3.00")), "{pads:?}");
}

/// The lift as chosen is NIOSH's equation; a lift from the floor, arms bent, by a poor grip takes more people.
#[test]
fn a_worse_lift_takes_more_people() {
    let mut job = slab("lift");
    // A third of it: about 60 lb.
    job.pieces[0].depth = "8".into();
    let good = estimate(&job, &PriceBook::default());
    let handling = good.pieces[0].carrying.handling.as_ref().unwrap();
    // 51 lb × (1 − 0.0075 × 4.5), all other factors one (NIOSH 94-110).
    assert!(((handling.limit.value / pounds(51.0)).value - (1.0 - 0.0075 * 4.5)).abs() < 1e-9);
    assert_eq!(handling.crew.value, Crew::Hands(2));
    job.finish.lift_from = LiftLevel::Floor;
    job.finish.reach = Reach::Bent;
    job.finish.grip = Grip::Poor;
    let bad = estimate(&job, &PriceBook::default());
    let worse = bad.pieces[0].carrying.handling.as_ref().unwrap();
    assert!(worse.limit.value < handling.limit.value);
    assert_eq!(worse.crew.value, Crew::Aid);
    assert!(says(&bad, Severity::Watch, "not one for hands"));
}

/// A slab of 24 in passes a doorway of 22 × 78 in on edge, and one of 20 × 23 in in no way.
#[test]
fn the_way_in() {
    let mut job = slab("way");
    *job.bags[0].entry_mut(BagField::Workable) = "1 h".into();
    assert!(estimate(&job, &PriceBook::default()).pieces[0].carrying.ways.is_empty());
    job.finish.door_width = "22".into();
    let all = estimate(&job, &PriceBook::default());
    assert!(all.pieces[0].carrying.ways[0].1.is_err(), "the height is not typed");
    job.finish.door_height = "78".into();
    let all = estimate(&job, &PriceBook::default());
    let (passage, ways) = &all.pieces[0].carrying.ways[0];
    let works: Vec<_> = ways.as_ref().unwrap().iter().map(|pass| pass.works()).collect();
    assert_eq!((*passage, works[..2].to_vec()), (Passage::Doorway, vec![false, true]));
    job.finish.door_width = "12".into();
    job.finish.door_height = "20".into();
    let all = estimate(&job, &PriceBook::default());
    assert!(says(&all, Severity::Stop, "It does not pass: doorway"));
    assert!(all.findings.iter().all(|one| one.severity != Severity::Stop || one.stage == Stage::Finish));
}

/// A crack of 10 × 1/16 × 1/2 in takes 0.3125 in³.
#[test]
fn filling_by_hand() {
    let mut job = slab("fill");
    job.finish.defects = vec![DefectEntry {
        kind: DefectKind::Crack,
        length: "10".into(),
        width: "1/16".into(),
        depth: "1/2".into(),
        ..DefectEntry::default()
    }];
    let all = estimate(&job, &PriceBook::default());
    let waits = all.finishing.filling.unwrap().expect_err("the pour's own water is not known");
    assert_eq!(waits.needs().len(), 1);
    job.finish.water_ratio = "40 %".into();
    let all = estimate(&job, &PriceBook::default());
    let filling = all.finishing.filling.unwrap().expect("known");
    let inch = inches(1.0);
    assert!(((filling.volume.value / (inch * inch * inch)).value - 0.3125).abs() < 1e-9);
    assert!(((filling.water.value / filling.cement.value).value - 0.4).abs() < 1e-9);
}

/// The price by hand, in the cents of the books: every line, then the sums.
#[test]
fn the_price_by_hand() {
    let mut job = slab("price");
    for hours in &mut job.quote.hours {
        hours.estimated = "1".into();
    }
    let mut prices = book(&job);
    prices.good_mut("sealer").charge = ChargeBy::Share;
    let all = estimate(&job, &prices);
    let sheet = all.pricing.sheet.as_ref().expect("bags and wage are priced");
    let line = |name: &str| sheet.lines.iter().find(|line| line.name == name).map(|line| line.amount);
    // 48 × 24 × 2 in is 1.333 ft³, with a tenth spare 1.467 ft³: three bags of 0.50 ft³.
    assert_eq!(sheet.lines[0].amount, money("60"));
    assert_eq!(line("Sheet of board"), Some(money("50")));
    // One length of liner, $200 for 20 uses.
    assert_eq!(line("Edge liner, length"), Some(money("10")));
    // 2 × 9 1/3 ft² at 300 ft² a gallon is 0.2489 qt of a quart for $60.
    assert_eq!(line("Sealer"), Some(money("14.93")));
    // Six tasks of one, and three people who carry and set it for an hour.
    assert_eq!(sheet.hours, money("9"));
    assert_eq!(sheet.wages, money("360"));
    let direct = money("60") + money("50") + money("10") + money("14.93") + money("360");
    assert_eq!(sheet.material + sheet.wages, direct);
    // 15 % overhead, 20 % of the price earned, 8 % tax.
    assert_eq!(sheet.overhead, money("74.24"));
    assert_eq!(sheet.cost, money("569.17"));
    assert_eq!(sheet.net, money("711.46"));
    assert_eq!(sheet.tax, money("56.92"));
    assert_eq!(sheet.price.value, money("768.38"));
    // What has no price is said, not left out in silence.
    assert!(all.pricing.unpriced.iter().any(|name| name == "Screws"));
    assert!(says(&all, Severity::Watch, "Not in the price"));
    // 8 ft² of face.
    assert_eq!(all.pricing.by_area.as_ref().unwrap().value, money("88.93"));
}

#[test]
fn no_price_without_the_bags_and_the_wage() {
    let job = slab("waits");
    let all = estimate(&job, &PriceBook::default());
    let says: Vec<_> = all.pricing.sheet.unwrap_err().needs().iter().map(|need| crate::words(need)).collect();
    assert!(
        says.iter().any(|says| says.contains("Price of")) && says.iter().any(|says| says.contains("Wage")),
        "{says:?}"
    );
}

/// Three finished jobs that took twice as long double the next estimate; two do not.
#[test]
fn hours_learn_from_finished_jobs() {
    let job = slab("learn");
    let mut prices = book(&job);
    let build = |prices: &PriceBook| {
        let all = estimate(&job, prices);
        all.pricing.work[1].time.as_ref().unwrap().value.get::<hour>()
    };
    let before = build(&prices);
    let log = |hours: f64| {
        let time = |count| pourwright::measure::Time::new::<hour>(count);
        [LoggedHours { task: Task::Build, estimated: time(hours), took: time(2.0 * hours) }]
    };
    for (index, id) in ["a", "b", "b", "c"].into_iter().enumerate() {
        prices.learn_from(id, &log(1.0 + index as f64));
        let factor = if id == "c" { 2.0 } else { 1.0 };
        assert!((build(&prices) - factor * before).abs() < 1e-9, "after {id}");
    }
}

/// Two jobs in the shop: bags are added up first and rounded once; what is re-used is bought once.
#[test]
fn one_trip_for_two_jobs() {
    let (one, mut two) = (slab("one"), slab("two"));
    two.pieces[0].width = "30".into();
    let mut prices = book(&one);
    prices.bag_mut(&one.bags[0].id).stock = "1".into();
    let buy_for = |job: &Job| BuyFor::new(job, job.name.text().to_owned(), estimate(job, &prices).pricing.needs);
    let jobs = [&one, &two].map(buy_for);
    let trip = Trip::of(&jobs, &prices, false).expect("a list");
    let row = |id: &str| trip.list.rows.iter().find(|row| row.item == id).unwrap_or_else(|| panic!("no {id}"));
    let bags = row(&format!("bag:{}", one.bags[0].id));
    // Three bags and 30 × 24 × 2 in with a tenth spare, 0.917 ft³, two bags; one is at hand.
    assert_eq!((bags.packs, bags.cost), (4, money("80")));
    assert_eq!(row("liner").packs, 1, "one after the other");
    let at_once = Trip::of(&jobs, &prices, true).expect("a list");
    assert_eq!(at_once.list.rows.iter().find(|row| row.item == "liner").map(|row| row.packs), Some(2));
    let cost: Decimal = trip.list.rows.iter().map(|row| row.cost).sum();
    assert_eq!(trip.list.cost, cost);
    let text = trip.text(std::slice::from_ref(&bags.item), Units::Inch);
    assert!(!text.contains(&bags.name) && text.contains("1 × Edge liner, length ($200.00;"), "{text}");
    assert!(text.contains("one ") && text.contains("two "), "who needs what: {text}");
    assert_eq!(trip.waiting, [], "all is known");
}

/// What another job waits for is said with its own names, however it is called beside them.
#[test]
fn a_trip_says_what_a_job_waits_for_in_its_own_words() {
    let mut job = slab("third");
    job.bags[0].name = "Grey mix".into();
    job.bags[0].yield_volume = "".into();
    let prices = book(&job);
    let jobs = [BuyFor::new(&job, "Third".to_owned(), estimate(&job, &prices).pricing.needs)];
    let trip = Trip::of(&jobs, &prices, false).expect("a list");
    let [(name, says)] = trip.waiting.as_slice() else { panic!("{:?}", trip.waiting) };
    assert_eq!(name, "Third");
    assert!(says.contains("Grey mix") && says.contains("Yield"), "{says}");
}

#[test]
fn a_quote_stays_as_it_was_sent() {
    let mut job = slab("Bar <top>");
    job.client = "Reed & Daughter".into();
    let prices = book(&job);
    let day = Date::new(2027, 2, 20).expect("a day");
    let all = estimate(&job, &prices);
    let mut thinner = job.clone();
    thinner.name = "Thinner".into();
    thinner.pieces[0].thickness = "1 1/2".into();
    let options = [(thinner.clone(), estimate(&thinner, &prices))];
    let frozen = freeze(&job, &all, &prices, &options, day).expect("everything is known");
    let price = all.pricing.sheet.as_ref().unwrap().price.value;
    assert_eq!(frozen.price, price.to_string());
    // 30 days from 20 February in a year with 28 of them.
    assert_eq!(frozen.valid_until, Date::new(2027, 3, 22).expect("a day"));
    let page = client_page(&frozen);
    for words in
        ["Bar &lt;top&gt;", "Reed &amp; Daughter", "48 in × 24 in", "Valid until", "Plumbing", "Thinner", "<svg"]
    {
        assert!(page.contains(words), "{words} in {page}");
    }
    assert!(!page.contains("Margin") && !page.contains("Overhead"), "a client sees no cost");
    let own = maker_page(&job, &all.pricing, &prices, day);
    assert!(own.contains("Margin") && own.contains("Overhead") && own.contains("Hours until it loses money"));

    job.quote.frozen = Some(frozen);
    assert_eq!(job.changed_since_sent(), Some(Vec::new()));
    job.notes = "Key under the mat".into();
    job.quote.hours[1].took = "9".into();
    assert_eq!(job.changed_since_sent(), Some(Vec::new()), "notes and hours change no offer");
    job.pieces[0].width = "50".into();
    assert_eq!(job.changed_since_sent(), Some(vec!["Width: 48 then, 50 now.".to_owned()]));
    assert_eq!(client_page(job.quote.frozen.as_ref().unwrap()), page, "the page is as it was sent");
}

#[test]
fn versions_side_by_side_mark_what_differs() {
    let job = demo("base");
    let mut other = job.clone();
    other.pieces[0].thickness = "1 1/2".into();
    let prices = book(&job);
    let (names, table) =
        side_by_side(&[(job.clone(), estimate(&job, &prices)), (other.clone(), estimate(&other, &prices))]);
    assert_eq!(names, ["Coffee counter", "Coffee counter"]);
    let differs = |label: &str| table.rows.iter().find(|row| row.label == label).map(|row| row.differs());
    assert_eq!(differs("Size"), Some(true));
    assert_eq!(differs("Heaviest lift"), Some(true));
    assert_eq!(differs("Finish"), Some(false));
    assert_eq!(differs("Edges"), Some(false));
    assert!(table.dearer[1].is_some_and(|dearer| dearer <= Decimal::ZERO));
}

/// A piece that is no top rests on no cabinet.
#[test]
fn only_a_top_loads_a_cabinet() {
    let mut job = slab("load");
    let load = estimate(&job, &PriceBook::default()).pieces[0].carrying.load.clone().unwrap().unwrap();
    // About 175 lb on 8 ft².
    let foot = inches(12.0);
    let pounds_a_foot = (load.area.value * foot * foot / pounds(1.0)).value;
    assert!((20.0..24.0).contains(&pounds_a_foot), "{pounds_a_foot} over {} in", in_inches(foot));
    job.pieces[0].kind = pourwright::job::PieceKind::Backsplash;
    assert_eq!(estimate(&job, &PriceBook::default()).pieces[0].carrying.load, None);
}

/// What the tap types for an exposure reads back as no less than it takes, in both systems.
#[test]
fn an_exposure_is_typed_deep_enough() {
    use pourwright::measure::read_length;
    let typed = |units| Exposure::ALL.map(|exposure| exposure.depth_text(units));
    assert_eq!(typed(Units::Inch), ["0", "1/32", "1/16", "1/8"]);
    // 0.794, 1.588 and 3.175 mm, by 25.4 mm an inch (NIST SP 811 B.8).
    assert_eq!(typed(Units::Metric), ["0", "0.8", "1.6", "3.2"]);
    for units in [Units::Inch, Units::Metric] {
        for exposure in Exposure::ALL {
            let depth = read_length(&exposure.depth_text(units), units).expect("as a maker types it");
            assert_eq!(Exposure::reached(depth), exposure);
        }
    }
}
