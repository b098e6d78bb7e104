//! The marks that a maker pencils on a planed stick: on the face side a loop whose tail runs to the face edge, on the face
//! edge a V that points to the face side (common practice, no source).

use crate::sheets::pens::{self, Pen};
use crestrail_geometry::math::{cos, sin};
use crestrail_sheet::Item;
use kurbo::Point;

/// Radius of the loop, and how far it moves on in a turn over 2π, mm at full size.
const LOOP: f64 = 2.2;
const ON: f64 = 0.9;
/// Height and half the width of the V, mm at full size.
const TICK: [f64; 2] = [4.0, 1.8];
/// Where the loop begins and ends, radians of its turn; its middle is opposite the tail.
const TURN: [f64; 2] = [-2.3, 3.1];
const STEPS: usize = 28;

/// The loop at `x`, its tail on the arris at `arris`; `down` where the face lies below the arris. `size` 1 is full size.
pub(super) fn face_side(x: f64, arris: f64, down: bool, size: f64) -> Item {
    let way = if down { size } else { -size };
    let point = |i: usize| {
        let t = TURN[0] + (TURN[1] - TURN[0]) * i as f64 / STEPS as f64;
        // A prolate cycloid: it goes back where it loops.
        let (aside, away) = (ON * t - LOOP * sin(t), LOOP + LOOP * cos(t));
        Point::new(x + aside * size, arris + away * way)
    };
    let points: Vec<Point> = (0..=STEPS).map(point).collect();
    pens::lines(vec![pens::open(&points)], Pen::Outline)
}

/// The V at `x`, its point on the arris.
pub(super) fn face_edge(x: f64, arris: f64, down: bool, size: f64) -> Item {
    let away = arris + if down { TICK[0] } else { -TICK[0] } * size;
    let aside = TICK[1] * size;
    let points = [Point::new(x - aside, away), Point::new(x, arris), Point::new(x + aside, away)];
    pens::lines(vec![pens::open(&points)], Pen::Outline)
}
