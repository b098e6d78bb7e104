//! Lines that lead from circles to places, and which of them get in each other's way.

use crate::math::{max, min};
use kurbo::{Line, Point, Rect};

/// How much farther off than that a circle must be to be told so by its box alone: far more than
/// rounding.
const SAFE: f64 = 1e-3;

/// A line from the rim of a circle to a place.
#[derive(Clone, Copy, Debug)]
pub struct Lead {
    /// From the rim to the place.
    pub line: Line,
    /// Middle of the circle.
    pub centre: Point,
}

/// Many of them.
#[derive(Clone, Debug)]
pub struct Leads {
    all: Vec<Lead>,
    /// Around each line, with so much room that what stays out of it is clear of the line.
    reaches: Vec<Rect>,
    /// How near a line may come to a circle's middle.
    clear: f64,
}

impl Leads {
    /// With lines that must stay `clear` of the middles of other circles.
    pub fn new(leads: impl Iterator<Item = Lead>, clear: f64) -> Self {
        let all: Vec<Lead> = leads.collect();
        let reaches = all.iter().map(|lead| reach(lead, clear)).collect();
        Self { all, reaches, clear }
    }

    /// The first two whose lines cross, or of which one's line runs through the other's circle: the second one as early
    /// as can be, then the first one.
    pub fn first_meeting(&self) -> Option<(usize, usize)> {
        self.first_meeting_from(1)
    }

    /// The same where none meet whose second is before `from`.
    fn first_meeting_from(&self, from: usize) -> Option<(usize, usize)> {
        (from..self.all.len()).find_map(|j| (0..j).find(|&i| self.meet(i, j)).map(|i| (i, j)))
    }

    /// Puts others in the place of the first two that met, and tells which are the first now.
    pub fn replace(&mut self, (i, j): (usize, usize), leads: [Lead; 2]) -> Option<(usize, usize)> {
        for (place, lead) in [i, j].into_iter().zip(leads) {
            self.reaches[place] = reach(&lead, self.clear);
            self.all[place] = lead;
        }
        // Of those before, only the first of the two may meet others now.
        let before = (0..i).find(|&a| self.meet(a, i)).map(|a| (a, i));
        let between = || (i + 1..j).find(|&b| self.meet(i, b)).map(|b| (i, b));
        before.or_else(between).or_else(|| self.first_meeting_from(j))
    }

    /// How many pairs do so.
    pub fn meetings(&self) -> usize {
        (1..self.all.len()).map(|j| (0..j).filter(|&i| self.meet(i, j)).count()).sum()
    }

    /// Whether two do so.
    pub fn meet(&self, i: usize, j: usize) -> bool {
        // A circle's middle lies within the reach of its own line too.
        let (a, b) = (&self.reaches[i], &self.reaches[j]);
        let near = a.x0 <= b.x1 && a.x1 >= b.x0 && a.y0 <= b.y1 && a.y1 >= b.y0;
        near && self.leads_meet(i, j)
    }

    fn leads_meet(&self, i: usize, j: usize) -> bool {
        let (a, b) = (&self.all[i], &self.all[j]);
        cross(a.line, b.line) || self.is_near(i, b.centre) || self.is_near(j, a.centre)
    }

    fn is_near(&self, i: usize, p: Point) -> bool {
        self.reaches[i].contains(p) && squared(self.all[i].line, p) < self.clear * self.clear
    }
}

fn reach(lead: &Lead, clear: f64) -> Rect {
    let Line { p0, p1 } = lead.line;
    let room = clear + SAFE;
    Rect::new(min(p0.x, p1.x) - room, min(p0.y, p1.y) - room, max(p0.x, p1.x) + room, max(p0.y, p1.y) + room)
}

/// Whether two lines cross.
pub fn cross(a: Line, b: Line) -> bool {
    let side = |l: Line, p: Point| (l.p1 - l.p0).cross(p - l.p0);
    side(a, b.p0) * side(a, b.p1) < 0.0 && side(b, a.p0) * side(b, a.p1) < 0.0
}

