//! Cutting list and bill as CSV after RFC 4180: CRLF after each line, quotes where a cell needs them,
//! one head line with the units in it. UTF-8 without a byte order mark.
//!
//! Text that comes from people (the design's name) or that describes something passes [`cell`], so that no spreadsheet
//! takes it for a formula; numbers are written by this program and stay numbers.

use super::escape::cell;
use crate::bill::Bill;
use crate::length::Lengths;
use crate::lists::CuttingRow;
use csv::{Terminator, Writer, WriterBuilder};

/// Heads of the cutting list; those of lengths are followed by their unit.
const CUTTING_HEAD: &[&str] = &[
    "chair",
    "letter",
    "part",
    "quantity",
    "left and right",
    ">length",
    ">width",
    ">thickness",
    ">rough length",
    ">rough width",
    ">rough thickness",
    "trade thickness",
    "timber",
    "grain",
    "volume of one (mm3)",
    "mass of one (kg)",
    "note",
];

const BILL_HEAD: &[&str] =
    &["chair", "line", "what", "quantity", "unit", "rate", "amount", "currency", "parts", "why"];

/// The cutting list of the design called `name`, its lengths in this unit.
pub fn cutting_list_csv(name: &str, rows: &[CuttingRow], lengths: Lengths) -> Result<Vec<u8>, csv::Error> {
    let mut to = writer();
    to.write_record(heads(CUTTING_HEAD, lengths))?;
    for row in rows {
        to.write_record(cutting_cells(name, row, lengths))?;
    }
    bytes(to)
}

/// Heads with the unit behind those that begin with `>`.
pub(super) fn heads(heads: &[&str], lengths: Lengths) -> Vec<String> {
    let head = |head: &&str| match head.strip_prefix('>') {
        Some(head) => format!("{head} ({})", lengths.told()),
        None => (*head).to_owned(),
    };
    heads.iter().map(head).collect()
}

/// A length as a cell. A fraction of an inch has its whole inches before it even where these are none, for a spreadsheet
/// takes `3/8` for a day of March, and `0 3/8` for a number. `write` turns inches to a fraction.
pub(super) fn length(mm: f64, lengths: Lengths, write: fn(Lengths, f64) -> String) -> String {
    match lengths {
        Lengths::Millimetres => format!("{mm:.1}"),
        Lengths::Centimetres => format!("{:.2}", mm / 10.0),
        Lengths::Inches(_) => {
            let text = write(lengths, mm);
            let whole = text.split(' ').next().is_some_and(|first| !first.contains('/'));
            if whole { text } else { format!("0 {text}") }
        }
    }
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

fn cutting_cells(name: &str, row: &CuttingRow, lengths: Lengths) -> Vec<String> {
    let mm = |value: f64| length(value, lengths, Lengths::write);
    let rough = |value: f64| length(value, lengths, Lengths::at_least);
    vec![
        cell(name).into_owned(),
        row.letter.clone(),
        row.part.to_owned(),
        row.quantity.to_string(),
        if row.handed { "yes" } else { "no" }.to_owned(),
        mm(row.finished.length),
        mm(row.finished.width),
        mm(row.finished.thickness),
        rough(row.rough.length),
        rough(row.rough.width),
        rough(row.rough.thickness),
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
        (
            cutting_list_csv(NAME, &rows, Lengths::Millimetres).expect("written"),
            bill_csv(NAME, &bill).expect("written"),
            bill,
        )
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

    /// By hand: 440 mm are 17.3228 in, 17 5/16 and .0103; 24 mm are .9449 in, 15/16 and .0074.
    #[test]
    fn inches_are_numbers_to_a_spreadsheet_and_no_days() {
        let (chair, shop) = (chair(), Shop::demo());
        let rows = cutting_list(&chair, &ALLOWANCES, shop.thicknesses);
        let records = read(&cutting_list_csv(NAME, &rows, Lengths::Inches(16)).expect("written"));
        assert_eq!([&records[0][5], &records[0][10]], ["length (in, 1/16)", "rough thickness (in, 1/16)"]);
        assert_eq!([&records[3][5], &records[3][7]], ["17 5/16 +.010", "0 15/16 +.007"]);
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
