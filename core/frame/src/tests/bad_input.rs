//! Frames and loads that are refused: each names its place, none gives a number that is none, none panics.

use super::random::Random;
use super::sketch::{HELD, PIN, even, force, line, member, moment, upright};
use crate::{End, Frame, LoadCase, Member, Springs, Structure, Support, solve};

fn sound() -> Frame {
    line(&[0.0, 200.0, 450.0], upright(), &[(0, HELD)])
}

#[track_caller]
fn refused(frame: &Frame, case: LoadCase) -> (String, String) {
    let trouble = solve(frame, &[case]).expect_err("no answer");
    assert!(trouble.why.ends_with('.') && trouble.why.len() < 200, "{trouble}");
    (trouble.place, trouble.why)
}

/// The place named when the frame is changed.
#[track_caller]
fn place(change: impl FnOnce(&mut Frame)) -> String {
    let mut frame = sound();
    change(&mut frame);
    refused(&frame, force(1, [0.0, 0.0, 1.0])).0
}

const WRONG: [f64; 6] = [0.0, -1.0, f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e300];

#[test]
fn sections_that_are_none() {
    type Field = fn(&mut Member) -> &mut f64;
    let fields: [(&str, Field); 6] = [
        ("e", |m| &mut m.section.e),
        ("g", |m| &mut m.section.g),
        ("area", |m| &mut m.section.area),
        ("iy", |m| &mut m.section.iy),
        ("iz", |m| &mut m.section.iz),
        ("torsion", |m| &mut m.section.torsion),
    ];
    for value in WRONG {
        for (name, field) in fields {
            assert_eq!(place(|f| *field(&mut f.members[1]) = value), format!("members[1].{name}"));
        }
        assert_eq!(place(|f| f.members[0].section.shear_y = Some(value)), "members[0].shear_y");
        assert_eq!(place(|f| f.members[0].section.shear_z = Some(value)), "members[0].shear_z");
    }
}

#[test]
fn springs_that_are_none() {
    for value in WRONG {
        let springs = |x, y, z| Springs { x, y, z };
        let some = Some(value);
        assert_eq!(place(|f| f.members[0].springs_i = springs(some, None, None)), "members[0].springs_i.x");
        assert_eq!(place(|f| f.members[1].springs_j = springs(None, some, None)), "members[1].springs_j.y");
        assert_eq!(place(|f| f.members[1].springs_j = springs(None, None, some)), "members[1].springs_j.z");
        let mut structure = Structure::new(&sound()).expect("sound");
        let before = structure.clone();
        let trouble = structure.set_springs(1, End::I, springs(None, None, some)).expect_err("refused");
        assert_eq!(trouble.place, "members[1].springs_i.z");
        assert_eq!(before.bars[1].springs, structure.bars[1].springs);
    }
    let mut structure = Structure::new(&sound()).expect("sound");
    assert_eq!(structure.set_springs(2, End::I, Springs::RIGID).expect_err("refused").place, "member");
}

#[test]
fn members_that_lead_nowhere() {
    assert_eq!(place(|f| f.members[0].i = 3), "members[0].i");
    assert_eq!(place(|f| f.members[1].j = usize::MAX), "members[1].j");
    assert_eq!(place(|f| f.members[1].j = 1), "members[1].j");
    assert_eq!(place(|f| f.nodes[2] = f.nodes[1]), "members[1]");
    assert_eq!(place(|f| f.nodes[2] = [200.0, 1e-12, 0.0]), "members[1]");
    for up in [[0.0; 3], [1.0, 0.0, 0.0], [-3.0, 1e-9, 0.0]] {
        assert_eq!(place(|f| f.members[1].up = up), "members[1].up");
    }
    assert_eq!(place(|f| f.members[1].up = [0.0, f64::NAN, 1.0]), "members[1].up");
    assert_eq!(place(|f| f.nodes[1][2] = f64::INFINITY), "nodes[1]");
    assert_eq!(place(|f| f.members.clear()), "members");
    assert_eq!(refused(&Frame::default(), LoadCase::default()).0, "members");
}

#[test]
fn supports_and_loads_on_what_is_missing() {
    assert_eq!(place(|f| f.supports[0].node = 3), "supports[0].node");
    assert_eq!(place(|f| f.supports.push(Support { node: 0, fixed: PIN })), "supports[1].node");
    assert_eq!(refused(&sound(), force(3, [1.0; 3])).0, "loads[0].node");
    assert_eq!(refused(&sound(), force(1, [0.0, f64::NAN, 0.0])).0, "loads[0].force");
    assert_eq!(refused(&sound(), moment(1, [f64::INFINITY, 0.0, 0.0])).0, "loads[0].moment");
    assert_eq!(refused(&sound(), even(&[0, 2], [1.0; 3])).0, "uniform_loads[1].member");
    assert_eq!(refused(&sound(), even(&[0], [0.0, 0.0, f64::NAN])).0, "uniform_loads[0].force");
}

