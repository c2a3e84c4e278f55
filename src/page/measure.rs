//! Measure: in the client's room. Outline, edges, cutouts, holes.

use super::desk::Desk;
use super::field::{choice, field, hinted};
use super::findings::findings;
use super::plan::plan_view;
use crate::draw::{Face, Part};
use crate::finding::Stage;
use crate::job::{
    Cutout, CutoutField, CutoutShape, EdgeField, EdgeKind, Entry, HolePattern, Holes, HolesField, Piece, PieceField,
    PieceKind, Place,
};
use crate::measure::Units;
use leptos::prelude::*;

/// The screen.
pub fn measure(desk: Desk) -> AnyView {
    view! {
        <div class="side">
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

/// The screen that shows a field of a piece.
pub fn stage_of(field: PieceField) -> Stage {
    match field {
        PieceField::Name
        | PieceField::Width
        | PieceField::Depth
        | PieceField::Leg
        | PieceField::RightLeg
        | PieceField::RightDepth
        | PieceField::FrontDepth
        | PieceField::Bow
        | PieceField::Thickness => Stage::Measure,
        PieceField::Grinding | PieceField::Steel => Stage::Build,
        PieceField::Waste => Stage::Pour,
    }
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
                on:click=move |_| { desk.piece.set(index); desk.part.set(Part::Size); }
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
        [(Part::Size, "Size"), (Part::Edge(0), "Edges"), (Part::Corner(0), "Corners")]
            .into_iter()
            .map(|(part, word)| (part, word.to_owned()))
            .chain((0..cutouts).map(|index| (Part::Cutout(index), format!("Cutout {}", index + 1))))
            .chain((0..sets).map(|index| (Part::Holes(index), format!("Holes {}", index + 1))))
            .map(|(part, label)| {
                let chosen = move || match (desk.part.get(), part) {
                    (Part::Edge(_), Part::Edge(_)) | (Part::Corner(_), Part::Corner(_)) => true,
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
    let add_cutout = move |_| {
        let units = desk.units();
        let index = desk.edit_piece(|piece| {
            piece.cutouts.push(Cutout {
                corner_radius: Entry::new(if units == Units::Inch { "2" } else { "50" }),
                ..Cutout::default()
            });
            piece.cutouts.len() - 1
        });
        if let Some(index) = index {
            desk.part.set(Part::Cutout(index));
            super::dom::focus_on(Place::Cutout(desk.piece.get_untracked(), index, CutoutField::Width).key());
        }
    };
    let add_holes = move |_| {
        let units = desk.units();
        let index = desk.edit_piece(|piece| {
            let inch = units == Units::Inch;
            piece.holes.push(Holes {
                diameter: Entry::new(if inch { "1 3/8" } else { "35" }),
                spread: Entry::new(if inch { "8" } else { "200" }),
                ..Holes::default()
            });
            piece.holes.len() - 1
        });
        if let Some(index) = index {
            desk.part.set(Part::Holes(index));
            super::dom::focus_on(Place::Holes(desk.piece.get_untracked(), index, HolesField::FromLeft).key());
        }
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
            <button type="button" class="add" on:click=add_cutout>"+ Cutout"</button>
            <button type="button" class="add" on:click=add_holes>"+ Faucet holes"</button>
            <button type="button" class="add" on:click=move |_| desk.add_piece()>"+ Piece"</button>
            {move || is_top.get().then(|| beside.map(|(kind, label)| view! {
                <button type="button" class="add" on:click=move |_| desk.add_beside(kind)>{label}</button>
            }))}
        </div>
    }
    .into_any()
}

/// The fields of the chosen part.
fn part_fields(desk: Desk, piece: usize, part: Part) -> AnyView {
    match part {
        Part::Size => super::shape::shape_fields(desk, piece),
        Part::Edge(side) => edge_fields(desk, piece, side),
        Part::Corner(side) => super::shape::corner_fields(desk, piece, side),
        Part::Cutout(index) => cutout_fields(desk, piece, index),
        Part::Holes(index) => holes_fields(desk, piece, index),
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
    let place = move |name| Place::Edge(piece, side, name);
    let more = move || match kind.get() {
        EdgeKind::Lined => {
            Some(hinted(desk, place(EdgeField::Liner), "A rough liner varies: its mean, often 3/4 in (19 mm)."))
        }
        EdgeKind::Eased => Some(field(desk, place(EdgeField::Radius))),
        EdgeKind::Wall | EdgeKind::Plain | EdgeKind::Backsplash => None,
    };
    view! {
        <section class="card" aria-label="Edges">
            <h2>"Edges"</h2>
            {side_choice(desk, "Which edge", side, Part::Edge, |piece, side| piece.side_name(side))}
            {choice("What it is", kinds, kind.into(), choose)}
            <p class="quiet-text">{move || edge_help(kind.get())}</p>
            <div class="fields">{more}</div>
        </section>
    }
    .into_any()
}

/// A row of buttons, one for every side of the chosen piece.
pub fn side_choice(
    desk: Desk,
    legend: &'static str,
    chosen: usize,
    part: fn(usize) -> Part,
    name: fn(&Piece, usize) -> String,
) -> AnyView {
    let names = Memo::new(move |_| {
        desk.job.with(|job| {
            let piece = job.pieces.get(desk.piece.get());
            piece.map_or_else(Vec::new, |piece| (0..piece.sides()).map(|side| name(piece, side)).collect::<Vec<_>>())
        })
    });
    let button = move |(side, name): (usize, String)| {
        view! {
            <button
                type="button"
                aria-pressed=if side == chosen { "true" } else { "false" }
                on:click=move |_| desk.part.set(part(side))
            >
                {name}
            </button>
        }
    };
    view! {
        <fieldset class="choice">
            <legend>{legend}</legend>
            {move || names.get().into_iter().enumerate().map(button).collect_view()}
        </fieldset>
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

fn remove_button(label: &'static str, remove: impl Fn() + 'static) -> AnyView {
    view! {
        <div class="row"><button type="button" class="danger" on:click=move |_| remove()>{label}</button></div>
    }
    .into_any()
}

fn cutout_fields(desk: Desk, piece: usize, index: usize) -> AnyView {
    let shape = Memo::new(move |_| {
        desk.job.with(|job| {
            job.pieces
                .get(piece)
                .and_then(|piece| piece.cutouts.get(index))
                .map_or(CutoutShape::Rectangle, |cutout| cutout.shape)
        })
    });
    let shapes: Vec<_> = CutoutShape::ALL.into_iter().map(|shape| (shape, shape.label())).collect();
    let choose = Callback::new(move |shape| {
        desk.edit_piece(|piece| {
            if let Some(cutout) = piece.cutouts.get_mut(index) {
                cutout.shape = shape;
            }
        });
    });
    let place = move |field| Place::Cutout(piece, index, field);
    let size = move || match shape.get() {
        CutoutShape::Rectangle | CutoutShape::D => [CutoutField::Width, CutoutField::Depth, CutoutField::CornerRadius]
            .map(|name| field(desk, place(name)))
            .collect_view(),
        CutoutShape::Ellipse => {
            [CutoutField::Width, CutoutField::Depth].map(|name| field(desk, place(name))).collect_view()
        }
        CutoutShape::Circle => [hinted(desk, place(CutoutField::Width), "The diameter.")].collect_view(),
    };
    view! {
        <section class="card" aria-label="Cutout">
            <h2>{format!("Cutout {}", index + 1)}</h2>
            {choice("Shape", shapes, shape.into(), choose)}
            <div class="fields">{size}</div>
            <div class="fields">
                {field(desk, place(CutoutField::FromLeft))}
                {field(desk, place(CutoutField::FromFront))}
            </div>
            <p class="quiet-text">"Drag it on the plan, or nudge it with the arrow keys: it lands on marks of the tape."</p>
            {remove_button("Remove this cutout", move || {
                desk.part.set(Part::Size);
                desk.edit_piece(|piece| if index < piece.cutouts.len() { piece.cutouts.remove(index); });
            })}
        </section>
    }
    .into_any()
}

fn holes_fields(desk: Desk, piece: usize, index: usize) -> AnyView {
    let pattern = Memo::new(move |_| {
        desk.job.with(|job| {
            job.pieces
                .get(piece)
                .and_then(|piece| piece.holes.get(index))
                .map_or(HolePattern::Single, |set| set.pattern)
        })
    });
    let patterns = vec![(HolePattern::Single, "One hole"), (HolePattern::Three, "Three holes")];
    let choose = Callback::new(move |pattern| {
        desk.edit_piece(|piece| {
            if let Some(set) = piece.holes.get_mut(index) {
                set.pattern = pattern;
            }
        });
    });
    let place = move |field| Place::Holes(piece, index, field);
    let spread = move || (pattern.get() == HolePattern::Three).then(|| field(desk, place(HolesField::Spread)));
    view! {
        <section class="card" aria-label="Faucet holes">
            <h2>{format!("Holes {}", index + 1)}</h2>
            {choice("Pattern", patterns, pattern.into(), choose)}
            <div class="fields">
                {field(desk, place(HolesField::Diameter))}
                {spread}
                {field(desk, place(HolesField::FromLeft))}
                {field(desk, place(HolesField::FromFront))}
            </div>
            {remove_button("Remove these holes", move || {
                desk.part.set(Part::Size);
                desk.edit_piece(|piece| if index < piece.holes.len() { piece.holes.remove(index); });
            })}
        </section>
    }
    .into_any()
}
