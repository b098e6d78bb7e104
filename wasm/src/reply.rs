//! Answers as plain objects: `{ok: …}` or `{error: {where, why, …}}`, never an exception.

use js_sys::{Object, Reflect};
use serde::Serialize;
use serde_wasm_bindgen::Serializer;
use wasm_bindgen::JsValue;

/// `{ok: value}`, or `{error: refusal}`.
pub(crate) fn answer<T: Serialize, E: Serialize>(result: Result<T, E>) -> JsValue {
    match result {
        Ok(value) => keyed("ok", &plain(&value)),
        Err(refusal) => refused(&refusal),
    }
}

/// `{error: refusal}`.
pub(crate) fn refused(refusal: &impl Serialize) -> JsValue {
    keyed("error", &plain(refusal))
}

/// An object with one property.
pub(crate) fn keyed(key: &str, value: &JsValue) -> JsValue {
    let object = Object::new();
    set(&object, key, value);
    object.into()
}

/// Sets a property of a new, plain object, which cannot fail.
pub(crate) fn set(object: &Object, key: &str, value: &JsValue) {
    let done = Reflect::set(object, &JsValue::from_str(key), value);
    debug_assert!(done.is_ok(), "a plain object takes every property");
}

/// Plain data: objects rather than maps, numbers rather than big ones, null for nothing.
pub(crate) fn plain(value: &impl Serialize) -> JsValue {
    match value.serialize(&Serializer::json_compatible()) {
        Ok(data) => data,
        // Only a map with keys that are no strings fails, and no type of the core has one.
        Err(error) => wasm_bindgen::throw_str(&format!("an answer has no plain form: {error}")),
    }
}
