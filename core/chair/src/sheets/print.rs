//! Full-size drawings laid over paper, as a PDF document.

use super::FullSize;
use super::roll::{Strip, strips};
use crestrail_sheet::paper::Paper;
use crestrail_sheet::pdf::{Attachment, Bookmark, Document, Page};
use crestrail_sheet::tiling::{Caption, Layout, tiles};
use kurbo::Size;

/// What is printed.
#[derive(Clone, Copy, Debug)]
pub struct Print<'a> {
    /// The design's name; may be empty.
    pub name: &'a str,
    /// The drawings in order.
    pub drawings: &'a [FullSize],
    /// What they are laid over.
    pub paper: &'a Paper,
    /// The text of the `design.json`, put inside so that the sheets can be made again.
    pub design: Option<&'a str>,
}

/// The document: for each drawing its sheets, with a bookmark; on a roll as many drawings on a piece as fit.
pub fn print(print: &Print<'_>) -> Document {
    let strips = strips(print.drawings, print.paper);
    let size = |strip: &Strip| Size::new(strip.sheet.width, strip.sheet.height);
    let layouts: Vec<Layout> = strips.iter().map(|strip| Layout::of(size(strip), print.paper)).collect();
    let pages = layouts.iter().map(Layout::count).sum();
    let title = if print.name.is_empty() { "Chair" } else { print.name };
    let mut document = Document {
        title: format!("{title}: sheets for the bench"),
        language: "en".to_owned(),
        full_size: print.drawings.iter().any(|drawing| drawing.is_full_size),
        pages: Vec::with_capacity(pages),
        bookmarks: Vec::new(),
        attachments: print.design.map(attached).into_iter().collect(),
    };
    for (strip, layout) in strips.iter().zip(&layouts) {
        let first = document.pages.len() + 1;
        let caption = Caption {
            title: caption(strip),
            of: title.to_owned(),
            first,
            pages,
            is_full_size: strip.is_full_size,
        };
        let made = tiles(&strip.sheet, layout, &caption);
        let child = |(i, place): (usize, &str)| bookmark(place, first - 1 + i);
        let places = made.iter().map(|tile| tile.place.as_str()).enumerate();
        let children = if made.len() > 1 { places.map(child).collect() } else { Vec::new() };
        let own = strip.titles.iter().map(|title| bookmark(title, first - 1));
        document.bookmarks.extend(own.map(|own| Bookmark { children: children.clone(), ..own }));
        for (number, tile) in (first..).zip(made) {
            document.pages.push(Page { sheet: tile.sheet, label: number.to_string() });
        }
    }
    document
}

/// Drawings that have their paper already, each a page.
pub fn bound(name: &str, drawings: &[FullSize], design: Option<&str>) -> Document {
    let title = if name.is_empty() { "Chair" } else { name };
    let page =
        |(i, drawing): (usize, &FullSize)| Page { sheet: drawing.sheet.clone(), label: (i + 1).to_string() };
    Document {
        title: format!("{title}: drawing"),
        language: "en".to_owned(),
        full_size: drawings.iter().any(|drawing| drawing.is_full_size),
        pages: drawings.iter().enumerate().map(page).collect(),
        bookmarks: drawings.iter().enumerate().map(|(i, drawing)| bookmark(&drawing.title, i)).collect(),
        attachments: design.map(attached).into_iter().collect(),
    }
}

/// What stands below the drawing.
fn caption(strip: &Strip) -> String {
    match strip.titles.as_slice() {
        [one] => one.clone(),
        many => format!("{} drawings", many.len()),
    }
}

fn bookmark(title: &str, page: usize) -> Bookmark {
    Bookmark { title: title.to_owned(), page, children: Vec::new() }
}

/// The design inside, so that the sheets can be made again.
pub(super) fn attached(design: &str) -> Attachment {
    Attachment {
        name: "design.json".to_owned(),
        media: "application/json",
        description: "The design of which these sheets were made".to_owned(),
        bytes: design.as_bytes().to_vec(),
    }
}
