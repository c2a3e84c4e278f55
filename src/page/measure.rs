//! Measure: in the client's room. Outline, edges, cutouts, holes.

use super::desk::Desk;
use super::field::{choice, field, lead};
use super::findings::findings;
use super::openings::{add_cutout, add_holes, cutout_fields, holes_fields};
use super::plan::plan_view;
use super::sides::side_choice;
use crate::draw::{Face, Selection};
use crate::finding::Stage;
use crate::job::{EdgeField, EdgeKind, FieldPath, Piece, PieceKind};
use leptos::prelude::*;

/// The screen.
pub fn measure(desk: Desk) -> AnyView {
    view! {
        <div class="side">
            {lead(desk, Stage::Measure)}
            {pieces_bar(desk)}
            {plan_view(desk, Face::Installed)}
            {parts_bar(desk)}
        </div>
        <div class="rest">
            {move || part_fields(desk, desk.piece.get(), desk.part.get())}
            {findings(desk, Stage::Measure)}
            {super::details::details(desk)}
        </div>
    }
    .into_any()
}

/// The pieces of the job, to choose among; nothing while there is one.
pub fn pieces_bar(desk: Desk) -> AnyView {
    let names = Memo::new(move |_| {
        desk.job.with(|job| {
            let name = |(index, piece): (usize, &Piece)| {
                if piece.name.is_blank() { format!("Piece {}", index + 1) } else { piece.name.text().to_owned() }
            };
            job.pieces.iter().enumerate().map(name).collect::<Vec<_>>()
        })
    });
    let button = move |(index, name): (usize, String)| {
        view! {
            <button
                type="button"
                aria-pressed=move || if desk.piece.get() == index { "true" } else { "false" }
                on:click=move |_| { desk.piece.set(index); desk.part.set(Selection::Size); }
            >
                {name}
            </button>
        }
    };
    (move || {
        let names = names.get();
        (names.len() > 1).then(|| {
            let buttons = names.into_iter().enumerate().map(button).collect_view();
            view! { <div class="parts" role="group" aria-label="Pieces">{buttons}</div> }
        })
    })
    .into_any()
}

/// The parts of the chosen piece, to choose and add.
fn parts_bar(desk: Desk) -> AnyView {
    let counts = Memo::new(move |_| {
        desk.job.with(|job| {
            job.pieces.get(desk.piece.get()).map_or((0, 0), |piece| (piece.cutouts.len(), piece.holes.len()))
        })
    });
    let buttons = move || {
        let (cutouts, sets) = counts.get();
        [(Selection::Size, "Size"), (Selection::Edge(0), "Edges"), (Selection::Corner(0), "Corners")]
            .into_iter()
            .map(|(part, word)| (part, word.to_owned()))
            .chain((0..cutouts).map(|index| (Selection::Cutout(index), format!("Cutout {}", index + 1))))
            .chain((0..sets).map(|index| (Selection::Holes(index), format!("Holes {}", index + 1))))
            .map(|(part, label)| {
                let chosen = move || match (desk.part.get(), part) {
                    (Selection::Edge(_), Selection::Edge(_)) | (Selection::Corner(_), Selection::Corner(_)) => true,
                    (chosen, part) => chosen == part,
                };
                view! {
                    <button type="button" aria-pressed=move || if chosen() { "true" } else { "false" } on:click=move |_| desk.part.set(part)>
                        {label}
                    </button>
                }
            })
            .collect_view()
    };
    let is_top = Memo::new(move |_| {
        desk.job.with(|job| job.pieces.get(desk.piece.get()).is_some_and(|piece| piece.kind == PieceKind::Top))
    });
    let beside = [
        (PieceKind::Backsplash, "+ Backsplash for it"),
        (PieceKind::SideSplash, "+ Side splash"),
        (PieceKind::Apron, "+ Apron"),
        (PieceKind::WaterfallLeg, "+ Waterfall leg"),
    ];
    view! {
        <div class="parts" role="group" aria-label="Parts of this piece">
            {buttons}
            <button type="button" class="add" on:click=move |_| add_cutout(desk)>"+ Cutout"</button>
            <button type="button" class="add" on:click=move |_| add_holes(desk)>"+ Faucet holes"</button>
            <button type="button" class="add" on:click=move |_| desk.job.add_piece()>"+ Piece"</button>
            {move || is_top.get().then(|| beside.map(|(kind, label)| view! {
                <button type="button" class="add" on:click=move |_| desk.add_beside(kind)>{label}</button>
            }))}
        </div>
    }
    .into_any()
}

/// The fields of the chosen part.
fn part_fields(desk: Desk, piece: usize, part: Selection) -> AnyView {
    match part {
        Selection::Size | Selection::Board(_) => super::shape::shape_fields(desk, piece),
        Selection::Edge(side) => edge_fields(desk, piece, side),
        Selection::Corner(side) => super::shape::corner_fields(desk, piece, side),
        Selection::Cutout(index) => cutout_fields(desk, piece, index),
        Selection::Holes(index) => holes_fields(desk, piece, index),
    }
}

fn edge_fields(desk: Desk, piece: usize, side: usize) -> AnyView {
    let kind =
        move || desk.job.with(|job| job.pieces.get(piece).map_or(EdgeKind::Plain, |piece| piece.edge(side).kind));
    let kind = Memo::new(move |_| kind());
    let kinds: Vec<_> = EdgeKind::ALL.into_iter().map(|kind| (kind, kind.label())).collect();
    let choose = Callback::new(move |kind: EdgeKind| {
        desk.edit_piece(|piece| piece.edge_mut(side).kind = kind);
    });
    let place = move |name| FieldPath::Edge(piece, side, name);
    let more = move || match kind.get() {
        EdgeKind::Lined => Some(field(desk, place(EdgeField::Liner))),
        EdgeKind::Eased => Some(field(desk, place(EdgeField::Radius))),
        EdgeKind::Wall | EdgeKind::Plain | EdgeKind::Backsplash => None,
    };
    view! {
        <section class="card" aria-label="Edges">
            <h2>"Edges"</h2>
            {side_choice(desk, "Which edge", side, Selection::Edge, |piece, side| piece.side_name(side))}
            {choice("What it is", kinds, kind.into(), choose)}
            <p class="quiet-text">{move || edge_help(kind.get())}</p>
            <div class="fields">{more}</div>
        </section>
    }
    .into_any()
}

fn edge_help(kind: EdgeKind) -> &'static str {
    match kind {
        EdgeKind::Wall => "Stands against a wall; cast against the plain form side.",
        EdgeKind::Backsplash => {
            "A backsplash stands on it against the wall, and hides a gap up to its own thickness. Cast against the plain \
             form side."
        }
        EdgeKind::Plain => "Cast against the plain form side.",
        EdgeKind::Lined => {
            "Cast against a flexible liner inside the form side. The form is made larger by the liner's mean thickness."
        }
        EdgeKind::Eased => "Rounded over by the fillet of silicone in the corner of the form.",
    }
}
