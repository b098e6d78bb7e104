//! Shows what a change does to everything that is kept to be compared with, before it is blessed:
//! `cargo run -p crestrail-tests --bin review` writes `tests/out/review.html` with old, new and what differs. Old is what is
//! in the working tree; with the name of a commit, as `review HEAD`, what that commit holds.

use crestrail_tests::goldens::{Golden, kept, pictures, reports};
use crestrail_tests::review::{Changed, page};
use std::error::Error;
use std::path::Path;
use std::process::Command;

fn main() -> Result<(), Box<dyn Error>> {
    let commit = std::env::args().nth(1);
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..").canonicalize()?;
    let changed = |golden: Golden| -> Result<Changed, Box<dyn Error>> {
        let path = golden.path.parent().ok_or("a file lies in a folder")?.canonicalize()?;
        let path = path.join(golden.path.file_name().ok_or("a file has a name")?);
        let name = path.strip_prefix(&root)?.display().to_string();
        let old = match &commit {
            Some(commit) => committed(&root, commit, &name)?,
            None => kept(&path),
        };
        Ok(Changed { name, old, new: golden.now })
    };
    let all = reports().into_iter().chain(pictures()).map(changed).collect::<Result<Vec<_>, _>>()?;
    let out = root.join("tests/out");
    std::fs::create_dir_all(&out)?;
    std::fs::write(out.join("review.html"), page(&all))?;
    let count = all.iter().filter(|one| one.old != one.new).count();
    println!("{count} of {} changed: tests/out/review.html", all.len());
    Ok(())
}

/// The file as a commit holds it; nothing where it holds none.
fn committed(root: &Path, commit: &str, name: &str) -> Result<String, Box<dyn Error>> {
    let git = |arguments: &[&str]| Command::new("git").arg("-C").arg(root).args(arguments).output();
    if !git(&["rev-parse", "--verify", "--quiet", commit])?.status.success() {
        return Err(format!("There is no commit {commit}.").into());
    }
    let shown = git(&["show", &format!("{commit}:{name}")])?;
    Ok(if shown.status.success() {
        String::from_utf8(shown.stdout)?.replace("\r\n", "\n")
    } else {
        String::new()
    })
}
