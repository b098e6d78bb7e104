//! Limits of the sizes that joints depend on: between which two sizes a piece may lie so that it still goes together and
//! holds. Data alone; `table` draws it.
//!
//! Sizes by which a joint closes or fits have a class of ISO 2768-1 or a zone of ISO 286-1; where a tenon must not be too
//! large, nor a mortise too small, the whole zone lies on the other side of the size. Which class a size takes is common
//! practice, no source: what a knife, a marking gauge and a mortiser hold.

mod classes;
mod table;

pub(super) use table::{CHOSEN, blocks};

use super::gauges::gauged;
use super::marks::{Mark, What};
use super::subject::Subject;
use crate::chair::Chair;
use crate::joint::{End, Joint, Kind};
use crate::sheets::pens;

/// A size with its deviations, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limit {
    /// What is measured.
    pub what: Checked,
    /// The size it should have.
    pub size: f64,
    /// How much more it may be.
    pub upper: f64,
    /// How much less it may be, as a number that is not above zero.
    pub lower: f64,
}

/// What is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Checked {
    /// From shoulder to shoulder, along the part.
    Shoulders,
    /// A tenon's thickness.
    Thick,
    /// A tenon's width.
    Wide,
    /// A tenon's length from its shoulder.
    Long,
    /// How much nearer to the shoulder a peg's hole is bored in the tenon.
    Draw,
    /// A mortise's width: that of the cut.
    Cut,
    /// A mortise's length along the part.
    Mouth,
    /// A mortise's depth.
    Deep,
    /// From the face edge or the face side to its near wall.
    Across,
    /// From the datum end to its near end.
    Along,
    /// From the mouth of the mortise to the middle of a peg's hole.
    Peg,
}

/// The limits of one joint at a part, or of the part itself.
#[derive(Clone, Debug, PartialEq)]
pub struct Limits {
    /// Such as `Tenon into B, datum end`.
    pub title: String,
    /// In the order in which they are cut.
    pub all: Vec<Limit>,
}

impl Checked {
    /// As it stands above a column.
    pub fn name(self) -> &'static str {
        match self {
            Self::Shoulders => "Shoulder to shoulder",
            Self::Thick => "Thick",
            Self::Wide => "Wide",
            Self::Long => "Long",
            Self::Draw => "Peg drawn by",
            Self::Cut => "Cut",
            Self::Mouth => "Mouth",
            Self::Deep => "Deep",
            Self::Across => "From the face",
            Self::Along => "From the end",
            Self::Peg => "Peg from the mouth",
        }
    }
}

impl Limit {
    fn about(what: Checked, size: f64, by: Option<f64>) -> Option<Self> {
        by.map(|by| Self { what, size, upper: by, lower: -by })
    }

    /// Never larger than it should be: a zone as wide as that of ± `by`.
    fn under(what: Checked, size: f64, by: Option<f64>) -> Option<Self> {
        by.map(|by| Self { what, size, upper: 0.0, lower: -2.0 * by })
    }

    /// Never smaller than it should be.
    fn over(what: Checked, size: f64, by: Option<f64>) -> Option<Self> {
        by.map(|by| Self { what, size, upper: 2.0 * by, lower: 0.0 })
    }
}

/// The cheeks of a tenon are finished so well that its play is between half and one and a half of what the shop wants
/// (common practice, no source).
pub(super) const SHARE_OF_PLAY: f64 = 0.5;

/// How far a draw may be off, mm: class c of ISO 2768-1 for sizes from 0.5 to 3 mm (from memory).
const DRAW: f64 = 0.2;

/// All limits of a part: of itself, of its tenons, of its mortises; joints alike share a row.
pub fn limits(chair: &Chair, subject: &Subject<'_>) -> Vec<Limits> {
    let own = subject.part.id;
    let mut found: Vec<Limits> = Vec::new();
    found.extend(between_shoulders(chair, subject));
    for joint in chair.joints.iter().filter(|joint| joint.guest == own) {
        found.push(tenon(chair, joint));
    }
    for joint in chair.joints.iter().filter(|joint| joint.host == own) {
        found.push(mortise(chair, subject, joint));
    }
    found.retain(|limits| !limits.all.is_empty());
    found
}

/// A part with a tenon at both ends has a length that its frame depends on.
fn between_shoulders(chair: &Chair, subject: &Subject<'_>) -> Option<Limits> {
    let part = subject.part;
    let has = |end: End| chair.joints.iter().any(|joint| joint.guest == part.id && joint.end == end);
    let length = part.size.length;
    let limit = Limit::about(Checked::Shoulders, length, classes::fine(length));
    (has(End::Near) && has(End::Far))
        .then(|| Limits { title: "From shoulder to shoulder".to_owned(), all: limit.into_iter().collect() })
}

fn tenon(chair: &Chair, joint: &Joint) -> Limits {
    let end = if joint.end == End::Near { "datum end" } else { "far end" };
    let tenon = &joint.tenon;
    let play = (joint.mortise.thickness - tenon.thickness) * SHARE_OF_PLAY;
    let all = if joint.kind.is_separate() {
        Vec::new()
    } else {
        let draw = joint.pegs.first().map(|peg| peg.draw).filter(|draw| *draw > 0.0);
        let long = if joint.kind == Kind::Through { None } else { classes::medium(tenon.length) };
        [
            Limit::about(Checked::Thick, tenon.thickness, Some(play)),
            Limit::under(Checked::Wide, tenon.width, classes::fine(tenon.width)),
            Limit::under(Checked::Long, tenon.length, long),
            draw.and_then(|draw| Limit::about(Checked::Draw, draw, Some(DRAW.min(draw / 2.0)))),
        ]
        .into_iter()
        .flatten()
        .collect()
    };
    Limits { title: format!("Tenon into {}, {end}", chair.letter(joint.host)), all }
}

