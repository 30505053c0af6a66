//! Gives what the module and its script call each other by short names. The generator's own hold whole type names and digests, which
//! no compression takes out, some 3 kB (brotli) of a first visit.

use std::collections::BTreeMap;

use walrus::Module;

/// How the script reads the module's exports.
const READS: &str = "wasm.";

/// Renames imports and exports, in the module and in the script alike. An import that the script does not define as an entry of its
/// own keeps its name, and so does an export that it does not read.
pub fn shorten(module: &mut Module, script: &str) -> String {
    let mut imports = BTreeMap::new();
    for import in module.imports.iter_mut() {
        if script.contains(&entry(&import.name)) {
            let short = short("i", imports.len());
            let long = std::mem::replace(&mut import.name, short.clone());
            imports.insert(long, short);
        }
    }
    let mut exports = BTreeMap::new();
    for export in module.exports.iter_mut() {
        let is_long = export.name.len() > "memory".len() && !is_shared(&export.name);
        if is_long && script.contains(&format!("{READS}{}", export.name)) {
            let short = short("x", exports.len());
            let long = std::mem::replace(&mut export.name, short.clone());
            exports.insert(long, short);
        }
    }
    let mut renamed = String::with_capacity(script.len());
    for line in script.split_inclusive('\n') {
        let head = imports
            .iter()
            .find(|(long, _)| line.starts_with(&entry(long)));
        match head {
            Some((long, short)) => renamed.push_str(&line.replacen(long.as_str(), short, 1)),
            None => renamed.push_str(&with_short_reads(line, &exports)),
        }
    }
    renamed
}

/// The head of an import's definition, as the generator writes it.
fn entry(name: &str) -> String {
    format!("        {name}: function(")
}

/// Whether a late module reads an export by this name: it is not in the script.
fn is_shared(name: &str) -> bool {
    name == "__indirect_function_table" || name.starts_with("__wasm_split")
}

fn short(letter: &str, number: usize) -> String {
    format!("{letter}{number}")
}

fn with_short_reads(line: &str, exports: &BTreeMap<String, String>) -> String {
    let mut parts = line.split(READS);
    let mut renamed = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        let end = part
            .find(|sign: char| !sign.is_ascii_alphanumeric() && sign != '_')
            .unwrap_or(part.len());
        let (name, rest) = part.split_at(end);
        renamed.push_str(READS);
        renamed.push_str(exports.get(name).map_or(name, String::as_str));
        renamed.push_str(rest);
    }
    renamed
}

#[cfg(test)]
mod tests {
    use super::{shorten, with_short_reads};
    use std::collections::BTreeMap;
    use walrus::{FunctionBuilder, Module, ModuleConfig};

    #[test]
    fn both_sides_agree_on_the_short_names() {
        let mut module = Module::with_config(ModuleConfig::new());
        let of = module.types.add(&[], &[]);
        let (called, _) = module.add_import_func("./m.js", "__wbg_long_0123", of);
        module.add_import_func("./m.js", "elsewhere", of);
        let mut body = FunctionBuilder::new(&mut module.types, &[], &[]);
        body.func_body().call(called);
        let body = body.finish(vec![], &mut module.funcs);
        module.exports.add("__wbindgen_malloc", body);
        let script = "        __wbg_long_0123: function(arg0) {\n            wasm.__wbindgen_malloc(wasm.memory);\n";
        let renamed = shorten(&mut module, script);
        assert_eq!(
            renamed,
            "        i0: function(arg0) {\n            wasm.x0(wasm.memory);\n"
        );
        let names: Vec<_> = module
            .imports
            .iter()
            .map(|import| import.name.as_str())
            .collect();
        assert_eq!(names, ["i0", "elsewhere"]);
        assert!(module.exports.iter().any(|export| export.name == "x0"));
    }

    #[test]
    fn only_whole_names_are_replaced() {
        let exports = BTreeMap::from([("long".to_owned(), "x0".to_owned())]);
        assert_eq!(
            with_short_reads("wasm.long(1, wasm.longer, wasm.long)", &exports),
            "wasm.x0(1, wasm.longer, wasm.x0)"
        );
    }
}
