//! Which boards to buy and how to saw them, as a chapter.

use super::Content;
use super::chapter::Chapter;
use crate::bill::{Bill, BillLine, Group};
use crate::drawing::{self, Scheme};
use crate::export::sections::quantity;
use crate::export::set::{AFTER, BODY, MUTED, SMALL, STRONG, Set, columns};
use crate::length::Lengths;
use crate::lists::thickness_words;
use crate::money::Money;
use crate::plan::{
    Board, ClassPlan, Effort, Laid, RoughPieces, SawCut, Stack, TimberPlan, Wanted, Way, plan,
};
use crate::refusal::Refusal;
use core::ops::ControlFlow;
use crestrail_sheet::setting::{Cell, Piece, table};

const TITLE: &str = "Timber plan";
const WORDS: &str = "One chair, made alone. Boards are bought or taken from the rack as listed, and sawn as drawn: pieces at their rough sizes with their letters, cuts numbered in the order of the saw after both ends and edges are trimmed. Figures run from the lower left corner of the board.";
/// The largest scale of a board's picture, mm to the pixel: its letters come out 3 mm high.
const LARGEST: f64 = 0.25;

/// The plan that goes to the saw, with all that is bought.
pub(super) fn plan_chapter(content: &Content<'_>) -> Result<Vec<Chapter>, Refusal> {
    let (book, rows) = (content.book, &content.report.cutting_list);
    let wanted = Wanted { pieces: &RoughPieces::of(book.chair, rows), count: 1 };
    let made = plan(&[wanted], book.shop, Effort::SAW, &mut |_| ControlFlow::Continue(()));
    let chapter = match made {
        Ok(Some(plan)) => set(content, &plan),
        Ok(None) => Chapter::left_out(TITLE, &no_stock(&book.shop.name)),
        Err(refusal) => Chapter::left_out(TITLE, &refusal.why),
    };
    Ok(vec![chapter])
}

/// How the figures of a plan are rounded.
fn said(lengths: Lengths) -> String {
    match lengths {
        Lengths::Inches(parts) => format!(
            "Inches to the nearest 1/{parts}, for rough pieces hold an allowance; what is kept is rounded down."
        ),
        _ => lengths.rounding(),
    }
}

fn no_stock(shop: &str) -> String {
    format!(
        "{shop} has no stock list, so no boards can be planned. Add \"stock\" to shop.json: the boards your yard offers."
    )
}

fn set(content: &Content<'_>, plan: &TimberPlan) -> Chapter {
    let frame = content.frame(true);
    let set = Set { width: frame.room().0, faces: content.faces };
    let lengths = content.book.lengths;
    let mut pieces = set.opening(TITLE, &format!("{WORDS} {}", said(lengths)));
    pieces.extend(set.boards_needed(plan, lengths));
    pieces.extend(content.report.bill.as_ref().map_or_else(Vec::new, |bill| set.also_needed(bill)));
    let widest = plan.classes.iter().flat_map(|class| &class.boards).map(|board| board.length);
    let widest = widest.fold(0.0, f64::max);
    for class in &plan.classes {
        pieces.extend(set.class(plan, class, widest, lengths));
    }
    let holds = "What to buy, and how to saw each board.";
    Chapter::set(TITLE, holds, &pieces, &frame)
}

