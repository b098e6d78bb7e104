//! What happens when an invariant of the core does not hold.

use std::panic::{PanicHookInfo, set_hook};
use wasm_bindgen::JsValue;

/// Makes a panic a readable message in the console and an exception with the same words.
///
/// The module is compiled with `panic = "abort"`: nothing is unwound, so its memory is in doubt
/// afterwards and must not be called again. The worker tells the page that it is broken, and the
/// page starts a new worker, says so, and keeps the last good design.
pub(crate) fn install() {
    set_hook(Box::new(tell));
}

fn tell(info: &PanicHookInfo<'_>) {
    let words = format!("The core stopped: {info}");
    web_sys::console::error_1(&JsValue::from_str(&words));
    wasm_bindgen::throw_str(&words);
}
