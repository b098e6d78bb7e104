//! Tenons from opposite sides of one part.

use super::Clash;
use crate::joint::{Corner, Tongue, Way};
use crate::joints::draft::Draft;
use crate::joints::space::Space;
use crate::joints::{rules, trouble};
use crestrail_phrases::{phrase, word};

const WHY: &str =
    phrase("The tenons come from opposite sides, so each ends before the middle of what is between them.");

/// Lets every pair of opposite tenons end before each other.
pub(super) fn shorten(drafts: &mut [Draft<'_>]) -> Result<(), Clash> {
    for i in 0..drafts.len() {
        if drafts[i].has_twin() {
            against_twin(drafts, i)?;
        }
        for j in i + 1..drafts.len() {
            if are_opposite(&drafts[i], &drafts[j]) {
                pair(drafts, i, j)?;
            }
        }
    }
    Ok(())
}

fn are_opposite(a: &Draft<'_>, b: &Draft<'_>) -> bool {
    a.site.host.id == b.site.host.id && a.mouth.x.dot(b.mouth.x) < -0.5
}

/// Timber kept between two tenon ends: a wall between their mortises, or no more than a gap.
fn keeps(draft: &Draft<'_>) -> [f64; 2] {
    [rules::OPPOSITE_WALL + 2.0 * draft.end_room(), rules::MITRE_GAP]
}

/// A tenon lengthened, to feel whether another one comes near its end.
fn spaces_with(draft: &Draft<'_>, more: f64) -> Vec<Space> {
    draft.longer_spaces(more).collect()
}

fn meet(some: &[Space], others: &[Space]) -> bool {
    some.iter().any(|s| others.iter().any(|o| !s.clear_of(o, 0.0)))
}

/// The mirror image of a tenon in a part in the middle of the chair.
fn against_twin(drafts: &mut [Draft<'_>], i: usize) -> Result<(), Clash> {
    let draft = &drafts[i];
    let keep = keeps(draft)[0] / 2.0;
    let meets_with = |more: f64| {
        let own = spaces_with(draft, more + keep);
        meet(&own, &own.iter().map(Space::mirrored_x).collect::<Vec<_>>())
    };
    if !meets_with(draft.spare()) {
        return Ok(());
    }
    let span = 2.0 * draft.mouth.origin.x / -draft.mouth.x.x;
    let fair = best(keeps(draft).map(|keep| (span - keep) / 2.0));
    if !meets_with(0.0) {
        drafts[i].never_beyond(fair);
        return Ok(());
    }
    let with = draft.site.guest.id.mirrored();
    end_at(drafts, i, fair, with, [i, i])
}

fn pair(drafts: &mut [Draft<'_>], i: usize, j: usize) -> Result<(), Clash> {
    let (a, b) = (&drafts[i], &drafts[j]);
    let [keep, least] = keeps(a);
    let meet_with = |more: [f64; 2]| meet(&spaces_with(a, more[0] + keep), &spaces_with(b, more[1]));
    if !meet_with([a.spare(), b.spare()]) {
        return Ok(());
    }
    let span = (b.mouth.origin - a.mouth.origin).dot(a.mouth.x);
    let share = |lengths: [f64; 2], keep: f64| {
        let fair = (span - keep) / 2.0;
        let of = |own: f64, other: f64| if own <= fair { own } else { fair.max(span - keep - other) };
        [of(lengths[0], lengths[1]), of(lengths[1], lengths[0])]
    };
    let now = [a.length(), b.length()];
    if !meet_with([0.0, 0.0]) {
        let most = share([a.longest, b.longest], keep);
        drafts[i].never_beyond(most[0].min(span - keep - now[1]));
        drafts[j].never_beyond(most[1].min(span - keep - now[0]));
        return Ok(());
    }
    let (walled, bare) = (share(now, keep), share(now, least));
    let taken = [best([walled[0], bare[0]]), best([walled[1], bare[1]])];
    let ids = [a.site.guest.id, b.site.guest.id];
    end_at(drafts, i, taken[0], ids[1], [i, j])?;
    end_at(drafts, j, taken[1], ids[0], [i, j])
}

impl Draft<'_> {
    /// How much longer the tenon may become where it is mitred, mm.
    fn spare(&self) -> f64 {
        (self.longest - self.length()).max(0.0)
    }

    /// Keeps a tenon that is clear now from becoming longer than `length`.
    fn never_beyond(&mut self, length: f64) {
        self.longest = self.longest.min(length.max(self.length()));
    }
}

/// With a wall between the mortises if that leaves a fair tenon.
fn best([walled, bare]: [f64; 2]) -> f64 {
    const FAIR: f64 = 16.0;
    if walled >= FAIR { walled } else { bare }
}

fn end_at(
    drafts: &mut [Draft<'_>],
    i: usize,
    length: f64,
    with: crate::part::PartId,
    between: [usize; 2],
) -> Result<(), Clash> {
    let draft = &mut drafts[i];
    let length = length.min(draft.length());
    if draft.far.is_some() || length < rules::SHORTEST {
        let why = word("each would have to end before the other");
        let other = drafts[between[1]].site;
        return Err(Clash { between, error: trouble::meets(&drafts[i].site, &other, why) });
    }
    draft.tongues.iter_mut().for_each(|t: &mut Tongue| t.to = t.to.min(length));
    draft.longest = draft.longest.min(length);
    draft.haunch = draft.haunch.filter(|h| h.length < length);
    let weighed = vec![(Way::EndToEnd, Ok(draft.cheeks()))];
    draft.corners.push(Corner { with, way: Way::EndToEnd, why: word(WHY).to_owned(), weighed });
    Ok(())
}
