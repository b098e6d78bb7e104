//! The faces of the parts, from back to front.

use super::{Scene, grain, hatch};
use crate::part::{Part, Role};
use crestrail_geometry::Vec3;
use crestrail_geometry::view::{Edge, Outline, Shown};
use crestrail_sheet::{Colour, Fill, Group, Item, Path, Stroke, Trace};

/// Widths of lines in pixels at weight 1.
const SHARP: f64 = 0.75;
/// Holes and pegs are too small for it.
const SILHOUETTE: f64 = 1.3;
/// Laid in its own colour round each face of a curved surface, so that no gap shows between them.
const SEAM: f64 = 0.5;
/// A face is end grain if its normal lies within about 37° of the grain.
const END_GRAIN: f64 = 0.8;

/// One group for each run of faces of one part.
pub(super) fn items(scene: &Scene<'_>) -> impl Iterator<Item = Item> {
    let runs = scene.picture.faces.chunk_by(|a, b| a.owner == b.owner);
    // Most parts are of one material.
    let mut last = None;
    runs.map(move |run| {
        let part = &scene.chair.parts[run[0].owner];
        let tint = match (&scene.shares, last) {
            (Some(shares), _) => scene.palette.verdict(shares.verdict(run[0].owner)),
            (None, Some((material, tint))) if material == part.material => tint,
            (None, _) => scene.palette.tint(part.material),
        };
        last = Some((part.material, tint));
        // Of most faces the inside, sharp edges and outline.
        let mut items = Vec::with_capacity(3 * run.len());
        run.iter().for_each(|face| draw(scene, part, tint, face, &mut items));
        if scene.shares.is_none() {
            items.extend(grain::over(scene, part, run));
        }
        Item::Group(Group { data: data(part), items })
    })
}

/// By what a page finds the groups of a part.
pub(super) fn data(part: &Part) -> Vec<(&'static str, String)> {
    vec![("letter", part.letter.clone()), ("part", part.id.to_string())]
}

fn draw(scene: &Scene<'_>, part: &Part, tint: Colour, face: &Shown, items: &mut Vec<Item>) {
    let colour =
        scene.palette.face(tint, face.normal, &scene.picture.camera, is_end_grain(part, face.normal));
    items.push(filled(scene, face, colour));
    let verdict = scene.shares.as_ref().and_then(|shares| shares.verdict(face.owner));
    items.extend(verdict.and_then(|verdict| hatch::over(scene, face, verdict)));
    for (thick, width) in [(false, SHARP), (true, SILHOUETTE)] {
        let mut traces = Vec::new();
        for (i, ring) in face.rings.iter().enumerate() {
            let may_be_thick = i == 0 && part.id.role != Role::Peg;
            let thicks = |edge| may_be_thick && edge == Edge::Silhouette;
            lines(scene, ring, |edge| edge != Edge::Smooth && thicks(edge) == thick, &mut traces);
        }
        if !traces.is_empty() {
            let stroke = Stroke::solid(scene.palette.line, width * scene.frame.weight);
            items.push(Item::Path(Path { traces, fill: None, stroke: Some(stroke) }));
        }
    }
}

pub(super) fn is_end_grain(part: &Part, normal: Vec3) -> bool {
    part.material.species().is_some() && part.place.x.dot(normal).abs() > END_GRAIN
}

fn filled(scene: &Scene<'_>, face: &Shown, colour: Colour) -> Item {
    let trace = |ring: &Outline| Trace {
        points: ring.points.iter().map(|&p| scene.frame.pixel(p)).collect(),
        closed: true,
    };
    let curved = face.rings.iter().any(|ring| ring.edges.contains(&Edge::Smooth));
    let stroke = curved.then(|| Stroke::solid(colour, SEAM));
    Item::Path(Path {
        traces: face.rings.iter().map(trace).collect(),
        fill: Some(Fill::solid(colour)),
        stroke,
    })
}

/// Adds the stretches of a ring made of wanted edges.
fn lines(scene: &Scene<'_>, ring: &Outline, wanted: impl Fn(Edge) -> bool, traces: &mut Vec<Trace>) {
    let n = ring.points.len();
    let wrapped = |i: usize| if i < n { i } else { i - n };
    let trace = |from: usize, count: usize| {
        let mut points = Vec::with_capacity(count);
        points.extend((from..from + count).map(|i| scene.frame.pixel(ring.points[wrapped(i)])));
        points
    };
    let Some(other) = ring.edges.iter().position(|edge| !wanted(*edge)) else {
        traces.push(Trace { points: trace(0, n), closed: true });
        return;
    };
    let mut from = other;
    while from < other + n {
        // The last edge of all is the unwanted one where this began.
        let mut to = from;
        while to < other + n && wanted(ring.edges[wrapped(to)]) {
            to += 1;
        }
        if to > from {
            // A stretch of one ring comes to no corner twice but for its own end.
            traces.push(Trace { points: trace(wrapped(from), to - from + 1), closed: false });
        }
        from = to + 1;
    }
}
