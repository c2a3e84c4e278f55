//! What is chosen for the form and for the steel: fields and buttons, no numbers.

use super::super::desk::Desk;
use super::super::field::{choice, explained, field, folded, list};
use crate::job::{
    BarSize, Bend, EdgeKind, FieldPath, FormChoices, FormFace, FormField, Hand, Job, Lath, Layer, LayerField, LayerOf,
    LowSide, PieceField, Reinforcement, SheetField, SheetStock, SideStand, SteelField,
};
use crate::measure::Units;
use leptos::prelude::*;

/// A choice of the form, read and made in one place.
fn form_choice<T: Copy + PartialEq + Send + Sync + 'static>(
    desk: Desk,
    legend: &'static str,
    options: Vec<(T, &'static str)>,
    read: fn(&FormChoices) -> T,
    write: fn(&mut FormChoices, T),
) -> AnyView {
    let chosen = Memo::new(move |_| desk.job.with(|job| read(&job.form)));
    choice(
        legend,
        options,
        chosen.into(),
        Callback::new(move |value| desk.job.update(|job| write(&mut job.form, value))),
    )
}

fn form_fields(desk: Desk, fields: &'static [FormField]) -> AnyView {
    fields.iter().map(|name| field(desk, FieldPath::Form(*name))).collect_view().into_any()
}

/// Some piece of the job has an edge of that kind.
fn has_edge(job: &Job, kind: EdgeKind) -> bool {
    job.pieces.iter().any(|piece| (0..piece.sides()).any(|side| piece.edge(side).kind == kind))
}

/// Boards, and what grinding asks for.
pub fn boards(desk: Desk) -> AnyView {
    let piece = move || desk.piece.get();
    let stands = vec![(SideStand::OnEdge, "On the base's edge"), (SideStand::OnBase, "Standing on the base")];
    let faces = FormFace::ALL.into_iter().map(|face| (face, face.label())).collect();
    let bends = Bend::ALL.into_iter().map(|bend| (bend, bend.label())).collect();
    view! {
        <section class="card" aria-label="Form">
            <h2>"How it is built"</h2>
            <div class="fields">
                {field(desk, FieldPath::Form(FormField::Board))}
                {field(desk, FieldPath::Form(FormField::Supports))}
                {move || field(desk, FieldPath::Piece(piece(), PieceField::Grinding))}
            </div>
            {form_choice(desk, "The face is cast on", faces, |form| form.face, |form, face| form.face = face)}
            {form_choice(desk, "Sides", stands, |form| form.sides, |form, sides| form.sides = sides)}
            <details>
                <summary>"Arcs, screws, silicone"</summary>
                {form_choice(desk, "Along an arc", bends, |form| form.bend, |form, bend| form.bend = bend)}
                <div class="fields">
                    {form_fields(desk, &[FormField::Strip, FormField::StripBend, FormField::Screws, FormField::Bead, FormField::Cartridge])}
                </div>
            </details>
        </section>
    }
    .into_any()
}

/// The liner, where an edge has one.
pub fn liner(desk: Desk) -> AnyView {
    let lined = Memo::new(move |_| desk.job.with(|job| has_edge(job, EdgeKind::Lined)));
    let card = move || {
        lined.get().then(|| {
            let fields = view! {
                <div class="fields">
                    {form_fields(desk, &[FormField::LinerLength, FormField::LinerOwned])}
                    {field(desk, FieldPath::Form(FormField::LinerHeight))}
                    {form_fields(desk, &[FormField::LinerPast, FormField::LinerBend])}
                </div>
            };
            folded("Your liner", fields.into_any())
        })
    };
    view! { {card} }.into_any()
}

/// What knockouts are stacked from.
pub fn layers(desk: Desk) -> AnyView {
    let count = Memo::new(move |_| desk.job.with(|job| job.form.layers.len()));
    let layer = move |index: usize| {
        let of =
            Memo::new(move |_| desk.job.with(|job| job.form.layers.get(index).map_or(LayerOf::Foam, |one| one.of)));
        let choose = Callback::new(move |of| {
            desk.job.update(|job| {
                if let Some(layer) = job.form.layers.get_mut(index) {
                    layer.of = of;
                }
            });
        });
        let kinds = LayerOf::ALL.into_iter().map(|of| (of, of.label())).collect();
        view! {
            <div class="fields">
                {field(desk, FieldPath::Layer(index, LayerField::Thickness))}
                {choice("What it is", kinds, of.into(), choose)}
            </div>
        }
    };
    let add = move |_| {
        desk.job.grow(|job| job.form.layers.push(Layer::default()));
    };
    let drop = move |_| desk.job.update(|job| drop(job.form.layers.pop()));
    let content = view! {
        <p class="quiet-text">
            {explained("Rigid foam comes first: a knockout of wood wedges, and that is what cracks the rails beside a sink.")}
        </p>
        {move || (0..count.get()).map(layer).collect_view()}
        <div class="row">
            <button type="button" on:click=add>"+ Thickness"</button>
            <button type="button" class="danger" disabled=move || count.get() == 0 on:click=drop>"Remove the last"</button>
        </div>
        <div class="fields">{field(desk, FieldPath::Form(FormField::Draft))}</div>
    };
    folded("Foam and board for knockouts", content.into_any())
}

