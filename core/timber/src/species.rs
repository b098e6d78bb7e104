//! Species of timber.

/// A species of timber: means of clear wood at 12 % moisture.
#[derive(Debug, PartialEq)]
pub struct Species {
    /// Stable name in files, such as `ash_white`.
    pub id: &'static str,
    /// Name in the trade.
    pub name: &'static str,
    /// Density at 12 % moisture, kg/m³.
    pub density: f64,
}
