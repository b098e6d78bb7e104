//! Vectors of three and their outer products.

pub(crate) type Vector = [f64; 3];
pub(crate) type Matrix = [[f64; 3]; 3];

pub(crate) fn dot(a: Vector, b: Vector) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

pub(crate) fn cross(a: Vector, b: Vector) -> Vector {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

pub(crate) fn less(a: Vector, b: Vector) -> Vector {
    [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

pub(crate) fn times(a: Vector, k: f64) -> Vector {
    a.map(|c| c * k)
}

pub(crate) fn length(a: Vector) -> f64 {
    dot(a, a).sqrt()
}

/// Adds `k` times the outer product `a bᵀ`.
pub(crate) fn add_outer(to: &mut Matrix, k: f64, a: Vector, b: Vector) {
    for (row, c) in to.iter_mut().zip(a) {
        for (cell, d) in row.iter_mut().zip(b) {
            *cell += k * c * d;
        }
    }
}

/// A vector told in the axes `x, y, z`, in global axes.
pub(crate) fn global(axes: &Matrix, local: [f64; 3]) -> Vector {
    core::array::from_fn(|c| axes[0][c] * local[0] + axes[1][c] * local[1] + axes[2][c] * local[2])
}

/// A global vector in the axes `x, y, z`.
pub(crate) fn local(axes: &Matrix, global: Vector) -> Vector {
    axes.map(|axis| dot(axis, global))
}
