//! Cover and chapters as one run of numbered pages.

use super::Content;
use super::chapter::{Chapter, Leaf};
use super::cover;
use crate::export::set::SMALL;
use crestrail_sheet::pdf::{Bookmark, Page};
use crestrail_sheet::setting::length;
use crestrail_sheet::{Align, Faces, Item, Sheet, Text, Unit};
use kurbo::Point;

/// From the lower edge of a page to the base line of its foot, mm: below the frame of a drawing, and as far from the edge
/// as most printers reach (common practice, no source).
const FOOT: f64 = 6.0;
/// From the sides of a page to its foot, mm.
const SIDE: f64 = 20.0;
/// Kept free for the mark in the middle of a drawing's lower edge, mm.
const MIDDLE: f64 = 6.0;

/// Where a chapter begins, for the contents.
pub(super) struct Entry {
    pub(super) title: &'static str,
    pub(super) holds: String,
    /// Its first page, counted from 1; none where it is left out.
    pub(super) page: Option<usize>,
}

/// All pages with their numbers, and the bookmarks.
pub(super) fn bound(content: &Content<'_>, chapters: Vec<Chapter>) -> (Vec<Page>, Vec<Bookmark>) {
    // The cover is as long whatever the numbers are: they stand in a column of their own.
    let picture = cover::picture(content);
    let before = cover::leaves(content, &entries(&chapters, 0), &picture).len();
    let cover = cover::leaves(content, &entries(&chapters, before), &picture);
    let front = Chapter::drawn("Bench book", String::new(), cover);
    let all: Vec<Chapter> = core::iter::once(front).chain(chapters).collect();
    let count = all.iter().map(|chapter| chapter.leaves.len()).sum();
    let (mut pages, mut bookmarks) = (Vec::with_capacity(count), Vec::new());
    for chapter in all.into_iter().filter(|chapter| !chapter.leaves.is_empty()) {
        bookmarks.push(bookmark(&chapter, pages.len()));
        let foot = Foot { chapter: chapter.title, name: content.name(), count, faces: content.faces };
        for leaf in chapter.leaves {
            pages.push(foot.page(leaf, pages.len() + 1));
        }
    }
    (pages, bookmarks)
}

/// Where the chapters begin behind so many pages.
fn entries(chapters: &[Chapter], before: usize) -> Vec<Entry> {
    let mut next = before + 1;
    let entry = |chapter: &Chapter| {
        let page = (!chapter.leaves.is_empty()).then_some(next);
        next += chapter.leaves.len();
        Entry { title: chapter.title, holds: chapter.holds.clone(), page }
    };
    chapters.iter().map(entry).collect()
}

fn bookmark(chapter: &Chapter, first: usize) -> Bookmark {
    let within = |(i, leaf): (usize, &Leaf)| {
        let mark = |title: &String| Bookmark { title: title.clone(), page: first + i, children: Vec::new() };
        // A sheet that is all of its chapter needs no mark of its own.
        leaf.bookmarks.iter().filter(|title| title.as_str() != chapter.title).map(mark).collect::<Vec<_>>()
    };
    let children = chapter.leaves.iter().enumerate().flat_map(within).collect();
    Bookmark { title: chapter.title.to_owned(), page: first, children }
}

/// What stands at the foot of a chapter's pages.
struct Foot<'a> {
    chapter: &'static str,
    name: &'a str,
    count: usize,
    faces: &'a Faces,
}

impl Foot<'_> {
    fn page(&self, leaf: Leaf, number: usize) -> Page {
        let Leaf { size, mut items, .. } = leaf;
        let at = |x: f64| Point::new(x, size.height - FOOT);
        let told = format!("{number} of {}", self.count);
        let room = size.width / 2.0 - SIDE - MIDDLE;
        let name = self.shortened(room - length(&format!("  ·  {told}"), &SMALL, self.faces));
        items.push(words(self.chapter, at(SIDE), Align::Start));
        items.push(words(&format!("{name}  ·  {told}"), at(size.width - SIDE), Align::End));
        let sheet = Sheet {
            width: size.width,
            height: size.height,
            unit: Unit::Millimetre,
            decimals: 2,
            title: self.chapter.to_owned(),
            description: format!("Page {told}"),
            items,
        };
        Page { sheet, label: number.to_string() }
    }

    /// As much of the design's name as has room.
    fn shortened(&self, room: f64) -> String {
        let fits = |name: &str| length(name, &SMALL, self.faces) <= room;
        if fits(self.name) {
            return self.name.to_owned();
        }
        let mut letters: Vec<char> = self.name.chars().collect();
        loop {
            letters.pop();
            let name = letters.iter().collect::<String>().trim_end().to_owned() + "…";
            if letters.is_empty() || fits(&name) {
                return name;
            }
        }
    }
}

fn words(words: &str, at: Point, align: Align) -> Item {
    let words = words.to_owned();
    Item::Text(Text {
        words,
        at,
        align,
        size: SMALL.size,
        weight: SMALL.weight,
        colour: SMALL.colour,
        turn: 0.0,
    })
}
