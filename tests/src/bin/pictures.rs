//! Makes the pictures of the README from the default design: `www/pictures/*.svg`.

use crestrail_chair::chair::Chair;
use crestrail_chair::design::Design;
use crestrail_chair::drawing::{Scheme, View, exploded};
use crestrail_chair::shop::Shop;
use crestrail_sheet::svg;
use std::error::Error;
use std::path::Path;

fn main() -> Result<(), Box<dyn Error>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../www/pictures");
    std::fs::create_dir_all(&folder)?;
    let chair = Chair::resolve(&Design::default(), &Shop::demo().bench())?;
    for (name, spread) in [("assembled", 0.0), ("apart", 1.0)] {
        for (ending, scheme) in [("light", Scheme::Light), ("dark", Scheme::Dark)] {
            let view = View { spread, scheme, width: 640.0, height: 640.0, ..View::default() };
            let path = folder.join(format!("{name}-{ending}.svg"));
            std::fs::write(&path, svg::write(&exploded(&chair, &view)))?;
            println!("www/pictures/{name}-{ending}.svg");
        }
    }
    Ok(())
}
