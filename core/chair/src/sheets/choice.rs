//! Which sheets somebody asks for, and on what paper.

use super::{FullSize, scaled};
use crate::chair::Chair;
use crate::refusal::Refusal;
use crestrail_phrases::say;
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
    /// Width, mm; of a drawing to a scale 0.
    pub width: f64,
    /// Height, mm; of a drawing to a scale 0.
    pub height: f64,
    /// Whether it is drawn to a scale that suits the paper, and not at full size.
    pub scaled: bool,
    /// Whether it is at full size, to be measured and laid on timber: such paper must be printed at 100 %.
    pub full_size: bool,
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

/// What there is to choose from: the drawing to a scale, what is at full size, then what is worked from by figures.
pub fn listed(chair: &Chair, drawings: &[FullSize]) -> Vec<Listed> {
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
        let (name, title) = (drawing.name.clone(), drawing.title.clone());
        Listed { name, title, width, height, scaled: false, full_size: drawing.is_full_size, pages }
    };
    scaled::names(chair).into_iter().map(to_scale).chain(drawings.iter().map(row)).collect()
}

/// A sheet of the drawing: one of whatever paper.
fn to_scale((name, title): (&str, &str)) -> Listed {
    let of = |paper: &'static Paper| Pages { paper: paper.name, label: paper.label, count: 1 };
    let pages = PAPERS.iter().map(of).collect();
    Listed {
        name: name.to_owned(),
        title: title.to_owned(),
        width: 0.0,
        height: 0.0,
        scaled: true,
        full_size: false,
        pages,
    }
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
                "This chair has no such sheet. Ask for drawing, sheets, template, rod, setting, gauges, labels, or one of {names}."
            ),
        ));
    }
    Ok(found)
}

/// Refuses paper on which no pages are read: a roll, and sheets for large drawings.
pub fn of_pages(paper: &Paper) -> Result<(), Refusal> {
    if paper.is_page() {
        return Ok(());
    }
    let pages: Vec<&str> = PAPERS.iter().filter(|paper| paper.is_page()).map(|paper| paper.label).collect();
    let why = say!("This is printed on pages, not on {}. Choose one of: {}.", paper.label, pages.join(", "));
    Err(Refusal::new("paper", why))
}

/// The paper with this name.
pub fn paper(name: &str) -> Result<&'static Paper, Refusal> {
    Paper::named(name).ok_or_else(|| {
        let names: Vec<&str> = PAPERS.iter().map(|paper| paper.name).collect();
        Refusal::new("paper", format!("This paper is not known. Choose one of: {}.", names.join(", ")))
    })
}
