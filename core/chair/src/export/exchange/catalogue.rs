//! Which shapes a chair has, and where each of them stands: pieces that are made alike share one.

use super::Wanted;
use crate::chair::Chair;
use crate::material::Material;
use crate::part::Part;
use crate::refusal::Refusal;
use crestrail_geometry::{Place, Solid, Vec3};
use crestrail_sorting::Order as _;
use serde::Serialize;
use std::sync::Arc;

/// Corners this near are the same, mm: a tenth of what welding sets them apart.
const SAME: f64 = 1e-6;

/// A shape in its own frame: x along the length, y across the width, z through the thickness, mm.
#[derive(Clone, Debug)]
pub(super) struct Shape {
    /// Its own among all shapes: letters, digits and hyphens, such as `B` or `B-left`.
    pub(super) name: String,
    /// What it is, such as `back leg`.
    pub(super) title: String,
    pub(super) material: Material,
    pub(super) solid: Arc<Solid>,
}

/// One piece of the chair.
#[derive(Clone, Debug)]
pub(super) struct Piece {
    /// Which of the shapes it has.
    pub(super) shape: usize,
    /// Such as `back leg, left`.
    pub(super) name: String,
    pub(super) letter: String,
    /// Where it stands in the chair.
    pub(super) place: Place,
}

/// All shapes and all pieces; the pieces in the order of their ids.
#[derive(Clone, Debug)]
pub(super) struct Catalogue {
    pub(super) shapes: Vec<Shape>,
    pub(super) pieces: Vec<Piece>,
}

/// A shape that can be taken away by itself.
#[derive(Clone, Debug, Serialize)]
pub struct ShapeRow {
    /// Its name among the shapes: the letter, where need be with a number or a side.
    pub name: String,
    /// What it is.
    pub title: String,
    /// How many of it are in the chair.
    pub count: usize,
}

impl Catalogue {
    /// Left pieces are mirror images: their places are left-handed and they share the right one's shape.
    pub(super) fn of(chair: &Chair) -> Self {
        let mut catalogue = Self { shapes: Vec::new(), pieces: Vec::new() };
        for (part, body) in chair.pieces() {
            let shape = catalogue.shape_of(part, &body.solid);
            let (name, letter) = (part.id.to_string(), part.letter.clone());
            catalogue.pieces.push(Piece { shape, name, letter, place: part.place });
        }
        catalogue
    }

    /// The same with right-handed places only: a mirrored piece gets a shape of its own, unless its shape is its own
    /// mirror image.
    pub(super) fn right_handed(chair: &Chair) -> Self {
        let Self { shapes, pieces } = Self::of(chair);
        let mut made = Self { shapes: shapes.clone(), pieces: Vec::with_capacity(pieces.len()) };
        let own: Vec<Option<Place>> = shapes.iter().map(|shape| own_mirror(&shape.solid)).collect();
        let mut left: Vec<Option<usize>> = vec![None; shapes.len()];
        for piece in pieces {
            let turned = match (piece.place.is_mirrored(), own[piece.shape]) {
                (false, _) => piece,
                (true, Some(mirror)) => Piece { place: piece.place.place(&mirror), ..piece },
                (true, None) => {
                    let shape = *left[piece.shape].get_or_insert_with(|| {
                        made.shapes.push(shapes[piece.shape].mirrored());
                        made.shapes.len() - 1
                    });
                    Piece { shape, place: piece.place.place(&FLIPPED), ..piece }
                }
            };
            made.pieces.push(turned);
        }
        made
    }

    /// What can be taken away by itself.
    pub(super) fn rows(&self) -> Vec<ShapeRow> {
        let count = |i: usize| self.pieces.iter().filter(|piece| piece.shape == i).count();
        let row = |(i, shape): (usize, &Shape)| ShapeRow {
            name: shape.name.clone(),
            title: shape.title.clone(),
            count: count(i),
        };
        let mut rows: Vec<ShapeRow> = self.shapes.iter().enumerate().map(row).collect();
        rows.retain(|row| row.count > 0);
        rows.order_by(|a, b| a.name.cmp(&b.name));
        rows
    }