/// The sheets that parts are cut from.
pub fn sheets(desk: Desk) -> AnyView {
    let count = Memo::new(move |_| desk.job.with(|job| job.form.sheets.len()));
    let sheet = move |index: usize| {
        let fields = SheetField::ALL.iter().map(|name| field(desk, FieldPath::Sheet(index, *name)));
        view! { <div class="fields">{fields.collect_view()}</div> }
    };
    let add = move |_| {
        desk.job.grow(|job| job.form.sheets.push(SheetStock { owned: "1".into(), ..SheetStock::default() }));
    };
    let nominal = move |_| {
        desk.job.grow(|job| {
            let [width, length] = if job.units == Units::Metric { ["1250", "2500"] } else { ["48", "96"] };
            job.form.sheets.push(SheetStock { width: width.into(), length: length.into(), ..SheetStock::default() });
        });
    };
    let drop = move |_| desk.job.update(|job| drop(job.form.sheets.pop()));
    let content = view! {
        {move || (0..count.get()).map(sheet).collect_view()}
        <div class="row">
            <button type="button" on:click=add>"+ Off-cut"</button>
            <button type="button" on:click=nominal>"+ Another sheet size"</button>
            <button type="button" class="danger" disabled=move || count.get() == 0 on:click=drop>"Remove the last"</button>
        </div>
        <div class="fields">{form_fields(desk, &[FormField::Kerf, FormField::Keep])}</div>
    };
    folded("Sheets and saw", content.into_any())
}

/// How far the form is out of level.
pub fn level(desk: Desk) -> AnyView {
    let ends = vec![(Hand::Left, "Left"), (Hand::Right, "Right")];
    let sides = LowSide::ALL.into_iter().map(|side| (side, side.label())).collect();
    let content = view! {
        <p class="quiet-text">"Lay a level on the form. Ends are those of the finished top, as the form drawing names them."</p>
        {form_choice(desk, "Low end", ends, |form| form.low_end, |form, end| form.low_end = end)}
        <div class="fields">{field(desk, FieldPath::Form(FormField::EndFall))}</div>
        {form_choice(desk, "Low side", sides, |form| form.low_side, |form, side| form.low_side = side)}
        <div class="fields">{field(desk, FieldPath::Form(FormField::SideFall))}</div>
    };
    folded("Is it level?", content.into_any())
}

/// Lath and bars of the chosen piece.
pub fn steel(desk: Desk, piece: usize) -> AnyView {
    let of = move |read: fn(&Reinforcement) -> bool| {
        Memo::new(move |_| desk.job.with(|job| job.pieces.get(piece).is_some_and(|piece| read(&piece.reinforcement))))
    };
    let has_lath = of(|steel| steel.lath != Lath::None);
    let has_bars = of(|steel| steel.bars != BarSize::None);
    let lath =
        Memo::new(move |_| desk.job.with(|job| job.pieces.get(piece).map_or(Lath::None, |one| one.reinforcement.lath)));
    let bars = Memo::new(move |_| {
        desk.job.with(|job| job.pieces.get(piece).map_or(BarSize::None, |one| one.reinforcement.bars))
    });
    let choose_lath = Callback::new(move |lath| {
        desk.edit_piece(|piece| piece.reinforcement.lath = lath);
    });
    let choose_bars = Callback::new(move |bars| {
        desk.edit_piece(|piece| piece.reinforcement.bars = bars);
    });
    let place = move |name| FieldPath::Steel(piece, name);
    let fields = move |names: &'static [SteelField]| names.iter().map(|name| field(desk, place(*name))).collect_view();
    view! {
        <section class="card" aria-label="Reinforcement">
            <h2>"Reinforcement"</h2>
            {choice("Lath", Lath::ALL.into_iter().map(|one| (one, one.label())).collect(), lath.into(), choose_lath)}
            {list("bars", "Bars along the rails", BarSize::ALL.into_iter().map(|one| (one, one.label())).collect(), bars.into(), choose_bars)}
            <div class="fields">
                {move || has_bars.get().then(|| field(desk, place(SteelField::BarHeight)))}
                {move || has_bars.get().then(|| field(desk, place(SteelField::RailsTo)))}
                {move || (has_lath.get() || has_bars.get()).then(|| fields(&[SteelField::OffEdges]))}
            </div>
            {move || has_lath.get().then(|| view! {
                <details>
                    <summary>"Lath as bought"</summary>
                    <div class="fields">{fields(&[SteelField::Layers, SteelField::LathWidth, SteelField::LathLength, SteelField::Lap])}</div>
                </details>
            })}
            <div class="fields">
                {field(desk, FieldPath::Piece(piece, PieceField::Steel))}
            </div>
        </section>
    }
    .into_any()
}
