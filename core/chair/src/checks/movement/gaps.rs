//! Gaps between pieces that lie or stand beside each other: their middles are held, so each gap becomes narrower by what
//! a piece swells.

use super::{finding, over_the_year, timber_of};
use crate::chair::Chair;
use crate::checks::openings;
use crate::climate::Climate;
use crate::finding::Finding;
use crate::part::{Part, Role};
use crestrail_phrases::{phrase, say, word};
use crestrail_timber::{OutOfRange, Species};

/// Pieces with gaps between them.
struct Row {
    role: Role,
    subject: &'static str,
    /// One of them, to begin a sentence.
    each: &'static str,
    /// The knob that makes their gaps wider.
    knob: &'static str,
}

const ROWS: [Row; 3] = [
    Row {
        role: Role::SeatSlat,
        subject: phrase("gaps of the seat slats"),
        each: phrase("A seat slat"),
        knob: "seat_slat_gap",
    },
    Row { role: Role::Lath, subject: phrase("gaps of the laths"), each: phrase("A lath"), knob: "laths" },
    Row {
        role: Role::BackSlat,
        subject: phrase("gaps of the back slats"),
        each: phrase("A back slat"),
        knob: "back_fill",
    },
];

/// What is found about the narrowest gap of each kind.
pub(super) fn findings(chair: &Chair, climate: &Climate) -> Result<Vec<Finding>, OutOfRange> {
    ROWS.iter().filter_map(|row| of(row, chair, climate).transpose()).collect()
}

/// Whether the narrowest gap stays open when the widest of the pieces swells.
fn of(row: &Row, chair: &Chair, climate: &Climate) -> Result<Option<Finding>, OutOfRange> {
    let (pieces, species): (Vec<&Part>, Vec<&Species>) = timber_of(chair, row.role).unzip();
    let gap = openings::gaps(&pieces).into_iter().min_by(f64::total_cmp);
    let each = pieces.iter().zip(species);
    let widest = each.max_by(|(a, _), (b, _)| a.size.width.total_cmp(&b.size.width));
    let (Some(gap), Some((widest, species))) = (gap, widest) else { return Ok(None) };
    let change = climate.change(species, widest.size.width)?;
    let say = say!(
        "{} of {}, {:.0} mm wide, {}; a gap of {gap:.1} mm is then {:.1} mm in the driest weeks and {:.1} mm in the dampest.",
        word(row.each),
        word(species.name),
        widest.size.width,
        over_the_year(change),
        gap - change.dry,
        gap - change.damp
    );
    Ok(Some(finding(row.subject, say, change.damp.max(0.0), gap, Some(row.knob))))
}

#[cfg(test)]
mod tests {
    use super::super::tests::{named, of};
    use super::*;
    use crate::choices::Stands;
    use crate::design::Design;
    use crate::finding::Verdict;
    use crate::joints::Bench;
    use crestrail_geometry::Vec3;
    use serde_json::{Value, json};

    fn chair(values: &Value) -> Chair {
        Chair::resolve(&Design::from_value(values).unwrap(), &Bench::default()).unwrap()
    }

    /// By hand: a slat of 60 mm of American beech (0.00431) from 9 to 12.0 %.
    #[test]
    fn slats_by_hand() {
        let found = named(
            json!({"species": "beech_american", "seat_slat_width": 60}),
            phrase("gaps of the seat slats"),
        );
        let climate = Climate::of(Stands::House.humidity(), 9.0);
        let chair = chair(&json!({"species": "beech_american", "seat_slat_width": 60}));
        let slats = chair.parts.iter().filter(|p| p.id.role == Role::SeatSlat);
        let widest = slats.map(|p| p.size.width).fold(0.0, f64::max);
        assert!((found.value - widest * 0.004_31 * (climate.damp - 9.0)).abs() < 1e-9, "{}", found.say);
    }

    /// Slats laid almost without a gap close it in a damp place and stay open in a dry one.
    #[test]
    fn narrow_gaps_close() {
        let gap = |stands: &str| {
            let values = json!({"seat_slat_gap": 2, "seat_slat_width": 110, "made_at": 6, "species": "beech_american", "stands": stands});
            named(values, phrase("gaps of the seat slats"))
        };
        assert_eq!(gap("damp").verdict, Verdict::Fails);
        assert_eq!(gap("dry").verdict, Verdict::Sound);
    }

    /// The gaps of laths and of back slats as the finished bodies leave them, and by hand what closes them: half of either
    /// neighbour, of white oak (0.00365 for 1 %).
    #[test]
    fn gaps_of_the_back() {
        for (values, role, up) in [
            (json!({"back": "laths", "rake": 0}), Role::Lath, Vec3::X),
            (json!({"back": "slats", "rake": 0, "crest": "curved"}), Role::BackSlat, Vec3::Z),
        ] {
            let mut values = values;
            values["species"] = json!("oak_white");
            values["stands"] = json!("even");
            let (row, chair) = (ROWS.iter().find(|row| row.role == role).unwrap(), chair(&values));
            let found = named(values, row.subject);
            let pieces = chair.pieces().filter(|(part, _)| part.id.role == role);
            let mut spans: Vec<[f64; 2]> = pieces
                .map(|(part, body)| {
                    // The ends lie along the grain; their corners tell no edge beside a neighbour of a curved crest.
                    let along = |v: &Vec3| part.place.point(*v).dot(up);
                    let low = body.solid.vertices.iter().map(along).fold(f64::INFINITY, f64::min);
                    [low, low + part.core[1] - part.core[0]]
                })
                .collect();
            spans.sort_by(|a, b| a[0].total_cmp(&b[0]));
            let gap = spans.windows(2).map(|pair| pair[1][0] - pair[0][1]).fold(f64::INFINITY, f64::min);
            assert!((found.limit - gap).abs() < 1e-6, "{} {gap}", found.say);
            let widest =
                chair.parts.iter().filter(|p| p.id.role == role).map(|p| p.size.width).fold(0.0, f64::max);
            let damp = Climate::of(Stands::Even.humidity(), 9.0).damp;
            assert!((found.value - widest * 0.003_65 * (damp - 9.0)).abs() < 1e-9, "{}", found.say);
            assert_eq!(found.verdict, Verdict::Sound);
        }
    }

    /// A back is followed by the one kind of gap it has; one without a back by none.
    #[test]
    fn each_back_has_its_gaps() {
        for (back, laths, slats) in [("laths", 1, 0), ("slats", 0, 1), ("panel", 0, 0)] {
            let found = of(json!({"back": back}));
            let count = |subject: &str| found.iter().filter(|f| f.subject == subject).count();
            assert_eq!(
                (count(phrase("gaps of the laths")), count(phrase("gaps of the back slats"))),
                (laths, slats),
                "{back}"
            );
        }
        assert!(of(json!({"family": "stool"})).iter().all(|f| !f.subject.starts_with("gaps of the back")));
    }
}
