//! Flat regions: polygons joined, intersected and subtracted.
//!
//! Most of what a chair asks for needs no general boolean: a convex face clipped by a convex section,
//! a hole clear of every edge. Those are done directly, in full precision; the rest goes through
//! Clipper2 on a grid of whole numbers.

use crate::grid::{ClipType, Loops, boolean};
use crate::notch::notched;
use crate::outline::signed_area;
use crate::polygon::{NEAR, Polygon, meet};
use kurbo::Point;
use smallvec::SmallVec;

/// A connected patch: an outer polygon and its holes (all stored counter-clockwise).
#[derive(Clone, Debug)]
pub(crate) struct Region {
    pub(crate) outer: Polygon,
    pub(crate) holes: Vec<Polygon>,
}

impl From<Polygon> for Region {
    fn from(outer: Polygon) -> Self {
        Self { outer, holes: Vec::new() }
    }
}

/// The union of polygons that may overlap or touch.
pub(crate) fn union(parts: Vec<Polygon>) -> Vec<Region> {
    if are_apart(&parts) {
        return parts.into_iter().map(Region::from).collect();
    }
    boolean(ClipType::Union, Loops::of(&parts), Loops::default())
}

/// The union of regions that may touch.
pub(crate) fn union_of_regions(mut a: Vec<Region>, b: Vec<Region>) -> Vec<Region> {
    if a.is_empty() || b.is_empty() {
        a.extend(b);
        return a;
    }
    let mut loops = Loops::default();
    a.iter().chain(&b).for_each(|r| loops.add(r));
    boolean(ClipType::Union, loops, Loops::default())
}

/// What `one` has in common with `other`.
pub(crate) fn common(one: &Polygon, other: &Polygon) -> Vec<Polygon> {
    if !meet(&one.bounds, &other.bounds, -NEAR) {
        Vec::new()
    } else if other.surrounds(one) {
        vec![one.clone()]
    } else if one.convex && other.convex {
        clip_convex(other, one).into_iter().collect()
    } else if one.convex {
        clip(other, one)
    } else if other.convex {
        clip(one, other)
    } else {
        let regions = boolean(ClipType::Intersection, Loops::of([one]), Loops::of([other]));
        // Two polygons without holes have none in common.
        regions.into_iter().map(|r| r.outer).collect()
    }
}

fn clip(subject: &Polygon, convex: &Polygon) -> Vec<Polygon> {
    subject.clone().inside(convex.halves())
}

/// The part of one convex polygon inside another.
fn clip_convex(subject: &Polygon, convex: &Polygon) -> Option<Polygon> {
    subject.clone().inside_convex(convex.halves())
}

/// What is left of `regions` outside all `cutters`.
pub(crate) fn subtract<'a>(
    regions: Vec<Region>,
    cutters: impl Iterator<Item = &'a Polygon> + Clone,
) -> Vec<Region> {
    let mut left = Vec::with_capacity(regions.len());
    for region in regions {
        let meets = |c: &&Polygon| meet(&c.bounds, &region.outer.bounds, -NEAR);
        let near: SmallVec<[&Polygon; 8]> = cutters.clone().filter(meets).collect();
        if near.is_empty() {
            left.push(region);
        } else if !near.iter().any(|cutter| cutter.covers(&region.outer)) {
            subtract_from(region, &near, &mut left);
        }
    }
    left
}

/// Cutters clear of everything become holes at once; then those are taken away that leave clear
/// notches, one by one, and the rest together by a general boolean.
fn subtract_from(mut region: Region, cutters: &[&Polygon], out: &mut Vec<Region>) {
    let lone = |c: &Polygon| {
        let apart = |o: &Polygon| !meet(&c.bounds, &o.bounds, NEAR);
        region.holes.iter().all(apart)
            && cutters.iter().all(|&o| core::ptr::eq(o, c) || apart(o))
            && region.outer.surrounds(c)
    };
    let lone: SmallVec<[bool; 8]> = cutters.iter().map(|&c| lone(c)).collect();
    let holes = cutters.iter().zip(&lone).filter(|l| *l.1).map(|l| (*l.0).clone());
    if !lone.contains(&false) {
        region.holes.extend(holes);
        return out.push(region);
    }
    let mut left: SmallVec<[Region; 2]> = SmallVec::new();
    let mut next = left.clone();
    let mut unclear: SmallVec<[&Polygon; 8]> = SmallVec::new();
    left.push(region);
    for (cutter, _) in cutters.iter().zip(&lone).filter(|l| !l.1) {
        let mut clear = true;
        left.drain(..).for_each(|r| clear &= subtract_one(r, cutter, &mut next));
        core::mem::swap(&mut left, &mut next);
        if !clear {
            unclear.push(cutter);
        }
    }
    if !unclear.is_empty() {
        let mut subject = Loops::default();
        left.iter().for_each(|r| subject.add(r));
        left = boolean(ClipType::Difference, subject, Loops::of(unclear)).into();
    }
    holes.for_each(|hole| give_hole(&mut left, hole));
    out.extend(left);
}

/// Takes the cutter away if that leaves a clear notch; false, and the region as it was, if not.
fn subtract_one(region: Region, cutter: &Polygon, out: &mut SmallVec<[Region; 2]>) -> bool {
    if !meet(&region.outer.bounds, &cutter.bounds, -NEAR) {
        out.push(region);
        return true;
    }
    match notch(&region, cutter) {
        Notch::Missed => out.push(region),
        Notch::Left(parts) => {
            let first = out.len();
            out.extend(parts.into_iter().map(Region::from));
            region.holes.into_iter().for_each(|hole| give_hole(&mut out[first..], hole));
        }
        Notch::Unclear => {
            out.push(region);
            return false;
        }
    }
    true
}