/// Distance of a point from a line between two points, squared.
fn squared(line: Line, p: Point) -> f64 {
    let way = line.p1 - line.p0;
    let share = max(min((p - line.p0).dot(way) / way.hypot2(), 1.0), 0.0);
    (line.p0 + way * share - p).hypot2()
}

/// Distance of a point from a line between two points.
pub fn distance(line: Line, p: Point) -> f64 {
    squared(line, p).sqrt()
}

/// Heights in order, at least `pitch` apart, as near to the wanted ones as that allows (in the
/// sense of least squares: neighbours that would be too near share their middle).
pub fn spread(wanted: &[f64], pitch: f64, (low, high): (f64, f64)) -> Vec<f64> {
    let mut blocks: Vec<(f64, usize)> = Vec::with_capacity(wanted.len());
    for (i, y) in wanted.iter().enumerate() {
        let mut block = (y - pitch * i as f64, 1);
        while let Some(&(level, size)) = blocks.last().filter(|b| b.0 > block.0) {
            blocks.pop();
            let total = level * size as f64 + block.0 * block.1 as f64;
            block = (total / (size + block.1) as f64, size + block.1);
        }
        blocks.push(block);
    }
    let most = high - pitch * wanted.len().saturating_sub(1) as f64;
    let mut heights = Vec::with_capacity(wanted.len());
    for (level, size) in blocks {
        for _ in 0..size {
            heights.push(max(min(level, most), low) + pitch * heights.len() as f64);
        }
    }
    heights
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn heights_stay_where_they_are_wanted_if_there_is_room() {
        assert_eq!(spread(&[10.0, 50.0, 90.0], 20.0, (0.0, 100.0)), [10.0, 50.0, 90.0]);
    }

    #[test]
    fn crowded_heights_move_apart_about_their_middle() {
        assert_eq!(spread(&[50.0, 50.0, 53.0], 20.0, (0.0, 100.0)), [31.0, 51.0, 71.0]);
        assert_eq!(spread(&[2.0, 3.0], 20.0, (0.0, 100.0)), [0.0, 20.0]);
        assert_eq!(spread(&[98.0, 99.0], 20.0, (0.0, 100.0)), [80.0, 100.0]);
    }

    #[test]
    fn lines_meet_that_cross_or_run_through_a_circle() {
        let lead = |x: f64, from: f64, to: f64| {
            let line = Line::new((x + 10.0, from), (x + 100.0, to));
            Lead { line, centre: Point::new(x, from) }
        };
        let mut leads = Leads::new(
            [lead(0.0, 0.0, 0.0), lead(0.0, 40.0, -40.0), lead(0.0, 200.0, 200.0)].into_iter(),
            12.0,
        );
        assert_eq!((leads.first_meeting(), leads.meetings()), (Some((0, 1)), 1));
        assert_eq!(leads.replace((0, 1), [lead(0.0, 0.0, 0.0), lead(0.0, 40.0, 40.0)]), None);
        assert_eq!(leads.meetings(), 0);
        let met = leads.replace((1, 2), [lead(0.0, 40.0, 40.0), lead(60.0, 49.0, 49.0)]);
        assert_eq!((met, leads.meet(0, 1), leads.meet(2, 1)), (Some((1, 2)), false, true));
    }

    /// Of many lines exchanged one after the other the first that meet are those that a plain look finds.
    #[test]
    fn the_first_to_meet_is_known_after_each_exchange() {
        let lead = |row: usize, to: usize| {
            let (y, end) = (40.0 * row as f64, 40.0 * to as f64);
            Lead { line: Line::new((10.0, y), (200.0, end)), centre: Point::new(0.0, y) }
        };
        let mut to = [3, 1, 5, 0, 4, 2, 6];
        let mut leads = Leads::new(to.iter().enumerate().map(|(row, &to)| lead(row, to)), 12.0);
        let mut met = leads.first_meeting();
        let mut exchanges = 0;
        while let Some((i, j)) = met {
            to.swap(i, j);
            met = leads.replace((i, j), [lead(i, to[i]), lead(j, to[j])]);
            assert_eq!(met, leads.first_meeting());
            exchanges += 1;
        }
        assert!(exchanges > 3 && to == [0, 1, 2, 3, 4, 5, 6], "{to:?} after {exchanges}");
    }
}
