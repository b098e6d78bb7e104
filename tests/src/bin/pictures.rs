//! Makes the pictures of the README.

use crestrail_tests::goldens::{Golden, pictures};
use std::io;

fn main() -> io::Result<()> {
    for Golden { path, now } in pictures() {
        std::fs::write(&path, now)?;
        println!("www/pictures/{}", path.file_name().unwrap_or_default().display());
    }
    Ok(())
}
