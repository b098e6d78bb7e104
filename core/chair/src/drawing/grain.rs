//! The grain of timber: a few fine lines on each face, along the part; rings on end grain.
//!
//! Lines belong to the part, not to the picture: each has its number across the part and is bent out of its even place by that
//! number and the part's own. So they stay where they are while a knob is moved or the chair is turned, and twins are mirror
//! images. Where they would come too near to each other on the picture, every other one is left out.

use super::{Scene, faces};
use crate::part::{Part, Side};
use crestrail_geometry::view::Shown;
use crestrail_geometry::{Vec3, math};
use crestrail_sheet::{Item, Path, Stroke, Trace};
use crestrail_timber::{Kind, Species};
use kurbo::{Point, Vec2};

/// Lines are no nearer to each other than this, pixels at weight 1.
const NEAREST: f64 = 6.5;
/// The same for rings on end grain.
const NEAREST_RING: f64 = 3.5;
/// How far a line may lie from its even place, as a share of the distance.
const ASTRAY: f64 = 0.36;
/// What is shorter is left out, pixels at weight 1.
const SHORTEST: f64 = 18.0;
/// The same for rings on end grain.
const SHORTEST_RING: f64 = 6.0;
/// Width of a line in pixels at weight 1.
const WIDTH: f64 = 0.6;
/// A gap in a line, as a share of the length from one gap to the next.
const GAP: f64 = 0.16;
/// Rings run across the end this much aslant: their rise for each mm across.
const SLANT: f64 = 0.3;

/// How the lines of a timber look. Chosen by eye for this page.
#[derive(Clone, Copy)]
struct Figure {
    /// Distance between lines, mm.
    apart: f64,
    /// How much a line covers of what lies below.
    opacity: f64,
    /// From one gap in a line to the next, mm.
    run: f64,
}

/// Pores in rings, open on the face: many lines, often broken.
const RING_POROUS: Figure = Figure { apart: 6.0, opacity: 0.34, run: 170.0 };
/// Something between.
const BETWEEN: Figure = Figure { apart: 8.0, opacity: 0.28, run: 240.0 };
/// Even and close.
const DIFFUSE: Figure = Figure { apart: 11.0, opacity: 0.2, run: 330.0 };
/// Dark late wood in full lines.
const SOFT: Figure = Figure { apart: 8.0, opacity: 0.3, run: 600.0 };

/// By the beginning of the species' id; all other broad-leaved timbers are diffuse-porous (how pores lie after the
/// species' pages of the Wood Handbook, FPL-GTR-282, chapter 2; from memory).
const POROUS: [(&str, Figure); 11] = [
    ("ash", RING_POROUS),
    ("oak", RING_POROUS),
    ("chestnut", RING_POROUS),
    ("elm", RING_POROUS),
    ("hackberry", RING_POROUS),
    ("hickory", RING_POROUS),
    ("locust", RING_POROUS),
    ("teak", RING_POROUS),
    ("walnut", BETWEEN),
    ("butternut", BETWEEN),
    ("mahogany", BETWEEN),
];

impl Figure {
    fn of(species: &Species) -> Self {
        match species.kind {
            Kind::Softwood => SOFT,
            Kind::Hardwood => {
                POROUS.iter().find(|row| species.id.starts_with(row.0)).map_or(DIFFUSE, |row| row.1)
            }
        }
    }
}

/// Lines over faces of a part that are painted one after the other, as one path; none where they are small, or not of timber.
pub(super) fn over(scene: &Scene<'_>, part: &Part, run: &[Shown]) -> Option<Item> {
    if part.id.role.is_small() {
        return None;
    }
    let figure = Figure::of(part.material.species()?);
    let mut traces = Vec::new();
    for (i, face) in run.iter().enumerate() {
        let before = traces.len();
        if let Some(family) = Family::on(scene, part, face, &figure) {
            family.within(face, |p| scene.frame.pixel(p), &mut traces);
        }
        // The path comes after all faces: of what a later one hides nothing may be drawn.
        if traces.len() > before && i + 1 < run.len() {
            let hidden = |p: Point| run[i + 1..].iter().any(|later| later.covers(scene.frame.millimetre(p)));
            let mut place = 0;
            traces.retain(|trace| {
                place += 1;
                place <= before || !PROBES.iter().any(|&share| hidden(along(trace, share)))
            });
        }
    }
    let stroke =
        Stroke { opacity: figure.opacity, ..Stroke::solid(scene.palette.shade, WIDTH * scene.frame.weight) };
    (!traces.is_empty()).then_some(Item::Path(Path { traces, fill: None, stroke: Some(stroke) }))
}

