//! The skeleton: where the lines and faces of the chair meet in space, before any part exists.
//!
//! Everything is told for the right half; the left half is its mirror image in x = 0.

use crate::design::Design;
use crate::profile::Profile;
use crate::unbuildable::{Stage, Unbuildable};
use crestrail_geometry::math::{atan2, cos, degrees, radians, sin, tan};
use crestrail_geometry::{Place, Plane, Vec3};

/// Lines and planes of a chair, in chair space; mm and radians.
#[derive(Clone, Debug)]
pub struct Skeleton {
    /// Top of the rails and of the front legs.
    pub rail_top: f64,
    /// Lower edge of the rails.
    pub rail_bottom: f64,
    /// Side view of the back leg.
    pub profile: Profile,
    /// Half the width over the front legs.
    pub half_front: f64,
    /// Half the width over the back legs.
    pub half_back: f64,
    /// Depth of the back face of the front legs.
    pub front_leg_back: f64,
    /// Angle in plan by which the side rails run inwards towards the back.
    pub taper: f64,
    /// A point of the outer faces of the right side rail and stretcher, on the floor.
    pub side_line: Vec3,
    /// Direction of the side rails, front to back.
    pub side_direction: Vec3,
    /// Height of each back slat along the lean.
    pub slat_width: f64,
    /// Where each back slat's middle lies on the front face of the back leg, from below.
    pub slat_stations: Vec<Vec3>,
    /// Direction upwards along the leaning front face of the back legs.
    pub lean: Vec3,
    /// Each seat slat's share of the seat, from the front.
    pub seat_bands: Vec<SeatBand>,
}

/// The strip of the seat that one slat covers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeatBand {
    /// Depth of its front edge, mm.
    pub front: f64,
    /// Depth of its back edge, mm.
    pub back: f64,
    /// Half its length where it lies between the back legs; elsewhere the seat's outline ends it.
    pub between_legs: Option<f64>,
}

/// Room for a rail between its legs that still leaves a rail, mm.
const LEAST_RAIL: f64 = 80.0;

impl Skeleton {
    /// The lines of a design.
    pub fn of(design: &Design) -> Result<Self, Unbuildable> {
        let rail_top = design.seat_height() - design.seat_slat_thickness();
        let rail_bottom = rail_top - design.rail_width();
        let slats = Slats::spread(design);
        check_slats(design, &slats)?;
        let profile = Profile::of(design, rail_bottom, slats.first)?;
        let half_front = design.seat_width() / 2.0;
        let half_back = half_front - design.narrowing() / 2.0;
        let front_leg_back = design.front_leg();
        let run = profile.zone_front - front_leg_back;
        check_runs(design, run)?;
        let taper = atan2(half_front - half_back, run);
        check_corner(design, taper)?;
        Ok(Self {
            rail_top,
            rail_bottom,
            half_front,
            half_back,
            front_leg_back,
            taper,
            side_line: Vec3::new(half_front - design.set_back(), front_leg_back, 0.0),
            side_direction: Vec3::new(-sin(taper), cos(taper), 0.0),
            slat_width: slats.width,
            slat_stations: slats.stations(design, &profile),
            lean: Vec3::new(0.0, profile.upper_front.1.x, profile.upper_front.1.y),
            seat_bands: seat_bands(design, profile.zone_front),
            profile,
        })
    }

    /// The outline edge of the seat on the right: half its width at the depth `y`.
    pub fn seat_half_width(&self, design: &Design, y: f64) -> f64 {
        let from_front_leg = y - self.front_leg_back;
        self.half_front + design.seat_overhang() - from_front_leg * tan(self.taper)
    }

    /// The frame of the right side stretcher: parallel to the side rail, so that the side frame goes
    /// together along one line, and as near to the middle of both legs as that allows.
    pub fn stretcher_place(&self, design: &Design) -> Place {
        let height = design.stretcher_height();
        let (at, down) = self.profile.lower_front;
        let back = at.x + down.x * (height - at.y) / down.y;
        let front_middle = self.half_front - design.front_leg() / 2.0;
        let back_middle = self.half_back - design.back_leg_thickness() / 2.0;
        let drift = (back - self.front_leg_back) * tan(self.taper);
        let aside = (back_middle - front_middle + drift) / 2.0;
        let origin = Vec3::new(front_middle + aside, self.front_leg_back, height);
        Place::new(origin, self.side_direction, Vec3::Z)
    }

    /// The plane of the lower front face of the back leg, its normal pointing out of the leg.
    pub fn lower_front_face(&self) -> Plane {
        let (at, down) = self.profile.lower_front;
        Plane::through(Vec3::new(0.0, at.x, at.y), Vec3::new(0.0, down.y, -down.x))
    }
}

