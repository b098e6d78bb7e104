//! The sections of the printable parts list.

use super::escape::html;
use super::table::{Cell, table, tenths};
use crate::bill::{Bill, BillLine};
use crate::lists::{AssemblyRow, CuttingRow, JointRow, Timber};
use crate::money::Money;
use crate::refusal::Refusal;

fn with_words(words: &str, table: &str) -> String {
    let words = if words.is_empty() { String::new() } else { format!("<p>{}</p>", html(words)) };
    format!("{words}<div class=\"wide\">{table}</div>")
}

/// What to saw.
pub(super) fn cutting(rows: &[CuttingRow]) -> String {
    let heads = ["", "Part", ">No.", ">Length", ">Width", ">Thick", ">Rough", "From", "Timber", ">kg each"];
    let mm = |v: f64| Cell::Number(tenths(v));
    let line = |r: &CuttingRow| {
        let rough =
            format!("{} × {} × {}", tenths(r.rough.length), tenths(r.rough.width), tenths(r.rough.thickness));
        vec![
            Cell::Text(r.letter.clone()),
            Cell::Noted(r.part.to_owned(), r.note.clone()),
            Cell::Number(r.quantity.to_string()),
            mm(r.finished.length),
            mm(r.finished.width),
            mm(r.finished.thickness),
            Cell::Number(rough),
            Cell::Whole(r.trade.unwrap_or("").to_owned()),
            Cell::Whole(r.timber.to_owned()),
            Cell::Number(format!("{:.3}", r.mass_kg)),
        ]
    };
    let words = "Millimetres. Finished length with the tenons in; the grain runs along the length.";
    with_words(words, &table(&heads, &rows.iter().map(line).collect::<Vec<_>>(), ""))
}

/// What to mark the joints from.
pub(super) fn joints(rows: &[JointRow]) -> String {
    let heads = ["Joint", ">No.", ">Tenon", ">Shoulders", ">Mortise"];
    let by = |sizes: &[f64]| sizes.iter().map(|v| tenths(*v)).collect::<Vec<_>>().join(" × ");
    let line = |r: &JointRow| {
        let (t, s, m) = (&r.tenon, &r.shoulders, &r.mortise);
        let shoulders = [s.top, s.bottom, s.front, s.back].map(tenths).join(", ");
        vec![
            Cell::Noted(format!("{} ({} in {})", r.name, r.letter_guest, r.letter_host), joint_note(r)),
            Cell::Number(r.quantity.to_string()),
            Cell::Number(by(&[t.length, t.width, t.thickness])),
            Cell::Number(shoulders),
            Cell::Number(by(&[m.depth, m.width, m.thickness])),
        ]
    };
    let words = "Millimetres. Tenon: length × width × thickness; shoulders: above, below, at both cheeks; mortise: depth × width × cutter.";
    with_words(words, &table(&heads, &rows.iter().map(line).collect::<Vec<_>>(), ""))
}

/// In which order it goes together.
pub(super) fn assembly(rows: &[AssemblyRow]) -> String {
    let step = |row: &AssemblyRow| {
        let letters = row.letters.join(", ");
        format!("<li><b>{}</b> ({}). {}</li>\n", html(&row.title), html(&letters), html(&row.say))
    };
    format!("<ol>\n{}</ol>", rows.iter().map(step).collect::<String>())
}

