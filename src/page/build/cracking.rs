//! Will it crack: the worst case first, the map, and what would help.
//!
//! The hand check stands at once. The map is the one that [`super::super::verdicts`] asks for by itself; looking at a
//! case asks what would help there.

use super::super::desk::{Desk, Overlay};
use super::super::field::{choice, field, list};
use super::super::figures::{plain_row, row, show, waits};
use crate::draw::{Stress, stress_map};
use crate::job::{Back, Carried, FieldPath, Handling, HandlingField, Job, Rest, SinkBay, Stripped, Travels};
use crate::measure::{Units, write_number, write_percent};
use crate::strength::ask::{Question, Verdict};
use crate::strength::bracket::{Hung, NOT_JUDGED, of_cabinet};
use crate::strength::cases::{Age, LoadCase};
use crate::strength::check::Cracking;
use crate::strength::reading::Face;
use crate::strength::remedy::Remedy;
use crate::strength::verdict::Solved;
use crate::strength::{fix, said};
use crate::working::Known;
use leptos::prelude::*;
use std::sync::Arc;

/// What the card shows.
#[derive(Clone, Copy)]
struct State {
    /// The last answer; it may be to an earlier question.
    solved: Memo<Option<Arc<Solved>>>,
    /// What would help in the case of that index; nothing while it is worked out.
    remedies: Memo<Option<(usize, Vec<Remedy>)>>,
    /// Why there is no map.
    failed: Memo<Option<String>>,
    /// Not all cases of what is asked are known.
    busy: Memo<bool>,
    /// The case to look at; the worst where none is chosen.
    chosen: RwSignal<Option<LoadCase>>,
}

impl State {
    fn new(desk: Desk, known: Memo<Option<Known<Cracking>>>) -> Self {
        let verdicts = desk.worked.verdicts;
        let failed = Memo::new(move |_| known.with(|known| verdicts.failure(question_of(known)?)));
        let answer = move || known.with(|known| verdicts.answer(question_of(known)?));
        let solved = Memo::new_with_compare(
            move |before: Option<&Option<Arc<Solved>>>| match failed.with(Option::is_some) {
                true => None,
                false => answer().or_else(|| before.cloned().flatten()),
            },
            |before, now| !is_same(before, now),
        );
        let busy = Memo::new(move |_| {
            let asked = known.with(|known| question_of(known).is_some()) && failed.with(Option::is_none);
            asked && !answer().is_some_and(|solved| solved.is_whole())
        });
        let chosen = RwSignal::new(None);
        let remedies = Memo::new(move |_| {
            let solved = solved.get()?;
            let index = index_of(&solved, chosen.get())?;
            let found = verdicts.answer(&solved.question)?.helps_in(index)?.to_vec();
            Some((index, found))
        });
        known.with_untracked(|known| {
            if let Some(question) = question_of(known) {
                verdicts.ask_again(question);
            }
        });
        Effect::new(move |_| {
            let looked_at = solved.get().and_then(|solved| {
                let index = index_of(&solved, chosen.get())?;
                Some((solved.question.clone(), index))
            });
            verdicts.look_at(looked_at);
        });
        on_cleanup(move || verdicts.look_at(None));
        Self { solved, remedies, failed, busy, chosen }
    }
}

/// What a piece asks, once all that is known.
fn question_of(known: &Option<Known<Cracking>>) -> Option<&Question> {
    Some(&known.as_ref()?.as_ref().ok()?.question)
}

/// The same cases of the same question. More cases are drawn anew, and not what would help in them: that would take the
/// map from under the finger.
fn is_same(before: Option<&Option<Arc<Solved>>>, now: Option<&Option<Arc<Solved>>>) -> bool {
    match (before, now) {
        (Some(Some(before)), Some(Some(now))) => {
            before.cases.len() == now.cases.len() && before.question == now.question
        }
        (Some(None), Some(None)) => true,
        _ => false,
    }
}

/// The case to look at: the chosen one, else the worst.
fn index_of(solved: &Solved, chosen: Option<LoadCase>) -> Option<usize> {
    let of_kind = chosen.and_then(|kind| solved.cases.iter().position(|case| case.kind == kind));
    of_kind.or_else(|| solved.order().first().copied())
}

