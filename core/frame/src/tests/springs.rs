//! Springs from soft to stiff, and changed on a structure that stays.

use super::random::Random;
use super::sketch::{E, HELD, PIN, STRONG, bends, force, line, member, upright};
use crate::{End, Frame, Springs, Structure, Support, solve};

/// The semi-rigid cantilever PL³/3EI + PL²/R over 24 powers of ten, each to 1e-10.
#[test]
fn cantilever_on_springs_soft_and_stiff() {
    let mut frame = line(&[0.0, 400.0], upright(), &[(0, HELD)]);
    for power in -4..=20 {
        let spring: f64 = format!("1e{power}").parse().expect("a number");
        frame.members[0].springs_i = bends(spring);
        let found = solve(&frame, &[force(1, [0.0, 0.0, 100.0])]).expect("sound")[0].displacements[1][2];
        let wanted = 100.0 * 400f64 * 400.0 * 400.0 / (3.0 * E * STRONG) + 100.0 * 400.0 * 400.0 / spring;
        assert!((found / wanted - 1.0).abs() < 1e-10, "1e{power}: {found} is not {wanted}");
    }
}

/// A beam between springs at both ends: pinned at the soft end of the range, held at the stiff one.
#[test]
fn beam_between_the_limits() {
    let sag = |spring: f64| {
        let mut frame = line(&[0.0, 225.0, 450.0], upright(), &[(0, HELD), (2, HELD)]);
        (frame.members[0].springs_i, frame.members[1].springs_j) = (bends(spring), bends(spring));
        -solve(&frame, &[force(1, [0.0, 0.0, -1300.0])]).expect("sound")[0].displacements[1][2]
    };
    let free = 1300.0 * 450f64 * 450.0 * 450.0 / (48.0 * E * STRONG);
    assert!((sag(1e-6) / free - 1.0).abs() < 1e-11);
    assert!((sag(1e20) / (free / 4.0) - 1.0).abs() < 1e-11);
    let sags: Vec<f64> =
        (0..40).map(|k| sag(1e-3 * f64::from(1u32 << (k / 2)) * f64::from(1u32 << (k - k / 2)))).collect();
    assert!(
        sags.windows(2).all(|pair| pair[1] <= pair[0] * (1.0 + 1e-12)),
        "stiffer springs sag more: {sags:?}"
    );
}

/// A spring about x is in series with the member: T L/GJ + T/R + T/R.
#[test]
fn twist_through_two_springs() {
    let mut frame = line(&[0.0, 400.0], upright(), &[(0, HELD)]);
    let spring = Springs { x: Some(3e5), ..Springs::RIGID };
    (frame.members[0].springs_i, frame.members[0].springs_j) = (spring, spring);
    let case = super::sketch::moment(1, [5000.0, 0.0, 0.0]);
    let found = solve(&frame, &[case]).expect("sound")[0].displacements[1][3];
    let wanted = 5000.0 * 400.0 / (super::sketch::G * super::sketch::TORSION) + 2.0 * 5000.0 / 3e5;
    assert!((found / wanted - 1.0).abs() < 1e-13);
}

/// Each spring acts about its own axis only.
#[test]
fn springs_act_about_their_own_axes() {
    let tip = |springs: Springs, pull: [f64; 3]| {
        let mut frame = line(&[0.0, 400.0], upright(), &[(0, HELD)]);
        frame.members[0].springs_i = springs;
        let moved = solve(&frame, &[force(1, pull)]).expect("sound")[0].displacements[1];
        moved[1] + moved[2]
    };
    // `up` is global z: local z is −y, so bending up turns about local z.
    let (up, aside) = ([0.0, 0.0, 100.0], [0.0, 100.0, 0.0]);
    let (about_y, about_z) =
        (Springs { y: Some(1e6), ..Springs::RIGID }, Springs { z: Some(1e6), ..Springs::RIGID });
    let more = 100.0 * 400.0 * 400.0 / 1e6;
    for (springs, pull, wanted) in
        [(about_z, up, more), (about_y, aside, more), (about_y, up, 0.0), (about_z, aside, 0.0)]
    {
        let found = tip(springs, pull) - tip(Springs::RIGID, pull);
        assert!((found - wanted).abs() < 1e-9, "{springs:?} {pull:?}: {found}");
    }
}

/// Springs set on a structure give the very figures of a frame made with them.
#[test]
fn springs_set_later_are_springs_from_the_start() {
    for seed in 1000..1050 {
        let mut random = Random(seed);
        let frame = random.frame();
        let case = random.case(&frame);
        let mut bare = frame.clone();
        for member in &mut bare.members {
            (member.springs_i, member.springs_j) = (Springs::RIGID, bends(1e7));
        }
        let mut structure = Structure::new(&bare).expect("sound");
        structure.factorise().expect("sound");
        for (index, member) in frame.members.iter().enumerate() {
            structure.set_springs(index, End::I, member.springs_i).expect("known");
            structure.set_springs(index, End::J, member.springs_j).expect("known");
        }
        let later = structure.factorise().and_then(|stiff| stiff.solve(&case)).expect("sound");
        assert_eq!(later, solve(&frame, &[case]).expect("sound").remove(0), "seed {seed}");
    }
}

/// A node between two beams that both turn on springs keeps a rotation of its own: the springs share the turn.
#[test]
fn two_springs_in_one_node_act_in_series() {
    let pinned = [true, true, true, true, false, true];
    let beam = |spring: Option<f64>| {
        let springs = Springs { z: spring, ..Springs::RIGID };
        let mut frame = line(&[0.0, 225.0, 450.0], upright(), &[(0, pinned), (2, pinned)]);
        (frame.members[0].springs_j, frame.members[1].springs_i) = (springs, springs);
        -solve(&frame, &[force(1, [0.0, 0.0, -1300.0])]).expect("sound")[0].displacements[1][2]
    };
    // M = PL/4 in the middle, turned by M/R at each side, sinks it by M/R · L/2.
    let wanted = beam(None) + 1300.0 * 450.0 / 4.0 / 4e6 * 225.0;
    assert!((beam(Some(4e6)) / wanted - 1.0).abs() < 1e-12);
}

/// Stubs of 3 mm at both ends of a rail of 400 mm: though 2 million times as stiff, they cost no figures.
#[test]
fn short_and_long_members_together() {
    let up = [0.0, 0.0, 1.0];
    let places = [0.0, 3.0, 403.0, 406.0];
    let frame = Frame {
        nodes: places.iter().map(|&x| [x, 0.0, 0.0]).collect(),
        members: (0..3).map(|i| member(i, i + 1, upright(), up)).collect(),
        supports: vec![Support { node: 0, fixed: PIN.map(|_| true) }],
    };
    let found = solve(&frame, &[force(3, [0.0, 0.0, 100.0])]).expect("sound")[0].displacements[3][2];
    let wanted = 100.0 * 406f64 * 406.0 * 406.0 / (3.0 * E * STRONG);
    assert!((found / wanted - 1.0).abs() < 1e-12, "{found} {wanted}");
}
