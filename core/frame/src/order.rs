//! The order in which the nodes of a frame are eliminated, and whom each meets when its turn comes.
//!
//! Minimum degree: W. F. Tinney, J. W. Walker, "Direct solutions of sparse network equations by optimally ordered
//! triangular factorization", Proc. IEEE 55 (1967). Most nodes of a frame join two members, so a chain of them folds up without
//! touching the rest, and what is left at the end is no larger than the number of places where three members meet.

/// One node's turn.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Turn {
    /// The node.
    pub(crate) node: usize,
    /// The nodes that come later and are coupled to it, by members or by nodes that went before.
    pub(crate) meets: Vec<usize>,
}

/// All `count` nodes, the one that meets fewest others next; of equals the first.
pub(crate) fn turns(count: usize, pairs: &[[usize; 2]]) -> Vec<Turn> {
    let mut meetings = vec![Vec::new(); count];
    pairs.iter().for_each(|&[a, b]| couple(&mut meetings, a, b));
    let mut waiting: Vec<usize> = (0..count).collect();
    let mut turns = Vec::with_capacity(count);
    while let Some(at) = (0..waiting.len()).min_by_key(|&at| (meetings[waiting[at]].len(), waiting[at])) {
        let node = waiting.swap_remove(at);
        let meets = core::mem::take(&mut meetings[node]);
        for (k, &one) in meets.iter().enumerate() {
            meetings[one].retain(|&other| other != node);
            meets[k + 1..].iter().for_each(|&other| couple(&mut meetings, one, other));
        }
        turns.push(Turn { node, meets });
    }
    turns
}

fn couple(meetings: &mut [Vec<usize>], a: usize, b: usize) {
    if a != b && !meetings[a].contains(&b) {
        meetings[a].push(b);
        meetings[b].push(a);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every member's two nodes meet at the turn of the one that comes first, and nobody meets a node that has gone.
    fn assert_sound(count: usize, pairs: &[[usize; 2]]) -> usize {
        let turns = turns(count, pairs);
        let mut place = vec![usize::MAX; count];
        turns.iter().enumerate().for_each(|(at, turn)| place[turn.node] = at);
        assert!(place.iter().all(|&at| at < count), "all nodes come");
        for &[a, b] in pairs {
            let (one, other) = if place[a] < place[b] { (a, b) } else { (b, a) };
            assert!(turns[place[one]].meets.contains(&other), "{one} meets {other}");
        }
        assert!(turns.iter().all(|turn| turn.meets.iter().all(|&other| place[other] > place[turn.node])));
        turns.iter().map(|turn| turn.meets.len()).max().unwrap_or_default()
    }

    /// However it is numbered, nobody in a chain meets more than two, and in a ring neither.
    #[test]
    fn chains_and_rings_fold_up() {
        let chain: Vec<[usize; 2]> = (0..20).map(|k| [k * 8 % 21, (k + 1) * 8 % 21]).collect();
        assert_eq!(assert_sound(21, &chain), 1);
        let ring: Vec<[usize; 2]> = (0..21).map(|k| [k * 8 % 21, (k + 1) * 8 % 21]).collect();
        assert_eq!(assert_sound(21, &ring), 2);
    }

    #[test]
    fn pieces_and_lone_nodes_all_come_once() {
        assert_eq!(assert_sound(9, &[[0, 1], [1, 2], [5, 6], [6, 7], [7, 5], [0, 1]]), 2);
        assert_eq!(assert_sound(3, &[]), 0);
    }

    /// A node that is gone couples those it met.
    #[test]
    fn neighbours_of_a_gone_node_meet() {
        let star = [[4, 0], [4, 1], [4, 2], [4, 3], [0, 1], [1, 2], [2, 3], [3, 0]];
        assert_eq!(assert_sound(5, &star), 3);
    }
}
