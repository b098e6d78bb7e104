//! The folder for a maker's web site: the Showroom alone, with nothing of the workshop's book in it.
//!
//! What is written is built up from what the Showroom needs, not the whole page with something taken away.

use crate::bindings::{CORE, Module};
use crate::files::{Files, resolve};
use crate::html::escaped;
use crate::page::{CORE_WORDS, INDEX, WORDS, with_policy};
use crate::{css, first, html, lean, offline, served};
use anyhow::{Context, Result, anyhow, ensure};
use crestrail_chair::reading;
use crestrail_chair::refusal::Refusal;
use crestrail_chair::shop::Shop;
use crestrail_chair::showroom::{SHOWROOM_FILE, Showroom, published};
use serde_json::Value;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

/// The page of the Showroom, which becomes the folder's index.
const PAGE: &str = "showroom.html";
/// The module that tells where the showroom's file is, and the one that does so in a published folder.
const STAND_IN: (&str, &str) = ("showroom-source.js", "showroom-source-published.js");
/// The custom element for pages of the maker's own.
const ELEMENT: &str = "crestrail-chair.js";
/// The licence of the font.
const LICENCE: &str = "fonts/OFL.txt";
/// What stands in the name of the workshop that is compiled in, and in no other's.
const INVENTED: &str = "(invented)";

/// What a maker should know whose material bears the profit of the work.
const ONE_PROFIT: &str = "\
Note: whoever knows what your yard charges can work out your profit from the prices shown. Give material a profit of
its own (\"profit_on_material\" in \"pricing\" of shop.json); core/chair/data/PUBLISHING.md says what else can be read.
";

/// The files of a publication: the showroom as it is published, checked against the book.
pub(crate) struct Source {
    showroom: Showroom,
    file: String,
    /// Whether prices are shown, and material and work bear one and the same profit.
    one_profit: bool,
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
        let one_profit = read.prices.is_some()
            && book.pricing.as_ref().is_some_and(|pricing| pricing.profit_on_material.is_none());
        Ok(Self { showroom: read, file: format!("{value:#}\n"), one_profit })
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
        let mut lines: String = offers.iter().map(line).collect();
        if self.one_profit {
            lines.push_str(ONE_PROFIT);
        }
        lines
    }
}

/// The files of the published folder, made from those of `www/page` and the first part of the core.
pub(crate) fn folder(page: &Files, core: &Module, source: &Source) -> Result<Files> {
    let mut out = Files::default();
    let spoken = spoken(page, source.showroom.language)?;
    let index = index(page.text(PAGE)?, &source.showroom, spoken.as_ref())?;
    let mut own = page.clone();
    own.put(PAGE, index.as_str());
    for (name, text) in first::showroom(&own, PAGE, &source.showroom)? {
        own.put(name, text);
    }
    for (name, bytes) in served::pages(&own, &[PAGE], &BTreeMap::from([STAND_IN]))?.iter() {
        out.put(name, bytes);
    }
    let html = with_policy(out.text(PAGE)?)?;
    out.remove(PAGE);
    out.put(INDEX, html);
    for name in [ELEMENT, offline::WORKER] {
        out.put(name, lean::script(page.text(name)?));
    }
    out.put(LICENCE, page.text(LICENCE)?);
    for name in beside(&out)? {
        let bytes = page
            .get(&name)
            .with_context(|| format!("{PAGE} links to {name}, which is no file of the page"))?;
        out.put(&name, bytes);
    }
    for (name, bytes) in core.files(CORE) {
        out.put(&name, bytes);
    }
    out.put(SHOWROOM_FILE.file, source.file.as_str());
    // A customer may choose another language; of these nothing is loaded before.
    let catalogues = page.iter().filter(|(name, _)| {
        let lies_in = |folder: &str| name.strip_prefix(folder).is_some_and(|file| file.ends_with(".json"));
        lies_in(WORDS) || lies_in(CORE_WORDS)
    });
    for (name, bytes) in catalogues {
        out.put(name, bytes);
    }
    out.put(offline::WORKER, offline::worker(&out)?);
    Ok(out)
}

