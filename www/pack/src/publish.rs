//! The folder for a maker's web site: the Showroom alone, with nothing of the workshop's book in it.
//!
//! What is written is built up from what the Showroom needs, not the whole page with something taken away.

use crate::bindings::{CORE, Module};
use crate::files::{Files, resolve};
use crate::page::{INDEX, with_policy};
use crate::{bundle, css, html, offline};
use anyhow::{Context, Result, anyhow, ensure};
use crestrail_chair::reading;
use crestrail_chair::refusal::Refusal;
use crestrail_chair::shop::Shop;
use crestrail_chair::showroom::{SHOWROOM_FILE, Showroom, published};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

/// The page of the Showroom, which becomes the folder's index.
const PAGE: &str = "showroom.html";
/// Its first module.
const SCRIPT: &str = "showroom.js";
/// The module that tells where the showroom's file is, and the one that does so in a published folder.
const STAND_IN: (&str, &str) = ("showroom-source.js", "showroom-source-published.js");
/// The custom element for pages of the maker's own.
const ELEMENT: &str = "crestrail-chair.js";
/// What the page loads by other ways than links and imports: the worker with its modules, the licence of the font.
const BESIDES: [&str; 4] = ["worker.js", "worker-core.js", "range-work.js", "fonts/OFL.txt"];
/// What stands in the name of the workshop that is compiled in, and in no other's.
const INVENTED: &str = "(invented)";

/// The files of a publication: the showroom as it is published, checked against the book.
pub(crate) struct Source {
    showroom: Showroom,
    file: String,
}

impl Source {
    /// Reads both files. The book is compared and reckoned with here, and goes no further.
    pub(crate) fn read(showroom: &Path, shop: &Path) -> Result<Self> {
        // A book in the place of the invented one is compiled into the core, where anybody can read it.
        ensure!(
            Shop::demo().name.contains(INVENTED),
            "core/chair/data/shop.json is not the invented workshop, and would be inside the published page; put the \
             invented one back, and name your own with --shop"
        );
        let refused = |file: &Path, refusal: &Refusal| anyhow!("{}: {refusal}", file.display());
        let text =
            |file: &Path| fs::read_to_string(file).with_context(|| format!("cannot read {}", file.display()));
        let book = Shop::from_json(&text(shop)?).map_err(|r| refused(shop, &r))?;
        let value =
            reading::parse(SHOWROOM_FILE.file, &text(showroom)?).map_err(|r| refused(showroom, &r))?;
        let value = published(&value, &book).map_err(|r| refused(showroom, &r))?;
        let read = Showroom::from_value(&value).map_err(|r| refused(showroom, &r))?;
        Ok(Self { showroom: read, file: format!("{value:#}\n") })
    }

    /// What is on offer, in words for the command line.
    pub(crate) fn offers(&self) -> String {
        let Showroom { offers, currency, .. } = &self.showroom;
        let line = |offer: &crestrail_chair::showroom::Offer| {
            let from = offer.from.map_or(String::new(), |from| {
                format!(", from {} {}", currency.code, from.decimal(currency.minor_digits))
            });
            format!("  {}{from}\n", offer.name)
        };
        offers.iter().map(line).collect()
    }
}

/// The files of the published folder, made from those of `www/page` and the first part of the core.
pub(crate) fn folder(page: &Files, core: &Module, source: &Source) -> Result<Files> {
    let mut out = Files::default();
    let modules = bundle::bundle(page, SCRIPT, &BTreeMap::from([STAND_IN]))?.modules;
    for name in &modules {
        let file = if name == STAND_IN.0 { STAND_IN.1 } else { name };
        out.put(name, page.text(file)?);
    }
    for name in BESIDES.into_iter().chain([ELEMENT, offline::WORKER]) {
        out.put(name, page.text(name)?);
    }
    for name in linked(page)? {
        let bytes = page
            .get(&name)
            .with_context(|| format!("{PAGE} links to {name}, which is no file of the page"))?;
        out.put(&name, bytes);
    }
    for (name, bytes) in core.files(CORE) {
        out.put(&name, bytes);
    }
    out.put(SHOWROOM_FILE.file, source.file.as_str());
    out.put(INDEX, with_policy(&index(page.text(PAGE)?, &modules, &source.showroom)?)?);
    out.put(offline::WORKER, offline::worker(&out)?);
    Ok(out)
}

/// The files that the page's links name, and those that its style sheets name.
fn linked(page: &Files) -> Result<Vec<String>> {
    let mut names = Vec::new();
    for tag in html::tags(page.text(PAGE)?) {
        let Some(href) = tag.get("href").filter(|_| tag.name == "link") else { continue };
        let name =
            resolve(PAGE, href).with_context(|| format!("{PAGE} links to {href}, which leaves the page"))?;
        if name.ends_with(".css") {
            for (_, address) in css::urls(page.text(&name)?) {
                names.push(resolve(&name, &address).with_context(|| format!("{name} names {address}"))?);
            }
        }
        names.push(name);
    }
    Ok(names)
}

