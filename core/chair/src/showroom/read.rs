//! From the JSON of a `showroom.json` to a showroom, or a refusal that names the field.

use super::colours::colours;
use super::offer::{LONGEST_NAME, Offer, offer};
use super::open::entries;
use super::{Contact, PriceTold, SHOWROOM_FILE, Showroom};
use crate::joints::{Bench, Cutters};
use crate::money::Currency;
use crate::rates::PriceSheet;
use crate::reading::{Fields, open, text};
use crate::refusal::Refusal;
use crestrail_phrases::{say, word};
use serde_json::Value;

const NAMES: &[&str] = &[
    "crestrail",
    "brand",
    "line",
    "contact",
    "colours",
    "language",
    "currency",
    "price",
    "price_note",
    "open",
    "offers",
    "bench",
    "prices",
];

/// The languages whose words the page has, with the regions after whose custom it can write figures.
#[rustfmt::skip]
const LANGUAGES: &[&str] = &[
    "ar", "ar-AE", "ar-DZ", "ar-EG", "ar-MA", "ar-SA", "ar-TN",
    "de", "de-AT", "de-CH", "de-DE", "de-LU",
    "en", "en-AU", "en-CA", "en-GB", "en-IE", "en-IN", "en-NZ", "en-US", "en-ZA",
    "es", "es-AR", "es-CL", "es-CO", "es-ES", "es-MX", "es-PE", "es-US",
    "fr", "fr-BE", "fr-CA", "fr-CH", "fr-FR", "fr-LU",
    "sw", "sw-CD", "sw-KE", "sw-TZ", "sw-UG",
];

/// Most chairs on offer: more do not fit a customer's eye.
const MOST_OFFERS: usize = 24;
/// Characters of a line of words.
const LONGEST_LINE: usize = 120;
/// Characters of an address of mail (RFC 5321 section 4.5.3.1 with its erratum: a path of 256 with its brackets).
const LONGEST_MAIL: usize = 254;

pub(super) fn showroom(value: &Value) -> Result<Showroom, Refusal> {
    let f = open(&SHOWROOM_FILE, value)?;
    f.only(NAMES)?;
    let line = |name: &str| f.has(name).then(|| f.text(name, LONGEST_LINE)).transpose();
    let currency = crate::shop::currency(&f)?;
    Ok(Showroom {
        brand: f.text("brand", LONGEST_NAME)?,
        line: line("line")?,
        contact: contact(&f.object("contact")?)?,
        colours: colours(&f.object("colours")?)?,
        language: language(&f)?,
        currency,
        price: f.choice("price", PriceTold::NAMES)?,
        price_note: line("price_note")?,
        offers: offers(&f, currency)?,
        bench: f.has("bench").then(|| f.object("bench").and_then(|f| bench(&f))).transpose()?,
        prices: f
            .has("prices")
            .then(|| f.object("prices").and_then(|f| PriceSheet::from_fields(&f, currency)))
            .transpose()?,
    })
}

fn offers(f: &Fields<'_>, currency: Currency) -> Result<Vec<Offer>, Refusal> {
    let shared = entries(f)?;
    let mut offers: Vec<Offer> = Vec::new();
    for (path, value) in f.list("offers", MOST_OFFERS)? {
        let fields = Fields::at(path, value)?;
        let made = offer(&fields, &shared, currency)?;
        if offers.iter().any(|other| other.name == made.name) {
            let why = say!("“{}” is offered twice. Give each offer a name of its own.", made.name);
            return Err(Refusal::new(fields.path("name"), why));
        }
        offers.push(made);
    }
    if offers.is_empty() {
        return Err(Refusal::new("offers", word("No chair is on offer. Add one with its name and knobs.")));
    }
    Ok(offers)
}

fn language(f: &Fields<'_>) -> Result<&'static str, Refusal> {
    let said = f.text("language", 40)?;
    LANGUAGES.iter().copied().find(|tag| *tag == said).ok_or_else(|| {
        let why = say!("The page has no words in \"{said}\". Write one of: {}.", LANGUAGES.join(", "));
        Refusal::new(f.path("language"), why)
    })
}

fn contact(f: &Fields<'_>) -> Result<Contact, Refusal> {
    f.only(&["mail", "lines"])?;
    let mail = f.text("mail", LONGEST_MAIL)?;
    if !is_mail(&mail) {
        let why = say!("\"{mail}\" is not an address of mail. Write one such as bench@example.org.");
        return Err(Refusal::new(f.path("mail"), why));
    }
    let lines = if f.has("lines") { f.list("lines", 6)? } else { Vec::new() };
    let lines =
        lines.into_iter().map(|(path, value)| text(path, value, LONGEST_LINE)).collect::<Result<_, _>>()?;
    Ok(Contact { mail, lines })
}

/// Whether it is a plain address: letters, figures and the signs of RFC 5322's dot-atom but those that mean something in a
/// `mailto:` address (RFC 6068 section 2), one `@`, and a domain with a dot.
fn is_mail(text: &str) -> bool {
    let plain = |part: &str, signs: &str| {
        !part.is_empty()
            && part.split('.').all(|atom| !atom.is_empty())
            && part.chars().all(|c| c.is_ascii_alphanumeric() || signs.contains(c))
    };
    text.split_once('@')
        .is_some_and(|(local, domain)| plain(local, ".+-_'*") && plain(domain, ".-") && domain.contains('.'))
}

fn bench(f: &Fields<'_>) -> Result<Bench, Refusal> {
    f.only(&["cutters", "joint_fit"])?;
    let (cutters, fit) = crate::shop::bench(f)?;
    Ok(Bench { cutters: Cutters::new(&cutters), fit })
}
