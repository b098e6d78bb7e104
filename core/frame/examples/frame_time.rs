//! How long a frame of a chair's size takes: `cargo run --release -p crestrail-frame --example frame_time`.
//!
//! Prints each stage in µs and as a share of a factorisation, then all that a check of strength asks for as a share of
//! its goal: five stiffnesses of the joints with six load cases each, from checking the frame to the last force.

use crestrail_frame::{
    End, Frame, LoadCase, Member, NodeLoad, Section, Springs, Structure, Support, Trouble, UniformLoad,
};
use std::hint::black_box;
use std::time::Instant;

/// Rounds; the fastest and the middle one are told.
const ROUNDS: usize = 2000;
/// Rotational stiffness of the joints, N·mm/rad; the last is rigid.
const JOINTS: [Option<f64>; 5] = [Some(3e6), Some(8e6), Some(2e7), Some(1e8), None];
const CASES: usize = 6;
/// µs for all of it.
const GOAL: f64 = 1000.0;

fn main() -> Result<(), Trouble> {
    let frame = chair();
    let cases: Vec<LoadCase> = (0..CASES).map(|k| case(&frame, k)).collect();
    let mut structure = Structure::new(&frame)?;
    let all = structure.unknowns() * (structure.unknowns() + 1) / 2;
    println!(
        "{} nodes, {} members, {} unknowns; {} numbers stored, {:.0} % of a full half",
        frame.nodes.len(),
        frame.members.len(),
        structure.unknowns(),
        structure.stored(),
        100.0 * structure.stored() as f64 / all as f64
    );
    let stiff = structure.factorise()?;
    let factorise = timed(|| structure.factorise());
    tell("factorise", factorise, factorise.1);
    tell("check and lay out", timed(|| Structure::new(&frame)), factorise.1);
    tell("a load case", timed(|| stiff.solve(&cases[0])), factorise.1);
    tell("four load cases", timed(|| stiff.solve_all(&cases[..4])), factorise.1);
    drop(stiff);
    let whole = timed(|| run(&frame, &mut structure, &cases));
    tell("5 stiffnesses × 6 cases", whole, factorise.1);
    println!("share of the goal of {GOAL} µs: {:.2}", whole.1 / GOAL);
    Ok(())
}

/// The sum of all tips' displacements, so that nothing is left out.
fn run(frame: &Frame, structure: &mut Structure, cases: &[LoadCase]) -> Result<f64, Trouble> {
    *structure = Structure::new(frame)?;
    let mut sum = 0.0;
    for stiffness in JOINTS {
        let springs = Springs { x: stiffness, y: stiffness, z: stiffness };
        for (member, end) in joints(frame) {
            structure.set_springs(member, end, springs)?;
        }
        let stiff = structure.factorise()?;
        sum += stiff.solve_all(cases)?.iter().map(|s| s.displacements[frame.nodes.len() - 1][1]).sum::<f64>();
    }
    Ok(sum)
}

/// Fastest and middle time, µs.
fn timed<T>(mut job: impl FnMut() -> T) -> (f64, f64) {
    let mut times: Vec<f64> = (0..ROUNDS)
        .map(|_| {
            let start = Instant::now();
            black_box(job());
            start.elapsed().as_secs_f64() * 1e6
        })
        .collect();
    times.sort_by(f64::total_cmp);
    (times[0], times[ROUNDS / 2])
}

fn tell(what: &str, (best, middle): (f64, f64), unit: f64) {
    println!("{what:<24} best {best:7.1} µs, middle {middle:7.1} µs, {:6.2} factorisations", middle / unit);
}

/// Rails and stretchers turn on springs where they meet a leg.
fn joints(frame: &Frame) -> Vec<(usize, End)> {
    let is_leg = |node: usize| node < LEGS;
    let mut found = Vec::new();
    for (index, member) in frame.members.iter().enumerate() {
        match (is_leg(member.i), is_leg(member.j)) {
            (true, false) => found.push((index, End::I)),
            (false, true) => found.push((index, End::J)),
            _ => {}
        }
    }
    found
}

