//! Where things lie in the workspace.

use std::path::{Path, PathBuf};

/// The workspace's root: two folders above this package.
pub(crate) fn root() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.ancestors().nth(2).unwrap_or(here).to_path_buf()
}

/// The page's own files.
pub(crate) fn page() -> PathBuf {
    root().join("www/page")
}

/// The core's texts in other languages, a file for each.
pub(crate) fn phrases() -> PathBuf {
    root().join("core/phrases/data")
}

/// Where the packed page goes unless the command line says otherwise.
pub(crate) fn dist() -> PathBuf {
    root().join("dist")
}
