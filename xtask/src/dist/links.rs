//! Every file that a page, the manifest or a style sheet names is in the build.

use std::path::Path;

use super::{files, has_ending, load};
use crate::fail::{Done, While, fail};

/// What stands before a relative address in pages, manifests and style sheets.
const BEFORE: [&str; 4] = ["\"./", "'./", "(./", "=./"];

/// Checks all of them.
///
/// # Errors
/// Names the first file that is missing, and who names it.
pub fn check(dist: &Path) -> Done {
    let all = files(dist)?;
    for name in &all {
        if !["html", "webmanifest", "css"]
            .iter()
            .any(|end| has_ending(name, end))
        {
            continue;
        }
        let text = String::from_utf8(load(dist, name)?).or_fail(format!("{name} is not UTF-8"))?;
        let folder = name.rfind('/').map_or("", |slash| &name[..=slash]);
        for address in addresses(&text) {
            let file = format!("{folder}{address}");
            let folder_page = file.is_empty() || file.ends_with('/');
            if !folder_page && !all.contains(&file) {
                return fail(format!(
                    "{name} names ./{address}, which is not in the build"
                ));
            }
        }
    }
    Ok(())
}

/// The relative addresses without their `./`, query and fragment.
fn addresses(text: &str) -> impl Iterator<Item = &str> {
    BEFORE.into_iter().flat_map(move |before| {
        text.split(before).skip(1).map(|rest| {
            let end = rest.find(['"', '\'', ')', '>', ' ', '?', '#']);
            &rest[..end.unwrap_or(rest.len())]
        })
    })
}

#[cfg(test)]
mod tests {
    use super::addresses;

    #[test]
    fn addresses_are_found_without_query_and_fragment() {
        let text = r#"<a href="./#/decide"><img src='./a.png?v=1'> p{background:url(./b.svg)} ./no <i x=./c>"#;
        let found: Vec<_> = addresses(text).collect();
        assert_eq!(found, ["", "a.png", "b.svg", "c"]);
    }
}
