//! Items moved on their sheet, or made larger and smaller.

use crate::{Circle, Group, Item, Path, Stroke, Text, Trace, Window};
use kurbo::Vec2;

impl Item {
    /// The same item elsewhere: to the right by `by.x` and down by `by.y`.
    pub fn moved(&self, by: Vec2) -> Self {
        match self {
            Self::Group(Group { data, items }) => {
                Self::Group(Group { data: data.clone(), items: items.iter().map(|i| i.moved(by)).collect() })
            }
            Self::Path(path) => Self::Path(Path {
                traces: path.traces.iter().map(|trace| moved(trace, by)).collect(),
                ..path.clone()
            }),
            Self::Circle(circle) => Self::Circle(Circle { centre: circle.centre + by, ..circle.clone() }),
            Self::Text(text) => Self::Text(Text { at: text.at + by, ..text.clone() }),
            Self::Window(window) => Self::Window(Window { frame: window.frame + by, ..window.clone() }),
        }
    }
}

impl Item {
    /// The same item `by` times as large, lines and letters too, seen from the sheet's upper left corner.
    pub fn scaled(&self, by: f64) -> Self {
        let all = |items: &[Self]| items.iter().map(|item| item.scaled(by)).collect();
        match self {
            Self::Group(Group { data, items }) => {
                Self::Group(Group { data: data.clone(), items: all(items) })
            }
            Self::Path(path) => Self::Path(Path {
                traces: path.traces.iter().map(|trace| scaled(trace, by)).collect(),
                stroke: path.stroke.as_ref().map(|stroke| drawn(stroke, by)),
                ..path.clone()
            }),
            Self::Circle(circle) => Self::Circle(Circle {
                centre: (circle.centre.to_vec2() * by).to_point(),
                radius: circle.radius * by,
                stroke: circle.stroke.as_ref().map(|stroke| drawn(stroke, by)),
                ..circle.clone()
            }),
            Self::Text(text) => Self::Text(Text {
                at: (text.at.to_vec2() * by).to_point(),
                size: text.size * by,
                ..text.clone()
            }),
            Self::Window(window) => Self::Window(Window {
                frame: window.frame.scale_from_origin(by),
                from: (window.from.to_vec2() * by).to_point(),
                items: all(&window.items),
            }),
        }
    }
}

fn scaled(trace: &Trace, by: f64) -> Trace {
    let points = trace.points.iter().map(|p| (p.to_vec2() * by).to_point()).collect();
    Trace { points, closed: trace.closed }
}

fn drawn(stroke: &Stroke, by: f64) -> Stroke {
    let dashes = stroke.dashes.iter().map(|dash| dash * by).collect();
    Stroke { width: stroke.width * by, dashes, ..stroke.clone() }
}

fn moved(trace: &Trace, by: Vec2) -> Trace {
    Trace { points: trace.points.iter().map(|&p| p + by).collect(), closed: trace.closed }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Colour, Stroke};

    #[test]
    fn what_moves_keeps_its_size() {
        let stroke = Stroke::solid(Colour::hex(0), 1.0);
        let line = Item::Path(Path::line(vec![(1.0, 2.0).into(), (5.0, 9.0).into()], stroke.clone()));
        let ring = Circle { centre: (3.0, 3.0).into(), radius: 2.0, fill: None, stroke: Some(stroke) };
        let both = Item::Group(Group { data: Vec::new(), items: vec![line, Item::Circle(ring)] });
        let twice = both.scaled(2.0);
        assert_eq!(twice.extent().map(|e| e.size()), both.extent().map(|e| e.size() * 2.0));
        assert_eq!(twice.scaled(0.5), both);
        let by = Vec2::new(10.0, -1.0);
        let (before, after) = (both.extent().expect("lines"), both.moved(by).extent().expect("lines"));
        assert_eq!(after, before + by);
        assert_eq!(both.moved(by).moved(-by), both);
    }
}
