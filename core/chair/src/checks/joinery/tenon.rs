//! The tenon itself: how deep it goes, how wide it is, how it runs to the grain.

use super::{About, COMMON, Told};
use crate::finding::{AtLeast, AtMost, Finding};
use crate::joint::{Kind, Way};
use crate::joints::rules;
use crate::meeting::SHORT_GRAIN_LIMIT;
use crate::part::Role;
use crestrail_geometry::Vec3;
use crestrail_geometry::math::degrees;
use crestrail_phrases::{phrase, say};

const DEPTH: &str = phrase(
    "common practice, no source (a mitred tenon reaches about two thirds into its leg); capacity grows with length: Kasal et al. 2015, BioResources 10(4):7009",
);
const SLAT_DEPTH: &str =
    phrase("common practice, no source (slats that carry the back only go 20 mm into a leg of 50 mm)");
const DOWEL_DEPTH: &str = phrase("common practice, no source (20 to 30 mm in each part)");

/// An angle that is not worth a word, degrees.
const SLIGHT: f64 = 1.0;

impl About<'_> {
    pub(super) fn of_the_tenon(&self) -> Vec<Finding> {
        let depth = match self.joint.kind {
            Kind::Dowels => Some(self.dowel_depth()),
            Kind::Through => None,
            _ => self.depth(),
        };
        [depth, self.short(), self.width(), self.grain()].into_iter().flatten().collect()
    }

    /// How deep the tenon reaches into its host, in the middle of its thickness. Of two from opposite sides each
    /// has only its half.
    fn depth(&self) -> Option<Finding> {
        let joint = self.joint;
        let inside = joint.mouth.point(Vec3::X * 1e-3);
        let across = self.chair.part(joint.host)?.exit(inside, joint.mouth.x)?.distance;
        let length = joint.tenon.middle_length();
        let value = length / across;
        let say = || {
            say!(
                "The tenon is {length:.0} mm long in the middle, {:.0} % of the {across:.0} mm of the {}.",
                value * 100.0,
                self.host_name()
            )
        };
        let half = joint.corners.iter().any(|corner| corner.way == Way::EndToEnd);
        let (limit, source) = match joint.guest.role {
            _ if half => (AtLeast { sound: 0.4, close: 0.3 }, DEPTH),
            Role::BackSlat => (AtLeast { sound: 0.5, close: 0.35 }, SLAT_DEPTH),
            _ => (AtLeast { sound: 0.5, close: 0.4 }, DEPTH),
        };
        let told = Told { value, unit: "", say, source, knob: self.host_knob() };
        (!self.is_fill()).then(|| self.at_least(limit, told))
    }

    fn dowel_depth(&self) -> Finding {
        let value = self.joint.tenon.length;
        let say = || say!("The dowels go {value:.0} mm into the {}.", self.host_name());
        let told = Told { value, unit: "mm", say, source: DOWEL_DEPTH, knob: self.host_knob() };
        self.at_least(AtLeast { sound: 20.0, close: 12.0 }, told)
    }

    /// A tenon that had to become very short.
    fn short(&self) -> Option<Finding> {
        let value = self.joint.tenon.middle_length();
        let say =
            || say!("The tenon had to be {value:.0} mm short to have room in the {}.", self.host_name());
        let told = Told { value, unit: "mm", say, source: COMMON, knob: self.host_knob() };
        let limit = AtLeast { sound: rules::LEAST_TENON, close: rules::SHORTEST };
        (value < rules::LEAST_TENON).then(|| self.at_least(limit, told))
    }

    fn width(&self) -> Option<Finding> {
        let value = self.joint.tenon.tongues.iter().map(|t| t.width()).fold(0.0, f64::max);
        let say = || {
            say!(
                "The tenon is {value:.0} mm wide; wide ones shrink away from the long grain of the {} or split it.",
                self.host_name()
            )
        };
        let source = phrase("common practice, no source (75 to 100 mm)");
        let told = Told { value, unit: "mm", say, source, knob: self.guest_knob() };
        let limit = AtMost { sound: rules::TWIN_FROM, close: rules::WIDEST_TENON };
        (self.joint.kind != Kind::Dowels).then(|| self.at_most(limit, told))
    }

    /// A tenon at an angle to its own grain breaks more easily.
    fn grain(&self) -> Option<Finding> {
        let value = degrees(self.joint.tenon.to_grain);
        let say = || {
            say!(
                "The tenon runs {value:.1}° across the grain of its own piece; past {SHORT_GRAIN_LIMIT:.0}° it would break easily."
            )
        };
        let knob = "narrowing";
        let told = Told { value, unit: "°", say, source: COMMON, knob };
        let limit = AtMost { sound: SHORT_GRAIN_LIMIT, close: SHORT_GRAIN_LIMIT + 5.0 };
        (value > SLIGHT && !self.joint.kind.is_separate()).then(|| self.at_most(limit, told))
    }
}
