//! Lengths as they are written for the bench: millimetres, centimetres, or inches in binary fractions.
//!
//! A fraction of an inch seldom says a length exactly. What it leaves over stands behind it, so that nobody takes a
//! rounded figure for an exact one.

use crate::refusal::Refusal;
use crestrail_phrases::{figure, word};
use crestrail_sheet::paper::INCH;

/// What lengths are written in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lengths {
    /// Millimetres, to a tenth.
    Millimetres,
    /// Centimetres, to a hundredth.
    Centimetres,
    /// Inches and fractions of so many parts: 8, 16, 32 or 64.
    Inches(u32),
}

/// Names in requests and words for people, in the order of the page's list.
pub const ALL: [(&str, Lengths, &str); 6] = [
    ("mm", Lengths::Millimetres, "Millimetres"),
    ("cm", Lengths::Centimetres, "Centimetres"),
    ("in8", Lengths::Inches(8), "Inches, to 1/8"),
    ("in16", Lengths::Inches(16), "Inches, to 1/16"),
    ("in32", Lengths::Inches(32), "Inches, to 1/32"),
    ("in64", Lengths::Inches(64), "Inches, to 1/64"),
];

/// A remainder of less than this many inches is none: half of the last figure it would be written with.
const EXACT: f64 = 0.0005;

/// A length half way between two figures goes to the greater one, whatever the last bits of its arithmetic; mm.
const HAIR: f64 = 1e-7;

impl Lengths {
    /// The unit with this name; an empty one means millimetres.
    pub fn named(name: &str) -> Result<Self, Refusal> {
        if name.is_empty() {
            return Ok(Self::Millimetres);
        }
        ALL.iter().find(|row| row.0 == name).map(|row| row.1).ok_or_else(|| {
            let names: Vec<&str> = ALL.iter().map(|row| row.0).collect();
            Refusal::new("unit", format!("This unit is not known. Choose one of: {}.", names.join(", ")))
        })
    }

