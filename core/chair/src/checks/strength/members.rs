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

/// The worst of bending with pull or pressure, and of shear, at both ends and in the middle, told as a stress in bending.
pub(super) fn of(beam: &Beam<'_>, timber: Held, forces: &MemberForces, case: &Case) -> Worst {
    let allowed = factor(case.service);
    let [y, z] = beam.size;
    let area = y * z;
    let (bent_z, bent_y) = (6.0 / (area * y * timber.bending), 6.0 / (area * z * timber.bending));
    let (pulled, sheared) = (1.0 / (area * timber.bending), 1.5 / (area * timber.shear));
    // Mortises lie where other parts join, at the ends.
    let ends = 1.0 / beam.left;
    let worst = [(0.0, ends), (0.5, 1.0), (1.0, ends)].into_iter().fold(0.0, |worst, (share, less)| {
        let inner = forces.along(share);
        let bent = inner.mz.abs() * bent_z + inner.my.abs() * bent_y + inner.n.abs() * pulled;
        let shear = (inner.vy.abs() + inner.vz.abs()) * sheared;
        max(worst, max(bent, shear) * less)
    });
    let capacity = timber.bending * allowed;
    Worst { share: worst / allowed, demand: worst * timber.bending, capacity, case: case.name }
}
