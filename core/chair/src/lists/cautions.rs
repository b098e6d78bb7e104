//! Cautions for the bench and for whoever relies on the figures.

use super::CuttingRow;
use crate::shop::Shop;
use crestrail_phrases::{phrase, say, word};
use crestrail_sorting::Order as _;
use crestrail_timber::{Kind, Species};

/// Cautions for these rows, the workshop's own ones last. Each names its source or says common practice.
pub fn cautions(rows: &[CuttingRow], shop: &Shop) -> Vec<String> {
    let mut said: Vec<String> = GENERAL.iter().map(|s| word(s).to_owned()).collect();
    if rows.iter().any(|r| r.material.species().is_some_and(|s| s.kind == Kind::Hardwood)) {
        said.push(word(HARDWOOD).to_owned());
    }
    said.extend(sensitisers(rows));
    let sawn = |r: &&CuttingRow| {
        let small = r.role.is_small() && r.role != crate::part::Role::LooseTenon;
        r.material.species().is_some() && !small
    };
    if rows.iter().filter(sawn).any(|r| r.trade_thickness.is_none()) {
        said.push(word(TOO_THICK).to_owned());
    }
    said.extend(shop.cautions.iter().cloned());
    said
}

/// Cautions for whoever sits on the chair; the others are for whoever makes it.
pub fn customer_cautions() -> Vec<&'static str> {
    GENERAL[..FOR_CUSTOMERS].iter().map(|caution| word(caution)).collect()
}

/// How many of the general cautions come first and are for customers.
const FOR_CUSTOMERS: usize = 3;

const GENERAL: &[&str] = &[
    phrase(
        "These figures are calculations, not a test: build a trial chair and have it tested before one is sold, at home after EN 12520 with EN 1728, in public places after EN 16139, for tipping after EN 1022, for children after EN 17191 or EN 1729. Local rules, standards and licensed practice come first (common practice).",
    ),
    phrase(
        "No chair is meant for standing on, or for tilting on its back legs: a worn joint or a slip can throw whoever does it. Rockers and castors are not reckoned with here.",
    ),
    phrase(
        "Children use a chair in ways nobody plans, climbing and rocking; a child's chair needs a test for children, low weight or not.",
    ),
    phrase(
        "Guard every machine, keep hands away from the cutter, use push sticks, and saw short and tapered pieces on a carrier (common practice).",
    ),
    phrase(
        "Wood dust causes cancer of the nose (IARC Group 1, monographs 62 and 100C) and asthma (HSE: carpenters and joiners four times as often). Extract it at the machine and wear a mask.",
    ),
    phrase(
        "Solvents of glues and finishes burn, their vapour harms: air the room, wear gloves, follow the maker's safety sheet (common practice).",
    ),
    phrase(
        "Rags wet with linseed or tung oil can catch fire by themselves within hours: spread them flat outdoors to dry, or soak them in water in a lidded metal can (university laboratory safety notes).",
    ),
];

const HARDWOOD: &str = phrase(
    "Dust of this timber counts as hardwood dust: the limit in the EU is 2 mg/m³ inhalable over 8 hours (Directive (EU) 2017/2398, since 17 January 2023).",
);

const TOO_THICK: &str = phrase(
    "A part is thicker than any trade size of this workshop's yard: ask for the price of specially sawn timber, or glue the part up (common practice).",
);

/// Species that irritate or sensitise, by their ids. Source: a list in American Woodturner, 1990; absence from a
/// list proves nothing.
const SENSITISERS: &[&str] = &[
    "beech_american",
    "beech_european",
    "birch_paper",
    "birch_sweet",
    "birch_yellow",
    "elm_american",
    "elm_slippery",
    "mahogany_african",
    "mahogany_true",
    "oak_european",
    "oak_red",
    "oak_white",
    "teak",
    "walnut_black",
];

fn sensitisers(rows: &[CuttingRow]) -> Vec<String> {
    let mut found: Vec<&Species> = rows.iter().filter_map(|r| r.material.species()).collect();
    found.order_by_key(|s| s.id);
    found.dedup();
    found.retain(|s| SENSITISERS.contains(&s.id));
    let say = |s: &Species| {
        say!(
            "Dust of {} irritates or sensitises some people (list in American Woodturner, 1990; absence from it proves nothing).",
            word(s.name)
        )
    };
    found.into_iter().map(say).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lists::cutting_list;
    use crate::lists::sample::{ALLOWANCES, chair_of};

    fn said(species: &str) -> String {
        let shop = Shop::demo();
        cautions(&cutting_list(&chair_of(species), &ALLOWANCES, shop.thicknesses), &shop).join("\n")
    }

    #[test]
    fn dust_depends_on_the_timber() {
        assert!(said("oak_white").contains("Dust of white oak irritates"));
        assert!(said("oak_white").contains("2 mg/m³"));
        assert!(!said("pine_scots").contains("2 mg/m³"));
        assert!(!said("ash_white").contains("irritates"));
        assert!(said("ash_white").contains("ask the yard before you promise"));
    }

    #[test]
    fn listed_species_exist() {
        assert!(SENSITISERS.iter().all(|id| crestrail_timber::species(id).is_some()));
    }
}
