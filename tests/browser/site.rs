//! A static host for the built page, that can be stopped and started again, and that lies.

use axum::Router;
use axum::body::{Body, to_bytes};
use axum::extract::{Request, State};
use axum::http::{HeaderValue, StatusCode, header};
use axum::middleware::{Next, from_fn_with_state};
use axum::response::{IntoResponse, Redirect, Response};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex};
use tokio::net::TcpListener;
use tokio::task::JoinHandle;
use tower_http::compression::CompressionLayer;
use tower_http::services::ServeDir;

/// The sub-path under which the page is published: relative addresses must hold everywhere.
const UNDER: &str = "/shop/tops";

/// What a host may do to a file.
#[derive(Clone, Copy, Debug)]
pub enum Lie {
    /// It calls it something else.
    Type(&'static str),
    /// It gives it with another status.
    Status(u16),
    /// One bit of it is another.
    Altered,
    /// Its end is missing.
    Short,
    /// It leads to a page, as one that asks for a password does.
    Elsewhere,
    /// It has it no more.
    Missing,
}

/// What is lied about: every file whose address holds that text.
type Lies = Arc<Mutex<Option<(&'static str, Lie)>>>;

pub struct Site {
    folder: PathBuf,
    lies: Lies,
    port: u16,
    running: Option<JoinHandle<()>>,
}

impl Site {
    /// Publishes a folder on a free port of this machine.
    pub async fn publish(folder: &Path) -> Self {
        let mut site = Self { folder: folder.to_owned(), lies: Lies::default(), port: 0, running: None };
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
        let pages = Router::new()
            .nest_service(UNDER, ServeDir::new(&self.folder))
            .layer(from_fn_with_state(Arc::clone(&self.lies), answer))
            .layer(CompressionLayer::new());
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

    /// From now on it lies about files whose address holds that text.
    pub fn lie(&self, about: &'static str, lie: Lie) {
        *self.lies.lock().expect("no test has failed holding it") = Some((about, lie));
    }

    /// From now on it tells the truth.
    pub fn be_honest(&self) {
        *self.lies.lock().expect("no test has failed holding it") = None;
    }

    /// Publishes another folder at the same address.
    pub async fn change_to(&mut self, folder: &Path) {
        self.stop().await;
        self.folder = folder.to_owned();
        self.start().await;
    }
}

async fn answer(State(lies): State<Lies>, request: Request, next: Next) -> Response {
    let lie = *lies.lock().expect("no test has failed holding it");
    let lie = lie.filter(|(about, _)| request.uri().path().contains(about)).map(|(_, lie)| lie);
    let truth = next.run(request).await;
    match lie {
        None => truth,
        Some(Lie::Missing) => StatusCode::NOT_FOUND.into_response(),
        Some(Lie::Elsewhere) => Redirect::temporary(&format!("{UNDER}/")).into_response(),
        Some(Lie::Status(status)) => {
            let mut answer = truth;
            *answer.status_mut() = StatusCode::from_u16(status).expect("a status");
            answer
        }
        Some(Lie::Type(kind)) => {
            let mut answer = truth;
            answer.headers_mut().insert(header::CONTENT_TYPE, HeaderValue::from_static(kind));
            answer
        }
        Some(Lie::Altered) => with_body(truth, |bytes| bytes[0] ^= 1).await,
        Some(Lie::Short) => with_body(truth, |bytes| bytes.truncate(bytes.len() / 2)).await,
    }
}

/// The answer with another body, whose length it tells.
async fn with_body(answer: Response, change: impl FnOnce(&mut Vec<u8>)) -> Response {
    let (mut head, body) = answer.into_parts();
    let mut bytes = to_bytes(body, usize::MAX).await.expect("a file").to_vec();
    change(&mut bytes);
    head.headers.remove(header::CONTENT_LENGTH);
    Response::from_parts(head, Body::from(bytes))
}
