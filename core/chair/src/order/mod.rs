//! An order: several designs, each with a quantity, priced together.
//!
//! [`Order`] is what `order.json` holds; [`Made`] is one of its chairs worked out; [`OrderReport`] is what it costs, when it is
//! ready, and how the price falls with the number of chairs.

mod breaks;
mod price;
mod read;

pub use breaks::{Break, PriceBreaks};
pub use price::{Made, OrderReport, OrderRow, timber_plan};
pub use read::{ORDER_FILE, ORDER_MARK, Order, OrderLine};

#[cfg(test)]
mod tests;
