//! The worker that works out whether a top cracks: see `pourwright::worker`.

#[cfg(target_arch = "wasm32")]
fn main() {
    pourwright::worker::serve();
}

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    println!("This program runs in a browser, as a worker of the page.");
}
