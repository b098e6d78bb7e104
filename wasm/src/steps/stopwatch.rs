//! Times of the stages, for the page's own figures and for the browser's performance panel.

use js_sys::Reflect;
use std::sync::atomic::{AtomicU32, Ordering};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::Performance;

/// Measures kept before the browser's list is emptied: a day at the knobs must not fill its memory.
const KEPT: u32 = 3000;

static RECORDED: AtomicU32 = AtomicU32::new(0);

/// Measures stages on the clock of the page, the worker or Node.js.
pub(crate) struct Stopwatch {
    /// Absent where the surroundings have none; then all times are 0.
    clock: Option<Performance>,
}

impl Stopwatch {
    /// The clock of the global object that the core runs under. A window, a worker and Node.js have
    /// it under the same name, though not under the same class.
    pub(crate) fn new() -> Self {
        let found = Reflect::get(&js_sys::global(), &JsValue::from_str("performance"));
        let clock = found.ok().filter(JsValue::is_object).map(JsCast::unchecked_into);
        Self { clock }
    }

    /// Runs `stage`, records it as a measure named `crestrail:<name>` and returns its time in ms.
    pub(crate) fn time<T>(&self, name: &str, stage: impl FnOnce() -> T) -> (T, f64) {
        let name = format!("crestrail:{name}");
        let started = self.now();
        self.mark(&name);
        let made = stage();
        let took = self.now() - started;
        self.measure(&name);
        (made, took)
    }

    fn now(&self) -> f64 {
        self.clock.as_ref().map_or(0.0, Performance::now)
    }

    // A mark or measure that the browser does not keep costs a figure in a panel and nothing else, so
    // what these calls return is let go.

    fn mark(&self, name: &str) {
        if let Some(clock) = &self.clock {
            let _ = clock.mark(name);
        }
    }

    fn measure(&self, name: &str) {
        let Some(clock) = &self.clock else { return };
        if RECORDED.fetch_add(1, Ordering::Relaxed).is_multiple_of(KEPT) {
            clock.clear_measures();
        }
        let _ = clock.measure_with_start_mark(name, name);
        clock.clear_marks_with_mark_name(name);
    }
}
