//! Radii of what is sawn to a curve, and the widest blade that follows them.

use super::marks::{SHARP, turn};
use super::subject::Subject;
use crate::part::Side;
use kurbo::Point;

/// The tightest curves of a face's outline, mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    /// Letter of the part.
    pub letter: String,
    /// The face it is drawn on.
    pub face: &'static str,
    /// Least radius of a hollow; nothing where there is none.
    pub hollow: Option<f64>,
    /// Least radius of a round; nothing where there is none.
    pub round: Option<f64>,
}

/// Less turns of an outline are a straight run (the sine).
const STRAIGHT: f64 = 1e-3;

/// The curves of all parts, in the order of the letters; of a pair the right one.
pub fn curves(subjects: &[Subject<'_>]) -> Vec<Curve> {
    let right = subjects.iter().filter(|subject| subject.part.id.side != Side::Left);
    right.filter_map(curve).collect()
}

fn curve(subject: &Subject<'_>) -> Option<Curve> {
    let marked = &subject.marked;
    let face = (0..2).find(|&face| marked.is_curved(face))?;
    let bends = marked.drawn[face].outline.iter().flat_map(|outline| bends(outline));
    let (mut hollow, mut round): (Option<f64>, Option<f64>) = (None, None);
    for bend in bends {
        let side = if bend < 0.0 { &mut hollow } else { &mut round };
        *side = Some(side.map_or(bend.abs(), |least| least.min(bend.abs())));
    }
    let (letter, face) = (subject.part.letter.clone(), marked.blank.faces[face].name);
    (hollow.is_some() || round.is_some()).then_some(Curve { letter, face, hollow, round })
}

/// The radii at the corners within a curve, that of a hollow below zero.
fn bends(outline: &[Point]) -> Vec<f64> {
    let n = outline.len();
    let inwards = crestrail_geometry::outline::signed_area(outline).signum();
    let bent = |i: usize| (STRAIGHT..SHARP).contains(&turn(outline, i));
    // The facets at the ends of a curve may be cut off: only a corner between two others of the curve counts.
    let within = (0..n).filter(|&i| [(i + n - 1) % n, i, (i + 1) % n].into_iter().all(bent));
    let radius = |i: usize| {
        let (a, b, c) = (outline[(i + n - 1) % n], outline[i], outline[(i + 1) % n]);
        let area = (b - a).cross(c - a) / 2.0;
        let sides = (b - a).hypot2() * (c - b).hypot2() * (a - c).hypot2();
        // The circle through three points.
        inwards * sides.sqrt() / (4.0 * area)
    };
    within.map(radius).collect()
}

/// Widths of band saw blades with the least radius they follow, mm: 1/8 to 1 inch as charts of sawmakers give them (common
/// practice, no source).
const BLADES: [(f64, f64); 8] = [
    (3.2, 5.0),
    (4.8, 8.0),
    (6.4, 16.0),
    (9.5, 37.0),
    (12.7, 64.0),
    (15.9, 95.0),
    (19.1, 138.0),
    (25.4, 184.0),
];

impl Curve {
    /// The widest blade that follows it, mm; nothing where none does.
    pub fn blade(&self) -> Option<f64> {
        let least = self.hollow.into_iter().chain(self.round).reduce(f64::min)?;
        BLADES.iter().rev().find(|(_, radius)| *radius <= least).map(|row| row.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chair::Chair;
    use crate::design::Design;
    use crate::joints::Bench;
    use crate::sheets::setting::subjects;
    use crestrail_geometry::math::{cos, sin};

    /// A block with a round and a hollow cut into its upper edge, each of 36 facets.
    #[test]
    fn radii_are_those_of_the_arcs() {
        let arc = |x: f64, y: f64, radius: f64, from: f64, to: f64| {
            (0..=36).map(move |i| {
                let angle = (from + (to - from) * f64::from(i) / 36.0).to_radians();
                Point::new(x + radius * cos(angle), y + radius * sin(angle))
            })
        };
        let mut outline = vec![Point::new(0.0, 0.0), Point::new(200.0, 0.0), Point::new(200.0, 100.0)];
        outline.extend(arc(140.0, 100.0, 30.0, 0.0, -180.0));
        outline.extend(arc(60.0, 100.0, 25.0, 0.0, 180.0));
        outline.push(Point::new(0.0, 100.0));
        let found = bends(&outline);
        let (hollow, round): (Vec<f64>, Vec<f64>) = found.iter().partition(|bend| **bend < 0.0);
        assert!(hollow.len() > 30 && hollow.iter().all(|r| (r + 30.0).abs() < 1e-6), "{hollow:?}");
        assert!(round.len() > 30 && round.iter().all(|r| (r - 25.0).abs() < 1e-6), "{round:?}");
        let turned: Vec<Point> = outline.into_iter().rev().collect();
        assert_eq!(bends(&turned).len(), found.len());
        assert!(bends(&turned).iter().filter(|bend| **bend < 0.0).all(|r| (r + 30.0).abs() < 1e-6));
    }

    /// Front and back of the default back leg are arcs of one radius about the knees.
    #[test]
    fn the_knee_of_the_back_leg_has_one_radius() {
        let chair = Chair::resolve(&Design::default(), &Bench::default()).expect("a chair");
        let subjects = subjects(&chair).expect("faces");
        let leg = subjects.iter().find(|s| s.part.id.role == crate::part::Role::BackLeg).expect("a leg");
        let own = curve(leg).expect("a curve");
        let (hollow, round) = (own.hollow.expect("a hollow"), own.round.expect("a round"));
        assert!((hollow / round - 1.0).abs() < 0.02, "{hollow} and {round}");
        assert!(own.blade().is_some_and(|blade| blade >= 12.0), "{own:?}");
    }
}