/// Where it is asked whether a line is hidden, as shares of its length.
const PROBES: [f64; 5] = [0.02, 0.25, 0.5, 0.75, 0.98];

fn along(trace: &Trace, share: f64) -> Point {
    trace.points[0].lerp(trace.points[1], share)
}

/// The lines of one face, in the camera's picture.
struct Family {
    /// How far across the lines a point of the picture lies on the part, mm: `x·a + y·b + c`.
    across: [f64; 3],
    /// How far along them.
    along: [f64; 3],
    /// What a mm along them is in the picture.
    way: Vec2,
    /// Between lines, mm on the part.
    step: f64,
    /// From one gap to the next, mm on the part; nothing for rings, which have none.
    run: Option<f64>,
    /// Mm on the part.
    shortest: f64,
    /// The part's own number.
    seed: u64,
}

impl Family {
    fn on(scene: &Scene<'_>, part: &Part, face: &Shown, figure: &Figure) -> Option<Self> {
        let end = faces::is_end_grain(part, face.normal);
        let (camera, place) = (&scene.picture.camera, &part.place);
        let axis = if end { place.y + place.z * SLANT } else { place.x };
        let normal = face.normal;
        let along = (axis - normal * axis.dot(normal)).unit();
        // Of twins the one is the other's mirror image.
        let hand = if part.id.side == Side::Left { -1.0 } else { 1.0 };
        let across = normal.cross(along) * hand;
        let origin = place.origin + scene.stage.shift_at(face.owner);
        let told = |axis: Vec3| {
            // On the plane of the face nearness follows from the place in the picture.
            let facing = camera.toward.dot(normal);
            let lean = axis.dot(camera.toward) / facing;
            let slope = |way: Vec3| axis.dot(way) - lean * way.dot(normal);
            [
                slope(camera.right),
                slope(camera.up),
                axis.dot(camera.toward) * face.nearness(Point::ZERO) - axis.dot(origin),
            ]
        };
        let told_across = told(across);
        let steepness = math::hypot(told_across[0], told_across[1]);
        let way = camera.flat(along).to_vec2();
        let (pixel, stretch) = (scene.frame.scale / scene.frame.weight, math::hypot(way.x, way.y));
        let (nearest, shortest) = if end { (NEAREST_RING, SHORTEST_RING) } else { (NEAREST, SHORTEST) };
        if stretch * pixel <= 1e-3 {
            return None;
        }
        let mut step = figure.apart;
        while step * pixel < nearest * steepness {
            step *= 2.0;
        }
        Some(Self {
            across: told_across,
            along: told(along),
            way,
            step,
            run: (!end).then_some(figure.run),
            shortest: shortest / (stretch * pixel),
            seed: seed(part),
        })
    }

