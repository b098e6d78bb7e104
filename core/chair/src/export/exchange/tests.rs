//! What the formats promise, read from the bytes; whole files are read by other programs in `tests/reference` and
//! `tests/browser`.

use super::*;
use crate::design::Design;
use crate::shop::Shop;

fn chair() -> Chair {
    Chair::resolve(&Design::default(), &Shop::demo().bench()).expect("the default chair")
}

fn file(chair: &Chair, format: Format, wanted: Wanted<'_>) -> Vec<u8> {
    exchange(chair, &Exchange { name: "O'Hara's", format, wanted, stamp: "" }).expect("a file")
}

fn word(bytes: &[u8], at: usize) -> usize {
    u32::from_le_bytes([bytes[at], bytes[at + 1], bytes[at + 2], bytes[at + 3]]) as usize
}

#[test]
fn the_same_chair_has_the_same_bytes() {
    for (_, format) in Format::NAMED {
        let wanted = Wanted::Chair;
        assert_eq!(file(&chair(), format, wanted), file(&chair(), format, wanted));
    }
}

/// Left and right of a chair that is its own mirror image share meshes, so there are fewer than pieces.
#[test]
fn pieces_made_alike_share_a_mesh() {
    let chair = chair();
    let catalogue = Catalogue::of(&chair);
    assert_eq!(catalogue.pieces.len(), chair.parts.len());
    let names: Vec<&str> = catalogue.shapes.iter().map(|s| s.name.as_str()).collect();
    // Pegs with one letter may begin at another corner.
    let several = names.iter().filter(|n| n.contains('-') && !n.starts_with('P')).count();
    assert!(several == 0 && names.len() + 10 < catalogue.pieces.len(), "{names:?}");
}

/// A piece stands in the same place, whether its place mirrors or its shape does.
#[test]
fn right_handed_places_move_nothing() {
    let chair = chair();
    let (plain, handed) = (Catalogue::of(&chair), Catalogue::right_handed(&chair));
    for (a, b) in plain.pieces.iter().zip(&handed.pieces) {
        assert!(!b.place.is_mirrored(), "{}", b.name);
        let box_of = |c: &Catalogue, p: &catalogue::Piece| c.shapes[p.shape].solid.posed(&p.place).bounds();
        let (a, b) = (box_of(&plain, a), box_of(&handed, b));
        assert!((a.low - b.low).length() < 2e-6 && (a.high - b.high).length() < 2e-6);
    }
    let names: Vec<String> = handed.rows().into_iter().map(|row| row.name).collect();
    assert!(names.contains(&"B-left".to_owned()), "a back leg is not its own mirror image: {names:?}");
    assert!(!names.contains(&"P-left".to_owned()), "a peg is: {names:?}");
}

/// An STL file is 84 bytes and 50 for each triangle.
#[test]
fn stl_tells_its_length() {
    let bytes = file(&chair(), Format::Stl, Wanted::Part("A"));
    assert_eq!(bytes.len(), 84 + 50 * word(&bytes, 80));
    assert!(!bytes.starts_with(b"solid"));
}

#[test]
fn glb_tells_its_lengths() {
    let bytes = file(&chair(), Format::Glb, Wanted::Chair);
    assert_eq!((&bytes[..4], word(&bytes, 4), word(&bytes, 8)), (&b"glTF"[..], 2, bytes.len()));
}

#[test]
fn step_names_the_design_and_no_time() {
    let bytes = file(&chair(), Format::Step, Wanted::Chair);
    let text = String::from_utf8(bytes).expect("ASCII");
    assert!(text.is_ascii() && text.contains("FILE_NAME('O''Hara''s','',"));
    assert!(text.contains("'back leg, left'"));
}

#[test]
fn unknown_parts_and_stamps_are_refused() {
    let chair = chair();
    let ask = |part: &str, stamp: &str| {
        let wanted = Wanted::Part(part);
        exchange(&chair, &Exchange { name: "", format: Format::Step, wanted, stamp }).map_err(|r| r.where_)
    };
    assert_eq!(ask("Y", ""), Err("part".to_owned()));
    assert_eq!(ask("A", "');DROP"), Err("stamp".to_owned()));
    assert!(ask("A", "2026-05-04T12:30:00").is_ok());
}
