//! JavaScript bindings for the compiled core.

use anyhow::{Context, Result};
use std::path::Path;
use wasm_bindgen_cli_support::Bindgen;

/// Name of the core's bindings; the files are `crestrail.js` and `crestrail_bg.wasm`.
pub(crate) const CORE: &str = "crestrail";
/// Name of those that load on demand.
pub(crate) const PAPERS: &str = "papers";

/// Bindings as an ES module, for the served page's worker.
pub(crate) struct Module {
    pub(crate) script: String,
    pub(crate) wasm: Vec<u8>,
}

/// Bindings as a script that sets one global, for the single file's worker: a worker made from a blob cannot import a
/// neighbour.
pub(crate) struct Script {
    pub(crate) script: String,
    pub(crate) wasm: Vec<u8>,
}

/// All bindings of the packed page.
pub(crate) struct Bindings {
    /// What the first view loads.
    pub(crate) steps: Module,
    /// What loads on demand.
    pub(crate) papers: Module,
    /// Both in one, for the single file.
    pub(crate) whole: Script,
}

impl Module {
    /// The files of the module, by name and contents.
    pub(crate) fn files(&self, name: &str) -> [(String, &[u8]); 2] {
        [(format!("{name}.js"), self.script.as_bytes()), (format!("{name}_bg.wasm"), &self.wasm)]
    }
}

/// An ES module for the bytes that cargo built.
pub(crate) fn module(core: Vec<u8>, name: &str) -> Result<Module> {
    let mut web = bindgen(core, name);
    // The page says where the module is, so the bindings need no `import.meta.url`.
    web.web(true)?.omit_default_module_path(true);
    let mut web = web.generate_output().context("wasm-bindgen could not bind the core")?;
    Ok(Module { script: web.js().to_owned(), wasm: web.wasm_mut().emit_wasm() })
}

/// A script for the bytes that cargo built.
pub(crate) fn script(core: Vec<u8>) -> Result<Script> {
    let mut script = bindgen(core, CORE);
    script.no_modules(true)?.omit_default_module_path(true);
    let mut script = script.generate_output().context("wasm-bindgen could not bind the core")?;
    Ok(Script { script: script.js().to_owned(), wasm: script.wasm_mut().emit_wasm() })
}

/// Writes `crestrail.js` and `crestrail_bg.wasm` for Node.js into a folder.
pub(crate) fn for_node(core: Vec<u8>, out: &Path) -> Result<()> {
    bindgen(core, CORE).nodejs(true)?.generate(out).context("wasm-bindgen could not bind the core")?;
    // Node takes a `.js` file for the kind that the nearest package.json names.
    std::fs::write(out.join("package.json"), "{ \"type\": \"commonjs\" }\n")
        .with_context(|| format!("cannot write into {}", out.display()))
}

fn bindgen(core: Vec<u8>, name: &str) -> Bindgen {
    let mut bindgen = Bindgen::new();
    bindgen
        .input_bytes(name, core)
        .out_name(name)
        .typescript(false)
        // Function names and tool versions: a tenth of the file, and nothing reads them.
        .remove_name_section(true)
        .remove_producers_section(true);
    bindgen
}
