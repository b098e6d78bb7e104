//! Reads the files of `data/`.

use std::collections::BTreeMap;
use std::path::Path;

/// One line of a file, by the names of its columns.
pub(crate) type Row = BTreeMap<String, String>;

/// All lines of a file of `data/`.
pub(crate) fn rows(file: &str) -> Vec<Row> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("data").join(file);
    let mut reader = csv::Reader::from_path(path).expect(file);
    reader.deserialize().map(|row| row.expect("a row")).collect()
}

/// The number in a column.
pub(crate) fn number(row: &Row, column: &str) -> f64 {
    row[column].parse().expect(column)
}
