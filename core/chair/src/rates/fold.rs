//! From a workshop's private book to its selling rates.

use super::{FINER, PriceSheet, Work, WorkRate};
use crate::money::{Fineness, Money};
use crate::shop::{
    Labour, Offered, Operation, Overhead, PegUnit, Pricing, Shop, Stock, TimberPrice, TimberPrices,
};

/// Yields are read from this share up.
const LEAST_YIELD: f64 = 0.2;

impl PriceSheet {
    /// The selling rates of a workshop; nothing where its file does not ask for them.
    pub fn of(shop: &Shop) -> Option<Self> {
        let pricing = shop.pricing.as_ref()?;
        let fold = Fold::of(shop, pricing, pricing.selling_rates?);
        Some(Self {
            currency: shop.currency,
            thicknesses: shop.thicknesses,
            timber: fold.timber(&shop.timber),
            stock: shop.stock.as_ref().map(|stock| fold.stock(stock)),
            kerf: shop.kerf,
            work: fold.work(shop),
            rounding: pricing.rounding,
            delivery: pricing.delivery,
            tax: pricing.tax.clone(),
        })
    }
}

/// What everything is multiplied by.
struct Fold<'a> {
    fineness: Fineness,
    /// From what material costs to what it is sold at.
    material: f64,
    /// What a minute at the bench is sold at, minor units; nothing without a part `labour`.
    minute: f64,
    labour: Option<&'a Labour>,
}

impl<'a> Fold<'a> {
    fn of(shop: &'a Shop, pricing: &Pricing, fineness: Fineness) -> Self {
        let (per_hour, of_cost) = match pricing.overhead {
            Overhead::PerHour(rate) => (rate.0 as f64, 1.0),
            Overhead::OfCost(share) => (0.0, 1.0 + share.of_one.value()),
        };
        let cost = of_cost * (1.0 + pricing.contingency.of_one.value());
        let sold = |profit: crate::shop::Profit| cost * (1.0 + profit.on_cost().of_one.value());
        let hour = shop.labour.as_ref().map_or(0.0, |labour| labour.rate.0 as f64 + per_hour);
        Self {
            fineness,
            material: sold(pricing.profit_on_material()),
            minute: hour * sold(pricing.profit) / 60.0,
            labour: shop.labour.as_ref(),
        }
    }

    fn money(&self, price: Money) -> Money {
        Money(self.fineness.nearest(self.material * price.0 as f64).round() as i64)
    }

    fn timber(&self, prices: &TimberPrices) -> TimberPrices {
        let row = |row: &TimberPrice| TimberPrice {
            species: row.species,
            price: self.money(row.price),
            by_thickness: row.by_thickness.iter().map(|&(t, price)| (t, self.money(price))).collect(),
        };
        let bought = self.fineness.nearest(1.0 / prices.yield_share);
        TimberPrices {
            measure: prices.measure,
            yield_share: (1.0 / bought).clamp(LEAST_YIELD, 1.0),
            rows: prices.rows.iter().map(row).collect(),
        }
    }

    fn stock(&self, stock: &Stock) -> Stock {
        let offered = |offered: &Offered| Offered {
            price: offered.price.map(|price| self.money(price)),
            ..offered.clone()
        };
        let mut offcuts = stock.offcuts;
        offcuts.credit = self.fineness.nearest(offcuts.credit).min(100.0);
        Stock {
            trim_ends: stock.trim_ends,
            trim_edges: stock.trim_edges,
            offcuts,
            offer: stock.offer.iter().map(offered).collect(),
            rack: Vec::new(),
        }
    }

    /// A rate of so much money in the finer decimals.
    fn rate(&self, minor: f64) -> Money {
        Money((self.fineness.nearest(minor) * f64::from(10_u32.pow(u32::from(FINER)))).round() as i64)
    }

    fn minutes(&self, operations: &[Operation]) -> f64 {
        let each = |&operation: &Operation| self.labour.map_or(0.0, |labour| labour.time(operation).minutes);
        self.minute * operations.iter().map(each).sum::<f64>()
    }

    /// The set-up of these operations for one chair of the workshop's own batch.
    fn set_up(&self, operations: &[Operation]) -> f64 {
        let Some(labour) = self.labour else { return 0.0 };
        let all: f64 = operations.iter().map(|&operation| labour.time(operation).set_up).sum();
        self.minute * all / f64::from(labour.batch.max(1))
    }

    /// All rates of work; a material that the workshop has no price for has none.
    fn work(&self, shop: &Shop) -> Vec<WorkRate> {
        let rate = |&(_, work): &(&str, Work)| {
            let material = material(work, shop)?;
            let (each, once) = operations(work);
            let each = self.minutes(each) + self.faces(work) + self.dry_fit(work) + self.material * material;
            Some(WorkRate {
                work,
                each: self.rate(each + self.coats(work, shop)),
                once: self.rate(self.set_up(once)),
            })
        };
        Work::NAMES.iter().filter_map(rate).collect()
    }

