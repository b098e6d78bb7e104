//! Whether each mortise leaves its host whole, and each tenon is long enough and can be pegged.

use crate::chair::Chair;
use crate::finding::{AtLeast, Finding};
use crate::joint::Joint;
use crate::joints::{rules, section_knobs};
use crate::part::Side;

const COMMON: &str = "common practice, no source";
const MITRED: &str = "common practice, no source (a mitred tenon reaches about two thirds into its leg); capacity grows with length: Kasal et al. 2015, BioResources 10(4):7009";

pub(super) fn findings(chair: &Chair, pegged: bool) -> Vec<Finding> {
    let right = chair.joints.iter().filter(|joint| joint.host.side != Side::Left);
    right.flat_map(|joint| of(chair, joint, pegged)).collect()
}

fn of(chair: &Chair, joint: &Joint, pegged: bool) -> Vec<Finding> {
    let about = About { joint, subject: subject(joint) };
    let wanted = pegged && joint.pegs.is_empty() && joint.kind.can_be_pegged();
    let unpegged = wanted.then(|| about.unpegged());
    [Some(about.wall()), Some(about.end()), about.depth(chair), Some(about.width()), unpegged]
        .into_iter()
        .flatten()
        .collect()
}

/// Such as `side rail in back leg`; back slats, which may differ, with their number.
fn subject(joint: &Joint) -> String {
    let number = if joint.guest.role == crate::part::Role::BackSlat {
        format!(" {}", joint.guest.number)
    } else {
        String::new()
    };
    format!("{}{number} in {}", joint.guest.role.name(), joint.host.role.name())
}

struct About<'a> {
    joint: &'a Joint,
    subject: String,
}

impl About<'_> {
    fn wall(&self) -> Finding {
        let value = self.joint.mortise.wall;
        let say = format!("{value:.1} mm of the leg stay beside and behind the mortise.");
        let say = say.replace("the leg", &format!("the {}", self.joint.host.role.name()));
        self.at_least(
            AtLeast { sound: rules::LEAST_WALL, close: 4.0 },
            value,
            "mm",
            say,
            COMMON,
            self.host_knob(),
        )
    }

    fn end(&self) -> Finding {
        let value = self.joint.mortise.from_end;
        let say = format!(
            "{value:.0} mm of the {} stay between the mortise and its end.",
            self.joint.host.role.name()
        );
        let knob =
            if self.joint.guest.role == crate::part::Role::BackSlat { "back_top" } else { "rail_width" };
        self.at_least(AtLeast { sound: rules::LEAST_END, close: 8.0 }, value, "mm", say, COMMON, knob)
    }

    /// How deep the tenon reaches into its host, in the middle of its thickness.
    fn depth(&self, chair: &Chair) -> Option<Finding> {
        let joint = self.joint;
        let host = chair.part(joint.host)?;
        let inside = joint.mouth.point(crestrail_geometry::Vec3::X * 1e-3);
        let across = host.exit(inside, joint.mouth.x)?.distance;
        let value = joint.tenon.middle_length() / across;
        let say = format!(
            "The tenon is {:.0} mm long in the middle, {:.0} % of the {:.0} mm of the {}.",
            joint.tenon.middle_length(),
            value * 100.0,
            across,
            joint.host.role.name()
        );
        Some(self.at_least(AtLeast { sound: 0.5, close: 0.4 }, value, "", say, MITRED, self.host_knob()))
    }

    fn width(&self) -> Finding {
        let width = self.joint.tenon.width;
        let limit = AtLeast { sound: 1.0, close: 0.75 };
        let room = rules::WIDEST_TENON * 0.75 / width;
        let say = format!(
            "The tenon is {width:.0} mm wide; wide ones shrink away from the long grain of the leg or split it."
        );
        let finding = self.at_least(
            limit,
            room,
            "mm",
            say,
            "common practice, no source (75 to 100 mm)",
            self.guest_knob(),
        );
        Finding { value: width, limit: rules::WIDEST_TENON * 0.75, ..finding }
    }

    fn unpegged(&self) -> Finding {
        let value = self.joint.tenon.middle_length();
        let say = "There is no room here for a peg that clears the shoulder, the tenon's end and what else is in the way; this joint is glued only.".to_owned();
        let finding = self.at_least(AtLeast { sound: 1.0, close: 0.5 }, 0.9, "mm", say, COMMON, "peg_size");
        Finding { value, limit: value, ..finding }
    }

    fn host_knob(&self) -> &'static str {
        section_knobs(self.joint.host.role)[0]
    }

    fn guest_knob(&self) -> &'static str {
        let knobs = section_knobs(self.joint.guest.role);
        knobs[knobs.len() - 1]
    }

    fn at_least(
        &self,
        limit: AtLeast,
        value: f64,
        unit: &'static str,
        say: String,
        source: &'static str,
        knob: &'static str,
    ) -> Finding {
        Finding {
            subject: self.subject.clone(),
            knob: Some(knob),
            say,
            value,
            limit: limit.sound,
            unit,
            verdict: limit.verdict(value),
            used: limit.used(value),
            source,
        }
    }
}
