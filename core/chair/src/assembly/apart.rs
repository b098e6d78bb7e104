//! Takes a chair apart and writes down, the other way round, how it goes together.

use super::loose::{Lifted, lift_off};
use super::pieces::{Driven, Held, Pieces, Way};
use super::split::Split;
use super::{Assembly, Blocked, Move, Step, Task, blame, travel};
use crate::part::{PartId, Side};
use crestrail_geometry::{Place, Vec3};
use crestrail_sorting::Order as _;

/// A way that is not free for ever must be free for this much more than the tenons need, mm.
const SPARE: f64 = 10.0;

/// The work of taking apart.
pub(super) struct Apart<'p, 'a> {
    pieces: &'p Pieces<'a>,
    steps: Vec<Step>,
    blocked: Option<Blocked>,
}

/// A set drawn apart along a line, with the moves that join it again.
struct Drawn {
    split: Split,
    moves: Vec<Move>,
}

impl<'p, 'a> Apart<'p, 'a> {
    pub(super) fn new(pieces: &'p Pieces<'a>) -> Self {
        Self { pieces, steps: Vec::new(), blocked: None }
    }

    pub(super) fn finish(self) -> Assembly {
        Assembly { steps: self.steps, blocked: self.blocked }
    }

    /// Adds the steps that put a set of parts together.
    pub(super) fn put_together(&mut self, set: &[usize]) {
        let (core, lifted) = lift_off(self.pieces, set);
        self.join(&core);
        for layer in lifted.iter().rev() {
            let laid = self.laid(layer);
            self.step(Task::Lay, laid);
        }
    }

    /// Parts that hold each other by joints: first their groups, then these joined, then pegged.
    fn join(&mut self, set: &[usize]) {
        if set.len() < 2 {
            return;
        }
        let Some(drawn) = self.draw_apart(set) else {
            let blocked = blame::blocked(self.pieces, set);
            self.blocked.get_or_insert(blocked);
            return;
        };
        let groups: Vec<&Vec<usize>> = drawn.split.groups().collect();
        groups.iter().for_each(|group| self.group(group, &groups));
        self.step(Task::Join, drawn.moves);
        self.peg(set, &drawn.split);
    }

    /// Adds the steps of a group; of two that mirror each other both are made in the same steps.
    fn group(&mut self, group: &[usize], all: &[&Vec<usize>]) {
        let image = self.pieces.mirror_image(group);
        let twin = image.filter(|image| image != group && all.contains(&image));
        let on_the_right =
            |set: &[usize]| set.iter().filter(|&&i| self.pieces.id(i).side == Side::Right).count();
        if twin.as_ref().is_some_and(|twin| (on_the_right(twin), group) > (on_the_right(group), twin)) {
            return;
        }
        let first = self.steps.len();
        self.put_together(group);
        if twin.is_some() {
            for step in &mut self.steps[first..] {
                let mirrored: Vec<Move> = step.moves.iter().map(Move::mirrored).collect();
                step.moves.extend(mirrored);
            }
        }
    }

    fn step(&mut self, task: Task, moves: Vec<Move>) {
        if !moves.is_empty() {
            self.steps.push(Step { number: self.steps.len() + 1, task, moves });
        }
    }

    /// The first line along which the set comes apart: of the chair's axes, then of its own tenons.
    /// Lines along which parts leave for ever come before those that only free the tenons.
    fn draw_apart(&self, set: &[usize]) -> Option<Drawn> {
        let axes = [0, 1, 2].map(|line| Way { line, forward: true });
        // Along the tenons; then along their sides and the parts, for panels and others in grooves.
        let mouths: Vec<Place> = self.pieces.joints_within(set).map(|h| h.joint.mouth).collect();
        let along = mouths.iter().map(|m| m.x).chain(mouths.iter().flat_map(|m| [m.y, m.z]));
        let along = along.chain(set.iter().flat_map(|&piece| self.pieces.axes(piece)));
        let own = along.filter_map(|direction| self.pieces.way(direction));
        let mut ways: Vec<Way> =
            axes.into_iter().chain(own.map(|way| Way { forward: true, ..way })).collect();
        let mut seen = Vec::new();
        ways.retain(|way| {
            !seen.contains(way) && {
                seen.push(*way);
                true
            }
        });
        let endless = ways.iter().find_map(|&way| self.draw_along(set, way, f64::INFINITY));
        endless.or_else(|| ways.iter().find_map(|&way| self.draw_along(set, way, self.freeing(set, way))))
    }

    /// Travel that frees all tenons of a set which go along a way, mm.
    fn freeing(&self, set: &[usize], way: Way) -> f64 {
        let direction = self.pieces.direction(way);
        let along = self
            .pieces
            .joints_within(set)
            .filter(|h| self.pieces.way(h.joint.mouth.x).is_some_and(|w| w.line == way.line));
        along.map(|held| travel::of_joint(held.joint, direction)).fold(0.0, f64::max) + SPARE
    }

