//! Which form of a text goes with a count: the plural rules of Unicode CLDR 46 for the languages there are (supplemental
//! data, `plurals.xml`; the rules for cardinals, from memory), for counts that are whole numbers.

/// The categories of CLDR.
pub(crate) const CATEGORIES: [&str; 6] = ["zero", "one", "two", "few", "many", "other"];

/// The categories that a language has for whole numbers below a million.
pub(crate) fn categories(language: &str) -> &'static [&'static str] {
    match language {
        "ar" => &CATEGORIES,
        _ => &["one", "other"],
    }
}

/// The category of a count in a language. What is no whole number takes the general form.
pub(crate) fn category(language: &str, count: &str) -> &'static str {
    let Ok(n) = count.parse::<u64>() else { return "other" };
    match language {
        "ar" => arabic(n),
        "fr" if n <= 1 => "one",
        _ if n == 1 => "one",
        _ => "other",
    }
}

fn arabic(n: u64) -> &'static str {
    match (n, n % 100) {
        (0, _) => "zero",
        (1, _) => "one",
        (2, _) => "two",
        (_, 3..=10) => "few",
        (_, 11..=99) => "many",
        _ => "other",
    }
}
