//! The shape of a piece: sizes, corners, the opening it stands in, or a walk around it.

use super::desk::Desk;
use super::field::{choice, field, labelled, list};
use super::figures::{Shown, plain_row, row, waits};
use super::scale::scale_buttons;
use super::sides::side_choice;
use crate::draw::Selection;
use crate::job::{
    CornerField, CornerKind, EdgeKind, FieldPath, Hand, LegField, Measured, OpeningField, OpeningReading, OpeningWalls,
    OutlineShape, Piece, PieceField, PieceKind, ReadingField, Station, StationField,
};
use crate::measure::{Units, write_length};
use crate::room::{Corner, words};
use crate::top::Surveyed;
use crate::working::Known;
use leptos::prelude::*;

/// The fields of the shape as a whole.
pub fn shape_fields(desk: Desk, piece: usize) -> AnyView {
    let shape = Memo::new(move |_| {
        desk.job.with(|job| job.pieces.get(piece).map_or(OutlineShape::Rectangle, |piece| piece.shape))
    });
    let shapes: Vec<_> = OutlineShape::ALL.into_iter().map(|shape| (shape, shape.label())).collect();
    let choose = Callback::new(move |shape: OutlineShape| {
        desk.edit_piece(|piece| {
            piece.take_shape(shape);
            if shape == OutlineShape::Opening {
                stand_between(piece, piece.opening.walls);
            }
        });
    });
    let kind =
        Signal::derive(move || desk.job.with(|job| job.pieces.get(piece).map_or(PieceKind::Top, |piece| piece.kind)));
    let kinds: Vec<_> = PieceKind::ALL.into_iter().map(|kind| (kind, kind.label())).collect();
    let choose_kind = Callback::new(move |kind| {
        desk.edit_piece(|piece| piece.kind = kind);
    });
    let place = move |name| FieldPath::Piece(piece, name);
    let several = move || desk.job.with(|job| job.pieces.len() > 1);
    let sizes = move || {
        let fields: &[PieceField] = match shape.get() {
            OutlineShape::Rectangle => &[PieceField::Width, PieceField::Depth],
            OutlineShape::L => &[PieceField::Width, PieceField::Depth, PieceField::Leg, PieceField::FrontDepth],
            OutlineShape::U => &[
                PieceField::Width,
                PieceField::Depth,
                PieceField::Leg,
                PieceField::RightLeg,
                PieceField::RightDepth,
                PieceField::FrontDepth,
            ],
            OutlineShape::Walked | OutlineShape::Opening => &[],
        };
        fields.iter().map(|name| field(desk, place(*name))).collect_view()
    };
    let more = move || match shape.get() {
        OutlineShape::L => hand_choice(desk, piece),
        OutlineShape::Opening => opening_fields(desk, piece),
        OutlineShape::Walked => walk_fields(desk, piece),
        OutlineShape::Rectangle | OutlineShape::U => ().into_any(),
    };
    view! {
        <section class="card" aria-label="Size">
            <h2>"Finished size"</h2>
            <div class="fields">
                {list("shape", "Shape", shapes, shape.into(), choose)}
                {sizes}
                {field(desk, place(PieceField::Thickness))}
                {field(desk, place(PieceField::Bow))}
            </div>
            {more}
            <div class="fields">{list("piece-kind", "What it is", kinds, kind, choose_kind)}</div>
            <div class="fields">{field(desk, place(PieceField::Name))}</div>
            {scale_buttons(desk)}
            <div class="row">
                {move || several().then(|| view! {
                    <button type="button" class="danger" on:click=move |_| desk.job.remove_piece()>"Remove this piece"</button>
                })}
            </div>
        </section>
        {move || seam_row(desk, piece)}
        {move || (shape.get() == OutlineShape::Opening).then(|| survey_card(desk, piece))}
    }
    .into_any()
}

