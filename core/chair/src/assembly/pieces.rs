//! The pieces of a chair seen along the lines on which they may move, and the room between them.

use crate::joint::Joint;
use crate::material::Material;
use crate::part::{Part, PartId, Role, Side};
use core::cell::{LazyCell, OnceCell, RefCell};
use crestrail_geometry::math::min;
use crestrail_geometry::{Bounds, Shade, Shadow, Solid, Vec3};
use crestrail_sorting::Order as _;
use std::collections::BTreeMap;

/// Directions whose cosine is this near to 1 are one.
const SAME: f64 = 1e-12;

/// Mirror images agree to this, mm.
const MIRRORED: f64 = 1e-6;

/// A line on which parts move, and which way along it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Way {
    pub(super) line: usize,
    pub(super) forward: bool,
}

impl Way {
    pub(super) fn back(self) -> Self {
        Self { forward: !self.forward, ..self }
    }
}

/// A joint and the two parts it holds.
pub(super) struct Held<'a> {
    pub(super) joint: &'a Joint,
    pub(super) guest: usize,
    pub(super) host: usize,
    /// Loose tenons and dowels: they lie in both.
    pub(super) dowels: Vec<usize>,
    /// Pegs and wedges, driven when the joint is home.
    pub(super) driven: Vec<Driven>,
}

/// A peg or wedge.
pub(super) struct Driven {
    pub(super) piece: usize,
    /// Unit direction in which it comes out.
    pub(super) out: Vec3,
    pub(super) length: f64,
}

/// All parts by index, in the order of their ids.
pub(super) struct Pieces<'a> {
    parts: &'a [(&'a Part, &'a Solid)],
    pub(super) joints: Vec<Held<'a>>,
    /// Unit directions: those of the chair, then of the tenons, then of all parts.
    lines: Vec<Vec3>,
    /// For each line, its mirror image.
    mirrored: Vec<Way>,
    /// For each part its mirror image, if it has one.
    twins: Vec<Option<usize>>,
    /// For each line what every part covers at most, seen along it.
    shades: Vec<OnceCell<Vec<Shade>>>,
    /// The box around each part in its own frame.
    boxes: Vec<Bounds>,
    shadows: Vec<Vec<OnceCell<Shadow<'a>>>>,
    known: RefCell<BTreeMap<Question, Answer>>,
}

/// A way, the piece that moves along it, and the piece that may stand in its way.
type Question = (Way, usize, usize);

/// What is known of the room between two pieces.
#[derive(Clone, Copy)]
enum Answer {
    /// The one never meets the other.
    Free,
    /// It does; the room is not worked out.
    Meets,
    /// The room until then, mm.
    Room(f64),
}

