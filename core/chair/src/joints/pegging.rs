//! Pegs: where they go so that they hold the tenon and miss everything else.

use super::draft::Draft;
use super::rules;
use super::shape::round;
use super::space::Space;
use crate::choices::{PegWay, Pegs};
use crate::design::Design;
use crate::joint::{Peg, PegShape};
use crate::part::{PartId, Role, Side};
use crestrail_geometry::{Body, Exit, Place, Plane, Vec3};

/// Timber kept between a peg's hole and the next tenon, mm (common practice, no source).
const CLEAR: f64 = 0.6;

/// Timber between two pegs staggered along a leg, mm (common practice, no source).
const STAGGER: f64 = 2.0;

/// Points around a peg's section at which the host's surface is felt, in halves of its size.
const AROUND: [(f64, f64); 8] =
    [(1.0, 0.0), (1.0, 1.0), (0.0, 1.0), (-1.0, 1.0), (-1.0, 0.0), (-1.0, -1.0), (0.0, -1.0), (1.0, -1.0)];

/// A surface this even under a peg counts as flat, mm.
const FLAT: f64 = 1e-6;

/// What a curved surface may bulge between the points felt, mm.
const CURVE_ALLOWANCE: f64 = 0.05;

/// A peg with the space its hole takes.
type Placed = (Peg, Space);

/// Pegs of each draft, in the same order. Where no place is free the joint stays without.
pub(super) fn pegs(design: &Design, drafts: &[Draft<'_>]) -> Vec<Vec<Peg>> {
    let shape = match design.pegs() {
        Pegs::None => return vec![Vec::new(); drafts.len()],
        Pegs::Round => PegShape::Round,
        Pegs::Square => PegShape::Square,
    };
    let draw = if design.peg_way() == PegWay::Drawn { design.draw() } else { 0.0 };
    let cut = |draft: &Draft<'_>| draft.tenon_spaces().chain(draft.haunch_space()).collect();
    let cuts: Vec<Vec<Space>> = drafts.iter().map(cut).collect();
    let mut taken: Vec<(PartId, Space)> = Vec::new();
    let mut all = Vec::new();
    let mut number = 0;
    for draft in drafts {
        let pegging = Pegging { draft, drafts, cuts: &cuts, size: design.peg_size(), shape, draw };
        let placed = pegging.pegs(&taken, &mut number);
        for (_, space) in &placed {
            let host = draft.site.host.id;
            taken.extend(draft.has_twin().then(|| (host, space.mirrored_x())));
            taken.push((host, space.clone()));
        }
        all.push(placed.into_iter().map(|(peg, _)| peg).collect());
    }
    all
}

struct Pegging<'a> {
    draft: &'a Draft<'a>,
    drafts: &'a [Draft<'a>],
    /// What tenon and haunch of each draft take of its host.
    cuts: &'a [Vec<Space>],
    size: f64,
    shape: PegShape,
    draw: f64,
}

