//! A joint whose tenon is sized but perhaps not yet parted from its neighbours nor pegged.

use super::rules;
use super::site::Site;
use super::space::Space;
use crate::joint::{Corner, Haunch, Kind, Mitre, Tongue};
use crate::part::Side;
use crestrail_geometry::{Place, Plane, Vec3};

/// See the module.
#[derive(Clone, Debug)]
pub(super) struct Draft<'a> {
    pub(super) site: Site<'a>,
    pub(super) kind: Kind,
    /// See [`Joint::mouth`](crate::joint::Joint::mouth).
    pub(super) mouth: Place,
    /// Thickness of the mortise: the cutter; the diameter of dowels.
    pub(super) cutter: f64,
    /// Play over the whole thickness and width.
    pub(super) fit: f64,
    /// Room for glue behind the tenon.
    pub(super) glue_gap: f64,
    /// The greatest length that leaves enough timber behind the mortise.
    pub(super) longest: f64,
    /// See [`Tenon::tongues`](crate::joint::Tenon::tongues).
    pub(super) tongues: Vec<Tongue>,
    /// The guest's edges along the mouth's y axis.
    pub(super) edges: [f64; 2],
    /// Where the guest's faces lie along the mouth's z axis.
    pub(super) faces: [f64; 2],
    pub(super) haunch: Option<Haunch>,
    /// The far face of the host, through which the tenon comes out.
    pub(super) far: Option<Plane>,
    /// How deep a loose tenon or dowel goes into the guest.
    pub(super) into_guest: f64,
    /// Mitred ends, normals pointing away from this tenon; one, or two where tenons come from both sides.
    pub(super) cuts: Vec<Plane>,
    pub(super) mitre: Option<Mitre>,
    pub(super) corners: Vec<Corner>,
}

