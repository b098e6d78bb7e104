//! The search along one knob: which value to try next, and what is known so far.

use super::{End, Holds, PickHolds, SafeRange, Stop};
use crate::design::Design;
use crate::knob::{Kind, Knob};
use serde_json::Value;

/// The search along one knob.
#[derive(Debug)]
pub(super) struct Seek {
    knob: &'static Knob,
    way: Way,
}

#[derive(Debug)]
enum Way {
    /// Down, then up.
    Span(Box<[Side; 2]>),
    /// The possibilities that are left, the next one last, and those that were tried.
    Picks(Vec<&'static str>, Vec<PickHolds>),
}

/// Outwards in one direction.
#[derive(Debug)]
struct Side {
    /// The present value and those on the knob's grid beyond it.
    grid: Grid,
    /// The farthest step that is known to hold.
    good: usize,
    /// The nearest that does not, and why.
    bad: Option<(usize, Stop)>,
    /// Steps still to be tried outwards, the nearest last.
    outwards: Vec<usize>,
}

/// Values by the number of steps from the present one.
#[derive(Clone, Copy, Debug)]
struct Grid {
    now: f64,
    /// The first step's value.
    first: f64,
    step: f64,
    count: usize,
}

impl Grid {
    /// Below and above `now` among the values from `min` to `max`.
    fn around(now: f64, min: f64, max: f64, step: f64) -> [Self; 2] {
        // Values between steps are allowed; rounding must not take such a value for its neighbour, nor the reverse.
        let steps = |value: f64| (value - min) / step;
        let (below, above) = ((steps(now) - 1e-6).ceil() - 1.0, (steps(now) + 1e-6).floor() + 1.0);
        let last = (steps(max) + 1e-6).floor();
        let down =
            Self { now, first: min + below * step, step: -step, count: (below + 1.0).max(0.0) as usize };
        let up = Self { now, first: min + above * step, step, count: (last - above + 1.0).max(0.0) as usize };
        [down, up]
    }

    fn value(&self, steps: usize) -> f64 {
        match steps {
            0 => self.now,
            // Grids have at most three decimals; the sum must not show its rounding.
            _ => ((self.first + self.step * (steps - 1) as f64) * 1e3).round() / 1e3,
        }
    }
}

impl Side {
    fn new(grid: Grid) -> Self {
        let mut outwards = vec![grid.count, grid.count / 2, grid.count / 8];
        outwards.retain(|steps| *steps > 0);
        outwards.dedup();
        Self { grid, good: 0, bad: None, outwards }
    }

    fn wanted(&self) -> Option<usize> {
        match &self.bad {
            Some((bad, _)) => (bad - self.good > 1).then(|| usize::midpoint(self.good, *bad)),
            None => self.outwards.last().copied(),
        }
    }

    fn learn(&mut self, steps: usize, stop: Option<Stop>) {
        self.outwards.pop();
        match stop {
            None => self.good = steps,
            Some(stop) => self.bad = Some((steps, Stop { value: Some(self.grid.value(steps)), ..stop })),
        }
    }

    fn end(self) -> End {
        End { value: self.grid.value(self.good), stop: self.bad.map(|(_, stop)| stop) }
    }
}

impl Seek {
    pub(super) fn new(knob: &'static Knob, design: &Design) -> Self {
        let value = design.to_map().remove(knob.name).unwrap_or_default();
        let now = value.as_f64().unwrap_or_default();
        let span = |min, max, step| Way::Span(Box::new(Grid::around(now, min, max, step).map(Side::new)));
        let way = match knob.kind {
            Kind::Range { min, max, step, .. } => span(min, max, step),
            Kind::Count { min, max, .. } => span(min.into(), max.into(), 1.0),
            Kind::Choice { .. } => {
                let others = knob.picks().into_iter().rev().map(|pick| pick.name);
                Way::Picks(others.filter(|name| value != *name).collect(), Vec::new())
            }
        };
        Self { knob, way }
    }

    pub(super) fn knob(&self) -> &'static Knob {
        self.knob
    }

    /// The value to try next; none when all is known.
    pub(super) fn wanted(&self) -> Option<Value> {
        match &self.way {
            Way::Span(sides) => {
                sides.iter().find_map(|side| Some(self.plain(side.grid.value(side.wanted()?))))
            }
            Way::Picks(others, _) => others.last().map(|name| Value::from(*name)),
        }
    }

    /// Takes what came of that value.
    pub(super) fn learn(&mut self, stop: Option<Stop>) {
        match &mut self.way {
            Way::Span(sides) => {
                if let Some((side, steps)) =
                    sides.iter_mut().find_map(|side| side.wanted().map(|steps| (side, steps)))
                {
                    side.learn(steps, stop);
                }
            }
            Way::Picks(others, tried) => tried.extend(others.pop().map(|name| PickHolds { name, stop })),
        }
    }

    pub(super) fn finish(self) -> SafeRange {
        let holds = match self.way {
            Way::Span(sides) => {
                let [down, up] = *sides;
                Holds::Span { low: down.end(), high: up.end() }
            }
            Way::Picks(_, tried) => Holds::Picks(tried),
        };
        SafeRange { knob: self.knob.name, holds }
    }

    /// Counts are whole numbers in a design.
    fn plain(&self, value: f64) -> Value {
        match self.knob.kind {
            Kind::Count { .. } => (value as u64).into(),
            Kind::Range { .. } | Kind::Choice { .. } => value.into(),
        }
    }
}
