//! A design: the checked values of all knobs.

use crate::choices::{Choice, Family};
use crate::knob::{Kind, Knob, Unit};
use crate::knobs::KNOBS;
use crate::reading::{self, Fields, FileKind, is_stray};
use crate::refusal::{Mend, Refusal};
use crestrail_phrases::{in_sentence, phrase, say, word};
use serde_json::{Map, Value, json};

/// The file in which a design is kept.
pub const DESIGN_FILE: FileKind = FileKind { name: "design", file: "design.json", oldest: 1, version: 1 };

/// Longest name of a design, characters.
const LONGEST_NAME: usize = 60;

/// The checked values of all knobs, in the order of the table; it can only be made valid.
///
/// A choice is held as the place of its name in the list of options.
#[derive(Clone, Debug, PartialEq)]
pub struct Design {
    values: Vec<f64>,
}

/// A design as it is kept in a file.
#[derive(Clone, Debug, PartialEq)]
pub struct NamedDesign {
    /// What its owner calls it; may be empty.
    pub name: String,
    /// The values.
    pub design: Design,
}

/// What to do about knobs that a set of values does not mention.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Missing {
    /// They take their defaults.
    Default,
    /// Those that every version of the format had are missed, and the set is refused; later ones take their defaults.
    Refuse,
}

impl Default for Design {
    fn default() -> Self {
        Self::of(Family::SideChair)
    }
}

impl Design {
    /// A new design of a kind of chair.
    pub fn of(family: Family) -> Self {
        Self { values: family.knobs().iter().map(Knob::default_value).collect() }
    }

    /// The value in row `index` of the table.
    pub(crate) fn value(&self, index: usize) -> f64 {
        self.values[index]
    }

    /// Every knob with the limits of this kind of chair.
    pub fn knobs(&self) -> &'static [Knob] {
        self.family().knobs()
    }

    /// The design whose knobs have the given values, within the limits of the kind it names.
    pub fn from_fields(fields: &Fields<'_>, missing: Missing) -> Result<Self, Refusal> {
        if let Some((name, _)) = fields.all().find(|(name, _)| find(name).is_none()) {
            return Err(unknown(fields, name));
        }
        let absent = KNOBS.iter().find(|knob| FIRST.contains(&knob.name) && !fields.has(knob.name));
        if let (Missing::Refuse, Some(knob)) = (missing, absent) {
            let why = say!(
                "{} is missing. Add \"{}\" with a value, or save the design anew.",
                word(knob.label),
                knob.name
            );
            return Err(Refusal::new(fields.path(knob.name), why));
        }
        let family = match fields.value(FAMILY) {
            Some(value) => read_family(&fields.path(FAMILY), value)?,
            None => Family::SideChair,
        };
        let value = |knob: &Knob| match fields.value(knob.name) {
            Some(value) => knob.read(&fields.path(knob.name), value),
            None => Ok(knob.default_value()),
        };
        Ok(Self { values: family.knobs().iter().map(value).collect::<Result<_, _>>()? })
    }

    /// The design with these values; knobs that are not named take their defaults.
    pub fn from_value(value: &Value) -> Result<Self, Refusal> {
        // The paths of its fields are the knobs' own names; only the whole has a name of its own.
        let whole = |refusal| Refusal { where_: "design".to_owned(), ..refusal };
        Self::from_fields(&Fields::at("", value).map_err(whole)?, Missing::Default)
    }

    /// The same design with one knob set. Another kind of chair brings its own first values; knobs
    /// that had been changed keep their values where the new kind's limits allow.
    pub fn with(&self, name: &str, value: &Value) -> Result<Self, Refusal> {
        if name == FAMILY {
            return read_family(name, value).map(|family| self.turned_into(family));
        }
        let (index, _) = find(name).ok_or_else(|| unknown_name(name, name))?;
        let mut values = self.values.clone();
        values[index] = self.knobs()[index].read(name, value)?;
        Ok(Self { values })
    }

    fn turned_into(&self, family: Family) -> Self {
        let changed = self.differences();
        let kept = changed.iter().filter(|(name, _)| *name != FAMILY);
        kept.fold(Self::of(family), |design, (name, value)| design.with(name, value).unwrap_or(design))
    }

    /// The values by name: numbers, and names for choices.
    pub fn to_map(&self) -> Map<String, Value> {
        self.knobs()
            .iter()
            .zip(&self.values)
            .map(|(knob, &v)| (knob.name.to_owned(), knob.write(v)))
            .collect()
    }

    /// The kind of chair, unless it is a side chair, and the knobs that differ from its first values.
    pub fn differences(&self) -> Vec<(&'static str, Value)> {
        let family = self.family();
        let kind = (family != Family::SideChair).then(|| (FAMILY, family.name().into()));
        let rows = self.knobs().iter().zip(&self.values);
        let changed = rows.filter(|(knob, v)| **v != knob.default_value());
        kind.into_iter().chain(changed.map(|(knob, &v)| (knob.name, knob.write(v)))).collect()
    }
}

