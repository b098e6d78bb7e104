//! What was checked and found, as a chapter.

use super::Content;
use super::chapter::Chapter;
use crate::export::set::{AFTER, BODY, Set, columns};
use crate::finding::{Finding, Verdict};
use crate::refusal::Refusal;
use crestrail_sheet::setting::{Cell, Piece, table};

/// How far the findings go.
const NOT_A_TEST: &str = "Worked out from the drawing by the rules that are named, the worst first; a figure is no test. A chair that breaks or tips hurts somebody: build a trial chair and have it tested after the standard for its use. Local rules and licensed practice come first.";

/// The headings, worst first.
const VERDICTS: [(Verdict, &str); 3] =
    [(Verdict::Fails, "Fails"), (Verdict::Close, "Close to the limit"), (Verdict::Sound, "Sound")];

/// What was checked: what fails, what is close, what is sound.
pub(super) fn findings(content: &Content<'_>) -> Result<Vec<Chapter>, Refusal> {
    let all = &content.report.findings;
    if all.is_empty() {
        return Ok(vec![Chapter::left_out("Findings", "Nothing of this chair could be checked.")]);
    }
    let frame = content.frame(false);
    let set = Set { width: frame.room().0, faces: content.faces };
    let mut pieces = set.opening("Findings", NOT_A_TEST);
    if let Some(fit) = &content.report.fit {
        pieces.push(set.words(&format!("{} {}", fit.who, fit.caveat), set.width, &BODY).below(AFTER));
    }
    for (verdict, title) in VERDICTS {
        let found: Vec<&Finding> = all.iter().filter(|finding| finding.verdict == verdict).collect();
        if !found.is_empty() {
            pieces.extend(set.found(&format!("{title}: {}", found.len()), &found));
        }
    }
    Ok(vec![Chapter::set("Findings", counted(all), &pieces, &frame)])
}

/// How many of each verdict, in a line.
fn counted(all: &[Finding]) -> String {
    let count = |(verdict, title): (Verdict, &str)| {
        let count = all.iter().filter(|finding| finding.verdict == verdict).count();
        format!("{}: {count}", title.to_lowercase())
    };
    format!("What was checked, with its limit and source. {}.", capital(&VERDICTS.map(count).join(", ")))
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

impl Set<'_> {
    fn found(&self, title: &str, found: &[&Finding]) -> Vec<Piece> {
        let row = |finding: &&Finding| {
            let mut say = finding.say.clone();
            if finding.verdict != Verdict::Sound && finding.plain != say {
                say = format!("{say} {}", finding.plain);
            }
            let words = format!("{}: {say}", capital(&finding.subject));
            let used = format!("{:.0} %", (100.0 * finding.used).round());
            vec![Cell { words, note: format!("Source: {}", finding.source) }, Cell::of(used)]
        };
        let rows: Vec<Vec<Cell>> = found.iter().map(row).collect();
        let mut pieces = vec![self.heading(title)];
        let heads = columns(&["What was looked at and found", ">Limit used"]);
        pieces.extend(table(&heads, &rows, 0, &self.rows(), self.faces));
        pieces
    }
}
