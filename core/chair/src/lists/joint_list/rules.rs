//! The rules that a joint followed, each with its source.

use crate::joint::{Joint, Kind, Way};
use crestrail_phrases::{phrase, word};
use serde::Serialize;

/// A rule that was followed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Rule {
    /// What it says.
    pub say: &'static str,
    /// Who says so.
    pub source: &'static str,
}

const JOYCE: &str = phrase("Joyce, The Technique of Furniture Making");
const COMMON: &str = phrase("common practice, no source");

fn rule(say: &'static str, source: &'static str) -> Rule {
    Rule { say: word(say), source: word(source) }
}

/// The rules of a joint.
pub(super) fn of(joint: &Joint) -> Vec<Rule> {
    let mut found = kind(joint);
    found.extend(joint.corners.iter().filter_map(|corner| way(corner.way)));
    if joint.tenon.haunch.is_some() || joint.tenon.shoulders.top > joint.tenon.shoulders.bottom + 1.0 {
        found.push(rule(phrase("A third of the rail's width stays whole at the end of the leg."), JOYCE));
    }
    if !joint.pegs.is_empty() {
        found.push(rule(
            phrase("Pegs one and a half diameters or more from the shoulder, about 16 mm from the leg's face where there is room."),
            phrase("craft texts; distances: common practice, no source"),
        ));
    }
    if joint.pegs.iter().any(|peg| peg.draw > 0.0) {
        found.push(rule(
            phrase("The hole in the tenon is bored a little nearer to the shoulder, so that the peg draws the joint tight."),
            phrase("0.8 to 2.4 mm, or a quarter of the peg: craft texts"),
        ));
    }
    found
}

fn kind(joint: &Joint) -> Vec<Rule> {
    let play = rule(
        phrase("Play of 0.1 mm over the whole thickness."),
        phrase("Elek et al. 2020; Liu et al. 2024, Forests 15:1612"),
    );
    let third = rule(
        phrase("Tenon a third to just under half of the part's thickness, to the nearest cutter."),
        phrase("Joyce, The Technique of Furniture Making; a third tested best: Oktaee et al. 2014"),
    );
    let deeper = rule(phrase("Mortise deeper than the tenon, for glue."), JOYCE);
    let length = rule(
        phrase("Length up to four times the thickness, leaving 6 mm behind the mortise."),
        phrase(
            "leg-to-apron practice of the trade press (three to four times); wall: common practice, no source",
        ),
    );
    match joint.kind {
        Kind::Dowels => vec![
            rule(phrase("Two dowels, about half as thick as the part."), COMMON),
            rule(phrase("Dowels 20 to 30 mm deep where there is room, holes 2 mm deeper."), COMMON),
        ],
        Kind::Through => vec![
            third,
            rule(phrase("Sawn to two thirds of its length and wedged 1 in 10."), COMMON),
            rule(
                phrase("Wedges lie across the tenon, so that it spreads along the grain of its host."),
                COMMON,
            ),
            play,
        ],
        Kind::BareFaced => {
            vec![
                rule(phrase("A bare-faced tenon keeps a shoulder of 2 mm or more."), JOYCE),
                deeper,
                play,
                length,
            ]
        }
        Kind::Twin => {
            vec![
                third,
                rule(phrase("Twin tenons from 75 to 100 mm of width on."), COMMON),
                deeper,
                play,
                length,
            ]
        }
        Kind::Blind | Kind::Haunched | Kind::Loose => vec![third, deeper, play, length],
    }
}

fn way(way: Way) -> Option<Rule> {
    match way {
        Way::Mitred => {
            Some(rule(phrase("Where two tenons meet in a leg their ends are mitred and keep a gap."), JOYCE))
        }
        Way::Halved => Some(rule(
            phrase("Where two tenons meet in a leg they are halved past each other and keep a gap."),
            JOYCE,
        )),
        Way::Staggered => {
            Some(rule(phrase("Where two tenons meet in a leg one stands above the other."), COMMON))
        }
        Way::Stopped | Way::EndToEnd => Some(rule(phrase("Where two tenons meet they keep a gap."), JOYCE)),
    }
}
