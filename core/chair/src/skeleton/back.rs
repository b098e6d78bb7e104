//! The back: the plane in which its pieces lie, and how high they reach.

use crate::choices::{Arms, Back, Spacing, Stance};
use crate::design::Design;
use crate::profile::{Profile, ZONE_MARGIN};
use crate::settle::Settling;
use crate::unbuildable::{Stage, Unbuildable};
use crestrail_geometry::math::{cos, radians, sin};
use crestrail_geometry::{Place, Vec3};
use crestrail_phrases::{phrase, say};

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
    /// Middle and height of each slat along the lean, from below, if slats fill the back.
    pub slats: Vec<(f64, f64)>,
    /// Whether the faces of the slats stand upright.
    pub upright: bool,
    /// How far the pieces of the back lie behind the plane of the legs' front faces, mm.
    pub inset: f64,
    /// Thickness of what stands between the rails of the back, mm.
    pub fill: f64,
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
        let why = phrase("The pieces of the back need this much of its height.");
        let taken = if first < wish { share } else { design.back_clear() };
        settling.share("back_clear", design.back_clear(), taken, why);
        let arm = match super::arms_of(design) {
            Arms::None => f64::INFINITY,
            Arms::Legs | Arms::Posts => (design.arm_height() - design.arm_thickness()) / lean,
        };
        Self { first, last, top, straight: first.min(arm.max(3.0 * ZONE_MARGIN)) }
    }
}

impl BackLines {
    pub(super) fn of(
        design: &Design,
        profile: &Profile,
        zone: &Zone,
        settling: &mut Settling,
    ) -> Result<Self, Unbuildable> {
        if zone.last - zone.first < LEAST_BACK / 2.0 {
            return Err(Unbuildable::new(
                Stage::Skeleton,
                &["back_height", "back_top", "back_clear"],
                say!("Only {:.0} mm of the back are left for its pieces.", zone.last - zone.first),
            ));
        }
        let sideways = cos(profile.sideways);
        let (at, up) = profile.upper_front;
        let up = Vec3::new(0.0, up.x, up.y * sideways);
        let at = Vec3::new(0.0, at.x, at.y * sideways);
        let origin = at + up * ((design.seat_height() - at.z) / up.z);
        let up = up.unit();
        let mut back = Self {
            origin,
            up,
            backwards: up.cross(Vec3::X),
            first: zone.first,
            last: zone.last,
            top: zone.top,
            depth: profile.upper_depth,
            bend: (at - origin).dot(up),
            slats: if design.back() == Back::Slats { slats(design, zone, settling) } else { Vec::new() },
            upright: false,
            inset: design.set_back() + twist(design),
            fill: fill(design, settling),
        };
        back.upright = design.stance() == Stance::Upright && back.stands_upright(design, settling);
        Ok(back)
    }

    /// Whether upright slats keep within the depth of the leaning legs.
    fn stands_upright(&self, design: &Design, settling: &mut Settling) -> bool {
        let lean = radians(design.rake());
        let thickness = design.back_slat_thickness() * cos(lean);
        let room = |&(s, width): &(f64, f64)| self.leg_depth(s) - thickness - width * sin(lean);
        let least = self.slats.iter().map(room).fold(f64::INFINITY, f64::min);
        if least < 0.0 {
            let why = phrase("The slats would stand out of the leaning legs, so they lean with the back.");
            settling.choice("stance", why);
        }
        least >= 0.0
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

/// The narrowest space between two back slats, and the lowest slat, mm (common practice, no source).
const LEAST_GAP: f64 = 12.0;
const LEAST_SLAT: f64 = 18.0;

/// As many slats as the design asks for, or as many as fit.
fn slats(design: &Design, zone: &Zone, settling: &mut Settling) -> Vec<(f64, f64)> {
    let fits = |count: &usize| {
        let slats = spread(design, zone, *count, Spacing::Gaps);
        let gaps = slats.windows(2).all(|pair| gap(pair) >= LEAST_GAP);
        gaps && slats.iter().all(|(_, width)| *width >= LEAST_SLAT)
    };
    let count = (2..=design.back_slats()).rev().find(fits).unwrap_or(2);
    let why = phrase("More slats would be too low or stand too close.");
    let count = settling.count("back_slats", design.back_slats(), count, why);
    let stepped = spread(design, zone, count, design.spacing());
    let open = stepped.windows(2).all(|pair| gap(pair) >= LEAST_GAP);
    if open { stepped } else { spread(design, zone, count, Spacing::Gaps) }
}

fn gap(pair: &[(f64, f64)]) -> f64 {
    pair[1].0 - pair[0].0 - (pair[0].1 + pair[1].1) / 2.0
}

/// Slats whose heights grow evenly, with equal gaps or with middles equally far apart.
fn spread(design: &Design, zone: &Zone, count: usize, spacing: Spacing) -> Vec<(f64, f64)> {
    let space = zone.last - zone.first;
    let wood = space * design.back_fill() / 100.0;
    let growth = design.slat_growth() / 100.0;
    let last = count as f64 - 1.0;
    let share = |i: usize| 1.0 + growth * i as f64 / last;
    let least = wood / (0..count).map(share).sum::<f64>();
    let width = |i: usize| least * share(i);
    let gap = (space - wood) / last;
    let pitch = (space - (width(0) + width(count - 1)) / 2.0) / last;
    let mut edge = zone.first;
    let each = |i: usize| {
        let middle = match spacing {
            Spacing::Gaps => edge + width(i) / 2.0,
            Spacing::Pitch => zone.first + width(0) / 2.0 + pitch * i as f64,
        };
        edge += width(i) + gap;
        (middle, width(i))
    };
    (0..count).map(each).collect()
}

/// Wood that stays on both sides of what stands between the rails, mm (common practice, no source).
const BESIDE_FILL: f64 = 1.5;

fn fill(design: &Design, settling: &mut Settling) -> f64 {
    match design.back() {
        Back::Laths | Back::Splat | Back::Panel => {
            let most = design.back_slat_thickness() - 2.0 * BESIDE_FILL;
            let why = phrase("It must be thinner than the rails of the back.");
            settling.length("fill_thickness", design.fill_thickness(), 7.0, most, why)
        }
        Back::Slats | Back::Open => design.fill_thickness(),
    }
}

/// Legs that splay turn their leaning front faces a little; what lies beside them, such as the end of an
/// arm, then comes forward or back by this much, mm.
fn twist(design: &Design) -> f64 {
    let beside = (design.back_leg_thickness() + design.arm_width()) / 2.0;
    sin(radians(design.splay())) * sin(radians(design.rake())) * beside
}
