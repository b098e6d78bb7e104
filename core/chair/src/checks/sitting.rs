//! Where somebody sits on a resolved chair: seat, back, arms and feet, read off the finished parts.

use crate::chair::{Chair, PartBody};
use crate::part::{Part, Role, Side};
use crestrail_geometry::outline::hull;
use crestrail_geometry::{Bounds, Vec3};
use kurbo::Point;

/// Points of a chair that loads act at; mm, chair space.
#[derive(Clone, Debug)]
pub(super) struct Sitting {
    /// Height of the seat at its front edge.
    pub(super) seat_height: f64,
    /// Depth of the seat's front edge.
    pub(super) front: f64,
    /// Depth of the line where seat and back meet, or of the rear edge of a seat without a back.
    pub(super) back_line: f64,
    /// Half the width of the seat in front.
    pub(super) half_width: f64,
    /// The middle of each place to sit, sideways.
    pub(super) places: Vec<f64>,
    /// Height of the top of the back, if there is one.
    pub(super) back_top: Option<f64>,
    /// Where the outer edge of the right arm lies, if there are arms, and the top of the arm at its front end.
    pub(super) arm: Option<Vec3>,
    /// Corners of the feet on the floor: a convex outline, counter-clockwise from above.
    pub(super) feet: Vec<Vec3>,
    /// Mass of all parts, kg, and its centre.
    pub(super) mass: f64,
    /// See `mass`.
    pub(super) centre: Vec3,
}

/// What one sits on.
pub(super) const SEAT: [Role; 5] = [Role::SeatSlat, Role::SeatBoard, Role::Pad, Role::Cord, Role::PadBoard];
/// What one leans on; the first three lie across the back.
pub(super) const BACK: [Role; 6] =
    [Role::BackSlat, Role::LowerBackRail, Role::CrestRail, Role::Lath, Role::Splat, Role::Panel];

/// A foot is what stands this near to the floor, mm.
const ON_FLOOR: f64 = 0.1;

impl Sitting {
    /// `None` for a chair without seat or legs.
    pub(super) fn of(chair: &Chair) -> Option<Self> {
        let seat = around(chair, &SEAT)?;
        let legs = chair.pieces().filter(|(p, _)| matches!(p.id.role, Role::FrontLeg | Role::BackLeg));
        let floor = legs.flat_map(|(part, body)| corners(part, body)).filter(|p| p.z < ON_FLOOR);
        let feet = hull(floor.map(|p| Point::new(p.x, p.y)).collect());
        let mass = |(part, body): &(&Part, &PartBody)| part.material.mass(body.volume);
        let total: f64 = chair.pieces().map(|piece| mass(&piece)).sum();
        let moment = chair.pieces().fold(Vec3::ZERO, |sum, piece| sum + piece.1.centre * mass(&piece));
        let back = around(chair, &BACK);
        Some(Self {
            seat_height: seat.high.z,
            front: seat.low.y,
            back_line: back_line(chair, seat.high.z).unwrap_or(seat.high.y),
            half_width: seat.high.x,
            places: places(chair),
            back_top: back.map(|b| b.high.z),
            arm: arm(chair),
            feet: feet.iter().map(|p| Vec3::new(p.x, p.y, 0.0)).collect(),
            mass: total,
            centre: moment * (1.0 / total),
        })
    }

    /// Height above the floor at which the back is pushed: 300 mm above the seat, or the top of the back if that is
    /// lower (ISO 7174-1, 7.1.2).
    pub(super) fn back_point(&self) -> Option<f64> {
        self.back_top.map(|top| top.min(self.seat_height + 300.0))
    }

    /// Depth of the loading point of the seat: 175 mm before the back (ISO 7174-1, 7.1.2), in its middle at most.
    pub(super) fn seat_point(&self) -> f64 {
        (self.back_line - 175.0).max((self.front + self.back_line) / 2.0 - 30.0)
    }
}

