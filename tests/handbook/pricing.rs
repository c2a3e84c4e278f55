//! Money. Amounts are computed with Python's decimal module, outside this code: half to even, in hundredths.

use crate::evidence::{Check, Evidence, Mark, checks};
use crate::{EXACT, assert_close};
use pourwright::finish::Rate;
use pourwright::job::Units;
use pourwright::measure::exact::{inches, quarts};
use pourwright::measure::{Area, Date, Time};
use pourwright::price::book::{Amount, Book, Charge, Item, Use};
use pourwright::price::compare::{Version, compare};
use pourwright::price::cost::{CostSheet, Margin, Sources, Terms};
use pourwright::price::hours::{Habit, Learned, Logged, Task, hours, learn};
use pourwright::price::money::{Problem, decimal, minor_decimals, rounded, split};
use pourwright::price::quote::{Offer, Quote, break_even, by_area};
use pourwright::price::shopping::{Basket, JobNeeds, ShoppingList};
use pourwright::working::Source;
use rust_decimal::Decimal;
use uom::si::time::{hour, minute};

checks![halves_go_to_the_even_coin, the_cost_sheet];

const DECIMAL: Mark = Mark::Computed("Python 3.11, decimal, ROUND_HALF_EVEN");

fn money(text: &str) -> Decimal {
    text.parse().unwrap()
}

fn square_feet(count: f64) -> Area {
    count * inches(12.0) * inches(12.0)
}

fn ounces(count: f64) -> Amount {
    Amount::Volume(quarts(count / 32.0))
}

fn item(id: &str, pack: Amount, price: &str, charge: Charge) -> Item {
    let (id, name) = (id.to_owned(), id.to_uppercase());
    Item { id, name, pack, price: money(price), priced_on: Date::new(2026, 3, 1), charge }
}

fn book() -> Book {
    let items = vec![
        item("bag", Amount::Count(1.0), "23.47", Charge::Whole),
        item("pad", Amount::Area(square_feet(48.0)), "18.90", Charge::Share),
        item("sealer", ounces(32.0), "41.25", Charge::Share),
        item("liner", Amount::Length(inches(96.0)), "64.05", Charge::Uses(7)),
    ];
    Book { currency: "USD".to_owned(), items }
}

fn uses() -> Vec<Use> {
    let of = |item: &str, amount| Use { item: item.to_owned(), amount };
    vec![
        of("bag", Amount::Count(6.2)),
        of("pad", Amount::Area(square_feet(12.35))),
        of("sealer", ounces(15.5)),
        of("liner", Amount::Length(inches(103.0))),
    ]
}

fn work() -> [(Task, Time); 3] {
    [(Task::Build, 3.33), (Task::Pour, 2.75), (Task::Grind, 5.13)].map(|(task, time)| (task, Time::new::<hour>(time)))
}

fn terms(margin: Margin) -> Terms {
    let (wage, overhead, tax) = (money("38.50"), money("0.125"), money("0.0825"));
    Terms { wage, overhead, margin, tax, sources: Sources::TYPED }
}

/// Python decimal, ROUND_HALF_EVEN. ISO 4217: the yen has no smaller coin, the dinar of Kuwait a thousandth.
fn halves_go_to_the_even_coin(evidence: &mut Evidence) {
    let cases = [("0.125", "0.12"), ("0.135", "0.14"), ("2.675", "2.68"), ("-0.125", "-0.12"), ("1.005", "1.00")];
    let table = evidence.check(Check {
        label: "A1",
        title: "Rounding of money",
        source: "Half to even, in the smallest coin by ISO 4217",
        marks: &[Mark::Memory, DECIMAL],
        problem: "dollars in hundredths, yen in whole, dinars of Kuwait in thousandths",
        modelled: "price::money::rounded",
        ..Check::default()
    });
    for (amount, expected) in cases {
        table.same(format!("{amount} USD"), rounded(money(amount), "USD"), expected);
    }
    table.same("1234.5 JPY", rounded(money("1234.5"), "JPY"), "1234");
    table.same("1.2345 KWD", rounded(money("1.2345"), "KWD"), "1.234");
    assert_eq!([minor_decimals("EUR"), minor_decimals("ISK"), minor_decimals("none")], [2, 0, 2]);
}

