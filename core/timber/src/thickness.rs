//! Thicknesses in which sawn timber is sold, and what is left of them planed on both faces.

use crate::Mark::{self, CommonPractice, Memory, Read};
use serde::Serialize;

/// A custom of the trade after which boards are sawn to thickness.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum ThicknessSystem {
    /// Quarters of an inch, as hardwood is sold in North America: 4/4, 5/4, 8/4.
    Quarters,
    /// Preferred thicknesses of EN 1313-2 for hardwood, mm at 20 % moisture.
    En1313,
    /// What yards on the European continent commonly keep, mm.
    Continental,
    /// What yards in Britain commonly keep, mm.
    British,
}

/// One thickness of a system.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TradeThickness {
    /// What the yard calls it.
    pub name: &'static str,
    /// Sawn, before drying losses and planing, mm.
    pub rough: f64,
    /// What can be planed from it on both faces, mm.
    pub planed: f64,
    /// How the sawn size came here. All planed sizes of the metric systems are common practice.
    pub mark: Mark,
}

/// Sizes that differ by less than this count as equal, mm: a tenth of what a thickness planer holds.
const SLACK: f64 = 0.01;

const fn row(name: &'static str, rough: f64, planed: f64, mark: Mark) -> TradeThickness {
    TradeThickness { name, rough, planed, mark }
}

/// A metric size: planing takes 5 mm up to 40 mm, 6 mm up to 65 mm and 7 mm above. Common practice (a maker's habit
/// of adding 5–7 mm), no source.
const fn metric(name: &'static str, rough: f64, mark: Mark) -> TradeThickness {
    let off = if rough <= 41.0 {
        5.0
    } else if rough <= 65.0 {
        6.0
    } else {
        7.0
    };
    row(name, rough, rough - off, mark)
}

/// Source: hardwood lumber dimensions tables, column S2S; kiln-dried rough stock may be 1/16 in below.
const QUARTERS: &[TradeThickness] = &[
    row("3/8 in", 9.525, 4.762_5, Read),
    row("1/2 in", 12.7, 7.937_5, Read),
    row("5/8 in", 15.875, 11.112_5, Read),
    row("3/4 in", 19.05, 14.287_5, Read),
    row("4/4", 25.4, 20.637_5, Read),
    row("5/4", 31.75, 26.987_5, Read),
    row("6/4", 38.1, 33.337_5, Read),
    row("7/4", 44.45, 38.1, Read),
    row("8/4", 50.8, 44.45, Read),
    row("10/4", 63.5, 57.15, Memory),
    row("12/4", 76.2, 69.85, Read),
    row("14/4", 88.9, 82.55, Read),
    row("16/4", 101.6, 95.25, Read),
];

/// Source: EN 1313-2, from memory.
const EN_1313: &[TradeThickness] = &[
    metric("20 mm", 20.0, Memory),
    metric("27 mm", 27.0, Memory),
    metric("32 mm", 32.0, Memory),
    metric("40 mm", 40.0, Memory),
    metric("50 mm", 50.0, Memory),
    metric("60 mm", 60.0, Memory),
    metric("65 mm", 65.0, Memory),
    metric("70 mm", 70.0, Memory),
    metric("80 mm", 80.0, Memory),
    metric("100 mm", 100.0, Memory),
];

/// Common practice, no source: ask the yard.
const CONTINENTAL: &[TradeThickness] = &[
    metric("20 mm", 20.0, CommonPractice),
    metric("26 mm", 26.0, CommonPractice),
    metric("32 mm", 32.0, CommonPractice),
    metric("40 mm", 40.0, CommonPractice),
    metric("45 mm", 45.0, CommonPractice),
    metric("52 mm", 52.0, CommonPractice),
    metric("60 mm", 60.0, CommonPractice),
    metric("65 mm", 65.0, CommonPractice),
    metric("80 mm", 80.0, CommonPractice),
    metric("100 mm", 100.0, CommonPractice),
];

