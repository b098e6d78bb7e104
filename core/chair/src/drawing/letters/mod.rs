//! Letters in circles beside the chair, with a line from each to a part that carries it.

mod anchors;
mod columns;

use super::{Scene, faces};
use anchors::Anchor;
use crestrail_sheet::{Align, Circle, Fill, Group, Item, Path, Stroke, Text, Trace, Weight};
use kurbo::{Line, Point};

/// Sizes in pixels at weight 1.
const RADIUS: f64 = 11.5;
const FONT: f64 = 13.0;
const COUNT_FONT: f64 = 11.0;
const LEADER: f64 = 0.9;
const HALO: f64 = 2.6;
const DOT: f64 = 1.9;

/// A letter with its place.
#[derive(Clone, Copy, Debug)]
struct Label<'a> {
    anchor: Anchor<'a>,
    side: Side,
    /// Middle of the circle on the sheet.
    centre: Point,
}

/// The column a letter stands in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Side {
    Left,
    Right,
}

/// The lines of all letters that can be seen, then a group for each letter.
pub(super) fn items(scene: &Scene<'_>) -> Vec<Item> {
    let labels = place(scene);
    let tags = labels.iter().map(|label| tag(scene, label));
    leaders(scene, &labels).into_iter().chain(tags).collect()
}

fn place<'a>(scene: &'a Scene<'_>) -> Vec<Label<'a>> {
    columns::place(scene, anchors::find(scene))
}

/// The line from the circle to the part.
fn line(scene: &Scene<'_>, label: &Label<'_>) -> Line {
    Line::new(rim(scene, label), label.anchor.at(label.side))
}

/// Where the line from the part meets the circle.
fn rim(scene: &Scene<'_>, label: &Label<'_>) -> Point {
    let way = label.anchor.at(label.side) - label.centre;
    label.centre + way / way.hypot2().sqrt() * (RADIUS * scene.frame.weight)
}

/// All lines: together, since a page takes its time over each path.
fn leaders(scene: &Scene<'_>, labels: &[Label<'_>]) -> Option<Item> {
    let (palette, weight) = (&scene.palette, scene.frame.weight);
    let traces: Vec<Trace> = labels
        .iter()
        .map(|label| line(scene, label))
        .map(|Line { p0: rim, p1: at }| Trace { points: vec![rim, at], closed: false })
        .collect();
    let halo = Stroke { opacity: 0.8, ..Stroke::solid(palette.paper, HALO * weight) };
    let ink = Stroke::solid(palette.ink, LEADER * weight);
    let path = |stroke| Item::Path(Path { traces: traces.clone(), fill: None, stroke: Some(stroke) });
    let dots = labels.iter().filter(|label| !label.anchor.tiny).map(|label| dot(scene, label));
    let items = [halo, ink].map(path).into_iter().chain(dots).collect();
    (!labels.is_empty()).then(|| Item::Group(Group { data: vec![("layer", "leaders".to_owned())], items }))
}

/// Where a line ends on its part.
fn dot(scene: &Scene<'_>, label: &Label<'_>) -> Item {
    let (palette, weight) = (&scene.palette, scene.frame.weight);
    Item::Circle(Circle {
        centre: label.anchor.at(label.side),
        radius: DOT * weight,
        fill: Some(Fill::solid(palette.ink)),
        stroke: Some(Stroke::solid(palette.paper, 0.8 * weight)),
    })
}

fn tag(scene: &Scene<'_>, label: &Label<'_>) -> Item {
    let (palette, weight) = (&scene.palette, scene.frame.weight);
    let circle = Circle {
        centre: label.centre,
        radius: RADIUS * weight,
        fill: Some(Fill::solid(palette.paper)),
        stroke: Some(Stroke::solid(palette.ink, LEADER * weight)),
    };
    let mut items = vec![Item::Circle(circle), Item::Text(letter(scene, label))];
    items.extend(count(scene, label).map(Item::Text));
    let part = &scene.chair.parts[label.anchor.part];
    Item::Group(Group { data: faces::data(part).into_iter().take(1).collect(), items })
}

fn letter(scene: &Scene<'_>, label: &Label<'_>) -> Text {
    let wide = label.anchor.letter.chars().count() > 1;
    let size = FONT * scene.frame.weight * if wide { 0.85 } else { 1.0 };
    Text {
        words: label.anchor.letter.to_owned(),
        // Capitals are about 0.7 of the size high.
        at: label.centre + kurbo::Vec2::new(0.0, 0.35 * size),
        align: Align::Middle,
        size,
        weight: Weight::Medium,
        colour: scene.palette.ink,
        turn: 0.0,
    }
}

/// How many parts carry the letter, on the outer side of the circle.
fn count(scene: &Scene<'_>, label: &Label<'_>) -> Option<Text> {
    let size = COUNT_FONT * scene.frame.weight;
    let aside = (RADIUS + 4.0) * scene.frame.weight;
    let (step, align) = match label.side {
        Side::Left => (-aside, Align::End),
        Side::Right => (aside, Align::Start),
    };
    (label.anchor.count > 1).then(|| Text {
        words: format!("×{}", label.anchor.count),
        at: label.centre + kurbo::Vec2::new(step, 0.35 * size),
        align,
        size,
        weight: Weight::Regular,
        colour: scene.palette.ink,
        turn: 0.0,
    })
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;
    use crestrail_geometry::leads;

    /// Every leader as a line, with its circle; and the checks that none of them meet.
    pub(crate) fn assert_apart(scene: &Scene<'_>) {
        let radius = RADIUS * scene.frame.weight;
        let labels = place(scene);
        for (i, a) in labels.iter().enumerate() {
            let own = line(scene, a);
            for b in &labels[i + 1..] {
                let other = line(scene, b);
                let names = (&a.anchor.letter, &b.anchor.letter, scene.view);
                assert!((a.centre - b.centre).hypot2() > 4.0 * radius * radius, "circles meet: {names:?}");
                assert!(!leads::cross(own, other), "leaders cross: {names:?}");
                assert!(leads::distance(own, b.centre) > radius, "leader through circle: {names:?}");
                assert!(leads::distance(other, a.centre) > radius, "leader through circle: {names:?}");
            }
        }
    }

    /// Each leader ends on a face of a part with its letter, as seen in the picture.
    pub(crate) fn assert_rightly_anchored(scene: &Scene<'_>) {
        for label in place(scene) {
            let p = scene.frame.millimetre(label.anchor.at(label.side));
            let top = scene.picture.seen_at(p).expect("a face at the end of a leader");
            let part = &scene.chair.parts[scene.picture.faces[top].owner];
            assert_eq!(part.letter, label.anchor.letter);
        }
    }
}
