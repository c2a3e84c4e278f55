//! Cutouts and faucet holes: their fields, and moving them about.

use super::desk::Desk;
use super::field::{choice, field, hinted, labelled};
use super::figures::plain_row;
use crate::draw::Selection;
use crate::hints;
use crate::job::{
    AcrossFrom, AlongFrom, Cutout, CutoutField, CutoutShape, Door, DoorField, Entry, FieldPath, Hand, HolePattern,
    Holes, HolesField, HolesFrom, OutlineShape, Piece, PieceField, Reveal, TemplateCorner, TemplateField,
};
use crate::measure::{Length, Units};
use crate::top::moving::{self, tape_step, type_distance};
use crate::top::{PieceNames, center_on_doors, doors};
use kurbo::Point;
use leptos::prelude::*;
use uom::si::length::meter;

/// Where the centre of a part is; nothing while it is not known, or has none.
pub fn center(desk: Desk, part: Selection) -> Option<Point> {
    let piece = desk.piece.get_untracked();
    desk.cast.with_untracked(|all| {
        let top = &all.pieces.get(piece)?.top;
        match part {
            Selection::Cutout(index) => top.cutout_center(index),
            Selection::Holes(index) => top.holes_center(index),
            // The corners at the right of a rectangle carry its width, and the one at the back its depth.
            Selection::Corner(side @ (1 | 2)) => {
                let is_rectangle = desk.job.with_untracked(|job| {
                    job.pieces.get(piece).is_some_and(|piece| piece.shape == OutlineShape::Rectangle)
                });
                let bounds = top.outline.as_ref().ok()?.bounds();
                is_rectangle.then(|| Point::new(bounds.x1, if side == 1 { bounds.y0 } else { bounds.y1 }))
            }
            Selection::Size | Selection::Edge(_) | Selection::Corner(_) | Selection::Board(_) => None,
        }
    })
}

/// What has to be typed for a part to lie at that point, each in its own reference.
fn entries_for(desk: Desk, part: Selection, at: Point) -> Vec<(FieldPath, Length)> {
    let piece = desk.piece.get_untracked();
    let found = desk.cast.with_untracked(|all| {
        let top = &all.pieces.get(piece)?.top;
        desk.job.with_untracked(|job| {
            let typed = job.pieces.get(piece)?;
            Some(match part {
                Selection::Cutout(index) => {
                    let cutout = typed.cutouts.get(index)?;
                    let place = |field| FieldPath::Cutout(piece, index, field);
                    let across = top.across_at(&doors(job, piece), cutout, at.x);
                    let along = top.along_at(cutout, at.y);
                    let across = across.map(|length| (place(cutout.across_field()), length));
                    let along = along.map(|length| (place(cutout.along_field()), length));
                    across.into_iter().chain(along).collect()
                }
                Selection::Holes(index) => {
                    let place = |(field, length)| (FieldPath::Holes(piece, index, field), length);
                    top.holes_at(typed.holes.get(index)?, at).into_iter().map(place).collect()
                }
                Selection::Corner(side) => {
                    let metres = Length::new::<meter>;
                    let bounds = top.outline.as_ref().ok()?.bounds();
                    let width = (FieldPath::Piece(piece, PieceField::Width), metres(at.x - bounds.x0));
                    let depth = (FieldPath::Piece(piece, PieceField::Depth), metres(at.y - bounds.y0));
                    if side == 2 { vec![width, depth] } else { vec![width] }
                }
                Selection::Size | Selection::Edge(_) | Selection::Board(_) => Vec::new(),
            })
        })
    });
    found.unwrap_or_default()
}

/// Moves the centre of a part to the nearest marks of the tape, as its own references count them. What
/// places it in a direction in which it does not move stays as it was typed.
pub fn move_to(desk: Desk, part: Selection, at: Point) {
    let before = center(desk, part).map_or_else(Vec::new, |before| entries_for(desk, part, before));
    let step = tape_step(desk.units());
    let moved: Vec<_> = entries_for(desk, part, at)
        .into_iter()
        .filter(|(place, length)| {
            let stays = |(other, was): &(FieldPath, Length)| other == place && (*was - *length).abs() < step * 1e-6;
            !before.iter().any(stays)
        })
        .collect();
    desk.job.maybe_update(|job| {
        // Every one of them is typed, whatever became of the one before.
        moved.iter().fold(false, |changed, (place, length)| type_distance(job, *place, *length) || changed)
    });
}

