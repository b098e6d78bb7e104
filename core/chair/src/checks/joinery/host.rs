//! What stays of the host: beside, behind and beyond the mortise.

use super::{About, COMMON, Told};
use crate::finding::{AtLeast, Finding};
use crate::joints::rules;
use crestrail_phrases::say;

impl About<'_> {
    pub(super) fn of_the_host(&self) -> Vec<Finding> {
        vec![self.wall(), self.end()]
    }

    /// Thin rails of a back hold laths that carry little, so less will do there.
    fn wall(&self) -> Finding {
        let limit = if self.is_fill() {
            AtLeast { sound: 3.0, close: rules::NO_WALL }
        } else {
            AtLeast { sound: rules::LEAST_WALL, close: rules::CLOSE_WALL }
        };
        let value = self.joint.mortise.wall;
        let say = || say!("{value:.1} mm of the {} stay beside and behind the mortise.", self.host_name());
        self.at_least(limit, Told { value, unit: "mm", say, source: COMMON, knob: self.host_knob() })
    }

    fn end(&self) -> Finding {
        let value = self.joint.mortise.from_end;
        let say = || say!("{value:.0} mm of the {} stay between the mortise and its end.", self.host_name());
        let back =
            matches!(self.joint.guest.role, crate::part::Role::BackSlat | crate::part::Role::CrestRail);
        let knob = if back { "back_top" } else { "rail_width" };
        let limit = AtLeast { sound: rules::LEAST_END, close: 8.0 };
        self.at_least(limit, Told { value, unit: "mm", say, source: COMMON, knob })
    }
}
