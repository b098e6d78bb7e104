//! The requests, by name.

use crate::{
    Refused, bodies, book, exchange, files, frames, measures, moves, orders, packing, setting, sheets,
    sitters, solids, work,
};
use crestrail_chair::chair::Chair;
use crestrail_chair::checkin::check_in;
use crestrail_chair::choices::{Choice, Family};
use crestrail_chair::design::Design;
use crestrail_chair::drawing::{self, View};
use crestrail_chair::export::shapes;
use crestrail_chair::fitting::make_it_fit;
use crestrail_chair::knob::{Knob, Pick};
use crestrail_chair::plan::Effort;
use crestrail_chair::ranges::RangeSearch;
use crestrail_chair::reading::Fields;
use crestrail_chair::refusal::Refusal;
use crestrail_chair::report::{report, service};
use crestrail_chair::sheets::paper;
use crestrail_chair::shop::Shop;
use crestrail_chair::showroom::{Showroom, published};
use crestrail_chair::swing::tornado;
use crestrail_chair::{nearest, unbuildable::Unbuildable};
use crestrail_sheet::paper::Paper;
use crestrail_sheet::svg;
use serde_json::{Value, json};

/// The answer to a request.
pub(crate) fn answer(request: &Value) -> Result<Value, Refused> {
    let fields = Fields::top("request", request)?;
    let ask = fields.text("ask", 40)?;
    match ask.as_str() {
        "knobs" => only(&fields, &["ask", "family"]).and_then(|()| ask_knobs(&fields)),
        "families" => only(&fields, &["ask"])
            .map(|()| json!(Family::picks().into_iter().map(Pick::spoken).collect::<Vec<_>>())),
        "report" => only(&fields, &["ask", "design", "shop"]).and_then(|()| ask_report(&fields)),
        "solids" => only(&fields, &["ask", "design", "shop"]).and_then(|()| ask_solids(&fields)),
        "assembly" => only(&fields, &["ask", "design", "shop"]).and_then(|()| ask_assembly(&fields)),
        "bodies" => only(&fields, &["ask", "design", "shop"]).and_then(|()| ask_bodies(&fields)),
        "file" => only(&fields, &["ask", "kind", "name", "design", "shop"]).and_then(|()| ask_file(&fields)),
        "work" => only(&fields, &["ask", "design", "shop", "print", "paper", "name"])
            .and_then(|()| ask_work(&fields)),
        "shapes" => only(&fields, &["ask", "design", "shop"]).and_then(|()| ask_shapes(&fields)),
        "exchange" => only(&fields, &["ask", "design", "shop", "format", "part", "name", "stamp"])
            .and_then(|()| ask_exchange(&fields)),
        "ranges" => only(&fields, &["ask", "design", "shop"]).and_then(|()| ask_ranges(&fields)),
        "drawing" => {
            only(&fields, &["ask", "design", "shop", "sheet", "options"]).and_then(|()| ask_drawing(&fields))
        }
        "setting" => only(&fields, &["ask", "design", "shop"]).and_then(|()| ask_setting(&fields)),
        "sheets" => only(&fields, &["ask", "design", "shop"]).and_then(|()| ask_sheets(&fields)),
        "dimensions" => only(&fields, &["ask", "design", "shop", "paper"])
            .and_then(|()| ask_drawn(&fields, sheets::dimensions)),
        "edges" => only(&fields, &["ask", "design", "shop", "paper"])
            .and_then(|()| ask_drawn(&fields, sheets::edges)),
        "board_measure" => only(&fields, &["ask", "boards"]).and_then(|()| measures::boards(&fields)),
        "bars" => only(&fields, &["ask", "problem", "work"]).and_then(|()| packing::bars(&fields)),
        "boards" => only(&fields, &["ask", "problem", "work"]).and_then(|()| packing::boards(&fields)),
        "planks" => only(&fields, &["ask", "problem", "work"]).and_then(|()| packing::planks(&fields)),
        "order" => {
            only(&fields, &["ask", "order", "shop"]).and_then(|()| orders::order(&fields, &shop(&fields)?))
        }
        "plan" => only(&fields, &["ask", "order", "shop", "effort"]).and_then(|()| {
            let effort = fields.choice("effort", &[("quick", Effort::PRICE), ("good", Effort::SAW)])?;
            orders::plan(&fields, &shop(&fields)?, effort)
        }),
        "quote" => only(&fields, &["ask", "order", "number", "date", "shop", "paper"])
            .and_then(|()| orders::quote(&fields, &shop(&fields)?)),
        "attached" => only(&fields, &["ask", "pdf_base64"]).and_then(|()| orders::attached(&fields)),
        "published" => only(&fields, &["ask", "showroom", "shop"])
            .and_then(|()| Ok(published(fields.needed("showroom")?, &shop(&fields)?)?)),
        "label" => only(&fields, &["ask", "showroom", "design"]).and_then(|()| ask_label(&fields)),
        "checkin" => only(&fields, &["ask", "text", "showroom", "shop"]).and_then(|()| ask_checkin(&fields)),
        "tornado" => only(&fields, &["ask", "design", "shop"])
            .and_then(|()| Ok(json!(tornado(&design(&fields)?, &shop(&fields)?, &|_, _| ())?))),
        "density" => {
            only(&fields, &["ask", "basic_gravity", "moisture"]).and_then(|()| measures::density(&fields))
        }
        "sitter" => only(&fields, &["ask", "rule", "value", "stature", "sex", "weight", "child", "mark"])
            .and_then(|()| sitters::sitter(&fields)),
        "fit" => only(&fields, &["ask", "design", "shop"]).and_then(|()| ask_fit(&fields)),
        "moisture" => {
            only(&fields, &["ask", "rh", "celsius", "fahrenheit"]).and_then(|()| measures::moisture(&fields))
        }
        "frame" => only(&fields, &["ask", "problem"]).and_then(|()| frames::frame(&fields)),
        other => Err(Refused::new(
            "ask",
            format!(
                "There is no request called \"{other}\". Ask for families, knobs, report, solids, assembly, bodies, file, work, shapes, exchange, bars, boards, planks, board_measure, density, moisture, sitter, fit, frame, ranges, order, plan, quote, attached, published, checkin, tornado, sheets, setting, drawing, dimensions or edges."
            ),
        )),
    }
}

