//! A design turned into another kind of chair, and what of it could not be kept.

use crate::design::Design;
use crate::refusal::Refusal;
use serde::Serialize;
use serde_json::{Map, Value};

/// A design of another kind of chair.
#[derive(Clone, Debug)]
pub struct Turned {
    /// The design; knobs that had been changed keep their values where the new kind allows them.
    pub design: Design,
    /// What had been changed and could not be kept, in the order of the knobs.
    pub dropped: Vec<Dropped>,
}

/// A changed value that another kind of chair does not allow.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Dropped {
    /// The knob.
    pub knob: &'static str,
    /// Its value before.
    pub was: Value,
    /// Its value now, the first one of the new kind.
    pub now: Value,
}

/// Turns `design` into a chair of the kind that is named.
pub fn turn(design: &Design, family: &Value) -> Result<Turned, Refusal> {
    let turned = design.with("family", family)?;
    let values = turned.to_map();
    let changed = design.differences().into_iter().filter(|(name, _)| *name != "family");
    let dropped = changed.filter_map(|(knob, was)| dropped(knob, was, &values)).collect();
    Ok(Turned { design: turned, dropped })
}

fn dropped(knob: &'static str, was: Value, values: &Map<String, Value>) -> Option<Dropped> {
    let now = values.get(knob).filter(|now| **now != was)?;
    Some(Dropped { knob, was, now: now.clone() })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::choices::{Choice, Family};
    use serde_json::json;

    #[test]
    fn values_that_fit_are_kept_and_the_others_named() {
        let values = json!({ "seat_height": 470, "rail_thickness": 26, "species": "oak_white" });
        let design = Design::from_value(&values).unwrap();
        let Turned { design, dropped } = turn(&design, &json!("bar_chair")).unwrap();
        assert_eq!(design.family(), Family::BarChair);
        let map = design.to_map();
        assert_eq!((&map["rail_thickness"], &map["species"]), (&json!(26.0), &json!("oak_white")));
        let seat = Dropped { knob: "seat_height", was: json!(470.0), now: json!(760.0) };
        assert_eq!(dropped, [seat]);
    }

    #[test]
    fn a_new_design_loses_nothing_and_comes_back() {
        for (family, pick) in Family::ALL {
            let Turned { design, dropped } = turn(&Design::default(), &json!(pick.name)).unwrap();
            assert_eq!((&design, dropped.len()), (&Design::of(*family), 0), "{family:?}");
            assert_eq!(turn(&design, &json!("side_chair")).unwrap().design, Design::default());
        }
    }

    #[test]
    fn an_unknown_kind_is_refused() {
        assert_eq!(turn(&Design::default(), &json!("sofa")).unwrap_err().where_, "family");
    }
}
