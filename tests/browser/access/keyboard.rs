//! By keyboard alone: everything is reached, in the order in which it is read, and it is seen where one is.

use super::{VERBS, open, the_map_is_there, unfold};
use crate::first_day::tape_a_top;
use crate::maker::Maker;
use crate::site::Site;
use serde_json::{Value, json};
use thirtyfour::prelude::*;

/// What can take the focus by Tab, in the order of the page, numbered in an attribute.
const NUMBER: &str = "let count = 0; for (const e of document.querySelectorAll('a[href], button, input, select, textarea, summary, [tabindex]')) { \
     e.removeAttribute('data-stop'); if (e.tabIndex >= 0 && !e.disabled && e.checkVisibility({ visibilityProperty: true })) e.setAttribute('data-stop', count++); } return count";

/// Where the focus is: its number, whether it can be seen, and whether something lies over it.
const WHERE: &str = "const e = document.activeElement; const s = getComputedStyle(e); const b = e.getBoundingClientRect(); \
     const x = Math.min(Math.max(b.left + b.width / 2, 1), innerWidth - 1), y = Math.min(Math.max(b.top + Math.min(b.height / 2, 20), 1), innerHeight - 1); \
     const over = document.elementFromPoint(x, y); const svg = e.closest('svg'); \
     const ring = (s.outlineStyle !== 'none' && parseFloat(s.outlineWidth) >= 2) || Boolean(svg && e.matches(':focus-visible')); \
     return { stop: e.getAttribute('data-stop'), ring, inside: b.bottom > 0 && b.top < innerHeight, \
     clear: !over || Boolean(svg) || e.contains(over) || over.contains(e) || Boolean(over.closest('label')?.contains(e)), over: over?.outerHTML.slice(0, 80), what: e.outerHTML.slice(0, 120) }";

async fn tab(maker: &Maker, back: bool) {
    let tab = Key::Tab.value().to_string();
    let chain = maker.driver.action_chain();
    let keys = if back { chain.key_down(Key::Shift).send_keys(tab).key_up(Key::Shift) } else { chain.send_keys(tab) };
    keys.perform().await.expect("keys");
}

/// Goes through a whole screen by Tab; gives what is wrong on the way.
async fn walk(maker: &Maker, place: &str) -> Vec<String> {
    let count = maker.ask(NUMBER).await.as_u64().expect("a number");
    maker.ask("scrollTo(0, 0); document.querySelector('.skip').focus()").await;
    // Out of the first stop and back into it: the ring is drawn for who came by a key.
    tab(maker, false).await;
    tab(maker, true).await;
    let mut wrong = Vec::new();
    let mut reached: Vec<u64> = Vec::new();
    let mut last = String::new();
    while (reached.len() as u64) < count {
        let at = maker.ask(WHERE).await;
        let Some(stop) = at["stop"].as_str().and_then(|stop| stop.parse::<u64>().ok()) else {
            wrong.push(format!("{place}: the focus is lost at {} behind {last}", at["what"]));
            break;
        };
        // A date has stops of the browser's own in it.
        if reached.last() == Some(&stop) && last.contains("type=\\\"") {
            tab(maker, false).await;
            continue;
        }
        let faults =
            [("ring", "no ring around it"), ("inside", "it is out of sight"), ("clear", "something lies over it")];
        for (fault, words) in faults {
            if at[fault] == json!(false) {
                wrong.push(format!("{place}: {words}: {} ({})", at["what"], at["over"]));
            }
        }
        if reached.contains(&stop) {
            break;
        }
        reached.push(stop);
        last = at["what"].to_string();
        tab(maker, false).await;
    }
    // Drawings come and go with the selection; all else is met in the order of the page, each once.
    if reached.windows(2).any(|pair| pair[1] <= pair[0]) {
        wrong.push(format!("{place}: out of order: {reached:?}"));
    }
    if (reached.len() as u64) < count {
        wrong.push(format!("{place}: {} of {count} are reached", reached.len()));
    }
    wrong
}

