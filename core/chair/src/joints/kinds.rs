//! Which kind of joint is made, and why.

use super::site::Site;
use crate::choices::JointKind;
use crate::design::Design;
use crate::joint::Kind;
use crate::meeting::JointGroup;

/// The kind a design asks for, if it leaves it not to the rules.
pub(super) fn wish(design: &Design, group: JointGroup) -> Option<Kind> {
    let choice = match group {
        JointGroup::Rails => design.rail_joint(),
        JointGroup::Stretchers => design.stretcher_joint(),
        JointGroup::Back => design.back_joint(),
        JointGroup::Arms => design.arm_joint(),
        JointGroup::Fill => JointKind::Rule,
    };
    match choice {
        JointKind::Rule => None,
        JointKind::Blind => Some(Kind::Blind),
        JointKind::Through => Some(Kind::Through),
        JointKind::BareFaced => Some(Kind::BareFaced),
        JointKind::Twin => Some(Kind::Twin),
        JointKind::Loose => Some(Kind::Loose),
        JointKind::Dowels => Some(Kind::Dowels),
    }
}

/// The kinds to try in the rules' order; each falls back to the next where it has no room.
pub(super) fn by_rule(site: &Site<'_>) -> &'static [Kind] {
    let width = site.guest.core[1] - site.guest.core[0];
    if width > super::rules::TWIN_FROM && site.group == JointGroup::Rails {
        &[Kind::Twin, Kind::Blind, Kind::BareFaced, Kind::Dowels]
    } else {
        &[Kind::Blind, Kind::BareFaced, Kind::Dowels]
    }
}

/// Why the rules pick a kind.
pub(super) fn reason(kind: Kind) -> &'static str {
    match kind {
        Kind::Blind => "A blind tenon has shoulders all round and leaves the far face whole.",
        Kind::Haunched => {
            "At the end of a leg the tenon is lowered, and a haunch keeps the rail from twisting."
        }
        Kind::Through => "A through tenon has the most glue and its wedges hold it without.",
        Kind::BareFaced => "The piece is too thin for a shoulder on both faces.",
        Kind::Twin => "A rail this high would move too much against the leg: two tenons share it.",
        Kind::Loose => "A loose tenon sits in two mortises.",
        Kind::Dowels => "There is no room for a tenon here.",
    }
}

/// Why a kind that was asked for is made.
pub(super) const ASKED: &str = "Chosen by the maker.";
