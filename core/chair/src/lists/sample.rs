//! A hand-kind chair for tests: boxes with boxes on their ends, all figures known.

use super::Allowances;
use crate::assembly::Assembly;
use crate::chair::{Chair, PartBody};
use crate::joint::{End, Joint, Kind, Mortise, Peg, PegShape, Shoulders, Tenon, Tongue};
use crate::part::{Part, PartId, Role, Side, Size};
use crestrail_geometry::{Body, Face, Place, Plane, Ring, Solid, Vec3};
use crestrail_sorting::Order as _;
use crestrail_timber::{Species, species};
use std::collections::BTreeMap;
use std::sync::Arc;

pub(crate) const ALLOWANCES: Allowances = Allowances { length: 30.0, width: 5.0, thickness: 4.0 };

/// The unit cubes of a grid that are filled make the solid: cells at the given cuts along x, y, z.
fn cells(xs: &[f64], ys: &[f64], zs: &[f64], filled: impl Fn(usize, usize, usize) -> bool) -> Solid {
    let size = [xs.len() - 1, ys.len() - 1, zs.len() - 1];
    let full = |c: [i64; 3]| {
        let inside = (0..3).all(|a| c[a] >= 0 && (c[a] as usize) < size[a]);
        inside && filled(c[0] as usize, c[1] as usize, c[2] as usize)
    };
    let mut build = Builder::default();
    for i in 0..size[0] as i64 {
        for j in 0..size[1] as i64 {
            for k in 0..size[2] as i64 {
                let cell = [i, j, k];
                for (axis, step) in (0..3).flat_map(|a| [(a, 1), (a, -1)]) {
                    let mut next = cell;
                    next[axis] += step;
                    if full(cell) && !full(next) {
                        build.side(cell, axis, step, [xs, ys, zs]);
                    }
                }
            }
        }
    }
    build.solid
}

#[derive(Default)]
struct Builder {
    solid: Solid,
    known: BTreeMap<[usize; 3], u32>,
}

impl Builder {
    fn side(&mut self, cell: [i64; 3], axis: usize, step: i64, cuts: [&[f64]; 3]) {
        let (u, v) = ((axis + 1) % 3, (axis + 2) % 3);
        let at = |du: usize, dv: usize| {
            let mut corner = cell.map(|c| c as usize);
            corner[axis] += usize::from(step > 0);
            corner[u] += du;
            corner[v] += dv;
            corner
        };
        let mut ring = [at(0, 0), at(1, 0), at(1, 1), at(0, 1)];
        if step < 0 {
            ring.reverse();
        }
        let corners: Vec<u32> = ring.iter().map(|&c| self.corner(c, cuts)).collect();
        let mut normal = [0.0; 3];
        normal[axis] = step as f64;
        let normal = Vec3::new(normal[0], normal[1], normal[2]);
        self.solid.faces.push(Face { normal, rings: vec![Ring { corners, sharp: vec![true; 4] }] });
    }

    fn corner(&mut self, c: [usize; 3], cuts: [&[f64]; 3]) -> u32 {
        let next = self.solid.vertices.len() as u32;
        *self.known.entry(c).or_insert_with(|| {
            self.solid.vertices.push(Vec3::new(cuts[0][c[0]], cuts[1][c[1]], cuts[2][c[2]]));
            next
        })
    }
}

/// A box.
pub(crate) fn block(length: f64, width: f64, thickness: f64) -> Solid {
    cells(&[0.0, length], &[0.0, width], &[0.0, thickness], |_, _, _| true)
}

/// A box with a notch in one corner of its section: towards one end (then it has a hand), or in the middle.
pub(crate) fn notched(length: f64, width: f64, thickness: f64, towards_end: bool) -> Solid {
    let at = if towards_end { 0.1 } else { 0.5 };
    let xs = [0.0, length * at - 10.0, length * at + 10.0, length];
    cells(&xs, &[0.0, width - 5.0, width], &[0.0, thickness - 7.0, thickness], |i, j, k| {
        !(i == 1 && j == 1 && k == 1)
    })
}

/// A stick with a tenon on both ends, set in by the shoulders.
fn tenoned(length: f64, width: f64, thickness: f64, tenon: &Tenon) -> Solid {
    let t = tenon;
    let ys = [0.0, t.shoulders.bottom, t.shoulders.bottom + t.width, width];
    let zs = [0.0, t.shoulders.back, t.shoulders.back + t.thickness, thickness];
    cells(&[-t.length, 0.0, length, length + t.length], &ys, &zs, |i, j, k| i == 1 || (j == 1 && k == 1))
}

