//! How somebody looks at the chair.

use super::frame::Held;
use crate::chair::Chair;
use crate::refusal::Refusal;
use crestrail_phrases::{phrase, say, word};
use serde::Deserialize;
use serde_json::Value;

/// How somebody looks at the chair.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct View {
    /// Degrees; 0 looks at the front, positive turns bring the chair's right side into view.
    pub turn: f64,
    /// Degrees, −90 to 90; above 0 looks down.
    pub tilt: f64,
    /// How far the chair is taken apart, 0 to 1.
    pub spread: f64,
    /// Colours.
    pub scheme: Scheme,
    /// Pixels.
    pub width: f64,
    /// Pixels.
    pub height: f64,
    /// What the tints of the parts mean.
    pub colour: Meaning,
    /// Whether the parts' letters are shown.
    pub letters: bool,
    /// Room that is kept for dimension lines over the picture, where they are shown.
    pub dimensions: Option<DimensionRoom>,
    /// Scale and place that are kept, as an earlier picture told them.
    pub held: Option<Held>,
    /// How many steps of the order of assembly are done, part of a step too: the parts of the others stand apart. It takes
    /// the place of `spread`.
    pub assembled: Option<f64>,
    /// What the picture is called; made up from the view where it is missing.
    pub title: Option<String>,
    /// What it shows, for those who cannot see it; made up where it is missing.
    pub description: Option<String>,
}

/// What dimension lines over the picture have to mind.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DimensionRoom {
    /// Width and height of the widest figure, px.
    pub figure: [f64; 2],
    /// Boxes in which something else stands: left, top, right, bottom, px.
    #[serde(default)]
    pub clear: Vec<[f64; 4]>,
}

/// The colours of a picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Scheme {
    /// Dark ink on light paper.
    Light,
    /// Pale ink on dark paper.
    Dark,
}

/// What the tints of the parts mean.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Meaning {
    /// The material they are made of.
    Wood,
    /// How much of what it can carry is used of each.
    Share,
}

impl Default for View {
    /// The chair assembled, a little from the left and from above.
    fn default() -> Self {
        Self {
            turn: -32.0,
            tilt: 18.0,
            spread: 0.0,
            scheme: Scheme::Light,
            width: 800.0,
            height: 800.0,
            colour: Meaning::Wood,
            letters: true,
            dimensions: None,
            held: None,
            assembled: None,
            title: None,
            description: None,
        }
    }
}

impl View {
    /// Reads and checks a view; what is missing takes its default.
    pub fn from_value(value: &Value) -> Result<Self, Refusal> {
        let view: Self = serde_json::from_value(value.clone())
            .map_err(|e| Refusal::new("view", format!("The view cannot be read: {e}.")))?;
        view.checked()
    }

    /// The view, if all its numbers are within their ranges.
    pub fn checked(self) -> Result<Self, Refusal> {
        let figure = self.dimensions.as_ref().map_or([0.0; 2], |room| room.figure);
        let held = self.held.map_or([1.0, 0.0, 0.0], |Held { scale, focus: [x, y] }| [scale, x, y]);
        let ranges = [
            ("turn", self.turn, -36_000.0, 36_000.0),
            ("tilt", self.tilt, -90.0, 90.0),
            ("spread", self.spread, 0.0, 1.0),
            ("width", self.width, 40.0, 8_000.0),
            ("height", self.height, 40.0, 8_000.0),
            ("dimensions", figure[0], 0.0, 400.0),
            ("dimensions", figure[1], 0.0, 400.0),
            ("held", held[0], 0.001, 1_000.0),
            ("held", held[1], -1e6, 1e6),
            ("held", held[2], -1e6, 1e6),
            ("assembled", self.assembled.unwrap_or_default(), 0.0, 1_000.0),
        ];
        match ranges.into_iter().find(|(_, value, low, high)| !(low..=high).contains(&value)) {
            None => Ok(self),
            Some((name, value, low, high)) => Err(Refusal::new(
                format!("view.{name}"),
                format!("The view's {name} is {value}; it must be from {low} to {high}."),
            )),
        }
    }

    pub(super) fn title(&self) -> String {
        let own =
            || word(if self.spread > 0.0 { phrase("Chair taken apart") } else { phrase("Chair") }).to_owned();
        self.title.clone().unwrap_or_else(own)
    }

    pub(super) fn description(&self, chair: &Chair) -> String {
        let own = || {
            let side = match self.turn.rem_euclid(360.0) {
                turn if (22.5..67.5).contains(&turn) => word("from the front and its right side"),
                turn if (67.5..112.5).contains(&turn) => word("from its right side"),
                turn if (112.5..157.5).contains(&turn) => word("from the back and its right side"),
                turn if (157.5..202.5).contains(&turn) => word("from the back"),
                turn if (202.5..247.5).contains(&turn) => word("from the back and its left side"),
                turn if (247.5..292.5).contains(&turn) => word("from its left side"),
                turn if (292.5..337.5).contains(&turn) => word("from the front and its left side"),
                _ => word("from the front"),
            };
            let parts = chair.parts.len();
            let seen = match self.spread {
                0.0 => say!("A wooden chair of {parts} parts seen {side}, assembled."),
                _ => say!(
                    "A wooden chair of {parts} parts seen {side}, pulled apart along the ways its parts go together."
                ),
            };
            match self.colour {
                Meaning::Wood => seen,
                Meaning::Share => {
                    let tints =
                        word("Tints and hatching show how much of what it can carry is used of each part.");
                    format!("{seen} {tints}")
                }
            }
        };
        self.description.clone().unwrap_or_else(own)
    }
}
