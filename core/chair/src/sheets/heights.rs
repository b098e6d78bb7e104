//! The heights beside an elevation of the rod.

use super::pens::{self, Pen};
use super::spread::{Wish, spread};
use crate::chair::Chair;
use crate::length::Lengths;
use crate::part::Role;
use crestrail_sheet::{Align, Item, Weight};
use crestrail_sorting::Order as _;
use kurbo::{Point, Rect, Vec2};

/// A height above the floor, and what begins or ends there.
pub(super) struct Level {
    height: f64,
    what: Vec<String>,
}

impl Level {
    pub(super) fn words(&self, lengths: Lengths) -> String {
        format!("{}  {}", self.what.join(", "), lengths.write(self.height))
    }
}

/// Heights nearer than this are one, mm.
const SAME: f64 = 0.05;

/// Where each rail, stretcher, slat and arm begins and ends, from the floor to the top.
pub(super) fn levels(chair: &Chair, whole: &Rect) -> Vec<Level> {
    let mut rows: Vec<(f64, &str)> = vec![(0.0, "floor"), (-whole.y0, "top")];
    for (part, body) in chair.pieces().filter(|(part, _)| is_level(part.id.role)) {
        let corners = body.solid.vertices.iter().map(|&v| part.place.point(v).z);
        let (bottom, top) =
            corners.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), z| (f64::min(l, z), f64::max(h, z)));
        rows.extend([(bottom, part.letter.as_str()), (top, part.letter.as_str())]);
    }
    rows.order_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(b.1)));
    let mut levels: Vec<Level> = Vec::new();
    for (height, what) in rows {
        match levels.last_mut() {
            Some(level) if height - level.height < SAME => {
                if !level.what.iter().any(|known| known == what) {
                    level.what.push(what.to_owned());
                }
            }
            _ => levels.push(Level { height, what: vec![what.to_owned()] }),
        }
    }
    levels
}

fn is_level(role: Role) -> bool {
    use Role::*;
    matches!(
        role,
        FrontRail
            | SideRail
            | BackRail
            | SideStretcher
            | CrossStretcher
            | FrontStretcher
            | BackStretcher
            | BackSlat
            | CrestRail
            | LowerBackRail
            | Arm
    )
}

/// Ticks on an upright line with heights to the left of it.
pub(super) fn written(levels: &[Level], x: f64, lengths: Lengths) -> Vec<Item> {
    let wishes: Vec<Wish> = levels.iter().map(|level| Wish { at: level.height, room: 5.0 }).collect();
    let places = spread(&wishes, 0.0);
    let top = levels.last().map_or(0.0, |level| level.height);
    let mut items = vec![pens::line(Point::new(x, 0.0), Point::new(x, -top), Pen::Thin)];
    for (level, place) in levels.iter().zip(places) {
        let (tick, knee) = (Point::new(x, -level.height), Point::new(x - 7.0, -place));
        items.push(pens::lines(vec![pens::open(&[tick + Vec2::new(4.0, 0.0), tick, knee])], Pen::Thin));
        let at = knee + Vec2::new(-1.0, 1.2);
        items.push(pens::words(&level.words(lengths), at, Align::End, pens::LETTERS, Weight::Regular));
    }
    items
}
