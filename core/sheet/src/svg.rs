//! SVG from a sheet. Looks are told by presentation attributes only, never by a style attribute or
//! element, so that a page with a strict Content-Security-Policy shows them.

use crate::{
    Align, Circle, Colour, Fill, Group, Item, Path, Rule, Sheet, Stroke, Text, Trace, Unit, Weight, Window,
};
use crestrail_geometry::math::nearest;

/// The typefaces of all text, the first of them that the reader has.
const FACES: &str = "IBM Plex Sans, Helvetica Neue, Arial, sans-serif";

/// Writes the sheet as one SVG element, well-formed XML.
pub fn write(sheet: &Sheet) -> String {
    // Inside, lengths are whole hundredths; a grid of 10 of them leaves one decimal.
    let grid = [100, 10, 1][sheet.decimals.min(2) as usize];
    let mut out = Writer(Vec::with_capacity(256 * 1024), grid);
    out.sheet(sheet);
    String::from_utf8(out.0).expect("words and digits are UTF-8")
}

/// The text so far, and the grid for corners of paths in hundredths.
struct Writer(Vec<u8>, i64);

impl Writer {
    fn sheet(&mut self, sheet: &Sheet) {
        let unit = match sheet.unit {
            Unit::Pixel => "",
            Unit::Millimetre => "mm",
        };
        self.words("<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\"");
        for (name, length) in [("width", sheet.width), ("height", sheet.height)] {
            self.put(&[" ", name, "=\""]);
            self.number(length);
            self.put(&[unit, "\""]);
        }
        self.words(" viewBox=\"0 0 ");
        self.number(sheet.width);
        self.0.push(b' ');
        self.number(sheet.height);
        self.put(&["\" font-family=\"", FACES, "\" fill=\"none\" fill-rule=\"evenodd\""]);
        self.words(" stroke-linejoin=\"round\" stroke-linecap=\"round\">");
        self.element("title", &sheet.title);
        self.element("desc", &sheet.description);
        sheet.items.iter().for_each(|item| self.item(item));
        self.words("</svg>");
    }

    fn item(&mut self, item: &Item) {
        match item {
            Item::Group(group) => self.group(group),
            Item::Path(path) => self.path(path),
            Item::Circle(circle) => self.circle(circle),
            Item::Text(text) => self.text(text),
            Item::Window(window) => self.window(window),
        }
    }

    /// An inner `svg` cuts off what lies outside it (SVG 2, section 14.3.3) without a name to refer to.
    fn window(&mut self, window: &Window) {
        let Window { frame, from, .. } = window;
        self.words("<svg");
        self.attribute("x", frame.x0);
        self.attribute("y", frame.y0);
        self.attribute("width", frame.width());
        self.attribute("height", frame.height());
        self.words(" viewBox=\"");
        for (i, value) in [from.x, from.y, frame.width(), frame.height()].into_iter().enumerate() {
            self.words(if i == 0 { "" } else { " " });
            self.number(value);
        }
        self.words("\">");
        window.items.iter().for_each(|item| self.item(item));
        self.words("</svg>");
    }

    fn group(&mut self, group: &Group) {
        self.words("<g");
        for (name, value) in &group.data {
            self.put(&[" data-", name, "=\""]);
            self.escaped(value);
            self.0.push(b'"');
        }
        self.0.push(b'>');
        group.items.iter().for_each(|item| self.item(item));
        self.words("</g>");
    }

    fn path(&mut self, path: &Path) {
        self.words("<path d=\"");
        path.traces.iter().for_each(|trace| self.trace(trace));
        self.0.push(b'"');
        self.paint(path.fill.as_ref(), path.stroke.as_ref());
        self.words("/>");
    }

    /// Steps are told from the last point as it was rounded, so that rounding does not add up.
    fn trace(&mut self, trace: &Trace) {
        let mut last = (0, 0);
        for (i, point) in trace.points.iter().enumerate() {
            let now = (on_grid(point.x, self.1), on_grid(point.y, self.1));
            let (command, step) = match i {
                0 => (b'M', now),
                _ => (b'l', (now.0 - last.0, now.1 - last.1)),
            };
            if i < 2 {
                self.0.push(command);
            }
            if i < 2 || step.0 >= 0 {
                self.space_unless_command();
            }
            self.decimal(step.0);
            if step.1 >= 0 {
                self.0.push(b' ');
            }
            self.decimal(step.1);
            last = now;
        }
        if trace.closed {
            self.0.push(b'z');
        }
    }

    fn space_unless_command(&mut self) {
        if !matches!(self.0.last(), Some(b'M' | b'l')) {
            self.0.push(b' ');
        }
    }

