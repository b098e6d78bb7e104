//! Making text harmless in the files it goes into.

use std::borrow::Cow;

/// Text for HTML, in an element or in a quoted attribute.
pub(super) fn html(text: &str) -> Cow<'_, str> {
    if !text.contains(['&', '<', '>', '"', '\'']) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len() + 16);
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            c => out.push(c),
        }
    }
    Cow::Owned(out)
}

/// Text for a cell of a CSV file that a spreadsheet may open. A cell that begins with one of = + - @, their full-width
/// forms, a tab or a line break could be taken for a formula; an apostrophe before it makes it plain text. Source: OWASP,
/// "CSV Injection".
pub(super) fn cell(text: &str) -> Cow<'_, str> {
    const RISKY: &[char] =
        &['=', '+', '-', '@', '\u{ff1d}', '\u{ff0b}', '\u{ff0d}', '\u{ff20}', '\t', '\r', '\n'];
    if text.trim_start_matches(' ').starts_with(RISKY) {
        Cow::Owned(format!("'{text}"))
    } else {
        Cow::Borrowed(text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn html_has_no_way_out() {
        assert_eq!(html("<script>\"a\" & 'b'"), "&lt;script&gt;&quot;a&quot; &amp; &#39;b&#39;");
        assert_eq!(html("Zoë's").matches('\'').count(), 0);
        assert!(matches!(html("plain"), Cow::Borrowed(_)));
    }

    #[test]
    fn cells_are_no_formulas() {
        for risky in ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", " =1", "\u{ff1d}1"] {
            assert_eq!(cell(risky), format!("'{risky}"));
        }
        assert_eq!(cell("a=1"), "a=1");
    }
}
