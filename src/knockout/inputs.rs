//! What is typed for knockouts, read once: the only file of the room that knows the job.

use crate::job::read::{self, optional};
use crate::job::{FieldPath, FormField, Job, LayerField, LayerOf};
use crate::measure::{Length, Units};
use crate::working::Known;

/// One thickness of material that knockouts are stacked from.
#[derive(Clone, Debug, PartialEq)]
pub struct LayerInputs {
    /// What it is.
    pub of: LayerOf,
    /// Its thickness, more than nothing; nothing where the layer is not there yet, as a blank says.
    pub thickness: Known<Option<Length>>,
}

/// What knockouts of all pieces are made from.
#[derive(Clone, Debug, PartialEq)]
pub struct StackInputs {
    /// The layers that are there, in the order of the job.
    pub layers: Vec<LayerInputs>,
    /// How much narrower a knockout is at its top on every side; a blank counts as nothing.
    pub draft: Known<Length>,
}

impl StackInputs {
    /// What the knockouts of that job are made from.
    pub fn read(job: &Job) -> Self {
        let layers = job.form.layers.iter().enumerate().map(|(index, layer)| {
            let place = FieldPath::Layer(index, LayerField::Thickness);
            LayerInputs { of: layer.of, thickness: optional(job, place, read::positive_length) }
        });
        let draft = optional(job, FieldPath::Form(FormField::Draft), read::length);
        Self { layers: layers.collect(), draft: draft.map(Option::unwrap_or_default) }
    }
}

/// What the knockouts of one piece follow from, beside its geometry and what is cast.
#[derive(Clone, Debug, PartialEq)]
pub struct KnockoutInputs {
    /// The piece, by its index.
    pub piece: usize,
    /// What they are made from.
    pub stack: StackInputs,
    /// In which weights are set on a knockout: whole pounds or whole kilograms.
    pub units: Units,
}

impl KnockoutInputs {
    /// What is typed for the knockouts of the piece with that index.
    ///
    /// ```
    /// use pourwright::job::Job;
    /// use pourwright::knockout::KnockoutInputs;
    /// use pourwright::measure::Units;
    ///
    /// let mut job = Job::new("a", Units::Metric);
    /// job.form.draft = "2".into();
    /// assert_eq!(KnockoutInputs::read(&job, 0).stack.draft.unwrap().value, 0.002);
    /// ```
    pub fn read(job: &Job, piece: usize) -> Self {
        Self { piece, stack: StackInputs::read(job), units: job.units }
    }
}
