//! Builds the core, packs the page into `dist/` and serves it on this machine.
//!
//! The way of one run: [`build`] compiles the core, [`bindings`] writes its JavaScript, [`page`] puts
//! the files together (with [`offline`] for the service worker and [`single`] for the one-file page),
//! [`sizes`] prints what a visitor loads, [`serve`] answers the browser.

mod args;
mod bindings;
mod build;
mod bundle;
mod css;
mod digest;
mod files;
mod html;
mod http;
mod mime;
mod offline;
mod page;
mod policy;
mod serve;
mod single;
mod sizes;
mod workspace;

use anyhow::{Context, Result};
use args::Command;
use files::Files;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

fn main() -> ExitCode {
    let command = match args::parse(std::env::args().skip(1)) {
        Ok(command) => command,
        Err(complaint) => {
            eprintln!("crestrail: {complaint}\n\n{}", args::USAGE);
            return ExitCode::from(2);
        }
    };
    match run(command) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("crestrail: {error:#}");
            ExitCode::FAILURE
        }
    }
}

fn run(command: Command) -> Result<()> {
    match command {
        Command::Help => println!("{}", args::USAGE),
        Command::Node { out } => bindings::for_node(&build::core()?, &out)?,
        Command::Pack { out } => drop(pack(&folder(out))?),
        Command::Serve { out, build: true, port } => serve::serve(pack(&folder(out))?, port)?,
        Command::Serve { out, build: false, port } => serve::serve(packed(&folder(out))?, port)?,
    }
    Ok(())
}

fn folder(out: Option<PathBuf>) -> PathBuf {
    out.unwrap_or_else(workspace::dist)
}

/// Builds and packs into the folder, and prints the sizes.
fn pack(out: &Path) -> Result<Files> {
    // Asked before the build too, so that nobody waits for a refusal.
    files::ensure_ours(out)?;
    let core = build::core()?;
    let dist = page::pack(&Files::read(&workspace::page())?, &bindings::for_page(&core)?)?;
    dist.write(out)?;
    print!("{}", sizes::table(&dist)?);
    println!("Packed into {}.", out.display());
    Ok(dist)
}

/// What an earlier run packed.
fn packed(out: &Path) -> Result<Files> {
    let dist = Files::read(out).context("there is no packed page yet; run without --no-build once")?;
    anyhow::ensure!(dist.get(files::WASM).is_some(), "{} is not a packed page", out.display());
    Ok(dist)
}
