//! Straight beams in space, joined rigidly or by springs: loads in, displacements and forces out.
//! This crate knows no chair.
//!
//! Units: N, mm, MPa (N/mm²), N·mm, radians. Linear and elastic; displacements are taken to be small.
//!
//! A [`Frame`] is plain data. [`Structure::new`] checks it and works out what no stiffness changes (axes, an order of
//! the nodes, room for the matrix); [`Structure::factorise`] sets up and factorises the stiffness for the springs as
//! they stand; [`Stiff::solve`] answers one load case. To try other springs, call [`Structure::set_springs`]
//! and factorise again; the rest is kept.
//!
//! # Conventions
//!
//! - Local x runs from `i` to `j`, z = x × `up`, y = z × x: `up` lies in the local x–y plane. `iz` is the second moment
//!   for bending in the x–y plane (about z), `iy` for the x–z plane.
//! - Displacements and end forces come as three along x, y, z and three about x, y, z, right-handed.
//! - End forces are local, act *on* the member, at `i` then at `j`. The forces within it
//!   ([`Inner`]: N, Vy, Vz, T, My, Mz) are told by [`MemberForces::along`].
//! - A spring at a member's end lets the end turn against the node about a local axis. The node's rotation is the
//!   node's; the member's end behind the spring has its own, which is condensed out exactly.
//!
//! ```
//! use crestrail_frame::{Frame, LoadCase, Member, NodeLoad, Section, Springs, Support, solve};
//!
//! let section = Section { e: 12000.0, g: 750.0, area: 1000.0, iy: 52083.3, iz: 133333.3, torsion: 127345.2,
//!     shear_y: None, shear_z: None };
//! let beam = Member { i: 0, j: 1, section, up: [0.0, 0.0, 1.0], springs_i: Springs::RIGID, springs_j: Springs::RIGID };
//! let frame = Frame {
//!     nodes: vec![[0.0, 0.0, 0.0], [400.0, 0.0, 0.0]],
//!     members: vec![beam],
//!     supports: vec![Support { node: 0, fixed: [true; 6] }],
//! };
//! let load = NodeLoad { node: 1, force: [0.0, 0.0, -100.0], moment: [0.0; 3] };
//! let case = LoadCase { nodes: vec![load], members: vec![] };
//! let answer = &solve(&frame, &[case])?[0];
//! assert!((answer.displacements[1][2] + 1.333333).abs() < 1e-5);
//! # Ok::<(), crestrail_frame::Trouble>(())
//! ```

mod bar;
mod bending;
mod blocks;
mod check;
mod forces;
mod loads;
mod model;
mod order;
mod solve;
mod stiffness;
mod structure;
mod trouble;
mod vector;

#[cfg(test)]
mod tests;

pub use forces::{Inner, MemberForces};
pub use loads::{LoadCase, NodeLoad, UniformLoad};
pub use model::{End, Frame, Member, Section, Springs, Support};
pub use solve::{Reaction, Solution, Stiff, solve};
pub use structure::Structure;
pub use trouble::Trouble;