    /// Those within the face, on the sheet.
    fn within(&self, face: &Shown, pixel: impl Fn(Point) -> Point, traces: &mut Vec<Trace>) {
        let outer = || face.rings[0].points.iter().map(|&p| told(&self.across, p));
        let (low, high) = outer().fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| {
            (math::min(low, v), math::max(high, v))
        });
        let mut met: Vec<(f64, Point)> = Vec::new();
        let (first, last) =
            ((low / self.step - ASTRAY).ceil() as i64, (high / self.step + ASTRAY).floor() as i64);
        for line in first..=last {
            let own = mixed(self.seed, line);
            let at = (line as f64 + ASTRAY * (2.0 * own - 1.0)) * self.step;
            met.clear();
            face.rings.iter().for_each(|ring| self.cross(&ring.points, at, &mut met));
            met.sort_by(|a, b| a.0.total_cmp(&b.0));
            met.chunks_exact(2).for_each(|ends| self.pieces(own, ends[0], ends[1].0, &pixel, traces));
        }
    }

    /// Where a ring crosses the line; a corner on it counts as beyond.
    fn cross(&self, ring: &[Point], at: f64, met: &mut Vec<(f64, Point)>) {
        let Some(&last) = ring.last() else { return };
        let (mut from, mut before) = (last, told(&self.across, last) - at);
        for &to in ring {
            let after = told(&self.across, to) - at;
            if (before < 0.0) != (after < 0.0) {
                let p = from.lerp(to, before / (before - after));
                met.push((told(&self.along, p), p));
            }
            (from, before) = (to, after);
        }
    }

    /// A line from where it enters to where it leaves the face, with its gaps.
    fn pieces(
        &self,
        own: f64,
        (from, start): (f64, Point),
        to: f64,
        pixel: &impl Fn(Point) -> Point,
        traces: &mut Vec<Trace>,
    ) {
        let mut piece = |a: f64, b: f64| {
            if b - a >= self.shortest {
                let points = [a, b].map(|u| pixel(start + self.way * (u - from))).to_vec();
                traces.push(Trace { points, closed: false });
            }
        };
        let Some(run) = self.run else { return piece(from, to) };
        // Runs of lines beside each other differ, or gaps would come in rows.
        let run = run * (0.7 + 0.6 * own);
        let shift = own * 17.0;
        let mut number = (from / run - shift).floor();
        loop {
            let begin = (number + shift) * run;
            if begin >= to {
                break;
            }
            piece(math::max(begin, from), math::min(begin + run * (1.0 - GAP), to));
            number += 1.0;
        }
    }
}

/// A value that changes evenly over the picture, at a point of it.
fn told([a, b, c]: &[f64; 3], p: Point) -> f64 {
    a * p.x + b * p.y + c
}

/// A part's own number, the same for twins.
fn seed(part: &Part) -> u64 {
    (part.id.role as u64) << 16 | u64::from(part.id.number)
}

/// A share that is as good as drawn from both numbers (the mixer of SplitMix64, Steele, Lea and Flood 2014).
fn mixed(seed: u64, line: i64) -> f64 {
    let mut z = seed
        .wrapping_mul(0x9e37_79b9_7f4a_7c15)
        .wrapping_add(line as u64)
        .wrapping_mul(0x9e37_79b9_7f4a_7c15);
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64
}

#[cfg(test)]
mod tests {
    use super::super::tests::scene;
    use super::super::{View, exploded};
    use super::*;
    use crate::chair::Chair;
    use crate::design::Design;
    use crate::joints::Bench;
    use crate::part::Role;
    use crestrail_sheet::svg;
    use serde_json::{Value, json};

    fn chair(values: &Value) -> Chair {
        Chair::resolve(&Design::from_value(values).expect("a design"), &Bench::default()).expect("a chair")
    }

