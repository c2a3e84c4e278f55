//! axe-core on every screen and sheet, in both schemes.

use super::open;
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

/// What axe-core finds in both schemes. Colours alone differ between them.
pub async fn in_both_schemes(maker: &Maker) -> Vec<String> {
    let mut found = Vec::new();
    for (name, rules) in [("dark", ", runOnly: ['color-contrast']"), ("light", "")] {
        scheme(maker, name).await;
        found.extend(violations(maker, rules).await.into_iter().map(|line| format!("{name}: {line}")));
    }
    found
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
