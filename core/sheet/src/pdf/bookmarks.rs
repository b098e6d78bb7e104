//! The outline of a document: bookmarks within bookmarks.

use super::ids::Ids;
use super::{Bookmark, Unwritten};
use pdf_writer::{Finish, Pdf, Ref, TextStr};

/// Writes all bookmarks; the object that holds them, if there are any.
pub(super) fn write(
    pdf: &mut Pdf,
    ids: &mut Ids,
    bookmarks: &[Bookmark],
    pages: &[Ref],
) -> Result<Option<Ref>, Unwritten> {
    if bookmarks.is_empty() {
        return Ok(None);
    }
    let root = ids.next();
    let span = level(pdf, ids, bookmarks, root, pages)?;
    pdf.outline(root).first(span.first).last(span.last).count(span.shown);
    Ok(Some(root))
}

/// One level of bookmarks, and how many there are with all below them: readers show them all.
struct Span {
    first: Ref,
    last: Ref,
    shown: i32,
}

fn level(
    pdf: &mut Pdf,
    ids: &mut Ids,
    bookmarks: &[Bookmark],
    parent: Ref,
    pages: &[Ref],
) -> Result<Span, Unwritten> {
    let own = ids.several(bookmarks.len());
    let mut shown = 0;
    for (i, bookmark) in bookmarks.iter().enumerate() {
        let page = *pages.get(bookmark.page).ok_or(Unwritten::NoSuchPage(bookmark.page))?;
        let below = match bookmark.children.as_slice() {
            [] => None,
            children => Some(level(pdf, ids, children, own[i], pages)?),
        };
        let mut item = pdf.outline_item(own[i]);
        item.title(TextStr(&bookmark.title)).parent(parent);
        if i > 0 {
            item.prev(own[i - 1]);
        }
        if let Some(&next) = own.get(i + 1) {
            item.next(next);
        }
        shown += 1;
        if let Some(below) = below {
            item.first(below.first).last(below.last).count(below.shown);
            shown += below.shown;
        }
        item.dest().page(page).fit();
        item.finish();
    }
    Ok(Span { first: own[0], last: own[own.len() - 1], shown })
}
