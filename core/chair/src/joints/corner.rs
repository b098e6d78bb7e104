//! Tenons that meet inside one part: which way they share it.
//!
//! Tenons from opposite sides end before each other. Of tenons that cross, the way that leaves the most glue
//! area is taken, unless the maker wishes another that has room.

mod mitre;
mod opposite;
mod ways;

use super::draft::Draft;
use super::space::Space;
use super::{rules, trouble};
use crate::choices;
use crate::joint::{Corner, Way};
use crate::part::PartId;
use crate::unbuildable::Unbuildable;
use crestrail_phrases::{say, word};
use ways::Meet;

/// A pair of joints that have no room beside each other.
pub(super) struct Clash {
    pub(super) between: [usize; 2],
    pub(super) error: Unbuildable,
}

/// Parts all tenons that would run into each other.
pub(super) fn part_where_they_meet(drafts: &mut [Draft<'_>], wish: choices::Corner) -> Result<(), Clash> {
    opposite::shorten(drafts)?;
    // Each pass parts one tenon from all that cross it; none ever grows back into a tenon it was parted from.
    for _ in 0..drafts.len() {
        let Some(meet) = Meet::first(drafts) else { break };
        part(drafts, &meet, wish)?;
    }
    drafts.iter_mut().for_each(Draft::recentre);
    clear_haunches(drafts);
    none_left(drafts)
}

/// A joint's host and what its tenon takes of it.
struct Taken {
    host: PartId,
    spaces: Vec<Space>,
}

impl Taken {
    fn by(draft: &Draft<'_>) -> Self {
        Self { host: draft.site.host.id, spaces: draft.tenon_spaces().collect() }
    }

    /// Whether the tenons of two joints in one host come nearer than the gap.
    fn meets(&self, other: &Self) -> bool {
        let near = |space: &Space| other.spaces.iter().any(|other| !space.clear_of(other, rules::MITRE_GAP));
        self.host == other.host && self.spaces.iter().any(near)
    }
}

/// A way worked out: the joints as they would be, in the order of the meeting, and their glue area.
type Tried<'a> = (Way, Result<(Vec<Draft<'a>>, f64), String>);

fn part(drafts: &mut [Draft<'_>], meet: &Meet, wish: choices::Corner) -> Result<(), Clash> {
    let tried = ways::all(drafts, meet);
    let wished = match wish {
        choices::Corner::Rule => None,
        choices::Corner::Mitred => Some(Way::Mitred),
        choices::Corner::Halved => Some(Way::Halved),
        choices::Corner::Staggered => Some(Way::Staggered),
    };
    let area = |tried: &Tried<'_>| tried.1.as_ref().map_or(0.0, |(_, area)| *area);
    let fits = |tried: &&Tried<'_>| tried.1.is_ok();
    let best = tried.iter().filter(fits).max_by(|a, b| area(a).total_cmp(&area(b)).then(b.0.cmp(&a.0)));
    let chosen = tried.iter().filter(fits).find(|t| Some(t.0) == wished).or(best);
    let Some((way, Ok((parted, _)))) = chosen else {
        let [i, j] = [meet.crossing, meet.against[0]];
        let why =
            tried.iter().find_map(|t| t.1.as_ref().err()).map_or(word("there is no room"), String::as_str);
        return Err(Clash { between: [i, j], error: trouble::meets(&drafts[i].site, &drafts[j].site, why) });
    };
    let why = why(*way, wished, &tried);
    let weighed: Vec<_> = tried
        .iter()
        .map(|(way, done)| (*way, done.as_ref().map(|(_, area)| *area).map_err(Clone::clone)))
        .collect();
    let way = *way;
    for (place, draft) in meet.all().zip(parted.clone()) {
        let with = if place == meet.crossing { meet.against[0] } else { meet.crossing };
        let with = drafts[with].site.guest.id;
        drafts[place] = draft;
        drafts[place].corners.push(Corner { with, way, why: why.clone(), weighed: weighed.clone() });
    }
    Ok(())
}

fn why(way: Way, wished: Option<Way>, tried: &[Tried<'_>]) -> String {
    match wished {
        Some(wish) if wish == way => say!("Chosen by the maker."),
        Some(wish) => {
            let refused = tried.iter().find(|t| t.0 == wish).and_then(|t| t.1.as_ref().err());
            let refused = refused.map_or(word("there is no room"), String::as_str);
            say!("The tenons were to be {}, but {refused}; this way leaves the most glue area.", wish.name())
        }
        None => say!("Of the ways that have room this one leaves the most glue area."),
    }
}

/// Draws haunches back where they would run into a tenon or haunch of another joint.
fn clear_haunches(drafts: &mut [Draft<'_>]) {
    for i in 0..drafts.len() {
        if drafts[i].haunch.is_none() {
            continue;
        }
        let host = drafts[i].site.host.id;
        let others = drafts.iter().enumerate().filter(|(j, d)| *j != i && d.site.host.id == host);
        let mut spaces: Vec<Space> =
            others.flat_map(|(_, d)| d.tenon_spaces().chain(d.haunch_space())).collect();
        let twins = drafts.iter().filter(|d| d.site.host.id == host && d.has_twin());
        spaces.extend(twins.flat_map(|d| d.tenon_spaces().chain(d.haunch_space())).map(|s| s.mirrored_x()));
        shorten_haunch(&mut drafts[i], &spaces);
    }
}

/// A shorter haunch, or none, so that it stays clear of the spaces of others.
fn shorten_haunch(draft: &mut Draft<'_>, others: &[Space]) {
    while let Some(space) = draft.haunch_space() {
        if others.iter().all(|other| space.clear_of(other, rules::MITRE_GAP)) {
            return;
        }
        let shorter = draft.haunch.map(|h| crate::joint::Haunch { length: h.length - 1.0, ..h });
        draft.haunch = shorter.filter(|h| h.length >= super::sizing::LEAST_HAUNCH);
    }
}

/// Whether loose tenons and dowels in the ends of parts miss what else is cut there, and nothing meets any more.
fn none_left(drafts: &[Draft<'_>]) -> Result<(), Clash> {
    if let Some(meet) = Meet::first(drafts) {
        let [i, j] = [meet.crossing, meet.against[0]];
        let error = trouble::meets(&drafts[i].site, &drafts[j].site, word("there is no way to part them"));
        return Err(Clash { between: [i, j], error });
    }
    for (i, draft) in drafts.iter().enumerate() {
        let Some(own) = draft.guest_space() else { continue };
        let hosted = drafts.iter().enumerate().filter(|(_, d)| d.site.host.id == draft.site.guest.id);
        for (j, other) in hosted {
            if other.tenon_spaces().any(|space| !space.clear_of(&own, rules::MITRE_GAP)) {
                let error = trouble::meets(&other.site, &draft.site, word("one sits where the other is cut"));
                return Err(Clash { between: [i, j], error });
            }
        }
    }
    Ok(())
}
