//! Objects of a PDF file, as far as it takes to find the files inside (ISO 32000-1, 7.3).

/// An object.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Object {
    /// Such as `/Type`, without its slash.
    Name(Vec<u8>),
    Number(f64),
    /// The number of the object that stands elsewhere.
    Elsewhere(u32),
    List(Vec<Object>),
    Dictionary(Vec<(Vec<u8>, Object)>),
    /// Strings, `true`, `false`, `null`: nothing is asked of them.
    Other,
}

impl Object {
    pub(super) fn get(&self, key: &str) -> Option<&Self> {
        let Self::Dictionary(rows) = self else { return None };
        rows.iter().find(|(name, _)| name == key.as_bytes()).map(|(_, value)| value)
    }

    pub(super) fn is_name(&self, name: &str) -> bool {
        matches!(self, Self::Name(own) if own == name.as_bytes())
    }
}

/// Objects lie no deeper in each other than this in any sane file.
const DEEPEST: usize = 40;

/// Reads objects from a place onwards.
#[derive(Clone, Copy, Debug)]
pub(super) struct Reader<'a> {
    pub(super) bytes: &'a [u8],
    pub(super) at: usize,
}

impl<'a> Reader<'a> {
    fn peek(&self) -> Option<u8> {
        self.bytes.get(self.at).copied()
    }

    fn rest(&self) -> &'a [u8] {
        self.bytes.get(self.at..).unwrap_or_default()
    }

    /// Passes over white space and comments.
    pub(super) fn space(&mut self) {
        while let Some(byte) = self.peek() {
            match byte {
                b'%' => self.at += self.rest().iter().take_while(|b| !matches!(b, b'\r' | b'\n')).count(),
                _ if is_space(byte) => self.at += 1,
                _ => return,
            }
        }
    }

    /// Passes over a word, if it stands here.
    pub(super) fn word(&mut self, word: &str) -> bool {
        let here = self.rest().starts_with(word.as_bytes());
        self.at += if here { word.len() } else { 0 };
        here
    }

    /// A whole number without sign.
    pub(super) fn figures(&mut self) -> Option<u32> {
        let count = self.rest().iter().take_while(|b| b.is_ascii_digit()).count();
        let text = core::str::from_utf8(&self.rest()[..count]).ok()?;
        let number = text.parse().ok()?;
        self.at += count;
        Some(number)
    }

    /// The object that stands here, or nothing where there is none that makes sense.
    pub(super) fn object(&mut self) -> Option<Object> {
        self.within(0)
    }

    fn within(&mut self, depth: usize) -> Option<Object> {
        if depth > DEEPEST {
            return None;
        }
        self.space();
        match self.peek()? {
            b'/' => Some(Object::Name(self.name())),
            b'(' => self.string(),
            b'[' => self.list(depth),
            b'<' if self.rest().starts_with(b"<<") => self.dictionary(depth),
            b'<' => {
                self.at += self.rest().iter().position(|&b| b == b'>')? + 1;
                Some(Object::Other)
            }
            b'0'..=b'9' | b'+' | b'-' | b'.' => self.number(),
            b'a'..=b'z' => {
                self.at += self.rest().iter().take_while(|b| b.is_ascii_lowercase()).count();
                Some(Object::Other)
            }
            _ => None,
        }
    }

    fn name(&mut self) -> Vec<u8> {
        self.at += 1;
        let count = self.rest().iter().take_while(|&&b| !is_space(b) && !is_delimiter(b)).count();
        let written = &self.rest()[..count];
        self.at += count;
        let mut name = Vec::with_capacity(count);
        let mut i = 0;
        while i < written.len() {
            let code = written.get(i + 1..i + 3).and_then(|two| core::str::from_utf8(two).ok());
            match code.and_then(|two| u8::from_str_radix(two, 16).ok()).filter(|_| written[i] == b'#') {
                Some(byte) => {
                    name.push(byte);
                    i += 3;
                }
                None => {
                    name.push(written[i]);
                    i += 1;
                }
            }
        }
        name
    }

    fn string(&mut self) -> Option<Object> {
        let mut depth = 0_usize;
        loop {
            match self.peek()? {
                b'\\' => self.at += 1,
                b'(' => depth += 1,
                b')' => depth -= 1,
                _ => {}
            }
            self.at += 1;
            if depth == 0 {
                return Some(Object::Other);
            }
        }
    }

    fn list(&mut self, depth: usize) -> Option<Object> {
        self.at += 1;
        let mut items = Vec::new();
        loop {
            self.space();
            if self.word("]") {
                return Some(Object::List(items));
            }
            items.push(self.within(depth + 1)?);
        }
    }

    fn dictionary(&mut self, depth: usize) -> Option<Object> {
        self.at += 2;
        let mut rows = Vec::new();
        loop {
            self.space();
            if self.word(">>") {
                return Some(Object::Dictionary(rows));
            }
            let Object::Name(key) = self.within(depth + 1)? else { return None };
            rows.push((key, self.within(depth + 1)?));
        }
    }

    /// A number, or with another one and `R` behind it an object elsewhere.
    fn number(&mut self) -> Option<Object> {
        let mut ahead = *self;
        if let Some(number) = ahead.elsewhere() {
            *self = ahead;
            return Some(Object::Elsewhere(number));
        }
        let count = self.rest().iter().take_while(|b| matches!(b, b'0'..=b'9' | b'+' | b'-' | b'.')).count();
        let number = core::str::from_utf8(&self.rest()[..count]).ok()?.parse().ok()?;
        self.at += count;
        Some(Object::Number(number))
    }

    fn elsewhere(&mut self) -> Option<u32> {
        let number = self.figures()?;
        self.space();
        self.figures()?;
        self.space();
        let ends = |byte: Option<u8>| byte.is_none_or(|b| is_space(b) || is_delimiter(b));
        (self.word("R") && ends(self.peek())).then_some(number)
    }
}

pub(super) fn is_space(byte: u8) -> bool {
    matches!(byte, 0 | b'\t' | b'\n' | 12 | b'\r' | b' ')
}

fn is_delimiter(byte: u8) -> bool {
    b"()<>[]{}/%".contains(&byte)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Option<Object> {
        Reader { bytes: text.as_bytes(), at: 0 }.object()
    }

    #[test]
    fn objects_are_read() {
        let found =
            read("<</A/b#2Fc /D [1 -2.5 (x\\)(y)) <0a> true 7 0 R] % note\n/E 12 0 R/F 3>>").expect("one");
        assert!(found.get("A").is_some_and(|name| name.is_name("b/c")));
        let other = || Object::Other;
        let items =
            vec![Object::Number(1.0), Object::Number(-2.5), other(), other(), other(), Object::Elsewhere(7)];
        assert_eq!(found.get("D"), Some(&Object::List(items)));
        assert_eq!(found.get("E"), Some(&Object::Elsewhere(12)));
        assert_eq!((found.get("F"), found.get("G")), (Some(&Object::Number(3.0)), None));
    }

    #[test]
    fn what_makes_no_sense_is_nothing() {
        for text in ["", "<<", "<</A", "<<1 2>>", "(open", "[1 2", "<0a", ")", "+-", &"[".repeat(100)] {
            assert_eq!(read(text), None, "{text}");
        }
    }
}
