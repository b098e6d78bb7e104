//! The quote: a dated document for a customer, ready to print, with the order inside so that it can be opened again.
//! Nothing of the workshop's rates, hours, buying prices or margin stands in it.
//!
//! What it says (`content`) is gathered once; `page` sets it as one HTML file, `document` as PDF.

mod content;
mod document;
mod page;

#[cfg(test)]
mod tests;

use crate::drawing::View;
use crate::order::Order;
use crate::refusal::Refusal;
use crate::shop::Shop;
use content::Content;
use crestrail_phrases::{in_english, is_right_to_left, word};
use crestrail_sheet::Faces;
use crestrail_sheet::paper::Paper;
use crestrail_sheet::pdf::Document;

/// What a quote is asked for.
#[derive(Clone, Copy, Debug)]
pub struct QuoteAsked<'a> {
    /// The order.
    pub order: &'a Order,
    /// The quote's number, as the workshop counts.
    pub number: &'a str,
    /// The day on which it is written, such as `2026-03-09`.
    pub date: &'a str,
    /// The workshop.
    pub shop: &'a Shop,
    /// From where each chair is seen: turn and tilt; all else of the pictures is the quote's.
    pub view: &'a View,
}

/// The quote as one HTML file. A refusal names `number` or `date` (see [`crate::date::Date::read`]), what of the order
/// cannot be built or priced, or what the shop's file does not say.
pub fn quote_html(asked: &QuoteAsked<'_>) -> Result<String, Refusal> {
    Ok(page::html_of(&Content::of(asked)?))
}

/// The quote on this paper as a PDF document, which carries the `order.json`. Refused as [`quote_html`] is, and where the paper has no pages.
pub fn quote_pdf(asked: &QuoteAsked<'_>, paper: &'static Paper, faces: &Faces) -> Result<Document, Refusal> {
    if paper.long.is_none() {
        return Err(Refusal::new(
            "paper",
            word("A quote is printed on sheets, not on a roll. Choose a4 or letter."),
        ));
    }
    let made = || Ok(document::document_of(&Content::of(asked)?, paper, faces));
    // Strips of a PDF are set from the left, each letter by itself; a script that runs the other way is for the HTML.
    if is_right_to_left() { in_english(made) } else { made() }
}
