//! What lies ready.

use super::Bench;
use crate::joint::{Joint, Kind};
use crate::length::Lengths;
use crate::shop::Method;

/// Widths of the cutters for these joints, such as `8 mm and 10 mm`; nothing where there are none.
fn cutters<'a>(lengths: Lengths, joints: impl Iterator<Item = &'a Joint>) -> String {
    let mut widths: Vec<f64> = joints.map(|joint| joint.mortise.thickness).collect();
    widths.sort_by(f64::total_cmp);
    widths.dedup_by(|a, b| (*a - *b).abs() < 0.05);
    crate::lists::and(&widths.iter().map(|width| lengths.tool(*width)).collect::<Vec<_>>())
}

/// For mortises, tenons, dowels and pegs, after how the workshop cuts them.
pub(super) fn for_joints(bench: &Bench<'_>) -> Vec<String> {
    let joints = &bench.chair.joints;
    let tenoned = cutters(bench.lengths, joints.iter().filter(|joint| joint.kind != Kind::Dowels));
    let dowelled = cutters(bench.lengths, joints.iter().filter(|joint| joint.kind == Kind::Dowels));
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