    /// The set drawn apart along a line, if parts that need to be free as far as `needed` come apart
    /// along it, and each that is not free for ever then gets away another way.
    fn draw_along(&self, set: &[usize], way: Way, needed: f64) -> Option<Drawn> {
        let joined = self.pieces.joints_within(set).map(|held| (held.guest, held.host));
        let split = match needed {
            f64::INFINITY => Split::of(set, joined, |a, b| self.pieces.meets(way, a, b)),
            needed => Split::of(set, joined, |a, b| self.pieces.room(way, a, b) < needed),
        }?;
        let mut standing = self.with_own_pegs(&split.middle);
        let mut moves = Vec::new();
        for (side, off) in [(&split.ahead, way), (&split.behind, way.back())] {
            for (rank, groups) in (1..).zip(side) {
                let movers = self.with_own_pegs(groups);
                let by = travel::between(self.pieces, &movers, &standing, self.pieces.direction(off));
                moves.push(Move { rank, ..self.moved(&movers, &standing, off, by)? });
                standing.extend(movers);
                standing.order();
            }
        }
        Some(Drawn { split, moves })
    }

    /// Groups with the pegs that each of them has in itself.
    fn with_own_pegs(&self, groups: &[Vec<usize>]) -> Vec<usize> {
        let mut all: Vec<usize> = groups.iter().flat_map(|group| self.pieces.with_pegs(group)).collect();
        all.order();
        all
    }

    /// The move that brings in what comes off along `off`; nothing where it cannot come off.
    fn moved(&self, movers: &[usize], standing: &[usize], off: Way, by: f64) -> Option<Move> {
        let clear = self.pieces.clear(off, movers, standing);
        let mut by = by;
        let mut then = None;
        if clear < by + SPARE {
            return None;
        }
        if clear < f64::INFINITY {
            by += SPARE / 2.0;
            let start = self.pieces.direction(off) * by;
            then = Some(self.pieces.ways().find(|&then| self.pieces.leaves(start, then, movers, standing))?);
        }
        Some(Move {
            goes_in: self.pieces.ids(movers),
            into: self.pieces.ids(standing),
            direction: self.pieces.direction(off.back()),
            by,
            clear,
            before: then.map(|then| self.pieces.direction(then.back())),
            rank: 1,
        })
    }

    /// Drives the pegs of the joints between the groups of a set.
    fn peg(&mut self, set: &[usize], split: &Split) {
        let within = |held: &Held<'_>| {
            split.groups().any(|group| group.contains(&held.guest) && group.contains(&held.host))
        };
        let standing = self.pieces.with_pegs(set);
        let mut moves: Vec<Move> = Vec::new();
        for held in self.pieces.joints_within(set).filter(|held| !within(held)) {
            for &Driven { piece: peg, out, length } in &held.driven {
                let others: Vec<usize> = standing.iter().copied().filter(|&i| i != peg).collect();
                let off = self.pieces.way(out);
                match off.and_then(|off| self.moved(&[peg], &others, off, length)) {
                    Some(driven) => add_peg(&mut moves, driven),
                    None => drop(self.blocked.get_or_insert_with(|| blame::peg(self.pieces, peg, held))),
                }
            }
        }
        // Each goes in where those before are and those after are not; tried it was with all in place.
        let mut later: Vec<PartId> = Vec::new();
        for m in moves.iter_mut().rev() {
            later.extend(&m.goes_in);
            m.into.retain(|id| !later.contains(id));
        }
        self.step(Task::Peg, moves);
    }

    /// Weaves what is woven, round all the rest.
    pub(super) fn weave(&mut self) {
        let (woven, timber) = (self.pieces.woven(), self.pieces.timber());
        if woven.is_empty() {
            return;
        }
        let direction = -Vec3::Z;
        let (goes_in, into) = (self.pieces.ids(&woven), self.pieces.ids(&self.pieces.with_pegs(&timber)));
        let woven = Move { goes_in, into, direction, by: 0.0, clear: 0.0, before: None, rank: 1 };
        self.step(Task::Weave, vec![woven]);
    }

    fn laid(&self, lifted: &Lifted) -> Vec<Move> {
        let mut standing = self.pieces.with_pegs(&lifted.rest);
        let mut moves = Vec::new();
        for (leave, parts) in lifted.alike.iter().rev() {
            let clear = self.pieces.clear(leave.way, parts, &standing);
            let own = parts.iter().map(|&p| self.pieces.length(leave.way.line, p)).fold(0.0, f64::max);
            moves.push(Move {
                goes_in: self.pieces.ids(parts),
                into: self.pieces.ids(&standing),
                direction: self.pieces.direction(leave.way.back()),
                by: leave.corner.map_or(own, |(rise, _)| rise),
                clear,
                before: leave.corner.map(|(_, then)| self.pieces.direction(then.back())),
                rank: 1,
            });
            standing.extend(parts);
            standing.order();
        }
        moves
    }
}

/// Pegs that are driven the same way are one move.
fn add_peg(moves: &mut Vec<Move>, driven: Move) {
    let same = |m: &&mut Move| m.direction == driven.direction && m.before == driven.before;
    match moves.iter_mut().find(same) {
        Some(all) => {
            all.goes_in.extend(driven.goes_in);
            all.goes_in.order();
            all.by = all.by.max(driven.by);
            all.clear = all.clear.min(driven.clear);
        }
        None => moves.push(driven),
    }
}
