//! What a mortise and tenon holds.
//!
//! Two models of the glued cheeks and a cap for the tenon itself; the least of them counts. L is the glued length of the
//! tenon, H its width, A the area of its cheeks, s the shoulder beside it, t its thickness.
//!
//! - Plastic torsion of the cheeks: M = τ A r, r = 4/(L H) [a b d/3 + a³/6 asinh(b/a) + b³/6 asinh(a/b)], a = L/2,
//!   b = H/2, d = √(a² + b²) (derived).
//! - The cheeks held as a couple about the pressed edge of the shoulder: M = τ_w A (s + H/2) (derived).
//! - The tenon's root: M ≤ 1.5 σ_MOR t H²/6.
//!
//! τ = 0.8 and τ_w = 0.35 times the timber's shear strength along the grain: calibrated on the means of 215 joints of
//! red oak and 140 of white oak (Eckelman, Uysal, Haviarova 2016, BioResources 11(3):7162: rail 22.2 × 63.5 mm, tenon
//! 32 × 38 × 9.5 mm, 353 and 358 Nm). One size was tested; others are carried over by the models.

use super::Worst;
use super::cases::{Case, Service};
use super::frame::Seat;
use super::timber::Held;
use crate::joint::Joint;
use crestrail_frame::MemberForces;
use crestrail_geometry::math::{ln, max};
use crestrail_phrases::phrase;

pub(super) const SOURCE: &str = phrase(
    "models of glued cheeks calibrated on Eckelman, Uysal and Haviarova 2016, BioResources 11(3):7162 (one size of joint, two oaks); for lasting use 0.45 of the mean from their tolerance limits and cyclic tests of side chairs; timber at the moisture of the dampest weeks, 12 % or more (Wood Handbook, FPL-GTR-190, Eq. 5-3; of a species without green values as little as of any that has them)",
);

const TWIST_SHARE: f64 = 0.8;
const COUPLE_SHARE: f64 = 0.35;
const ROOT: f64 = 1.5;

/// Of the mean: 0.75 for a proof, 0.45 for 25 000 times (tolerance limit 0.75 to 0.81, cyclic to static 0.57 to 0.67).
fn factor(service: Service) -> f64 {
    match service {
        Service::Proof => 0.75,
        Service::Lasting => 0.45,
    }
}

/// Mean capacities of a joint, N·mm and N.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Capacity {
    /// Bending in the plane of the cheeks.
    pub(super) strong: f64,
    /// Bending across them.
    pub(super) weak: f64,
    /// Twisting of the tenon.
    pub(super) twist: f64,
    /// Pulling out.
    pub(super) pull: f64,
}

/// How much of a joint's capacity, when it is not yet reduced by its service, a case uses.
pub(super) fn used(mean: &Capacity, seat: &Seat<'_>, forces: &MemberForces, case: &Case) -> Worst {
    let joint = seat.joint;
    let inner = forces.along(seat.shoulder);
    let [x, y, z] = seat.axes;
    let moment = x * inner.t + y * inner.my + z * inner.mz;
    let force = x * inner.n + y * inner.vy + z * inner.vz;
    let allowed = factor(case.service);
    let part = |demand: f64, capacity: f64| demand.abs() / (capacity * allowed);
    // The force within the guest pulls where it is positive along the member; only a pull opens the joint.
    let pull = max(0.0, force.dot(x));
    let share = part(moment.dot(joint.mouth.z), mean.strong)
        + part(moment.dot(joint.mouth.y), mean.weak)
        + part(moment.dot(joint.mouth.x), mean.twist)
        + part(pull, mean.pull);
    let capacity = mean.strong * allowed * 1e-3;
    Worst { share, demand: share * capacity, capacity, case: case.name }
}

/// Mean capacities from the sizes of the joint and the timber of its guest.
pub(super) fn mean(joint: &Joint, timber: Held) -> Capacity {
    let t = &joint.tenon;
    let (length, width, thickness) = (t.middle_length(), t.width, t.thickness);
    let fit = fit(joint.mortise.thickness - t.thickness);
    let area = t.cheeks() * fit;
    let shoulder = t.shoulders.top.min(t.shoulders.bottom).max(0.0);
    let couple = COUPLE_SHARE * timber.shear;
    let strong = (TWIST_SHARE * timber.shear * area * arm(length, width))
        .min(couple * area * (shoulder + width / 2.0))
        .min(ROOT * timber.bending * thickness * width * width / 6.0);
    let flat = t.shoulders.front.min(t.shoulders.back).max(0.0);
    let weak = (couple * area * (flat + thickness / 2.0))
        .min(ROOT * timber.bending * width * thickness * thickness / 6.0);
    let (long, short) = (width.max(thickness), width.min(thickness));
    // Twisting of a rectangle: τ = T (3 a + 1.8 b) / (a² b²) (Roark).
    let twist = timber.shear * long * long * short * short / (3.0 * long + 1.8 * short);
    Capacity { strong, weak, twist, pull: couple * area }
}

/// Mean distance of the points of a rectangle from its middle, mm.
fn arm(length: f64, width: f64) -> f64 {
    let (a, b) = (length / 2.0, width / 2.0);
    let d = (a * a + b * b).sqrt();
    4.0 / (length * width)
        * (a * b * d / 3.0 + a * a * a / 6.0 * asinh(b / a) + b * b * b / 6.0 * asinh(a / b))
}

fn asinh(x: f64) -> f64 {
    ln(x + (x * x + 1.0).sqrt())
}

/// What a loose fit leaves: all up to 0.13 mm, 0.79 at 0.25 mm (a published test, second-hand), in a straight line
/// between and beyond, at least a half.
fn fit(gap: f64) -> f64 {
    (1.0 - 0.21 * ((gap - 0.13) / 0.12).max(0.0)).max(0.5)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The published joint: L 32, H 38: r = 13.421 mm, and with τ = 10.9 MPa 356 Nm; the couple with 4.6 MPa 355 Nm.
    #[test]
    fn the_arm_of_the_published_joint() {
        assert!((arm(32.0, 38.0) - 13.421).abs() < 5e-4, "{}", arm(32.0, 38.0));
        let cheeks = 2.0 * 32.0 * 38.0;
        assert!((10.9 * cheeks * arm(32.0, 38.0) * 1e-3 - 356.0).abs() < 1.0);
        assert!((4.6 * cheeks * ((63.5 - 38.0) / 2.0 + 19.0) * 1e-3 - 355.0).abs() < 1.0);
    }

    /// Other sizes of the same table, by both models, Nm.
    #[test]
    fn the_table_of_sizes() {
        for (l, h, rail, twist, couple) in [
            (25.0, 40.0, 60.0, 275.0, 276.0),
            (30.0, 50.0, 70.0, 510.0, 483.0),
            (50.0, 50.0, 70.0, 1043.0, 805.0),
        ] {
            let cheeks = 2.0 * l * h;
            assert!((10.9 * cheeks * arm(l, h) * 1e-3 - twist).abs() < 1.5, "{l} × {h}");
            assert!((4.6 * cheeks * ((rail - h) / 2.0 + h / 2.0) * 1e-3 - couple).abs() < 1.5, "{l} × {h}");
        }
    }

    #[test]
    fn a_loose_fit_holds_less() {
        assert_eq!((fit(0.05), fit(0.13)), (1.0, 1.0));
        assert!((fit(0.25) - 0.79).abs() < 1e-9 && fit(9.0) == 0.5);
    }
}