    /// Planing goes over four faces of every metre.
    fn faces(&self, work: Work) -> f64 {
        if work == Work::Metre { 4.0 * self.minutes(&[Operation::Plane]) } else { 0.0 }
    }

    /// Every joint is put together dry once.
    fn dry_fit(&self, work: Work) -> f64 {
        match work {
            Work::Joint(kind) => self.minutes(&[Operation::Joint(kind), Operation::DryFit]),
            _ => 0.0,
        }
    }

    fn coats(&self, work: Work, shop: &Shop) -> f64 {
        let coats = f64::from(shop.finish.coats);
        if work == Work::Surface { coats * self.minutes(&[Operation::Finish]) } else { 0.0 }
    }
}

/// What the material of a unit costs the workshop, minor units; nothing where it has no price.
fn material(work: Work, shop: &Shop) -> Option<f64> {
    let (by_piece, by_metre) = match shop.pegs.by {
        PegUnit::Each => (shop.pegs.price, Money(0)),
        PegUnit::Metre => (Money(0), shop.pegs.price),
    };
    let screw = shop.fixings.price.0 as f64;
    let of = |price: Money| Some(price.0 as f64);
    match work {
        Work::Peg | Work::Dowel => of(by_piece),
        Work::Rod => of(by_metre),
        Work::Surface => Some(
            shop.finish.price_per_litre.0 as f64 * f64::from(shop.finish.coats) / shop.finish.m2_per_litre,
        ),
        Work::Glued => Some(shop.glue.price_per_kg.0 as f64 * shop.glue.grams_per_m2 / 1000.0),
        Work::SeatSlat => Some(screw * f64::from(shop.fixings.per_slat)),
        Work::Button | Work::LedgeScrew => Some(screw),
        Work::Plywood => shop.seating.plywood_per_m2.and_then(of),
        Work::Foam => shop.seating.foam_per_m2.and_then(of),
        Work::Cover => shop.seating.cover_per_m2.and_then(of),
        Work::Cord => shop.seating.cord_per_metre.and_then(of),
        _ => Some(0.0),
    }
}

/// The operations whose minutes go with each unit, and those that are set up once where there is any of it.
fn operations(work: Work) -> (&'static [Operation], &'static [Operation]) {
    use Operation as Op;
    match work {
        Work::Chair => (
            &[],
            &[
                Op::ChooseAndMark,
                Op::Crosscut,
                Op::Rip,
                Op::Plane,
                Op::ScrapeAndSand,
                Op::DryFit,
                Op::GlueUp,
                Op::Finish,
            ],
        ),
        Work::Part => (&[Op::ChooseAndMark, Op::Crosscut], &[]),
        Work::Metre => (&[Op::Rip], &[]),
        Work::Curve => (&[Op::SawCurve, Op::ShapeCurve], &[Op::SawCurve, Op::ShapeCurve]),
        Work::Joint(kind) => (&[], joint(kind)),
        Work::Groove => (&[Op::Groove], &[Op::Groove]),
        Work::Notch => (&[Op::Notch], &[Op::Notch]),
        Work::GlueUp => (&[Op::GlueUp], &[]),
        Work::Peg => (&[Op::Peg], &[Op::Peg]),
        Work::Surface => (&[Op::ScrapeAndSand], &[]),
        Work::SeatSlat => (&[Op::SeatSlat], &[Op::SeatSlat]),
        Work::SeatBoard => (&[Op::SeatBoard], &[Op::SeatBoard]),
        Work::Button => (&[Op::Button], &[Op::Button]),
        Work::Ledge => (&[Op::Ledge], &[Op::Ledge]),
        Work::Pad => (&[Op::Pad], &[Op::Pad]),
        Work::Cord => (&[Op::Weave], &[Op::Weave]),
        Work::Dowel
        | Work::Rod
        | Work::Glued
        | Work::LedgeScrew
        | Work::Plywood
        | Work::Foam
        | Work::Cover => (&[], &[]),
    }
}

fn joint(kind: crate::joint::Kind) -> &'static [Operation] {
    use crate::joint::Kind;
    use Operation::Joint;
    match kind {
        Kind::Blind => &[Joint(Kind::Blind)],
        Kind::Haunched => &[Joint(Kind::Haunched)],
        Kind::Through => &[Joint(Kind::Through)],
        Kind::BareFaced => &[Joint(Kind::BareFaced)],
        Kind::Twin => &[Joint(Kind::Twin)],
        Kind::Loose => &[Joint(Kind::Loose)],
        Kind::Dowels => &[Joint(Kind::Dowels)],
    }
}
