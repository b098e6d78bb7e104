//! Cases with formulae in books: each to 1e-6 of its formula, and to the printed figure of the independent program
//! that first confirmed them.
//!
//! Beams: R. J. Roark, W. C. Young, *Formulas for Stress and Strain*, table of straight beams (cantilever, fixed–fixed,
//! propped). Portals: A. Kleinlogel, *Rigid Frame Formulas*, frames with fixed and with pinned feet. Semi-rigid ends: W. McGuire,
//! R. H. Gallagher, R. D. Ziemian, *Matrix Structural Analysis*, ch. 13 (the fixity factor 1 / (1 + 2 EI / (L R)) for
//! equal ends, and k / (1 + 6 EI / (L R)) for the beam of a sway frame). The formulae leave out that members stretch, so
//! the portals' have so large an area that this does not show.

use super::sketch::{
    E, G, HELD, PIN, STRONG, TORSION, WEAK, bends, even, force, line, member, moment, section, upright,
};
use crate::{End, Frame, LoadCase, Member, Section, Solution, Springs, Support, solve};

/// `value` is `formula` to 1e-6 of it, and `printed` to half a unit of its last place and 1e-7 of it: what the other
/// program's members still stretched.
#[track_caller]
fn assert_case(value: f64, formula: f64, printed: &str) {
    assert!((value - formula).abs() <= 1e-6 * formula.abs(), "{value} is not {formula}");
    let places = printed.split_once('.').map_or(0, |(_, places)| places.len());
    let last = (0..places).fold(1.0, |unit, _| unit / 10.0);
    let print: f64 = printed.parse().expect("a number");
    assert!((value - print).abs() <= 0.5 * last + 1e-7 * print, "{value} is not {printed}");
}

#[track_caller]
fn answer(frame: &Frame, case: LoadCase) -> Solution {
    solve(frame, &[case]).expect("a sound frame").remove(0)
}

const P: f64 = 100.0;

/// 1: PL³/3EI and PL²/2EI.
#[test]
fn cantilever() {
    let a = answer(&line(&[0.0, 400.0], upright(), &[(0, HELD)]), force(1, [0.0, 0.0, P]));
    assert_case(a.displacements[1][2], P * 400f64 * 400.0 * 400.0 / (3.0 * E * STRONG), "1.333333");
    assert_case(-a.displacements[1][4], P * 400.0 * 400.0 / (2.0 * E * STRONG), "0.005");
    // About global −y, which is local +z.
    assert_case(a.members[0].at(End::I).mz, 400.0 * P, "40000");
}

/// 2: TL/GJ.
#[test]
fn torsion() {
    let a = answer(&line(&[0.0, 400.0], upright(), &[(0, HELD)]), moment(1, [5000.0, 0.0, 0.0]));
    assert_case(a.displacements[1][3], 5000.0 * 400.0 / (G * TORSION), "0.020940");
    assert_case(a.members[0].along(0.3).t, 5000.0, "5000");
}

/// A beam of 450 mm between held ends with a node in its middle.
fn fixed_fixed() -> Frame {
    line(&[0.0, 225.0, 450.0], upright(), &[(0, HELD), (2, HELD)])
}

/// 3: PL/8 and PL³/192EI.
#[test]
fn fixed_beam_with_a_force_in_its_middle() {
    let a = answer(&fixed_fixed(), force(1, [0.0, 0.0, -1300.0]));
    assert_case(-a.members[0].at(End::I).mz, 1300.0 * 450.0 / 8.0, "73125");
    assert_case(a.members[0].at(End::J).mz, 1300.0 * 450.0 / 8.0, "73125");
    let sag = 1300.0 * 450f64 * 450.0 * 450.0 / (192.0 * E * STRONG);
    assert_case(-a.displacements[1][2], sag, "0.385620");
}

/// 4: wL²/12 and wL⁴/384EI; wL²/24 in the middle.
#[test]
fn fixed_beam_with_an_even_load() {
    let square = 450.0 * 450.0;
    let a = answer(&fixed_fixed(), even(&[0, 1], [0.0, 0.0, -2.0]));
    assert_case(-a.members[0].at(End::I).mz, 2.0 * square / 12.0, "33750");
    assert_case(-a.displacements[1][2], 2.0 * square * square / (384.0 * E * STRONG), "0.133484");
    // One member, held at both ends: nothing is left to solve for.
    let whole =
        answer(&line(&[0.0, 450.0], upright(), &[(0, HELD), (1, HELD)]), even(&[0], [0.0, 0.0, -2.0]));
    assert_case(-whole.members[0].at(End::J).mz, 2.0 * square / 12.0, "33750");
    assert_case(whole.members[0].along(0.5).mz, 2.0 * square / 24.0, "16875");
    assert_case(whole.reactions[1].force[2], 450.0, "450");
}