fn tenon() -> Tenon {
    Tenon {
        length: 30.0,
        width: 44.0,
        thickness: 9.0,
        shoulders: Shoulders { top: 10.0, bottom: 10.0, front: 7.5, back: 7.5 },
        tongues: vec![Tongue { y: [-22.0, 22.0], from: 0.0, to: 30.0 }],
        cheek_area: 2.0 * 30.0 * 44.0,
        haunch: None,
        mitre: None,
        to_grain: 0.0,
        bodies: Vec::new(),
    }
}

struct Maker {
    species: &'static Species,
    pieces: Vec<(Part, PartBody)>,
}

impl Maker {
    fn add(&mut self, id: PartId, letter: &str, sawn_to_outline: bool, solid: &Arc<Solid>, volume: f64) {
        let bounds = solid.bounds();
        let size = bounds.size();
        let part = Part {
            id,
            letter: letter.to_owned(),
            material: crate::material::Material::Timber(self.species),
            place: Place::HOME,
            stock: Body::cuboid(&Place::HOME, bounds.low, bounds.high),
            core: [-size.y / 2.0, size.y / 2.0],
            size: Size { length: size.x, width: size.y, thickness: size.z },
            sawn_to_outline,
        };
        let (solid, surface) = (Arc::clone(solid), solid.surface_area());
        self.pieces.push((part, PartBody { solid, volume, surface, centre: Vec3::ZERO }));
    }

    fn pair(&mut self, role: Role, letter: &str, sawn: bool, solid: &Arc<Solid>, volume: f64) {
        for side in [Side::Left, Side::Right] {
            self.add(PartId { role, side, number: 1 }, letter, sawn, solid, volume);
        }
    }
}

/// The chair in white ash.
pub(crate) fn chair() -> Chair {
    chair_of("ash_white")
}

/// Two front legs 440 × 38 × 38, two back legs with a notch, a front rail with tenons, three seat slats, four pegs.
pub(crate) fn chair_of(timber: &str) -> Chair {
    let mut maker = Maker { species: species(timber).expect("listed"), pieces: Vec::new() };
    let leg = Arc::new(block(440.0, 38.0, 38.0));
    maker.pair(Role::FrontLeg, "A", false, &leg, 440.0 * 38.0 * 38.0);
    let back = Arc::new(notched(880.0, 90.0, 36.0, true));
    maker.pair(Role::BackLeg, "B", true, &back, 880.0 * 90.0 * 36.0 - 20.0 * 5.0 * 7.0);
    let rail = Arc::new(tenoned(380.0, 64.0, 24.0, &tenon()));
    let rail_volume = 380.0 * 64.0 * 24.0 + 2.0 * 30.0 * 44.0 * 9.0;
    maker.add(rail_id(), "C", false, &rail, rail_volume);
    let slat = Arc::new(block(420.0, 55.0, 16.0));
    for number in 1..=3 {
        maker.add(PartId { role: Role::SeatSlat, side: Side::Middle, number }, "D", false, &slat, 369_600.0);
    }
    let peg = Arc::new(block(33.0, 6.0, 6.0));
    for side in [Side::Left, Side::Right] {
        for number in 1..=2 {
            maker.add(PartId { role: Role::Peg, side, number }, "E", false, &peg, 1188.0);
        }
    }
    maker.pieces.order_by_key(|(part, _)| part.id);
    let (parts, bodies) = maker.pieces.into_iter().unzip();
    let joints = [Side::Left, Side::Right].map(joint).into();
    let (housings, settled, assembly) = (Vec::new(), Vec::new(), Assembly::default());
    Chair { parts, joints, housings, bodies, assembly, settled }
}

fn rail_id() -> PartId {
    PartId { role: Role::FrontRail, side: Side::Middle, number: 1 }
}

fn peg_space() -> Body {
    Body::cuboid(&Place::HOME, Vec3::ZERO, Vec3::new(33.0, 6.0, 6.0))
}

fn joint(side: Side) -> Joint {
    let peg = |number| Peg {
        id: PartId { role: Role::Peg, side, number },
        size: 6.0,
        shape: PegShape::Square,
        from_face: 12.0,
        from_middle: 0.0,
        draw: 0.0,
        place: Place::HOME,
        length: 33.0,
        body: peg_space(),
        hole: peg_space(),
    };
    Joint {
        host: PartId { role: Role::FrontLeg, side, number: 1 },
        guest: rail_id(),
        end: if side == Side::Left { End::Near } else { End::Far },
        mouth: Place::HOME,
        face: Plane { normal: Vec3::X, offset: 0.0 },
        kind: Kind::Blind,
        why: String::new(),
        given_way: None,
        corners: Vec::new(),
        guest_cuts: Vec::new(),
        inserts: Vec::new(),
        wedging: None,
        tenon: tenon(),
        mortise: Mortise {
            depth: 31.5,
            width: 44.0,
            thickness: 9.0,
            glue_gap: 1.5,
            wall: 10.0,
            from_end: 10.0,
            bodies: Vec::new(),
        },
        pegs: vec![peg(1), peg(2)],
    }
}
