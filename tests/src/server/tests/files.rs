//! Which file answers, in which form, with which headers.

use super::super::{Options, Server};
use super::{Folder, ask, serve, status};

#[test]
fn the_page_comes_with_type_safety_headers_and_no_long_keeping() {
    let folder = Folder::new("page");
    let answer = ask(&serve(&folder), "GET /?a=1", "");
    assert!(answer.starts_with("HTTP/1.1 200 OK\r\n"), "{answer}");
    assert!(answer.ends_with("\r\n\r\npage"), "{answer}");
    for line in [
        "Content-Type: text/html; charset=utf-8",
        "Cache-Control: no-cache",
        "X-Content-Type-Options: nosniff",
        "Referrer-Policy: no-referrer",
        "Cross-Origin-Opener-Policy: same-origin",
        "Cross-Origin-Embedder-Policy: require-corp",
        "Cross-Origin-Resource-Policy: same-origin",
        "Content-Security-Policy: frame-ancestors 'none'",
        "Content-Length: 4",
    ] {
        assert!(
            answer.contains(&format!("\r\n{line}\r\n")),
            "{line} in {answer}"
        );
    }
}

#[test]
fn types_and_keeping_follow_the_file_name() {
    let folder = Folder::new("types");
    let server = serve(&folder);
    let check = |path: &str, kind: &str, keep: &str| {
        let answer = ask(&server, &format!("GET {path}"), "");
        assert!(
            answer.contains(&format!("Content-Type: {kind}")),
            "{answer}"
        );
        assert!(
            answer.contains(&format!("Cache-Control: {keep}")),
            "{answer}"
        );
    };
    let for_ever = "public, max-age=31536000, immutable";
    check(
        "/shell-0123456789abcdef_bg.wasm",
        "application/wasm",
        for_ever,
    );
    // A leading zero is left out of the name.
    check("/shell-49fe1c56369eb1b.js", "text/javascript", for_ever);
    check(
        "/manifest.webmanifest",
        "application/manifest+json",
        "no-cache",
    );
    check("/worker.js", "text/javascript", "no-cache");
    check("/part/", "text/html", "no-cache");
}

#[test]
fn compressed_copies_go_only_to_those_who_read_them() {
    let folder = Folder::new("copies");
    let server = serve(&folder);
    let check = |accept: &str, body: &str, coding: Option<&str>| {
        let answer = ask(
            &server,
            "GET /worker.js",
            &format!("Accept-Encoding: {accept}\r\n"),
        );
        assert!(
            answer.ends_with(&format!("\r\n\r\n{body}")),
            "{accept}: {answer}"
        );
        let said = answer
            .lines()
            .find_map(|line| line.strip_prefix("Content-Encoding: "));
        assert_eq!(said, coding, "{accept}");
        assert!(answer.contains("Content-Type: text/javascript"), "{answer}");
    };
    check("gzip, deflate, br", "BR", Some("br"));
    check("gzip", "GZ", Some("gzip"));
    check("br;q=0, gzip;q=0.5", "GZ", Some("gzip"));
    check("identity", "plain worker", None);
}

#[test]
fn a_known_tag_is_answered_without_a_body() {
    let folder = Folder::new("tag");
    let server = serve(&folder);
    let first = ask(&server, "GET /worker.js", "");
    let tag = first
        .lines()
        .find_map(|line| line.strip_prefix("ETag: "))
        .expect("a tag");
    let known = format!("If-None-Match: {tag}\r\n");
    let again = ask(&server, "GET /worker.js", &known);
    assert!(
        again.starts_with("HTTP/1.1 304 ") && again.ends_with("\r\n\r\n"),
        "{again}"
    );
    folder.write("site/worker.js", "another worker");
    let changed = ask(&server, "GET /worker.js", &known);
    assert!(changed.ends_with("another worker"), "{changed}");
}

#[test]
fn head_says_the_length_and_sends_nothing() {
    let folder = Folder::new("head");
    let answer = ask(&serve(&folder), "HEAD /", "");
    assert!(
        answer.contains("Content-Length: 4") && answer.ends_with("\r\n\r\n"),
        "{answer}"
    );
}

#[test]
fn nothing_outside_the_folder_is_served() {
    let folder = Folder::new("outside");
    let server = serve(&folder);
    for path in [
        "/../outside.txt",
        "/part/../../outside.txt",
        "/%2e%2e/outside.txt",
        "/..%2foutside.txt",
        "/..%5coutside.txt",
        "//outside.txt",
        "/part",
        "/none.txt",
    ] {
        assert_eq!(status(&server, &format!("GET {path}")), 404, "{path}");
    }
    assert_eq!(status(&server, "GET /%zz"), 400);
    assert_eq!(status(&server, "DELETE /"), 405);
}

#[test]
fn below_a_path_everything_moves_and_the_root_is_empty() {
    let folder = Folder::new("under");
    let options = Options::new(folder.site()).under("/stall/app/");
    let server = Server::start(options).expect("starts");
    assert!(server.url().ends_with("/stall/app/"), "{}", server.url());
    assert_eq!(status(&server, "GET /stall/app/"), 200);
    assert_eq!(status(&server, "GET /stall/app/worker.js"), 200);
    assert_eq!(status(&server, "GET /"), 404);
    assert_eq!(status(&server, "GET /stall/apple"), 404);
    let answer = ask(&server, "GET /stall/app", "");
    assert!(
        answer.contains("308 ") && answer.contains("Location: /stall/app/\r\n"),
        "{answer}"
    );
}
