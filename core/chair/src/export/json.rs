//! The report as JSON.

use serde::Serialize;

/// The report, indented, with a line break at its end. The names keep the order of the fields.
pub fn report_json<T: Serialize>(report: &T) -> Result<String, serde_json::Error> {
    let mut text = serde_json::to_string_pretty(report)?;
    text.push('\n');
    Ok(text)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_back_as_the_same_value() {
        let value = serde_json::json!({"a": [1, 0.1, "é\u{2028}<&\""], "b": null});
        let text = report_json(&value).expect("JSON");
        assert!(text.ends_with("}\n"));
        assert_eq!(serde_json::from_str::<serde_json::Value>(&text).expect("JSON"), value);
    }
}