/// Common practice, no source: ask the yard.
const BRITISH: &[TradeThickness] = &[
    metric("20 mm", 20.0, CommonPractice),
    metric("27 mm", 27.0, CommonPractice),
    metric("32 mm", 32.0, CommonPractice),
    metric("38 mm", 38.0, CommonPractice),
    metric("41 mm", 41.0, CommonPractice),
    metric("52 mm", 52.0, CommonPractice),
    metric("63 mm", 63.0, CommonPractice),
    metric("76 mm", 76.0, CommonPractice),
    metric("100 mm", 100.0, CommonPractice),
];

impl ThicknessSystem {
    /// All systems with their names in files.
    pub const NAMES: &'static [(&'static str, Self)] = &[
        ("quarters", Self::Quarters),
        ("en_1313", Self::En1313),
        ("continental", Self::Continental),
        ("british", Self::British),
    ];

    /// Its thicknesses, thin to thick.
    pub fn thicknesses(self) -> &'static [TradeThickness] {
        match self {
            Self::Quarters => QUARTERS,
            Self::En1313 => EN_1313,
            Self::Continental => CONTINENTAL,
            Self::British => BRITISH,
        }
    }

    /// The thickness that the yard calls by this name.
    pub fn thickness(self, name: &str) -> Option<TradeThickness> {
        self.thicknesses().iter().copied().find(|t| t.name == name)
    }
}

/// The thinnest trade thickness that is at least `rough_needed` mm before planing, or `None` if the
/// system has nothing so thick.
pub fn next_thickness(system: ThicknessSystem, rough_needed: f64) -> Option<TradeThickness> {
    system.thicknesses().iter().copied().find(|t| t.rough + SLACK >= rough_needed)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thicknesses_rise_and_lose_some_by_planing() {
        for (_, system) in ThicknessSystem::NAMES {
            let all = system.thicknesses();
            assert!(all.windows(2).all(|w| w[0].rough < w[1].rough && w[0].planed < w[1].planed));
            assert!(all.iter().all(|t| (4.0..7.5).contains(&(t.rough - t.planed))), "{system:?}");
            assert!(all.iter().all(|t| system.thickness(t.name) == Some(*t)));
        }
    }

    /// Rough to planed as printed: 4/4 gives 13/16 in, 5/4 1 1/16, 6/4 1 5/16, 8/4 1 3/4, 12/4 2 3/4, 16/4 3 3/4.
    #[test]
    fn quarters_as_printed() {
        let printed = [
            ("4/4", 13.0 / 16.0),
            ("5/4", 17.0 / 16.0),
            ("6/4", 21.0 / 16.0),
            ("8/4", 1.75),
            ("12/4", 2.75),
            ("16/4", 3.75),
        ];
        for (name, planed_in) in printed {
            let t = ThicknessSystem::Quarters.thickness(name).expect(name);
            assert!((t.planed - planed_in * 25.4).abs() < 1e-9, "{name}");
        }
    }

    #[test]
    fn next_thickness_holds_the_rough_part() {
        let name = |system, mm| next_thickness(system, mm).map(|t| t.name);
        assert_eq!(name(ThicknessSystem::Quarters, 25.4), Some("4/4"));
        assert_eq!(name(ThicknessSystem::Quarters, 25.5), Some("5/4"));
        assert_eq!(name(ThicknessSystem::En1313, 27.000_000_1), Some("27 mm"));
        assert_eq!(name(ThicknessSystem::En1313, 27.1), Some("32 mm"));
        assert_eq!(name(ThicknessSystem::British, 101.0), None);
    }

    /// In all systems the next thickness is the smallest one that is enough.
    #[test]
    fn next_thickness_is_the_least_that_holds() {
        for (_, system) in ThicknessSystem::NAMES {
            for tenth in 1..=1000 {
                let needed = f64::from(tenth) / 10.0;
                let found = next_thickness(*system, needed).expect("within the table");
                let thinner = system.thicknesses().iter().filter(|t| t.rough < found.rough);
                assert!(found.rough + SLACK >= needed);
                assert!(thinner.clone().all(|t| t.rough + SLACK < needed));
            }
        }
    }
}
