//! Dimension lines over the picture: the sizes that a view shows squarely, each with the knob that it belongs to.
//!
//! `measures` says where a size lies on the chair and how it moves with its knob; `place` lays lines and figures round the
//! picture, so that no figure meets another, a line or the rim. What has no room is left out: a view has few dimensions.

mod boxes;
mod measures;
mod place;

#[cfg(test)]
mod tests;

use crate::chair::Chair;
use crate::design::Design;
use crate::drawing::{Held, Look, View};
use place::Placing;
use serde::Serialize;

/// A place on the picture, px from its upper left corner.
pub type Spot = [f64; 2];

/// The dimension lines of one picture.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Dimensions {
    /// Scale and place of the picture, to be handed back while a size is dragged.
    pub held: Held,
    /// Scale and place that it would have if none were held.
    pub fit: Held,
    /// How many steps the chair's order of assembly has.
    pub steps: usize,
    /// The lines, the most telling first.
    pub rows: Vec<Dimension>,
}

/// One dimension line with its figure.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Dimension {
    /// The knob that it shows.
    pub knob: &'static str,
    /// How it is drawn.
    pub kind: Kind,
    /// Value of the knob, in the knob's unit.
    pub value: f64,
    /// The line with arrows at both ends, or an arc; none for a count.
    pub line: Vec<Spot>,
    /// Thin lines that lead to it.
    pub aids: Vec<[Spot; 2]>,
    /// For each end that can be moved, where it is at some values of the knob, in their order: value, x and y; straight
    /// between neighbours.
    pub tracks: Vec<Vec<[f64; 3]>>,
    /// Middle of the figure.
    pub label: Spot,
}

/// How a dimension is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Kind {
    /// A straight line.
    Length,
    /// An arc.
    Angle,
    /// A number of parts, beside them.
    Count,
}

/// The dimension lines of a picture of the chair with this design; none where the view keeps no room for them or shows the
/// chair apart.
pub fn dimensions(chair: &Chair, design: &Design, view: &View) -> Dimensions {
    let look = Look::of(chair, view);
    let rows = match &view.dimensions {
        Some(room) if view.spread < WHOLE && view.assembled.is_none() => {
            let mut placing = Placing::new(&look, view, room);
            let measures = measures::of(chair, design, &look);
            let most = if view.width.min(view.height) < SMALL { FEW } else { MOST };
            measures.iter().filter_map(|measure| placing.place(measure)).take(most).collect()
        }
        _ => Vec::new(),
    };
    Dimensions { held: look.held(), fit: look.fit(), steps: chair.assembly.steps.len(), rows }
}

/// A chair less apart than this counts as whole.
const WHOLE: f64 = 0.005;
/// As many dimensions as stay calm to look at.
const MOST: usize = 6;
/// As many on a small picture, which is one with a side shorter than `SMALL`, px.
const FEW: usize = 4;
const SMALL: f64 = 360.0;