    /// The lines over each face of parts of a role, with the face.
    fn lines<'a>(scene: &'a Scene<'_>, role: Role) -> Vec<(&'a Shown, Vec<Trace>)> {
        let of = |face: &'a Shown| {
            let part = &scene.chair.parts[face.owner];
            match over(scene, part, std::slice::from_ref(face)) {
                Some(Item::Path(path)) if part.id.role == role => Some((face, path.traces)),
                _ => None,
            }
        };
        scene.picture.faces.iter().filter_map(of).collect()
    }

    #[test]
    fn lines_stay_within_their_faces_and_run_along_the_part() {
        let chair = chair(&json!({"seat": "board", "back": "panel"}));
        for (turn, tilt) in [(-32.0, 18.0), (20.0, 40.0), (155.0, 5.0)] {
            let view = View { turn, tilt, spread: 0.5, ..View::default() };
            let scene = scene(&chair, &view);
            let mut count = 0;
            for (face, traces) in
                [Role::BackLeg, Role::SeatBoard, Role::FrontRail].into_iter().flat_map(|r| lines(&scene, r))
            {
                let part = &chair.parts[face.owner];
                for points in traces.iter().map(|trace| &trace.points) {
                    let inside =
                        |share: f64| face.covers(scene.frame.millimetre(points[0].lerp(points[1], share)));
                    assert!([0.01, 0.5, 0.99].into_iter().all(inside), "{} {points:?}", part.id);
                    count += 1;
                }
            }
            assert!(count > 20, "{count}");
        }
    }

    #[test]
    fn a_coarse_timber_shows_more_than_an_even_one_and_plywood_nothing() {
        let count = |species: &str| {
            let chair = chair(&json!({"species": species, "seat": "board"}));
            let view = View { width: 1600.0, height: 1600.0, ..View::default() };
            let scene = scene(&chair, &view);
            lines(&scene, Role::SeatBoard).iter().map(|(_, traces)| traces.len()).sum::<usize>()
        };
        let (oak, maple) = (count("oak_white"), count("maple_hard"));
        assert!(oak > maple && maple > 0, "{oak} {maple}");
        let chair = chair(&json!({"seat": "pad"}));
        assert!(lines(&scene(&chair, &View::default()), Role::PadBoard).is_empty());
    }

    /// From the front, where twins are each other's mirror image in the picture; without pegs, whose holes a line may just touch
    /// on one side, for the camera stands a hair aside.
    #[test]
    fn twins_are_mirror_images() {
        let chair = chair(&json!({"pegs": "none"}));
        let view = View { turn: 0.0, tilt: 0.0, ..View::default() };
        let scene = scene(&chair, &view);
        let middle = view.width / 2.0;
        let side = |wanted: Side| {
            let rows = lines(&scene, Role::FrontLeg);
            let own = rows.into_iter().filter(|(face, _)| chair.parts[face.owner].id.side == wanted);
            let mut spots: Vec<(i64, i64)> = own
                .flat_map(|(_, traces)| traces)
                .flat_map(|trace| trace.points)
                .map(|p| ((p.x - middle).abs(), p.y))
                .map(|(x, y)| (math::nearest(x), math::nearest(y)))
                .collect();
            spots.sort_unstable();
            spots
        };
        let (left, right) = (side(Side::Left), side(Side::Right));
        assert!(!left.is_empty() && left.len() == right.len(), "{left:?} {right:?}");
        assert!(left.iter().zip(&right).all(|(a, b)| (a.0 - b.0).abs() <= 1 && (a.1 - b.1).abs() <= 1));
    }

    /// A part that a knob leaves alone keeps its lines, to the last figure.
    #[test]
    fn what_a_knob_leaves_alone_keeps_its_lines() {
        let held = super::super::Held { scale: 0.6, focus: [0.0, 0.0] };
        let view = View { held: Some(held), ..View::default() };
        let drawn = |values: &Value| {
            let chair = chair(values);
            let scene = scene(&chair, &view);
            lines(&scene, Role::FrontLeg).into_iter().map(|(_, traces)| traces).collect::<Vec<_>>()
        };
        let before = drawn(&json!({"back_slats": 3}));
        assert!(!before.is_empty() && before == drawn(&json!({"back_slats": 4})));
    }

    #[test]
    fn the_largest_bench_takes_little_more_for_it() {
        let chair =
            chair(&json!({"family": "bench_three", "arms": "posts", "back": "laths", "stretchers": "box"}));
        for spread in [0.0, 0.5, 1.0] {
            let view = View { spread, ..View::default() };
            let mut sheet = exploded(&chair, &view, &super::super::tests::SERVICE);
            let with = svg::write(&sheet).len();
            sheet.items.iter_mut().for_each(bare);
            let without = svg::write(&sheet).len();
            assert!(with > without && with * 100 <= without * 118, "{with} bytes, {without} without grain");
        }
    }

    fn bare(item: &mut Item) {
        let Item::Group(group) = item else { return };
        group.items.iter_mut().for_each(bare);
        group.items.retain(
            |item| !matches!(item, Item::Path(Path { stroke: Some(stroke), .. }) if stroke.opacity < 1.0),
        );
    }
}
