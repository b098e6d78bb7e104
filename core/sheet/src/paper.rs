//! Sizes of paper.

/// What is printed on, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Paper {
    /// Its name in requests and files.
    pub name: &'static str,
    /// Its name for people.
    pub label: &'static str,
    /// The shorter side; of a roll its width.
    pub short: f64,
    /// The longer side; `None` for a roll, which is cut off where the drawing ends.
    pub long: Option<f64>,
}

/// An inch (exact by definition, 1959), mm.
pub const INCH: f64 = 25.4;

/// The papers that can be chosen. A4 and A3 after ISO 216; Letter and Tabloid are the sizes A and B of ANSI/ASME Y14.1,
/// 8½ × 11 and 11 × 17 inches; a roll of 36 inches is what large printers commonly take (common practice, no source).
pub const PAPERS: [Paper; 5] = [
    Paper { name: "a4", label: "A4", short: 210.0, long: Some(297.0) },
    Paper { name: "a3", label: "A3", short: 297.0, long: Some(420.0) },
    Paper { name: "letter", label: "Letter", short: 8.5 * INCH, long: Some(11.0 * INCH) },
    Paper { name: "tabloid", label: "Tabloid", short: 11.0 * INCH, long: Some(17.0 * INCH) },
    Paper { name: "roll", label: "Roll, 36 in wide", short: 36.0 * INCH, long: None },
];

impl Paper {
    /// Whether its sizes are those of ANSI, not of ISO.
    pub fn is_ansi(&self) -> bool {
        matches!(self.name, "letter" | "tabloid")
    }

    /// The paper with this name.
    pub fn named(name: &str) -> Option<&'static Self> {
        PAPERS.iter().find(|paper| paper.name == name)
    }
}
