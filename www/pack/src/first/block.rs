//! What stands at the foot of the page, as `summary.js` and `label.js` make it.

use super::figures::{money, number, whole_length};
use super::words::Words;
use crate::html::escaped;
use anyhow::{Context, Result};
use crestrail_chair::showroom::{PriceTold, Showroom};
use serde_json::Value;

/// Says to screen readers what has changed; empty to begin with.
const SPOKEN: &str = "<p class=\"unseen\" aria-live=\"polite\"></p>";

/// The title block of a report.
pub(super) fn summary(report: &Value, words: &Words) -> Result<String> {
    let size = |name: &str| figure(&report["overall"], name);
    let length = |name: &str| anyhow::Ok(whole_length(size(name)?, "mm", words.tag()));
    let named = |name: &str| anyhow::Ok(format!("{} {}", length(name)?, words.say("unit_mm")?));
    let (verdict, worst) = verdict(&report["findings"], words)?;
    let (parts, pegs) = (size("parts")?, size("pegs")?);
    let parts = match pegs {
        0.0 => number(parts, 0, words.tag()),
        _ => words
            .say("parts_and_pegs")?
            .replace("{parts}", &parts.to_string())
            .replace("{pegs}", &pegs.to_string()),
    };
    let price = match &report["bill"] {
        Value::Null => words.say("no_price")?,
        bill => priced(bill, "total_minor", words)?,
    };
    let cells = [
        ("size", format!("{} × {} × {}", length("width")?, length("depth")?, length("height")?)),
        ("width", named("width")?),
        ("depth", named("depth")?),
        ("height", named("height")?),
        ("seat", named("seat_height")?),
        ("mass", format!("{} {}", number(size("mass_kg")?, 1, words.tag()), words.say("unit_kg")?)),
        ("parts", parts),
        ("verdict", verdict),
        ("price", price),
    ];
    let mut out = "<dl class=\"cells\">".to_owned();
    for (key, value) in cells {
        let told = if key == "verdict" { format!(" data-verdict=\"{worst}\"") } else { String::new() };
        out.push_str(&cell(key, &words.say(key)?, &told, &value, ""));
    }
    Ok(out + "</dl>" + SPOKEN)
}

/// The label of a chair on offer.
pub(super) fn label(seen: &Value, showroom: &Showroom, words: &Words) -> Result<String> {
    let unit = showroom.lengths.unwrap_or("mm");
    let length = |name: &str| anyhow::Ok(whole_length(figure(&seen["overall"], name)?, unit, words.tag()));
    let size = format!("{} × {} × {}", length("width")?, length("depth")?, length("height")?);
    let seat = format!("{} {}", length("seat_height")?, words.say(&format!("unit_{unit}"))?);
    let price = match &seen["label"] {
        Value::Null => words.say("label_none")?,
        label if label["from"] == true => match priced(label, "price_minor", words)? {
            price if price.is_empty() => price,
            price => words.say("label_from")?.replace("{price}", &words.isolated(&price)),
        },
        label => priced(label, "price_minor", words)?,
    };
    let note = showroom
        .price_note
        .as_deref()
        .map_or(String::new(), |note| format!("<dd class=\"price-note\">{}</dd>", escaped(note)));
    let mut cells = cell("size", &words.say("label_size")?, "", &size, "")
        + &cell("seat", &words.say("seat")?, "", &seat, "");
    if showroom.price != PriceTold::Nothing {
        cells += &cell("price", &words.say("label_price")?, "", &price, &note);
    }
    let ask = format!(
        "<button type=\"button\" class=\"strong-button ask-button\" disabled>{}</button>",
        escaped(&words.say("ask")?)
    );
    Ok(format!("<div class=\"label-row\"><dl class=\"cells\">{cells}</dl>{ask}</div>{SPOKEN}"))
}

fn cell(key: &str, head: &str, told: &str, value: &str, more: &str) -> String {
    format!(
        "<div class=\"cell cell-{key}\"><dt>{}</dt><dd{told}>{}</dd>{more}</div>",
        escaped(head),
        escaped(value)
    )
}

/// An amount as it is written; empty, which the page shows as a dash, where that is not known for the language and the currency.
fn priced(from: &Value, name: &str, words: &Words) -> Result<String> {
    let minor = from[name].as_i64().with_context(|| format!("{name} is no amount"))?;
    let digits = from["minor_digits"].as_u64().context("a price has its decimals")?;
    let code = from["currency"].as_str().context("a price has its currency")?;
    Ok(money(minor, digits as u32, code, words.tag()).unwrap_or_default())
}

fn figure(from: &Value, name: &str) -> Result<f64> {
    from[name].as_f64().with_context(|| format!("{name} is no number"))
}

/// How the checks stand, in words and as it is named in the page.
fn verdict(findings: &Value, words: &Words) -> Result<(String, &'static str)> {
    let findings = findings.as_array().context("findings are a list")?;
    for worst in ["fails", "close"] {
        let count = findings.iter().filter(|finding| finding["verdict"] == worst).count();
        if count > 0 {
            return Ok((words.counted(&format!("verdict_{worst}"), count)?, worst));
        }
    }
    Ok((words.say(if findings.is_empty() { "bare" } else { "verdict_sound" })?, "sound"))
}
