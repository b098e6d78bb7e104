//! The quote as one HTML file.

use super::content::{ChairContent, Content, Fact, PartLine, Price};
use crate::export::escape::html;
use crate::export::style::{QUOTE, STYLE};
use crate::export::table::{Cell, table};
use crate::order::{ORDER_MARK, Order};
use crestrail_phrases::{is_right_to_left, language, phrase, say, word};
use crestrail_sheet::svg;

/// The page asks for nothing from outside and runs no script.
pub(super) fn html_of(content: &Content<'_>) -> String {
    let parts = [
        header(content),
        content.chairs.iter().map(chair).collect(),
        section(word("Price"), &prices(&content.price)),
        section(word("Terms"), &list(content.terms)),
        section(word("Please note"), &list(&content.cautions)),
        content.chairs.iter().map(parts_of).collect(),
        embedded(content.order),
    ];
    let title = say!("Quote {}", content.number);
    let title = html(&title);
    format!(
        "<!doctype html>\n<html lang=\"{}\"{}>\n<head>\n<meta charset=\"utf-8\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; img-src data:\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <title>{title}</title>\n<style>{STYLE}{QUOTE}</style>\n</head>\n<body>\n{}</body>\n</html>\n",
        language(),
        if is_right_to_left() { " dir=\"rtl\"" } else { "" },
        parts.concat()
    )
}

fn header(content: &Content<'_>) -> String {
    let paragraph = |line: &String| format!("<p><bdi>{}</bdi></p>", html(line));
    let contact: String = content.contact.iter().map(paragraph).collect();
    let rows: String = content.facts.iter().map(fact).collect();
    format!(
        "<header><div><h1>{}</h1><p><b><bdi>{}</bdi></b></p>{contact}</div><dl>{rows}</dl></header>\n",
        html(&say!("Quote {}", content.number)),
        html(content.shop)
    )
}

/// What people write themselves may run the other way than the page.
fn fact((what, much): &Fact) -> String {
    format!("<dt>{}</dt><dd><bdi>{}</bdi></dd>", html(what), html(much))
}

fn section(title: &str, content: &str) -> String {
    format!("<section><h2>{}</h2>{content}</section>\n", html(title))
}

fn list(lines: &[String]) -> String {
    let items: String = lines.iter().map(|line| format!("<li>{}</li>\n", html(line))).collect();
    format!("<ul>\n{items}</ul>")
}

fn chair(chair: &ChairContent) -> String {
    let facts: String = chair.facts.iter().map(fact).collect();
    let picture = svg::write(&chair.picture);
    section(&chair.title, &format!("<div class=\"chair\"><figure>{picture}</figure><dl>{facts}</dl></div>"))
}

fn prices(price: &Price) -> String {
    let row = |[what, many, each, amount]: &[String; 4]| {
        let number = |text: &String| Cell::Number(text.clone());
        vec![Cell::Text(what.clone()), number(many), number(each), number(amount)]
    };
    let rows: Vec<Vec<Cell>> = price.lines.iter().map(row).collect();
    let foot = |what: &str, amount: &str| {
        format!("<tr><td colspan=\"3\">{what}</td><td class=\"n\">{}</td></tr>", html(amount))
    };
    let deposit =
        price.deposit.as_deref().map_or(String::new(), |amount| foot(word("Deposit with the order"), amount));
    let foot = format!("<tfoot>{}{deposit}</tfoot>", foot(word("Total"), &price.total));
    let table = table(&PRICE_HEADS.map(word), &rows, &foot);
    let ready = price.ready.as_ref().map_or(String::new(), |ready| format!("<p>{}</p>", html(ready)));
    format!("<div class=\"wide\">{table}</div>{ready}")
}

/// The parts of a design, on a page of their own.
fn parts_of(chair: &ChairContent) -> String {
    let row = |line: &PartLine| {
        let number = |text: &str| Cell::Number(text.to_owned());
        let [length, width, thickness] = &line.size;
        vec![
            Cell::Text(line.letter.clone()),
            Cell::Text(line.part.to_owned()),
            number(&line.count.to_string()),
            number(&(line.count * chair.quantity).to_string()),
            number(length),
            number(width),
            number(thickness),
            Cell::Whole(line.timber.to_owned()),
        ]
    };
    let rows: Vec<Vec<Cell>> = chair.parts.iter().map(row).collect();
    format!(
        "<section class=\"parts\"><h2>{}</h2><figure>{}</figure><p>{}</p><div class=\"wide\">{}</div></section>\n",
        html(&parts_title(chair)),
        svg::write(&chair.apart),
        html(word(PARTS_NOTE)),
        table(&PARTS_HEADS.map(word), &rows, "")
    )
}

/// Heads of the table of prices; those of numbers begin with `>`.
pub(super) const PRICE_HEADS: [&str; 4] =
    [phrase("What"), phrase(">How many"), phrase(">Each"), phrase(">Amount")];

/// Heads of the list of parts; those of numbers begin with `>`.
pub(super) const PARTS_HEADS: [&str; 8] = [
    "",
    phrase("Part"),
    phrase(">In one"),
    phrase(">In all"),
    phrase(">Length"),
    phrase(">Width"),
    phrase(">Thickness"),
    phrase("Timber"),
];

/// What stands above it.
pub(super) const PARTS_NOTE: &str =
    phrase("Finished sizes in millimetres, the tenons in the length. The letters are those in the picture.");

pub(super) fn parts_title(chair: &ChairContent) -> String {
    say!("Parts of {}", chair.title)
}

/// The order within the page, where no script can run and no tag can end it.
fn embedded(order: &Order) -> String {
    let text = order.to_value().to_string().replace('<', "\\u003c");
    format!("{ORDER_MARK}{text}</script>\n")
}
