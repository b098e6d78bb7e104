//! Whether the chair tips over: forwards, sideways, backwards, and with an arm leaned on.
//!
//! A rigid body tips about an edge of the outline of its feet when the moment of the push exceeds that of all
//! weights: F h = Σ V d, with d the distance of each weight inside the edge (derived from statics). What must be
//! withstood, and where it acts: ISO 7174-1:1988, 7.1, and EN 1022:2018, as told in published extracts; the force
//! backwards and the case with arms are from memory.

use super::sitting::Sitting;
use crate::finding::{About, AtMost, Finding, Topic};
use crate::service::Service;
use crestrail_geometry::Vec3;
use crestrail_geometry::math::{atan2, degrees};
use crestrail_phrases::{phrase, say, word};

/// Acceleration of free fall, m/s².
const GRAVITY: f64 = 9.806_65;

/// Weight of the user on the edge of the seat, N, and the push with it; written for users up to 110 kg.
const ON_SEAT: f64 = 600.0;
const PUSH: f64 = 20.0;
/// How far behind the edge the weight sits, mm (EN 1022:2018).
const FROM_EDGE: f64 = 60.0;

/// With an arm leaned on: weights on seat and arm, N; how far from the middle and from the arm's outer edge, mm.
const BESIDE: f64 = 250.0;
const ON_ARM: f64 = 350.0;
const BESIDE_MIDDLE: f64 = 100.0;
const FROM_ARM_EDGE: f64 = 40.0;

const LEVEL: &str = phrase(
    "ISO 7174-1:1988, 7.1.1 and EN 1022:2018 (extracts): 600 N on the edge, 20 N sideways; statics of a rigid body",
);
const REAR: &str = phrase(
    "ISO 7174-1:1988, 7.1.2 (extract) for the points; the force of EN 1022 from memory; statics of a rigid body",
);
const ARMS: &str = phrase(
    "EN 1022, from memory: 250 N on the seat, 350 N on the arm, 20 N sideways; statics of a rigid body",
);

/// Sound up to four fifths of what tips it: floors are not level, and chairs are not rigid.
const LIMIT: AtMost = AtMost { sound: 0.8, close: 1.0 };

/// What is found about tipping.
pub(super) fn findings(sitting: &Sitting, service: &Service) -> Vec<Finding> {
    let tests = [
        Some(forwards(sitting, service)),
        Some(sideways(sitting, service)),
        backwards(sitting, service),
        with_arms(sitting, service),
    ];
    tests.into_iter().flatten().filter_map(|test| test.finding(sitting)).collect()
}

/// Weights on the chair, in N at points, and a horizontal push.
struct Test {
    name: &'static str,
    /// The way it falls.
    way: &'static str,
    weights: Vec<(f64, Vec3)>,
    /// The force that must be withstood, N, its direction and height above the floor.
    push: f64,
    direction: Vec3,
    height: f64,
    source: &'static str,
    knob: &'static str,
}

fn forwards(s: &Sitting, service: &Service) -> Test {
    Test {
        name: word("tipping forwards"),
        way: word("forwards"),
        weights: vec![(ON_SEAT * service.share(), Vec3::new(0.0, s.front + FROM_EDGE, 0.0))],
        push: PUSH * service.share(),
        direction: -Vec3::Y,
        height: s.seat_height,
        source: LEVEL,
        knob: "seat_overhang",
    }
}

fn sideways(s: &Sitting, service: &Service) -> Test {
    let middle = (s.front + s.back_line) / 2.0;
    Test {
        name: word("tipping sideways"),
        way: word("sideways"),
        weights: vec![(ON_SEAT * service.share(), Vec3::new(s.half_width - FROM_EDGE, middle, 0.0))],
        push: PUSH * service.share(),
        direction: Vec3::X,
        height: s.seat_height,
        source: LEVEL,
        knob: "seat_width",
    }
}

/// The push is 0.2857 (1000 − h) N for seats lower than 720 mm, else 80 N.
fn backwards(s: &Sitting, service: &Service) -> Option<Test> {
    let height = s.back_point()?;
    let push = if s.seat_height < 720.0 { 0.2857 * (1000.0 - s.seat_height) } else { 80.0 };
    Some(Test {
        name: word("tipping backwards"),
        way: word("backwards"),
        weights: vec![(ON_SEAT * service.share(), Vec3::new(0.0, s.seat_point(), 0.0))],
        push: push * service.share(),
        direction: Vec3::Y,
        height,
        source: REAR,
        knob: "kick",
    })
}

fn with_arms(s: &Sitting, service: &Service) -> Option<Test> {
    let arm = s.arm?;
    let outer = s.places.iter().copied().fold(0.0, f64::max);
    let middle = (s.front + s.back_line) / 2.0;
    Some(Test {
        name: word("tipping over an arm"),
        way: word("over an arm"),
        weights: vec![
            (BESIDE * service.share(), Vec3::new(outer + BESIDE_MIDDLE, middle, 0.0)),
            (ON_ARM * service.share(), Vec3::new(arm.x - FROM_ARM_EDGE, arm.y + FROM_ARM_EDGE, 0.0)),
        ],
        push: PUSH * service.share(),
        direction: Vec3::X,
        height: arm.z,
        source: ARMS,
        knob: "seat_width",
    })
}

