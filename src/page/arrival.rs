//! A job that came in a link: what it is, before anything is kept of it.

use super::banners::storage_banner;
use super::desk::Desk;
use super::desk::route::address_of;
use super::figures::plain_row;
use super::front::whole_name_or;
use crate::draw::picture;
use crate::finding::Stage;
use crate::job::{Job, Piece, Units};
use crate::store::LinkError;
use leptos::prelude::*;

/// Pieces that are listed; the rest is counted.
const MOST_LISTED: usize = 8;

/// The screen.
pub fn arrival(desk: Desk, found: Result<Box<Job>, LinkError>) -> AnyView {
    let body = match found {
        Ok(job) => offer(desk, *job),
        Err(why) => view! {
            <div class="banner stop" role="alert">
                <strong>"This link cannot be opened."</strong>
                <p>{why.to_string()}</p>
                <div class="row"><button type="button" on:click=move |_| leave(desk)>"All jobs"</button></div>
            </div>
        }
        .into_any(),
    };
    view! {
        <header class="top"><div class="bar"><h1>"\u{a0}\u{a0}Pourwright"</h1></div></header>
        <main id="main" tabindex="-1" data-screen="Arrival">
            {storage_banner(*desk)}
            {body}
        </main>
    }
    .into_any()
}

/// What it is, and whether to keep it.
fn offer(desk: Desk, job: Job) -> AnyView {
    let client = (!job.client.is_blank()).then(|| view! { <p dir="auto">{job.client.text().to_owned()}</p> });
    let listed = job.pieces.iter().take(MOST_LISTED).enumerate().map(|(index, piece)| {
        let name =
            if piece.name.is_blank() { format!("Piece {}", index + 1) } else { piece.name.text().trim().to_owned() };
        plain_row(name, size_of(piece))
    });
    let rest = job.pieces.len().saturating_sub(MOST_LISTED);
    let rest = (rest > 0).then(|| plain_row("And more pieces", rest.to_string()));
    let sizes = match job.units {
        Units::Inch => "Width × depth × thickness as typed, in inches unless a size says otherwise.",
        Units::Metric => "Width × depth × thickness as typed, in millimetres unless a size says otherwise.",
    };
    let (standing, word) = desk.bringing.standing(&job);
    view! {
        <section class="card arrival" aria-label="The job in this link">
            <p class="quiet-text">"This link carries a job"</p>
            <h2 dir="auto">{whole_name_or(job.name.text())}</h2>
            {client}
            <div aria-hidden="true" class="picture" inner_html=picture(&job).unwrap_or_default()/>
            <div class="figures">
                {plain_row("Pieces", job.pieces.len().to_string())}
                {listed.collect_view()}
                {rest}
            </div>
            <p class="quiet-text">{sizes}</p>
            <p>{standing}</p>
            <div class="row">
                <button type="button" class="main" on:click=move |_| bring_in(desk, &job)>{word}</button>
                <button type="button" on:click=move |_| leave(desk)>"Leave it"</button>
            </div>
        </section>
    }
    .into_any()
}

/// Its size as typed.
fn size_of(piece: &Piece) -> String {
    let sizes = [&piece.width, &piece.depth, &piece.thickness]
        .map(|size| if size.is_blank() { "—".to_owned() } else { size.text().trim().to_owned() });
    sizes.join(" × ")
}

/// Takes it in and opens it. The link goes out of the address, so that a reload or the back button does not ask again;
/// where it cannot be kept the link stays, and with it nothing is lost.
fn bring_in(desk: Desk, job: &Job) {
    if let Some(id) = desk.bringing.bring_linked(job) {
        desk.way.replace_address(&address_of(&id, Stage::Measure));
    }
}

/// Keeps nothing of it and goes to the shelf.
fn leave(desk: Desk) {
    desk.way.replace_address("#/");
}
