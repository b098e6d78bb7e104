//! What timber to buy: rough parts moved to trade thicknesses, and more for what is lost.

use super::CuttingRow;
use super::cutting_list::is_sawn_from_board;
use crate::shop::{Shop, Yard};
use crestrail_phrases::{say, word};
use crestrail_sorting::Order as _;
use crestrail_timber::board_measure::{board_feet_of_volume, charged_thickness};
use crestrail_timber::{Species, ThicknessSystem, TradeThickness};
use serde::Serialize;

/// The timber of a chair.
#[derive(Clone, Debug, Serialize)]
pub struct Timber {
    /// The custom after which boards are sawn.
    pub thicknesses: ThicknessSystem,
    /// Share of the bought wood that ends as rough parts; nothing where boards are planned instead.
    #[serde(rename = "yield", skip_serializing_if = "Option::is_none")]
    pub yield_share: Option<f64>,
    /// One line for each species and thickness.
    pub lines: Vec<TimberLine>,
}

/// Timber of one species and thickness.
#[derive(Clone, Debug, Serialize)]
pub struct TimberLine {
    /// Name of the species.
    pub species: &'static str,
    /// The yard's name of the thickness; `None` where the trade has nothing so thick.
    pub thickness: Option<&'static str>,
    /// Sawn thickness, mm.
    pub thickness_mm: f64,
    /// The finished parts, joints cut, m³.
    pub volume_m3: f64,
    /// The rough parts at the sawn thickness, m³.
    pub rough_m3: f64,
    /// What must be bought; nothing where boards are planned instead.
    #[serde(flatten, skip_serializing_if = "Option::is_none")]
    pub bought: Option<Bought>,
    /// Letters of the parts.
    pub parts: Vec<String>,
    /// The species.
    #[serde(skip)]
    pub timber: &'static Species,
    /// The trade thickness.
    #[serde(skip)]
    pub trade: Option<TradeThickness>,
}

/// What must be bought where timber is reckoned by its yield.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Bought {
    /// Rough / yield, m³.
    pub bought_m3: f64,
    /// The same in board feet; stock under one inch is charged as one inch.
    pub board_feet: f64,
}

/// One mm³ in m³.
pub(crate) const CUBIC_METRE: f64 = 1e-9;

/// What the yard calls a thickness, or that it must be sawn to order.
pub(crate) fn thickness_words(name: Option<&str>, mm: f64) -> String {
    name.map_or_else(|| say!("{mm} mm to order"), str::to_owned)
}

/// The timber for these rows. Pegs and dowels come as rods and wedges from offcuts, so they are not sawn from it, nor
/// is what is no timber.
pub fn timber(rows: &[CuttingRow], shop: &Shop) -> Timber {
    timber_from(rows, shop.yard())
}

/// The same from any yard.
pub(crate) fn timber_from(rows: &[CuttingRow], yard: Yard<'_>) -> Timber {
    let mut lines: Vec<TimberLine> = Vec::new();
    let sawn = rows.iter().filter(|r| is_sawn_from_board(r.role));
    for (row, species) in sawn.filter_map(|r| Some((r, r.material.species()?))) {
        match lines.iter_mut().find(|l| l.takes(row, species)) {
            Some(line) => line.add(row),
            None => lines.push(TimberLine::begin(row, species)),
        }
    }
    let yield_share = yard.stock.is_none().then_some(yard.timber.yield_share);
    for line in &mut lines {
        line.bought = yield_share.map(|share| line.bought_for(line.rough_m3, share));
    }
    lines.order_by(|a, b| a.timber.id.cmp(b.timber.id).then(a.thickness_mm.total_cmp(&b.thickness_mm)));
    Timber { thicknesses: yard.thicknesses, yield_share, lines }
}

/// Sawn thickness of a row: the trade's, or to order in whole millimetres.
pub(crate) fn sawn_thickness(row: &CuttingRow) -> f64 {
    row.trade_thickness.map_or_else(|| (row.rough.thickness - 0.01).ceil(), |t| t.rough)
}

impl TimberLine {
    fn begin(row: &CuttingRow, species: &'static Species) -> Self {
        let mut line = Self {
            species: word(species.name),
            thickness: row.trade,
            thickness_mm: sawn_thickness(row),
            volume_m3: 0.0,
            rough_m3: 0.0,
            bought: None,
            parts: Vec::new(),
            timber: species,
            trade: row.trade_thickness,
        };
        line.add(row);
        line
    }

