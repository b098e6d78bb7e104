//! A design in a link: the knobs that differ from the defaults, and a checksum.
//!
//! The text stands behind the `#` of the page's address, such as
//! `design/1;seat_height=455;species=oak_white;check=5f3a90c1`. The checksum tells a link that
//! was cut short in a message from a whole one. A link from the Showroom also holds what stood on the label:
//! `told=from.EUR.41500`.

use crate::design::{DESIGN_FILE, Design};
use crate::refusal::Refusal;
use crate::told::ToldLabel;
use crestrail_phrases::{say, word};
use serde_json::Value;

/// Longest link that is read, bytes; a link with every knob in it is a third of this.
const LONGEST: usize = 8192;

/// The fragment that stands for a design.
pub fn write(design: &Design) -> String {
    write_told(design, None)
}

/// A number by which drawings of one design are told from those of others: the checksum of its link, in capitals.
pub fn number(design: &Design) -> String {
    write(design).rsplit('=').next().unwrap_or_default().to_uppercase()
}

/// The fragment that stands for a design and what a customer was told of its price.
pub fn write_told(design: &Design, label: Option<&ToldLabel>) -> String {
    let mut text = DESIGN_FILE.header();
    for (name, value) in design.differences() {
        let number = value.as_f64().map(|number| number.to_string());
        let value = number.or(value.as_str().map(str::to_owned)).unwrap_or_default();
        text.push_str(&format!(";{name}={value}"));
    }
    if let Some(label) = label {
        text.push_str(&format!(";{TOLD}={}", label.write()));
    }
    let check = checksum(&text);
    format!("{text};check={check:08x}")
}

/// The name of what was told; no knob is called so.
const TOLD: &str = "told";

/// The design of a fragment, with or without its `#`.
pub fn read(fragment: &str) -> Result<Design, Refusal> {
    read_told(fragment).map(|(design, _)| design)
}

/// The first link to a design in a text such as a message: from its kind to its checksum, or to the next space where it
/// has none. Signs that mail programs escape are put back.
pub fn find(text: &str) -> Option<String> {
    let starts = |at: &usize| *at == 0 || text[..*at].ends_with('#');
    let (start, _) = text.match_indices("design/").find(|(at, _)| starts(at))?;
    let word = text[start..].split(|c: char| c.is_whitespace() || "<>\"'".contains(c)).next()?;
    let mut link = word.to_owned();
    for (escaped, sign) in
        [("%3B", ";"), ("%3b", ";"), ("%3D", "="), ("%3d", "="), ("%2F", "/"), ("%2f", "/")]
    {
        link = link.replace(escaped, sign);
    }
    let end = link.find(CHECK).map(|at| at + CHECK.len() + 8).filter(|end| link.is_char_boundary(*end));
    Some(end.map_or(link.clone(), |end| link[..end].to_owned()))
}

/// What stands before the checksum, which has eight figures.
const CHECK: &str = ";check=";

/// The design of a fragment, and what a customer was told of its price.
pub fn read_told(fragment: &str) -> Result<(Design, Option<ToldLabel>), Refusal> {
    let text = fragment.strip_prefix('#').unwrap_or(fragment);
    if text.len() > LONGEST {
        return Err(Refusal::new("link", word("This link is too long to be one of ours. Ask for it anew.")));
    }
    let (body, check) = text.rsplit_once(CHECK).ok_or_else(|| not_whole(text))?;
    let mut fields = body.split(';');
    check_header(fields.next().unwrap_or_default())?;
    if u32::from_str_radix(check, 16) != Ok(checksum(body)) || check.len() != 8 {
        return Err(cut_short());
    }
    fields.try_fold((Design::default(), None), |(design, told), field| {
        let (name, value) = field.split_once('=').ok_or_else(cut_short)?;
        if name == TOLD {
            return Ok((design, Some(ToldLabel::read(value).ok_or_else(cut_short)?)));
        }
        Ok((design.with(name, &read_value(value))?, told))
    })
}

/// Numbers stand as they are; everything else is a name.
fn read_value(text: &str) -> Value {
    let number = text.parse::<f64>().ok().and_then(serde_json::Number::from_f64);
    number.map_or_else(|| Value::String(text.to_owned()), Value::Number)
}

fn check_header(header: &str) -> Result<(), Refusal> {
    if header == DESIGN_FILE.header() {
        return Ok(());
    }
    let version = header.strip_prefix("design/").and_then(|v| v.parse::<u32>().ok());
    Err(match version {
        Some(v) if v > DESIGN_FILE.version => Refusal::new(
            "link",
            say!(
                "This link is of a newer kind ({header}) than this page reads ({}). Load the page anew to get the newest program.",
                DESIGN_FILE.header()
            ),
        ),
        _ => foreign(),
    })
}