impl<'a> Pieces<'a> {
    pub(super) fn new(parts: &'a [(&'a Part, &'a Solid)], joints: &'a [Joint]) -> Self {
        let at = |id: PartId| parts.binary_search_by(|(part, _)| part.id.cmp(&id)).ok();
        let held = |joint: &'a Joint| {
            let pegs = joint
                .pegs
                .iter()
                .filter_map(|peg| Some(Driven { piece: at(peg.id)?, out: -peg.place.x, length: peg.length }));
            let inserts = || joint.inserts.iter().filter_map(|i| Some((at(i.id)?, i)));
            let wedges = inserts().filter(|(_, i)| i.id.role == Role::Wedge);
            let wedges = wedges.map(|(piece, i)| Driven { piece, out: i.place.x, length: i.size[0] });
            Some(Held {
                joint,
                guest: at(joint.guest)?,
                host: at(joint.host)?,
                dowels: inserts().filter(|(_, i)| i.id.role != Role::Wedge).map(|(piece, _)| piece).collect(),
                driven: pegs.chain(wedges).collect(),
            })
        };
        let mut lines = vec![Vec3::X, Vec3::Y, Vec3::Z];
        joints.iter().flat_map(|j| [j.mouth.x, j.mouth.y, j.mouth.z]).for_each(|d| add_line(&mut lines, d));
        joints.iter().flat_map(|j| &j.pegs).for_each(|peg| add_line(&mut lines, peg.place.x));
        joints.iter().flat_map(|j| &j.inserts).for_each(|insert| add_line(&mut lines, insert.place.x));
        let frames = parts.iter().map(|(part, _)| part).filter(|part| part.id.role != Role::Peg);
        frames.flat_map(|p| [p.place.x, p.place.y, p.place.z]).for_each(|d| add_line(&mut lines, d));
        // The mirror images of those found so far; they mirror each other.
        lines.clone().iter().for_each(|line| add_line(&mut lines, line.mirrored_x()));
        let mirrored = lines.iter().filter_map(|line| find(&lines, line.mirrored_x())).collect();
        let empty = || parts.iter().map(|_| OnceCell::new()).collect();
        let shadows = lines.iter().map(|_| empty()).collect();
        let shades = vec![OnceCell::new(); lines.len()];
        let boxes = parts.iter().map(|(_, solid)| solid.bounds()).collect();
        let known = RefCell::default();
        let joints = joints.iter().filter_map(held).collect();
        Self { parts, joints, lines, mirrored, twins: twins(parts), shades, boxes, shadows, known }
    }

    pub(super) fn id(&self, piece: usize) -> PartId {
        self.parts[piece].0.id
    }

    pub(super) fn direction(&self, way: Way) -> Vec3 {
        // Adding zero turns the minus zeros of a turned axis into plain ones.
        if way.forward { self.lines[way.line] } else { -self.lines[way.line] + Vec3::ZERO }
    }

    /// The way along a direction, if it is one of the lines.
    pub(super) fn way(&self, direction: Vec3) -> Option<Way> {
        find(&self.lines, direction)
    }

    /// Every way along every line.
    pub(super) fn ways(&self) -> impl Iterator<Item = Way> {
        (0..self.lines.len()).flat_map(|line| [true, false].map(|forward| Way { line, forward }))
    }

    /// All parts but those that are driven when others are home, and those that bend.
    pub(super) fn timber(&self) -> Vec<usize> {
        let driven: Vec<usize> = self.joints.iter().flat_map(|h| &h.driven).map(|d| d.piece).collect();
        let driven = self.marked(&driven);
        (0..self.parts.len()).filter(|&i| !driven[i] && !self.bends(i)).collect()
    }

    /// Parts that are woven in place: no solid movement brings them there.
    pub(super) fn woven(&self) -> Vec<usize> {
        (0..self.parts.len()).filter(|&i| self.bends(i)).collect()
    }

    fn bends(&self, piece: usize) -> bool {
        matches!(self.parts[piece].0.material, Material::Cord { .. })
    }

    /// The joints between parts of a set.
    pub(super) fn joints_within<'b>(
        &'b self,
        set: &[usize],
    ) -> impl Iterator<Item = &'b Held<'a>> + use<'a, 'b> {
        let of_set = self.marked(set);
        self.joints.iter().filter(move |held| of_set[held.guest] && of_set[held.host])
    }

    /// For each piece whether it belongs to a set.
    pub(super) fn marked(&self, set: &[usize]) -> Vec<bool> {
        let mut marked = vec![false; self.parts.len()];
        set.iter().for_each(|&piece| marked[piece] = true);
        marked
    }

    /// The parts of a set and the pegs of the joints between them, in order.
    pub(super) fn with_pegs(&self, set: &[usize]) -> Vec<usize> {
        let pegs = self.joints_within(set).flat_map(|held| held.driven.iter().map(|d| d.piece));
        let mut all: Vec<usize> = set.iter().copied().chain(pegs).collect();
        all.order();
        all
    }

    /// The three directions of a part: its length, its width and its thickness.
    pub(super) fn axes(&self, piece: usize) -> [Vec3; 3] {
        let place = self.parts[piece].0.place;
        [place.x, place.y, place.z]
    }

    /// Their ids.
    pub(super) fn ids(&self, set: &[usize]) -> Vec<PartId> {
        set.iter().map(|&i| self.id(i)).collect()
    }

    /// The mirror image of a set, if all of it has one.
    pub(super) fn mirror_image(&self, set: &[usize]) -> Option<Vec<usize>> {
        let mut image: Vec<usize> = set.iter().map(|&i| self.twins[i]).collect::<Option<_>>()?;
        image.order();
        Some(image)
    }

    /// How far a piece can move before it meets another, mm; infinite if it never does.
    pub(super) fn room(&self, way: Way, mover: usize, other: usize) -> f64 {
        let room = |a: &Shadow<'_>, b: &Shadow<'_>| match a.room(b) {
            f64::INFINITY => Answer::Free,
            room => Answer::Room(room),
        };
        match self.answer(way, mover, other, |known| !matches!(known, Answer::Meets), room) {
            Answer::Room(room) => room,
            Answer::Free | Answer::Meets => f64::INFINITY,
        }
    }

    /// Whether a piece that moves on for ever meets another: quicker to tell than the room.
    pub(super) fn meets(&self, way: Way, mover: usize, other: usize) -> bool {
        let meets = |a: &Shadow<'_>, b: &Shadow<'_>| if a.meets(b) { Answer::Meets } else { Answer::Free };
        !matches!(self.answer(way, mover, other, |_| true, meets), Answer::Free)
    }

    /// What is known of the room, if that is enough, or is then found.
    fn answer(
        &self,
        way: Way,
        mover: usize,
        other: usize,
        is_enough: impl Fn(&Answer) -> bool,
        find: impl Fn(&Shadow<'a>, &Shadow<'a>) -> Answer,
    ) -> Answer {
        // A piece that moves back is met as if the other moved forward.
        let (way, mover, other) = if way.forward { (way, mover, other) } else { (way.back(), other, mover) };
        let shades = self.shades(way.line);
        if shades[mover].misses(&shades[other]) {
            return Answer::Free;
        }
        let question = self.smaller_image((way, mover, other));
        if let Some(known) = self.known.borrow().get(&question).copied().filter(is_enough) {
            return known;
        }
        let (way, mover, other) = question;
        let found = find(self.shadow(way.line, mover), self.shadow(way.line, other));
        self.known.borrow_mut().insert(question, found);
        found
    }

    /// The same question on the other side of the chair, where that one comes first.
    fn smaller_image(&self, question: Question) -> Question {
        let (way, mover, other) = question;
        let image = self.mirrored[way.line];
        let (Some(mover), Some(other)) = (self.twins[mover], self.twins[other]) else { return question };
        let image = if image.forward { (image, mover, other) } else { (image.back(), other, mover) };
        question.min(image)
    }

    /// How far a loose tenon or dowel reaches into the host of its joint, and into the guest, mm.
    pub(super) fn reach(&self, held: &Held<'_>, dowel: usize) -> [f64; 2] {
        let (part, solid) = self.parts[dowel];
        let heights = solid.vertices.iter().map(|&v| held.joint.face.distance(part.place.point(v)));
        heights.fold([0.0, 0.0], |[host, guest], h| [host.max(-h), guest.max(h)])
    }

    /// Length of a piece along a line, mm.
    pub(super) fn length(&self, line: usize, piece: usize) -> f64 {
        self.shadow(line, piece).length()
    }

    /// How far all movers can move together before one of them meets one of the others, mm.
    pub(super) fn clear(&self, way: Way, movers: &[usize], others: &[usize]) -> f64 {
        let pairs = movers.iter().flat_map(|&m| others.iter().map(move |&o| (m, o)));
        pairs.map(|(mover, other)| self.room(way, mover, other)).fold(f64::INFINITY, min)
    }

    /// Whether a piece can move for ever past the others.
    pub(super) fn is_free(&self, way: Way, mover: usize, others: &[usize]) -> bool {
        others.iter().all(|&other| !self.meets(way, mover, other))
    }

    /// Whether pieces that were first moved by `start` can move on for ever past the others.
    pub(super) fn leaves(&self, start: Vec3, way: Way, movers: &[usize], others: &[usize]) -> bool {
        let (along, shades) = (self.lines[way.line], self.shades(way.line));
        movers.iter().all(|&i| {
            let place = self.parts[i].0.place.moved(start);
            let shade = Shade::of(&self.boxes[i], &place, along);
            let mover = LazyCell::new(|| Shadow::of(self.parts[i].1, &place, along));
            // What moves back is met as if the other moved forward.
            let misses =
                |o: usize| if way.forward { shade.misses(&shades[o]) } else { shades[o].misses(&shade) };
            let meets = |o: usize| {
                let other = self.shadow(way.line, o);
                if way.forward { mover.meets(other) } else { other.meets(&mover) }
            };
            others.iter().all(|&o| misses(o) || !meets(o))
        })
    }

    fn shades(&self, line: usize) -> &[Shade] {
        self.shades[line].get_or_init(|| {
            let parts = self.parts.iter().zip(&self.boxes);
            parts.map(|((part, _), own)| Shade::of(own, &part.place, self.lines[line])).collect()
        })
    }

    fn shadow(&self, line: usize, piece: usize) -> &Shadow<'a> {
        self.shadows[line][piece].get_or_init(|| {
            let (part, solid) = self.parts[piece];
            Shadow::of(solid, &part.place, self.lines[line])
        })
    }
}

