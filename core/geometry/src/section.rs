//! Sections: where a plane runs through the inside of a body.

use crate::math::{max, min};
use crate::piece::SAME_DIRECTION;
use crate::piece::{Piece, Shape, square};
use crate::plane_frame::{Meeting, PlaneFrame};
use crate::polygon::{Corners, HalfPlane, NEAR, Polygon, holds, touches};
use crate::region::common;
use crate::{Bounds, Plane, Prism, Vec3};
use crestrail_sorting::Order as _;
use kurbo::{Point, Rect};
use smallvec::SmallVec;

/// Adds to `out` the part of the plane that has the inside of the piece on both its sides. Where the
/// piece only lies against the plane, from below or above, there is none.
pub(crate) fn through(piece: &Piece, frame: &PlaneFrame, out: &mut Vec<Polygon>) {
    if !straddles(piece, frame) {
        return;
    }
    match &piece.shape {
        Shape::Convex(planes) => {
            let reach = piece.bounds.size().length() * 0.5 + 1.0;
            out.extend(frame.clip(square(frame.flat(piece.bounds.middle()), reach), planes.iter()));
        }
        Shape::Prism(prism, convex) => out.extend(through_prism(prism, *convex, frame)),
    }
}

/// The same, but only what lies within `window`.
pub(crate) fn within(piece: &Piece, frame: &PlaneFrame, window: &Polygon, out: &mut Vec<Polygon>) {
    if !straddles(piece, frame) {
        return;
    }
    match &piece.shape {
        Shape::Convex(planes) if window.convex => {
            out.extend(frame.clip(window.clone(), planes.iter()));
        }
        Shape::Prism(prism, _) if window.convex && convex_near(prism, frame, window, out) => {}
        _ => {
            let mut parts = Vec::new();
            through(piece, frame, &mut parts);
            parts.iter().for_each(|part| out.extend(common(window, part)));
        }
    }
}

fn straddles(piece: &Piece, frame: &PlaneFrame) -> bool {
    let (n, half) = (frame.normal, piece.bounds.size() * 0.5);
    let reach = n.x.abs() * half.x + n.y.abs() * half.y + n.z.abs() * half.z;
    frame.height(piece.bounds.middle()).abs() < reach - NEAR
}

/// The section within a convex window where the outline, as far as it comes near the window, is that
/// of a convex body: then only the few sides there need be looked at. False, and nothing done, if not.
///
/// When each edge near the window lies inside all the others, no edge runs through the common part of
/// their half-planes, and beyond any of them there is nothing of the prism.
fn convex_near(prism: &Prism, frame: &PlaneFrame, window: &Polygon, out: &mut Vec<Polygon>) -> bool {
    let place = &prism.place;
    let corners: SmallVec<[Vec3; 8]> =
        window.points.iter().map(|&p| place.local_point(frame.lift(p))).collect();
    let reach = Bounds::around(&corners);
    let rect = Rect::new(reach.low.x, reach.low.y, reach.high.x, reach.high.y).inflate(NEAR, NEAR);
    let n = prism.outline.len();
    let edge = |i: usize| (prism.outline[i], prism.outline[if i + 1 == n { 0 } else { i + 1 }]);
    let near: SmallVec<[(Point, Point); 8]> =
        (0..n).map(edge).filter(|&(a, b)| touches(a, b, &rect)).collect();
    let inside = |&(a, b): &(Point, Point)| {
        let half = HalfPlane::left_of(a, b);
        near.iter().all(|&(c, d)| half.distance(c) <= 0.0 && half.distance(d) <= 0.0)
    };
    if !near.iter().all(inside) {
        return false;
    }
    if near.is_empty() && !holds(&prism.outline, rect.center()) {
        return true;
    }
    let mut planes: SmallVec<[Plane; 8]> = SmallVec::new();
    for (a, b) in near {
        let normal = place.x * (b.y - a.y) - place.y * (b.x - a.x);
        planes.push(Plane::through(place.point(Vec3::new(a.x, a.y, 0.0)), normal));
    }
    for (z, sign, beyond) in
        [(prism.from, -1.0, reach.low.z < prism.from), (prism.to, 1.0, reach.high.z > prism.to)]
    {
        if beyond {
            planes.push(Plane::through(place.origin + place.z * z, place.z * sign));
        }
    }
    out.extend(frame.clip(window.clone(), planes.iter()));
    true
}

