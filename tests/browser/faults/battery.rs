//! The battery dies: every process of the browser is killed at once, as by a phone that goes dark, while letters are
//! typed or a pour is ticked off. A browser puts local storage on disk seconds later; the journal has it.

use super::cases;
use crate::maker::{Maker, Phone};
use crate::site::Site;
use std::time::{Duration, Instant};
use thirtyfour::Key;

/// What may be lost at most.
const MAY_BE_LOST: Duration = Duration::from_secs(1);

/// The same dice for the same seed (mulberry32, in the public domain).
struct Dice(u32);

impl Dice {
    fn below(&mut self, most: u64) -> u64 {
        self.0 = self.0.wrapping_add(0x6d2b_79f5);
        let mut mixed = (self.0 ^ (self.0 >> 15)).wrapping_mul(1 | self.0);
        mixed = mixed.wrapping_add((mixed ^ (mixed >> 7)).wrapping_mul(61 | mixed)) ^ mixed;
        (u64::from(mixed ^ (mixed >> 14)) * most) >> 32
    }
}

/// What stood there from when on.
struct Seen<T>(Vec<(Instant, T)>);

impl<T: PartialEq + std::fmt::Debug> Seen<T> {
    /// How long before the kill what was found had been overtaken: what is lost.
    fn lost(&self, found: &T, killed: Instant) -> Duration {
        let at = self.0.iter().rposition(|(_, state)| state == found);
        let at = at.unwrap_or_else(|| panic!("{found:?} never stood there: {:?}", self.0.last()));
        self.0.get(at + 1).map_or(Duration::ZERO, |(overtaken, _)| killed.saturating_duration_since(*overtaken))
    }
}

/// How long a life lasts: most are short, one in ten is a quarter of a minute long.
fn life(dice: &mut Dice) -> Duration {
    Duration::from_millis(if dice.below(10) == 0 { 15_000 } else { 300 + dice.below(4000) })
}

async fn open_again(maker: &Maker, id: &str, verb: &str) {
    maker.driver.goto(format!("{}#/job/{id}/{verb}", maker.home())).await.expect("the address opens");
    maker.stands().await;
    // By then the journal was read.
    maker.see("#kept", "Saved").await;
}

/// Types, and is killed; gives what was lost.
async fn typing_is_killed(maker: &mut Maker, dice: &mut Dice, id: &str) -> Duration {
    let mut text = maker.written("job-notes").await;
    let mut seen = Seen(vec![(Instant::now(), text.clone())]);
    let field = maker.wait_for("#job-notes").await;
    maker.tap(&field).await;
    // A finger puts the caret where it comes down.
    field.send_keys(Key::Control + Key::End).await.expect("the caret goes to the end");
    let ends = Instant::now() + life(dice);
    while Instant::now() < ends {
        let letter = char::from(b'a' + dice.below(26) as u8);
        field.send_keys(letter.to_string()).await.expect("the field takes a letter");
        text.push(letter);
        seen.0.push((Instant::now(), text.clone()));
        tokio::time::sleep(Duration::from_millis(dice.below(120))).await;
    }
    let killed = maker.kill_the_browser();
    maker.start_the_browser().await;
    open_again(maker, id, "measure").await;
    seen.lost(&maker.written("job-notes").await, killed)
}

/// Ticks off the steps of a pour, and is killed; gives what was lost.
async fn a_pour_is_killed(maker: &mut Maker, dice: &mut Dice, id: &str) -> Duration {
    // What is told of the log: the lines of its list.
    let lines = "return document.querySelectorAll('.log ol li').length";
    maker.press("Start the pour").await;
    let mut seen = Seen(vec![(Instant::now(), maker.ask(lines).await)]);
    for _ in 0..2 + dice.below(4) {
        // A finger that bounces is not heard.
        tokio::time::sleep(Duration::from_millis(450 + dice.below(900))).await;
        let button = maker.wait_for(".clock .done").await;
        maker.tap(&button).await;
        seen.0.push((Instant::now(), maker.ask(lines).await));
    }
    tokio::time::sleep(Duration::from_millis(dice.below(1500))).await;
    let killed = maker.kill_the_browser();
    maker.start_the_browser().await;
    open_again(maker, id, "pour").await;
    // The clock lies over the card from which it was started.
    let stands = "return document.querySelector(\"[aria-label='The pour']\") !== null";
    let begun = Instant::now();
    while maker.ask(stands).await != true {
        assert!(begun.elapsed() < MAY_BE_LOST * 30, "the screen does not open");
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
    let found = maker.ask(lines).await;
    // The next one begins anew.
    let leave = "document.querySelector('.log .danger')?.click(); document.querySelector('.clock header button')?.click(); \
                 return document.querySelector('.clock, .log') === null";
    let begun = Instant::now();
    while maker.ask(leave).await != true {
        assert!(begun.elapsed() < MAY_BE_LOST * 30, "the clock cannot be left");
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
    seen.lost(&found, killed)
}

#[tokio::test]
async fn a_battery_that_dies_costs_a_second_at_most() {
    let site = Site::publish(&Site::dist()).await;
    let mut maker = Maker::open(&site.address(), Phone::default()).await;
    maker.press("New job").await;
    maker.write("job-name", "Shelf over the stove").await;
    for (field, text) in [("width", "40"), ("depth", "22"), ("thickness", "2")] {
        maker.write(&format!("piece-0-{field}"), text).await;
    }
    maker.is_kept().await;
    let address = maker.ask("return location.hash").await;
    let id = address.as_str().and_then(|hash| hash.split('/').nth(2)).expect("an address").to_owned();
    let mut dice = Dice(20_261_127);
    let mut lost = Vec::new();
    let count = cases(20, 200);
    for round in 0..count {
        let cost = if round % 5 == 4 {
            maker.turn_to("Pour").await;
            let cost = a_pour_is_killed(&mut maker, &mut dice, &id).await;
            maker.turn_to("Measure").await;
            cost
        } else {
            typing_is_killed(&mut maker, &mut dice, &id).await
        };
        assert!(cost <= MAY_BE_LOST, "round {round}: {cost:?} of work is gone");
        lost.push(cost);
    }
    lost.sort();
    let some = lost.iter().filter(|cost| !cost.is_zero()).count();
    let [median, worst] = [lost.len() / 2, lost.len() - 1].map(|at| lost[at].as_secs_f64());
    println!("{count} kills, {some} of them cost something: {median:.2} s at the median, {worst:.2} s at the worst");
    maker.close().await;
}