    fn takes(&self, row: &CuttingRow, species: &Species) -> bool {
        self.timber == species && self.thickness_mm == sawn_thickness(row)
    }

    fn add(&mut self, row: &CuttingRow) {
        let count = f64::from(row.quantity);
        self.volume_m3 += count * row.volume_mm3 * CUBIC_METRE;
        self.rough_m3 += count * row.rough.face() * self.thickness_mm * CUBIC_METRE;
        self.parts.push(row.letter.clone());
    }

    /// What must be bought, so that at this yield so much of it ends as rough parts of the line's thickness.
    pub(crate) fn bought_for(&self, rough_m3: f64, yield_share: f64) -> Bought {
        let bought_m3 = rough_m3 / yield_share;
        let charged = bought_m3 * charged_thickness(self.thickness_mm) / self.thickness_mm;
        Bought { bought_m3, board_feet: board_feet_of_volume(charged / CUBIC_METRE) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lists::cutting_list;
    use crate::lists::sample::{ALLOWANCES, chair};

    /// The demo without boards: timber is reckoned by its yield.
    fn by_yield() -> Shop {
        Shop { stock: None, ..Shop::demo() }
    }

    fn bought(line: &TimberLine) -> Bought {
        line.bought.expect("by yield")
    }

    fn of(shop: &Shop) -> Timber {
        timber(&cutting_list(&chair(), &ALLOWANCES, shop.thicknesses), shop)
    }

    /// By hand: legs 38 + 4 and 36 + 4 mm go to 45 and 40 mm; the rail's 28 to 32; the slats' 20 to 20.
    #[test]
    fn rough_parts_move_to_trade_thicknesses() {
        let plan = of(&by_yield());
        let told: Vec<_> = plan.lines.iter().map(|l| (l.thickness_mm, l.parts.concat())).collect();
        let line = |mm, parts: &str| (mm, parts.to_owned());
        assert_eq!(told, [line(20.0, "D"), line(32.0, "C"), line(40.0, "B"), line(45.0, "A")]);
        let rail = &plan.lines[1];
        assert!((rail.rough_m3 - 470.0 * 69.0 * 32.0 * 1e-9).abs() < 1e-15);
        assert!((bought(rail).bought_m3 - rail.rough_m3 / 0.65).abs() < 1e-15);
        assert!((bought(rail).board_feet - bought(rail).bought_m3 * 1e9 / 2_359_737.216).abs() < 1e-12);
    }

    /// As a magazine counts: 30 % waste on 100 means buying 142.9, not 130.
    #[test]
    fn yield_is_a_share_of_what_is_bought() {
        let shop = Shop {
            timber: crate::shop::TimberPrices { yield_share: 0.7, ..by_yield().timber },
            ..by_yield()
        };
        for line in of(&shop).lines {
            assert!((100.0 * bought(&line).bought_m3 / line.rough_m3 - 142.9).abs() < 0.05);
        }
    }

    /// The slats' boards are 20 mm thick: a seller by board foot charges them as 25.4 mm.
    #[test]
    fn board_feet_of_thin_stock_count_an_inch() {
        let slats = &of(&by_yield()).lines[0];
        let face_m2 = bought(slats).bought_m3 / 0.020;
        assert!((bought(slats).board_feet - face_m2 / 0.3048_f64 / 0.3048).abs() < 1e-9);
    }

    #[test]
    fn stages_only_grow() {
        for line in of(&by_yield()).lines {
            assert!(
                0.0 < line.volume_m3
                    && line.volume_m3 < line.rough_m3
                    && line.rough_m3 < bought(&line).bought_m3
            );
        }
    }

    /// A leg of 38 + 90 mm fits no trade thickness: it is priced at what it is, and said.
    #[test]
    fn too_thick_is_bought_to_order() {
        let shop = by_yield();
        let huge = super::super::Allowances { thickness: 90.3, ..ALLOWANCES };
        let plan = timber(&cutting_list(&chair(), &huge, shop.thicknesses), &shop);
        let last = plan.lines.last().expect("lines");
        assert_eq!((last.thickness, last.thickness_mm), (None, 129.0));
    }
}
