//! Sizes of school chairs and tables, and seats for children by their stature.

use crate::{Mark, Source, Unmeasured};
use crestrail_phrases::phrase;

/// Where statures and the heights of seats and tables come from.
pub const HEIGHTS: Source =
    Source::new(Mark::Read, phrase("DIN EN 1729-1:2006 as reprinted by hansiherrmann.de; ages after SATRA"));
/// Where depths, widths and lumbar points come from: recalled only, so a hint and no more.
pub const OTHERS: Source =
    Source::new(Mark::Memory, phrase("EN 1729-1, from memory, not checked: a hint and no more"));
/// Where the lines of seat and table by stature come from.
pub const BY_STATURE: Source = Source::new(
    Mark::Computed,
    phrase(
        "lines through the six sizes of ISO 5970 as reprinted by hansiherrmann.de, statures 1050 to 1800 mm",
    ),
);

/// A size mark and what belongs to it, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SchoolSize {
    /// The size mark, 0 to 7.
    pub mark: u8,
    /// Statures it is meant for, from and to. They overlap with the next.
    pub statures: (f64, f64),
    /// Usual age, years.
    pub age: &'static str,
    /// Height of the seat above the floor.
    pub seat: f64,
    /// By how much a seat may be higher or lower.
    pub seat_tolerance: f64,
    /// Height of the table top above the floor.
    pub table: f64,
    /// By how much a table may be higher or lower.
    pub table_tolerance: f64,
    /// Depth of the seat: see [`OTHERS`].
    pub depth: f64,
    /// Least width of the seat: see [`OTHERS`].
    pub width: f64,
    /// Height of the point that supports the small of the back, above the seat: see [`OTHERS`].
    pub lumbar: f64,
}

/// The seat's height may be so much off: the same for all marks.
const SEAT_TOLERANCE: f64 = 10.0;

/// Mark, statures, age, seat, table and its tolerance; then depth, width and lumbar point from memory. The reprint gives mark 0
/// the table of mark 1 (460); 400 is from memory.
const fn row(
    mark: u8,
    statures: (f64, f64),
    age: &'static str,
    [seat, table, table_tolerance]: [f64; 3],
    [depth, width, lumbar]: [f64; 3],
) -> SchoolSize {
    SchoolSize {
        mark,
        statures,
        age,
        seat,
        seat_tolerance: SEAT_TOLERANCE,
        table,
        table_tolerance,
        depth,
        width,
        lumbar,
    }
}

/// All marks, small to large.
pub const SIZES: [SchoolSize; 8] = [
    row(0, (800.0, 950.0), "under 4", [210.0, 400.0, 10.0], [225.0, 210.0, 140.0]),
    row(1, (930.0, 1160.0), "3 to 4", [260.0, 460.0, 10.0], [250.0, 240.0, 150.0]),
    row(2, (1080.0, 1210.0), "4 to 5", [310.0, 530.0, 10.0], [270.0, 280.0, 160.0]),
    row(3, (1190.0, 1420.0), "6 to 7", [350.0, 590.0, 20.0], [300.0, 320.0, 180.0]),
    row(4, (1330.0, 1590.0), "8 to 10", [380.0, 640.0, 20.0], [340.0, 340.0, 190.0]),
    row(5, (1460.0, 1765.0), "11 to 13", [430.0, 710.0, 20.0], [380.0, 360.0, 200.0]),
    row(6, (1590.0, 1880.0), "14 to 18", [460.0, 760.0, 20.0], [420.0, 380.0, 210.0]),
    row(7, (1740.0, 2070.0), "grown up", [510.0, 820.0, 20.0], [460.0, 400.0, 220.0]),
];

/// The size with this mark.
pub fn size(mark: u8) -> Result<SchoolSize, Unmeasured> {
    SIZES.iter().copied().find(|size| size.mark == mark).ok_or(Unmeasured::SchoolMark(mark))
}

/// All sizes that are meant for this stature, mm; none outside 800 to 2070.
pub fn sizes_for(stature_mm: f64) -> impl Iterator<Item = SchoolSize> {
    SIZES.into_iter().filter(move |size| (size.statures.0..=size.statures.1).contains(&stature_mm))
}

/// Statures of the sizes of ISO 5970, mm.
const STATURES: (f64, f64) = (1050.0, 1800.0);

/// Height of the seat for a child of this stature, both mm: see [`BY_STATURE`].
pub fn seat_for(stature_mm: f64) -> Result<f64, Unmeasured> {
    Ok(4.0 * within(stature_mm)? / 15.0 - 20.0)
}

/// Height of the table top for a child of this stature, both mm: see [`BY_STATURE`].
pub fn table_for(stature_mm: f64) -> Result<f64, Unmeasured> {
    Ok(2.0 * within(stature_mm)? / 5.0 + 40.0)
}

fn within(stature_mm: f64) -> Result<f64, Unmeasured> {
    let (least, most) = STATURES;
    if (least..=most).contains(&stature_mm) {
        Ok(stature_mm)
    } else {
        Err(Unmeasured::Stature(stature_mm, least, most))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The six sizes of ISO 5970: the lines go through them exactly.
    #[test]
    fn the_lines_meet_the_printed_sizes() {
        let printed = [
            (1050.0, 260.0, 460.0),
            (1200.0, 300.0, 520.0),
            (1350.0, 340.0, 580.0),
            (1500.0, 380.0, 640.0),
            (1650.0, 420.0, 700.0),
            (1800.0, 460.0, 760.0),
        ];
        for (stature, seat, table) in printed {
            assert_eq!((seat_for(stature), table_for(stature)), (Ok(seat), Ok(table)), "{stature}");
        }
    }

    #[test]
    fn sizes_rise_and_leave_no_stature_out() {
        for (i, pair) in SIZES.windows(2).enumerate() {
            let (a, b) = (pair[0], pair[1]);
            assert_eq!(usize::from(a.mark), i);
            assert!(b.statures.0 <= a.statures.1, "no gap after {}", a.mark);
            assert!(a.seat < b.seat && a.table < b.table && a.depth < b.depth);
            assert!(a.width < b.width && a.lumbar < b.lumbar);
            assert!(a.table - a.seat < b.table - b.seat);
        }
    }

    /// The two standards are 22 years apart but agree: in the middle of a mark's statures the line is within 25 mm.
    #[test]
    fn the_line_runs_through_the_marks() {
        for size in &SIZES[2..7] {
            let middle = 0.5 * (size.statures.0 + size.statures.1);
            let seat = seat_for(middle).expect("within");
            assert!((seat - size.seat).abs() < 25.0, "mark {}: {seat}", size.mark);
        }
    }

    #[test]
    fn marks_of_a_stature() {
        let marks = |mm| sizes_for(mm).map(|size| size.mark).collect::<Vec<_>>();
        assert_eq!(marks(1400.0), [3, 4]);
        assert_eq!(marks(1750.0), [5, 6, 7]);
        assert!(marks(700.0).is_empty());
    }
}