fn foreign() -> Refusal {
    Refusal::new("link", word("This is not a link to a design of this page. Ask for it anew."))
}

fn not_whole(text: &str) -> Refusal {
    if text.starts_with("design/") { cut_short() } else { foreign() }
}

fn cut_short() -> Refusal {
    Refusal::new(
        "link",
        word(
            "This link is not whole: its end was cut off or a part of it was changed on the way. Copy it again from where it came.",
        ),
    )
}

/// FNV-1a, 32 bits (Fowler, Noll and Vo; constants of the published description).
fn checksum(text: &str) -> u32 {
    text.bytes().fold(0x811c_9dc5, |hash, byte| (hash ^ u32::from(byte)).wrapping_mul(0x0100_0193))
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    fn example() -> Design {
        let design = Design::default().with("seat_height", &json!(431.5)).unwrap();
        design.with("species", &json!("oak_white")).unwrap().with("back_slats", &json!(4)).unwrap()
    }

    #[test]
    fn goes_there_and_back() {
        for design in [Design::default(), example()] {
            assert_eq!(read(&write(&design)).unwrap(), design);
            assert_eq!(read(&format!("#{}", write(&design))).unwrap(), design);
        }
    }

    #[test]
    fn whole_numbers_have_no_decimals() {
        let design = example().with("seat_width", &json!(470)).unwrap();
        let link = write(&design);
        assert!(
            link.contains(";seat_height=431.5;seat_width=470;") && link.contains(";back_slats=4;"),
            "{link}"
        );
        assert_eq!(read(&link).unwrap(), design);
    }

    #[test]
    fn carries_what_was_told() {
        let label = ToldLabel::read("from.EUR.41500").unwrap();
        let link = write_told(&example(), Some(&label));
        assert_eq!(read_told(&link).unwrap(), (example(), Some(label)));
        assert_eq!(read(&link).unwrap(), example(), "the Showroom itself opens it too");
        assert_eq!(read_told(&write(&example())).unwrap().1, None);
        assert!(read(&link.replace("41500", "10000")).unwrap_err().why.contains("not whole"));
    }

    #[test]
    fn is_found_in_a_message() {
        let link = write(&example());
        for text in [
            link.clone(),
            format!("https://maker.example/a/#{link}"),
            format!("Dear maker,\n\n<https://maker.example/#{link}>.\nAnn"),
            format!(
                "see https://maker.example/?x=design/1#{}), please",
                link.replace(';', "%3B").replace('=', "%3d")
            ),
        ] {
            assert_eq!(find(&text).as_deref(), Some(link.as_str()), "{text}");
        }
        assert_eq!(find("my design/1 is nice"), None);
        let cut = format!("https://maker.example/#{} and so on", &link[..20]);
        assert_eq!(find(&cut).as_deref(), Some(&link[..20]), "it is the reading that refuses it");
    }

    #[test]
    fn is_refused_wherever_it_is_cut() {
        let link = write(&example());
        for end in 0..link.len() {
            assert!(read(&link[..end]).is_err(), "{}", &link[..end]);
        }
    }

    #[test]
    fn is_refused_when_changed() {
        let link = write(&example()).replace("431.5", "435.5");
        assert!(read(&link).unwrap_err().why.contains("not whole"));
    }

    #[test]
    fn names_what_is_wrong() {
        let whole = |body: &str| format!("{body};check={:08x}", checksum(body));
        assert!(read(&whole("design/2")).unwrap_err().why.contains("newer"));
        assert!(read("elsewhere").unwrap_err().why.contains("not a link"));
        assert_eq!(read(&whole("design/1;seat_height=9000")).unwrap_err().where_, "seat_height");
        assert_eq!(read(&whole("design/1;sofa=1")).unwrap_err().where_, "sofa");
        assert_eq!(read(&whole("design/1;=1")).unwrap_err().where_, "\"\"");
        assert_eq!(read(&whole("design/1;seat_height=NaN")).unwrap_err().where_, "seat_height");
    }

    #[test]
    fn checksum_is_the_published_one() {
        // Test vectors of the published description of FNV-1a.
        assert_eq!(checksum(""), 0x811c_9dc5);
        assert_eq!(checksum("a"), 0xe40c_292c);
        assert_eq!(checksum("foobar"), 0xbf9c_f968);
    }
}
