//! How two texts differ, line by line.

/// Lines only in `old` behind a minus and lines only in `new` behind a plus, with their numbers.
pub(crate) fn of(old: &str, new: &str) -> String {
    let (old, new): (Vec<&str>, Vec<&str>) = (old.lines().collect(), new.lines().collect());
    let kept = common_lines(&old, &new);
    let (mut i, mut j, mut told) = (0, 0, String::new());
    while i < old.len() || j < new.len() {
        if i < old.len() && j < new.len() && old[i] == new[j] {
            (i, j) = (i + 1, j + 1);
        } else if j >= new.len() || (i < old.len() && kept[i + 1][j] >= kept[i][j + 1]) {
            i += 1;
            told.push_str(&format!("{i:3} − {}\n", old[i - 1]));
        } else {
            j += 1;
            told.push_str(&format!("{:3} + {}\n", j, new[j - 1]));
        }
    }
    told
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