fn through_prism(prism: &Prism, convex: bool, frame: &PlaneFrame) -> Vec<Polygon> {
    let rate = frame.normal.dot(prism.place.z);
    if rate.abs() > SAME_DIRECTION { across(prism, convex, frame, rate) } else { lengthwise(prism, frame) }
}

/// The plane crosses the axis: the outline, cast along the axis onto the plane, between the ends.
fn across(prism: &Prism, convex: bool, frame: &PlaneFrame, rate: f64) -> Vec<Polygon> {
    let place = &prism.place;
    let mut points = Corners::with_capacity(prism.outline.len());
    let (mut least, mut most) = (f64::INFINITY, f64::NEG_INFINITY);
    for p in &prism.outline {
        let foot = place.origin + place.x * p.x + place.y * p.y;
        let z = -frame.height(foot) / rate;
        (least, most) = (min(least, z), max(most, z));
        points.push(frame.flat(foot + place.z * z));
    }
    if most <= prism.from + NEAR || least >= prism.to - NEAR {
        return Vec::new();
    }
    let whole = Polygon::new(points, convex);
    let ends = [(prism.from, -1.0, least < prism.from), (prism.to, 1.0, most > prism.to)];
    let halves = ends.into_iter().filter(|e| e.2).filter_map(|(z, sign, _)| {
        match frame.meeting(&Plane::through(place.origin + place.z * z, place.z * sign)) {
            Meeting::Line(half) => Some(half),
            // Square to the axis: the ends were compared above.
            Meeting::Inside | Meeting::Outside => None,
        }
    });
    whole.inside(halves)
}

/// The plane runs along the axis: rectangles over the stretches of its trace inside the outline.
fn lengthwise(prism: &Prism, frame: &PlaneFrame) -> Vec<Polygon> {
    let place = &prism.place;
    let heights: SmallVec<[f64; 32]> = prism
        .outline
        .iter()
        .map(|p| frame.height(place.origin + place.x * p.x + place.y * p.y))
        .map(|h| if h.abs() <= NEAR { 0.0 } else { h })
        .collect();
    let trace = frame.normal.cross(place.z);
    let along = (place.local_direction(trace), place);
    let below = stretches(&prism.outline, &heights, |h| h >= 0.0, along.0);
    let inside = if heights.contains(&0.0) {
        overlap(&below, &stretches(&prism.outline, &heights, |h| h > 0.0, along.0))
    } else {
        below
    };
    inside.into_iter().map(|(a, b)| strip(prism, frame, a, b)).collect()
}

/// Where the line at height zero, moved by a hair so that `is_above` is clear-cut at every corner,
/// runs inside the outline: pairs of points in order along the line.
fn stretches(
    outline: &[Point],
    heights: &[f64],
    is_above: impl Fn(f64) -> bool,
    along: Vec3,
) -> Vec<(Point, Point)> {
    let n = outline.len();
    let mut hits: Vec<(f64, Point)> = Vec::new();
    for i in 0..n {
        let j = if i + 1 == n { 0 } else { i + 1 };
        let (h, k) = (heights[i], heights[j]);
        if is_above(h) == is_above(k) {
            continue;
        }
        let p = if h == 0.0 {
            outline[i]
        } else if k == 0.0 {
            outline[j]
        } else {
            outline[i].lerp(outline[j], h / (h - k))
        };
        hits.push((p.x * along.x + p.y * along.y, p));
    }
    hits.order_by(|a, b| a.0.total_cmp(&b.0));
    hits.chunks_exact(2).filter(|c| c[1].0 - c[0].0 > NEAR).map(|c| (c[0].1, c[1].1)).collect()
}

/// The stretches common to two lists of stretches on the same line.
fn overlap(one: &[(Point, Point)], other: &[(Point, Point)]) -> Vec<(Point, Point)> {
    let mut common = Vec::new();
    for &(a, b) in one {
        for &(c, d) in other {
            let run = b - a;
            let at = |p: Point| run.dot(p - a) / run.hypot2().sqrt();
            let start = if at(c) > 0.0 { c } else { a };
            let end = if at(d) < at(b) { d } else { b };
            if at(end) - at(start) > NEAR {
                common.push((start, end));
            }
        }
    }
    common
}

fn strip(prism: &Prism, frame: &PlaneFrame, a: Point, b: Point) -> Polygon {
    let corner = |p: Point, z: f64| frame.flat(prism.place.point(Vec3::new(p.x, p.y, z)));
    let (from, to) = (prism.from, prism.to);
    let corners = [corner(a, from), corner(b, from), corner(b, to), corner(a, to)];
    Polygon::new(Corners::from_slice(&corners), true)
}
