//! Whether cord has room on its rails.

use crate::chair::Chair;
use crate::finding::{About, AtLeast, Finding, Topic, Verdict};
use crate::material::Material;
use crate::part::{Role, Side};
use crestrail_geometry::Vec3;
use crestrail_phrases::{phrase, say, word};

/// Whether the rails lie so far behind the faces of the legs that the cord on them does not stand out.
pub(super) fn finding(chair: &Chair) -> Option<Finding> {
    let thickness = chair.parts.iter().find_map(|part| match part.material {
        Material::Cord { thickness, .. } => Some(thickness),
        _ => None,
    })?;
    let outer = [(Role::FrontRail, -Vec3::Y), (Role::SideRail, Vec3::X)];
    let value =
        outer.into_iter().filter_map(|(role, out)| set_back(chair, role, out)).min_by(f64::total_cmp)?;
    let limit = AtLeast { sound: thickness - LEVEL, close: 0.0 };
    let say = match limit.verdict(value) {
        Verdict::Sound => {
            say!("The rails lie {value:.1} mm behind the legs; cord of {thickness} mm does not stand out.")
        }
        _ => say!(
            "The rails lie {value:.1} mm behind the legs; cord of {thickness} mm stands out from the legs' faces by {:.1} mm.",
            thickness - value
        ),
    };
    Some(Finding {
        subject: word("cord round the rails").to_owned(),
        topic: Topic::Making,
        about: About::Chair,
        plain: String::new(),
        knob: Some("set_back"),
        say,
        value,
        limit: thickness,
        unit: "mm",
        verdict: limit.verdict(value),
        used: limit.used(value),
        source: phrase("common practice, no source"),
    })
}

/// Sizes are compared to this, mm.
const LEVEL: f64 = 1e-6;

/// How far from the shoulder leg and rail are measured, so that a slanting rail stays beside them, mm.
const INSIDE: f64 = 5.0;

/// How far the outer face of a rail lies behind the face of the front leg that it joins, mm.
fn set_back(chair: &Chair, role: Role, out: Vec3) -> Option<f64> {
    let joint = chair.joints.iter().find(|j| {
        j.guest.role == role
            && j.guest.side != Side::Left
            && j.host.role == Role::FrontLeg
            && j.host.number == 1
    })?;
    let (rail, leg) = (chair.part(joint.guest)?, chair.part(joint.host)?);
    let (mouth, inside) = (joint.mouth.origin, joint.mouth.x * INSIDE);
    let face = leg.exit(mouth + inside, out)?.distance;
    Some(face - rail.exit(mouth - inside, out)?.distance)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;
    use crate::joints::Bench;
    use serde_json::json;

    fn chair(values: serde_json::Value) -> Chair {
        Chair::resolve(&Design::from_value(&values).unwrap(), &Bench::default()).unwrap()
    }

    /// Cord stands out by as much as it is thicker than the rails are set back.
    #[test]
    fn thick_cord_on_flush_rails_stands_out() {
        for (set_back, thickness, verdict) in
            [(4.0, 4.0, Verdict::Sound), (2.0, 3.0, Verdict::Close), (5.0, 6.0, Verdict::Close)]
        {
            let found =
                finding(&chair(json!({"seat": "cord", "set_back": set_back, "cord": thickness}))).unwrap();
            assert!((found.value - set_back).abs() < 0.5, "{}", found.say);
            assert_eq!(found.verdict, verdict, "{}", found.say);
        }
    }
}