/// The card.
pub fn cracking(desk: Desk, piece: usize) -> AnyView {
    let known = Memo::new(move |_| desk.worked.piece(piece).map(|one| one.cracking.clone()));
    let state = State::new(desk, known);
    let body = move || match known.get() {
        Some(Err(waiting)) => view! {
            <p>"What cracks a top is a pull in its thinnest strips. To work it out, this is still needed:"</p>
            {waits(desk, &waiting)}
        }
        .into_any(),
        Some(Ok(cracking)) => {
            let cracking = Arc::new(cracking);
            let (for_case, for_hand) = (Arc::clone(&cracking), Arc::clone(&cracking));
            view! {
                {for_hand.stands.clone().map(|words| view! { <p class="quiet-text" id="stands">{words}</p> })}
                {by_hand(desk, &for_hand)}
                {move || progress(state)}
                {move || verdict_view(desk, piece, state, &for_case)}
            }
            .into_any()
        }
        None => ().into_any(),
    };
    view! {
        <section class="card cracking" aria-label="Will it crack?">
            <h2>"Will it crack?"</h2>
            <div class="fields">
                {field(desk, FieldPath::Handling(piece, HandlingField::StrippedAt))}
                {field(desk, FieldPath::Handling(piece, HandlingField::Strength))}
            </div>
            {hands(desk, piece)}
            {body}
            {more(desk, piece)}
            <details>
                <summary>"What this is, and what it is not"</summary>
                <p class="quiet-text">
                    "The top is worked out as a thin plate of the concrete alone. At corners, holes and supports the pull told "
                    "is the mean over one thickness, never a single-point peak: that would grow with every finer mesh. "
                    "Not modelled: steel and fibres, shrinkage and temperature, hidden cracks and cold joints, a blow or a fall, "
                    "a twisted form. Pulls, shares and sags are estimates for planning. Local codes and a licensed engineer "
                    "have the last word."
                </p>
            </details>
        </section>
    }
    .into_any()
}

/// A choice of the handling of a piece.
fn handling<T: Copy + PartialEq + Send + Sync + 'static>(
    desk: Desk,
    piece: usize,
    read: fn(&Handling) -> T,
    write: fn(&mut Handling, T),
) -> (Memo<Option<T>>, Callback<Option<T>>) {
    let chosen = Memo::new(move |_| desk.job.with(|job| job.pieces.get(piece).map(|piece| read(&piece.handling))));
    let choose = move |value: Option<T>| {
        desk.job.update(|job: &mut Job| {
            if let (Some(piece), Some(value)) = (job.pieces.get_mut(piece), value) {
                write(&mut piece.handling, value);
            }
        });
    };
    (chosen, Callback::new(choose))
}

/// How it comes out of the form, how it is carried, and how it travels.
fn hands(desk: Desk, piece: usize) -> AnyView {
    let (stripped, strip) = handling(desk, piece, |own| own.stripped, |own, way| own.stripped = way);
    let (carried, carry) = handling(desk, piece, |own| own.carried, |own, way| own.carried = way);
    let (travels, ride) = handling(desk, piece, |own| own.travels, |own, way| own.travels = way);
    let rides = Travels::ALL.into_iter().map(|one| (Some(one), one.label())).collect();
    let strips = Stripped::ALL.into_iter().map(|one| (Some(one), one.label())).collect();
    let carries = Carried::ALL.into_iter().map(|one| (Some(one), one.label())).collect();
    view! {
        <div class="fields">
            {list("stripped", "Out of the form", strips, stripped.into(), strip)}
            {list("carried", "Carried", carries, carried.into(), carry)}
            {list("travels", "In the van", rides, travels.into(), ride)}
        </div>
    }
    .into_any()
}