impl Draft<'_> {
    /// Play on each side of the tenon.
    pub(super) fn play(&self) -> f64 {
        self.fit / 2.0
    }

    /// Half the thickness of the tenon.
    pub(super) fn half(&self) -> f64 {
        if self.kind == Kind::Dowels { self.cutter / 2.0 } else { self.cutter / 2.0 - self.play() }
    }

    /// Length on the longer side.
    pub(super) fn length(&self) -> f64 {
        self.tongues.iter().fold(0.0, |length, t| t.to.max(length))
    }

    /// The least and the greatest y of its tongues.
    pub(super) fn across(&self) -> [f64; 2] {
        let low = self.tongues.iter().fold(f64::INFINITY, |low, t| t.y[0].min(low));
        let high = self.tongues.iter().fold(f64::NEG_INFINITY, |high, t| t.y[1].max(high));
        [low, high]
    }

    /// Over all its tongues.
    pub(super) fn width(&self) -> f64 {
        let [low, high] = self.across();
        high - low
    }

    /// Length of a tongue at one cheek.
    fn at_cheek(&self, tongue: &Tongue, z: f64) -> f64 {
        let start = self.mouth.point(Vec3::new(0.0, tongue.middle(), z));
        let ends = self.cuts.iter().filter_map(|cut| cut.meet(start, self.mouth.x));
        ends.map(|p| (p - start).dot(self.mouth.x)).fold(tongue.to, f64::min)
    }

    /// Length of a tongue, the mean of both cheeks.
    pub(super) fn mean(&self, tongue: &Tongue) -> f64 {
        (self.at_cheek(tongue, self.half()) + self.at_cheek(tongue, -self.half())) / 2.0
    }

    /// Length on the shorter side.
    pub(super) fn short_length(&self) -> f64 {
        let cheek = |t: &Tongue| self.at_cheek(t, self.half()).min(self.at_cheek(t, -self.half()));
        self.tongues.iter().map(cheek).fold(0.0, f64::max)
    }

    /// Length of the shortest edge between the host's face and a mitred end, mm; without end where nothing is mitred.
    pub(super) fn least_cheek(&self) -> f64 {
        let edges =
            self.tongues.iter().flat_map(|t| t.y.map(|y| [self.half(), -self.half()].map(|z| (y, z))));
        let length = |(y, z): (f64, f64)| {
            let start = self.site.face.meet(self.mouth.point(Vec3::new(0.0, y, z)), self.mouth.x)?;
            let ends = self.cuts.iter().filter_map(|cut| cut.meet(start, self.mouth.x));
            ends.map(|p| (p - start).dot(self.mouth.x)).min_by(f64::total_cmp)
        };
        edges.flatten().filter_map(length).fold(f64::INFINITY, f64::min)
    }

    /// Length of the tenon in the middle of its thickness.
    pub(super) fn middle_length(&self) -> f64 {
        self.tongues.iter().map(|t| self.mean(t)).fold(0.0, f64::max)
    }

    /// Both cheeks, mm²; of dowels their whole round, mm².
    pub(super) fn cheeks(&self) -> f64 {
        let round = if self.kind == Kind::Dowels { core::f64::consts::PI } else { 2.0 };
        self.tongues.iter().map(|t| round * t.width() * (self.mean(t) - t.from).max(0.0)).sum()
    }

    /// How far the host's face slants across the mouth: the tenon's root may lie this much before it.
    pub(super) fn lead(&self) -> f64 {
        let n = self.mouth.local_direction(self.site.face.normal);
        let [low, high] = self.across();
        let high = high + self.haunch.map_or(0.0, |h| h.width);
        let slant = n.y.abs() * low.abs().max(high.abs()) + n.z.abs() * self.cutter / 2.0;
        slant / n.x.abs() + 0.5
    }

    /// A plane of the mouth's frame in chair space.
    pub(super) fn side(&self, normal: Vec3, at: f64) -> Plane {
        self.mouth.plane(&Plane { normal, offset: at })
    }

    /// The planes round a tongue, from the host's face to its end.
    pub(super) fn tongue_planes(&self, t: &Tongue) -> Vec<Plane> {
        let comes_out = self.far.filter(|_| t.to + 1e-6 >= self.length());
        self.planes_up_to(comes_out.unwrap_or_else(|| self.side(Vec3::X, t.to)), t)
    }

    fn planes_up_to(&self, end: Plane, t: &Tongue) -> Vec<Plane> {
        let half = self.half();
        let mut planes = vec![
            self.site.face,
            end,
            self.side(Vec3::Y, t.y[1]),
            self.side(-Vec3::Y, -t.y[0]),
            self.side(Vec3::Z, half),
            self.side(-Vec3::Z, half),
        ];
        planes.extend(&self.cuts);
        planes
    }

    /// The planes round the haunch: a wedge beside the tenon that slopes from its length to its tip at the outer
    /// edge, kept `clear` of the timber it enters at its end and with `play` at its cheeks and outer edge.
    pub(super) fn haunch_planes(&self, haunch: Haunch, play: f64, clear: f64, root: Plane) -> Vec<Plane> {
        let (foot, half) = (self.across()[1], self.half() + play);
        let slope = Plane::through(
            Vec3::new(haunch.length + clear, foot, 0.0),
            Vec3::new(haunch.width, haunch.length - HAUNCH_TIP, 0.0),
        );
        vec![
            self.side(-Vec3::Y, -foot),
            self.side(Vec3::Y, foot + haunch.width + play),
            self.side(Vec3::Z, half),
            self.side(-Vec3::Z, half),
            self.mouth.plane(&slope),
            root,
        ]
    }

    /// What its tenon takes of the host.
    pub(super) fn tenon_spaces(&self) -> impl Iterator<Item = Space> {
        self.tongues.iter().map(|t| Space::within(self.tongue_planes(t)))
    }

    /// What a tenon that is `more` longer and ends inside would take of it.
    pub(super) fn longer_spaces(&self, more: f64) -> impl Iterator<Item = Space> {
        let to = move |t: &Tongue| self.side(Vec3::X, t.to + more);
        self.tongues.iter().map(move |t| Space::within(self.planes_up_to(to(t), t)))
    }

    /// What its haunch takes of the host, as a box.
    pub(super) fn haunch_space(&self) -> Option<Space> {
        let (foot, half) = (self.across()[1], self.half());
        self.haunch.map(|h| {
            let low = Vec3::new(-self.lead(), foot, -half);
            Space::boxed(&self.mouth, low, Vec3::new(h.length, foot + h.width, half))
        })
    }

    /// What a loose tenon or dowels take of the guest.
    pub(super) fn guest_space(&self) -> Option<Space> {
        let ([low, high], half) = (self.across(), self.half());
        self.kind.is_separate().then(|| {
            let low = Vec3::new(-self.into_guest - rules::DOWEL_ROOM, low, -half);
            Space::boxed(&self.mouth, low, Vec3::new(0.0, high, half))
        })
    }

    /// Whether the mirror image of this joint stands in the same host.
    pub(super) fn has_twin(&self) -> bool {
        self.site.host.id.side == Side::Middle && self.site.guest.id.side == Side::Right
    }

    /// Whether it is its own mirror image.
    pub(super) fn in_the_middle(&self) -> bool {
        self.site.host.id.side == Side::Middle && self.site.guest.id.side == Side::Middle
    }

    /// Moves the mouth into the middle of what is left of the tenon.
    pub(super) fn recentre(&mut self) {
        let [low, high] = self.across();
        let by = (low + high) / 2.0;
        if by.abs() < 1e-9 {
            return;
        }
        let moved = self.mouth.moved(self.mouth.y * by);
        let origin = self.site.face.meet(moved.origin, moved.x).unwrap_or(moved.origin);
        let ahead = (origin - moved.origin).dot(moved.x);
        self.mouth = Place { origin, ..moved };
        for tongue in &mut self.tongues {
            tongue.y = tongue.y.map(|y| y - by);
            tongue.to -= ahead;
            tongue.from = if tongue.from > 0.0 { tongue.from - ahead } else { 0.0 };
        }
        self.edges = self.edges.map(|y| y - by);
    }
}

/// Length left at the outer edge of a sloping haunch, mm: a feather edge would crumble.
const HAUNCH_TIP: f64 = 1.0;
