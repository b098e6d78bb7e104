//! From the JSON of a `shop.json` to a workshop, or a refusal that names the field.

use super::labour::labour;
use super::pricing::{pricing, quoting};
use super::stock::stock;
use super::{
    Finish, Fixings, Glue, Measure, PegPrice, PegUnit, SHOP_FILE, Seating, Shop, Stock, TimberPrice,
    TimberPrices, Yard,
};
use crate::money::{Currency, Money};
use crate::reading::{Fields, Limits, number, open, text};
use crate::refusal::{Mend, Refusal};
use crestrail_phrases::{phrase, say, word};
use crestrail_timber::{Species, ThicknessSystem, TradeThickness, species};
use serde_json::Value;

const NAMES: &[&str] = &[
    "crestrail",
    "name",
    "note",
    "currency",
    "thicknesses",
    "timber",
    "stock",
    "kerf",
    "cutters",
    "joint_fit",
    "pegs",
    "glue",
    "finish",
    "fixings",
    "seating",
    "cautions",
    "labour",
    "pricing",
    "quote",
];

/// The greatest price in major units: room for the smallest currency, and far from what 64 bits hold.
const GREATEST_PRICE: f64 = 1e10;
/// Characters of a name.
pub(super) const LONGEST_NAME: usize = 80;
/// Characters of a note or a caution.
pub(super) const LONGEST_NOTE: usize = 400;

const YIELD: Limits = Limits { label: phrase("Yield, as a share of 1,"), min: 0.2, max: 1.0, unit: "" };
const KERF: Limits = Limits { label: phrase("Saw kerf"), min: 0.0, max: 10.0, unit: " mm" };
const CUTTER: Limits = Limits { label: phrase("A cutter"), min: 2.0, max: 40.0, unit: " mm" };
const FIT: Limits = Limits { label: phrase("Joint fit"), min: 0.0, max: 0.5, unit: " mm" };
const SPREAD: Limits = Limits { label: phrase("Glue spread"), min: 20.0, max: 1000.0, unit: " g/m²" };
const COVER: Limits = Limits { label: phrase("Cover of the finish"), min: 1.0, max: 200.0, unit: " m²/L" };
const COATS: Limits = Limits { label: phrase("Coats"), min: 0.0, max: 20.0, unit: "" };
const SCREWS: Limits = Limits { label: phrase("Screws for a slat"), min: 0.0, max: 20.0, unit: "" };
const PRICE: Limits = Limits { label: phrase("The price"), min: 0.0, max: GREATEST_PRICE, unit: "" };

pub(super) fn shop(value: &Value) -> Result<Shop, Refusal> {
    let f = open(&SHOP_FILE, value)?;
    f.only(NAMES)?;
    let currency = currency(&f)?;
    let thicknesses = f.choice("thicknesses", ThicknessSystem::NAMES)?;
    let note = if f.has("note") { Some(f.text("note", LONGEST_NOTE)?) } else { None };
    let (timber, stock, kerf) = boards(&f, currency, thicknesses)?;
    Ok(Shop {
        name: f.text("name", LONGEST_NAME)?,
        note,
        currency,
        thicknesses,
        timber,
        stock,
        kerf,
        cutters: cutters(&f)?,
        joint_fit: f.number("joint_fit", &FIT)?,
        pegs: pegs(&f.object("pegs")?, currency)?,
        glue: glue(&f.object("glue")?, currency)?,
        finish: finish(&f.object("finish")?, currency)?,
        fixings: fixings(&f.object("fixings")?, currency)?,
        seating: seating(&f, currency)?,
        cautions: cautions(&f)?,
        labour: part(&f, "labour", |f| labour(f, currency))?,
        pricing: part(&f, "pricing", |f| pricing(f, currency))?,
        quoting: part(&f, "quote", quoting)?,
    })
}

