//! glTF 2.0 as one binary file (Khronos, "glTF 2.0 Specification", ISO/IEC 12113:2022): a head, JSON, and the numbers.
//!
//! One mesh for each shape, in metres in the shape's own frame; a node for each piece turns y up and stands it in its
//! place. A left piece mirrors its node, which the specification allows: a negative determinant turns triangles over.
//! Every face has its own corners with its own normal, so that edges stay sharp.

use super::catalogue::{Catalogue, Piece, Shape};
use crate::drawing::colour_of;
use crate::material::Material;
use crestrail_geometry::{Vec3, math};
use crestrail_sheet::Colour;
use crestrail_sorting::Order as _;
use serde_json::{Value, json};

/// Kinds of numbers and of buffer views (section 5.1 and 5.11).
const FLOAT: u32 = 5126;
const UNSIGNED_INT: u32 = 5125;
const VERTICES: u32 = 34962;
const INDICES: u32 = 34963;
/// "glTF", "JSON" and "BIN" as the numbers that mark file and chunks (section 4.4).
const MAGIC: u32 = 0x4654_6c67;
const JSON: u32 = 0x4e4f_534a;
const BIN: u32 = 0x004e_4942;

const METRES: f64 = 1e-3;
/// Planed and oiled timber shines little; chosen by eye.
const ROUGHNESS: f64 = 0.65;

/// The file.
pub(super) fn write(catalogue: &Catalogue, title: &str) -> Vec<u8> {
    let mut numbers = Numbers::default();
    let mut materials: Vec<Material> = Vec::new();
    let meshes: Vec<Value> =
        catalogue.shapes.iter().map(|shape| mesh(shape, &mut numbers, &mut materials)).collect();
    let mut nodes: Vec<Value> = catalogue.pieces.iter().map(node).collect();
    let children: Vec<usize> = (0..nodes.len()).collect();
    nodes.push(json!({"name": title, "children": children}));
    let text = json!({
        "asset": {"version": "2.0", "generator": "Crestrail"},
        "scene": 0,
        "scenes": [{"name": title, "nodes": [nodes.len() - 1]}],
        "nodes": nodes,
        "meshes": meshes,
        "materials": materials.iter().map(|m| material(*m)).collect::<Vec<_>>(),
        "accessors": numbers.accessors,
        "bufferViews": numbers.views,
        "buffers": [{"byteLength": numbers.bytes.len()}],
    });
    packed(text.to_string().into_bytes(), numbers.bytes)
}

/// Bytes with what tells how to read them.
#[derive(Default)]
struct Numbers {
    bytes: Vec<u8>,
    views: Vec<Value>,
    accessors: Vec<Value>,
}

impl Numbers {
    fn vectors(&mut self, vectors: &[[f32; 3]]) -> usize {
        let data = vectors.iter().flatten().flat_map(|c| c.to_le_bytes());
        let view = self.view(data, VERTICES);
        let row = json!({"bufferView": view, "componentType": FLOAT, "count": vectors.len(), "type": "VEC3"});
        self.accessor(row)
    }

    /// Positions tell their box (section 3.7.2.1).
    fn positions(&mut self, positions: &[[f32; 3]]) -> usize {
        let made = self.vectors(positions);
        let reach = |pick: fn(f32, f32) -> f32, start: f32| {
            positions.iter().fold([start; 3], |so_far, p| core::array::from_fn(|i| pick(so_far[i], p[i])))
        };
        self.accessors[made]["min"] = json!(reach(f32::min, f32::INFINITY));
        self.accessors[made]["max"] = json!(reach(f32::max, f32::NEG_INFINITY));
        made
    }

    fn indices(&mut self, indices: &[u32]) -> usize {
        let view = self.view(indices.iter().flat_map(|i| i.to_le_bytes()), INDICES);
        let row = json!({"bufferView": view, "componentType": UNSIGNED_INT, "count": indices.len(), "type": "SCALAR"});
        self.accessor(row)
    }

