//! How long the core's own machinery takes for work that other programs can be given too, without reading or writing it.

use crate::bodies::made_from;
use crate::{Refused, frames};
use crestrail_chair::chair::Chair;
use crestrail_chair::design::Design;
use crestrail_chair::part::Side;
use crestrail_chair::reading::{Fields, parse};
use crestrail_chair::shop::Shop;
use crestrail_frame::Structure;
use crestrail_geometry::view::{Camera, Subject, draft};
use crestrail_geometry::{Body, Vec3, carve};
use serde_json::{Value, json};
use std::hint::black_box;
use std::time::Instant;

/// How often each work is done; the median counts.
const ROUNDS: usize = 21;

/// The answer to one line: `{"ok": {"seconds": …}}`, the median of some rounds, or an error as the probe tells it.
/// `{"lap": "carve", "design": …}` carves all parts that are no mirror image, each from scratch; `hidden` works out what is
/// seen of a chair's edges from the front; `frame` with a `problem` of the probe builds, factorises and solves it.
pub fn lap(line: &str) -> Value {
    match parse("request", line).map_err(Refused::from).and_then(|request| seconds(&request)) {
        Ok(seconds) => json!({"ok": {"seconds": seconds}}),
        Err(Refused(error)) => json!({"error": error}),
    }
}

fn seconds(request: &Value) -> Result<f64, Refused> {
    let fields = Fields::top("request", request)?;
    match fields.text("lap", 40)?.as_str() {
        "carve" => carving(&resolved(&fields)?),
        "hidden" => hiding(&resolved(&fields)?),
        "frame" => framing(&fields),
        other => Err(Refused::new("lap", format!("There is no {other}. Ask for carve, hidden or frame."))),
    }
}

fn resolved(fields: &Fields<'_>) -> Result<Chair, Refused> {
    let design = Design::from_value(fields.needed("design")?)?;
    let made = Chair::resolve(&design, &Shop::demo().bench());
    made.map_err(|clash| Refused::new("build", clash.why))
}

/// The median of all rounds, s.
fn median<T>(mut work: impl FnMut() -> Result<T, Refused>) -> Result<f64, Refused> {
    let round = |_| {
        let began = Instant::now();
        black_box(work()?);
        Ok(began.elapsed().as_secs_f64())
    };
    let mut times = (0..ROUNDS).map(round).collect::<Result<Vec<f64>, Refused>>()?;
    times.sort_by(f64::total_cmp);
    Ok(times[ROUNDS / 2])
}

fn carving(chair: &Chair) -> Result<f64, Refused> {
    let own = chair.parts.iter().filter(|part| part.id.side != Side::Left);
    let made: Vec<_> = own
        .map(|part| {
            let (added, cut) = made_from(part, &chair.joints, &chair.housings);
            let local =
                |bodies: Vec<Body>| bodies.iter().map(|b| b.local_to(&part.place)).collect::<Vec<_>>();
            (local(added), local(cut))
        })
        .collect();
    median(|| {
        let carved = made.iter().map(|(added, cut)| carve(added, cut));
        carved.collect::<Result<Vec<_>, _>>().map_err(|error| Refused::new("build", error.to_string()))
    })
}

fn hiding(chair: &Chair) -> Result<f64, Refused> {
    let subjects: Vec<_> = (chair.pieces().enumerate())
        .map(|(owner, (part, body))| Subject { owner, solid: &body.solid, place: part.place })
        .collect();
    let camera = Camera::square(-Vec3::X, Vec3::Z);
    median(|| Ok(draft(&subjects, &camera)))
}

fn framing(fields: &Fields<'_>) -> Result<f64, Refused> {
    let problem = fields.object("problem")?;
    let (frame, case) = (frames::told(&problem)?, frames::case(&problem)?);
    let trouble = |trouble| frames::refused("problem", &trouble);
    median(|| {
        let structure = Structure::new(&frame).map_err(trouble)?;
        structure.factorise().map_err(trouble)?.solve(&case).map_err(trouble)
    })
}
