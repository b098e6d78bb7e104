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

/// Wood behind or beside a mortise that must do where there is no room for [`LEAST_WALL`], mm
/// (common practice, no source).
pub const CLOSE_WALL: f64 = 4.0;

/// Wood beside a mortise in the thin rails of a back and where nothing else fits, mm (common practice, no source).
pub const THIN_WALL: f64 = 2.3;

/// Greatest thickness of a tenon as a share of its stock: more leaves no shoulder to speak of
/// (common practice, no source).
pub const MOST_SHARE: f64 = 0.48;

/// The same for laths and splats, which are thin and carry little (common practice, no source).
pub const FILL_SHARE: f64 = 0.75;

/// Below this a mortise is as good as through: the design is refused, mm.
pub const NO_WALL: f64 = 2.0;

/// Wood left above a mortise at the end of a leg, mm (common practice, no source: 10–12 mm).
pub const LEAST_END: f64 = 12.0;

/// The shortest tenon worth cutting, mm (common practice, no source).
pub const LEAST_TENON: f64 = 9.0;

/// A tenon shorter than this is refused, mm (common practice, no source).
pub const SHORTEST: f64 = 6.0;

/// A mitre leaves this much of the shorter cheek at least, mm: a tenon cut away down to its shoulder is thinner there
/// than its mortise (common practice, no source).
pub const SHORTEST_CHEEK: f64 = 2.0;

/// A tenon wider than this is made as twin tenons, mm (common practice, no source: 75–100 mm).
pub const TWIN_FROM: f64 = 75.0;

/// Wood of the host left between twin mortises, mm: as much as the tenon is thick, and not less than this
/// (common practice, no source).
pub const TWIN_GAP: f64 = 8.0;

/// The narrowest of twin tenons, mm (common practice, no source).
pub const TWIN_LEAST: f64 = 14.0;

/// Wood of the leg left between two mortises that stand one above the other, mm (common practice, no source).
pub const BRIDGE: f64 = 4.0;

/// Wood of the leg left between the bottoms of two mortises from opposite sides where there is room, mm
/// (common practice, no source).
pub const OPPOSITE_WALL: f64 = 4.0;

/// The narrowest piece of a tenon worth leaving, mm (common practice, no source).
pub const LEAST_TONGUE: f64 = 5.0;

/// The shoulder that a bare-faced tenon keeps, mm (2 mm at least: Joyce, The Technique of Furniture Making).
pub const BARE_SHOULDER: f64 = 2.0;

/// How far the bare face of a tenon at an angle to its piece lies within the piece's face, mm: flush at the shoulder
/// the two faces would part in a feather edge (a choice of this program).
pub const BARE_INSET: f64 = 0.3;

/// The longest tenon of laths and splats, mm: they carry little (common practice, no source).
pub const FILL_TENON: f64 = 15.0;

/// Share of a through tenon's length to which it is sawn for wedges (common practice, no source).
pub const KERF_SHARE: f64 = 2.0 / 3.0;

/// Slope of a wedge: 1 in 10 (common practice, no source: 1:8 to 1:10).
pub const WEDGE_SLOPE: f64 = 0.1;

/// Thickness of a wedge at its tip, mm: that of a fine saw's kerf (common practice, no source).
pub const WEDGE_TIP: f64 = 0.6;

/// Tenons from this width on take two wedges, mm (common practice, no source).
pub const TWO_WEDGES: f64 = 20.0;

/// Diameters of dowels that are sold, mm (common practice, no source).
pub const DOWELS: [f64; 4] = [12.0, 10.0, 8.0, 6.0];

/// How deep a dowel goes into each of the two parts where there is room, mm (20–30 mm: common practice, no source).
pub const DOWEL_DEPTH: f64 = 28.0;

/// How much deeper its hole is than the dowel, mm, at each end (common practice, no source).
pub const DOWEL_ROOM: f64 = 2.0;

/// Wood of the guest kept around a loose tenon or dowel, mm (common practice, no source).
pub const AROUND_LOOSE: f64 = 2.0;

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
/// quarter of it to `most` (slightly over a third: Joyce; a third tested best: Oktaee et al. 2014).
/// `None` if the shop has no such cutter.
pub fn mortise_thickness(thickness: f64, share: f64, cutters: &Cutters, most: f64) -> Option<f64> {
    cutters.nearest(thickness * share, thickness * 0.25, most)
}

/// The thickness from which a tenon is reckoned: that of the stock, but of a piece much thicker than it is high,
/// such as an arm, only one and a half times its height (common practice, no source), and never more than 56 mm,
/// of which a quarter is about the widest cutter.
pub fn reckoned_thickness(thickness: f64, height: f64) -> f64 {
    thickness.min(1.5 * height).min(56.0)
}

/// Length of a tenon that meets no other: four times its thickness (three to four times: leg-to-apron
/// practice in the trade press), at most `share` of the timber it enters, and leaving [`LEAST_WALL`]
/// behind the mortise; whole millimetres. In thin hosts [`CLOSE_WALL`] must do for a tenon of [`LEAST_TENON`].
pub fn tenon_length(thickness: f64, host: f64, share: f64, glue_gap: f64) -> f64 {
    let length = (4.0 * thickness).min(share * host).min(host - LEAST_WALL - glue_gap);
    if length >= LEAST_TENON {
        return length.floor();
    }
    length.max(LEAST_TENON.min(host - CLOSE_WALL - glue_gap)).floor()
}

/// Diameter of dowels for stock of `thickness` mm in a host with `room` mm for their holes: about half (common practice,
/// no source), never more than six tenths. In descending order of preference.
pub fn dowels(thickness: f64, room: f64) -> impl Iterator<Item = f64> {
    DOWELS.into_iter().filter(move |d| *d <= 0.6 * thickness && *d <= room)
}

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
            let t = mortise_thickness(24.0, share, &cutters, 24.0 * MOST_SHARE).unwrap();
            assert!((8.0..12.0).contains(&t), "{t}");
        }
        assert_eq!(mortise_thickness(24.0, 0.34, &cutters, 24.0 * MOST_SHARE), Some(8.0));
    }

    #[test]
    fn tenon_of_a_common_leg_is_two_thirds_deep() {
        // Common practice, no source: 34 mm in a 50 mm leg is about two thirds.
        assert_eq!(tenon_length(12.0, 50.0, 0.7, 1.5), 35.0);
        assert_eq!(tenon_length(6.0, 36.0, 0.7, 1.5), 24.0);
    }

    #[test]
    fn thin_hosts_take_short_tenons() {
        assert_eq!(tenon_length(8.0, 16.0, 0.7, 1.5), 9.0);
        assert_eq!(tenon_length(8.0, 16.0, 0.7, 2.5), 9.0);
        assert_eq!(tenon_length(8.0, 13.0, 0.7, 1.5), 7.0);
    }

    /// FACTS, joint proportions: a dowel about half as thick as the stock.
    #[test]
    fn dowels_are_about_half_the_stock() {
        assert_eq!(dowels(24.0, 60.0).next(), Some(12.0));
        assert_eq!(dowels(17.0, 60.0).next(), Some(10.0));
        assert_eq!(dowels(24.0, 7.0).next(), Some(6.0));
        assert_eq!(dowels(8.0, 60.0).next(), None);
    }

    #[test]
    fn short_tenons_are_not_pegged() {
        assert_eq!(peg_from_face(15.0, 6.0), None);
        assert_eq!(peg_from_face(35.0, 6.0), Some(16.0));
        assert_eq!(peg_from_face(22.0, 6.0), Some(10.0));
    }
}
