//! Heights of the stretchers.

use super::seat::Heights;
use crate::choices::{Back, LegShape, Stretchers};
use crate::design::Design;
use crate::profile::{STRAIGHT_FOOT, ZONE_MARGIN};
use crate::settle::Settling;
use crestrail_phrases::phrase;

/// Heights above the floor of the middles of the stretchers, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Low {
    /// Thickness of every stretcher, mm.
    pub thickness: f64,
    /// Those at the sides.
    pub sides: f64,
    /// The one in front.
    pub front: f64,
    /// The one behind.
    pub back: f64,
    /// Height up to which the back legs must be straight.
    pub straight: f64,
}

/// The least length between the stretchers and the bend of the back leg, mm (common practice, no source).
const BEND: f64 = 10.0;

/// Air below a stretcher, mm: a broom and a foot go under it (common practice, no source).
const AIR: f64 = 24.0;

/// Stretchers all round must not run into each other beside a leg that is thinner there.
fn thickness(design: &Design, settling: &mut Settling) -> f64 {
    let wish = design.stretcher_thickness();
    if design.stretchers() != Stretchers::Box {
        return wish;
    }
    let tapered = design.leg_shape() == LegShape::Tapered;
    let front = design.front_leg() * if tapered { design.leg_foot() / 100.0 } else { 1.0 };
    let back = match design.back() {
        Back::Open => front,
        _ => design.back_leg_thickness().max(design.back_leg_foot()),
    };
    let why = phrase("Thicker stretchers would run into each other beside a leg.");
    settling.length("stretcher_thickness", wish, THINNEST, front.min(back) * 0.9, why)
}

/// The thinnest stretcher, mm (common practice, no source).
const THINNEST: f64 = 14.0;

impl Low {
    pub(super) fn of(design: &Design, heights: &Heights, settling: &mut Settling) -> Self {
        let half = design.stretcher_width() / 2.0;
        let rails = heights.rail_bottom(design.seat_depth(), design.rail_width());
        let most = rails - 2.0 * ZONE_MARGIN - BEND - half;
        let mut settle = |knob, wish| {
            settling.length(
                knob,
                wish,
                AIR + half,
                most,
                phrase("There must be room between the stretcher and the seat rails."),
            )
        };
        let has = design.stretchers();
        let sides = match has {
            Stretchers::None => design.stretcher_height(),
            Stretchers::Sides | Stretchers::H | Stretchers::Box => {
                settle("stretcher_height", design.stretcher_height())
            }
        };
        let (front, back) = match has {
            Stretchers::Box => (
                settle("front_stretcher_height", design.front_stretcher_height()),
                settle("back_stretcher_height", design.back_stretcher_height()),
            ),
            Stretchers::None | Stretchers::Sides | Stretchers::H => (sides, sides),
        };
        let straight = match has {
            Stretchers::None => STRAIGHT_FOOT,
            Stretchers::Sides | Stretchers::H | Stretchers::Box => sides.max(back) + half + ZONE_MARGIN,
        };
        Self { sides, front, back, straight, thickness: thickness(design, settling) }
    }
}
