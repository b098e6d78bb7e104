//! What customers are told of a design.

use super::{Offer, PriceTold, Showroom};
use crate::bill::{bill, sold_alone};
use crate::chair::Chair;
use crate::checks::fit::Fit;
use crate::checks::{Checked, doubted};
use crate::design::Design;
use crate::finding::{Topic, Verdict};
use crate::lists::{customer_cautions, cutting_list};
use crate::money::Money;
use crate::rates::PriceSheet;
use crate::refusal::Refusal;
use crate::report::{Overall, allowances, overall, service};
use crate::shop::Shop;
use serde::Serialize;

/// What customers are told of a design.
#[derive(Clone, Debug, Serialize)]
pub struct Seen {
    /// The sizes of the whole chair.
    pub overall: Overall,
    /// What customers must know or can mend, the worst first.
    pub concerns: Vec<Concern>,
    /// How it fits whoever sits on it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fit: Option<Fit>,
    /// What can hurt whoever uses it.
    pub cautions: Vec<&'static str>,
    /// What it costs, where that is told.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub label: Option<Label>,
}

/// A check that is not sound, in plain words.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Concern {
    /// What it is about.
    pub topic: Topic,
    /// How it stands.
    pub verdict: Verdict,
    /// What it means.
    pub plain: String,
    /// The open knob that mends it.
    pub knob: Option<&'static str>,
}

/// What stands on the label: a price, or the lowest price of the offer. Money in minor units.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Label {
    /// Whether it is only the lowest price.
    pub from: bool,
    /// One chair, with delivery and tax.
    pub price_minor: Money,
    /// Code of ISO 4217.
    pub currency: &'static str,
    /// Decimals of its minor unit.
    pub minor_digits: u8,
}

impl Showroom {
    /// What customers are told of a design of an offer, whose chair has been worked out. `shop` is the private book, which a
    /// published folder does not have.
    pub fn seen(
        &self,
        offer: &Offer,
        design: &Design,
        chair: &Chair,
        shop: Option<&Shop>,
    ) -> Result<Seen, Refusal> {
        let Checked { findings, fit, .. } = doubted(chair, &service(design));
        let open = |knob: &&str| offer.open.iter().any(|opened| opened.knob == *knob);
        // What is merely near a limit of the trade, with nothing open that mends it, is the maker's to judge.
        let concerns = findings.into_iter().filter(|finding| match finding.verdict {
            Verdict::Sound => false,
            Verdict::Fails => true,
            Verdict::Close => finding.topic == Topic::Fit || finding.knob.as_ref().is_some_and(open),
        });
        let concerns = concerns
            .map(|f| Concern {
                topic: f.topic,
                verdict: f.verdict,
                plain: f.plain,
                knob: f.knob.filter(open),
            })
            .collect();
        let label = self.label(offer, design, chair, shop)?;
        Ok(Seen { overall: overall(design, chair), concerns, fit, cautions: customer_cautions(), label })
    }

    /// What stands on the label of a chair; nothing where no price is told, or none is known.
    fn label(
        &self,
        offer: &Offer,
        design: &Design,
        chair: &Chair,
        shop: Option<&Shop>,
    ) -> Result<Option<Label>, Refusal> {
        let price = match (self.price, shop) {
            (PriceTold::Nothing, _) => None,
            (PriceTold::Shown, None) => {
                self.prices.as_ref().map(|sheet| self.by_rates(design, chair, sheet)).transpose()?
            }
            (PriceTold::From, _) => offer.from,
            (PriceTold::Shown, Some(shop)) => {
                self.suits(shop)?;
                Some(total(design, chair, shop)?)
            }
        };
        let (currency, minor_digits) = (self.currency.code, self.currency.minor_digits);
        let from = self.price == PriceTold::From;
        Ok(price.map(|price_minor| Label { from, price_minor, currency, minor_digits }))
    }

    /// What one chair costs with delivery and tax by the selling rates.
    fn by_rates(&self, design: &Design, chair: &Chair, sheet: &PriceSheet) -> Result<Money, Refusal> {
        let rows = cutting_list(chair, &allowances(design), sheet.thicknesses);
        sold_alone(chair, &rows, sheet, &self.brand)
    }
}

/// What one chair costs with delivery and tax, as on a quote for it alone.
pub(crate) fn total(design: &Design, chair: &Chair, shop: &Shop) -> Result<Money, Refusal> {
    let rows = cutting_list(chair, &allowances(design), shop.thicknesses);
    bill(chair, &rows, shop).map(|bill| bill.total_minor)
}