/// 7 bags at 23.47, 12.35 of a pad's 48 ft², 15.5 of 32 fl oz, two liners of 7 uses; wages of 38.50 an hour;
/// 12.5 % overhead.
fn the_cost_sheet(evidence: &mut Evidence) {
    let sheet = CostSheet::of(&uses(), &work(), &book(), &terms(Margin::OnCost(money("0.30")))).unwrap();
    let table = evidence.check(Check {
        label: "A2",
        title: "A cost sheet",
        source: "Arithmetic in decimals, each line rounded where it ends",
        marks: &[DECIMAL],
        problem: "7 bags at 23.47, 12.35 of a pad's 48 ft² at 18.90, 15.5 of 32 fl oz at 41.25, two liners at 64.05 over 7 \
            uses; 3.33, 2.75 and 5.13 h at 38.50; 12.5 % of overhead",
        modelled: "price::cost::CostSheet::of",
        ..Check::default()
    });
    let lines = ["164.29", "4.86", "19.98", "18.30", "128.20", "105.88", "197.50"];
    assert_eq!(sheet.lines.len(), lines.len());
    let names = ["bags", "pad", "sealer", "liners", "build", "pour", "grind"];
    for ((line, expected), what) in sheet.lines.iter().zip(lines).zip(names) {
        table.same(format!("{what}, USD"), line.amount, expected);
    }
    for (what, found, expected) in [
        ("material, USD", sheet.material, "207.43"),
        ("wages, USD", sheet.wages, "431.58"),
        ("overhead, USD", sheet.overhead, "79.88"),
        ("cost, USD", sheet.cost, "718.89"),
    ] {
        table.same(what, found, expected);
    }
    table.same("hours", sheet.hours, "11.21");
    assert_eq!(sheet.lines[0].numbers, "7 packs × $23.47");
    assert_eq!(sheet.lines[3].numbers, "2 packs × $64.05 ÷ 7 uses");
}

/// 30 % on cost is not 30 % on the price; tax of 8.25 %, deposit of 45 %.
#[test]
fn margin_tax_and_quote() {
    let offer = Offer {
        sent: Date::new(2026, 11, 25).unwrap(),
        valid_days: 30,
        deposit: money("0.45"),
        excluded: vec!["Plumbing".to_owned()],
    };
    let share = money("0.30");
    let cases = [
        (
            Margin::OnCost(share),
            ["215.67", "934.56", "77.10", "1011.66", "455.25", "556.41"],
            ["778.20", "16.18", "104.30"],
        ),
        (
            Margin::OnPrice(share),
            ["308.10", "1026.99", "84.73", "1111.72", "500.27", "611.45"],
            ["778.20", "18.32", "114.62"],
        ),
    ];
    for (margin, expected, bears) in cases {
        let terms = terms(margin);
        let sheet = CostSheet::of(&uses(), &work(), &book(), &terms).unwrap();
        let quote = Quote::of(&sheet, &offer).unwrap();
        let found = [sheet.margin, quote.net, quote.tax, quote.price, quote.deposit, quote.balance];
        assert_eq!(found, expected.map(money), "{margin:?}");
        assert_eq!(quote.valid_until.to_string(), "2026-12-25");
        let even = break_even(&sheet, &terms).unwrap();
        let foot = by_area(sheet.net, square_feet(8.96), "USD", Units::Inch).unwrap().value;
        assert_eq!([even.price.value, even.hours.unwrap().value, foot], bears.map(money), "{margin:?}");
        assert_eq!(sheet.price.working.lines(pourwright::measure::Units::Inch).last().unwrap().numbers, {
            let write = |amount| pourwright::measure::write_money(amount, "USD");
            format!("{} + {}", write(quote.net), write(quote.tax))
        });
    }
}

