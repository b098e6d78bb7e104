//! The Content Security Policies of the packed page.

use crate::digest;

/// The policy of the served page: its own origin and nothing else, no inline script or style, and
/// markup only through the page's one Trusted Types policy, which is for the core's SVG text.
/// `wasm-unsafe-eval` allows compiling WebAssembly and no other evaluation of text.
pub(crate) const SERVED: &str = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; \
    img-src 'self' data: blob:; font-src 'self'; connect-src 'self'; worker-src 'self'; manifest-src 'self'; \
    base-uri 'none'; form-action 'none'; require-trusted-types-for 'script'; trusted-types crestrail";

/// The policy of the single file: the inline texts named by their hashes, a worker from a blob, and
/// no connection at all, so the file can be kept and opened without telling anybody.
pub(crate) fn single(scripts: &[String], styles: &[String]) -> String {
    let hashes =
        |texts: &[String]| texts.iter().map(|text| digest::source(text)).collect::<Vec<_>>().join(" ");
    format!(
        "default-src 'none'; script-src {} 'wasm-unsafe-eval' blob:; style-src {}; img-src data: blob:; \
         font-src data:; connect-src 'none'; worker-src blob:; base-uri 'none'; form-action 'none'; \
         require-trusted-types-for 'script'; trusted-types crestrail",
        hashes(scripts),
        hashes(styles)
    )
}

/// The policy as an element for the page's head.
pub(crate) fn meta(policy: &str) -> String {
    format!("<meta http-equiv=\"Content-Security-Policy\" content=\"{policy}\">")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_is_allowed_that_is_not_named() {
        let alone = single(&["a".to_owned()], &["b".to_owned()]);
        for policy in [SERVED, alone.as_str()] {
            assert!(policy.starts_with("default-src 'none';"), "{policy}");
            for loose in ["'unsafe-inline'", "'unsafe-eval'", "*", "http", "\""] {
                assert!(!policy.contains(loose), "{loose} in {policy}");
            }
        }
        assert!(alone.contains("connect-src 'none'"));
        assert!(alone.contains(&digest::source("a")) && alone.contains(&digest::source("b")));
    }
}
