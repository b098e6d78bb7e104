//! The bench book as PDF.

use crate::Refused;
use crate::sheets::{faces, pdf_answer};
use crestrail_chair::chair::Chair;
use crestrail_chair::design::Design;
use crestrail_chair::export::{Book, bench_book};
use crestrail_chair::length::Lengths;
use crestrail_chair::reading::Fields;
use crestrail_chair::sheets::paper;
use crestrail_chair::shop::Shop;
use serde_json::{Value, json};

/// Longest option, characters.
const LONGEST: usize = 60;

/// The book with the options `paper`, `name`, `unit`, `date`; and what was `told` while it was made, as `[done, total, words]`.
pub(crate) fn book(
    fields: &Fields<'_>,
    design: &Design,
    chair: &Chair,
    shop: &Shop,
) -> Result<Value, Refused> {
    let empty = json!({"paper": "a4"});
    let options = Fields::top("options", fields.value("options").unwrap_or(&empty))?;
    options.only(&["paper", "name", "unit", "date"])?;
    let text = |name: &str| if options.has(name) { options.text(name, LONGEST) } else { Ok(String::new()) };
    let (name, date, lengths) = (text("name")?, text("date")?, Lengths::named(&text("unit")?)?);
    let paper = paper(&options.text("paper", LONGEST)?)?;
    let asked = Book { name: &name, design, chair, shop, paper, lengths, date: &date };
    let mut told: Vec<Value> = Vec::new();
    let document =
        bench_book(&asked, &faces()?, &mut |done, total, words| told.push(json!([done, total, words])))?;
    let mut answer = pdf_answer(&document)?;
    answer["told"] = json!(told);
    Ok(answer)
}
