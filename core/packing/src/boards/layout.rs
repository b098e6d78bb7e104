//! Rectangles on one board, and the cuts that part them.

use super::problem::Size;
use crate::units::Hundredths;

/// A piece on a board; its kerf lies to the right and above.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Placed {
    pub(super) row: usize,
    pub(super) at: Size,
    pub(super) size: Size,
}

/// A rectangle of a board.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Area {
    pub(super) at: Size,
    pub(super) size: Size,
}

/// One cut right through a part of the board: across it at x for axis 0, along it at y for axis 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Through {
    pub(super) stage: u32,
    pub(super) axis: usize,
    /// Where the saw's kerf ends.
    pub(super) at: Hundredths,
    pub(super) from: Hundredths,
    pub(super) to: Hundredths,
}

/// The same pieces moved as near to the corner `at` as the cuts that part them allow, so that no cut has to take off a
/// sliver thinner than its kerf. Nothing if no cut goes through.
pub(super) fn pushed(at: Size, pieces: &[Placed]) -> Option<Vec<Placed>> {
    let low = |axis: usize| pieces.iter().map(|p| p.at[axis]).min().unwrap_or(0);
    let off = [at[0] - low(0), at[1] - low(1)];
    let pieces: Vec<Placed> =
        pieces.iter().map(|p| Placed { at: [p.at[0] + off[0], p.at[1] + off[1]], ..*p }).collect();
    if pieces.len() < 2 {
        return Some(pieces);
    }
    let end =
        |list: &[Placed], axis: usize| list.iter().map(|p| p.at[axis] + p.size[axis]).max().unwrap_or(0);
    let area = Area { at, size: [end(&pieces, 0) - at[0], end(&pieces, 1) - at[1]] };
    let (axis, lines) =
        [0, 1].map(|axis| (axis, lines(area, &pieces, axis))).into_iter().find(|l| !l.1.is_empty())?;
    let mut done: Vec<Placed> = Vec::new();
    let (mut from, mut next) = (at[axis], at);
    for line in lines.into_iter().chain([at[axis] + area.size[axis]]) {
        let own = |p: &&Placed| p.at[axis] >= from && p.at[axis] < line;
        let strip = pushed(next, &pieces.iter().filter(own).copied().collect::<Vec<_>>())?;
        next[axis] = end(&strip, axis);
        done.extend(strip);
        from = line;
    }
    Some(done)
}

/// How a board is sawn up.
#[derive(Clone, Debug, Default)]
pub(super) struct Parting {
    /// In the order of the saw: all cuts of one stage on a part, then each of its parts in turn.
    pub(super) cuts: Vec<Through>,
    /// The parts in which no piece lies.
    free: Vec<Area>,
}

impl Parting {
    /// What is left in parts that are worth keeping, and the largest of all parts that are left.
    pub(super) fn left(&self, worth: Size) -> (i64, i64) {
        let area = |free: &Area| free.size[0] * free.size[1];
        let kept =
            self.free.iter().filter(|f| f.size[0] >= worth[0] && f.size[1] >= worth[1]).map(area).sum();
        (kept, self.free.iter().map(area).max().unwrap_or(0))
    }
}

/// Which of two ways of cutting a part comes first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum First {
    /// The one that makes more parts: fewer stages follow.
    Parts,
    /// The one that frees the larger rest, so that it stays in one part.
    Rest,
}

/// The cuts that part the pieces, so that most is left in parts of this size or larger. Nothing if no cut goes through
/// (then it is no layout for a table saw).
pub(super) fn parting(area: Area, pieces: &[Placed], worth: Size) -> Option<Parting> {
    let [parts, rest] = [First::Parts, First::Rest].map(|first| {
        let mut parting = Parting::default();
        part(area, pieces, 1, first, &mut parting).then_some(parting)
    });
    let (parts, rest) = (parts?, rest?);
    Some(if rest.left(worth) > parts.left(worth) { rest } else { parts })
}

