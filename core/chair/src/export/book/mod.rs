//! The bench book: all that a maker needs at the bench in one document. Cover with picture and contents, then the chapters
//! in the order of the work: drawing, cutting list, timber plan, setting out, gauges, joints, order of work, findings, labels.
//!
//! A chapter is a run of pages (`chapter`): set from text and tables (`lists`, `timber`, `findings`), or drawn by
//! [`crate::sheets`] for this paper (`drawn`). `binding` numbers the pages, and puts cover and bookmarks to them.
//!
//! Templates and the rod are no chapter. They are true only at full size, over several sheets taped together; a book is
//! printed to whatever paper lies in the printer. The cover says where they are printed.

mod binding;
mod chapter;
mod cover;
mod drawn;
mod findings;
mod lists;
#[cfg(test)]
mod tests;
mod timber;

use crate::chair::Chair;
use crate::design::{Design, NamedDesign};
use crate::export::set::{ABOVE, BELOW, SIDES, SMALL};
use crate::length::Lengths;
use crate::refusal::Refusal;
use crate::report::{Report, report, service};
use crate::service::Service;
use crate::sheets::setting::setting_out;
use crate::sheets::{FullSize, of_pages};
use crate::shop::Shop;
use crate::unbuildable::Unbuildable;
use crate::work::{WorkStep, order_of_work};
use chapter::Chapter;
use crestrail_sheet::Faces;
use crestrail_sheet::paper::Paper;
use crestrail_sheet::pdf::{Attachment, Document};
use crestrail_sheet::setting::Frame;

/// What a book is made from.
#[derive(Clone, Copy, Debug)]
pub struct Book<'a> {
    /// The design's name; may be empty.
    pub name: &'a str,
    /// The design.
    pub design: &'a Design,
    /// The chair that was resolved from it.
    pub chair: &'a Chair,
    /// The workshop.
    pub shop: &'a Shop,
    /// The paper of all pages.
    pub paper: &'static Paper,
    /// What figures are written in; what was checked is told in millimetres.
    pub lengths: Lengths,
    /// The day, as it is to be written; may be empty.
    pub date: &'a str,
}

/// Told how many steps of how many are done, and in words what comes now.
pub type Told<'a> = &'a mut dyn FnMut(usize, usize, &str);

/// The book. A refusal names `paper` where it has no pages, or `design` where a part cannot be drawn. Chapters for which chair
/// or workshop lack what is needed are left out, and the contents say why.
pub fn bench_book(book: &Book<'_>, faces: &Faces, told: Told<'_>) -> Result<Document, Refusal> {
    of_pages(book.paper)?;
    told(0, STEPS, "Working out lists, checks and setting out");
    let content = Content::of(book, faces)?;
    let mut chapters = Vec::with_capacity(MAKERS.len());
    for (i, (words, make)) in MAKERS.iter().enumerate() {
        told(i + 1, STEPS, words);
        chapters.extend(make(&content)?);
    }
    told(STEPS - 1, STEPS, "Binding the book");
    let (pages, bookmarks) = binding::bound(&content, chapters);
    Ok(Document {
        title: format!("{}: bench book", content.name()),
        language: "en".to_owned(),
        full_size: false,
        pages,
        bookmarks,
        attachments: vec![content.attached()],
    })
}

type Make = for<'a> fn(&Content<'a>) -> Result<Vec<Chapter>, Refusal>;

/// The chapters in the order of the work, with the words that are told while they are made.
const MAKERS: [(&str, Make); 8] = [
    ("Drawing the chair", drawn::drawing),
    ("Writing the cutting list", lists::cutting),
    ("Laying pieces on boards", timber::plan_chapter),
    ("Placing the setting-out sheets", drawn::setting_out),
    ("Writing the joints", lists::joints),
    ("Drawing the order of work", drawn::work),
    ("Writing the findings", findings::findings),
    ("Placing the labels", drawn::labels),
];

/// The makers, the report before them and the binding after them.
const STEPS: usize = MAKERS.len() + 2;

/// The widest lines of text that are read with ease on a large paper, mm.
const WIDEST: f64 = 190.0;

/// What the chapters are made from.
struct Content<'a> {
    book: &'a Book<'a>,
    faces: &'a Faces,
    report: Report,
    service: Service,
    steps: Vec<WorkStep>,
    /// Setting-out sheets, gauges and labels.
    setting: Vec<FullSize>,
}

impl<'a> Content<'a> {
    fn of(book: &'a Book<'a>, faces: &'a Faces) -> Result<Self, Refusal> {
        let report = report(book.design, book.chair, book.shop);
        let steps = order_of_work(book.chair, book.shop, report.labour.as_ref(), book.lengths);
        let setting = setting_out(book.chair, book.lengths).map_err(undrawn)?;
        Ok(Self { book, faces, report, service: service(book.design), steps, setting })
    }

    fn name(&self) -> &'a str {
        let name = self.book.name.trim();
        if name.is_empty() { "Chair" } else { name }
    }

    /// The page around set text.
    fn frame(&self, level: bool) -> Frame {
        let paper = self.book.paper;
        let wide = if level { f64::INFINITY } else { WIDEST };
        let sides = SIDES.max((paper.short - wide) / 2.0);
        Frame { paper, level, sides, above: ABOVE, below: BELOW, foot: String::new(), small: SMALL }
    }

    fn attached(&self) -> Attachment {
        let named = NamedDesign { name: self.book.name.to_owned(), design: self.book.design.clone() };
        Attachment {
            name: "design.json".to_owned(),
            media: "application/json",
            description: "The design of which this book was made".to_owned(),
            bytes: named.write().into_bytes(),
        }
    }
}

fn undrawn(clash: Unbuildable) -> Refusal {
    Refusal::new("design", clash.why)
}