    /// The whole of it, or one shape alone in its own frame.
    pub(super) fn only(self, wanted: Wanted<'_>) -> Result<Self, Refusal> {
        let Wanted::Part(name) = wanted else { return Ok(self) };
        let found = self.shapes.iter().position(|shape| shape.name == name);
        let Some(shape) = found.filter(|i| self.pieces.iter().any(|piece| piece.shape == *i)) else {
            let names: Vec<String> = self.rows().into_iter().map(|row| row.name).collect();
            let why = format!("There is no part \"{name}\" in this chair; it has {}.", names.join(", "));
            return Err(Refusal::new("part", why));
        };
        let letter = self.pieces.iter().find(|piece| piece.shape == shape).map(|piece| piece.letter.clone());
        let shape = self.shapes[shape].clone();
        let name = shape.title.clone();
        let piece = Piece { shape: 0, name, letter: letter.unwrap_or_default(), place: Place::HOME };
        Ok(Self { shapes: vec![shape], pieces: vec![piece] })
    }

    fn shape_of(&mut self, part: &Part, solid: &Arc<Solid>) -> usize {
        let alike = |shape: &Shape| shape.material == part.material && is_same(&shape.solid, solid);
        // Pieces with one letter are made alike, which tells hundredths of a mm and not where corners are counted from.
        let of_letter = |shape: &Shape| shape.name.split('-').next() == Some(part.letter.as_str());
        if let Some(found) = self.shapes.iter().position(|shape| of_letter(shape) && alike(shape)) {
            return found;
        }
        let others = self.shapes.iter().filter(|shape| of_letter(shape)).count();
        let name = if others == 0 { part.letter.clone() } else { format!("{}-{}", part.letter, others + 1) };
        let title = part.id.role.name().to_owned();
        self.shapes.push(Shape { name, title, material: part.material, solid: solid.clone() });
        self.shapes.len() - 1
    }
}

/// A frame whose z runs the other way.
const FLIPPED: Place = Place { z: Vec3::new(0.0, 0.0, -1.0), ..Place::HOME };

impl Shape {
    fn mirrored(&self) -> Self {
        Self {
            name: format!("{}-left", self.name),
            title: format!("{}, left", self.title),
            material: self.material,
            solid: Arc::new(self.solid.posed(&FLIPPED)),
        }
    }
}

/// Whether two solids have the same faces with the same corners.
fn is_same(a: &Solid, b: &Solid) -> bool {
    let near = |(p, q): (&Vec3, &Vec3)| (*p - *q).length() <= SAME;
    let rings =
        |s: &Solid| s.faces.iter().flat_map(|f| &f.rings).map(|r| r.corners.clone()).collect::<Vec<_>>();
    a.vertices.len() == b.vertices.len()
        && a.vertices.iter().zip(&b.vertices).all(near)
        && a.faces.len() == b.faces.len()
        && rings(a) == rings(b)
}

/// The left-handed frame in which the solid looks as it does in its own, if there is one: mirrored along one of its axes.
fn own_mirror(solid: &Solid) -> Option<Place> {
    let middle = solid.bounds().middle();
    let mirrors = [
        Place { x: -Vec3::X, origin: Vec3::new(2.0 * middle.x, 0.0, 0.0), ..Place::HOME },
        Place { y: -Vec3::Y, origin: Vec3::new(0.0, 2.0 * middle.y, 0.0), ..Place::HOME },
        Place { z: -Vec3::Z, origin: Vec3::new(0.0, 0.0, 2.0 * middle.z), ..Place::HOME },
    ];
    mirrors.into_iter().find(|mirror| {
        let image = solid.posed(mirror);
        faces_by_middle(&image).iter().zip(&faces_by_middle(solid)).all(|(a, b)| is_same_face(a, b))
    })
}

/// Middle of the corners, normal, and area of a face.
type FaceMark = (Vec3, Vec3, f64);

fn faces_by_middle(solid: &Solid) -> Vec<FaceMark> {
    let mark = |face: &crestrail_geometry::Face| {
        let corners: Vec<Vec3> =
            face.rings.iter().flat_map(|r| &r.corners).map(|&c| solid.vertices[c as usize]).collect();
        let sum = corners.iter().fold(Vec3::ZERO, |sum, &c| sum + c);
        (sum / corners.len() as f64, face.normal, solid.face_area(face))
    };
    let mut marks: Vec<FaceMark> = solid.faces.iter().map(mark).collect();
    let key = |m: &FaceMark| [m.0.x, m.0.y, m.0.z, m.1.x, m.1.y, m.1.z].map(|v| (v * 1e4).round() as i64);
    marks.order_by_key(key);
    marks
}

fn is_same_face(a: &FaceMark, b: &FaceMark) -> bool {
    (a.0 - b.0).length() <= SAME && (a.1 - b.1).length() <= SAME && (a.2 - b.2).abs() <= SAME * (1.0 + a.2)
}
