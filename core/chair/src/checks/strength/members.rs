//! What a beam holds: bending, pull and shear at its worst place.

use super::Worst;
use super::cases::{Case, Service};
use super::frame::Beam;
use super::timber::Held;
use crestrail_frame::MemberForces;
use crestrail_geometry::math::max;
use crestrail_phrases::phrase;

pub(super) const SOURCE: &str = phrase(
    "bending and shear of a rectangular beam (Wood Handbook, FPL-GTR-282, ch. 9); lasting use 40 % of the strength in bending (Ratnasingam and Ioras 2010), a proof 74 % (mean less 1.645 times a spread of 16 %); strength at the moisture of the dampest weeks, 12 % or more (Wood Handbook, FPL-GTR-190, Eq. 5-3; of a species without green values as little as of any that has them)",
);

/// How much of the timber's strength a case may use.
fn factor(service: Service) -> f64 {
    match service {
        Service::Proof => 0.74,
        Service::Lasting => 0.4,
    }
}

/// What forces in a beam come to, as shares of the timber's strength in bending.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Limits {
    bending: f64,
    /// Of a moment about z and about y, 1/(N·mm).
    bent: [f64; 2],
    /// Of a pull or pressure and of a shear, 1/N.
    pulled: f64,
    sheared: f64,
    /// How much more it is where mortises lie: where other parts join, at the ends.
    ends: f64,
}

impl Limits {
    pub(super) fn of(beam: &Beam<'_>, timber: Held) -> Self {
        let [y, z] = beam.size;
        let area = y * z;
        Self {
            bending: timber.bending,
            bent: [6.0 / (area * y * timber.bending), 6.0 / (area * z * timber.bending)],
            pulled: 1.0 / (area * timber.bending),
            sheared: 1.5 / (area * timber.shear),
            ends: 1.0 / beam.left,
        }
    }
}

/// The worst of bending with pull or pressure, and of shear, at both ends and in the middle, told as a stress in bending.
pub(super) fn of(limits: &Limits, forces: &MemberForces, case: &Case) -> Worst {
    let allowed = factor(case.service);
    let at = |share: f64| {
        let inner = forces.along(share);
        let [bent_z, bent_y] = limits.bent;
        let bent = inner.mz.abs() * bent_z + inner.my.abs() * bent_y + inner.n.abs() * limits.pulled;
        max(bent, (inner.vy.abs() + inner.vz.abs()) * limits.sheared)
    };
    let ends = max(at(0.0), at(1.0)) * limits.ends;
    // Between loads alone at nodes all goes straight from end to end, and the middle has no more than the worse of these.
    let worst = if forces.load == [0.0; 3] { ends } else { max(ends, at(0.5)) };
    let capacity = limits.bending * allowed;
    Worst { share: worst / allowed, demand: worst * limits.bending, capacity, case: case.name }
}
