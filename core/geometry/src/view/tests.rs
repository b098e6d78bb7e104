//! Pictures against an independent eye: for each point of a grid, a straight look through space
//! at every face of every solid, with no projection, culling or order.

use super::{Camera, Picture, Samples, Subject};
use crate::{Face, Place, Ring, Solid, Vec3, math};
use kurbo::{Point, Rect};
use proptest::prelude::*;

/// A flat outline with holes, drawn along z from 0 to `height`. Outline counter-clockwise.
pub(crate) fn extruded(outline: &[(f64, f64)], holes: &[Vec<(f64, f64)>], height: f64) -> Solid {
    let mut solid = Solid::default();
    let mut lids: [Vec<Vec<u32>>; 2] = [Vec::new(), Vec::new()];
    let turned = holes.iter().map(|h| h.iter().rev().copied().collect::<Vec<_>>());
    for ring in [outline.to_vec()].into_iter().chain(turned) {
        let (first, n) = (solid.vertices.len() as u32, ring.len() as u32);
        solid.vertices.extend(ring.iter().map(|&(x, y)| Vec3::new(x, y, 0.0)));
        solid.vertices.extend(ring.iter().map(|&(x, y)| Vec3::new(x, y, height)));
        for i in 0..n {
            let j = (i + 1) % n;
            push_face(&mut solid, vec![vec![first + i, first + j, first + n + j, first + n + i]]);
        }
        lids[0].push((first..first + n).rev().collect());
        lids[1].push((first + n..first + 2 * n).collect());
    }
    lids.into_iter().for_each(|rings| push_face(&mut solid, rings));
    solid
}

fn push_face(solid: &mut Solid, rings: Vec<Vec<u32>>) {
    let corners: Vec<Vec3> = rings[0].iter().map(|&c| solid.vertices[c as usize]).collect();
    let normal = (0..corners.len())
        .map(|i| corners[i].cross(corners[(i + 1) % corners.len()]))
        .fold(Vec3::ZERO, |a, b| a + b)
        .unit();
    let rings = rings.into_iter().map(|corners| Ring { sharp: vec![true; corners.len()], corners }).collect();
    solid.faces.push(Face { normal, rings });
}

fn block(x: f64, y: f64, z: f64) -> Solid {
    extruded(&[(-x, -y), (x, -y), (x, y), (-x, y)], &[], 2.0 * z)
}

fn ell(size: f64) -> Solid {
    let (s, t) = (size, size * 0.35);
    extruded(&[(-s, -s), (s, -s), (s, -s + t), (-s + t, -s + t), (-s + t, s), (-s, s)], &[], size * 0.6)
}

fn circle(x: f64, y: f64, radius: f64, sides: usize) -> Vec<(f64, f64)> {
    (0..sides)
        .map(|i| math::TAU * i as f64 / sides as f64)
        .map(|a| (x + radius * math::cos(a), y + radius * math::sin(a)))
        .collect()
}

fn turned(origin: Vec3, a: f64, b: f64) -> Place {
    let x = Vec3::new(math::cos(a) * math::cos(b), math::sin(a) * math::cos(b), math::sin(b));
    Place::new(origin, x, Vec3::new(math::sin(b) - 0.3, math::cos(a), 0.7))
}

/// Owner and face that a look along the camera's axis through `p` meets first.
fn look(bodies: &[(usize, Solid)], camera: &Camera, p: Point) -> Option<(usize, usize)> {
    let start = camera.right * p.x + camera.up * p.y;
    let mut best: Option<(f64, (usize, usize))> = None;
    for (owner, solid) in bodies {
        for (index, face) in solid.faces.iter().enumerate() {
            if let Some(nearness) = strike(solid, face, start, camera.toward)
                && best.is_none_or(|(b, _)| nearness > b)
            {
                best = Some((nearness, (*owner, index)));
            }
        }
    }
    best.map(|(_, found)| found)
}

/// Where the line from `start` along `way` goes through a face.
fn strike(solid: &Solid, face: &Face, start: Vec3, way: Vec3) -> Option<f64> {
    let on = solid.vertices[face.rings[0].corners[0] as usize];
    let rate = face.normal.dot(way);
    let along = face.normal.dot(on - start) / rate;
    let hit = start + way * along;
    let n = face.normal;
    let drop = |v: Vec3| {
        if n.x.abs() > n.y.abs() && n.x.abs() > n.z.abs() {
            (v.y, v.z)
        } else if n.y.abs() > n.z.abs() {
            (v.x, v.z)
        } else {
            (v.x, v.y)
        }
    };
    let (hx, hy) = drop(hit);
    let mut inside = false;
    for ring in &face.rings {
        let spots: Vec<_> = ring.corners.iter().map(|&c| drop(solid.vertices[c as usize])).collect();
        for i in 0..spots.len() {
            let ((ax, ay), (bx, by)) = (spots[i], spots[(i + 1) % spots.len()]);
            inside ^= (ay > hy) != (by > hy) && hx < ax + (bx - ax) * (hy - ay) / (by - ay);
        }
    }
    (rate.abs() > 1e-9 && inside).then_some(along)
}