/// Adds a cutout to the chosen piece, and chooses it.
pub fn add_cutout(desk: Desk) {
    let units = desk.units();
    let index = desk.edit_piece(|piece| {
        piece.cutouts.push(Cutout {
            corner_radius: Entry::new(if units == Units::Inch { "2" } else { "50" }),
            ..Cutout::default()
        });
        piece.cutouts.len() - 1
    });
    if let Some(index) = index {
        desk.part.set(Selection::Cutout(index));
        super::dom::focus_on(FieldPath::Cutout(desk.piece.get_untracked(), index, CutoutField::Width).key());
    }
}

/// Adds a set of faucet holes to the chosen piece, and chooses it.
pub fn add_holes(desk: Desk) {
    let inches = desk.units() == Units::Inch;
    let index = desk.edit_piece(|piece| {
        piece.holes.push(Holes {
            diameter: Entry::new(if inches { "1 3/8" } else { "35" }),
            spread: Entry::new(if inches { "8" } else { "200" }),
            ..Holes::default()
        });
        piece.holes.len() - 1
    });
    if let Some(index) = index {
        desk.part.set(Selection::Holes(index));
        super::dom::focus_on(FieldPath::Holes(desk.piece.get_untracked(), index, HolesField::FromLeft).key());
    }
}

fn remove_button(label: &'static str, remove: impl Fn() + 'static) -> AnyView {
    view! {
        <div class="row"><button type="button" class="danger" on:click=move |_| remove()>{label}</button></div>
    }
    .into_any()
}

/// What a piece holds of one kind, followed; the usual where there is no such piece.
fn of_piece<T: Default + PartialEq + Send + Sync + 'static>(
    desk: Desk,
    piece: usize,
    read: impl Fn(&Piece) -> Option<T> + Send + Sync + 'static,
) -> Memo<T> {
    Memo::new(move |_| desk.job.with(|job| job.pieces.get(piece).and_then(&read).unwrap_or_default()))
}

fn edit_cutout(desk: Desk, index: usize, change: impl FnOnce(&mut Cutout)) {
    desk.edit_piece(|piece| piece.cutouts.get_mut(index).map(change));
}

fn edit_holes(desk: Desk, index: usize, change: impl FnOnce(&mut Holes)) {
    desk.edit_piece(|piece| piece.holes.get_mut(index).map(change));
}

/// A row of numbered buttons: "Door 1", "Door 2".
fn numbered_choice(
    legend: &'static str,
    word: &'static str,
    count: usize,
    chosen: Memo<Option<usize>>,
    choose: Callback<usize>,
) -> AnyView {
    let button = move |number: usize| {
        view! {
            <button
                type="button"
                aria-pressed=move || if chosen.get() == Some(number) { "true" } else { "false" }
                on:click=move |_| choose.run(number)
            >
                {format!("{word} {}", number + 1)}
            </button>
        }
    };
    let buttons = (0..count).map(button).collect_view();
    view! { <fieldset class="choice"><legend>{legend}</legend>{buttons}</fieldset> }.into_any()
}

/// The strips that are left beside a cutout, thinnest first.
fn rail_rows(desk: Desk, piece: usize, index: usize) -> Option<AnyView> {
    let units = desk.units();
    let rails = desk.cast.with(|all| {
        let top = &all.pieces.get(piece)?.top;
        Some(desk.job.with(|job| top.rails_beside(&PieceNames::read(job, piece), index)))
    })?;
    let row = |(name, width): (String, Length)| plain_row(name, moving::rail_words(width, units));
    let rows = rails.into_iter().map(row).collect_view();
    Some(view! { <h3>"Rails: what is left beside it"</h3><div class="figures">{rows}</div> }.into_any())
}