fn only(fields: &Fields<'_>, names: &[&str]) -> Result<(), Refused> {
    Ok(fields.only(names)?)
}

/// The knobs of a kind of chair, a side chair unless it is named.
fn ask_knobs(fields: &Fields<'_>) -> Result<Value, Refused> {
    let design = match fields.value("family") {
        Some(family) => Design::default().with("family", family)?,
        None => Design::default(),
    };
    Ok(json!(design.knobs().iter().map(Knob::row).collect::<Vec<_>>()))
}

fn ask_report(fields: &Fields<'_>) -> Result<Value, Refused> {
    let (design, shop) = (design(fields)?, shop(fields)?);
    let chair = chair(&design, &shop)?;
    Ok(json!(report(&design, &chair, &shop)))
}

fn ask_solids(fields: &Fields<'_>) -> Result<Value, Refused> {
    let (design, shop) = (design(fields)?, shop(fields)?);
    Ok(json!(solids::rows(&chair(&design, &shop)?)))
}

fn ask_assembly(fields: &Fields<'_>) -> Result<Value, Refused> {
    let (design, shop) = (design(fields)?, shop(fields)?);
    Ok(json!(moves::rows(&chair(&design, &shop)?)))
}

fn ask_bodies(fields: &Fields<'_>) -> Result<Value, Refused> {
    let (design, shop) = (design(fields)?, shop(fields)?);
    Ok(json!(bodies::bodies(&chair(&design, &shop)?)))
}

fn ask_fit(fields: &Fields<'_>) -> Result<Value, Refused> {
    let (design, shop) = (design(fields)?, shop(fields)?);
    let fitted = make_it_fit(&design, &shop.bench()).map_err(|clash| refused(&design, &shop, clash))?;
    Ok(json!(fitted))
}

fn ask_checkin(fields: &Fields<'_>) -> Result<Value, Refused> {
    let showroom = fields.value("showroom").map(Showroom::from_value).transpose()?;
    Ok(json!(check_in(&fields.text("text", 100_000)?, &shop(fields)?, showroom.as_ref())?))
}

