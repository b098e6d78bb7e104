//! The quote as a PDF document.

use super::content::{ChairContent, Content, Fact, PartLine, Price};
use super::page::{PARTS_HEADS, PARTS_NOTE, parts_title};
use crate::order::ORDER_FILE;
use crestrail_sheet::paper::Paper;
use crestrail_sheet::pdf::{Attachment, Document};
use crestrail_sheet::setting::{
    Cell, Column, Frame, Piece, Rows, Type, beside, figure, paged, pairs, paragraph, points, rule, table,
};
use crestrail_sheet::{Align, Colour, Faces, Weight};

/// Colours of the printed quote: ink, what is said aside, hairlines.
const INK: Colour = Colour::hex(0x23_201c);
const ASIDE: Colour = Colour::hex(0x5c_554b);
const HAIR: Colour = Colour::hex(0xb9_b2a6);

/// Sizes of letters, mm, each about √2 times the next but one: 22, 12, 9.5 and 8 points.
const TITLE: Type = kind(7.8, Weight::Medium, INK, 1.15);
const HEADING: Type = kind(4.2, Weight::Medium, INK, 1.3);
const BODY: Type = kind(3.35, Weight::Regular, INK, 1.45);
const STRONG: Type = kind(3.35, Weight::Medium, INK, 1.45);
const MUTED: Type = kind(3.35, Weight::Regular, ASIDE, 1.45);
const SMALL: Type = kind(2.8, Weight::Regular, ASIDE, 1.4);
const CELL: Type = kind(3.0, Weight::Regular, INK, 1.35);
const HEAD: Type = kind(3.0, Weight::Medium, INK, 1.35);

/// Free room around the text, mm.
const SIDES: f64 = 20.0;
const ABOVE: f64 = 18.0;
const BELOW: f64 = 20.0;
/// Above a heading, and between it and its text, mm.
const BEFORE: f64 = 7.0;
const AFTER: f64 = 2.0;
/// Room of the picture of a chair, as a share of the text's width, and its height in mm; of the picture taken apart.
const PICTURE: (f64, f64) = (0.45, 60.0);
const APART: f64 = 106.0;

const fn kind(size: f64, weight: Weight, colour: Colour, leading: f64) -> Type {
    Type { size, weight, colour, leading }
}

pub(super) fn document_of(content: &Content<'_>, paper: &'static Paper, faces: &Faces) -> Document {
    let title = format!("Quote {}", content.number);
    let foot = format!("{title}  ·  {}", content.shop);
    let frame = Frame { paper, sides: SIDES, above: ABOVE, below: BELOW, foot, small: SMALL };
    let set = Set { width: frame.room().0, faces };
    let (pages, bookmarks) = paged(set.pieces(content), &frame);
    Document {
        title: format!("{title}, {}", content.shop),
        language: "en".to_owned(),
        full_size: false,
        pages,
        bookmarks,
        attachments: vec![attached(content)],
    }
}

/// The order, so that the maker opens the very same again.
fn attached(content: &Content<'_>) -> Attachment {
    Attachment {
        name: ORDER_FILE.file.to_owned(),
        media: "application/json",
        description: "The order of which this quote was made".to_owned(),
        bytes: content.order.write().into_bytes(),
    }
}

/// Sets the parts of the quote.
struct Set<'a> {
    width: f64,
    faces: &'a Faces,
}

