//! Wishes of the maker that had no room.

use super::{About, COMMON, Told};
use crate::finding::{AtLeast, Finding};
use crate::part::Role;

impl About<'_> {
    /// A kind of joint that was wished and gave way.
    pub(super) fn given_way(&self) -> Option<Finding> {
        let why = self.joint.given_way.as_ref()?;
        let say = || why.clone();
        let told = Told { value: 0.9, unit: "", say, source: COMMON, knob: self.kind_knob() };
        let finding = self.at_least(AtLeast { sound: 1.0, close: 0.5 }, told);
        Some(Finding { value: 0.0, limit: 0.0, ..finding })
    }

    /// The knob that asks for the kind.
    fn kind_knob(&self) -> &'static str {
        match self.joint.guest.role {
            Role::FrontRail | Role::SideRail | Role::BackRail => "rail_joint",
            Role::SideStretcher | Role::CrossStretcher | Role::FrontStretcher | Role::BackStretcher => {
                "stretcher_joint"
            }
            Role::Arm | Role::ArmPost | Role::FrontLeg => "arm_joint",
            _ => "back_joint",
        }
    }
}
