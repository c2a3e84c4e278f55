//! Puts the page on the screen, nothing else.

#[cfg(target_arch = "wasm32")]
fn main() {
    console_error_panic_hook::set_once();
    leptos::mount::mount_to_body(pourwright::page::App);
}

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    println!("Pourwright is a page for a browser. `make run` builds it and serves it.");
}
