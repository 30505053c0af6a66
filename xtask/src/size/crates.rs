//! What the bytes of the module are spent on: function bodies summed by the crate that they come from.

use std::collections::HashMap;
use std::path::Path;

use wasmparser::{KnownCustom, Name, Parser, Payload, TypeRef};

use crate::fail::{Done, While, fail};

/// How many lines the table has before the rest is summed up.
const LINES: usize = 25;

/// What was found in a module.
#[derive(Default)]
struct Module<'a> {
    imported: u32,
    bodies: Vec<usize>,
    data: usize,
    names: HashMap<u32, &'a str>,
}

/// Prints bytes by crate, largest first.
///
/// # Errors
/// When the module is missing, no module, or has lost the names of its functions.
pub fn print(path: &Path) -> Done {
    let bytes = std::fs::read(path).or_fail(format!("reading {}", path.display()))?;
    let module = read(&bytes).or_fail("reading the module")?;
    if module.names.is_empty() {
        return fail(format!(
            "{} has no names of functions in it",
            path.display()
        ));
    }
    let mut sums: HashMap<String, usize> = HashMap::new();
    for (index, size) in (module.imported..).zip(&module.bodies) {
        let owner = module.names.get(&index).map(|name| owner(name));
        *sums
            .entry(owner.unwrap_or_else(|| "(no name)".to_owned()))
            .or_default() += size;
    }
    sums.insert("(data)".to_owned(), module.data);
    let mut sums: Vec<_> = sums.into_iter().collect();
    sums.sort_by(|a, b| b.1.cmp(&a.1).then_with(|| a.0.cmp(&b.0)));
    for (name, size) in sums.iter().take(LINES) {
        println!("{size:>10}  {name}");
    }
    let rest: usize = sums.iter().skip(LINES).map(|(_, size)| size).sum();
    println!("{rest:>10}  in {} more", sums.len().saturating_sub(LINES));
    println!(
        "{:>10}  the whole module with its names, which are not served",
        bytes.len()
    );
    Ok(())
}

fn read(bytes: &[u8]) -> Result<Module<'_>, wasmparser::BinaryReaderError> {
    let mut module = Module::default();
    for payload in Parser::new(0).parse_all(bytes) {
        match payload? {
            Payload::ImportSection(section) => {
                for import in section {
                    if matches!(import?.ty, TypeRef::Func(_)) {
                        module.imported += 1;
                    }
                }
            }
            Payload::CodeSectionEntry(body) => module.bodies.push(body.range().len()),
            Payload::DataSection(section) => module.data = section.range().len(),
            Payload::CustomSection(section) => {
                let KnownCustom::Name(names) = section.as_known() else {
                    continue;
                };
                for part in names {
                    if let Name::Function(functions) = part? {
                        for function in functions {
                            let function = function?;
                            module.names.insert(function.index, function.name);
                        }
                    }
                }
            }
            _ => {}
        }
    }
    Ok(module)
}

/// The crate at the head of a function's path. For `<A as B>::c` that is the crate of `A`; for a built-in
/// type, that of `B`. What has no path is C or the linker's. A crate may bear its hash: `core[0123abc]::fmt`.
fn owner(mangled: &str) -> String {
    let name = format!("{:#}", rustc_demangle::demangle(mangled));
    let is_word = |c: char| c.is_alphanumeric() || c == '_';
    let mut rest = name.as_str();
    while let Some(at) = rest.find("::") {
        let head = &rest[..at];
        let head = head.strip_suffix(']').map_or(head, |hashed| {
            hashed.rfind('[').map_or(head, |open| &hashed[..open])
        });
        let start = head.rfind(|c| !is_word(c)).map_or(0, |before| before + 1);
        let word = head[start..].to_owned();
        if !word.is_empty() {
            return word;
        }
        rest = &rest[at + 2..];
    }
    "(no crate)".to_owned()
}

#[cfg(test)]
mod tests {
    use super::owner;

    #[test]
    fn the_crate_is_the_first_path_in_a_name() {
        let check =
            |mangled: &str, expected: &str| assert_eq!(owner(mangled), expected, "{mangled}");
        check("_ZN4core3fmt5write17h0123456789abcdefE", "core");
        check(
            "_ZN58_$LT$alloc..string..String$u20$as$u20$core..fmt..Write$GT$9write_str17h0123456789abcdefE",
            "alloc",
        );
        check(
            "_ZN42_$LT$$RF$T$u20$as$u20$core..fmt..Debug$GT$3fmt17h0123456789abcdefE",
            "core",
        );
        check("core[1a2b3c]::panicking::panic_fmt", "core");
        check(
            "<alloc[1a2b]::string::String as core[3c]::fmt::Write>::write_str",
            "alloc",
        );
        check("<[u8] as core[3c]::fmt::Debug>::fmt", "core");
        check("memcpy", "(no crate)");
    }
}