fn check_runs(design: &Design, run: f64) -> Result<(), Unbuildable> {
    if run < LEAST_RAIL {
        return Err(Unbuildable::new(
            Stage::Skeleton,
            &["seat_depth", "front_leg", "back_leg_depth"],
            format!(
                "Only {run:.0} mm would be left for the side rail between front and back leg; it needs {LEAST_RAIL:.0} mm."
            ),
        ));
    }
    let spread = degrees(atan2(design.narrowing() / 2.0, run));
    if spread > MOST_TAPER {
        return Err(Unbuildable::new(
            Stage::Skeleton,
            &["narrowing", "seat_depth"],
            format!(
                "The side rails would run at {spread:.1}° in plan; past {MOST_TAPER:.0}° their shoulders leave too little wood at the tenon."
            ),
        ));
    }
    Ok(())
}

/// The rails must not run into each other inside the corner of the front leg.
fn check_corner(design: &Design, taper: f64) -> Result<(), Unbuildable> {
    let needed = design.set_back() + design.rail_thickness() / cos(taper);
    if needed <= design.front_leg() {
        return Ok(());
    }
    Err(Unbuildable::new(
        Stage::Skeleton,
        &["rail_thickness", "front_leg", "set_back"],
        format!(
            "The seat rails take {needed:.1} mm of a front leg of {:.1} mm and would run into each other.",
            design.front_leg()
        ),
    ))
}

/// The greatest angle of the side rails in plan, degrees (common practice, no source).
const MOST_TAPER: f64 = 15.0;

/// The narrowest space between two back slats, and the lowest slat, mm (common practice, no source).
const LEAST_SLAT_GAP: f64 = 12.0;
const LEAST_SLAT: f64 = 18.0;

/// How the slats share the back: lengths along its lean, from the level of the seat, mm.
struct Slats {
    first: f64,
    width: f64,
    gap: f64,
}

impl Slats {
    fn spread(design: &Design) -> Self {
        let length = design.back_height() / cos(radians(design.rake()));
        let count = design.back_slats() as f64;
        let first = length * design.back_clear() / 100.0;
        let space = length - design.back_top() - first;
        let wood = space * design.back_fill() / 100.0;
        Self { first, width: wood / count, gap: (space - wood) / (count - 1.0) }
    }

    /// The middles of the slats on the front face of the back leg.
    fn stations(&self, design: &Design, profile: &Profile) -> Vec<Vec3> {
        let (at, up) = profile.upper_front;
        let first = (design.seat_height() - at.y) / up.y + self.first + self.width / 2.0;
        let station = |i: usize| {
            let s = first + (self.width + self.gap) * i as f64;
            Vec3::new(0.0, at.x + up.x * s, at.y + up.y * s)
        };
        (0..design.back_slats()).map(station).collect()
    }
}

fn check_slats(design: &Design, slats: &Slats) -> Result<(), Unbuildable> {
    if slats.width >= LEAST_SLAT && slats.gap >= LEAST_SLAT_GAP {
        return Ok(());
    }
    Err(Unbuildable::new(
        Stage::Skeleton,
        &["back_slats", "back_fill", "back_clear", "back_height"],
        format!(
            "{} back slats would be {:.0} mm high with gaps of {:.0} mm; slats need {LEAST_SLAT:.0} mm and gaps {LEAST_SLAT_GAP:.0} mm.",
            design.back_slats(),
            slats.width,
            slats.gap
        ),
    ))
}

/// Room between the last seat slat and the back legs, mm, so that the seat can move with the seasons.
const SEAT_TO_LEG: f64 = 3.0;

/// The narrowest seat slat, mm (common practice, no source).
const LEAST_SEAT_SLAT: f64 = 22.0;

fn seat_bands(design: &Design, zone_front: f64) -> Vec<SeatBand> {
    let gap = design.seat_slat_gap();
    let front = -design.seat_overhang();
    let length = zone_front - SEAT_TO_LEG - front;
    // The range of the knob keeps every slat wider than the narrowest: n slats of about the wished
    // width never differ from it by more than half of a slat and gap over n.
    let count = ((length + gap) / (design.seat_slat_width() + gap)).round().max(2.0) as usize;
    let width = (length + gap) / count as f64 - gap;
    let start = |i: usize| front + (width + gap) * i as f64;
    let plain = |i| SeatBand { front: start(i), back: start(i) + width, between_legs: None };
    (0..count).map(plain).chain(band_between_legs(design, zone_front)).collect()
}

/// The slat between the back legs reaches to the back face of the back rail; where it would be
/// narrower than a slat may be, the space stays open.
fn band_between_legs(design: &Design, zone_front: f64) -> Option<SeatBand> {
    let front = zone_front - SEAT_TO_LEG + design.seat_slat_gap();
    let back = design.seat_depth() - design.set_back();
    let half = (design.seat_width() - design.narrowing()) / 2.0 - design.back_leg_thickness() - SEAT_TO_LEG;
    (back - front >= LEAST_SEAT_SLAT).then_some(SeatBand { front, back, between_legs: Some(half) })
}
