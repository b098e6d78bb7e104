//! From stretches of edges to the lines of a drawing: what falls on one line is drawn once, dashes run through.

use crestrail_geometry::math::{max, min};
use crestrail_geometry::view::Stretch;
use crestrail_sorting::Order as _;
use kurbo::{Line, Point};

/// Full lines nearer to each other than this are one, mm on paper: a third of the narrow line.
const SAME: f64 = 0.06;
/// A hidden line is left out where it would run nearer than this beside another line, mm on paper: parallel lines
/// stand at least 0.7 mm apart (ISO 128-2; from memory).
const APART: f64 = 0.7;
/// Shorter pieces are none, mm on paper: full and hidden lines.
const SPECK: f64 = 0.03;
const SHORT: f64 = 0.5;
/// Ends nearer than this meet, mm on paper.
const MEET: f64 = 0.03;

/// Open or closed runs of points on paper.
pub(super) struct Drawn {
    pub(super) seen: Vec<Vec<Point>>,
    pub(super) hidden: Vec<Vec<Point>>,
}

/// Stretches as they lie on paper after `place`.
pub(super) fn drawn(stretches: &[Stretch], place: impl Fn(Point) -> Point) -> Drawn {
    let lines = |seen: bool| {
        let own = stretches.iter().filter(move |stretch| stretch.seen == seen);
        own.map(|stretch| Line::new(place(stretch.line.p0), place(stretch.line.p1))).collect()
    };
    let mut kept = Kept::default();
    kept.take_all(lines(true), SAME, SPECK);
    let seen = kept.lines.clone();
    kept.take_all(lines(false), APART, SHORT);
    let hidden = kept.lines.split_off(seen.len());
    Drawn { seen: chained(seen), hidden: chained(hidden) }
}

/// Lines that stand, each clear of those before it.
#[derive(Default)]
struct Kept {
    lines: Vec<Line>,
}

impl Kept {
    /// Takes lines, the longest first, each as far as no line that runs beside it stands nearer than `apart`.
    fn take_all(&mut self, mut lines: Vec<Line>, apart: f64, shortest: f64) {
        lines.order_by(|a, b| length(b).total_cmp(&length(a)));
        for line in lines {
            let long = length(&line);
            if long < shortest {
                continue;
            }
            let mut beside: Vec<(f64, f64)> =
                self.lines.iter().filter_map(|other| shadow(&line, other, apart)).collect();
            beside.order_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
            let mut at = 0.0;
            for (start, end) in beside.into_iter().chain([(1.0, 1.0)]) {
                if (start - at) * long > shortest {
                    self.lines.push(Line::new(line.p0.lerp(line.p1, at), line.p0.lerp(line.p1, start)));
                }
                at = max(at, end);
            }
        }
    }
}

fn length(line: &Line) -> f64 {
    (line.p1 - line.p0).hypot2().sqrt()
}

/// On which share of `line` the other runs beside it, nearer than `apart` all along.
fn shadow(line: &Line, other: &Line, apart: f64) -> Option<(f64, f64)> {
    let away =
        |a: f64, b: f64, c: f64, d: f64| max(a, b) + apart < min(c, d) || max(c, d) + apart < min(a, b);
    if away(line.p0.x, line.p1.x, other.p0.x, other.p1.x)
        || away(line.p0.y, line.p1.y, other.p0.y, other.p1.y)
    {
        return None;
    }
    let (step, square) = (other.p1 - other.p0, (other.p1 - other.p0).hypot2());
    let off = |p: Point| step.cross(p - other.p0).abs() / square.sqrt();
    if off(line.p0) > apart || off(line.p1) > apart {
        return None;
    }
    let own = line.p1 - line.p0;
    let share = |p: Point| (p - line.p0).dot(own) / own.hypot2();
    let (a, b) = (share(other.p0), share(other.p1));
    let (start, end) = (max(min(a, b), 0.0), min(max(a, b), 1.0));
    (end > start).then_some((start, end))
}

