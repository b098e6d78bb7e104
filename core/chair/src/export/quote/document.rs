//! The quote as a PDF document.

use super::content::{ChairContent, Content, Fact, PartLine, Price};
use super::page::{PARTS_HEADS, PARTS_NOTE, PRICE_HEADS, parts_title};
use crate::export::set::{ABOVE, AFTER, BELOW, BODY, INK, MUTED, SIDES, SMALL, STRONG, Set, TITLE, columns};
use crate::order::ORDER_FILE;
use crestrail_phrases::{language, say, word};
use crestrail_sheet::paper::Paper;
use crestrail_sheet::pdf::{Attachment, Document};
use crestrail_sheet::setting::{Cell, Frame, Piece, beside, figure, paged, pairs, points, rule, table};
use crestrail_sheet::{Align, Faces};

/// Room of the picture of a chair, as a share of the text's width, and its height in mm; of the picture taken apart.
const PICTURE: (f64, f64) = (0.45, 60.0);
const APART: f64 = 106.0;

pub(super) fn document_of(content: &Content<'_>, paper: &'static Paper, faces: &Faces) -> Document {
    let title = say!("Quote {}", content.number);
    let foot = format!("{title}  ·  {}", content.shop);
    let frame = Frame { paper, level: false, sides: SIDES, above: ABOVE, below: BELOW, foot, small: SMALL };
    let set = Set { width: frame.room().0, faces };
    let (pages, bookmarks) = paged(set.pieces(content), &frame);
    Document {
        title: format!("{title}, {}", content.shop),
        language: language().to_owned(),
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
        description: say!("The order of which this quote was made"),
        bytes: content.order.write().into_bytes(),
    }
}

impl Set<'_> {
    fn pieces(&self, content: &Content<'_>) -> Vec<Piece> {
        let mut pieces = self.header(content);
        for chair in &content.chairs {
            pieces.push(self.heading(&chair.title));
            pieces.push(self.chair(chair));
        }
        pieces.push(self.heading(word("Price")));
        pieces.extend(self.prices(&content.price));
        for (title, lines) in [(word("Terms"), content.terms), (word("Please note"), &content.cautions)] {
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

    fn header(&self, content: &Content<'_>) -> Vec<Piece> {
        let left = 0.56 * self.width;
        let mut lines = vec![
            self.words(&say!("Quote {}", content.number), left, &TITLE),
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

    fn chair(&self, chair: &ChairContent) -> Piece {
        let (share, high) = PICTURE;
        let picture = figure(&chair.picture, share * self.width, high);
        let at = (share + 0.05) * self.width;
        beside(picture, &self.facts(&chair.facts, self.width - at), at, Align::Middle)
    }

    fn prices(&self, price: &Price) -> Vec<Piece> {
        let heads = PRICE_HEADS.map(word);
        let mut rows: Vec<Vec<Cell>> =
            price.lines.iter().map(|line| line.iter().map(Cell::of).collect()).collect();
        let sum = |what: &str, amount: &String| {
            vec![Cell::of(what), Cell::default(), Cell::default(), Cell::of(amount)]
        };
        rows.push(sum(word("Total"), &price.total));
        rows.extend(price.deposit.as_ref().map(|deposit| sum(word("Deposit with the order"), deposit)));
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

    /// The parts of a design, on a page of their own.
    fn parts(&self, chair: &ChairContent) -> Vec<Piece> {
        let mut heading = self.heading(&parts_title(chair));
        heading.breaks = true;
        let note = self.words(word(PARTS_NOTE), self.width, &MUTED).below(AFTER).kept();
        let mut pieces = vec![heading, figure(&chair.apart, self.width, APART).kept(), note];
        let row = |line: &PartLine| {
            let [length, width, thickness] = &line.size;
            let (one, all) = (line.count.to_string(), (line.count * chair.quantity).to_string());
            [&line.letter, line.part, &one, &all, length, width, thickness, line.timber]
                .map(Cell::of)
                .to_vec()
        };
        let rows: Vec<Vec<Cell>> = chair.parts.iter().map(row).collect();
        let mut set = table(&columns(&PARTS_HEADS.map(word)), &rows, 0, &self.rows(), self.faces);
        if let Some(head) = set.first_mut() {
            head.above = AFTER;
        }
        pieces.extend(set);
        pieces
    }
}
