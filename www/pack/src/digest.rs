//! Content hashes.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest as _, Sha256};

/// The first 16 hexadecimal digits of the bytes' SHA-256: enough to tell versions apart.
pub(crate) fn short(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().take(8).map(|byte| format!("{byte:02x}")).collect()
}

/// A source expression of the Content Security Policy that allows one inline text.
pub(crate) fn source(text: &str) -> String {
    format!("'sha256-{}'", STANDARD.encode(Sha256::digest(text.as_bytes())))
}

/// Base64 text of the bytes.
pub(crate) fn base64(bytes: &[u8]) -> String {
    STANDARD.encode(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The empty text's SHA-256 is printed in FIPS 180 examples: e3b0c442 98fc1c14 …
    #[test]
    fn known_values() {
        assert_eq!(short(b""), "e3b0c44298fc1c14");
        assert_eq!(source(""), "'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='");
    }
}
