//! Scripts and style sheets without what only their readers need: comments, indents, empty lines.
//!
//! Nothing is renamed and no line is joined with another, so that a message with a line in it still leads somewhere, and
//! semicolons that a line's end stands for stay.

/// A script without comments, indents and empty lines.
pub(crate) fn script(text: &str) -> String {
    // How many braces are open in each template around a place.
    let mut templates: Vec<usize> = Vec::new();
    leaned(text, |out, rest, next| match next {
        '/' if rest.starts_with("//") => Step::Leave(line_end(rest)),
        // Two words that only a comment parts must not become one.
        '/' if rest.starts_with("/*") => Step::Part(comment_end(rest)),
        '/' if out.a_value_may_follow() => Step::Keep(regex_end(rest)),
        '\'' | '"' => Step::Keep(string_end(rest, next)),
        '`' => Step::Keep(template_end(&rest[1..], &mut templates) + 1),
        '{' => {
            templates.last_mut().into_iter().for_each(|open| *open += 1);
            Step::Keep(1)
        }
        '}' => match templates.last_mut() {
            Some(0) => {
                templates.pop();
                Step::Keep(template_end(&rest[1..], &mut templates) + 1)
            }
            Some(open) => {
                *open -= 1;
                Step::Keep(1)
            }
            None => Step::Keep(1),
        },
        _ => Step::Code,
    })
}

/// A style sheet without comments, indents and empty lines.
pub(crate) fn style(text: &str) -> String {
    leaned(text, |_, rest, next| match next {
        '/' if rest.starts_with("/*") => Step::Leave(comment_end(rest)),
        '\'' | '"' => Step::Keep(string_end(rest, next)),
        _ => Step::Code,
    })
}

/// What becomes of so many bytes.
enum Step {
    /// Nothing.
    Leave(usize),
    /// A space.
    Part(usize),
    /// They stay as they are.
    Keep(usize),
    /// One character of code.
    Code,
}

/// A text step by step, each told by what has been written, what is left, and its first character.
fn leaned(text: &str, mut step: impl FnMut(&Out, &str, char) -> Step) -> String {
    let (mut out, mut rest) = (Out::default(), text);
    while let Some(next) = rest.chars().next() {
        let taken = match step(&out, rest, next) {
            Step::Leave(bytes) => bytes,
            Step::Part(bytes) => {
                out.code(" ");
                bytes
            }
            Step::Keep(bytes) => {
                out.whole(&rest[..bytes]);
                bytes
            }
            Step::Code => {
                out.code(&rest[..next.len_utf8()]);
                next.len_utf8()
            }
        };
        rest = &rest[taken..];
    }
    out.text
}

/// Words after which a value begins, not an operator.
const BEFORE_VALUES: [&str; 9] = ["return", "typeof", "case", "of", "in", "await", "yield", "delete", "void"];

#[derive(Default)]
struct Out {
    text: String,
}

impl Out {
    /// A character of code; spaces and line ends at the beginning of a line are left out, and those at its end.
    fn code(&mut self, piece: &str) {
        let begins = self.text.is_empty() || self.text.ends_with('\n');
        match piece {
            "\n" => {
                let end = self.text.trim_end_matches([' ', '\t', '\r']).len();
                self.text.truncate(end);
                if !self.text.is_empty() && !self.text.ends_with('\n') {
                    self.text.push('\n');
                }
            }
            " " | "\t" | "\r" if begins || self.text.ends_with(' ') => {}
            _ => self.text.push_str(piece),
        }
    }

    /// A string, template or regular expression, as it is.
    fn whole(&mut self, piece: &str) {
        self.text.push_str(piece);
    }

    /// Whether a slash here begins a regular expression: not behind what is a value itself.
    fn a_value_may_follow(&self) -> bool {
        let before = self.text.trim_end();
        let word =
            before.rfind(|c: char| !c.is_alphanumeric() && c != '_' && c != '$').map_or(before, |at| {
                let after = before[at..].chars().next().map_or(0, char::len_utf8);
                &before[at + after..]
            });
        if !word.is_empty() {
            return BEFORE_VALUES.contains(&word);
        }
        !before.ends_with([')', ']', '}', '"', '\'', '`'])
    }
}

