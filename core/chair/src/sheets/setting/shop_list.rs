//! The sheet of gauge settings and cutters.

use super::gauges::{Cutter, Setting, cutters, gauges};
use super::subject::Subject;
use super::table::{Block, table, words};
use crate::chair::Chair;
use crate::length::Lengths;

/// Its blocks, `width` mm wide.
pub(super) fn blocks(chair: &Chair, subjects: &[Subject<'_>], lengths: Lengths, width: f64) -> Vec<Block> {
    let gauges = gauges(subjects);
    let mut blocks = vec![words(
        &format!(
            "Set each gauge once and mark everything in its row before it is changed. Distances run from the fence to the pin; of a mortise gauge to both pins. {} A left part takes the settings of its right twin.",
            lengths.rounding()
        ),
        width,
    )];
    let setting = |setting: &Setting| {
        let pins: Vec<String> = setting.pins.iter().map(|pin| lengths.write(*pin)).collect();
        let gauge = if pins.len() == 2 { "mortise gauge" } else { "marking gauge" };
        vec![gauge.to_owned(), pins.join(" and "), setting.from.clone(), setting.uses.join("; ")]
    };
    let rows: Vec<Vec<String>> = gauges.settings.iter().map(setting).collect();
    if !rows.is_empty() {
        let title = format!("Gauge settings, {}", lengths.unit());
        blocks.extend(table(&title, &["Gauge", "Set to", "Fence on", "Marks"], &rows, width));
    }
    if !gauges.drawn.is_empty() {
        let text = format!(
            "Not parallel to the face, so drawn from the figures with rule and bevel: {}.",
            gauges.drawn.join("; ")
        );
        blocks.push(Block { height: 2.0, ..Block::default() });
        blocks.push(words(&text, width));
    }
    let cutter = |cutter: &Cutter| {
        let [size, deepest] = [lengths.bought(cutter.size), lengths.write(cutter.deepest)];
        vec![size, cutter.tool.to_owned(), deepest, cutter.uses.join("; ")]
    };
    let rows: Vec<Vec<String>> = cutters(chair).iter().map(cutter).collect();
    if !rows.is_empty() {
        let title = format!("Cutters and bits, {}", lengths.unit());
        blocks.extend(table(&title, &["Size", "Tool", "Deepest cut", "For"], &rows, width));
    }
    let caution = "Cutters injure: follow their makers' instructions, hold the work fast, and keep both hands behind the edge. Local rules and licensed practice come first.";
    blocks.push(Block { height: 2.0, ..Block::default() });
    blocks.push(words(caution, width));
    blocks
}