/// Puts a piece between those walls: its edges there are wall edges, others are not.
fn stand_between(piece: &mut Piece, walls: OpeningWalls) {
    piece.opening.walls = walls;
    let (right, left) = match walls {
        OpeningWalls::Three => (true, true),
        OpeningWalls::BackAndLeft => (false, true),
        OpeningWalls::BackAndRight => (true, false),
        OpeningWalls::Back => (false, false),
    };
    for (side, wall) in [(1, right), (2, true), (3, left)] {
        let kind = &mut piece.edge_mut(side).kind;
        match (*kind, wall) {
            (EdgeKind::Plain, true) => *kind = EdgeKind::Wall,
            (EdgeKind::Wall, false) => *kind = EdgeKind::Plain,
            _ => {}
        }
    }
}

/// The seams that are suggested, to tap for their working; nothing while the piece is cast whole.
fn seam_row(desk: Desk, piece: usize) -> Option<AnyView> {
    let plan = desk.cast.with(|all| all.pieces.get(piece)?.seams.as_ref().ok()?.plan().cloned())?;
    let at: Vec<_> = plan.seams.iter().map(|seam| write_length(*seam, desk.units()).to_string()).collect();
    let shown = Shown { text: at.join(", "), working: plan.working };
    Some(view! { <section class="card" aria-label="Seams"><div class="figures">{row(desk, "Seams", Ok(shown))}</div></section> }.into_any())
}

fn hand_choice(desk: Desk, piece: usize) -> AnyView {
    let hand =
        Signal::derive(move || desk.job.with(|job| job.pieces.get(piece).map_or(Hand::Left, |piece| piece.hand)));
    let choose = Callback::new(move |hand| {
        desk.edit_piece(|piece| piece.take_hand(hand));
    });
    choice("The leg stands", vec![(Hand::Left, "At the left end"), (Hand::Right, "At the right end")], hand, choose)
}

/// The fields of one corner.
pub fn corner_fields(desk: Desk, piece: usize, side: usize) -> AnyView {
    let kind = Memo::new(move |_| {
        desk.job.with(|job| job.pieces.get(piece).map_or(CornerKind::Square, |piece| piece.corner(side).kind))
    });
    let kinds: Vec<_> = CornerKind::ALL.into_iter().map(|kind| (kind, kind.label())).collect();
    let choose = Callback::new(move |kind| {
        desk.edit_piece(|piece| piece.corner_mut(side).kind = kind);
    });
    let place = move |name| FieldPath::Corner(piece, side, name);
    let sizes = move || {
        let fields: &[CornerField] = match kind.get() {
            CornerKind::Square => &[],
            CornerKind::Rounded => &[CornerField::Radius],
            CornerKind::Clipped => &[CornerField::Before, CornerField::After],
        };
        fields.iter().map(|name| field(desk, place(*name))).collect_view()
    };
    // A square corner has no radius to go to: this is where it gets one.
    let instead = move || (kind.get() == CornerKind::Square).then(|| place(CornerField::Radius).key());
    view! {
        <section class="card" aria-label="Corners">
            <h2>"Corners"</h2>
            {side_choice(desk, "Which corner", side, Selection::Corner, |piece, side| piece.corner_name(side))}
            <div id=instead tabindex="-1">{choice("What it is", kinds, kind.into(), choose)}</div>
            <div class="fields">{sizes}</div>
            <p class="quiet-text">"Two corners rounded with half of the side between them make it a full round."</p>
        </section>
    }
    .into_any()
}

