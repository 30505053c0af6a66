//! Which file answers a path: inside the folder or not at all, in the best form that the browser reads,
//! with its type and how long it may be kept.

use std::path::{Component, Path, PathBuf};
use std::time::UNIX_EPOCH;

/// Compressed copies in order of preference: file ending and the name that HTTP has for it.
const COPIES: [(&str, &str); 2] = [("br", "br"), ("gz", "gzip")];

/// A file to send.
pub(crate) struct Found {
    pub(crate) path: PathBuf,
    /// The entity tag in its quotes: differs for each content and each coding.
    pub(crate) tag: String,
    media_type: &'static str,
    coding: Option<&'static str>,
    hashed: bool,
}

impl Found {
    /// The headers that describe the file.
    pub(crate) fn headers(&self) -> Vec<(&'static str, String)> {
        // A name with a hash in it never gets other content; everything else is asked for anew each time.
        let keep = if self.hashed {
            "public, max-age=31536000, immutable"
        } else {
            "no-cache"
        };
        let mut headers = vec![
            ("Content-Type", self.media_type.to_owned()),
            ("Cache-Control", keep.to_owned()),
            ("ETag", self.tag.clone()),
            ("Vary", "Accept-Encoding".to_owned()),
        ];
        if let Some(coding) = self.coding {
            headers.push(("Content-Encoding", coding.to_owned()));
        }
        headers
    }
}

/// Finds the file for a decoded path that starts with a slash; a folder stands for its `index.html`.
pub(crate) fn find(folder: &Path, path: &str, accept: &str) -> Option<Found> {
    let relative = Path::new(path.trim_start_matches('/'));
    let inside = |part: Component| matches!(part, Component::Normal(_));
    if path.contains(['\\', '\0']) || !relative.components().all(inside) {
        return None;
    }
    let mut file = folder.join(relative);
    if file.is_dir() && path.ends_with('/') {
        file.push("index.html");
    }
    // A link inside the folder may point out of it: the real place decides.
    let real = file.canonicalize().ok()?;
    if !real.is_file() || !real.starts_with(folder.canonicalize().ok()?) {
        return None;
    }
    let name = file.file_name()?.to_str()?;
    let copy = COPIES.iter().find_map(|(ending, coding)| {
        let copy = real.with_file_name(format!("{name}.{ending}"));
        (accepts(accept, coding) && copy.is_file()).then_some((copy, *coding))
    });
    let (path, coding) = copy.map_or((real, None), |(copy, coding)| (copy, Some(coding)));
    Some(Found {
        tag: tag(&path, coding)?,
        path,
        media_type: media_type(name),
        coding,
        hashed: is_hashed(name),
    })
}

fn tag(file: &Path, coding: Option<&str>) -> Option<String> {
    let about = file.metadata().ok()?;
    let changed = about.modified().ok()?.duration_since(UNIX_EPOCH).ok()?;
    let (length, changed) = (about.len(), changed.as_nanos());
    Some(format!(
        "\"{length:x}-{changed:x}-{}\"",
        coding.unwrap_or("plain")
    ))
}

/// Whether an `Accept-Encoding` header names the coding without forbidding it by `q=0` (RFC 9110, 12.5.3).
fn accepts(header: &str, coding: &str) -> bool {
    header.split(',').any(|part| {
        let mut pieces = part.split(';').map(str::trim);
        let named = pieces
            .next()
            .is_some_and(|name| name.eq_ignore_ascii_case(coding));
        let refused = pieces
            .filter_map(|piece| piece.strip_prefix("q="))
            .any(|weight| weight.parse() == Ok(0.0_f32));
        named && !refused
    })
}

/// The build names files `name-<64 bits in hexadecimal>…`, without leading zeros.
fn is_hashed(name: &str) -> bool {
    let is_hash = |part: &str| {
        (10..=16).contains(&part.len()) && part.bytes().all(|byte| byte.is_ascii_hexdigit())
    };
    name.split(['-', '_', '.']).any(is_hash)
}

/// The media type for a file name, by its ending (IANA media types registry).
pub fn media_type(name: &str) -> &'static str {
    if name == "manifest.json" {
        return "application/manifest+json";
    }
    match name.rsplit_once('.').map_or("", |(_, ending)| ending) {
        "html" => "text/html; charset=utf-8",
        "js" | "mjs" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "wasm" => "application/wasm",
        "webmanifest" => "application/manifest+json",
        "json" => "application/json",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "ico" => "image/vnd.microsoft.icon",
        "webp" => "image/webp",
        "woff2" => "font/woff2",
        "txt" => "text/plain; charset=utf-8",
        "csv" => "text/csv; charset=utf-8",
        _ => "application/octet-stream",
    }
}

/// Undoes percent encoding (RFC 3986, section 2.1); `None` when it is broken or yields no UTF-8.
pub(crate) fn decode(path: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(path.len());
    let mut rest = path.bytes();
    while let Some(byte) = rest.next() {
        if byte != b'%' {
            bytes.push(byte);
            continue;
        }
        let mut digit = || char::from(rest.next()?).to_digit(16);
        let value = digit()? * 16 + digit()?;
        bytes.push(u8::try_from(value).ok()?);
    }
    String::from_utf8(bytes).ok()
}