/// What a published file tells of a design's price; nothing of a book comes near.
fn ask_label(fields: &Fields<'_>) -> Result<Value, Refused> {
    let (design, showroom) = (design(fields)?, Showroom::from_value(fields.needed("showroom")?)?);
    let offer = showroom.offers.iter().find(|offer| offer.allows(&design).is_ok());
    let offer = offer.ok_or_else(|| Refusal::new("design", "No offer allows this design."))?;
    let bench = showroom.bench.clone().unwrap_or_default();
    let chair = Chair::resolve(&design, &bench).map_err(|clash| Refusal::new("design", clash.why))?;
    Ok(json!(showroom.seen(offer, &design, &chair, None)?.label))
}

fn ask_file(fields: &Fields<'_>) -> Result<Value, Refused> {
    let (design, shop) = (design(fields)?, shop(fields)?);
    let chair = chair(&design, &shop)?;
    files::text(fields, &report(&design, &chair, &shop))
}

fn ask_work(fields: &Fields<'_>) -> Result<Value, Refused> {
    let (design, shop) = (design(fields)?, shop(fields)?);
    let chair = chair(&design, &shop)?;
    if fields.has("print") {
        return work::sheets(fields, &design, &chair, &shop);
    }
    Ok(json!(work::steps(&design, &chair, &shop)))
}

fn ask_shapes(fields: &Fields<'_>) -> Result<Value, Refused> {
    let (design, shop) = (design(fields)?, shop(fields)?);
    Ok(json!(shapes(&chair(&design, &shop)?)))
}

fn ask_exchange(fields: &Fields<'_>) -> Result<Value, Refused> {
    let (design, shop) = (design(fields)?, shop(fields)?);
    exchange::file(fields, &chair(&design, &shop)?)
}

fn ask_ranges(fields: &Fields<'_>) -> Result<Value, Refused> {
    let (design, shop) = (design(fields)?, shop(fields)?);
    let mut search =
        RangeSearch::new(&design, &shop.bench()).map_err(|clash| refused(&design, &shop, clash))?;
    let ranges = search.step(usize::MAX);
    Ok(json!({"ranges": ranges, "failing": search.failing(), "tried": search.tried()}))
}

/// A picture of the whole chair, or sheets at full size.
fn ask_drawing(fields: &Fields<'_>) -> Result<Value, Refused> {
    let (design, shop) = (design(fields)?, shop(fields)?);
    let name = fields.text("sheet", 40)?;
    if name == "book" {
        return book::book(fields, &design, &chair(&design, &shop)?, &shop);
    }
    if name != "exploded" {
        return sheets::drawing(fields, &name, &design, &chair(&design, &shop)?);
    }
    let view = match fields.value("options") {
        Some(options) => View::from_value(options)?,
        None => View::default(),
    };
    Ok(json!({"svg": svg::write(&drawing::exploded(&chair(&design, &shop)?, &view, &service(&design)))}))
}

/// What the drawing to a scale is made from.
fn ask_drawn(fields: &Fields<'_>, tell: impl Fn(&Chair, &Paper) -> Value) -> Result<Value, Refused> {
    let (design, shop) = (design(fields)?, shop(fields)?);
    let paper = paper(&fields.text("paper", 40)?)?;
    Ok(tell(&chair(&design, &shop)?, paper))
}

fn ask_setting(fields: &Fields<'_>) -> Result<Value, Refused> {
    let (design, shop) = (design(fields)?, shop(fields)?);
    setting::rows(&chair(&design, &shop)?)
}

fn ask_sheets(fields: &Fields<'_>) -> Result<Value, Refused> {
    let (design, shop) = (design(fields)?, shop(fields)?);
    sheets::list(&chair(&design, &shop)?)
}

/// The request's design; knobs it does not name take their defaults.
fn design(fields: &Fields<'_>) -> Result<Design, Refused> {
    Ok(match fields.value("design") {
        Some(value) => Design::from_value(value)?,
        None => Design::default(),
    })
}

fn shop(fields: &Fields<'_>) -> Result<Shop, Refused> {
    Ok(match fields.value("shop") {
        Some(value) => Shop::from_value(value)?,
        None => Shop::demo(),
    })
}

fn chair(design: &Design, shop: &Shop) -> Result<Chair, Refused> {
    Chair::resolve(design, &shop.bench()).map_err(|clash| refused(design, shop, clash))
}

fn refused(design: &Design, shop: &Shop, clash: Unbuildable) -> Refused {
    let mend = nearest::mend(design, &clash, &shop.bench());
    let Unbuildable { stage, knobs, why } = clash;
    Refused(json!({"where": "build", "stage": stage, "knobs": knobs, "why": why, "mend": mend}))
}
