//! ES modules as one classic script, for the single file and its worker.
//!
//! A page opened from a disk cannot import its neighbours. Each module becomes a function that
//! returns its exports, in the order in which they are needed. That keeps the meaning of modules
//! as this page writes them; what it would change (bindings that are assigned after export,
//! imports in a circle or at run time, `import.meta`) is refused with the file's name. A module that
//! waits for something at its top level makes those after it wait too, as it does as a module.

use crate::files::{Files, resolve};
use anyhow::{Context, Result, bail, ensure};
use std::collections::BTreeMap;

/// The page's modules that a script was put together from.
pub(crate) struct Bundle {
    /// The script.
    pub(crate) script: String,
    /// The names of the modules in it, each after all that it imports.
    pub(crate) modules: Vec<String>,
}

/// Bundles `entry` and all it imports. In `stand_ins`, a module's name leads to the one that takes
/// its place.
pub(crate) fn bundle(files: &Files, entry: &str, stand_ins: &BTreeMap<&str, &str>) -> Result<Bundle> {
    let mut made =
        Maker { files, stand_ins, order: Vec::new(), open: Vec::new(), parts: String::new(), waits: false };
    made.add(entry)?;
    let head = if made.waits { "async () =>" } else { "() =>" };
    let script = format!("({head} {{\n\"use strict\";\nconst modules = {{}};\n{}}})();\n", made.parts);
    Ok(Bundle { script, modules: made.order })
}

struct Maker<'a> {
    files: &'a Files,
    stand_ins: &'a BTreeMap<&'a str, &'a str>,
    order: Vec<String>,
    open: Vec<String>,
    parts: String,
    /// Whether a module waits at its top level.
    waits: bool,
}

impl Maker<'_> {
    fn add(&mut self, name: &str) -> Result<()> {
        if self.order.iter().any(|done| done == name) {
            return Ok(());
        }
        ensure!(
            !self.open.iter().any(|n| n == name),
            "the modules {} import each other in a circle",
            self.open.join(", ")
        );
        self.open.push(name.to_owned());
        let body = self.module(name).with_context(|| format!("cannot bundle {name}"))?;
        self.open.pop();
        let waits = body.lines().any(|line| line.starts_with("await "));
        self.waits |= waits;
        let [before, head] = if waits { ["await ", "async () =>"] } else { ["", "() =>"] };
        self.parts.push_str(&format!("modules[{name:?}] = {before}({head} {{\n{body}}})();\n"));
        self.order.push(name.to_owned());
        Ok(())
    }

    fn module(&mut self, name: &str) -> Result<String> {
        let file = self.stand_ins.get(name).copied().unwrap_or(name);
        let module = Module::read(self.files.text(file)?)?;
        let mut body = String::new();
        for import in &module.imports {
            let target =
                resolve(name, &import.from).with_context(|| format!("{} is not a neighbour", import.from))?;
            self.add(&target)?;
            body.push_str(&import.statement(&target)?);
        }
        body.push_str(&module.text);
        body.push_str(&format!("\nreturn {{ {} }};\n", module.exports.join(", ")));
        Ok(body)
    }
}

/// A module taken apart.
#[derive(Debug, Default)]
struct Module {
    imports: Vec<Import>,
    /// `name` or `public: local`, as an object literal has them.
    exports: Vec<String>,
    /// The text without import statements and without the word `export`.
    text: String,
}

#[derive(Debug)]
struct Import {
    clause: String,
    from: String,
}

impl Import {
    /// The same import as a plain statement.
    fn statement(&self, target: &str) -> Result<String> {
        let module = format!("modules[{target:?}]");
        let clause = self.clause.trim();
        if clause.is_empty() {
            return Ok(String::new());
        }
        if let Some(all) = clause.strip_prefix("* as ") {
            return Ok(format!("const {} = {module};\n", all.trim()));
        }
        let (default, named) = clause.split_once('{').map_or((clause, ""), |(d, n)| (d, n));
        let mut pairs = renamed(named.trim_end_matches('}'), ": ");
        let default = default.trim().trim_end_matches(',').trim();
        if !default.is_empty() {
            pairs.insert(0, format!("default: {default}"));
        }
        ensure!(!default.contains('*'), "`import {clause}` mixes two kinds; write two statements");
        Ok(format!("const {{ {} }} = {module};\n", pairs.join(", ")))
    }
}

