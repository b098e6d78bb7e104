//! How two texts differ, line by line.

/// A line of the old text, of the new one, or of both, each with its number counted from 1.
#[derive(Clone, Copy, Debug)]
pub struct Row<'a> {
    /// In the old text.
    pub old: Option<(usize, &'a str)>,
    /// In the new text.
    pub new: Option<(usize, &'a str)>,
}

/// Lines only in `old` behind a minus and lines only in `new` behind a plus, with their numbers.
pub fn of(old: &str, new: &str) -> String {
    let told = |row: Row<'_>| match row {
        Row { old: Some((i, line)), new: None } => format!("{i:3} − {line}\n"),
        Row { old: None, new: Some((j, line)) } => format!("{j:3} + {line}\n"),
        _ => String::new(),
    };
    rows(old, new).into_iter().map(told).collect()
}

/// All lines of both texts in order, those in common once.
pub fn rows<'a>(old: &'a str, new: &'a str) -> Vec<Row<'a>> {
    let (old, new): (Vec<&str>, Vec<&str>) = (old.lines().collect(), new.lines().collect());
    let kept = common_lines(&old, &new);
    let (mut i, mut j, mut rows) = (0, 0, Vec::new());
    while i < old.len() || j < new.len() {
        let both = i < old.len() && j < new.len() && old[i] == new[j];
        let first = !both && (j >= new.len() || (i < old.len() && kept[i + 1][j] >= kept[i][j + 1]));
        let row = Row {
            old: (both || first).then(|| (i + 1, old[i])),
            new: (both || !first).then(|| (j + 1, new[j])),
        };
        (i, j) = (i + usize::from(row.old.is_some()), j + usize::from(row.new.is_some()));
        rows.push(row);
    }
    rows
}

/// For each pair of places, how many lines the rests of both texts have in common, in order
/// (longest common subsequence, textbook).
fn common_lines(old: &[&str], new: &[&str]) -> Vec<Vec<usize>> {
    let mut kept = vec![vec![0; new.len() + 1]; old.len() + 1];
    for i in (0..old.len()).rev() {
        for j in (0..new.len()).rev() {
            kept[i][j] =
                if old[i] == new[j] { kept[i + 1][j + 1] + 1 } else { kept[i + 1][j].max(kept[i][j + 1]) };
        }
    }
    kept
}