/// Each mechanism names a node that moves and a way in which it does.
#[test]
fn mechanisms_name_a_node_and_a_way() {
    let why = |frame: &Frame| refused(frame, LoadCase::default());
    let mut frame = sound();
    frame.supports.clear();
    let (at, said) = why(&frame);
    assert!(at.starts_with("nodes[") && said.contains("is free to"), "{at}: {said}");

    // A beam on two pins turns about itself.
    let spun = line(&[0.0, 450.0], upright(), &[(0, PIN), (1, PIN)]);
    assert!(why(&spun).1.contains("is free to turn about x"), "{:?}", why(&spun));

    // Held so that it can only slide.
    let slide = [false, true, true, true, true, true];
    let sliding = line(&[0.0, 450.0], upright(), &[(0, slide)]);
    assert!(why(&sliding).1.contains("is free to move along x"), "{:?}", why(&sliding));

    // A node that no member meets.
    let mut lone = sound();
    lone.nodes.push([9.0, 9.0, 9.0]);
    assert_eq!(why(&lone).0, "nodes[3]");
    assert!(why(&lone).1.contains("no member meets it"), "{:?}", why(&lone));
    lone.supports.push(Support { node: 3, fixed: HELD });
    assert!(solve(&lone, &[force(3, [1.0; 3])]).is_ok(), "held, it is no trouble");

    // A piece beside the frame that stands on nothing.
    let mut pieces = sound();
    pieces.nodes.extend([[0.0, 300.0, 0.0], [0.0, 400.0, 50.0]]);
    pieces.members.push(member(3, 4, upright(), [1.0, 0.0, 0.0]));
    assert!(["nodes[3]", "nodes[4]"].contains(&why(&pieces).0.as_str()), "{:?}", why(&pieces));
}

/// A spring so soft that the sums lose their figures is refused by name, never answered with noise.
#[test]
fn springs_next_to_nothing() {
    for power in [-4, -6, -9, -12, -20, -29] {
        let mut frame = sound();
        let spring: f64 = format!("1e{power}").parse().expect("a number");
        frame.members[0].springs_i = Springs { z: Some(spring), ..Springs::RIGID };
        match solve(&frame, &[force(2, [0.0, 0.0, 1.0])]) {
            Err(trouble) => assert!(trouble.place.starts_with("nodes["), "{trouble}"),
            Ok(answers) => {
                let wanted = 450.0 * 450.0 / spring;
                assert!((answers[0].displacements[2][2] / wanted - 1.0).abs() < 1e-5, "1e{power}: noise");
            }
        }
    }
}

/// Random frames with all supports taken away, skew as they are, are all found to be free.
#[test]
fn random_frames_without_supports() {
    for seed in 2000..2200 {
        let mut random = Random(seed);
        let mut frame = random.frame();
        let case = random.case(&frame);
        frame.supports.clear();
        let (at, said) = refused(&frame, case);
        assert!(at.starts_with("nodes[") && said.contains("free to"), "seed {seed}: {at}: {said}");
    }
}

/// Random frames on two pins can turn about the line through them.
#[test]
fn random_frames_on_two_pins() {
    let mut tried = 0;
    for seed in 3000..3200 {
        let mut random = Random(seed);
        let mut frame = random.frame();
        let case = random.case(&frame);
        if frame.nodes.len() > 3 {
            frame.supports = [1, 2].map(|node| Support { node, fixed: PIN }).to_vec();
            let (at, said) = refused(&frame, case);
            assert!(at.starts_with("nodes[") && said.contains("free to"), "seed {seed}: {at}: {said}");
            tried += 1;
        }
    }
    assert!(tried > 100, "{tried}");
}

/// Numbers at the ends of what is allowed: an answer in numbers or a refusal.
#[test]
fn extreme_numbers_give_numbers_or_a_refusal() {
    for seed in 4000..4300 {
        let mut random = Random(seed);
        let mut frame = random.frame();
        let case = random.case(&frame);
        for _ in 0..3 {
            let at = random.below(frame.members.len());
            let value = [1e-30, 1e-12, 1e12, 1e30][random.below(4)];
            let member = &mut frame.members[at];
            let section = &mut member.section;
            match random.below(8) {
                0 => section.e = value,
                1 => section.g = value,
                2 => section.area = value,
                3 => section.iy = value,
                4 => section.torsion = value,
                5 => section.shear_y = Some(value),
                6 => member.springs_i.z = Some(value),
                _ => frame.nodes[member.i][0] = value,
            }
        }
        match solve(&frame, &[case]) {
            Ok(answers) => {
                let all = answers.iter().flat_map(|a| a.displacements.as_flattened());
                assert!(all.into_iter().all(|value| value.is_finite()), "seed {seed}");
            }
            Err(trouble) => assert!(trouble.why.ends_with('.'), "seed {seed}: {trouble}"),
        }
    }
}