/// Everything that has a usual number.
fn more(desk: Desk, piece: usize) -> AnyView {
    let (bay, set_bay) = handling(desk, piece, |own| own.bay, |own, bay| own.bay = bay);
    let bays = || SinkBay::ALL.into_iter().map(|one| (Some(one), one.label())).collect();
    let (back, set_back) = handling(desk, piece, |own| own.back, |own, back| own.back = back);
    let backs = Back::ALL.into_iter().map(|one| (Some(one), one.label())).collect();
    let (rest, set_rest) = handling(desk, piece, |own| own.rest, |own, rest| own.rest = rest);
    let rests = Rest::ALL.into_iter().map(|one| (Some(one), one.label())).collect();
    let others = move || {
        let stands = stands_on_cabinet(rest.get());
        HandlingField::ALL
            .iter()
            .filter(|name| !matches!(name, HandlingField::StrippedAt | HandlingField::Strength))
            .filter(move |name| of_cabinet(**name).is_none_or(|of_cabinet| of_cabinet == stands))
            .map(|name| field(desk, FieldPath::Handling(piece, *name)))
            .collect_view()
    };
    view! {
        <details>
            <summary>"Ages, loads and what bears it"</summary>
            {list("rest", "What bears it in use", rests, rest.into(), set_rest)}
            <div class="fields">{others}</div>
            {move || stands_on_cabinet(rest.get()).then(|| choice("In front of and behind a sink", bays(), bay.into(), set_bay))}
            {choice("What keeps its back down", backs, back.into(), set_back)}
        </details>
    }
    .into_any()
}

fn stands_on_cabinet(rest: Option<Rest>) -> bool {
    rest.is_none_or(|rest| rest == Rest::Cabinet)
}

/// The rails by hand.
fn by_hand(desk: Desk, cracking: &Cracking) -> AnyView {
    let rails = cracking.rails.iter().map(|rail| {
        let label = format!("{}, lifted flat, its share alone", said::capital(&rail.words));
        let said = row(desk, label, show(&Ok(rail.utilization.clone()), |share| of_limit(*share)));
        let steel = rail.with_bar.as_ref().map(|capacity| {
            let gain = write_percent(capacity.value.uncracked.gain());
            let label = format!("Its bar delays the first crack by {gain}");
            row(desk, label, show(&Ok(capacity.clone()), |_| "holds it together after".to_owned()))
        });
        view! { {said} {steel} }
    });
    let rails = rails.collect_view();
    let net = cracking.net.iter().filter_map(|verdict| {
        let case = cracking.question.cases.get(verdict.case)?;
        let label = format!("{}: {}", said::label(case, None, &cracking.question.names), verdict.words);
        Some(row(desk, label, show(&Ok(verdict.utilization.clone()), |share| of_limit(*share))))
    });
    let net = net.collect_view();
    let hung = cracking.hung.as_ref().map(|hung| hung_rows(desk, hung, cracking.question.units));
    let strength = Known::Ok(crate::working::Figure {
        value: cracking.grown.ages.stripping.strength,
        working: cracking.grown.working.clone(),
    });
    let units = cracking.question.units;
    let later = [(Age::Handling, "Strength when carried"), (Age::InUse, "Strength in use")].map(|(age, label)| {
        let strength = said::stress(cracking.grown.ages.at(age).strength, units);
        let known = if cracking.grown.is_known(age) { "" } else { ", as when stripped" };
        plain_row(label, format!("{strength}{known}"))
    });
    view! {
        <h3>"By hand"</h3>
        <div class="figures" id="by-hand">
            {net}
            {rails}
            {hung}
            {row(desk, "Strength then", show(&strength, |strength| said::stress(*strength, units)))}
            {Vec::from(later)}
        </div>
        {beside_the_hand(cracking)}
    }
    .into_any()
}

/// What the numbers by hand rest on, and what they leave out.
fn beside_the_hand(cracking: &Cracking) -> AnyView {
    let rests_on = cracking.grown.rests_on(Age::Stripping);
    let rests_on = rests_on.map(|words| view! { <p class="quiet-text" id="least-strength">{words}</p> });
    let not_judged =
        cracking.hung.as_ref().map(|_| view! { <p class="quiet-text" id="brackets-not-judged">{NOT_JUDGED}</p> });
    let unknown = (!cracking.grown.is_known(Age::InUse)).then(|| {
        view! {
            <p class="quiet-text" id="no-later-strength">
                "Nothing is known of a later strength, so all later ages count with that of stripping: it holds "
                "more than it says there. Give the bag its strengths at a day and at 28 days, on the Pour screen."
            </p>
        }
    });
    let barred = cracking.rails.iter().any(|rail| rail.with_bar.is_some()).then(|| {
        view! {
            <p class="quiet-text">
                "The map is of the concrete alone: steel hardly delays the first crack, and then holds it together."
            </p>
        }
    });
    view! {
        {rests_on}
        {not_judged}
        {unknown}
        {barred}
    }
    .into_any()
}

