//! How many sheets a drawing takes, which way up they lie, and where each of them begins.

use super::{FOOT, MARGIN, OVERLAP};
use crate::paper::Paper;
use kurbo::{Point, Rect, Size};

/// The longest piece of a roll, mm: what every reader of PDF files must show (ISO 32000-1, annex C: 14400/72 inches).
const LONGEST: f64 = 5080.0;
/// A piece of a roll is at least so long, mm, so that the bars and the words have room.
const SHORTEST: f64 = 280.0;

/// A drawing's sheets of paper, all of one size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Layout {
    /// Size of each sheet of paper, mm.
    pub page: Size,
    /// How many sheets below each other.
    pub rows: usize,
    /// How many sheets beside each other.
    pub columns: usize,
    /// Size of the drawing, mm.
    pub drawing: Size,
}

impl Layout {
    /// The layout with the fewest sheets, upright or on their sides; of two with as many, the one with less paper, then
    /// the one that lies as the drawing does.
    pub fn of(drawing: Size, paper: &Paper) -> Self {
        let both = [false, true].map(|lies| Self::one_way(drawing, paper, lies));
        let cost = |layout: &Self| (layout.count(), layout.page.area());
        let [upright, lying] = both;
        let lies = drawing.width > drawing.height;
        let (first, second) = if lies { (lying, upright) } else { (upright, lying) };
        if cost(&second) < cost(&first) { second } else { first }
    }

    fn one_way(drawing: Size, paper: &Paper, lies: bool) -> Self {
        let borders = Size::new(2.0 * MARGIN, 2.0 * MARGIN + FOOT);
        let along = if lies { drawing.width + borders.width } else { drawing.height + borders.height };
        let long = paper.long.unwrap_or(along.clamp(SHORTEST, LONGEST));
        let page = if lies { Size::new(long, paper.short) } else { Size::new(paper.short, long) };
        let count = |size: f64, window: f64| {
            // A drawing that fits to a hair fits.
            (((size - OVERLAP - 1e-6) / (window - OVERLAP)).ceil()).max(1.0) as usize
        };
        let window = page - borders;
        let (rows, columns) = (count(drawing.height, window.height), count(drawing.width, window.width));
        Self { page, rows, columns, drawing }
    }

    /// How many sheets there are.
    pub fn count(&self) -> usize {
        self.rows * self.columns
    }

    /// Where each sheet shows the drawing.
    pub fn window(&self) -> Rect {
        Rect::new(MARGIN, MARGIN, self.page.width - MARGIN, self.page.height - MARGIN - FOOT)
    }

    /// The point of the drawing in the upper left corner of a sheet's window; the drawing lies in the middle of them all.
    pub fn from(&self, (row, column): (usize, usize)) -> Point {
        let window = self.window().size();
        let start = |size: f64, window: f64, count: usize, i: usize| {
            let step = window - OVERLAP;
            let whole = step * (count - 1) as f64 + window;
            (size - whole) / 2.0 + step * i as f64
        };
        let x = start(self.drawing.width, window.width, self.columns, column);
        let y = start(self.drawing.height, window.height, self.rows, row);
        Point::new(x, y)
    }

    /// The name of a place, such as `B3`; empty where one sheet holds all.
    pub fn place(&self, place: (usize, usize)) -> String {
        if self.count() == 1 { String::new() } else { place_name(place) }
    }
}

/// The row as a letter (`A` … `Z`, `AA` …), the column as a number from 1.
pub fn place_name((row, column): (usize, usize)) -> String {
    let mut letters = String::new();
    let mut rest = row + 1;
    while rest > 0 {
        letters.insert(0, char::from(b'A' + ((rest - 1) % 26) as u8));
        rest = (rest - 1) / 26;
    }
    format!("{letters}{}", column + 1)
}
