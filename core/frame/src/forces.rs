//! Forces at the ends of a member and within it.

use crate::model::End;

/// What acts on one member.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MemberForces {
    /// On the member, local: Fx, Fy, Fz, Mx, My, Mz at `i`, then at `j`; N and N·mm.
    pub ends: [f64; 12],
    /// mm.
    pub length: f64,
    /// Even load, local, N/mm.
    pub load: [f64; 3],
}

/// The forces in a cross-section: what the part towards `j` does to the part towards `i`, in local axes.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Inner {
    /// Along the member, N; tension is positive.
    pub n: f64,
    /// Shear along y, N.
    pub vy: f64,
    /// Shear along z, N.
    pub vz: f64,
    /// Torque about x, N·mm.
    pub t: f64,
    /// Moment about y, N·mm; positive stretches the side of +z.
    pub my: f64,
    /// Moment about z, N·mm; positive stretches the side of −y.
    pub mz: f64,
}

impl MemberForces {
    /// The forces in the section next to an end.
    pub fn at(&self, end: End) -> Inner {
        match end {
            End::I => self.along(0.0),
            End::J => self.along(1.0),
        }
    }

    /// The forces in the section at a share of the length from `i`, held to 0…1: balance of the part towards `i`.
    pub fn along(&self, share: f64) -> Inner {
        let s = self.length * share.clamp(0.0, 1.0);
        let [fx, fy, fz, mx, my, mz, ..] = self.ends;
        let [qx, qy, qz] = self.load;
        Inner {
            n: -fx - qx * s,
            vy: -fy - qy * s,
            vz: -fz - qz * s,
            t: -mx,
            my: -my - fz * s - qz * s * s / 2.0,
            mz: -mz + fy * s + qy * s * s / 2.0,
        }
    }
}
