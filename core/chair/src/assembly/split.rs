//! A set of pieces drawn apart along one line.

use crestrail_sorting::Order as _;

/// Pieces that come apart along a line: groups that cannot be parted along it, by their place on it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Split {
    /// Groups that stay where they are.
    pub(super) middle: Vec<Vec<usize>>,
    /// Groups that come off along the line, the nearest to the middle first; those of one inner list
    /// do not touch each other.
    pub(super) ahead: Vec<Vec<Vec<usize>>>,
    /// Groups that come off against the line.
    pub(super) behind: Vec<Vec<Vec<usize>>>,
}

impl Split {
    /// The split of a set, if there is one; `blocks(a, b)` tells whether `a`, moving along the line,
    /// meets `b`. Pieces that are `joined` are asked first: where they hold each other most else follows.
    pub(super) fn of(
        set: &[usize],
        joined: impl Iterator<Item = (usize, usize)>,
        blocks: impl Fn(usize, usize) -> bool,
    ) -> Option<Self> {
        let reach = reach(set, joined, blocks);
        let groups = groups(set.len(), &reach);
        if groups.len() < 2 {
            return None;
        }
        // What stands ahead of each group, as far as it goes: the longest row of groups either way.
        let ahead_of = |a: usize, b: usize| a != b && reach.has(groups[a][0], groups[b][0]);
        let n = groups.len();
        let ahead = longest_rows(n, ahead_of);
        let behind = longest_rows(n, |a, b| ahead_of(b, a));
        let stands: Vec<i64> = (0..n).map(|g| behind[g] - ahead[g]).collect();
        let members = |g: usize| groups[g].iter().map(|&i| set[i]).collect::<Vec<_>>();
        let middle = middle(&groups, &stands);
        let at = |stand: i64| (0..n).filter(|&g| stands[g] == stand).map(members).collect::<Vec<_>>();
        let mut others: Vec<i64> = stands.iter().copied().filter(|&s| s != middle).collect();
        others.order();
        others.dedup();
        let (low, high): (Vec<i64>, Vec<i64>) = others.into_iter().partition(|&s| s < middle);
        Some(Self {
            middle: at(middle),
            ahead: high.into_iter().map(at).collect(),
            behind: low.into_iter().rev().map(at).collect(),
        })
    }

    /// All groups.
    pub(super) fn groups(&self) -> impl Iterator<Item = &Vec<usize>> {
        self.middle.iter().chain(self.ahead.iter().chain(&self.behind).flatten())
    }
}

/// For each two of a set, whether the first cannot move along the line without the second.
fn reach(
    set: &[usize],
    joined: impl Iterator<Item = (usize, usize)>,
    blocks: impl Fn(usize, usize) -> bool,
) -> Reach {
    let place = |piece: usize| set.iter().position(|&other| other == piece);
    let joined = joined.filter_map(|(one, other)| Some((place(one)?, place(other)?)));
    let joined = joined.flat_map(|(a, b)| [(a, b), (b, a)]);
    let all = (0..set.len()).flat_map(|a| (0..set.len()).map(move |b| (a, b)));
    let mut reach = Reach::none(set.len());
    for (a, b) in joined.chain(all) {
        // What follows from others need not be asked.
        if a != b && !reach.has(a, b) && blocks(set[a], set[b]) {
            reach.add(a, b);
        }
    }
    reach
}

/// Which of some places lead to which, over others too; a row of bits for each.
struct Reach {
    words: usize,
    rows: Vec<u64>,
}

impl Reach {
    fn none(places: usize) -> Self {
        let words = places.div_ceil(64);
        Self { words, rows: vec![0; places * words] }
    }

    fn has(&self, a: usize, b: usize) -> bool {
        self.rows[a * self.words + b / 64] >> (b % 64) & 1 == 1
    }

    /// Lets `a` lead to `b` and all that `b` leads to, and with it all that leads to `a`.
    fn add(&mut self, a: usize, b: usize) {
        let mut onward = self.rows[b * self.words..][..self.words].to_vec();
        onward[b / 64] |= 1 << (b % 64);
        for (place, row) in self.rows.chunks_exact_mut(self.words).enumerate() {
            if place == a || row[a / 64] >> (a % 64) & 1 == 1 {
                row.iter_mut().zip(&onward).for_each(|(row, onward)| *row |= onward);
            }
        }
    }
}

/// Places in the set that need each other to move.
fn groups(n: usize, reach: &Reach) -> Vec<Vec<usize>> {
    let together = |a: usize, b: usize| a == b || (reach.has(a, b) && reach.has(b, a));
    let is_first = |&a: &usize| !(0..a).any(|b| together(a, b));
    (0..n).filter(is_first).map(|a| (a..n).filter(|&b| together(a, b)).collect()).collect()
}

/// For each group the number of groups in the longest row that begins behind it.
fn longest_rows(n: usize, next: impl Fn(usize, usize) -> bool) -> Vec<i64> {
    let mut rows = vec![0_i64; n];
    // A row has no more groups than there are, so that many rounds settle all of them.
    for _ in 0..n {
        let longest = |a: usize| (0..n).filter(|&b| next(a, b)).map(|b| rows[b] + 1).max().unwrap_or(0);
        let now: Vec<i64> = (0..n).map(longest).collect();
        if now == rows {
            break;
        }
        rows = now;
    }
    rows
}

/// Where the groups stand that stay: half way, or, of two that are as near to that, where more parts are.
fn middle(groups: &[Vec<usize>], stands: &[i64]) -> i64 {
    let nearest = stands.iter().map(|s| s.abs()).min().unwrap_or(0);
    let parts = |stand: i64| {
        groups.iter().zip(stands).filter(|(_, s)| **s == stand).map(|(g, _)| g.len()).sum::<usize>()
    };
    if parts(nearest) > parts(-nearest) { nearest } else { -nearest }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Pieces in a row, each blocked by the next; two of them hold each other.
    #[test]
    fn a_row_is_drawn_apart_from_its_middle() {
        let blocks = |a: usize, b: usize| b == a + 1 || (a, b) == (4, 3);
        let split = Split::of(&[1, 2, 3, 4, 5, 6], [(3, 4)].into_iter(), blocks).unwrap();
        assert_eq!(split.middle, [vec![3, 4]]);
        assert_eq!(split.ahead, [[vec![5]], [vec![6]]]);
        assert_eq!(split.behind, [[vec![2]], [vec![1]]]);
    }

    #[test]
    fn what_holds_in_a_ring_is_no_split() {
        assert_eq!(Split::of(&[7, 8, 9], [(9, 7)].into_iter(), |a, b| b == a + 1 || (a, b) == (9, 7)), None);
        assert_eq!(Split::of(&[7], [].into_iter(), |_, _| true), None);
    }

    #[test]
    fn of_two_the_larger_stays() {
        let holds = |a: usize, b: usize| a / 10 == b / 10 || (a, b) == (1, 10);
        let split = Split::of(&[1, 10, 11], [].into_iter(), holds).unwrap();
        assert_eq!((split.middle, split.behind.len(), split.ahead.len()), (vec![vec![10, 11]], 1, 0));
    }
}