impl NamedDesign {
    /// Reads the text of a `design.json`.
    pub fn read(text: &str) -> Result<Self, Refusal> {
        Self::read_with_notes(text).map(|(named, _)| named)
    }

    /// Reads the text of a `design.json`, with what its owner should know of it.
    pub fn read_with_notes(text: &str) -> Result<(Self, Vec<String>), Refusal> {
        let value = reading::parse(DESIGN_FILE.file, text)?;
        let top = reading::open(&DESIGN_FILE, &value)?;
        top.only(&["crestrail", "name", "knobs"])?;
        let name = match top.value("name") {
            None => String::new(),
            Some(Value::String(name)) if name.trim().is_empty() => String::new(),
            Some(_) => top.text("name", LONGEST_NAME)?,
        };
        let knobs = top.object("knobs")?;
        let design = Design::from_fields(&knobs, Missing::Refuse)?;
        let is_earlier = KNOBS.iter().any(|knob| !knobs.has(knob.name));
        let notes = is_earlier.then(|| {
            word("It was saved by an earlier version; what could not be chosen then has its first value.")
                .to_owned()
        });
        Ok((Self { name, design }, notes.into_iter().collect()))
    }

    /// The text of a `design.json`.
    pub fn write(&self) -> String {
        let file =
            json!({"crestrail": DESIGN_FILE.header(), "name": self.name, "knobs": self.design.to_map()});
        format!("{file:#}\n")
    }
}

/// The knobs of the first version of the format, which every design that was ever written has. Whatever came later is missing from
/// earlier files.
const FIRST: [&str; 38] = [
    "seat_height",
    "seat_width",
    "narrowing",
    "seat_depth",
    "back_height",
    "rake",
    "back_slats",
    "back_fill",
    "back_slat_thickness",
    "back_clear",
    "back_top",
    "seat_slat_width",
    "seat_slat_thickness",
    "seat_slat_gap",
    "seat_overhang",
    "front_leg",
    "back_leg_thickness",
    "back_leg_depth",
    "back_leg_top",
    "back_leg_foot",
    "kick",
    "knee",
    "rail_width",
    "rail_thickness",
    "set_back",
    "stretchers",
    "stretcher_height",
    "stretcher_width",
    "stretcher_thickness",
    "tenon_share",
    "leg_end",
    "glue_gap",
    "pegs",
    "peg_size",
    "species",
    "allowance_length",
    "allowance_width",
    "allowance_thickness",
];

/// The knob of the kind of chair, on which the limits of all others depend.
const FAMILY: &str = "family";

fn read_family(path: &str, value: &Value) -> Result<Family, Refusal> {
    let (_, knob) = find(FAMILY).ok_or_else(|| unknown_name(path, FAMILY))?;
    knob.read(path, value).map(|place| Family::ALL[place as usize].0)
}

fn find(name: &str) -> Option<(usize, &'static Knob)> {
    KNOBS.iter().enumerate().find(|(_, knob)| knob.name == name)
}

fn unknown(fields: &Fields<'_>, name: &str) -> Refusal {
    unknown_name(&fields.path(name), name)
}

fn unknown_name(path: &str, name: &str) -> Refusal {
    let shown: String = name.chars().take(40).filter(|&c| !is_stray(c)).collect();
    Refusal::new(
        path,
        say!(
            "There is no knob called \"{shown}\". Take it out, or write one of the names that this program saves."
        ),
    )
}

