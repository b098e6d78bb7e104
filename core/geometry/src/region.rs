//! Flat regions: polygons joined, intersected and subtracted.
//!
//! Most of what a chair asks for needs no general boolean: a convex face clipped by a convex section,
//! a hole clear of every edge. Those are done directly, in full precision; the rest goes through
//! Clipper2 on a grid of whole numbers.

use crate::notch::notched;
use crate::outline::signed_area;
use crate::polygon::{HalfPlane, NEAR, Polygon, meet};
use clipper2_rust::{ClipType, FillRule, Path64, Paths64, Point64, boolean_op_64};
use kurbo::Point;

/// Grid steps per mm: 2²³, so that going there and back adds no rounding but the grid's own;
/// coordinates of 10 m still fit Clipper2's range with room to spare.
const GRID: f64 = 8_388_608.0;

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
    boolean(ClipType::Union, to_grid(parts.iter(), false), Paths64::new())
}

/// The union of regions that may touch.
pub(crate) fn union_of_regions(mut a: Vec<Region>, b: Vec<Region>) -> Vec<Region> {
    if a.is_empty() || b.is_empty() {
        a.extend(b);
        return a;
    }
    let mut paths = Paths64::new();
    a.iter().chain(&b).for_each(|r| region_to_grid(r, &mut paths));
    boolean(ClipType::Union, paths, Paths64::new())
}

/// What `one` has in common with `other`.
pub(crate) fn common(one: &Polygon, other: &Polygon) -> Vec<Polygon> {
    if !meet(&one.bounds, &other.bounds, -NEAR) {
        Vec::new()
    } else if other.surrounds(one) {
        vec![one.clone()]
    } else if one.convex {
        clip(other, one)
    } else if other.convex {
        clip(one, other)
    } else {
        let regions = boolean(
            ClipType::Intersection,
            to_grid([one].into_iter(), false),
            to_grid([other].into_iter(), false),
        );
        // Two polygons without holes have none in common.
        regions.into_iter().map(|r| r.outer).collect()
    }
}

fn clip(subject: &Polygon, convex: &Polygon) -> Vec<Polygon> {
    subject.clone().inside(convex.edges().map(|(a, b)| HalfPlane::left_of(a, b)))
}

/// What is left of `regions` outside all `cutters`.
pub(crate) fn subtract<'a>(
    regions: Vec<Region>,
    cutters: impl Iterator<Item = &'a Polygon> + Clone,
) -> Vec<Region> {
    let mut left = Vec::with_capacity(regions.len());
    for region in regions {
        let near: Vec<&Polygon> =
            cutters.clone().filter(|c| meet(&c.bounds, &region.outer.bounds, -NEAR)).collect();
        if near.is_empty() {
            left.push(region);
        } else {
            left.extend(subtract_from(region, &near));
        }
    }
    left
}

fn subtract_from(mut region: Region, cutters: &[&Polygon]) -> Vec<Region> {
    let lone = |i: usize| {
        let c = cutters[i];
        let apart = |o: &Polygon| !meet(&c.bounds, &o.bounds, NEAR);
        region.outer.surrounds(c)
            && region.holes.iter().all(apart)
            && cutters.iter().enumerate().all(|(j, o)| j == i || apart(o))
    };
    let (holes, rest): (Vec<usize>, Vec<usize>) = (0..cutters.len()).partition(|&i| lone(i));
    let holes = holes.into_iter().map(|i| cutters[i].clone());
    if rest.is_empty() {
        region.holes.extend(holes);
        return vec![region];
    }
    let mut left = vec![region];
    for i in rest {
        left = left.into_iter().flat_map(|r| subtract_one(r, cutters[i])).collect();
    }
    holes.for_each(|hole| give_hole(&mut left, hole));
    left
}

fn subtract_one(region: Region, cutter: &Polygon) -> Vec<Region> {
    if !meet(&region.outer.bounds, &cutter.bounds, -NEAR) {
        return vec![region];
    }
    notch(&region, cutter).unwrap_or_else(|| {
        let mut subject = Paths64::new();
        region_to_grid(&region, &mut subject);
        boolean(ClipType::Difference, subject, to_grid([cutter].into_iter(), false))
    })
}

/// The difference without the grid, when the common part is one polygon clear of all holes.
fn notch(region: &Region, cutter: &Polygon) -> Option<Vec<Region>> {
    if !cutter.convex || region.holes.iter().any(|h| meet(&h.bounds, &cutter.bounds, NEAR)) {
        return None;
    }
    let common = clip(&region.outer, cutter);
    let mut left: Vec<Region> = match common.as_slice() {
        [] => return Some(vec![region.clone()]),
        [one] => notched(&region.outer, one)?.into_iter().map(Region::from).collect(),
        _ => return None,
    };
    region.holes.iter().for_each(|hole| give_hole(&mut left, hole.clone()));
    Some(left)
}

fn are_apart(parts: &[Polygon]) -> bool {
    parts.iter().enumerate().all(|(i, p)| parts[..i].iter().all(|o| !meet(&p.bounds, &o.bounds, NEAR)))
}

fn boolean(kind: ClipType, subject: Paths64, clips: Paths64) -> Vec<Region> {
    let paths = boolean_op_64(kind, FillRule::NonZero, &subject, &clips);
    let mut regions: Vec<Region> = Vec::new();
    let mut holes: Vec<Polygon> = Vec::new();
    for path in paths {
        let points: Vec<Point> = path.iter().map(from_grid).collect();
        let is_hole = signed_area(&points) < 0.0;
        let mut polygon = Polygon::new(points, false);
        polygon.coarse = true;
        match (polygon.is_real(), is_hole) {
            (false, _) => {}
            (true, true) => holes.push(polygon),
            (true, false) => regions.push(polygon.into()),
        }
    }
    holes.into_iter().for_each(|hole| give_hole(&mut regions, hole));
    regions
}

/// Gives the hole to the region around it: the smallest whose outer polygon holds a point just
/// inside the hole.
fn give_hole(regions: &mut [Region], hole: Polygon) {
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

fn region_to_grid(region: &Region, paths: &mut Paths64) {
    paths.extend(to_grid([&region.outer].into_iter(), false));
    paths.extend(to_grid(region.holes.iter(), true));
}

fn to_grid<'a>(polygons: impl Iterator<Item = &'a Polygon>, reversed: bool) -> Paths64 {
    polygons
        .map(|p| {
            let steps = p.points.iter().map(|q| Point64::new(to_step(q.x), to_step(q.y)));
            if reversed { steps.rev().collect() } else { steps.collect::<Path64>() }
        })
        .collect()
}

/// Chair coordinates stay below 2⁴⁰ steps, so the cast cannot wrap (and would saturate).
fn to_step(mm: f64) -> i64 {
    (mm * GRID).round() as i64
}

fn from_grid(p: &Point64) -> Point {
    Point::new(p.x as f64 / GRID, p.y as f64 / GRID)
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
