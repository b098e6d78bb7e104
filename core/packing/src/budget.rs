//! How much work a search may do, and what it tells on the way.

use std::ops::ControlFlow;

/// How much work a search may do.
///
/// Work is counted in steps of the inner loops and never in seconds, so that the same problem and the
/// same budget give the same plan on every machine. One unit takes about a nanosecond natively.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Budget {
    /// Units of work.
    pub work: u64,
}

impl Budget {
    /// A budget of so many units of work.
    pub fn of(work: u64) -> Self {
        Self { work }
    }
}

/// Where a search stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Progress {
    /// Cost of the best plan so far.
    pub cost: i64,
    /// No plan can cost less.
    pub bound: i64,
    /// Pieces that the best plan so far leaves out.
    pub missing: u32,
    /// Work done.
    pub work: u64,
}

/// The caller's answer to progress: go on, or stop and return the best so far.
pub type Listener<'a> = &'a mut dyn FnMut(&Progress) -> ControlFlow<()>;

/// Counts work and knows when to end.
pub(crate) struct Meter<'a> {
    listener: Listener<'a>,
    work: u64,
    limit: u64,
    told: u64,
    stopped: bool,
}

/// Work between two calls of the listener, about 5 ms, so that a stop is felt at once.
const BETWEEN: u64 = 5_000_000;

impl<'a> Meter<'a> {
    pub(crate) fn new(budget: Budget, listener: Listener<'a>) -> Self {
        Self { listener, work: 0, limit: budget.work, told: 0, stopped: false }
    }

    /// Adds work done; false when the search has to end.
    pub(crate) fn spend(&mut self, work: u64) -> bool {
        self.work += work;
        !self.over()
    }

    /// Whether the search has to end.
    pub(crate) fn over(&self) -> bool {
        self.stopped || self.work >= self.limit
    }

    /// Work done so far.
    pub(crate) fn work(&self) -> u64 {
        self.work
    }

    /// Work left.
    pub(crate) fn left(&self) -> u64 {
        self.limit.saturating_sub(self.work)
    }

    /// Runs `part` with at most `share` units of work; the limit is as before afterwards.
    pub(crate) fn within<T>(&mut self, share: u64, part: impl FnOnce(&mut Self) -> T) -> T {
        let whole = self.limit;
        self.limit = whole.min(self.work.saturating_add(share));
        let result = part(self);
        self.limit = whole;
        result
    }

    /// Tells where the search stands: always when `news`, else now and then.
    pub(crate) fn tell(&mut self, cost: i64, bound: i64, missing: u32, news: bool) {
        if self.stopped || !(news || self.work - self.told >= BETWEEN) {
            return;
        }
        self.told = self.work;
        let progress = Progress { cost, bound, missing, work: self.work };
        self.stopped = (self.listener)(&progress).is_break();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_share_ends_before_the_whole() {
        let mut hear = |_: &Progress| ControlFlow::Continue(());
        let mut meter = Meter::new(Budget::of(100), &mut hear);
        meter.within(10, |m| assert!(!m.spend(10)));
        assert!(!meter.over() && meter.work() == 10);
    }

    #[test]
    fn the_listener_can_stop() {
        let mut hear = |_: &Progress| ControlFlow::Break(());
        let mut meter = Meter::new(Budget::of(100), &mut hear);
        meter.tell(1, 0, 0, true);
        assert!(meter.over());
    }
}