/// 5: 3PL/16.
#[test]
fn propped_cantilever() {
    let prop = [false, false, true, false, false, false];
    let frame = line(&[0.0, 225.0, 450.0], upright(), &[(0, HELD), (2, prop)]);
    let a = answer(&frame, force(1, [0.0, 0.0, -1300.0]));
    assert_case(-a.members[0].at(End::I).mz, 3.0 * 1300.0 * 450.0 / 16.0, "109687.5");
}

/// 6: P (a³ + b³) / 3EI + P b² a / GJ: the first leg, of length a, bends and twists.
#[test]
fn bent_cantilever_out_of_its_plane() {
    let (a, b) = (300.0, 200.0);
    let up = [0.0, 0.0, 1.0];
    let frame = Frame {
        nodes: vec![[0.0; 3], [a, 0.0, 0.0], [a, b, 0.0]],
        members: vec![member(0, 1, upright(), up), member(1, 2, upright(), up)],
        supports: vec![Support { node: 0, fixed: HELD }],
    };
    let bend = P * (a * a * a + b * b * b) / (3.0 * E * STRONG);
    let answer = answer(&frame, force(2, [0.0, 0.0, P]));
    assert_case(answer.displacements[2][2], bend + P * b * b * a / (G * TORSION), "13.293444");
}

/// A vector turned by 0.7 rad about (1, 2, 3), O. Rodrigues' formula.
fn turned(v: [f64; 3]) -> [f64; 3] {
    let (cos, sin) = (0.764_842_187_284_488_4, 0.644_217_687_237_691);
    let k = [1.0, 2.0, 3.0].map(|c: f64| c / 14f64.sqrt());
    let along = k[0] * v[0] + k[1] * v[1] + k[2] * v[2];
    let across = [k[1] * v[2] - k[2] * v[1], k[2] * v[0] - k[0] * v[2], k[0] * v[1] - k[1] * v[0]];
    core::array::from_fn(|c| v[c] * cos + across[c] * sin + k[c] * along * (1.0 - cos))
}

/// 7: as case 1 along an axis turned in space, and PL³/3EI the weak way.
#[test]
fn skew_cantilever() {
    let up = turned([0.0, 0.0, 1.0]);
    let frame = Frame {
        nodes: vec![[0.0; 3], turned([400.0, 0.0, 0.0])],
        members: vec![member(0, 1, upright(), up)],
        supports: vec![Support { node: 0, fixed: HELD }],
    };
    for (pull, way, iz, printed) in
        [(P, [0.0, 0.0, 1.0], STRONG, "1.333333"), (60.0, [0.0, 1.0, 0.0], WEAK, "2.048")]
    {
        let way = turned(way);
        let moved = answer(&frame, force(1, way.map(|c| pull * c))).displacements[1];
        let sag: f64 = way.iter().zip(moved).map(|(w, m)| w * m).sum();
        assert_case(sag, pull * 400f64 * 400.0 * 400.0 / (3.0 * E * iz), printed);
    }
}

/// Legs 35 × 35, beam 22 × 60; height, width, second moments.
const H: f64 = 420.0;
const L: f64 = 400.0;
const LEG: f64 = 35.0 * 35.0 * 35.0 * 35.0 / 12.0;
const BEAM: f64 = 22.0 * 60.0 * 60.0 * 60.0 / 12.0;
const K: f64 = BEAM * H / (LEG * L);
/// Members of this area stretch by less than 1e-8 of what they bend, mm².
const VAST: f64 = 1e9;

/// The portal in the x–z plane: feet 0 and 4, knees 1 and 3, beam with node 2 in its middle. The beam has
/// `springs` at its ends. It can only move in its plane.
fn portal(feet: [bool; 6], springs: Springs) -> Frame {
    let thick = |i: f64| section(VAST, i, i);
    let leg = |i, j| member(i, j, thick(LEG), [1.0, 0.0, 0.0]);
    let beam = |i, j| member(i, j, thick(BEAM), [0.0, 0.0, 1.0]);
    let plane = [false, true, false, true, false, true];
    let foot: [bool; 6] = core::array::from_fn(|k| feet[k] || plane[k]);
    let held = |node, fixed| Support { node, fixed };
    Frame {
        nodes: vec![[0.0; 3], [0.0, 0.0, H], [L / 2.0, 0.0, H], [L, 0.0, H], [L, 0.0, 0.0]],
        members: vec![
            leg(0, 1),
            Member { springs_i: springs, ..beam(1, 2) },
            Member { springs_j: springs, ..beam(2, 3) },
            leg(3, 4),
        ],
        supports: vec![held(0, foot), held(1, plane), held(2, plane), held(3, plane), held(4, foot)],
    }
}

