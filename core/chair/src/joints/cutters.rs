//! The cutters a shop has for mortises.

/// Widths of the chisels or cutters at hand, mm, ascending.
#[derive(Clone, Debug, PartialEq)]
pub struct Cutters(Vec<f64>);

impl Cutters {
    /// The widths given, put in order; those that are not positive numbers are left out.
    pub fn new(widths: &[f64]) -> Self {
        let mut widths: Vec<f64> = widths.iter().copied().filter(|w| w.is_finite() && *w > 0.0).collect();
        widths.sort_by(f64::total_cmp);
        Self(widths)
    }

    /// The width nearest to `wish` from `least` to `most`, the smaller of two equally near.
    pub fn nearest(&self, wish: f64, least: f64, most: f64) -> Option<f64> {
        let fit = self.0.iter().copied().filter(|w| (least..=most).contains(w));
        fit.min_by(|a, b| (a - wish).abs().total_cmp(&(b - wish).abs()))
    }

    /// The `steps`-th width smaller than `width` that is at least `least`.
    pub fn smaller(&self, width: f64, steps: usize, least: f64) -> Option<f64> {
        let below = self.0.iter().rev().copied().filter(|w| *w < width && *w >= least);
        core::iter::once(width).chain(below).nth(steps)
    }
}

impl Default for Cutters {
    /// Metric widths sold everywhere (common practice, no source).
    fn default() -> Self {
        Self::new(&[5.0, 6.0, 8.0, 9.0, 10.0, 12.0, 14.0, 16.0])
    }
}

/// What a shop brings to its joints.
#[derive(Clone, Debug, PartialEq)]
pub struct Bench {
    /// The cutters for mortises.
    pub cutters: Cutters,
    /// Play of a tenon in its mortise over the whole thickness and width, mm.
    pub fit: f64,
}

impl Default for Bench {
    /// The default cutters, and the play of [`FIT`](super::rules::FIT).
    fn default() -> Self {
        Self { cutters: Cutters::default(), fit: super::rules::FIT }
    }
}
