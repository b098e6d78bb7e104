//! Sheets for the bench, at full size: a template for each part that is more than a plain bar, and the rod, which is the
//! whole chair from the front, from the side and from above. They are drawings in millimetres; `print` lays them over
//! paper. And the order of work (`work`): pages with a picture of each step, and a card to pin up.

mod choice;
mod dimension;
mod hatch;
mod heights;
mod look;
mod marks;
mod notes;
mod pens;
mod print;
mod rod;

mod roll;
mod scaled;
pub mod setting;
mod spread;
mod template;
mod work;

#[cfg(test)]
mod tests;

pub use choice::{Listed, Pages, chosen, listed, of_pages, paper};
pub use print::{Print, bound, print};
pub use rod::rod;
pub use scaled::{Label, Measure, Order, drawing, is_drawing, measures, view_edges};
pub use template::templates;
pub use work::{Bound, WorkSheets, bound_work, one_below_the_other, work_card, work_pages};

use crate::chair::Chair;
use crate::length::Lengths;
use crate::unbuildable::Unbuildable;
use crestrail_sheet::Sheet;

/// A drawing for the bench, in millimetres of paper.
#[derive(Clone, Debug)]
pub struct FullSize {
    /// Its name in requests and files: `template-B`, `rod-front`.
    pub name: String,
    /// Its name for people.
    pub title: String,
    /// Whether it is drawn at full size, to be measured and laid on timber.
    pub is_full_size: bool,
    /// The drawing.
    pub sheet: Sheet,
}

/// All of a chair, with figures in these lengths: templates in the order of the letters, the rod, then the setting-out
/// sheets.
pub fn full_size(chair: &Chair, lengths: Lengths) -> Result<Vec<FullSize>, Unbuildable> {
    let mut sheets = templates(chair, lengths)?;
    sheets.extend(rod(chair, lengths)?);
    sheets.extend(setting::setting_out(chair, lengths)?);
    Ok(sheets)
}
