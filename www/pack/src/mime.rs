//! Media types of the files that a packed page may hold.

/// Endings and media types (RFC 9239 for scripts, RFC 8081 for fonts, the WebAssembly and
/// manifest specifications of the W3C for theirs).
const TYPES: [(&str, &str); 12] = [
    ("html", "text/html; charset=utf-8"),
    ("css", "text/css; charset=utf-8"),
    ("js", "text/javascript; charset=utf-8"),
    ("json", "application/json"),
    ("webmanifest", "application/manifest+json"),
    ("wasm", "application/wasm"),
    ("svg", "image/svg+xml"),
    ("png", "image/png"),
    ("ico", "image/x-icon"),
    ("woff2", "font/woff2"),
    ("ttf", "font/ttf"),
    ("txt", "text/plain; charset=utf-8"),
];

/// The media type of a file by its name's ending; `None` for an ending that no page file has.
pub(crate) fn of(name: &str) -> Option<&'static str> {
    let (_, ending) = name.rsplit_once('.')?;
    TYPES.iter().find(|(known, _)| *known == ending).map(|(_, kind)| *kind)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_browser_refuses_these_under_any_other_type() {
        assert_eq!(of("crestrail_bg.wasm"), Some("application/wasm"));
        assert_eq!(of("worker.js"), Some("text/javascript; charset=utf-8"));
        assert_eq!(of("page.css"), Some("text/css; charset=utf-8"));
        assert_eq!(of("icons/seat.svg"), Some("image/svg+xml"));
        assert_eq!(of("manifest.webmanifest"), Some("application/manifest+json"));
    }

    #[test]
    fn an_unknown_ending_has_no_type() {
        assert_eq!(of("notes"), None);
        assert_eq!(of("backup.js~"), None);
    }
}
