//! What lies ready.

use super::Bench;
use crate::joint::{Joint, Kind};
use crate::shop::Method;

/// Widths of the cutters for these joints, such as `8 and 10 mm`.
pub(super) fn cutters<'a>(joints: impl Iterator<Item = &'a Joint>) -> String {
    let mut widths: Vec<f64> = joints.map(|joint| joint.mortise.thickness).collect();
    widths.sort_by(f64::total_cmp);
    widths.dedup_by(|a, b| (*a - *b).abs() < 0.05);
    let told: Vec<String> = widths.iter().map(|w| number(*w)).collect();
    if told.is_empty() { String::new() } else { format!("{} mm", crate::lists::and(&told)) }
}

/// With at most one decimal.
pub(super) fn number(v: f64) -> String {
    let text = format!("{v:.1}");
    text.strip_suffix(".0").map_or(text.clone(), str::to_owned)
}

/// For mortises, tenons, dowels and pegs, after how the workshop cuts them.
pub(super) fn for_joints(bench: &Bench<'_>) -> Vec<String> {
    let joints = &bench.chair.joints;
    let tenoned = cutters(joints.iter().filter(|joint| joint.kind != Kind::Dowels));
    let dowelled = cutters(joints.iter().filter(|joint| joint.kind == Kind::Dowels));
    let mut tools = vec!["marking gauge, knife and square".to_owned()];
    if !tenoned.is_empty() {
        tools.push(match bench.rates().map(|rates| rates.method) {
            Some(Method::Hand) => format!("mortise chisels {tenoned}, mallet, tenon saw, shoulder plane"),
            Some(Method::Router) => {
                format!("router with its jigs, cutters {tenoned}, tenon saw or router for tenons")
            }
            Some(Method::Machine) => {
                format!("mortiser with tools {tenoned}, tenoner or saw with a tenon jig")
            }
            None => format!("chisels or cutters {tenoned} for mortises"),
        });
    }
    if !dowelled.is_empty() {
        tools.push(format!("dowelling jig, drills {dowelled}"));
    }
    tools
}
