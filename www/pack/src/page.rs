//! The packed page: the page's own files, the core, the single file and the list for use offline.

use crate::bindings::{Bindings, CORE, PAPERS};
use crate::files::Files;
use crate::{first, html, lean, mime, offline, policy, served, single, workspace};
use anyhow::{Context, Result, ensure};
use std::collections::BTreeMap;

/// The page itself.
pub(crate) const INDEX: &str = "index.html";

/// The Showroom beside it.
const SHOWROOM: &str = "showroom.html";

/// The page on which a maker sets up both.
const SETUP: &str = "setup.html";

/// Where the words of each language but English lie, a file for each: `words/fr.json`.
pub(crate) const WORDS: &str = "words/";

/// Files of the page that take part only in the single file, or only in a published folder, or in neither.
const ELSEWHERE: [&str; 8] = [
    "inside.js",
    "sheet-fonts-inline.js",
    "start-worker-inline.js",
    "worker-inline.js",
    "words-source-inline.js",
    "words/GLOSSARY.md",
    "showroom-source-published.js",
    "crestrail-chair.js",
];

/// All files of `dist/`, made from those of `www/page` and the core's bindings.
pub(crate) fn pack(page: &Files, bindings: &Bindings) -> Result<Files> {
    let page = &first::workshop(page)?;
    packed(page, bindings)
}

/// The same of a page that has its first chair in it.
pub(crate) fn packed(page: &Files, bindings: &Bindings) -> Result<Files> {
    let mut dist = Files::default();
    for (name, bytes) in page.iter().filter(|(name, _)| is_shipped(name)) {
        ensure!(
            mime::of(name).is_some(),
            "www/page/{name} has an ending that no server knows a media type for"
        );
        if !name.ends_with(".js") && !name.ends_with(".css") {
            dist.put(name, bytes);
        }
    }
    let pages: Vec<&str> =
        [INDEX, SHOWROOM, SETUP].into_iter().filter(|name| page.get(name).is_some()).collect();
    for (name, bytes) in served::pages(page, &pages, &BTreeMap::new())?.iter() {
        dist.put(name, bytes);
    }
    for name in &pages {
        let policed = with_policy(dist.text(name)?)?;
        dist.put(name, policed);
    }
    dist.put(offline::WORKER, lean::script(page.text(offline::WORKER)?));
    for (module, name) in [(&bindings.steps, CORE), (&bindings.papers, PAPERS)] {
        for (name, bytes) in module.files(name) {
            dist.put(&name, bytes);
        }
    }
    for name in &pages {
        ensure_links(&dist, name)?;
    }
    // After everything that it lists, and before the single file, which a visitor does not need.
    dist.put(offline::WORKER, offline::worker(&dist)?);
    dist.put(single::NAME, single::page(page, bindings)?);
    Ok(dist)
}

/// Where the core's texts in these languages lie: `words-core/fr.json`.
pub(crate) const CORE_WORDS: &str = "words-core/";

/// The files that a page is packed from: those of `www/page`, and the core's texts in other languages.
pub(crate) fn read() -> Result<Files> {
    let mut page = Files::read(&workspace::page())?;
    for (name, bytes) in Files::read(&workspace::phrases())?.iter() {
        page.put(&format!("{CORE_WORDS}{name}"), bytes);
    }
    Ok(page)
}

/// The names of the files with texts in other languages, those of the page and those of the core.
pub(crate) fn catalogues(page: &Files) -> impl Iterator<Item = &str> {
    let is_one = |name: &&str| [WORDS, CORE_WORDS].iter().any(|folder| name.starts_with(folder));
    page.iter().map(|(name, _)| name).filter(is_one).filter(|name| name.ends_with(".json"))
}

/// Types and settings for the type checker are not part of the page.
fn is_shipped(name: &str) -> bool {
    let is_for_checking =
        name.ends_with(".d.ts") || (name.starts_with("tsconfig") && name.ends_with(".json"));
    !is_for_checking && !ELSEWHERE.contains(&name)
}

/// A maker's host may send no headers of ours, so the page carries its policy itself too.
pub(crate) fn with_policy(index: &str) -> Result<String> {
    insert_policy(index, policy::SERVED)
}

/// The page with a policy as the first element after the one that names its encoding.
pub(crate) fn insert_policy(html: &str, policy: &str) -> Result<String> {
    let tags = html::tags(html);
    let own = tags.iter().any(|tag| tag.name == "meta" && tag.get("http-equiv").is_some());
    ensure!(!own, "index.html has a meta http-equiv of its own; the packer writes the policy");
    let charset = tags.iter().find(|tag| tag.name == "meta" && tag.get("charset").is_some());
    let at = charset.context("index.html has no <meta charset>")?.range.end;
    Ok(format!("{}\n  {}{}", &html[..at], policy::meta(policy), &html[at..]))
}