    /// All numbers have four bytes, so every view begins where it must.
    fn view(&mut self, data: impl Iterator<Item = u8>, target: u32) -> usize {
        let start = self.bytes.len();
        self.bytes.extend(data);
        let length = self.bytes.len() - start;
        self.views.push(json!({"buffer": 0, "byteOffset": start, "byteLength": length, "target": target}));
        self.views.len() - 1
    }

    fn accessor(&mut self, row: Value) -> usize {
        self.accessors.push(row);
        self.accessors.len() - 1
    }
}

fn mesh(shape: &Shape, numbers: &mut Numbers, materials: &mut Vec<Material>) -> Value {
    let (mut positions, mut normals, mut indices) = (Vec::new(), Vec::new(), Vec::new());
    let solid = &shape.solid;
    for (face, triangles) in solid.faces.iter().zip(solid.triangles_by_face()) {
        let first = positions.len();
        let mut corners: Vec<u32> = face.rings.iter().flat_map(|r| r.corners.iter().copied()).collect();
        corners.order();
        corners.dedup();
        positions.extend(corners.iter().map(|&c| single(solid.vertices[c as usize] * METRES)));
        normals.resize(positions.len(), single(face.normal));
        let index = |c: u32| (first + corners.partition_point(|&k| k < c)) as u32;
        indices.extend(triangles.iter().flatten().map(|&c| index(c)));
    }
    let material = materials.iter().position(|m| *m == shape.material).unwrap_or_else(|| {
        materials.push(shape.material);
        materials.len() - 1
    });
    let attributes = json!({"POSITION": numbers.positions(&positions), "NORMAL": numbers.vectors(&normals)});
    let primitive =
        json!({"attributes": attributes, "indices": numbers.indices(&indices), "material": material});
    json!({"name": format!("{} {}", shape.name, shape.title), "primitives": [primitive]})
}

fn single(v: Vec3) -> [f32; 3] {
    // Adding zero takes the sign off a negative one.
    [v.x, v.y, v.z].map(|c| c as f32 + 0.0)
}

/// Four columns: where the piece's axes and origin go.
fn node(piece: &Piece) -> Value {
    let place = &piece.place;
    let columns = [(place.x, 0.0), (place.y, 0.0), (place.z, 0.0), (place.origin * METRES, 1.0)];
    let matrix: Vec<f64> = columns.iter().flat_map(|&(v, w)| [v.x + 0.0, v.z + 0.0, 0.0 - v.y, w]).collect();
    json!({"name": piece.name, "mesh": piece.shape, "matrix": matrix, "extras": {"letter": piece.letter}})
}

fn material(material: Material) -> Value {
    let Colour { red, green, blue } = colour_of(material);
    let [r, g, b] = [red, green, blue].map(linear);
    json!({
        "name": material.name(),
        "pbrMetallicRoughness": {"baseColorFactor": [r, g, b, 1.0], "metallicFactor": 0.0, "roughnessFactor": ROUGHNESS},
    })
}

/// A channel of sRGB as light (IEC 61966-2-1), to four decimals.
fn linear(channel: u8) -> f64 {
    let c = f64::from(channel) / 255.0;
    let light = if c <= 0.040_45 { c / 12.92 } else { math::pow((c + 0.055) / 1.055, 2.4) };
    (light * 1e4).round() / 1e4
}

/// Head and two chunks, each filled up to four bytes: JSON with spaces, numbers with zeros.
fn packed(mut text: Vec<u8>, mut numbers: Vec<u8>) -> Vec<u8> {
    text.resize(text.len().next_multiple_of(4), b' ');
    numbers.resize(numbers.len().next_multiple_of(4), 0);
    let whole = 12 + 8 + text.len() + 8 + numbers.len();
    let mut out = Vec::with_capacity(whole);
    let words = |out: &mut Vec<u8>, words: &[u32]| out.extend(words.iter().flat_map(|w| w.to_le_bytes()));
    words(&mut out, &[MAGIC, 2, whole as u32, text.len() as u32, JSON]);
    out.extend(text);
    words(&mut out, &[numbers.len() as u32, BIN]);
    out.extend(numbers);
    out
}