/// A quote stands from the day it is sent to its last day.
#[test]
fn a_quote_runs_out() {
    let sheet = CostSheet::of(&uses(), &work(), &book(), &terms(Margin::OnCost(money("0.30")))).unwrap();
    let sent = Date::new(2028, 2, 15).unwrap();
    let offer = Offer { sent, valid_days: 14, deposit: Decimal::ZERO, excluded: Vec::new() };
    let quote = Quote::of(&sheet, &offer).unwrap();
    assert_eq!(quote.valid_until, Date::new(2028, 2, 29).unwrap());
    let on = |days| quote.is_valid(sent.plus_days(days).unwrap());
    assert_eq!([on(-1), on(0), on(14), on(15)], [false, true, true, false]);
    assert_eq!(quote.balance, quote.price);
    let too_late = Offer { valid_days: u32::MAX, ..offer.clone() };
    assert_eq!(Quote::of(&sheet, &too_late), Err(Problem::TooLarge("Valid for".to_owned())));
    let too_much = Offer { deposit: money("1.01"), ..offer };
    assert!(Quote::of(&sheet, &too_much).is_err());
}

/// At the hours of break-even nothing is left, and a little more than a hundredth of an hour on loses money.
#[test]
fn break_even_is_where_nothing_is_earned() {
    let terms = terms(Margin::OnCost(money("0.30")));
    let sheet = CostSheet::of(&uses(), &work(), &book(), &terms).unwrap();
    let even = break_even(&sheet, &terms).unwrap().hours.unwrap().value;
    let cost_at = |hours: Decimal| {
        let more = Time::new::<hour>((hours - sheet.hours).to_string().parse().unwrap());
        let longer = [work().as_slice(), &[(Task::Set, more)]].concat();
        CostSheet::of(&uses(), &longer, &book(), &terms).unwrap().cost
    };
    assert!(cost_at(even) <= sheet.net);
    assert!(cost_at(even + money("0.02")) > sheet.net);
}

/// Everything that is wrong is said, and nothing is guessed.
#[test]
fn what_is_wrong_with_a_price() {
    let (wage, margin) = (money("-1"), Margin::OnPrice(Decimal::ONE));
    let all_wrong = Terms { wage, overhead: money("0.1"), tax: Decimal::ZERO, ..terms(margin) };
    let none = Use { item: "gone".to_owned(), amount: Amount::Count(1.0) };
    let other = Use { item: "pad".to_owned(), amount: Amount::Count(1.0) };
    let odd = [(Task::Pour, Time::new::<hour>(f64::NAN))];
    let wrong = CostSheet::of(&[none, other], &odd, &book(), &all_wrong).unwrap_err();
    assert_eq!(
        wrong,
        [
            Problem::NoNumber("Wage".to_owned()),
            Problem::MarginTooLarge,
            Problem::NoItem("gone".to_owned()),
            Problem::OtherKind("PAD".to_owned()),
            Problem::NoNumber("Mix and pour".to_owned()),
        ]
    );
    let huge = item("bag", Amount::Count(1.0), "79228162514264337593543950335", Charge::Whole);
    assert_eq!(huge.charged(Amount::Count(2.0), "USD"), Err(Problem::TooLarge("BAG".to_owned())));
    assert_eq!(huge.charged(Amount::Count(1e300), "USD"), Err(Problem::TooLarge("BAG".to_owned())));
    let unused = item("ply", Amount::Count(1.0), "10", Charge::Uses(0));
    assert_eq!(unused.charged(Amount::Count(1.0), "USD"), Err(Problem::NoUses("PLY".to_owned())));
    let empty = item("ply", Amount::Count(0.0), "10", Charge::Whole);
    assert_eq!(empty.charged(Amount::Count(1.0), "USD"), Err(Problem::EmptyPack("PLY".to_owned())));
    assert!(decimal(f64::INFINITY, "x").is_err() && decimal(-0.1, "x").is_err());
    assert!(by_area(money("100"), Area::default(), "USD", Units::Inch).is_err());
}

