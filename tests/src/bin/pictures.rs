//! Makes the pictures of the README: the default design, whole and apart, and some of the kinds of chair.

use crestrail_chair::chair::Chair;
use crestrail_chair::design::Design;
use crestrail_chair::drawing::{Scheme, View, exploded};
use crestrail_chair::report::service;
use crestrail_chair::shop::Shop;
use crestrail_sheet::svg;
use serde_json::{Value, json};
use std::error::Error;
use std::path::Path;

/// Name, design, how far it is pulled apart, and the side of the picture in pixels. Other kinds of chair are shown
/// without letters.
fn pictures() -> [(&'static str, Value, f64, f64); 6] {
    [
        ("assembled", json!({}), 0.0, 640.0),
        ("apart", json!({}), 1.0, 640.0),
        ("armchair", json!({"family": "armchair", "arms": "posts", "seat": "pad"}), 0.0, 480.0),
        ("bar-chair", json!({"family": "bar_chair", "back": "splat", "crest": "curved"}), 0.0, 480.0),
        ("bench", json!({"family": "bench_three", "back": "laths", "arms": "legs"}), 0.0, 480.0),
        ("stool", json!({"family": "stool", "leg_shape": "tapered", "seat": "cord"}), 0.0, 480.0),
    ]
}

fn main() -> Result<(), Box<dyn Error>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../www/pictures");
    std::fs::create_dir_all(&folder)?;
    for (name, values, spread, side) in pictures() {
        let design = Design::from_value(&values)?;
        let chair = Chair::resolve(&design, &Shop::demo().bench())?;
        for (ending, scheme) in [("light", Scheme::Light), ("dark", Scheme::Dark)] {
            let letters = !values.as_object().is_some_and(|values| values.contains_key("family"));
            let view = View { spread, scheme, width: side, height: side, letters, ..View::default() };
            let path = folder.join(format!("{name}-{ending}.svg"));
            std::fs::write(&path, svg::write(&exploded(&chair, &view, &service(&design))))?;
            println!("www/pictures/{name}-{ending}.svg");
        }
    }
    Ok(())
}