/// Half of H = 300 N at each knee, so that the beam does not stretch.
fn sway() -> LoadCase {
    let [mut left, right] = [1, 3].map(|knee| force(knee, [150.0, 0.0, 0.0]));
    left.nodes.extend(right.nodes);
    left
}

#[track_caller]
fn base_and_knee(a: &Solution) -> (f64, f64) {
    (a.members[0].at(End::I).mz.abs(), a.members[0].at(End::J).mz.abs())
}

/// 8: M_base = (Hh/2)(3k+1)/(6k+1), M_knee = (Hh/2)3k/(6k+1), V = 3Hhk/(L(6k+1)), δ = (Hh³/12EI)(3k+2)/(6k+1).
#[test]
fn portal_with_held_feet_sways() {
    let a = answer(&portal(HELD, Springs::RIGID), sway());
    let (base, knee) = base_and_knee(&a);
    assert_case(base, 300.0 * H / 2.0 * (3.0 * K + 1.0) / (6.0 * K + 1.0), "33003.574");
    assert_case(knee, 300.0 * H / 2.0 * 3.0 * K / (6.0 * K + 1.0), "29996.426");
    assert_case(a.members[0].at(End::I).n, 3.0 * 300.0 * H * K / (L * (6.0 * K + 1.0)), "149.98213");
    assert_case(-a.reactions[0].force[2], 149.982_130, "149.98213");
    assert_case(a.displacements[1][0], drift(K), "0.705516");
}

fn drift(k: f64) -> f64 {
    300.0 * H * H * H / (12.0 * E * LEG) * (3.0 * k + 2.0) / (6.0 * k + 1.0)
}

/// 9: M_knee = Hh/2, δ = Hh³/6EI_c + Hh²L/12EI_b.
#[test]
fn portal_with_pinned_feet_sways() {
    let a = answer(&portal(PIN, Springs::RIGID), sway());
    assert_case(base_and_knee(&a).1, 300.0 * H / 2.0, "63000");
    assert_case(a.displacements[1][0], pinned_drift(), "2.839784");
}

fn pinned_drift() -> f64 {
    300.0 * H * H * H / (6.0 * E * LEG) + 300.0 * H * H * L / (12.0 * E * BEAM)
}

/// 10: M_knee = wL²/(6(k+2)), half of it at the base.
#[test]
fn portal_with_an_even_load() {
    let a = answer(&portal(HELD, Springs::RIGID), even(&[1, 2], [0.0, 0.0, -3.0]));
    let (base, knee) = base_and_knee(&a);
    assert_case(knee, 3.0 * L * L / (6.0 * (K + 2.0)), "15023.433");
    assert_case(base, 3.0 * L * L / (12.0 * (K + 2.0)), "7511.717");
}

/// 11: M_knee = PL/(4(k+2)), half of it at the base.
#[test]
fn portal_with_a_force_in_its_middle() {
    let a = answer(&portal(HELD, Springs::RIGID), force(2, [0.0, 0.0, -1300.0]));
    let (base, knee) = base_and_knee(&a);
    assert_case(knee, 1300.0 * L / (4.0 * (K + 2.0)), "24413.079");
    assert_case(base, 1300.0 * L / (8.0 * (K + 2.0)), "12206.539");
}

const R: f64 = 5e6;

/// The beam of cases 12 and 13: held ends, and springs between them and the beam.
fn semi_rigid_beam() -> Frame {
    let mut frame = fixed_fixed();
    frame.members[0].springs_i = bends(R);
    frame.members[1].springs_j = bends(R);
    frame
}

/// 12: M_end = (PL/8)/(1 + 2EI/LR), δ = PL³/48EI − M_end L²/8EI.
#[test]
fn semi_rigid_beam_with_a_force() {
    let (long, ei) = (450.0, E * STRONG);
    let end = 1300.0 * long / 8.0 / (1.0 + 2.0 * ei / (long * R));
    let a = answer(&semi_rigid_beam(), force(1, [0.0, 0.0, -1300.0]));
    assert_case(-a.members[0].at(End::I).mz, end, "30189.220");
    let sag = 1300.0 * long * long * long / (48.0 * ei) - end * long * long / (8.0 * ei);
    assert_case(-a.displacements[1][2], sag, "1.064878");
}

