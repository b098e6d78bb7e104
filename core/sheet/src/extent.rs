//! How far an item reaches, and what of a drawing comes near a rectangle.

use crate::{Align, Circle, Group, Item, Path, Stroke, Text, Window};
use kurbo::{Point, Rect, Vec2};

/// No letter of a common typeface is wider than this share of the font's size.
const WIDEST: f64 = 1.0;

impl Item {
    /// A rectangle that surely holds all that the item paints; `None` where it paints nothing. Text is taken as wide as
    /// its widest letters could be.
    pub fn extent(&self) -> Option<Rect> {
        match self {
            Self::Group(Group { items, .. }) => around(items.iter().filter_map(Self::extent)),
            Self::Path(path) => path_extent(path),
            Self::Circle(Circle { centre, radius, stroke, .. }) => {
                Some(Rect::from_points(*centre, *centre).inflate(*radius, *radius))
                    .map(|r| widened(r, stroke))
            }
            Self::Text(text) => Some(text_extent(text)),
            Self::Window(Window { frame, .. }) => Some(*frame),
        }
    }
}

/// The items that come within `rect`, groups with what of them does.
pub(crate) fn near(items: &[Item], rect: &Rect) -> Vec<Item> {
    let meets = |item: &Item| item.extent().is_some_and(|e| overlap(&e, rect));
    let kept = |item: &Item| match item {
        Item::Group(group) => {
            Item::Group(Group { data: group.data.clone(), items: near(&group.items, rect) })
        }
        other => other.clone(),
    };
    items.iter().filter(|item| meets(item)).map(kept).collect()
}

fn overlap(a: &Rect, b: &Rect) -> bool {
    a.x0 <= b.x1 && b.x0 <= a.x1 && a.y0 <= b.y1 && b.y0 <= a.y1
}

fn around(rects: impl Iterator<Item = Rect>) -> Option<Rect> {
    rects.reduce(|a, b| a.union(b))
}

fn path_extent(path: &Path) -> Option<Rect> {
    let points = path.traces.iter().flat_map(|trace| trace.points.iter());
    let bare = around(points.map(|&p| Rect::from_points(p, p)))?;
    Some(widened(bare, &path.stroke))
}

fn widened(rect: Rect, stroke: &Option<Stroke>) -> Rect {
    let half = stroke.as_ref().map_or(0.0, |s| s.width / 2.0);
    rect.inflate(half, half)
}

fn text_extent(text: &Text) -> Rect {
    let length = text.words.chars().count() as f64 * WIDEST * text.size;
    let (before, after) = match text.align {
        Align::Start => (0.0, length),
        Align::Middle => (length / 2.0, length / 2.0),
        Align::End => (length, 0.0),
    };
    let turned = kurbo::Affine::rotate_about(crestrail_geometry::math::radians(text.turn), text.at);
    let corner = |x: f64, y: f64| -> Point { turned * (text.at + Vec2::new(x, y)) };
    let (above, below) = (-1.2 * text.size, 0.4 * text.size);
    let corners =
        [corner(-before, above), corner(after, above), corner(after, below), corner(-before, below)];
    Rect::from_points(corners[0], corners[2]).union(Rect::from_points(corners[1], corners[3]))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Colour, Weight};

    fn text(turn: f64) -> Item {
        let (words, at, align) = ("100 mm".to_owned(), (50.0, 50.0).into(), Align::Start);
        let (weight, colour) = (Weight::Regular, Colour::hex(0));
        Item::Text(Text { words, at, align, size: 5.0, weight, colour, turn })
    }

    fn line(x: f64) -> Item {
        Item::Path(Path::line(vec![(x, 0.0).into(), (x, 90.0).into()], Stroke::solid(Colour::hex(0), 2.0)))
    }

    #[test]
    fn lines_reach_as_far_as_they_are_wide() {
        assert_eq!(line(10.0).extent(), Some(Rect::new(9.0, -1.0, 11.0, 91.0)));
        assert_eq!(Item::Path(Path::default()).extent(), None);
        assert_eq!(Item::Group(Group { data: Vec::new(), items: vec![line(10.0), line(30.0)] }).extent(), {
            Some(Rect::new(9.0, -1.0, 31.0, 91.0))
        });
    }

    #[test]
    fn text_reaches_where_it_is_turned_to() {
        let level = text(0.0).extent().expect("letters");
        assert!(level.x0 == 50.0 && level.x1 > 65.0 && level.y0 < 46.0 && level.y1 > 50.5);
        let upright = text(-90.0).extent().expect("letters");
        assert!(upright.y0 < 35.0 && upright.y1 < 50.1 && upright.x0 < 46.0 && upright.x1 < 53.0);
    }

    #[test]
    fn only_what_comes_near_is_kept() {
        let items =
            [line(10.0), line(30.0), Item::Group(Group { data: Vec::new(), items: vec![line(50.0)] })];
        assert_eq!(near(&items, &Rect::new(28.0, 10.0, 40.0, 20.0)), [line(30.0)]);
        assert_eq!(near(&items, &Rect::new(0.0, 0.0, 100.0, 100.0)), items);
    }
}
