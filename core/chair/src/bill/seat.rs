//! The lines of the bill for a seat: screws, plywood, padding, cord.

use super::ledger::{Entry, Ledger};
use super::materials::{SQUARE_METRE, count, letters};
use crate::lists::CuttingRow;
use crate::material::Material;
use crate::money::Money;
use crate::part::Role;
use crate::refusal::Refusal;
use crate::seating::ledge;
use crate::shop::{Seating, Shop};
use crestrail_phrases::{phrase, say, word};

/// What the cover is larger than the pad at each edge, mm: turned round the edge of the pad's board
/// and tacked below (common practice, no source).
pub(super) const TURNED_UNDER: f64 = 60.0;

/// Adds what the seat needs besides its timber. A refusal where the shop has no price for it.
pub(super) fn seat(ledger: &mut Ledger, rows: &[CuttingRow], shop: &Shop) -> Result<(), Refusal> {
    ledger.add(fixings(rows, shop))?;
    for row in rows {
        match row.material {
            Material::Timber(_) => {}
            Material::Plywood => ledger.add(plywood(row, shop)?)?,
            Material::Padding => {
                ledger.add(foam(row, shop)?)?;
                ledger.add(cover(row, shop)?)?;
            }
            Material::Cord { thickness, length } => ledger.add(cord(row, thickness, length, shop)?)?,
        }
    }
    Ok(())
}

/// Screws of a ledge: one at each end, and between them none farther apart than the rule says.
pub(super) fn ledge_screws(row: &CuttingRow) -> f64 {
    f64::from(row.quantity) * ((row.finished.length / ledge::SCREWS).ceil() + 1.0)
}

fn fixings(rows: &[CuttingRow], shop: &Shop) -> Entry {
    let slats = count(rows, Role::SeatSlat);
    let buttons = count(rows, Role::Button);
    let each = shop.fixings.per_slat;
    let ledges: f64 = rows.iter().filter(|r| r.role == Role::Ledge).map(ledge_screws).sum();
    let (what, quantity, why) = if ledges > 0.0 {
        let why = say!("{ledges} screws in the ledges, no farther apart than {} mm.", ledge::SCREWS);
        (word("screws for the ledges"), ledges, why)
    } else if buttons > 0.0 {
        (word("screws for the buttons"), buttons, say!("{buttons} buttons with a screw each."))
    } else {
        let why = say!("{slats} seat slats with {each} screws each.");
        (word("screws for the seat slats"), slats * f64::from(each), why)
    };
    let held = [Role::SeatSlat, Role::Button, Role::Ledge];
    Entry {
        id: "fixings".to_owned(),
        what: what.to_owned(),
        quantity,
        decimals: 0,
        unit: phrase("pieces"),
        rate: shop.fixings.price,
        why,
        parts: letters(rows, |r| held.contains(&r.role)),
    }
}

/// A line for one row of the cutting list.
fn line(row: &CuttingRow, id: &str, what: &str, quantity: f64, rate: Money, why: String) -> Entry {
    Entry {
        id: format!("seat.{id}.{}", row.letter),
        what: what.to_owned(),
        quantity,
        decimals: 4,
        unit: "m²",
        rate,
        why,
        parts: vec![row.letter.clone()],
    }
}

fn plywood(row: &CuttingRow, shop: &Shop) -> Result<Entry, Refusal> {
    let rate = price(shop, "plywood_per_m2", word("plywood"), |s| s.plywood_per_m2)?;
    let (quantity, why) = sheet(row, 0.0);
    let what = say!("plywood, {} mm", row.finished.thickness.round());
    Ok(line(row, "plywood", &what, quantity, rate, why))
}

fn foam(row: &CuttingRow, shop: &Shop) -> Result<Entry, Refusal> {
    let rate = price(shop, "foam_per_m2", word("foam"), |s| s.foam_per_m2)?;
    let (quantity, why) = sheet(row, 0.0);
    Ok(line(row, "foam", word("foam"), quantity, rate, why))
}

fn cover(row: &CuttingRow, shop: &Shop) -> Result<Entry, Refusal> {
    let rate = price(shop, "cover_per_m2", word("cover"), |s| s.cover_per_m2)?;
    let (quantity, why) = sheet(row, row.finished.thickness + TURNED_UNDER);
    Ok(line(row, "cover", word("cover"), quantity, rate, why))
}

/// The rectangle from which a flat piece is cut, `more` larger at each edge: its area, m², and why.
fn sheet(row: &CuttingRow, more: f64) -> (f64, String) {
    let [length, width] = grown(row, more);
    let (count, area) = (f64::from(row.quantity), face(row, more));
    (area, say!("{count} of {length:.0} × {width:.0} mm: {area:.4} m²."))
}

fn grown(row: &CuttingRow, more: f64) -> [f64; 2] {
    [row.finished.length + 2.0 * more, row.finished.width + 2.0 * more]
}

/// The area of that rectangle for all pieces of the row, m².
pub(super) fn face(row: &CuttingRow, more: f64) -> f64 {
    let [length, width] = grown(row, more);
    f64::from(row.quantity) * length * width * SQUARE_METRE
}

fn cord(row: &CuttingRow, thickness: f64, length: f64, shop: &Shop) -> Result<Entry, Refusal> {
    let rate = price(shop, "cord_per_metre", word("cord"), |s| s.cord_per_metre)?;
    let metres = f64::from(row.quantity) * length / 1000.0;
    let why = say!(
        "{} of {:.1} m: the weave over and under the opening and the outer faces of the rails, one cord of {thickness} mm beside the other, and a tenth more for crossings and ends.",
        row.quantity,
        length / 1000.0
    );
    let entry = line(row, "cord", &say!("cord, {thickness} mm"), metres, rate, why);
    Ok(Entry { unit: "m", decimals: 1, ..entry })
}

fn price(
    shop: &Shop,
    field: &str,
    what: &str,
    of: impl Fn(&Seating) -> Option<Money>,
) -> Result<Money, Refusal> {
    of(&shop.seating).ok_or_else(|| shop.no_seat_price(field, what))
}
