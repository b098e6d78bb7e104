//! Which kind of joint: what the maker wishes, what the rule picks, and what to try where that has no room.

use super::rules;
use super::site::Site;
use crate::choices::JointKind;
use crate::design::Design;
use crate::joint::Kind;
use crate::meeting::JointGroup;
use crestrail_phrases::say;

/// One kind to try.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Plan {
    pub(super) kind: Kind,
    /// How many sizes smaller than the nearest the cutter is.
    pub(super) thin: usize,
    /// Whether the tenon may be as short as it must.
    pub(super) short: bool,
}

/// Kinds to try for one joint, in order.
#[derive(Clone, Debug)]
pub(super) struct Ladder {
    pub(super) plans: Vec<Plan>,
    /// The kind the maker wished, if it is not left to the rule.
    pub(super) wish: Option<Kind>,
}

impl Ladder {
    pub(super) fn of(design: &Design, site: &Site<'_>) -> Self {
        let wish = wished(design, site.group);
        let plan = |kind, thin, short| Plan { kind, thin, short };
        let mut plans = Vec::new();
        plans.extend(wish.filter(|kind| *kind != Kind::Blind).map(|kind| plan(kind, 0, false)));
        if wish.is_none() && wide(site) {
            plans.push(plan(Kind::Twin, 0, false));
        }
        let blind = [(0, false), (1, false), (1, true), (2, true), (3, true)];
        plans.extend(blind.map(|(thin, short)| plan(Kind::Blind, thin, short)));
        let last = [Kind::BareFaced, Kind::Loose, Kind::Dowels];
        plans.extend(last.map(|kind| plan(kind, 0, true)));
        plans.push(plan(Kind::Dowels, 1, true));
        Self { plans, wish }
    }

    /// Where the rule's own kinds begin.
    pub(super) fn rule_from(&self) -> usize {
        usize::from(self.wish.is_some_and(|kind| kind != Kind::Blind))
    }
}

/// The kind asked for; what stands between the back's rails always follows the rule.
fn wished(design: &Design, group: JointGroup) -> Option<Kind> {
    let kind = match group {
        JointGroup::Rails => design.rail_joint(),
        JointGroup::Stretchers => design.stretcher_joint(),
        JointGroup::Back => design.back_joint(),
        JointGroup::Arms => design.arm_joint(),
        JointGroup::Fill => JointKind::Rule,
    };
    match kind {
        JointKind::Rule => None,
        JointKind::Blind => Some(Kind::Blind),
        JointKind::Through => Some(Kind::Through),
        JointKind::BareFaced => Some(Kind::BareFaced),
        JointKind::Twin => Some(Kind::Twin),
        JointKind::Loose => Some(Kind::Loose),
        JointKind::Dowels => Some(Kind::Dowels),
    }
}

/// Whether one tenon would be so wide that it works loose as it shrinks.
fn wide(site: &Site<'_>) -> bool {
    let [low, high] = site.guest.core;
    let width = (high - low).min(site.width.unwrap_or(f64::INFINITY));
    width - 2.0 * rules::edge_shoulder(width) > rules::TWIN_FROM
}

/// Why a joint is of its kind, as a sentence.
pub(super) fn why(kind: Kind, wish: Option<Kind>, width: f64) -> String {
    if wish == Some(kind) || (wish == Some(Kind::Blind) && kind == Kind::Haunched) {
        return say!("Chosen by the maker.");
    }
    match kind {
        Kind::Blind => say!("A tenon that ends inside holds well and shows nothing outside."),
        Kind::Twin => say!(
            "One tenon {width:.0} mm wide would shrink away from the long grain of its host; two move less."
        ),
        Kind::BareFaced => say!("The piece is too thin for a shoulder on both faces, so the tenon has one."),
        Kind::Loose => {
            say!("There is no room to cut a tenon on the piece itself, so a separate one joins both.")
        }
        Kind::Dowels => say!("There is no room for a tenon, so two dowels join the pieces."),
        Kind::Haunched => {
            say!(
                "The tenon is lowered to leave the end of the leg whole, and a haunch keeps the rail from twisting."
            )
        }
        Kind::Through => say!("The tenon goes through and is wedged from outside."),
    }
}

/// What to say where a wished kind had no room.
pub(super) fn given_way(wish: Kind, kind: Kind, why: &str) -> String {
    say!("A {} was wished, but {why}; a {} is made.", wish.name(), kind.name())
}
