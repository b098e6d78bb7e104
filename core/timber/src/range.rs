//! A figure outside the range in which a formula holds.

/// What is outside, and the range; the text says what to do.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OutOfRange {
    /// Such as `relative humidity`.
    pub what: &'static str,
    /// As given.
    pub value: f64,
    /// The least that is allowed.
    pub min: f64,
    /// The most that is allowed.
    pub max: f64,
    /// Unit of the three figures, with a space before it; empty for a share.
    pub unit: &'static str,
}

impl core::fmt::Display for OutOfRange {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let Self { what, value, min, max, unit } = self;
        write!(f, "The {what} is {value}{unit}; give one from {min} to {max}{unit}.")
    }
}

impl core::error::Error for OutOfRange {}

/// The value, if it lies within the range; a value that is no number does not.
pub(crate) fn within(
    what: &'static str,
    value: f64,
    [min, max]: [f64; 2],
    unit: &'static str,
) -> Result<f64, OutOfRange> {
    if (min..=max).contains(&value) { Ok(value) } else { Err(OutOfRange { what, value, min, max, unit }) }
}
