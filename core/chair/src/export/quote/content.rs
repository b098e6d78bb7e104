//! What a quote says, whatever it is written as.

use super::QuoteAsked;
use crate::bill::{Bill, BillLine};
use crate::date::Date;
use crate::drawing::{Meaning, Scheme, View, exploded};
use crate::export::sections::quantity;
use crate::export::set::without_ground;
use crate::export::table::tenths;
use crate::finding::Verdict;
use crate::labour::Lead;
use crate::lists::{CuttingRow, customer_cautions};
use crate::money::Money;
use crate::order::{Made, Order};
use crate::reading::is_stray;
use crate::refusal::Refusal;
use crate::report::{Overall, service};
use crate::shop::{Quoting, Shop};
use crestrail_geometry::math;
use crestrail_phrases::{figure, say, word};
use crestrail_sheet::Sheet;

/// Longest number of a quote, characters.
const LONGEST_NUMBER: usize = 40;

/// Sizes of the pictures in pixels: of the chair as it stands, and taken apart, where the letters must be read in print.
const WHOLE: (f64, f64) = (420.0, 360.0);
const APART: (f64, f64) = (640.0, 410.0);

/// All that stands in a quote.
pub(super) struct Content<'a> {
    pub(super) number: &'a str,
    pub(super) shop: &'a str,
    pub(super) contact: &'a [String],
    /// Date, validity, customer, order.
    pub(super) facts: Vec<Fact>,
    pub(super) chairs: Vec<ChairContent>,
    pub(super) price: Price,
    pub(super) terms: &'a [String],
    pub(super) cautions: Vec<String>,
    pub(super) order: &'a Order,
}

