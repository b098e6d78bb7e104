//! The card: each step with a box to tick, its clamps, its lengths and its wait, on one page.

use super::step::heading;
use super::{BODY, Bound, TITLE, WorkSheets, named};
use crate::sheets::pens::{self, Pen};
use crate::work::{Caution, WorkStep};
use crestrail_sheet::setting::{Piece, Type, beside};
use crestrail_sheet::{Align, Item, Weight};
use kurbo::{Point, Vec2};

/// A box to tick, and its room with what follows it, mm.
const BOX: f64 = 3.2;
const ROOM: f64 = BOX + 3.0;
/// Smallest letters that can be read at arm's length, mm (common practice, no source).
const SMALLEST: f64 = 2.0;

/// One page for the wall: each step with a box to tick, its clamps, its lengths and its wait.
pub fn work_card(sheets: &WorkSheets<'_>) -> Bound {
    let title = format!("{}: card for the bench", named(sheets.name));
    let frame = sheets.frame(&title);
    let (width, high) = frame.room();
    let head = sheets.said(&title, width, &TITLE).kept();
    let mut size = BODY.size;
    // Many steps are set smaller, so that one page holds them.
    let list = loop {
        let list = Piece::joined(sheets.card(width, size));
        if list.height + head.height <= high || size < SMALLEST {
            break list;
        }
        size *= 0.96;
    };
    sheets.bound(title, &[head, list], &frame, "The steps of the work on one page")
}

impl WorkSheets<'_> {
    fn card(&self, width: f64, size: f64) -> Vec<Piece> {
        let body = Type { size, ..BODY };
        let strong = Type { size: 1.1 * size, weight: Weight::Medium, ..BODY };
        let mut strips: Vec<Piece> = Vec::new();
        for step in self.steps {
            let mut words = vec![self.said(&heading(step), width - ROOM, &strong)];
            let told = told_shortly(step);
            if !told.is_empty() {
                words.push(self.said(&told, width - ROOM, &body));
            }
            let words = Piece::joined(words);
            let tick = Piece::of(BOX, vec![tick((strong.line() - BOX) / 2.0)]);
            strips.push(beside(tick, &words, ROOM, Align::Start).below(size * 0.5));
        }
        let mut said: Vec<&Caution> = Vec::new();
        for caution in self.steps.iter().flat_map(|step| &step.cautions) {
            if !said.contains(&caution) {
                said.push(caution);
            }
        }
        strips.push(self.said("Cautions; their sources stand on the pages", width, &strong).below(size));
        strips.extend(said.iter().map(|caution| self.said(caution.say, width, &body)));
        strips
    }
}

fn tick(top: f64) -> Item {
    let corners = [(0.0, 0.0), (BOX, 0.0), (BOX, BOX), (0.0, BOX)].map(Point::from);
    pens::lines(vec![pens::closed(&corners)], Pen::Thin).moved(Vec2::new(0.0, top))
}

/// The figures of a step in one line.
fn told_shortly(step: &WorkStep) -> String {
    let mut told: Vec<String> = Vec::new();
    let clamps: Vec<String> =
        step.clamps.iter().map(|c| format!("{} × {} ({})", c.count, c.told, c.letter)).collect();
    if !clamps.is_empty() {
        told.push(format!("Clamps {}.", clamps.join(", ")));
    }
    told.extend(step.tapes.iter().map(|tape| tape.say.clone()));
    told.extend(step.wait_hours.map(|hours| format!("Wait {hours:.0} h.")));
    told.join(" ")
}
