//! Finish: strip, grind, seal, carry, set.

use super::desk::Desk;
use super::figures::{crew_text, plain_row, row, show};
use super::findings::{caution, findings};
use super::measure::pieces_bar;
use crate::finding::Stage;
use crate::measure::write_mass;
use leptos::prelude::*;

/// The screen.
pub fn finish(desk: Desk) -> AnyView {
    let weights = move || {
        desk.estimate.with(|all| {
            let piece = all.pieces.get(desk.piece.get())?;
            let units = desk.units();
            let as_cast = piece.weights.as_ref().map(|weights| weights.as_cast.clone()).map_err(Clone::clone);
            let installed = piece.weights.as_ref().map(|weights| weights.installed.clone()).map_err(Clone::clone);
            Some(
                [
                    row(
                        desk,
                        "As it comes out of the form",
                        show(&as_cast, |mass| write_mass(*mass, units).to_string()),
                    ),
                    row(desk, "As installed", show(&installed, |mass| write_mass(*mass, units).to_string())),
                    row(desk, "People to carry it", show(&piece.crew, |crew| crew_text(*crew))),
                ]
                .collect_view(),
            )
        })
    };
    let strip = move || {
        desk.job.with(|job| {
            let bag = job.pieces.get(desk.piece.get()).and_then(|piece| job.bag(&piece.bag))?.1;
            (!bag.strip_after.is_blank())
                .then(|| plain_row("Strip after, by the bag", bag.strip_after.text().to_owned()))
        })
    };
    view! {
        <div class="side">
            {pieces_bar(desk)}
            <section class="card" aria-label="Weight">
                <h2>"Strip and carry"</h2>
                <div class="figures">{strip}{weights}</div>
            </section>
            {findings(desk, Stage::Finish)}
        </div>
        <div class="rest">
            <section class="card" aria-label="Strip">
                <h2>"Strip"</h2>
                <p>"Sides off first, then the base. Turn the top over on its long edge, two people. Push knockouts straight and evenly; never lever against a rail. Foam is dug out. A few more hours of patience cost less than a crack. (Common practice.)"</p>
                {caution("Heavy, with sharp edges", "Gloves and boots. Carry it on edge, never flat: flat, the strips beside a cutout bend under the whole top.")}
            </section>
            <section class="card" aria-label="Grind">
                <h2>"Grind"</h2>
                <p>"Hold the coarse wheel dead flat, then step through the pads; each takes out the scratches of the one before. (Common practice.)"</p>
                {caution("Silica dust scars lungs", "Dry grinding wants a shroud, a HEPA vacuum and a respirator; wet grinding in a closed garage still wants a respirator decision. OSHA 29 CFR 1926.1153.")}
                {caution("Water and power", "Wet grinding only on a ground-fault protected circuit (GFCI).")}
            </section>
            <section class="card" aria-label="Seal">
                <h2>"Seal"</h2>
                <p>"Two or three coats; a rough edge takes more and wants a brush. A drop of water left for ten minutes should leave no dark ring. (Common practice.)"</p>
            </section>
            <section class="card" aria-label="Set">
                <h2>"Set"</h2>
                <p>"Spot dabs of silicone on the cabinet rails, not a full bead. Shim, check the level, caulk to the walls, silicone at the sink. (Common practice.)"</p>
                <p class="quiet-text">"These are estimates for planning, not engineering. Local codes and a licensed engineer decide anything that carries people or spans a gap."</p>
            </section>
        </div>
    }
    .into_any()
}