/// Lines joined end to end where two meet, or two run on straight.
fn chained(lines: Vec<Line>) -> Vec<Vec<Point>> {
    let ends: Vec<(Point, usize)> =
        lines.iter().enumerate().flat_map(|(i, l)| [(l.p0, 2 * i), (l.p1, 2 * i + 1)]).collect();
    let mut order: Vec<usize> = (0..ends.len()).collect();
    order.order_by(|&a, &b| ends[a].0.x.total_cmp(&ends[b].0.x).then(a.cmp(&b)));
    let mut partner: Vec<Option<usize>> = vec![None; ends.len()];
    for (at, &own) in order.iter().enumerate() {
        if partner[own].is_some() {
            continue;
        }
        let near = order[at + 1..].iter().take_while(|&&o| ends[o].0.x - ends[own].0.x < MEET);
        let meets = |o: &&usize| {
            partner[**o].is_none() && **o / 2 != own / 2 && (ends[**o].0 - ends[own].0).hypot2() < MEET * MEET
        };
        let here: Vec<usize> = near.filter(meets).copied().collect();
        let straight = here.iter().copied().find(|&o| turn(&lines, own, o) < STRAIGHT);
        let other = straight.or(if here.len() == 1 { Some(here[0]) } else { None });
        if let Some(other) = other {
            partner[own] = Some(other);
            partner[other] = Some(own);
        }
    }
    walked(&lines, &partner)
}

/// The sine of an angle up to which a line runs straight on.
const STRAIGHT: f64 = 0.02;

/// How much the way turns from one line to the other; 2 where it turns back.
fn turn(lines: &[Line], a: usize, b: usize) -> f64 {
    let out = |end: usize| {
        let line = &lines[end / 2];
        let way = if end.is_multiple_of(2) { line.p1 - line.p0 } else { line.p0 - line.p1 };
        way / way.hypot2().sqrt().max(1e-12)
    };
    let (a, b) = (out(a), out(b));
    if a.dot(b) > 0.0 { 2.0 } else { a.cross(b).abs() }
}

fn walked(lines: &[Line], partner: &[Option<usize>]) -> Vec<Vec<Point>> {
    let at = |end: usize| if end.is_multiple_of(2) { lines[end / 2].p0 } else { lines[end / 2].p1 };
    let mut used = vec![false; lines.len()];
    let mut found = Vec::new();
    let open = (0..partner.len()).filter(|&end| partner[end].is_none());
    for start in open.chain(0..partner.len()) {
        if used[start / 2] {
            continue;
        }
        let mut run = vec![at(start)];
        let mut end = start;
        while !used[end / 2] {
            used[end / 2] = true;
            let far = end ^ 1;
            run.push(at(far));
            match partner[far] {
                Some(next) => end = next,
                None => break,
            }
        }
        found.push(run);
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(a: (f64, f64), b: (f64, f64)) -> Line {
        Line::new(a, b)
    }

    #[test]
    fn what_falls_on_one_line_is_drawn_once() {
        let mut kept = Kept::default();
        kept.take_all(vec![line((0.0, 0.0), (10.0, 0.0)), line((8.0, 0.01), (14.0, 0.01))], SAME, SPECK);
        assert_eq!(kept.lines.len(), 2);
        assert!((length(&kept.lines[1]) - 4.0).abs() < 1e-9);
        kept.take_all(vec![line((2.0, 0.5), (20.0, 0.5)), line((0.0, 3.0), (20.0, 3.0))], APART, SHORT);
        let lengths: Vec<f64> = kept.lines[2..].iter().map(length).collect();
        assert_eq!(lengths.len(), 2);
        assert!((lengths[0] - 20.0).abs() < 1e-9 && (lengths[1] - 6.0).abs() < 1e-9, "{lengths:?}");
    }

    #[test]
    fn lines_that_meet_are_one_run() {
        let square = [(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)];
        let lines = (0..4).map(|i| line(square[i], square[(i + 1) % 4])).collect();
        let runs = chained(lines);
        assert_eq!(runs.iter().map(Vec::len).collect::<Vec<_>>(), [5]);
        let crossing = vec![
            line((0.0, 0.0), (4.0, 0.0)),
            line((4.0, 0.0), (9.0, 0.0)),
            line((4.0, 0.0), (4.0, 5.0)),
            line((4.0, 0.0), (4.0, -5.0)),
        ];
        let mut lengths: Vec<usize> = chained(crossing).iter().map(Vec::len).collect();
        lengths.sort_unstable();
        assert_eq!(lengths, [3, 3]);
    }
}
