//! The plane on which the seat lies, and what stands in its way.

use crate::choices::Seat;
use crate::design::Design;
use crestrail_geometry::math::{cos, radians, sin, tan};
use crestrail_geometry::{Place, Plane, Vec3};

/// The plane of the rails' tops and the outline of the seat. Coordinates are those of `frame`.
#[derive(Clone, Debug)]
pub struct SeatLines {
    /// Origin in the middle in front of the front legs, x to the right, y backwards along the slope,
    /// z out of the seat; the plane z = 0 holds the tops of the rails.
    pub frame: Place,
    /// Height of the seat's surface above the rails, mm.
    pub rise: f64,
    /// Front edge of a seat that overhangs, mm.
    pub front: f64,
    /// Where the seat ends before back legs that go on up; its back edge where they do not, mm.
    pub back: f64,
    /// Back face of the back rail, mm.
    pub rail_back: f64,
    /// The outer edge on the right: half the seat's width at depth zero, mm, and by how much it
    /// shrinks with each mm of depth.
    pub side: (f64, f64),
    /// What stands through the seat on the right half and in the middle: back legs, legs and posts of
    /// arms.
    pub through: Vec<Footprint>,
}

/// A rectangle in the plane of the seat that a leg or post takes, mm, without any clearance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Footprint {
    /// Least and greatest x.
    pub x: (f64, f64),
    /// Least and greatest y.
    pub y: (f64, f64),
}

/// Heights of the seat, worked out before any leg is placed.
#[derive(Clone, Copy, Debug)]
pub(super) struct Heights {
    /// See [`SeatLines::frame`].
    pub(super) frame: Place,
    /// See [`SeatLines::rise`].
    pub(super) rise: f64,
    /// Slope, radians.
    pub(super) slope: f64,
}

impl Heights {
    pub(super) fn of(design: &Design) -> Self {
        let rise = match design.seat() {
            Seat::Cord => design.cord(),
            Seat::Across | Seat::Lengthwise | Seat::Board | Seat::Pad => design.seat_slat_thickness(),
        };
        let slope = radians(design.seat_slope());
        let origin = Vec3::Z * (design.seat_height() - rise / cos(slope));
        let back = Vec3::new(0.0, cos(slope), -sin(slope));
        Self { frame: Place::new(origin, Vec3::X, back), rise, slope }
    }

    /// Height of the rails' tops at the depth `y`.
    pub(super) fn rail_top(&self, y: f64) -> f64 {
        self.frame.origin.z - y * tan(self.slope)
    }

    /// Height of the lower edge of a rail `width` high at the depth `y`.
    pub(super) fn rail_bottom(&self, y: f64, width: f64) -> f64 {
        self.rail_top(y) - width / cos(self.slope)
    }

    /// Height of the seat's surface at the depth `y`.
    pub(super) fn seat_top(&self, y: f64) -> f64 {
        self.rail_top(y) + self.rise / cos(self.slope)
    }
}

impl SeatLines {
    /// Half the width of the seat at the depth `y`, mm.
    pub fn half_width(&self, y: f64) -> f64 {
        self.side.0 - self.side.1 * y
    }

    /// The outer edge on the right as a plane in the seat's frame, its normal pointing out.
    pub fn right_edge(&self) -> Plane {
        Plane::through(Vec3::new(self.side.0, 0.0, 0.0), Vec3::new(1.0, self.side.1, 0.0))
    }

    /// The plane of the rails' tops in chair space, its normal pointing up.
    pub fn rail_tops(&self) -> Plane {
        Plane::through(self.frame.origin, self.frame.z)
    }
}
