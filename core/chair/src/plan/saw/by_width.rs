//! Straight pieces side by side: rectangles by cuts that go right through.

use super::{Bench, Sawing, Sawn, rectangle};
use crate::plan::class::{Offcut, SawCut, Way};
use crestrail_packing::boards::{self, Axis, Board, Cut, Piece, Problem, Trim, solve};
use crestrail_packing::{Budget, Listener, Refused};

pub(super) fn sawn(bench: Bench<'_>, budget: Budget, hear: Listener<'_>) -> Result<Sawing, Refused> {
    let board = |s: &crate::plan::stand::Stand| Board {
        length: s.length,
        width: s.width,
        price: s.price.0,
        count: s.count,
    };
    let boards: Vec<Board> = bench.stands.iter().map(board).collect();
    let piece = |p: &crate::plan::pieces::Piece| Piece {
        length: p.length,
        width: p.width,
        count: p.count,
        grain: true,
    };
    let pieces: Vec<Piece> = bench.pieces.iter().map(piece).collect();
    let [end, edge] = bench.trims;
    let problem = Problem::new(&boards, &pieces, bench.kerf, Trim { end, edge })?
        .keeping(bench.worth[0], bench.worth[1])?;
    let plan = solve(&problem, budget, hear);
    Ok(Sawing {
        way: Way::Rectangles,
        cost: plan.cost,
        bound: plan.bound,
        boards: plan.boards.iter().map(|sawn| board_of(bench, sawn)).collect(),
        missing: plan.missing,
    })
}

fn board_of(bench: Bench<'_>, sawn: &boards::Sawn) -> Sawn {
    let stand = &bench.stands[sawn.board];
    let laid = sawn.pieces.iter().map(|p| (p.piece, rectangle([p.x, p.y], [p.length, p.width])));
    let room = stand.room(bench.trims);
    let whole = Part { at: bench.trims, to: [bench.trims[0] + room[0], bench.trims[1] + room[1]] };
    let mut parts = vec![whole];
    sawn.cuts.iter().for_each(|cut| Part::part(&mut parts, cut, bench.kerf));
    let is_free =
        |part: &Part| !sawn.pieces.iter().any(|p| part.holds([p.x + p.length / 2.0, p.y + p.width / 2.0]));
    let offcuts = parts.iter().filter(|p| is_free(p)).map(Part::offcut).collect();
    let cut = |(cut, number): (&Cut, u32)| SawCut {
        number,
        along: cut.axis == Axis::Along,
        at: cut.at,
        from: cut.from,
        to: cut.to,
    };
    let cuts = sawn.cuts.iter().zip(1..).map(cut).collect();
    Sawn { stand: sawn.board, times: sawn.times, laid: laid.collect(), cuts, offcuts }
}

/// A part of a board between cuts.
#[derive(Clone, Copy)]
struct Part {
    at: [f64; 2],
    to: [f64; 2],
}

/// Sizes of the solver are hundredths of a millimetre; this much apart they are not the same.
const NEAR: f64 = 0.02;

impl Part {
    /// The part through which the cut goes becomes two; what is thinner than the saw's cut is lost.
    fn part(parts: &mut Vec<Self>, cut: &Cut, kerf: f64) {
        let axis = usize::from(cut.axis == Axis::Along);
        let other = 1 - axis;
        let through = |p: &Self| {
            p.at[axis] < cut.at
                && cut.at < p.to[axis] + NEAR
                && p.at[other] < cut.to - NEAR
                && cut.from + NEAR < p.to[other]
        };
        let Some(i) = parts.iter().position(through) else { return };
        let (mut left, mut right) = (parts[i], parts[i]);
        left.to[axis] = cut.at;
        right.at[axis] = cut.at + kerf;
        parts[i] = left;
        if right.at[axis] < right.to[axis] {
            parts.push(right);
        }
    }

    fn holds(&self, p: [f64; 2]) -> bool {
        (0..2).all(|axis| self.at[axis] < p[axis] && p[axis] < self.to[axis])
    }

    fn offcut(&self) -> Offcut {
        let [length, width] = [0, 1].map(|axis| self.to[axis] - self.at[axis]);
        Offcut { x: self.at[0], y: self.at[1], length, width }
    }
}
