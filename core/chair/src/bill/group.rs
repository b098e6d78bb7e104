//! Groups of lines, with their sums.

use super::BillLine;
use crate::money::Money;
use crestrail_phrases::word;
use crestrail_sorting::Order as _;
use serde::Serialize;

/// What a line is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Group {
    /// Chairs of an order, each at its price.
    Chairs,
    /// Timber, fittings, glue, finish.
    Material,
    /// Hours at the bench.
    Labour,
    /// Rent, machines, insurance.
    Overhead,
    /// For what goes wrong.
    Contingency,
    /// What is left to the workshop.
    Profit,
    /// To a round price.
    Rounding,
    /// Bringing it to the customer.
    Delivery,
    /// The tax on sales.
    Tax,
}

/// The sum of a group's lines.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Sum {
    /// Which group.
    pub group: Group,
    /// Its name.
    pub what: &'static str,
    /// The sum of its lines.
    pub amount_minor: Money,
}

impl Group {
    /// The group of a line, by the first word of its id; what no other group names is material.
    pub fn of(id: &str) -> Self {
        match id.split('.').next().unwrap_or_default() {
            "chair" => Self::Chairs,
            "labour" => Self::Labour,
            "overhead" => Self::Overhead,
            "contingency" => Self::Contingency,
            "profit" => Self::Profit,
            "rounding" => Self::Rounding,
            "delivery" => Self::Delivery,
            "tax" => Self::Tax,
            _ => Self::Material,
        }
    }

    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Chairs => word("Chairs"),
            Self::Material => word("Material"),
            Self::Labour => word("Labour"),
            Self::Overhead => word("Overhead"),
            Self::Contingency => word("Contingency"),
            Self::Profit => word("Profit"),
            Self::Rounding => word("Rounding"),
            Self::Delivery => word("Delivery"),
            Self::Tax => word("Tax"),
        }
    }
}

/// The sums of the groups in their order. No sum overflows, for the ledger has already added all lines.
pub(super) fn sums(lines: &[BillLine]) -> Vec<Sum> {
    let mut sums: Vec<Sum> = Vec::new();
    for line in lines {
        match sums.iter_mut().find(|sum| sum.group == line.group) {
            Some(sum) => sum.amount_minor = Money(sum.amount_minor.0.saturating_add(line.amount_minor.0)),
            None => {
                sums.push(Sum {
                    group: line.group,
                    what: line.group.name(),
                    amount_minor: line.amount_minor,
                });
            }
        }
    }
    sums.order_by_key(|sum| sum.group);
    sums
}
