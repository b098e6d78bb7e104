//! Carving: the union of some bodies less the union of others, as one solid.
//!
//! Every face of the result lies in the plane of a side of some body. So the sides are grouped by
//! plane, and in each plane the question is a flat one: where is the timber just below the plane and
//! not just above, and where the other way round? A body with a side in the plane is wholly on one
//! side of it there, which is decided once, when planes are grouped, and never by shifting anything.
//! Sides that touch or overlap in one plane therefore come out exactly: no slivers, no double or inner
//! walls.

use crate::coplanar::{clusters, shared_planes};
use crate::piece::{Piece, Side, prepare};
use crate::plane_frame::PlaneFrame;
use crate::polygon::{NEAR, Polygon};
use crate::region::{Region, common, subtract, union, union_of_regions};
use crate::soup::Soup;
use crate::weld::weld;
use crate::{Body, Bounds, Solid, section};
use core::fmt;
use smallvec::SmallVec;

/// Why bodies did not make a solid.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CarveError {
    /// A convex body has no end in some direction.
    Endless,
    /// A prism's outline encloses nothing, or its length is not positive.
    Outline,
    /// Nothing is left.
    Nothing,
    /// The surface has this many edges without a neighbour: two features lie nearer to each other
    /// than the welding tolerance, yet are not in the same place.
    Open(usize),
}

impl fmt::Display for CarveError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Endless => write!(f, "a body bounded by planes is endless"),
            Self::Outline => write!(f, "an outline encloses nothing"),
            Self::Nothing => write!(f, "nothing is left of the part"),
            Self::Open(edges) => write!(f, "the surface does not close along {edges} edges"),
        }
    }
}

impl core::error::Error for CarveError {}

/// The union of the bodies `added` less the union of the bodies `cut`. What lies beyond the clipping
/// planes of a prism of timber is cut from the whole.
///
/// Bodies may touch and overlap in any way; faces that lie in one plane within a millionth of a
/// millimetre are taken to lie exactly in one plane. Best called in the part's own frame, where
/// coordinates are small.
pub fn carve(added: &[Body], cut: &[Body]) -> Result<Solid, CarveError> {
    let mut work = Work::for_bodies(added.len() + cut.len());
    added.iter().try_for_each(|body| work.take(body, true))?;
    let timber = work.pieces.len();
    cut.iter().try_for_each(|body| work.take(body, false))?;
    added.iter().flat_map(Body::beyond_clips).try_for_each(|body| work.take(&body, false))?;
    let sides: Vec<usize> = (0..work.sides.len()).filter(|&i| work.matters(i, timber)).collect();
    let mut soup = Soup::for_faces(sides.len());
    for plane in shared_planes(&work.sides, &sides) {
        for cluster in clusters(&work.sides, &plane) {
            work.faces(&plane.frame, &cluster, &mut soup);
        }
    }
    weld(&soup)
}

struct Work {
    /// The timber first, then the tools.
    pieces: Vec<Piece>,
    sides: Vec<Side>,
}

/// What there is of timber and of tools in one plane, around one cluster of sides.
#[derive(Default)]
struct Layer {
    timber: Vec<Polygon>,
    tools: Vec<Polygon>,
}

impl Layer {
    fn of(&mut self, timber: bool) -> &mut Vec<Polygon> {
        if timber { &mut self.timber } else { &mut self.tools }
    }
}

impl Work {
    fn for_bodies(count: usize) -> Self {
        Self { pieces: Vec::with_capacity(count), sides: Vec::with_capacity(8 * count) }
    }

    fn take(&mut self, body: &Body, added: bool) -> Result<(), CarveError> {
        let piece = prepare(body, added, self.pieces.len(), &mut self.sides)?;
        self.pieces.push(piece);
        Ok(())
    }

    /// Whether a side can leave a face: a tool's side must come to some timber.
    fn matters(&self, side: usize, timber: usize) -> bool {
        let side = &self.sides[side];
        side.piece < timber || self.pieces[..timber].iter().any(|p| p.bounds.meets(&side.bounds, NEAR))
    }

    /// The faces of the result within a cluster of sides of one plane.
    fn faces(&self, frame: &PlaneFrame, cluster: &[usize], soup: &mut Soup) {
        if let &[only] = cluster {
            return self.lone_side(frame, &self.sides[only], soup);
        }
        let through = self.through(frame, cluster);
        let (mut below, mut above) = (Layer::default(), Layer::default());
        for &i in cluster {
            let side = &self.sides[i];
            let layer = if frame.faces(side) { &mut below } else { &mut above };
            layer.of(self.pieces[side.piece].added).push(frame.polygon(side));
        }
        soup.add_regions(&facing(&through, &below, &above), frame, false);
        soup.add_regions(&facing(&through, &above, &below), frame, true);
    }

    /// A side that no other side in its plane comes near: if of timber, it shows where nothing covers
    /// it; if of a tool, it shows (the other way round) where it runs through timber.
    fn lone_side(&self, frame: &PlaneFrame, side: &Side, soup: &mut Soup) {
        let own = self.pieces[side.piece].added;
        let near = |i: usize| i != side.piece && self.pieces[i].bounds.meets(&side.bounds, -NEAR);
        let near: SmallVec<[&Piece; 8]> =
            (0..self.pieces.len()).filter(|&i| near(i)).map(|i| &self.pieces[i]).collect();
        if near.is_empty() {
            if own {
                soup.add_side(side);
            }
            return;
        }
        let polygon = frame.polygon(side);
        let (mut timber, mut tools) = (Vec::new(), Vec::new());
        for piece in &near {
            if !piece.added && !own && timber.is_empty() {
                return;
            }
            let parts = if piece.added { &mut timber } else { &mut tools };
            section::within(piece, frame, &polygon, parts);
        }
        let shown = match own {
            true if timber.is_empty() && tools.is_empty() => return soup.add_side(side),
            true => subtract(vec![polygon.into()], timber.iter().chain(&tools)),
            false => subtract(union(timber), tools.iter()),
        };
        soup.add_regions(&shown, frame, own != frame.faces(side));
    }

    /// The pieces with their inside on both sides of the plane around the cluster.
    fn through(&self, frame: &PlaneFrame, cluster: &[usize]) -> Layer {
        let reach = cluster.iter().fold(Bounds::NOTHING, |b, &i| b.union(self.sides[i].bounds));
        let mut layer = Layer::default();
        for piece in self.pieces.iter().filter(|p| p.bounds.meets(&reach, -NEAR)) {
            section::through(piece, frame, layer.of(piece.added));
        }
        layer
    }
}

/// Where there is timber just on the `near` side of the plane and none just on the `far` side.
///
/// Timber that ends at the plane shows unless other timber or a tool covers it on either side; and a
/// tool that begins at the plane lays bare the timber before it.
fn facing(through: &Layer, near: &Layer, far: &Layer) -> Vec<Region> {
    let tools = through.tools.iter().chain(&near.tools);
    let mut ends = Vec::new();
    if !near.timber.is_empty() {
        let covers = through.timber.iter().chain(&far.timber).chain(tools.clone());
        let shows = |end: &&Polygon| !covers.clone().any(|c| c.covers(end));
        let showing = near.timber.iter().filter(shows).cloned().collect();
        ends = subtract(union(showing), covers.clone());
    }
    let mut bared = Vec::new();
    for tool in &far.tools {
        for timber in through.timber.iter().chain(&near.timber) {
            bared.extend(common(tool, timber));
        }
    }
    if bared.is_empty() {
        return ends;
    }
    union_of_regions(ends, subtract(union(bared), tools))
}

#[cfg(test)]
mod tests;
