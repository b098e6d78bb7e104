//! Time of the processor where the system tells it, so that other programs on the machine do not count.

use std::time::Instant;

/// Counts from when it was made.
pub(crate) struct Clock {
    began: Instant,
    used: Option<f64>,
}

impl Clock {
    /// Starts now.
    pub(crate) fn start() -> Self {
        Self { began: Instant::now(), used: processor() }
    }

    /// Seconds since the start.
    pub(crate) fn seconds(&self) -> f64 {
        let used = self.used.zip(processor()).map(|(from, to)| to - from);
        used.unwrap_or_else(|| self.began.elapsed().as_secs_f64())
    }

    /// What is counted, in words.
    pub(crate) fn name() -> &'static str {
        if processor().is_some() { "time of the processor" } else { "time of the clock" }
    }
}

/// Seconds this thread has been at work, from Linux's file of its scheduler (nanoseconds, the first number).
fn processor() -> Option<f64> {
    let text = std::fs::read_to_string("/proc/thread-self/schedstat").ok()?;
    Some(text.split_whitespace().next()?.parse::<f64>().ok()? / 1e9)
}
