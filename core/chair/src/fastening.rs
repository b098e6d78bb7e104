//! Pegs, loose tenons, dowels and wedges as parts of the chair.

use crate::design::Design;
use crate::joint::Joint;
use crate::lettering;
use crate::material::Material;
use crate::part::{Part, PartId, Size};
use crestrail_geometry::{Body, Place};

/// What holds a joint, before it has a letter.
struct Piece<'a> {
    id: PartId,
    place: Place,
    size: Size,
    body: &'a Body,
}

/// The pegs and other inserts as parts; those of one role and size share a letter.
pub(crate) fn parts(design: &Design, joints: &[Joint]) -> Vec<Part> {
    let pieces: Vec<Piece<'_>> = joints.iter().flat_map(of).collect();
    let letters = |piece: &Piece<'_>| letter(piece, &pieces);
    pieces.iter().map(|piece| part(design, piece, letters(piece))).collect()
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

/// Fasteners are told apart to a tenth of a millimetre.
fn tenths(size: &Size) -> [i64; 3] {
    [size.length, size.width, size.thickness].map(|v| (v * 10.0).round() as i64)
}

fn letter(piece: &Piece<'_>, all: &[Piece<'_>]) -> String {
    let alike = all.iter().filter(|p| p.id.role == piece.id.role);
    let mut sizes: Vec<[i64; 3]> = alike.map(|p| tenths(&p.size)).collect();
    sizes.sort_unstable();
    sizes.dedup();
    let letter = lettering::of(piece.id.role);
    match sizes.binary_search(&tenths(&piece.size)) {
        Ok(place) if sizes.len() > 1 => format!("{letter}{}", place + 1),
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
