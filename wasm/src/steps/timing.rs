//! Times of what a step does not tell by itself, for the bench.

use crate::refused::Refused;
use crate::reply;
use crate::request::Request;
use crate::steps::stopwatch::Stopwatch;
use crestrail_chair::chair::Chair;
use crestrail_chair::checks::{findings, shares};
use crestrail_chair::report::service;
use crestrail_chair::service::Service;
use serde::Serialize;
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

/// Times in ms.
#[derive(Serialize)]
struct Times {
    /// Of all checks.
    checks: f64,
    /// Of those of strength, which are one frame under many loads.
    frame: f64,
}

/// How long the checks of a design take: `{ok: {checks, frame}}` for `{design, shop?}`.
#[wasm_bindgen(js_name = checkTimes)]
pub fn check_times(request: JsValue) -> JsValue {
    reply::answer(timed(request))
}

fn timed(request: JsValue) -> Result<Times, Refused> {
    let request = Request::read(request)?;
    let design = request.design()?;
    let chair = Chair::resolve(&design, &request.shop()?.bench())?;
    let (clock, service) = (Stopwatch::new(), service(&design));
    // Other users than the step's, so that nothing is recalled of the frame.
    let user = |more: f64| Service { user: service.user + more, ..service };
    let (_, checks) = clock.time("checks", || findings(&chair, &user(1.0)));
    let (_, frame) = clock.time("frame", || shares(&chair, &user(2.0)));
    Ok(Times { checks, frame })
}
