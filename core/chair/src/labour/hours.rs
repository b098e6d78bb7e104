//! How long it takes: a workshop's minutes put to the tasks.

use super::lead::{Lead, lead};
use super::measure::{Task, tasks};
use crate::chair::Chair;
use crate::lists::CuttingRow;
use crate::shop::{Labour as Rates, Operation, Shop, Stage};
use crestrail_phrases::say;
use crestrail_sorting::Order as _;
use serde::Serialize;

/// The work at one chair of a batch of chairs that are alike.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Labour {
    /// Chairs over which the set-up is spread.
    pub batch: u32,
    /// How joints are cut: `hand`, `router` or `machine`.
    pub method: &'static str,
    /// One row for each operation, in the order of the stages.
    pub rows: Vec<LabourRow>,
    /// The same by stage.
    pub stages: Vec<StageHours>,
    /// All of them for one chair, hours.
    pub hours: f64,
    /// When one chair, or the whole order, is ready.
    pub lead: Lead,
}

/// One operation at one chair.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LabourRow {
    /// Its stable name, such as `joint.haunched`.
    pub id: String,
    /// What a maker calls it.
    pub what: String,
    /// When it is done.
    pub stage: Stage,
    /// How much of it.
    pub quantity: f64,
    /// What it is counted or measured in.
    pub unit: &'static str,
    /// Minutes for one unit.
    pub minutes: f64,
    /// Minutes of set-up for the whole batch.
    pub set_up: f64,
    /// For one chair with its share of the set-up, hours to four decimals: what the bill takes.
    pub hours: f64,
    /// Letters of the parts it is done to.
    pub parts: Vec<String>,
    /// The figures behind it, as sentences.
    pub why: String,
    /// The operation.
    #[serde(skip)]
    pub operation: Operation,
}

/// The hours of a stage.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StageHours {
    /// Which stage.
    pub stage: Stage,
    /// What a maker calls it.
    pub name: &'static str,
    /// Hours for one chair.
    pub hours: f64,
    /// Letters of the parts it is about.
    pub parts: Vec<String>,
}

impl Labour {
    /// The work at one of `batch` chairs made together; nothing where the shop's file has no times.
    pub fn of(chair: &Chair, rows: &[CuttingRow], shop: &Shop, batch: u32) -> Option<Self> {
        let (rates, coats) = (shop.labour.as_ref()?, shop.finish.coats);
        Some(labour(&tasks(chair, rows, coats), rates, coats, batch))
    }
}

/// The work at one chair where `batch` of them are made together. `coats` of finish.
pub fn labour(tasks: &[Task], rates: &Rates, coats: u32, batch: u32) -> Labour {
    let batch = batch.max(rates.batch).max(1);
    let rows: Vec<LabourRow> = tasks.iter().map(|task| row(task, rates, batch)).collect();
    let stages: Vec<StageHours> = Stage::ALL.into_iter().filter_map(|stage| of_stage(stage, &rows)).collect();
    let hours = ten_thousandths(stages.iter().map(|stage| stage.hours).sum());
    let mut labour =
        Labour { batch, method: rates.method.name(), rows, stages, hours, lead: Lead::default() };
    labour.lead = lead(&[(&labour, 1)], rates, coats);
    labour
}

fn ten_thousandths(hours: f64) -> f64 {
    (hours * 1e4).round() / 1e4
}

fn row(task: &Task, rates: &Rates, batch: u32) -> LabourRow {
    let operation = task.operation;
    let time = rates.time(operation);
    let minutes = task.quantity * time.minutes + time.set_up / f64::from(batch);
    LabourRow {
        id: operation.id(),
        what: operation.label(),
        stage: operation.stage(),
        quantity: task.quantity,
        unit: operation.unit(),
        minutes: time.minutes,
        set_up: time.set_up,
        hours: ten_thousandths(minutes / 60.0),
        parts: task.parts.clone(),
        why: why(task, time.minutes, time.set_up, batch),
        operation,
    }
}

fn why(task: &Task, minutes: f64, set_up: f64, batch: u32) -> String {
    let (each, unit) = (&task.why, task.operation.unit());
    match (set_up > 0.0, batch) {
        (false, _) => say!("{each} {minutes} min for each {unit}."),
        (true, 1) => say!("{each} {minutes} min for each {unit}, and {set_up} min to set up."),
        (true, batch) => {
            say!(
                "{each} {minutes} min for each {unit}, and {set_up} min to set up, shared by {batch} chairs."
            )
        }
    }
}

fn of_stage(stage: Stage, rows: &[LabourRow]) -> Option<StageHours> {
    let mut parts: Vec<String> = Vec::new();
    let mut hours = 0.0;
    for row in rows.iter().filter(|row| row.stage == stage) {
        hours += row.hours;
        parts.extend(row.parts.iter().cloned());
    }
    parts.order_by(|a, b| (a.len(), a).cmp(&(b.len(), b)));
    parts.dedup();
    let hours = ten_thousandths(hours);
    (hours > 0.0).then(|| StageHours { stage, name: stage.name(), hours, parts })
}