fn mortise(chair: &Chair, subject: &Subject<'_>, joint: &Joint) -> Limits {
    let mortise = &joint.mortise;
    let dowels = joint.kind == Kind::Dowels;
    let deep = if joint.kind == Kind::Through { None } else { classes::medium(mortise.depth) };
    let cut = classes::it11(mortise.thickness).map(|zone| zone / 2.0);
    let mut all: Vec<Option<Limit>> = vec![Limit::over(Checked::Cut, mortise.thickness, cut)];
    if !dowels {
        all.push(Limit::over(Checked::Mouth, mortise.width, classes::fine(mortise.width)));
    }
    all.push(Limit::over(Checked::Deep, mortise.depth, deep));
    if let Some(mark) = mouth(subject, joint).filter(|_| !dowels) {
        let lines = gauged(subject, mark);
        if let [near] | [near, _] = lines.as_slice() {
            all.push(Limit::about(Checked::Across, *near, classes::fine(*near)));
        }
        let near = mark.corners.iter().map(|p| p.x).fold(f64::INFINITY, f64::min);
        all.push(Limit::about(Checked::Along, near, classes::fine(near)));
    }
    if let Some(peg) = joint.pegs.first() {
        all.push(Limit::about(Checked::Peg, peg.from_face, classes::fine(peg.from_face)));
    }
    let title = if dowels { "Holes for" } else { "Mortise for" };
    Limits {
        title: format!("{title} {}", chair.letter(joint.guest)),
        all: all.into_iter().flatten().collect(),
    }
}

/// The mouth of a joint's mortise among the marks of its host.
fn mouth<'a>(subject: &'a Subject<'_>, joint: &Joint) -> Option<&'a Mark> {
    let blank = &subject.marked.blank;
    let face = blank.facing(joint.face.normal);
    let middle = blank.on(face, joint.mouth.origin);
    let own = |mark: &&Mark| {
        let around = pens::around(&mark.corners).is_some_and(|rect| rect.contains(middle));
        mark.face == face && mark.what == What::Mortise && around
    };
    subject.marked.marks.iter().find(own)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;
    use crate::joints::Bench;
    use crate::sheets::setting::subjects;
    use serde_json::json;

    /// At the worst limits of both a tenon still enters its mortise, and never meets its bottom or the ends of the mouth.
    #[test]
    fn at_the_worst_limits_every_joint_still_goes_together() {
        let kinds = ["side_chair", "armchair", "bar_chair", "stool"];
        let mut joints = 0;
        for kind in kinds {
            let design = Design::default().with("family", &json!(kind)).expect("a kind");
            let chair = Chair::resolve(&design, &Bench::default()).expect("a chair");
            for joint in chair.joints.iter().filter(|joint| !joint.kind.is_separate()) {
                let subjects = subjects(&chair).expect("faces");
                let of = |id| subjects.iter().find(|subject| subject.part.id == id);
                let Some(host) = of(joint.host) else { continue };
                let (guest, host) = (tenon(&chair, joint), mortise(&chair, host, joint));
                let most =
                    |all: &[Limit], what| all.iter().find(|l| l.what == what).map(|l| l.size + l.upper);
                let least =
                    |all: &[Limit], what| all.iter().find(|l| l.what == what).map(|l| l.size + l.lower);
                let pairs = [
                    (Checked::Thick, Checked::Cut),
                    (Checked::Wide, Checked::Mouth),
                    (Checked::Long, Checked::Deep),
                ];
                for (inner, outer) in pairs {
                    let Some((inner_most, outer_least)) =
                        most(&guest.all, inner).zip(least(&host.all, outer))
                    else {
                        continue;
                    };
                    assert!(inner_most < outer_least + 1e-9, "{kind}, {}: {inner:?}", guest.title);
                    joints += 1;
                }
            }
        }
        assert!(joints > 60, "{joints}");
    }

    /// The lengths between the shoulders of a pair of rails may differ by less than a feeler that no shoulder lets in.
    #[test]
    fn shoulders_have_limits_where_both_ends_have_tenons() {
        let chair = Chair::resolve(&Design::default(), &Bench::default()).expect("a chair");
        let subjects = subjects(&chair).expect("faces");
        let rail = subjects.iter().find(|s| s.part.id.role == crate::part::Role::FrontRail).expect("a rail");
        let own = &limits(&chair, rail)[0].all[0];
        assert_eq!((own.what, own.size), (Checked::Shoulders, rail.part.size.length));
        assert!(own.upper > 0.0 && own.upper <= 0.3 && own.lower == -own.upper);
        let leg = subjects.iter().find(|s| s.part.id.role == crate::part::Role::FrontLeg).expect("a leg");
        assert!(limits(&chair, leg).iter().flat_map(|l| &l.all).all(|l| l.what != Checked::Shoulders));
    }
}
