//! What the browser gets names no other host: the app talks to nobody, and works under any path.

use super::tree::{File, files, none};

/// Names of vocabularies look like addresses; nothing is fetched from them.
const NAMESPACES: [&str; 3] = [
    "http://www.w3.org/2000/svg",
    "http://www.w3.org/1999/xlink",
    "http://www.w3.org/1999/xhtml",
];
/// Comments may say where a standard is found.
const STANDARDS: [&str; 6] = [
    "https://www.w3.org/",
    "https://w3c.github.io/",
    "https://html.spec.whatwg.org/",
    "https://fetch.spec.whatwg.org/",
    "https://www.rfc-editor.org/",
    "https://datatracker.ietf.org/",
];

fn browser_files() -> Vec<File> {
    let mut files = files(&[".js", ".html", ".css", ".webmanifest", ".svg"]);
    files.retain(|file| file.path == "app/index.html" || file.path.starts_with("public/"));
    assert!(files.len() > 5);
    files
}

/// Code and comments apart. A stroke after a colon is an address, not a comment.
fn apart(path: &str, text: &str) -> (String, String) {
    let ends: &[(&str, &str)] = match path.rsplit_once('.').unwrap().1 {
        "js" => &[("//", "\n"), ("/*", "*/")],
        "css" => &[("/*", "*/")],
        "webmanifest" => &[],
        _ => &[("<!--", "-->")],
    };
    let (mut code, mut comments) = (String::new(), String::new());
    let mut rest = text;
    while let Some(sign) = rest.chars().next() {
        let opens = ends.iter().find(|(open, _)| {
            rest.starts_with(open) && !code.ends_with(':') && !code.ends_with(['"', '\'', '`'])
        });
        let step = if let Some((open, close)) = opens {
            let end = rest[open.len()..].find(close);
            let end = end.map_or(rest.len(), |at| open.len() + at + close.len());
            comments.push_str(&rest[..end]);
            end
        } else {
            code.push(sign);
            sign.len_utf8()
        };
        rest = &rest[step..];
    }
    (code, comments)
}

/// Every place of a text that names a host, up to the next blank.
fn addresses(text: &str) -> Vec<&str> {
    let mut found = Vec::new();
    for (at, _) in text.match_indices("//") {
        let scheme = ["https:", "http:", "wss:", "ws:"]
            .into_iter()
            .find(|scheme| text[..at].ends_with(scheme));
        let is_bare = text[..at].ends_with(['"', '\'', '`', '(', '='])
            && text[at + 2..].starts_with(char::is_alphanumeric);
        if scheme.is_some() || is_bare {
            let rest = &text[at - scheme.map_or(0, str::len)..];
            let end = rest
                .find(|sign: char| sign.is_whitespace() || "\"'`)<>".contains(sign))
                .unwrap_or(rest.len());
            found.push(&rest[..end]);
        }
    }
    found
}

#[test]
fn nothing_in_the_browser_names_another_host() {
    let mut complaints = Vec::new();
    for file in browser_files() {
        let (code, comments) = apart(&file.path, &file.text);
        let foreign = addresses(&code)
            .into_iter()
            .filter(|address| !NAMESPACES.contains(address));
        let cited = addresses(&comments).into_iter().filter(|address| {
            !STANDARDS
                .iter()
                .any(|standard| address.starts_with(standard))
                && !NAMESPACES.contains(address)
        });
        complaints.extend(
            foreign
                .chain(cited)
                .map(|address| format!("{}: {address}", file.path)),
        );
    }
    none(
        &complaints,
        "Every address is relative; only a standard may be cited, in a comment.",
    );
}

/// An address that starts at the root would leave the folder that the app was put into.
#[test]
fn no_address_in_the_page_starts_at_the_root() {
    let mut complaints = Vec::new();
    for file in browser_files() {
        let (code, _) = apart(&file.path, &file.text);
        for mark in [
            "href=\"/",
            "src=\"/",
            "action=\"/",
            "url(/",
            "url(\"/",
            "fetch(\"/",
            "\"start_url\": \"/",
            "\"scope\": \"/",
            "register(\"/",
        ] {
            if code.contains(mark) {
                complaints.push(format!("{}: {mark}", file.path));
            }
        }
    }
    none(
        &complaints,
        "Addresses are relative to the page, so that the app works under any path.",
    );
}

#[test]
fn addresses_are_told_from_comments_and_names() {
    let check = |path: &str, text: &str, in_code: &[&str], in_comments: &[&str]| {
        let (code, comments) = apart(path, text);
        assert_eq!(addresses(&code), in_code, "{text}");
        assert_eq!(addresses(&comments), in_comments, "{text}");
    };
    check(
        "a.js",
        "fetch(\"https://a.example/x\"); // see https://b.example",
        &["https://a.example/x"],
        &["https://b.example"],
    );
    check(
        "a.js",
        "f('//a.example'); let a = 6 /* 1 */ / 2;",
        &["//a.example"],
        &[],
    );
    check(
        "a.css",
        "a { background: url(http://a.example/b) } /* url(//b.example) */",
        &["http://a.example/b"],
        &["//b.example"],
    );
    check(
        "a.html",
        "<a href=\"//a.example\"> <!-- http://b.example -->",
        &["//a.example"],
        &["http://b.example"],
    );
    check("a.webmanifest", "{\"start_url\": \"./\"}", &[], &[]);
}
