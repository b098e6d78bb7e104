//! Hatching of faces, so that what tints tell is not told by colour alone.

use super::Scene;
use crate::finding::Verdict;
use crestrail_geometry::view::Shown;
use crestrail_sheet::{Item, Path, Stroke, Trace};
use crestrail_sorting::Order as _;
use kurbo::Point;

/// Distance between lines in pixels at weight 1: wide for what is close, narrow and crossed for what fails.
const WIDE: f64 = 7.0;
const NARROW: f64 = 5.0;
/// Width of a line, and how much it covers.
const WIDTH: f64 = 0.8;
const OPACITY: f64 = 0.6;

/// Which way lines run on the sheet.
#[derive(Clone, Copy)]
enum Slant {
    /// From lower left to upper right.
    Rising,
    /// From upper left to lower right.
    Falling,
}

/// Lines over a face; none over one that is sound.
pub(super) fn over(scene: &Scene<'_>, face: &Shown, verdict: Verdict) -> Option<Item> {
    let rings: Vec<Vec<Point>> =
        face.rings.iter().map(|ring| ring.points.iter().map(|&p| scene.frame.pixel(p)).collect()).collect();
    lines(scene, &rings, verdict)
}

/// The same over any outline on the sheet.
pub(super) fn lines(scene: &Scene<'_>, rings: &[Vec<Point>], verdict: Verdict) -> Option<Item> {
    let weight = scene.frame.weight;
    let (traces, colour) = match verdict {
        Verdict::Sound => return None,
        Verdict::Close => (hatched(rings, Slant::Rising, WIDE * weight), scene.palette.line),
        Verdict::Fails => {
            let mut both = hatched(rings, Slant::Rising, NARROW * weight);
            both.extend(hatched(rings, Slant::Falling, NARROW * weight));
            (both, scene.palette.paper)
        }
    };
    let stroke = Stroke { opacity: OPACITY, ..Stroke::solid(colour, WIDTH * weight) };
    (!traces.is_empty()).then_some(Item::Path(Path { traces, fill: None, stroke: Some(stroke) }))
}

/// Slanting lines within outlines of which those inside others are holes. The lines of all faces belong to one family
/// over the whole sheet.
fn hatched(rings: &[Vec<Point>], slant: Slant, spacing: f64) -> Vec<Trace> {
    // Lines are those of equal height, one of slope ±1 turned level: height is y plus or minus x.
    let height = |p: &Point| match slant {
        Slant::Rising => p.y + p.x,
        Slant::Falling => p.y - p.x,
    };
    let heights = || rings.iter().flatten().map(height);
    let (low, high) = (heights().fold(f64::INFINITY, f64::min), heights().fold(f64::NEG_INFINITY, f64::max));
    // Along y the spacing is √2 times that across the lines.
    let step = spacing * core::f64::consts::SQRT_2;
    let (first, last) = ((low / step).ceil() as i64, (high / step).floor() as i64);
    let line = |k: i64| {
        let at = k as f64 * step;
        let mut met: Vec<Point> = rings.iter().flat_map(|ring| crossings(ring, height, at)).collect();
        met.order_by(|a, b| a.x.total_cmp(&b.x));
        met.chunks_exact(2).map(|pair| Trace { points: pair.to_vec(), closed: false }).collect::<Vec<_>>()
    };
    (first..=last).flat_map(line).collect()
}

/// Where an outline crosses a height; a corner on it counts as above.
fn crossings(ring: &[Point], height: impl Fn(&Point) -> f64, at: f64) -> Vec<Point> {
    let next = ring.iter().cycle().skip(1);
    let crossing = |(a, b): (&Point, &Point)| {
        let (from, to) = (height(a) - at, height(b) - at);
        ((from < 0.0) != (to < 0.0)).then(|| a.lerp(*b, from / (from - to)))
    };
    ring.iter().zip(next).filter_map(crossing).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(low: f64, high: f64) -> Vec<Point> {
        [(low, low), (high, low), (high, high), (low, high)].map(Point::from).to_vec()
    }

    /// Lines across a square of side 10, as long as a diagonal where they pass through its middle, fill it evenly.
    #[test]
    fn lines_cover_an_outline_and_leave_its_hole() {
        let long = |rings: &[Vec<Point>]| -> f64 {
            let all = hatched(rings, Slant::Rising, 0.01);
            all.iter().map(|trace| (trace.points[1] - trace.points[0]).hypot2().sqrt()).sum()
        };
        let whole = long(&[square(0.0, 10.0)]);
        assert!((whole * 0.01 - 100.0).abs() < 0.5, "{whole}");
        let holed = long(&[square(0.0, 10.0), square(2.0, 6.0)]);
        assert!((holed * 0.01 - 84.0).abs() < 0.5, "{holed}");
    }
}
