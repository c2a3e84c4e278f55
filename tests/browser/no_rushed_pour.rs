//! A pour that cannot be placed in time is told as that, of all that is poured at one go, before anything is typed of
//! the day.

use crate::maker::{Maker, Phone};
use crate::site::Site;

/// The screen of pour day, with what is poured together.
const DAY: &str = "[aria-label='Pour day']";

/// Two tops of 40 by 22 by 1 1/2 in, 0.76 ft³ each, with a tenth spare 1.68 ft³: four bags of 0.50 ft³ at one go. One
/// person with one bucket takes 4 min to mix each, half a minute to dump and one to place it: 22 min, and each
/// top takes 4 to screed. They stay workable for 15.
#[tokio::test]
async fn no_rushed_pour() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    maker.press("New job").await;
    for piece in 0..2 {
        if piece > 0 {
            maker.press("+ Piece").await;
        }
        for (field, text) in [("width", "40"), ("depth", "22"), ("thickness", "1 1/2")] {
            maker.write(&format!("piece-{piece}-{field}"), text).await;
        }
    }
    assert_eq!(maker.number("bags").await, "4");

    // Nothing is typed of the day. The tab of the pour says so from any screen.
    maker.see(".verbs li:nth-child(3) .flag.stop", "1").await;
    maker.turn_to("Pour").await;
    maker.see(DAY, "2 pieces").await;
    maker.see(DAY, "It does not fit.").await;
    let stop = "[aria-label='What to know'] .finding.stop";
    maker.see(stop, "at one go: Mixing, placing and screeding takes 30 min, but the mix stays workable 15 min.").await;
    maker.see(stop, "Any one of these makes it fit: one piece after the other;").await;
    // Either piece says the same of the one pouring.
    let first = maker.wait_for("[aria-label='Pieces'] button:first-child").await;
    maker.tap(&first).await;
    maker.see(DAY, "It does not fit.").await;

    // The one change that is named first makes it fit: two batches of 5 1/2 min and 4 to screed are the 15 min to the
    // minute, which is said; a second person leaves room.
    maker.press("One piece after the other").await;
    maker.see(DAY, "It only just fits: 0 min to spare.").await;
    assert_eq!(maker.number("bags").await, "4", "and nothing else is changed");
    let flag = "return document.querySelector('.verbs li:nth-child(3) .flag.stop')";
    assert_eq!(maker.ask(flag).await, serde_json::Value::Null);
    maker.see(".verbs li:nth-child(3) .flag", "1").await;
    maker.press("1 more person, with a mixer").await;
    maker.see(DAY, "It fits.").await;
    assert_eq!(maker.written("pour-people").await, "2");
    maker.done().await;
}
