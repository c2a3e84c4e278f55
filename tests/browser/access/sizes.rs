//! Large fingers, large type, no motion, forced colours.

use super::{VERBS, open, unfold};
use crate::first_day::tape_a_top;
use crate::maker::{Maker, PHONE};
use crate::site::Site;
use serde_json::json;

/// WCAG 2.2, success criterion 2.5.5: 44 by 44 CSS pixels. A tick counts with its label; what stands in a drawing
/// can also be chosen from the lists beside it; a word in a sentence is as wide as it is, which the criterion allows.
const SMALL: &str = "return [...document.querySelectorAll('button, input, select, textarea, summary, a')]\
     .filter(e => e.checkVisibility({ visibilityProperty: true }) && !e.closest('svg, .skip, .out-of-sight, .term'))\
     .map(e => (e.matches('[type=checkbox], [type=radio]') && e.labels[0]) || e)\
     .map(e => [e.getBoundingClientRect(), e]).filter(([box]) => box.width < 43.9 || box.height < 43.9)\
     .map(([box, e]) => Math.round(box.width) + ' x ' + Math.round(box.height) + ': ' + e.outerHTML.slice(0, 110))";

async fn list(maker: &Maker, script: &str) -> Vec<String> {
    let found = maker.ask(script).await;
    found.as_array().expect("a list").iter().map(|line| line.as_str().expect("a line").to_owned()).collect()
}

/// What is too small for a thumb.
pub async fn small(maker: &Maker) -> Vec<String> {
    list(maker, SMALL).await
}

/// The size of type that the maker has set in the browser, in CSS pixels.
async fn type_of(maker: &Maker, size: u32) {
    let sizes = json!({ "fontSizes": { "standard": size, "fixed": size } });
    maker.driver.cdp().send_raw("Page.setFontSizes", sizes).await.expect("a size of type");
}

/// What runs out of the side, out of its box or over another at a large type.
const CUT_OFF: &str = "const wide = document.documentElement.scrollWidth > innerWidth + 1 ? ['the page is ' + \
     document.documentElement.scrollWidth + ' wide of ' + innerWidth] : []; \
     const cut = [...document.querySelectorAll('button, a, label, .value, .label, h1, h2, h3, p, legend, summary, input, select')]\
     .filter(e => e.checkVisibility({ visibilityProperty: true }) && !e.closest('svg, .skip, .out-of-sight, .table-holder, .parts'))\
     .filter(e => !e.matches('.bar h1') && (e.getBoundingClientRect().right > innerWidth + 1 || \
       (!e.matches('input, select') && e.scrollWidth > e.clientWidth + 2 && getComputedStyle(e).overflowX !== 'visible')))\
     .map(e => e.outerHTML.slice(0, 120)); return wide.concat(cut)";

/// WCAG 2.2, success criterion 1.4.4: what is lost at twice the size of type. Numbers in the head may break into two
/// rows, never be cut.
pub async fn lost_at_twice_the_type(maker: &Maker) -> Vec<String> {
    type_of(maker, 32).await;
    let lost = list(maker, CUT_OFF).await;
    type_of(maker, 16).await;
    lost
}

/// At twice the type on a phone the bars above and below leave room for what is typed.
#[tokio::test]
async fn the_bars_leave_room_at_twice_the_type() {
    let site = Site::publish(&Site::dist()).await;
    let maker = open(&site, PHONE).await;
    tape_a_top(&maker).await;
    type_of(&maker, 32).await;
    let taken = maker
        .ask(
            "const fixed = e => ['sticky', 'fixed'].includes(getComputedStyle(e).position); \
             return [...document.querySelectorAll('.top, .verbs')].filter(fixed).map(e => e.getBoundingClientRect().height)",
        )
        .await;
    let heights: Vec<f64> = serde_json::from_value(taken.clone()).expect("heights");
    assert!(heights.iter().sum::<f64>() <= 0.55 * f64::from(PHONE.1), "{taken}");
    maker.close().await;
}

async fn emulate(maker: &Maker, feature: &str, value: &str) {
    let features = json!({ "features": [{ "name": feature, "value": value }] });
    maker.driver.cdp().send_raw("Emulation.setEmulatedMedia", features).await.expect("a setting");
}

