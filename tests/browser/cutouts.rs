//! Cutouts as a maker places them: on doors, from the other end, behind a bowl.

use crate::first_day::tape_a_top;
use crate::maker::{Maker, Phone};
use crate::site::Site;
use thirtyfour::Key;

/// Waits until a field holds that text.
async fn becomes(maker: &Maker, id: &str, text: &str) {
    let begun = std::time::Instant::now();
    let mut last = maker.written(id).await;
    while last != text && begun.elapsed().as_secs() < 10 {
        last = maker.written(id).await;
    }
    assert_eq!(last, text, "{id}");
}

/// Two bowls in a top of 67 in, doors at 16 3/4 in and 50 1/4 in: subtraction gives the rest.
#[tokio::test]
async fn two_bowls_on_two_doors_in_one_tap() {
    let site = Site::publish(&Site::dist()).await;
    let maker = Maker::open(&site.address(), Phone::default()).await;
    tape_a_top(&maker).await;
    maker.press("Cutout 1").await;

    // From the other end and the other edge it stays where it is.
    maker.press("Right end").await;
    becomes(&maker, "cutout-0-0-from-right", "49 1/2").await;
    maker.press("Back edge").await;
    becomes(&maker, "cutout-0-0-from-back", "9 5/8").await;
    let cutout = maker.wait_for("[data-part='cutout-0']").await;
    maker.ask("document.querySelector(\"[data-part='cutout-0']\").focus()").await;
    cutout.send_keys(Key::Right.value().to_string()).await.expect("an arrow key");
    becomes(&maker, "cutout-0-0-from-right", "49 3/8").await;
    becomes(&maker, "cutout-0-0-from-back", "9 5/8").await;

    for (door, center) in [(0, "16 3/4"), (1, "50 1/4")] {
        maker.press("+ Cabinet door").await;
        maker.write(&format!("door-0-{door}-from-left"), center).await;
    }
    maker.press("Centre the cutouts on the doors").await;
    maker.see("main", "Which door").await;
    maker.press("Left end").await;
    becomes(&maker, "cutout-0-0-from-left", "16 3/4").await;
    maker.press("Cutout 2").await;
    maker.press("Left end").await;
    becomes(&maker, "cutout-0-1-from-left", "50 1/4").await;

    // Faucet holes behind it: 9 5/8 + 13/2 + 1 in is 17 1/8 in behind the front.
    maker.press("+ Faucet holes").await;
    // What the map finds meanwhile may move a button away from under the finger: it is pressed again then.
    let behind = "return document.querySelector('#holes-0-0-behind') !== null";
    let begun = std::time::Instant::now();
    while maker.ask(behind).await != true {
        assert!(begun.elapsed().as_secs() < 60, "holes can be centred on a bowl");
        maker.press("Centred on a bowl").await;
        tokio::time::sleep(std::time::Duration::from_millis(200)).await;
    }
    maker.write("holes-0-0-behind", "1").await;
    maker.is_kept().await;
    maker.reload().await;
    maker.press("Cutout 2").await;
    maker.press("Rim shows").await;
    maker.write("cutout-0-1-reveal-width", "1/8").await;
    maker.press("From a template").await;
    maker.wait_for("#template-0-1-3-radius").await;
    maker.done().await;
}
