//! One load case on a factorised frame.

use crate::bar::Bar;
use crate::blocks::Factors;
use crate::check;
use crate::forces::MemberForces;
use crate::loads::LoadCase;
use crate::model::{Frame, Support};
use crate::stiffness::Stiffness;
use crate::structure::Structure;
use crate::trouble::{Trouble, movement};
use crate::vector::{Vector, global, local};

/// Share of the forces by which a node may fall short of balance. Rounding grows with the looseness of a frame;
/// past this share of lost figures there is no answer worth giving.
const BALANCE: f64 = 1e-6;

/// At this share nothing is left to mend; frames without soft springs come in below it at once.
const FINE: f64 = 1e-11;

/// Most times an answer is mended. Each solves for what is out of balance, measured on the members themselves, which
/// loses less to rounding than their sum in the matrix does (J. H. Wilkinson, *Rounding Errors in Algebraic Processes*, 1963).
const MENDS: usize = 5;

/// A factorised frame: solves load cases.
#[derive(Clone, Debug)]
pub struct Stiff<'a> {
    pub(crate) structure: &'a Structure,
    pub(crate) stiffnesses: Vec<Stiffness>,
    pub(crate) factors: Factors<'a>,
}

/// The answer to a load case.
#[derive(Clone, Debug, PartialEq)]
pub struct Solution {
    /// Of each node: mm along x, y, z and radians about x, y, z.
    pub displacements: Vec<[f64; 6]>,
    /// Of each member.
    pub members: Vec<MemberForces>,
    /// Of each support, in the order of the frame's.
    pub reactions: Vec<Reaction>,
}

/// What a support does to its node, in global axes; zero where it holds nothing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reaction {
    /// Index of the node.
    pub node: usize,
    /// N.
    pub force: [f64; 3],
    /// N·mm.
    pub moment: [f64; 3],
}

/// Load cases that are solved side by side: the factors are read once for all of them.
const BESIDE: usize = 4;

/// The same where only movements are asked for.
const MOVED_BESIDE: usize = 3;

/// The answers to several load cases on one frame.
pub fn solve(frame: &Frame, cases: &[LoadCase]) -> Result<Vec<Solution>, Trouble> {
    let structure = Structure::new(frame)?;
    structure.factorise()?.solve_all(cases)
}

/// A load case whose answer is being mended.
struct Pending {
    outside: Vec<[f64; 6]>,
    loads: Vec<Vector>,
    displacements: Vec<[f64; 6]>,
    members: Vec<MemberForces>,
    /// What is out of balance.
    left: Vec<[f64; 6]>,
    /// The same as a share of the forces.
    share: f64,
    done: bool,
}

