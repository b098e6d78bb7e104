//! An order of the nodes that keeps the matrix narrow.
//!
//! Reverse Cuthill–McKee: E. Cuthill, J. McKee, "Reducing the bandwidth of sparse symmetric matrices", Proc. 24th
//! ACM National Conference, 1969, reversed as by A. George, 1971; it begins at an end of the
//! frame found as by A. George, J. W. H. Liu, "An implementation of a pseudoperipheral node finder", 1979.

/// Which nodes meet in a member.
pub(crate) struct Meetings {
    /// Of each node in turn; `first[n]..first[n + 1]` are those of node n.
    others: Vec<usize>,
    first: Vec<usize>,
}

impl Meetings {
    /// Among `count` nodes, by the pairs that meet.
    pub(crate) fn new(count: usize, pairs: &[[usize; 2]]) -> Self {
        let mut first = vec![0; count + 1];
        pairs.iter().flatten().for_each(|node| first[node + 1] += 1);
        (0..count).for_each(|node| first[node + 1] += first[node]);
        let (mut next, mut others) = (first.clone(), vec![0; 2 * pairs.len()]);
        for &[a, b] in pairs {
            for (node, other) in [(a, b), (b, a)] {
                others[next[node]] = other;
                next[node] += 1;
            }
        }
        Self { others, first }
    }

    pub(crate) fn of(&self, node: usize) -> &[usize] {
        &self.others[self.first[node]..self.first[node + 1]]
    }

    fn count(&self) -> usize {
        self.first.len() - 1
    }

    /// All nodes, narrow in order; each piece of a frame in pieces in turn.
    pub(crate) fn narrow_order(&self) -> Vec<usize> {
        let mut order = Vec::with_capacity(self.count());
        let mut seen = vec![false; self.count()];
        for node in 0..self.count() {
            if !seen[node] {
                let start = self.far_end(node);
                self.walk(start, &mut seen, &mut order);
            }
        }
        order.reverse();
        order
    }

    /// A node at an end of the piece that holds `node`: from the far end of a walk the next walk starts, as long as it
    /// goes deeper.
    fn far_end(&self, node: usize) -> usize {
        let (mut start, mut depth) = (node, 0);
        loop {
            let (far, deep) = self.farthest(start);
            if deep <= depth {
                return start;
            }
            (start, depth) = (far, deep);
        }
    }

    /// Of the nodes farthest from `start` the one with the fewest members, and how many members lie between.
    fn farthest(&self, start: usize) -> (usize, usize) {
        let mut depths = vec![None; self.count()];
        depths[start] = Some(0);
        let mut queue = vec![start];
        let mut best = (start, 0);
        let mut at = 0;
        while let Some(&node) = queue.get(at) {
            at += 1;
            let depth = depths[node].unwrap_or_default();
            if depth > best.1 || (depth == best.1 && self.of(node).len() < self.of(best.0).len()) {
                best = (node, depth);
            }
            for &other in self.of(node) {
                if depths[other].is_none() {
                    depths[other] = Some(depth + 1);
                    queue.push(other);
                }
            }
        }
        best
    }

    /// Breadth first; of the neighbours those with few members come first.
    fn walk(&self, start: usize, seen: &mut [bool], order: &mut Vec<usize>) {
        let mut at = order.len();
        seen[start] = true;
        order.push(start);
        while let Some(&node) = order.get(at) {
            at += 1;
            let from = order.len();
            for &other in self.of(node) {
                if !core::mem::replace(&mut seen[other], true) {
                    order.push(other);
                }
            }
            order[from..].sort_by_key(|&other| (self.of(other).len(), other));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Farthest apart that two nodes that meet stand in the order.
    fn width(pairs: &[[usize; 2]], order: &[usize]) -> usize {
        let mut place = vec![0; order.len()];
        order.iter().enumerate().for_each(|(at, &node)| place[node] = at);
        pairs.iter().map(|&[a, b]| place[a].abs_diff(place[b])).max().unwrap_or_default()
    }

    /// A chain numbered as badly as can be gets a width of one.
    #[test]
    fn a_shuffled_chain_is_narrow() {
        let pairs: Vec<[usize; 2]> = (0..20).map(|k| [k * 8 % 21, (k + 1) * 8 % 21]).collect();
        let order = Meetings::new(21, &pairs).narrow_order();
        assert_eq!(width(&pairs, &order), 1);
    }

    #[test]
    fn pieces_and_lone_nodes_all_come_once() {
        let pairs = [[0, 1], [1, 2], [5, 6], [6, 7], [7, 5], [0, 1]];
        let mut order = Meetings::new(9, &pairs).narrow_order();
        assert!(width(&pairs, &order) <= 2);
        order.sort_unstable();
        assert_eq!(order, (0..9).collect::<Vec<_>>());
    }
}