/// What moves, is about to, or would if it changed.
const MOVING: &str = "return document.getAnimations().map(one => one.animationName ?? one.transitionProperty ?? 'moves')\
     .concat([...document.querySelectorAll('*')].filter(e => { const s = getComputedStyle(e); return \
     s.scrollBehavior === 'smooth' || parseFloat(s.animationDuration) > 0 || parseFloat(s.transitionDuration) > 0 })\
     .map(e => e.outerHTML.slice(0, 80)))";

/// What moves for somebody who wants no motion.
pub async fn moving(maker: &Maker) -> Vec<String> {
    emulate(maker, "prefers-reduced-motion", "reduce").await;
    let moving = list(maker, MOVING).await;
    emulate(maker, "prefers-reduced-motion", "no-preference").await;
    moving
}

/// The check of the check: with motion there is some, as the sheet rises.
#[tokio::test]
async fn what_moves_is_seen() {
    let site = Site::publish(&Site::dist()).await;
    let maker = open(&site, PHONE).await;
    maker.press("Import").await;
    assert!(!list(&maker, MOVING).await.is_empty());
    assert!(moving(&maker).await.is_empty());
    maker.close().await;
}

/// Where the browser forces its own few colours, what is chosen, what is wrong and what has the focus still differ.
#[tokio::test]
async fn forced_colours_hide_no_state() {
    let site = Site::publish(&Site::dist()).await;
    let maker = open(&site, PHONE).await;
    tape_a_top(&maker).await;
    emulate(&maker, "forced-colors", "active").await;
    assert_eq!(maker.ask("return matchMedia('(forced-colors: active)').matches").await, true);
    let mut same = Vec::new();
    for verb in VERBS {
        maker.turn_to(verb).await;
        maker.wait_for(&format!("main[data-screen='{verb}']")).await;
        unfold(&maker).await;
        let alike = "const look = e => { const s = getComputedStyle(e); return [s.backgroundColor, s.color, s.borderTopColor, s.borderTopWidth, s.borderTopStyle, s.outlineStyle, s.fontWeight].join() }; \
             const pairs = []; for (const group of document.querySelectorAll('fieldset, [role=group], ul')) { \
             const on = group.querySelector(':scope [aria-pressed=true]'), off = group.querySelector(':scope [aria-pressed=false]'); \
             if (on && off && look(on) === look(off)) pairs.push(on.outerHTML.slice(0, 120)); } \
             const here = document.querySelector('.verbs [aria-current=page]'), there = document.querySelector('.verbs a:not([aria-current])'); \
             if (look(here) === look(there)) pairs.push('the verb that is open'); return pairs";
        same.extend(list(&maker, alike).await.into_iter().map(|line| format!("{verb}: {line}")));
    }
    assert!(same.is_empty(), "what is chosen looks like what is not:\n{}", same.join("\n"));
    maker.turn_to("Measure").await;
    maker.press("Size").await;
    let drawn = maker
        .ask(
            "const ground = getComputedStyle(document.querySelector('svg.drawing')).backgroundColor; \
             return [...document.querySelectorAll('svg.drawing .outline, svg.drawing .cut')].every(e => { \
             const s = getComputedStyle(e); return s.stroke !== 'none' && s.stroke !== ground && parseFloat(s.strokeWidth) > 0 })",
        )
        .await;
    assert_eq!(drawn, true, "the outline is drawn");
    let focus = maker
        .ask("document.querySelector('#piece-0-width').focus(); const s = getComputedStyle(document.activeElement); return [s.outlineStyle, parseFloat(s.outlineWidth)]")
        .await;
    assert_eq!(focus[0], "solid");
    assert!(focus[1].as_f64().is_some_and(|width| width >= 2.0), "{focus}");
    maker.close().await;
}

/// The narrowest phone at twice the type: nothing is cut off on any screen, and of the page itself at least half is seen.
#[tokio::test]
async fn the_narrowest_phone_at_twice_the_type_loses_nothing() {
    let site = Site::publish(&Site::dist()).await;
    let maker = open(&site, (320, 740)).await;
    maker.press("See a worked job").await;
    maker.is_kept().await;
    let mut lost = Vec::new();
    for verb in VERBS {
        maker.turn_to(verb).await;
        unfold(&maker).await;
        lost.extend(lost_at_twice_the_type(&maker).await.into_iter().map(|what| format!("{verb}: {what}")));
    }
    assert_eq!(lost, [""; 0]);
    maker.close().await;
}
