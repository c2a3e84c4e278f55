//! Build: the form that the piece is cast in.

use super::desk::Desk;
use super::field::{choice, field, hinted};
use super::figures::{plain_row, row, show};
use super::findings::findings;
use super::measure::pieces_bar;
use super::plan::plan_view;
use crate::draw::Face;
use crate::finding::Stage;
use crate::form::{Form, SideBoard};
use crate::job::{FormField, PieceField, Place, SideStand};
use crate::measure::{Length, write_length};
use crate::working::{Figure, Known};
use leptos::prelude::*;

/// The screen.
pub fn build(desk: Desk) -> AnyView {
    let piece = move || desk.piece.get();
    let stand = Signal::derive(move || desk.job.with(|job| job.form.sides));
    let stands = vec![(SideStand::OnEdge, "On the base's edge"), (SideStand::OnBase, "Standing on the base")];
    let choose = Callback::new(move |sides| desk.job.update(|job| job.form.sides = sides));
    view! {
        <div class="side">
            {pieces_bar(desk)}
            {plan_view(desk, Face::Form)}
        </div>
        <div class="rest">
            {move || sizes(desk, piece())}
            <section class="card" aria-label="Form">
                <h2>"How it is built"</h2>
                <div class="fields">
                    {field(desk, Place::Form(FormField::Board))}
                    {move || hinted(desk, Place::Piece(piece(), PieceField::Grinding), "Cast that much thicker.")}
                    {move || hinted(desk, Place::Piece(piece(), PieceField::Steel), "Lath and bars, if weighed.")}
                </div>
                {choice("Sides", stands, stand, choose)}
            </section>
            {findings(desk, Stage::Build)}
        </div>
    }
    .into_any()
}

fn sizes(desk: Desk, piece: usize) -> AnyView {
    let card = move || {
        desk.estimate.with(|all| {
            let form = all.pieces.get(piece)?.form.clone();
            let length = |label: &str, pick: fn(&Form) -> &Figure<Length>| {
                let figure: Known<Figure<Length>> = form.as_ref().map(|form| pick(form).clone()).map_err(Clone::clone);
                row(desk, label, show(&figure, |length| write_length(*length, desk.units()).to_string()))
            };
            let rows = [
                length("Clear width inside", |form| &form.clear_width),
                length("Clear depth inside", |form| &form.clear_depth),
                length("Base, left to right", |form| &form.base_width),
                length("Base, front to back", |form| &form.base_depth),
                length("Cast thickness", |form| &form.cast_thickness),
                length("Side height", |form| &form.side_height),
            ]
            .collect_view();
            let sides = form.ok().map(|form| {
                desk.job.with(|job| {
                    let typed = job.pieces.get(piece)?;
                    let board = |board: &SideBoard| {
                        plain_row(board.words(&form, typed), write_length(board.length, desk.units()).to_string())
                    };
                    Some(form.sides.iter().map(board).collect_view())
                })
            });
            Some((rows, sides))
        })
    };
    view! {
        <section class="card" aria-label="Form sizes">
            <h2>"Form sizes"</h2>
            <div class="figures">{card}</div>
        </section>
    }
    .into_any()
}