pub(super) fn corners<'a>(part: &'a Part, body: &'a PartBody) -> impl Iterator<Item = Vec3> + 'a {
    body.solid.vertices.iter().map(|&v| part.place.point(v))
}

pub(super) fn around(chair: &Chair, roles: &[Role]) -> Option<Bounds> {
    let points: Vec<Vec3> =
        chair.pieces().filter(|(p, _)| roles.contains(&p.id.role)).flat_map(|(p, b)| corners(p, b)).collect();
    (!points.is_empty()).then(|| Bounds::around(&points))
}

/// Where the front of the back, carried on down its lean, comes to the height of the seat.
fn back_line(chair: &Chair, seat: f64) -> Option<f64> {
    let pieces = chair.parts.iter().filter(|p| BACK[..3].contains(&p.id.role));
    let lowest = pieces.min_by(|a, b| a.place.origin.z.total_cmp(&b.place.origin.z))?;
    let up = if lowest.place.y.z.abs() > 0.5 { lowest.place.y } else { lowest.place.z };
    let face = lowest.place.origin + forwards(lowest) * (lowest.size.thickness / 2.0);
    Some(face.y + up.y / up.z * (seat - face.z))
}

/// The way out of the front face of a piece across the back.
pub(super) fn forwards(part: &Part) -> Vec3 {
    let out = if part.place.z.y.abs() > part.place.y.y.abs() { part.place.z } else { part.place.y };
    if out.y < 0.0 { out } else { -out }
}

/// Middles between neighbouring front legs.
fn places(chair: &Chair) -> Vec<f64> {
    let legs = chair.parts.iter().filter(|p| p.id.role == Role::FrontLeg);
    let mut xs: Vec<f64> = legs.map(top_of).collect();
    xs.sort_by(f64::total_cmp);
    xs.windows(2).map(|pair| (pair[0] + pair[1]) / 2.0).collect()
}

/// Where the upper end of a leg stands, sideways.
fn top_of(leg: &Part) -> f64 {
    leg.place.point(Vec3::X * leg.size.length).x
}

fn arm(chair: &Chair) -> Option<Vec3> {
    let (part, body) = chair.pieces().find(|(p, _)| p.id.role == Role::Arm && p.id.side == Side::Right)?;
    let points: Vec<Vec3> = corners(part, body).collect();
    let bounds = Bounds::around(&points);
    Some(Vec3::new(bounds.high.x, bounds.low.y, bounds.high.z))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;
    use crate::joints::Bench;
    use serde_json::json;

    #[test]
    fn points_of_the_default_chair() {
        let chair = Chair::resolve(&Design::default(), &Bench::default()).unwrap();
        let sitting = Sitting::of(&chair).unwrap();
        assert!((sitting.seat_height - 450.0).abs() < 1e-6);
        assert!((4..=8).contains(&sitting.feet.len()), "{:?}", sitting.feet);
        assert_eq!(sitting.places, [0.0]);
        assert!(sitting.back_line > 380.0 && sitting.back_line < 446.0, "{}", sitting.back_line);
        assert!((sitting.back_point().unwrap() - 750.0).abs() < 1e-6 && sitting.arm.is_none());
        assert!(sitting.centre.x.abs() < 1e-6 && sitting.mass > 3.0);
    }

    #[test]
    fn a_bench_has_three_places_and_a_stool_no_back() {
        let of = |values| {
            Sitting::of(&Chair::resolve(&Design::from_value(&values).unwrap(), &Bench::default()).unwrap())
        };
        let bench = of(json!({"family": "bench_three", "arms": "legs"})).unwrap();
        assert_eq!(bench.places.len(), 3);
        assert!(bench.arm.is_some_and(|arm| arm.x > 700.0));
        let stool = of(json!({"family": "stool"})).unwrap();
        assert!(stool.back_point().is_none() && stool.back_line > 300.0);
    }
}