/// The page with the workshop's name as its title, its language, and its modules loaded ahead.
fn index(page: &str, modules: &[String], showroom: &Showroom) -> Result<String> {
    let preloads: String =
        modules.iter().map(|name| format!("  <link rel=\"modulepreload\" href=\"{name}\">\n")).collect();
    let title = format!("<title>{}</title>", escaped(&showroom.brand));
    let swaps = [
        ("<title>Choose your chair</title>", title),
        ("<html lang=\"en\">", format!("<html lang=\"{}\">", showroom.language)),
        ("</head>", format!("{preloads}</head>")),
    ];
    swaps.iter().try_fold(page.to_owned(), |text, (place, with)| {
        ensure!(text.matches(place).count() == 1, "{PAGE} must hold {place} once");
        Ok(text.replace(place, with))
    })
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::workspace;
    use serde_json::{Value, json};

    /// Figures that stand nowhere else: no size, no colour, no price of the invented workshop.
    const RATE: f64 = 7131.37;
    const OVERHEAD: f64 = 8113.91;
    const MARGIN: f64 = 23.7919;
    const TIMBER: f64 = 9137.53;
    const SCREW: f64 = 6173.29;

    /// A book with a private figure in every part of it.
    fn book() -> Value {
        let text = fs::read_to_string(workspace::root().join("core/chair/data/shop.json")).unwrap();
        let mut shop: Value = serde_json::from_str(&text).unwrap();
        shop["name"] = "Private Bench".into();
        shop["labour"]["rate"] = RATE.into();
        shop["pricing"]["overhead"] = json!({"per_hour": OVERHEAD});
        shop["pricing"]["profit"] = json!({"margin": MARGIN});
        shop["fixings"]["price"] = SCREW.into();
        for row in shop["timber"]["species"].as_array_mut().unwrap() {
            row["price"] = TIMBER.into();
            row.as_object_mut().unwrap().remove("by_thickness");
        }
        shop
    }

    fn source(change: impl Fn(&mut Value)) -> Result<Source> {
        let text = fs::read_to_string(workspace::root().join("core/chair/data/showroom.json")).unwrap();
        let mut showroom: Value = serde_json::from_str(&text).unwrap();
        showroom["offers"] = json!([showroom["offers"][2]]);
        change(&mut showroom);
        let at = |name: &str| {
            std::env::temp_dir().join(format!("crestrail-publish-{}-{name}", std::process::id()))
        };
        let name = format!("{:?}", std::thread::current().id());
        let (one, two) = (at(&format!("room{name}")), at(&format!("shop{name}")));
        fs::write(&one, showroom.to_string()).unwrap();
        fs::write(&two, book().to_string()).unwrap();
        let source = Source::read(&one, &two);
        fs::remove_file(one).unwrap();
        fs::remove_file(two).unwrap();
        source
    }

    fn core() -> Module {
        Module { script: "export default 1;".to_owned(), wasm: b"\0asm".to_vec() }
    }

    fn made() -> Files {
        folder(&Files::read(&workspace::page()).unwrap(), &core(), &source(|_| ()).unwrap()).unwrap()
    }

    #[test]
    fn no_private_figure_is_in_the_folder() {
        let out = made();
        for figure in [RATE, OVERHEAD, MARGIN, TIMBER, SCREW]
            .map(|f| f.to_string())
            .iter()
            .chain([&"Private Bench".to_owned()])
        {
            for (name, bytes) in out.iter() {
                let found = bytes.windows(figure.len()).any(|part| part == figure.as_bytes());
                assert!(!found, "{figure} stands in {name}");
            }
        }
        let value: Value = serde_json::from_str(out.text(SHOWROOM_FILE.file).unwrap()).unwrap();
        let names: Vec<&String> = value.as_object().unwrap().keys().collect();
        let known = [
            "bench",
            "brand",
            "colours",
            "contact",
            "crestrail",
            "currency",
            "language",
            "line",
            "offers",
            "open",
            "price",
            "price_note",
        ];
        assert_eq!(names, known);
        assert_eq!(value["bench"].as_object().unwrap().keys().collect::<Vec<_>>(), ["cutters", "joint_fit"]);
        assert!(value["offers"][0]["from"].as_f64().unwrap() > 0.0);
    }

    #[test]
    fn it_holds_the_showroom_alone() {
        let out = made();
        for needed in [
            "index.html",
            "showroom.js",
            "showroom.css",
            "crestrail-chair.js",
            "worker.js",
            "sw.js",
            "fonts/crestrail-sans.woff2",
        ] {
            assert!(out.get(needed).is_some(), "{needed}");
        }
        for bench in [
            "main.js",
            "price.js",
            "cutting-list.js",
            "checkin.js",
            "workshop.js",
            "crestrail.html",
            "showroom.html",
        ] {
            assert!(out.get(bench).is_none(), "{bench} is the Workshop's");
        }
        assert!(out.text("showroom-source.js").unwrap().contains("isPublished = true"));
        let index = out.text("index.html").unwrap();
        assert!(
            index.contains("<title>Quillbeam Chairs (invented)</title>") && index.contains("lang=\"en-GB\"")
        );
        assert!(index.contains("Content-Security-Policy"));
        for tag in html::tags(index) {
            let link = if tag.name == "link" { tag.get("href") } else { tag.get("src") };
            if let Some(link) = link {
                assert!(out.get(link).is_some(), "{link} is linked and not there");
            }
        }
    }

    #[test]
    fn a_title_cannot_end_its_element() {
        let out = source(|showroom| showroom["brand"] = "</title><script>".into()).unwrap();
        let out = folder(&Files::read(&workspace::page()).unwrap(), &core(), &out).unwrap();
        assert!(out.text("index.html").unwrap().contains("<title>&lt;/title&gt;&lt;script&gt;</title>"));
    }

    #[test]
    fn refusals_name_file_and_field() {
        for (place, value, says) in [
            ("price", json!("shown"), "price: A published page cannot work out"),
            ("currency", json!("GBP"), "currency: The showroom tells prices in GBP"),
            ("rates", json!(1), "rates: The name \"rates\" is not known"),
        ] {
            let error = source(|showroom| showroom[place] = value.clone()).err().expect(says).to_string();
            assert!(error.contains(says) && error.contains("crestrail-publish"), "{error}");
        }
        assert!(Source::read(Path::new("/nowhere.json"), Path::new("/nowhere.json")).is_err());
    }
}