/// A top on brackets, by hand.
fn hung_rows(desk: Desk, hung: &Hung, units: Units) -> AnyView {
    let tipping = hung.tipping.as_ref().map(|tipping| {
        let label = if tipping.front { "Tipping over the front of its brackets" } else { "Tipping over an end" };
        row(desk, label, show(&Ok(tipping.share.clone()), |share| of_limit(*share)))
    });
    let hold_down = hung.hold_down.clone().map(|hold| {
        row(desk, "The fastening along the back holds down", show(&Ok(hold), |force| said::force(*force, units)))
    });
    let load = hung.worst.clone().map(|worst| worst.load);
    let moment = hung.worst.clone().map(|worst| worst.moment);
    let which = hung.worst.as_ref().map_or("The worst bracket".to_owned(), |worst| {
        format!("Bracket {} from the left, the worst off,", worst.bracket + 1)
    });
    view! {
        {tipping}
        {hold_down}
        {row(desk, format!("{which} bears"), show(&load, |force| said::force(*force, units)))}
        {row(desk, "Its moment about the wall", show(&moment, |moment| said::moment(*moment, units)))}
        {row(desk, "Pull on its topmost screw", show(&hung.pull, |force| said::force(*force, units)))}
        {row(desk, "Allowed for that screw in the stud", show(&hung.holds, |force| said::force(*force, units)))}
        {row(desk, "Its topmost screw", show(&hung.utilization, |share| of_limit(*share)))}
    }
    .into_any()
}

fn of_limit(share: f64) -> String {
    format!("{} × the limit", write_number(share, 2))
}

/// What the worker is at, where that has to be said.
fn progress(state: State) -> AnyView {
    let failed = state.failed.get().map(|why| {
        view! {
            <p class="banner" role="alert" id="no-map">
                <strong>"There is no map."</strong>
                {format!(" {} The check by hand above stands.", sentence_of(&why))}
            </p>
        }
    });
    let busy = state.busy.get().then(|| view! { <p class="quiet-text" role="status">"Working it out…"</p> });
    view! { {failed} {busy} }.into_any()
}

fn sentence_of(why: &str) -> String {
    let capital = said::capital(why);
    if capital.ends_with('.') { capital } else { format!("{capital}.") }
}

/// The case that is looked at, with its map.
fn verdict_view(desk: Desk, piece: usize, state: State, cracking: &Arc<Cracking>) -> AnyView {
    let Some(solved) = state.solved.get() else { return ().into_any() };
    let Some(index) = index_of(&solved, state.chosen.get()) else { return ().into_any() };
    let Some(case) = solved.cases.get(index) else { return ().into_any() };
    let body = match &case.verdict {
        Ok(verdict) => view! {
            {headline(state, &solved, index, verdict, cracking)}
            {map_view(&solved, index, verdict)}
            {numbers(desk, &solved, index, verdict)}
            {help(desk, piece, state, &solved, index, cracking)}
        }
        .into_any(),
        Err(why) => {
            let why = solved.question.refusal(*why);
            view! { <p class="finding stop" id="crack-says"><span class="strength">"Stop"</span>{why}</p> }.into_any()
        }
    };
    // As attributes alone: making it anew would take what would help from under the finger.
    let stale = move || state.busy.get();
    view! {
        <div class="solved" class:stale=stale aria-busy=move || stale().to_string()>
            {cases_list(state, &solved, index)}
            {body}
        </div>
    }
    .into_any()
}

/// Every case with what it comes to; a touch looks at it.
fn cases_list(state: State, solved: &Arc<Solved>, index: usize) -> AnyView {
    let rows = solved
        .order()
        .into_iter()
        .filter_map(|at| {
            let case = solved.cases.get(at)?;
            let kind = case.kind;
            let value = case.verdict.as_ref().map_or("cannot be".to_owned(), |verdict| of_limit(verdict.utilization));
            let mark = case.verdict.as_ref().map_or("?", |verdict| match (verdict.cracks(), verdict.holds()) {
                (true, _) => "✕",
                (_, false) => "!",
                _ => "✓",
            });
            let look = move |_| state.chosen.set(Some(kind));
            let spot = solved.verdict(at).and_then(|verdict| verdict.spot);
            let name = said::label(solved.question.cases.get(at)?, spot, &solved.question.names);
            Some(view! {
                <li>
                    <button type="button" aria-pressed=(at == index).to_string() on:click=look>
                        <span class="mark">{mark}</span>
                        <span class="name">{name}</span>
                        <span class="value">{value}</span>
                    </button>
                </li>
            })
        })
        .collect_view();
    view! {
        <h3>"All that it lives through, the worst first"</h3>
        <ul class="cuts cases" aria-label="Cases">{rows}</ul>
    }
    .into_any()
}

