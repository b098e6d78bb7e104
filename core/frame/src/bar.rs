//! A checked member: where it lies and which way its axes point.

use crate::model::{End, Frame, Section, Springs};
use crate::trouble::Trouble;
use crate::vector::{Matrix, cross, length, less, times};

/// Shortest member as a share of its ends' distance from the origin: the rounding of the coordinates (1e-16
/// of them) then turns its axes by less than 1e-7.
const SHORTEST: f64 = 1e-9;

/// Least sine of the angle between a member and its `up`, for the same reason.
const LEAST_ANGLE: f64 = 1e-6;

#[derive(Clone, Debug)]
pub(crate) struct Bar {
    pub(crate) ends: [usize; 2],
    /// Unit vectors x, y, z.
    pub(crate) axes: Matrix,
    pub(crate) length: f64,
    pub(crate) section: Section,
    pub(crate) springs: [Springs; 2],
}

impl Bar {
    /// The member `index` of a frame whose numbers are checked.
    pub(crate) fn new(frame: &Frame, index: usize) -> Result<Self, Trouble> {
        let member = &frame.members[index];
        let (from, to) = (frame.nodes[member.i], frame.nodes[member.j]);
        let along = less(to, from);
        let long = length(along);
        if long <= SHORTEST * (length(from) + length(to)) {
            let why =
                format!("Nodes {} and {} lie in one place, so the member has no length.", member.i, member.j);
            return Err(Trouble::new(format!("members[{index}]"), why));
        }
        Ok(Self {
            ends: [member.i, member.j],
            axes: axes(times(along, 1.0 / long), member.up)
                .ok_or_else(|| Trouble::new(format!("members[{index}].up"), ALONG))?,
            length: long,
            section: member.section,
            springs: [member.springs_i, member.springs_j],
        })
    }

    pub(crate) fn springs_mut(&mut self, end: End) -> &mut Springs {
        &mut self.springs[match end {
            End::I => 0,
            End::J => 1,
        }]
    }
}

const ALONG: &str = "This direction is zero or lies along the member. Give one across it.";

/// The axes of a member along the unit vector `x`; none if `up` is zero or along it.
fn axes(x: [f64; 3], up: [f64; 3]) -> Option<Matrix> {
    let across = cross(x, up);
    let size = length(across);
    let z = times(across, 1.0 / size);
    (size > LEAST_ANGLE * length(up)).then(|| [x, cross(z, x), z])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn up_lies_in_the_plane_of_x_and_y() {
        assert_eq!(
            axes([1.0, 0.0, 0.0], [5.0, 0.0, 2.0]),
            Some([[1.0, 0.0, 0.0], [0.0, 0.0, 1.0], [0.0, -1.0, 0.0]])
        );
        assert_eq!(
            axes([0.0, 0.0, 1.0], [0.0, 3.0, 0.0]),
            Some([[0.0, 0.0, 1.0], [0.0, 1.0, 0.0], [-1.0, 0.0, 0.0]])
        );
    }

    #[test]
    fn up_along_the_member_or_zero_gives_none() {
        for up in [[0.0; 3], [2.0, 0.0, 0.0], [-2.0, 1e-9, 0.0]] {
            assert_eq!(axes([1.0, 0.0, 0.0], up), None, "{up:?}");
        }
    }
}