/// The readings of the opening, and what the piece leaves free or runs out.
fn opening_fields(desk: Desk, piece: usize) -> AnyView {
    let walls = Signal::derive(move || {
        desk.job.with(|job| job.pieces.get(piece).map_or(OpeningWalls::Three, |piece| piece.opening.walls))
    });
    let choices: Vec<_> = OpeningWalls::ALL.into_iter().map(|walls| (walls, walls.label())).collect();
    let choose = Callback::new(move |walls| {
        desk.edit_piece(|piece| stand_between(piece, walls));
    });
    let taken = Memo::new(move |_| {
        desk.job.with(|job| {
            let readings = job.pieces.get(piece).map(|piece| &piece.opening.readings);
            readings.map_or_else(Vec::new, |readings| readings.iter().map(|reading| reading.of).collect::<Vec<_>>())
        })
    });
    let add = move |event: leptos::ev::Event| {
        let chosen = event_target_value(&event);
        let Some(of) = Measured::ALL.into_iter().find(|of| of.label() == chosen) else { return };
        let index = desk.edit_piece(|piece| {
            piece.opening.readings.push(OpeningReading::new(of));
            piece.opening.readings.len() - 1
        });
        if let Some(index) = index {
            let first = if of.is_corner() { ReadingField::OneLeg } else { ReadingField::Length };
            super::dom::focus_on(FieldPath::Reading(piece, index, first).key());
        }
    };
    let options =
        Measured::ALL.into_iter().map(|of| view! { <option value=of.label()>{of.label()}</option> }).collect_view();
    let place = move |name| FieldPath::Opening(piece, name);
    view! {
        {choice("Walls", choices, walls, choose)}
        {move || reading_list(desk, piece, taken.get())}
        <div class="field">
            <label for="add-reading">"Add a corner by marks, or a reading taken again"</label>
            <select id="add-reading" on:change=add>
                <option value="">"Choose what was measured"</option>
                {options}
            </select>
        </div>
        <p class="quiet-text">"A corner by three marks: mark both walls, say 24 in out from the corner, and measure between the marks."</p>
        <div class="fields">
            {OpeningField::ALL.iter().map(|name| field(desk, place(*name))).collect_view()}
        </div>
        {station_fields(desk, piece)}
    }
    .into_any()
}

fn reading_list(desk: Desk, piece: usize, taken: Vec<Measured>) -> AnyView {
    let reading = |(index, of): (usize, Measured)| {
        let place = |name| FieldPath::Reading(piece, index, name);
        let again = taken.iter().take(index).any(|other| *other == of);
        let fields: &[ReadingField] = if of.is_corner() {
            &[ReadingField::OneLeg, ReadingField::OtherLeg, ReadingField::Between]
        } else {
            &[ReadingField::Length]
        };
        let remove = (of.is_corner() || again).then(|| {
            let drop = move |_| {
                desk.edit_piece(|piece| {
                    if index < piece.opening.readings.len() {
                        piece.opening.readings.remove(index);
                    }
                });
            };
            view! { <button type="button" class="danger" on:click=drop>"Remove"</button> }
        });
        if !of.is_corner() && !again {
            return labelled(desk, place(ReadingField::Length), of.label(), Signal::default());
        }
        view! {
            <div class="reading">
                <h3>{of.label()} {again.then_some(", again")}</h3>
                <div class="fields">
                    {fields.iter().map(|name| field(desk, place(*name))).collect_view()}
                    {remove}
                </div>
            </div>
        }
        .into_any()
    };
    view! { <div class="fields readings">{taken.iter().copied().enumerate().map(reading).collect_view()}</div> }
        .into_any()
}

/// Stations along a bowed back wall.
fn station_fields(desk: Desk, piece: usize) -> AnyView {
    let count =
        Memo::new(move |_| desk.job.with(|job| job.pieces.get(piece).map_or(0, |piece| piece.opening.stations.len())));
    let station = move |index: usize| {
        let place = |name| FieldPath::Station(piece, index, name);
        let drop = move |_| {
            desk.edit_piece(|piece| {
                if index < piece.opening.stations.len() {
                    piece.opening.stations.remove(index);
                }
            });
        };
        view! {
            <div class="fields">
                {StationField::ALL.iter().map(|name| field(desk, place(*name))).collect_view()}
                <button type="button" class="danger" on:click=drop>"Remove"</button>
            </div>
        }
    };
    let add = move |_| {
        desk.edit_piece(|piece| piece.opening.stations.push(Station::default()));
    };
    view! {
        <details>
            <summary>"The back wall bows"</summary>
            <p class="quiet-text">"Hold a straightedge along the wall and measure the gap behind it, every foot or so."</p>
            {move || (0..count.get()).map(station).collect_view()}
            <div class="row"><button type="button" on:click=add>"+ Station"</button></div>
        </details>
    }
    .into_any()
}

