//! What lies on a sheet. x runs to the right and y down, from the upper left corner.

use crate::Colour;
use kurbo::{Point, Rect};

/// A drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// Width, in units.
    pub width: f64,
    /// Height, in units.
    pub height: f64,
    /// What one unit is.
    pub unit: Unit,
    /// How many decimals coordinates are written with: 0, 1 or 2.
    pub decimals: u32,
    /// What is shown, in a few words.
    pub title: String,
    /// What is shown, in a sentence or two, for those who cannot see it.
    pub description: String,
    /// Items in the order in which they are painted.
    pub items: Vec<Item>,
}

/// The unit of all lengths on a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// A CSS pixel: for screens.
    Pixel,
    /// A millimetre on paper.
    Millimetre,
}

/// Something on a sheet.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// Items that belong together.
    Group(Group),
    /// A filled or drawn shape.
    Path(Path),
    /// A circle.
    Circle(Circle),
    /// A line of text.
    Text(Text),
    /// A part of another drawing, at its own scale.
    Window(Window),
}

/// A part of another drawing, seen through a rectangular hole: nothing is scaled, what lies outside is cut off.
#[derive(Clone, Debug, PartialEq)]
pub struct Window {
    /// The hole on this sheet.
    pub frame: Rect,
    /// The point of the other drawing that lies in the hole's upper left corner.
    pub from: Point,
    /// What is drawn, in the coordinates of the other drawing.
    pub items: Vec<Item>,
}

/// Items that belong together.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Group {
    /// Names and values that a page can find the group by; names are lower-case words.
    pub data: Vec<(&'static str, String)>,
    /// What is in it.
    pub items: Vec<Item>,
}

/// Straight lines, open or closed.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Path {
    /// The lines.
    pub traces: Vec<Trace>,
    /// Inside.
    pub fill: Option<Fill>,
    /// Along the lines.
    pub stroke: Option<Stroke>,
}

/// A line from point to point.
#[derive(Clone, Debug, PartialEq)]
pub struct Trace {
    /// Corners.
    pub points: Vec<Point>,
    /// Whether it returns to its start.
    pub closed: bool,
}

/// A circle.
#[derive(Clone, Debug, PartialEq)]
pub struct Circle {
    /// Its middle.
    pub centre: Point,
    /// Its radius.
    pub radius: f64,
    /// Inside.
    pub fill: Option<Fill>,
    /// Along it.
    pub stroke: Option<Stroke>,
}

/// How an inside is painted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fill {
    /// Colour.
    pub colour: Colour,
    /// 0 (not seen) to 1 (covers).
    pub opacity: f64,
    /// What counts as inside.
    pub rule: Rule,
}

/// What counts as inside a path of several traces.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rule {
    /// What is enclosed an odd number of times: traces within others are holes.
    EvenOdd,
    /// What is enclosed at all by traces that run the same way round.
    Union,
}

/// How a line is drawn; ends and corners are round.
#[derive(Clone, Debug, PartialEq)]
pub struct Stroke {
    /// Colour.
    pub colour: Colour,
    /// Width.
    pub width: f64,
    /// 0 (not seen) to 1 (covers).
    pub opacity: f64,
    /// Lengths of dashes and gaps in turn; empty for a full line.
    pub dashes: Vec<f64>,
}

/// A line of text.
#[derive(Clone, Debug, PartialEq)]
pub struct Text {
    /// Its words.
    pub words: String,
    /// Where its base line starts, has its middle, or ends.
    pub at: Point,
    /// Which of these.
    pub align: Align,
    /// Size of the font.
    pub size: f64,
    /// How bold.
    pub weight: Weight,
    /// Colour.
    pub colour: Colour,
    /// Turned about its point, degrees clockwise as seen on the sheet.
    pub turn: f64,
}

/// Which point of a line of text is given.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Align {
    /// Its start.
    Start,
    /// Its middle.
    Middle,
    /// Its end.
    End,
}

/// How bold a text is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weight {
    /// As for reading.
    Regular,
    /// A little bolder.
    Medium,
}

impl Fill {
    /// A covering colour.
    pub const fn solid(colour: Colour) -> Self {
        Self { colour, opacity: 1.0, rule: Rule::EvenOdd }
    }
}

impl Stroke {
    /// A full, covering line.
    pub const fn solid(colour: Colour, width: f64) -> Self {
        Self { colour, width, opacity: 1.0, dashes: Vec::new() }
    }
}

impl Path {
    /// A single open line.
    pub fn line(points: Vec<Point>, stroke: Stroke) -> Self {
        Self { traces: vec![Trace { points, closed: false }], fill: None, stroke: Some(stroke) }
    }
}