/// Five packs to float noise are five, not six.
#[test]
fn whole_packs() {
    let pack = item("tape", Amount::Length(inches(0.1)), "1", Charge::Whole);
    let need = |count: f64| pack.packs(Amount::Length(inches(count)));
    assert_eq!(need(0.1 + 0.2 + 0.2), Ok(5));
    assert_eq!(need(0.501), Ok(6));
    assert_eq!(need(0.0), Ok(0));
}

/// The median of took over estimated; one job that ran on over night does not move it. By hand.
#[test]
fn hours_learn_from_finished_jobs() {
    let job = |took: f64| Logged {
        task: Task::Grind,
        estimated: Time::new::<hour>(4.0),
        took: Time::new::<hour>(4.0 * took),
    };
    let log = |took: &[f64]| took.iter().copied().map(job).collect::<Vec<_>>();
    let learned = |took: &[f64]| learn(Task::Grind, &log(took));
    assert_eq!(learned(&[1.3, 1.2]), Learned { ratio: 1.0, jobs: 2 });
    assert_close(learned(&[1.3, 1.1, 1.2]).ratio, 1.2, EXACT);
    assert_close(learned(&[1.3, 1.1, 100.0, 1.2, 1.25]).ratio, 1.25, EXACT);
    // Twice as long and half as long cancel out.
    assert_close(learned(&[0.1, 2.0, 0.5, 9.0]).ratio, 1.0, EXACT);
    // Nothing is learned of another task, of no estimate, or of no number.
    assert_eq!(learn(Task::Pour, &log(&[1.3, 1.1, 1.2])), Learned::NOTHING);
    assert_eq!(learned(&[1.3, f64::NAN, 0.0, -1.0, f64::INFINITY]).jobs, 1);
    // The newest nine teach.
    let mut long = vec![5.0; 20];
    long.extend([0.8; 9]);
    assert_eq!(learned(&long).jobs, 9);
    assert_close(learned(&long).ratio, 0.8, EXACT);
}

/// Half an hour, and 20 min for 2 ft²; 9 ft² are 2 h, a quarter more by what was learned 2 h 30 min.
#[test]
fn hours_of_a_task() {
    let rate = Rate { area: square_feet(2.0), time: Time::new::<minute>(20.0) };
    let habit =
        Habit { task: Task::Grind, fixed: Time::new::<minute>(30.0), by_area: Some(rate), source: Source::Typed };
    let face = square_feet(9.0);
    let takes = |learned| hours(&habit, face, learned).unwrap().value.get::<hour>();
    assert_close(takes(Learned::NOTHING), 2.0, EXACT);
    assert_close(takes(Learned { ratio: 1.25, jobs: 5 }), 2.5, EXACT);
    assert!(hours(&habit, Area::default(), Learned::NOTHING).is_none());
    assert!(hours(&Habit { fixed: Time::new::<minute>(-1.0), ..habit }, face, Learned::NOTHING).is_none());
}

fn needs(job: &str, uses: &[(&str, Amount)]) -> JobNeeds {
    let uses = uses.iter().map(|(item, amount)| Use { item: (*item).to_owned(), amount: *amount }).collect();
    JobNeeds { job: job.to_owned(), uses }
}