/// `a, b as c` as `a`, `b: c`.
fn renamed(list: &str, colon: &str) -> Vec<String> {
    let items = list.split(',').map(str::trim).filter(|item| !item.is_empty());
    items.map(|item| item.replace(" as ", colon)).collect()
}

impl Module {
    /// Statements are recognised at the start of a line, where the page's formatter puts them.
    fn read(source: &str) -> Result<Self> {
        for line in source.lines().map(without_comments) {
            let forbidden = ["import(", "import.meta"].into_iter().find(|word| line.contains(word));
            ensure!(forbidden.is_none(), "it uses `{}`", forbidden.unwrap_or_default());
            // Elsewhere at a line's start it would wait inside a function that does not.
            let hidden = line.starts_with(|c: char| !c.is_whitespace())
                && line.contains("= await ")
                && !line.contains("async ");
            ensure!(!hidden, "it waits for a value at its top level; `await` must begin the line");
        }
        let mut module = Self::default();
        let mut rest = source;
        while !rest.is_empty() {
            rest = module.line(rest)?;
        }
        Ok(module)
    }

    /// Takes one line, or one whole import or export list, and returns what follows.
    fn line<'a>(&mut self, rest: &'a str) -> Result<&'a str> {
        if rest.starts_with("import") && rest[6..].starts_with([' ', '{', '"', '\'', '*']) {
            return self.import(&rest[6..]);
        }
        if let Some(export) = rest.strip_prefix("export ") {
            return self.export(export);
        }
        let end = rest.find('\n').map_or(rest.len(), |i| i + 1);
        self.text.push_str(&rest[..end]);
        Ok(&rest[end..])
    }

    fn import<'a>(&mut self, rest: &'a str) -> Result<&'a str> {
        let open = rest.find(['"', '\'']).context("an import has no address")?;
        let quote = &rest[open..=open];
        let end = rest[open + 1..].find(quote).context("an import's address is not closed")? + open + 1;
        let clause = rest[..open].trim().trim_end_matches("from").trim().to_owned();
        ensure!(!clause.contains(';'), "`import{}` has no address", &rest[..open]);
        self.imports.push(Import { clause, from: rest[open + 1..end].to_owned() });
        let after = &rest[end + 1..];
        Ok(after.strip_prefix(';').unwrap_or(after))
    }

    fn export<'a>(&mut self, rest: &'a str) -> Result<&'a str> {
        if let Some(list) = rest.strip_prefix('{') {
            let (names, after) = list.split_once('}').context("an export list is not closed")?;
            ensure!(
                !after.trim_start().starts_with("from"),
                "it exports another module's names; import them first"
            );
            for pair in renamed(names, ": ") {
                let (local, public) = pair.split_once(": ").unwrap_or((&pair, &pair));
                self.exports.push(format!("{public}: {local}"));
            }
            return Ok(after.strip_prefix(';').unwrap_or(after));
        }
        self.exports.push(declared(rest)?);
        Ok(self.keep_line(rest))
    }

    fn keep_line<'a>(&mut self, rest: &'a str) -> &'a str {
        let end = rest.find('\n').map_or(rest.len(), |i| i + 1);
        self.text.push_str(&rest[..end]);
        &rest[end..]
    }
}

/// A line without its comments; types in comments look like imports.
fn without_comments(line: &str) -> String {
    let trimmed = line.trim_start();
    if trimmed.starts_with("//") || trimmed.starts_with('*') {
        return String::new();
    }
    let mut out = String::new();
    let mut rest = line;
    while let Some((code, comment)) = rest.split_once("/*") {
        out.push_str(code);
        rest = comment.split_once("*/").map_or("", |(_, after)| after);
    }
    out + rest
}

