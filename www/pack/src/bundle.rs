//! ES modules as one script: a classic one for the single file and its worker, a module for a served page.
//!
//! A page opened from a disk cannot import its neighbours, and a served one would ask for a hundred files. Each module becomes a function that
//! returns its exports, and runs once, when it is first needed: at the start, or, where it is only
//! imported at run time (`import('./name.js')`), when that import is met. That keeps the meaning of
//! modules as this page writes them; what it would change (bindings that are assigned after export,
//! imports in a circle, imports of an address made at run time, `import.meta`) is refused with the
//! file's name. A module that waits for something at its top level makes those that import it wait
//! too, as it does as a module.

use crate::files::{Files, resolve};
use anyhow::{Context, Result, bail, ensure};
use std::collections::{BTreeMap, BTreeSet};

/// Runs a module once, when it is first needed.
const NEED: &str = "\
const made = {};
const modules = {};
const need = (name) => modules[name] ??= made[name]();
";

/// An import at run time where all modules are in the script.
const LATER: &str = "const later = (name) => new Promise((settle) => settle(need(name)));\n";

/// The same where a file beside the page brings the module, with what it needs itself.
const LATER_BESIDE: &str = "\
const later = async (name) => {
if (!made[name]) (await import(`./${name}`)).default(made, need, later);
return need(name);
};
";

/// Bundles `entry` and all it imports. In `stand_ins`, a module's name leads to the one that takes
/// its place.
pub(crate) fn bundle(files: &Files, entry: &str, stand_ins: &BTreeMap<&str, &str>) -> Result<String> {
    let Graph { start, later, parts, .. } = Graph::of(files, entry, stand_ins)?;
    let all: String = start.iter().chain(&later).map(|name| parts[name].as_str()).collect();
    Ok(format!("(() => {{\n\"use strict\";\n{NEED}{LATER}{all}need({entry:?});\n}})();\n"))
}

/// An expression for what a module exports, with all that it imports inside.
pub(crate) fn exports(files: &Files, name: &str) -> Result<String> {
    let Graph { start, asked, parts, .. } = Graph::of(files, name, &BTreeMap::new())?;
    ensure!(asked.is_empty(), "{name} imports at run time; its importer must be a page's script");
    let all: String = start.iter().map(|name| parts[name].as_str()).collect();
    Ok(format!("(() => {{\n{NEED}{all}return need({name:?});\n}})()"))
}

/// The scripts of a served page's entries, by file name: each entry with all that runs at the start, and a file for each module
/// that is only imported at run time, with what it needs beyond that.
pub(crate) fn served(
    files: &Files,
    entries: &[&str],
    stand_ins: &BTreeMap<&str, &str>,
) -> Result<BTreeMap<String, String>> {
    let graphs: Vec<Graph> =
        entries.iter().map(|entry| Graph::of(files, entry, stand_ins)).collect::<Result<_>>()?;
    let mut scripts = BTreeMap::new();
    for (entry, graph) in entries.iter().zip(&graphs) {
        let own: String = graph.start.iter().map(|name| graph.parts[name].as_str()).collect();
        let script = format!("(() => {{\n{NEED}{LATER_BESIDE}{own}need({entry:?});\n}})();\n");
        scripts.insert((*entry).to_owned(), script);
    }
    for graph in &graphs {
        for name in &graph.asked {
            // One file serves all entries, so it holds what any of them does not have at the start.
            let askers: Vec<&Graph> = graphs.iter().filter(|other| other.asked.contains(name)).collect();
            let mut own = String::new();
            for needed in graph.closure(name) {
                if !askers.iter().all(|asker| asker.start.contains(&needed)) {
                    own.push_str(&graph.parts[&needed].replacen("] = ", "] ??= ", 1));
                }
            }
            let script = format!("export default (made, need, later) => {{\n{own}}};\n");
            scripts.insert(name.clone(), script);
        }
    }
    Ok(scripts)
}

/// All modules that an entry leads to.
struct Graph {
    /// Those that run at the start, each after all that it imports.
    start: Vec<String>,
    /// The others, likewise.
    later: Vec<String>,
    /// Those of them that are imported at run time.
    asked: BTreeSet<String>,
    /// Each as a function.
    parts: BTreeMap<String, String>,
    /// What each imports.
    imports: BTreeMap<String, Vec<String>>,
}

