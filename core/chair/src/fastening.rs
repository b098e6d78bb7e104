//! Pegs, loose tenons, dowels and wedges as parts of the chair.

use crate::design::Design;
use crate::joint::Joint;
use crate::lettering;
use crate::material::Material;
use crate::part::{Part, PartId, Role, Size};
use crestrail_geometry::{Body, Place, Plane};
use crestrail_sorting::Order as _;

/// What holds a joint, before it has a letter.
struct Piece<'a> {
    id: PartId,
    place: Place,
    size: Size,
    body: &'a Body,
}

/// The pegs and other inserts as parts; those made alike share a letter.
pub(crate) fn parts(design: &Design, joints: &[Joint]) -> Vec<Part> {
    let pieces: Vec<Piece<'_>> = joints.iter().flat_map(of).collect();
    let makes: Vec<(Role, Make)> = pieces.iter().map(|piece| (piece.id.role, make(piece))).collect();
    pieces.iter().zip(&makes).map(|(piece, make)| part(design, piece, letter(make, &makes))).collect()
}

fn of(joint: &Joint) -> Vec<Piece<'_>> {
    let pegs = joint.pegs.iter().map(|peg| Piece {
        id: peg.id,
        place: peg.place,
        size: Size { length: peg.length, width: peg.size, thickness: peg.size },
        body: &peg.body,
    });
    let others = joint.inserts.iter().map(|f| Piece {
        id: f.id,
        place: f.place,
        size: Size { length: f.size[0], width: f.size[1], thickness: f.size[2] },
        body: &f.body,
    });
    pegs.chain(others).collect()
}

/// What one has to know to make a fastener, to a tenth of a millimetre. Loose tenons are told apart by the mitre of
/// their ends too; pegs, dowels and wedges are cut square, and trimmed once they are driven.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Make {
    size: [i64; 3],
    ends: Vec<[i64; 4]>,
}

fn make(piece: &Piece<'_>) -> Make {
    let Size { length, width, thickness } = piece.size;
    let mut ends = match piece.body.local_to(&piece.place) {
        Body::Convex(planes) if piece.id.role == Role::LooseTenon => planes.iter().map(end).collect(),
        _ => Vec::new(),
    };
    ends.order();
    Make { size: [length, width, thickness].map(tenths), ends }
}

fn end(plane: &Plane) -> [i64; 4] {
    let n = plane.normal * 100.0;
    [tenths(n.x), tenths(n.y), tenths(n.z), tenths(plane.offset)]
}

fn tenths(v: f64) -> i64 {
    (v * 10.0).round() as i64
}

fn letter(own: &(Role, Make), all: &[(Role, Make)]) -> String {
    let mut makes: Vec<&Make> = all.iter().filter(|(role, _)| *role == own.0).map(|(_, make)| make).collect();
    makes.order();
    makes.dedup();
    let letter = lettering::of(own.0);
    match makes.binary_search(&&own.1) {
        Ok(place) if makes.len() > 1 => format!("{letter}{}", place + 1),
        _ => letter.to_owned(),
    }
}

fn part(design: &Design, piece: &Piece<'_>, letter: String) -> Part {
    Part {
        id: piece.id,
        letter,
        material: Material::Timber(design.species()),
        place: piece.place,
        stock: piece.body.local_to(&piece.place),
        core: [-piece.size.width / 2.0, piece.size.width / 2.0],
        size: piece.size,
        sawn_to_outline: false,
    }
}
