//! What was laid on a plank by an order that is going to be changed a little: up to the change the plank is
//! filled alike, so that it need not be filled anew from the start.

use super::bed::{Bed, Next};
use std::rc::Rc;

/// A plank after some pieces of the order.
#[derive(Clone, Debug)]
pub(super) struct State {
    /// How many pieces of the order were seen.
    pub(super) seen: usize,
    pub(super) bed: Bed,
    /// How many of each shape may still be laid on it.
    pub(super) left: Vec<u32>,
}

/// The states of one filling.
#[derive(Clone, Debug, Default)]
pub(super) struct Trail {
    order: Vec<Next>,
    states: Vec<Rc<State>>,
}

/// Pieces between two states that are kept.
const APART: usize = 2;

impl Trail {
    /// The trail of an order as far as it is the same as here.
    pub(super) fn shared(&self, order: &[Next]) -> Self {
        let same = self.order.iter().zip(order).take_while(|(a, b)| a == b).count();
        let states = self.states.iter().take_while(|s| s.seen <= same).cloned().collect();
        Self { order: order.to_vec(), states }
    }

    /// The last state kept.
    pub(super) fn last(&self) -> Option<State> {
        self.states.last().map(|s| State::clone(s))
    }

    /// Keeps a state now and then.
    pub(super) fn keep(&mut self, state: &State) {
        if self.states.last().map_or(0, |s| s.seen) + APART <= state.seen {
            self.states.push(Rc::new(state.clone()));
        }
    }
}
