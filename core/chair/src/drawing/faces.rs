//! The faces of the parts, from back to front.

use super::{Scene, grain, hatch};
use crate::part::{Part, Role};
use crestrail_geometry::Vec3;
use crestrail_geometry::view::{Edge, Outline, Shown};
use crestrail_sheet::{Colour, Fill, Group, Item, Path, Stroke, Trace};
use kurbo::Point;

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
        let mut items = Vec::with_capacity(run.len() + 2);
        layers(run).for_each(|layer| draw(scene, part, tint, layer, &mut items));
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

/// Faces of one part that come one after the other, parted where one may lie over another: those of a layer lie side by side.
fn layers(mut faces: &[Shown]) -> impl Iterator<Item = &[Shown]> {
    core::iter::from_fn(move || {
        let lies_over = |&i: &usize| faces[..i].iter().any(|under| !under.is_clear_of(&faces[i]));
        let end = (1..faces.len()).find(lies_over).unwrap_or(faces.len());
        let (layer, nearer) = faces.split_at(end);
        faces = nearer;
        (!layer.is_empty()).then_some(layer)
    })
}

/// Faces side by side: all insides, hatching, thin lines, thick lines. What looks alike is one path, for a page takes its time over
/// each.
fn draw(scene: &Scene<'_>, part: &Part, tint: Colour, layer: &[Shown], items: &mut Vec<Item>) {
    fill(scene, part, tint, layer, items);
    let verdict = scene.shares.as_ref().and_then(|shares| shares.verdict(layer[0].owner));
    if let Some(verdict) = verdict {
        items.extend(layer.iter().filter_map(|face| hatch::over(scene, face, verdict)));
    }
    let mut lines = Lines::default();
    layer.iter().for_each(|face| lines.add(scene, face, part.id.role != Role::Peg));
    for (traces, width) in [(lines.thin, SHARP), (lines.thick, SILHOUETTE)] {
        if !traces.is_empty() {
            let stroke = Stroke::solid(scene.palette.line, width * scene.frame.weight);
            items.push(Item::Path(Path { traces, fill: None, stroke: Some(stroke) }));
        }
    }
}

/// The insides of faces side by side. Flat ones of one colour are one path; faces of a curved surface are each drawn round, too.
fn fill(scene: &Scene<'_>, part: &Part, tint: Colour, layer: &[Shown], items: &mut Vec<Item>) {
    let first = items.len();
    for face in layer {
        let end_grain = is_end_grain(part, face.normal);
        let colour = scene.palette.face(tint, face.normal, &scene.picture.camera, end_grain);
        let trace = |ring: &Outline| Trace {
            points: ring.points.iter().map(|&p| scene.frame.pixel(p)).collect(),
            closed: true,
        };
        let traces = face.rings.iter().map(trace);
        let (fill, is_curved) = (Some(Fill::solid(colour)), face.rings.iter().any(is_curved));
        let alike = items[first..].iter_mut().find_map(|item| match item {
            Item::Path(path) if path.fill == fill && path.stroke.is_none() && !is_curved => Some(path),
            _ => None,
        });
        match alike {
            Some(path) => path.traces.extend(traces),
            None => {
                let stroke = is_curved.then(|| Stroke::solid(colour, SEAM));
                items.push(Item::Path(Path { traces: traces.collect(), fill, stroke }));
            }
        }
    }
}

fn is_curved(ring: &Outline) -> bool {
    ring.edges.contains(&Edge::Smooth)
}

pub(super) fn is_end_grain(part: &Part, normal: Vec3) -> bool {
    part.material.species().is_some() && part.place.x.dot(normal).abs() > END_GRAIN
}

/// The lines of faces side by side.
#[derive(Default)]
struct Lines {
    thin: Vec<Trace>,
    thick: Vec<Trace>,
    /// Edges of which the face on the other side needs no line any more.
    drawn: Vec<(Point, Point)>,
}

impl Lines {
    fn add(&mut self, scene: &Scene<'_>, face: &Shown, may_be_thick: bool) {
        for (place, ring) in face.rings.iter().enumerate() {
            let (n, before) = (ring.points.len(), self.drawn.len());
            let ends = |i: usize| (ring.points[i], ring.points[if i + 1 < n { i + 1 } else { 0 }]);
            // Both faces have the very same corners, for those are laid flat once for a body, unless both were cut there.
            let is_drawn = |i: usize| {
                let (from, to) = ends(i);
                self.drawn[..before].contains(&(to, from))
            };
            let is_thick = |i: usize| ring.edges[i] == Edge::Silhouette;
            let outer = may_be_thick && place == 0;
            if outer {
                stretches(scene, ring, is_thick, &mut self.thick);
            }
            let is_thin = |i: usize| match ring.edges[i] {
                Edge::Smooth => false,
                Edge::Sharp => !is_drawn(i),
                Edge::Silhouette => !outer,
            };
            stretches(scene, ring, is_thin, &mut self.thin);
            self.drawn.extend((0..n).filter(|&i| ring.edges[i] == Edge::Sharp).map(ends));
        }
    }
}

