//! The back: the plane in which its pieces lie, and how high they reach.

use crate::choices::{Arms, Back};
use crate::design::Design;
use crate::profile::{Profile, ZONE_MARGIN};
use crate::settle::Settling;
use crate::unbuildable::{Stage, Unbuildable};
use crestrail_geometry::math::{cos, radians};
use crestrail_geometry::{Place, Vec3};

/// The leaning plane of the front faces of the back legs.
#[derive(Clone, Debug)]
pub struct BackLines {
    /// In the middle of the chair at the level of the seat's front, on the front faces of the back legs.
    pub origin: Vec3,
    /// Unit direction up the lean.
    pub up: Vec3,
    /// Unit direction backwards, square to the lean.
    pub backwards: Vec3,
    /// Where the lowest piece begins, mm along the lean from `origin`.
    pub first: f64,
    /// Where the topmost piece ends.
    pub last: f64,
    /// Where the back legs end.
    pub top: f64,
    /// Depth of the back legs, square to the lean, at `bend` and at `top`, mm.
    depth: (f64, f64),
    bend: f64,
}

/// Lengths along the lean from the level of the seat, mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Zone {
    pub(super) first: f64,
    pub(super) last: f64,
    pub(super) top: f64,
    /// Where the straight upper limb of the leg must begin.
    pub(super) straight: f64,
}

/// The least height of a back's filled part, mm (common practice, no source).
const LEAST_BACK: f64 = 80.0;

impl Zone {
    pub(super) fn of(design: &Design, settling: &mut Settling) -> Self {
        let lean = cos(radians(design.rake()));
        let top = design.back_height() / lean;
        let last = top - design.back_top();
        let least =
            if design.back() == Back::Slats { LEAST_BACK } else { 2.0 * design.back_rail_width() + 60.0 };
        let wish = top * design.back_clear() / 100.0;
        let first = wish.min(last - least).max(2.0 * ZONE_MARGIN);
        let share = first / top * 100.0;
        settling.take(
            "back_clear",
            design.back_clear(),
            if first < wish { share } else { design.back_clear() },
            " %",
            "The pieces of the back need this much of its height.",
        );
        let arm = match super::arms_of(design) {
            Arms::None => f64::INFINITY,
            Arms::Legs | Arms::Posts => (design.arm_height() - design.arm_thickness()) / lean,
        };
        Self { first, last, top, straight: first.min(arm.max(3.0 * ZONE_MARGIN)) }
    }
}

impl BackLines {
    pub(super) fn of(design: &Design, profile: &Profile, zone: &Zone) -> Result<Self, Unbuildable> {
        if zone.last - zone.first < LEAST_BACK / 2.0 {
            return Err(Unbuildable::new(
                Stage::Skeleton,
                &["back_height", "back_top", "back_clear"],
                format!("Only {:.0} mm of the back are left for its pieces.", zone.last - zone.first),
            ));
        }
        let sideways = cos(profile.sideways);
        let (at, up) = profile.upper_front;
        let up = Vec3::new(0.0, up.x, up.y * sideways);
        let at = Vec3::new(0.0, at.x, at.y * sideways);
        let origin = at + up * ((design.seat_height() - at.z) / up.z);
        let up = up.unit();
        Ok(Self {
            origin,
            up,
            backwards: up.cross(Vec3::X),
            first: zone.first,
            last: zone.last,
            top: zone.top,
            depth: profile.upper_depth,
            bend: (at - origin).dot(up),
        })
    }

    /// The point `s` mm up the lean in the middle of the chair.
    pub fn at(&self, s: f64) -> Vec3 {
        self.origin + self.up * s
    }

    /// Depth of the back legs `s` mm up the lean, square to it.
    pub fn leg_depth(&self, s: f64) -> f64 {
        let share = (s - self.bend) / (self.top - self.bend);
        self.depth.0 + (self.depth.1 - self.depth.0) * share
    }

    /// The frame of a piece across the back whose middle lies `s` mm up the lean and `deep` mm behind
    /// the front faces of the legs: x to the right, y up the lean.
    pub fn across(&self, s: f64, deep: f64) -> Place {
        Place::new(self.at(s) + self.backwards * deep, Vec3::X, self.up)
    }
}