impl Graph {
    fn of(files: &Files, entry: &str, stand_ins: &BTreeMap<&str, &str>) -> Result<Self> {
        let mut made = Maker {
            files,
            stand_ins,
            order: Vec::new(),
            open: Vec::new(),
            wanted: Vec::new(),
            waiting: BTreeSet::new(),
            parts: BTreeMap::new(),
            imports: BTreeMap::new(),
        };
        made.add(entry)?;
        let at_the_start = made.order.len();
        let mut asked = BTreeSet::new();
        while let Some(name) = made.wanted.pop() {
            made.add(&name)?;
            asked.insert(name);
        }
        let later = made.order.split_off(at_the_start);
        Ok(Self { start: made.order, later, asked, parts: made.parts, imports: made.imports })
    }

    /// A module and all that it imports, each after what it imports itself.
    fn closure(&self, name: &str) -> Vec<String> {
        let mut needed = BTreeSet::new();
        let mut open = vec![name.to_owned()];
        while let Some(next) = open.pop() {
            if needed.insert(next.clone()) {
                open.extend(self.imports[&next].iter().cloned());
            }
        }
        self.start.iter().chain(&self.later).filter(|name| needed.contains(*name)).cloned().collect()
    }
}

struct Maker<'a> {
    files: &'a Files,
    stand_ins: &'a BTreeMap<&'a str, &'a str>,
    order: Vec<String>,
    open: Vec<String>,
    /// What is imported at run time and not yet added.
    wanted: Vec<String>,
    /// Those that wait at their top level, or for one that does.
    waiting: BTreeSet<String>,
    parts: BTreeMap<String, String>,
    imports: BTreeMap<String, Vec<String>>,
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
        let head = if self.waiting.contains(name) { "async () =>" } else { "() =>" };
        self.parts.insert(name.to_owned(), format!("made[{name:?}] = {head} {{\n{body}}};\n"));
        self.order.push(name.to_owned());
        Ok(())
    }

    fn module(&mut self, name: &str) -> Result<String> {
        let file = self.stand_ins.get(name).copied().unwrap_or(name);
        let module = Module::read(self.files.text(file)?)?;
        self.imports.insert(name.to_owned(), Vec::new());
        let target = |from: &str| resolve(name, from).with_context(|| format!("{from} is not a neighbour"));
        let mut body = String::new();
        let mut waits = module.waits;
        for import in &module.imports {
            let target = target(&import.from)?;
            self.add(&target)?;
            self.imports.entry(name.to_owned()).or_default().push(target.clone());
            let wait = self.waiting.contains(&target);
            waits |= wait;
            body.push_str(&import.statement(&target, wait)?);
        }
        if waits {
            self.waiting.insert(name.to_owned());
        }
        let mut text = module.text;
        for (call, from) in &module.later {
            let target = target(from)?;
            text = text.replace(call, &format!("later({target:?})"));
            self.wanted.push(target);
        }
        body.push_str(&text);
        body.push_str(&format!("\nreturn {{ {} }};\n", module.exports.join(", ")));
        Ok(body)
    }
}