/// Adds the stretches of a ring made of wanted edges.
fn stretches(scene: &Scene<'_>, ring: &Outline, wanted: impl Fn(usize) -> bool, traces: &mut Vec<Trace>) {
    let n = ring.points.len();
    let wrapped = |i: usize| if i < n { i } else { i - n };
    let trace = |from: usize, count: usize| {
        let mut points = Vec::with_capacity(count);
        points.extend((from..from + count).map(|i| scene.frame.pixel(ring.points[wrapped(i)])));
        points
    };
    let Some(other) = (0..n).find(|&i| !wanted(i)) else {
        traces.push(Trace { points: trace(0, n), closed: true });
        return;
    };
    let mut from = other;
    while from < other + n {
        // The last edge of all is the unwanted one where this began.
        let mut to = from;
        while to < other + n && wanted(wrapped(to)) {
            to += 1;
        }
        if to > from {
            // A stretch of one ring comes to no corner twice but for its own end.
            traces.push(Trace { points: trace(wrapped(from), to - from + 1), closed: false });
        }
        from = to + 1;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::tests::{chairs, scene, views};

    fn each_layer(mut each: impl FnMut(&Scene<'_>, &[Shown])) {
        for chair in chairs() {
            for view in views().step_by(7) {
                let scene = scene(&chair, &view);
                let runs = scene.picture.faces.chunk_by(|a, b| a.owner == b.owner);
                runs.flat_map(layers).for_each(|layer| each(&scene, layer));
            }
        }
    }

    /// No place close to a corner of a face, within it, lies under or over another face of its layer.
    #[test]
    fn faces_of_a_layer_lie_side_by_side() {
        let (mut most, mut places) = (0, 0);
        each_layer(|scene, layer| {
            most = most.max(layer.len());
            for face in layer {
                let points = &face.rings[0].points;
                let sum = points.iter().fold(kurbo::Vec2::ZERO, |sum, p| sum + p.to_vec2());
                let middle = (sum / points.len() as f64).to_point();
                let near = points.iter().map(|p| p.lerp(middle, 0.03)).filter(|&p| face.covers(p));
                for p in near {
                    places += 1;
                    let met = layer.iter().filter(|other| other.covers(p)).count();
                    assert_eq!(met, 1, "{:?}", scene.view);
                }
            }
        });
        assert!(most > 5 && places > 10_000, "{most} faces side by side, {places} places");
    }

    #[test]
    fn every_edge_of_a_layer_is_drawn_and_hardly_any_twice() {
        let (mut all, mut twice) = (0, 0);
        each_layer(|scene, layer| {
            let key = |a: Point, b: Point| {
                let mut ends = [a, b].map(|p| (p.x.to_bits(), p.y.to_bits()));
                ends.sort_unstable();
                ends
            };
            let mut lines = Lines::default();
            layer.iter().for_each(|face| lines.add(scene, face, true));
            let mut drawn = Vec::new();
            for Trace { points, closed } in lines.thin.iter().chain(&lines.thick) {
                drawn.extend(points.windows(2).map(|ends| key(ends[0], ends[1])));
                drawn.extend(closed.then(|| key(points[points.len() - 1], points[0])));
            }
            let mut wanted = Vec::new();
            for ring in layer.iter().flat_map(|face| &face.rings) {
                let pixel = |i: usize| scene.frame.pixel(ring.points[i % ring.points.len()]);
                let seen = (0..ring.points.len()).filter(|&i| ring.edges[i] != Edge::Smooth);
                wanted.extend(seen.map(|i| key(pixel(i), pixel(i + 1))));
            }
            drawn.sort_unstable();
            wanted.sort_unstable();
            wanted.dedup();
            let lines = drawn.len();
            drawn.dedup();
            assert_eq!(drawn, wanted);
            (all, twice) = (all + lines, twice + lines - drawn.len());
        });
        assert!(all > 10_000 && 20 * twice < all, "{twice} of {all} edges twice");
    }
}
