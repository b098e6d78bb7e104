//! The skeleton: where the lines and faces of the chair meet in space, before any part exists.
//!
//! Everything is told for the right half and the middle; the left half is its mirror image in x = 0.
//! Frames stand one beside the other, each of a front leg and a back leg with what ties them; bays lie
//! between neighbouring frames.

mod arms;
mod back;
mod frame;
mod low;
mod post;
mod seat;

pub use arms::{ArmLines, ArmPost};
pub use back::BackLines;
pub use frame::{Bay, Frame};
pub use low::Low;
pub use post::{Facing, Post, Zone, chamfer};
pub use seat::{Footprint, SeatLines};

use crate::choices::{Arms, Back};
use crate::design::Design;
use crate::profile::Profile;
use crate::settle::{Settled, Settling};
use crate::unbuildable::{Stage, Unbuildable};
use crestrail_geometry::Plane;
use crestrail_geometry::math::{atan2, degrees};
use crestrail_phrases::{phrase, say};
use frame::Widths;
use seat::Heights;

/// Lines and planes of a chair, in chair space; mm and radians.
#[derive(Clone, Debug)]
pub struct Skeleton {
    /// The plane of the seat.
    pub seat: SeatLines,
    /// Side view of the back leg, unless it is a straight leg under a seat without a back.
    pub profile: Option<Profile>,
    /// The frames of the right half from the outside inwards; the last may stand in the middle.
    pub frames: Vec<Frame>,
    /// The bays of the right half, and the one across the middle.
    pub bays: Vec<Bay>,
    /// Heights of the stretchers.
    pub low: Low,
    /// The back, if there is one.
    pub back: Option<BackLines>,
    /// The arm on the right, if there are arms.
    pub arms: Option<ArmLines>,
    /// Thickness of the seat rails, mm.
    pub rail_thickness: f64,
    /// Width of the planed outer edges of the front legs, mm.
    pub chamfer: Option<f64>,
    /// Sizes that gave way.
    pub settled: Vec<Settled>,
}

/// Room for a rail between its legs that still leaves a rail, mm.
const LEAST_RAIL: f64 = 80.0;

/// The greatest angle of the side rails in plan, degrees (common practice, no source).
const MOST_TAPER: f64 = 15.0;

/// The thinnest seat rail, mm (common practice, no source).
const THINNEST_RAIL: f64 = 14.0;

impl Skeleton {
    /// The lines of a design.
    pub fn of(design: &Design) -> Result<Self, Unbuildable> {
        let mut settling = Settling::default();
        let heights = Heights::of(design);
        let low = Low::of(design, &heights, &mut settling);
        let open = design.back() == Back::Open;
        let zone = back::Zone::of(design, &mut settling);
        let profile =
            (!open).then(|| Profile::of(&frame::bend(design, &heights, &low, &zone))).transpose()?;
        let rail_thickness = rail_thickness(design, &mut settling);
        let widths = Widths::of(design, rail_thickness);
        let frames = frame::frames(design, &heights, profile.as_ref(), &widths);
        check_runs(design, &frames[0])?;
        let bays = frame::bays(&frames, design.places());
        let back = profile.as_ref().map(|p| BackLines::of(design, p, &zone, &mut settling)).transpose()?;
        let arms = arms::arms(design, &frames[0], back.as_ref(), &mut settling);
        let seat = frame::seat_lines(design, &heights, &frames, arms.as_ref());
        let chamfer = post::chamfer(design, &mut settling);
        let settled = settling.settled;
        Ok(Self { seat, profile, frames, bays, low, back, arms, rail_thickness, chamfer, settled })
    }

    /// Where the front legs of the outer frame end, as a plane whose normal points up.
    pub fn front_leg_top(&self) -> Plane {
        match &self.arms {
            Some(arms) if arms.post.is_none() => arms.underside,
            _ => self.seat.rail_tops(),
        }
    }

    /// The outermost frame.
    pub fn outer(&self) -> &Frame {
        &self.frames[0]
    }
}

/// Whether a design has arms: they need a back leg that goes on above the seat.
pub(crate) fn arms_of(design: &Design) -> Arms {
    if design.back() == Back::Open { Arms::None } else { design.arms() }
}

fn check_runs(design: &Design, outer: &Frame) -> Result<(), Unbuildable> {
    if outer.run < LEAST_RAIL {
        return Err(Unbuildable::new(
            Stage::Skeleton,
            &["seat_depth", "front_leg", "back_leg_depth"],
            say!(
                "Only {:.0} mm would be left for the side rail between front and back leg; it needs {LEAST_RAIL:.0} mm.",
                outer.run
            ),
        ));
    }
    let spread = degrees(atan2(design.narrowing() / 2.0, outer.run));
    if spread > MOST_TAPER {
        return Err(Unbuildable::new(
            Stage::Skeleton,
            &["narrowing", "seat_depth"],
            say!(
                "The side rails would run at {spread:.1}° in plan; past {MOST_TAPER:.0}° their shoulders leave too little wood at the tenon."
            ),
        ));
    }
    Ok(())
}

/// The rails must not run into each other inside the corner of a leg, nor over its chamfer.
fn rail_thickness(design: &Design, settling: &mut Settling) -> f64 {
    let front = design.front_leg();
    // In a back leg one rail may stand past the leg's inner face as long as the other does not.
    let back = match design.back() {
        Back::Open => front,
        _ => design.back_leg_thickness().max(design.back_leg_depth()),
    };
    let (least, why) = if back < front {
        (back, phrase("Thicker rails would run into each other beside the back leg."))
    } else {
        (front, phrase("Thicker rails would run into each other inside the front leg."))
    };
    let most = (least - design.set_back()) * 0.9;
    settling.length("rail_thickness", design.rail_thickness(), THINNEST_RAIL, most, why)
}