/// A module taken apart.
#[derive(Debug, Default)]
struct Module {
    imports: Vec<Import>,
    /// Imports at run time: the call as it is written, and the address in it.
    later: Vec<(String, String)>,
    /// Whether it waits for something at its top level.
    waits: bool,
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
    fn statement(&self, target: &str, wait: bool) -> Result<String> {
        let module = format!("{}need({target:?})", if wait { "await " } else { "" });
        let clause = self.clause.trim();
        if clause.is_empty() {
            return Ok(format!("{module};\n"));
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
        let mut module = Self::default();
        for line in source.lines().map(without_comments) {
            ensure!(!line.contains("import.meta"), "it uses `import.meta`");
            let begins = !line.starts_with(char::is_whitespace);
            let takes = begins && line.contains("= await ") && !line.contains("async ");
            let declares = ["const ", "let "].iter().any(|word| line.starts_with(word));
            // Elsewhere at a line's start it would wait inside a function that does not.
            ensure!(
                !takes || declares,
                "it waits for a value at its top level; `await` or a declaration must begin the line"
            );
            module.waits |= takes || line.starts_with("await ");
            for call in line.match_indices("import(").map(|(at, _)| &line[at..]) {
                module.later.push(at_run_time(call)?);
            }
        }
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

/// An import at run time that `text` begins with: the whole call and the address, which must stand in it in quotes.
fn at_run_time(text: &str) -> Result<(String, String)> {
    let address = text.strip_prefix("import('").and_then(|rest| rest.split_once("')"));
    let (address, _) = address
        .with_context(|| format!("`{}` must name one file, as in `import('./name.js')`", text.trim_end()))?;
    Ok((format!("import('{address}')"), address.to_owned()))
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

    struct Made {
        script: String,
        modules: Vec<String>,
        later: Vec<String>,
    }

    fn of(modules: &[(&str, &str)]) -> Result<Made> {
        let mut files = Files::default();
        modules.iter().for_each(|(name, text)| files.put(name, *text));
        let (entry, stand_ins) = (modules[0].0, BTreeMap::from([("away.js", "inline.js")]));
        let Graph { start, later, .. } = Graph::of(&files, entry, &stand_ins)?;
        Ok(Made { script: bundle(&files, entry, &stand_ins)?, modules: start, later })
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
        assert!(
            made.script.contains("const { a, b: c } = need(\"a.js\");\nneed(\"side.js\");"),
            "{}",
            made.script
        );
        assert!(made.script.contains("return { side: inner };"));
        assert!(made.script.contains("return { a, b };"));
        assert!(!made.script.contains("import ") && !made.script.contains("export "), "{}", made.script);
    }

    #[test]
    fn those_after_a_module_that_waits_wait_too() {
        let made = of(&[
            ("main.js", "import { words } from './words.js';\nimport { b } from './b.js';\nsay(words, b);\n"),
            ("words.js", "export const words = {};\nawait fill(words);\n"),
            ("b.js", "export const b = 1;\n"),
        ])
        .unwrap();
        for part in
            ["made[\"words.js\"] = async () =>", "made[\"main.js\"] = async () =>", "made[\"b.js\"] = () =>"]
        {
            assert!(made.script.contains(part), "{part} in {}", made.script);
        }
        assert!(made.script.contains("const { words } = await need(\"words.js\");"), "{}", made.script);
        assert!(made.script.contains("const { b } = need(\"b.js\");"), "{}", made.script);
    }

    #[test]
    fn default_and_whole_imports_and_lists_over_lines() {
        let main = "import start, {\n  step,\n  knobs as table,\n} from \"./core.js\";\nimport * as core from './core.js';\n";
        let made = of(&[("main.js", main), ("core.js", "")]).unwrap();
        assert!(
            made.script.contains("const { default: start, step, knobs: table } = need(\"core.js\");"),
            "{}",
            made.script
        );
        assert!(made.script.contains("const core = need(\"core.js\");"));
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
    fn what_is_imported_at_run_time_runs_when_it_is_met() {
        let made = of(&[
            ("main.js", "import { a } from './a.js';\nexport const open = async () => (await import('./late.js')).b(a);\n"),
            ("a.js", "export const a = 1;\n"),
            ("late.js", "import { a } from './a.js';\nimport { c } from './beside.js';\nexport const b = () => a + c;\n"),
            ("beside.js", "export const c = 2;\n"),
        ])
        .unwrap();
        assert_eq!(
            (made.modules, made.later),
            (
                vec!["a.js".to_owned(), "main.js".to_owned()],
                vec!["beside.js".to_owned(), "late.js".to_owned()]
            )
        );
        assert!(made.script.contains("(await later(\"late.js\")).b(a)"), "{}", made.script);
        assert!(made.script.ends_with("need(\"main.js\");\n})();\n"), "{}", made.script);
    }

    #[test]
    fn what_is_asked_for_later_lies_beside_with_what_it_needs() {
        let mut files = Files::default();
        for (name, text) in [
            (
                "one.js",
                "import { a } from './a.js';\nexport const open = () => import('./late.js');\nopen(a);\n",
            ),
            (
                "two.js",
                "import { c } from './c.js';\nexport const open = () => import('./late.js');\nopen(c);\n",
            ),
            ("a.js", "import { d } from './d.js';\nexport const a = d;\n"),
            ("c.js", "import { d } from './d.js';\nexport const c = d;\n"),
            ("d.js", "export const d = 1;\n"),
            (
                "late.js",
                "import { a } from './a.js';\nimport { d } from './d.js';\nexport const b = a + d;\n",
            ),
        ] {
            files.put(name, text);
        }
        let made = served(&files, &["one.js", "two.js"], &BTreeMap::new()).unwrap();
        assert_eq!(made.keys().map(String::as_str).collect::<Vec<_>>(), ["late.js", "one.js", "two.js"]);
        let late = &made["late.js"];
        assert!(late.contains("made[\"a.js\"] ??= ") && late.contains("made[\"late.js\"] ??= "), "{late}");
        assert!(!late.contains("made[\"d.js\"]"), "both have it from the start: {late}");
        assert!(
            made["two.js"].contains("made[\"d.js\"] = ") && !made["two.js"].contains("made[\"late.js\"] = ")
        );
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
            ("n = await load();\n", "must begin the line"),
            ("const f = () => import(name);\n", "must name one file"),
            ("const f = () => import('./gone.js');\n", "gone.js"),
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