/// The files that the page's links and its style sheets name and that are not there yet.
fn beside(out: &Files) -> Result<Vec<String>> {
    let mut names = Vec::new();
    let mut name = |from: &str, address: &str| {
        let name = resolve(from, address)
            .with_context(|| format!("{from} names {address}, which leaves the page"))?;
        names.push(name);
        anyhow::Ok(())
    };
    for tag in html::tags(out.text(INDEX)?) {
        if let Some(href) = tag.get("href").filter(|_| tag.name == "link") {
            name(INDEX, href)?;
        }
    }
    for (sheet, _) in out.iter().filter(|(name, _)| name.ends_with(".css")) {
        for (_, address) in css::urls(out.text(sheet)?) {
            name(sheet, &address)?;
        }
    }
    // The words of another language are put there by themselves.
    let is_missing = |name: &String| {
        out.get(name).is_none() && ![WORDS, CORE_WORDS].iter().any(|folder| name.starts_with(folder))
    };
    Ok(names.into_iter().filter(is_missing).collect())
}

/// The words of the language in which the showroom speaks, where that is not English.
struct Spoken<'a> {
    /// Names and texts, those of the page first, then those of the core.
    files: [(String, &'a str); 2],
    words: BTreeMap<String, Value>,
}

fn spoken<'a>(page: &'a Files, tag: &str) -> Result<Option<Spoken<'a>>> {
    let code = tag.split('-').next().unwrap_or(tag);
    if code == "en" {
        return Ok(None);
    }
    let [own, core] = [WORDS, CORE_WORDS].map(|folder| format!("{folder}{code}.json"));
    let text = page.text(&own)?;
    let words = serde_json::from_str(text).with_context(|| format!("{own} is no catalogue of words"))?;
    let core_text = page.text(&core)?;
    Ok(Some(Spoken { files: [(own, text), (core, core_text)], words }))
}

/// The page with the workshop's name as its title and at its head, its language, and its words loaded ahead.
fn index(page: &str, showroom: &Showroom, spoken: Option<&Spoken<'_>>) -> Result<String> {
    let mut preloads = String::new();
    for (name, _) in spoken.iter().flat_map(|spoken| &spoken.files) {
        preloads.push_str(&format!("  <link rel=\"preload\" href=\"{name}\" as=\"fetch\" crossorigin>\n"));
    }
    let language = showroom.language;
    let direction = if language.starts_with("ar") { " dir=\"rtl\"" } else { "" };
    let title = format!("<title>{}</title>", escaped(&showroom.brand));
    let swaps = [
        ("<title data-word=\"choose\">Choose your chair</title>", title),
        ("<html lang=\"en\" data-language=\"showroom\">", format!("<html lang=\"{language}\"{direction}>")),
        (
            "<h1 id=\"brand\" data-word=\"choose\">Choose your chair",
            format!("<h1 id=\"brand\">{}", escaped(&showroom.brand)),
        ),
        (
            "<p id=\"brand-line\">",
            format!("<p id=\"brand-line\">{}", escaped(showroom.line.as_deref().unwrap_or_default())),
        ),
        ("</head>", format!("{preloads}</head>")),
    ];
    let made = swaps.iter().try_fold(page.to_owned(), |text, (place, with)| {
        ensure!(text.matches(place).count() == 1, "{PAGE} must hold {place} once");
        Ok(text.replace(place, with))
    })?;
    spoken.map_or(Ok(made.clone()), |spoken| worded(&made, &spoken.words))
}

