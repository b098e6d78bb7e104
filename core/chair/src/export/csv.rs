//! Cutting list and bill as CSV after RFC 4180: CRLF after each line, quotes where a cell needs them,
//! one head line with the units in it. UTF-8 without a byte order mark.
//!
//! Text that comes from people (the design's name) or that describes something passes [`cell`], so that no spreadsheet
//! takes it for a formula; numbers are written by this program and stay numbers.

use super::escape::cell;
use crate::bill::Bill;
use crate::lists::CuttingRow;
use csv::{Terminator, Writer, WriterBuilder};

const CUTTING_HEAD: &[&str] = &[
    "chair",
    "letter",
    "part",
    "quantity",
    "left and right",
    "length (mm)",
    "width (mm)",
    "thickness (mm)",
    "rough length (mm)",
    "rough width (mm)",
    "rough thickness (mm)",
    "trade thickness",
    "timber",
    "grain",
    "volume of one (mm3)",
    "mass of one (kg)",
    "note",
];

const BILL_HEAD: &[&str] =
    &["chair", "line", "what", "quantity", "unit", "rate", "amount", "currency", "parts", "why"];

/// The cutting list of the design called `name`.
pub fn cutting_list_csv(name: &str, rows: &[CuttingRow]) -> Result<Vec<u8>, csv::Error> {
    let mut to = writer();
    to.write_record(CUTTING_HEAD)?;
    for row in rows {
        to.write_record(cutting_cells(name, row))?;
    }
    bytes(to)
}

/// The bill of the design called `name`; its last line is the total.
pub fn bill_csv(name: &str, bill: &Bill) -> Result<Vec<u8>, csv::Error> {
    let mut to = writer();
    to.write_record(BILL_HEAD)?;
    for record in bill_cells(name, bill) {
        to.write_record(record)?;
    }
    bytes(to)
}

pub(super) fn writer() -> Writer<Vec<u8>> {
    WriterBuilder::new().terminator(Terminator::CRLF).from_writer(Vec::new())
}

pub(super) fn bytes(to: Writer<Vec<u8>>) -> Result<Vec<u8>, csv::Error> {
    to.into_inner().map_err(|e| csv::Error::from(e.into_error()))
}

fn cutting_cells(name: &str, row: &CuttingRow) -> Vec<String> {
    let mm = |value: f64| format!("{value:.1}");
    vec![
        cell(name).into_owned(),
        row.letter.clone(),
        row.part.to_owned(),
        row.quantity.to_string(),
        if row.handed { "yes" } else { "no" }.to_owned(),
        mm(row.finished.length),
        mm(row.finished.width),
        mm(row.finished.thickness),
        mm(row.rough.length),
        mm(row.rough.width),
        mm(row.rough.thickness),
        row.trade.unwrap_or("").to_owned(),
        row.timber.to_owned(),
        row.grain.to_owned(),
        format!("{:.0}", row.volume_mm3),
        format!("{:.4}", row.mass_kg),
        cell(&row.note).into_owned(),
    ]
}

fn bill_cells(name: &str, bill: &Bill) -> Vec<Vec<String>> {
    let money = |m: crate::money::Money| m.decimal(bill.minor_digits).to_string();
    let name = cell(name).into_owned();
    let mut records: Vec<Vec<String>> = Vec::new();
    for line in &bill.lines {
        records.push(vec![
            name.clone(),
            line.id.clone(),
            cell(&line.what).into_owned(),
            line.quantity.to_string(),
            line.unit.to_owned(),
            money(line.rate_minor),
            money(line.amount_minor),
            bill.currency.to_owned(),
            line.parts.join(" "),
            cell(&line.why).into_owned(),
        ]);
    }
    let total = ["total", "total", "", "", ""].map(str::to_owned);
    let mut last = vec![name];
    last.extend(total);
    last.extend([money(bill.total_minor), bill.currency.to_owned(), String::new(), String::new()]);
    records.push(last);
    records
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lists::cutting_list;
    use crate::lists::sample::{ALLOWANCES, chair};
    use crate::shop::Shop;

    const NAME: &str = "=HYPERLINK(\"x\"), the\n\"best\" chair, Zoë";

    fn read(bytes: &[u8]) -> Vec<Vec<String>> {
        let mut reader = csv::ReaderBuilder::new().has_headers(false).from_reader(bytes);
        reader.records().map(|r| r.expect("a record").iter().map(str::to_owned).collect()).collect()
    }

    fn files() -> (Vec<u8>, Vec<u8>, Bill) {
        let (chair, shop) = (chair(), Shop::demo());
        let rows = cutting_list(&chair, &ALLOWANCES, shop.thicknesses);
        let bill = crate::bill::bill(&chair, &rows, &shop).expect("priced");
        (cutting_list_csv(NAME, &rows).expect("written"), bill_csv(NAME, &bill).expect("written"), bill)
    }

    #[test]
    fn cutting_list_reads_back() {
        let records = read(&files().0);
        assert_eq!(records.len(), 6);
        assert!(records.iter().all(|r| r.len() == CUTTING_HEAD.len()));
        assert_eq!(records[1][0], format!("'{NAME}"));
        assert_eq!(
            records[3][1..13],
            [
                "C",
                "front rail",
                "1",
                "no",
                "440.0",
                "64.0",
                "24.0",
                "470.0",
                "69.0",
                "28.0",
                "32 mm",
                "white ash"
            ]
        );
    }

    #[test]
    fn bill_reads_back_and_adds_up() {
        let (_, bytes, bill) = files();
        let records = read(&bytes);
        let cents = |text: &str| text.replace('.', "").parse::<i64>().expect("digits");
        let (last, lines) = records[1..].split_last().expect("records");
        assert_eq!(lines.len(), bill.lines.len());
        assert_eq!(lines.iter().map(|r| cents(&r[6])).sum::<i64>(), cents(&last[6]));
        assert_eq!((last[1].as_str(), last[7].as_str()), ("total", "EUR"));
    }

    #[test]
    fn lines_end_as_the_rfc_says() {
        let text = String::from_utf8(files().0).expect("UTF-8");
        assert!(text.ends_with("\r\n") && text.starts_with("chair,letter,part,"));
        assert_eq!(text.matches("\r\n").count(), 6);
        assert!(text.contains("\"'=HYPERLINK(\"\"x\"\"), the\n\"\"best\"\" chair, Zoë\""));
    }
}