/// 13: (wL²/12)/(1 + 2EI/LR), by two members and by one.
#[test]
fn semi_rigid_beam_with_an_even_load() {
    let end = 2.0 * 450.0 * 450.0 / 12.0 / (1.0 + 2.0 * E * STRONG / (450.0 * R));
    let a = answer(&semi_rigid_beam(), even(&[0, 1], [0.0, 0.0, -2.0]));
    assert_case(-a.members[0].at(End::I).mz, end, "13933.486");
    let mut whole = line(&[0.0, 450.0], upright(), &[(0, HELD), (1, HELD)]);
    (whole.members[0].springs_i, whole.members[0].springs_j) = (bends(R), bends(R));
    let a = answer(&whole, even(&[0], [0.0, 0.0, -2.0]));
    assert_case(-a.members[0].at(End::J).mz, end, "13933.486");
}

/// 14: PL³/3EI + PL²/R.
#[test]
fn semi_rigid_cantilever() {
    let mut frame = line(&[0.0, 400.0], upright(), &[(0, HELD)]);
    frame.members[0].springs_i = bends(R);
    let a = answer(&frame, force(1, [0.0, 0.0, P]));
    let sag = P * 400f64 * 400.0 * 400.0 / (3.0 * E * STRONG) + P * 400.0 * 400.0 / R;
    assert_case(a.displacements[1][2], sag, "4.533333");
}

/// 15: as case 8 with k / (1 + 6 EI_b / LR).
#[test]
fn semi_rigid_portal_with_held_feet_sways() {
    let k = K / (1.0 + 6.0 * E * BEAM / (L * R));
    assert_case(k, k, "0.2179480");
    let a = answer(&portal(HELD, bends(R)), sway());
    let (base, knee) = base_and_knee(&a);
    assert_case(a.displacements[1][0], drift(k), "1.419430");
    assert_case(knee, 300.0 * H / 2.0 * 3.0 * k / (6.0 * k + 1.0), "17849.974");
    assert_case(base, 300.0 * H / 2.0 * (3.0 * k + 1.0) / (6.0 * k + 1.0), "45150.026");
}

/// 16: case 9 + Hh²/2R.
#[test]
fn semi_rigid_portal_with_pinned_feet_sways() {
    let a = answer(&portal(PIN, bends(R)), sway());
    assert_case(a.displacements[1][0], pinned_drift() + 300.0 * H * H / (2.0 * R), "8.131784");
}

/// 17: four legs under a frame of four beams, 150 N at each top: two portals of case 8.
#[test]
fn stool_sways_like_two_portals() {
    let thick = |i: f64| Section { torsion: 1.0, ..section(VAST, i, i) };
    let feet = [[0.0, 0.0], [L, 0.0], [L, L], [0.0, L]];
    let at = |height: f64| feet.map(|[x, y]| [x, y, height]);
    let up = [0.0, 0.0, 1.0];
    let frame = Frame {
        nodes: [at(0.0), at(H)].concat(),
        members: (0..4)
            .flat_map(|k| {
                [
                    member(k, k + 4, thick(LEG), [1.0, 0.0, 0.0]),
                    member(k + 4, (k + 1) % 4 + 4, thick(BEAM), up),
                ]
            })
            .collect(),
        supports: (0..4).map(|node| Support { node, fixed: HELD }).collect(),
    };
    let mut case = LoadCase::default();
    (4..8).for_each(|node| case.nodes.extend(force(node, [150.0, 0.0, 0.0]).nodes));
    let a = answer(&frame, case);
    for top in 4..8 {
        assert_case(a.displacements[top][0], drift(K), "0.705516");
    }
}

/// Timoshenko's cantilever PL³/3EI + PL/(G A_s), as in his *Strength of Materials*: not among the cases above.
#[test]
fn cantilever_that_shears() {
    let area = 1000.0 * 5.0 / 6.0;
    let sheared = Section { shear_y: Some(area), shear_z: Some(area), ..upright() };
    let frame = line(&[0.0, 120.0], sheared, &[(0, HELD)]);
    for (way, iz) in [([0.0, 0.0, P], STRONG), ([0.0, P, 0.0], WEAK)] {
        let moved = answer(&frame, force(1, way)).displacements[1];
        let sag = P * 120f64 * 120.0 * 120.0 / (3.0 * E * iz) + P * 120.0 / (G * area);
        let found = moved[1] + moved[2];
        assert!((found - sag).abs() < 1e-12 * sag, "{found} is not {sag}");
    }
}
