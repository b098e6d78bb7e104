//! Vectors, places, outlines and solids. This crate knows no wood.
//!
//! Lengths are millimetres and angles radians throughout.

pub mod math;

mod body;
mod place;
mod plane;
mod solid;
mod vec3;

pub use body::{Body, Prism};
pub use place::Place;
pub use plane::Plane;
pub use solid::{Face, Ring, Solid};
pub use vec3::Vec3;
