//! The bodies of a joint: what is added to the guest, what is cut out of host and guest, and what is a part of its own.

use super::draft::Draft;
use super::rules;
use super::wedging;
use crate::joint::{Insert, Kind, Tongue};
use crate::part::{PartId, Role, Side};
use crestrail_geometry::math::{PI, cos, sin, tan};
use crestrail_geometry::{Body, Place, Plane, Vec3};

/// Sides of the many-sided figure that stands for a round peg, a dowel and their holes alike.
const ROUND_SIDES: usize = 16;

/// The sides of a round thing about the x axis of `place`: a figure of the circle's own area, so that volumes are
/// true, grown by `play`.
pub(super) fn round(place: &Place, diameter: f64, play: f64) -> Vec<Plane> {
    let n = ROUND_SIDES as f64;
    let apothem = diameter / 2.0 * (PI / (n * tan(PI / n))).sqrt();
    let turn = |i: usize| 2.0 * PI * i as f64 / n;
    let side =
        |i: usize| Plane { normal: Vec3::new(0.0, cos(turn(i)), sin(turn(i))), offset: apothem + play };
    (0..ROUND_SIDES).map(|i| place.plane(&side(i))).collect()
}

/// Numbers of the inserts of a chair, counted for each role.
#[derive(Default)]
pub(super) struct Numbers {
    loose: u16,
    dowels: u16,
    wedges: u16,
}

impl Numbers {
    fn next(&mut self, role: Role) -> u16 {
        let number = match role {
            Role::LooseTenon => &mut self.loose,
            Role::Dowel => &mut self.dowels,
            _ => &mut self.wedges,
        };
        *number += 1;
        *number
    }
}

impl Draft<'_> {
    /// The tenon from its shoulder to its end, and its haunch.
    pub(super) fn tenon_bodies(&self) -> Vec<Body> {
        if self.kind.is_separate() {
            return Vec::new();
        }
        let haunch = self.haunch.map(|h| Body::Convex(self.haunch_planes(h, 0.0, 0.0, self.site.face)));
        self.tongues.iter().map(|t| Body::Convex(self.tongue_planes(t))).chain(haunch).collect()
    }

    /// The space cut out of the host.
    pub(super) fn mortise_bodies(&self) -> Vec<Body> {
        let mouth_of_haunch = self.side(-Vec3::X, self.lead());
        let haunch = self
            .haunch
            .map(|h| Body::Convex(self.haunch_planes(h, self.play(), self.glue_gap, mouth_of_haunch)));
        self.tongues.iter().map(|t| self.hole(t)).chain(haunch).collect()
    }

    fn hole(&self, t: &Tongue) -> Body {
        let out = self.far.filter(|_| t.to + 1e-6 >= self.length()).map(|_| t.to + 2.0 * self.lead() + 5.0);
        let depth =
            out.unwrap_or(t.to + self.end_room().max(if t.to < self.length() { BEHIND_STUB } else { 0.0 }));
        if self.kind == Kind::Dowels {
            return self.drilled(t, -self.lead(), depth, rules::PEG_PLAY);
        }
        let low = Vec3::new(-self.lead(), t.y[0] - self.play(), -self.cutter / 2.0);
        Body::cuboid(&self.mouth, low, Vec3::new(depth, t.y[1] + self.play(), self.cutter / 2.0))
    }

    /// A round thing or hole along a dowel.
    fn drilled(&self, t: &Tongue, from: f64, to: f64, play: f64) -> Body {
        let place = self.mouth.moved(self.mouth.y * t.middle());
        let mut planes = round(&place, t.width(), play);
        planes.extend(
            [Plane { normal: Vec3::X, offset: to }, Plane { normal: -Vec3::X, offset: -from }]
                .map(|p| place.plane(&p)),
        );
        Body::Convex(planes)
    }

    /// What is cut out of the guest.
    pub(super) fn guest_cuts(&self) -> Vec<Body> {
        let end = -self.into_guest - self.end_room();
        match self.kind {
            Kind::Through => wedging::wedges(self).into_iter().map(|w| w.slot).collect(),
            Kind::Dowels => {
                self.tongues.iter().map(|t| self.drilled(t, end, self.lead(), rules::PEG_PLAY)).collect()
            }
            Kind::Loose => self.tongues.iter().map(|t| self.loose_hole(t, end)).collect(),
            Kind::Blind | Kind::Haunched | Kind::BareFaced | Kind::Twin => Vec::new(),
        }
    }

    fn loose_hole(&self, t: &Tongue, end: f64) -> Body {
        let low = Vec3::new(end, t.y[0] - self.play(), -self.cutter / 2.0);
        Body::cuboid(&self.mouth, low, Vec3::new(self.lead(), t.y[1] + self.play(), self.cutter / 2.0))
    }

    /// Loose tenons, dowels and wedges.
    pub(super) fn inserts(&self, numbers: &mut Numbers) -> Vec<Insert> {
        let side = if self.in_the_middle() { Side::Middle } else { Side::Right };
        let mut made = |role: Role, place: Place, size: [f64; 3], body: Body| {
            let id = PartId { role, side, number: numbers.next(role) };
            Insert { id, place, size, body }
        };
        let tongues = self.tongues.iter();
        match self.kind {
            Kind::Through => {
                let wedges = wedging::wedges(self).into_iter();
                wedges.map(|w| made(Role::Wedge, w.place, w.size, w.body)).collect()
            }
            Kind::Loose => {
                let Some(first) = self.tongues.first() else { return Vec::new() };
                vec![made(Role::LooseTenon, self.own_place(first), self.own_size(), self.loose_body(first))]
            }
            Kind::Dowels => tongues
                .map(|t| {
                    let size = [t.to + self.into_guest, t.width(), t.width()];
                    made(Role::Dowel, self.own_place(t), size, self.drilled(t, -self.into_guest, t.to, 0.0))
                })
                .collect(),
            Kind::Blind | Kind::Haunched | Kind::BareFaced | Kind::Twin => Vec::new(),
        }
    }

    fn own_place(&self, t: &Tongue) -> Place {
        self.mouth.moved(self.mouth.y * t.middle() - self.mouth.x * self.into_guest)
    }

    fn own_size(&self) -> [f64; 3] {
        [self.length() + self.into_guest, self.width(), 2.0 * self.half()]
    }

    /// One convex body: a loose tenon is not halved past another, only mitred or shortened.
    fn loose_body(&self, t: &Tongue) -> Body {
        let mut planes = self.tongue_planes(t);
        planes.retain(|plane| *plane != self.site.face);
        planes.push(self.side(-Vec3::X, self.into_guest));
        Body::Convex(planes)
    }
}

/// Room behind the stub of a tenon that is halved past another, mm: its mortise opens into the other's.
const BEHIND_STUB: f64 = 1.5;
