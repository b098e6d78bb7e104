//! Chapters whose pages are drawn: the drawing to a scale, setting-out sheets, gauges, labels, the order of work.

use super::chapter::{Chapter, Leaf};
use super::{Content, undrawn};
use crate::link;
use crate::refusal::Refusal;
use crate::sheets::setting::without_title;
use crate::sheets::{Bound, FullSize, Label, Order, WorkSheets, drawing as to_scale, work_card, work_pages};
use crestrail_sheet::Item;
use kurbo::{Size, Vec2};

/// Free room above a sheet that is laid on a page, and below it, where the foot stands, mm.
const ABOVE: f64 = 8.0;
const BELOW: f64 = 11.0;
/// Between two sheets of one part on a page, and of two parts, mm; each has free room above its title.
const BETWEEN: f64 = 2.0;
const APART: f64 = 7.0;

/// The drawing to a scale: views, sections, taken apart with the parts list.
pub(super) fn drawing(content: &Content<'_>) -> Result<Vec<Chapter>, Refusal> {
    let book = content.book;
    let number = link::number(book.design);
    let label = Label { title: book.name, owner: &book.shop.name, number: &number, date: book.date };
    let (chair, paper, lengths) = (book.chair, book.paper, book.lengths);
    let order = Order { chair, service: &content.service, paper, lengths, label };
    let sheets = to_scale(&order, "drawing").map_err(undrawn)?;
    let leaf = |sheet: FullSize| Leaf::of(sheet.sheet).marked(sheet.title.replace("Drawing: ", ""));
    let holds = "The chair to a scale with its main sizes, sections through its joints, and taken apart beside the parts list: the letters there stand on every page.";
    Ok(vec![Chapter::drawn("Drawing", holds, sheets.into_iter().map(leaf).collect())])
}

/// Setting-out sheets, then gauges and cutters.
pub(super) fn setting_out(content: &Content<'_>) -> Result<Vec<Chapter>, Refusal> {
    let of = |kind: &str| laid(content, kind);
    let parts = "The four faces of each part with all that is marked on them, as distances from one end and from the face edge or face side; shoulders, angles, and offsets of curves.";
    let gauges =
        "Each setting of a gauge with all that it marks, so that it is set once; then the cutters and bits.";
    Ok(vec![filled("Setting out", parts, of("setting")), filled("Gauges and cutters", gauges, of("gauges"))])
}

/// Labels to cut out.
pub(super) fn labels(content: &Content<'_>) -> Result<Vec<Chapter>, Refusal> {
    let holds = "One for each part, to cut out and tie or stick to it: letter, name, size, and where its face side and face edge look.";
    Ok(vec![filled("Labels", holds, laid(content, "labels"))])
}

fn filled(title: &'static str, holds: &str, leaves: Vec<Leaf>) -> Chapter {
    if leaves.is_empty() {
        return Chapter::left_out(title, "This chair has no part that is set out.");
    }
    Chapter::drawn(title, holds, leaves)
}

/// The sheets of a kind on pages that lie as they do, as many on a page as have room: plain parts, and what a part goes on
/// with, often no more than a table, which then needs no title of its own.
fn laid(content: &Content<'_>, kind: &str) -> Vec<Leaf> {
    let of_kind = |sheet: &&FullSize| sheet.name.split('-').next() == Some(kind);
    let paper = content.book.paper;
    let (short, long) = (paper.short, paper.long.unwrap_or(paper.short));
    let mut leaves: Vec<Leaf> = Vec::new();
    // What is on the last page, and how far down it is filled.
    let (mut subject, mut filled) = ("", 0.0);
    for drawing in content.setting.iter().filter(of_kind) {
        let level = drawing.sheet.width > drawing.sheet.height;
        let size = if level { Size::new(long, short) } else { Size::new(short, long) };
        let own = drawing.title.split(": sheet ").next().unwrap_or_default();
        let goes_on = own == subject;
        let below = filled + if goes_on { BETWEEN } else { APART };
        let bare = goes_on.then(|| without_title(&drawing.sheet));
        let (items, height) =
            fitted(bare.as_deref().unwrap_or(&drawing.sheet.items), drawing.sheet.width, size);
        let lies_alike = leaves.last().is_some_and(|leaf| leaf.size == size);
        if lies_alike && below + height <= size.height - BELOW {
            filled = below + height;
            put(&mut leaves, &items, below, (!goes_on).then_some(&drawing.title));
        } else {
            leaves.push(Leaf { size, items: Vec::new(), bookmarks: Vec::new() });
            let (items, height) = fitted(&drawing.sheet.items, drawing.sheet.width, size);
            filled = ABOVE + height;
            put(&mut leaves, &items, ABOVE, Some(&drawing.title));
        }
        subject = own;
    }
    leaves
}

/// Lays a sheet on the last page, so far down.
fn put(leaves: &mut [Leaf], items: &[Item], top: f64, title: Option<&String>) {
    if let Some(leaf) = leaves.last_mut() {
        leaf.items.extend(items.iter().map(|item| item.moved(Vec2::new(0.0, top))));
        leaf.bookmarks.extend(title.cloned());
    }
}

/// What is on a sheet `width` mm wide, in the middle of a page's width and made smaller where it is higher than the page; and
/// how far down it reaches.
fn fitted(items: &[Item], width: f64, page: Size) -> (Vec<Item>, f64) {
    let ink = items.iter().filter_map(Item::extent).reduce(|a, b| a.union(b)).unwrap_or_default();
    let scale = (page.width / width).min((page.height - ABOVE - BELOW) / ink.y1).min(1.0);
    let by = Vec2::new((page.width - scale * width) / 2.0, 0.0);
    let put = |item: &Item| if scale < 1.0 { item.scaled(scale).moved(by) } else { item.moved(by) };
    (items.iter().map(put).collect(), scale * ink.y1)
}

/// The order of work on pages, then on a card.
pub(super) fn work(content: &Content<'_>) -> Result<Vec<Chapter>, Refusal> {
    let Content { book, service, steps, faces, .. } = content;
    let (name, chair, paper, lengths) = (book.name, book.chair, book.paper, book.lengths);
    let sheets = WorkSheets { name, chair, service, steps, lengths, faces, paper, foot: false };
    let pages = "Step by step with pictures: what lies ready, clamps and their openings, lengths that agree when it is square, checks, cautions, waits.";
    let card = "The steps on one page, to pin up and tick off.";
    Ok(vec![
        Chapter::drawn("Order of work", pages, paged(work_pages(&sheets))),
        Chapter::drawn("Card for the bench", card, paged(work_card(&sheets))),
    ])
}

fn paged(bound: Bound) -> Vec<Leaf> {
    let mut leaves: Vec<Leaf> = bound.sheets.into_iter().map(Leaf::of).collect();
    for bookmark in bound.bookmarks {
        leaves[bookmark.page].bookmarks.push(bookmark.title);
    }
    leaves
}
