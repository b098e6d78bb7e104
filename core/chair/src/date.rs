//! Days of the calendar (Gregorian, as ISO 8601 counts them). The program knows no clock: whoever asks tells the day.

use crate::refusal::Refusal;
use core::fmt;
use crestrail_phrases::{phrase, say, word};

/// A day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Date {
    year: u32,
    month: u32,
    day: u32,
}

const MONTHS: [&str; 12] = [
    phrase("January"),
    phrase("February"),
    phrase("March"),
    phrase("April"),
    phrase("May"),
    phrase("June"),
    phrase("July"),
    phrase("August"),
    phrase("September"),
    phrase("October"),
    phrase("November"),
    phrase("December"),
];

/// Quotes are of our time.
const YEARS: core::ops::RangeInclusive<u32> = 1900..=9998;

impl Date {
    /// Reads a day such as `2026-03-09`; `field` names it in a refusal.
    pub fn read(field: &str, text: &str) -> Result<Self, Refusal> {
        let why = || {
            // What is no day may be anything, of any length.
            let text: String = text.chars().take(20).filter(|c| !c.is_control()).collect();
            let why = say!("\"{text}\" is not a day. Write it as year, month and day, such as 2026-03-09.");
            Refusal::new(field, why)
        };
        let figures = |from: usize, to: usize| {
            let part = text.get(from..to).filter(|part| part.bytes().all(|b| b.is_ascii_digit()));
            part.and_then(|part| part.parse::<u32>().ok())
        };
        let dashes = text.len() == 10 && text.as_bytes()[4] == b'-' && text.as_bytes()[7] == b'-';
        let parts = (figures(0, 4), figures(5, 7), figures(8, 10));
        let (Some(year), Some(month), Some(day), true) = (parts.0, parts.1, parts.2, dashes) else {
            return Err(why());
        };
        let real =
            YEARS.contains(&year) && (1..=12).contains(&month) && (1..=days_of(year, month)).contains(&day);
        if real { Ok(Self { year, month, day }) } else { Err(why()) }
    }

    /// So many days later.
    pub fn plus_days(self, days: u32) -> Self {
        let mut at = self;
        for _ in 0..days {
            at = at.next();
        }
        at
    }

    fn next(self) -> Self {
        let Self { year, month, day } = self;
        match (day < days_of(year, month), month < 12) {
            (true, _) => Self { day: day + 1, ..self },
            (false, true) => Self { month: month + 1, day: 1, ..self },
            (false, false) => Self { year: year + 1, month: 1, day: 1 },
        }
    }
}

fn days_of(year: u32, month: u32) -> u32 {
    let leap = year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
    match month {
        2 if leap => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        _ => 31,
    }
}

impl fmt::Display for Date {
    /// Such as `9 March 2026`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let month = MONTHS.get(self.month as usize - 1).copied().unwrap_or_default();
        f.write_str(&say!("{day} {month} {year}", day = self.day, month = word(month), year = self.year))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(text: &str) -> Date {
        Date::read("date", text).expect("a day")
    }

    #[test]
    fn days_are_counted_over_months_and_leap_years() {
        for (from, days, to) in [
            ("2026-03-09", 0, "2026-03-09"),
            ("2026-03-09", 30, "2026-04-08"),
            ("2024-02-28", 1, "2024-02-29"),
            ("2025-02-28", 1, "2025-03-01"),
            ("1999-12-31", 366, "2000-12-31"),
            ("2100-02-28", 1, "2100-03-01"),
        ] {
            assert_eq!(day(from).plus_days(days), day(to), "{from} and {days} days");
        }
        assert_eq!(day("2026-03-09").to_string(), "9 March 2026");
    }

    #[test]
    fn what_is_no_day_is_refused() {
        for text in
            ["", "2026-3-9", "2026-02-30", "2026-13-01", "26-03-09", "2026/03/09", "+026-03-09", "2026-03-0é"]
        {
            let refusal = Date::read("date", text).expect_err(text);
            assert!(refusal.where_ == "date" && refusal.why.contains("is not a day"), "{refusal}");
        }
    }
}
