//! What acts on a frame.

/// Loads that act together.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LoadCase {
    /// On nodes; several on one node add up.
    pub nodes: Vec<NodeLoad>,
    /// Along members; several on one member add up.
    pub members: Vec<UniformLoad>,
}

/// A force and a moment on a node, in global axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NodeLoad {
    /// Index of the node.
    pub node: usize,
    /// N.
    pub force: [f64; 3],
    /// N·mm.
    pub moment: [f64; 3],
}

/// An even load all along a member, in global axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UniformLoad {
    /// Index of the member.
    pub member: usize,
    /// N for each mm of the member.
    pub force: [f64; 3],
}
