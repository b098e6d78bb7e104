//! A chair on offer: where it begins, and what of it customers may choose.

use super::open::{Allowed, Entry, Opened, entries, plain};
use crate::choices::Choice;
use crate::design::{Design, Missing};
use crate::knob::{Kind, Knob, KnobRow};
use crate::money::{Currency, Money};
use crate::reading::Fields;
use crate::refusal::Refusal;
use crestrail_phrases::{say, word};
use crestrail_sorting::Order as _;
use serde_json::Value;

/// A chair on offer.
#[derive(Clone, Debug, PartialEq)]
pub struct Offer {
    /// What it is called.
    pub name: String,
    /// How it stands at first.
    pub design: Design,
    /// What customers may choose, in the order of the knobs.
    pub open: Vec<Opened>,
    /// The lowest price for which it can be had; told where the showroom tells prices so.
    pub from: Option<Money>,
}

/// Characters of a name.
pub(super) const LONGEST_NAME: usize = 60;

pub(super) fn offer(f: &Fields<'_>, shared: &[Entry<'_>], currency: Currency) -> Result<Offer, Refusal> {
    f.only(&["name", "knobs", "open", "from"])?;
    let name = f.text("name", LONGEST_NAME)?;
    let design = Design::from_fields(&f.object("knobs")?, Missing::Default)?;
    let own = entries(f)?;
    let general = shared.iter().filter(|entry| !own.iter().any(|o| o.knob == entry.knob));
    let mut open = own
        .iter()
        .chain(general)
        .map(|entry| entry.opened(&design, &name))
        .collect::<Result<Vec<Opened>, _>>()?;
    let place = |opened: &Opened| design.knobs().iter().position(|knob| knob.name == opened.knob);
    open.order_by_key(place);
    let from = f.has("from").then(|| crate::shop::price(f, "from", currency)).transpose()?;
    Ok(Offer { name, design, open, from })
}

impl Offer {
    /// What a kind of chair it is, in words.
    pub fn kind(&self) -> &'static str {
        self.design.family().label()
    }

    /// The rows of the open knobs with the ranges allowed, their first values those of the offer; without those that can
    /// have no effect.
    pub fn rows(&self) -> Vec<KnobRow> {
        let values = self.design.to_map();
        let fixed = |name: &str| {
            let is_open = self.opened(name).is_some();
            if is_open { None } else { values.get(name).and_then(Value::as_str).map(str::to_owned) }
        };
        let row = |opened: &Opened| {
            narrowed(self.knob(opened.knob)?, opened, values.get(opened.knob)?).given(fixed)
        };
        self.open.iter().filter_map(row).collect()
    }

    fn opened(&self, name: &str) -> Option<&Opened> {
        self.open.iter().find(|opened| opened.knob == name)
    }

    pub(super) fn knob(&self, name: &str) -> Option<&'static Knob> {
        self.design.knobs().iter().find(|knob| knob.name == name)
    }

    /// Refuses a design that customers cannot have made of this offer: the knob, its value there and what is allowed.
    pub fn allows(&self, design: &Design) -> Result<(), Refusal> {
        let (own, other) = (self.design.to_map(), design.to_map());
        for knob in self.design.knobs() {
            let (Some(mine), Some(value)) = (own.get(knob.name), other.get(knob.name)) else { continue };
            let opened = self.opened(knob.name);
            let allowed = opened.map_or(mine == value, |opened| opened.allows(value));
            if !allowed {
                return Err(self.outside(
                    knob,
                    value,
                    opened.map_or_else(|| said(knob, mine), |o| words(knob, o)),
                ));
            }
        }
        Ok(())
    }

    fn outside(&self, knob: &Knob, value: &Value, allowed: String) -> Refusal {
        let why =
            say!("{} is {}; with “{}” it is {allowed}.", word(knob.label), said(knob, value), self.name);
        Refusal::new(knob.name, why)
    }
}

/// The row of a knob within what is allowed.
fn narrowed(knob: &Knob, opened: &Opened, first: &Value) -> KnobRow {
    let number = first.as_f64().unwrap_or_default();
    let kind = match (knob.kind, &opened.allowed) {
        (Kind::Range { unit, step, .. }, Allowed::Span(min, max)) => {
            Kind::Range { unit, min: *min, max: *max, step, default: number }
        }
        (Kind::Count { .. }, Allowed::Span(min, max)) => {
            Kind::Count { min: *min as u8, max: *max as u8, default: number as u8 }
        }
        (Kind::Choice { options, allowed, default }, Allowed::Picks(_)) => {
            let default = options().iter().find(|pick| first == pick.name).map_or(default, |pick| pick.name);
            Kind::Choice { options, allowed, default }
        }
        (kind, _) => kind,
    };
    let row = Knob { kind, ..*knob }.row();
    match &opened.allowed {
        Allowed::Picks(names) => row.only(names),
        Allowed::Span(..) => row,
    }
}

/// A value in words.
pub(super) fn said(knob: &Knob, value: &Value) -> String {
    let picks = knob.picks();
    let pick = picks.iter().find(|pick| value == pick.name);
    match (pick, knob.kind) {
        (Some(pick), _) => format!("“{}”", word(pick.label)),
        (None, Kind::Range { unit, .. }) => say!("{}{}", plain(value), unit.sign()),
        (None, _) => plain(value),
    }
}

/// What is allowed, in words.
fn words(knob: &Knob, opened: &Opened) -> String {
    match &opened.allowed {
        Allowed::Span(from, to) => {
            say!("from {} to {}", plain(&(*from).into()), said(knob, &(*to).into()))
        }
        Allowed::Picks(names) => {
            names.iter().map(|name| said(knob, &(*name).into())).collect::<Vec<_>>().join(", ")
        }
    }
}
