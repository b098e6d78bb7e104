//! The bodies of the assembled chair as plain polygons.

use crestrail_chair::chair::Chair;
use serde::Serialize;

/// One body of the assembled chair.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct BodyRow {
    part: String,
    role: crestrail_chair::part::Role,
    letter: String,
    quantity: u32,
    /// Corners in chair space, mm.
    vertices: Vec<[f64; 3]>,
    /// Simple polygons without holes, counter-clockwise seen from outside.
    faces: Vec<Vec<u32>>,
    volume_mm3: f64,
    mass_kg: f64,
}

/// One row for each body.
pub(crate) fn rows(chair: &Chair) -> Vec<BodyRow> {
    let row = |(part, body): (&crestrail_chair::part::Part, &crestrail_chair::chair::PartBody)| {
        let posed = body.solid.posed(&part.place);
        BodyRow {
            part: part.id.to_string(),
            role: part.id.role,
            letter: part.letter.clone(),
            quantity: 1,
            vertices: posed.vertices.iter().map(|v| [v.x, v.y, v.z]).collect(),
            faces: posed.simple_faces(),
            volume_mm3: body.volume,
            mass_kg: part.material.mass(body.volume),
        }
    };
    chair.pieces().map(row).collect()
}