/// The one sentence.
fn headline(state: State, solved: &Solved, index: usize, verdict: &Verdict, cracking: &Cracking) -> AnyView {
    let Some(case) = solved.question.cases.get(index) else { return ().into_any() };
    let worst_of_all = state.chosen.get().is_none();
    let age = cracking.grown.at(case.age);
    let place = verdict.worst.as_ref().map_or("it".to_owned(), |worst| solved.question.place(worst));
    let says = said::sentence(&place, verdict.utilization, (case, verdict.spot), age, &solved.question.names);
    let (word, class) = match (verdict.cracks(), verdict.holds()) {
        (true, _) => ("Stop", "finding stop"),
        (_, false) => ("Watch", "finding watch"),
        _ => ("Holds", "finding note"),
    };
    let margin = format!(
        "It would crack at {} times this pull; {} is asked for.",
        write_number(verdict.margin(), 2),
        write_number(crate::strength::limits::CRACKING_MARGIN, 1)
    );
    let others = (worst_of_all && verdict.holds()).then(|| view! { <p>"Everything else holds better."</p> });
    let sharp =
        verdict.worst.as_ref().filter(|worst| worst.sharp).map(|_| view! { <p>"A sharp inside corner: round it."</p> });
    view! {
        <article class=class id="crack-says" aria-live="polite">
            <span class="strength">{word}</span>
            <p>{says}</p>
            <p>{margin}</p>
            {others}
            {sharp}
        </article>
    }
    .into_any()
}

/// Where a face lies: out of the form a top has its face below.
fn face_words(face: Face, age: Age) -> &'static str {
    match (face, age) {
        (Face::Underside, Age::Stripping) => "Pull on the side below: the finished face, as it lies in the form",
        (Face::Top, Age::Stripping) => "Pull on the side above: the back, as it lies in the form",
        (Face::Underside, _) => "Pull on the underside",
        (Face::Top, _) => "Pull on the face",
    }
}

fn map_view(solved: &Arc<Solved>, index: usize, verdict: &Verdict) -> AnyView {
    let Some(case) = solved.question.cases.get(index) else { return ().into_any() };
    if verdict.map.underside.is_empty() {
        return view! { <p class="quiet-text">"On edge it bends in its own plane: worked out by hand, without a map."</p> }.into_any();
    }
    let worst = verdict.worst.as_ref();
    let shown = RwSignal::new(worst.map_or(Face::Underside, |worst| worst.face));
    let faces = match case.age {
        Age::Stripping => vec![(Face::Underside, "Side below"), (Face::Top, "Side above")],
        _ => vec![(Face::Underside, "Underside"), (Face::Top, "Face")],
    };
    let age = case.age;
    let (solved, at) = (Arc::clone(solved), worst.map(|worst| (worst.face, worst.at)));
    let drawing = move || {
        let face = shown.get();
        let map = solved.verdict(index).map(|verdict| verdict.map.face(face)).unwrap_or_default();
        let supports = solved.question.cases.get(index).map(|case| case.supports.as_slice()).unwrap_or_default();
        stress_map(&Stress {
            slab: &solved.question.slab,
            net: &solved.net,
            values: map,
            supports,
            worst: at.filter(|(worst, _)| *worst == face).map(|(_, at)| at),
        })
    };
    view! {
        <figure class="map">
            <div inner_html=drawing></div>
            <figcaption class="quiet-text">
                {move || face_words(shown.get(), age)} ". Seen from above as installed; dashed: what bears it; ring: the worst place."
            </figcaption>
        </figure>
        {choice("Which side", faces, shown.into(), Callback::new(move |face| shown.set(face)))}
    }
    .into_any()
}

