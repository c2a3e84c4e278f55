//! What must hold for a quote, whatever becomes of its job.

use crate::{any_job, entry, good_job, prices};
use pourwright::estimate::estimate;
use pourwright::job::{Entry, file};
use pourwright::measure::{Date, Units};
use pourwright::mix::catalogue;
use pourwright::price::PriceBook;
use pourwright::print::{client_page, freeze};
use proptest::prelude::*;
use rust_decimal::Decimal;

/// Prices of everything that a good job cannot do without.
fn known() -> impl Strategy<Value = PriceBook> {
    (1u32..5000, 1u32..20_000, 0u32..99).prop_map(|(wage, bag, margin)| {
        let mut book = PriceBook { wage: Entry(format!("{wage}.5")), ..PriceBook::default() };
        book.margin = Entry(format!("{margin} %"));
        let price = Entry(format!("{}.{:02}", bag / 100, bag % 100));
        for mix in [Units::Inch, Units::Metric].into_iter().flat_map(catalogue) {
            book.bag_mut(&mix.id).price.clone_from(&price);
        }
        book.good_mut("cement").price = price;
        book
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn a_frozen_quote_never_changes_with_its_job(
        mut job in good_job(),
        prices in known(),
        edits in prop::collection::vec((any::<prop::sample::Index>(), entry()), 0..6),
        days in 0..20_000,
    ) {
        let day = Date::from_days(days).expect("a day of the calendar");
        let frozen = freeze(&job, &estimate(&job, &prices), &prices, &[], day);
        let frozen = frozen.unwrap_or_else(|waiting| panic!("{waiting:?}"));
        let page = client_page(&frozen);
        let price: Decimal = frozen.price.parse().expect("a plain decimal");
        prop_assert_eq!(price.to_string(), frozen.price.clone());
        job.quote.frozen = Some(frozen.clone());
        prop_assert_eq!(job.changed_since_sent(), Some(Vec::new()));
        let then = job.clone();
        for (index, typed) in edits {
            let places = job.places();
            *job.entry_at_mut(places[index.index(places.len())]).expect("a place of the job") = typed;
        }
        prop_assert_eq!(job.quote.frozen.as_ref(), Some(&frozen));
        prop_assert_eq!(&client_page(job.quote.frozen.as_ref().expect("there")), &page);
        // The way over a file changes nothing of it, and a change is said.
        let again = file::read(&file::write(&job)).expect("our own file");
        prop_assert_eq!(again.quote.frozen.as_ref(), Some(&frozen));
        prop_assert_eq!(&client_page(again.quote.frozen.as_ref().expect("there")), &page);
        let said = job.changed_since_sent().expect("something was sent");
        prop_assert_eq!(said.is_empty(), job.as_offered() == then.as_offered());
    }

    #[test]
    fn what_cannot_be_priced_is_not_frozen(job in any_job(), prices in prices()) {
        let all = estimate(&job, &prices);
        let day = Date::from_days(20_000).expect("a day of the calendar");
        if let Ok(frozen) = freeze(&job, &all, &prices, &[], day) {
            let sheet = all.pricing.sheet.expect("a price is frozen only where there is one");
            prop_assert_eq!(frozen.price, sheet.price.value.to_string());
            prop_assert!(frozen.sent <= frozen.valid_until);
        }
    }
}