    fn circle(&mut self, circle: &Circle) {
        self.words("<circle");
        self.attribute("cx", circle.centre.x);
        self.attribute("cy", circle.centre.y);
        self.attribute("r", circle.radius);
        self.paint(circle.fill.as_ref(), circle.stroke.as_ref());
        self.words("/>");
    }

    fn text(&mut self, text: &Text) {
        self.words("<text");
        self.attribute("x", text.at.x);
        self.attribute("y", text.at.y);
        self.attribute("font-size", text.size);
        match text.align {
            Align::Start => {}
            Align::Middle => self.words(" text-anchor=\"middle\""),
            Align::End => self.words(" text-anchor=\"end\""),
        }
        if text.weight == Weight::Medium {
            self.words(" font-weight=\"500\"");
        }
        if text.turn != 0.0 {
            self.words(" transform=\"rotate(");
            for (i, value) in [text.turn, text.at.x, text.at.y].into_iter().enumerate() {
                self.words(if i == 0 { "" } else { " " });
                self.number(value);
            }
            self.words(")\"");
        }
        self.paint(Some(&Fill::solid(text.colour)), None);
        self.0.push(b'>');
        self.escaped(&text.words);
        self.words("</text>");
    }

    fn paint(&mut self, fill: Option<&Fill>, stroke: Option<&Stroke>) {
        if let Some(fill) = fill {
            self.colour(" fill=\"", fill.colour);
            self.opacity("fill-opacity", fill.opacity);
            if fill.rule == Rule::Union {
                self.words(" fill-rule=\"nonzero\"");
            }
        }
        if let Some(stroke) = stroke {
            self.colour(" stroke=\"", stroke.colour);
            self.opacity("stroke-opacity", stroke.opacity);
            self.attribute("stroke-width", stroke.width);
            self.dashes(&stroke.dashes);
        }
    }

    fn colour(&mut self, attribute: &str, colour: Colour) {
        self.words(attribute);
        self.0.extend_from_slice(colour.css().as_bytes());
        self.0.push(b'"');
    }

    fn opacity(&mut self, name: &str, value: f64) {
        if value < 1.0 {
            self.attribute(name, value);
        }
    }

    fn dashes(&mut self, dashes: &[f64]) {
        if dashes.is_empty() {
            return;
        }
        self.words(" stroke-dasharray=\"");
        for (i, dash) in dashes.iter().enumerate() {
            self.words(if i == 0 { "" } else { " " });
            self.number(*dash);
        }
        self.0.push(b'"');
    }

    fn attribute(&mut self, name: &str, value: f64) {
        self.put(&[" ", name, "=\""]);
        self.number(value);
        self.0.push(b'"');
    }

    fn element(&mut self, name: &str, words: &str) {
        self.put(&["<", name, ">"]);
        self.escaped(words);
        self.put(&["</", name, ">"]);
    }

    fn put(&mut self, pieces: &[&str]) {
        pieces.iter().for_each(|piece| self.words(piece));
    }

    fn escaped(&mut self, words: &str) {
        for letter in words.chars() {
            match letter {
                '&' => self.words("&amp;"),
                '<' => self.words("&lt;"),
                '>' => self.words("&gt;"),
                '"' => self.words("&quot;"),
                '\'' => self.words("&#39;"),
                // XML 1.0 (section 2.2) has no place for these, not even escaped.
                '\0'..='\u{8}' | '\u{b}' | '\u{c}' | '\u{e}'..='\u{1f}' | '\u{fffe}' | '\u{ffff}' => {
                    self.words("\u{fffd}");
                }
                other => self.words(other.encode_utf8(&mut [0; 4])),
            }
        }
    }

    fn number(&mut self, value: f64) {
        self.decimal(rounded(value));
    }

    /// Writes a number of hundredths without needless zeros: 1, 0.5, −0.25 as `1`, `.5`, `-.25`.
    fn decimal(&mut self, hundredths: i64) {
        // From the end, for the last digits are known first.
        let mut digits = [0; 24];
        let mut at = digits.len();
        let mut put = |digit: u8| {
            at -= 1;
            digits[at] = digit;
        };
        let size = hundredths.unsigned_abs();
        let (mut whole, rest) = (size / 100, (size % 100) as u8);
        if rest > 0 {
            if rest % 10 > 0 {
                put(b'0' + rest % 10);
            }
            put(b'0' + rest / 10);
            put(b'.');
        }
        if whole == 0 && rest == 0 {
            put(b'0');
        }
        while whole > 0 {
            put(b'0' + (whole % 10) as u8);
            whole /= 10;
        }
        if hundredths < 0 {
            put(b'-');
        }
        // They are so few that a copy of all at once takes longer.
        digits[at..].iter().for_each(|&digit| self.0.push(digit));
    }

    fn words(&mut self, words: &str) {
        self.0.extend_from_slice(words.as_bytes());
    }
}

