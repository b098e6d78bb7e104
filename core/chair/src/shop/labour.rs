//! Times and hours of the workshop: the part `labour` of `shop.json`. What each line means stands in
//! `core/chair/data/README.md`.

use super::operation::{JOINTS, Method, Operation};
use super::read::price;
use crate::joint::Kind;
use crate::money::{Currency, Money};
use crate::reading::{Fields, Limits};
use crate::refusal::Refusal;
use crestrail_phrases::{phrase, say};

/// What the workshop's time costs, and how long it takes.
#[derive(Clone, Debug, PartialEq)]
pub struct Labour {
    /// What an hour at the bench costs the workshop, before overhead and profit.
    pub rate: Money,
    /// How many chairs the workshop sets up for where fewer are ordered.
    pub batch: u32,
    /// How mortises and tenons are cut.
    pub method: Method,
    /// Days on which the bench is used, a week.
    pub days_a_week: f64,
    /// Hours at the bench a week.
    pub hours_a_week: f64,
    /// From the clamps of one stage to the next step, hours of the clock.
    pub glue_waits: f64,
    /// From one coat to the next step, hours of the clock.
    pub coat_waits: f64,
    /// Working days before a new order is begun.
    pub queue_days: f64,
    times: Vec<(Operation, Time)>,
}

/// How long an operation takes.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Time {
    /// Minutes for each unit.
    pub minutes: f64,
    /// Minutes of set-up, once for a batch.
    pub set_up: f64,
}

const BATCH: Limits = Limits { label: phrase("Chairs of a batch"), min: 1.0, max: 100.0, unit: "" };
const MINUTES: Limits = Limits { label: phrase("The time for one"), min: 0.0, max: 1000.0, unit: " min" };
const SET_UP: Limits = Limits { label: phrase("The set-up"), min: 0.0, max: 1000.0, unit: " min" };
const DAYS: Limits = Limits { label: phrase("Days a week"), min: 1.0, max: 7.0, unit: "" };
const HOURS: Limits = Limits { label: phrase("Hours a week"), min: 1.0, max: 112.0, unit: " h" };
const WAIT: Limits = Limits { label: phrase("The wait"), min: 0.0, max: 500.0, unit: " h" };
const QUEUE: Limits =
    Limits { label: phrase("Days before an order is begun"), min: 0.0, max: 1000.0, unit: "" };

/// Hours between which a working day lasts: nobody works longer than this a day.
const LONGEST_DAY: f64 = 16.0;

impl Labour {
    /// How long an operation takes; every operation has a time.
    pub fn time(&self, operation: Operation) -> Time {
        self.times.iter().find(|(o, _)| *o == operation).map(|(_, time)| *time).unwrap_or_default()
    }

    /// Hours at the bench of one working day.
    pub fn hours_a_day(&self) -> f64 {
        self.hours_a_week / self.days_a_week
    }
}

pub(super) fn labour(f: &Fields<'_>, currency: Currency) -> Result<Labour, Refusal> {
    f.only(&["rate", "batch", "method", "week", "waiting", "operations", "joints"])?;
    let method = f.choice("method", Method::NAMES)?;
    let (week, waiting) = (f.object("week")?, f.object("waiting")?);
    week.only(&["days", "hours"])?;
    waiting.only(&["glue_up", "coat", "queue_days"])?;
    let labour = Labour {
        rate: price(f, "rate", currency)?,
        batch: f.count("batch", &BATCH)?,
        method,
        days_a_week: f64::from(week.count("days", &DAYS)?),
        hours_a_week: week.number("hours", &HOURS)?,
        glue_waits: waiting.number("glue_up", &WAIT)?,
        coat_waits: waiting.number("coat", &WAIT)?,
        queue_days: f64::from(waiting.count("queue_days", &QUEUE)?),
        times: times(f, method)?,
    };
    if labour.hours_a_day() > LONGEST_DAY {
        let why = say!(
            "{} hours in {} days are {:.1} hours a day; nobody works more than {LONGEST_DAY}.",
            labour.hours_a_week,
            labour.days_a_week,
            labour.hours_a_day()
        );
        return Err(Refusal::new(week.path("hours"), why));
    }
    Ok(labour)
}

/// The times of all operations, and of the joints as the chosen method cuts them. Other methods may stand in the
/// file; what they say must be right too.
fn times(f: &Fields<'_>, method: Method) -> Result<Vec<(Operation, Time)>, Refusal> {
    let operations = f.object("operations")?;
    let plain: Vec<(&str, Operation)> = Operation::plain().collect();
    let mut times = each(&operations, &plain)?;
    let joints = f.object("joints")?;
    joints.only(&Method::NAMES.iter().map(|(name, _)| *name).collect::<Vec<_>>())?;
    let kinds: Vec<(&str, Operation)> = JOINTS.iter().map(|&(name, kind)| (name, joint(kind))).collect();
    for &(name, other) in Method::NAMES {
        if other == method || joints.has(name) {
            let read = each(&joints.object(name)?, &kinds)?;
            times.extend(if other == method { read } else { Vec::new() });
        }
    }
    Ok(times)
}

fn joint(kind: Kind) -> Operation {
    Operation::Joint(kind)
}

fn each(f: &Fields<'_>, wanted: &[(&str, Operation)]) -> Result<Vec<(Operation, Time)>, Refusal> {
    f.only(&wanted.iter().map(|(name, _)| *name).collect::<Vec<_>>())?;
    let read = |&(name, operation): &(&str, Operation)| Ok((operation, time(&f.object(name)?)?));
    wanted.iter().map(read).collect()
}

fn time(f: &Fields<'_>) -> Result<Time, Refusal> {
    f.only(&["minutes", "set_up"])?;
    Ok(Time { minutes: f.number("minutes", &MINUTES)?, set_up: f.number("set_up", &SET_UP)? })
}