/// The numbers of a case.
fn numbers(desk: Desk, solved: &Solved, index: usize, verdict: &Verdict) -> AnyView {
    let units = solved.question.units;
    let stress = |value| said::stress(value, units);
    let working = solved.question.working(index, verdict);
    let open = move |_| desk.notices.sheet.set(working.clone().map(Overlay::Working));
    let worst = verdict.worst.as_ref().map(|worst| {
        let hand = worst.hand.map_or("—".to_owned(), |hand| stress(hand.stress));
        view! {
            {plain_row("Pull there, mean over one thickness", stress(worst.stress))}
            {plain_row("Mean over the whole strip", stress(worst.strip))}
            {plain_row("The cut through it, by hand", hand)}
        }
    });
    // What has cracked no longer bends as it was worked out.
    let unless = if verdict.cracks() { ", if it did not crack" } else { "" };
    let sag = verdict.sag.map(|sag| plain_row("It sags by", format!("{}{unless}", said::sag(sag, units))));
    let bears = verdict
        .reactions
        .iter()
        .map(|one| {
            let value = format!("{} · {}", one.words(units), write_percent(one.share));
            plain_row(format!("{} bears", said::bears(one.bears)), value)
        })
        .collect_view();
    view! {
        <div class="figures" id="crack-numbers">
            <div>
                <button type="button" on:click=open>
                    <span>"Pull ÷ what is allowed"</span>
                    <span class="value">{write_number(verdict.utilization, 2)}</span>
                </button>
            </div>
            {plain_row("Allowed", stress(verdict.allowable))}
            {worst}
            {sag}
            {bears}
        </div>
    }
    .into_any()
}

/// What would help: a touch puts it into the job, and Undo takes it back.
fn help(
    desk: Desk,
    piece: usize,
    state: State,
    solved: &Arc<Solved>,
    index: usize,
    cracking: &Arc<Cracking>,
) -> AnyView {
    if solved.verdict(index).is_none_or(Verdict::holds) {
        return ().into_any();
    }
    let (solved, cracking) = (Arc::clone(solved), Arc::clone(cracking));
    let rows = move || match state.remedies.get() {
        Some((case, found)) if case == index => {
            if found.is_empty() {
                return view! { <p class="quiet-text">"Nothing that was tried helps."</p> }.into_any();
            }
            let rows =
                found.into_iter().map(|remedy| fix_row(desk, piece, &solved, index, &cracking, remedy)).collect_view();
            view! { <ul class="fixes" id="fixes">{rows}</ul> }.into_any()
        }
        _ => view! { <p class="quiet-text" role="status">"Trying what would help…"</p> }.into_any(),
    };
    view! { <h3>"What would help"</h3> {rows} }.into_any()
}

fn fix_row(
    desk: Desk,
    piece: usize,
    solved: &Solved,
    index: usize,
    cracking: &Arc<Cracking>,
    remedy: Remedy,
) -> AnyView {
    let words = fix::words(remedy.change, cracking);
    let gain = said::gain(&remedy, solved.verdict(index).map_or(remedy.utilization, |verdict| verdict.utilization));
    let looked_at = solved
        .verdict(index)
        .and_then(|verdict| Some((solved.question.cases.get(index)?.clone(), verdict.worst.as_ref()?.beside)));
    let (change, cracking) = (remedy.change, Arc::clone(cracking));
    // Of the job as it is when it is asked: other fields may have changed since the map was made.
    let fixed = move || {
        let (case, beside) = looked_at.as_ref()?;
        desk.cast.with_untracked(|all| {
            let top = &all.pieces.get(piece)?.top;
            desk.job.with_untracked(|job| fix::fixed(job, piece, (top, &cracking), (case, *beside), change))
        })
    };
    match fixed() {
        Some(_) => {
            let said = words.clone();
            let apply = move |_| {
                if let Some(fixed) = fixed() {
                    desk.job.set(fixed);
                    desk.tell(&format!("Done: {}. Undo takes it back.", said.to_lowercase()), None);
                }
            };
            view! {
                <li><button type="button" on:click=apply><span class="name">{words}</span><span class="value">{gain}</span></button></li>
            }
            .into_any()
        }
        None => view! { <li><div class="line"><span class="name">{words}</span><span class="value">{gain}</span></div></li> }.into_any(),
    }
}
