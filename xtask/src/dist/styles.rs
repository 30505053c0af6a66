//! Makes one style sheet of the many that it imports: in the source each concern has its file, on the phone
//! each file more is a wait.

use std::path::Path;

use super::{files, has_ending, load};
use crate::fail::{Done, Fail, While, fail};

const IMPORT: &str = "@import url(\"./";

/// Puts the imported sheets into those at the top of the build, and takes the single ones out of it.
///
/// # Errors
/// When an import cannot be followed.
pub fn join(dist: &Path) -> Done {
    for name in files(dist)? {
        if !has_ending(&name, "css") || name.contains('/') {
            continue;
        }
        let sheet = text(dist, &name)?;
        let mut taken = Vec::new();
        let joined = inline(&sheet, |imported| {
            taken.push(imported.to_owned());
            text(dist, imported)
        })?;
        std::fs::write(dist.join(&name), joined).or_fail(format!("writing {name}"))?;
        for imported in taken {
            std::fs::remove_file(dist.join(&imported)).or_fail(format!("removing {imported}"))?;
        }
    }
    Ok(())
}

fn text(dist: &Path, name: &str) -> Done<String> {
    String::from_utf8(load(dist, name)?).or_fail(format!("{name} is not UTF-8"))
}

/// Replaces each import line by what it names. One level only, and no addresses in what is imported
/// but data: the others would need to be written anew from the place of the outer sheet.
fn inline(sheet: &str, mut load: impl FnMut(&str) -> Done<String>) -> Done<String> {
    let mut joined = String::with_capacity(sheet.len());
    for line in sheet.lines() {
        if let Some(rest) = line.trim_start().strip_prefix(IMPORT) {
            let name = rest.trim_end().strip_suffix("\");");
            let name =
                name.ok_or_else(|| Fail(format!("an import with more than an address: {line}")))?;
            let inner = load(name)?;
            let data = inner.matches("url(\"data:").count();
            if inner.contains("@import") || inner.matches("url(").count() > data {
                return fail(format!(
                    "{name} is imported and may name no other file itself"
                ));
            }
            joined.push_str(&inner);
        } else if line.contains("@import") {
            return fail(format!("write imports as {IMPORT}…\"); and not as {line}"));
        } else {
            joined.push_str(line);
        }
        joined.push('\n');
    }
    Ok(joined)
}

#[cfg(test)]
mod tests {
    use super::{fail, inline};

    #[test]
    fn imports_are_replaced_in_their_order_and_the_rest_stays() {
        let sheet = "/* all */\n@import url(\"./a.css\");\n@import url(\"./b.css\");\np{}\n";
        let joined = inline(sheet, |name| Ok(format!("/* {name} */"))).expect("joins");
        assert_eq!(joined, "/* all */\n/* a.css */\n/* b.css */\np{}\n");
    }

    #[test]
    fn what_cannot_be_followed_is_refused() {
        let with = |inner: &'static str| move |_: &str| Ok(inner.to_owned());
        assert!(inline("@import \"a.css\";", with("")).is_err());
        assert!(inline("@import url(\"./a.css\") print;", with("")).is_err());
        assert!(
            inline(
                "@import url(\"./a.css\");",
                with("@import url(\"./b.css\");")
            )
            .is_err()
        );
        assert!(inline("@import url(\"./a.css\");", with("p{background:url(x)}")).is_err());
        assert!(inline("@import url(\"./a.css\");", |_| fail("no such file")).is_err());
    }
}
