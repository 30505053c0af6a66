//! Takes from the module what no browser needs: the names of its functions and the notes of its makers, a
//! third of its bytes. A copy with the names stays behind for the table of sizes.

use std::path::Path;

use wasmparser::{Parser, Payload};

use super::{files, has_ending, load};
use crate::fail::{Done, While, fail};

/// Slims the modules of a build; `named` is the folder where the copies with names go, each under the word before its digest.
///
/// # Errors
/// When there is none, or one cannot be read or written.
pub fn slim(dist: &Path, named: Option<&Path>) -> Done {
    let modules: Vec<_> = files(dist)?
        .into_iter()
        .filter(|name| has_ending(name, "wasm"))
        .collect();
    if modules.is_empty() {
        return fail("the build holds no module");
    }
    for name in &modules {
        let bytes = load(dist, name)?;
        if let Some(folder) = named {
            let word = name.split('-').next().unwrap_or(name);
            let named = folder.join(format!("{word}-named.wasm"));
            std::fs::write(&named, &bytes).or_fail(format!("writing {}", named.display()))?;
        }
        let slim = without_custom(&bytes).or_fail(format!("reading {name}"))?;
        std::fs::write(dist.join(name), slim).or_fail(format!("writing {name}"))?;
    }
    Ok(())
}

/// The module without its custom sections, which mean nothing for running it (WebAssembly core specification,
/// binary format of modules, custom section).
fn without_custom(bytes: &[u8]) -> Result<Vec<u8>, wasmparser::BinaryReaderError> {
    // Magic number and version.
    let mut out = bytes.get(..8).unwrap_or(bytes).to_vec();
    for payload in Parser::new(0).parse_all(bytes) {
        let payload = payload?;
        if matches!(payload, Payload::CustomSection(_)) {
            continue;
        }
        if let Some((id, range)) = payload.as_section() {
            out.push(id);
            push_length(&mut out, range.len());
            out.extend_from_slice(&bytes[range]);
        }
    }
    Ok(out)
}

/// Unsigned LEB128, as section lengths are written.
fn push_length(out: &mut Vec<u8>, mut length: usize) {
    loop {
        let low = u8::try_from(length & 0x7f).unwrap_or_default();
        length >>= 7;
        if length == 0 {
            out.push(low);
            return;
        }
        out.push(low | 0x80);
    }
}

#[cfg(test)]
mod tests {
    use super::{push_length, without_custom};

    #[test]
    fn custom_sections_go_and_the_others_stay_as_they_are() {
        let head = b"\0asm\x01\0\0\0";
        let types = b"\x01\x04\x01\x60\0\0";
        let custom = b"\0\x05\x04name";
        let module = [head.as_slice(), custom, types, custom].concat();
        let slim = without_custom(&module).expect("a module");
        assert_eq!(slim, [head.as_slice(), types].concat());
        assert!(without_custom(b"no module").is_err());
    }

    #[test]
    fn lengths_are_written_in_groups_of_seven_bits() {
        // The examples of the DWARF 4 standard, section 7.6, from memory.
        let check = |length: usize, bytes: &[u8]| {
            let mut out = Vec::new();
            push_length(&mut out, length);
            assert_eq!(out, bytes, "{length}");
        };
        check(2, &[2]);
        check(127, &[127]);
        check(128, &[0x80, 1]);
        check(129, &[0x81, 1]);
        check(12_857, &[0xb9, 0x64]);
    }
}
