//! Flat pieces in the plane of the seat.

use crate::part::Size;
use crate::parts::maker::Timber;
use crate::skeleton::SeatLines;
use crestrail_geometry::{Body, Place, Prism, Vec3};
use kurbo::Point;

/// A flat piece of this outline, told in the coordinates of the seat, from the height `low` to `high`.
/// Its length runs from side to side.
pub(super) fn plate(seat: &SeatLines, outline: &[Point], low: f64, high: f64) -> Timber {
    let (x, y) = (span(outline, |p| p.x), span(outline, |p| p.y));
    let middle = Point::new((x.0 + x.1) / 2.0, (y.0 + y.1) / 2.0);
    let half = (high - low) / 2.0;
    let origin = Vec3::new(middle.x, middle.y, low + half);
    let place = seat.frame.place(&Place { origin, ..Place::HOME });
    let outline = outline.iter().map(|p| Point::new(p.x - middle.x, p.y - middle.y)).collect();
    let prism = Prism { place: Place::HOME, outline, from: -half, to: half, clip: Vec::new() };
    let size = Size { length: x.1 - x.0, width: y.1 - y.0, thickness: high - low };
    Timber::whole(place, Body::Prism(prism), size)
}

fn span(outline: &[Point], value: fn(&Point) -> f64) -> (f64, f64) {
    outline
        .iter()
        .map(value)
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| (low.min(v), high.max(v)))
}
