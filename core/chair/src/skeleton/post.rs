//! Posts: where a leg stands and which planes its faces lie in.

use crate::choices::LegShape;
use crate::design::Design;
use crate::settle::Settling;
use crestrail_geometry::math::{cos, tan};
use crestrail_geometry::{Place, Plane, Vec3};
use crestrail_phrases::phrase;

/// The four faces of a leg, named as they look in the chair.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Facing {
    /// Towards negative x.
    Left,
    /// Towards positive x.
    Right,
    /// Towards negative y.
    Front,
    /// Towards positive y.
    Back,
}

/// The two zones of a leg: faces may differ below and at the rails.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Zone {
    /// Where stretchers join.
    Below,
    /// Where the seat rails join.
    Rails,
}

/// A leg of the right half or in the middle, before its timber is known.
#[derive(Clone, Debug)]
pub struct Post {
    /// A frame on the leg's axis: origin on the floor, x up along the leg, y forwards, z to the right.
    /// For a leg sawn from a plank, x runs straight up in the plank's plane.
    pub place: Place,
    /// Size across x (side to side) and along y (front to back) where the rails join, mm.
    pub across: f64,
    /// See `across`.
    pub deep: f64,
    faces: [[Plane; 2]; 4],
    /// The side of the foot as a share of the leg's, for a leg that tapers on its inner faces; and how
    /// high above the floor, along the leg, the taper begins.
    pub taper: Option<(f64, f64)>,
}

impl Post {
    /// The plane of a face in chair space, its normal pointing out of the leg.
    pub fn face(&self, facing: Facing, zone: Zone) -> Plane {
        self.faces[facing as usize][zone as usize]
    }

    /// The point of the axis at a height above the floor.
    pub fn axis_at(&self, height: f64) -> Vec3 {
        self.place.origin + self.place.x * (height / self.place.x.z)
    }

    /// The same leg on the other side.
    pub fn mirrored(&self) -> Self {
        let swap = |facing: Facing| self.faces[facing as usize].map(|p| p.mirrored_x());
        Self {
            place: self.place.mirrored_x(),
            faces: [swap(Facing::Right), swap(Facing::Left), swap(Facing::Front), swap(Facing::Back)],
            ..self.clone()
        }
    }

    /// The four long faces at the rails, and the two that taper where there are any.
    pub fn long_faces(&self) -> Vec<Plane> {
        let all = [Facing::Left, Facing::Right, Facing::Front, Facing::Back];
        let both = all.iter().flat_map(|&f| {
            let (below, rails) = (self.face(f, Zone::Below), self.face(f, Zone::Rails));
            [Some(rails), (below != rails).then_some(below)]
        });
        both.flatten().collect()
    }

    /// A leg sawn from a plank whose plane leans sideways: `place` in the plank's middle, with faces
    /// to left and right `thickness` apart; the faces in front and behind come from its outline.
    pub(super) fn sawn(place: Place, thickness: f64, deep: f64, front: [Plane; 2], back: [Plane; 2]) -> Self {
        let side = |normal: Vec3| place.plane(&Plane { normal, offset: thickness / 2.0 });
        let (left, right) = (side(-Vec3::Z), side(Vec3::Z));
        Self { place, across: thickness, deep, faces: [[left; 2], [right; 2], front, back], taper: None }
    }
}

/// A straight square leg.
#[derive(Clone, Copy, Debug)]
pub(super) struct Square {
    /// Side, mm.
    pub(super) side: f64,
    /// Tangent of the lean sideways: positive where the foot stands farther to the right.
    pub(super) sideways: f64,
    /// Tangent of the lean in depth: positive where the foot stands farther in front.
    pub(super) forwards: f64,
    /// Which faces run in towards the foot: to the middle, and to the leg behind or in front.
    pub(super) tapered: [Option<Facing>; 2],
}

impl Square {
    /// The leg whose axis passes through `at`, in a design that may taper it below `from`.
    pub(super) fn post(&self, design: &Design, at: Vec3, from: f64) -> Post {
        let up = Vec3::new(-self.sideways, self.forwards, 1.0).unit();
        let place = Place::new(at - up * (at.z / up.z), up, -Vec3::Y);
        let face = |normal: Vec3| place.plane(&Plane { normal, offset: self.side / 2.0 });
        let plain = [face(-Vec3::Z), face(Vec3::Z), face(Vec3::Y), face(-Vec3::Y)];
        let mut post =
            Post { place, across: self.side, deep: self.side, faces: plain.map(|p| [p; 2]), taper: None };
        if design.leg_shape() == LegShape::Tapered {
            post.taper(self, design.leg_foot() / 100.0, from / up.z);
        }
        post
    }

    /// How far the axis of such a leg lies from a face that stands `at` in the level of measuring.
    pub(super) fn half_across(&self) -> f64 {
        self.side / 2.0 * (1.0 + self.sideways * self.sideways).sqrt()
    }

    /// See [`Square::half_across`].
    pub(super) fn half_deep(&self) -> f64 {
        self.side / 2.0 * (1.0 + self.forwards * self.forwards).sqrt()
    }
}

impl Post {
    fn taper(&mut self, square: &Square, share: f64, from: f64) {
        let slope = square.side * (1.0 - share) / from;
        for facing in square.tapered.into_iter().flatten() {
            let plain = self.face(facing, Zone::Rails);
            let out = self.place.local_direction(plain.normal);
            let start = out * (square.side / 2.0) + Vec3::X * from;
            // Going down by one the face comes in by the slope.
            let tapered = Plane::through(start, out - Vec3::X * slope);
            self.faces[facing as usize][Zone::Below as usize] = self.place.plane(&tapered);
        }
        self.taper = Some((share, from));
    }
}

/// The tangents of the two splays of a front leg; only the outer legs spread sideways.
pub(super) fn splay(design: &Design, outer: bool) -> (f64, f64) {
    use crestrail_geometry::math::radians;
    let sideways = if outer { tan(radians(design.splay())) } else { 0.0 };
    (sideways, tan(radians(design.front_splay())))
}

/// A plank's plane that leans sideways by `sideways`: its frame has x up, y forwards, z to the right.
/// `outer` is a point of its right face.
pub(super) fn plank(outer: Vec3, thickness: f64, sideways: f64) -> Place {
    let lean = crestrail_geometry::math::atan2(sideways, 1.0);
    let up = Vec3::new(-crestrail_geometry::math::sin(lean), 0.0, cos(lean));
    let middle = outer - up.cross(-Vec3::Y) * (thickness / 2.0);
    Place::new(middle - up * (middle.z / up.z), up, -Vec3::Y)
}

/// The chamfer that a leg has room for: the rails behind its faces must keep a flat shoulder.
pub fn chamfer(design: &Design, settling: &mut Settling) -> Option<f64> {
    (design.leg_shape() == LegShape::Chamfered).then(|| {
        let most = design.front_leg() / 5.0;
        settling.length("chamfer", design.chamfer(), 2.0, most, phrase("The leg would lose too much wood."))
    })
}