impl Stiff<'_> {
    /// The answer to one load case; the trouble names what is wrong in it.
    pub fn solve(&self, case: &LoadCase) -> Result<Solution, Trouble> {
        let mut pending = [self.begun(case)?];
        self.settle::<1>(&mut pending);
        let [pending] = pending;
        self.answer(pending)
    }

    /// The answers to several load cases, the same as one by one, in less time; the trouble is that of the first that has one.
    pub fn solve_all(&self, cases: &[LoadCase]) -> Result<Vec<Solution>, Trouble> {
        let mut solutions = Vec::with_capacity(cases.len());
        for beside in cases.chunks(BESIDE) {
            if let [case] = beside {
                solutions.push(self.solve(case)?);
                continue;
            }
            let mut pending = beside.iter().map(|case| self.begun(case)).collect::<Result<Vec<_>, _>>()?;
            self.settle::<BESIDE>(&mut pending);
            for pending in pending {
                solutions.push(self.answer(pending)?);
            }
        }
        Ok(solutions)
    }

    /// What loads on nodes move, each case for itself: mm and rad of each node. Nothing is mended and no member asked, so this is
    /// for how the frame yields here and there, not for forces.
    pub fn moved(&self, cases: &[LoadCase]) -> Result<Vec<Vec<[f64; 6]>>, Trouble> {
        let mut moved = Vec::with_capacity(cases.len());
        for beside in cases.chunks(MOVED_BESIDE) {
            let mut pending = beside.iter().map(|case| self.begun(case)).collect::<Result<Vec<_>, _>>()?;
            let mut sides = vec![[0.0; MOVED_BESIDE]; self.structure.unknowns()];
            self.displace(&mut pending, &mut sides);
            moved.extend(pending.into_iter().map(|case| case.displacements));
        }
        Ok(moved)
    }

    /// Lets each case move by what is left of its loads.
    fn displace<const N: usize>(&self, pending: &mut [Pending], sides: &mut [[f64; N]]) {
        let rows = self.structure.rows.as_flattened();
        for (k, case) in pending.iter().enumerate() {
            for (row, value) in rows.iter().zip(case.left.as_flattened()) {
                row.iter().for_each(|&row| sides[row][k] = *value);
            }
        }
        self.factors.solve(sides);
        for (k, case) in pending.iter_mut().enumerate().filter(|(_, case)| !case.done) {
            for (row, value) in rows.iter().zip(case.displacements.as_flattened_mut()) {
                *value += row.map_or(0.0, |row| sides[row][k]);
            }
        }
    }

    fn begun(&self, case: &LoadCase) -> Result<Pending, Trouble> {
        let Structure { bars, rows, .. } = self.structure;
        check::case(case, rows.len(), bars.len())?;
        let loads = on_members(case, bars);
        let outside = on_nodes(case, rows.len());
        Ok(Pending {
            left: if case.members.is_empty() { outside.clone() } else { self.held(&outside, &loads) },
            outside,
            loads,
            displacements: vec![[0.0; 6]; rows.len()],
            members: Vec::new(),
            share: f64::INFINITY,
            done: false,
        })
    }

    /// Mends at most `N` answers until nothing more is gained.
    // Not inlined: a caller built for size would take its loops along and slow them.
    #[inline(never)]
    fn settle<const N: usize>(&self, pending: &mut [Pending]) {
        let mut sides = vec![[0.0; N]; self.structure.unknowns()];
        for round in 0.. {
            self.displace(pending, &mut sides);
            for case in pending.iter_mut().filter(|case| !case.done) {
                self.members(&case.displacements, &case.loads, &mut case.members);
                self.leave(&case.outside, &case.members, &mut case.left);
                let share = self.imbalance(&case.left, &case.members);
                case.done = share <= FINE || share > 0.5 * case.share || round == MENDS;
                case.share = share;
            }
            if pending.iter().all(|case| case.done) {
                return;
            }
        }
    }

    fn answer(&self, case: Pending) -> Result<Solution, Trouble> {
        if case.share > BALANCE {
            return Err(self.lost(&case.displacements));
        }
        Ok(Solution {
            reactions: self.reactions(&case.left),
            displacements: case.displacements,
            members: case.members,
        })
    }

    /// The loads on nodes while all of them are held: what members with loads of their own add to them.
    fn held(&self, outside: &[[f64; 6]], loads: &[Vector]) -> Vec<[f64; 6]> {
        let mut held = outside.to_vec();
        for ((bar, stiffness), &load) in self.structure.bars.iter().zip(&self.stiffnesses).zip(loads) {
            if load != [0.0; 3] {
                take_ends(&mut held, bar, &stiffness.end_forces(bar, [&[0.0; 6]; 2], load));
            }
        }
        held
    }

    fn members(&self, displacements: &[[f64; 6]], loads: &[Vector], members: &mut Vec<MemberForces>) {
        members.clear();
        let each = self.structure.bars.iter().zip(&self.stiffnesses).zip(loads);
        members.extend(each.map(|((bar, stiffness), &load)| {
            let ends = bar.ends.map(|node| &displacements[node]);
            MemberForces { ends: stiffness.end_forces(bar, ends, load), length: bar.length, load }
        }));
    }

    /// What members leave of the loads on each node.
    fn leave(&self, outside: &[[f64; 6]], members: &[MemberForces], left: &mut [[f64; 6]]) {
        left.copy_from_slice(outside);
        self.structure.bars.iter().zip(members).for_each(|(bar, member)| take_ends(left, bar, &member.ends));
    }

    /// The largest share of the members' forces by which a free node is out of balance; infinite where a number is none.
    fn imbalance(&self, left: &[[f64; 6]], members: &[MemberForces]) -> f64 {
        let (mut force, mut moment) = (f64::MIN_POSITIVE, 0.0);
        for member in members {
            let (threes, _) = member.ends.as_chunks::<3>();
            for (k, three) in threes.iter().enumerate() {
                let most = if k % 2 == 0 { &mut force } else { &mut moment };
                three.iter().for_each(|value| *most = largest(*most, *value));
            }
        }
        let mut most = [0.0; 2];
        for (rows, left) in self.structure.rows.iter().zip(left) {
            for (k, (row, value)) in rows.iter().zip(left).enumerate() {
                if row.is_some() {
                    most[k / 3] = largest(most[k / 3], *value);
                }
            }
        }
        let long = self.structure.longest;
        let shares = [most[0] / (force + moment / long), most[1] / (moment + force * long)];
        shares.into_iter().fold(0.0, largest)
    }

    /// The trouble of an answer without figures: where it moves most, a turn counting as the move it makes at
    /// the far end of the longest member.
    fn lost(&self, displacements: &[[f64; 6]]) -> Trouble {
        let size = |direction: usize, value: f64| {
            let size = value.abs() * if direction < 3 { 1.0 } else { self.structure.longest };
            if size.is_nan() { f64::INFINITY } else { size }
        };
        let mut most = (0.0, 0, 0);
        for (k, &value) in displacements.as_flattened().iter().enumerate() {
            let size = size(k % 6, value);
            if size > most.0 {
                most = (size, k / 6, k % 6);
            }
        }
        let (_, node, direction) = most;
        let why = format!(
            "Node {node} is all but free to {}: what holds it is so soft beside the rest that the sums lose their figures.",
            movement(direction)
        );
        Trouble::new(format!("nodes[{node}]"), why)
    }

    /// What members leave of the loads, where supports take it.
    fn reactions(&self, left: &[[f64; 6]]) -> Vec<Reaction> {
        let of = |support: &Support| {
            let taken = |k: usize| if support.fixed[k] { -left[support.node][k] } else { 0.0 };
            Reaction {
                node: support.node,
                force: core::array::from_fn(taken),
                moment: core::array::from_fn(|k| taken(k + 3)),
            }
        };
        self.structure.supports.iter().map(of).collect()
    }
}

