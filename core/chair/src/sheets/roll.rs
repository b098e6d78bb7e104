//! Drawings beside each other on one roll of paper.

use super::FullSize;
use crestrail_sheet::paper::Paper;
use crestrail_sheet::tiling::{FOOT, MARGIN};
use crestrail_sheet::{Item, Sheet, Unit};
use kurbo::Vec2;

/// The longest piece that is filled, mm: longer ones are hard to handle (common practice, no source).
const LONGEST: f64 = 4000.0;

/// What is laid over paper as one drawing: one, or on a roll as many as fit, with their titles.
pub(super) struct Strip {
    pub(super) titles: Vec<String>,
    /// Whether any of them is drawn at full size.
    pub(super) is_full_size: bool,
    pub(super) sheet: Sheet,
}

impl Strip {
    fn of(drawing: &FullSize) -> Self {
        Self {
            titles: vec![drawing.title.clone()],
            is_full_size: drawing.is_full_size,
            sheet: drawing.sheet.clone(),
        }
    }
}

/// The drawings in order, on a roll put together: one below the other across its width, then on along it.
pub(super) fn strips(drawings: &[FullSize], paper: &Paper) -> Vec<Strip> {
    if paper.long.is_some() {
        return drawings.iter().map(Strip::of).collect();
    }
    let across = paper.short - 2.0 * MARGIN - FOOT;
    let mut strips: Vec<(Strip, Filled)> = Vec::new();
    for drawing in drawings {
        let (width, height) = (drawing.sheet.width, drawing.sheet.height);
        let place = strips.last().and_then(|(_, filled)| filled.room(width, height, across));
        match (strips.last_mut(), place) {
            (Some((strip, filled)), Some(at)) => {
                strip.titles.push(drawing.title.clone());
                strip.is_full_size |= drawing.is_full_size;
                strip.sheet.items.extend(drawing.sheet.items.iter().map(|item: &Item| item.moved(at)));
                filled.take(at, width, height);
            }
            _ => strips.push((Strip::of(drawing), Filled { start: 0.0, down: height, end: width })),
        }
    }
    strips.into_iter().map(|(strip, filled)| filled.sized(strip)).collect()
}

/// How far a strip is filled: columns are filled from above.
struct Filled {
    /// Where the last column begins along the roll, and how far down it is filled.
    start: f64,
    down: f64,
    /// Where all columns end.
    end: f64,
}

impl Filled {
    /// Below the last drawing, or in a column of its own.
    fn room(&self, width: f64, height: f64, across: f64) -> Option<Vec2> {
        let below = (self.down + height <= across).then(|| Vec2::new(self.start, self.down));
        let beside = (height <= across && self.down <= across).then(|| Vec2::new(self.end, 0.0));
        below.or(beside).filter(|at| at.x + width <= LONGEST)
    }

    fn take(&mut self, at: Vec2, width: f64, height: f64) {
        (self.start, self.down) = (at.x, at.y + height);
        self.end = self.end.max(at.x + width);
    }

    fn sized(&self, strip: Strip) -> Strip {
        if strip.titles.len() == 1 {
            return strip;
        }
        let items = strip.sheet.items;
        let extents = items.iter().filter_map(Item::extent);
        let height = extents.fold(0.0, |most: f64, extent| most.max(extent.y1));
        let sheet = Sheet {
            width: self.end,
            height,
            unit: Unit::Millimetre,
            decimals: 2,
            title: strip.titles.join("; "),
            description: format!("At full size: {}.", strip.titles.join("; ")),
            items,
        };
        Strip { sheet, ..strip }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn drawing(width: f64, height: f64) -> FullSize {
        let (title, description) = (format!("{width} × {height}"), String::new());
        let sheet = Sheet {
            width,
            height,
            unit: Unit::Millimetre,
            decimals: 2,
            title,
            description,
            items: Vec::new(),
        };
        FullSize { name: "template-B".to_owned(), title: sheet.title.clone(), is_full_size: true, sheet }
    }

    fn counts(sizes: &[(f64, f64)], paper: &str) -> Vec<usize> {
        let drawings: Vec<FullSize> = sizes.iter().map(|&(w, h)| drawing(w, h)).collect();
        let paper = Paper::named(paper).expect("a paper");
        strips(&drawings, paper).iter().map(|strip| strip.titles.len()).collect()
    }

    #[test]
    fn a_roll_is_filled_across_and_then_along() {
        let sizes = [(900.0, 160.0), (450.0, 90.0), (450.0, 700.0), (300.0, 300.0)];
        assert_eq!(counts(&sizes, "roll"), [4]);
        assert_eq!(counts(&sizes, "a4"), [1, 1, 1, 1]);
    }

    #[test]
    fn what_is_wider_than_the_roll_or_would_be_too_long_stands_alone() {
        assert_eq!(counts(&[(500.0, 300.0), (560.0, 950.0), (500.0, 300.0)], "roll"), [1, 1, 1]);
        assert_eq!(counts(&[(2500.0, 800.0), (2500.0, 800.0)], "roll"), [1, 1]);
    }
}