/// A part of the file that may be left out.
fn part<T>(
    f: &Fields<'_>,
    name: &str,
    read: impl Fn(&Fields<'_>) -> Result<T, Refusal>,
) -> Result<Option<T>, Refusal> {
    f.has(name).then(|| f.object(name).and_then(|f| read(&f))).transpose()
}

/// The field `currency`, a code of ISO 4217.
pub(crate) fn currency(f: &Fields<'_>) -> Result<Currency, Refusal> {
    let code = f.text("currency", LONGEST_NAME)?;
    Currency::find(&code).ok_or_else(|| {
        let why = say!("\"{code}\" is not a currency code of ISO 4217. Write one such as EUR, GBP or USD.");
        Refusal::new(f.path("currency"), why)
    })
}

/// A price in major units, with no more decimals than its currency has.
pub(crate) fn price(f: &Fields<'_>, name: &str, currency: Currency) -> Result<Money, Refusal> {
    let major = f.number(name, &PRICE)?;
    Money::from_major(major, currency.minor_digits).ok_or_else(|| {
        let Currency { code, minor_digits } = currency;
        let why = say!("The price {major} has more decimals than {code} has ({minor_digits}). Round it.");
        Refusal::new(f.path(name), why)
    })
}

fn timber(f: &Fields<'_>, currency: Currency, system: ThicknessSystem) -> Result<TimberPrices, Refusal> {
    f.only(&["measure", "yield", "species"])?;
    let measures = [("cubic_metre", Measure::CubicMetre), ("board_foot", Measure::BoardFoot)];
    let measure = f.choice("measure", &measures)?;
    let yield_share = f.number("yield", &YIELD)?;
    let mut rows: Vec<TimberPrice> = Vec::new();
    for (path, value) in f.list("species", 200)? {
        let row = timber_row(&Fields::at(path.clone(), value)?, currency, system)?;
        if rows.iter().any(|r| r.species == row.species) {
            return Err(Refusal::new(path, say!("{} is listed twice. Keep one row.", row.species.id)));
        }
        rows.push(row);
    }
    if rows.is_empty() {
        return Err(Refusal::new(f.path("species"), "No species is listed. Add one with its price."));
    }
    Ok(TimberPrices { measure, yield_share, rows })
}

fn timber_row(f: &Fields<'_>, currency: Currency, system: ThicknessSystem) -> Result<TimberPrice, Refusal> {
    f.only(&["species", "price", "by_thickness"])?;
    let id = f.text("species", LONGEST_NAME)?;
    let species = species(&id).ok_or_else(|| unknown_species(f, &id))?;
    let price = price(f, "price", currency)?;
    let mut by_thickness = Vec::new();
    if f.has("by_thickness") {
        for (path, value) in f.list("by_thickness", 40)? {
            by_thickness.push(thickness_row(&Fields::at(path, value)?, currency, system)?);
        }
    }
    Ok(TimberPrice { species, price, by_thickness })
}

fn thickness_row(
    f: &Fields<'_>,
    currency: Currency,
    system: ThicknessSystem,
) -> Result<(TradeThickness, Money), Refusal> {
    f.only(&["thickness", "price"])?;
    let named: Vec<(&str, TradeThickness)> = system.thicknesses().iter().map(|t| (t.name, *t)).collect();
    Ok((f.choice("thickness", &named)?, price(f, "price", currency)?))
}

pub(super) fn unknown_species(f: &Fields<'_>, id: &str) -> Refusal {
    let known: Vec<&str> = crestrail_timber::all().iter().map(|s| s.id).collect();
    let why = say!("\"{id}\" is not a species known here. Known are: {}.", known.join(", "));
    Refusal::new(f.path("species"), why)
}

pub(super) fn not_in_stock(shop: &Yard<'_>, species: &Species) -> Refusal {
    let why = say!(
        "{} has no price for {}. Choose another timber or add its price.",
        shop.name,
        word(species.name)
    );
    let refusal = Refusal::new("species", why);
    match shop.timber.rows.first() {
        None => refusal,
        Some(row) => refusal.with_mend(Mend {
            knob: "species".to_owned(),
            value: row.species.id.into(),
            say: say!("Choose {}", word(row.species.name)),
        }),
    }
}

/// The fields `timber`, `stock` and `kerf`.
pub(crate) fn boards(
    f: &Fields<'_>,
    currency: Currency,
    system: ThicknessSystem,
) -> Result<(TimberPrices, Option<Stock>, f64), Refusal> {
    let stock = part(f, "stock", |f| stock(f, currency, system))?;
    Ok((timber(&f.object("timber")?, currency, system)?, stock, f.number("kerf", &KERF)?))
}

/// The fields `cutters` and `joint_fit`.
pub(crate) fn bench(f: &Fields<'_>) -> Result<(Vec<f64>, f64), Refusal> {
    Ok((cutters(f)?, f.number("joint_fit", &FIT)?))
}

fn cutters(f: &Fields<'_>) -> Result<Vec<f64>, Refusal> {
    let mut cutters: Vec<f64> = Vec::new();
    for (path, value) in f.list("cutters", 40)? {
        let width = number(path.clone(), value, &CUTTER)?;
        if cutters.last().is_some_and(|last| *last >= width) {
            return Err(Refusal::new(path, word("The cutters must rise from narrow to wide. Sort them.")));
        }
        cutters.push(width);
    }
    if cutters.is_empty() {
        return Err(Refusal::new(
            f.path("cutters"),
            "No cutter is listed. Add the widths of your mortise cutters.",
        ));
    }
    Ok(cutters)
}

fn pegs(f: &Fields<'_>, currency: Currency) -> Result<PegPrice, Refusal> {
    f.only(&["by", "price"])?;
    let by = f.choice("by", &[("each", PegUnit::Each), ("metre", PegUnit::Metre)])?;
    Ok(PegPrice { by, price: price(f, "price", currency)? })
}

fn glue(f: &Fields<'_>, currency: Currency) -> Result<Glue, Refusal> {
    f.only(&["grams_per_m2", "price_per_kg"])?;
    Ok(Glue {
        grams_per_m2: f.number("grams_per_m2", &SPREAD)?,
        price_per_kg: price(f, "price_per_kg", currency)?,
    })
}

fn finish(f: &Fields<'_>, currency: Currency) -> Result<Finish, Refusal> {
    f.only(&["m2_per_litre", "coats", "price_per_litre"])?;
    Ok(Finish {
        m2_per_litre: f.number("m2_per_litre", &COVER)?,
        coats: f.count("coats", &COATS)?,
        price_per_litre: price(f, "price_per_litre", currency)?,
    })
}

fn fixings(f: &Fields<'_>, currency: Currency) -> Result<Fixings, Refusal> {
    f.only(&["per_slat", "price"])?;
    Ok(Fixings { per_slat: f.count("per_slat", &SCREWS)?, price: price(f, "price", currency)? })
}

fn seating(f: &Fields<'_>, currency: Currency) -> Result<Seating, Refusal> {
    if !f.has("seating") {
        return Ok(Seating::default());
    }
    let f = f.object("seating")?;
    f.only(&["plywood_per_m2", "foam_per_m2", "cover_per_m2", "cord_per_metre"])?;
    let given = |name: &str| f.has(name).then(|| price(&f, name, currency)).transpose();
    Ok(Seating {
        plywood_per_m2: given("plywood_per_m2")?,
        foam_per_m2: given("foam_per_m2")?,
        cover_per_m2: given("cover_per_m2")?,
        cord_per_metre: given("cord_per_metre")?,
    })
}

pub(super) fn no_seat_price(shop: &Shop, field: &str, what: &str) -> Refusal {
    let why = say!(
        "{} has no price for {what}. Choose another seat, or add seating.{field} to the shop's file.",
        shop.name
    );
    Refusal::new("seat", why).with_mend(Mend {
        knob: "seat".to_owned(),
        value: "across".into(),
        say: say!("Choose slats from side to side"),
    })
}

fn cautions(f: &Fields<'_>) -> Result<Vec<String>, Refusal> {
    if !f.has("cautions") {
        return Ok(Vec::new());
    }
    f.list("cautions", 20)?.into_iter().map(|(path, value)| text(path, value, LONGEST_NOTE)).collect()
}
