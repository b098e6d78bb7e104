//! Bending of one member in one plane, with a spring at each end.

/// The end moments m of a member whose ends turn by θ against its chord: m_i = ii θ_i + ij θ_j and
/// m_j = ij θ_i + jj θ_j, with the springs in series condensed out.
///
/// Symbols: L length, B = EI/L, φ = 12 EI / (G A_s L²) the share of shear, R a spring, g = R / (R + B) and
/// h = B / (R + B) = 1 − g. A simply supported beam turns at its ends by f m with
/// f = [[4 + φ, φ − 2], [φ − 2, 4 + φ]] / (12 B) (the inverse of the Timoshenko stiffness, J. S. Przemieniecki, *Theory of
/// Matrix Structural Analysis*, 1968, §5.6); springs in series add 1/R to its diagonal. The inverse of the sum,
/// with numerator and denominator times g_i g_j, is
///
/// ii = B g_i ((4 + φ) g_j / 12 + h_j) / D, ij = B (2 − φ) g_i g_j / (12 D), jj like ii, and
/// D = (1 + φ) g_i g_j / 12 + (4 + φ) (h_i g_j + g_i h_j) / 12 + h_i h_j.
///
/// No term of D is negative and the sums below are written out likewise, so no figure is lost however
/// stiff or soft the springs; a rigid end is g = 1, h = 0.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Bending {
    pub(crate) ii: f64,
    pub(crate) ij: f64,
    pub(crate) jj: f64,
    /// ii + ij.
    pub(crate) i: f64,
    /// ij + jj.
    pub(crate) j: f64,
    /// ii + 2 ij + jj.
    pub(crate) all: f64,
    /// Size of the end moments by an even load of 1 N/mm, both ends held, mm².
    ///
    /// Simply supported, the ends turn by ±q L³ / (24 EI), whatever the shear: so m = (ii − ij) L³ / (24 EI) at `i`.
    pub(crate) load_i: f64,
    /// Likewise at `j`.
    pub(crate) load_j: f64,
}

impl Bending {
    /// Of a member with `ei` (N·mm²), `length` (mm), shear stiffness G A_s (N) and springs (N·mm/rad).
    pub(crate) fn new(ei: f64, length: f64, shear: Option<f64>, springs: [Option<f64>; 2]) -> Self {
        let beam = ei / length;
        let phi = shear.map_or(0.0, |shear| 12.0 * beam / (shear * length));
        let [(gi, hi), (gj, hj)] = springs.map(|spring| fixity(beam, spring));
        let (near, far) = ((4.0 + phi) / 12.0, (2.0 - phi) / 12.0);
        let whole = (1.0 + phi) / 12.0 * gi * gj + near * (hi * gj + gi * hj) + hi * hj;
        let (k, span) = (beam / whole, length * length / (24.0 * whole));
        // ii − ij over k: near − far is (1 + φ) / 6.
        let apart = |g: f64, other_g: f64, other_h: f64| g * ((1.0 + phi) / 6.0 * other_g + other_h);
        Self {
            ii: k * gi * (near * gj + hj),
            ij: k * far * gi * gj,
            jj: k * gj * (near * gi + hi),
            i: k * gi * (0.5 * gj + hj),
            j: k * gj * (0.5 * gi + hi),
            all: k * (gi * gj + gi * hj + hi * gj),
            load_i: span * apart(gi, gj, hj),
            load_j: span * apart(gj, gi, hi),
        }
    }

    /// End moments for rotations against the chord.
    pub(crate) fn moments(&self, [at_i, at_j]: [f64; 2]) -> [f64; 2] {
        [self.ii * at_i + self.ij * at_j, self.ij * at_i + self.jj * at_j]
    }
}

/// (g, h): the shares of a turn that the beam and that the spring take, were they of equal moment.
fn fixity(beam: f64, spring: Option<f64>) -> (f64, f64) {
    spring.map_or((1.0, 0.0), |spring| (spring / (spring + beam), beam / (spring + beam)))
}

#[cfg(test)]
mod tests {
    use super::*;

    const EI: f64 = 1.6e9;
    const L: f64 = 450.0;

    fn assert_near(value: f64, wanted: f64) {
        assert!((value - wanted).abs() <= 1e-12 * wanted.abs(), "{value:e} is not {wanted:e}");
    }

    /// 4 EI/L and 2 EI/L; q L²/12.
    #[test]
    fn rigid_ends_without_shear() {
        let b = Bending::new(EI, L, None, [None, None]);
        assert_near(b.ii, 4.0 * EI / L);
        assert_near(b.jj, 4.0 * EI / L);
        assert_near(b.ij, 2.0 * EI / L);
        assert_near(b.load_i, L * L / 12.0);
    }

    /// (4 + φ) EI / ((1 + φ) L) and (2 − φ) EI / ((1 + φ) L), Przemieniecki.
    #[test]
    fn rigid_ends_with_shear() {
        for phi in [0.01, 1.0, 2.0, 70.0, 1e9] {
            let b = Bending::new(EI, L, Some(12.0 * EI / (phi * L * L)), [None, None]);
            assert_near(b.ii, (4.0 + phi) / (1.0 + phi) * EI / L);
            assert!((b.ij - (2.0 - phi) / (1.0 + phi) * EI / L).abs() < 1e-12 * EI / L);
            assert_near(b.load_j, L * L / 12.0);
        }
    }

    /// A pin at one end leaves 3 EI/L; a very soft spring all but that, a very stiff one the rigid beam.
    #[test]
    fn soft_and_stiff_springs_near_the_limits() {
        let pinned = Bending::new(EI, L, None, [None, Some(1e-20)]);
        assert_near(pinned.ii, 3.0 * EI / L);
        assert_near(pinned.load_i, L * L / 8.0);
        assert_near(pinned.jj, 1e-20);
        let (rigid, stiff) =
            (Bending::new(EI, L, None, [None; 2]), Bending::new(EI, L, None, [Some(1e25); 2]));
        for (a, b) in [(stiff.ii, rigid.ii), (stiff.ij, rigid.ij), (stiff.all, rigid.all)] {
            assert_near(a, b);
        }
    }

    /// The matrix is the inverse of the beam's flexibility with 1/R on its diagonal.
    #[test]
    fn springs_in_series_add_their_flexibility() {
        let phi = 0.4;
        for (ri, rj) in [(5e6, 3e5), (1e3, 1e9), (2e7, 2e7)] {
            let b = Bending::new(EI, L, Some(12.0 * EI / (phi * L * L)), [Some(ri), Some(rj)]);
            let f = L / (12.0 * EI);
            let (fi, fj, fij) = (f * (4.0 + phi) + 1.0 / ri, f * (4.0 + phi) + 1.0 / rj, f * (phi - 2.0));
            for moments in [[1.0, 0.0], [0.0, 1.0], [3.0, -2.0]] {
                let turns = [fi * moments[0] + fij * moments[1], fij * moments[0] + fj * moments[1]];
                let back = b.moments(turns);
                assert!(
                    (back[0] - moments[0]).abs() < 1e-9 && (back[1] - moments[1]).abs() < 1e-9,
                    "{back:?}"
                );
            }
            assert!((b.i - b.ii - b.ij).abs() < 1e-12 * b.ii && (b.j - b.jj - b.ij).abs() < 1e-12 * b.jj);
            assert!((b.all - b.ii - 2.0 * b.ij - b.jj).abs() < 1e-12 * b.all);
        }
    }
}
