//! Just enough of HTTP/1.1 (RFC 9112) to answer a browser on the same machine.

use crate::files::Files;
use crate::{digest, mime, policy};

/// A request's head, as far as the answer depends on it.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Request<'a> {
    method: &'a str,
    target: &'a str,
    known: Option<&'a str>,
    /// The connection can carry another request after this one.
    pub(crate) stays_open: bool,
}

impl<'a> Request<'a> {
    /// Reads a head up to its empty line; `None` when it is not HTTP.
    pub(crate) fn read(head: &'a str) -> Option<Self> {
        let mut lines = head.split("\r\n");
        let mut words = lines.next()?.split(' ');
        let (method, target, version) = (words.next()?, words.next()?, words.next()?);
        if words.next().is_some() || !target.starts_with('/') || !version.starts_with("HTTP/1.") {
            return None;
        }
        let mut request = Self { method, target, known: None, stays_open: version != "HTTP/1.0" };
        for line in lines.filter(|line| !line.is_empty()) {
            let (name, value) = line.split_once(':')?;
            request.header(name, value.trim());
        }
        Some(request)
    }

    fn header(&mut self, name: &str, value: &'a str) {
        match name.to_ascii_lowercase().as_str() {
            "if-none-match" => self.known = Some(value),
            "connection" if value.eq_ignore_ascii_case("close") => self.stays_open = false,
            // A body would have to be read before the next request; no page sends one.
            "content-length" | "transfer-encoding" => self.stays_open = false,
            _ => {}
        }
    }
}

/// The bytes of the answer.
pub(crate) fn answer(files: &Files, request: &Request<'_>) -> Vec<u8> {
    if request.method != "GET" && request.method != "HEAD" {
        return message("405 Method Not Allowed", "Allow: GET, HEAD\r\n", b"Only GET and HEAD.\n", true);
    }
    let body_wanted = request.method == "GET";
    let found = name(request.target).and_then(|name| Some((files.get(&name)?, mime::of(&name)?)));
    let Some((bytes, kind)) = found else {
        return message("404 Not Found", "", b"There is no such file.\n", body_wanted);
    };
    let tag = format!("\"{}\"", digest::short(bytes));
    // no-cache: a browser keeps the file but asks each time whether it is still the same.
    let headers = format!("Content-Type: {kind}\r\nETag: {tag}\r\nCache-Control: no-cache\r\n");
    if request.known == Some(tag.as_str()) {
        return message("304 Not Modified", &headers, b"", false);
    }
    message("200 OK", &headers, bytes, body_wanted)
}

/// The answer to something that is not a request.
pub(crate) fn bad_request() -> Vec<u8> {
    message("400 Bad Request", "Connection: close\r\n", b"That was not an HTTP request.\n", true)
}

fn message(status: &str, headers: &str, body: &[u8], with_body: bool) -> Vec<u8> {
    let kind =
        if headers.contains("Content-Type") { "" } else { "Content-Type: text/plain; charset=utf-8\r\n" };
    let head = format!(
        "HTTP/1.1 {status}\r\n{headers}{kind}Content-Length: {}\r\nContent-Security-Policy: {}\r\n\
         X-Content-Type-Options: nosniff\r\nReferrer-Policy: no-referrer\r\n\
         Cross-Origin-Opener-Policy: same-origin\r\nCross-Origin-Resource-Policy: same-origin\r\n\r\n",
        body.len(),
        policy::SERVED
    );
    let mut bytes = head.into_bytes();
    if with_body {
        bytes.extend_from_slice(body);
    }
    bytes
}

/// The file that a request's target means. The answer is looked up among the packed files and never
/// handed to the file system, so no spelling of a path reaches anything else.
fn name(target: &str) -> Option<String> {
    let path = target.split(['?', '#']).next()?;
    let path = decoded(path)?;
    let path = path.strip_prefix('/')?;
    Some(if path.is_empty() { "index.html".to_owned() } else { path.to_owned() })
}

/// Percent-decoding (RFC 3986 section 2.1), once; `None` for a bad escape or what is not UTF-8.
fn decoded(text: &str) -> Option<String> {
    let mut out = Vec::with_capacity(text.len());
    let mut bytes = text.bytes();
    while let Some(byte) = bytes.next() {
        out.push(if byte == b'%' { hex(bytes.next()?)? << 4 | hex(bytes.next()?)? } else { byte });
    }
    String::from_utf8(out).ok()
}