fn part(area: Area, pieces: &[Placed], stage: u32, first: First, parting: &mut Parting) -> bool {
    if pieces.is_empty() {
        parting.free.push(area);
    }
    if pieces.is_empty() || pieces.iter().any(|p| p.size == area.size) {
        return pieces.len() <= 1;
    }
    let lines = [lines(area, pieces, 0), lines(area, pieces, 1)];
    let rests = rests(area, pieces);
    let axis = usize::from(match first {
        First::Rest if rests != [0, 0] => rests[1] > rests[0],
        _ => {
            lines[1].len() > lines[0].len()
                || (lines[1].len() == lines[0].len() && area.size[1] < area.size[0])
        }
    });
    let axis = if lines[axis].is_empty() { 1 - axis } else { axis };
    let mut from = area.at[axis];
    for &at in &lines[axis] {
        let low = area.at[1 - axis];
        parting.cuts.push(Through { stage, axis, at, from: low, to: low + area.size[1 - axis] });
    }
    let ends = lines[axis].iter().copied().chain([area.at[axis] + area.size[axis]]);
    for end in ends.filter(|_| !lines[axis].is_empty()) {
        let mut strip = area;
        (strip.at[axis], strip.size[axis]) = (from, end - from);
        let own: Vec<Placed> =
            pieces.iter().filter(|p| p.at[axis] >= from && p.at[axis] < end).copied().collect();
        if !part(strip, &own, stage + 1, first, parting) {
            return false;
        }
        from = end;
    }
    !lines[axis].is_empty()
}

/// What is left beyond the last piece, along and across: the areas of the two parts that one cut could free.
fn rests(area: Area, pieces: &[Placed]) -> [i64; 2] {
    [0, 1].map(|axis| {
        let end = pieces.iter().map(|p| p.at[axis] + p.size[axis]).max().unwrap_or(area.at[axis]);
        (area.at[axis] + area.size[axis] - end) * area.size[1 - axis]
    })
}

/// Lines across an axis that cut no piece and lie at the end of one, or before the first.
fn lines(area: Area, pieces: &[Placed], axis: usize) -> Vec<Hundredths> {
    let mut spans: Vec<(Hundredths, Hundredths)> =
        pieces.iter().map(|p| (p.at[axis], p.at[axis] + p.size[axis])).collect();
    spans.sort_unstable();
    let mut lines = Vec::new();
    if spans[0].0 > area.at[axis] {
        lines.push(spans[0].0);
    }
    let mut end = spans[0].1;
    for &(from, to) in &spans[1..] {
        if from >= end {
            lines.push(end);
        }
        end = end.max(to);
    }
    if end < area.at[axis] + area.size[axis] {
        lines.push(end);
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    fn placed(x: i64, y: i64, w: i64, h: i64) -> Placed {
        Placed { row: 0, at: [x, y], size: [w, h] }
    }

    #[test]
    fn a_pinwheel_cannot_be_sawn() {
        let area = Area { at: [0, 0], size: [3, 3] };
        let wheel = [placed(0, 0, 2, 1), placed(2, 0, 1, 2), placed(1, 2, 2, 1), placed(0, 1, 1, 2)];
        assert!(parting(area, &wheel, [0, 0]).is_none());
    }

    /// A strip that begins a little late is moved to its neighbour, with all that is on it.
    #[test]
    fn slivers_are_closed() {
        let late = [placed(0, 0, 5, 2), placed(0, 3, 5, 2), placed(7, 1, 3, 2)];
        let pushed = pushed([0, 0], &late).unwrap();
        assert_eq!(pushed.iter().map(|p| p.at).collect::<Vec<_>>(), [[0, 0], [0, 2], [5, 0]]);
        let wheel = [placed(0, 0, 2, 1), placed(2, 0, 1, 2), placed(1, 2, 2, 1), placed(0, 1, 1, 2)];
        assert_eq!(super::pushed([0, 0], &wheel), None);
    }

    #[test]
    fn room_before_the_first_piece_is_cut_off() {
        let area = Area { at: [0, 0], size: [10, 4] };
        let list = parting(area, &[placed(6, 1, 4, 3)], [0, 0]).unwrap().cuts;
        assert_eq!(list.iter().map(|c| (c.axis, c.at)).collect::<Vec<_>>(), [(1, 1), (0, 6)]);
    }

    #[test]
    fn strips_then_pieces() {
        let area = Area { at: [0, 0], size: [10, 4] };
        let list = parting(area, &[placed(0, 0, 5, 2), placed(5, 0, 5, 2), placed(0, 2, 9, 2)], [0, 0])
            .unwrap()
            .cuts;
        let told: Vec<(u32, usize, i64)> = list.iter().map(|c| (c.stage, c.axis, c.at)).collect();
        assert_eq!(told, [(1, 1, 2), (2, 0, 5), (2, 0, 9)]);
    }
}
