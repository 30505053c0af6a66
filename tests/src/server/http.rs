//! As much of HTTP/1.1 (RFC 9112) as a static server needs: reads one request, writes one answer and says
//! that the connection closes after it.

use std::io::{self, Read, Write};

/// The longest request line and headers together, in bytes.
const LONGEST_HEAD: usize = 32 * 1024;
/// The longest body that is read (and dropped), in bytes.
const LONGEST_BODY: u64 = 1024 * 1024;

/// One request without its body.
pub(crate) struct Request {
    pub(crate) method: String,
    /// Path and query as sent.
    pub(crate) target: String,
    headers: Vec<(String, String)>,
}

impl Request {
    /// The header's value; names are told apart without regard to case. Empty when it was not sent.
    pub(crate) fn header(&self, name: &str) -> &str {
        self.headers
            .iter()
            .find(|(key, _)| key.eq_ignore_ascii_case(name))
            .map_or("", |(_, value)| value)
    }
}

/// Reads a request and its body; `None` when the other side closed without asking for anything.
///
/// # Errors
/// When the bytes are no request, or the connection breaks in the middle of one.
pub(crate) fn read(stream: &mut impl Read) -> io::Result<Option<Request>> {
    let mut bytes = Vec::new();
    let mut chunk = [0; 4096];
    loop {
        let got = stream.read(&mut chunk)?;
        if got == 0 {
            return if bytes.is_empty() {
                Ok(None)
            } else {
                Err(bad("cut off"))
            };
        }
        bytes.extend_from_slice(&chunk[..got]);
        if let Some((request, head)) = parse(&bytes)? {
            skip_body(&request, bytes.len() - head, stream)?;
            return Ok(Some(request));
        }
        if bytes.len() > LONGEST_HEAD {
            return Err(bad("headers too long"));
        }
    }
}

/// The request and the length of its head, once the head is whole.
fn parse(bytes: &[u8]) -> io::Result<Option<(Request, usize)>> {
    let mut headers = [httparse::EMPTY_HEADER; 64];
    let mut parsed = httparse::Request::new(&mut headers);
    let head = match parsed.parse(bytes) {
        Ok(httparse::Status::Complete(head)) => head,
        Ok(httparse::Status::Partial) => return Ok(None),
        Err(problem) => return Err(bad(&problem.to_string())),
    };
    let headers = parsed.headers.iter().map(|header| {
        let value = String::from_utf8_lossy(header.value);
        (header.name.to_owned(), value.trim().to_owned())
    });
    let request = Request {
        method: parsed.method.unwrap_or_default().to_owned(),
        target: parsed.path.unwrap_or_default().to_owned(),
        headers: headers.collect(),
    };
    Ok(Some((request, head)))
}

/// Reads the body to its end: closing with bytes unread would reset the connection under the answer.
fn skip_body(request: &Request, have: usize, stream: &mut impl Read) -> io::Result<()> {
    let length = match request.header("content-length") {
        "" if !request.header("transfer-encoding").is_empty() => return Err(bad("chunked body")),
        "" => 0,
        text => text
            .parse()
            .map_err(|_| bad("content-length is no number"))?,
    };
    if length > LONGEST_BODY {
        return Err(bad("body too long"));
    }
    let rest = length.saturating_sub(have as u64);
    let got = io::copy(&mut stream.take(rest), &mut io::sink())?;
    if got == rest {
        Ok(())
    } else {
        Err(bad("body cut off"))
    }
}

fn bad(text: &str) -> io::Error {
    io::Error::new(io::ErrorKind::InvalidData, text)
}

/// One answer.
pub(crate) struct Reply {
    pub(crate) status: u16,
    pub(crate) headers: Vec<(&'static str, String)>,
    pub(crate) body: Vec<u8>,
    /// Sends the headers of the body without the body: HEAD.
    pub(crate) head_only: bool,
}

impl Reply {
    /// Writes the whole answer.
    ///
    /// # Errors
    /// When the connection breaks.
    pub(crate) fn write(&self, stream: &mut impl Write) -> io::Result<()> {
        let reason = match self.status {
            200 => "OK",
            204 => "No Content",
            304 => "Not Modified",
            308 => "Permanent Redirect",
            400 => "Bad Request",
            404 => "Not Found",
            405 => "Method Not Allowed",
            _ => "Answer",
        };
        let mut bytes = Vec::with_capacity(self.body.len() + 1024);
        write!(bytes, "HTTP/1.1 {} {reason}\r\n", self.status)?;
        for (name, value) in &self.headers {
            write!(bytes, "{name}: {value}\r\n")?;
        }
        // RFC 9110, section 8.6: none with 204 and 304.
        if !matches!(self.status, 204 | 304) {
            write!(bytes, "Content-Length: {}\r\n", self.body.len())?;
        }
        bytes.extend_from_slice(b"Connection: close\r\n\r\n");
        if !self.head_only {
            bytes.extend_from_slice(&self.body);
        }
        stream.write_all(&bytes)?;
        stream.flush()
    }
}
