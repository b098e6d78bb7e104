//! A knob that the maker has opened, and how far.

use crate::design::Design;
use crate::knob::{Kind, Knob};
use crate::reading::{Fields, Limits, number, text};
use crate::refusal::Refusal;
use crestrail_phrases::{in_sentence, phrase, say, word};
use serde_json::Value;

/// A knob that customers may turn.
#[derive(Clone, Debug, PartialEq)]
pub struct Opened {
    /// Its name.
    pub knob: &'static str,
    /// The values it may take.
    pub allowed: Allowed,
}

/// The values that are allowed of an open knob.
#[derive(Clone, Debug, PartialEq)]
pub enum Allowed {
    /// From one value to another.
    Span(f64, f64),
    /// Possibilities of a choice, two or more, in the order of the knob.
    Picks(Vec<&'static str>),
}

/// One entry of a list `open`, not yet held against a kind of chair.
pub(super) struct Entry<'a> {
    fields: Fields<'a>,
    pub(super) knob: String,
}

/// Most entries: more than there are knobs.
const MOST: usize = 200;

/// The entries of a list that may be left out; a knob stands in it once.
pub(super) fn entries<'a>(f: &Fields<'a>) -> Result<Vec<Entry<'a>>, Refusal> {
    if !f.has("open") {
        return Ok(Vec::new());
    }
    let mut entries: Vec<Entry<'a>> = Vec::new();
    for (path, value) in f.list("open", MOST)? {
        let fields = Fields::at(path, value)?;
        let knob = fields.text("knob", 60)?;
        if entries.iter().any(|entry| entry.knob == knob) {
            return Err(Refusal::new(
                fields.path("knob"),
                say!("\"{knob}\" is opened twice. Keep one entry."),
            ));
        }
        entries.push(Entry { fields, knob });
    }
    Ok(entries)
}

impl Entry<'_> {
    /// The entry for chairs that begin as `design`, which people call `offer`.
    pub(super) fn opened(&self, design: &Design, offer: &str) -> Result<Opened, Refusal> {
        let knob = design.knobs().iter().find(|knob| knob.name == self.knob);
        let knob = knob.filter(|knob| knob.name != "family").ok_or_else(|| self.unknown())?;
        let allowed = match knob.kind {
            Kind::Range { min, max, .. } => self.span(knob, min, max, offer)?,
            Kind::Count { min, max, .. } => self.span(knob, min.into(), max.into(), offer)?,
            Kind::Choice { .. } => self.picks(knob, offer)?,
        };
        let opened = Opened { knob: knob.name, allowed };
        let begins = design.to_map();
        match begins.get(knob.name).filter(|value| !opened.allows(value)) {
            None => Ok(opened),
            Some(value) => Err(self.refuse(say!(
                "“{offer}” begins with {} at {}, which is not allowed here. Change one of the two.",
                in_sentence(knob.label),
                plain(value)
            ))),
        }
    }

    fn unknown(&self) -> Refusal {
        let why = match self.knob.as_str() {
            "family" => {
                say!("The kind of chair is not opened; make each kind an offer of its own in \"offers\".")
            }
            other => say!("There is no knob called \"{other}\". Write the name that a saved design has."),
        };
        Refusal::new(self.fields.path("knob"), why)
    }

    fn refuse(&self, why: String) -> Refusal {
        Refusal::new(self.fields.path("knob"), why)
    }

    fn span(&self, knob: &Knob, min: f64, max: f64, offer: &str) -> Result<Allowed, Refusal> {
        let f = &self.fields;
        if f.has("only") {
            let why = say!("{} is a size. Write \"from\" and \"to\" instead.", word(knob.label));
            return Err(Refusal::new(f.path("only"), why));
        }
        f.only(&["knob", "from", "to"])?;
        let label = say!("{} of “{offer}”", word(knob.label));
        let end = |name: &str, otherwise: f64| match f.value(name) {
            None => Ok(otherwise),
            Some(value) => within(f.path(name), value, &label, min, max),
        };
        let (from, to) = (end("from", min)?, end("to", max)?);
        let whole = !matches!(knob.kind, Kind::Count { .. }) || (from.fract() == 0.0 && to.fract() == 0.0);
        if !whole {
            return Err(self.refuse(say!("{} is a count. Write whole numbers.", word(knob.label))));
        }
        if from < to { Ok(Allowed::Span(from, to)) } else { Err(self.nothing(&in_sentence(knob.label))) }
    }

    fn nothing(&self, label: &str) -> Refusal {
        self.refuse(say!("This leaves nothing to choose of {label}. Widen it, or take the entry out."))
    }

    fn picks(&self, knob: &Knob, offer: &str) -> Result<Allowed, Refusal> {
        let f = &self.fields;
        if f.has("from") || f.has("to") {
            let why = say!("{} is a choice. Write \"only\" with the names that you allow.", word(knob.label));
            return Err(self.refuse(why));
        }
        f.only(&["knob", "only"])?;
        let known: Vec<&'static str> = knob.picks().iter().map(|pick| pick.name).collect();
        let mut wanted = known.clone();
        if f.has("only") {
            let mut said: Vec<&str> = Vec::new();
            for (path, value) in f.list("only", MOST)? {
                let name = text(path.clone(), value, 60)?;
                let found = known.iter().find(|k| **k == name).ok_or_else(|| {
                    let why = say!(
                        "{} of “{offer}” cannot be \"{name}\"; it can be {}.",
                        word(knob.label),
                        known.join(", ")
                    );
                    Refusal::new(path, why)
                })?;
                said.push(found);
            }
            wanted.retain(|name| said.contains(name));
        }
        if wanted.len() > 1 {
            Ok(Allowed::Picks(wanted))
        } else {
            Err(self.nothing(&in_sentence(knob.label)))
        }
    }
}

/// A number within the limits of a knob, which people call `label`.
fn within(path: String, value: &Value, label: &str, min: f64, max: f64) -> Result<f64, Refusal> {
    let any = Limits { label: phrase("The value"), min: f64::MIN, max: f64::MAX, unit: "" };
    let n = number(path.clone(), value, &any)?;
    if (min..=max).contains(&n) {
        return Ok(n);
    }
    Err(Refusal::new(path, say!("{label} cannot be {n}; it must be from {min} to {max}.")))
}

impl Opened {
    /// Whether a value of the knob is allowed.
    pub fn allows(&self, value: &Value) -> bool {
        match &self.allowed {
            Allowed::Span(from, to) => value.as_f64().is_some_and(|n| (*from..=*to).contains(&n)),
            Allowed::Picks(names) => value.as_str().is_some_and(|name| names.contains(&name)),
        }
    }
}

/// A value as people write it: without the quotes of JSON, and no decimals that say nothing.
pub(super) fn plain(value: &Value) -> String {
    match (value.as_str(), value.as_f64()) {
        (Some(text), _) => text.to_owned(),
        (None, Some(number)) => number.to_string(),
        (None, None) => value.to_string(),
    }
}