/// Heights, haunch, mitre and pegs of a joint in words.
fn joint_note(row: &JointRow) -> String {
    let mut notes = vec![row.kind_name.to_owned()];
    let heights =
        row.mortise.above_floor.iter().map(|[low, high]| format!("{} to {}", tenths(*low), tenths(*high)));
    let heights: Vec<_> = heights.collect();
    if !heights.is_empty() {
        notes.push(format!("mortise from {} above the floor", heights.join(", from ")));
    }
    if let Some(h) = row.haunch {
        notes.push(format!("haunch {} long, {} wide", tenths(h.length), tenths(h.width)));
    }
    if let Some(m) = &row.mitre {
        let (short, gap) = (tenths(m.short_length), tenths(m.gap));
        notes.push(format!("end mitred to {short} at the short side, {gap} clear of the {}", m.with));
    }
    for corner in row.corners.iter().filter(|_| row.mitre.is_none()) {
        notes.push(format!("{} with the {}", corner.name, corner.with));
    }
    for t in &row.tongues {
        let (width, low) = (tenths(t.width), tenths(t.from_bottom));
        notes.push(format!(
            "piece {width} wide, {low} from the lower edge, from {} to {}",
            tenths(t.from),
            tenths(t.to)
        ));
    }
    if let Some(w) = &row.wedges {
        let (kerf, thick, flare) = (tenths(w.kerf), tenths(w.thickness), tenths(w.flare));
        notes.push(format!(
            "{} wedges {thick} thick in kerfs {kerf} deep, mortise {flare} longer at each end outside",
            w.count
        ));
    }
    if let Some(i) = row.inserts.as_ref().filter(|i| i.into_guest.is_some()) {
        let (size, deep) = (
            [i.length, i.width, i.thickness].map(tenths).join(" × "),
            tenths(i.into_guest.unwrap_or_default()),
        );
        notes.push(format!("{} × {} {size}, {deep} deep in the {}", i.quantity, i.what, row.guest));
    }
    if let Some(first) = row.pegs.first() {
        let (size, deep, from) = (tenths(first.size), tenths(first.length), tenths(first.from_face));
        let many = row.pegs.len();
        notes.push(format!("{many} × {} peg {size}, hole {deep} deep, {from} from the face", first.shape));
    }
    notes.join("; ")
}

fn timber_words(timber: &Timber) -> String {
    format!(
        "Of what is bought, {:.0} % end as rough parts; the rest is saw kerf, defects and offcuts.",
        100.0 * timber.yield_share
    )
}

/// What timber to buy.
pub(super) fn timber(timber: &Timber) -> String {
    let heads = ["Timber", "Thickness", "For", ">Finished m³", ">Rough m³", ">To buy m³", ">Board ft"];
    let rows: Vec<Vec<Cell>> = timber
        .lines
        .iter()
        .map(|l| {
            let thickness =
                l.thickness.map_or_else(|| format!("{} mm to order", l.thickness_mm), str::to_owned);
            let volume = |v: f64| Cell::Number(format!("{v:.5}"));
            vec![
                Cell::Text(l.species.to_owned()),
                Cell::Text(thickness),
                Cell::Text(l.parts.join(", ")),
                volume(l.volume_m3),
                volume(l.rough_m3),
                volume(l.bought_m3),
                Cell::Number(format!("{:.2}", l.board_feet)),
            ]
        })
        .collect();
    with_words(&timber_words(timber), &table(&heads, &rows, ""))
}

/// What it costs, or why that cannot be told.
pub(super) fn prices(bill: Option<&Bill>, no_bill: Option<&Refusal>) -> String {
    match bill {
        Some(bill) => with_words(&bill.missing.join(" "), &price_table(bill)),
        None => with_words(no_bill.map_or("No price was worked out.", |r| r.why.as_str()), ""),
    }
}

/// A share in percent, all else with its unit.
pub(super) fn quantity(line: &BillLine) -> String {
    match line.unit {
        "share" => format!("{} %", (line.quantity.value() * 1e6).round() / 1e4),
        unit => format!("{} {unit}", line.quantity),
    }
}

fn price_table(bill: &Bill) -> String {
    let money = |m: Money| format!("{} {}", bill.currency, m.decimal(bill.minor_digits));
    let rows: Vec<Vec<Cell>> = bill
        .lines
        .iter()
        .map(|l| {
            vec![
                Cell::Noted(l.what.clone(), l.why.clone()),
                Cell::Number(quantity(l)),
                Cell::Number(money(l.rate_minor)),
                Cell::Number(money(l.amount_minor)),
            ]
        })
        .collect();
    let total = html(&money(bill.total_minor)).into_owned();
    let foot = format!("<tfoot><tr><td colspan=\"3\">Total</td><td class=\"n\">{total}</td></tr></tfoot>");
    table(&["What", ">Quantity", ">Rate", ">Amount"], &rows, &foot)
}
