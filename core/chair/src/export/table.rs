//! Tables of the printable parts list.

use super::escape::html;

/// A cell of a table.
pub(super) enum Cell {
    /// Words.
    Text(String),
    /// A number, set to the right.
    Number(String),
    /// Text that is never broken into two lines.
    Whole(String),
    /// Text with a line of small print.
    Noted(String, String),
}

impl Cell {
    fn html(&self) -> String {
        match self {
            Self::Text(text) => format!("<td>{}</td>", html(text)),
            Self::Number(text) => format!("<td class=\"n\">{}</td>", html(text)),
            Self::Whole(text) => format!("<td class=\"k\">{}</td>", html(text)),
            Self::Noted(text, note) => format!("<td>{}<small>{}</small></td>", html(text), html(note)),
        }
    }
}

/// A table whose heads stand to the right where they begin with `>`.
pub(super) fn table(heads: &[&str], rows: &[Vec<Cell>], foot: &str) -> String {
    let head = |h: &&str| match h.strip_prefix('>') {
        Some(h) => format!("<th scope=\"col\" class=\"n\">{}</th>", html(h)),
        None => format!("<th scope=\"col\">{}</th>", html(h)),
    };
    let heads: String = heads.iter().map(head).collect();
    let line = |row: &Vec<Cell>| format!("<tr>{}</tr>\n", row.iter().map(Cell::html).collect::<String>());
    let body: String = rows.iter().map(line).collect();
    format!("<table><thead><tr>{heads}</tr></thead>\n<tbody>\n{body}</tbody>{foot}</table>")
}

/// Millimetres to one decimal, without a decimal that says nothing.
pub(super) fn tenths(mm: f64) -> String {
    // Adding nothing turns a negative zero into a plain one.
    let text = format!("{:.1}", (mm * 10.0).round() / 10.0 + 0.0);
    text.strip_suffix(".0").map(str::to_owned).unwrap_or(text)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn decimals_that_say_nothing_are_left_out() {
        let told = [440.0, 439.96, 12.34, -0.04].map(tenths);
        assert_eq!(told, ["440", "440", "12.3", "0"]);
    }

    #[test]
    fn heads_and_cells_are_escaped() {
        let row = vec![Cell::Text("<b>".to_owned()), Cell::Noted("a".to_owned(), "&".to_owned())];
        let html = table(&["<x>", ">n"], &[row], "");
        assert!(html.contains("<th scope=\"col\">&lt;x&gt;</th><th scope=\"col\" class=\"n\">n</th>"));
        assert!(html.contains("<td>&lt;b&gt;</td><td>a<small>&amp;</small></td>"));
    }
}
