//! The order of work on paper: pages with the picture of each step, and one card to pin up at the bench.

use super::flow::{BODY, Block, HEAD, Pages};
use super::pens::{self, Pen};
use crate::chair::Chair;
use crate::drawing::{self, View};
use crate::refusal::Refusal;
use crate::service::Service;
use crate::work::{Caution, Clamp, WorkStep};
use crestrail_sheet::paper::Paper;
use crestrail_sheet::pdf::{Bookmark, Document, Page};
use crestrail_sheet::{Item, Sheet, Weight};
use kurbo::{Point, Vec2};

/// What the sheets are made from.
#[derive(Clone, Copy, Debug)]
pub struct WorkSheets<'a> {
    /// The design's name; may be empty.
    pub name: &'a str,
    /// The chair.
    pub chair: &'a Chair,
    /// What it is meant to serve; pictures need it.
    pub service: &'a Service,
    /// The steps.
    pub steps: &'a [WorkStep],
    /// The paper: a sheet, see [`work_paper`].
    pub paper: &'a Paper,
    /// Whether each page tells its number at its foot; a book numbers its pages itself.
    pub foot: bool,
}

/// Pages to be bound as one document.
#[derive(Clone, Debug)]
pub struct Bound {
    /// What they are called.
    pub title: String,
    /// The pages in order.
    pub sheets: Vec<Sheet>,
}

/// Side of a step's picture on paper, mm, and in the pixels it is drawn with.
const PICTURE: f64 = 62.0;
const PIXELS: f64 = 215.0;
/// Between picture and words, mm.
const GUTTER: f64 = 5.0;
/// A box to tick, mm.
const BOX: f64 = 3.2;

/// The paper of this name, which must be a sheet and no roll.
pub fn work_paper(name: &str) -> Result<&'static Paper, Refusal> {
    let paper = super::paper(name)?;
    let why = "The order of work is printed on sheets. Choose A4, A3, Letter or Tabloid instead of the roll.";
    paper.long.map(|_| paper).ok_or_else(|| Refusal::new("paper", why))
}

/// Pages with all steps, each with its picture, tools, clamps, lengths, checks and cautions.
pub fn work_pages(sheets: &WorkSheets<'_>) -> Bound {
    let title = format!("{}: order of work", named(sheets.name));
    let mut pages =
        Pages::new(sheets.paper, long(sheets.paper), &title, "Each step of the work with a picture of it");
    let width = pages.width();
    let mut head = Block::default();
    head.say(&title, (0.0, width), HEAD * 1.2, Weight::Medium);
    head.say(DEFERS, (0.0, width), BODY, Weight::Regular);
    pages.add(head, false);
    for step in sheets.steps {
        pages.add(block(sheets, step, width), true);
    }
    Bound { title, sheets: pages.sheets(sheets.foot) }
}

const DEFERS: &str = "Lengths in mm, pictures not to scale. Local rules, licensed practice and the data sheets of glue, finish and machines come first.";

fn named(name: &str) -> &str {
    if name.trim().is_empty() { "Chair" } else { name.trim() }
}

fn long(paper: &Paper) -> f64 {
    paper.long.unwrap_or(paper.short)
}

fn block(sheets: &WorkSheets<'_>, step: &WorkStep, width: f64) -> Block {
    let mut block = Block::default();
    block.say(&heading(step), (0.0, width), HEAD, Weight::Medium);
    block.gap(1.0);
    let top = block.height;
    let picture = picture(sheets, step);
    let left = if picture.is_some() { PICTURE + GUTTER } else { 0.0 };
    let column = (left, width - left);
    step.say.iter().for_each(|say| block.say(say, column, BODY, Weight::Regular));
    block.gap(1.2);
    for (what, words) in lines(step) {
        block.told(what, &words, column);
    }
    if let Some(items) = picture {
        let by = Vec2::new(0.0, top);
        block.items.extend(items.iter().map(|item| item.moved(by)));
        block.height = block.height.max(top + PICTURE);
    }
    block
}

/// Such as `4. Front frame (A, C), 12 min`.
fn heading(step: &WorkStep) -> String {
    // Titles of what is laid on name their letters themselves.
    let told = step.letters.is_empty() || step.title.contains('(');
    let parts = if told { String::new() } else { format!(" ({})", runs(&step.letters)) };
    let time = step.minutes.map(|m| format!(", {}", spent(m))).unwrap_or_default();
    format!("{}. {}{parts}{time}", step.number, step.title)
}

/// Letters with the numbers that follow each other drawn together: `A, J1 to J8`.
fn runs(letters: &[String]) -> String {
    let parted = |letter: &str| {
        let stem = letter.trim_end_matches(|c: char| c.is_ascii_digit());
        (stem.to_owned(), letter[stem.len()..].parse::<u32>().ok())
    };
    let follows = |a: &String, b: &String| {
        let ((stem, number), (next_stem, next)) = (parted(a), parted(b));
        stem == next_stem && number.is_some() && number.map(|n| n + 1) == next
    };
    let runs = letters.chunk_by(follows).flat_map(|run| match run {
        [first, _, .., last] => vec![format!("{first} to {last}")],
        few => few.to_vec(),
    });
    runs.collect::<Vec<_>>().join(", ")
}