#[allow(clippy::large_enum_variant, reason = "lives on the stack for one call; a box would cost more")]
enum Notch {
    /// The cutter does not come to the region.
    Missed,
    /// What is left of the outer polygon.
    Left(SmallVec<[Polygon; 2]>),
    /// It takes a general boolean.
    Unclear,
}

/// The difference without the grid, when the common part is one polygon clear of all holes.
fn notch(region: &Region, cutter: &Polygon) -> Notch {
    if !cutter.convex || region.holes.iter().any(|h| meet(&h.bounds, &cutter.bounds, NEAR)) {
        return Notch::Unclear;
    }
    let part = if region.outer.convex {
        clip_convex(&region.outer, cutter)
    } else {
        let mut parts = clip(&region.outer, cutter);
        if parts.len() > 1 {
            return Notch::Unclear;
        }
        parts.pop()
    };
    let Some(part) = part else { return Notch::Missed };
    notched(&region.outer, &part).map_or(Notch::Unclear, Notch::Left)
}

fn are_apart(parts: &[Polygon]) -> bool {
    parts.iter().enumerate().all(|(i, p)| parts[..i].iter().all(|o| !meet(&p.bounds, &o.bounds, NEAR)))
}

/// Gives the hole to the region around it: the smallest whose outer polygon holds a point just
/// inside the hole.
pub(crate) fn give_hole(regions: &mut [Region], hole: Polygon) {
    let probe = inner_point(&hole);
    let size = |r: &Region| signed_area(&r.outer.points);
    let home = regions.iter_mut().filter(|r| r.outer.holds(probe)).min_by(|a, b| size(a).total_cmp(&size(b)));
    if let Some(home) = home {
        home.holes.push(hole);
    }
}

/// A point inside a polygon: the middle of the ear at its lowest corner, or of the step from there to
/// the deepest corner within that ear.
pub(crate) fn inner_point(p: &Polygon) -> Point {
    let n = p.points.len();
    let by_height = |&a: &usize, &b: &usize| {
        let (a, b) = (p.points[a], p.points[b]);
        a.y.total_cmp(&b.y).then(a.x.total_cmp(&b.x))
    };
    let i = (0..n).min_by(by_height).unwrap_or(0);
    let (a, tip, b) = (p.points[(i + n - 1) % n], p.points[i], p.points[(i + 1) % n]);
    let side = b - a;
    let depth = |q: Point| side.cross(q - a);
    let ear = Polygon::new(vec![a, tip, b], true);
    let deepest = p
        .points
        .iter()
        .filter(|&&q| q != a && q != b && q != tip && ear.holds(q))
        .max_by(|&&q, &&r| depth(q).abs().total_cmp(&depth(r).abs()));
    match deepest {
        Some(&q) => tip.midpoint(q),
        None => Point::new((a.x + tip.x + b.x) / 3.0, (a.y + tip.y + b.y) / 3.0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(x: f64, y: f64, size: f64) -> Polygon {
        let corners = [(x, y), (x + size, y), (x + size, y + size), (x, y + size)];
        Polygon::new(corners.map(Point::from).to_vec(), true)
    }

    fn area(regions: &[Region]) -> f64 {
        let whole = |p: &Polygon| signed_area(&p.points);
        regions.iter().map(|r| whole(&r.outer) - r.holes.iter().map(whole).sum::<f64>()).sum()
    }

    #[test]
    fn touching_squares_become_one() {
        let joined = union(vec![square(0.0, 0.0, 2.0), square(2.0, 0.5, 1.0)]);
        assert_eq!((joined.len(), area(&joined)), (1, 5.0));
        assert_eq!(union(vec![square(0.0, 0.0, 2.0), square(3.0, 0.0, 1.0)]).len(), 2);
    }

    #[test]
    fn clear_holes_and_notches_are_told_apart() {
        let cutters = [square(2.0, 2.0, 1.0), square(9.0, 4.0, 3.0), square(9.0, 9.0, 5.0)];
        let left = subtract(vec![square(0.0, 0.0, 10.0).into()], cutters.iter());
        assert_eq!((left.len(), left[0].holes.len(), area(&left)), (1, 1, 95.0));
        assert!(!left[0].outer.coarse && !left[0].holes[0].coarse);
    }

    #[test]
    fn a_hole_goes_to_the_part_around_it() {
        let wall = Polygon::new(
            [(4.0, -1.0), (5.0, -1.0), (5.0, 11.0), (4.0, 11.0)].map(Point::from).to_vec(),
            true,
        );
        let left = subtract(vec![square(0.0, 0.0, 10.0).into()], [wall, square(6.0, 6.0, 1.0)].iter());
        assert_eq!((left.len(), area(&left)), (2, 89.0));
        let holed: Vec<&Region> = left.iter().filter(|r| !r.holes.is_empty()).collect();
        assert!(holed.len() == 1 && holed[0].outer.bounds.x0 == 5.0);
    }

    #[test]
    fn inner_points_are_inside() {
        let arrow = [(0.0, 0.0), (9.0, 5.0), (0.5, 0.6), (-5.0, 9.0)].map(Point::from).to_vec();
        let arrow = Polygon::new(arrow, false);
        assert!(arrow.holds(inner_point(&arrow)));
    }

    #[test]
    fn common_part_of_convex_and_any() {
        let l = [(0.0, 0.0), (4.0, 0.0), (4.0, 1.0), (1.0, 1.0), (1.0, 4.0), (0.0, 4.0)];
        let l = Polygon::new(l.map(Point::from).to_vec(), false);
        let parts = common(&square(0.5, 0.5, 3.0), &l);
        let total: f64 = parts.iter().map(|p| signed_area(&p.points)).sum();
        assert!((total - 2.75).abs() < 1e-12, "{total}");
    }
}