/// A name with its value.
pub(super) type Fact = (&'static str, String);

/// A design of the order.
pub(super) struct ChairContent {
    /// How many of what.
    pub(super) title: String,
    pub(super) quantity: u32,
    /// The chair as it stands.
    pub(super) picture: Sheet,
    pub(super) facts: Vec<Fact>,
    /// The chair taken apart, its parts with their letters.
    pub(super) apart: Sheet,
    pub(super) parts: Vec<PartLine>,
}

/// A part as it is when finished.
pub(super) struct PartLine {
    pub(super) letter: String,
    pub(super) part: &'static str,
    /// In one chair.
    pub(super) count: u32,
    /// Length with the tenons, width, thickness, in words.
    pub(super) size: [String; 3],
    pub(super) timber: &'static str,
}

/// Chairs, delivery, tax and the total, without what is behind a price.
pub(super) struct Price {
    /// What, how many, each, amount.
    pub(super) lines: Vec<[String; 4]>,
    pub(super) total: String,
    pub(super) deposit: Option<String>,
    /// When the chairs are ready.
    pub(super) ready: Option<String>,
}

impl<'a> Content<'a> {
    pub(super) fn of(asked: &QuoteAsked<'a>) -> Result<Self, Refusal> {
        let QuoteAsked { order, shop, view, .. } = *asked;
        let number = number(asked.number)?;
        let date = Date::read("date", asked.date)?;
        let quoting = needed(shop)?;
        let made = order.made(shop)?;
        let report = order.bare_report(&made, shop)?;
        Ok(Self {
            number,
            shop: &shop.name,
            contact: &quoting.contact,
            facts: facts(order, date, quoting),
            chairs: made.iter().map(|made| chair(made, quoting, view)).collect(),
            price: price(&report.bill, report.lead.as_ref()),
            terms: &quoting.terms,
            cautions: cautions(&made),
            order,
        })
    }
}

fn number(given: &str) -> Result<&str, Refusal> {
    let number = given.trim();
    if number.is_empty() || number.chars().count() > LONGEST_NUMBER || number.chars().any(is_stray) {
        let why = say!("A quote needs a number of 1 to {LONGEST_NUMBER} characters.");
        return Err(Refusal::new("number", why));
    }
    Ok(number)
}

/// What the shop writes on its quotes. A quote without a price for work would be given away.
fn needed(shop: &Shop) -> Result<&Quoting, Refusal> {
    let refuse = |part: &str| {
        let why = say!(
            "The file of {} has no part \"{part}\", and a quote needs it. Add it to shop.json.",
            shop.name
        );
        Refusal::new(part, why)
    };
    if shop.labour.is_none() {
        return Err(refuse("labour"));
    }
    if shop.pricing.is_none() {
        return Err(refuse("pricing"));
    }
    shop.quoting.as_ref().ok_or_else(|| refuse("quote"))
}

fn facts(order: &Order, date: Date, quoting: &Quoting) -> Vec<Fact> {
    let until = date.plus_days(quoting.valid_days);
    let facts = [
        (word("Date"), date.to_string()),
        (word("Valid until"), until.to_string()),
        (word("For"), order.customer.clone()),
        (word("Order"), order.name.clone()),
    ];
    facts.into_iter().filter(|(_, value)| !value.is_empty()).collect()
}

/// Pictures, sizes and parts of one design.
fn chair(made: &Made<'_>, quoting: &Quoting, view: &View) -> ChairContent {
    let facts = sizes(&made.report.overall).into_iter().chain([(word("Timber"), timber(made))]);
    ChairContent {
        title: format!("{} × {}", made.line.quantity, made.line.title()),
        quantity: made.line.quantity,
        picture: drawn(made, view, WHOLE, false),
        facts: facts.chain(quoting.finish.clone().map(|finish| (word("Finish"), finish))).collect(),
        apart: drawn(made, view, APART, true),
        parts: parts(&made.report.cutting_list),
    }
}

/// The chair for white paper, in the colours of its wood; the view tells from where.
fn drawn(made: &Made<'_>, view: &View, (width, height): (f64, f64), apart: bool) -> Sheet {
    let (spread, letters) = (if apart { 1.0 } else { 0.0 }, apart);
    let (scheme, colour) = (Scheme::Light, Meaning::Wood);
    let View { turn, tilt, .. } = *view;
    let view = View { turn, tilt, spread, letters, scheme, colour, width, height, ..View::default() };
    without_ground(exploded(&made.chair, &view, &service(&made.line.design)))
}

/// The parts in the order of the cutting list; pegs and the like that differ in length alone make one line.
fn parts(rows: &[CuttingRow]) -> Vec<PartLine> {
    let alike = |a: &CuttingRow, b: &CuttingRow| {
        let section = |row: &CuttingRow| [tenths(row.finished.width), tenths(row.finished.thickness)];
        a.role.is_small() && a.role == b.role && section(a) == section(b) && a.timber == b.timber
    };
    rows.chunk_by(alike).filter_map(part).collect()
}

fn part(rows: &[CuttingRow]) -> Option<PartLine> {
    let (first, last) = (rows.first()?, rows.last()?);
    let lengths = rows.iter().map(|row| row.finished.length);
    let [short, long] =
        [lengths.clone().fold(f64::INFINITY, math::min), lengths.fold(0.0, math::max)].map(shown);
    let run = |from: &str, to: &str| if from == to { from.to_owned() } else { format!("{from}–{to}") };
    Some(PartLine {
        letter: run(&first.letter, &last.letter),
        part: first.part,
        count: rows.iter().map(|row| row.quantity).sum(),
        size: [run(&short, &long), shown(first.finished.width), shown(first.finished.thickness)],
        timber: first.timber,
    })
}

/// A length with the decimal sign of the language, mm.
fn shown(mm: f64) -> String {
    figure(&tenths(mm)).into_owned()
}

fn sizes(overall: &Overall) -> Vec<Fact> {
    let mm = |v: f64| say!("{} mm", tenths(v.round()));
    vec![
        (word("Width"), mm(overall.width)),
        (word("Depth"), mm(overall.depth)),
        (word("Height"), mm(overall.height)),
        (word("Seat height"), mm(overall.seat_height)),
        (word("Weight, about"), say!("{:.1} kg", overall.mass_kg)),
    ]
}

/// The timbers of a chair, each once.
fn timber(made: &Made<'_>) -> String {
    let mut names: Vec<&str> = Vec::new();
    for line in &made.report.timber.lines {
        if !names.contains(&line.species) {
            names.push(line.species);
        }
    }
    names.join(", ")
}

fn price(bill: &Bill, lead: Option<&Lead>) -> Price {
    let money = |m: Money| say!("{} {}", bill.currency, m.decimal(bill.minor_digits));
    let each = |line: &BillLine| if line.unit == "share" { String::new() } else { money(line.rate_minor) };
    let line = |line: &BillLine| [capital(&line.what), quantity(line), each(line), money(line.amount_minor)];
    Price {
        lines: bill.lines.iter().map(line).collect(),
        total: money(bill.total_minor),
        deposit: bill.deposit_minor.map(money),
        ready: lead.map(ready),
    }
}

fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or(String::new(), |first| first.to_uppercase().chain(chars).collect())
}

fn ready(lead: &Lead) -> String {
    let days = lead.working_days;
    match days {
        1 => say!("Ready about 1 working day after the order."),
        days => say!("Ready about {days} working days after the order."),
    }
}

/// What a customer must know, and what a check says against a design of the order.
fn cautions(made: &[Made<'_>]) -> Vec<String> {
    let mut said: Vec<String> = customer_cautions().into_iter().map(str::to_owned).collect();
    for made in made {
        let failing = made.report.findings.iter().filter(|finding| finding.verdict == Verdict::Fails);
        for line in failing.map(|finding| format!("{}: {}", made.line.title(), finding.plain)) {
            if !said.contains(&line) {
                said.push(line);
            }
        }
    }
    said
}
