//! Along the drawing: at scale, with plain lengths left out where the part is too long for the paper.

use crestrail_sheet::Trace;
use kurbo::Point;

/// Left of a plain length at each side of a break, tried from the longest to the shortest; and the break itself, mm on
/// paper.
pub(super) const LEFT_OVER: [f64; 6] = [60.0, 40.0, 25.0, 16.0, 11.0, 7.0];
const BREAK: f64 = 5.0;
/// The shortest length that is left out, mm on paper.
const WORTH: f64 = 12.0;

/// Where each distance from the datum end is drawn.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Axis {
    /// Paper over part.
    pub(super) scale: f64,
    /// Stretches that are drawn: from and to on the part, and where they begin on paper.
    kept: Vec<[f64; 3]>,
}

impl Axis {
    /// The whole length.
    pub(super) fn whole(length: f64, scale: f64) -> Self {
        Self { scale, kept: vec![[0.0, length, 0.0]] }
    }

    /// Without what lies further than `beside`, mm on paper, from all of `places`, which run upwards.
    pub(super) fn broken(length: f64, scale: f64, places: &[f64], beside: f64) -> Self {
        let beside = beside / scale;
        let mut axis = Self { scale, kept: Vec::new() };
        let (mut start, mut at) = (0.0, 0.0);
        for &place in places {
            if (place - at - 2.0 * beside) * scale > BREAK + WORTH {
                axis.keep(start, at + beside);
                start = place - beside;
            }
            at = place;
        }
        axis.keep(start, length);
        axis
    }

    fn keep(&mut self, from: f64, to: f64) {
        let begin = if self.kept.is_empty() { 0.0 } else { self.width() + BREAK };
        self.kept.push([from, to, begin]);
    }

    /// Width on paper, mm.
    pub(super) fn width(&self) -> f64 {
        self.kept.last().map_or(0.0, |[from, to, begin]| begin + (to - from) * self.scale)
    }

    /// Where a distance is drawn; one that is left out at the break.
    pub(super) fn at(&self, distance: f64) -> f64 {
        let mut place = 0.0;
        for &[from, to, begin] in &self.kept {
            if distance < from {
                return place;
            }
            place = begin + (distance.min(to) - from) * self.scale;
            if distance <= to {
                return place;
            }
        }
        place + (distance - self.kept.last().map_or(0.0, |k| k[1])) * self.scale
    }

    /// The breaks: where the drawing stops and goes on, on paper.
    pub(super) fn breaks(&self) -> impl Iterator<Item = [f64; 2]> + '_ {
        self.kept.windows(2).map(|pair| [pair[0][2] + (pair[0][1] - pair[0][0]) * self.scale, pair[1][2]])
    }

    /// A line in mm of the part as it is drawn from `top` down: whole, or in the pieces that are kept.
    pub(super) fn trace(&self, points: &[Point], closed: bool, top: f64) -> Vec<Trace> {
        let on = |p: Point| Point::new(self.at(p.x), top + p.y * self.scale);
        if self.kept.len() < 2 {
            return vec![Trace { points: points.iter().map(|&p| on(p)).collect(), closed }];
        }
        let ends = points.iter().zip(points.iter().skip(1));
        let closing = points.last().zip(points.first()).filter(|_| closed);
        ends.chain(closing)
            .flat_map(|(&a, &b)| self.pieces(a, b))
            .map(|[a, b]| Trace { points: vec![on(a), on(b)], closed: false })
            .collect()
    }

    /// The stretches of a straight line that are kept, in mm of the part.
    pub(super) fn pieces(&self, a: Point, b: Point) -> Vec<[Point; 2]> {
        let (low, high) = if a.x <= b.x { (a, b) } else { (b, a) };
        let at =
            |x: f64| if high.x - low.x < 1e-9 { low } else { low.lerp(high, (x - low.x) / (high.x - low.x)) };
        let piece = |&[from, to, _]: &[f64; 3]| {
            let (x0, x1) = (low.x.max(from), high.x.min(to));
            let upright = high.x - low.x < 1e-9 && x0 <= x1;
            (x0 < x1 || upright).then(|| if upright { [low, high] } else { [at(x0), at(x1)] })
        };
        self.kept.iter().filter_map(piece).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn plain_lengths_are_left_out_and_the_rest_keeps_its_scale() {
        let axis = Axis::broken(600.0, 0.5, &[0.0, 20.0, 60.0, 550.0, 600.0], 7.0);
        assert_eq!(axis.breaks().count(), 1);
        assert_eq!(axis.at(60.0) - axis.at(20.0), 20.0);
        assert_eq!(axis.at(600.0) - axis.at(550.0), 25.0);
        assert_eq!(axis.width(), axis.at(600.0));
        assert!(axis.width() < 100.0);
        let line = axis.trace(&[Point::new(0.0, 0.0), Point::new(600.0, 10.0)], false, 0.0);
        assert_eq!(line.len(), 2);
        assert_eq!(Axis::whole(600.0, 0.5).width(), 300.0);
    }
}
