//! Laws that the answer of every frame obeys, over random frames.

use super::random::Random;
use crate::vector::{cross, global, less};
use crate::{End, Frame, LoadCase, Member, Solution, Structure, solve};

const ROUNDS: u64 = 300;

/// Calls with a random frame, two cases and their answers.
fn each(mut call: impl FnMut(u64, &mut Random, &Frame, [&LoadCase; 2], [&Solution; 2])) {
    for seed in 0..ROUNDS {
        let mut random = Random(seed);
        let frame = random.frame();
        let cases = [random.case(&frame), random.case(&frame)];
        let answers = solve(&frame, &cases).unwrap_or_else(|trouble| panic!("seed {seed}: {trouble}"));
        call(seed, &mut random, &frame, [&cases[0], &cases[1]], [&answers[0], &answers[1]]);
    }
}

/// Two lists of numbers agree to `share` of the largest.
#[track_caller]
fn assert_alike(a: impl IntoIterator<Item = f64>, b: impl IntoIterator<Item = f64>, share: f64, seed: u64) {
    let (a, b): (Vec<f64>, Vec<f64>) = (a.into_iter().collect(), b.into_iter().collect());
    assert_eq!(a.len(), b.len());
    let most = a.iter().chain(&b).fold(0.0_f64, |most, value| most.max(value.abs()));
    let apart = a.iter().zip(&b).fold(0.0_f64, |most, (x, y)| most.max((x - y).abs()));
    assert!(apart <= share * most, "seed {seed}: {apart:e} apart of {most:e}");
}

fn moves(a: &Solution) -> Vec<f64> {
    a.displacements.iter().flat_map(|d| d[..3].to_vec()).collect()
}

fn turns(a: &Solution) -> Vec<f64> {
    a.displacements.iter().flat_map(|d| d[3..].to_vec()).collect()
}

/// Every force and moment on the frame with the point where it acts.
fn outside(frame: &Frame, case: &LoadCase, answer: &Solution) -> Vec<([f64; 3], [f64; 3], [f64; 3])> {
    let loads = case.nodes.iter().map(|load| (frame.nodes[load.node], load.force, load.moment));
    let even = case.members.iter().map(|load| {
        let member = &frame.members[load.member];
        let (i, j) = (frame.nodes[member.i], frame.nodes[member.j]);
        let long = crate::vector::length(less(j, i));
        let middle = core::array::from_fn(|k| (i[k] + j[k]) / 2.0);
        (middle, load.force.map(|q| q * long), [0.0; 3])
    });
    let reactions = answer.reactions.iter().map(|r| (frame.nodes[r.node], r.force, r.moment));
    loads.chain(even).chain(reactions).collect()
}

/// What loads on nodes move is told alike with the forces and without.
#[test]
fn movements_alone_are_those_of_the_answer() {
    for seed in 0..ROUNDS {
        let mut random = Random(seed);
        let frame = random.frame();
        let case = |random: &mut Random| LoadCase { members: Vec::new(), ..random.case(&frame) };
        let cases: Vec<LoadCase> = (0..6).map(|_| case(&mut random)).collect();
        let structure = Structure::new(&frame).unwrap();
        let stiff = structure.factorise().unwrap();
        let answers = stiff.solve_all(&cases).unwrap();
        for (moved, answer) in stiff.moved(&cases).unwrap().into_iter().zip(&answers) {
            let [places, angles] = [0..3, 3..6].map(|three| {
                moved.iter().flat_map(|node| node[three.clone()].to_vec()).collect::<Vec<f64>>()
            });
            assert_alike(places, moves(answer), 1e-6, seed);
            assert_alike(angles, turns(answer), 1e-6, seed);
        }
    }
}

