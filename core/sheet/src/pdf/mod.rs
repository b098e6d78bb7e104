//! PDF (ISO 32000-1, version 1.7) from sheets: one page a sheet at its true size, text with its fonts inside.
//!
//! The way of a document: pages become streams of drawing operators (`content`), which note the glyphs they use; the
//! fonts are cut down to these (`typeface`, `outlines`); bookmarks (`bookmarks`), page labels and attached files (`frame`) are hung
//! into the catalogue. [`attached`] gets the files out again. The same document always gives the same bytes: nothing in it tells a time.

mod attached;
mod bookmarks;
mod content;
mod frame;
mod ids;
mod object;
mod outlines;
mod typeface;

#[cfg(test)]
mod tests;

pub use attached::{Unread, attached};

use crate::{Faces, Sheet};
use core::fmt;

/// A document of one page or more.
#[derive(Clone, Debug)]
pub struct Document {
    /// What it is called, shown in the window's title.
    pub title: String,
    /// The language of its text as in BCP 47, such as `en`.
    pub language: String,
    /// Whether a reader must print it as large as it is, whatever the paper.
    pub full_size: bool,
    /// Pages in order.
    pub pages: Vec<Page>,
    /// What the reader finds in the margin to jump to.
    pub bookmarks: Vec<Bookmark>,
    /// Files that it carries.
    pub attachments: Vec<Attachment>,
}

/// A page.
#[derive(Clone, Debug)]
pub struct Page {
    /// What is on it; the page is as large as the sheet.
    pub sheet: Sheet,
    /// What a reader shows for its page number.
    pub label: String,
}

/// A place to jump to.
#[derive(Clone, Debug)]
pub struct Bookmark {
    /// Its words.
    pub title: String,
    /// The page, counted from 0.
    pub page: usize,
    /// Places within it.
    pub children: Vec<Bookmark>,
}

/// A file inside the document, from which the document was made.
#[derive(Clone, Debug)]
pub struct Attachment {
    /// Its name, such as `design.json`.
    pub name: String,
    /// Its media type, such as `application/json`.
    pub media: &'static str,
    /// What it is, in a few words.
    pub description: String,
    /// Its bytes.
    pub bytes: Vec<u8>,
}

/// A written document.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Written {
    /// The file.
    pub bytes: Vec<u8>,
    /// Characters that its fonts do not have, in order: an empty box stands for each of them. Whoever hands the file on
    /// must say so.
    pub missing: Vec<char>,
}

/// Why a document cannot be written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unwritten {
    /// It has no page.
    NoPage,
    /// A page is larger than a reader must be able to show (ISO 32000-1, annex C: 14400 units of 1/72 inch a side), or
    /// has no size.
    PageSize(usize),
    /// A bookmark names a page that is not there.
    NoSuchPage(usize),
    /// A font could not be cut down.
    Font(String),
}

impl fmt::Display for Unwritten {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoPage => write!(f, "the document has no page"),
            Self::PageSize(page) => {
                write!(f, "page {} is too large for a PDF file, or has no size", page + 1)
            }
            Self::NoSuchPage(page) => write!(f, "a bookmark names page {}, which is not there", page + 1),
            Self::Font(why) => write!(f, "the font cannot be cut down: {why}"),
        }
    }
}

impl core::error::Error for Unwritten {}

/// Writes the document with these typefaces.
pub fn write(document: &Document, faces: &Faces) -> Result<Written, Unwritten> {
    frame::write(document, faces)
}
