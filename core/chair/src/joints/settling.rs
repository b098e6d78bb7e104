//! Trying the plans of all joints until they stand side by side.

use super::corner::{self, Clash};
use super::draft::Draft;
use super::kinds::Ladder;
use super::rules;
use super::site::Site;
use super::sizing::Sizing;
use super::trouble;
use super::walls;
use crate::joint::Kind;
use crate::unbuildable::Unbuildable;

/// Joints that have room beside each other.
pub(super) struct Settled<'a> {
    pub(super) drafts: Vec<Draft<'a>>,
    pub(super) wishes: Vec<Wish>,
    /// How many plans were passed over.
    pub(super) given: usize,
}

/// What the maker wished of a joint, and why that gave way.
pub(super) struct Wish {
    pub(super) kind: Option<Kind>,
    pub(super) given_way: Option<String>,
}

/// Sizes all joints, and lets those give way that have no room.
pub(super) fn settle<'a>(sizing: &Sizing<'_>, sites: &[Site<'a>]) -> Result<Settled<'a>, Unbuildable> {
    let mut tries: Vec<Try<'a>> = sites.iter().map(|site| Try::new(sizing, *site)).collect();
    loop {
        let sized = tries.iter_mut().map(|t| t.sized(sizing)).collect::<Result<Vec<_>, _>>();
        let mut drafts = sized.map_err(trouble::sentence)?;
        match corner::part_where_they_meet(&mut drafts, sizing.design.corner()).and_then(|()| whole(&drafts))
        {
            Ok(()) => return Ok(settled(drafts, tries)),
            Err(Clash { between, error }) => {
                give_way(&mut tries, between, error).map_err(trouble::sentence)?;
            }
        }
    }
}

fn settled<'a>(drafts: Vec<Draft<'a>>, tries: Vec<Try<'a>>) -> Settled<'a> {
    let given = tries.iter().map(|t| t.step).sum();
    let wish = |t: Try<'a>| Wish {
        kind: t.ladder.wish,
        given_way: (t.step >= t.ladder.rule_from()).then_some(t.wish_failed).flatten(),
    };
    Settled { drafts, wishes: tries.into_iter().map(wish).collect(), given }
}

/// Whether every host stays whole around its mortises.
fn whole(drafts: &[Draft<'_>]) -> Result<(), Clash> {
    for (i, draft) in drafts.iter().enumerate() {
        let measured = walls::wall(draft).and_then(|wall| Ok(wall.min(walls::room_to_end(draft)?)));
        let clash = |error| Clash { between: [i, i], error };
        let least = measured.map_err(clash)?;
        if least < rules::NO_WALL {
            return Err(clash(trouble::breaks_out(&draft.site, least)));
        }
    }
    Ok(())
}

/// Of two joints that clash the one on a wish gives way, then the one that gave way less, then the later.
fn give_way(tries: &mut [Try<'_>], [i, j]: [usize; 2], error: Unbuildable) -> Result<(), Unbuildable> {
    let rank = |k: usize| (tries[k].step >= tries[k].ladder.rule_from(), tries[k].step);
    let (first, second) = if rank(i) < rank(j) { (i, j) } else { (j, i) };
    if tries[first].next(&error) || tries[second].next(&error) { Ok(()) } else { Err(error) }
}

/// One joint and the plan it is on.
struct Try<'a> {
    site: Site<'a>,
    ladder: Ladder,
    step: usize,
    draft: Option<Draft<'a>>,
    /// Why the wished kind has no room.
    wish_failed: Option<String>,
    /// Why the rule's first kind has no room.
    first: Option<Unbuildable>,
}

impl<'a> Try<'a> {
    fn new(sizing: &Sizing<'_>, site: Site<'a>) -> Self {
        let ladder = Ladder::of(sizing.design, &site);
        Self { site, ladder, step: 0, draft: None, wish_failed: None, first: None }
    }

    /// The joint of its plan, or of the next one that has room.
    fn sized(&mut self, sizing: &Sizing<'_>) -> Result<Draft<'a>, Unbuildable> {
        if let Some(draft) = &self.draft {
            return Ok(draft.clone());
        }
        loop {
            match sizing.draft(self.site, self.ladder.plans[self.step]) {
                Ok(draft) => {
                    self.draft = Some(draft.clone());
                    return Ok(draft);
                }
                Err(error) => {
                    if !self.next(&error) {
                        return Err(self.first.take().unwrap_or(error));
                    }
                }
            }
        }
    }

    /// Goes on to the next plan; false where there is none.
    fn next(&mut self, error: &Unbuildable) -> bool {
        if self.step < self.ladder.rule_from() {
            self.wish_failed = Some(error.why.clone());
        } else if self.first.is_none() {
            self.first = Some(error.clone());
        }
        if self.step + 1 >= self.ladder.plans.len() {
            return false;
        }
        self.step += 1;
        self.draft = None;
        true
    }
}
