//! Flat booleans on a grid of whole numbers, by Clipper2.

use crate::math::nearest;
use crate::outline::signed_area;
use crate::polygon::{NEAR, Polygon, bounds_of};
use crate::region::{Region, give_hole};
use clipper2_rust::{EndType, FillRule, JoinType, Path64, Paths64, Point64, boolean_op_64, inflate_paths_64};
use crestrail_sorting::Order as _;
use kurbo::Point;

pub(crate) use clipper2_rust::ClipType;

/// Grid steps per mm: 2²³, so that going there and back adds no rounding but the grid's own (half a
/// step is 6e-8 mm). Coordinates of 10 m fit Clipper2's range with room to spare.
const GRID: f64 = 8_388_608.0;

/// Closed loops for one side of a boolean; holes run clockwise.
#[derive(Default)]
pub(crate) struct Loops(Vec<Vec<Point>>);

impl Loops {
    pub(crate) fn of<'a>(polygons: impl IntoIterator<Item = &'a Polygon>) -> Self {
        Self(polygons.into_iter().map(|p| p.points.to_vec()).collect())
    }

    pub(crate) fn add(&mut self, region: &Region) {
        self.0.push(region.outer.points.to_vec());
        self.0.extend(region.holes.iter().map(|h| h.points.iter().rev().copied().collect()));
    }
}

/// The boolean of two sets of loops.
///
/// Loops that touch within [`NEAR`] are first made to touch in exactly the same grid points: else
/// rounding would leave cracks and tails between them.
pub(crate) fn boolean(kind: ClipType, subject: Loops, clips: Loops) -> Vec<Region> {
    let split = subject.0.len();
    let mut loops = subject.0;
    loops.extend(clips.0);
    unite_points(&mut loops);
    let mut paths: Paths64 = loops.iter().enumerate().map(|(i, l)| path(i, l, &loops)).collect();
    let clips = paths.split_off(split);
    regions(boolean_op_64(kind, FillRule::NonZero, &paths, &clips))
}

/// Corners sharper than this are cut square, as a multiple of the distance.
const SHARPEST: f64 = 3.0;

/// A counter-clockwise outline with `by` mm round it, corners kept sharp.
pub(crate) fn inflated(corners: &[Point], by: f64) -> Vec<Point> {
    let paths = vec![corners.iter().copied().map(to_grid).collect::<Path64>()];
    let grown = inflate_paths_64(&paths, by * GRID, JoinType::Miter, EndType::Polygon, SHARPEST, 0.0);
    grown.first().map_or_else(Vec::new, |path| path.iter().map(from_grid).collect())
}

/// Moves points in the same place into exactly the same place.
fn unite_points(loops: &mut [Vec<Point>]) {
    let mut known: Vec<Point> = Vec::new();
    for p in loops.iter_mut().flatten() {
        let near = |k: &&Point| (k.x - p.x).abs() <= NEAR && (k.y - p.y).abs() <= NEAR;
        match known.iter().find(near) {
            Some(k) => *p = *k,
            None => known.push(*p),
        }
    }
}

/// A loop on the grid, with the corners of other loops that lie on its edges.
fn path(own: usize, points: &[Point], loops: &[Vec<Point>]) -> Path64 {
    let mut path = Path64::with_capacity(points.len());
    for (i, &a) in points.iter().enumerate() {
        let b = points[(i + 1) % points.len()];
        path.push(to_grid(a));
        let reach = bounds_of(&[a, b]).inflate(NEAR, NEAR);
        let length = (b - a).hypot2().sqrt();
        let mut on: Vec<(f64, Point)> = Vec::new();
        for &p in loops.iter().enumerate().filter(|&(k, _)| k != own).flat_map(|(_, l)| l) {
            let off = || (b - a).cross(p - a).abs() <= NEAR * length;
            if p.x >= reach.x0
                && p.x <= reach.x1
                && p.y >= reach.y0
                && p.y <= reach.y1
                && p != a
                && p != b
                && off()
            {
                on.push(((b - a).dot(p - a), p));
            }
        }
        on.order_by(|x, y| x.0.total_cmp(&y.0));
        on.dedup_by(|x, y| x.1 == y.1);
        path.extend(on.into_iter().map(|(_, p)| to_grid(p)));
    }
    path
}

fn regions(paths: Paths64) -> Vec<Region> {
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

/// Chair coordinates stay below 2⁴⁰ steps, so the cast cannot wrap (and would saturate).
fn to_grid(p: Point) -> Point64 {
    Point64::new(nearest(p.x * GRID), nearest(p.y * GRID))
}

fn from_grid(p: &Point64) -> Point {
    Point::new(p.x as f64 / GRID, p.y as f64 / GRID)
}
