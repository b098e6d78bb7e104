//! The printable parts list: one HTML file that stands alone, with picture, lists, prices and cautions.

use super::escape::html;
use super::sections::{assembly, boards, cutting, joints, prices, timber};
use super::style::STYLE;
use crate::length::Lengths;
use crate::report::Report;
use crate::shop::Shop;

/// What the parts list shows. All text is escaped; the picture is put in as it is.
#[derive(Clone, Copy, Debug)]
pub struct PartsList<'a> {
    /// Name of the design.
    pub name: &'a str,
    /// The workshop.
    pub shop: &'a Shop,
    /// The date as text; the program itself knows no clock.
    pub date: Option<&'a str>,
    /// The picture: an `<svg>` element made by this program.
    pub picture_svg: Option<&'a str>,
    /// What lengths are written in; sentences of the report are in millimetres.
    pub lengths: Lengths,
    /// Everything else.
    pub report: &'a Report,
}

/// The parts list as HTML. It asks for nothing from outside and runs no script.
pub fn parts_list_html(list: &PartsList<'_>) -> String {
    let title = html(list.name);
    let report = list.report;
    let parts = [
        header(list),
        list.picture_svg.map_or(String::new(), |svg| format!("<figure>{svg}</figure>\n")),
        section("Cutting list", &cutting(&report.cutting_list, list.lengths)),
        section("Joints", &joints(&report.joints, list.lengths)),
        section("How it goes together", &assembly(&report.assembly)),
        section("Timber", &timber(&report.timber)),
        board_section(report, list.lengths),
        section("Price", &prices(report.bill.as_ref(), report.no_bill.as_ref())),
        cautions(&report.cautions),
    ];
    format!(
        "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; img-src data:\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <title>{title}: parts list</title>\n<style>{STYLE}</style>\n</head>\n<body>\n{}</body>\n</html>\n",
        parts.concat()
    )
}

fn board_section(report: &Report, lengths: Lengths) -> String {
    let boards = boards(&report.boards, report.bill.as_ref(), lengths);
    if boards.is_empty() { boards } else { section("Boards to take", &boards) }
}

fn header(list: &PartsList<'_>) -> String {
    let date = list.date.map_or(String::new(), |d| format!("<p>{}</p>", html(d)));
    let note =
        list.shop.note.as_ref().map_or(String::new(), |n| format!("<p><small>{}</small></p>", html(n)));
    let fact = |(what, much): &(&str, String)| format!("<dt>{}</dt><dd>{}</dd>", html(what), html(much));
    let facts: String = facts(list).iter().map(fact).collect();
    format!(
        "<header><div><h1>{}</h1><p>Parts list, {}</p>{date}{note}</div><dl>{facts}</dl></header>\n",
        html(list.name),
        html(&list.shop.name)
    )
}

fn facts(list: &PartsList<'_>) -> [(&'static str, String); 6] {
    let o = &list.report.overall;
    let mm = |v: f64| list.lengths.say(v);
    [
        ("Width", mm(o.width)),
        ("Depth", mm(o.depth)),
        ("Height", mm(o.height)),
        ("Seat height", mm(o.seat_height)),
        ("Mass", format!("{:.1} kg", o.mass_kg)),
        ("Parts", o.parts.to_string()),
    ]
}

fn section(title: &str, content: &str) -> String {
    format!("<section><h2>{}</h2>{content}</section>\n", html(title))
}

fn cautions(cautions: &[String]) -> String {
    let items: String = cautions.iter().map(|c| format!("<li>{}</li>\n", html(c))).collect();
    section("Cautions", &format!("<ul>\n{items}</ul>"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chair::Chair;
    use crate::design::Design;

    fn sheet(name: &str, date: Option<&str>, shop: &Shop) -> String {
        let design = Design::default();
        let chair = Chair::resolve(&design, &shop.bench()).expect("the default can be built");
        let report = crate::report::report(&design, &chair, shop);
        let picture_svg = Some("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 9 9\"></svg>");
        let lengths = Lengths::Millimetres;
        parts_list_html(&PartsList { name, shop, date, picture_svg, lengths, report: &report })
    }

    #[test]
    fn text_from_people_is_escaped() {
        let shop = Shop { name: "<script>alert(1)</script>".to_owned(), ..Shop::demo() };
        let page = sheet("<img src=x onerror=alert(1)>", Some("</p><script>"), &shop);
        assert!(!page.contains("<img") && !page.contains("<script"));
        assert_eq!(page.matches("&lt;img src=x onerror=alert(1)&gt;").count(), 2);
    }

    #[test]
    fn shows_rows_joints_prices_and_cautions() {
        let page = sheet("Side chair", Some("3 March 2026"), &Shop::demo());
        for needed in [
            "front rail",
            "front rail in front leg",
            "Two side frames, left and right",
            "white ash, 32 mm",
            ">Total</td>",
            "IARC Group 1",
            "<dd>450 mm</dd>",
            "<figure><svg",
            "3 March 2026",
        ] {
            assert!(page.contains(needed), "{needed}");
        }
    }

    /// A shop that does not stock the timber still gets the lists, and the reason in place of the price.
    #[test]
    fn without_a_price_the_reason_is_shown() {
        let mut shop = Shop::demo();
        shop.timber.rows.retain(|r| r.species.id != Design::default().species().id);
        let page = sheet("Side chair", None, &shop);
        assert!(page.contains("has no price for") && !page.contains(">Total</td>"));
    }

    /// It may be opened from anywhere and asks for nothing.
    #[test]
    fn the_file_stands_alone() {
        let page = sheet("Side chair", None, &Shop::demo());
        assert!(!page.contains("src=") && !page.contains("href=") && !page.contains("url("));
        assert!(page.contains("default-src 'none'"));
    }
}
