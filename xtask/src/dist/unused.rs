//! Takes out of the build what a library exports to the page and nothing here ever calls: byte streams of a package behind the signals.
//! An export is a root that the linker must keep, with all that it reaches, some 4 kB (brotli) of a first visit. What is left gets short
//! names.

use std::path::Path;

use super::{load, main_module, names};
use crate::fail::{Done, While, fail};

/// The classes that are exported for nobody.
const CLASSES: [&str; 3] = [
    "IntoUnderlyingByteSource",
    "IntoUnderlyingSink",
    "IntoUnderlyingSource",
];

/// Takes them out of the module and of its script.
///
/// # Errors
/// When there is not one module to start with, or one of them is not as the binding generator writes it.
pub fn take_out(dist: &Path) -> Done {
    let module = main_module(dist)?;
    let script = module.replace("_bg.wasm", ".js");
    let mut parsed = walrus::Module::from_buffer(&load(dist, &module)?)
        .map_err(|error| format!("{error:#}"))
        .or_fail(format!("reading {module}"))?;
    let belongs = |name: &str| {
        CLASSES
            .iter()
            .any(|class| name.contains(&class.to_lowercase()))
    };
    let unused: Vec<_> = parsed
        .exports
        .iter()
        .filter(|export| belongs(&export.name))
        .map(walrus::Export::id)
        .collect();
    for export in unused {
        parsed.exports.delete(export);
    }
    walrus::passes::gc::run(&mut parsed);

    let text = String::from_utf8(load(dist, &script)?).or_fail(format!("{script} is not UTF-8"))?;
    let text = CLASSES
        .iter()
        .fold(text, |text, class| without_class(&text, class));
    if let Some(class) = CLASSES.iter().find(|class| text.contains(**class)) {
        return fail(format!("{script} names {class} where it was not expected"));
    }
    let is_asked_for = |name: &str| parsed.imports.iter().any(|import| import.name == name);
    let text = without_imports(&text, is_asked_for);
    let text = names::shorten(&mut parsed, &text);
    std::fs::write(dist.join(&module), parsed.emit_wasm()).or_fail(format!("writing {module}"))?;
    std::fs::write(dist.join(&script), text).or_fail(format!("writing {script}"))
}

/// The script without a class, what it does at the page's end, and how it is cleaned up. Each is a statement that begins at the margin
/// and ends before the next line at the margin that is not its closing brace.
fn without_class(script: &str, class: &str) -> String {
    let heads = [
        format!("export class {class} "),
        format!("if (Symbol.dispose) {class}."),
        format!("const {class}Finalization "),
    ];
    let mut kept = String::with_capacity(script.len());
    let mut skips = false;
    for line in script.split_inclusive('\n') {
        let is_margin = !line.starts_with([' ', '}', '\n']);
        if is_margin {
            skips = heads.iter().any(|head| line.starts_with(head.as_str()));
        }
        if !skips {
            kept.push_str(line);
        }
    }
    kept
}

/// The script without functions that the module imports no more: each is an entry of eight blanks, a name and `: function`, to its
/// closing brace eight blanks in.
fn without_imports(script: &str, is_asked_for: impl Fn(&str) -> bool) -> String {
    let mut kept = String::with_capacity(script.len());
    let mut skips = false;
    for line in script.split_inclusive('\n') {
        let entry = line
            .strip_prefix("        ")
            .and_then(|entry| entry.split_once(": function("));
        if let Some((name, _)) = entry {
            skips = name.starts_with("__wb") && !is_asked_for(name);
        }
        if !skips {
            kept.push_str(line);
        }
        if line == "        },\n" {
            skips = false;
        }
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::{without_class, without_imports};

    #[test]
    fn a_class_goes_with_its_disposal_and_its_clean_up() {
        let script = "export class Gone {\n    free() {\n    }\n}\nif (Symbol.dispose) Gone.prototype[Symbol.dispose] = 1;\n\nexport class Kept {\n}\nconst GoneFinalization = (1)\n    ? 2\n    : 3;\nlet x = 1;\n";
        assert_eq!(
            without_class(script, "Gone"),
            "export class Kept {\n}\nlet x = 1;\n"
        );
        assert_eq!(without_class(script, "Other"), script);
    }

    #[test]
    fn an_import_goes_when_the_module_does_not_ask_for_it() {
        let script = "    const import0 = {\n        __wbg_a: function(arg0) {\n            if (x) {\n            }\n        },\n        __wbg_b: function() {\n        },\n    };\n";
        assert_eq!(
            without_imports(script, |name| name == "__wbg_b"),
            "    const import0 = {\n        __wbg_b: function() {\n        },\n    };\n"
        );
        assert_eq!(without_imports(script, |_| true), script);
    }
}
