//! Files to take away.

use crate::progress::Progress;
use crate::refused::Refused;
use crate::reply;
use crate::request::Request;
use crestrail_chair::bill::Bill;
use crestrail_chair::chair::Chair;
use crestrail_chair::drawing::{View, exploded};
use crestrail_chair::export::{PartsList, bill_csv, cutting_list_csv, parts_list_html, report_json};
use crestrail_chair::length::Lengths;
use crestrail_chair::refusal::Refusal;
use crestrail_chair::report::{Report, report, service};
use crestrail_chair::service::Service;
use crestrail_chair::shop::Shop;
use crestrail_sheet::pdf::{self, Document};
use crestrail_sheet::{Faces, Sheet, svg};
use js_sys::{Object, Uint8Array};
use wasm_bindgen::JsValue;

/// A file's media type, the end of its name, and how it is written.
struct Kind {
    name: &'static str,
    media: &'static str,
    ending: &'static str,
    write: fn(&Chosen<'_>) -> Result<Vec<u8>, Refused>,
}

pub(crate) const CSV: &str = "text/csv;charset=utf-8";
const HTML: &str = "text/html;charset=utf-8";

const KINDS: &[Kind] = &[
    Kind { name: "cutting_list_csv", media: CSV, ending: "cutting-list.csv", write: cutting_list },
    Kind { name: "bill_csv", media: CSV, ending: "price.csv", write: bill },
    Kind { name: "report_json", media: "application/json", ending: "report.json", write: whole_report },
    Kind { name: "picture_svg", media: "image/svg+xml", ending: "picture.svg", write: picture },
    Kind { name: "parts_list_html", media: HTML, ending: "parts-list.html", write: parts_list },
];

/// What a file is written from.
struct Chosen<'a> {
    name: &'a str,
    lengths: Lengths,
    shop: &'a Shop,
    view: &'a View,
    service: Service,
    chair: &'a Chair,
    report: Report,
}

/// A finished file.
pub(crate) struct Made {
    name: String,
    media: &'static str,
    bytes: Vec<u8>,
    /// Characters that stand in it as empty boxes because its typefaces do not have them; nothing for a file without typefaces.
    missing: Option<String>,
}

impl Made {
    pub(crate) fn new(name: String, media: &'static str, bytes: Vec<u8>) -> Self {
        Self { name, media, bytes, missing: None }
    }

    /// A document as PDF.
    pub(crate) fn pdf(name: String, document: &Document, faces: &Faces) -> Result<Self, Refused> {
        let written = pdf::write(document, faces).map_err(|error| unwritten(&error))?;
        let missing = Some(written.missing.into_iter().collect());
        Ok(Self { missing, ..Self::new(name, "application/pdf", written.bytes) })
    }

    /// A sheet as SVG, whose letters are those of whoever shows it.
    pub(crate) fn svg(name: String, sheet: &Sheet) -> Self {
        let made = Self::new(name, "image/svg+xml", svg::write(sheet).into_bytes());
        Self { missing: Some(String::new()), ..made }
    }

    /// `{name, type, bytes, missing?}`; the bytes are copied out of the core's memory, so the page may keep them.
    fn to_js(&self) -> Object {
        let object = Object::new();
        reply::set(&object, "name", &JsValue::from_str(&self.name));
        reply::set(&object, "type", &JsValue::from_str(self.media));
        reply::set(&object, "bytes", &Uint8Array::from(self.bytes.as_slice()));
        if let Some(missing) = &self.missing {
            reply::set(&object, "missing", &JsValue::from_str(missing));
        }
        object
    }
}

/// `{ok: {name, type, bytes, missing?}}`, or the refusal.
pub(crate) fn handed_over(made: Result<Made, Refused>) -> JsValue {
    match made {
        Ok(made) => reply::keyed("ok", &made.to_js()),
        Err(refused) => reply::refused(&refused),
    }
}

/// The two font files that a PDF takes in.
pub(crate) fn faces(regular: Vec<u8>, medium: Vec<u8>) -> Result<Faces, Refused> {
    Faces::read(regular, medium).map_err(|error| unwritten(&error))
}

/// Makes the file that the request names.
pub(crate) fn file(request: &Request, progress: &Progress<'_>) -> Result<Made, Refused> {
    let kind = kind(request.text("kind"))?;
    let (design, shop, view) = (request.design()?, request.shop()?, request.view()?);
    progress.tell(0, 3, "Placing the parts");
    let chair = Chair::resolve(&design, &shop.bench())?;
    progress.tell(1, 3, "Writing the lists");
    let report = report(&design, &chair, &shop);
    let chosen = Chosen {
        name: request.text("name"),
        lengths: request.lengths()?,
        shop: &shop,
        view: &view,
        service: service(&design),
        chair: &chair,
        report,
    };
    progress.tell(2, 3, "Writing the file");
    let bytes = (kind.write)(&chosen)?;
    progress.tell(3, 3, "Done");
    Ok(Made::new(file_name(chosen.name, kind.ending), kind.media, bytes))
}

fn kind(name: &str) -> Result<&'static Kind, Refusal> {
    KINDS.iter().find(|kind| kind.name == name).ok_or_else(|| {
        let names: Vec<_> = KINDS.iter().map(|kind| kind.name).collect();
        Refusal::new("kind", format!("There is no file of this kind; it can be {}.", names.join(", ")))
    })
}

fn cutting_list(chosen: &Chosen<'_>) -> Result<Vec<u8>, Refused> {
    cutting_list_csv(chosen.name, &chosen.report.cutting_list, chosen.lengths)
        .map_err(|error| unwritten(&error))
}

fn bill(chosen: &Chosen<'_>) -> Result<Vec<u8>, Refused> {
    bill_csv(chosen.name, priced(&chosen.report)?).map_err(|error| unwritten(&error))
}

fn whole_report(chosen: &Chosen<'_>) -> Result<Vec<u8>, Refused> {
    report_json(&chosen.report).map(String::into_bytes).map_err(|error| unwritten(&error))
}

fn picture(chosen: &Chosen<'_>) -> Result<Vec<u8>, Refused> {
    Ok(svg::write(&exploded(chosen.chair, chosen.view, &chosen.service)).into_bytes())
}

fn parts_list(chosen: &Chosen<'_>) -> Result<Vec<u8>, Refused> {
    let picture = svg::write(&exploded(chosen.chair, chosen.view, &chosen.service));
    let Chosen { name, shop, report, .. } = chosen;
    let (picture_svg, lengths) = (Some(picture.as_str()), chosen.lengths);
    Ok(parts_list_html(&PartsList { name, shop, date: None, picture_svg, lengths, report }).into_bytes())
}

/// The bill, or why the shop could not price the chair.
fn priced(report: &Report) -> Result<&Bill, Refused> {
    let why = || {
        report.no_bill.clone().unwrap_or_else(|| Refusal::new("bill", "There is no price for this chair."))
    };
    report.bill.as_ref().ok_or_else(|| why().into())
}

pub(crate) fn unwritten(error: &dyn std::error::Error) -> Refused {
    Refusal::new("file", format!("The file could not be written: {error}.")).into()
}

/// A name that every file system takes: that of the design, a hyphen and the ending.
pub(crate) fn file_name(design: &str, ending: &str) -> String {
    let stem = stem(design);
    if stem.is_empty() { format!("chair-{ending}") } else { format!("{stem}-{ending}") }
}

/// Letters and digits of a name, joined by hyphens.
pub(crate) fn stem(name: &str) -> String {
    let words = name.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    words.collect::<Vec<_>>().join("-").to_lowercase()
}
