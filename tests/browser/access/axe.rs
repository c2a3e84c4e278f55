//! axe-core on every screen and sheet, in both schemes.

use super::{everywhere, open};
use crate::maker::{Maker, PHONE};
use crate::site::Site;
use serde_json::json;

/// The text of axe-core, which `.ci/tools.sh` gets from npm.
fn axe() -> String {
    let path = std::env::var("POURWRIGHT_AXE").expect(
        "axe-core is not there, so that nobody knows whether the page can be used by everybody: install node and npm, \
         then run this by `make test`, which gets it",
    );
    std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("axe-core cannot be read at {path}: {error}"))
}

/// What axe-core finds, a line each.
async fn violations(maker: &Maker, rules: &str) -> Vec<String> {
    if maker.ask("return typeof window.axe").await == "undefined" {
        maker.driver.execute(axe(), Vec::new()).await.expect("axe-core starts");
    }
    let found = maker
        .ask(&format!(
            "return axe.run(document, {{ resultTypes: ['violations']{rules} }}).then(all => [all.violations.flatMap(rule => \
             rule.nodes.map(node => rule.id + ': ' + node.target.join(' ') + ' ' + node.html.slice(0, 160) + ' ' + \
             node.any.concat(node.all, node.none).map(check => check.message).join('; '))), all.passes.length])"
        ))
        .await;
    assert_ne!(found[1], json!(0), "axe-core looked at something");
    serde_json::from_value(found[0].clone()).expect("lines")
}

async fn scheme(maker: &Maker, name: &str) {
    let features = json!({ "features": [{ "name": "prefers-color-scheme", "value": name }] });
    maker.driver.cdp().send_raw("Emulation.setEmulatedMedia", features).await.expect("a colour scheme");
}

async fn nothing_is_found(size: (u32, u32)) {
    let site = Site::publish(&Site::dist()).await;
    let maker = open(&site, size).await;
    let mut found = Vec::new();
    let mut looked = 0;
    everywhere(&maker, &mut async |maker: &Maker, place: &str| {
        // Colours alone differ between the schemes. A sheet that still rises has not its own yet.
        tokio::time::sleep(std::time::Duration::from_millis(250)).await;
        for (name, rules) in [("light", ""), ("dark", ", runOnly: ['color-contrast']")] {
            scheme(maker, name).await;
            found.extend(violations(maker, rules).await.into_iter().map(|line| format!("{place}, {name}: {line}")));
        }
        scheme(maker, "light").await;
        looked += 1;
    })
    .await;
    assert!(looked > 25, "only {looked} places");
    assert!(found.is_empty(), "{} violations:\n{}", found.len(), found.join("\n"));
    maker.close().await;
}

/// The check of the checker: what it must find, it finds.
#[tokio::test]
async fn axe_finds_a_button_without_a_name() {
    let site = Site::publish(&Site::dist()).await;
    let maker = open(&site, PHONE).await;
    maker.ask("document.querySelector('main').append(document.createElement('button'))").await;
    let found = violations(&maker, "").await;
    assert!(found.iter().any(|line| line.starts_with("button-name")), "{found:?}");
    maker.close().await;
}

#[tokio::test]
async fn axe_finds_nothing_on_a_phone() {
    nothing_is_found(PHONE).await;
}

#[tokio::test]
async fn axe_finds_nothing_on_a_desk() {
    nothing_is_found((1280, 800)).await;
}
