//! Times the core's own machinery for `tests/reference/beside.py`: one JSON request a line from standard input, one JSON
//! answer a line to standard output.

use std::io::{BufRead, Write};

fn main() -> std::io::Result<()> {
    let mut out = std::io::stdout().lock();
    for line in std::io::stdin().lock().lines() {
        writeln!(out, "{}", crestrail_tests::lap(&line?))?;
        out.flush()?;
    }
    Ok(())
}