impl Pegging<'_> {
    fn pegs(&self, taken: &[(PartId, Space)], number: &mut u16) -> Vec<Placed> {
        let wish = rules::peg_from_face(self.draft.middle_length(), self.size);
        let Some(wish) = wish.filter(|_| self.draft.site.pegged && self.draft.kind.can_be_pegged()) else {
            return Vec::new();
        };
        let host = self.draft.site.host.id;
        let mut taken: Vec<Space> =
            taken.iter().filter(|(id, _)| *id == host).map(|(_, space)| space.clone()).collect();
        let mut pegs: Vec<Placed> = Vec::new();
        for from_middle in self.across() {
            let free = self.tries(wish, from_middle).find_map(|(from_face, from_middle)| {
                self.peg(from_face, from_middle, *number + 1).filter(|placed| self.is_free(placed, &taken))
            });
            if let Some(placed) = free {
                *number += 1;
                taken.push(placed.1.clone());
                pegs.push(placed);
            }
        }
        pegs
    }

    /// Middles of the pegs: one or two across a tenon, one in each of twin tenons.
    fn across(&self) -> Vec<f64> {
        let at_shoulder = self.draft.tongues.iter().filter(|t| t.from == 0.0);
        let wide_enough = at_shoulder.filter(|t| t.width() >= 2.0 * self.size).collect::<Vec<_>>();
        match wide_enough.as_slice() {
            [] => Vec::new(),
            [one] => rules::pegs_across(one.width(), self.size).iter().map(|m| one.middle() + m).collect(),
            twins => twins.iter().map(|t| t.middle()).collect(),
        }
    }

    /// Places to try: the rule's first, then staggered along the tenon's width, then nearer the
    /// shoulder and farther from it.
    fn tries(&self, wish: f64, middle: f64) -> impl Iterator<Item = (f64, f64)> {
        let least = 1.5 * self.size;
        let most = self.draft.middle_length() - 1.2 * self.size;
        let stagger = [0.0, -1.0, 1.0].map(|k| middle + k * (self.size + STAGGER));
        let shifts = (0..=6).flat_map(|i| [-f64::from(i), f64::from(i)]);
        shifts
            .map(move |shift| wish + shift)
            .filter(move |d| (least..=most).contains(d))
            .flat_map(move |d| stagger.map(|m| (d, m)))
            .filter(move |(d, m)| self.is_held(*d, *m))
    }

    /// Whether one tongue holds all of the peg, with timber towards its end and its edges.
    fn is_held(&self, from_face: f64, from_middle: f64) -> bool {
        let margin = 1.2 * self.size;
        self.draft.tongues.iter().any(|t| {
            let edge = (t.width() / 2.0 - margin).max(0.0);
            let starts = t.from == 0.0 || from_face >= t.from;
            starts
                && from_face <= self.draft.mean(t) - margin + 1e-9
                && (from_middle - t.middle()).abs() <= edge + 1e-9
        })
    }

    fn peg(&self, from_face: f64, from_middle: f64, number: u16) -> Option<Placed> {
        let mouth = self.draft.mouth;
        let out = mouth.z * self.draft.site.peg_side.dot(mouth.z).signum();
        let on_tenon = mouth.point(Vec3::new(from_face, from_middle, 0.0));
        let surface = self.surface(on_tenon, out)?;
        let beyond = self.draft.site.host.exit(on_tenon, -out)?.distance;
        let inner = (self.draft.cutter / 2.0 + rules::PEG_BEYOND).min(beyond - rules::NO_WALL);
        let place = Place::new(on_tenon + out * surface.distance, -out, mouth.y);
        let length = surface.distance + inner;
        let (body, hole) = self.bodies(&place, &surface, length);
        let half = self.size / 2.0;
        let space = Space::boxed(&place, Vec3::new(0.0, -half, -half), Vec3::new(length, half, half));
        let site = &self.draft.site;
        let middle = site.host.id.side == Side::Middle && site.guest.id.side == Side::Middle;
        let side = if middle { Side::Middle } else { Side::Right };
        let id = PartId { role: Role::Peg, side, number };
        let (shape, draw) = (self.shape, self.draw);
        let peg = Peg { id, size: self.size, shape, from_face, from_middle, draw, place, length, body, hole };
        (inner > 0.0).then_some((peg, space))
    }

    /// Where the peg comes out of its host. On a curved face it is cut off at the lowest point around
    /// its section, so that it nowhere stands proud.
    fn surface(&self, on_tenon: Vec3, out: Vec3) -> Option<Exit> {
        let host = self.draft.site.host;
        let centre = host.exit(on_tenon, out)?;
        let half = self.size / 2.0;
        let mouth = self.draft.mouth;
        let mut sunk = 0.0_f64;
        for (x, y) in AROUND {
            let edge = on_tenon + mouth.x * (x * half) + mouth.y * (y * half);
            let flush = centre.face.meet(edge, out).map(|p| (p - edge).dot(out))?;
            sunk = sunk.max(flush - host.exit(edge, out)?.distance);
        }
        if sunk < FLAT {
            return Some(centre);
        }
        let sunk = sunk + CURVE_ALLOWANCE;
        Some(Exit {
            distance: centre.distance - sunk,
            face: centre.face.moved(-sunk * centre.face.normal.dot(out)),
        })
    }

    /// The peg, cut off flush with the host's face, and its hole, open beyond that face.
    fn bodies(&self, place: &Place, surface: &Exit, length: f64) -> (Body, Body) {
        let end = |at: f64| place.plane(&Plane { normal: Vec3::X, offset: at });
        let mut peg = self.sides(place, 0.0);
        peg.extend([end(length), surface.face]);
        let mut hole = self.sides(place, rules::PEG_PLAY);
        hole.extend([end(length + rules::PEG_BOTTOM), surface.face.moved(self.size)]);
        (Body::Convex(peg), Body::Convex(hole))
    }

    fn sides(&self, place: &Place, play: f64) -> Vec<Plane> {
        if self.shape == PegShape::Round {
            return round(place, self.size, play);
        }
        let flat = |normal: Vec3| place.plane(&Plane { normal, offset: self.size / 2.0 + play });
        [Vec3::Y, Vec3::Z, -Vec3::Y, -Vec3::Z].map(flat).into()
    }

    /// Whether a hole misses every other tenon, haunch and peg in the same host, and what is cut out of the guest; `taken` is
    /// what pegs take of the host.
    fn is_free(&self, (_, space): &Placed, taken: &[Space]) -> bool {
        let host = self.draft.site.host.id;
        let clear = |other: &Space| space.clear_of(other, CLEAR);
        let in_host = |d: &Draft<'_>| d.site.host.id == host && !core::ptr::eq(d, self.draft);
        let mut others = self.drafts.iter().zip(self.cuts).filter(|(d, _)| in_host(d));
        let tenons_clear = others.all(|(d, cuts)| {
            cuts.iter().all(|other| clear(other) && (!d.has_twin() || clear(&other.mirrored_x())))
        });
        let own_twin = !self.draft.has_twin()
            || self.draft.tenon_spaces().chain([space.clone()]).all(|other| clear(&other.mirrored_x()));
        let loose = self.drafts.iter().filter(|d| d.site.guest.id == host);
        let loose_clear = loose.filter_map(Draft::guest_space).all(|other| clear(&other));
        tenons_clear && own_twin && loose_clear && taken.iter().all(clear)
    }
}