fn on_grid(value: f64, grid: i64) -> i64 {
    nearest(value * 100.0 / grid as f64) * grid
}

fn rounded(value: f64) -> i64 {
    on_grid(value, 1)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Colour;

    fn sheet(items: Vec<Item>) -> Sheet {
        let (title, description) = ("Rail & <leg>".to_owned(), "A \"pair\"\u{1}".to_owned());
        Sheet { width: 100.0, height: 50.5, unit: Unit::Millimetre, decimals: 2, title, description, items }
    }

    fn body(items: Vec<Item>) -> String {
        let text = write(&sheet(items));
        let (_, body) = text.split_once("</desc>").expect("a description");
        body.trim_end_matches("</svg>").to_owned()
    }

    fn trace(points: &[(f64, f64)], closed: bool) -> Trace {
        Trace { points: points.iter().map(|&p| p.into()).collect(), closed }
    }

    #[test]
    fn size_and_text_stand_escaped_at_the_head() {
        let text = write(&sheet(Vec::new()));
        assert!(text.contains("width=\"100mm\" height=\"50.5mm\" viewBox=\"0 0 100 50.5\""));
        assert!(
            text.contains("<title>Rail &amp; &lt;leg&gt;</title><desc>A &quot;pair&quot;\u{fffd}</desc>")
        );
    }

    #[test]
    fn paths_take_short_steps_that_do_not_drift() {
        let third = 1.0 / 3.0;
        let traces =
            vec![trace(&[(10.0, 0.5), (10.0 + third, 0.0), (10.0 + 2.0 * third, 0.0), (11.0, -1.0)], true)];
        let path = Path { traces, fill: Some(Fill::solid(Colour::hex(0))), stroke: None };
        assert_eq!(body(vec![Item::Path(path)]), "<path d=\"M10 .5l.33-.5 .34 0 .33-1z\" fill=\"#000\"/>");
    }

    #[test]
    fn corners_lie_on_the_grid_of_the_asked_decimals() {
        let path =
            Path { traces: vec![trace(&[(1.234, 5.678), (2.345, 5.0)], false)], fill: None, stroke: None };
        let text = write(&Sheet { decimals: 1, ..sheet(vec![Item::Path(path)]) });
        assert!(text.contains("<path d=\"M1.2 5.7l1.1-.7\"/>"), "{text}");
    }

    #[test]
    fn strokes_tell_only_what_differs_from_a_full_line() {
        let full = Path::line(
            vec![(0.0, 0.0).into(), (1.0, 0.0).into()],
            Stroke::solid(Colour::hex(0x123456), 0.75),
        );
        assert_eq!(
            body(vec![Item::Path(full)]),
            "<path d=\"M0 0l1 0\" stroke=\"#123456\" stroke-width=\".75\"/>"
        );
        let stroke = Stroke { opacity: 0.5, dashes: vec![6.0, 1.5], ..Stroke::solid(Colour::hex(0), 1.0) };
        let dashed = body(vec![Item::Path(Path::line(vec![(0.0, 0.0).into()], stroke))]);
        assert!(dashed.ends_with("stroke-opacity=\".5\" stroke-width=\"1\" stroke-dasharray=\"6 1.5\"/>"));
    }

    #[test]
    fn groups_carry_their_data() {
        let group = Group { data: vec![("part", "A\"<".to_owned())], items: Vec::new() };
        assert_eq!(body(vec![Item::Group(group)]), "<g data-part=\"A&quot;&lt;\"></g>");
    }

    #[test]
    fn looks_are_told_without_style() {
        let text = Text {
            words: "×7".into(),
            at: (1.0, 2.0).into(),
            align: Align::Middle,
            size: 12.0,
            weight: Weight::Medium,
            colour: Colour::hex(0),
            turn: -90.0,
        };
        let written = body(vec![Item::Text(text)]);
        assert!(!written.contains("style"));
        assert!(written.starts_with("<text x=\"1\" y=\"2\" font-size=\"12\" text-anchor=\"middle\""));
        assert!(written.contains(" transform=\"rotate(-90 1 2)\""), "{written}");
    }

    #[test]
    fn a_window_shows_a_part_of_another_drawing() {
        let line = Path::line(vec![(0.0, 0.0).into()], Stroke::solid(Colour::hex(0), 1.0));
        let frame = kurbo::Rect::new(10.0, 20.0, 110.0, 70.0);
        let window = Window { frame, from: (300.0, 40.5).into(), items: vec![Item::Path(line)] };
        let written = body(vec![Item::Window(window)]);
        assert!(written.starts_with(
            "<svg x=\"10\" y=\"20\" width=\"100\" height=\"50\" viewBox=\"300 40.5 100 50\"><path"
        ));
    }
}
