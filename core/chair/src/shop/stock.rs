//! What boards the yard offers and what stands in the maker's own rack: the part `stock` of `shop.json`. What each line
//! means stands in `core/chair/data/README.md`.

use super::read::{LONGEST_NAME, price, unknown_species};
use crate::money::{Currency, Money};
use crate::reading::{Fields, Limits, text};
use crate::refusal::Refusal;
use crestrail_phrases::{phrase, say};
use crestrail_timber::{Species, ThicknessSystem, TradeThickness, species};

/// Boards to plan with.
#[derive(Clone, Debug, PartialEq)]
pub struct Stock {
    /// Taken off each end of a board: checks and paint, mm.
    pub trim_ends: f64,
    /// Taken off each edge: wane and crook, mm.
    pub trim_edges: f64,
    /// Which offcuts are worth keeping.
    pub offcuts: Offcuts,
    /// What the yard sells, as many as wanted.
    pub offer: Vec<Offered>,
    /// What is already there; it costs nothing and is used first.
    pub rack: Vec<Kept>,
}

/// When an offcut is kept, and what it counts for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Offcuts {
    /// Least length that is kept, mm.
    pub length: f64,
    /// Least width that is kept, mm.
    pub width: f64,
    /// Percent of its price that the order gets back for it.
    pub credit: f64,
}

/// Boards of one size on offer.
#[derive(Clone, Debug, PartialEq)]
pub struct Offered {
    /// The species; nothing for all that have a price.
    pub species: Option<&'static Species>,
    /// The thicknesses in which this size is kept.
    pub thicknesses: Vec<TradeThickness>,
    /// Length, mm.
    pub length: f64,
    /// Width, mm.
    pub width: f64,
    /// Price of one board; nothing where it is charged by volume.
    pub price: Option<Money>,
}

/// Boards of one size in the rack.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kept {
    /// The species.
    pub species: &'static Species,
    /// The thickness.
    pub thickness: TradeThickness,
    /// Length, mm.
    pub length: f64,
    /// Width, mm.
    pub width: f64,
    /// How many.
    pub count: u32,
}

const TRIM_ENDS: Limits = Limits { label: phrase("The trim of the ends"), min: 0.0, max: 300.0, unit: " mm" };
const TRIM_EDGES: Limits =
    Limits { label: phrase("The trim of the edges"), min: 0.0, max: 60.0, unit: " mm" };
const LENGTH: Limits = Limits { label: phrase("The length"), min: 100.0, max: 12_000.0, unit: " mm" };
const WIDTH: Limits = Limits { label: phrase("The width"), min: 15.0, max: 2000.0, unit: " mm" };
const CREDIT: Limits = Limits { label: phrase("The credit for an offcut"), min: 0.0, max: 100.0, unit: " %" };
const COUNT: Limits = Limits { label: phrase("The number of boards"), min: 1.0, max: 1000.0, unit: "" };

pub(super) fn stock(f: &Fields<'_>, currency: Currency, system: ThicknessSystem) -> Result<Stock, Refusal> {
    f.only(&["trim_ends", "trim_edges", "offcuts", "offer", "rack"])?;
    let (trim_ends, trim_edges) = (f.number("trim_ends", &TRIM_ENDS)?, f.number("trim_edges", &TRIM_EDGES)?);
    let at = |(path, value)| Fields::at(path, value);
    let offer = f.list("offer", 200)?.into_iter();
    let offer: Vec<Offered> =
        offer.map(|row| offered(&at(row)?, currency, system)).collect::<Result<_, _>>()?;
    let rack = if f.has("rack") { f.list("rack", 500)? } else { Vec::new() };
    let rack: Vec<Kept> = rack.into_iter().map(|row| kept(&at(row)?, system)).collect::<Result<_, _>>()?;
    let stock = Stock { trim_ends, trim_edges, offcuts: offcuts(&f.object("offcuts")?)?, offer, rack };
    stock.is_larger_than_its_trims(f).map(|()| stock)
}

impl Stock {
    fn is_larger_than_its_trims(&self, f: &Fields<'_>) -> Result<(), Refusal> {
        let sizes = |list: &'static str, sizes: Vec<[f64; 2]>| {
            sizes.into_iter().enumerate().map(move |(i, size)| (format!("{}[{i}]", f.path(list)), size))
        };
        let offer = sizes("offer", self.offer.iter().map(|o| [o.length, o.width]).collect());
        let rack = sizes("rack", self.rack.iter().map(|k| [k.length, k.width]).collect());
        let trims = [2.0 * self.trim_ends, 2.0 * self.trim_edges];
        match offer.chain(rack).find(|(_, size)| size[0] <= trims[0] || size[1] <= trims[1]) {
            None => Ok(()),
            Some((path, [length, width])) => {
                let why = say!(
                    "Nothing is left of a board of {length} × {width} mm without its trims. Make the trims smaller or take the board out."
                );
                Err(Refusal::new(path, why))
            }
        }
    }
}

fn offcuts(f: &Fields<'_>) -> Result<Offcuts, Refusal> {
    f.only(&["length", "width", "credit"])?;
    Ok(Offcuts {
        length: f.number("length", &LENGTH)?,
        width: f.number("width", &WIDTH)?,
        credit: f.number("credit", &CREDIT)?,
    })
}

fn offered(f: &Fields<'_>, currency: Currency, system: ThicknessSystem) -> Result<Offered, Refusal> {
    f.only(&["species", "thicknesses", "length", "width", "price"])?;
    let mut thicknesses = Vec::new();
    for (path, value) in f.list("thicknesses", 40)? {
        let said = text(path.clone(), value, LONGEST_NAME)?;
        thicknesses.push(named(path, &said, system)?);
    }
    if thicknesses.is_empty() {
        let why = "No thickness is listed. Add those in which the yard keeps this size.";
        return Err(Refusal::new(f.path("thicknesses"), why));
    }
    Ok(Offered {
        species: if f.has("species") { Some(species_of(f)?) } else { None },
        thicknesses,
        length: f.number("length", &LENGTH)?,
        width: f.number("width", &WIDTH)?,
        price: if f.has("price") { Some(price(f, "price", currency)?) } else { None },
    })
}

fn kept(f: &Fields<'_>, system: ThicknessSystem) -> Result<Kept, Refusal> {
    f.only(&["species", "thickness", "length", "width", "count"])?;
    let said = f.text("thickness", LONGEST_NAME)?;
    Ok(Kept {
        species: species_of(f)?,
        thickness: named(f.path("thickness"), &said, system)?,
        length: f.number("length", &LENGTH)?,
        width: f.number("width", &WIDTH)?,
        count: f.count("count", &COUNT)?,
    })
}

fn species_of(f: &Fields<'_>) -> Result<&'static Species, Refusal> {
    let id = f.text("species", LONGEST_NAME)?;
    species(&id).ok_or_else(|| unknown_species(f, &id))
}

fn named(path: String, said: &str, system: ThicknessSystem) -> Result<TradeThickness, Refusal> {
    let known = system.thicknesses();
    known.iter().find(|t| t.name == said).copied().ok_or_else(|| {
        let names: Vec<&str> = known.iter().map(|t| t.name).collect();
        let why = say!("\"{said}\" is no thickness of this custom. Choose one of: {}.", names.join(", "));
        Refusal::new(path, why)
    })
}
