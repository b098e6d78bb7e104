//! What is kept to be compared with: reports of a few hand-chosen designs (`tests/data/designs.json`) as readable text, and the
//! pictures of the README.

use crate::page;
use crestrail_chair::chair::Chair;
use crestrail_chair::design::Design;
use crestrail_chair::drawing::{Scheme, View, exploded};
use crestrail_chair::report::service;
use crestrail_chair::shop::Shop;
use crestrail_sheet::svg;
use serde_json::{Map, Value, json};
use std::fs;
use std::path::{Path, PathBuf};

/// A kept file, and what the program makes now.
#[derive(Clone, Debug)]
pub struct Golden {
    /// Where it is kept.
    pub path: PathBuf,
    /// As it would be written now.
    pub now: String,
}

fn here(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(name)
}

/// What is kept there; nothing where there is no such file yet.
pub fn kept(path: &Path) -> String {
    fs::read_to_string(path).unwrap_or_default().replace("\r\n", "\n")
}

/// The reports of the golden designs.
///
/// # Panics
/// Where `tests/data/designs.json` is missing or holds no designs.
pub fn reports() -> Vec<Golden> {
    let text = fs::read_to_string(here("data/designs.json")).expect("the designs are there");
    let designs: Map<String, Value> = serde_json::from_str(&text).expect("they are JSON");
    let golden = |(name, values): (String, Value)| {
        let design = Design::from_value(&values).unwrap_or_else(|refusal| panic!("{name}: {refusal}"));
        let path = here("golden").join(format!("{}.txt", name.replace(' ', "_")));
        Golden { path, now: page::of(&name, &design, &Shop::demo()) }
    };
    designs.into_iter().map(golden).collect()
}

/// Name, design, how far it is pulled apart, and the side of the picture in pixels. Other kinds of chair are shown
/// without letters.
fn shown() -> [(&'static str, Value, f64, f64); 6] {
    [
        ("assembled", json!({}), 0.0, 640.0),
        ("apart", json!({}), 1.0, 640.0),
        ("armchair", json!({"family": "armchair", "arms": "posts", "seat": "pad"}), 0.0, 480.0),
        ("bar-chair", json!({"family": "bar_chair", "back": "splat", "crest": "curved"}), 0.0, 480.0),
        ("bench", json!({"family": "bench_three", "back": "laths", "arms": "legs"}), 0.0, 480.0),
        ("stool", json!({"family": "stool", "leg_shape": "tapered", "seat": "cord"}), 0.0, 480.0),
    ]
}

/// The pictures of the README: the default design, whole and apart, and some of the kinds of chair.
///
/// # Panics
/// Where one of their designs cannot be built any more.
pub fn pictures() -> Vec<Golden> {
    let mut all = Vec::new();
    for (name, values, spread, side) in shown() {
        let design = Design::from_value(&values).unwrap_or_else(|refusal| panic!("{name}: {refusal}"));
        let chair =
            Chair::resolve(&design, &Shop::demo().bench()).unwrap_or_else(|clash| panic!("{name}: {clash}"));
        for (ending, scheme) in [("light", Scheme::Light), ("dark", Scheme::Dark)] {
            let letters = !values.as_object().is_some_and(|values| values.contains_key("family"));
            let view = View { spread, scheme, width: side, height: side, letters, ..View::default() };
            let now = svg::write(&exploded(&chair, &view, &service(&design)));
            all.push(Golden { path: here("../www/pictures").join(format!("{name}-{ending}.svg")), now });
        }
    }
    all
}
