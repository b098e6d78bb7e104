//! The sections of the printable parts list.

use super::escape::html;
use super::table::{Cell, table};
use crate::bill::{Bill, BillLine};
use crate::length::Lengths;
use crate::lists::{AssemblyRow, CuttingRow, JointRow, Timber, TimberLine, thickness_words};
use crate::money::Money;
use crate::plan::{BoardsNeeded, Stack};
use crate::refusal::Refusal;
use crestrail_phrases::{say, word};

fn with_words(words: &str, table: &str) -> String {
    let words = if words.is_empty() { String::new() } else { format!("<p>{}</p>", html(words)) };
    format!("{words}<div class=\"wide\">{table}</div>")
}

/// What must be known to read the cutting list.
pub(super) fn cutting_words(lengths: Lengths) -> String {
    format!(
        "{}{} Finished length with the tenons in; the grain runs along the length.",
        lengths.rounding(),
        lengths.rough_note()
    )
}
/// What must be known to read the list of joints.
pub(super) fn joints_words(lengths: Lengths) -> String {
    format!(
        "{} Tenon: length × width × thickness; shoulders: above, below, at both cheeks; mortise: depth × width × cutter.",
        lengths.rounding()
    )
}

/// What to saw.
pub(super) fn cutting(rows: &[CuttingRow], lengths: Lengths) -> String {
    let heads = ["", "Part", ">No.", ">Length", ">Width", ">Thick", ">Rough", "From", "Timber", ">kg each"];
    let length = |v: f64| Cell::Number(lengths.write(v));
    let line = |r: &CuttingRow| {
        vec![
            Cell::Text(r.letter.clone()),
            Cell::Noted(r.part.to_owned(), r.note.clone()),
            Cell::Number(r.quantity.to_string()),
            length(r.finished.length),
            length(r.finished.width),
            length(r.finished.thickness),
            Cell::Number(lengths.rough(&[r.rough.length, r.rough.width, r.rough.thickness])),
            Cell::Whole(r.trade.unwrap_or("").to_owned()),
            Cell::Whole(r.timber.to_owned()),
            Cell::Number(format!("{:.3}", r.mass_kg)),
        ]
    };
    with_words(&cutting_words(lengths), &table(&heads, &rows.iter().map(line).collect::<Vec<_>>(), ""))
}

