//! Which sheets somebody asks for, and on what paper.

use super::FullSize;
use crate::refusal::Refusal;
use crestrail_sheet::paper::{PAPERS, Paper};
use crestrail_sheet::tiling::Layout;
use kurbo::Size;
use serde::Serialize;

/// The name that means all sheets.
const ALL: &str = "sheets";

/// A drawing in the list of what there is.
#[derive(Clone, Debug, Serialize)]
pub struct Listed {
    /// Its name in requests.
    pub name: String,
    /// Its name for people.
    pub title: String,
    /// Width, mm.
    pub width: f64,
    /// Height, mm.
    pub height: f64,
    /// How many sheets of each paper it takes.
    pub pages: Vec<Pages>,
}

/// A paper, and how many sheets of it.
#[derive(Clone, Debug, Serialize)]
pub struct Pages {
    /// The paper's name in requests.
    pub paper: &'static str,
    /// Its name for people.
    pub label: &'static str,
    /// How many sheets.
    pub count: usize,
}

/// What there is to choose from.
pub fn listed(drawings: &[FullSize]) -> Vec<Listed> {
    let pages = |size: Size| {
        let of = |paper: &'static Paper| Pages {
            paper: paper.name,
            label: paper.label,
            count: Layout::of(size, paper).count(),
        };
        PAPERS.iter().map(of).collect()
    };
    let row = |drawing: &FullSize| {
        let (width, height) = (drawing.sheet.width, drawing.sheet.height);
        let pages = pages(Size::new(width, height));
        Listed { name: drawing.name.clone(), title: drawing.title.clone(), width, height, pages }
    };
    drawings.iter().map(row).collect()
}

/// The drawings that a name means: `sheets` all of them; `template`, `rod`, `setting`, `gauges`, `labels` all of that kind;
/// `template-B` one.
pub fn chosen(drawings: Vec<FullSize>, name: &str) -> Result<Vec<FullSize>, Refusal> {
    let of_kind = |drawing: &FullSize| drawing.name.split_once('-').is_some_and(|(kind, _)| kind == name);
    let wanted = |drawing: &FullSize| name == ALL || drawing.name == name || of_kind(drawing);
    let names: Vec<String> = drawings.iter().map(|drawing| drawing.name.clone()).collect();
    let found: Vec<FullSize> = drawings.into_iter().filter(wanted).collect();
    if found.is_empty() {
        let names = names.join(", ");
        return Err(Refusal::new(
            "sheet",
            format!(
                "This chair has no such sheet. Ask for sheets, template, rod, setting, gauges, labels, or one of {names}."
            ),
        ));
    }
    Ok(found)
}

/// The paper with this name.
pub fn paper(name: &str) -> Result<&'static Paper, Refusal> {
    Paper::named(name).ok_or_else(|| {
        let names: Vec<&str> = PAPERS.iter().map(|paper| paper.name).collect();
        Refusal::new("paper", format!("This paper is not known. Choose one of: {}.", names.join(", ")))
    })
}
