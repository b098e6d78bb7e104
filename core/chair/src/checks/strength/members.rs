//! What a beam holds: bending, pull and shear at its worst place.

use super::Worst;
use super::cases::{Case, Service};
use super::frame::Beam;
use super::timber::Held;
use crestrail_frame::MemberForces;
use crestrail_phrases::phrase;

pub(super) const SOURCE: &str = phrase(
    "bending and shear of a rectangular beam (Wood Handbook, FPL-GTR-282, ch. 9); lasting use 40 % of the strength in bending (Ratnasingam and Ioras 2010), a proof 74 % (mean less 1.645 times a spread of 16 %); strength at the moisture of the dampest weeks, 12 % or more (Wood Handbook, FPL-GTR-190, Eq. 5-3; of a species without green values as little as of any that has them)",
);

/// Places along a member that are looked at, as shares of its length.
const PLACES: [f64; 3] = [0.0, 0.5, 1.0];

/// How much of the timber's strength a case may use.
fn factor(service: Service) -> f64 {
    match service {
        Service::Proof => 0.74,
        Service::Lasting => 0.4,
    }
}

/// The worst of bending with pull or pressure, and of shear, told as a stress in bending.
pub(super) fn of(beam: &Beam<'_>, timber: Held, forces: &MemberForces, case: &Case) -> Worst {
    let allowed = factor(case.service);
    let [y, z] = beam.size;
    let stress = |share: f64| {
        let inner = forces.along(share);
        // Mortises lie where other parts join, at the ends.
        let left = if share == 0.5 { 1.0 } else { beam.left };
        let bending = 6.0 * inner.mz.abs() / (z * y * y) + 6.0 * inner.my.abs() / (y * z * z);
        let shear = 1.5 * (inner.vy.abs() + inner.vz.abs()) / (y * z) / left;
        let bent = (bending + inner.n.abs() / (y * z)) / left / timber.bending;
        bent.max(shear / timber.shear)
    };
    let worst = PLACES.map(stress).into_iter().fold(0.0, f64::max);
    let capacity = timber.bending * allowed;
    Worst { share: worst / allowed, demand: worst * timber.bending, capacity, case: case.name }
}
