//! Lengths, days, colours and prices as they are written.

use super::taken;
use crestrail_chair::date::Date;
use crestrail_chair::drawing::View;
use crestrail_chair::length::{ALL, Lengths};
use crestrail_chair::money::Money;
use crestrail_chair::reading;
use crestrail_chair::showroom::Colour;
use crestrail_chair::told::ToldLabel;

/// Longest length anything is drawn at, mm.
const LONGEST: f64 = 1e7;

/// A figure as a text: a length in every unit, a day, a colour, a price; or how a picture is looked at.
pub(super) fn figures(bytes: &[u8]) -> bool {
    let Ok(text) = str::from_utf8(bytes) else { return false };
    let mut any = taken(Lengths::named(text)).is_some();
    if let Some(date) = taken(Date::read("date", text)) {
        assert!(date.plus_days(1) > date && date.plus_days(0) == date);
        any = true;
    }
    if let Some(colour) = Colour::parse(text) {
        assert_eq!(Colour::parse(&colour.hex()), Some(colour));
        assert!(colour.contrast(colour.words_on_it()) >= 4.5, "words on {} can be read", colour.hex());
        any = true;
    }
    if let Some(label) = ToldLabel::read(text) {
        assert_eq!(ToldLabel::read(&label.write()), Some(label));
        any = true;
    }
    if let Ok(number) = text.trim().parse::<f64>() {
        lengths(number);
        any = true;
    }
    if text.starts_with('{') {
        let value = taken(reading::parse("view", text));
        any |= value.and_then(|value| taken(View::from_value(&value))).is_some();
    }
    any
}

fn lengths(number: f64) {
    for digits in 0..=4 {
        if let Some(money) = Money::from_major(number, digits) {
            let back: f64 = money.decimal(digits).to_string().parse().expect("a price is a number");
            assert!((back - number).abs() <= 1e-6 * number.abs().max(1.0), "{number}: {back}");
        }
    }
    if number.is_nan() || number.abs() > LONGEST {
        return;
    }
    for (name, unit, _) in ALL {
        for text in [unit.write(number), unit.near(number), unit.at_least(number), unit.at_most(number)] {
            assert!(
                !text.is_empty() && !text.contains("NaN") && !text.contains("inf"),
                "{number} {name}: {text}"
            );
        }
        let (least, most) = (read(&unit.at_least(number.abs())), read(&unit.at_most(number.abs())));
        let mm = if let Lengths::Inches(_) = unit {
            25.4
        } else if unit == Lengths::Centimetres {
            10.0
        } else {
            1.0
        };
        // Written to a tenth of a millimetre, or held to a millionth of a part.
        assert!(least * mm >= number.abs() - 0.06, "{number} {name}: at least {least}");
        assert!(most * mm <= number.abs() + 0.06, "{number} {name}: at most {most}");
    }
}

/// A figure of a length back to a number of its unit.
fn read(text: &str) -> f64 {
    let number = |part: &str| match part.split_once('/') {
        Some((a, b)) => a.parse::<f64>().expect("figures") / b.parse::<f64>().expect("figures"),
        None => part.parse().expect("figures"),
    };
    text.split(' ').map(number).sum()
}
