//! JavaScript bindings for the compiled core.

use anyhow::{Context, Result};
use std::path::Path;
use wasm_bindgen_cli_support::Bindgen;

/// Name of the bindings; the files are `crestrail.js` and `crestrail_bg.wasm`.
const NAME: &str = "crestrail";

/// The bindings that the page needs.
pub(crate) struct Bindings {
    /// An ES module, for the served page's worker.
    pub(crate) module: String,
    /// A script that sets one global, for the single file's worker: a worker made from a blob
    /// cannot import a neighbour.
    pub(crate) script: String,
    /// The module's bytes; both kinds of bindings load the same ones.
    pub(crate) wasm: Vec<u8>,
}

/// Writes both kinds of bindings for the `.wasm` file that cargo built.
pub(crate) fn for_page(core: &Path) -> Result<Bindings> {
    let mut web = bindgen(core)?;
    // The page says where the module is, so the bindings need no `import.meta.url`.
    web.web(true)?.omit_default_module_path(true);
    let mut web = web.generate_output().context("wasm-bindgen could not bind the core")?;
    let mut script = bindgen(core)?;
    script.no_modules(true)?.omit_default_module_path(true);
    let script = script.generate_output().context("wasm-bindgen could not bind the core")?;
    Ok(Bindings {
        module: web.js().to_owned(),
        script: script.js().to_owned(),
        wasm: web.wasm_mut().emit_wasm(),
    })
}

/// Writes `crestrail.js` and `crestrail_bg.wasm` for Node.js into a folder.
pub(crate) fn for_node(core: &Path, out: &Path) -> Result<()> {
    bindgen(core)?.nodejs(true)?.generate(out).context("wasm-bindgen could not bind the core")?;
    // Node takes a `.js` file for the kind that the nearest package.json names.
    std::fs::write(out.join("package.json"), "{ \"type\": \"commonjs\" }\n")
        .with_context(|| format!("cannot write into {}", out.display()))
}

fn bindgen(core: &Path) -> Result<Bindgen> {
    let mut bindgen = Bindgen::new();
    bindgen
        .input_path(core)
        .out_name(NAME)
        .typescript(false)
        // Function names and tool versions: a tenth of the file, and nothing reads them.
        .remove_name_section(true)
        .remove_producers_section(true);
    Ok(bindgen)
}