fn find(lines: &[Vec3], direction: Vec3) -> Option<Way> {
    let line = lines.iter().position(|line| line.dot(direction).abs() > 1.0 - SAME)?;
    Some(Way { line, forward: lines[line].dot(direction) > 0.0 })
}

fn add_line(lines: &mut Vec<Vec3>, direction: Vec3) {
    if find(lines, direction).is_none() {
        lines.push(direction);
    }
}

/// For each part its mirror image, if it has one: a peg in the middle that is driven from the right has none.
fn twins(parts: &[(&Part, &Solid)]) -> Vec<Option<usize>> {
    let twin = |(part, solid): &(&Part, &Solid)| {
        let at = parts.binary_search_by(|(other, _)| other.id.cmp(&part.id.mirrored())).ok()?;
        let (other, other_solid) = parts[at];
        let alike = match part.id.side {
            Side::Middle => is_even(part, solid),
            _ => core::ptr::eq(*solid, other_solid) && stand_alike(part, other),
        };
        alike.then_some(at)
    };
    parts.iter().map(twin).collect()
}

fn stand_alike(part: &Part, twin: &Part) -> bool {
    let (a, b) = (part.place.mirrored_x(), twin.place);
    [(a.origin, b.origin), (a.x, b.x), (a.y, b.y), (a.z, b.z)]
        .iter()
        .all(|(a, b)| (*a - *b).length() < MIRRORED)
}

/// Whether the corners of a middle part lie evenly about the middle plane, told by their odd moments.
fn is_even(part: &Part, solid: &Solid) -> bool {
    let mut odd = [0.0; 4];
    for &v in &solid.vertices {
        let p = part.place.point(v) / 100.0;
        let terms = [p.x, p.x * p.y, p.x * p.z, p.x * p.x * p.x];
        odd.iter_mut().zip(terms).for_each(|(sum, term)| *sum += term);
    }
    odd.iter().all(|sum| sum.abs() < MIRRORED * solid.vertices.len() as f64)
}
