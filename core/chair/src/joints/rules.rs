//! The rules that size a mortise and tenon, each with its source.

use super::cutters::Cutters;

/// Fit of a tenon in its mortise: play over the whole thickness and width, mm. Up to 0.1 mm either
/// way tested strongest (Elek et al. 2020; Liu et al. 2024, Forests 15:1612).
pub const FIT: f64 = 0.1;

/// Space kept between two mitred tenon ends, mm (0.5–1 mm each side, worked out from the practice
/// that they keep a small gap: Joyce, The Technique of Furniture Making).
pub const MITRE_GAP: f64 = 1.0;

/// Wood left between a mortise and the far face of its host, mm (common practice, no source).
pub const LEAST_WALL: f64 = 6.0;

/// Below this a mortise is as good as through: the design is refused, mm.
pub const NO_WALL: f64 = 2.0;

/// Wood left above a mortise at the end of a leg, mm (common practice, no source: 10–12 mm).
pub const LEAST_END: f64 = 12.0;

/// The shortest tenon worth cutting, mm (common practice, no source).
pub const LEAST_TENON: f64 = 9.0;

/// Tenons wider than this move too much against the long grain of a leg, mm
/// (common practice, no source: 75–100 mm).
pub const WIDEST_TENON: f64 = 100.0;

/// Outer shoulder of a tenon that is set outwards in its rail, mm (2 mm at least: Joyce, The
/// Technique of Furniture Making; tenons set towards the outer face so that they are longer:
/// leg-to-apron practice of the trade press).
pub const OUTER_SHOULDER: f64 = 3.0;

/// Shoulder above and below a tenon in a part `width` mm high: a tenth, from 5 to 10 mm; parts
/// lower than 40 mm get 3 mm. (5–10 mm for structural shoulders: worked out from Derikvand,
/// Ebrahimi and Eckelman 2014, where capacity rises with the shoulder.)
pub fn edge_shoulder(width: f64) -> f64 {
    if width < 40.0 { 3.0 } else { (width / 10.0).clamp(5.0, 10.0) }
}

/// Part of a corner rail's width given to the haunch at the end of a leg: one third (Joyce, The
/// Technique of Furniture Making), and never less than [`LEAST_END`].
pub fn haunch_share(width: f64) -> f64 {
    (width / 3.0).max(LEAST_END)
}

/// Thickness of the mortise for stock of `thickness` mm: the cutter nearest to `share` of it, from a
/// quarter to just under a half (slightly over a third: Joyce; a third tested best: Oktaee et al.
/// 2014; half leaves no shoulder to speak of), and at most `most` mm. `None` if the shop has no such
/// cutter.
pub fn mortise_thickness(thickness: f64, share: f64, most: f64, cutters: &Cutters) -> Option<f64> {
    cutters.nearest(thickness * share, thickness * 0.25, (thickness * 0.48).min(most))
}

/// Thickness of the mortise for a bare-faced tenon, which needs one shoulder only, and for thin stock:
/// from a quarter to four fifths (common practice, no source).
pub fn bare_thickness(thickness: f64, share: f64, most: f64, cutters: &Cutters) -> Option<f64> {
    cutters.nearest(thickness * share.max(0.6), thickness * 0.25, (thickness * 0.8).min(most))
}

/// Diameter of the dowels for stock of `thickness` mm: the cutter nearest to a half, between a third
/// and a half (a third to a half: common practice, no source).
pub fn dowel_diameter(thickness: f64, most: f64, cutters: &Cutters) -> Option<f64> {
    cutters.nearest(thickness * 0.42, thickness * 0.3, (thickness * 0.5).min(most))
}

/// Stock thinner than this has no room for two full shoulders: its tenon takes up to four fifths, mm
/// (common practice, no source).
pub const THIN: f64 = 14.0;

/// A piece much thicker than it is high, such as an arm, takes its tenon as if it were this many times
/// as thick as high, so that the tenon stays taller than it is thick.
pub const MOST_BROAD: f64 = 1.5;

/// Thicker stock takes its tenon as if it were this thick, mm: no cutter is wider than about a quarter.
pub const THICKEST: f64 = 56.0;

/// Length of a tenon that meets no other: four times its thickness (three to four times: leg-to-apron
/// practice in the trade press), at most `share` of the timber it enters, and leaving
/// [`LEAST_WALL`] behind the mortise; whole millimetres.
pub fn tenon_length(thickness: f64, host: f64, glue_gap: f64, share: f64) -> f64 {
    (4.0 * thickness).min(share * host).min(host - LEAST_WALL - glue_gap).floor()
}

/// Tenons wider than this become twins with [`TWIN_GAP`] of their width between them, mm, so that each
/// moves little against the leg's grain (common practice, no source: a tenon up to 75 mm).
pub const TWIN_FROM: f64 = 84.0;

/// Share of the width left between twin tenons (common practice, no source: a fifth to a third).
pub const TWIN_GAP: f64 = 0.2;

/// The least height of a tenon that passes another, mm (common practice, no source).
pub const LEAST_PASS: f64 = 10.0;

/// Distance from the mouth of the mortise to the middle of a peg of `size`, for a tenon of `length`:
/// at most 16 mm, at least one and a half pegs from the shoulder, two pegs from the tenon's end where
/// there is room (16 mm: craft texts; distances: common practice, no source). `None` where the tenon
/// is too short to be pegged.
pub fn peg_from_face(length: f64, size: f64) -> Option<f64> {
    let least = 1.5 * size;
    let most = length - 1.2 * size;
    (most >= least).then(|| (length - 2.0 * size).min(16.0).clamp(least, most))
}

/// Middles of the pegs across a tenon `width` mm wide: two for wide tenons, which hold them from
/// turning, else one (craft texts; pegs up to a quarter of the tenon's width).
pub fn pegs_across(width: f64, size: f64) -> Vec<f64> {
    if width >= 7.0 * size { vec![-width / 4.0, width / 4.0] } else { vec![0.0] }
}

/// Play of a peg in its hole on each side, mm: a peg is driven and its corners or fibres give way;
/// the hole is drawn wider by this so that peg and hole are told apart (a choice of this program).
pub const PEG_PLAY: f64 = 0.02;

/// Room between the end of a peg and the bottom of its hole, mm (common practice, no source).
pub const PEG_BOTTOM: f64 = 1.0;

/// How far a peg goes on beyond the tenon, mm (common practice, no source).
pub const PEG_BEYOND: f64 = 3.0;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rail_of_24_takes_a_tenon_between_a_third_and_a_half() {
        let cutters = Cutters::default();
        for share in [0.33, 0.38, 0.46] {
            let t = mortise_thickness(24.0, share, 99.0, &cutters).unwrap();
            assert!((8.0..12.0).contains(&t), "{t}");
        }
        assert_eq!(mortise_thickness(24.0, 0.34, 99.0, &cutters), Some(8.0));
    }

    #[test]
    fn tenon_of_a_common_leg_is_two_thirds_deep() {
        // Common practice, no source: 34 mm in a 50 mm leg is about two thirds.
        assert_eq!(tenon_length(12.0, 50.0, 1.5, 0.7), 35.0);
        assert_eq!(tenon_length(6.0, 36.0, 1.5, 0.7), 24.0);
    }

    #[test]
    fn short_tenons_are_not_pegged() {
        assert_eq!(peg_from_face(15.0, 6.0), None);
        assert_eq!(peg_from_face(35.0, 6.0), Some(16.0));
        assert_eq!(peg_from_face(22.0, 6.0), Some(10.0));
    }
}