#[tokio::test]
async fn every_screen_is_walked_by_tab() {
    let site = Site::publish(&Site::dist()).await;
    let maker = open(&site, (1280, 800)).await;
    let mut wrong = walk(&maker, "the empty shelf").await;
    tape_a_top(&maker).await;
    for verb in VERBS {
        maker.turn_to(verb).await;
        maker.wait_for(&format!("main[data-screen='{verb}']")).await;
        unfold(&maker).await;
        if verb == "Build" {
            the_map_is_there(&maker).await;
        }
        wrong.extend(walk(&maker, verb).await);
    }
    maker.press("All jobs").await;
    maker.see("main", "Guest bath").await;
    wrong.extend(walk(&maker, "the shelf").await);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    maker.close().await;
}

/// On a phone with a keyboard the bars at the edges hide nothing that has the focus.
#[tokio::test]
async fn the_bars_of_a_phone_hide_no_focus() {
    let site = Site::publish(&Site::dist()).await;
    let maker = open(&site, crate::maker::PHONE).await;
    tape_a_top(&maker).await;
    let wrong = walk(&maker, "Measure").await;
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    maker.close().await;
}

/// A sheet takes the focus, keeps it while it is open, and gives it back.
#[tokio::test]
async fn a_sheet_keeps_the_focus_and_gives_it_back() {
    let site = Site::publish(&Site::dist()).await;
    let maker = open(&site, (1280, 800)).await;
    tape_a_top(&maker).await;
    for (id, words) in [("headline-weight", "Weight"), ("share", "Share this estimate")] {
        maker.ask(&format!("document.getElementById('{id}').focus()")).await;
        maker.driver.action_chain().send_keys(Key::Enter.value().to_string()).perform().await.expect("a key");
        maker.see("dialog", "Close").await;
        for _ in 0..12 {
            let inside = "const e = document.activeElement; return e === document.body || Boolean(e.closest('dialog'))";
            assert_eq!(maker.ask(inside).await, true, "{words}: what lies under the sheet has no focus");
            tab(&maker, false).await;
        }
        maker.driver.action_chain().send_keys(Key::Escape.value().to_string()).perform().await.expect("a key");
        let begun = std::time::Instant::now();
        while maker.ask("return document.querySelector('dialog').open").await == true {
            assert!(begun.elapsed().as_secs() < 10, "Escape closes the sheet");
        }
        assert_eq!(maker.ask("return document.activeElement.id").await, id, "{words}: the focus comes back");
    }
    maker.close().await;
}

/// What a screen reader is told of the four numbers: each by its name, and changes as they come.
#[tokio::test]
async fn the_headline_is_told() {
    let site = Site::publish(&Site::dist()).await;
    let maker = open(&site, crate::maker::PHONE).await;
    tape_a_top(&maker).await;
    let tree = maker.driver.cdp().send_raw("Accessibility.getFullAXTree", json!({})).await.expect("what is told");
    let nodes = tree["nodes"].as_array().expect("nodes");
    let text = |node: &Value, what: &str| node[what]["value"].as_str().unwrap_or_default().to_owned();
    for label in ["Bags", "Water", "Weight", "People"] {
        let told = nodes.iter().any(|node| {
            let name = text(node, "name");
            text(node, "role") == "button" && name.contains(label) && name.chars().any(|letter| letter.is_ascii_digit())
        });
        assert!(told, "a button that is called {label} with its number");
    }
    let live = "const e = document.querySelector('#headline-bags').closest('[aria-live]'); return e && e.getAttribute('aria-live')";
    assert_eq!(maker.ask(live).await, "polite");
    assert_eq!(
        maker
            .ask("return document.querySelector('#kept').role ?? document.querySelector('#kept').getAttribute('role')")
            .await,
        "status"
    );
    maker.close().await;
}
