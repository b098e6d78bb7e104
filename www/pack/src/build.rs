//! Compiles the core to WebAssembly.

use crate::workspace;
use anyhow::{Context, Result, bail, ensure};
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

const TARGET: &str = "wasm32-unknown-unknown";
const CRATE: &str = "crestrail-wasm";
const FILE: &str = "crestrail_wasm.wasm";

/// Which part of the binding is built; see the crate's features.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Part {
    /// All of it, for the single file.
    Whole,
    /// All of it and what the bench asks for, for Node.js.
    Tried,
    /// What the first view and each step of a knob ask for.
    Steps,
    /// What is put on paper or taken away as a file.
    Papers,
}

impl Part {
    fn features(self) -> &'static str {
        match self {
            Self::Whole => "steps,papers",
            Self::Tried => "steps,papers,bench",
            Self::Steps => "steps",
            Self::Papers => "papers",
        }
    }
}

/// Builds a part of the `crestrail-wasm` crate in release mode and returns the bytes of the `.wasm` file, which the next
/// build of another part takes the place of.
pub(crate) fn core(part: Part) -> Result<Vec<u8>> {
    let file = built(part)?;
    std::fs::read(&file).with_context(|| format!("cannot read {}", file.display()))
}

fn built(part: Part) -> Result<PathBuf> {
    ensure_target()?;
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let output = Command::new(cargo)
        .current_dir(workspace::root())
        .args(["build", "--release", "--target", TARGET, "-p", CRATE])
        .args(["--no-default-features", "--features", part.features()])
        .arg("--message-format=json-render-diagnostics")
        .env("CARGO_ENCODED_RUSTFLAGS", rustflags())
        .stderr(Stdio::inherit())
        .output()
        .context("cargo could not be started")?;
    ensure!(output.status.success(), "the core did not compile; cargo's messages are above");
    artifact(&String::from_utf8_lossy(&output.stdout))
}

/// Panic messages carry source paths. Without the builder's own folders in them the file is the
/// same wherever it is built, so the same sources give the same version to browsers that hold it.
fn rustflags() -> String {
    let home = std::env::var_os("CARGO_HOME").map(PathBuf::from).or_else(|| {
        let home = std::env::var_os("HOME").or_else(|| std::env::var_os("USERPROFILE"))?;
        Some(Path::new(&home).join(".cargo"))
    });
    let folders = [(home, "cargo"), (Some(workspace::root()), "crestrail")];
    let flags = folders.iter().filter_map(|(folder, name)| {
        Some(format!("--remap-path-prefix={}={name}", folder.as_ref()?.display()))
    });
    // The separator that cargo documents for this variable; a path may hold spaces.
    flags.collect::<Vec<_>>().join("\x1f")
}

/// The file that cargo says it wrote: its folder depends on the user's own configuration.
fn artifact(messages: &str) -> Result<PathBuf> {
    for line in messages.lines() {
        let message: serde_json::Value = serde_json::from_str(line).context("cargo's report was not JSON")?;
        let files = message["filenames"].as_array().into_iter().flatten();
        if let Some(path) = files.filter_map(|f| f.as_str()).find(|f| f.ends_with(FILE)) {
            return Ok(PathBuf::from(path));
        }
    }
    bail!("cargo reported no {FILE}: is {CRATE} still a cdylib?")
}

/// `rust-toolchain.toml` names the target, but a machine that forbids rustup to install by itself
/// would stop with "can't find crate for `core`". So look, and add it once.
fn ensure_target() -> Result<()> {
    if target_is_there()? {
        return Ok(());
    }
    eprintln!("Adding the {TARGET} target to the toolchain (once).");
    let added = Command::new("rustup")
        .current_dir(workspace::root())
        .args(["target", "add", TARGET])
        .status()
        .with_context(|| {
            format!("the target {TARGET} is missing and rustup could not be started to add it")
        })?;
    ensure!(added.success(), "`rustup target add {TARGET}` failed; its messages are above");
    ensure!(target_is_there()?, "rustup added {TARGET}, yet rustc does not find it");
    Ok(())
}

fn target_is_there() -> Result<bool> {
    let Output { status, stdout, .. } = Command::new("rustc")
        .current_dir(workspace::root())
        .args(["--print", "target-libdir", "--target", TARGET])
        .output()
        .context("rustc could not be started")?;
    ensure!(status.success(), "rustc does not know the target {TARGET}");
    let folder = String::from_utf8(stdout).context("rustc printed a folder that is not text")?;
    Ok(Path::new(folder.trim()).is_dir())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_artifact_is_read_from_cargos_messages() {
        let messages = concat!(
            r#"{"reason":"compiler-artifact","filenames":["/x/libserde.rlib"]}"#,
            "\n",
            r#"{"reason":"compiler-artifact","filenames":["/x/release/crestrail_wasm.wasm"]}"#,
            "\n",
            r#"{"reason":"build-finished","success":true}"#
        );
        assert_eq!(artifact(messages).unwrap(), PathBuf::from("/x/release/crestrail_wasm.wasm"));
        assert!(artifact(r#"{"reason":"build-finished","success":true}"#).is_err());
    }

    #[test]
    fn the_builders_folders_are_renamed() {
        let flags = rustflags();
        let root = format!("--remap-path-prefix={}=crestrail", workspace::root().display());
        assert!(flags.split('\x1f').any(|flag| flag == root), "{flags}");
    }
}