/// Every link of the page must lead to a packed file.
fn ensure_links(dist: &Files, page: &str) -> Result<()> {
    for tag in html::tags(dist.text(page)?) {
        let link = match tag.name.as_str() {
            "link" => tag.get("href"),
            "script" | "img" => tag.get("src"),
            _ => None,
        };
        let Some(link) = link.filter(|link| !link.starts_with("data:")) else { continue };
        let name = crate::files::resolve(page, link);
        let found = name.is_some_and(|name| dist.get(&name).is_some());
        ensure!(found, "{page} links to {link}, which is not a file of the page");
    }
    Ok(())
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use crate::bindings::{Module, Script};

    /// A page of the same build as the real one, as small as it can be.
    pub(crate) fn sample() -> (Files, Bindings) {
        let mut page = Files::default();
        page.put(
            INDEX,
            "<!doctype html><head><meta charset=\"utf-8\">\n\
             <link rel=\"manifest\" href=\"app.webmanifest\"><link rel=\"icon\" href=\"icons/i.svg\">\n\
             <link rel=\"stylesheet\" href=\"page.css\"><link rel=\"modulepreload\" href=\"start-worker.js\">\n\
             <script type=\"module\" src=\"main.js\"></script></head><p>chair",
        );
        page.put("app.webmanifest", "{}");
        page.put("icons/i.svg", "<svg/>");
        page.put("page.css", "@font-face{src:url(fonts/f.woff2)}");
        page.put("fonts/f.woff2", "font");
        page.put("fonts/crestrail-sans-regular.ttf", "roman");
        page.put("fonts/crestrail-sans-medium.ttf", "bolder");
        page.put("main.js", "import { startWorker } from './start-worker.js';\nstartWorker('</script>');\n");
        page.put("start-worker.js", "export function startWorker() { return 'beside'; }\n");
        page.put("start-worker-inline.js", "export function startWorker() { return 'inside'; }\n");
        page.put(
            "worker.js",
            "import { serve } from './worker-core.js';\nserve(import('./crestrail.js'));\n",
        );
        page.put("worker-core.js", "export function serve() {}\n");
        page.put("worker-inline.js", "import { serve } from './worker-core.js';\nserve(self);\n");
        page.put("sw.js", "const packed = null;\n");
        page.put("messages.d.ts", "");
        page.put("tsconfig.json", "{}");
        let module = |script: &str| Module { script: script.to_owned(), wasm: b"\0asm".to_vec() };
        let whole = Script { script: "let wasm_bindgen;".to_owned(), wasm: b"\0asm".to_vec() };
        let bindings = Bindings { steps: module("export {};"), papers: module("export {};"), whole };
        (page, bindings)
    }

    #[test]
    fn dist_holds_what_a_browser_needs_and_no_more() {
        let (page, bindings) = sample();
        let dist = packed(&page, &bindings).unwrap();
        let names: Vec<&str> = dist.iter().map(|(name, _)| name).collect();
        assert_eq!(
            names,
            [
                "app.webmanifest",
                "crestrail.html",
                "crestrail.js",
                "crestrail_bg.wasm",
                "fonts/crestrail-sans-medium.ttf",
                "fonts/crestrail-sans-regular.ttf",
                "fonts/f.woff2",
                "icons/i.svg",
                "index.css",
                "index.html",
                "main.js",
                "papers.js",
                "papers_bg.wasm",
                "sw.js",
                "worker.js",
            ]
        );
    }

    #[test]
    fn each_language_has_the_words_of_the_page_and_of_the_core() {
        let page = read().unwrap();
        let of = |folder: &str| -> Vec<String> {
            catalogues(&page).filter_map(|name| name.strip_prefix(folder)).map(str::to_owned).collect()
        };
        assert_eq!(of(WORDS), ["ar.json", "de.json", "es.json", "fr.json", "sw.json"]);
        assert_eq!(of(CORE_WORDS), of(WORDS));
    }

    #[test]
    fn the_page_carries_its_policy() {
        let (page, bindings) = sample();
        let dist = packed(&page, &bindings).unwrap();
        assert!(dist.text(INDEX).unwrap().contains(&policy::meta(policy::SERVED)));
    }

    #[test]
    fn a_link_to_nothing_and_a_strange_file_are_refused() {
        let (mut page, bindings) = sample();
        page.put("notes.md", "");
        assert!(packed(&page, &bindings).unwrap_err().to_string().contains("notes.md"));
        let (mut page, bindings) = sample();
        let index = page.text(INDEX).unwrap().replace("page.css", "gone.css");
        page.put(INDEX, index);
        assert!(packed(&page, &bindings).unwrap_err().to_string().contains("gone.css"));
    }
}
