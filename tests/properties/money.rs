//! What must hold for money, shopping and the rooms that feed them, whatever goes in.

use pourwright::carry::lift::{Choices, Grip, Level, Often, Reach, Turn, handling};
use pourwright::carry::way::{Corner, Doorway, Hold, Slab, Van, inside, round, through};
use pourwright::finish::{Exposure, Sheen, Tool, sequence};
use pourwright::job::Units;
use pourwright::measure::exact::{inches, pounds};
use pourwright::measure::{Length, Time};
use pourwright::price::book::{Amount, Book, Charge, Item, Use};
use pourwright::price::cost::{CostSheet, Margin, Sources, Terms};
use pourwright::price::hours::Task;
use pourwright::price::money::{minor_decimals, split};
use pourwright::price::quote::{Offer, Quote, break_even};
use pourwright::price::shopping::{Basket, JobNeeds, ShoppingList};
use proptest::prelude::*;
use proptest::sample::select;
use rust_decimal::Decimal;
use uom::si::time::hour;

fn currency() -> impl Strategy<Value = String> {
    select(vec!["USD", "EUR", "JPY", "KWD", "none"]).prop_map(str::to_owned)
}

fn price() -> impl Strategy<Value = Decimal> {
    (0i64..100_000_000).prop_map(|hundredths| Decimal::new(hundredths, 4))
}

fn share() -> impl Strategy<Value = Decimal> {
    (0i64..9_999).prop_map(|parts| Decimal::new(parts, 4))
}

fn amount() -> impl Strategy<Value = f64> {
    prop_oneof![8 => 0.0..500.0f64, 1 => Just(0.0), 1 => (1u32..50).prop_map(f64::from)]
}

/// Numbers that no maker types, too.
fn odd() -> impl Strategy<Value = f64> {
    prop_oneof![
        6 => 0.0..200.0f64,
        1 => select(vec![0.0, -1.0, f64::NAN, f64::INFINITY, 1e-300, 1e300, f64::MAX]),
    ]
}

const IDS: [&str; 4] = ["bag", "pad", "liner", "sealer"];

fn book() -> impl Strategy<Value = Book> {
    let charge = prop_oneof![Just(Charge::Whole), Just(Charge::Share), (1u32..20).prop_map(Charge::Uses)];
    let items = prop::collection::vec((price(), 0.01..100.0f64, charge), IDS.len());
    (currency(), items).prop_map(|(currency, items)| {
        let item = |(id, (price, pack, charge)): (&str, (Decimal, f64, Charge))| Item {
            id: id.to_owned(),
            name: id.to_owned(),
            pack: Amount::Count(pack),
            price,
            priced_on: None,
            charge,
        };
        Book { currency, items: IDS.into_iter().zip(items).map(item).collect() }
    })
}

fn uses() -> impl Strategy<Value = Vec<Use>> {
    let one = (select(IDS.to_vec()), amount())
        .prop_map(|(item, amount)| Use { item: item.to_owned(), amount: Amount::Count(amount) });
    prop::collection::vec(one, 0..6)
}

fn work() -> impl Strategy<Value = Vec<(Task, Time)>> {
    let one = (select(Task::ALL.to_vec()), 0.0..100.0f64).prop_map(|(task, time)| (task, Time::new::<hour>(time)));
    prop::collection::vec(one, 0..7)
}

fn terms() -> impl Strategy<Value = Terms> {
    let margin = prop_oneof![share().prop_map(Margin::OnCost), share().prop_map(Margin::OnPrice)];
    (price(), share(), margin, share()).prop_map(|(wage, overhead, margin, tax)| Terms {
        wage,
        overhead,
        margin,
        tax,
        sources: Sources::TYPED,
    })
}

fn whole_coins(amount: Decimal, currency: &str) -> bool {
    amount.normalize().scale() <= minor_decimals(currency)
}

