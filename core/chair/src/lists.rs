//! Lists: what to cut, and what timber to buy for it.

mod areas;
mod assembly_steps;
mod cautions;
mod cutting_list;
mod joint_list;
mod mirror;
mod seat_notes;
mod size;
mod spoken;
mod timber;

pub(crate) use areas::ledges;
pub use areas::{exposed_area, glued_area};
pub use assembly_steps::{AssemblyRow, assembly_steps};
pub use cautions::{cautions, customer_cautions};
pub(crate) use cutting_list::is_sawn_from_board;
pub use cutting_list::{CuttingRow, cutting_list};
pub use joint_list::{JointRow, joint_list};
pub(crate) use mirror::is_own_mirror_image;
pub(crate) use size::tenths;
pub use size::{Allowances, Finished, Rough};
pub(crate) use spoken::{and, letters};
pub use timber::{Bought, Timber, TimberLine, timber};
pub(crate) use timber::{CUBIC_METRE, sawn_thickness, thickness_words, timber_from};

#[cfg(test)]
pub(crate) mod sample;
