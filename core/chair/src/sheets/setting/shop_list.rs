//! The sheet of gauge settings and cutters.

use super::curves::{Curve, curves};
use super::gauges::{Cutter, Setting, cutters, gauges};
use super::limits::CHOSEN;
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
    let curve = |curve: &Curve| {
        let radius = |radius: Option<f64>| radius.map_or_else(|| "–".to_owned(), |mm| lengths.tape(mm));
        let blade = curve.blade().map_or_else(|| "none: rasp it".to_owned(), |mm| lengths.say(mm));
        vec![curve.letter.clone(), curve.face.to_owned(), radius(curve.hollow), radius(curve.round), blade]
    };
    let rows: Vec<Vec<String>> = curves(subjects).iter().map(curve).collect();
    if !rows.is_empty() {
        let head =
            ["Part", "Drawn on", "Hollow, least radius", "Round, least radius", "Band saw blade, at most"];
        blocks.extend(table("Sawn curves", &head, &rows, width));
        let text = "A cutter with a bearing and a drum for a hollow must have a smaller radius than it; a spokeshave with a round sole goes into it, a flat one over a round. Widths of blades are common practice, no source: the chart of the blade's maker counts.";
        blocks.push(words(text, width));
    }
    blocks.push(Block { height: 2.0, ..Block::default() });
    blocks.push(words(CHOSEN, width));
    let caution = "Cutters injure: follow their makers' instructions, hold the work fast, and keep both hands behind the edge. Local rules and licensed practice come first.";
    blocks.push(Block { height: 2.0, ..Block::default() });
    blocks.push(words(caution, width));
    blocks
}
