//! Random designs through the whole core, counted: what is built, what is refused and why, what went wrong.

use crate::random::Random;
use crestrail_chair::chair::Chair;
use crestrail_chair::design::Design;
use crestrail_chair::drawing::{View, exploded};
use crestrail_chair::export::{Exchange, Format, Wanted, exchange};
use crestrail_chair::length::Lengths;
use crestrail_chair::link;
use crestrail_chair::report::{report, service};
use crestrail_chair::sheets::full_size;
use crestrail_chair::shop::Shop;
use crestrail_chair::unbuildable::Unbuildable;
use crestrail_chair::work::order_of_work;
use crestrail_sheet::svg;
use serde_json::Value;
use std::collections::BTreeMap;
use std::panic::{AssertUnwindSafe, catch_unwind};

/// Of so many designs one is drawn.
const DRAWN: u64 = 20;
/// Of so many designs one goes through its papers too: sheets at full size, order of work, shapes.
const ON_PAPER: u64 = 400;

/// What came of a range of seeds.
#[derive(Clone, Debug, Default)]
pub struct Tally {
    /// Designs tried.
    pub tried: u64,
    /// Designs drawn.
    pub drawn: u64,
    /// Designs whose papers were made.
    pub on_paper: u64,
    /// Refusals by stage and reason, without their figures.
    pub refused: BTreeMap<String, u64>,
    /// What went wrong, with its seed.
    pub wrong: Vec<String>,
}

impl Tally {
    /// Puts another range beside this one.
    pub fn add(&mut self, other: Self) {
        self.tried += other.tried;
        self.drawn += other.drawn;
        self.on_paper += other.on_paper;
        for (why, count) in other.refused {
            *self.refused.entry(why).or_default() += count;
        }
        self.wrong.extend(other.wrong);
    }

    /// Designs refused.
    pub fn refusals(&self) -> u64 {
        self.refused.values().sum()
    }
}

/// The design of a seed: the same one for ever.
pub fn design_of(seed: u64) -> Design {
    Random::new(seed.wrapping_mul(0x2545_f491_4f6c_dd1d)).design()
}

/// Tries the designs of so many seeds.
pub fn sweep(first: u64, count: u64, shop: &Shop) -> Tally {
    let mut tally = Tally::default();
    for seed in first..first + count {
        tally.tried += 1;
        let design = design_of(seed);
        let tried = catch_unwind(AssertUnwindSafe(|| try_one(seed, &design, shop, &mut tally)));
        let trouble = tried.unwrap_or_else(|panic| Err(format!("it panicked: {}", told(&*panic))));
        if let Err(why) = trouble {
            tally.wrong.push(format!("seed {seed}: {why}: {}", Value::Object(design.to_map())));
        }
    }
    tally
}

fn told(panic: &dyn std::any::Any) -> &str {
    let owned = panic.downcast_ref::<String>().map(String::as_str);
    owned.or(panic.downcast_ref::<&str>().copied()).unwrap_or("no words")
}

fn try_one(seed: u64, design: &Design, shop: &Shop, tally: &mut Tally) -> Result<(), String> {
    let back =
        link::read(&link::write(design)).map_err(|refusal| format!("its link is refused: {refusal}"))?;
    if back != *design {
        return Err("its link holds another design".to_owned());
    }
    let chair = match Chair::resolve(design, &shop.bench()) {
        Ok(chair) => chair,
        Err(clash) => {
            *tally.refused.entry(reason(&clash)).or_default() += 1;
            let said = !clash.knobs.is_empty() && clash.why.ends_with('.');
            return if said { finite(&clash.why) } else { Err(format!("refused without words: {clash}")) };
        }
    };
    whole(&chair)?;
    let report = report(design, &chair, shop);
    let plain = serde_json::to_value(&report).map_err(|error| error.to_string())?;
    numbers("report", &plain)?;
    if let Some(why) = &report.no_bill {
        return Err(format!("it has no price: {why}"));
    }
    if seed.is_multiple_of(DRAWN) {
        tally.drawn += 1;
        let view = View { spread: (seed / DRAWN % 5) as f64 / 4.0, ..View::default() };
        finite(&svg::write(&exploded(&chair, &view, &service(design))))?;
    }
    if seed.is_multiple_of(ON_PAPER) {
        tally.on_paper += 1;
        papers(&chair, shop)?;
    }
    Ok(())
}

fn papers(chair: &Chair, shop: &Shop) -> Result<(), String> {
    for drawing in full_size(chair, Lengths::Inches(32)).map_err(|clash| clash.why)? {
        finite(&svg::write(&drawing.sheet))?;
    }
    let steps = serde_json::to_value(order_of_work(chair, shop, None, Lengths::Millimetres))
        .map_err(|e| e.to_string())?;
    numbers("work", &steps)?;
    let wish = Exchange { name: "", format: Format::Step, wanted: Wanted::Chair, stamp: "" };
    let step = exchange(chair, &wish).map_err(|refusal| refusal.to_string())?;
    finite(&String::from_utf8_lossy(&step))
}

/// Every part is a closed body, and the whole goes together.
fn whole(chair: &Chair) -> Result<(), String> {
    for (part, body) in chair.pieces() {
        if !(body.volume > 0.0 && body.volume.is_finite() && body.solid.is_closed()) {
            return Err(format!("{} is no closed body: {} mm³", part.id, body.volume));
        }
    }
    match &chair.assembly.blocked {
        Some(blocked) => Err(format!("it cannot be put together: {blocked:?}")),
        None => Ok(()),
    }
}

/// What may be nothing in a report; a number that is none is written as nothing too.
const MAY_BE_NOTHING: [&str; 3] = ["trade", "thickness", "knob"];

/// Every number is one, and so is every figure in a text.
pub(crate) fn numbers(name: &str, value: &Value) -> Result<(), String> {
    match value {
        Value::Null if MAY_BE_NOTHING.contains(&name) => Ok(()),
        Value::Null => Err(format!("{name} is nothing")),
        Value::Array(items) => items.iter().try_for_each(|item| numbers(name, item)),
        Value::Object(map) => map.iter().try_for_each(|(name, item)| numbers(name, item)),
        Value::String(text) => finite(text),
        Value::Number(_) | Value::Bool(_) => Ok(()),
    }
}

fn finite(text: &str) -> Result<(), String> {
    let at =
        text.find("NaN").or_else(|| text.split(|c: char| !c.is_alphabetic()).position(|word| word == "inf"));
    at.map_or(Ok(()), |at| {
        Err(format!("a figure is none, at {at}: {}", text.chars().take(200).collect::<String>()))
    })
}

/// A refusal without its figures.
fn reason(clash: &Unbuildable) -> String {
    let words = clash.why.split_whitespace().filter(|word| !word.contains(|c: char| c.is_ascii_digit()));
    format!("{:?}: {}", clash.stage, words.collect::<Vec<_>>().join(" "))
}
