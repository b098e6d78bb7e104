//! Labour: what there is to do at the bench for a chair, how long it takes, and when the order is ready.
//!
//! [`tasks`] measures the chair and knows no workshop; [`labour`] puts a workshop's minutes to the tasks;
//! [`lead`] lays the hours, the drying glue and the drying finish on working days.

mod hours;
mod lead;
mod measure;

pub use hours::{Labour, LabourRow, StageHours, labour};
pub use lead::{Lead, lead};
pub use measure::{Task, tasks};

#[cfg(test)]
mod tests;
