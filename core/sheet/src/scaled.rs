//! Items made smaller or larger, lines and letters with them.

use crate::{Circle, Group, Item, Path, Stroke, Text, Trace, Window};
use kurbo::Rect;

impl Item {
    /// The same item `by` times as large about the sheet's upper left corner. What shows through a [`Window`] stays at its
    /// scale by definition, so it is scaled with the hole.
    pub fn scaled(&self, by: f64) -> Self {
        match self {
            Self::Group(Group { data, items }) => {
                Self::Group(Group { data: data.clone(), items: all(items, by) })
            }
            Self::Path(Path { traces, fill, stroke }) => Self::Path(Path {
                traces: traces.iter().map(|trace| traced(trace, by)).collect(),
                fill: *fill,
                stroke: stroke.as_ref().map(|stroke| stroked(stroke, by)),
            }),
            Self::Circle(Circle { centre, radius, fill, stroke }) => Self::Circle(Circle {
                centre: (centre.to_vec2() * by).to_point(),
                radius: radius * by,
                fill: *fill,
                stroke: stroke.as_ref().map(|stroke| stroked(stroke, by)),
            }),
            Self::Text(text) => Self::Text(Text {
                at: (text.at.to_vec2() * by).to_point(),
                size: text.size * by,
                ..text.clone()
            }),
            Self::Window(Window { frame, from, items }) => Self::Window(Window {
                frame: Rect::new(frame.x0 * by, frame.y0 * by, frame.x1 * by, frame.y1 * by),
                from: (from.to_vec2() * by).to_point(),
                items: all(items, by),
            }),
        }
    }
}

fn all(items: &[Item], by: f64) -> Vec<Item> {
    items.iter().map(|item| item.scaled(by)).collect()
}

fn traced(trace: &Trace, by: f64) -> Trace {
    let points = trace.points.iter().map(|p| (p.to_vec2() * by).to_point()).collect();
    Trace { points, closed: trace.closed }
}

fn stroked(stroke: &Stroke, by: f64) -> Stroke {
    let dashes = stroke.dashes.iter().map(|dash| dash * by).collect();
    Stroke { width: stroke.width * by, dashes, ..*stroke }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Align, Colour, Weight};

    #[test]
    fn lines_letters_and_holes_grow_alike() {
        let stroke = Stroke { dashes: vec![3.0, 1.0], ..Stroke::solid(Colour::hex(0), 1.0) };
        let line = Item::Path(Path::line(vec![(1.0, 2.0).into(), (5.0, 9.0).into()], stroke.clone()));
        let ring = Circle { centre: (3.0, 3.0).into(), radius: 2.0, fill: None, stroke: Some(stroke) };
        let text = Text {
            words: "A".to_owned(),
            at: (4.0, 8.0).into(),
            align: Align::Middle,
            size: 6.0,
            weight: Weight::Regular,
            colour: Colour::hex(0),
            turn: 30.0,
        };
        let within = Window {
            frame: Rect::new(1.0, 1.0, 3.0, 5.0),
            from: (2.0, 2.0).into(),
            items: vec![line.clone()],
        };
        let items = vec![line, Item::Circle(ring), Item::Text(text), Item::Window(within)];
        let whole = Item::Group(Group { data: Vec::new(), items });
        let (before, after) = (whole.extent().expect("lines"), whole.scaled(2.5).extent().expect("lines"));
        for (was, is) in
            [(before.x0, after.x0), (before.y0, after.y0), (before.x1, after.x1), (before.y1, after.y1)]
        {
            assert!((2.5 * was - is).abs() < 1e-9, "{before} {after}");
        }
        assert_eq!(whole.scaled(4.0).scaled(0.25), whole);
    }
}
