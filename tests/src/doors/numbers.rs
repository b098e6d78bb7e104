//! Outlines, and the problems of the crates that know no chair.

use super::answered;
use crestrail_chair::reading;
use crestrail_geometry::outline::{hull, signed_area, tidy};
use crestrail_geometry::{Body, Place, Prism, Vec3, carve, coarser, grown, outline};
use kurbo::Point;
use serde_json::{Value, json};

/// Work that a packing problem may take: some hundredths of a second.
const WORK: f64 = 5e6;

/// Most corners of an outline here, so that one is done at once.
const CORNERS: usize = 64;
/// mm; a part is no longer, and the grid of the flat regions no wider.
const FAR: f64 = 5000.0;

/// A list of corners `[[x, y], …]`, mm: made tidy, grown, coarser, and carved from a block as a hole.
pub(super) fn outlines(bytes: &[u8]) -> bool {
    let Ok(text) = str::from_utf8(bytes) else { return false };
    let Ok(Value::Array(rows)) = reading::parse("outline", text) else { return false };
    let corner = |row: &Value| Some(Point::new(row.get(0)?.as_f64()?, row.get(1)?.as_f64()?));
    let corners: Option<Vec<Point>> = rows.iter().take(CORNERS).map(corner).collect();
    let Some(corners) = corners.filter(|c| c.iter().all(|p| p.x.abs() <= FAR && p.y.abs() <= FAR)) else {
        return false;
    };
    let tidied = tidy(corners.clone());
    assert!(signed_area(&tidied) >= 0.0 && (tidied.is_empty() || tidied.len() >= 3));
    let around = hull(corners.clone());
    let area = signed_area(&around);
    assert!(area.is_finite() && area >= -1e-6, "{area}");
    let fewer = coarser(&corners, 0.5);
    assert!(fewer.len() <= corners.len());
    if tidied.len() >= 3 {
        let wide = grown(&tidied, 3.0, 10.0);
        assert!(wide.iter().all(|p| p.is_finite()));
    }
    drilled(&tidied);
    let path = kurbo::BezPath::from_vec(
        corners
            .iter()
            .enumerate()
            .map(|(i, &p)| if i == 0 { kurbo::PathEl::MoveTo(p) } else { kurbo::PathEl::LineTo(p) })
            .collect(),
    );
    let flat = outline::flatten(&path, 0.05);
    assert!(flat.is_empty() || flat.len() >= 3);
    true
}

/// A block with the outline cut through it is closed and no larger than the block, or is refused.
fn drilled(outline: &[Point]) {
    if !convex(outline) {
        return;
    }
    let block = Body::cuboid(&Place::HOME, Vec3::new(-200.0, -200.0, 0.0), Vec3::new(200.0, 200.0, 30.0));
    let hole = Body::Prism(Prism {
        place: Place::HOME,
        outline: outline.to_vec(),
        from: -5.0,
        to: 20.0,
        clip: Vec::new(),
    });
    if let Ok(solid) = carve(&[block], &[hole]) {
        let size = solid.bounds().size();
        assert!(solid.is_closed() && size.x <= 400.0 && size.y <= 400.0 && size.z <= 30.0, "{size:?}");
    }
}

fn convex(outline: &[Point]) -> bool {
    let n = outline.len();
    let turn =
        |i: usize| (outline[(i + 1) % n] - outline[i]).cross(outline[(i + 2) % n] - outline[(i + 1) % n]);
    n >= 3 && (0..n).all(|i| turn(i) > 1e-3) && signed_area(outline) > 1.0
}

/// `{ask: bars | boards | planks, problem}` as `probe` takes it, with little work.
pub(super) fn packing(bytes: &[u8]) -> bool {
    let Some(mut request) = request(bytes) else { return false };
    request["work"] = json!(WORK);
    let answer = crate::asks::answer(&request);
    if let Ok(told) = &answer {
        let [cost, bound] = ["cost", "bound"].map(|name| told[name].as_f64().unwrap_or(f64::NAN));
        assert!(bound <= cost, "the bound {bound} is above {cost}");
    }
    answered(answer)
}

/// `{ask: frame, problem}`.
pub(super) fn frame(bytes: &[u8]) -> bool {
    let Some(request) = request(bytes) else { return false };
    let answer = crate::asks::answer(&request);
    if let Ok(told) = &answer {
        crate::sweep::numbers("frame", told).unwrap_or_else(|why| panic!("{why}"));
    }
    answered(answer)
}

fn request(bytes: &[u8]) -> Option<Value> {
    let value = reading::parse("request", str::from_utf8(bytes).ok()?).ok()?;
    let asked = ["bars", "boards", "planks", "frame"].contains(&value.get("ask")?.as_str()?);
    asked.then_some(value)
}
