//! Whole numbers of each kind of stock that hold a value at least cost, by branch and bound.

use crestrail_sorting::Order as _;

/// One kind of stock.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Holds {
    /// One holds no more value than this.
    pub(crate) most: f64,
    pub(crate) price: i64,
    pub(crate) limit: u32,
}

/// Least cost of stock that holds so much value; zero if all of it does not.
pub(crate) fn least(need: f64, mut kinds: Vec<Holds>) -> i64 {
    kinds.retain(|k| k.most > 0.0 && k.limit > 0);
    kinds.order_by(|a, b| (a.price as f64 / a.most).total_cmp(&(b.price as f64 / b.most)));
    let mut tree = Tree { kinds, best: i64::MAX, nodes: 0, open: i64::MAX };
    tree.visit(0, need, 0);
    let least = tree.best.min(tree.open);
    if least == i64::MAX { 0 } else { least }
}

/// Kinds, cheapest value first.
struct Tree {
    kinds: Vec<Holds>,
    best: i64,
    nodes: u32,
    /// Least cost of what was not searched.
    open: i64,
}

/// Nodes at most; beyond, the cost of the linear program stands in.
const NODES: u32 = 4_000;

impl Tree {
    /// Takes of the kinds from `k` on; false if there is nothing to gain with so much left to hold.
    fn visit(&mut self, k: usize, need: f64, cost: i64) -> bool {
        if need <= 0.0 {
            self.best = self.best.min(cost);
            return true;
        }
        let Some(&Holds { most, price, limit }) = self.kinds.get(k) else { return false };
        let least = cost + (need / most * price as f64 - 1e-6).ceil().max(0.0) as i64;
        self.nodes += 1;
        if least >= self.best.min(self.open) {
            return false;
        }
        if self.nodes > NODES {
            self.open = least;
            return false;
        }
        let full = ((need / most).ceil() as u32).min(limit);
        for n in (0..=full).rev() {
            // With fewer of the cheaper kind the outlook is no better.
            if !self.visit(k + 1, need - f64::from(n) * most, cost + i64::from(n) * price) {
                break;
            }
        }
        true
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn whole_numbers_cost_more_than_parts() {
        let kinds = vec![Holds { most: 10.0, price: 9, limit: 9 }, Holds { most: 4.0, price: 4, limit: 1 }];
        assert_eq!(least(23.0, kinds.clone()), 22);
        assert_eq!(least(25.0, kinds.clone()), 27);
        assert_eq!(least(1000.0, kinds), 0);
    }
}
