//! Pegs: how far they stand from the shoulder, the tenon's end and edges, and the host's far face.

use super::{About, COMMON, Told};
use crate::finding::{AtLeast, Finding};
use crate::joint::Peg;
use crestrail_geometry::Vec3;
use crestrail_phrases::{phrase, say};

const SHOULDER: &str = phrase("common practice, no source (one and a half to two pegs)");
const END: &str = phrase("common practice, no source (two pegs)");

impl About<'_> {
    pub(super) fn of_the_pegs(&self, pegged: bool) -> Vec<Finding> {
        let pegs = &self.joint.pegs;
        let missing = pegged && pegs.is_empty() && self.joint.kind.can_be_pegged() && !self.is_fill();
        let least = |of: fn(&Self, &Peg) -> Finding| {
            pegs.iter().map(|peg| of(self, peg)).max_by(|a, b| a.used.total_cmp(&b.used))
        };
        let found =
            [least(Self::to_shoulder), least(Self::to_end), least(Self::to_edge), least(Self::to_far_face)];
        found.into_iter().flatten().chain(missing.then(|| self.unpegged())).collect()
    }

    /// The hole in a drawn tenon stands nearer to the shoulder by the draw.
    fn to_shoulder(&self, peg: &Peg) -> Finding {
        let value = peg.from_face - peg.draw;
        let say = || say!("The peg's middle is {value:.0} mm from the shoulder; the peg is {} mm.", peg.size);
        let limit = AtLeast { sound: 1.5 * peg.size, close: 1.2 * peg.size };
        self.at_least(limit, Told { value, unit: "mm", say, source: SHOULDER, knob: "peg_size" })
    }

    fn to_end(&self, peg: &Peg) -> Finding {
        let value = self.joint.tenon.middle_length() - peg.from_face;
        let say =
            || say!("{value:.0} mm of the tenon stay behind the peg's middle; the peg is {} mm.", peg.size);
        let limit = AtLeast { sound: 2.0 * peg.size, close: 1.2 * peg.size };
        self.at_least(limit, Told { value, unit: "mm", say, source: END, knob: "peg_size" })
    }

    fn to_edge(&self, peg: &Peg) -> Finding {
        let room = |t: &crate::joint::Tongue| (peg.from_middle - t.y[0]).min(t.y[1] - peg.from_middle);
        let value = self.joint.tenon.tongues.iter().map(room).fold(0.0, f64::max);
        let say =
            || say!("{value:.0} mm of the tenon stay beside the peg's middle; the peg is {} mm.", peg.size);
        let limit = AtLeast { sound: 1.2 * peg.size, close: peg.size };
        self.at_least(limit, Told { value, unit: "mm", say, source: COMMON, knob: "peg_size" })
    }

    /// Along the tenon, to where the host ends.
    fn to_far_face(&self, peg: &Peg) -> Finding {
        let at = self.joint.mouth.point(Vec3::new(peg.from_face, peg.from_middle, 0.0));
        let exit = self.chair.part(self.joint.host).and_then(|host| host.exit(at, self.joint.mouth.x));
        let value = exit.map_or(0.0, |exit| exit.distance);
        let say = || say!("{value:.0} mm of the {} stay behind the peg's middle.", self.host_name());
        let limit = AtLeast { sound: 1.5 * peg.size, close: peg.size };
        self.at_least(limit, Told { value, unit: "mm", say, source: COMMON, knob: "peg_size" })
    }

    fn unpegged(&self) -> Finding {
        let value = self.joint.tenon.middle_length();
        let say = || {
            say!(
                "There is no room here for a peg that clears the shoulder, the tenon's end and what else is in the way; this joint is glued only."
            )
        };
        let told = Told { value: 0.9, unit: "mm", say, source: COMMON, knob: "peg_size" };
        let finding = self.at_least(AtLeast { sound: 1.0, close: 0.5 }, told);
        Finding { value, limit: value, ..finding }
    }
}
