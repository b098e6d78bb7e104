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

/// The papers that can be chosen. A4 to A1 after ISO 216; Letter and Tabloid are the sizes A and B of ANSI/ASME Y14.1,
/// 8½ × 11 and 11 × 17 inches, after which come C and D, 17 × 22 and 22 × 34 inches (from memory); a roll of 36 inches is
/// what large printers commonly take (common practice, no source).
pub const PAPERS: [Paper; 9] = [
    Paper { name: "a4", label: "A4", short: 210.0, long: Some(297.0) },
    Paper { name: "a3", label: "A3", short: 297.0, long: Some(420.0) },
    Paper { name: "a2", label: "A2", short: 420.0, long: Some(594.0) },
    Paper { name: "a1", label: "A1", short: 594.0, long: Some(841.0) },
    Paper { name: "letter", label: "Letter", short: 8.5 * INCH, long: Some(11.0 * INCH) },
    Paper { name: "tabloid", label: "Tabloid", short: 11.0 * INCH, long: Some(17.0 * INCH) },
    Paper { name: "ansi-c", label: "ANSI C", short: 17.0 * INCH, long: Some(22.0 * INCH) },
    Paper { name: "ansi-d", label: "ANSI D", short: 22.0 * INCH, long: Some(34.0 * INCH) },
    Paper { name: "roll", label: "Roll, 36 in wide", short: 36.0 * INCH, long: None },
];

impl Paper {
    /// Whether its sizes are those of ANSI, not of ISO.
    pub fn is_ansi(&self) -> bool {
        matches!(self.name, "letter" | "tabloid" | "ansi-c" | "ansi-d")
    }

    /// Whether a document of pages is read on it: a sheet that lies before the reader and that office printers take, A3 or
    /// Tabloid at most (common practice, no source).
    pub fn is_page(&self) -> bool {
        self.long.is_some_and(|long| long <= 17.0 * INCH)
    }

    /// The paper with this name.
    pub fn named(name: &str) -> Option<&'static Self> {
        PAPERS.iter().find(|paper| paper.name == name)
    }
}
