//! Word to the page from a long job.

use js_sys::Function;
use wasm_bindgen::JsValue;

/// The page's callback `(done, total, words)`.
pub(crate) struct Progress<'a>(&'a Function);

impl<'a> Progress<'a> {
    /// Wraps the callback.
    pub(crate) fn new(callback: &'a Function) -> Self {
        Self(callback)
    }

    /// Tells how many of `total` steps are done and, in words, what comes now.
    pub(crate) fn tell(&self, done: usize, total: usize, words: &str) {
        // A listener that throws has its own error to show; the job goes on.
        let _ = self.0.call3(&JsValue::NULL, &count(done), &count(total), &JsValue::from_str(words));
    }
}

/// Steps number far below 2³², so nothing is lost.
fn count(steps: usize) -> JsValue {
    JsValue::from_f64(u32::try_from(steps).unwrap_or(u32::MAX).into())
}
