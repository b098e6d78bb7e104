//! What a knob is: one row of the table from which the page builds its controls.

use crestrail_phrases::word;
use serde::Serialize;
use serde_json::{Map, Value};

/// One row of the table of knobs.
#[derive(Clone, Copy, Debug)]
pub struct Knob {
    /// Stable name, used in files and links.
    pub name: &'static str,
    /// What the page calls it.
    pub label: &'static str,
    /// One sentence for somebody who knows nothing about joints.
    pub help: &'static str,
    /// The group it is shown in.
    pub group: Group,
    /// What values it takes.
    pub kind: Kind,
    /// When it has any effect: while every one of these holds.
    pub applies: &'static [Applies],
}

impl Knob {
    /// Whether parts or joints depend on it: who uses the chair and where is told to the checks alone, and what is sawn
    /// off again to the lists.
    pub fn shapes(&self) -> bool {
        self.group != Group::Use && !self.name.starts_with("allowance_")
    }
}

/// The values a knob takes.
#[derive(Clone, Copy, Debug)]
pub enum Kind {
    /// Any number from `min` to `max`.
    Range {
        /// Unit shown beside the value.
        unit: Unit,
        /// Least value.
        min: f64,
        /// Greatest value.
        max: f64,
        /// The page's step; values between steps are allowed.
        step: f64,
        /// Value of a new design.
        default: f64,
    },
    /// A whole number from `min` to `max`.
    Count {
        /// Least value.
        min: u8,
        /// Greatest value.
        max: u8,
        /// Value of a new design.
        default: u8,
    },
    /// One of a list of names.
    Choice {
        /// The names with their labels.
        options: fn() -> Vec<Pick>,
        /// Those that a kind of chair allows; all of them where there are none.
        allowed: &'static [&'static str],
        /// Name chosen in a new design.
        default: &'static str,
    },
}

/// One possibility of a choice.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Pick {
    /// Stable name, used in files and links.
    pub name: &'static str,
    /// What the page calls it.
    pub label: &'static str,
}

impl Pick {
    /// The same with its label in the language that is spoken.
    #[must_use]
    pub fn spoken(self) -> Self {
        Self { label: word(self.label), ..self }
    }
}

/// Units of range knobs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub enum Unit {
    /// Millimetres.
    #[serde(rename = "mm")]
    Millimetre,
    /// Degrees of angle.
    #[serde(rename = "deg")]
    Degree,
    /// Hundredths of a whole.
    #[serde(rename = "%")]
    Percent,
    /// Kilograms.
    #[serde(rename = "kg")]
    Kilogram,
}

impl Unit {
    /// The sign written behind a value, with its space where one belongs.
    pub fn sign(self) -> &'static str {
        match self {
            Self::Millimetre => " mm",
            Self::Degree => "°",
            Self::Percent => " %",
            Self::Kilogram => " kg",
        }
    }
}

/// Groups of knobs, in the order of the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Group {
    /// The kind of chair.
    Kind,
    /// Who uses it.
    Use,
    /// Overall sizes.
    Size,
    /// The back.
    Back,
    /// The seat.
    Seat,
    /// The arms.
    Arms,
    /// The legs.
    Legs,
    /// The seat rails.
    Rails,
    /// The stretchers.
    Stretchers,
    /// Mortise, tenon and peg.
    Joints,
    /// Species and sawing allowances.
    Timber,
}

impl Group {
    /// What the page calls the group.
    pub fn label(self) -> &'static str {
        match self {
            Self::Kind => word("Kind"),
            Self::Use => word("Who it is for"),
            Self::Size => word("Size"),
            Self::Back => word("Back"),
            Self::Seat => word("Seat"),
            Self::Arms => word("Arms"),
            Self::Legs => word("Legs"),
            Self::Rails => word("Seat rails"),
            Self::Stretchers => word("Stretchers"),
            Self::Joints => word("Joints"),
            Self::Timber => word("Timber"),
        }
    }
}

/// The state of a choice on which another knob depends.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Applies {
    /// Name of the choice.
    pub knob: &'static str,
    /// The other knob has an effect only while the choice has one of these values.
    pub any: &'static [&'static str],
}

/// A knob as the page and other programs read it.
#[derive(Clone, Debug, Serialize)]
pub struct KnobRow {
    name: &'static str,
    label: &'static str,
    help: &'static str,
    group: Group,
    #[serde(rename = "groupLabel")]
    group_label: &'static str,
    kind: &'static str,
    unit: Option<Unit>,
    min: Option<f64>,
    max: Option<f64>,
    step: Option<f64>,
    default: Value,
    #[serde(skip_serializing_if = "Option::is_none")]
    choices: Option<Vec<Pick>>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    applies: Vec<Applies>,
}

impl KnobRow {
    /// The same choice with these possibilities only.
    pub(crate) fn only(mut self, names: &[&str]) -> Self {
        if let Some(choices) = &mut self.choices {
            choices.retain(|pick| names.contains(&pick.name));
        }
        self
    }

    /// The same where the choices that `fixed` tells stand for good: nothing where they leave it without effect.
    pub(crate) fn given(mut self, fixed: impl Fn(&str) -> Option<String>) -> Option<Self> {
        let fails =
            |rule: &Applies| fixed(rule.knob).is_some_and(|value| !rule.any.contains(&value.as_str()));
        if self.applies.iter().any(fails) {
            return None;
        }
        self.applies.retain(|rule| fixed(rule.knob).is_none());
        Some(self)
    }
}

impl Knob {
    /// The possibilities of a choice that its kind of chair allows, with English labels; none for other knobs.
    pub fn picks(&self) -> Vec<Pick> {
        match self.kind {
            Kind::Choice { options, allowed, .. } => {
                options().into_iter().filter(|o| allowed.is_empty() || allowed.contains(&o.name)).collect()
            }
            Kind::Range { .. } | Kind::Count { .. } => Vec::new(),
        }
    }

    /// Whether it has any effect in a design with these values.
    pub fn applies_in(&self, values: &Map<String, Value>) -> bool {
        let now = |knob: &str| values.get(knob).and_then(Value::as_str);
        self.applies.iter().all(|rule| now(rule.knob).is_some_and(|value| rule.any.contains(&value)))
    }

    /// The knob as plain data.
    pub fn row(&self) -> KnobRow {
        let blank = KnobRow {
            name: self.name,
            label: word(self.label),
            help: word(self.help),
            group: self.group,
            group_label: self.group.label(),
            kind: "choice",
            unit: None,
            min: None,
            max: None,
            step: None,
            default: Value::Null,
            choices: None,
            applies: self.applies.to_vec(),
        };
        match self.kind {
            Kind::Range { unit, min, max, step, default } => KnobRow {
                kind: "range",
                unit: Some(unit),
                min: Some(min),
                max: Some(max),
                step: Some(step),
                default: default.into(),
                ..blank
            },
            Kind::Count { min, max, default } => KnobRow {
                kind: "count",
                min: Some(min.into()),
                max: Some(max.into()),
                step: Some(1.0),
                default: default.into(),
                ..blank
            },
            Kind::Choice { default, .. } => KnobRow {
                default: default.into(),
                choices: Some(self.picks().into_iter().map(Pick::spoken).collect()),
                ..blank
            },
        }
    }
}
