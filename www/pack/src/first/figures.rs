//! Figures as the page's `format.js` writes them.
//!
//! There the browser knows the customs of each region. Here only those stand that were compared with it; where others are
//! asked for, the price is left to the page.

use crestrail_chair::length::Lengths;

/// A number with up to so many decimals.
pub(super) fn number(value: f64, digits: u32, tag: &str) -> String {
    let scale = f64::from(10_u32.pow(digits));
    let text = ((value * scale).round() / scale).to_string();
    match tag.split('-').next() {
        Some("de" | "es" | "fr") => text.replace('.', ","),
        _ => text,
    }
}

/// A size that nobody works to, without its unit: to the whole millimetre or the nearest sixteenth of an inch.
pub(super) fn whole_length(mm: f64, unit: &str, tag: &str) -> String {
    // A length half way between two figures goes to the greater one, as in `length.js`.
    let mm = mm + 1e-7;
    match unit {
        "in" => Lengths::Inches(16).near(mm),
        "cm" => number(mm / 10.0, 1, tag),
        _ => number(mm, 0, tag),
    }
}

/// An amount of money; nothing where the custom of the region or the sign of the currency is not known here.
pub(super) fn money(minor: i64, digits: u32, currency: &str, tag: &str) -> Option<String> {
    let unit = 10_u64.pow(digits);
    let amount = minor.unsigned_abs();
    let whole = amount / unit;
    let decimals = if digits == 0 {
        String::new()
    } else {
        format!("{:0width$}", amount % unit, width = digits as usize)
    };
    let put = |group: &str, point: &str, least: usize| {
        let point = if decimals.is_empty() { "" } else { point };
        format!("{}{point}{decimals}", grouped(whole, group, least))
    };
    let sign = |known: &[(&'static str, &'static str)]| {
        known.iter().find(|(code, _)| *code == currency).map(|(_, sign)| *sign)
    };
    if minor < 0 {
        return None;
    }
    match tag {
        "en" | "en-US" => {
            Some(sign(&[("EUR", "€"), ("GBP", "£"), ("USD", "$")])?.to_owned() + &put(",", ".", 4))
        }
        "en-GB" | "en-IE" => {
            Some(sign(&[("EUR", "€"), ("GBP", "£"), ("USD", "US$")])?.to_owned() + &put(",", ".", 4))
        }
        "de" | "de-DE" => {
            Some(put(".", ",", 4) + "\u{a0}" + sign(&[("EUR", "€"), ("GBP", "£"), ("USD", "$")])?)
        }
        "fr" | "fr-FR" => {
            Some(put("\u{202f}", ",", 4) + "\u{a0}" + sign(&[("EUR", "€"), ("GBP", "£GB"), ("USD", "$US")])?)
        }
        "es" | "es-ES" => {
            Some(put(".", ",", 5) + "\u{a0}" + sign(&[("EUR", "€"), ("GBP", "GBP"), ("USD", "US$")])?)
        }
        _ => None,
    }
}

/// A whole number in groups of thousands, where it has at least so many figures.
fn grouped(whole: u64, group: &str, least: usize) -> String {
    let figures = whole.to_string();
    if figures.len() < least {
        return figures;
    }
    let mut out = String::new();
    for (i, figure) in figures.chars().enumerate() {
        if i > 0 && (figures.len() - i).is_multiple_of(3) {
            out.push_str(group);
        }
        out.push(figure);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What `Intl.NumberFormat` of Node.js 20 (ICU 78, CLDR 48) writes.
    #[test]
    fn money_is_written_as_browsers_do() {
        for (tag, currency, one, two) in [
            ("en", "EUR", "€1,234.50", "€987,654.05"),
            ("en-US", "USD", "$1,234.50", "$987,654.05"),
            ("en-GB", "USD", "US$1,234.50", "US$987,654.05"),
            ("en-IE", "GBP", "£1,234.50", "£987,654.05"),
            ("de", "EUR", "1.234,50\u{a0}€", "987.654,05\u{a0}€"),
            ("de-DE", "USD", "1.234,50\u{a0}$", "987.654,05\u{a0}$"),
            ("fr-FR", "EUR", "1\u{202f}234,50\u{a0}€", "987\u{202f}654,05\u{a0}€"),
            ("fr", "GBP", "1\u{202f}234,50\u{a0}£GB", "987\u{202f}654,05\u{a0}£GB"),
            ("es", "EUR", "1234,50\u{a0}€", "987.654,05\u{a0}€"),
            ("es-ES", "USD", "1234,50\u{a0}US$", "987.654,05\u{a0}US$"),
        ] {
            assert_eq!(money(123_450, 2, currency, tag).as_deref(), Some(one), "{tag}");
            assert_eq!(money(98_765_405, 2, currency, tag).as_deref(), Some(two), "{tag}");
        }
        for (currency, tag) in [("CHF", "en"), ("EUR", "de-CH"), ("EUR", "ar-EG")] {
            assert_eq!(money(100, 2, currency, tag), None, "{currency} in {tag}");
        }
    }

    #[test]
    fn lengths_are_written_as_on_the_page() {
        assert_eq!(whole_length(450.5, "mm", "en"), "451");
        assert_eq!(whole_length(456.0, "cm", "de"), "45,6");
        assert_eq!(whole_length(450.0, "in", "en"), "17 11/16");
        assert_eq!(number(5.0, 1, "en"), "5");
        assert_eq!(number(5.25, 1, "fr"), "5,3");
    }
}
