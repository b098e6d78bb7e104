//! One size of the chair beside what the sitter wants.

use super::item::Item;
use super::measured::Measured;
use super::want::Want;
use super::words;
use crate::finding::{About, Finding, Topic, Verdict};
use crate::service::Service;
use crestrail_phrases::word;
use crestrail_sitter::{Range, Sitter, Suits, suits};
use serde::Serialize;

/// A row of the table of fit.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FitRow {
    /// What is compared.
    pub item: Item,
    /// Its name.
    pub measure: &'static str,
    /// Its size on the chair.
    pub chair: f64,
    /// Unit of all figures.
    pub unit: &'static str,
    /// The least size wanted.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at_least: Option<f64>,
    /// The greatest size wanted.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at_most: Option<f64>,
    /// Share of women whom it suits, where their measure is known: US soldiers measured in 2012.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub women: Option<String>,
    /// Share of men, likewise.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub men: Option<String>,
    /// Share of people as tall, and as heavy, as the sitter whom it suits.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub people: Option<String>,
    /// How it stands.
    pub verdict: Verdict,
    /// What it means.
    pub plain: String,
    /// What was found, for a maker.
    pub say: String,
    /// The knob that mends it.
    pub knob: &'static str,
    /// Who says what is wanted.
    pub source: &'static str,
}

impl FitRow {
    /// The row of one size; nothing where the chair has no such size or nobody says what is wanted.
    pub(super) fn of(item: Item, measured: &Measured, service: &Service) -> Option<Self> {
        let want = Want::of(item, measured, service)?;
        let chair = item.on(measured, service, middle(want.sound))?;
        let mut row = Self {
            item,
            measure: word(item.name()),
            chair,
            unit: item.unit(),
            at_least: want.sound.at_least,
            at_most: want.sound.at_most,
            women: None,
            men: None,
            people: None,
            verdict: verdict(chair, want),
            plain: String::new(),
            say: String::new(),
            knob: item.knob(measured.high),
            source: word(want.source),
        };
        row.share(service.sitter);
        row.plain = words::plain(&row);
        row.say = words::maker(&row);
        Some(row)
    }

    /// The sizes wanted.
    pub fn wanted(&self) -> Range {
        Range { at_least: self.at_least, at_most: self.at_most }
    }

    /// Tells whom the size suits: of grown-ups at large, and of people like the sitter.
    fn share(&mut self, sitter: Sitter) {
        let Some(rule) =
            self.item.rule().filter(|_| matches!(sitter, Sitter::Adults | Sitter::Stature { .. }))
        else {
            return;
        };
        let of = |sitter| suits(rule, self.chair, sitter).ok().map(|answer| answer.suits);
        let (all, own) = (of(Sitter::Adults), of(sitter));
        if let Some(Suits::Shares { women, men }) = all {
            (self.women, self.men) = (Some(women.to_string()), Some(men.to_string()));
        }
        if let Some(Suits::Person { chance, .. }) = own {
            self.people = Some(chance.to_string());
        }
    }

    /// The row as a finding.
    pub(super) fn finding(&self) -> Finding {
        let (limit, used) = limit(self.chair, self.wanted());
        Finding {
            subject: self.measure.to_owned(),
            topic: Topic::Fit,
            about: About::Chair,
            plain: self.plain.clone(),
            knob: Some(self.knob),
            say: self.say.clone(),
            value: self.chair,
            limit,
            unit: self.unit,
            verdict: self.verdict,
            used,
            source: self.source,
        }
    }
}

/// Sizes are compared to this, mm or degrees: figures of solids carry rounding.
const LEVEL: f64 = 1e-6;

fn verdict(value: f64, want: Want) -> Verdict {
    if want.sound.widened(LEVEL).holds(value) {
        Verdict::Sound
    } else if want.close.widened(LEVEL).holds(value) {
        Verdict::Close
    } else {
        Verdict::Fails
    }
}

/// The middle of a range, or its one end.
pub(super) fn middle(range: Range) -> f64 {
    match (range.at_least, range.at_most) {
        (Some(least), Some(most)) => (least + most) / 2.0,
        (Some(end), None) | (None, Some(end)) => end,
        (None, None) => 0.0,
    }
}

/// A limit is used up at most so many times.
const MOST_USED: f64 = 100.0;

/// The end of the range that is nearer and how much of it is used: 1 at the end, more past it.
fn limit(value: f64, range: Range) -> (f64, f64) {
    match (range.at_least, range.at_most) {
        (Some(least), Some(most)) => {
            let (half, off) = ((most - least) / 2.0, value - (most + least) / 2.0);
            let end = if off < 0.0 { least } else { most };
            (end, (off.abs() / half.max(LEVEL)).min(MOST_USED))
        }
        (Some(least), None) => (least, least / value.max(least / MOST_USED)),
        (None, Some(most)) => (most, value / most),
        (None, None) => (value, 0.0),
    }
}