impl Set<'_> {
    fn pieces(&self, content: &Content<'_>) -> Vec<Piece> {
        let mut pieces = self.header(content);
        for chair in &content.chairs {
            pieces.push(self.heading(&chair.title));
            pieces.push(self.chair(chair));
        }
        pieces.push(self.heading("Price"));
        pieces.extend(self.prices(&content.price));
        for (title, lines) in [("Terms", content.terms), ("Please note", &content.cautions)] {
            if !lines.is_empty() {
                pieces.push(self.heading(title));
                pieces.extend(points(lines, self.width, &BODY, self.faces));
            }
        }
        for chair in &content.chairs {
            pieces.extend(self.parts(chair));
        }
        pieces
    }

    fn words(&self, words: &str, width: f64, kind: &Type) -> Piece {
        Piece::joined(paragraph(words, width, kind, self.faces))
    }

    fn header(&self, content: &Content<'_>) -> Vec<Piece> {
        let left = 0.56 * self.width;
        let mut lines = vec![
            self.words(&format!("Quote {}", content.number), left, &TITLE),
            self.words(content.shop, left, &STRONG).below(AFTER),
        ];
        lines.extend(content.contact.iter().map(|line| self.words(line, left, &BODY)));
        let at = left + 0.04 * self.width;
        let facts = self.facts(&content.facts, self.width - at);
        let head = beside(Piece::joined(lines), &facts, at, Align::End);
        vec![head.kept(), rule(self.width, 0.4, INK).below(3.0)]
    }

    fn facts(&self, facts: &[Fact], width: f64) -> Piece {
        let rows: Vec<(String, String)> =
            facts.iter().map(|(what, much)| ((*what).to_owned(), much.clone())).collect();
        pairs(&rows, width, [&MUTED, &BODY], self.faces)
    }

    /// Kept on one page with what follows.
    fn heading(&self, words: &str) -> Piece {
        let mut heading = self.words(words, self.width, &HEADING).below(BEFORE).kept();
        heading.height += AFTER;
        heading.bookmark = Some(words.to_owned());
        heading
    }

    fn chair(&self, chair: &ChairContent) -> Piece {
        let (share, high) = PICTURE;
        let picture = figure(&chair.picture, share * self.width, high);
        let at = (share + 0.05) * self.width;
        beside(picture, &self.facts(&chair.facts, self.width - at), at, Align::Middle)
    }

    fn prices(&self, price: &Price) -> Vec<Piece> {
        let heads = ["What", ">How many", ">Each", ">Amount"];
        let mut rows: Vec<Vec<Cell>> =
            price.lines.iter().map(|line| line.iter().map(Cell::of).collect()).collect();
        let sum = |what: &str, amount: &String| {
            vec![Cell::of(what), Cell::default(), Cell::default(), Cell::of(amount)]
        };
        rows.push(sum("Total", &price.total));
        rows.extend(price.deposit.as_ref().map(|deposit| sum("Deposit with the order", deposit)));
        let foot = rows.len() - price.lines.len();
        let mut pieces = table(&columns(&heads), &rows, foot, &self.rows(), self.faces);
        if let Some(ready) = &price.ready {
            if let Some(last) = pieces.last_mut() {
                last.keep = true;
            }
            pieces.push(self.words(ready, self.width, &BODY).below(AFTER));
        }
        pieces
    }

    fn rows(&self) -> Rows {
        Rows { width: self.width, head: HEAD, cell: CELL, note: SMALL, line: HAIR }
    }

    /// The parts of a design, on a page of their own.
    fn parts(&self, chair: &ChairContent) -> Vec<Piece> {
        let mut heading = self.heading(&parts_title(chair));
        heading.breaks = true;
        let note = self.words(PARTS_NOTE, self.width, &MUTED).below(AFTER).kept();
        let mut pieces = vec![heading, figure(&chair.apart, self.width, APART).kept(), note];
        let row = |line: &PartLine| {
            let [length, width, thickness] = &line.size;
            let (one, all) = (line.count.to_string(), (line.count * chair.quantity).to_string());
            [&line.letter, line.part, &one, &all, length, width, thickness, line.timber]
                .map(Cell::of)
                .to_vec()
        };
        let rows: Vec<Vec<Cell>> = chair.parts.iter().map(row).collect();
        let mut set = table(&columns(&PARTS_HEADS), &rows, 0, &self.rows(), self.faces);
        if let Some(head) = set.first_mut() {
            head.above = AFTER;
        }
        pieces.extend(set);
        pieces
    }
}

/// Columns by their heads; those of numbers begin with `>`.
fn columns(heads: &[&str]) -> Vec<Column> {
    let column = |head: &&str| match head.strip_prefix('>') {
        Some(head) => Column { head: head.to_owned(), numbers: true },
        None => Column { head: (*head).to_owned(), numbers: false },
    };
    heads.iter().map(column).collect()
}
