//! The first chair: picture, title block, price and verdict written into the page while it is packed, so that they are on screen
//! before a script has run.
//!
//! What stands there is what the page itself shows first, by the same core: a test holds the two together. `early.js` decides
//! before anything is painted whether it is the chair to be shown; `first.css` lays the picture into the room that
//! the view keeps.

mod block;
mod figures;
mod picture;
mod words;

use crate::files::Files;
use crate::html;
use crate::page::{INDEX, catalogues};
use anyhow::{Context, Result, anyhow};
use crestrail_chair::chair::Chair;
use crestrail_chair::design::{Design, NamedDesign};
use crestrail_chair::joints::Bench;
use crestrail_chair::link;
use crestrail_chair::report::{report, service};
use crestrail_chair::shop::Shop;
use crestrail_chair::showroom::{Colour, Colours, Showroom};
use picture::{Drawn, drawn};
use words::Words;

/// The style sheet of the first picture, to which its colours are added.
const STYLE: &str = "first.css";

/// What is written into a page.
struct First<'a> {
    design: &'a Design,
    picture: Drawn,
    /// What stands at the foot, and the id of its place.
    block: (&'a str, String),
    /// The name under which the page keeps a design.
    kept_as: &'a str,
}

/// The Workshop's files with the first chair in its page: a side chair in its first sizes, at the price of the invented workshop.
pub(crate) fn workshop(page: &Files) -> Result<Files> {
    let (design, shop) = (Design::default(), Shop::demo());
    let chair = resolved(&design, &shop.bench())?;
    let report = serde_json::to_value(report(&design, &chair, &shop)).context("a report is plain data")?;
    let words = Words::english(page)?;
    let block = ("summary", block::summary(&report, &words)?);
    let first =
        First { design: &design, picture: drawn(&chair, &service(&design))?, block, kept_as: "design" };
    let mut out = page.clone();
    out.put(INDEX, first.index(page.text(INDEX)?, page)?);
    out.put(STYLE, first.style(page)?);
    Ok(out)
}

/// The page and the style sheet of a published Showroom, by name, with the first chair on offer in them.
pub(crate) fn showroom<'a>(
    page: &Files,
    name: &'a str,
    showroom: &Showroom,
) -> Result<[(&'a str, String); 2]> {
    let offer = showroom.offers.first().context("nothing is on offer")?;
    let bench = showroom.bench.as_ref().context("a published showroom has its bench")?;
    let chair = resolved(&offer.design, bench)?;
    let seen = showroom
        .seen(offer, &offer.design, &chair, None)
        .map_err(|refusal| anyhow!("the first chair on offer has no label: {refusal}"))?;
    let words = Words::of(page, showroom.language)?;
    let label =
        block::label(&serde_json::to_value(seen).context("a label is plain data")?, showroom, &words)?;
    let block = ("label", label);
    let picture = drawn(&chair, &service(&offer.design))?;
    let first = First { design: &offer.design, picture, block, kept_as: "showroom-design" };
    let style = first.style(page)? + &dress(showroom);
    Ok([(name, first.index(page.text(name)?, page)?), (STYLE, style)])
}

/// The maker's colours, as `dress.js` puts them on the page.
fn dress(showroom: &Showroom) -> String {
    let rule = |place: &str, colour: Colour| {
        let (mark, words) = (colour.hex(), colour.words_on_it().hex());
        let wash = format!("color-mix(in srgb, {mark} 9%, transparent)");
        format!("{place}{{--mark:{mark};--mark-wash:{wash};--on-mark:{words}}}\n")
    };
    let Colours { light, dark } = showroom.colours;
    rule(":root", light) + &rule("[data-scheme=\"dark\"]", dark)
}

fn resolved(design: &Design, bench: &Bench) -> Result<Chair> {
    Chair::resolve(design, bench).map_err(|clash| anyhow!("the first chair cannot be built: {}", clash.why))
}

impl First<'_> {
    fn style(&self, page: &Files) -> Result<String> {
        Ok(format!("{}\n{}", page.text(STYLE)?.trim_end(), self.picture.colours))
    }

    fn index(&self, html: &str, page: &Files) -> Result<String> {
        let html = self.marked(html, page)?;
        let picture = format!("<div class=\"first\">{}</div>\n              ", self.picture.svg);
        let html = before_element(&html, "loading", &picture)?;
        let (id, block) = &self.block;
        into_element(&html, id, block)
    }

    /// What `early.js` compares with: the link and the file of the first chair, and the languages that the page has words in.
    fn marked(&self, html: &str, page: &Files) -> Result<String> {
        let link = link::write(self.design);
        let file = NamedDesign { name: String::new(), design: self.design.clone() }.write();
        let languages: Vec<&str> = catalogues(page)
            .filter_map(|name| name.strip_prefix(crate::page::WORDS)?.strip_suffix(".json"))
            .collect();
        let marks = format!(
            " data-first-link=\"{link}\" data-first-file=\"{:08x}\" data-first-kept=\"{}\" data-first-languages=\"en {}\">",
            fingerprint(&file),
            self.kept_as,
            languages.join(" ")
        );
        let root =
            html::tags(html).into_iter().find(|tag| tag.name == "html").context("there is no <html>")?;
        let at = root.range.end - 1;
        Ok(format!("{}{marks}{}", &html[..at], &html[at + 1..]))
    }
}

/// FNV-1a of 32 bits: short enough to be written down twice, here and in `early.js`.
fn fingerprint(text: &str) -> u32 {
    text.bytes().fold(0x811c_9dc5, |hash, byte| (hash ^ u32::from(byte)).wrapping_mul(0x0100_0193))
}

fn place(html: &str, id: &str) -> Result<html::Tag> {
    let found = html::tags(html).into_iter().find(|tag| tag.get("id") == Some(id));
    found.with_context(|| format!("the page has no element #{id}"))
}

fn before_element(html: &str, id: &str, text: &str) -> Result<String> {
    let at = place(html, id)?.range.start;
    Ok(format!("{}{text}{}", &html[..at], &html[at..]))
}

fn into_element(html: &str, id: &str, text: &str) -> Result<String> {
    let at = place(html, id)?.range.end;
    Ok(format!("{}{text}{}", &html[..at], &html[at..]))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_page_holds_the_first_chair() {
        let page = workshop(&crate::page::read().unwrap()).unwrap();
        let index = page.text(INDEX).unwrap();
        for part in [
            "data-first-link=\"design/1;check=",
            "data-first-languages=\"en ar de es fr sw\"",
            "<div class=\"first\"><svg",
            "<g data-letter=\"A\"",
            "<div class=\"cell cell-price\"><dt>Price</dt><dd>€",
            "data-verdict=",
        ] {
            assert!(index.contains(part), "{part}");
        }
        assert!(!index.contains("style="), "the policy forbids styles in attributes");
        assert!(page.text(STYLE).unwrap().contains("[data-scheme=\"dark\"] .first .c0{"));
    }

    /// The vectors of the algorithm's authors for the empty text and "a", and "foobar".
    #[test]
    fn fingerprints_are_those_of_fnv_1a() {
        assert_eq!(["", "a", "foobar"].map(fingerprint), [0x811c_9dc5, 0xe40c_292c, 0xbf9c_f968]);
    }
}