/// The fields of one cutout.
pub fn cutout_fields(desk: Desk, piece: usize, index: usize) -> AnyView {
    let shape = of_piece(desk, piece, move |piece| Some(piece.cutouts.get(index)?.shape));
    let shapes: Vec<_> = CutoutShape::ALL.into_iter().map(|shape| (shape, shape.label())).collect();
    let choose = Callback::new(move |shape| {
        edit_cutout(desk, index, |cutout| {
            cutout.shape = shape;
            if shape == CutoutShape::Polygon && cutout.template.is_empty() {
                cutout.template = vec![TemplateCorner::default(); 4];
            }
        });
    });
    let place = move |field| FieldPath::Cutout(piece, index, field);
    let size = move || match shape.get() {
        CutoutShape::Rectangle | CutoutShape::D => [CutoutField::Width, CutoutField::Depth, CutoutField::CornerRadius]
            .map(|name| field(desk, place(name)))
            .collect_view()
            .into_any(),
        CutoutShape::Ellipse => {
            [CutoutField::Width, CutoutField::Depth].map(|name| field(desk, place(name))).collect_view().into_any()
        }
        CutoutShape::Circle => hinted(desk, place(CutoutField::Width), "The diameter."),
        CutoutShape::Polygon => ().into_any(),
    };
    let template = move || (shape.get() == CutoutShape::Polygon).then(|| template_fields(desk, piece, index));
    view! {
        <section class="card" aria-label="Cutout">
            <h2>{format!("Cutout {}", index + 1)}</h2>
            {choice("Shape", shapes, shape.into(), choose)}
            <div class="fields">{size}</div>
            {template}
            {place_fields(desk, piece, index)}
            {reveal_fields(desk, piece, index)}
            {bowl_fields(desk, piece, index)}
            {door_fields(desk, piece)}
            {move || rail_rows(desk, piece, index)}
            {remove_button("Remove this cutout", move || {
                desk.part.set(Selection::Size);
                desk.edit_piece(|piece| piece.remove_cutout(index));
            })}
        </section>
    }
    .into_any()
}

/// The corners of a paper template.
fn template_fields(desk: Desk, piece: usize, index: usize) -> AnyView {
    let count = of_piece(desk, piece, move |piece| Some(piece.cutouts.get(index)?.template.len()));
    let corner = move |corner: usize| {
        let place = |name| FieldPath::Template(piece, index, corner, name);
        view! {
            <div class="reading">
                <h3>{format!("Corner {}", corner + 1)}</h3>
                <div class="fields">{TemplateField::ALL.iter().map(|name| field(desk, place(*name))).collect_view()}</div>
            </div>
        }
    };
    let add = move |_| edit_cutout(desk, index, |cutout| cutout.template.push(TemplateCorner::default()));
    let drop = move |_| {
        edit_cutout(desk, index, |cutout| {
            cutout.template.pop();
        });
    };
    view! {
        <p class="quiet-text">"Lay the template with its front towards you and go round it corner by corner. It is placed by the middle of its width and depth."</p>
        <div class="readings">{move || (0..count.get()).map(corner).collect_view()}</div>
        <div class="row">
            <button type="button" on:click=add>"+ Corner"</button>
            <button type="button" class="danger" on:click=drop>"Remove the last corner"</button>
        </div>
    }
    .into_any()
}

/// Measures a cutout from somewhere else, or says why it cannot be.
fn measure_from(desk: Desk, index: usize, across: Option<AcrossFrom>, along: Option<AlongFrom>) {
    let piece = desk.piece.get_untracked();
    let measured = desk.cast.with_untracked(|all| {
        let mut job = desk.job.get_untracked();
        let top = &all.pieces.get(piece)?.top;
        Some(moving::measure_from(&mut job, top, (piece, index), across, along).map(|()| job))
    });
    match measured {
        Some(Ok(measured)) => {
            desk.job.grow(|job| *job = measured);
        }
        Some(Err(says)) => desk.tell(&says, None),
        None => {}
    }
}

/// What a cutout is measured from, and how far it lies from there.
fn place_fields(desk: Desk, piece: usize, index: usize) -> AnyView {
    let across = of_piece(desk, piece, move |piece| Some(piece.cutouts.get(index)?.across));
    let along = of_piece(desk, piece, move |piece| Some(piece.cutouts.get(index)?.along));
    let sides: Vec<_> = AcrossFrom::ALL.into_iter().map(|from| (from, from.label())).collect();
    let edges: Vec<_> = AlongFrom::ALL.into_iter().map(|from| (from, from.label())).collect();
    let choose_side = Callback::new(move |from| measure_from(desk, index, Some(from), None));
    let choose_edge = Callback::new(move |from| measure_from(desk, index, None, Some(from)));
    let place = move |field| FieldPath::Cutout(piece, index, field);
    let across_field = move || match across.get() {
        AcrossFrom::Left => field(desk, place(CutoutField::FromLeft)),
        AcrossFrom::Right => field(desk, place(CutoutField::FromRight)),
        AcrossFrom::Door => field(desk, place(CutoutField::FromDoor)),
    };
    let along_field = move || match along.get() {
        AlongFrom::Front => field(desk, place(CutoutField::FromFront)),
        AlongFrom::Back => field(desk, place(CutoutField::FromBack)),
    };
    let door = move || (across.get() == AcrossFrom::Door).then(|| door_choice(desk, piece, index));
    view! {
        {choice("Centre measured left to right from", sides, across.into(), choose_side)}
        {door}
        {choice("Centre measured front to back from", edges, along.into(), choose_edge)}
        <div class="fields">{across_field}{along_field}</div>
        <p class="quiet-text">"Ends and edges are the outermost points of the whole outline. Drag it on the plan, or nudge it with the arrow keys: it lands on marks of the tape."</p>
    }
    .into_any()
}

