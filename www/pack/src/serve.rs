//! Serves the packed page on the loopback address.
//!
//! Written on `std::net`: the page is a handful of files in memory, asked for with GET by one
//! browser on the same machine. A server crate would add six to fifty-five crates to the first
//! build for upgrades, bodies and limits that none of this uses.

use crate::files::Files;
use crate::http::{self, Request};
use anyhow::{Context, Result};
use std::io::{ErrorKind, Read, Write};
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::sync::Arc;
use std::time::Duration;
use std::{io, thread};

/// The port when none is asked for; any number would do that no common service has.
const PORT: u16 = 8737;
/// How many ports after `PORT` are tried before the system is asked for a free one.
const NEIGHBOURS: u16 = 8;
/// The longest head of a request: browsers send about 1 kB to a page without cookies.
const LONGEST_HEAD: usize = 16 * 1024;
/// A browser keeps spare connections open; after this time without a word one is closed.
const PATIENCE: Duration = Duration::from_secs(30);

/// Serves until the process is ended. Prints the address first.
pub(crate) fn serve(files: Files, port: Option<u16>) -> Result<()> {
    let listener = listen(port)?;
    let address = listener.local_addr().context("the listener has no address")?;
    println!("Crestrail is at http://{address}/ until you press Ctrl-C.");
    let files = Arc::new(files);
    for stream in listener.incoming() {
        // A connection that its browser gave up while it was waiting; there are others.
        let Ok(stream) = stream else { continue };
        let files = Arc::clone(&files);
        thread::spawn(move || {
            if let Err(error) = converse(stream, &files)
                && !is_goodbye(&error)
            {
                eprintln!("A connection ended: {error}");
            }
        });
    }
    Ok(())
}

fn listen(port: Option<u16>) -> Result<TcpListener> {
    let bind = |port| TcpListener::bind((Ipv4Addr::LOCALHOST, port));
    if let Some(port) = port {
        return bind(port)
            .with_context(|| format!("port {port} cannot be had; leave --port away for a free one"));
    }
    (PORT..=PORT + NEIGHBOURS)
        .chain([0])
        .find_map(|port| bind(port).ok())
        .context("the loopback address has no free port")
}

/// Answers requests on one connection until either side closes it.
fn converse(mut stream: TcpStream, files: &Files) -> io::Result<()> {
    stream.set_read_timeout(Some(PATIENCE))?;
    stream.set_write_timeout(Some(PATIENCE))?;
    stream.set_nodelay(true)?;
    let mut waiting = Vec::new();
    while let Some(head) = next_head(&mut stream, &mut waiting)? {
        let Some(request) = std::str::from_utf8(&head).ok().and_then(Request::read) else {
            return stream.write_all(&http::bad_request());
        };
        stream.write_all(&http::answer(files, &request))?;
        if !request.stays_open {
            break;
        }
    }
    Ok(())
}

/// The next head; `waiting` keeps what arrived after it. `None` when the browser closed.
fn next_head(stream: &mut impl Read, waiting: &mut Vec<u8>) -> io::Result<Option<Vec<u8>>> {
    let mut block = [0; 2048];
    loop {
        if let Some(end) = waiting.windows(4).position(|four| four == b"\r\n\r\n") {
            return Ok(Some(waiting.drain(..end + 4).collect()));
        }
        if waiting.len() > LONGEST_HEAD {
            // Handed on as it is, it is not a request and is answered so.
            return Ok(Some(std::mem::take(waiting)));
        }
        match stream.read(&mut block)? {
            0 => return Ok(None),
            count => waiting.extend_from_slice(&block[..count]),
        }
    }
}

/// Browsers drop connections at any time; that is no news.
fn is_goodbye(error: &io::Error) -> bool {
    use ErrorKind::{BrokenPipe, ConnectionAborted, ConnectionReset, TimedOut, WouldBlock};
    matches!(error.kind(), BrokenPipe | ConnectionAborted | ConnectionReset | TimedOut | WouldBlock)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn heads_are_taken_one_by_one() {
        let mut stream: &[u8] = b"GET /a HTTP/1.1\r\n\r\nGET /b HTTP/1.1\r\n\r\nGET /c";
        let mut waiting = Vec::new();
        assert_eq!(next_head(&mut stream, &mut waiting).unwrap().unwrap(), b"GET /a HTTP/1.1\r\n\r\n");
        assert_eq!(next_head(&mut stream, &mut waiting).unwrap().unwrap(), b"GET /b HTTP/1.1\r\n\r\n");
        assert_eq!(next_head(&mut stream, &mut waiting).unwrap(), None);
    }

    #[test]
    fn a_head_without_end_is_answered_as_a_bad_request() {
        let long = vec![b'x'; 3 * LONGEST_HEAD];
        let head = next_head(&mut long.as_slice(), &mut Vec::new()).unwrap().unwrap();
        assert!(head.len() < 2 * LONGEST_HEAD);
        assert_eq!(Request::read(std::str::from_utf8(&head).unwrap()), None);
    }

    #[test]
    fn a_taken_port_is_refused_when_asked_for_and_passed_over_when_not() {
        let taken = listen(Some(0)).unwrap();
        let port = taken.local_addr().unwrap().port();
        assert!(listen(Some(port)).unwrap_err().to_string().contains("cannot be had"));
        let (one, two) = (listen(None).unwrap(), listen(None).unwrap());
        assert_ne!(one.local_addr().unwrap(), two.local_addr().unwrap());
        assert!(one.local_addr().unwrap().ip().is_loopback());
    }
}
