//! A cost that no plan can undercut.
//!
//! **Room.** Pieces lie `clear` apart or more; so, each grown by half of it all round, they share no area, and
//! they lie within the bed grown by half of it: its length L and width W are those of the bed + `clear`.
//!
//! **Area.** So the grown areas on one plank add up to at most L·W.
//!
//! **Lines.** Draw n upright lines across the grown bed, at L·i/(n+1), i = 1 … n. On each, the grown pieces
//! take up stretches that do not overlap, so their lengths as shares of W add up to at most 1, and so do the
//! values that a dual feasible function u (see `shares.rs`) gives to them. Added over all lines they are n at
//! most. A piece takes on all lines together at least the least of that sum over all its places; let this be
//! its share, divided by n. To find it, the piece is shifted past an endless comb of lines L/(n+1) apart: a
//! piece on the bed meets none of the lines that are added, for these lie on the rim or off the grown bed. Lines
//! may be thought of as shifted by as little as one likes, so that none runs along an upright side; then the
//! line on the left rim may meet a piece just beside its left end, so nothing is counted there.
//! So a leg longer than L/3 takes the height of a limb on one of two lines, though it may lie anywhere; where
//! four such heights fit and not five, u makes it a quarter. Instead of lines, u may be added up over the whole
//! length, divided by L.
//!
//! **Tilt.** A piece that may be tilted by any angle up to a limit is taken at angles δ apart to both sides. Between them
//! no point moves farther than ρ·δ (ρ: how far the outline reaches from the middle of its turn), so the piece grown
//! by so much less lies within the grown piece at each angle between.

use super::polygon::{Point, bounds};
use super::problem::{Problem, Shape};
use super::profile::{Strip, area, profile};
use super::variant::variant;
use crate::floor::{self, Kind};
use crate::shares::Shares;

/// Shares that the shapes take of each plank.
#[derive(Clone, Debug)]
pub(super) struct Bound(Vec<Shares>);

/// Most lines across a plank; none stands for the whole length.
const LINES: usize = 6;
/// Largest k of the function u for heights.
const FINEST: usize = 10;
/// Places within one distance of lines at which a piece is looked at; between them it takes no less.
const PLACES: usize = 64;
/// Most angles times corners of a shape that may be tilted; beyond, its area alone counts.
const ANGLES: f64 = 1500.0;

impl Bound {
    pub(super) fn new(problem: &Problem) -> Self {
        let shapes: Vec<Grown> = (0..problem.shapes.len()).map(|s| Grown::of(problem, s)).collect();
        let of_bed = |bed: &[f64; 2]| {
            let room = bed.map(|side| side.max(0.0) + problem.clear);
            let mut lists = vec![shapes.iter().map(|s| s.area / (room[0] * room[1])).collect()];
            for lines in 0..=LINES {
                let shares: Vec<ByFunction> = shapes.iter().map(|s| s.shares(room, lines)).collect();
                lists.extend((0..=FINEST).map(|k| shares.iter().map(|own| own[k]).collect()));
            }
            Shares(lists)
        };
        Self(problem.beds.iter().map(of_bed).collect())
    }

    /// Least cost of planks that hold so many of each shape.
    pub(super) fn least(&self, problem: &Problem, made: &[u32]) -> i64 {
        let kinds: Vec<Kind<'_>> = (problem.planks.iter().zip(problem.limits()).zip(&self.0))
            .map(|((plank, limit), shares)| Kind { price: plank.price, limit, shares })
            .collect();
        floor::all(&kinds, made)
    }
}

/// A share for each function.
type ByFunction = [f64; FINEST + 1];

/// A shape grown by half the clear distance.
struct Grown {
    area: f64,
    /// What it is like at each angle; nothing if these would be too many.
    angles: Vec<Vec<Strip>>,
}

impl Grown {
    fn of(problem: &Problem, number: usize) -> Self {
        let (shape, radius) = (&problem.shapes[number], problem.clear / 2.0);
        let outline = centred(&shape.outline);
        let angles = angles(shape, &outline, radius);
        let less = if shape.tilt > 0.0 { radius * LOST } else { 0.0 };
        let at = |turn: &f64| variant(number, *turn, &outline).ok().map(|v| profile(&v.parts, radius - less));
        let upright = shape.tilt <= 0.0 && angles.first() == Some(&0.0);
        let angles = angles.iter().map(at).collect::<Option<Vec<_>>>().unwrap_or_default();
        let area = match angles.first() {
            Some(strips) if upright => area(strips),
            _ => variant(number, 0.0, &outline).map_or(0.0, |v| area(&profile(&v.parts, radius))),
        };
        Self { area, angles }
    }

