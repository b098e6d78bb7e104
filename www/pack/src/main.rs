//! Builds the core, packs the page into `dist/` and serves it on this machine.
//!
//! The way of one run: [`build`] compiles the core, [`bindings`] writes its JavaScript, [`page`] puts
//! the files together ([`first`] writes the first chair into the page, [`mod@served`] gathers scripts and styles, with [`offline`] for the service worker and [`single`] for the one-file page), or [`mod@publish`] those
//! of the Showroom alone,
//! [`sizes`] prints what a visitor loads, [`serve`] answers the browser.

mod args;
mod bindings;
mod build;
mod bundle;
mod css;
mod digest;
mod files;
mod first;
mod html;
mod http;
mod lean;
mod mime;
mod offline;
mod page;
mod policy;
mod publish;
mod serve;
mod served;
mod single;
mod sizes;
mod weigh;
mod workspace;

use anyhow::{Context, Result};
use args::Command;
use bindings::Bindings;
use build::Part;
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
        Command::Node { out } => bindings::for_node(build::core(Part::Tried)?, &out)?,
        Command::Weigh => print!("{}", weigh::table(&build::core(Part::Steps)?)?),
        Command::Pack { out } => drop(pack(&folder(out))?),
        Command::Publish { showroom, shop, out } => publish(&showroom, &shop, &out)?,
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
    let bindings = Bindings {
        steps: bindings::module(build::core(Part::Steps)?, bindings::CORE)?,
        papers: bindings::module(build::core(Part::Papers)?, bindings::PAPERS)?,
        whole: bindings::script(build::core(Part::Whole)?)?,
    };
    let dist = page::pack(&page::read()?, &bindings)?;
    dist.write(out)?;
    print!("{}", sizes::table(&dist)?);
    println!("Packed into {}.", out.display());
    Ok(dist)
}

/// Builds and writes the Showroom alone into the folder.
fn publish(showroom: &Path, shop: &Path, out: &Path) -> Result<()> {
    files::ensure_ours(out)?;
    // Read before the build, so that nobody waits for a refusal.
    let source = publish::Source::read(showroom, shop)?;
    let core = bindings::module(build::core(Part::Steps)?, bindings::CORE)?;
    let made = publish::folder(&page::read()?, &core, &source)?;
    made.write(out)?;
    print!("{}{}", sizes::table(&made)?, source.offers());
    println!("Published into {}. Copy the whole folder to your site.", out.display());
    Ok(())
}

/// What an earlier run packed.
fn packed(out: &Path) -> Result<Files> {
    let dist = Files::read(out).context("there is no packed page yet; run without --no-build once")?;
    anyhow::ensure!(dist.get(files::WASM).is_some(), "{} is not a packed page", out.display());
    Ok(dist)
}
