//! The timber plan as CSV after RFC 4180: a record for every board to buy or take, every piece on it, every cut, every offcut
//! and every piece that is missing. The column `what` tells them apart.

use super::csv::{bytes, heads, length, writer};
use super::escape::cell;
use crate::length::Lengths;
use crate::plan::{Board, ClassPlan, Laid, Missing, Origin, TimberPlan};
use csv::Writer;

/// Heads; those of lengths are followed by their unit.
const HEAD: &[&str] = &[
    "name",
    "timber",
    "thickness",
    "board",
    "times",
    "what",
    "mark",
    "part",
    ">x",
    ">y",
    ">length",
    ">width",
    "price of one",
    "currency",
];

/// The plan of the design or order called `name`. Boards are numbered through the whole plan; x and y are measured from the
/// board's lower left corner, a cut's length along itself.
pub fn plan_csv(name: &str, plan: &TimberPlan, lengths: Lengths) -> Result<Vec<u8>, csv::Error> {
    let mut to = writer();
    to.write_record(heads(HEAD, lengths))?;
    let name = cell(name).into_owned();
    let mut number = 0;
    for class in &plan.classes {
        for board in &class.boards {
            number += 1;
            Records { name: &name, plan, class, number, lengths }.board(&mut to, board)?;
        }
        let lost = Records { name: &name, plan, class, number: 0, lengths };
        class.missing.iter().try_for_each(|m| lost.missing(&mut to, m))?;
    }
    bytes(to)
}

struct Records<'a> {
    name: &'a str,
    plan: &'a TimberPlan,
    class: &'a ClassPlan,
    number: u32,
    lengths: Lengths,
}

/// One record's own cells.
#[derive(Default)]
struct Cells {
    times: u32,
    what: &'static str,
    mark: String,
    part: &'static str,
    at: Option<[f64; 2]>,
    size: [f64; 2],
    price: Option<crate::money::Money>,
}

impl Records<'_> {
    fn write(&self, to: &mut Writer<Vec<u8>>, cells: &Cells) -> Result<(), csv::Error> {
        let mm = |value: f64| length(value, self.lengths, Lengths::near);
        let [x, y] = cells.at.map_or_else(Default::default, |at| at.map(mm));
        let price = cells.price.map(|p| p.decimal(self.plan.minor_digits).to_string());
        let thickness = self.class.thickness.map_or_else(|| mm(self.class.thickness_mm), str::to_owned);
        to.write_record([
            self.name.to_owned(),
            self.class.species.to_owned(),
            thickness,
            if self.number == 0 { String::new() } else { self.number.to_string() },
            cells.times.to_string(),
            cells.what.to_owned(),
            cells.mark.clone(),
            cells.part.to_owned(),
            x,
            y,
            mm(cells.size[0]),
            mm(cells.size[1]),
            price.clone().unwrap_or_default(),
            price.map_or("", |_| self.plan.currency).to_owned(),
        ])
    }

    fn board(&self, to: &mut Writer<Vec<u8>>, board: &Board) -> Result<(), csv::Error> {
        let times = board.times;
        let bought = board.origin == Origin::Yard;
        let own = |s: &&crate::plan::Stack| s.length == board.length && s.width == board.width;
        let price = self.class.buy.iter().find(own).filter(|_| bought).map(|s| s.each_minor);
        let what = if bought { "buy" } else { "rack" };
        self.write(to, &Cells { times, what, size: [board.length, board.width], price, ..Cells::default() })?;
        board.pieces.iter().try_for_each(|p| self.write(to, &piece(p, times)))?;
        for cut in &board.cuts {
            let (at, size) = if cut.along {
                ([cut.from, cut.at], [cut.to - cut.from, self.plan.kerf])
            } else {
                ([cut.at, cut.from], [cut.to - cut.from, self.plan.kerf])
            };
            let what = if cut.along { "rip" } else { "crosscut" };
            let cells =
                Cells { times, what, mark: cut.number.to_string(), at: Some(at), size, ..Cells::default() };
            self.write(to, &cells)?;
        }
        board.offcuts.iter().try_for_each(|o| {
            let (at, size) = (Some([o.x, o.y]), [o.length, o.width]);
            self.write(to, &Cells { times, what: "offcut", at, size, ..Cells::default() })
        })
    }

    fn missing(&self, to: &mut Writer<Vec<u8>>, missing: &Missing) -> Result<(), csv::Error> {
        let Missing { letter, part, count, length, width, .. } = missing;
        let cells = Cells {
            times: *count,
            what: "missing",
            mark: letter.clone(),
            part,
            size: [*length, *width],
            ..Cells::default()
        };
        self.write(to, &cells)
    }
}

fn piece(piece: &Laid, times: u32) -> Cells {
    Cells {
        times,
        what: if piece.strips > 1 { "strip" } else { "piece" },
        mark: piece.letter.clone(),
        part: piece.part,
        at: Some(piece.corner()),
        size: piece.size(),
        price: None,
    }
}
