//! Shapes that are alike are laid as one, and told apart only when the plan is written out.

use super::plan::{Plan, Sawn};
use super::problem::{Problem, Shape};
use super::variant::Variant;

/// A problem in which no two shapes are alike, and the shapes of the given one behind each of its own.
pub(super) struct Alike {
    pub(super) problem: Problem,
    members: Vec<Vec<usize>>,
}

impl Alike {
    /// Nothing where no two shapes are alike.
    pub(super) fn among(given: &Problem) -> Option<Self> {
        let mut members: Vec<Vec<usize>> = Vec::new();
        for (number, shape) in given.shapes.iter().enumerate() {
            let same = |other: &Shape| {
                (other.tilt, &other.turns, &other.outline) == (shape.tilt, &shape.turns, &shape.outline)
            };
            match members.iter_mut().find(|own| same(&given.shapes[own[0]])) {
                Some(own) => own.push(number),
                None => members.push(vec![number]),
            }
        }
        if members.len() == given.shapes.len() {
            return None;
        }
        let shape = |own: &Vec<usize>| {
            let count = own.iter().map(|&s| given.shapes[s].count).sum();
            Shape { count, ..given.shapes[own[0]].clone() }
        };
        let variants = members.iter().enumerate().flat_map(|(number, own)| {
            let first = given.variants.iter().filter(|v| v.shape == own[0]);
            first.map(move |v| Variant { shape: number, ..v.clone() })
        });
        let (shapes, variants) = (members.iter().map(shape).collect(), variants.collect());
        Some(Self { problem: Problem { shapes, variants, ..given.clone() }, members })
    }

    /// The plan in the shapes of the given problem: those of one shape come one after the other, so that pairs stay
    /// together.
    pub(super) fn told_apart(&self, given: &Problem, plan: Plan) -> Plan {
        let mut left: Vec<u32> = given.shapes.iter().map(|s| s.count).collect();
        let mut planks: Vec<Sawn> = Vec::new();
        for sawn in &plan.planks {
            for _ in 0..sawn.times {
                let mut one = Sawn { times: 1, ..sawn.clone() };
                for piece in &mut one.pieces {
                    let mut own = self.members[piece.shape].iter().copied();
                    // There are no more pieces on the planks than are asked for.
                    let Some(shape) = own.find(|&s| left[s] > 0) else { continue };
                    left[shape] -= 1;
                    piece.shape = shape;
                }
                match planks.last_mut().filter(|last| last.plank == one.plank && last.pieces == one.pieces) {
                    Some(last) => last.times += 1,
                    None => planks.push(one),
                }
            }
        }
        Plan { planks, missing: left, ..plan }
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Plank, Trim, solve};
    use super::*;
    use crate::Budget;
    use std::ops::ControlFlow;

    #[test]
    fn shapes_alike_are_planned_as_one_and_told_apart() {
        let kite = vec![[0.0, 0.0], [300.0, 20.0], [300.0, 60.0], [0.0, 40.0]];
        let shape = |count: u32| Shape { outline: kite.clone(), count, turns: vec![0.0, 180.0], tilt: 0.0 };
        let planks = [Plank { length: 620.0, width: 140.0, price: 10, count: Some(3) }];
        let made = |shapes: &[Shape]| {
            let problem = Problem::new(&planks, shapes, 3.0, Trim::default(), 0.1).unwrap();
            solve(&problem, Budget::of(200_000), &mut |_| ControlFlow::Continue(()))
        };
        let (apart, as_one) = (made(&[shape(2), shape(3), shape(8)]), made(&[shape(13)]));
        assert_eq!((apart.cost, apart.bound, apart.work), (as_one.cost, as_one.bound, as_one.work));
        assert_eq!(apart.missing.iter().sum::<u32>(), as_one.missing[0]);
        let count = |shape: usize| -> u32 {
            let of =
                |sawn: &Sawn| sawn.times * sawn.pieces.iter().filter(|p| p.shape == shape).count() as u32;
            apart.planks.iter().map(of).sum()
        };
        for (shape, wanted) in [2, 3, 8].into_iter().enumerate() {
            assert_eq!(count(shape) + apart.missing[shape], wanted);
        }
    }
}
