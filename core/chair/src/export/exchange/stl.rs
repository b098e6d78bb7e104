//! STL, binary: 80 bytes of words, the number of triangles, and for each its normal, its corners and two bytes of nothing;
//! little-endian floats of 32 bits. The format was never made a standard; this is how its readers take it.

use super::catalogue::Catalogue;
use crestrail_geometry::Vec3;

const HEAD: usize = 80;

/// All pieces where they stand, mm, z up.
pub(super) fn write(catalogue: &Catalogue, title: &str) -> Vec<u8> {
    let mut out = head(title);
    let mut count: u32 = 0;
    for piece in &catalogue.pieces {
        let solid = catalogue.shapes[piece.shape].solid.posed(&piece.place);
        for (face, triangles) in solid.faces.iter().zip(solid.triangles_by_face()) {
            for triangle in triangles {
                let corners = triangle.map(|c| solid.vertices[c as usize]);
                core::iter::once(face.normal).chain(corners).for_each(|v| push(&mut out, v));
                out.extend([0, 0]);
                count += 1;
            }
        }
    }
    out[HEAD..HEAD + 4].copy_from_slice(&count.to_le_bytes());
    out
}

/// The words and room for the number. Some readers take a file for text if it begins with "solid".
fn head(title: &str) -> Vec<u8> {
    let plain = |c: char| if c.is_ascii() && !c.is_ascii_control() { c } else { '?' };
    let words: String = format!("Crestrail, mm, z up: {title}").chars().map(plain).take(HEAD).collect();
    let mut out = words.into_bytes();
    out.resize(HEAD, b' ');
    out.resize(HEAD + 4, 0);
    out
}

fn push(out: &mut Vec<u8>, v: Vec3) {
    for c in [v.x, v.y, v.z] {
        out.extend((c as f32 + 0.0).to_le_bytes());
    }
}
