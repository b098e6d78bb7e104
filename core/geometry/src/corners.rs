//! Points in the same place made one corner.

use crate::Vec3;
use crate::soup::Soup;

/// Points nearer than this are one corner, mm: ten times what the grid of the flat booleans and the
/// tolerance for equal planes can set them apart.
pub(crate) const SAME_CORNER: f64 = 1e-5;

/// The corners of a soup, and for each of its points the number of its corner. Of points in one place
/// the first exact one stands for all.
pub(crate) fn merge(soup: &Soup) -> (Vec<Vec3>, Vec<u32>) {
    let mut table = Table::new(soup.points.len());
    let mut vertices: Vec<Vec3> = Vec::with_capacity(soup.points.len() / 2);
    let mut coarse: Vec<bool> = Vec::with_capacity(soup.points.len() / 2);
    let mut of_point = Vec::with_capacity(soup.points.len());
    for l in &soup.loops {
        for &p in &soup.points[l.points.clone()] {
            let v = table.find(p, &vertices).unwrap_or(vertices.len() as u32);
            if v as usize == vertices.len() {
                table.insert(p, v);
                vertices.push(p);
                coarse.push(l.coarse);
            } else if coarse[v as usize] && !l.coarse {
                vertices[v as usize] = p;
                coarse[v as usize] = false;
            }
            of_point.push(v);
        }
    }
    (vertices, of_point)
}

/// Finds a vertex near a point: an open-addressed table over a grid of cells.
struct Table {
    slots: Vec<u32>,
}

const EMPTY: u32 = u32::MAX;
/// Cells to the millimetre: their side is a hundred times [`SAME_CORNER`], so that a point rarely is
/// near a second cell.
const CELLS: f64 = 1000.0;
/// Where cells are counted from, mm: far enough that all counts are positive, and such that no round
/// measure lies on a cell's wall.
const START: f64 = 65_536.000_271_828;

type Cell = [i64; 3];

impl Table {
    fn new(points: usize) -> Self {
        Self { slots: vec![EMPTY; (points * 2).next_power_of_two().max(16)] }
    }

    fn cell(p: Vec3) -> Cell {
        let count = |c: f64| ((c + START) * CELLS) as i64;
        [count(p.x), count(p.y), count(p.z)]
    }

    /// Slots to be searched for a cell, in order (Fibonacci hashing).
    fn walk(&self, [x, y, z]: Cell) -> impl Iterator<Item = usize> + use<> {
        const GOLDEN: u64 = 0x9E37_79B9_7F4A_7C15;
        let mix = (x as u64).wrapping_mul(GOLDEN) ^ (y as u64).wrapping_mul(GOLDEN).rotate_left(23);
        let start = ((mix ^ z as u64).wrapping_mul(GOLDEN) >> 32) as usize;
        let mask = self.slots.len() - 1;
        (0..).map(move |k| (start + k) & mask)
    }

    fn insert(&mut self, p: Vec3, vertex: u32) {
        // The table is twice as large as the number of points: there is a free slot.
        if let Some(slot) = self.walk(Self::cell(p)).find(|&s| self.slots[s] == EMPTY) {
            self.slots[slot] = vertex;
        }
    }

    fn find(&self, p: Vec3, vertices: &[Vec3]) -> Option<u32> {
        let reach = Vec3::new(SAME_CORNER, SAME_CORNER, SAME_CORNER);
        let (low, high) = (Self::cell(p - reach), Self::cell(p + reach));
        if low == high {
            return self.find_in(low, p, vertices);
        }
        (low[0]..=high[0])
            .flat_map(|x| (low[1]..=high[1]).flat_map(move |y| (low[2]..=high[2]).map(move |z| [x, y, z])))
            .find_map(|cell| self.find_in(cell, p, vertices))
    }

    fn find_in(&self, cell: Cell, p: Vec3, vertices: &[Vec3]) -> Option<u32> {
        let near = |&v: &u32| {
            let d = vertices[v as usize] - p;
            d.dot(d) <= SAME_CORNER * SAME_CORNER
        };
        self.walk(cell).map(|s| self.slots[s]).take_while(|&v| v != EMPTY).find(near)
    }
}
