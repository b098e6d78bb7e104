//! The back between the back legs.

mod crest;
mod fill;
mod panel;
mod rails;
mod slats;

use super::maker::Maker;
use crate::choices::Back;

/// What fills the back of every bay.
pub(super) fn make(maker: &mut Maker<'_>) {
    let Some(back) = &maker.lines.back else { return };
    match maker.design.back() {
        Back::Slats => slats::make(maker, back),
        Back::Laths => rails::make(maker, back, fill::laths),
        Back::Splat => rails::make(maker, back, fill::splat),
        Back::Panel => rails::make(maker, back, panel::make),
        Back::Open => {}
    }
}
