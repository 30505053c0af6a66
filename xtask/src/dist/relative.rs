//! Everything must work below any path of any host: no address in the page or in the manifest may start at
//! the root or name a host.

use std::path::Path;

use serde_json::Value;

use super::{files, has_ending, load};
use crate::fail::{Done, While, fail};

/// Checks every page and the manifest.
///
/// # Errors
/// Names the first address that is not relative.
pub fn check(dist: &Path) -> Done {
    for name in files(dist)? {
        let text = || String::from_utf8(load(dist, &name)?).or_fail(format!("{name} is not UTF-8"));
        let found = if has_ending(&name, "html") {
            in_page(&text()?)
        } else if has_ending(&name, "webmanifest") || name == "manifest.json" {
            let manifest: Value =
                serde_json::from_str(&text()?).or_fail(format!("{name} is no JSON"))?;
            in_manifest(&manifest)
        } else {
            None
        };
        if let Some(address) = found {
            return fail(format!(
                "{name} has the address {address}, which breaks below a path or leaves the host: \
                 write it relative, as ./…"
            ));
        }
    }
    Ok(())
}

/// The first attribute value or style address that starts with a slash, or any `http:` or `https:` address.
/// Names of XML vocabularies look like addresses but are never fetched.
fn in_page(text: &str) -> Option<String> {
    let text = text.replace("xmlns=\"http://www.w3.org/", "xmlns=\"");
    let starts = [
        "=\"/", "='/", "=/", "url(/", "url(\"/", "url('/", "http://", "https://",
    ];
    let at = starts.iter().filter_map(|start| text.find(start)).min()?;
    let rest = &text[at..];
    let end = rest.find(['>', '\n', ' ']).unwrap_or(rest.len());
    Some(rest[..end].to_owned())
}

/// The first text anywhere in the manifest that is such an address.
fn in_manifest(value: &Value) -> Option<String> {
    match value {
        Value::String(text) => {
            (text.starts_with('/') || text.contains("://")).then(|| text.clone())
        }
        Value::Array(list) => list.iter().find_map(in_manifest),
        Value::Object(map) => map.values().find_map(in_manifest),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn addresses_from_the_root_or_with_a_host_are_found_in_a_page() {
        let check = |text: &str, found: Option<&str>| {
            assert_eq!(in_page(text).as_deref(), found, "{text}");
        };
        check(r#"<link href="./a.css"><a href="./#/decide">1/2</a>"#, None);
        check(r#"<svg xmlns="http://www.w3.org/2000/svg"></svg>"#, None);
        check(r#"<link href="/a.css">"#, Some(r#"="/a.css""#));
        check("<img src=/a.png>", Some("=/a.png"));
        check(r#"<a href="//host.test/">"#, Some(r#"="//host.test/""#));
        check("<p>see https://host.test now", Some("https://host.test"));
        check(
            "<i style=\"background:url(/x.png)\">",
            Some("url(/x.png)\""),
        );
    }

    #[test]
    fn addresses_are_found_anywhere_in_a_manifest() {
        let check = |text: &str, found: Option<&str>| {
            let manifest = serde_json::from_str(text).expect("JSON");
            assert_eq!(in_manifest(&manifest).as_deref(), found, "{text}");
        };
        check(r#"{"start_url":"./","icons":[{"src":"./icon.svg"}]}"#, None);
        check(r#"{"start_url":"/"}"#, Some("/"));
        check(
            r#"{"icons":[{"src":"https://host.test/i.png"}]}"#,
            Some("https://host.test/i.png"),
        );
    }
}
