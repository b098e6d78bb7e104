//! The rules that size joints, held to figures worked out by hand on both sides of each limit.

use crate::joint::Tongue;
use crate::joints::cutters::Cutters;
use crate::joints::rules::{
    edge_shoulder, haunch_share, mortise_thickness, peg_from_face, pegs_across, reckoned_thickness,
    tenon_length,
};
use crate::joints::separate::dowels;

#[test]
fn shoulders_grow_with_the_part_between_their_limits() {
    let table = [(39.9, 3.0), (40.0, 5.0), (50.0, 5.0), (64.0, 6.4), (100.0, 10.0), (140.0, 10.0)];
    for (width, wanted) in table {
        assert!((edge_shoulder(width) - wanted).abs() < 1e-12, "{width}");
    }
    assert_eq!([30.0, 36.0, 60.0, 90.0].map(haunch_share), [12.0, 12.0, 20.0, 30.0]);
}

#[test]
fn thick_low_pieces_and_stout_ones_are_reckoned_thinner() {
    let table = [(24.0, 64.0, 24.0), (60.0, 30.0, 45.0), (70.0, 80.0, 56.0), (45.0, 30.0, 45.0)];
    for (thickness, height, wanted) in table {
        assert_eq!(reckoned_thickness(thickness, height), wanted, "{thickness} × {height}");
    }
}

/// Four times the thickness, a share of the host, or what leaves the wall: whichever is least.
#[test]
fn a_tenon_is_as_long_as_the_first_limit_allows() {
    assert_eq!(tenon_length(8.0, 100.0, 0.7, 1.5), 32.0, "four times its thickness");
    assert_eq!(tenon_length(16.0, 60.0, 0.5, 1.5), 30.0, "a share of the host");
    assert_eq!(tenon_length(16.0, 40.0, 0.9, 1.5), 32.0, "40 − 6 − 1.5, in whole millimetres");
    assert_eq!(tenon_length(8.0, 17.0, 0.9, 2.0), 9.0, "just the least tenon");
    assert_eq!(tenon_length(8.0, 14.0, 0.9, 1.0), 9.0, "the close wall must do");
    assert_eq!(tenon_length(8.0, 13.0, 0.9, 1.0), 8.0);
}

#[test]
fn the_nearest_cutter_within_its_limits_is_taken() {
    let cutters = Cutters::new(&[10.0, 6.0, f64::NAN, -3.0, 8.0, 0.0]);
    assert_eq!(cutters.nearest(7.0, 5.0, 12.0), Some(6.0), "the smaller of two equally near");
    assert_eq!(cutters.nearest(7.0, 6.5, 12.0), Some(8.0));
    assert_eq!(cutters.nearest(20.0, 5.0, 9.9), Some(8.0));
    assert_eq!(cutters.nearest(6.0, 6.0, 6.0), Some(6.0), "the limits are allowed");
    assert_eq!(cutters.nearest(7.0, 11.0, 12.0), None);
    assert_eq!(
        (0..4).map(|i| cutters.smaller(10.0, i, 6.0)).collect::<Vec<_>>(),
        [Some(10.0), Some(8.0), Some(6.0), None]
    );
    assert_eq!(cutters.smaller(10.0, 2, 7.0), None);
    assert_eq!(mortise_thickness(24.0, 0.34, &cutters, 9.0), Some(8.0));
    assert_eq!(mortise_thickness(48.0, 0.2, &cutters, 9.0), None, "less than a quarter of the stock");
}

#[test]
fn pegs_stand_where_they_hold() {
    assert_eq!(
        peg_from_face(16.2, 6.0),
        Some(9.0),
        "just long enough: one and a half pegs from the shoulder"
    );
    assert_eq!(peg_from_face(16.1, 6.0), None);
    assert_eq!(peg_from_face(60.0, 6.0), Some(16.0));
    assert_eq!(peg_from_face(24.0, 6.0), Some(12.0), "two pegs from the end");
    assert_eq!(peg_from_face(60.0, 12.0), Some(18.0), "a thick one further in");
    assert_eq!(pegs_across(41.9, 6.0), [0.0]);
    assert_eq!(pegs_across(42.0, 6.0), [-10.5, 10.5]);
}

/// One at each edge, and never over each other.
#[test]
fn dowels_stand_at_the_edges_of_what_a_tenon_would_be() {
    let whole = |low: f64, high: f64| Tongue { y: [low, high], from: 0.0, to: 30.0 };
    let spans = |tongue: Tongue, host: f64| -> Vec<([f64; 2], f64)> {
        dowels(tongue, 10.0, host).into_iter().map(|dowel| (dowel.y, dowel.to)).collect()
    };
    assert_eq!(spans(whole(-30.0, 25.0), 50.0), [([-30.0, -20.0], 28.0), ([15.0, 25.0], 28.0)]);
    assert_eq!(spans(whole(-4.0, 4.0), 50.0), [([-10.0, 0.0], 28.0), ([0.0, 10.0], 28.0)]);
    // 30 mm less the wall of 6 and the room of 2; 14 mm less the close wall of 4 and 2.
    assert_eq!(spans(whole(-30.0, 25.0), 30.0)[0].1, 22.0);
    assert_eq!(spans(whole(-30.0, 25.0), 14.0)[0].1, 8.0);
}
