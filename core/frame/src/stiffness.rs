//! The stiffness of one member: from rotations and stretches to end forces.
//!
//! Between its ends a member only stretches, twists and turns against its chord; all other movement is that of a rigid
//! body and costs nothing. End forces follow from these by equilibrium, so they balance to the last figure.

use crate::bar::Bar;
use crate::bending::Bending;
use crate::vector::{Matrix, Vector, add_outer, less, local};

#[derive(Clone, Copy, Debug)]
pub(crate) struct Stiffness {
    /// E A / L, N/mm.
    axial: f64,
    /// G J / L with the springs in series, N·mm/rad.
    twist: f64,
    /// In the x–z plane.
    about_y: Bending,
    /// In the x–y plane.
    about_z: Bending,
}

/// The forces at one node by the movements of one node, rows and columns: along x, y, z, then about them.
pub(crate) type Six = [[f64; 6]; 6];

/// A member's stiffness in global axes, node by node.
pub(crate) struct Matrices {
    /// At `i` by movements of `i`; symmetric.
    pub(crate) ii: Six,
    /// At `i` by movements of `j`.
    pub(crate) ij: Six,
    /// At `j` by movements of `j`; symmetric.
    pub(crate) jj: Six,
}

impl Stiffness {
    pub(crate) fn new(bar: &Bar) -> Self {
        let Bar { section: s, length, springs: [i, j], .. } = bar;
        let shear = |area: Option<f64>| area.map(|area| s.g * area);
        let soft = |spring: Option<f64>| spring.map_or(0.0, |spring| 1.0 / spring);
        Self {
            axial: s.e * s.area / length,
            twist: 1.0 / (length / (s.g * s.torsion) + soft(i.x) + soft(j.x)),
            about_y: Bending::new(s.e * s.iy, *length, shear(s.shear_z), [i.y, j.y]),
            about_z: Bending::new(s.e * s.iz, *length, shear(s.shear_y), [i.z, j.z]),
        }
    }

    /// The matrix in global axes.
    pub(crate) fn matrix(&self, bar: &Bar) -> Matrices {
        let Self { axial, twist, about_y: y, about_z: z } = self;
        let (axes, long) = (&bar.axes, bar.length);
        let along = diagonal(axes, [*axial, z.all / (long * long), y.all / (long * long)]);
        let (at_i, at_j) = (coupling(axes, z.i / long, y.i / long), coupling(axes, z.j / long, y.j / long));
        let (back_i, back_j) = (transposed(&at_i), transposed(&at_j));
        Matrices {
            ii: six([[&along, &at_i], [&back_i, &diagonal(axes, [*twist, y.ii, z.ii])]]),
            ij: six([
                [&negative(&along), &at_j],
                [&negative(&back_i), &diagonal(axes, [-twist, y.ij, z.ij])],
            ]),
            jj: six([
                [&along, &negative(&at_j)],
                [&negative(&back_j), &diagonal(axes, [*twist, y.jj, z.jj])],
            ]),
        }
    }

    /// Local end forces for the displacements of the two nodes (global) and an even load (local, N/mm).
    pub(crate) fn end_forces(&self, bar: &Bar, at: [&[f64; 6]; 2], load: Vector) -> [f64; 12] {
        let (long, strain) = (bar.length, Strain::new(bar, at));
        let (mut y, mut z) = (self.about_y.moments(strain.about_y), self.about_z.moments(strain.about_z));
        y[0] += self.about_y.load_i * load[2];
        y[1] -= self.about_y.load_j * load[2];
        z[0] -= self.about_z.load_i * load[1];
        z[1] += self.about_z.load_j * load[1];
        let (stretch, twist) = (self.axial * strain.stretch, self.twist * strain.twist);
        let (shear_y, shear_z) = ((z[0] + z[1]) / long, -(y[0] + y[1]) / long);
        let half = load.map(|load| load * long / 2.0);
        [
            -stretch - half[0],
            shear_y - half[1],
            shear_z - half[2],
            -twist,
            y[0],
            z[0],
            stretch - half[0],
            -shear_y - half[1],
            -shear_z - half[2],
            twist,
            y[1],
            z[1],
        ]
    }

    /// Twice the energy stored, N·mm.
    pub(crate) fn energy(&self, bar: &Bar, at: [&[f64; 6]; 2]) -> f64 {
        let Strain { stretch, twist, about_y, about_z } = Strain::new(bar, at);
        let bent = |bending: &Bending, [i, j]: [f64; 2]| {
            let [at_i, at_j] = bending.moments([i, j]);
            at_i * i + at_j * j
        };
        self.axial * stretch * stretch
            + self.twist * twist * twist
            + bent(&self.about_y, about_y)
            + bent(&self.about_z, about_z)
    }
}

/// What a member's nodes do to it.
struct Strain {
    /// mm.
    stretch: f64,
    /// Of `j` against `i`, rad.
    twist: f64,
    /// Rotations of the nodes against the chord about y, rad.
    about_y: [f64; 2],
    /// Likewise about z.
    about_z: [f64; 2],
}

impl Strain {
    fn new(bar: &Bar, at: [&[f64; 6]; 2]) -> Self {
        let apart = local(&bar.axes, less(place(at[1]), place(at[0])));
        let [i, j] = at.map(|node| local(&bar.axes, [node[3], node[4], node[5]]));
        // The chord turns about z as j moves along y, about y against its movement along z.
        let (chord_y, chord_z) = (-apart[2] / bar.length, apart[1] / bar.length);
        Self {
            stretch: apart[0],
            twist: j[0] - i[0],
            about_y: [i[1] - chord_y, j[1] - chord_y],
            about_z: [i[2] - chord_z, j[2] - chord_z],
        }
    }
}

fn place(displacement: &[f64; 6]) -> Vector {
    [displacement[0], displacement[1], displacement[2]]
}

/// A matrix that is diagonal in the axes, told in global ones.
fn diagonal(axes: &Matrix, values: [f64; 3]) -> Matrix {
    let mut sum = [[0.0; 3]; 3];
    axes.iter().zip(values).for_each(|(axis, value)| add_outer(&mut sum, value, *axis, *axis));
    sum
}

/// The forces by rotations: along y by those about z, and along z, the other way, by those about y.
fn coupling(axes: &Matrix, about_z: f64, about_y: f64) -> Matrix {
    let mut sum = [[0.0; 3]; 3];
    add_outer(&mut sum, about_z, axes[1], axes[2]);
    add_outer(&mut sum, -about_y, axes[2], axes[1]);
    sum
}

fn transposed(m: &Matrix) -> Matrix {
    core::array::from_fn(|r| core::array::from_fn(|c| m[c][r]))
}

fn negative(m: &Matrix) -> Matrix {
    m.map(|line| line.map(|value| -value))
}

/// Four quarters, two above and two below.
fn six(quarters: [[&Matrix; 2]; 2]) -> Six {
    core::array::from_fn(|r| core::array::from_fn(|c| quarters[r / 3][c / 3][r % 3][c % 3]))
}
