//! What to answer: files below the served path, acknowledgements where the tests asked for them, and the
//! security headers on everything.

use std::io;

use super::http::{Reply, Request};
use super::{Seen, Shared, files, lock};

/// Sent with every answer: no sniffing, no referrer, no framing, cross-origin isolation.
const ALWAYS: [(&str, &str); 6] = [
    ("X-Content-Type-Options", "nosniff"),
    ("Referrer-Policy", "no-referrer"),
    ("Cross-Origin-Opener-Policy", "same-origin"),
    ("Cross-Origin-Embedder-Policy", "require-corp"),
    ("Cross-Origin-Resource-Policy", "same-origin"),
    ("Content-Security-Policy", "frame-ancestors 'none'"),
];

/// Answers one request and notes it in the log.
pub(crate) fn to(request: &Request, shared: &Shared) -> Reply {
    let mut reply = decide(request, shared);
    reply.head_only = request.method == "HEAD";
    lock(&shared.log).push(Seen {
        method: request.method.clone(),
        path: request.target.clone(),
        host: request.header("host").to_owned(),
        status: reply.status,
    });
    reply
}

/// The answer to bytes that are no request.
pub(crate) fn bad_request(problem: &io::Error) -> Reply {
    plain(400, &format!("not a request: {problem}"))
}

fn decide(request: &Request, shared: &Shared) -> Reply {
    let sent = request.target.split(['?', '#']).next().unwrap_or_default();
    let Some(path) = files::decode(sent) else {
        return plain(400, "the path is not well encoded");
    };
    if let (Some(on_ack), "POST") = (&shared.on_ack, request.method.as_str())
        && let Some(text) = path.strip_prefix("/__ack/")
    {
        on_ack(text);
        return with(204, Vec::new(), Vec::new());
    }
    if !matches!(request.method.as_str(), "GET" | "HEAD") {
        let mut reply = plain(405, "only GET and HEAD are served here");
        reply.headers.push(("Allow", "GET, HEAD".to_owned()));
        return reply;
    }
    let Some(inside) = below(&path, &shared.under) else {
        return plain(404, "nothing here");
    };
    if inside.is_empty() {
        // A page without the slash would resolve its relative addresses one level too high.
        let place = vec![("Location", format!("/{}/", shared.under))];
        return with(308, place, Vec::new());
    }
    let folder = lock(&shared.folder).clone();
    let Some(found) = files::find(&folder, inside, request.header("accept-encoding")) else {
        return plain(404, "no such file");
    };
    if matches(request.header("if-none-match"), &found.tag) {
        return with(304, found.headers(), Vec::new());
    }
    match std::fs::read(&found.path) {
        Ok(body) => with(200, found.headers(), body),
        Err(problem) => plain(404, &format!("the file cannot be read: {problem}")),
    }
}

/// The path below the served one, with its slash; empty when the slash at the end is missing.
fn below<'a>(path: &'a str, under: &str) -> Option<&'a str> {
    if under.is_empty() {
        return Some(path);
    }
    let rest = path.strip_prefix('/')?.strip_prefix(under)?;
    (rest.is_empty() || rest.starts_with('/')).then_some(rest)
}

/// RFC 9110, section 13.1.2: a list of tags or a star; weak and strong compare alike.
fn matches(sent: &str, tag: &str) -> bool {
    sent.split(',')
        .map(|one| one.trim().trim_start_matches("W/"))
        .any(|one| one == "*" || one == tag)
}

fn plain(status: u16, text: &str) -> Reply {
    let kind = ("Content-Type", "text/plain; charset=utf-8".to_owned());
    let cache = ("Cache-Control", "no-store".to_owned());
    with(status, vec![kind, cache], text.as_bytes().to_vec())
}

fn with(status: u16, mut headers: Vec<(&'static str, String)>, body: Vec<u8>) -> Reply {
    headers.extend(ALWAYS.map(|(name, value)| (name, value.to_owned())));
    Reply {
        status,
        headers,
        body,
        head_only: false,
    }
}