impl Set<'_> {
    fn boards_needed(&self, plan: &TimberPlan, lengths: Lengths) -> Vec<Piece> {
        let heads =
            ["Timber", "Thickness", "For", "From", ">Boards", ">Length × width", ">Each", ">Together"];
        let mut rows: Vec<Vec<Cell>> =
            plan.classes.iter().flat_map(|class| stacks(plan, class, lengths)).collect();
        let mut sum = vec![Cell::of("To buy")];
        sum.resize(heads.len() - 1, Cell::default());
        sum.push(Cell::of(money(plan, plan.cost_minor)));
        rows.push(sum);
        let mut pieces = vec![self.heading("Boards")];
        pieces.extend(table(&columns(&heads), &rows, 1, &self.rows(), self.faces));
        pieces
    }

    /// Pegs, dowels, glue, finish, what a seat takes.
    fn also_needed(&self, bill: &Bill) -> Vec<Piece> {
        let is_other = |line: &&BillLine| line.group == Group::Material && !line.id.starts_with("timber.");
        let row = |line: &BillLine| {
            vec![Cell { words: line.what.clone(), note: line.why.clone() }, Cell::of(quantity(line))]
        };
        let rows: Vec<Vec<Cell>> = bill.lines.iter().filter(is_other).map(row).collect();
        if rows.is_empty() {
            return Vec::new();
        }
        let mut pieces = vec![self.heading("Also needed")];
        pieces.extend(table(&columns(&["What", ">How much"]), &rows, 0, &self.rows(), self.faces));
        pieces
    }

    /// The boards of a species and thickness.
    fn class(&self, plan: &TimberPlan, class: &ClassPlan, widest: f64, lengths: Lengths) -> Vec<Piece> {
        let mut pieces = vec![self.heading(&titled(class))];
        pieces.extend(class.notes.iter().map(|note| self.words(note, self.width, &MUTED).kept()));
        pieces.extend(class.missing.iter().map(|missing| {
            let size = lengths.rough(&[missing.length, missing.width]);
            let (letter, part, count) = (&missing.letter, missing.part, missing.count);
            let words = format!("No board of the stock list holds {count} × {letter} ({part}), {size}: order it, or glue it up.");
            self.words(&words, self.width, &STRONG).kept()
        }));
        for board in &class.boards {
            pieces.extend(self.board(plan, class, board, widest, lengths));
        }
        if class.boards.is_empty() {
            pieces.push(self.words("No board.", self.width, &BODY));
        }
        pieces
    }

    fn board(
        &self,
        plan: &TimberPlan,
        class: &ClassPlan,
        board: &Board,
        widest: f64,
        lengths: Lengths,
    ) -> Vec<Piece> {
        let sheet = drawing::board(class, board, plan.kerf, Scheme::Light, lengths);
        // All boards at one scale, so that they can be told apart by their size.
        let scale = (self.width / (sheet.width * (widest / board.length).max(1.0))).min(LARGEST);
        let items = sheet.items.iter().map(|item| item.scaled(scale)).collect();
        let told = match class.way {
            Way::Outlines => placed(&board.pieces, lengths),
            Way::Lengths | Way::Rectangles => cuts(&board.cuts, lengths),
        };
        vec![
            self.words(&sheet.title, self.width, &STRONG).below(2.0 * AFTER).kept(),
            Piece::of(scale * sheet.height, items).kept(),
            self.words(&told, self.width, &BODY).kept(),
            self.words(&sheet.description, self.width, &SMALL),
        ]
    }
}

fn titled(class: &ClassPlan) -> String {
    format!("{}, {}", class.species, thickness_words(class.thickness, class.thickness_mm))
}

/// The boards of a class that are taken and bought.
fn stacks(plan: &TimberPlan, class: &ClassPlan, lengths: Lengths) -> Vec<Vec<Cell>> {
    let letters = letters(class);
    let row = |stack: &Stack, from: &str| {
        let size = format!("{} × {}", lengths.near(stack.length), lengths.near(stack.width));
        let priced = stack.each_minor > Money(0);
        let each = if priced { money(plan, stack.each_minor) } else { "–".to_owned() };
        let together = Money(stack.each_minor.0.saturating_mul(i64::from(stack.count)));
        let together = if priced && from == YARD { money(plan, together) } else { "–".to_owned() };
        let thickness = thickness_words(class.thickness, class.thickness_mm);
        [class.species, &thickness, &letters, from, &stack.count.to_string(), &size, &each, &together]
            .map(Cell::of)
            .to_vec()
    };
    let rack = class.rack.iter().map(|stack| row(stack, "rack"));
    rack.chain(class.buy.iter().map(|stack| row(stack, YARD))).collect()
}

const YARD: &str = "yard";

fn money(plan: &TimberPlan, amount: Money) -> String {
    format!("{} {}", plan.currency, amount.decimal(plan.minor_digits))
}

fn letters(class: &ClassPlan) -> String {
    let mut letters: Vec<&str> = Vec::new();
    for piece in class.boards.iter().flat_map(|board| &board.pieces) {
        if !letters.contains(&piece.letter.as_str()) {
            letters.push(&piece.letter);
        }
    }
    letters.join(", ")
}

/// The cuts with their figures.
fn cuts(cuts: &[SawCut], lengths: Lengths) -> String {
    let told = |cut: &SawCut| {
        let [at, from, to] = [cut.at, cut.from, cut.to].map(|v| lengths.near(v));
        let way = if cut.along { "along" } else { "across" };
        format!("{} {way} at {at}, {from} to {to}", cut.number)
    };
    let told: Vec<String> = cuts.iter().map(told).collect();
    if told.is_empty() { "No cut but the trims.".to_owned() } else { format!("Cuts: {}.", told.join("; ")) }
}

/// Where pieces lie that are sawn to an outline: the lower left corner of the box around each.
fn placed(pieces: &[Laid], lengths: Lengths) -> String {
    let told = |piece: &Laid| {
        let ([x, y], [length, width]) =
            (piece.corner().map(|v| lengths.near(v)), piece.size().map(|v| lengths.near(v)));
        format!("{} {x} right, {y} up, in a box of {length} × {width}", piece.letter)
    };
    let told: Vec<String> = pieces.iter().map(told).collect();
    format!("Where they lie: {}.", told.join("; "))
}