/// Loads and reactions balance as a whole.
#[test]
fn reactions_balance_the_loads() {
    let mut worst = 0.0_f64;
    each(|_, _, frame, cases, answers| {
        for (case, answer) in cases.into_iter().zip(answers) {
            let (mut forces, mut moments, mut most) = ([0.0; 3], [0.0; 3], 0.0_f64);
            for (at, force, moment) in outside(frame, case, answer) {
                let turning = cross(at, force);
                for k in 0..3 {
                    forces[k] += force[k];
                    moments[k] += moment[k] + turning[k];
                    most = most.max(force[k].abs()).max(moment[k].abs() / 100.0);
                }
            }
            let left =
                forces.iter().chain(moments.map(|m| m / 100.0).iter()).fold(0.0_f64, |a, b| a.max(b.abs()));
            worst = worst.max(left / most);
        }
    });
    println!("out of balance by {worst:e} at most");
    assert!(worst < 1e-9, "{worst:e}");
}

/// At each node without a support, what members do to it balances its loads; each member is in balance itself.
#[test]
fn nodes_and_members_balance() {
    each(|seed, _, frame, [case, _], [answer, _]| {
        let structure = Structure::new(frame).expect("sound");
        let mut on_nodes = vec![[0.0; 6]; frame.nodes.len()];
        for load in &case.nodes {
            (0..6).for_each(|k| on_nodes[load.node][k] += [load.force, load.moment].as_flattened()[k]);
        }
        let mut most = 0.0_f64;
        for (bar, member) in structure.bars.iter().zip(&answer.members) {
            for (k, three) in member.ends.as_chunks::<3>().0.iter().enumerate() {
                let back = global(&bar.axes, *three);
                (0..3).for_each(|c| on_nodes[bar.ends[k / 2]][3 * (k % 2) + c] -= back[c]);
            }
            most = member.ends.iter().fold(most, |most, value| most.max(value.abs()));
            let (first, last) = (member.along(1.0), member.at(End::J));
            assert_eq!(first, last);
            let there = [last.n, last.vy, last.vz, last.t, last.my, last.mz];
            let size = member.ends.iter().fold(0.0_f64, |most, value| most.max(value.abs()));
            for (inner, end) in there.iter().zip(&member.ends[6..]) {
                assert!((inner - end).abs() <= 1e-12 * size * member.length, "seed {seed}: {inner} {end}");
            }
        }
        let held = |node: usize| frame.supports.iter().any(|support| support.node == node);
        for (node, left) in on_nodes.iter().enumerate().filter(|(node, _)| !held(*node)) {
            assert!(
                left.iter().all(|l| l.abs() <= 1e-8 * most),
                "seed {seed}, node {node}: {left:?} of {most}"
            );
        }
    });
}

/// The answer to both cases together is the sum of their answers.
#[test]
fn answers_add_up() {
    each(|seed, _, frame, [first, second], [one, other]| {
        let mut both = first.clone();
        both.nodes.extend(&second.nodes);
        both.members.extend(&second.members);
        let whole = solve(frame, &[both]).expect("sound").remove(0);
        let sum = |a: Vec<f64>, b: Vec<f64>| a.into_iter().zip(b).map(|(x, y)| x + y).collect::<Vec<_>>();
        assert_alike(moves(&whole), sum(moves(one), moves(other)), 1e-9, seed);
        assert_alike(turns(&whole), sum(turns(one), turns(other)), 1e-9, seed);
    });
}

/// E. Betti, 1872: the loads of one case do as much work on the other's displacements as the other way round.
#[test]
fn work_is_mutual() {
    each(|seed, _, frame, cases, answers| {
        let [a, b] = cases.map(|case| LoadCase { members: vec![], ..case.clone() });
        let answers = [0, 1].map(|k| {
            if cases[k].members.is_empty() {
                answers[k].clone()
            } else {
                solve(frame, &[[&a, &b][k].clone()]).expect("sound").remove(0)
            }
        });
        let work = |case: &LoadCase, answer: &Solution| -> (f64, f64) {
            let parts = case.nodes.iter().flat_map(|load| {
                let moved = answer.displacements[load.node];
                load.force.into_iter().chain(load.moment).zip(moved).map(|(f, d)| f * d)
            });
            parts.fold((0.0, 0.0), |(sum, size), part| (sum + part, size + part.abs()))
        };
        let ((one, size), (other, _)) = (work(&a, &answers[1]), work(&b, &answers[0]));
        let own = work(&a, &answers[0]).0.max(work(&b, &answers[1]).0);
        assert!((one - other).abs() <= 1e-9 * (size + own), "seed {seed}: {one} is not {other}");
        assert!(work(&a, &answers[0]).0 >= 0.0, "seed {seed}: a load that gains work");
    });
}