/// What to mark the joints from.
pub(super) fn joints(rows: &[JointRow], lengths: Lengths) -> String {
    let heads = ["Joint", ">No.", ">Tenon", ">Shoulders", ">Mortise"];
    let line = |r: &JointRow| {
        let (t, s, m) = (&r.tenon, &r.shoulders, &r.mortise);
        let shoulders = [s.top, s.bottom, s.front, s.back].map(|v| lengths.write(v)).join(", ");
        vec![
            Cell::Noted(
                format!("{} ({} in {})", r.name, r.letter_guest, r.letter_host),
                joint_note(r, lengths),
            ),
            Cell::Number(r.quantity.to_string()),
            Cell::Number(lengths.by(&[t.length, t.width, t.thickness])),
            Cell::Number(shoulders),
            Cell::Number(lengths.by(&[m.depth, m.width, m.thickness])),
        ]
    };
    with_words(&joints_words(lengths), &table(&heads, &rows.iter().map(line).collect::<Vec<_>>(), ""))
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
pub(super) fn joint_note(row: &JointRow, lengths: Lengths) -> String {
    let write = |mm: f64| lengths.write(mm);
    let mut notes = vec![row.kind_name.to_owned()];
    let heights =
        row.mortise.above_floor.iter().map(|[low, high]| format!("{} to {}", write(*low), write(*high)));
    let heights: Vec<_> = heights.collect();
    if !heights.is_empty() {
        notes.push(format!("mortise from {} above the floor", heights.join(", from ")));
    }
    if let Some(h) = row.haunch {
        notes.push(format!("haunch {} long, {} wide", write(h.length), write(h.width)));
    }
    if let Some(m) = &row.mitre {
        let (short, gap) = (write(m.short_length), write(m.gap));
        notes.push(format!("end mitred to {short} at the short side, {gap} clear of the {}", m.with));
    }
    for corner in row.corners.iter().filter(|_| row.mitre.is_none()) {
        notes.push(format!("{} with the {}", corner.name, corner.with));
    }
    for t in &row.tongues {
        let (width, low) = (write(t.width), write(t.from_bottom));
        notes.push(format!(
            "piece {width} wide, {low} from the lower edge, from {} to {}",
            write(t.from),
            write(t.to)
        ));
    }
    if let Some(w) = &row.wedges {
        let (kerf, thick, flare) = (write(w.kerf), write(w.thickness), write(w.flare));
        notes.push(format!(
            "{} wedges {thick} thick in kerfs {kerf} deep, mortise {flare} longer at each end outside",
            w.count
        ));
    }
    if let Some(i) = row.inserts.as_ref().filter(|i| i.into_guest.is_some()) {
        let (size, deep) =
            (lengths.by(&[i.length, i.width, i.thickness]), write(i.into_guest.unwrap_or_default()));
        notes.push(format!("{} × {} {size}, {deep} deep in the {}", i.quantity, i.what, row.guest));
    }
    if let Some(first) = row.pegs.first() {
        let (size, deep, from) = (write(first.size), write(first.length), write(first.from_face));
        let many = row.pegs.len();
        notes.push(format!("{many} × {} peg {size}, hole {deep} deep, {from} from the face", first.shape));
    }
    notes.join("; ")
}

fn timber_words(timber: &Timber) -> String {
    match timber.yield_share {
        Some(share) => format!(
            "Of what is bought, {:.0} % end as rough parts; the rest is saw kerf, defects and offcuts.",
            100.0 * share
        ),
        None => "Rough parts at the sawn thickness; which boards they are sawn from stands below.".to_owned(),
    }
}

/// What timber is in it, and what must be bought where no boards are planned.
pub(super) fn timber(timber: &Timber) -> String {
    let bought = timber.yield_share.is_some();
    let mut heads = vec!["Timber", "Thickness", "For", ">Finished m³", ">Rough m³"];
    if bought {
        heads.extend([">To buy m³", ">Board ft"]);
    }
    let rows: Vec<Vec<Cell>> = timber.lines.iter().map(timber_row).collect();
    with_words(&timber_words(timber), &table(&heads, &rows, ""))
}

fn timber_row(line: &TimberLine) -> Vec<Cell> {
    let volume = |v: f64| Cell::Number(format!("{v:.5}"));
    let mut row = vec![
        Cell::Text(line.species.to_owned()),
        Cell::Text(thickness_words(line.thickness, line.thickness_mm)),
        Cell::Text(line.parts.join(", ")),
        volume(line.volume_m3),
        volume(line.rough_m3),
    ];
    if let Some(bought) = line.bought {
        row.extend([volume(bought.bought_m3), Cell::Number(format!("{:.2}", bought.board_feet))]);
    }
    row
}

/// Which boards are taken for it; empty where none are planned.
pub(super) fn boards(boards: &[BoardsNeeded], bill: Option<&Bill>, lengths: Lengths) -> String {
    if boards.is_empty() {
        return String::new();
    }
    let rows: Vec<Vec<Cell>> = boards.iter().flat_map(|class| board_rows(class, bill, lengths)).collect();
    let words = "Rough pieces are planned onto these boards, those of the rack first; offcuts worth keeping are credited.";
    with_words(words, &table(&["Timber", "Thickness", "From", ">Boards", ">Size", ">Each"], &rows, ""))
}

fn board_rows(class: &BoardsNeeded, bill: Option<&Bill>, lengths: Lengths) -> Vec<Vec<Cell>> {
    let row = |stack: &Stack, from: &str| {
        let price = bill.filter(|_| stack.each_minor > Money(0));
        let each = price.map_or_else(
            || "–".to_owned(),
            |b| format!("{} {}", b.currency, stack.each_minor.decimal(b.minor_digits)),
        );
        vec![
            Cell::Text(class.species.to_owned()),
            Cell::Text(thickness_words(class.thickness, class.thickness_mm)),
            Cell::Text(from.to_owned()),
            Cell::Number(stack.count.to_string()),
            Cell::Number(format!("{} × {}", lengths.near(stack.length), lengths.near(stack.width))),
            Cell::Number(each),
        ]
    };
    let rack = class.rack.iter().map(|stack| row(stack, "rack"));
    rack.chain(class.buy.iter().map(|stack| row(stack, "yard"))).collect()
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
        "share" => say!("{} %", (line.quantity.value() * 1e6).round() / 1e4),
        unit => say!("{} {}", line.quantity, word(unit)),
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