/// The door that a cutout is centred on, and on which side of it.
fn door_choice(desk: Desk, piece: usize, index: usize) -> AnyView {
    let doors = of_piece(desk, piece, |piece| Some(piece.doors.len()));
    let door = of_piece(desk, piece, move |piece| piece.cutouts.get(index).map(|cutout| cutout.door));
    let side = of_piece(desk, piece, move |piece| Some(piece.cutouts.get(index)?.door_side));
    let off = of_piece(desk, piece, move |piece| Some(!piece.cutouts.get(index)?.from_door.is_blank()));
    let choose_door = Callback::new(move |door| edit_cutout(desk, index, |cutout| cutout.door = Some(door)));
    let sides = vec![(Hand::Left, "Left of the door's centre"), (Hand::Right, "Right of it")];
    let choose_side = Callback::new(move |side| edit_cutout(desk, index, |cutout| cutout.door_side = side));
    view! {
        {move || numbered_choice("Which door", "Door", doors.get(), door, choose_door)}
        {move || off.get().then(|| choice("It lies", sides.clone(), side.into(), choose_side))}
    }
    .into_any()
}

/// How the hole stands to the rim of an undermount bowl.
fn reveal_fields(desk: Desk, piece: usize, index: usize) -> AnyView {
    let reveal = of_piece(desk, piece, move |piece| Some(piece.cutouts.get(index)?.reveal));
    let reveals: Vec<_> = Reveal::ALL.into_iter().map(|reveal| (reveal, reveal.label())).collect();
    let choose = Callback::new(move |reveal| edit_cutout(desk, index, |cutout| cutout.reveal = reveal));
    let place = FieldPath::Cutout(piece, index, CutoutField::RevealWidth);
    let width = move || match reveal.get() {
        Reveal::Flush => None,
        Reveal::Shows | Reveal::Covers => Some(field(desk, place)),
        Reveal::DropIn => Some(labelled(desk, place, "Ledge", Signal::derive(move || hints::ledge(desk.units())))),
    };
    let help = move || match reveal.get() {
        Reveal::Flush => {
            "Which size is typed: the hole's, or that of a rim? The hole is cut as large as typed, as for a drain or by the \
             bowl's template. Of a drop-in bowl's rim it would let the bowl fall through: choose “Drop-in, by its rim”."
        }
        Reveal::Shows => "The sizes are the bowl's; the hole is larger by the reveal all round, and the rim shows.",
        Reveal::Covers => {
            "The sizes are the bowl's; the hole is smaller by the reveal all round, and the top hangs over."
        }
        Reveal::DropIn => {
            "The sizes are the rim's; the hole is smaller by the ledge all round, so that the rim lies on the top. Ask \
             for the template of the bowl: it outranks any rule."
        }
    };
    view! {
        {choice("Bowl and hole", reveals, reveal.into(), choose)}
        <div class="fields">{width}</div>
        <p class="quiet-text">{help}</p>
    }
    .into_any()
}

/// What hangs in a cutout, which the top bears.
fn bowl_fields(desk: Desk, piece: usize, index: usize) -> AnyView {
    let place = move |field| FieldPath::Cutout(piece, index, field);
    let fields = [CutoutField::BowlDepth, CutoutField::BowlWeight].map(|name| field(desk, place(name))).collect_view();
    view! {
        <div class="fields">{fields}</div>
        <p class="quiet-text">"In use the top is worked out with the bowl full of water."</p>
    }
    .into_any()
}

