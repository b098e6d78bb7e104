//! The back between the back legs.

mod slats;

use super::maker::Maker;
use crate::choices::Back;

/// What fills the back of every bay.
pub(super) fn make(maker: &mut Maker<'_>) {
    match maker.design.back() {
        Back::Slats => slats::make(maker),
        Back::Laths | Back::Splat | Back::Panel | Back::Open => {}
    }
}
