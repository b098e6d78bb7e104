//! Sorting that is compiled once.
//!
//! The standard library's sorts are compiled anew for every type and every way of comparing, about 6 kB each; the core
//! sorts in a hundred places, and that was a quarter of what a first visitor loads. Here one sort puts the *places* of
//! the items in order, and each type adds only the moving of its items. Always stable: equal items keep their order.

use core::cmp::Ordering;

/// Puts slices in order, as the methods of the standard library that are called `sort…` do.
pub trait Order<T> {
    /// By a comparison, which must be a total order.
    fn order_by(&mut self, compare: impl FnMut(&T, &T) -> Ordering);

    /// By a key that is worked out at each comparison.
    fn order_by_key<K: Ord>(&mut self, mut key: impl FnMut(&T) -> K) {
        self.order_by(|a, b| key(a).cmp(&key(b)));
    }

    /// By the items' own order.
    fn order(&mut self)
    where
        T: Ord,
    {
        self.order_by(T::cmp);
    }
}

impl<T> Order<T> for [T] {
    fn order_by(&mut self, mut compare: impl FnMut(&T, &T) -> Ordering) {
        if let Some(mut places) = Places::of(self.len(), &mut |a, b| compare(&self[a], &self[b])) {
            follow(self, places.all());
        }
    }
}

/// So few items are put in order one after the other, without asking for memory; as the standard library does it.
const FEW: usize = 20;

/// A place that has been filled.
const DONE: u32 = u32::MAX;

/// For each place, where its item stands now.
struct Places {
    few: [u32; FEW],
    /// Where there are more.
    many: Vec<u32>,
    len: usize,
}

impl Places {
    /// Nothing where all stand in order already, which is the commonest case.
    fn of(len: usize, compare: &mut dyn FnMut(usize, usize) -> Ordering) -> Option<Self> {
        if (1..len).all(|at| compare(at - 1, at).is_le()) {
            return None;
        }
        let mut places = Self { few: [0; FEW], many: Vec::new(), len };
        if len > FEW {
            places.many = (0..len as u32).collect();
            places.many.sort_by(|&a, &b| compare(a as usize, b as usize));
        } else {
            insert_each(places.all(), compare);
        }
        Some(places)
    }

    fn all(&mut self) -> &mut [u32] {
        if self.len > FEW { &mut self.many } else { &mut self.few[..self.len] }
    }
}

fn insert_each(places: &mut [u32], compare: &mut dyn FnMut(usize, usize) -> Ordering) {
    for item in 0..places.len() {
        let mut at = item;
        while at > 0 && compare(places[at - 1] as usize, item).is_gt() {
            places[at] = places[at - 1];
            at -= 1;
        }
        places[at] = item as u32;
    }
}

/// Moves each item to its place, round each cycle of places once.
fn follow<T>(items: &mut [T], places: &mut [u32]) {
    for start in 0..places.len() {
        let mut at = start;
        loop {
            let from = core::mem::replace(&mut places[at], DONE);
            if from == DONE || from as usize == start {
                break;
            }
            items.swap(at, from as usize);
            at = from as usize;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Numbers below `most`, by a linear congruence.
    fn numbers(len: usize, most: u64) -> Vec<u64> {
        let next =
            |x: &u64| Some(x.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407));
        std::iter::successors(Some(len as u64), next).skip(1).map(|x| (x >> 33) % most).take(len).collect()
    }

    /// Against the standard library's stable sort, with many equal keys and each item marked by where it stood.
    #[test]
    fn as_the_standard_library_sorts() {
        for len in [0, 1, 2, 3, 5, 8, 19, 20, 21, 100, 1000] {
            for most in [1, 3, 1000, u64::MAX] {
                let marked: Vec<(u64, usize)> = numbers(len, most).into_iter().zip(0..).collect();
                let (mut ours, mut theirs) = (marked.clone(), marked);
                ours.order_by_key(|item| item.0);
                theirs.sort_by_key(|item| item.0);
                assert_eq!(ours, theirs, "{len} items below {most}");
            }
        }
    }

    #[test]
    fn by_a_comparison_and_by_nature() {
        let mut sizes = [3.5, -0.0, 0.0, f64::INFINITY, -7.0];
        sizes.order_by(f64::total_cmp);
        assert_eq!(sizes.map(f64::to_bits), [-7.0, -0.0, 0.0, 3.5, f64::INFINITY].map(f64::to_bits));
        let mut words = vec!["rail".to_owned(), "leg".to_owned(), "slat".to_owned()];
        words.order();
        assert_eq!(words, ["leg", "rail", "slat"]);
    }
}
