//! How much of what it can carry is used of each part, as tints with hatching and their legend.

use super::{Scene, hatch};
use crate::chair::Chair;
use crate::checks::{SHARE, Share, shares};
use crate::finding::Verdict;
use crate::service::Service;
use crestrail_phrases::{say, word};
use crestrail_sheet::{Align, Fill, Group, Item, Path, Stroke, Text, Trace, Weight};
use kurbo::{Point, Rect};

/// Of every part, in the chair's order.
pub(super) struct Shares(Vec<Option<Share>>);

impl Shares {
    pub(super) fn of(chair: &Chair, service: &Service) -> Self {
        Self(shares(chair, service))
    }

    /// How the part in this place stands; none where it is not reckoned.
    pub(super) fn verdict(&self, owner: usize) -> Option<Verdict> {
        self.0.get(owner).copied().flatten().map(|share| share.verdict)
    }
}

/// Sizes in pixels at weight 1: the rows' height, their swatches, the letters and the place of the first row.
const ROW: f64 = 21.0;
const SWATCH: (f64, f64) = (26.0, 15.0);
const LETTERS: f64 = 15.0;
const AT: (f64, f64) = (14.0, 24.0);

fn rows() -> [(Option<Verdict>, String); 4] {
    let [sound, close] = [SHARE.sound, SHARE.close].map(|share| (100.0 * share).round());
    [
        (Some(Verdict::Sound), say!("up to {sound} %: sound")),
        (Some(Verdict::Close), say!("{sound} to {close} %: close")),
        (Some(Verdict::Fails), say!("over {close} %: too weak")),
        (None, say!("not reckoned")),
    ]
}

/// What the tints mean, in the upper left corner.
pub(super) fn legend(scene: &Scene<'_>) -> Item {
    let weight = scene.frame.weight.max(0.72);
    let at = |row: usize| Point::new(AT.0, AT.1 + ROW * row as f64).to_vec2() * weight;
    let mut items = vec![words(word("Share of what it can carry"), at(0).to_point(), scene, weight)];
    for (row, (verdict, text)) in rows().into_iter().enumerate() {
        let base = at(row + 1);
        let corner = Point::new(base.x, base.y - 0.8 * SWATCH.1 * weight);
        items.extend(swatch(
            scene,
            verdict,
            Rect::from_origin_size(corner, (SWATCH.0 * weight, SWATCH.1 * weight)),
        ));
        items.push(words(&text, Point::new(base.x + (SWATCH.0 + 8.0) * weight, base.y), scene, weight));
    }
    Item::Group(Group { data: vec![("layer", "legend".to_owned())], items })
}

fn swatch(scene: &Scene<'_>, verdict: Option<Verdict>, room: Rect) -> Vec<Item> {
    let corners = [(room.x0, room.y0), (room.x1, room.y0), (room.x1, room.y1), (room.x0, room.y1)];
    let ring: Vec<Point> = corners.into_iter().map(Point::from).collect();
    let path = Path {
        traces: vec![Trace { points: ring.clone(), closed: true }],
        fill: Some(Fill::solid(scene.palette.verdict(verdict))),
        stroke: Some(Stroke::solid(scene.palette.line, 0.75 * scene.frame.weight)),
    };
    let lines = verdict.and_then(|verdict| hatch::lines(scene, &[ring], verdict));
    [Item::Path(path)].into_iter().chain(lines).collect()
}

fn words(text: &str, at: Point, scene: &Scene<'_>, weight: f64) -> Item {
    Item::Text(Text {
        words: text.to_owned(),
        at,
        align: Align::Start,
        size: LETTERS * weight,
        weight: Weight::Regular,
        colour: scene.palette.ink,
        turn: 0.0,
    })
}
