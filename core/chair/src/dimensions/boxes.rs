//! What takes room on the picture: boxes and lines.

use kurbo::{Line, Point, Rect, Vec2};

/// The box of this size about its middle.
pub(super) fn about(middle: Point, [wide, high]: [f64; 2]) -> Rect {
    Rect::new(middle.x - wide / 2.0, middle.y - high / 2.0, middle.x + wide / 2.0, middle.y + high / 2.0)
}

/// Whether two boxes share more than an edge.
pub(super) fn meet(a: Rect, b: Rect) -> bool {
    a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1
}

/// Whether a line passes through a box (Liang and Barsky, 1984; from memory).
pub(super) fn crosses(line: Line, area: Rect) -> bool {
    let way = line.p1 - line.p0;
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    let sides = [
        (-way.x, line.p0.x - area.x0),
        (way.x, area.x1 - line.p0.x),
        (-way.y, line.p0.y - area.y0),
        (way.y, area.y1 - line.p0.y),
    ];
    for (rate, room) in sides {
        if rate == 0.0 {
            if room <= 0.0 {
                return false;
            }
        } else if rate < 0.0 {
            from = from.max(room / rate);
        } else {
            to = to.min(room / rate);
        }
    }
    from < to
}

/// The box around a line, its ends drawn in by `ends` and its sides widened by `beside`.
pub(super) fn strip(line: Line, ends: f64, beside: f64) -> Rect {
    let way = line.p1 - line.p0;
    let length = way.hypot2().sqrt();
    let inward = if length > 2.0 * ends { way * (ends / length) } else { way / 2.0 };
    Rect::from_points(line.p0 + inward, line.p1 - inward).inflate(beside, beside)
}

/// Length of a vector, px.
pub(super) fn length(way: Vec2) -> f64 {
    way.hypot2().sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_crosses_a_box_or_passes_it() {
        let area = Rect::new(10.0, 10.0, 30.0, 20.0);
        let line = |a: (f64, f64), b: (f64, f64)| Line::new(a, b);
        assert!(crosses(line((0.0, 15.0), (40.0, 15.0)), area));
        assert!(crosses(line((15.0, 12.0), (16.0, 13.0)), area));
        assert!(crosses(line((5.0, 15.0), (20.0, 25.0)), area));
        assert!(!crosses(line((0.0, 15.0), (9.0, 15.0)), area));
        assert!(!crosses(line((0.0, 0.0), (40.0, 5.0)), area));
        assert!(!crosses(line((5.0, 0.0), (5.0, 40.0)), area));
        assert!(!crosses(line((0.0, 28.0), (28.0, 0.0)), Rect::new(20.0, 20.0, 30.0, 30.0)));
    }
}
