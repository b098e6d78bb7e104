//! Reads one JSON request a line from standard input and writes one JSON answer a line to standard
//! output, so that programs in other languages can check the core.

use std::io::{BufRead, Write};

fn main() -> std::io::Result<()> {
    let mut out = std::io::stdout().lock();
    for line in std::io::stdin().lock().split(b'\n') {
        let line = line?;
        // Bytes that are no text become a request that is refused; the next line is still served.
        let text = String::from_utf8_lossy(&line);
        if text.trim().is_empty() {
            continue;
        }
        writeln!(out, "{}", crestrail_tests::answer(&text))?;
        out.flush()?;
    }
    Ok(())
}