fn hex(digit: u8) -> Option<u8> {
    u8::try_from(char::from(digit).to_digit(16)?).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn site() -> Files {
        let mut files = Files::default();
        files.put("index.html", "<p>page");
        files.put("icons/a b.svg", "<svg/>");
        files.put("crestrail_bg.wasm", *b"\0asm");
        files.put("notes", "no ending");
        files
    }

    fn ask(line: &str) -> String {
        let head = format!("{line} HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n");
        let request = Request::read(&head).expect(line);
        String::from_utf8(answer(&site(), &request)).unwrap()
    }

    #[test]
    fn the_page_and_its_files_are_served() {
        for (line, status, kind, body) in [
            ("GET /", "200", "text/html", "<p>page"),
            ("GET /index.html?x=1", "200", "text/html", "<p>page"),
            ("GET /icons/a%20b.svg", "200", "image/svg+xml", "<svg/>"),
            ("GET /crestrail_bg%2Ewasm", "200", "application/wasm", "\0asm"),
        ] {
            let answer = ask(line);
            assert!(answer.starts_with(&format!("HTTP/1.1 {status} ")), "{line}: {answer}");
            assert!(answer.contains(&format!("Content-Type: {kind}")), "{line}: {answer}");
            assert!(answer.ends_with(&format!("\r\n\r\n{body}")), "{line}: {answer}");
        }
    }

    #[test]
    fn every_answer_carries_the_policy() {
        for line in ["GET /", "GET /gone", "POST /", "HEAD /"] {
            let answer = ask(line);
            assert!(
                answer.contains(&format!("Content-Security-Policy: {}\r\n", policy::SERVED)),
                "{line}: {answer}"
            );
            assert!(answer.contains("X-Content-Type-Options: nosniff\r\n"), "{line}: {answer}");
        }
    }

    #[test]
    fn no_path_leaves_the_packed_files() {
        for target in [
            "/../Cargo.toml",
            "/%2e%2e/Cargo.toml",
            "/%2E%2E%2FCargo.toml",
            "/icons/../../Cargo.toml",
            "/icons/..%5c..%5cCargo.toml",
            "//etc/passwd",
            "/%2fetc/passwd",
            "/%252e%252e/Cargo.toml",
            "/index.html%00.svg",
            "/index.html/",
            "/icons",
            "/notes",
            "/%",
            "/%zz",
            "/%ff",
        ] {
            assert!(ask(&format!("GET {target}")).starts_with("HTTP/1.1 404 "), "{target}");
        }
    }

    #[test]
    fn only_reading_is_allowed() {
        for method in ["POST", "PUT", "DELETE", "OPTIONS", "get"] {
            let answer = ask(&format!("{method} /"));
            assert!(
                answer.starts_with("HTTP/1.1 405 ") && answer.contains("Allow: GET, HEAD"),
                "{method}: {answer}"
            );
        }
        let head = ask("HEAD /");
        assert!(head.contains("Content-Length: 7\r\n") && head.ends_with("\r\n\r\n"), "{head}");
    }

    #[test]
    fn a_known_file_is_not_sent_again() {
        let tag = format!("\"{}\"", digest::short(b"<p>page"));
        let head = format!("GET / HTTP/1.1\r\nIf-None-Match: {tag}\r\n\r\n");
        let answer = String::from_utf8(answer(&site(), &Request::read(&head).unwrap())).unwrap();
        assert!(answer.starts_with("HTTP/1.1 304 ") && answer.ends_with("\r\n\r\n"), "{answer}");
    }

    #[test]
    fn what_is_not_http_is_refused() {
        for head in [
            "",
            "GET /",
            "GET / HTTP/2",
            "GET http://x/ HTTP/1.1",
            "GET / x HTTP/1.1",
            "GET / HTTP/1.1\r\nno colon",
        ] {
            assert_eq!(Request::read(head), None, "{head:?}");
        }
    }

    #[test]
    fn a_connection_stays_open_unless_asked_or_unsafe() {
        let open = |headers: &str| {
            let head = format!("GET / HTTP/1.1\r\n{headers}\r\n");
            Request::read(&head).unwrap().stays_open
        };
        assert!(open("Host: x\r\n"));
        assert!(!open("Connection: Close\r\n"));
        assert!(!open("Content-Length: 3\r\n"));
        assert!(!Request::read("GET / HTTP/1.0\r\n\r\n").unwrap().stays_open);
    }
}
