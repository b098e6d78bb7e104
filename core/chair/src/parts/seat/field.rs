//! A field of the seat's plane with notches where legs and posts stand.

use crate::skeleton::Footprint;
use crestrail_sorting::Order as _;
use kurbo::Point;

/// A straight side: x = `at` − `by` · y.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Edge {
    pub(super) at: f64,
    pub(super) by: f64,
}

impl Edge {
    pub(super) fn x(self, y: f64) -> f64 {
        self.at - self.by * y
    }

    pub(super) fn mirrored(self) -> Self {
        Self { at: -self.at, by: -self.by }
    }

    /// Moved to the right, mm measured square to the edge.
    pub(super) fn moved(self, by: f64) -> Self {
        Self { at: self.at + by * (1.0 + self.by * self.by).sqrt(), ..self }
    }
}

/// A field between two straight sides, front and back, in the coordinates of the seat.
#[derive(Clone, Debug)]
pub(super) struct Field {
    pub(super) front: f64,
    pub(super) back: f64,
    pub(super) left: Edge,
    pub(super) right: Edge,
    /// What stands in it, room to move included.
    pub(super) blocks: Vec<Footprint>,
}

/// A strip outside a leg that is narrower is not kept, mm: past a side, and before front or back.
const STRIP: (f64, f64) = (60.0, 35.0);

/// A footprint with room round it.
pub(super) fn widened(f: &Footprint, by: f64) -> Footprint {
    Footprint { x: (f.x.0 - by, f.x.1 + by), y: (f.y.0 - by, f.y.1 + by) }
}

/// The same footprint on the other side.
pub(super) fn mirrored(f: &Footprint) -> Footprint {
    Footprint { x: (-f.x.1, -f.x.0), y: f.y }
}

impl Field {
    /// Its corners, counter-clockwise seen from above.
    pub(super) fn outline(&self) -> Vec<Point> {
        let mut corners = self.right_side();
        corners.extend(self.behind());
        let left = self.mirrored().right_side();
        corners.extend(left.into_iter().rev().map(|p| Point::new(-p.x, p.y)));
        corners
    }

    fn mirrored(&self) -> Self {
        let (left, right) = (self.right.mirrored(), self.left.mirrored());
        Self { left, right, blocks: self.blocks.iter().map(mirrored).collect(), ..*self }
    }

    fn cuts_right(&self, b: &Footprint) -> bool {
        let edge = self.right.x(b.y.0).max(self.right.x(b.y.1));
        let middle = (self.left.x(b.y.0) + self.right.x(b.y.0)) / 2.0;
        b.x.0 < edge && edge - b.x.1 < STRIP.0 && b.x.0 > middle && b.y.1 > self.front && b.y.0 < self.back
    }

    /// The right side from the front to the back with its notches.
    fn right_side(&self) -> Vec<Point> {
        let mut blocks: Vec<&Footprint> = self.blocks.iter().filter(|b| self.cuts_right(b)).collect();
        blocks.order_by(|a, b| a.y.0.total_cmp(&b.y.0));
        let in_front = |b: &Footprint| b.y.0 <= self.front + STRIP.1;
        let behind = |b: &Footprint| b.y.1 >= self.back - STRIP.1;
        let on_edge = |y: f64| Point::new(self.right.x(y), y);
        let mut side = Vec::new();
        if !blocks.iter().any(|b| in_front(b)) {
            side.push(on_edge(self.front));
        }
        for b in &blocks {
            let from = if in_front(b) { Point::new(b.x.0, self.front) } else { on_edge(b.y.0) };
            let to = if behind(b) { Point::new(b.x.0, self.back) } else { on_edge(b.y.1) };
            side.extend([from, Point::new(b.x.0, from.y), Point::new(b.x.0, to.y), to]);
        }
        if !blocks.iter().any(|b| behind(b)) {
            side.push(on_edge(self.back));
        }
        side.dedup_by(|a, b| (*a - *b).hypot2() < 1e-12);
        side
    }

    /// The notches of the back edge, right to left.
    fn behind(&self) -> Vec<Point> {
        let flipped = self.mirrored();
        let at_side = |b: &Footprint| self.cuts_right(b) || flipped.cuts_right(&mirrored(b));
        let mut blocks: Vec<&Footprint> = self
            .blocks
            .iter()
            .filter(|b| b.y.1 >= self.back - STRIP.1 && b.y.0 < self.back && !at_side(b))
            .collect();
        blocks.order_by(|a, b| b.x.0.total_cmp(&a.x.0));
        let inside = |b: &&Footprint| b.x.1 < self.right.x(self.back) && b.x.0 > self.left.x(self.back);
        let notch = |b: &Footprint| {
            [(b.x.1, self.back), (b.x.1, b.y.0), (b.x.0, b.y.0), (b.x.0, self.back)]
                .map(|(x, y)| Point::new(x, y))
        };
        blocks.into_iter().filter(inside).flat_map(notch).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crestrail_geometry::outline::signed_area;

    fn field(blocks: &[(f64, f64, f64, f64)]) -> Field {
        let blocks = blocks.iter().map(|b| Footprint { x: (b.0, b.1), y: (b.2, b.3) });
        let right = Edge { at: 200.0, by: 0.0 };
        Field { front: 0.0, back: 400.0, left: right.mirrored(), right, blocks: blocks.collect() }
    }

    /// By hand: 400 × 400 less what each notch takes.
    #[test]
    fn notches_take_their_area() {
        for (blocks, corners, taken) in [
            (&[][..], 4, 0.0),
            // A corner in front with the strip before and beside the leg: 50 × 60.
            (&[(150.0, 190.0, 10.0, 60.0)], 6, 3000.0),
            // A post in the right side: 40 × 30.
            (&[(160.0, 190.0, 100.0, 130.0)], 8, 1200.0),
            // Both corners behind and a leg in the middle: 2 · 30 × 40 + 20 × 40.
            (
                &[(170.0, 200.0, 360.0, 420.0), (-200.0, -170.0, 360.0, 420.0), (-10.0, 10.0, 360.0, 420.0)],
                12,
                3200.0,
            ),
            // What stands outside takes nothing.
            (&[(210.0, 250.0, 100.0, 130.0)], 4, 0.0),
        ] {
            let outline = field(blocks).outline();
            assert_eq!(outline.len(), corners, "{outline:?}");
            assert!((160_000.0 - signed_area(&outline) - taken).abs() < 1e-9, "{outline:?}");
        }
    }

    #[test]
    fn an_edge_moves_square_to_itself() {
        // A side that comes in by 3 on 4: moved by 4 it lies 5 to the right.
        let edge = Edge { at: 100.0, by: 0.75 }.moved(4.0);
        assert!((edge.at - 105.0).abs() < 1e-9 && edge.x(4.0) == edge.at - 3.0);
    }
}
