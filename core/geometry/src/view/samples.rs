//! What is seen at the points of a grid.

use super::{Outline, Picture};
use kurbo::{Point, Rect};

/// Stands for the owner of a cell in which nothing is seen.
pub const NOBODY: u32 = u32::MAX;

/// How deep in what is seen of its owner each cell of a grid lies, by its owners row by row: 0 where one of the four
/// cells beside it is another's or missing, 1 where one of those is so beside them, else 2.
pub fn depths(owners: &[u32], columns: usize) -> Vec<u8> {
    let mut depths = vec![0; owners.len()];
    for depth in 1..=2 {
        // Changed from the first cell on, but those behind only ever from 1 to 2.
        let last = owners.len().saturating_sub(columns);
        for row in (columns..last).step_by(columns) {
            for at in row + 1..row + columns - 1 {
                let beside = [at - columns, at - 1, at + 1, at + columns];
                let own = owners[at];
                if own != NOBODY
                    && beside.iter().all(|&b| owners[b] == own && depths[b] >= depth - 1)
                    && depths[at] == depth - 1
                {
                    depths[at] = depth;
                }
            }
        }
    }
    depths
}

/// For the middle of each cell of a grid, the face seen there.
#[derive(Clone, Debug)]
pub struct Samples {
    /// Cells across.
    pub columns: usize,
    /// Cells upwards.
    pub rows: usize,
    /// Side of a cell, mm.
    pub cell: f64,
    low: Point,
    top: Vec<Option<u32>>,
}

impl Samples {
    /// Samples the picture within `area` by cells of `cell` mm.
    pub fn of(picture: &Picture, area: Rect, cell: f64) -> Self {
        let columns = (area.width() / cell).ceil().max(1.0) as usize;
        let rows = (area.height() / cell).ceil().max(1.0) as usize;
        let low = Point::new(area.x0, area.y0);
        let mut samples = Self { columns, rows, cell, low, top: vec![None; columns * rows] };
        let mut crossings = Vec::new();
        for (index, face) in picture.faces.iter().enumerate() {
            samples.paint(&face.rings, index as u32, &mut crossings);
        }
        samples
    }

    /// The middle of a cell in the picture.
    pub fn point(&self, column: usize, row: usize) -> Point {
        self.low + kurbo::Vec2::new(column as f64 + 0.5, row as f64 + 0.5) * self.cell
    }

    /// Index of the face seen in the middle of a cell.
    pub fn face(&self, column: usize, row: usize) -> Option<usize> {
        self.top[row * self.columns + column].map(|i| i as usize)
    }

    /// For each cell, row by row, the index of the face seen in its middle.
    pub fn faces(&self) -> impl Iterator<Item = Option<usize>> + '_ {
        self.top.iter().map(|face| face.map(|i| i as usize))
    }

    /// For each cell, row by row, the owner of the face seen in its middle, or [`NOBODY`].
    pub fn owners(&self, picture: &Picture) -> Vec<u32> {
        let owners: Vec<u32> = picture.faces.iter().map(|face| face.owner as u32).collect();
        self.top.iter().map(|top| top.map_or(NOBODY, |face| owners[face as usize])).collect()
    }

    fn paint(&mut self, rings: &[Outline], index: u32, crossings: &mut Vec<f64>) {
        let span = rings[0]
            .points
            .iter()
            .fold((f64::INFINITY, f64::NEG_INFINITY), |s, p| (s.0.min(p.y), s.1.max(p.y)));
        let (first, last) = (
            self.cell_after(span.0 - self.low.y, self.rows),
            self.cell_after(span.1 - self.low.y, self.rows),
        );
        for row in first..last {
            let y = self.low.y + (row as f64 + 0.5) * self.cell;
            crossings.clear();
            rings.iter().for_each(|ring| ring.crossings(y, crossings));
            crossings.sort_by(f64::total_cmp);
            for pair in crossings.chunks_exact(2) {
                let from = self.cell_after(pair[0] - self.low.x, self.columns);
                let to = self.cell_after(pair[1] - self.low.x, self.columns);
                self.top[row * self.columns + from..row * self.columns + to.max(from)].fill(Some(index));
            }
        }
    }

    /// The first cell whose middle lies after `offset`.
    fn cell_after(&self, offset: f64, cells: usize) -> usize {
        ((offset / self.cell - 0.5).ceil().max(0.0) as usize).min(cells)
    }
}

impl Outline {
    /// Where the ring crosses the height `y`.
    fn crossings(&self, y: f64, found: &mut Vec<f64>) {
        for (a, b) in super::flat::segments(&self.points) {
            if (a.y > y) != (b.y > y) {
                found.push(a.x + (b.x - a.x) * ((y - a.y) / (b.y - a.y)));
            }
        }
    }
}
