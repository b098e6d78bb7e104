//! Boards with room for one piece across: a question of lengths alone, answered exactly.

use super::{Bench, Sawing, Sawn, rectangle};
use crate::plan::class::{Offcut, SawCut, Way};
use crestrail_packing::bars::{Bar, Cut, Piece, Problem, solve};
use crestrail_packing::{Budget, Listener, Refused};

pub(super) fn sawn(bench: Bench<'_>, budget: Budget, hear: Listener<'_>) -> Result<Sawing, Refused> {
    let bar = |s: &crate::plan::stand::Stand| Bar { length: s.length, price: s.price.0, count: s.count };
    let bars: Vec<Bar> = bench.stands.iter().map(bar).collect();
    let pieces: Vec<Piece> =
        bench.pieces.iter().map(|p| Piece { length: p.length, count: p.count }).collect();
    let problem = Problem::new(&bars, &pieces, bench.kerf, bench.trims[0])?;
    let plan = solve(&problem, budget, hear);
    Ok(Sawing {
        way: Way::Lengths,
        cost: plan.cost,
        bound: plan.bound,
        boards: plan.cuts.iter().map(|cut| board(bench, cut)).collect(),
        missing: plan.missing,
    })
}

/// Crosscut after crosscut from the left; a piece narrower than the board is then ripped to its width.
fn board(bench: Bench<'_>, cut: &Cut) -> Sawn {
    let stand = &bench.stands[cut.bar];
    let [ends, edges] = bench.trims;
    let width = stand.room(bench.trims)[1];
    let (mut laid, mut crosscuts, mut rips) = (Vec::new(), Vec::new(), Vec::new());
    let mut x = ends;
    for &p in &cut.pieces {
        let piece = &bench.pieces[p];
        laid.push((p, rectangle([x, edges], [piece.length, piece.width])));
        let end = x + piece.length;
        if end < stand.length - ends {
            crosscuts.push(SawCut { number: 0, along: false, at: end, from: edges, to: edges + width });
        }
        if piece.width < width {
            rips.push(SawCut { number: 0, along: true, at: edges + piece.width, from: x, to: end });
        }
        x = end + bench.kerf;
    }
    let cuts = crosscuts.into_iter().chain(rips).zip(1..).map(|(cut, number)| SawCut { number, ..cut });
    let offcut = Offcut { x, y: edges, length: cut.offcut, width };
    Sawn { stand: cut.bar, times: cut.times, laid, cuts: cuts.collect(), offcuts: vec![offcut] }
}