/// Nodes of the four legs come first: two front legs of 4, two back legs of 7.
const LEGS: usize = 22;

fn wood(b: f64, h: f64) -> Section {
    Section {
        e: 12000.0,
        g: 750.0,
        area: b * h,
        iy: h * b * b * b / 12.0,
        iz: b * h * h * h / 12.0,
        torsion: b * b * b * h / 4.0,
        shear_y: Some(b * h * 5.0 / 6.0),
        shear_z: Some(b * h * 5.0 / 6.0),
    }
}

fn member(i: usize, j: usize, section: Section, up: [f64; 3]) -> Member {
    Member { i, j, section, up, springs_i: Springs::RIGID, springs_j: Springs::RIGID }
}

/// Legs with nodes at the foot, the stretchers, the rails and, behind, at each rail of the back.
fn chair() -> Frame {
    let mut frame = Frame::default();
    let up = [0.0, 0.0, 1.0];
    let front = [0.0, 150.0, 200.0, 410.0];
    let back = [0.0, 150.0, 200.0, 410.0, 560.0, 700.0, 850.0];
    let mut legs = Vec::new();
    for (y, heights) in [(0.0, &front[..]), (420.0, &back[..])] {
        for x in [-220.0, 220.0] {
            let first = frame.nodes.len();
            for (k, &z) in heights.iter().enumerate() {
                frame.nodes.push([x, y + if z > 410.0 { (z - 410.0) / 8.0 } else { 0.0 }, z]);
                if k > 0 {
                    frame.members.push(member(first + k - 1, first + k, wood(35.0, 38.0), [0.0, 1.0, 0.0]));
                }
            }
            frame.supports.push(Support { node: first, fixed: [true, true, true, false, false, false] });
            legs.push(first);
        }
    }
    let [fl, fr, bl, br] = [legs[0], legs[1], legs[2], legs[3]];
    let rails = [
        (fl + 3, fr + 3),
        (bl + 3, br + 3),
        (fl + 3, bl + 3),
        (fr + 3, br + 3),
        (bl + 4, br + 4),
        (bl + 5, br + 5),
        (bl + 6, br + 6),
        (fl + 1, bl + 1),
        (fr + 1, br + 1),
        (fl + 2, fr + 2),
        (bl + 2, br + 2),
    ];
    let mut middles = Vec::new();
    for (i, j) in rails {
        middles.push(rail(&mut frame, i, j, up));
    }
    // A stretcher between those of the sides, seat bearers between the side rails, splats in the back.
    for (i, j) in [(7, 8), (2, 3), (0, 1), (4, 5), (5, 6), (1, 4), (0, 1)] {
        rail(&mut frame, middles[i], middles[j], [0.3, 1.0, 0.4]);
    }
    frame
}

/// A rail in two halves; gives the node in its middle.
fn rail(frame: &mut Frame, i: usize, j: usize, up: [f64; 3]) -> usize {
    let middle = frame.nodes.len();
    let (a, b) = (frame.nodes[i], frame.nodes[j]);
    frame.nodes.push(core::array::from_fn(|k| (a[k] + b[k]) / 2.0));
    frame.members.push(member(i, middle, wood(20.0, 55.0), up));
    frame.members.push(member(middle, j, wood(20.0, 55.0), up));
    middle
}

fn case(frame: &Frame, k: usize) -> LoadCase {
    let load = |node: usize, force: [f64; 3]| NodeLoad { node, force, moment: [0.0; 3] };
    let last = frame.nodes.len() - 1;
    let aside = [[0.0, 450.0, 0.0], [300.0, 0.0, 0.0], [0.0, -400.0, 0.0]][k % 3];
    LoadCase {
        nodes: vec![
            load(LEGS, [0.0, 0.0, -650.0]),
            load(LEGS + 1, [0.0, 0.0, -650.0]),
            load(last - k, aside),
        ],
        members: vec![UniformLoad { member: 20 + k, force: [0.0, 0.0, -0.5] }],
    }
}
