//! The cheapest numbers of each kind first: what all linear programs so far allow is tried, from the cheapest
//! on, until a plan is found that buys just that. Numbers that a program refuses give it away for others too.

use super::Search;
use super::settle::MOST_TRIES;
use crate::budget::Meter;
use crate::cover::{Cover, Cutter, Relaxed, relax, worth};
use crate::tally::{Cheapest, Known, Need, cheapest};

/// Numbers tried once before those that were not settled are tried longer.
const PILE: usize = 6;

/// Numbers that the programs allow, but for which neither a plan nor proof was found yet.
struct Open {
    cost: i64,
    cover: Cover,
    relaxed: Relaxed,
    tries: u32,
}

/// What became of numbers.
enum Tried {
    /// Nothing cheaper than the best is left in them, or the best is what they cost.
    Settled,
    Refused(Need),
    Open(Relaxed),
}

impl<C: Cutter> Search<'_, C> {
    /// True if nothing is left to do; false if the numbers are too many.
    pub(super) fn tallied(&mut self, root: &Relaxed, meter: &mut Meter<'_>) -> bool {
        let (price, high) = (self.cover.price.clone(), self.cover.high.clone());
        let Some(first) = self.need(&root.telling, meter) else { return meter.over() };
        let mut needs = vec![first];
        let mut barred: Vec<Vec<u32>> = Vec::new();
        let mut open: Vec<Open> = Vec::new();
        loop {
            let known = Known { price: &price, high: &high, needs: &needs, barred: &barred };
            let (next, work) = cheapest(&known, self.bound, self.best.cost);
            meter.spend(work);
            let mut bound = match &next {
                Cheapest::Numbers(_, cost) => *cost,
                Cheapest::None => self.best.cost,
                Cheapest::Unknown(least) => *least,
            };
            open.retain(|o| o.cost < self.best.cost);
            bound = open.iter().map(|o| o.cost).fold(bound, i64::min);
            self.raise(bound, meter);
            if self.proven() || meter.over() {
                return true;
            }
            match next {
                Cheapest::Unknown(_) => return false,
                Cheapest::Numbers(numbers, cost) if open.len() < PILE => {
                    let cover = Cover { low: numbers.clone(), high: numbers.clone(), ..self.cover.clone() };
                    match self.tried(&cover, cost, meter) {
                        None => return true,
                        Some(Tried::Refused(need)) if !need.allows(&numbers) => needs.push(need),
                        Some(Tried::Open(relaxed)) => {
                            open.push(Open { cost, cover, relaxed, tries: 1 });
                            barred.push(numbers);
                        }
                        Some(_) => barred.push(numbers),
                    }
                }
                _ => {
                    let place = (0..open.len()).min_by_key(|&o| (open[o].tries, open[o].cost));
                    let Some(place) = place.filter(|&o| open[o].tries < MOST_TRIES) else { return true };
                    let one = &open[place];
                    if self.settle(&one.cover.clone(), &one.relaxed.clone(), one.tries, meter) {
                        open.swap_remove(place);
                    } else {
                        open[place].tries += 1;
                    }
                }
            }
        }
    }

    /// What every plan must hold that leaves nothing out, by values of the pieces.
    fn need(&mut self, values: &[i64], meter: &mut Meter<'_>) -> Option<Need> {
        let most = self.cutter.holds(values, &self.cover.demand, meter)?;
        Some(Need { most, value: worth(&self.cover, values) })
    }

    /// A first try of numbers; nothing if the work ran out.
    fn tried(&mut self, cover: &Cover, cost: i64, meter: &mut Meter<'_>) -> Option<Tried> {
        let relaxed = relax(cover, &mut self.pool, self.cutter, true, cost + 1, &mut 0, meter)?;
        meter.tell(self.shown(), self.bound.min(self.shown()), self.left_out(), false);
        if relaxed.bound > cost {
            return self.need(&relaxed.telling, meter).map(Tried::Refused);
        }
        if self.settle(cover, &relaxed, 0, meter) {
            return Some(Tried::Settled);
        }
        Some(Tried::Open(relaxed))
    }
}