/// A frame turned as a whole answers turned loads with turned displacements: here x becomes y, y z, z x.
#[test]
fn no_direction_is_special() {
    let turn = |v: [f64; 3]| [v[2], v[0], v[1]];
    each(|seed, _, frame, [case, _], [answer, _]| {
        let mut turned = frame.clone();
        turned.nodes.iter_mut().for_each(|node| *node = turn(*node));
        turned.members.iter_mut().for_each(|member| member.up = turn(member.up));
        let mut loads = case.clone();
        for load in &mut loads.nodes {
            (load.force, load.moment) = (turn(load.force), turn(load.moment));
        }
        loads.members.iter_mut().for_each(|load| load.force = turn(load.force));
        let found = solve(&turned, &[loads]).expect("sound").remove(0);
        let wanted = answer.displacements.iter().flat_map(|d| turn([d[0], d[1], d[2]]));
        assert_alike(moves(&found), wanted, 1e-8, seed);
        let ends = |a: &Solution| a.members.iter().flat_map(|m| m.ends).collect::<Vec<_>>();
        assert_alike(ends(&found), ends(answer), 1e-8, seed);
    });
}

/// Neither the order of the nodes and members nor the way a member runs changes what moves.
#[test]
fn order_does_not_matter() {
    each(|seed, random, frame, [case, _], [answer, _]| {
        let count = frame.nodes.len();
        let mut new: Vec<usize> = (0..count).collect();
        (1..count).rev().for_each(|k| new.swap(k, random.below(k + 1)));
        let mut other = frame.clone();
        (0..count).for_each(|old| other.nodes[new[old]] = frame.nodes[old]);
        for member in &mut other.members {
            *member = Member {
                i: new[member.j],
                j: new[member.i],
                springs_i: member.springs_j,
                springs_j: member.springs_i,
                ..*member
            };
        }
        other.members.reverse();
        other.supports.iter_mut().for_each(|support| support.node = new[support.node]);
        let mut loads = case.clone();
        loads.nodes.iter_mut().for_each(|load| load.node = new[load.node]);
        loads.members.iter_mut().for_each(|load| load.member = frame.members.len() - 1 - load.member);
        let found = solve(&other, &[loads]).expect("sound").remove(0);
        let back = (0..count).flat_map(|old| found.displacements[new[old]][..3].to_vec());
        assert_alike(back, moves(answer), 1e-8, seed);
    });
}

/// A node more in the middle of a member changes nothing.
#[test]
fn a_member_in_two_halves_is_the_same() {
    each(|seed, random, frame, [case, _], [answer, _]| {
        let cut = random.below(frame.members.len());
        let (mut halves, whole) = (frame.clone(), frame.members[cut]);
        let (i, j) = (frame.nodes[whole.i], frame.nodes[whole.j]);
        let middle = frame.nodes.len();
        halves.nodes.push(core::array::from_fn(|k| (i[k] + j[k]) / 2.0));
        halves.members[cut] = Member { j: middle, springs_j: crate::Springs::RIGID, ..whole };
        halves.members.push(Member { i: middle, springs_i: crate::Springs::RIGID, ..whole });
        let mut loads = case.clone();
        let extra = case.members.iter().filter(|load| load.member == cut);
        loads.members.extend(extra.map(|load| crate::UniformLoad { member: frame.members.len(), ..*load }));
        let found = solve(&halves, &[loads]).expect("sound").remove(0);
        assert_alike(moves(&found).into_iter().take(3 * middle), moves(answer), 1e-7, seed);
        let (here, there) = (answer.members[cut].along(0.5), found.members[cut].at(End::J));
        let all = answer.members.iter().flat_map(|member| member.ends);
        let size = all.fold(0.0_f64, |most, value| most.max(value.abs()));
        for (a, b) in [(here.n, there.n), (here.my, there.my), (here.mz, there.mz), (here.t, there.t)] {
            assert!((a - b).abs() <= 1e-6 * size, "seed {seed}: {here:?} is not {there:?}");
        }
    });
}