    /// Its name for people, such as `Inches, to 1/16`.
    pub fn name(self) -> &'static str {
        ALL.iter().find(|row| row.1 == self).map_or("Inches", |row| row.2)
    }

    /// A length in mm as it is written, without its unit: `62.5`, `6.25`, or `2 7/16 +.023`.
    pub fn write(self, mm: f64) -> String {
        match self {
            Self::Millimetres => trimmed(format!("{:.1}", mm + HAIR)),
            Self::Centimetres => trimmed(format!("{:.2}", (mm + HAIR) / 10.0)),
            Self::Inches(parts) => {
                let (figure, left) = fraction(mm, parts, f64::round);
                if left.abs() < EXACT {
                    return figure;
                }
                let thousandths = (left.abs() * 1000.0).round();
                format!("{figure} {}.{thousandths:03}", if left < 0.0 { "-" } else { "+" })
            }
        }
    }

    /// The same without what a fraction leaves over: of sizes that hold an allowance, or are only to be found by.
    pub fn near(self, mm: f64) -> String {
        self.turned(mm, f64::round)
    }

    /// Never less than it is: what is sawn to it still holds the length.
    pub fn at_least(self, mm: f64) -> String {
        self.turned(mm, f64::ceil)
    }

    /// Never more than it is: so much is there for certain. Whole millimetres, or the fraction.
    pub fn at_most(self, mm: f64) -> String {
        match self {
            Self::Inches(_) => self.turned(mm, f64::floor),
            _ => self.write(mm.floor()),
        }
    }

    fn turned(self, mm: f64, turn: fn(f64) -> f64) -> String {
        match self {
            Self::Inches(parts) => fraction(mm, parts, turn).0,
            _ => self.write(mm),
        }
    }

    /// A length as [`write`](Self::write) writes it, with its unit behind it.
    pub fn say(self, mm: f64) -> String {
        format!("{} {}", self.write(mm), self.unit())
    }

    /// Lengths by each other, such as `440 × 64 × 24`, without their unit.
    pub fn by(self, sizes: &[f64]) -> String {
        sizes.iter().map(|mm| self.write(*mm)).collect::<Vec<_>>().join(" × ")
    }

    /// Rough sizes by each other, see [`at_least`](Self::at_least).
    pub fn rough(self, sizes: &[f64]) -> String {
        sizes.iter().map(|mm| self.at_least(*mm)).collect::<Vec<_>>().join(" × ")
    }

    /// Said of lists in which rough sizes stand; nothing where their figures are like all others.
    pub fn rough_note(self) -> &'static str {
        match self {
            Self::Inches(_) => " Rough sizes are rounded up to the fraction, where saws cut to the nearest.",
            _ => "",
        }
    }

    /// A length that is laid off with a tape or opened on a clamp, with its unit: to whole millimetres, or to the fraction.
    pub fn tape(self, mm: f64) -> String {
        match self {
            Self::Millimetres => format!("{:.0} {}", mm + HAIR, self.unit()),
            Self::Centimetres => format!("{} {}", trimmed(format!("{:.1}", (mm + HAIR) / 10.0)), self.unit()),
            Self::Inches(_) => format!("{} {}", self.near(mm), self.unit()),
        }
    }

    /// A cutter or drill in a sentence: by the size it is bought by, in inches with its length behind it.
    pub fn tool(self, mm: f64) -> String {
        match self {
            Self::Inches(_) => format!("{} ({})", Self::Millimetres.say(mm), self.say(mm)),
            _ => self.say(mm),
        }
    }

    /// A length as [`fine`](Self::fine) writes it, with its unit behind it.
    pub fn say_fine(self, mm: f64) -> String {
        format!("{} {}", self.fine(mm), self.unit())
    }

    /// A length that is worked to a tolerance: to a hundredth of a millimetre, or a thousandth of an inch.
    pub fn fine(self, mm: f64) -> String {
        match self {
            Self::Millimetres => trimmed(format!("{mm:.2}")),
            Self::Centimetres => trimmed(format!("{:.3}", mm / 10.0)),
            Self::Inches(_) => format!("{:.3}", mm / INCH),
        }
    }

    /// How far a size may be off: to a thousandth of a millimetre, or to a ten-thousandth of an inch.
    pub fn deviation(self, mm: f64) -> String {
        match self {
            Self::Millimetres => trimmed(format!("{mm:.3}")),
            Self::Centimetres => trimmed(format!("{:.4}", mm / 10.0)),
            Self::Inches(_) => trimmed(format!("{:.4}", mm / INCH)),
        }
    }

    /// What is written behind a length that stands in a sentence.
    pub fn unit(self) -> &'static str {
        match self {
            Self::Millimetres => word("mm"),
            Self::Centimetres => word("cm"),
            Self::Inches(_) => word("in"),
        }
    }

    /// A cutter or another thing that is bought by its size in millimetres: in inches both are told.
    pub fn bought(self, mm: f64) -> String {
        match self {
            Self::Inches(_) => format!("{} ({} mm)", self.write(mm), Self::Millimetres.write(mm)),
            _ => self.write(mm),
        }
    }

    /// How figures are rounded, as a sentence.
    pub fn rounding(self) -> String {
        match self {
            Self::Millimetres => "Millimetres, rounded to a tenth.".to_owned(),
            Self::Centimetres => "Centimetres, rounded to a tenth of a millimetre.".to_owned(),
            Self::Inches(parts) => format!(
                "Inches to 1/{parts}. Behind a figure, +.012 is what the fraction leaves over, -.012 what it is too much, in inches; a figure without it is exact."
            ),
        }
    }

    /// The same in a few words, for a line below a drawing; nothing where its unit says enough.
    pub fn note(self) -> Option<String> {
        match self {
            Self::Inches(parts) => Some(format!(
                "Inches to 1/{parts}: +.012 behind a figure is what it leaves over, -.012 what it is too much, in inches."
            )),
            Self::Millimetres | Self::Centimetres => None,
        }
    }

    /// What lengths are written in, such as `mm` or `in, 1/32`.
    pub fn told(self) -> String {
        match self {
            Self::Inches(parts) => format!("in, 1/{parts}"),
            _ => self.unit().to_owned(),
        }
    }

    /// A slope as rise over run, from its tangent: in 100 of any unit, or in inches to a foot.
    pub fn slope(self, tangent: f64) -> String {
        match self {
            Self::Inches(_) => format!("{} in 12", self.write(tangent * 12.0 * INCH)),
            _ => format!("{} in 100", trimmed(format!("{:.1}", tangent * 100.0))),
        }
    }

    /// Distance between the stations of an offset table, mm: a round figure of the unit.
    pub fn station(self) -> f64 {
        match self {
            Self::Inches(_) => 2.0 * INCH,
            _ => 50.0,
        }
    }
}

/// With the decimal sign of the language, without needless zeros and without a minus before nothing.
fn trimmed(text: String) -> String {
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { figure(text).into_owned() }
}

