//! The time of a processor, so that other work on the machine does not count.

use std::fs;
use std::sync::LazyLock;
use std::time::{Duration, Instant};

/// What this thread has had of a processor; where Linux does not tell it, the time that has passed.
pub fn spent() -> Duration {
    static BEGAN: LazyLock<Instant> = LazyLock::new(Instant::now);
    let told = fs::read_to_string("/proc/thread-self/schedstat").unwrap_or_default();
    let nanoseconds = told.split(' ').next().and_then(|first| first.parse().ok());
    nanoseconds.map_or_else(|| BEGAN.elapsed(), Duration::from_nanos)
}