/// The share of grid points, away from edges, at which picture and look agree.
fn agreement(subjects: &[Subject<'_>], camera: &Camera, half: f64) -> f64 {
    let picture = Picture::take(subjects, camera);
    assert_eq!(picture.unsettled, 0, "no order was found for {} faces", picture.unsettled);
    let samples = Samples::of(&picture, Rect::new(-half, -half, half, half), half / 60.0);
    let posed: Vec<(usize, Solid)> = subjects.iter().map(|s| (s.owner, s.solid.posed(&s.place))).collect();
    let looked: Vec<Option<(usize, usize)>> = (0..samples.columns * samples.rows)
        .map(|i| look(&posed, camera, samples.point(i % samples.columns, i / samples.columns)))
        .collect();
    let (mut same, mut all) = (0, 0);
    for row in 1..samples.rows - 1 {
        for column in 1..samples.columns - 1 {
            let at = |c: usize, r: usize| looked[r * samples.columns + c];
            let here = at(column, row);
            let calm = (0..9).all(|k| at(column + k % 3 - 1, row + k / 3 - 1) == here);
            let seen = samples.face(column, row).map(|i| (picture.faces[i].owner, picture.faces[i].face));
            all += usize::from(calm && here.is_some());
            same += usize::from(calm && here.is_some() && seen == here);
        }
    }
    assert!(all > 20, "only {all} points to compare");
    same as f64 / all as f64
}

fn assert_agrees(bodies: &[(Solid, Place)], turn: f64, tilt: f64, half: f64) {
    let subjects: Vec<Subject<'_>> = (bodies.iter().enumerate())
        .map(|(owner, (solid, place))| Subject { owner, solid, place: *place })
        .collect();
    let share = agreement(&subjects, &Camera::new(turn, tilt), half);
    assert!(share >= 0.998, "{share} agree at turn {turn}, tilt {tilt}");
}

/// One body in each cell of a 3 × 3 × 3 grid, small enough to stay within it.
fn scattered(seeds: &[(u8, f64, f64, f64)]) -> Vec<(Solid, Place)> {
    let cell = |i: usize| Vec3::new((i % 3) as f64, (i / 3 % 3) as f64, (i / 9) as f64) * 60.0;
    let middle = Vec3::new(60.0, 60.0, 60.0);
    (seeds.iter().enumerate())
        .map(|(i, &(kind, a, b, size))| {
            let solid = match kind {
                0 => block(14.0 * size, 9.0, 5.0),
                1 => ell(14.0 * size),
                2 => extruded(&circle(0.0, 0.0, 14.0 * size, 12), &[circle(0.0, 0.0, 7.0 * size, 8)], 10.0),
                _ => block(4.0, 4.0, 11.0 * size),
            };
            (solid, turned(cell(i) - middle, a, b))
        })
        .collect()
}

/// A board with round and square holes and pegs that stick in them by `share` of their length.
fn pegboard(share: f64, flip: bool) -> Vec<(Solid, Place)> {
    let frame = if flip { Place::HOME.mirrored_x() } else { turned(Vec3::ZERO, 0.4, 0.2) };
    let spots = [(-50.0, -20.0), (-10.0, 10.0), (40.0, -5.0)];
    let mut holes: Vec<_> = spots.iter().map(|&(x, y)| circle(x, y, 8.0, 16)).collect();
    holes.push(vec![(10.0, -30.0), (30.0, -30.0), (30.0, -20.0), (10.0, -20.0)]);
    let board = extruded(&[(-80.0, -40.0), (80.0, -40.0), (80.0, 40.0), (-80.0, 40.0)], &holes, 20.0);
    let peg = extruded(&circle(0.0, 0.0, 8.0, 16), &[], 60.0);
    let mut bodies = vec![(board, frame)];
    for (x, y) in spots {
        let inner = Place { origin: Vec3::new(x, y, -60.0 + 80.0 * share), ..Place::HOME };
        bodies.push((peg.clone(), frame.place(&inner)));
    }
    bodies
}

/// Boards along the sides of a polygon, each with one end over the next and one under the last.
fn wreath(sides: usize, roll: f64) -> Vec<(Solid, Place)> {
    (0..sides)
        .map(|i| {
            let a = math::TAU * i as f64 / sides as f64;
            let along = Vec3::new(-math::sin(a), math::cos(a), 0.22);
            let across = Vec3::new(math::cos(a), math::sin(a), roll);
            let out = Vec3::new(math::cos(a), math::sin(a), 0.0) * 50.0;
            (block(78.0, 8.0, 3.0), Place::new(out, along, across))
        })
        .collect()
}

/// Posts with a frame of rails let into them and boards laid on top: everything touches.
fn stool(pull: f64) -> Vec<(Solid, Place)> {
    let at = |x: f64, y: f64, z: f64| Place { origin: Vec3::new(x, y, z), ..Place::HOME };
    let mut bodies = Vec::new();
    for (x, y) in [(-40.0, -40.0), (40.0, -40.0), (40.0, 40.0), (-40.0, 40.0)] {
        bodies.push((block(5.0, 5.0, 40.0), at(x, y, -50.0)));
    }
    for side in [-1.0, 1.0] {
        bodies.push((block(35.0, 3.0, 8.0), at(0.0, side * (40.0 + pull), 10.0)));
        bodies.push((block(3.0, 35.0, 8.0), at(side * (40.0 + pull), 0.0, 10.0)));
    }
    for i in 0..5 {
        bodies.push((block(48.0, 7.0, 2.5), at(0.0, -40.0 + 20.0 * f64::from(i), 30.0 + pull)));
    }
    bodies
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn scattered_bodies_cover_each_other_rightly(
        seeds in prop::collection::vec((0..4u8, 0.0..6.3, -1.2..1.2, 0.6..1.4), 12..27),
        turn in -3.2..3.2, tilt in -1.5..1.5,
    ) {
        assert_agrees(&scattered(&seeds), turn, tilt, 100.0);
    }

    #[test]
    fn pegs_show_before_and_behind_the_board_they_go_through(
        share in 0.0..1.0, flip: bool, turn in -3.2..3.2, tilt in -1.5..1.5,
    ) {
        assert_agrees(&pegboard(share, flip), turn, tilt, 100.0);
    }

    #[test]
    fn boards_that_cover_each_other_in_a_ring_are_cut(sides in 3..6usize, roll in -0.5..0.5, turn in -3.2..3.2, tilt in 0.9..1.5) {
        assert_agrees(&wreath(sides, roll), turn, tilt, 110.0);
    }

    #[test]
    fn touching_bodies_cover_each_other_rightly(pull in 0.0..30.0, turn in -3.2..3.2, tilt in -1.5..1.5) {
        assert_agrees(&stool(pull), turn, tilt, 110.0);
    }
}

#[test]
fn bodies_in_line_with_the_camera_cover_each_other_rightly() {
    for quarter in 0..8 {
        for tilt in [0.0, math::FRAC_PI_2, 0.3] {
            assert_agrees(&stool(0.0), f64::from(quarter) * math::PI / 4.0, tilt, 110.0);
            assert_agrees(&pegboard(0.5, true), f64::from(quarter) * math::PI / 4.0, tilt, 100.0);
        }
    }
}

#[test]
fn flush_pegs_hide_their_holes_and_sunk_ones_do_not() {
    for turn in [-0.7, 0.2, 2.0] {
        for tilt in [0.3, 0.9, -0.6] {
            assert_agrees(&pegboard(0.25, false), turn, tilt, 100.0);
            assert_agrees(&pegboard(0.2, false), turn, tilt, 100.0);
        }
    }
    let faces = |share: f64| {
        let bodies = pegboard(share, true);
        let subjects: Vec<_> = bodies
            .iter()
            .enumerate()
            .map(|(owner, (solid, place))| Subject { owner, solid, place: *place })
            .collect();
        Picture::take(&subjects, &Camera::new(0.3, 0.8)).faces.len()
    };
    assert!(faces(0.25) + 20 < faces(0.2), "{} {}", faces(0.25), faces(0.2));
}

#[test]
fn a_ring_of_boards_needs_a_cut() {
    let bodies = wreath(4, 0.0);
    let subjects: Vec<_> = bodies
        .iter()
        .enumerate()
        .map(|(owner, (solid, place))| Subject { owner, solid, place: *place })
        .collect();
    let camera = Camera::new(0.0, math::FRAC_PI_2);
    let mut before = Vec::new();
    subjects.iter().for_each(|subject| super::flat::add_seen(&mut before, subject, &camera));
    assert!(Picture::take(&subjects, &camera).faces.len() > before.len());
}

#[test]
fn positive_turns_show_the_right_side() {
    let camera = Camera::new(0.5, 0.3);
    assert!(camera.toward.x > 0.0 && camera.toward.y < 0.0 && camera.toward.z > 0.0);
    assert!(camera.up.z > 0.9 && camera.right.x > 0.8);
}

#[test]
fn a_line_is_seen_beside_and_before_a_board_and_not_behind_it() {
    let board = block(10.0, 1.0, 10.0);
    let subjects = [Subject { owner: 0, solid: &board, place: Place::HOME }];
    let picture = Picture::take(&subjects, &Camera::new(0.0, 0.0));
    let seen = |y: f64| picture.visible(Vec3::new(-20.0, y, 5.0), Vec3::new(20.0, y, 5.0));
    assert_eq!(seen(-5.0).len(), 1);
    let behind = seen(5.0);
    assert_eq!(behind.len(), 2);
    assert!((behind[0].p1.x + 10.0).abs() < 0.01 && (behind[1].p0.x - 10.0).abs() < 0.01);
    let through = picture.visible(Vec3::new(0.0, -30.0, 5.0), Vec3::new(3.0, 30.0, 5.0));
    assert_eq!(through.len(), 1);
    assert!((through[0].p1.x - 1.45).abs() < 0.01);
}

/// Lengths of what is seen and of what is hidden of one owner's edges, mm.
fn drafted(subjects: &[Subject<'_>], camera: &Camera, owner: usize) -> (f64, f64) {
    let mut lengths = (0.0, 0.0);
    for stretch in super::draft(subjects, camera).iter().filter(|stretch| stretch.owner == owner) {
        let long = (stretch.line.p1 - stretch.line.p0).hypot2().sqrt();
        if stretch.seen { lengths.0 += long } else { lengths.1 += long }
    }
    lengths
}

/// A block of 20 × 20 × 20 right behind another of the same size, seen square: all edges of its front and back fall on the rim
/// of the one before it, so they are drawn where that is; moved aside by half, half of what crosses over is hidden.
#[test]
fn a_draft_parts_edges_where_something_stands_before_them() {
    let block = block(10.0, 10.0, 10.0);
    let camera = Camera::square(Vec3::X, Vec3::Z);
    let at = |owner: usize, x: f64, y: f64| Subject {
        owner,
        solid: &block,
        place: Place { origin: Vec3::new(x, y, 0.0), ..Place::HOME },
    };
    let front = at(0, 0.0, 0.0);
    let (seen, hidden) = drafted(&[front], &camera, 0);
    assert!((seen - 160.0).abs() < 1e-6 && hidden == 0.0, "{seen} {hidden}");
    let (seen, hidden) = drafted(&[front, at(1, 0.0, 50.0)], &camera, 1);
    assert!((seen - 160.0).abs() < 1e-6 && hidden == 0.0, "{seen} {hidden}");
    // Of front and back each: the left side is hidden, and top and bottom run along the rim.
    let (seen, hidden) = drafted(&[front, at(1, 10.0, 50.0)], &camera, 1);
    assert!((seen - 120.0).abs() < 1e-2 && (hidden - 40.0).abs() < 1e-2, "{seen} {hidden}");
}

/// A bar that runs through a frame's opening behind its sides is hidden by the sides alone.
#[test]
fn a_draft_sees_through_holes() {
    let frame = extruded(
        &[(-50.0, -50.0), (50.0, -50.0), (50.0, 50.0), (-50.0, 50.0)],
        &[circle(0.0, 0.0, 30.0, 4)],
        5.0,
    );
    let bar = block(80.0, 1.0, 1.0);
    let camera = Camera::square(Vec3::X, Vec3::Y);
    let place = |z: f64| Place { origin: Vec3::new(0.0, 0.0, z), ..Place::HOME };
    let subjects = [
        Subject { owner: 0, solid: &frame, place: place(0.0) },
        Subject { owner: 1, solid: &bar, place: place(-20.0) },
    ];
    let (seen, hidden) = drafted(&subjects, &camera, 1);
    // Four long edges of 160, at y = ±1: 60 outside the frame, 58 in the square hole that stands on its corner; and the ends.
    assert!((seen - (4.0 * 118.0 + 8.0)).abs() < 0.1, "{seen}");
    assert!((hidden - 4.0 * 42.0).abs() < 0.1, "{hidden}");
}
