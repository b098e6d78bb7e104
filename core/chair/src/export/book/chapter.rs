//! Chapters as runs of pages that are not numbered yet.

use crestrail_sheet::setting::{Frame, Piece, dealt};
use crestrail_sheet::{Item, Sheet};
use kurbo::Size;

/// A page.
pub(super) struct Leaf {
    pub(super) size: Size,
    pub(super) items: Vec<Item>,
    /// What readers jump to on it.
    pub(super) bookmarks: Vec<String>,
}

/// A chapter.
pub(super) struct Chapter {
    pub(super) title: &'static str,
    /// What it holds, or why it is left out, for the contents.
    pub(super) holds: String,
    /// Its pages; none where it is left out.
    pub(super) leaves: Vec<Leaf>,
}

impl Leaf {
    /// A sheet that fills its page.
    pub(super) fn of(sheet: Sheet) -> Self {
        Self { size: Size::new(sheet.width, sheet.height), items: sheet.items, bookmarks: Vec::new() }
    }

    pub(super) fn marked(mut self, bookmark: impl Into<String>) -> Self {
        self.bookmarks.push(bookmark.into());
        self
    }
}

impl Chapter {
    /// One whose pages are drawn.
    pub(super) fn drawn(title: &'static str, holds: impl Into<String>, leaves: Vec<Leaf>) -> Self {
        Self { title, holds: holds.into(), leaves }
    }

    /// One that is set from strips.
    pub(super) fn set(
        title: &'static str,
        holds: impl Into<String>,
        pieces: &[Piece],
        frame: &Frame,
    ) -> Self {
        Self::drawn(title, holds, leaves(pieces, frame))
    }

    /// One that is not there, and why.
    pub(super) fn left_out(title: &'static str, why: &str) -> Self {
        Self::drawn(title, format!("Left out. {why}"), Vec::new())
    }
}

/// Strips on as many pages as they take.
pub(super) fn leaves(pieces: &[Piece], frame: &Frame) -> Vec<Leaf> {
    let (width, height) = frame.size();
    let (pages, bookmarks) = dealt(pieces, frame);
    let leaf = |items| Leaf { size: Size::new(width, height), items, bookmarks: Vec::new() };
    let mut leaves: Vec<Leaf> = pages.into_iter().map(leaf).collect();
    for bookmark in bookmarks {
        leaves[bookmark.page].bookmarks.push(bookmark.title);
    }
    leaves
}
