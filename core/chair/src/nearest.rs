//! The nearest design that can be built: for each knob that clashes, the smallest change of that
//! knob alone which works.

use crate::chair::Chair;
use crate::design::Design;
use crate::joints::Bench;
use crate::knob::{Kind, Knob};
use crate::refusal::Mend;
use crate::unbuildable::{Stage, Unbuildable};
use crestrail_phrases::{in_sentence, say};
use serde_json::Value;

/// Values tried on each side of the present one before the search closes in.
const TRIES: u32 = 24;

/// The least change of one clashing knob that makes the design buildable; changes are compared as
/// shares of the knob's whole range. `None` where no single knob helps.
pub fn mend(design: &Design, clash: &Unbuildable, bench: &Bench) -> Option<Mend> {
    let search = Search { design, bench, to_solids: clash.stage == Stage::Solids };
    let found =
        clash.knobs.iter().filter_map(|name| search.knob(design.knobs().iter().find(|k| k.name == *name)?));
    let (knob, value, _) = found.min_by(|a, b| a.2.total_cmp(&b.2))?;
    let sign = match knob.kind {
        Kind::Range { unit, .. } => unit.sign(),
        Kind::Count { .. } | Kind::Choice { .. } => "",
    };
    let say = say!("Set {} to {value}{sign}", in_sentence(knob.label));
    let value = if value.fract() == 0.0 { (value as i64).into() } else { value.into() };
    Some(Mend { knob: knob.name.to_owned(), value, say })
}

struct Search<'a> {
    design: &'a Design,
    bench: &'a Bench,
    /// Whether it was the solids that could not be worked out.
    to_solids: bool,
}

type Found = (&'static Knob, f64, f64);

impl Search<'_> {
    /// The nearest working value of one knob and how far away it is.
    fn knob(&self, knob: &'static Knob) -> Option<Found> {
        let (min, max, step) = match knob.kind {
            Kind::Range { min, max, step, .. } => (min, max, step),
            Kind::Count { min, max, .. } => (min.into(), max.into(), 1.0),
            Kind::Choice { .. } => return None,
        };
        let now = self.design.to_map().get(knob.name)?.as_f64()?;
        let ways = [min, max].map(|end| self.toward(knob, now, end, step));
        let found = ways.into_iter().flatten().min_by(|a, b| (a - now).abs().total_cmp(&(b - now).abs()))?;
        Some((knob, found, (found - now).abs() / (max - min)))
    }

    /// Goes from `now` to `end` in coarse strides until something works, then closes in by halves.
    fn toward(&self, knob: &Knob, now: f64, end: f64, step: f64) -> Option<f64> {
        let steps = ((end - now).abs() / step).floor() as i64;
        let at = |i: i64| ((now + (end - now).signum() * step * i as f64) / step).round() * step;
        let stride = (steps / i64::from(TRIES)).max(1);
        let first = (1..).map(|k| (k * stride).min(steps)).take_while(|i| *i > 0);
        let mut works = None;
        for i in first {
            if self.works(knob, at(i)) {
                works = Some(i);
                break;
            }
            if i == steps {
                break;
            }
        }
        let (mut good, mut bad) = (works?, (works? - stride).max(0));
        while good - bad > 1 {
            let middle = (good + bad) / 2;
            if self.works(knob, at(middle)) { good = middle } else { bad = middle }
        }
        Some(at(good))
    }

    fn works(&self, knob: &Knob, value: f64) -> bool {
        let design = self.design.with(knob.name, &Value::from(value));
        design.is_ok_and(|design| match self.to_solids {
            true => Chair::resolve(&design, self.bench).is_ok(),
            false => Chair::check(&design, self.bench).is_ok(),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    /// A shop whose one cutter is too wide for thin laths.
    fn eight() -> Bench {
        Bench { cutters: crate::joints::Cutters::new(&[8.0]), ..Bench::default() }
    }

    fn thin_laths() -> Design {
        Design::from_value(&json!({"back": "laths", "fill_thickness": 8})).unwrap()
    }

    #[test]
    fn laths_too_thin_for_the_cutter_are_mended_by_the_nearest_value() {
        let clash = Chair::check(&thin_laths(), &eight()).unwrap_err();
        let mend = mend(&thin_laths(), &clash, &eight()).unwrap();
        assert_eq!((mend.knob.as_str(), &mend.value), ("fill_thickness", &json!(10)), "{}", mend.say);
    }

    #[test]
    fn a_little_nearer_still_clashes() {
        let clash = Chair::check(&thin_laths(), &eight()).unwrap_err();
        let mend = mend(&thin_laths(), &clash, &eight()).unwrap();
        let (now, then) = (8.0_f64, mend.value.as_f64().unwrap());
        let still = thin_laths().with(&mend.knob, &json!(then - (then - now).signum())).unwrap();
        assert!(Chair::check(&still, &eight()).is_err(), "{}", mend.say);
    }
}
