//! What is said of the evidence by hand: what it is, what it does not promise, and a few words on each room.

use super::Listed;
use crate::{
    bags, batches, building, carry, cracking, curl, finish, geometry, hardened, lifting, lifts, maturity, parts, plane,
    plates, pour, pricing, proportions, room, sections, shapes, sheets, steel, temperature, units, weather,
};

/// A room of checks, in the order in which a job passes through them.
pub struct Section {
    pub title: &'static str,
    /// What the room works out, and what in it no check compares.
    pub about: &'static str,
    /// The lists of its files.
    pub lists: &'static [&'static [Listed]],
}

pub const WHAT_IT_IS: &str = "Numbers that this program works out, beside numbers that did not come from it. Every line below \
    is stated by an automated test, in the same call that asserts it; a test fails when this page is not what the tests state.";

pub const NO_PROMISE: &[&str] = &[
    "It shows that the program works out what its sources say, in the cases compared. It does not show that a source fits \
     your mix, your form or your garage. Only a test piece does.",
    "Agreement at some points is no proof between them. Other tests, of what must hold for every job, look there; they \
     compare with nothing from outside and are not counted here.",
    "“Published” means that the value, or the equation behind it, was read: often where a book is quoted and not in the book, \
     and then the source says so. Editions change.",
    "“From memory” means that nobody looked it up. Do not rely on it before you have.",
    "Tolerances are chosen for the purpose, by the same people who wrote the program.",
    "It is planning and not engineering. No engineer has signed it, and no code of building is met by it.",
];

pub const NOT_VALIDATED: &[&str] = &[
    "No top that was cast has been compared: no weight, strength, crack, strip time or hour of work measured in a shop stands \
     behind any number here.",
    "The bags of the catalogue: their yield, water, workable time and strength are typical of data sheets, from memory. Your \
     bag's label outranks them, and the page says so where they are used.",
    "The limits of rails, thickness, corners, liners and seams are common practice without a source. So are the times of a \
     batch, the order of a pour's steps, and when a cold joint begins.",
    "Whether a top cracks: the stress in an elastic, uncracked plate is compared below. Shrinkage, curling, knocks, flaws at a \
     sharp corner, the scatter of strength from one batch to the next, and strength in the first hours are not in it.",
    "Glass-fibre mixes: their volumes are compared, their strength is not worked out from fibre at all; it is what you type.",
    "Carrying: the lifting equation is for two hands and smooth lifts by one person. That teams lift by the shares of another \
     guidance is this program's own joining of the two.",
    "How far form boards bow, what screws hold, how far release agent, sealer and adhesive go: data sheets, from memory.",
    "Prices and hours are yours. Only the arithmetic on them is compared.",
];

pub const HOW_TO_READ: &str = "Each check has the source, the marks of how its values were come by (the first is that of the \
    equation or table, the others of the digits), the problem in the units of the source, where conventions differ, what of the \
    program is asked, and the test. “Here” is what the program says; “none” is no difference but the rounding of the machine, \
    and “exact” a tolerance of a billionth. Labels are names: tests, pages and comments use the same ones. Where a check stands \
    twice, it is asked of the room alone and of a job as it is typed.";

pub static SECTIONS: &[Section] = &[
    Section {
        title: "Units and readings",
        about: "What is typed becomes quantities of one system. The spelling of what is typed is tested elsewhere.",
        lists: &[units::CHECKS],
    },
    Section {
        title: "The opening and the tape",
        about: "Corners by least squares from sides, diagonals and marks; which reading is wrong. How sure a tape is, 1/16 in, \
            is common practice.",
        lists: &[room::CHECKS],
    },
    Section {
        title: "Outlines and openings",
        about: "Areas, offsets, and what is left between openings and edges. Corner arcs, bows and reveals are followed by \
            closed forms in other tests.",
        lists: &[plane::CHECKS, geometry::CHECKS, shapes::CHECKS],
    },
    Section {
        title: "Form",
        about: "Push of the mix, beads, mitres. Lengths to cut are arithmetic, tested elsewhere; the stiffness of board and the \
            hold of screws are from memory and not compared.",
        lists: &[building::CHECKS, parts::CHECKS],
    },
    Section {
        title: "Sheets",
        about: "The fewest sheets of small sets of parts. Of larger sets the fewest is not known to anybody; `tests/bench` \
            says how near the layout comes.",
        lists: &[sheets::CHECKS],
    },
    Section {
        title: "Steel",
        about: "What bars and lath weigh. Cover and placing are common practice and not compared.",
        lists: &[steel::CHECKS],
    },
    Section {
        title: "Mix",
        about: "Volumes, bags, water, and mixes from scratch. Proportions give what the tables say, and no mix of them was \
            cast.",
        lists: &[bags::CHECKS, proportions::CHECKS],
    },
    Section {
        title: "Pour",
        about: "Temperature of the mix, drying, hardening, and when a top may leave its form. The laws of hardening part in the \
            cold by a factor of two, which the page tells as a span.",
        lists: &[temperature::CHECKS, weather::CHECKS, maturity::CHECKS, batches::CHECKS, pour::CHECKS],
    },
    Section {
        title: "Strength",
        about: "Concrete, sections with steel, and plates by finite elements.",
        lists: &[hardened::CHECKS, sections::CHECKS, plates::CHECKS, lifts::CHECKS, cracking::CHECKS],
    },
    Section {
        title: "Carrying",
        about: "What one person and a team may lift, and whether a top goes through a door and round a corner.",
        lists: &[carry::CHECKS, lifting::CHECKS],
    },
    Section {
        title: "Finish",
        about: "Pads, slurry, silica, the calendar. Hours of grinding and what a pad lasts are yours to type.",
        lists: &[finish::CHECKS, curl::CHECKS],
    },
    Section { title: "Price", about: "Amounts of money, in decimals and never in floats.", lists: &[pricing::CHECKS] },
];