/// Whole inches and a fraction in its lowest terms, the count of parts turned to a whole number by `turn`; and what it
/// leaves over, inches.
fn fraction(mm: f64, parts: u32, turn: fn(f64) -> f64) -> (String, f64) {
    let inches = mm.abs() / INCH;
    // What lies on a part but for the last bits of its arithmetic is on it, whichever way others are turned.
    let exact = inches * f64::from(parts);
    let count = if (exact - exact.round()).abs() < HAIR { exact.round() } else { turn(exact) } as u32;
    let left = inches - f64::from(count) / f64::from(parts);
    let (whole, mut above, mut below) = (count / parts, count % parts, parts);
    while above > 0 && above.is_multiple_of(2) {
        (above, below) = (above / 2, below / 2);
    }
    let sign = if mm < 0.0 && count > 0 { "-" } else { "" };
    let figure = match (whole, above) {
        (whole, 0) => format!("{sign}{whole}"),
        (0, above) => format!("{sign}{above}/{below}"),
        (whole, above) => format!("{sign}{whole} {above}/{below}"),
    };
    (figure, if mm < 0.0 { -left } else { left })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn tenths_of_a_millimetre_stay_whole() {
        let write = |mm| [Lengths::Millimetres.write(mm), Lengths::Centimetres.write(mm)];
        assert_eq!(write(62.54), ["62.5", "6.25"]);
        assert_eq!(write(100.0), ["100", "10"]);
        assert_eq!(write(0.02), ["0", "0"]);
        assert_eq!(write(-0.02), ["0", "0"]);
    }

    /// By hand: 62.5 mm is 2.46063 in; 2 7/16 in is 2.4375, 2 15/32 is 2.46875.
    #[test]
    fn a_fraction_tells_what_it_leaves_over() {
        let write = |parts, mm| Lengths::Inches(parts).write(mm);
        assert_eq!(write(16, 62.5), "2 7/16 +.023");
        assert_eq!(write(32, 62.5), "2 15/32 -.008");
        assert_eq!(write(8, 25.4), "1");
        assert_eq!(write(8, 12.7), "1/2");
        assert_eq!(write(64, 25.4 * (3.0 + 5.0 / 64.0)), "3 5/64");
        assert_eq!(write(8, 25.3), "1 -.004");
        assert_eq!(write(8, 0.0), "0");
    }

    /// Worked out in whole fractions by another program; the page's own figures are held to the same table.
    #[test]
    fn figures_are_those_of_the_table() {
        let rows = include_str!("../../../tests/data/lengths.csv").lines().skip(1);
        let mut count = 0;
        for row in rows.map(|row| row.split(',').collect::<Vec<_>>()) {
            let unit = Lengths::named(row[1]).expect("a unit");
            assert_eq!(unit.write(row[0].parse().expect("a number")), row[2], "{row:?}");
            count += 1;
        }
        assert!(count > 100, "{count}");
    }

    /// 62.5 mm lies between 2 7/16 and 2 15/32 in; 38.1 mm are 1 1/2 in, and stay it.
    #[test]
    fn rough_sizes_are_turned_the_way_that_leaves_enough() {
        let inches = Lengths::Inches(32);
        assert_eq!(
            [inches.at_least(62.5), inches.at_most(62.5), inches.near(62.5)],
            ["2 15/32", "2 7/16", "2 15/32"]
        );
        assert_eq!([inches.at_least(38.1), inches.at_most(38.1)], ["1 1/2", "1 1/2"]);
        assert_eq!(
            [Lengths::Millimetres.at_least(62.54), Lengths::Millimetres.at_most(62.54)],
            ["62.5", "62"]
        );
    }

    #[test]
    fn slopes_in_the_measure_of_the_unit() {
        assert_eq!(Lengths::Millimetres.slope(0.0804), "8 in 100");
        // A quarter in twelve.
        assert_eq!(Lengths::Inches(16).slope(0.25 / 12.0), "1/4 in 12");
    }

    #[test]
    fn other_units_are_refused() {
        assert!(Lengths::named("furlong").unwrap_err().to_string().contains("in32"));
        assert!(ALL.iter().all(|&(name, unit, _)| Lengths::named(name) == Ok(unit)));
    }

    /// What is written back to mm.
    fn read(text: &str) -> f64 {
        let number = |part: &str| match part.split_once('/') {
            Some((a, b)) => a.parse::<f64>().expect("a figure") / b.parse::<f64>().expect("a figure"),
            None => part.parse::<f64>().expect("a figure"),
        };
        text.split(' ').map(number).sum::<f64>() * INCH
    }

    proptest! {
        #[test]
        fn fraction_and_remainder_are_the_length(mm in 0.0..3000.0_f64, finer in 3..7_u32) {
            let parts = 1 << finer;
            let text = Lengths::Inches(parts).write(mm);
            prop_assert!((read(&text) - mm).abs() < EXACT * INCH + 1e-9, "{mm}: {text}");
            let bare: f64 = read(text.split([' ']).filter(|p| !p.contains('.')).collect::<Vec<_>>().join(" ").as_str());
            prop_assert!((bare - mm).abs() <= INCH / f64::from(parts) / 2.0 + 1e-9);
        }
    }
}