fn line_end(text: &str) -> usize {
    text.find('\n').unwrap_or(text.len())
}

fn comment_end(text: &str) -> usize {
    text[2..].find("*/").map_or(text.len(), |at| at + 4)
}

/// Bytes up to the quote that ends a string, both quotes among them.
fn string_end(text: &str, quote: char) -> usize {
    let mut escaped = false;
    for (at, c) in text.char_indices().skip(1) {
        match c {
            _ if escaped => escaped = false,
            '\\' => escaped = true,
            _ if c == quote => return at + 1,
            _ => {}
        }
    }
    text.len()
}

/// Bytes of a regular expression with its slashes.
fn regex_end(text: &str) -> usize {
    let (mut escaped, mut in_class) = (false, false);
    for (at, c) in text.char_indices().skip(1) {
        match c {
            _ if escaped => escaped = false,
            '\\' => escaped = true,
            '[' => in_class = true,
            ']' => in_class = false,
            '/' if !in_class => return at + 1,
            _ => {}
        }
    }
    text.len()
}

/// Bytes of a template up to its end, or up to a hole, which is then open.
fn template_end(text: &str, templates: &mut Vec<usize>) -> usize {
    let mut escaped = false;
    for (at, c) in text.char_indices() {
        match c {
            _ if escaped => escaped = false,
            '\\' => escaped = true,
            '`' => return at + 1,
            '$' if text[at..].starts_with("${") => {
                templates.push(0);
                return at + 2;
            }
            _ => {}
        }
    }
    text.len()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn comments_indents_and_empty_lines_go() {
        let text = "// head\n\n/** a\n * b */\nexport const a = 1; // one\n  if (a) {\n\n    b(); /* two */ c();\n  }\n";
        assert_eq!(script(text), "export const a = 1;\nif (a) {\nb(); c();\n}\n");
    }

    #[test]
    fn what_is_quoted_stays() {
        for text in [
            "a = 'it\\'s // no comment';\n",
            "b = \"/* none */\";\n",
            "c = `  two\n  lines // ${d(`in /* it */ ${e({ f: 1 })}`)}  `;\n",
            "g = h.replace(/[/]\\/\\/'/g, '');\n",
            "const i = /^[^#]*#/, j = k / l / m;\n",
            "n = (o + p) / q; r = s[0] / 2;\n",
            "return /\\s*\"/.test(t);\n",
            "u = v ? /a'b/ : w;\n",
        ] {
            assert_eq!(script(text), text);
        }
    }

    #[test]
    fn a_hole_of_a_template_is_code() {
        assert_eq!(script("a = `x${ /* y */ { z: 1 }.z }  w`;\n"), "a = `x${ { z: 1 }.z }  w`;\n");
    }

    #[test]
    fn words_parted_by_a_comment_stay_two() {
        assert_eq!(script("return/** @type {A} */(b);\ntypeof/**/c;\n"), "return (b);\ntypeof c;\n");
    }

    #[test]
    fn a_style_sheet_keeps_its_strings() {
        let text = "/* all */\n.a {\n  content: \"/* – */\";\n}\n\n.b { color: red; }\n";
        assert_eq!(style(text), ".a {\ncontent: \"/* – */\";\n}\n.b { color: red; }\n");
    }

    /// The page's own scripts, as a browser would read them: what is left holds no comment, and strings and templates are whole.
    #[test]
    fn once_lean_a_script_is_lean() {
        let page = crate::page::read().unwrap();
        for (name, _) in page.iter().filter(|(name, _)| name.ends_with(".js")) {
            let lean = script(page.text(name).unwrap());
            assert_eq!(script(&lean), lean, "{name}");
            assert!(!lean.contains("@param") && !lean.contains("@type"), "{name}");
        }
    }
}
