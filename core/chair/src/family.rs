//! Kinds of chair. Each is a named set of limits and first values for the knobs and nothing else:
//! what a chair is made of follows from the other choices alone.

use crate::choices::{Choice, Family};
use crate::knob::{Kind, Knob};
use crate::knobs::KNOBS;
use std::sync::LazyLock;

/// What a kind changes in one row of the table of knobs.
#[derive(Clone, Copy, Debug)]
enum Limit {
    /// A range or a count: least, greatest and first value.
    Range(&'static str, f64, f64, f64),
    /// A choice: what is allowed, the first value first.
    Only(&'static str, &'static [&'static str]),
}

use Limit::{Only, Range};

const NO_BACK: Limit = Only("back", &["open"]);
const NO_ARMS: Limit = Only("arms", &["none"]);
/// On high chairs the feet rest on the footrest, and school sizes do not speak of it.
const GROWN_UP: Limit = Only("sits", &["adults", "adult"]);
const ONE: Limit = Only("places", &["one"]);

/// Heights of seats: 400–500 mm to sit at a table, 610–660 mm at a counter of 900 mm, 720–790 mm at a
/// bar of 1050 mm, a footrest 430–480 mm below the seat (common practice, no source); children's sizes
/// follow EN 1729-1, size marks 1 to 3 (260, 310 and 350 mm; from memory).
const LIMITS: &[(Family, &[Limit])] = &[
    (Family::SideChair, &[ONE, NO_ARMS, Only("back", &["slats", "laths", "splat", "panel"])]),
    (
        Family::Armchair,
        &[
            ONE,
            Only("arms", &["legs", "posts"]),
            Only("back", &["slats", "laths", "splat", "panel"]),
            Range("seat_height", 380.0, 480.0, 440.0),
            Range("seat_width", 520.0, 660.0, 616.0),
            Range("narrowing", 0.0, 90.0, 40.0),
            Range("seat_depth", 420.0, 540.0, 476.0),
            Range("back_clear", 15.0, 36.0, 29.0),
            Range("arm_height", 170.0, 270.0, 208.0),
            Range("back_height", 400.0, 620.0, 470.0),
            Range("front_leg", 40.0, 64.0, 45.0),
            Range("back_leg_thickness", 36.0, 60.0, 40.0),
            Range("back_leg_depth", 44.0, 80.0, 54.0),
            Range("back_leg_top", 28.0, 60.0, 34.0),
        ],
    ),
    (
        Family::Stool,
        &[
            ONE,
            NO_ARMS,
            NO_BACK,
            Range("seat_height", 400.0, 500.0, 450.0),
            Range("seat_width", 340.0, 500.0, 400.0),
            Range("narrowing", 0.0, 40.0, 0.0),
            Range("seat_depth", 280.0, 420.0, 340.0),
            Range("front_leg", 38.0, 56.0, 42.0),
            Range("splay", 0.0, 4.0, 2.0),
            Range("front_splay", 0.0, 6.0, 2.0),
            Range("kick", 0.0, 6.0, 2.0),
            Only("stretchers", &["h", "none", "sides", "box"]),
        ],
    ),
    (
        Family::CounterChair,
        &[
            ONE,
            GROWN_UP,
            Range("table_height", 850.0, 960.0, 920.0),
            Range("table_depth", 15.0, 180.0, 40.0),
            Only("back", &["slats", "laths", "splat", "panel", "open"]),
            Range("seat_height", 600.0, 680.0, 650.0),
            Range("seat_width", 380.0, 520.0, 430.0),
            Range("narrowing", 0.0, 70.0, 30.0),
            Range("seat_depth", 360.0, 480.0, 410.0),
            Range("back_height", 260.0, 460.0, 340.0),
            Range("back_slats", 2.0, 4.0, 2.0),
            Range("back_clear", 18.0, 42.0, 40.0),
            Range("kick", 0.0, 9.0, 6.0),
            Range("front_leg", 40.0, 60.0, 43.0),
            Only("arms", &["none", "legs", "posts"]),
            Range("arm_height", 170.0, 230.0, 200.0),
            Only("stretchers", &["box"]),
            Range("stretcher_height", 140.0, 330.0, 250.0),
            Range("front_stretcher_height", 150.0, 270.0, 200.0),
            Range("back_stretcher_height", 140.0, 330.0, 300.0),
        ],
    ),
    (
        Family::BarChair,
        &[
            ONE,
            GROWN_UP,
            Range("table_height", 980.0, 1120.0, 1040.0),
            Range("table_depth", 15.0, 180.0, 40.0),
            Only("back", &["slats", "laths", "splat", "panel", "open"]),
            Range("seat_height", 720.0, 800.0, 760.0),
            Range("seat_width", 380.0, 520.0, 430.0),
            Range("narrowing", 0.0, 70.0, 30.0),
            Range("seat_depth", 360.0, 480.0, 410.0),
            Range("back_height", 240.0, 440.0, 300.0),
            Range("back_slats", 2.0, 4.0, 2.0),
            Range("back_clear", 18.0, 42.0, 34.0),
            Range("kick", 0.0, 8.0, 5.0),
            Range("front_leg", 42.0, 60.0, 45.0),
            Only("arms", &["none", "legs", "posts"]),
            Range("arm_height", 170.0, 220.0, 190.0),
            Only("stretchers", &["box"]),
            Range("stretcher_height", 160.0, 420.0, 330.0),
            Range("front_stretcher_height", 220.0, 370.0, 300.0),
            Range("back_stretcher_height", 160.0, 420.0, 390.0),
        ],
    ),
    (
        Family::BenchTwo,
        &[
            Only("places", &["two"]),
            Only("back", &["slats", "laths", "splat", "panel", "open"]),
            Only("arms", &["none", "legs", "posts"]),
            Range("seat_width", 900.0, 1260.0, 1040.0),
            Range("narrowing", 0.0, 80.0, 30.0),
            Range("front_leg", 42.0, 64.0, 46.0),
            Range("back_leg_thickness", 40.0, 60.0, 42.0),
            Range("stretcher_height", 80.0, 210.0, 150.0),
        ],
    ),
    (
        Family::BenchThree,
        &[
            Only("places", &["three"]),
            Only("back", &["slats", "laths", "splat", "panel", "open"]),
            Only("arms", &["none", "legs", "posts"]),
            Range("seat_width", 1350.0, 1800.0, 1560.0),
            Range("narrowing", 0.0, 80.0, 30.0),
            Range("front_leg", 44.0, 64.0, 48.0),
            Range("back_leg_thickness", 42.0, 60.0, 44.0),
            Range("stretcher_height", 80.0, 210.0, 150.0),
        ],
    ),
    (
        Family::ChildChair,
        &[
            ONE,
            Only("user", &["kg30", "kg50", "kg75"]),
            Only("sits", &["child", "school"]),
            Range("child_stature", 1050.0, 1400.0, 1200.0),
            Range("school_mark", 1.0, 3.0, 2.0),
            Range("table_height", 400.0, 640.0, 530.0),
            Range("table_depth", 15.0, 120.0, 40.0),
            Only("back", &["slats", "laths", "splat", "panel"]),
            Only("arms", &["none", "legs", "posts"]),
            Range("seat_height", 250.0, 350.0, 300.0),
            Range("seat_width", 300.0, 400.0, 340.0),
            Range("narrowing", 0.0, 60.0, 34.0),
            Range("seat_depth", 270.0, 360.0, 304.0),
            Range("back_height", 220.0, 360.0, 290.0),
            Range("rake", 0.0, 14.0, 9.0),
            Range("back_slats", 2.0, 4.0, 3.0),
            Range("back_slat_thickness", 10.0, 20.0, 14.0),
            Range("back_rail_width", 30.0, 50.0, 36.0),
            Range("laths", 3.0, 6.0, 4.0),
            Range("lath_width", 12.0, 24.0, 16.0),
            Range("seat_slat_width", 24.0, 70.0, 44.0),
            Range("seat_slat_thickness", 9.0, 18.0, 12.0),
            Range("seat_overhang", 0.0, 16.0, 6.0),
            Range("front_leg", 32.0, 44.0, 36.0),
            Range("back_leg_thickness", 28.0, 40.0, 32.0),
            Range("back_leg_depth", 34.0, 50.0, 40.0),
            Range("back_leg_top", 22.0, 36.0, 26.0),
            Range("back_leg_foot", 24.0, 46.0, 30.0),
            Range("kick", 0.0, 12.0, 8.0),
            Range("rail_width", 36.0, 64.0, 48.0),
            Range("rail_thickness", 16.0, 26.0, 20.0),
            Range("arm_height", 120.0, 180.0, 150.0),
            Range("arm_width", 30.0, 50.0, 38.0),
            Range("arm_thickness", 16.0, 26.0, 20.0),
            Range("stretcher_height", 60.0, 120.0, 96.0),
            Range("front_stretcher_height", 60.0, 110.0, 76.0),
            Range("back_stretcher_height", 60.0, 120.0, 106.0),
            Range("stretcher_width", 20.0, 34.0, 26.0),
            Range("stretcher_thickness", 16.0, 24.0, 18.0),
            Range("peg_size", 4.0, 8.0, 5.0),
        ],
    ),
];

static TABLES: LazyLock<Vec<Vec<Knob>>> =
    LazyLock::new(|| Family::ALL.iter().map(|(family, _)| table(*family)).collect());

impl Family {
    /// Every knob with the limits and first values of this kind, in the order of the page. The knob
    /// of the kind itself allows only this one.
    pub fn knobs(self) -> &'static [Knob] {
        &TABLES[self.index()]
    }
}

fn table(family: Family) -> Vec<Knob> {
    let limits = LIMITS.iter().filter(|(f, _)| *f == family).flat_map(|(_, limits)| *limits);
    let mut knobs = KNOBS.to_vec();
    for limit in limits {
        let (Range(name, ..) | Only(name, _)) = limit;
        for knob in knobs.iter_mut().filter(|knob| knob.name == *name) {
            knob.kind = limited(knob.kind, limit);
        }
    }
    for knob in knobs.iter_mut().filter(|knob| knob.name == "family") {
        knob.kind = limited(knob.kind, &Only("family", own_name(family)));
    }
    knobs
}

/// The name of a kind as a list of one.
fn own_name(family: Family) -> &'static [&'static str] {
    core::slice::from_ref(&Family::ALL[family.index()].1.name)
}

fn limited(kind: Kind, limit: &Limit) -> Kind {
    match (kind, *limit) {
        (Kind::Range { unit, step, .. }, Range(_, min, max, default)) => {
            Kind::Range { unit, min, max, step, default }
        }
        (Kind::Count { .. }, Range(_, min, max, default)) => {
            Kind::Count { min: min as u8, max: max as u8, default: default as u8 }
        }
        (Kind::Choice { options, .. }, Only(_, allowed)) => {
            Kind::Choice { options, allowed, default: allowed.first().copied().unwrap_or_default() }
        }
        (kind, _) => kind,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_limit_names_a_knob_of_its_kind_and_holds_its_first_value() {
        for (family, limits) in LIMITS {
            for limit in *limits {
                let (Range(name, ..) | Only(name, _)) = limit;
                let knob = family.knobs().iter().find(|k| k.name == *name);
                let kind = knob.unwrap_or_else(|| panic!("{name}")).kind;
                match (kind, limit) {
                    (Kind::Range { min, max, default, .. }, Range(_, low, high, first)) => {
                        assert_eq!((min, max, default), (*low, *high, *first), "{family:?} {name}");
                        assert!(min < max && (min..=max).contains(&default), "{family:?} {name}");
                    }
                    (Kind::Count { min, max, default }, Range(..)) => {
                        assert!((min..=max).contains(&default), "{family:?} {name}");
                    }
                    (Kind::Choice { options, .. }, Only(_, names)) => {
                        let all = options();
                        assert!(names.iter().all(|n| all.iter().any(|o| o.name == *n)), "{family:?} {name}");
                    }
                    _ => panic!("{family:?} {name}: wrong sort of limit"),
                }
            }
        }
    }

    #[test]
    fn every_kind_has_limits() {
        assert!(Family::ALL.iter().all(|(family, _)| LIMITS.iter().any(|(f, _)| f == family)));
    }
}