impl Knob {
    /// Its value in a new design, as a design holds it.
    fn default_value(&self) -> f64 {
        match self.kind {
            Kind::Range { default, .. } => default,
            Kind::Count { default, .. } => default.into(),
            Kind::Choice { options, default, .. } => {
                options().iter().position(|o| o.name == default).unwrap_or_default() as f64
            }
        }
    }

    fn read(&self, path: &str, value: &Value) -> Result<f64, Refusal> {
        match self.kind {
            Kind::Range { unit, min, max, .. } => self.number(path, value, unit, min, max),
            Kind::Count { min, max, .. } => self.count(path, value, min.into(), max.into()),
            Kind::Choice { options, .. } => {
                let name = value
                    .as_str()
                    .ok_or_else(|| self.wrong_kind(path, phrase("one of its names as a text"), value))?;
                if !self.picks().iter().any(|o| o.name == name) {
                    return Err(self.no_choice(path, name));
                }
                Ok(options().iter().position(|o| o.name == name).unwrap_or_default() as f64)
            }
        }
    }

    fn number(&self, path: &str, value: &Value, unit: Unit, min: f64, max: f64) -> Result<f64, Refusal> {
        let n = value.as_f64().filter(|n| n.is_finite());
        let n = n.ok_or_else(|| self.wrong_kind(path, phrase("a number"), value))?;
        if (min..=max).contains(&n) {
            return Ok(n);
        }
        let sign = unit.sign();
        let why = say!("{} is {n}{sign}; it must be from {min} to {max}{sign}.", word(self.label));
        Err(Refusal::new(path, why).with_mend(self.mend(n.clamp(min, max), sign)))
    }

    fn count(&self, path: &str, value: &Value, min: f64, max: f64) -> Result<f64, Refusal> {
        let n = value.as_f64().filter(|n| n.is_finite() && n.fract() == 0.0);
        let n = n.ok_or_else(|| self.wrong_kind(path, phrase("a whole number"), value))?;
        if (min..=max).contains(&n) {
            return Ok(n);
        }
        let why = say!("{} is {n}; it must be from {min} to {max}.", word(self.label));
        Err(Refusal::new(path, why).with_mend(self.mend(n.clamp(min, max), "")))
    }

    fn mend(&self, value: f64, sign: &str) -> Mend {
        let say = say!("Set {} to {value}{sign}", in_sentence(self.label));
        Mend { knob: self.name.to_owned(), value: value.into(), say }
    }

    fn wrong_kind(&self, path: &str, wanted: &'static str, value: &Value) -> Refusal {
        let found = match value {
            Value::Null => phrase("nothing"),
            Value::Bool(_) => phrase("yes or no"),
            Value::Number(_) => phrase("a number with a fraction"),
            Value::String(_) => phrase("a text"),
            Value::Array(_) => phrase("a list"),
            Value::Object(_) => phrase("an object"),
        };
        Refusal::new(
            path,
            say!(
                "{} must be {wanted}, but it is {found}.",
                word(self.label),
                wanted = word(wanted),
                found = word(found)
            ),
        )
    }

    fn no_choice(&self, path: &str, name: &str) -> Refusal {
        let names: Vec<_> = self.picks().iter().map(|o| o.name).collect();
        let shown: String = name.chars().take(40).filter(|&c| !is_stray(c)).collect();
        let known = self.is_known(name);
        let (label, names) = (word(self.label), names.join(", "));
        let why = match known {
            true => say!("{label} cannot be \"{shown}\" with this kind of chair; it can be {names}."),
            false => say!("{label} cannot be \"{shown}\"; it can be {names}."),
        };
        Refusal::new(path, why)
    }

    /// Whether some kind of chair allows this name.
    fn is_known(&self, name: &str) -> bool {
        matches!(self.kind, Kind::Choice { options, .. } if options().iter().any(|o| o.name == name))
    }

    fn write(&self, value: f64) -> Value {
        match self.kind {
            Kind::Range { .. } => value.into(),
            Kind::Count { .. } => (value as u64).into(),
            Kind::Choice { options, .. } => options()[value as usize].name.into(),
        }
    }
}
