//! Pictures of solids: what somebody sees who looks at them from far away.
//!
//! [`Picture::take`] turns many solids into flat faces in such an order that painting them one
//! over the other shows exactly what is in front. The solids may touch but not enter each other.
//!
//! [`draft`] draws the same subjects in lines, seen and hidden.
//!
//! The way of a face: projected (`flat`), dropped if it is surely covered (`hidden`), found to lie over or under others (`relate`), put in
//! order, and cut in two where no order exists (`order`).

mod camera;
mod cut;
mod draft;
mod flat;
mod graph;
mod hidden;
mod meet;
mod near;
mod order;
mod relate;
mod samples;
mod wire;

#[cfg(test)]
mod tests;

pub use camera::Camera;
pub use draft::{Stretch, draft};
pub use flat::{Edge, Outline, Shown};
pub use samples::{NOBODY, Samples, depths};

use crate::{Place, Solid};
use core::cell::OnceCell;
use flat::Bounds;
use kurbo::Point;
use near::Near;

/// A solid and where it stands.
#[derive(Clone, Copy, Debug)]
pub struct Subject<'a> {
    /// Told again with each of its faces.
    pub owner: usize,
    /// The body in its own frame.
    pub solid: &'a Solid,
    /// Where that frame stands.
    pub place: Place,
}

/// Faces in the order in which they must be painted.
#[derive(Clone, Debug)]
pub struct Picture {
    /// The camera it was taken with.
    pub camera: Camera,
    /// Faces turned to the camera, from back to front; those wholly covered by others are left out
    /// where that was cheap to see.
    pub faces: Vec<Shown>,
    /// Faces that were painted although no order could be found for them; zero unless solids
    /// enter each other in a way that cutting could not untangle.
    pub unsettled: usize,
    /// Finds faces by their place; made when first asked.
    near: OnceCell<Near>,
}

impl Picture {
    /// Looks at the subjects through the camera.
    pub fn take(subjects: &[Subject<'_>], camera: &Camera) -> Self {
        let mut faces = Vec::new();
        subjects.iter().for_each(|subject| flat::add_seen(&mut faces, subject, camera));
        let (faces, unsettled) = order::back_to_front(hidden::without_hidden(faces));
        Self { camera: *camera, faces, unsettled, near: OnceCell::new() }
    }

    /// Index of the face that is seen at a point of the picture.
    pub fn seen_at(&self, p: Point) -> Option<usize> {
        let bounds = Bounds::of(&[p]);
        self.near().to(&bounds).rev().find(|&face| self.faces[face].covers(p))
    }

    fn near(&self) -> &Near {
        self.near.get_or_init(|| Near::of(self.faces.iter().map(|face| face.bounds).collect()))
    }
}
