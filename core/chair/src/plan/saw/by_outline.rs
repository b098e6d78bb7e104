//! Parts sawn to an outline, nested on planks; straight pieces of the same thickness fill what is left.

use super::{Bench, Sawing, Sawn, rectangle};
use crate::plan::Effort;
use crate::plan::class::{Offcut, Way};
use crate::plan::pieces::{Piece, TOLERANCE};
use crestrail_geometry::math::{cos, sin};
use crestrail_packing::planks::{self, Plank, Problem, Shape, Trim, solve};
use crestrail_packing::{Budget, Listener, Refused};

/// Of the work for a price the part that outlines get: their first plan, made whatever it takes, is hardly ever made
/// cheaper by the rest.
const SHARE_FOR_PRICE: u64 = 2;

/// How a piece may lie: as it is, or turned by half a turn. The grain runs along both ways.
const TURNS: [f64; 2] = [0.0, 180.0];

pub(super) fn sawn(bench: Bench<'_>, effort: Effort, hear: Listener<'_>) -> Result<Sawing, Refused> {
    let plank = |s: &crate::plan::stand::Stand| Plank {
        length: s.length,
        width: s.width,
        price: s.price.0,
        count: s.count,
    };
    let planks: Vec<Plank> = bench.stands.iter().map(plank).collect();
    let shapes: Vec<Shape> = bench.pieces.iter().map(shape).collect();
    let [end, edge] = bench.trims;
    let problem = Problem::new(&planks, &shapes, bench.kerf, Trim { end, edge }, TOLERANCE)?;
    let share = if effort == Effort::PRICE { SHARE_FOR_PRICE } else { 1 };
    let plan = solve(&problem, Budget::of(effort.each_class / share), hear);
    Ok(Sawing {
        way: Way::Outlines,
        cost: plan.cost,
        bound: plan.bound,
        boards: plan.planks.iter().map(|sawn| board(bench, &shapes, sawn)).collect(),
        missing: plan.missing,
    })
}

fn shape(piece: &Piece) -> Shape {
    let (outline, turns) = match &piece.outline {
        Some(outline) => (outline.iter().map(|p| [p.x, p.y]).collect(), TURNS.to_vec()),
        None => (rectangle([0.0, 0.0], [piece.length, piece.width]), vec![0.0]),
    };
    Shape { outline, count: piece.count, turns, tilt: 0.0 }
}

fn board(bench: Bench<'_>, shapes: &[Shape], sawn: &planks::Sawn) -> Sawn {
    let stand = &bench.stands[sawn.plank];
    let [ends, edges] = bench.trims;
    let laid = sawn.pieces.iter().map(|p| {
        let turn = p.turn.to_radians();
        let (c, s) = (cos(turn), sin(turn));
        let moved = |q: &[f64; 2]| [p.x + c * q[0] - s * q[1], p.y + s * q[0] + c * q[1]];
        (p.shape, shapes[p.shape].outline.iter().map(moved).collect::<Vec<_>>())
    });
    let offcut = Offcut {
        x: stand.length - ends - sawn.offcut,
        y: edges,
        length: sawn.offcut,
        width: stand.room(bench.trims)[1],
    };
    Sawn {
        stand: sawn.plank,
        times: sawn.times,
        laid: laid.collect(),
        cuts: Vec::new(),
        offcuts: vec![offcut],
    }
}