fn spent(minutes: f64) -> String {
    if minutes < 90.0 { format!("{minutes:.0} min") } else { format!("{:.1} h", minutes / 60.0) }
}

/// What is told below the sentences, each with the word in front of it.
fn lines(step: &WorkStep) -> Vec<(&'static str, String)> {
    let mut lines: Vec<(&'static str, String)> = Vec::new();
    if !step.tools.is_empty() {
        lines.push(("Ready", step.tools.join("; ")));
    }
    lines.extend(step.clamps.iter().map(|clamp| ("Clamps", clamped(clamp))));
    lines.extend(step.tapes.iter().map(|tape| ("Square", tape.say.clone())));
    lines.extend(step.checks.iter().map(|check| ("Check", check.clone())));
    lines
        .extend(step.cautions.iter().map(|Caution { say, source }| ("Caution", format!("{say} ({source})"))));
    if let Some(hours) = step.wait_hours {
        lines.push(("Wait", format!("{hours:.0} h before the next step; its maker's data sheet counts.")));
    }
    // The word stands once before lines of one kind.
    let mut before = "";
    for (what, _) in &mut lines {
        let own = *what;
        if own == before {
            *what = "";
        }
        before = own;
    }
    lines
}

fn clamped(clamp: &Clamp) -> String {
    let Clamp { along, letter, count, opening } = clamp;
    format!("{count} along the {along} ({letter}), opening {opening:.0} mm without pads")
}

/// The step's picture in mm, its upper left corner at nothing.
fn picture(sheets: &WorkSheets<'_>, step: &WorkStep) -> Option<Vec<Item>> {
    let number = step.assembly?;
    let own = sheets.chair.assembly.steps.iter().find(|own| own.number == number)?;
    let view = View { width: PIXELS, height: PIXELS, ..View::default() };
    let drawn = drawing::step(sheets.chair, own, &view, sheets.service);
    Some(drawn.items.iter().map(|item| item.scaled(PICTURE / PIXELS)).collect())
}

/// One page for the wall: each step with a box to tick, its clamps, its lengths and its wait.
pub fn work_card(sheets: &WorkSheets<'_>) -> Bound {
    let title = format!("{}: card for the bench", named(sheets.name));
    let mut pages = Pages::new(sheets.paper, long(sheets.paper), &title, "The steps of the work on one page");
    let width = pages.width();
    let mut head = Block::default();
    head.say(&title, (0.0, width), HEAD * 1.2, Weight::Medium);
    pages.add(head, false);
    let mut size = BODY;
    // Many steps are set smaller, so that one page holds them.
    let made = loop {
        let list = card_list(sheets, width, size);
        if list.height <= pages.room() || size < SMALLEST {
            break list;
        }
        size *= 0.94;
    };
    pages.add(made, true);
    Bound { title, sheets: pages.sheets(sheets.foot) }
}

/// Smallest letters that can be read at arm's length, mm (common practice, no source).
const SMALLEST: f64 = 2.0;

fn card_list(sheets: &WorkSheets<'_>, width: f64, size: f64) -> Block {
    let mut block = Block::default();
    let room = BOX + 3.0;
    for step in sheets.steps {
        block.gap(size * 0.5);
        block.items.push(tick(block.height + size * 0.35));
        block.say(&heading(step), (room, width - room), size * 1.1, Weight::Medium);
        let told = told_shortly(step);
        if !told.is_empty() {
            block.say(&told, (room, width - room), size, Weight::Regular);
        }
    }
    block.gap(size);
    let mut said: Vec<&Caution> = Vec::new();
    for caution in sheets.steps.iter().flat_map(|step| &step.cautions) {
        if !said.contains(&caution) {
            said.push(caution);
        }
    }
    block.say("Cautions; their sources stand on the pages", (0.0, width), size * 1.1, Weight::Medium);
    said.iter().for_each(|caution| block.say(caution.say, (0.0, width), size, Weight::Regular));
    block
}

fn tick(top: f64) -> Item {
    let corners = [(0.0, top), (BOX, top), (BOX, top + BOX), (0.0, top + BOX)].map(Point::from);
    pens::lines(vec![pens::closed(&corners)], Pen::Thin)
}

/// The figures of a step in one line.
fn told_shortly(step: &WorkStep) -> String {
    let mut told: Vec<String> = Vec::new();
    let clamps: Vec<String> = step
        .clamps
        .iter()
        .map(|c| format!("{} × {} mm ({})", c.count, c.opening.round(), c.letter))
        .collect();
    if !clamps.is_empty() {
        told.push(format!("Clamps {}.", clamps.join(", ")));
    }
    told.extend(step.tapes.iter().map(|tape| tape.say.clone()));
    told.extend(step.wait_hours.map(|hours| format!("Wait {hours:.0} h.")));
    told.join(" ")
}

/// The pages as a document.
pub fn bound_work(bound: Bound) -> Document {
    let Bound { title, sheets } = bound;
    let label = |(i, sheet): (usize, Sheet)| Page { sheet, label: (i + 1).to_string() };
    Document {
        bookmarks: vec![Bookmark { title: title.clone(), page: 0, children: Vec::new() }],
        title,
        language: "en".to_owned(),
        full_size: false,
        pages: sheets.into_iter().enumerate().map(label).collect(),
        attachments: Vec::new(),
    }
}