/// The cabinet doors below the piece, and every cutout onto one of its own.
fn door_fields(desk: Desk, piece: usize) -> AnyView {
    let counts = of_piece(desk, piece, |piece| Some((piece.doors.len(), piece.cutouts.len())));
    let doors = Memo::new(move |_| counts.get().0);
    let door = move |index: usize| {
        let drop = move |_| {
            desk.edit_piece(|piece| piece.remove_door(index));
        };
        view! {
            <div class="reading">
                <h3>{format!("Door {}", index + 1)}</h3>
                <div class="fields">
                    {field(desk, FieldPath::Door(piece, index, DoorField::FromLeft))}
                    <button type="button" class="danger" on:click=drop>"Remove"</button>
                </div>
            </div>
        }
    };
    let add = move |_| {
        let index = desk.edit_piece(|piece| {
            piece.doors.push(Door::default());
            piece.doors.len() - 1
        });
        if let Some(index) = index {
            super::dom::focus_on(FieldPath::Door(piece, index, DoorField::FromLeft).key());
        }
    };
    let center_all = move |_| {
        let mut job = desk.job.get_untracked();
        if center_on_doors(&mut job, piece) {
            desk.job.set(job);
        } else {
            desk.tell("Type the centre of every door first.", None);
        }
    };
    let offer = move || {
        let (doors, cutouts) = counts.get();
        let words = if cutouts == 1 { "Centre the cutout on the door" } else { "Centre the cutouts on the doors" };
        (doors == cutouts && doors > 0)
            .then(|| view! { <button type="button" id="center-on-doors" on:click=center_all>{words}</button> })
    };
    view! {
        <div class="readings">{move || (0..doors.get()).map(door).collect_view()}</div>
        <div class="row">
            <button type="button" id="add-door" on:click=add>"+ Cabinet door"</button>
            {offer}
        </div>
    }
    .into_any()
}

/// The fields of one set of faucet holes.
pub fn holes_fields(desk: Desk, piece: usize, index: usize) -> AnyView {
    let pattern = of_piece(desk, piece, move |piece| Some(piece.holes.get(index)?.pattern));
    let patterns = vec![(HolePattern::Single, "One hole"), (HolePattern::Three, "Three holes")];
    let choose = Callback::new(move |pattern| edit_holes(desk, index, |set| set.pattern = pattern));
    let placed = of_piece(desk, piece, move |piece| Some(piece.holes.get(index)?.placed));
    let choose_placed = Callback::new(move |placed| {
        desk.edit_piece(|piece| {
            let cutouts = piece.cutouts.len();
            if let Some(set) = piece.holes.get_mut(index) {
                set.placed = placed;
                if placed == HolesFrom::Bowl && set.cutout.is_none() && cutouts > 0 {
                    set.cutout = Some(index.min(cutouts - 1));
                }
            }
        });
    });
    let froms = vec![(HolesFrom::Edges, "Left end and front edge"), (HolesFrom::Bowl, "Centred on a bowl")];
    let place = move |field| FieldPath::Holes(piece, index, field);
    let spread = move || (pattern.get() == HolePattern::Three).then(|| field(desk, place(HolesField::Spread)));
    let cutouts = of_piece(desk, piece, |piece| Some(piece.cutouts.len()));
    let bowl = of_piece(desk, piece, move |piece| piece.holes.get(index).map(|set| set.cutout));
    let choose_bowl = Callback::new(move |bowl| edit_holes(desk, index, |set| set.cutout = Some(bowl)));
    let which = move || {
        (placed.get() == HolesFrom::Bowl)
            .then(|| numbered_choice("Which bowl", "Cutout", cutouts.get(), bowl, choose_bowl))
    };
    let where_from = move || match placed.get() {
        HolesFrom::Edges => {
            [HolesField::FromLeft, HolesField::FromFront].map(|name| field(desk, place(name))).collect_view().into_any()
        }
        HolesFrom::Bowl => field(desk, place(HolesField::Behind)),
    };
    view! {
        <section class="card" aria-label="Faucet holes">
            <h2>{format!("Holes {}", index + 1)}</h2>
            {choice("Pattern", patterns, pattern.into(), choose)}
            {choice("Measured from", froms, placed.into(), choose_placed)}
            {which}
            <div class="fields">
                {field(desk, place(HolesField::Diameter))}
                {spread}
                {where_from}
            </div>
            {remove_button("Remove these holes", move || {
                desk.part.set(Selection::Size);
                desk.edit_piece(|piece| if index < piece.holes.len() { piece.holes.remove(index); });
            })}
        </section>
    }
    .into_any()
}
