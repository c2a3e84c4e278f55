//! A static host for the built page, that can be stopped and started again.

use axum::Router;
use std::path::{Path, PathBuf};
use tokio::net::TcpListener;
use tokio::task::JoinHandle;
use tower_http::compression::CompressionLayer;
use tower_http::services::ServeDir;

/// The sub-path under which the page is published: relative addresses must hold everywhere.
const UNDER: &str = "/shop/tops";

pub struct Site {
    folder: PathBuf,
    port: u16,
    running: Option<JoinHandle<()>>,
}

impl Site {
    /// Publishes a folder on a free port of this machine.
    pub async fn publish(folder: &Path) -> Self {
        let mut site = Self { folder: folder.to_owned(), port: 0, running: None };
        site.start().await;
        site
    }

    /// The folder that `make dist` built.
    pub fn dist() -> PathBuf {
        let folder = std::env::var_os("POURWRIGHT_DIST").map_or_else(|| PathBuf::from("dist"), PathBuf::from);
        assert!(folder.join("index.html").is_file(), "no page in {}: run `make dist` first", folder.display());
        folder
    }

    pub fn address(&self) -> String {
        format!("http://127.0.0.1:{}{UNDER}/", self.port)
    }

    /// From now on the address answers.
    pub async fn start(&mut self) {
        let listener = TcpListener::bind(("127.0.0.1", self.port)).await.expect("the port is free");
        self.port = listener.local_addr().expect("a bound port").port();
        let pages = Router::new().nest_service(UNDER, ServeDir::new(&self.folder)).layer(CompressionLayer::new());
        self.running = Some(tokio::spawn(async move {
            axum::serve(listener, pages).await.expect("the host runs until it is stopped");
        }));
    }

    /// From now on nobody answers, as in a garage.
    pub async fn stop(&mut self) {
        if let Some(running) = self.running.take() {
            running.abort();
            // The port is free again once the task is gone.
            let _ = running.await;
        }
    }

    /// Publishes another folder at the same address.
    pub async fn change_to(&mut self, folder: &Path) {
        self.stop().await;
        self.folder = folder.to_owned();
        self.start().await;
    }
}
