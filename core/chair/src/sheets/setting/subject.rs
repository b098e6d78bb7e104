//! What has a setting-out sheet: each part that is made otherwise than the others, left and right told apart.

use super::figures::{Figure, figures};
use super::marks::Marked;
use crate::chair::{Chair, PartBody};
use crate::lists::is_own_mirror_image;
use crate::part::{Part, Side};
use crate::sheets::template::may_have_one;
use crate::unbuildable::Unbuildable;
use crestrail_sorting::Order as _;

/// A part, and all that are made like it.
#[derive(Clone, Debug)]
pub struct Subject<'a> {
    /// The part.
    pub part: &'a Part,
    /// Whether its twin on the other side is its mirror image and no other one.
    pub handed: bool,
    /// How many there are of it; of a handed part on its side.
    pub count: usize,
    /// What is marked on it.
    pub marked: Marked,
    /// The figures for it.
    pub figures: Vec<Figure>,
}

/// All subjects in the order of the letters.
pub fn subjects(chair: &Chair) -> Result<Vec<Subject<'_>>, Unbuildable> {
    let mut found: Vec<Subject<'_>> = Vec::new();
    for (part, body) in chair.pieces().filter(|(part, _)| may_have_one(part)) {
        let handed = part.id.side != Side::Middle && !is_own_mirror_image(&body.solid);
        let same = |other: &Subject<'_>| {
            other.part.letter == part.letter && (!handed || other.part.id.side == part.id.side)
        };
        match found.iter_mut().find(|other| same(other)) {
            Some(other) => other.count += 1,
            None => found.push(subject(chair, part, body, handed)?),
        }
    }
    // Of a pair the right one first, beside its twin.
    let letters: Vec<String> = found.iter().map(|subject| subject.part.letter.clone()).collect();
    let place = |s: &Subject<'_>| letters.iter().position(|letter| *letter == s.part.letter);
    found.order_by(|a, b| (place(a), b.part.id.side).cmp(&(place(b), a.part.id.side)));
    Ok(found)
}

fn subject<'a>(
    chair: &'a Chair,
    part: &'a Part,
    body: &PartBody,
    handed: bool,
) -> Result<Subject<'a>, Unbuildable> {
    let marked = Marked::of(chair, part, body)?;
    let figures = figures(&marked);
    Ok(Subject { part, handed, count: 1, marked, figures })
}

impl Subject<'_> {
    /// Whether it has neither joints nor shoulders, and nothing on its back faces that its front ones do not tell.
    pub fn is_plain(&self) -> bool {
        let marked = &self.marked;
        marked.marks.is_empty()
            && marked.shoulders.is_empty()
            && self.figures.iter().all(|figure| figure.face < 2)
    }

    /// The faces that are drawn, in the order in which they stand below each other: of a plain part the two in front.
    pub fn shown(&self) -> Vec<usize> {
        let all = self.marked.blank.unrolled().into_iter();
        all.filter(|face| *face < 2 || !self.is_plain()).collect()
    }

    /// Such as `A-right`, for names of files.
    pub fn key(&self) -> String {
        match self.hand() {
            "" => self.part.letter.clone(),
            hand => format!("{}-{hand}", self.part.letter),
        }
    }

    /// `right` or `left` of a part that has a hand.
    pub fn hand(&self) -> &'static str {
        match self.part.id.side {
            Side::Right if self.handed => "right",
            Side::Left if self.handed => "left",
            _ => "",
        }
    }

    /// Such as `A  Front leg, right`.
    pub fn title(&self) -> String {
        let name = super::capital(self.part.id.role.name());
        let hand = if self.handed { format!(", {}", self.hand()) } else { String::new() };
        let copies = if self.count > 1 { format!(", {} alike", self.count) } else { String::new() };
        format!("{}  {name}{hand}{copies}", self.part.letter)
    }
}