/// The larger size; infinite where a number is none.
#[inline(always)]
fn largest(most: f64, value: f64) -> f64 {
    let size = value.abs();
    if size <= most {
        most
    } else if size.is_nan() {
        f64::INFINITY
    } else {
        size
    }
}

/// Sums of the even loads on each member, local.
fn on_members(case: &LoadCase, bars: &[Bar]) -> Vec<Vector> {
    let mut loads = vec![[0.0; 3]; bars.len()];
    for load in &case.members {
        let own = local(&bars[load.member].axes, load.force);
        loads[load.member].iter_mut().zip(own).for_each(|(sum, force)| *sum += force);
    }
    loads
}

/// Sums of the loads on each node.
fn on_nodes(case: &LoadCase, count: usize) -> Vec<[f64; 6]> {
    let mut loads = vec![[0.0; 6]; count];
    for load in &case.nodes {
        let both = load.force.iter().chain(&load.moment);
        loads[load.node].iter_mut().zip(both).for_each(|(sum, value)| *sum += value);
    }
    loads
}

/// Takes a member's end forces, turned into global axes, from the loads of its nodes.
fn take_ends(left: &mut [[f64; 6]], bar: &Bar, ends: &[f64; 12]) {
    let (threes, _) = ends.as_chunks::<3>();
    for (k, three) in threes.iter().enumerate() {
        let sums = &mut left[bar.ends[k / 2]][3 * (k % 2)..];
        sums.iter_mut().zip(global(&bar.axes, *three)).for_each(|(sum, value)| *sum -= value);
    }
}
