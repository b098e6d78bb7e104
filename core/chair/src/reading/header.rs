//! Which file it is: the field `crestrail` names the kind and the version.

use super::Fields;
use crate::refusal::Refusal;
use crestrail_phrases::say;
use serde_json::Value;

/// A kind of file with the newest version that this program reads.
#[derive(Clone, Copy, Debug)]
pub struct FileKind {
    /// Its name in the header, such as `shop`.
    pub name: &'static str,
    /// What people call it, such as `shop.json`.
    pub file: &'static str,
    /// The oldest version that this program still reads.
    pub oldest: u32,
    /// The version that this program reads and writes.
    pub version: u32,
}

impl FileKind {
    /// The header, such as `shop/1`.
    pub fn header(&self) -> String {
        format!("{}/{}", self.name, self.version)
    }
}

/// The fields of a file, once its header has been found to be of this kind and version.
pub fn open<'a>(kind: &FileKind, value: &'a Value) -> Result<Fields<'a>, Refusal> {
    let refuse = |why: String| Refusal::new("crestrail", why);
    let fields = Fields::top(kind.file, value)?;
    let header = match fields.value("crestrail") {
        Some(Value::String(header)) => header,
        _ => return Err(refuse(foreign(kind))),
    };
    let Some((name, version)) = split(header) else {
        return Err(refuse(foreign(kind)));
    };
    if name != kind.name {
        let why = say!("This is a {name} file ({header}), not a {}. Choose another file.", kind.file);
        return Err(refuse(why));
    }
    match version {
        v if (kind.oldest..=kind.version).contains(&v) => Ok(fields),
        v if v > kind.version => Err(refuse(newer(kind, header))),
        _ => Err(refuse(say!("{header} was never a version of this file; write \"{}\".", kind.header()))),
    }
}

fn foreign(kind: &FileKind) -> String {
    say!(
        "This is JSON, but not a {}: it does not say \"crestrail\": \"{}\". Choose another file.",
        kind.file,
        kind.header()
    )
}

fn newer(kind: &FileKind, header: &str) -> String {
    say!(
        "{header} is newer than this program reads ({}). Load the page anew to get the newest program, or save the file for {}.",
        kind.header(),
        kind.header()
    )
}

/// No header is longer, bytes.
const LONGEST: usize = 40;

fn split(header: &str) -> Option<(&str, u32)> {
    let (name, version) = header.split_once('/').filter(|_| header.len() <= LONGEST)?;
    let plain = !name.is_empty() && name.chars().all(|c| c.is_ascii_lowercase()) && name.len() <= 20;
    plain.then_some(name).zip(version.parse().ok())
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    const SHOP: FileKind = FileKind { name: "shop", file: "shop.json", oldest: 1, version: 2 };

    fn why(value: Value) -> String {
        open(&SHOP, &value).map(|_| ()).expect_err("refused").why
    }

    #[test]
    fn takes_its_own_version() {
        assert!(open(&SHOP, &json!({"crestrail": "shop/2"})).is_ok());
        assert!(open(&SHOP, &json!({"crestrail": "shop/1"})).is_ok(), "an older one");
    }

    #[test]
    fn refuses_other_versions_kinds_and_foreign_files() {
        assert!(
            why(json!({"crestrail": "shop/3"}))
                .starts_with("shop/3 is newer than this program reads (shop/2)")
        );
        assert!(why(json!({"crestrail": "shop/0"})).contains("never a version"));
        assert!(why(json!({"crestrail": "design/1"})).starts_with("This is a design file (design/1)"));
        for foreign in
            [json!({}), json!({"crestrail": 1}), json!({"crestrail": "shop"}), json!({"crestrail": "/1"})]
                .into_iter()
                .chain([json!({"crestrail": format!("shop/{}3", "0".repeat(100_000))})])
        {
            assert!(why(foreign).starts_with("This is JSON, but not a shop.json"));
        }
        assert!(why(json!([1])).contains("list"));
    }
}
