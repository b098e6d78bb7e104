//! The frame as plain data.

/// Nodes, members between them, and what holds the nodes.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Frame {
    /// Places of the nodes, mm.
    pub nodes: Vec<[f64; 3]>,
    /// Straight members.
    pub members: Vec<Member>,
    /// At most one a node.
    pub supports: Vec<Support>,
}

/// A straight prismatic member.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Member {
    /// Index of the node where local x begins.
    pub i: usize,
    /// Index of the node where local x ends.
    pub j: usize,
    /// Its stiffness.
    pub section: Section,
    /// A direction of any length in the local x–y plane, on the side of +y; not along the member.
    pub up: [f64; 3],
    /// Between node `i` and the member.
    pub springs_i: Springs,
    /// Between node `j` and the member.
    pub springs_j: Springs,
}

/// The elastic values of a member and its cross-section; all above zero.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Section {
    /// Modulus of elasticity along the member, MPa.
    pub e: f64,
    /// Shear modulus, MPa.
    pub g: f64,
    /// Area, mm².
    pub area: f64,
    /// Second moment for bending in the local x–z plane (about y), mm⁴.
    pub iy: f64,
    /// Second moment for bending in the local x–y plane (about z), mm⁴.
    pub iz: f64,
    /// Torsion constant, mm⁴.
    pub torsion: f64,
    /// Shear area for forces along local y (bending about z), mm²; without it shear does not bend the member.
    pub shear_y: Option<f64>,
    /// Shear area for forces along local z (bending about y), mm²; likewise.
    pub shear_z: Option<f64>,
}

/// Rotational springs at a member's end about its local axes, N·mm/rad; `None` is rigid.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Springs {
    /// Against twist.
    pub x: Option<f64>,
    /// Against bending in the x–z plane.
    pub y: Option<f64>,
    /// Against bending in the x–y plane.
    pub z: Option<f64>,
}

impl Springs {
    /// No spring: the end turns with its node.
    pub const RIGID: Self = Self { x: None, y: None, z: None };
}

/// One of a member's ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum End {
    /// Where local x begins.
    I,
    /// Where local x ends.
    J,
}

/// What a node cannot do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Support {
    /// Index of the node.
    pub node: usize,
    /// No movement along x, y, z and no turning about x, y, z (global axes).
    pub fixed: [bool; 6],
}
