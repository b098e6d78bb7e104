//! Feeling for timber: how much of a part lies ahead of a point.

use super::site::Site;
use super::trouble;
use crate::part::Part;
use crate::unbuildable::Unbuildable;
use crestrail_geometry::{Plane, Vec3};
use crestrail_phrases::word;

/// Timber of the host ahead of a point on or in it.
pub(super) fn reach(site: &Site<'_>, p: Vec3, d: Vec3) -> Result<f64, Unbuildable> {
    // A point in the host's face is taken as just inside it.
    let inside = p + site.inward * 1e-3;
    let found = timber(site.host, inside, d);
    found.ok_or_else(|| trouble::lost(site, word("it does not meet it")))
}

/// Timber of a part ahead of a point inside it; `None` from outside.
pub(super) fn timber(part: &Part, p: Vec3, d: Vec3) -> Option<f64> {
    part.exit(p, d).map(|exit| exit.distance).filter(|distance| *distance > 0.0)
}

/// The direction `d` laid into the host's face, which may slant.
pub(super) fn along_face(site: &Site<'_>, d: Vec3) -> Vec3 {
    let normal = site.face.normal;
    (d - normal * normal.dot(d)).unit()
}

/// The face of the host through which lines from all of `starts` along the tenon come out, if it is one.
pub(super) fn far_face(site: &Site<'_>, starts: &[Vec3]) -> Option<Plane> {
    let faces = starts.iter().map(|p| site.host.exit(*p + site.inward * 1e-3, site.inward));
    let faces: Vec<Plane> = faces.map(|exit| exit.map(|e| e.face)).collect::<Option<_>>()?;
    let first = *faces.first()?;
    let same = |face: &Plane| {
        face.normal.dot(first.normal) > 1.0 - 1e-9 && (face.offset - first.offset).abs() < 1e-6
    };
    faces.iter().all(same).then_some(first)
}
