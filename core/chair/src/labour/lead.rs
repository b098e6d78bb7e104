//! When it is ready: hours at the bench, drying glue and drying finish, laid on working days.

use super::hours::Labour;
use crate::shop::{Labour as Rates, Operation, Stage};
use crestrail_phrases::say;
use serde::Serialize;

/// From the start of the work to the finished order.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Lead {
    /// Working days from the order to the finished chairs, the wait before the work begins with them.
    pub working_days: u32,
    /// The same in weeks of the workshop.
    pub weeks: f64,
    /// Hours at the bench for all chairs.
    pub bench_hours: f64,
    /// Hours of the clock that glue and finish need, most of them overnight.
    pub waiting_hours: f64,
    /// The figures behind it, as sentences.
    pub why: String,
}

/// Hours from the start of one working day to the start of the next.
const CLOCK: f64 = 24.0;
/// Hours that are nothing: the sums of minutes have a little noise.
const NOTHING: f64 = 1e-9;

/// The clock of a workshop: whole working days, and hours into the working day.
struct Clock {
    day: f64,
    hour: f64,
    hours_a_day: f64,
}

impl Clock {
    /// Work goes on until the day is over, and on the next.
    fn work(&mut self, hours: f64) {
        let total = self.hour + hours;
        let days = ((total - NOTHING) / self.hours_a_day).ceil() - 1.0;
        self.day += days.max(0.0);
        self.hour = total - days.max(0.0) * self.hours_a_day;
    }

    /// Glue and finish dry through the night; what is dry after the bench has closed is ready the next morning.
    fn wait(&mut self, hours: f64) {
        let until = self.hour + hours;
        let days = (until / CLOCK).floor();
        self.day += days;
        self.hour = until - days * CLOCK;
        if self.hour >= self.hours_a_day - NOTHING {
            self.day += 1.0;
            self.hour = 0.0;
        }
    }

    /// Working days that have at least begun.
    fn days(&self) -> f64 {
        self.day + f64::from(u8::from(self.hour > NOTHING))
    }
}

/// The lead time of an order: of each design its work and the number of chairs. All chairs pass a stage together; after
/// each stage of gluing up and after each coat all wait. A weekend in which something dries costs nothing, so the
/// figure is on the safe side. `coats` of finish.
pub fn lead(designs: &[(&Labour, u32)], rates: &Rates, coats: u32) -> Lead {
    let mut clock = Clock { day: 0.0, hour: 0.0, hours_a_day: rates.hours_a_day() };
    let mut waited = 0.0;
    for stage in Stage::ALL {
        let (waits, hours) = match stage {
            Stage::Assembly => (glue_ups(designs), rates.glue_waits),
            Stage::Finish => (coats_of(designs, coats), rates.coat_waits),
            _ => (0, 0.0),
        };
        let work = sum(designs, |row| row.stage == stage);
        let turns = waits.max(1);
        for _ in 0..turns {
            clock.work(work / f64::from(turns));
            if waits > 0 {
                clock.wait(hours);
                waited += hours;
            }
        }
    }
    told(&clock, sum(designs, |_| true), waited, rates)
}

fn sum(designs: &[(&Labour, u32)], wanted: impl Fn(&super::LabourRow) -> bool) -> f64 {
    let of = |(labour, count): &(&Labour, u32)| {
        f64::from(*count) * labour.rows.iter().filter(|row| wanted(row)).map(|row| row.hours).sum::<f64>()
    };
    designs.iter().map(of).sum()
}

/// Stages of gluing up of the design that has most.
fn glue_ups(designs: &[(&Labour, u32)]) -> u32 {
    let rows = designs.iter().flat_map(|(labour, _)| &labour.rows);
    let stages = rows.filter(|row| row.operation == Operation::GlueUp).map(|row| row.quantity as u32);
    stages.max().unwrap_or(0)
}

/// Coats, where anything is finished.
fn coats_of(designs: &[(&Labour, u32)], coats: u32) -> u32 {
    let finished = designs.iter().any(|(labour, _)| labour.rows.iter().any(|row| row.stage == Stage::Finish));
    if finished { coats } else { 0 }
}

fn told(clock: &Clock, bench_hours: f64, waiting_hours: f64, rates: &Rates) -> Lead {
    let days = (clock.days() + rates.queue_days).ceil();
    let day = rates.hours_a_day();
    let queue = match rates.queue_days {
        0.0 => String::new(),
        queue => say!(" {queue} days pass before it is begun."),
    };
    let why = say!(
        "{bench_hours:.1} hours at the bench at {day:.1} hours a day; glue and finish dry for {waiting_hours:.0} hours, overnight where they can.{queue}"
    );
    Lead {
        working_days: days as u32,
        weeks: (days / rates.days_a_week * 10.0).ceil() / 10.0,
        bench_hours,
        waiting_hours,
        why,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn clock(hours_a_day: f64) -> Clock {
        Clock { day: 0.0, hour: 0.0, hours_a_day }
    }

    /// By hand, days of 6 hours: 14 h of work are two days and 2 h; glue of 3 h is dry 5 h into the day; 1 h of work
    /// closes the day; finish of 16 h is dry in the night, so it goes on the next morning, the fourth; 6 h fill it.
    #[test]
    fn a_week_by_hand() {
        let mut clock = clock(6.0);
        clock.work(14.0);
        assert_eq!((clock.day, clock.hour), (2.0, 2.0));
        clock.wait(3.0);
        assert_eq!((clock.day, clock.hour), (2.0, 5.0));
        clock.work(1.0);
        assert_eq!((clock.day, clock.hour, clock.days()), (2.0, 6.0, 3.0));
        clock.wait(16.0);
        assert_eq!((clock.day, clock.hour, clock.days()), (3.0, 0.0, 3.0));
        clock.work(6.0);
        assert_eq!((clock.hour, clock.days()), (6.0, 4.0));
        clock.wait(47.0);
        // 6 + 47 h are two days of the clock and 5 h.
        assert_eq!((clock.day, clock.hour), (5.0, 5.0));
    }

    #[test]
    fn noise_costs_no_day() {
        let mut clock = clock(7.0);
        (0..70).for_each(|_| clock.work(0.1));
        assert_eq!(clock.days(), 1.0);
        clock.wait(0.0);
        assert_eq!(clock.days(), 1.0);
    }
}
