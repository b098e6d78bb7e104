//! The packed files, held in memory until all of them are known to be good.

use anyhow::{Context, Result, bail, ensure};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

/// A file that only a packed page has; a folder without it is somebody else's.
pub(crate) const WASM: &str = "crestrail_bg.wasm";

/// File contents by relative name; folders are parted by `/` on every system.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Files(BTreeMap<String, Vec<u8>>);

impl Files {
    /// Reads every file below a folder.
    pub(crate) fn read(folder: &Path) -> Result<Self> {
        let mut files = Self::default();
        files.read_below(folder, "")?;
        Ok(files)
    }

    fn read_below(&mut self, folder: &Path, prefix: &str) -> Result<()> {
        let entries = fs::read_dir(folder).with_context(|| format!("cannot read {}", folder.display()))?;
        for entry in entries {
            let entry = entry.with_context(|| format!("cannot read {}", folder.display()))?;
            let path = entry.path();
            let Ok(name) = entry.file_name().into_string() else {
                bail!("{} is not a plain name", path.display())
            };
            if name.starts_with('.') {
                continue;
            }
            // `file_type` does not follow a link: a link out of the folder is refused.
            let kind = entry.file_type().with_context(|| format!("cannot read {}", path.display()))?;
            let full = format!("{prefix}{name}");
            if kind.is_dir() {
                self.read_below(&path, &format!("{full}/"))?;
            } else {
                ensure!(kind.is_file(), "{} is neither a file nor a folder", path.display());
                self.put(&full, fs::read(&path).with_context(|| format!("cannot read {}", path.display()))?);
            }
        }
        Ok(())
    }

    /// Adds a file, or replaces it.
    pub(crate) fn put(&mut self, name: &str, bytes: impl Into<Vec<u8>>) {
        self.0.insert(name.to_owned(), bytes.into());
    }

    /// Takes a file away.
    pub(crate) fn remove(&mut self, name: &str) {
        self.0.remove(name);
    }

    /// A file's bytes.
    pub(crate) fn get(&self, name: &str) -> Option<&[u8]> {
        self.0.get(name).map(Vec::as_slice)
    }

    /// A file that must be there, as text.
    pub(crate) fn text(&self, name: &str) -> Result<&str> {
        let bytes = self.get(name).with_context(|| format!("the page has no file {name}"))?;
        std::str::from_utf8(bytes).with_context(|| format!("{name} is not UTF-8 text"))
    }

    /// Names and bytes in the order of the names.
    pub(crate) fn iter(&self) -> impl Iterator<Item = (&str, &[u8])> {
        self.0.iter().map(|(name, bytes)| (name.as_str(), bytes.as_slice()))
    }

    /// Writes all files into a folder, which then holds nothing else.
    pub(crate) fn write(&self, folder: &Path) -> Result<()> {
        clear(folder)?;
        for (name, bytes) in self.iter() {
            let path = folder.join(name);
            let parent = path.parent().unwrap_or(folder);
            fs::create_dir_all(parent).with_context(|| format!("cannot make {}", parent.display()))?;
            fs::write(&path, bytes).with_context(|| format!("cannot write {}", path.display()))?;
        }
        Ok(())
    }
}

/// Empties the output folder.
fn clear(folder: &Path) -> Result<()> {
    ensure_ours(folder)?;
    if !folder.exists() {
        return Ok(());
    }
    fs::remove_dir_all(folder).with_context(|| format!("cannot empty {}", folder.display()))
}

/// Refuses a folder that cannot be emptied without losing somebody's files: one that is neither
/// empty nor written by an earlier run.
pub(crate) fn ensure_ours(folder: &Path) -> Result<()> {
    if !folder.exists() {
        return Ok(());
    }
    ensure!(folder.is_dir(), "{} is not a folder", folder.display());
    let mut entries = fs::read_dir(folder).with_context(|| format!("cannot read {}", folder.display()))?;
    ensure!(
        entries.next().is_none() || folder.join(WASM).is_file(),
        "{} holds files that are not a packed page; name an empty or new folder",
        folder.display()
    );
    Ok(())
}

/// The name that `link` means when it stands in the file `from`; `None` when it leaves the page.
pub(crate) fn resolve(from: &str, link: &str) -> Option<String> {
    if link.contains(':') || link.starts_with('/') || link.starts_with('#') || link.is_empty() {
        return None;
    }
    let mut steps: Vec<&str> = from.split('/').collect();
    steps.pop();
    for step in link.split(['?', '#']).next().unwrap_or_default().split('/') {
        match step {
            "." | "" => {}
            ".." => {
                steps.pop()?;
            }
            step => steps.push(step),
        }
    }
    Some(steps.join("/"))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A folder of this test's own, gone at the end.
    struct Scratch(std::path::PathBuf);

    impl Scratch {
        fn new(name: &str) -> Self {
            let path = std::env::temp_dir().join(format!("crestrail-pack-{}-{name}", std::process::id()));
            fs::create_dir_all(&path).unwrap();
            Self(path)
        }
    }

    impl Drop for Scratch {
        fn drop(&mut self) {
            // Nothing can be done about a failure here, and the folder is in the system's temporary one.
            let _ = fs::remove_dir_all(&self.0);
        }
    }

    #[test]
    fn what_is_written_is_read_back_and_old_files_go() {
        let scratch = Scratch::new("round");
        let mut files = Files::default();
        files.put("index.html", "a");
        files.put("icons/one.svg", "b");
        files.put(WASM, [0_u8, 97]);
        files.write(&scratch.0).unwrap();
        fs::write(scratch.0.join("stale.js"), "old").unwrap();
        files.write(&scratch.0).unwrap();
        assert_eq!(Files::read(&scratch.0).unwrap(), files);
    }

    #[test]
    fn a_folder_of_somebody_elses_is_not_emptied() {
        let scratch = Scratch::new("foreign");
        fs::write(scratch.0.join("letter.txt"), "keep").unwrap();
        let complaint = Files::default().write(&scratch.0).unwrap_err().to_string();
        assert!(complaint.contains("not a packed page"), "{complaint}");
        assert!(scratch.0.join("letter.txt").is_file());
    }

    #[cfg(unix)]
    #[test]
    fn a_link_out_of_the_folder_is_refused() {
        let scratch = Scratch::new("link");
        std::os::unix::fs::symlink("/etc/hostname", scratch.0.join("host")).unwrap();
        assert!(Files::read(&scratch.0).is_err());
    }

    #[test]
    fn links_resolve_against_the_file_they_stand_in() {
        assert_eq!(resolve("main.js", "./knobs.js").as_deref(), Some("knobs.js"));
        assert_eq!(resolve("styles/page.css", "../fonts/a.woff2?v=1").as_deref(), Some("fonts/a.woff2"));
        assert_eq!(resolve("index.html", "../secret"), None);
        assert_eq!(resolve("index.html", "https://example.org/x"), None);
        assert_eq!(resolve("index.html", "/x"), None);
        assert_eq!(resolve("index.html", "#top"), None);
    }
}