/// The name that a declaration after `export` declares.
fn declared(declaration: &str) -> Result<String> {
    for kind in ["const ", "async function* ", "async function ", "function* ", "function ", "class "] {
        if let Some(rest) = declaration.strip_prefix(kind) {
            let end = rest.find(|c: char| !c.is_alphanumeric() && c != '_' && c != '$').unwrap_or(rest.len());
            ensure!(end > 0, "an exported {kind}has no plain name");
            return Ok(rest[..end].to_owned());
        }
    }
    let start = declaration.lines().next().unwrap_or_default();
    bail!("`export {start}` is a kind of export that the single file cannot keep")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(modules: &[(&str, &str)]) -> Result<Bundle> {
        let mut files = Files::default();
        modules.iter().for_each(|(name, text)| files.put(name, *text));
        bundle(&files, modules[0].0, &BTreeMap::from([("away.js", "inline.js")]))
    }

    #[test]
    fn imports_come_before_those_who_need_them() {
        let made = of(&[
            ("main.js", "import { a, b as c } from \"./a.js\";\nimport \"./side.js\";\nrun(a, c);\n"),
            ("a.js", "import { side } from './side.js';\nexport const a = side;\nexport function b() {}\n"),
            ("side.js", "const inner = 1;\nexport { inner as side };\n"),
        ])
        .unwrap();
        assert_eq!(made.modules, ["side.js", "a.js", "main.js"]);
        assert!(made.script.contains("const { a, b: c } = modules[\"a.js\"];"), "{}", made.script);
        assert!(made.script.contains("return { side: inner };"));
        assert!(made.script.contains("return { a, b };"));
        assert!(!made.script.contains("import ") && !made.script.contains("export "), "{}", made.script);
    }

    #[test]
    fn those_after_a_module_that_waits_wait_too() {
        let made = of(&[
            ("main.js", "import { words } from './words.js';\nsay(words);\n"),
            ("words.js", "export const words = {};\nawait fill(words);\n"),
        ])
        .unwrap();
        assert!(made.script.starts_with("(async () => {"), "{}", made.script);
        assert!(made.script.contains("modules[\"words.js\"] = await (async () => {"), "{}", made.script);
        assert!(made.script.contains("modules[\"main.js\"] = (() => {"), "{}", made.script);
        let still = of(&[("main.js", "run();\n")]).unwrap();
        assert!(!still.script.contains("async"), "{}", still.script);
    }

    #[test]
    fn default_and_whole_imports_and_lists_over_lines() {
        let main = "import start, {\n  step,\n  knobs as table,\n} from \"./core.js\";\nimport * as core from './core.js';\n";
        let made = of(&[("main.js", main), ("core.js", "")]).unwrap();
        assert!(
            made.script.contains("const { default: start, step, knobs: table } = modules[\"core.js\"];"),
            "{}",
            made.script
        );
        assert!(made.script.contains("const core = modules[\"core.js\"];"));
    }

    #[test]
    fn a_stand_in_takes_a_modules_place() {
        let made = of(&[
            ("main.js", "import { start } from './away.js';\nstart();\n"),
            ("away.js", "export function start() { return 'away'; }\n"),
            ("inline.js", "export function start() { return 'inline'; }\n"),
        ])
        .unwrap();
        assert!(made.script.contains("'inline'") && !made.script.contains("'away'"), "{}", made.script);
    }

    #[test]
    fn types_in_comments_are_no_imports() {
        let text = "/** @typedef {import('./a.js').A} A */\n/**\n * @param {import('./a.js').A} a\n */\n\
            export const f = /** @type {import('./a.js').A} */ (1); // import('x')?\n";
        assert!(of(&[("main.js", text)]).is_err(), "a comment at a line's end is not told from code");
        assert!(of(&[("main.js", &text.replace(" // import('x')?", ""))]).is_ok());
    }

    #[test]
    fn what_would_change_its_meaning_is_refused() {
        for (text, named) in [
            ("export let n = 1;\n", "export let"),
            ("export default 3;\n", "export default"),
            ("const n = await load();\n", "must begin the line"),
            ("const m = await import(\"./a.js\");\n", "import("),
            ("new URL(\"a\", import.meta.url);\n", "import.meta"),
            ("export { a } from \"./a.js\";\n", "another module"),
            ("import x from \"https://example.org/x.js\";\n", "not a neighbour"),
            ("import x from \"./gone.js\";\n", "gone.js"),
            ("import { main } from \"./main.js\";\n", "circle"),
        ] {
            let complaint = format!("{:#}", of(&[("main.js", text)]).err().expect(text));
            assert!(complaint.contains(named), "{text}: {complaint}");
        }
    }
}
