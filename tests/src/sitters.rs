//! People's sizes.

use crate::Refused;
use crestrail_chair::reading::{Fields, Limits};
use crestrail_sitter::{Rule, Sex, Sitter, Suits, suits};
use serde_json::{Value, json};

/// Rules by the names of a request.
const RULES: [(&str, Rule); 9] = [
    ("seat_height", Rule::SeatHeight),
    ("seat_depth", Rule::SeatDepth),
    ("seat_width", Rule::SeatWidth),
    ("between_arms", Rule::BetweenArms),
    ("arm_height", Rule::ArmHeight),
    ("lumbar_height", Rule::LumbarHeight),
    ("seat_to_table", Rule::SeatToTable),
    ("thigh_room", Rule::ThighRoom),
    ("knee_room", Rule::KneeRoom),
];
const SEXES: [(&str, Sex); 2] = [("female", Sex::Female), ("male", Sex::Male)];

const VALUE: Limits = Limits { label: "The size", min: -1000.0, max: 3000.0, unit: " mm" };
const STATURE: Limits = Limits { label: "The stature", min: 0.0, max: 3000.0, unit: " mm" };
const WEIGHT: Limits = Limits { label: "The weight", min: 0.0, max: 500.0, unit: " kg" };
const MARK: Limits = Limits { label: "The size mark", min: 0.0, max: 255.0, unit: "" };

/// How one size suits a sitter.
pub(crate) fn sitter(fields: &Fields<'_>) -> Result<Value, Refused> {
    let rule = fields.choice("rule", &RULES)?;
    let value = fields.number("value", &VALUE)?;
    let answer = suits(rule, value, who(fields)?).map_err(|why| Refused::new("sitter", format!("{why}.")))?;
    let told = match answer.suits {
        Suits::Shares { women, men } => json!({"women": women.percent(), "men": men.percent(),
            "says": {"women": women.to_string(), "men": men.to_string()}}),
        Suits::Person { aim, chance, body } => json!({"at_least": aim.at_least, "at_most": aim.at_most,
            "people": chance.percent(), "mean": body.mean, "sd": body.sd, "stretched": body.stretched}),
        Suits::Size { range, holds } => {
            json!({"at_least": range.at_least, "at_most": range.at_most, "holds": holds})
        }
    };
    Ok(
        json!({"suits": told, "rule": rule.says(), "source": answer.rule.text, "figures": answer.figures.map(|s| s.text)}),
    )
}

/// Grown-ups in general, unless a `stature`, a `child` (its stature) or a `mark` is given.
fn who(fields: &Fields<'_>) -> Result<Sitter, Refused> {
    let optional = |name, limits| fields.has(name).then(|| fields.number(name, limits)).transpose();
    if let Some(mm) = optional("stature", &STATURE)? {
        let sex = fields.has("sex").then(|| fields.choice("sex", &SEXES)).transpose()?;
        return Ok(Sitter::Stature { mm, sex, weight_kg: optional("weight", &WEIGHT)? });
    }
    if let Some(stature_mm) = optional("child", &STATURE)? {
        return Ok(Sitter::Child { stature_mm });
    }
    Ok(optional("mark", &MARK)?.map_or(Sitter::Adults, |mark| Sitter::School { mark: mark as u8 }))
}
