//! Requests byte by byte: what no well-behaved client sends.

use std::io::{ErrorKind, Read, Write};
use std::net::TcpStream;
use std::time::Duration;

use super::client::Server;

/// Longer than the bench waits for anybody.
const PATIENCE: Duration = Duration::from_secs(45);

/// An answer as it came over the line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Reply {
    pub(crate) status: u16,
    pub(crate) head: String,
    pub(crate) body: Vec<u8>,
}

impl Reply {
    /// All values of a header, by its name in small letters.
    pub(crate) fn headers<'r>(&'r self, name: &'r str) -> impl Iterator<Item = &'r str> {
        self.head
            .lines()
            .skip(1)
            .filter_map(|line| line.split_once(": "))
            .filter_map(move |(known, value)| known.eq_ignore_ascii_case(name).then_some(value))
    }

    pub(crate) fn header<'r>(&'r self, name: &'r str) -> &'r str {
        self.headers(name).next().unwrap_or_default()
    }

    pub(crate) fn text(&self) -> String {
        String::from_utf8_lossy(&self.body).into_owned()
    }
}

/// A connection to a server; its address and port as a `Host` has them.
pub(crate) fn line(server: &Server) -> (TcpStream, String) {
    let host = server.url.split_once("://").unwrap().1.replace("0.0.0.0", "127.0.0.1");
    let stream = TcpStream::connect(&host).unwrap();
    stream.set_read_timeout(Some(PATIENCE)).unwrap();
    stream.set_write_timeout(Some(PATIENCE)).unwrap();
    (stream, host)
}

/// Sends these bytes on a connection of their own, `HOST` replaced by the server's, and reads one
/// answer; `None` where the line is closed without one.
pub(crate) fn send(server: &Server, bytes: &[u8]) -> Option<Reply> {
    let (mut stream, host) = line(server);
    let bytes = match std::str::from_utf8(bytes) {
        Ok(text) => text.replace("HOST", &host).into_bytes(),
        Err(_) => bytes.to_vec(),
    };
    // Whoever is refused early may find the line closed while they still send.
    let _ = stream.write_all(&bytes);
    reply(&mut stream)
}

/// One answer; `None` where the line is closed before its head is whole. Whoever sends for longer
/// than the read timeout without an end fails the test.
pub(crate) fn reply(stream: &mut impl Read) -> Option<Reply> {
    let mut seen = Vec::new();
    let end = loop {
        if let Some(at) = find(&seen, b"\r\n\r\n") {
            break at;
        }
        more(stream, &mut seen)?;
    };
    let head = String::from_utf8_lossy(&seen[..end]).into_owned();
    let status = head.split(' ').nth(1)?.parse().ok()?;
    let mut reply = Reply { status, head, body: seen.split_off(end + 4) };
    let length: Option<usize> = reply.header("content-length").parse().ok();
    let chunked = reply.header("transfer-encoding").contains("chunked");
    let lasting = reply.header("content-type").starts_with("text/event-stream");
    let none = matches!(status, 100..200 | 204 | 304) || lasting;
    if none {
        return Some(reply);
    }
    loop {
        let whole = match length {
            Some(length) => reply.body.len() >= length,
            None => chunked && reply.body.ends_with(b"0\r\n\r\n"),
        };
        if whole || more(stream, &mut reply.body).is_none() {
            return Some(reply);
        }
    }
}

fn find(bytes: &[u8], wanted: &[u8]) -> Option<usize> {
    bytes.windows(wanted.len()).position(|window| window == wanted)
}

/// Reads on; `None` at the end of the line.
fn more(stream: &mut impl Read, into: &mut Vec<u8>) -> Option<()> {
    let mut buffer = [0; 16 << 10];
    match stream.read(&mut buffer) {
        Ok(0) => None,
        Ok(count) => {
            into.extend_from_slice(&buffer[..count]);
            Some(())
        }
        Err(error) => {
            let waits = matches!(error.kind(), ErrorKind::WouldBlock | ErrorKind::TimedOut);
            assert!(!waits, "the bench neither answers nor closes the line");
            None
        }
    }
}

/// Everything until the line is closed.
pub(crate) fn until_closed(stream: &mut impl Read) -> Vec<u8> {
    let mut seen = Vec::new();
    while more(stream, &mut seen).is_some() {}
    seen
}