/// 2.4 and 2.3 bags are 3 + 3 apart and 5 together; less 1.5 on the shelf 4. A liner is bought once for two jobs
/// one after the other.
#[test]
fn a_list_of_two_jobs() {
    let liner = |count| ("liner", Amount::Length(inches(count)));
    let jobs = vec![
        needs("Bath", &[("bag", Amount::Count(2.4)), liner(80.0)]),
        needs("Bar", &[("bag", Amount::Count(1.3)), ("bag", Amount::Count(1.0)), liner(90.0), ("sealer", ounces(8.0))]),
    ];
    let stock = vec![
        Use { item: "bag".to_owned(), amount: Amount::Count(1.5) },
        Use { item: "sealer".to_owned(), amount: ounces(12.0) },
    ];
    let bare = Basket { jobs: jobs.clone(), stock: Vec::new(), at_once: false };
    let packs = |basket: &Basket| {
        let list = ShoppingList::of(basket, &book()).unwrap();
        list.rows.iter().map(|row| row.packs).collect::<Vec<_>>()
    };
    assert_eq!(packs(&bare), [5, 1, 1]);
    assert_eq!(packs(&Basket { at_once: true, ..bare }), [5, 1, 2]);
    let list = ShoppingList::of(&Basket { jobs, stock, at_once: false }, &book()).unwrap();
    assert_eq!(list.cost, money("157.93"));
    assert_eq!(
        list.text(Units::Inch),
        "4 × BAG, $93.88 (need 4.7; in stock 1.5; Bath 2.4, Bar 2.3)\n\
         Enough SEALER in stock (need 1 cup; in stock 1 1/2 cups; Bar 1 cup)\n\
         1 pack of 8 ft of LINER, $64.05 (need 7 ft 6 in; Bath 6 ft 8 in, Bar 7 ft 6 in)\n\
         All of it: $157.93\n"
    );
    let shares = list.rows[0].shares("USD").unwrap();
    assert_eq!(shares, ["47.94", "45.94"].map(money));
    let lost = Basket { jobs: vec![needs("Bath", &[("gone", Amount::Count(1.0))])], stock: Vec::new(), at_once: false };
    assert_eq!(ShoppingList::of(&lost, &book()), Err(vec![Problem::NoItem("gone".to_owned())]));
}

/// 100 in three equal parts: 33.33, 33.34, 33.33, each rounded where it ends.
#[test]
fn parts_add_up() {
    let parts = split(money("100"), &[1.0; 3], "USD", "parts").unwrap();
    assert_eq!(parts, ["33.33", "33.34", "33.33"].map(money));
    assert_eq!(split(money("100"), &[0.0; 2], "USD", "parts").unwrap(), [Decimal::ZERO; 2]);
    assert!(split(money("100"), &[1.0, f64::NAN], "USD", "parts").is_err());
}

/// What differs from the first version is marked, and what one does not say differs as well.
#[test]
fn versions_side_by_side() {
    let version = |name: &str, price: Option<&str>, facts: &[(&str, &str)]| Version {
        name: name.to_owned(),
        price: price.map(money),
        facts: facts.iter().map(|(label, text)| ((*label).to_owned(), (*text).to_owned())).collect(),
    };
    let found = compare(&[
        version("2 in", Some("1000.10"), &[("Thickness", "2 in"), ("Liner", "rough")]),
        version("1 1/2 in", Some("900.05"), &[("Thickness", "1 1/2 in"), ("Liner", "rough")]),
        version("plain", None, &[("Thickness", "2 in"), ("Steel", "lath")]),
    ]);
    let marked: Vec<Vec<bool>> =
        found.rows.iter().map(|row| row.cells.iter().map(|cell| cell.differs).collect()).collect();
    assert_eq!(found.rows.iter().map(|row| row.label.as_str()).collect::<Vec<_>>(), ["Thickness", "Liner", "Steel"]);
    assert_eq!(marked, [[false, true, false], [false, false, true], [false, false, true]]);
    assert_eq!(found.dearer, [Some(money("0.00")), Some(money("-100.05")), None]);
    assert!(compare(&[]).rows.is_empty());
}

/// A base that is larger than every sheet is on none: how many sheets it takes, and the price, are not known, and it
/// is said which part it is.
#[test]
fn sheets_are_not_counted_without_a_part() {
    let mut job = crate::job_of("84", "60", "2");
    (job.form.sheets[0].width, job.form.sheets[0].length) = ("49".into(), "97".into());
    let all = crate::worked_out(&job);
    let cutting = all.cutting.as_ref().expect("a layout");
    let waiting = cutting.for_all().expect_err("the base is on no sheet");
    let says = format!("{waiting:?}");
    assert!(says.contains("Part B1 "), "{says}");
    (job.form.sheets[0].width, job.form.sheets[0].length) = ("73".into(), "121".into());
    let all = crate::worked_out(&job);
    assert_eq!(all.cutting.as_ref().expect("a layout").for_all().expect("all on sheets").value, 1);
}