/// The page's own lines in another language: what stands there before a script has run, or where none may.
fn worded(page: &str, words: &BTreeMap<String, Value>) -> Result<String> {
    let mut text = page.to_owned();
    for tag in html::tags(page).into_iter().rev() {
        let said = |key: &str| {
            words.get(key).and_then(Value::as_str).with_context(|| format!("there are no words for `{key}`"))
        };
        if let Some(key) = tag.get("data-word") {
            let end = text[tag.range.end..].find('<').map_or(text.len(), |at| tag.range.end + at);
            text.replace_range(tag.range.end..end, &escaped(said(key)?));
        }
        if let (Some(key), Some(content)) = (tag.get("data-word-content"), tag.get("content")) {
            let own = &page[tag.range.clone()];
            let other = own.replace(
                &format!("\"{content}\""),
                &format!("\"{}\"", escaped(said(key)?).replace('"', "&quot;")),
            );
            text.replace_range(tag.range.clone(), &other);
        }
    }
    Ok(text)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::workspace;
    use serde_json::json;

    /// What of a book anybody may see: sizes of boards and of cuts, how the joints are made, how a price is rounded, delivery
    /// and tax. Every other number is private.
    const PUBLIC: [&str; 8] = [
        "/kerf",
        "/cutters",
        "/joint_fit",
        "/stock/trim",
        "/stock/offer",
        "/stock/offcuts/length",
        "/stock/offcuts/width",
        "/pricing/rounding",
    ];
    const SHARED: [&str; 2] = ["/pricing/delivery", "/pricing/tax"];
    /// Counts, which have so few figures that others are like them; that they are not told follows from the names in the file.
    const COUNTS: [&str; 7] =
        ["/labour/batch", "/finish/coats", "/per_slat", "/count", "/days", "/queue_days", "/valid_days"];

    /// A book in which every private number is one that stands nowhere else, with all of them.
    fn book() -> (Value, Vec<f64>) {
        let text = fs::read_to_string(workspace::root().join("core/chair/data/shop.json")).unwrap();
        let mut shop: Value = serde_json::from_str(&text).unwrap();
        shop["name"] = "Private Bench".into();
        shop["pricing"]["profit_on_material"] = json!({"markup": 17});
        let mut odd = Vec::new();
        estrange(&mut shop, "", &mut odd);
        (shop, odd)
    }

    /// Puts an odd number of about the same size in the place of each private one.
    fn estrange(value: &mut Value, path: &str, odd: &mut Vec<f64>) {
        let any = |list: &[&str]| list.iter().any(|known| path.starts_with(known) || path.ends_with(known));
        match value {
            Value::Object(map) => {
                map.iter_mut().for_each(|(name, value)| estrange(value, &format!("{path}/{name}"), odd));
            }
            Value::Array(list) => {
                list.iter_mut()
                    .enumerate()
                    .for_each(|(i, value)| estrange(value, &format!("{path}/{i}"), odd));
            }
            Value::Number(number) if !any(&PUBLIC) && !any(&SHARED) && !any(&COUNTS) => {
                let place = odd.len() as f64;
                let is_money = ["price", "rate", "per_hour", "_m2", "per_kg", "per_litre", "per_metre"];
                let is_money = is_money.iter().any(|end| path.ends_with(end))
                    && !["grams_per_m2", "m2_per_litre"].iter().any(|end| path.ends_with(end));
                let figure = match number.as_f64().unwrap() {
                    _ if is_money => 3171.37 + 16.01 * place,
                    share if share < 1.0 => 0.613_79 + 0.000_013 * place,
                    percent if path.starts_with("/pricing") || path.ends_with("credit") => {
                        percent.floor() + 0.7319 + 0.0001 * (place % 97.0)
                    }
                    other => other.floor() + 0.391_77 + 0.000_13 * place,
                };
                let figure = (figure * 1e5).round() / 1e5;
                *value = figure.into();
                odd.push(figure);
            }
            _ => {}
        }
    }

    /// A figure as people and programs write it: with point or comma, in groups of thousands, in smallest units.
    fn spelled(figure: f64) -> Vec<String> {
        let plain = figure.to_string();
        let (whole, decimals) = plain.split_once('.').unwrap_or((&plain, ""));
        let mut all = vec![plain.clone(), format!("{whole},{decimals}")];
        if let Some((thousands, rest)) =
            whole.split_at_checked(whole.len().saturating_sub(3)).filter(|s| !s.0.is_empty())
        {
            for (group, point) in
                [(",", "."), (".", ","), (" ", "."), (" ", ","), ("\u{a0}", ","), ("'", ".")]
            {
                all.push(format!("{thousands}{group}{rest}{point}{decimals}"));
            }
        }
        all.push(format!("{whole}{decimals}").trim_start_matches('0').to_owned());
        all
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
        fs::write(&two, book().0.to_string()).unwrap();
        let source = Source::read(&one, &two);
        fs::remove_file(one).unwrap();
        fs::remove_file(two).unwrap();
        source
    }

    fn core() -> Module {
        Module { script: "export default 1;".to_owned(), wasm: b"\0asm".to_vec() }
    }

    fn made(price: &str) -> Files {
        let source = source(|showroom| showroom["price"] = price.into()).unwrap();
        folder(&crate::page::read().unwrap(), &core(), &source).unwrap()
    }

    #[test]
    fn no_private_figure_is_in_the_folder() {
        let (_, odd) = book();
        assert!(odd.len() > 130, "{} private figures", odd.len());
        for price in ["from", "shown", "none"] {
            let out = made(price);
            let words = odd.iter().flat_map(|&figure| spelled(figure)).chain(["Private Bench".to_owned()]);
            for word in words {
                for (name, bytes) in out.iter() {
                    let found = bytes.windows(word.len()).any(|part| part == word.as_bytes());
                    assert!(!found, "{word} stands in {name} of prices {price}");
                }
            }
            let file: Value = serde_json::from_str(out.text(SHOWROOM_FILE.file).unwrap()).unwrap();
            let mut told = Vec::new();
            numbers(&file, &mut told);
            for figure in &odd {
                let alike = |told: &f64, times: f64| (told - figure * times).abs() < 1e-9 * figure * times;
                for times in [1e-2, 1.0, 1e2, 1e3, 1e5] {
                    assert!(
                        !told.iter().any(|told| alike(told, times)),
                        "{figure} is told of prices {price}"
                    );
                }
            }
        }
    }

    /// The watch above sees a figure that is there.
    #[test]
    fn a_private_figure_would_be_found() {
        assert!(
            spelled(3171.37).contains(&"3,171.37".to_owned())
                && spelled(3171.37).contains(&"317137".to_owned())
        );
        let (book, odd) = book();
        let mut told = Vec::new();
        numbers(&book, &mut told);
        assert!(odd.iter().all(|figure| told.contains(figure)));
    }

    fn numbers(value: &Value, found: &mut Vec<f64>) {
        match value {
            Value::Object(map) => map.values().for_each(|value| numbers(value, found)),
            Value::Array(list) => list.iter().for_each(|value| numbers(value, found)),
            other => found.extend(other.as_f64()),
        }
    }

    #[test]
    fn the_file_holds_what_is_told_and_nothing_else() {
        let names = |price: &str| -> Vec<String> {
            let out = made(price);
            let value: Value = serde_json::from_str(out.text(SHOWROOM_FILE.file).unwrap()).unwrap();
            assert_eq!(
                value["bench"].as_object().unwrap().keys().collect::<Vec<_>>(),
                ["cutters", "joint_fit"]
            );
            assert_eq!(value["offers"][0].get("from").is_some(), price == "from");
            let sheet = value["prices"].as_object().map(|sheet| sheet.keys().cloned().collect::<Vec<_>>());
            let told = ["delivery", "kerf", "rounding", "stock", "tax", "thicknesses", "timber", "work"];
            assert_eq!(sheet.unwrap_or_default(), if price == "shown" { told.to_vec() } else { Vec::new() });
            value.as_object().unwrap().keys().filter(|name| *name != "prices").cloned().collect()
        };
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
        for price in ["from", "shown", "none"] {
            assert_eq!(names(price), known);
        }
    }

    #[test]
    fn it_holds_the_showroom_alone() {
        let out = made("from");
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
        assert!(out.text("showroom.js").unwrap().contains("isPublished = true"));
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
    fn a_showroom_in_another_language_loads_its_words_and_no_others() {
        let room = source(|showroom| showroom["language"] = "ar-EG".into()).unwrap();
        let out = folder(&crate::page::read().unwrap(), &core(), &room).unwrap();
        let index = out.text("index.html").unwrap();
        let words: Value = serde_json::from_str(out.text("words/ar.json").unwrap()).unwrap();
        assert!(index.contains("<html lang=\"ar-EG\" dir=\"rtl\" "), "{index}");
        for key in ["skip", "no_script", "showroom_about", "loading"] {
            assert!(index.contains(words[key].as_str().unwrap()), "{key} is not said in {index}");
        }
        assert!(!index.contains("Choose the sizes") && index.contains("href=\"words/ar.json\" as=\"fetch\""));
        assert!(
            out.text("sw.js").unwrap().contains("words/ar.json") && out.get("words-core/ar.json").is_some()
        );
        // The others lie there for customers who choose them.
        assert!(out.get("words/fr.json").is_some() && !index.contains("words/fr.json"));
        let english = made("none");
        assert!(
            english.get("words/ar.json").is_some() && !english.text("index.html").unwrap().contains("words/")
        );
        assert!(english.get("words/GLOSSARY.md").is_none());
    }

    #[test]
    fn a_title_cannot_end_its_element() {
        let out = source(|showroom| showroom["brand"] = "</title><script>".into()).unwrap();
        let out = folder(&crate::page::read().unwrap(), &core(), &out).unwrap();
        assert!(out.text("index.html").unwrap().contains("<title>&lt;/title&gt;&lt;script&gt;</title>"));
    }

    #[test]
    fn refusals_name_file_and_field() {
        for (place, value, says) in [
            ("price", json!("secret"), "price: "),
            ("currency", json!("GBP"), "currency: The showroom tells prices in GBP"),
            ("rates", json!(1), "rates: The name \"rates\" is not known"),
        ] {
            let error = source(|showroom| showroom[place] = value.clone()).err().expect(says).to_string();
            assert!(error.contains(says) && error.contains("crestrail-publish"), "{error}");
        }
        assert!(Source::read(Path::new("/nowhere.json"), Path::new("/nowhere.json")).is_err());
    }
}
