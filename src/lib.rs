//! Pourwright plans the casting of a concrete top, from the tape to the signature.
//!
//! What the maker types is a [`job::Job`]; everything that follows from it is an
//! [`estimate::Estimate`], made by the one door between the calculating half and the showing half:
//! [`estimate::estimate`]. The calculating rooms know no browser, no clock and no storage; they
//! compile and test natively.
//!
//! The rooms, in the order in which a job passes through them; arrows point down this list or
//! sideways to [`measure`]:
//!
//! * [`measure`]: quantities, and how people write them: tape readings, units, rounding.
//! * [`job`]: what was measured and chosen, as it was typed; the one table of its fields; the file format.
//! * [`plane`]: outlines of lines and arcs, openings in them, and what lies between, in metres.
//! * [`room`]: the opening as the tape has it: corners by least squares, bowed walls, the way in.
//! * [`top`]: the finished thing: outline, edges, cutouts, and the strips between them.
//! * [`form`]: what is built to cast it: clear size, base, sides.
//! * [`sheet`]: how the parts of forms are cut from sheets: layout, cuts, off-cuts.
//! * [`knockout`]: what keeps cutouts and holes open: layers, draft, hold-down, cores.
//! * [`cutting`]: the blanks of a job's forms and knockouts, on sheets.
//! * [`steel`]: what lies in it: panels of lath, bars along the rails, their mass.
//! * [`mix`]: what is poured: the catalogue, a new job and the worked demo, volume, bags, water, additives; mixes made
//!   from scratch, weighed out.
//! * [`pour`]: when things happen: batches against the workable time, weather, strip time, and the clock that runs
//!   beside the pour.
//! * [`strength`]: will it crack: concrete of an age, steel, and a stress map of the top in every case.
//! * [`carry`]: weight, and the people it takes.
//! * [`finish`]: grinding, repair and sealing: what comes off, what goes on, how long it takes.
//! * [`price`]: what material and hours cost, the quote, and the list for the shop.
//! * [`estimate`]: the single door, with [`finding`] (stops, watches, notes) and [`working`] (the
//!   hand calculation behind a number) as its vocabulary. Each room keeps its own `limits`, with their sources.
//! * [`draw`]: the plan, the form, the sheets and a link's QR code as SVG text.
//! * [`names`]: what a maker calls things, as it is set into a sentence.
//! * `markup`: texts as they are written in HTML and SVG.
//! * [`terms`]: words of the trade, each with its meaning in one line.
//! * [`hints`]: the line of help below a field, in the units of the job.
//! * [`print`]: what is read off the screen or off paper in the workshop: lists in words, the shop sheet.
//! * [`store`]: what is kept and exchanged: records, files, links, the browser's storage.
//! * `worker`: [`strength`]'s maps away from the page, in a program of their own that the page fetches on first need.
//! * `page`: what is seen. Nothing is calculated there. It exists only in the browser's build, as
//!   does the half of `store` that touches the browser.
//!
//! # Words
//! One word for one thing, in code, on screen and in files; a maker's words are in [`terms`]. The code's own:
//!
//! | word | meaning |
//! | --- | --- |
//! | entry | what was typed into one field, to the letter |
//! | field path | where in a job a field stands: [`job::FieldPath`] |
//! | usual | what counts while a field is blank, and is said to |
//! | inputs | what a room has read of the job, as quantities |
//! | known | there, or saying what it waits for: [`working::Known`] |
//! | need | one thing that is waited for, and where |
//! | figure | a number and how the value was obtained: [`working::Figure`] |
//! | term | a value in the middle of a calculation, with its formula so far |
//! | working | the lines of a hand calculation |
//! | finding, severity | what the maker should know; a stop, a watch or a note |
//! | label, word | a message that is written when somebody looks, and what goes into it: [`working::Label`] |
//! | tension, utilization | the pull in a top; tension over what is allowed |
//! | deflection | how far a board or a top bends |
//! | load case, support | what a top lives through, and what bears it |
//! | strength history | strength by age of one piece, from the form to use |
//! | mesh size | how fine the triangles of a stress map are |
//! | contact solution | which supports bear, and how much |
//! | facing | the side of a piece that an edge looks to |
//! | spare | mix beyond what fills the form |
//! | selection | the part of a drawing that is chosen |
//! | overlay | what slides over a screen |

pub mod measure;

pub mod job;

pub mod finding;
pub(crate) mod markup;
pub mod names;
pub mod working;

pub mod plane;
pub mod room;

pub mod top;

pub mod form;

pub mod knockout;
pub mod sheet;

pub mod cutting;

pub mod steel;

pub mod mix;

pub mod pour;

pub mod strength;

pub mod carry;

pub mod finish;

pub mod price;

pub mod estimate;

pub mod draw;

pub mod terms;

pub mod hints;

pub mod print;

pub mod store;

#[cfg(target_arch = "wasm32")]
pub mod worker;

#[cfg(all(target_arch = "wasm32", feature = "page"))]
pub mod page;
