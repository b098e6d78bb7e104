//! Every embedded figure against the files of `data/`.

use crate::common::{number, rows};
use crestrail_sitter::{Measure, Sex, Share, ansur, line, nhanes, predicted};

mod common;

/// The measures of the crate by their names in the files.
const NAMES: [(&str, Measure); 14] = [
    ("stature", Measure::Stature),
    ("weightkg", Measure::Weight),
    ("sittingheight", Measure::SittingHeight),
    ("poplitealheight", Measure::PoplitealHeight),
    ("kneeheightsitting", Measure::KneeHeight),
    ("buttockpopliteallength", Measure::ButtockPoplitealLength),
    ("buttockkneelength", Measure::ButtockKneeLength),
    ("hipbreadthsitting", Measure::HipBreadth),
    ("elbowrestheight", Measure::ElbowRestHeight),
    ("thighclearance", Measure::ThighClearance),
    ("acromialheightsitting", Measure::ShoulderHeight),
    ("bideltoidbreadth", Measure::ShoulderBreadth),
    ("forearmforearmbreadth", Measure::ElbowBreadth),
    ("abdominalextensiondepthsitting", Measure::AbdominalDepth),
];

fn measure(name: &str) -> Option<Measure> {
    NAMES.iter().find(|(n, _)| *n == name).map(|(_, measure)| *measure)
}

fn sex(name: &str) -> Option<Sex> {
    match name {
        "female" => Some(Sex::Female),
        "male" => Some(Sex::Male),
        _ => None,
    }
}

#[test]
fn percentiles() {
    let columns = ["p1", "p2_5", "p5", "p10", "p25", "p50", "p75", "p90", "p95", "p97_5", "p99"];
    let mut cells = 0;
    for row in rows("anthropometry.csv") {
        let (Some(measure), Some(sex)) = (measure(&row["measure"]), sex(&row["sex"])) else { continue };
        assert_eq!(measure.unit(), row["unit"]);
        let printed: Vec<(f64, f64)> = columns
            .iter()
            .map(|c| (c[1..].replace('_', ".").parse().expect("percent"), number(&row, c)))
            .collect();
        assert_eq!(ansur::spread(sex, measure).figures().collect::<Vec<_>>(), printed, "{measure} {sex:?}");
        assert!(printed.windows(2).all(|w| w[0].1 < w[1].1), "{measure} rises");
        cells += printed.len();
    }
    assert_eq!(cells, 14 * 2 * 11);
}

/// Percentiles of women and men weighed equally are in the file but not in the crate: half of each sex's share gives them back.
/// The records are whole millimetres (weight: tenths of a kilogram), so a percentile is known to half a step only, and the
/// tails are told to a percent.
#[test]
fn women_and_men_together() {
    let columns = [("p5", 5.0), ("p10", 10.0), ("p25", 25.0), ("p50", 50.0), ("p75", 75.0), ("p95", 95.0)];
    let mut looked_at = 0;
    for row in rows("anthropometry.csv").iter().filter(|row| row["sex"] == "pooled_50_50") {
        let Some(measure) = measure(&row["measure"]) else { continue };
        let half = if measure == Measure::Weight { 0.05 } else { 0.5 };
        for (column, percent) in columns {
            let share = |sex, value| ansur::share_below(sex, measure, value).expect("finite");
            let value = number(row, column);
            let both = |value, end: fn(Share) -> f64| {
                0.5 * Sex::ALL.into_iter().map(|sex| end(share(sex, value))).sum::<f64>()
            };
            let (low, high) = (both(value - half, Share::at_least), both(value + half, Share::at_most));
            // A little more: straight lines between percentiles stand for the counted people.
            let near = low - 0.75..=high + 0.75;
            assert!(near.contains(&percent), "{measure} {column}: {near:?}");
            assert!(high - low < 4.5, "{measure} {column}: {near:?} says something");
            looked_at += 1;
        }
    }
    assert_eq!(looked_at, 14 * 6);
}

#[test]
fn lines() {
    let mut lines = 0;
    for row in rows("anthropometry_regression.csv") {
        let Some(measure) = measure(&row["measure"]) else { continue };
        let got = line(measure, sex(&row["sex"])).expect("a line");
        let printed = ["intercept", "slope_per_mm_stature", "residual_sd", "r2"].map(|c| number(&row, c));
        assert_eq!([got.intercept, got.slope, got.residual_sd, got.r2], printed, "{measure}");
        lines += 1;
    }
    assert_eq!(lines, 13 * 3);
}

/// A line of least squares goes through the means, here those of the other file.
#[test]
fn lines_go_through_the_means() {
    let table = rows("anthropometry.csv");
    let mean = |name: &str, whose: &str| {
        let row = table.iter().find(|row| row["measure"] == name && row["sex"] == whose).expect("a row");
        number(row, "mean")
    };
    for (name, measure) in NAMES.iter().skip(1) {
        for whose in ["female", "male", "pooled_50_50"] {
            let got = predicted(*measure, mean("stature", whose), sex(whose)).expect("in range");
            assert!((got.mean - mean(name, whose)).abs() < 0.02, "{name} {whose}: {}", got.mean);
        }
    }
}

fn group(name: &str) -> nhanes::Group {
    match name {
        "adult20plus_female" => nhanes::Group::Adult(Sex::Female),
        "adult20plus_male" => nhanes::Group::Adult(Sex::Male),
        "adult20plus_all" => nhanes::Group::Adults,
        other => {
            let age = other.strip_prefix("age").and_then(|rest| rest.strip_suffix("_all"));
            nhanes::Group::Age(age.and_then(|age| age.parse().ok()).expect("a year of age"))
        }
    }
}

#[test]
fn weights_and_statures_of_the_population() {
    let columns = ["p1", "p5", "p10", "p25", "p50", "p75", "p90", "p95", "p99"];
    let table = rows("nhanes_2009_2012_weight_height.csv");
    for row in &table {
        let group = group(&row["group"]);
        let (spread, unit) = match row["measure"].as_str() {
            "weight_kg" => (nhanes::weight(group), 1.0),
            _ => (nhanes::stature(group), 10.0),
        };
        let got: Vec<(f64, f64)> = spread.expect("a group").figures().collect();
        assert!(got.windows(2).all(|w| w[0].1 < w[1].1), "{group:?} rises");
        for ((percent, value), column) in got.into_iter().zip(columns) {
            assert_eq!(format!("p{percent}"), column);
            assert!((value - unit * number(row, column)).abs() < 1e-9, "{group:?} {column}: {value}");
        }
    }
    assert_eq!(table.len(), 36);
}
