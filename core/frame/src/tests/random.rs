//! Random frames: always the same one for one seed.

use super::sketch::{HELD, PIN};
use crate::{Frame, LoadCase, Member, NodeLoad, Section, Springs, Support, UniformLoad};

/// G. L. Steele, D. Lea, C. H. Flood, "Fast splittable pseudorandom number generators", 2014: splitmix64.
pub(super) struct Random(pub(super) u64);

impl Random {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    pub(super) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }

    pub(super) fn below(&mut self, count: usize) -> usize {
        (self.next() % count as u64) as usize
    }

    fn chance(&mut self, share: f64) -> bool {
        self.between(0.0, 1.0) < share
    }

    pub(super) fn vector(&mut self, size: f64) -> [f64; 3] {
        core::array::from_fn(|_| self.between(-size, size))
    }

    /// Stiffness from 1e3 to 1e10 N·mm/rad, each power of ten alike, or none.
    fn spring(&mut self) -> Option<f64> {
        let powers = [1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9];
        self.chance(0.5).then(|| powers[self.below(7)] * self.between(1.0, 10.0))
    }

    fn springs(&mut self) -> Springs {
        if self.chance(0.5) {
            return Springs::RIGID;
        }
        Springs { x: self.spring(), y: self.spring(), z: self.spring() }
    }

    /// A wooden rail of random size, perhaps with shear areas.
    fn section(&mut self) -> Section {
        let (b, h) = (self.between(12.0, 50.0), self.between(12.0, 70.0));
        let shear = |on: bool| on.then_some(b * h * 5.0 / 6.0);
        Section {
            e: self.between(7000.0, 16000.0),
            g: self.between(400.0, 1200.0),
            area: b * h,
            iy: h * b * b * b / 12.0,
            iz: b * h * h * h / 12.0,
            torsion: b.min(h) * b.min(h) * b * h / 5.0,
            shear_y: shear(self.chance(0.5)),
            shear_z: shear(self.chance(0.5)),
        }
    }

    fn member(&mut self, i: usize, j: usize) -> Member {
        Member {
            i,
            j,
            section: self.section(),
            up: self.vector(1.0),
            springs_i: self.springs(),
            springs_j: self.springs(),
        }
    }

    /// A sound frame of 2 to 25 nodes: a tree of members and some more, one node held and some pinned. Where springs
    /// leave a node without a firm member it may turn on soft ones, but it is held.
    pub(super) fn frame(&mut self) -> Frame {
        let count = 2 + self.below(24);
        let mut nodes: Vec<[f64; 3]> = Vec::new();
        while nodes.len() < count {
            let node = self.vector(400.0);
            let far = |other: &[f64; 3]| (0..3).any(|k| (other[k] - node[k]).abs() > 40.0);
            if nodes.iter().all(far) {
                nodes.push(node);
            }
        }
        let mut members: Vec<Member> = (1..count)
            .map(|j| {
                let i = self.below(j);
                if self.chance(0.5) { self.member(i, j) } else { self.member(j, i) }
            })
            .collect();
        for _ in 0..self.below(count) {
            let (i, j) = (self.below(count), self.below(count));
            if i != j {
                members.push(self.member(i, j));
            }
        }
        let mut supports = vec![Support { node: 0, fixed: HELD }];
        for node in 1..count {
            if self.chance(0.15) {
                supports.push(Support { node, fixed: PIN });
            }
        }
        Frame { nodes, members, supports }
    }

    /// Forces and moments on some nodes, supports among them, and even loads on some members.
    pub(super) fn case(&mut self, frame: &Frame) -> LoadCase {
        let nodes = (0..1 + self.below(4))
            .map(|_| NodeLoad {
                node: self.below(frame.nodes.len()),
                force: self.vector(1000.0),
                moment: self.vector(50_000.0),
            })
            .collect();
        let members = (0..self.below(4))
            .map(|_| UniformLoad { member: self.below(frame.members.len()), force: self.vector(3.0) })
            .collect();
        LoadCase { nodes, members }
    }
}