    /// The shares of a plank that it takes by so many lines.
    fn shares(&self, room: [f64; 2], lines: usize) -> ByFunction {
        let of_angle = |strips: &Vec<Strip>| match lines {
            0 => along(strips, room),
            _ => on_lines(strips, room, lines),
        };
        let each: Vec<ByFunction> = self.angles.iter().map(of_angle).collect();
        let least = |k: usize| each.iter().map(|own| own[k]).fold(f64::INFINITY, f64::min);
        std::array::from_fn(|k| if each.is_empty() { 0.0 } else { least(k) })
    }
}

/// The share of the half clear distance that is given up for tilts between two angles.
const LOST: f64 = 1.0 / 3.0;

/// The outline cleaned, its middle at the origin.
fn centred(outline: &[Point]) -> Vec<Point> {
    let points = super::polygon::cleaned(outline);
    let [low, high] = bounds(&points);
    let middle = [(low[0] + high[0]) / 2.0, (low[1] + high[1]) / 2.0];
    points.iter().map(|p| [p[0] - middle[0], p[1] - middle[1]]).collect()
}

/// Angles that stand for all that are allowed, degrees; a half turn changes nothing here.
fn angles(shape: &Shape, outline: &[Point], radius: f64) -> Vec<f64> {
    let mut turns: Vec<f64> = shape.turns.iter().map(|t| t.rem_euclid(180.0)).collect();
    turns.sort_by(f64::total_cmp);
    turns.dedup();
    if shape.tilt <= 0.0 {
        return turns;
    }
    if radius <= 0.0 {
        return Vec::new();
    }
    let reach = outline.iter().map(|p| libm::hypot(p[0], p[1])).fold(0.0, f64::max);
    let apart = (radius * LOST / reach).to_degrees();
    let steps = (shape.tilt / (2.0 * apart)).ceil();
    if steps * turns.len() as f64 * outline.len() as f64 > ANGLES {
        return Vec::new();
    }
    let tilts = || (0..=2 * steps as i32).map(|i| shape.tilt * (f64::from(i) / steps - 1.0));
    turns.iter().flat_map(|turn| tilts().map(move |tilt| turn + tilt)).collect()
}

/// The k-th function of a height, never more than the true one; none if k is zero.
fn changed(height: f64, k: usize) -> f64 {
    if k == 0 {
        return height;
    }
    // At whole multiples less than the function is, which keeps what fits as well.
    let steps = ((k + 1) as f64 * height - 1e-9).ceil() - 1.0;
    steps.max(0.0) / k as f64
}

/// The values of heights of a strip between two places, by each function.
fn values(strip: &Strip, from: f64, to: f64, width: f64) -> ByFunction {
    let mut sums = [0.0; FINEST + 1];
    for height in strip.least(from, to) {
        sums.iter_mut().enumerate().for_each(|(k, sum)| *sum += changed(height / width, k));
    }
    sums
}

fn along(strips: &[Strip], room: [f64; 2]) -> ByFunction {
    let mut sums = [0.0; FINEST + 1];
    for strip in strips {
        let own = values(strip, strip.from, strip.to, room[1]);
        sums.iter_mut().zip(own).for_each(|(sum, value)| *sum += value * (strip.to - strip.from) / room[0]);
    }
    sums
}

fn on_lines(strips: &[Strip], room: [f64; 2], lines: usize) -> ByFunction {
    let (Some(first), Some(last)) = (strips.first(), strips.last()) else { return [0.0; FINEST + 1] };
    let step = room[0] / (lines + 1) as f64 / PLACES as f64;
    let cells = ((last.to - first.from) / step).floor() as usize;
    let mut at_place = [[0.0; FINEST + 1]; PLACES];
    let mut begin = 0;
    // What lies partly beyond an end counts for nothing, the first cell among it.
    for cell in 1..cells {
        let (from, to) = (first.from + cell as f64 * step, first.from + (cell + 1) as f64 * step);
        while strips[begin].to < from {
            begin += 1;
        }
        let near = || strips[begin..].iter().take_while(|s| s.from <= to);
        let least = match lowest(near(), from, to) {
            Some(height) => std::array::from_fn(|k| changed(height / room[1], k)),
            None => near().map(|s| values(s, from, to, room[1])).fold([f64::INFINITY; FINEST + 1], lower),
        };
        at_place[cell % PLACES].iter_mut().zip(least).for_each(|(sum, value)| *sum += value);
    }
    at_place.into_iter().fold([f64::INFINITY; FINEST + 1], lower).map(|sum| sum / lines as f64)
}

/// The least height of strips between two places where each has one height only: no function falls as heights rise, so
/// that it takes the least value there.
fn lowest<'a>(strips: impl Iterator<Item = &'a Strip>, from: f64, to: f64) -> Option<f64> {
    let mut least = f64::INFINITY;
    for strip in strips {
        let mut heights = strip.least(from, to);
        least = least.min(heights.next()?);
        if heights.next().is_some() {
            return None;
        }
    }
    Some(least)
}

fn lower(a: ByFunction, b: ByFunction) -> ByFunction {
    std::array::from_fn(|k| a[k].min(b[k]))
}
