//! Vectors, places, outlines and solids. This crate knows no wood.
//!
//! Lengths are millimetres and angles radians throughout.

pub mod leads;
pub mod math;
pub mod view;

mod body;
mod bounds;
mod carve;
mod clip;
mod coplanar;
mod corners;
mod grid;
mod hexahedron;
mod mass;
mod mesh;
mod notch;
pub mod outline;
mod piece;
mod place;
mod plane;
mod plane_frame;
mod polygon;
mod reach;
mod region;
mod section;
mod separate;
mod silhouette;
mod solid;
mod soup;
mod split;
mod sweep;
#[cfg(test)]
mod tests;
mod vec3;
mod weld;

pub use body::{Body, Prism};
pub use bounds::Bounds;
pub use carve::{CarveError, carve};
pub use outline::flatten;
pub use place::Place;
pub use plane::Plane;
pub use reach::Exit;
pub use silhouette::{coarser, grown, silhouette};
pub use solid::{Face, Ring, Solid};
pub use sweep::{Shade, Shadow};
pub use vec3::Vec3;