/// The sides of a piece walked corner by corner.
fn walk_fields(desk: Desk, piece: usize) -> AnyView {
    let count = Memo::new(move |_| desk.job.with(|job| job.pieces.get(piece).map_or(0, |piece| piece.walk.len())));
    let side = move |index: usize| {
        let place = |name| FieldPath::Leg(piece, index, name);
        view! {
            <div class="reading">
                <h3>{format!("Side {}", index + 1)}</h3>
                <div class="fields">{LegField::ALL.iter().map(|name| field(desk, place(*name))).collect_view()}</div>
            </div>
        }
    };
    let closure = move || {
        desk.cast.with(|all| match &all.pieces.get(piece)?.top.walked {
            Some(Ok(walk)) => Some(words::closure(walk, desk.units())),
            _ => None,
        })
    };
    let add = move |_| {
        desk.edit_piece(Piece::add_walked_side);
    };
    let drop = move |_| {
        desk.edit_piece(Piece::remove_walked_side);
    };
    view! {
        <p class="quiet-text">"Walk round it counter-clockwise from the front left corner: each side's length, and the inside angle where it begins."</p>
        {move || (0..count.get()).map(side).collect_view()}
        <div class="row">
            <button type="button" on:click=add>"+ Side"</button>
            <button type="button" class="danger" on:click=drop>"Remove the last side"</button>
        </div>
        <p id="closure">{closure}</p>
    }
    .into_any()
}

/// What the tape says of the opening, and how the piece goes in.
fn survey_card(desk: Desk, piece: usize) -> AnyView {
    let surveyed = Memo::new(move |_| desk.cast.with(|all| all.pieces.get(piece)?.top.surveyed.clone()));
    view! {
        <section class="card" aria-label="What the tape says" aria-live="polite">
            <h2>"What the tape says"</h2>
            {move || surveyed.get().map(|known| survey_rows(desk, known, desk.units()))}
        </section>
    }
    .into_any()
}

fn survey_rows(desk: Desk, known: Known<Surveyed>, units: Units) -> AnyView {
    let surveyed = match known {
        Ok(surveyed) => surveyed,
        Err(waiting) => return waits(desk, &waiting),
    };
    let survey = &surveyed.survey;
    let angle = |(corner, angle): (Corner, &crate::room::CornerAngle)| {
        let uncertain = match angle.uncertainty.value > 0.0 {
            true => format!(" ± {}", words::angle(angle.uncertainty)),
            false => String::new(),
        };
        plain_row(format!("Corner {}", words::corner(corner)), format!("{}{uncertain}", words::angle(angle.angle)))
    };
    let angles = Corner::ALL.into_iter().zip(&survey.angles).map(angle).collect_view();
    let ways = match &surveyed.ways {
        Ok(ways) => {
            let named = [
                ("Lowered from above", ways.lowered),
                ("Slid in from the front", ways.slid),
                ("Tilted in", ways.tilted),
            ];
            named
                .into_iter()
                .map(|(name, way)| plain_row(name, words::margin(way.margin, units)))
                .collect_view()
                .into_any()
        }
        Err(waiting) => waits(desk, &waiting.clone()),
    };
    let hiding = surveyed.hiding.as_ref().map(|hiding| match hiding {
        Ok(hiding) => view! { <p>{words::hiding(hiding, units)}</p> }.into_any(),
        Err(waiting) => waits(desk, &waiting.clone()),
    });
    let agreement = &survey.agreement;
    let chance = (agreement.degrees_of_freedom > 0).then(|| {
        plain_row(
            format!("χ², {} spare", agreement.degrees_of_freedom),
            format!("{:.1}; by chance under {:.1}", agreement.chi_square, agreement.critical),
        )
    });
    view! {
        <p>{words::agreement(survey, &surveyed.readings, units)}</p>
        <div class="figures">
            {angles}
            {plain_row("Greatest disagreement", write_length(survey.misclosure, units).to_string())}
            {chance}
        </div>
        <h3>"The way in"</h3>
        <div class="figures">{ways}</div>
        {hiding}
    }
    .into_any()
}