impl Test {
    /// The force that tips, N, over the edge that gives way first; negative where the chair tips without a push.
    fn tips_at(&self, s: &Sitting) -> Option<f64> {
        let own = (s.mass * GRAVITY, s.centre);
        let over = edges(&s.feet).filter_map(|(foot, out)| {
            let towards = out.dot(self.direction);
            let moment: f64 = self.weights.iter().chain([&own]).map(|(v, p)| v * -(*p - foot).dot(out)).sum();
            (towards > 1e-6).then(|| moment / (towards * self.height))
        });
        over.min_by(f64::total_cmp)
    }

    /// How far the empty chair leans before it falls, degrees.
    fn tilt(&self, s: &Sitting) -> Option<f64> {
        let room = edges(&s.feet)
            .filter(|(_, out)| out.dot(self.direction) > 1e-6)
            .map(|(foot, out)| -(s.centre - foot).dot(out) / out.dot(self.direction));
        let room = room.min_by(f64::total_cmp)?;
        Some(degrees(atan2(room, s.centre.z)))
    }

    fn finding(&self, s: &Sitting) -> Option<Finding> {
        let (tips, tilt) = (self.tips_at(s)?, self.tilt(s)?);
        let say = if tips > 0.0 {
            say!(
                "A push of {tips:.0} N tips it, {:.0} N must be withstood; the empty chair can be tilted {tilt:.0}° before it falls.",
                self.push
            )
        } else {
            say!(
                "It tips by the weight of the sitter alone; the empty chair can be tilted {tilt:.0}° before it falls."
            )
        };
        let used = if tips > 0.0 { (self.push / tips).min(100.0) } else { 100.0 };
        Some(Finding {
            subject: self.name.to_owned(),
            topic: Topic::Tipping,
            about: About::Way(self.way),
            plain: String::new(),
            knob: Some(self.knob),
            say,
            value: tips,
            limit: self.push / LIMIT.sound,
            unit: "N",
            verdict: LIMIT.verdict(used),
            used: LIMIT.used(used),
            source: self.source,
        })
    }
}

/// Edges of the outline of the feet: a point of each and its level normal out of the outline.
fn edges(feet: &[Vec3]) -> impl Iterator<Item = (Vec3, Vec3)> + '_ {
    let next = feet.iter().cycle().skip(1);
    feet.iter().zip(next).map(|(&a, &b)| (a, Vec3::new(b.y - a.y, a.x - b.x, 0.0).unit()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crestrail_sitter::Sitter;

    /// A chair of 5 kg with feet at ±190 mm; its depth runs the other way than in the worked example.
    fn example(front: f64, half_width: f64, back_line: f64) -> Sitting {
        let foot = |x: f64, y: f64| Vec3::new(x, y, 0.0);
        Sitting {
            seat_height: 450.0,
            front,
            back_line,
            half_width,
            places: vec![0.0],
            back_top: Some(900.0),
            arm: None,
            feet: vec![foot(-190.0, -190.0), foot(190.0, -190.0), foot(190.0, 190.0), foot(-190.0, 190.0)],
            mass: 5.0,
            centre: Vec3::new(0.0, 20.0, 400.0),
        }
    }

    const ADULT: Service =
        Service { user: 110.0, pegged: true, sitter: Sitter::Adults, table: None, climate: Service::HOUSE };

    /// Worked by hand from statics: W = 49.03 N at 20 mm behind the middle, feet at ±190 mm, seat 450 mm high, front
    /// edge 220 mm before the middle: 62.9 N tip it; 260 mm: 9.55 N; side edge at 210 mm: 74.0 N; back line 180 mm
    /// behind the middle: 159.1 N against 157.1 N.
    #[test]
    fn the_worked_example_of_stability() {
        let near = |found: Option<f64>, wanted: f64| {
            assert!((found.unwrap() - wanted).abs() < 0.06, "{found:?} {wanted}");
        };
        near(forwards(&example(-220.0, 210.0, 180.0), &ADULT).tips_at(&example(-220.0, 210.0, 180.0)), 62.9);
        near(forwards(&example(-260.0, 210.0, 180.0), &ADULT).tips_at(&example(-260.0, 210.0, 180.0)), 9.55);
        let chair = example(-220.0, 210.0, 180.0);
        near(sideways(&chair, &ADULT).tips_at(&chair), 74.0);
        let rear = backwards(&chair, &ADULT).unwrap();
        near(rear.tips_at(&chair), 159.1);
        assert!((rear.push - 157.1).abs() < 0.05);
    }

    #[test]
    fn wide_feet_do_not_tip_and_an_overhang_does() {
        let verdict = |front: f64| {
            let chair = example(front, 210.0, 180.0);
            findings(&chair, &ADULT).into_iter().find(|f| f.subject == "tipping forwards").map(|f| f.verdict)
        };
        use crate::finding::Verdict;
        assert_eq!((verdict(-220.0), verdict(-260.0)), (Some(Verdict::Sound), Some(Verdict::Fails)));
        assert_eq!(verdict(-300.0), Some(Verdict::Fails));
    }
}
