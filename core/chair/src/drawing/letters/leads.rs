//! The lines from letters to their parts, and which of them get in each other's way.

use super::{Label, RADIUS, line};
use crate::drawing::Scene;
use kurbo::{Line, Point, Rect};

/// How much farther off than that a circle must be to be told so by its box alone: far more than
/// rounding, pixels.
const SAFE: f64 = 1e-3;

/// The lines of all labels, each worked out once.
pub(super) struct Leads {
    all: Vec<Lead>,
    /// How near a line may come to a circle's middle.
    clear: f64,
}

struct Lead {
    line: Line,
    /// Middle of the circle.
    centre: Point,
    /// Around the line, with so much room that what stays out of it is clear of the line.
    reach: Rect,
}

impl Leads {
    pub(super) fn of(scene: &Scene<'_>, labels: &[Label<'_>]) -> Self {
        let clear = (RADIUS + 3.0) * scene.frame.weight;
        let lead = |label: &Label<'_>| {
            let line = line(scene, label);
            let reach = Rect::from_points(line.p0, line.p1).inflate(clear + SAFE, clear + SAFE);
            Lead { line, centre: label.centre, reach }
        };
        Self { all: labels.iter().map(lead).collect(), clear }
    }

    /// The first two labels whose lines cross, or of which one's line runs through the other's circle.
    pub(super) fn first_meeting(&self) -> Option<(usize, usize)> {
        let before =
            |(j, b): (usize, &Lead)| self.all[..j].iter().position(|a| self.leads_meet(a, b)).map(|i| (i, j));
        self.all.iter().enumerate().find_map(before)
    }

    /// How many pairs of labels do so.
    pub(super) fn meetings(&self) -> usize {
        let before = |(j, b): (usize, &Lead)| self.all[..j].iter().filter(|a| self.leads_meet(a, b)).count();
        self.all.iter().enumerate().map(before).sum()
    }

    /// Whether two labels do so.
    pub(super) fn meet(&self, i: usize, j: usize) -> bool {
        self.leads_meet(&self.all[i], &self.all[j])
    }

    fn leads_meet(&self, a: &Lead, b: &Lead) -> bool {
        // A circle's middle lies within the reach of its own line too.
        a.reach.overlaps(b.reach)
            && (cross(a.line, b.line) || self.is_near(a, b.centre) || self.is_near(b, a.centre))
    }

    fn is_near(&self, lead: &Lead, p: Point) -> bool {
        lead.reach.contains(p) && distance(lead.line, p) < self.clear
    }
}

/// Whether two lines cross.
pub(super) fn cross(a: Line, b: Line) -> bool {
    let side = |l: Line, p: Point| (l.p1 - l.p0).cross(p - l.p0);
    side(a, b.p0) * side(a, b.p1) < 0.0 && side(b, a.p0) * side(b, a.p1) < 0.0
}

/// Distance of a point from a line between two points.
pub(super) fn distance(line: Line, p: Point) -> f64 {
    let way = line.p1 - line.p0;
    let share = ((p - line.p0).dot(way) / way.hypot2()).clamp(0.0, 1.0);
    (line.p0 + way * share - p).hypot2().sqrt()
}
