//! What the crate of timber computes, on its own: board measure, density and moisture.

use crate::Refused;
use crestrail_chair::reading::{Fields, Limits, number};
use crestrail_timber::board_measure::{
    SurfaceTally, board_feet, board_feet_of_surface, board_feet_of_volume,
};
use crestrail_timber::{density, moisture};
use serde_json::{Value, json};

/// Most boards of one request.
const MOST_BOARDS: usize = 1000;

const INCHES: Limits = Limits { label: "A size", min: 0.0, max: 1000.0, unit: "" };
const GRAVITY: Limits = Limits { label: "Basic specific gravity", min: 0.05, max: 1.5, unit: "" };
/// The formula has limits of its own.
const ANY: Limits = Limits { label: "The figure", min: -1e6, max: 1e6, unit: "" };
const MOISTURE: Limits = Limits { label: "Moisture", min: 0.0, max: 300.0, unit: " %" };

/// Board measure of boards told as `{thickness_in, width_in, length_ft}`; the surface measures are one tally.
pub(crate) fn boards(fields: &Fields<'_>) -> Result<Value, Refused> {
    let mut tally = SurfaceTally::new();
    let mut rows = Vec::new();
    for (path, value) in fields.list("boards", MOST_BOARDS)? {
        let board = Fields::at(path, value)?;
        let size = |name| number(board.path(name), board.needed(name)?, &INCHES);
        let (thickness, width, length) = (size("thickness_in")?, size("width_in")?, size("length_ft")?);
        let surface = tally.measure(width, length);
        let cubic_mm = thickness * width * length * 12.0 * 25.4 * 25.4 * 25.4;
        rows.push(json!({
            "board_feet": board_feet(thickness, width, length),
            "surface_ft2": surface,
            "board_feet_of_surface": board_feet_of_surface(surface, thickness),
            "board_feet_of_volume": board_feet_of_volume(cubic_mm),
        }));
    }
    Ok(json!(rows))
}

/// Specific gravity and density at a moisture content, from the basic specific gravity.
pub(crate) fn density(fields: &Fields<'_>) -> Result<Value, Refused> {
    let basic = fields.number("basic_gravity", &GRAVITY)?;
    let moisture = fields.number("moisture", &MOISTURE)?;
    let gravity = density::estimated_specific_gravity(basic, moisture);
    Ok(json!({"specific_gravity": gravity, "density": density::density(gravity, moisture)}))
}

/// Moisture in equilibrium with air of relative humidity `rh` (a share) at `celsius`, or at `fahrenheit` by the other form.
pub(crate) fn moisture(fields: &Fields<'_>) -> Result<Value, Refused> {
    let humidity = fields.number("rh", &ANY)?;
    let found = match ["celsius", "fahrenheit"].map(|name| fields.has(name)) {
        [true, false] => moisture::equilibrium(humidity, fields.number("celsius", &ANY)?),
        [false, true] => moisture::equilibrium_fahrenheit(humidity, fields.number("fahrenheit", &ANY)?),
        _ => return Err(Refused::new("celsius", "Give the temperature once: as celsius or as fahrenheit.")),
    };
    let named = |what: &str| if what == "temperature" { "temperature" } else { "rh" };
    found
        .map(|percent| json!({"emc_percent": percent}))
        .map_err(|why| Refused::new(named(why.what), why.to_string()))
}