proptest! {
    /// Every amount is in whole coins; every sum is that of its parts, to the coin; and nothing is earned or lost
    /// where the sheet says so.
    #[test]
    fn money_adds_up(book in book(), uses in uses(), work in work(), terms in terms(), deposit in share()) {
        let sheet = CostSheet::of(&uses, &work, &book, &terms).unwrap();
        let lines: Decimal = sheet.lines.iter().map(|line| line.amount).sum();
        prop_assert_eq!(lines, sheet.material + sheet.wages);
        prop_assert_eq!(sheet.lines.len(), uses.len() + work.len());
        prop_assert_eq!(sheet.cost, sheet.material + sheet.wages + sheet.overhead);
        prop_assert_eq!(sheet.net, sheet.cost + sheet.margin);
        prop_assert_eq!(sheet.price.value, sheet.net + sheet.tax);
        let sent = pourwright::measure::Date::new(2026, 5, 4).unwrap();
        let quote = Quote::of(&sheet, &Offer { sent, valid_days: 30, deposit, excluded: Vec::new() }).unwrap();
        prop_assert_eq!(quote.deposit + quote.balance, quote.net + quote.tax);
        let even = break_even(&sheet, &terms).unwrap().price.value;
        prop_assert!(even <= sheet.price.value);
        let named = [sheet.overhead, sheet.margin, sheet.tax, quote.deposit, quote.balance, even];
        for amount in sheet.lines.iter().map(|line| line.amount).chain(named) {
            prop_assert!(whole_coins(amount, &book.currency), "{} {}", amount, book.currency);
            prop_assert!(amount >= Decimal::ZERO);
        }
    }

    /// Parts add up to the whole, to the coin, and no part is under zero.
    #[test]
    fn parts_add_up(amount in price(), weights in prop::collection::vec(amount(), 1..9), currency in currency()) {
        let parts = split(amount, &weights, &currency, "parts").unwrap();
        prop_assert_eq!(parts.len(), weights.len());
        prop_assert!(parts.iter().all(|part| *part >= Decimal::ZERO && whole_coins(*part, &currency)));
        let whole = pourwright::price::money::rounded(amount, &currency);
        let expected = if weights.iter().sum::<f64>() > 0.0 { whole } else { Decimal::ZERO };
        prop_assert_eq!(parts.iter().sum::<Decimal>(), expected);
    }

    /// What is bought and what is on the shelf is enough for every job, and for all of them at once where they
    /// stand in their forms at once or use it up; and one pack less would not be. Together never takes more packs than apart.
    #[test]
    fn a_merged_list_is_enough(
        book in book(),
        jobs in prop::collection::vec(uses(), 1..4),
        stock in uses(),
        at_once in any::<bool>(),
    ) {
        let jobs: Vec<_> = jobs.into_iter().map(|uses| JobNeeds { job: "job".to_owned(), uses }).collect();
        let count = |amount: Amount| match amount { Amount::Count(count) => count, _ => f64::NAN };
        let of = |uses: &[Use], id: &str| -> f64 {
            uses.iter().filter(|one| one.item == id).map(|one| count(one.amount)).sum()
        };
        let list = ShoppingList::of(&Basket { jobs: jobs.clone(), stock: stock.clone(), at_once }, &book).unwrap();
        prop_assert_eq!(list.rows.iter().map(|row| row.cost).sum::<Decimal>(), list.cost);
        for item in &book.items {
            let needs: Vec<f64> = jobs.iter().map(|job| of(&job.uses, &item.id)).collect();
            let most = needs.iter().copied().fold(0.0, f64::max);
            let Some(row) = list.rows.iter().find(|row| row.item == item.id) else {
                prop_assert_eq!(most, 0.0);
                continue;
            };
            let (shelf, pack) = (of(&stock, &item.id), count(item.pack));
            let there = shelf + f64::from(row.packs) * pack;
            let shared = matches!(item.charge, Charge::Uses(_)) && !at_once;
            let needed = if shared { most } else { needs.iter().sum() };
            let dust = 1e-6;
            prop_assert!(there >= most - dust && there >= needed - dust, "{} of {}", there, needed);
            prop_assert!(row.packs == 0 || there - pack < needed + dust);
            prop_assert_eq!(row.shares(&book.currency).unwrap().iter().sum::<Decimal>(), row.cost);
        }
        let packs = |list: &ShoppingList| list.rows.iter().map(|row| row.packs).sum::<u32>();
        let apart: u32 = jobs.iter().map(|job| {
            let basket = Basket { jobs: vec![job.clone()], stock: Vec::new(), at_once };
            packs(&ShoppingList::of(&basket, &book).unwrap())
        }).sum();
        let bare = ShoppingList::of(&Basket { jobs, stock: Vec::new(), at_once }, &book).unwrap();
        prop_assert!(packs(&list) <= packs(&bare) && packs(&bare) <= apart);
        prop_assert_eq!(bare.text(Units::Inch).lines().count(), bare.rows.len() + 1);
    }

    /// From the first pad on, none is over twice as fine as the one before it, they get there, and what is missing
    /// is not owned.
    #[test]
    fn grits_leave_no_gap(
        owned in prop::collection::vec(prop_oneof![0u32..4000, select(vec![u32::MAX, 50, 400, 3000])], 0..12),
        exposure in select(Exposure::ALL.to_vec()),
        sheen in select(Sheen::ALL.to_vec()),
    ) {
        let tools: Vec<_> = owned.iter().map(|grit| Tool::Pad(*grit)).collect();
        let found = sequence(exposure, Some(sheen), &tools);
        let grit = |tool: Tool| match tool { Tool::Pad(grit) => Some(grit), Tool::Wheel => None };
        let grits: Vec<_> = found.steps.iter().filter_map(|step| grit(step.tool)).collect();
        prop_assert!(grits.windows(2).all(|pair| pair[0] < pair[1] && pair[1] <= 2 * pair[0]), "{:?}", grits);
        prop_assert!(grits.last().is_some_and(|last| *last >= sheen.grit()));
        let first = if exposure == Exposure::Cream { 400 } else { 50 };
        prop_assert!(grits[0] <= first);
        prop_assert!(found.missing().all(|tool| !tools.contains(&tool)));
        prop_assert!(found.steps.iter().all(|step| !step.owned || tools.contains(&step.tool)));
    }

    /// More weight never takes fewer people, and a team's index is within one exactly where it may lift.
    #[test]
    fn lifts_of_any_kind(
        weight in odd(), from in odd(), to in odd(), often in odd(),
        reach in select(Reach::ALL.to_vec()), turn in select(Turn::ALL.to_vec()), grip in select(Grip::ALL.to_vec()),
        units in select(vec![Units::Inch, Units::Metric]),
    ) {
        let level = |height| Level::Height(inches(height));
        let choices = Choices { from: level(from), to: level(to), reach, turn, often: Often::Times(often), grip };
        let found = handling(pounds(weight), &choices, units);
        let limit = found.limit.value;
        prop_assert!(limit.value >= 0.0 && limit <= pourwright::carry::limits::load_constant(units) * 1.000_001);
        let hands = |weight: f64| match handling(pounds(weight), &choices, units).crew.value {
            pourwright::carry::Crew::Hands(people) => people,
            pourwright::carry::Crew::Aid => 4,
        };
        prop_assert!(weight.is_nan() || hands(weight * 1.1) >= hands(weight) || weight < 0.0);
        if let Some(index) = found.index {
            prop_assert_eq!(index.value <= 1.000_001, hands(weight) < 4);
        }
    }

    /// A slab that passes still passes where there is more room, and a smaller one where it does.
    #[test]
    fn ways_in(length in odd(), width in odd(), thickness in odd(), a in odd(), b in odd(), height in odd(), more in 0.0..50.0f64) {
        let slab = |less: f64| Slab {
            length: inches(length - less), width: inches(width - less), thickness: inches(thickness - less),
        };
        let size = |size: f64, more: f64| -> Length { inches(size + more) };
        let ways = |more: f64, less: f64| {
            let slab = slab(less);
            let door = Doorway { width: size(a, more), height: size(height, more) };
            let corner = Corner { before: size(a, more), after: size(b, more), height: size(height, more) };
            let van = Van { length: size(a, more), width: size(b, more), height: size(height, more) };
            [through(&door, &slab), round(&corner, &slab), inside(&van, &slab)]
        };
        let less = (more / 50.0) * length.min(width).min(thickness) * 0.9;
        for (tight, wide) in [(ways(0.0, 0.0), ways(more, 0.0)), (ways(0.0, 0.0), ways(0.0, less))] {
            for (tight, wide) in tight.iter().flatten().zip(wide.iter().flatten()) {
                // Leaning and across count only beside straight: the best of both must not get worse.
                if tight.hold != Hold::Tilted && tight.works() {
                    prop_assert!(wide.works(), "{:?} {:?}", tight, wide);
                }
            }
        }
    }
}
